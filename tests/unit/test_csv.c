/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Readings in and out: RFC 4180 by its own examples, the corpus of bad files, the way there and
 * back, and two logs into one.
 */
#include <sqlite3.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "base/memory.h"
#include "base/plain_text.h"
#include "document/table.h"
#include "log/readings/csv_cells.h"
#include "log_made.h"
#include "slowlift/report.h"
#include "suite.h"

static sl_log_made made;

/* ---- RFC 4180 ---------------------------------------------------------------------------------------------
 */

static char seen[2048];

/* Cells in [ ], rows by |. */
static bool write_seen(void *self, const sl_csv_row *row, sl_error *error)
{
    (void)self;
    (void)error;
    for (int i = 0; i < row->n; i++) {
        snprintf(seen + strlen(seen), sizeof seen - strlen(seen), "[%s]", row->cell[i].text);
    }
    snprintf(seen + strlen(seen), sizeof seen - strlen(seen), "|");
    return true;
}

static bool reads(const char *text, size_t length)
{
    FILE *const file = fmemopen((void *)(size_t)text, length, "rb");
    seen[0] = '\0';
    const bool good = sl_csv_read(file, "memory", NULL, write_seen, NULL, NULL);
    fclose(file);
    return good;
}

/* Section 2, rules 1 to 7, with the texts that stand there; then spaces, lone line ends, empty cells. */
START_TEST(an_example_of_rfc_4180_is_read_otherwise)
{
    static const struct {
        const char *text, *rows;
    } cases[] = {{"aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n", "[aaa][bbb][ccc]|[zzz][yyy][xxx]|"},
                 {"aaa,bbb,ccc\r\nzzz,yyy,xxx", "[aaa][bbb][ccc]|[zzz][yyy][xxx]|"},
                 {"field_name,field_name,field_name\r\naaa,bbb,ccc\r\n",
                  "[field_name][field_name][field_name]|[aaa][bbb][ccc]|"},
                 {"\"aaa\",\"bbb\",\"ccc\"\r\nzzz,yyy,xxx", "[aaa][bbb][ccc]|[zzz][yyy][xxx]|"},
                 {"\"aaa\",\"b\r\nbb\",\"ccc\"\r\nzzz,yyy,xxx", "[aaa][b\r\nbb][ccc]|[zzz][yyy][xxx]|"},
                 {"\"aaa\",\"b\"\"bb\",\"ccc\"", "[aaa][b\"bb][ccc]|"},
                 {" a , b\n", "[ a ][ b]|"},
                 {"a,b\nc,d\r\ne,f\r", "[a][b]|[c][d]|[e][f]|"},
                 {",,\n", "[][][]|"},
                 {"\"\",x\n", "[][x]|"},
                 {"\xEF\xBB\xBF"
                  "a;b,c;d\n",
                  "[a][b,c][d]|"},
                 {"a,b;c,d\n", "[a][b;c][d]|"}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        ck_assert(reads(cases[i].text, strlen(cases[i].text)));
        ck_assert_str_eq(seen, cases[i].rows);
    }
}
END_TEST

START_TEST(a_cell_that_breaks_rfc_4180_is_read)
{
    static const char *const wrong[] = {"a\"b,c\n", "\"a\"b,c\n", "\"a,b\n", "\"a\" ,b\n"};
    for (size_t i = 0; i < sizeof wrong / sizeof wrong[0]; i++) {
        ck_assert_msg(!reads(wrong[i], strlen(wrong[i])), "%s", wrong[i]);
    }
}
END_TEST

/* self: how many rows there were. */
static bool check_numbered(void *self, const sl_csv_row *row, sl_error *error)
{
    int *const n = self;
    char one[32], two[32];
    (void)error;
    snprintf(one, sizeof one, "row %d", *n);
    snprintf(two, sizeof two, "a \"%d\"", *n);
    ck_assert(row->n == 2 && row->cell[0].line == *n + 1 && row->cell[1].column == (int)strlen(one) + 2);
    ck_assert_str_eq(row->cell[0].text, one);
    ck_assert_str_eq(row->cell[1].text, two);
    *n += 1;
    return true;
}

/* Rows that lie across the blocks of 64 KiB in which the file is read; before the first of them a spreadsheet
 * may put the mark of UTF-8, three bytes, which the others have not. */
START_TEST(a_row_across_two_blocks_is_torn)
{
    enum { ROWS = 5000 };
    char *const text = malloc(3 + ROWS * 40);
    size_t used = _i == 0 ? 0 : 3;
    ck_assert_ptr_nonnull(text);
    memcpy(text, "\xEF\xBB\xBF", 3);
    for (int i = 0; i < ROWS; i++) {
        used += (size_t)sprintf(text + used, "row %d,\"a \"\"%d\"\"\"\r\n", i, i);
    }
    log_made_begin(&made);
    log_made_write(&made, text, used);
    FILE *const file = fopen(made.csv, "rb");
    int n = 0;
    ck_assert(sl_csv_read(file, made.csv, NULL, check_numbered, &n, NULL));
    fclose(file);
    free(text);
    ck_assert_int_eq(n, ROWS);
    log_made_end(&made);
}
END_TEST

/* ---- guards -----------------------------------------------------------------------------------------------
 */

START_TEST(a_cell_that_a_spreadsheet_would_run_goes_out)
{
    static const char *const guarded[] = {"=1+1", "+1", "-x", "@cmd", "\tx", "'=x", "''+x"};
    static const char *const plain[] = {"", "a", "'a", "1-2", "a=b", "'"};
    for (size_t i = 0; i < sizeof guarded / sizeof guarded[0]; i++) {
        char written[32];
        ck_assert_msg(sl_csv_guards(guarded[i]), "%s", guarded[i]);
        snprintf(written, sizeof written, "'%s", guarded[i]);
        ck_assert_str_eq(sl_cell_unguarded(written), guarded[i]);
    }
    for (size_t i = 0; i < sizeof plain / sizeof plain[0]; i++) {
        ck_assert_msg(!sl_csv_guards(plain[i]), "%s", plain[i]);
        ck_assert_str_eq(sl_cell_unguarded(plain[i]), plain[i]);
    }
}
END_TEST

/* ---- bad files
 * ---------------------------------------------------------------------------------------------- */

