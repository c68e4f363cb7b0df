/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See lanes.h. The right-hand side repeats system.c in lanes, without targets: an ensemble
 * asks for doses and cystine only. A fixed step is taken from the fastest rate that any
 * lane was given, never from an average; a lane that leaves its range is named, not hidden.
 */
#include "kinetics/lanes.h"

#include <math.h>
#include <string.h>

#include "base/plain_exp.h"
#include "kinetics/phases.h"

#define INLINE static inline __attribute__((always_inline))
#if defined(__x86_64__) && !defined(SLOWLIFT_PLAIN_LANES) /* of the bench and a test */
#define HAS_WIDE
#define WIDE __attribute__((target("avx2")))
#else
#define WIDE
#endif

/* Places in the state, as in system.h: H P U W h p X1..3 Y1..3 C. */
static const double HYDROLYSIS_PH = 10.3, FIRST_MODE = 5.783, SECONDS_PER_MIN = 60.0, CM_PER_UM = 1e-4;
static const double TINY_MOL_L = 1e-12, ZERO_C_K = 273.15, LN_10 = 2.302585092994046;
/* No scene comes near it; below, an energy's factor leaves the range of numbers. */
static const double COLDEST_K = 100.0;
static const double LONGEST_STEP_MIN = 0.25;
/* Step times a rate: of the fastest of all (classical Runge-Kutta is stable to 2.78); of what uses up
 * oxidants by itself, where they are made as fast as they go; of that while what there was at first lasts,
 * which is until the rate times the minutes is USED_UP. */
static const double STABLE = 2.0, FOLLOWS = 1.0, ACCURATE = 0.125, USED_UP = 30.0;
static const double SLACK = 1e-6; /* of a share, before a lane counts as out of range */

typedef double lane_state[SHARED_STATES][LANES];

/* Rates of one temperature course at one moment, per lane. */
typedef struct lane_pace {
    double share_mix[LANES], share_fibre[LANES];
    double loss[LANES], fibre_loss[LANES], couple[LANES], hydrolysis[LANES], thermal[LANES];
    double enter_h[LANES], enter_p[LANES]; /* exchange times diffusion, 1/min, swollen and undamaged */
    double channel[SL_CHANNELS][LANES];
    double cystine[SL_CHANNELS][LANES]; /* k of cystine against the doses, own activation included */
} lane_pace;

enum {
    MOST_ENERGIES = 6 + 2 * SL_CHANNELS
}; /* 0, five of their own, a channel's and what cystine has beyond it */

/* Arrhenius factors that a phase needs: distinct energies, and which of them each rate has. */
typedef struct lane_energies {
    double kj_mol[MOST_ENERGIES]; /* the first is 0 */
    int n, loss, couple, hydrolysis, thermal, diffusion, channel[SL_CHANNELS];
    int beyond[SL_CHANNELS]; /* what cystine's own energy has over the channel's; of 0 where it has none */
} lane_energies;

/* What does not change within a phase. */
typedef struct lane_phase {
    const sl_chemistry *ch;
    const lane_members *member;
    bool bath, second_order;
    double loss_k, saturation_mol_l[LANES], liquid_share[LANES], dry, away;
    lane_energies energies;
    double warmth_k[LANES];                          /* over the place's temperature */
    double protons_mix[LANES], protons_fibre[LANES]; /* 10^-pH */
    double hydrolysis[LANES];                        /* at 32 C and this pH */
    double exchange;                                 /* times a diffusion, swollen and undamaged, at 32 C */
} lane_phase;

INLINE double most(double a, double b)
{
    return a > b ? a : b;
}

static double temperature_of(const sl_scene *scene, const sl_arm *arm, const phase *now, double since_min)
{
    if (now->kind == PHASE_BOWL) {
        return scene->chemistry.bowl_c.value + ZERO_C_K;
    }
    return sl_scene_temperature_k(scene, arm->contact_min + since_min, since_min - now->last_contact_min);
}

static int energy_of(lane_energies *energies, double kj_mol)
{
    for (int i = 0; i < energies->n; i++) {
        if (fabs(energies->kj_mol[i] - kj_mol) <= 0.0) {
            return i;
        }
    }
    energies->kj_mol[energies->n] = kj_mol;
    return energies->n++;
}

