/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See graph_pen.h. Lines are smoothed, what is filled is not: its edge has a line or another part beside it.
 */
#include "view/draw/graph_pen.h"

#include <stdint.h>

static const sl_role role[SL_GRAPH_INKS] = {[SL_GRAPH_INK] = SL_INK_TEXT,
                                            [SL_GRAPH_GREY] = SL_INK_QUIET,
                                            [SL_GRAPH_GRID] = SL_MARK_GRID,
                                            [SL_GRAPH_PLATE] = SL_GROUND_SHEET,
                                            [SL_GRAPH_SHADE] = SL_GROUND_FRAME};
static const double STRIPE = 8.0; /* units from one to the next */

/* A theme of two greys shades with the one of its grid. */
static sl_srgb8 colour_of(const sl_pen *pen, sl_graph_ink ink)
{
    const sl_srgb8 *const colour = pen->theme->colour;
    const bool alike = colour[SL_GROUND_FRAME].r == colour[SL_GROUND_SHEET].r;
    return colour[ink == SL_GRAPH_SHADE && alike ? SL_MARK_GRID : role[ink]];
}

static uint32_t *row_of(const sl_pen *pen, int y)
{
    return (uint32_t *)(void *)((uint8_t *)pen->sheet->pixels + (size_t)y * (size_t)pen->sheet->pitch);
}

/* ---- lines ------------------------------------------------------------------------------------------ */

static uint32_t blend(const SDL_PixelFormat *format, uint32_t under, sl_srgb8 over, double share)
{
    uint8_t r = 0;
    uint8_t g = 0;
    uint8_t b = 0;
    SDL_GetRGB(under, format, &r, &g, &b);
    const int over_256 = (int)(256.0 * share), keep_256 = 256 - over_256;
    return SDL_MapRGB(format, (uint8_t)((r * keep_256 + over.r * over_256) / 256),
                      (uint8_t)((g * keep_256 + over.g * over_256) / 256),
                      (uint8_t)((b * keep_256 + over.b * over_256) / 256));
}

/* One piece: every pixel near it is covered by how far it lies from the line. */
static void piece(const sl_pen *pen, sl_graph_point from, sl_graph_point to, double radius, sl_srgb8 colour)
{
    const SDL_Rect clip = pen->sheet->clip_rect;
    const int left = SDL_max((int)floor(SDL_min(from.x, to.x) - radius - 1.0), clip.x);
    const int right = SDL_min((int)ceil(SDL_max(from.x, to.x) + radius + 1.0), clip.x + clip.w - 1);
    const int top = SDL_max((int)floor(SDL_min(from.y, to.y) - radius - 1.0), clip.y);
    const int bottom = SDL_min((int)ceil(SDL_max(from.y, to.y) + radius + 1.0), clip.y + clip.h - 1);
    const double dx = to.x - from.x;
    const double dy = to.y - from.y;
    const double square = dx * dx + dy * dy;
    const uint32_t whole = SDL_MapRGB(pen->sheet->format, colour.r, colour.g, colour.b);
    const double outer =
        (radius + 0.5) * (radius + 0.5); /* squares of how far a pixel is covered, and whole */
    const double inner = radius > 0.5 ? (radius - 0.5) * (radius - 0.5) : -1.0;
    const double reach = dy != 0.0 ? (radius + 1.0) * sqrt(square) / fabs(dy) : HUGE_VAL;
    for (int y = top; y <= bottom; y++) {
        uint32_t *row = row_of(pen, y);
        /* Of the row, what is near the line as it goes on without end. */
        const double middle = dy != 0.0 ? from.x + (y - from.y) / dy * dx : from.x;
        const int first = (int)SDL_clamp(floor(middle - reach), left, right + 1.0);
        const int last = (int)SDL_clamp(ceil(middle + reach), left - 1.0, right);
        for (int x = first; x <= last; x++) {
            const double along = square > 0.0 ? ((x - from.x) * dx + (y - from.y) * dy) / square : 0.0;
            const double t = SDL_clamp(along, 0.0, 1.0);
            const double aside = x - from.x - t * dx, above = y - from.y - t * dy;
            const double apart = aside * aside + above * above;
            if (apart <= inner) {
                row[x] = whole;
            } else if (apart < outer) {
                row[x] = blend(pen->sheet->format, row[x], colour, radius + 0.5 - sqrt(apart));
            }
        }
    }
}

