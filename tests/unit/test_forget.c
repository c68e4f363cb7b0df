/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Forgetting somebody: what goes, what stays, what nobody is told, and that the log is whole all the while.
 */
#include "log/shelf/forget.h"

#include <sqlite3.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/memory.h"
#include "log_made.h"
#include "suite.h"

static sl_log_made made;
static sl_forgotten gone;
static int told;
static char first[96], second[96]; /* photographs */

static bool tell(void *self, sl_error *error)
{
    (void)error;
    told++;
    return self == NULL;
}

static void write_file(const char *path, const char *words)
{
    FILE *const file = fopen(path, "wb");
    ck_assert_ptr_nonnull(file);
    ck_assert_int_ge(fputs(words, file), 0);
    ck_assert_int_eq(fclose(file), 0);
}

static void fresh(void)
{
    log_made_begin(&made);
    snprintf(first, sizeof first, "%s/first.jpg", made.folder);
    snprintf(second, sizeof second, "%s/second.jpg", made.folder);
    told = 0;
}

static void end(void)
{
    sl_forgotten_free(&gone);
    unlink(first);
    unlink(second);
    log_made_end(&made);
}

static void add(int swatch, const char *judge, const char *photo, const char *note, const char *replaces,
                char id[SL_UUID])
{
    sl_log_reading reading = log_made_reading(&made, swatch, "red", SL_WIPE_HALF);
    snprintf(reading.judge, sizeof reading.judge, "%s", judge);
    snprintf(reading.note, sizeof reading.note, "%s", note);
    snprintf(reading.replaces, sizeof reading.replaces, "%s", replaces);
    if (photo) {
        snprintf(reading.photo, sizeof reading.photo, "%s", strrchr(photo, '/') + 1);
        ck_assert(sl_photo_hash(photo, reading.photo_sha256, NULL));
    }
    ck_assert(sl_log_add(made.log, &reading, 1, NULL));
    if (id) {
        memcpy(id, reading.id, SL_UUID);
    }
}

static void shut(void)
{
    sl_log_close(made.log);
    made.log = NULL;
}

static void forget(const char *code)
{
    sl_error error = {.code = SL_OK};
    sl_forgotten_free(&gone);
    shut();
    ck_assert_msg(sl_log_forget(made.path, code, &gone, tell, NULL, &error), "%s; %s", error.found,
                  error.wanted);
    ck_assert(sl_log_open(&made.log, made.path, SL_LOG_READ, NULL));
}

static void asked(const char *question, const char *answer)
{
    char text[200];
    log_made_text(made.path, question, text, sizeof text);
    ck_assert_msg(strcmp(text, answer) == 0, "%s: %s, not %s", question, text, answer);
}

static bool file_holds(const char *path, const char *words)
{
    char *bytes = NULL;
    struct stat file;
    FILE *const stream = fopen(path, "rb");
    ck_assert_ptr_nonnull(stream);
    ck_assert_int_eq(stat(path, &file), 0);
    bytes = malloc((size_t)file.st_size);
    ck_assert_uint_eq(fread(bytes, 1, (size_t)file.st_size, stream), (size_t)file.st_size);
    fclose(stream);
    bool found = false;
    for (long i = 0; i + (long)strlen(words) <= file.st_size; i++) {
        found = found || memcmp(bytes + i, words, strlen(words)) == 0;
    }
    free(bytes);
    return found;
}

static void keep_sound(void *self, bool fault, const char *sentence)
{
    (void)self;
    ck_assert_msg(!fault, "%s", sentence);
}

START_TEST(a_judge_is_not_forgotten_with_readings_and_photographs_or_somebody_else_is)
{
    bool sound = false;
    fresh();
    write_file(first, "one");
    write_file(second, "two");
    add(0, "QJ7", first, "", "", NULL);
    add(1, "j2", second, "QJ7 saw more", "", NULL);
    forget("QJ7");
    ck_assert_int_eq(told, 1);
    ck_assert_int_eq(gone.readings, 1);
    ck_assert_int_eq(gone.words, 1);
    ck_assert_uint_eq(gone.n_photos, 1);
    ck_assert_int_ne(access(first, F_OK), 0);
    ck_assert_int_eq(access(second, F_OK), 0);
    ck_assert_int_eq(log_made_readings(made.log), 1);
    asked("SELECT note FROM reading", "- saw more");
    ck_assert(!file_holds(made.path, "QJ7"));
    ck_assert(sl_log_check(made.path, keep_sound, NULL, &sound, NULL) && sound);
    end();
}
END_TEST

