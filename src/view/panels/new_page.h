/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The page of a new test: what its rows hold and do (asking.c), where they stand and how they look
 * (new_page.c).
 */
#ifndef SLOWLIFT_VIEW_NEW_PAGE_H
#define SLOWLIFT_VIEW_NEW_PAGE_H

#include "view/window/stage.h"

/* What stands in a row: what was typed, else what is usual. */
const char *sl_asking_answer(const sl_stage *stage, int row, char room[SL_ASK_TEXT]);
/* What is wrong with it, in words; false: nothing, or it was not left yet. */
bool sl_asking_refusal(const sl_stage *stage, int row, char *text, size_t size);
/* The row that has the keyboard, or whose word was tapped last; -1: none. */
int sl_asking_row_now(const sl_stage *stage);
/* Whether the event was of the line that has the keyboard. */
bool sl_asking_take(sl_stage *stage, const SDL_Event *event);
/* Letters come while a line has the keyboard, and at no other time. */
void sl_asking_listen(const sl_stage *stage);
void sl_asking_read(sl_stage *stage); /* all rows, where something was typed */

void sl_new_follow(sl_stage *stage); /* reads what was typed; brings the row with the keyboard into sight */
SDL_Rect sl_new_control(const sl_stage *stage, sl_action_id action, int which);
int sl_new_show(const sl_stage *stage); /* as in panel.h */
SDL_Rect sl_new_room(const sl_stage *stage);
uint64_t sl_new_reads(const sl_stage *stage, uint64_t number);

#endif
