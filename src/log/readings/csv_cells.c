/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See csv_cells.h.
 */
#include "log/readings/csv_cells.h"

#include <locale.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>

#include "base/language.h"

#include "document/table.h"
#include "log/store/writer.h"
#include "scene/yaml/phrase.h"

const char *sl_cell_name(int kind)
{
    return kind == SL_CELL_TEST ? "test" : kind == SL_CELL_ARM ? "arm" : sl_reading_columns[kind].name;
}

const char *sl_cell_unguarded(const char *text)
{
    return text[0] == '\'' && sl_csv_guards(text) ? text + 1 : text;
}

/* ---- the header ---------------------------------------------------------------------------------------- */

static bool refuse_at(const sl_csv_row *row, const sl_csv_cell *cell, sl_code code, const char *wanted,
                      sl_error *error)
{
    sl_phrase found = {0};
    sl_phrase_quote(&found, cell->text);
    return sl_fail_at(error, code, row->file, cell->line, cell->column, found.text, wanted);
}

int sl_cell_kind(const char *name)
{
    int kind = 0;
    while (kind < SL_CELL_KINDS && strcmp(sl_cell_name(kind), name) != 0) {
        kind++;
    }
    return kind;
}

static bool refuse_column(const sl_csv_row *row, const sl_csv_cell *cell, sl_error *error)
{
    const char *names[SL_CELL_KINDS];
    sl_phrase wanted = {0};
    for (int i = 0; i < SL_CELL_KINDS; i++) {
        names[i] = sl_cell_name(i);
    }
    const sl_words words = {names, SL_CELL_KINDS};
    sl_phrase_nearest(&wanted, &words, cell->text);
    const bool near = strstr(wanted.text, "nearest") != NULL;
    return refuse_at(row, cell, SL_ERR_UNKNOWN_KEY,
                     near ? wanted.text
                          : "the first line names columns, such as swatch,zone,judge,grade (docs/log.md)",
                     error);
}

bool sl_csv_header_read(sl_csv_header *header, const sl_csv_row *row, sl_error *error)
{
    static const int needed[] = {SL_READING_SWATCH, SL_READING_ZONE, SL_READING_JUDGE};
    header->n = row->n;
    for (int i = 0; i < SL_CELL_KINDS; i++) {
        header->place[i] = -1;
    }
    for (int i = 0; i < row->n; i++) {
        const int kind = sl_cell_kind(row->cell[i].text);
        if (kind == SL_CELL_KINDS) {
            return refuse_column(row, &row->cell[i], error);
        }
        if (header->place[kind] >= 0) {
            return refuse_at(row, &row->cell[i], SL_ERR_DUPLICATE_KEY, "name each column once", error);
        }
        header->kind[i] = kind;
        header->place[kind] = i;
    }
    for (size_t i = 0; i < sizeof needed / sizeof needed[0]; i++) {
        if (header->place[needed[i]] < 0) {
            return sl_fail_at(error, SL_ERR_MISSING_KEY, row->file, row->cell[0].line, 1,
                              sl_cell_name(needed[i]),
                              "the first line names the columns: swatch, zone and judge at least");
        }
    }
    return true;
}

bool sl_csv_refuse(const sl_csv_header *header, const sl_csv_row *row, int kind, sl_code code,
                   const char *wanted, sl_error *error)
{
    const int place = header->place[kind];
    return refuse_at(row, &row->cell[place >= 0 ? place : 0], code, wanted, error);
}

/* ---- cells --------------------------------------------------------------------------------------------- */

typedef struct sl_spot {
    const sl_csv_row *row;
    const sl_csv_cell *cell;
    const sl_kept_column *column;
    sl_error *error;
} sl_spot;

static bool wrong(const sl_spot *spot, sl_code code, const char *wanted)
{
    char more[SL_ERROR_TEXT_SIZE];
    snprintf(more, sizeof more, _("%s (column %s)"), _(wanted), spot->column->name);
    return refuse_at(spot->row, spot->cell, code, more, spot->error);
}

/* Digits, perhaps a point and digits, perhaps an exponent; the first byte after them. */
static const char *after_number(const char *at)
{
    static const char figures[] = "0123456789";
    const size_t whole = strspn(at, figures);
    at += whole;
    const size_t part = *at == '.' ? strspn(at + 1, figures) : 0;
    at += *at == '.' ? 1 + part : 0;
    if (whole + part == 0 || (*at != 'e' && *at != 'E')) {
        return whole + part == 0 ? NULL : at;
    }
    at += at[1] == '-' || at[1] == '+' ? 2 : 1;
    return strspn(at, figures) > 0 ? at + strspn(at, figures) : NULL;
}

