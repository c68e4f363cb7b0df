/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The counts of an ensemble: made, counted into, added up. See counts.h.
 */
#include "estimate/counts.h"

#include <math.h>
#include <string.h>

#include "base/memory.h"
#include "estimate/observation_members.h"

static const char doing[] = "counting an ensemble";

/* ---- made and freed ------------------------------------------------------------------------ */

static void free_arms(sl_arm_spread *arms, int n)
{
    for (int a = 0; arms && a < n; a++) {
        sl_free(arms[a].early);
        sl_free(arms[a].open_early);
        sl_free(arms[a].late);
        sl_free(arms[a].last_zone);
        sl_free(arms[a].index_count);
        sl_free(arms[a].index_sum_s);
        sl_free(arms[a].index_open);
    }
    sl_free(arms);
}

void sl_spread_free(sl_spread *spread)
{
    if (spread) {
        free_arms(spread->arms, spread->n_arms);
        free_arms(spread->weighed, spread->n_arms);
        sl_free(spread);
    }
}

static bool make_arm(sl_arm_spread *arm, const sl_spread *spread, sl_error *error)
{
    const size_t bins = (size_t)spread->seconds + 1;
    arm->early = sl_new(bins, sizeof *arm->early, doing, error);
    arm->open_early = arm->early ? sl_new(bins, sizeof *arm->open_early, doing, error) : NULL;
    arm->late = arm->open_early ? sl_new(bins, sizeof *arm->late, doing, error) : NULL;
    arm->last_zone = arm->late ? sl_new((size_t)spread->n_zones, sizeof *arm->last_zone, doing, error) : NULL;
    const size_t drawn = (size_t)spread->plan.n;
    arm->index_count = arm->last_zone ? sl_new(drawn, sizeof *arm->index_count, doing, error) : NULL;
    arm->index_sum_s = arm->index_count ? sl_new(drawn, sizeof *arm->index_sum_s, doing, error) : NULL;
    arm->index_open = arm->index_sum_s ? sl_new(drawn, sizeof *arm->index_open, doing, error) : NULL;
    return arm->index_open != NULL;
}

static bool make_arms(sl_arm_spread **arms, const sl_spread *spread, const sl_scene *scene, sl_error *error)
{
    *arms = sl_new((size_t)spread->n_arms, sizeof **arms, doing, error);
    for (int a = 0; *arms && a < spread->n_arms; a++) {
        (*arms)[a].asked = sl_limits_can_be_asked(scene, a);
        if ((*arms)[a].asked && !make_arm(&(*arms)[a], spread, error)) {
            return false;
        }
    }
    return *arms != NULL;
}

sl_spread *spread_new(const sl_scene *scene, const sl_draw_plan *plan, uint64_t seed,
                      const sl_observations *observations, sl_error *error)
{
    sl_spread *const spread = sl_new(1, sizeof *spread, doing, error);
    if (!spread) {
        return NULL;
    }
    spread->seconds = (int)ceil(scene->until_min * 60.0);
    spread->n_zones = scene->n_zones;
    spread->n_arms = scene->n_arms;
    spread->plan = *plan;
    spread->seed = seed;
    if (observations) {
        spread->seen.observations = *observations;
    }
    if (!make_arms(&spread->arms, spread, scene, error) ||
        (spread->seen.observations.n > 0 && !make_arms(&spread->weighed, spread, scene, error))) {
        sl_spread_free(spread);
        return NULL;
    }
    return spread;
}

/* ---- counted ------------------------------------------------------------------------------- */

/* Minutes are 0 and up (limits_in_range()). */
static int bin_of(double minutes, int seconds)
{
    const double s = ceil(minutes * 60.0);
    return s < seconds ? (int)s : seconds;
}

static void count_arm(const sl_spread *spread, sl_arm_spread *arm, const member_limits *member,
                      const double u[], int64_t weight)
{
    const int early = member->early_reached ? bin_of(member->early_min, spread->seconds) : spread->seconds;
    const int late = bin_of(member->late_min, spread->seconds);
    const int64_t margin_s = late - early;
    const uint64_t by = (uint64_t)weight;
    arm->early[early] += by;
    arm->late[late] += by;
    arm->open += early < late ? weight : 0;
    arm->open_early[early] += early < late ? by : 0;
    arm->late_by[member->late_by] += weight;
    arm->last_zone[member->last_zone] += by;
    arm->left_hundredths[(int)lround(100.0 * fmin(fmax(member->left_at_late, 0.0), 1.0))] += by;
    arm->sum_s += weight * margin_s;
    arm->square_s2 += weight * margin_s * margin_s;
    for (int d = 0; d < spread->plan.n; d++) {
        const int bin = (int)(u[d] * SL_INDEX_BINS);
        arm->index_count[d][bin] += weight;
        arm->index_sum_s[d][bin] += weight * margin_s;
        arm->index_open[d][bin] += early < late ? weight : 0;
    }
}

void spread_count(sl_spread *spread, int arm, const member_limits *member, const double u[], int64_t weight)
{
    count_arm(spread, &spread->arms[arm], member, u, 1);
    if (spread->weighed) {
        count_arm(spread, &spread->weighed[arm], member, u, weight);
    }
}

int64_t spread_count_seen(sl_seen *seen, double agreement, uint32_t agrees)
{
    bool capped = false;
    const int64_t weight = weight_of(agreement, seen->scale, &capped);
    bool all = true;
    for (int i = 0; i < seen->observations.n; i++) {
        const bool with = (agrees >> i & 1U) != 0;
        seen->agree[i] += with ? 1 : 0;
        all = all && with;
    }
    seen->agree_all += all ? 1 : 0;
    seen->capped += capped ? 1 : 0;
    seen->weight += weight;
    seen->square += weight * weight;
    return weight;
}

