/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Where things stand in the window, for every size and text scale that it promises.
 */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "suite.h"
#include "view/draw/widget.h"
#include "view/strips/ruler.h"
#include "view/window/layout.h"

static const int sizes[][2] = {{900, 600},   {1280, 800},  {1366, 768},
                               {1920, 1080}, {2560, 1600}, {3840, 2160}};
enum { SIZES = 6 };

static sl_text *text;

/* As long as those of the cautions in Spanish. */
static const char EXAMPLE[] = "Ejemplo de aula: el número más débil es el pH de la mezcla (supuesto).";
static const char CAUTIONS[] =
    "AVISO  Un cálculo con números que nadie midió en tus productos: aprende del orden y del sentido, nunca "
    "de los "
    "minutos. ATENCIÓN  La etiqueta del producto, su hoja de seguridad, tu formación y la ley deciden qué se "
    "mezcla, "
    "dónde y cuánto tiempo; lo que un programa dice no permite nada. Lleva guantes, ventila, y lee antes de "
    "abrir. Si "
    "algo pica o quema, enjuaga enseguida con mucha agua y pide ayuda sin esperar a que pase la hora.";
static const char GATE[] =
    "Sobre una persona: no se marca ningún minuto hasta que el formulario esté despejado "
    "y cuente un mechón (F).";
static const char BRIEF[] = "Esta pantalla no está calibrada. AVISO  Un modelo de aula. ATENCIÓN  Decide la "
                            "etiqueta del producto. K: ambas.";

static void open_text(void)
{
    sl_error error = {.code = SL_OK};
    text = sl_text_new(&error);
    ck_assert_msg(text != NULL, "%s", error.found);
}

static void close_text(void)
{
    sl_text_free(text);
}

static sl_layout_wish wish_of(int size, double scale, bool panel)
{
    return (sl_layout_wish){.width = sizes[size][0],
                            .height = sizes[size][1],
                            .scale = scale,
                            .n_arms = 8,
                            .n_zones = 8,
                            .n_buttons = SL_MOST_BUTTONS,
                            .button = {"Answer", "Colour", "What if", "Long", "Two", "Seen", "New", "Show",
                                       "Science", "Words", "Cautions", "Help"},
                            .text = text,
                            .wide_arm = panel ? 3 : -1,
                            .panel = panel,
                            .marks = true,
                            .gate = GATE,
                            .note = {EXAMPLE, CAUTIONS},
                            .brief = BRIEF,
                            .notice = ""};
}

static bool inside(SDL_Rect a, int width, int height)
{
    return a.x >= 0 && a.y >= 0 && a.w >= 0 && a.h >= 0 && a.x + a.w <= width && a.y + a.h <= height;
}

/* The parts that must not cover each other. */
enum { FIXED_PARTS = 17, MOST_PARTS = FIXED_PARTS + SL_MOST_BUTTONS };

static int parts_of(const sl_layout *l, SDL_Rect parts[MOST_PARTS])
{
    int n = 0;
    const SDL_Rect fixed[FIXED_PARTS] = {l->title, l->mode,    l->shown, l->less,      l->more,   l->gutter,
                                         l->field, l->figures, l->play,  l->ruler,     l->marks,  l->foot,
                                         l->panel, l->back,    l->on,    l->step_back, l->step_on};
    for (size_t i = 0; i < sizeof fixed / sizeof fixed[0]; i++) {
        if (fixed[i].w > 0) {
            parts[n++] = fixed[i];
        }
    }
    for (int i = 0; i < l->n_buttons; i++) {
        parts[n++] = l->button[i];
    }
    return n;
}

START_TEST(parts_lie_inside_the_window_and_apart)
{
    for (int size = 0; size < SIZES; size++) {
        for (int percent = 100; percent <= 200; percent += 25) {
            for (int panel = 0; panel < 2; panel++) {
                const sl_layout_wish wish = wish_of(size, percent / 100.0, panel != 0);
                const sl_layout l = sl_layout_make(&wish);
                SDL_Rect parts[MOST_PARTS];
                const int n = parts_of(&l, parts);
                for (int i = 0; i < n; i++) {
                    ck_assert_msg(inside(parts[i], wish.width, wish.height), "%dx%d %d %% panel %d: part %d",
                                  wish.width, wish.height, percent, panel, i);
                    for (int k = i + 1; k < n; k++) {
                        ck_assert_msg(!SDL_HasIntersection(&parts[i], &parts[k]),
                                      "%dx%d %d %% panel %d: parts %d and %d", wish.width, wish.height,
                                      percent, panel, i, k);
                    }
                }
            }
        }
    }
}
END_TEST

