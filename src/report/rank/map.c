/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See map.h.
 */
#include "report/rank/map.h"
#include "base/append.h"
#include "base/language.h"
#include "report/limits/aims_words.h"

#include <string.h>

#include "document/text.h"
#include "report/limits/leave_words.h"
#include "report/told.h"
#include "slowlift/caution.h"
#include "slowlift/report.h"

enum { TEXT = 640 };
static const double CHART_HEIGHT = 220.0; /* points */

/* ---- words ---------------------------------------------------------------------------------- */

void sl_axis_words(sl_setting setting, char *text, size_t size)
{
    snprintf(text, size, "%s", _(sl_knobs[setting].axis));
}

/* Whether a goal is set and some zone with a direct dye has none. */
static bool some_unwanted(const sl_scene *scene)
{
    bool some = false;
    for (int zone = 0; zone < scene->n_zones && sl_goal_set(scene); zone++) {
        some = some || (sl_zone_direct(scene, zone) && !sl_zone_goal(scene, zone).wanted);
    }
    return some;
}

void sl_layer_words(const sl_map_page *page, char *text, size_t size)
{
    switch (page->shows) {
    case SL_MAP_BASE:
        snprintf(text, size, _("base moved (%%)"));
        return;
    case SL_MAP_STRESS:
        snprintf(text, size, _("hair stress (%%)"));
        return;
    case SL_MAP_LEFT:
    case SL_MAP_LAYERS:
        break;
    }
    if (page->map->zone >= 0) {
        snprintf(text, size, _("colour left in \"%s\" (%%)"),
                 sl_zone_title(&page->scene->zones[page->map->zone]));
    } else {
        snprintf(text, size,
                 some_unwanted(page->scene) ? _("colour left in the zone with a goal that holds most (%%)")
                                            : _("colour left in the zone that holds most (%%)"));
    }
}

static void goal_words(const sl_map_page *page, char *text, size_t size)
{
    double share = 0.0;
    if (!sl_goal_set(page->scene)) {
        snprintf(text, size, "%s", _("this scene sets no goal"));
    } else if (sl_goal_share(page->scene, page->map->zone, &share)) {
        char by[16];
        sl_percent(share, by, sizeof by);
        snprintf(text, size, _("goal at most %s %% left"), by);
    } else {
        char goal[640];
        sl_goal_words(page->scene, goal, sizeof goal);
        snprintf(text, size, _("goal %s"), goal);
    }
}

void sl_map_aims_words(const sl_map_page *page, char *text, size_t size)
{
    const sl_label label = sl_label_of(page->scene, page->map->arm, NULL);
    char bounds[640];
    goal_words(page, text, size);
    sl_bounds_words(page->scene, false, bounds, sizeof bounds);
    if (bounds[0] != '\0') {
        sl_append_item(text, size, "; ", "%s", bounds);
    }
    sl_append_item(text, size, "; ", _("developer at most %.0f %%"), SL_LEGAL_PCT);
    if (label.source != SL_LABEL_NOT_ENTERED) { /* of the arm's mixes */
        char words[256];
        sl_label_words(&label, words, sizeof words);
        sl_append_item(text, size, "; ", "%s", words);
    }
}

/* ---- as a document ---------------------------------------------------------------------------- */

static char mark_of(const sl_map *map, int i)
{
    return map->goal[i] ? (map->inside[i] ? '*' : '+') : (map->inside[i] ? '-' : ' ');
}

/* Settings of one axis to the right, of the other down; a mark behind each value, so that these line up. */
static void say_values(sl_document *document, const sl_map_page *page)
{
    const sl_map *const map = page->map;
    char words[80], number[24];
    int n = 1;
    sl_text_column columns[SL_MOST_COLUMNS] = {{"", 1.0, SL_OWN | SL_RIGHT}};
    for (int i = 0; i < map->x.n && n < SL_MOST_COLUMNS; i += page->coarse_x) {
        sl_short_number(sl_axis_value(&map->x, i), 2, number, sizeof number);
        sl_append(number, sizeof number, " ");
        columns[n++] = (sl_text_column){sl_document_keep(document, number), 1.0, SL_OWN | SL_RIGHT};
    }
    sl_axis_words(map->x.setting, words, sizeof words);
    sl_document_table(document, words, n, columns, 0.0);
    for (int j = 0; j < map->y.n; j += page->coarse_y) {
        sl_document_entry(
            document, (sl_entry){.kind = SL_ENTRY_NUMBER, .value = sl_axis_value(&map->y, j), .decimals = 2});
        for (int c = 1; c < n; c++) {
            const int at = j * map->x.n + (c - 1) * page->coarse_x;
            sl_percent(map->value[page->shows][at], number, sizeof number);
            sl_document_cell(document, "%s%c", number, mark_of(map, at));
        }
    }
}

