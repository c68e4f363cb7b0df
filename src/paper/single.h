/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A page for one moment on a screen; private to src/paper.
 */
#ifndef SLOWLIFT_PAPER_SINGLE_H
#define SLOWLIFT_PAPER_SINGLE_H

#include "base/program.h"
#include "paper/draw/page.h"

/* Divide a page so that it fills `size`; *scale: pixels per point. False when it cannot. */
bool sl_single_divide(sl_sheet_page *page, sl_paper_size size, double *scale);
/* Say so. Always false. */
bool sl_single_refused(sl_paper_size size, sl_error *error);
/* How many of many pictures are done. */
void sl_pictures_said(sl_progress *progress, int done, int all);

#endif
