/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * When may one look, when must one stop, and how sure is that? Limits come from the central
 * values on the solution itself; an answer adds the spread and puts it in one of five words.
 * Minutes count from the arm's contact.
 *
 * Invariant: an answer about hair on a head, or about a person, holds no minute unless the form is
 * clear (intake.h) and the ensemble was weighed by what a strand of this person's own hair showed
 * with this arm's mix; no check is later than the label's time.
 */
#ifndef SLOWLIFT_LIMITS_H
#define SLOWLIFT_LIMITS_H

#include "slowlift/estimate.h"
#include "slowlift/intake.h"
#include "slowlift/odds.h"
#include "slowlift/spread.h"

#pragma GCC visibility push(default)

/* What can stop an arm; the order is that of sl_arm_spread.late_by. */
typedef enum sl_stop {
    SL_STOP_BASE,
    SL_STOP_STRESS,
    SL_STOP_CHAIR,
    SL_STOP_END,
    SL_STOP_LABEL,
    SL_STOPS
} sl_stop;
const char *sl_stop_word(sl_stop stop);

/* Minutes from contact for which the label lets this mix stay on, when it is put on at this age: 0
 * and up, HUGE_VAL when none is entered. Counted from mixing unless the mix says from application. */
double sl_label_allowed_min(const sl_mix *mix, double mix_age_min);

/* The label's time of the arm's mixes, minutes from contact: the earliest that an application
 * reaches. False: none is entered, or every mix is off before. */
bool sl_label_stop(const sl_scene *scene, int arm, double *minute);

typedef struct sl_limits {
    bool asked; /* false: no mix, outside the model, or no aims; the rest is unset */
    bool early_reached;
    double early_min; /* every zone with a goal is at it */
    int early_zone;   /* that arrives last, or holds most when it never does */
    bool stop_reached[SL_STOPS];
    double stop_min[SL_STOPS];
    int stop_zone[SL_STOPS];         /* undyed zone in which it is read; -1: a time */
    sl_stop stop;                    /* the one that binds (SL_STOP_END: none does) */
    double left_at_stop;             /* colour left in early_zone then */
    double left_at_end;              /*   and once the scene ends */
    sl_lab leftover;                 /* what early_zone looks like at the stop, dry */
    sl_reading_words leftover_words; /* borrowed from the scene's chart */
    /* Waiting buys nothing; shown apart, never a limit. */
    bool spent; /* the pace (of -ln colour left) is below SL_SPENT_PACE of its peak */
    double spent_min;
    bool dried;
    double dried_min;
} sl_limits;

static const double SL_SPENT_PACE = 0.05; /* share of the pace's peak (assumed) */
static const double SL_DRY_WETNESS = 0.1; /* of the mix's first wetness (assumed) */

/* optics may be NULL: no leftover colour then. */
sl_limits sl_limits_of(const sl_timeline *timeline, int arm, const sl_optics *optics);

/* ---- the answer --------------------------------------------------------------------------- */

typedef enum sl_verdict {
    SL_OPEN,
    SL_SHORT,
    SL_DOUBTFUL,
    SL_NONE,
    SL_NOT_ENOUGH_KNOWN,
    SL_VERDICTS
} sl_verdict;
const char *sl_verdict_word(sl_verdict verdict);

/* The rule, editable here alone (assumed). */
static const double SL_ODDS_OPEN = 0.9, SL_ODDS_SHORT = 0.75, SL_ODDS_DOUBTFUL = 0.25;
static const long SL_LEAST_MEMBERS = 100; /* fewer say nothing about a tenth */

enum { SL_DOTS = 20, SL_MOST_CHECKS = 48, SL_FIRST_LOOK_MIN = 2, SL_LOOK_EVERY_MIN = 5, SL_MOST_LOOKS = 300 };

/* P10, P50, P90; -1 = not in this scene. */
typedef struct sl_three {
    double p10, p50, p90;
} sl_three;

/* The verdict of odds and quantiles alone. */
sl_verdict sl_verdict_of(double odds, sl_three early, sl_three late);
/* Whole minutes at which to look at the colour; label_min <= 0: none entered. Returns how many;
 * 0 when the first would come after the last. */
int sl_checks_of(sl_three early, sl_three late, double label_min, int check[SL_MOST_CHECKS]);

/* Why not enough is known; each with its sentence. */
#define SL_UNKNOWN_LIST(X)                                                                                   \
    X(SL_UNKNOWN_NOTHING, "")                                                                                \
    X(SL_UNKNOWN_ARM, "nothing can be asked of this arm: no mix, outside the model, or no goal is set")      \
    X(SL_UNKNOWN_MEMBERS, "too few members were counted; run more")                                          \
    X(SL_UNKNOWN_PERSON, "hair on a head: fill in the form about the person first")                          \
    X(SL_UNKNOWN_FORM, "the form about the person is not clear: see what stops and what is missing")         \
    X(SL_UNKNOWN_STRAND, "no strand of this person's hair was entered for this arm's mix, or not counted")   \
    X(SL_UNKNOWN_SURPRISE, "the model did not expect this; trust the cotton, not the model")                 \
    X(SL_UNKNOWN_AT_ODDS, "the things seen are at odds with each other in this model; look again")           \
    X(SL_UNKNOWN_TOO_FEW_AGREE, "too few members agree with what was seen; run more")

#define SL_UNKNOWN_AS_ENUM(name, words) name,
typedef enum sl_unknown { SL_UNKNOWN_LIST(SL_UNKNOWN_AS_ENUM) SL_UNKNOWNS } sl_unknown;
#undef SL_UNKNOWN_AS_ENUM
const char *sl_unknown_words(sl_unknown unknown);

typedef struct sl_answer {
    sl_verdict verdict;
    sl_unknown unknown;   /* SL_UNKNOWN_NOTHING unless the verdict is SL_NOT_ENOUGH_KNOWN */
    int unexpected;       /* SL_UNKNOWN_SURPRISE: index of the thing seen; else -1 */
    bool partial;         /* the ensemble was stopped before its end */
    bool minutes;         /* false: no minute is to be shown, and none is held below */
    double odds;          /* share of members whose goal comes first; -1 when not known */
    sl_interval odds_95;  /* of the odds, by the number of members alone; -1 when not known */
    double effective;     /* members, or as many of equal weight as say as much */
    long agree;           /* members that agree with all that was seen */
    double seen_min;      /* last look at this arm that was entered; checks and looks are later; 0 none */
    sl_three early, late; /* minutes */
    int dots;             /* of SL_DOTS, members whose goal comes first */
    int n_checks, check[SL_MOST_CHECKS];
    int n_looks, look[SL_MOST_LOOKS]; /* at skin, heat and stretch, whatever the colour does */
    sl_stop stop;                     /* that binds most often */
    int left_p50_percent;             /* colour left at the stop, middle member */
    int measure;                      /* index into the spread's plan: what to measure next; -1 none */
    double measure_index;             /* its first-order index */
    sl_grade weakest;                 /* weakest grade of the numbers used */
    sl_intake_result intake;          /* of a person; else zero */
} sl_answer;

/* person NULL: cut hair in a classroom. */
sl_answer sl_answer_of(const sl_scene *scene, const sl_spread *spread, int arm, const sl_intake *person);

#pragma GCC visibility pop

#endif
