/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A log where the system says no: each thing that SQLite can say, a copy that cannot be written or does not
 * read back, a disk of another machine, a day whose log is gone. The linker sends those calls through here.
 */
#include <errno.h>
#include <fcntl.h>
#include <pthread.h>
#include <signal.h>
#include <sqlite3.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/vfs.h>
#include <time.h>
#include <unistd.h>

#include "base/hold.h"
#include "base/memory.h"
#include "failing_calls.h"
#include "log/day/day_keeper.h"
#include "log/store/sql.h"
#include "log_made.h"
#include "slowlift/compare.h"
#include "suite.h"

/* ---- calls that fail --------------------------------------------------------------------------------- */

enum {
    STEP = NO_CALL + 1,
    OPEN_LOG,
    OPEN_MEMORY,
    BACKUP_INIT,
    BACKUP_STEP,
    BACKUP_FINISH,
    OPEN,
    FSYNC,
    RENAME,
    LINK,
    ACCESS,
    STATFS,
    THREAD,
    CLOCK,
    SWITCH
};
/* What is not of the system: fault.with is SQLite's code there, or the type of a file system. */
static struct {
    bool told;           /* SQLite's last code was made up */
    const char *holds;   /* STEP: of statements that hold this alone */
    const char *changes; /* what is done to a copy before it is read back */
    sqlite3 *copy;
} faked;

static void right_again(void)
{
    disarm();
    faked.told = false;
    faked.changes = NULL;
    faked.holds = NULL;
}

WRAPPED(int, sqlite3_open, (const char *path, sqlite3 **base), (path, base), OPEN_MEMORY, SQLITE_NOMEM)
WRAPPED(int, sqlite3_backup_step, (sqlite3_backup * copy, int n), (copy, n), BACKUP_STEP, SQLITE_FULL)
WRAPPED(int, fsync, (int file), (file), FSYNC, -1)
WRAPPED(int, rename, (const char *from, const char *to), (from, to), RENAME, -1)
WRAPPED(int, link, (const char *from, const char *to), (from, to), LINK, -1)
WRAPPED(int, access, (const char *path, int how), (path, how), ACCESS, -1)
WRAPPED(int, clock_gettime, (clockid_t clock, struct timespec *at), (clock, at), CLOCK, -1)
WRAPPED(int, pthread_create,
        (pthread_t * thread, const pthread_attr_t *how, void *(*start)(void *), void *with),
        (thread, how, start, with), THREAD, EAGAIN)

int __real_sqlite3_db_config(sqlite3 *base, int what, ...);
int __wrap_sqlite3_db_config(sqlite3 *base, int what, ...);
int __real_open(const char *path, int flags, ...);
int __wrap_open(const char *path, int flags, ...);
int __real_statfs(const char *path, struct statfs *on);
int __wrap_statfs(const char *path, struct statfs *on);
int __real_sqlite3_step(sqlite3_stmt *statement);
int __wrap_sqlite3_step(sqlite3_stmt *statement);
int __real_sqlite3_errcode(sqlite3 *base);
int __wrap_sqlite3_errcode(sqlite3 *base);
int __real_sqlite3_open_v2(const char *path, sqlite3 **base, int flags, const char *vfs);
int __wrap_sqlite3_open_v2(const char *path, sqlite3 **base, int flags, const char *vfs);
sqlite3_backup *__real_sqlite3_backup_init(sqlite3 *into, const char *to, sqlite3 *from, const char *of);
sqlite3_backup *__wrap_sqlite3_backup_init(sqlite3 *into, const char *to, sqlite3 *from, const char *of);
int __real_sqlite3_backup_finish(sqlite3_backup *copy);
int __wrap_sqlite3_backup_finish(sqlite3_backup *copy);

int __wrap_open(const char *path, int flags, ...)
{
    va_list rest;
    va_start(rest, flags);
    const mode_t mode = (flags & O_CREAT) != 0 ? va_arg(rest, mode_t) : 0;
    va_end(rest);
    return fails(OPEN) ? -1 : __real_open(path, flags, mode);
}

/* All that are thrown here take a number and a pointer. */
int __wrap_sqlite3_db_config(sqlite3 *base, int what, ...)
{
    va_list rest;
    va_start(rest, what);
    const int value = va_arg(rest, int);
    int *const now = va_arg(rest, int *);
    va_end(rest);
    return fails(SWITCH) ? SQLITE_ERROR : __real_sqlite3_db_config(base, what, value, now);
}

int __wrap_statfs(const char *path, struct statfs *on)
{
    const int done = __real_statfs(path, on);
    if (fails(STATFS)) {
        on->f_type = fault.with;
        return fault.with == 0 ? -1 : done;
    }
    return done;
}

/* Only of rows that are put in or asked for, so that a change can be begun and undone. */
int __wrap_sqlite3_step(sqlite3_stmt *statement)
{
    const char *const text = sqlite3_sql(statement);
    const bool one = faked.holds ? strstr(text, faked.holds) != NULL
                                 : strncmp(text, "INSERT INTO reading", 19) == 0 ||
                                       strncmp(text, "SELECT test.id", 14) == 0;
    faked.told = one && fails(STEP);
    return faked.told ? fault.with : __real_sqlite3_step(statement);
}

int __wrap_sqlite3_errcode(sqlite3 *base)
{
    return faked.told ? fault.with : __real_sqlite3_errcode(base);
}

