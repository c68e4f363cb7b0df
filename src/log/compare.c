/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Means over swatches, their intervals and places. Student's t (Student 1908, Biometrika 6, 1-25)
 * by sl_half_width. See compare.h.
 */
#include "slowlift/compare.h"

#include <math.h>
#include <string.h>

#include "base/memory.h"
#include "log/looks.h"
#include "slowlift/odds.h"

sl_seen_mean sl_seen_mean_of(const double *value, int n)
{
    sl_seen_mean mean = {.n = n, .mean = SL_NOT_READ, .sd = -1.0, .half = -1.0};
    double sum = 0.0, squares = 0.0;
    for (int i = 0; i < n; i++) {
        sum += value[i];
    }
    for (int i = 0; i < n; i++) {
        squares += (value[i] - sum / n) * (value[i] - sum / n);
    }
    if (n > 0) {
        mean.mean = sum / n;
    }
    if (n > 1) {
        mean.sd = sqrt(squares / (n - 1));
        mean.half = sl_half_width(mean.sd, n, 0.95);
    }
    return mean;
}

const sl_seen_arm *sl_compare_arm(const sl_compare *compare, int arm, int zone)
{
    return &compare->arms[arm * compare->scene->n_zones + zone];
}

bool sl_compare_shows(const sl_compare *compare, int zone)
{
    for (int a = 0; a < compare->scene->n_arms; a++) {
        if (sl_compare_arm(compare, a, zone)->place > 0) {
            return true;
        }
    }
    return false;
}

/* ---- means ------------------------------------------------------------------------------------------------
 */

/* One value for each swatch of an arm. */
typedef struct sl_values {
    double seen[SL_BENCH_MOST], planned[SL_BENCH_MOST], later[SL_BENCH_MOST];
    int n, n_later;
} sl_values;

/* The last look after hours, when there are several. */
static const sl_seen_group *last_later(const sl_compare *compare, int swatch, int zone)
{
    const sl_seen_group *last = NULL;
    for (int i = sl_looks_first(compare, swatch, zone); i < compare->n_groups; i++) {
        const sl_seen_group *const group = &compare->groups[i];
        if (group->swatch != swatch || group->zone != zone) {
            break;
        }
        last = group->hours > 0.0 ? group : last;
    }
    return last;
}

static void gather(const sl_compare *compare, int arm, int zone, sl_basis basis, sl_values *values)
{
    values->n = values->n_later = 0;
    for (int i = 0; i < compare->n_swatches; i++) {
        const sl_seen_group *const end =
            compare->bench[i].arm == arm ? sl_looks_find(compare, i, zone, SL_NOT_READ, SL_NOT_READ) : NULL;
        if (!end || end->left[basis] <= SL_NOT_READ) {
            continue;
        }
        const sl_seen_group *const later = last_later(compare, i, zone);
        values->seen[values->n] = end->left[basis];
        values->planned[values->n++] = end->left[basis] * compare->bench[i].to_planned[zone];
        if (later && later->left[basis] > SL_NOT_READ) {
            values->later[values->n_later++] = later->left[basis] - end->left[basis];
        }
    }
}

static void means_of(sl_compare *compare, int arm, int zone, sl_values *values)
{
    sl_seen_arm *const at = &compare->arms[arm * compare->scene->n_zones + zone];
    for (int basis = 0; basis < SL_BASES; basis++) {
        gather(compare, arm, zone, (sl_basis)basis, values);
        at->seen[basis] = sl_seen_mean_of(values->seen, values->n);
        at->at_planned[basis] = sl_seen_mean_of(values->planned, values->n);
    }
    gather(compare, arm, zone, compare->basis[zone], values);
    at->later = sl_seen_mean_of(values->later, values->n_later);
}

/* By the instrument only where it read every swatch that was graded, so that no arm is judged by
 * another measure than the next. */
