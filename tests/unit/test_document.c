/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Documents and their renderers: everything is said by each of them, nothing stands wider than its terminal,
 * cautions are owed by rule, and memory that runs out is told. Linked with allocators that can be made to
 * fail.
 */
#include <errno.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "document/renderers.h"
#include "document/text.h"
#include "suite.h"

static sl_document document;
static sl_error error;
static char *said;
static size_t said_size;

/* ---- memory that runs out ------------------------------------------------------------------------- */

static long calls, fails_at; /* fails_at 0: none fails */

static bool runs_out(sl_error *why)
{
    return ++calls == fails_at && !sl_fail(why, SL_ERR_NO_MEMORY, "testing", "");
}

bool __real_sl_grow(void *array, size_t *capacity, size_t wanted, size_t size, const char *doing,
                    sl_error *why);
bool __wrap_sl_grow(void *array, size_t *capacity, size_t wanted, size_t size, const char *doing,
                    sl_error *why);
bool __wrap_sl_grow(void *array, size_t *capacity, size_t wanted, size_t size, const char *doing,
                    sl_error *why)
{
    return !runs_out(why) && __real_sl_grow(array, capacity, wanted, size, doing, why);
}

void *__real_sl_arena_new(sl_arena *arena, size_t count, size_t size, const char *doing, sl_error *why);
void *__wrap_sl_arena_new(sl_arena *arena, size_t count, size_t size, const char *doing, sl_error *why);
void *__wrap_sl_arena_new(sl_arena *arena, size_t count, size_t size, const char *doing, sl_error *why)
{
    return runs_out(why) ? NULL : __real_sl_arena_new(arena, count, size, doing, why);
}

char *__real_sl_arena_text(sl_arena *arena, const char *text, size_t length, sl_error *why);
char *__wrap_sl_arena_text(sl_arena *arena, const char *text, size_t length, sl_error *why);
char *__wrap_sl_arena_text(sl_arena *arena, const char *text, size_t length, sl_error *why)
{
    return runs_out(why) ? NULL : __real_sl_arena_text(arena, text, length, why);
}

/* ---- a document with a block of each kind ---------------------------------------------------------------
 */

static const sl_text_column columns[] = {{"place", 1.0, SL_NAME},
                                         {"arm", 3.0, SL_NAME},
                                         {"left", 1.0, SL_RIGHT},
                                         {"after", 2.0, SL_RIGHT},
                                         {"Käse", 1.0, SL_OWN}};
enum { COLUMNS = 5 };

static void put_table(const char *arm)
{
    sl_document_table(&document, "the caption", COLUMNS, columns, 0.0);
    sl_document_cell(&document, "%d", 1);
    sl_document_cell(&document, "%s", arm);
    sl_document_entry(&document, (sl_entry){.kind = SL_ENTRY_SHARE, .value = 0.37, .low = 0.3, .high = 0.44});
    sl_document_entry(&document, (sl_entry){.kind = SL_ENTRY_OUTCOME, .value = 17.4});
    sl_document_entry(&document, (sl_entry){.kind = SL_ENTRY_NONE});
}

static void put_chart(void)
{
    sl_graph *const chart = sl_graph_new(&document.arena, &error);
    sl_graph_series *const curve = chart ? sl_graph_add(chart, SL_GRAPH_CURVE, 2, false, false) : NULL;
    if (chart) {
        chart->title = "the chart's title";
        chart->x = (sl_graph_axis){0.0, 1.0, "the way across"};
        chart->y = (sl_graph_axis){0.0, 1.0, "the way up"};
        chart->note = "the marks";
        sl_graph_add_key(chart, (sl_graph_key){.curve = 0, .marks = -1, .name = "K", .words = "the curve"});
    }
    if (curve) {
        curve->label = "the end";
    }
    const sl_graph *const made = chart ? sl_graph_made(chart) : NULL;
    sl_document_charts(&document, "the chart", 40.0, 1, &made);
}

