/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Before a frame: the layout for the window as it is now, the places that can be pressed
 * in the order in which Tab visits them, and fibres for every strip that is shown.
 */
#include <string.h>

#include "base/language.h"
#include "view/panels/bowl.h"
#include "view/panels/form.h"
#include "view/panels/panel.h"
#include "view/panels/turn.h"
#include "view/window/show.h"

static const double LAY_S = 0.004; /* of a frame, for laying fibres */

static void add(sl_stage *stage, sl_spot_kind kind, int number, SDL_Rect area, bool stop)
{
    if (area.w > 0 && area.h > 0 && stage->laid.n_spots < SL_MOST_SPOTS) {
        stage->laid.spots[stage->laid.n_spots++] = (sl_stage_spot){kind, number, area, stop};
    }
}

static void add_knobs(sl_stage *stage)
{
    const sl_what_if_places places = sl_what_if_place(stage);
    const SDL_Rect panel = stage->laid.layout.panel;
    stage->open.scroll_most[1] = places.height - panel.h;
    add(stage, SL_SPOT_RESET, 0, places.reset, true);
    for (int i = 0; i < SL_KNOBS; i++) {
        if (sl_change_applies(sl_stage_scene(stage), stage->chosen.arm, (sl_knob)i)) {
            add(stage, SL_SPOT_KNOB, i, places.knob[i].areas.track, true);
            add(stage, SL_SPOT_KNOB_LESS, i, places.knob[i].areas.less, false);
            add(stage, SL_SPOT_KNOB_MORE, i, places.knob[i].areas.more, false);
        }
    }
}

static void add_show_as(sl_stage *stage)
{
    const SDL_Rect last = sl_show_as_place(stage, SL_SHOW_AS_ROWS - 1);
    const SDL_Rect panel = stage->laid.layout.panel;
    stage->open.scroll_most[1] = last.y + last.h + stage->open.scroll[1] - panel.y - panel.h;
    for (int row = 0; row < SL_SHOW_AS_ROWS; row++) {
        add(stage, sl_show_as_spot(row), 0, sl_show_as_place(stage, row), true);
    }
}

static void add_beside(sl_stage *stage)
{
    const sl_beside_places p = sl_beside_place(stage);
    for (int side = 0; side < 2; side++) {
        add(stage, SL_SPOT_SIDE, side, p.side[side], true);
        add(stage, SL_SPOT_ARM_BACK, side, p.arm_back[side], true);
        add(stage, SL_SPOT_ARM_ON, side, p.arm_on[side], true);
        add(stage, SL_SPOT_ZONE_BACK, side, p.zone_back[side], true);
        add(stage, SL_SPOT_ZONE_ON, side, p.zone_on[side], true);
    }
    add(stage, SL_SPOT_SCIENCE, 0, p.curves_button, true);
    add(stage, SL_SPOT_CLOSE, 0, p.close, true);
}

static void add_turns(sl_stage *stage)
{
    const sl_turn_places p = sl_turn_place(stage);
    for (int i = 0; i < p.n; i++) {
        add(stage, SL_SPOT_TURN_BACK, (int)p.turn[i], p.back[i], true);
        add(stage, SL_SPOT_TURN_ON, (int)p.turn[i], p.on[i], true);
    }
    add(stage, SL_SPOT_CLOSE, 0, p.close, true);
}

static void add_form(sl_stage *stage)
{
    sl_form_follow(stage);
    const sl_form_places p = sl_form_place(stage);
    for (int i = 0; i < SL_FORM_ROWS; i++) {
        const bool seen = p.row[i].y >= p.body.y && p.row[i].y + p.row[i].h <= p.body.y + p.body.h;
        if (seen) {
            add(stage, SL_SPOT_FORM_BACK, i, p.back[i], true);
            add(stage, SL_SPOT_FORM_ON, i, p.on[i], true);
        }
    }
    add(stage, SL_SPOT_FORGET, 0, p.clear, true);
    add(stage, SL_SPOT_CLOSE, 0, p.close, true);
}

