/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Lines of equal value over two settings. Where the goal is reached is light grey with its edge
 * drawn thick; what lies inside every limit set is hatched. Between points of the grid, values
 * are read along straight lines in both directions (bilinear).
 */
#include <math.h>
#include <stdio.h>

#include "base/language.h"
#include "base/memory.h"
#include "document/text.h"
#include "paper/charts/chart.h"
#include "slowlift/report.h"

enum { FINE = 8, MOST_LEVELS = 24 }; /* parts of a square of the grid; lines of equal value */
static const double HATCH = 7.0, LEGEND_X = 580.0, LEGEND_WIDTH = 232.0;

typedef struct plot {
    sl_graph chart;
    const sl_map_page *page;
    const sl_map *map;
    sl_contour_piece *pieces; /* room for any one level */
} plot;

/* Of value[ny][nx] at a place counted in steps of the grid. */
static double between(const sl_map *map, const double *value, double x, double y)
{
    const int i = (int)fmin(floor(x), map->x.n - 2.0), j = (int)fmin(floor(y), map->y.n - 2.0);
    const double u = x - i, v = y - j;
    const double *const row = value + j * map->x.n + i, *const next = row + map->x.n;
    return (1.0 - v) * ((1.0 - u) * row[0] + u * row[1]) + v * ((1.0 - u) * next[0] + u * next[1]);
}

/* Whether only base or stress keeps a point of the grid outside. */
static bool past_a_value(const plot *p, int at)
{
    const sl_aims *const aims = &p->page->scene->aims;
    return !sl_bound_kept(aims->base_moved, p->map->value[SL_MAP_BASE][at]) ||
           !sl_bound_kept(aims->cystine_lost, p->map->value[SL_MAP_STRESS][at]);
}

/* The longest time, where it is on an axis; steps of the grid. */
static bool in_time(const plot *p, const sl_axis *axis, double steps)
{
    const double value = axis->from + (axis->to - axis->from) * steps / (axis->n - 1);
    return axis->setting != SL_SETTING_DWELL || sl_bound_kept(p->page->scene->aims.longest_min, value);
}

/* Base and stress are read between the points. The other limits (time, label, 12 %) are yes or no at
 * a point: a square of the grid is inside when none of its corners is past one of them. */
static bool inside_at(const plot *p, double x, double y)
{
    const sl_aims *const aims = &p->page->scene->aims;
    const sl_map *const map = p->map;
    const int first = (int)floor(y) * map->x.n + (int)floor(x);
    const int corner[4] = {first, first + 1, first + map->x.n, first + map->x.n + 1};
    bool any = false;
    for (int i = 0; i < 4; i++) {
        any = any || map->inside[corner[i]];
        if (!map->inside[corner[i]] && !past_a_value(p, corner[i])) {
            return false;
        }
    }
    return any && in_time(p, &map->x, x) && in_time(p, &map->y, y) &&
           sl_bound_kept(aims->base_moved, between(map, map->value[SL_MAP_BASE], x, y)) &&
           sl_bound_kept(aims->cystine_lost, between(map, map->value[SL_MAP_STRESS], x, y));
}

/* Without a limit that is set, hatching would say nothing. */
static bool any_limit(const plot *p)
{
    const sl_aims *const aims = &p->page->scene->aims;
    bool any = aims->base_moved.set || aims->cystine_lost.set || aims->longest_min.set;
    for (int i = 0; i < p->map->x.n * p->map->y.n; i++) {
        any = any || !p->map->inside[i];
    }
    return any;
}

static bool goal_at(const plot *p, double x, double y)
{
    double share = 0.0;
    if (sl_goal_share(p->page->scene, p->map->zone, &share)) {
        return between(p->map, p->map->value[SL_MAP_LEFT], x, y) <= share;
    }
    return p->map->goal[(int)lround(y) * p->map->x.n + (int)lround(x)]; /* no one level: the nearest point */
}

static double at_x(const plot *p, double steps)
{
    return p->chart.left + p->chart.width * steps / (p->map->x.n - 1);
}

static double at_y(const plot *p, double steps)
{
    return p->chart.top + p->chart.height * (1.0 - steps / (p->map->y.n - 1));
}

/* Every small square where `yes`, as one path; squares in a row are joined. */
static void path_where(plot *p, bool (*yes)(const plot *p, double x, double y))
{
    const double part = 1.0 / FINE;
    cairo_new_path(p->chart.canvas.cairo);
    for (int j = 0; j < (p->map->y.n - 1) * FINE; j++) {
        int begun = -1;
        const int all = (p->map->x.n - 1) * FINE;
        for (int i = 0; i <= all; i++) {
            const bool here = i < all && yes(p, (i + 0.5) * part, (j + 0.5) * part);
            if (here && begun < 0) {
                begun = i;
            } else if (!here && begun >= 0) {
                const double x = at_x(p, begun * part), y = at_y(p, (j + 1) * part);
                cairo_rectangle(p->chart.canvas.cairo, x, y, at_x(p, i * part) - x, at_y(p, j * part) - y);
                begun = -1;
            }
        }
    }
}

