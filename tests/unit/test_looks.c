/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Looks at swatches where a log is odd: some lack their fellow, there are more judges or minutes than usual,
 * rows that this program would not have kept. By hand and by docs/science.md, "Comparing what was seen".
 */
#include <check.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "compared.h"
#include "log/compare/compare_page.h"
#include "log/compare/looks.h"
#include "log/store/sql.h"
#include "shelf.h"
#include "suite.h"

/* ---- looks ------------------------------------------------------------------------------------------ */

/* 12 and 8 of 20 judges: 190 pairs, 66 + 28 of them equal. */
START_TEST(of_a_class_of_judges_some_are_left_out)
{
    log_made_begin(&made);
    for (int judge = 0; judge < 20; judge++) {
        sl_log_reading reading =
            by_eye(0, "red", SL_NOT_READ, SL_NOT_READ, judge < 12 ? SL_WIPE_HALF : SL_WIPE_GHOST);
        snprintf(reading.judge, sizeof reading.judge, "j%02d", judge);
        keep(reading);
    }
    read_compare();
    ck_assert_int_eq(compare->judges.pairs, 190);
    ck_assert_int_eq(compare->judges.equal, 66 + 28);
    ck_assert_double_eq(compare->judges.table[SL_WIPE_HALF][SL_WIPE_GHOST], 96.0); /* by the judges' codes */
    ck_assert_double_eq(compare->judges.table[SL_WIPE_GHOST][SL_WIPE_HALF], 0.0);
    end();
}
END_TEST

/* The first judge felt it, then graded it twice: the first of those grades counts. */
START_TEST(a_judge_s_first_grade_is_not_the_one_that_counts)
{
    log_made_begin(&made);
    sl_log_reading felt = by_eye(0, "red", SL_NOT_READ, SL_NOT_READ, SL_WIPE_HALF);
    felt.said[SL_SAID_GRADE] = SL_NOT_SAID;
    felt.said[SL_SAID_FEEL] = sl_said_of_word(SL_SAID_FEEL, "rough");
    keep(felt);
    see(0, SL_WIPE_SLIGHT);
    see(0, SL_WIPE_HALF);
    sl_log_reading second = by_eye(0, "red", SL_NOT_READ, SL_NOT_READ, SL_WIPE_SLIGHT);
    snprintf(second.judge, sizeof second.judge, "j2");
    keep(second);
    read_compare();
    ck_assert_int_eq(compare->judges.pairs, 1);
    ck_assert_int_eq(compare->judges.equal, 1);
    end();
}
END_TEST

/* sqrt(40^2 + 60^2) apart before, sqrt(3^2 + 4^2) after. */
static const double SHARE = 5.0 / 72.11102550927978;

static void measure_all(int swatch)
{
    measure(swatch, "red", 0.0, SL_NOT_READ, red_at_start);
    measure(swatch, "undyed", 0.0, SL_NOT_READ, bare_at_start);
    measure(swatch, "red", SL_NOT_READ, SL_NOT_READ, red_at_end);
    measure(swatch, "undyed", SL_NOT_READ, SL_NOT_READ, bare_at_end);
}

/* After a day (70, 12, 20) beside (78, 6, 20): 10 apart. Somebody else's look by eye after two days is no
 * look by the instrument, and no share that the floor is taken of. */
START_TEST(a_day_later_is_not_measured_against_undyed_hair_of_that_day)
{
    log_made_begin(&made);
    const int swatch = log_made_swatch(&made, "powder + 6 %", 0),
              other = log_made_swatch(&made, "powder + 6 %", 1);
    measure_all(swatch);
    measure_all(other);
    measure(swatch, "red", SL_NOT_READ, 24.0, (colour){70.0, 12.0, 20.0});
    measure(swatch, "undyed", SL_NOT_READ, 24.0, (colour){78.0, 6.0, 20.0});
    keep(by_eye(other, "red", SL_NOT_READ, 48.0, SL_WIPE_SLIGHT));
    read_compare();
    const int red = sl_scene_zone(compare->scene, "red");
    ck_assert_int_eq(compare->basis[red], SL_BASIS_COLOUR);
    ck_assert_double_eq_tol(at("powder + 6 %")->seen[SL_BASIS_COLOUR].mean, SHARE, 1e-12);
    ck_assert_int_eq(at("powder + 6 %")->later.n, 1);
    ck_assert_double_eq_tol(at("powder + 6 %")->later.mean, SHARE, 1e-12); /* 10 - 5 of the same start */
    ck_assert_double_eq_tol(sl_compare_least_sd(compare, red, 0.0), SHARE / 5.0, 1e-12);
    end();
}
END_TEST