static void add_buttons(sl_stage *stage)
{
    sl_head_button buttons[SL_MOST_BUTTONS];
    const int n = sl_head_buttons(stage, buttons);
    for (int i = 0; i < n; i++) {
        add(stage, buttons[i].kind, 0, stage->laid.layout.button[i], true);
    }
}

static void add_spots(sl_stage *stage)
{
    const sl_layout *l = &stage->laid.layout;
    const sl_scene *scene = sl_stage_scene(stage);
    stage->laid.n_spots = 0;
    if (stage->open.page == SL_PAGE_BESIDE) {
        add_beside(stage);
        return;
    }
    if (stage->open.page == SL_PAGE_FORM) {
        add_form(stage);
        return;
    }
    if (sl_page_turns(stage->open.page) > 0) {
        add_turns(stage);
        return;
    }
    if (stage->open.page != SL_PAGE_NONE) {
        add(stage, SL_SPOT_CLOSE, 0, sl_page_close(stage, stage->pen.sheet->w, stage->pen.sheet->h), true);
        return;
    }
    add_buttons(stage);
    add(stage, SL_SPOT_LESS, 0, l->less, true);
    add(stage, SL_SPOT_MORE, 0, l->more, true);
    add(stage, SL_SPOT_BACK, 0, l->back, true);
    add(stage, SL_SPOT_ON, 0, l->on, true);
    for (int i = 0; i < l->n_shown; i++) {
        add(stage, SL_SPOT_STRIP, l->first + i, l->column[i], true);
    }
    const SDL_Rect hair = {l->gutter.x, l->strip[0].y, l->gutter.w, l->strip[0].h};
    for (int zone = 0; zone < scene->n_zones; zone++) {
        add(stage, SL_SPOT_ZONE, zone, sl_layout_zone(&hair, scene->n_zones, zone), false);
    }
    if (stage->open.panel == SL_PANEL_WHAT_IF) {
        add_knobs(stage);
    } else if (stage->open.panel == SL_PANEL_SHOW_AS) {
        add_show_as(stage);
    } else if (stage->open.panel == SL_PANEL_BOWL) {
        for (int i = 0; i < SL_WIPES; i++) {
            add(stage, SL_SPOT_GRADE, i, sl_bowl_place(stage, i), true);
        }
        add(stage, SL_SPOT_FORGET, 0, sl_bowl_forget_place(stage), true);
    } else if (stage->open.panel == SL_PANEL_LIMITS) {
        for (int i = 0; i < SL_LIMITS_BUTTONS; i++) {
            add(stage, sl_limits_button_spot(i), 0, sl_limits_button_place(stage, i), true);
        }
    } else if (stage->open.panel == SL_PANEL_SCIENCE) {
        add(stage, SL_SPOT_OBSERVER, 0, sl_science_observer(stage), true);
    }
    add(stage, SL_SPOT_PLAY, 0, l->play, true);
    add(stage, SL_SPOT_RULER, 0, l->ruler, true);
}

/* When a knob with the focus lies outside the panel, bring it in. */
static void scroll_to_focus(sl_stage *stage)
{
    if (stage->open.panel != SL_PANEL_WHAT_IF || stage->hand.focus != SL_SPOT_KNOB ||
        !stage->hand.focus_seen) {
        return;
    }
    const sl_what_if_places places = sl_what_if_place(stage);
    const sl_knob_rows *knob = &places.knob[stage->hand.focus_number];
    const SDL_Rect panel = stage->laid.layout.panel;
    const int below = knob->note.y + knob->note.h - panel.y - panel.h;
    const int above = panel.y - knob->head.y;
    if (below > 0) {
        stage->open.scroll[1] += below;
    } else if (above > 0) {
        stage->open.scroll[1] -= above;
    }
}

bool sl_stage_strip_laid(const sl_stage *stage, int shown)
{
    const SDL_Rect strip = stage->laid.layout.strip[shown];
    const int arm = stage->laid.layout.first + shown;
    return sl_strip_laid(stage->laid.strip[arm], strip.w, strip.h, sl_stage_scene(stage)->n_zones,
                         (uint32_t)arm + 1U);
}

/* Fibres take longer than a frame has: the chosen strip first, then others while there is time,
 * the rest in the next frames. Until then they are shown as they were laid last. */
