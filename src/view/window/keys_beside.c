/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Keys while the two swatches are open.
 */
#include <math.h>

#include "view/window/input.h"

static void press(sl_stage *stage, sl_spot_kind kind)
{
    sl_stage_press(stage, (sl_stage_spot){.kind = kind});
}

static void press_side(sl_stage *stage, sl_spot_kind kind, int side)
{
    sl_stage_press(stage, (sl_stage_spot){.kind = kind, .number = side});
}

/* The two swatches: arrows choose side and zone, brackets and figures the strip, + and - the
 * minute, as far as the comparison has one. */
void sl_stage_take_key_beside(sl_stage *stage, SDL_Keycode key)
{
    const double now = stage->chosen.now_min;
    switch (key) {
    case SDLK_LEFT:
        press_side(stage, SL_SPOT_SIDE, 0);
        break;
    case SDLK_RIGHT:
        press_side(stage, SL_SPOT_SIDE, 1);
        break;
    case SDLK_UP:
        press_side(stage, SL_SPOT_ZONE_BACK, stage->chosen.side);
        break;
    case SDLK_DOWN:
        press_side(stage, SL_SPOT_ZONE_ON, stage->chosen.side);
        break;
    case SDLK_LEFTBRACKET:
    case SDLK_COMMA:
    case SDLK_PAGEUP:
        press_side(stage, SL_SPOT_ARM_BACK, stage->chosen.side);
        break;
    case SDLK_RIGHTBRACKET:
    case SDLK_PERIOD:
    case SDLK_PAGEDOWN:
        press_side(stage, SL_SPOT_ARM_ON, stage->chosen.side);
        break;
    case SDLK_PLUS:
    case SDLK_EQUALS:
    case SDLK_KP_PLUS:
        sl_stage_go(stage, floor(now + 1e-9) + 1.0);
        break;
    case SDLK_MINUS:
    case SDLK_KP_MINUS:
        sl_stage_go(stage, ceil(now - 1e-9) - 1.0);
        break;
    case SDLK_HOME:
        sl_stage_go(stage, 0.0);
        break;
    case SDLK_END:
        sl_stage_go(stage, sl_stage_scene(stage)->until_min);
        break;
    case SDLK_s:
        press(stage, SL_SPOT_SCIENCE);
        break;
    case SDLK_c:
        press(stage, SL_SPOT_MODE);
        break;
    case SDLK_SPACE:
        press(stage, SL_SPOT_PLAY);
        break;
    case SDLK_RETURN:
    case SDLK_KP_ENTER:
        sl_stage_press_focus(stage);
        break;
    case SDLK_ESCAPE:
        press(stage, SL_SPOT_CLOSE);
        break;
    default:
        if (key >= SDLK_1 && key <= SDLK_9 && key - SDLK_1 < sl_stage_scene(stage)->n_arms) {
            stage->chosen.beside[stage->chosen.side].arm = key - SDLK_1;
            stage->dirty = true;
        }
        break;
    }
}
