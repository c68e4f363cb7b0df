/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A table on a terminal.
 */
#ifndef SLOWLIFT_DOCUMENT_TERMINAL_TABLE_H
#define SLOWLIFT_DOCUMENT_TERMINAL_TABLE_H

#include "document/renderers.h"

/* Head and rows, without the caption. indent: columns left free at the left. */
/* Whether the table stands on lines of that width in one piece. */
bool sl_terminal_table_fits(const sl_block *block, const sl_terminal *terminal, int indent);
void sl_terminal_table(FILE *out, const sl_block *block, const sl_terminal *terminal, int indent);

#endif
