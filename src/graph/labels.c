/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Where labels stand. Beside a mark: the nearest of eight sides, then further out with a leader. Of curves:
 * in the margin at the right, at the height where each ends, moved apart where they would meet. A label that
 * finds no room is left out; the key has it.
 */
#include "graph/field.h"

static const double BESIDE = 9.2, EDGE = 6.0, LEAD = 12.0, GAP = 2.0; /* units */
enum { SIDES = 8, RINGS = 9 };

bool sl_graph_place_free(const sl_graph_field *field, sl_graph_box place)
{
    const sl_graph_box in = field->box;
    if (place.x < in.x || place.y < in.y || place.x + place.w > in.x + in.w ||
        place.y + place.h > in.y + in.h) {
        return false;
    }
    for (int i = 0; i < field->n_taken; i++) {
        const sl_graph_box taken = field->taken[i];
        if (place.x < taken.x + taken.w && taken.x < place.x + place.w && place.y < taken.y + taken.h &&
            taken.y < place.y + place.h) {
            return false;
        }
    }
    return field->n_taken < SL_GRAPH_TAKEN_MOST;
}

void sl_graph_take(sl_graph_field *field, sl_graph_box place)
{
    if (field->n_taken < SL_GRAPH_TAKEN_MOST) {
        field->taken[field->n_taken++] = place;
    }
}

bool sl_graph_draw_plate(sl_graph_field *field, sl_graph_point middle, sl_graph_type type, const char *words)
{
    const sl_graph_pen *const pen = field->pen;
    const double gap = GAP * pen->unit;
    const sl_graph_point size = pen->kind->measure(pen->self, 0.0, type, words);
    const sl_graph_box plate = {middle.x - 0.5 * size.x - gap, middle.y - 0.5 * size.y, size.x + 2.0 * gap,
                                size.y};
    if (!sl_graph_place_free(field, plate)) {
        return false;
    }
    sl_graph_fill_box(pen, plate, SL_GRAPH_PLATE, SL_GRAPH_WHOLE);
    pen->kind->text(pen->self, (sl_graph_point){plate.x + gap, plate.y}, 0.0, type, SL_GRAPH_INK, words);
    sl_graph_take(field, plate);
    return true;
}

static void lead(const sl_graph_pen *pen, sl_graph_point from, sl_graph_point to)
{
    const sl_graph_point at[2] = {from, to};
    pen->kind->line(pen->self, at, 2, SL_GRAPH_GREY, 0.7 * pen->unit, SL_GRAPH_UNBROKEN);
}

/* Right and above first, where people look for it. */
static bool label_beside(sl_graph_field *field, sl_graph_point mark, const char *words)
{
    static const double sides[SIDES][2] = {{1.0, -1.0}, {-1.0, -1.0}, {1.0, 1.0},  {-1.0, 1.0},
                                           {1.0, 0.0},  {-1.0, 0.0},  {0.0, -1.0}, {0.0, 1.0}};
    const sl_graph_pen *const pen = field->pen;
    const sl_graph_point size = pen->kind->measure(pen->self, 0.0, SL_GRAPH_LABEL, words);
    for (int ring = 0; ring < RINGS; ring++) {
        const double out = BESIDE * (ring + 1.0) * pen->unit;
        for (int side = 0; side < SIDES; side++) {
            const double right = sides[side][0], down = sides[side][1];
            const sl_graph_point middle = {mark.x + right * (out + 0.5 * size.x),
                                           mark.y + down * (out + (right != 0.0 ? 0.0 : 0.5) * size.y)};
            if (sl_graph_draw_plate(field, middle, SL_GRAPH_LABEL, words)) {
                const sl_graph_point to = {middle.x - 0.5 * right * size.x,
                                           middle.y - (right != 0.0 ? 0.0 : 0.5 * down * size.y)};
                const double far = hypot(to.x - mark.x, to.y - mark.y), edge = EDGE * pen->unit / far;
                if (ring > 0) {
                    lead(pen,
                         (sl_graph_point){mark.x + edge * (to.x - mark.x), mark.y + edge * (to.y - mark.y)},
                         to);
                }
                return true;
            }
        }
    }
    return false;
}

