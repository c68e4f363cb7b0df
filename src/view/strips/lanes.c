/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See lanes.h. Hair is drawn on the same grey on which strips hang; what is laid over a colour is dark or
 * light, whichever stands out.
 */
#include "view/strips/lanes.h"

#include <math.h>
#include <stdio.h>

#include "view/strips/ruler.h"

static const double THICKEST = 18.0, GAP = 1.0; /* units */
static const double THIN = 0.4;                 /* of a lane: nothing lies on the hair */

SDL_Rect sl_lane_place(const sl_lanes_look *look, int arm)
{
    const SDL_Rect a = look->area;
    const int n = look->chosen_only ? 1 : look->scene->n_arms;
    const int at = look->chosen_only ? 0 : arm;
    if (look->chosen_only && arm != look->chosen_arm) {
        return (SDL_Rect){0};
    }
    const int top = at * a.h / n;
    return (SDL_Rect){a.x, a.y + top, a.w, (at + 1) * a.h / n - top};
}

static uint8_t between(const sl_light_table *light, uint8_t one, uint8_t two, double part)
{
    const double linear = light->linear[one] + part * ((double)light->linear[two] - light->linear[one]);
    return light->encoded[(int)(linear + 0.5)];
}

sl_srgb8 sl_lane_colour(const sl_lane *lane, const sl_light_table *light, double share)
{
    const double place = SDL_clamp(share, 0.0, 1.0) * SL_LANE_MOMENTS;
    const int before = SDL_min((int)place, SL_LANE_MOMENTS - 1);
    const double part = place - before;
    const sl_srgb8 one = lane->colour[before], two = lane->colour[before + 1];
    return (sl_srgb8){between(light, one.r, two.r, part), between(light, one.g, two.g, part),
                      between(light, one.b, two.b, part)};
}

/* ---- one lane -------------------------------------------------------------------------------- */

static int x_of(const sl_lanes_look *look, double clock_min)
{
    return sl_ruler_x(look->area, look->scene->until_min, clock_min);
}

/* Of the marks that are as dark or as light in every theme, the one that stands out on the colour there. */
static sl_role ink_on(const sl_lanes_look *look, int arm, double clock_min)
{
    const double share = clock_min / SDL_max(look->scene->until_min, 1e-6);
    const sl_srgb8 c = sl_lane_colour(&look->lane[arm], look->light, share);
    const double light = (0.2126 * look->light->linear[c.r] + 0.7152 * look->light->linear[c.g] +
                          0.0722 * look->light->linear[c.b]) /
                         SL_LIGHT_TOP;
    return light < 0.18 ? SL_MARK_FIELD : SL_MARK_HOOK;
}

/* Columns from..to (excluded) in their colours. */
static void paint(const sl_pen *pen, const sl_lanes_look *look, int arm, SDL_Rect band)
{
    SDL_Surface *const sheet = pen->sheet;
    const int pitch = sheet->pitch / 4;
    SDL_Rect seen;
    if (!SDL_IntersectRect(&band, &sheet->clip_rect, &seen)) {
        return;
    }
    uint32_t *const first = (uint32_t *)sheet->pixels + (size_t)seen.y * (size_t)pitch;
    for (int x = seen.x; x < seen.x + seen.w; x++) {
        const double share = (double)(x - look->area.x) / SDL_max(look->area.w - 1, 1);
        const sl_srgb8 c = sl_lane_colour(&look->lane[arm], look->light, share);
        const uint32_t pixel = SDL_MapRGB(sheet->format, c.r, c.g, c.b);
        for (int y = 0; y < seen.h; y++) {
            first[(size_t)y * (size_t)pitch + (size_t)x] = pixel;
        }
    }
}

static SDL_Rect band_of(SDL_Rect row, int left, int right, int high)
{
    return (SDL_Rect){left, row.y + (row.h - high) / 2, right - left, high};
}

/* From one moment to another, thick where something lies on the hair. */
static void stretch(const sl_pen *pen, const sl_lanes_look *look, int arm, SDL_Rect row, double from,
                    double to, bool thick)
{
    const int full = SDL_max(row.h - sl_pen_px(pen, GAP), 1);
    const int high = thick ? full : SDL_max((int)lround(THIN * full), 1);
    const int right = to >= look->scene->until_min ? row.x + row.w : x_of(look, to);
    const SDL_Rect band = band_of(row, x_of(look, from), right, high);
    if (look->told) {
        paint(pen, look, arm, band);
    } else if (thick) {
        sl_pen_fill(pen, band, SL_MARK_HOOK);
    }
}

/* Rinse and shampoo over it. */
static void hatch(const sl_pen *pen, const sl_lanes_look *look, int arm, SDL_Rect row, double from, double to,
                  sl_bar_pattern pattern)
{
    const int full = SDL_max(row.h - sl_pen_px(pen, GAP), 1);
    const SDL_Rect band = band_of(row, x_of(look, from), SDL_max(x_of(look, to), x_of(look, from) + 2), full);
    sl_pen_pattern(pen, band, pattern, look->told ? ink_on(look, arm, from) : SL_MARK_FIELD);
}