static void list_energies(lane_energies *e, const sl_chemistry *ch)
{
    e->n = 0;
    energy_of(e, 0.0);
    e->loss = energy_of(e, ch->loss_activation_kj_mol.value);
    e->couple = energy_of(e, ch->couple_activation_kj_mol.value);
    e->hydrolysis = energy_of(e, ch->hydrolysis_activation_kj_mol.value);
    e->thermal = energy_of(e, ch->thermal_activation_kj_mol.value);
    e->diffusion = energy_of(e, ch->diffusion_activation_kj_mol.value);
    for (int c = 0; c < SL_CHANNELS; c++) {
        const double channel = ch->channel_activation_kj_mol[c].value;
        e->channel[c] = energy_of(e, channel);
        e->beyond[c] =
            energy_of(e, ch->cystine.own_activation[c] ? ch->cystine.activation_kj_mol[c] - channel : 0.0);
    }
}

/* The rates at one temperature of the place: those of system.c, for sixteen members. */
INLINE void pace_body(lane_pace *restrict at, const lane_phase *restrict now, double temperature_k)
{
    const sl_chemistry *const ch = now->ch;
    const lane_members *const member = now->member;
    const lane_energies *const e = &now->energies;
    const double slope = ch->pka_enthalpy_kj_mol.value / SL_GAS_KJ_MOL_K, pka_ln = ch->pka_25c.value * LN_10;
    double inverse[LANES], acid[LANES], factor[MOST_ENERGIES][LANES];
    for (int l = 0; l < LANES; l++) {
        inverse[l] = 1.0 / most(temperature_k + now->warmth_k[l], COLDEST_K);
        factor[0][l] = 1.0;
    }
    for (int l = 0; l < LANES; l++) {
        acid[l] = sl_plain_exp(pka_ln + slope * (inverse[l] - 1.0 / SL_PKA_K), true);
    }
    for (int i = 1; i < e->n; i++) {
        const double per_k = -e->kj_mol[i] / SL_GAS_KJ_MOL_K;
        for (int l = 0; l < LANES; l++) {
            factor[i][l] = sl_plain_exp(per_k * (inverse[l] - 1.0 / SL_REFERENCE_K), true);
        }
    }
    for (int l = 0; l < LANES; l++) {
        at->share_mix[l] = 1.0 / (1.0 + acid[l] * now->protons_mix[l]);
        at->share_fibre[l] = 1.0 / (1.0 + acid[l] * now->protons_fibre[l]);
        at->loss[l] = member->loss[l] * factor[e->loss][l];
        at->fibre_loss[l] = ch->fibre_loss_per_min.value * at->loss[l];
        at->couple[l] = member->couple[l] * ch->couple_l_mol_min.value * factor[e->couple][l];
        at->hydrolysis[l] = now->hydrolysis[l] * factor[e->hydrolysis][l];
        at->thermal[l] = ch->thermal_per_min.value * factor[e->thermal][l];
        const double exchange = now->exchange * factor[e->diffusion][l];
        at->enter_h[l] = exchange * ch->peroxide_diffusion_cm2_s.value * member->peroxide_entry[l];
        at->enter_p[l] = exchange * ch->persulfate_diffusion_cm2_s.value * member->persulfate_entry[l];
    }
    for (int c = 0; c < SL_CHANNELS; c++) {
        for (int l = 0; l < LANES; l++) {
            at->channel[c][l] = factor[e->channel[c]][l];
            at->cystine[c][l] = ch->cystine.k[c].value * factor[e->beyond[c]][l] * member->cystine[c][l];
        }
    }
}

static void pace_any(lane_pace *at, const lane_phase *now, double temperature_k)
{
    pace_body(at, now, temperature_k);
}

WIDE static void pace_wide(lane_pace *at, const lane_phase *now, double temperature_k)
{
    pace_body(at, now, temperature_k);
}