START_TEST(a_bad_file_is_taken_or_what_is_wrong_not_named)
{
    char name[64], said[128], path[256], sentence[1024], line[512];
    int at_line = 0, at_column = 0, n = 0;
    FILE *const expected = fopen(SLOWLIFT_CSV "/expected.txt", "r");
    ck_assert_ptr_nonnull(expected);
    log_made_begin(&made);
    while (fgets(line, sizeof line, expected)) {
        sl_error error = {.code = SL_OK};
        sl_log_count count;
        if (line[0] == '#' || sscanf(line, "%63s %d %d %127[^\n]", name, &at_line, &at_column, said) != 4) {
            continue;
        }
        snprintf(path, sizeof path, "%s/%s", SLOWLIFT_CSV, name);
        ck_assert_msg(!sl_log_import_csv(made.log, path, NULL, false, &count, &error), "%s", name);
        sl_error_sentence(&error, sentence, sizeof sentence);
        ck_assert_msg(error.line == at_line && error.column == at_column, "%s: %s", name, sentence);
        ck_assert_msg(strstr(sentence, said) != NULL, "%s: %s", name, sentence);
        ck_assert_msg(log_made_readings(made.log) == 0 && count.readings == 0, "%s left readings", name);
        n++;
    }
    fclose(expected);
    ck_assert_int_gt(n, 40);
    log_made_end(&made);
}
END_TEST

static long long count_of(const char *path, const char *ask)
{
    sqlite3 *base = NULL;
    sqlite3_stmt *statement = NULL;
    ck_assert_int_eq(sqlite3_open_v2(path, &base, SQLITE_OPEN_READONLY, NULL), SQLITE_OK);
    ck_assert_int_eq(sqlite3_prepare_v2(base, ask, -1, &statement, NULL), SQLITE_OK);
    ck_assert_int_eq(sqlite3_step(statement), SQLITE_ROW);
    const long long n = sqlite3_column_int64(statement, 0);
    sqlite3_finalize(statement);
    sqlite3_close(base);
    return n;
}

START_TEST(a_file_without_ids_is_taken_twice)
{
    static const char text[] =
        "swatch;zone;judge;L;a;b;illuminant;observer\nHP5;red;j1;61,5;-3,25;+18;D65;10\n";
    sl_error error = {.code = SL_OK};
    sl_log_count count;
    sl_log_reading *rows = NULL;
    int n = 0;
    log_made_begin(&made);
    log_made_write(&made, text, sizeof text - 1);
    ck_assert(sl_log_import_csv(made.log, made.csv, NULL, false, &count, NULL));
    ck_assert_int_eq((int)count.readings, 1);
    ck_assert(sl_log_readings(made.log, made.test, &rows, &n, NULL));
    ck_assert_double_eq(rows[0].L, 61.5);
    ck_assert_double_eq(rows[0].a, -3.25);
    sl_free(rows);
    ck_assert(!sl_log_import_csv(made.log, made.csv, NULL, false, &count, &error));
    ck_assert_int_eq(error.code, SL_ERR_INCONSISTENT);
    ck_assert(sl_log_import_csv(made.log, made.csv, NULL, true, &count, NULL));
    ck_assert_int_eq((int)log_made_readings(made.log), 2);
    log_made_end(&made);
}
END_TEST

/* A first line alone is a file of no rows; nothing of it is kept, so that it may come again. */
START_TEST(a_file_of_a_first_line_alone_leaves_a_mark)
{
    static const char text[] = "swatch,zone,judge,grade\n";
    log_made_begin(&made);
    log_made_write(&made, text, sizeof text - 1);
    for (int again = 0; again < 2; again++) {
        sl_log_count count;
        ck_assert(sl_log_import_csv(made.log, made.csv, NULL, false, &count, NULL));
        ck_assert(count.readings == 0 && count.there == 0);
    }
    ck_assert_int_eq((int)count_of(made.path, "SELECT count(*) FROM import"), 0);
    log_made_end(&made);
}
END_TEST

START_TEST(a_file_is_not_known_again_by_its_name_without_folders)
{
    static const char text[] = "swatch,zone,judge,grade\nHP5,red,j1,slight\n";
    sl_log_count count;
    log_made_begin(&made);
    log_made_write(&made, text, sizeof text - 1);
    ck_assert_int_eq(chdir(made.folder), 0);
    ck_assert(sl_log_import_csv(made.log, "some.csv", NULL, false, &count, NULL));
    ck_assert(sl_log_import_csv(made.log, "./some.csv", NULL, true, &count, NULL));
    ck_assert_int_eq((int)count_of(made.path, "SELECT count(*) FROM import WHERE name = 'some.csv'"), 2);
    ck_assert_int_eq(chdir("/"), 0);
    log_made_end(&made);
}
END_TEST

START_TEST(rows_of_two_tests_in_one_file_go_astray)
{
    char other[SL_UUID], text[300];
    sl_log_count count;
    sl_log_reading *rows = NULL;
    int n = 0;
    log_made_begin(&made);
    log_made_begin_other(&made, 3, other);
    const int length = snprintf(text, sizeof text,
                                "test,swatch,zone,judge,grade\n%.8s,HP5,red,j1,slight\n%s,HP5,red,j1,"
                                "about half\n%.8s,HP5,red,j1,mostly gone\n",
                                made.test, other, made.test);
    log_made_write(&made, text, (size_t)length);
    ck_assert(sl_log_import_csv(made.log, made.csv, NULL, false, &count, NULL));
    ck_assert_int_eq((int)count.readings, 3);
    ck_assert(sl_log_readings(made.log, made.test, &rows, &n, NULL));
    ck_assert_int_eq(n, 2);
    ck_assert_int_eq(rows[1].said[SL_SAID_GRADE], SL_WIPE_MOSTLY_GONE);
    sl_free(rows);
    ck_assert(sl_log_readings(made.log, other, &rows, &n, NULL));
    ck_assert_int_eq(n, 1);
    ck_assert_int_eq(rows[0].said[SL_SAID_GRADE], SL_WIPE_HALF);
    sl_free(rows);
    log_made_end(&made);
}
END_TEST

/* However many swatches and zones a test has, each is near to its own misspelling. */
START_TEST(the_last_of_many_codes_and_zones_is_not_found_near)
{
    char other[SL_UUID], text[200], near[40];
    sl_log_swatch *swatches = NULL;
    sl_log_count count;
    sl_error error = {.code = SL_OK};
    int n = 0, length = 0;
    log_made_begin(&made);
    log_made_begin_other(&made, 6, other);
    ck_assert(sl_log_swatches(made.log, other, &swatches, &n, NULL));
    ck_assert_int_eq(n, 48);
    length = snprintf(text, sizeof text, "test,swatch,zone,judge,grade\n%s,%sX,red,j1,slight\n", other,
                      swatches[47].bench.code);
    log_made_write(&made, text, (size_t)length);
    ck_assert(!sl_log_import_csv(made.log, made.csv, NULL, false, &count, &error));
    ck_assert_int_eq(error.code, SL_ERR_MISSING_REFERENCE);
    snprintf(near, sizeof near, "the nearest known one is \"%s\"", swatches[47].bench.code);
    ck_assert_msg(strstr(error.wanted, near) != NULL, "%s", error.wanted);
    log_made_change(made.path,
                    "INSERT INTO zone (test, place, name) WITH RECURSIVE i(k) AS (SELECT 1 UNION ALL"
                    " SELECT k + 1 FROM i WHERE k < 100) SELECT test, 100 + k,"
                    " 'a lock by number ' || k FROM i, zone WHERE place = 0");
    length =
        snprintf(text, sizeof text, "test,swatch,zone,judge,grade\n%s,%s,a lock by nmber 100,j1,slight\n",
                 other, swatches[47].bench.code);
    log_made_write(&made, text, (size_t)length);
    ck_assert(!sl_log_import_csv(made.log, made.csv, NULL, false, &count, &error));
    ck_assert_msg(strstr(error.wanted, "the nearest known one is \"a lock by number 100\"") != NULL, "%s",
                  error.wanted);
    sl_free(swatches);
    log_made_end(&made);
}
END_TEST

