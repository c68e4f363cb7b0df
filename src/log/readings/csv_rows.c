/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See csv_rows.h. libcsv parses in its strict mode; it is fed piece by piece, each ending where a
 * cell or a row may end, so that the place of what it hands back is known here.
 */
#include "log/readings/csv_rows.h"

#include <assert.h>
#include <csv.h>
#include <string.h>

#include "base/memory.h"
#include "base/plain_text.h"
#include "scene/yaml/phrase.h"

enum { BLOCK = 65536 };

typedef struct sl_csv {
    sl_csv_take *take;
    void *self;
    sl_error *error;
    struct csv_parser parser;
    bool bad, cell_ended;
    int line, column;           /* of the next byte */
    int cell_line, cell_column; /* of the cell that is being read */
    size_t cell_bytes;          /* of it, until now */
    unsigned char before;       /* the byte before */
    sl_csv_row row;
    size_t used; /* bytes of text */
    char text[SL_CSV_ROW_BYTES];
    unsigned char block[BLOCK];
} sl_csv;

/* RFC 4180, 2.4: spaces are part of a cell. */
static int no_space(unsigned char byte)
{
    (void)byte;
    return 0;
}

static void *grown(void *memory, size_t size)
{
    size_t capacity = 0;
    return sl_grow(&memory, &capacity, size, 1, "reading CSV", NULL) ? memory : NULL;
}

static void refuse_cell(sl_csv *csv, sl_code code, const char *found, const char *wanted)
{
    csv->bad = true;
    sl_fail_at(csv->error, code, csv->row.file, csv->cell_line, csv->cell_column, found, wanted);
}

/* Text that a person can see, with line ends and tabs. */
static void check_text(sl_csv *csv, const char *text, size_t length)
{
    sl_error fault = {.code = SL_OK};
    if (!sl_text_accept(text, length, SL_TEXT_FILE, &fault)) {
        refuse_cell(csv, fault.code, fault.found, fault.wanted);
    }
}

static void end_cell(void *cell, size_t length, void *self)
{
    sl_csv *const csv = self;
    csv->cell_ended = true;
    assert(!csv->bad); /* a piece ends with the cell in it, and after a bad one nothing is fed */
    if (csv->row.n == SL_CSV_CELLS || csv->used + length + 1 > sizeof csv->text) {
        refuse_cell(csv, SL_ERR_TOO_LARGE, "a row of so many cells", "64 cells and 16 KiB");
        return;
    }
    char *const text = csv->text + csv->used;
    memcpy(text, cell, length);
    text[length] = '\0';
    check_text(csv, text, length);
    csv->used += length + 1;
    csv->row.cell[csv->row.n++] = (sl_csv_cell){text, csv->cell_line, csv->cell_column};
}

static void end_row(int byte, void *self)
{
    sl_csv *const csv = self;
    (void)byte;
    csv->bad = csv->bad || !csv->take(csv->self, &csv->row, csv->error);
    csv->row.n = 0;
    csv->used = 0;
}

static void move_on(sl_csv *csv, unsigned char byte)
{
    if (byte == '\r' || (byte == '\n' && csv->before != '\r')) {
        csv->line++;
        csv->column = 1;
    } else if (byte != '\n' && (byte & 0xC0U) != 0x80U) {
        csv->column++;
    }
    csv->before = byte;
}

static void begin_cell(sl_csv *csv)
{
    csv->cell_line = csv->line;
    csv->cell_column = csv->column;
    csv->cell_bytes = 0;
}

static bool refuse_syntax(sl_csv *csv)
{
    if (csv_error(&csv->parser) != CSV_EPARSE) {
        return sl_fail(csv->error, SL_ERR_NO_MEMORY, "reading CSV", "");
    }
    return sl_fail_at(csv->error, SL_ERR_SYNTAX, csv->row.file, csv->line, csv->column,
                      "a quotation mark that neither opens nor closes a cell",
                      "put the whole cell in quotation marks and double each one inside it");
}

