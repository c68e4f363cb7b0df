/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Pages over the whole window and panels at its right, a row for each: its word, its controls in the order in
 * which they are read (and Tab visits them), where they stand, and how it is drawn.
 */
#ifndef SLOWLIFT_VIEW_VIEWS_H
#define SLOWLIFT_VIEW_VIEWS_H

#include <stdio.h>

#include "view/window/action.h"

enum { SL_MOST_GROUPS = 10, SL_MOST_GROUPED = 5 };

typedef struct sl_view_row {
    const char *word;  /* in --say */
    const char *title; /* msgid of a page of text; NULL: it has its own */
    /* Groups, ended by SL_DO_NONE: of a group that is there several times each time all of it. */
    sl_action_id control[SL_MOST_GROUPS][SL_MOST_GROUPED];
    /* Empty: not in sight now. */
    SDL_Rect (*place)(const sl_stage *stage, sl_action_id action, int which);
    void (*follow)(sl_stage *stage); /* scrolls to what must be in sight; NULL: nothing must */
    /* Draws it; returns by how many pixels it is longer than its place. */
    int (*show)(const sl_stage *stage);
    /* Of what is a document (said.h): builds it; what else it is built from; where it stands; its answers
     * alone. */
    void (*say)(sl_document *document, const sl_stage *stage, sl_error *error);
    uint64_t (*reads)(const sl_stage *stage, uint64_t number);
    SDL_Rect (*room)(const sl_stage *stage);
    bool brief;
    void (*tell)(FILE *out,
                 const sl_stage *stage); /* where its parts stand, for tests; NULL: as the strips */
} sl_view_row;

extern const sl_view_row sl_page_rows[SL_STAGE_PAGES];
extern const sl_view_row sl_panel_rows[SL_PANELS];

/* Buttons of the first row that are shown now, in order; returns how many. */
int sl_view_bar(const sl_stage *stage, sl_action_id bar[SL_MOST_BUTTONS]);
/* Every place that can be pressed now, in the order of Tab, into stage->laid. */
void sl_view_place(sl_stage *stage);

#endif
