/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The command line of `slowlift limits`.
 */
#ifndef SLOWLIFT_COMMAND_LIMITS_ASKED_H
#define SLOWLIFT_COMMAND_LIMITS_ASKED_H

#include <stdint.h>

#include "front/options.h"
#include "slowlift/observation.h"

/* What was asked for; texts are borrowed from argv. Start with members, seed and threads set. */
typedef struct sl_limits_asked {
    const char *file, *arm, *person;
    const char *strand;       /* "LOG:TEST:SWATCH"; NULL: none */
    const char *const *parts; /* --merge: [n_parts] files, borrowed from argv */
    int n_parts;
    bool merge, counted;    /* counted: --members, --seed, --threads or --part was written */
    long part, of_parts;    /* --part K/N; 0: the whole */
    double goal, label_min; /* 0: what the files say */
    const char *observation[SL_MOST_OBSERVATIONS];
    int n_observations;
    long members, threads;
    uint64_t seed;
    bool science;
    sl_result_wish result;
} sl_limits_asked;

bool sl_limits_asked_read(sl_limits_asked *asked, int argc, char **argv, sl_error *error);

#endif