/* ---- there and back
 * ----------------------------------------------------------------------------------------- */

START_TEST(readings_that_went_out_come_back_otherwise)
{
    static char one[65536], two[65536];
    sl_log_count count;
    sl_log *other = NULL;
    log_made_begin(&made);
    log_made_copy(&made);
    log_made_add_some(&made, made.log, 30);
    log_made_export(made.log, one, sizeof one, false);
    log_made_write(&made, one, strlen(one));
    ck_assert(sl_log_open(&other, made.other, SL_LOG_WRITE, NULL));
    ck_assert(sl_log_import_csv(other, made.csv, NULL, false, &count, NULL));
    ck_assert_int_eq((int)count.readings, 30);
    log_made_export(other, two, sizeof two, false);
    ck_assert_str_eq(one, two);
    ck_assert_ptr_nonnull(strstr(one, ",'=1+1,"));
    ck_assert(sl_log_import_csv(other, made.csv, NULL, false, &count, NULL)); /* by ids: nothing new */
    ck_assert(count.readings == 0 && count.there == 30);
    log_made_export(made.log, one, sizeof one, true);
    log_made_export(other, two, sizeof two, true);
    ck_assert_str_eq(one, two);
    sl_log_close(other);
    log_made_end(&made);
}
END_TEST

START_TEST(two_logs_do_not_come_together)
{
    static char one[65536], two[65536];
    sl_log *other = NULL;
    sl_log_count count;
    sl_error error = {.code = SL_OK};
    log_made_begin(&made);
    log_made_copy(&made);
    log_made_add_some(&made, made.log, 7);
    ck_assert(sl_log_open(&other, made.other, SL_LOG_WRITE, NULL));
    log_made_add_some(&made, other, 5);
    sl_event event = {.kind = SL_EVENT_NOTED, .swatch = 2};
    ck_assert(sl_log_append(other, made.test, made.swatches, made.n, &event, "from the other bench", NULL));
    ck_assert(sl_log_merge(made.log, made.other, &count, &error));
    ck_assert(count.tests == 0 && count.swatches == 0 && count.events == 1 && count.readings == 5);
    ck_assert(sl_log_merge(made.log, made.other, &count, &error)); /* again: nothing new */
    ck_assert(count.events == 0 && count.readings == 0);
    ck_assert(sl_log_merge(other, made.path, &count, &error)); /* and back */
    ck_assert_int_eq((int)count.readings, 7);
    ck_assert_int_eq((int)log_made_readings(other), 12);
    log_made_export(made.log, one, sizeof one, false);
    log_made_export(other, two, sizeof two, false);
    ck_assert_uint_eq(strlen(one), strlen(two)); /* the same rows, in another order */
    ck_assert(!sl_log_merge(made.log, made.path, &count, &error));
    sl_log_close(other);
    log_made_end(&made);
}
END_TEST

/* Of a test with its swatches, two events and three readings; then the same of two such tests. Files and
 * zones of a scene are not counted. */
START_TEST(rows_that_were_there_already_are_not_counted_or_those_of_the_scene_are)
{
    sl_log *empty = NULL;
    sl_log_count count;
    char second[SL_UUID];
    log_made_begin(&made);
    log_made_add_some(&made, made.log, 3);
    log_made_happens(&made, SL_EVENT_STARTED, -1, 0, NULL);
    log_made_happens(&made, SL_EVENT_APPLIED, 0, 60, NULL);
    ck_assert(sl_log_open(&empty, made.other, SL_LOG_MAKE, NULL));
    for (int tests = 1; tests <= 2; tests++) {
        ck_assert(sl_log_merge(empty, made.path, &count, NULL));
        ck_assert_int_eq((int)count.tests, 1);
        ck_assert_int_eq((int)count.swatches, tests == 1 ? made.n : 8);
        ck_assert_int_eq((int)count.events, tests == 1 ? 2 : 0);
        ck_assert_int_eq((int)count.readings, tests == 1 ? 3 : 0);
        ck_assert_int_eq((int)count.there, tests == 1 ? 0 : 1 + made.n + 2 + 3);
        ck_assert(sl_log_merge(empty, made.path, &count, NULL)); /* again: nothing new */
        ck_assert(count.tests + count.swatches + count.events + count.readings == 0);
        ck_assert_int_eq((int)count.there, 1 + made.n + 2 + 3 + (tests - 1) * (1 + 8));
        log_made_begin_other(&made, 1, second);
    }
    sl_log_close(empty);
    log_made_end(&made);
}
END_TEST

/* Letters of every length in bytes, what CSV and spreadsheets stumble over, what eyes and terminals do, and
 * bytes that are no letter. */
static void random_text(char *text, size_t most)
{
    static const char *const pieces[] = {"a",
                                         "B",
                                         "7",
                                         " ",
                                         ",",
                                         ";",
                                         "\"",
                                         "'",
                                         "=",
                                         "+",
                                         "-",
                                         "@",
                                         "\t",
                                         "\n",
                                         "\r\n",
                                         "\xC3\xA9",
                                         "\xE2\x82\xAC",
                                         "\xF0\x9F\x98\x80",
                                         "\x1B[2J",
                                         "\xE2\x80\xAE",
                                         "\xE2\x80\x8B",
                                         "\xFF",
                                         "\xC3",
                                         "\x07"};
    const int n = 1 + rand() % 12, plain = rand() % 3;
    text[0] = '\0';
    for (int i = 0; i < n; i++) {
        const char *const piece = pieces[rand() % (plain > 0 ? 18 : 24)];
        if (strlen(text) + strlen(piece) < most) {
            snprintf(text + strlen(text), most - strlen(text), "%s", piece);
        }
    }
}

