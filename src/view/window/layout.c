/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * One layout, top to bottom: header, mode, field with its names, figures, ruler, foot;
 * a panel at the right when it is asked for. At 100 % on 1280 x 800 a unit is a pixel;
 * of a larger window letters and controls get a part (GROWTH) and hair the rest; the text
 * scale comes on top. Where the
 * wished scale leaves a zone less than LEAST_ZONE, the compact form is tried (no title, one
 * line for each figure, fewer and wider columns, the name of the chosen zone alone, the
 * foot's short form), and then the scale gives way in steps. All text has one scale.
 */
#include "view/window/layout.h"

#include <math.h>
#include <string.h>

static const double GROWTH = 0.6; /* of what a window is larger than 1280 x 800 */
static const double MARGIN = 12.0, GAP = 6.0, HEADER = 46.0, NAMES = 49.0, NAMES_NARROW = 62.0,
                    FIGURE_ROW = 32.0, FIGURE_NARROW = 46.0, NARROW = 128.0, /* a column; words go below */
    COLUMN_PAD = 6.0, HANG = 3.0, PACE_GAP = 4.0, AXIS = 25.0, LANE = 10.0, NUMBER = 12.0, GUTTER = 116.0,
                    PANEL = 316.0, LEAST_COLUMN = 88.0, WIDEST_STRIP = 1.6 /* of its height */,
                    LEAST_ZONE = 21.0, BUTTON = 84.0, BUTTON_PAD = 8.0, PACE = 64.0, TEXT_LINE = 18.5,
                    LEAST_COMPACT = 184.0, FIGURE_COMPACT = 23.0, COMPACT_BAR = 0.25 /* of a column */,
                    LEAST_COMPACT_FIELD = 56.0, /* the chosen zone's name */
    LEAST_ZONE_COMPACT_PX = 8.0, SHOWN = 20.0, MARKS = 34.0, MARKS_COMPACT = 13.0;
static const double LOCK = 0.09, LOCK_LEAST = 5.0, LOCK_MOST = 16.0, LOCK_GAP = 2.0; /* of the hair; units */

static int px(double unit, double units)
{
    return (int)lround(unit * units);
}

static int note_height(const sl_layout_wish *wish, double unit, int width, const char *words)
{
    return sl_text_extent_at(wish->text, SL_TYPE_NOTE, unit, width, words).y;
}

static int foot_height(const sl_layout_wish *wish, double unit, bool compact)
{
    const int width = wish->width - 2 * px(unit, MARGIN);
    return compact ? note_height(wish, unit, width, wish->brief)
                   : note_height(wish, unit, width, wish->note[0]) +
                         note_height(wish, unit, width, wish->note[1]);
}

/* As wide as their words ask for; much alike where there is room. */
static void place_buttons(sl_layout *l, const sl_layout_wish *wish, int all, int gap)
{
    const double left = wish->width - px(l->unit, MARGIN) - all;
    double asked[SL_MOST_BUTTONS], sum = 0.0, before = 0.0;
    l->n_buttons = wish->n_buttons;
    for (int i = 0; i < l->n_buttons; i++) {
        const int words = sl_text_extent_at(wish->text, SL_TYPE_SMALL, l->unit, 0, wish->button[i]).x +
                          px(l->unit, BUTTON_PAD);
        asked[i] = fmax(words, l->compact ? l->target : 0.9 * all / l->n_buttons);
        sum += asked[i];
    }
    for (int i = 0; i < l->n_buttons; i++) {
        const int from = (int)lround(left + (all + gap) * before / sum);
        before += asked[i];
        const int to = (int)lround(left + (all + gap) * before / sum) - gap;
        l->button[i] = (SDL_Rect){from, px(l->unit, MARGIN), to - from, l->target};
    }
}

/* Buttons in one row, beside the title or, when compact, alone. */
static void place_header(sl_layout *l, const sl_layout_wish *wish)
{
    const double u = l->unit;
    const int margin = px(u, MARGIN);
    const int right = wish->width - margin;
    const int gap = px(u, l->compact ? 3.0 : 6.0);
    const int all = l->compact ? right - margin
                               : SDL_min(wish->n_buttons * px(u, BUTTON + 6.0), (right - margin) * 64 / 100);
    place_buttons(l, wish, all, gap);
    int y = margin + l->target + px(u, 3.0);
    if (!l->compact) {
        l->title = (SDL_Rect){margin, margin - px(u, 4.0), right - all - 2 * margin, px(u, HEADER)};
        y = l->title.y + l->title.h + px(u, 2.0);
    }
    const int pace_w = l->compact ? 2 * l->target + px(u, PACE) : 0;
    const int mode_w = right - pace_w - margin - (l->compact ? margin : 0);
    const int notice_h = note_height(wish, u, mode_w - px(u, 12.0), wish->notice) + px(u, 6.0); /* head.c */
    const int least_h = SDL_max(l->compact ? l->target : 0, px(u, 2.0 * TEXT_LINE));
    l->mode = (SDL_Rect){margin, y, mode_w, SDL_max(least_h, notice_h)};
    if (l->compact) {
        l->more = (SDL_Rect){right - l->target, y + (l->mode.h - l->target) / 2, l->target, l->target};
        l->less = (SDL_Rect){l->more.x - l->target - px(u, PACE), l->more.y, l->target, l->target};
        l->pace = (SDL_Rect){l->less.x + l->target, y, px(u, PACE), l->mode.h};
    } else if (wish->unusual) {
        l->shown = (SDL_Rect){margin, y + l->mode.h + px(u, 2.0), right - margin, px(u, SHOWN)};
    }
}

/* Play and the time with its pace, below them slower and faster, then a step back and on. */
static void place_play(sl_layout *l, int y)
{
    const double u = l->unit;
    const int margin = px(u, MARGIN), gap = px(u, GAP / 2.0), next = l->target + px(u, PACE_GAP);
    l->play = (SDL_Rect){margin, y, l->target, l->target};
    const int clock_x = margin + l->target + gap, end = margin + px(u, GUTTER);
    l->number_w = px(u, NUMBER);
    l->clock = (SDL_Rect){clock_x, y, end - gap - clock_x, SDL_max(l->target, px(u, 2.0 * TEXT_LINE))};
    if (!l->compact) {
        l->pace = (SDL_Rect){clock_x, y + l->clock.h / 2, end - l->number_w - clock_x, l->clock.h / 2};
        l->less = (SDL_Rect){margin, y + next, l->target, l->target};
        l->more = (SDL_Rect){margin + next, y + next, l->target, l->target};
        l->step_back = (SDL_Rect){margin, y + 2 * next, l->target, l->target};
        l->step_on = (SDL_Rect){margin + next, y + 2 * next, l->target, l->target};
    }
}

/* Rows from the foot upward; returns the y where figures end. */
static int place_bottom(sl_layout *l, const sl_layout_wish *wish, int foot_h)
{
    const double u = l->unit;
    const int margin = px(u, MARGIN);
    const int gap = px(u, l->compact ? GAP / 2.0 : GAP);
    l->foot = (SDL_Rect){margin, wish->height - gap - foot_h, wish->width - 2 * margin, foot_h};
    const int lanes = l->compact ? 1 : SDL_clamp(wish->n_arms, 1, SL_MOST_LANES);
    l->axis_h = px(u, l->compact ? AXIS - 1.0 : AXIS);
    const int controls_h = l->compact ? l->target : 3 * l->target + 2 * px(u, PACE_GAP); /* place_play */
    const int ruler_w = wish->width - 2 * margin - px(u, GUTTER);
    int marks_h = wish->marks ? SDL_max(px(u, l->compact ? MARKS_COMPACT : MARKS),
                                        note_height(wish, u, ruler_w, wish->gate))
                              : 0;
    if (wish->pressed) {
        marks_h = SDL_max(marks_h, l->target);
    }
    const int ruler_h = SDL_max(l->axis_h + lanes * px(u, LANE), controls_h - (l->compact ? 0 : marks_h));
    const int y = l->foot.y - gap - marks_h - ruler_h;
    place_play(l, y);
    l->ruler = (SDL_Rect){margin + px(u, GUTTER), y, ruler_w, ruler_h};
    l->marks = (SDL_Rect){l->ruler.x, y + ruler_h, marks_h > 0 ? l->ruler.w : 0, marks_h};
    return y - gap;
}

/* Which arms have columns; returns the width of one, of which the wide one takes two. */
static double count_columns(sl_layout *l, const sl_layout_wish *wish, bool *wide_shown)
{
    const double u = l->unit;
    const int wide = wish->wide_arm >= 0 && !l->compact ? 1 : 0;
    const int shares =
        SDL_max(1, SDL_min(wish->n_arms + wide,
                           (int)(l->field.w / ((l->compact ? LEAST_COMPACT : LEAST_COLUMN) * u))));
    l->n_shown = SDL_clamp(shares - wide, 1, SDL_min(wish->n_arms, SL_MAX_ARMS));
    l->first = SDL_clamp(wish->first_arm, 0, wish->n_arms - l->n_shown);
    *wide_shown = wide != 0 && wish->wide_arm >= l->first && wish->wide_arm < l->first + l->n_shown;
    return (double)l->field.w / (l->n_shown + (*wide_shown ? 1 : 0));
}

static void place_columns(sl_layout *l, const sl_layout_wish *wish, double share, bool wide_shown,
                          int names_y, int names_h, int figures_end)
{
    const double u = l->unit;
    const int hang = px(u, l->compact ? GAP : HANG);
    double x = l->field.x;
    for (int i = 0; i < l->n_shown; i++) {
        const bool twice = wide_shown && l->first + i == wish->wide_arm;
        const double next = x + share * (twice ? 2.0 : 1.0);
        const int left = (int)lround(x);
        const int width = (int)lround(next) - left;
        const int hair = (int)lround(SDL_min(0.76 * width, WIDEST_STRIP * (twice ? 1.5 : 1.0) * l->field.h));
        l->column[i] = (SDL_Rect){left, names_y, width, figures_end - names_y};
        l->name[i] = (SDL_Rect){left + px(u, 3.0), names_y, width - px(u, 6.0), names_h};
        const int lock = SDL_clamp((int)lround(LOCK * hair), px(u, LOCK_LEAST), px(u, LOCK_MOST));
        const int apart = px(u, LOCK_GAP), x_lock = left + (width - hair - lock - apart) / 2;
        const SDL_Rect hung = {x_lock, l->field.y + hang, lock, l->field.h - 2 * hang};
        l->lock[i] = hung;
        l->strip[i] = (SDL_Rect){hung.x + lock + apart, hung.y, hair, hung.h};
        x = next;
    }
}

static sl_layout try_scale(const sl_layout_wish *wish, double scale, bool compact)
{
    sl_layout l;
    memset(&l, 0, sizeof l);
    const double larger = SDL_max(1.0, SDL_min(wish->width / 1280.0, wish->height / 800.0));
    const double base = 1.0 + GROWTH * (larger - 1.0);
    l.scale = scale;
    l.unit = scale * base;
    l.compact = compact;
    l.target = px(compact ? base : l.unit, SL_TARGET);
    const double u = l.unit;
    place_header(&l, wish);
    const int figures_end = place_bottom(&l, wish, foot_height(wish, u, compact));
    const int margin = px(u, MARGIN);
    const int names_y = l.shown.w > 0 ? l.shown.y + l.shown.h : l.mode.y + l.mode.h;
    const int panel_w = wish->panel ? SDL_min(px(u, PANEL), wish->width / 2) : 0;
    l.field = (SDL_Rect){margin + px(u, GUTTER), 0, 0, 0};
    l.field.w = wish->width - l.field.x - margin - (wish->panel ? panel_w + margin : 0);
    bool wide_shown = false;
    const double column = count_columns(&l, wish, &wide_shown);
    l.narrow = !compact && column < NARROW * u;
    l.bar_w = (int)((compact ? COMPACT_BAR : 1.0) * ((int)column - 2 * px(u, COLUMN_PAD)));
    l.row_h = px(u, compact ? FIGURE_COMPACT : l.narrow ? FIGURE_NARROW : FIGURE_ROW);
    const int names_h =
        compact ? SDL_max(px(u, 2.0 * TEXT_LINE), l.target) : px(u, l.narrow ? NAMES_NARROW : NAMES);
    l.field.y = names_y + names_h;
    l.gutter = (SDL_Rect){margin, l.field.y, px(u, GUTTER) - px(u, GAP), 0};
    l.field.h = figures_end - SL_FIGURES * l.row_h - px(u, compact ? 3.0 : GAP) - l.field.y;
    l.gutter.h = l.field.h;
    l.figures = (SDL_Rect){l.field.x, figures_end - SL_FIGURES * l.row_h, l.field.w, SL_FIGURES * l.row_h};
    if (wish->panel) {
        const int panel_y = names_y + px(u, 6.0);
        l.panel = (SDL_Rect){wish->width - margin - panel_w, panel_y, panel_w, figures_end - panel_y};
    }
    place_columns(&l, wish, column, wide_shown, names_y, names_h, figures_end);
    if (l.n_shown < wish->n_arms) {
        const int y = names_y + SDL_max(0, (names_h - l.target) / 2);
        l.back = (SDL_Rect){margin, y, l.target, l.target};
        l.on = (SDL_Rect){margin + l.target + px(u, 4.0), y, l.target, l.target};
    }
    return l;
}

static bool finds_room(const sl_layout *l, const sl_layout_wish *wish)
{
    const double least = l->compact
                             ? SDL_max(wish->n_zones * LEAST_ZONE_COMPACT_PX, LEAST_COMPACT_FIELD * l->unit)
                             : wish->n_zones * LEAST_ZONE * l->unit;
    return l->strip[0].h >= least && l->strip[0].w >= 24;
}

sl_layout sl_layout_make(const sl_layout_wish *wish)
{
    double scale = wish->scale;
    sl_layout l = try_scale(wish, scale, false);
    while (!finds_room(&l, wish) && scale > 0.75) {
        l = try_scale(wish, scale, true);
        if (!finds_room(&l, wish)) {
            scale = round(20.0 * scale - 1.0) / 20.0; /* whole steps: letters of one scale are as large */
            l = try_scale(wish, scale, false);
        }
    }
    return l;
}

SDL_Rect sl_layout_zone(const SDL_Rect *strip, int n_zones, int zone)
{
    const int top = zone * strip->h / n_zones;
    const int bottom = (zone + 1) * strip->h / n_zones;
    return (SDL_Rect){strip->x, strip->y + top, strip->w, bottom - top};
}
