/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What a call of the log leaves behind, whether it does what it was asked or refuses: no block of memory and
 * no open file, nor of SQLite's. Nothing fails here but what was asked for; linked as test_log_memory.c is. A
 * database that is not closed, or cannot be since a statement of it is open, holds its file.
 */
#include <sqlite3.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "base/memory.h"
#include "document/renderers.h"
#include "log/compare/compare_page.h"
#include "log/compare/seen_curves.h"
#include "log_made.h"
#include "slowlift/strand_log.h"
#include "suite.h"
#include "tools/faults.h"

static sl_log_made made;
static sl_scene *scene;
static sl_plan *plan;
static sl_resolver resolver;
static char spare[160], empty[160], newer[160], odd[160];
static const char path[] = SLOWLIFT_MODELS "/scenes/way-wide.yaml";

/* Check's own words ask for memory, so that none is said while blocks are counted. */
static bool as_it_should;

static void must(bool is)
{
    as_it_should = as_it_should && is;
}

static void write_csv(const char *text)
{
    FILE *const file = fopen(made.csv, "wb");
    must(file != NULL && fputs(text, file) >= 0);
    must(fclose(file) == 0);
}

static void forget(const char *name)
{
    static const char *const ends[] = {"", "-wal", "-shm", "-journal"};
    for (int i = 0; i < 4; i++) {
        char whole[192];
        snprintf(whole, sizeof whole, "%s%s", name, ends[i]);
        unlink(whole);
    }
}

static sl_error last;

static sl_code ended(bool good, const sl_error *error)
{
    must(good == (error->code == SL_OK));
    last = *error;
    return error->code;
}

/* ---- opening --------------------------------------------------------------------------------------------
 */

static sl_code opened(const char *name, sl_log_how how)
{
    sl_error error = {.code = SL_OK};
    sl_log *log = NULL;
    const bool good = sl_log_open(&log, name, how, &error);
    must(good || log == NULL);
    sl_log_close(log);
    return ended(good, &error);
}

static sl_code open_it(void)
{
    return opened(made.path, SL_LOG_READ);
}

static sl_code open_to_write(void)
{
    return opened(made.path, SL_LOG_WRITE);
}

static sl_code open_none(void)
{
    return opened(spare, SL_LOG_READ);
}

static sl_code open_text(void)
{
    write_csv("no log");
    return opened(made.csv, SL_LOG_READ);
}

static sl_code open_strange(void)
{
    return opened(made.other, SL_LOG_WRITE);
}

static sl_code open_folder(void)
{
    return opened(made.folder, SL_LOG_READ);
}

static sl_code open_empty(void)
{
    return opened(empty, SL_LOG_READ);
}

static sl_code open_newer(void)
{
    return opened(newer, SL_LOG_READ);
}

static sl_code open_odd_to_write(void)
{
    return opened(odd, SL_LOG_WRITE);
}

static sl_code make_another(void)
{
    const sl_code code = opened(spare, SL_LOG_MAKE);
    forget(spare);
    return code;
}

static sl_code begin_another(void)
{
    sl_error error = {.code = SL_OK};
    sl_log *log = NULL;
    char id[SL_UUID];
    const bool good = sl_log_open(&log, spare, SL_LOG_MAKE, &error) &&
                      sl_log_begin(log, path, &resolver, plan, "Tuesday", "op-2", id, &error);
    sl_log_close(log);
    forget(spare);
    return ended(good, &error);
}

static sl_code begin_without_a_scene(void)
{
    sl_error error = {.code = SL_OK};
    char id[SL_UUID];
    return ended(sl_log_begin(made.log, "/no/such.yaml", &resolver, plan, "Tuesday", "op-2", id, &error),
                 &error);
}

/* ---- reading --------------------------------------------------------------------------------------------
 */

