/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A document in the window: built when what it says changes, laid out when its room does, and drawn where it
 * was laid.
 */
#include "view/draw/leaf.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "suite.h"

static sl_leaf leaf;
static sl_pen pen;

static void begin(void)
{
    sl_error error = {.code = SL_OK};
    leaf = (sl_leaf){.says = 0};
    pen = (sl_pen){.sheet = SDL_CreateRGBSurfaceWithFormat(0, 400, 2000, 32, SDL_PIXELFORMAT_XRGB8888),
                   .text = sl_text_new(&error),
                   .theme = sl_theme_at(SL_THEME_LIGHT),
                   .unit = 1.0};
    ck_assert_ptr_nonnull(pen.sheet);
    ck_assert_ptr_nonnull(pen.text);
    ck_assert(sl_text_scale(pen.text, 1.0, &error));
}

static void end(void)
{
    sl_leaf_free(&leaf);
    sl_text_free(pen.text);
    SDL_FreeSurface(pen.sheet);
}

static void build(uint64_t says)
{
    static const sl_text_column columns[] = {{"arm", 2.0, 0}, {"left", 1.0, SL_RIGHT}};
    sl_document *const document = sl_leaf_renew(&leaf, says);
    ck_assert_ptr_nonnull(document);
    sl_document_begin(document, "test", "A title", &leaf.error);
    document->depth = SL_LEAD;
    sl_document_part(document, "The verdict");
    sl_document_dots(document, "odds", 3, 20, "3 of 20");
    document->depth = SL_MORE;
    for (int i = 0; i < 12; i++) {
        sl_document_row(document, "goal",
                        "words that go on and on until they need more than a single line, %d", i);
    }
    sl_document_table(document, "a table", 2, columns, 0.0);
    sl_document_cell(document, "one arm");
    sl_document_entry(document, (sl_entry){.kind = SL_ENTRY_SHARE, .value = 0.3});
    document->depth = SL_SCIENCE;
    sl_document_say(document, "how it was found");
    sl_document_end(document, SL_ON_OUTCOME);
}

START_TEST(a_document_is_built_again_only_when_it_says_something_else)
{
    build(1);
    ck_assert_ptr_null(sl_leaf_renew(&leaf, 1));
    build(2);
    ck_assert_ptr_null(sl_leaf_renew(&leaf, 2));
    const int words[] = {1, 2, 3};
    const uint64_t number = sl_leaf_number(0, words, sizeof words);
    ck_assert_uint_ne(number, sl_leaf_number(0, words, sizeof words - 1));
    ck_assert_uint_eq(number, sl_leaf_number(sl_leaf_number(0, words, 4), words + 1, sizeof words - 4));
}
END_TEST

START_TEST(deeper_and_narrower_is_higher)
{
    build(1);
    ck_assert_int_eq(sl_leaf_height(&leaf), 0); /* not laid yet */
    ck_assert(sl_leaf_lay(&leaf, &pen, 300, SL_LEAD));
    const int lead = sl_leaf_height(&leaf);
    ck_assert(sl_leaf_lay(&leaf, &pen, 300, SL_MORE));
    const int more = sl_leaf_height(&leaf);
    ck_assert(sl_leaf_lay(&leaf, &pen, 300, SL_SCIENCE));
    const int science = sl_leaf_height(&leaf);
    ck_assert(sl_leaf_lay(&leaf, &pen, 200, SL_SCIENCE));
    ck_assert_int_lt(lead, more);
    ck_assert_int_lt(more, science);
    ck_assert_int_lt(science, sl_leaf_height(&leaf));
}
END_TEST

/* What the pens tell: "words X Y W H type text". */
START_TEST(what_is_drawn_stands_where_it_was_laid)
{
    char *told = NULL;
    size_t size = 0;
    int lowest = 0, n = 0;
    build(1);
    ck_assert(sl_leaf_lay(&leaf, &pen, 300, SL_SCIENCE));
    FILE *const out = open_memstream(&told, &size);
    sl_text_tell_to(pen.text, out);
    sl_leaf_draw(&leaf, &pen, 10, 20);
    sl_text_tell_to(pen.text, NULL);
    fclose(out);
    for (char *line = strtok(told, "\n"); line != NULL; line = strtok(NULL, "\n")) {
        int x = 0, y = 0, w = 0, h = 0;
        if (sscanf(line, "words %d %d %d %d", &x, &y, &w, &h) == 4) {
            ck_assert_msg(x >= 10 && x + w <= 310, "%s", line);
            ck_assert_msg(y >= 20, "%s", line);
            lowest = y + h > lowest ? y + h : lowest;
            n++;
        }
    }
    free(told);
    ck_assert_int_gt(n, 20);
    ck_assert_int_le(lowest, 20 + sl_leaf_height(&leaf));
    ck_assert_int_ge(lowest, 20 + sl_leaf_height(&leaf) - 12);
}
END_TEST

