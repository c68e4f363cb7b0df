/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A line that is typed: whole characters, its caret, what is pasted, its room, and what is drawn of it.
 */
#include <stdlib.h>
#include <string.h>

#include "base/plain_text.h"
#include "suite.h"
#include "view/draw/typed.h"

static bool key(sl_typed *typed, SDL_Keycode sym, Uint16 mod)
{
    SDL_Event event = {.type = SDL_KEYDOWN};
    event.key.keysym.sym = sym;
    event.key.keysym.mod = mod;
    return sl_typed_take(typed, &event);
}

static void letters(sl_typed *typed, const char *text)
{
    SDL_Event event = {.type = SDL_TEXTINPUT};
    ck_assert_uint_lt(strlen(text), sizeof event.text.text);
    memcpy(event.text.text, text, strlen(text) + 1);
    ck_assert(sl_typed_take(typed, &event));
}

START_TEST(letters_go_where_the_caret_is)
{
    sl_typed typed = {.caret = 0};
    letters(&typed, "9 5");
    key(&typed, SDLK_LEFT, 0);
    letters(&typed, "from ");
    ck_assert_str_eq(typed.text, "9 from 5");
    key(&typed, SDLK_HOME, 0);
    key(&typed, SDLK_LEFT, 0);
    letters(&typed, ">");
    key(&typed, SDLK_END, 0);
    key(&typed, SDLK_RIGHT, 0);
    letters(&typed, "<");
    ck_assert_str_eq(typed.text, ">9 from 5<");
    ck_assert_int_eq(typed.caret, 10);
}
END_TEST

/* Two bytes, three, four, and a letter with its mark, which an eye takes for one. */
START_TEST(a_character_goes_whole)
{
    static const char *const whole[] = {"ñ", "€", "𝄞", "e\xCC\x81"};
    for (size_t i = 0; i < sizeof whole / sizeof whole[0]; i++) {
        sl_typed typed = {.caret = 0};
        letters(&typed, "a");
        letters(&typed, whole[i]);
        letters(&typed, "z");
        key(&typed, SDLK_LEFT, 0);
        key(&typed, SDLK_LEFT, 0);
        ck_assert_int_eq(typed.caret, 1);
        key(&typed, SDLK_RIGHT, 0);
        ck_assert_int_eq(typed.caret, 1 + (int)strlen(whole[i]));
        key(&typed, SDLK_BACKSPACE, 0);
        ck_assert_str_eq(typed.text, "az");
        letters(&typed, whole[i]);
        key(&typed, SDLK_LEFT, 0);
        key(&typed, SDLK_DELETE, 0);
        ck_assert_str_eq(typed.text, "az");
    }
}
END_TEST

START_TEST(nothing_is_taken_away_where_nothing_is)
{
    sl_typed typed = {.caret = 0};
    ck_assert(key(&typed, SDLK_BACKSPACE, 0));
    ck_assert(key(&typed, SDLK_DELETE, 0));
    letters(&typed, "a");
    key(&typed, SDLK_DELETE, 0);
    key(&typed, SDLK_HOME, 0);
    key(&typed, SDLK_BACKSPACE, 0);
    ck_assert_str_eq(typed.text, "a");
}
END_TEST

/* The keys of actions and of the page are not a line's. */
START_TEST(other_keys_are_not_its_own)
{
    static const SDL_Keycode others[] = {SDLK_a,    SDLK_v,      SDLK_RETURN, SDLK_TAB, SDLK_UP,
                                         SDLK_DOWN, SDLK_ESCAPE, SDLK_PLUS,   SDLK_F1,  SDLK_PAGEUP};
    sl_typed typed = {.caret = 0};
    letters(&typed, "a");
    for (size_t i = 0; i < sizeof others / sizeof others[0]; i++) {
        ck_assert(!key(&typed, others[i], 0));
    }
    ck_assert(!key(&typed, SDLK_q, KMOD_LCTRL));
    ck_assert_str_eq(typed.text, "a");
}
END_TEST