static void draw_hatch(cairo_t *cairo, double x, double y, double width, double height)
{
    for (double at = x - height; at < x + width; at += HATCH) {
        cairo_move_to(cairo, at, y + height);
        cairo_line_to(cairo, at + height, y);
    }
    cairo_set_line_width(cairo, 0.7);
    cairo_stroke(cairo);
}

static void draw_regions(plot *p)
{
    cairo_t *const cairo = p->chart.canvas.cairo;
    cairo_save(cairo);
    cairo_set_antialias(cairo, CAIRO_ANTIALIAS_NONE);
    path_where(p, goal_at);
    sl_canvas_grey(&p->chart.canvas, 0.86);
    cairo_fill(cairo);
    if (any_limit(p)) {
        path_where(p, inside_at);
        cairo_clip(cairo);
        cairo_set_antialias(cairo, CAIRO_ANTIALIAS_DEFAULT);
        sl_canvas_grey(&p->chart.canvas, 0.5);
        draw_hatch(cairo, p->chart.left, p->chart.top, p->chart.width, p->chart.height);
    }
    cairo_restore(cairo);
}

/* The piece nearest to a line that climbs across the field, so that labels spread along it. */
static int label_piece(const plot *p, int n)
{
    int best = -1;
    double least = HUGE_VAL;
    for (int i = 0; i < n; i++) {
        const sl_contour_piece *const piece = &p->pieces[i];
        const double x = 0.5 * (piece->x0 + piece->x1) / (p->map->x.n - 1);
        const double y = 0.5 * (piece->y0 + piece->y1) / (p->map->y.n - 1);
        const double away =
            fabs(y - (0.15 + 0.7 * x)) + (x < 0.045 || x > 0.955 || y < 0.03 || y > 0.97 ? 10.0 : 0.0);
        if (away < least) {
            least = away;
            best = i;
        }
    }
    return best;
}

static void draw_level(plot *p, const double *value, double level, double thick, const char *words)
{
    cairo_t *const cairo = p->chart.canvas.cairo;
    const int n = sl_contour(value, p->map->x.n, p->map->y.n, level, p->pieces);
    sl_canvas_grey(&p->chart.canvas, 0.0);
    cairo_set_line_width(cairo, thick);
    cairo_set_line_cap(cairo, CAIRO_LINE_CAP_ROUND);
    for (int i = 0; i < n; i++) {
        cairo_move_to(cairo, at_x(p, p->pieces[i].x0), at_y(p, p->pieces[i].y0));
        cairo_line_to(cairo, at_x(p, p->pieces[i].x1), at_y(p, p->pieces[i].y1));
    }
    cairo_stroke(cairo);
    const int at = label_piece(p, n);
    if (at >= 0 && words) {
        const double edge = 20.0; /* a label is never cut by the frame */
        const double x = at_x(p, 0.5 * (p->pieces[at].x0 + p->pieces[at].x1));
        const double y = at_y(p, 0.5 * (p->pieces[at].y0 + p->pieces[at].y1));
        const double right = p->chart.left + p->chart.width, bottom = p->chart.top + p->chart.height;
        sl_graph_label(&p->chart, fmin(fmax(x, p->chart.left + edge), right - edge),
                       fmin(fmax(y, p->chart.top + 0.5 * edge), bottom - 0.5 * edge), 9.0, words);
    }
}

static void draw_levels(plot *p)
{
    const double *const value = p->map->value[p->page->shows];
    double least = HUGE_VAL, most = 0.0;
    for (int i = 0; i < p->map->x.n * p->map->y.n; i++) {
        least = fmin(least, value[i]);
        most = fmax(most, value[i]);
    }
    const double step = most - least > 1e-6 ? sl_graph_step(100.0 * (most - least)) / 100.0 : 1.0;
    int drawn = 0;
    for (double i = ceil(least / step); i * step < most && drawn < MOST_LEVELS; i++, drawn++) {
        char number[24], text[32];
        sl_short_number(100.0 * i * step, 2, number, sizeof number);
        snprintf(text, sizeof text, "%s %%", number);
        draw_level(p, value, i * step, 0.9, text);
    }
    double share = 0.0;
    if (sl_goal_share(p->page->scene, p->map->zone, &share)) {
        draw_level(p, p->map->value[SL_MAP_LEFT], share, 2.6, _("goal"));
    }
}

