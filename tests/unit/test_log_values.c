/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What a log holds, value by value: minutes, titles, times, rows, at the edge of what each may be.
 */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "base/memory.h"
#include "log/store/iso_time.h"
#include "log/store/rows.h"
#include "log/store/sql.h"
#include "log_made.h"
#include "suite.h"

static sl_log_made made;

static void set_up(void)
{
    ck_assert_int_eq(setenv("TZ", "UTC", 1), 0);
    tzset();
    log_made_begin(&made);
}

static void tear_down(void)
{
    log_made_end(&made);
}

/* ---- swatches and tests -----------------------------------------------------------------------------------
 */

/* Minutes from 0 to 1440, by commas, as many as a swatch has room for; what is none ends them. */
START_TEST(minutes_of_looks_are_taken_past_a_day_or_past_what_is_none)
{
    static const struct {
        const char *text;
        int n, last_s;
    } cases[] = {{"", 0, 0},          {"0", 1, 0},       {"1440", 1, 86400}, {"5,1441,7", 1, 300},
                 {"5,-1,7", 1, 300},  {"5,x,7", 1, 300}, {"5,", 1, 300},     {"5;7", 1, 300},
                 {"5,10,15", 3, 900}, {"5,,7", 1, 300}};
    char text[300], many[200] = "";
    for (int column = 0; column < 2; column++) {
        for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
            sl_log_swatch *swatches = NULL;
            int n = 0;
            snprintf(text, sizeof text,
                     "UPDATE swatch SET looks_min = '%s', ladder_min = '%s' WHERE id = '%s'",
                     column == 0 ? cases[i].text : "", column == 1 ? cases[i].text : "", made.swatches[0].id);
            log_made_change(made.path, text);
            ck_assert(sl_log_swatches(made.log, made.test, &swatches, &n, NULL));
            ck_assert_msg(swatches[0].bench.n_looks == cases[i].n, "%s: %d", cases[i].text,
                          swatches[0].bench.n_looks);
            ck_assert(cases[i].n == 0 || swatches[0].bench.look_s[cases[i].n - 1] == cases[i].last_s);
            ck_assert(swatches[0].bench.ladder == (column == 1 && cases[i].text[0] != '\0'));
            ck_assert_int_eq(n, made.n);
            sl_free(swatches);
        }
    }
    const int most = (int)(sizeof made.swatches[0].bench.look_s / sizeof made.swatches[0].bench.look_s[0]);
    for (int i = 0; i < most + 2; i++) {
        snprintf(many + strlen(many), sizeof many - strlen(many), "%s%d", i > 0 ? "," : "", i);
    }
    sl_log_swatch *swatches = NULL;
    int n = 0;
    snprintf(text, sizeof text, "UPDATE swatch SET looks_min = '%s', ladder_min = ''", many);
    log_made_change(made.path, text);
    ck_assert(sl_log_swatches(made.log, made.test, &swatches, &n, NULL));
    ck_assert_int_eq(swatches[n - 1].bench.n_looks, most);
    ck_assert_int_eq(swatches[n - 1].bench.look_s[most - 1], 60 * (most - 1));
    ck_assert_int_eq(swatches[n - 1].bench.contact_s, made.swatches[n - 1].bench.contact_s);
    sl_free(swatches);
}
END_TEST

/* The first four that there are, by their first eight letters, and how many more, whatever was asked. */
START_TEST(a_choice_among_tests_is_told_with_others_or_more_than_four)
{
    static const char *const ids[] = {
        "aaaaaaaa-0000-4000-8000-000000000001", "aaaabbbb-0000-4000-8000-000000000002",
        "cccccccc-0000-4000-8000-000000000003", "dddddddd-0000-4000-8000-000000000004",
        "eeeeeeee-0000-4000-8000-000000000005"};
    static const struct {
        const char *beginning, *found;
    } cases[] = {{NULL, "this log holds several tests, and none was named"},
                 {"aaaa", "several tests begin like that"},
                 {"", "several tests begin like that"},
                 {"f", "no test begins like that"}};
    static const char *const known[] = {"",
                                        "",
                                        "the log has aaaaaaaa, aaaabbbb",
                                        "the log has aaaaaaaa, aaaabbbb, cccccccc",
                                        "the log has aaaaaaaa, aaaabbbb, cccccccc, dddddddd",
                                        "the log has aaaaaaaa, aaaabbbb, cccccccc, dddddddd and 1 more"};
    char text[300];
    sl_log_test test = {.id = ""};
    snprintf(text, sizeof text, "UPDATE test SET made = '2026-11-25T10:00:00Z', id = '%s'", ids[0]);
    log_made_change(made.path, text);
    for (int n = 2; n <= 5; n++) {
        snprintf(text, sizeof text,
                 "INSERT INTO test SELECT '%s', title, operator, '2026-11-25T10:00:0%dZ', scene_name,"
                 " scene_sha256, model FROM test WHERE id = '%s'",
                 ids[n - 1], n, ids[0]);
        log_made_change(made.path, text);
        for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
            sl_error error = {.code = SL_OK};
            ck_assert(!sl_log_find(made.log, cases[i].beginning, &test, &error));
            ck_assert_int_eq(error.code, SL_ERR_USAGE);
            ck_assert_str_eq(error.found, cases[i].found);
            ck_assert_str_eq(error.wanted, known[n]);
        }
        for (int i = 0; i < n; i++) {
            ck_assert(sl_log_find(made.log, ids[i], &test, NULL));
            ck_assert_str_eq(test.id, ids[i]);
            ck_assert_int_eq(test.n_swatches, 0); /* they are of the test that had another id */
        }
    }
}
END_TEST

