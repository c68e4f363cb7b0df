/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Painting is colour x gain in linear light, nothing else; a mix is laid over it as a mean by
 * cover. Borders between zones are soft and differ from fibre to fibre, as dye runs.
 */
#include "swatch/strip.h"

#include <assert.h>
#include <math.h>

#include "base/memory.h"
#include "swatch/strip_parts.h"

enum { MOST_ROWS = 16384 }; /* taller than any screen */

static double clamp(double value, double least, double most)
{
    return fmin(fmax(value, least), most);
}

static int larger(int one, int two)
{
    return one > two ? one : two;
}

static int smaller(int one, int two)
{
    return one < two ? one : two;
}

void sl_light_table_fill(sl_light_table *table)
{
    for (int i = 0; i < 256; i++) {
        table->linear[i] = (uint16_t)lround(sl_srgb_decode(i / 255.0) * SL_LIGHT_TOP);
    }
    for (int i = 0; i <= SL_LIGHT_TOP; i++) {
        table->encoded[i] = (uint8_t)lround(sl_srgb_encode((double)i / SL_LIGHT_TOP) * 255.0);
    }
}

/* ---- laying ----------------------------------------------------------------------------- */

static void release(sl_strip *strip)
{
    sl_free(strip->gain);
    sl_free(strip->cover);
    sl_free(strip->mark);
    sl_free(strip->paste);
    sl_free(strip->relief);
    sl_free(strip->row);
    *strip = (sl_strip){0};
}

static bool make_room(sl_strip *strip, int width, int height, int n_zones, sl_error *error)
{
    const size_t all = (size_t)width * (size_t)height;
    uint8_t **const planes[] = {&strip->gain, &strip->cover, &strip->mark, &strip->paste, &strip->relief};
    release(strip);
    for (size_t i = 0; i < sizeof planes / sizeof planes[0]; i++) {
        *planes[i] = sl_new(all, 1, LAYING, error);
        if (*planes[i] == NULL) {
            return false;
        }
    }
    strip->run_step = 1 + height / n_zones / 170; /* 15 steps reach a shift of 0.09 zones */
    const size_t rows = (size_t)height + 2 * RUN_ZERO * (size_t)strip->run_step;
    strip->row = sl_new(rows, sizeof *strip->row, LAYING, error);
    strip->width = width;
    strip->height = height;
    strip->n_zones = n_zones;
    return strip->row != NULL;
}

bool sl_strip_laid(const sl_strip *strip, int width, int height, int n_zones, uint32_t seed)
{
    return strip != NULL && strip->width == width && strip->height == height && strip->n_zones == n_zones &&
           strip->seed == seed;
}

bool sl_strip_size(const sl_strip *strip, int *width, int *height)
{
    if (strip == NULL || strip->width == 0) {
        return false;
    }
    *width = strip->width;
    *height = strip->height;
    return true;
}

bool sl_strip_lay(sl_strip **strip, int width, int height, int n_zones, uint32_t seed, sl_error *error)
{
    assert(width > 0 && height > 0 && height <= MOST_ROWS && n_zones > 0 && n_zones <= SL_MAX_ZONES);
    if (*strip == NULL) {
        *strip = sl_new(1, sizeof **strip, "making a strip", error);
        if (*strip == NULL) {
            return false;
        }
    }
    sl_strip *s = *strip;
    if (sl_strip_laid(s, width, height, n_zones, seed)) {
        return true;
    }
    const bool room = make_room(s, width, height, n_zones, error);
    s->seed = seed;
    if (!room || !sl_strip_lay_fibres(s, error) || !sl_strip_lay_paste(s, error)) {
        release(s);
        return false;
    }
    return true;
}

void sl_strip_free(sl_strip *strip)
{
    if (strip != NULL) {
        release(strip);
        sl_free(strip);
    }
}

/* ---- looks ------------------------------------------------------------------------------ */