START_TEST(what_is_pressed_is_never_smaller_than_44_pixels)
{
    for (int size = 0; size < SIZES; size++) {
        for (int percent = 100; percent <= 200; percent += 25) {
            const sl_layout_wish wish = wish_of(size, percent / 100.0, false);
            const sl_layout l = sl_layout_make(&wish);
            const SDL_Rect pressed[] = {l.less,  l.more,      l.play,
                                        l.ruler, l.button[0], l.button[l.n_buttons - 1]};
            for (size_t i = 0; i < sizeof pressed / sizeof pressed[0]; i++) {
                ck_assert_int_ge(pressed[i].w, SL_TARGET);
                ck_assert_int_ge(pressed[i].h, SL_TARGET);
            }
            for (int i = 0; i < l.n_shown; i++) {
                ck_assert_int_ge(l.column[i].w, SL_TARGET);
            }
        }
    }
}
END_TEST

START_TEST(all_eight_strips_stand_side_by_side_at_100_per_cent)
{
    for (int size = 1; size < SIZES; size++) {
        for (int panel = 0; panel < 2; panel++) {
            const sl_layout_wish wish = wish_of(size, 1.0, panel != 0);
            const sl_layout l = sl_layout_make(&wish);
            ck_assert_int_eq(l.n_shown, 8);
            ck_assert(!l.compact);
        }
    }
}
END_TEST

/* From 1280 x 800 upward the wish is met in full; the smallest window may give way. */
START_TEST(text_grows_to_200_per_cent)
{
    for (int size = 1; size < SIZES; size++) {
        if (sizes[size][1] < 800) {
            continue;
        }
        const sl_layout_wish wish = wish_of(size, 2.0, false);
        ck_assert_double_eq_tol(sl_layout_make(&wish).scale, 2.0, 1e-9);
    }
}
END_TEST

/* Whatever the face, its words are never cut off. */
START_TEST(a_notice_has_room_at_every_size_of_text)
{
    for (int size = 0; size < SIZES; size++) {
        for (int percent = 100; percent <= 200; percent += 25) {
            sl_layout_wish wish = wish_of(size, percent / 100.0, false);
            wish.notice = CAUTIONS;
            const sl_layout l = sl_layout_make(&wish);
            ck_assert(sl_text_scale(text, l.unit, NULL));
            const int width = l.mode.w - 4 * (int)lround(3.0 * l.unit); /* head.c */
            ck_assert_int_ge(l.mode.h, sl_text_extent(text, SL_TYPE_NOTE, width, CAUTIONS).y);
            ck_assert_int_ge(l.foot.h,
                             sl_text_extent(text, SL_TYPE_NOTE, l.foot.w, l.compact ? BRIEF : CAUTIONS).y);
            ck_assert(!SDL_HasIntersection(&l.mode, &l.field));
        }
    }
}
END_TEST

/* What is drawn is as wide and as high as was measured, line by line, and no word is lost or cut. */
START_TEST(measured_lines_are_those_that_are_drawn)
{
    for (int width = 150; width < 900; width += 50) {
        ck_assert(sl_text_scale(text, 1.0 + width % 4 / 4.0, NULL));
        const sl_text_line *line = NULL;
        const int n = sl_text_lines(text, SL_TYPE_NOTE, width, CAUTIONS, &line);
        size_t told = 0;
        for (int i = 0; i < n; i++) {
            char words[sizeof CAUTIONS];
            snprintf(words, sizeof words, "%.*s", line[i].length, CAUTIONS + line[i].from);
            const SDL_Surface *picture = sl_text_picture(text, SL_TYPE_NOTE, (sl_srgb8){0}, words);
            ck_assert_int_le(picture->w, width + 1);
            told += (size_t)line[i].length +
                    (i + 1 < n ? strspn(CAUTIONS + line[i].from + line[i].length, " ") : 0);
        }
        ck_assert_uint_eq(told, sizeof CAUTIONS - 1);
        ck_assert_int_eq(sl_text_extent(text, SL_TYPE_NOTE, width, CAUTIONS).y,
                         n * sl_text_line_height(text, SL_TYPE_NOTE));
    }
}
END_TEST

/* However much is asked for: the first is the same picture until the next frame. */
START_TEST(no_picture_goes_in_the_midst_of_a_frame)
{
    char words[32];
    ck_assert(sl_text_scale(text, 2.0, NULL));
    const SDL_Surface *const first = sl_text_picture(text, SL_TYPE_LARGE, (sl_srgb8){0}, "first");
    for (int i = 0; i < 6000; i++) {
        snprintf(words, sizeof words, "the one of number %d", i);
        ck_assert_ptr_nonnull(sl_text_picture(text, SL_TYPE_LARGE, (sl_srgb8){0}, words));
    }
    ck_assert_ptr_eq(sl_text_picture(text, SL_TYPE_LARGE, (sl_srgb8){0}, "first"), first);
    sl_text_turn(text);
    ck_assert_int_gt(sl_text_extent(text, SL_TYPE_LARGE, 0, "first").x, 0);
}
END_TEST

