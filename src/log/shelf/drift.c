/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See drift.h.
 */
#include "log/shelf/drift.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/append.h"
#include "base/memory.h"
#include "log/compare/looks.h"
#include "log/store/sql.h"
#include "slowlift/observation.h"

static const char doing[] = "reading over tests";

/* One test, while its points are read. */
typedef struct sl_drifting {
    sl_drift *drift;
    const sl_kept_test *kept;
    const char *file;
    sl_error *error;
} sl_drifting;

static sl_drift_row *row_of(const sl_drifting *at, sl_drift_kind kind, const char *code)
{
    sl_drift *const drift = at->drift;
    for (size_t i = 0; i < drift->n; i++) {
        if (drift->row[i].kind == kind && strcmp(drift->row[i].code, code) == 0) {
            return &drift->row[i];
        }
    }
    if (!sl_grow(&drift->row, &drift->room, drift->n + 1, sizeof *drift->row, doing, at->error)) {
        return NULL;
    }
    sl_drift_row *const row = &drift->row[drift->n++];
    *row = (sl_drift_row){.kind = kind};
    snprintf(row->code, sizeof row->code, "%s", code);
    return row;
}

/* swatch -1: of the whole test. */
static sl_drift_point *add_point(const sl_drifting *at, sl_drift_row *row, int swatch)
{
    if (!row || !sl_grow(&row->point, &row->room, row->n + 1, sizeof *row->point, doing, at->error)) {
        return NULL;
    }
    sl_drift_point *const point = &row->point[row->n++];
    *point = (sl_drift_point){.n = 0};
    snprintf(point->file, sizeof point->file, "%s", at->file);
    memcpy(point->test, at->kept->test.id, sizeof point->test);
    if (swatch >= 0) {
        memcpy(point->swatch, at->kept->bench[swatch].code, sizeof point->swatch);
    }
    return point;
}

static bool counts(const sl_log_reading *reading)
{
    return reading->said[SL_SAID_GRADE] != SL_NOT_SAID &&
           reading->said[SL_SAID_OUTCOME] != sl_said_of_word(SL_SAID_OUTCOME, "invalid");
}

static double share_of(const sl_log_reading *reading)
{
    return sl_wipe_share((sl_wipe)reading->said[SL_SAID_GRADE]);
}

/* ---- tubs -----------------------------------------------------------------------------------------------
 */

/* Of a zone of a swatch at its end and at once, the mean over all looks; false: there was none. */
static bool zone_left(const sl_kept_test *kept, int swatch, const char *zone, double *left)
{
    double sum = 0.0;
    int n = 0;
    for (int i = 0; i < kept->n_readings; i++) {
        const sl_log_reading *const reading = &kept->readings[i];
        if (counts(reading) && reading->minute <= SL_NOT_READ && reading->hours_after <= SL_NOT_READ &&
            strcmp(reading->swatch, kept->swatches[swatch].id) == 0 && strcmp(reading->zone, zone) == 0) {
            sum += share_of(reading);
            n++;
        }
    }
    *left = n > 0 ? sum / n : 0.0;
    return n > 0;
}

static bool add_check(const sl_drifting *at, int swatch)
{
    const sl_kept_test *const kept = at->kept;
    double sum = 0.0, left = 0.0;
    int n = 0;
    for (int z = 0; z < kept->scene->n_zones; z++) {
        if (sl_zone_direct(kept->scene, z) && zone_left(kept, swatch, kept->scene->zones[z].name, &left)) {
            sum += left;
            n++;
        }
    }
    if (n == 0 && kept->tubs[swatch].of[SL_TUB_POWDER].lot[0] != '\0') {
        return true;
    }
    sl_drift_row *const row = row_of(at, SL_DRIFT_TUB, kept->tubs[swatch].of[SL_TUB_POWDER].lot);
    sl_drift_point *const point = add_point(at, row, swatch);
    if (point) {
        point->value = sum / fmax(n, 1.0);
        point->n = n;
        point->wall_ns = kept->folded->state[swatch].water.wall_ns;
        snprintf(point->what, sizeof point->what, "%s", kept->swatches[swatch].arm);
    }
    return point != NULL;
}

static bool add_checks(const sl_drifting *at)
{
    const sl_kept_test *const kept = at->kept;
    bool good = true;
    for (int i = 0; good && i < kept->n; i++) {
        const bool done = kept->tubs[i].check && !kept->bench[i].on_person &&
                          kept->folded->state[i].stage == SL_STAGE_RINSED;
        good = !done || add_check(at, i);
    }
    return good;
}

/* ---- judges ---------------------------------------------------------------------------------------------
 */

static bool same_look(const sl_log_reading *one, const sl_log_reading *other)
{
    return counts(other) && strcmp(one->judge, other->judge) == 0 &&
           strcmp(one->swatch, other->swatch) == 0 && strcmp(one->zone, other->zone) == 0 &&
           fabs(one->minute - other->minute) < 1e-9 && fabs(one->hours_after - other->hours_after) < 1e-9;
}

