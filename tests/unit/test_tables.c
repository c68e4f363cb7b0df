/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Tables for machines as CSV and JSON: what any text, number or missing thing becomes, and what a writer does
 * when a row or the stream fails. Tables of the test's own; those of the commands are test_exports.c's.
 */
#include "document/say.h"

#include <math.h>
#include <signal.h>
#include <string.h>

#include "suite.h"
#include "tools/faults.h"

static char written[1 << 16];

static bool write_form(bool json, const sl_export *export, const void *of)
{
    FILE *const out = fmemopen(written, sizeof written, "w");
    ck_assert_ptr_nonnull(out);
    const bool good = json ? sl_export_json(out, export, of) : sl_export_csv(out, export, of);
    ck_assert_int_eq(fclose(out), 0);
    return good;
}

static const char *form_of(bool json, const sl_export *export, const void *of)
{
    ck_assert(write_form(json, export, of));
    return written;
}

/* ---- texts: one cell a line ---------------------------------------------------------------------------- */

#define CELL(SAY) SAY(text, "cell", ((const char *const *)table->of)[table->place])
static sl_told tell_cell(sl_row *row, const sl_table *table)
{
    if (!((const char *const *)table->of)[table->place]) {
        return SL_NO_MORE;
    }
    CELL(SL_SAY)
    return SL_TOLD;
}
static const sl_columns cells = SL_COLUMNS(CELL(SL_COLUMN), .tell = tell_cell);
#define CELLS(SAY) SAY(rows, "cells", cells, table->of, 0, LONG_MAX)
static sl_told tell_list(sl_row *row, const sl_table *table)
{
    CELLS(SL_SAY)
    return SL_TOLD;
}
static const sl_columns cell_list = SL_COLUMNS(CELLS(SL_COLUMN), .tell = tell_list);
static const sl_export cell_export = {"cells", 3, &cell_list, &cells};

/* RFC 4180, read back: the text of the one cell that begins at *at, which is left behind its line. */
static void read_cell(const char **at, char *text)
{
    const bool quoted = **at == '"';
    *at += quoted ? 1 : 0;
    while (quoted ? !(**at == '"' && (*at)[1] != '"') : **at != '\n') {
        ck_assert(**at != '\0' && (quoted || !strchr(",\"\r", **at)));
        *at += quoted && **at == '"' ? 1 : 0;
        *text++ = *(*at)++;
    }
    *text = '\0';
    *at += quoted ? 1 : 0;
    ck_assert_int_eq(*(*at)++, '\n');
}

/* Each pair of the characters that mean something to CSV, a spreadsheet or JSON, before a letter and behind.
 */
START_TEST(a_text_does_not_come_back_from_csv_as_it_was_or_is_taken_for_a_formula)
{
    static const char odd[] = "=+-@'\t\r\n,;\" a";
    char text[8], back[16];
    const char *const list[] = {text, NULL};
    for (size_t i = 0; i < sizeof odd - 1; i++) {
        for (size_t j = 0; j < sizeof odd - 1; j++) {
            for (int letter = 0; letter < 2; letter++) {
                snprintf(text, sizeof text, letter ? "%c%cx" : "%c%c", odd[i], odd[j]);
                const char *at = form_of(false, &cell_export, list);
                ck_assert_int_eq(strncmp(at, "cell\n", 5), 0);
                at += 5;
                read_cell(&at, back);
                ck_assert_int_eq(*at, '\0');
                ck_assert_ptr_null(strchr("=+-@\t\r", back[0]));
                ck_assert_str_eq(sl_csv_guards(text) ? back + 1 : back, text);
                ck_assert(!sl_csv_guards(text) || back[0] == '\'');
            }
        }
    }
}
END_TEST

START_TEST(a_text_is_escaped_otherwise_than_rfc_8259_says)
{
    const char *const list[] = {"a\"b\\c\n\t\x01\x7f\xC2\xB0", NULL};
    ck_assert_str_eq(form_of(true, &cell_export, list),
                     "{\n \"format\": \"slowlift-cells/3\",\n \"cells\": [\n  {\n   \"cell\": "
                     "\"a\\\"b\\\\c\\n\\t\\u0001\\u007f\xC2\xB0\"\n  }\n ]\n}\n");
}
END_TEST

