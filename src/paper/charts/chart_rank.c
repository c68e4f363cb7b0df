/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Colour left against hair stress at the same minute: a point for each arm with bars from P10 to
 * P90, numbered; those that no other beats are squares, joined by a line; all others are rings.
 */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/append.h"
#include "base/language.h"
#include "base/minute.h"
#include "document/text.h"
#include "paper/charts/chart.h"
#include "slowlift/report.h"

static const double RADIUS = 5.0, BAR_END = 3.0, LEGEND_X = 580.0, LEGEND_WIDTH = 236.0;

/* Where the arms stand; order is that of the places. */
typedef struct stand {
    int n, order[SL_MAX_ARMS];
    bool unbeaten[SL_MAX_ARMS];
    sl_middle left[SL_MAX_ARMS], stress[SL_MAX_ARMS]; /* per cent */
} stand;

static sl_middle per_cent(sl_middle middle)
{
    return (sl_middle){100.0 * middle.p10, 100.0 * middle.p50, 100.0 * middle.p90};
}

static stand stand_of(const sl_rank *rank, int zone)
{
    stand s = {.n = 0};
    bool unbeaten[SL_MAX_ARMS];
    s.n = sl_rank_order(rank, zone, SL_LEFT_THEN, s.order);
    sl_rank_unbeaten(rank, zone, unbeaten);
    for (int i = 0; i < s.n; i++) {
        s.left[i] = per_cent(sl_rank_middle(rank, s.order[i], zone, SL_LEFT_THEN));
        s.stress[i] = per_cent(sl_rank_middle(rank, s.order[i], zone, SL_STRESS_THEN));
        s.unbeaten[i] = unbeaten[s.order[i]];
    }
    return s;
}

static void draw_bars(sl_graph *chart, const sl_middle *stress, const sl_middle *left)
{
    cairo_t *const cairo = chart->canvas.cairo;
    const double x = sl_graph_x(chart, left->p50), y = sl_graph_y(chart, stress->p50);
    const double x0 = sl_graph_x(chart, left->p10), x1 = sl_graph_x(chart, left->p90);
    const double y0 = sl_graph_y(chart, stress->p10), y1 = sl_graph_y(chart, stress->p90);
    sl_canvas_grey(&chart->canvas, 0.45);
    cairo_set_line_width(cairo, 1.0);
    const double pieces[6][4] = {
        {x0, y, x1, y}, {x0, y - BAR_END, x0, y + BAR_END}, {x1, y - BAR_END, x1, y + BAR_END},
        {x, y0, x, y1}, {x - BAR_END, y0, x + BAR_END, y0}, {x - BAR_END, y1, x + BAR_END, y1}};
    for (int i = 0; i < 6; i++) {
        cairo_move_to(cairo, pieces[i][0], pieces[i][1]);
        cairo_line_to(cairo, pieces[i][2], pieces[i][3]);
        cairo_stroke(cairo);
    }
}

static void draw_shape(sl_graph *chart, double x, double y, bool unbeaten)
{
    cairo_t *const cairo = chart->canvas.cairo;
    cairo_set_line_width(cairo, 1.4);
    if (unbeaten) {
        sl_canvas_grey(&chart->canvas, 0.0);
        cairo_rectangle(cairo, x - RADIUS, y - RADIUS, 2.0 * RADIUS, 2.0 * RADIUS);
        cairo_fill(cairo);
        return;
    }
    cairo_new_sub_path(cairo);
    cairo_arc(cairo, x, y, RADIUS, 0.0, 4.0 * acos(0.0));
    sl_canvas_grey(&chart->canvas, 1.0);
    cairo_fill_preserve(cairo);
    sl_canvas_grey(&chart->canvas, 0.0);
    cairo_stroke(cairo);
}

/* The unbeaten in order of their colour left: s.order has that order among equals of place only,
 * so it is sorted here. */
static void draw_front(sl_graph *chart, const stand *s)
{
    static const double dashes[] = {5.0, 3.0};
    int front[SL_MAX_ARMS], n = 0;
    for (int i = 0; i < s->n; i++) {
        int at = n;
        if (!s->unbeaten[i]) {
            continue;
        }
        for (; at > 0 && s->left[i].p50 < s->left[front[at - 1]].p50; at--) {
            front[at] = front[at - 1];
        }
        front[at] = i;
        n++;
    }
    cairo_t *const cairo = chart->canvas.cairo;
    sl_canvas_grey(&chart->canvas, 0.0);
    cairo_set_line_width(cairo, 1.2);
    cairo_set_dash(cairo, dashes, 2, 0.0);
    for (int i = 0; i < n; i++) {
        const double x = sl_graph_x(chart, s->left[front[i]].p50),
                     y = sl_graph_y(chart, s->stress[front[i]].p50);
        if (i == 0) {
            cairo_move_to(cairo, x, y);
        } else {
            cairo_line_to(cairo, x, y);
        }
    }
    cairo_stroke(cairo);
    cairo_set_dash(cairo, NULL, 0, 0.0);
}

/* Whether the next point lies so close to the right that the numbers would meet. */
static bool crowded(const sl_graph *chart, const stand *s, int i)
{
    const double near = 14.0;
    for (int j = 0; j < s->n; j++) {
        const double x = sl_graph_x(chart, s->left[j].p50) - sl_graph_x(chart, s->left[i].p50);
        const double y = sl_graph_y(chart, s->stress[j].p50) - sl_graph_y(chart, s->stress[i].p50);
        if (j > i && fabs(x) < near && fabs(y) < near) {
            return true;
        }
    }
    return false;
}

