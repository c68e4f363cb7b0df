/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Strips of a step as they are at their minute, each with its figure and bar below; what was
 * predicted stands as a mark on the bar and as a bar beside what was found. Patterns, marks and
 * words say which is which; no colour has to be told apart.
 */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/append.h"
#include "lesson/words.h"
#include "swatch/strands.h"
#include "view/draw/words.h"
#include "view/lesson/lesson_desk.h"
#include "view/lesson/lesson_words.h"

static const double SAME = 0.005; /* shares that are told with the same whole per cent */

static const sl_lesson_scene *scene_of(const sl_desk *desk, int scene)
{
    return &desk->wish.lesson->scene[scene];
}

bool sl_desk_lay(sl_desk *desk, sl_error *error)
{
    int scene = 0;
    int zone = 0;
    const int *arm = NULL;
    const int n = sl_desk_strips(desk, &scene, &zone, &arm);
    for (int i = 0; i < n && i < desk->places.n; i++) {
        const SDL_Rect at = desk->places.strip[i];
        const sl_desk_strip one = sl_desk_strip_at(desk, i);
        if (!sl_strip_lay(&desk->strip[i], at.w, at.h, scene_of(desk, one.scene)->scene->n_zones,
                          (uint32_t)one.arm + 1U, error) ||
            !sl_lenses_fit(&desk->lenses[one.scene], scene_of(desk, one.scene)->scene,
                           desk->wish.eyes.viewing, error)) {
            return false;
        }
    }
    return true;
}

/* The hair of every zone at a minute since contact. */
static void read_hair(const sl_desk *desk, int scene, int arm, double minute, sl_strip_look *look)
{
    const sl_lesson_scene *const in = scene_of(desk, scene);
    const sl_optics *const optics = sl_lenses_for(&desk->lenses[scene], desk->wish.eyes.viewing);
    const sl_strands strands = sl_swatch_spread(SL_STRAND_CV, (uint32_t)arm + 1U);
    const double clock = in->scene->arms[arm].contact_min + minute;
    memset(look, 0, sizeof *look);
    look->bleed = SL_USUAL_BLEED;
    for (int zone = 0; zone < in->scene->n_zones; zone++) {
        sl_cell cell;
        sl_timeline_at(in->timeline, arm, zone, clock, optics, &cell);
        sl_strand_colours(&strands, optics, &cell.amounts, cell.colour.srgb, desk->wish.eyes.vision,
                          look->colour[zone]);
    }
}

/* Light brackets beside the zone that the step is about. */
static void mark_zone(const sl_pen *pen, SDL_Rect strip, int n_zones, int zone)
{
    const int h = strip.h / n_zones;
    const int t = sl_pen_px(pen, 2.0);
    const int out = sl_pen_px(pen, 4.0);
    if (n_zones < 2) {
        return;
    }
    const SDL_Rect side[2] = {{strip.x - out - t, strip.y + zone * h, t, h},
                              {strip.x + strip.w + out, strip.y + zone * h, t, h}};
    sl_pen_fill(pen, side[0], SL_MARK_FIELD);
    sl_pen_fill(pen, side[1], SL_MARK_FIELD);
}

/* ---- predicted and found -------------------------------------------------------------------------- */

static int put_bar(const sl_desk *desk, SDL_Rect area, const char *text, double share, sl_bar_pattern pattern)
{
    const sl_pen *const pen = &desk->pen;
    int y = area.y;
    y += sl_pen_wrap(pen, SL_TYPE_BODY, SL_INK_TEXT, (SDL_Rect){area.x, y, area.w, 0}, false, text) +
         sl_pen_px(pen, 2.0);
    const SDL_Rect track = {area.x, y, area.w, sl_pen_px(pen, 14.0)};
    const SDL_Rect fill = {track.x + 1, track.y + 1, (int)lround((track.w - 2) * SDL_clamp(share, 0.0, 1.0)),
                           track.h - 2};
    sl_pen_fill(pen, track, SL_GROUND_SHEET);
    sl_pen_pattern(pen, fill, pattern, SL_MARK_CONTROL);
    if (fill.w > 0) { /* a whole edge, so that a pattern ends where it should */
        sl_pen_fill(pen, (SDL_Rect){fill.x + fill.w - 1, fill.y, sl_pen_px(pen, 1.0), fill.h},
                    SL_MARK_CONTROL);
    }
    sl_pen_frame(pen, track, 1, SL_MARK_CONTROL);
    return y + track.h + sl_pen_px(pen, 6.0);
}

