/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The aims of a scene's file: what comes next, the goal for all zones and for single ones, and
 * what stops an arm. Needs the scene's zones and arms.
 */
#include <string.h>

#include "scene/files/scene_file.h"
#include "slowlift/estimate.h"

static const sl_range zone_share = {SL_MEASURE_SHARE, 0.001, 99.9 / 100.0}; /* as 99.9 % is read */
static const sl_range control_share = {SL_MEASURE_SHARE, 0.01, 1.0};
static const sl_range near_range = {SL_MEASURE_NUMBER, 0.5, 60.0}; /* CIEDE2000 */

static bool next_read(const sl_reading *reading, const sl_field *field, const sl_node *mapping,
                      const sl_node *node, void *record)
{
    sl_aims *const aims = record;
    const char *words[SL_NEXT_COUNT - 1];
    for (int i = 1; i < SL_NEXT_COUNT; i++) {
        words[i - 1] = sl_next_word((sl_next)i);
    }
    const sl_words known = {words, SL_NEXT_COUNT - 1};
    int index = 0;
    (void)field;
    (void)mapping;
    if (!node) {
        return true;
    }
    if (!sl_word_read(node, &known, &index, reading->error)) {
        return false;
    }
    aims->next = (sl_next)(index + 1);
    aims->left_by_next = true;
    aims->colour_left = sl_next_left(aims->next);
    return true;
}

static bool left_read(const sl_reading *reading, const sl_field *field, const sl_node *mapping,
                      const sl_node *node, void *record)
{
    sl_aims *const aims = record;
    (void)mapping;
    if (!node) {
        return true;
    }
    aims->left_by_next = false;
    return sl_field_read(reading, field, node, aims);
}

/* {near_undyed: 8} */
static bool near_read(const sl_reading *reading, const sl_node *node, double *near_undyed)
{
    static const char *const keys[] = {"near_undyed"};
    static const sl_words known = {keys, 1};
    if (!sl_node_keys_known(node, &known, reading->error)) {
        return false;
    }
    const sl_node *const value = sl_node_child(node, "near_undyed");
    if (!value) {
        return sl_node_refuse_missing(node, "near_undyed", "write {near_undyed: 8}", reading->error);
    }
    return sl_quantity_read(value, &near_range, near_undyed, reading->error);
}

static bool zone_read(const sl_reading *reading, const sl_node *node, const sl_scene *scene, sl_aims *aims)
{
    const int zone = sl_scene_zone(scene, node->key); /* the key is known to be one */
    if (!sl_zone_direct(scene, zone)) {
        return sl_node_refuse_key(node, SL_ERR_INCONSISTENT, "this zone holds no direct dye",
                                  "a goal is set for zones with a direct dye", reading->error);
    }
    if (node->kind == SL_NODE_MAPPING) {
        if (scene->zones[sl_reference_zone(scene, zone)].hair != scene->zones[zone].hair) {
            return sl_node_refuse_key(node, SL_ERR_INCONSISTENT, "no undyed zone is on the hair of this zone",
                                      "add one, or set a share left instead", reading->error);
        }
        return near_read(reading, node, &aims->zone_near[zone]);
    }
    if (node->kind == SL_NODE_TEXT && strcmp(node->text, "ignore") == 0) {
        aims->zone_left[zone] = 1.0;
        return true;
    }
    if (!sl_node_is(node, SL_NODE_TEXT, "a share, ignore or {near_undyed: 8} belongs here", reading->error)) {
        return false;
    }
    return sl_quantity_read(node, &zone_share, &aims->zone_left[zone], reading->error);
}

static bool zones_read(const sl_reading *reading, const sl_field *field, const sl_node *mapping,
                       const sl_node *node, void *record)
{
    const sl_scene *const scene = reading->parts->scene;
    const char *names[SL_MAX_ZONES];
    (void)field;
    (void)mapping;
    for (int zone = 0; zone < scene->n_zones; zone++) {
        names[zone] = scene->zones[zone].name;
    }
    const sl_words known = {names, scene->n_zones};
    if (!node) {
        return true;
    }
    if (!sl_node_keys_known(node, &known, reading->error)) {
        return false;
    }
    for (const sl_node *one = node->first; one; one = one->next) {
        if (!zone_read(reading, one, scene, record)) {
            return false;
        }
    }
    return true;
}

/* An arm whose first application is inside the model takes cystine: it can be compared with. */
static bool can_be_control(const sl_scene *scene, const sl_arm *arm)
{
    bool works = false;
    for (int i = 0; i < arm->n_steps; i++) {
        if (arm->steps[i].kind == SL_STEP_APPLY) {
            const sl_mix *const mix = &scene->mixes[arm->steps[i].mix];
            if (mix->mechanism != SL_MECHANISM_OXIDATIVE && !(mix->reductant_share > 0.0)) {
                return false;
            }
            works = works || mix->class_ != SL_MIX_WATER;
        }
    }
    return works;
}

