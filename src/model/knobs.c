/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * How knobs are read and set. What is of the whole scene, and the time of the first application alone, is set
 * by what_if.c.
 */
#include "slowlift/knob.h"

#include "base/language.h"

static double get_strength(const sl_scene *scene, const sl_mix *mix, const sl_step *step)
{
    (void)scene;
    (void)step;
    return mix->developer_pct;
}

static void set_strength(sl_mix *mix, sl_step *step, double pct)
{
    (void)step;
    mix->developer_pct = pct;
}

static double get_water(const sl_scene *scene, const sl_mix *mix, const sl_step *step)
{
    (void)scene;
    (void)step;
    return mix->water_parts;
}

static void set_water(sl_mix *mix, sl_step *step, double parts)
{
    (void)step;
    if (parts > 0.0) { /* what was weighed of a reducing agent is then in more water, or in less */
        mix->reductant_share *= mix->water_parts / parts;
    }
    mix->water_parts = parts;
}

static double get_ratio(const sl_scene *scene, const sl_mix *mix, const sl_step *step)
{
    (void)scene;
    (void)step;
    return (mix->developer_parts + mix->water_parts) / mix->powder_parts;
}

/* Developer : water stays. */
static void set_ratio(sl_mix *mix, sl_step *step, double parts)
{
    (void)step;
    const double by = parts * mix->powder_parts / (mix->developer_parts + mix->water_parts);
    mix->developer_parts *= by;
    mix->water_parts *= by;
}

static double get_warmer(const sl_scene *scene, const sl_mix *mix, const sl_step *step)
{
    (void)mix;
    (void)step;
    return scene->shift_k;
}

#define set_warmer NULL /* of the scene */

static double get_time(const sl_scene *scene, const sl_mix *mix, const sl_step *step)
{
    (void)scene;
    (void)mix;
    return step->duration_min;
}

#define set_time NULL /* of the first application alone */

static double get_age(const sl_scene *scene, const sl_mix *mix, const sl_step *step)
{
    (void)scene;
    (void)mix;
    return step->mix_age_min;
}

static void set_age(sl_mix *mix, sl_step *step, double minutes)
{
    (void)mix;
    step->mix_age_min = minutes;
}

static double get_grams(const sl_scene *scene, const sl_mix *mix, const sl_step *step)
{
    (void)scene;
    (void)mix;
    return step->mix_g_per_g;
}

static void set_grams(sl_mix *mix, sl_step *step, double grams)
{
    (void)mix;
    step->mix_g_per_g = grams;
}

static double get_covered(const sl_scene *scene, const sl_mix *mix, const sl_step *step)
{
    (void)scene;
    (void)mix;
    return step->covered ? 1.0 : 0.0;
}

static void set_covered(sl_mix *mix, sl_step *step, double covered)
{
    (void)mix;
    step->covered = covered > 0.5;
}

#define ROW(NAME, name, unit, least, most, track_most, step, where, value, help, axis, panel)                \
    [SL_SETTING_##                                                                                           \
        NAME] = {#name, unit, least, most, track_most, step, where, axis, panel, get_##name, set_##name},
const sl_knob sl_knobs[SL_SETTINGS] = {SL_KNOB_LIST(ROW)};
#undef ROW
