/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What is said: blocks in the order in which they are read, in the reader's language, without any notion of
 * how they are set. A function that tells something builds one; the terminal, the window, pages of paper and
 * HTML each set it (renderers.h), and none asks which document it has.
 *
 *     sl_document_begin(&document, "rank", title, &error);
 *     sl_document_row(&document, _("note"), "%s", note);          a label, and what is said beside it
 *     sl_document_heading(&document, _("Controls"));
 *     sl_document_say(&document, _("%d swatches"), n);            whole sentences, one format each
 *     sl_document_table(&document, caption, 3, columns, 0.0);     then its entries, row after row
 *     sl_document_entry(&document, (sl_entry){.kind = SL_ENTRY_SHARE, .value = left});
 *     sl_document_end(&document, SL_ON_OUTCOME | SL_ON_STRAND);   the cautions that are owed
 *     ... a renderer ...
 *     sl_document_free(&document);
 *
 * Invariant: texts are copied, and made in one language; a change of language drops the document. No builder
 * adds a standing caution by hand: sl_document_end() adds what the occasion owes, and what was not ended
 * cannot be rendered. A call that runs out of memory is remembered in `failed`, and all later ones do
 * nothing, so that a document is written without a test on each line.
 */
#ifndef SLOWLIFT_DOCUMENT_DOCUMENT_H
#define SLOWLIFT_DOCUMENT_DOCUMENT_H

#include <stdbool.h>
#include <stddef.h>

#include "base/language.h"
#include "base/memory.h"
#include "document/entry.h"
#include "graph/graph.h"
#include "slowlift/caution.h"

/* How deep a reader goes. A renderer leaves out what is deeper than it was asked for. */
typedef enum sl_depth {
    SL_LEAD,   /* the answer itself: where there is room for nothing else */
    SL_MORE,   /* what goes with it; what people read who did not ask for less or more */
    SL_SCIENCE /* how it was found */
} sl_depth;

/* Of what is set in two forms, or left out where there is little room: whoever sets a document takes the wide
 * blocks or the narrow ones, never both. */
typedef enum sl_fit { SL_FIT_ANY, SL_FIT_WIDE, SL_FIT_NARROW } sl_fit;

typedef enum sl_block_kind {
    SL_BLOCK_HEADING,
    SL_BLOCK_PART, /* a heading below another: of one arm */
    SL_BLOCK_SAY,
    SL_BLOCK_ROW,  /* a label of a word or two, and a text beside it */
    SL_BLOCK_DOTS, /* a row with a share that is counted: 16 of 20 */
    SL_BLOCK_ITEM,
    SL_BLOCK_TICK, /* a box to tick and what it stands for */
    SL_BLOCK_TABLE,
    SL_BLOCK_CAUTION,
    SL_BLOCK_LINES,  /* a text, then empty lines to write on */
    SL_BLOCK_CARDS,  /* a grid to be cut out */
    SL_BLOCK_CHART,  /* charts as data, beside each other where there is room */
    SL_BLOCK_SKETCH, /* what paper alone can draw */
    SL_BLOCK_APART,  /* what follows is of the whole again, not of the part before it */
    SL_BLOCK_BREAK   /* what follows begins a page */
} sl_block_kind;

/* Of a column. Its head is put into the reader's language when the table is begun, unless it is made already.
 */
enum {
    SL_RIGHT = 1,   /* numbers stand to the right */
    SL_OWN = 2,     /* its head is made: a title of the user's, a word with a number */
    SL_NAME = 4,    /* says whose row it is, as the first column always does */
    SL_TALL = 8,    /* a long head may stand on two lines */
    SL_BARRED = 16, /* a line before it */
    SL_WITH = 32    /* never parted from the column before it */
};
typedef struct sl_text_column {
    const char *head;
    double width; /* relative to the other columns, on paper */
    unsigned is;  /* of these */
} sl_text_column;
enum { SL_MOST_COLUMNS = 64 };

typedef struct sl_card {
    const char *title, *text;
} sl_card;

typedef struct sl_sketch sl_sketch; /* known to who draws it (paper/pages/pages.h) */
enum { SL_CHARTS_ABREAST = 2 };

typedef struct sl_block {
    sl_block_kind kind;
    sl_depth depth;
    sl_fit fit;
    bool brief;            /* a caution's one sentence: the whole stands elsewhere */
    const char *label;     /* of a row, of dots */
    const char *text;      /* of a table, a grid of cards, a chart and a sketch: what it shows */
    int count, of;         /* lines, columns of a table or grid, full dots of so many, charts */
    sl_caution_id caution; /* SL_BLOCK_CAUTION */
    double height;         /* points: of a chart, a sketch or a card; least of a table's rows */
    const sl_text_column *columns;
    sl_entry *entry; /* [n_cells], row after row */
    sl_card *card;   /* [n_cells] */
    size_t n_cells, room;
    const sl_graph *chart[SL_CHARTS_ABREAST]; /* [count] in the document's arena */
    const sl_sketch *sketch;                  /* borrowed */
} sl_block;

