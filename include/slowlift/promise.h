/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What a plan of strand tests can tell, counted on made-up tests of its size by the rule by which what was
 * seen is told (blocks.h). Tables: docs/judged.md.
 */
#ifndef SLOWLIFT_PROMISE_H
#define SLOWLIFT_PROMISE_H

#include "slowlift/model.h"

#pragma GCC visibility push(default)

/* Swatches of one strip scatter so much by themselves (share of colour left, standard deviation; assumed). */
static const double SL_SWATCH_SPREAD = 0.05;
/* What a plan can tell of two strips among others, one look at each zone of each swatch. */
typedef struct sl_promise_asked {
    int strips, blocks, colours; /* compared: strips with dye, repeats, zones with direct dye */
    bool graded;                 /* by wipe grades (observation.h); else by an instrument */
    double spread;               /* of swatches of one strip, share of colour left (standard deviation) */
    bool hair;                   /* is read as well, beside the colours (blocks.h) */
} sl_promise_asked;
/* The difference about half of the colour that is told in this share of such tests (0..1), by the rule by
 * which what was seen is told (blocks.h); -1: none is. */
bool sl_promise_make(double *difference, const sl_promise_asked *asked, double odds, sl_error *error);

/* The fewest blocks, 2..most, of which such a difference is told in this share of tests; -1: none are. */
bool sl_promise_blocks(int *blocks, const sl_promise_asked *asked, double difference, double odds, int most,
                       sl_error *error);

/* What is told in SL_PROMISED of tests. */
static const double SL_PROMISED = 0.8;
typedef struct sl_promise {
    int blocks;
    double spread;
    bool spread_given;   /* else assumed, */
    bool by_grade;       /* which never show less than is assumed */
    int spread_freedom;  /* or as so many degrees of freedom of a log's repeats show; 0: not */
    double graded, read; /* difference; -1: none */
} sl_promise;
/* Of all strips and colours of a scene that are compared; spread: -1 for the assumed one. */
bool sl_promise_of(sl_promise *promise, const sl_scene *scene, int blocks, double spread, sl_error *error);

/* The fewest repeats of them all that tell a difference; -1: none up to `most` do. */
bool sl_promise_repeats(int *blocks, const sl_scene *scene, bool graded, double spread, double difference,
                        int most, sl_error *error);

#pragma GCC visibility pop

#endif
