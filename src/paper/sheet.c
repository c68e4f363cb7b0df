/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The sheet: one group of strips for each arm, one strip for each moment, root end up;
 * base moved and hair stress below; the cautions at the foot. Invariant: whatever a
 * colour says, a word or a number beside it says too, so that a copy in black and white
 * still reads; and nothing is drawn for an arm that the model does not cover.
 */
#include "slowlift/paper.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "paper/canvas.h"
#include "report/reading.h"
#include "report/text.h"
#include "slowlift/estimate.h"
#include "slowlift/report.h"

/* A4 on its side, else upright, whichever holds the arms; when neither does the page grows
 * downward. Points. */
static const double short_side = 595.0, long_side = 842.0, margin = 32.0;
static const double label_width = 76.0, group_gap = 9.0, strip_gap = 1.5;
static const double least_strip = 14.0, most_strip = 40.0;
static const double least_zone = 17.0, usual_zone = 26.0, most_zone = 34.0, row_height = 11.5,
                    arm_head = 58.0, band_gap = 14.0;

typedef struct sl_sheet {
    sl_canvas canvas;
    const sl_timeline *timeline;
    const sl_scene *scene;
    const sl_optics *optics;
    sl_viewing viewing;
    const double *times_min; /* [n_times] */
    int n_times;
    double width, height; /* of the page */
    int per_band;         /* arms side by side */
    int bands;
    double zone_height;
    double group_width, strip_width;
} sl_sheet;

static const sl_face title_face = {.size = 17.0, .bold = true, .grey = 0.08, .align = PANGO_ALIGN_LEFT};
static const sl_face question_face = {.size = 10.5, .grey = 0.2, .align = PANGO_ALIGN_LEFT};
static const sl_face small_face = {.size = 7.6, .grey = 0.3, .align = PANGO_ALIGN_LEFT};
static const sl_face arm_face = {.size = 8.6, .bold = true, .grey = 0.08, .align = PANGO_ALIGN_LEFT};
static const sl_face mix_face = {.size = 6.8, .grey = 0.35, .align = PANGO_ALIGN_LEFT};
static const sl_face label_face = {.size = 8.2, .grey = 0.12, .align = PANGO_ALIGN_RIGHT};
static const sl_face number_face = {.size = 7.2, .grey = 0.12, .align = PANGO_ALIGN_CENTER};

/* ---- what it says -------------------------------------------------------------------- */

static const char *text_or(const char *text, const char *otherwise)
{
    return text != NULL && text[0] != '\0' ? text : otherwise;
}

/* The mixes of an arm in order, or what is done instead. */
static void describe_arm(const sl_scene *scene, const sl_arm *arm, char *text, size_t size)
{
    text[0] = '\0';
    for (int i = 0; i < arm->n_steps; i++) {
        if (arm->steps[i].kind != SL_STEP_APPLY) {
            continue;
        }
        const sl_mix *mix = &scene->mixes[arm->steps[i].mix];
        const size_t used = strlen(text);
        snprintf(text + used, size - used, "%s%s", used > 0 ? ", then " : "", text_or(mix->title, mix->name));
    }
    if (text[0] == '\0') {
        sl_washing_words(arm, text, size);
    }
}

/* When the mix is on, for the bench alone: "on 4-16, 18-33 min". */
static void describe_times(const sl_scene *scene, const sl_arm *arm, char *text, size_t size)
{
    double clock = arm->contact_min;
    text[0] = '\0';
    for (int i = 0; i < arm->n_steps; i++) {
        const sl_step *step = &arm->steps[i];
        const double end = clock + (step->kind == SL_STEP_SHAMPOO ? step->shampoos : step->duration_min);
        if (step->kind == SL_STEP_APPLY) {
            const size_t used = strlen(text);
            char from[16], to[16];
            sl_clock_time(clock, from, sizeof from);
            sl_clock_time(end, to, sizeof to);
            snprintf(text + used, size - used, "%s%s-%s", used > 0 ? ", " : "on ", from, to);
        }
        clock = end;
    }
    if (text[0] == '\0' || !sl_reading_has_minutes(scene)) {
        text[0] = '\0';
        return;
    }
    const size_t used = strlen(text);
    snprintf(text + used, size - used, " min");
}

