/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * How the window is looked at: choices go round, the mix is seen while it lies there and
 * not once it is wiped aside, and lenses serve every light.
 */
#include <string.h>

#include "small_scene.h"
#include "suite.h"
#include "view/draw/eyes.h"

static const sl_arm treated = {.name = "treated",
                               .contact_min = 2.0,
                               .n_steps = 3,
                               .steps = {{.kind = SL_STEP_APPLY, .mix = 0, .duration_min = 10.0},
                                         {.kind = SL_STEP_RINSE, .duration_min = 2.0},
                                         {.kind = SL_STEP_REST, .duration_min = 5.0}}};

START_TEST(every_choice_comes_round_again)
{
    const sl_eyes first = {0};
    sl_eyes eyes = {0};
    static void (*const turns[])(sl_eyes *) = {sl_eyes_next_theme, sl_eyes_next_vision, sl_eyes_next_light,
                                               sl_eyes_next_look, sl_eyes_next_observer};
    static const int rounds[] = {SL_THEMES, SL_VISION_COUNT, SL_LIGHT_COUNT, SL_LOOK_COUNT,
                                 SL_OBSERVER_COUNT};
    for (int i = 0; i < 5; i++) {
        for (int turn = 0; turn < rounds[i]; turn++) {
            if (turn > 0) {
                ck_assert_msg(memcmp(&eyes, &first, sizeof eyes) != 0, "choice %d, turn %d", i, turn);
            }
            turns[i](&eyes);
        }
        ck_assert_mem_eq(&eyes, &first, sizeof eyes);
    }
}
END_TEST

START_TEST(the_mix_is_seen_while_it_lies_there_and_can_be_wiped_aside)
{
    static sl_mix mixes[1];
    const sl_scene scene = {.mixes = mixes, .n_mixes = 1};
    sl_eyes eyes = {0};
    ck_assert_ptr_null(sl_eyes_mix(&eyes, &scene, &treated, 5.0)); /* a dry look shows none */
    sl_eyes_wipe(&eyes);
    ck_assert_int_eq(eyes.viewing.look, SL_LOOK_UNDER_MIX);
    ck_assert_ptr_null(sl_eyes_mix(&eyes, &scene, &treated, 1.0));
    ck_assert_ptr_eq(sl_eyes_mix(&eyes, &scene, &treated, 5.0), &mixes[0]);
    ck_assert_ptr_null(sl_eyes_mix(&eyes, &scene, &treated, 13.0));
    sl_eyes_wipe(&eyes);
    ck_assert_ptr_null(sl_eyes_mix(&eyes, &scene, &treated, 5.0));
    ck_assert_int_eq(sl_eyes_look(&eyes, &treated, 5.0), SL_LOOK_UNDER_MIX); /* still wet */
    sl_eyes_wipe(&eyes);
    ck_assert_ptr_eq(sl_eyes_mix(&eyes, &scene, &treated, 5.0), &mixes[0]);
}
END_TEST

START_TEST(hair_as_it_lies_is_wet_under_mix_and_water_and_else_dry)
{
    sl_eyes eyes = {.viewing = {.look = SL_LOOK_UNDER_MIX}};
    ck_assert_int_eq(sl_eyes_look(&eyes, &treated, 0.0), SL_LOOK_DRY);
    ck_assert_int_eq(sl_eyes_look(&eyes, &treated, 5.0), SL_LOOK_UNDER_MIX);
    ck_assert_int_eq(sl_eyes_look(&eyes, &treated, 13.0), SL_LOOK_WET);
    ck_assert_int_eq(sl_eyes_look(&eyes, &treated, 15.0), SL_LOOK_DRY);
    eyes.viewing.look = SL_LOOK_WET;
    ck_assert_int_eq(sl_eyes_look(&eyes, &treated, 0.0), SL_LOOK_WET);
}
END_TEST

START_TEST(the_screen_says_what_is_not_usual)
{
    char text[160];
    sl_eyes eyes = {.theme = SL_THEME_DARK};
    ck_assert(sl_eyes_usual(&eyes)); /* a theme changes no colour of hair */
    sl_eyes_words(&eyes, text, sizeof text);
    ck_assert_str_eq(text, "dry, daylight (D65)");
    eyes.viewing = (sl_viewing){SL_OBSERVER_10_DEGREE, SL_LIGHT_A, SL_LOOK_UNDER_MIX};
    eyes.wiped = true;
    sl_eyes_words(&eyes, text, sizeof text);
    ck_assert_str_eq(text, "as it lies now, mix wiped aside, lamp light (A), 10 degree observer");
    ck_assert(!sl_eyes_usual(&eyes));
    eyes = (sl_eyes){.vision = SL_VISION_GREY};
    ck_assert(!sl_eyes_usual(&eyes));
}
END_TEST

START_TEST(every_light_has_a_dry_and_a_wet_lens_of_its_own)
{
    static small_scene small;
    small_scene_fill(&small);
    sl_lenses lenses = {0};
    sl_error error = {.code = SL_OK};
    for (int light = 0; light < SL_LIGHT_COUNT; light++) {
        for (int observer = 0; observer < SL_OBSERVER_COUNT; observer++) {
            sl_viewing viewing = {(sl_observer)observer, (sl_light)light, SL_LOOK_DRY};
            ck_assert(sl_lenses_fit(&lenses, &small.scene, viewing, &error));
            const sl_optics *dry = sl_lenses_for(&lenses, viewing);
            viewing.look = SL_LOOK_WET;
            const sl_optics *wet = sl_lenses_for(&lenses, viewing);
            viewing.look = SL_LOOK_UNDER_MIX;
            ck_assert_ptr_nonnull(dry);
            ck_assert_ptr_ne(dry, wet);
            ck_assert_ptr_eq(sl_lenses_for(&lenses, viewing), wet);
        }
    }
    sl_lenses_free(&lenses);
}
END_TEST

START_SUITE("eyes")
ADD(every_choice_comes_round_again)
ADD(the_mix_is_seen_while_it_lies_there_and_can_be_wiped_aside)
ADD(hair_as_it_lies_is_wet_under_mix_and_water_and_else_dry)
ADD(the_screen_says_what_is_not_usual)
ADD(every_light_has_a_dry_and_a_wet_lens_of_its_own)
END_SUITE
