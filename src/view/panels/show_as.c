/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The panel that says how things are shown: a row for each choice, its key beside it.
 */
#include <stdio.h>

#include "base/language.h"
#include "view/panels/panel.h"
#include "view/window/action.h"

enum { LINE = 160 };

static const sl_action_id rows[] = {SL_DO_THEME, SL_DO_VISION, SL_DO_LOOK,
                                    SL_DO_WIPE,  SL_DO_LIGHT,  SL_DO_TEXT_SIZE};
enum { ROWS = sizeof rows / sizeof rows[0] };

static void put_choice(const sl_stage *stage, sl_action_id spot, char *text, size_t size)
{
    const sl_eyes *eyes = &stage->look.eyes;
    const bool lies = eyes->viewing.look == SL_LOOK_UNDER_MIX;
    if (spot == SL_DO_THEME) {
        snprintf(text, size, "%s", sl_theme_at(eyes->theme)->name);
    } else if (spot == SL_DO_VISION) {
        snprintf(text, size, "%s", _(sl_vision_word(eyes->vision)));
    } else if (spot == SL_DO_LOOK) {
        snprintf(text, size, "%s", lies ? _("as it lies now") : _(sl_look_word(eyes->viewing.look)));
    } else if (spot == SL_DO_WIPE) {
        snprintf(text, size, "%s", !lies ? _("not shown") : eyes->wiped ? _("wiped aside") : _("shown"));
    } else if (spot == SL_DO_LIGHT) {
        snprintf(text, size, "%s", _(sl_light_word(eyes->viewing.light)));
    } else {
        snprintf(text, size, "%.0f %%", 100.0 * stage->look.scale);
    }
}

static SDL_Rect place(const sl_stage *stage, int row)
{
    const sl_pen *pen = &stage->pen;
    const SDL_Rect panel = stage->laid.layout.panel;
    const int pad = sl_pen_px(pen, 10.0);
    const int line = sl_text_line_height(pen->text, SL_TYPE_BODY);
    const int head = pad + line;
    const int h = SDL_max(stage->laid.layout.target, 2 * line + pad / 2);
    const int gap = SDL_clamp((panel.h - head - pad - ROWS * h) / ROWS, 2, pad);
    return (SDL_Rect){panel.x + pad, panel.y + head + pad / 2 + row * (h + gap) - stage->open.scroll[1],
                      panel.w - 2 * pad, h};
}

SDL_Rect sl_show_as_control(const sl_stage *stage, sl_action_id action, int which)
{
    int row = 0;
    (void)which;
    while (row + 1 < ROWS && rows[row] != action) {
        row++;
    }
    return place(stage, row);
}

int sl_show_as_show(const sl_stage *stage)
{
    const sl_pen *pen = &stage->pen;
    const SDL_Rect panel = stage->laid.layout.panel;
    const int pad = sl_pen_px(pen, 10.0);
    sl_pen_fill(pen, panel, SL_GROUND_SHEET);
    sl_pen_frame(pen, panel, 1, SL_MARK_GRID);
    SDL_SetClipRect(pen->sheet, &panel);
    const int line = sl_text_line_height(pen->text, SL_TYPE_BODY);
    sl_pen_write(pen, SL_TYPE_STRONG, SL_INK_TEXT, panel.x + pad, panel.y + pad / 2 - stage->open.scroll[1],
                 SL_ALIGN_LEFT, _("Show it …"));
    for (int row = 0; row < ROWS; row++) {
        const SDL_Rect area = place(stage, row);
        const int in = sl_pen_px(pen, 8.0);
        const int top = area.y + (area.h - 2 * line) / 2;
        const sl_button_look look = sl_action_look(stage, rows[row], 0);
        char text[LINE];
        sl_pen_frame(pen, area, sl_pen_px(pen, 1.25), SL_MARK_CONTROL);
        const SDL_Rect upper = {area.x + in, top, area.w - 2 * in, line};
        const SDL_Rect lower = {area.x + in, top + line, area.w - 2 * in, line};
        put_choice(stage, rows[row], text, sizeof text);
        sl_pen_place(pen, SL_TYPE_SMALL, SL_INK_QUIET, upper, SL_ALIGN_LEFT, look.label);
        sl_pen_place(pen, SL_TYPE_SMALL, SL_INK_QUIET, upper, SL_ALIGN_RIGHT, look.key);
        sl_pen_place(pen, SL_TYPE_STRONG, SL_INK_TEXT, lower, SL_ALIGN_LEFT, text);
    }
    SDL_SetClipRect(pen->sheet, NULL);
    const SDL_Rect last = place(stage, ROWS - 1);
    return last.y + last.h + stage->open.scroll[1] - panel.y - panel.h;
}
