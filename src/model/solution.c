/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Charge balance: for activity coefficients that stand, the sum of charges falls with the pH, so that one pH
 * balances it; coefficients follow from the ions found, until they no longer change. See solution.h.
 */
#include "slowlift/solution.h"

#include <assert.h>
#include <math.h>

/* ---- constants -------------------------------------------------------------------------- */

static const double LN_10 = 2.302585092994046, ROOM_K = 298.15;

/* a + b T + c/T + d lg T + e/T^2 + f T^2 */
typedef struct lg_of_t {
    double a, b, c, d, e, f;
} lg_of_t;

static double at(const lg_of_t *of, double t)
{
    return of->a + of->b * t + of->c / t + of->d * log10(t) + of->e / (t * t) + of->f * t * t;
}

/* From a value at 25 C and an enthalpy (van 't Hoff), kJ/mol. */
static double van_t_hoff(double lg_25c, double enthalpy_kj_mol, double t)
{
    return lg_25c - enthalpy_kj_mol / (SL_GAS_KJ_MOL_K * LN_10) * (1.0 / t - 1.0 / ROOM_K);
}

/* phreeqc.dat of the general aqueous database of the United States Geological Survey (read as a file). */
static const lg_of_t water = {389.23, 0.172, -13111.0, -163.01, 2715.0, -8.11e-5},
                     ammonium = {0.6322, -0.001225, -2835.76, 0.0, 0.0, 0.0},
                     to_bicarbonate = {107.8871, 0.03252849, -5151.79, -38.92561, 563713.9, 0.0},
                     to_carbon_dioxide = {464.1965, 0.09344813, -26986.16, -165.75951, 2248628.9, 0.0},
                     silica_once = {-302.3724, -0.050698, 15669.69, 108.18466, -1119669.0, 0.0},
                     silica_twice = {-294.0184, -0.07265, 11204.49, 108.18466, -1119669.0, 0.0},
                     to_bisulfate = {-56.889, 0.006473, 2307.9, 19.8858, 0.0, 0.0};

double sl_water_lg(double temperature_k)
{
    return at(&water, temperature_k);
}

double sl_acid_lg(sl_acid acid, int lost, double t)
{
    assert(acid < SL_ACIDS && lost >= 0 && lost < SL_MOST_PROTONS);
    switch (acid) {
    case SL_AMMONIA:
        return at(&ammonium, t);
    case SL_ETHANOLAMINE: /* Bates & Pinching 1951, J. Res. Natl. Bur. Stand. 46, 349 (from memory) */
        return van_t_hoff(-9.498, 50.5, t);
    case SL_CARBONATE:
        return lost == 0 ? at(&to_bicarbonate, t) - at(&to_carbon_dioxide, t) : -at(&to_bicarbonate, t);
    case SL_SILICATE:
        return lost == 0 ? at(&silica_once, t) : at(&silica_twice, t) - at(&silica_once, t);
    case SL_PHOSPHATE: { /* Goldberg, Kishore & Lennen 2002, J. Phys. Chem. Ref. Data 31, 231 (from memory) */
        static const double lg[] = {-2.148, -7.198, -12.35}, enthalpy[] = {-8.0, 3.6, 16.0};
        return van_t_hoff(lg[lost], enthalpy[lost], t);
    }
    case SL_SULFATE:
        return -at(&to_bisulfate, t);
    case SL_SULFITE: { /* from memory */
        static const double lg[] = {-1.85, -7.2}, enthalpy[] = {-17.8, -3.65};
        return van_t_hoff(lg[lost], enthalpy[lost], t);
    }
    case SL_PEROXIDE: /* Everett & Minkoff 1953 (from memory); two codes of aqueous chemistry use 31.0 kJ/mol
                       */
        return van_t_hoff(-11.65, 34.3, t);
    case SL_ACIDS:
        break;
    }
    return 0.0;
}

/* A of Debye and Hueckel for lg, kg^1/2 mol^-1/2: the permittivity of water after Malmberg & Maryott 1956, J.
 * Res. Natl. Bur. Stand. 56, 1 (from memory); its density as 0.997. */
static double debye_hueckel(double t)
{
    const double c = t - 273.15;
    const double permittivity = 87.740 - 0.40008 * c + 9.398e-4 * c * c - 1.410e-6 * c * c * c;
    return 1.82483e6 * sqrt(0.997) / pow(permittivity * t, 1.5);
}

/* Interaction, kg/mol. With sodium: ThermoChimie (Andra, NWS, Ondraf) 12a, as carried in sit.dat (read as a
 * file); with potassium: the reviews of the Nuclear Energy Agency (from memory). What is in neither: the
 * peroxide's ion as hydroxide, bisulfite as bisulfate, sulfite and silicate with potassium as with sodium. */