static void legend_box(plot *p, double y, bool goal, bool hatched)
{
    cairo_t *const cairo = p->chart.canvas.cairo;
    const double width = 26.0, height = 15.0;
    cairo_save(cairo);
    cairo_rectangle(cairo, LEGEND_X, y, width, height);
    sl_canvas_grey(&p->chart.canvas, goal ? 0.86 : 1.0);
    cairo_fill_preserve(cairo);
    cairo_clip_preserve(cairo);
    cairo_new_path(cairo);
    if (hatched) {
        sl_canvas_grey(&p->chart.canvas, 0.5);
        draw_hatch(cairo, LEGEND_X, y, width, height);
    }
    cairo_rectangle(cairo, LEGEND_X, y, width, height);
    sl_canvas_grey(&p->chart.canvas, 0.1);
    cairo_set_line_width(cairo, 1.2);
    cairo_stroke(cairo);
    cairo_restore(cairo);
}

static void draw_legend(plot *p)
{
    static const struct {
        bool goal, hatched;
        const char *words;
    } rows[] = {{true, true, N_("at the goal, and inside the limits you set")},
                {true, false, N_("at the goal, past a limit")},
                {false, true, N_("inside the limits you set, not yet at the goal")},
                {false, false, N_("neither")}};
    const sl_paper_face face = {.size = 9.5, .grey = 0.1, .align = PANGO_ALIGN_LEFT};
    char layer[160], aims[960], text[1280];
    double y = p->chart.top;
    const bool goal = sl_goal_set(p->page->scene), limits = any_limit(p);
    double share = 0.0;
    const bool line = sl_goal_share(p->page->scene, p->map->zone, &share);
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        if ((rows[i].goal && !goal) || (rows[i].hatched && !limits) || !(goal || limits)) {
            continue; /* nothing of the kind is on this map */
        }
        legend_box(p, y, rows[i].goal, rows[i].hatched);
        const double height = sl_canvas_text(&p->chart.canvas, LEGEND_X + 34.0, y + 1.0, LEGEND_WIDTH - 34.0,
                                             0, face, _(rows[i].words));
        y += fmax(height, 15.0) + 7.0;
    }
    sl_layer_words(p->page, layer, sizeof layer);
    sl_map_aims_words(p->page, aims, sizeof aims);
    snprintf(text, sizeof text, _("Thin lines: %s, once washed and dry.%s\n\nSet: %s.%s"), layer,
             line ? _(" Thick line: the goal.") : "", aims,
             limits ? "" : _(" No limit is set, so nothing is hatched."));
    sl_canvas_text(&p->chart.canvas, LEGEND_X, y + 6.0, LEGEND_WIDTH, 0, face, text);
}

static void draw_all(plot *p)
{
    const sl_scene *const scene = p->page->scene;
    char title[320], layer[160], note[320];
    sl_layer_words(p->page, layer, sizeof layer);
    snprintf(title, sizeof title, "\"%s\": %s", sl_arm_title(&scene->arms[p->map->arm]), layer);
    sl_example_note(scene, note, sizeof note);
    sl_graph_draw_frame(&p->chart, title, sl_scene_title(scene), note);
    draw_regions(p);
    draw_levels(p);
    sl_canvas_grey(&p->chart.canvas, 0.1);
    cairo_set_line_width(p->chart.canvas.cairo, 0.8);
    cairo_rectangle(p->chart.canvas.cairo, p->chart.left, p->chart.top, p->chart.width, p->chart.height);
    cairo_stroke(p->chart.canvas.cairo);
    draw_legend(p);
    sl_graph_draw_foot(&p->chart,
                       _("Classroom example, from the model's central values alone: real swatches scatter "
                         "around them. Swatches on a bench; a time for nobody's head."));
}

bool sl_paper_map(const char *path, const sl_map_page *page, sl_error *error)
{
    const sl_map *const map = page->map;
    char x[80], y[80];
    sl_axis_words(map->x.setting, x, sizeof x);
    sl_axis_words(map->y.setting, y, sizeof y);
    plot p = {.page = page,
              .map = map,
              .chart = {.x = {map->x.from, map->x.to, x}, .y = {map->y.from, map->y.to, y}}};
    p.pieces =
        sl_new(2 * (size_t)(map->x.n - 1) * (size_t)(map->y.n - 1), sizeof *p.pieces, "drawing a map", error);
    bool good = p.pieces != NULL && sl_canvas_begin(&p.chart.canvas, path, error) &&
                sl_canvas_open(&p.chart.canvas, SL_GRAPH_WIDTH, SL_GRAPH_HEIGHT, _("slowlift: a map"), error);
    if (good) {
        draw_all(&p);
        good = sl_canvas_commit(&p.chart.canvas, error);
    }
    sl_free(p.pieces);
    return good;
}