static bool begins(sl_scene *with, const char *title, const char *operator_code, char id[SL_UUID],
                   sl_error *error)
{
    static const char *folders[] = {SLOWLIFT_MODELS};
    sl_folders models = {folders, 1};
    const sl_resolver resolver = sl_resolver_of_folders(&models);
    const sl_plan_request request = sl_plan_request_default();
    sl_plan *plan = NULL;
    sl_error why = {.code = SL_OK};
    ck_assert_msg(sl_plan_make(&plan, with, &request, &why), "%s, %s", why.found, why.wanted);
    const bool good = sl_log_begin(made.log, SLOWLIFT_MODELS "/scenes/eight-arms.yaml", &resolver, plan,
                                   title, operator_code, id, error);
    sl_plan_free(plan);
    return good;
}

/* Seconds of what is planned in minutes and their parts; a label's time is one from nothing on. */
START_TEST(a_part_of_a_minute_of_the_plan_is_lost_or_a_title_of_too_many_letters_kept)
{
    static const char *folders[] = {SLOWLIFT_MODELS};
    sl_folders models = {folders, 1};
    const sl_resolver resolver = sl_resolver_of_folders(&models);
    sl_scene *const with = sl_scene_load(SLOWLIFT_MODELS "/scenes/eight-arms.yaml", &resolver, NULL);
    char id[SL_UUID], title[SL_LOG_TITLE + 1];
    sl_error error = {.code = SL_OK};
    sl_log_swatch *swatches = NULL;
    int n = 0, on = 0, off = 0;
    for (int i = 0; i < with->n_mixes; i++) {
        with->mixes[i].label_max_min = i % 2 == 0 ? 20.25 : 0.0;
    }
    for (int a = 0; a < with->n_arms; a++) {
        for (int s = 0; s < with->arms[a].n_steps; s++) {
            with->arms[a].steps[s].mix_age_min = 1.2583; /* 75.498 s */
        }
    }
    memset(title, 't', sizeof title);
    title[SL_LOG_TITLE] = '\0';
    ck_assert(!begins(with, title, "op-1", id, &error));
    ck_assert_int_eq(error.code, SL_ERR_TOO_LARGE);
    title[SL_LOG_TITLE - 1] = '\0';
    ck_assert(!begins(with, title, "op 1", id, &error));
    ck_assert(begins(with, title, "op-1", id, &error));
    ck_assert(sl_log_swatches(made.log, id, &swatches, &n, NULL));
    for (int i = 0; i < n; i++) {
        const int arm = sl_scene_arm(with, swatches[i].arm);
        const sl_step *const step = sl_arm_application(&with->arms[arm]);
        const bool labelled = step && with->mixes[step->mix].label_max_min > 0.0;
        ck_assert_int_eq(swatches[i].bench.label_s, labelled ? 1215 : 0);
        ck_assert_int_eq(swatches[i].bench.mix_age_s, step ? 75 : 0);
        ck_assert(swatches[i].bench.contact_s >= 0 || swatches[i].bench.dwell_s == 0);
        ck_assert(step || swatches[i].bench.contact_s == -1);
        on += labelled ? 1 : 0;
        off += labelled ? 0 : 1;
    }
    ck_assert(on > 0 && off > 0);
    sl_free(swatches);
    sl_log_test test;
    ck_assert(sl_log_find(made.log, id, &test, NULL));
    ck_assert_str_eq(test.title, title);
    sl_scene_free(with);
}
END_TEST

/* Pieces at 5 and 10 min and the rest at 20, of a mix that is put on in the first second of the day. */
START_TEST(what_is_put_on_in_the_first_second_is_never_put_on_or_has_no_pieces)
{
    static const char *folders[] = {SLOWLIFT_MODELS};
    sl_folders models = {folders, 1};
    const sl_resolver resolver = sl_resolver_of_folders(&models);
    static const char path[] = SLOWLIFT_MODELS "/scenes/eight-arms.yaml";
    sl_scene *const scene = sl_scene_load(path, &resolver, NULL);
    sl_plan_request request = sl_plan_request_default();
    sl_plan *plan = NULL;
    sl_log_swatch *swatches = NULL;
    char id[SL_UUID];
    int n = 0, first = 0;
    for (request.n_rungs = 0; request.n_rungs < 3; request.n_rungs++) {
        request.rung_min[request.n_rungs] = 5 << request.n_rungs;
    }
    ck_assert(sl_plan_make(&plan, scene, &request, NULL));
    while (plan->swatches[first].contact_s < 0) {
        first++;
    }
    plan->swatches[first].water_s -= plan->swatches[first].contact_s;
    plan->swatches[first].contact_s = 0;
    ck_assert_int_eq(plan->swatches[first].water_s, 1200);
    ck_assert(sl_log_begin(made.log, path, &resolver, plan, "soon", "op-1", id, NULL));
    ck_assert(sl_log_swatches(made.log, id, &swatches, &n, NULL));
    ck_assert_str_eq(swatches[first].bench.code, plan->swatches[first].code);
    ck_assert_int_eq(swatches[first].bench.contact_s, 0);
    ck_assert_int_eq(swatches[first].bench.dwell_s, 1200);
    ck_assert(swatches[first].bench.ladder && swatches[first].bench.n_looks == 2);
    ck_assert(swatches[first].bench.look_s[0] == 300 && swatches[first].bench.look_s[1] == 600);
    sl_free(swatches);
    sl_plan_free(plan);
    sl_scene_free(scene);
    char *bytes = NULL;
    size_t length = 0;
    FILE *const out = open_memstream(&bytes, &length);
    ck_assert(sl_log_export_json(made.log, id, out, NULL));
    fclose(out);
    ck_assert_ptr_nonnull(strstr(bytes, "\"contact_s\": 0, "));
    ck_assert_ptr_nonnull(strstr(bytes, "\"contact_s\": null, ")); /* of untreated hair */
    ck_assert_ptr_nonnull(strstr(bytes, "\"label_s\": null, "));   /* no label says a time */
    ck_assert_ptr_null(strstr(bytes, "\"label_s\": 0"));
    free(bytes);
}
END_TEST

/* Hair 9, 8 and 10, each followed by the hair that it was made of; the first comes again, and so does a mix:
 * each file once, as it was asked for, and a name is not taken for one beside it in the alphabet. */