/* What fills the line is whole characters; nothing is lost of what stood there. */
START_TEST(a_line_that_is_full_takes_no_more)
{
    sl_typed typed = {.caret = 0};
    for (int i = 0; i < SL_TYPED_BYTES; i++) {
        letters(&typed, "ñ");
    }
    ck_assert_uint_eq(strlen(typed.text), SL_TYPED_BYTES - 2);
    ck_assert(sl_text_accept(typed.text, strlen(typed.text), SL_TEXT_LINE, NULL));
    key(&typed, SDLK_HOME, 0);
    letters(&typed, "x");
    letters(&typed, "y");
    ck_assert_uint_eq(strlen(typed.text), SL_TYPED_BYTES - 1);
    ck_assert_mem_eq(typed.text, "xñ", 3);
}
END_TEST

/* No control character, nothing unseen, no byte that is no character. */
START_TEST(what_no_line_may_hold_is_left_out)
{
    sl_typed typed = {.caret = 0};
    letters(&typed, "a\xE2\x80\xAE"
                    "b"); /* turns the direction of writing */
    letters(&typed, "\xFF");
    letters(&typed, "\x7F");
    sl_text_accept(typed.text, strlen(typed.text), SL_TEXT_LINE, NULL);
    ck_assert_str_eq(typed.text, "ab");
}
END_TEST

static void a_display(void)
{
    SDL_setenv("SDL_VIDEODRIVER", "dummy", 1);
    ck_assert_int_eq(SDL_Init(SDL_INIT_VIDEO), 0);
}

START_TEST(what_is_pasted_is_one_line)
{
    sl_typed typed = {.caret = 0};
    letters(&typed, "()");
    key(&typed, SDLK_LEFT, 0);
    ck_assert_int_eq(SDL_SetClipboardText("1:2,\r\n30 min\tnew"), 0);
    ck_assert(key(&typed, SDLK_v, KMOD_LCTRL));
    ck_assert_str_eq(typed.text, "(1:2, 30 min new)");
    ck_assert_int_eq(typed.caret, (int)strlen(typed.text) - 1);
    SDL_SetClipboardText("");
    ck_assert(key(&typed, SDLK_v, KMOD_LCTRL));
    ck_assert_str_eq(typed.text, "(1:2, 30 min new)");
}
END_TEST

/* ---- drawn ------------------------------------------------------------------------------------------- */

enum { WIDE = 300, HIGH = 60 };

typedef struct drawing {
    SDL_Surface *sheet;
    sl_pen pen;
} drawing;

static drawing begun(double unit)
{
    sl_error error = {.code = SL_OK};
    drawing d = {SDL_CreateRGBSurface(0, WIDE, HIGH, 32, 0xFF0000, 0xFF00, 0xFF, 0), {0}};
    d.pen = (sl_pen){d.sheet, sl_text_new(&error), sl_theme_at(SL_THEME_LIGHT), unit};
    ck_assert_ptr_nonnull(d.pen.text);
    ck_assert(sl_text_scale(d.pen.text, unit, &error));
    return d;
}

static void ended(drawing *d)
{
    sl_text_free(d->pen.text);
    SDL_FreeSurface(d->sheet);
}

/* Its frame stands 20 pixels inside the sheet, which is black. */
static const SDL_Rect field = {20, 8, WIDE - 40, HIGH - 16};

static void draw(const drawing *d, const sl_typed *typed, const char *usual, bool keyboard)
{
    SDL_FillRect(d->sheet, NULL, 0);
    sl_typed_draw(&d->pen, field, typed, usual, keyboard);
}

static Uint32 at(const drawing *d, int x, int y)
{
    return ((const Uint32 *)d->sheet->pixels)[y * d->sheet->pitch / 4 + x];
}

