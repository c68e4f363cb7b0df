/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What was seen, compared, where a plan or a file is odd: arms that the model does not know or only a file
 * knows, ladders, clocks that disagree, values just at a bound. By hand and by docs/science.md, "Comparing
 * what was seen".
 */
#include <check.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "compared.h"
#include "log/compare/compare_page.h"
#include "log/compare/looks.h"
#include "log/store/sql.h"
#include "suite.h"

static void happens_by(sl_event_kind kind, int swatch, int boot_s, int wall_s)
{
    sl_event event = {.kind = kind,
                      .swatch = swatch,
                      .at = {.boot_ns = boot_s * INT64_C(1000000000),
                             .wall_ns = (1795597200 + (int64_t)wall_s) * INT64_C(1000000000),
                             .boot_id = "one"}};
    ck_assert(sl_log_append(made.log, made.test, made.swatches, made.n, &event, NULL, NULL));
}

/* First order in plain water: from the rim by kL a minute, a quarter of it from the core; a shampoo takes an
 * exponent of its own from both likewise, and its minute what rinsing takes (docs/science.md). */
static double of_water(double minutes, int shampoos)
{
    const sl_dye *const dye = &compare->scene->dyes[compare->scene->zones[0].recipe.dye[0]];
    const double wet = minutes + compare->scene->chemistry.rinse_leach.value * shampoos;
    const double washed = dye->leach_per_min.value * wet + dye->shampoo_loss.value * shampoos;
    return dye->rim_share.value * exp(-washed) + (1.0 - dye->rim_share.value) * exp(-washed / 4.0);
}

/* ---- what the model says, or does not -------------------------------------------------------------------
 */

/* The model is of oxidation: a mix that reduces is kept and compared, and nothing is said of it. */
START_TEST(the_model_says_something_of_a_mix_that_it_does_not_know)
{
    static const char scene[] =
        SCENE("  - name: reducing\n    steps:\n      - {apply: two-part-reducing, dwell: 40 min}\n" WATER(
            "water", APPLY("40")));
    const double minute[] = {5.0, 10.0, 20.0}, left[] = {0.8, 0.5, 0.25};
    for (int ladder = 0; ladder < 2; ladder++) {
        log_made_begin_text(&made, scene, rungs, ladder ? 4 : 0);
        const int swatch = log_made_swatch(&made, "reducing", 0);
        log_made_happens(&made, SL_EVENT_STARTED, -1, 0, NULL);
        log_made_happens(&made, SL_EVENT_APPLIED, swatch, 60, NULL);
        log_made_happens(&made, SL_EVENT_LOOKED, swatch, 60 + 7 * 60, NULL);
        log_made_happens(&made, SL_EVENT_RINSED, swatch, 60 + 50 * 60, NULL);
        see_at(swatch, 5.0, SL_WIPE_SLIGHT);
        see_at(swatch, 10.0, SL_WIPE_HALF);
        see_at(swatch, 20.0, SL_WIPE_MOSTLY_GONE);
        see(swatch, SL_WIPE_GHOST);
        read_compare();
        ck_assert_int_eq(told(SL_DEVIATION_LATE, swatch), 1);
        for (int i = 0; i < compare->n_deviations; i++) {
            ck_assert_int_eq(compare->deviations[i].zone, -1);
            ck_assert_double_eq(compare->deviations[i].factor, 1.0);
        }
        ck_assert_int_eq(at("reducing")->place, 1);
        ck_assert_double_le(at("reducing")->predicted, SL_NOT_READ);
        ck_assert_double_eq_tol(at("reducing")->at_planned[SL_BASIS_GRADE].mean, 0.1, 1e-12);
        const sl_rate rate = rate_of("reducing");
        ck_assert_int_eq(rate.per_min.n, 1);
        ck_assert_double_le(rate.model_per_min, SL_NOT_READ);
        if (!ladder) {
            double k = 0.0;
            ck_assert(sl_rate_of(SL_START_KNOWN, minute, left, 3, &k));
            ck_assert_double_eq_tol(rate.per_min.mean, k, 1e-12);
        }
        rank_at(5);
        ck_assert_double_le(at("reducing")->predicted, SL_NOT_READ);
        ck_assert_double_eq_tol(at("reducing")->seen[SL_BASIS_GRADE].mean, 0.8, 1e-12);
        ck_assert_int_eq(at("reducing")->at_planned[SL_BASIS_GRADE].n, ladder);
        if (ladder) { /* the piece was cut off two minutes late, and that changes nothing that is known */
            ck_assert_double_eq_tol(at("reducing")->at_planned[SL_BASIS_GRADE].mean, 0.8, 1e-12);
        }
        end();
    }
}
END_TEST

