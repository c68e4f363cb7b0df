/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Tests and their swatches.
 */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/append.h"
#include "base/language.h"
#include "base/memory.h"
#include "base/plain_text.h"
#include "log/store/ids.h"
#include "log/store/iso_time.h"
#include "log/store/rescue.h"
#include "log/store/scene_kept.h"
#include "log/store/sql.h"
#include "log/store/tables.h"
#include "slowlift/edition.h"

/* ---- making a test --------------------------------------------------------------------------------------
 */

static bool put_test(sl_log *log, const sl_keeper *keeper, const char *title, const char *operator_code,
                     const char *id, sl_error *error)
{
    sl_instant now;
    char made[32], hash[SL_SHA256_TEXT];
    if (!sl_instant_now(&now, error)) {
        return false;
    }
    sl_time_words(log->made_ns > 0 ? log->made_ns : now.wall_ns, made);
    sl_keeper_hash(keeper, hash);
    sl_statement put = sl_sql(log,
                              "INSERT INTO test (id, title, operator, made, scene_name, scene_sha256, model)"
                              " VALUES (?, ?, ?, ?, ?, ?, ?)",
                              error);
    sl_put_text(&put, id);
    sl_put_text(&put, title);
    sl_put_text(&put, operator_code);
    sl_put_text(&put, made);
    sl_put_text(&put, keeper->file[0].name);
    sl_put_text(&put, hash);
    sl_put_int(&put, sl_edition_now);
    bool good = sl_sql_added(&put);
    for (int i = 0; good && i < keeper->n; i++) {
        sl_statement file = sl_sql(
            log, "INSERT INTO scene_file (test, place, kind, name, text) VALUES (?, ?, ?, ?, ?)", error);
        sl_put_text(&file, id);
        sl_put_int(&file, i);
        sl_put_text(&file, keeper->file[i].kind);
        sl_put_text(&file, keeper->file[i].name);
        sl_put_text(&file, keeper->file[i].text);
        good = sl_sql_added(&file);
    }
    return good;
}

static bool put_zones(sl_log *log, const sl_scene *scene, const char *test, sl_error *error)
{
    bool good = true;
    for (int i = 0; good && i < scene->n_zones; i++) {
        sl_statement put = sl_sql(log, "INSERT INTO zone (test, place, name) VALUES (?, ?, ?)", error);
        sl_put_text(&put, test);
        sl_put_int(&put, i);
        sl_put_text(&put, scene->zones[i].name);
        good = sl_sql_added(&put);
    }
    return good;
}

/* Minutes below `before`, by commas. */
static void minutes_words(const int *minute, int n, double before, char *text, size_t size)
{
    text[0] = '\0';
    for (int i = 0; i < n && minute[i] < before; i++) {
        sl_append_item(text, size, ",", "%d", minute[i]);
    }
}

/* On a ladder: when a piece is cut off before the rest, whose rinse ends the dwell. */
static void ladder_words(const sl_plan *plan, const sl_planned_swatch *swatch, char *text, size_t size)
{
    const double dwell_min = swatch->contact_s < 0 ? 0.0 : (swatch->water_s - swatch->contact_s) / 60.0;
    minutes_words(plan->request.rung_min, plan->request.n_rungs, dwell_min, text, size);
}

/* Up to the first water; a ladder's is that of its last piece. */
static int first_dwell_s(const sl_plan *plan, const sl_planned_swatch *swatch, const sl_step *step)
{
    bool cut_short = false;
    return step && plan->request.n_rungs == 0
               ? sl_planned_dwell_s(&plan->scene->mixes[step->mix], step, &cut_short)
               : swatch->water_s - swatch->contact_s;
}

