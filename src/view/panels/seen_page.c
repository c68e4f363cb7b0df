/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What was seen on a day of strand tests over what the model predicts, for the chosen zone: a curve
 * for each arm while its mix lies, means over swatches with their 95 % interval as numbered shapes,
 * and the same in words beside them. Invariant: no arm is told from another by colour.
 */
#include <math.h>
#include <stdio.h>

#include "base/language.h"
#include "base/minute.h"
#include "document/text.h"
#include "log/compare/compare_page.h"
#include "log/compare/seen_curves.h"
#include "view/draw/graph_pen.h"
#include "view/panels/turn.h"
#include "view/window/show.h"

enum { COLUMNS = 4 };
static const double MARK = 52.0; /* of the table's first column; units */

typedef struct seen_page {
    const sl_pen *pen;
    const sl_seen_curves *curves;
    const sl_compare *compare; /* theirs */
    const sl_graph *graph;     /* its key has the arms in their order */
    int zone, chosen, n, order[SL_MAX_ARMS];
    int x, y, w; /* of the text; pixels */
} seen_page;

static const sl_seen_mean *at_the_end(const seen_page *p, int arm)
{
    return &sl_compare_arm(p->compare, arm, p->zone)->seen[p->compare->basis[p->zone]];
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
    const sl_graph_pen drawn = sl_graph_pen_in_window(p->pen);
    const SDL_Rect area = {p->x + sl_pen_px(p->pen, 5.0), p->y, sl_pen_px(p->pen, MARK - 12.0),
                           sl_text_line_height(p->pen->text, SL_TYPE_SMALL)};
    sl_graph_draw_sign(p->graph, &p->graph->key[i], &drawn, sl_graph_box_of(area));
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
    show_cells(p, heads, SL_INK_QUIET);
    p->y += sl_pen_px(p->pen, 4.0);
    for (int i = 0; i < p->n; i++) {
        show_arm(p, i);
    }
    say(p, SL_TYPE_BODY, SL_INK_TEXT, p->graph->says);
    say(p, SL_TYPE_SMALL, SL_INK_QUIET, p->graph->note);
}

/* ---- the page ------------------------------------------------------------------------------ */

static void show_all(seen_page *p, SDL_Rect body)
{
    const bool beside = body.w >= sl_pen_px(p->pen, 1000.0);
    say(p, SL_TYPE_HEAD, SL_INK_TEXT, p->graph->title);
    say(p, SL_TYPE_BODY, SL_INK_TEXT, p->graph->under);
    say(p, p->compare->rehearsal ? SL_TYPE_STRONG : SL_TYPE_BODY, SL_INK_TEXT, p->graph->foot);
    if (p->n == 0) {
        say(p, SL_TYPE_BODY, SL_INK_TEXT,
            _("Nothing was looked at yet in this zone, or it holds no direct dye."));
        return;
    }
    const int gap = sl_pen_px(p->pen, 20.0);
    const int wide = beside ? (body.w - gap) * 54 / 100 : body.w;
    const int high = SDL_max(beside ? body.y + body.h - p->y : 0, sl_pen_px(p->pen, 380.0));
    const sl_graph_pen drawn = sl_graph_pen_in_window(p->pen);
    sl_graph_draw(p->graph, &drawn, sl_graph_box_of((SDL_Rect){body.x, p->y, wide, high}));
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
    sl_arena arena = {NULL};
    sl_error error = {.code = SL_OK};
    SDL_SetClipRect(p.pen->sheet, &body);
    if (p.compare == NULL) {
        say(&p, SL_TYPE_BODY, SL_INK_TEXT,
            _("No test of a log is open: slowlift watch --seen LOG shows what was seen over what the model "
              "predicts."));
    } else {
        p.n = sl_seen_order(p.curves, p.zone, p.order);
        p.graph = sl_graph_of_seen(&arena, p.curves, p.zone, p.chosen, &error);
        if (p.graph != NULL) {
            show_all(&p, body);
        }
    }
    SDL_SetClipRect(p.pen->sheet, NULL);
    sl_arena_free(&arena);
    return p.y + stage->open.scroll[0] - body.y;
}
