/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What looking over a log says, of a log into which somebody wrote what slowlift never writes: the triggers
 * are taken off, a row is changed, and they are put back as they were, so that the tables are as they should
 * be.
 */
#include <check.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "log/store/rescue.h"
#include "log/store/sql.h"
#include "log_made.h"
#include "suite.h"

enum { MOST = 32, SENTENCE = 400 };

static sl_log_made made;
static struct {
    char said[MOST][SENTENCE];
    bool fault[MOST];
    int n;
    bool sound;
} told;

static void set_up(void)
{
    log_made_begin_closed(&made);
}

static void tear_down(void)
{
    log_made_end(&made);
}

static void hear(void *self, bool fault, const char *sentence)
{
    (void)self;
    ck_assert_int_lt(told.n, MOST);
    told.fault[told.n] = fault;
    snprintf(told.said[told.n++], SENTENCE, "%s", sentence);
}

static void look_over(void)
{
    sl_error error = {.code = SL_OK};
    told.n = 0;
    ck_assert_msg(sl_log_check(made.path, hear, NULL, &told.sound, &error), "%s", error.found);
}

/* Whether a sentence begins so, and is a fault or not. */
static bool says(bool fault, const char *beginning)
{
    for (int i = 0; i < told.n; i++) {
        if (strncmp(told.said[i], beginning, strlen(beginning)) == 0) {
            ck_assert_msg(told.fault[i] == fault, "%s", told.said[i]);
            return true;
        }
    }
    return false;
}

START_TEST(a_sound_log_has_no_fault)
{
    look_over();
    ck_assert(told.sound);
    ck_assert_int_eq(told.n, 9);
    ck_assert(says(false, "Tables: as slowlift makes them, version "));
    ck_assert(says(false, "Pages: every one is as it should be."));
    ck_assert(says(false, "References: every one leads to a row."));
    char rows[SENTENCE];
    snprintf(rows, sizeof rows, "swatch %d, event 2, reading 3, import 0.", made.n);
    ck_assert(says(false, "Rows: test 1, scene_file "));
    for (int i = 0; i < told.n; i++) {
        ck_assert(strncmp(told.said[i], "Rows: ", 6) != 0 || strstr(told.said[i], rows));
    }
    ck_assert(says(false, "Values: all are such as slowlift keeps."));
    ck_assert(says(false, "Zones: every reading is of a zone of its scene."));
    ck_assert(says(false, "Corrections: each comes after what it corrects."));
    ck_assert(says(false, "Times: none goes back."));
    ck_assert(says(false, "Scenes: every file is as it was kept."));
}
END_TEST

START_TEST(each_thing_that_is_wrong_is_told_as_what_it_is)
{
    static const struct {
        const char *text; /* what somebody writes */
        bool fault;
        const char *says;
    } wrong[] = {
        {"UPDATE reading SET zone = 'nowhere' WHERE kept <= 2", true,
         "Zones: 2 readings are of a zone that their scene lacks."},
        {"UPDATE reading SET replaces = (SELECT id FROM reading WHERE kept = 3) WHERE kept = 1", true,
         "Corrections: 1 correct a reading that came later, or of another swatch."},
        {"UPDATE reading SET replaces = (SELECT id FROM reading WHERE kept = 1) WHERE kept = 3", true,
         "Corrections: 1 correct a reading that came later, or of another swatch."}, /* of another swatch */
        {"UPDATE event SET wall_ns = wall_ns - 3600000000000 WHERE kind = 'applied'", false,
         "Times: 1 events are earlier than the one before"},
        {"UPDATE event SET boot_ns = boot_ns - 3600000000000 WHERE kind = 'applied'", false,
         "Times: 1 events are earlier than the one before"},
        {"UPDATE scene_file SET text = text || '# more' WHERE place = 0", true,
         "Scenes: 1 has files that are not as they were kept."},
        {"UPDATE reading SET swatch = '00000000-0000-4000-8000-000000000000' WHERE kept = 2", true,
         "References: 1 rows refer to one that is not there."}};
    for (size_t i = 0; i < sizeof wrong / sizeof wrong[0]; i++) {
        log_made_change(made.path, wrong[i].text);
        look_over();
        ck_assert_msg(says(wrong[i].fault, wrong[i].says), "%s", wrong[i].text);
        ck_assert_msg(told.sound == !wrong[i].fault, "%s", wrong[i].text);
        ck_assert(says(false, "Tables: as slowlift makes them, version "));
        tear_down();
        set_up();
    }
}
END_TEST

