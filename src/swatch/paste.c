/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A mix on hair: a thin uneven paste. Its thickness is smooth noise drawn by the seed on two
 * grids (strokes of a brush run along the fibres, so cells are longer than wide), moved so
 * that its mean over the hair is the middle; thicker places hide more, and light falls on its
 * slopes. Invariant: the mean cover is the mix's own.
 */
#include <math.h>

#include "base/memory.h"
#include "swatch/strip_parts.h"

enum { MIDDLE = 128, SWING = 110, MOST_CELLS = 40 };
static const double SLOPE_LIGHT = 0.45; /* of the paste's light per unit slope */

typedef struct grid {
    int columns, rows;
    float at[MOST_CELLS + 2][MOST_CELLS + 2];
} grid;

static void draw_grid(grid *cells, int columns, int rows, uint32_t *state)
{
    cells->columns = columns;
    cells->rows = rows;
    for (int row = 0; row <= rows; row++) {
        for (int column = 0; column <= columns; column++) {
            cells->at[row][column] = (float)(2.0 * sl_chance(state) - 1.0);
        }
    }
}

static float smooth(float t)
{
    return t * t * (3.0F - 2.0F * t);
}

static float grid_at(const grid *cells, float x, float y)
{
    const float fx = x * (float)cells->columns, fy = y * (float)cells->rows;
    const int column = (int)fx, row = (int)fy;
    const float u = smooth(fx - (float)column), v = smooth(fy - (float)row);
    const float upper = cells->at[row][column] + u * (cells->at[row][column + 1] - cells->at[row][column]);
    const float lower =
        cells->at[row + 1][column] + u * (cells->at[row + 1][column + 1] - cells->at[row + 1][column]);
    return upper + v * (lower - upper);
}

static void fill(const sl_strip *strip, float *thickness)
{
    uint32_t state = sl_chance_start(strip->seed ^ 0x9E3779B9U);
    grid wide, fine;
    draw_grid(&wide, 4, 11, &state);
    draw_grid(&fine, 17, 36, &state);
    for (int y = 0; y < strip->height; y++) {
        for (int x = 0; x < strip->width; x++) {
            const float u = ((float)x + 0.5F) / (float)strip->width;
            const float v = ((float)y + 0.5F) / (float)strip->height;
            thickness[(size_t)y * (size_t)strip->width + (size_t)x] =
                0.75F * grid_at(&wide, u, v) + 0.25F * grid_at(&fine, u, v);
        }
    }
}

/* Mean over the hair. */
static double mean_of(const sl_strip *strip, const float *value)
{
    double sum = 0.0, weight = 0.0;
    for (size_t i = 0; i < (size_t)strip->width * (size_t)strip->height; i++) {
        sum += strip->cover[i] * (double)value[i];
        weight += strip->cover[i];
    }
    return weight > 0.0 ? sum / weight : 0.0;
}

/* Light from the upper left on the slope of the paste; the slope is taken over a 160th of the
 * strip's height, so that it looks alike at any size. */
static float relief_at(const sl_strip *strip, const float *thickness, int x, int y)
{
    const int reach = strip->height / 160 + 1;
    const int left = x >= reach ? x - reach : 0, up = y >= reach ? y - reach : 0;
    const size_t width = (size_t)strip->width;
    return thickness[(size_t)y * width + (size_t)x] - thickness[(size_t)up * width + (size_t)left];
}

bool sl_strip_lay_paste(sl_strip *strip, sl_error *error)
{
    const size_t all = (size_t)strip->width * (size_t)strip->height;
    float *thickness = sl_new(all, sizeof *thickness, LAYING, error);
    if (thickness == NULL) {
        return false;
    }
    fill(strip, thickness);
    const float mean = (float)mean_of(strip, thickness);
    for (size_t i = 0; i < all; i++) {
        const int y = (int)(i / (size_t)strip->width), x = (int)(i % (size_t)strip->width);
        const float level = fminf(fmaxf(thickness[i] - mean, -1.0F), 1.0F);
        const float light = 1.0F + (float)SLOPE_LIGHT * relief_at(strip, thickness, x, y);
        strip->paste[i] = (uint8_t)(MIDDLE + lroundf(SWING * level));
        strip->relief[i] = (uint8_t)lroundf(GAIN_ONE * fminf(fmaxf(light, 0.75F), 1.25F));
    }
    sl_free(thickness);
    return true;
}

void sl_paste_cover(double mean, uint16_t cover[256])
{
    /* As uneven as it can be without a place that is bare or hides more than all. */
    const double swing = 0.9 * fmin(mean, 1.0 - mean) / SWING;
    for (int i = 0; i < 256; i++) {
        const double here = fmin(fmax(mean + swing * (i - MIDDLE), 0.0), 1.0);
        cover[i] = (uint16_t)lround(256.0 * here);
    }
}
