/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Long counts on a terminal: how far they are, and Ctrl-C. Invariant: what was counted before
 * Ctrl-C is kept, and sl_spread.stopped says so.
 */
#ifndef SLOWLIFT_COMMAND_ENSEMBLE_H
#define SLOWLIFT_COMMAND_ENSEMBLE_H

#include "slowlift/spread.h"

/* As sl_spread_run; request->go_on and self are set here. Says on stderr, when that is a
 * terminal, how far it is once it has taken a second. */
bool sl_ensemble_run(sl_spread **spread, const sl_scene *scene, sl_spread_request request, sl_error *error);

/* Processors that are there. */
int sl_processors(void);

#endif