void sl_graph_draw_mark_labels(sl_graph_field *field, const sl_graph_series *series)
{
    for (int i = 0; series->label != NULL && i < series->n; i++) {
        const sl_graph_point at = sl_graph_mark_at(field, series, i);
        if (sl_graph_holds(field, at)) {
            label_beside(field, at, series->label);
        }
    }
}

/* ---- where curves end -------------------------------------------------------------------------------- */

static bool ends_with_label(const sl_graph_series *series)
{
    return series->shape == SL_GRAPH_CURVE && series->label != NULL;
}

static const char *label_of(const sl_graph_series *series, bool brief)
{
    return brief && series->brief != NULL ? series->brief : series->label;
}

double sl_graph_labels_width(const sl_graph *graph, const sl_graph_pen *pen, double most, bool *brief)
{
    double wide = 0.0;
    for (*brief = false;; *brief = true) {
        wide = 0.0;
        for (int i = 0; i < graph->n_series; i++) {
            if (ends_with_label(&graph->series[i])) {
                const char *const words = label_of(&graph->series[i], *brief);
                wide = fmax(wide, pen->kind->measure(pen->self, 0.0, SL_GRAPH_LABEL, words).x);
            }
        }
        if (wide <= most || *brief) {
            return wide > 0.0 ? wide + (LEAD + GAP) * pen->unit : 0.0;
        }
    }
}

typedef struct ending {
    const sl_graph_series *series;
    sl_graph_point end;
    double y; /* of the label's middle */
} ending;

/* Sorted by height. */
static int endings_of(const sl_graph_field *field, ending all[SL_GRAPH_SERIES_MOST])
{
    int n = 0;
    for (int i = 0; i < field->graph->n_series; i++) {
        const sl_graph_series *const series = &field->graph->series[i];
        int last = series->n - 1;
        while (last > 0 && !sl_graph_holds(field, sl_graph_mark_at(field, series, last))) {
            last--;
        }
        const sl_graph_point end = sl_graph_mark_at(field, series, last);
        if (!ends_with_label(series) || !sl_graph_holds(field, end)) {
            continue;
        }
        int at = n++;
        for (; at > 0 && all[at - 1].end.y > end.y; at--) {
            all[at] = all[at - 1];
        }
        all[at] = (ending){series, end, end.y};
    }
    return n;
}

/* Down until none meets the one above, and up again where the lowest has left the field. */
static void move_apart(ending *all, int n, double high, double top, double bottom)
{
    double least = top + 0.5 * high, most = bottom - 0.5 * high;
    for (int i = 0; i < n; i++) {
        all[i].y = fmax(all[i].y, least);
        least = all[i].y + high;
    }
    for (int i = n - 1; i >= 0; i--) {
        all[i].y = fmin(all[i].y, most);
        most = all[i].y - high;
    }
}

void sl_graph_draw_ends(sl_graph_field *field, bool brief)
{
    const sl_graph_pen *const pen = field->pen;
    ending all[SL_GRAPH_SERIES_MOST];
    const double high = pen->kind->measure(pen->self, 0.0, SL_GRAPH_LABEL, "0").y;
    const double right = field->box.x + field->box.w + LEAD * pen->unit;
    const int room = (int)floor((field->box.h + high) / high), found = endings_of(field, all);
    const int n = found < room ? found : room;
    move_apart(all, n, high, field->box.y - 0.5 * high, field->box.y + field->box.h + 0.5 * high);
    for (int i = 0; i < n; i++) {
        lead(pen, all[i].end, (sl_graph_point){right - GAP * pen->unit, all[i].y});
        pen->kind->text(pen->self, (sl_graph_point){right, all[i].y - 0.5 * high}, 0.0, SL_GRAPH_LABEL,
                        SL_GRAPH_INK, label_of(all[i].series, brief));
    }
}