static bool put_swatch(sl_log *log, const sl_plan *plan, int index, const char *test, sl_error *error)
{
    const sl_planned_swatch *const swatch = &plan->swatches[index];
    const sl_arm *const arm = &plan->scene->arms[swatch->arm];
    const sl_step *const step = sl_arm_application(arm);
    const sl_mix *const mix = step ? &plan->scene->mixes[step->mix] : NULL;
    char id[SL_UUID], looks[96], ladder[96];
    sl_uuid_make(id);
    minutes_words(plan->request.look_min, plan->request.n_looks, HUGE_VAL, looks, sizeof looks);
    ladder_words(plan, swatch, ladder, sizeof ladder);
    sl_statement put =
        sl_sql(log,
               "INSERT INTO swatch (id, test, code, arm, block, place, contact_s, dwell_s, label_s,"
               " label_from, mix_age_s, looks_min, ladder_min)"
               " VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
               error);
    sl_put_text(&put, id);
    sl_put_text(&put, test);
    sl_put_text(&put, swatch->code);
    sl_put_text(&put, arm->name);
    sl_put_int(&put, swatch->block);
    sl_put_int(&put, swatch->place);
    if (swatch->contact_s >= 0) {
        sl_put_int(&put, swatch->contact_s);
        sl_put_int(&put, first_dwell_s(plan, swatch, step));
    } else {
        sl_put_null(&put);
        sl_put_int(&put, 0);
    }
    if (mix && mix->label_max_min > 0.0) {
        sl_put_int(&put, (int64_t)(60.0 * mix->label_max_min));
    } else {
        sl_put_null(&put);
    }
    sl_put_text(&put, mix && mix->label_from_contact ? "application" : "mixing");
    sl_put_int(&put, step ? (int64_t)(60.0 * step->mix_age_min + 0.5) : 0);
    sl_put_text(&put, looks);
    sl_put_text(&put, ladder);
    return sl_sql_added(&put);
}

bool sl_log_begin(sl_log *log, const char *path, const sl_resolver *resolver, const sl_plan *plan,
                  const char *title, const char *operator_code, char id[SL_UUID], sl_error *error)
{
    if (!sl_log_code_check("the operator's code", operator_code, error) ||
        !sl_text_accept(title, strlen(title), SL_TEXT_LINE, error)) {
        return false;
    }
    if (strlen(title) >= SL_LOG_TITLE) {
        return sl_fail(error, SL_ERR_TOO_LARGE, _("a title of so many bytes"), _("200 of them"));
    }
    sl_keeper *const keeper = sl_new(1, sizeof *keeper, "keeping the scene", error);
    if (!keeper) {
        return false;
    }
    sl_uuid_make(id);
    bool good = sl_keeper_read(keeper, path, resolver, error) && sl_sql_begin(log, error);
    if (good) {
        good =
            put_test(log, keeper, title, operator_code, id, error) && put_zones(log, plan->scene, id, error);
        for (int i = 0; good && i < plan->n_swatches; i++) {
            good = put_swatch(log, plan, i, id, error);
        }
        good = sl_sql_end(log, good, error);
    }
    sl_keeper_free(keeper);
    return good;
}

/* ---- reading tests ------------------------------------------------------------------------------------- */

static const char test_columns[] =
    "SELECT id, title, operator, made, scene_name, scene_sha256,"
    " (SELECT count(*) FROM swatch WHERE swatch.test = test.id),"
    " (SELECT count(*) FROM event WHERE event.test = test.id),"
    " (SELECT count(*) FROM reading JOIN swatch ON swatch.id = reading.swatch WHERE swatch.test = test.id)"
    ", model FROM %s test ORDER BY made, id";

static void test_at(sl_statement *ask, const void *with, void *into)
{
    sl_log_test *const test = into;
    (void)with;
    sl_copy_at(ask, 0, test->id, sizeof test->id);
    sl_copy_at(ask, 1, test->title, sizeof test->title);
    sl_copy_at(ask, 2, test->operator_code, sizeof test->operator_code);
    sl_copy_at(ask, 3, test->made, sizeof test->made);
    sl_copy_at(ask, 4, test->scene_name, sizeof test->scene_name);
    sl_copy_at(ask, 5, test->scene_sha256, sizeof test->scene_sha256);
    test->n_swatches = (int)sl_int_at(ask, 6);
    test->n_events = (int)sl_int_at(ask, 7);
    test->n_readings = (int)sl_int_at(ask, 8);
    test->model = (int)sl_int_at(ask, 9);
}

static bool read_tests(sl_log *log, sl_log_test **tests, int *n, sl_error *error)
{
    char from[SL_ROWS], text[sizeof test_columns + SL_ROWS];
    snprintf(text, sizeof text, test_columns, sl_rows_of("main", "test", log->version, from));
    sl_statement ask = sl_sql(log, text, error);
    return sl_sql_gather(&ask, test_at, NULL, sizeof **tests, tests, n);
}

bool sl_log_tests(sl_log *log, sl_log_test **tests, int *n, sl_error *error)
{
    return read_tests(log, tests, n, error) ||
           (sl_log_fall_back(log, error) && read_tests(log, tests, n, error));
}

enum { IDS_TOLD = 4 };

void sl_ids_add(sl_ids *ids, const char *id)
{
    if (ids->n++ < IDS_TOLD) {
        sl_append_item(ids->first, sizeof ids->first, ", ", "%.8s", id);
    }
}

