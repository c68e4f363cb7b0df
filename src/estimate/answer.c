/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * From the counts of an ensemble to one of five words, checks and looks; see limits.h. The
 * rule of the words and of the checks is assumed and stands in named constants.
 */
#include <assert.h>
#include <math.h>

#include "base/language.h"
#include "estimate/observation_members.h"
#include "slowlift/answer.h"

static const int CHECK_EVERY_LEAST = 2, CHECK_EVERY_MOST = 5; /* minutes */
static const double CHECKS_IN_SPREAD = 4.0; /* steps between P10 and P90 of the early limit */

#define AS_WORD(name, word, key) [name] = (word),
#define AS_KEY(name, word, key) [name] = (key),

const char *sl_verdict_word(sl_verdict verdict)
{
    static const char *const words[SL_VERDICTS] = {SL_VERDICT_LIST(AS_WORD)};
    assert(verdict < SL_VERDICTS);
    return words[verdict];
}

const char *sl_verdict_key(sl_verdict verdict)
{
    static const char *const keys[SL_VERDICTS] = {SL_VERDICT_LIST(AS_KEY)};
    assert(verdict < SL_VERDICTS);
    return keys[verdict];
}

sl_verdict sl_verdict_of(double odds, sl_three early, sl_three late)
{
    const bool apart = early.p90 >= 0.0 && (late.p10 < 0.0 || early.p90 < late.p10);
    if (odds >= SL_ODDS_OPEN && apart) {
        return SL_VERDICT_ROOMY;
    }
    if (odds >= SL_ODDS_SHORT) {
        return SL_VERDICT_TIGHT;
    }
    return odds >= SL_ODDS_DOUBTFUL ? SL_VERDICT_DOUBTFUL : SL_VERDICT_LATE;
}

/* Whether a border of the verdicts lies between. */
static bool parted(double low, double high)
{
    static const double thresholds[] = {SL_ODDS_OPEN, SL_ODDS_SHORT, SL_ODDS_DOUBTFUL};
    for (size_t i = 0; i < sizeof thresholds / sizeof thresholds[0]; i++) {
        if ((low >= thresholds[i]) != (high >= thresholds[i])) {
            return true;
        }
    }
    return false;
}

bool sl_answer_settled(const sl_answer *answer)
{
    return !parted(answer->odds_95.low, answer->odds_95.high);
}

bool sl_answer_under(const sl_answer *answer)
{
    const double rounded = (double)answer->dots / SL_DOTS;
    return answer->odds < rounded && parted(answer->odds, rounded);
}

/* Checks later than `after` (0: from the start) and no later than the label (< 0: none). */
static int checks_after(double after, sl_three early, sl_three late, double label_min,
                        int check[SL_MOST_CHECKS])
{
    if (early.p10 < 0.0 || late.p10 < 0.0) {
        return 0;
    }
    const int last = (int)floor(label_min >= 0.0 ? fmin(late.p10, label_min) : late.p10);
    const double step =
        early.p90 < 0.0
            ? CHECK_EVERY_MOST
            : fmin(fmax((early.p90 - early.p10) / CHECKS_IN_SPREAD, CHECK_EVERY_LEAST), CHECK_EVERY_MOST);
    const double next = after > 0.0 ? floor(after) + CHECK_EVERY_LEAST : SL_FIRST_LOOK_MIN;
    const double first = fmax(floor(early.p10), next);
    int n = 0;
    for (int i = 0; n < SL_MOST_CHECKS - 1 && first + i * step <= last; i++) {
        check[n++] = (int)fmin(round(first + i * step), last);
    }
    if (n == 0 && after > 0.0 && last > after && first <= next) {
        check[n++] = last; /* one look more before the limit */
    }
    if (n > 0 && check[n - 1] < last) {
        if (n > 1 && last - check[n - 1] < CHECK_EVERY_LEAST) {
            n--;
        }
        check[n++] = last;
    }
    return n;
}

int sl_checks_of(sl_three early, sl_three late, double label_min, int check[SL_MOST_CHECKS])
{
    return checks_after(0.0, early, late, label_min > 0.0 ? label_min : -1.0, check);
}

