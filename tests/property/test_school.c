/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A school's made-up years, whose truth is kept: whether what is told of several tests together holds it, and
 * which tests stand together.
 */
#include "log/several/school.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "base/memory.h"
#include "log/several/several.h"
#include "log/shelf/drift.h"
#include "log/store/sql.h"
#include "unit/suite.h"

enum { YEARS = 6 };
static const char scene_path[] = SLOWLIFT_MODELS "/scenes/eight-arms.yaml";
static char folder[64], path[3][128];
static sl_school_truth truth;

static void make(uint64_t seed)
{
    static const char *folders[] = {SLOWLIFT_MODELS};
    static const char *const files[] = {SL_SCHOOL_BEFORE, SL_SCHOOL_AFTER, SL_SCHOOL_TRUTH};
    sl_folders models = {folders, 1};
    const sl_resolver resolver = sl_resolver_of_folders(&models);
    sl_error error = {.code = SL_OK};
    snprintf(folder, sizeof folder, "/tmp/slowlift-school-XXXXXX");
    ck_assert_ptr_nonnull(mkdtemp(folder));
    ck_assert_msg(sl_log_school(folder, scene_path, &resolver, seed, &truth, &error), "%s; %s", error.found,
                  error.wanted);
    for (int i = 0; i < 3; i++) {
        snprintf(path[i], sizeof path[i], "%s/%s", folder, files[i]);
    }
}

static void begin(void)
{
    make(SL_SCHOOL_SEED);
}

static void end(void)
{
    for (int i = 0; i < 3; i++) {
        ck_assert_int_eq(unlink(path[i]), 0);
    }
    ck_assert_int_eq(rmdir(folder), 0);
}

static sl_several *reads(const sl_several_asked *asked)
{
    sl_several *several = NULL;
    sl_error error = {.code = SL_OK};
    ck_assert_msg(sl_several_read(&several, asked, &error), "%s; %s", error.found, error.wanted);
    return several;
}

static const sl_several_asked whole_year = {.place = folder, .all = true, .noise_floor = -1.0};

/* How many pairs of which one is told to come before the other lie nearer than what is said to look even. */
static int nearer(const bool *before, int n_strips, const double *mean, double even_below)
{
    int n = 0;
    for (int i = 0; i < n_strips * n_strips; i++) {
        n += before[i] && fabs(mean[i / n_strips] - mean[i % n_strips]) < even_below - 1e-9 ? 1 : 0;
    }
    return n;
}

static void each_test_alone(void)
{
    sl_log *log = NULL;
    sl_log_test *test = NULL;
    int n_tests = 0;
    ck_assert(sl_log_open(&log, path[1], false, NULL) && sl_log_tests(log, &test, &n_tests, NULL));
    for (int i = 0; i < n_tests; i++) {
        sl_compare *seen = NULL;
        ck_assert(sl_compare_read(&seen, log, &test[i], -1.0, NULL));
        const int n = seen->scene->n_arms;
        for (int z = 0; z < seen->scene->n_zones; z++) {
            double mean[SL_MAX_ARMS];
            for (int a = 0; a < n; a++) {
                mean[a] = sl_compare_arm(seen, a, z)->seen[seen->basis[z]].mean;
            }
            ck_assert_int_eq(nearer(seen->before + z * n * n, n, mean, seen->even_below), 0);
        }
        sl_compare_free(seen);
    }
    sl_free(test);
    sl_log_close(log);
}

START_TEST(strips_are_told_apart_and_said_to_look_even)
{
    for (int year = 0; year < 2; year++) {
        make(SL_SCHOOL_SEED + (uint64_t)year);
        sl_several *const several = reads(&whole_year);
        for (int g = 0; g < several->n_groups; g++) {
            const sl_several_group *const group = &several->group[g];
            const int n = group->n_strips;
            for (int z = 0; z < group->n_zones; z++) {
                ck_assert(!group->pool[z] || nearer(group->before + z * n * n, n, group->pool[z]->all.mean,
                                                    group->even_below) == 0);
            }
        }
        sl_several_free(several);
        each_test_alone();
        end();
    }
}
END_TEST

/* Six tests of each lot: strips' means against the truth of that lot. Strips of a year share its judges, who
 * lean, and its dyes: the bound of the share held is three errors of 95 in 100 if only groups and colours
 * were independent. */
