/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What comes of the chosen strip over two of its settings: lines of equal outcome, stripes where
 * the limits hold, and where it stands now. Invariant: no more than 12 % developer is drawn.
 */
#include <math.h>
#include <stdio.h>

#include "base/language.h"
#include "base/memory.h"
#include "report/limits/aims_words.h"
#include "view/draw/plot.h"
#include "view/draw/words.h"
#include "view/panels/turn.h"
#include "view/window/show.h"

static const double LEVELS[SL_MAP_LAYERS][5] = {
    [SL_MAP_LEFT] = {0.05, 0.10, 0.25, 0.50, 0.75},
    [SL_MAP_BASE] = {0.05, 0.10, 0.20, 0.40, 0.60},
    [SL_MAP_STRESS] = {0.02, 0.05, 0.10, 0.20, 0.40},
};
enum { N_LEVELS = 5, MOST_PIECES = 2 * 25 * 25 };

static sl_axis axis_of(sl_setting setting, double from, double to)
{
    const sl_setting_range range = sl_setting_limits(setting);
    return (sl_axis){setting, fmax(from, range.least), fmin(to, range.most), 0};
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
        *y = axis_of(SL_SETTING_WARMER, -10.0, 10.0);
    }
}

static const char *name_of(sl_setting setting)
{
    static const char *const names[SL_SETTINGS] = {
        [SL_SETTING_STRENGTH] = N_("developer, % as labelled"),
        [SL_SETTING_WATER] = N_("parts of water"),
        [SL_SETTING_RATIO] = N_("parts of liquid for one of powder"),
        [SL_SETTING_WARMER] = N_("warmer or cooler than in the scene, K (°C steps)"),
        [SL_SETTING_DWELL] = N_("time on the hair, min"),
        [SL_SETTING_AGE] = N_("age of the mix, min"),
        [SL_SETTING_GRAMS] = N_("g of mix for 1 g of hair"),
        [SL_SETTING_COVERED] = N_("covered"),
    };
    return names[setting];
}

/* One pattern over the whole field, seen through every square that is inside. */
static void show_inside(const sl_pen *pen, const sl_plot *plot, const sl_map *map)
{
    const SDL_Rect a = plot->area;
    const SDL_Rect clip = pen->sheet->clip_rect;
    for (int j = 0; j < map->y.n; j++) {
        for (int i = 0; i < map->x.n; i++) {
            const int at = j * map->x.n + i;
            const int left = a.x + SDL_max(0, (2 * i - 1) * a.w / (2 * (map->x.n - 1)));
            const int right = a.x + SDL_min(a.w, (2 * i + 1) * a.w / (2 * (map->x.n - 1)));
            const int top = a.y + a.h - SDL_min(a.h, (2 * j + 1) * a.h / (2 * (map->y.n - 1)));
            const int bottom = a.y + a.h - SDL_max(0, (2 * j - 1) * a.h / (2 * (map->y.n - 1)));
            const SDL_Rect square = {left, top, right - left, bottom - top};
            SDL_Rect seen;
            if (!map->inside[at] || !SDL_IntersectRect(&square, &clip, &seen)) {
                continue;
            }
            SDL_SetClipRect(pen->sheet, &seen);
            sl_pen_pattern(pen, a, SL_PATTERN_STRIPES, SL_INK_QUIET);
            if (map->goal[at]) {
                sl_pen_pattern(pen, a, SL_PATTERN_DOTS, SL_MARK_CONTROL);
            }
        }
    }
    SDL_SetClipRect(pen->sheet, &clip);
}

/* The level on a plate, in the middle of its line. */
static void show_level(const sl_pen *pen, int x, int y, double level)
{
    char text[16];
    sl_put_share(level, text, sizeof text);
    const SDL_Point size = sl_pen_size(pen, SL_TYPE_SMALL, SL_INK_TEXT, 0, text);
    const int pad = sl_pen_px(pen, 3.0);
    const SDL_Rect plate = {x - size.x / 2 - pad, y - size.y / 2, size.x + 2 * pad, size.y};
    sl_pen_fill(pen, plate, SL_GROUND_SHEET);
    sl_pen_place(pen, SL_TYPE_SMALL, SL_INK_TEXT, plate, SL_ALIGN_CENTRE, text);
}

static void show_lines(const sl_stage *stage, const sl_plot *plot, const sl_map *map,
                       sl_contour_piece *pieces)
{
    const sl_pen *pen = &stage->pen;
    const SDL_Rect a = plot->area;
    for (int k = 0; k < N_LEVELS; k++) {
        const double level = LEVELS[stage->chosen.map_layer][k];
        const int n = sl_contour(map->value[stage->chosen.map_layer], map->x.n, map->y.n, level, pieces);
        for (int i = 0; i < n; i++) {
            const double x[2] = {a.x + pieces[i].x0 / (map->x.n - 1) * (a.w - 1),
                                 a.x + pieces[i].x1 / (map->x.n - 1) * (a.w - 1)};
            const double y[2] = {a.y + (1.0 - pieces[i].y0 / (map->y.n - 1)) * (a.h - 1),
                                 a.y + (1.0 - pieces[i].y1 / (map->y.n - 1)) * (a.h - 1)};
            sl_pen_curve(pen, x, y, 2, 2.0 * pen->unit, 0.0, SL_MARK_CONTROL);
        }
        if (n > 0) {
            const sl_contour_piece *middle = &pieces[n / 2];
            show_level(pen, a.x + (int)lround(middle->x0 / (map->x.n - 1) * a.w),
                       a.y + (int)lround((1.0 - middle->y0 / (map->y.n - 1)) * a.h), level);
        }
    }
}

