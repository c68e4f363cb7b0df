/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The parts of the table that people read; sl_report_table puts them in order.
 */
#ifndef SLOWLIFT_REPORT_TABLE_H
#define SLOWLIFT_REPORT_TABLE_H

#include "slowlift/report.h"

/* What every part needs. */
typedef struct sl_run_page {
    FILE *out;
    const sl_timeline *timeline;
    const sl_scene *scene;
    const sl_optics *optics; /* or NULL */
    const sl_report_options *options;
    int width;     /* columns */
    int arm_width; /* columns of the arms' names */
} sl_run_page;

/* table_mixes.c: what each arm is, and what to weigh for one swatch. */
void sl_put_mixes(const sl_run_page *page);
/* table_matrix.c: "at 5 min", "5 min on" where times count from contact. */
void sl_asked_time_words(const sl_report_options *options, double time_min, char *text, size_t size);
/* table_matrix.c: arm by zone at each asked time. */
void sl_put_times(const sl_run_page *page);
/* table_matrix.c: arm by zone at the moment when `zone` is down to `share` in each arm. */
void sl_put_same_colour(const sl_run_page *page, int zone, double share);
/* table_matrix.c: what the numbers of a matrix are. */
void sl_put_legend(const sl_run_page *page);
/* table_colours.c: level, tone and what is left in words, for each zone. */
void sl_put_readings(const sl_run_page *page);
/* table_colours.c: the two spots of options->between. */
void sl_run_put_between(const sl_run_page *page);
/* table_limits.c: goal and first limit of each arm. */
void sl_put_limits_of_arms(const sl_run_page *page);
/* table_limits.c: how much faster the same mix works elsewhere. */
void sl_put_factors(const sl_run_page *page);

/* A heading with an empty line before it. */
void sl_put_heading(const sl_run_page *page, const char *heading);

#endif