/* ---- one group of strips -------------------------------------------------------------- */

static double strip_x(const sl_sheet *sheet, double left, int time)
{
    return left + (double)time * (sheet->strip_width + strip_gap);
}

/* Light or dark, whichever reads better on the colour. */
static double ink_on(sl_srgb8 colour)
{
    const sl_srgb8 white = {255, 255, 255}, black = {0, 0, 0};
    return sl_contrast(colour, white) > sl_contrast(colour, black) ? 1.0 : 0.0;
}

static void draw_zone(sl_sheet *sheet, const sl_cell *cell, double x, double y)
{
    sl_canvas *canvas = &sheet->canvas;
    sl_canvas_colour(canvas, cell->colour.srgb);
    cairo_rectangle(canvas->cairo, x, y, sheet->strip_width, sheet->zone_height + 0.5); /* no seam */
    cairo_fill(canvas->cairo);
    if (cell->colour_left < 0.0) {
        return;
    }
    char text[16];
    sl_percent(cell->colour_left, text, sizeof text);
    sl_face face = number_face;
    face.grey = ink_on(cell->colour.srgb);
    const double height = sl_canvas_measure(canvas, sheet->strip_width, 1, face, text);
    sl_canvas_text(canvas, x, y + 0.5 * (sheet->zone_height - height), sheet->strip_width, 1, face, text);
}

static void draw_strip(sl_sheet *sheet, int arm, int time, double left, double y)
{
    const sl_scene *scene = sheet->scene;
    const double x = strip_x(sheet, left, time), height = sheet->zone_height * scene->n_zones;
    cairo_t *cairo = sheet->canvas.cairo;
    cairo_save(cairo);
    sl_canvas_box(&sheet->canvas, x, y, sheet->strip_width, height, 2.5);
    cairo_clip(cairo);
    for (int zone = 0; zone < scene->n_zones; zone++) {
        sl_cell cell;
        sl_timeline_at(sheet->timeline, arm, zone, sheet->times_min[time], sheet->optics, &cell);
        draw_zone(sheet, &cell, x, y + zone * sheet->zone_height);
    }
    cairo_restore(cairo);
}

static void draw_outside(sl_sheet *sheet, double left, double y)
{
    const double height = sheet->zone_height * sheet->scene->n_zones, step = 9.0;
    cairo_t *cairo = sheet->canvas.cairo;
    cairo_save(cairo);
    sl_canvas_box(&sheet->canvas, left, y, sheet->group_width, height, 2.5);
    cairo_clip(cairo);
    sl_canvas_grey(&sheet->canvas, 0.88);
    cairo_paint(cairo);
    sl_canvas_grey(&sheet->canvas, 0.76);
    cairo_set_line_width(cairo, 0.8);
    const int lines = (int)ceil((height + sheet->group_width) / step);
    for (int i = 0; i < lines; i++) {
        const double at = left - height + i * step;
        cairo_move_to(cairo, at, y + height);
        cairo_line_to(cairo, at + height, y);
    }
    cairo_stroke(cairo);
    cairo_restore(cairo);
    const sl_face face = {.size = 8.2, .bold = true, .grey = 0.1, .align = PANGO_ALIGN_CENTER};
    const char text[] = "outside this model: recorded, not computed";
    const double inset = 6.0;
    const double taken = sl_canvas_measure(&sheet->canvas, sheet->group_width - 2.0 * inset, 0, face, text);
    const double top = y + 0.5 * (height - taken);
    sl_canvas_grey(&sheet->canvas, 0.88);
    cairo_rectangle(cairo, left, top - inset, sheet->group_width, taken + 2.0 * inset);
    cairo_fill(cairo);
    sl_canvas_text(&sheet->canvas, left + inset, top, sheet->group_width - 2.0 * inset, 0, face, text);
}