START_TEST(a_table_without_rows_is_no_head_or_no_empty_list)
{
    const char *const none[] = {NULL};
    ck_assert_str_eq(form_of(false, &cell_export, none), "cell\n");
    ck_assert_str_eq(form_of(true, &cell_export, none),
                     "{\n \"format\": \"slowlift-cells/3\",\n \"cells\": []\n}\n");
}
END_TEST

/* ---- kinds of entries ---------------------------------------------------------------------------------- */

typedef struct kinds {
    double number;
    bool said, whole; /* the numbers in a group: at all; the second, too */
} kinds;

static const int three[] = {3, 1, 2};

#define KINDS(SAY)                                                                                           \
    SAY(text, "name", "x")                                                                                   \
    SAY(number, "number", of->number)                                                                        \
    SAY(yes, "yes", of->whole)                                                                               \
    SAY(cents, "money", of->number)                                                                          \
    SAY(outcome, "goal_min", of->number)                                                                     \
    SAY(minutes, "look_min", SL_ENTRY_PLANNED, three, 3)
#define GROUP                                                                                                \
    {.key = "pair_one", .in = "pair", .name = "one"}, {.key = "pair_two", .in = "pair", .name = "two"},

static sl_told tell_kinds(sl_row *row, const sl_table *table)
{
    const kinds *const of = table->of;
    if (table->place > 0) {
        return SL_NO_MORE;
    }
    KINDS(SL_SAY)
    if (of->said) {
        sl_row_number_about(row, "pair_one", "there", 1.0);
        sl_row_number(row, "pair_two", sl_if_known(of->whole, 2.0));
    } else if (of->whole) {
        sl_row_null(row, "pair_one");
    }
    return SL_TOLD;
}

static const sl_columns record = SL_COLUMNS(KINDS(SL_COLUMN) GROUP, .tell = tell_kinds, .flat = true);
static const sl_columns wide = SL_COLUMNS(KINDS(SL_COLUMN) GROUP, .tell = tell_kinds);
static const sl_columns lines = SL_COLUMNS(KINDS(SL_COLUMN) GROUP, .tell = tell_kinds, .lead = 1);
static const sl_export as_rows = {"kinds", 1, &record, &wide};
static const sl_export as_lines = {"kinds", 1, &record, &lines};

START_TEST(a_number_that_is_not_finite_is_written)
{
    static const double odd[] = {(double)NAN, (double)INFINITY, -(double)INFINITY};
    for (size_t i = 0; i < sizeof odd / sizeof odd[0]; i++) {
        const kinds of = {.number = odd[i]};
        ck_assert_str_eq(form_of(true, &as_rows, &of),
                         "{\n \"format\": \"slowlift-kinds/1\",\n \"name\": \"x\",\n \"number\": null,\n"
                         " \"yes\": false,\n \"money\": null,\n \"goal_min\": null,\n"
                         " \"look_min\": [3, 1, 2]\n}\n");
        ck_assert_str_eq(form_of(false, &as_lines, &of),
                         "name,quantity,value\nx,yes,0\nx,look_min,3\nx,look_min,1\nx,look_min,2\n");
        ck_assert_str_eq(form_of(false, &as_rows, &of),
                         "name,number,yes,money,goal_min,look_min,pair_one,pair_two\nx,,0,,,,,\n");
    }
}
END_TEST

START_TEST(numbers_have_other_digits_than_their_columns_say)
{
    const kinds of = {.number = 1234.5678901234};
    ck_assert_str_eq(form_of(false, &as_rows, &of),
                     "name,number,yes,money,goal_min,look_min,pair_one,pair_two\n"
                     "x,1234.56789,0,1234.57,1234.56789,,,\n");
}
END_TEST

/* Not said: no member. None: null. Said in part: null where the rest would stand. */
START_TEST(an_object_of_columns_is_told_where_it_is_not_or_not_where_it_is)
{
    const kinds left_out = {.number = 1.0}, none = {.number = 1.0, .whole = true},
                part = {.number = 1.0, .said = true}, both = {.number = 1.0, .said = true, .whole = true};
    ck_assert_ptr_null(strstr(form_of(true, &as_rows, &left_out), "pair"));
    ck_assert_ptr_nonnull(strstr(form_of(true, &as_rows, &none), " \"pair\": null\n"));
    ck_assert_ptr_nonnull(strstr(form_of(true, &as_rows, &part), " \"pair\": {\"one\": 1, \"two\": null}\n"));
    ck_assert_ptr_nonnull(strstr(form_of(true, &as_rows, &both), " \"pair\": {\"one\": 1, \"two\": 2}\n"));
}
END_TEST

