/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Colour left against hair stress at the same minute: a mark for each arm with bars from P10 to P90, with the
 * arm's number in the scene. Those that no other beats are filled squares, joined by a line.
 */
#include <math.h>

#include "base/append.h"
#include "base/language.h"
#include "document/text.h"
#include "report/rank/rank.h"
#include "slowlift/report.h"

typedef struct stand {
    const sl_rank_page *page;
    int zone, n, order[SL_MAX_ARMS]; /* by the colour left */
    bool unbeaten[SL_MAX_ARMS];      /* [arm] */
} stand;

static sl_middle middle_of(const stand *s, int arm, sl_standing_of what)
{
    return sl_rank_middle(s->page->rank, arm, s->zone, what);
}

static void add_arm(sl_graph *graph, const stand *s, int arm)
{
    const sl_middle left = middle_of(s, arm, SL_LEFT_THEN), stress = middle_of(s, arm, SL_STRESS_THEN);
    sl_graph_series *const series =
        sl_graph_add(graph, s->unbeaten[arm] ? SL_GRAPH_SQUARE : SL_GRAPH_RING, 1, true, true);
    if (series == NULL) {
        return;
    }
    *series->x = 100.0 * stress.p50;
    *series->x_low = 100.0 * stress.p10;
    *series->x_high = 100.0 * stress.p90;
    *series->y = 100.0 * left.p50;
    *series->y_low = 100.0 * left.p10;
    *series->y_high = 100.0 * left.p90;
    series->strong = s->unbeaten[arm];
    series->label = sl_graph_say(graph, "%d", arm + 1);
    char place[24], left_words[48], stress_words[48];
    sl_rank_place_words(s->page->rank, arm, s->zone, SL_LEFT_THEN, place, sizeof place);
    sl_rank_middle_words(left, left_words, sizeof left_words);
    sl_rank_middle_words(stress, stress_words, sizeof stress_words);
    sl_graph_add_key(
        graph,
        (sl_graph_key){.curve = -1,
                       .marks = graph->n_series - 1,
                       .name = sl_graph_say(graph, "%d  %s", arm + 1,
                                            sl_arm_title(&sl_timeline_scene(s->page->timeline)->arms[arm])),
                       .words = sl_graph_say(graph, _("place %s; left %s; stress %s"), place, left_words,
                                             stress_words)});
}

/* Through the unbeaten, from the least stress on. */
static void add_front(sl_graph *graph, const stand *s)
{
    int n = 0;
    for (int i = 0; i < s->n; i++) {
        n += s->unbeaten[s->order[i]];
    }
    sl_graph_series *const series = n > 1 ? sl_graph_add(graph, SL_GRAPH_CURVE, n, false, false) : NULL;
    if (series == NULL) {
        return;
    }
    series->dash = SL_GRAPH_LONG;
    n = 0;
    for (int i = 0; i < s->n; i++) {
        const int arm = s->order[i];
        const double stress = 100.0 * middle_of(s, arm, SL_STRESS_THEN).p50;
        int at = n;
        if (!s->unbeaten[arm]) {
            continue;
        }
        for (; at > 0 && stress < series->x[at - 1]; at--) {
            series->x[at] = series->x[at - 1];
            series->y[at] = series->y[at - 1];
        }
        series->x[at] = stress;
        series->y[at] = 100.0 * middle_of(s, arm, SL_LEFT_THEN).p50;
        n++;
    }
}

static double highest(const stand *s, sl_standing_of what)
{
    double most = 0.01;
    for (int i = 0; i < s->n; i++) {
        most = fmax(most, middle_of(s, s->order[i], what).p90);
    }
    return 100.0 * most;
}

static void add_words(sl_graph *graph, const stand *s)
{
    const sl_scene *const scene = sl_timeline_scene(s->page->timeline);
    const sl_rank *const rank = s->page->rank;
    char example[320], why[640], foot[640] = "", minute[24];
    sl_clock_time(SL_MINUTE_PLANNED, rank->request.minute, minute, sizeof minute);
    sl_example_note(scene, example, sizeof example);
    sl_rank_reason_words(s->page, s->zone, why, sizeof why);
    graph->title = sl_graph_say(graph, _("\"%s\": colour left against hair stress"),
                                sl_zone_title(&scene->zones[s->zone]));
    const char *const under = sl_graph_say(
        graph,
        _("%s; every strip rinsed %s min after its contact (as asked), washed and dry; swatches on a bench"),
        sl_scene_title(scene), minute);
    graph->under = sl_graph_say(graph, "%s\n%s", under, example);
    graph->note = _("Filled squares, joined: they take out at least half of what the best does, and no other "
                    "strip has as little left and as little stress (middle values). Rings: the others. Bars: "
                    "where eight of ten model runs lie. Further left and further down is better.");
    graph->says = sl_graph_say(graph, "%s", why);
    if (rank->stopped) {
        snprintf(foot, sizeof foot, _("PARTIAL: stopped after %ld of %ld model runs."), rank->members,
                 rank->request.members);
    }
    sl_append_item(
        foot, sizeof foot, "  ",
        _("Classroom example: %ld runs of a model, its numbers drawn as widely as their grades are "
          "weak. Real "
          "swatches scatter in ways of their own. Times for nobody's head."),
        rank->members);
    graph->foot = sl_graph_say(graph, "%s", foot);
}

const sl_graph *sl_graph_of_rank(sl_arena *arena, const sl_rank_page *page, int zone, sl_error *error)
{
    stand s = {.page = page, .zone = zone};
    sl_graph *const graph = sl_graph_new(arena, error);
    if (graph == NULL) {
        return NULL;
    }
    s.n = sl_rank_order(page->rank, zone, SL_LEFT_THEN, s.order);
    sl_rank_unbeaten(page->rank, zone, s.unbeaten);
    graph->x = sl_graph_axis_up_to(highest(&s, SL_STRESS_THEN), _("hair stress (%)"));
    graph->y = sl_graph_axis_up_to(highest(&s, SL_LEFT_THEN), _("colour left (% of the start)"));
    for (int i = 0; i < s.n; i++) {
        add_arm(graph, &s, s.order[i]);
    }
    add_front(graph, &s);
    add_words(graph, &s);
    return sl_graph_made(graph);
}
