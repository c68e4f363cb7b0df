/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See lanes.h. The right-hand side is that of slopes.h, for sixteen and without targets: an ensemble asks for
 * doses and cystine only. A fixed step is taken from the fastest rate that any lane was given, never from an
 * average; a lane that leaves its range is named, not hidden.
 */
#include "kinetics/lanes.h"

#include <math.h>
#include <string.h>

#include "kinetics/reduction.h"
#include "kinetics/tails.h"

#if defined(__x86_64__) && !defined(SLOWLIFT_PLAIN_LANES) /* of the bench and a test */
#define HAS_WIDE
#define WIDE __attribute__((target("avx2")))
#else
#define WIDE
#endif

static const double LONGEST_STEP_MIN = 0.25;
static const double LONGEST_REST_MIN = 3.0; /* of hair that dries after a rinse: nothing is read on the way */
/* Step times a rate: of the fastest of all (classical Runge-Kutta is stable to 2.78); of what uses up
 * oxidants by itself, where they are made as fast as they go; of that while what there was at first lasts,
 * which is until the rate times the minutes is USED_UP. */
static const double STABLE = 2.0, FOLLOWS = 1.0, ACCURATE = 0.125, USED_UP = 30.0;
/* A rest of more than a day, or after a reducing mix of more than some hours, of which nothing is asked
 * within minutes: so long it is finely stepped, then in steps of this. */
static const double FINE_REST_MIN = 240.0, COARSE_STEP_MIN = 10.0;
static const double SLACK = 1e-6; /* of a share, before a lane counts as out of range */

typedef double lane_state[REDUCING_STATES][LANES]; /* the shared ones alone where nothing reduces */
enum { TAIL_STATES = 2 * SL_CHANNELS + 1 }; /* doses at rim and core, and cystine: in the state's order */
enum { ALL_TAILS = TAIL_STATES + LANE_REDUCING }; /* and what reduces, in the history's */

/* The state of a row of a history's `reducing`. */
static int reducing_state(int row)
{
    const int form = row - LANE_COLOURED;
    return row == LANE_RIM_REDUCED ? AT_RIM_REDUCED
           : row == LANE_CORE_REDUCED
               ? AT_CORE_REDUCED
               : at_form(form / SL_PLACES_IN_HAIR, form % SL_PLACES_IN_HAIR, SL_COLOURED);
}

static void pace_any(lane_pace *at, const lane_phase *now, double temperature_k)
{
    lane_pace_at(LANES, false, at, now, temperature_k);
}

#if defined(HAS_WIDE)
WIDE static void pace_wide(lane_pace *at, const lane_phase *now, double temperature_k)
{
    lane_pace_at(LANES, false, at, now, temperature_k);
}
#endif

LANES_INLINE void along(const int states, lane_state to, lane_state y, double h, lane_state slope)
{
    for (int s = 0; s < states; s++) {
        for (int l = 0; l < LANES; l++) {
            to[s][l] = y[s][l] + h * slope[s][l];
        }
    }
}

LANES_INLINE void slopes_of(const int states, const lane_phase *now, const lane_pace *at, double swelling,
                            lane_state y, lane_state slope)
{
    lane_slopes(LANES, now, at, swelling, y[0], slope[0]);
    if (states > SHARED_STATES) {
        memset(slope[SHARED_STATES], 0, (REDUCING_STATES - SHARED_STATES) * sizeof slope[0]);
        lane_reduce(LANES, now, at, swelling, y[0], slope[0]);
        if (now->member->forms) {
            lane_form_slopes(LANES, now, at, now->member->forms, y[0], slope[0]);
        }
    }
}

/* states: SHARED_STATES, or of an arm that reduces REDUCING_STATES; a constant. */
LANES_INLINE void step_body(const int states, const lane_phase *now, const lane_pace at[3],
                            const double swelling[3], double h, lane_state y)
{
    lane_state k1, k2, k3, k4, mid;
    slopes_of(states, now, &at[0], swelling[0], y, k1);
    along(states, mid, y, 0.5 * h, k1);
    slopes_of(states, now, &at[1], swelling[1], mid, k2);
    along(states, mid, y, 0.5 * h, k2);
    slopes_of(states, now, &at[1], swelling[1], mid, k3);
    along(states, mid, y, h, k3);
    slopes_of(states, now, &at[2], swelling[2], mid, k4);
    for (int s = 0; s < states; s++) {
        for (int l = 0; l < LANES; l++) {
            y[s][l] += h / 6.0 * (k1[s][l] + 2.0 * (k2[s][l] + k3[s][l]) + k4[s][l]);
        }
    }
    for (int l = 0; l < LANES; l++) {
        y[AT_UNDISSOLVED][l] = most(y[AT_UNDISSOLVED][l], 0.0); /* the last of it may overshoot */
    }
}