void sl_map_say(sl_document *document, const void *of, sl_error *error)
{
    const sl_map_page *const page = of;
    const sl_map *const map = page->map;
    char layer[160], axis[80], text[TEXT];
    sl_layer_words(page, layer, sizeof layer);
    snprintf(text, sizeof text, _("\"%s\": %s, once washed and dry"),
             sl_arm_title(&page->scene->arms[map->arm]), layer);
    sl_document_begin(document, "map", text, error);
    sl_say_lies(document, page->scene, NULL);
    sl_map_aims_words(page, text, sizeof text);
    sl_document_row(document, _("set"), "%s", text);
    sl_say_note(document, page->scene);
    sl_say_labels(document, page->scene, NULL, map->arm);
    sl_document_apart(document);
    say_values(document, page);
    const sl_graph *const chart = sl_graph_of_map(&document->arena, page, document->error);
    sl_document_charts(document, "", CHART_HEIGHT, 1, &chart);
    sl_document_say(document, "%s", chart != NULL ? chart->says : "");
    sl_axis_words(map->y.setting, axis, sizeof axis);
    sl_document_say(document, _("Downwards: %s."), axis);
    sl_document_say(
        document, "%s",
        _("Marks: * at the goal and inside every limit set; + at the goal, past a limit; - inside, "
          "not at the goal; none: neither. From the model's central values alone; swatches on the "
          "bench, a time for nobody's head."));
    sl_document_end(document, sl_with_reducing(page->scene, SL_ON_OUTCOME));
}

/* ---- for machines ------------------------------------------------------------------------------ */

/* x, y: the heads of its columns are words of the settings. */
#define POINT(SAY)                                                                                           \
    SAY(let, const sl_map *const map = page->map)                                                            \
    SAY(let, const long i = table->place)                                                                    \
    SAY(end, i == (long)map->x.n * map->y.n)                                                                 \
    SAY(number, sl_knobs[page->map->x.setting].word, sl_axis_value(&map->x, (int)i % map->x.n))              \
    SAY(number, sl_knobs[page->map->y.setting].word, sl_axis_value(&map->y, (int)i / map->x.n))              \
    SAY(number, "colour_left", map->value[SL_MAP_LEFT][i])                                                   \
    SAY(number, "base_moved", map->value[SL_MAP_BASE][i])                                                    \
    SAY(number, "cystine_lost", map->value[SL_MAP_STRESS][i])                                                \
    SAY(yes, "goal", map->goal[i])                                                                           \
    SAY(yes, "inside", map->inside[i])                                                                       \
    SAY(lies, page->scene, NULL)

static sl_told tell_point(sl_row *row, const sl_table *table)
{
    const sl_map_page *const page = table->of;
    POINT(SL_SAY)
    return SL_TOLD;
}

bool sl_map_csv(FILE *out, const void *of)
{
    const sl_map_page *const page = of;
    const sl_columns points = SL_COLUMNS(POINT(SL_COLUMN), .tell = tell_point);
    const sl_export export = {.csv = &points};
    return sl_export_csv(out, &export, page);
}

#define STEP(SAY) SAY(number, NULL, sl_axis_value(axis, (int)table->place))
SL_FLAT_TABLE(steps, STEP, sl_axis, axis);

#define AXIS(SAY)                                                                                            \
    SAY(text, "setting", sl_knobs[axis->setting].word)                                                       \
    SAY(text, "unit", sl_knobs[axis->setting].unit)                                                          \
    SAY(rows, "values", steps, axis, 0, axis->n)
SL_TABLE(axis_record, AXIS, sl_axis, axis);

/* Rows of the map within a table of them; the first of a row is `which`. */
#define SHARE(SAY) SAY(number, NULL, value[table->which + table->place])
SL_FLAT_TABLE(shares, SHARE, double, value);
#define YES(SAY) SAY(yes, NULL, yes[table->which + table->place])
SL_FLAT_TABLE(answers, YES, bool, yes);
#define SHARES(SAY) SAY(rows, NULL, shares, map->value[table->which], table->place * map->x.n, map->x.n)
SL_TABLE(layer, SHARES, sl_map, map);
#define ANSWERS(SAY)                                                                                         \
    SAY(rows, NULL, answers, table->which ? map->inside : map->goal, table->place * map->x.n, map->x.n)
SL_TABLE(whether, ANSWERS, sl_map, map);

#define MAP(SAY)                                                                                             \
    SAY(lies, page->scene, NULL)                                                                             \
    SAY(text, "scene", page->scene->name)                                                                    \
    SAY(text, "arm", page->scene->arms[page->map->arm].name)                                                 \
    SAY(text, "zone", page->map->zone >= 0 ? page->scene->zones[page->map->zone].name : NULL)                \
    SAY(record, "x", axis_record, &page->map->x, 0)                                                          \
    SAY(record, "y", axis_record, &page->map->y, 0)                                                          \
    SAY(rows, "colour_left", layer, page->map, SL_MAP_LEFT, page->map->y.n)                                  \
    SAY(rows, "base_moved", layer, page->map, SL_MAP_BASE, page->map->y.n)                                   \
    SAY(rows, "cystine_lost", layer, page->map, SL_MAP_STRESS, page->map->y.n)                               \
    SAY(rows, "goal", whether, page->map, 0, page->map->y.n)                                                 \
    SAY(rows, "inside", whether, page->map, 1, page->map->y.n)                                               \
    SAY(note, page->scene)                                                                                   \
    SAY(cautions, sl_with_reducing(page->scene, SL_ON_OUTCOME))
SL_TABLE(map_record, MAP, sl_map_page, page);

const sl_export sl_map_export = {"map", 1, &map_record, NULL};
