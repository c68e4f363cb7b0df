/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What must hold for every scene, tried on 1,000 random ones: nothing bound comes back,
 * shares stay shares, doses never fall, peroxide and persulfate balances close, a stagger
 * only shifts the clock, equal arms are equal, and the same seed gives the same bytes.
 *
 * Scenes are made in memory from the built chemistry, each constant multiplied by up to 2.5
 * either way. The generator is SplitMix64 (Steele, Lea & Flood 2014), so that a number printed
 * on failure makes the scene again anywhere.
 */
#include <float.h>
#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "slowlift/timeline.h"
#include "tools/built_scene.h"
#include "unit/suite.h"

enum { SCENES = 1000, TIMES = 25, ARMS = 3 };
enum { FIRST, SHIFTED, TWIN }; /* the arms of a random scene */

/* Solver steps are kept within 1e-10 and reading between them adds as much; a dozen of each
 * between two output times stays under this. */
static const double SLACK = 5e-9;

/* ---- random scenes ------------------------------------------------------------------------ */

static uint64_t random_bits(uint64_t *state)
{
    uint64_t z = (*state += UINT64_C(0x9E3779B97F4A7C15));
    z = (z ^ (z >> 30)) * UINT64_C(0xBF58476D1CE4E5B9);
    z = (z ^ (z >> 27)) * UINT64_C(0x94D049BB133111EB);
    return z ^ (z >> 31);
}

static double between(uint64_t *state, double low, double high)
{
    return low + (high - low) * ((double)(random_bits(state) >> 11) * 0x1.0p-53);
}

static int one_of(uint64_t *state, int n)
{
    return (int)(random_bits(state) % (uint64_t)n);
}

static void shake(uint64_t *state, sl_param *param)
{
    param->value *= exp(between(state, -0.92, 0.92)); /* up to 2.5 times more or less */
}

static void shake_rates(uint64_t *state, sl_rates *rates)
{
    for (int j = 0; j < SL_CHANNELS; j++) {
        shake(state, &rates->k[j]);
    }
}

static void random_chemistry(uint64_t *state, sl_chemistry *c)
{
    sl_param *const shaken[] = {&c->saturation_mol_l,
                                &c->fibre_loss_per_min,
                                &c->couple_l_mol_min,
                                &c->hydrolysis_per_min,
                                &c->dissolve_per_min,
                                &c->dissolve_half_mol_l,
                                &c->peroxide_diffusion_cm2_s,
                                &c->persulfate_diffusion_cm2_s,
                                &c->damage_opens,
                                &c->damage_half,
                                &c->lipids_open,
                                &c->lipids_loss,
                                &c->persulfate_partition,
                                &c->cystine_mol_l,
                                &c->cystine_layer,
                                &c->rinse_per_min,
                                &c->dry_per_min,
                                &c->rest_dry_per_min,
                                &c->dye_mol_l,
                                &c->melanin[SL_EUMELANIN].held_mol_l,
                                &c->melanin[0].yellow_ratio,
                                &c->melanin[1].yellow_ratio,
                                &c->swelling_time_min,
                                &c->wrapped_time_min};
    for (size_t i = 0; i < sizeof shaken / sizeof shaken[0]; i++) {
        shake(state, shaken[i]);
    }
    shake_rates(state, &c->cystine);
    shake_rates(state, &c->melanin[SL_EUMELANIN].rates);
    shake_rates(state, &c->melanin[SL_PHEOMELANIN].rates);
    c->pigment_feedback = one_of(state, 5) == 0;
}

static sl_mix random_mix(uint64_t *state, const sl_mix *like)
{
    sl_mix mix = *like;
    mix.powder_parts = one_of(state, 4) == 0 ? 0 : between(state, 0.5, 1.5);
    mix.developer_parts = one_of(state, 3) == 0 ? 0 : between(state, 0.5, 3);
    mix.water_parts = between(state, mix.developer_parts > 0 ? 0 : 1, 3);
    mix.developer_pct = between(state, 0.5, 12);
    mix.potassium_persulfate = between(state, 0, 0.5);
    mix.ammonium_persulfate = between(state, 0, 0.2);
    mix.sodium_persulfate = between(state, 0, 0.1);
    mix.percarbonate = one_of(state, 3) == 0 ? between(state, 0, 0.2) : 0;
    mix.activity = between(state, 0.3, 1);
    mix.ph.value = between(state, 7, 11);
    mix.ph_kj_mol = one_of(state, 2) == 0 ? between(state, 0, 55) : 0;
    mix.ph_fall_per_min = one_of(state, 2) == 0 ? between(state, -0.01, 0.03) : 0;
    mix.ph_fades_per_min = between(state, 0, 0.1);
    mix.loss_per_min.value = between(state, 0, 0.05);
    mix.loss_l_mol_min.value = one_of(state, 2) == 0 ? between(state, 0, 0.02) : 0;
    return mix;
}

