/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Every allocation that reading and copying a scene makes is made to fail, once and from then on.
 */
#include <stdio.h>
#include <string.h>

#include "slowlift/cost.h"
#include "slowlift/scene.h"
#include "suite.h"
#include "tools/faults.h"

static sl_scene *load_and_copy(sl_error *error)
{
    static const char *const paths[] = {SLOWLIFT_MODELS};
    sl_folders folders = {paths, 1};
    const sl_resolver resolver = sl_resolver_of_folders(&folders);
    sl_scene *const scene = sl_scene_load(SLOWLIFT_MODELS "/scenes/eight-arms.yaml", &resolver, error);
    if (!scene) {
        return NULL;
    }
    sl_scene *const copy = sl_scene_copy(scene, error);
    sl_scene_free(scene);
    return copy;
}

static void each_failure_is_reported(bool from_then_on)
{
    sl_error error;
    faults_arm(0, false);
    sl_scene_free(load_and_copy(&error));
    const faults_count whole = faults_disarm();
    ck_assert_int_eq(whole.alive, 0);
    ck_assert_int_gt(whole.calls, 20);
    for (long i = 1; i <= whole.calls; i++) {
        faults_arm(i, from_then_on);
        sl_scene *const scene = load_and_copy(&error);
        const faults_count count = faults_disarm();
        ck_assert_msg(scene == NULL, "allocation %ld of %ld failed unseen", i, whole.calls);
        ck_assert_msg(error.code == SL_ERR_NO_MEMORY, "allocation %ld: %s", i, sl_code_name(error.code));
        ck_assert_msg(count.alive == 0, "allocation %ld: %ld blocks leak", i, count.alive);
    }
}

START_TEST(an_allocation_that_fails_once_is_reported_and_leaks_nothing)
{
    each_failure_is_reported(false);
}
END_TEST

START_TEST(memory_that_is_gone_is_reported_and_leaks_nothing)
{
    each_failure_is_reported(true);
}
END_TEST

START_TEST(a_check_without_memory_is_reported)
{
    static const char *const paths[] = {SLOWLIFT_MODELS};
    sl_folders folders = {paths, 1};
    const sl_resolver resolver = sl_resolver_of_folders(&folders);
    static const char *const files[] = {"/dyes/bright-one.yaml", "/hair/prelight-9.yaml",
                                        "/mixes/powder-6.yaml", "/chemistry/reversed.yaml",
                                        "/forms/nothing-stops.yaml"};
    for (size_t f = 0; f < sizeof files / sizeof files[0]; f++) {
        char path[512];
        sl_error error;
        snprintf(path, sizeof path, SLOWLIFT_MODELS "%s", files[f]);
        bool good = false;
        for (long i = 1; !good && i < 1000; i++) {
            faults_arm(i, false);
            good = sl_file_check(path, &resolver, NULL, NULL, 0, &error);
            const faults_count count = faults_disarm();
            ck_assert_msg(good || error.code == SL_ERR_NO_MEMORY, "%s", sl_code_name(error.code));
            ck_assert_int_eq(count.alive, 0);
        }
        ck_assert(good); /* once no allocation is left to fail */
    }
}
END_TEST

/* Prices are read into the caller's record: nothing is kept, whether the file is good or not. */
START_TEST(reading_prices_leaks_nothing)
{
    static const char *const files[] = {SLOWLIFT_MODELS "/prices/school.yaml",
                                        SLOWLIFT_BAD "/prices-tub-without-weeks.yaml",
                                        SLOWLIFT_BAD "/prices-currency-missing.yaml",
                                        SLOWLIFT_BAD "/open-quote.yaml", SLOWLIFT_MODELS "/prices/none.yaml"};
    for (size_t f = 0; f < sizeof files / sizeof files[0]; f++) {
        const sl_prices before = {.packet_g = 7.0};
        sl_prices prices = before;
        sl_error error;
        faults_arm(0, false);
        const bool good = sl_prices_load(files[f], &prices, &error);
        const faults_count whole = faults_disarm();
        ck_assert_int_eq(good, f == 0);
        ck_assert_int_eq(whole.alive, 0);
        ck_assert_double_eq(prices.packet_g, good ? 25.0 : 7.0);
        for (long i = 1; i <= whole.calls && good; i++) {
            prices = before;
            faults_arm(i, false);
            const bool unseen = sl_prices_load(files[f], &prices, &error);
            const faults_count count = faults_disarm();
            ck_assert(!unseen);
            ck_assert_int_eq(error.code, SL_ERR_NO_MEMORY);
            ck_assert_msg(count.alive == 0, "allocation %ld of %ld: %ld blocks leak", i, whole.calls,
                          count.alive);
            ck_assert_double_eq(prices.packet_g, 7.0);
        }
    }
}
END_TEST

START_SUITE("scene memory")
ADD(an_allocation_that_fails_once_is_reported_and_leaks_nothing)
ADD(memory_that_is_gone_is_reported_and_leaks_nothing)
ADD(a_check_without_memory_is_reported)
ADD(reading_prices_leaks_nothing)
END_SUITE
