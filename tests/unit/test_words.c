/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figures in words: units side by side, no false exactness. Conversions are exact ones:
 * F = 1.8 C + 32, 1 oz = 28.349523125 g, 3 % = 10 vol as the trade rounds it.
 */
#include <string.h>

#include "base/language.h"
#include "document/text.h"
#include "lesson/reading.h"
#include "slowlift/answer.h"
#include "suite.h"
#include "view/draw/words.h"

START_TEST(units_stand_side_by_side)
{
    char text[64];
    sl_put_strength(6.0, text, sizeof text);
    ck_assert_str_eq(text, "6 % (20 vol)");
    sl_put_warmth(25.0, text, sizeof text);
    ck_assert_str_eq(text, "25 °C (77 °F)");
    sl_put_warmer(-5.0, text, sizeof text);
    ck_assert_str_eq(text, "−5 °C (−9 °F)");
    sl_put_weight(28.349523125, text, sizeof text);
    ck_assert_str_eq(text, "28.3 g (1.00 oz)");
}
END_TEST

START_TEST(minutes_are_given_as_the_whole_ones_they_lie_between)
{
    char text[64];
    sl_put_between(17.4, text, sizeof text);
    ck_assert_str_eq(text, "17–18 min");
    sl_put_between(20.0, text, sizeof text);
    ck_assert_str_eq(text, "20 min");
    sl_put_clock(12.5, text, sizeof text);
    ck_assert_str_eq(text, "12:30");
}
END_TEST

START_TEST(every_stress_has_a_word)
{
    ck_assert_str_eq(sl_stress_word(0.0), "none");
    ck_assert_str_eq(sl_stress_word(0.01), "very slight");
    ck_assert_str_eq(sl_stress_word(1.0), "very strong");
    for (int i = 0; i <= 1000; i++) {
        ck_assert_uint_gt(strlen(sl_stress_word(i / 1000.0)), 0);
    }
}
END_TEST

START_TEST(no_stress_is_zero_percent_and_barely_any_is_below_one)
{
    for (int i = 0; i <= 40000; i++) {
        const double share = 5e-7 * i; /* to 2 % */
        char percent[16];
        sl_percent(share, percent, sizeof percent);
        const char *const word = sl_stress_word(share);
        ck_assert_int_eq(strcmp(word, "none") == 0, strcmp(percent, "0") == 0);
        ck_assert_int_eq(strcmp(word, "barely any") == 0, strcmp(percent, "<1") == 0);
    }
}
END_TEST

START_TEST(a_strip_says_where_it_is_in_its_steps)
{
    const sl_arm arm = {.contact_min = 2.0,
                        .n_steps = 3,
                        .steps = {{.kind = SL_STEP_APPLY, .duration_min = 10.0},
                                  {.kind = SL_STEP_RINSE, .duration_min = 2.0},
                                  {.kind = SL_STEP_SHAMPOO, .shampoos = 1}}};
    const sl_arm alone = {.n_steps = 0};
    double minutes = 0.0;
    ck_assert_str_eq(sl_phase_word(&alone, 5.0, &minutes), "left alone");
    ck_assert_str_eq(sl_phase_word(&arm, 1.0, &minutes), "not yet on");
    ck_assert_str_eq(sl_phase_word(&arm, 5.0, &minutes), "on the hair");
    ck_assert_double_eq_tol(minutes, 3.0, 1e-12);
    ck_assert_str_eq(sl_phase_word(&arm, 13.0, &minutes), "rinsing");
    ck_assert_str_eq(sl_phase_word(&arm, 14.5, &minutes), "shampoo");
    ck_assert_str_eq(sl_phase_word(&arm, 40.0, &minutes), "washed out");
    ck_assert_double_eq_tol(minutes, 25.0, 1e-12); /* since 15: on at 2 for 10, 2 of water, a shampoo of 1 */
}
END_TEST

/* In the folder where suites run lies the catalogue as it was built. */
START_TEST(a_strip_says_in_Spanish_where_it_is)
{
    static const double moment[] = {1.0, 5.0, 13.0, 14.5, 16.0, 40.0};
    const sl_arm arm = {.contact_min = 2.0,
                        .n_steps = 4,
                        .steps = {{.kind = SL_STEP_APPLY, .duration_min = 10.0},
                                  {.kind = SL_STEP_RINSE, .duration_min = 2.0},
                                  {.kind = SL_STEP_SHAMPOO, .shampoos = 1},
                                  {.kind = SL_STEP_REST, .duration_min = 20.0}}};
    for (size_t i = 0; i < sizeof moment / sizeof moment[0]; i++) {
        double minutes = 0.0;
        const char *const english = sl_phase_word(&arm, moment[i], &minutes);
        ck_assert(sl_language_use("es", "locale", NULL));
        ck_assert_str_ne(sl_phase_word(&arm, moment[i], &minutes), english);
        sl_language_stop();
    }
}
END_TEST

/* A lesson speaks the language of its file and not the one in use; its verdicts are those of every page. */
START_TEST(a_lesson_s_verdicts_are_the_catalogue_s)
{
    for (int verdict = 0; verdict < SL_VERDICTS; verdict++) {
        sl_number told = {.measured = SL_AS_WORD, .value = verdict};
        sl_number_write(&told, false);
        ck_assert_str_eq(told.text, sl_verdict_word((sl_verdict)verdict));
        sl_number_write(&told, true);
        ck_assert(sl_language_use("es", "locale", NULL));
        ck_assert_str_eq(told.text, _(sl_verdict_word((sl_verdict)verdict)));
        sl_language_stop();
    }
}
END_TEST

START_SUITE("words")
ADD(units_stand_side_by_side)
ADD(minutes_are_given_as_the_whole_ones_they_lie_between)
ADD(every_stress_has_a_word)
ADD(no_stress_is_zero_percent_and_barely_any_is_below_one)
ADD(a_strip_says_where_it_is_in_its_steps)
ADD(a_strip_says_in_Spanish_where_it_is)
ADD(a_lesson_s_verdicts_are_the_catalogue_s)
END_SUITE