/* One right-hand side for all lanes; the order of system.c. */
INLINE void slopes(const lane_phase *restrict now, const lane_pace *restrict at, double swelling,
                   double (*restrict y)[LANES], double (*restrict dydt)[LANES])
{
    const sl_chemistry *const ch = now->ch;
    const lane_members *const member = now->member;
    const double dissolve = ch->dissolve_per_min.value, half = ch->dissolve_half_mol_l.value;
    const double ku = ch->saturation_mol_l.value, kappa = ch->persulfate_partition.value;
    const double opens = ch->damage_opens.value, open_half = ch->damage_half.value;
    const double layer_share = ch->cystine_layer.value;
    const double used_each = ch->oxidant_per_cystine.value * ch->cystine_mol_l.value;
    const double bath =
        now->bath ? 1.0 : 0.0; /* no bool inside the loop: it would keep it from becoming vectors */
    const double first = now->second_order ? 0.0 : now->loss_k,
                 second = now->second_order ? now->loss_k : 0.0;
    const double away = now->away, dry = now->dry;
    const double *const restrict yH = y[AT_PEROXIDE];
    double *const restrict dH = dydt[AT_PEROXIDE];
    const double *const restrict yP = y[AT_PERSULFATE];
    double *const restrict dP = dydt[AT_PERSULFATE];
    const double *const restrict yU = y[AT_UNDISSOLVED];
    double *const restrict dU = dydt[AT_UNDISSOLVED];
    const double *const restrict yW = y[AT_WETNESS];
    double *const restrict dW = dydt[AT_WETNESS];
    const double *const restrict yh = y[AT_FIBRE_PEROXIDE];
    double *const restrict dh = dydt[AT_FIBRE_PEROXIDE];
    const double *const restrict yp = y[AT_FIBRE_PERSULFATE];
    double *const restrict dp = dydt[AT_FIBRE_PERSULFATE];
    const double *const restrict yC = y[AT_CYSTINE];
    double *const restrict dC = dydt[AT_CYSTINE];
    double *const restrict dX1 = dydt[AT_RIM_DOSE];
    double *const restrict dX2 = dydt[AT_RIM_DOSE + 1];
    double *const restrict dX3 = dydt[AT_RIM_DOSE + 2];
    double *const restrict dY1 = dydt[AT_CORE_DOSE];
    double *const restrict dY2 = dydt[AT_CORE_DOSE + 1];
    double *const restrict dY3 = dydt[AT_CORE_DOSE + 2];
    for (int l = 0; l < LANES; l++) {
        const double H = yH[l], P = yP[l], U = most(yU[l], 0.0);
        const double W = most(yW[l], 0.0);
        const double h = yh[l], p = yp[l], C = yC[l];
        const double saturation = ku * member->saturation[l];
        const double lost = first * H + second * H * fabs(H);
        const double coupled = at->couple[l] * at->share_mix[l] * H * P;
        const double hydrolysed = at->hydrolysis[l] * P;
        const double dissolved = dissolve * most(now->saturation_mol_l[l] - P, 0.0) * U / (U + half);
        const double gone = most(1.0 - C, 0.0);
        const double g =
            swelling * (1.0 + opens * member->opening[l] * gone / (gone + open_half)) * yW[l] * bath;
        const double in_h = g * at->enter_h[l] * (H - h);
        const double in_p = g * at->enter_p[l] * (kappa * member->partition[l] * P - p);
        dH[l] = bath * (hydrolysed - lost * at->loss[l] - coupled - away * H) - now->liquid_share[l] * in_h;
        dP[l] = bath * (dissolved - coupled - hydrolysed - at->thermal[l] * P - away * P) -
                now->liquid_share[l] * in_p;
        dU[l] = bath * (-dissolved - away * yU[l]);
        dW[l] = -dry * yW[l];
        const double u = at->share_mix[l] * most(H, 0.0), us = u / (1.0 + u / saturation);
        const double v = at->share_fibre[l] * most(h, 0.0), vs = v / (1.0 + v / saturation);
        const double hp = most(h, 0.0), pp = most(p, 0.0), Pp = most(P, 0.0);
        const double active = bath + (1.0 - bath) * W;
        dX1[l] = bath * W * at->channel[SL_PERHYDROXYL][l] * us;
        dX2[l] = bath * W * at->channel[SL_PERSULFATE][l] * Pp;
        dX3[l] = bath * W * at->channel[SL_RADICAL][l] * us * Pp;
        const double c1 = active * at->channel[SL_PERHYDROXYL][l] * vs;
        const double c2 = active * at->channel[SL_PERSULFATE][l] * pp;
        const double c3 = active * at->channel[SL_RADICAL][l] * vs * pp;
        dY1[l] = c1;
        dY2[l] = c2;
        dY3[l] = c3;
        const double attack = (at->cystine[SL_PERHYDROXYL][l] * c1 + at->cystine[SL_PERSULFATE][l] * c2 +
                               at->cystine[SL_RADICAL][l] * c3) *
                              most(C, 0.0) / (1.0 + gone / layer_share);
        const double used = used_each * attack;
        const double from_h = (hp + 0.5 * TINY_MOL_L) / (hp + pp + TINY_MOL_L);
        const double fibre_coupled = active * at->couple[l] * at->share_fibre[l] * hp * pp;
        dh[l] = in_h - active * at->fibre_loss[l] * hp - fibre_coupled - from_h * used;
        dp[l] = in_p - fibre_coupled - (1.0 - from_h) * used;
        dC[l] = -attack;
    }
}