START_TEST(a_file_of_a_scene_is_kept_twice_or_one_of_another_name_is_not_kept)
{
    static const char scene[] =
        "kind: scene\nversion: 1\ntitle: Odd\norigin: our own invention\nlies: bench\nroom: 24 °C\nuntil: 75 "
        "min\n"
        "hair_mass: 2 g\ndyes: bright-one\nzones:\n  - {name: red, hair: prelight-9, dye: {red: 9}}\n"
        "  - {name: blue, hair: prelight-8, dye: {blue: 9}}\n  - {name: undyed, hair: prelight-9}\n"
        "  - {name: light, hair: prelight-10}\n"
        "application:\n  mix_per_hair: 6 g/g\n  mix_age: 1 min\n  hair: dry\n  covered: yes\narms:\n"
        "  - name: one\n    steps:\n      - {apply: powder-6, dwell: 20 min}\n"
        "  - name: two\n    steps:\n      - {apply: powder-3, dwell: 20 min}\n"
        "  - name: three\n    steps:\n      - {apply: powder-6, dwell: 10 min}\n";
    char names[1000];
    log_made_end(&made);
    log_made_begin_text(&made, scene, NULL, 0);
    log_made_text(
        made.path,
        "SELECT group_concat(kind || ' ' || name, ', ') FROM (SELECT kind, name FROM scene_file WHERE"
        " kind IN ('hair', 'mix') ORDER BY place)",
        names, sizeof names);
    ck_assert_str_eq(
        names,
        "hair prelight-9, hair natural-5, hair prelight-8, hair natural-4, hair prelight-10, hair natural-6, "
        "mix powder-6, mix powder-3, mix powder-water");
    sl_scene *const kept = sl_log_scene(made.log, made.test, NULL);
    ck_assert(kept && kept->n_zones == 4 && kept->n_mixes == 2);
    sl_scene_free(kept);
}
END_TEST

/* Another program took the table away. */
START_TEST(a_test_is_found_where_tests_cannot_be_read)
{
    sl_log_test test = {.id = "none"}, *tests = NULL;
    sl_error error = {.code = SL_OK};
    int n = 7;
    log_made_change(made.path, "DROP TABLE test");
    ck_assert(!sl_log_tests(made.log, &tests, &n, &error));
    error = (sl_error){.code = SL_OK};
    ck_assert(!sl_log_find(made.log, NULL, &test, &error));
    ck_assert_int_ne(error.code, SL_OK);
    ck_assert_str_eq(test.id, "none");
}
END_TEST

/* ---- statements -----------------------------------------------------------------------------------------
 */

/* In the file, and nowhere in it. */
static void told_of_the_file(const sl_error *error, sl_code code)
{
    ck_assert_int_eq(error->code, code);
    ck_assert_str_eq(error->file, made.path);
    ck_assert_msg(error->line == 0 && error->column == 0, "%d, %d", error->line, error->column);
}

START_TEST(a_statement_that_cannot_be_made_goes_well)
{
    static const char *const wrong[] = {"SELECT", "SELECT nothing FROM test", "SELECT id FROM nowhere"};
    for (size_t i = 0; i < sizeof wrong / sizeof wrong[0]; i++) {
        sl_error error = {.code = SL_OK};
        sl_statement ask = sl_sql(made.log, wrong[i], &error);
        ck_assert_msg(ask.bad, "%s", wrong[i]);
        ck_assert_int_eq(error.code, SL_ERR_CANNOT_WRITE); /* the log is open to be written */
        sl_put_text(&ask, "x");
        sl_put_int(&ask, 1);
        sl_put_real(&ask, 1.0);
        ck_assert_int_eq(ask.bound, 0);
        ck_assert(!sl_next_row(&ask));
        ck_assert(!sl_sql_leave(&ask));
        ck_assert(!sl_sql_run(made.log, wrong[i], &error));
    }
}
END_TEST

START_TEST(a_number_that_nothing_answers_is_one_or_told_at_a_line)
{
    int64_t number = 7;
    sl_error error = {.code = SL_OK};
    ck_assert(sl_sql_number(made.log, "SELECT 42", &number, &error));
    ck_assert_int_eq((int)number, 42);
    ck_assert(!sl_sql_number(made.log, "SELECT 42 WHERE 0", &number, &error));
    ck_assert_int_eq((int)number, 0);
    told_of_the_file(&error, SL_ERR_DAMAGED);
    ck_assert_str_eq(error.found, "SELECT 42 WHERE 0");
}
END_TEST

/* What SQLite counts to four thousand with takes more than one unit of its steps, and few. */
START_TEST(a_statement_is_stopped_for_the_steps_that_the_one_before_it_took)
{
    static const char counts[] =
        "WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < 4000)"
        " SELECT max(i) FROM n";
    sl_error error = {.code = SL_OK};
    made.log->steps_left = 0;
    ck_assert(sl_sql_run(made.log, counts, &error));
    made.log->steps_left = 0;
    sl_statement ask = sl_sql(made.log, counts, &error);
    ck_assert(sl_next_row(&ask));
    ck_assert_int_eq((int)sl_int_at(&ask, 0), 4000);
    made.log->steps_left = 0;
    sl_sql_again(&ask);
    ck_assert(sl_next_row(&ask));
    sl_sql_again(&ask);
    made.log->steps_left = 0; /* here they are used up */
    ck_assert(!sl_next_row(&ask));
    told_of_the_file(&error, SL_ERR_DAMAGED);
    ck_assert(!sl_sql_leave(&ask));
}
END_TEST

/* What a file that was made up could ask for: so many are enough for every statement of ours, and one more is
 * refused. */
