/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Strands, beginnings, copies and checks of a log with every allocation refused. Linked as test_log_memory.c
 * is.
 */
#include <sqlite3.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "base/memory.h"
#include "log_made.h"
#include "slowlift/compare.h"
#include "slowlift/strand_log.h"
#include "suite.h"
#include "tools/faults.h"

static sl_log_made made;
static sl_scene *scene;
static sl_plan *plan;
static sl_resolver resolver;
static char spare[160];
static const char path[] = SLOWLIFT_MODELS "/scenes/way-wide.yaml";

static void forget(void)
{
    static const char *const ends[] = {"", "-wal", "-shm", "-journal"};
    for (int i = 0; i < 4; i++) {
        char name[192];
        snprintf(name, sizeof name, "%s%s", spare, ends[i]);
        unlink(name);
    }
}

static bool strands_of(sl_error *error)
{
    sl_strand_record *records = NULL;
    int n = 0;
    const bool good = sl_log_strands(made.log, scene, &records, &n, error);
    sl_free(records);
    return good && n == 1;
}

static bool person_of(sl_error *error)
{
    sl_intake form = {.age_years = 40, .label_min = 30.0, .lightened = SL_REPLY_NO, .packet_day = 20773};
    sl_person person = {0};
    snprintf(form.person, sizeof form.person, "K12");
    return sl_log_person(made.log, made.test, NULL, scene, 20786, &form, &person, error);
}

static bool begin_another(sl_error *error)
{
    sl_log *log = NULL;
    char id[SL_UUID];
    const bool good = sl_log_open(&log, spare, SL_LOG_MAKE, error) &&
                      sl_log_begin(log, path, &resolver, plan, "Tuesday", "op-2", id, error);
    sl_log_close(log);
    forget();
    return good;
}

static bool scene_of(sl_error *error)
{
    sl_scene *const read = sl_log_scene(made.log, made.test, error);
    sl_scene_free(read);
    return read != NULL;
}

static bool tests_of(sl_error *error)
{
    sl_log_test *tests = NULL;
    sl_log_swatch *swatches = NULL;
    sl_event *events = NULL;
    int n = 0, n_swatches = 0, n_events = 0;
    const bool good = sl_log_tests(made.log, &tests, &n, error) &&
                      sl_log_swatches(made.log, made.test, &swatches, &n_swatches, error) &&
                      sl_log_events(made.log, made.test, swatches, n_swatches, &events, &n_events, error);
    sl_free(tests);
    sl_free(swatches);
    sl_free(events);
    return good;
}

static bool back_up(sl_error *error)
{
    long long rows = 0;
    const bool good = sl_log_backup(made.path, spare, &rows, error);
    const bool there = access(spare, F_OK) == 0;
    forget();
    return good && there;
}

static void listens(void *self, bool is_fault, const char *sentence)
{
    (void)self;
    (void)is_fault;
    (void)sentence;
}

static bool check_it(sl_error *error)
{
    bool sound = false;
    return sl_log_check(made.path, listens, NULL, &sound, error) && sound;
}

static int n_read;

static bool counts(void *self, const sl_log_reading *reading, const sl_log_swatch *swatch, const char *test,
                   sl_error *error)
{
    (void)self;
    (void)reading;
    (void)swatch;
    (void)test;
    (void)error;
    n_read++;
    return true;
}

static bool read_of(const char *path_of, sl_error *error)
{
    sl_log *log = NULL;
    n_read = 0;
    const bool good =
        sl_log_open(&log, path_of, SL_LOG_READ, error) && sl_log_each_reading(log, NULL, counts, NULL, error);
    sl_log_close(log);
    return good;
}

/* Read from a copy, since it holds more than our tables. */
static bool read_strange(sl_error *error)
{
    return read_of(made.other, error) && n_read == 3;
}

/* A row that does not fit is left out, and its number remembered. */
static bool read_unfit(sl_error *error)
{
    return read_of(made.csv, error) && n_read == 2;
}

