/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See graph.h: a graph is filled from its top; all that it points to lies in its arena.
 */
#include "graph/graph.h"

#include <assert.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

static const char doing[] = "drawing a chart";
enum { MOST_WORDS = 2000 };

sl_graph *sl_graph_new(sl_arena *arena, sl_error *error)
{
    sl_graph *const graph = sl_arena_new(arena, 1, sizeof *graph, doing, error);
    if (graph != NULL) {
        graph->arena = arena;
        graph->error = error;
    }
    return graph;
}

const sl_graph *sl_graph_made(const sl_graph *graph)
{
    return graph->failed ? NULL : graph;
}

const char *sl_graph_say(sl_graph *graph, const char *format, ...)
{
    char text[MOST_WORDS];
    va_list list;
    va_start(list, format);
    vsnprintf(text, sizeof text, format, list);
    va_end(list);
    const char *const kept =
        graph->failed ? NULL : sl_arena_text(graph->arena, text, strlen(text), graph->error);
    graph->failed = kept == NULL;
    return graph->failed ? "" : kept;
}

double *sl_graph_room(sl_graph *graph, size_t n)
{
    double *const room =
        graph->failed ? NULL : sl_arena_new(graph->arena, n, sizeof(double), doing, graph->error);
    graph->failed = room == NULL;
    return room;
}

sl_graph_series *sl_graph_add(sl_graph *graph, sl_graph_shape shape, int n, bool x_spread, bool y_spread)
{
    assert(graph->n_series < SL_GRAPH_SERIES_MOST && n > 0);
    const size_t each = (size_t)n;
    double *const room = sl_graph_room(graph, 6 * each);
    if (room == NULL) {
        return NULL;
    }
    sl_graph_series *const series = &graph->series[graph->n_series++];
    *series = (sl_graph_series){.shape = shape,
                                .n = n,
                                .x = room,
                                .y = room + each,
                                .x_low = x_spread ? room + 2 * each : NULL,
                                .x_high = x_spread ? room + 3 * each : NULL,
                                .y_low = y_spread ? room + 4 * each : NULL,
                                .y_high = y_spread ? room + 5 * each : NULL};
    return series;
}

void sl_graph_add_key(sl_graph *graph, sl_graph_key key)
{
    assert(graph->n_keys < SL_GRAPH_KEYS_MOST);
    graph->key[graph->n_keys++] = key;
}

double sl_graph_step(double span, int most)
{
    const double rough = span / most, power = pow(10.0, floor(log10(rough)));
    const double part = rough / power,
                 near = 1.0 + 1e-9; /* what rounding adds is no reason for a larger step */
    return power * (part <= near ? 1.0 : part <= 2.0 * near ? 2.0 : part <= 5.0 * near ? 5.0 : 10.0);
}

sl_graph_axis sl_graph_axis_up_to(double most, const char *name)
{
    const double step = sl_graph_step(most, 10);
    return (sl_graph_axis){0.0, step * ceil(most / step - 1e-9), name};
}