static sl_step random_step(uint64_t *state, int i)
{
    sl_step step = {.kind = i == 0 ? SL_STEP_APPLY : (sl_step_kind)one_of(state, 4)};
    step.duration_min = between(state, 0.5, i == 0 ? 30 : 15);
    step.shampoos = 1 + one_of(state, 3);
    step.mix = one_of(state, BUILT_MIXES);
    step.mix_age_min = one_of(state, 2) == 0 ? 0 : between(state, 0, 30);
    step.mix_g_per_g = between(state, 1, 8);
    step.hair_water_g_g = one_of(state, 2) == 0 ? 0 : between(state, 0, 0.6);
    step.covered = one_of(state, 2) == 0;
    return step;
}

static void random_hair(uint64_t *state, sl_hair *hair)
{
    hair->porosity = between(state, 0.3, 3);
    hair->cystine_intact = between(state, 0.5, 1);
    for (int kind = 0; kind < SL_MELANINS; kind++) {
        for (int stage = 0; stage < SL_STAGES; stage++) {
            hair->pool[kind][stage] = between(state, 0, stage == SL_BOUND ? 3 : 0.5);
        }
    }
}

/* Scene number `seed`, always the same one. Arm SHIFTED is FIRST, *shift_min later; TWIN is FIRST. */
static void random_scene(built_scene *b, uint64_t seed, double *shift_min)
{
    uint64_t state = seed;
    built_arms(b);
    random_chemistry(&state, &b->scene.chemistry);
    for (int i = 0; i < BUILT_HAIRS; i++) {
        random_hair(&state, &b->hairs[i]);
    }
    for (int i = 0; i < BUILT_DYES; i++) {
        shake_rates(&state, &b->dyes[i].rates);
        b->dyes[i].rim_share.value = between(&state, 0, 1);
        b->dyes[i].rates.own_activation[SL_RADICAL] = one_of(&state, 4) == 0;
        b->dyes[i].rates.activation_kj_mol[SL_RADICAL] = between(&state, 40, 90);
    }
    for (int i = 0; i < BUILT_MIXES; i++) {
        b->mixes[i] = random_mix(&state, &b->mixes[i]);
    }
    b->scene.place = (sl_place)one_of(&state, SL_PLACE_COUNT);
    b->scene.room_c = between(&state, 15, 35);
    b->scene.n_arms = ARMS;
    b->scene.until_min = between(&state, 45, 90);
    *shift_min = between(&state, 0, 10);
    sl_arm arm = {.name = "first", .contact_min = between(&state, 0, 5), .n_steps = 1 + one_of(&state, 5)};
    for (int i = 0; i < arm.n_steps; i++) {
        arm.steps[i] = random_step(&state, i);
    }
    b->arms[FIRST] = arm;
    b->arms[TWIN] = arm;
    b->arms[SHIFTED] = arm;
    b->arms[SHIFTED].contact_min += *shift_min;
}

/* ---- solving one ---------------------------------------------------------------------------- */

static sl_solver *solver;

static void open_solver(void)
{
    sl_error error;
    solver = sl_solver_new(&error);
    ck_assert_ptr_nonnull(solver);
}

static void close_solver(void)
{
    sl_solver_free(solver);
}

/* Even times up to the moment that the shifted arm's scene ends for both. */
static void spread(double times[TIMES], double until_min)
{
    for (int i = 0; i < TIMES; i++) {
        times[i] = until_min * i / (TIMES - 1);
    }
}

static sl_timeline *solved(const built_scene *b, const double *times, int n_times, uint64_t seed)
{
    sl_error error = {.code = SL_OK};
    sl_timeline *timeline = NULL;
    ck_assert_msg(sl_timeline_solve(&timeline, &b->scene, times, n_times, solver, NULL, &error),
                  "scene %llu: %s %s", (unsigned long long)seed, sl_code_name(error.code), error.found);
    return timeline;
}

#define HOLD(condition, ...)                                                                                 \
    do {                                                                                                     \
        if (!(condition)) {                                                                                  \
            char what[256];                                                                                  \
            snprintf(what, sizeof what, __VA_ARGS__);                                                        \
            ck_abort_msg("scene %llu: %s", (unsigned long long)seed, what);                                  \
        }                                                                                                    \
    } while (0)

static bool is_share(double x)
{
    return x >= 0 && x <= 1; /* false for what is not a number */
}

