/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Events -> actions on the stage. Everything the pointer can do, keys can do.
 */
#include <math.h>

#include "base/language.h"
#include "view/panels/new_page.h"
#include "view/panels/said.h"
#include "view/window/acts.h"
#include "view/window/screen.h"

static const double WHEEL_STEP = 40.0; /* units */

static void take_key(sl_stage *stage, const SDL_KeyboardEvent *event)
{
    sl_action_id id = SL_DO_NONE;
    int which = 0;
    if (sl_action_of_key(stage, event->keysym.sym, event->keysym.mod, &id, &which) &&
        (event->repeat == 0 || (id != SL_DO_PLAY && id != SL_DO_PRESS))) {
        sl_action_do(stage, id, which);
    }
}

/* ---- the pointer ------------------------------------------------------------------------- */

static void point(sl_stage *stage, int x, int y)
{
    const sl_stage_spot spot = stage->hand.held;
    const sl_action *const row = &sl_action_rows[spot.kind];
    if (row->point != NULL) {
        row->point(stage, &spot, x, y);
    }
}

static void press_at(sl_stage *stage, int x, int y)
{
    int i = 0;
    while (i < stage->laid.n_spots && !sl_rect_holds(stage->laid.spots[i].area, x, y)) {
        i++;
    }
    if (i < stage->laid.n_spots) {
        const sl_stage_spot spot = stage->laid.spots[i];
        stage->hand = (sl_stage_hand){.held = spot, .focus = spot.kind, .focus_number = spot.number};
        sl_action_do(stage, spot.kind, spot.number);
        point(stage, x, y);
    } else if (stage->open.page == SL_PAGE_START) {
        stage->hand.refused = N_("First the cautions: Enter, or press “I have read this”.");
        stage->dirty = true;
    }
}

static void take_pointer(sl_stage *stage, const SDL_Event *event)
{
    int x = event->type == SDL_MOUSEMOTION ? event->motion.x : event->button.x;
    int y = event->type == SDL_MOUSEMOTION ? event->motion.y : event->button.y;
    sl_screen_pixels(stage->window, &x, &y);
    if (event->type == SDL_MOUSEBUTTONDOWN && event->button.button == SDL_BUTTON_LEFT) {
        press_at(stage, x, y);
    } else if (event->type == SDL_MOUSEBUTTONUP) {
        stage->hand.held = (sl_stage_spot){0};
        stage->solved.undos.in_drag = false;
    } else if (event->type == SDL_MOUSEMOTION && sl_action_rows[stage->hand.held.kind].drags) {
        point(stage, x, y);
    }
}

/* The page, else the panel, where one is open. */
static void scroll_open(sl_stage *stage, int by)
{
    if (by > 0 && sl_said_folded(stage)) {
        sl_action_do(stage, SL_DO_UNFOLD, 0);
        return;
    }
    if (stage->open.page != SL_PAGE_NONE) {
        sl_act_scroll_by(stage, 0, by);
    } else if (stage->open.panel != SL_PANEL_NONE) {
        sl_act_scroll_by(stage, 1, by);
    }
}

/* A finger that is not on something that is dragged moves what is read; its press comes as the pointer's. */
static void take_finger(sl_stage *stage, const SDL_TouchFingerEvent *finger)
{
    if (!sl_action_rows[stage->hand.held.kind].drags) {
        scroll_open(stage, -(int)lround((double)finger->dy * stage->pen.sheet->h));
    }
}

static void take_wheel(sl_stage *stage, const SDL_MouseWheelEvent *wheel)
{
    scroll_open(stage, -wheel->y * sl_pen_px(&stage->pen, WHEEL_STEP));
}

/* ---- all ------------------------------------------------------------------------------------ */

void sl_stage_take(sl_stage *stage, const SDL_Event *event)
{
    switch (event->type) {
    case SDL_QUIT:
        stage->leave = true;
        break;
    case SDL_TEXTINPUT:
        sl_asking_take(stage, event);
        break;
    case SDL_KEYDOWN:
        if (!sl_asking_take(stage, event)) {
            take_key(stage, &event->key);
        }
        break;
    case SDL_MOUSEBUTTONDOWN:
    case SDL_MOUSEBUTTONUP:
    case SDL_MOUSEMOTION:
        take_pointer(stage, event);
        break;
    case SDL_FINGERMOTION:
        take_finger(stage, &event->tfinger);
        break;
    case SDL_MOUSEWHEEL:
        take_wheel(stage, &event->wheel);
        break;
    case SDL_WINDOWEVENT:
        if (event->window.event == SDL_WINDOWEVENT_EXPOSED ||
            event->window.event == SDL_WINDOWEVENT_SIZE_CHANGED) {
            stage->dirty = true;
        }
        break;
    default:
        break;
    }
}
