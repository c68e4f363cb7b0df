/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The ruler. Bars: solid = mix on the hair, stripes = rinse, dots = shampoo.
 */
#include "view/strips/ruler.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/append.h"
#include "base/language.h"
#include "base/minute.h"
#include "view/draw/words.h"

static const double PLATE = 18.0; /* side of a numbered plate, units */
static const double LONG_CLOCK_MIN = 600.0;

static bool same_times(const sl_arm *one, const sl_arm *two)
{
    bool same = one->n_steps == two->n_steps && fabs(one->contact_min - two->contact_min) < 1e-9;
    for (int i = 0; i < one->n_steps && same; i++) {
        same = one->steps[i].kind == two->steps[i].kind && one->steps[i].shampoos == two->steps[i].shampoos &&
               fabs(one->steps[i].duration_min - two->steps[i].duration_min) < 1e-9;
    }
    return same;
}

/* "2, 4–6": runs of strip numbers, counted from 1. */
static void label_lane(const sl_scene *scene, sl_lane *lane)
{
    lane->label[0] = '\0';
    for (int arm = lane->arm; arm < scene->n_arms && strlen(lane->label) + 12 < sizeof lane->label; arm++) {
        if (!same_times(&scene->arms[lane->arm], &scene->arms[arm])) {
            continue;
        }
        int last = arm;
        while (last + 1 < scene->n_arms && same_times(&scene->arms[lane->arm], &scene->arms[last + 1])) {
            last++;
        }
        sl_append_item(lane->label, sizeof lane->label, ", ", "%d", arm + 1);
        if (last > arm) {
            sl_append(lane->label, sizeof lane->label, "–%d", last + 1);
        }
        arm = last;
    }
}

int sl_ruler_lanes(const sl_scene *scene, sl_lane lanes[SL_MAX_ARMS])
{
    int n = 0;
    for (int arm = 0; arm < scene->n_arms && arm < SL_MAX_ARMS; arm++) {
        bool known = scene->arms[arm].n_steps == 0;
        for (int i = 0; i < n && !known; i++) {
            known = same_times(&scene->arms[lanes[i].arm], &scene->arms[arm]);
        }
        if (!known) {
            lanes[n].arm = arm;
            label_lane(scene, &lanes[n]);
            n++;
        }
    }
    return n;
}

bool sl_ruler_of_days(double until_min)
{
    return until_min > LONG_CLOCK_MIN;
}

double sl_ruler_time(SDL_Rect ruler, double until_min, int x)
{
    const double share = (double)(x - ruler.x) / SDL_max(ruler.w - 1, 1);
    return until_min * SDL_clamp(share, 0.0, 1.0);
}

int sl_ruler_x(SDL_Rect ruler, double until_min, double time_min)
{
    const double share = until_min > 0.0 ? SDL_clamp(time_min / until_min, 0.0, 1.0) : 0.0;
    return ruler.x + (int)lround(share * (ruler.w - 1));
}

/* Minutes between labels, so that they stand apart. */
static int label_every(const sl_pen *pen, const sl_ruler_look *look)
{
    static const int steps[] = {1, 2, 5, 10, 20, 30, 60, 120, 240, 480};
    const double per_min = look->area.w / SDL_max(look->scene->until_min, 1e-6);
    int i = 0;
    while (i < 9 && steps[i] * per_min < 52.0 * pen->unit) {
        i++;
    }
    return steps[i];
}

static void draw_axis(const sl_pen *pen, const sl_ruler_look *look)
{
    const SDL_Rect a = look->area;
    const double until = look->scene->until_min;
    const int every = label_every(pen, look);
    const bool hours = sl_ruler_of_days(until) && every % 60 == 0;
    const bool minutes = a.w / SDL_max(until, 1e-6) >= 4.0 * pen->unit;
    const int base = a.y + look->axis_h - 1;
    sl_pen_fill(pen, (SDL_Rect){a.x, base, a.w, sl_pen_px(pen, 1.0)}, SL_MARK_CONTROL);
    for (int minute = 0; minute <= (int)floor(until + 1e-9); minute++) {
        const bool named = minute % every == 0;
        if (!named && !minutes) {
            continue;
        }
        const int x = sl_ruler_x(a, until, minute);
        const int h = sl_pen_px(pen, named ? 9.0 : minute % 5 == 0 ? 7.0 : 4.0);
        sl_pen_fill(pen, (SDL_Rect){x, base - h, sl_pen_px(pen, named ? 1.5 : 1.0), h}, SL_MARK_CONTROL);
        if (named) {
            char text[24];
            sl_minute_words(SL_MINUTE_PLANNED, text, sizeof text,
                            hours         ? "%d h"
                            : minute == 0 ? _("%d min")
                                          : "%d",
                            hours ? minute / 60 : minute);
            const sl_align align = minute == 0                            ? SL_ALIGN_LEFT
                                   : x > a.x + a.w - sl_pen_px(pen, 12.0) ? SL_ALIGN_RIGHT
                                                                          : SL_ALIGN_CENTRE;
            sl_pen_write(pen, SL_TYPE_SMALL, SL_INK_TEXT, x, a.y, align, text);
        }
    }
}

