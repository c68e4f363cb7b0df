/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Strands of people's hair for the form, out of a log. Invariant: the log is open only while it is read.
 */
#ifndef SLOWLIFT_VIEW_STRANDS_H
#define SLOWLIFT_VIEW_STRANDS_H

#include "slowlift/strand.h"

/* [*n], freed with sl_free() of base/memory.h. */
bool sl_strands_read(const char *log, const sl_scene *scene, sl_strand_record **strands, int *n,
                     sl_error *error);

#endif