int __wrap_sqlite3_open_v2(const char *path, sqlite3 **base, int flags, const char *vfs)
{
    const int done = __real_sqlite3_open_v2(path, base, flags, vfs);
    faked.told = fails(OPEN_LOG);
    return faked.told ? fault.with : done;
}

sqlite3_backup *__wrap_sqlite3_backup_init(sqlite3 *into, const char *to, sqlite3 *from, const char *of)
{
    faked.copy = into;
    faked.told = fails(BACKUP_INIT);
    return faked.told ? NULL : __real_sqlite3_backup_init(into, to, from, of);
}

int __wrap_sqlite3_backup_finish(sqlite3_backup *copy)
{
    const int done = __real_sqlite3_backup_finish(copy);
    if (faked.changes) {
        ck_assert_int_eq(sqlite3_exec(faked.copy, faked.changes, NULL, NULL, NULL), SQLITE_OK);
    }
    faked.told = fails(BACKUP_FINISH);
    return faked.told ? fault.with : done;
}

/* ---- a log ----------------------------------------------------------------------------------------------
 */

static sl_log_made made;
static char spare[160];

static void set_up(void)
{
    log_made_begin(&made);
    snprintf(spare, sizeof spare, "%s/spare.db", made.folder);
    sl_log_reading reading = log_made_reading(&made, 0, "red", SL_WIPE_HALF);
    reading.minute = 5.0;
    snprintf(reading.note, sizeof reading.note, "one");
    ck_assert(sl_log_add(made.log, &reading, 1, NULL));
}

static void tear_down(void)
{
    right_again();
    unlink(spare);
    log_made_end(&made);
}

static int readings_there(void)
{
    sl_log_test test;
    ck_assert(sl_log_find(made.log, NULL, &test, NULL));
    return test.n_readings;
}

static const struct {
    int sqlite;
    sl_code writing, reading;
    const char *said; /* in what was found or wanted, when writing */
} rows[] = {{SQLITE_FULL, SL_ERR_CANNOT_WRITE, SL_ERR_CANNOT_READ, "the disk is full"},
            {SQLITE_BUSY, SL_ERR_CANNOT_WRITE, SL_ERR_CANNOT_READ, "another program keeps it busy"},
            {SQLITE_READONLY, SL_ERR_CANNOT_WRITE, SL_ERR_CANNOT_READ, "it may only be read"},
            {SQLITE_PERM, SL_ERR_CANNOT_WRITE, SL_ERR_CANNOT_READ, "it may only be read"},
            {SQLITE_CANTOPEN, SL_ERR_CANNOT_READ, SL_ERR_CANNOT_READ, "could not be opened"},
            {SQLITE_NOTADB, SL_ERR_NO_LOG, SL_ERR_NO_LOG, "no SQLite file"},
            {SQLITE_TOOBIG, SL_ERR_DAMAGED, SL_ERR_DAMAGED, "a value larger than any"},
            {SQLITE_INTERRUPT, SL_ERR_DAMAGED, SL_ERR_DAMAGED, "its rows have no end"},
            {SQLITE_LOCKED, SL_ERR_CANNOT_WRITE, SL_ERR_CANNOT_READ, ""}};
enum { ROWS = (int)(sizeof rows / sizeof rows[0]) };

START_TEST(what_sqlite_says_is_told_in_our_words)
{
    sl_error error = {.code = SL_OK};
    sl_log_reading reading = log_made_reading(&made, 0, "red", SL_WIPE_HALF);
    arm(STEP, 1, rows[_i].sqlite);
    ck_assert(!sl_log_add(made.log, &reading, 1, &error));
    right_again();
    ck_assert_int_eq(error.code, rows[_i].writing);
    ck_assert_msg(strstr(error.wanted, rows[_i].said) || strstr(error.found, rows[_i].said), "%s, %s",
                  error.found, error.wanted);
    ck_assert_int_eq(readings_there(), 1);
    sl_log *log = NULL;
    sl_log_test test;
    ck_assert(sl_log_open(&log, made.path, SL_LOG_READ, NULL));
    error = (sl_error){.code = SL_OK};
    arm(STEP, 1, rows[_i].sqlite);
    if (!sl_log_find(log, NULL, &test, &error)) { /* damage is gone round by a copy */
        ck_assert_int_eq(error.code, rows[_i].reading);
    }
    right_again();
    sl_log_close(log);
}
END_TEST

START_TEST(what_was_broken_off_by_ctrl_c_is_no_damage)
{
    sl_error error = {.code = SL_OK};
    sl_log_reading reading = log_made_reading(&made, 0, "red", SL_WIPE_HALF);
    sl_signals_hold();
    raise(SIGTERM);
    arm(STEP, 1, SQLITE_INTERRUPT);
    ck_assert(!sl_log_add(made.log, &reading, 1, &error));
    right_again();
    signal(SIGTERM, SIG_IGN); /* it is gone */
    sl_signals_release();
    ck_assert_int_eq(error.code, SL_ERR_CANNOT_WRITE);
    ck_assert_str_eq(error.wanted, "it was broken off");
}
END_TEST

