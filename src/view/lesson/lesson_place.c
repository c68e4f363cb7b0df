/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Head, text at the left, strips at the right, foot. The text keeps at least half of the width;
 * a step without strips has all of it.
 */
#include "view/lesson/lesson_place.h"

#include <math.h>

static const double MARGIN = 14.0, WIDEST_STRIP = 130.0, WIDEST_TEXT = 1000.0, FIGURE_WIDEST = 190.0;

double sl_step_unit(int width, int height, double scale)
{
    const double window = SDL_min(width / 1280.0, height / 800.0);
    return SDL_max(window, 0.7) * scale;
}

static void place_strips(sl_step_places *p, const sl_step_wish *wish, SDL_Rect area)
{
    const int below = wish->name_h + wish->figure_h;
    const int pad = (int)lround(6.0 * p->unit);
    p->caption = (SDL_Rect){area.x, area.y, area.w, wish->caption_h};
    p->field =
        (SDL_Rect){area.x, area.y + wish->caption_h, area.w, SDL_max(area.h - wish->caption_h - below, 8)};
    p->n = SDL_min(wish->n_strips, SL_MAX_ARMS);
    const int step = area.w / p->n;
    const int strip_w = SDL_max(SDL_min(step - 2 * pad, (int)lround(WIDEST_STRIP * p->unit)), 4);
    for (int i = 0; i < p->n; i++) {
        const int x = area.x + i * step;
        p->strip[i] =
            (SDL_Rect){x + (step - strip_w) / 2, p->field.y + pad, strip_w, SDL_max(p->field.h - 2 * pad, 4)};
        p->name[i] = (SDL_Rect){x + pad / 2, p->field.y + p->field.h, step - pad, wish->name_h};
        const int figure_w = SDL_min(step - pad, (int)lround(FIGURE_WIDEST * p->unit));
        p->figure[i] =
            (SDL_Rect){x + (step - figure_w) / 2, p->name[i].y + wish->name_h, figure_w, wish->figure_h};
    }
}

sl_step_places sl_step_place(const sl_step_wish *wish)
{
    sl_step_places p = {.unit = sl_step_unit(wish->width, wish->height, wish->scale)};
    const int margin = (int)lround(MARGIN * SDL_min(p.unit, 1.4));
    const int width = wish->width - 2 * margin;
    p.head = (SDL_Rect){margin, margin / 2, width, wish->head_h};
    p.foot = (SDL_Rect){margin, wish->height - margin / 2 - wish->foot_h, width, wish->foot_h};
    const int top = p.head.y + p.head.h + margin / 2;
    const SDL_Rect body = {margin, top, width, SDL_max(p.foot.y - margin / 2 - top, 8)};
    if (wish->n_strips == 0) {
        p.text = body;
        p.text.w = SDL_min(body.w, (int)lround(WIDEST_TEXT * p.unit));
        p.text.x = body.x + (body.w - p.text.w) / 2;
        return p;
    }
    const int text_w = (body.w - margin) * (wish->n_strips > 4 ? 50 : 54) / 100;
    p.text = (SDL_Rect){body.x, body.y, text_w, body.h};
    place_strips(&p, wish, (SDL_Rect){body.x + text_w + margin, body.y, body.w - text_w - margin, body.h});
    return p;
}