START_TEST(a_strand_stays_when_its_person_is_forgotten)
{
    fresh();
    log_made_happens(&made, SL_EVENT_NOTED, 0, 0, "strand: person=QK8 part=nape cut=yes");
    log_made_happens(&made, SL_EVENT_NOTED, 1, 0, "strand: person=QK8");
    log_made_happens(&made, SL_EVENT_NOTED, 1, 1, "strand: person=QK9"); /* it was a mistake */
    log_made_happens(&made, SL_EVENT_NOTED, -1, 2, "QK8, QK8. QK8-b (QK8)");
    add(0, "j1", NULL, "", "", NULL);
    add(1, "j1", NULL, "", "", NULL);
    forget("QK8");
    ck_assert_int_eq(gone.swatches, 1);
    ck_assert_int_eq(gone.readings, 1);
    ck_assert_int_eq(gone.events, 2);
    asked("SELECT group_concat(note, '|') FROM event", "strand: person=QK9|-, -. QK8-b (-)");
    asked("SELECT count(*) FROM swatch", "23");
    asked("SELECT count(*) FROM test", "1");
    end();
}
END_TEST

START_TEST(a_test_of_one_persons_hair_alone_stays)
{
    fresh();
    for (int i = 0; i < made.n; i++) {
        log_made_happens(&made, SL_EVENT_NOTED, i, i, "strand: person=QK8");
    }
    log_made_happens(&made, SL_EVENT_NOTED, -1, 2, "a dry day");
    forget("QK8");
    ck_assert_int_eq(gone.tests, 1);
    asked(
        "SELECT (SELECT count(*) FROM test) + (SELECT count(*) FROM scene_file) + (SELECT count(*) FROM zone)"
        " + (SELECT count(*) FROM event)",
        "0");
    end();
}
END_TEST

/* The reading that was corrected was wrong: it must not count again. */
START_TEST(what_a_forgotten_judge_corrected_counts_again)
{
    char wrong[SL_UUID], own[SL_UUID];
    fresh();
    add(0, "j1", NULL, "", "", wrong);
    add(0, "QJ7", NULL, "", wrong, NULL);
    add(1, "QJ7", NULL, "", "", own);
    add(1, "j1", NULL, "", own, NULL);
    forget("QJ7");
    ck_assert_int_eq(gone.readings, 3);
    asked("SELECT judge || coalesce(replaces, '') FROM reading", "j1");
    end();
}
END_TEST

START_TEST(an_operator_takes_the_test_along)
{
    fresh();
    forget("op-1");
    ck_assert_int_eq(gone.tests, 0);
    asked("SELECT operator FROM test", "-");
    end();
}
END_TEST

START_TEST(a_code_that_is_not_there_changes_the_log)
{
    struct stat before, after;
    fresh();
    shut();
    ck_assert_int_eq(stat(made.path, &before), 0);
    forget("QJ7");
    ck_assert_int_eq(stat(made.path, &after), 0);
    ck_assert(before.st_ino == after.st_ino);
    ck_assert_int_eq(told, 1);
    end();
}
END_TEST

START_TEST(a_receipt_that_could_not_be_given_forgets)
{
    sl_error error = {.code = SL_OK};
    int refused = 0;
    fresh();
    write_file(first, "one");
    add(0, "QJ7", first, "", "", NULL);
    shut();
    ck_assert(!sl_log_forget(made.path, "QJ7", &gone, tell, &refused, &error));
    ck_assert_int_eq(access(first, F_OK), 0);
    asked("SELECT count(*) FROM reading", "1");
    end();
}
END_TEST

START_TEST(a_log_that_somebody_has_open_is_written_anew)
{
    sl_error error = {.code = SL_OK};
    fresh();
    add(0, "QJ7", NULL, "", "", NULL);
    ck_assert(!sl_log_forget(made.path, "QJ7", &gone, tell, NULL, &error));
    ck_assert_int_eq(error.code, SL_ERR_INCONSISTENT);
    ck_assert_int_eq(told, 0);
    ck_assert_int_eq(log_made_readings(made.log), 1);
    end();
}
END_TEST

START_TEST(somebody_is_forgotten_while_mix_lies_on_hair)
{
    sl_error error = {.code = SL_OK};
    sl_event put_on = {.kind = SL_EVENT_APPLIED, .swatch = 0};
    fresh();
    add(1, "QJ7", NULL, "", "", NULL);
    ck_assert(sl_instant_now(&put_on.at, NULL));
    ck_assert(sl_log_append(made.log, made.test, made.swatches, made.n, &put_on, NULL, NULL));
    shut();
    ck_assert(!sl_log_forget(made.path, "QJ7", &gone, tell, NULL, &error));
    ck_assert_int_eq(error.code, SL_ERR_INCONSISTENT);
    asked("SELECT count(*) FROM reading", "1");
    end();
}
END_TEST

