/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What the files of this folder do for each other.
 */
#ifndef SLOWLIFT_DAY_DEEDS_H
#define SLOWLIFT_DAY_DEEDS_H

#include "day/day.h"

void sl_day_fold(sl_day *day); /* events have changed */
void sl_day_look(sl_day *day); /* time has passed */
/* In memory at once; on the disk by the effect. */
void sl_day_keep(sl_day *day, sl_event *event, const char *words, sl_day_effects *effects);
double sl_day_machine_s(const sl_day *day);              /* the machine's own time, also in a rehearsal */
void sl_day_calls(sl_day *day, sl_day_effects *effects); /* alarm.c */
void sl_day_tell_fault(sl_day *day, sl_day_effects *effects); /* alarm.c */
void sl_day_choose_next(sl_day *day);                         /* deeds.c */
void sl_day_choose(sl_day *day, int swatch, sl_day_effects *effects);
void sl_day_do_deed(sl_day *day, sl_day_act act, sl_day_effects *effects);
void sl_day_start(sl_day *day, sl_day_effects *effects);
void sl_day_ask_measure(sl_day *day, int swatch,
                        sl_day_effects *effects);                   /* measure.c: of a bowl just mixed */
void sl_day_put_measured(sl_day *day, sl_day_effects *effects);     /* measure.c: what was typed */
void sl_day_tick(sl_day *day, int number, sl_day_effects *effects); /* at the end of the day */
void sl_day_say_clean(sl_day *day, sl_day_effects *effects);
void sl_day_undo(sl_day *day, sl_day_effects *effects);
void sl_day_put_note(sl_day *day, sl_remark remark, const char *words, sl_day_effects *effects);
void sl_day_heard(sl_day *day, bool heard, sl_day_effects *effects);
void sl_day_test_sound(sl_day *day, sl_day_effects *effects);
void sl_day_stop(sl_day *day, int swatch, sl_day_effects *effects); /* stop.c; -1: all */
void sl_day_ask_stop(sl_day *day, sl_day_effects *effects);
void sl_day_give_reason(sl_day *day, int place, sl_day_effects *effects);
void sl_day_water_off(sl_day *day, sl_day_effects *effects);
void sl_day_tell_bowls(sl_day *day, sl_day_effects *effects);
void sl_day_was_told(sl_day *day, int place, sl_day_effects *effects);
bool sl_day_asks_again(sl_day *day, sl_day_act act); /* it was not asked for just before */

#endif
