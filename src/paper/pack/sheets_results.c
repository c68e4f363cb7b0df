/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The result table to fill in, and what the model expects: curves of colour left for each colour and
 * lines of equal colour left over strength and time. Invariant: arms are told apart by number and
 * dashes alone, and a table has the numbers of every figure.
 */
#include <math.h>
#include <stdio.h>

#include "base/language.h"
#include "base/minute.h"
#include "document/text.h"
#include "paper/charts/chart.h"
#include "paper/pack/pack.h"
#include "report/reading.h"

enum { CURVE_POINTS = 61, ABREAST = 2, MOST_CODES = 9 };
static const double CURVE_HEIGHT = 128.0, CONTOUR_HEIGHT = 260.0, TICK_ROOM = 30.0, BELOW = 26.0;
static const sl_paper_face small_face = {.size = 8.5, .grey = 0.0, .align = PANGO_ALIGN_CENTER};

typedef struct sl_frame {
    sl_canvas *canvas;
    double x, y, width, height; /* of the field */
    double x_from, x_to, y_from, y_to;
} sl_frame;

static double at_x(const sl_frame *frame, double value)
{
    return frame->x + frame->width * (value - frame->x_from) / (frame->x_to - frame->x_from);
}

static double at_y(const sl_frame *frame, double value)
{
    return frame->y + frame->height * (1.0 - (value - frame->y_from) / (frame->y_to - frame->y_from));
}

static void stroke(const sl_frame *frame, double x0, double y0, double x1, double y1)
{
    cairo_move_to(frame->canvas->cairo, x0, y0);
    cairo_line_to(frame->canvas->cairo, x1, y1);
    cairo_stroke(frame->canvas->cairo);
}

static void draw_ticks(const sl_frame *frame, bool along_x)
{
    sl_canvas *const canvas = frame->canvas;
    const double from = along_x ? frame->x_from : frame->y_from, to = along_x ? frame->x_to : frame->y_to;
    const double step = sl_graph_step(2.0 * (to - from));
    for (double i = ceil(from / step - 1e-9); i * step <= to + 1e-9; i++) {
        char words[24];
        sl_paper_face face = small_face;
        sl_short_number(i * step, 1, words, sizeof words);
        sl_canvas_grey(canvas, 0.85);
        if (along_x) {
            const double x = at_x(frame, i * step);
            stroke(frame, x, frame->y, x, frame->y + frame->height);
            sl_canvas_text(canvas, x - 20.0, frame->y + frame->height + 1.0, 40.0, 1, face, words);
        } else {
            const double y = at_y(frame, i * step);
            face.align = PANGO_ALIGN_RIGHT;
            stroke(frame, frame->x, y, frame->x + frame->width, y);
            sl_canvas_text(canvas, frame->x - 34.0, y - 6.0, 31.0, 1, face, words);
        }
    }
}

static void draw_frame(const sl_frame *frame, const char *title, const char *below)
{
    sl_canvas *const canvas = frame->canvas;
    const sl_paper_face bold = {.size = 9.5, .bold = true, .grey = 0.0, .align = PANGO_ALIGN_LEFT};
    cairo_set_line_width(canvas->cairo, 0.5);
    draw_ticks(frame, true);
    draw_ticks(frame, false);
    sl_canvas_grey(canvas, 0.2);
    cairo_rectangle(canvas->cairo, frame->x, frame->y, frame->width, frame->height);
    cairo_stroke(canvas->cairo);
    sl_canvas_text(canvas, frame->x, frame->y - 14.0, frame->width, 1, bold, title);
    sl_canvas_text(canvas, frame->x, frame->y + frame->height + 11.0, frame->width, 1, small_face, below);
}

/* A number on a white plate. */
static void draw_mark(const sl_frame *frame, double x, double y, const char *words)
{
    const double half = words[1] == '\0' ? 4.5 : 9.0;
    sl_canvas_grey(frame->canvas, 1.0);
    cairo_rectangle(frame->canvas->cairo, x - half, y - 5.5, 2.0 * half, 11.0);
    cairo_fill(frame->canvas->cairo);
    sl_canvas_text(frame->canvas, x - 20.0, y - 5.8, 40.0, 1, small_face, words);
}

