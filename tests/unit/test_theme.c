/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The window's own colours: contrast by computation (WCAG 2.2, success criteria 1.4.3,
 * 1.4.6 and 1.4.11: 4.5 for text, 7 in high contrast, 3 for parts of controls), and neutrality.
 */
#include "slowlift/optics.h"
#include "suite.h"
#include "view/draw/theme.h"

START_TEST(every_pair_that_is_drawn_has_the_contrast_that_wcag_asks)
{
    static const struct {
        sl_role ink, ground;
        double least;
        const char *name;
    } pairs[] = {
#define PAIR(ink, ground, least) {ink, ground, least, #ink " on " #ground},
        SL_THEME_PAIRS(PAIR)
#undef PAIR
    };
    for (int number = 0; number < SL_THEMES; number++) {
        const sl_theme *theme = sl_theme_at((sl_theme_number)number);
        for (size_t i = 0; i < sizeof pairs / sizeof pairs[0]; i++) {
            const double contrast = sl_contrast(theme->colour[pairs[i].ink], theme->colour[pairs[i].ground]);
            ck_assert_msg(contrast >= pairs[i].least, "%s, theme %s: %.2f is below %.1f", pairs[i].name,
                          theme->name, contrast, pairs[i].least);
        }
    }
}
END_TEST

/* WCAG 2.2, 1.4.6 (AAA): 7 for text. Text pairs are those that ask for 4.5. */
START_TEST(high_contrast_gives_text_seven_to_one)
{
    static const struct {
        sl_role ink, ground;
        double least;
        const char *name;
    } pairs[] = {
#define PAIR(ink, ground, least) {ink, ground, least, #ink " on " #ground},
        SL_THEME_PAIRS(PAIR)
#undef PAIR
    };
    const sl_theme *theme = sl_theme_at(SL_THEME_HIGH_CONTRAST);
    int texts = 0;
    for (size_t i = 0; i < sizeof pairs / sizeof pairs[0]; i++) {
        if (pairs[i].least >= 4.5) {
            const double contrast = sl_contrast(theme->colour[pairs[i].ink], theme->colour[pairs[i].ground]);
            ck_assert_msg(contrast >= 7.0, "%s: %.2f", pairs[i].name, contrast);
            texts++;
        }
    }
    ck_assert_int_ge(texts, 5);
}
END_TEST

START_TEST(nothing_beside_a_strip_has_a_hue_of_its_own)
{
    for (int number = 0; number < SL_THEMES; number++) {
        for (int role = 0; role < SL_ROLE_COUNT; role++) {
            const sl_srgb8 c = sl_theme_at((sl_theme_number)number)->colour[role];
            ck_assert_msg(c.r == c.g && c.g == c.b, "role %d is not grey", role);
        }
    }
}
END_TEST

/* A surround of middle lightness: L* between 45 and 60 (ISO 3664 asks for a neutral matt
 * surround of medium lightness; the bounds are ours). */
START_TEST(the_field_behind_the_strips_is_a_middle_grey)
{
    for (int number = 0; number < SL_THEMES; number++) {
        const sl_lab lab =
            sl_lab_of_xyz(sl_xyz_of_srgb8(sl_theme_at((sl_theme_number)number)->colour[SL_GROUND_FIELD]));
        ck_assert_double_ge(lab.L, 45.0);
        ck_assert_double_le(lab.L, 60.0);
    }
}
END_TEST

START_TEST(the_field_is_the_same_grey_in_every_theme)
{
    for (int number = 1; number < SL_THEMES; number++) {
        ck_assert_uint_eq(sl_theme_at((sl_theme_number)number)->colour[SL_GROUND_FIELD].g,
                          sl_theme_at(SL_THEME_LIGHT)->colour[SL_GROUND_FIELD].g);
    }
}
END_TEST

START_SUITE("theme")
ADD(every_pair_that_is_drawn_has_the_contrast_that_wcag_asks)
ADD(high_contrast_gives_text_seven_to_one)
ADD(nothing_beside_a_strip_has_a_hue_of_its_own)
ADD(the_field_behind_the_strips_is_a_middle_grey)
ADD(the_field_is_the_same_grey_in_every_theme)
END_SUITE
