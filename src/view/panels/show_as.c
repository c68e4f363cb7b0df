/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The panel that says how things are shown: a row for each choice, its key beside it.
 */
#include <stdio.h>

#include "base/language.h"
#include "view/panels/panel.h"

enum { LINE = 160 };

static const struct {
    sl_spot_kind spot;
    const char *name, *key;
} rows[SL_SHOW_AS_ROWS] = {
    {SL_SPOT_THEME, N_("Theme"), "D"}, {SL_SPOT_VISION, N_("Eyes"), "V"},
    {SL_SPOT_LOOK, N_("Look"), "L"},   {SL_SPOT_WIPE, N_("Mix on the hair"), "X"},
    {SL_SPOT_LIGHT, N_("Light"), "I"}, {SL_SPOT_TEXT_SIZE, N_("Text"), "T"},
};

static void put_choice(const sl_stage *stage, sl_spot_kind spot, char *text, size_t size)
{
    const sl_eyes *eyes = &stage->look.eyes;
    const bool lies = eyes->viewing.look == SL_LOOK_UNDER_MIX;
    if (spot == SL_SPOT_THEME) {
        snprintf(text, size, "%s", sl_theme_at(eyes->theme)->name);
    } else if (spot == SL_SPOT_VISION) {
        snprintf(text, size, "%s", _(sl_vision_word(eyes->vision)));
    } else if (spot == SL_SPOT_LOOK) {
        snprintf(text, size, "%s", lies ? _("as it lies now") : _(sl_look_word(eyes->viewing.look)));
    } else if (spot == SL_SPOT_WIPE) {
        snprintf(text, size, "%s", !lies ? _("not shown") : eyes->wiped ? _("wiped aside") : _("shown"));
    } else if (spot == SL_SPOT_LIGHT) {
        snprintf(text, size, "%s", _(sl_light_word(eyes->viewing.light)));
    } else {
        snprintf(text, size, "%.0f %%", 100.0 * stage->look.scale);
    }
}

sl_spot_kind sl_show_as_spot(int row)
{
    return rows[row].spot;
}

SDL_Rect sl_show_as_place(const sl_stage *stage, int row)
{
    const sl_pen *pen = &stage->pen;
    const SDL_Rect panel = stage->laid.layout.panel;
    const int pad = sl_pen_px(pen, 10.0);
    const int line = sl_text_line_height(pen->text, SL_TYPE_BODY);
    const int head = pad + line;
    const int h = SDL_max(stage->laid.layout.target, 2 * line + pad / 2);
    const int gap = SDL_clamp((panel.h - head - pad - SL_SHOW_AS_ROWS * h) / SL_SHOW_AS_ROWS, 2, pad);
    return (SDL_Rect){panel.x + pad, panel.y + head + pad / 2 + row * (h + gap) - stage->open.scroll[1],
                      panel.w - 2 * pad, h};
}

void sl_show_as_show(const sl_stage *stage)
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
    for (int row = 0; row < SL_SHOW_AS_ROWS; row++) {
        const SDL_Rect area = sl_show_as_place(stage, row);
        const int in = sl_pen_px(pen, 8.0);
        const int top = area.y + (area.h - 2 * line) / 2;
        char text[LINE];
        sl_pen_frame(pen, area, sl_pen_px(pen, 1.25), SL_MARK_CONTROL);
        const SDL_Rect upper = {area.x + in, top, area.w - 2 * in, line};
        const SDL_Rect lower = {area.x + in, top + line, area.w - 2 * in, line};
        put_choice(stage, rows[row].spot, text, sizeof text);
        sl_pen_place(pen, SL_TYPE_SMALL, SL_INK_QUIET, upper, SL_ALIGN_LEFT, rows[row].name);
        sl_pen_place(pen, SL_TYPE_SMALL, SL_INK_QUIET, upper, SL_ALIGN_RIGHT, rows[row].key);
        sl_pen_place(pen, SL_TYPE_STRONG, SL_INK_TEXT, lower, SL_ALIGN_LEFT, text);
    }
    SDL_SetClipRect(pen->sheet, NULL);
}