static void check_cell(uint64_t seed, const sl_cell *cell, const sl_cell *before, int n_dyes)
{
    HOLD(is_share(cell->base_moved), "base moved %.17g", cell->base_moved);
    HOLD(is_share(cell->cystine_lost), "cystine lost %.17g", cell->cystine_lost);
    HOLD(cell->cystine_lost >= before->cystine_lost - SLACK, "cystine came back");
    HOLD(isfinite(cell->levels_lifted) && cell->levels_lifted >= 0, "lifted %g", cell->levels_lifted);
    HOLD(cell->level <= 10.5, "level %g", cell->level);
    HOLD(n_dyes == 0 ? cell->colour_left < 0 : is_share(cell->colour_left), "left %.17g", cell->colour_left);
    HOLD(cell->colour_left <= before->colour_left + SLACK, "colour came back");
    for (int i = 0; i < n_dyes; i++) {
        HOLD(is_share(cell->amounts.dye_left[i]), "dye left %.17g", cell->amounts.dye_left[i]);
        HOLD(cell->amounts.dye_left[i] <= before->amounts.dye_left[i] + SLACK, "dye came back");
        HOLD(cell->loosened[i] >= 0 && cell->loosened[i] + cell->amounts.dye_left[i] <= 1 + 1e-12,
             "washed out %.17g", cell->loosened[i]);
    }
    for (int kind = 0; kind < SL_MELANINS; kind++) {
        HOLD(cell->amounts.pool[kind][SL_BOUND] <= before->amounts.pool[kind][SL_BOUND] + 3 * SLACK,
             "bound melanin rose");
        for (int stage = 0; stage < SL_STAGES; stage++) {
            HOLD(isfinite(cell->amounts.pool[kind][stage]) && cell->amounts.pool[kind][stage] >= 0, "pool %g",
                 cell->amounts.pool[kind][stage]);
        }
    }
}

static void check_moment(uint64_t seed, const sl_moment *now, const sl_moment *before)
{
    const double amounts[] = {
        now->peroxide_mol_l,         now->persulfate_mol_l, now->undissolved_mol_l, now->fibre_peroxide_mol_l,
        now->fibre_persulfate_mol_l, now->leach_min,        now->shampoos};
    for (size_t i = 0; i < sizeof amounts / sizeof amounts[0]; i++) {
        HOLD(isfinite(amounts[i]) && amounts[i] >= 0, "amount %zu is %g", i, amounts[i]);
    }
    HOLD(is_share(now->wetness) && is_share(now->cystine_intact), "wetness or cystine");
    HOLD(now->leach_min >= before->leach_min && now->shampoos >= before->shampoos, "washing went back");
    for (int j = 0; j < SL_CHANNELS; j++) {
        HOLD(isfinite(now->rim_dose[j]) && now->rim_dose[j] >= before->rim_dose[j] - SLACK,
             "rim dose %d fell", j);
        HOLD(isfinite(now->core_dose[j]) && now->core_dose[j] >= before->core_dose[j] - SLACK,
             "core dose %d fell", j);
    }
}

START_TEST(no_property_of_a_random_scene_is_broken)
{
    for (uint64_t seed = 1; seed <= SCENES; seed++) {
        static built_scene b;
        double shift;
        double times[TIMES];
        random_scene(&b, seed, &shift);
        spread(times, b.scene.until_min);
        sl_timeline *timeline = solved(&b, times, TIMES, seed);
        for (int z = 0; z < b.scene.n_zones; z++) {
            const sl_cell *before = sl_timeline_cell(timeline, FIRST, z, 0);
            sl_moment moment;
            sl_moment moment_before;
            sl_timeline_moment(timeline, FIRST, z, 0, &moment_before);
            for (int i = 0; i < TIMES; i++) {
                const sl_cell *cell = sl_timeline_cell(timeline, FIRST, z, i);
                check_cell(seed, cell, before, b.zones[z].recipe.n_dyes);
                sl_timeline_moment(timeline, FIRST, z, times[i], &moment);
                check_moment(seed, &moment, &moment_before);
                before = cell;
                moment_before = moment;
            }
        }
        sl_timeline_free(timeline);
    }
}
END_TEST

static bool same_cell(const sl_cell *one, const sl_cell *two)
{
    return memcmp(&one->colour_left, &two->colour_left, sizeof one->colour_left) == 0 &&
           memcmp(&one->base_moved, &two->base_moved, sizeof one->base_moved) == 0 &&
           memcmp(&one->cystine_lost, &two->cystine_lost, sizeof one->cystine_lost) == 0 &&
           memcmp(&one->level, &two->level, sizeof one->level) == 0 &&
           memcmp(one->amounts.pool, two->amounts.pool, sizeof one->amounts.pool) == 0 &&
           memcmp(one->amounts.dye_left, two->amounts.dye_left, sizeof one->amounts.dye_left) == 0;
}

