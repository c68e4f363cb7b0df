/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The choices at the foot of answers, ranks, map and what was seen.
 */
#include "view/panels/turn.h"

#include <math.h>
#include <stdio.h>

#include "base/language.h"
#include "base/minute.h"
#include "view/draw/words.h"
#include "view/panels/said.h"
#include "view/window/acts.h"
#include "view/window/show.h"

static const double CONTROL = 236.0; /* units; wide enough for the longest words */
static const double SHARE_STEP = 0.05, SHARE_LEAST = 0.05, SHARE_MOST = 0.95;

/* Of the page that is open, and how many; on a head all answers are an order, and nothing is rinsed. */
static int turns_of(const sl_stage *stage, const sl_turn **turn)
{
    static const sl_turn rank[] = {SL_TURN_ZONE, SL_TURN_MINUTE, SL_TURN_SHARE};
    static const sl_turn seen[] = {SL_TURN_ZONE, SL_TURN_STRIP};
    static const sl_turn map[] = {SL_TURN_STRIP, SL_TURN_AXES, SL_TURN_LAYER};
    static const sl_turn answer[] = {SL_TURN_ZONE, SL_TURN_RINSED};
    const sl_stage_page page = stage->open.page;
    *turn = page == SL_PAGE_RANK ? rank : page == SL_PAGE_MAP ? map : page == SL_PAGE_SEEN ? seen : answer;
    return page == SL_PAGE_RANK || page == SL_PAGE_MAP ? 3
           : page == SL_PAGE_SEEN                      ? 2
           : page == SL_PAGE_ANSWER                    ? 1 + (sl_stage_on_bench(stage) ? 1 : 0)
                                                       : 0;
}

int sl_page_turns(const sl_stage *stage)
{
    const sl_turn *turn = NULL;
    return turns_of(stage, &turn);
}

sl_turn_places sl_turn_place(const sl_stage *stage)
{
    const sl_pen *pen = &stage->pen;
    const int margin = sl_pen_px(pen, 12.0);
    const int gap = sl_pen_px(pen, 6.0);
    const int target = stage->laid.layout.target;
    const int close_w = sl_pen_px(pen, 104.0);
    const int room = pen->sheet->w - 3 * margin - close_w;
    const sl_turn *turn = NULL;
    const int n = turns_of(stage, &turn);
    const int per_row = SDL_max(1, SDL_min(n, (int)(room / (CONTROL * pen->unit))));
    const int rows = (n + per_row - 1) / per_row;
    const int w = SDL_min(room / per_row, sl_pen_px(pen, CONTROL * 1.2));
    const int top = pen->sheet->h - margin - rows * (target + gap) + gap;
    sl_turn_places p = {.n = n};
    for (int i = 0; i < p.n; i++) {
        const int x = margin + i % per_row * w;
        const int y = top + i / per_row * (target + gap);
        p.turn[i] = turn[i];
        p.back[i] = (SDL_Rect){x, y, target, target};
        p.on[i] = (SDL_Rect){x + w - gap - target, y, target, target};
        p.words[i] = (SDL_Rect){x + target + gap / 2, y, w - 2 * target - 2 * gap, target};
    }
    p.close = (SDL_Rect){pen->sheet->w - margin - close_w, pen->sheet->h - margin - target, close_w, target};
    p.body = (SDL_Rect){margin, margin, pen->sheet->w - 2 * margin, top - 2 * margin};
    return p;
}

double sl_rank_minute(const sl_stage *stage)
{
    return fmax(floor(stage->chosen.now_min + 1e-9), 1.0);
}

int sl_answers_same_zone(const sl_stage *stage)
{
    const bool same = stage->chosen.mode == SL_SAME_COLOUR && sl_stage_on_bench(stage) &&
                      sl_zone_direct(sl_stage_scene(stage), stage->chosen.zone);
    return same ? stage->chosen.zone : -1;
}