typedef struct sl_interaction {
    double hydroxide, acid[SL_ACIDS][SL_MOST_PROTONS + 1];
} sl_interaction;
static const sl_interaction sodium = {.hydroxide = 0.04,
                                      .acid = {[SL_CARBONATE] = {0.0, 0.0, -0.08},
                                               [SL_SILICATE] = {0.0, -0.08, -0.10},
                                               [SL_PHOSPHATE] = {0.0, -0.08, -0.15, -0.25},
                                               [SL_SULFATE] = {-0.01, -0.12},
                                               [SL_SULFITE] = {0.0, -0.01, -0.08},
                                               [SL_PEROXIDE] = {0.0, 0.04}}},
                            potassium = {.hydroxide = 0.09,
                                         .acid = {[SL_CARBONATE] = {0.0, -0.06, 0.02},
                                                  [SL_SILICATE] = {0.0, -0.08, -0.10},
                                                  [SL_PHOSPHATE] = {0.0, -0.14, -0.10, -0.09},
                                                  [SL_SULFATE] = {-0.01, -0.10},
                                                  [SL_SULFITE] = {0.0, -0.01, -0.08},
                                                  [SL_PEROXIDE] = {0.0, 0.09}}};

/* ---- ions -------------------------------------------------------------------------------- */

#define AS_CHARGE(name, charge) charge,
static const int strong_charge[SL_STRONG_IONS] = {SL_STRONG_ION_LIST(AS_CHARGE)};
#undef AS_CHARGE
#define AS_CHARGE(name, charge, protons) charge,
static const int acid_charge[SL_ACIDS] = {SL_ACID_LIST(AS_CHARGE)};
#undef AS_CHARGE
#define AS_PROTONS(name, charge, protons) protons,
static const int protons[SL_ACIDS] = {SL_ACID_LIST(AS_PROTONS)};
#undef AS_PROTONS

/* lg of activity coefficients. */
typedef struct sl_activity {
    double hydrogen, hydroxide, acid[SL_ACIDS][SL_MOST_PROTONS + 1];
} sl_activity;

/* Everything that a pH decides, for activity coefficients that stand. */
typedef struct sl_balance {
    const sl_solution *of;
    double water, lg[SL_ACIDS][SL_MOST_PROTONS]; /* of infinite dilution */
    sl_activity activity;
    sl_ionised *ionised;
} sl_balance;

static double ten_to(double x)
{
    return exp(LN_10 * x);
}

/* Of families that are there, or of all. */
static void share_out(sl_balance *balance, double ph, bool all)
{
    for (int a = 0; a < SL_ACIDS; a++) {
        if (!all && balance->of->acid[a] <= 0.0) {
            continue;
        }
        const double *const f = balance->activity.acid[a];
        double *const share = balance->ionised->share[a];
        double lg[SL_MOST_PROTONS + 1] = {0.0}, most = 0.0, sum = 0.0;
        for (int k = 1; k <= protons[a]; k++) {
            lg[k] = lg[k - 1] + balance->lg[a][k - 1] + ph + f[k - 1] - f[k];
            most = fmax(most, lg[k]);
        }
        for (int k = 0; k <= protons[a]; k++) {
            share[k] = ten_to(lg[k] - most);
            sum += share[k];
        }
        for (int k = 0; k <= protons[a]; k++) {
            share[k] /= sum;
        }
    }
}

static double hydrogen_at(const sl_balance *balance, double ph)
{
    return ten_to(-ph - balance->activity.hydrogen);
}

static double hydroxide_at(const sl_balance *balance, double ph)
{
    return ten_to(balance->water + ph - balance->activity.hydroxide);
}

/* Sum of charges; falls with the pH. */
static double charge_at(sl_balance *balance, double ph)
{
    double sum = hydrogen_at(balance, ph) - hydroxide_at(balance, ph);
    share_out(balance, ph, false);
    for (int i = 0; i < SL_STRONG_IONS; i++) {
        sum += strong_charge[i] * balance->of->strong[i];
    }
    for (int a = 0; a < SL_ACIDS; a++) {
        for (int k = 0; balance->of->acid[a] > 0.0 && k <= protons[a]; k++) {
            sum += balance->of->acid[a] * balance->ionised->share[a][k] * (acid_charge[a] - k);
        }
    }
    return sum;
}

/* Of the shares that stand; the sum of charges falls with the pH by as much. */
static double buffer_of(const sl_balance *balance, double ph)
{
    double sum = hydrogen_at(balance, ph) + hydroxide_at(balance, ph);
    for (int a = 0; a < SL_ACIDS; a++) {
        double mean = 0.0, square = 0.0; /* of the protons that a molecule has lost */
        for (int k = 1; balance->of->acid[a] > 0.0 && k <= protons[a]; k++) {
            mean += k * balance->ionised->share[a][k];
            square += k * k * balance->ionised->share[a][k];
        }
        sum += balance->of->acid[a] * (square - mean * mean);
    }
    return LN_10 * sum;
}

static const double LOWEST = 0.0, HIGHEST = 15.0; /* pH */

static bool balances(sl_balance *balance)
{
    return charge_at(balance, LOWEST) >= 0.0 && charge_at(balance, HIGHEST) <= 0.0;
}