/* A decimal number to its end, with a sign; where cells are parted by ; a comma is a point. The
 * double nearest to what is written, 17 digits too, whatever the locale's point is. */
static bool decimal(const sl_spot *spot, double *value)
{
    char text[48], local[64];
    if (strlen(spot->cell->text) >= sizeof text) {
        return false;
    }
    snprintf(text, sizeof text, "%s", spot->cell->text);
    char *const comma = spot->row->parted_by == ';' ? strchr(text, ',') : NULL;
    if (comma) {
        *comma = '.';
    }
    const char *const end = after_number(text + (*text == '-' || *text == '+' ? 1 : 0));
    if (!end || *end != '\0') {
        return false;
    }
    const size_t before = strcspn(text, ".");
    snprintf(local, sizeof local, "%.*s%s%s", (int)before, text,
             text[before] == '.' ? localeconv()->decimal_point : "",
             text[before] == '.' ? text + before + 1 : "");
    *value = strtod(local, NULL);
    return true;
}

static bool number_in_range(const sl_spot *spot, double *value)
{
    sl_phrase wanted = {0};
    if (!decimal(spot, value)) {
        return wrong(spot, SL_ERR_BAD_NUMBER,
                     "write digits with a point, without a unit, or leave the cell empty");
    }
    if (*value >= spot->column->least && *value <= spot->column->most) {
        return true;
    }
    sl_phrase_number(&wanted, spot->column->least);
    sl_phrase_add(&wanted, " to ");
    sl_phrase_number(&wanted, spot->column->most);
    return wrong(spot, SL_ERR_OUT_OF_RANGE, wanted.text);
}

static bool read_number(const sl_spot *spot, char *member)
{
    double value = 0.0;
    const bool good = number_in_range(spot, &value);
    memcpy(member, &value, sizeof value);
    return good;
}

static bool read_count(const sl_spot *spot, char *member)
{
    double value = 0.0;
    if (!number_in_range(spot, &value)) {
        return false;
    }
    const int whole = (int)lround(value);
    memcpy(member, &whole, sizeof whole);
    if (fabs(value - whole) >= 1e-9) {
        return wrong(spot, SL_ERR_BAD_NUMBER, "write a whole number");
    }
    return true;
}

/* The word as it is kept or as the language in use has it, in any letters, or the number of a grade. */
static int word_typed(sl_said list, const char *text)
{
    if (list == SL_SAID_GRADE && text[0] >= '0' && text[0] < '0' + SL_WIPES && text[1] == '\0') {
        return text[0] - '0';
    }
    for (int i = 0; sl_said_word(list, i); i++) {
        if (strcasecmp(text, sl_said_word(list, i)) == 0 || strcasecmp(text, _(sl_said_word(list, i))) == 0) {
            return i;
        }
    }
    return SL_NOT_SAID;
}

static bool read_word(const sl_spot *spot, char *member)
{
    const int word = word_typed(spot->column->said, spot->cell->text);
    memcpy(member, &word, sizeof word);
    if (word != SL_NOT_SAID) {
        return true;
    }
    const char *known[16];
    int n = 0;
    for (; sl_said_word(spot->column->said, n); n++) {
        known[n] = _(sl_said_word(spot->column->said, n));
    }
    const sl_words words = {known, n};
    sl_phrase wanted = {0};
    sl_phrase_nearest(&wanted, &words, spot->cell->text);
    char grades[SL_ERROR_TEXT_SIZE + 40];
    snprintf(grades, sizeof grades, _("%s, or a number from 0 to 5"), wanted.text);
    return wrong(spot, SL_ERR_UNKNOWN_WORD, spot->column->said == SL_SAID_GRADE ? grades : wanted.text);
}

static bool read_yes_no(const sl_spot *spot, char *member)
{
    const int yes = strcmp(spot->cell->text, "yes") == 0 ? 1 : 0;
    memcpy(member, &yes, sizeof yes);
    if (yes == 1 || strcmp(spot->cell->text, "no") == 0) {
        return true;
    }
    return wrong(spot, SL_ERR_UNKNOWN_WORD, "write yes or no, or leave the cell empty");
}

static bool read_text(const sl_spot *spot, char *member)
{
    const char *const text = sl_cell_unguarded(spot->cell->text);
    char wanted[64];
    if (strlen(text) < spot->column->size) {
        memcpy(member, text, strlen(text) + 1);
        return true;
    }
    snprintf(wanted, sizeof wanted, _("at most %zu bytes"), spot->column->size - 1);
    return wrong(spot, SL_ERR_OUT_OF_RANGE, wanted);
}

