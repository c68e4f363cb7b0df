/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Which step an arm is in, and what that step puts on the hair. A step holds its first moment
 * and not its last, so two steps never overlap.
 */
#include "slowlift/timeline.h"

static sl_lying lies_in(sl_step_kind kind)
{
    switch (kind) {
    case SL_STEP_APPLY:
        return SL_LIES_MIX;
    case SL_STEP_RINSE:
    case SL_STEP_SHAMPOO:
        return SL_LIES_WATER;
    case SL_STEP_REST:
    default:
        return SL_LIES_NOTHING;
    }
}

sl_on_hair sl_arm_on_hair(const sl_arm *arm, double clock_min)
{
    const sl_on_hair none = {.what = SL_LIES_NOTHING, .step = -1, .mix = -1};
    double since = clock_min - arm->contact_min;
    if (since < 0.0) {
        return none;
    }
    for (int i = 0; i < arm->n_steps; i++) {
        const sl_step *step = &arm->steps[i];
        if (since < sl_step_minutes(step)) {
            return (sl_on_hair){
                .what = lies_in(step->kind), .step = i, .mix = step->kind == SL_STEP_APPLY ? step->mix : -1};
        }
        since -= sl_step_minutes(step);
    }
    return none;
}
