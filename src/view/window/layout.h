/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Where everything stands: a pure function of the window's size and of what is shown, whose words its face
 * measures. Invariant: rectangles of one layout do not overlap unless one is part of the other, and all lie
 * inside the window. Lengths in pixels; `unit` is pixels per layout unit.
 */
#ifndef SLOWLIFT_VIEW_LAYOUT_H
#define SLOWLIFT_VIEW_LAYOUT_H

#include <SDL.h>
#include <stdbool.h>

#include "slowlift/model.h"
#include "view/draw/text.h"

enum { SL_TARGET = 44 /* units: gloved hands */ };
enum { SL_MOST_BUTTONS = 12, SL_FIGURES = 3, SL_MOST_LANES = 8 };

typedef struct sl_layout_wish {
    int width, height; /* pixels */
    double scale;      /* text scale, 1..2, on top of what the window's size gives */
    int n_arms, n_zones;
    int n_buttons;                       /* in the first row, up to SL_MOST_BUTTONS */
    const char *button[SL_MOST_BUTTONS]; /* [n_buttons]: the shortest word for each */
    int first_arm;                       /* the first that is shown, where not all find room */
    int wide_arm;                        /* drawn twice as wide (before beside after); -1 none */
    bool panel;                          /* the panel at the right */
    bool marks;                          /* the rows below the ruler */
    bool pressed;                        /* in their place something is pressed */
    bool unusual;                        /* hair is shown otherwise than usual: a line says so */
    const char *gate;                    /* in their place; "": none */
    sl_text *text;                       /* measures the words */
    const char *note[2];                 /* the two paragraphs at the foot */
    const char *brief;                   /* the foot's short form, where large text leaves no room for both */
    const char *notice;                  /* in place of the sentence on what is compared; "": none */
} sl_layout_wish;

typedef struct sl_layout {
    double unit;
    double scale;   /* the scale that found room; below the wish in a small window */
    bool compact;   /* large text in a small window: one line where there were two */
    int target;     /* least side of what is pressed; compact: grows with the window alone */
    SDL_Rect title; /* title and question; empty when compact */
    int n_buttons;
    SDL_Rect button[SL_MOST_BUTTONS]; /* [n_buttons] */
    SDL_Rect mode;                    /* the sentence that says what is compared */
    SDL_Rect less, more, pace;        /* the share of the comparison, or the speed; and its word */
    SDL_Rect shown;                   /* in which look and light, to whose eyes; empty where that is usual */
    SDL_Rect gutter;                  /* names of zones, left of the field */
    SDL_Rect field;                   /* where strips hang */
    SDL_Rect figures;                 /* below the field, SL_FIGURES rows */
    SDL_Rect play;
    SDL_Rect clock;              /* the time in figures, beside play; its pace below it */
    SDL_Rect step_back, step_on; /* single steps; empty when compact */
    SDL_Rect ruler;              /* axis and lanes; spans the columns */
    int number_w;                /* left of the ruler, for the lanes' numbers */
    SDL_Rect marks;              /* below the ruler, as wide; empty when not wished */
    SDL_Rect foot;
    SDL_Rect panel;               /* empty when not shown */
    SDL_Rect back, on;            /* other strips; empty when all are shown */
    int first, n_shown;           /* arms first..first+n_shown-1 have columns */
    SDL_Rect column[SL_MAX_ARMS]; /* [shown], names to figures */
    SDL_Rect name[SL_MAX_ARMS];   /* [shown] */
    SDL_Rect strip[SL_MAX_ARMS];  /* [shown], hair only */
    SDL_Rect lock[SL_MAX_ARMS];   /* [shown], at its left edge: the same hair at minute 0 */
    int row_h;                    /* height of a figures row */
    int bar_w;                    /* full length of every bar */
    bool narrow;                  /* a figure's word stands below its bar, not beside its number */
    int axis_h;                   /* height of the ruler's axis; lanes share the rest */
} sl_layout;

sl_layout sl_layout_make(const sl_layout_wish *wish);
/* The area of a zone inside a strip; zones are of equal height. */
SDL_Rect sl_layout_zone(const SDL_Rect *strip, int n_zones, int zone);

#endif
