/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Lines of equal value over two settings. Where the goal is reached is shaded, its edge drawn thick; what
 * lies inside every limit set is striped; a diamond stands where the scene is set. Between points of the
 * grid, values are read along straight lines.
 */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/append.h"
#include "base/language.h"
#include "base/minute.h"
#include "document/text.h"
#include "report/rank/map.h"
#include "slowlift/report.h"

enum { MOST_LEVELS = 10 };

static int points_of(const sl_map *map)
{
    return map->x.n * map->y.n;
}

/* ---- regions -------------------------------------------------------------------------------------- */

static bool any_limit(const sl_map_page *page)
{
    const sl_aims *const aims = &page->scene->aims;
    bool any = aims->base_moved.set || aims->cystine_lost.set || aims->longest_min.set;
    for (int i = 0; i < points_of(page->map); i++) {
        any = any || !page->map->inside[i];
    }
    return any;
}

/* The time on the hair where it is an axis, else one that keeps every bound. */
static double time_at(const sl_map *map, int i)
{
    return map->x.setting == SL_SETTING_DWELL   ? sl_axis_value(&map->x, i % map->x.n)
           : map->y.setting == SL_SETTING_DWELL ? sl_axis_value(&map->y, i / map->x.n)
                                                : 0.0;
}

/* A field that is 0 where a bound is just kept, by values or by the time. */
static void add_bound(sl_graph *graph, const sl_map *map, sl_bound bound, const double *value)
{
    sl_graph_region *const region = &graph->relief.striped;
    double *const field = bound.set ? sl_graph_room(graph, (size_t)points_of(map)) : NULL;
    for (int i = 0; field != NULL && i < points_of(map); i++) {
        field[i] = bound.most - (value != NULL ? value[i] : time_at(map, i));
    }
    if (field != NULL) {
        region->field[region->n++] = field;
    }
}

/* Base, stress and time are read between the points. The other limits (label, 12 %) are yes or no at a
 * point: a square of the grid is outside when one of its corners is past one of them. */
static void add_limits(sl_graph *graph, const sl_map_page *page)
{
    const sl_aims *const aims = &page->scene->aims;
    const sl_map *const map = page->map;
    double *const no = sl_graph_room(graph, (size_t)points_of(map));
    for (int i = 0; no != NULL && i < points_of(map); i++) {
        const bool told_between = !sl_bound_kept(aims->base_moved, map->value[SL_MAP_BASE][i]) ||
                                  !sl_bound_kept(aims->cystine_lost, map->value[SL_MAP_STRESS][i]) ||
                                  !sl_bound_kept(aims->longest_min, time_at(map, i));
        no[i] = map->inside[i] || told_between ? 0.0 : (double)NAN;
    }
    graph->relief.striped.field[graph->relief.striped.n++] = no;
    add_bound(graph, map, aims->base_moved, map->value[SL_MAP_BASE]);
    add_bound(graph, map, aims->cystine_lost, map->value[SL_MAP_STRESS]);
    add_bound(graph, map, aims->longest_min, NULL);
}

/* Of one share as far as it reaches; of several zones with goals of their own half way between the points. */
static void add_goal(sl_graph *graph, const sl_map_page *page, const double *share)
{
    const sl_map *const map = page->map;
    double *const field = sl_graph_room(graph, (size_t)points_of(map));
    for (int i = 0; field != NULL && i < points_of(map); i++) {
        field[i] = share != NULL ? *share - map->value[SL_MAP_LEFT][i] : map->goal[i] ? 0.5 : -0.5;
    }
    graph->relief.shaded = (sl_graph_region){.n = 1, .field = {field}};
}

/* ---- lines ------------------------------------------------------------------------------------------ */

typedef struct extreme {
    double least, most;
    int at_least, at_most;
} extreme;

static extreme extreme_of(const sl_map_page *page)
{
    const double *const value = page->map->value[page->shows];
    extreme e = {HUGE_VAL, -HUGE_VAL, 0, 0};
    for (int i = 0; i < points_of(page->map); i++) {
        e.at_least = value[i] < e.least ? i : e.at_least;
        e.at_most = value[i] > e.most ? i : e.at_most;
        e.least = fmin(e.least, value[i]);
        e.most = fmax(e.most, value[i]);
    }
    return e;
}

static void add_lines(sl_graph *graph, const sl_map_page *page, const double *share)
{
    sl_graph_relief *const relief = &graph->relief;
    const extreme e = extreme_of(page);
    const double step = e.most - e.least > 1e-6 ? sl_graph_step(e.most - e.least, MOST_LEVELS) : 1.0;
    const bool of_goal = share != NULL && page->shows == SL_MAP_LEFT;
    char number[24];
    for (double i = ceil(e.least / step); i * step < e.most && relief->n_lines <= MOST_LEVELS; i++) {
        if (of_goal && fabs(i * step - *share) < 1e-9) {
            continue; /* the goal's own line is drawn there */
        }
        sl_short_number(100.0 * i * step, 2, number, sizeof number);
        relief->line[relief->n_lines++] = (sl_graph_line){.value = page->map->value[page->shows],
                                                          .level = i * step,
                                                          .label = sl_graph_say(graph, "%s %%", number)};
    }
    if (share != NULL) {
        sl_short_number(100.0 * *share, 2, number, sizeof number);
        relief->line[relief->n_lines++] = (sl_graph_line){page->map->value[SL_MAP_LEFT], *share, true,
                                                          sl_graph_say(graph, _("goal, %s %%"), number)};
    }
}

