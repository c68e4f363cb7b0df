/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Keys while ranks, the map or what was seen are open.
 */
#include "view/panels/turn.h"
#include "view/window/input.h"

static void turn_across(sl_stage *stage, int by)
{
    if (stage->open.page != SL_PAGE_SEEN) {
        sl_stage_turn(stage, stage->open.page == SL_PAGE_RANK ? SL_TURN_MINUTE : SL_TURN_AXES, by);
    }
}

static void turn_down(sl_stage *stage, int by)
{
    sl_stage_turn(stage, stage->open.page == SL_PAGE_MAP ? SL_TURN_LAYER : SL_TURN_ZONE, by);
}

static void turn_share(sl_stage *stage, int by)
{
    if (stage->open.page == SL_PAGE_RANK) {
        sl_stage_turn(stage, SL_TURN_SHARE, by);
    }
}

static void choose_strip(sl_stage *stage, SDL_Keycode key)
{
    if (stage->open.page != SL_PAGE_RANK && key >= SDLK_1 && key <= SDLK_9 &&
        key - SDLK_1 < sl_stage_scene(stage)->n_arms) {
        sl_stage_choose_arm(stage, key - SDLK_1);
    }
}

void sl_stage_take_key_views(sl_stage *stage, SDL_Keycode key)
{
    const int sheet = SDL_max(stage->pen.sheet->h / 3, 1);
    switch (key) {
    case SDLK_LEFT:
    case SDLK_RIGHT:
        turn_across(stage, key == SDLK_RIGHT ? 1 : -1);
        break;
    case SDLK_UP:
    case SDLK_DOWN:
        turn_down(stage, key == SDLK_DOWN ? 1 : -1);
        break;
    case SDLK_PLUS:
    case SDLK_EQUALS:
    case SDLK_KP_PLUS:
        turn_share(stage, 1);
        break;
    case SDLK_MINUS:
    case SDLK_KP_MINUS:
        turn_share(stage, -1);
        break;
    case SDLK_LEFTBRACKET:
    case SDLK_COMMA:
        sl_stage_turn(stage, SL_TURN_STRIP, -1);
        break;
    case SDLK_RIGHTBRACKET:
    case SDLK_PERIOD:
        sl_stage_turn(stage, SL_TURN_STRIP, 1);
        break;
    case SDLK_PAGEUP:
        sl_stage_scroll(stage, 0, -sheet);
        break;
    case SDLK_PAGEDOWN:
        sl_stage_scroll(stage, 0, sheet);
        break;
    case SDLK_RETURN:
    case SDLK_KP_ENTER:
        sl_stage_press_focus(stage);
        break;
    case SDLK_ESCAPE:
        sl_stage_press(stage, (sl_stage_spot){.kind = SL_SPOT_CLOSE});
        break;
    default:
        choose_strip(stage, key);
        break;
    }
}
