/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Aims, limits, odds and verdicts (limits.h), for cut hair in a classroom.
 */
#include "lesson/asked.h"
#include <string.h>

#include "slowlift/answer.h"

static bool aims_set(const sl_asked *asked, sl_bound aim, double *value)
{
    *value = aim.most;
    return aim.set || sl_asked_refuse(asked, "an aim that the scene does not set", "write it under `aims`");
}

static bool goal(const sl_asked *asked, double *value)
{
    double share = 0.0;
    const bool set = sl_goal_share(asked->scene, -1, &share);
    return aims_set(asked, (sl_bound){share, set}, value);
}

static bool aim(const sl_asked *asked, double *value)
{
    sl_bound bound;
    memcpy(&bound, (const char *)&asked->scene->aims + asked->what->member, sizeof bound);
    return aims_set(asked, bound, value);
}

static bool goal_time(const sl_asked *asked, double *value)
{
    const sl_limits limits = sl_limits_of(asked->timeline, asked->arm, NULL);
    *value = limits.early_min;
    return (limits.asked && limits.early_reached) ||
           sl_asked_refuse(asked, "a goal that is not reached here",
                           "set aims, or let the scene go on for longer");
}

static bool stop_time(const sl_asked *asked, double *value)
{
    const sl_limits limits = sl_limits_of(asked->timeline, asked->arm, NULL);
    *value = limits.asked ? limits.stop_min[limits.stop] : 0.0;
    return (limits.asked && limits.stop_reached[limits.stop]) ||
           sl_asked_refuse(asked, "no limit stops this strip", "set limits under `aims`");
}

static bool spent_time(const sl_asked *asked, double *value)
{
    const sl_limits limits = sl_limits_of(asked->timeline, asked->arm, NULL);
    *value = limits.spent_min;
    return (limits.asked && limits.spent) || sl_asked_refuse(asked, "a mix that is not spent in this scene",
                                                             "set aims, or let it lie for longer");
}

static bool answer(const sl_asked *asked, sl_answer *found)
{
    const sl_spread_request request = {.members = SL_MEMBERS, .seed = SL_SEED, .threads = 1};
    if (!*asked->spread && !sl_spread_run(asked->spread, asked->scene, &request, asked->reading->error)) {
        return false;
    }
    *found = sl_answer_of(asked->scene, *asked->spread, asked->arm, NULL);
    return true;
}

static bool odds(const sl_asked *asked, double *value)
{
    sl_answer found;
    const bool good = answer(asked, &found);
    *value = good ? (double)found.dots / SL_DOTS : 0.0;
    return good &&
           (found.odds >= 0.0 || sl_asked_refuse(asked, "odds that are not known", "set aims and limits"));
}

static bool verdict(const sl_asked *asked, double *value)
{
    sl_answer found;
    const bool good = answer(asked, &found);
    *value = good ? (double)found.verdict : 0.0;
    return good;
}

static bool checks(const sl_asked *asked, double *value)
{
    sl_answer found;
    const bool good = answer(asked, &found);
    *value = good ? found.n_checks : 0.0;
    return good;
}

static bool first_check(const sl_asked *asked, double *value)
{
    sl_answer found;
    const bool good = answer(asked, &found);
    *value = good ? found.check[0] : 0.0;
    return good && (found.n_checks > 0 ||
                    sl_asked_refuse(asked, "no check at all", "this strip has no moment to look at"));
}

const sl_what sl_whats_of_verdict[] = {
    {"goal", SL_AS_SHARE, 0, true, goal, 0},
    {"base limit", SL_AS_SHARE, 0, true, aim, offsetof(sl_aims, base_moved)},
    {"stress limit", SL_AS_SHARE, 0, true, aim, offsetof(sl_aims, cystine_lost)},
    {"longest", SL_AS_MINUTES, 0, true, aim, offsetof(sl_aims, longest_min)},
    {"goal time", SL_AS_MINUTES, SL_NEEDS_ARM, false, goal_time, 0},
    {"stop time", SL_AS_MINUTES, SL_NEEDS_ARM, false, stop_time, 0},
    {"spent time", SL_AS_MINUTES, SL_NEEDS_ARM, false, spent_time, 0},
    {"odds", SL_AS_ODDS, SL_NEEDS_ARM, false, odds, 0},
    {"verdict", SL_AS_WORD, SL_NEEDS_ARM, false, verdict, 0},
    {"checks", SL_AS_COUNT, SL_NEEDS_ARM, false, checks, 0},
    {"first check", SL_AS_MINUTES, SL_NEEDS_ARM, true, first_check, 0},
    {NULL, SL_AS_COUNT, 0, false, NULL, 0},
};