/* Newton's steps, halved where they leave the bracket, until one is no longer than `close`. */
static void balance_at(sl_balance *balance, double *ph, double close)
{
    enum { STEPS = 100 };
    double low = LOWEST, high = HIGHEST;
    for (int i = 0; i < STEPS; i++) {
        const double charge = charge_at(balance, *ph), step = charge / buffer_of(balance, *ph);
        const double next = *ph + step;
        if (fabs(step) <= close) {
            *ph = next;
            break;
        }
        low = charge > 0.0 ? *ph : low;
        high = charge > 0.0 ? high : *ph;
        *ph = next > low && next < high ? next : 0.5 * (low + high);
    }
    charge_at(balance, *ph);
}

/* Molal amounts. */
typedef struct sl_cations {
    double all, potassium, unknown; /* unknown: ammonium and its kin */
} sl_cations;

/* Fills the ionic strength, too. */
static sl_cations cations_of(sl_balance *balance)
{
    const sl_solution *const of = balance->of;
    const double hydrogen = hydrogen_at(balance, balance->ionised->ph);
    double strength = hydrogen + hydroxide_at(balance, balance->ionised->ph);
    sl_cations cations = {.all = hydrogen, .potassium = of->strong[SL_POTASSIUM]};
    for (int i = 0; i < SL_STRONG_IONS; i++) {
        cations.all += strong_charge[i] > 0 ? of->strong[i] : 0.0;
        strength += strong_charge[i] * strong_charge[i] * of->strong[i];
    }
    for (int a = 0; a < SL_ACIDS; a++) {
        for (int k = 0; k <= protons[a]; k++) {
            const int charge = acid_charge[a] - k;
            const double amount = of->acid[a] * balance->ionised->share[a][k];
            cations.unknown += charge > 0 ? amount : 0.0;
            strength += charge * charge * amount;
        }
    }
    cations.all += cations.unknown;
    balance->ionised->ionic_strength = 0.5 * strength;
    return cations;
}

/* Cations without a published number of their own count as sodium; `off` is how far theirs may differ. Of
 * hydrogen and ammonium that with chloride is known: 0.12, and all but nothing. */
static double with_cations(double of_sodium, double of_potassium, const sl_cations *cations, double off)
{
    return of_sodium * (cations->all - cations->potassium) + of_potassium * cations->potassium +
           off * cations->unknown;
}

/* lg of the coefficients of the ions that were found; returns the largest change. */
static double activities(sl_balance *balance, double debye, double off)
{
    const sl_cations cations = cations_of(balance);
    const double root = sqrt(balance->ionised->ionic_strength);
    const double one = -debye * root / (1.0 + 1.5 * root);
    sl_activity *const activity = &balance->activity, before = *activity;
    activity->hydrogen = one + 0.12 * balance->of->strong[SL_CHLORIDE];
    activity->hydroxide = one + with_cations(sodium.hydroxide, potassium.hydroxide, &cations, off);
    double change =
        fmax(fabs(activity->hydrogen - before.hydrogen), fabs(activity->hydroxide - before.hydroxide));
    for (int a = 0; a < SL_ACIDS; a++) {
        for (int k = 0; k <= protons[a]; k++) {
            const int charge = acid_charge[a] - k;
            activity->acid[a][k] = charge * charge * one;
            if (charge < 0) {
                activity->acid[a][k] +=
                    with_cations(sodium.acid[a][k], potassium.acid[a][k], &cations, -charge * off);
            }
            change = fmax(change, fabs(activity->acid[a][k] - before.acid[a][k]));
        }
    }
    return change;
}

static bool ionise(const sl_solution *solution, double temperature_k, double off, sl_ionised *ionised)
{
    enum { ROUNDS = 200 };
    static const double CLOSE = 1e-12, BALANCED = 1e-13, FIRST = 1e-3, FINER = 0.01;
    sl_balance balance = {.of = solution, .water = sl_water_lg(temperature_k), .ionised = ionised};
    const double debye = debye_hueckel(temperature_k);
    *ionised = (sl_ionised){.ph = 7.0};
    for (int a = 0; a < SL_ACIDS; a++) {
        for (int k = 0; k < protons[a]; k++) {
            balance.lg[a][k] = sl_acid_lg((sl_acid)a, k, temperature_k);
        }
    }
    double close = FIRST; /* no closer than the coefficients are known */
    bool found = balances(&balance);
    for (int round = 0; found && round < ROUNDS; round++) {
        balance_at(&balance, &ionised->ph, close);
        const double change = activities(&balance, debye, off);
        if (change < CLOSE && close <= BALANCED) {
            found = balances(&balance);
            share_out(&balance, ionised->ph, true);
            ionised->buffer = buffer_of(&balance, ionised->ph);
            return found;
        }
        close = fmax(BALANCED, FINER * change);
    }
    return false;
}

bool sl_solution_ionise(const sl_solution *solution, double temperature_k, sl_ionised *ionised)
{
    return ionise(solution, temperature_k, 0.0, ionised);
}

double sl_solution_doubt(const sl_solution *solution, double temperature_k)
{
    static const double UNPUBLISHED = 0.1; /* kg/mol */
    sl_ionised more, less;
    return ionise(solution, temperature_k, UNPUBLISHED, &more) &&
                   ionise(solution, temperature_k, -UNPUBLISHED, &less)
               ? 0.5 * fabs(more.ph - less.ph)
               : 0.0;
}