static bool holds_arm(const sl_scene *scene, const sl_lane *lane, int arm)
{
    return scene->arms[arm].n_steps > 0 && same_times(&scene->arms[lane->arm], &scene->arms[arm]);
}

/* "strips 3–5: contact 2:12, rinse 32:12", where there is room beside the lane. */
static void label_times(const sl_pen *pen, const sl_ruler_look *look, const sl_lane *lane, SDL_Rect row,
                        int end_x)
{
    const sl_arm *arm = &look->scene->arms[lane->arm];
    char contact[24];
    char rinse[24];
    char text[128];
    int water = 0;
    while (water < arm->n_steps && arm->steps[water].kind != SL_STEP_RINSE) {
        water++;
    }
    sl_put_clock(arm->contact_min, contact, sizeof contact);
    sl_put_clock(arm->contact_min + sl_arm_minutes_before(arm, water), rinse, sizeof rinse);
    snprintf(text, sizeof text, _("strip %s: contact %s, rinse %s"), lane->label, contact, rinse);
    const SDL_Point size = sl_pen_size(pen, SL_TYPE_SMALL, SL_INK_TEXT, 0, text);
    const int gap = sl_pen_px(pen, 8.0);
    const int start_x = sl_ruler_x(look->area, look->scene->until_min, arm->contact_min);
    const int y = SDL_min(row.y + (row.h - size.y) / 2, look->area.y + look->area.h - size.y);
    if (end_x + gap + size.x <= look->area.x + look->area.w) {
        sl_pen_write(pen, SL_TYPE_SMALL, SL_INK_TEXT, end_x + gap, y, SL_ALIGN_LEFT, text);
    } else if (start_x - gap - size.x >= look->area.x) {
        sl_pen_write(pen, SL_TYPE_SMALL, SL_INK_TEXT, start_x - gap, y, SL_ALIGN_RIGHT, text);
    }
}

/* The chosen strip's lane is thick and has its times beside it; the others are thin. */
static void draw_lane(const sl_pen *pen, const sl_ruler_look *look, const sl_lane *lane, SDL_Rect row)
{
    static const sl_bar_pattern patterns[] = {[SL_STEP_APPLY] = SL_PATTERN_SOLID,
                                              [SL_STEP_RINSE] = SL_PATTERN_STRIPES,
                                              [SL_STEP_SHAMPOO] = SL_PATTERN_DOTS,
                                              [SL_STEP_REST] = SL_PATTERN_SOLID};
    const sl_arm *arm = &look->scene->arms[lane->arm];
    const double until = look->scene->until_min;
    const bool chosen = holds_arm(look->scene, lane, look->chosen_arm);
    const sl_role role = chosen ? SL_MARK_CONTROL : SL_INK_QUIET;
    int right = sl_ruler_x(look->area, until, arm->contact_min);
    for (int i = 0; i < arm->n_steps; i++) {
        const sl_step *step = &arm->steps[i];
        const double begins = arm->contact_min + sl_arm_minutes_before(arm, i);
        const int left = sl_ruler_x(look->area, until, begins);
        right = sl_ruler_x(look->area, until, begins + sl_step_minutes(step));
        const int most = step->kind == SL_STEP_REST ? 1 : sl_pen_px(pen, chosen ? 7.0 : 3.0);
        const int h = SDL_min(most, row.h);
        sl_pen_pattern(pen, (SDL_Rect){left, row.y + (row.h - h) / 2, SDL_max(right - left, 2), h},
                       patterns[step->kind], role);
    }
    if (chosen) {
        label_times(pen, look, lane, row, right);
    }
}

/* The arms that get there, the earliest first; returns how many. */
static int in_order(const sl_ruler_look *look, int order[SL_MAX_ARMS])
{
    int n = 0;
    for (int arm = 0; arm < look->scene->n_arms; arm++) {
        if (!look->meeting[arm].reached) {
            continue;
        }
        int at = n++;
        while (at > 0 && look->meeting[order[at - 1]].time_min > look->meeting[arm].time_min) {
            order[at] = order[at - 1];
            at--;
        }
        order[at] = arm;
    }
    return n;
}

