/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * From the counts of an ensemble to one of five words, checks and looks; see limits.h. The
 * rule of the words and of the checks is assumed and stands in named constants.
 */
#include <assert.h>
#include <math.h>

#include "slowlift/limits.h"

static const int CHECK_EVERY_LEAST = 2, CHECK_EVERY_MOST = 5; /* minutes */
static const double CHECKS_IN_SPREAD = 4.0; /* steps between P10 and P90 of the early limit */

const char *sl_verdict_word(sl_verdict verdict)
{
    static const char *const words[SL_VERDICTS] = {[SL_OPEN] = "open",
                                                   [SL_SHORT] = "short",
                                                   [SL_DOUBTFUL] = "doubtful",
                                                   [SL_NONE] = "none",
                                                   [SL_NOT_ENOUGH_KNOWN] = "not enough known"};
    assert(verdict < SL_VERDICTS);
    return words[verdict];
}

sl_verdict sl_verdict_of(double odds, sl_three early, sl_three late)
{
    const bool apart = early.p90 >= 0.0 && (late.p10 < 0.0 || early.p90 < late.p10);
    if (odds >= SL_ODDS_OPEN && apart) {
        return SL_OPEN;
    }
    if (odds >= SL_ODDS_SHORT) {
        return SL_SHORT;
    }
    return odds >= SL_ODDS_DOUBTFUL ? SL_DOUBTFUL : SL_NONE;
}

static int clamped(double value, int least, int most)
{
    return (int)fmin(fmax(floor(value), least), most);
}

int sl_checks_of(sl_three early, sl_three late, double label_min, int check[SL_MOST_CHECKS])
{
    if (early.p10 < 0.0 || late.p10 < 0.0) {
        return 0;
    }
    const int last = (int)floor(label_min > 0.0 ? fmin(late.p10, label_min) : late.p10);
    const double step =
        early.p90 < 0.0
            ? CHECK_EVERY_MOST
            : fmin(fmax((early.p90 - early.p10) / CHECKS_IN_SPREAD, CHECK_EVERY_LEAST), CHECK_EVERY_MOST);
    const double first = clamped(early.p10, SL_FIRST_LOOK_MIN, 1 << 20);
    int n = 0;
    for (int i = 0; n < SL_MOST_CHECKS - 1 && first + i * step <= last; i++) {
        check[n++] = (int)fmin(round(first + i * step), last);
    }
    if (n > 0 && check[n - 1] < last) {
        if (n > 1 && last - check[n - 1] < CHECK_EVERY_LEAST) {
            n--;
        }
        check[n++] = last;
    }
    return n;
}

static int looks_until(double last_min, int look[SL_MOST_LOOKS])
{
    int n = 0;
    for (int t = SL_FIRST_LOOK_MIN; t <= last_min && n < SL_MOST_LOOKS; t += SL_LOOK_EVERY_MIN) {
        look[n++] = t;
    }
    return n;
}

static sl_three three_of(const uint32_t *histogram, const sl_spread *spread)
{
    return (sl_three){sl_spread_quantile(histogram, spread->seconds, spread->members, 0.1),
                      sl_spread_quantile(histogram, spread->seconds, spread->members, 0.5),
                      sl_spread_quantile(histogram, spread->seconds, spread->members, 0.9)};
}

static int middle_left(const sl_arm_spread *here, long members)
{
    long below = 0;
    int percent = 0;
    for (; percent < 100; percent++) {
        below += here->left_hundredths[percent];
        if (2 * below >= members) {
            break;
        }
    }
    return percent;
}

static void find_measure(sl_answer *answer, const sl_spread *spread, int arm)
{
    for (int d = 0; d < spread->plan.n; d++) {
        const double index = sl_spread_index(spread, arm, d);
        if (index > answer->measure_index) {
            answer->measure_index = index;
            answer->measure = d;
        }
    }
}