START_TEST(a_statement_may_be_larger_than_any_of_ours_or_not_as_large)
{
    static const struct {
        const char *begins, *again, *ends;
        int most; /* of the piece that comes again */
    } cases[] = {{"SELECT 1", ", 1", "", 99},          {"SELECT 1", " UNION ALL SELECT 1", "", 19},
                 {"SELECT max(1", ", 1", ")", 19},     {"SELECT 1", " + 1", "", 199},
                 {"SELECT 'a' LIKE '", "a", "'", 200}, {"SELECT 1", " ", "", 100000 - 8}};
    char *const text = malloc(100100);
    ck_assert_ptr_nonnull(text);
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        for (int more = 0; more < 2; more++) {
            const size_t piece = strlen(cases[i].again);
            char *at = stpcpy(text, cases[i].begins);
            for (int k = 0; k < cases[i].most + more; k++, at += piece) {
                memcpy(at, cases[i].again, piece);
            }
            strcpy(at, cases[i].ends);
            ck_assert_msg(sl_sql_run(made.log, text, NULL) == (more == 0), "%s, %d more", cases[i].again,
                          more);
        }
    }
    free(text);
    ck_assert(sl_sql_run(made.log, "SELECT ?100", NULL) && !sl_sql_run(made.log, "SELECT ?101", NULL));
    ck_assert(sl_sql_run(made.log, "SELECT zeroblob(4194304)", NULL));
    ck_assert(!sl_sql_run(made.log, "SELECT zeroblob(4194305)", NULL));
}
END_TEST

START_TEST(a_row_that_was_not_added_goes_for_one_or_two_for_one)
{
    static const char *const adds[] = {"INSERT INTO some SELECT 1 WHERE 0", "INSERT INTO some VALUES (1)",
                                       "INSERT INTO some VALUES (1), (2)"};
    ck_assert(sl_sql_run(made.log, "CREATE TEMP TABLE some (n INTEGER)", NULL));
    for (int rows = 0; rows < 3; rows++) {
        sl_error error = {.code = SL_OK};
        sl_statement put = sl_sql(made.log, adds[rows], &error);
        ck_assert_msg(sl_sql_added(&put) == (rows == 1), "%s", adds[rows]);
        if (rows != 1) {
            told_of_the_file(&error, SL_ERR_STRANGE_LOG);
        }
    }
}
END_TEST

/* Of each mean its own number of readings and swatches; zones by their place, whatever they are called. */
START_TEST(a_mean_counts_what_was_taken_back_or_is_another_s)
{
    sl_log_mean *means = NULL;
    int n = 0;
    const int one = log_made_swatch(&made, "powder + 6 %", 0),
              two = log_made_swatch(&made, "powder + 6 %", 1),
              other = log_made_swatch(&made, "powder + 3 %", 0);
    sl_log_reading rows[9] = {log_made_reading(&made, one, "violet", SL_WIPE_HALF),
                              log_made_reading(&made, one, "violet", SL_WIPE_SLIGHT),
                              log_made_reading(&made, two, "violet", SL_WIPE_GHOST),
                              log_made_reading(&made, other, "violet", SL_WIPE_UNDYED),
                              log_made_reading(&made, other, "red", SL_WIPE_NO_CHANGE),
                              log_made_colour(&made, two, "violet", 40.0, 1.0, -8.0),
                              log_made_colour(&made, one, "violet", 60.0, 3.0, -4.0),
                              log_made_reading(&made, one, "violet", SL_WIPE_NO_CHANGE),
                              log_made_reading(&made, one, "violet", SL_WIPE_NO_CHANGE)};
    rows[7].minute = 0.0;      /* before it began */
    rows[8].hours_after = 0.0; /* again */
    ck_assert(sl_log_add(made.log, rows, 9, NULL));
    sl_log_reading invalid = log_made_reading(&made, two, "violet", SL_WIPE_NO_CHANGE);
    invalid.said[SL_SAID_OUTCOME] = sl_said_of_word(SL_SAID_OUTCOME, "invalid");
    ck_assert(sl_log_add(made.log, &invalid, 1, NULL));
    ck_assert(sl_log_means(made.log, made.test, &means, &n, NULL));
    ck_assert_int_eq(n, 3);
    const int v = strcmp(means[0].zone, "violet") == 0 ? 0 : 1; /* where red comes first */
    ck_assert_str_eq(means[v].arm, "powder + 3 %");
    ck_assert(means[v].n_readings == 1 && means[v].n_swatches == 1);
    ck_assert(means[v].left_sd <= SL_NOT_READ && means[v].L <= SL_NOT_READ && means[v].b <= SL_NOT_READ);
    ck_assert_double_eq(means[v].left, 0.0);
    ck_assert_str_eq(means[v + 1].arm, "powder + 6 %");
    ck_assert(means[v + 1].n_readings == 5 && means[v + 1].n_swatches == 2);
    /* (0.5 + 0.8) / 2 = 0.65 and 0.1: 0.375, spread 0.55 / sqrt(2) */
    ck_assert_double_eq_tol(means[v + 1].left, 0.375, 1e-12);
    ck_assert_double_eq_tol(means[v + 1].left_sd, 0.38890872965260115, 1e-12);
    ck_assert_double_eq(means[v + 1].L, 50.0);
    ck_assert_double_eq(means[v + 1].a, 2.0);
    ck_assert_double_eq(means[v + 1].b, -6.0);
    ck_assert_str_eq(means[v == 0 ? 2 : 0].zone, "red");
    ck_assert_double_eq(means[v == 0 ? 2 : 0].left, 1.0);
    sl_free(means);
}
END_TEST

/* ---- values
 * ------------------------------------------------------------------------------------------------ */

