/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The order of arms in each block, and codes that tell the judge nothing, drawn from a seed.
 */
#ifndef SLOWLIFT_PLAN_ORDER_H
#define SLOWLIFT_PLAN_ORDER_H

#include <stdbool.h>
#include <stdint.h>

#include "slowlift/error.h"
#include "slowlift/plan.h"

/* arm[blocks][n_arms]: every arm once in each block. *clustered: after many draws some arm still
 * lay in the same third of every block. code[blocks * n_arms]: all different. */
bool sl_order_draw(uint64_t seed, int blocks, int n_arms, int *arm, char (*code)[SL_PLAN_CODE],
                   bool *clustered, sl_error *error);

#endif
