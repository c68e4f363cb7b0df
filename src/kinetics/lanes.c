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
#include "kinetics/wide.h"

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
    lane_pace_at(LANES, at, now, temperature_k);
}

#if defined(HAS_WIDE)
WIDE static void pace_wide(lane_pace *at, const lane_phase *now, double temperature_k)
{
    lane_pace_at(LANES, at, now, temperature_k);
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

LANES_INLINE void slopes_of(const int states, const bool bathed, const lane_phase *now, const lane_pace *at,
                            double swelling, lane_state y, lane_state slope)
{
    lane_slopes(LANES, bathed, now, at, swelling, y[0], slope[0]);
    if (states > SHARED_STATES) {
        memset(slope[SHARED_STATES], 0, (REDUCING_STATES - SHARED_STATES) * sizeof slope[0]);
        lane_reduce(LANES, now, at, swelling, y[0], slope[0]);
        if (now->member->forms) {
            lane_form_slopes(LANES, now, at, now->member->forms, y[0], slope[0]);
        }
    }
}

/* Of a step: what the rates are at its start, its middle and its end. */
typedef struct lane_moments {
    const lane_pace *pace[3];
    double swelling[3];
} lane_moments;

/* states: SHARED_STATES, or of an arm that reduces REDUCING_STATES; a constant, as is bathed. */
LANES_INLINE void step_body(const int states, const bool bathed, const lane_phase *now,
                            const lane_moments *at, double h, lane_state y)
{
    lane_state k1, k2, k3, k4, mid;
    slopes_of(states, bathed, now, at->pace[0], at->swelling[0], y, k1);
    along(states, mid, y, 0.5 * h, k1);
    slopes_of(states, bathed, now, at->pace[1], at->swelling[1], mid, k2);
    along(states, mid, y, 0.5 * h, k2);
    slopes_of(states, bathed, now, at->pace[1], at->swelling[1], mid, k3);
    along(states, mid, y, h, k3);
    slopes_of(states, bathed, now, at->pace[2], at->swelling[2], mid, k4);
    for (int s = 0; s < states; s++) {
        for (int l = 0; l < LANES; l++) {
            y[s][l] += h / 6.0 * (k1[s][l] + 2.0 * (k2[s][l] + k3[s][l]) + k4[s][l]);
        }
    }
    for (int l = 0; l < LANES; l++) {
        y[AT_UNDISSOLVED][l] = most(y[AT_UNDISSOLVED][l], 0.0); /* the last of it may overshoot */
    }
}

typedef void lane_pacer(lane_pace *at, const lane_phase *now, double temperature_k);
typedef void lane_stepper(const lane_phase *now, const lane_moments *at, double h, lane_state y);

/* Each in two makes: any, and wide for processors that have it; the numbers are the same. */
#define STEPPER(name, make, states, bathed)                                                                  \
    make static void name(const lane_phase *now, const lane_moments *at, double h, lane_state y)             \
    {                                                                                                        \
        step_body(states, bathed, now, at, h, y);                                                            \
    }
STEPPER(step_any, , SHARED_STATES, true)
STEPPER(rest_any, , SHARED_STATES, false)
STEPPER(step_reducing_any, , REDUCING_STATES, true)
STEPPER(rest_reducing_any, , REDUCING_STATES, false)
#if defined(HAS_WIDE)
STEPPER(step_wide, WIDE, SHARED_STATES, true)
STEPPER(rest_wide, WIDE, SHARED_STATES, false)
STEPPER(step_reducing_wide, WIDE, REDUCING_STATES, true)
STEPPER(rest_reducing_wide, WIDE, REDUCING_STATES, false)
#endif
#undef STEPPER

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
    static lane_stepper *const any[2][2] = {{rest_any, step_any}, {rest_reducing_any, step_reducing_any}};
#if defined(HAS_WIDE)
    static lane_stepper *const wide[2][2] = {{rest_wide, step_wide},
                                             {rest_reducing_wide, step_reducing_wide}};
    if (__builtin_cpu_supports("avx2")) {
        return wide[now->agent != NULL][now->bath > 0.0];
    }
#endif
    return any[now->agent != NULL][now->bath > 0.0];
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
    const double P = most(y[AT_PERSULFATE][l], now->saturation_mol_l[l]);
    const double H = most(y[AT_PEROXIDE][l], 0.0) + at->hydrolysis_fresh[l] * P * minutes;
    const double us = saturating(at->share_mix[l] * H, now->half_mol_l[l]);
    const double dose =
        y[AT_RIM_DOSE + SL_RADICAL][l] + now->touch * at->channel[SL_RADICAL][l] * us * P * minutes;
    return 1.0 + now->opens[l] + now->opens_by_lipids[l] * (1.0 - lane_lipids(now, dose, l));
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
                       double since_min, hermite_piece *read)
{
    pacer()(at, now, lane_temperature_k(walk->scene, walk->arm, walk->mix, here, since_min, read));
}