/* The scene ends at minute 75. */
START_TEST(the_model_speaks_of_a_minute_that_lies_past_the_end_of_the_scene)
{
    log_made_begin_text(&made, SCENE(WATER("water", APPLY("70"))), NULL, 0);
    for (int block = 0; block < 3; block++) {
        see_at(log_made_swatch(&made, "water", block), 60.0, SL_WIPE_HALF);
        see_at(log_made_swatch(&made, "water", block), 76.0, SL_WIPE_GHOST);
    }
    read_compare();
    rank_at(60);
    ck_assert_double_eq_tol(at("water")->predicted, of_water(60.0, 0), 1e-7);
    rank_at(75);
    ck_assert_double_eq_tol(at("water")->predicted, of_water(70.0, 0), 1e-7);
    rank_at(76);
    ck_assert_double_le(at("water")->predicted, SL_NOT_READ);
    ck_assert_double_eq_tol(at("water")->seen[SL_BASIS_GRADE].mean, 0.1, 1e-12);
    end();
}
END_TEST

/* The label ends after 12 min what the scene lets lie for 30. */
START_TEST(the_model_s_end_is_the_scene_s_where_a_label_ended_it)
{
    static const char *folders[] = {SLOWLIFT_MODELS};
    sl_folders models = {folders, 1};
    const sl_resolver resolver = sl_resolver_of_folders(&models);
    static const char path[] = SLOWLIFT_MODELS "/scenes/eight-arms.yaml";
    const sl_plan_request request = sl_plan_request_default();
    sl_scene *const with = sl_scene_load(path, &resolver, NULL);
    sl_plan *plan = NULL;
    double left[SL_MAX_ZONES];
    log_made_begin(&made);
    for (int i = 0; i < with->n_mixes; i++) {
        with->mixes[i].label_max_min = 12.0;
        with->mixes[i].label_from_contact = true;
    }
    read_compare();
    const double by_scene = at("powder + 6 %")->predicted;
    ck_assert(sl_plan_make(&plan, with, &request, NULL));
    ck_assert(sl_log_begin(made.log, path, &resolver, plan, "label", "op-1", made.test, NULL));
    read_compare();
    ck_assert(
        sl_model_rinsed_at(compare->scene, named_arm(compare->scene, "powder + 6 %"), 12.0, left, NULL));
    const double by_label = at("powder + 6 %")->predicted;
    ck_assert_double_eq_tol(by_label, left[sl_scene_zone(compare->scene, "red")], 1e-9);
    ck_assert_double_gt(by_label, by_scene + 0.01);
    sl_plan_free(plan);
    sl_scene_free(with);
    end();
}
END_TEST

/* ---- handling -------------------------------------------------------------------------------------------
 */

/* Two shampoos come first, and take their part whatever time follows. */
START_TEST(a_time_after_a_shampoo_is_not_made_equal_by_first_order)
{
    log_made_begin_text(&made, SCENE(WATER("washed first", "      - {shampoo: 2}\n" APPLY("20"))), NULL, 0);
    const int swatch = log_made_swatch(&made, "washed first", 0);
    log_made_happens(&made, SL_EVENT_STARTED, -1, 0, NULL);
    lies(swatch, 1800);
    see(swatch, SL_WIPE_HALF);
    read_compare();
    ck_assert_double_eq_tol(compare->bench[swatch].to_planned[0], of_water(20.0, 2) / of_water(30.0, 2),
                            1e-7);
    ck_assert_double_eq_tol(at("washed first")->at_planned[SL_BASIS_GRADE].mean,
                            0.5 * of_water(20.0, 2) / of_water(30.0, 2), 1e-7);
    end();
}
END_TEST

/* What a mix as old, or a wait as long, leaves is that of a scene in which it is planned so, and in nothing
 * else. */
static double planned_in(const char *first_age, const char *second_age, const char *rest)
{
    char text[2000], arms[600];
    snprintf(arms, sizeof arms,
             "arms:\n  - name: twice\n    steps:\n"
             "      - {apply: powder-6, dwell: 10 min, mix_age: %s min}\n"
             "      - rinse: 1 min\n      - rest: %s min\n"
             "      - {apply: powder-6, dwell: 15 min, hair: damp, mix_age: %s min}\n      - rinse: 2 min\n",
             first_age, rest, second_age);
    const char *const whole = SCENE("");
    const char *const end = strstr(whole, "arms:\n");
    snprintf(text, sizeof text, "%.*s%s", (int)(end - whole), whole, arms);
    double left[SL_MAX_ZONES];
    log_made_begin_text(&made, text, NULL, 0);
    read_compare();
    ck_assert(sl_model_planned(compare->scene, 0, left, NULL));
    return left[0];
}

