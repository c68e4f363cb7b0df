/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Beside the clock: the chosen swatch as the model sees it at this second.
 */
#include <stdio.h>

#include "base/language.h"
#include "swatch/strands.h"
#include "view/day/day.h"
#include "view/draw/words.h"

/* It is told of what is rinsed and graded alone. */
static void put_moment(const sl_day_screen *screen, double minutes, char *text, size_t size)
{
    const sl_day *const day = &screen->desk->day;
    char span[24];
    sl_day_span(60.0 * minutes, span, sizeof span);
    if (screen->places.compact) {
        snprintf(text, size, _("At %s. Model, classroom example."), span);
    } else if (day->plan[day->chosen].contact_s < 0) {
        snprintf(text, size, "%s", _("Before contact. By the model; a classroom example."));
    } else if (minutes > sl_bench_span_s(&day->plan[day->chosen]) / 60.0 + SL_DAY_LONGER_MIN) {
        snprintf(text, size, "%s", _("On hair for longer than the model was run: this is its last minute."));
    } else {
        snprintf(text, size, _("At first water, %s. By the model; a classroom example."), span);
    }
}

static int put_name(const sl_day_screen *screen, SDL_Rect area)
{
    const sl_day *const day = &screen->desk->day;
    char text[SL_DAY_LINE * 2];
    snprintf(text, sizeof text, "%s: %s", day->plan[day->chosen].code,
             sl_title_of_arm(day->scene, day->swatches[day->chosen].arm));
    return area.y + sl_pen_wrap(&screen->pen, SL_TYPE_STRONG, SL_INK_TEXT,
                                (SDL_Rect){area.x, area.y, area.w, 0}, false, text);
}

static int put_lines(const sl_day_screen *screen, SDL_Rect area, double minutes)
{
    const sl_pen *const pen = &screen->pen;
    char text[SL_DAY_LINE * 2];
    int y = put_name(screen, area);
    put_moment(screen, minutes, text, sizeof text);
    y += sl_pen_wrap(pen, SL_TYPE_SMALL, SL_INK_TEXT, (SDL_Rect){area.x, y, area.w, 0}, false, text);
    return y + sl_pen_px(pen, 6.0);
}

static void put_zones(const sl_day_screen *screen, const sl_day_seen *seen, SDL_Rect strip, int right)
{
    const sl_pen *const pen = &screen->pen;
    const sl_scene *const scene = screen->desk->model.scene;
    const int h = strip.h / scene->n_zones;
    const int x = strip.x + strip.w + sl_pen_px(pen, 14.0);
    char text[SL_DAY_LINE];
    char share[16];
    for (int zone = 0; zone < scene->n_zones && h >= sl_text_line_height(pen->text, SL_TYPE_SMALL); zone++) {
        if (seen->cell[zone].colour_left < 0.0) {
            snprintf(text, sizeof text, "%s", sl_zone_title(&scene->zones[zone]));
        } else {
            sl_put_share(seen->cell[zone].colour_left, share, sizeof share);
            snprintf(text, sizeof text, _("%s: %s left"), sl_zone_title(&scene->zones[zone]), share);
        }
        sl_pen_place(pen, SL_TYPE_SMALL, SL_INK_TEXT, (SDL_Rect){x, strip.y + zone * h, right - x, h},
                     SL_ALIGN_LEFT, text);
    }
}

static void put_sums(const sl_day_screen *screen, const sl_day_seen *seen, SDL_Rect area)
{
    char moved[16];
    char stress[16];
    char text[SL_DAY_LINE];
    if (!seen->predicted) {
        sl_pen_wrap(&screen->pen, SL_TYPE_BODY, SL_INK_TEXT, area, false,
                    _("The model does not cover this mix."));
        return;
    }
    sl_put_share(seen->moved, moved, sizeof moved);
    sl_put_share(seen->stress, stress, sizeof stress);
    if (screen->places.compact) {
        snprintf(text, sizeof text, _("Base %s, stress %s"), moved, stress);
        sl_pen_wrap(&screen->pen, SL_TYPE_SMALL, SL_INK_TEXT, area, false, text);
        return;
    }
    snprintf(text, sizeof text, _("Base moved %s. Hair stress %s (%s)."), moved, stress,
             sl_stress_word(seen->stress));
    sl_pen_wrap(&screen->pen, SL_TYPE_BODY, SL_INK_TEXT, area, false, text);
}

/* Each zone as its strands show it. */
static void look_of(const sl_day_screen *screen, const sl_day_seen *seen, sl_strip_look *look)
{
    const int arm = screen->desk->arm_at[screen->desk->day.chosen];
    const sl_optics *const optics = sl_lenses_for(&screen->lenses, screen->eyes.viewing);
    const sl_strands strands = sl_swatch_spread(SL_STRAND_CV, (uint32_t)arm + 1U);
    *look = (sl_strip_look){.bleed = SL_USUAL_BLEED};
    for (int zone = 0; zone < screen->desk->model.scene->n_zones; zone++) {
        const sl_cell *const cell = &seen->cell[zone];
        sl_strand_colours(&strands, optics, &cell->amounts, cell->colour.srgb, screen->eyes.vision,
                          look->colour[zone]);
    }
}