static sl_code read_all(void)
{
    sl_error error = {.code = SL_OK};
    sl_log_test *tests = NULL;
    sl_log_swatch *swatches = NULL;
    sl_event *events = NULL;
    sl_log_reading *readings = NULL;
    sl_log_mean *means = NULL;
    sl_strand_record *strands = NULL;
    int n = 0, n_swatches = 0, n_events = 0;
    sl_scene *const kept = sl_log_scene(made.log, made.test, &error);
    const bool good = kept && sl_log_tests(made.log, &tests, &n, &error) &&
                      sl_log_swatches(made.log, made.test, &swatches, &n_swatches, &error) &&
                      sl_log_events(made.log, made.test, swatches, n_swatches, &events, &n_events, &error) &&
                      sl_log_readings(made.log, made.test, &readings, &n, &error) &&
                      sl_log_means(made.log, made.test, &means, &n, &error) &&
                      sl_log_strands(made.log, scene, &strands, &n, &error);
    sl_free(tests);
    sl_free(swatches);
    sl_free(events);
    sl_free(readings);
    sl_free(means);
    sl_free(strands);
    sl_scene_free(kept);
    return ended(good, &error);
}

static sl_code find_none(void)
{
    sl_error error = {.code = SL_OK};
    sl_log_test test;
    return ended(sl_log_find(made.log, "00000000", &test, &error), &error);
}

static sl_code scene_of_none(void)
{
    sl_error error = {.code = SL_OK};
    return ended(sl_log_scene(made.log, "00000000-0000-4000-8000-000000000000", &error) != NULL, &error);
}

static bool put_text(FILE *out, const sl_compare_page *page)
{
    sl_document document;
    sl_compare_say(&document, page, NULL);
    return sl_document_print(out, &document, NULL);
}

static bool stops(void *self, const sl_log_reading *reading, const sl_log_swatch *swatch, const char *test,
                  sl_error *error)
{
    (void)self;
    (void)reading;
    (void)swatch;
    (void)test;
    return sl_fail(error, SL_ERR_USAGE, "enough", "no more");
}

static sl_code visit_until_enough(void)
{
    sl_error error = {.code = SL_OK};
    return ended(sl_log_each_reading(made.log, NULL, stops, NULL, &error), &error);
}

static sl_code read_strange(void)
{
    sl_error error = {.code = SL_OK};
    sl_log *log = NULL;
    const bool good = sl_log_open(&log, made.other, SL_LOG_READ, &error) &&
                      sl_log_each_reading(log, NULL, NULL, NULL, &error);
    sl_log_close(log);
    return ended(good, &error);
}

/* ---- writing --------------------------------------------------------------------------------------------
 */

static sl_code import_text(const char *text, const char *test)
{
    sl_error error = {.code = SL_OK};
    sl_log_count count;
    write_csv(text);
    return ended(sl_log_import_csv(made.log, made.csv, test, true, &count, &error), &error);
}

static char row[200];

static const char *row_of(const char *zone)
{
    snprintf(row, sizeof row, "swatch,zone,judge,grade\n%s,%s,j1,slight\n", made.swatches[0].bench.code,
             zone);
    return row;
}

static sl_code import_it(void)
{
    return import_text(row_of("blue"), NULL);
}

static sl_code import_of_no_zone(void)
{
    return import_text(row_of("bleu"), made.test);
}

static sl_code import_of_no_test(void)
{
    return import_text(row_of("blue"), "00000000");
}

static sl_code import_of_no_column(void)
{
    return import_text("swatch,zone,judge,mark\n", NULL);
}

static sl_code import_half_a_cell(void)
{
    return import_text("swatch,zone,judge,note\nA,\"b", NULL);
}

static sl_code import_nothing(void)
{
    return import_text("", NULL);
}

static sl_code add_of_no_zone(void)
{
    sl_error error = {.code = SL_OK};
    sl_log_reading reading = log_made_reading(&made, 0, "bleu", SL_WIPE_HALF);
    return ended(sl_log_add(made.log, &reading, 1, &error), &error);
}

static sl_code append_it(void)
{
    sl_error error = {.code = SL_OK};
    sl_event event = {.kind = SL_EVENT_NOTED, .swatch = -1};
    return ended(sl_log_append(made.log, made.test, made.swatches, made.n, &event, "warm room", &error),
                 &error);
}

