/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What was seen on a day of strand tests over what the model predicts, for the chosen zone: a curve
 * for each arm while its mix lies, means over swatches with their 95 % interval as numbered shapes,
 * and the same in words beside them. Invariant: no arm is told from another by colour.
 */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "base/language.h"
#include "base/minute.h"
#include "document/text.h"
#include "log/compare/compare_page.h"
#include "log/compare/seen_curves.h"
#include "view/draw/plot.h"
#include "view/panels/turn.h"
#include "view/window/show.h"

enum { SHAPES = 4, DASHES = 4, COLUMNS = 4 };
static const double HALF = 6.0, APART = 10.0, BAR_END = 4.0; /* units */
static const double MARK = 52.0;                             /* of the table's first column; units */
static const double MOST_LEFT = 1.1;                         /* of the picture */

typedef struct seen_page {
    const sl_pen *pen;
    const sl_seen_curves *curves;
    const sl_compare *compare; /* theirs */
    int zone, chosen, n, order[SL_MAX_ARMS], longest_min;
    int x, y, w; /* of the text; pixels */
} seen_page;

static const sl_seen_mean *at_the_end(const seen_page *p, int arm)
{
    return &sl_compare_arm(p->compare, arm, p->zone)->seen[p->compare->basis[p->zone]];
}

/* ---- shapes -------------------------------------------------------------------------------- */

static void fill_shape(const sl_pen *pen, int x, int y, int half, int shape, sl_role role)
{
    for (int i = -half; i <= half; i++) {
        const int reach = shape == 0   ? (int)lround(sqrt((double)(half * half - i * i)))
                          : shape == 1 ? half
                          : shape == 2 ? (i + half) / 2
                                       : half - abs(i);
        sl_pen_fill(pen, (SDL_Rect){x - reach, y + i, 2 * reach + 1, 1}, role);
    }
}

/* Disc, square, triangle, diamond; hollow for the first four, whole for the next. */
static void show_shape(const sl_pen *pen, int x, int y, int i)
{
    const int shape = i % SHAPES;
    const int half = sl_pen_px(pen, shape == 1 ? 0.8 * HALF : shape == 3 ? 1.25 * HALF : HALF);
    fill_shape(pen, x, y, half, shape, SL_INK_TEXT);
    if (i / SHAPES % 2 == 0) {
        const int line = sl_pen_px(pen, shape < 2 ? 1.5 : 2.2);
        const int down = shape == 2 ? line / 2 : 0;
        fill_shape(pen, x, y + down, SDL_max(half - line, 1), shape, SL_GROUND_SHEET);
    }
}

/* Over the shape, on a ground of its own, so that neither bar nor curve runs through it. */
static void show_number(const sl_pen *pen, int x, int y, int number)
{
    char text[12];
    snprintf(text, sizeof text, "%d", number);
    const int high = sl_text_line_height(pen->text, SL_TYPE_SMALL);
    const int wide = sl_pen_size(pen, SL_TYPE_SMALL, SL_INK_TEXT, 0, text).x;
    const int top = y - sl_pen_px(pen, HALF + 1.0) - high;
    sl_pen_fill(pen, (SDL_Rect){x - wide / 2 - 1, top + high / 6, wide + 2, high - high / 6},
                SL_GROUND_SHEET);
    sl_pen_write(pen, SL_TYPE_SMALL, SL_INK_TEXT, x - wide / 2, top, SL_ALIGN_LEFT, text);
}

static double dash_of(const sl_pen *pen, int i)
{
    static const double dashes[DASHES] = {0.0, 12.0, 3.0, 6.0}; /* units; 0: whole */
    return dashes[i % DASHES] * pen->unit;
}

/* ---- the picture --------------------------------------------------------------------------- */

