/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What readings come to: the mean over swatches of each swatch's mean, arm by arm and zone by zone.
 */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/memory.h"
#include "log/store/sql.h"

/* Of one zone of one swatch. */
typedef struct sl_sum {
    char arm[SL_LOG_TITLE], zone[SL_LOG_ZONE], swatch[SL_UUID];
    int n, n_graded, n_coloured;
    double left, L, a, b; /* sums */
} sl_sum;

typedef struct sl_sums {
    sl_sum *sum;
    size_t n, capacity, near; /* near: the one that was found last */
} sl_sums;

static bool is_of(const sl_sum *sum, const sl_log_swatch *swatch, const char *zone)
{
    return strcmp(sum->swatch, swatch->id) == 0 && strcmp(sum->zone, zone) == 0;
}

/* A test has few swatches and zones, and readings of one mostly follow each other. */
static sl_sum *sum_of(sl_sums *sums, const sl_log_swatch *swatch, const char *zone, sl_error *error)
{
    for (size_t k = 0; k < sums->n; k++) {
        const size_t i = (sums->near + k) % sums->n;
        if (is_of(&sums->sum[i], swatch, zone)) {
            sums->near = i;
            return &sums->sum[i];
        }
    }
    if (!sl_grow(&sums->sum, &sums->capacity, sums->n + 1, sizeof *sums->sum, "reading the log", error)) {
        return NULL;
    }
    sl_sum *const sum = &sums->sum[sums->n];
    sums->near = sums->n++;
    *sum = (sl_sum){.n = 0};
    memcpy(sum->swatch, swatch->id, sizeof sum->swatch);
    memcpy(sum->arm, swatch->arm, sizeof sum->arm);
    snprintf(sum->zone, sizeof sum->zone, "%s", zone);
    return sum;
}

static bool add_reading(void *self, const sl_log_reading *reading, const sl_log_swatch *swatch,
                        const char *test, sl_error *error)
{
    (void)test;
    const int outcome = reading->said[SL_SAID_OUTCOME], grade = reading->said[SL_SAID_GRADE];
    const char *const said = outcome == SL_NOT_SAID ? "" : sl_said_word(SL_SAID_OUTCOME, outcome);
    if (reading->minute > SL_NOT_READ || reading->hours_after > SL_NOT_READ || strcmp(said, "invalid") == 0) {
        return true;
    }
    sl_sum *const sum = sum_of(self, swatch, reading->zone, error);
    if (!sum) {
        return false;
    }
    sum->n++;
    if (grade != SL_NOT_SAID) {
        sum->n_graded++;
        sum->left += sl_wipe_share((sl_wipe)grade);
    }
    if (reading->L > SL_NOT_READ) {
        sum->n_coloured++;
        sum->L += reading->L;
        sum->a += reading->a;
        sum->b += reading->b;
    }
    return true;
}

/* ---- arms of a zone --------------------------------------------------------------------------------------
 */

/* A mean, and what it is made of. */
typedef struct sl_mean_sums {
    sl_log_mean mean;
    int n_graded, n_coloured, place; /* swatches; place: of the zone in the scene */
    double squares;
} sl_mean_sums;

static sl_mean_sums *mean_of(sl_mean_sums *means, size_t *n, const sl_sum *sum)
{
    for (size_t i = 0; i < *n; i++) {
        if (strcmp(means[i].mean.arm, sum->arm) == 0 && strcmp(means[i].mean.zone, sum->zone) == 0) {
            return &means[i];
        }
    }
    sl_mean_sums *const mean = &means[(*n)++];
    *mean = (sl_mean_sums){.place = -1};
    memcpy(mean->mean.arm, sum->arm, sizeof mean->mean.arm);
    memcpy(mean->mean.zone, sum->zone, sizeof mean->mean.zone);
    return mean;
}

