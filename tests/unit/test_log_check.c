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
    log_made_begin(&made);
    sl_log_reading readings[3];
    for (int i = 0; i < 3; i++) {
        readings[i] = log_made_reading(&made, i, "red", SL_WIPE_HALF);
    }
    ck_assert(sl_log_add(made.log, readings, 3, NULL));
    log_made_happens(&made, SL_EVENT_STARTED, -1, 0, NULL);
    log_made_happens(&made, SL_EVENT_APPLIED, 0, 60, NULL);
    sl_log_close(made.log);
    made.log = NULL;
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
         "Scenes: 1 have files that are not as they were kept."},
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

START_SUITE("looking over a log")
FIXTURE(set_up, tear_down)
ADD(a_sound_log_has_no_fault)
ADD(each_thing_that_is_wrong_is_told_as_what_it_is)
ADD(a_clock_that_began_anew_does_not_go_back)
ADD(of_many_faults_some_are_told_and_all_are_counted)
ADD(tables_that_are_not_ours_are_told)
END_SUITE