static sl_code append_to_none(void)
{
    sl_error error = {.code = SL_OK};
    sl_event event = {.kind = SL_EVENT_NOTED, .swatch = -1};
    return ended(sl_log_append(made.log, "00000000-0000-4000-8000-000000000000", made.swatches, made.n,
                               &event, "warm room", &error),
                 &error);
}

/* ---- from one log into another --------------------------------------------------------------------------
 */

static sl_code merged(const char *from)
{
    sl_error error = {.code = SL_OK};
    sl_log *log = NULL;
    sl_log_count count;
    const bool good =
        sl_log_open(&log, spare, SL_LOG_MAKE, &error) && sl_log_merge(log, from, &count, &error);
    sl_log_close(log);
    forget(spare);
    return ended(good, &error);
}

static sl_code merge_it(void)
{
    return merged(made.path);
}

static sl_code merge_strange(void)
{
    return merged(made.other);
}

static sl_code merge_odd(void)
{
    return merged(odd);
}

static sl_code merge_itself(void)
{
    return merged(spare);
}

static sl_code merge_none(void)
{
    return merged("/no/such.db");
}

static sl_code exported(bool json, const char *test)
{
    sl_error error = {.code = SL_OK};
    FILE *const out = fopen("/dev/null", "w");
    const bool good = json ? sl_log_export_json(made.log, test, out, &error)
                           : sl_log_export_csv(made.log, test, out, &error);
    fclose(out);
    return ended(good, &error);
}

static sl_code export_csv(void)
{
    return exported(false, made.test);
}

static sl_code export_json(void)
{
    return exported(true, NULL);
}

/* ---- looking over, keeping safe -------------------------------------------------------------------------
 */

static void listens(void *self, bool is_fault, const char *sentence)
{
    (void)is_fault;
    must(sentence[0] != '\0');
    *(int *)self += 1;
}

static sl_code checked(const char *name, bool is_sound)
{
    sl_error error = {.code = SL_OK};
    bool sound = false;
    int told = 0;
    const bool good = sl_log_check(name, listens, &told, &sound, &error);
    must(!good || (sound == is_sound && told > 5));
    return ended(good, &error);
}

static sl_code check_it(void)
{
    return checked(made.path, true);
}

static sl_code check_strange(void)
{
    return checked(made.other, false);
}

static sl_code check_odd(void)
{
    return checked(odd, false);
}

static sl_code check_empty(void)
{
    return checked(empty, false);
}

static sl_code check_none(void)
{
    return checked(spare, false);
}

static sl_code backed_up(const char *from, const char *to)
{
    sl_error error = {.code = SL_OK};
    const bool good = sl_log_backup(from, to, NULL, &error);
    must(!good || access(to, F_OK) == 0);
    forget(spare);
    return ended(good, &error);
}

static sl_code back_up(void)
{
    return backed_up(made.path, spare);
}

static sl_code back_up_over_another(void)
{
    return backed_up(made.path, made.other);
}

static sl_code back_up_none(void)
{
    return backed_up("/no/such.db", spare);
}

static sl_code back_up_to_nowhere(void)
{
    return backed_up(made.path, "/no/such/folder/copy.db");
}

static sl_code rescued(const char *from, const char *to)
{
    sl_error error = {.code = SL_OK};
    sl_log_tally tally;
    const bool good = sl_log_rescue(from, to, &tally, &error);
    forget(spare);
    return ended(good, &error);
}

static sl_code rescue_it(void)
{
    return rescued(made.path, spare);
}

static sl_code rescue_strange(void)
{
    return rescued(made.other, spare);
}

static sl_code rescue_text(void)
{
    write_csv("no log");
    return rescued(made.csv, spare);
}

static sl_code rescue_odd(void)
{
    return rescued(odd, spare);
}

static sl_code rescue_empty(void)
{
    return rescued(empty, spare);
}

static sl_code rescue_over_another(void)
{
    return rescued(made.path, made.other);
}

/* ---- comparing ------------------------------------------------------------------------------------------
 */

