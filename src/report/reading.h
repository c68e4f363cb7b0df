/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Which numbers of a timeline a report reads: the moment that a column means, the zones
 * that hold dye, the undyed zone where base and hair are read. Shared by table, CSV and
 * JSON, so that the three never disagree.
 */
#ifndef SLOWLIFT_REPORT_READING_H
#define SLOWLIFT_REPORT_READING_H

#include <stdbool.h>

#include "slowlift/report.h"

bool sl_zone_dyed(const sl_scene *scene, int arm, int zone);

/* Whether part of what is left here is without colour and may come back: a strip of the model with a reducing
 * mix, on a dye that has a colourless form. */
bool sl_reading_returns(const sl_timeline *timeline, int arm, int zone);

/* The cell that `time_min` means for this arm: on the scene's clock, or counted from the
 * arm's contact. False when that moment lies past the end of the scene. */
bool sl_reading_cell(const sl_timeline *timeline, const sl_optics *optics, const sl_report_options *options,
                     int arm, int zone, double time_min, sl_cell *cell);

/* The distinct undyed zones in which base and hair are read for the dyed zones, in zone
 * order; returns how many, at most SL_MAX_ZONES. */
int sl_reading_references(const sl_scene *scene, int zones[SL_MAX_ZONES]);

/* The zone that a comparison at the same colour left uses: the one asked for, else the
 * direct zone that most arms bring down to `share`, the first of equals. -1 when the
 * scene has no direct zone. */
int sl_reading_zone(const sl_timeline *timeline, const sl_report_options *options);

/* Whether a report about nobody may put minutes beside an outcome (leave.h). */
bool sl_reading_has_minutes(const sl_scene *scene);

/* What is done to an arm without a mix: "nothing", "rinse 2 min, 1 shampoo". */
void sl_washing_words(const sl_arm *arm, char *text, size_t size);

/* Temperature of the hair once settled, C. */
double sl_settled_c(const sl_scene *scene);

/* What dry hair looks like by a chart: "level 6, turquoise, cool". */
void sl_chart_words(const sl_reading_words *words, char *text, size_t size);

#endif
