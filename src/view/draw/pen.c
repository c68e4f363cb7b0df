/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Rectangles, patterns and lines straight into the window's surface: the cheapest way
 * to a software frame (no second copy of the picture is kept or sent).
 */
#include "view/draw/pen.h"

#include "base/language.h"

#include <limits.h>
#include <math.h>
#include <stdint.h>
#include <stdio.h>

enum { LONGEST_LINE = 1024 };

static uint32_t ink_of(const sl_pen *pen, sl_role role)
{
    const sl_srgb8 c = pen->theme->colour[role];
    return SDL_MapRGB(pen->sheet->format, c.r, c.g, c.b);
}

int sl_pen_px(const sl_pen *pen, double units)
{
    const int px = (int)lround(units * pen->unit);
    return px < 1 && units > 0.0 ? 1 : px;
}

void sl_pen_fill(const sl_pen *pen, SDL_Rect area, sl_role role)
{
    if (area.w > 0 && area.h > 0) {
        SDL_FillRect(pen->sheet, &area, ink_of(pen, role));
    }
}

void sl_pen_frame(const sl_pen *pen, SDL_Rect area, int thickness, sl_role role)
{
    const int t = thickness;
    sl_pen_fill(pen, (SDL_Rect){area.x, area.y, area.w, t}, role);
    sl_pen_fill(pen, (SDL_Rect){area.x, area.y + area.h - t, area.w, t}, role);
    sl_pen_fill(pen, (SDL_Rect){area.x, area.y + t, t, area.h - 2 * t}, role);
    sl_pen_fill(pen, (SDL_Rect){area.x + area.w - t, area.y + t, t, area.h - 2 * t}, role);
}

static uint32_t *row_of(const sl_pen *pen, int y)
{
    return (uint32_t *)(void *)((uint8_t *)pen->sheet->pixels + (size_t)y * (size_t)pen->sheet->pitch);
}

void sl_pen_pattern(const sl_pen *pen, SDL_Rect area, sl_bar_pattern pattern, sl_role role)
{
    SDL_Rect seen;
    if (pattern == SL_PATTERN_SOLID) {
        sl_pen_fill(pen, area, role);
        return;
    }
    if (!SDL_IntersectRect(&area, &pen->sheet->clip_rect, &seen)) {
        return;
    }
    const uint32_t ink = ink_of(pen, role);
    const int pitch = sl_pen_px(pen, pattern == SL_PATTERN_DOTS ? 4.0 : 5.0);
    const int on = (pitch + 1) / 2;
    for (int y = seen.y; y < seen.y + seen.h; y++) {
        uint32_t *row = row_of(pen, y);
        for (int x = seen.x; x < seen.x + seen.w; x++) {
            const int u = x - area.x;
            const int v = y - area.y;
            const bool ink_here =
                pattern == SL_PATTERN_DOTS ? u % pitch < on && v % pitch < on : (u + v) % pitch < on;
            if (ink_here) {
                row[x] = ink;
            }
        }
    }
}

void sl_pen_triangle(const sl_pen *pen, int x, int y, int size, bool down, sl_role role)
{
    for (int i = 0; i < size; i++) {
        const int half = i * 5 / 8;
        const int line = down ? y - i : y + i;
        sl_pen_fill(pen, (SDL_Rect){x - half, line, 2 * half + 1, 1}, role);
    }
}

void sl_pen_focus(const sl_pen *pen, SDL_Rect area)
{
    const int ring = sl_pen_px(pen, 2.0);
    sl_pen_frame(pen, sl_rect_inset(area, -2 * ring), ring, SL_FOCUS_OUTER);
    sl_pen_frame(pen, sl_rect_inset(area, -ring), ring, SL_FOCUS_INNER);
}

SDL_Point sl_pen_size(const sl_pen *pen, sl_type type, sl_role ink, int wrap, const char *string)
{
    (void)ink; /* of no weight: what is measured is not drawn */
    return sl_text_extent(pen->text, type, wrap, _(string));
}

sl_type sl_pen_fitting(const sl_pen *pen, sl_type type, SDL_Rect area, const char *string)
{
    for (; type > SL_TYPE_NOTE; type--) {
        const SDL_Point size = sl_text_extent(pen->text, type, 0, _(string));
        if (size.x <= area.w && size.y <= area.h) {
            break;
        }
    }
    return type;
}