static sl_code compare_it(void)
{
    sl_error error = {.code = SL_OK};
    sl_log_test test;
    sl_compare *compare = NULL;
    sl_rate *rates = NULL;
    sl_seen_curves *curves = NULL;
    FILE *const out = fopen("/dev/null", "w");
    bool good = sl_log_find(made.log, made.test, &test, &error) &&
                sl_compare_read(&compare, made.log, &test, -1.0, &error) &&
                sl_compare_rates(&rates, compare, &error) &&
                (curves = sl_seen_curves_make(compare, &error)) != NULL;
    if (good) {
        const sl_compare_page page = {.compare = compare, .only = -1, .rates = rates};
        good = put_text(out, &page) && sl_export_csv(out, &sl_compare_export, &page) &&
               sl_export_json(out, &sl_compare_export, &page) && sl_compare_rank_at(compare, 10, &error) &&
               put_text(out, &page);
    }
    fclose(out);
    sl_seen_curves_free(curves);
    sl_free(rates);
    sl_compare_free(compare);
    return ended(good, &error);
}

static sl_code make_example(void)
{
    sl_error error = {.code = SL_OK};
    const bool good = sl_log_example(spare, path, &resolver, &error);
    forget(spare);
    return ended(good, &error);
}

static sl_code example_of_no_scene(void)
{
    sl_error error = {.code = SL_OK};
    return ended(sl_log_example(spare, "/no/such.yaml", &resolver, &error), &error);
}

/* ---- strands --------------------------------------------------------------------------------------------
 */

static sl_code person_of_it(void)
{
    sl_error error = {.code = SL_OK};
    sl_intake form = {.age_years = 40, .label_min = 30.0, .lightened = SL_REPLY_NO, .packet_day = 20773};
    sl_person person = {0};
    snprintf(form.person, sizeof form.person, "%s", "K12");
    return ended(sl_log_person(made.log, made.test, NULL, scene, 20786, &form, &person, &error), &error);
}

static sl_code person_of_a_place(const char *place)
{
    sl_error error = {.code = SL_OK};
    sl_intake form = {.age_years = 40, .label_min = 30.0, .lightened = SL_REPLY_NO, .packet_day = 20773};
    sl_person person = {0};
    snprintf(form.person, sizeof form.person, "%s", "K12");
    return ended(sl_strand_of_place(place, scene, &form, &person, &error), &error);
}

static sl_code strand_of_place(void)
{
    return person_of_a_place(made.path);
}

static sl_code strand_of_no_place(void)
{
    return person_of_a_place(spare);
}

static sl_code strand_of_no_test(void)
{
    char place[200];
    snprintf(place, sizeof place, "%s:00000000", made.path);
    return person_of_a_place(place);
}

static sl_code hash_a_photo(void)
{
    sl_error error = {.code = SL_OK};
    char hash[SL_SHA256_TEXT];
    return ended(sl_photo_hash(path, hash, &error), &error);
}

static sl_code hash_a_folder(void)
{
    sl_error error = {.code = SL_OK};
    char hash[SL_SHA256_TEXT];
    return ended(sl_photo_hash(made.folder, hash, &error), &error);
}