/* While the mix lies. */
static void show_curve(const seen_page *p, const sl_plot *plot, int i)
{
    double x[SL_SEEN_STEPS + 1], y[SL_SEEN_STEPS + 1];
    const int arm = p->order[i];
    for (int step = 0; step <= SL_SEEN_STEPS; step++) {
        const double left = sl_seen_curve_left(p->curves, arm, step, p->zone);
        if (left <= SL_NOT_READ) {
            return;
        }
        x[step] = sl_plot_x(plot, sl_seen_curve_min(p->curves, arm, step));
        y[step] = sl_plot_y(plot, fmin(left, MOST_LEFT));
    }
    sl_pen_curve(p->pen, x, y, SL_SEEN_STEPS + 1, (arm == p->chosen ? 2.6 : 1.4) * p->pen->unit,
                 dash_of(p->pen, i), SL_MARK_CONTROL);
}

static void show_bar(const sl_pen *pen, const sl_plot *plot, int x, const sl_seen_mean *mean)
{
    const int top = (int)lround(sl_plot_y(plot, fmin(mean->mean + mean->half, MOST_LEFT)));
    const int bottom = (int)lround(sl_plot_y(plot, fmax(mean->mean - mean->half, 0.0)));
    const int end = sl_pen_px(pen, BAR_END);
    const int thick = sl_pen_px(pen, 1.2);
    sl_pen_fill(pen, (SDL_Rect){x - thick / 2, top, thick, bottom - top + 1}, SL_INK_TEXT);
    sl_pen_fill(pen, (SDL_Rect){x - end, top, 2 * end + 1, thick}, SL_INK_TEXT);
    sl_pen_fill(pen, (SDL_Rect){x - end, bottom, 2 * end + 1, thick}, SL_INK_TEXT);
}

/* Arms stand beside each other, so that bars at one minute can be told apart. */
static void show_mean(const seen_page *p, const sl_plot *plot, int i, double minute, const sl_seen_mean *mean)
{
    const double aside = APART * p->pen->unit * (i - 0.5 * (p->n - 1));
    const int x = (int)lround(sl_plot_x(plot, minute) + aside);
    const int y = (int)lround(sl_plot_y(plot, fmin(mean->mean, MOST_LEFT)));
    if (mean->n == 0) {
        return;
    }
    if (mean->half > 0.0) {
        show_bar(p->pen, plot, x, mean);
    }
    show_shape(p->pen, x, y, i);
    show_number(p->pen, x, y, p->order[i] + 1);
}

static void show_picture(const seen_page *p, SDL_Rect area)
{
    const sl_plot_axis x = {0.0, p->longest_min + fmax(2.0, 0.1 * p->longest_min),
                            _("time since contact (min)"), 1.0};
    const sl_plot_axis y = {0.0, MOST_LEFT, _("colour left (% of the start)"), 100.0};
    const sl_plot plot = sl_plot_draw(p->pen, area, x, y);
    for (int i = 0; i < p->n; i++) {
        show_curve(p, &plot, i);
    }
    for (int i = 0; i < p->n; i++) {
        const int arm = p->order[i];
        for (int k = 0; k < p->curves->n_points; k++) {
            const sl_seen_point *const point = &p->curves->points[k];
            if (point->arm == arm && point->zone == p->zone) {
                show_mean(p, &plot, i, point->minute, &point->seen);
            }
        }
        show_mean(p, &plot, i, p->curves->until_min[arm], at_the_end(p, arm));
    }
}

/* ---- the same in words --------------------------------------------------------------------- */

static void say(seen_page *p, sl_type type, sl_role ink, const char *text)
{
    p->y +=
        sl_pen_wrap(p->pen, type, ink, (SDL_Rect){p->x, p->y, p->w, 0}, false, text) + sl_pen_px(p->pen, 4.0);
}

static void show_cells(seen_page *p, const char *const cell[COLUMNS], sl_role ink)
{
    static const double from[COLUMNS + 1] = {0.0, 0.42, 0.56, 0.83, 1.0}; /* of the width */
    const int mark = sl_pen_px(p->pen, MARK);
    int high = 0;
    for (int i = 0; i < COLUMNS; i++) {
        const int x = p->x + mark + (int)lround((p->w - mark) * from[i]);
        const int w = (int)lround((p->w - mark) * (from[i + 1] - from[i])) - sl_pen_px(p->pen, 6.0);
        high =
            SDL_max(high, sl_pen_wrap(p->pen, SL_TYPE_SMALL, ink, (SDL_Rect){x, p->y, w, 0}, false, cell[i]));
    }
    p->y += high;
}