START_TEST(a_log_that_sqlite_cannot_open_is_refused)
{
    sl_log *log = NULL;
    sl_error error = {.code = SL_OK};
    arm(OPEN_LOG, 1, SQLITE_CANTOPEN);
    ck_assert(!sl_log_open(&log, made.path, SL_LOG_WRITE, &error));
    right_again();
    ck_assert_int_eq(error.code, SL_ERR_CANNOT_READ);
    arm(OPEN_MEMORY, 1, 0); /* what it is compared with */
    ck_assert(!sl_log_open(&log, made.path, SL_LOG_WRITE, &error));
    right_again();
    ck_assert_ptr_null(log);
    ck_assert(sl_log_open(&log, made.path, SL_LOG_WRITE, NULL));
    sl_log_close(log);
}
END_TEST

/* Types of file systems as linux/magic.h has them. */
START_TEST(a_folder_of_another_machine_is_refused_and_an_unknown_one_is_tried)
{
    static const int remote[] = {0x6969 /* NFS */, 0x65735546 /* FUSE */, 0x00c36400 /* Ceph */};
    sl_log *log = NULL;
    sl_error error = {.code = SL_OK};
    for (int i = 0; i < 3; i++) {
        arm(STATFS, 1, remote[i]);
        ck_assert(!sl_log_open(&log, made.path, SL_LOG_READ, &error));
        right_again();
        ck_assert_int_eq(error.code, SL_ERR_NOT_ALLOWED);
    }
    for (int i = 0; i < 2; i++) {
        arm(STATFS, 1, i == 0 ? 0 : 0xEF53 /* ext4 */);
        ck_assert(sl_log_open(&log, made.path, SL_LOG_READ, NULL));
        right_again();
        sl_log_close(log);
        log = NULL;
    }
    char *const endless = malloc(6000);
    ck_assert_ptr_nonnull(endless);
    memset(endless, 'a', 5999);
    endless[5999] = '\0';
    ck_assert(!sl_log_open(&log, endless, SL_LOG_READ, &error));
    ck_assert_str_eq(error.found, "its path is too long");
    free(endless);
}
END_TEST

START_TEST(where_nothing_may_be_written_a_log_is_still_read_and_not_written_to)
{
    char odd[200];
    long long n = 0;
    sl_log *log = NULL;
    sl_error error = {.code = SL_OK};
    snprintf(odd, sizeof odd, "%s/50%% a?b#c.db", made.folder); /* signs that mean something in an address */
    ck_assert(sl_log_backup(made.path, odd, &n, NULL));
    arm(ACCESS, 0, EROFS);
    ck_assert(!sl_log_open(&log, odd, SL_LOG_WRITE, &error));
    ck_assert_int_eq(error.code, SL_ERR_CANNOT_WRITE);
    ck_assert_str_eq(error.wanted, strerror(EROFS));
    ck_assert(sl_log_open(&log, odd, SL_LOG_READ, NULL));
    right_again();
    sl_log_test test;
    ck_assert(sl_log_find(log, NULL, &test, NULL));
    ck_assert_int_eq(test.n_readings, 1);
    sl_log_close(log);
    unlink(odd);
}
END_TEST

/* The folder, or the file alone, is what may not be written. */
START_TEST(what_may_not_be_written_is_found_before_sqlite_stumbles_over_it)
{
    sl_log *log = NULL;
    sl_log_test test;
    sl_error error = {.code = SL_OK};
    for (int at = 1; at <= 2; at++) {
        arm(ACCESS, at, EACCES);
        ck_assert(!sl_log_open(&log, made.path, SL_LOG_WRITE, &error));
        right_again();
        ck_assert_int_eq(error.code, SL_ERR_CANNOT_WRITE);
        ck_assert_str_eq(error.wanted, strerror(EACCES));
    }
    arm(ACCESS, 2, EACCES); /* the file, when it is to be read and its folder may be written */
    ck_assert(sl_log_open(&log, made.path, SL_LOG_READ, NULL));
    right_again();
    ck_assert(sl_log_find(log, NULL, &test, NULL));
    ck_assert_int_eq(test.n_readings, 1);
    ck_assert_int_eq(sqlite3_db_readonly(log->base, "main"), 1);
    sl_log_close(log);
}
END_TEST

/* Where nothing may be written beside it a log that lies still is read as it is; one that is in use has its
 * last rows in the file beside it. */
START_TEST(the_last_rows_of_a_log_in_use_are_read_where_nothing_may_be_written)
{
    char beside[200];
    struct stat file;
    sl_log *log = NULL;
    sl_log_test test;
    snprintf(beside, sizeof beside, "%s-wal", made.path);
    ck_assert(stat(beside, &file) == 0 && file.st_size > 0); /* the reading is in there */
    arm(ACCESS, 1, EROFS);
    ck_assert(sl_log_open(&log, made.path, SL_LOG_READ, NULL));
    right_again();
    ck_assert(sl_log_find(log, NULL, &test, NULL));
    ck_assert_int_eq(test.n_readings, 1);
    sl_log_close(log);
}
END_TEST

/* Whichever of them: nothing of a file is trusted, or the file is not opened. */
START_TEST(an_sqlite_that_cannot_be_told_to_trust_no_file_is_not_used)
{
    sl_log *log = NULL;
    int at = 1;
    for (bool failed = true; failed; at++) {
        sl_error error = {.code = SL_OK};
        arm(SWITCH, at, 0);
        failed = !sl_log_open(&log, made.path, SL_LOG_READ, &error);
        right_again();
        ck_assert_int_eq(error.code, failed ? SL_ERR_MISSING_PART : SL_OK);
    }
    ck_assert_int_eq(at, 9); /* seven switches, and one that does not come */
    sl_log_close(log);
}
END_TEST