static int looks_between(double after, double last_min, int look[SL_MOST_LOOKS])
{
    int n = 0;
    for (int t = SL_FIRST_LOOK_MIN; t <= last_min && n < SL_MOST_LOOKS; t += SL_LOOK_EVERY_MIN) {
        if (t > after) {
            look[n++] = t;
        }
    }
    return n;
}

static sl_three three_of(const uint64_t *histogram, const sl_spread *spread)
{
    const int64_t total = sl_spread_total(spread);
    return (sl_three){sl_spread_quantile(histogram, spread->seconds, total, 0.1),
                      sl_spread_quantile(histogram, spread->seconds, total, 0.5),
                      sl_spread_quantile(histogram, spread->seconds, total, 0.9)};
}

static int middle_left(const sl_arm_spread *here, int64_t total)
{
    int64_t below = 0;
    int percent = 0;
    for (; percent < 100; percent++) {
        below += (int64_t)here->left_hundredths[percent];
        if (2 * below >= total) {
            break;
        }
    }
    return percent;
}

/* The zone that mostly decides when the goal is reached. */
static int goal_zone_of(const sl_spread *spread, int arm)
{
    const sl_arm_spread *const here = sl_spread_arm(spread, arm);
    int last = 0;
    for (int zone = 1; zone < spread->n_zones; zone++) {
        last = here->last_zone[zone] > here->last_zone[last] ? zone : last;
    }
    return last;
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
    /* Of members before their own limits alone: a label's time is none of them. */
    const double open = (double)sl_spread_arm(spread, arm)->open / (double)sl_spread_total(spread);
    if (answer->measure >= 0 && fabs(open - answer->odds) < 1e-9) {
        const int fifth = SL_INDEX_BINS / 5;
        const double low = sl_spread_odds_within(spread, arm, answer->measure, 0, fifth);
        const double high = sl_spread_odds_within(spread, arm, answer->measure, SL_INDEX_BINS - fifth, fifth);
        answer->measure_odds[0] = fmin(low, high);
        answer->measure_odds[1] = fmax(low, high);
    }
}

/* Share of members whose goal comes before their own limit and before this label's time, which
 * need not be that of the scene's mix. */
static double open_before(const sl_arm_spread *here, const sl_spread *spread, double label_min)
{
    double open = 0.0;
    for (int i = 0; i < spread->seconds && i < label_min * 60.0; i++) {
        open += (double)here->open_early[i];
    }
    return open / (double)sl_spread_total(spread);
}

/* The earlier of a quantile of the late limit (-1: none in this scene) and a time. */
static double sooner(double minute, double other_min)
{
    return minute < 0.0 ? other_min : fmin(minute, other_min);
}

/* The last look at this arm itself; a strand's clock is its own. */
static double last_seen(const sl_observations *observations, int arm)
{
    double last = 0.0;
    for (int i = 0; i < observations->n; i++) {
        last = observations->observation[i].arm == arm && !observations->observation[i].strand
                   ? fmax(last, observations->observation[i].minute)
                   : last;
    }
    return last;
}

/* Minutes from contact until the last mix is off the hair or the scene ends: no lock is wiped later. */
static double mix_off_min(const sl_scene *scene, int arm)
{
    const sl_arm *const here = &scene->arms[arm];
    const double off = sl_arm_minutes_before(here, sl_arm_last_application(here) + 1);
    return fmin(off, scene->until_min - here->contact_min);
}

/* What comes after the last minute that may be told does not come in time. */
static double in_time(double minute, double last_min)
{
    return minute > last_min ? -1.0 : minute;
}

/* The label, or how long the strand was watched, ends what would else go on. */
static void end_in_time(sl_answer *answer, double last_min, double off_min)
{
    const sl_three goal = answer->early;
    const bool before = answer->late.p50 >= 0.0 && answer->late.p50 <= last_min;
    if (!before && last_min <= off_min) {
        answer->stop = answer->leave.label.end_min <= last_min ? SL_STOP_LABEL : SL_STOP_STRAND;
        answer->left_p50_percent = -1; /* members went on to a later stop */
    }
    answer->late = (sl_three){sooner(answer->late.p10, last_min), sooner(answer->late.p50, last_min),
                              sooner(answer->late.p90, last_min)};
    answer->early =
        (sl_three){in_time(goal.p10, last_min), in_time(goal.p50, last_min), in_time(goal.p90, last_min)};
    answer->cut = goal.p10 > last_min || goal.p50 > last_min || goal.p90 > last_min;
}

