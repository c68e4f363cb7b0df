/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The state vector of the system (docs/science.md). Private to src/kinetics.
 */
#ifndef SLOWLIFT_KINETICS_STATES_H
#define SLOWLIFT_KINETICS_STATES_H

#include "slowlift/kinetics.h"

/* Exponents stand in the full system only. */
enum {
    AT_PEROXIDE,                              /* H, mol/L in the mix */
    AT_PERSULFATE,                            /* P, mol/L in the mix */
    AT_UNDISSOLVED,                           /* U, mol per L of mix */
    AT_WETNESS,                               /* W, 1..0 */
    AT_FIBRE_PEROXIDE,                        /* h, mol/L fibre water */
    AT_FIBRE_PERSULFATE,                      /* p */
    AT_RIM_DOSE,                              /* X1..X3 */
    AT_CORE_DOSE = AT_RIM_DOSE + SL_CHANNELS, /* Y1..Y3 */
    AT_CYSTINE = AT_CORE_DOSE + SL_CHANNELS,  /* C */
    SHARED_STATES,
    AT_RIM_EXPONENT = SHARED_STATES,                     /* [target] */
    AT_CORE_EXPONENT = AT_RIM_EXPONENT + SL_MAX_TARGETS, /* [target] */
    FULL_STATES = AT_CORE_EXPONENT + SL_MAX_TARGETS
};

#endif
