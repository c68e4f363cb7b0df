/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * One answer for each arm: how sure the model is that the goal comes first, in one of five words; when to
 * look, when to stop and what stops it, what is left then and what the base reads; what to measure next. The
 * one definition of each for every command, page, file, lesson and screen.
 *
 * Invariant: an answer holds no minute unless sl_leave_of() gives leave (leave.h) and, for a person,
 * the ensemble was weighed by what that strand showed; no minute is later than the leave's last.
 */
#ifndef SLOWLIFT_ANSWER_H
#define SLOWLIFT_ANSWER_H

#include "slowlift/leave.h"
#include "slowlift/limits.h"
#include "slowlift/odds.h"
#include "slowlift/spread.h"

#pragma GCC visibility push(default)

/* ---- verdicts ------------------------------------------------------------------------------ */

/* Each with its word for people, and its key in files, CSV and JSON, which never changes. */
#define SL_VERDICT_LIST(X)                                                                                   \
    X(SL_VERDICT_ROOMY, "roomy", "open")                                                                     \
    X(SL_VERDICT_TIGHT, "tight", "short")                                                                    \
    X(SL_VERDICT_DOUBTFUL, "doubtful", "doubtful")                                                           \
    X(SL_VERDICT_LATE, "not in time", "none")                                                                \
    X(SL_VERDICT_UNKNOWN, "cannot say", "not enough known")

#define SL_VERDICT_AS_ENUM(name, word, key) name,
typedef enum sl_verdict { SL_VERDICT_LIST(SL_VERDICT_AS_ENUM) SL_VERDICTS } sl_verdict;
#undef SL_VERDICT_AS_ENUM
const char *sl_verdict_key(sl_verdict verdict);
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
    sl_unknown unknown;   /* SL_UNKNOWN_NOTHING unless the verdict is SL_VERDICT_UNKNOWN */
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
    int goal_zone;        /* that mostly comes last to its goal, or holds most; -1: not known */
    int dots;             /* of SL_DOTS, members whose goal comes first; see sl_answer_under() */
    int n_checks, check[SL_MOST_CHECKS];
    int n_looks, look[SL_MOST_LOOKS]; /* at skin, heat and stretch, whatever the colour does */
    sl_stop stop;                     /* that binds most often */
    bool by_stress;                   /* of base and stress the second binds more often */
    int left_p50_percent;             /* colour left at the stop, middle member; -1: not known */
    int measure;                      /* index into the spread's plan: what to measure next; -1 none */
    double measure_index;             /* its first-order index */
    double measure_odds[2];  /* odds where it proves to lie in its lowest or highest fifth, the less first;
                              * -1: not known, or not those that this answer is judged by */
    sl_grade weakest;        /* weakest grade of the numbers used */
    sl_intake_result intake; /* of a person; else zero */
} sl_answer;

/* Whether more members would hardly change the word: the 95 % interval of the odds lies on one side of each
 * threshold. */
bool sl_answer_settled(const sl_answer *answer);
/* Whether rounding to dots took the odds across such a threshold: then they are told as "<5", beside four
 * dots. */
bool sl_answer_under(const sl_answer *answer);

/* When an arm is rinsed, whatever it looks like: whole minutes from contact, before any limit comes in nine
 * of ten members, and never after the mix comes off as planned. */
typedef struct sl_rinse_by {
    int minute;   /* -1: no minute is told */
    bool planned; /* as the scene's steps say, or its aims: no limit of the model's comes before */
    sl_stop stop; /* who says so; SL_STOP_END: the scene's own steps */
} sl_rinse_by;
/* person NULL: cut swatches. */
sl_answer sl_answer_of(const sl_scene *scene, const sl_spread *spread, int arm, const sl_person *person);

/* ---- of a whole scene ------------------------------------------------------------------------ */

/* All that may be told of the arms of a scene, for whoever tells it. */
typedef struct sl_answers {
    const sl_scene *scene;         /* all borrowed */
    const sl_timeline *timeline;   /* central values */
    const sl_spread *spread;       /* members counted, their draws, what was seen */
    const sl_person *person;       /* NULL: cut swatches; else with a form */
    int n;                         /* arms */
    sl_limits limits[SL_MAX_ARMS]; /* [n] by the central values */
    sl_answer arm[SL_MAX_ARMS];    /* [n] */
    sl_rinse_by by[SL_MAX_ARMS];   /* [n] */
} sl_answers;

/* The timeline was made ready by sl_limits_prepare(); the spread is of its scene. optics may be NULL: then
 * nothing is said of how the leftover looks. */
void sl_answers_of(sl_answers *answers, const sl_timeline *timeline, const sl_spread *spread,
                   const sl_person *person, const sl_optics *optics);

#pragma GCC visibility pop

#endif
