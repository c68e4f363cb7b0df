/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Which strip does best in the chosen zone: at the same minute and at the same colour left,
 * with ties, and colour left against hair stress as a picture. Invariant: every figure is a
 * range over the ensemble; equal places are said to be ties.
 */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/language.h"
#include "base/minute.h"
#include "report/rank/rank.h"
#include "view/draw/graph_pen.h"
#include "view/draw/words.h"
#include "view/panels/turn.h"
#include "view/window/show.h"

enum { COLUMNS = 4 };

typedef struct table {
    const sl_stage *stage;
    const sl_pen *pen;
    const sl_rank *rank;
    int x, y, w;
    int n, arm[SL_MAX_ARMS]; /* as sl_rank_order() has them by the colour left */
} table;

/* "1 tie   31 % (22-45)", or that the strip mostly does not get there. */
static void put_standing(const table *t, int arm, sl_standing_of what, char *place, char *range, size_t size)
{
    const int zone = t->stage->chosen.zone;
    if (sl_rank_place(t->rank, arm, zone, what) == 0) {
        snprintf(place, size, "–");
        snprintf(range, size, _("mostly never"));
        return;
    }
    sl_rank_place_words(t->rank, arm, zone, what, place, size);
    sl_rank_middle_words(sl_rank_middle(t->rank, arm, zone, what), range, size);
}

static int column_x(const table *t, int column)
{
    static const double shares[COLUMNS] = {0.40, 0.60, 0.80, 1.0}; /* right ends */
    return t->x + (int)lround(t->w * shares[column]);
}

static void show_row(table *t, int arm)
{
    static const sl_standing_of shown[COLUMNS - 1] = {SL_LEFT_THEN, SL_BASE_GONE, SL_STRESS_GONE};
    const int line = sl_text_line_height(t->pen->text, SL_TYPE_BODY);
    const int small = sl_text_line_height(t->pen->text, SL_TYPE_SMALL);
    char text[SL_SHOW_LINE];
    const SDL_Rect name = {t->x, t->y, column_x(t, 0) - t->x - sl_pen_px(t->pen, 8.0), line + small};
    const char *word = sl_arm_title(&sl_stage_scene(t->stage)->arms[arm]);
    snprintf(text, sizeof text, "%d  %s", arm + 1, word);
    if (arm == t->stage->chosen.arm) {
        sl_pen_fill(t->pen, (SDL_Rect){t->x - 2, t->y, sl_pen_px(t->pen, 4.0), line + small},
                    SL_MARK_CONTROL);
    }
    SDL_Rect inner = name;
    inner.x += sl_pen_px(t->pen, 8.0);
    inner.w -= sl_pen_px(t->pen, 8.0);
    sl_pen_wrap(t->pen, SL_TYPE_SMALL, SL_INK_TEXT, inner, false, text);
    for (int i = 0; i < COLUMNS - 1; i++) {
        char place[48];
        char range[48];
        put_standing(t, arm, shown[i], place, range, sizeof place);
        sl_pen_write(t->pen, SL_TYPE_STRONG, SL_INK_TEXT, column_x(t, i), t->y, SL_ALIGN_LEFT, place);
        sl_pen_write(t->pen, SL_TYPE_SMALL, SL_INK_TEXT, column_x(t, i), t->y + line, SL_ALIGN_LEFT, range);
    }
    t->y += line + small + sl_pen_px(t->pen, 5.0);
    sl_pen_fill(t->pen, (SDL_Rect){t->x, t->y - sl_pen_px(t->pen, 3.0), t->w, 1}, SL_MARK_GRID);
}