static void build(unsigned occasions)
{
    sl_document_begin(&document, "all", "the title", &error);
    sl_document_lies(&document, "the hair");
    sl_document_note(&document, "the worth");
    sl_document_say(&document, "first sentence of %d", 3);
    sl_document_row(&document, "goal",
                    "the goal's words, which go on for so long that they need two lines anywhere");
    sl_document_row(&document, "", "below the goal");
    sl_document_heading(&document, "the heading");
    put_table("the strip");
    sl_document_part(&document, "the %s", "part");
    sl_document_row(&document, "odds", "the odds");
    sl_document_dots(&document, "dots", 3, 5, "the dots");
    sl_document_item(&document, "the item");
    sl_document_tick(&document, "the tick");
    sl_document_lines(&document, 2, "the lines");
    sl_document_cards(&document, "the cards", 2, 40.0);
    sl_document_card(&document, "K1", "the card");
    sl_document_break(&document);
    sl_document_sketch(&document, "the sketch", 40.0, NULL);
    put_chart();
    document.depth = SL_SCIENCE;
    sl_document_say(&document, "the science");
    document.depth = SL_LEAD;
    sl_document_apart(&document);
    sl_document_say(&document, "the answer");
    sl_document_end(&document, occasions);
}

static void begin(void)
{
    error = (sl_error){.code = SL_OK};
    said = NULL;
    calls = fails_at = 0;
}

static void end(void)
{
    sl_document_free(&document);
    free(said);
}

static FILE *opened(void)
{
    free(said);
    FILE *const out = open_memstream(&said, &said_size);
    ck_assert_ptr_nonnull(out);
    return out;
}

static const char *as_text(int width, sl_depth depth)
{
    FILE *const out = opened();
    ck_assert(sl_document_text(out, &document, &(sl_terminal){.width = width, .depth = depth}));
    fclose(out);
    return said;
}

static const char *as_html(void)
{
    FILE *const out = opened();
    ck_assert(sl_document_html(out, &document, "en"));
    fclose(out);
    return said;
}

static const char *as_outline(void)
{
    FILE *const out = opened();
    ck_assert(sl_document_outline(out, &document));
    fclose(out);
    return said;
}

static int times(const char *text, const char *words)
{
    int n = 0;
    for (const char *at = text; (at = strstr(at, words)) != NULL; at++) {
        n++;
    }
    return n;
}

/* ---- every renderer says all of it
 * -------------------------------------------------------------------------- */

static const char *const every_word[] = {"the title",
                                         "the hair",
                                         "first sentence of 3",
                                         "goal:",
                                         "below the goal",
                                         "the heading",
                                         "the caption",
                                         "place",
                                         "K\u00e4se",
                                         "the strip",
                                         "37 % (30-44)",
                                         "17 to 18 min",
                                         "the part",
                                         "odds:",
                                         "the dots",
                                         "the item",
                                         "the tick",
                                         "the lines",
                                         "the cards",
                                         "K1",
                                         "the card",
                                         "the sketch",
                                         "the chart",
                                         "the marks",
                                         "the science",
                                         "the answer"};
enum { WORDS = sizeof every_word / sizeof every_word[0] };

START_TEST(each_renderer_says_every_block)
{
    build(SL_ON_OUTCOME);
    const char *const text = as_text(80, SL_SCIENCE);
    for (int i = 0; i < WORDS; i++) {
        ck_assert_msg(strstr(text, every_word[i]) != NULL, "no \"%s\" in the text", every_word[i]);
    }
    const char *const html = as_html();
    for (int i = 0; i < WORDS; i++) {
        ck_assert_msg(strstr(html, every_word[i]) != NULL, "no \"%s\" in the HTML", every_word[i]);
    }
    ck_assert_ptr_nonnull(strstr(html, "the worth"));
    const char *const outline = as_outline();
    for (int i = 0; i < WORDS; i++) {
        ck_assert_msg(strstr(outline, every_word[i]) != NULL, "no \"%s\" in the outline", every_word[i]);
    }
}
END_TEST