/* A zone of POSIX east and west of Greenwich, by hours and minutes; parts of a second to the ninth digit. */
START_TEST(a_time_is_written_with_another_offset_or_read_with_other_digits)
{
    static const struct {
        const char *zone, *words;
    } zones[] = {{"UTC", "2026-11-25T09:00:00+00:00"},
                 {"AAA-5:30", "2026-11-25T14:30:00+05:30"},
                 {"AAA3:30", "2026-11-25T05:30:00-03:30"},
                 {"AAA-14", "2026-11-25T23:00:00+14:00"}};
    for (size_t i = 0; i < sizeof zones / sizeof zones[0]; i++) {
        char words[SL_TIME_TEXT];
        int64_t ns = 0;
        ck_assert_int_eq(setenv("TZ", zones[i].zone, 1), 0);
        tzset();
        sl_time_words(INT64_C(1795597200999999999), words); /* the second that it is in */
        ck_assert_str_eq(words, zones[i].words);
        ck_assert(sl_time_read(words, &ns, NULL));
        ck_assert(ns == INT64_C(1795597200000000000));
    }
    static const struct {
        const char *text;
        int64_t ns; /* beyond 2026-11-25T09:00:00Z */
    } parts[] = {{"2026-11-25T09:00:00.123456789Z", 123456789},
                 {"2026-11-25T09:00:00,1234567899Z", 123456789},
                 {"2026-11-25T09:00:00.09Z", 90000000},
                 {"2026-11-25T09:00:00.9000000001Z", 900000000},
                 {"2026-11-25T09:00:59.0+00:00", INT64_C(59000000000)},
                 {"2026-11-25T08:59:00-00:01", 0},
                 {"2026-11-25T09:01:00+00:01", 0},
                 {"2026-11-26T08:59:00+23:59", 0},
                 {"2026-11-24T09:01:00-23:59", 0}};
    for (size_t i = 0; i < sizeof parts / sizeof parts[0]; i++) {
        int64_t ns = 0;
        ck_assert_msg(sl_time_read(parts[i].text, &ns, NULL), "%s", parts[i].text);
        ck_assert_msg(ns == INT64_C(1795597200000000000) + parts[i].ns, "%s: %lld", parts[i].text,
                      (long long)ns);
    }
    static const char *const none[] = {"2026-11-2:T09:00:00Z",     "2026-11-2/T09:00:00Z",
                                       "2026-1-25T09:00:00Z",      "2026-11-25T09:00:00.:Z",
                                       "2026-11-25T09:00:00./Z",   "2026-11-25T09:00:00+:0:00",
                                       "2026-11-25T09:00:00+00:0", "2026-11-25T09:00:00+",
                                       "2026-11-25T9:00:00Z",      "-026-11-25T09:00:00Z"};
    for (size_t i = 0; i < sizeof none / sizeof none[0]; i++) {
        int64_t ns = 0;
        ck_assert_msg(!sl_time_read(none[i], &ns, NULL), "%s", none[i]);
    }
}
END_TEST

static const sl_kept_column *column_of(const char *table, const char *name)
{
    for (int t = 0; t < SL_KEPT_TABLES; t++) {
        for (int i = 0; strcmp(sl_kept_tables[t].name, table) == 0 && i < sl_kept_tables[t].n; i++) {
            if (strcmp(sl_kept_tables[t].columns[i].name, name) == 0) {
                return &sl_kept_tables[t].columns[i];
            }
        }
    }
    ck_abort_msg("%s has no column %s", table, name);
    return NULL;
}

static bool fits(const char *table, const char *column, const char *value)
{
    char text[200];
    snprintf(text, sizeof text, "SELECT %s", value);
    sl_statement row = sl_sql(made.log, text, NULL);
    ck_assert_msg(sl_next_row(&row), "%s", text);
    const sl_kept_column *const of = column_of(table, column);
    const bool fit = sl_value_fits(&row, 0, of);
    ck_assert(sl_row_unfit(&row, 0, of, 1) == (fit ? NULL : of));
    ck_assert(sl_sql_leave(&row));
    return fit;
}

/* A value at the edge of what its column may hold, and one past it; null is another's matter. */
START_TEST(a_value_past_what_its_column_holds_fits_or_one_at_the_edge_does_not)
{
    static const struct {
        const char *table, *column;
        int bytes;
    } texts[] = {{"test", "title", 800},       {"test", "operator", 128},    {"test", "scene_name", 200},
                 {"scene_file", "kind", 15},   {"scene_file", "name", 71},   {"scene_file", "text", 1048576},
                 {"zone", "name", 163},        {"swatch", "code", 7},        {"swatch", "arm", 200},
                 {"swatch", "label_from", 11}, {"swatch", "looks_min", 400}, {"swatch", "ladder_min", 400},
                 {"event", "kind", 40},        {"event", "boot_id", 36},     {"event", "reason", 20},
                 {"event", "note", 200},       {"event", "clocks", 20},      {"event", "remark", 60},
                 {"reading", "zone", 163},     {"reading", "note", 200},     {"reading", "tone", 24},
                 {"import", "name", 4095}};
    static const struct {
        const char *table, *column, *least, *most, *below, *above;
    } numbers[] = {{"scene_file", "place", "0", "100000", "-1", "100001"},
                   {"swatch", "block", "0", "100000", "-1", "100001"},
                   {"swatch", "dwell_s", "0", "864000", "-1", "864001"},
                   {"swatch", "contact_s", "0", "864000", "-1", "864001"},
                   {"event", "late_s", "-864000", "864000", "-864001", "864001"},
                   {"event", "speed", "1.0", "1e6", "0.999", "1000001.0"},
                   {"event", "boot_ns", "-4611686018427387904", "4611686018427387904", "-9223372036854775807",
                    "9223372036854775807"},
                   {"import", "readings", "0", "4611686018427387904", "-1", "9223372036854775807"},
                   {"reading", "minute", "0", "10000.0", "-0.001", "10000.001"},
                   {"reading", "hours_after", "0.0", "100000", "-1", "100000.5"},
                   {"reading", "n", "1", "1000", "0", "1001"},
                   {"reading", "level", "1", "11.0", "0.9", "11.1"},
                   {"reading", "L", "0", "100", "-0.1", "100.1"},
                   {"reading", "a", "-150", "150", "-150.1", "150.1"},
                   {"reading", "b", "-150", "150", "-150.1", "150.1"},
                   {"reading", "sd_L", "0", "100", "-0.1", "100.1"},
                   {"reading", "blind", "0", "1", "-1", "2"}};
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++) {
        for (int more = 0; more < 2; more++) {
            char value[80];
            snprintf(value, sizeof value, "printf('%%.*c', %d, 'x')", texts[i].bytes + more);
            ck_assert_msg(fits(texts[i].table, texts[i].column, value) == (more == 0), "%s.%s, %d",
                          texts[i].table, texts[i].column, texts[i].bytes + more);
        }
        ck_assert(!fits(texts[i].table, texts[i].column, "7"));
        ck_assert(!fits(texts[i].table, texts[i].column, "x'41'"));
        ck_assert(!fits(texts[i].table, texts[i].column, "'a' || char(0)"));
        ck_assert(fits(texts[i].table, texts[i].column, "NULL"));
        ck_assert(fits(texts[i].table, texts[i].column, "''"));
    }
    for (size_t i = 0; i < sizeof numbers / sizeof numbers[0]; i++) {
        const char *const table = numbers[i].table, *const column = numbers[i].column;
        ck_assert_msg(fits(table, column, numbers[i].least) && fits(table, column, numbers[i].most), "%s.%s",
                      table, column);
        ck_assert_msg(!fits(table, column, numbers[i].below) && !fits(table, column, numbers[i].above),
                      "%s.%s", table, column);
        ck_assert(!fits(table, column, "'1'") && !fits(table, column, "x'31'"));
        ck_assert(fits(table, column, "NULL"));
    }
    ck_assert(!fits("swatch", "dwell_s", "5.0") && !fits("reading", "n", "5.0"));
    ck_assert(!fits("reading", "blind", "1.0") && fits("reading", "minute", "5"));
    ck_assert(!fits("reading", "minute", "9e999"));
}
END_TEST