/* Where the words stand that begin so; its height 0: nothing does. */
static SDL_Rect told_place(const char *told, const char *words)
{
    const char *const at = strstr(told, words);
    SDL_Rect place = {0, 0, 0, 0};
    const char *line = at;
    while (line != NULL && line > told && line[-1] != '\n') {
        line--;
    }
    if (line != NULL) {
        ck_assert_int_eq(sscanf(line, "words %d %d %d %d", &place.x, &place.y, &place.w, &place.h), 4);
    }
    return place;
}

START_TEST(no_word_of_a_table_is_cut_and_what_is_in_place_of_a_row_spans_it)
{
    static const sl_text_column columns[] = {
        {"arm", 6.0, 0}, {"n", 0.2, SL_RIGHT}, {"verdict", 0.4, 0}, {"look", 1.0, 0}};
    char *told = NULL;
    size_t size = 0;
    sl_document *const document = sl_leaf_renew(&leaf, 1);
    sl_document_begin(document, "test", NULL, &leaf.error);
    sl_document_table(document, "", 4, columns, 0.0);
    sl_document_cell(document, "one arm");
    sl_document_rest(document, "control: nothing on");
    sl_document_cell(document, "another");
    sl_document_cell(document, "12");
    sl_document_cell(document, "doubtfully");
    sl_document_cell(document, "-");
    sl_document_end(document, SL_ON_NOTHING);
    ck_assert(sl_leaf_lay(&leaf, &pen, 330, SL_MORE));
    FILE *const out = open_memstream(&told, &size);
    sl_text_tell_to(pen.text, out);
    sl_leaf_draw(&leaf, &pen, 0, 0);
    sl_text_tell_to(pen.text, NULL);
    fclose(out);
    const int line = sl_text_line_height(pen.text, SL_TYPE_SMALL);
    const char *const whole[] = {"control: nothing", "doubtfully", "verdict", "12"};
    for (int i = 0; i < 4; i++) {
        const SDL_Rect place = told_place(told, whole[i]);
        ck_assert_msg(place.h == line && place.x + place.w <= 330, "%s: %d high, not %d", whole[i], place.h,
                      line);
    }
    ck_assert_int_gt(told_place(told, "control: nothing").w, told_place(told, "doubtfully").w);
    free(told);
}
END_TEST

/* However lines are found: what is measured says the same. */
START_TEST(each_line_is_as_full_as_its_words_allow)
{
    static const char *const texts[] = {
        "How long? At each look wipe a lock: rinse when about 60 % is there; washing takes 11 more, AVATAR "
        "Towy.",
        "Mantén la mezcla lejos de la piel, \303\241rida o ara\303\261ada. \302\277Escuece? L\303\241vala ya "
        "con mucha agua.",
        "iiii llll WWWW MMMM ffff tttt 11 % 22 % of 33 % at 44 % in 55 % if 66 % to 77 %"};
    for (int text = 0; text < 3; text++) {
        for (int wrap = 80; wrap < 400; wrap++) {
            const sl_text_line *line = NULL;
            char words[256];
            const int n = sl_text_lines(pen.text, SL_TYPE_SMALL, wrap, texts[text], &line);
            sl_text_line copy[64];
            memcpy(copy, line, (size_t)n * sizeof *line);
            for (int i = 0; i < n; i++) {
                snprintf(words, sizeof words, "%.*s", copy[i].length, texts[text] + copy[i].from);
                ck_assert_int_le(sl_text_extent(pen.text, SL_TYPE_SMALL, 0, words).x, wrap + 1);
                if (i + 1 < n) {
                    const char *next = texts[text] + copy[i + 1].from;
                    size_t more = strcspn(next, " ");
                    more += next[more] == ' ' && next[more + 1] == '%' ? 2 : 0;
                    snprintf(words, sizeof words, "%.*s", copy[i + 1].from - copy[i].from + (int)more,
                             texts[text] + copy[i].from);
                    ck_assert_int_gt(sl_text_extent(pen.text, SL_TYPE_SMALL, 0, words).x, wrap);
                }
            }
        }
    }
}
END_TEST

START_SUITE("leaf")
FIXTURE(begin, end)
ADD(a_document_is_built_again_only_when_it_says_something_else)
ADD(deeper_and_narrower_is_higher)
ADD(what_is_drawn_stands_where_it_was_laid)
ADD(each_line_is_as_full_as_its_words_allow)
ADD(no_word_of_a_table_is_cut_and_what_is_in_place_of_a_row_spans_it)
END_SUITE