START_TEST(equal_arms_and_equal_seeds_give_equal_bytes)
{
    for (uint64_t seed = 1; seed <= SCENES; seed++) {
        static built_scene b, again;
        double shift;
        double times[TIMES];
        random_scene(&b, seed, &shift);
        random_scene(&again, seed, &shift);
        spread(times, b.scene.until_min);
        sl_timeline *timeline = solved(&b, times, TIMES, seed);
        sl_timeline *repeated = solved(&again, times, TIMES, seed);
        for (int z = 0; z < b.scene.n_zones; z++) {
            for (int i = 0; i < TIMES; i++) {
                const sl_cell *cell = sl_timeline_cell(timeline, FIRST, z, i);
                HOLD(same_cell(cell, sl_timeline_cell(timeline, TWIN, z, i)), "twin arms differ");
                HOLD(same_cell(cell, sl_timeline_cell(repeated, FIRST, z, i)), "the same scene differs");
            }
        }
        sl_timeline_free(timeline);
        sl_timeline_free(repeated);
    }
}
END_TEST

START_TEST(a_stagger_shifts_the_timeline_and_nothing_else)
{
    for (uint64_t seed = 1; seed <= SCENES; seed++) {
        static built_scene b;
        double shift;
        random_scene(&b, seed, &shift);
        sl_timeline *timeline = solved(&b, NULL, 0, seed);
        const double last = b.scene.until_min - shift; /* the shifted arm ends with the scene */
        for (int z = 0; z < b.scene.n_zones; z++) {
            for (int i = 0; i < 10; i++) {
                const double t = last * (i + 0.5) / 10;
                sl_cell one;
                sl_cell two;
                sl_timeline_at(timeline, FIRST, z, t, NULL, &one);
                sl_timeline_at(timeline, SHIFTED, z, t + shift, NULL, &two);
                HOLD(fabs(one.colour_left - two.colour_left) < SLACK, "colour left at %g min", t);
                HOLD(fabs(one.base_moved - two.base_moved) < SLACK, "base moved at %g min", t);
                HOLD(fabs(one.cystine_lost - two.cystine_lost) < SLACK, "cystine lost at %g min", t);
            }
        }
        sl_timeline_free(timeline);
    }
}
END_TEST

/* ---- balances --------------------------------------------------------------------------------- */

/* Rates of docs/science.md that make or use up oxidant while a mix lies on the hair, in mol/L
 * of liquid per minute, from the library's own amounts. */
typedef struct balance {
    double peroxide, persulfate;
} balance;

/* `since`: minutes since contact. */
static balance used(const built_scene *b, const sl_treatment *of, const sl_moment *m, double T, double phi,
                    double since)
{
    const sl_chemistry *c = &b->scene.chemistry;
    const sl_mix *mix = &b->mixes[of->arm->steps[0].mix];
    const double ph = sl_mix_ph(mix, T) + sl_mix_drift(mix, since + of->arm->steps[0].mix_age_min);
    const double H = m->peroxide_mol_l;
    const double P = m->persulfate_mol_l;
    const double h = m->fibre_peroxide_mol_l;
    const double p = m->fibre_persulfate_mol_l;
    const double v = h * sl_perhydroxyl_share(c, ph - c->fibre_ph_drop.value, T);
    const double v_sat = v / (1 + v / c->saturation_mol_l.value);
    const double lose = sl_arrhenius(c->loss_activation_kj_mol.value, T);
    const double loss = lose * (mix->loss_l_mol_min.value > 0 ? mix->loss_l_mol_min.value * H * H
                                                              : mix->loss_per_min.value * H);
    const double couple = c->couple_l_mol_min.value * sl_arrhenius(c->couple_activation_kj_mol.value, T);
    const double in_mix = couple * H * sl_perhydroxyl_share(c, ph, T) * P;
    const double in_fibre = couple * v * p;
    const double hydrolysed = c->hydrolysis_per_min.value *
                              sl_arrhenius(c->hydrolysis_activation_kj_mol.value, T) * pow(10, ph - 10.3) * P;
    const double split = c->thermal_per_min.value * sl_arrhenius(c->thermal_activation_kj_mol.value, T) * P;
    const double attack[SL_CHANNELS] = {v_sat, p, v_sat * p};
    double cystine = 0;
    for (int j = 0; j < SL_CHANNELS; j++) {
        cystine += c->cystine.k[j].value * sl_arrhenius(c->channel_activation_kj_mol[j].value, T) * attack[j];
    }
    cystine *= c->oxidant_per_cystine.value * c->cystine_mol_l.value * m->cystine_intact /
               (1 + (1 - m->cystine_intact) / c->cystine_layer.value);
    const double share = h + p > 0 ? h / (h + p) : 0.5;
    return (balance){
        .peroxide = loss + in_mix - hydrolysed +
                    phi * (c->fibre_loss_per_min.value * lose * h + in_fibre + cystine * share),
        .persulfate = in_mix + hydrolysed + split + phi * (in_fibre + cystine * (1 - share)),
    };
}

