/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Sentences, tables, CSV and JSON from a timeline. Writes to a stream that the caller
 * gives; returns false when the stream failed.
 */
#ifndef SLOWLIFT_REPORT_H
#define SLOWLIFT_REPORT_H

#include <stdbool.h>
#include <stddef.h>
#include <stdio.h>

#include "slowlift/error.h"
#include "slowlift/optics.h"
#include "slowlift/timeline.h"

#pragma GCC visibility push(default)

/* One sentence: "file:line:column: what is wrong; what would be right". Returns the
 * length as snprintf does. */
int sl_error_sentence(const sl_error *error, char *text, size_t size);

/* One zone of one strip. */
typedef struct sl_spot_of {
    int arm, zone;
} sl_spot_of;

typedef struct sl_report_options {
    bool colour;             /* terminal colours allowed */
    bool from_contact;       /* times count from each arm's own contact, not the scene's clock */
    int width;               /* columns; 0 = 100 */
    int zone;                /* zone of the comparison at the same colour left; -1 = chosen */
    double share;            /* its colour left there, above 0 and below 1 */
    sl_viewing viewing;      /* that the given optics is for; named wherever colours stand */
    const sl_optics *dry;    /* of the same scene for a viewing all zero, where a chart reads level and
                                tone; NULL: the table has no colours in words */
    const double *times_min; /* [n_times] what CSV and JSON tell of; NULL: the timeline's own times */
    int n_times;
    bool compare; /* the table compares the two spots of `between` */
    sl_spot_of between[2];
} sl_report_options;
sl_report_options sl_report_options_default(void);

/* The table people read; the timeline's own times are its columns. */
bool sl_report_table(FILE *out, const sl_timeline *timeline, const sl_optics *optics,
                     const sl_report_options *options);
/* arm,zone,time_min,quantity,value,lies_for (docs/file-format.md, "CSV"). Arms that are not
 * predicted have no rows. optics: as the timeline was solved with; NULL: no colours. Both CSV and JSON
 * are by the minute: of a scene that counts as a head (leave.h) neither writes a byte, and both are false. */
bool sl_report_csv(FILE *out, const sl_timeline *timeline, const sl_optics *optics,
                   const sl_report_options *options);
/* docs/file-format.md, "JSON". */
bool sl_report_json(FILE *out, const sl_timeline *timeline, const sl_optics *optics,
                    const sl_report_options *options);

/* "daylight (D65), 2 degree observer, dry". */
void sl_viewing_words(sl_viewing viewing, char *text, size_t size);
bool sl_viewing_usual(sl_viewing viewing); /* all zero */
/* One sentence: which of two colours is lighter, warmer, more vivid, and how readily a
 * person would see it; our own words (docs/guide.md). The length as snprintf returns it. */
int sl_difference_words(sl_lab one, const char *one_name, sl_lab two, const char *two_name, char *text,
                        size_t size);
/* "classroom example: weakest number is ... (assumed)" for this scene. */
void sl_example_note(const sl_scene *scene, char *text, size_t size);
/* Why nothing is computed for an arm that sl_timeline_predicted is false for. */
void sl_outside_note(const sl_scene *scene, int arm, char *text, size_t size);

#pragma GCC visibility pop

#endif