START_TEST(an_accepted_text_comes_back_otherwise)
{
    enum { TRIES = 400 };
    static char csv[1 << 18], json[1 << 18];
    static sl_log_reading sent[TRIES];
    sl_log_reading *come = NULL;
    sl_log_count count;
    sl_log *other = NULL;
    int n = 0, n_come = 0;
    log_made_begin(&made);
    log_made_copy(&made);
    srand(20261129);
    for (int i = 0; i < TRIES; i++) {
        sl_log_reading reading = log_made_reading(&made, i % made.n, "violet", SL_WIPE_HALF);
        random_text(reading.note, sizeof reading.note);
        random_text(reading.tone, sizeof reading.tone);
        const bool wanted = sl_text_accept(reading.note, strlen(reading.note), SL_TEXT_FILE, NULL) &&
                            sl_text_accept(reading.tone, strlen(reading.tone), SL_TEXT_FILE, NULL);
        ck_assert(sl_log_add(made.log, &reading, 1, NULL) == wanted);
        sent[n] = reading;
        n += wanted ? 1 : 0;
    }
    ck_assert(n > TRIES / 4 && n < TRIES);
    log_made_export(made.log, csv, sizeof csv, false);
    log_made_export(made.log, json, sizeof json, true);
    ck_assert(sl_text_accept(json, strlen(json), SL_TEXT_FILE, NULL));
    log_made_write(&made, csv, strlen(csv));
    ck_assert(sl_log_open(&other, made.other, SL_LOG_WRITE, NULL));
    ck_assert(sl_log_import_csv(other, made.csv, NULL, false, &count, NULL));
    ck_assert_int_eq((int)count.readings, n);
    ck_assert(sl_log_readings(other, made.test, &come, &n_come, NULL));
    ck_assert_int_eq(n_come, n);
    for (int i = 0; i < n; i++) {
        ck_assert_str_eq(come[i].note, sent[i].note);
        ck_assert_str_eq(come[i].tone, sent[i].tone);
    }
    sl_free(come);
    sl_log_close(other);
    log_made_end(&made);
}
END_TEST

START_TEST(an_id_with_two_contents_is_merged)
{
    sqlite3 *base = NULL;
    sl_error error = {.code = SL_OK};
    sl_log_count count;
    log_made_begin(&made);
    log_made_add_some(&made, made.log, 3);
    log_made_copy(&made);
    ck_assert_int_eq(sqlite3_open(made.other, &base), SQLITE_OK);
    ck_assert_int_eq(
        sqlite3_exec(base,
                     "DROP TRIGGER reading_stays; UPDATE reading SET note = 'other' WHERE kept = 2;"
                     "CREATE TRIGGER reading_stays BEFORE UPDATE ON reading BEGIN"
                     " SELECT RAISE(ABORT, 'rows of this log are never changed'); END",
                     NULL, NULL, NULL),
        SQLITE_OK);
    sqlite3_close(base);
    ck_assert(!sl_log_merge(made.log, made.other, &count, &error));
    ck_assert_int_eq(error.code, SL_ERR_INCONSISTENT);
    ck_assert_ptr_nonnull(strstr(error.found, "reading"));
    ck_assert(!sl_log_merge(made.log, made.csv, &count, &error)); /* none there */
    ck_assert_int_eq(error.code, SL_ERR_CANNOT_READ);
    log_made_end(&made);
}
END_TEST

/* A log that holds nothing takes all of another: scene, zones, swatches, readings. */
START_TEST(an_empty_log_does_not_become_the_other)
{
    static char one[65536], two[65536];
    sl_log *other = NULL;
    sl_log_count count;
    log_made_begin(&made);
    log_made_add_some(&made, made.log, 9);
    ck_assert(sl_log_open(&other, made.other, SL_LOG_MAKE, NULL));
    ck_assert(sl_log_merge(other, made.path, &count, NULL));
    ck_assert(count.tests == 1 && count.swatches == made.n && count.readings == 9 && count.there == 0);
    log_made_export(made.log, one, sizeof one, true);
    log_made_export(other, two, sizeof two, true);
    ck_assert_str_eq(one, two);
    sl_scene *const scene = sl_log_scene(other, made.test, NULL);
    ck_assert_ptr_nonnull(scene);
    sl_scene_free(scene);
    sl_log_close(other);
    log_made_end(&made);
}
END_TEST

/* A header and a row of cells, read as a file's would be. */
static bool read_cells(const char *const names[], const char *const cells[], int n, char parted_by,
                       sl_csv_said *said, sl_error *error)
{
    sl_csv_row head = {.file = "x.csv", .parted_by = parted_by, .n = n}, row = head;
    sl_csv_header header;
    for (int i = 0; i < n; i++) {
        head.cell[i] = (sl_csv_cell){names[i], 1, i + 1};
        row.cell[i] = (sl_csv_cell){cells[i], 2, i + 1};
    }
    ck_assert(sl_csv_header_read(&header, &head, error));
    return sl_csv_cells_read(&header, &row, said, error);
}

static const char *const minute_names[] = {"swatch", "zone", "judge", "grade", "minute"};

/* docs/log.md: digits with a point, without a unit; the forms of JSON (RFC 8259) and a comma where cells are
 * parted by semicolons. */
START_TEST(a_number_is_read_otherwise_than_it_is_written)
{
    static const struct {
        const char *text;
        double value; /* -1: refused */
        char parted_by;
    } numbers[] = {{"7", 7.0, ','},      {"7.5", 7.5, ','},      {"7.", 7.0, ','},    {".5", 0.5, ','},
                   {"+7", 7.0, ','},     {"15e-1", 1.5, ','},    {"15E-1", 1.5, ','}, {"1.5e+1", 15.0, ','},
                   {"1.5e1", 15.0, ','}, {"7,5", 7.5, ';'},      {"7,5", -1.0, ','},  {"1e", -1.0, ','},
                   {"1e+", -1.0, ','},   {"1e-", -1.0, ','},     {"e5", -1.0, ','},   {".", -1.0, ','},
                   {"1.5.2", -1.0, ','}, {"7 min", -1.0, ','},   {"0x10", -1.0, ','}, {"inf", -1.0, ','},
                   {"nan", -1.0, ','},   {"--7", -1.0, ','},     {"1e5", -1.0, ','},  {"-1", -1.0, ','},
                   {"1e1e1", -1.0, ','}, {"7\u00a0", -1.0, ','}, {"10000", 1e4, ','}, {"10000.1", -1.0, ','}};
    for (size_t i = 0; i < sizeof numbers / sizeof numbers[0]; i++) {
        const char *const cells[] = {"HP5", "red", "j1", "about half", numbers[i].text};
        sl_csv_said said;
        sl_error error = {.code = SL_OK};
        const bool good = read_cells(minute_names, cells, 5, numbers[i].parted_by, &said, &error);
        ck_assert_msg(good == (numbers[i].value >= 0.0), "%s", numbers[i].text);
        if (good) {
            ck_assert_double_eq(said.reading.minute, numbers[i].value);
        } else {
            ck_assert_int_eq(error.line, 2);
            ck_assert_int_eq(error.column, 5);
        }
    }
}
END_TEST