static void step_reducing(const lane_phase *now, const lane_pace at[3], const double swelling[3], double h,
                          lane_state y)
{
    step_body(REDUCING_STATES, now, at, swelling, h, y);
}

#if defined(HAS_WIDE)
WIDE static void step_reducing_wide(const lane_phase *now, const lane_pace at[3], const double swelling[3],
                                    double h, lane_state y)
{
    step_body(REDUCING_STATES, now, at, swelling, h, y);
}
#endif

static void step_any(const lane_phase *now, const lane_pace at[3], const double swelling[3], double h,
                     lane_state y)
{
    step_body(SHARED_STATES, now, at, swelling, h, y);
}

#if defined(HAS_WIDE)
WIDE static void step_wide(const lane_phase *now, const lane_pace at[3], const double swelling[3], double h,
                           lane_state y)
{
    step_body(SHARED_STATES, now, at, swelling, h, y);
}
#endif

typedef void lane_pacer(lane_pace *at, const lane_phase *now, double temperature_k);
typedef void lane_stepper(const lane_phase *now, const lane_pace at[3], const double swelling[3], double h,
                          lane_state y);

/* With wide vectors where the processor has them; the numbers are the same. */
static lane_pacer *pacer(void)
{
#if defined(HAS_WIDE)
    return __builtin_cpu_supports("avx2") ? pace_wide : pace_any;
#else
    return pace_any;
#endif
}

static lane_stepper *stepper_of_lanes(const lane_phase *now)
{
#if defined(HAS_WIDE)
    if (__builtin_cpu_supports("avx2")) {
        return now->agent ? step_reducing_wide : step_wide;
    }
#endif
    return now->agent ? step_reducing : step_any;
}

/* The fastest rates that a lane can meet in a phase, 1/min. */
typedef struct lane_rates {
    double any; /* of all: a step must be stable, or follow what is made and goes */
    double use; /* of what uses up oxidants by itself: while they last, a step must follow it */
    double dry; /* of what goes on in hair that has dried */
} lane_rates;

/* All that can oxidise, mol per L of mix and of fibre water. */
static double oxidants_of(lane_state y, int l)
{
    double sum = 0.0;
    for (int s = 0; s < BATH_STATES; s++) {
        sum += y[s][l];
    }
#define ADD(NAME, name, ...) sum += y[AT_FIBRE_##NAME][l];
    SL_OXIDANT_LIST(ADD)
#undef ADD
    return sum;
}

/* How many times as fast as in whole hair exchange can become within so many minutes: all cystine lost, and
 * lipids as the radicals' dose would have it, were the mix as strong as it can be all the time. */
static double widest(const lane_phase *now, const lane_pace *at, lane_state y, double minutes, int l)
{
    const sl_chemistry *const ch = now->ch;
    const double P = most(y[AT_PERSULFATE][l], now->saturation_mol_l[l]);
    const double H = most(y[AT_PEROXIDE][l], 0.0) + at->hydrolysis_fresh[l] * P * minutes;
    const double us = saturating(at->share_mix[l] * H,
                                 ch->saturation_mol_l.value * now->member->by[SL_DOUBT_SATURATION][l]);
    const double dose =
        y[AT_RIM_DOSE + SL_RADICAL][l] + now->touch * at->channel[SL_RADICAL][l] * us * P * minutes;
    return 1.0 + now->member->by[SL_DOUBT_OPENING][l] *
                     (ch->damage_opens.value + ch->lipids_open.value * (1.0 - lane_lipids(now, dose, l)));
}