START_TEST(an_older_mix_or_a_longer_wait_is_not_made_equal_by_the_model)
{
    static const struct {
        const char *first_age, *second_age, *rest;
        int older_s[2], longer_s;
        sl_deviation_kind kind;
        int application;
    } cases[] = {{"21", "1", "10", {1200, 0}, 0, SL_DEVIATION_MIX_AGE, 0},
                 {"1", "31", "10", {0, 1800}, 0, SL_DEVIATION_MIX_AGE, 1},
                 {"1", "1", "40", {0, 0}, 1800, SL_DEVIATION_REST, 1},
                 {"1", "1", "4", {0, 0}, -360, SL_DEVIATION_REST, 1}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        const double had = planned_in(cases[i].first_age, cases[i].second_age, cases[i].rest);
        end();
        const double planned = planned_in("1", "1", "10");
        const int second = 4000 + 600 + 60 + 600 + cases[i].longer_s;
        log_made_happens(&made, SL_EVENT_STARTED, -1, 0, NULL);
        log_made_happens(&made, SL_EVENT_MIXED, 0, 4000 - 60 - cases[i].older_s[0], NULL);
        log_made_happens(&made, SL_EVENT_APPLIED, 0, 4000, NULL);
        log_made_happens(&made, SL_EVENT_RINSED, 0, 4000 + 600, NULL);
        log_made_happens(&made, SL_EVENT_MIXED, 0, second - 60 - cases[i].older_s[1], NULL);
        log_made_happens(&made, SL_EVENT_APPLIED, 0, second, NULL);
        log_made_happens(&made, SL_EVENT_RINSED, 0, second + 900, NULL);
        see(0, SL_WIPE_HALF);
        read_compare();
        ck_assert_msg(fabs(planned / had - 1.0) > 1e-3, "%zu: %g", i, planned / had);
        ck_assert_double_eq_tol(compare->bench[0].to_planned[0], planned / had, 1e-6);
        ck_assert_int_eq(compare->n_deviations, 1);
        const sl_deviation *const told = &compare->deviations[0];
        ck_assert_int_eq(told->kind, cases[i].kind);
        ck_assert_int_eq(told->application, cases[i].application);
        ck_assert_double_eq_tol(told->factor, planned / had, 1e-6);
        end();
    }
}
END_TEST

/* A ladder has the first application alone: pieces after 5 and 10 min, the rest after 20. The end, rinsed ten
 * minutes late, is made equal by that one alone. */
START_TEST(a_ladder_of_an_arm_with_two_applications_is_of_both)
{
    log_made_begin_text(&made, SCENE(WATER("twice", APPLY("20") "      - rest: 10 min\n" APPLY("20"))), rungs,
                        3);
    const int swatch = log_made_swatch(&made, "twice", 0);
    log_made_happens(&made, SL_EVENT_STARTED, -1, 0, NULL);
    lies(swatch, 1800);
    see_at(swatch, 5.0, SL_WIPE_SLIGHT);
    see(swatch, SL_WIPE_HALF);
    read_compare();
    ck_assert_int_eq(made.swatches[swatch].bench.dwell_s, 1200);
    ck_assert_double_eq_tol(at("twice")->predicted, of_water(20.0, 0), 1e-7);
    ck_assert_double_eq_tol(at("twice")->at_planned[SL_BASIS_GRADE].mean,
                            0.5 * of_water(20.0, 0) / of_water(30.0, 0), 1e-7);
    rank_at(5);
    ck_assert_double_eq_tol(at("twice")->predicted, of_water(5.0, 0), 1e-7);
    end();
}
END_TEST

/* The wall clock was set ten minutes on while it lay: never less than what may have been. */
START_TEST(clocks_that_disagree_are_not_told_or_the_shorter_time_is_taken)
{
    log_made_begin_text(&made, SCENE(WATER("water", APPLY("20"))), NULL, 0);
    log_made_happens(&made, SL_EVENT_STARTED, -1, 0, NULL);
    log_made_happens(&made, SL_EVENT_APPLIED, 0, 60, NULL);
    happens_by(SL_EVENT_RINSED, 0, 60 + 1200, 60 + 1200 + 600);
    lies(1, 1200);
    read_compare();
    ck_assert_double_eq_tol(compare->bench[0].dwell_s, 1800.0, 1e-6);
    ck_assert_int_eq(told(SL_DEVIATION_CLOCKS, 0), 1);
    ck_assert_int_eq(told(SL_DEVIATION_LATE, 0), 1);
    ck_assert_int_eq(told(SL_DEVIATION_CLOCKS, 1) + told(SL_DEVIATION_LATE, 1), 0);
    end();
}
END_TEST

