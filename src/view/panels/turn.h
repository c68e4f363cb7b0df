/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Pages with choices at their foot: answers, ranks, map, what was seen. Each choice is a row [-] words [+],
 * and has keys of its own.
 */
#ifndef SLOWLIFT_VIEW_TURN_H
#define SLOWLIFT_VIEW_TURN_H

#include "view/window/stage.h"

enum { SL_MOST_TURNS = 3 };

typedef struct sl_turn_places {
    int n;
    sl_turn turn[SL_MOST_TURNS];
    SDL_Rect back[SL_MOST_TURNS], words[SL_MOST_TURNS], on[SL_MOST_TURNS];
    SDL_Rect body; /* what is left for the page */
    SDL_Rect close;
} sl_turn_places;

/* How many choices the page that is open has at its foot; 0: it has none. */
int sl_page_turns(const sl_stage *stage);
sl_turn_places sl_turn_place(const sl_stage *stage); /* of the page that is open */
SDL_Rect sl_turn_control(const sl_stage *stage, sl_action_id action, int turn);
int sl_turn_page_show(const sl_stage *stage); /* its body and its choices (views.h) */
void sl_stage_turn(sl_stage *stage, sl_turn turn, int by);
/* Minute from contact at which ranks are read. */
double sl_rank_minute(const sl_stage *stage);
/* The zone at whose same colour left the answers rinse all strips; -1: each by its own minute. */
int sl_answers_same_zone(const sl_stage *stage);
SDL_Rect sl_turn_room(const sl_stage *stage); /* of the page's document */

/* The two settings of the map: of what the chosen strip has, the `axes`th pair. */
void sl_map_axes(const sl_stage *stage, sl_axis *x, sl_axis *y);

#endif