/* And of an arm that reduces. */
static void meet_reducing_rates(lane_rates *rates, const lane_phase *now, const lane_pace *at, lane_state y,
                                double all, double open, int l)
{
    const sl_reductant *const agent = now->agent;
    const lane_forms *const forms = now->member->forms;
    const double held = most(y[AT_REDUCTANT][l], y[AT_FIBRE_REDUCTANT][l]);
    const double meet = agent->meet_l_mol_min.value *
                        (all * most(1.0, agent->oxidant_per_mol.value) + held * agent->oxidant_per_mol.value);
    const double opens = agent->cystine_l_mol_min.value * now->cystine[SL_PERHYDROXYL][l] *
                         (held + agent->per_cystine.value * now->ch->cystine_mol_l.value);
    rates->any =
        most(rates->any, at->agent[l] * (meet + opens + now->agent_loss[l]) +
                             open * at->exchange[l] * now->agent_cm2_s[l] * (1.0 + now->liquid_share[l]));
    for (int i = 0; forms && i < forms->n; i++) {
        const double reduced = forms->reduced[i][l] * agent_drive(held, agent->order.value);
        const double by_air = at->back[l] * forms->air_return[i][l];
        rates->any = most(rates->any,
                          at->agent[l] * reduced + by_air + at->back[l] * forms->oxidant_return[i][l] * all);
        rates->dry = most(rates->dry, by_air);
    }
}

static void meet_rates(lane_rates *rates, const lane_phase *now, const lane_pace *at, lane_state y,
                       double minutes)
{
    const sl_chemistry *const ch = now->ch;
    rates->any = most(rates->any, now->away + now->dry);
    rates->dry = most(rates->dry, now->dry);
    for (int l = 0; l < LANES; l++) {
        const double all = oxidants_of(y, l), open = widest(now, at, y, minutes, l);
        if (now->agent) {
            meet_reducing_rates(rates, now, at, y, all, open, l);
        }
        const double enter =
            open * at->exchange[l] * lane_fastest_entry(now, l) * (1.0 + now->liquid_share[l]);
        /* The last of the solid goes fastest: room over half, and all is room under running water. */
        const double room = now->saturation_mol_l[l] * (now->away > 0.0 ? 1.0 : 0.5);
        const double dissolve = y[AT_UNDISSOLVED][0] > 0.0 ? ch->dissolve_per_min.value *
                                                                 (1.0 + room / ch->dissolve_half_mol_l.value)
                                                           : 0.0;
        const double use = lane_fastest_use(now, at, all, l);
        rates->use = most(rates->use, use);
        rates->any = most(rates->any, lane_fastest_taking(now, at, all, y[AT_CYSTINE][l], l));
        rates->any =
            most(rates->any,
                 now->away + (now->bath > 0.0 ? most(most(enter, dissolve), STABLE / FOLLOWS * use) : 0.0));
    }
}

static void keep(lane_history *history, const phase *now, double since_min, lane_state y)
{
    const int i = history->steps++;
    history->time_min[i] = since_min;
    history->leach_min[i] = now ? leach_of(now, since_min) : 0.0;
    history->shampoos[i] = now ? shampoos_of(now, since_min) : 0.0;
    memcpy(history->rim[i], y[AT_RIM_DOSE], sizeof history->rim[i]);
    memcpy(history->core[i], y[AT_CORE_DOSE], sizeof history->core[i]);
    memcpy(history->cystine[i], y[AT_CYSTINE], sizeof history->cystine[i]);
    for (int row = 0; history->reduces && row < LANE_REDUCING; row++) {
        memcpy(history->reducing[i][row], y[reducing_state(row)], sizeof history->reducing[i][row]);
    }
}

/* What a member's history must satisfy; NaN fails every comparison. */
static bool in_range(lane_state y, double cystine, bool reduces, int *bad_lane)
{
    for (int l = 0; l < LANES; l++) {
        bool good = y[AT_CYSTINE][l] >= -SLACK && y[AT_CYSTINE][l] <= cystine + SLACK;
        for (int s = 0; s < AT_RIM_DOSE + 2 * SL_CHANNELS; s++) {
            good = good && y[s][l] >= -SLACK && y[s][l] <= 1e6;
        }
        for (int s = AT_REDUCTANT; reduces && s < REDUCING_STATES; s++) {
            good = good && y[s][l] >= -SLACK && y[s][l] <= 1e6;
        }
        if (!good) {
            *bad_lane = l;
            return false;
        }
    }
    return true;
}

/* Whole states at some moments of the last application. */
typedef struct lane_nodes {
    int n;
    double wanted_min[TAILS], at_min[TAILS]; /* the end of the step that reaches it */
    lane_state y[TAILS];
} lane_nodes;