/* A column's name with a slip is answered with the nearest; one like none of them with what belongs there. */
START_TEST(a_column_that_is_none_is_not_answered_with_what_is_near)
{
    const char *const names[][2] = {{"minutes", "\"minute\""}, {"price of it", "names columns"}};
    for (int i = 0; i < 2; i++) {
        sl_csv_row head = {.file = "x.csv", .parted_by = ',', .n = 1, .cell = {{names[i][0], 1, 1}}};
        sl_csv_header header;
        sl_error error = {.code = SL_OK};
        ck_assert(!sl_csv_header_read(&header, &head, &error));
        ck_assert_int_eq(error.code, SL_ERR_UNKNOWN_KEY);
        ck_assert_msg(strstr(error.wanted, names[i][1]), "%s", error.wanted);
        ck_assert(i == 1 || strstr(error.wanted, "nearest"));
    }
}
END_TEST

/* ---- what goes out, column by column
 * -----------------------------------------------------------------------
 */

/* ---- what does not come in
 * ---------------------------------------------------------------------------------
 */

static void refused(const char *text, const char *test, sl_code code, int line, int column, const char *found,
                    const char *wanted)
{
    sl_error error = {.code = SL_OK};
    sl_log_count count = {.readings = 9, .there = 9};
    const long long before = log_made_readings(made.log);
    log_made_write(&made, text, strlen(text));
    ck_assert_msg(!sl_log_import_csv(made.log, made.csv, test, false, &count, &error), "%s", text);
    ck_assert_msg(error.code == code && error.line == line && error.column == column,
                  "%s: %s at %d, %d: %s, %s", text, sl_code_name(error.code), error.line, error.column,
                  error.found, error.wanted);
    ck_assert_msg(strstr(error.found, found) && strstr(error.wanted, wanted), "%s: %s, %s", text, error.found,
                  error.wanted);
    ck_assert_str_eq(error.file, made.csv);
    ck_assert(count.readings == 0 && count.there == 0);
    ck_assert_int_eq((int)log_made_readings(made.log), (int)before);
}

START_TEST(a_row_that_leads_nowhere_is_taken_or_told_in_another_place)
{
    static const char none[] = "00000000";
    char text[300];
    log_made_begin(&made);
    const char *const arm = made.swatches[1].arm;
    ck_assert_str_ne(arm, made.swatches[0].arm);
    refused("judge,zone,swatch,grade\nj1,red,HP5,slight\nj1,red,HP6,slight\n", NULL, SL_ERR_MISSING_REFERENCE,
            3, 8, "HP6", "write the code of a swatch of this test; the nearest");
    refused("judge,zone,swatch,grade\nj1,rd,HP5,slight\n", NULL, SL_ERR_MISSING_REFERENCE, 2, 4, "rd",
            "write a zone of this test; the nearest known one is \"red\"");
    snprintf(text, sizeof text, "swatch,arm,zone,judge,grade\nHP5,%s,red,j1,slight\n", arm);
    refused(text, NULL, SL_ERR_WRONG_TYPE, 2, 5, arm, "this swatch belongs to another strip");
    snprintf(text, sizeof text, "swatch,test,zone,judge,grade\nHP5,%s,red,j1,slight\n", none);
    refused(text, NULL, SL_ERR_MISSING_REFERENCE, 2, 5, none, "");
    refused("swatch,zone,judge,grade\nHP5,red,j1,slight\n", none, SL_ERR_MISSING_REFERENCE, 2, 1, "", "");
    refused("swatch,zone,judge,grade,replaces\nHP5,red,j1,slight,\nHP5,red,j1,slight,"
            "00000000-0000-4000-8000-000000000000\n",
            NULL, SL_ERR_MISSING_REFERENCE, 3, 1, "00000000-0000-4000-8000-000000000000",
            "a correction names the reading of the same swatch");
    refused("", NULL, SL_ERR_MISSING_KEY, 1, 1, "swatch", "the file is empty");
    ck_assert_int_eq((int)count_of(made.path, "SELECT count(*) FROM import"), 0);
    sl_log_count count;
    snprintf(text, sizeof text, "swatch,arm,zone,judge,grade\nHP5,%s,red,j1,slight\nHP5,,red,j1,slight\n",
             made.swatches[0].arm);
    log_made_write(&made, text, strlen(text));
    ck_assert(sl_log_import_csv(made.log, made.csv, made.test, false, &count, NULL));
    ck_assert_int_eq((int)count.readings, 2);
    log_made_end(&made);
}
END_TEST

/* docs/log.md: a row with an id that the log has is passed over when it says the same; of no time it says
 * nothing, whatever the clock shows now. */
START_TEST(a_row_with_an_id_and_no_time_is_refused_when_it_comes_again)
{
    static const char id[] = "aaaaaaaa-0000-4000-8000-000000000001";
    static const char kept[] = "2026-11-25T09:07:41+01:00";
    char text[300], at[SL_UUID + 8];
    sl_log_count count;
    sl_error error = {.code = SL_OK};
    log_made_begin(&made);
    snprintf(text, sizeof text, "id,swatch,zone,judge,grade,at\n%s,HP5,red,j1,slight,%s\n", id, kept);
    log_made_write(&made, text, strlen(text));
    ck_assert(sl_log_import_csv(made.log, made.csv, NULL, false, &count, NULL));
    snprintf(text, sizeof text, "id,swatch,zone,judge,grade\n%s,HP5,red,j1,slight\n", id);
    log_made_write(&made, text, strlen(text));
    ck_assert_msg(sl_log_import_csv(made.log, made.csv, NULL, false, &count, &error), "%s", error.found);
    ck_assert(count.readings == 0 && count.there == 1);
    snprintf(text, sizeof text, "id,swatch,zone,judge,grade\n%s,HP5,red,j1,about half\n", id);
    refused(text, NULL, SL_ERR_INCONSISTENT, 2, 1, id, "correct a reading by a new one");
    snprintf(text, sizeof text,
             "id,swatch,zone,judge,grade,at\n%s,HP5,red,j1,slight,2026-11-25T09:07:42+01:00\n", id);
    refused(text, NULL, SL_ERR_INCONSISTENT, 2, 1, id, "correct a reading by a new one");
    log_made_text(made.path, "SELECT at FROM reading", at, sizeof at);
    ck_assert_str_eq(at, kept);
    log_made_end(&made);
}
END_TEST