START_TEST(a_quantity_stands_in_another_s_line_or_its_place_is_its_row_s)
{
    const kinds of = {.number = 2.5, .said = true};
    ck_assert_str_eq(
        form_of(false, &as_lines, &of),
        "name,quantity,value\nx,number,2.5\nx,yes,0\nx,money,2.50\nx,goal_min,2.5\nx,look_min,3\n"
        "x,look_min,1\nx,look_min,2\nthere,pair_one,1\n");
}
END_TEST

/* ---- what is nobody's ------------------------------------------------------------------------------------
 */

static sl_told tell_unknown(sl_row *row, const sl_table *table)
{
    (void)table;
    sl_row_number(row, "no such key", 1.0);
    return SL_TOLD;
}
static const sl_columns unknown = SL_COLUMNS(KINDS(SL_COLUMN), .tell = tell_unknown);

START_TEST(a_key_without_a_column_is_let_pass)
{
    const sl_export export = {"unknown", 1, &unknown, NULL};
    write_form(true, &export, NULL);
}
END_TEST

/* ---- failures --------------------------------------------------------------------------------------------
 */

enum { MANY = 100000 };

/* `which` of the table says at which place it fails. */
static sl_told tell_many(sl_row *row, const sl_table *table)
{
    const long fails_at = *(const long *)table->of;
    sl_row_number(row, "n", (double)table->place);
    return table->place == fails_at ? SL_NOT_TOLD : table->place == MANY ? SL_NO_MORE : SL_TOLD;
}
static const sl_columns many = SL_COLUMNS({.key = "n"}, .tell = tell_many, .flat = true);
#define ALL(SAY) SAY(rows, "all", many, table->of, 0, LONG_MAX)
static sl_told tell_all(sl_row *row, const sl_table *table)
{
    ALL(SL_SAY)
    return SL_TOLD;
}
static const sl_columns all = SL_COLUMNS(ALL(SL_COLUMN), .tell = tell_all);
static const sl_export many_export = {"many", 1, &all, &many};

START_TEST(a_row_that_cannot_be_told_is_passed_over)
{
    static const long fails_at[] = {0, 1, 1000};
    for (int i = 0; i < 3; i++) {
        for (int json = 0; json < 2; json++) {
            ck_assert(!write_form(json == 1, &many_export, &fails_at[i]));
        }
    }
}
END_TEST

START_TEST(a_stream_that_fails_is_not_noticed)
{
    const long never = -1;
    for (int json = 0; json < 2; json++) {
        FILE *const full = fopen("/dev/full", "w");
        ck_assert_ptr_nonnull(full);
        ck_assert(
            !(json ? sl_export_json(full, &many_export, &never) : sl_export_csv(full, &many_export, &never)));
        fclose(full);
    }
}
END_TEST

START_TEST(a_writer_holds_rows_or_asks_for_memory)
{
    const long never = -1;
    for (int json = 0; json < 2; json++) {
        FILE *const out = fopen("/dev/null", "w");
        ck_assert_ptr_nonnull(out);
        faults_arm(1, true);
        const bool good =
            json ? sl_export_json(out, &many_export, &never) : sl_export_csv(out, &many_export, &never);
        const faults_count count = faults_disarm();
        ck_assert(good && count.calls == 0);
        fclose(out);
    }
}
END_TEST

START_SUITE("tables")
ADD(a_text_does_not_come_back_from_csv_as_it_was_or_is_taken_for_a_formula)
ADD(a_text_is_escaped_otherwise_than_rfc_8259_says)
ADD(a_table_without_rows_is_no_head_or_no_empty_list)
ADD(a_number_that_is_not_finite_is_written)
ADD(numbers_have_other_digits_than_their_columns_say)
ADD(an_object_of_columns_is_told_where_it_is_not_or_not_where_it_is)
ADD(a_quantity_stands_in_another_s_line_or_its_place_is_its_row_s)
tcase_add_test_raise_signal(tests, a_key_without_a_column_is_let_pass, SIGABRT);
ADD(a_row_that_cannot_be_told_is_passed_over)
ADD(a_stream_that_fails_is_not_noticed)
ADD(a_writer_holds_rows_or_asks_for_memory)
END_SUITE