START_TEST(an_outline_names_kind_depth_and_key)
{
    build(SL_ON_OUTCOME);
    const char *const outline = as_outline();
    ck_assert_ptr_nonnull(strstr(outline, "\nmore row goal: the goal's words"));
    ck_assert_ptr_nonnull(
        strstr(outline, "\n  1 share left: 37 % (30-44)\n  1 outcome after: 17 to 18 min\n"));
    ck_assert_ptr_nonnull(strstr(outline, "\nscience say the science\n"));
    ck_assert_ptr_nonnull(strstr(outline, "\nlead say the answer\n"));
    ck_assert_ptr_nonnull(strstr(outline, "\nlead caution ESTIMATE\nlead caution LABEL\n"));
}
END_TEST

START_TEST(an_outline_tells_a_charts_words)
{
    build(SL_ON_OUTCOME);
    ck_assert_ptr_nonnull(strstr(as_outline(),
                                 "\nmore chart the chart\n  title: the chart's title\n"
                                 "  across: the way across\n  up: the way up\n"
                                 "  note: the marks\n  2 points: the end\n  key K: the curve\n"));
}
END_TEST

START_TEST(a_chart_that_could_not_be_made_fails_its_document)
{
    const sl_graph *const none = NULL;
    sl_document_begin(&document, "all", "the title", &error);
    sl_document_charts(&document, "", 40.0, 1, &none);
    ck_assert(document.failed);
    sl_document_end(&document, SL_ON_NOTHING);
}
END_TEST

START_TEST(a_text_goes_no_deeper_than_it_was_asked_for)
{
    build(SL_ON_NOTHING);
    ck_assert_ptr_null(strstr(as_text(80, SL_MORE), "the science"));
    ck_assert_ptr_nonnull(strstr(as_text(80, SL_MORE), "the item"));
    ck_assert_ptr_null(strstr(as_text(80, SL_LEAD), "the item"));
    ck_assert_ptr_nonnull(strstr(as_text(80, SL_LEAD), "the answer"));
}
END_TEST

START_TEST(what_nobody_reads_is_not_kept)
{
    sl_document_begin(&document, "all", "the title", &error);
    document.deepest = SL_MORE;
    document.depth = SL_SCIENCE;
    put_table("the strip");
    sl_document_say(&document, "the science");
    ck_assert_uint_eq(document.n, 0);
    sl_document_end(&document, SL_ON_NOTHING);
}
END_TEST

/* ---- how it stands on a terminal --------------------------------------------------------------------------
 */

/* Words of the document are no longer than 12 letters; the names of the table can be made so short. */
START_TEST(no_line_is_wider_than_its_terminal)
{
    build(SL_ON_ALL);
    char *const text = strdup(as_text(_i, SL_SCIENCE));
    for (char *line = strtok(text, "\n"); line != NULL; line = strtok(NULL, "\n")) {
        ck_assert_msg(sl_text_width(line) <= _i, "%d columns: %s", sl_text_width(line), line);
    }
    free(text);
}
END_TEST

START_TEST(a_table_too_wide_is_told_in_pieces_with_its_names)
{
    sl_document_begin(&document, "all", "the title", &error);
    put_table("the strip");
    sl_document_end(&document, SL_ON_NOTHING);
    ck_assert_int_eq(times(as_text(80, SL_MORE), "the strip"), 1);
    const char *const narrow = as_text(40, SL_MORE);
    ck_assert_int_eq(times(narrow, "the strip"), 2);
    ck_assert_int_eq(times(narrow, "37 %"), 1);
    ck_assert_int_eq(times(narrow, "17 to 18 min"), 1);
}
END_TEST

