/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Readings from a file of CSV, in one change: the first cell that is wrong undoes all of it. Memory
 * does not grow with the file: a row, what the tests are called, and SQLite's cache.
 */
#include <stdio.h>
#include <string.h>

#include "base/language.h"
#include "base/memory.h"
#include "base/plain_file.h"
#include "log/readings/csv_cells.h"
#include "log/readings/kept_bench.h"
#include "log/store/iso_time.h"
#include "log/store/writer.h"
#include "scene/yaml/phrase.h"

/* Pages that SQLite holds while readings come in, KiB: below some 30 MiB the index of ids is written
 * again and again. */
static const char wide_cache[] = "PRAGMA cache_size = -65536";
static const char usual_cache[] = "PRAGMA cache_size = -2000";

typedef struct sl_import {
    sl_log *log;
    const char *usual; /* test of rows that name none; NULL: the only one */
    bool has_header, without_ids;
    char now[SL_TIME_TEXT];
    sl_csv_header header;
    sl_writer writer;
    sl_bench_kept *tests; /* [n_tests], those that rows were for */
    size_t n_tests, capacity;
    sl_log_count *count;
} sl_import;

/* ---- which swatch ---------------------------------------------------------------------------------------
 */

static void zone_at(sl_statement *ask, const void *with, void *into)
{
    (void)with;
    sl_copy_at(ask, 0, into, SL_LOG_ZONE);
}

static bool read_zones(sl_log *log, sl_bench_kept *test, sl_error *error)
{
    sl_statement ask = sl_sql(log, "SELECT name FROM zone WHERE test = ? ORDER BY place", error);
    sl_put_text(&ask, test->id);
    return sl_sql_gather(&ask, zone_at, NULL, SL_LOG_ZONE, &test->zones, &test->n_zones);
}

bool sl_bench_read(sl_log *log, const char *test, sl_bench_kept *bench, sl_error *error)
{
    *bench = (sl_bench_kept){.n_swatches = 0};
    snprintf(bench->id, sizeof bench->id, "%s", test);
    return sl_log_swatches(log, bench->id, &bench->swatches, &bench->n_swatches, error) &&
           read_zones(log, bench, error);
}

void sl_bench_forget(sl_bench_kept *bench)
{
    sl_free(bench->swatches);
    sl_free(bench->zones);
    *bench = (sl_bench_kept){.n_swatches = 0};
}

/* The test whose id begins like that, read when it is first needed. */
static sl_bench_kept *find_test(sl_import *in, const char *beginning, sl_error *error)
{
    sl_log_test found;
    for (size_t i = 0; i < in->n_tests; i++) {
        if (!beginning || strncmp(in->tests[i].id, beginning, strlen(beginning)) == 0) {
            return &in->tests[i]; /* it was the only one when it was found */
        }
    }
    if (!sl_log_find(in->log, beginning, &found, error) ||
        !sl_grow(&in->tests, &in->capacity, in->n_tests + 1, sizeof *in->tests, "reading the log", error)) {
        return NULL;
    }
    sl_bench_kept *const test = &in->tests[in->n_tests++];
    return sl_bench_read(in->log, found.id, test, error) ? test : NULL;
}

static bool zone_is_known(const sl_bench_kept *test, const char *zone)
{
    for (int i = 0; i < test->n_zones; i++) {
        if (strcmp(test->zones[i], zone) == 0) {
            return true;
        }
    }
    return false;
}

/* A zone or a swatch's code that the test lacks: the nearest that it has. */
static bool refuse_name(const sl_import *in, const sl_csv_row *row, const sl_bench_kept *test, int kind,
                        const char *say, sl_error *error)
{
    const bool zones = kind == SL_READING_ZONE;
    const int n = zones ? test->n_zones : test->n_swatches;
    const char **const names = sl_new((size_t)n + 1, sizeof *names, "reading the log", error);
    sl_phrase wanted = {0};
    if (!names) {
        return false;
    }
    for (int i = 0; i < n; i++) {
        names[i] = zones ? test->zones[i] : test->swatches[i].bench.code;
    }
    const sl_words words = {names, n};
    sl_phrase_add(&wanted, say);
    sl_phrase_nearest(&wanted, &words, row->cell[in->header.place[kind]].text);
    sl_free(names);
    return sl_csv_refuse(&in->header, row, kind, SL_ERR_MISSING_REFERENCE, wanted.text, error);
}

static bool resolve(sl_import *in, const sl_csv_row *row, sl_csv_said *said, sl_error *error)
{
    sl_error why = {.code = SL_OK};
    const sl_bench_kept *const test = find_test(in, said->test[0] != '\0' ? said->test : in->usual, &why);
    if (!test) {
        return sl_csv_refuse(&in->header, row, SL_CELL_TEST,
                             why.code == SL_ERR_USAGE ? SL_ERR_MISSING_REFERENCE : why.code, why.wanted,
                             error);
    }
    int i = 0;
    while (i < test->n_swatches && strcmp(test->swatches[i].bench.code, said->swatch) != 0) {
        i++;
    }
    if (i == test->n_swatches) {
        return refuse_name(in, row, test, SL_READING_SWATCH, "write the code of a swatch of this test; ",
                           error);
    }
    if (said->arm[0] != '\0' && strcmp(said->arm, test->swatches[i].arm) != 0) {
        return sl_csv_refuse(&in->header, row, SL_CELL_ARM, SL_ERR_WRONG_TYPE,
                             "this swatch belongs to another strip; leave the cell empty", error);
    }
    memcpy(said->reading.swatch, test->swatches[i].id, SL_UUID);
    if (!zone_is_known(test, said->reading.zone)) {
        return refuse_name(in, row, test, SL_READING_ZONE, "write a zone of this test; ", error);
    }
    return true;
}

