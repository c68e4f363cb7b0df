/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See limits_of_members.h. Colour left never rises, base moved and cystine lost never fall:
 * a bisection over the steps, then one inside the step between two of them, where doses
 * are taken to run straight (a quarter of a minute: good to a second; tests hold it to the
 * solution itself).
 */
#include "estimate/limits_of_members.h"

#include <math.h>

#include "slowlift/limits.h"

static const double TIME_TOLERANCE_MIN = 1.0 / 600.0;
static const double SHARE_SLACK = 1e-9; /* of a share, for rounding */
enum { NEAR_SCANNED = 24 }; /* moments at which a member's distance to undyed hair is looked at first */
static const double CORE_LEACH_SHARE = 0.25; /* as in kinetics/dose.c */

/* One lane's doses at one moment. */
typedef struct lane_moment {
    double rim[SL_CHANNELS], core[SL_CHANNELS], cystine, leach_min, shampoos;
} lane_moment;

static lane_moment moment_at(const lane_history *history, int lane, int step, double share)
{
    const int next = step < history->steps ? step + 1 : step;
    lane_moment m;
    for (int c = 0; c < SL_CHANNELS; c++) {
        m.rim[c] =
            history->rim[step][c][lane] + share * (history->rim[next][c][lane] - history->rim[step][c][lane]);
        m.core[c] = history->core[step][c][lane] +
                    share * (history->core[next][c][lane] - history->core[step][c][lane]);
    }
    m.cystine =
        history->cystine[step][lane] + share * (history->cystine[next][lane] - history->cystine[step][lane]);
    m.leach_min = history->leach_min[step] + share * (history->leach_min[next] - history->leach_min[step]);
    m.shampoos = history->shampoos[step] + share * (history->shampoos[next] - history->shampoos[step]);
    return m;
}

typedef struct drawn_lanes {
    const lane_members *member;
    const member_pigments *pigment;
} drawn_lanes;

/* What is asked of one zone by one lane. */
typedef struct question {
    const sl_scene *scene;
    const lane_history *history;
    int lane, zone;
    sl_quantity quantity;
    const sl_optics *dry;                /* not NULL: the colour's distance to undyed hair is asked instead */
    double weight[SL_MAX_DYES_PER_ZONE]; /* of the zone's dyes, sum 1 */
    /* The members' constants against the doses, for what is asked. An energy of a pigment's own is
     * taken at the temperature of the contact: exact while that stays, an estimate while it changes. */
    double dye_k[SL_MAX_DYES_PER_ZONE][SL_CHANNELS][LANES];
    double melanin_k[SL_MELANINS][SL_CHANNELS][LANES];
} question;

static double dye_left(const question *q, int i, const lane_moment *m)
{
    const sl_dye *const d = &q->scene->dyes[q->scene->zones[q->zone].recipe.dye[i]];
    double rim = 0.0;
    double core = 0.0;
    for (int c = 0; c < SL_CHANNELS; c++) {
        const double k = q->dye_k[i][c][q->lane];
        rim += k * m->rim[c];
        core += k * m->core[c];
    }
    const double washed = d->leach_per_min.value * m->leach_min + d->shampoo_loss.value * m->shampoos;
    const double share = d->rim_share.value;
    return share * exp(-(rim + washed)) + (1.0 - share) * exp(-(core + CORE_LEACH_SHARE * washed));
}

static void pools_at(const question *q, const lane_moment *m, double pool[SL_MELANINS][SL_STAGES])
{
    const sl_hair *const hair = &q->scene->hairs[q->scene->zones[q->zone].hair];
    double exponent[SL_MELANINS] = {0.0};
    for (int kind = 0; kind < SL_MELANINS; kind++) {
        for (int c = 0; c < SL_CHANNELS; c++) {
            exponent[kind] += q->melanin_k[kind][c][q->lane] * m->core[c];
        }
    }
    sl_melanin_move(&q->scene->chemistry, exponent, (const double(*)[SL_STAGES])hair->pool, pool);
}

static double base_moved(const question *q, const lane_moment *m)
{
    const sl_chemistry *const ch = &q->scene->chemistry;
    const sl_hair *const hair = &q->scene->hairs[q->scene->zones[q->zone].hair];
    double pool[SL_MELANINS][SL_STAGES];
    pools_at(q, m, pool);
    const double before = sl_melanin_absorbance(ch, (const double(*)[SL_STAGES])hair->pool);
    return before > 0.0 ? 1.0 - sl_melanin_absorbance(ch, (const double(*)[SL_STAGES])pool) / before : 0.0;
}