/* ---- curves ---------------------------------------------------------------------------------- */

typedef struct sl_curves {
    const sl_pack *pack;
    int zone[ABREAST]; /* -1: none */
} sl_curves;

static bool has_curve(const sl_pack *pack, int arm)
{
    const sl_arm *const of = &pack->page->plan->scene->arms[arm];
    return !of->undyed && of->n_steps > 0 && sl_timeline_predicted(pack->page->timeline, arm);
}

static double left_at(const sl_pack *pack, int arm, int zone, double time_min)
{
    return 100.0 * sl_left_at(pack->page->timeline, arm, zone, time_min);
}

static void draw_curve(const sl_frame *frame, const sl_pack *pack, int arm, int zone)
{
    static const double dashes[][4] = {
        {1.0, 0.0, 1.0, 0.0}, {6.0, 2.5, 6.0, 2.5}, {2.0, 2.0, 2.0, 2.0}, {8.0, 2.0, 2.0, 2.0}};
    cairo_t *const cairo = frame->canvas->cairo;
    for (int i = 0; i < CURVE_POINTS; i++) {
        const double time = frame->x_to * i / (CURVE_POINTS - 1);
        const double x = at_x(frame, time), y = at_y(frame, left_at(pack, arm, zone, time));
        if (i == 0) {
            cairo_move_to(cairo, x, y);
        } else {
            cairo_line_to(cairo, x, y);
        }
    }
    sl_canvas_grey(frame->canvas, 0.0);
    cairo_set_line_width(cairo, 1.0);
    cairo_set_dash(cairo, dashes[arm % 4], 4, 0.0);
    cairo_stroke(cairo);
    cairo_set_dash(cairo, NULL, 0, 0.0);
}

static void draw_curves(sl_canvas *canvas, double x, double y, double width, double height, const void *with)
{
    const sl_curves *const curves = with;
    const sl_scene *const scene = curves->pack->page->plan->scene;
    for (int side = 0; side < ABREAST && curves->zone[side] >= 0; side++) {
        const sl_frame frame = {.canvas = canvas,
                                .x = x + side * width / ABREAST + TICK_ROOM,
                                .y = y + 16.0,
                                .width = width / ABREAST - TICK_ROOM - 8.0,
                                .height = height - 16.0 - BELOW,
                                .x_to = scene->until_min,
                                .y_to = 100.0};
        draw_frame(&frame, sl_zone_title(&scene->zones[curves->zone[side]]),
                   _("min on the scene's clock; upward: % left"));
        for (int a = 0; a < scene->n_arms; a++) {
            if (has_curve(curves->pack, a)) {
                draw_curve(&frame, curves->pack, a, curves->zone[side]);
            }
        }
        for (int a = 0; a < scene->n_arms; a++) {
            if (has_curve(curves->pack, a)) {
                char number[16];
                const double time = scene->until_min * (0.28 + 0.68 * a / scene->n_arms);
                snprintf(number, sizeof number, "%d", a + 1);
                draw_mark(&frame, at_x(&frame, time),
                          at_y(&frame, left_at(curves->pack, a, curves->zone[side], time)), number);
            }
        }
    }
}

static void put_curves(sl_document *document, const sl_pack *pack)
{
    const sl_scene *const scene = pack->page->plan->scene;
    int next = 0;
    while (next < scene->n_zones && !document->failed) {
        sl_curves *const curves =
            sl_arena_new(&document->arena, 1, sizeof *curves, "drawing curves", document->error);
        document->failed = curves == NULL;
        int n = 0;
        for (; curves != NULL && next < scene->n_zones && n < ABREAST; next++) {
            if (sl_zone_direct(scene, next)) {
                curves->zone[n++] = next;
            }
        }
        if (curves != NULL && n > 0) {
            curves->pack = pack;
            for (int i = n; i < ABREAST; i++) {
                curves->zone[i] = -1;
            }
            sl_put_figure(document, "", CURVE_HEIGHT, draw_curves, curves);
        }
    }
}