/* {of: STRIP, share: 50 %} */
static bool control_read(const sl_reading *reading, const sl_node *node, const sl_scene *scene, sl_aims *aims)
{
    static const char *const keys[] = {"of", "share"};
    static const sl_words known = {keys, 2};
    static const char form[] = "write a share, or {of: STRIP, share: 50 %}";
    const char *names[SL_MAX_ARMS];
    for (int arm = 0; arm < scene->n_arms; arm++) {
        names[arm] = scene->arms[arm].name;
    }
    const sl_words arms = {names, scene->n_arms};
    if (!sl_node_keys_known(node, &known, reading->error)) {
        return false;
    }
    for (int i = 0; i < known.n; i++) {
        if (!sl_node_child(node, keys[i])) {
            return sl_node_refuse_missing(node, keys[i], form, reading->error);
        }
    }
    const sl_node *const of = sl_node_child(node, "of");
    if (!sl_word_read(of, &arms, &aims->stress_of, reading->error)) {
        return false;
    }
    if (!can_be_control(scene, &scene->arms[aims->stress_of])) {
        return sl_node_refuse_text(
            of, SL_ERR_INCONSISTENT,
            "a strip with an oxidative mix belongs here: others have no stress to compare", reading->error);
    }
    return sl_quantity_read(sl_node_child(node, "share"), &control_share, &aims->stress_share,
                            reading->error);
}

static bool stress_read(const sl_reading *reading, const sl_field *field, const sl_node *mapping,
                        const sl_node *node, void *record)
{
    (void)mapping;
    if (node && node->kind == SL_NODE_MAPPING) {
        return control_read(reading, node, reading->parts->scene, record);
    }
    return !node || sl_field_read(reading, field, node, record);
}

/* "30 %", or "1 level", "1.5 levels". */
static bool base_read(const sl_reading *reading, const sl_field *field, const sl_node *mapping,
                      const sl_node *node, void *record)
{
    static const sl_range levels = {SL_MEASURE_LEVELS, 0.0, SL_LEVEL_END - 1.0};
    sl_aims *const aims = record;
    (void)mapping;
    if (!node || node->kind != SL_NODE_TEXT || !strstr(node->text, "level")) {
        return !node || sl_field_read(reading, field, node, record);
    }
    if (!sl_quantity_read(node, &levels, &aims->base_levels, reading->error)) {
        return false;
    }
    aims->base_moved =
        (sl_bound){sl_base_of_levels(&reading->parts->scene->chemistry, aims->base_levels), true};
    return true;
}

/* Each zone's share with its nearness. */
static void zones_draw(uint64_t *hash, const void *record)
{
    const sl_aims *const aims = record;
    for (int zone = 0; zone < SL_MAX_ZONES; zone++) {
        sl_draw_number(hash, aims->zone_left[zone]);
        sl_draw_number(hash, aims->zone_near[zone]);
    }
}

#define SHARE                                                                                                \
    {                                                                                                        \
        SL_MEASURE_SHARE, 0.0, 1.0                                                                           \
    }
static const sl_field fields[] = {
    SL_FIELD(sl_aims, next, .key = "next", .needs = "", .read = next_read),
    SL_FIELD(sl_aims, left_by_next, .use = 0),
    SL_FIELD(sl_aims, assumed, .use = 0),
    SL_FIELD(sl_aims, colour_left, .key = "colour_left", .use = SL_DRAWN_FROM, .range = SHARE, .needs = "",
             .read = left_read),
    SL_FIELD(sl_aims, zone_left, .key = "zones", .turn = 1, .use = SL_DRAWN_FROM, .needs = "",
             .read = zones_read, .draw = zones_draw),
    SL_FIELD(sl_aims, zone_near, .turn = 1, .use = SL_DRAWN_FROM, .draw = sl_drawn_before),
    SL_FIELD(sl_aims, base_moved, .key = "base_moved", .use = SL_DRAWN_FROM, .range = SHARE, .needs = "",
             .read = base_read),
    SL_FIELD(sl_aims, base_levels, .turn = 2, .use = 0), /* read with it */
    SL_FIELD(sl_aims, cystine_lost, .key = "cystine_lost", .use = SL_DRAWN_FROM, .range = SHARE, .needs = "",
             .read = stress_read),
    SL_FIELD(sl_aims, stress_share, .turn = 2, .use = SL_DRAWN_FROM), /* read with it */
    SL_FIELD(sl_aims, stress_of, .turn = 2, .use = SL_DRAWN_FROM),
    SL_FIELD(sl_aims, longest_min, .key = "longest", .use = SL_DRAWN_FROM,
             .range = {SL_MEASURE_TIME, 0.0, 1440.0}),
};
const sl_fields sl_aims_fields = SL_FIELDS(sl_aims, fields, .of = NULL);
#undef SHARE

bool sl_aims_read(const sl_reading *reading, const sl_field *field, const sl_node *root, const sl_node *node,
                  void *record)
{
    sl_scene *const scene = record;
    (void)field;
    (void)root;
    scene->aims = (sl_aims){.colour_left = 1.0};
    return !node || (sl_fields_read(reading, node, &sl_aims_fields, NULL, true, &scene->aims) &&
                     sl_stress_settle(scene, reading->error));
}
