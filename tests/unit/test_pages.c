/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Sheets on pages: nothing is cut, nothing is lost.
 */
#include <check.h>
#include <stdlib.h>
#include <string.h>

#include "document/renderers.h"
#include "paper/pages/pages.h"
#include "paper/pages/piece.h"
#include "suite.h"

static sl_canvas canvas;
static sl_document document;
static sl_pages pages;
static sl_error error;

static void begin(void)
{
    error = (sl_error){.code = SL_OK};
    ck_assert(sl_canvas_open_pixels(&canvas, 10.0, 10.0, 1.0, false, &error));
    sl_document_begin(&document, "sheet", "Sheet", &error);
}

static void end(void)
{
    sl_pages_free(&pages);
    sl_document_free(&document);
    sl_canvas_close(&canvas);
}

static void lay(int format)
{
    if (!document.ended) {
        sl_document_end(&document, SL_ON_NOTHING);
    }
    ck_assert(sl_pages_lay(&pages, &document, &canvas, sl_paper_formats[format], &error));
}

/* The sheet's text ends above its foot, which is at least one line of letters of 7.5 points high. */
START_TEST(no_piece_hangs_over_the_end_of_its_page)
{
    for (int i = 0; i < 120; i++) {
        sl_document_say(&document,
                        "Paragraph %d, long enough that it takes more than a single line of the page on A4 "
                        "and on US Letter, whatever face is found.",
                        i);
    }
    for (int format = 0; format < SL_PAPER_FORMATS; format++) {
        lay(format);
        ck_assert_int_gt(pages.n, 1);
        ck_assert_uint_eq(pages.n_placed, document.n);
        for (size_t i = 0; i < pages.n_placed; i++) {
            const sl_placed *const placed = &pages.placed[i];
            ck_assert_double_gt(placed->y, 42.0);
            ck_assert_double_lt(placed->y + placed->height, sl_paper_formats[format].height - 42.0 - 7.5);
            if (i > 0 && placed->page == pages.placed[i - 1].page) {
                ck_assert_double_ge(placed->y, pages.placed[i - 1].y + pages.placed[i - 1].height - 1e-9);
            }
        }
    }
}
END_TEST

START_TEST(a_tables_head_stands_on_each_of_its_pages)
{
    static const sl_text_column columns[] = {{"One", 1.0, 0}, {"Two", 1.0, SL_RIGHT}};
    sl_document_table(&document, "Long", 2, columns, 0.0);
    for (int i = 0; i < 200; i++) {
        sl_document_cell(&document, "%d", i);
    }
    lay(0);
    int heads = 0, rows = 0, page = 0;
    for (size_t i = 0; i < pages.n_placed; i++) {
        const sl_placed *const placed = &pages.placed[i];
        heads += placed->row == SL_ROW_HEAD ? 1 : 0;
        if (placed->row >= 0 && placed->page != page) {
            page = placed->page;
            ck_assert_int_eq(pages.placed[i - 1].row, SL_ROW_HEAD);
        }
        if (placed->row >= 0) {
            ck_assert_int_eq(placed->row, rows++);
        }
    }
    ck_assert_int_eq(rows, 100);
    ck_assert_int_gt(pages.n, 1);
    ck_assert_int_eq(heads, pages.n);
}
END_TEST

START_TEST(no_row_of_a_long_table_stands_alone_at_its_end)
{
    static const sl_text_column columns[] = {{"One", 1.0, 0}};
    for (int rows = 20; rows < 60; rows++) {
        sl_document_table(&document, "Long", 1, columns, 17.0);
        for (int i = 0; i < rows; i++) {
            sl_document_cell(&document, "%d", i);
        }
    }
    lay(0);
    for (size_t i = 0; i < pages.n_placed; i++) {
        const sl_placed *const placed = &pages.placed[i];
        const sl_block *const block = &document.blocks[placed->block];
        if (placed->row == (int)block->n_cells - 1) {
            ck_assert_int_eq(placed->page, pages.placed[i - 2].page);
        }
    }
}
END_TEST