/* Base moved and hair stress of each moment, below the strips. */
static void draw_rows(sl_sheet *sheet, int arm, double left, double y)
{
    const int zone = sl_reference_zone(sheet->scene, 0);
    for (int time = 0; time < sheet->n_times; time++) {
        sl_cell cell;
        sl_timeline_at(sheet->timeline, arm, zone, sheet->times_min[time], NULL, &cell);
        char base[16], stress[16];
        sl_percent(cell.base_moved, base, sizeof base);
        sl_percent(cell.cystine_lost, stress, sizeof stress);
        const double x = strip_x(sheet, left, time);
        sl_canvas_text(&sheet->canvas, x, y, sheet->strip_width, 1, number_face, base);
        sl_canvas_text(&sheet->canvas, x, y + row_height, sheet->strip_width, 1, number_face, stress);
    }
}

static void draw_times(sl_sheet *sheet, double left, double y)
{
    for (int time = 0; time < sheet->n_times; time++) {
        char text[24];
        if (sl_reading_has_minutes(sheet->scene)) {
            snprintf(text, sizeof text, "%.4g", sheet->times_min[time]);
        } else {
            snprintf(text, sizeof text, "%d.", time + 1);
        }
        sl_canvas_text(&sheet->canvas, strip_x(sheet, left, time), y, sheet->strip_width, 1, number_face,
                       text);
    }
}

static void draw_group(sl_sheet *sheet, int arm, double left, double y)
{
    const sl_arm *treated = &sheet->scene->arms[arm];
    char mixes[256], on[128];
    describe_arm(sheet->scene, treated, mixes, sizeof mixes);
    describe_times(sheet->scene, treated, on, sizeof on);
    const double name =
        sl_canvas_text(&sheet->canvas, left, y, sheet->group_width, 2, arm_face, treated->name);
    const double mix =
        sl_canvas_text(&sheet->canvas, left, y + name + 1.0, sheet->group_width, 2, mix_face, mixes);
    sl_canvas_text(&sheet->canvas, left, y + name + mix + 1.0, sheet->group_width, 1, mix_face, on);
    const double strips = y + arm_head + row_height;
    if (!sl_timeline_predicted(sheet->timeline, arm)) {
        draw_outside(sheet, left, strips);
        return;
    }
    draw_times(sheet, left, y + arm_head - 4.0);
    for (int time = 0; time < sheet->n_times; time++) {
        draw_strip(sheet, arm, time, left, strips);
    }
    draw_rows(sheet, arm, left, strips + sheet->zone_height * sheet->scene->n_zones + 6.0);
}

/* ---- a band of groups ----------------------------------------------------------------- */

static double band_height(const sl_sheet *sheet)
{
    return arm_head + row_height + sheet->zone_height * sheet->scene->n_zones + 6.0 + 2.0 * row_height;
}

static void draw_label(sl_sheet *sheet, double y, double height, int lines, const char *text)
{
    const double width = label_width - 8.0;
    const double taken = sl_canvas_measure(&sheet->canvas, width, lines, label_face, text);
    sl_canvas_text(&sheet->canvas, margin, y + 0.5 * (height - taken), width, lines, label_face, text);
}

static void draw_labels(sl_sheet *sheet, double y)
{
    const sl_scene *scene = sheet->scene;
    const double strips = y + arm_head + row_height;
    draw_label(sheet, y + arm_head - 4.0, row_height - 2.0, 1,
               sl_reading_has_minutes(scene) ? "minutes" : "moment");
    for (int zone = 0; zone < scene->n_zones; zone++) {
        draw_label(sheet, strips + zone * sheet->zone_height, sheet->zone_height, 2, scene->zones[zone].name);
    }
    const double rows = strips + sheet->zone_height * scene->n_zones + 6.0;
    draw_label(sheet, rows, row_height - 2.0, 1, "base moved %");
    draw_label(sheet, rows + row_height, row_height - 2.0, 1, "hair stress %");
}