static void put_minutes(sl_answer *answer, const sl_scene *scene, const sl_spread *spread, int arm)
{
    const sl_arm_spread *const here = sl_spread_arm(spread, arm);
    const double last = sl_leave_last_min(&answer->leave);
    const double off = mix_off_min(scene, arm);
    const sl_three goal = three_of(here->early, spread);
    answer->minutes = true;
    answer->early = goal;
    answer->late = three_of(here->late, spread);
    answer->odds = (double)here->open / (double)sl_spread_total(spread);
    if (last < HUGE_VAL) {
        answer->odds = open_before(here, spread, last);
        end_in_time(answer, last, off);
    }
    answer->dots = (int)lround(SL_DOTS * answer->odds);
    answer->odds_95 = sl_odds_interval(answer->odds, answer->effective, 0.95);
    answer->verdict = sl_verdict_of(answer->odds, answer->early, answer->late);
    answer->seen_min = last_seen(&spread->seen.observations, arm);
    const sl_three until = {sooner(answer->late.p10, off), -1.0, -1.0};
    answer->n_checks =
        checks_after(answer->seen_min, goal, until, last < HUGE_VAL ? last : -1.0, answer->check);
    answer->n_looks = looks_between(answer->seen_min, fmin(last, off), answer->look);
}

/* ---- whether anything may be said ----------------------------------------------------------- */

static bool among(const sl_observations *observations, sl_observation observation)
{
    observation.strand = true;
    for (int i = 0; i < observations->n; i++) {
        if (observation_same(&observations->observation[i], &observation)) {
            return true;
        }
    }
    return false;
}

/* The ensemble was weighed by all that this person's strand showed, at least once of this arm, and
 * by no other strand. */
static bool strand_was_counted(const sl_spread *spread, const sl_intake *form, int arm)
{
    const sl_observations *const counted = &spread->seen.observations;
    sl_observations own = form->showed;
    bool of_arm = false;
    for (int i = 0; i < own.n; i++) {
        own.observation[i].strand = true;
        of_arm = of_arm || own.observation[i].arm == arm;
        if (!among(counted, own.observation[i])) {
            return false;
        }
    }
    for (int i = 0; i < counted->n; i++) {
        if (counted->observation[i].strand && !among(&own, counted->observation[i])) {
            return false;
        }
    }
    return of_arm;
}

/* The one thing seen that fewest members agree with, when too few do; else -1. */
static int unexpected_of(const sl_spread *spread)
{
    int least = -1;
    for (int i = 0; i < spread->seen.observations.n; i++) {
        const bool few = (double)spread->seen.agree[i] < SL_SURPRISE_SHARE * (double)spread->members;
        if (few && (least < 0 || spread->seen.agree[i] < spread->seen.agree[least])) {
            least = i;
        }
    }
    return least;
}

/* Each alone is nothing strange, yet hardly any member has them together. */
static bool at_odds(const sl_spread *spread)
{
    double by_chance = 1.0;
    for (int i = 0; i < spread->seen.observations.n; i++) {
        by_chance *= (double)spread->seen.agree[i] / (double)spread->members;
    }
    const double all = (double)spread->seen.agree_all / (double)spread->members;
    return spread->seen.observations.n > 1 && all < SL_AT_ODDS_SHARE * by_chance;
}

static sl_unknown unknown_of_members(const sl_spread *spread)
{
    if (spread->members < SL_LEAST_MEMBERS) {
        return SL_UNKNOWN_MEMBERS;
    }
    if (!spread->weighed) {
        return SL_UNKNOWN_NOTHING;
    }
    if (unexpected_of(spread) >= 0) {
        return SL_UNKNOWN_SURPRISE;
    }
    if (at_odds(spread)) {
        return SL_UNKNOWN_AT_ODDS;
    }
    return sl_spread_effective(spread) < (double)SL_LEAST_MEMBERS ? SL_UNKNOWN_TOO_FEW_AGREE
                                                                  : SL_UNKNOWN_NOTHING;
}

