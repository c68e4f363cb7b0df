/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What to weigh for a scene, and a fair plan of its comparison: who puts which mix on which
 * swatch when, and takes it off when. Formulas: by weight, dilution by C1V1 = C2V2
 * (docs/science.md, "Dilution"); slots, ties and the errors of an unfair plan (docs/science.md,
 * "A fair plan").
 *
 * Invariant of a plan: nobody does two things at once, every swatch of an arm lies under its mix
 * for the same time, and none lies longer than its label's time where one is entered.
 */
#ifndef SLOWLIFT_PLAN_H
#define SLOWLIFT_PLAN_H

#include <stdbool.h>
#include <stdint.h>

#include "slowlift/error.h"
#include "slowlift/model.h"
#include "slowlift/timeline.h"

#pragma GCC visibility push(default)

/* ---- weighing (weigh.c) ------------------------------------------------------------------- */

typedef struct sl_weighing {
    double powder_g, developer_g, water_g, total_g; /* waste allowance included */
    double liquid_pct;                              /* peroxide in the liquid after dilution, % */
    double liquid_vol;                              /* the same as volume strength */
    double on_hair_pct;                             /* peroxide in the whole mix, % */
} sl_weighing;

/* Grams for `hair_g` grams of hair at `mix_g_per_g`, plus `waste` (share, 0.10 = ten per
 * cent more). */
sl_weighing sl_weigh(const sl_mix *mix, const sl_chemistry *chemistry, double hair_g, double mix_g_per_g,
                     double waste);
/* The same as a scale shows it that reads in steps of scale_g (> 0): each part is rounded to a
 * step, never to nothing; the shares follow from the rounded parts. */
sl_weighing sl_weigh_on_scale(const sl_mix *mix, const sl_chemistry *chemistry, sl_weighing exact,
                              double scale_g);
/* How far half a step of the scale can throw the smallest part off, as a share of it. */
double sl_scale_error(sl_weighing shown, double scale_g);

/* ---- what makes two arms comparable (fairness.c) ---------------------------------------------- */

/* The swatches beside which a remover means something. */
#define SL_CONTROL_LIST(X)                                                                                   \
    X(UNTREATED, "untreated")                                                                                \
    X(WASHING, "washing only")                                                                               \
    X(UNDYED_TREATED, "undyed, treated")                                                                     \
    X(LIGHTENER, "lightener")                                                                                \
    X(UNDYED_UNTREATED, "undyed, untreated")
#define SL_CONTROL_AS_ENUM(name, word) SL_CONTROL_##name,
typedef enum sl_control { SL_CONTROL_LIST(SL_CONTROL_AS_ENUM) SL_CONTROLS } sl_control;
#undef SL_CONTROL_AS_ENUM
const char *sl_control_word(sl_control control);
/* The arm that serves as this control, or -1. */
int sl_control_arm(const sl_scene *scene, sl_control control);
/* Washing: nothing but water is put on. */
bool sl_arm_serves_as(const sl_scene *scene, const sl_arm *arm, sl_control control);

/* In what two arms differ; read from their first application. */
typedef enum sl_difference {
    SL_DIFFERS_POWDER,   /* what the powder (or the other part) is */
    SL_DIFFERS_STRENGTH, /* peroxide in the liquid */
    SL_DIFFERS_RATIO,    /* powder to liquid */
    SL_DIFFERS_DWELL,
    SL_DIFFERS_AGE,   /* of the mix at contact */
    SL_DIFFERS_GRAMS, /* of mix per gram of hair */
    SL_DIFFERS_COVER,
    SL_DIFFERS_WETNESS, /* of the hair */
    SL_DIFFERS_ROUNDS,  /* applications */
    SL_DIFFERS_WASHING, /* rinses and shampoos */
    SL_DIFFERS_DYE,     /* one of them is undyed */
    SL_DIFFERENCES
} sl_difference;
const char *sl_difference_word(sl_difference difference);
/* Fills differs[]; returns how many. One is a fair comparison. Both arms need a mix: -1 else. */
int sl_arms_differ(const sl_scene *scene, int one, int other, bool differs[SL_DIFFERENCES]);

