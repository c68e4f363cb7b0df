/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A lesson's step on the window: where things stand, and how large the letters are for a room.
 * That the run is locked is the session's (test_session.c); keys are tests/screen/lesson.py.
 */
#include <string.h>

#include "suite.h"
#include "view/draw/text.h"
#include "view/lesson/lesson_place.h"
#include "view/lesson/lesson_words.h"

static sl_step_places place(int width, int height, double scale, int n_strips)
{
    const double unit = sl_step_unit(width, height, scale);
    const sl_step_wish wish = {.width = width,
                               .height = height,
                               .scale = scale,
                               .n_strips = n_strips,
                               .head_h = (int)(45.0 * unit),
                               .foot_h = (int)(60.0 * unit),
                               .name_h = (int)(32.0 * unit),
                               .figure_h = (int)(60.0 * unit),
                               .caption_h = (int)(36.0 * unit)};
    return sl_step_place(&wish);
}

static void assert_apart(SDL_Rect a, SDL_Rect b, const char *what)
{
    if (a.w > 0 && b.w > 0) {
        ck_assert_msg(!SDL_HasIntersection(&a, &b), "%s", what);
    }
}

static void assert_inside(SDL_Rect area, int width, int height, const char *what)
{
    ck_assert_msg(area.x >= 0 && area.y >= 0 && area.x + area.w <= width && area.y + area.h <= height,
                  "%s leaves the window: %d %d %d %d", what, area.x, area.y, area.w, area.h);
}

static void assert_good(const sl_step_places *p, int width, int height)
{
    assert_apart(p->head, p->text, "head and text");
    assert_apart(p->text, p->foot, "text and foot");
    assert_apart(p->text, p->field, "text and strips");
    assert_inside(p->head, width, height, "head");
    assert_inside(p->text, width, height, "text");
    assert_inside(p->foot, width, height, "foot");
    for (int i = 0; i < p->n; i++) {
        assert_apart(p->figure[i], p->foot, "figure and foot");
        assert_inside(p->figure[i], width, height, "figure");
        ck_assert_int_ge(p->strip[i].h, 40);
        ck_assert_int_ge(p->strip[i].y, p->field.y);
        ck_assert_int_le(p->strip[i].y + p->strip[i].h, p->field.y + p->field.h);
        if (i > 0) {
            assert_apart(p->strip[i - 1], p->strip[i], "two strips");
            assert_apart(p->figure[i - 1], p->figure[i], "two figures");
        }
    }
}

START_TEST(nothing_overlaps_and_all_lies_inside_at_every_size)
{
    static const int sizes[][2] = {{900, 600}, {1280, 800}, {1920, 1080}, {3840, 2160}};
    for (int s = 0; s < 4; s++) {
        for (double scale = 1.0; scale <= 2.0; scale += 0.25) {
            for (int n = 0; n <= 8; n++) {
                const sl_step_places p = place(sizes[s][0], sizes[s][1], scale, n);
                ck_assert_int_eq(p.n, n);
                assert_good(&p, sizes[s][0], sizes[s][1]);
            }
        }
    }
}
END_TEST

START_TEST(text_keeps_half_of_the_width_beside_strips)
{
    const sl_step_places with = place(1280, 800, 1.0, 8);
    ck_assert_int_ge(with.text.w, 1280 * 48 / 100);
    const sl_step_places without = place(1280, 800, 1.0, 0);
    ck_assert_int_gt(without.text.w, with.text.w);
    ck_assert_int_eq(without.field.w, 0);
}
END_TEST

/* 10 minutes of arc at 5 m are 5000 mm x tan(10/60 degrees) = 14.5 mm; a picture of 2000 mm on 1280
 * pixels has 1.5625 mm in a pixel. */
START_TEST(the_bounds_for_a_room_follow_from_the_letter_chart)
{
    const double letter_mm = 5000.0 * SDL_tan(10.0 / 60.0 * 3.14159265358979 / 180.0);
    const double pixel_mm = 2000.0 / 1280.0;
    ck_assert_double_eq_tol(letter_mm, 14.5, 0.1);
    ck_assert_double_ge(SL_ROOM_LETTER_PX * pixel_mm, letter_mm - 0.05); /* a twentieth of a millimetre */
    ck_assert_double_ge(SL_ROOM_CAPITAL_PX * pixel_mm, 5000.0 / 200.0);
}
END_TEST

/* The letters as they are drawn: the picture's rows that hold ink. */
static int ink_height(sl_text *text, const char *letter)
{
    SDL_Surface *const picture = sl_text_picture(text, SL_TYPE_NOTE, (sl_srgb8){255, 255, 255}, letter);
    ck_assert_ptr_nonnull(picture);
    int rows = 0;
    for (int y = 0; y < picture->h; y++) {
        const Uint8 *const row = (const Uint8 *)picture->pixels + (size_t)y * (size_t)picture->pitch;
        bool ink = false;
        for (int x = 0; x < picture->w; x++) {
            Uint32 pixel = 0;
            Uint8 r = 0, g = 0, b = 0, alpha = 0;
            memcpy(&pixel, row + (size_t)x * sizeof pixel, sizeof pixel);
            SDL_GetRGBA(pixel, picture->format, &r, &g, &b, &alpha);
            ink = ink || alpha > 127;
        }
        rows += ink ? 1 : 0;
    }
    return rows;
}

START_TEST(the_smallest_letters_of_the_classroom_mode_can_be_read_from_five_metres)
{
    sl_error error = {.code = SL_OK};
    sl_text *const text = sl_text_new(&error);
    ck_assert_ptr_nonnull(text);
    ck_assert(sl_text_scale(text, sl_step_unit(1280, 800, SL_ROOM_SCALE), &error));
    ck_assert_int_ge(ink_height(text, "x"), (int)SDL_ceil(SL_ROOM_LETTER_PX));
    ck_assert_int_ge(ink_height(text, "H"), (int)SL_ROOM_CAPITAL_PX);
    sl_text_free(text);
}
END_TEST

START_TEST(every_word_of_the_window_is_there_in_both_languages_and_no_mere_copy)
{
    for (int i = 0; i < SL_SHOWN_COUNT; i++) {
        const char *const english = sl_shown_word((sl_shown)i, "en");
        const char *const spanish = sl_shown_word((sl_shown)i, "es");
        ck_assert_uint_gt(strlen(english), 3);
        ck_assert_uint_gt(strlen(spanish), 3);
        ck_assert_str_ne(english, spanish);
    }
}
END_TEST

START_SUITE("lesson_view")
ADD(nothing_overlaps_and_all_lies_inside_at_every_size)
ADD(text_keeps_half_of_the_width_beside_strips)
ADD(the_bounds_for_a_room_follow_from_the_letter_chart)
ADD(the_smallest_letters_of_the_classroom_mode_can_be_read_from_five_metres)
ADD(every_word_of_the_window_is_there_in_both_languages_and_no_mere_copy)
END_SUITE
