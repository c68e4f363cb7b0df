/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Where the day of the test stands on the window: a pure function of the window's size and of
 * the heights that its texts take. Invariant: rectangles do not overlap and lie inside the
 * window; whatever is pressed has at least SL_DAY_TARGET_PX, a stop at least SL_DAY_STOP_PX.
 *
 * Read from three metres: 20 minutes of arc (from memory, of signs for ergonomic displays) are 17.5 mm, 66
 * pixels at 96 dpi; a figure of the countdown at scale 1 is 0.73 of its 92 pixels, 67.
 */
#ifndef SLOWLIFT_VIEW_DAY_PLACE_H
#define SLOWLIFT_VIEW_DAY_PLACE_H

#include <SDL.h>
#include <stdbool.h>

enum {
    SL_DAY_TARGET_PX = 64, /* for wet gloves */
    SL_DAY_STOP_PX = 76,   /* 20 mm at 96 dpi */
    SL_DAY_BUTTONS = 10,
    SL_DAY_SIGNS = 2 /* the last of them hold a sign, no word */
};

/* From this text scale on, head and alarm keep a smaller type. */
static const double SL_DAY_TIGHT = 1.5;

typedef struct sl_day_wish_place {
    int width, height; /* pixels */
    double scale;      /* of the text, 1..2 */
    int line, large;   /* heights of a line of small and of large text, pixels */
    int head_h, alarm_h, foot_h;
} sl_day_wish_place;

typedef struct sl_day_places {
    bool fits;    /* nothing was squeezed below what it needs */
    bool compact; /* large text: two columns in place of three */
    SDL_Rect head, alarm, next, list, stop_all, stop_one, model, foot;
    SDL_Rect button[SL_DAY_BUTTONS];
    int row_h; /* of the list */
} sl_day_places;

sl_day_places sl_day_place(const sl_day_wish_place *wish);

/* n places of at least SL_DAY_TARGET_PX in rows of `columns`, over the foot of area. */
SDL_Rect sl_day_grid(SDL_Rect area, int columns, int rows, int index);

#endif