/* ---- added up ------------------------------------------------------------------------------ */

static void add_arm(sl_arm_spread *sum, const sl_arm_spread *part, const sl_spread *whole)
{
    for (int i = 0; i <= whole->seconds && sum->asked; i++) {
        sum->early[i] += part->early[i];
        sum->open_early[i] += part->open_early[i];
        sum->late[i] += part->late[i];
    }
    for (int z = 0; z < whole->n_zones && sum->asked; z++) {
        sum->last_zone[z] += part->last_zone[z];
    }
    for (int i = 0; i < SL_STOPS; i++) {
        sum->late_by[i] += part->late_by[i];
    }
    for (int i = 0; i <= 100; i++) {
        sum->left_hundredths[i] += part->left_hundredths[i];
    }
    for (int d = 0; d < whole->plan.n && sum->asked; d++) {
        for (int b = 0; b < SL_INDEX_BINS; b++) {
            sum->index_count[d][b] += part->index_count[d][b];
            sum->index_sum_s[d][b] += part->index_sum_s[d][b];
            sum->index_open[d][b] += part->index_open[d][b];
        }
    }
    sum->open += part->open;
    sum->sum_s += part->sum_s;
    sum->square_s2 += part->square_s2;
}

static void add_seen(sl_seen *sum, const sl_seen *part)
{
    for (int i = 0; i < sum->observations.n; i++) {
        sum->agree[i] += part->agree[i];
    }
    sum->agree_all += part->agree_all;
    sum->capped += part->capped;
    sum->weight += part->weight;
    sum->square += part->square;
}

void spread_gather(sl_spread *sum, const sl_spread *part)
{
    for (int a = 0; a < sum->n_arms; a++) {
        add_arm(&sum->arms[a], &part->arms[a], sum);
        if (sum->weighed) {
            add_arm(&sum->weighed[a], &part->weighed[a], sum);
        }
    }
    add_seen(&sum->seen, &part->seen);
    sum->members += part->members;
}

static bool same_plan(const sl_draw_plan *one, const sl_draw_plan *two)
{
    if (one->n != two->n) {
        return false;
    }
    for (int d = 0; d < one->n; d++) {
        const sl_drawn *const x = &one->drawn[d];
        const sl_drawn *const y = &two->drawn[d];
        if (x->doubt != y->doubt || x->dye != y->dye || x->grade != y->grade ||
            fabs(x->spread - y->spread) > 0.0) {
            return false;
        }
    }
    return true;
}

static bool of_one_scene(const sl_spread *sum, const sl_spread *part)
{
    bool same = sum->seconds == part->seconds && sum->n_arms == part->n_arms &&
                sum->n_zones == part->n_zones && same_plan(&sum->plan, &part->plan);
    for (int a = 0; same && a < sum->n_arms; a++) {
        same = sum->arms[a].asked == part->arms[a].asked;
    }
    return same;
}

static bool ranges_overlap(const sl_spread *one, const sl_spread *two)
{
    for (int i = 0; i < one->n_ranges; i++) {
        for (int j = 0; j < two->n_ranges; j++) {
            const sl_member_range *const x = &one->range[i];
            const sl_member_range *const y = &two->range[j];
            if (x->first < y->first + y->members && y->first < x->first + x->members) {
                return true;
            }
        }
    }
    return false;
}

/* In order, joined to a neighbour that it touches; there is room for one more. */
static void put_range(sl_spread *sum, sl_member_range range)
{
    int at = sum->n_ranges++;
    for (; at > 0 && sum->range[at - 1].first > range.first; at--) {
        sum->range[at] = sum->range[at - 1];
    }
    sum->range[at] = range;
    int kept = 0;
    for (int i = 1; i < sum->n_ranges; i++) {
        sl_member_range *const before = &sum->range[kept];
        if (before->first + before->members == sum->range[i].first) {
            before->members += sum->range[i].members;
        } else {
            sum->range[++kept] = sum->range[i];
        }
    }
    sum->n_ranges = kept + 1;
}

bool sl_spread_add(sl_spread *sum, const sl_spread *part, sl_error *error)
{
    if (!of_one_scene(sum, part)) {
        return sl_fail(error, SL_ERR_INCONSISTENT, "these parts are not of one scene",
                       "run every part on the same scene file");
    }
    if (sum->seed != part->seed) {
        return sl_fail(error, SL_ERR_INCONSISTENT, "these parts have different seeds",
                       "run every part with the same seed");
    }
    if (!sl_observations_same(&sum->seen.observations, &part->seen.observations) ||
        sum->seen.scale != part->seen.scale) {
        return sl_fail(error, SL_ERR_INCONSISTENT, "these parts were told different things seen",
                       "enter the same for every part");
    }
    if (sum->stopped || part->stopped) {
        return sl_fail(error, SL_ERR_INCONSISTENT, "one part was stopped before its end",
                       "run that part again");
    }
    if (ranges_overlap(sum, part)) {
        return sl_fail(error, SL_ERR_INCONSISTENT, "two parts hold the same model runs",
                       "merge every part once");
    }
    if (sum->n_ranges + part->n_ranges >= SL_MOST_RANGES) {
        return sl_fail(error, SL_ERR_TOO_LARGE, "too many parts with gaps between them",
                       "511 of them; merge neighbours first");
    }
    spread_gather(sum, part);
    sum->asked_for += part->asked_for;
    for (int i = 0; i < part->n_ranges; i++) {
        put_range(sum, part->range[i]);
    }
    return true;
}
