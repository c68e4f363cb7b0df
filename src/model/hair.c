/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The one melanin chain: bound (dark) -> opened (red-brown) -> yellow -> colourless.
 * All three rates are proportional to the same oxidant exposure, so with the exponent
 * O = sum k.dose as the clock the chain is linear with constant coefficients and closed:
 *     B = B0 e^-O,   S' = B - rho S,   Y' = rho S - sigma Y    (' = d/dO)
 * Equations: docs/science.md, "Melanin".
 */
#include <math.h>

#include "slowlift/model.h"

static const double MOST_EXPOSURE = 1e4; /* e^-exposure of what was bound is left: nothing */

double sl_melanin_absorbance(const sl_chemistry *chemistry, const double pool[SL_MELANINS][SL_STAGES])
{
    double sum = 0.0;
    for (int kind = 0; kind < SL_MELANINS; kind++) {
        const sl_melanin *const melanin = &chemistry->melanin[kind];
        sum += pool[kind][SL_BOUND] + melanin->opened_weight.value * pool[kind][SL_OPENED] +
               melanin->yellow_weight.value * pool[kind][SL_YELLOW];
    }
    return sum;
}

static const double NEAR = 1e-4; /* two rates closer than this are treated as a double one */

/* (e^-aO - e^-bO)/(b - a) from the exponentials already at hand; continuous at a = b,
 * where it is O e^-aO. */
static double difference_quotient(double a, double exp_a, double b, double exp_b, double o)
{
    const double gap = b - a;
    if (fabs(gap) < NEAR) {
        const double x = gap * o;
        return o * exp_a * (1.0 - x / 2.0 + x * x / 6.0 - x * x * x / 24.0);
    }
    return (exp_a - exp_b) / gap;
}

static void move_one(const sl_melanin *melanin, double o, const double from[SL_STAGES], double to[SL_STAGES])
{
    const double rho = melanin->opened_ratio.value;
    const double sigma = melanin->yellow_ratio.value;
    const double bound = from[SL_BOUND];
    const double opened = from[SL_OPENED];
    const double yellow = from[SL_YELLOW];
    /* second divided difference of e^-xO over 1, rho, sigma: the share of bound that is yellow */
    const double exp_one = exp(-o);
    const double exp_rho = exp(-rho * o);
    const double exp_sigma = exp(-sigma * o);
    const double one_rho = difference_quotient(1.0, exp_one, rho, exp_rho, o);
    const double rho_sigma = difference_quotient(rho, exp_rho, sigma, exp_sigma, o);
    const double one_sigma = difference_quotient(1.0, exp_one, sigma, exp_sigma, o);
    double bound_to_yellow;
    if (fabs(rho - 1.0) > fabs(sigma - 1.0)) {
        bound_to_yellow = rho * (one_sigma - rho_sigma) / (rho - 1.0);
    } else if (fabs(sigma - 1.0) > NEAR) {
        bound_to_yellow = rho * (one_rho - rho_sigma) / (sigma - 1.0);
    } else {
        bound_to_yellow = rho * 0.5 * o * o * exp_one;
    }
    to[SL_BOUND] = bound * exp_one;
    to[SL_OPENED] = opened * exp_rho + bound * one_rho;
    to[SL_YELLOW] = yellow * exp_sigma + opened * rho * rho_sigma + bound * bound_to_yellow;
}

void sl_melanin_move(const sl_chemistry *chemistry, const double exponent[SL_MELANINS],
                     const double from[SL_MELANINS][SL_STAGES], double to[SL_MELANINS][SL_STAGES])
{
    for (int kind = 0; kind < SL_MELANINS; kind++) {
        move_one(&chemistry->melanin[kind], exponent[kind], from[kind], to[kind]);
    }
}

/* Pools after an earlier lightening of exposure `o`: both kinds met the same oxidants, so
 * pheomelanin's exponent is in the ratio of the perhydroxyl constants. */
static void lightened(const sl_chemistry *chemistry, double o, double warmth,
                      const double natural[SL_MELANINS][SL_STAGES], double pool[SL_MELANINS][SL_STAGES])
{
    const double ratio = chemistry->melanin[SL_PHEOMELANIN].rates.k[SL_PERHYDROXYL].value /
                         chemistry->melanin[SL_EUMELANIN].rates.k[SL_PERHYDROXYL].value;
    const double exponent[SL_MELANINS] = {[SL_EUMELANIN] = o, [SL_PHEOMELANIN] = o * ratio};
    sl_melanin_move(chemistry, exponent, natural, pool);
    for (int kind = 0; kind < SL_MELANINS; kind++) {
        pool[kind][SL_OPENED] *= warmth;
        pool[kind][SL_YELLOW] *= warmth;
    }
}

static double left_of(const sl_hair *hair, const sl_chemistry *chemistry, double o,
                      const double natural[SL_MELANINS][SL_STAGES])
{
    double pool[SL_MELANINS][SL_STAGES];
    lightened(chemistry, o, hair->warmth_left, natural, pool);
    return sl_melanin_absorbance(chemistry, (const double(*)[SL_STAGES])pool);
}

bool sl_hair_prelighten(sl_hair *hair, const sl_chemistry *chemistry, double eumelanin, double pheomelanin,
                        double *nearest_level)
{
    const double natural[SL_MELANINS][SL_STAGES] = {
        [SL_EUMELANIN] = {eumelanin}, [SL_PHEOMELANIN] = {pheomelanin}};
    const double levels = hair->level - hair->natural_level;
    const double grown = sl_melanin_absorbance(chemistry, natural);
    const double goal = grown * pow(chemistry->level_ratio.value, levels);
    double low = 0.0;
    double high = 1.0;
    if (levels > 0.0) {
        while (left_of(hair, chemistry, high, natural) > goal && high < MOST_EXPOSURE) {
            high *= 2.0;
        }
    }
    const double least = levels > 0.0 ? left_of(hair, chemistry, high, natural) : grown;
    if (nearest_level) {
        *nearest_level = hair->natural_level + sl_levels_lifted(chemistry, hair->natural_level, grown, least);
    }
    if (levels < 0.0 || least > goal) {
        return false;
    }
    for (int i = 0; i < 80 && levels > 0.0; i++) { /* absorbance falls with exposure: bisection is safe */
        const double o = 0.5 * (low + high);
        if (left_of(hair, chemistry, o, natural) > goal) {
            low = o;
        } else {
            high = o;
        }
    }
    lightened(chemistry, levels > 0.0 ? 0.5 * (low + high) : 0.0, levels > 0.0 ? hair->warmth_left : 1.0,
              natural, hair->pool);
    return true;
}

double sl_base_of_levels(const sl_chemistry *chemistry, double levels)
{
    return 1.0 - pow(chemistry->level_ratio.value, levels);
}

double sl_levels_lifted(const sl_chemistry *chemistry, double level0, double a0, double a)
{
    const double most = fmax(SL_LEVEL_END - level0, 0.0);
    if (!(a0 > 0.0) || a >= a0) {
        return 0.0;
    }
    if (!(a > 0.0)) {
        return most;
    }
    return fmin(log(a0 / a) / log(1.0 / chemistry->level_ratio.value), most);
}
