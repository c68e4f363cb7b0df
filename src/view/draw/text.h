/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Text: measured by its face without being drawn, broken into lines, and each line drawn once per style and
 * colour into a small picture that is kept. Invariant: what is handed out lives until the next call of
 * sl_text_turn or sl_text_scale, however much is asked for in a frame.
 */
#ifndef SLOWLIFT_VIEW_TEXT_H
#define SLOWLIFT_VIEW_TEXT_H

#include <SDL.h>
#include <stdbool.h>
#include <stdio.h>

#include "slowlift/error.h"
#include "slowlift/optics.h"

typedef enum sl_type {
    SL_TYPE_NOTE, /* the cautions below, notices */
    SL_TYPE_SMALL,
    SL_TYPE_BODY,
    SL_TYPE_STRONG,
    SL_TYPE_FIGURE,
    SL_TYPE_HEAD,
    SL_TYPE_LARGE, /* across a table: what is next on the day of the test */
    SL_TYPE_CLOCK, /* across a room: its countdown (view/day/day_place.h) */
    SL_TYPE_COUNT
} sl_type;

typedef struct sl_text sl_text;

sl_text *sl_text_new(sl_error *error); /* finds the face and starts SDL_ttf */
void sl_text_free(sl_text *text);

/* Pixels per unit: 1 at 100 % on a window of 1280 x 800. Reopens the faces when it changed. */
bool sl_text_scale(sl_text *text, double unit, sl_error *error);

/* Call once before a frame: forgets everything when too much is kept. */
void sl_text_turn(sl_text *text);

/* Width and height of `string`, wrapped at `wrap` pixels when > 0 (lines then also break at '\n'). */
SDL_Point sl_text_extent(sl_text *text, sl_type type, int wrap, const char *string);
/* The same with another number of pixels per unit, for who looks for one that finds room. */
SDL_Point sl_text_extent_at(sl_text *text, sl_type type, double unit, int wrap, const char *string);

/* Its height alone, and whether it stands in a line so wide: without measuring it where there is no doubt. */
int sl_text_height(sl_text *text, sl_type type, int wrap, const char *string);
bool sl_text_fits(sl_text *text, sl_type type, int width, const char *string);

typedef struct sl_text_line {
    int from, length; /* bytes of the string */
} sl_text_line;
/* Where `string` breaks at `wrap` pixels; returns how many lines. Borrowed; 0 for an empty string. */
int sl_text_lines(sl_text *text, sl_type type, int wrap, const char *string, const sl_text_line **lines);

/* The picture of one line. Borrowed; NULL for an empty string or when it cannot be drawn. */
SDL_Surface *sl_text_picture(sl_text *text, sl_type type, sl_srgb8 ink, const char *string);
/* From now on whatever a pen writes is also told to `out`: its place, style and words (trace.h). */
void sl_text_tell_to(sl_text *text, FILE *out);
bool sl_text_tells(const sl_text *text);
void sl_text_told(const sl_text *text, sl_type type, SDL_Rect area, const char *string);
/* Of words, or one of them, wider than their place, in pixels: "cut width place words". */
void sl_text_cut(const sl_text *text, int width, int place, const char *string);
int sl_text_line_height(const sl_text *text, sl_type type);
/* Whether both faces, regular and bold, hold the character. */
bool sl_text_has(const sl_text *text, Uint32 character);

#endif