static double set_value(const sl_map_page *page, sl_setting setting)
{
    return setting == SL_SETTING_WARMER ? page->scene->shift_k
                                        : sl_setting_value(page->scene, page->map->arm, setting);
}

static void add_now(sl_graph *graph, const sl_map_page *page)
{
    sl_graph_series *const now = sl_graph_add(graph, SL_GRAPH_DIAMOND, 1, false, false);
    if (now == NULL) {
        return;
    }
    now->strong = true;
    *now->x = set_value(page, page->map->x.setting);
    *now->y = set_value(page, page->map->y.setting);
    if (*now->x >= graph->x.from && *now->x <= graph->x.to && *now->y >= graph->y.from &&
        *now->y <= graph->y.to) {
        sl_graph_add_key(
            graph, (sl_graph_key){.curve = -1, .marks = graph->n_series - 1, .words = _("as it is set")});
    }
}

/* ---- words ------------------------------------------------------------------------------------------- */

static void add_patches(sl_graph *graph, bool goal, bool limits)
{
    static const struct {
        bool goal, limits;
        const char *words;
    } rows[] = {{true, true, N_("at the goal, and inside the limits you set")},
                {true, false, N_("at the goal, past a limit")},
                {false, true, N_("inside the limits you set, not yet at the goal")},
                {false, false, N_("neither")}};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        if ((!rows[i].goal || goal) && (!rows[i].limits || limits) && (goal || limits)) {
            sl_graph_add_key(graph, (sl_graph_key){.curve = -1,
                                                   .marks = -1,
                                                   .shaded = rows[i].goal,
                                                   .striped = rows[i].limits,
                                                   .words = _(rows[i].words)});
        }
    }
}

enum { NUMBER = 40 };

static void put_setting(const sl_axis *axis, int at, char text[NUMBER])
{
    const double value = sl_axis_value(axis, at);
    if (axis->setting == SL_SETTING_DWELL || axis->setting == SL_SETTING_AGE) {
        sl_minute_words(SL_MINUTE_PLANNED, text, NUMBER, "%.0f", value);
    } else {
        sl_short_number(value, 1, text, NUMBER);
    }
}

/* A value of the map and where it is. */
typedef struct point_words {
    char value[NUMBER], x[NUMBER], y[NUMBER];
} point_words;

static point_words words_of_point(const sl_map *map, int at, double value)
{
    point_words words = {.value = ""};
    sl_percent(value, words.value, sizeof words.value);
    put_setting(&map->x, at % map->x.n, words.x);
    put_setting(&map->y, at / map->x.n, words.y);
    return words;
}

static void add_words(sl_graph *graph, const sl_map_page *page, bool goal_line)
{
    const sl_map *const map = page->map;
    const extreme e = extreme_of(page);
    char layer[160], aims[960], note[1400] = "", example[320];
    sl_layer_words(page, layer, sizeof layer);
    sl_map_aims_words(page, aims, sizeof aims);
    sl_example_note(page->scene, example, sizeof example);
    graph->title = sl_graph_say(graph, "\"%s\": %s", sl_arm_title(&page->scene->arms[map->arm]), layer);
    graph->under = sl_graph_say(graph, "%s\n%s", sl_scene_title(page->scene), example);
    sl_append_item(note, sizeof note, " ", _("Thin lines: %s, once washed and dry."), layer);
    if (goal_line) {
        sl_append_item(note, sizeof note, " ", "%s", _("Thick line: the goal."));
    }
    sl_append_item(note, sizeof note, " ", _("Set: %s."), aims);
    if (!any_limit(page)) {
        sl_append_item(note, sizeof note, " ", "%s", _("No limit is set, so nothing is hatched."));
    }
    graph->note = sl_graph_say(graph, "%s", note);
    const char *const across = graph->x.name, *const up = graph->y.name;
    const point_words low = words_of_point(map, e.at_least, e.least),
                      high = words_of_point(map, e.at_most, e.most);
    const char *const least = sl_graph_say(graph, _("Least: %s %%, where %s is %s and %s is %s."), low.value,
                                           across, low.x, up, low.y);
    const char *const most = sl_graph_say(graph, _("Most: %s %%, where %s is %s and %s is %s."), high.value,
                                          across, high.x, up, high.y);
    graph->says = sl_graph_say(graph, "%s %s", least, most);
    graph->foot = _("Classroom example, from the model's central values alone: real swatches scatter "
                    "around them. Swatches on a bench; a time for nobody's head.");
}

const sl_graph *sl_graph_of_map(sl_arena *arena, const sl_map_page *page, sl_error *error)
{
    const sl_map *const map = page->map;
    const bool goal = sl_goal_set(page->scene), limits = any_limit(page);
    double share = 0.0;
    const double *const line = sl_goal_share(page->scene, map->zone, &share) ? &share : NULL;
    char x[80], y[80];
    sl_graph *const graph = sl_graph_new(arena, error);
    if (graph == NULL) {
        return NULL;
    }
    sl_axis_words(map->x.setting, x, sizeof x);
    sl_axis_words(map->y.setting, y, sizeof y);
    graph->x = (sl_graph_axis){map->x.from, map->x.to, sl_graph_say(graph, "%s", x)};
    graph->y = (sl_graph_axis){map->y.from, map->y.to, sl_graph_say(graph, "%s", y)};
    graph->relief.nx = map->x.n;
    graph->relief.ny = map->y.n;
    if (goal) {
        add_goal(graph, page, line);
    }
    if (limits) {
        add_limits(graph, page);
    }
    add_lines(graph, page, line);
    add_patches(graph, goal, limits);
    add_now(graph, page);
    add_words(graph, page, line != NULL);
    return sl_graph_made(graph);
}