/* A ring with a cross, light and dark, so that it shows on stripes. */
static void show_now(const sl_stage *stage, const sl_plot *plot, const sl_map *map)
{
    const sl_pen *pen = &stage->pen;
    const sl_scene *scene = sl_stage_scene_now(stage);
    const double at_x = sl_setting_value(scene, map->arm, map->x.setting);
    const double at_y = map->y.setting == SL_SETTING_WARMER
                            ? scene->shift_k
                            : sl_setting_value(scene, map->arm, map->y.setting);
    const int x =
        (int)lround(SDL_clamp(sl_plot_x(plot, at_x), plot->area.x, plot->area.x + plot->area.w - 1));
    const int y =
        (int)lround(SDL_clamp(sl_plot_y(plot, at_y), plot->area.y, plot->area.y + plot->area.h - 1));
    const int half = sl_pen_px(pen, 9.0);
    const int thick = sl_pen_px(pen, 3.0);
    const SDL_Rect box = {x - half, y - half, 2 * half + 1, 2 * half + 1};
    sl_pen_fill(pen, sl_rect_inset(box, -2), SL_GROUND_SHEET);
    sl_pen_frame(pen, box, sl_pen_px(pen, 2.0), SL_MARK_CONTROL);
    sl_pen_fill(pen, (SDL_Rect){x - thick / 2, y - half, thick, 2 * half + 1}, SL_MARK_CONTROL);
    sl_pen_fill(pen, (SDL_Rect){x - half, y - thick / 2, 2 * half + 1, thick}, SL_MARK_CONTROL);
}

static void put_legend(const sl_stage *stage, char *text, size_t size)
{
    char goal[640];
    sl_goal_words(sl_stage_scene(stage), goal, sizeof goal);
    snprintf(
        text, size,
        _("Square with a cross: as it is set now. Stripes: inside the limits that are set (base, stress, "
          "time, the "
          "label, 12 %%). Dots on stripes: and at the goal, %s. Lines: once washed and dry, "
          "in the "
          "zone that holds most; from middle values alone, the doubt is under “How long”. A classroom "
          "example."),
        goal);
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

static void show_map(const sl_stage *stage, SDL_Rect area)
{
    const sl_pen *pen = &stage->pen;
    const sl_map *map = stage->solved.study.map;
    sl_error error = {.code = SL_OK};
    sl_contour_piece *pieces = sl_new(MOST_PIECES, sizeof *pieces, "drawing a map", &error);
    const sl_plot_axis x = {map->x.from, map->x.to, name_of(map->x.setting), 1.0};
    const sl_plot_axis y = {map->y.from, map->y.to, name_of(map->y.setting), 1.0};
    const sl_plot plot = sl_plot_draw(pen, area, x, y);
    show_inside(pen, &plot, map);
    if (pieces != NULL) {
        show_lines(stage, &plot, map, pieces);
    }
    show_now(stage, &plot, map);
    sl_free(pieces);
}

int sl_map_page_show(const sl_stage *stage, SDL_Rect body)
{
    const sl_pen *pen = &stage->pen;
    char text[2 * SL_SHOW_LINE];
    int y = body.y - stage->open.scroll[0];
    SDL_SetClipRect(pen->sheet, &body);
    snprintf(text, sizeof text, _("What would come of strip %d, %s?"), stage->chosen.arm + 1,
             sl_arm_title(&sl_stage_scene(stage)->arms[stage->chosen.arm]));
    y += sl_pen_wrap(pen, SL_TYPE_HEAD, SL_INK_TEXT, (SDL_Rect){body.x, y, body.w, 0}, false, text);
    const char *not = why_not(stage);
    if (not != NULL) {
        y += sl_pen_wrap(pen, SL_TYPE_BODY, SL_INK_TEXT, (SDL_Rect){body.x, y, body.w, 0}, false, not );
    } else {
        put_legend(stage, text, sizeof text);
        const int gap = sl_pen_px(pen, 6.0);
        const int room = body.y + body.h - y - stage->open.scroll[0];
        const int legend = sl_pen_size(pen, SL_TYPE_SMALL, SL_INK_TEXT, body.w, text).y + gap;
        const int h = SDL_max(room - legend, SDL_min(room, sl_pen_px(pen, 300.0)));
        show_map(stage, (SDL_Rect){body.x, y + gap, body.w, h - gap});
        y += h +
             sl_pen_wrap(pen, SL_TYPE_SMALL, SL_INK_TEXT, (SDL_Rect){body.x, y + h, body.w, 0}, false, text) +
             gap;
    }
    SDL_SetClipRect(pen->sheet, NULL);
    return y + stage->open.scroll[0] - body.y;
}
