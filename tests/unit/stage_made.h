/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A window that nobody sees.
 */
#ifndef SLOWLIFT_TESTS_STAGE_MADE_H
#define SLOWLIFT_TESTS_STAGE_MADE_H

#include "view/window/stage.h"

/* Of a copy of this scene, 1280 by 800; sl_stage_free() and SDL_Quit() end it. */
sl_stage *stage_made(const sl_scene *scene);
/* Of a shipped scene, by the name of its file. */
sl_stage *stage_of(const char *file);
/* A frame: solved and drawn, whatever was drawn before. */
void stage_drawn(sl_stage *stage);
void stage_pressed(sl_stage *stage, SDL_Keycode key); /* and drawn */

#endif