/* ---- lines of equal colour left ---------------------------------------------------------------- */

static void draw_level(const sl_frame *frame, const sl_map *map, const sl_contour_piece *pieces, int n,
                       double level)
{
    const double across = (map->x.to - map->x.from) / (map->x.n - 1),
                 up = (map->y.to - map->y.from) / (map->y.n - 1);
    char words[16];
    snprintf(words, sizeof words, "%.0f", 100.0 * level);
    sl_canvas_grey(frame->canvas, 0.0);
    cairo_set_line_width(frame->canvas->cairo, 1.0);
    for (int i = 0; i < n; i++) {
        stroke(frame, at_x(frame, map->x.from + across * pieces[i].x0),
               at_y(frame, map->y.from + up * pieces[i].y0), at_x(frame, map->x.from + across * pieces[i].x1),
               at_y(frame, map->y.from + up * pieces[i].y1));
    }
    if (n > 0) {
        const sl_contour_piece *const middle = &pieces[n / 2];
        draw_mark(frame, at_x(frame, map->x.from + across * middle->x0),
                  at_y(frame, map->y.from + up * middle->y0), words);
    }
}

static void draw_contour(sl_canvas *canvas, double x, double y, double width, double height, const void *with)
{
    static const double levels[] = {0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9};
    const sl_pack *const pack = with;
    const sl_map *const map = pack->map;
    const sl_frame frame = {.canvas = canvas,
                            .x = x + TICK_ROOM,
                            .y = y + 16.0,
                            .width = width - TICK_ROOM - 8.0,
                            .height = height - 16.0 - BELOW,
                            .x_from = map->x.from,
                            .x_to = map->x.to,
                            .y_from = map->y.from,
                            .y_to = map->y.to};
    draw_frame(&frame, sl_arm_title(&pack->page->plan->scene->arms[map->arm]),
               _("developer, % as labelled; upward: minutes on the swatch; on the lines: % left"));
    sl_contour_piece *const pieces =
        sl_new(2 * (size_t)(map->x.n - 1) * (size_t)(map->y.n - 1), sizeof *pieces, "drawing a map", NULL);
    for (size_t i = 0; pieces != NULL && i < sizeof levels / sizeof levels[0]; i++) {
        const int n = sl_contour(map->value[SL_MAP_LEFT], map->x.n, map->y.n, levels[i], pieces);
        draw_level(&frame, map, pieces, n, levels[i]);
    }
    sl_free(pieces);
}

static void put_map_numbers(sl_document *document, const sl_map *map)
{
    enum { SHOWN = 5 };
    sl_text_column columns[SHOWN + 1] = {{N_("Minutes"), 1.4, SL_RIGHT}};
    for (int i = 0; i < SHOWN; i++) {
        char head[32], value[16];
        sl_short_number(sl_axis_value(&map->x, i * (map->x.n - 1) / (SHOWN - 1)), 1, value, sizeof value);
        snprintf(head, sizeof head, "%s %%", value);
        columns[i + 1] = (sl_text_column){sl_document_keep(document, head), 1.0, SL_RIGHT | SL_OWN};
    }
    sl_document_table(document,
                      _("The same in numbers: colour left, % of the start, by strength of developer"),
                      SHOWN + 1, columns, 0.0);
    for (int j = 0; j < SHOWN; j++) {
        const int row = j * (map->y.n - 1) / (SHOWN - 1);
        char value[16];
        sl_short_number(sl_axis_value(&map->y, row), 0, value, sizeof value);
        sl_document_cell(document, "%s", value);
        for (int i = 0; i < SHOWN; i++) {
            sl_percent(map->value[SL_MAP_LEFT][row * map->x.n + i * (map->x.n - 1) / (SHOWN - 1)], value,
                       sizeof value);
            sl_document_cell(document, "%s", value);
        }
    }
}