typedef struct route {
    const sl_scene *scene;
    const sl_arm *arm;
    const lane_members *member;
    const mix_course *mix;
    double porosity, cystine, longest_min;
    lane_history *history; /* NULL: nothing is kept */
    lane_nodes *nodes;     /* NULL: none are */
} route;

static void keep_node(lane_nodes *nodes, double since_min, lane_state y)
{
    if (nodes->n < TAILS && since_min >= nodes->wanted_min[nodes->n]) {
        nodes->at_min[nodes->n] = since_min;
        memcpy(nodes->y[nodes->n], y, sizeof nodes->y[0]);
        nodes->n++;
    }
}

static void pace_lanes(lane_pace *at, const route *walk, const lane_phase *now, const phase *here,
                       double since_min)
{
    pacer()(at, now, lane_temperature_k(walk->scene, walk->arm, walk->mix, here, since_min));
}

/* As warm as it gets until the end of the phase. */
static void pace_warmest(lane_pace *at, const route *walk, const lane_phase *now, const phase *here)
{
    const double at_end = lane_temperature_k(walk->scene, walk->arm, walk->mix, here, here->end_min);
    const double own = mix_course_warmth_k(walk->mix, here, here->end_min);
    pacer()(at, now, at_end + most(mix_course_most_k(walk->mix, here) - own, 0.0));
}

/* Part of a phase, in steps of one length. */
typedef struct stretch {
    double from_min, to_min;
    int steps;
} stretch;

/* More than there is room for count as one too many; so does what is no number. */
static int steps_of(double length, double step)
{
    const double steps = ceil(length / step);
    return steps <= LANE_MOST_STEPS ? (int)steps : LANE_MOST_STEPS + 1;
}

/* A phase is one stretch, or two where oxidants use each other up within moments: these need shorter steps.
 */
static int stretches_of(stretch part[3], const phase *here, const lane_rates *rates, double longest_min)
{
    const double length = here->end_min - here->start_min;
    const double longest = fmin(longest_min, STABLE / most(rates->any, 1e-9));
    const double fine = ACCURATE / most(rates->use, 1e-9), moments = USED_UP / most(rates->use, 1e-9);
    const double early = fine < longest ? fmin(moments, length) : 0.0;
    const bool long_rest = here->kind == PHASE_REST && length > (here->agent ? FINE_REST_MIN : DAY_MIN);
    const double middle = long_rest ? fmax(early, FINE_REST_MIN) : length;
    int n = 0;
    if (early > 0.0) {
        part[n++] = (stretch){here->start_min, here->start_min + early, steps_of(early, fine)};
    }
    if (early < middle) {
        const double end = middle < length ? here->start_min + middle : here->end_min;
        part[n++] = (stretch){here->start_min + early, end, steps_of(middle - early, longest)};
    }
    if (middle < length) {
        const double wet = exp(-here->dry_per_min * middle); /* what is left of all that water carries */
        const double fastest = most(rates->dry + wet * rates->any, 1e-9);
        const double step = fmin(COARSE_STEP_MIN, 0.5 * FOLLOWS / fastest);
        part[n++] = (stretch){here->start_min + middle, here->end_min, steps_of(length - middle, step)};
    }
    return n;
}

static void walk_stretch(const route *walk, const phase *here, const lane_phase *now, const stretch *part,
                         lane_pace at[3], bool steady, lane_state y)
{
    const double h = (part->to_min - part->from_min) / part->steps;
    lane_stepper *const step = stepper_of_lanes(now);
    for (int i = 0; i < part->steps; i++) {
        const double t = part->from_min + i * h;
        const double when[3] = {t, t + 0.5 * h, t + h};
        double swelling[3];
        for (int k = 0; k < 3; k++) {
            swelling[k] = swelling_at(&walk->scene->chemistry, when[k]);
            if (!steady && (k > 0 || i == 0)) {
                pace_lanes(&at[k], walk, now, here, when[k]);
            }
            if (k > 0 || i == 0) {
                lane_pace_aged(LANES, &at[k], now, when[k]);
            }
        }
        step(now, at, swelling, h, y);
        at[0] = at[2];
        if (walk->history) {
            keep(walk->history, here, i + 1 == part->steps ? part->to_min : when[2], y);
        }
        if (walk->nodes) {
            keep_node(walk->nodes, i + 1 == part->steps ? part->to_min : when[2], y);
        }
    }
}

