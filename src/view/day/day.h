/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The day of the test (day/day.h) in the window: it draws what the day says, and hands it keys and presses.
 */
#ifndef SLOWLIFT_VIEW_DAY_H
#define SLOWLIFT_VIEW_DAY_H

#include <SDL.h>
#include <stdbool.h>

#include "day/says.h"
#include "swatch/strip.h"
#include "view/day/day_place.h"
#include "view/day/day_sound.h"
#include "view/draw/eyes.h"
#include "view/draw/leaf.h"
#include "view/draw/pen.h"
#include "view/strips/strip.h"

typedef struct sl_day_spot {
    sl_day_act act;
    int number;
    SDL_Rect area;
} sl_day_spot;
enum { SL_DAY_SPOTS = 64 };

/* The scale of the text at which all found room, and for what. */
typedef struct sl_day_fitted {
    int w, h;
    sl_day_view page;
    double wished, scale;
} sl_day_fitted;

typedef struct sl_day_screen {
    sl_day_desk *desk;
    sl_eyes eyes;
    double scale; /* of the text, 1..2 */
    sl_day_sound sound;
    sl_lenses lenses; /* of the model's scene */

    sl_day_view reading; /* SL_DAY_CAUTIONS, SL_DAY_HELP or SL_DAY_WENT over all else; SL_DAY_BENCH: none */
    sl_leaf leaf;        /* SL_DAY_WENT */
    int first_row, scroll, scroll_most;
    char said[SL_DAY_LINE];
    bool refused; /* said: a key that was not taken */

    SDL_Window *window;
    sl_text *text;
    sl_pen pen;
    sl_day_places places;
    sl_day_fitted fitted;
    bool tight; /* large text: head, alarm and foot are kept short */
    sl_light_table light;
    sl_strip *strip;
    SDL_Rect hair; /* where it was last drawn */
    sl_day_spot spot[SL_DAY_SPOTS];
    int n_spots;
    bool dirty, leave;
    int drawn;         /* frames */
    int phase, second; /* of what was drawn */
} sl_day_screen;

/* Shows the window until it is left; false with *error. say: keys, after each of which all is told in words
 * (say.h); NULL: a window. */
bool sl_day_watch(sl_day_desk *desk, const sl_eyes *eyes, double scale, const char *say, SDL_Window *window,
                  sl_error *error);

/* ---- day_keys.c -------------------------------------------------------------------------------------- */

void sl_day_key(sl_day_screen *screen, SDL_Keycode key, bool control);
void sl_day_press(sl_day_screen *screen, sl_day_act act, int number);
/* What the last key or the last second brought. */
void sl_day_take_effects(sl_day_screen *screen);
/* What is drawn: the day's page, or what is read over it. */
sl_day_view sl_day_page_of(const sl_day_screen *screen);

/* ---- day_show.c, day_list.c, day_pages.c, day_strip.c ------------------------------------------------ */

bool sl_day_draw(sl_day_screen *screen, sl_error *error);
void sl_day_add_spot(sl_day_screen *screen, sl_day_act act, int number, SDL_Rect area);
void sl_day_put_trouble(const sl_day_screen *screen, SDL_Rect area); /* what could not be written, and why */
SDL_Rect sl_day_put_rehearsal(const sl_day_screen *screen, SDL_Rect area); /* what is left beside its plate */
void sl_day_put_list(sl_day_screen *screen);
/* Wrapped within the area, in the largest letters up to `most` that find room; returns the y below. */
int sl_day_put_fitting(const sl_pen *pen, sl_type most, SDL_Rect area, const char *text);
void sl_day_put_alarm(sl_day_screen *screen, SDL_Rect area);
void sl_day_put_button(sl_day_screen *screen, sl_day_act act, int number, SDL_Rect area, const char *label,
                       const char *key, bool strong);
void sl_day_put_page(sl_day_screen *screen);  /* any but the bench */
bool sl_day_page_fits(sl_day_screen *screen); /* no text of it meets another at this size */
bool sl_day_put_model(sl_day_screen *screen, sl_error *error);

#endif