START_TEST(a_school_is_told_what_is_not_so)
{
    double held = 0.0, n = 0.0, false_before = 0.0, false_chance = 0.0, groups = 0.0;
    for (int year = 0; year < YEARS; year++) {
        make(SL_SCHOOL_SEED + (uint64_t)year);
        sl_several *const several = reads(&whole_year);
        ck_assert_int_eq(several->n_groups, SL_SCHOOL_LOTS);
        for (int g = 0; g < several->n_groups; g++) {
            const sl_several_group *const group = &several->group[g];
            const sl_scene *const scene = several->test[group->first].seen->scene;
            bool wrong = false, by_chance = false;
            for (int z = 0; z < group->n_zones; z++) {
                for (int a = 0; group->pool[z] && a < scene->n_arms; a++) {
                    if (group->pool[z]->tests[a] > 0) {
                        n++;
                        held += fabs(group->pool[z]->all.mean[a] - truth.left[g][a][z]) <=
                                        sl_several_half(group, z, a)
                                    ? 1.0
                                    : 0.0;
                    }
                    for (int b = 0; b < scene->n_arms; b++) {
                        const int pair = (z * group->n_strips + a) * group->n_strips + b;
                        const bool less = truth.left[g][a][z] < truth.left[g][b][z];
                        wrong = wrong || (group->before[pair] && !less);
                        by_chance = by_chance || (group->before_by_order[pair] && !less);
                    }
                }
            }
            groups++;
            false_before += wrong ? 1.0 : 0.0;
            false_chance += by_chance ? 1.0 : 0.0;
        }
        sl_several_free(several);
        end();
    }
    const double independent = groups * 7.0; /* dyed zones */
    ck_assert_msg(held / n >= 0.95 - 3.0 * sqrt(0.05 * 0.95 / independent), "held %g of %g", held, n);
    ck_assert_msg(fmax(false_before, false_chance) / groups <= 0.05 + 3.0 * sqrt(0.05 * 0.95 / groups),
                  "%g, %g of %g", false_before, false_chance, groups);
    printf("%g of %g intervals hold the truth; %g of %g groups are told a false before, %g by chances of "
           "grades\n",
           held, n, false_before, groups, false_chance);
}
END_TEST

/* Whose grading shifts in the truth, that one alone and from that test on. What lies outside limits out of
 * ten values by luck alone is no shift unless the next test lies on that side, too. */
START_TEST(the_judge_who_shifts_is_not_found_or_another_is)
{
    for (int year = 0; year < YEARS; year++) {
        sl_drift drift;
        sl_error error = {.code = SL_OK};
        int rows = 0;
        make(SL_SCHOOL_SEED + (uint64_t)year);
        ck_assert_msg(sl_drift_read(&drift, folder, &error), "%s; %s", error.found, error.wanted);
        for (size_t i = 0; i < drift.n; i++) {
            const sl_drift_row *const row = &drift.row[i];
            if (row->kind != SL_DRIFT_OFFSET) {
                continue;
            }
            const double *const lenient = truth.lenient[rows++];
            const sl_drift_shift shift = sl_drift_shift_of(&drift, row);
            const bool shifts = lenient[SL_SCHOOL_TESTS - 1] > lenient[0];
            ck_assert_uint_eq(row->n, SL_SCHOOL_TESTS);
            ck_assert_msg((shift.kind == SL_SHIFT_OWN) == shifts, "%s in year %d: %d", row->code, year,
                          (int)shift.kind);
            if (shifts) {
                /* steps over steps' errors: of two tests and of ten */
                const double steps = (SL_WIPES - 1) * (lenient[SL_SCHOOL_TESTS - 1] - lenient[0]);
                const double off = row->point[0].error * sqrt(1.0 / 2.0 + 1.0 / 10.0);
                ck_assert_msg(fabs(shift.steps - steps) < 4.0 * off, "%g, not %g", shift.steps, steps);
                ck_assert_uint_eq(shift.since, 10);
                ck_assert(lenient[shift.since - 1] < lenient[shift.since]);
            }
        }
        ck_assert_int_eq(rows, SL_SCHOOL_JUDGES);
        sl_drift_free(&drift);
        end();
    }
}
END_TEST

START_TEST(lots_stand_together_unasked_or_apart_when_asked_for_or_are_not_named)
{
    sl_several_asked asked = whole_year;
    sl_several *several = reads(&asked);
    ck_assert_uint_eq(several->n, SL_SCHOOL_TESTS);
    ck_assert_int_eq(several->n_copies, SL_SCHOOL_TESTS); /* as planned */
    ck_assert_int_eq(several->n_groups, 2);
    ck_assert_int_eq(several->group[0].apart.kind, SL_APART_NOT);
    ck_assert_int_eq(several->group[1].apart.kind, SL_APART_POWDER);
    ck_assert_str_eq(several->group[1].apart.lot, "MADE-UP-2");
    ck_assert_str_eq(several->group[1].apart.other, "MADE-UP-1");
    ck_assert_int_eq(several->group[1].n_tests, 6);
    sl_several_free(several);
    asked.across = true;
    several = reads(&asked);
    ck_assert_int_eq(several->n_groups, 1);
    ck_assert_int_eq(several->group[0].n_tests, 12);
    ck_assert_int_eq(several->group[0].across.kind, SL_APART_POWDER);
    sl_several_free(several);
}
END_TEST

