/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * How controls look and which value a place on them means.
 */
#include "view/draw/widget.h"

#include <math.h>

#include "base/language.h"

void sl_button_draw(const sl_pen *pen, SDL_Rect area, const sl_button_look *look)
{
    const sl_role ink = look->on ? SL_INK_LIGHT : look->off_duty ? SL_INK_QUIET : SL_INK_TEXT;
    sl_pen_fill(pen, area, look->on ? SL_GROUND_DARK : SL_GROUND_SHEET);
    sl_pen_frame(pen, area, sl_pen_px(pen, look->off_duty ? 0.5 : 1.25), SL_MARK_CONTROL);
    const bool one_line = area.h < 2 * sl_text_line_height(pen->text, SL_TYPE_SMALL) + sl_pen_px(pen, 6.0);
    const int lift = sl_pen_px(pen, 3.0);
    const char *label = look->label;
    const SDL_Rect room = {area.x + lift, area.y, area.w - 2 * lift, area.h};
    sl_type type = sl_pen_fitting(pen, look->key[0] == '\0' ? SL_TYPE_STRONG : SL_TYPE_BODY, room, label);
    if (look->brief != NULL && type < SL_TYPE_SMALL) {
        label = look->brief;
        type = SL_TYPE_SMALL;
    }
    if (look->key[0] == '\0' || one_line) {
        sl_pen_place(pen, type, ink, area, SL_ALIGN_CENTRE, label);
        return;
    }
    const int half = area.h / 2;
    sl_pen_place(pen, type, ink, (SDL_Rect){area.x, area.y + lift, area.w, half}, SL_ALIGN_CENTRE, label);
    sl_pen_place(pen, SL_TYPE_SMALL, ink, (SDL_Rect){area.x, area.y + half - lift / 3, area.w, half},
                 SL_ALIGN_CENTRE, look->key);
}

static void bar(const sl_pen *pen, SDL_Rect area, const sl_figure *figure)
{
    const int full = area.w - 2;
    const double fill = SDL_clamp(figure->fill, 0.0, 1.0);
    sl_pen_fill(pen, area, SL_GROUND_SHEET);
    const SDL_Rect inner = {area.x + 1, area.y + 1, (int)lround(full * fill), area.h - 2};
    sl_pen_pattern(pen, inner, figure->pattern, SL_MARK_CONTROL);
    if (inner.w > 0) { /* a whole edge, so that a pattern ends where it should */
        sl_pen_fill(pen, (SDL_Rect){inner.x + inner.w - 1, inner.y, SDL_max(1, sl_pen_px(pen, 1.0)), inner.h},
                    SL_MARK_CONTROL);
    }
    sl_pen_frame(pen, area, 1, SL_MARK_CONTROL);
    if (figure->before >= 0.0) {
        const int x = inner.x + (int)lround(full * SDL_clamp(figure->before, 0.0, 1.0));
        sl_pen_triangle(pen, x, area.y - 1 + sl_pen_px(pen, 2.0), sl_pen_px(pen, 5.0), true, SL_MARK_CONTROL);
    }
}

/* The largest type in which it fits, or the smallest. */
static sl_type number_type(const sl_pen *pen, const char *number, int width)
{
    static const sl_type types[] = {SL_TYPE_FIGURE, SL_TYPE_STRONG, SL_TYPE_SMALL};
    int i = 0;
    while (i < 2 && sl_pen_size(pen, types[i], SL_INK_TEXT, 0, number).x > width) {
        i++;
    }
    return types[i];
}

/* The bar at the right end, as long in every column; left out where the words reach so far. */
static void figure_in_line(const sl_pen *pen, SDL_Rect area, int bar_w, const sl_figure *figure)
{
    const int line = sl_text_line_height(pen->text, SL_TYPE_FIGURE);
    const int small = sl_text_line_height(pen->text, SL_TYPE_SMALL);
    const int gap = sl_pen_px(pen, 6.0), end = area.x + area.w;
    const int word = gap + sl_pen_size(pen, SL_TYPE_NOTE, SL_INK_QUIET, 0, figure->word).x;
    const sl_type type = number_type(pen, figure->number, area.w - word);
    const SDL_Rect number =
        sl_pen_write(pen, type, SL_INK_TEXT, area.x, area.y, SL_ALIGN_LEFT, figure->number);
    const int left = SDL_max(number.x + number.w + gap, area.x + sl_pen_px(pen, 46.0));
    const SDL_Rect beside = {left, area.y + (line - small) / 2, end - left, small};
    sl_pen_place(pen, SL_TYPE_SMALL, SL_INK_QUIET, beside, SL_ALIGN_LEFT, figure->word);
    const SDL_Rect track = {end - bar_w, area.y + line / 2 - sl_pen_px(pen, 5.0), bar_w,
                            sl_pen_px(pen, 11.0)};
    if (figure->fill >= 0.0 && track.x >= left + word) {
        bar(pen, track, figure);
    }
}

