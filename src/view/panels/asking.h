/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The questions of a new test on one page: what stands in each row, and what came of it. The rows, their
 * words, readers and files are those of ask.h; here is what a window has besides. Invariant: nothing is
 * written before it is asked for, and then by sl_new_files_write() alone.
 */
#ifndef SLOWLIFT_VIEW_ASKING_H
#define SLOWLIFT_VIEW_ASKING_H

#include "ask/ask.h"
#include "view/draw/typed.h"

typedef struct sl_asked_row {
    SDL_Rect all, words, field, refusal; /* scrolled; refusal: no height where none is told */
    SDL_Rect word[SL_ASK_WORDS];         /* what can be tapped; empty: not offered now */
} sl_asked_row;

typedef struct sl_asked_places {
    SDL_Rect body, explained, write, open, close;
    sl_asked_row row[SL_TOPICS];
    int end; /* of the last row */
} sl_asked_places;

typedef struct sl_asked_page {
    const char *models; /* --models; NULL: the usual places */
    const char *folder; /* into which a name alone is written; NULL: where the program was started */
    bool first;         /* it comes after the first page */
    sl_typed typed[SL_TOPICS];
    bool left[SL_TOPICS];        /* so that its refusal is told */
    sl_error refused[SL_TOPICS]; /* SL_OK: read, or nothing stands there */
    bool is_read;                /* the two above and below are of what is typed now */
    sl_new_test asked;           /* what was refused counts as usual */
    int row;                     /* the keyboard was last in; -1: in none */
    sl_error trouble;            /* why nothing was made, or what was made cannot be shown */
    sl_made *made;               /* and written; NULL: not yet */
    bool open;                   /* it is to come into the window */
    sl_asked_places laid;
} sl_asked_page;

/* A name alone is written into that folder. Where a file of the usual name lies there already, the first of
 * name-2, name-3 ... that does not stands in the line. NULL: where the program was started. */
void sl_asking_into(sl_asked_page *asking, const char *folder);
void sl_asking_clear(sl_asked_page *asking); /* another test; frees what was made */

#endif