static void parted_anew(sl_several *several)
{
    for (int g = 0; g < several->n_groups; g++) {
        for (int z = 0; z < several->group[g].n_zones; z++) {
            sl_pool_free(several->group[g].pool[z]);
        }
        sl_free(several->group[g].place);
        sl_free(several->group[g].predicted);
        sl_free(several->group[g].before);
        sl_free(several->group[g].before_by_order);
    }
    sl_free(several->group);
    several->n_groups = 0;
    ck_assert(sl_several_parted(several, NULL));
}

static void ck_last(sl_several *several, sl_apart_kind kind, const char *what)
{
    parted_anew(several);
    ck_assert_int_eq(several->n_groups, 3);
    ck_assert_int_eq(several->group[2].n_tests, 1);
    ck_assert_int_eq(several->group[2].apart.kind, kind);
    ck_assert_str_eq(several->group[2].apart.what, what);
}

START_TEST(another_mix_hair_dye_or_label_stands_among_the_same_or_is_not_named)
{
    sl_several *const several = reads(&whole_year);
    sl_scene *const scene = several->test[SL_SCHOOL_TESTS - 1].seen->scene;
    const int arm = sl_scene_arm(scene, "powder + 3 %");
    sl_step *const lies = &scene->arms[arm].steps[0];
    lies->duration_min += 5.0;
    ck_last(several, SL_APART_STRIP, "powder + 3 %");
    lies->duration_min -= 5.0;
    scene->mixes[lies->mix].holds[SL_OF_POWDER][SL_METASILICATE].value += 0.01;
    ck_last(several, SL_APART_STRIP, "powder + 3 %");
    scene->mixes[lies->mix].holds[SL_OF_POWDER][SL_METASILICATE].value -= 0.01;
    scene->zones[5].recipe.strength[0] += 1.0;
    ck_last(several, SL_APART_ZONE, "blue");
    scene->zones[5].recipe.strength[0] -= 1.0;
    scene->mixes[lies->mix].label_max_min = 20.0;
    ck_last(several, SL_APART_LABEL, "powder + 3 %");
    ck_assert_double_eq_tol(several->group[2].apart.label_min, 20.0, 1e-12);
    scene->mixes[lies->mix].label_max_min = 0.0;
    for (int a = 0; a < scene->n_arms; a++) {
        scene->arms[a].name = "another";
    }
    ck_last(several, SL_APART_NOTHING, "");
    sl_several_free(several);
}
END_TEST

START_TEST(a_rehearsal_or_somebodys_hair_stands_among_tests)
{
    sl_log *log = NULL;
    sl_log_test *tests = NULL;
    sl_log_swatch *swatches = NULL;
    int n = 0, n_swatches = 0;
    ck_assert(sl_log_open(&log, path[1], SL_LOG_WRITE, NULL) && sl_log_tests(log, &tests, &n, NULL));
    ck_assert(sl_log_swatches(log, tests[1].id, &swatches, &n_swatches, NULL));
    sl_event rehearsed = {.kind = SL_EVENT_NOTED, .swatch = -1, .speed = 60.0},
             person = {.kind = SL_EVENT_NOTED, .swatch = 0};
    ck_assert(sl_instant_now(&rehearsed.at, NULL) && sl_instant_now(&person.at, NULL));
    ck_assert(
        sl_log_append(log, tests[1].id, swatches, n_swatches, &person, "strand: person=K12 root=no", NULL));
    sl_free(swatches);
    ck_assert(sl_log_swatches(log, tests[0].id, &swatches, &n_swatches, NULL));
    ck_assert(sl_log_append(log, tests[0].id, swatches, n_swatches, &rehearsed, NULL, NULL));
    sl_free(swatches);
    sl_free(tests);
    sl_log_close(log);
    sl_several_asked asked = whole_year;
    asked.place = path[1];
    sl_several *const several = reads(&asked);
    ck_assert_int_eq(several->n_rehearsed, 1);
    ck_assert_int_eq(several->n_people, 1);
    ck_assert_uint_eq(several->n, SL_SCHOOL_TESTS - 2);
    sl_several_free(several);
}
END_TEST

START_TEST(a_test_that_is_not_there_is_left_out_in_silence)
{
    const char *const names[] = {"zzzz"};
    sl_several *several = NULL;
    sl_error error = {.code = SL_OK};
    const sl_several_asked asked = {.place = path[1], .test = names, .n_tests = 1, .noise_floor = -1.0};
    ck_assert(!sl_several_read(&several, &asked, &error));
    ck_assert_int_eq(error.code, SL_ERR_MISSING_REFERENCE);
}
END_TEST

START_SUITE("school")
ADD(strips_are_told_apart_and_said_to_look_even)
ADD(a_school_is_told_what_is_not_so)
ADD(the_judge_who_shifts_is_not_found_or_another_is)
CASE("which tests")
FIXTURE(begin, end)
ADD(lots_stand_together_unasked_or_apart_when_asked_for_or_are_not_named)
ADD(another_mix_hair_dye_or_label_stands_among_the_same_or_is_not_named)
ADD(a_rehearsal_or_somebodys_hair_stands_among_tests)
ADD(a_test_that_is_not_there_is_left_out_in_silence)
END_SUITE