static double draw_bands(sl_sheet *sheet, double y)
{
    const sl_scene *scene = sheet->scene;
    for (int first = 0; first < scene->n_arms; first += sheet->per_band) {
        const double top = y + arm_head + row_height - 5.0;
        sl_canvas_grey(&sheet->canvas, 0.93);
        sl_canvas_box(&sheet->canvas, margin + label_width - 5.0, top,
                      sheet->width - 2.0 * margin - label_width + 10.0,
                      sheet->zone_height * scene->n_zones + 10.0, 4.0);
        cairo_fill(sheet->canvas.cairo);
        draw_labels(sheet, y);
        for (int i = 0; i < sheet->per_band && first + i < scene->n_arms; i++) {
            draw_group(sheet, first + i, margin + label_width + i * (sheet->group_width + group_gap), y);
        }
        y += band_height(sheet) + band_gap;
    }
    return y;
}

/* ---- head and foot -------------------------------------------------------------------- */

/* Draws the text, or only measures it, and moves down. */
typedef struct sl_pen {
    sl_canvas *canvas;
    double y;
    bool draws;
} sl_pen;

static void write_down(sl_pen *pen, double x, double width, sl_face face, double after, const char *text)
{
    pen->y += after + (pen->draws ? sl_canvas_text(pen->canvas, x, pen->y, width, 0, face, text)
                                  : sl_canvas_measure(pen->canvas, width, 0, face, text));
}

static double write_head(const sl_sheet *sheet, sl_pen pen)
{
    const sl_scene *scene = sheet->scene;
    const double width = sheet->width - 2.0 * margin;
    const double celsius = sl_settled_c(scene);
    char line[512], note[320];
    write_down(&pen, margin, width, title_face, 2.0, text_or(scene->title, scene->name));
    if (scene->question != NULL && scene->question[0] != '\0') {
        write_down(&pen, margin, width, question_face, 4.0, scene->question);
    }
    sl_example_note(scene, note, sizeof note);
    snprintf(line, sizeof line, "Lies: %s, %.0f °C (%.0f °F); %s.", sl_place_word(scene->place), celsius,
             32.0 + 1.8 * celsius, note);
    write_down(&pen, margin, width, small_face, 2.0, line);
    snprintf(line, sizeof line,
             "Numbers in the strips: %% of the zone's colour left. Below them, in the undyed zone \"%s\": "
             "how far the "
             "base moved and how much of the hair's cystine was lost, %%. %s",
             scene->zones[sl_reference_zone(scene, 0)].name,
             sl_reading_has_minutes(scene) ? ""
                                           : "Moments in order; this program gives no minutes for a head.");
    write_down(&pen, margin, width, small_face, 10.0, line);
    return pen.y;
}

/* The cautions that always stand, in two columns of about the same length. */
static double write_foot(const sl_sheet *sheet, sl_pen pen)
{
    const double gap = 18.0, signal = 40.0, all = sheet->width - 2.0 * margin, width = 0.5 * (all - gap);
    const sl_face face = {.size = 6.6, .grey = 0.2, .align = PANGO_ALIGN_LEFT};
    sl_face bold = face;
    bold.bold = true;
    char line[320], viewing[120];
    sl_viewing_words(sheet->viewing, viewing, sizeof viewing);
    snprintf(line, sizeof line, "Classroom example; %s. Colours are for %s.", sl_not_calibrated, viewing);
    write_down(&pen, margin, all, small_face, 4.0, line);
    sl_pen column[2] = {pen, pen};
    for (int id = 0; id < SL_CAUTION_COUNT; id++) {
        const sl_caution *caution = sl_caution_text((sl_caution_id)id);
        if (!caution->always) {
            continue;
        }
        const int shorter = column[1].y < column[0].y ? 1 : 0;
        const double x = margin + shorter * (width + gap);
        sl_pen beside = column[shorter];
        write_down(&beside, x, signal, bold, 0.0, caution->signal);
        write_down(&column[shorter], x + signal, width - signal, face, 3.0, caution->text);
    }
    return fmax(column[0].y, column[1].y);
}

/* ---- the whole ------------------------------------------------------------------------ */