static sl_basis basis_of(const sl_compare *compare, int zone)
{
    int by_colour = 0, by_grade_alone = 0;
    for (int i = 0; i < compare->n_groups; i++) {
        const sl_seen_group *const group = &compare->groups[i];
        if (group->zone == zone && group->minute <= SL_NOT_READ && group->hours <= SL_NOT_READ) {
            const bool colour = group->left[SL_BASIS_COLOUR] > SL_NOT_READ;
            by_colour += colour ? 1 : 0;
            by_grade_alone += !colour && group->left[SL_BASIS_GRADE] > SL_NOT_READ ? 1 : 0;
        }
    }
    return by_colour > 0 && by_grade_alone == 0 ? SL_BASIS_COLOUR : SL_BASIS_GRADE;
}

static double end_of(const sl_arm *arm)
{
    double minute = arm->contact_min;
    for (int i = 0; i < arm->n_steps; i++) {
        const sl_step *const step = &arm->steps[i];
        minute += step->kind == SL_STEP_SHAMPOO ? step->shampoos : step->duration_min;
    }
    return minute;
}

static double predicted(const sl_compare *compare, int arm, int zone)
{
    sl_cell cell;
    if (!sl_timeline_predicted(compare->timeline, arm)) {
        return SL_NOT_READ;
    }
    sl_timeline_at(compare->timeline, arm, zone, end_of(&compare->scene->arms[arm]), NULL, &cell);
    return cell.colour_left >= 0.0 ? cell.colour_left : SL_NOT_READ;
}

/* ---- places
 * ------------------------------------------------------------------------------------------------- */

/* For lack of repeats: a step of the scale of grades at this share, or a colour difference that a
 * hair's being laid anew makes by itself. */
static const double STILL_NOISE_DE = 2.0; /* dE*ab (assumed; docs/science.md) */

static double grade_step(double left)
{
    for (int i = SL_WIPES - 1; i > 0; i--) {
        const double low = sl_wipe_share((sl_wipe)i), high = sl_wipe_share((sl_wipe)(i - 1));
        if (left < high) {
            return high - low;
        }
    }
    return sl_wipe_share((sl_wipe)0) - sl_wipe_share((sl_wipe)1);
}

static double colour_noise(const sl_compare *compare, int zone)
{
    double sum = 0.0;
    int n = 0;
    for (int i = 0; i < compare->n_groups; i++) {
        const sl_seen_group *const group = &compare->groups[i];
        if (group->zone == zone && group->left[SL_BASIS_COLOUR] > SL_NOT_READ) {
            sum += group->start;
            n++;
        }
    }
    return n > 0 ? STILL_NOISE_DE * n / sum : 0.0;
}

double sl_compare_floor(const sl_compare *compare, int zone, double left)
{
    if (compare->asked_floor >= 0.0) {
        return compare->asked_floor;
    }
    if (compare->basis[zone] == SL_BASIS_COLOUR) {
        return colour_noise(compare, zone);
    }
    /* Repeatability limit, ISO 5725-6: 95 of 100 differences of two looks are smaller. Grades that
     * never differed say that the judge is steady, not that the scale has no steps. */
    return compare->repeat_sd > 0.0 ? 2.8 * compare->repeat_sd : grade_step(left);
}

static bool clearly_less(const sl_compare *compare, int zone, const sl_seen_mean *one,
                         const sl_seen_mean *other)
{
    return one->n > 1 && other->n > 1 &&
           other->mean - one->mean > sl_compare_floor(compare, zone, one->mean) &&
           one->mean + one->half < other->mean - other->half;
}

static int place_of(const sl_compare *compare, int arm, int zone, bool planned)
{
    const sl_basis basis = compare->basis[zone];
    const sl_seen_arm *const at = sl_compare_arm(compare, arm, zone);
    const sl_seen_mean *const own = planned ? &at->at_planned[basis] : &at->seen[basis];
    int place = own->n > 0 ? 1 : 0;
    for (int other = 0; own->n > 0 && other < compare->scene->n_arms; other++) {
        const sl_seen_arm *const beside = sl_compare_arm(compare, other, zone);
        const sl_seen_mean *const mean = planned ? &beside->at_planned[basis] : &beside->seen[basis];
        place += other != arm && clearly_less(compare, zone, mean, own) ? 1 : 0;
    }
    return place;
}

