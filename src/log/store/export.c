/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The log for other programs, row by row: CSV (RFC 4180 quoting, lines end in LF, UTF-8) and JSON
 * (RFC 8259). docs/log.md says what each column and member is.
 * Invariant: no cell of text begins with a character that a spreadsheet takes for a formula.
 */
#include <stdio.h>
#include <string.h>

#include "base/memory.h"
#include "document/json_text.h"
#include "log/readings/csv_cells.h"
#include "log/store/sql.h"
#include "log/store/tables.h"

/* ---- CSV --------------------------------------------------------------------------------------------------
 */

static void put_cell(FILE *out, const char *text)
{
    const bool guarded = sl_cell_needs_guard(text);
    if (!strpbrk(text, ",;\"\r\n")) {
        fprintf(out, "%s%s", guarded ? "'" : "", text);
        return;
    }
    fputs(guarded ? "\"'" : "\"", out);
    for (const char *at = text; *at != '\0'; at++) {
        fputs(*at == '"' ? "\"" : "", out);
        fputc(*at, out);
    }
    fputc('"', out);
}

static bool is_number(const sl_kept_column *column)
{
    return column->kind == SL_COLUMN_NUMBER || column->kind == SL_COLUMN_COUNT;
}

static bool put_row(void *self, const sl_log_reading *reading, const sl_log_swatch *swatch, const char *test,
                    sl_error *error)
{
    FILE *const out = self;
    char written[SL_COLUMN_WRITTEN];
    (void)error;
    fprintf(out, "%s,", test);
    put_cell(out, swatch->arm);
    for (int i = 0; i < SL_READING_COLUMNS; i++) {
        const char *const text = i == SL_READING_SWATCH
                                     ? swatch->bench.code
                                     : sl_column_text(&sl_reading_columns[i], reading, written);
        fputc(',', out);
        if (text && is_number(&sl_reading_columns[i])) {
            fputs(text, out); /* -3.2 is no formula */
        } else if (text) {
            put_cell(out, text);
        }
    }
    fputc('\n', out);
    return ferror(out) == 0;
}

bool sl_log_export_csv(sl_log *log, const char *test, FILE *out, sl_error *error)
{
    fputs("test,arm", out);
    for (int i = 0; i < SL_READING_COLUMNS; i++) {
        fprintf(out, ",%s", sl_reading_columns[i].name);
    }
    fputc('\n', out);
    return sl_log_each_reading(log, test, put_row, out, error) && ferror(out) == 0;
}

/* ---- JSON -------------------------------------------------------------------------------------------------
 */

static void put_minutes(sl_json *json, const char *name, const sl_bench_swatch *bench, bool them)
{
    sl_json_open_flat(json, name, '[');
    for (int i = 0; them && i < bench->n_looks; i++) {
        sl_json_number(json, NULL, bench->look_s[i] / 60);
    }
    sl_json_close(json, ']');
}

static void put_swatch(sl_json *json, const sl_log_swatch *swatch)
{
    const sl_bench_swatch *const bench = &swatch->bench;
    sl_json_open_flat(json, NULL, '{');
    sl_json_text(json, "id", swatch->id);
    sl_json_text(json, "code", bench->code);
    sl_json_text(json, "arm", swatch->arm);
    sl_json_number(json, "block", swatch->block);
    sl_json_number(json, "place", swatch->place);
    if (bench->contact_s >= 0) {
        sl_json_number(json, "contact_s", bench->contact_s);
    } else {
        sl_json_null(json, "contact_s");
    }
    sl_json_number(json, "dwell_s", bench->dwell_s);
    sl_json_number(json, "mix_age_s", bench->mix_age_s);
    if (bench->label_s > 0) {
        sl_json_number(json, "label_s", bench->label_s);
    } else {
        sl_json_null(json, "label_s");
    }
    sl_json_text(json, "label_from", bench->from_mixing ? "mixing" : "application");
    put_minutes(json, "looks_min", bench, !bench->ladder);
    put_minutes(json, "ladder_min", bench, bench->ladder);
    sl_json_close(json, '}');
}

static bool put_swatches(sl_log *log, const char *test, sl_json *json, sl_error *error)
{
    sl_log_swatch *swatches = NULL;
    int n = 0;
    if (!sl_log_swatches(log, test, &swatches, &n, error)) {
        return false;
    }
    sl_json_open(json, "swatches", '[');
    for (int i = 0; i < n; i++) {
        put_swatch(json, &swatches[i]);
    }
    sl_json_close(json, ']');
    sl_free(swatches);
    return true;
}