/* ---- rows that do not belong to the scene ---------------------------------------------------------------
 */

static void put_swatch(const char *code, const char *arm, const char *contact, int dwell_s,
                       const char *ladder)
{
    char text[600];
    snprintf(text, sizeof text,
             "INSERT INTO swatch (id, test, code, arm, block, place, contact_s, dwell_s, label_from,"
             " mix_age_s, looks_min, ladder_min) VALUES ('aaaaaaaa-bbbb-7ccc-8ddd-0000000000%s', '%s', '%s',"
             " '%s', 90, (SELECT count(*) FROM swatch), %s, %d, 'mixing', 60, '', '%s')",
             code, made.test, code, arm, contact, dwell_s, ladder);
    log_made_change(made.path, text);
    sl_free(made.swatches);
    ck_assert(sl_log_swatches(made.log, made.test, &made.swatches, &made.n, NULL));
    ck_assert_str_eq(made.swatches[made.n - 1].bench.code, code);
}

static void break_index(const char *path, const char *name)
{
    sqlite3 *base = NULL;
    sqlite3_stmt *ask = NULL;
    ck_assert_int_eq(sqlite3_open(path, &base), SQLITE_OK);
    ck_assert_int_eq(sqlite3_prepare_v2(base,
                                        "SELECT rootpage, page_size FROM sqlite_schema, pragma_page_size"
                                        " WHERE name = ?",
                                        -1, &ask, NULL),
                     SQLITE_OK);
    ck_assert_int_eq(sqlite3_bind_text(ask, 1, name, -1, SQLITE_STATIC), SQLITE_OK);
    ck_assert_int_eq(sqlite3_step(ask), SQLITE_ROW);
    const long page = (long)sqlite3_column_int64(ask, 0), size = (long)sqlite3_column_int64(ask, 1);
    sqlite3_finalize(ask);
    sqlite3_close(base);
    FILE *const file = fopen(path, "r+b");
    ck_assert(file && page > 1 && fseek(file, (page - 1) * size, SEEK_SET) == 0);
    for (long i = 0; i < size; i++) {
        ck_assert_int_eq(fputc(0xff, file), 0xff);
    }
    ck_assert_int_eq(fclose(file), 0);
}

/* The index by which looks are found is broken, or the one of what replaces them, which notes do not need.
 * The rows are not: all of them are read, out of a copy that holds what could be read. */
START_TEST(looks_are_lost_with_the_index_that_leads_to_them)
{
    static const char *const names[] = {"reading_of_swatch", "reading_replaced"};
    for (int i = 0; i < 2; i++) {
        sl_log *broken = NULL;
        sl_log_test test;
        long long rows = 0;
        log_made_begin(&made);
        see(0, SL_WIPE_HALF);
        see(1, SL_WIPE_GHOST);
        ck_assert(sl_log_backup(made.path, made.other, &rows, NULL));
        break_index(made.other, names[i]);
        ck_assert(sl_log_open(&broken, made.other, SL_LOG_READ, NULL));
        ck_assert(sl_log_find(broken, NULL, &test, NULL));
        ck_assert(sl_compare_read(&compare, broken, &test, -1.0, NULL));
        ck_assert_int_eq(compare->n_groups, 2);
        ck_assert_double_eq_tol(compare->groups[0].left[SL_BASIS_GRADE], 0.5, 1e-12);
        ck_assert_double_eq_tol(compare->groups[1].left[SL_BASIS_GRADE], 0.1, 1e-12);
        ck_assert(broken->copied);
        sl_log_close(broken);
        end();
    }
}
END_TEST

START_TEST(a_swatch_of_an_arm_that_the_scene_lacks_counts_for_another)
{
    log_made_begin_ladder(&made, rungs, 4);
    put_swatch("Z1", "a mix of next year", "0", 1200, "5,10");
    const int swatch = made.n - 1;
    log_made_happens(&made, SL_EVENT_STARTED, -1, 0, NULL);
    log_made_happens(&made, SL_EVENT_APPLIED, swatch, 60, NULL);
    log_made_happens(&made, SL_EVENT_LOOKED, swatch, 60 + 7 * 60, NULL);
    log_made_happens(&made, SL_EVENT_RINSED, swatch, 60 + 1500, NULL);
    see_at(swatch, 5.0, SL_WIPE_SLIGHT);
    see(swatch, SL_WIPE_HALF);
    read_compare();
    ck_assert_int_eq(compare->bench[swatch].arm, -1);
    ck_assert_double_eq_tol(compare->bench[swatch].dwell_s, 1500.0, 1e-6);
    ck_assert_int_eq(told(SL_DEVIATION_LATE, swatch), 1);
    rank_at(5);
    ck_assert_double_eq(compare->bench[swatch].piece_to_planned[0], 1.0);
    for (int arm = 0; arm < compare->scene->n_arms; arm++) {
        ck_assert_int_eq(
            sl_compare_arm(compare, arm, sl_scene_zone(compare->scene, "red"))->seen[SL_BASIS_GRADE].n, 0);
    }
    end();
}
END_TEST