/* Each of the four is read by the instrument, read by eye alone, or not at all. */
START_TEST(a_share_is_taken_though_one_of_its_four_colours_was_not_read)
{
    const struct {
        const char *zone;
        double minute;
        colour read;
    } all[] = {{"red", 0.0, red_at_start},
               {"undyed", 0.0, bare_at_start},
               {"red", SL_NOT_READ, red_at_end},
               {"undyed", SL_NOT_READ, bare_at_end}};
    for (int lacks = -1; lacks < 8; lacks++) {
        log_made_begin(&made);
        for (int i = 0; i < 4; i++) {
            if (i != lacks % 4 || lacks < 0) {
                measure(0, all[i].zone, all[i].minute, SL_NOT_READ, all[i].read);
            } else if (lacks >= 4) {
                keep(by_eye(0, all[i].zone, all[i].minute, SL_NOT_READ, SL_WIPE_HALF));
            }
        }
        read_compare();
        int shares = 0;
        for (int i = 0; i < compare->n_groups; i++) {
            const sl_seen_group *const group = &compare->groups[i];
            const bool is = group->minute <= SL_NOT_READ && group->left[SL_BASIS_COLOUR] > SL_NOT_READ &&
                            group->zone == sl_scene_zone(compare->scene, "red");
            shares += is ? 1 : 0;
            if (is) {
                ck_assert_double_eq_tol(group->left[SL_BASIS_COLOUR], SHARE, 1e-12);
            }
        }
        ck_assert_msg(shares == (lacks < 0 ? 1 : 0), "%d", lacks);
        end();
    }
}
END_TEST

/* Two pieces of hair by an instrument and two judges by eye, at one moment: (40, 60, 30) and (44, 50, 33);
 * 0.80 and 0.25 left. The second zone has one look of its own. */
START_TEST(what_was_seen_at_a_moment_is_one_of_its_looks_and_not_their_mean)
{
    log_made_begin(&made);
    measure(0, "red", 0.0, SL_NOT_READ, (colour){40.0, 60.0, 30.0});
    measure(0, "red", 0.0, SL_NOT_READ, (colour){44.0, 50.0, 33.0});
    see_at(0, 0.0, SL_WIPE_SLIGHT);
    see_at(0, 0.0, SL_WIPE_MOSTLY_GONE);
    measure(0, "undyed", 0.0, SL_NOT_READ, (colour){80.0, -1.0, 20.0});
    read_compare();
    ck_assert_int_eq(compare->n_groups, 2);
    const sl_seen_group *const red =
        sl_looks_find(compare, 0, named_zone(compare->scene, "red"), 0.0, SL_NOT_READ);
    const sl_seen_group *const bare =
        sl_looks_find(compare, 0, named_zone(compare->scene, "undyed"), 0.0, SL_NOT_READ);
    ck_assert(red && bare);
    ck_assert(red->n[SL_BASIS_GRADE] == 2 && red->n[SL_BASIS_COLOUR] == 2);
    ck_assert(bare->n[SL_BASIS_GRADE] == 0 && bare->n[SL_BASIS_COLOUR] == 1);
    ck_assert_double_eq_tol(red->left[SL_BASIS_GRADE], 0.525, 1e-12);
    ck_assert_double_eq_tol(red->L, 42.0, 1e-12);
    ck_assert_double_eq_tol(red->a, 55.0, 1e-12);
    ck_assert_double_eq_tol(red->b, 31.5, 1e-12);
    ck_assert_double_eq_tol(bare->L, 80.0, 1e-12);
    ck_assert_double_eq_tol(bare->a, -1.0, 1e-12);
    ck_assert_double_eq_tol(bare->b, 20.0, 1e-12);
    ck_assert_double_le(bare->left[SL_BASIS_GRADE], SL_NOT_READ);
    end();
}
END_TEST

START_TEST(an_undyed_zone_that_was_read_once_stands_in_the_way_of_the_next)
{
    log_made_begin_text(&made,
                        SCENE_ON("  - {name: bare, hair: prelight-9}\n  - {name: undyed, hair: prelight-9}\n",
                                 WATER("water", APPLY("20"))),
                        NULL, 0);
    measure(0, "bare", 0.0, SL_NOT_READ, (colour){70.0, 3.0, 10.0});
    measure_all(0);
    read_compare();
    ck_assert_double_eq_tol(at("water")->seen[SL_BASIS_COLOUR].mean, SHARE, 1e-12);
    end();
}
END_TEST

START_TEST(gummy_hair_is_told_as_often_as_it_was_felt_or_not_of_each_swatch)
{
    log_made_begin(&made);
    log_made_happens(&made, SL_EVENT_STARTED, -1, 0, NULL);
    lies(3, 2 * 3600); /* late besides */
    for (int look = 0; look < 3; look++) {
        sl_log_reading reading = by_eye(look < 2 ? 3 : 5, "red", 5.0 * look, SL_NOT_READ, SL_WIPE_HALF);
        reading.said[SL_SAID_FEEL] = look < 2 ? sl_said_of_word(SL_SAID_FEEL, "gummy") : SL_NOT_SAID;
        reading.said[SL_SAID_STRETCH] = look < 2 ? SL_NOT_SAID : sl_said_of_word(SL_SAID_STRETCH, "breaks");
        keep(reading);
    }
    read_compare();
    ck_assert_int_eq(told(SL_DEVIATION_LATE, 3), 1);
    ck_assert_int_eq(told(SL_DEVIATION_GUMMY, 3), 1);
    ck_assert_int_eq(told(SL_DEVIATION_GUMMY, 5), 1);
    end();
}
END_TEST

