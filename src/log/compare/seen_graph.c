/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What was seen over what the model predicts: colour left of one zone by minutes since contact. A curve for
 * each arm while its mix lies; means over swatches as shapes with bars of the 95 % interval, set beside each
 * other. At the end of the dwell stands what was seen when all was washed and dry.
 */
#include <math.h>

#include "base/language.h"
#include "document/text.h"
#include "log/compare/compare_page.h"
#include "log/compare/seen_curves.h"
#include "slowlift/report.h"

static const double APART = 9.0, WIDEST = 90.0; /* units: between arms, and of all of them */

typedef struct seen {
    sl_graph *graph;
    const sl_seen_curves *curves;
    const sl_compare *compare; /* theirs */
    int zone, n, order[SL_MAX_ARMS];
} seen;

static const sl_seen_mean *at_the_end(const seen *s, int arm)
{
    return &sl_compare_arm(s->compare, arm, s->zone)->seen[s->compare->basis[s->zone]];
}

static const char *name_of(const seen *s, int arm)
{
    return sl_graph_say(s->graph, "%d  %s", arm + 1, sl_arm_title(&s->compare->scene->arms[arm]));
}

/* Returns its number, or -1. */
static int add_curve(const seen *s, int i, bool strong)
{
    const int arm = s->order[i];
    if (sl_seen_curve_left(s->curves, arm, SL_SEEN_STEPS, s->zone) <= SL_NOT_READ) {
        return -1;
    }
    sl_graph_series *const series = sl_graph_add(s->graph, SL_GRAPH_CURVE, SL_SEEN_STEPS + 1, false, false);
    for (int step = 0; series != NULL && step <= SL_SEEN_STEPS; step++) {
        series->x[step] = sl_seen_curve_min(s->curves, arm, step);
        series->y[step] = 100.0 * sl_seen_curve_left(s->curves, arm, step, s->zone);
    }
    if (series != NULL) {
        series->dash = (sl_graph_dash)(i % SL_GRAPH_DASHES);
        series->strong = strong;
        series->label = name_of(s, arm);
        series->brief = sl_graph_say(s->graph, "%d", arm + 1);
    }
    return s->graph->n_series - 1;
}

static void put_mean(sl_graph_series *series, int at, double minute, const sl_seen_mean *mean)
{
    series->x[at] = minute;
    series->y[at] = 100.0 * mean->mean;
    series->y_low[at] = 100.0 * fmax(mean->mean - mean->half, 0.0);
    series->y_high[at] = 100.0 * (mean->mean + mean->half);
}

/* Ring, square, triangle, diamond; filled for every second four. */
static int add_means(const seen *s, int i)
{
    const int arm = s->order[i];
    const sl_seen_mean *const end = at_the_end(s, arm);
    int n = end->n > 0 ? 1 : 0;
    for (int k = 0; k < s->curves->n_points; k++) {
        n += s->curves->points[k].arm == arm && s->curves->points[k].zone == s->zone;
    }
    const sl_graph_shape shape = (sl_graph_shape)(SL_GRAPH_RING + i % (SL_GRAPH_SHAPES - SL_GRAPH_RING));
    sl_graph_series *const series = n > 0 ? sl_graph_add(s->graph, shape, n, false, true) : NULL;
    if (series == NULL) {
        return -1;
    }
    series->strong = i / (SL_GRAPH_SHAPES - SL_GRAPH_RING) % 2 == 1;
    series->aside = fmin(APART, WIDEST / s->n) * (i - 0.5 * (s->n - 1));
    series->label = sl_graph_say(s->graph, "%d", arm + 1);
    n = 0;
    for (int k = 0; k < s->curves->n_points; k++) {
        const sl_seen_point *const point = &s->curves->points[k];
        if (point->arm == arm && point->zone == s->zone) {
            put_mean(series, n++, point->minute, &point->seen);
        }
    }
    if (end->n > 0) {
        put_mean(series, n, s->curves->until_min[arm], end);
    }
    return s->graph->n_series - 1;
}

static const char *arm_words(const seen *s, int arm)
{
    char place[24] = "–", words[48], model[16] = "–";
    const sl_seen_arm *const of = sl_compare_arm(s->compare, arm, s->zone);
    if (of->place > 0) {
        sl_compare_place_words(s->compare, arm, s->zone, place, sizeof place);
    }
    sl_seen_mean_words(at_the_end(s, arm), words, sizeof words);
    if (of->predicted > SL_NOT_READ) {
        sl_percent(of->predicted, model, sizeof model);
    }
    return sl_graph_say(s->graph, _("place %s; seen %s; model %s %%"), place, words, model);
}

static double highest(const seen *s)
{
    double most = 1.0;
    for (int i = 0; i < s->n; i++) {
        most = fmax(most, at_the_end(s, s->order[i])->mean);
    }
    for (int k = 0; k < s->curves->n_points; k++) {
        most = fmax(most, s->curves->points[k].zone == s->zone ? s->curves->points[k].seen.mean : 0.0);
    }
    return 100.0 * most;
}

static void add_words(const seen *s)
{
    const sl_compare *const compare = s->compare;
    sl_graph *const graph = s->graph;
    char first[640] = "", floor[400], example[320];
    if (sl_compare_shows(compare, s->zone)) {
        sl_compare_first_words(compare, s->zone, first, sizeof first);
    }
    sl_compare_scatter_words(compare, s->zone, floor, sizeof floor);
    sl_example_note(compare->scene, example, sizeof example);
    graph->title = sl_graph_say(graph, _("\"%s\": what was seen, over what the model predicts"),
                                sl_zone_title(&compare->scene->zones[s->zone]));
    const char *const under = sl_graph_say(graph, _("%s; test %.8s of %.10s; %s; swatches on a bench"),
                                           compare->test.title, compare->test.id, compare->test.made,
                                           compare->basis[s->zone] == SL_BASIS_COLOUR ? _("by the instrument")
                                                                                      : _("by wipe grades"));
    graph->under = sl_graph_say(graph, "%s\n%s", under, example);
    graph->note = sl_seen_key_words(s->curves);
    graph->says =
        first[0] != '\0' ? sl_graph_say(graph, "%s\n%s", first, floor) : sl_graph_say(graph, "%s", floor);
    graph->foot = _("What swatches did, beside a classroom model. Real heads differ from swatches. "
                    "Times for nobody's head.");
}

const sl_graph *sl_graph_of_seen(sl_arena *arena, const sl_seen_curves *curves, int zone, int chosen,
                                 sl_error *error)
{
    sl_graph *const graph = sl_graph_new(arena, error);
    if (graph == NULL) {
        return NULL;
    }
    seen s = {.graph = graph, .curves = curves, .compare = curves->compare, .zone = zone};
    const int longest_min = sl_seen_longest_min(curves, zone);
    s.n = sl_seen_order(curves, zone, s.order);
    graph->x =
        (sl_graph_axis){0.0, longest_min + fmax(2.0, 0.1 * longest_min), _("time since contact (min)")};
    graph->y = sl_graph_axis_up_to(highest(&s), _("colour left (% of the start)"));
    for (int i = 0; i < s.n; i++) {
        const int curve = add_curve(&s, i, s.order[i] == chosen), marks = add_means(&s, i);
        sl_graph_add_key(graph, (sl_graph_key){.curve = curve,
                                               .marks = marks,
                                               .name = name_of(&s, s.order[i]),
                                               .words = arm_words(&s, s.order[i])});
    }
    add_words(&s);
    return sl_graph_made(graph);
}
