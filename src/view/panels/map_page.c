/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What comes of the chosen strip over two of its settings: lines of equal outcome, stripes where
 * the limits hold, and where it stands now. Invariant: no more than 12 % developer is drawn.
 */
#include <math.h>
#include <stdio.h>

#include "base/language.h"
#include "report/rank/map.h"
#include "view/draw/graph_pen.h"
#include "view/draw/words.h"
#include "view/panels/turn.h"
#include "view/window/show.h"

static sl_axis axis_of(sl_setting setting, double from, double to)
{
    const sl_knob *const range = &sl_knobs[setting];
    return (sl_axis){setting, fmax(from, range->least), fmin(to, range->most), 0};
}

/* Hair as warm as on a head has no map: warmer only as far as whole kelvins keep it below. */
static double most_warmer(const sl_scene *scene)
{
    double coldest_c = 0.0, warmest_c = 0.0;
    sl_scene_warmth(scene, &coldest_c, &warmest_c);
    return fmax(0.0, fmin(10.0, ceil(SL_HEAD_FROM_C - (warmest_c - scene->shift_k)) - 1.0));
}

void sl_map_axes(const sl_stage *stage, sl_axis *x, sl_axis *y)
{
    const sl_scene *scene = sl_stage_scene(stage);
    if (stage->chosen.axes == 0) {
        *x = sl_setting_applies(scene, stage->chosen.arm, SL_SETTING_STRENGTH)
                 ? axis_of(SL_SETTING_STRENGTH, 0.0, 12.0)
                 : axis_of(SL_SETTING_GRAMS, 1.0, 12.0);
        *y = axis_of(SL_SETTING_DWELL, 5.0, 60.0);
    } else {
        *x = sl_setting_applies(scene, stage->chosen.arm, SL_SETTING_RATIO)
                 ? axis_of(SL_SETTING_RATIO, 1.0, 5.0)
                 : axis_of(SL_SETTING_GRAMS, 1.0, 12.0);
        *y = axis_of(SL_SETTING_WARMER, -10.0, most_warmer(scene));
    }
}

static const char *why_not(const sl_stage *stage)
{
    if (!sl_stage_on_bench(stage)) {
        return _("No minutes are given for hair on a head: no map is drawn.");
    }
    if (stage->entered.of_person) {
        return _("The form about a person is being filled in: maps are for the classroom. Forget the form "
                 "first (F, Delete).");
    }
    if (!sl_setting_applies(sl_stage_scene(stage), stage->chosen.arm, SL_SETTING_DWELL)) {
        return _("This strip has no mix inside the model: there is nothing to set.");
    }
    return stage->solved.study.map == NULL ? _("solving …") : NULL;
}

/* The map, its key and words beside it, or below where they would leave it no room; returns the height. */
static int show_map(const sl_stage *stage, SDL_Rect area)
{
    const sl_pen *pen = &stage->pen;
    const sl_graph_pen drawn = sl_graph_pen_in_window(pen);
    const sl_map_page page = {
        .scene = sl_stage_scene_now(stage), .map = stage->solved.study.map, .shows = stage->chosen.map_layer};
    sl_arena arena = {NULL};
    sl_error error = {.code = SL_OK};
    const sl_graph *const graph = sl_graph_of_map(&arena, &page, &error);
    const bool beside = area.w >= sl_pen_px(pen, 800.0);
    const int gap = sl_pen_px(pen, 16.0);
    SDL_Rect map = area, words = area;
    if (beside) {
        words.w = area.w * 28 / 100;
        words.x += area.w - words.w;
        map.w -= words.w + gap;
    } else {
        map.h = area.h * 70 / 100;
        words.y += map.h + gap;
    }
    if (graph != NULL) {
        const char *const said[] = {graph->note, graph->says, graph->foot};
        sl_graph_draw(graph, &drawn, sl_graph_box_of(map));
        words.y += (int)lround(sl_graph_draw_key(graph, &drawn, sl_graph_box_of(words)));
        for (size_t i = 0; i < sizeof said / sizeof said[0]; i++) {
            words.y += gap / 2 + sl_pen_wrap(pen, SL_TYPE_SMALL, SL_INK_TEXT, words, false, said[i]);
        }
    }
    sl_arena_free(&arena);
    return SDL_max(map.y + map.h, words.y) - area.y;
}

int sl_map_page_show(const sl_stage *stage, SDL_Rect body)
{
    const sl_pen *pen = &stage->pen;
    char text[SL_SHOW_LINE];
    int y = body.y - stage->open.scroll[0];
    SDL_SetClipRect(pen->sheet, &body);
    snprintf(text, sizeof text, _("What would come of strip %d, %s?"), stage->chosen.arm + 1,
             sl_arm_title(&sl_stage_scene(stage)->arms[stage->chosen.arm]));
    y += sl_pen_wrap(pen, SL_TYPE_HEAD, SL_INK_TEXT, (SDL_Rect){body.x, y, body.w, 0}, false, text);
    const char *not = why_not(stage);
    if (not != NULL) {
        y += sl_pen_wrap(pen, SL_TYPE_BODY, SL_INK_TEXT, (SDL_Rect){body.x, y, body.w, 0}, false, not );
    } else {
        const int gap = sl_pen_px(pen, 6.0);
        const int room = body.y + body.h - y - stage->open.scroll[0];
        y += gap + show_map(stage, (SDL_Rect){body.x, y + gap, body.w, room - gap});
    }
    SDL_SetClipRect(pen->sheet, NULL);
    return y + stage->open.scroll[0] - body.y;
}
