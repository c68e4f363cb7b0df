/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The cautions that slowlift shows: src/document/cautions.def holds each of them once.
 */
#ifndef SLOWLIFT_CAUTION_H
#define SLOWLIFT_CAUTION_H

#include <stdbool.h>

#pragma GCC visibility push(default)

typedef enum sl_caution_id {
    SL_CAUTION_ESTIMATE,
    SL_CAUTION_LABEL,
    SL_CAUTION_DUST,
    SL_CAUTION_REACTED,
    SL_CAUTION_TESTS,
    SL_CAUTION_SCALP,
    SL_CAUTION_HEAT,
    SL_CAUTION_EYES,
    SL_CAUTION_CLOSED,
    SL_CAUTION_METALLIC,
    SL_CAUTION_MIXING,
    SL_CAUTION_METAL,
    SL_CAUTION_SWATCH_ONLY,
    SL_CAUTION_AGE,
    SL_CAUTION_LICENCE,
    SL_CAUTION_FRESHNESS,
    SL_CAUTION_STRETCH,
    SL_CAUTION_DISPOSAL,
    SL_CAUTION_DOCTOR,
    SL_CAUTION_HEAD,
    SL_CAUTION_COUNT
} sl_caution_id;
typedef struct sl_caution {
    const char *signal; /* "DANGER", "WARNING", "CAUTION" or "NOTICE" */
    const char *text;
    bool always; /* cannot be switched off */
} sl_caution;
const sl_caution *sl_caution_text(sl_caution_id id);
/* "ESTIMATE": the names of cautions.def. */
extern const char *const sl_caution_names[SL_CAUTION_COUNT];
sl_caution_id sl_caution_named(const char *name); /* one of them */

/* Shown with every colour. */
extern const char sl_not_calibrated[];

#pragma GCC visibility pop

#endif