typedef struct dashing {
    const double *pattern; /* [4] units */
    int at;                /* of the pattern */
    double left;           /* of it; pixels */
} dashing;

static void dashed(const sl_pen *pen, sl_graph_point from, sl_graph_point to, double radius, sl_srgb8 colour,
                   dashing *dash)
{
    const double length = hypot(to.x - from.x, to.y - from.y);
    for (double walked = 0.0; walked < length;) {
        const double step = SDL_min(dash->left, length - walked);
        const double a = walked / length, b = (walked + step) / length;
        if (dash->at % 2 == 0) {
            piece(pen, (sl_graph_point){from.x + a * (to.x - from.x), from.y + a * (to.y - from.y)},
                  (sl_graph_point){from.x + b * (to.x - from.x), from.y + b * (to.y - from.y)}, radius,
                  colour);
        }
        walked += step;
        dash->left -= step;
        if (dash->left <= 1e-9) {
            dash->at = (dash->at + 1) % 4;
            dash->left = dash->pattern[dash->at] * pen->unit;
        }
    }
}

/* Upright and level lines, which are most of a frame, are drawn whole pixels wide. */
static bool straight(const sl_pen *pen, sl_graph_point from, sl_graph_point to, double width, sl_srgb8 colour)
{
    const int thick = SDL_max((int)lround(width), 1), x = (int)lround(SDL_min(from.x, to.x)),
              y = (int)lround(SDL_min(from.y, to.y));
    const int wide = (int)lround(fabs(to.x - from.x)) + 1, high = (int)lround(fabs(to.y - from.y)) + 1;
    const SDL_Rect line = from.y == to.y ? (SDL_Rect){x, y - thick / 2, wide, thick}
                                         : (SDL_Rect){x - thick / 2, y, thick, high};
    if (from.x != to.x && from.y != to.y) {
        return false;
    }
    SDL_FillRect(pen->sheet, &line, SDL_MapRGB(pen->sheet->format, colour.r, colour.g, colour.b));
    return true;
}

static void line(void *self, const sl_graph_point *at, int n, sl_graph_ink ink, double width,
                 sl_graph_dash dash)
{
    const sl_pen *const pen = self;
    const sl_srgb8 colour = colour_of(pen, ink);
    dashing along = {SL_GRAPH_DASH[dash], 0, SL_GRAPH_DASH[dash][0] * pen->unit};
    for (int i = 0; i + 1 < n; i++) {
        if (isnan(at[i].x) || isnan(at[i + 1].x)) {
            continue;
        }
        if (dash != SL_GRAPH_UNBROKEN) {
            dashed(pen, at[i], at[i + 1], 0.5 * width, colour, &along);
        } else if (!straight(pen, at[i], at[i + 1], width, colour)) {
            piece(pen, at[i], at[i + 1], 0.5 * width, colour);
        }
    }
}

/* ---- what is filled --------------------------------------------------------------------------------- */

/* From one pixel to before another, of one row of the sheet; stripes climb to the right. */
static void fill_run(const sl_pen *pen, int y, int from, int to, uint32_t ink, sl_graph_pattern pattern)
{
    const SDL_Rect clip = pen->sheet->clip_rect;
    const int step = SDL_max((int)lround(STRIPE * pen->unit), 3), on = SDL_max(step / 6, 1);
    uint32_t *const row = row_of(pen, y);
    from = SDL_max(from, clip.x);
    to = SDL_min(to, clip.x + clip.w);
    if (pattern == SL_GRAPH_WHOLE && to > from) {
        SDL_memset4(row + from, ink, (size_t)(to - from));
    }
    for (int x = from - (from + y) % step; pattern == SL_GRAPH_STRIPES && x < to; x += step) {
        for (int i = SDL_max(x, from); i < SDL_min(x + on, to); i++) {
            row[i] = ink;
        }
    }
}