static void add_swatch(sl_mean_sums *into, const sl_sum *sum)
{
    into->mean.n_readings += sum->n;
    into->mean.n_swatches++;
    if (sum->n_graded > 0) {
        const double left = sum->left / sum->n_graded;
        into->n_graded++;
        into->mean.left += left;
        into->squares += left * left;
    }
    if (sum->n_coloured > 0) {
        into->n_coloured++;
        into->mean.L += sum->L / sum->n_coloured;
        into->mean.a += sum->a / sum->n_coloured;
        into->mean.b += sum->b / sum->n_coloured;
    }
}

/* Variance from sums: at most some swatches of shares between 0 and 1, so nothing cancels that counts. */
static void settle(sl_mean_sums *sums)
{
    sl_log_mean *const mean = &sums->mean;
    const int n = sums->n_graded, c = sums->n_coloured;
    mean->left = n > 0 ? mean->left / n : SL_NOT_READ;
    mean->left_sd =
        n > 1 ? sqrt(fmax(sums->squares / n - mean->left * mean->left, 0.0) * n / (n - 1)) : SL_NOT_READ;
    mean->L = c > 0 ? mean->L / c : SL_NOT_READ;
    mean->a = c > 0 ? mean->a / c : SL_NOT_READ;
    mean->b = c > 0 ? mean->b / c : SL_NOT_READ;
}

static bool read_places(sl_log *log, const char *test, sl_mean_sums *means, size_t n, sl_error *error)
{
    sl_statement ask = sl_sql(log, "SELECT place, name FROM zone WHERE test = ?", error);
    sl_put_text(&ask, test);
    while (sl_next_row(&ask)) {
        for (size_t i = 0; i < n; i++) {
            const bool same = strcmp(means[i].mean.zone, sl_text_at(&ask, 1)) == 0;
            means[i].place = same ? (int)sl_int_at(&ask, 0) : means[i].place;
        }
    }
    return sl_sql_leave(&ask);
}

/* By zone, then least left first; what nobody graded last. */
static int before(const void *one, const void *two)
{
    const sl_mean_sums *const a = one, *const b = two;
    const bool graded = a->n_graded > 0;
    if (a->place != b->place) {
        return a->place < b->place ? -1 : 1;
    }
    if (graded != (b->n_graded > 0)) {
        return graded ? -1 : 1;
    }
    if (a->mean.left < b->mean.left || a->mean.left > b->mean.left) {
        return a->mean.left < b->mean.left ? -1 : 1;
    }
    return strcmp(a->mean.arm, b->mean.arm);
}

static bool settle_all(sl_log *log, const char *test, const sl_sums *sums, sl_log_mean **means, int *n_means,
                       sl_error *error)
{
    size_t n = 0;
    sl_mean_sums *const rows = sl_new(sums->n + 1, sizeof *rows, "reading the log", error);
    *means = sl_new(sums->n + 1, sizeof **means, "reading the log", error);
    bool good = rows && *means;
    for (size_t i = 0; good && i < sums->n; i++) {
        add_swatch(mean_of(rows, &n, &sums->sum[i]), &sums->sum[i]);
    }
    good = good && read_places(log, test, rows, n, error);
    for (size_t i = 0; good && i < n; i++) {
        settle(&rows[i]);
    }
    if (good) {
        qsort(rows, n, sizeof *rows, before);
    }
    for (size_t i = 0; good && i < n; i++) {
        (*means)[i] = rows[i].mean;
    }
    *n_means = (int)n;
    sl_free(rows);
    if (!good) {
        sl_free(*means);
        *means = NULL;
    }
    return good;
}

bool sl_log_means(sl_log *log, const char *test, sl_log_mean **means, int *n, sl_error *error)
{
    sl_sums sums = {.sum = NULL};
    const bool good = sl_log_each_latest(log, test, add_reading, &sums, error) &&
                      settle_all(log, test, &sums, means, n, error);
    sl_free(sums.sum);
    return good;
}