/* `n` hexadecimal digits, with - where `dashes` (8-4-4-4-12); kept in small letters. */
static bool read_digits(const sl_spot *spot, char *member, size_t n, bool dashes, const char *wanted)
{
    const char *const text = spot->cell->text;
    bool good = strlen(text) == n;
    for (size_t i = 0; good && i < n; i++) {
        const bool dash = dashes && (i == 8 || i == 13 || i == 18 || i == 23);
        good = dash ? text[i] == '-' : strchr("0123456789abcdefABCDEF", text[i]) != NULL;
        member[i] = (char)(text[i] >= 'A' && text[i] <= 'F' ? text[i] - 'A' + 'a' : text[i]);
    }
    member[good ? n : 0] = '\0';
    if (!good) {
        return wrong(spot, SL_ERR_WRONG_TYPE, wanted);
    }
    return true;
}

static bool read_code(const sl_spot *spot, char *member)
{
    sl_error why = {.code = SL_OK};
    if (!sl_log_code_check("this", spot->cell->text, &why)) {
        return wrong(spot, SL_ERR_WRONG_TYPE, why.wanted);
    }
    return read_text(spot, member);
}

static bool read_time(const sl_spot *spot, char *member)
{
    sl_error why = {.code = SL_OK};
    int64_t at = 0;
    if (!sl_time_read(spot->cell->text, &at, &why)) {
        return wrong(spot, SL_ERR_WRONG_TYPE, why.wanted);
    }
    return read_text(spot, member);
}

static bool read_cell(const sl_spot *spot, sl_log_reading *reading)
{
    char *const member = (char *)reading + spot->column->offset;
    switch (spot->column->kind) {
    case SL_COLUMN_NUMBER:
        return read_number(spot, member);
    case SL_COLUMN_COUNT:
        return read_count(spot, member);
    case SL_COLUMN_WORD:
        return read_word(spot, member);
    case SL_COLUMN_YES_NO:
        return read_yes_no(spot, member);
    case SL_COLUMN_UUID:
        return read_digits(spot, member, 36, true, "an id has 36 characters, or leave the cell empty");
    case SL_COLUMN_HASH:
        return read_digits(spot, member, 64, false, "a SHA-256 has 64 hexadecimal digits");
    case SL_COLUMN_CODE:
        return read_code(spot, member);
    case SL_COLUMN_TIME:
        return read_time(spot, member);
    case SL_COLUMN_TEXT:
    case SL_COLUMN_WHOLE:
    default:
        return read_text(spot, member);
    }
}

static bool refuse_row(const sl_csv_header *header, const sl_csv_row *row, sl_error *error)
{
    char found[96], wanted[160];
    snprintf(found, sizeof found, _("a row of %d cells"), row->n);
    snprintf(wanted, sizeof wanted, _("the first line names %d; quote a cell that holds a %c"), header->n,
             row->parted_by);
    const sl_csv_cell *const last = &row->cell[row->n - 1];
    return sl_fail_at(error, SL_ERR_INCONSISTENT, row->file, last->line, last->column, found, wanted);
}

bool sl_csv_is_blank(const sl_csv_said *said)
{
    const sl_log_reading *const reading = &said->reading;
    return (reading->judge[0] == '\0' || reading->id[0] != '\0') && reading->replaces[0] == '\0' &&
           !sl_reading_says(reading);
}

bool sl_csv_cells_read(const sl_csv_header *header, const sl_csv_row *row, sl_csv_said *said, sl_error *error)
{
    *said = (sl_csv_said){.test = "", .swatch = "", .arm = "", .reading = sl_log_reading_begin()};
    if (row->n != header->n) {
        return refuse_row(header, row, error);
    }
    for (int i = 0; i < row->n; i++) {
        const int kind = header->kind[i];
        const char *const text = sl_cell_unguarded(row->cell[i].text);
        if (kind == SL_CELL_TEST) {
            said->test = text;
        } else if (kind == SL_CELL_ARM) {
            said->arm = text;
        } else if (kind == SL_READING_SWATCH) {
            said->swatch = text;
        } else if (text[0] != '\0') {
            const sl_spot spot = {row, &row->cell[i], &sl_reading_columns[kind], error};
            if (!read_cell(&spot, &said->reading)) {
                return false;
            }
        }
    }
    sl_error why = {.code = SL_OK};
    if (!sl_csv_is_blank(said) && !sl_reading_check(&said->reading, &why)) {
        const sl_csv_cell *const first = &row->cell[0];
        return sl_fail_at(error, why.code, row->file, first->line, first->column, why.found, why.wanted);
    }
    return true;
}