/* Words in the last column, and names beside which nothing stands: they go on below themselves. */
START_TEST(words_at_the_end_of_a_row_run_past_the_terminal)
{
    static const sl_text_column with_words[] = {
        {"time", 1.0, SL_RIGHT}, {"about", 1.0, SL_NAME}, {"seen", 1.0, SL_OWN}};
    for (int n = 2; n <= 3; n++) {
        sl_document_begin(&document, "all", "the title", &error);
        sl_document_table(&document, "", n, with_words, 0.0);
        sl_document_cell(&document, "0:01:45");
        sl_document_cell(&document, "%s",
                         n == 3 ? "strip" : "a strip and what is weighed of it: 4.4 g, 8.8 g");
        if (n == 3) {
            sl_document_cell(&document, "1 as untreated, 1 slightly dry, 1 rough and dry");
        }
        sl_document_end(&document, SL_ON_NOTHING);
        char *const text = strdup(as_text(40, SL_MORE));
        ck_assert_int_eq(times(text, n == 3 ? "rough" : "8.8 g"), 1);
        for (char *line = strtok(text, "\n"); line != NULL; line = strtok(NULL, "\n")) {
            ck_assert_msg(sl_text_width(line) <= 40, "%d columns: %s", sl_text_width(line), line);
        }
        free(text);
        if (n == 2) {
            sl_document_free(&document); /* the last one is freed behind each test */
        }
    }
}
END_TEST

START_TEST(words_beside_a_label_that_is_a_sentence_have_no_room)
{
    sl_document_begin(&document, "all", "the title", &error);
    sl_document_row(&document, "even by the model, if read by one", "all of the strips that are named here");
    sl_document_row(&document, "", "and more");
    sl_document_end(&document, SL_ON_NOTHING);
    ck_assert_int_eq(times(as_text(50, SL_MORE), "\n even by the model, if read by one:\n"
                                                 "          all of the strips that are named here\n"
                                                 "          and more\n"),
                     1);
    ck_assert_int_eq(times(as_text(80, SL_MORE), " read by one: all of the strips that are named here\n"), 1);
}
END_TEST

START_TEST(a_long_name_stands_whole_above_its_row)
{
    const char *const name = "a name of an arm that is far too long for the column that it has";
    sl_document_begin(&document, "all", "the title", &error);
    put_table(name);
    sl_document_end(&document, SL_ON_NOTHING);
    const char *const at = strstr(as_text(60, SL_MORE), name);
    ck_assert_ptr_nonnull(at);
    ck_assert_int_eq(at[strlen(name)], '\n');
}
END_TEST

START_TEST(a_long_word_is_not_cut)
{
    char word[200];
    memset(word, 'w', sizeof word - 1);
    word[sizeof word - 1] = '\0';
    sl_document_begin(&document, "all", "the title", &error);
    sl_document_row(&document, "goal", "%s", word);
    sl_document_say(&document, "%s", word);
    sl_document_row(&document, word, "beside");
    sl_document_end(&document, SL_ON_NOTHING);
    ck_assert_int_eq(times(as_text(40, SL_MORE), word), 3);
    ck_assert_int_eq(times(as_html(), word), 3);
}
END_TEST

START_TEST(a_text_longer_than_any_is_kept_whole)
{
    enum { LONG = 20000 };
    char *const word = calloc(LONG + 1, 1);
    memset(word, 'w', LONG);
    sl_document_begin(&document, "all", "the title", &error);
    sl_document_say(&document, "%s.", word);
    sl_document_end(&document, SL_ON_NOTHING);
    ck_assert_uint_eq(strlen(document.blocks[0].text), LONG + 1);
    free(word);
}
END_TEST

START_TEST(a_table_without_rows_has_its_head)
{
    sl_document_begin(&document, "all", "the title", &error);
    sl_document_table(&document, "", COLUMNS, columns, 0.0);
    sl_document_end(&document, SL_ON_NOTHING);
    ck_assert_ptr_nonnull(strstr(as_text(80, SL_MORE), "place  arm"));
    ck_assert_ptr_null(strstr(as_html(), "<caption>"));
}
END_TEST