static bool (*const jobs[])(sl_error *error) = {strands_of, person_of, begin_another, scene_of,  tests_of,
                                                back_up,    check_it,  read_strange,  read_unfit};
enum { JOBS = (int)(sizeof jobs / sizeof jobs[0]) };

static void set_up(void)
{
    static const char *folders[] = {SLOWLIFT_MODELS};
    static sl_folders models = {folders, 1};
    const sl_plan_request request = sl_plan_request_default();
    resolver = sl_resolver_of_folders(&models);
    log_made_begin_scene(&made, path);
    scene = sl_scene_load(path, &resolver, NULL);
    ck_assert(sl_plan_make(&plan, scene, &request, NULL));
    snprintf(spare, sizeof spare, "%s/spare.db", made.folder);
    log_made_strand(&made);
    ck_assert(sl_log_backup(made.path, made.other, NULL, NULL));
    ck_assert(sl_log_backup(made.path, made.csv, NULL, NULL));
    log_made_change(made.other, "CREATE VIEW more AS SELECT 1");
    log_made_change(made.csv, "UPDATE reading SET grade = 'odd' WHERE kept = 2");
}

static void tear_down(void)
{
    sl_plan_free(plan);
    sl_scene_free(scene);
    log_made_end(&made);
}

/* Bytes: what the open log keeps of its last error; a statement or a database takes more. */
enum { KEPT = 128 };

START_TEST(every_refused_allocation_is_told_and_nothing_leaks)
{
    for (int from_then_on = 0; from_then_on < 2; from_then_on++) {
        long n = 1;
        for (bool done = false; !done; n++) {
            sl_error error = {.code = SL_OK};
            const sqlite3_int64 used = sqlite3_memory_used();
            faults_arm(n, from_then_on == 1);
            done = jobs[_i](&error);
            const faults_count count = faults_disarm();
            ck_assert_msg(sqlite3_memory_used() - used < KEPT,
                          "SQLite keeps memory when allocation %ld fails", n);
            ck_assert_msg(count.alive == 0, "%ld blocks leak when allocation %ld fails", count.alive, n);
            ck_assert_msg(done == (count.calls < n), "allocation %ld failed and nobody noticed", n);
            ck_assert_msg(error.code == (done ? SL_OK : SL_ERR_NO_MEMORY), "allocation %ld: %s", n,
                          sl_code_name(error.code));
        }
        ck_assert_int_gt(n, 1);
    }
}
END_TEST

/* What a comparison asks for before anything is solved: the scene, and then room for swatches and arms. */
START_TEST(a_comparison_without_room_begins_or_leaks)
{
    sl_log_test test;
    sl_compare *compare = NULL;
    ck_assert(sl_log_find(made.log, NULL, &test, NULL));
    faults_arm(0, false);
    sl_scene *const read = sl_log_scene(made.log, test.id, NULL);
    const long of_scene = faults_disarm().calls;
    sl_scene_free(read);
    for (long n = 1; n <= of_scene + 16; n += n < of_scene - 2 ? of_scene / 8 : 1) {
        sl_error error = {.code = SL_OK};
        faults_arm(n, false);
        const bool done = sl_compare_read(&compare, made.log, &test, -1.0, &error);
        const faults_count count = faults_disarm();
        ck_assert_msg(!done && error.code == SL_ERR_NO_MEMORY, "allocation %ld: %s", n,
                      sl_code_name(error.code));
        ck_assert_msg(count.alive == 0, "%ld blocks leak when allocation %ld fails", count.alive, n);
        ck_assert_ptr_null(compare);
    }
}
END_TEST

START_SUITE("log starved")
FIXTURE(set_up, tear_down)
ADD_LOOP(every_refused_allocation_is_told_and_nothing_leaks, 0, JOBS)
ADD(a_comparison_without_room_begins_or_leaks)
END_SUITE