static void draw_steps(const sl_pen *pen, const sl_lanes_look *look, int arm, SDL_Rect row)
{
    const sl_arm *const a = &look->scene->arms[arm];
    double now = a->contact_min;
    stretch(pen, look, arm, row, 0.0, a->n_steps > 0 ? now : look->scene->until_min, false);
    for (int i = 0; i < a->n_steps; i++) {
        const double end = now + sl_step_minutes(&a->steps[i]);
        const sl_step_kind kind = a->steps[i].kind;
        stretch(pen, look, arm, row, now, end, kind != SL_STEP_REST);
        if (kind == SL_STEP_RINSE || kind == SL_STEP_SHAMPOO) {
            hatch(pen, look, arm, row, now, end,
                  kind == SL_STEP_RINSE ? SL_PATTERN_STRIPES : SL_PATTERN_DOTS);
        }
        now = end;
    }
    if (a->n_steps > 0 && now < look->scene->until_min) {
        stretch(pen, look, arm, row, now, look->scene->until_min, false);
    }
}

/* A post in two tones, seen on any colour: whole, or broken in the middle. */
static void post(const sl_pen *pen, int x, SDL_Rect row, double wide, bool broken)
{
    const int w = sl_pen_px(pen, wide), h = SDL_max(row.h - sl_pen_px(pen, GAP), 1);
    const SDL_Rect core = {x - w / 2, row.y + (row.h - h) / 2, w, h};
    sl_pen_fill(pen, (SDL_Rect){core.x - 1, core.y, core.w + 2, core.h}, SL_MARK_FIELD);
    sl_pen_fill(pen, core, SL_MARK_HOOK);
    if (broken) {
        sl_pen_fill(pen, (SDL_Rect){core.x, core.y + h / 3, core.w, SDL_max(h / 3, 1)}, SL_MARK_FIELD);
    }
}

/* A small square standing on its corner. */
static void diamond(const sl_pen *pen, int x, SDL_Rect row, int half, sl_role role)
{
    for (int i = -half; i <= half; i++) {
        const int reach = half - abs(i);
        sl_pen_fill(pen, (SDL_Rect){x - reach, row.y + row.h / 2 + i, 2 * reach + 1, 1}, role);
    }
}

/* Beside each other strips stand at their own moments: then those alone are marked. */
static void draw_marks(const sl_pen *pen, const sl_lanes_look *look, int arm, SDL_Rect row)
{
    const sl_lane *const lane = &look->lane[arm];
    const double contact = look->scene->arms[arm].contact_min;
    if (look->meeting != NULL) {
        if (look->told && look->meeting[arm].reached) {
            post(pen, x_of(look, look->meeting[arm].time_min), row, 7.0, false);
        }
        return;
    }
    if (look->told && lane->label_min >= 0.0) {
        post(pen, x_of(look, contact + lane->label_min), row, 2.0, true);
    }
    if (look->told && lane->stop_min >= 0.0) {
        post(pen, x_of(look, contact + lane->stop_min), row, 3.0, false);
    }
    for (int i = 0; i < look->n_looks && arm == look->chosen_arm; i++) {
        const int x = x_of(look, contact + look->look_min[i]), half = SDL_max(row.h / 2 - 1, 2);
        diamond(pen, x, row, half, SL_MARK_HOOK);
        diamond(pen, x, row, half - SDL_max(half / 3, 1), SL_MARK_FIELD);
    }
}

/* Left of its lane; where lanes are lower than figures, of the chosen one alone. */
static void draw_number(const sl_pen *pen, const sl_lanes_look *look, int arm, SDL_Rect row)
{
    const bool chosen = arm == look->chosen_arm;
    const int line = sl_text_line_height(pen->text, SL_TYPE_NOTE);
    char number[12];
    if (!chosen && row.h < line / 2) {
        return;
    }
    snprintf(number, sizeof number, "%d", arm + 1);
    const int w = sl_pen_size(pen, SL_TYPE_NOTE, SL_INK_TEXT, 0, number).x;
    const SDL_Rect plate = {row.x - SDL_max(look->number_w, w + 2), row.y, SDL_max(look->number_w, w + 2),
                            row.h};
    if (chosen) {
        sl_pen_fill(pen, plate, SL_GROUND_DARK);
    }
    sl_pen_write(pen, SL_TYPE_NOTE, chosen ? SL_INK_LIGHT : SL_INK_TEXT, plate.x + plate.w / 2,
                 row.y + (row.h - line) / 2, SL_ALIGN_CENTRE, number);
}

void sl_lanes_draw(const sl_pen *pen, const sl_lanes_look *look)
{
    sl_pen_fill(pen, look->area, SL_GROUND_FIELD);
    for (int arm = 0; arm < look->scene->n_arms; arm++) {
        SDL_Rect row = sl_lane_place(look, arm);
        if (row.h == 0) {
            continue;
        }
        draw_number(pen, look, arm, row);
        const int thickest = sl_pen_px(pen, THICKEST);
        if (row.h > thickest) {
            row.y += (row.h - thickest) / 2;
            row.h = thickest;
        }
        if (look->told && !look->lane[arm].predicted) {
            sl_pen_pattern(pen, row, SL_PATTERN_STRIPES, SL_MARK_HOOK);
            continue;
        }
        draw_steps(pen, look, arm, row);
        draw_marks(pen, look, arm, row);
    }
}
