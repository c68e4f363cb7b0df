/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A map of outcomes over two settings of one arm (strength and time, ratio and warmth), and
 * lines of equal value on it.
 *
 * Invariant: the value at a point of the grid is that of sl_outcome_of for the same variant.
 */
#ifndef SLOWLIFT_MAP_H
#define SLOWLIFT_MAP_H

#include "slowlift/what_if.h"

#pragma GCC visibility push(default)

typedef struct sl_axis {
    sl_setting setting;
    double from, to;
    int n; /* points, 2..SL_MAP_MOST */
} sl_axis;
enum { SL_MAP_MOST = 101 };
double sl_axis_value(const sl_axis *axis, int i);

typedef enum sl_map_layer { SL_MAP_LEFT, SL_MAP_BASE, SL_MAP_STRESS, SL_MAP_LAYERS } sl_map_layer;

typedef struct sl_map {
    int done;      /* points that were found, row by row; a map is whole with x.n * y.n */
    int arm, zone; /* zone -1: the zone that holds most, as in sl_outcome, point by point */
    sl_axis x, y;
    double *value[SL_MAP_LAYERS]; /* [y.n][x.n] */
    bool *goal;                   /* [y.n][x.n] the zone (all with a goal for -1) is at its goal */
    bool *inside;                 /* [y.n][x.n] base, stress and time are inside every limit that is
                                     set, the label's time and 12 % with them */
} sl_map;

/* Settings already in `changes` (NULL = none) hold all over the map. */
bool sl_map_make(sl_map **map, const sl_scene *scene, int arm, int zone, sl_axis x, sl_axis y,
                 const sl_changes *changes, sl_solver *solver, sl_error *error);
/* The same in slices: a map without a point, then so many more of them at a time. */
bool sl_map_begin(sl_map **map, const sl_scene *scene, int arm, int zone, sl_axis x, sl_axis y,
                  const sl_changes *changes, sl_error *error);
bool sl_map_go_on(sl_map *map, const sl_scene *scene, const sl_changes *changes, int points,
                  sl_solver *solver, sl_error *error);
bool sl_map_whole(const sl_map *map);
void sl_map_free(sl_map *map); /* NULL is allowed */

/* A piece of a contour, in steps of the grid: 0..nx-1, 0..ny-1. */
typedef struct sl_contour_piece {
    double x0, y0, x1, y1;
} sl_contour_piece;
/* Marching squares on value[ny][nx]; at most two pieces a square, so room for
 * 2 (nx-1)(ny-1) always suffices. Returns how many. */
int sl_contour(const double *value, int nx, int ny, double level, sl_contour_piece *pieces);

#pragma GCC visibility pop

#endif