/* What is no fault of the file is told, and not gone round by a copy of what could be read. */
START_TEST(a_log_that_another_program_keeps_busy_is_not_read_from_a_copy)
{
    static const char *const holds[] = {"quick_check", "foreign_key_check", "kept, id, test, swatch, kind"};
    for (int i = 0; i < 3; i++) {
        sl_log *log = NULL;
        sl_error error = {.code = SL_OK};
        faked.holds = holds[i];
        arm(STEP, 1, SQLITE_BUSY);
        const bool good = sl_log_open(&log, made.path, SL_LOG_READ, &error);
        right_again();
        ck_assert_msg(!good, "%s", holds[i]);
        ck_assert_int_eq(error.code, SL_ERR_CANNOT_READ);
        ck_assert_str_eq(error.found, "another program keeps it busy; try again");
        faked.holds = holds[i];
        arm(STEP, 1, SQLITE_CORRUPT);
        const bool copied = sl_log_open(&log, made.path, SL_LOG_READ, NULL);
        right_again();
        ck_assert_msg(copied && log->copied, "%s", holds[i]);
        ck_assert(sl_log_whole(log, NULL));
        sl_log_close(log);
    }
}
END_TEST

/* The copy that a strange log is read from is SQLite's own, and may fail as well. */
START_TEST(a_strange_log_of_which_no_copy_can_be_made_is_told_as_such)
{
    sl_log *log = NULL;
    sl_error error = {.code = SL_OK};
    log_made_change(made.path, "CREATE VIEW more AS SELECT 1");
    for (int again = 0; again < 2; again++) {
        const sqlite3_int64 used = sqlite3_memory_used();
        error = (sl_error){.code = SL_OK};
        arm(OPEN_LOG, 2, SQLITE_NOMEM);
        ck_assert(!sl_log_open(&log, made.path, SL_LOG_READ, &error));
        right_again();
        ck_assert_int_eq(error.code, SL_ERR_NO_MEMORY);
        error = (sl_error){.code = SL_OK};
        arm(SWITCH, 8, 0); /* the first of the copy */
        ck_assert(!sl_log_open(&log, made.path, SL_LOG_READ, &error));
        right_again();
        ck_assert_int_eq(error.code, SL_ERR_MISSING_PART);
        ck_assert(again == 0 || sqlite3_memory_used() == used); /* neither file stays open */
    }
    ck_assert(sl_log_open(&log, made.path, SL_LOG_READ, NULL));
    ck_assert(log->copied && sl_log_whole(log, NULL));
    sl_log_close(log);
}
END_TEST

static long long imports_there(void)
{
    int64_t n = 0;
    ck_assert(sl_sql_number(made.log, "SELECT count(*) FROM import", &n, NULL));
    return n;
}

START_TEST(an_import_that_is_not_in_the_file_or_at_no_time_is_not_kept)
{
    static const char text[] = "swatch,zone,judge,grade\nHP5,red,j1,slight\n";
    sl_log_count count;
    sl_error error = {.code = SL_OK};
    log_made_write(&made, text, sizeof text - 1);
    faked.holds = "INSERT INTO reading";
    arm(STEP, 0, SQLITE_DONE);
    ck_assert(!sl_log_import_csv(made.log, made.csv, NULL, false, &count, &error));
    right_again();
    ck_assert_int_eq(error.code, SL_ERR_STRANGE_LOG);
    ck_assert_int_eq((int)count.readings, 0);
    arm(CLOCK, 0, EINVAL);
    ck_assert(!sl_log_import_csv(made.log, made.csv, NULL, false, &count, &error));
    right_again();
    ck_assert_int_eq(error.code, SL_ERR_MISSING_PART);
    ck_assert_int_eq(readings_there(), 1);
    ck_assert_int_eq((int)imports_there(), 0);
    ck_assert(sl_log_import_csv(made.log, made.csv, NULL, false, &count, NULL));
    ck_assert_int_eq(readings_there(), 2);
    ck_assert_int_eq((int)imports_there(), 1);
}
END_TEST

START_TEST(an_event_that_does_not_read_back_is_not_kept)
{
    sl_log_test before, after;
    sl_error error = {.code = SL_OK};
    sl_event event = {.kind = SL_EVENT_NOTED, .swatch = -1};
    ck_assert(sl_log_find(made.log, NULL, &before, NULL));
    ck_assert(sl_instant_now(&event.at, NULL));
    faked.holds = "SELECT 1 FROM event";
    arm(STEP, 1, SQLITE_DONE);
    ck_assert(!sl_log_append(made.log, made.test, made.swatches, made.n, &event, "x", &error));
    right_again();
    ck_assert_int_eq(error.code, SL_ERR_STRANGE_LOG);
    ck_assert_ptr_nonnull(strstr(error.found, "does not read back"));
    ck_assert(sl_log_find(made.log, NULL, &after, NULL));
    ck_assert_int_eq(after.n_events, before.n_events);
}
END_TEST