int sl_desk_put_compared(const sl_desk *desk, SDL_Rect area)
{
    const sl_number *predicted = NULL;
    const sl_number *found = NULL;
    const char *const language = sl_desk_language(desk);
    if (!sl_session_compared(&desk->session, &predicted, &found)) {
        return area.y;
    }
    if (!predicted || predicted->measured == SL_AS_WORD || found->measured == SL_AS_WORD) {
        char text[SL_DESK_LINE];
        snprintf(text, sizeof text, "%s: %s", sl_lesson_said(SL_SAID_RUN_GAVE, language), found->text);
        return area.y + sl_pen_wrap(&desk->pen, SL_TYPE_BODY, SL_INK_TEXT, area, false, text);
    }
    /* Shares (odds are one too) over the whole, all else over the larger of the two. */
    const bool whole = found->measured == SL_AS_SHARE || found->measured == SL_AS_ODDS;
    const double top = whole ? 1.0 : fmax(fmax(predicted->value, found->value), 1e-9);
    char text[SL_DESK_LINE];
    snprintf(text, sizeof text, "%s: %s", sl_shown_word(SL_SHOWN_PREDICTED, language), predicted->text);
    area.y = put_bar(desk, area, text, predicted->value / top, SL_PATTERN_STRIPES);
    snprintf(text, sizeof text, "%s: %s", sl_lesson_said(SL_SAID_RUN_GAVE, language), found->text);
    return put_bar(desk, area, text, found->value / top, SL_PATTERN_SOLID);
}

/* The share that was predicted for this strip: where the run's answer is what is read in this strip
 * at its last stop. False: the prediction is about something else. */
static bool predicted_here(const sl_desk *desk, double left, double *share)
{
    const sl_number *predicted = NULL;
    const sl_number *found = NULL;
    const sl_page_kind kind = sl_session_page(&desk->session)->kind;
    const bool at_end = (kind == SL_PAGE_RUN && !desk->running) || kind == SL_PAGE_EXPLAIN;
    if (!at_end || !sl_session_compared(&desk->session, &predicted, &found) || !predicted ||
        predicted->measured != SL_AS_SHARE || found->measured != SL_AS_SHARE ||
        fabs(found->value - left) > SAME) {
        return false;
    }
    *share = predicted->value;
    return true;
}

/* ---- below a strip ------------------------------------------------------------------------------- */

/* Number, bar, and below it the mark of the prediction with its word. */
static void put_figure(const sl_desk *desk, SDL_Rect area, double share)
{
    const sl_pen *const pen = &desk->pen;
    const int line = sl_text_line_height(pen->text, SL_TYPE_FIGURE);
    char number[32];
    double predicted = -1.0;
    sl_put_share(share, number, sizeof number);
    sl_pen_place(pen, SL_TYPE_FIGURE, SL_INK_TEXT, (SDL_Rect){area.x, area.y, area.w, line}, SL_ALIGN_CENTRE,
                 number);
    const SDL_Rect track = {area.x, area.y + line, area.w, sl_pen_px(pen, 12.0)};
    const int full = track.w - 2;
    sl_pen_fill(pen, track, SL_GROUND_SHEET);
    sl_pen_pattern(pen, (SDL_Rect){track.x + 1, track.y + 1, (int)lround(full * share), track.h - 2},
                   SL_PATTERN_SOLID, SL_MARK_CONTROL);
    sl_pen_frame(pen, track, 1, SL_MARK_CONTROL);
    if (predicted_here(desk, share, &predicted)) {
        char text[64];
        char said[16];
        const int size = sl_pen_px(pen, 8.0);
        const int x = track.x + 1 + (int)lround(full * predicted);
        sl_put_share(predicted, said, sizeof said);
        snprintf(text, sizeof text, "%s %s", sl_shown_word(SL_SHOWN_PREDICTED, sl_desk_language(desk)), said);
        sl_pen_triangle(pen, x, track.y + track.h + 1, size, false, SL_MARK_CONTROL);
        sl_pen_place(
            pen, SL_TYPE_SMALL, SL_INK_TEXT,
            (SDL_Rect){area.x, track.y + track.h + size, area.w, area.y + area.h - track.y - track.h - size},
            SL_ALIGN_CENTRE, text);
    }
}

/* "9 min" at a stop, the clock on the way to one. */
static void put_minute(const sl_desk *desk, double minute, char *text, size_t size)
{
    const sl_lesson *const lesson = desk->wish.lesson;
    char clock[24];
    const sl_page_kind kind = sl_session_page(&desk->session)->kind;
    if (kind == SL_PAGE_CASES) {
        snprintf(text, size, "%s", lesson->numbers[lesson->cases.at].text);
    } else if (kind != SL_PAGE_RUN || (!desk->running && desk->stop > 0)) {
        const int stop = kind == SL_PAGE_RUN ? desk->stop : lesson->run.n_stops;
        snprintf(text, size, "%s", lesson->numbers[lesson->run.stop[stop - 1]].text);
    } else {
        sl_put_clock(minute, clock, sizeof clock);
        snprintf(text, size, "%s min", clock);
    }
}

/* What is read under the strips of this step. */
static sl_quantity quantity_of(const sl_desk *desk)
{
    const bool cases = sl_session_page(&desk->session)->kind == SL_PAGE_CASES;
    return cases ? SL_COLOUR_LEFT : desk->wish.lesson->run.read;
}

