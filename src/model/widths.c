/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * How far a number may lie off, by its grade. See doubt.h. The factors and the shifts are themselves assumed,
 * and said to be so.
 */
#include <assert.h>
#include <math.h>

#include "slowlift/doubt.h"

static const double PH_ASSUMED = 0.3, PH_MEASURED = 0.1; /* of a typed pH */

double sl_grade_factor(sl_grade grade)
{
    static const double factors[SL_GRADE_COUNT] = {
        [SL_GRADE_ASSUMED] = 3.0,  [SL_GRADE_FITTED] = 2.0,    [SL_GRADE_FROM_MEMORY] = 1.5,
        [SL_GRADE_COMPUTED] = 1.5, [SL_GRADE_PUBLISHED] = 1.3, [SL_GRADE_MEASURED_HERE] = 1.15};
    assert(grade < SL_GRADE_COUNT);
    return factors[grade];
}

double sl_reduction_factor(sl_grade grade)
{
    return grade == SL_GRADE_ASSUMED ? sqrt(10.0) : sl_grade_factor(grade);
}

double sl_mix_ph_within(const sl_mix *mix)
{
    const double typed = mix->ph.grade == SL_GRADE_MEASURED_HERE ? PH_MEASURED : PH_ASSUMED;
    return mix->ph_computed ? mix->ph_doubt : typed;
}

double sl_mix_loss_within(const sl_mix *mix)
{
    return sl_grade_factor(mix->loss_l_mol_min.value > 0.0 ? mix->loss_l_mol_min.grade
                                                           : mix->loss_per_min.grade);
}