/* Five-point Gauss-Legendre on panels of 1/80 of the dwell, narrower at the start. */
static balance integrate(const built_scene *b, const sl_course *course, const sl_treatment *of, double dwell,
                         double phi)
{
    static const double node[5] = {-0.9061798459386640, -0.5384693101056831, 0, 0.5384693101056831,
                                   0.9061798459386640};
    static const double weight[5] = {0.2369268850561891, 0.4786286704993665, 0.5688888888888889,
                                     0.4786286704993665, 0.2369268850561891};
    balance sum = {0, 0};
    for (int i = 0; i < 80; i++) {
        const double from = dwell * i * i / 6400.0;
        const double to = dwell * (i + 1) * (i + 1) / 6400.0;
        for (int k = 0; k < 5; k++) {
            const double t = (from + to) / 2 + (to - from) / 2 * node[k];
            const double clock = of->arm->contact_min + t;
            sl_moment m;
            sl_course_at(course, clock, &m);
            const balance rate = used(b, of, &m, sl_scene_temperature_k(&b->scene, clock, t), phi, t);
            sum.peroxide += (to - from) / 2 * weight[k] * rate.peroxide;
            sum.persulfate += (to - from) / 2 * weight[k] * rate.persulfate;
        }
    }
    return sum;
}

START_TEST(peroxide_and_persulfate_balances_close)
{
    sl_course *course = NULL;
    for (uint64_t seed = 1; seed <= SCENES; seed++) {
        static built_scene b;
        double shift;
        sl_error error;
        random_scene(&b, seed, &shift);
        const sl_arm *arm = &b.arms[FIRST];
        const sl_step *step = &arm->steps[0];
        const sl_treatment treatment = {.scene = &b.scene,
                                        .arm = arm,
                                        .porosity = b.hairs[0].porosity,
                                        .cystine_intact = b.hairs[0].cystine_intact,
                                        .until_min = b.scene.until_min};
        HOLD(sl_course_solve(&course, &treatment, solver, &error), "not solved");
        const sl_charge charge =
            sl_mix_charge(&b.mixes[step->mix], &b.scene.chemistry, step->mix_g_per_g, step->hair_water_g_g);
        const double phi = b.scene.chemistry.fibre_water_ml_g.value / charge.liquid_ml_per_g;
        const double dwell = step->duration_min * (1 - 1e-9);
        sl_moment start;
        sl_moment end;
        sl_course_at(course, arm->contact_min + dwell * 1e-12, &start);
        sl_course_at(course, arm->contact_min + dwell, &end);
        const balance gone = integrate(&b, course, &treatment, dwell, phi);
        const double peroxide = start.peroxide_mol_l - end.peroxide_mol_l - phi * end.fibre_peroxide_mol_l;
        const double persulfate = start.persulfate_mol_l + start.undissolved_mol_l - end.persulfate_mol_l -
                                  end.undissolved_mol_l - phi * end.fibre_persulfate_mol_l;
        /* 400 points integrate smooth rates to 1e-9, and the amounts they read are good to some 1e-9 */
        const double bound =
            1e-8 * (1 + charge.peroxide_mol_l + charge.persulfate_mol_l + charge.undissolved_mol_l);
        HOLD(fabs(peroxide - gone.peroxide) < bound, "peroxide: %.9g gone, %.9g used", peroxide,
             gone.peroxide);
        HOLD(fabs(persulfate - gone.persulfate) < bound, "persulfate: %.9g gone, %.9g used", persulfate,
             gone.persulfate);
    }
    sl_course_free(course);
}
END_TEST

START_SUITE("random scenes")
FIXTURE_ONCE(open_solver, close_solver)
ADD(no_property_of_a_random_scene_is_broken)
ADD(equal_arms_and_equal_seeds_give_equal_bytes)
ADD(a_stagger_shifts_the_timeline_and_nothing_else)
ADD(peroxide_and_persulfate_balances_close)
END_SUITE
