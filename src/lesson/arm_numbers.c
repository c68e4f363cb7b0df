/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What an arm is: its mix, what is weighed for it, when things are done; how two arms differ.
 */
#include <math.h>

#include "lesson/asked.h"
#include "slowlift/plan.h"
#include "slowlift/what_if.h"

static const sl_mix *mix_of(const sl_asked *asked)
{
    const sl_step *const step = sl_asked_application(asked);
    return step ? &asked->scene->mixes[step->mix] : NULL;
}

/* ---- a member of what the arm is made of ------------------------------------------------------------- */

static bool of_mix(const sl_asked *asked, double *value)
{
    *value = sl_asked_member(asked, mix_of(asked));
    return true;
}

static bool of_weighing(const sl_asked *asked, double *value)
{
    const sl_weighing weighing = sl_weigh(mix_of(asked), &asked->scene->chemistry, asked->scene->hair_g,
                                          sl_asked_application(asked)->mix_g_per_g, 0.0);
    *value = sl_asked_member(asked, &weighing);
    return true;
}

static bool of_step(const sl_asked *asked, double *value)
{
    *value = sl_asked_member(asked, sl_asked_application(asked));
    return true;
}

static bool of_arm(const sl_asked *asked, double *value)
{
    *value = sl_asked_member(asked, &asked->scene->arms[asked->arm]);
    return true;
}

/* ---- worked out -------------------------------------------------------------------------------------- */

static bool ratio(const sl_asked *asked, double *value)
{
    const sl_mix *const mix = mix_of(asked);
    if (!(mix->powder_parts > 0.0)) {
        return sl_asked_refuse(asked, "a mix without powder", "a ratio is parts of liquid for one of powder");
    }
    *value = (mix->developer_parts + mix->water_parts) / mix->powder_parts;
    return true;
}

static bool done(const sl_asked *asked, double *value)
{
    const sl_arm *const arm = &asked->scene->arms[asked->arm];
    *value = sl_arm_done_min(arm) - arm->contact_min;
    return true;
}

static bool warmth(const sl_asked *asked, double *value)
{
    *value =
        sl_scene_temperature_k(asked->scene, asked->scene->arms[asked->arm].contact_min, 0.0) - SL_ZERO_C_K;
    return true;
}

/* In how many things two arms differ (plan.h). */
static bool differences(const sl_asked *asked, double *value)
{
    bool differs[SL_DIFFERENCES];
    const int n = sl_arms_differ(asked->scene, asked->arm, asked->other, differs);
    *value = n;
    return n >= 0 || sl_asked_refuse(asked, "a strip without a mix", "two strips with a mix are compared");
}

/* The largest of its zones with direct dye. */
static bool bench_to_head(const sl_asked *asked, double *value)
{
    sl_times_range times;
    if (!sl_place_times(asked->timeline, asked->arm, SL_PLACE_BENCH, SL_PLACE_HEAD, &times,
                        asked->reading->error)) {
        return false;
    }
    *value = times.most;
    return true;
}

#define GIVEN(word, measured, of, type, member)                                                              \
    {                                                                                                        \
        word, measured, SL_NEEDS_ARM, true, of, SL_MEMBER(type, member)                                      \
    }
const sl_what sl_whats_of_arm[] = {
    GIVEN("strength", SL_AS_STRENGTH, of_mix, sl_mix, developer_pct),
    GIVEN("in liquid", SL_AS_STRENGTH, of_weighing, sl_weighing, liquid_pct),
    GIVEN("in paste", SL_AS_STRENGTH, of_weighing, sl_weighing, on_hair_pct),
    GIVEN("water parts", SL_AS_COUNT, of_mix, sl_mix, water_parts),
    {"ratio", SL_AS_COUNT, SL_NEEDS_ARM, true, ratio, 0},
    GIVEN("activity", SL_AS_SHARE, of_mix, sl_mix, activity),
    GIVEN("dwell", SL_AS_MINUTES, of_step, sl_step, duration_min),
    GIVEN("contact", SL_AS_MINUTES, of_arm, sl_arm, contact_min),
    GIVEN("mix age", SL_AS_MINUTES, of_step, sl_step, mix_age_min),
    {"done", SL_AS_MINUTES, SL_NEEDS_ARM, true, done, 0},
    {"warmth", SL_AS_CELSIUS, SL_NEEDS_ARM, true, warmth, 0},
    GIVEN("grams powder", SL_AS_GRAMS, of_weighing, sl_weighing, powder_g),
    GIVEN("grams developer", SL_AS_GRAMS, of_weighing, sl_weighing, developer_g),
    GIVEN("grams water", SL_AS_GRAMS, of_weighing, sl_weighing, water_g),
    GIVEN("grams mix", SL_AS_GRAMS, of_weighing, sl_weighing, total_g),
    {"differences", SL_AS_COUNT, SL_NEEDS_ARM | SL_NEEDS_OTHER, true, differences, 0},
    {"bench to head", SL_AS_TIMES, SL_NEEDS_ARM, false, bench_to_head, 0},
    {NULL, SL_AS_COUNT, 0, false, NULL, 0},
};
