/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Pages and panels that are a document: the row of each (views.h) says what it is built from, and where it
 * stands. Built and laid before a frame, when what it says or its room has changed. Invariant: what a command
 * tells of the same is said by the same function.
 */
#ifndef SLOWLIFT_VIEW_SAID_H
#define SLOWLIFT_VIEW_SAID_H

#include "view/panels/panel.h"
#include "view/window/views.h"

void sl_said_follow(sl_stage *stage); /* builds and lays that of the page or panel that is open */
/* Whether the answers of the panel that is open stand there alone; more of it is told when it is unfolded. */
bool sl_said_folded(const sl_stage *stage);
/* Within the area, so far down; returns its height. */
int sl_said_draw(const sl_stage *stage, SDL_Rect area, int scrolled);

/* A panel that is nothing else: controls in a row at its foot, the document above them. */
SDL_Rect sl_said_room(const sl_stage *stage);
SDL_Rect sl_said_control(const sl_stage *stage, sl_action_id action, int which);
int sl_said_show(const sl_stage *stage);

/* In place of what cannot be told. */
void sl_say_only(sl_document *document, const char *name, const char *sentence, sl_error *error);

/* What panels say, each in a file of its own, and pages (form_page.c, rank_page.c, map_page.c, seen_page.c).
 */
#define SAYS(NAME, name, ...)                                                                                \
    void sl_say_##name(sl_document *document, const sl_stage *stage, sl_error *error);
SL_SAYING_PANELS(SAYS)
#undef SAYS
/* Of the chosen strip, below whatever a panel says first; ends the document (limits_panel.c). */
void sl_limits_panel_say(sl_document *document, const sl_stage *stage);
void sl_say_bowl(sl_document *document, const sl_stage *stage, sl_error *error);
void sl_say_show_as(sl_document *document, const sl_stage *stage, sl_error *error);
uint64_t sl_show_as_reads(const sl_stage *stage, uint64_t number);
uint64_t sl_bowl_reads(const sl_stage *stage, uint64_t number);
void sl_say_form(sl_document *document, const sl_stage *stage, sl_error *error);
void sl_say_answers(sl_document *document, const sl_stage *stage, sl_error *error);
void sl_say_rank(sl_document *document, const sl_stage *stage, sl_error *error);
void sl_say_map(sl_document *document, const sl_stage *stage, sl_error *error);
void sl_say_new(sl_document *document, const sl_stage *stage, sl_error *error);
void sl_say_seen(sl_document *document, const sl_stage *stage, sl_error *error);
uint64_t sl_science_reads(const sl_stage *stage, uint64_t number);
/* The two swatches in figures (beside.c). */
void sl_say_beside(sl_document *document, const sl_stage *stage, sl_error *error);
uint64_t sl_beside_reads(const sl_stage *stage, uint64_t number);
SDL_Rect sl_beside_room(const sl_stage *stage);

#endif
