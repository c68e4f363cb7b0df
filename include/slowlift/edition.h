/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Which model found a result: a number that is raised whenever a result changes by more than rounding, with
 * its day and what changed. Logs keep the number under which a test was begun.
 */
#ifndef SLOWLIFT_EDITION_H
#define SLOWLIFT_EDITION_H

#include <stdbool.h>

#pragma GCC visibility push(default)

typedef struct sl_edition {
    const char *day;    /* ISO 8601, since when results are these */
    const char *change; /* msgid; one line: what changed from the one before */
} sl_edition;

/* All of them; the last is this program's: [number - 1]. */
extern const sl_edition sl_editions[];
extern const int sl_edition_now;
const char *sl_edition_day(void); /* of this program's */

/* What a test that was kept under model `kept` (0: its log does not say) is to be told beside the models of a
 * list, the last of which computes now. False, and nothing, where that is the same. */
enum { SL_EDITION_WORDS = 640 };
bool sl_edition_since(const sl_edition *editions, int now, int kept, char text[SL_EDITION_WORDS]);

#pragma GCC visibility pop

#endif