static bool put_hair(sl_day_screen *screen, const sl_day_seen *seen, SDL_Rect field, sl_error *error)
{
    sl_strip_look look;
    const sl_day *const day = &screen->desk->day;
    const SDL_Rect strip = sl_rect_inset(field, sl_pen_px(&screen->pen, 8.0));
    if (!seen->predicted || strip.w <= 8 || strip.h <= 8) {
        return true;
    }
    const uint32_t seed = (uint32_t)screen->desk->arm_at[day->chosen] + 1U;
    if (!sl_strip_lay(&screen->strip, strip.w, strip.h, screen->desk->model.scene->n_zones, seed, error)) {
        return false;
    }
    look_of(screen, seen, &look);
    screen->hair = strip;
    sl_pen_fill(&screen->pen, field, SL_GROUND_FIELD);
    sl_strip_show(screen->strip, &screen->light, screen->pen.sheet, strip.x, strip.y, 0, strip.w, &look);
    return true;
}

/* Words above, zones beside the strip, sums below. */
static bool put_below(sl_day_screen *screen, const sl_day_seen *seen, SDL_Rect area, double minutes,
                      sl_error *error)
{
    const sl_pen *const pen = &screen->pen;
    const int top = put_lines(screen, area, minutes);
    const int sums = 2 * sl_text_line_height(pen->text, SL_TYPE_BODY);
    const int pad = sl_pen_px(pen, 8.0);
    const SDL_Rect field = {area.x, top, SDL_min(area.w * 42 / 100, sl_pen_px(pen, 130.0)),
                            area.y + area.h - sums - pad - top};
    if (seen->predicted) {
        put_zones(screen, seen, sl_rect_inset(field, pad), area.x + area.w);
    }
    put_sums(screen, seen, (SDL_Rect){area.x, field.y + field.h + pad / 2, area.w, sums});
    return put_hair(screen, seen, field, error);
}

/* Large text: the strip at the left, words at its right. */
static bool put_beside(sl_day_screen *screen, const sl_day_seen *seen, SDL_Rect area, double minutes,
                       sl_error *error)
{
    const SDL_Rect field = {area.x, area.y, area.w * 24 / 100, area.h};
    const SDL_Rect words = {field.x + field.w + 8, area.y, area.w - field.w - 8, area.h};
    const int y = put_lines(screen, words, minutes);
    put_sums(screen, seen, (SDL_Rect){words.x, y, words.w, 0});
    return put_hair(screen, seen, field, error);
}

/* Why there is nothing to draw; NULL: there is. */
static const char *why_no_model(const sl_day_screen *screen)
{
    const sl_day_desk *const desk = screen->desk;
    return sl_day_blind(&desk->day) ? _("The model's strip and the name are covered. B shows the name.")
           : !sl_day_may_show(&desk->day, desk->day.chosen) ? sl_day_cover_words()
           : sl_day_covers(&desk->day, desk->day.chosen) ? _("What the model says of this one is covered. P "
                                                             "shows it, and the log keeps that it was shown.")
           : desk->model.timeline == NULL                ? _("The model says nothing today.")
           : desk->arm_at[desk->day.chosen] < 0          ? _("The scene in the log has no such strip.")
                                                         : NULL;
}

bool sl_day_put_model(sl_day_screen *screen, sl_error *error)
{
    const sl_day_desk *const desk = screen->desk;
    const sl_pen *const pen = &screen->pen;
    const SDL_Rect panel = screen->places.model;
    const SDL_Rect area = sl_rect_inset(panel, sl_pen_px(pen, 8.0));
    const char *const why_not = why_no_model(screen);
    sl_pen_fill(pen, panel, SL_GROUND_SHEET);
    screen->hair = (SDL_Rect){0};
    if (why_not != NULL) {
        const int y = sl_day_blind(&desk->day) ? area.y : put_name(screen, area);
        sl_day_put_fitting(pen, SL_TYPE_BODY, (SDL_Rect){area.x, y, area.w, area.y + area.h - y}, why_not);
        return true;
    }
    const double course_s =
        SDL_max(sl_bench_course_s(&desk->day.bench, desk->day.chosen, &desk->day.now), 0.0);
    sl_day_seen seen;
    SDL_SetClipRect(pen->sheet, &panel);
    sl_day_model_see(&desk->model, desk->arm_at[desk->day.chosen], course_s,
                     sl_lenses_for(&screen->lenses, screen->eyes.viewing), &seen);
    const bool good = screen->places.compact ? put_beside(screen, &seen, area, course_s / 60.0, error)
                                             : put_below(screen, &seen, area, course_s / 60.0, error);
    SDL_SetClipRect(pen->sheet, NULL);
    return good;
}