static void show_heads(table *t)
{
    char share[16];
    char text[COLUMNS - 1][SL_SHOW_LINE];
    int high = 0;
    sl_put_share(t->stage->chosen.share, share, sizeof share);
    sl_minute_words(SL_MINUTE_PLANNED, text[0], sizeof text[0], _("Left after %.0f min, washed and dry"),
                    t->rank->request.minute);
    snprintf(text[1], sizeof text[1], _("Base moved at %s left"), share);
    snprintf(text[2], sizeof text[2], _("Hair stress at %s left"), share);
    for (int i = 0; i < COLUMNS - 1; i++) {
        const SDL_Rect area = {column_x(t, i), t->y, t->w / 5 - sl_pen_px(t->pen, 8.0), 0};
        high = SDL_max(high, sl_pen_wrap(t->pen, SL_TYPE_SMALL, SL_INK_QUIET, area, false, text[i]));
    }
    t->y += high + sl_pen_px(t->pen, 4.0);
    sl_pen_fill(t->pen, (SDL_Rect){t->x, t->y - sl_pen_px(t->pen, 2.0), t->w, 1}, SL_MARK_CONTROL);
}

static void show_table(table *t)
{
    char text[2 * SL_SHOW_LINE] = "";
    show_heads(t);
    for (int i = 0; i < t->n; i++) {
        show_row(t, t->arm[i]);
    }
    snprintf(text, sizeof text,
             _("Place, the middle of %ld model runs, and in brackets where eight in ten lie: of hair rinsed "
               "at that minute, washed and dry. Less is better everywhere. A strip "
               "is before another when it has less in nine of ten runs that share their numbers, else they "
               "are tied; strips without a mix, outside the model or without this colour have no "
               "place."),
             t->rank->members);
    t->y += sl_pen_wrap(t->pen, SL_TYPE_SMALL, SL_INK_QUIET, (SDL_Rect){t->x, t->y, t->w, 0}, false, text);
}

/* Four cells in the table's columns, as high as the highest. */
static void show_cells(table *t, const char *const cell[COLUMNS], sl_role ink)
{
    int high = 0;
    for (int i = 0; i < COLUMNS; i++) {
        const int x = i == 0 ? t->x : column_x(t, i - 1);
        const SDL_Rect area = {x, t->y, column_x(t, i) - x - sl_pen_px(t->pen, 8.0), 0};
        high = SDL_max(high, sl_pen_wrap(t->pen, SL_TYPE_SMALL, ink, area, false, cell[i]));
    }
    t->y += high;
}

/* What brings the first of the table there, and three readings that a place mixes up. */
static void show_why(table *t, const sl_rank_page *page, const char *why)
{
    const char *const heads[COLUMNS] = {_("From the central values alone"), _("half gone after"),
                                        _("left at the end"), _("colour : base")};
    char text[2 * SL_SHOW_LINE] = "";
    t->y += sl_pen_px(t->pen, 8.0);
    t->y += sl_pen_wrap(t->pen, SL_TYPE_BODY, SL_INK_TEXT, (SDL_Rect){t->x, t->y, t->w, 0}, false, why) +
            sl_pen_px(t->pen, 8.0);
    for (int row = -1; row < t->n; row++) {
        sl_readings_said said = {.half = ""};
        const char *cell[COLUMNS] = {heads[0], heads[1], heads[2], heads[3]};
        if (row >= 0) {
            sl_rank_readings_words(page, t->arm[row], t->stage->chosen.zone, &said);
            snprintf(text, sizeof text, "%d  %s", t->arm[row] + 1,
                     sl_arm_title(&sl_stage_scene(t->stage)->arms[t->arm[row]]));
            cell[0] = text;
            cell[1] = said.half;
            cell[2] = said.end;
            cell[3] = said.selectivity;
        }
        show_cells(t, cell, row < 0 ? SL_INK_QUIET : SL_INK_TEXT);
    }
}

/* ---- the picture -------------------------------------------------------------------------- */