/* A catalogue holds what is said in both languages. */
START_TEST(the_face_has_every_letter_of_the_catalogues)
{
    FILE *const file = fopen("locale/es/LC_MESSAGES/slowlift.mo", "rb");
    ck_assert_ptr_nonnull(file);
    ck_assert(sl_text_scale(text, 1.0, NULL));
    uint32_t table = 0,
             first = 0; /* of a catalogue: where the places of its texts stand, and the first place */
    ck_assert(fseek(file, 12, SEEK_SET) == 0 && fread(&table, sizeof table, 1, file) == 1);
    ck_assert(fseek(file, (long)table + 4, SEEK_SET) == 0 && fread(&first, sizeof first, 1, file) == 1);
    ck_assert_int_eq(fseek(file, (long)first, SEEK_SET), 0);
    int byte = 0, others = 0;
    while ((byte = getc(file)) != EOF) {
        const int more = byte >= 0xf0 ? 3 : byte >= 0xe0 ? 2 : byte >= 0xc2 ? 1 : 0;
        Uint32 letter = (Uint32)byte & (0x3fU >> more);
        for (int i = 0; i < more; i++) {
            letter = letter << 6 | ((Uint32)getc(file) & 0x3fU);
        }
        if (more > 0) {
            ck_assert_msg(sl_text_has(text, letter), "U+%04X", letter);
            others++;
        }
    }
    fclose(file);
    ck_assert_int_gt(others, 1000);
}
END_TEST

/* As long as the foot is in Spanish, of the eight strips. */
static sl_layout_wish eight_strips(int size, bool panel)
{
    sl_layout_wish wish = wish_of(size, 1.0, panel);
    wish.note[0] =
        "Ejemplo de aula: el número más débil es el pH de la mezcla polvo-agua (supuesto). Esta pantalla o "
        "papel no está calibrado: compara el orden y el sentido.";
    wish.note[1] =
        "AVISO  Un modelo; nadie miró cabello de verdad. ATENCIÓN  La etiqueta decide tiempo, proporción y "
        "líquidos.  Entero: K.";
    wish.n_zones = 9;
    return wish;
}

START_TEST(hair_has_most_of_the_window)
{
    for (int size = 1; size < SIZES; size++) {
        for (int panel = 0; panel < 2; panel++) {
            const sl_layout_wish wish = eight_strips(size, panel != 0);
            const sl_layout l = sl_layout_make(&wish);
            const double least = panel != 0           ? (wish.height < 800 ? 35.0 : 38.0)
                                 : wish.height > 800  ? 50.0
                                 : wish.height == 800 ? 45.0
                                                      : 42.0;
            ck_assert_msg(100.0 * l.strip[0].h >= least * wish.height, "%dx%d panel %d: %.1f %%", wish.width,
                          wish.height, panel, 100.0 * l.strip[0].h / wish.height);
        }
    }
}
END_TEST

/* Whatever stands beside it: bars of one row begin and end alike in their columns. */
START_TEST(strips_fill_their_room)
{
    for (int arms = 1; arms <= 8; arms++) {
        sl_layout_wish wish = eight_strips(1, false);
        wish.n_arms = arms;
        const sl_layout l = sl_layout_make(&wish);
        int hair = 0;
        for (int i = 0; i < l.n_shown; i++) {
            hair += l.strip[i].w;
            ck_assert_int_le(l.bar_w, l.column[i].w);
        }
        ck_assert_msg(2 * hair > l.field.w, "%d arms: %d of %d pixels", arms, hair, l.field.w);
    }
}
END_TEST

/* As many arms, zones and lanes as a scene may have; here the scale may give way. */
START_TEST(every_scene_finds_a_place_in_every_window)
{
    for (int size = 0; size < SIZES; size++) {
        for (int arms = 1; arms <= SL_MAX_ARMS; arms += 7) {
            for (int zones = 1; zones <= SL_MAX_ZONES; zones += 5) {
                sl_layout_wish wish = wish_of(size, arms % 2 == 0 ? 2.0 : 1.0, zones % 2 == 0);
                wish.n_arms = arms;
                wish.n_zones = zones;
                wish.wide_arm = -1;
                wish.first_arm = arms - 1;
                const sl_layout l = sl_layout_make(&wish);
                ck_assert_int_ge(l.n_shown, 1);
                ck_assert_int_le(l.first + l.n_shown, arms);
                for (int i = 0; i < l.n_shown; i++) {
                    ck_assert_int_ge(l.strip[i].w, 24);
                    ck_assert_int_ge(l.strip[i].h, 4 * zones);
                    ck_assert_int_lt(l.lock[i].x + l.lock[i].w, l.strip[i].x);
                    ck_assert_int_ge(l.lock[i].x, l.column[i].x);
                    ck_assert_int_le(l.strip[i].x + l.strip[i].w, l.column[i].x + l.column[i].w);
                    ck_assert(inside(l.column[i], wish.width, wish.height));
                }
            }
        }
    }
}
END_TEST

