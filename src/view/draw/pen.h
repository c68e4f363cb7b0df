/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Drawing on the window's surface: rectangles, patterns, lines, text. Invariant: only
 * neutral roles of the theme pass through here; the colours of hair are strip.h's.
 */
#ifndef SLOWLIFT_VIEW_PEN_H
#define SLOWLIFT_VIEW_PEN_H

#include <SDL.h>

#include "view/draw/text.h"
#include "view/draw/theme.h"

typedef struct sl_pen {
    SDL_Surface *sheet; /* 32 bits a pixel, borrowed */
    sl_text *text;      /* borrowed */
    const sl_theme *theme;
    double unit; /* pixels per unit of the layout */
} sl_pen;

typedef enum sl_align { SL_ALIGN_LEFT, SL_ALIGN_CENTRE, SL_ALIGN_RIGHT } sl_align;
/* Patterns tell bars apart where colour must not. */
typedef enum sl_bar_pattern { SL_PATTERN_SOLID, SL_PATTERN_STRIPES, SL_PATTERN_DOTS } sl_bar_pattern;

int sl_pen_px(const sl_pen *pen, double units); /* at least 1 for a positive length */
void sl_pen_fill(const sl_pen *pen, SDL_Rect area, sl_role role);
void sl_pen_frame(const sl_pen *pen, SDL_Rect area, int thickness, sl_role role); /* inside area */
void sl_pen_pattern(const sl_pen *pen, SDL_Rect area, sl_bar_pattern pattern, sl_role role);
/* Filled triangle with its tip at (x, y); `size` pixels high, pointing down or up. */
void sl_pen_triangle(const sl_pen *pen, int x, int y, int size, bool down, sl_role role);
/* Two rings around area: the focus. */
void sl_pen_focus(const sl_pen *pen, SDL_Rect area);

SDL_Point sl_pen_size(const sl_pen *pen, sl_type type, sl_role ink, int wrap, const char *string);
/* The largest type, from `type` down, in which string fits into area; the smallest where none does. */
sl_type sl_pen_fitting(const sl_pen *pen, sl_type type, SDL_Rect area, const char *string);
/* At x (left edge, middle or right edge) and top y; returns the area written. */
SDL_Rect sl_pen_write(const sl_pen *pen, sl_type type, sl_role ink, int x, int y, sl_align align,
                      const char *string);
/* Wrapped in the width of area, from its top; returns the height used. */
int sl_pen_wrap(const sl_pen *pen, sl_type type, sl_role ink, SDL_Rect area, bool centred,
                const char *string);
/* In the middle of area's height; where it is too wide in smaller letters, and only then cut off at area's
 * edges. */
void sl_pen_place(const sl_pen *pen, sl_type type, sl_role ink, SDL_Rect area, sl_align align,
                  const char *string);

SDL_Rect sl_rect_inset(SDL_Rect area, int by);
bool sl_rect_holds(SDL_Rect area, int x, int y);

#endif
