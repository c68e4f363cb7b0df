/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Pointer and wheel -> acts on the stage.
 */
#include "view/draw/widget.h"
#include "view/window/input.h"

/* Window units to pixels of the surface, where the two differ. */
static void to_pixels(const sl_stage *stage, int *x, int *y)
{
    int points_w = 0;
    int points_h = 0;
    int pixels_w = 0;
    int pixels_h = 0;
    SDL_GetWindowSize(stage->window, &points_w, &points_h);
    SDL_GetWindowSizeInPixels(stage->window, &pixels_w, &pixels_h);
    *x = points_w > 0 ? *x * pixels_w / points_w : *x;
    *y = points_h > 0 ? *y * pixels_h / points_h : *y;
}

static void drag(sl_stage *stage, int x)
{
    if (stage->hand.held.kind == SL_SPOT_RULER) {
        stage->chosen.playing = false;
        if (stage->chosen.mode == SL_SAME_MINUTE) {
            sl_stage_go(stage, sl_ruler_time(stage->hand.held.area, sl_stage_scene(stage)->until_min, x));
        }
    } else if (stage->hand.held.kind == SL_SPOT_KNOB) {
        const sl_knob knob = (sl_knob)stage->hand.held.number;
        const sl_knob_range range = sl_knob_range_of(sl_stage_scene(stage), knob);
        sl_stage_turn_knob(stage, knob,
                           sl_track_value(stage->hand.held.area, x, range.least, range.most, range.step));
    }
}

/* Pressing hair chooses the strip and the zone that was hit. */
static void choose_zone_at(sl_stage *stage, int arm, int x, int y)
{
    const sl_layout *l = &stage->laid.layout;
    const int n = sl_stage_scene(stage)->n_zones;
    const SDL_Rect strip = l->strip[arm - l->first];
    for (int zone = 0; zone < n; zone++) {
        if (sl_rect_holds(sl_layout_zone(&strip, n, zone), x, y)) {
            sl_stage_choose_zone(stage, zone);
        }
    }
}

static void press_at(sl_stage *stage, int x, int y)
{
    for (int i = 0; i < stage->laid.n_spots; i++) {
        const sl_stage_spot *spot = &stage->laid.spots[i];
        if (!sl_rect_holds(spot->area, x, y)) {
            continue;
        }
        stage->hand.held = *spot;
        stage->hand.focus = spot->kind;
        stage->hand.focus_number = spot->number;
        stage->hand.focus_seen = false;
        sl_stage_press(stage, stage->hand.held);
        drag(stage, x);
        if (stage->hand.held.kind == SL_SPOT_STRIP) {
            choose_zone_at(stage, stage->hand.held.number, x, y);
        }
        return;
    }
}

void sl_stage_take_pointer(sl_stage *stage, const SDL_Event *event)
{
    int x = event->type == SDL_MOUSEMOTION ? event->motion.x : event->button.x;
    int y = event->type == SDL_MOUSEMOTION ? event->motion.y : event->button.y;
    to_pixels(stage, &x, &y);
    if (event->type == SDL_MOUSEBUTTONDOWN && event->button.button == SDL_BUTTON_LEFT) {
        press_at(stage, x, y);
    } else if (event->type == SDL_MOUSEBUTTONUP) {
        stage->hand.held = (sl_stage_spot){0};
    } else if (event->type == SDL_MOUSEMOTION && stage->hand.held.kind != SL_SPOT_NONE) {
        drag(stage, x);
    }
}

void sl_stage_take_wheel(sl_stage *stage, const SDL_MouseWheelEvent *wheel)
{
    const int by = -wheel->y * sl_pen_px(&stage->pen, 40.0);
    if (stage->open.page != SL_PAGE_NONE) {
        sl_stage_scroll(stage, 0, by);
    } else if (stage->open.panel != SL_PANEL_NONE) {
        sl_stage_scroll(stage, 1, by);
    }
}