/* Damage that is there again when all is read once more is told. */
START_TEST(damage_that_stays_is_told)
{
    static const char *const holds[] = {"SELECT id, title, operator, made, scene_name, scene_sha256, (",
                                        "SELECT r.kept, z.test"};
    for (int i = 0; i < 2; i++) {
        sl_log *log = NULL;
        sl_log_test *tests = NULL;
        sl_log_reading *readings = NULL;
        sl_error error = {.code = SL_OK};
        int n = 0;
        ck_assert(sl_log_open(&log, made.path, SL_LOG_READ, NULL));
        faked.holds = holds[i];
        arm(STEP, 0, SQLITE_CORRUPT);
        const bool good = i == 0 ? sl_log_tests(log, &tests, &n, &error)
                                 : sl_log_readings(log, made.test, &readings, &n, &error);
        right_again();
        ck_assert_msg(!good && error.code == SL_ERR_DAMAGED, "%s", holds[i]);
        ck_assert(log->copied); /* all was tried */
        sl_log_close(log);
    }
    /* nor is a log that is written to gone round, or one that is read from a copy from the beginning */
    sl_log *log = NULL;
    sl_log_test *tests = NULL;
    sl_error error = {.code = SL_OK};
    int n = 0;
    faked.holds = holds[0];
    arm(STEP, 1, SQLITE_CORRUPT);
    ck_assert(!sl_log_tests(made.log, &tests, &n, &error));
    right_again();
    ck_assert_int_eq(error.code, SL_ERR_DAMAGED);
    ck_assert(!made.log->copied);
    error = (sl_error){.code = SL_OK};
    log_made_change(made.path, "CREATE VIEW more AS SELECT 1");
    ck_assert(sl_log_open(&log, made.path, SL_LOG_READ, NULL) && log->copied);
    faked.holds = holds[0];
    arm(STEP, 1, SQLITE_CORRUPT);
    ck_assert(!sl_log_tests(log, &tests, &n, &error));
    right_again();
    ck_assert_int_eq(error.code, SL_ERR_DAMAGED);
    sl_log_close(log);
}
END_TEST

START_TEST(a_copy_whose_rows_nobody_counts_is_not_made)
{
    char whole[200];
    snprintf(whole, sizeof whole, "%s/uncounted.db", made.folder);
    ck_assert(sl_log_backup(made.path, whole, NULL, NULL));
    ck_assert_int_eq(access(whole, R_OK), 0);
    ck_assert(!sl_log_backup("nothing-there.db", whole, NULL, NULL));
    unlink(whole);
}
END_TEST

/* SQLite says that it is done, and nothing is in the file: what is acknowledged would not be there. */
START_TEST(what_sqlite_says_it_did_is_looked_at)
{
    static const struct {
        const char *holds;
        sl_code code;
    } faults[] = {{"INSERT INTO reading", SL_ERR_STRANGE_LOG},
                  {"SELECT max(kept)", SL_ERR_DAMAGED},
                  {"SELECT count(*) FROM reading", SL_ERR_DAMAGED},
                  {"SELECT 1 FROM swatch", SL_ERR_MISSING_REFERENCE}};
    for (size_t i = 0; i < sizeof faults / sizeof faults[0]; i++) {
        sl_error error = {.code = SL_OK};
        sl_log_reading reading = log_made_reading(&made, 0, "red", SL_WIPE_HALF);
        faked.holds = faults[i].holds;
        arm(STEP, 0, SQLITE_DONE);
        const bool kept = sl_log_add(made.log, &reading, 1, &error);
        right_again();
        ck_assert_msg(!kept, "%s", faults[i].holds);
        ck_assert_msg(error.code == faults[i].code, "%s: %s", faults[i].holds, sl_code_name(error.code));
        ck_assert_int_eq(readings_there(), 1);
    }
    sl_error error = {.code = SL_OK};
    sl_event event = {.kind = SL_EVENT_NOTED, .swatch = -1};
    ck_assert(sl_instant_now(&event.at, NULL));
    faked.holds = "INSERT INTO event";
    arm(STEP, 0, SQLITE_DONE);
    ck_assert(!sl_log_append(made.log, made.test, made.swatches, made.n, &event, "x", &error));
    right_again();
    ck_assert_int_eq(error.code, SL_ERR_STRANGE_LOG);
    ck_assert(!sl_log_append(made.log, made.test, made.swatches, made.n, &event, "a bell: \a", NULL));
    event.swatch = made.n; /* no such swatch: of the whole test */
    ck_assert(sl_log_append(made.log, made.test, made.swatches, made.n, &event, NULL, NULL));
}
END_TEST

/* A page that cannot be read is found while it is read: all is read once more, from a copy of what there is.
 */
START_TEST(damage_that_shows_only_while_reading_is_gone_round)
{
    static const char *const holds[] = {"FROM reading", "FROM event", "FROM test", "FROM zone",
                                        "FROM swatch"};
    sl_event event = {.kind = SL_EVENT_NOTED, .swatch = 0};
    ck_assert(sl_instant_now(&event.at, NULL));
    ck_assert(sl_log_append(made.log, made.test, made.swatches, made.n, &event, "a drip", NULL));
    int groups = -1, gone_round = 0;
    for (int i = -1; i < 5; i++) {
        sl_log *log = NULL;
        sl_log_test test;
        sl_compare *compare = NULL;
        sl_error error = {.code = SL_OK};
        ck_assert(sl_log_open(&log, made.path, SL_LOG_READ, NULL));
        if (i >= 0) {
            faked.holds = holds[i];
            arm(STEP, 1, SQLITE_CORRUPT);
        }
        const bool good =
            sl_log_find(log, NULL, &test, &error) && sl_compare_read(&compare, log, &test, -1.0, &error);
        right_again();
        if (good) {
            groups = i < 0 ? compare->n_groups : groups;
            ck_assert_int_eq(compare->n_groups, groups);
            ck_assert_int_eq(test.n_readings, 1);
            gone_round += i >= 0 ? 1 : 0;
        } else {
            ck_assert_int_eq(error.code, SL_ERR_DAMAGED);
        }
        sl_compare_free(compare);
        sl_log_close(log);
    }
    ck_assert_int_eq(groups, 1);
    ck_assert_int_ge(gone_round, 2);
}
END_TEST

