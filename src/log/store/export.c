/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The log for other programs, row by row: CSV and JSON. docs/log.md says what each column and member is.
 * Invariant: of readings and events one is held, the one that is written.
 */
#include "log/store/export.h"

#include <string.h>

#include "base/memory.h"
#include "document/say.h"
#include "log/readings/reading_pull.h"
#include "log/store/tables.h"

/* What is read while it is told. */
typedef struct sl_log_reader {
    sl_log *log;
    sl_error *error;
    const char *only; /* this test; NULL: all */
    sl_log_test *tests;
    int n_tests;
    sl_log_swatch *swatches; /* of the test that is told */
    int n_swatches;
    sl_statement events;
    sl_reading_pull readings;
} sl_log_reader;

/* Tables tell of what does not change; here it is where the reader stands. */
typedef struct sl_log_source {
    sl_log_reader *reader;
} sl_log_source;

/* ---- readings ---------------------------------------------------------------------------------------- */

#define READING(COLUMN)                                                                                      \
    COLUMN(id)                                                                                               \
    COLUMN(swatch)                                                                                           \
    COLUMN(zone)                                                                                             \
    COLUMN(minute)                                                                                           \
    COLUMN(hours_after)                                                                                      \
    COLUMN(judge) COLUMN(blind) COLUMN(at) COLUMN(grade) COLUMN(cotton) COLUMN(feel) COLUMN(stretch)         \
        COLUMN(outcome) COLUMN(L) COLUMN(a) COLUMN(b) COLUMN(sd_L) COLUMN(sd_a) COLUMN(sd_b) COLUMN(n)       \
            COLUMN(illuminant) COLUMN(observer) COLUMN(geometry) COLUMN(level) COLUMN(tone) COLUMN(photo)    \
                COLUMN(photo_sha256) COLUMN(note) COLUMN(replaces) COLUMN(uncovered)
#define NAMED(name) {.key = #name},
#define AS_KEPT(name) {.key = #name, .digits = SL_AS_KEPT},

/* What was not said is left out. */
static void say_column(sl_row *row, const sl_kept_column *column, const sl_log_reading *reading)
{
    char written[SL_COLUMN_WRITTEN];
    double number = 0.0;
    if (column->kind == SL_COLUMN_NUMBER) {
        memcpy(&number, (const char *)reading + column->offset, sizeof number);
        if (number > SL_NOT_READ) {
            sl_row_number(row, column->name, number);
        }
    } else if (column->kind == SL_COLUMN_COUNT) {
        if (reading->n > 0) {
            sl_row_number(row, column->name, reading->n);
        }
    } else if (column->kind == SL_COLUMN_YES_NO) {
        int said = SL_NOT_SAID;
        memcpy(&said, (const char *)reading + column->offset, sizeof said);
        if (said != SL_NOT_SAID) {
            sl_row_yes(row, column->name, said == 1);
        }
    } else {
        const char *const text = sl_column_text(column, reading, written);
        if (text) {
            sl_row_text(row, column->name, text);
        }
    }
}

static sl_told tell_reading(sl_row *row, const sl_table *table)
{
    const sl_log_source *const source = table->of;
    sl_reading_pull *const pull = &source->reader->readings;
    const int found = sl_reading_next(pull);
    if (found <= 0) {
        return found == 0 ? SL_NO_MORE : SL_NOT_TOLD;
    }
    for (int i = 0; i < SL_READING_COLUMNS; i++) {
        if (i == SL_READING_SWATCH) {
            sl_row_text(row, "swatch", pull->swatch.bench.code);
        } else {
            say_column(row, &sl_reading_columns[i], &pull->reading);
        }
    }
    return SL_TOLD;
}

static const sl_columns readings = SL_COLUMNS(READING(NAMED), .tell = tell_reading, .flat = true);

/* ---- CSV ---------------------------------------------------------------------------------------------- */

static sl_told tell_line(sl_row *row, const sl_table *table)
{
    const sl_log_source *const source = table->of;
    const sl_told told = tell_reading(row, table);
    sl_row_text(row, "test", source->reader->readings.of_test);
    sl_row_text(row, "arm", source->reader->readings.swatch.arm);
    return told;
}

static const sl_columns lines =
    SL_COLUMNS(NAMED(test) NAMED(arm) READING(AS_KEPT), .tell = tell_line, .semicolons = true);

/* ---- JSON: a test ------------------------------------------------------------------------------------- */

#define LOOK(SAY) SAY(number, NULL, bench->look_s[table->place] / 60)
SL_FLAT_TABLE(looks, LOOK, sl_bench_swatch, bench);

#define SWATCH(SAY)                                                                                          \
    SAY(let, const sl_log_swatch *const swatch = &source->reader->swatches[table->place])                    \
    SAY(let, const sl_bench_swatch *const bench = &swatch->bench)                                            \
    SAY(text, "id", swatch->id)                                                                              \
    SAY(text, "code", bench->code)                                                                           \
    SAY(text, "arm", swatch->arm)                                                                            \
    SAY(number, "block", swatch->block)                                                                      \
    SAY(number, "place", swatch->place)                                                                      \
    SAY(number, "contact_s", sl_if_known(bench->contact_s >= 0, bench->contact_s))                           \
    SAY(number, "dwell_s", bench->dwell_s)                                                                   \
    SAY(number, "mix_age_s", bench->mix_age_s)                                                               \
    SAY(number, "label_s", sl_if_known(bench->label_s > 0, bench->label_s))                                  \
    SAY(text, "label_from", bench->from_mixing ? "mixing" : "application")                                   \
    SAY(rows, "looks_min", looks, bench, 0, bench->ladder ? 0 : bench->n_looks)                              \
    SAY(rows, "ladder_min", looks, bench, 0, bench->ladder ? bench->n_looks : 0)