typedef struct sl_document {
    const char *name;  /* of its files: "tags" */
    const char *title; /* NULL: none */
    const char *lies;  /* above the title: whose hair its numbers are about; NULL: nobody's */
    const char *note;  /* on every page: what the numbers are worth; NULL: it stands in a row */
    bool colours;      /* colours are printed: every page says that paper is not calibrated */
    bool large;        /* larger letters */
    sl_depth depth;    /* of the blocks that are added now; starts as SL_MORE */
    sl_fit fit;        /* of the blocks that are added now */
    bool brief;        /* cautions that have one short sentence are told in it */
    sl_depth deepest;  /* that anybody will read: deeper ones are not kept; starts as SL_SCIENCE */
    sl_block *blocks;  /* [n] */
    size_t n, room;
    bool owes[SL_CAUTION_COUNT];
    bool ended;
    bool failed;
    sl_error *error; /* borrowed; set when failed */
    sl_arena arena;
} sl_document;

/* Whether a block is set for who reads as deep as that, where there is room or not. */
bool sl_block_shown(const sl_block *block, sl_depth depth, bool narrow);

/* Builds a document of something and ends it; where memory runs out, the document says so. */
typedef void sl_document_sayer(sl_document *document, const void *of, sl_error *error);

void sl_document_begin(sl_document *document, const char *name, const char *title, sl_error *error);
void sl_document_free(sl_document *document);
void sl_document_lies(sl_document *document, const char *text);
void sl_document_note(sl_document *document, const char *text);

#define SL_FORMAT(at) __attribute__((format(printf, at, at + 1)))

void sl_document_heading(sl_document *document, const char *text);
SL_FORMAT(2) void sl_document_part(sl_document *document, const char *format, ...);
SL_FORMAT(2) void sl_document_say(sl_document *document, const char *format, ...);
/* How many there are, where there is any: `one` for 1, else `many`, each with one %d. */
#define SL_DOCUMENT_COUNT(document, n, one, many)                                                            \
    do {                                                                                                     \
        if ((n) > 0) {                                                                                       \
            sl_document_say((document), sl_plural(one, many, n), n);                                         \
        }                                                                                                    \
    } while (false)
void sl_document_take_sentence(void *document,
                               const char *sentence); /* the same, for who hands sentences over */
/* label: in the reader's language, without a colon; "": what goes on below the row before it. */
SL_FORMAT(3) void sl_document_row(sl_document *document, const char *label, const char *format, ...);
/* `full` dots of `of`, and what they count. */
SL_FORMAT(5)
void sl_document_dots(sl_document *document, const char *label, int full, int of, const char *format, ...);
SL_FORMAT(2) void sl_document_item(sl_document *document, const char *format, ...);
SL_FORMAT(2) void sl_document_tick(sl_document *document, const char *format, ...);
/* `count` empty lines below the text. */
SL_FORMAT(3) void sl_document_lines(sl_document *document, int count, const char *format, ...);
void sl_document_apart(sl_document *document);
void sl_document_break(sl_document *document);

/* A table, then its entries from left to right, row after row. least: height of a row in points, 0 = as its
 * text needs. */
void sl_document_table(sl_document *document, const char *caption, int n_columns,
                       const sl_text_column *columns, double least);
/* Cards, n_columns abreast, each so high; then each card. */
void sl_document_cards(sl_document *document, const char *caption, int n_columns, double height);
/* To the newest table: a value, or words. */
void sl_document_entry(sl_document *document, sl_entry entry);
SL_FORMAT(2) void sl_document_cell(sl_document *document, const char *format, ...);
/* A text in place of the rest of the row. */
void sl_document_rest(sl_document *document, const char *text);
/* To the newest grid of cards. */
SL_FORMAT(3) void sl_document_card(sl_document *document, const char *title, const char *format, ...);

/* A copy that lives as long as the document, for the head of a column; "" when out of memory. */
const char *sl_document_keep(sl_document *document, const char *text);

/* Charts that were made in this document's arena, and end with it; a NULL among them fails it: its maker ran
 * out of memory. words: what is seen, above them, and with their notes in their place where nothing is drawn;
 * "": what stands beside them says it all, and each has its title. height: of the field on paper, points. */
void sl_document_charts(sl_document *document, const char *words, double height, int n,
                        const sl_graph *const *chart);
/* The words say what is seen; the table that follows holds the numbers. */
void sl_document_sketch(sl_document *document, const char *words, double height, const sl_sketch *sketch);

/* Another document as a part of this one, below a heading: its headings become parts, its title goes, and its
 * cautions are owed by the whole. */
void sl_document_take(sl_document *document, const char *heading, sl_document_sayer *say, const void *of);

/* ---- cautions --------------------------------------------------------------------- */

/* That this document owes this caution too: by what a person answered. */
void sl_document_owes(sl_document *document, sl_caution_id id);
/* Adds the cautions that are owed; occasions: bits of sl_occasion, one at least. Then it can be rendered. */
void sl_document_end(sl_document *document, unsigned occasions);

#endif
