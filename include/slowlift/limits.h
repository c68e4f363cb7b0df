/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * When may one look, when must one stop, and how sure is that? Limits come from the central
 * values on the solution itself; an answer adds the spread and puts it in one of five words.
 * Minutes count from the arm's contact.
 *
 * Invariant: an answer holds no minute unless sl_leave_of() gives leave (leave.h) and, for a person,
 * the ensemble was weighed by what that strand showed; no minute is later than the leave's last.
 */
#ifndef SLOWLIFT_LIMITS_H
#define SLOWLIFT_LIMITS_H

#include "slowlift/estimate.h"
#include "slowlift/leave.h"
#include "slowlift/odds.h"
#include "slowlift/spread.h"

#pragma GCC visibility push(default)

/* What can stop an arm; the order of those below SL_STOPS is that of sl_arm_spread.late_by. */
typedef enum sl_stop {
    SL_STOP_BASE,
    SL_STOP_STRESS,
    SL_STOP_CHAIR,
    SL_STOP_END,
    SL_STOP_LABEL,
    SL_STOPS,
    SL_STOP_STRAND = SL_STOPS /* of an answer alone: the person's strand was watched no longer */
} sl_stop;
const char *sl_stop_word(sl_stop stop);

typedef struct sl_limits {
    bool asked; /* false: no mix, outside the model, or no aims; the rest is unset */
    bool early_reached;
    double early_min; /* rinsed then, washed as planned and dry, every zone with a goal is at it */
    int early_zone;   /* that arrives last, or holds most when it never does */
    bool stop_reached[SL_STOPS];
    double stop_min[SL_STOPS];       /* rinsed then, washed and dry, it is just reached */
    int stop_zone[SL_STOPS];         /* undyed zone in which it is read; -1: a time */
    sl_stop stop;                    /* the one that binds (SL_STOP_END: none does) */
    double left_at_stop;             /* colour left in early_zone when rinsed then, washed and dry */
    double left_at_end;              /*   and when rinsed as the scene ends */
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

typedef struct sl_answer {
    sl_verdict verdict;
    sl_leave leave;       /* whether minutes may be told, and up to when */
    sl_unknown unknown;   /* SL_UNKNOWN_NOTHING unless the verdict is SL_NOT_ENOUGH_KNOWN */
    int unexpected;       /* SL_UNKNOWN_SURPRISE: index of the thing seen; else -1 */
    bool partial;         /* the ensemble was stopped before its end */
    bool minutes;         /* false: no minute is to be shown, and none is held below */
    double odds;          /* share of members whose goal comes first; -1 when not known */
    sl_interval odds_95;  /* of the odds, by the number of members alone; -1 when not known */
    double effective;     /* members, or as many of equal weight as say as much */
    long agree;           /* members that agree with all that was seen */
    double seen_min;      /* last look at this arm that was entered; checks and looks are later; 0 none */
    sl_three early, late; /* minutes, none after the leave's last: -1 of a goal that comes later */
    bool cut;             /* in some members the goal comes after that */
    int dots;             /* of SL_DOTS, members whose goal comes first */
    int n_checks, check[SL_MOST_CHECKS];
    int n_looks, look[SL_MOST_LOOKS]; /* at skin, heat and stretch, whatever the colour does */
    sl_stop stop;                     /* that binds most often */
    int left_p50_percent;             /* colour left at the stop, middle member; -1: not known */
    int measure;                      /* index into the spread's plan: what to measure next; -1 none */
    double measure_index;             /* its first-order index */
    sl_grade weakest;                 /* weakest grade of the numbers used */
    sl_intake_result intake;          /* of a person; else zero */
} sl_answer;

/* Whether more members would hardly change the word: the 95 % interval of the odds lies on one side of each
 * threshold. */
bool sl_answer_settled(const sl_answer *answer);

/* person NULL: cut swatches. */
sl_answer sl_answer_of(const sl_scene *scene, const sl_spread *spread, int arm, const sl_person *person);

#pragma GCC visibility pop

#endif
