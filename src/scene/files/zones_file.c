/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A scene's zones, and the hair and dyes that they name. Each hair and dye is kept once.
 */
#include <math.h>
#include <string.h>

#include "base/language.h"
#include "base/memory.h"
#include "scene/files/scene_file.h"
#include "scene/records.h"

static const sl_range strength_range = {SL_MEASURE_NUMBER, 0.01, 50.0};

/* Of levels, in tenths, on the side that can be reached. */
static bool refuse_level(const sl_node *node, const sl_hair_record *record, double nearest_level,
                         sl_error *error)
{
    sl_phrase found = {0}, wanted = {0};
    sl_phrase_add(&found, _("this chemistry does not lighten the hair to level "));
    sl_phrase_number(&found, record->level);
    sl_phrase_add(&wanted, _("name hair of level "));
    sl_phrase_number(&wanted, floor(10.0 * nearest_level) / 10.0);
    sl_phrase_add(&wanted, _(" or darker, or another chemistry"));
    return sl_node_refuse(node, SL_ERR_INCONSISTENT, found.text, wanted.text, error);
}

static bool hair_index(const sl_reading *reading, const sl_node *node, sl_scene *scene, int *index)
{
    if (!sl_node_is(node, SL_NODE_TEXT, "the name of a hair belongs here", reading->error)) {
        return false;
    }
    for (int i = 0; i < scene->n_hairs; i++) {
        if (strcmp(scene->hairs[i].name, node->text) == 0) {
            *index = i;
            return true;
        }
    }
    sl_hair_record record = {0};
    const char *title = NULL;
    if (!sl_library_read(reading, SL_KIND_HAIR, node, node->text, NULL, sl_hair_read, &record, &title)) {
        return false;
    }
    sl_hair *const hair = &scene->hairs[scene->n_hairs];
    double nearest_level = 0.0;
    if (!sl_hair_make(&record, &scene->chemistry, hair, &nearest_level)) {
        return refuse_level(node, &record, nearest_level, reading->error);
    }
    hair->title = title;
    *index = scene->n_hairs++;
    return sl_name_read(reading, node, &hair->name);
}

static bool dye_index(const sl_reading *reading, const sl_node *node, const sl_dyes_record *set,
                      sl_scene *scene, int *index)
{
    for (int i = 0; i < scene->n_dyes; i++) {
        if (strcmp(scene->dyes[i].name, node->key) == 0) {
            *index = i;
            return true;
        }
    }
    const sl_dye_entry *const entry = sl_dyes_find(set, node->key);
    if (!entry) {
        const char *names[SL_MAX_DYES_PER_SET];
        for (int i = 0; i < set->n_dyes; i++) {
            names[i] = set->dyes[i].dye.name;
        }
        const sl_words known = {names, set->n_dyes};
        sl_phrase found = {0}, wanted = {0};
        sl_phrase_quote(&found, node->key);
        sl_phrase_nearest(&wanted, &known, node->key);
        return sl_node_refuse_key(node, SL_ERR_MISSING_REFERENCE, found.text, wanted.text, reading->error);
    }
    *index = scene->n_dyes++;
    return sl_dye_make(reading, set, entry, &scene->dyes[*index]);
}

static bool recipe_read(const sl_reading *reading, const sl_node *node, const sl_dyes_record *set,
                        sl_scene *scene, sl_recipe *recipe)
{
    if (!sl_node_is(node, SL_NODE_MAPPING, "dyes with their strengths belong here, such as {blue: 3}",
                    reading->error)) {
        return false;
    }
    if (!set) {
        return sl_node_refuse_key(node, SL_ERR_INCONSISTENT, "a dyed zone in a scene without a set of dyes",
                                  "name the set at the top: \"dyes: NAME\"", reading->error);
    }
    if (node->n < 1 || node->n > SL_MAX_DYES_PER_ZONE) {
        return sl_node_refuse_key(node, SL_ERR_OUT_OF_RANGE, "the number of dyes in this zone",
                                  "1 to 4 belong here; leave \"dye\" out for an undyed zone", reading->error);
    }
    for (const sl_node *part = node->first; part; part = part->next) {
        if (!dye_index(reading, part, set, scene, &recipe->dye[recipe->n_dyes]) ||
            !sl_quantity_read(part, &strength_range, &recipe->strength[recipe->n_dyes], reading->error)) {
            return false;
        }
        recipe->n_dyes++;
    }
    return true;
}