/* ---- the plan (plan.c) ------------------------------------------------------------------------- */

enum {
    SL_PLAN_MOST_BLOCKS = SL_MAX_SWATCHES,
    SL_PLAN_MOST_PEOPLE = SL_MAX_HANDS,
    SL_PLAN_MOST_LOOKS = 12,
    SL_PLAN_MOST_RUNGS = 8,
    SL_PLAN_CODE = 4 /* bytes of a swatch's code, its end included: "KP7" */
};

typedef struct sl_plan_request {
    int blocks;   /* repeats, 1..SL_PLAN_MOST_BLOCKS; a block holds every arm once, freshly mixed */
    int people;   /* 1..SL_PLAN_MOST_PEOPLE */
    int apply_s;  /* one person's seconds for one swatch, 5..1800 */
    int remove_s; /*   to wash it out */
    int look_s;   /*   to wipe a spot and look */
    int mix_s;    /*   to mix one bowl, 0..1800 */
    int n_looks, look_min[SL_PLAN_MOST_LOOKS]; /* wipe and look, minutes from contact, rising */
    int n_rungs, rung_min[SL_PLAN_MOST_RUNGS]; /* a time ladder: a piece of each swatch is cut off
                                                  and rinsed at these minutes, rising; 0 = none */
    double waste;                              /* mix made beyond need, share, 0..1 */
    double scale_g;                            /* step of the scale, 0.001..10 g */
    uint64_t seed;
    char who[SL_PLAN_MOST_PEOPLE][SL_CODE]; /* [people] their codes; "": none was given */
} sl_plan_request;
sl_plan_request sl_plan_request_default(void);
/* The same with what the scene says of its class. */
sl_plan_request sl_plan_request_of(const sl_scene *scene);
/* Whose hands: a code, or "1" for the first. */
const char *sl_plan_hands(const sl_plan_request *request, int person, char text[SL_CODE]);

typedef enum sl_task_kind {
    SL_TASK_MIX,
    SL_TASK_APPLY,
    SL_TASK_LOOK,
    SL_TASK_REMOVE,
    SL_TASK_LEAVE, /* what is left in the bowl, without a lid, once its mix is on */
    SL_TASK_EMPTY, /* the bowl, after the rinse, once it is quiet */
    SL_TASKS
} sl_task_kind;
/* The last two fill whichever seconds are free then, of whoever has the swatch: no contact waits for them. */
enum { SL_LEAVE_S = 10, SL_EMPTY_S = 30 /* (assumed) */ };
const char *sl_task_word(sl_task_kind kind);

/* What one person does with one swatch, in whole seconds from the start of the day. */
typedef struct sl_task {
    sl_task_kind kind;
    int swatch, person;
    int step; /* of the arm: the application that it belongs to */
    int rung; /* SL_TASK_REMOVE on a ladder: which piece; else -1 */
    int start_s, length_s;
} sl_task;

typedef struct sl_planned_swatch {
    int arm, block;
    int place;  /* in its block's order, from 0 */
    int person; /* who does all of it; -1: nothing is done to it */
    char code[SL_PLAN_CODE];
    int contact_s, water_s; /* first contact, last first water; -1: nothing is put on */
    bool cut_short;         /* the label's time is shorter than the scene's dwell */
} sl_planned_swatch;

/* A bowl: one arm's mix of one application, for one swatch. */
typedef struct sl_bowl {
    int arm, step, mix;
    sl_weighing exact, shown; /* for one swatch; shown on the scale */
    double scale_error;       /* share */
} sl_bowl;

