/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Long counts on a terminal: how far they are, and Ctrl-C. Invariant: what was counted before
 * Ctrl-C is kept, and sl_spread.stopped or sl_rank.stopped says so.
 */
#ifndef SLOWLIFT_FRONT_ENSEMBLE_H
#define SLOWLIFT_FRONT_ENSEMBLE_H

#include "front/complain.h"
#include "front/option.h"
#include "slowlift/rank.h"
#include "slowlift/rinse.h"
#include "slowlift/spread.h"
#include "slowlift/surprise.h"

/* How model runs are drawn, as a command line says it; begin with sl_draws_usual(). */
typedef struct sl_draws {
    long members;
    uint64_t seed;
    int threads;
    bool said; /* --members or --seed was there */
} sl_draws;
extern const sl_option sl_draw_options[3];
sl_draws sl_draws_usual(void);

/* As sl_spread_run; request->go_on and self are set here. Says on stderr, when that is a
 * terminal, how far it is once it has taken a second. */
bool sl_ensemble_run(sl_spread **spread, const sl_scene *scene, sl_spread_request request, sl_error *error);

bool sl_ensemble_rank(sl_rank **rank, const sl_scene *scene, sl_rank_request request, sl_error *error);

bool sl_ensemble_surprise(sl_surprise **surprise, const sl_scene *scene, sl_surprise_request request,
                          sl_error *error);

bool sl_ensemble_rinse(sl_rinse **rinse, const sl_scene *scene, sl_rinse_request request, sl_error *error);

/* On stderr too, where a form for machines has no word: SL_EXIT_PARTIAL unless code is worse. */
sl_exit sl_partial_said(long counted, long asked_for, sl_exit code);

#endif
