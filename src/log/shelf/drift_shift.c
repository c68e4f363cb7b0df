/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Whether a judge grades otherwise than in the first ten tests. Offsets of judges are told beside each other
 * alone: when one moves, the others seem to move the other way, by less the more they are.
 */
#include <math.h>
#include <string.h>

#include "log/shelf/drift.h"

/* Of one judge over the tests that these points of another are of; false: was in none of them. */
static bool mean_in(const sl_drift_row *row, const sl_drift_point *test, size_t n, double *mean)
{
    double sum = 0.0;
    int found = 0;
    for (size_t i = 0; i < row->n; i++) {
        for (size_t k = 0; k < n; k++) {
            if (strcmp(row->point[i].test, test[k].test) == 0) {
                sum += row->point[i].value;
                found++;
            }
        }
    }
    *mean = found > 0 ? sum / found : 0.0;
    return found > 0;
}

/* The first point of what lies outside and was never left since; row->n: none. */
static size_t since_when(const sl_drift_row *row)
{
    const double last = row->point[row->n - 1].value - row->control.centre;
    size_t since = row->n;
    for (size_t i = row->n; i-- > SL_INDIVIDUALS_FIRST;) {
        const double value = row->point[i].value;
        if ((value - row->control.centre) * last <= 0.0) {
            break;
        }
        since = sl_individuals_outside(&row->control, value) ? i : since;
    }
    return since;
}

sl_drift_shift sl_drift_shift_of(const sl_drift *drift, const sl_drift_row *row)
{
    enum { LEAST = 2 };                  /* tests */
    static const double ROUNDING = 1e-9; /* one of two moves as far as the other */
    sl_drift_shift shift = {.kind = SL_SHIFT_NONE};
    if (row->kind != SL_DRIFT_OFFSET || !row->control.known || row->unlike) {
        return shift;
    }
    shift.since = since_when(row);
    const size_t n = row->n - shift.since;
    if (n < LEAST) {
        return shift;
    }
    mean_in(row, &row->point[shift.since], n, &shift.steps);
    shift.steps -= row->control.centre;
    shift.kind = row->point[0].others > 1 ? SL_SHIFT_OWN : SL_SHIFT_OF_TWO;
    double furthest = fabs(shift.steps) + ROUNDING;
    for (size_t i = 0; i < drift->n; i++) {
        const sl_drift_row *const other = &drift->row[i];
        double before = 0.0, after = 0.0;
        if (other->kind == SL_DRIFT_OFFSET && mean_in(other, row->point, SL_INDIVIDUALS_FIRST, &before) &&
            mean_in(other, &row->point[shift.since], n, &after) && fabs(after - before) > furthest) {
            furthest = fabs(after - before);
            shift.kind = SL_SHIFT_FOLLOWS;
            shift.whose = other;
        }
    }
    return shift;
}
