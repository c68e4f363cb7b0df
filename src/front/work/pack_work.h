/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What `slowlift pack` was asked for and what its sheets need, for the program that draws.
 * Invariant: scenes that do not lie on the bench are refused.
 */
#ifndef SLOWLIFT_FRONT_PACK_WORK_H
#define SLOWLIFT_FRONT_PACK_WORK_H

#include "front/work/plan_work.h"
#include "slowlift/map.h"

typedef struct sl_pack_work {
    const char *file, *output, *models;
    int paper; /* 0: A4; 1: US Letter */
    bool blind;
    sl_plan_work plan;
    sl_scene *scene;
    sl_solver *solver;
    sl_optics *dry;
    sl_map *map; /* strength and time of the first arm that has both; NULL: none has */
} sl_pack_work;

sl_pack_work sl_pack_work_begin(void);
extern const sl_command_line sl_pack_typed;
bool sl_pack_work_read(sl_pack_work *work, int argc, char **argv, sl_error *error);
bool sl_pack_work_compute(sl_pack_work *work, sl_error *error);
void sl_pack_work_free(sl_pack_work *work);

#endif