static bool lay_strips(sl_stage *stage, sl_error *error)
{
    const sl_layout *l = &stage->laid.layout;
    const Uint64 until =
        SDL_GetPerformanceCounter() + (Uint64)(LAY_S * (double)SDL_GetPerformanceFrequency());
    for (int i = 0; i < l->n_shown; i++) {
        const int shown = (stage->chosen.arm - l->first + i) % l->n_shown;
        const int arm = l->first + shown;
        if (sl_stage_strip_laid(stage, shown)) {
            continue;
        }
        if (SDL_GetPerformanceCounter() >= until) {
            stage->dirty = true; /* and go on in the next frame */
            return true;
        }
        if (!sl_strip_lay(&stage->laid.strip[arm], l->strip[shown].w, l->strip[shown].h,
                          sl_stage_scene(stage)->n_zones, (uint32_t)arm + 1U, error)) {
            return false;
        }
    }
    return true;
}

static void wish_buttons(const sl_stage *stage, sl_layout_wish *wish)
{
    sl_head_button buttons[SL_MOST_BUTTONS];
    wish->n_buttons = sl_head_buttons(stage, buttons);
    for (int i = 0; i < wish->n_buttons; i++) {
        const sl_button_look *const look = &buttons[i].look;
        wish->button_letters[i] = (int)strlen(_(look->brief != NULL ? look->brief : look->label));
    }
}

bool sl_stage_arrange(sl_stage *stage, sl_error *error)
{
    const sl_scene *scene = sl_stage_scene(stage);
    SDL_Surface *sheet = SDL_GetWindowSurface(stage->window);
    if (sheet == NULL || sheet->format->BytesPerPixel != 4) {
        return sl_fail(error, SL_ERR_MISSING_PART, "a window to draw in",
                       "the display must offer 32-bit colour");
    }
    stage->laid.n_lanes = sl_ruler_lanes(sl_stage_scene_now(stage), stage->laid.lane);
    const bool changed = sl_stage_changed(stage, stage->chosen.arm);
    char first[2 * SL_SHOW_LINE];
    char second[2 * SL_SHOW_LINE];
    char brief[2 * SL_SHOW_LINE];
    char notice[2 * SL_SHOW_LINE] = "";
    sl_put_foot(stage, true, brief, second, sizeof brief);
    sl_put_foot(stage, false, first, second, sizeof first);
    sl_put_notice(stage, notice, sizeof notice);
    sl_layout_wish wish = {
        .width = sheet->w,
        .height = sheet->h,
        .scale = stage->look.scale,
        .n_arms = scene->n_arms,
        .n_zones = scene->n_zones,
        .n_lanes = stage->laid.n_lanes,
        .first_arm = stage->laid.first_arm,
        .wide_arm = changed || stage->open.panel == SL_PANEL_WHAT_IF ? stage->chosen.arm : -1,
        .panel = stage->open.panel != SL_PANEL_NONE,
        .marks = sl_stage_on_bench(stage),
        .note_letters = {(int)strlen(first), (int)strlen(second)},
        .brief_letters = (int)strlen(brief),
        .notice_letters = (int)strlen(notice),
    };
    wish_buttons(stage, &wish);
    stage->laid.layout = sl_layout_make(&wish);
    if (stage->chosen.arm < stage->laid.layout.first ||
        stage->chosen.arm >= stage->laid.layout.first + stage->laid.layout.n_shown) {
        sl_stage_choose_arm(stage, stage->chosen.arm); /* fewer columns than before: bring it in */
        stage->dirty = false;
        wish.first_arm = stage->laid.first_arm;
        stage->laid.layout = sl_layout_make(&wish);
    }
    if (!sl_text_scale(stage->text, stage->laid.layout.unit, error)) {
        return false;
    }
    sl_text_turn(stage->text);
    stage->pen = (sl_pen){sheet, stage->text, sl_theme_at(stage->look.eyes.theme), stage->laid.layout.unit};
    scroll_to_focus(stage);
    add_spots(stage);
    if (stage->open.page == SL_PAGE_BESIDE) {
        return sl_beside_lay(stage, error);
    }
    return lay_strips(stage, error);
}