/* docs/log.md: what this program would not have kept is left out, and counted. */
START_TEST(a_row_that_this_program_would_not_have_kept_is_compared)
{
#define ROW(kept, zone, minute, grade, L, a, b)                                                              \
    "INSERT INTO reading (kept, id, swatch, zone, minute, judge, at, grade, L, a, b) SELECT " kept           \
    ", printf('aaaaaaaa-bbbb-7ccc-8ddd-%012d', abs(" kept ")), id, '" zone "', " minute                      \
    ", 'j9', '2026-11-25T09:00:00+00:00', " grade ", " L ", " a ", " b                                       \
    " FROM swatch ORDER BY block, place LIMIT 1"
    static const char *const rows[] = {ROW("901", "red", "NULL", "'as undyed'", "40.0", "NULL", "NULL"),
                                       ROW("902", "red", "NULL", "'as undyed'", "40.0", "1.0", "NULL"),
                                       ROW("903", "red", "NULL", "'as undyed'", "400.0", "1.0", "1.0"),
                                       ROW("904", "red", "-5.0", "'as undyed'", "NULL", "NULL", "NULL"),
                                       ROW("905", "red", "NULL", "'all gone'", "NULL", "NULL", "NULL"),
                                       ROW("906", "pink", "NULL", "'as undyed'", "NULL", "NULL", "NULL"),
                                       ROW("-907", "red", "NULL", "'as undyed'", "NULL", "NULL", "NULL")};
#undef ROW
    enum { ROWS = (int)(sizeof rows / sizeof rows[0]) };
    sl_error error = {.code = SL_OK};
    log_made_begin(&made);
    see(0, SL_WIPE_HALF);
    for (int i = 0; i < ROWS; i++) {
        log_made_change(made.path, rows[i]);
        read_compare();
        ck_assert_msg(compare->n_groups == 1, "row %d: %d groups", i, compare->n_groups);
        ck_assert_double_eq(compare->groups[0].left[SL_BASIS_GRADE], 0.5);
        ck_assert_int_eq((int)made.log->n_left_out, i + 1);
    }
    ck_assert(!sl_log_whole(made.log, &error));
    ck_assert_int_eq(error.code, SL_ERR_DAMAGED);
    end();
}
END_TEST

static void nothing_read(void)
{
    sl_free(compare->groups);
    sl_free(compare->judge);
    compare->groups = NULL;
    compare->judge = NULL;
    compare->n_groups = compare->n_judges = 0;
}

/* Another program put the swatch in between. */
START_TEST(a_look_at_a_swatch_that_was_not_there_when_swatches_were_read_is_another_s)
{
    log_made_begin(&made);
    see(1, SL_WIPE_HALF);
    see(2, SL_WIPE_GHOST);
    read_compare();
    ck_assert_int_eq(compare->n_groups, 2);
    const int n = compare->n_swatches;
    nothing_read();
    compare->n_swatches = 2;
    ck_assert(sl_looks_read(compare, made.log, NULL));
    ck_assert_int_eq(compare->n_groups, 1);
    ck_assert_int_eq(compare->groups[0].swatch, 1);
    ck_assert_double_eq(compare->groups[0].left[SL_BASIS_GRADE], 0.5);
    nothing_read();
    compare->n_swatches = 0; /* there was none yet */
    ck_assert(sl_looks_read(compare, made.log, NULL));
    ck_assert_int_eq(compare->n_groups, 0);
    compare->n_swatches = n;
    end();
}
END_TEST

/* ---- more than there is room for ---------------------------------------------------------------------- */

/* A day has room for 768 swatches; a file may hold more of one test. */
START_TEST(a_test_with_more_swatches_than_a_day_holds_is_written_past_the_end_of_the_room)
{
    char text[700];
    sl_error error = {.code = SL_OK};
    log_made_begin(&made);
    snprintf(text, sizeof text,
             "WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < %d)"
             " INSERT INTO swatch (id, test, code, arm, block, place, contact_s, dwell_s, label_from,"
             " mix_age_s, looks_min) SELECT printf('aaaaaaaa-bbbb-7ccc-8ddd-%%012d', i), '%s',"
             " printf('X%%d', i), 'powder + 6 %%', 100, i, 0, 1800, 'mixing', 60, '' FROM n",
             SL_BENCH_MOST - made.n, made.test);
    log_made_change(made.path, text);
    read_compare();
    ck_assert_int_eq(compare->n_swatches, SL_BENCH_MOST);
    snprintf(text, sizeof text,
             "INSERT INTO swatch (id, test, code, arm, block, place, contact_s, dwell_s, label_from,"
             " mix_age_s, looks_min) VALUES ('aaaaaaaa-bbbb-7ccc-8ddd-000000009999', '%s', 'Y1',"
             " 'powder + 6 %%', 101, 0, 0, 1800, 'mixing', 60, '')",
             made.test);
    log_made_change(made.path, text);
    ck_assert(!reads(&error));
    ck_assert_int_eq(error.code, SL_ERR_TOO_LARGE);
    end();
}
END_TEST

