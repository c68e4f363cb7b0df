/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What the cotton shows at the bowl; its panel.
 */
#ifndef SLOWLIFT_VIEW_BOWL_H
#define SLOWLIFT_VIEW_BOWL_H

#include "view/window/stage.h"

/* Whole minutes since the chosen strip's contact; below 0 before it. */
double sl_bowl_minute(const sl_stage *stage);
/* A msgid: why nothing can be entered now; NULL: something can. */
const char *sl_bowl_why_not(const sl_stage *stage);
/* Enter a grade (sl_wipe) for the chosen strip and zone at the minute shown. */
void sl_bowl_enter(sl_stage *stage, int wipe);
/* The grade entered for them; -1: none. */
int sl_bowl_entered(const sl_stage *stage);
/* Forget what was seen on the chosen strip. */
void sl_bowl_forget(sl_stage *stage);

SDL_Rect sl_bowl_control(const sl_stage *stage, sl_action_id action, int wipe);
SDL_Rect sl_bowl_room(const sl_stage *stage); /* of what it says, above the grades */
int sl_bowl_show(const sl_stage *stage);      /* as in panel.h */

#endif