START_TEST(an_example_that_cannot_be_kept_is_told)
{
    static const char *folders[] = {SLOWLIFT_MODELS};
    sl_folders models = {folders, 1};
    const sl_resolver resolver = sl_resolver_of_folders(&models);
    static const char scene[] = SLOWLIFT_MODELS "/scenes/eight-arms.yaml";
    static const char *const holds[] = {"INSERT INTO event", "INSERT INTO reading", "INSERT INTO test"};
    sl_error error = {.code = SL_OK};
    ck_assert(!sl_log_example(spare, "/no/such/scene.yaml", &resolver, &error));
    ck_assert(!sl_log_example("/no/such/folder/example.db", scene, &resolver, &error));
    for (int i = 0; i < 3; i++) {
        faked.holds = holds[i];
        arm(STEP, i == 0 ? 5 : 1, SQLITE_FULL);
        ck_assert_msg(!sl_log_example(spare, scene, &resolver, &error), "%s", holds[i]);
        right_again();
        ck_assert_int_eq(error.code, SL_ERR_CANNOT_WRITE);
        unlink(spare);
    }
}
END_TEST

/* ---- copies
 * ------------------------------------------------------------------------------------------------ */

static void no_copy(sl_code code, const char *said)
{
    long long n = 0;
    sl_error error = {.code = SL_OK};
    ck_assert(!sl_log_backup(made.path, spare, &n, &error));
    right_again();
    ck_assert_msg(error.code == code, "%s: %s, %s", sl_code_name(error.code), error.found, error.wanted);
    ck_assert_msg(strstr(error.found, said) || strstr(error.wanted, said), "%s, %s", error.found,
                  error.wanted);
}

START_TEST(a_copy_that_cannot_be_made_whole_has_no_name)
{
    static const struct {
        int what;
        int at, with;
        sl_code code;
    } faults[] = {{BACKUP_INIT, 1, SQLITE_NOMEM, SL_ERR_NO_MEMORY},
                  {BACKUP_FINISH, 1, SQLITE_FULL, SL_ERR_CANNOT_WRITE},
                  {OPEN_LOG, 2, SQLITE_CANTOPEN, SL_ERR_CANNOT_READ},
                  {BACKUP_STEP, 1, 0, SL_ERR_CANNOT_WRITE}};
    for (size_t i = 0; i < sizeof faults / sizeof faults[0]; i++) {
        long long n = 0;
        sl_error error = {.code = SL_OK};
        arm(faults[i].what, faults[i].at, faults[i].with);
        ck_assert_msg(!sl_log_backup(made.path, spare, &n, &error), "%zu", i);
        right_again();
        ck_assert_msg(error.code == faults[i].code || i == 3, "%zu: %s", i, sl_code_name(error.code));
        ck_assert_int_ne(access(spare, F_OK), 0);
    }
}
END_TEST

START_TEST(a_copy_that_does_not_read_back_is_not_kept)
{
    /* rows of a log are never changed: its own guards go first */
    static const char *const changes[] = {"DROP TRIGGER reading_is_kept; DELETE FROM reading",
                                          "DROP TRIGGER reading_stays; UPDATE reading SET note = 'two'",
                                          "DROP TRIGGER reading_stays; UPDATE reading SET note = NULL",
                                          "DROP TRIGGER reading_stays; UPDATE reading SET minute = 6.0",
                                          "DROP TRIGGER swatch_stays; UPDATE swatch SET place = place + 1000",
                                          "DROP TRIGGER test_stays; UPDATE test SET title = title || 'x'",
                                          "INSERT INTO zone SELECT test, 99, 'extra' FROM zone LIMIT 1"};
    for (size_t i = 0; i < sizeof changes / sizeof changes[0]; i++) {
        faked.changes = changes[i];
        no_copy(SL_ERR_DAMAGED, "does not read back");
        ck_assert_int_ne(access(spare, F_OK), 0);
    }
}
END_TEST

/* Its name fits, and that of the folder in which it is made does not. */
START_TEST(a_copy_at_the_end_of_the_longest_path_is_refused_and_leaves_nothing)
{
    static char to[4096];
    long long n = 0;
    sl_error error = {.code = SL_OK};
    size_t used = (size_t)snprintf(to, sizeof to, "%s", made.folder);
    while (used < 3840) {
        used += (size_t)snprintf(to + used, sizeof to - used, "/."); /* the same folder again and again */
    }
    to[used++] = '/';
    memset(to + used, 'c', 250);
    to[used + 250] = '\0';
    ck_assert(!sl_log_backup(made.path, to, &n, &error));
    ck_assert_int_eq(error.code, SL_ERR_CANNOT_WRITE);
    ck_assert_str_eq(error.wanted, strerror(ENAMETOOLONG));
    to[used + 200] = '\0'; /* and so it has a place */
    ck_assert(sl_log_backup(made.path, to, &n, NULL));
    ck_assert_int_eq(unlink(to), 0); /* the folder is empty when the test ends: log_made_end() removes it */
}
END_TEST