/* CIEDE2000 between the zone and the same hair without its dye. What washing brings over from the
 * neighbours is left out. */
static double from_undyed(const question *q, const lane_moment *m)
{
    sl_amounts amounts = {.oxidised = fmin(fmax(1.0 - m->cystine, 0.0), 1.0)};
    sl_colour undyed, dyed;
    pools_at(q, m, amounts.pool);
    sl_optics_paint(q->dry, &amounts, &undyed);
    amounts.recipe = &q->scene->zones[q->zone].recipe;
    for (int i = 0; i < amounts.recipe->n_dyes; i++) {
        amounts.dye_left[i] = dye_left(q, i, m);
    }
    sl_optics_paint(q->dry, &amounts, &dyed);
    return sl_delta_e_2000(dyed.lab, undyed.lab);
}

/* The quantity, turned so that it never falls (a distance: hardly ever). */
static double reading(const question *q, int step, double share)
{
    const lane_moment m = moment_at(q->history, q->lane, step, share);
    const sl_recipe *const recipe = &q->scene->zones[q->zone].recipe;
    double left = 0.0;
    if (q->dry) {
        return -from_undyed(q, &m);
    }
    switch (q->quantity) {
    case SL_BASE_MOVED:
        return base_moved(q, &m);
    case SL_CYSTINE_LOST:
        return 1.0 - m.cystine / q->scene->hairs[q->scene->zones[q->zone].hair].cystine_intact;
    case SL_COLOUR_LEFT:
        break;
    }
    for (int i = 0; i < recipe->n_dyes; i++) {
        left += q->weight[i] * dye_left(q, i, &m);
    }
    return 1.0 - left;
}

