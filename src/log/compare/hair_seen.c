/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What was read of hair beside the colour left: level, base, stretch and feel, each compared by the one rule
 * of blocks.h. A word counts by its place in its list; that one lies before another must not hang on what a
 * step of words is worth (docs/science.md, "Comparing what was seen").
 */
#include "log/compare/hair_seen.h"

#include <math.h>

#include "base/memory.h"
#include "slowlift/estimate.h"

#define ROW_OF(name, word, since, least) {word, since, least},
static const struct {
    const char *word, *since;
    double least_sd;
} rows[SL_HAIR_MEASURES] = {SL_HAIR_LIST(ROW_OF)};

const char *sl_hair_word(const sl_seen_hair *hair)
{
    return hair->since_start ? rows[hair->measure].since : rows[hair->measure].word;
}

bool sl_hair_in_words(sl_hair_measure measure)
{
    return measure == SL_HAIR_STRETCH || measure == SL_HAIR_FEEL;
}

bool sl_hair_before(const sl_compare *compare, int hair, int less, int other)
{
    return sl_compare_before(compare, compare->scene->n_zones + hair, less, other);
}

/* ---- what one swatch shows ------------------------------------------------------------------------- */

static bool is_dyed(const sl_compare *compare, int zone)
{
    return compare->scene->zones[zone].recipe.n_dyes > 0;
}

static bool counts(const sl_compare *compare, int arm, int zone)
{
    return arm >= 0 && (!is_dyed(compare, zone) || sl_compare_ranks(compare, arm, zone));
}

static const sl_seen_group *start_of(const sl_compare *compare, const sl_seen_group *group)
{
    return sl_looks_find(compare, group->swatch, group->zone, 0.0, SL_NOT_READ);
}

static double since(double now, double start, bool since_start)
{
    return now <= SL_NOT_READ || !since_start ? now : start <= SL_NOT_READ ? SL_NOT_READ : now - start;
}

double sl_hair_of_group(const sl_compare *compare, sl_hair_measure measure, bool since_start,
                        const sl_seen_group *group)
{
    const sl_seen_group *const start = start_of(compare, group);
    const int bare = sl_reference_zone(compare->scene, group->zone);
    const sl_seen_group *const beside =
        measure == SL_HAIR_BASE ? start
                                : sl_looks_find(compare, group->swatch, bare, group->minute, group->hours);
    if (measure == SL_HAIR_LEVEL) {
        return since(group->level, start ? start->level : SL_NOT_READ, since_start);
    }
    if (sl_hair_in_words(measure)) {
        return measure == SL_HAIR_STRETCH ? group->stretch : group->feel;
    }
    if (measure == SL_HAIR_BASE && !since_start) {
        return group->L;
    }
    return group->L > SL_NOT_READ && beside && beside->L > SL_NOT_READ ? sl_group_apart(group, beside)
                                                                       : SL_NOT_READ;
}

/* Mean over the moments that are ranked; SL_NOT_READ: nothing. */
static double read_of(const sl_compare *compare, const sl_seen_hair *hair, int swatch)
{
    double sum = 0.0;
    int n = 0;
    for (int i = sl_looks_first(compare, swatch, hair->zone); i < compare->n_groups; i++) {
        const sl_seen_group *const group = &compare->groups[i];
        if (group->swatch != swatch || group->zone != hair->zone) {
            break;
        }
        const double value = sl_look_is_of(compare, group, compare->at_min)
                                 ? sl_hair_of_group(compare, hair->measure, hair->since_start, group)
                                 : SL_NOT_READ;
        sum += value > SL_NOT_READ ? value : 0.0;
        n += value > SL_NOT_READ ? 1 : 0;
    }
    return n > 0 ? sum / n : SL_NOT_READ;
}

static int gather(const sl_compare *compare, const sl_seen_hair *hair, sl_block_value *value)
{
    int n = 0;
    for (int i = 0; i < compare->n_swatches; i++) {
        const int arm = compare->bench[i].arm;
        const double read = counts(compare, arm, hair->zone) ? read_of(compare, hair, i) : SL_NOT_READ;
        if (read > SL_NOT_READ) {
            value[n++] = (sl_block_value){arm, compare->swatches[i].block, read};
        }
    }
    return n;
}

/* ---- compared --------------------------------------------------------------------------------------- */

void sl_hair_blocks(sl_blocks *blocks, sl_hair_measure measure, const sl_block_value *value, int n,
                    int n_arms)
{
    sl_blocks_of(blocks, value, n, n_arms);
    for (int arm = 0; arm < n_arms; arm++) {
        blocks->least_sd[arm] = rows[measure].least_sd;
        blocks->mean[arm] = round(1e9 * blocks->mean[arm]) / 1e9 + 0.0; /* nothing is 0, not nearly */
    }
}

static bool can_be(const sl_compare *compare, sl_hair_measure measure, int zone)
{
    return measure == SL_HAIR_BASE  ? !is_dyed(compare, zone)
           : measure == SL_HAIR_OFF ? is_dyed(compare, zone) && compare->basis[zone] == SL_BASIS_GRADE
                                    : true;
}

