/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The command line of `slowlift limits`.
 */
#ifndef SLOWLIFT_COMMAND_LIMITS_ASKED_H
#define SLOWLIFT_COMMAND_LIMITS_ASKED_H

#include <stdint.h>

#include "front/work/answers_work.h"
#include "slowlift/observation.h"

typedef struct sl_limits_part {
    long part, of;
} sl_limits_part;

/* What was asked for; texts are borrowed from argv. Start with the usual draws. */
typedef struct sl_limits_asked {
    sl_answers_asked about;
    const char *const *parts; /* --merge: [n_parts] files, borrowed from argv */
    int n_parts;
    bool merge;
    sl_limits_part part; /* --part K/N; zeroes: the whole */
    sl_draws draws;
    bool science;
    sl_result_wish result;
} sl_limits_asked;

extern const sl_command_line sl_limits_typed;
bool sl_limits_asked_read(sl_limits_asked *asked, int argc, char **argv, sl_error *error);

#endif