/* ---- entries ----------------------------------------------------------------------------------------------
 */

static void ck_words(sl_entry entry, const char *words)
{
    char text[SL_ENTRY_WORDS];
    ck_assert_str_eq(sl_entry_words(&entry, text), words);
}

START_TEST(an_entry_has_words_of_its_kind)
{
    ck_words((sl_entry){.kind = SL_ENTRY_NONE, .value = 3.0}, "");
    ck_words((sl_entry){.kind = SL_ENTRY_TEXT, .text = "blue"}, "blue");
    ck_words((sl_entry){.kind = SL_ENTRY_NUMBER, .value = 12.0, .decimals = 2}, "12");
    ck_words((sl_entry){.kind = SL_ENTRY_NUMBER, .value = 0.456, .decimals = 2}, "0.46");
    ck_words((sl_entry){.kind = SL_ENTRY_FIXED, .value = 12.0, .decimals = 1}, "12.0");
    ck_words((sl_entry){.kind = SL_ENTRY_SHARE, .value = 0.371}, "37 %");
    ck_words((sl_entry){.kind = SL_ENTRY_SHARE, .value = 0.001}, "<1 %");
    ck_words((sl_entry){.kind = SL_ENTRY_SHARE, .value = 0.5, .low = 0.4, .high = 0.61}, "50 % (40-61)");
    ck_words((sl_entry){.kind = SL_ENTRY_SHARE, .value = 0.5, .low = 0.499, .high = 0.501}, "50 %");
    ck_words((sl_entry){.kind = SL_ENTRY_SHARE, .value = 0.001, .low = 0.0, .high = 0.004}, "<1 %");
    ck_words((sl_entry){.kind = SL_ENTRY_BARE, .value = 0.371}, "37");
    ck_words((sl_entry){.kind = SL_ENTRY_PLANNED, .value = 12.5}, "12.5 min");
    ck_words((sl_entry){.kind = SL_ENTRY_OUTCOME, .value = 17.9}, "17 to 18 min");
}
END_TEST

/* ---- cautions --------------------------------------------------------------------------------------------
 */

/* The words of a caution are those of cautions.def; REACTED and AGE never stand by themselves. */
START_TEST(cautions_follow_from_the_occasion)
{
    build(SL_ON_NOTHING);
    ck_assert_ptr_null(strstr(as_outline(), "caution"));
    sl_document_free(&document);
    build(SL_ON_HAIR);
    for (int id = 0; id < SL_CAUTION_COUNT; id++) {
        ck_assert_int_eq(document.owes[id], sl_caution_text((sl_caution_id)id)->always);
    }
    sl_document_free(&document);
    build(SL_ON_MIXING | SL_ON_CLASS);
    ck_assert_int_eq(times(as_outline(), "caution REACTED"), 1);
    ck_assert_int_eq(times(as_outline(), "caution AGE"), 1);
    ck_assert_int_eq(times(as_outline(), "caution DOCTOR"), 0);
    sl_document_free(&document);
    build(SL_ON_ALL);
    ck_assert_int_eq(times(as_outline(), "caution "), SL_CAUTION_COUNT);
}
END_TEST

START_TEST(what_a_person_answered_is_owed_beside)
{
    sl_document_begin(&document, "all", "the title", &error);
    sl_document_owes(&document, SL_CAUTION_DOCTOR);
    sl_document_end(&document, SL_ON_NOTHING);
    ck_assert_int_eq(times(as_outline(), "caution DOCTOR"), 1);
}
END_TEST