START_TEST(a_copy_beside_this_folder_s_own_files_needs_no_folder_in_its_name)
{
    long long n = 0;
    sl_error error = {.code = SL_OK};
    ck_assert_int_eq(chdir(made.folder), 0);
    arm(FSYNC, 1, EIO);
    ck_assert(!sl_log_backup(made.path, "spare.db", &n, &error));
    right_again();
    ck_assert_int_eq(error.code, SL_ERR_CANNOT_WRITE);
    ck_assert_ptr_null(strstr(error.found, ".slowlift-new"));
    unlink(spare);
    ck_assert(sl_log_backup("one.db", "spare.db", &n, NULL));
    ck_assert_int_eq(access(spare, F_OK), 0);
    ck_assert_int_eq(chdir("/"), 0);
}
END_TEST

/* Whichever file of the way there cannot be opened. */
START_TEST(a_copy_whose_files_cannot_be_opened_has_no_name_and_leaves_none)
{
    int failed = 0;
    for (int at = 1; at <= 6; at++) {
        long long n = 0;
        sl_error error = {.code = SL_OK};
        arm(OPEN, at, EACCES);
        const bool good = sl_log_backup(made.path, spare, &n, &error);
        right_again();
        failed += good ? 0 : 1;
        ck_assert_msg(good || error.code == SL_ERR_CANNOT_WRITE, "%d: %s", at, sl_code_name(error.code));
        unlink(spare);
    }
    ck_assert_int_ge(failed, 3); /* its folder, itself, and the folder it lies in */
}
END_TEST

/* What was put there in between is not written over, and a disk that fails is told. */
START_TEST(a_copy_is_given_its_name_only_where_nothing_is_and_the_disk_has_it)
{
    arm(LINK, 1, EIO);
    no_copy(SL_ERR_CANNOT_WRITE, strerror(EIO));
    unlink(spare);
    for (int at = 1; at <= 2; at++) { /* of the copy, and of the folder */
        arm(FSYNC, at, ENOSPC);
        no_copy(SL_ERR_CANNOT_WRITE, strerror(ENOSPC));
        unlink(spare);
    }
    FILE *const there = fopen(spare, "wb");
    ck_assert_ptr_nonnull(there);
    fclose(there);
    no_copy(SL_ERR_USAGE, "already");
    arm(ACCESS, 3, ENOENT); /* it came after the first look: two are at the log and its folder */
    no_copy(SL_ERR_USAGE, "already");
    struct stat file;
    ck_assert_int_eq(stat(spare, &file), 0);
    ck_assert_int_eq((int)file.st_size, 0);
}
END_TEST

/* ---- what a test is called
 * ------------------------------------------------------------------------------------ */

START_TEST(of_several_tests_that_begin_alike_none_is_guessed)
{
    static const char *folders[] = {SLOWLIFT_MODELS};
    sl_folders models = {folders, 1};
    const sl_resolver resolver = sl_resolver_of_folders(&models);
    const sl_plan_request request = sl_plan_request_default();
    static const char path[] = SLOWLIFT_MODELS "/scenes/eight-arms.yaml";
    sl_scene *const scene = sl_scene_load(path, &resolver, NULL);
    sl_plan *plan = NULL;
    sl_log_test test;
    sl_error error = {.code = SL_OK};
    char id[SL_UUID], title[300];
    ck_assert(sl_plan_make(&plan, scene, &request, NULL));
    for (int i = 0; i < 6; i++) {
        ck_assert(sl_log_begin(made.log, path, &resolver, plan, "again", "op-1", id, NULL));
    }
    ck_assert(!sl_log_find(made.log, NULL, &test, &error));
    ck_assert(!sl_log_find(made.log, "", &test, &error));
    ck_assert(sl_log_find(made.log, id, &test, NULL));
    ck_assert_str_eq(test.id, id);
    ck_assert(!sl_log_find(made.log, "no such test", &test, &error));
    memset(title, 't', sizeof title - 1);
    title[sizeof title - 1] = '\0';
    ck_assert(!sl_log_begin(made.log, path, &resolver, plan, title, "op-1", id, NULL));
    ck_assert(!sl_log_begin(made.log, path, &resolver, plan, "two\nlines", "op-1", id, NULL));
    ck_assert(!sl_log_begin(made.log, path, &resolver, plan, "again", "Ada L", id, NULL));
    ck_assert(!sl_log_begin(made.log, "/no/such/scene.yaml", &resolver, plan, "again", "op-1", id, NULL));
    arm(CLOCK, 0, EINVAL);
    ck_assert(!sl_log_begin(made.log, path, &resolver, plan, "again", "op-1", id, &error));
    sl_log_reading reading = log_made_reading(&made, 0, "red", SL_WIPE_HALF);
    ck_assert(!sl_log_add(made.log, &reading, 1, &error));
    right_again();
    ck_assert_int_eq(error.code, SL_ERR_MISSING_PART);
    sl_log_test *tests = NULL;
    int n = 0;
    ck_assert(sl_log_tests(made.log, &tests, &n, NULL));
    ck_assert_int_eq(n, 7);
    sl_free(tests);
    sl_plan_free(plan);
    sl_scene_free(scene);
}
END_TEST

/* ---- a day
 * ------------------------------------------------------------------------------------------------- */

