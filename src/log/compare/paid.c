/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What the hair paid at the same colour left, out of the swatches themselves, and what the model expects.
 * Each swatch is read off its own line first; strips and rounds are then least squares as everywhere. See
 * compare.h.
 */
#include <math.h>
#include <string.h>

#include "base/memory.h"
#include "log/compare/hair_seen.h"
#include "slowlift/estimate.h"
#include "slowlift/optics.h"

/* A line needs the logarithm of nothing left, too: half of what the last grade but one stands for (assumed).
 */
static const double AS_GOOD_AS_NOTHING = 0.05;

static double log_left(double left)
{
    return log(fmax(left, AS_GOOD_AS_NOTHING));
}

double sl_paid_at(const sl_paid_look *look, int n, double left, double apart, bool from_start, double *slope)
{
    sl_paid_look above = {SL_NOT_READ, 0.0}, below = {SL_NOT_READ, 0.0};
    int n_above = 0, n_below = 0; /* looks at as much: their mean */
    for (int i = 0; i < n; i++) {
        const double at = look[i].left;
        if (at >= left && (n_above == 0 || at <= above.left)) {
            n_above = n_above > 0 && at >= above.left ? n_above + 1 : 1;
            above = (sl_paid_look){at, n_above == 1 ? look[i].hair
                                                    : above.hair + (look[i].hair - above.hair) / n_above};
        }
        if (at <= left && (n_below == 0 || at >= below.left)) {
            n_below = n_below > 0 && at <= below.left ? n_below + 1 : 1;
            below = (sl_paid_look){at, n_below == 1 ? look[i].hair
                                                    : below.hair + (look[i].hair - below.hair) / n_below};
        }
    }
    const double log_below = log_left(below.left), whole = log_left(above.left) - log_below;
    if (n_above > 0 && n_below > 0 && whole > 0.0) {
        *slope = (above.hair - below.hair) / whole;
        return below.hair + *slope * (log_left(left) - log_below);
    }
    *slope = n_below > 0 && from_start ? below.hair / log_below : 0.0;
    return n_below > 0 && left - below.left <= apart + 1e-9 ? below.hair : SL_NOT_READ;
}

/* ---- looks of one swatch ---------------------------------------------------------------------------- */

typedef struct sl_paid_looks {
    sl_paid_look *look; /* [n] */
    size_t n, room;
} sl_paid_looks;

static bool looks_of(const sl_compare *compare, int zone, const sl_seen_hair *hair, int swatch,
                     sl_paid_looks *looks, sl_error *error)
{
    const sl_basis basis = compare->basis[zone];
    looks->n = 0;
    for (int i = sl_looks_first(compare, swatch, zone); i < compare->n_groups; i++) {
        const sl_seen_group *const group = &compare->groups[i];
        if (group->swatch != swatch || group->zone != zone) {
            break;
        }
        const sl_seen_group *const bare =
            sl_looks_find(compare, swatch, hair->zone, group->minute, group->hours);
        const bool used = group->hours <= SL_NOT_READ &&
                          (group->minute <= SL_NOT_READ || group->minute >= 0.5) &&
                          group->left[basis] > SL_NOT_READ && bare;
        const double value =
            used ? sl_hair_of_group(compare, hair->measure, hair->since_start, bare) : SL_NOT_READ;
        if (value <= SL_NOT_READ) {
            continue;
        }
        if (!sl_grow(&looks->look, &looks->room, looks->n + 1, sizeof *looks->look, "comparing", error)) {
            return false;
        }
        looks->look[looks->n++] = (sl_paid_look){group->left[basis], value};
    }
    return true;
}

/* ---- where strips meet ------------------------------------------------------------------------------ */

enum { MEETINGS = SL_WIPES - 2 }; /* neither all nor nothing left */

typedef struct sl_paid_job {
    sl_block_value *value[MEETINGS]; /* [n] */
    int n[MEETINGS];
    double lean[MEETINGS][SL_MAX_ARMS]; /* sum over swatches */
    double least[SL_MAX_ARMS];          /* left at the look with least, sum over swatches */
    int swatches[SL_MAX_ARMS];
    sl_paid_looks looks;
} sl_paid_job;