/* Nothing leaves hair on which nothing is put, however many pieces of it a row names. */
START_TEST(pieces_of_untreated_hair_lose_colour_by_the_model)
{
    log_made_begin(&made);
    put_swatch("Z2", "untreated", "NULL", 0, "5,10");
    see_at(made.n - 1, 5.0, SL_WIPE_NO_CHANGE);
    read_compare();
    ck_assert(sl_compare_ladder(compare, named_arm(compare->scene, "untreated")));
    rank_at(5);
    ck_assert_int_eq(at("untreated")->seen[SL_BASIS_GRADE].n, 1);
    ck_assert_double_eq_tol(at("untreated")->predicted, 1.0, 1e-9);
    end();
}
END_TEST

/* A row without a time of contact plans no other dwell than the scene's. */
START_TEST(a_swatch_without_a_contact_changes_what_the_model_says_of_its_arm)
{
    double predicted[2];
    for (int i = 0; i < 2; i++) {
        log_made_begin_text(&made, SCENE(WATER("water", APPLY("20"))), NULL, 0);
        if (i == 1) {
            put_swatch("Z3", "water", "NULL", 0, "");
        }
        read_compare();
        predicted[i] = at("water")->predicted;
        end();
    }
    ck_assert_double_eq(predicted[0], predicted[1]);
    ck_assert_double_lt(predicted[0], 0.999);
}
END_TEST

/* A file may lack all swatches of an arm: the arm stays, without a plan. */
START_TEST(an_arm_without_a_swatch_has_a_planned_time)
{
    log_made_begin(&made);
    read_compare();
    const int arm = named_arm(compare->scene, "powder + 6 %"), n = compare->n_swatches;
    ck_assert_int_eq(sl_compare_dwell_min(compare, arm), 30);
    compare->n_swatches = 0;
    ck_assert_int_eq(sl_compare_dwell_min(compare, arm), 0);
    ck_assert(!sl_compare_ladder(compare, arm));
    compare->n_swatches = n;
    end();
}
END_TEST

static void read_with_floor(double floor)
{
    sl_log_test test;
    forget();
    ck_assert(sl_log_find(made.log, made.test, &test, NULL));
    ck_assert(sl_compare_read(&compare, made.log, &test, floor, NULL));
}

/* "about half" is 0.50 left and "mostly gone" 0.25 (observation.h): a quarter apart, without a spread. */
START_TEST(means_that_are_just_the_floor_apart_do_not_tie_or_a_little_more_do)
{
    log_made_begin(&made);
    for (int block = 0; block < 2; block++) {
        see(log_made_swatch(&made, "powder + 3 %", block), SL_WIPE_HALF);
        see(log_made_swatch(&made, "powder + 6 %", block), SL_WIPE_MOSTLY_GONE);
        see(log_made_swatch(&made, "powder + water", block), SL_WIPE_MOSTLY_GONE);
    }
    static const struct {
        double floor;
        int place; /* of the one with more left */
    } cases[] = {{0.25, 1}, {0.2499, 3}, {0.26, 1}, {0.0, 3}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        read_with_floor(cases[i].floor);
        ck_assert_double_eq(compare->asked_floor, cases[i].floor);
        ck_assert_int_eq(at("powder + 3 %")->place, cases[i].place);
        ck_assert_int_eq(at("powder + 6 %")->place, 1);
        ck_assert_int_eq(at("powder + water")->place, 1);
    }
    see(log_made_swatch(&made, "powder + 3 %", 2), SL_WIPE_NO_CHANGE); /* now they scatter */
    see(log_made_swatch(&made, "powder + 6 %", 2), SL_WIPE_MOSTLY_GONE);
    see(log_made_swatch(&made, "powder + water", 2), SL_WIPE_MOSTLY_GONE);
    read_with_floor(0.0);
    ck_assert_int_eq(at("powder + 3 %")->place, 1);
    end();
}
END_TEST

