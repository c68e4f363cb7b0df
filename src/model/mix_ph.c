/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The pH of a mix by what it holds: once for a mix, a line in 1/T, a curve over its age, and how far it may
 * lie off. Equations:
 * docs/science.md, "pH of a mix". See solution.h.
 */
#include <math.h>

#include "slowlift/solution.h"

static const double LN_10 = 2.302585092994046;
static const double WARM_K = 308.15; /* 35 C; with 25 C the ends of the line */
/* What is assumed: 95 of 100 amounts of an ingredient lie within this factor, by its grade; and how far the
 * balance itself may lie off: ion pairs that it leaves out, constants from memory. */
static const double BALANCE_OFF = 0.05;
static const double amount_within[SL_GRADE_COUNT] = {
    [SL_GRADE_ASSUMED] = 1.15,  [SL_GRADE_FITTED] = 1.15,   [SL_GRADE_FROM_MEMORY] = 1.15,
    [SL_GRADE_COMPUTED] = 1.15, [SL_GRADE_PUBLISHED] = 1.08, [SL_GRADE_MEASURED_HERE] = 1.02};

static bool ph_of(const sl_mix *mix, const sl_chemistry *chemistry, double temperature_k, double *ph)
{
    const sl_solution solution = sl_mix_solution(mix, chemistry);
    sl_ionised ionised;
    const bool balanced = sl_solution_ionise(&solution, temperature_k, &ionised);
    *ph = ionised.ph;
    return balanced;
}

/* ---- the course ---------------------------------------------------------------------------- */

/* Persulfate used up by peroxide, by hydroxide and by itself, and ammonia, all in mol/L. */
enum { COUPLED, HYDROLYSED, SPLIT, AMMONIA, USED };
static const double STEP_MIN = 10.0, FIRST_MIN = 30.0, SECOND_MIN = 60.0;

typedef struct ageing {
    const sl_mix *mix;
    const sl_chemistry *chemistry;
    sl_solution fresh;
    double persulfate, solid; /* of the fresh mix, the solid besides */
} ageing;

static double peroxide_at(const ageing *of, double age_min, const double used[USED])
{
    const double fresh = of->fresh.acid[SL_PEROXIDE], second = of->mix->loss_l_mol_min.value;
    const double kept = second > 0.0 ? fresh / (1.0 + second * fresh * age_min)
                                     : fresh * exp(-of->mix->loss_per_min.value * age_min);
    return fmax(kept - used[COUPLED] + used[HYDROLYSED], 0.0);
}

/* What is dissolved at an age, the balance of its charges at 32 C, and how fast it is used up. Solid
 * dissolves as fast as what is dissolved is used up; a persulfate that is gone is two sulfates. */
static bool ageing_at(const ageing *of, double age_min, const double used[USED], double *ph,
                      double rate[USED])
{
    const sl_chemistry *const ch = of->chemistry;
    const double gone = used[COUPLED] + used[HYDROLYSED] + used[SPLIT], from_solid = fmin(gone, of->solid);
    const double persulfate = fmax(of->persulfate - (gone - from_solid), 0.0);
    sl_solution now = of->fresh;
    sl_ionised ionised;
    now.strong[SL_POTASSIUM] += 2.0 * from_solid;
    now.strong[SL_PEROXYDISULFATE] = persulfate;
    now.acid[SL_SULFATE] += 2.0 * fmin(gone, of->persulfate + of->solid);
    now.acid[SL_AMMONIA] = fmax(now.acid[SL_AMMONIA] - used[AMMONIA], 0.0);
    now.acid[SL_PEROXIDE] = peroxide_at(of, age_min, used);
    if (!sl_solution_ionise(&now, SL_REFERENCE_K, &ionised)) {
        return false;
    }
    const double ionised_peroxide =
        now.acid[SL_PEROXIDE] * sl_perhydroxyl_share(ch, ionised.ph, SL_REFERENCE_K);
    *ph = ionised.ph;
    rate[COUPLED] = ch->couple_l_mol_min.value * ionised_peroxide * persulfate;
    rate[HYDROLYSED] = ch->hydrolysis_per_min.value * pow(10.0, ionised.ph - SL_HYDROLYSIS_PH) * persulfate;
    rate[SPLIT] = ch->thermal_per_min.value * persulfate;
    rate[AMMONIA] = ch->ammonia_leaves_per_min.value * ionised.share[SL_AMMONIA][1] * now.acid[SL_AMMONIA];
    return true;
}

