/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Codes stand for people: 1 to 32 letters, digits, - _ . and no space, so that no name is kept by
 * habit.
 */
#ifndef SLOWLIFT_BASE_CODE_H
#define SLOWLIFT_BASE_CODE_H

#include <stdbool.h>

#include "slowlift/error.h"

/* Whether each character of it may stand in a code; "" holds none that may not. */
bool sl_code_characters(const char *text);
/* what: "the judge's code", put in the user's language here. Fails: SL_ERR_INCONSISTENT. */
bool sl_code_check(const char *what, const char *code, sl_error *error);

#endif
