/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * From what a command line says of a scene, of a person and of what was seen, to answers for its arms: for
 * whoever tells them. Invariant: no minute for a person unless an answer holds one (answer.h).
 */
#ifndef SLOWLIFT_FRONT_ANSWERS_WORK_H
#define SLOWLIFT_FRONT_ANSWERS_WORK_H

#include "front/option.h"
#include "front/work/ensemble.h"
#include "slowlift/answer.h"

typedef struct sl_saw {
    const char *words[SL_MOST_OBSERVATIONS]; /* [n] */
    int n;
} sl_saw;

/* What was asked for; texts are borrowed from argv. */
typedef struct sl_answers_asked {
    const char *file, *person;
    const char *arm;        /* its name, or its number from 1; NULL: every arm */
    const char *arm_option; /* by which this command line names it: "strip" */
    const char *strand;     /* "LOG:TEST:SWATCH"; NULL: none */
    double goal, label_min; /* 0: what the files say */
    sl_saw saw;
} sl_answers_asked;
extern const sl_option sl_answers_options[5]; /* of a sl_answers_asked */
/* SL_ERR_USAGE where one of them needs another. */
bool sl_answers_settle(const sl_answers_asked *asked, sl_error *error);

/* What it takes to answer; freed in one place. */
typedef struct sl_answers_work {
    sl_scene *scene;
    sl_solver *solver;
    sl_optics *optics;
    sl_timeline *timeline;
    sl_spread *spread;
    sl_intake intake;
    sl_person person; /* whose form is `intake` */
    sl_observations observations;
    int arm; /* -1: every arm */
    sl_answers answers;
} sl_answers_work; /* start with {0}; too large for a stack */

/* Loads and solves the scene and reads what was seen; the spread is for the caller to count. */
bool sl_answers_prepare(sl_answers_work *work, const sl_answers_asked *asked, const char *models,
                        sl_error *error);
/* The same of a scene that is there, work->scene. */
bool sl_answers_prepare_scene(sl_answers_work *work, const sl_answers_asked *asked, sl_error *error);
/* Whether any strip has both a mix and a goal, and is predicted. */
bool sl_answers_can_be_asked(const sl_scene *scene);
/* Members from `first` on. */
bool sl_answers_count(sl_answers_work *work, const sl_draws *draws, sl_member_range range, sl_error *error);
/* After the spread is there. */
void sl_answers_make(sl_answers_work *work, const sl_answers_asked *asked);
void sl_answers_work_free(sl_answers_work *work);

#endif