/* By the midpoint rule. */
static bool age(const ageing *of, double from_min, double to_min, double used[USED], double *ph)
{
    double rate[USED], half[USED];
    for (double t = from_min; t < to_min - 0.5 * STEP_MIN; t += STEP_MIN) {
        if (!ageing_at(of, t, used, ph, rate)) {
            return false;
        }
        for (int i = 0; i < USED; i++) {
            half[i] = used[i] + 0.5 * STEP_MIN * rate[i];
        }
        if (!ageing_at(of, t + 0.5 * STEP_MIN, half, ph, rate)) {
            return false;
        }
        for (int i = 0; i < USED; i++) {
            used[i] += STEP_MIN * rate[i];
        }
    }
    return ageing_at(of, to_min, used, ph, rate);
}

/* Through what has come of it after half an hour and after an hour; no more in the second half than in the
 * first, and at least a twentieth of it. */
static bool settle_course(sl_mix *mix, const sl_chemistry *chemistry)
{
    sl_mix new = *mix;
    new.activity = 1.0;
    const sl_charge charge = sl_mix_charge(&new, chemistry, 1.0, 0.0);
    const ageing of = {.mix = mix,
                       .chemistry = chemistry,
                       .fresh = sl_mix_solution(mix, chemistry),
                       .persulfate = charge.persulfate_mol_l,
                       .solid = charge.undissolved_mol_l};
    double used[USED] = {0.0}, rate[USED], fresh = 0.0, first = 0.0, second = 0.0;
    mix->ph_fall_per_min = mix->ph_fades_per_min = 0.0;
    if (!ageing_at(&of, 0.0, used, &fresh, rate) || !age(&of, 0.0, FIRST_MIN, used, &first) ||
        !age(&of, FIRST_MIN, SECOND_MIN, used, &second)) {
        return false;
    }
    const double fall = fresh - first;
    const double later = fabs(fall) > 0.0 ? fmax(1.05, fmin((fresh - second) / fall, 2.0)) : 2.0;
    mix->ph_fades_per_min = (2.0 - later) / (later - 1.0) / SECOND_MIN;
    mix->ph_fall_per_min = fall / FIRST_MIN * (1.0 + mix->ph_fades_per_min * FIRST_MIN);
    return true;
}

/* ---- the doubt --------------------------------------------------------------------------------- */

/* Square of what more or less of one ingredient does to the pH. */
static bool amount_doubt(const sl_mix *mix, const sl_chemistry *chemistry, int part, int i, double *square)
{
    sl_mix more = *mix, less = *mix;
    double high = 0.0, low = 0.0;
    more.holds[part][i].value *= amount_within[mix->holds[part][i].grade];
    less.holds[part][i].value /= amount_within[mix->holds[part][i].grade];
    const bool balanced =
        ph_of(&more, chemistry, SL_PKA_K, &high) && ph_of(&less, chemistry, SL_PKA_K, &low);
    *square = 0.25 * (high - low) * (high - low);
    return balanced;
}

bool sl_mix_settle(sl_mix *mix, const sl_chemistry *chemistry)
{
    double warm = 0.0;
    if (!mix->ph_computed) {
        return true;
    }
    mix->ph = (sl_param){.grade = SL_GRADE_COMPUTED};
    if (!ph_of(mix, chemistry, SL_PKA_K, &mix->ph.value) || !ph_of(mix, chemistry, WARM_K, &warm)) {
        return false;
    }
    mix->ph_kj_mol = SL_GAS_KJ_MOL_K * LN_10 * (mix->ph.value - warm) / (1.0 / SL_PKA_K - 1.0 / WARM_K);
    const sl_solution solution = sl_mix_solution(mix, chemistry);
    const double interaction = sl_solution_doubt(&solution, SL_PKA_K);
    double sum = BALANCE_OFF * BALANCE_OFF + interaction * interaction;
    for (int part = 0; part < SL_HOLDERS; part++) {
        for (int i = 0; i < SL_INGREDIENTS; i++) {
            double square = 0.0;
            if (mix->holds[part][i].value <= 0.0) {
                continue;
            }
            if (!amount_doubt(mix, chemistry, part, i, &square)) {
                return false;
            }
            sum += square;
            mix->ph.grade =
                mix->holds[part][i].grade < mix->ph.grade ? mix->holds[part][i].grade : mix->ph.grade;
        }
    }
    mix->ph_doubt = sqrt(sum);
    return settle_course(mix, chemistry);
}
