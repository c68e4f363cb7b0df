/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Before a frame: the layout for the window as it is now, the places that can be pressed
 * in the order in which Tab visits them, and fibres for every strip that is shown.
 */
#include <string.h>

#include "base/language.h"
#include "view/panels/new_page.h"
#include "view/panels/panel.h"
#include "view/sight/guess.h"
#include "view/window/show.h"
#include "view/window/views.h"

static const double LAY_S = 0.004; /* of a frame, for laying fibres */

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
    sl_action_id bar[SL_MOST_BUTTONS];
    wish->n_buttons = sl_view_bar(stage, bar);
    for (int i = 0; i < wish->n_buttons; i++) {
        const sl_button_look look = sl_action_look(stage, bar[i], 0);
        wish->button[i] = _(look.brief != NULL ? look.brief : look.label);
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
    const bool changed = sl_stage_changed(stage, stage->chosen.arm);
    char first[2 * SL_SHOW_LINE];
    char second[2 * SL_SHOW_LINE];
    char brief[2 * SL_SHOW_LINE];
    char notice[2 * SL_SHOW_LINE] = "";
    char gate[SL_SHOW_LINE];
    sl_put_foot(stage, true, brief, second, sizeof brief);
    sl_put_foot(stage, false, first, second, sizeof first);
    sl_put_notice(stage, notice, sizeof notice);
    sl_put_gate(stage, gate, sizeof gate);
    sl_layout_wish wish = {
        .width = sheet->w,
        .height = sheet->h,
        .scale = stage->look.scale,
        .n_arms = scene->n_arms,
        .n_zones = scene->n_zones,
        .first_arm = stage->laid.first_arm,
        .wide_arm = changed || stage->open.panel == SL_PANEL_WHAT_IF ? stage->chosen.arm : -1,
        .panel = stage->open.page == SL_PAGE_START ||
                 (stage->open.panel != SL_PANEL_NONE && !sl_guess_open_now(stage)),
        .marks = sl_stage_on_bench(stage),
        .pressed = sl_guess_open_now(stage),
        .unusual = !sl_eyes_usual(&stage->look.eyes),
        .gate = gate,
        .text = stage->text,
        .note = {first, second},
        .brief = brief,
        .notice = notice,
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
    sl_view_place(stage);
    sl_asking_listen(stage);
    if (stage->open.page == SL_PAGE_BESIDE) {
        return sl_beside_lay(stage, error);
    }
    const bool hangs = stage->open.page == SL_PAGE_NONE || stage->open.page == SL_PAGE_START; /* below a plate */
    return lay_strips(stage, error) && (!hangs || sl_stage_hang(stage, error));
}