/* The label's time, minutes from contact, whether or not the arm stays on so long; 0: none. */
static double label_cap(const sl_scene *scene, int arm, const sl_intake *person)
{
    const sl_arm *const here = &scene->arms[arm];
    const double first_age = here->n_steps > 0 ? here->steps[0].mix_age_min : 0.0;
    double cap = person ? fmax(person->label_min - first_age, 0.0) : 0.0; /* from mixing */
    double start = 0.0;
    for (int i = 0; i < here->n_steps; i++) {
        const sl_step *const step = &here->steps[i];
        if (step->kind == SL_STEP_APPLY && scene->mixes[step->mix].label_max_min > 0.0) {
            const sl_mix *const mix = &scene->mixes[step->mix];
            const double age = mix->label_from_contact ? 0.0 : step->mix_age_min;
            const double label = start + fmax(mix->label_max_min - age, 0.0);
            cap = cap > 0.0 ? fmin(cap, label) : label;
        }
        start += step->duration_min;
    }
    return cap;
}

/* Share of members whose goal comes before their own limit and before this label's time, which
 * need not be that of the scene's mix. */
static double open_before(const sl_arm_spread *here, const sl_spread *spread, double label_min)
{
    double open = 0.0;
    for (int i = 0; i < spread->seconds && i < label_min * 60.0; i++) {
        open += here->open_early[i];
    }
    return open / (double)spread->members;
}

/* The earlier of a quantile of the late limit (-1: none in this scene) and a time. */
static double sooner(double minute, double other_min)
{
    return minute < 0.0 ? other_min : fmin(minute, other_min);
}

static void put_minutes(sl_answer *answer, const sl_scene *scene, const sl_spread *spread, int arm,
                        const sl_intake *person)
{
    const sl_arm_spread *const here = &spread->arms[arm];
    const double label = label_cap(scene, arm, person);
    const double end = scene->until_min - scene->arms[arm].contact_min;
    answer->minutes = true;
    answer->early = three_of(here->early, spread);
    answer->late = three_of(here->late, spread);
    if (label > 0.0) {
        answer->odds = open_before(here, spread, label);
        answer->dots = (int)lround(SL_DOTS * answer->odds);
        answer->late = (sl_three){sooner(answer->late.p10, label), sooner(answer->late.p50, label),
                                  sooner(answer->late.p90, label)};
    }
    answer->verdict = sl_verdict_of(answer->odds, answer->early, answer->late);
    const sl_three until = {sooner(answer->late.p10, end), -1.0, -1.0};
    answer->n_checks = sl_checks_of(answer->early, until, label, answer->check);
    answer->n_looks = looks_until(person ? fmin(label, end) : end, answer->look);
}

sl_answer sl_answer_of(const sl_scene *scene, const sl_spread *spread, int arm, const sl_intake *person)
{
    assert(arm >= 0 && arm < spread->n_arms);
    const sl_arm_spread *const here = &spread->arms[arm];
    sl_answer answer = {.verdict = SL_NOT_ENOUGH_KNOWN,
                        .odds = -1.0,
                        .early = {-1.0, -1.0, -1.0},
                        .late = {-1.0, -1.0, -1.0},
                        .stop = SL_STOP_END,
                        .measure = -1,
                        .weakest = scene->weakest};
    if (person) {
        answer.intake = sl_intake_judge(person);
    }
    const bool refused = scene->place != SL_PLACE_BENCH || (person && !answer.intake.minutes);
    if (refused || !here->asked || spread->members < SL_LEAST_MEMBERS) {
        return answer;
    }
    answer.odds = (double)here->open / (double)spread->members;
    answer.dots = (int)lround(SL_DOTS * answer.odds);
    for (int s = 0; s < SL_STOPS; s++) {
        answer.stop = here->late_by[s] > here->late_by[answer.stop] ? (sl_stop)s : answer.stop;
    }
    answer.left_p50_percent = middle_left(here, spread->members);
    find_measure(&answer, spread, arm);
    put_minutes(&answer, scene, spread, arm, person);
    return answer;
}