static void draw_points(sl_graph *chart, const stand *s)
{
    const sl_paper_face face = {.size = 11.0, .bold = true, .grey = 0.0, .align = PANGO_ALIGN_LEFT};
    for (int i = 0; i < s->n; i++) {
        draw_bars(chart, &s->stress[i], &s->left[i]);
    }
    draw_front(chart, s);
    for (int i = 0; i < s->n; i++) {
        char number[8];
        const double x = sl_graph_x(chart, s->left[i].p50), y = sl_graph_y(chart, s->stress[i].p50);
        draw_shape(chart, x, y, s->unbeaten[i]);
        snprintf(number, sizeof number, "%d", i + 1);
        const double aside = crowded(chart, s, i) ? -RADIUS - 14.0 : RADIUS + 2.0;
        sl_canvas_text(&chart->canvas, x + aside, y - RADIUS - 12.0, 24.0, 1, face, number);
    }
}

static void draw_legend(sl_graph *chart, const sl_rank_page *page, const stand *s, int zone)
{
    const sl_scene *const scene = sl_timeline_scene(page->timeline);
    const sl_paper_face face = {.size = 9.5, .grey = 0.1, .align = PANGO_ALIGN_LEFT};
    const sl_paper_face light = {.size = 8.4, .grey = 0.25, .align = PANGO_ALIGN_LEFT};
    double y = chart->top;
    for (int i = 0; i < s->n; i++) {
        char name[160], place[24], left[48], stress[48], text[200];
        sl_rank_place_words(page->rank, s->order[i], zone, SL_LEFT_THEN, place, sizeof place);
        sl_rank_middle_words(sl_rank_middle(page->rank, s->order[i], zone, SL_LEFT_THEN), left, sizeof left);
        sl_rank_middle_words(sl_rank_middle(page->rank, s->order[i], zone, SL_STRESS_THEN), stress,
                             sizeof stress);
        snprintf(name, sizeof name, "%d  %s", i + 1, sl_arm_title(&scene->arms[s->order[i]]));
        snprintf(text, sizeof text, _("place %s; left %s; stress %s"), place, left, stress);
        draw_shape(chart, LEGEND_X, y + 7.0, s->unbeaten[i]);
        y += sl_canvas_text(&chart->canvas, LEGEND_X + 12.0, y, LEGEND_WIDTH - 12.0, 1, face, name);
        y += 4.0 + sl_canvas_text(&chart->canvas, LEGEND_X + 12.0, y, LEGEND_WIDTH - 12.0, 1, light, text);
    }
    y += 6.0;
    y += 4.0 + sl_canvas_text(
                   &chart->canvas, LEGEND_X - RADIUS, y, LEGEND_WIDTH, 0, light,
                   _("Black squares, joined: no other arm has as little left and as little stress. Rings: "
                     "some other arm does as well in both, and better in one. Bars: where eight of ten "
                     "model runs lie. Further left and further down is better."));
    char why[640];
    sl_rank_reason_words(page, zone, why, sizeof why);
    sl_canvas_text(&chart->canvas, LEGEND_X - RADIUS, y + 2.0, LEGEND_WIDTH, 0, light, why);
}

static double highest(const sl_middle *of, int n)
{
    double most = 0.0;
    for (int i = 0; i < n; i++) {
        most = fmax(most, of[i].p90);
    }
    return most;
}

static void draw_all(sl_graph *chart, const sl_rank_page *page, const stand *s, int zone)
{
    const sl_scene *const scene = sl_timeline_scene(page->timeline);
    char title[240], under[320], note[320], foot[640] = "", minute[24];
    sl_clock_time(SL_MINUTE_PLANNED, page->rank->request.minute, minute, sizeof minute);
    snprintf(title, sizeof title, _("\"%s\": colour left against hair stress"),
             sl_zone_title(&scene->zones[zone]));
    snprintf(
        under, sizeof under,
        _("%s; every arm rinsed %s min after its contact (as asked), washed and dry; swatches on a bench"),
        sl_scene_title(scene), minute);
    sl_example_note(scene, note, sizeof note);
    if (page->rank->stopped) {
        char stopped[160];
        snprintf(stopped, sizeof stopped, _("stopped after %ld of %ld model runs; what follows is partial."),
                 page->rank->members, page->rank->request.members);
        snprintf(foot, sizeof foot, "%s%s  ", _(" PARTIAL: "), stopped);
    }
    sl_append(foot, sizeof foot,
              _("Classroom example: %ld runs of a model, its numbers drawn as widely as their grades are "
                "weak. Real "
                "swatches scatter in ways of their own. Times for nobody's head."),
              page->rank->members);
    sl_graph_draw_frame(chart, title, under, note);
    draw_points(chart, s);
    draw_legend(chart, page, s, zone);
    sl_graph_draw_foot(chart, foot);
}

bool sl_paper_ranks(const char *path, const sl_rank_page *page, int zone, sl_error *error)
{
    const stand s = stand_of(page->rank, zone);
    const double step = sl_graph_step(fmax(highest(s.stress, s.n), 1.0));
    sl_graph chart = {.x = {0.0, 100.0, _("colour left (% of the start)")},
                      .y = {0.0, 0.0, _("hair stress (% of cystine lost)")}};
    chart.y.to = step * ceil(fmax(highest(s.stress, s.n), 1.0) / step + 0.2);
    if (!sl_canvas_begin(&chart.canvas, path, error) ||
        !sl_canvas_open(&chart.canvas, SL_GRAPH_WIDTH, SL_GRAPH_HEIGHT, _("slowlift: arms compared"),
                        error)) {
        return false;
    }
    draw_all(&chart, page, &s, zone);
    return sl_canvas_commit(&chart.canvas, error);
}