/* 2 .. 98 of one swatch and 1 of the next: the first 96 of them all, rising. */
START_TEST(of_more_minutes_than_there_is_room_for_others_than_the_first_are_kept)
{
    int minutes[SL_COMPARE_MINUTES];
    log_made_begin(&made);
    const int first = log_made_swatch(&made, "powder + 6 %", 0),
              second = log_made_swatch(&made, "powder + 6 %", 1);
    for (int minute = 2; minute <= 98; minute++) {
        see_at(first < second ? first : second, minute, SL_WIPE_HALF);
    }
    see_at(first < second ? second : first, 1.0, SL_WIPE_HALF);
    read_compare();
    const int n = sl_compare_minutes(compare, named_arm(compare->scene, "powder + 6 %"),
                                     sl_scene_zone(compare->scene, "red"), minutes, SL_COMPARE_MINUTES);
    ck_assert_int_eq(n, SL_COMPARE_MINUTES);
    for (int i = 0; i < n; i++) {
        ck_assert_int_eq(minutes[i], i + 1);
    }
    end();
}
END_TEST

/* Half the colour at every half minute up to the n-th: k = ln 2 * sum(t) / sum(t t) = ln 2 * 6 / (2 n + 1).
 * The model is asked 96 times at most; what was seen is a rate all the same. */
START_TEST(a_rate_of_very_many_moments_is_not_that_of_a_hand_or_has_a_model_s_beside_it)
{
    log_made_begin(&made);
    const int swatch = log_made_swatch(&made, "powder + 6 %", 0);
    for (int n = 96; n <= 97; n++) {
        for (int half = n == 96 ? 1 : n; half <= n; half++) {
            see_at(swatch, 0.5 * half, SL_WIPE_HALF);
        }
        read_compare();
        const sl_rate rate = rate_of("powder + 6 %");
        ck_assert_int_eq(rate.per_min.n, 1);
        ck_assert_double_eq_tol(rate.per_min.mean, log(2.0) * 6.0 / (2 * n + 1), 1e-12);
        ck_assert_int_eq(rate.model_per_min > SL_NOT_READ, n == 96);
    }
    end();
}
END_TEST

/* Three swatches, looked at in the same forty minutes: the model is asked for forty of them and not for 120,
 * which would be too many. */
START_TEST(moments_that_swatches_share_are_asked_of_the_model_for_each_of_them)
{
    enum { MOMENTS = 40, SWATCHES = 3 };
    sl_log_reading all[MOMENTS * SWATCHES];
    log_made_begin(&made);
    for (int i = 0; i < MOMENTS * SWATCHES; i++) {
        all[i] = by_eye(log_made_swatch(&made, "powder + 6 %", i / MOMENTS), "red", 0.5 * (i % MOMENTS + 1),
                        SL_NOT_READ, SL_WIPE_HALF);
    }
    ck_assert(sl_log_add(made.log, all, MOMENTS * SWATCHES, NULL));
    read_compare();
    const sl_rate rate = rate_of("powder + 6 %");
    ck_assert_int_eq(rate.per_min.n, SWATCHES);
    ck_assert_double_eq_tol(rate.per_min.mean, log(2.0) * 6.0 / (2 * MOMENTS + 1), 1e-12);
    ck_assert_double_gt(rate.model_per_min, 0.0);
    end();
}
END_TEST

/* Water is looked at in its last zone and the powder, which is quicker, in its first, at the same minutes;
 * then the powder alone: of it the model tells the same. */
START_TEST(the_model_s_rate_of_one_arm_is_that_of_the_arm_before)
{
    static const char scene[] =
        SCENE_ON("  - {name: undyed, hair: prelight-9}\n  - {name: blue, hair: prelight-9, dye: {blue: 9}}\n",
                 WATER("water", APPLY("20")) WATER("powder", "      - {apply: powder-6, dwell: 20 min}\n"));
    double per_min[2];
    for (int alone = 0; alone < 2; alone++) {
        log_made_begin_text(&made, scene, NULL, 0);
        for (int k = 1; k <= 3; k++) {
            if (!alone) {
                keep(by_eye(log_made_swatch(&made, "water", 0), "blue", 5.0 * k, SL_NOT_READ, SL_WIPE_HALF));
            }
            see_at(log_made_swatch(&made, "powder", 0), 5.0 * k, SL_WIPE_HALF);
        }
        read_compare();
        per_min[alone] = rate_of("powder").model_per_min;
        end();
    }
    ck_assert_double_eq_tol(per_min[0], per_min[1], 1e-9);
    ck_assert_double_gt(per_min[1], 0.0);
}
END_TEST