void sl_strip_look_plain(sl_strip_look *look, const sl_srgb8 *colour, int n_zones)
{
    *look = (sl_strip_look){.bleed = SL_USUAL_BLEED};
    for (int zone = 0; zone < n_zones; zone++) {
        for (int strand = 0; strand < SL_STRANDS; strand++) {
            look->colour[zone][strand] = (sl_fine_rgb){sl_fine_part(sl_srgb_decode(colour[zone].r / 255.0)),
                                                       sl_fine_part(sl_srgb_decode(colour[zone].g / 255.0)),
                                                       sl_fine_part(sl_srgb_decode(colour[zone].b / 255.0))};
        }
    }
}

void sl_strip_look_veil(sl_strip_look *look, const sl_mix *mix, sl_vision vision)
{
    const sl_lab lab = {mix->veil_lab[0], mix->veil_lab[1], mix->veil_lab[2]};
    look->veil_cover = mix->veil_cover;
    look->veil = sl_srgb8_seen(vision, sl_srgb8_of_xyz(sl_xyz_of_lab(lab), NULL));
}

/* ---- drawing ----------------------------------------------------------------------------- */

/* Light and shade that a colour can bear: its brightest channel at the top gain is just 1. */
static uint16_t contrast_of(const sl_strip *strip, const sl_row_colour *colour)
{
    const int most = larger(colour->r, larger(colour->g, colour->b));
    const double room = most > 0 ? (double)(SL_LIGHT_TOP - most) / most : 1.0;
    return (uint16_t)(CONTRAST_ONE * fmin(1.0, room * GAIN_ONE / (strip->top - GAIN_ONE)));
}

static uint16_t mixed(unsigned one, unsigned two, unsigned parts)
{
    return (uint16_t)((one * parts + two * (256U - parts) + 128U) / 256U);
}

/* A zone's strands in linear light, moved together so that the mean of what is seen of them is
 * the mean of the kinds. */
static void settle_strands(const sl_strip *strip, const sl_strip_look *look, int zone,
                           sl_row_colour settled[SL_STRANDS])
{
    double plain[3] = {0.0}, seen[3] = {0.0};
    double light[SL_STRANDS][3];
    for (int i = 0; i < SL_STRANDS; i++) {
        const sl_rgb linear = sl_linear_of_fine(look->colour[zone][i]);
        light[i][0] = SL_LIGHT_TOP * linear.r;
        light[i][1] = SL_LIGHT_TOP * linear.g;
        light[i][2] = SL_LIGHT_TOP * linear.b;
        for (int c = 0; c < 3; c++) {
            plain[c] += light[i][c] / SL_STRANDS;
            seen[c] += strip->weight[zone][i] * light[i][c];
        }
    }
    for (int i = 0; i < SL_STRANDS; i++) {
        uint16_t *const to[3] = {&settled[i].r, &settled[i].g, &settled[i].b};
        for (int c = 0; c < 3; c++) {
            const double moved = seen[c] > 0.0 ? light[i][c] * plain[c] / seen[c] : 0.0;
            *to[c] = (uint16_t)(fmin(moved, SL_LIGHT_TOP) + 0.5);
        }
    }
}

/* The linear colour of every row and strand that rows top..bottom take, borders mixed softly. */
static void mix_rows(sl_strip *strip, const sl_strip_look *look, int top, int bottom)
{
    const double zone = (double)strip->height / strip->n_zones;
    const int pad = RUN_ZERO * strip->run_step;
    sl_row_colour settled[SL_MAX_ZONES][SL_STRANDS];
    for (int i = 0; i < strip->n_zones; i++) {
        settle_strands(strip, look, i, settled[i]);
    }
    for (int i = top; i < bottom + 2 * pad; i++) {
        const double place = clamp((i - pad + 0.5) / zone, 0.0, strip->n_zones - 1e-9);
        const int here = (int)place;
        const double within = place - here;
        const int next = within > 0.5 ? smaller(here + 1, strip->n_zones - 1) : larger(here - 1, 0);
        const double away = within > 0.5 ? 1.0 - within : within; /* from the border, zone heights */
        const double t = look->bleed > 0.0 ? fmin(away / look->bleed, 1.0) : 1.0;
        const double own = 0.5 + 0.5 * t * t * (3.0 - 2.0 * t); /* smooth step from 1/2 to 1 */
        const unsigned parts = (unsigned)(256.0 * own + 0.5);
        for (int strand = 0; strand < SL_STRANDS; strand++) {
            const sl_row_colour a = settled[here][strand], b = settled[next][strand];
            sl_row_colour *row = &strip->row[i][strand];
            row->r = mixed(a.r, b.r, parts);
            row->g = mixed(a.g, b.g, parts);
            row->b = mixed(a.b, b.b, parts);
            row->contrast = contrast_of(strip, row);
        }
    }
}

