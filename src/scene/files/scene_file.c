/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Files of kind scene: what is asked, where the hair lies and how warm it is there, and
 * what the class wants. Zones and arms have files of their own.
 */
#include "scene/files/scene_file.h"

#include <string.h>

#include "base/code.h"
#include "base/language.h"
#include "slowlift/solution.h"

enum { QUESTION_BYTES = 500, PERSON_BYTES = 40 };

static const sl_range day = {SL_MEASURE_TIME, 0.0, 1440.0};
static const sl_range point_range = {SL_MEASURE_TEMPERATURE, 0.0, 60.0};

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

static bool points_read(const sl_reading *reading, const sl_field *field, const sl_node *root,
                        const sl_node *points, void *record)
{
    sl_scene *const scene = record;
    (void)field;
    (void)root;
    if (!points) {
        return true;
    }
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

static bool chemistry_read(const sl_reading *reading, const sl_field *field, const sl_node *root,
                           const sl_node *node, void *record)
{
    static const char usual[] = "oxidation";
    sl_scene *const scene = record;
    (void)field;
    if (node && !sl_node_is(node, SL_NODE_TEXT, "the name of a chemistry belongs here", reading->error)) {
        return false;
    }
    const char *const name = node ? node->text : usual;
    sl_wording title = {{NULL}};
    if (!sl_library_read(reading, SL_KIND_CHEMISTRY, node ? node : root, name, NULL, sl_chemistry_read,
                         &scene->chemistry, &title)) {
        return false;
    }
    scene->chemistry.title = title;
    scene->chemistry.name = sl_arena_text(reading->kept, name, strlen(name), reading->error);
    return scene->chemistry.name != NULL;
}

static bool chart_read(const sl_reading *reading, const sl_field *field, const sl_node *root,
                       const sl_node *node, void *record)
{
    static const char usual[] = "plain";
    sl_scene *const scene = record;
    (void)field;
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

static bool person_read(const sl_reading *reading, const sl_field *field, const sl_node *root,
                        const sl_node *node, void *record)
{
    sl_scene *const scene = record;
    sl_error found = {.code = SL_OK};
    (void)root;
    if (!node) {
        return true;
    }
    if (!sl_field_read(reading, field, node, scene)) {
        return false;
    }
    return sl_code_check(N_("this person's code"), scene->person, &found) ||
           sl_node_refuse(node, found.code, found.found, found.wanted, reading->error);
}

/* How many, or a list of their codes. */
static bool hands_read(const sl_reading *reading, const sl_field *field, const sl_node *mapping,
                       const sl_node *node, void *record)
{
    sl_crew *const crew = record;
    (void)mapping;
    if (!node || node->kind != SL_NODE_LIST) {
        return !node || sl_field_read(reading, field, node, crew);
    }
    if (node->n < 1 || node->n > SL_MAX_HANDS) {
        return sl_node_refuse_key(node, SL_ERR_OUT_OF_RANGE, "the number of codes", "1 to 8 belong here",
                                  reading->error);
    }
    for (const sl_node *code = node->first; code; code = code->next) {
        sl_error found = {.code = SL_OK};
        if (!sl_node_is(code, SL_NODE_TEXT, "a code belongs here, never a name", reading->error)) {
            return false;
        }
        if (!sl_code_check(N_("a code of the class"), code->text, &found)) {
            return sl_node_refuse(code, found.code, found.found, found.wanted, reading->error);
        }
        for (int i = 0; i < crew->hands; i++) {
            if (strcmp(crew->who[i], code->text) == 0) {
                return sl_node_refuse_text(code, SL_ERR_INCONSISTENT, "name each person once",
                                           reading->error);
            }
        }
        memcpy(crew->who[crew->hands++], code->text, strlen(code->text) + 1);
    }
    return true;
}

/* ---- the rows -------------------------------------------------------------------------------- */

static const sl_field point_fields[] = {
    SL_FIELD(sl_course_point, time_min, .use = SL_DRAWN_FROM),
    SL_FIELD(sl_course_point, temperature_c, .use = SL_DRAWN_FROM),
};
const sl_fields sl_course_point_fields = SL_FIELDS(sl_course_point, point_fields, .of = NULL);

static const sl_field crew_fields[] = {
    SL_FIELD(sl_crew, swatches, .key = "swatches", .range = {SL_MEASURE_NUMBER, 1, SL_MAX_SWATCHES}),
    SL_FIELD(sl_crew, hands, .key = "hands", .range = {SL_MEASURE_NUMBER, 1, SL_MAX_HANDS}, .needs = "",
             .read = hands_read),
    SL_FIELD(sl_crew, who, .use = 0),
    SL_FIELD(sl_crew, class_min, .key = "minutes", .range = {SL_MEASURE_TIME, 1.0, 1440.0}),
};
const sl_fields sl_crew_fields = SL_FIELDS(sl_crew, crew_fields, .of = NULL);

static bool crew_read(const sl_reading *reading, const sl_field *field, const sl_node *root,
                      const sl_node *node, void *record)
{
    (void)field;
    (void)root;
    return !node || sl_fields_read(reading, node, &sl_crew_fields, NULL, false, &((sl_scene *)record)->crew);
}

/* How many there are, told before any of them. */
#define NUMBER_OF(list) SL_FIELD(sl_scene, n_##list, .turn = 1, .use = SL_DRAWN_FROM)
#define LIST(list, rows, ...)                                                                                \
    SL_FIELD_LIST(sl_scene, list, n_##list, rows, .turn = 2, .use = SL_DRAWN_FROM, __VA_ARGS__)
#define NEEDED_LIST(list, rows, ...)                                                                         \
    SL_FIELD_LIST(sl_scene, list, n_##list, rows, .turn = 2, .use = SL_DRAWN_FROM | SL_REQUIRED, __VA_ARGS__)

static const sl_field fields[] = {
    SL_FIELD(sl_scene, name, .told = "name", .turn = -1),
    SL_FIELD(sl_scene, title, .told = "title", .turn = -1),
    SL_FIELD(sl_scene, question, .key = "question", .told = "question", .turn = -1, .text = SL_TEXT_LINES,
             .most = QUESTION_BYTES),
    SL_FIELD(sl_scene, place, .key = "lies", .told = "place", .turn = -1, .use = SL_DRAWN_FROM | SL_REQUIRED,
             .list = &sl_place_words,
             .wanted = N_("say where the hair lies, bench, head or wrapped: its temperature follows "
                          "from that, and no time is carried from one to another")),
    SL_FIELD(sl_scene, untold, .use = 0),
    SL_FIELD(sl_scene, room_c, .key = "room", .use = SL_DRAWN_FROM | SL_REQUIRED,
             .range = {SL_MEASURE_TEMPERATURE, 5.0, 45.0},
             .wanted = N_("the room's temperature, such as 22 °C")),
    SL_FIELD(sl_scene, shift_k, .use = SL_DRAWN_FROM),
    SL_FIELD(sl_scene, n_points, .use = SL_DRAWN_FROM),
    SL_FIELD_LIST(sl_scene, points, n_points, sl_course_point_fields, .key = "temperature",
                  .use = SL_DRAWN_FROM, .needs = "", .read = points_read),
    SL_FIELD(sl_scene, until_min, .key = "until", .told = "until_min", .use = SL_DRAWN_FROM | SL_REQUIRED,
             .range = {SL_MEASURE_TIME, 0.01, SL_LONGEST_CLOCK_MIN},
             .wanted = N_("when the scene's clock stops, such as 60 min")),
    SL_FIELD(sl_scene, hair_g, .key = "hair_mass", .told = "hair_g", .use = SL_REQUIRED,
             .range = {SL_MEASURE_MASS, 0.05, 500.0}, .wanted = N_("the hair in one swatch, such as 2 g")),
    SL_FIELD_WITHIN(sl_scene, chemistry, sl_chemistry_fields, .key = "chemistry", .turn = -2,
                    .use = SL_DRAWN_FROM, .needs = "", .read = chemistry_read),
    NUMBER_OF(hairs),
    NUMBER_OF(dyes),
    NUMBER_OF(mixes),
    NUMBER_OF(zones),
    NUMBER_OF(arms),
    LIST(hairs, sl_hair_fields, .read = NULL), /* read with the zones, as the dyes are */
    SL_FIELD_KEY(.key = "dyes"),
    LIST(dyes, sl_dye_fields, .read = NULL),
    LIST(mixes, sl_mix_fields, .read = NULL), /* read with the arms */
    NEEDED_LIST(zones, sl_zone_fields, .key = "zones", .needs = "chemistry", .read = sl_zones_read,
                .wanted = N_("a list of {name, hair, dye}, root end first")),
    SL_FIELD_KEY(.key = "application", .needs = "chemistry", .read = sl_application_read),
    NEEDED_LIST(arms, sl_arm_fields, .key = "arms", .needs = "application", .read = sl_arms_read,
                .wanted = N_("a list of {name, contact, steps}, one for each strip")),
    SL_FIELD_WITHIN(sl_scene, aims, sl_aims_fields, .key = "aims", .use = SL_DRAWN_FROM,
                    .needs = "zones arms", .read = sl_aims_read),
    SL_FIELD_WITHIN(sl_scene, crew, sl_crew_fields, .key = "class", .needs = "", .read = crew_read),
    SL_FIELD_WITHIN(sl_scene, chart, sl_chart_fields, .key = "chart", .needs = "", .read = chart_read),
    SL_FIELD(sl_scene, person, .key = "person", .text = SL_TEXT_NAME, .most = PERSON_BYTES, .needs = "",
             .read = person_read),
    SL_FIELD(sl_scene, weakest, .use = 0),
    SL_FIELD(sl_scene, weakest_what, .use = 0),
    SL_FIELD(sl_scene, memory, .use = 0),
};
const sl_fields sl_scene_fields = SL_FIELDS(sl_scene, fields, .of = NULL);

#undef NUMBER_OF
#undef LIST
#undef NEEDED_LIST

/* Each mix was found to balance when it was read. */
static void settle_mixes(sl_scene *scene)
{
    for (int i = 0; i < scene->n_mixes; i++) {
        sl_mix_settle(&scene->mixes[i], &scene->chemistry);
    }
}

bool sl_scene_read(const sl_reading *reading, const sl_node *root, sl_scene *scene)
{
    sl_header header = {0};
    sl_scene_parts parts = {.scene = scene, .usual = {.covered = true}};
    sl_reading with = *reading;
    with.parts = &parts;
    if (!sl_header_expect(reading, root, SL_KIND_SCENE, &header)) {
        return false;
    }
    scene->title = header.title;
    if (!sl_fields_read(&with, root, &sl_scene_fields, &sl_own_head_keys, true, scene)) {
        return false;
    }
    settle_mixes(scene);
    return sl_weakest_find(reading, scene);
}
