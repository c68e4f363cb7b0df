/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The strips of one arm: its name and mixes, one strip for each moment, root end up, base moved
 * and hair stress below. Invariant: whatever a colour says, a number beside it says too; and
 * nothing is drawn for an arm that the model does not cover.
 */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/append.h"
#include "base/language.h"
#include "base/minute.h"
#include "document/text.h"
#include "paper/draw/page.h"
#include "report/reading.h"
#include "slowlift/estimate.h"
#include "slowlift/report.h"

static const sl_paper_face arm_face = {.size = 8.6, .bold = true, .grey = 0.08, .align = PANGO_ALIGN_LEFT};
static const sl_paper_face mix_face = {.size = 6.8, .grey = 0.35, .align = PANGO_ALIGN_LEFT};
static const sl_paper_face number_face = {.size = 7.2, .grey = 0.12, .align = PANGO_ALIGN_CENTER};

/* The mixes of an arm in order, or what is done instead. */
static void describe_arm(const sl_scene *scene, const sl_arm *arm, char *text, size_t size)
{
    text[0] = '\0';
    for (int i = 0; i < arm->n_steps; i++) {
        if (arm->steps[i].kind != SL_STEP_APPLY) {
            continue;
        }
        const sl_mix *mix = &scene->mixes[arm->steps[i].mix];
        sl_append_item(text, size, _(", then "), "%s", sl_mix_title(mix));
    }
    if (text[0] == '\0') {
        sl_washing_words(arm, text, size);
    }
}

/* When the mix is on, for the bench alone: "on 4-16, 18-33 min". */
static void describe_times(const sl_scene *scene, const sl_arm *arm, char *text, size_t size)
{
    text[0] = '\0';
    for (int i = 0; i < arm->n_steps; i++) {
        const sl_step *step = &arm->steps[i];
        const double clock = arm->contact_min + sl_arm_minutes_before(arm, i);
        const double end = clock + sl_step_minutes(step);
        if (step->kind == SL_STEP_APPLY) {
            char from[24], to[24];
            sl_clock_time(SL_MINUTE_PLANNED, clock, from, sizeof from);
            sl_clock_time(SL_MINUTE_PLANNED, end, to, sizeof to);
            sl_append(text, size, "%s%s-%s", text[0] != '\0' ? ", " : _("on "), from, to);
        }
    }
    if (text[0] == '\0' || !sl_reading_has_minutes(scene)) {
        text[0] = '\0';
        return;
    }
    sl_append(text, size, "%s", _(" min"));
}

static double strip_x(const sl_sheet_page *page, double left, int time)
{
    return left + (double)time * (page->strip_width + SL_STRIP_GAP);
}

/* Light or dark, whichever reads better on the colour. */
static double ink_on(sl_srgb8 colour)
{
    const sl_srgb8 white = {255, 255, 255}, black = {0, 0, 0};
    return sl_contrast(colour, white) > sl_contrast(colour, black) ? 1.0 : 0.0;
}

/* A flat plate of the zone's own colour with its number, or a dot where no number stands; fibres
 * around it, of the same mean. */
static void draw_plate(sl_sheet_page *page, sl_srgb8 colour, double left, double x, double y)
{
    sl_canvas *canvas = &page->canvas;
    const bool numbered = left >= 0.0;
    const double height = fmin((numbered ? 1.4 : 1.2) * page->number_size, 0.7 * page->zone_height);
    const double width = numbered ? fmin(0.92 * page->strip_width, 3.4 * page->number_size) : height;
    const double at = x + 0.5 * (page->strip_width - width), top = y + 0.5 * (page->zone_height - height);
    sl_canvas_colour(canvas, colour);
    sl_canvas_box(canvas, at, top, width, height, (numbered ? 0.35 : 0.5) * height);
    cairo_fill(canvas->cairo);
    if (!numbered) {
        return;
    }
    char text[16];
    sl_percent(left, text, sizeof text);
    sl_paper_face face = number_face;
    face.size = page->number_size;
    face.grey = ink_on(colour);
    face.fixed = true;
    const double taken = sl_canvas_measure(canvas, page->strip_width, 1, face, text);
    sl_canvas_text(canvas, x, y + 0.5 * (page->zone_height - taken), page->strip_width, 1, face, text);
}