/* ---- rows ------------------------------------------------------------------------------------------------
 */

static bool take_row(void *self, const sl_csv_row *row, sl_error *error)
{
    sl_import *const in = self;
    sl_csv_said said;
    sl_error why = {.code = SL_OK};
    bool there = false;
    if (!in->has_header) {
        in->has_header = true;
        in->without_ids = true;
        return sl_csv_header_read(&in->header, row, error);
    }
    if (!sl_csv_cells_read(&in->header, row, &said, error) || !resolve(in, row, &said, error)) {
        return false;
    }
    if (sl_csv_is_blank(&said)) {
        in->count->blank++;
        return true;
    }
    in->without_ids = in->without_ids && said.reading.id[0] == '\0';
    in->writer.error = in->writer.put.error = in->writer.same.error = in->writer.replaced.error = &why;
    if (!sl_reading_settle_time(in->log, &said.reading, in->now, &why) ||
        !sl_writer_put(&in->writer, &said.reading, &there)) {
        return sl_fail_at(error, why.code, row->file, row->cell[0].line, 1, why.found, why.wanted);
    }
    in->count->readings += there ? 0 : 1;
    in->count->there += there ? 1 : 0;
    return true;
}

static bool was_taken(sl_import *in, const char *hash, const char *path, sl_error *error)
{
    char found[SL_ERROR_TEXT_SIZE], at[SL_TIME_TEXT] = "";
    sl_statement ask = sl_sql(in->log, "SELECT at FROM import WHERE sha256 = ? ORDER BY kept LIMIT 1", error);
    sl_put_text(&ask, hash);
    const bool there = sl_next_row(&ask);
    if (there) {
        sl_copy_at(&ask, 0, at, sizeof at);
    }
    if (!sl_sql_leave(&ask)) {
        return false;
    }
    if (!there) {
        return true;
    }
    snprintf(found, sizeof found, _("this file was imported on %.10s at %.5s already"), at, at + 11);
    sl_error_clear(error);
    return sl_fail_at(
        error, SL_ERR_INCONSISTENT, path, 0, 0, found,
        "its rows have no ids, so that they would be there twice; --again takes them all the same");
}

static bool note_import(sl_import *in, const char *hash, const char *path, sl_error *error)
{
    char id[SL_UUID];
    const char *const slash = strrchr(path, '/');
    sl_uuid_make(id);
    sl_statement put =
        sl_sql(in->log, "INSERT INTO import (id, sha256, name, at, readings) VALUES (?, ?, ?, ?, ?)", error);
    sl_put_text(&put, id);
    sl_put_text(&put, hash);
    sl_put_text(&put, slash ? slash + 1 : path);
    sl_put_text(&put, in->now);
    sl_put_int(&put, in->count->readings);
    return sl_sql_added(&put);
}

static bool take_file(sl_import *in, FILE *file, const char *path, bool again, sl_error *error)
{
    SHA2_CTX sum;
    char hash[SL_SHA256_TEXT];
    SHA256Init(&sum);
    sl_writer_open(&in->writer, in->log, error);
    bool good = !in->writer.put.bad && sl_csv_read(file, path, &sum, take_row, in, error);
    good = sl_writer_close(&in->writer) && good;
    SHA256End(&sum, hash);
    if (good && !in->has_header) {
        good = sl_fail_at(error, SL_ERR_MISSING_KEY, path, 1, 1, "swatch",
                          "the file is empty; its first line names the columns");
    }
    return good &&
           (again || !in->without_ids || in->count->readings == 0 || was_taken(in, hash, path, error)) &&
           (in->count->readings == 0 || note_import(in, hash, path, error));
}

static void forget_tests(sl_import *in)
{
    for (size_t i = 0; i < in->n_tests; i++) {
        sl_bench_forget(&in->tests[i]);
    }
    sl_free(in->tests);
}

bool sl_log_import_csv(sl_log *log, const char *path, const char *test, bool again, sl_log_count *count,
                       sl_error *error)
{
    sl_import in = {.log = log, .usual = test, .count = count};
    sl_instant now;
    *count = (sl_log_count){.readings = 0};
    if (!sl_instant_now(&now, error)) {
        return false;
    }
    sl_time_words(now.wall_ns, in.now);
    static const sl_file_most most = {256LL << 20, "256 MiB"};
    FILE *const file = sl_plain_file_open(path, N_("the CSV that is taken in"), most, NULL, error);
    if (!file) {
        return false;
    }
    int64_t before = 0;
    bool good = sl_sql_run(log, wide_cache, error) && sl_sql_begin(log, error);
    if (good) {
        good = sl_readings_count(log, &before, error) && take_file(&in, file, path, again, error) &&
               sl_readings_added(log, before, count->readings, error);
        good = sl_sql_end(log, good, error);
    }
    sl_sql_run(log, usual_cache, NULL);
    fclose(file);
    forget_tests(&in);
    if (!good) {
        *count = (sl_log_count){.readings = 0};
    }
    return good;
}
