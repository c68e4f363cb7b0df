/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A made-up year of a school: twelve tests of the shipped eight strips whose truth is known, since it was
 * drawn. Our own invention, for trying things out, for the guide, and to see whether what is told of several
 * tests holds. It says nothing about real hair.
 *
 * Truth: the model with other dyes (each one's rates times a factor of its own) and a second lot of powder,
 * from the middle of the year on, that has lost of its strength. A test moves all its strips alike, each
 * strip by itself, and swatches scatter; three people look, of whom one grades more leniently from the
 * eleventh test on.
 */
#ifndef SLOWLIFT_LOG_SCHOOL_H
#define SLOWLIFT_LOG_SCHOOL_H

#include "slowlift/log.h"

enum { SL_SCHOOL_TESTS = 12, SL_SCHOOL_LOTS = 2, SL_SCHOOL_JUDGES = 3, SL_SCHOOL_SEED = 7 };
static const char SL_SCHOOL_BEFORE[] = "before.db", SL_SCHOOL_AFTER[] = "after.db",
                  SL_SCHOOL_TRUTH[] = "truth.csv";

typedef struct sl_school_truth {
    int n_arms, n_zones;
    /* Share of colour left once it is washed and dry; SL_NOT_READ: no dye. */
    double left[SL_SCHOOL_LOTS][SL_MAX_ARMS][SL_MAX_ZONES];
    double lenient[SL_SCHOOL_JUDGES][SL_SCHOOL_TESTS]; /* each judge's offset, of the root of a share */
} sl_school_truth;

/* Makes in a folder that is there: the tests as they were planned, the same tests as they went, and the
 * truth. The same every time but for ids and days, which are of the year until today. scene: file of the
 * shipped eight strips. */
bool sl_log_school(const char *folder, const char *scene, const sl_resolver *resolver, uint64_t seed,
                   sl_school_truth *truth, sl_error *error);

#endif