INLINE void along(lane_state to, lane_state y, double h, lane_state slope)
{
    for (int s = 0; s < SHARED_STATES; s++) {
        for (int l = 0; l < LANES; l++) {
            to[s][l] = y[s][l] + h * slope[s][l];
        }
    }
}

INLINE void step_body(const lane_phase *now, const lane_pace at[3], const double swelling[3], double h,
                      lane_state y)
{
    lane_state k1, k2, k3, k4, mid;
    slopes(now, &at[0], swelling[0], y, k1);
    along(mid, y, 0.5 * h, k1);
    slopes(now, &at[1], swelling[1], mid, k2);
    along(mid, y, 0.5 * h, k2);
    slopes(now, &at[1], swelling[1], mid, k3);
    along(mid, y, h, k3);
    slopes(now, &at[2], swelling[2], mid, k4);
    for (int s = 0; s < SHARED_STATES; s++) {
        for (int l = 0; l < LANES; l++) {
            y[s][l] += h / 6.0 * (k1[s][l] + 2.0 * (k2[s][l] + k3[s][l]) + k4[s][l]);
        }
    }
    for (int l = 0; l < LANES; l++) {
        y[AT_UNDISSOLVED][l] = most(y[AT_UNDISSOLVED][l], 0.0); /* the last of it may overshoot */
    }
}

static void step_any(const lane_phase *now, const lane_pace at[3], const double swelling[3], double h,
                     lane_state y)
{
    step_body(now, at, swelling, h, y);
}

WIDE static void step_wide(const lane_phase *now, const lane_pace at[3], const double swelling[3], double h,
                           lane_state y)
{
    step_body(now, at, swelling, h, y);
}

static bool has_wide_vectors(void)
{
#if defined(HAS_WIDE)
    return __builtin_cpu_supports("avx2");
#else
    return false;
#endif
}

/* The fastest rates that a lane can meet in a phase, 1/min. */
typedef struct lane_rates {
    double any; /* of all: a step must be stable, or follow what is made and goes */
    double use; /* of what uses up oxidants by itself: while they last, a step must follow it */
} lane_rates;

static void meet_rates(lane_rates *rates, const lane_phase *now, const lane_pace *at, lane_state y)
{
    const sl_chemistry *const ch = now->ch;
    rates->any = most(rates->any, now->away + now->dry);
    for (int l = 0; l < LANES; l++) {
        const double open = 1.0 + ch->damage_opens.value * now->member->opening[l];
        const double enter = open * most(at->enter_h[l], at->enter_p[l]) * (1.0 + now->liquid_share[l]);
        /* The last of the solid goes fastest: room over half, and all is room under running water. */
        const double room = now->saturation_mol_l[l] * (now->away > 0.0 ? 1.0 : 0.5);
        const double dissolve = y[AT_UNDISSOLVED][0] > 0.0 ? ch->dissolve_per_min.value *
                                                                 (1.0 + room / ch->dissolve_half_mol_l.value)
                                                           : 0.0;
        const double all_mol_l = y[AT_PEROXIDE][l] + y[AT_PERSULFATE][l] + y[AT_UNDISSOLVED][l] +
                                 y[AT_FIBRE_PEROXIDE][l] + y[AT_FIBRE_PERSULFATE][l];
        const double loss = now->loss_k * (now->second_order ? 2.0 * all_mol_l : 1.0) * at->loss[l];
        const double couple = at->couple[l] * most(at->share_mix[l], at->share_fibre[l]) * all_mol_l;
        const double use = most(loss, at->fibre_loss[l]) + couple + at->hydrolysis[l] + at->thermal[l];
        rates->use = most(rates->use, use);
        rates->any = most(
            rates->any, now->away + (now->bath ? most(most(enter, dissolve), STABLE / FOLLOWS * use) : 0.0));
    }
}