SL_FLAT_TABLE(swatches, SWATCH, sl_log_source, source);

/* In the order of the query. 64 bits of nanoseconds do not fit JSON's numbers: they are text. */
#define EVENT(COLUMN)                                                                                        \
    COLUMN(id)                                                                                               \
    COLUMN(swatch)                                                                                           \
    COLUMN(kind)                                                                                             \
    COLUMN(at)                                                                                               \
    COLUMN(boot_ns)                                                                                          \
    COLUMN(wall_ns) COLUMN(boot_id) COLUMN(reason) COLUMN(about) COLUMN(note) COLUMN(clocks) COLUMN(remark)  \
        COLUMN(speed) COLUMN(late_s) COLUMN(deed) COLUMN(value)
enum { EVENT_TEXTS = 12, EVENT_DEED = 14 }; /* from there on: only where it is said */

static void ask_events(sl_log_reader *reader, const char *test)
{
    char table[SL_ROWS], text[SL_ROWS + 300];
    snprintf(text, sizeof text,
             "SELECT e.id, s.code, e.kind, e.at, e.boot_ns, e.wall_ns, e.boot_id, e.reason, e.about, e.note,"
             " e.clocks, e.remark, e.speed, e.late_s, e.deed, e.value FROM %s e LEFT JOIN swatch s ON s.id = "
             "e.swatch"
             " WHERE e.test = ? ORDER BY e.kept",
             sl_rows_of("main", "event", reader->log->version, table));
    reader->events = sl_sql(reader->log, text, reader->error);
    sl_put_text(&reader->events, test);
}

static sl_told tell_event(sl_row *row, const sl_table *table)
{
    const sl_log_source *const source = table->of;
    sl_log_reader *const reader = source->reader;
    if (table->place == 0) {
        ask_events(reader, reader->tests[table->which].id);
    }
    if (!sl_next_row(&reader->events)) {
        return sl_sql_leave(&reader->events) ? SL_NO_MORE : SL_NOT_TOLD;
    }
    for (int i = 0; i < table->columns->n; i++) {
        const char *const key = table->columns->column[i].key;
        char shown[2 * SL_LOG_TITLE];
        if (sl_null_at(&reader->events, i)) {
            if (i < EVENT_DEED) {
                sl_row_null(row, key);
            }
        } else if (i < EVENT_TEXTS || i == EVENT_DEED) {
            sl_copy_lines_at(&reader->events, i, shown, sizeof shown);
            sl_row_words(row, key, "%s", shown);
        } else {
            sl_row_number(row, key, sl_real_at(&reader->events, i));
        }
    }
    return SL_TOLD;
}

static const sl_columns events = SL_COLUMNS(EVENT(NAMED), .tell = tell_event, .flat = true);

#define TEST(SAY)                                                                                            \
    SAY(text, "id", test->id)                                                                                \
    SAY(text, "title", test->title)                                                                          \
    SAY(text, "operator", test->operator_code)                                                               \
    SAY(text, "made", test->made)                                                                            \
    SAY(text, "scene", test->scene_name)                                                                     \
    SAY(text, "scene_sha256", test->scene_sha256)                                                            \
    SAY(number, "model", sl_if_known(test->model > 0, test->model))                                          \
    SAY(rows, "swatches", swatches, source, 0, reader->n_swatches)                                           \
    SAY(rows, "events", events, source, table->place, LONG_MAX)                                              \
    SAY(rows, "readings", readings, source, 0, LONG_MAX)

static sl_told tell_test(sl_row *row, const sl_table *table)
{
    const sl_log_source *const source = table->of;
    sl_log_reader *const reader = source->reader;
    const sl_log_test *const test = &reader->tests[table->place];
    if (reader->only && strcmp(reader->only, test->id) != 0) {
        return SL_NOT_HERE;
    }
    sl_free(reader->swatches);
    reader->swatches = NULL;
    if (!sl_log_swatches(reader->log, test->id, &reader->swatches, &reader->n_swatches, reader->error)) {
        return SL_NOT_TOLD;
    }
    reader->readings = sl_readings_pull(reader->log, test->id, reader->error);
    TEST(SL_SAY)
    return SL_TOLD;
}

static const sl_columns tests = SL_COLUMNS(TEST(SL_COLUMN), .tell = tell_test);

#define LOG(SAY)                                                                                             \
    SAY(text, "kind", "log of strand tests")                                                                 \
    SAY(number, "version", SL_LOG_VERSION)                                                                   \
    SAY(rows, "tests", tests, source, 0, source->reader->n_tests)                                            \
    SAY(cautions, SL_ON_NOTHING)
SL_TABLE(log_record, LOG, sl_log_source, source);

const sl_export sl_log_export = {"log", 1, &log_record, &lines};

bool sl_log_export_csv(sl_log *log, const char *test, FILE *out, sl_error *error)
{
    sl_log_reader reader = {.log = log, .error = error, .readings = sl_readings_pull(log, test, error)};
    const sl_log_source source = {&reader};
    const bool good = sl_export_csv(out, &sl_log_export, &source);
    return sl_readings_leave(&reader.readings) && good;
}

bool sl_log_export_json(sl_log *log, const char *test, FILE *out, sl_error *error)
{
    sl_log_reader reader = {.log = log, .error = error, .only = test};
    const sl_log_source source = {&reader};
    const bool good = sl_log_tests(log, &reader.tests, &reader.n_tests, error) &&
                      sl_export_json(out, &sl_log_export, &source);
    sl_free(reader.swatches);
    sl_free(reader.tests);
    return good;
}