static void put_caption(const sl_desk *desk, int scene, int zone)
{
    const sl_lesson *const lesson = desk->wish.lesson;
    const char *const language = sl_desk_language(desk);
    const double minute = sl_desk_minute(desk);
    char when[SL_NUMBER_TEXT];
    char text[SL_DESK_LINE];
    put_minute(desk, minute, when, sizeof when);
    const char *const name = sl_lesson_called_zone(lesson, &scene_of(desk, scene)->scene->zones[zone]);
    if (sl_desk_copies(desk) > 1) { /* then each has its minute below */
        snprintf(text, sizeof text, "%s, %s", sl_said_quantity(quantity_of(desk), language), name);
        sl_pen_wrap(&desk->pen, SL_TYPE_STRONG, SL_INK_TEXT, desk->places.caption, false, text);
        return;
    }
    const bool start = minute <= 0.0;
    snprintf(text, sizeof text, "%s, %s, %s %s", sl_said_quantity(quantity_of(desk), language), name,
             start ? sl_shown_word(SL_SHOWN_START, language) : sl_lesson_said(SL_SAID_AFTER, language),
             start ? "" : when);
    sl_pen_wrap(&desk->pen, SL_TYPE_STRONG, SL_INK_TEXT, desk->places.caption, false, text);
}

/* "fast"; with two scenes side by side each after its scene: "as assumed: fast". */
static void put_name(const sl_desk *desk, const sl_desk_strip *strip, SDL_Rect area)
{
    const sl_lesson *const lesson = desk->wish.lesson;
    const sl_lesson_scene *const in = scene_of(desk, strip->scene);
    const char *const arm = sl_lesson_called_arm(lesson, &in->scene->arms[strip->arm]);
    char text[SL_DESK_LINE];
    const bool two = sl_session_page(&desk->session)->kind != SL_PAGE_CASES && lesson->run.beside >= 0;
    snprintf(text, sizeof text, "%s%s%s", two ? sl_lesson_called(lesson, in->name) : "", two ? ": " : "",
             arm);
    if (sl_desk_copies(desk) > 1 && sl_session_page(&desk->session)->kind != SL_PAGE_CASES) {
        char when[SL_NUMBER_TEXT], clock[24];
        sl_put_clock(strip->minute, clock, sizeof clock);
        if (strip->stop < 0) {
            snprintf(when, sizeof when, "%s min", clock);
        } else {
            snprintf(when, sizeof when, "%s",
                     strip->stop == 0 ? sl_shown_word(SL_SHOWN_START, sl_desk_language(desk))
                                      : lesson->numbers[lesson->run.stop[strip->stop - 1]].text);
        }
        if (lesson->run.n_arms == 1 && !two) {
            snprintf(text, sizeof text, "%s", when);
        } else {
            sl_append(text, sizeof text, ", %s", when);
        }
    }
    SDL_SetClipRect(desk->pen.sheet, &area);
    sl_pen_wrap(&desk->pen, SL_TYPE_SMALL, SL_INK_TEXT, area, true, text);
    SDL_SetClipRect(desk->pen.sheet, NULL);
}

static void put_strip(sl_desk *desk, int i)
{
    const sl_desk_strip which = sl_desk_strip_at(desk, i);
    const int scene = which.scene;
    const int zone = which.zone;
    const int arm = which.arm;
    const sl_pen *const pen = &desk->pen;
    const sl_lesson_scene *const in = scene_of(desk, scene);
    const SDL_Rect at = desk->places.strip[i];
    sl_strip_look look;
    sl_cell cell;
    read_hair(desk, scene, arm, which.minute, &look);
    SDL_SetClipRect(pen->sheet, &desk->places.field);
    sl_strip_show(desk->strip[i], &desk->light, pen->sheet, at.x, at.y, 0, at.w, &look);
    mark_zone(pen, at, in->scene->n_zones, zone);
    const SDL_Rect rod = {at.x - sl_pen_px(pen, 3.0), at.y - sl_pen_px(pen, 3.0), at.w + sl_pen_px(pen, 6.0),
                          sl_pen_px(pen, 4.0)};
    sl_pen_fill(pen, rod, SL_MARK_HOOK);
    SDL_SetClipRect(pen->sheet, NULL);
    put_name(desk, &which, desk->places.name[i]);
    sl_lesson_cell(desk->wish.lesson, scene, arm, zone, which.minute, &cell);
    if (!sl_desk_figures(desk)) {
        return;
    }
    const double share = sl_cell_quantity(&cell, quantity_of(desk));
    if (sl_timeline_predicted(in->timeline, arm) && share >= 0.0) {
        put_figure(desk, desk->places.figure[i], share);
    } else {
        sl_pen_wrap(pen, SL_TYPE_SMALL, SL_INK_TEXT, desk->places.figure[i], true,
                    sl_lesson_said(SL_SAID_NOT_PREDICTED, sl_desk_language(desk)));
    }
}

bool sl_desk_put_strips(sl_desk *desk, sl_error *error)
{
    int scene = 0;
    int zone = 0;
    const int *arm = NULL;
    const int n = sl_desk_strips(desk, &scene, &zone, &arm);
    if (n == 0) {
        return true;
    }
    if (!sl_desk_lay(desk, error)) {
        return false;
    }
    put_caption(desk, scene, zone);
    sl_pen_fill(&desk->pen, desk->places.field, SL_GROUND_FIELD);
    for (int i = 0; i < n; i++) {
        put_strip(desk, i);
    }
    return true;
}