static sl_unknown unknown_of(const sl_leave *leave, const sl_spread *spread, int arm, const sl_person *person)
{
    if (!leave->minutes) {
        return leave->why;
    }
    if (person && !strand_was_counted(spread, person->form, arm)) {
        return SL_UNKNOWN_STRAND;
    }
    return spread->arms[arm].asked ? unknown_of_members(spread) : SL_UNKNOWN_ARM;
}

sl_answer sl_answer_of(const sl_scene *scene, const sl_spread *spread, int arm, const sl_person *person)
{
    assert(arm >= 0 && arm < spread->n_arms);
    const sl_arm_spread *const here = sl_spread_arm(spread, arm);
    const sl_leave leave = sl_leave_of(scene, arm, person);
    sl_answer answer = {.verdict = SL_VERDICT_UNKNOWN,
                        .unknown = unknown_of(&leave, spread, arm, person),
                        .leave = leave,
                        .unexpected = -1,
                        .partial = spread->stopped,
                        .odds = -1.0,
                        .odds_95 = {-1.0, -1.0},
                        .effective = sl_spread_effective(spread),
                        .agree = spread->weighed ? spread->seen.agree_all : spread->members,
                        .early = {-1.0, -1.0, -1.0},
                        .late = {-1.0, -1.0, -1.0},
                        .stop = SL_STOP_END,
                        .goal_zone = -1,
                        .measure = -1,
                        .measure_odds = {-1.0, -1.0},
                        .weakest = scene->weakest};
    if (person && person->form) {
        answer.intake = sl_intake_judge(person->form);
    }
    if (answer.unknown == SL_UNKNOWN_SURPRISE) {
        answer.unexpected = unexpected_of(spread);
    }
    if (answer.unknown != SL_UNKNOWN_NOTHING) {
        return answer;
    }
    for (int s = 0; s < SL_STOPS; s++) {
        answer.stop = here->late_by[s] > here->late_by[answer.stop] ? (sl_stop)s : answer.stop;
    }
    answer.by_stress = here->late_by[SL_STOP_STRESS] > here->late_by[SL_STOP_BASE];
    answer.goal_zone = goal_zone_of(spread, arm);
    answer.left_p50_percent = middle_left(here, sl_spread_total(spread));
    put_minutes(&answer, scene, spread, arm);
    find_measure(&answer, spread, arm);
    return answer;
}

/* The time that ends an arm without any model, and whose it is. */
static sl_rinse_by planned_end(const sl_scene *scene, int arm, const sl_answer *answer)
{
    const sl_bound longest = scene->aims.longest_min;
    sl_rinse_by by = {(int)floor(mix_off_min(scene, arm)), true, SL_STOP_END};
    if (longest.set && floor(longest.most) < by.minute) {
        by = (sl_rinse_by){(int)floor(longest.most), true, SL_STOP_CHAIR};
    }
    if (answer->leave.label.end_min < by.minute) {
        by = (sl_rinse_by){(int)floor(answer->leave.label.end_min), true, SL_STOP_LABEL};
    }
    if (answer->leave.watched_min < by.minute) {
        by = (sl_rinse_by){(int)floor(answer->leave.watched_min), true, SL_STOP_STRAND};
    }
    return by;
}

static sl_rinse_by rinse_by_of(const sl_scene *scene, int arm, const sl_answer *answer)
{
    const sl_rinse_by planned = planned_end(scene, arm, answer);
    if (!answer->minutes) {
        return (sl_rinse_by){-1, false, SL_STOP_END};
    }
    if (answer->late.p10 >= 0.0 && floor(answer->late.p10) < planned.minute) {
        return (sl_rinse_by){(int)floor(answer->late.p10), false,
                             answer->by_stress ? SL_STOP_STRESS : SL_STOP_BASE};
    }
    return planned;
}

void sl_answers_of(sl_answers *answers, const sl_timeline *timeline, const sl_spread *spread,
                   const sl_person *person, const sl_optics *optics)
{
    const sl_scene *const scene = sl_timeline_scene(timeline);
    *answers = (sl_answers){
        .scene = scene, .timeline = timeline, .spread = spread, .person = person, .n = scene->n_arms};
    for (int arm = 0; arm < answers->n; arm++) {
        answers->limits[arm] = sl_limits_of(timeline, arm, optics);
        answers->arm[arm] = sl_answer_of(scene, spread, arm, person);
        answers->by[arm] = rinse_by_of(scene, arm, &answers->arm[arm]);
    }
}
