/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Where a lesson's step stands on the window: a pure function of the window's size and of what
 * the step shows. Invariant: rectangles do not overlap and all lie inside the window.
 *
 * For a whole room: who sees 20/40 tells letters of 10 minutes of arc apart, 14.5 mm at 5 m
 * (20/20 is 5 minutes of arc by the definition of the letter chart: ISO 8596). A picture 2 m
 * wide and 1280 pixels across has 1.56 mm in a pixel: letters without ascenders need 9.3 pixels.
 * The rule of signs, a capital of 1/200 of the distance (common practice, no source), asks for
 * 25 mm, 16 pixels. SL_ROOM_SCALE keeps both; tests/unit/test_lesson_view.c measures the face.
 */
#ifndef SLOWLIFT_VIEW_LESSON_PLACE_H
#define SLOWLIFT_VIEW_LESSON_PLACE_H

#include <SDL.h>
#include <stdbool.h>

#include "slowlift/model.h"

static const double SL_ROOM_SCALE = 2.0;       /* text scale of the class-room mode */
static const double SL_ROOM_LETTER_PX = 9.3;   /* least x-height on 1280 pixels */
static const double SL_ROOM_CAPITAL_PX = 16.0; /* least capital on 1280 pixels */

typedef struct sl_step_wish {
    int width, height;  /* pixels */
    double scale;       /* text scale, 1..2, on top of what the window's size gives */
    int n_strips;       /* 0: a step without strips */
    int head_h, foot_h; /* pixels that the text in them takes */
    int name_h;         /* of the names below the strips */
    int figure_h;       /* of figure, bar and mark below a strip */
    int caption_h;      /* above the strips */
} sl_step_wish;

typedef struct sl_step_places {
    double unit;   /* pixels per unit */
    SDL_Rect head; /* lesson, step */
    SDL_Rect text; /* scrolled */
    SDL_Rect foot; /* what always stands, and the keys */
    SDL_Rect caption;
    SDL_Rect field; /* empty without strips */
    int n;
    SDL_Rect strip[SL_MAX_ARMS];  /* [n] inside the field */
    SDL_Rect name[SL_MAX_ARMS];   /* [n] below it */
    SDL_Rect figure[SL_MAX_ARMS]; /* [n] below that */
} sl_step_places;

/* Pixels per unit of a window: 1 at 100 % on 1280 x 800. */
double sl_step_unit(int width, int height, double scale);
sl_step_places sl_step_place(const sl_step_wish *wish);

#endif