static void put_words(const sl_stage *stage, sl_turn turn, char *name, char *value, size_t size)
{
    static const char *const layers[SL_MAP_LAYERS] = {[SL_MAP_LEFT] = N_("colour left"),
                                                      [SL_MAP_BASE] = N_("base moved"),
                                                      [SL_MAP_STRESS] = N_("hair stress")};
    const sl_scene *scene = sl_stage_scene(stage);
    switch (turn) {
    case SL_TURN_ZONE:
        snprintf(name, size, _("Zone: Up, Down"));
        snprintf(value, size, "%s", sl_zone_title(&scene->zones[stage->chosen.zone]));
        break;
    case SL_TURN_MINUTE:
        snprintf(name, size, _("Minute: Left, Right"));
        sl_minute_words(SL_MINUTE_PLANNED, value, size, _("%.0f min"), sl_rank_minute(stage));
        break;
    case SL_TURN_SHARE:
        snprintf(name, size, _("Share left: + and −"));
        sl_put_share(stage->chosen.share, value, size);
        break;
    case SL_TURN_STRIP:
        snprintf(name, size, _("Strip: 1 to 9, [ ]"));
        snprintf(value, size, "%d  %s", stage->chosen.arm + 1, sl_arm_title(&scene->arms[stage->chosen.arm]));
        break;
    case SL_TURN_AXES:
        snprintf(name, size, _("Settings: Left, Right"));
        snprintf(value, size, stage->chosen.axes == 0 ? _("mix and time") : _("mix and warmth"));
        break;
    case SL_TURN_RINSED:
        snprintf(name, size, _("Rinsed: Left, Right"));
        snprintf(value, size,
                 sl_answers_same_zone(stage) < 0 ? _("each by its minute") : _("at the same colour left"));
        break;
    case SL_TURN_LAYER:
    default:
        snprintf(name, size, _("Lines: Up, Down"));
        snprintf(value, size, "%s", layers[stage->chosen.map_layer]);
        break;
    }
}

static void show_turns(const sl_stage *stage, const sl_turn_places *places)
{
    const sl_pen *pen = &stage->pen;
    for (int i = 0; i < places->n; i++) {
        char name[SL_SHOW_LINE];
        char value[SL_SHOW_LINE];
        const SDL_Rect words = places->words[i];
        const SDL_Rect upper = {words.x, words.y, words.w, words.h / 2};
        const SDL_Rect lower = {words.x, words.y + words.h / 2, words.w, words.h / 2};
        put_words(stage, places->turn[i], name, value, sizeof name);
        sl_action_draw(stage, places->back[i], SL_DO_TURN_BACK, (int)places->turn[i]);
        sl_action_draw(stage, places->on[i], SL_DO_TURN_ON, (int)places->turn[i]);
        if (words.h < 2 * sl_text_line_height(pen->text, SL_TYPE_SMALL)) {
            sl_pen_place(pen, SL_TYPE_STRONG, SL_INK_TEXT, words, SL_ALIGN_CENTRE, value);
            continue;
        }
        sl_pen_place(pen, SL_TYPE_STRONG, SL_INK_TEXT, upper, SL_ALIGN_CENTRE, value);
        sl_pen_place(pen, SL_TYPE_SMALL, SL_INK_QUIET, lower, SL_ALIGN_CENTRE, name);
    }
    sl_action_draw(stage, places->close, SL_DO_CLOSE, 0);
}

SDL_Rect sl_turn_control(const sl_stage *stage, sl_action_id action, int turn)
{
    const sl_turn_places p = sl_turn_place(stage);
    int i = 0;
    if (action == SL_DO_CLOSE) {
        return p.close;
    }
    while (i < p.n && (int)p.turn[i] != turn) {
        i++;
    }
    if (i == p.n) {
        return (SDL_Rect){0};
    }
    return action == SL_DO_TURN_BACK ? p.back[i] : p.on[i];
}

SDL_Rect sl_turn_room(const sl_stage *stage)
{
    return sl_turn_place(stage).body;
}

int sl_turn_page_show(const sl_stage *stage)
{
    const sl_turn_places places = sl_turn_place(stage);
    const int h = sl_said_draw(stage, places.body, stage->open.scroll[0]);
    show_turns(stage, &places);
    return h - places.body.h;
}

void sl_stage_turn(sl_stage *stage, sl_turn turn, int by)
{
    const sl_scene *scene = sl_stage_scene(stage);
    stage->dirty = true;
    switch (turn) {
    case SL_TURN_ZONE:
        sl_stage_choose_zone(stage, stage->chosen.zone + by);
        break;
    case SL_TURN_MINUTE:
        sl_stage_go(stage, sl_rank_minute(stage) + by);
        break;
    case SL_TURN_SHARE:
        stage->chosen.share = SDL_clamp(stage->chosen.share + by * SHARE_STEP, SHARE_LEAST, SHARE_MOST);
        stage->read.stale = stage->read.remeet = true;
        break;
    case SL_TURN_STRIP:
        sl_stage_choose_arm(stage, (stage->chosen.arm + by + scene->n_arms) % scene->n_arms);
        break;
    case SL_TURN_AXES:
        stage->chosen.axes = 1 - stage->chosen.axes;
        break;
    case SL_TURN_RINSED:
        sl_act_mode(stage, 0, by); /* on a head it goes back by itself */
        break;
    case SL_TURN_LAYER:
    default:
        stage->chosen.map_layer =
            (sl_map_layer)(((int)stage->chosen.map_layer + by + SL_MAP_LAYERS) % SL_MAP_LAYERS);
        break;
    }
}