void sl_figure_draw(const sl_pen *pen, SDL_Rect area, int bar_w, sl_figure_form form, const sl_figure *figure)
{
    if (form == SL_FIGURE_LINE) {
        figure_in_line(pen, area, bar_w, figure);
        return;
    }
    const int line = sl_text_line_height(pen->text, SL_TYPE_FIGURE);
    const int small = sl_text_line_height(pen->text, SL_TYPE_SMALL);
    const int gap = sl_pen_px(pen, 6.0);
    const int beside =
        form == SL_FIGURE_BESIDE ? gap + sl_pen_size(pen, SL_TYPE_SMALL, SL_INK_QUIET, 0, figure->word).x : 0;
    const sl_type type = number_type(pen, figure->number, area.w - beside);
    const SDL_Rect number =
        sl_pen_write(pen, type, SL_INK_TEXT, area.x, area.y, SL_ALIGN_LEFT, figure->number);
    const int bar_y = area.y + line + sl_pen_px(pen, 3.0); /* room for the mark of before */
    const SDL_Rect track = {area.x, bar_y, SDL_min(bar_w, area.w), sl_pen_px(pen, 8.0)};
    if (figure->fill >= 0.0) {
        bar(pen, track, figure);
    }
    const int left = number.x + number.w + gap;
    const SDL_Rect word =
        form == SL_FIGURE_BESIDE
            ? (SDL_Rect){left, area.y + line - small - sl_pen_px(pen, 1.0), area.x + area.w - left, small}
            : (SDL_Rect){area.x, track.y + track.h, area.w, small};
    sl_pen_place(pen, SL_TYPE_SMALL, SL_INK_QUIET, word, SL_ALIGN_LEFT, figure->word);
}

int sl_more_height(const sl_pen *pen)
{
    return sl_text_line_height(pen->text, SL_TYPE_NOTE) + sl_pen_px(pen, 2.0);
}

void sl_more_draw(const sl_pen *pen, SDL_Rect view, int pixels_below)
{
    const int high = sl_more_height(pen);
    const SDL_Rect last = {view.x, view.y + view.h - high, view.w, high};
    if (pixels_below > 0) {
        sl_pen_fill(pen, last, SL_GROUND_DARK);
        sl_pen_place(pen, SL_TYPE_NOTE, SL_INK_LIGHT, last, SL_ALIGN_CENTRE,
                     N_("More below: Page Down or the wheel"));
    }
}

sl_knob_areas sl_knob_place(SDL_Rect area, int target)
{
    const int gap = target / 5;
    return (sl_knob_areas){
        .less = {area.x, area.y, target, target},
        .track = {area.x + target + gap, area.y, area.w - 2 * (target + gap), target},
        .more = {area.x + area.w - target, area.y, target, target},
    };
}

double sl_track_value(SDL_Rect track, int x, double least, double most, double step)
{
    const double share = SDL_clamp((double)(x - track.x) / SDL_max(track.w - 1, 1), 0.0, 1.0);
    const double value = least + share * (most - least);
    return SDL_clamp(least + step * round((value - least) / step), least, most);
}

void sl_knob_draw(const sl_pen *pen, const sl_knob_areas *areas, double share, double mark, bool works)
{
    const sl_button_look less = {.label = "−", .key = "", .off_duty = !works};
    const sl_button_look more = {.label = "+", .key = "", .off_duty = !works};
    sl_button_draw(pen, areas->less, &less);
    sl_button_draw(pen, areas->more, &more);
    const SDL_Rect t = areas->track;
    const int thick = sl_pen_px(pen, 4.0);
    const SDL_Rect groove = {t.x, t.y + (t.h - thick) / 2, t.w, thick};
    sl_pen_fill(pen, groove, works ? SL_MARK_CONTROL : SL_MARK_GRID);
    if (!works) {
        return;
    }
    const int half = sl_pen_px(pen, 7.0);
    const int mark_x = t.x + (int)lround(mark * t.w);
    sl_pen_triangle(pen, mark_x, groove.y - sl_pen_px(pen, 2.0), sl_pen_px(pen, 8.0), true, SL_MARK_CONTROL);
    const int x = SDL_clamp(t.x + (int)lround(share * t.w), t.x + half, t.x + t.w - half);
    const SDL_Rect grip = {x - half, t.y + t.h / 2 - sl_pen_px(pen, 14.0), 2 * half, sl_pen_px(pen, 28.0)};
    sl_pen_fill(pen, grip, SL_GROUND_DARK);
    sl_pen_fill(pen,
                (SDL_Rect){x - sl_pen_px(pen, 0.5), grip.y + half, sl_pen_px(pen, 1.0), grip.h - 2 * half},
                SL_INK_LIGHT);
}
