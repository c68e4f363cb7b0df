/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Between the parts of the input: keys (input.c, keys_beside.c) and pointer (pointer.c).
 */
#ifndef SLOWLIFT_VIEW_INPUT_H
#define SLOWLIFT_VIEW_INPUT_H

#include "view/window/stage.h"

/* which: 0 the page, 1 the panel; stays within what there is to scroll. */
void sl_stage_scroll(sl_stage *stage, int which, int by);
void sl_stage_press_focus(sl_stage *stage);
void sl_stage_take_key_beside(sl_stage *stage, SDL_Keycode key); /* keys_beside.c */
void sl_stage_take_key_views(sl_stage *stage, SDL_Keycode key);  /* keys_views.c */
void sl_stage_take_pointer(sl_stage *stage, const SDL_Event *event);
void sl_stage_take_wheel(sl_stage *stage, const SDL_MouseWheelEvent *wheel);

#endif
