/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A number that a lesson asks of a scene: what it can depend on, and the tables of what can be
 * asked. Units and formulas: docs/file-format.md, "Lesson".
 */
#ifndef SLOWLIFT_LESSON_ASKED_H
#define SLOWLIFT_LESSON_ASKED_H

#include <stddef.h>

#include "lesson/reading.h"

enum {
    SL_NEEDS_ARM = 1,
    SL_NEEDS_ZONE = 2,
    SL_NEEDS_AT = 4,
    SL_NEEDS_SHARE = 8,
    SL_NEEDS_OTHER = 16,
    SL_NEEDS_ENERGY = 32,
    SL_NEEDS_SAMPLE = 64, /* difference and swatches */
    SL_NEEDS_SWATCHES = 128
};

typedef struct sl_what sl_what;
typedef struct sl_asked {
    const sl_what *what;
    const sl_reading *reading;
    const sl_node *node; /* its `what`, for refusals */
    const sl_scene *scene;
    const sl_timeline *timeline;
    struct sl_spread **spread; /* of the scene: run once, when the first number asks for it */
    int arm, zone, other;
    double at, share;            /* minutes since contact; 0..1 */
    double energy, from, to;     /* kJ/mol, °C */
    double difference, swatches; /* in standard deviations; of each mix */
} sl_asked;

struct sl_what {
    const char *word; /* NULL ends a table */
    sl_measured measured;
    unsigned needs;
    bool exact; /* the scene's own setting: written as it is, not as a range */
    bool (*compute)(const sl_asked *asked, double *value);
    size_t member; /* of the record that its function reads; or the quantity that it looks for */
};
/* The member, a double, of a record. */
#define SL_MEMBER(type, member) _Generic(((type *)0)->member, double : offsetof(type, member))
double sl_asked_member(const sl_asked *asked, const void *record);

extern const sl_what sl_whats_of_course[];  /* course_numbers.c: what is left, what has moved, when */
extern const sl_what sl_whats_of_arm[];     /* arm_numbers.c: what the arm is */
extern const sl_what sl_whats_of_verdict[]; /* verdict_numbers.c: aims, limits, odds */

bool sl_asked_refuse(const sl_asked *asked, const char *found, const char *wanted);
/* The arm's first application, or NULL. */
const sl_step *sl_asked_application(const sl_asked *asked);

#endif