static double meeting_at(int i)
{
    return sl_wipe_share((sl_wipe)(SL_WIPES - 2 - i)); /* the least first */
}

static bool gather(const sl_compare *compare, int zone, const sl_seen_hair *hair, sl_paid_job *job,
                   sl_error *error)
{
    for (int s = 0; s < compare->n_swatches; s++) {
        const int arm = compare->bench[s].arm;
        if (!sl_compare_ranks(compare, arm, zone)) {
            continue;
        }
        if (!looks_of(compare, zone, hair, s, &job->looks, error)) {
            return false;
        }
        double least = 2.0;
        for (size_t k = 0; k < job->looks.n; k++) {
            least = fmin(least, job->looks.look[k].left);
        }
        job->least[arm] += job->looks.n > 0 ? least : 0.0;
        job->swatches[arm] += job->looks.n > 0 ? 1 : 0;
        for (int i = 0; i < MEETINGS; i++) {
            const double apart =
                fmax(sl_compare_least_sd(compare, zone, meeting_at(i)), fmax(compare->asked_floor, 0.0));
            double slope = 0.0;
            const double value = sl_paid_at(job->looks.look, (int)job->looks.n, meeting_at(i), apart,
                                            hair->since_start || sl_hair_in_words(hair->measure), &slope);
            if (value > SL_NOT_READ) {
                job->lean[i][arm] += 0.25 * fabs(slope) * apart / meeting_at(i);
                job->value[i][job->n[i]++] = (sl_block_value){arm, compare->swatches[s].block, value};
            }
        }
    }
    return true;
}

static int strips_in(const sl_blocks *blocks)
{
    int n = 0;
    for (int i = 0; i < blocks->n_strips; i++) {
        n += blocks->n[i] > 0 ? 1 : 0;
    }
    return n;
}

/* At the least share at which half of the strips meet that were read; else where most do. */
static void meet(const sl_compare *compare, const sl_paid_job *job, sl_seen_paid *paid, sl_blocks *other)
{
    const sl_hair_measure measure = compare->hair[paid->hair].measure;
    int strips = 1, read = 0;
    for (int arm = 0; arm < compare->scene->n_arms; arm++) {
        read += job->swatches[arm] > 0 ? 1 : 0;
    }
    for (int i = 0; i < MEETINGS && (strips < 2 || 2 * strips < read); i++) {
        sl_hair_blocks(other, measure, job->value[i], job->n[i], compare->scene->n_arms);
        if (strips_in(other) > strips) {
            strips = strips_in(other);
            paid->left = meeting_at(i);
            paid->blocks = *other;
            for (int arm = 0; arm < compare->scene->n_arms; arm++) {
                paid->lean[arm] = other->n[arm] > 0 ? job->lean[i][arm] / other->n[arm] : 0.0;
            }
        }
    }
    for (int arm = 0; arm < compare->scene->n_arms && paid->left > SL_NOT_READ; arm++) {
        const double own = paid->blocks.n[arm] > 0 ? job->least[arm] / job->swatches[arm] : SL_NOT_READ;
        const bool there = own > SL_NOT_READ;
        const bool faster =
            there && (paid->fast < 0 || own < job->least[paid->fast] / job->swatches[paid->fast]);
        const bool slower =
            there && (paid->slow < 0 || own >= job->least[paid->slow] / job->swatches[paid->slow]);
        paid->fast = faster ? arm : paid->fast;
        paid->slow = slower ? arm : paid->slow;
    }
}