/* Ids by 8-4-4-4-12 hexadecimal digits, a SHA-256 by 64. */
START_TEST(an_id_a_hash_a_code_a_time_or_a_word_fits_that_is_none)
{
    static const struct {
        const char *table, *column, *value;
        bool is;
    } cases[] = {{"reading", "id", "'01234567-89ab-cdef-ABCD-EF0123456789'", true},
                 {"reading", "id", "'01234567-89ab-cdef-ABCD-EF012345678'", false},
                 {"reading", "id", "'01234567-89ab-cdef-ABCD-EF01234567890'", false},
                 {"reading", "id", "'0123456-789ab-cdef-ABCD-EF0123456789'", false},
                 {"reading", "id", "'01234567-89a-bcdef-ABCD-EF0123456789'", false},
                 {"reading", "id", "'01234567-89ab-cde-fABCD-EF0123456789'", false},
                 {"reading", "id", "'01234567-89ab-cdef-ABC-DEF0123456789'", false},
                 {"reading", "id", "'0123456789ab-cdef-ABCD-EF01-23456789'", false},
                 {"reading", "id", "'g1234567-89ab-cdef-ABCD-EF0123456789'", false},
                 {"reading", "id", "'01234567-89ab-cdef-ABCD-EF012345678g'", false},
                 {"test", "scene_sha256", "printf('%.*c', 64, 'f')", true},
                 {"test", "scene_sha256", "printf('%.*c', 63, 'f')", false},
                 {"test", "scene_sha256", "printf('%.*c', 65, 'f')", false},
                 {"test", "scene_sha256", "printf('%.*c', 64, 'g')", false},
                 {"test", "scene_sha256", "'01234567-' || printf('%.*c', 55, 'f')", false},
                 {"reading", "judge", "'j1'", true},
                 {"reading", "judge", "'j 1'", false},
                 {"reading", "judge", "''", false},
                 {"reading", "at", "'2026-11-25T09:00:00Z'", true},
                 {"reading", "at", "'2026-11-25'", false},
                 {"test", "made", "'2026-11-25T09:00:00+01:00'", true},
                 {"test", "made", "'soon'", false},
                 {"reading", "grade", "'as undyed'", true},
                 {"reading", "grade", "'no change'", true},
                 {"reading", "grade", "'gone'", false},
                 {"reading", "grade", "x'6173'", false},
                 {"reading", "outcome", "'invalid'", true},
                 {"reading", "outcome", "'as undyed'", false}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        ck_assert_msg(fits(cases[i].table, cases[i].column, cases[i].value) == cases[i].is, "%s.%s: %s",
                      cases[i].table, cases[i].column, cases[i].value);
    }
    ck_assert(sl_row_number_fits(1) && !sl_row_number_fits(0) && !sl_row_number_fits(-1));
    ck_assert(sl_row_number_fits(INT64_MAX / 2 - 1) && !sl_row_number_fits(INT64_MAX / 2));
}
END_TEST

/* Of several values that do not fit the first is told. */
START_TEST(a_row_is_told_for_another_column_than_the_first_that_does_not_fit)
{
    const sl_kept_table *const zones = &sl_kept_tables[2];
    static const char *const rows[] = {"SELECT 0, '01234567-89ab-cdef-0123-456789abcdef', 1, 'red'",
                                       "SELECT 0, '01234567-89ab-cdef-0123-456789abcdef', -1, 7",
                                       "SELECT 0, '01234567-89ab-cdef-0123-456789abcdef', 1, 7",
                                       "SELECT 0, 'x', -1, 7"};
    static const char *const told[] = {NULL, "place", "name", "test"};
    for (int i = 0; i < 4; i++) {
        sl_statement row = sl_sql(made.log, rows[i], NULL);
        ck_assert(sl_next_row(&row));
        const sl_kept_column *const unfit = sl_row_unfit(&row, 1, zones->columns, zones->n);
        ck_assert((unfit == NULL) == (told[i] == NULL));
        ck_assert(!unfit || strcmp(unfit->name, told[i]) == 0);
        ck_assert(sl_sql_leave(&row));
    }
}
END_TEST