/* ---- minutes ------------------------------------------------------------------------------------------ */

/* 0.5 and 0.1 within one minute at one swatch, 0.8 at another: means over two swatches, 0.3 and 0.8. */
START_TEST(two_moments_of_one_minute_are_two_swatches)
{
    log_made_begin(&made);
    see_at(log_made_swatch(&made, "powder + 6 %", 0), 10.0, SL_WIPE_HALF);
    see_at(log_made_swatch(&made, "powder + 6 %", 0), 10.3, SL_WIPE_GHOST);
    see_at(log_made_swatch(&made, "powder + 6 %", 1), 9.8, SL_WIPE_SLIGHT);
    read_compare();
    const sl_seen_mean ten = sl_compare_at(compare, named_arm(compare->scene, "powder + 6 %"),
                                           sl_scene_zone(compare->scene, "red"), 10);
    ck_assert_int_eq(ten.n, 2);
    ck_assert_double_eq_tol(ten.mean, 0.55, 1e-12);
    see_at(log_made_swatch(&made, "powder + 6 %", 1), 15.0, SL_WIPE_GHOST); /* alone: to the last bit */
    read_compare();
    ck_assert_double_eq(sl_compare_at(compare, named_arm(compare->scene, "powder + 6 %"),
                                      sl_scene_zone(compare->scene, "red"), 15)
                            .mean,
                        0.10);
    rank_at(10);
    ck_assert_int_eq(at("powder + 6 %")->seen[SL_BASIS_GRADE].n, 2);
    ck_assert_double_eq_tol(at("powder + 6 %")->seen[SL_BASIS_GRADE].mean, 0.55, 1e-12);
    end();
}
END_TEST

/* Looks at 5, 10 and 20 min, and others that are no points of the line: before contact, hours later, by an
 * instrument where eyes decide; and of an arm that nobody treated. */
START_TEST(what_is_no_look_on_the_way_is_a_point_of_a_rate)
{
    for (int more = 0; more < 2; more++) {
        log_made_begin_ladder(&made, rungs, 4);
        const int swatch = log_made_swatch(&made, "powder + 6 %", 0),
                  bare = log_made_swatch(&made, "untreated", 0);
        see_at(swatch, 5.0, SL_WIPE_SLIGHT);
        see_at(swatch, 10.0, SL_WIPE_HALF);
        see_at(swatch, 20.0, SL_WIPE_MOSTLY_GONE);
        if (more) {
            see_at(swatch, 0.0, SL_WIPE_GHOST);
            keep(by_eye(swatch, "red", 10.0, 24.0, SL_WIPE_GHOST));
            measure(swatch, "red", 15.0, SL_NOT_READ, red_at_end);
            for (int i = 0; i < 3; i++) {
                see_at(bare, 5.0 * (i + 1), SL_WIPE_NO_CHANGE);
            }
        }
        read_compare();
        const double minute[] = {5.0, 10.0, 20.0}, left[] = {0.8, 0.5, 0.25};
        double k = 0.0;
        ck_assert(sl_rate_of(SL_START_FITTED, minute, left, 3, &k));
        ck_assert_double_eq_tol(rate_of("powder + 6 %").per_min.mean, k, 1e-12);
        int minutes[8];
        ck_assert_int_eq(sl_compare_minutes(compare, named_arm(compare->scene, "powder + 6 %"),
                                            sl_scene_zone(compare->scene, "red"), minutes, 8),
                         3);
        ck_assert(minutes[0] == 5 && minutes[1] == 10 && minutes[2] == 20);
        ck_assert_int_eq(rate_of("untreated").per_min.n, more);
        if (more) {
            ck_assert_double_eq_tol(rate_of("untreated").per_min.mean, 0.0, 1e-12);
            ck_assert_double_eq_tol(rate_of("untreated").model_per_min, 0.0, 1e-9);
            rank_at(10);
            ck_assert_double_eq_tol(at("powder + 6 %")->seen[SL_BASIS_GRADE].mean, 0.5, 1e-12);
            ck_assert_double_eq_tol(at("untreated")->predicted, 1.0, 1e-9);
        }
        end();
    }
}
END_TEST

/* docs/science.md: looks at three whole minutes or more, from 1. A look within the first half minute is a
 * point, and no minute. */
START_TEST(a_look_within_half_a_minute_counts_as_one_of_three_minutes)
{
    const double minute[] = {0.3, 5.0, 10.0, 20.0}, left[] = {0.8, 0.8, 0.5, 0.25};
    const sl_wipe grade[] = {SL_WIPE_SLIGHT, SL_WIPE_SLIGHT, SL_WIPE_HALF, SL_WIPE_MOSTLY_GONE};
    log_made_begin(&made);
    for (int n = 0; n < 4; n++) {
        see_at(log_made_swatch(&made, "powder + 6 %", 0), minute[n], grade[n]);
        read_compare();
        ck_assert_int_eq(rate_of("powder + 6 %").per_min.n, n == 3);
    }
    double k = 0.0;
    ck_assert(sl_rate_of(SL_START_KNOWN, minute, left, 4, &k));
    ck_assert_double_eq_tol(rate_of("powder + 6 %").per_min.mean, k, 1e-12);
    end();
}
END_TEST

