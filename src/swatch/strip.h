/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A strip of hair in pixels: fine fibres whose colour comes from outside and whose light and
 * shade come from where they lie. Invariant: over the middle of a zone the mean of what
 * is drawn, in linear light, is the zone's own colour; the fibres add no colour.
 */
#ifndef SLOWLIFT_SWATCH_STRIP_H
#define SLOWLIFT_SWATCH_STRIP_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "slowlift/error.h"
#include "slowlift/model.h"
#include "slowlift/optics.h"
#include "swatch/fibre.h"
#include "swatch/fine.h"

typedef struct sl_strip sl_strip; /* the fibres of one strip at one size */

enum { SL_LIGHT_TOP = 16383 };

/* sRGB to linear and back, by table; one serves all strips. */
typedef struct sl_light_table {
    uint16_t linear[256];              /* encoded -> linear, 0..SL_LIGHT_TOP */
    uint8_t encoded[SL_LIGHT_TOP + 1]; /* linear -> encoded */
} sl_light_table;
void sl_light_table_fill(sl_light_table *table);

/* Pixels to draw on: 32 bits each, the place of each colour given in bits (16, 8, 0 for
 * XRGB). Only columns left..right and rows top..bottom (ends excluded) are touched. */
typedef struct sl_pixels {
    uint32_t *first; /* of the top row */
    size_t pitch;    /* pixels from one row to the next */
    int left, top, right, bottom;
    unsigned red_shift, green_shift, blue_shift;
} sl_pixels;

/* Width of the soft border between two zones, zone heights: dye bleeds as it is put on
 * (assumed; a choice of drawing). */
static const double SL_USUAL_BLEED = 0.16;

/* How a strip looks now. */
typedef struct sl_strip_look {
    sl_fine_rgb colour[SL_MAX_ZONES][SL_STRANDS]; /* root end first; a zone's mean is its colour */
    double bleed;                                 /* zone heights, 0..0.5 */
    double veil_cover; /* mean share of the hair that the mix hides, 0..1; 0 = none lies on it */
    sl_srgb8 veil;     /* colour of the mix */
} sl_strip_look;
/* Every zone in one colour for all its strands, nothing on the hair. */
void sl_strip_look_plain(sl_strip_look *look, const sl_srgb8 *colour, int n_zones);
/* Lay a mix over it, as `vision` sees it. */
void sl_strip_look_veil(sl_strip_look *look, const sl_mix *mix, sl_vision vision);

/* Lay the fibres of a strip of width x height pixels (both > 0) with zones of equal
 * height; *strip is made when it points to NULL, and laid again only when the size, the
 * zones or the seed differ. Same seed, same fibres. */
bool sl_strip_lay(sl_strip **strip, int width, int height, int n_zones, uint32_t seed, sl_error *error);
/* Whether it is laid just so; false for NULL. */
bool sl_strip_laid(const sl_strip *strip, int width, int height, int n_zones, uint32_t seed);
/* Pixels as laid; false for NULL and while nothing is laid. */
bool sl_strip_size(const sl_strip *strip, int *width, int *height);
void sl_strip_free(sl_strip *strip); /* NULL is allowed */

/* Draw columns from..to (of 0..width) at (x, y). The ground shows between the outermost
 * fibres. Uses scratch of the strip: one thread at a time. */
void sl_strip_draw(sl_strip *strip, const sl_light_table *table, const sl_pixels *sheet, int x, int y,
                   int from, int to, const sl_strip_look *look);

#endif