static bool ask_model(const sl_compare *compare, sl_seen_paid *paid, sl_error *error)
{
    const sl_seen_hair *const hair = &compare->hair[paid->hair];
    const sl_zone *const bare = &compare->scene->zones[hair->zone];
    sl_optics *const optics = hair->measure == SL_HAIR_BASE ? sl_optics_new(compare->scene, error) : NULL;
    sl_meeting meeting[SL_MAX_ARMS];
    if (hair->measure == SL_HAIR_BASE && !optics) {
        return false;
    }
    sl_same_colour_left(compare->timeline, paid->zone, paid->left, meeting);
    for (int arm = 0; arm < compare->scene->n_arms; arm++) {
        sl_cell cell;
        if (meeting[arm].reached) {
            sl_timeline_at(compare->timeline, arm, hair->zone, meeting[arm].time_min, optics, &cell);
            paid->model[arm] =
                sl_hair_in_words(hair->measure)  ? cell.cystine_lost
                : hair->measure == SL_HAIR_LEVEL ? hair->since_start ? cell.levels_lifted : cell.level
                : hair->since_start
                    ? sl_delta_e_76(
                          cell.colour.lab,
                          sl_optics_untouched(optics, &compare->scene->hairs[bare->hair], &bare->recipe))
                    : cell.colour.lab.L;
        }
    }
    sl_optics_free(optics);
    return true;
}

static bool paid_of(const sl_compare *compare, sl_paid_job *job, sl_seen_paid *paid, sl_error *error)
{
    sl_blocks *const other = sl_new(1, sizeof *other, "comparing", error);
    memset(job->n, 0, sizeof job->n);
    memset(job->lean, 0, sizeof job->lean);
    memset(job->least, 0, sizeof job->least);
    memset(job->swatches, 0, sizeof job->swatches);
    for (int arm = 0; arm < SL_MAX_ARMS; arm++) {
        paid->model[arm] = SL_NOT_READ;
    }
    bool good = other && gather(compare, paid->zone, &compare->hair[paid->hair], job, error);
    if (good) {
        meet(compare, job, paid, other);
        good = paid->left <= SL_NOT_READ || ask_model(compare, paid, error);
    }
    sl_free(other);
    return good;
}

bool sl_paid_read(sl_compare *compare, sl_error *error)
{
    sl_paid_job *const job = sl_new(1, sizeof *job, "comparing", error);
    size_t room = 0;
    bool good = job != NULL;
    for (int i = 0; good && i < MEETINGS; i++) {
        job->value[i] = sl_new(SL_BENCH_MOST, sizeof *job->value[i], "comparing", error);
        good = job->value[i] != NULL;
    }
    for (int i = 0; good && i < compare->scene->n_zones * compare->n_hair; i++) {
        const int zone = i / compare->n_hair, hair = i % compare->n_hair;
        if (compare->scene->zones[zone].recipe.n_dyes == 0 ||
            sl_reference_zone(compare->scene, zone) != compare->hair[hair].zone) {
            continue;
        }
        good = sl_grow(&compare->paid, &room, (size_t)compare->n_paid + 1, sizeof *compare->paid, "comparing",
                       error);
        if (good) {
            sl_seen_paid *const paid = &compare->paid[compare->n_paid++];
            *paid = (sl_seen_paid){.zone = zone, .hair = hair, .left = SL_NOT_READ, .fast = -1, .slow = -1};
            good = paid_of(compare, job, paid, error);
        }
    }
    for (int i = 0; job && i < MEETINGS; i++) {
        sl_free(job->value[i]);
    }
    if (job) {
        sl_free(job->looks.look);
    }
    sl_free(job);
    return good;
}

/* ---- told ------------------------------------------------------------------------------------------- */

int sl_paid_told(const sl_compare *compare, int paid)
{
    const int at = compare->scene->n_zones + compare->n_hair + paid;
    const sl_seen_paid *const of = &compare->paid[paid];
    return of->fast < 0                                         ? 0
           : sl_compare_before(compare, at, of->fast, of->slow) ? -1
           : sl_compare_before(compare, at, of->slow, of->fast) ? 1
                                                                : 0;
}

double sl_paid_apart(const sl_seen_paid *paid, int other, double *half)
{
    *half = sl_blocks_apart_half(&paid->blocks, paid->fast, other, 0.95);
    *half += *half >= 0.0 ? paid->lean[paid->fast] + paid->lean[other] : 0.0;
    return paid->blocks.mean[paid->fast] - paid->blocks.mean[other];
}