/* As warm as it gets until the end of the phase. */
static void pace_warmest(lane_pace *at, const route *walk, const lane_phase *now, const phase *here)
{
    const double at_end = lane_temperature_k(walk->scene, walk->arm, walk->mix, here, here->end_min, NULL);
    const double own = mix_course_warmth_k(walk->mix, here, here->end_min, NULL);
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

/* A phase as the lanes meet it: what does not change in it, and where its temperature does not change either,
 * its pace. It serves again for the same phase at other moments, which the tails make use of. */
typedef struct lane_stage {
    lane_phase now;
    bool entered, steady, paced;
    lane_pace fresh; /* at its start, or where it is steady at any moment; of a fresh mix */
} lane_stage;

static void enter_stage(lane_stage *stage, const route *walk, const phase *here)
{
    if (!stage->entered) {
        lane_phase_enter(&stage->now, walk->scene, here, walk->member, walk->porosity, LANES);
        stage->steady = lane_isothermal(walk->scene, walk->mix, here);
        stage->entered = true;
    }
    stage->now.mixed_min = here->mixed_min;
    if (!stage->paced) {
        pace_lanes(&stage->fresh, walk, &stage->now, here, here->start_min, NULL);
        stage->paced = stage->steady;
    }
}

/* The paces of a step in three places, of which the last is the first of the step that follows. */
typedef struct lane_paces {
    lane_pace at[3];
    int first;
} lane_paces;

static void walk_stretch(const route *walk, const phase *here, const lane_stage *stage, const stretch *part,
                         lane_paces *paces, lane_state y)
{
    const lane_phase *const now = &stage->now;
    const double h = (part->to_min - part->from_min) / part->steps;
    const bool same = stage->steady && !now->ageing;
    lane_stepper *const step = stepper_of_lanes(now);
    hermite_piece read = {.terms = 0};
    lane_moments at = {.pace = {&stage->fresh, &stage->fresh, &stage->fresh}};
    for (int i = 0; i < part->steps; i++) {
        const double t = part->from_min + i * h;
        const double when[3] = {t, t + 0.5 * h, t + h};
        for (int k = 0; k < 3; k++) {
            lane_pace *const pace = &paces->at[(paces->first + k) % 3];
            if (k == 0 && i > 0) { /* the end of the step before */
                at.swelling[0] = at.swelling[2];
            } else {
                at.swelling[k] = now->bath > 0.0 ? swelling_at(&walk->scene->chemistry, when[k]) : 1.0;
                if (!stage->steady) {
                    pace_lanes(pace, walk, now, here, when[k], &read);
                }
                lane_pace_aged(LANES, pace, now, when[k]);
            }
            at.pace[k] = same ? at.pace[k] : pace;
        }
        step(now, &at, h, y);
        paces->first = (paces->first + 2) % 3;
        if (walk->history) {
            keep(walk->history, here, i + 1 == part->steps ? part->to_min : when[2], y);
        }
        if (walk->nodes) {
            keep_node(walk->nodes, i + 1 == part->steps ? part->to_min : when[2], y);
        }
    }
}

/* Through a phase; stage: of the same phase at any moment, or empty. */
static bool walk_stage(const route *walk, const phase *here, lane_stage *stage, lane_state y, int *bad_lane)
{
    enter_stage(stage, walk, here);
    const lane_phase *const now = &stage->now;
    const double minutes = here->end_min - here->start_min;
    lane_paces paces;
    paces.first = 0;
    lane_rates rates = {0};
    stretch part[3] = {{.steps = 0}};
    if (stage->steady && !now->ageing) {
        meet_rates(&rates, now, &stage->fresh, y, minutes);
    } else {
        paces.at[0] = paces.at[1] = paces.at[2] = stage->fresh;
        lane_pace_aged(LANES, &paces.at[0], now, here->start_min);
        meet_rates(&rates, now, &paces.at[0], y, minutes);
        if (!stage->steady) {
            pace_warmest(&paces.at[1], walk, now, here);
        }
        lane_pace_aged(LANES, &paces.at[1], now, here->end_min);
        meet_rates(&rates, now, &paces.at[1], y, minutes);
    }
    const int n = stretches_of(part, here, &rates, walk->longest_min);
    const int steps = part[0].steps + part[1].steps + part[2].steps;
    if (walk->history && walk->history->steps + steps > LANE_MOST_STEPS) {
        *bad_lane = 0;
        return false;
    }
    for (int i = 0; i < n; i++) {
        walk_stretch(walk, here, stage, &part[i], &paces, y);
    }
    return in_range(y, walk->cystine, now->agent != NULL, bad_lane);
}

static bool walk_phase(const route *walk, const phase *here, lane_state y, int *bad_lane)
{
    lane_stage stage;
    stage.entered = stage.paced = false;
    return walk_stage(walk, here, &stage, y, bad_lane);
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
                     double porosity, double cystine, const lane_members *members, bool left_on,
                     int *bad_lane)
{
    sl_error error = {.code = SL_OK};
    *all = (route){.scene = scene,
                   .arm = arm,
                   .member = members,
                   .mix = mix_course_of(&history->mixes, scene, arm, left_on, NULL, &error),
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
    if (!route_of(&all, history, scene, arm, porosity, cystine, members, false, bad_lane)) {
        return false;
    }
    phases_of(&plan, &treatment);
    return walk_plan(&all, &plan, 0, bad_lane);
}

/* What doses, cystine and what reduces have become since `of`, [quantity][lane]; takes its place. */
static void take_since(double of[ALL_TAILS][LANES], lane_state y, bool reduces)
{
    for (int row = 0; row < (reduces ? ALL_TAILS : TAIL_STATES); row++) {
        const int state = row < TAIL_STATES ? AT_RIM_DOSE + row : reducing_state(row - TAIL_STATES);
        for (int l = 0; l < LANES; l++) {
            of[row][l] = y[state][l] - of[row][l];
        }
    }
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

/* What follows a rinse at a node's moment; returns the phase in which the mix lies then. */
static const phase *plan_tail(planned *after, const sl_treatment *treatment, int application,
                              const planned *plan, double rinse_min)
{
    int p = plan->n - 1;
    while (p > 0 && plan->phases[p].start_min > rinse_min) {
        p--;
    }
    phases_after(after, treatment, application, &plan->phases[p], rinse_min);
    return &plan->phases[p];
}

/* One phase of all tails, which is the same but for when it begins; false when no tail has so many. */
static bool walk_tails(const route *walk, const sl_treatment *treatment, int application, const planned *plan,
                       int p, lane_nodes *nodes, bool *more, int *bad_lane)
{
    lane_stage stage;
    stage.entered = stage.paced = false;
    *more = false;
    for (int i = 0; i < nodes->n; i++) {
        planned after;
        route part = *walk;
        plan_tail(&after, treatment, application, plan, nodes->at_min[i]);
        if (p >= after.n) {
            continue;
        }
        part.history = NULL;
        part.longest_min = after.phases[p].kind == PHASE_REST ? LONGEST_REST_MIN : LONGEST_STEP_MIN;
        if (!open_phase(&part, &after.phases[p], after.step[p], nodes->y[i], bad_lane) ||
            !walk_stage(&part, &after.phases[p], &stage, nodes->y[i], bad_lane)) {
            return false;
        }
        *more = *more || p + 1 < after.n;
    }
    return true;
}

/* From its entry `first` on, a history of hair that lies under its last mix becomes one of hair rinsed. */
static bool rinse_history(const route *walk, const sl_treatment *treatment, int application,
                          const planned *plan, lane_nodes *nodes, int first, int *bad_lane)
{
    double added[TAILS][ALL_TAILS][LANES];
    const bool reduces = walk->history->reduces;
    memset(added, 0, (size_t)nodes->n * sizeof added[0]);
    for (int i = 0; i < nodes->n; i++) {
        take_since(added[i], nodes->y[i], reduces);
    }
    bool more = nodes->n > 0;
    for (int p = 0; more; p++) {
        if (!walk_tails(walk, treatment, application, plan, p, nodes, &more, bad_lane)) {
            return false;
        }
    }
    for (int i = 0; i < nodes->n; i++) {
        take_since(added[i], nodes->y[i], reduces);
    }
    double leach_min = 0.0, shampoos = 0.0;
    if (nodes->n > 0) { /* whenever that is */
        planned after;
        const double at_min = nodes->at_min[nodes->n - 1];
        const phase *const lying = plan_tail(&after, treatment, application, plan, at_min);
        const phase *const last = &after.phases[after.n - 1];
        leach_min = leach_of(last, last->end_min) - leach_of(lying, at_min);
        shampoos = shampoos_of(last, last->end_min) - shampoos_of(lying, at_min);
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
    lane_nodes nodes;
    if (!route_of(&all, history, scene, arm, porosity, cystine, members, true, bad_lane)) {
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
    nodes.n = 0;
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