/* A boot of another name has a clock of its own. */
START_TEST(a_clock_that_began_anew_does_not_go_back)
{
    log_made_change(made.path, "UPDATE event SET boot_ns = 0, boot_id = 'two' WHERE kind = 'applied';"
                               "UPDATE event SET boot_ns = 5 WHERE kind = 'started'");
    look_over();
    ck_assert(says(false, "Times: none goes back."));
}
END_TEST

/* Of many faults of the pages a few are told, and how many there are: values that their column does not
 * allow are such to SQLite. */
START_TEST(of_many_faults_some_are_told_and_all_are_counted)
{
    for (int n = 5; n <= 6; n++) {
        char text[96];
        snprintf(text, sizeof text, "UPDATE swatch SET dwell_s = -1 WHERE rowid <= %d", n);
        log_made_change(made.path, text);
        look_over();
        ck_assert(!told.sound);
        int pages = 0;
        for (int i = 0; i < told.n; i++) {
            pages += strncmp(told.said[i], "Pages: CHECK", 12) == 0 ? 1 : 0;
        }
        ck_assert_int_eq(pages, 5);
        ck_assert(says(true, "Pages: 6 faults in all, or more.") == (n > 5));
        ck_assert(!says(false, "Pages: every one is as it should be."));
    }
}
END_TEST

START_TEST(tables_that_are_not_ours_are_told)
{
    log_made_change(made.path, "CREATE VIEW more AS SELECT 1");
    look_over();
    ck_assert(!told.sound);
    ck_assert(says(true, "Tables, version "));
}
END_TEST

/* Word for word, but for the number of files of the scene. */
START_TEST(a_sentence_of_a_sound_log_is_another_or_comes_in_another_order)
{
    static const char *const beginnings[] = {"Tables: as slowlift makes them, version 6.",
                                             "Pages: every one is as it should be.",
                                             "References: every one leads to a row.",
                                             "Rows: test 1, scene_file ",
                                             "Values: all are such as slowlift keeps.",
                                             "Zones: every reading is of a zone of its scene.",
                                             "Corrections: each comes after what it corrects.",
                                             "Times: none goes back.",
                                             "Scenes: every file is as it was kept."};
    look_over();
    ck_assert_int_eq(told.n, 9);
    for (int i = 0; i < 9; i++) {
        ck_assert(!told.fault[i]);
        ck_assert_msg(i == 3 ? strncmp(told.said[i], beginnings[i], strlen(beginnings[i])) == 0
                             : strcmp(told.said[i], beginnings[i]) == 0,
                      "%s", told.said[i]);
    }
    char rows[SENTENCE];
    int files = 0, zones = 0;
    ck_assert_int_eq(sscanf(told.said[3], "Rows: test 1, scene_file %d, zone %d,", &files, &zones), 2);
    snprintf(rows, sizeof rows,
             "Rows: test 1, scene_file %d, zone %d, swatch %d, event 2, reading 3, import 0.", files, zones,
             made.n);
    ck_assert_str_eq(told.said[3], rows);
    ck_assert_int_eq(zones, 9); /* of the scene's file */
}
END_TEST

