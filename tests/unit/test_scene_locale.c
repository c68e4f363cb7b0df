/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A scene read where the decimal sign is a comma is the same scene, and messages still show
 * points. Run with LOCPATH at a German locale that the build has made.
 */
#include <locale.h>
#include <stdio.h>
#include <string.h>

#include "slowlift/scene.h"
#include "suite.h"

static void speak_german(void)
{
    ck_assert_ptr_nonnull(setlocale(LC_ALL, "de_DE.UTF-8"));
    char written[16];
    snprintf(written, sizeof written, "%.1f", 0.5);
    ck_assert_str_eq(written, "0,5"); /* or this test would show nothing */
}

START_TEST(numbers_do_not_depend_on_the_locale)
{
    speak_german();
    static const char *const paths[] = {SLOWLIFT_MODELS};
    sl_folders folders = {paths, 1};
    const sl_resolver resolver = sl_resolver_of_folders(&folders);
    sl_error error;
    sl_scene *const scene = sl_scene_load(SLOWLIFT_MODELS "/scenes/eight-arms.yaml", &resolver, &error);
    ck_assert_ptr_nonnull(scene);
    ck_assert_double_eq(scene->chemistry.pka_25c.value, 11.65);
    ck_assert_double_eq(scene->chemistry.thermal_per_min.value, 2.1e-6);
    ck_assert_double_eq(scene->mixes[1].holds[SL_OF_POWDER][SL_METASILICATE].value, 0.16);
    sl_scene_free(scene);
}
END_TEST

START_TEST(messages_show_points)
{
    speak_german();
    static const char *const paths[] = {SLOWLIFT_MODELS};
    sl_folders folders = {paths, 1};
    const sl_resolver resolver = sl_resolver_of_folders(&folders);
    sl_error error;
    ck_assert(!sl_file_check(SLOWLIFT_BAD "/hair-level-eleven.yaml", &resolver, NULL, NULL, 0, &error));
    ck_assert_str_eq(error.wanted, "wanted is 1 to 10.5");
    ck_assert(!sl_file_check(SLOWLIFT_BAD "/until-decimal-comma.yaml", &resolver, NULL, NULL, 0, &error));
    ck_assert_int_eq(error.code, SL_ERR_BAD_NUMBER);
}
END_TEST

START_SUITE("scene in another locale")
ADD(numbers_do_not_depend_on_the_locale)
ADD(messages_show_points)
END_SUITE