START_TEST(each_caution_stands_once_in_text_and_html)
{
    build(SL_ON_ALL);
    for (int id = 0; id < SL_CAUTION_COUNT; id++) {
        char beginning[24]; /* no character that HTML writes in another way stands in it */
        snprintf(beginning, sizeof beginning, "%.20s", sl_caution_text((sl_caution_id)id)->text);
        ck_assert_int_eq(times(as_text(5000, SL_LEAD), beginning), 1);
        ck_assert_int_eq(times(as_html(), beginning), 1);
    }
}
END_TEST

/* Two abreast they have 100 columns with their signal words (terminal.c). */
START_TEST(where_the_whole_stands_elsewhere_the_four_of_reducing_mixes_are_told_short_too)
{
    sl_document_begin(&document, "all", "the title", &error);
    document.brief = true;
    sl_document_end(&document, SL_ON_HAIR | SL_ON_REDUCING | SL_ON_MIXING);
    int n = 0;
    for (int id = 0; id < SL_CAUTION_COUNT; id++) {
        const sl_caution *const caution = sl_caution_text((sl_caution_id)id);
        char beginning[24];
        snprintf(beginning, sizeof beginning, "%.20s", caution->text);
        const bool short_one = caution->always || (caution->occasions & SL_ON_REDUCING) != 0;
        ck_assert_int_eq(caution->brief != NULL, short_one);
        if (short_one) {
            ck_assert_int_eq(times(as_text(100, SL_LEAD), caution->brief), 1);
            ck_assert_int_eq(times(as_text(100, SL_LEAD), beginning), 0);
            ck_assert_uint_le(strlen(caution->brief), 42);
            n++;
        } else if (sl_occasion_owes(SL_ON_MIXING, (sl_caution_id)id)) {
            ck_assert_int_eq(times(as_text(5000, SL_LEAD), beginning), 1);
        }
    }
    ck_assert_int_eq(n, 10);
}
END_TEST

START_TEST(what_was_not_ended_is_not_rendered)
{
    sl_document_begin(&document, "all", "the title", &error);
    sl_document_say(&document, "without its cautions");
    FILE *const nowhere = fopen("/dev/null", "w");
    if (_i == 0) {
        sl_document_text(nowhere, &document, &(sl_terminal){.width = 80});
    } else if (_i == 1) {
        sl_document_html(nowhere, &document, "en");
    } else {
        sl_document_outline(nowhere, &document);
    }
    fclose(nowhere);
}
END_TEST

/* ---- memory
 * -------------------------------------------------------------------------------------------------- */

START_TEST(every_allocation_can_fail)
{
    build(SL_ON_ALL);
    const long all = calls;
    ck_assert_int_gt(all, 40);
    for (long at = 1; at <= all; at++) {
        sl_document_free(&document);
        error = (sl_error){.code = SL_OK};
        calls = 0;
        fails_at = at;
        build(SL_ON_ALL);
        ck_assert(document.failed);
        ck_assert_int_eq(error.code, SL_ERR_NO_MEMORY);
        FILE *const out = opened();
        errno = 0;
        ck_assert(!sl_document_print(out, &document, &(sl_terminal){.width = 80, .depth = SL_SCIENCE}));
        ck_assert_int_eq(errno, ENOMEM);
        fclose(out);
        ck_assert_uint_eq(said_size, 0);
    }
}
END_TEST

/* ---- a document within another -------------------------------------------------------------------- */

static void say_part(sl_document *part, const void *of, sl_error *why)
{
    sl_document_begin(part, "part", "the part's title", why);
    sl_document_lies(part, "the part's hair");
    sl_document_say(part, "a sentence of %s", (const char *)of);
    sl_document_heading(part, "its heading");
    sl_document_table(part, "", COLUMNS, columns, 0.0);
    for (int i = 0; i < COLUMNS; i++) {
        sl_document_cell(part, "cell %d", i);
    }
    sl_document_heading(part, "above its cautions");
    sl_document_owes(part, SL_CAUTION_DISPOSAL);
    sl_document_end(part, SL_ON_NOTHING);
}

