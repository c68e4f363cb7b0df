/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Controls without memory: a rectangle and a state go in, a value or pixels come out.
 */
#ifndef SLOWLIFT_VIEW_WIDGET_H
#define SLOWLIFT_VIEW_WIDGET_H

#include "view/draw/pen.h"

typedef struct sl_button_look {
    const char *label;
    const char *brief; /* where the label finds no room; NULL: none */
    const char *key;   /* the key that does the same; "" none */
    bool on;           /* a switch that is on: dark ground */
    bool off_duty;     /* nothing to act on now: quiet ink, thin frame */
} sl_button_look;
void sl_button_draw(const sl_pen *pen, SDL_Rect area, const sl_button_look *look);

/* One labelled figure: number, bar, word below. fill and before are shares of the bar. */
typedef struct sl_figure {
    const char *number;
    const char *word;
    double fill;   /* 0..1; below 0: no bar */
    double before; /* a mark where it was before a change; below 0: none */
    sl_bar_pattern pattern;
} sl_figure;
/* Where its parts stand: the number first; bars of one row begin and end alike. */
typedef enum sl_figure_form {
    SL_FIGURE_LINE,   /* word and bar beside the number, in one line */
    SL_FIGURE_BESIDE, /* word beside the number, bar below both */
    SL_FIGURE_BELOW   /* number, bar, word, one below the other */
} sl_figure_form;
/* `bar_w`: the bar's full length. */
void sl_figure_draw(const sl_pen *pen, SDL_Rect area, int bar_w, sl_figure_form form,
                    const sl_figure *figure);

int sl_more_height(const sl_pen *pen); /* of the line that says so */
/* That there is more below what is in sight of the view, over its last line; nothing where there is not. */
void sl_more_draw(const sl_pen *pen, SDL_Rect view, int pixels_below);

/* A knob is a row [-] track [+] of one target's height. */
typedef struct sl_knob_areas {
    SDL_Rect less, track, more;
} sl_knob_areas;
sl_knob_areas sl_knob_place(SDL_Rect area, int target);
double sl_track_value(SDL_Rect track, int x, double least, double most, double step);
/* `mark`: where the file stands, share of the track. */
void sl_knob_draw(const sl_pen *pen, const sl_knob_areas *areas, double share, double mark, bool works);

#endif
