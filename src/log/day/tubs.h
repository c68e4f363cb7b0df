/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Out of which tub the powder of a bowl came, out of which bottle its developer, and since when they were
 * open: a note of a closed form in the log, of one bowl or of every bowl from then on.
 *
 *     bowl: powder_lot=P7 powder_opened=2026-11-01 developer_lot=D2 check=yes
 */
#ifndef SLOWLIFT_LOG_TUBS_H
#define SLOWLIFT_LOG_TUBS_H

#include "report/plan/day.h"
#include "slowlift/log.h"

enum { SL_TUBS_NOTE = 200 };
/* As it stands in the log. */
void sl_tubs_note(const sl_tubs *tubs, char note[SL_TUBS_NOTE]);
/* Adds what the note says to *tubs. False: it is no note about a bowl. */
bool sl_tubs_read(const char *note, sl_tubs *tubs);

/* Of each swatch of a test the tubs of its bowl: what was said of all bowls before it was mixed (of one that
 * was not mixed: at last), then what was said of its own. Freed with sl_free() of base/memory.h. */
bool sl_log_tubs(sl_log *log, const char *test, const sl_log_swatch *swatches, int n, sl_tubs **tubs,
                 sl_error *error);

#endif
