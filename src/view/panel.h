/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The panel at the right: knobs of a what-if, or the science behind the chosen zone.
 */
#ifndef SLOWLIFT_VIEW_PANEL_H
#define SLOWLIFT_VIEW_PANEL_H

#include "view/stage.h"
#include "view/widget.h"

typedef struct sl_knob_rows {
    SDL_Rect head; /* name and value */
    sl_knob_areas areas;
    SDL_Rect note;
} sl_knob_rows;

typedef struct sl_what_if_places {
    SDL_Rect title, reset;
    sl_knob_rows knob[SL_KNOBS];
    SDL_Rect caution; /* beside the warmth knob */
    int height;       /* of everything, for scrolling */
} sl_what_if_places;

sl_what_if_places sl_what_if_place(const sl_stage *stage);
void sl_what_if_show(const sl_stage *stage); /* what_if.c */
/* Returns the height that everything takes. */
int sl_science_show(const sl_stage *stage); /* science.c */

/* pages.c; returns the height that the page's text takes. `close` is its button. */
int sl_page_show(const sl_stage *stage, SDL_Rect close);
SDL_Rect sl_page_close(const sl_stage *stage, int width, int height);

#endif