/* False: nothing was read of it. */
static bool read_hair(const sl_compare *compare, sl_hair_measure measure, int zone, sl_block_value *value,
                      sl_seen_hair *hair)
{
    *hair = (sl_seen_hair){.measure = measure, .zone = zone};
    int n = can_be(compare, measure, zone) ? gather(compare, hair, value) : 0;
    if (n > 0 && (measure == SL_HAIR_LEVEL || measure == SL_HAIR_BASE)) {
        hair->since_start = true;
        hair->since_start = gather(compare, hair, value) == n;
        n = gather(compare, hair, value);
    }
    sl_hair_blocks(&hair->blocks, measure, value, n, compare->scene->n_arms);
    for (int i = 0; i < n && sl_hair_in_words(measure); i++) {
        hair->swatches[value[i].strip][(int)ceil(value[i].value - 1e-9)]++;
    }
    return n > 0;
}

static bool grow_hair(sl_compare *compare, const sl_seen_hair *hair, size_t *room, sl_error *error)
{
    if (!sl_grow(&compare->hair, room, (size_t)compare->n_hair + 1, sizeof *compare->hair, "comparing",
                 error)) {
        return false;
    }
    compare->hair[compare->n_hair++] = *hair;
    return true;
}

bool sl_seen_hair_read(sl_compare *compare, sl_error *error)
{
    const size_t n_arms = (size_t)compare->scene->n_arms;
    sl_block_value *const value = sl_new(SL_BENCH_MOST, sizeof *value, "comparing", error);
    sl_seen_hair *const hair = value ? sl_new(1, sizeof *hair, "comparing", error) : NULL;
    size_t room = 0;
    bool good = hair != NULL;
    sl_seen_hair_free(compare);
    for (int i = 0; good && i < compare->scene->n_zones * SL_HAIR_MEASURES; i++) {
        good =
            !read_hair(compare, (sl_hair_measure)(i % SL_HAIR_MEASURES), i / SL_HAIR_MEASURES, value, hair) ||
            grow_hair(compare, hair, &room, error);
    }
    good = good && sl_paid_read(compare, error);
    sl_free(hair);
    sl_free(value);
    sl_free(compare->before);
    const size_t n_asked = (size_t)(compare->scene->n_zones + compare->n_hair + compare->n_paid);
    compare->before =
        good ? sl_new(n_asked * n_arms * n_arms, sizeof *compare->before, "comparing", error) : NULL;
    return compare->before != NULL;
}

void sl_seen_hair_free(sl_compare *compare)
{
    sl_free(compare->hair);
    sl_free(compare->paid);
    compare->hair = NULL;
    compare->paid = NULL;
    compare->n_hair = compare->n_paid = 0;
}

/* Of what was paid the one pair is asked about that colour chose, less what its means may be off. */
int sl_seen_hair_ask(const sl_compare *compare, sl_blocks *asked)
{
    for (int i = 0; i < compare->n_hair; i++) {
        asked[i] = compare->hair[i].blocks;
        asked[i].beside = true;
    }
    for (int i = 0; i < compare->n_paid; i++) {
        const sl_seen_paid *const paid = &compare->paid[i];
        sl_blocks *const of = &asked[compare->n_hair + i];
        *of = paid->blocks;
        of->beside = true;
        for (int arm = 0; arm < compare->scene->n_arms; arm++) {
            of->n[arm] = arm == paid->fast || arm == paid->slow ? of->n[arm] : 0;
        }
        if (paid->fast >= 0) {
            const double apart = of->mean[paid->fast] - of->mean[paid->slow];
            const double lean = paid->lean[paid->fast] + paid->lean[paid->slow];
            of->mean[paid->fast] -= copysign(fmin(fabs(apart), lean), apart);
        }
    }
    return compare->n_hair + compare->n_paid;
}

bool sl_said_before(const int *less, const int *other, int n_words)
{
    double of_less = 0.0, of_other = 0.0, n_less = 0.0, n_other = 0.0;
    bool so = true;
    for (int i = 0; i < n_words; i++) {
        n_less += less[i];
        n_other += other[i];
    }
    for (int i = 0; i < n_words; i++) {
        of_less += less[i] / n_less;
        of_other += other[i] / n_other;
        so = so && of_less >= of_other - 1e-9;
    }
    return so;
}

void sl_seen_hair_settle(sl_compare *compare)
{
    const int n = compare->scene->n_arms;
    for (int i = 0; i < compare->n_hair; i++) {
        const sl_seen_hair *const hair = &compare->hair[i];
        bool *const before = compare->before + (size_t)((compare->scene->n_zones + i) * n) * (size_t)n;
        for (int k = 0; sl_hair_in_words(hair->measure) && k < n * n; k++) {
            before[k] =
                before[k] && sl_said_before(hair->swatches[k / n], hair->swatches[k % n], SL_HAIR_WORDS);
        }
    }
}