START_TEST(a_short_table_is_not_parted)
{
    static const sl_text_column columns[] = {{"One", 1.0, 0}};
    for (int i = 0; i < 40; i++) {
        sl_document_say(&document, "Line %d", i);
        if (i % 4 == 3) {
            sl_document_table(&document, "Short", 1, columns, 30.0);
            for (int row = 0; row < 5; row++) {
                sl_document_cell(&document, "%d", row);
            }
        }
    }
    lay(1);
    for (size_t i = 1; i < pages.n_placed; i++) {
        if (pages.placed[i].row > SL_ROW_CAPTION &&
            document.blocks[pages.placed[i].block].kind == SL_BLOCK_TABLE) {
            ck_assert_int_eq(pages.placed[i].page, pages.placed[i - 1].page);
        }
    }
}
END_TEST

static void draw_nothing(sl_canvas *on, double x, double y, double width, double height, const void *with)
{
    (void)on, (void)x, (void)y, (void)width, (void)height, (void)with;
}

START_TEST(a_heading_never_ends_a_page)
{
    for (int i = 0; i < 90; i++) {
        sl_document_heading(&document, "Heading");
        for (int line = 0; line < 1 + i % 5; line++) {
            sl_document_say(&document, "Line %d", line);
        }
        sl_document_heading(&document, "Heading of a sketch");
        sl_put_sketch(&document, "A sketch", 100.0 + i, draw_nothing, NULL);
    }
    lay(0);
    for (size_t i = 0; i + 1 < pages.n_placed; i++) {
        if (document.blocks[pages.placed[i].block].kind == SL_BLOCK_HEADING) {
            ck_assert_int_eq(pages.placed[i].page, pages.placed[i + 1].page);
        }
    }
}
END_TEST

START_TEST(html_says_what_could_be_read_as_a_tag)
{
    char *text = NULL;
    size_t size = 0;
    sl_document_say(&document, "%s", "5 < 6 & \"so\" > on");
    FILE *const out = open_memstream(&text, &size);
    sl_document_end(&document, SL_ON_NOTHING);
    ck_assert(sl_document_html(out, &document, "en"));
    fclose(out);
    ck_assert_ptr_nonnull(strstr(text, "5 &lt; 6 &amp; &quot;so&quot; &gt; on"));
    ck_assert_ptr_nonnull(strstr(text, "<html lang=\"en\">"));
    free(text);
}
END_TEST

START_TEST(a_card_is_as_high_as_the_longest_needs)
{
    sl_document_cards(&document, "", 3, 30.0);
    sl_document_card(&document, "A", "one line");
    sl_document_card(&document, "B", "1\n2\n3\n4\n5\n6\n7\n8");
    lay(0);
    ck_assert_uint_eq(pages.n_placed, 2);
    ck_assert_double_gt(pages.placed[1].height,
                        8.0 * 10.5 + 20.0); /* its lines and its title, by their size */
}
END_TEST

START_TEST(a_table_without_heads_has_no_empty_row)
{
    static const sl_text_column columns[] = {{"", 1.0, SL_OWN}, {"", 1.0, SL_OWN}};
    sl_document_table(&document, "", 2, columns, 0.0);
    sl_document_cell(&document, "a control");
    sl_document_cell(&document, "what it shows");
    lay(0);
    for (size_t i = 0; i < pages.n_placed; i++) {
        ck_assert(pages.placed[i].row != SL_ROW_HEAD || pages.placed[i].height <= 0.0);
    }
}
END_TEST

START_SUITE("pages")
tcase_add_checked_fixture(tests, begin, end);
ADD(no_piece_hangs_over_the_end_of_its_page)
ADD(a_tables_head_stands_on_each_of_its_pages)
ADD(no_row_of_a_long_table_stands_alone_at_its_end)
ADD(a_short_table_is_not_parted)
ADD(a_heading_never_ends_a_page)
ADD(html_says_what_could_be_read_as_a_tag)
ADD(a_card_is_as_high_as_the_longest_needs)
ADD(a_table_without_heads_has_no_empty_row)
END_SUITE