static sl_event noted(void)
{
    sl_event event = {.kind = SL_EVENT_NOTED, .swatch = 0, .remark = SL_REMARK_WARM};
    ck_assert(sl_instant_now(&event.at, NULL));
    return event;
}

START_TEST(a_day_whose_log_is_gone_keeps_its_events_and_tells_them)
{
    sl_error why = {.code = SL_OK};
    sl_log_test before, after;
    ck_assert(sl_log_find(made.log, NULL, &before, NULL));
    sl_day_keeper *const keeper =
        sl_day_keeper_start(made.log, made.path, made.test, made.swatches, made.n, NULL);
    ck_assert_ptr_nonnull(keeper);
    ck_assert_int_eq(rename(made.path, spare), 0);
    const sl_event one = noted();
    ck_assert(sl_day_keeper_put(keeper, &one, "it felt warm", NULL));
    ck_assert_int_eq(sl_day_keeper_waiting(keeper, &why), 1);
    ck_assert_int_eq(why.code, SL_ERR_CANNOT_WRITE);
    ck_assert_ptr_nonnull(strstr(why.wanted, "no longer there"));
    sl_event other = noted();
    other.swatch = -1;
    ck_assert(sl_day_keeper_put(keeper, &other, NULL, NULL));
    char told[400] = "";
    fflush(stderr);
    const int kept = dup(STDERR_FILENO);
    FILE *const into = tmpfile();
    ck_assert_int_eq(dup2(fileno(into), STDERR_FILENO), STDERR_FILENO);
    const int lost = sl_day_keeper_stop(keeper);
    fflush(stderr);
    ck_assert_int_eq(dup2(kept, STDERR_FILENO), STDERR_FILENO);
    close(kept);
    rewind(into);
    told[fread(told, 1, sizeof told - 1, into)] = '\0';
    fclose(into);
    ck_assert_int_eq(lost, 2);
    ck_assert_ptr_nonnull(strstr(told, "not in the log: note HP5, "));
    ck_assert_ptr_nonnull(strstr(told, "it felt warm"));
    ck_assert_ptr_nonnull(strstr(told, "it feels warm")); /* the remark of the other */
    ck_assert_int_eq(rename(spare, made.path), 0);
    ck_assert(sl_log_find(made.log, NULL, &after, NULL));
    ck_assert_int_eq(after.n_events, before.n_events);
    ck_assert_int_eq(sl_day_keeper_stop(NULL), 0);
}
END_TEST

START_TEST(a_day_without_a_thread_or_a_file_does_not_begin)
{
    sl_error error = {.code = SL_OK};
    arm(THREAD, 1, EAGAIN);
    ck_assert_ptr_null(sl_day_keeper_start(made.log, made.path, made.test, made.swatches, made.n, &error));
    right_again();
    ck_assert_int_eq(error.code, SL_ERR_MISSING_PART);
    ck_assert_ptr_null(sl_day_keeper_start(made.log, spare, made.test, made.swatches, made.n, NULL));
}
END_TEST

START_SUITE("log broken")
FIXTURE(set_up, tear_down)
ADD_LOOP(what_sqlite_says_is_told_in_our_words, 0, ROWS)
ADD(what_was_broken_off_by_ctrl_c_is_no_damage)
ADD(a_log_that_sqlite_cannot_open_is_refused)
ADD(a_folder_of_another_machine_is_refused_and_an_unknown_one_is_tried)
ADD(what_sqlite_says_it_did_is_looked_at)
ADD(what_may_not_be_written_is_found_before_sqlite_stumbles_over_it)
ADD(the_last_rows_of_a_log_in_use_are_read_where_nothing_may_be_written)
ADD(an_sqlite_that_cannot_be_told_to_trust_no_file_is_not_used)
ADD(a_log_that_another_program_keeps_busy_is_not_read_from_a_copy)
ADD(a_strange_log_of_which_no_copy_can_be_made_is_told_as_such)
ADD(an_import_that_is_not_in_the_file_or_at_no_time_is_not_kept)
ADD(an_event_that_does_not_read_back_is_not_kept)
ADD(damage_that_stays_is_told)
ADD(damage_that_shows_only_while_reading_is_gone_round)
ADD(an_example_that_cannot_be_kept_is_told)
ADD(a_copy_whose_rows_nobody_counts_is_not_made)
ADD(where_nothing_may_be_written_a_log_is_still_read_and_not_written_to)
CASE("copies")
FIXTURE(set_up, tear_down)
ADD(a_copy_that_cannot_be_made_whole_has_no_name)
ADD(a_copy_that_does_not_read_back_is_not_kept)
ADD(a_copy_at_the_end_of_the_longest_path_is_refused_and_leaves_nothing)
ADD(a_copy_beside_this_folder_s_own_files_needs_no_folder_in_its_name)
ADD(a_copy_whose_files_cannot_be_opened_has_no_name_and_leaves_none)
ADD(a_copy_is_given_its_name_only_where_nothing_is_and_the_disk_has_it)
CASE("tests")
FIXTURE(set_up, tear_down)
ADD(of_several_tests_that_begin_alike_none_is_guessed)
CASE("a day")
FIXTURE(set_up, tear_down)
ADD(a_day_whose_log_is_gone_keeps_its_events_and_tells_them)
ADD(a_day_without_a_thread_or_a_file_does_not_begin)
END_SUITE