/* Arms side by side on a page of this width; false when not even one fits. */
static bool arrange(sl_sheet *sheet, double width)
{
    const double room = width - 2.0 * margin - label_width;
    const double narrowest = sheet->n_times * (least_strip + strip_gap) - strip_gap;
    const int fitting = (int)floor((room + group_gap) / (fmax(narrowest, 60.0) + group_gap));
    if (fitting < 1) {
        return false;
    }
    const int n_arms = sheet->scene->n_arms;
    const double widest = fmax(sheet->n_times * (most_strip + strip_gap) - strip_gap, 110.0);
    sheet->width = width;
    sheet->bands = (n_arms + fitting - 1) / fitting;
    sheet->per_band = (n_arms + sheet->bands - 1) / sheet->bands;
    sheet->group_width = fmin((room + group_gap) / sheet->per_band - group_gap, widest);
    sheet->strip_width = fmin((sheet->group_width + strip_gap) / sheet->n_times - strip_gap, most_strip);
    return true;
}

/* The height that all but the zones needs, measured on a surface of no size. */
static double fixed_height(sl_sheet *sheet)
{
    cairo_surface_t *none = cairo_recording_surface_create(CAIRO_CONTENT_COLOR, NULL);
    sl_canvas canvas = {.surface = none, .cairo = cairo_create(none)};
    sl_canvas_prepare(&canvas);
    const sl_pen pen = {.canvas = &canvas, .y = margin, .draws = false};
    const double head = write_head(sheet, pen), foot = write_foot(sheet, pen);
    g_object_unref(canvas.layout);
    cairo_destroy(canvas.cairo);
    cairo_surface_destroy(none);
    sheet->zone_height = 0.0;
    return head + sheet->bands * (band_height(sheet) + band_gap) + foot;
}

/* Whether the arms fit a page of this size, with zones as high as it allows. */
static bool fit_page(sl_sheet *sheet, double width, double height)
{
    if (!arrange(sheet, width)) {
        return false;
    }
    sheet->height = height;
    const double room = height - fixed_height(sheet);
    sheet->zone_height = fmin(room / (sheet->bands * sheet->scene->n_zones), most_zone);
    return sheet->zone_height >= least_zone;
}

static bool choose_page(sl_sheet *sheet, sl_error *error)
{
    if (fit_page(sheet, long_side, short_side) || fit_page(sheet, short_side, long_side)) {
        return true;
    }
    if (!arrange(sheet, long_side)) {
        return sl_fail(error, SL_ERR_USAGE, "this many moments do not fit on a sheet",
                       "ask for 1 to 40 times");
    }
    const double fixed = fixed_height(sheet);
    sheet->zone_height = usual_zone;
    sheet->height = fixed + sheet->bands * sheet->scene->n_zones * usual_zone;
    return true;
}

bool sl_paper_sheet(const char *path, const sl_timeline *timeline, const sl_optics *optics,
                    sl_viewing viewing, const double *times_min, int n_times, sl_error *error)
{
    sl_sheet sheet = {.timeline = timeline,
                      .scene = sl_timeline_scene(timeline),
                      .optics = optics,
                      .viewing = viewing,
                      .times_min = times_min,
                      .n_times = n_times};
    /* The file is opened before any text is measured: cairo counts the fonts of a sheet that
     * is never drawn as still in use, and ends the program over it. */
    if (!sl_canvas_begin(&sheet.canvas, path, error)) {
        return false;
    }
    if (!choose_page(&sheet, error)) {
        sl_canvas_abandon(&sheet.canvas);
        return false;
    }
    const char *title = text_or(sheet.scene->title, sheet.scene->name);
    if (!sl_canvas_open(&sheet.canvas, sheet.width, sheet.height, title, error)) {
        return false;
    }
    const double below = write_head(&sheet, (sl_pen){.canvas = &sheet.canvas, .y = margin, .draws = true});
    draw_bands(&sheet, below);
    const double foot = write_foot(&sheet, (sl_pen){.canvas = &sheet.canvas, .y = 0.0, .draws = false});
    write_foot(&sheet, (sl_pen){.canvas = &sheet.canvas, .y = sheet.height - margin - foot, .draws = true});
    return sl_canvas_commit(&sheet.canvas, error);
}
