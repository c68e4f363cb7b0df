/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The cautions that slowlift shows: cautions.def holds each of them once.
 */
#ifndef SLOWLIFT_CAUTION_H
#define SLOWLIFT_CAUTION_H

#include <stdbool.h>

#pragma GCC visibility push(default)

/* What happens where something is read, each a bit; each caution is owed on some. */
typedef enum sl_occasion {
    SL_ON_NOTHING = 1,         /* names and texts alone */
    SL_ON_OUTCOME = 1 << 1,    /* what the model found */
    SL_ON_HAIR = 1 << 2,       /* how long, with a mix on hair: all that always stand */
    SL_ON_LOOK = 1 << 3,       /* hair is looked at and felt while the mix works */
    SL_ON_SWATCHES = 1 << 4,   /* what swatches did could be taken to a head */
    SL_ON_STRAND = 1 << 5,     /* something to try on a strand */
    SL_ON_WARMTH = 1 << 6,     /* it is made warmer */
    SL_ON_MIXING = 1 << 7,     /* something is weighed and mixed */
    SL_ON_UNLABELLED = 1 << 8, /* with a mix that no label allows */
    SL_ON_KEEPING = 1 << 9,    /* powder is bought and kept */
    SL_ON_LEFTOVERS = 1 << 10, /* and thrown away */
    SL_ON_CLASS = 1 << 11,     /* people are taught */
    SL_ON_PERSON = 1 << 12,    /* somebody reads it about their own hair */
    SL_ON_DAY = 1 << 13,       /* beside the hair, on the day */
    SL_ON_HEATED = 1 << 14,    /* hair grew warm under the mix */
    SL_ON_ALL = 1 << 15,       /* every caution there is */
    SL_ON_REDUCING = 1 << 16   /* a mix with a reducing agent is about, or a reductive one nobody knows */
} sl_occasion;

#define SL_CAUTION(id, ...) SL_CAUTION_##id,
typedef enum sl_caution_id {
#include "slowlift/cautions.def"
    SL_CAUTION_COUNT
} sl_caution_id;
#undef SL_CAUTION

typedef struct sl_caution {
    const char *signal; /* "DANGER", "WARNING", "CAUTION" or "NOTICE" */
    const char *text;
    const char *brief; /* one short sentence, where the whole stands elsewhere; NULL: none */
    bool always;       /* cannot be switched off */
    unsigned occasions;
} sl_caution;
const sl_caution *sl_caution_text(sl_caution_id id);
/* Whether it is owed on any of the occasions. */
bool sl_occasion_owes(unsigned occasions, sl_caution_id id);
/* "ESTIMATE": the names of cautions.def. */
extern const char *const sl_caution_names[SL_CAUTION_COUNT];
sl_caution_id sl_caution_named(const char *name); /* one of them */

/* Shown with every colour. */
extern const char sl_not_calibrated[];

#pragma GCC visibility pop

#endif