START_TEST(what_is_strange_of_the_tables_is_told_with_another_name_or_version)
{
    static const struct {
        const char *text, *says;
    } cases[] = {
        {"CREATE VIEW more AS SELECT 1", "Tables, version 6: it holds \"view more\" besides its own."},
        {"DROP INDEX import_of_file", "Tables, version 6: it lacks \"index import_of_file\"."},
        {"DROP TRIGGER zone_stays", "Tables, version 6: it lacks \"trigger zone_stays\"."},
        {"CREATE TABLE a_name_of_more_than_forty_letters_is_cut_off_here (x)",
         "Tables, version 6: it holds \"table a_name_of_more_than_forty_letters_is_cut\" besides its own."},
        {"CREATE TABLE \"a b.c\xC3\xA9\" (x)",
         "Tables, version 6: it holds \"table a b_c__\" besides its own."}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        log_made_change(made.path, cases[i].text);
        look_over();
        ck_assert_str_eq(told.said[0], cases[i].says);
        ck_assert(told.fault[0] && !told.sound);
        ck_assert_int_eq(told.n, 9); /* all else is looked at too */
        tear_down();
        set_up();
    }
}
END_TEST

/* More than one of each, in numbers. */
START_TEST(a_number_of_what_is_wrong_is_another)
{
    log_made_change(made.path,
                    "UPDATE reading SET replaces = (SELECT id FROM reading WHERE kept = 3) WHERE kept <= 2;"
                    "UPDATE reading SET zone = 'nowhere' WHERE kept = 3");
    look_over();
    ck_assert(says(true, "Corrections: 2 correct a reading that came later, or of another swatch."));
    ck_assert(says(true, "Zones: 1 readings are of a zone that their scene lacks."));
    tear_down();
    set_up();
    log_made_change(made.path, "UPDATE reading SET swatch = '00000000-0000-4000-8000-000000000000'");
    look_over();
    ck_assert(says(true, "References: 3 rows refer to one that is not there."));
    tear_down();
    set_up();
    log_made_change(made.path, "UPDATE reading SET replaces = id WHERE kept = 2"); /* itself */
    look_over();
    ck_assert(says(true, "Corrections: 1 correct a reading that came later, or of another swatch."));
    tear_down();
    set_up();
    log_made_change(made.path, "UPDATE reading SET grade = 'odd' WHERE kept = 2");
    look_over();
    ck_assert(!told.sound && says(true, "Pages: CHECK constraint failed in reading."));
    for (int i = 0; i < told.n; i++) {
        ck_assert_msg(strncmp(told.said[i], "Values: all", 11) != 0, "%s", told.said[i]);
    }
}
END_TEST

START_TEST(a_file_that_is_no_log_is_looked_over)
{
    sl_error error = {.code = SL_OK};
    bool sound = true;
    told.n = 0;
    log_made_write(&made, "no log", 6);
    ck_assert(!sl_log_check(made.csv, hear, NULL, &sound, &error));
    ck_assert_int_eq(error.code, SL_ERR_NO_LOG);
    ck_assert(!sl_log_check(made.other, hear, NULL, &sound, &error));
    ck_assert_int_eq(error.code, SL_ERR_CANNOT_READ);
    ck_assert_int_eq(told.n, 0);
    ck_assert_int_ne(access(made.other, F_OK), 0); /* and none is made */
}
END_TEST

/* ---- how large what comes from a file may be --------------------------------------------------------------
 */

/* `n` times `piece`, by `between`. */
static char *many(const char *begin, const char *piece, const char *between, int n, const char *end)
{
    const size_t room = strlen(begin) + (strlen(piece) + strlen(between)) * (size_t)n + strlen(end) + 1;
    char *const text = malloc(room);
    ck_assert_ptr_nonnull(text);
    size_t used = (size_t)snprintf(text, room, "%s", begin);
    for (int i = 0; i < n; i++) {
        used += (size_t)snprintf(text + used, room - used, "%s%s", i > 0 ? between : "", piece);
    }
    snprintf(text + used, room - used, "%s", end);
    return text;
}

