/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The theme tables. The field is close to the middle of the lightness scale (L* 54 for
 * #818181): a neutral surround neither lifts nor sinks the strips on it.
 */
#include "view/draw/theme.h"

#include "base/language.h"

#include <assert.h>

#define GREY(value)                                                                                          \
    {                                                                                                        \
        value, value, value                                                                                  \
    }

static const sl_theme themes[SL_THEMES] = {
    [SL_THEME_LIGHT] = {.name = N_("light"),
                        .colour =
                            {
                                [SL_GROUND_FRAME] = GREY(0xDA),
                                [SL_GROUND_FIELD] = GREY(0x81),
                                [SL_GROUND_SHEET] = GREY(0xF3),
                                [SL_GROUND_DARK] = GREY(0x1C),
                                [SL_INK_TEXT] = GREY(0x0C),
                                [SL_INK_QUIET] = GREY(0x46),
                                [SL_INK_LIGHT] = GREY(0xFF),
                                [SL_MARK_CONTROL] = GREY(0x26),
                                [SL_MARK_GRID] = GREY(0xB4),
                                [SL_MARK_FIELD] = GREY(0xFF),
                                [SL_MARK_HOOK] = GREY(0x1C),
                                [SL_FOCUS_OUTER] = GREY(0x00),
                                [SL_FOCUS_INNER] = GREY(0xFF),
                            }},
    [SL_THEME_DARK] = {.name = N_("dark"),
                       .colour =
                           {
                               [SL_GROUND_FRAME] = GREY(0x22),
                               [SL_GROUND_FIELD] = GREY(0x81),
                               [SL_GROUND_SHEET] = GREY(0x32),
                               [SL_GROUND_DARK] = GREY(0xE2),
                               [SL_INK_TEXT] = GREY(0xEE),
                               [SL_INK_QUIET] = GREY(0xB8),
                               [SL_INK_LIGHT] = GREY(0x10),
                               [SL_MARK_CONTROL] = GREY(0xCC),
                               [SL_MARK_GRID] = GREY(0x4E),
                               [SL_MARK_FIELD] = GREY(0xFF),
                               [SL_MARK_HOOK] = GREY(0x18),
                               [SL_FOCUS_OUTER] = GREY(0xFF),
                               [SL_FOCUS_INNER] = GREY(0x00),
                           }},
    [SL_THEME_HIGH_CONTRAST] = {.name = N_("high contrast"),
                                .colour =
                                    {
                                        [SL_GROUND_FRAME] = GREY(0x00),
                                        [SL_GROUND_FIELD] = GREY(0x81),
                                        [SL_GROUND_SHEET] = GREY(0x00),
                                        [SL_GROUND_DARK] = GREY(0xFF),
                                        [SL_INK_TEXT] = GREY(0xFF),
                                        [SL_INK_QUIET] = GREY(0xFF),
                                        [SL_INK_LIGHT] = GREY(0x00),
                                        [SL_MARK_CONTROL] = GREY(0xFF),
                                        [SL_MARK_GRID] = GREY(0x80),
                                        [SL_MARK_FIELD] = GREY(0xFF),
                                        [SL_MARK_HOOK] = GREY(0x00),
                                        [SL_FOCUS_OUTER] = GREY(0xFF),
                                        [SL_FOCUS_INNER] = GREY(0x00),
                                    }},
};

const sl_theme *sl_theme_at(sl_theme_number number)
{
    assert(number < SL_THEMES);
    return &themes[number];
}
