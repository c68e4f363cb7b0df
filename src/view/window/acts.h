/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What actions do (acts.c), for their rows (action.c): which of several, and by how much its row says.
 */
#ifndef SLOWLIFT_VIEW_ACTS_H
#define SLOWLIFT_VIEW_ACTS_H

#include "view/window/action.h"

void sl_act_zone(sl_stage *stage, int which, int by);
void sl_act_arm(sl_stage *stage, int which, int by);
void sl_act_strips(sl_stage *stage, int which, int by);
void sl_act_choose_arm(sl_stage *stage, int arm, int by);
void sl_act_choose_zone(sl_stage *stage, int zone, int by);
void sl_act_side(sl_stage *stage, int side, int by);
void sl_act_side_arm(sl_stage *stage, int side, int by);
void sl_act_side_zone(sl_stage *stage, int side, int by);
void sl_act_arm_of_side(sl_stage *stage, int arm, int by);
void sl_act_minute(sl_stage *stage, int minutes, int by);
void sl_act_to_end(sl_stage *stage, int which, int by);
void sl_act_look_next(sl_stage *stage, int which, int by);
void sl_act_mode(sl_stage *stage, int which, int by);
void sl_act_play(sl_stage *stage, int which, int by);
void sl_act_guess(sl_stage *stage, int which, int by); /* 0: no idea, else the number of a strip */
void sl_act_pace(sl_stage *stage, int which, int by);
void sl_act_knob(sl_stage *stage, int knob, int by);
void sl_act_reset(sl_stage *stage, int which, int by);
void sl_act_undo(sl_stage *stage, int which, int by);
void sl_act_bowl(sl_stage *stage, int which, int by);
/* Whether S shows more of what is open, in place of a panel of its own. */
bool sl_science_is_deeper(const sl_stage *stage);
void sl_act_science(sl_stage *stage, int which, int by);
void sl_act_close(sl_stage *stage, int which, int by);
void sl_act_shut(sl_stage *stage, int which, int by);
void sl_act_forget(sl_stage *stage, int which, int by);
void sl_act_turn(sl_stage *stage, int turn, int by);
void sl_act_form(sl_stage *stage, int row, int by);
void sl_act_form_reply(sl_stage *stage, int row, int by);     /* by: of sl_reply */
void sl_act_form_figure(sl_stage *stage, int figure, int by); /* 10: takes the last away */
void sl_act_new(sl_stage *stage, int which, int by);
void sl_act_new_field(sl_stage *stage, int row, int by);
void sl_act_new_word(sl_stage *stage, int which, int by); /* SL_ASK_WORDS of each row */
void sl_act_new_row(sl_stage *stage, int way, int by);
void sl_act_new_take(sl_stage *stage, int which, int by);
void sl_act_new_write(sl_stage *stage, int which, int by);
void sl_act_new_open(sl_stage *stage, int which, int by);
void sl_act_grade(sl_stage *stage, int wipe, int by);
void sl_act_form_row(sl_stage *stage, int way, int by);
void sl_act_scroll(sl_stage *stage, int way, int by);
void sl_act_unfold(sl_stage *stage, int which, int by);
void sl_act_scroll_panel(sl_stage *stage, int way, int by);
void sl_act_focus(sl_stage *stage, int which, int by);
void sl_act_press(sl_stage *stage, int which, int by);
void sl_act_text_size(sl_stage *stage, int which, int by);
void sl_act_text_scale(sl_stage *stage, int which, int by);
void sl_act_full_screen(sl_stage *stage, int which, int by);
void sl_act_leave(sl_stage *stage, int which, int by);

void sl_act_point_ruler(sl_stage *stage, const sl_stage_spot *spot, int x, int y);
void sl_act_point_knob(sl_stage *stage, const sl_stage_spot *spot, int x, int y);
void sl_act_point_typed(sl_stage *stage, const sl_stage_spot *spot, int x, int y);
void sl_act_point_strip(sl_stage *stage, const sl_stage_spot *spot, int x, int y);

void sl_act_open_page(sl_stage *stage, sl_stage_page page); /* or shut it */
void sl_act_open_panel(sl_stage *stage, sl_panel panel);
/* which: 0 the page, 1 the panel; stays within what there is to scroll. */
void sl_act_scroll_by(sl_stage *stage, int which, int by);

#endif
