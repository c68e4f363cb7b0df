/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Curves of a scene as charts: reflectance over the wavelength, what happens over time.
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
/* What is followed on the scene's clock. */
typedef enum sl_course_of { SL_COURSE_LEFT, SL_COURSES } sl_course_of;
/* Its heading, in the reader's language. */
const char *sl_course_words(sl_course_of what);
/* The zones in which it is followed; returns how many. */
int sl_course_zones(const sl_scene *scene, sl_course_of what, int zones[SL_MAX_ZONES]);
/* In such a zone, of every arm that is predicted. */
const sl_graph *sl_graph_of_course(sl_arena *arena, const sl_timeline *timeline, sl_course_of what, int zone,
                                   sl_error *error);
/* Whether an arm has a curve there. */
bool sl_has_course(const sl_timeline *timeline, int arm);

#endif