static bool runs(char *text)
{
    sl_statement ask = sl_sql(made.log, text, NULL);
    const bool row = sl_next_row(&ask);
    free(text);
    return sl_sql_leave(&ask) && row;
}

/* docs/log.md: sizes are limited. What these are asked for is far below; a file's own views, checks and
 * indices meet them too. */
START_TEST(a_statement_runs_past_the_size_that_a_log_needs)
{
    ck_assert(sl_log_open(&made.log, made.path, SL_LOG_READ, NULL));
    for (int more = 0; more < 2; more++) {
        const bool fits = more == 0;
        ck_assert_int_eq(runs(many("SELECT ", "1", ",", 100 + more, "")), fits);
        ck_assert_int_eq(runs(many("SELECT ", "1", "+", 200 + more, "")), fits);
        ck_assert_int_eq(runs(many("", "SELECT 1", " UNION ALL ", 20 + more, "")), fits);
        ck_assert_int_eq(runs(many("SELECT max(", "1", ",", 20 + more, ")")), fits);
        ck_assert_int_eq(runs(many("SELECT 'a' NOT LIKE '", "a", "", 200 + more, "'")), fits);
        ck_assert_int_eq(runs(many("SELECT 1", " ", "", 100000 - 8 + more, "")), fits);
        ck_assert_int_eq(runs(many("SELECT ?10", more ? "1" : "0", "", 1, "")), fits);
        ck_assert_int_eq(runs(many("SELECT length(zeroblob(419430", more ? "5" : "4", "", 1, "))")),
                         fits); /* 4 MiB */
    }
}
END_TEST

/* What a file may bring is not run: no trigger, no view, nothing from elsewhere. */
START_TEST(a_log_runs_what_its_file_brings)
{
    log_made_change(made.path, "CREATE VIEW more AS SELECT 1;"
                               "CREATE TRIGGER copies AFTER INSERT ON import BEGIN"
                               " INSERT INTO scene_file (test, place, kind, name, text)"
                               " SELECT id, 99, 'scene', 'x', 'y' FROM test; END");
    ck_assert(sl_log_open_raw(&made.log, made.path, NULL));
    ck_assert(!runs(many("SELECT * FROM more", "", "", 0, "")));
    ck_assert(!runs(many("SELECT load_extension('none')", "", "", 0, "")));
    ck_assert(runs(many("SELECT 1 FROM pragma_foreign_keys WHERE foreign_keys = 1", "", "", 0, "")));
    ck_assert(runs(many("SELECT 1 FROM pragma_trusted_schema WHERE trusted_schema = 0", "", "", 0, "")));
    ck_assert(runs(many("SELECT 1 FROM pragma_cell_size_check WHERE cell_size_check = 1", "", "", 0, "")));
    sl_sql_run(made.log, "PRAGMA writable_schema = ON", NULL);
    ck_assert(!sl_sql_run(made.log, "UPDATE sqlite_schema SET sql = sql WHERE name = 'more'", NULL));
}
END_TEST

START_SUITE("looking over a log")
FIXTURE(set_up, tear_down)
ADD(a_sound_log_has_no_fault)
ADD(each_thing_that_is_wrong_is_told_as_what_it_is)
ADD(a_clock_that_began_anew_does_not_go_back)
ADD(of_many_faults_some_are_told_and_all_are_counted)
ADD(tables_that_are_not_ours_are_told)
ADD(a_sentence_of_a_sound_log_is_another_or_comes_in_another_order)
ADD(what_is_strange_of_the_tables_is_told_with_another_name_or_version)
ADD(a_number_of_what_is_wrong_is_another)
ADD(a_file_that_is_no_log_is_looked_over)
ADD(a_statement_runs_past_the_size_that_a_log_needs)
ADD(a_log_runs_what_its_file_brings)
END_SUITE