/* 0.50 and 0.80: 0.045 about their mean; one alone: nothing. With 0.25, 0.50 and 0.80 of another arm from
 * block to block 0.30 and 0.25 are added, and the third block tells nothing: four times 0.0125 squared, one
 * freedom. Two swatches of undyed hair are no arm that scatters. */
START_TEST(the_spread_of_all_arms_is_not_that_of_each_about_its_own_mean)
{
    log_made_begin(&made);
    see(log_made_swatch(&made, "powder + 6 %", 0), SL_WIPE_HALF);
    read_compare();
    ck_assert_double_eq(compare->pooled_sd, -1.0);
    see(log_made_swatch(&made, "powder + 3 %", 0), SL_WIPE_HALF);
    see(log_made_swatch(&made, "powder + 3 %", 1), SL_WIPE_SLIGHT);
    read_compare();
    ck_assert_double_eq_tol(compare->pooled_sd, sqrt(0.045), 1e-12);
    see(log_made_swatch(&made, "powder + water", 0), SL_WIPE_MOSTLY_GONE);
    see(log_made_swatch(&made, "powder + water", 1), SL_WIPE_HALF);
    see(log_made_swatch(&made, "powder + water", 2), SL_WIPE_SLIGHT);
    read_compare();
    ck_assert_double_eq_tol(compare->pooled_sd, 0.025, 1e-12);
    end();
}
END_TEST

START_TEST(of_several_looks_after_hours_another_than_the_last_counts)
{
    log_made_begin(&made);
    const int one = log_made_swatch(&made, "powder + 6 %", 0),
              two = log_made_swatch(&made, "powder + 6 %", 1);
    see(one, SL_WIPE_HALF);
    see(two, SL_WIPE_HALF);
    keep(by_eye(one, "red", SL_NOT_READ, 48.0, SL_WIPE_GHOST));
    keep(by_eye(one, "red", SL_NOT_READ, 24.0, SL_WIPE_SLIGHT));
    keep(by_eye(one, "violet", SL_NOT_READ, 72.0, SL_WIPE_NO_CHANGE));
    read_compare();
    ck_assert_int_eq(at("powder + 6 %")->seen[SL_BASIS_GRADE].n, 2);
    ck_assert_int_eq(at("powder + 6 %")->later.n, 1);
    ck_assert_double_eq_tol(at("powder + 6 %")->later.mean, 0.10 - 0.50, 1e-12);
    end();
}
END_TEST

/* Half a minute under the mix is on the way, less is the start. */
START_TEST(a_grade_at_the_start_keeps_the_instrument_from_being_the_measure)
{
    for (int early = 0; early < 2; early++) {
        log_made_begin(&made);
        measure(0, "red", 0.0, SL_NOT_READ, red_at_start);
        measure(0, "undyed", 0.0, SL_NOT_READ, bare_at_start);
        measure(0, "red", 5.0, SL_NOT_READ, red_at_end);
        measure(0, "undyed", 5.0, SL_NOT_READ, bare_at_end);
        see_at(1, early ? 0.49 : 0.5, SL_WIPE_SLIGHT);
        read_compare();
        ck_assert_int_eq(compare->basis[named_zone(compare->scene, "red")],
                         early ? SL_BASIS_COLOUR : SL_BASIS_GRADE);
        end();
    }
}
END_TEST

/* A start of dE*ab 2 shows a colour (assumed; docs/science.md), and of less none. */
START_TEST(a_start_that_just_shows_a_colour_is_passed_over_or_one_below_it_is_not)
{
    for (int below = 0; below < 2; below++) {
        log_made_begin(&made);
        measure(0, "red", 0.0, SL_NOT_READ, (colour){42.0, 0.0, 0.0});
        measure(0, "undyed", 0.0, SL_NOT_READ, (colour){below ? 40.25 : 40.0, 0.0, 0.0});
        measure(0, "red", SL_NOT_READ, SL_NOT_READ, (colour){50.0, 0.0, 3.0});
        measure(0, "undyed", SL_NOT_READ, SL_NOT_READ, (colour){50.0, 0.0, 2.5});
        read_compare();
        int shares = 0;
        for (int i = 0; i < compare->n_groups; i++) {
            const sl_seen_group *const group = &compare->groups[i];
            const bool is = group->minute <= SL_NOT_READ && group->left[SL_BASIS_COLOUR] > SL_NOT_READ &&
                            group->zone == named_zone(compare->scene, "red");
            shares += is ? 1 : 0;
            ck_assert(!is || fabs(group->left[SL_BASIS_COLOUR] - 0.25) < 1e-12);
        }
        ck_assert_int_eq(shares, below ? 0 : 1);
        end();
    }
}
END_TEST