SDL_Rect sl_pen_write(const sl_pen *pen, sl_type type, sl_role ink, int x, int y, sl_align align,
                      const char *string)
{
    SDL_Surface *picture = sl_text_picture(pen->text, type, pen->theme->colour[ink], _(string));
    if (picture == NULL) {
        return (SDL_Rect){x, y, 0, 0};
    }
    const int left = align == SL_ALIGN_LEFT    ? x
                     : align == SL_ALIGN_RIGHT ? x - picture->w
                                               : x - picture->w / 2;
    SDL_Rect area = {left, y, picture->w, picture->h};
    SDL_Rect to = area;
    SDL_BlitSurface(picture, NULL, pen->sheet, &to);
    sl_text_told(pen->text, type, area, _(string));
    return area;
}

static void write_line(const sl_pen *pen, sl_type type, sl_role ink, SDL_Rect area, bool centred,
                       const char *from, int length)
{
    char line[LONGEST_LINE];
    snprintf(line, sizeof line, "%.*s", length, from);
    SDL_Surface *const picture = sl_text_picture(pen->text, type, pen->theme->colour[ink], line);
    if (picture != NULL) {
        SDL_Rect to = {area.x + (centred ? (area.w - picture->w) / 2 : 0), area.y, picture->w, picture->h};
        SDL_BlitSurface(picture, NULL, pen->sheet, &to);
    }
}

int sl_pen_wrap(const sl_pen *pen, sl_type type, sl_role ink, SDL_Rect area, bool centred, const char *string)
{
    const sl_text_line *line = NULL;
    const SDL_Point extent =
        area.w > 0 ? sl_text_extent(pen->text, type, area.w, _(string)) : (SDL_Point){0, 0};
    const int n = extent.y > 0 ? sl_text_lines(pen->text, type, area.w, _(string), &line) : 0;
    if (n > 0) {
        sl_text_told(pen->text, type, (SDL_Rect){area.x, area.y, centred ? area.w : extent.x, extent.y},
                     _(string));
    }
    for (int i = 0; i < n; i++) {
        const SDL_Rect row = {area.x, area.y + i * extent.y / n, area.w, 0};
        const char end = _(string)[line[i].from + line[i].length];
        write_line(pen, type, ink, row, centred, _(string) + line[i].from, line[i].length);
        if (end != ' ' && end != '\n' && end != '\0') { /* in the midst of a word */
            sl_text_cut(pen->text, extent.x, area.w, _(string));
        }
    }
    return extent.y;
}

void sl_pen_place(const sl_pen *pen, sl_type type, sl_role ink, SDL_Rect area, sl_align align,
                  const char *string)
{
    type = sl_pen_fitting(pen, type, (SDL_Rect){.w = area.w, .h = INT_MAX}, string);
    SDL_Surface *picture = sl_text_picture(pen->text, type, pen->theme->colour[ink], _(string));
    if (picture == NULL) {
        return;
    }
    const SDL_Rect before = pen->sheet->clip_rect;
    SDL_Rect seen;
    if (!SDL_IntersectRect(&area, &before, &seen)) {
        return;
    }
    SDL_SetClipRect(pen->sheet, &seen);
    const int spare = area.w - picture->w;
    const int shift = align == SL_ALIGN_LEFT ? 0 : align == SL_ALIGN_RIGHT ? spare : spare / 2;
    SDL_Rect to = {area.x + SDL_max(shift, 0), area.y + (area.h - picture->h) / 2, picture->w, picture->h};
    sl_text_told(pen->text, type, to, _(string));
    if (spare < 0) {
        sl_text_cut(pen->text, picture->w, area.w, _(string));
    }
    SDL_BlitSurface(picture, NULL, pen->sheet, &to);
    SDL_SetClipRect(pen->sheet, &before);
}

SDL_Rect sl_rect_inset(SDL_Rect area, int by)
{
    return (SDL_Rect){area.x + by, area.y + by, area.w - 2 * by, area.h - 2 * by};
}

bool sl_rect_holds(SDL_Rect area, int x, int y)
{
    return x >= area.x && x < area.x + area.w && y >= area.y && y < area.y + area.h;
}