/* ---- the table to fill in ------------------------------------------------------------------------ */

static void put_blank(sl_document *document, const sl_plan *plan)
{
    const sl_scene *const scene = plan->scene;
    const int n = scene->n_zones < MOST_CODES ? scene->n_zones : MOST_CODES;
    sl_text_column columns[MOST_CODES + 1] = {{N_("Swatch"), 1.3, 0}};
    for (int z = 0; z < n; z++) {
        columns[z + 1] = (sl_text_column){sl_zone_title(&scene->zones[z]), 1.0, SL_OWN};
    }
    sl_document_say(
        document, "%s",
        _("Judge dry swatches, before the key is opened. Write 0 no change, 1 slight, 2 about half, "
          "3 mostly gone, 4 ghost only, 5 as undyed."));
    sl_document_table(document, _("What was seen"), n + 1, columns, 0.0);
    for (int i = 0; i < plan->n_swatches; i++) {
        sl_document_cell(document, "%s", plan->swatches[i].code);
        for (int z = 0; z < n; z++) {
            sl_document_cell(document, "%s", "");
        }
    }
}

static void put_arms(sl_document *document, const sl_pack *pack)
{
    const sl_scene *const scene = pack->page->plan->scene;
    static const double at[] = {5.0, 10.0, 20.0, 30.0};
    enum { TIMES = sizeof at / sizeof at[0] };
    for (int z = 0; z < scene->n_zones; z++) {
        sl_text_column columns[TIMES + 2] = {{N_("Number and arm"), 4.0, 0},
                                             [TIMES + 1] = {N_("end"), 1.0, SL_RIGHT}};
        for (int t = 0; t < TIMES; t++) {
            char head[40];
            sl_minute_words(SL_MINUTE_PLANNED, head, sizeof head, _("%.0f min"), at[t]);
            columns[t + 1] = (sl_text_column){sl_document_keep(document, head), 1.0, SL_RIGHT | SL_OWN};
        }
        if (!sl_zone_direct(scene, z)) {
            continue;
        }
        char caption[160];
        snprintf(caption, sizeof caption, _("Colour left in \"%s\", %% of the start, so long after contact"),
                 sl_zone_title(&scene->zones[z]));
        sl_document_table(document, caption, TIMES + 2, columns, 0.0);
        for (int a = 0; a < scene->n_arms; a++) {
            if (!has_curve(pack, a)) {
                continue;
            }
            sl_document_cell(document, "%d  %s", a + 1, sl_arm_title(&scene->arms[a]));
            for (int t = 0; t <= TIMES; t++) {
                char words[16] = "-";
                const double time = t < TIMES ? scene->arms[a].contact_min + at[t] : scene->until_min;
                if (time <= scene->until_min) {
                    sl_percent(0.01 * left_at(pack, a, z, time), words, sizeof words);
                }
                sl_document_cell(document, "%s", words);
            }
        }
    }
}

void sl_sheet_results(sl_document *document, const sl_pack *pack)
{
    put_blank(document, pack->page->plan);
    sl_document_break(document);
    sl_document_heading(document, _("What the model expects: colour left over time"));
    sl_document_say(
        document, "%s",
        _("The numbers on the curves are those of the arms in the tables below. Arms are put on one "
          "after the other, so curves begin one after the other. Swatches on a bench; a time for "
          "nobody's head."));
    put_curves(document, pack);
    put_arms(document, pack);
    if (pack->map != NULL) {
        sl_document_heading(document, _("What the model expects: strength and time"));
        sl_put_figure(document,
                      _("Lines of equal colour left, in the colour that holds most, for one arm with other "
                        "strengths of developer and other times. Swatches on a bench; a time for nobody's "
                        "head."),
                      CONTOUR_HEIGHT, draw_contour, pack);
        put_map_numbers(document, pack->map);
    }
}