/* Looks on the way: of one arm, a line for each minute that has any. */
static void show_looks(seen_page *p, int arm)
{
    const int mark = sl_pen_px(p->pen, MARK);
    for (int k = 0; k < p->curves->n_points; k++) {
        const sl_seen_point *const point = &p->curves->points[k];
        char seen[64], model[24] = "–", minute[24], text[SL_SHOW_LINE];
        if (point->arm != arm || point->zone != p->zone) {
            continue;
        }
        sl_seen_mean_words(&point->seen, seen, sizeof seen);
        if (point->model > SL_NOT_READ) {
            sl_percent(point->model, model, sizeof model);
        }
        sl_minute_words(SL_MINUTE_CLOCK, minute, sizeof minute, "%d", point->minute);
        snprintf(text, sizeof text,
                 sl_compare_ladder(p->compare, arm) ? _("rinsed after %s min: seen %s; model %s %%")
                                                    : _("after %s min: seen %s; model %s %%"),
                 minute, seen, model);
        p->y += sl_pen_wrap(p->pen, SL_TYPE_SMALL, SL_INK_QUIET,
                            (SDL_Rect){p->x + mark, p->y, p->w - mark, 0}, false, text);
    }
}

/* The arm's shape on a piece of its line. */
static void show_sign(const seen_page *p, int i)
{
    const double y = p->y + sl_text_line_height(p->pen->text, SL_TYPE_SMALL) / 2.0;
    const double left = p->x + sl_pen_px(p->pen, 5.0), right = p->x + sl_pen_px(p->pen, MARK - 6.0);
    if (sl_seen_curve_left(p->curves, p->order[i], SL_SEEN_STEPS, p->zone) > SL_NOT_READ) {
        sl_pen_curve(p->pen, (double[]){left, right}, (double[]){y, y}, 2, 1.4 * p->pen->unit,
                     dash_of(p->pen, i), SL_MARK_CONTROL);
    }
    show_shape(p->pen, (int)lround(0.5 * (left + right)), (int)lround(y), i);
}

static void show_arm(seen_page *p, int i)
{
    const int arm = p->order[i];
    const double predicted = sl_compare_arm(p->compare, arm, p->zone)->predicted;
    char name[SL_SHOW_LINE], place[24] = "–", seen[64], share[16], model[24] = "–";
    const char *const cell[COLUMNS] = {name, place, seen, model};
    const int top = p->y;
    snprintf(name, sizeof name, "%d  %s", arm + 1, sl_arm_title(&p->compare->scene->arms[arm]));
    if (at_the_end(p, arm)->n > 0) {
        sl_compare_place_words(p->compare, arm, p->zone, place, sizeof place);
    }
    sl_seen_mean_words(at_the_end(p, arm), seen, sizeof seen);
    if (predicted > SL_NOT_READ) {
        sl_percent(predicted, share, sizeof share);
        snprintf(model, sizeof model, "%s %%", share);
    }
    show_sign(p, i);
    show_cells(p, cell, SL_INK_TEXT);
    show_looks(p, arm);
    if (arm == p->chosen) {
        sl_pen_fill(p->pen, (SDL_Rect){p->x, top, sl_pen_px(p->pen, 3.0), p->y - top}, SL_MARK_CONTROL);
    }
    p->y += sl_pen_px(p->pen, 4.0);
    sl_pen_fill(p->pen, (SDL_Rect){p->x, p->y - sl_pen_px(p->pen, 2.0), p->w, 1}, SL_MARK_GRID);
}

