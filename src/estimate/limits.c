/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Limits of one arm from the central values; see limits.h.
 */
#include "slowlift/limits.h"
#include "base/language.h"
#include "slowlift/leave.h"

#include <assert.h>
#include <math.h>

static const double TIME_TOLERANCE_MIN = 1.0 / 600.0;

const char *sl_stop_word(sl_stop stop)
{
    static const char *const words[SL_STOPS + 1] = {
        [SL_STOP_BASE] = N_("base moved"),        [SL_STOP_STRESS] = N_("hair stress"),
        [SL_STOP_CHAIR] = N_("the longest time"), [SL_STOP_END] = N_("end of the scene"),
        [SL_STOP_LABEL] = N_("the label's time"), [SL_STOP_STRAND] = N_("how long the strand was watched")};
    assert(stop <= SL_STOP_STRAND);
    return words[stop];
}

/* ---- the goal --------------------------------------------------------------------------- */
/* Goal and stops are read of hair rinsed at each moment (sl_timeline_rinsed). */

/* When the last of the zones with a goal is at it; or which of those that never are holds most. */
static void find_early(sl_limits *limits, const sl_timeline *timeline, int arm)
{
    const sl_scene *const scene = sl_timeline_scene(timeline);
    const double contact = scene->arms[arm].contact_min;
    double worst_left = -1.0;
    int never = -1;
    limits->early_zone = -1;
    for (int zone = 0; zone < scene->n_zones; zone++) {
        double time_min = 0.0;
        if (!sl_zone_goal(scene, zone).wanted) {
            continue;
        }
        if (!sl_goal_time(timeline, arm, zone, &time_min)) {
            const double left = sl_left_at(timeline, arm, zone, scene->until_min);
            never = left > worst_left ? zone : never;
            worst_left = fmax(left, worst_left);
        } else if (limits->early_zone < 0 || time_min - contact > limits->early_min) {
            limits->early_min = time_min - contact;
            limits->early_zone = zone;
        }
    }
    limits->early_reached = never < 0 && limits->early_zone >= 0;
    limits->early_zone = never >= 0 ? never : limits->early_zone;
    limits->early_min = limits->early_reached ? limits->early_min : 0.0;
}

/* ---- the stops -------------------------------------------------------------------------- */

static void stop_at(sl_limits *limits, sl_stop stop, double minute, int zone)
{
    if (!limits->stop_reached[stop] || minute < limits->stop_min[stop]) {
        limits->stop_reached[stop] = true;
        limits->stop_min[stop] = minute;
        limits->stop_zone[stop] = zone;
    }
}

static bool comes_to(const sl_timeline *timeline, int arm, int zone, sl_quantity quantity, sl_bound bound,
                     double *minute)
{
    return bound.set && sl_first_time(timeline, arm, zone, quantity, sl_bound_reached_at(bound), minute);
}

static void find_stops(sl_limits *limits, const sl_timeline *timeline, sl_bound stress, int arm)
{
    const sl_scene *const scene = sl_timeline_scene(timeline);
    const double contact = scene->arms[arm].contact_min;
    const sl_aims *const aims = &scene->aims;
    double minute = 0.0;
    for (int zone = 0; zone < scene->n_zones; zone++) {
        if (!sl_zone_direct(scene, zone)) {
            continue;
        }
        const int undyed = sl_reference_zone(scene, zone);
        if (comes_to(timeline, arm, undyed, SL_BASE_MOVED, aims->base_moved, &minute)) {
            stop_at(limits, SL_STOP_BASE, minute - contact, undyed);
        }
        if (comes_to(timeline, arm, undyed, SL_CYSTINE_LOST, stress, &minute)) {
            stop_at(limits, SL_STOP_STRESS, minute - contact, undyed);
        }
    }
    stop_at(limits, SL_STOP_END, fmax(scene->until_min - contact, 0.0), -1);
    if (aims->longest_min.set && aims->longest_min.most <= limits->stop_min[SL_STOP_END]) {
        stop_at(limits, SL_STOP_CHAIR, aims->longest_min.most, -1);
    }
    if (sl_label_stop(scene, arm, &minute) && minute <= limits->stop_min[SL_STOP_END]) {
        stop_at(limits, SL_STOP_LABEL, minute, -1);
    }
    limits->stop = SL_STOP_END;
    for (int s = 0; s < SL_STOPS; s++) {
        const bool sooner = limits->stop_reached[s] && limits->stop_min[s] <= limits->stop_min[limits->stop];
        limits->stop = sooner && s != SL_STOP_END ? (sl_stop)s : limits->stop;
    }
}

/* ---- waiting buys nothing ---------------------------------------------------------------- */

/* How fast the colour's exponent grows, per minute, over a tenth of a minute. */
static double pace(const sl_timeline *timeline, int arm, int zone, double clock_min)
{
    const double after = 0.1;
    const double now = sl_left_at(timeline, arm, zone, clock_min);
    const double then = sl_left_at(timeline, arm, zone, clock_min + after);
    return now > 0.0 && then > 0.0 ? log(now / then) / after : 0.0;
}

