/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * How wide the columns of a table are where its letters have widths of their own: in the window and on paper.
 */
#ifndef SLOWLIFT_DOCUMENT_COLUMNS_H
#define SLOWLIFT_DOCUMENT_COLUMNS_H

#include "document/document.h"

/* Whether any column has a head. */
bool sl_block_headed(const sl_block *block);

/* Width of words in one line, as heads are set or as entries are; any number up to `enough` where it is
 * surely no more than that. */
typedef double sl_columns_wide(const void *with, bool head, const char *words, double enough);

/* Columns with their gaps, `all` together: by their shares, but none narrower than its longest word as long
 * as others have room to give. width: [block->count], in the unit of `wide`. */
void sl_columns_settle(const sl_block *block, double all, double gap, sl_columns_wide *wide, const void *with,
                       double width[SL_MOST_COLUMNS]);

#endif
