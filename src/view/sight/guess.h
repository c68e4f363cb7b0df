/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Before time moves: which strip will lose the chosen zone's colour first? Asked once for each opening, in a
 * row below the ruler, and only of a model's bench: never where a log is open or a person is spoken of. The
 * first time that plays it holds by itself where something is to be seen, and says what. Nothing is kept.
 */
#ifndef SLOWLIFT_VIEW_GUESS_H
#define SLOWLIFT_VIEW_GUESS_H

#include "view/window/stage.h"

/* Once the cautions were seen: opens the question, where there is one. */
void sl_guess_open(sl_stage *stage);
/* Shuts it once time has moved, or something else is compared. */
void sl_guess_settle(sl_stage *stage);
bool sl_guess_open_now(const sl_stage *stage);
/* Whether this strip is one of those offered. */
bool sl_guess_offers(const sl_stage *stage, int arm);
void sl_guess_take(sl_stage *stage, int arm); /* -1: no idea; else it is chosen, too */

/* The scene's minute, a whole one, at which time holds when it plays from `from_min` on; below 0: it does not
 * hold. By the model alone: when the chosen zone of the first strip is half gone. */
double sl_guess_hold_min(const sl_stage *stage, double from_min);
/* Holds where it is to be held: the first time alone. */
void sl_guess_hold(sl_stage *stage);
/* What there is to see where it holds now, in place of what is compared; false: it does not hold. */
bool sl_guess_put_look(const sl_stage *stage, char *head, char *below, size_t size);
/* What was said, before time has moved; false: nothing. */
bool sl_guess_put_said(const sl_stage *stage, char *text, size_t size);
/* The question in words, for who has no room for it beside its answers. */
void sl_guess_put_question(const sl_stage *stage, char *text, size_t size);

SDL_Rect sl_guess_control(const sl_stage *stage, sl_action_id action, int which);
int sl_guess_show(const sl_stage *stage); /* as in panel.h */

/* The cautions beside the hair as a scene opens (plate.c). */
SDL_Rect sl_plate_control(const sl_stage *stage, sl_action_id action, int which);
SDL_Rect sl_plate_room(const sl_stage *stage);
void sl_say_plate(sl_document *document, const sl_stage *stage, sl_error *error);
int sl_plate_show(const sl_stage *stage);

#endif