/* After its peak the pace falls: the first moment at which it is below its share. */
static void find_spent(sl_limits *limits, const sl_timeline *timeline, int arm, double start, double end)
{
    enum { SCANNED = 240 };
    const int zone = limits->early_zone;
    const double step = (end - 0.2 - start) / SCANNED;
    double peak = 0.0;
    double low = start;
    for (int i = 0; i < SCANNED && step > 0.0; i++) {
        const double here = pace(timeline, arm, zone, start + i * step);
        low = here > peak ? start + i * step : low;
        peak = fmax(peak, here);
    }
    const double least = SL_SPENT_PACE * peak;
    double high = end - 0.2;
    limits->spent = step > 0.0 && peak > 0.0 && pace(timeline, arm, zone, high) < least;
    while (limits->spent && high - low > TIME_TOLERANCE_MIN) {
        const double middle = 0.5 * (low + high);
        if (pace(timeline, arm, zone, middle) < least) {
            high = middle;
        } else {
            low = middle;
        }
    }
    limits->spent_min = limits->spent ? high - start : 0.0;
}

static void find_dried(sl_limits *limits, const sl_timeline *timeline, int arm, double start, double end)
{
    sl_moment moment;
    double low = start;
    double high = end - TIME_TOLERANCE_MIN; /* before it is rinsed */
    sl_timeline_moment(timeline, arm, limits->early_zone, high, &moment);
    limits->dried = moment.wetness <= SL_DRY_WETNESS;
    while (limits->dried && high - low > TIME_TOLERANCE_MIN) {
        const double middle = 0.5 * (low + high);
        sl_timeline_moment(timeline, arm, limits->early_zone, middle, &moment);
        if (moment.wetness <= SL_DRY_WETNESS) {
            high = middle;
        } else {
            low = middle;
        }
    }
    limits->dried_min = limits->dried ? high - start : 0.0;
}

/* Of the first application, when the arm begins with one. */
static void find_idle(sl_limits *limits, const sl_timeline *timeline, int arm)
{
    const sl_arm *const here = &sl_timeline_scene(timeline)->arms[arm];
    if (here->steps[0].kind == SL_STEP_APPLY) {
        const double start = here->contact_min;
        const double end = fmin(start + here->steps[0].duration_min, sl_timeline_scene(timeline)->until_min);
        find_spent(limits, timeline, arm, start, end);
        find_dried(limits, timeline, arm, start, end);
    }
}

bool sl_limits_prepare(sl_timeline *timeline, sl_solver *solver, sl_error *error)
{
    return !sl_goal_set(sl_timeline_scene(timeline)) || sl_timeline_rinse(timeline, solver, error);
}

bool sl_limits_can_be_asked(const sl_scene *scene, int arm)
{
    bool wanted = false;
    for (int zone = 0; zone < scene->n_zones && !wanted; zone++) {
        wanted = sl_zone_goal(scene, zone).wanted;
    }
    return wanted && sl_arm_removes(scene, &scene->arms[arm]);
}

/* asked, early and stop fields; the rest is zero. */
static sl_limits find(const sl_timeline *timeline, int arm)
{
    const sl_timeline *const rinsed = sl_timeline_rinsed(timeline);
    sl_limits limits = {.early_zone = -1};
    if (!sl_limits_can_be_asked(sl_timeline_scene(timeline), arm) || !sl_timeline_predicted(timeline, arm)) {
        return limits;
    }
    assert(rinsed); /* sl_limits_prepare() came first */
    limits.asked = true;
    find_early(&limits, rinsed, arm);
    find_stops(&limits, rinsed, sl_stress_limit(timeline), arm);
    return limits;
}

int sl_limits_stop_zone(const sl_scene *scene, const sl_limits *limits, sl_stop stop)
{
    if (stop != SL_STOP_BASE && stop != SL_STOP_STRESS) {
        return -1;
    }
    if (limits->asked && limits->stop_reached[stop]) {
        return limits->stop_zone[stop];
    }
    return limits->early_zone >= 0 ? sl_reference_zone(scene, limits->early_zone) : -1;
}

sl_limits sl_limits_of(const sl_timeline *timeline, int arm, const sl_optics *optics)
{
    const sl_scene *const scene = sl_timeline_scene(timeline);
    sl_limits limits = find(timeline, arm);
    if (!limits.asked) {
        return limits;
    }
    const double stop_clock = scene->arms[arm].contact_min + limits.stop_min[limits.stop];
    sl_cell cell;
    sl_timeline_at(sl_timeline_rinsed(timeline), arm, limits.early_zone, stop_clock, optics, &cell);
    limits.left_at_stop = cell.colour_left;
    const int undyed = sl_reference_zone(scene, limits.early_zone);
    sl_cell base;
    if (limits.early_reached) {
        sl_timeline_at(sl_timeline_rinsed(timeline), arm, undyed,
                       scene->arms[arm].contact_min + limits.early_min, NULL, &base);
        limits.base_at_goal = base.base_moved;
        limits.stress_at_goal = base.cystine_lost;
    }
    sl_timeline_at(sl_timeline_rinsed(timeline), arm, undyed, stop_clock, NULL, &base);
    limits.level_start = scene->hairs[scene->zones[undyed].hair].level;
    limits.level_at_stop = base.level;
    limits.left_at_end = sl_left_at(sl_timeline_rinsed(timeline), arm, limits.early_zone, scene->until_min);
    if (optics) {
        limits.leftover = cell.colour.lab;
        limits.leftover_words = sl_chart_read(&scene->chart, cell.colour.lab);
    }
    find_idle(&limits, timeline, arm);
    return limits;
}