START_TEST(a_long_line_stays_inside_its_field_with_its_caret_in_sight)
{
    const double unit = _i == 0 ? 1.0 : 2.0;
    drawing d = begun(unit);
    sl_typed typed = {.caret = 0};
    for (int i = 0; i < 100; i++) {
        letters(&typed, "mmm");
    }
    draw(&d, &typed, "", true);
    Uint32 *const with = malloc((size_t)d.sheet->pitch * HIGH);
    memcpy(with, d.sheet->pixels, (size_t)d.sheet->pitch * HIGH);
    for (int y = 0; y < HIGH; y++) {
        ck_assert_uint_eq(at(&d, field.x - 1, y), 0);
        ck_assert_uint_eq(at(&d, field.x + field.w, y), 0);
    }
    key(&typed, SDLK_LEFT, 0);
    key(&typed, SDLK_HOME, 0);
    draw(&d, &typed, "", true);
    ck_assert_int_ne(memcmp(with, d.sheet->pixels, (size_t)d.sheet->pitch * HIGH), 0);
    free(with);
    ended(&d);
}
END_TEST

START_TEST(what_is_usual_is_quieter_and_goes_when_something_is_typed)
{
    drawing d = begun(1.0);
    sl_typed typed = {.caret = 0};
    char *told = NULL;
    size_t size = 0;
    FILE *const out = open_memstream(&told, &size);
    sl_text_tell_to(d.pen.text, out);
    draw(&d, &typed, "22 °C", false);
    letters(&typed, "19 °C");
    draw(&d, &typed, "22 °C", false);
    sl_text_tell_to(d.pen.text, NULL);
    fclose(out);
    const char *const usual = strstr(told, "body 22 °C");
    ck_assert_ptr_nonnull(usual);
    ck_assert_ptr_null(strstr(usual + sizeof "body 22", "22 °C"));
    ck_assert_ptr_nonnull(strstr(usual, "strong 19 °C")); /* also where all ink is one */
    free(told);
    ended(&d);
}
END_TEST

/* Pressed at the left half of a letter it stands before it, at the right half behind it. */
START_TEST(the_caret_goes_where_it_is_pressed)
{
    drawing d = begun(1.0);
    sl_typed typed = {.caret = 0};
    letters(&typed, "iñm");
    const int from = field.x + 8;
    const int ends[] = {0, sl_text_extent(d.pen.text, SL_TYPE_STRONG, 0, "i").x,
                        sl_text_extent(d.pen.text, SL_TYPE_STRONG, 0, "iñ").x,
                        sl_text_extent(d.pen.text, SL_TYPE_STRONG, 0, "iñm").x};
    const int bytes[] = {0, 1, 3, 4};
    for (int i = 0; i < 3; i++) {
        sl_typed_point(&typed, &d.pen, field, from + ends[i]);
        ck_assert_int_eq(typed.caret, bytes[i]);
        sl_typed_point(&typed, &d.pen, field, from + ends[i + 1] - 1);
        ck_assert_int_eq(typed.caret, bytes[i + 1]);
    }
    sl_typed_point(&typed, &d.pen, field, field.x + field.w);
    ck_assert_int_eq(typed.caret, 4);
    sl_typed_point(&typed, &d.pen, field, 0);
    ck_assert_int_eq(typed.caret, 0);
    ended(&d);
}
END_TEST

START_SUITE("typed")
ADD(letters_go_where_the_caret_is)
ADD(a_character_goes_whole)
ADD(nothing_is_taken_away_where_nothing_is)
ADD(other_keys_are_not_its_own)
ADD(a_line_that_is_full_takes_no_more)
ADD(what_no_line_may_hold_is_left_out)
CASE("with a display")
FIXTURE(a_display, SDL_Quit)
ADD(what_is_pasted_is_one_line)
ADD_LOOP(a_long_line_stays_inside_its_field_with_its_caret_in_sight, 0, 2)
ADD(what_is_usual_is_quieter_and_goes_when_something_is_typed)
ADD(the_caret_goes_where_it_is_pressed)
END_SUITE
