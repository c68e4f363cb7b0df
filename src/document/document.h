/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What a sheet of the class pack says, without any notion of how it is set: blocks in the order in
 * which they are read. One document becomes pages (pages.c) and a plain page for screen
 * readers (html.c).
 *
 * Invariant: both say the same words; whatever a figure shows, a table of the document says too.
 * Texts are copied. A call that runs out of memory is remembered in `failed`, and all later ones
 * do nothing, so that a sheet is written without a test on each line.
 */
#ifndef SLOWLIFT_DOCUMENT_DOCUMENT_H
#define SLOWLIFT_DOCUMENT_DOCUMENT_H

#include <stdbool.h>
#include <stddef.h>
#include <stdio.h>

#include "base/memory.h"
#include "slowlift/caution.h"

typedef enum sl_block_kind {
    SL_BLOCK_HEADING,
    SL_BLOCK_SAY,
    SL_BLOCK_BULLET,
    SL_BLOCK_TICK, /* a box to tick and what it stands for */
    SL_BLOCK_TABLE,
    SL_BLOCK_CAUTION,
    SL_BLOCK_LINES, /* a text, then empty lines to write on */
    SL_BLOCK_CARDS, /* a grid to be cut out */
    SL_BLOCK_FIGURE,
    SL_BLOCK_BREAK /* what follows begins a page */
} sl_block_kind;

typedef struct sl_text_column {
    const char *head;
    double width; /* relative to the other columns */
    bool right;   /* numbers stand to the right */
} sl_text_column;
enum { SL_MOST_COLUMNS = 12 };

typedef struct sl_card {
    const char *title, *text;
} sl_card;

typedef struct sl_sketch sl_sketch; /* known to who draws it (pages.h) */

typedef struct sl_block {
    sl_block_kind kind;
    const char *text;      /* of a table, a grid of cards and a figure: what it shows */
    int count;             /* lines, or columns of a table or grid */
    sl_caution_id caution; /* SL_BLOCK_CAUTION */
    double height;         /* points: of a figure or a card; least of a table's rows */
    const sl_text_column *columns;
    const char **cell; /* [n_cells], row after row */
    sl_card *card;     /* [n_cells] */
    size_t n_cells, room;
    const sl_sketch *figure; /* borrowed */
} sl_block;

typedef struct sl_document {
    const char *name;  /* of its files: "tags" */
    const char *title; /* of its pages */
    const char *note;  /* on every page: what the numbers are worth */
    bool colours;      /* colours are printed: every page says that paper is not calibrated */
    bool student;      /* larger letters */
    sl_block *blocks;  /* [n] */
    size_t n, room;
    bool failed;
    sl_error *error; /* borrowed; set when failed */
    sl_arena arena;
} sl_document;

void sl_document_begin(sl_document *document, const char *name, const char *title, const char *note,
                       sl_error *error);
void sl_document_free(sl_document *document);

#define SL_FORMAT(at) __attribute__((format(printf, at, at + 1)))

void sl_document_heading(sl_document *document, const char *text);
SL_FORMAT(2) void sl_document_say(sl_document *document, const char *format, ...);
SL_FORMAT(2) void sl_document_bullet(sl_document *document, const char *format, ...);
SL_FORMAT(2) void sl_document_tick(sl_document *document, const char *format, ...);
void sl_document_caution(sl_document *document, sl_caution_id id);
/* `count` empty lines below the text. */
SL_FORMAT(3) void sl_document_lines(sl_document *document, int count, const char *format, ...);
void sl_document_break(sl_document *document);

/* A table, then its cells from left to right, row after row. least: height of a row in points,
 * 0 = as its text needs. The heads are borrowed for good. */
void sl_document_table(sl_document *document, const char *caption, int n_columns,
                       const sl_text_column *columns, double least);
/* Cards, n_columns abreast, each so high; then each card. */
void sl_document_cards(sl_document *document, const char *caption, int n_columns, double height);
/* To the newest table. */
SL_FORMAT(2) void sl_document_cell(sl_document *document, const char *format, ...);
/* To the newest grid of cards. */
SL_FORMAT(3) void sl_document_card(sl_document *document, const char *title, const char *format, ...);

/* A copy that lives as long as the document, for the head of a column; "" when out of memory. */
const char *sl_document_keep(sl_document *document, const char *text);

/* The words say what is seen; the table that follows holds the numbers. */
void sl_document_figure(sl_document *document, const char *words, double height, const sl_sketch *figure);

/* ---- for screen readers (html.c) --------------------------------------------------- */

/* HTML 5 without scripts. lang: "en". */
bool sl_document_html(FILE *out, const sl_document *document, const char *lang);

/* A caution that is always on, in one short sentence, for every page but a sheet's first. */
const char *sl_caution_short(sl_caution_id id);

#endif
