/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Values in turn, or how far each lies from the one before, between the limits of the first ten. What lies
 * outside is a filled diamond.
 */
#include <math.h>

#include "base/language.h"
#include "log/shelf/drift.h"

enum { STEPS = 6 };

static double value_at(const sl_drift_row *row, bool ranges, size_t i)
{
    return sl_drift_scale(row) * (ranges ? sl_drift_range(row, i) : row->point[i].value);
}

static bool is_outside(const sl_drift_row *row, bool ranges, size_t i)
{
    return ranges ? row->control.known && sl_drift_range(row, i) > row->control.range_high
                  : sl_individuals_outside(&row->control, row->point[i].value);
}

/* In whole steps around all values and limits. */
static sl_graph_axis axis_of(const sl_drift_row *row, bool ranges, const char *name)
{
    const sl_individuals *const control = &row->control;
    const double scale = sl_drift_scale(row);
    double least = value_at(row, false, 0), most = least;
    if (ranges) {
        least = most = 0.0;
    }
    for (size_t i = ranges ? 1 : 0; i < row->n; i++) {
        least = fmin(least, value_at(row, ranges, i));
        most = fmax(most, value_at(row, ranges, i));
    }
    if (control->known) {
        least = ranges                      ? least
                : row->kind == SL_DRIFT_TUB ? fmin(least, fmax(scale * control->low, 0.0))
                                            : fmin(least, scale * control->low);
        most = fmax(most, scale * (ranges ? control->range_high : control->high));
    }
    const double step = sl_graph_step(fmax(most - least, 0.1 * scale), STEPS);
    const double from = step * floor(least / step), to = step * ceil(most / step);
    return (sl_graph_axis){from, to > from ? to : from + step, name};
}

static void add_line(sl_graph *graph, double level, sl_graph_dash dash, const char *label)
{
    sl_graph_series *const line = sl_graph_add(graph, SL_GRAPH_CURVE, 2, false, false);
    if (line != NULL) {
        line->x[0] = graph->x.from;
        line->x[1] = graph->x.to;
        line->y[0] = line->y[1] = level;
        line->dash = dash;
        line->label = label;
    }
}

/* outside: those alone, or those within. */
static void add_marks(sl_graph *graph, const sl_drift_row *row, bool ranges, bool outside)
{
    const size_t begin = ranges ? 1 : 0;
    int n = 0;
    for (size_t i = begin; i < row->n; i++) {
        n += is_outside(row, ranges, i) == outside ? 1 : 0;
    }
    sl_graph_series *const marks =
        n > 0 ? sl_graph_add(graph, outside ? SL_GRAPH_DIAMOND : SL_GRAPH_RING, n, false, false) : NULL;
    n = 0;
    for (size_t i = begin; marks != NULL && i < row->n; i++) {
        if (is_outside(row, ranges, i) == outside) {
            marks->x[n] = (double)i + 1.0;
            marks->y[n++] = value_at(row, ranges, i);
        }
    }
    if (marks != NULL) {
        marks->strong = outside;
    }
}

static const char *title_of(sl_graph *graph, const sl_drift_row *row, bool ranges)
{
    switch (row->kind) {
    case SL_DRIFT_TUB:
        return sl_graph_say(graph,
                            ranges ? _("Powder lot %s: from one check swatch to the next")
                                   : _("Powder lot %s: check swatches"),
                            row->code);
    case SL_DRIFT_JUDGE:
        return sl_graph_say(
            graph, ranges ? _("%s: from one repeated look to the next") : _("%s: repeated looks"), row->code);
    case SL_DRIFT_OFFSET:
        break;
    }
    return sl_graph_say(graph, ranges ? _("%s: from one test to the next") : _("%s: beside the others"),
                        row->code);
}

const sl_graph *sl_graph_of_drift(sl_arena *arena, const sl_drift_row *row, bool ranges, sl_error *error)
{
    sl_graph *const graph = sl_graph_new(arena, error);
    const bool tub = row->kind == SL_DRIFT_TUB, offset = row->kind == SL_DRIFT_OFFSET;
    const sl_individuals *const control = &row->control;
    const double scale = sl_drift_scale(row);
    if (graph == NULL) {
        return NULL;
    }
    graph->title = title_of(graph, row, ranges);
    graph->x = (sl_graph_axis){0.0, (double)row->n + 1.0,
                               tub      ? _("check swatch")
                               : offset ? _("test")
                                        : _("repeated look")};
    graph->y = axis_of(
        row, ranges,
        offset   ? (ranges ? _("change (steps of the grades)") : _("beside the others (steps of the grades)"))
        : ranges ? _("change (points of %)")
        : tub    ? _("colour left (%)")
                 : _("against the first look (points of %)"));
    if (control->known) {
        add_line(graph, scale * (ranges ? control->range : control->centre), SL_GRAPH_UNBROKEN, _("mean"));
        add_line(graph, scale * (ranges ? control->range_high : control->high), SL_GRAPH_LONG, _("limit"));
    }
    if (control->known && !ranges && (!tub || control->low > 0.0)) { /* no share is below nothing */
        add_line(graph, scale * control->low, SL_GRAPH_LONG, _("limit"));
    }
    add_marks(graph, row, ranges, false);
    add_marks(graph, row, ranges, true);
    return sl_graph_made(graph);
}