/* Pieces at 5 and 10 min in red and one at 20 in blue; the last piece, of 40, is the end. Of an arm that has
 * no ladder the end is no minute. */
START_TEST(minutes_at_which_somebody_looked_are_not_told_zone_by_zone)
{
    char words[200];
    log_made_begin_ladder(&made, rungs, 4);
    const int swatch = log_made_swatch(&made, "powder + 6 %", 0);
    see_at(swatch, 10.0, SL_WIPE_HALF);
    see_at(swatch, 5.0, SL_WIPE_SLIGHT);
    keep(by_eye(swatch, "blue", 20.0, SL_NOT_READ, SL_WIPE_HALF));
    see(log_made_swatch(&made, "untreated", 0), SL_WIPE_NO_CHANGE);
    for (int ended = 0; ended < 2; ended++) {
        if (ended) {
            see(swatch, SL_WIPE_GHOST);
        }
        read_compare();
        rank_at(15);
        const int red = sl_scene_zone(compare->scene, "red"), blue = sl_scene_zone(compare->scene, "blue");
        const sl_compare_page all = {.compare = compare, .only = -1},
                              of_red = {.compare = compare, .only = red},
                              of_blue = {.compare = compare, .only = blue};
        sl_compare_no_look_words(&all, words, sizeof words);
        ck_assert_str_eq(words, ended ? "Nobody looked at minute 15. There are looks at 5, 10, 20 and 40 min."
                                      : "Nobody looked at minute 15. There are looks at 5, 10 and 20 min.");
        sl_compare_no_look_words(&of_red, words, sizeof words);
        ck_assert_str_eq(words, ended ? "Nobody looked at minute 15. There are looks at 5, 10 and 40 min."
                                      : "Nobody looked at minute 15. There are looks at 5 and 10 min.");
        sl_compare_no_look_words(&of_blue, words, sizeof words);
        ck_assert_str_eq(words, "Nobody looked at minute 15. There are looks at 20 min.");
    }
    end();
}
END_TEST

/* One after the other; those that find no room fall off at the end, and what lies behind stays as it is. */
START_TEST(a_minute_is_put_behind_a_later_one_or_twice_or_past_the_room)
{
    static const struct {
        int most, put[8], n_put, kept[8], n;
    } cases[] = {{8, {20, 5, 10, 10, 5, 20, 1}, 7, {1, 5, 10, 20}, 4},
                 {3, {20, 5, 10}, 3, {5, 10, 20}, 3},
                 {3, {20, 5, 10, 15}, 4, {5, 10, 15}, 3},
                 {3, {20, 5, 10, 30}, 4, {5, 10, 20}, 3},
                 {3, {20, 5, 10, 20, 1}, 5, {1, 5, 10}, 3},
                 {1, {20, 5, 10}, 3, {5}, 1},
                 {4, {7, 7}, 2, {7}, 1}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        int minutes[9] = {-7, -7, -7, -7, -7, -7, -7, -7, -7}, n = 0;
        for (int k = 0; k < cases[i].n_put; k++) {
            n = sl_minutes_put(minutes, n, cases[i].most, cases[i].put[k]);
        }
        ck_assert_msg(n == cases[i].n, "case %d: %d", (int)i, n);
        for (int k = 0; k < 9; k++) {
            ck_assert_msg(k < n ? minutes[k] == cases[i].kept[k] : k < cases[i].most || minutes[k] == -7,
                          "case %d: %d at %d", (int)i, minutes[k], k);
        }
    }
}
END_TEST

/* 0.50, 0.10 and 0.80 within one minute at one swatch, 0.25 at the next, 1 at that of another arm. */
START_TEST(three_moments_of_one_minute_are_not_one_mean_of_their_swatch)
{
    log_made_begin(&made);
    const int one = log_made_swatch(&made, "powder + 6 %", 0),
              two = log_made_swatch(&made, "powder + 6 %", 1);
    see_at(one, 9.6, SL_WIPE_HALF);
    see_at(one, 10.0, SL_WIPE_GHOST);
    see_at(one, 10.4, SL_WIPE_SLIGHT);
    see_at(two, 9.5, SL_WIPE_MOSTLY_GONE);
    see_at(two, 10.5, SL_WIPE_NO_CHANGE); /* of minute 11 */
    see_at(log_made_swatch(&made, "powder + 3 %", 0), 10.0, SL_WIPE_NO_CHANGE);
    read_compare();
    const int red = named_zone(compare->scene, "red");
    const sl_seen_mean ten = sl_compare_at(compare, named_arm(compare->scene, "powder + 6 %"), red, 10);
    ck_assert_int_eq(ten.n, 2);
    ck_assert_double_eq_tol(ten.mean, ((0.5 + 0.1 + 0.8) / 3.0 + 0.25) / 2.0, 1e-12);
    ck_assert_double_eq_tol(sl_swatch_at(compare, one, red, SL_BASIS_GRADE, 10), 1.4 / 3.0, 1e-12);
    ck_assert_double_eq_tol(sl_swatch_at(compare, two, red, SL_BASIS_GRADE, 11), 1.0, 1e-12);
    ck_assert_double_le(sl_swatch_at(compare, two, red, SL_BASIS_GRADE, 12), SL_NOT_READ);
    ck_assert_double_le(sl_swatch_at(compare, two, red, SL_BASIS_COLOUR, 10), SL_NOT_READ);
    end();
}
END_TEST