static void pool(sl_compare *compare)
{
    double squares = 0.0;
    int freedom = 0;
    for (int i = 0; i < compare->scene->n_arms * compare->scene->n_zones; i++) {
        const sl_seen_mean *const seen = &compare->arms[i].seen[compare->basis[i % compare->scene->n_zones]];
        if (seen->n > 1) {
            squares += seen->sd * seen->sd * (seen->n - 1);
            freedom += seen->n - 1;
        }
    }
    compare->pooled_sd = freedom > 0 ? sqrt(squares / freedom) : -1.0;
}

static bool count(sl_compare *compare, sl_error *error)
{
    const int n_zones = compare->scene->n_zones, n_arms = compare->scene->n_arms;
    sl_values *const values = sl_new(1, sizeof *values, "comparing", error);
    for (int z = 0; values && z < n_zones; z++) {
        compare->basis[z] = basis_of(compare, z);
        for (int a = 0; a < n_arms; a++) {
            if (!compare->scene->arms[a].undyed && compare->scene->zones[z].recipe.n_dyes > 0) {
                means_of(compare, a, z, values);
                compare->arms[a * n_zones + z].predicted = predicted(compare, a, z);
            }
        }
        for (int a = 0; a < n_arms; a++) {
            compare->arms[a * n_zones + z].place = place_of(compare, a, z, false);
            compare->arms[a * n_zones + z].place_at_planned = place_of(compare, a, z, true);
        }
    }
    if (values) {
        pool(compare);
    }
    sl_free(values);
    return values != NULL;
}

/* ---- looks on the way ------------------------------------------------------------------------ */

/* A look at the arm, on the zone's basis, before it was washed. */
static bool on_the_way(const sl_compare *compare, const sl_seen_group *group, int arm, int zone)
{
    return group->zone == zone && compare->bench[group->swatch].arm == arm && group->hours <= SL_NOT_READ &&
           lround(group->minute) >= 1 && group->left[compare->basis[zone]] > SL_NOT_READ;
}

int sl_compare_minutes(const sl_compare *compare, int arm, int zone, int *minutes, int most)
{
    int n = 0;
    for (int i = 0; i < compare->n_groups; i++) {
        if (!on_the_way(compare, &compare->groups[i], arm, zone)) {
            continue;
        }
        const int minute = (int)lround(compare->groups[i].minute);
        int at = n;
        while (at > 0 && minutes[at - 1] >= minute) {
            at--;
        }
        if (at == most || (at < n && minutes[at] == minute)) {
            continue;
        }
        n += n < most ? 1 : 0;
        memmove(minutes + at + 1, minutes + at, (size_t)(n - 1 - at) * sizeof *minutes);
        minutes[at] = minute;
    }
    return n;
}

sl_seen_mean sl_compare_at(const sl_compare *compare, int arm, int zone, int minute)
{
    double value[SL_BENCH_MOST], before = -1.0;
    int n = 0, same = 0, swatch = -1;
    for (int i = 0; i < compare->n_groups; i++) {
        const sl_seen_group *const group = &compare->groups[i];
        const double left = group->left[compare->basis[zone]];
        if (!on_the_way(compare, group, arm, zone) || lround(group->minute) != minute) {
            continue;
        }
        /* Two moments within one minute are looks at one swatch. */
        same = group->swatch == swatch ? same + 1 : 1;
        before = same > 1 ? before + (left - before) / same : left;
        n += same == 1 ? 1 : 0;
        value[n - 1] = before;
        swatch = group->swatch;
    }
    return sl_seen_mean_of(value, n);
}