/* A piece that ends where a cell may end, or where the block does. */
static bool feed(sl_csv *csv, const unsigned char *piece, size_t length)
{
    const unsigned char last = piece[length - 1];
    const bool blank = csv->cell_bytes == 0 && length == 1 && (last == '\n' || last == '\r');
    csv->cell_ended = false;
    const size_t taken = csv_parse(&csv->parser, piece, length, end_cell, end_row, csv);
    if (csv->bad) {
        return false;
    }
    for (size_t i = 0; i < taken; i++) {
        move_on(csv, piece[i]);
    }
    if (taken < length) {
        return refuse_syntax(csv);
    }
    csv->cell_bytes += length;
    if (csv->cell_ended || blank) {
        begin_cell(csv);
    }
    if (csv->cell_bytes > SL_CSV_CELL_BYTES) {
        refuse_cell(csv, SL_ERR_TOO_LARGE, "a cell of so many bytes (a quotation mark that is not closed?)",
                    "4096");
    }
    return !csv->bad;
}

static bool feed_block(sl_csv *csv, const unsigned char *bytes, size_t n)
{
    const unsigned char mark = (unsigned char)csv->row.parted_by;
    size_t begins = 0;
    for (size_t i = 0; i < n; i++) {
        if (bytes[i] == mark || bytes[i] == '\n' || bytes[i] == '\r') {
            if (!feed(csv, bytes + begins, i + 1 - begins)) {
                return false;
            }
            begins = i + 1;
        }
    }
    return begins == n || feed(csv, bytes + begins, n - begins);
}

/* What parts the cells: the mark that the first line has more of. */
static char mark_of(const unsigned char *bytes, size_t n)
{
    size_t commas = 0, semicolons = 0;
    for (size_t i = 0; i < n && bytes[i] != '\n' && bytes[i] != '\r'; i++) {
        commas += bytes[i] == ',' ? 1 : 0;
        semicolons += bytes[i] == ';' ? 1 : 0;
    }
    return semicolons > commas ? ';' : ',';
}

/* Bytes to pass over at the head. */
static bool head(sl_csv *csv, size_t n, size_t *mark, sl_error *error)
{
    const unsigned char *const bytes = csv->block;
    *mark = n >= 3 && memcmp(bytes, "\xEF\xBB\xBF", 3) == 0 ? 3 : 0;
    if (n >= 2 && (memcmp(bytes, "\xFF\xFE", 2) == 0 || memcmp(bytes, "\xFE\xFF", 2) == 0)) {
        return sl_fail_at(error, SL_ERR_NOT_UTF8, csv->row.file, 1, 1, "this file (it is UTF-16)",
                          "save the file as UTF-8");
    }
    csv->row.parted_by = mark_of(bytes, n);
    csv_set_delim(&csv->parser, (unsigned char)csv->row.parted_by);
    return true;
}

static bool read_all(sl_csv *csv, FILE *in, SHA2_CTX *sum, sl_error *error)
{
    size_t n = 0, mark = 0;
    bool first = true;
    while ((n = fread(csv->block, 1, sizeof csv->block, in)) > 0) {
        if (sum) {
            SHA256Update(sum, csv->block, n);
        }
        mark = 0;
        if ((first && !head(csv, n, &mark, error)) ||
            (n > mark && !feed_block(csv, csv->block + mark, n - mark))) {
            return false;
        }
        first = false;
    }
    if (ferror(in) != 0) {
        return sl_fail_at(error, SL_ERR_CANNOT_READ, csv->row.file, 0, 0, "it could not be read to its end",
                          "");
    }
    if (csv_fini(&csv->parser, end_cell, end_row, csv) != 0) {
        refuse_cell(csv, SL_ERR_SYNTAX, "the quotation mark that opens this cell is not closed",
                    "close it; double each one inside the cell");
    }
    return !csv->bad;
}

bool sl_csv_read(FILE *in, const char *file, SHA2_CTX *sum, sl_csv_take *take, void *self, sl_error *error)
{
    sl_csv *const csv = sl_new(1, sizeof *csv, "reading CSV", error);
    if (!csv) {
        return false;
    }
    csv->take = take;
    csv->self = self;
    csv->error = error;
    csv->line = csv->column = csv->cell_line = csv->cell_column = 1;
    csv->row.file = file;
    csv_init(&csv->parser, CSV_STRICT | CSV_STRICT_FINI);
    csv_set_realloc_func(&csv->parser, grown);
    csv_set_free_func(&csv->parser, sl_free);
    csv_set_space_func(&csv->parser, no_space);
    const bool good = read_all(csv, in, sum, error);
    csv_free(&csv->parser);
    sl_free(csv);
    return good;
}
