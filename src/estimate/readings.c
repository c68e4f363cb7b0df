/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Speed, end point and selectivity from the central values; what brought a colour down; and
 * which arms no other beats. Definitions: docs/science.md, "Comparing strips".
 */
#include <assert.h>
#include <math.h>

#include "slowlift/rank.h"
#include "slowlift/what_if.h"

static const double LEAST_MOVED = 1e-6; /* below this the base has not moved: no ratio is made of it */

static double selectivity_at(const sl_timeline *timeline, int arm, int zone, double time_min)
{
    sl_cell cell, base;
    const int reference = sl_reference_zone(sl_timeline_scene(timeline), zone);
    sl_timeline_at(timeline, arm, zone, time_min, NULL, &cell);
    sl_timeline_at(timeline, arm, reference, time_min, NULL, &base);
    if (base.base_moved < LEAST_MOVED || !(cell.colour_left > 0.0)) {
        return -1.0;
    }
    return log(cell.colour_left) / log1p(-base.base_moved);
}

sl_three_readings sl_three_readings_of(const sl_timeline *timeline, int arm, int zone, double share)
{
    const sl_scene *const scene = sl_timeline_scene(timeline);
    const sl_timeline *const rinsed = sl_timeline_rinsed(timeline);
    const double dry = sl_arm_end_min(scene, arm);
    assert(rinsed);
    sl_three_readings readings = {.selectivity = -1.0, .end_left = -1.0};
    double time_min = 0.0;
    if (sl_first_time(rinsed, arm, zone, SL_COLOUR_LEFT, 0.5, &time_min)) {
        readings.halved = true;
        readings.half_min = time_min - scene->arms[arm].contact_min;
    }
    sl_cell cell;
    sl_timeline_at(timeline, arm, zone, dry, NULL, &cell);
    readings.end_left = cell.colour_left;
    readings.at_share = sl_first_time(rinsed, arm, zone, SL_COLOUR_LEFT, share, &time_min);
    readings.selectivity = readings.at_share ? selectivity_at(rinsed, arm, zone, time_min)
                                             : selectivity_at(timeline, arm, zone, dry);
    return readings;
}

/* sum over dyes of their weight in the colour at the start, and of rim and core by their share. */
sl_reason sl_reason_of(const sl_timeline *timeline, int arm, int zone, double time_min)
{
    const sl_scene *const scene = sl_timeline_scene(timeline);
    const sl_recipe *const recipe = &scene->zones[zone].recipe;
    const double temperature_k = sl_scene_temperature_k(scene, scene->arms[arm].contact_min, 0.0);
    sl_reason reason = {.sum = 0.0};
    sl_moment moment;
    double weights = 0.0;
    sl_timeline_moment(timeline, arm, zone, time_min, &moment);
    for (int i = 0; i < recipe->n_dyes; i++) {
        sl_dye dye = scene->dyes[recipe->dye[i]];
        sl_rates_settle(&dye.rates, &scene->chemistry, temperature_k);
        const double weight = recipe->strength[i] * sl_dye_absorbance(&dye);
        const double rim = dye.rim_share.value;
        for (int c = 0; c < SL_CHANNELS; c++) {
            reason.channel[c] += weight * dye.rates.k[c].value *
                                 (rim * moment.rim_dose[c] + (1.0 - rim) * moment.core_dose[c]);
        }
        const sl_dye_washing washed = sl_dye_washed(&dye, moment.leach_min, moment.shampoos);
        reason.washing += weight * (rim * washed.rim + (1.0 - rim) * washed.core);
        reason.reducing += weight * dye.reduced[moment.reductant].value *
                           (rim * moment.rim_reduced + (1.0 - rim) * moment.core_reduced);
        weights += weight;
    }
    for (int c = 0; c < SL_CHANNELS && weights > 0.0; c++) {
        reason.channel[c] /= weights;
        reason.sum += reason.channel[c];
    }
    reason.washing = weights > 0.0 ? reason.washing / weights : 0.0;
    reason.reducing = weights > 0.0 ? reason.reducing / weights : 0.0;
    reason.sum += reason.washing + reason.reducing;
    return reason;
}

void sl_unbeaten(const double *left, const double *stress, int n, bool *unbeaten)
{
    double least = 1.0;
    for (int i = 0; i < n; i++) {
        least = fmin(least, left[i]);
    }
    for (int i = 0; i < n; i++) {
        unbeaten[i] = 1.0 - left[i] >= SL_TAKES_OUT * (1.0 - least);
        for (int j = 0; j < n && unbeaten[i]; j++) {
            const bool as_good = left[j] <= left[i] && stress[j] <= stress[i];
            unbeaten[i] = !(as_good && (left[j] < left[i] || stress[j] < stress[i]));
        }
    }
}