static void show_table(seen_page *p)
{
    const char *const heads[COLUMNS] = {_("arm"), _("place"), _("seen at the end"), _("model says")};
    char text[1200];
    show_cells(p, heads, SL_INK_QUIET);
    p->y += sl_pen_px(p->pen, 4.0);
    for (int i = 0; i < p->n; i++) {
        show_arm(p, i);
    }
    if (sl_compare_shows(p->compare, p->zone)) {
        sl_compare_first_words(p->compare, p->zone, text, sizeof text);
        say(p, SL_TYPE_BODY, SL_INK_TEXT, text);
    }
    sl_compare_floor_words(p->compare, p->zone, text, sizeof text);
    say(p, SL_TYPE_SMALL, SL_INK_TEXT, text);
    say(p, SL_TYPE_SMALL, SL_INK_QUIET, sl_seen_key_words(p->curves));
}

/* ---- the page ------------------------------------------------------------------------------ */

static void show_head(seen_page *p)
{
    const sl_compare *const compare = p->compare;
    char text[SL_SHOW_LINE];
    snprintf(text, sizeof text, _("\"%s\": what was seen, over what the model predicts"),
             sl_zone_title(&compare->scene->zones[p->zone]));
    say(p, SL_TYPE_HEAD, SL_INK_TEXT, text);
    snprintf(text, sizeof text, _("%s; test %.8s of %.10s; %s; swatches on a bench"), compare->test.title,
             compare->test.id, compare->test.made,
             compare->basis[p->zone] == SL_BASIS_COLOUR ? _("by the instrument") : _("by wipe grades"));
    say(p, SL_TYPE_BODY, SL_INK_TEXT, text);
    if (compare->rehearsal) {
        say(p, SL_TYPE_STRONG, SL_INK_TEXT, _("A rehearsal: its clock ran fast. No hair lay so long."));
    }
    say(p, SL_TYPE_BODY, SL_INK_TEXT,
        _("Curves by the model, a classroom example. Real heads differ from swatches. Times for nobody's "
          "head."));
}

static void show_all(seen_page *p, SDL_Rect body)
{
    const bool beside = body.w >= sl_pen_px(p->pen, 1000.0);
    show_head(p);
    if (p->n == 0) {
        say(p, SL_TYPE_BODY, SL_INK_TEXT,
            _("Nothing was looked at yet in this zone, or it holds no direct dye."));
        return;
    }
    const int gap = sl_pen_px(p->pen, 20.0);
    const int wide = beside ? (body.w - gap) * 54 / 100 : body.w;
    const int high = SDL_max(beside ? body.y + body.h - p->y : 0, sl_pen_px(p->pen, 380.0));
    show_picture(p, (SDL_Rect){body.x, p->y, wide, high});
    const int bottom = p->y + high;
    p->x = beside ? body.x + wide + gap : body.x;
    p->w = beside ? body.w - wide - gap : body.w;
    p->y = beside ? p->y : bottom + gap / 2;
    show_table(p);
    p->y = SDL_max(p->y, bottom);
}

int sl_seen_page_show(const sl_stage *stage, SDL_Rect body)
{
    seen_page p = {.pen = &stage->pen,
                   .curves = stage->logs.seen,
                   .compare = stage->logs.seen != NULL ? stage->logs.seen->compare : NULL,
                   .zone = stage->chosen.zone,
                   .chosen = stage->chosen.arm,
                   .x = body.x,
                   .y = body.y - stage->open.scroll[0],
                   .w = body.w};
    SDL_SetClipRect(p.pen->sheet, &body);
    if (p.compare == NULL) {
        say(&p, SL_TYPE_BODY, SL_INK_TEXT,
            _("No test of a log is open: slowlift watch --seen LOG shows what was seen over what the model "
              "predicts."));
    } else {
        p.n = sl_seen_order(p.curves, p.zone, p.order);
        p.longest_min = sl_seen_longest_min(p.curves, p.zone);
        show_all(&p, body);
    }
    SDL_SetClipRect(p.pen->sheet, NULL);
    return p.y + stage->open.scroll[0] - body.y;
}