static bool walk_phase(const route *walk, const phase *here, lane_state y, int *bad_lane)
{
    lane_phase now;
    lane_phase_enter(&now, walk->scene, here, walk->member, walk->porosity, LANES);
    lane_pace at[3];
    const bool steady = lane_isothermal(walk->scene, walk->mix, here);
    pace_lanes(&at[0], walk, &now, here, here->start_min);
    lane_pace warm = at[0];
    if (!steady) {
        pace_warmest(&warm, walk, &now, here);
    }
    lane_pace_aged(LANES, &at[0], &now, here->start_min);
    lane_pace_aged(LANES, &warm, &now, here->end_min);
    lane_rates rates = {0};
    stretch part[3] = {{.steps = 0}};
    meet_rates(&rates, &now, &at[0], y, here->end_min - here->start_min);
    meet_rates(&rates, &now, &warm, y, here->end_min - here->start_min);
    const int n = stretches_of(part, here, &rates, walk->longest_min);
    const int steps = part[0].steps + part[1].steps + part[2].steps;
    if (walk->history && walk->history->steps + steps > LANE_MOST_STEPS) {
        *bad_lane = 0;
        return false;
    }
    at[1] = at[2] = at[0];
    for (int i = 0; i < n; i++) {
        walk_stretch(walk, here, &now, &part[i], at, steady, y);
    }
    return in_range(y, walk->cystine, now.agent != NULL, bad_lane);
}

static void fill(lane_state y, int state, double value)
{
    for (int l = 0; l < LANES; l++) {
        y[state][l] = value;
    }
}

static void fill_bath(lane_state y, const double bath[BATH_STATES])
{
    for (int s = 0; s < BATH_STATES; s++) {
        fill(y, s, bath[s]);
    }
}

static bool open_phase(const route *walk, const phase *here, const sl_step *step, lane_state y, int *bad_lane)
{
    double bath[BATH_STATES] = {0.0};
    if (step->kind == SL_STEP_REST) {
        fill_bath(y, bath);
        fill(y, AT_REDUCTANT, 0.0);
    } else {
        fill(y, AT_WETNESS, 1.0);
    }
    if (step->kind != SL_STEP_APPLY) {
        return true;
    }
    const sl_charge charge =
        sl_mix_charge(here->mix, &walk->scene->chemistry, step->mix_g_per_g, step->hair_water_g_g);
    lane_state alone = {{0.0}};
    bath_of(&charge, bath);
    fill_bath(alone, bath);
    fill(alone, AT_REDUCTANT, charge.reductant_mol_l);
    fill(alone, AT_WETNESS, 1.0);
    fill(alone, AT_CYSTINE, walk->cystine);
    if (step->mix_age_min > 0.0) {
        const phase bowl = phase_in_bowl(here, step->mix_age_min);
        route in_bowl = *walk;
        in_bowl.history = NULL;
        in_bowl.nodes = NULL;
        if (!walk_phase(&in_bowl, &bowl, alone, bad_lane)) {
            return false;
        }
    }
    memcpy(y, alone, BATH_STATES * sizeof y[0]);
    memcpy(y[AT_REDUCTANT], alone[AT_REDUCTANT], sizeof y[0]);
    return true;
}

static sl_treatment treatment_of(const sl_scene *scene, const sl_arm *arm, double porosity, double cystine)
{
    return (sl_treatment){.scene = scene,
                          .arm = arm,
                          .porosity = porosity,
                          .cystine_intact = cystine,
                          .until_min = scene->until_min};
}

/* Every phase of a plan, from hair that nothing has met; nodes are kept from phase `opens` on. */
static bool walk_plan(const route *all, const planned *plan, int opens, int *bad_lane)
{
    lane_state y = {{0.0}};
    fill(y, AT_CYSTINE, all->cystine);
    fill(y, AT_WETNESS, 1.0);
    for (int i = 0; all->member->forms && i < all->member->forms->n; i++) {
        fill(y, at_form(i, SL_AT_RIM, SL_COLOURED), 1.0);
        fill(y, at_form(i, SL_IN_CORE, SL_COLOURED), 1.0);
    }
    all->history->steps = 0;
    all->history->reduces = sl_arm_reductant(all->scene, all->arm) >= 0;
    keep(all->history, NULL, 0.0, y);
    for (int p = 0; p < plan->n; p++) {
        route here = *all;
        here.nodes = p >= opens ? all->nodes : NULL;
        if (plan->step[p] && !open_phase(&here, &plan->phases[p], plan->step[p], y, bad_lane)) {
            return false;
        }
        if (here.nodes && p == opens) {
            keep_node(here.nodes, plan->phases[p].start_min, y);
        }
        if (!walk_phase(&here, &plan->phases[p], y, bad_lane)) {
            return false;
        }
    }
    all->history->steps--; /* entries 0..steps */
    return true;
}