/* The one that stands for this look of this swatch, over all its zones. */
static sl_drift_point *point_of(const sl_drifting *at, sl_drift_row *row, const sl_log_reading *reading,
                                int swatch, int turn)
{
    for (size_t i = 0; row && i < row->n; i++) {
        sl_drift_point *const point = &row->point[i];
        if (strcmp(point->test, at->kept->test.id) == 0 && strcmp(point->file, at->file) == 0 &&
            strcmp(point->swatch, at->kept->bench[swatch].code) == 0 && point->turn == turn &&
            fabs(point->minute - reading->minute) < 1e-9 &&
            fabs(point->hours - reading->hours_after) < 1e-9) {
            return point;
        }
    }
    sl_drift_point *const point = add_point(at, row, swatch);
    if (point) {
        point->turn = turn;
        point->minute = reading->minute;
        point->hours = reading->hours_after;
    }
    return point;
}

static bool add_repeat(const sl_drifting *at, int reading)
{
    const sl_kept_test *const kept = at->kept;
    const sl_log_reading *const look = &kept->readings[reading], *first = NULL;
    const int swatch = sl_log_swatch_of(kept->swatches, kept->n, look->swatch, 0);
    int turn = 0;
    for (int i = 0; i < reading; i++) {
        if (same_look(look, &kept->readings[i])) {
            first = first ? first : &kept->readings[i];
            turn++;
        }
    }
    if (!first || swatch < 0) {
        return true;
    }
    sl_drift_point *const point = point_of(at, row_of(at, SL_DRIFT_JUDGE, look->judge), look, swatch, turn);
    if (point) {
        point->value += (share_of(look) - share_of(first) - point->value) / ++point->n;
        sl_time_read(look->at, &point->wall_ns, NULL);
    }
    return point != NULL;
}

static bool add_repeats(const sl_drifting *at)
{
    bool good = true;
    for (int i = 0; good && i < at->kept->n_readings; i++) {
        good = !counts(&at->kept->readings[i]) || add_repeat(at, i);
    }
    return good;
}

/* ---- a judge beside the others ---------------------------------------------------------------------------
 */

/* Who graded what, as compare has it of one test. */
static bool look_together(const sl_kept_test *kept, sl_compare *seen, sl_look_rows *looks, sl_error *error)
{
    looks->look = sl_new((size_t)kept->n_readings + 1, sizeof *looks->look, doing, error);
    int swatch = 0;
    for (int i = 0; looks->look && i < kept->n_readings; i++) {
        const sl_log_reading *const reading = &kept->readings[i];
        const int found = sl_log_swatch_of(kept->swatches, kept->n, reading->swatch, swatch);
        swatch = found < 0 ? swatch : found;
        if (found >= 0 && counts(reading)) {
            sl_one_look *const look = &looks->look[looks->n++];
            *look = (sl_one_look){.swatch = swatch,
                                  .zone = sl_scene_zone(kept->scene, reading->zone),
                                  .grade = reading->said[SL_SAID_GRADE],
                                  .stretch = SL_NOT_SAID,
                                  .feel = SL_NOT_SAID,
                                  .minute = reading->minute,
                                  .hours = reading->hours_after,
                                  .L = SL_NOT_READ,
                                  .level = SL_NOT_READ,
                                  .kept = i};
            memcpy(look->judge, reading->judge, sizeof look->judge);
        }
    }
    return looks->look && sl_looks_group(seen, looks, error);
}

static bool add_offset(const sl_drifting *at, const sl_compare *seen, int judge)
{
    static const double STEPS = SL_WIPES - 1; /* between 0 and 1, of the root of a share */
    const sl_seen_judge *const of = &seen->judge[judge];
    sl_drift_row *const row = row_of(at, SL_DRIFT_OFFSET, of->code);
    if (!row || of->offset_half < 0.0) {
        return row != NULL;
    }
    sl_drift_point *const point = add_point(at, row, -1);
    for (int i = 0; point && i < seen->n_judges; i++) {
        if (i != judge && seen->judge[i].offset_half >= 0.0) {
            sl_append_item(point->what, sizeof point->what, ", ", "%s", seen->judge[i].code);
            point->others++;
        }
    }
    if (point) { /* offsets are against the mean of all, this one with them */
        const double of_others = STEPS * (point->others + 1.0) / point->others;
        point->value = of_others * of->is.judge.offset;
        point->error = of_others * of->offset_half / SL_OFFSET_HALF;
        point->n = of->looks;
        sl_time_read(at->kept->test.made, &point->wall_ns, NULL);
    }
    return point != NULL;
}

static bool add_offsets(const sl_drifting *at)
{
    sl_compare seen = {.n_swatches = at->kept->n, .scene = at->kept->scene};
    sl_look_rows looks = {.look = NULL};
    bool good = look_together(at->kept, &seen, &looks, at->error);
    for (int i = 0; good && i < seen.n_judges; i++) {
        good = add_offset(at, &seen, i);
    }
    sl_free(looks.look);
    sl_free(seen.groups);
    sl_free(seen.grades);
    sl_free(seen.judge);
    sl_free(seen.pairs);
    return good;
}

