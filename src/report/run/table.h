/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The parts of the document that people read of a run; sl_run_say puts them in order.
 */
#ifndef SLOWLIFT_REPORT_TABLE_H
#define SLOWLIFT_REPORT_TABLE_H

#include "document/document.h"
#include "slowlift/report.h"

/* What every part needs. */
typedef struct sl_run_page {
    const sl_timeline *timeline;
    const sl_scene *scene;
    const sl_optics *optics; /* or NULL */
    const sl_report_options *options;
} sl_run_page;

void sl_run_say(sl_document *document, const sl_timeline *timeline, const sl_optics *optics,
                const sl_report_options *options, sl_error *error);

/* table_mixes.c: what each arm is, and what to weigh for one swatch. */
void sl_run_say_mixes(sl_document *document, const sl_run_page *page);
/* table_matrix.c: arm by zone at each asked time. */
void sl_run_say_times(sl_document *document, const sl_run_page *page);
/* table_matrix.c: arm by zone at the moment when `zone` is down to `share` in each arm. */
void sl_run_say_same_colour(sl_document *document, const sl_run_page *page, int zone, double share);
/* table_matrix.c: what the numbers of a matrix are. */
void sl_run_say_legend(sl_document *document, const sl_run_page *page);
/* table_colours.c: level, tone and what is left in words, for each zone. */
void sl_run_say_readings(sl_document *document, const sl_run_page *page);
/* table_colours.c: the two spots of options->between. */
void sl_run_say_between(sl_document *document, const sl_run_page *page);
/* table_return.c: colour that comes back after a reducing mix. */
void sl_run_say_return(sl_document *document, const sl_run_page *page);
/* table_limits.c: goal and first limit of each arm. */
void sl_run_say_limits(sl_document *document, const sl_run_page *page);
/* table_limits.c: how much faster the same mix works elsewhere. */
void sl_run_say_factors(sl_document *document, const sl_run_page *page);

#endif