/* What is longer than its room, or not of plain letters, is shown and cut. */
START_TEST(a_text_of_a_log_is_read_past_its_room_or_raw)
{
    static const struct {
        const char *value, *line, *lines;
    } cases[] = {{"'abcdefg'", "abcdefg", "abcdefg"},
                 {"' ~'", " ~", " ~"},
                 {"''", "", ""},
                 {"NULL", "", ""},
                 {"'a' || char(10) || 'b'", "a\\u{A}b", "a\nb"},
                 {"char(233) || 'a'",
                  "\xC3\xA9"
                  "a",
                  "\xC3\xA9"
                  "a"}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        char text[80], one[8], two[8];
        snprintf(text, sizeof text, "SELECT 7, %s", cases[i].value);
        sl_statement row = sl_sql(made.log, text, NULL);
        ck_assert(sl_next_row(&row));
        sl_copy_at(&row, 1, one, sizeof one);
        sl_copy_lines_at(&row, 1, two, sizeof two);
        ck_assert_str_eq(one, cases[i].line);
        ck_assert_str_eq(two, cases[i].lines);
        ck_assert(sl_sql_leave(&row));
    }
    for (int n = 6; n < 12; n++) {
        char text[80], shown[8];
        memset(shown, '#', sizeof shown);
        snprintf(text, sizeof text, "SELECT printf('%%.*c', %d, 'x')", n);
        sl_statement row = sl_sql(made.log, text, NULL);
        ck_assert(sl_next_row(&row));
        sl_copy_at(&row, 0, shown, sizeof shown);
        ck_assert(memchr(shown, '\0', sizeof shown) != NULL);
        ck_assert(n > 7 || (int)strlen(shown) == n);
        ck_assert(strncmp(shown, "xxxx", 4) == 0);
        ck_assert(sl_sql_leave(&row));
    }
}
END_TEST

/* ---- events and readings, as they are kept ----------------------------------------------------------------
 */

static void kept_as(const char *table, const char *columns, const char *wanted)
{
    char text[600];
    snprintf(text, sizeof text, "SELECT %s FROM %s ORDER BY kept DESC LIMIT 1", columns, table);
    sl_statement row = sl_sql(made.log, text, NULL);
    ck_assert_msg(sl_next_row(&row), "%s", text);
    ck_assert_str_eq(sl_text_at(&row, 0), wanted);
    ck_assert(sl_sql_leave(&row));
}

/* Each member in its own column: what was not said is null. */
START_TEST(a_member_of_an_event_is_kept_in_another_column)
{
    static const char columns[] =
        "kind || '|' || boot_ns || '|' || wall_ns || '|' || boot_id || '|' || at || '|' ||"
        " coalesce(reason, '-') || '|' || coalesce(about, '-') || '|' || coalesce(note, '-') || '|' ||"
        " coalesce(speed, '-') || '|' || coalesce(late_s, '-') || '|' || coalesce(clocks, '-') || '|' ||"
        " coalesce(remark, '-') || '|' || coalesce((SELECT code FROM swatch WHERE id = swatch), '-')";
    sl_event stop = {.kind = SL_EVENT_STOPPED,
                     .swatch = 2,
                     .reason = SL_REASON_HEAT,
                     .speed = 60.0,
                     .was_due = true,
                     .late_s = -5,
                     .clocks = SL_CLOCKS_RESTARTED,
                     .remark = SL_REMARK_WARM,
                     .at = {.boot_ns = 11, .wall_ns = INT64_C(1795597200999999999), .boot_id = "one"}};
    char wanted[300], first[SL_UUID];
    ck_assert(sl_log_append(made.log, made.test, made.swatches, made.n, &stop, "two\nlines", NULL));
    snprintf(wanted, sizeof wanted,
             "stop and rinse|11|1795597200999999999|one|2026-11-25T09:00:00Z|heat|-|two\nlines|60.0|-5|"
             "restarted|it feels warm|%s",
             made.swatches[2].bench.code);
    kept_as("event e", columns, wanted);
    memcpy(first, stop.id, sizeof first);
    /* one that says less, of a swatch past the last */
    sl_event little = {.kind = SL_EVENT_UNDONE,
                       .swatch = made.n,
                       .reason = SL_REASON_HEAT,
                       .speed = 1.0,
                       .late_s = 9,
                       .at = {.boot_ns = -1, .wall_ns = INT64_C(1795597201000000000), .boot_id = ""}};
    memcpy(little.about, first, sizeof first);
    ck_assert(sl_log_append(made.log, made.test, made.swatches, made.n, &little, "", NULL));
    snprintf(wanted, sizeof wanted, "undone|-1|1795597201000000000||2026-11-25T09:00:01Z|-|%s|-|-|-|-|-|-",
             first);
    kept_as("event e", columns, wanted);
    little.id[0] = '\0';
    little.about[0] = '\0';
    little.kind = SL_EVENT_NOTED;
    little.swatch = made.n - 1;
    little.was_due = true;
    little.late_s = 0;
    little.clocks = SL_CLOCKS_DISAGREE;
    ck_assert(sl_log_append(made.log, made.test, made.swatches, made.n, &little, NULL, NULL));
    snprintf(wanted, sizeof wanted,
             "note|-1|1795597201000000000||2026-11-25T09:00:01Z|-|-|-|-|0|disagreed|-|%s",
             made.swatches[made.n - 1].bench.code);
    kept_as("event e", columns, wanted);
    /* and back */
    sl_event *events = NULL;
    int n = 0;
    ck_assert(sl_log_events(made.log, made.test, made.swatches, made.n, &events, &n, NULL));
    ck_assert_int_eq(n, 3);
    ck_assert(events[0].kind == SL_EVENT_STOPPED && events[0].swatch == 2);
    ck_assert(events[0].reason == SL_REASON_HEAT && events[0].clocks == SL_CLOCKS_RESTARTED);
    ck_assert(events[0].remark == SL_REMARK_WARM && events[0].was_due && events[0].late_s == -5);
    ck_assert_double_eq(events[0].speed, 60.0);
    ck_assert(events[0].at.boot_ns == 11 && events[0].at.wall_ns == INT64_C(1795597200999999999));
    ck_assert_str_eq(events[0].at.boot_id, "one");
    ck_assert_str_eq(events[1].about, first);
    ck_assert(events[1].swatch == -1 && !events[1].was_due && events[1].late_s == 0);
    ck_assert(events[1].reason == SL_REASON_UNSAID && events[1].clocks == SL_CLOCKS_AGREE);
    ck_assert(events[2].swatch == made.n - 1 && events[2].was_due && events[2].late_s == 0);
    ck_assert(events[2].clocks == SL_CLOCKS_DISAGREE);
    sl_free(events);
}
END_TEST

