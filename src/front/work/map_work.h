/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What `slowlift map` was asked for and what it takes to answer, for the program that writes and
 * for the one that draws. Invariant: scenes that do not lie on the bench are refused.
 */
#ifndef SLOWLIFT_FRONT_MAP_WORK_H
#define SLOWLIFT_FRONT_MAP_WORK_H

#include "front/option.h"
#include "slowlift/map.h"

typedef struct sl_map_work {
    const char *file, *arm_word, *zone_word, *x_word, *y_word;
    sl_result_wish result;
    sl_map_layer shows;
    int coarse_x, coarse_y; /* every so many points stand in the text */
    sl_scene *scene;
    sl_solver *solver;
    sl_map *map;
} sl_map_work; /* start with {0} */

extern const sl_command_line sl_map_typed;
bool sl_map_work_read(sl_map_work *work, int argc, char **argv, sl_error *error);
bool sl_map_work_compute(sl_map_work *work, sl_error *error);
void sl_map_work_free(sl_map_work *work);

#endif
