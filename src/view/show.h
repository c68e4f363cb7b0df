/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The parts of a frame. Each reads the stage and draws its own rectangles of the layout.
 */
#ifndef SLOWLIFT_VIEW_SHOW_H
#define SLOWLIFT_VIEW_SHOW_H

#include "view/stage.h"

enum { SL_SHOW_LINE = 512 }; /* bytes of the longest line of text */

void sl_show_sentences(const sl_stage *stage); /* head.c: title, what is compared, notices */
void sl_show_buttons(const sl_stage *stage);   /* head.c */
void sl_show_pace(const sl_stage *stage);      /* head.c: share or speed */
void sl_show_gutter(const sl_stage *stage);    /* field.c: names of zones */
void sl_show_field(const sl_stage *stage);     /* field.c: names of strips, hair */
void sl_show_figures(const sl_stage *stage);   /* figures.c */

#endif