/* ---- all of it ------------------------------------------------------------------------------------------
 */

typedef struct sl_drift_visit {
    sl_drift *drift;
    const sl_log_shelf *shelf;
} sl_drift_visit;

static bool visit_test(void *visitor, const sl_kept_test *kept, sl_error *error)
{
    const sl_drift_visit *const visit = visitor;
    const sl_drifting at = {visit->drift, kept, visit->shelf->row[visit->shelf->n - 1].file, error};
    return kept->went.rehearsed || (add_checks(&at) && add_repeats(&at) && add_offsets(&at));
}

static bool is_copy(const sl_log_shelf *shelf, const sl_drift_point *point)
{
    for (size_t i = 0; i < shelf->n; i++) {
        const sl_shelf_row *const row = &shelf->row[i];
        if (strcmp(row->file, point->file) == 0 && strcmp(row->test.id, point->test) == 0) {
            return row->copy;
        }
    }
    return false;
}

/* Of a test in several logs one counts; check swatches without a lot are counted and in no row. */
static void drop_copies(sl_drift *drift, const sl_log_shelf *shelf)
{
    size_t rows = 0;
    for (size_t r = 0; r < drift->n; r++) {
        sl_drift_row *const row = &drift->row[r];
        size_t n = 0;
        for (size_t i = 0; i < row->n; i++) {
            if (!is_copy(shelf, &row->point[i])) {
                row->point[n++] = row->point[i];
            }
        }
        row->n = n;
        const bool without_lot = row->kind == SL_DRIFT_TUB && row->code[0] == '\0';
        drift->without_lot += without_lot ? (int)n : 0;
        if ((n > 0 && !without_lot) || row->kind == SL_DRIFT_OFFSET) {
            drift->row[rows++] = *row;
        } else {
            sl_free(row->point);
        }
    }
    drift->n = rows;
}

static int by_time(const void *one, const void *other)
{
    const sl_drift_point *const a = one, *const b = other;
    const int files = strcmp(a->file, b->file);
    const int swatches = strcmp(a->swatch, b->swatch);
    return a->wall_ns != b->wall_ns ? (a->wall_ns > b->wall_ns) - (a->wall_ns < b->wall_ns)
           : files != 0             ? files
           : swatches != 0          ? swatches
                                    : strcmp(a->test, b->test);
}

static int by_kind(const void *one, const void *other)
{
    const sl_drift_row *const a = one, *const b = other;
    return a->kind != b->kind ? (a->kind > b->kind) - (a->kind < b->kind) : strcmp(a->code, b->code);
}

static bool settle(sl_drift_row *row, sl_error *error)
{
    double *const value = sl_new(row->n + 1, sizeof *value, doing, error);
    if (!value || row->n == 0) {
        sl_free(value);
        return value != NULL;
    }
    qsort(row->point, row->n, sizeof *row->point, by_time);
    for (size_t i = 0; i < row->n; i++) {
        value[i] = row->point[i].value;
        row->unlike = row->unlike || strcmp(row->point[i].what, row->point[0].what) != 0;
    }
    row->control = sl_individuals_of(value, (int)row->n);
    sl_free(value);
    return true;
}

bool sl_drift_read(sl_drift *drift, const char *folder, sl_error *error)
{
    sl_log_shelf shelf = {.visit = visit_test};
    sl_drift_visit visit = {drift, &shelf};
    shelf.visitor = &visit;
    *drift = (sl_drift){.folder = folder};
    bool good = sl_shelf_read(&shelf, folder, true, 0, error) && (shelf.n > 0 || sl_shelf_bare(error));
    if (good) {
        drop_copies(drift, &shelf);
    }
    for (size_t i = 0; good && i < drift->n; i++) {
        good = settle(&drift->row[i], error);
    }
    if (good && drift->n > 0) {
        qsort(drift->row, drift->n, sizeof *drift->row, by_kind);
    }
    if (good) {
        drift->n_unread = shelf.n_unread;
        sl_shelf_whole(&shelf, &drift->unread);
    }
    sl_shelf_free(&shelf);
    return good;
}

void sl_drift_free(sl_drift *drift)
{
    for (size_t i = 0; i < drift->n; i++) {
        sl_free(drift->row[i].point);
    }
    sl_free(drift->row);
    *drift = (sl_drift){.folder = NULL};
}

double sl_drift_range(const sl_drift_row *row, size_t point)
{
    return fabs(row->point[point].value - row->point[point - 1].value);
}

double sl_drift_scale(const sl_drift_row *row)
{
    return row->kind == SL_DRIFT_OFFSET ? 1.0 : 100.0;
}

bool sl_drift_outside(const sl_drift_row *row, size_t point)
{
    return sl_individuals_outside(&row->control, row->point[point].value) ||
           (row->control.known && point > 0 && sl_drift_range(row, point) > row->control.range_high);
}