/* 64 bits of nanoseconds do not fit JSON's numbers: they are text. */
static bool put_events(sl_log *log, const char *test, sl_json *json, sl_error *error)
{
    static const char *const names[] = {"id",      "swatch", "kind",  "at",   "boot_ns", "wall_ns",
                                        "boot_id", "reason", "about", "note", "clocks",  "remark"};
    static const char *const numbers[] = {"speed", "late_s"};
    enum { TEXTS = (int)(sizeof names / sizeof names[0]) };
    char table[SL_ROWS], text[SL_ROWS + 300];
    snprintf(text, sizeof text,
             "SELECT e.id, s.code, e.kind, e.at, e.boot_ns, e.wall_ns, e.boot_id, e.reason, e.about, e.note,"
             " e.clocks, e.remark, e.speed, e.late_s FROM %s e LEFT JOIN swatch s ON s.id = e.swatch"
             " WHERE e.test = ? ORDER BY e.kept",
             sl_rows_of("main", "event", log->version, table));
    sl_statement ask = sl_sql(log, text, error);
    sl_put_text(&ask, test);
    sl_json_open(json, "events", '[');
    while (sl_next_row(&ask)) {
        sl_json_open_flat(json, NULL, '{');
        for (int i = 0; i < TEXTS; i++) {
            char shown[2 * SL_LOG_TITLE];
            sl_copy_lines_at(&ask, i, shown, sizeof shown);
            sl_json_text(json, names[i], sl_null_at(&ask, i) ? NULL : shown);
        }
        for (int i = 0; i < 2; i++) {
            if (sl_null_at(&ask, TEXTS + i)) {
                sl_json_null(json, numbers[i]);
            } else {
                sl_json_number(json, numbers[i], sl_real_at(&ask, TEXTS + i));
            }
        }
        sl_json_close(json, '}');
    }
    sl_json_close(json, ']');
    return sl_sql_leave(&ask);
}

/* What was not said is left out. */
static bool put_reading(void *self, const sl_log_reading *reading, const sl_log_swatch *swatch,
                        const char *test, sl_error *error)
{
    sl_json *const json = self;
    char written[SL_COLUMN_WRITTEN];
    (void)error;
    (void)test;
    sl_json_open_flat(json, NULL, '{');
    for (int i = 0; i < SL_READING_COLUMNS; i++) {
        const sl_kept_column *const column = &sl_reading_columns[i];
        const char *const text =
            i == SL_READING_SWATCH ? swatch->bench.code : sl_column_text(column, reading, written);
        if (text && is_number(column)) {
            double number = 0.0;
            if (column->kind == SL_COLUMN_COUNT) {
                number = reading->n;
            } else {
                memcpy(&number, (const char *)reading + column->offset, sizeof number);
            }
            sl_json_number(json, column->name, number);
        } else if (text && column->kind == SL_COLUMN_YES_NO) {
            sl_json_bool(json, column->name, reading->blind == 1);
        } else if (text) {
            sl_json_text(json, column->name, text);
        }
    }
    sl_json_close(json, '}');
    return ferror(json->out) == 0;
}

static bool put_test(sl_log *log, const sl_log_test *test, sl_json *json, sl_error *error)
{
    sl_json_open(json, NULL, '{');
    sl_json_text(json, "id", test->id);
    sl_json_text(json, "title", test->title);
    sl_json_text(json, "operator", test->operator_code);
    sl_json_text(json, "made", test->made);
    sl_json_text(json, "scene", test->scene_name);
    sl_json_text(json, "scene_sha256", test->scene_sha256);
    if (!put_swatches(log, test->id, json, error) || !put_events(log, test->id, json, error)) {
        return false;
    }
    sl_json_open(json, "readings", '[');
    if (!sl_log_each_reading(log, test->id, put_reading, json, error)) {
        return false;
    }
    sl_json_close(json, ']');
    sl_json_close(json, '}');
    return true;
}

bool sl_log_export_json(sl_log *log, const char *test, FILE *out, sl_error *error)
{
    sl_json json = {.out = out};
    sl_log_test *tests = NULL;
    int n = 0;
    if (!sl_log_tests(log, &tests, &n, error)) {
        return false;
    }
    sl_json_open(&json, NULL, '{');
    sl_json_text(&json, "kind", "log of strand tests");
    sl_json_number(&json, "version", SL_LOG_VERSION);
    sl_json_open(&json, "tests", '[');
    bool good = true;
    for (int i = 0; good && i < n; i++) {
        good = (test && strcmp(test, tests[i].id) != 0) || put_test(log, &tests[i], &json, error);
    }
    if (good) {
        sl_json_close(&json, ']');
        sl_json_cautions(&json, NULL, 0);
        sl_json_close(&json, '}');
    }
    sl_free(tests);
    return good && ferror(out) == 0;
}
