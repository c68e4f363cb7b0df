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
#include "paper/draw/graph_pen.h"
#include "paper/pack/pack.h"
#include "report/reading.h"
#include "report/run/curves.h"

enum { ABREAST = 2, MOST_CODES = 9 };
static const double CURVE_HEIGHT = 132.0, MAP_HEIGHT = 220.0, SMALLER = 0.85, GAP = 14.0; /* points */

/* ---- figures ------------------------------------------------------------------------------------- */

typedef struct sl_abreast {
    const sl_graph *graph[ABREAST]; /* NULL: none */
} sl_abreast;

static void draw_curves(sl_canvas *canvas, double x, double y, double width, double height, const void *with)
{
    const sl_abreast *const all = with;
    const sl_paper_face bold = {.size = 9.5, .bold = true, .grey = 0.0, .align = PANGO_ALIGN_LEFT};
    sl_page_pen page = {canvas, SMALLER};
    const sl_graph_pen pen = sl_graph_pen_on_page(&page);
    const double each = (width - GAP) / ABREAST;
    for (int side = 0; side < ABREAST && all->graph[side] != NULL; side++) {
        const double left = x + side * (each + GAP);
        const double title = sl_canvas_text(canvas, left, y, each, 1, bold, all->graph[side]->title);
        sl_graph_draw(all->graph[side], &pen, (sl_graph_box){left, y + title, each, height - title});
    }
}

static void draw_map(sl_canvas *canvas, double x, double y, double width, double height, const void *with)
{
    sl_page_pen page = {canvas, SMALLER};
    const sl_graph_pen pen = sl_graph_pen_on_page(&page);
    const double key = 0.3 * width, field = width - key - GAP;
    sl_graph_draw(with, &pen, (sl_graph_box){x, y, field, height});
    sl_graph_draw_key(with, &pen, (sl_graph_box){x + field + GAP, y, key, height});
}

static double left_at(const sl_pack *pack, int arm, int zone, double time_min)
{
    return 100.0 * sl_left_at(pack->page->timeline, arm, zone, time_min);
}

static void put_curves(sl_document *document, const sl_pack *pack)
{
    const sl_scene *const scene = pack->page->plan->scene;
    int next = 0;
    while (next < scene->n_zones && !document->failed) {
        sl_abreast *const all =
            sl_arena_new(&document->arena, 1, sizeof *all, "drawing curves", document->error);
        document->failed = all == NULL;
        for (int n = 0; !document->failed && next < scene->n_zones && n < ABREAST; next++) {
            if (sl_zone_direct(scene, next)) {
                all->graph[n] =
                    sl_graph_of_left(&document->arena, pack->page->timeline, next, document->error);
                document->failed = all->graph[n++] == NULL;
            }
        }
        if (!document->failed && all->graph[0] != NULL) {
            sl_put_figure(document, "", CURVE_HEIGHT, draw_curves, all);
        }
    }
}

static void put_map(sl_document *document, const sl_pack *pack)
{
    const sl_map_page page = {.scene = pack->page->plan->scene, .map = pack->map, .shows = SL_MAP_LEFT};
    const sl_graph *const graph = sl_graph_of_map(&document->arena, &page, document->error);
    document->failed = document->failed || graph == NULL;
    if (graph != NULL) {
        sl_put_figure(document,
                      _("Lines of equal colour left, in the colour that holds most, for one arm with other "
                        "strengths of developer and other times. Swatches on a bench; a time for nobody's "
                        "head."),
                      MAP_HEIGHT, draw_map, graph);
        sl_document_say(document, "%s", graph->note);
        sl_document_say(document, "%s", graph->says);
    }
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
            if (!sl_has_left_curve(pack->page->timeline, a)) {
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
        put_map(document, pack);
        put_map_numbers(document, pack->map);
    }
}
