/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The end of a command that found something: told as a document, or in the form for machines that was asked
 * for, to the terminal or whole into the file that -o names.
 */
#ifndef SLOWLIFT_FRONT_TELL_H
#define SLOWLIFT_FRONT_TELL_H

#include "document/renderers.h"
#include "document/table.h"
#include "front/complain.h"
#include "front/option.h"

typedef struct sl_teller {
    sl_document_sayer *say;
    const sl_export *export;
    bool (*csv)(FILE *out, const void *of);  /* where it is no table of the export; NULL: it is */
    bool (*json)(FILE *out, const void *of); /* likewise */
    bool colour;                             /* the terminal shows colours */
} sl_teller;

/* Draws a document, which is ended, into a file by the end of its name. NULL but in the program that can,
 * which sets it before a command is run. */
typedef bool sl_document_drawer(const char *path, const sl_document *document, sl_error *error);
extern sl_document_drawer *sl_tell_drawer;

/* Tells or draws `of` where all went well until now; else, and where that fails, what went wrong. */
sl_exit sl_tell(bool good, const sl_error *error, const sl_teller *teller, const void *of,
                const sl_result_wish *wish);

#endif
