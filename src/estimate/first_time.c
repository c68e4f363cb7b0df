/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * When things happen, found on the solution itself. Base moved and cystine lost never fall, and colour left
 * never rises where nothing reduces, so one bracket and bisection are enough; where dye may come back the
 * first bracket is looked for. The result is good to a tenth of a second.
 */
#include "slowlift/estimate.h"

#include <math.h>

static const double TIME_TOLERANCE_MIN = 1.0 / 600.0; /* a tenth of a second */
enum { SCANNED = 240 }; /* moments at which colour that may come back is looked at, the early ones closer */

double sl_cell_quantity(const sl_cell *cell, sl_quantity quantity)
{
    switch (quantity) {
    case SL_COLOUR_LEFT:
        return cell->colour_left;
    case SL_BASE_MOVED:
        return cell->base_moved;
    case SL_CYSTINE_LOST:
    default:
        return cell->cystine_lost;
    }
}

static double quantity_at(const sl_timeline *timeline, int arm, int zone, sl_quantity quantity,
                          double time_min)
{
    sl_cell cell;
    sl_timeline_at(timeline, arm, zone, time_min, NULL, &cell);
    return sl_cell_quantity(&cell, quantity);
}

static bool there(sl_quantity quantity, double value, double share)
{
    return quantity == SL_COLOUR_LEFT ? value <= share : value >= share;
}

/* The first stretch of time in which colour comes down to the share. */
static bool first_down(const sl_timeline *timeline, int arm, int zone, double share, double *low,
                       double *high)
{
    const double from = *low, span = *high - *low;
    for (int i = 1; i <= SCANNED; i++) {
        const double part = (double)i / SCANNED;
        const double at = i < SCANNED ? from + span * part * part : *high;
        if (quantity_at(timeline, arm, zone, SL_COLOUR_LEFT, at) <= share) {
            *high = at;
            return true;
        }
        *low = at;
    }
    return false;
}

bool sl_first_time(const sl_timeline *timeline, int arm, int zone, sl_quantity quantity, double share,
                   double *time_min)
{
    const sl_scene *const scene = sl_timeline_scene(timeline);
    double low = fmin(fmax(scene->arms[arm].contact_min, 0.0), scene->until_min);
    double high = scene->until_min;
    const double start = quantity_at(timeline, arm, zone, quantity, low);
    const bool no_dye = quantity == SL_COLOUR_LEFT && start < 0.0;
    const bool returns = quantity == SL_COLOUR_LEFT && sl_zone_returns(scene, &scene->arms[arm], zone);
    if (!sl_timeline_predicted(timeline, arm) || no_dye ||
        (!returns && !there(quantity, quantity_at(timeline, arm, zone, quantity, high), share))) {
        return false;
    }
    if (there(quantity, start, share)) {
        *time_min = low;
        return true;
    }
    if (returns && !first_down(timeline, arm, zone, share, &low, &high)) {
        return false;
    }
    while (high - low > TIME_TOLERANCE_MIN) {
        const double middle = 0.5 * (low + high);
        if (there(quantity, quantity_at(timeline, arm, zone, quantity, middle), share)) {
            high = middle;
        } else {
            low = middle;
        }
    }
    *time_min = high;
    return true;
}

int sl_reference_zone(const sl_scene *scene, int zone)
{
    int last = 0;
    for (int i = 0; i < scene->n_zones; i++) {
        if (scene->zones[i].recipe.n_dyes == 0) {
            if (scene->zones[i].hair == scene->zones[zone].hair) {
                return i;
            }
            last = i;
        }
    }
    return last;
}
