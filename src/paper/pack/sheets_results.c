/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The result table to fill in, and what the model expects: curves of colour left for each colour and
 * lines of equal colour left over strength and time. Invariant: arms are told apart by number and
 * dashes alone, and a table has the numbers of every chart.
 */
#include <math.h>
#include <stdio.h>

#include "base/language.h"
#include "base/minute.h"
#include "document/text.h"
#include "paper/pack/pack.h"
#include "report/reading.h"
#include "report/run/curves.h"

static const double CURVE_HEIGHT = 118.0, MAP_HEIGHT = 220.0; /* points */

/* ---- charts -------------------------------------------------------------------------------------- */

static double left_at(const sl_pack *pack, int arm, int zone, double time_min)
{
    return 100.0 * sl_left_at(pack->page->timeline, arm, zone, time_min);
}

/* Two abreast, for each zone in which it is followed. */
static void put_courses(sl_document *document, const sl_pack *pack, sl_course_of what)
{
    const sl_graph *chart[SL_CHARTS_ABREAST];
    int zones[SL_MAX_ZONES], n = 0;
    const int n_zones = sl_course_zones(pack->page->plan->scene, what, zones);
    for (int i = 0; i < n_zones && !document->failed; i++) {
        chart[n++] =
            sl_graph_of_course(&document->arena, pack->page->timeline, what, zones[i], document->error);
        if (n == SL_CHARTS_ABREAST || i + 1 == n_zones) {
            sl_document_charts(document, "", CURVE_HEIGHT, n, chart);
            n = 0;
        }
    }
}

static void put_map(sl_document *document, const sl_pack *pack)
{
    const sl_map_page page = {.scene = pack->page->plan->scene, .map = pack->map, .shows = SL_MAP_LEFT};
    const sl_graph *const chart = sl_graph_of_map(&document->arena, &page, document->error);
    sl_document_charts(
        document,
        _("Lines of equal colour left, in the colour that holds most, for one strip with other strengths of "
          "developer and other times. Swatches on a bench; a time for nobody's head."),
        MAP_HEIGHT, 1, &chart);
    if (chart != NULL) {
        sl_document_say(document, "%s", chart->says);
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

/* How many of the plan's looks, or pieces of a ladder, come while the mix is on; the last piece is the end.
 */
static int looks_of(const sl_plan *plan, const sl_planned_swatch *swatch, const int **minutes)
{
    const sl_plan_request *const request = &plan->request;
    const int most = request->n_rungs > 0 ? request->n_rungs : request->n_looks;
    *minutes = request->n_rungs > 0 ? request->rung_min : request->look_min;
    int n = 0;
    while (swatch->contact_s >= 0 && n < most && 60 * (*minutes)[n] < swatch->water_s - swatch->contact_s) {
        n++;
    }
    return n;
}

/* The rows and columns of sl_log_blank_csv(). */
static void put_blank(sl_document *document, const sl_plan *plan)
{
    static const sl_text_column columns[] = {{N_("Swatch"), 1.1, 0},        {N_("Zone"), 1.4, 0},
                                             {N_("Minute"), 1.1, SL_RIGHT}, {N_("Judge"), 1.0, 0},
                                             {N_("Grade"), 0.9, 0},         {N_("Cotton"), 1.0, 0},
                                             {N_("Feel"), 1.2, 0},          {N_("Stretch"), 1.2, 0},
                                             {N_("Outcome"), 1.2, 0},       {N_("Note"), 1.6, 0},
                                             {N_("Level"), 0.9, 0}};
    enum { WIDE = sizeof columns / sizeof columns[0], FILLED = 3 };
    const sl_scene *const scene = plan->scene;
    sl_document_say(
        document, "%s",
        _("Judge dry swatches, before the key is opened. Write 0 no change, 1 slight, 2 about half, "
          "3 mostly gone, 4 ghost only, 5 as undyed. A row without a minute is the end."));
    sl_document_table(document, _("What was seen"), WIDE, columns, 0.0);
    for (int i = 0; i < plan->n_swatches; i++) {
        const int *minutes = NULL;
        const int n_looks = looks_of(plan, &plan->swatches[i], &minutes);
        for (int row = 0; row < scene->n_zones * (n_looks + 1); row++) {
            const int look = row % (n_looks + 1);
            sl_document_cell(document, "%s", plan->swatches[i].code);
            sl_document_cell(document, "%s", sl_zone_title(&scene->zones[row / (n_looks + 1)]));
            sl_document_entry(document, look < n_looks
                                            ? (sl_entry){.kind = SL_ENTRY_PLANNED, .value = minutes[look]}
                                            : (sl_entry){.kind = SL_ENTRY_NONE});
            for (int c = FILLED; c < WIDE; c++) {
                sl_document_cell(document, "%s", "");
            }
        }
    }
}

static void put_arms(sl_document *document, const sl_pack *pack)
{
    const sl_scene *const scene = pack->page->plan->scene;
    static const double at[] = {5.0, 10.0, 20.0, 30.0};
    enum { TIMES = sizeof at / sizeof at[0] };
    for (int z = 0; z < scene->n_zones; z++) {
        sl_text_column columns[TIMES + 2] = {{N_("Number and strip"), 4.0, 0},
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
            if (!sl_has_course(pack->page->timeline, a)) {
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
    for (int what = 0; what < SL_COURSES; what++) {
        sl_document_heading(document, sl_course_words((sl_course_of)what));
        if (what == 0) {
            sl_document_say(document, "%s",
                            _("The numbers on the curves are those of the strips in the tables below. Strips "
                              "are put on one after the other, so curves begin one after the other. Swatches "
                              "on a bench; a time for nobody's head."));
        }
        put_courses(document, pack, (sl_course_of)what);
    }
    put_arms(document, pack);
    if (pack->map != NULL) {
        sl_document_heading(document, _("What the model expects: strength and time"));
        put_map(document, pack);
        put_map_numbers(document, pack->map);
    }
}