/* Ids in all rows: it may come as often as it likes. In some alone: those without would be there twice. */
START_TEST(a_file_of_which_some_rows_have_ids_is_taken_for_one_of_none_or_of_all)
{
    static const char id[] = "aaaaaaaa-0000-4000-8000-00000000000";
    for (int with = 0; with < 4; with++) { /* a bit for each of two rows */
        char text[300];
        sl_log_count count;
        sl_error error = {.code = SL_OK};
        log_made_begin(&made);
        snprintf(text, sizeof text,
                 "id,swatch,zone,judge,grade\n%s%s,HP5,red,j1,slight\n%s%s,HP5,red,j1,slight\n",
                 with & 1 ? id : "", with & 1 ? "1" : "", with & 2 ? id : "", with & 2 ? "2" : "");
        log_made_write(&made, text, strlen(text));
        ck_assert(sl_log_import_csv(made.log, made.csv, NULL, false, &count, NULL));
        ck_assert(count.readings == 2 && count.there == 0);
        const bool taken = sl_log_import_csv(made.log, made.csv, NULL, false, &count, &error);
        ck_assert_msg(taken == (with != 0), "%d: %s", with, error.found);
        const int n_with = (with & 1) + (with >> 1);
        ck_assert_int_eq((int)count.there, n_with);
        ck_assert_int_eq((int)count.readings, with == 0 ? 0 : 2 - n_with);
        /* once more for each time that it brought something */
        ck_assert_int_eq((int)count_of(made.path, "SELECT count(*) FROM import"),
                         with == 0 || with == 3 ? 1 : 2);
        log_made_end(&made);
    }
}
END_TEST

/* The first time that it came is told, and what it was called, how long it was, how many rows it brought. */
START_TEST(a_file_that_comes_again_is_told_by_another_day)
{
    static const char text[] = "swatch,zone,judge,grade\nHP5,red,j1,slight\nHP5,red,j2,slight\n";
    char kept[200], wanted[200];
    sl_log_count count;
    log_made_begin(&made);
    log_made_write(&made, text, sizeof text - 1);
    ck_assert(sl_log_import_csv(made.log, made.csv, NULL, false, &count, NULL));
    ck_assert(sl_log_import_csv(made.log, made.csv, NULL, true, &count, NULL));
    log_made_text(made.path,
                  "SELECT count(DISTINCT at) || ' ' || (min(at) = (SELECT at FROM import)) FROM reading"
                  " WHERE kept <= 2",
                  kept, sizeof kept);
    ck_assert_str_eq(kept, "1 1"); /* rows without a time have that of their import */
    log_made_change(made.path, "UPDATE import SET at = '2026-11-25T09:07:41+01:00' WHERE kept = 1;"
                               "UPDATE import SET at = '2026-11-26T10:08:42+01:00' WHERE kept = 2");
    refused(text, NULL, SL_ERR_INCONSISTENT, 0, 0, "this file was imported on 2026-11-25 at 09:07 already",
            "its rows have no ids");
    /* sha256sum of that text */
    log_made_text(made.path,
                  "SELECT length(id) || ' ' || name || ' ' || sha256 || ' ' || readings FROM import", kept,
                  sizeof kept);
    snprintf(wanted, sizeof wanted, "36 some.csv %s 2",
             "e0cf3e2639e828b297fcf644ec45eddf546f0b86e797bd0709b7fbf9f3dad817");
    ck_assert_str_eq(kept, wanted);
    log_made_end(&made);
}
END_TEST

/* A name may be 163 bytes long; one more test than there is room for at first. */
START_TEST(a_zone_of_the_longest_name_or_a_test_among_many_is_not_found)
{
    enum { TESTS = 12 };
    static char ids[TESTS][SL_UUID], text[4000];
    char zone[SL_LOG_ZONE];
    sl_log_count count;
    log_made_begin(&made);
    memset(zone, 'z', sizeof zone - 1);
    zone[sizeof zone - 1] = '\0';
    snprintf(text, sizeof text, "INSERT INTO zone (test, place, name) VALUES ('%s', 90, '%s')", made.test,
             zone);
    log_made_change(made.path, text);
    snprintf(text, sizeof text, "swatch,zone,judge,grade\nHP5,%s,j1,slight\n", zone);
    log_made_write(&made, text, strlen(text));
    ck_assert(sl_log_import_csv(made.log, made.csv, NULL, false, &count, NULL));
    log_made_text(made.path, "SELECT zone FROM reading", text, sizeof text);
    ck_assert_str_eq(text, zone);
    size_t used = (size_t)snprintf(text, sizeof text, "test,swatch,zone,judge,grade\n");
    for (int i = 0; i < TESTS; i++) {
        log_made_begin_other(&made, 3, ids[i]);
    }
    for (int i = 0; i < 2 * TESTS; i++) {
        used += (size_t)snprintf(text + used, sizeof text - used, "%s,HP5,red,j%d,slight\n", ids[i % TESTS],
                                 i % TESTS);
    }
    log_made_write(&made, text, used);
    ck_assert(sl_log_import_csv(made.log, made.csv, NULL, false, &count, NULL));
    ck_assert_int_eq((int)count.readings, 2 * TESTS);
    for (int i = 0; i < TESTS; i++) {
        sl_log_reading *rows = NULL;
        int n = 0;
        char judge[16];
        snprintf(judge, sizeof judge, "j%d", i);
        ck_assert(sl_log_readings(made.log, ids[i], &rows, &n, NULL));
        ck_assert_int_eq(n, 2);
        ck_assert_str_eq(rows[0].judge, judge);
        ck_assert_str_eq(rows[1].judge, judge);
        sl_free(rows);
    }
    log_made_end(&made);
}
END_TEST

/* Files that were opened: the next gets the same number as before. */
static int next_file(void)
{
    const int file = dup(0);
    ck_assert_int_ge(file, 0);
    close(file);
    return file;
}

