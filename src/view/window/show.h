/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The parts of a frame. Each reads the stage and draws its own rectangles of the layout.
 */
#ifndef SLOWLIFT_VIEW_SHOW_H
#define SLOWLIFT_VIEW_SHOW_H

#include "view/draw/widget.h"
#include "view/window/stage.h"

enum { SL_SHOW_LINE = 512 }; /* bytes of the longest line of text */

void sl_show_sentences(const sl_stage *stage); /* head.c: title, what is compared, notices */
/* What must be said now in place of the sentence on what is compared; false: nothing. */
bool sl_put_notice(const sl_stage *stage, char *text, size_t size);
/* Where the change of the chosen strip is not to be seen yet: the first whole minute at which it is, by the
 * model. -1: it is seen, or never, or a person is spoken of, of whose hair no such minute is told. */
int sl_difference_min(const sl_stage *stage);
/* Why nothing is marked below the ruler; false: it is. */
bool sl_put_gate(const sl_stage *stage, char *text, size_t size);
/* The lanes below the ruler, with strips at their own moments where meeting[n_arms] says so. */
sl_lanes_look sl_stage_lanes(const sl_stage *stage, const sl_meeting *meeting);
/* Look, light and eyes, and that no screen is calibrated. */
void sl_put_shown(const sl_stage *stage, char *text, size_t size);
void sl_show_shown(const sl_stage *stage);   /* head.c: the same, in its row */
void sl_show_buttons(const sl_stage *stage); /* head.c */
void sl_show_pace(const sl_stage *stage);    /* head.c: share or speed */
void sl_show_gutter(const sl_stage *stage);  /* field.c: names of zones */
void sl_show_field(const sl_stage *stage);   /* field.c: names of strips, hair */
void sl_show_figures(const sl_stage *stage); /* figures.c */
/* In place of what a study has not found: `meanwhile`, or why it could not be found. */
void sl_put_awaited(const sl_stage *stage, sl_study_of what, const char *meanwhile, char *text, size_t size);
/* The scene's clock: minutes and seconds, of a scene of days hours and minutes. */
void sl_put_now(const sl_stage *stage, char *text, size_t size); /* head.c */
/* The foot: two paragraphs, or the short form of both. */
void sl_put_foot(const sl_stage *stage, bool brief, char *first, char *second, size_t size); /* show.c */

#endif