static const struct {
    const char *name;
    sl_code (*call)(void);
    sl_code code; /* how it ends, and what it says of it */
    int line, column;
    const char *wanted; /* its beginning */
} jobs[] = {
    {"open_it", open_it, SL_OK, 0, 0, ""},
    {"open_to_write", open_to_write, SL_OK, 0, 0, ""},
    {"open_none", open_none, SL_ERR_CANNOT_READ, 0, 0, ""},
    {"open_text", open_text, SL_ERR_NO_LOG, 0, 0, "name one, such as strands.db"},
    {"open_strange", open_strange, SL_ERR_STRANGE_LOG, 0, 0,
     "nothing is written to it; slowlift log rescue copies its rows into a new log"},
    {"open_folder", open_folder, SL_ERR_NO_LOG, 0, 0, "name one, such as strands.db"},
    {"open_empty", open_empty, SL_ERR_NO_LOG, 0, 0, "open it once for writing to make them"},
    {"open_newer", open_newer, SL_ERR_NEWER_VERSION, 0, 0, ""},
    {"open_odd_to_write", open_odd_to_write, SL_ERR_DAMAGED, 0, 0,
     "nothing is written to it; slowlift log rescue"},
    {"make_another", make_another, SL_OK, 0, 0, ""},
    {"begin_another", begin_another, SL_OK, 0, 0, ""},
    {"begin_without_a_scene", begin_without_a_scene, SL_ERR_CANNOT_READ, 0, 0, ""},
    {"read_all", read_all, SL_OK, 0, 0, ""},
    {"find_none", find_none, SL_ERR_USAGE, 0, 0, "the log has "},
    {"scene_of_none", scene_of_none, SL_ERR_MISSING_REFERENCE, 0, 0, "the log does not hold it"},
    {"visit_until_enough", visit_until_enough, SL_ERR_USAGE, 0, 0, "no more"},
    {"read_strange", read_strange, SL_OK, 0, 0, ""},
    {"import_it", import_it, SL_OK, 0, 0, ""},
    {"import_of_no_zone", import_of_no_zone, SL_ERR_MISSING_REFERENCE, 2, 5,
     "write a zone of this test; the nearest known one is \"blue\""},
    {"import_of_no_test", import_of_no_test, SL_ERR_MISSING_REFERENCE, 2, 1, "the log has "},
    {"import_of_no_column", import_of_no_column, SL_ERR_UNKNOWN_KEY, 1, 19,
     "the nearest known one is \"arm\""},
    {"import_half_a_cell", import_half_a_cell, SL_ERR_SYNTAX, 2, 3,
     "close it; double each one inside the cell"},
    {"import_nothing", import_nothing, SL_ERR_MISSING_KEY, 1, 1,
     "the file is empty; its first line names the columns"},
    {"add_of_no_zone", add_of_no_zone, SL_ERR_MISSING_REFERENCE, 0, 0,
     "name a swatch of this log and a zone of its scene"},
    {"append_it", append_it, SL_OK, 0, 0, ""},
    {"append_to_none", append_to_none, SL_ERR_CANNOT_WRITE, 0, 0, "FOREIGN KEY constraint failed"},
    {"merge_it", merge_it, SL_OK, 0, 0, ""},
    {"merge_strange", merge_strange, SL_ERR_STRANGE_LOG, 0, 0,
     "nothing is written to it; slowlift log rescue copies its rows into a new log"},
    {"merge_odd", merge_odd, SL_ERR_DAMAGED, 0, 0, "slowlift log check tells more"},
    {"merge_itself", merge_itself, SL_ERR_USAGE, 0, 0, "name two files"},
    {"merge_none", merge_none, SL_ERR_CANNOT_READ, 0, 0, ""},
    {"export_csv", export_csv, SL_OK, 0, 0, ""},
    {"export_json", export_json, SL_OK, 0, 0, ""},
    {"check_it", check_it, SL_OK, 0, 0, ""},
    {"check_strange", check_strange, SL_OK, 0, 0, ""},
    {"check_odd", check_odd, SL_OK, 0, 0, ""},
    {"check_empty", check_empty, SL_ERR_NO_LOG, 0, 0, "name one, such as strands.db"},
    {"check_none", check_none, SL_ERR_CANNOT_READ, 0, 0, ""},
    {"back_up", back_up, SL_OK, 0, 0, ""},
    {"back_up_over_another", back_up_over_another, SL_ERR_USAGE, 0, 0,
     "name a new one: a copy is never written over another file"},
    {"back_up_none", back_up_none, SL_ERR_CANNOT_READ, 0, 0, ""},
    {"back_up_to_nowhere", back_up_to_nowhere, SL_ERR_CANNOT_WRITE, 0, 0, "No such file or directory"},
    {"rescue_it", rescue_it, SL_OK, 0, 0, ""},
    {"rescue_strange", rescue_strange, SL_OK, 0, 0, ""},
    {"rescue_text", rescue_text, SL_ERR_NO_LOG, 0, 0, "name one, such as strands.db"},
    {"rescue_odd", rescue_odd, SL_OK, 0, 0, ""},
    {"rescue_empty", rescue_empty, SL_ERR_NO_LOG, 0, 0, "name one, such as strands.db"},
    {"rescue_over_another", rescue_over_another, SL_ERR_USAGE, 0, 0,
     "name a new one: a copy is never written over another file"},
    {"compare_it", compare_it, SL_OK, 0, 0, ""},
    {"make_example", make_example, SL_OK, 0, 0, ""},
    {"example_of_no_scene", example_of_no_scene, SL_ERR_CANNOT_READ, 0, 0, ""},
    {"person_of_it", person_of_it, SL_OK, 0, 0, ""},
    {"strand_of_place", strand_of_place, SL_OK, 0, 0, ""},
    {"strand_of_no_place", strand_of_no_place, SL_ERR_CANNOT_READ, 0, 0, ""},
    {"strand_of_no_test", strand_of_no_test, SL_ERR_USAGE, 0, 0, "the log has "},
    {"hash_a_photo", hash_a_photo, SL_OK, 0, 0, ""},
    {"hash_a_folder", hash_a_folder, SL_ERR_CANNOT_READ, 0, 0, ""}};
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
    sl_log_reading reading = log_made_reading(&made, 0, "blue", SL_WIPE_GHOST);
    reading.said[SL_SAID_FEEL] = sl_said_of_word(SL_SAID_FEEL, "gummy");
    ck_assert(sl_log_add(made.log, &reading, 1, NULL));
    ck_assert(sl_log_backup(made.path, made.other, NULL, NULL));
    log_made_change(made.other, "CREATE VIEW more AS SELECT 1");
    snprintf(empty, sizeof empty, "%s/empty.db", made.folder);
    snprintf(newer, sizeof newer, "%s/newer.db", made.folder);
    snprintf(odd, sizeof odd, "%s/odd.db", made.folder);
    FILE *const file = fopen(empty, "wb");
    ck_assert(file != NULL && fclose(file) == 0);
    ck_assert(sl_log_backup(made.path, newer, NULL, NULL));
    ck_assert(sl_log_backup(made.path, odd, NULL, NULL));
    log_made_change(newer, "PRAGMA user_version = 99");
    log_made_change(odd, "UPDATE event SET boot_id = printf('%.*c', 37, 'x') WHERE kept = 1");
}