static void draw_strip(sl_sheet_page *page, int arm, int time, double left, double y)
{
    const double x = strip_x(page, left, time);
    sl_strip_look look;
    sl_srgb8 plate[SL_MAX_ZONES];
    double colour_left[SL_MAX_ZONES];
    sl_hair_look(page, arm, page->times_min[time], &look, plate, colour_left);
    sl_hair_draw(page, arm, x, y, &look);
    for (int zone = 0; zone < page->scene->n_zones; zone++) {
        draw_plate(page, plate[zone], colour_left[zone], x, y + zone * page->zone_height);
    }
}

static void draw_outside(sl_sheet_page *page, double left, double y)
{
    const double height = page->zone_height * page->scene->n_zones, step = 9.0;
    cairo_t *cairo = page->canvas.cairo;
    cairo_save(cairo);
    sl_canvas_box(&page->canvas, left, y, page->group_width, height, 2.5);
    cairo_clip(cairo);
    sl_canvas_grey(&page->canvas, 0.88);
    cairo_paint(cairo);
    sl_canvas_grey(&page->canvas, 0.76);
    cairo_set_line_width(cairo, 0.8);
    const int lines = (int)ceil((height + page->group_width) / step);
    for (int i = 0; i < lines; i++) {
        const double at = left - height + i * step;
        cairo_move_to(cairo, at, y + height);
        cairo_line_to(cairo, at + height, y);
    }
    cairo_stroke(cairo);
    cairo_restore(cairo);
    const sl_paper_face face = {.size = 8.2, .bold = true, .grey = 0.1, .align = PANGO_ALIGN_CENTER};
    const char *const text = _("outside this model: recorded, not computed");
    const double inset = 6.0;
    const double taken = sl_canvas_measure(&page->canvas, page->group_width - 2.0 * inset, 0, face, text);
    const double top = y + 0.5 * (height - taken);
    sl_canvas_grey(&page->canvas, 0.88);
    cairo_rectangle(cairo, left, top - inset, page->group_width, taken + 2.0 * inset);
    cairo_fill(cairo);
    sl_canvas_text(&page->canvas, left + inset, top, page->group_width - 2.0 * inset, 0, face, text);
}

/* Base moved and hair stress of each moment, below the strips. */
static void draw_rows(sl_sheet_page *page, int arm, double left, double y)
{
    const int zone = sl_reference_zone(page->scene, 0);
    for (int time = 0; time < page->n_times; time++) {
        sl_cell cell;
        sl_timeline_at(page->view->timeline, arm, zone, page->times_min[time], NULL, &cell);
        char base[16], stress[16];
        sl_percent(cell.base_moved, base, sizeof base);
        sl_percent(cell.cystine_lost, stress, sizeof stress);
        const double x = strip_x(page, left, time);
        sl_canvas_text(&page->canvas, x, y, page->strip_width, 1, number_face, base);
        sl_canvas_text(&page->canvas, x, y + SL_ROW_HEIGHT, page->strip_width, 1, number_face, stress);
    }
}

static void draw_times(sl_sheet_page *page, double left, double y)
{
    for (int time = 0; time < page->n_times; time++) {
        char text[24];
        if (sl_reading_has_minutes(page->scene)) {
            snprintf(text, sizeof text, "%.4g", page->times_min[time]);
        } else {
            snprintf(text, sizeof text, "%d.", time + 1);
        }
        sl_canvas_text(&page->canvas, strip_x(page, left, time), y, page->strip_width, 1, number_face, text);
    }
}

void sl_group_draw(sl_sheet_page *page, int arm, double left, double y)
{
    const sl_arm *treated = &page->scene->arms[arm];
    char mixes[256], on[128];
    describe_arm(page->scene, treated, mixes, sizeof mixes);
    describe_times(page->scene, treated, on, sizeof on);
    const double name =
        sl_canvas_text(&page->canvas, left, y, page->group_width, 2, arm_face, sl_arm_title(treated));
    const double mix =
        sl_canvas_text(&page->canvas, left, y + name + 1.0, page->group_width, 2, mix_face, mixes);
    sl_canvas_text(&page->canvas, left, y + name + mix + 1.0, page->group_width, 1, mix_face, on);
    const double strips = y + page->arm_head + page->times_height;
    if (!sl_timeline_predicted(page->view->timeline, arm)) {
        draw_outside(page, left, strips);
        return;
    }
    if (!page->single) { /* there the moment stands at the head */
        draw_times(page, left, y + page->arm_head - 4.0);
    }
    for (int time = 0; time < page->n_times; time++) {
        draw_strip(page, arm, time, left, strips);
    }
    draw_rows(page, arm, left, strips + page->zone_height * page->scene->n_zones + 6.0);
}