/* The sixth is one: half a minute is minute 1. */
START_TEST(a_look_of_another_kind_is_one_on_the_way)
{
    log_made_begin(&made);
    const int swatch = log_made_swatch(&made, "powder + 6 %", 0);
    see_at(swatch, 10.0, SL_WIPE_HALF);
    read_compare();
    const int arm = named_arm(compare->scene, "powder + 6 %"), red = named_zone(compare->scene, "red");
    const sl_seen_group is = compare->groups[0];
    for (int i = 0; i < 8; i++) {
        sl_seen_group look = is;
        look.minute = i == 0 ? 0.0 : i == 1 ? 0.49 : i == 2 ? SL_NOT_READ : i == 6 ? 0.5 : look.minute;
        look.hours = i == 3 ? 24.0 : i == 4 ? 0.0 : look.hours;
        look.left[SL_BASIS_GRADE] = i == 5 ? SL_NOT_READ : 0.0; /* nothing left is seen, too */
        ck_assert_msg(sl_look_on_the_way(compare, &look, arm, red) == (i >= 6), "look %d", i);
    }
    ck_assert(!sl_look_on_the_way(compare, &is, arm, red + 1));
    ck_assert(!sl_look_on_the_way(compare, &is, arm + 1, red));
    end();
}
END_TEST

/* On a ladder of 5, 10, 20 and 40 minutes the last piece is the end; of an arm without one the end is no
 * minute. 0.10 at the end of red, 0.80 by its minute; blue's are its own. */
START_TEST(the_end_of_a_ladder_is_not_the_piece_of_its_last_minute)
{
    log_made_begin_ladder(&made, rungs, 4);
    const int swatch = log_made_swatch(&made, "powder + 6 %", 0);
    see(swatch, SL_WIPE_GHOST);
    keep(by_eye(swatch, "blue", SL_NOT_READ, SL_NOT_READ, SL_WIPE_HALF));
    keep(by_eye(swatch, "red", SL_NOT_READ, 24.0, SL_WIPE_NO_CHANGE)); /* hours later is no piece */
    read_compare();
    const int red = named_zone(compare->scene, "red"), blue = named_zone(compare->scene, "blue");
    ck_assert_double_eq_tol(sl_swatch_at(compare, swatch, red, SL_BASIS_GRADE, 40), 0.1, 1e-12);
    ck_assert_double_eq_tol(sl_swatch_at(compare, swatch, blue, SL_BASIS_GRADE, 40), 0.5, 1e-12);
    ck_assert_double_le(sl_swatch_at(compare, swatch, red, SL_BASIS_GRADE, 39), SL_NOT_READ);
    see_at(swatch, 40.0, SL_WIPE_SLIGHT);
    read_compare();
    ck_assert_double_eq_tol(sl_swatch_at(compare, swatch, red, SL_BASIS_GRADE, 40), 0.45, 1e-12);
    sl_bench_swatch *const plan = &compare->swatches[swatch].bench;
    for (int less = 0; less < 2; less++) { /* 39:30 min is the 40th, a second less is not */
        plan->dwell_s = 2370 - less;
        compare->bench[swatch].to_planned[red] = 0.7;
        rank_at(40);
        ck_assert_double_eq_tol(sl_swatch_at(compare, swatch, red, SL_BASIS_GRADE, 40), less ? 0.8 : 0.45,
                                1e-12);
        ck_assert_double_eq_tol(compare->bench[swatch].piece_to_planned[red], less ? 1.0 : 0.7, 1e-12);
    }
    plan->dwell_s = 2400;
    plan->ladder = false;
    ck_assert_double_eq_tol(sl_swatch_at(compare, swatch, red, SL_BASIS_GRADE, 40), 0.8, 1e-12);
    end();
}
END_TEST

/* ---- how they are asked for ------------------------------------------------------------------------- */

/* SQLite's plan of it, a line for each step, behind each other. */
static void plan_of(bool together, char plan[1000])
{
    sl_error error = {.code = SL_OK};
    char asked[SL_LOOKS_ASKED], text[SL_LOOKS_ASKED + 32];
    sl_looks_asked(together, asked);
    snprintf(text, sizeof text, "EXPLAIN QUERY PLAN %s", asked);
    sl_statement ask = sl_sql(made.log, text, &error);
    plan[0] = '\0';
    while (sl_next_row(&ask)) {
        const size_t length = strlen(plan);
        snprintf(plan + length, 1000 - length, "%s\n", sl_text_at(&ask, 3));
    }
    ck_assert_msg(sl_sql_leave(&ask), "%s", error.found);
}