static void enter_phase(lane_phase *now, const sl_scene *scene, const phase *here, const lane_members *member,
                        double porosity)
{
    const sl_chemistry *const ch = &scene->chemistry;
    const bool second = here->mix && here->mix->loss_l_mol_min.value > 0.0;
    *now = (lane_phase){.ch = ch, .member = member};
    now->bath = here->kind != PHASE_REST && here->mix;
    now->second_order = second;
    now->loss_k = !here->mix ? 0.0 : second ? here->mix->loss_l_mol_min.value : here->mix->loss_per_min.value;
    now->away = here->kind == PHASE_RINSE ? ch->rinse_per_min.value : 0.0;
    now->dry = here->dry_per_min;
    for (int l = 0; l < LANES; l++) {
        now->saturation_mol_l[l] = here->saturation_mol_l;
        now->liquid_share[l] = here->kind == PHASE_BOWL ? 0.0 : here->liquid_share / member->grams[l];
        const double ph = (here->mix ? here->mix->ph.value : ch->rest_ph.value) + member->ph_shift[l];
        const double fibre_ph = here->kind == PHASE_REST ? ch->rest_ph.value : ph - ch->fibre_ph_drop.value;
        now->warmth_k[l] = here->kind == PHASE_BOWL ? 0.0 : member->warmth_k[l];
        now->protons_mix[l] = pow(10.0, -ph);
        now->protons_fibre[l] = pow(10.0, -fibre_ph);
        now->hydrolysis[l] = ch->hydrolysis_per_min.value * pow(10.0, ph - HYDROLYSIS_PH);
    }
    const double radius_cm = ch->fibre_radius_um.value * CM_PER_UM;
    now->exchange = porosity * FIRST_MODE / (radius_cm * radius_cm) * SECONDS_PER_MIN;
    list_energies(&now->energies, ch);
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
}

/* What a member's history must satisfy; NaN fails every comparison. */
static bool in_range(lane_state y, double cystine, int *bad_lane)
{
    for (int l = 0; l < LANES; l++) {
        bool good = y[AT_CYSTINE][l] >= -SLACK && y[AT_CYSTINE][l] <= cystine + SLACK;
        for (int s = 0; s < AT_RIM_DOSE + 2 * SL_CHANNELS; s++) {
            good = good && y[s][l] >= -SLACK && y[s][l] <= 1e6;
        }
        if (!good) {
            *bad_lane = l;
            return false;
        }
    }
    return true;
}

typedef struct route {
    const sl_scene *scene;
    const sl_arm *arm;
    const lane_members *member;
    double porosity, cystine;
    lane_history *history; /* NULL in a bowl */
} route;