/* Where lines begin that must not cover the minutes' figures. */
static int below_labels(const sl_pen *pen, const sl_ruler_look *look)
{
    return SDL_min(sl_text_line_height(pen->text, SL_TYPE_SMALL), look->axis_h);
}

/* A numbered plate for every strip at its own moment; crowded plates move to the right,
 * their lines stay where they belong. */
static void draw_meetings(const sl_pen *pen, const sl_ruler_look *look)
{
    const SDL_Rect a = look->area;
    const int side = sl_pen_px(pen, PLATE);
    int order[SL_MAX_ARMS];
    const int n = in_order(look, order);
    int free_x = a.x - side;
    for (int i = 0; i < n; i++) {
        const int x = sl_ruler_x(a, look->scene->until_min, look->meeting[order[i]].time_min);
        char number[12];
        snprintf(number, sizeof number, "%d", order[i] + 1);
        const int y = SDL_min(look->axis_h + sl_pen_px(pen, 5.0), a.h - side);
        const SDL_Rect plate = {SDL_max(x - side / 2, free_x), a.y + y, side, side};
        free_x = plate.x + side + 1;
        const bool chosen = order[i] == look->chosen_arm;
        const int line_y = a.y + below_labels(pen, look);
        sl_pen_fill(pen, (SDL_Rect){x, line_y, sl_pen_px(pen, 1.5), plate.y - line_y + side / 2},
                    SL_MARK_CONTROL);
        sl_pen_fill(pen, plate, chosen ? SL_GROUND_DARK : SL_GROUND_SHEET);
        sl_pen_frame(pen, plate, 1, SL_MARK_CONTROL);
        sl_pen_place(pen, SL_TYPE_SMALL, chosen ? SL_INK_LIGHT : SL_INK_TEXT, plate, SL_ALIGN_CENTRE, number);
    }
}

static void draw_cursor(const sl_pen *pen, const sl_ruler_look *look)
{
    const SDL_Rect a = look->area;
    const int x = sl_ruler_x(a, look->scene->until_min, look->now_min);
    const int wide = sl_pen_px(pen, 3.0), below = below_labels(pen, look);
    sl_pen_fill(pen, (SDL_Rect){x - wide / 2 - 1, a.y + below, wide + 2, a.h - below}, SL_GROUND_FRAME);
    sl_pen_fill(pen, (SDL_Rect){x - wide / 2, a.y + below, wide, a.h - below}, SL_GROUND_DARK);
    const int half = sl_pen_px(pen, 9.0);
    const SDL_Rect grip = {x - half, a.y + look->axis_h - sl_pen_px(pen, 2.0), 2 * half,
                           SDL_min(sl_pen_px(pen, 22.0), a.h - look->axis_h)};
    sl_pen_fill(pen, sl_rect_inset(grip, -1), SL_GROUND_FRAME);
    sl_pen_fill(pen, grip, SL_GROUND_DARK);
    sl_pen_fill(pen, (SDL_Rect){x - half / 3, grip.y + half / 2, 1, grip.h - half}, SL_INK_LIGHT);
    sl_pen_fill(pen, (SDL_Rect){x + half / 3, grip.y + half / 2, 1, grip.h - half}, SL_INK_LIGHT);
}

void sl_ruler_draw(const sl_pen *pen, const sl_ruler_look *look)
{
    const SDL_Rect a = look->area;
    draw_axis(pen, look);
    const int room = a.h - look->axis_h;
    /* Plates need the room, and lanes thinner than this cannot be told apart. */
    const bool all = look->meeting == NULL && room / look->n_lanes >= sl_pen_px(pen, 5.0);
    const int below = SDL_min(sl_pen_px(pen, 15.0), room);
    const bool free_below = look->meeting == NULL || room >= sl_pen_px(pen, 5.0 + PLATE) + below;
    for (int i = 0; i < look->n_lanes; i++) {
        const int h = room / look->n_lanes;
        SDL_Rect row = {a.x, a.y + look->axis_h + i * room / look->n_lanes, a.w, h};
        if (all) {
            draw_lane(pen, look, &look->lanes[i], row);
        } else if (holds_arm(look->scene, &look->lanes[i], look->chosen_arm) && free_below) {
            row.h = below;
            row.y = a.y + a.h - below;
            draw_lane(pen, look, &look->lanes[i], row);
        }
    }
    if (look->meeting != NULL) {
        draw_meetings(pen, look);
    } else if (look->now_min >= 0.0) {
        draw_cursor(pen, look);
    }
}
