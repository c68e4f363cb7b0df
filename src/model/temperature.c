/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * How warm the hair is: from where it lies, or point by point when the scene says so; and whether that makes
 * it hair on a head.
 */
#include <assert.h>
#include <math.h>

#include "slowlift/model.h"

static double point_by_point_c(const sl_scene *scene, double clock_min)
{
    const sl_course_point *const point = scene->points;
    if (clock_min <= point[0].time_min) {
        return point[0].temperature_c;
    }
    for (int i = 1; i < scene->n_points; i++) {
        if (clock_min <= point[i].time_min) {
            const double share =
                (clock_min - point[i - 1].time_min) / (point[i].time_min - point[i - 1].time_min);
            return point[i - 1].temperature_c + share * (point[i].temperature_c - point[i - 1].temperature_c);
        }
    }
    return point[scene->n_points - 1].temperature_c;
}

static double of_place_c(const sl_scene *scene, double since_contact_min)
{
    const sl_chemistry *const chemistry = &scene->chemistry;
    switch (scene->place) {
    case SL_PLACE_HEAD:
        return chemistry->head_c.value;
    case SL_PLACE_WRAPPED:
        return chemistry->head_c.value - chemistry->wrapped_rise_k.value *
                                             expm1(-since_contact_min / chemistry->wrapped_time_min.value);
    case SL_PLACE_BENCH:
    case SL_PLACE_COUNT:
    default:
        return scene->room_c;
    }
}

double sl_scene_temperature_k(const sl_scene *scene, double clock_min, double since_contact_min)
{
    const double temperature_c = scene->n_points > 0 ? point_by_point_c(scene, clock_min)
                                                     : of_place_c(scene, fmax(since_contact_min, 0.0));
    return temperature_c + scene->shift_k + SL_ZERO_C_K;
}

bool sl_scene_isothermal(const sl_scene *scene)
{
    if (scene->n_points > 0) {
        for (int i = 1; i < scene->n_points; i++) {
            if (scene->points[i].temperature_c > scene->points[0].temperature_c ||
                scene->points[i].temperature_c < scene->points[0].temperature_c) {
                return false;
            }
        }
        return true;
    }
    return scene->place != SL_PLACE_WRAPPED || !(fabs(scene->chemistry.wrapped_rise_k.value) > 0.0);
}

bool sl_chemistry_warms(const sl_chemistry *chemistry)
{
    return chemistry->mix_heat_j_g_k.value > 0.0;
}

/* ---- what counts as a head ------------------------------------------------------------------- */

/* What is no number is as cold and as warm as can be. */
static void widen(double celsius, double *coldest_c, double *warmest_c)
{
    *coldest_c = fmin(*coldest_c, isnan(celsius) ? -HUGE_VAL : celsius);
    *warmest_c = fmax(*warmest_c, isnan(celsius) ? HUGE_VAL : celsius);
}

void sl_scene_warmth(const sl_scene *scene, double *coldest_c, double *warmest_c)
{
    const double head = scene->chemistry.head_c.value;
    *coldest_c = HUGE_VAL;
    *warmest_c = -HUGE_VAL;
    for (int i = 0; i < scene->n_points; i++) {
        widen(scene->points[i].temperature_c, coldest_c, warmest_c);
    }
    if (scene->n_points == 0) {
        const bool bench = scene->place == SL_PLACE_BENCH;
        widen(bench ? scene->room_c : head, coldest_c, warmest_c);
        if (scene->place == SL_PLACE_WRAPPED) {
            widen(head + scene->chemistry.wrapped_rise_k.value, coldest_c, warmest_c);
        }
    }
    *coldest_c += scene->shift_k;
    *warmest_c += scene->shift_k;
}

bool sl_scene_on_head(const sl_scene *scene)
{
    double coldest = 0.0, warmest = 0.0;
    sl_scene_warmth(scene, &coldest, &warmest);
    const bool cool = warmest < SL_HEAD_FROM_C && scene->room_c + scene->shift_k < SL_HEAD_FROM_C;
    return scene->place != SL_PLACE_BENCH || !cool || scene->person != NULL;
}

bool sl_swatches_only(const sl_scene *scene, const char *instead, sl_error *error)
{
    return !(sl_scene_on_head(scene) || scene->untold) ||
           sl_fail(error, SL_ERR_USAGE,
                   "this hair counts as a head: it lies there, is as warm as there (30 °C), or is somebody's",
                   instead);
}