double sl_compare_model_at(const sl_compare *compare, int arm, int zone, double minute)
{
    sl_cell cell;
    sl_timeline_at(compare->timeline, arm, zone, compare->scene->arms[arm].contact_min + minute, NULL, &cell);
    return cell.colour_left;
}

int sl_compare_dwell_min(const sl_compare *compare, int arm)
{
    for (int i = 0; i < compare->n_swatches; i++) {
        if (compare->bench[i].arm == arm) {
            return (compare->swatches[i].bench.dwell_s + 30) / 60;
        }
    }
    return 0;
}

int sl_compare_longest_min(const sl_compare *compare, int zone)
{
    int longest = 0;
    for (int arm = 0; arm < compare->scene->n_arms; arm++) {
        int minutes[SL_COMPARE_MINUTES];
        const int n = sl_compare_minutes(compare, arm, zone, minutes, SL_COMPARE_MINUTES);
        const int dwell =
            sl_compare_arm(compare, arm, zone)->place > 0 ? sl_compare_dwell_min(compare, arm) : 0;
        const int looked = n > 0 ? minutes[n - 1] : 0;
        longest = dwell > longest ? dwell : longest;
        longest = looked > longest ? looked : longest;
    }
    return longest > 0 ? longest : 10;
}

/* ---- made and freed
 * ----------------------------------------------------------------------------------------- */

static int arm_named(const sl_scene *scene, const char *name)
{
    for (int a = 0; a < scene->n_arms; a++) {
        if (strcmp(scene->arms[a].name, name) == 0) {
            return a;
        }
    }
    return -1;
}

static bool prepare(sl_compare *compare, sl_log *log, sl_error *error)
{
    compare->scene = sl_log_scene(log, compare->test.id, error);
    if (!compare->scene ||
        !sl_log_swatches(log, compare->test.id, &compare->swatches, &compare->n_swatches, error)) {
        return false;
    }
    const size_t cells = (size_t)compare->scene->n_arms * (size_t)compare->scene->n_zones;
    compare->bench = sl_new((size_t)compare->n_swatches + 1, sizeof *compare->bench, "comparing", error);
    compare->arms = sl_new(cells, sizeof *compare->arms, "comparing", error);
    if (!compare->bench || !compare->arms) {
        return false;
    }
    const sl_seen_mean none = sl_seen_mean_of(NULL, 0);
    for (size_t i = 0; i < cells; i++) {
        compare->arms[i] = (sl_seen_arm){
            .seen = {none, none}, .at_planned = {none, none}, .later = none, .predicted = SL_NOT_READ};
    }
    for (int i = 0; i < compare->n_swatches; i++) {
        compare->bench[i].arm = arm_named(compare->scene, compare->swatches[i].arm);
        for (int z = 0; z < SL_MAX_ZONES; z++) {
            compare->bench[i].to_planned[z] = 1.0;
        }
    }
    return true;
}

bool sl_compare_read(sl_compare **compare, sl_log *log, const sl_log_test *test, double noise_floor,
                     sl_error *error)
{
    sl_compare *const made = sl_new(1, sizeof *made, "comparing", error);
    if (!made) {
        return false;
    }
    made->test = *test;
    made->asked_floor = noise_floor;
    if (!sl_log_noted(log, test->id, "rehearsal", &made->rehearsal, error) || !prepare(made, log, error) ||
        !sl_handling_read(made, log, error) || !sl_looks_read(made, log, error) || !count(made, error)) {
        sl_compare_free(made);
        return false;
    }
    *compare = made;
    return true;
}

void sl_compare_free(sl_compare *compare)
{
    if (!compare) {
        return;
    }
    sl_timeline_free(compare->timeline);
    sl_scene_free(compare->scene);
    sl_free(compare->swatches);
    sl_free(compare->bench);
    sl_free(compare->groups);
    sl_free(compare->deviations);
    sl_free(compare->arms);
    sl_free(compare);
}
