/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Head, alarm, three columns (swatches; what is next and the stops; the model's strip), buttons,
 * foot. With large text two columns: next and swatches; stops and strip.
 */
#include "view/day/day_place.h"

#include "view/lesson/lesson_place.h"

static const int MARGIN = 10; /* pixels on a window of 1280 x 800 */

static int at_least(double px, int least)
{
    return SDL_max((int)px, least);
}

static void place_stops(sl_day_places *p, SDL_Rect area, int gap, double window, int line)
{
    const int all = SDL_max(at_least(112.0 * window, SL_DAY_STOP_PX), 3 * line);
    const int one = SDL_max(at_least(84.0 * window, SL_DAY_STOP_PX), 3 * line);
    p->stop_one = (SDL_Rect){area.x, area.y + area.h - one, area.w, one};
    p->stop_all = (SDL_Rect){area.x, p->stop_one.y - gap - all, area.w, all};
}

static void place_wide(sl_day_places *p, SDL_Rect body, int gap, double window, int line)
{
    const int left = body.w * 38 / 100;
    const int right = body.w * 26 / 100;
    const int middle = body.w - left - right - 2 * gap;
    p->list = (SDL_Rect){body.x, body.y, left, body.h};
    p->model = (SDL_Rect){body.x + body.w - right, body.y, right, body.h};
    const SDL_Rect column = {body.x + left + gap, body.y, middle, body.h};
    place_stops(p, column, gap, window, line);
    p->next = (SDL_Rect){column.x, column.y, column.w, p->stop_all.y - gap - column.y};
}

static void place_compact(sl_day_places *p, SDL_Rect body, int gap, double window, int line, int next_h)
{
    const int left = body.w * 62 / 100;
    const int right = body.w - left - gap;
    const SDL_Rect column = {body.x + left + gap, body.y, right, body.h};
    p->next = (SDL_Rect){body.x, body.y, left, next_h};
    p->list = (SDL_Rect){body.x, body.y + next_h + gap, left, body.h - next_h - gap};
    place_stops(p, column, gap, window, line);
    p->model = (SDL_Rect){column.x, column.y, column.w, p->stop_all.y - gap - column.y};
}

sl_day_places sl_day_place(const sl_day_wish_place *wish)
{
    const double window = sl_step_unit(wish->width, wish->height, 1.0);
    const int gap = at_least(MARGIN * window, 6);
    const int width = wish->width - 2 * gap;
    const int target = at_least(SL_DAY_TARGET_PX * window, SL_DAY_TARGET_PX);
    sl_day_places p = {.compact = wish->width < 1000.0 * wish->scale * window};
    p.row_h = at_least(1.5 * wish->line, 24);
    p.head = (SDL_Rect){gap, gap / 2, width, wish->head_h};
    p.alarm = (SDL_Rect){gap, p.head.y + p.head.h + gap / 2, width, wish->alarm_h};
    p.foot = (SDL_Rect){gap, wish->height - gap / 2 - wish->foot_h, width, wish->foot_h};
    const int buttons_y = p.foot.y - gap / 2 - target;
    const int each =
        (width - (SL_DAY_BUTTONS - 1) * (gap / 2) - SL_DAY_SIGNS * target) / (SL_DAY_BUTTONS - SL_DAY_SIGNS);
    for (int i = 0, x = gap; i < SL_DAY_BUTTONS; i++) {
        const int w = i < SL_DAY_BUTTONS - SL_DAY_SIGNS ? each : target;
        p.button[i] = (SDL_Rect){x, buttons_y, w, target};
        x += w + gap / 2;
    }
    const int top = p.alarm.y + p.alarm.h + gap;
    const SDL_Rect body = {gap, top, width, SDL_max(buttons_y - gap - top, 4)};
    const int next_h = 2 * wish->large + 7 * wish->line / 2;
    if (p.compact) {
        place_compact(&p, body, gap, window, wish->line, next_h);
    } else {
        place_wide(&p, body, gap, window, wish->line);
    }
    p.fits = p.next.h >= next_h && p.list.h >= 2 * p.row_h && p.model.h >= 5 * wish->line &&
             each >= SL_DAY_TARGET_PX;
    return p;
}

SDL_Rect sl_day_grid(SDL_Rect area, int columns, int rows, int index)
{
    const int gap = 8;
    const int h = SDL_max((area.h - (rows - 1) * gap) / rows, SL_DAY_TARGET_PX);
    const int w = (area.w - (columns - 1) * gap) / columns;
    return (SDL_Rect){area.x + index % columns * (w + gap), area.y + index / columns * (h + gap), w, h};
}
