/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Files of kind scene: what is asked, where the hair lies and how warm it is there, and
 * what the class wants. Zones and arms have files of their own.
 */
#include "scene/files/scene_file.h"

#include <string.h>

#include "base/code.h"
#include "base/language.h"
#include "scene/records.h"

static const sl_range day = {SL_MEASURE_TIME, 0.0, 1440.0};
static const sl_range some_day = {SL_MEASURE_TIME, 0.01, 1440.0};
static const sl_range room_range = {SL_MEASURE_TEMPERATURE, 5.0, 45.0};
static const sl_range point_range = {SL_MEASURE_TEMPERATURE, 0.0, 60.0};
static const sl_range mass_range = {SL_MEASURE_MASS, 0.05, 500.0};

static bool point_read(const sl_reading *reading, const sl_node *node, double after, sl_course_point *point)
{
    if (!sl_node_is(node, SL_NODE_LIST, "a pair belongs here, such as [10 min, 24 °C]", reading->error)) {
        return false;
    }
    if (node->n != 2) {
        return sl_node_refuse_text(node, SL_ERR_WRONG_TYPE, "a pair belongs here, such as [10 min, 24 °C]",
                                   reading->error);
    }
    if (!sl_quantity_read(node->first, &day, &point->time_min, reading->error) ||
        !sl_quantity_read(node->last, &point_range, &point->temperature_c, reading->error)) {
        return false;
    }
    return point->time_min > after ||
           sl_node_refuse_text(node->first, SL_ERR_INCONSISTENT, "each time is later than the one before",
                               reading->error);
}

static bool points_read(const sl_reading *reading, const sl_node *points, sl_scene *scene)
{
    if (!sl_node_is(points, SL_NODE_LIST, "a list of [time, temperature] belongs here", reading->error)) {
        return false;
    }
    if (points->n < 1 || points->n > SL_MAX_COURSE_POINTS) {
        return sl_node_refuse_key(points, SL_ERR_OUT_OF_RANGE, "the number of temperatures",
                                  "1 to 16 belong here", reading->error);
    }
    double after = -1.0;
    for (const sl_node *node = points->first; node; node = node->next) {
        sl_course_point *const point = &scene->points[scene->n_points];
        if (!point_read(reading, node, after, point)) {
            return false;
        }
        after = point->time_min;
        scene->n_points++;
    }
    return true;
}

static bool place_read(const sl_reading *reading, const sl_node *root, sl_scene *scene)
{
    const sl_node *const lies = sl_node_child(root, "lies");
    const sl_node *const room = sl_node_child(root, "room");
    const sl_node *const points = sl_node_child(root, "temperature");
    int index = 0;
    if (!lies) {
        return sl_node_refuse_missing(
            root, "lies",
            "say where the hair lies, bench, head or wrapped: its temperature follows "
            "from that, and no time is carried from one to another",
            reading->error);
    }
    if (!sl_word_read(lies, &sl_place_words, &index, reading->error)) {
        return false;
    }
    scene->place = (sl_place)index;
    if (!room) {
        return sl_node_refuse_missing(root, "room", "the room's temperature, such as 22 °C", reading->error);
    }
    return sl_quantity_read(room, &room_range, &scene->room_c, reading->error) &&
           (!points || points_read(reading, points, scene));
}

static bool clock_read(const sl_reading *reading, const sl_node *root, sl_scene *scene)
{
    const sl_node *const until = sl_node_child(root, "until");
    const sl_node *const mass = sl_node_child(root, "hair_mass");
    if (!until) {
        return sl_node_refuse_missing(root, "until", "when the scene's clock stops, such as 60 min",
                                      reading->error);
    }
    if (!mass) {
        return sl_node_refuse_missing(root, "hair_mass", "the hair in one swatch, such as 2 g",
                                      reading->error);
    }
    return sl_quantity_read(until, &some_day, &scene->until_min, reading->error) &&
           sl_quantity_read(mass, &mass_range, &scene->hair_g, reading->error);
}

static bool chemistry_read(const sl_reading *reading, const sl_node *root, sl_scene *scene)
{
    static const char usual[] = "oxidation";
    const sl_node *const node = sl_node_child(root, "chemistry");
    if (node && !sl_node_is(node, SL_NODE_TEXT, "the name of a chemistry belongs here", reading->error)) {
        return false;
    }
    const char *const name = node ? node->text : usual;
    const char *title = NULL;
    if (!sl_library_read(reading, SL_KIND_CHEMISTRY, node ? node : root, name, NULL, sl_chemistry_read,
                         &scene->chemistry, &title)) {
        return false;
    }
    scene->chemistry.title = title;
    scene->chemistry.name = sl_arena_text(reading->kept, name, strlen(name), reading->error);
    return scene->chemistry.name != NULL;
}

static bool chart_read(const sl_reading *reading, const sl_node *root, sl_scene *scene)
{
    static const char usual[] = "plain";
    const sl_node *const node = sl_node_child(root, "chart");
    if (node && !sl_node_is(node, SL_NODE_TEXT, "the name of a chart belongs here", reading->error)) {
        return false;
    }
    const char *const name = node ? node->text : usual;
    if (!sl_library_read(reading, SL_KIND_CHART, node ? node : root, name, NULL, sl_chart_file_read,
                         &scene->chart, &scene->chart.title)) {
        return false;
    }
    scene->chart.name = sl_arena_text(reading->kept, name, strlen(name), reading->error);
    return scene->chart.name != NULL;
}

static bool person_read(const sl_reading *reading, const sl_node *node, sl_scene *scene)
{
    sl_error found = {.code = SL_OK};
    if (!sl_text_read(reading, node, SL_TEXT_NAME, 40, &scene->person)) {
        return false;
    }
    return sl_code_check(N_("this person's code"), scene->person, &found) ||
           sl_node_refuse(node, found.code, found.found, found.wanted, reading->error);
}

static bool texts_read(const sl_reading *reading, const sl_node *root, sl_scene *scene)
{
    sl_header header = {0};
    if (!sl_header_expect(reading, root, SL_KIND_SCENE, &header)) {
        return false;
    }
    scene->title = header.title;
    const sl_node *const question = sl_node_child(root, "question");
    const sl_node *const person = sl_node_child(root, "person");
    return (!question || sl_text_read(reading, question, SL_TEXT_LINES, 500, &scene->question)) &&
           (!person || person_read(reading, person, scene));
}

bool sl_scene_read(const sl_reading *reading, const sl_node *root, sl_scene *scene)
{
    static const char *const keys[] = {"kind",  "version",     "title", "origin",    "question",  "lies",
                                       "room",  "temperature", "until", "hair_mass", "chemistry", "dyes",
                                       "zones", "application", "arms",  "aims",      "chart",     "person"};
    static const sl_words known = {keys, sizeof keys / sizeof keys[0]};
    return texts_read(reading, root, scene) && sl_node_keys_known(root, &known, reading->error) &&
           place_read(reading, root, scene) && clock_read(reading, root, scene) &&
           chemistry_read(reading, root, scene) && sl_zones_read(reading, root, scene) &&
           sl_arms_read(reading, root, scene) && sl_aims_read(reading, root, scene) &&
           chart_read(reading, root, scene) && sl_weakest_find(reading, scene);
}