static void pace_lanes(lane_pace *at, const route *walk, const lane_phase *now, const phase *here,
                       double since_min)
{
    const double temperature_k = temperature_of(walk->scene, walk->arm, here, since_min);
    if (has_wide_vectors()) {
        pace_wide(at, now, temperature_k);
    } else {
        pace_any(at, now, temperature_k);
    }
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
static int stretches_of(stretch part[2], const phase *here, const lane_rates *rates)
{
    const double length = here->end_min - here->start_min;
    const double longest = fmin(LONGEST_STEP_MIN, STABLE / most(rates->any, 1e-9));
    const double fine = ACCURATE / most(rates->use, 1e-9), moments = USED_UP / most(rates->use, 1e-9);
    const double early = fine < longest ? fmin(moments, length) : 0.0;
    int n = 0;
    if (early > 0.0) {
        part[n++] = (stretch){here->start_min, here->start_min + early, steps_of(early, fine)};
    }
    if (early < length) {
        part[n++] = (stretch){here->start_min + early, here->end_min, steps_of(length - early, longest)};
    }
    return n;
}

static void walk_stretch(const route *walk, const phase *here, const lane_phase *now, const stretch *part,
                         lane_pace at[3], bool steady, lane_state y)
{
    const double h = (part->to_min - part->from_min) / part->steps;
    const bool wide = has_wide_vectors();
    const sl_chemistry *const ch = &walk->scene->chemistry;
    for (int i = 0; i < part->steps; i++) {
        const double t = part->from_min + i * h;
        const double when[3] = {t, t + 0.5 * h, t + h};
        double swelling[3];
        for (int k = 0; k < 3; k++) {
            swelling[k] = 1.0 - ch->swelling_deficit.value * exp(-when[k] / ch->swelling_time_min.value);
            if (!steady && (k > 0 || i == 0)) {
                pace_lanes(&at[k], walk, now, here, when[k]);
            }
        }
        if (wide) {
            step_wide(now, at, swelling, h, y);
        } else {
            step_any(now, at, swelling, h, y);
        }
        at[0] = at[2];
        if (walk->history) {
            keep(walk->history, here, i + 1 == part->steps ? part->to_min : when[2], y);
        }
    }
}

static bool walk_phase(const route *walk, const phase *here, lane_state y, int *bad_lane)
{
    lane_phase now;
    enter_phase(&now, walk->scene, here, walk->member, walk->porosity);
    lane_pace at[3];
    const bool steady = here->kind == PHASE_BOWL || sl_scene_isothermal(walk->scene);
    pace_lanes(&at[0], walk, &now, here, here->start_min);
    lane_pace warm = at[0];
    if (!steady) {
        pace_lanes(&warm, walk, &now, here, here->end_min);
    }
    lane_rates rates = {0};
    stretch part[2] = {{.steps = 0}};
    meet_rates(&rates, &now, &at[0], y);
    meet_rates(&rates, &now, &warm, y);
    const int n = stretches_of(part, here, &rates);
    const int steps = part[0].steps + part[1].steps;
    if (walk->history && walk->history->steps + steps > LANE_MOST_STEPS) {
        *bad_lane = 0;
        return false;
    }
    at[1] = at[2] = at[0];
    for (int i = 0; i < n; i++) {
        walk_stretch(walk, here, &now, &part[i], at, steady, y);
    }
    return in_range(y, walk->cystine, bad_lane);
}

static void fill(lane_state y, int state, double value)
{
    for (int l = 0; l < LANES; l++) {
        y[state][l] = value;
    }
}

static bool open_phase(const route *walk, const phase *here, const sl_step *step, lane_state y, int *bad_lane)
{
    if (step->kind == SL_STEP_REST) {
        fill(y, AT_PEROXIDE, 0.0);
        fill(y, AT_PERSULFATE, 0.0);
        fill(y, AT_UNDISSOLVED, 0.0);
    } else {
        fill(y, AT_WETNESS, 1.0);
    }
    if (step->kind != SL_STEP_APPLY) {
        return true;
    }
    const sl_charge charge =
        sl_mix_charge(here->mix, &walk->scene->chemistry, step->mix_g_per_g, step->hair_water_g_g);
    lane_state alone = {{0.0}};
    fill(alone, AT_PEROXIDE, charge.peroxide_mol_l);
    fill(alone, AT_PERSULFATE, charge.persulfate_mol_l);
    fill(alone, AT_UNDISSOLVED, charge.undissolved_mol_l);
    fill(alone, AT_WETNESS, 1.0);
    fill(alone, AT_CYSTINE, walk->cystine);
    if (step->mix_age_min > 0.0) {
        phase bowl = *here;
        bowl.kind = PHASE_BOWL;
        bowl.start_min = 0.0;
        bowl.end_min = step->mix_age_min;
        bowl.dry_per_min = 0.0;
        route in_bowl = *walk;
        in_bowl.history = NULL;
        in_bowl.porosity = 0.0; /* no hair to enter */
        if (!walk_phase(&in_bowl, &bowl, alone, bad_lane)) {
            return false;
        }
    }
    memcpy(y[AT_PEROXIDE], alone[AT_PEROXIDE], sizeof y[0]);
    memcpy(y[AT_PERSULFATE], alone[AT_PERSULFATE], sizeof y[0]);
    memcpy(y[AT_UNDISSOLVED], alone[AT_UNDISSOLVED], sizeof y[0]);
    return true;
}

bool lanes_run(lane_history *history, const sl_scene *scene, const sl_arm *arm, double porosity,
               double cystine, const lane_members *members, int *bad_lane)
{
    const sl_treatment treatment = {.scene = scene,
                                    .arm = arm,
                                    .porosity = porosity,
                                    .cystine_intact = cystine,
                                    .until_min = scene->until_min};
    const route all = {scene, arm, members, porosity, cystine, history};
    planned plan;
    phases_of(&plan, &treatment);
    lane_state y = {{0.0}};
    fill(y, AT_CYSTINE, cystine);
    fill(y, AT_WETNESS, 1.0);
    history->steps = 0;
    keep(history, NULL, 0.0, y);
    for (int p = 0; p < plan.n; p++) {
        if (plan.step[p] && !open_phase(&all, &plan.phases[p], plan.step[p], y, bad_lane)) {
            return false;
        }
        if (!walk_phase(&all, &plan.phases[p], y, bad_lane)) {
            return false;
        }
    }
    history->steps--; /* entries 0..steps */
    return true;
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