static void tear_down(void)
{
    forget(empty);
    forget(newer);
    forget(odd);
    sl_plan_free(plan);
    sl_scene_free(scene);
    log_made_end(&made);
}

/* The number that the next file gets. */
static int next_file(void)
{
    const int file = dup(0);
    ck_assert_int_ge(file, 0);
    close(file);
    return file;
}

START_TEST(a_call_leaves_memory_or_a_file_behind)
{
    for (int i = 0; i < JOBS; i++) {
        as_it_should = true;
        (void)jobs[i].call(); /* SQLite and GSL keep what they need once */
        (void)jobs[i].call(); /* the open log's pages as well */
        const int next = next_file();
        const sqlite3_int64 used = sqlite3_memory_used();
        faults_arm(0, false);
        const sl_code code = jobs[i].call();
        const faults_count count = faults_disarm();
        ck_assert_msg(code == jobs[i].code, "%s: %s", jobs[i].name, sl_code_name(code));
        ck_assert_msg(last.line == jobs[i].line && last.column == jobs[i].column, "%s: %d, %d", jobs[i].name,
                      last.line, last.column);
        ck_assert_msg(strncmp(last.wanted, jobs[i].wanted, strlen(jobs[i].wanted)) == 0, "%s: %s",
                      jobs[i].name, last.wanted);
        ck_assert_msg(as_it_should, "%s: otherwise than it should be", jobs[i].name);
        ck_assert_msg(count.alive == 0, "%s: %ld blocks", jobs[i].name, count.alive);
        ck_assert_msg(sqlite3_memory_used() == used, "%s: SQLite keeps %lld bytes", jobs[i].name,
                      (long long)(sqlite3_memory_used() - used));
        ck_assert_msg(next_file() == next, "%s: a file is open", jobs[i].name);
        ck_assert_msg(access(spare, F_OK) != 0, "%s: a file is there", jobs[i].name);
    }
}
END_TEST

START_SUITE("log leaks")
FIXTURE(set_up, tear_down)
ADD(a_call_leaves_memory_or_a_file_behind)
END_SUITE