/* Up to the scene's last minute and not past it; a millionth of the colour is none to take a ratio of. */
START_TEST(the_model_is_silent_at_the_last_minute_or_takes_a_ratio_of_nothing)
{
    log_made_begin(&made);
    read_compare();
    const int arm = named_arm(compare->scene, "powder + 6 %"), red = named_zone(compare->scene, "red");
    const double last = compare->scene->until_min - compare->scene->arms[arm].contact_min;
    double left[SL_MAX_ZONES];
    ck_assert(sl_model_seen_at(compare, arm, last, left, NULL));
    ck_assert(left[red] > 0.0 && left[red] < 1.0);
    ck_assert(sl_model_seen_at(compare, arm, last + 0.01, left, NULL));
    ck_assert(left[red] <= SL_NOT_READ);
    const double had[SL_MAX_ZONES] = {1e-6, 2e-6, 0.0, 0.5}, planned[SL_MAX_ZONES] = {1.0, 1e-6, 1.0, 0.0};
    double ratio[SL_MAX_ZONES];
    for (int z = 0; z < SL_MAX_ZONES; z++) {
        ratio[z] = 7.0;
    }
    ck_assert_int_ge(compare->scene->n_zones, 4);
    sl_planned_over_had(compare->scene, planned, had, ratio);
    ck_assert(ratio[0] > 6.9 && ratio[2] > 6.9 && (compare->scene->n_zones == 4 || ratio[4] > 6.9));
    ck_assert_double_eq_tol(ratio[1], 0.5, 1e-12);
    ck_assert_double_eq(ratio[3], 0.0);
    end();
}
END_TEST

/* Half a minute apart is told, of the one that lay longer; a second less is not. */
START_TEST(times_that_are_just_unequal_go_untold_or_those_that_hardly_are_do_not)
{
    for (int less = 0; less < 2; less++) {
        log_made_begin(&made);
        const int one = log_made_swatch(&made, "powder + 6 %", 0),
                  two = log_made_swatch(&made, "powder + 6 %", 1);
        log_made_happens(&made, SL_EVENT_STARTED, -1, 0, NULL);
        lies(one, 600);
        lies(two, 630 - less);
        read_compare();
        ck_assert_int_eq(told(SL_DEVIATION_UNEQUAL, two), less == 0);
        ck_assert_int_eq(told(SL_DEVIATION_UNEQUAL, one), 0);
        for (int i = 0; i < compare->n_deviations; i++) {
            const sl_deviation *const deviation = &compare->deviations[i];
            ck_assert(deviation->kind != SL_DEVIATION_UNEQUAL || fabs(deviation->seconds - 30.0) < 1e-9);
        }
        end();
    }
}
END_TEST

/* Rinsed, and looked at again within the hour: that is no other time. */
START_TEST(a_look_after_no_hours_is_one_hours_later)
{
    log_made_begin(&made);
    const int swatch = log_made_swatch(&made, "powder + 6 %", 0);
    see(swatch, SL_WIPE_GHOST);
    keep(by_eye(swatch, "red", SL_NOT_READ, 0.0, SL_WIPE_HALF));
    read_compare();
    ck_assert_int_eq(at("powder + 6 %")->seen[SL_BASIS_GRADE].n, 1);
    ck_assert_int_eq(at("powder + 6 %")->later.n, 0);
    keep(by_eye(swatch, "red", SL_NOT_READ, 0.5, SL_WIPE_SLIGHT));
    read_compare();
    ck_assert_int_eq(at("powder + 6 %")->later.n, 1);
    ck_assert_double_eq_tol(at("powder + 6 %")->later.mean, 0.8 - 0.1, 1e-12);
    end();
}
END_TEST

/* The plan, and not the scene, says how long it lies, from a second's difference on; whenever it begins. */
START_TEST(a_plan_that_differs_by_a_second_is_the_scene_s_or_one_that_begins_at_once_is)
{
    static const struct {
        const char *change;
        double seconds;
    } cases[] = {{"UPDATE swatch SET block = block", 1200.0},
                 {"UPDATE swatch SET dwell_s = 1201", 1201.0},
                 {"UPDATE swatch SET dwell_s = 1199", 1199.0},
                 {"UPDATE swatch SET dwell_s = 1201, contact_s = 0", 1201.0},
                 {"UPDATE swatch SET dwell_s = 1201, contact_s = NULL", 1200.0}};
    log_made_begin_text(&made, SCENE(WATER("water", APPLY("20"))), NULL, 0);
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        log_made_change(made.path, cases[i].change);
        read_compare();
        ck_assert_double_eq_tol(at("water")->predicted, of_water(cases[i].seconds / 60.0, 0), 1e-7);
    }
    ck_assert_double_gt(of_water(20.0, 0) - of_water(1201.0 / 60.0, 0), 1e-6);
    end();
}
END_TEST