START_TEST(zones_fill_a_strip_without_gap)
{
    const SDL_Rect strip = {10, 20, 100, 317};
    for (int n = 1; n <= SL_MAX_ZONES; n++) {
        int y = strip.y;
        for (int zone = 0; zone < n; zone++) {
            const SDL_Rect area = sl_layout_zone(&strip, n, zone);
            ck_assert_int_eq(area.y, y);
            y += area.h;
        }
        ck_assert_int_eq(y, strip.y + strip.h);
    }
}
END_TEST

START_TEST(a_place_on_the_ruler_and_its_time_belong_together)
{
    const SDL_Rect ruler = {128, 600, 1140, 80};
    for (int minute = 0; minute <= 60; minute++) {
        const double back = sl_ruler_time(ruler, 60.0, sl_ruler_x(ruler, 60.0, minute));
        ck_assert_double_eq_tol(back, minute, 0.5 * 60.0 / 1139.0 + 1e-9); /* half a pixel */
    }
    ck_assert_double_eq(sl_ruler_time(ruler, 60.0, -50), 0.0);
    ck_assert_double_eq(sl_ruler_time(ruler, 60.0, 5000), 60.0);
}
END_TEST

START_TEST(a_knob_ends_where_its_range_ends)
{
    const SDL_Rect track = {100, 0, 200, 44};
    ck_assert_double_eq(sl_track_value(track, 0, 0.0, 12.0, 0.5), 0.0);
    ck_assert_double_eq(sl_track_value(track, 9999, 0.0, 12.0, 0.5), 12.0);
    for (int x = 100; x < 300; x++) {
        const double steps = sl_track_value(track, x, 0.0, 12.0, 0.5) / 0.5;
        ck_assert_double_eq_tol(steps, (int)(steps + 0.5), 1e-9);
    }
}
END_TEST

/* What is not measured because there is no doubt, beside what measuring finds: line by line, in letters that
 * are wide and that are not, at every width. */
START_TEST(a_height_without_measuring_is_that_of_measuring)
{
    static const char *const words[] = {EXAMPLE,
                                        CAUTIONS,
                                        BRIEF,
                                        "WWWW MMMM @@@@ %%%%",
                                        "iiii llll .,.,",
                                        "22 % (5-45)",
                                        "¿Cuánto?\nAquí abajo",
                                        "AVAVAVAV ToToTo"};
    sl_error error = {.code = SL_OK};
    ck_assert(sl_text_scale(text, 1.0, &error));
    for (size_t i = 0; i < sizeof words / sizeof words[0]; i++) {
        for (int type = 0; type < SL_TYPE_CLOCK; type++) {
            const int whole = sl_text_extent(text, (sl_type)type, 0, words[i]).x;
            for (int width = 30; width < 1400; width += 19) {
                const int lines = sl_text_extent(text, (sl_type)type, width, words[i]).y;
                ck_assert_int_eq(sl_text_height(text, (sl_type)type, width, words[i]), lines);
                ck_assert(strchr(words[i], '\n') != NULL ||
                          sl_text_fits(text, (sl_type)type, width, words[i]) == (whole <= width));
            }
        }
    }
}
END_TEST

START_SUITE("layout")
FIXTURE(open_text, close_text)
ADD(parts_lie_inside_the_window_and_apart)
ADD(what_is_pressed_is_never_smaller_than_44_pixels)
ADD(all_eight_strips_stand_side_by_side_at_100_per_cent)
ADD(text_grows_to_200_per_cent)
ADD(a_notice_has_room_at_every_size_of_text)
ADD(measured_lines_are_those_that_are_drawn)
ADD(no_picture_goes_in_the_midst_of_a_frame)
ADD(the_face_has_every_letter_of_the_catalogues)
ADD(hair_has_most_of_the_window)
ADD(strips_fill_their_room)
ADD(every_scene_finds_a_place_in_every_window)
ADD(zones_fill_a_strip_without_gap)
ADD(a_place_on_the_ruler_and_its_time_belong_together)
ADD(a_knob_ends_where_its_range_ends)
ADD(a_height_without_measuring_is_that_of_measuring)
END_SUITE
