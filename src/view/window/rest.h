/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * For tests that drive the window: whether all that was typed has been done. With
 * SLOWLIFT_TRACE_FRAMES=2 the key Pause is a mark and nothing else; once the window has taken and drawn all
 * that came before the nth mark it says "taken n" on stderr, and "rest n" once its threads have found all
 * they were asked for too.
 */
#ifndef SLOWLIFT_VIEW_REST_H
#define SLOWLIFT_VIEW_REST_H

#include <stdbool.h>

void sl_rest_start(void);         /* after SDL_Init */
void sl_rest_tell(bool all_done); /* where a window has drawn what it knows; all_done: nothing more comes */

#endif