/* False where the course of its mixes cannot be solved: what all lanes read, so the first is named. */
static bool route_of(route *all, lane_history *history, const sl_scene *scene, const sl_arm *arm,
                     double porosity, double cystine, const lane_members *members, int *bad_lane)
{
    sl_error error = {.code = SL_OK};
    *all = (route){.scene = scene,
                   .arm = arm,
                   .member = members,
                   .mix = mix_course_of(&history->mixes, scene, arm, NULL, &error),
                   .porosity = porosity,
                   .cystine = cystine,
                   .longest_min = LONGEST_STEP_MIN,
                   .history = history};
    *bad_lane = error.code == SL_ERR_NO_MEMORY ? LANE_NO_MEMORY : 0;
    return all->mix != NULL;
}

bool lanes_run(lane_history *history, const sl_scene *scene, const sl_arm *arm, double porosity,
               double cystine, const lane_members *members, int *bad_lane)
{
    const sl_treatment treatment = treatment_of(scene, arm, porosity, cystine);
    route all;
    planned plan;
    if (!route_of(&all, history, scene, arm, porosity, cystine, members, bad_lane)) {
        return false;
    }
    phases_of(&plan, &treatment);
    return walk_plan(&all, &plan, 0, bad_lane);
}

/* What rinse, washing and drying add when the mix comes off at one node: doses and cystine, [quantity][lane].
 */
static bool walk_tail(const route *walk, const planned *after, lane_state y, double added[ALL_TAILS][LANES],
                      int *bad_lane)
{
    lane_state before;
    memcpy(before, y, sizeof before);
    for (int p = 0; p < after->n; p++) {
        route part = *walk;
        part.history = NULL;
        part.longest_min = after->phases[p].kind == PHASE_REST ? LONGEST_REST_MIN : LONGEST_STEP_MIN;
        if (!open_phase(&part, &after->phases[p], after->step[p], y, bad_lane) ||
            !walk_phase(&part, &after->phases[p], y, bad_lane)) {
            return false;
        }
    }
    for (int s = 0; s < TAIL_STATES; s++) {
        for (int l = 0; l < LANES; l++) {
            added[s][l] = y[AT_RIM_DOSE + s][l] - before[AT_RIM_DOSE + s][l];
        }
    }
    for (int row = 0; row < LANE_REDUCING; row++) {
        const int state = reducing_state(row);
        for (int l = 0; l < LANES; l++) {
            added[TAIL_STATES + row][l] = y[state][l] - before[state][l];
        }
    }
    return true;
}

/* Add to an entry what a rinse then would. */
LANES_INLINE void add_row(double row[LANES], int state, int tails, const double share[TAILS],
                          double added[TAILS][ALL_TAILS][LANES])
{
    double sum[LANES];
    for (int l = 0; l < LANES; l++) {
        sum[l] = row[l];
    }
    for (int tail = 0; tail < tails; tail++) {
        for (int l = 0; l < LANES; l++) {
            sum[l] += share[tail] * added[tail][state][l];
        }
    }
    for (int l = 0; l < LANES; l++) {
        row[l] = sum[l];
    }
}

LANES_INLINE void add_body(lane_history *history, int i, int tails, const double share[TAILS],
                           double added[TAILS][ALL_TAILS][LANES])
{
    for (int c = 0; c < SL_CHANNELS; c++) {
        add_row(history->rim[i][c], c, tails, share, added);
        add_row(history->core[i][c], SL_CHANNELS + c, tails, share, added);
    }
    add_row(history->cystine[i], 2 * SL_CHANNELS, tails, share, added);
    for (int row = 0; history->reduces && row < LANE_REDUCING; row++) {
        add_row(history->reducing[i][row], TAIL_STATES + row, tails, share, added);
    }
}