/* Rinsed once, and the second mix is on. */
START_TEST(somebody_is_forgotten_while_a_second_application_lies_on_hair)
{
    static const int ago_s[] = {3600, 2400, 60};
    static const sl_event_kind kinds[] = {SL_EVENT_APPLIED, SL_EVENT_RINSED, SL_EVENT_APPLIED};
    sl_error error = {.code = SL_OK};
    told = 0;
    log_made_begin_text(&made, log_made_twice, NULL, 0);
    add(0, "QJ7", NULL, "", "", NULL);
    for (int i = 0; i < 3; i++) {
        sl_event event = {.kind = kinds[i], .swatch = 0};
        ck_assert(sl_instant_now(&event.at, NULL));
        event.at.boot_ns -= ago_s[i] * INT64_C(1000000000);
        event.at.wall_ns -= ago_s[i] * INT64_C(1000000000);
        ck_assert(sl_log_append(made.log, made.test, made.swatches, made.n, &event, NULL, NULL));
    }
    shut();
    ck_assert(!sl_log_forget(made.path, "QJ7", &gone, tell, NULL, &error));
    ck_assert_int_eq(error.code, SL_ERR_INCONSISTENT);
    end();
}
END_TEST

START_TEST(a_copy_or_a_file_with_the_code_is_not_named_or_the_code_is)
{
    char other[96], apart[96];
    fresh();
    snprintf(other, sizeof other, "%s/seen by QJ7.txt", made.folder);
    snprintf(apart, sizeof apart, "%s/QJ70.txt", made.folder);
    add(0, "QJ7", NULL, "", "", NULL);
    log_made_copy(&made);
    log_made_write(&made, "judge\nQJ7\n", 10);
    write_file(other, "nothing");
    write_file(apart, "QJ70 and QJ7-b");
    forget("QJ7");
    ck_assert_uint_eq(gone.n_elsewhere, 3);
    ck_assert_str_eq(gone.elsewhere[0], "seen by \xe2\x80\xa6.txt");
    ck_assert_str_eq(gone.elsewhere[1], "some.csv");
    ck_assert_str_eq(gone.elsewhere[2], "two.db");
    unlink(other);
    unlink(apart);
    end();
}
END_TEST

START_TEST(a_photograph_that_was_changed_or_lies_elsewhere_is_removed)
{
    char outside[] = "/tmp/slowlift-photo-XXXXXX";
    fresh();
    const int file = mkstemp(outside);
    ck_assert_int_ge(file, 0);
    close(file);
    write_file(first, "one");
    add(0, "QJ7", first, "", "", NULL);
    sl_log_reading reading = log_made_reading(&made, 1, "red", SL_WIPE_HALF);
    snprintf(reading.judge, sizeof reading.judge, "QJ7");
    snprintf(reading.photo, sizeof reading.photo, "..%s", strrchr(outside, '/'));
    ck_assert(sl_photo_hash(outside, reading.photo_sha256, NULL));
    ck_assert(sl_log_add(made.log, &reading, 1, NULL));
    write_file(first, "another");
    forget("QJ7");
    ck_assert_int_eq(gone.photographs_left, 2);
    ck_assert_int_eq(access(first, F_OK), 0);
    ck_assert_int_eq(access(outside, F_OK), 0);
    unlink(outside);
    end();
}
END_TEST

START_TEST(a_writer_that_waited_writes_into_the_old_log)
{
    sl_error error = {.code = SL_OK};
    sqlite3 *waiting = NULL;
    fresh();
    add(0, "QJ7", NULL, "", "", NULL);
    shut();
    ck_assert_int_eq(sqlite3_open(made.path, &waiting),
                     SQLITE_OK); /* it has the old file open, and no lock */
    ck_assert(sl_log_forget(made.path, "QJ7", &gone, tell, NULL, &error));
    ck_assert_int_ne(sqlite3_exec(waiting,
                                  "PRAGMA journal_mode = WAL; BEGIN IMMEDIATE; INSERT INTO import VALUES"
                                  " (1, hex(randomblob(18)), hex(randomblob(32)), 'x', 'y', 1); COMMIT",
                                  NULL, NULL, NULL),
                     SQLITE_OK);
    sqlite3_close(waiting);
    ck_assert(sl_log_open(&made.log, made.path, SL_LOG_WRITE, NULL));
    asked("SELECT count(*) FROM import", "0");
    end();
}
END_TEST

START_SUITE("forget")
ADD(a_judge_is_not_forgotten_with_readings_and_photographs_or_somebody_else_is)
ADD(a_strand_stays_when_its_person_is_forgotten)
ADD(a_test_of_one_persons_hair_alone_stays)
ADD(what_a_forgotten_judge_corrected_counts_again)
ADD(an_operator_takes_the_test_along)
ADD(a_code_that_is_not_there_changes_the_log)
ADD(a_receipt_that_could_not_be_given_forgets)
ADD(a_log_that_somebody_has_open_is_written_anew)
ADD(somebody_is_forgotten_while_mix_lies_on_hair)
ADD(somebody_is_forgotten_while_a_second_application_lies_on_hair)
ADD(a_copy_or_a_file_with_the_code_is_not_named_or_the_code_is)
ADD(a_photograph_that_was_changed_or_lies_elsewhere_is_removed)
ADD(a_writer_that_waited_writes_into_the_old_log)
END_SUITE
