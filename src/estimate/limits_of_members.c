/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See limits_of_members.h. Colour left never rises, base moved and cystine lost never fall:
 * a bisection over the steps, then one inside the step between two of them, where doses
 * are taken to run straight (a quarter of a minute: good to a second; tests hold it to the
 * solution itself).
 */
#include "estimate/limits_of_members.h"

#include <math.h>

#include "slowlift/leave.h"
#include "slowlift/limits.h"

static const double TIME_TOLERANCE_MIN = 1.0 / 600.0;
static const double SHARE_SLACK = 1e-9; /* of a share, for rounding */
enum { NEAR_SCANNED = 24 }; /* moments at which a member's distance to undyed hair is looked at first */

/* What is asked of one zone by one lane. */
typedef struct question {
    const member_zone *zone;
    int number; /* of the zone */
    const lane_history *history;
    int lane;
    sl_quantity quantity;
    const sl_optics *dry; /* not NULL: the colour's distance to undyed hair is asked instead */
} question;

/* CIEDE2000 between the zone and the same hair without its dye. What washing brings over from the
 * neighbours is left out. */
static double from_undyed(const question *q, const lane_moment *m)
{
    sl_amounts amounts = {.oxidised = fmin(fmax(1.0 - m->cystine, 0.0), 1.0)};
    sl_colour undyed, dyed;
    member_pools(q->zone, q->lane, m, amounts.pool);
    sl_optics_paint(q->dry, &amounts, &undyed);
    amounts.recipe = q->zone->recipe;
    for (int i = 0; i < amounts.recipe->n_dyes; i++) {
        amounts.dye_left[i] = member_dye_left(q->zone, i, q->lane, m);
    }
    sl_optics_paint(q->dry, &amounts, &dyed);
    return sl_delta_e_2000(dyed.lab, undyed.lab);
}

/* The quantity, turned so that it never falls (a distance: hardly ever). */
static double reading(const question *q, int step, double share)
{
    const lane_moment m = lane_moment_at(q->history, q->lane, step, share);
    if (q->dry) {
        return -from_undyed(q, &m);
    }
    switch (q->quantity) {
    case SL_BASE_MOVED:
        return member_base_moved(q->zone, q->lane, &m);
    case SL_CYSTINE_LOST:
        return member_cystine_lost(q->zone, &m);
    case SL_COLOUR_LEFT:
        break;
    }
    return 1.0 - member_left(q->zone, q->lane, &m);
}

/* Colour that went without its dye may come back. */
static bool may_return(const question *q)
{
    return !q->dry && q->quantity == SL_COLOUR_LEFT && q->zone->returns;
}

/* A distance may grow again, and colour come back: the first of a row of steps at which it is there, and the
 * one before. */
static bool near_step(const question *q, double wanted, int *low, int *high)
{
    const int scanned = q->dry ? NEAR_SCANNED : q->history->steps;
    int before = 0;
    for (int i = 0; i <= scanned; i++) {
        const int step = q->dry ? q->history->steps * i / scanned : i;
        if (reading(q, step, 0.0) >= wanted) {
            *low = before;
            *high = step;
            return true;
        }
        before = step;
    }
    return false;
}

/* First minute from contact at which the reading is at least `wanted`. */
static bool first_minute(const question *q, double wanted, double *minute)
{
    const lane_history *const history = q->history;
    int low = 0;
    int high = history->steps;
    if (q->dry || may_return(q) ? !near_step(q, wanted, &low, &high) : reading(q, high, 0.0) < wanted) {
        return false;
    }
    while (high - low > 1) {
        const int middle = low + (high - low) / 2;
        if (reading(q, middle, 0.0) >= wanted) {
            high = middle;
        } else {
            low = middle;
        }
    }
    const double from = history->time_min[low];
    const double length = history->time_min[high] - from;
    double a = 0.0;
    double b = 1.0;
    while ((b - a) * length > TIME_TOLERANCE_MIN) {
        const double middle = 0.5 * (a + b);
        if (reading(q, low, middle) >= wanted) {
            b = middle;
        } else {
            a = middle;
        }
    }
    *minute = from + b * length;
    return true;
}

static double left_at(const question *q, double minute)
{
    double share = 0.0;
    const int step = lanes_step_at(q->history, minute, &share);
    return 1.0 - reading(q, step, share);
}

/* Fold one zone with a goal into a lane's early limit; `asked` is its colour, or its distance to
 * undyed hair, and `wanted` what that must come up to. */
static void reach(member_limits *limits, const question *asked, double wanted, const question *colour,
                  double *most_left)
{
    double minute = 0.0;
    if (limits->last_zone < 0) {
        limits->last_zone = colour->number;
    }
    if (first_minute(asked, wanted, &minute)) {
        if (limits->early_reached && minute > limits->early_min) {
            limits->early_min = minute;
            limits->last_zone = colour->number;
        }
        return;
    }
    const double left = 1.0 - reading(colour, colour->history->steps, 0.0);
    if (limits->early_reached || left > *most_left) {
        limits->last_zone = colour->number;
        *most_left = left;
    }
    limits->early_reached = false;
}

static void limit(member_limits *limits, const question *q, sl_bound bound, sl_stop by)
{
    double minute = 0.0;
    if (bound.set && first_minute(q, sl_bound_reached_at(bound), &minute) && minute < limits->late_min) {
        limits->late_min = minute;
        limits->late_by = by;
    }
}