/* Returns the height, with the note below. */
static int show_picture(const sl_pen *pen, const sl_graph *graph, SDL_Rect area)
{
    const sl_graph_pen drawn = sl_graph_pen_in_window(pen);
    const int gap = sl_pen_px(pen, 6.0);
    area.h -= gap + sl_pen_size(pen, SL_TYPE_SMALL, SL_INK_TEXT, area.w, graph->note).y;
    sl_graph_draw(graph, &drawn, sl_graph_box_of(area));
    area.y += area.h + gap;
    return area.h + gap + sl_pen_wrap(pen, SL_TYPE_SMALL, SL_INK_TEXT, area, false, graph->note);
}

/* ---- the page ------------------------------------------------------------------------------- */

int sl_rank_page_show(const sl_stage *stage, SDL_Rect body)
{
    const sl_pen *pen = &stage->pen;
    const bool beside = body.w >= sl_pen_px(pen, 1000.0);
    char text[SL_SHOW_LINE];
    table t = {.stage = stage,
               .pen = pen,
               .rank = stage->solved.study.rank,
               .x = body.x,
               .y = body.y - stage->open.scroll[0]};
    SDL_SetClipRect(pen->sheet, &body);
    snprintf(text, sizeof text, _("Which strip does best in “%s”?"),
             sl_zone_title(&sl_stage_scene(stage)->zones[stage->chosen.zone]));
    t.y += sl_pen_wrap(pen, SL_TYPE_HEAD, SL_INK_TEXT, (SDL_Rect){body.x, t.y, body.w, 0}, false, text);
    t.y += sl_pen_wrap(
               pen, SL_TYPE_BODY, SL_INK_TEXT, (SDL_Rect){body.x, t.y, body.w, 0}, false,
               _("A classroom example. Fast is not gentle: compare at one minute, then at one share of the "
                 "colour.")) +
           sl_pen_px(pen, 8.0);
    const int top = t.y;
    t.w = beside ? body.w * 55 / 100 : body.w;
    if (t.rank != NULL) {
        t.n = sl_rank_order(t.rank, stage->chosen.zone, SL_LEFT_THEN, t.arm);
    }
    if (stage->entered.of_person || !sl_stage_on_bench(stage) || t.rank == NULL || t.n == 0) {
        t.y += sl_pen_wrap(
            pen, SL_TYPE_BODY, SL_INK_TEXT, (SDL_Rect){body.x, t.y, body.w, 0}, false,
            stage->entered.of_person ? _("The form about a person is being filled in: ranks are for the "
                                         "classroom. Forget the form first (F, Delete).")
            : !sl_stage_on_bench(stage)
                ? _("No minutes are given for hair on a head: nothing is ranked here.")
            : t.rank == NULL ? _("counting …")
                             : _("No strip has a place in this zone: it holds no direct dye."));
        SDL_SetClipRect(pen->sheet, NULL);
        return t.y + stage->open.scroll[0] - body.y;
    }
    const sl_story *const story =
        stage->solved.after.timeline != NULL ? &stage->solved.after : &stage->solved.before;
    const sl_rank_page page = {.timeline = story->timeline, .rank = t.rank, .only = stage->chosen.zone};
    sl_arena arena = {NULL};
    sl_error error = {.code = SL_OK};
    const sl_graph *const graph = sl_graph_of_rank(&arena, &page, page.only, &error);
    int bottom = top;
    show_table(&t);
    if (graph != NULL) {
        show_why(&t, &page, graph->says);
        const int gap = sl_pen_px(pen, 24.0), room = body.y + body.h - top;
        const SDL_Rect beside_it = {body.x + t.w + gap, top, body.w - t.w - gap, room},
                       below = {body.x, t.y, body.w, sl_pen_px(pen, 380.0)};
        const SDL_Rect picture = beside ? beside_it : below;
        bottom = picture.y + show_picture(pen, graph, picture);
    }
    sl_arena_free(&arena);
    SDL_SetClipRect(pen->sheet, NULL);
    return SDL_max(t.y, bottom) + stage->open.scroll[0] - body.y;
}
