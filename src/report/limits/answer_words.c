/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The parts of one arm's answer in words, as the page of limits and the window both set them; see
 * limits.h. Invariant: a computed minute stands in a range of whole minutes.
 */
#include <math.h>
#include <stdio.h>

#include "base/language.h"
#include "base/minute.h"
#include "document/text.h"
#include "report/limits/leave_words.h"
#include "report/limits/limits.h"
#include "report/reading.h"

static const char *zone_name(const sl_scene *scene, int zone)
{
    return zone >= 0 ? sl_zone_title(&scene->zones[zone]) : _("the zones");
}

void sl_answer_goal_words(const sl_scene *scene, const sl_answer *answer, char *text, size_t size)
{
    char minutes[96];
    sl_three_words(answer->early, answer->cut, sl_leave_last_min(&answer->leave), minutes, sizeof minutes);
    snprintf(text, size, _("%s; \"%s\" mostly %s"), minutes, zone_name(scene, answer->goal_zone),
             answer->early.p10 < 0.0 ? _("holds most") : _("last"));
}

/* Which label ends it and by which clock; a mix that was too old is told so, with no minute. */
static void label_stop_words(const sl_answer *answer, const char *minutes, char *text, size_t size)
{
    char words[256];
    sl_label_words(&answer->leave.label, words, sizeof words);
    if (answer->leave.label.end_min >= 1.0) {
        snprintf(text, size, _("%s; mostly %s"), minutes, words);
    } else if (answer->leave.label.end_min > 0.0) {
        snprintf(text, size, _("within a minute of contact: %s. Mix afresh, and do not put this one on."),
                 words);
    } else {
        snprintf(text, size, _("before contact: %s. Mix afresh, and do not put this one on."), words);
    }
}

void sl_answer_stop_words(const sl_scene *scene, int arm, const sl_answer *answer, const sl_limits *limits,
                          char *text, size_t size)
{
    const int zone = sl_limits_stop_zone(scene, limits, answer->stop);
    char minutes[96];
    sl_three_words(answer->late, false, sl_leave_last_min(&answer->leave), minutes, sizeof minutes);
    if (answer->stop == SL_STOP_LABEL && answer->leave.label.source != SL_LABEL_NOT_ENTERED) {
        label_stop_words(answer, minutes, text, size);
    } else if (answer->stop == SL_STOP_END) {
        const double end = scene->until_min - scene->arms[arm].contact_min;
        const bool some = answer->late.p10 >= 0.0 && answer->late.p10 < end - 1.0;
        sl_minute_words(SL_MINUTE_MODEL, minutes, sizeof minutes, "%.0f min", floor(answer->late.p10));
        if (some) {
            snprintf(text, size,
                     _("mostly no limit before the scene ends; in some model runs one does, from %s on"),
                     minutes);
        } else {
            snprintf(text, size, "%s", _("mostly no limit before the scene ends"));
        }
    } else if (zone >= 0) {
        snprintf(text, size, _("%s; mostly %s, in \"%s\""), minutes, _(sl_stop_word(answer->stop)),
                 zone_name(scene, zone));
    } else {
        snprintf(text, size, _("%s; mostly %s"), minutes, _(sl_stop_word(answer->stop)));
    }
}

bool sl_answer_comes_to_the_stop(const sl_answer *answer, const sl_limits *limits)
{
    return limits->stop_min[limits->stop] <= sl_leave_last_min(&answer->leave);
}

void sl_answer_left_words(const sl_scene *scene, const sl_answer *answer, const sl_limits *limits, char *text,
                          size_t size)
{
    const sl_reading_words *const looks = &limits->leftover_words;
    char reading[96];
    const char *const zone = zone_name(scene, answer->goal_zone);
    if (looks->tone && sl_answer_comes_to_the_stop(answer, limits)) {
        sl_chart_words(looks, reading, sizeof reading);
        snprintf(text, size,
                 _("about %d %% of the dye in \"%s\" at the stop in the middle model run; it then looks like "
                   "%s by the chart \"%s\""),
                 answer->left_p50_percent, zone, reading, scene->chart.name);
    } else {
        snprintf(text, size, _("about %d %% of the dye in \"%s\" at the stop in the middle model run"),
                 answer->left_p50_percent, zone);
    }
}

void sl_answer_base_words(const sl_limits *limits, char *text, size_t size)
{
    char start[16], stop[16], end[16];
    sl_short_number(limits->level_start, 1, start, sizeof start);
    sl_short_number(limits->level_at_stop, 1, stop, sizeof stop);
    sl_short_number(SL_LEVEL_END, 1, end, sizeof end);
    snprintf(text, size,
             _("base from %s to %s when rinsed at the stop, by the central values; the scale ends at %s"),
             start, stop, end);
}

bool sl_answer_waiting_words(const sl_limits *limits, double last_min, int reason, char *text, size_t size)
{
    const double since = reason == 0 ? limits->spent_min : limits->dried_min;
    char minutes[32];
    if (!(reason == 0 ? limits->spent : limits->dried) || since + 1.0 > last_min) {
        return false;
    }
    sl_minutes_range(since, minutes, sizeof minutes);
    snprintf(text, size,
             reason == 0 ? _("after %s the mix is all but spent: waiting buys nothing")
                         : _("after %s the mix is all but dry: waiting buys nothing"),
             minutes);
    return true;
}

/* What to do when no minute is left to look at. */
static const char *without_checks(const sl_answer *answer)
{
    const bool there = answer->early.p50 >= 0.0 && answer->early.p50 <= answer->seen_min;
    if (answer->seen_min > 0.0 && there) {
        return _("now: in most model runs the goal is reached. Wipe and dry one lock and judge that; rinse "
                 "when it is there");
    }
    if (answer->seen_min > 0.0) {
        return _("now: in some model runs a limit is passed. Look without a pause, and rinse when in doubt");
    }
    return _("no minute is planned for the goal: a limit may come before it");
}

void sl_answer_checks_words(const sl_answer *answer, char *text, size_t size)
{
    char minutes[SL_MINUTES_TEXT];
    if (answer->n_checks == 0) {
        snprintf(text, size, "%s", without_checks(answer));
        return;
    }
    sl_minutes_words(SL_MINUTE_MODEL, answer->check, answer->n_checks, minutes, sizeof minutes);
    snprintf(text, size, _("wipe clean, look, cover again: %s"), minutes);
}
