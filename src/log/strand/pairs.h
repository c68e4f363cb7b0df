/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A note of a closed form, which machines read: a lead and words such as "person=K12". Words that a reader
 * does not know are passed over, so that a later version's notes can be read.
 */
#ifndef SLOWLIFT_LOG_PAIRS_H
#define SLOWLIFT_LOG_PAIRS_H

#include <stdbool.h>

typedef void sl_pair_taker(void *self, const char *key, const char *value);
/* Every pair behind the lead, in turn; a word of 64 bytes or more is none. False: the note does not begin
 * with the lead. */
bool sl_pairs_read(const char *note, const char *lead, sl_pair_taker *take, void *self);

#endif
