/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * How warm the hair is: from where it lies, or point by point when the scene says so.
 */
#include <assert.h>
#include <math.h>

#include "slowlift/model.h"

static const double ZERO_C_K = 273.15;

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
        break;
    }
    return scene->room_c;
}

double sl_scene_temperature_k(const sl_scene *scene, double clock_min, double since_contact_min)
{
    const double temperature_c = scene->n_points > 0 ? point_by_point_c(scene, clock_min)
                                                     : of_place_c(scene, fmax(since_contact_min, 0.0));
    return temperature_c + scene->shift_k + ZERO_C_K;
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