void sl_ids_words(const sl_ids *ids, char *text, size_t size)
{
    if (ids->n > IDS_TOLD) {
        snprintf(text, size, _("%s and %d more"), ids->first, ids->n - IDS_TOLD);
    } else {
        snprintf(text, size, "%s", ids->first);
    }
}

bool sl_log_bare(sl_error *error)
{
    return sl_fail(error, SL_ERR_USAGE, "this log holds no test yet", "begin one with slowlift log new");
}

static bool refuse_choice(const sl_log_test *tests, int n, const char *beginning, int found, sl_error *error)
{
    char words[120], known[200];
    sl_ids ids = {0};
    for (int i = 0; i < n; i++) {
        sl_ids_add(&ids, tests[i].id);
    }
    sl_ids_words(&ids, words, sizeof words);
    snprintf(known, sizeof known, _("the log has %s"), words);
    if (n == 0) {
        return sl_log_bare(error);
    }
    return sl_fail(error, SL_ERR_USAGE,
                   !beginning  ? "this log holds several tests, and none was named"
                   : found > 1 ? "several tests begin like that"
                               : "no test begins like that",
                   known);
}

bool sl_log_find(sl_log *log, const char *beginning, sl_log_test *test, sl_error *error)
{
    sl_log_test *tests = NULL;
    int n = 0, found = 0;
    if (!sl_log_tests(log, &tests, &n, error)) {
        return false;
    }
    for (int i = 0; i < n; i++) {
        if (!beginning || strncmp(tests[i].id, beginning, strlen(beginning)) == 0) {
            *test = tests[i];
            found++;
        }
    }
    if (found != 1) {
        refuse_choice(tests, n, beginning, found, error);
    }
    sl_free(tests);
    return found == 1;
}

/* ---- swatches -------------------------------------------------------------------------------------------
 */

static void looks_read(const char *text, sl_bench_swatch *bench)
{
    const int most = (int)(sizeof bench->look_s / sizeof bench->look_s[0]);
    char *rest = NULL;
    for (const char *at = text; *at != '\0' && bench->n_looks < most; at = rest + (*rest == ',' ? 1 : 0)) {
        const long minute = strtol(at, &rest, 10);
        if (rest == at || minute < 0 || minute > 1440) {
            return;
        }
        bench->look_s[bench->n_looks++] = (int)(60 * minute);
    }
}

static void swatch_at(sl_statement *ask, const void *with, void *into)
{
    sl_log_swatch *const swatch = into;
    (void)with;
    *swatch = (sl_log_swatch){.block = (int)sl_int_at(ask, 3), .place = (int)sl_int_at(ask, 4)};
    sl_copy_at(ask, 0, swatch->id, sizeof swatch->id);
    sl_copy_at(ask, 1, swatch->bench.code, sizeof swatch->bench.code);
    sl_copy_at(ask, 2, swatch->arm, sizeof swatch->arm);
    swatch->bench.contact_s = sl_null_at(ask, 5) ? -1 : (int)sl_int_at(ask, 5);
    swatch->bench.dwell_s = (int)sl_int_at(ask, 6);
    swatch->bench.label_s = (int)sl_int_at(ask, 7); /* null reads as 0 */
    swatch->bench.from_mixing = strcmp(sl_text_at(ask, 8), "mixing") == 0;
    swatch->bench.mix_age_s = (int)sl_int_at(ask, 9);
    const char *const ladder = sl_text_at(ask, 11);
    swatch->bench.ladder = ladder[0] != '\0';
    looks_read(swatch->bench.ladder ? ladder : sl_text_at(ask, 10), &swatch->bench);
}

bool sl_log_swatches(sl_log *log, const char *test, sl_log_swatch **swatches, int *n, sl_error *error)
{
    char from[SL_ROWS], text[256];
    snprintf(text, sizeof text,
             "SELECT id, code, arm, block, place, contact_s, dwell_s, label_s, label_from, mix_age_s,"
             " looks_min, ladder_min FROM %s WHERE test = ? ORDER BY block, place",
             sl_rows_of("main", "swatch", log->version, from));
    sl_statement ask = sl_sql(log, text, error);
    sl_put_text(&ask, test);
    return sl_sql_gather(&ask, swatch_at, NULL, sizeof **swatches, swatches, n);
}

int sl_log_swatch_of(const sl_log_swatch *swatches, int n, const char *id, int near)
{
    for (int k = 0; k < n; k++) {
        const int i = (near + k) % n;
        if (strcmp(swatches[i].id, id) == 0) {
            return i;
        }
    }
    return -1;
}
