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

static sl_weighing weighing(const sl_asked *asked)
{
    return sl_weigh(mix_of(asked), &asked->scene->chemistry, asked->scene->hair_g,
                    sl_asked_application(asked)->mix_g_per_g, 0.0);
}

static bool strength(const sl_asked *asked, double *value)
{
    *value = mix_of(asked)->developer_pct;
    return true;
}

static bool in_liquid(const sl_asked *asked, double *value)
{
    *value = weighing(asked).liquid_pct;
    return true;
}

static bool in_paste(const sl_asked *asked, double *value)
{
    *value = weighing(asked).on_hair_pct;
    return true;
}

static bool water_parts(const sl_asked *asked, double *value)
{
    *value = mix_of(asked)->water_parts;
    return true;
}

static bool ratio(const sl_asked *asked, double *value)
{
    const sl_mix *const mix = mix_of(asked);
    if (!(mix->powder_parts > 0.0)) {
        return sl_asked_refuse(asked, "a mix without powder", "a ratio is parts of liquid for one of powder");
    }
    *value = (mix->developer_parts + mix->water_parts) / mix->powder_parts;
    return true;
}

static bool activity(const sl_asked *asked, double *value)
{
    *value = mix_of(asked)->activity;
    return true;
}

static bool dwell(const sl_asked *asked, double *value)
{
    *value = sl_asked_application(asked)->duration_min;
    return true;
}

static bool mix_age(const sl_asked *asked, double *value)
{
    *value = sl_asked_application(asked)->mix_age_min;
    return true;
}

static bool contact(const sl_asked *asked, double *value)
{
    *value = asked->scene->arms[asked->arm].contact_min;
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

static bool grams_powder(const sl_asked *asked, double *value)
{
    *value = weighing(asked).powder_g;
    return true;
}

static bool grams_developer(const sl_asked *asked, double *value)
{
    *value = weighing(asked).developer_g;
    return true;
}

static bool grams_water(const sl_asked *asked, double *value)
{
    *value = weighing(asked).water_g;
    return true;
}

static bool grams_mix(const sl_asked *asked, double *value)
{
    *value = weighing(asked).total_g;
    return true;
}

/* In how many things two arms differ (plan.h). */
static bool differences(const sl_asked *asked, double *value)
{
    bool differs[SL_DIFFERENCES];
    const int n = sl_arms_differ(asked->scene, asked->arm, asked->other, differs);
    *value = n;
    return n >= 0 || sl_asked_refuse(asked, "an arm without a mix", "two arms with a mix are compared");
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

const sl_what sl_whats_of_arm[] = {
    {"strength", SL_AS_STRENGTH, SL_NEEDS_ARM, true, strength},
    {"in liquid", SL_AS_STRENGTH, SL_NEEDS_ARM, true, in_liquid},
    {"in paste", SL_AS_STRENGTH, SL_NEEDS_ARM, true, in_paste},
    {"water parts", SL_AS_COUNT, SL_NEEDS_ARM, true, water_parts},
    {"ratio", SL_AS_COUNT, SL_NEEDS_ARM, true, ratio},
    {"activity", SL_AS_SHARE, SL_NEEDS_ARM, true, activity},
    {"dwell", SL_AS_MINUTES, SL_NEEDS_ARM, true, dwell},
    {"contact", SL_AS_MINUTES, SL_NEEDS_ARM, true, contact},
    {"mix age", SL_AS_MINUTES, SL_NEEDS_ARM, true, mix_age},
    {"done", SL_AS_MINUTES, SL_NEEDS_ARM, true, done},
    {"warmth", SL_AS_CELSIUS, SL_NEEDS_ARM, true, warmth},
    {"grams powder", SL_AS_GRAMS, SL_NEEDS_ARM, true, grams_powder},
    {"grams developer", SL_AS_GRAMS, SL_NEEDS_ARM, true, grams_developer},
    {"grams water", SL_AS_GRAMS, SL_NEEDS_ARM, true, grams_water},
    {"grams mix", SL_AS_GRAMS, SL_NEEDS_ARM, true, grams_mix},
    {"differences", SL_AS_COUNT, SL_NEEDS_ARM | SL_NEEDS_OTHER, true, differences},
    {"bench to head", SL_AS_TIMES, SL_NEEDS_ARM, false, bench_to_head},
    {NULL, SL_AS_COUNT, 0, false, NULL},
};
