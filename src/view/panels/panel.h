/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The panel at the right: knobs of a what-if, how things are shown, or the science behind
 * the chosen zone; and pages over the whole window. For each where a control of it stands (empty: not in
 * sight), and how it is drawn: returns by how many pixels it is longer than its place (views.h).
 */
#ifndef SLOWLIFT_VIEW_PANEL_H
#define SLOWLIFT_VIEW_PANEL_H

#include "view/draw/widget.h"
#include "view/window/stage.h"

typedef struct sl_knob_rows {
    SDL_Rect head; /* name and value */
    sl_knob_areas areas;
    SDL_Rect note;
} sl_knob_rows;

typedef struct sl_what_if_places {
    SDL_Rect title, undo, reset;
    sl_knob_rows knob[SL_SETTINGS]; /* empty: not of this panel */
    SDL_Rect caution;               /* beside the warmth knob */
    int height;                     /* of everything, for scrolling */
} sl_what_if_places;

sl_what_if_places sl_what_if_place(const sl_stage *stage);
SDL_Rect sl_what_if_control(const sl_stage *stage, sl_action_id action, int knob);
/* A knob's value with its unit. */
void sl_what_if_value(const sl_stage *stage, sl_setting knob, double value, char *text, size_t size);
void sl_what_if_follow(sl_stage *stage);    /* to the knob with the ring */
int sl_what_if_show(const sl_stage *stage); /* what_if.c */

/* beside.c: two swatches over the whole window. */
typedef struct sl_beside_places {
    SDL_Rect words;                  /* how they differ */
    SDL_Rect field;                  /* of hair and flats */
    SDL_Rect hair[2];                /* [side], at the outer edges */
    SDL_Rect flat[2];                /* the zones' mean colours, edge to edge in the middle */
    SDL_Rect arm_back[2], arm_on[2]; /* buttons */
    SDL_Rect zone_back[2], zone_on[2];
    SDL_Rect side[2];    /* names of strip and zone, between the buttons */
    SDL_Rect reading[2]; /* level and tone */
    SDL_Rect science;    /* figures and curves; empty while they are shut */
    SDL_Rect curves_button, close, foot;
} sl_beside_places;
sl_beside_places sl_beside_place(const sl_stage *stage);
/* Fibres for the two, in the places that they have now. */
bool sl_beside_lay(sl_stage *stage, sl_error *error);
SDL_Rect sl_beside_control(const sl_stage *stage, sl_action_id action, int side);
int sl_beside_show(const sl_stage *stage);

SDL_Rect sl_page_place(const sl_stage *stage, sl_action_id action, int which); /* pages.c */
int sl_page_show(const sl_stage *stage);

int sl_strips_show(const sl_stage *stage); /* show.c */

#endif
