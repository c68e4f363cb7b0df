/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Curves of a scene as charts: reflectance over the wavelength, colour left over time.
 */
#ifndef SLOWLIFT_REPORT_CURVES_H
#define SLOWLIFT_REPORT_CURVES_H

#include "graph/graph.h"
#include "slowlift/optics.h"
#include "slowlift/timeline.h"

typedef struct sl_spectrum {
    const sl_optics *optics;
    sl_look look;
    sl_amounts amounts;
    const char *label; /* "left"; NULL: it is the only one */
} sl_spectrum;

/* 380 to 780 nm, 0 to 100 %; the second is broken. */
const sl_graph *sl_graph_of_spectra(sl_arena *arena, const sl_spectrum *spectra, int n, sl_error *error);
/* Colour left in a zone on the scene's clock, of every arm that is predicted. */
const sl_graph *sl_graph_of_left(sl_arena *arena, const sl_timeline *timeline, int zone, sl_error *error);
/* Whether an arm has such a curve. */
bool sl_has_left_curve(const sl_timeline *timeline, int arm);

#endif
