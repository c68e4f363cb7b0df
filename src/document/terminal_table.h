/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A table on a terminal.
 */
#ifndef SLOWLIFT_DOCUMENT_TERMINAL_TABLE_H
#define SLOWLIFT_DOCUMENT_TERMINAL_TABLE_H

#include "document/renderers.h"

/* Head and rows, without the caption. indent: columns left free at the left. */
void sl_terminal_table(FILE *out, const sl_block *block, const sl_terminal *terminal, int indent);

#endif