static unsigned encoded(const sl_light_table *table, unsigned linear)
{
    return table->encoded[linear < SL_LIGHT_TOP ? linear : SL_LIGHT_TOP];
}

static uint32_t packed(const sl_light_table *table, const unsigned light[3], const sl_pixels *sheet)
{
    return (uint32_t)encoded(table, light[0]) << sheet->red_shift |
           (uint32_t)encoded(table, light[1]) << sheet->green_shift |
           (uint32_t)encoded(table, light[2]) << sheet->blue_shift;
}

/* Bytes 0 and 2, then 1 and 3, of two pixels mixed: cover of 256 parts of `top`. */
static uint32_t over(uint32_t top, uint32_t under, unsigned cover)
{
    const uint32_t pair = 0x00FF00FFU;
    const uint32_t parts = cover + (cover >> 7); /* 0..255 -> 0..256 */
    const uint32_t even = ((top & pair) * parts + (under & pair) * (256U - parts)) >> 8 & pair;
    const uint32_t odd = ((top >> 8 & pair) * parts + (under >> 8 & pair) * (256U - parts)) & ~pair;
    return even | odd;
}

/* The mix that lies on a strip, made ready for its pixels. */
typedef struct paste {
    bool lies;
    unsigned light[3];
    uint16_t cover[256];
} paste;

static void ready_paste(paste *mix, const sl_light_table *table, const sl_strip_look *look)
{
    mix->lies = look->veil_cover > 0.0;
    if (mix->lies) {
        mix->light[0] = table->linear[look->veil.r];
        mix->light[1] = table->linear[look->veil.g];
        mix->light[2] = table->linear[look->veil.b];
        sl_paste_cover(look->veil_cover, mix->cover);
    }
}

static void draw_row(const sl_strip *strip, const sl_light_table *table, const sl_pixels *sheet,
                     const paste *mix, uint32_t *pixel, int v, int left, int right)
{
    const size_t start = (size_t)v * (size_t)strip->width;
    for (int u = left; u < right; u++) {
        const size_t at = start + (size_t)u;
        const unsigned cover = strip->cover[at];
        if (cover == 0) {
            continue;
        }
        const unsigned mark = strip->mark[at];
        const sl_row_colour *hair = &strip->row[v + (int)(mark & 31U) * strip->run_step][mark >> 5];
        const unsigned one = GAIN_ONE * CONTRAST_ONE; /* a product of 14 and 18 bits */
        const unsigned gain = one + (unsigned)(((int)strip->gain[at] - GAIN_ONE) * hair->contrast);
        unsigned light[3] = {hair->r * gain / one, hair->g * gain / one, hair->b * gain / one};
        if (mix->lies) {
            const unsigned hid = mix->cover[strip->paste[at]], relief = strip->relief[at];
            for (int i = 0; i < 3; i++) {
                light[i] = (light[i] * (256U - hid) + mix->light[i] * relief / GAIN_ONE * hid) / 256U;
            }
        }
        const uint32_t drawn = packed(table, light, sheet);
        pixel[u] = cover == 255 ? drawn : over(drawn, pixel[u], cover);
    }
}

void sl_strip_draw(sl_strip *strip, const sl_light_table *table, const sl_pixels *sheet, int x, int y,
                   int from, int to, const sl_strip_look *look)
{
    const int left = larger(larger(from, 0), sheet->left - x);
    const int right = smaller(smaller(to, strip->width), sheet->right - x);
    const int top = larger(0, sheet->top - y);
    const int bottom = smaller(strip->height, sheet->bottom - y);
    paste mix;
    ready_paste(&mix, table, look);
    mix_rows(strip, look, top, larger(bottom, top));
    for (int v = top; v < bottom; v++) {
        uint32_t *pixel = sheet->first + (size_t)(y + v) * sheet->pitch + x;
        draw_row(strip, table, sheet, &mix, pixel, v, left, right);
    }
}