START_TEST(an_import_or_a_photo_leaves_a_file_open)
{
    static const char *const texts[] = {"swatch,zone,judge,grade\nHP5,red,j1,slight\n", "swatch\n", ""};
    char hash[SL_SHA256_TEXT];
    log_made_begin(&made);
    const int next = next_file();
    for (int i = 0; i < 3; i++) {
        sl_log_count count;
        log_made_write(&made, texts[i], strlen(texts[i]));
        ck_assert(sl_log_import_csv(made.log, made.csv, NULL, false, &count, NULL) == (i == 0));
        ck_assert_int_eq(next_file(), next);
        ck_assert(sl_photo_hash(made.csv, hash, NULL));
        ck_assert_int_eq(next_file(), next);
    }
    /* FIPS 180-4's value of no bytes at all */
    ck_assert_str_eq(hash, "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
    log_made_end(&made);
}
END_TEST

/* ---- where a cell begins
 * -----------------------------------------------------------------------------------
 */

static bool write_places(void *self, const sl_csv_row *row, sl_error *error)
{
    (void)self;
    (void)error;
    for (int i = 0; i < row->n; i++) {
        snprintf(seen + strlen(seen), sizeof seen - strlen(seen), "%s@%d:%d ", row->cell[i].text,
                 row->cell[i].line, row->cell[i].column);
    }
    return true;
}

/* Lines end in LF, CR or both; letters are counted, not bytes; an empty line has no cells. */
START_TEST(a_cell_is_told_in_another_line_or_column)
{
    static const struct {
        const char *text, *places;
    } cases[] = {{"a,b\nc,d\n", "a@1:1 b@1:3 c@2:1 d@2:3 "},
                 {"a,b\r\nc,d\r\n", "a@1:1 b@1:3 c@2:1 d@2:3 "},
                 {"a,b\rc,d\r", "a@1:1 b@1:3 c@2:1 d@2:3 "},
                 {"a,b\n\n\nc,d", "a@1:1 b@1:3 c@4:1 d@4:3 "},
                 {"a\r\rb\r\n\r\nc", "a@1:1 b@3:1 c@5:1 "},
                 {"\xC3\xA9\xE2\x82\xAC,b", "\xC3\xA9\xE2\x82\xAC@1:1 b@1:4 "},
                 {"\xF0\x9F\x98\x80,b", "\xF0\x9F\x98\x80@1:1 b@1:3 "},
                 {"\"a\nb\",c\nd", "a\nb@1:1 c@2:4 d@3:1 "},
                 {"\"a\r\nb\",c\r\nd", "a\r\nb@1:1 c@2:4 d@3:1 "},
                 {"\"a,b\",\"c\",d", "a,b@1:1 c@1:7 d@1:11 "},
                 {"\xEF\xBB\xBF"
                  "a,b",
                  "a@1:1 b@1:3 "},
                 {",,x", "@1:1 @1:2 x@1:3 "},
                 {"a;b,c", "a;b@1:1 c@1:5 "},
                 {"a;b\nc,d;e,f\n", "a@1:1 b@1:3 c,d@2:1 e,f@2:5 "}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        FILE *const file = fmemopen((void *)(size_t)cases[i].text, strlen(cases[i].text), "rb");
        seen[0] = '\0';
        ck_assert(sl_csv_read(file, "memory", NULL, write_places, NULL, NULL));
        fclose(file);
        ck_assert_str_eq(seen, cases[i].places);
    }
}
END_TEST

static void refused_bytes(const char *text, size_t length, sl_code code, int line, int column,
                          const char *found)
{
    sl_error error = {.code = SL_OK};
    FILE *const file = fmemopen((void *)(size_t)text, length, "rb");
    seen[0] = '\0';
    ck_assert(!sl_csv_read(file, "memory", NULL, write_seen, NULL, &error));
    fclose(file);
    ck_assert_msg(error.code == code && error.line == line && error.column == column,
                  "%.40s: %s at %d, %d: %s, %s", text, sl_code_name(error.code), error.line, error.column,
                  error.found, error.wanted);
    ck_assert_msg(strstr(error.found, found) != NULL, "%s", error.found);
    ck_assert_str_eq(error.file, "memory");
}

/* A cell of 4,096 bytes that does not end may yet end; one of a byte more is too long. */
START_TEST(a_file_that_is_no_csv_is_told_in_another_place)
{
    static char text[9000];
    refused_bytes("a,b\nc\"d,e\n", 10, SL_ERR_SYNTAX, 2, 2, "neither opens nor closes");
    refused_bytes("a,b\n\"c\"d,e\n", 11, SL_ERR_SYNTAX, 2, 4, "neither opens nor closes");
    refused_bytes("a,b\n\"c\n\"d,e\n", 12, SL_ERR_SYNTAX, 3, 2, "neither opens nor closes");
    refused_bytes("a,b\nc,\"d\n\ne", 11, SL_ERR_SYNTAX, 2, 3, "is not closed");
    refused_bytes("a\xFE,b\n", 5, SL_ERR_NOT_UTF8, 1, 1, "");
    refused_bytes("a,b\nc,\xC3\n", 8, SL_ERR_NOT_UTF8, 2, 3, "");
    refused_bytes("\xFF\xFE", 2, SL_ERR_NOT_UTF8, 1, 1, "UTF-16");
    memset(text, 'x', sizeof text);
    memcpy(text, "a,\"", 3);
    refused_bytes(text, 2 + 4096, SL_ERR_SYNTAX, 1, 3, "is not closed");
    refused_bytes(text, 2 + 4097, SL_ERR_TOO_LARGE, 1, 3, "a cell of so many bytes");
    memset(text, ',', 65); /* 65 cells in the second line */
    text[0] = '\n';
    refused_bytes(text, 65, SL_ERR_TOO_LARGE, 2, 65, "a row of so many cells");
}
END_TEST

/* As many digits as a sheet may write, and one more; a count to a billionth, and past it. */
START_TEST(a_number_is_too_long_at_another_length_or_whole_at_another_part)
{
    static const char *const count_names[] = {"swatch", "zone", "judge", "grade", "n"};
    static const struct {
        const char *text;
        int n; /* 0: refused */
    } counts[] = {{"1", 1},          {"1000", 1000},      {"0", 0},
                  {"1001", 0},       {"2.0000000005", 2}, {"1.9999999995", 2},
                  {"2.00000001", 0}, {"2.5", 0}};
    sl_csv_said said;
    for (int length = 46; length <= 49; length++) {
        char digits[64];
        snprintf(digits, sizeof digits, "7.%0*d", length - 2, 0);
        const char *const cells[] = {"HP5", "red", "j1", "about half", digits};
        ck_assert_uint_eq(strlen(digits), (size_t)length);
        ck_assert_int_eq(read_cells(minute_names, cells, 5, ',', &said, NULL), length <= 47);
        ck_assert(length > 47 || (said.reading.minute >= 7.0 && said.reading.minute <= 7.0));
    }
    for (size_t i = 0; i < sizeof counts / sizeof counts[0]; i++) {
        const char *const cells[] = {"HP5", "red", "j1", "about half", counts[i].text};
        sl_error error = {.code = SL_OK};
        const bool good = read_cells(count_names, cells, 5, ',', &said, &error);
        ck_assert_msg(good == (counts[i].n > 0), "%s", counts[i].text);
        ck_assert(!good || said.reading.n == counts[i].n);
        ck_assert(good || (error.line == 2 && error.column == 5 && strstr(error.wanted, "(column n)")));
    }
}
END_TEST

/* Each part of the first line and of a row that is not as it should be, with where and what would be. */
START_TEST(a_first_line_or_a_row_is_refused_in_another_place)
{
    log_made_begin(&made);
    refused("swatch,zone,judge,zone\n", NULL, SL_ERR_DUPLICATE_KEY, 1, 19, "zone", "name each column once");
    refused("swatch,judge,grade\n", NULL, SL_ERR_MISSING_KEY, 1, 1, "zone",
            "swatch, zone and judge at least");
    refused("zone,judge,grade\n", NULL, SL_ERR_MISSING_KEY, 1, 1, "swatch",
            "swatch, zone and judge at least");
    refused("\n\nzone,swatch,grade\n", NULL, SL_ERR_MISSING_KEY, 3, 1, "judge",
            "swatch, zone and judge at least");
    refused("swatch,zone,judge,grade\nHP5,red,j1\n", NULL, SL_ERR_INCONSISTENT, 2, 9, "a row of 3 cells",
            "the first line names 4; quote a cell that holds a ,");
    refused("swatch;zone;judge;grade\nHP5;red;j1;slight;7\n", NULL, SL_ERR_INCONSISTENT, 2, 19,
            "a row of 5 cells", "the first line names 4; quote a cell that holds a ;");
    refused("swatch,zone,judge,grade\nHP5,red,j1,slihgt\n", NULL, SL_ERR_UNKNOWN_WORD, 2, 12, "slihgt",
            "the nearest known one is \"slight\", or a number from 0 to 5 (column grade)");
    refused("swatch,zone,judge,blind,grade\nHP5,red,j1,maybe,slight\n", NULL, SL_ERR_UNKNOWN_WORD, 2, 12,
            "maybe", "write yes or no, or leave the cell empty (column blind)");
    refused("swatch,zone,judge,level\nHP5,red,j1,11.5\n", NULL, SL_ERR_OUT_OF_RANGE, 2, 12, "11.5",
            "1 to 11 (column level)");
    refused("swatch,zone,judge,level\nHP5,red,j1,high\n", NULL, SL_ERR_BAD_NUMBER, 2, 12, "high",
            "write digits with a point, without a unit, or leave the cell empty (column level)");
    refused("swatch,zone,judge,n,grade\nHP5,red,j1,2.5,slight\n", NULL, SL_ERR_BAD_NUMBER, 2, 12, "2.5",
            "write a whole number (column n)");
    refused("id,swatch,zone,judge,grade\n7,HP5,red,j1,slight\n", NULL, SL_ERR_WRONG_TYPE, 2, 1, "7",
            "an id has 36 characters, or leave the cell empty (column id)");
    refused("swatch,zone,judge,photo,photo_sha256\nHP5,red,j1,a,b\n", NULL, SL_ERR_WRONG_TYPE, 2, 14, "b",
            "a SHA-256 has 64 hexadecimal digits (column photo_sha256)");
    refused("swatch,zone,judge,at,grade\nHP5,red,j1,noon,slight\n", NULL, SL_ERR_WRONG_TYPE, 2, 12, "noon",
            "2026-11-25T14:05:30+01:00 (ISO 8601) (column at)");
    refused("swatch,zone,judge,tone\nHP5,red,j1,0123456789012345678901234\n", NULL, SL_ERR_OUT_OF_RANGE, 2,
            12, "0123456789", "at most 24 bytes (column tone)");
    refused("swatch,zone,judge,grade\nHP5,red,j 1,slight\n", NULL, SL_ERR_WRONG_TYPE, 2, 9, "j 1",
            "(column judge)");
    refused("swatch,zone,judge,L,a,b,illuminant\nHP5,red,j1,50,1,2,D65\n", NULL, SL_ERR_INCONSISTENT, 2, 1,
            "L, a, b without illuminant and observer", "such as D65 and 10");
    refused("swatch,zone,judge,L,a\nHP5,red,j1,50,1\n", NULL, SL_ERR_INCONSISTENT, 2, 1,
            "L, a and b are not all there", "give all three or none");
    refused("swatch,zone,judge,grade\nHP5,red,j1,\n", NULL, SL_ERR_INCONSISTENT, 2, 1,
            "a reading that says nothing", "give at least a grade");
    refused("swatch,zone,judge,photo\nHP5,red,j1,a\n", NULL, SL_ERR_INCONSISTENT, 2, 1,
            "a photo and its SHA-256 belong together", "give both");
    refused("swatch,zone,judge,grade,observer\nHP5,red,j1,slight,4\n", NULL, SL_ERR_INCONSISTENT, 2, 1,
            "an observer that is not known", "write 2 or 10 (degrees)");
    log_made_end(&made);
}
END_TEST

START_SUITE("csv")
ADD(an_example_of_rfc_4180_is_read_otherwise)
ADD(a_cell_that_breaks_rfc_4180_is_read)
ADD_LOOP(a_row_across_two_blocks_is_torn, 0, 2)
ADD(a_cell_that_a_spreadsheet_would_run_goes_out)
ADD(a_bad_file_is_taken_or_what_is_wrong_not_named)
ADD(a_file_without_ids_is_taken_twice)
ADD(a_file_of_a_first_line_alone_leaves_a_mark)
ADD(a_file_is_not_known_again_by_its_name_without_folders)
ADD(rows_of_two_tests_in_one_file_go_astray)
ADD(the_last_of_many_codes_and_zones_is_not_found_near)
ADD(readings_that_went_out_come_back_otherwise)
ADD(two_logs_do_not_come_together)
ADD(rows_that_were_there_already_are_not_counted_or_those_of_the_scene_are)
ADD(an_accepted_text_comes_back_otherwise)
ADD(an_id_with_two_contents_is_merged)
ADD(an_empty_log_does_not_become_the_other)
ADD(a_number_is_read_otherwise_than_it_is_written)
ADD(a_column_that_is_none_is_not_answered_with_what_is_near)
CASE("columns, rows and files")
ADD(a_row_that_leads_nowhere_is_taken_or_told_in_another_place)
ADD(a_row_with_an_id_and_no_time_is_refused_when_it_comes_again)
ADD(a_file_of_which_some_rows_have_ids_is_taken_for_one_of_none_or_of_all)
ADD(a_file_that_comes_again_is_told_by_another_day)
ADD(a_zone_of_the_longest_name_or_a_test_among_many_is_not_found)
ADD(an_import_or_a_photo_leaves_a_file_open)
ADD(a_cell_is_told_in_another_line_or_column)
ADD(a_file_that_is_no_csv_is_told_in_another_place)
ADD(a_number_is_too_long_at_another_length_or_whole_at_another_part)
ADD(a_first_line_or_a_row_is_refused_in_another_place)
END_SUITE
