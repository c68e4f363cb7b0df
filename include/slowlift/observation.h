/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What the cotton showed: a lock is wiped clean at a minute, looked at against the undyed
 * reference, and graded in words. Members of an ensemble are weighed by how well they agree.
 * The model of the judge: docs/science.md, "What was seen moves the answer".
 *
 * Invariant: weights are whole numbers, made from a member's draws alone, so that threads and
 * shards change no sum.
 */
#ifndef SLOWLIFT_OBSERVATION_H
#define SLOWLIFT_OBSERVATION_H

#include <stdbool.h>
#include <stdint.h>

#include "slowlift/error.h"
#include "slowlift/model.h"

#pragma GCC visibility push(default)

/* The one table of grades: words, and the share of colour left that they stand for (assumed). */
#define SL_WIPE_LIST(X)                                                                                      \
    X(SL_WIPE_NO_CHANGE, "no change", 1.00)                                                                  \
    X(SL_WIPE_SLIGHT, "slight", 0.80)                                                                        \
    X(SL_WIPE_HALF, "about half", 0.50)                                                                      \
    X(SL_WIPE_MOSTLY_GONE, "mostly gone", 0.25)                                                              \
    X(SL_WIPE_GHOST, "ghost only", 0.10)                                                                     \
    X(SL_WIPE_UNDYED, "as undyed", 0.00)

#define SL_WIPE_AS_ENUM(name, word, share) name,
typedef enum sl_wipe { SL_WIPE_LIST(SL_WIPE_AS_ENUM) SL_WIPES } sl_wipe;
#undef SL_WIPE_AS_ENUM
const char *sl_wipe_word(sl_wipe wipe);
double sl_wipe_share(sl_wipe wipe);
bool sl_wipe_of_word(const char *word, sl_wipe *wipe);
/* How far apart the two grades are between which this share lies; at a grade, it and the next with more left.
 */
double sl_wipe_step(double left);

/* Who looks sees the square root of the share left, with an error, and says the nearest grade. */
typedef struct sl_judge {
    double offset; /* of that root: above 0 sees more than is left */
    double spread; /* of it, standard deviation, above 0 */
    double lapse; /* 0..1, how often the grade has nothing to do with the lock (the wrong line of the form) */
} sl_judge;
/* Of whom nothing is known; assumed. */
static const sl_judge SL_JUDGE_USUAL = {0.0, 0.10, 0.02};

enum { SL_OBSERVED_ALL_ZONES = -1, SL_MOST_OBSERVATIONS = 32 };

typedef struct sl_observation {
    int arm;
    int zone;      /* or SL_OBSERVED_ALL_ZONES: one grade for the mean of the zones with direct dye */
    double minute; /* since the arm's contact, or the strand's */
    sl_wipe wipe;
    bool strand; /* on a strand lying on the bench at the room's warmth, whatever the scene's place */
} sl_observation;

typedef struct sl_observations {
    int n;
    sl_observation observation[SL_MOST_OBSERVATIONS];
} sl_observations; /* start with {0} */

/* Whether the scene can be asked about each of them; else the first that is wrong, in words. */
bool sl_observations_check(const sl_observations *observations, const sl_scene *scene, sl_error *error);
bool sl_observations_same(const sl_observations *one, const sl_observations *two);

/* The square root of the share left at which a grade ends against the one with more; far above all for the
 * first, and at SL_WIPES, below the last, as far below nothing. */
double sl_wipe_edge(int wipe);
/* Chance that the judge gives this grade to a lock with this share of colour left; the six sum to 1. */
double sl_wipe_chance(const sl_judge *judge, sl_wipe wipe, double left);
/* The grade that the judge gives it where luck stands at `draw`, evenly from 0 to 1. */
sl_wipe sl_wipe_drawn(const sl_judge *judge, double left, double draw);
/* The same over its largest value for any lock, 0..1. */
double sl_wipe_agreement(const sl_judge *judge, sl_wipe wipe, double left);
/* How far a mean of many grades, as shares, lies from the share left that gives it: the judge's grades lean
 * inwards at the ends of the scale, and a slip of the form leans to its middle. 0 or more. */
double sl_wipe_lean(const sl_judge *judge, double mean);

/* A member agrees with what was seen when its agreement is at least this: two standard deviations
 * of a normal curve, exp(-2). */
static const double SL_AGREES = 0.1353352832366127;
/* The model is surprised when a smaller share of members agrees with one of the things seen ... */
static const double SL_SURPRISE_SHARE = 0.02; /* (assumed) */
/* ... and finds them at odds when this much fewer agree with all than chance would have it. */
static const double SL_AT_ODDS_SHARE = 0.1; /* (assumed) */

#pragma GCC visibility pop

#endif