/* Half a minute is told, a second less is not: of a piece as of the end. */
START_TEST(a_piece_that_is_just_off_its_time_goes_untold_or_one_that_hardly_is_does_not)
{
    static const int off_s[] = {30, 29, -30, -29, 0};
    int of[5], n = 0;
    log_made_begin_ladder(&made, rungs, 4);
    for (int i = 0; n < 5; i++) {
        of[n] = i;
        n += made.swatches[i].bench.n_looks > 0 ? 1 : 0; /* none of untreated hair */
    }
    log_made_happens(&made, SL_EVENT_STARTED, -1, 0, NULL);
    for (int i = 0; i < 5; i++) {
        log_made_happens(&made, SL_EVENT_APPLIED, of[i], 60 + i, NULL);
    }
    for (int i = 0; i < 5; i++) {
        ck_assert_int_eq(made.swatches[of[i]].bench.look_s[0], 300);
        log_made_happens(&made, SL_EVENT_LOOKED, of[i], 60 + i + 300 + off_s[i], NULL);
    }
    read_compare();
    for (int i = 0; i < 5; i++) {
        ck_assert_msg(told(SL_DEVIATION_PIECE, of[i]) == (abs(off_s[i]) == 30), "%d s", off_s[i]);
    }
    end();
}
END_TEST

START_TEST(of_swatches_that_lay_longest_together_another_than_the_first_is_told)
{
    log_made_begin(&made);
    const int of[] = {log_made_swatch(&made, "powder + 6 %", 0), log_made_swatch(&made, "powder + 6 %", 1),
                      log_made_swatch(&made, "powder + 6 %", 2)};
    log_made_happens(&made, SL_EVENT_STARTED, -1, 0, NULL);
    for (int i = 0; i < 3; i++) {
        lies(of[i], i == 1 ? 600 : 640);
    }
    read_compare();
    ck_assert_int_eq(told(SL_DEVIATION_UNEQUAL, of[0]), 1);
    ck_assert_int_eq(told(SL_DEVIATION_UNEQUAL, of[1]) + told(SL_DEVIATION_UNEQUAL, of[2]), 0);
    end();
}
END_TEST

START_SUITE("compare, at its edges")
CASE("the model and the clock")
ADD(the_model_says_something_of_a_mix_that_it_does_not_know)
ADD(the_model_speaks_of_a_minute_that_lies_past_the_end_of_the_scene)
ADD(the_model_s_end_is_the_scene_s_where_a_label_ended_it)
ADD(a_time_after_a_shampoo_is_not_made_equal_by_first_order)
ADD(an_older_mix_or_a_longer_wait_is_not_made_equal_by_the_model)
ADD(a_ladder_of_an_arm_with_two_applications_is_of_both)
ADD(clocks_that_disagree_are_not_told_or_the_shorter_time_is_taken)
CASE("rows of others")
ADD(looks_are_lost_with_the_index_that_leads_to_them)
ADD(a_swatch_of_an_arm_that_the_scene_lacks_counts_for_another)
ADD(pieces_of_untreated_hair_lose_colour_by_the_model)
ADD(a_swatch_without_a_contact_changes_what_the_model_says_of_its_arm)
ADD(an_arm_without_a_swatch_has_a_planned_time)
CASE("floors, spreads and starts")
ADD(means_that_are_just_the_floor_apart_do_not_tie_or_a_little_more_do)
ADD(the_spread_of_all_arms_is_not_that_of_each_about_its_own_mean)
ADD(of_several_looks_after_hours_another_than_the_last_counts)
ADD(a_grade_at_the_start_keeps_the_instrument_from_being_the_measure)
ADD(a_start_that_just_shows_a_colour_is_passed_over_or_one_below_it_is_not)
ADD(the_model_is_silent_at_the_last_minute_or_takes_a_ratio_of_nothing)
ADD(times_that_are_just_unequal_go_untold_or_those_that_hardly_are_do_not)
ADD(a_look_after_no_hours_is_one_hours_later)
ADD(a_plan_that_differs_by_a_second_is_the_scene_s_or_one_that_begins_at_once_is)
ADD(a_piece_that_is_just_off_its_time_goes_untold_or_one_that_hardly_is_does_not)
ADD(of_swatches_that_lay_longest_together_another_than_the_first_is_told)
END_SUITE
