/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See seen_curves.h.
 */
#include "log/compare/seen_curves.h"

#include <math.h>

#include "base/language.h"
#include "base/memory.h"
#include "log/compare/compare_page.h"
#include "log/compare/looks.h"

/* Hair that was rinsed at once: the model knows no application of no time. */
static const double LEAST_MIN = 1.0 / 60.0;

/* ---- curves ---------------------------------------------------------------------------------------- */

double sl_seen_curve_min(const sl_seen_curves *curves, int arm, int step)
{
    return (double)curves->until_min[arm] * step / SL_SEEN_STEPS;
}

static double *left_of(const sl_seen_curves *curves, int arm, int step)
{
    const int n_zones = curves->compare->scene->n_zones;
    return &curves->left[((size_t)arm * (SL_SEEN_STEPS + 1) + (size_t)step) * (size_t)n_zones];
}

double sl_seen_curve_left(const sl_seen_curves *curves, int arm, int step, int zone)
{
    return left_of(curves, arm, step)[zone];
}

static bool add_curve(sl_seen_curves *curves, int arm, sl_error *error)
{
    const sl_compare *const compare = curves->compare;
    bool good = true;
    for (int step = 0; good && step <= SL_SEEN_STEPS; step++) {
        const double minute = fmax(sl_seen_curve_min(curves, arm, step), LEAST_MIN);
        double left[SL_MAX_ZONES];
        good = sl_model_seen_at(compare, arm, minute, left, error);
        for (int zone = 0; good && zone < compare->scene->n_zones; zone++) {
            left_of(curves, arm, step)[zone] = left[zone];
        }
    }
    return good;
}

/* ---- points ---------------------------------------------------------------------------------------- */

static int minutes_of(const sl_compare *compare, int arm, int all[SL_COMPARE_MINUTES])
{
    int n = 0;
    for (int zone = 0; zone < compare->scene->n_zones; zone++) {
        int own[SL_COMPARE_MINUTES];
        const int n_own = sl_compare_minutes(compare, arm, zone, own, SL_COMPARE_MINUTES);
        for (int i = 0; i < n_own; i++) {
            n = sl_minutes_put(all, n, SL_COMPARE_MINUTES, own[i]);
        }
    }
    return n;
}

static bool add_points_at(sl_seen_curves *curves, int arm, int minute, size_t *room, sl_error *error)
{
    const sl_compare *const compare = curves->compare;
    double left[SL_MAX_ZONES];
    bool good = sl_model_seen_at(compare, arm, minute, left, error);
    for (int zone = 0; good && zone < compare->scene->n_zones; zone++) {
        const sl_seen_mean seen = sl_compare_at(compare, arm, zone, minute);
        if (seen.n > 0) {
            const size_t n = (size_t)curves->n_points;
            good = sl_grow(&curves->points, room, n + 1, sizeof *curves->points, "comparing", error);
            if (good) {
                curves->points[curves->n_points++] = (sl_seen_point){arm, zone, minute, seen, left[zone]};
            }
        }
    }
    return good;
}

static bool add_points(sl_seen_curves *curves, sl_error *error)
{
    size_t room = 0;
    bool good = true;
    for (int arm = 0; good && arm < curves->compare->scene->n_arms; arm++) {
        int minutes[SL_COMPARE_MINUTES];
        const int n = minutes_of(curves->compare, arm, minutes);
        for (int i = 0; good && i < n; i++) {
            good = add_points_at(curves, arm, minutes[i], &room, error);
        }
    }
    return good;
}

/* ---- the whole ------------------------------------------------------------------------------------- */

static int longest_dwell(const sl_compare *compare)
{
    int longest = 0;
    for (int arm = 0; arm < compare->scene->n_arms; arm++) {
        const int dwell = sl_compare_dwell_min(compare, arm);
        longest = dwell > longest ? dwell : longest;
    }
    return longest > 0 ? longest : 10;
}

sl_seen_curves *sl_seen_curves_make(const sl_compare *compare, sl_error *error)
{
    const size_t n_arms = (size_t)compare->scene->n_arms, n_zones = (size_t)compare->scene->n_zones;
    const int longest = longest_dwell(compare);
    sl_seen_curves *const curves = sl_new(1, sizeof *curves, "comparing", error);
    if (!curves) {
        return NULL;
    }
    curves->compare = compare;
    curves->left = sl_new(n_arms * (SL_SEEN_STEPS + 1) * n_zones, sizeof *curves->left, "comparing", error);
    bool good = curves->left != NULL;
    for (int arm = 0; good && arm < compare->scene->n_arms; arm++) {
        const int dwell = sl_compare_dwell_min(compare, arm);
        curves->until_min[arm] = dwell > 0 ? dwell : longest;
        good = add_curve(curves, arm, error);
    }
    if (!good || !add_points(curves, error)) {
        sl_seen_curves_free(curves);
        return NULL;
    }
    return curves;
}

void sl_seen_curves_free(sl_seen_curves *curves)
{
    if (curves) {
        sl_free(curves->left);
        sl_free(curves->points);
        sl_free(curves);
    }
}

/* ---- asked of it ----------------------------------------------------------------------------------- */

static bool has_points(const sl_seen_curves *curves, int arm, int zone)
{
    for (int i = 0; i < curves->n_points; i++) {
        if (curves->points[i].arm == arm && curves->points[i].zone == zone) {
            return true;
        }
    }
    return false;
}

int sl_seen_longest_min(const sl_seen_curves *curves, int zone)
{
    int order[SL_MAX_ARMS], longest = 0;
    const int n = sl_seen_order(curves, zone, order);
    for (int i = 0; i < n; i++) {
        longest = curves->until_min[order[i]] > longest ? curves->until_min[order[i]] : longest;
    }
    for (int i = 0; i < curves->n_points; i++) {
        const sl_seen_point *const point = &curves->points[i];
        longest = point->zone == zone && point->minute > longest ? point->minute : longest;
    }
    return longest > 0 ? longest : 10;
}

int sl_seen_order(const sl_seen_curves *curves, int zone, int order[SL_MAX_ARMS])
{
    const sl_compare *const compare = curves->compare;
    int n = sl_compare_order(compare, zone, order);
    for (int arm = 0; arm < compare->scene->n_arms; arm++) {
        if (sl_compare_arm(compare, arm, zone)->place == 0 && has_points(curves, arm, zone)) {
            order[n++] = arm;
        }
    }
    return n;
}

const char *sl_seen_key_words(const sl_seen_curves *curves)
{
    bool ladder = false;
    for (int arm = 0; arm < curves->compare->scene->n_arms; arm++) {
        ladder = ladder || sl_compare_ladder(curves->compare, arm);
    }
    return ladder
               ? _("Shapes: means over swatches of pieces that were rinsed and dried, set beside each other; "
                   "bars: 95 % interval of the mean, no bar where nothing was repeated. Lines: "
                   "the model, of hair that was rinsed after so long.")
               : _("Shapes: means over swatches, set beside each other; bars: 95 % interval of the mean, no "
                   "bar where nothing was repeated. Lines: the model, under the mix. The last "
                   "shape of a strip was seen washed and dry, and so is the number of the model beside it.");
}