/* Where the edges of a part cross the middle of a row of pixels, sorted. */
static int crossings(const sl_graph_point *at, int n, double y, double x[SL_GRAPH_CORNERS])
{
    int count = 0;
    for (int i = 0; i < n && count < SL_GRAPH_CORNERS; i++) {
        const sl_graph_point a = at[i], b = at[(i + 1) % n];
        if ((a.y <= y) != (b.y <= y)) {
            const double here = a.x + (y - a.y) / (b.y - a.y) * (b.x - a.x);
            int k = count++;
            for (; k > 0 && x[k - 1] > here; k--) {
                x[k] = x[k - 1];
            }
            x[k] = here;
        }
    }
    return count;
}

static void fill_part(const sl_pen *pen, const sl_graph_point *at, int n, uint32_t ink,
                      sl_graph_pattern pattern)
{
    const SDL_Rect clip = pen->sheet->clip_rect;
    double top = HUGE_VAL, bottom = -HUGE_VAL, x[SL_GRAPH_CORNERS];
    for (int i = 0; i < n; i++) {
        top = SDL_min(top, at[i].y);
        bottom = SDL_max(bottom, at[i].y);
    }
    const int last = SDL_min((int)ceil(bottom), clip.y + clip.h - 1);
    for (int y = SDL_max((int)floor(top), clip.y); y <= last; y++) {
        const int count = crossings(at, n, y + 0.5, x);
        for (int i = 0; i + 1 < count; i += 2) {
            fill_run(pen, y, (int)ceil(x[i] - 0.5), (int)ceil(x[i + 1] - 0.5), ink, pattern);
        }
    }
}

static void fill(void *self, const sl_graph_point *at, int n, sl_graph_ink ink, sl_graph_pattern pattern)
{
    const sl_pen *const pen = self;
    const sl_srgb8 c = colour_of(pen, ink);
    const uint32_t colour = SDL_MapRGB(pen->sheet->format, c.r, c.g, c.b);
    for (int from = 0, i = 0; i <= n; i++) {
        if (i == n || isnan(at[i].x)) {
            if (i - from > 2) {
                fill_part(pen, at + from, i - from, colour, pattern);
            }
            from = i + 1;
        }
    }
}

/* ---- words -------------------------------------------------------------------------------------------- */

static sl_type type_of(sl_graph_type type)
{
    return type == SL_GRAPH_LABEL ? SL_TYPE_STRONG : SL_TYPE_SMALL;
}

static void text(void *self, sl_graph_point at, double width, sl_graph_type type, sl_graph_ink ink,
                 const char *words)
{
    const sl_pen *const pen = self;
    const int x = (int)lround(at.x), y = (int)lround(at.y);
    if (width > 0.0) {
        sl_pen_wrap(pen, type_of(type), role[ink], (SDL_Rect){x, y, (int)lround(width), 0}, false, words);
    } else {
        sl_pen_write(pen, type_of(type), role[ink], x, y, SL_ALIGN_LEFT, words);
    }
}

static sl_graph_point measure(void *self, double width, sl_graph_type type, const char *words)
{
    const sl_pen *const pen = self;
    const SDL_Point size = sl_pen_size(pen, type_of(type), SL_INK_TEXT, (int)lround(width), words);
    return (sl_graph_point){size.x, size.y};
}

sl_graph_pen sl_graph_pen_in_window(const sl_pen *pen)
{
    static const sl_graph_pen_kind kind = {line, fill, text, measure};
    return (sl_graph_pen){&kind, (void *)pen, pen->unit};
}