typedef void lane_adder(lane_history *history, int i, int tails, const double share[TAILS],
                        double added[TAILS][ALL_TAILS][LANES]);

static void add_any(lane_history *history, int i, int tails, const double share[TAILS],
                    double added[TAILS][ALL_TAILS][LANES])
{
    add_body(history, i, tails, share, added);
}

#if defined(HAS_WIDE)
WIDE static void add_wide(lane_history *history, int i, int tails, const double share[TAILS],
                          double added[TAILS][ALL_TAILS][LANES])
{
    add_body(history, i, tails, share, added);
}
#endif

static lane_adder *adder(void)
{
#if defined(HAS_WIDE)
    return __builtin_cpu_supports("avx2") ? add_wide : add_any;
#else
    return add_any;
#endif
}

/* From its entry `first` on, a history of hair that lies under its last mix becomes one of hair rinsed. */
static bool rinse_history(const route *walk, const sl_treatment *treatment, int application,
                          const planned *plan, lane_nodes *nodes, int first, int *bad_lane)
{
    double added[TAILS][ALL_TAILS][LANES];
    double leach_min = 0.0, shampoos = 0.0;
    for (int i = 0; i < nodes->n; i++) {
        planned after;
        int p = plan->n - 1;
        while (p > 0 && plan->phases[p].start_min > nodes->at_min[i]) {
            p--;
        }
        const phase *const lying = &plan->phases[p];
        phases_after(&after, treatment, application, lying, nodes->at_min[i]);
        if (!walk_tail(walk, &after, nodes->y[i], added[i], bad_lane)) {
            return false;
        }
        const phase *const last = &after.phases[after.n - 1];
        leach_min = leach_of(last, last->end_min) - leach_of(lying, nodes->at_min[i]);
        shampoos = shampoos_of(last, last->end_min) - shampoos_of(lying, nodes->at_min[i]);
    }
    tail_moments moments;
    tail_moments_of(&moments, nodes->at_min, nodes->n);
    for (int i = first; i <= walk->history->steps; i++) {
        double share[TAILS];
        tail_shares(&moments, walk->history->time_min[i], share);
        walk->history->leach_min[i] += leach_min;
        walk->history->shampoos[i] += shampoos;
        adder()(walk->history, i, nodes->n, share, added);
    }
    return true;
}

bool lanes_run_rinsed(lane_history *history, const sl_scene *scene, const sl_arm *arm, double porosity,
                      double cystine, const lane_members *members, int *bad_lane)
{
    const int application = sl_arm_last_application(arm);
    if (application < 0) {
        return lanes_run(history, scene, arm, porosity, cystine, members, bad_lane);
    }
    const sl_treatment treatment = treatment_of(scene, arm, porosity, cystine);
    route all;
    planned plan;
    lane_nodes nodes = {.n = 0};
    if (!route_of(&all, history, scene, arm, porosity, cystine, members, bad_lane)) {
        return false;
    }
    phases_left_on(&plan, &treatment, application);
    int opens = plan.n - 1;
    while (opens >= 0 && plan.step[opens] != &arm->steps[application]) {
        opens--;
    }
    if (opens < 0) { /* the scene ends before that application */
        return walk_plan(&all, &plan, 0, bad_lane);
    }
    const double from = plan.phases[opens].start_min;
    for (int i = 0; i < TAILS; i++) {
        nodes.wanted_min[i] = tail_minute(from, plan.phases[plan.n - 1].end_min - from, i);
    }
    all.nodes = &nodes;
    if (!walk_plan(&all, &plan, opens, bad_lane)) {
        return false;
    }
    int first = 0;
    while (history->time_min[first] < from) {
        first++;
    }
    all.nodes = NULL;
    return rinse_history(&all, &treatment, application, &plan, &nodes, first, bad_lane);
}

int lanes_step_at(const lane_history *history, double minute, double *share)
{
    int low = 0;
    int high = history->steps;
    while (high - low > 1) {
        const int middle = low + (high - low) / 2;
        if (history->time_min[middle] <= minute) {
            low = middle;
        } else {
            high = middle;
        }
    }
    const double length = history->time_min[high] - history->time_min[low];
    *share = length > 0.0 ? fmin(fmax((minute - history->time_min[low]) / length, 0.0), 1.0) : 0.0;
    return low;
}