typedef struct seen_rows {
    int n, most;
    char text[600];
} seen_rows;

static bool see_row(void *self, const sl_log_reading *reading, const sl_log_swatch *swatch, const char *test,
                    sl_error *error)
{
    seen_rows *const all = self;
    (void)error;
    ck_assert_str_eq(swatch->id, reading->swatch);
    ck_assert(strcmp(test, made.test) == 0);
    snprintf(all->text + strlen(all->text), sizeof all->text - strlen(all->text), "%s,%s,%d,%s;",
             swatch->bench.code, swatch->arm, swatch->block, reading->note);
    all->n++;
    return all->n < all->most;
}

/* In the order in which they were kept, with their swatch; corrected ones by one of the two alone. */
START_TEST(a_reading_is_visited_with_another_swatch_or_after_one_said_that_is_enough)
{
    const int swatch[3] = {made.n - 1, 0, made.n - 1};
    char wanted[600] = "", id[SL_UUID];
    for (int i = 0; i < 3; i++) {
        sl_log_reading reading = log_made_reading(&made, swatch[i], "red", SL_WIPE_HALF);
        snprintf(reading.note, sizeof reading.note, "%d", i);
        if (i == 2) {
            memcpy(reading.replaces, id, sizeof id);
        }
        ck_assert(sl_log_add(made.log, &reading, 1, NULL));
        if (i == 0) {
            memcpy(id, reading.id, sizeof id);
        }
        snprintf(wanted + strlen(wanted), sizeof wanted - strlen(wanted), "%s,%s,%d,%d;",
                 made.swatches[swatch[i]].bench.code, made.swatches[swatch[i]].arm,
                 made.swatches[swatch[i]].block, i);
    }
    ck_assert_int_eq(made.swatches[made.n - 1].block, 2);
    seen_rows all = {.most = 9}, two = {.most = 2}, latest = {.most = 9}, none = {.most = 9};
    ck_assert(sl_log_each_reading(made.log, made.test, see_row, &all, NULL));
    ck_assert_str_eq(all.text, wanted);
    ck_assert(!sl_log_each_reading(made.log, NULL, see_row, &two, NULL));
    ck_assert_int_eq(two.n, 2);
    ck_assert(sl_log_each_latest(made.log, NULL, see_row, &latest, NULL));
    ck_assert_int_eq(latest.n, 2);
    ck_assert_str_eq(latest.text, strchr(wanted, ';') + 1);
    ck_assert(sl_log_each_reading(made.log, "00000000-0000-4000-8000-000000000000", see_row, &none, NULL));
    ck_assert_int_eq(none.n, 0);
}
END_TEST

/* A clock that ran once as fast as the real one was none of a rehearsal; a millionth is no other speed. */
START_TEST(a_speed_that_is_none_makes_a_rehearsal_or_one_that_is_the_same_is_refused)
{
    static const struct {
        const char *note;
        double speed;
    } notes[] = {{"rehearsal: 1 times as fast", 0.0},
                 {"rehearsal: 1.5 times as fast", 1.5},
                 {"rehearsal: 60 times", 0.0},
                 {"a rehearsal: 60 times as fast", 0.0},
                 {"ensayo: 60 veces más rápido", 60.0}};
    for (size_t i = 0; i < sizeof notes / sizeof notes[0]; i++) {
        double speed = -1.0;
        sl_event event = {.kind = SL_EVENT_NOTED, .swatch = -1};
        ck_assert(sl_log_append(made.log, made.test, made.swatches, made.n, &event, notes[i].note, NULL));
        ck_assert(sl_log_rehearsal(made.log, made.test, &speed, NULL));
        ck_assert_double_eq(speed, notes[i].speed);
        if (notes[i].speed > 0.0) {
            tear_down();
            set_up();
        }
    }
}
END_TEST

START_SUITE("log values")
FIXTURE(set_up, tear_down)
ADD(minutes_of_looks_are_taken_past_a_day_or_past_what_is_none)
ADD(a_choice_among_tests_is_told_with_others_or_more_than_four)
ADD(a_part_of_a_minute_of_the_plan_is_lost_or_a_title_of_too_many_letters_kept)
ADD(what_is_put_on_in_the_first_second_is_never_put_on_or_has_no_pieces)
ADD(a_file_of_a_scene_is_kept_twice_or_one_of_another_name_is_not_kept)
ADD(a_test_is_found_where_tests_cannot_be_read)
ADD(a_statement_that_cannot_be_made_goes_well)
ADD(a_number_that_nothing_answers_is_one_or_told_at_a_line)
ADD(a_statement_is_stopped_for_the_steps_that_the_one_before_it_took)
ADD(a_statement_may_be_larger_than_any_of_ours_or_not_as_large)
ADD(a_row_that_was_not_added_goes_for_one_or_two_for_one)
ADD(a_mean_counts_what_was_taken_back_or_is_another_s)
CASE("values")
FIXTURE(set_up, tear_down)
ADD(a_time_is_written_with_another_offset_or_read_with_other_digits)
ADD(a_value_past_what_its_column_holds_fits_or_one_at_the_edge_does_not)
ADD(an_id_a_hash_a_code_a_time_or_a_word_fits_that_is_none)
ADD(a_row_is_told_for_another_column_than_the_first_that_does_not_fit)
ADD(a_text_of_a_log_is_read_past_its_room_or_raw)
CASE("as they are kept")
FIXTURE(set_up, tear_down)
ADD(a_member_of_an_event_is_kept_in_another_column)
ADD(a_reading_is_visited_with_another_swatch_or_after_one_said_that_is_enough)
ADD(a_speed_that_is_none_makes_a_rehearsal_or_one_that_is_the_same_is_refused)
END_SUITE