typedef struct sl_plan {
    sl_plan_request request;
    const sl_scene *scene; /* borrowed */
    int n_swatches, n_tasks, n_bowls;
    sl_planned_swatch *swatches; /* [n_swatches] by block, then place */
    sl_task *tasks;              /* [n_tasks] by start, then person */
    sl_bowl *bowls;              /* [n_bowls] by arm, then step */
    int end_s;                   /* the last task is done */
    int span_s;                  /* most between first and last contact within a block */
    int block_gap_s;             /* from the first block's first contact to the last block's */
    double hair_g;               /* of hair in all */
    bool clustered;              /* no order was found that spreads every arm over the blocks */
} sl_plan;

/* The bowl that a task is about; NULL: it is not filled by weight. */
const sl_bowl *sl_plan_bowl(const sl_plan *plan, const sl_task *task);
/* Seconds on the hair of an application, never past the label's time, which most labels count from
 * mixing. *cut_short: set where the label's time is the shorter one, else left. */
int sl_planned_dwell_s(const sl_mix *mix, const sl_step *step, bool *cut_short);
/* Seconds that an arm lies under its mixes in this plan; on a ladder until its last piece is off. 0: nothing
 * is put on. *cut_short: by a label's time. */
int sl_plan_lying_s(const sl_plan *plan, int arm, bool *cut_short);

/* Fails: SL_ERR_USAGE (a scene that does not lie on the bench; a request out of range, a rung or
 * look that is not rising), SL_ERR_NO_MEMORY. */
bool sl_plan_make(sl_plan **plan, const sl_scene *scene, const sl_plan_request *request, sl_error *error);
void sl_plan_free(sl_plan *plan); /* NULL is allowed */
/* What all bowls of a mix (-1: of all mixes) take in all rounds, as the scale shows it; grams alone. */
sl_weighing sl_plan_needs(const sl_plan *plan, int mix);
/* Pairs of gloves: fresh for each person and round. */
int sl_plan_gloves(const sl_plan *plan);

/* ---- what a class can do (fit.c) ---------------------------------------------------------------- */

/* What would fit into the class where the plan does not, each by itself. */
typedef enum sl_fit_offer {
    SL_FIT_REPEATS, /* so many swatches of each strip */
    SL_FIT_PEOPLE,  /* so many pairs of hands */
    SL_FIT_LOOKS,   /* the first so many looks; pieces on a ladder */
    SL_FIT_STRIPS,  /* the first so many strips of the scene; only where nothing else does */
    SL_FIT_OFFERS
} sl_fit_offer;

typedef struct sl_plan_fit {
    int swatches, people;
    int takes_s, class_s; /* class_s 0: it has no end */
    bool fits, ladder;    /* ladder: its looks are pieces */
    struct {
        int n; /* -1: it would not help */
        int takes_s;
    } offer[SL_FIT_OFFERS];
    int least_s; /* where nothing is offered, what the least comparison takes: the first strips with two
                    mixes, once each, without looks; else 0 */
} sl_plan_fit;

/* How long a plan of this request takes, and what would where the class of class_s seconds is shorter: the
 * most repeats, looks or strips and the fewest people of which a plan ends in time. Fails as sl_plan_make().
 */
bool sl_plan_fit_find(sl_plan_fit *fit, const sl_scene *scene, const sl_plan_request *request, int class_s,
                      sl_error *error);

/* ---- what an unfair plan would cost, and what a fair one can see (plan_error.c) --------------- */

/* Colour left in the worst (arm, zone), once done fairly and once not. */
typedef struct sl_plan_error {
    bool known; /* false: nothing dyed is treated */
    int arm, zone;
    double gap_min;      /* unequal dwell, or mix age */
    double fair, unfair; /* colour left, 0..1 */
} sl_plan_error;

/* Rinsed all together when the last has had its time: the first has had gap_min more. */
bool sl_plan_if_together(const sl_plan *plan, sl_solver *solver, sl_plan_error *worst, sl_error *error);
/* Every block from the first block's bowls: the last block's mix is gap_min older. */
bool sl_plan_if_one_bowl(const sl_plan *plan, sl_solver *solver, sl_plan_error *worst, sl_error *error);

#pragma GCC visibility pop

#endif
