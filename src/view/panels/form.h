/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The short form about a person, in the window. Invariant: a row that was not answered stays
 * missing; nothing is taken for a no.
 */
#ifndef SLOWLIFT_VIEW_FORM_H
#define SLOWLIFT_VIEW_FORM_H

#include "view/window/stage.h"

/* Rows: the questions in the order of intake.h, and in place of its last (what a strand showed) these. */
enum {
    SL_FORM_LOGGED = SL_INTAKE_SHOWED, /* one of the log's strands */
    SL_FORM_STRAND_MIN, /* typed: of a strand of this person's hair, with the chosen strip's mix */
    SL_FORM_STRAND_WIPE,
    SL_FORM_PRACTICE, /* a person made up for a class */
    SL_FORM_ROWS
};

/* What stands in a row: "yes", "18 years", "–". */
void sl_form_put(const sl_stage *stage, int row, char *text, size_t size);
const char *sl_form_words(int row);
/* The next answer, or one year, minute or day more or less. A day begins with today's. */
void sl_form_turn(sl_stage *stage, int row, int by);
/* Rows of yes, no, unsure: each is pressed; the one that stands, pressed once more, is taken back. */
bool sl_form_replies(int row);
sl_reply sl_form_replied(const sl_stage *stage, int row);
void sl_form_reply(sl_stage *stage, int row, sl_reply reply); /* of other rows nothing */
/* A figure at the end of the row's number or code; below 0: take the last one away, a day as a whole. */
void sl_form_type(sl_stage *stage, int row, int figure);
void sl_form_clear(sl_stage *stage);
/* Whether the chosen strand of the log counts with this arm's mix; without one, what was typed. */
sl_strand sl_form_strand(const sl_stage *stage, const sl_scene *scene, int arm);

/* ---- form_page.c ------------------------------------------------------------------------- */

typedef struct sl_form_places {
    SDL_Rect body, close, clear;
    SDL_Rect row[SL_FORM_ROWS], back[SL_FORM_ROWS], on[SL_FORM_ROWS]; /* scrolled */
    SDL_Rect judged; /* what the answers come to: beside the rows, or below them */
    SDL_Rect stop; /* the beginning of it, in sight however far down, where it is below and something stops */
} sl_form_places;
sl_form_places sl_form_place(const sl_stage *stage);
SDL_Rect sl_form_control(const sl_stage *stage, sl_action_id action, int row);
SDL_Rect sl_form_room(const sl_stage *stage); /* of what the answers come to */
int sl_form_show(const sl_stage *stage);      /* as in panel.h */
void sl_form_follow(sl_stage *stage); /* sets what it comes to; brings the chosen row into view once */

#endif
