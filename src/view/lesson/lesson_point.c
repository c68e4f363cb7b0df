/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What is pressed in a lesson: answers, and the two buttons at the foot. Each does what a key does.
 */
#include "view/draw/widget.h"
#include "view/lesson/lesson_desk.h"
#include "view/lesson/lesson_words.h"
#include "view/window/layout.h"

static const double BUTTON = 128.0, GAP = 6.0; /* units */

int sl_desk_buttons_h(const sl_desk *desk)
{
    return desk->wish.class_ != NULL ? 0 : sl_pen_px(&desk->pen, SL_TARGET);
}

/* In a narrow window they take no more than half of it. */
static int button_w(const sl_desk *desk)
{
    return SDL_min(sl_pen_px(&desk->pen, BUTTON), desk->pen.sheet->w / 4);
}

int sl_desk_buttons_w(const sl_desk *desk)
{
    return desk->wish.class_ != NULL ? 0 : 2 * (button_w(desk) + sl_pen_px(&desk->pen, GAP));
}

SDL_Rect sl_desk_button(const sl_desk *desk, bool on)
{
    const SDL_Rect foot = desk->places.foot;
    const int w = button_w(desk), h = sl_desk_buttons_h(desk), gap = sl_pen_px(&desk->pen, GAP);
    return (SDL_Rect){foot.x + foot.w - w - (on ? 0 : w + gap), foot.y + foot.h - h, h > 0 ? w : 0, h};
}

void sl_desk_put_buttons(const sl_desk *desk)
{
    const char *const language = sl_desk_language(desk);
    if (desk->wish.class_ != NULL) {
        return;
    }
    const sl_button_look back = {.label = sl_shown_word(SL_SHOWN_BACK, language),
                                 .key = sl_shown_word(SL_SHOWN_KEY_BACK, language),
                                 .off_duty = desk->session.page == 0};
    const sl_button_look on = {.label = sl_shown_word(SL_SHOWN_NEXT, language),
                               .key = sl_shown_word(SL_SHOWN_KEY_NEXT, language)};
    sl_button_draw(&desk->pen, sl_desk_button(desk, false), &back);
    sl_button_draw(&desk->pen, sl_desk_button(desk, true), &on);
}

void sl_desk_point(sl_desk *desk, int x, int y)
{
    if (sl_rect_holds(sl_desk_button(desk, true), x, y)) {
        sl_desk_key(desk, SDLK_RETURN);
    } else if (sl_rect_holds(sl_desk_button(desk, false), x, y)) {
        sl_desk_key(desk,
                    desk->session.page > 0 ? SDLK_BACKSPACE : SDLK_ESCAPE); /* from the first step: leave */
    } else if (sl_rect_holds(desk->places.text, x, y) && desk->over == SL_OVER_NONE) {
        for (int i = 0; i < desk->n_choices; i++) {
            if (sl_rect_holds(desk->choice[i], x, y)) {
                sl_desk_key(desk, SDLK_1 + i);
                return;
            }
        }
    }
}
