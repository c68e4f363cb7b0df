/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Setting a document. Each renderer takes any document that was ended, says all of it that is not deeper than
 * it was asked for, and adds no words but those of its medium. Pages are set by paper/pages, panels of the
 * window by view/draw.
 */
#ifndef SLOWLIFT_DOCUMENT_RENDERERS_H
#define SLOWLIFT_DOCUMENT_RENDERERS_H

#include <stdio.h>

#include "document/document.h"

typedef struct sl_terminal {
    int width; /* columns */
    sl_depth depth;
    bool colour;      /* it shows any (24-bit ANSI) */
    bool ascii;       /* it shows no character of our own making beyond ASCII */
    const char *mark; /* before each line; NULL: none */
} sl_terminal;

/* False when the stream failed, or the document was out of memory (nothing is written then). */
bool sl_document_text(FILE *out, const sl_document *document, const sl_terminal *terminal);
/* The same, and the document is freed. terminal NULL: a hundred columns, all of it. With SLOWLIFT_SAY=outline
 * in the environment, its outline. */
bool sl_document_print(FILE *out, sl_document *document, const sl_terminal *terminal);

/* HTML 5 without scripts, for screen readers. lang: "en". */
bool sl_document_html(FILE *out, const sl_document *document, const char *lang);

/* A line for each block and entry, with its kind, depth and key: what a test reads. */
bool sl_document_outline(FILE *out, const sl_document *document);

/* A caution in one short sentence, where the whole stands elsewhere: one whose .brief is not NULL. */
const char *sl_caution_short(sl_caution_id id);
/* Its text in the reader's language alone, and returned what stands behind a translation which nobody of the
 * trade has read yet: that it is one, and the English; else "". For where somebody must act at once, and
 * reads the rest below. */
const char *sl_caution_own(sl_caution_id id, char *text, size_t size);

#endif