static void take_part(void)
{
    sl_document_begin(&document, "whole", "the whole", &error);
    sl_document_take(&document, "the first", say_part, "one");
    sl_document_take(&document, "the second", say_part, "two");
    sl_document_end(&document, SL_ON_NOTHING);
}

START_TEST(a_document_within_another_is_a_part_of_it_and_its_cautions_stand_once)
{
    take_part();
    const char *const text = as_text(80, SL_SCIENCE);
    const char *const one = strstr(text, "a sentence of one"), *const second = strstr(text, "the second"),
                      *const two = strstr(text, "a sentence of two");
    ck_assert(strstr(text, "the first") < one && one < second && second < two);
    ck_assert_ptr_null(strstr(text, "the part's title"));
    ck_assert_ptr_null(strstr(text, "above its cautions"));
    ck_assert_int_eq(times(text, "the part's hair"), 2);
    ck_assert_int_eq(times(text, "cell 4"), 2);
    ck_assert_int_eq(document.blocks[3].kind, SL_BLOCK_PART); /* its heading */
    ck_assert(document.owes[SL_CAUTION_DISPOSAL]);
    ck_assert_int_eq(document.blocks[document.n - 1].kind, SL_BLOCK_CAUTION);
    ck_assert_int_ne(document.blocks[document.n - 2].kind, SL_BLOCK_CAUTION);
}
END_TEST

START_TEST(a_document_within_another_can_run_out_of_memory)
{
    calls = fails_at = 0;
    take_part();
    const long all = calls;
    for (long at = 1; at <= all; at++) {
        sl_document_free(&document);
        error = (sl_error){.code = SL_OK};
        calls = 0;
        fails_at = at;
        take_part();
        ck_assert(document.failed);
        ck_assert_int_eq(error.code, SL_ERR_NO_MEMORY);
    }
}
END_TEST

START_TEST(a_full_disk_is_told)
{
    build(SL_ON_NOTHING);
    FILE *const full = fopen("/dev/full", "w");
    if (full != NULL) {
        setvbuf(full, NULL, _IONBF, 0);
        ck_assert(!sl_document_print(full, &document, &(sl_terminal){.width = 80, .depth = SL_MORE}));
        fclose(full);
    }
}
END_TEST

START_SUITE("document")
FIXTURE(begin, end)
ADD(each_renderer_says_every_block)
ADD(an_outline_names_kind_depth_and_key)
ADD(an_outline_tells_a_charts_words)
ADD(a_chart_that_could_not_be_made_fails_its_document)
ADD(a_text_goes_no_deeper_than_it_was_asked_for)
ADD(what_nobody_reads_is_not_kept)
ADD_LOOP(no_line_is_wider_than_its_terminal, 40, 121)
ADD(a_table_too_wide_is_told_in_pieces_with_its_names)
ADD(words_at_the_end_of_a_row_run_past_the_terminal)
ADD(words_beside_a_label_that_is_a_sentence_have_no_room)
ADD(a_long_name_stands_whole_above_its_row)
ADD(a_long_word_is_not_cut)
ADD(a_text_longer_than_any_is_kept_whole)
ADD(a_table_without_rows_has_its_head)
ADD(an_entry_has_words_of_its_kind)
ADD(cautions_follow_from_the_occasion)
ADD(what_a_person_answered_is_owed_beside)
ADD(each_caution_stands_once_in_text_and_html)
ADD(where_the_whole_stands_elsewhere_the_four_of_reducing_mixes_are_told_short_too)
ADD(every_allocation_can_fail)
ADD(a_document_within_another_is_a_part_of_it_and_its_cautions_stand_once)
ADD(a_document_within_another_can_run_out_of_memory)
ADD(a_full_disk_is_told)
CASE("what is refused")
tcase_add_loop_test_raise_signal(tests, what_was_not_ended_is_not_rendered, SIGABRT, 0, 3);
END_SUITE