START_TEST(readings_that_lie_together_are_not_read_in_one_go_or_are_sorted)
{
    char plan[1000];
    log_made_begin(&made);
    plan_of(true, plan);
    ck_assert_msg(strncmp(plan, "SEARCH r USING INTEGER PRIMARY KEY (rowid>? AND rowid<?)", 56) == 0, "%s",
                  plan);
    ck_assert_msg(!strstr(plan, "TEMP B-TREE") && !strstr(plan, "reading_of_swatch"), "%s", plan);
    plan_of(false, plan);
    ck_assert_msg(strstr(plan, "reading_of_swatch (swatch=?"), "%s", plan);
}
END_TEST

/* Another test's readings lie between those of this one, many times as many. */
START_TEST(looks_are_others_where_tests_lie_among_each_other)
{
    enum { BETWEEN = 40 };
    char other[SL_UUID];
    log_made_begin(&made);
    sl_plan *plan = NULL;
    const sl_resolver resolver = shipped_resolver();
    sl_scene *const scene = sl_scene_load(SLOWLIFT_MODELS "/scenes/eight-arms.yaml", &resolver, NULL);
    const sl_plan_request request = sl_plan_request_default();
    ck_assert(scene && sl_plan_make(&plan, scene, &request, NULL) &&
              sl_log_begin(made.log, SLOWLIFT_MODELS "/scenes/eight-arms.yaml", &resolver, plan, "other",
                           "nobody", other, NULL));
    sl_log_swatch *swatches = NULL;
    int n = 0;
    ck_assert(sl_log_swatches(made.log, other, &swatches, &n, NULL));
    keep(by_eye(0, "red", SL_NOT_READ, SL_NOT_READ, SL_WIPE_HALF));
    for (int i = 0; i < BETWEEN; i++) {
        sl_log_reading reading = by_eye(0, "red", SL_NOT_READ, SL_NOT_READ, SL_WIPE_UNDYED);
        memcpy(reading.swatch, swatches[i % n].id, sizeof reading.swatch);
        keep(reading);
    }
    keep(by_eye(0, "red", SL_NOT_READ, SL_NOT_READ, SL_WIPE_SLIGHT));
    read_compare();
    ck_assert_int_eq(compare->n_groups, 1);
    ck_assert_int_eq(compare->groups[0].n[SL_BASIS_GRADE], 2);
    ck_assert_double_eq_tol(compare->groups[0].left[SL_BASIS_GRADE], 0.65, 1e-12);
    sl_free(swatches);
    sl_plan_free(plan);
    sl_scene_free(scene);
}
END_TEST

START_SUITE("looks")
ADD(of_a_class_of_judges_some_are_left_out)
ADD(a_judge_s_first_grade_is_not_the_one_that_counts)
ADD(a_day_later_is_not_measured_against_undyed_hair_of_that_day)
ADD(a_share_is_taken_though_one_of_its_four_colours_was_not_read)
ADD(what_was_seen_at_a_moment_is_one_of_its_looks_and_not_their_mean)
ADD(an_undyed_zone_that_was_read_once_stands_in_the_way_of_the_next)
ADD(gummy_hair_is_told_as_often_as_it_was_felt_or_not_of_each_swatch)
ADD(a_row_that_this_program_would_not_have_kept_is_compared)
ADD(a_look_at_a_swatch_that_was_not_there_when_swatches_were_read_is_another_s)
ADD(a_test_with_more_swatches_than_a_day_holds_is_written_past_the_end_of_the_room)
ADD(of_more_minutes_than_there_is_room_for_others_than_the_first_are_kept)
ADD(a_rate_of_very_many_moments_is_not_that_of_a_hand_or_has_a_model_s_beside_it)
ADD(moments_that_swatches_share_are_asked_of_the_model_for_each_of_them)
ADD(the_model_s_rate_of_one_arm_is_that_of_the_arm_before)
ADD(two_moments_of_one_minute_are_two_swatches)
ADD(what_is_no_look_on_the_way_is_a_point_of_a_rate)
ADD(a_look_within_half_a_minute_counts_as_one_of_three_minutes)
ADD(minutes_at_which_somebody_looked_are_not_told_zone_by_zone)
CASE("before the end")
ADD(a_minute_is_put_behind_a_later_one_or_twice_or_past_the_room)
ADD(three_moments_of_one_minute_are_not_one_mean_of_their_swatch)
ADD(a_look_of_another_kind_is_one_on_the_way)
ADD(the_end_of_a_ladder_is_not_the_piece_of_its_last_minute)
CASE("how they are asked for")
ADD(readings_that_lie_together_are_not_read_in_one_go_or_are_sorted)
ADD(looks_are_others_where_tests_lie_among_each_other)
END_SUITE