static bool zone_name_is_new(const sl_reading *reading, const sl_node *node, const sl_scene *scene)
{
    for (int i = 0; i < scene->n_zones; i++) {
        if (!sl_name_is_new(node, scene->zones[i].name, N_("another zone has this name already"),
                            N_("another zone has a name that looks like it"), reading->error)) {
            return false;
        }
    }
    return true;
}

static bool zone_read(const sl_reading *reading, const sl_node *node, const sl_dyes_record *set,
                      sl_scene *scene)
{
    static const char *const keys[] = {"name", "hair", "dye"};
    static const sl_words known = {keys, 3};
    if (!sl_node_keys_known(node, &known, reading->error)) {
        return false;
    }
    const sl_node *const name = sl_node_child(node, "name");
    const sl_node *const hair = sl_node_child(node, "hair");
    const sl_node *const dye = sl_node_child(node, "dye");
    if (!name || !hair) {
        return sl_node_refuse_missing(node, name ? "hair" : "name",
                                      "a zone has a name and a hair, and a dye or none", reading->error);
    }
    sl_zone *const zone = &scene->zones[scene->n_zones];
    if (!sl_text_read(reading, name, SL_TEXT_NAME, 40, &zone->name) ||
        !zone_name_is_new(reading, name, scene) || !hair_index(reading, hair, scene, &zone->hair) ||
        (dye && !recipe_read(reading, dye, set, scene, &zone->recipe))) {
        return false;
    }
    scene->n_zones++;
    return true;
}

static int count_dyes(const sl_node *zones)
{
    int n = 0;
    for (const sl_node *node = zones->first; node; node = node->next) {
        const sl_node *const dye = node->kind == SL_NODE_MAPPING ? sl_node_child(node, "dye") : NULL;
        n += dye ? dye->n : 0;
    }
    return n;
}

static bool zones_fill(const sl_reading *reading, const sl_node *zones, const sl_dyes_record *set,
                       sl_scene *scene)
{
    static const char doing[] = "reading the zones";
    scene->zones = sl_arena_new(reading->kept, (size_t)zones->n, sizeof *scene->zones, doing, reading->error);
    scene->hairs = sl_arena_new(reading->kept, (size_t)zones->n, sizeof *scene->hairs, doing, reading->error);
    scene->dyes =
        sl_arena_new(reading->kept, (size_t)count_dyes(zones), sizeof *scene->dyes, doing, reading->error);
    if (!scene->zones || !scene->hairs || !scene->dyes) {
        return false;
    }
    bool has_undyed = false;
    for (const sl_node *node = zones->first; node; node = node->next) {
        if (!zone_read(reading, node, set, scene)) {
            return false;
        }
        has_undyed = has_undyed || scene->zones[scene->n_zones - 1].recipe.n_dyes == 0;
    }
    return has_undyed ||
           sl_node_refuse_key(zones, SL_ERR_INCONSISTENT, "no zone is undyed",
                              "one must be: what moves the hair itself is read there", reading->error);
}

bool sl_zones_read(const sl_reading *reading, const sl_node *root, sl_scene *scene)
{
    const sl_node *const zones = sl_node_child(root, "zones");
    const sl_node *const dyes = sl_node_child(root, "dyes");
    if (!zones) {
        return sl_node_refuse_missing(root, "zones", "a list of {name, hair, dye}, root end first",
                                      reading->error);
    }
    if (!sl_node_is(zones, SL_NODE_LIST, "a list of {name, hair, dye} belongs here", reading->error)) {
        return false;
    }
    if (zones->n < 1 || zones->n > SL_MAX_ZONES) {
        return sl_node_refuse_key(zones, SL_ERR_OUT_OF_RANGE, "the number of zones", "1 to 32 belong here",
                                  reading->error);
    }
    if (!dyes) {
        return zones_fill(reading, zones, NULL, scene);
    }
    const char *title = NULL;
    sl_dyes_record *const set =
        sl_new(1, sizeof *set, "reading the dyes", reading->error); /* too big for a stack */
    const bool good =
        set && sl_node_is(dyes, SL_NODE_TEXT, "the name of a set of dyes belongs here", reading->error) &&
        sl_library_read(reading, SL_KIND_DYES, dyes, dyes->text, NULL, sl_dyes_read, set, &title) &&
        zones_fill(reading, zones, set, scene);
    sl_free(set);
    return good;
}
