/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What a log says of one strand of somebody's hair, as plain data, and whether that strand counts. The
 * log fills it (log.h), the gate asks for the result (leave.h).
 *
 * Invariant: what is not known never counts; nothing later than the last graded look was watched.
 */
#ifndef SLOWLIFT_STRAND_H
#define SLOWLIFT_STRAND_H

#include <stdint.h>

#include "slowlift/leave.h"

#pragma GCC visibility push(default)

/* Hair that was tried longer ago may have been washed, coloured or grown out since (common practice, no
 * source). */
enum { SL_STRAND_MOST_DAYS = 14 };

typedef struct sl_strand_record {
    char test[9], code[8]; /* where it stands in the log: how the test's id begins, and the swatch */
    char person[SL_CODE];  /* "" = nobody wrote whose it is */
    sl_hair_part part;
    bool cut;             /* off; not on the head */
    int packet_day;       /* when the packet of its mix was opened, days since 1970-01-01; 0 = not known */
    int day;              /* of its contact, the same; 0 = not known */
    bool made_up;         /* for practice */
    bool rehearsed;       /* by a clock that ran fast */
    uint64_t mix;         /* fingerprint of the mix that lay on it; 0 = none, or several */
    double lay_min;       /* from contact to first water; below 0: not both are in the log */
    bool washed;          /* washed and dried, and somebody wrote so */
    bool graded;          /* at the end */
    bool stretched, felt; /* both are written, at the end */
    /* Of this strand, or of another of this person's in that log: such hair does not answer twice. */
    bool bad;    /* stayed long, felt like gum, snapped, or was stopped for damage */
    bool heated; /* grew warm, fizzed or smelt, or was stopped for heat */
    /* Looks that were graded, each with its minute and no later than it lay; arm is 0, zones are those of
     * the scene asked about. */
    sl_observations showed;
} sl_strand_record; /* start with {.lay_min = -1} */

/* Whether it counts for this form, with this mix (its fingerprint) on this day; all that is in the way
 * stands in .lacks. */
sl_strand sl_strand_judge(const sl_strand_record *record, const sl_intake *form, uint64_t mix, int today);

#pragma GCC visibility pop

#endif