/* A distance may grow again: the first of a row of steps at which it is there, and the one before. */
static bool near_step(const question *q, double wanted, int *low, int *high)
{
    int before = 0;
    for (int i = 0; i <= NEAR_SCANNED; i++) {
        const int step = q->history->steps * i / NEAR_SCANNED;
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
    if (q->dry ? !near_step(q, wanted, &low, &high) : reading(q, high, 0.0) < wanted) {
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

bool member_arm_asked(const sl_scene *scene, int arm)
{
    const sl_arm *const here = &scene->arms[arm];
    bool mix = false;
    for (int i = 0; i < here->n_steps; i++) {
        if (here->steps[i].kind == SL_STEP_APPLY) {
            if (scene->mixes[here->steps[i].mix].mechanism != SL_MECHANISM_OXIDATIVE) {
                return false;
            }
            mix = true;
        }
    }
    bool target = false;
    for (int zone = 0; zone < scene->n_zones; zone++) {
        target = target || sl_zone_goal(scene, zone).wanted;
    }
    return mix && target && !here->undyed;
}

/* One lane's constants, with its draws. */
static void fold(question *q, const drawn_lanes *drawn, double temperature_k, int l)
{
    const sl_chemistry *const ch = &q->scene->chemistry;
    const sl_recipe *const recipe = &q->scene->zones[q->zone].recipe;
    const member_pigments *const pigment = drawn->pigment;
    const double t = temperature_k + drawn->member->warmth_k[l];
    for (int i = 0; i < recipe->n_dyes && (q->dry || q->quantity == SL_COLOUR_LEFT); i++) {
        sl_rates rates = q->scene->dyes[recipe->dye[i]].rates;
        sl_rates_settle(&rates, ch, t);
        for (int c = 0; c < SL_CHANNELS; c++) {
            q->dye_k[i][c][l] = rates.k[c].value * pigment->dye[recipe->dye[i]][l] *
                                (c == SL_RADICAL ? pigment->radical[l] : 1.0);
        }
    }
    for (int kind = 0; kind < SL_MELANINS && (q->dry || q->quantity == SL_BASE_MOVED); kind++) {
        sl_rates rates = ch->melanin[kind].rates;
        sl_rates_settle(&rates, ch, t);
        for (int c = 0; c < SL_CHANNELS; c++) {
            q->melanin_k[kind][c][l] = rates.k[c].value * pigment->melanin[c][l];
        }
    }
}

/* For one lane, or for all when `only` is -1. */
static void ask(question *q, const sl_scene *scene, const sl_arm *arm, const lane_history *history,
                const drawn_lanes *drawn, int zone, sl_quantity quantity, const sl_optics *dry, int only)
{
    const sl_recipe *const recipe = &scene->zones[zone].recipe;
    const double temperature_k = sl_scene_temperature_k(scene, arm->contact_min, 0.0);
    q->scene = scene;
    q->history = history;
    q->zone = zone;
    q->quantity = quantity;
    q->dry = dry;
    q->lane = only;
    for (int l = only < 0 ? 0 : only; l < (only < 0 ? LANES : only + 1); l++) {
        fold(q, drawn, temperature_k, l);
    }
    double sum = 0.0;
    for (int i = 0; i < recipe->n_dyes; i++) {
        q->weight[i] = recipe->strength[i] * sl_dye_absorbance(&scene->dyes[recipe->dye[i]]);
        sum += q->weight[i];
    }
    for (int i = 0; i < recipe->n_dyes; i++) {
        q->weight[i] = sum > 0.0 ? q->weight[i] / sum : 1.0 / recipe->n_dyes;
    }
}

/* Fold one zone with a goal into a lane's early limit; `asked` is its colour, or its distance to
 * undyed hair, and `wanted` what that must come up to. */
static void reach(member_limits *limits, const question *asked, double wanted, const question *colour,
                  double *most_left)
{
    double minute = 0.0;
    if (limits->last_zone < 0) {
        limits->last_zone = colour->zone;
    }
    if (first_minute(asked, wanted, &minute)) {
        if (limits->early_reached && minute > limits->early_min) {
            limits->early_min = minute;
            limits->last_zone = colour->zone;
        }
        return;
    }
    const double left = 1.0 - reading(colour, colour->history->steps, 0.0);
    if (limits->early_reached || left > *most_left) {
        limits->last_zone = colour->zone;
        *most_left = left;
    }
    limits->early_reached = false;
}

static void limit(member_limits *limits, const question *q, sl_bound bound, int by)
{
    double minute = 0.0;
    if (bound.set && first_minute(q, sl_bound_reached_at(bound), &minute) && minute < limits->late_min) {
        limits->late_min = minute;
        limits->late_by = by;
    }
}

static bool same_class(const sl_hair *one, const sl_hair *two)
{
    return one && fabs(one->porosity - two->porosity) <= 0.0 &&
           fabs(one->cystine_intact - two->cystine_intact) <= 0.0;
}

static void begin(member_limits *limits, const sl_scene *scene, int number)
{
    const sl_arm *const arm = &scene->arms[number];
    double label_min = 0.0;
    const double end = fmax(scene->until_min - arm->contact_min, 0.0);
    *limits =
        (member_limits){.early_reached = true, .last_zone = -1, .late_min = end, .late_by = LATE_BY_END};
    if (scene->aims.longest_min.set && scene->aims.longest_min.most <= end) {
        limits->late_min = scene->aims.longest_min.most;
        limits->late_by = LATE_BY_TIME;
    }
    if (sl_label_stop(scene, number, &label_min) && label_min <= limits->late_min) {
        limits->late_min = label_min;
        limits->late_by = LATE_BY_LABEL;
    }
}

/* ---- sixteen members -------------------------------------------------------------------- */

bool members_solve(lane_history *history, const sl_hair **solved, const sl_scene *scene, const sl_arm *arm,
                   const sl_hair *hair, const lane_members *member, int *bad_lane)
{
    if (same_class(*solved, hair)) {
        return true;
    }
    *solved = hair;
    return lanes_run(history, scene, arm, hair->porosity, hair->cystine_intact, member, bad_lane);
}

bool members_aims(member_aims *aims, const sl_scene *scene, const sl_optics *dry, const lane_members *member,
                  lane_history *history, int *bad_lane)
{
    const double share = scene->aims.stress_share;
    const sl_hair *solved = NULL;
    aims->dry = dry;
    for (int l = 0; l < LANES; l++) {
        aims->stress[l] = share > 0.0 ? (sl_bound){share, true} : scene->aims.cystine_lost;
    }
    for (int zone = 0; zone < scene->n_zones && share > 0.0; zone++) {
        const sl_arm *const control = &scene->arms[scene->aims.stress_of];
        const sl_hair *const hair = &scene->hairs[scene->zones[sl_reference_zone(scene, zone)].hair];
        if (!sl_zone_direct(scene, zone)) {
            continue;
        }
        if (!members_solve(history, &solved, scene, control, hair, member, bad_lane)) {
            return false;
        }
        double into = 0.0;
        const int step = lanes_step_at(history, sl_first_water_min(control) - control->contact_min, &into);
        for (int l = 0; l < LANES; l++) {
            const double intact = moment_at(history, l, step, into).cystine / hair->cystine_intact;
            aims->stress[l].most = fmin(aims->stress[l].most, share * (1.0 - intact));
        }
    }
    return true;
}

/* Fold one zone into the limits of all lanes; base and stress only where no zone has read them yet. */
static void fold_zone(member_limits limits[LANES], const sl_scene *scene, const sl_arm *arm,
                      const lane_history *history, const drawn_lanes *drawn, const member_aims *aims,
                      int zone, bool stops, double most_left[LANES])
{
    const sl_goal goal = sl_zone_goal(scene, zone);
    question colour, near, base, stress;
    ask(&colour, scene, arm, history, drawn, zone, SL_COLOUR_LEFT, NULL, -1);
    if (goal.near_undyed > 0.0) {
        ask(&near, scene, arm, history, drawn, zone, SL_COLOUR_LEFT, aims->dry, -1);
    }
    /* base and hair under this zone: the zone's own hair without its dye */
    ask(&base, scene, arm, history, drawn, zone, SL_BASE_MOVED, NULL, -1);
    ask(&stress, scene, arm, history, drawn, zone, SL_CYSTINE_LOST, NULL, -1);
    for (int l = 0; l < LANES; l++) {
        colour.lane = base.lane = stress.lane = l;
        if (goal.near_undyed > 0.0) {
            near.lane = l;
            reach(&limits[l], &near, -goal.near_undyed, &colour, &most_left[l]);
        } else if (goal.wanted) {
            reach(&limits[l], &colour, 1.0 - goal.left, &colour, &most_left[l]);
        }
        if (stops) {
            limit(&limits[l], &base, scene->aims.base_moved, LATE_BY_BASE);
            limit(&limits[l], &stress, aims->stress[l], LATE_BY_STRESS);
        }
    }
}

bool members_limits(member_limits limits[LANES], const sl_scene *scene, int arm, const lane_members *member,
                    const member_pigments *pigment, const member_aims *aims, lane_history *history,
                    int *bad_lane)
{
    const sl_arm *const here = &scene->arms[arm];
    const drawn_lanes drawn = {member, pigment};
    double most_left[LANES] = {0.0};
    const sl_hair *solved = NULL; /* whose history is at hand */
    const sl_hair *read = NULL;   /* whose base and stress have just been asked for */
    for (int l = 0; l < LANES; l++) {
        begin(&limits[l], scene, arm);
    }
    for (int zone = 0; zone < scene->n_zones; zone++) {
        const sl_hair *const hair = &scene->hairs[scene->zones[zone].hair];
        if (!sl_zone_direct(scene, zone)) {
            continue;
        }
        if (!members_solve(history, &solved, scene, here, hair, member, bad_lane)) {
            return false;
        }
        fold_zone(limits, scene, here, history, &drawn, aims, zone, hair != read, most_left);
        read = hair;
    }
    for (int l = 0; l < LANES; l++) {
        question colour;
        const int last = limits[l].last_zone;
        const sl_hair *const hair = &scene->hairs[scene->zones[last].hair];
        if (!members_solve(history, &solved, scene, here, hair, member, bad_lane)) {
            return false;
        }
        ask(&colour, scene, here, history, &drawn, last, SL_COLOUR_LEFT, NULL, l);
        limits[l].left_at_late = left_at(&colour, limits[l].late_min);
    }
    return true;
}

bool limits_in_range(const member_limits *member, double until_min)
{
    const bool early = !member->early_reached || (member->early_min >= 0.0 && member->early_min <= until_min);
    return early && member->late_min >= 0.0 && member->late_min <= until_min &&
           member->left_at_late >= -SHARE_SLACK && member->left_at_late <= 1.0 + SHARE_SLACK;
}