static void begin(member_limits *limits, const sl_scene *scene, int number)
{
    const sl_arm *const arm = &scene->arms[number];
    double label_min = 0.0;
    const double end = fmax(scene->until_min - arm->contact_min, 0.0);
    *limits =
        (member_limits){.early_reached = true, .last_zone = -1, .late_min = end, .late_by = SL_STOP_END};
    if (scene->aims.longest_min.set && scene->aims.longest_min.most <= end) {
        limits->late_min = scene->aims.longest_min.most;
        limits->late_by = SL_STOP_CHAIR;
    }
    if (sl_label_stop(scene, number, &label_min) && label_min <= limits->late_min) {
        limits->late_min = label_min;
        limits->late_by = SL_STOP_LABEL;
    }
}

/* ---- sixteen members -------------------------------------------------------------------- */

bool members_aims(member_aims *aims, const sl_scene *scene, const member_ground *ground,
                  const lane_members *member, lane_history *history, int *bad_lane)
{
    const double share = scene->aims.stress_share;
    const sl_hair *solved = NULL;
    aims->ground = ground;
    for (int l = 0; l < LANES; l++) {
        aims->stress[l] = share > 0.0 ? (sl_bound){share, true} : scene->aims.cystine_lost;
    }
    for (int zone = 0; zone < scene->n_zones && share > 0.0; zone++) {
        const sl_arm *const control = &scene->arms[scene->aims.stress_of];
        const sl_hair *const hair = &scene->hairs[scene->zones[sl_reference_zone(scene, zone)].hair];
        if (!sl_zone_direct(scene, zone)) {
            continue;
        }
        if (!members_solve(history, &solved, lanes_run, scene, control, hair, member, bad_lane)) {
            return false;
        }
        double into = 0.0;
        const int step = lanes_step_at(history, sl_first_water_min(control) - control->contact_min, &into);
        for (int l = 0; l < LANES; l++) {
            const double intact = lane_moment_at(history, l, step, into).cystine / hair->cystine_intact;
            aims->stress[l].most = fmin(aims->stress[l].most, share * (1.0 - intact));
        }
    }
    return true;
}

/* Fold one zone into the limits of all lanes; base and stress only where no zone has read them yet. */
static void fold_zone(member_limits limits[LANES], const member_zone *zone, int number,
                      const lane_history *history, const member_aims *aims, bool stops,
                      double most_left[LANES])
{
    const sl_scene *const scene = zone->scene;
    const sl_goal goal = sl_zone_goal(scene, number);
    question colour = {.zone = zone, .number = number, .history = history, .quantity = SL_COLOUR_LEFT};
    question near = colour, base = colour, stress = colour;
    near.dry = aims->ground->dry;
    /* base and hair under this zone: the zone's own hair without its dye */
    base.quantity = SL_BASE_MOVED;
    stress.quantity = SL_CYSTINE_LOST;
    for (int l = 0; l < LANES; l++) {
        colour.lane = near.lane = base.lane = stress.lane = l;
        if (goal.near_undyed > 0.0) {
            reach(&limits[l], &near, -goal.near_undyed, &colour, &most_left[l]);
        } else if (goal.wanted) {
            reach(&limits[l], &colour, 1.0 - goal.left, &colour, &most_left[l]);
        }
        if (stops) {
            limit(&limits[l], &base, scene->aims.base_moved, SL_STOP_BASE);
            limit(&limits[l], &stress, aims->stress[l], SL_STOP_STRESS);
        }
    }
}

/* Whether it is the last zone of any lane. */
static bool decides(const member_limits limits[LANES], int zone)
{
    for (int l = 0; l < LANES; l++) {
        if (limits[l].last_zone == zone) {
            return true;
        }
    }
    return false;
}

/* What is left at the late limit, in the lanes that this zone decides. */
static void read_left(member_limits limits[LANES], const member_zone *zone, int number,
                      const lane_history *history)
{
    question colour = {.zone = zone, .number = number, .history = history, .quantity = SL_COLOUR_LEFT};
    for (colour.lane = 0; colour.lane < LANES; colour.lane++) {
        member_limits *const here = &limits[colour.lane];
        if (here->last_zone == number) {
            here->left_at_late = left_at(&colour, here->late_min);
        }
    }
}

bool members_limits(member_limits limits[LANES], const sl_scene *scene, int arm, const drawn_members *drawn,
                    const member_aims *aims, lane_history *history, int *bad_lane)
{
    const sl_arm *const here = &scene->arms[arm];
    double most_left[LANES] = {0.0};
    const sl_hair *solved = NULL; /* whose history is at hand */
    const sl_hair *read = NULL;   /* whose base and stress have just been asked for */
    member_zone made;
    for (int l = 0; l < LANES; l++) {
        begin(&limits[l], scene, arm);
    }
    for (int zone = 0; zone < scene->n_zones; zone++) {
        const sl_hair *const hair = &scene->hairs[scene->zones[zone].hair];
        if (!sl_zone_direct(scene, zone)) {
            continue;
        }
        if (!members_solve_zone(history, &solved, lanes_run_rinsed, scene, here, zone, drawn, bad_lane)) {
            return false;
        }
        member_zone_make(&made, aims->ground, scene, here, zone, drawn);
        fold_zone(limits, &made, zone, history, aims, hair != read, most_left);
        read = hair;
    }
    for (int zone = 0; zone < scene->n_zones; zone++) {
        if (!decides(limits, zone)) {
            continue;
        }
        if (!members_solve_zone(history, &solved, lanes_run_rinsed, scene, here, zone, drawn, bad_lane)) {
            return false;
        }
        member_zone_make(&made, aims->ground, scene, here, zone, drawn);
        read_left(limits, &made, zone, history);
    }
    return true;
}

bool limits_in_range(const member_limits *member, double until_min)
{
    const bool early = !member->early_reached || (member->early_min >= 0.0 && member->early_min <= until_min);
    return early && member->late_min >= 0.0 && member->late_min <= until_min &&
           member->left_at_late >= -SHARE_SLACK && member->left_at_late <= 1.0 + SHARE_SLACK;
}
