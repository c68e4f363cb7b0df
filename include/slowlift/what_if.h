/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What if one thing about an arm were different? A variant is one arm of a scene with some
 * of its settings changed; an outcome is what comes of it; two outcomes make a pair.
 *
 * Invariant: the scene is never written to. A variant borrows the scene's hair, dyes, zones
 * and texts and holds its own arm and mixes, so it points into itself and is never copied.
 */
#ifndef SLOWLIFT_WHAT_IF_H
#define SLOWLIFT_WHAT_IF_H

#include <stdbool.h>
#include <stddef.h>

#include "slowlift/knob.h"
#include "slowlift/limits.h"

#pragma GCC visibility push(default)

/* Whether the setting has something to act on: a mix inside the model, a developer, a powder. */
bool sl_setting_applies(const sl_scene *scene, int arm, sl_setting setting);
/* What the scene says; that of the first application. 0 when the setting does not apply. */
double sl_setting_value(const sl_scene *scene, int arm, sl_setting setting);

typedef struct sl_changes {
    bool set[SL_SETTINGS];
    double to[SL_SETTINGS];
} sl_changes; /* start with {0} */

/* Ask for a change. False: it does not apply to this arm, or is out of range. */
bool sl_changes_set(sl_changes *changes, const sl_scene *scene, int arm, sl_setting setting, double to,
                    sl_error *error);
/* Those that differ from the scene; which[] may be NULL. One is a fair comparison; with more
 * nobody can tell which of them did it. */
int sl_changes_count(const sl_changes *changes, const sl_scene *scene, int arm,
                     sl_setting which[SL_SETTINGS]);

/* ---- of a whole scene: [n_arms], one for each arm ------------------------------------------- */

/* Whether a knob of a panel has something to act on: what is of the whole scene always has. */
bool sl_knob_applies(const sl_scene *scene, int arm, sl_setting setting);
/* To where a panel turns it in this scene. */
double sl_knob_track_most(const sl_scene *scene, sl_setting setting);
double sl_knob_value(const sl_changes changes[], const sl_scene *scene, int arm, sl_setting setting);
/* Clamped to the track. Returns whether the value is another one now. */
bool sl_knob_turn(sl_changes changes[], const sl_scene *scene, int arm, sl_setting setting, double value);
/* Whether any arm differs from the file. */
bool sl_changes_any(const sl_changes changes[], const sl_scene *scene);
/* Changes a copy of the scene: an arm's change touches that arm alone, even when its mix serves others.
 * *mixes becomes the memory of its mixes, to be freed with sl_free after it. False when memory runs out. */
bool sl_scene_change(sl_scene *copy, const sl_changes changes[], sl_mix **mixes, sl_error *error);

/* ---- of one arm ----------------------------------------------------------------------------- */

typedef struct sl_variant {
    sl_scene scene; /* with this arm alone, number 0 */
    sl_arm arm;
    sl_mix mixes[SL_MAX_STEPS]; /* one for each application */
} sl_variant;

/* changes NULL = none. The clock is made longer when the arm no longer fits into it. Strength,
 * water, ratio, age, grams and cover change in every application of the arm's first mix. */
void sl_variant_make(sl_variant *variant, const sl_scene *scene, int arm, const sl_changes *changes);
/* The first application in `rounds` rounds of `minutes` each, every one with a fresh mix, with
 * the arm's own rinse (2 min when it has none) between. False: too many steps, or no mix. */
bool sl_variant_rounds(sl_variant *variant, const sl_scene *scene, int arm, int rounds, double minutes,
                       sl_error *error);

/* Scene-clock time at which the last step is done. */
double sl_arm_done_min(const sl_arm *arm);
/* And at which the hair has dried after it. */
double sl_arm_dry_min(const sl_scene *scene, const sl_arm *arm);
/* Scene-clock time at which the end of an arm is read, wherever "left at the end" is told: it is washed as
 * planned and has dried (after a reducing mix: a day has gone, sl_settled_min), or its scene ends. */
double sl_arm_end_min(const sl_scene *scene, int arm);

/* What comes of an arm, once it is washed as planned and dry (or its scene ends). */
typedef struct sl_outcome {
    bool predicted;
    sl_limits limits;          /* set by sl_outcome_find_limits alone */
    double done_min;           /* since contact: when its last step is done */
    double left[SL_MAX_ZONES]; /* colour left; -1 no dye */
    double left_dry[SL_MAX_ZONES]; /* where colour comes back: that as the hair has dried; else the same */
    bool there[SL_MAX_ZONES];  /* the zone is at its goal; false where it has none */
    bool all_there;            /* every zone with a goal, and there is one */
    int worst_zone;            /* of the zones with a goal (without any: of the direct ones) the one
                                  that holds most; -1 none */
    double worst_left;         /* 0..1; -1 none */
    double base_moved;         /* the most over the undyed zones that belong to direct zones */
    double level_start;        /* there: the level of its hair, and */
    double level_end;          /*   the level that it reads then, SL_LEVEL_END at most */
    double cystine_lost;
} sl_outcome;

/* *timeline is scratch as in sl_timeline_solve; it holds the solution afterwards. */
bool sl_outcome_of(sl_outcome *outcome, const sl_scene *scene, int arm, sl_timeline **timeline,
                   sl_solver *solver, sl_error *error);
/* Its limits, of that timeline. */
bool sl_outcome_find_limits(sl_outcome *outcome, int arm, sl_timeline *timeline, sl_solver *solver,
                            sl_error *error);

/* ---- the least stress (search.c) ------------------------------------------------------ */

/* One mix to try on a strand. */
typedef struct sl_trial {
    int arm, mix;        /* of the scene; the arm whose steps were used */
    bool found;          /* false: no strength and time reach the goal inside the limits */
    double strength_pct; /* at most that of the mix, never above 12 */
    double dwell_min;    /* as short as the goal allows */
    double worst_left, base_moved, cystine_lost;
} sl_trial;

typedef struct sl_search {
    int n;                       /* allowed mixes that were searched */
    int best;                    /* least stress; -1 none */
    int not_allowed;             /* mixes of arms that nobody marked as allowed by the label */
    sl_trial trial[SL_MAX_ARMS]; /* [n] */
} sl_search;

/* For every mix that its file marks as allowed by the label (one arm for each): the strength,
 * at most its own, and the time that reach the goal with the least cystine lost, inside
 * all limits, the label's time and 12 %, without added heat. Fails with SL_ERR_USAGE when the
 * scene sets no goal or does not lie on the bench. */
bool sl_search_run(sl_search *search, const sl_scene *scene, sl_solver *solver, sl_error *error);

#pragma GCC visibility pop

#endif
