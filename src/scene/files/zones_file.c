/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A scene's zones, and the hair and dyes that they name. Each hair and dye is kept once.
 */
#include <math.h>
#include <string.h>

#include "base/language.h"
#include "base/memory.h"
#include "scene/files/scene_file.h"

enum { NAME_BYTES = 40 };

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

static bool hair_read(const sl_reading *reading, const sl_field *field, const sl_node *mapping,
                      const sl_node *node, void *record)
{
    sl_scene *const scene = reading->parts->scene;
    int *const index = sl_field_at(field, record);
    (void)mapping;
    if (!sl_node_is(node, SL_NODE_TEXT, "the name of a hair belongs here", reading->error)) {
        return false;
    }
    for (int i = 0; i < scene->n_hairs; i++) {
        if (strcmp(scene->hairs[i].name, node->text) == 0) {
            *index = i;
            return true;
        }
    }
    sl_hair_record named = {0};
    sl_wording title = {{NULL}};
    if (!sl_library_read(reading, SL_KIND_HAIR, node, node->text, NULL, sl_hair_read, &named, &title)) {
        return false;
    }
    sl_hair *const hair = &scene->hairs[scene->n_hairs];
    double nearest_level = 0.0;
    if (!sl_hair_make(&named, &scene->chemistry, hair, &nearest_level)) {
        return refuse_level(node, &named, nearest_level, reading->error);
    }
    hair->title = title;
    *index = scene->n_hairs++;
    return sl_name_read(reading, node, &hair->name);
}

static bool refuse_dye(const sl_reading *reading, const sl_node *node, const sl_dyes_record *set)
{
    const char *names[SL_MAX_DYES_PER_SET];
    for (int i = 0; i < set->n_dyes; i++) {
        names[i] = set->dyes[i].said.dye.name;
    }
    const sl_words known = {names, set->n_dyes};
    sl_phrase found = {0}, wanted = {0};
    sl_phrase_quote(&found, node->key);
    sl_phrase_nearest(&wanted, &known, node->key);
    return sl_node_refuse_key(node, SL_ERR_MISSING_REFERENCE, found.text, wanted.text, reading->error);
}

static bool dye_index(const sl_reading *reading, const sl_node *node, int *index)
{
    const sl_dyes_record *const set = reading->parts->dyes;
    sl_scene *const scene = reading->parts->scene;
    for (int i = 0; i < scene->n_dyes; i++) {
        if (strcmp(scene->dyes[i].name, node->key) == 0) {
            *index = i;
            return true;
        }
    }
    const sl_dye_entry *const entry = sl_dyes_find(set, node->key);
    if (!entry) {
        return refuse_dye(reading, node, set);
    }
    *index = scene->n_dyes;
    const bool good = sl_dye_make(reading, set, entry, &scene->dyes[*index]);
    scene->n_dyes += good;
    return good;
}

static bool recipe_read(const sl_reading *reading, const sl_field *field, const sl_node *mapping,
                        const sl_node *node, void *record)
{
    sl_recipe *const recipe = sl_field_at(field, record);
    (void)mapping;
    if (!node) {
        return true;
    }
    if (!sl_node_is(node, SL_NODE_MAPPING, "dyes with their strengths belong here, such as {blue: 3}",
                    reading->error)) {
        return false;
    }
    if (!reading->parts->dyes) {
        return sl_node_refuse_key(node, SL_ERR_INCONSISTENT, "a dyed zone in a scene without a set of dyes",
                                  "name the set at the top: \"dyes: NAME\"", reading->error);
    }
    if (node->n < 1 || node->n > SL_MAX_DYES_PER_ZONE) {
        return sl_node_refuse_key(node, SL_ERR_OUT_OF_RANGE, "the number of dyes in this zone",
                                  "1 to 4 belong here; leave \"dye\" out for an undyed zone", reading->error);
    }
    bool good = true;
    for (const sl_node *part = node->first; part; part = part->next) {
        if (!dye_index(reading, part, &recipe->dye[recipe->n_dyes]) ||
            !sl_quantity_read(part, &strength_range, &recipe->strength[recipe->n_dyes], reading->error)) {
            good = false;
            if (!sl_pass_over(reading)) {
                return false;
            }
        }
        recipe->n_dyes++;
    }
    return good;
}

static const sl_twins twins = {.same_name = N_("another zone has this name already"),
                               .alike_name = N_("another zone has a name that looks like it"),
                               .same = N_("another zone has this name or title already"),
                               .alike = N_("another zone has a name or title that looks like it")};

/* The zones that were read before. */
static int named_before(const sl_scene *scene, sl_named before[SL_MAX_ZONES])
{
    for (int i = 0; i < scene->n_zones; i++) {
        before[i] = (sl_named){scene->zones[i].name, &scene->zones[i].title};
    }
    return scene->n_zones;
}

static bool name_read(const sl_reading *reading, const sl_field *field, const sl_node *mapping,
                      const sl_node *node, void *record)
{
    sl_named before[SL_MAX_ZONES];
    const int n = named_before(reading->parts->scene, before);
    (void)mapping;
    return sl_field_read(reading, field, node, record) &&
           sl_name_is_apart(node, before, n, &twins, reading->error);
}

static bool title_read(const sl_reading *reading, const sl_field *field, const sl_node *mapping,
                       const sl_node *node, void *record)
{
    sl_named before[SL_MAX_ZONES];
    const int n = named_before(reading->parts->scene, before);
    (void)mapping;
    return !node || (sl_field_read(reading, field, node, record) &&
                     sl_title_is_apart(node, before, n, &twins, reading->error));
}

/* Each dye with its strength. */
static void recipe_draw(uint64_t *hash, const void *record)
{
    const sl_recipe *const recipe = record;
    for (int i = 0; i < recipe->n_dyes; i++) {
        sl_draw_whole(hash, recipe->dye[i]);
        sl_draw_number(hash, recipe->strength[i]);
    }
}

static const sl_field recipe_fields[] = {
    SL_FIELD(sl_recipe, n_dyes, .use = SL_DRAWN_FROM),
    SL_FIELD(sl_recipe, dye, .use = SL_DRAWN_FROM, .draw = recipe_draw),
    SL_FIELD(sl_recipe, strength, .use = SL_DRAWN_FROM, .draw = sl_drawn_before),
};
const sl_fields sl_recipe_fields = SL_FIELDS(sl_recipe, recipe_fields, .of = NULL);

#define SHAPE N_("a zone has a name and a hair, and a dye or none")
static const sl_field fields[] = {
    SL_FIELD(sl_zone, name, .key = "name", .told = "name", .use = SL_DRAWN_FROM | SL_REQUIRED,
             .text = SL_TEXT_NAME, .most = NAME_BYTES, .wanted = SHAPE, .needs = "", .read = name_read),
    SL_FIELD(sl_zone, title, .key = "title", .text = SL_TEXT_NAME, .most = NAME_BYTES, .needs = "",
             .read = title_read),
    SL_FIELD(sl_zone, hair, .key = "hair", .use = SL_DRAWN_FROM | SL_REQUIRED, .wanted = SHAPE, .needs = "",
             .read = hair_read),
    SL_FIELD_WITHIN(sl_zone, recipe, sl_recipe_fields, .key = "dye", .use = SL_DRAWN_FROM, .needs = "",
                    .read = recipe_read),
};
const sl_fields sl_zone_fields = SL_FIELDS(sl_zone, fields, .of = NULL);
#undef SHAPE

static int count_dyes(const sl_node *zones)
{
    int n = 0;
    for (const sl_node *node = zones->first; node; node = node->next) {
        const sl_node *const dye = node->kind == SL_NODE_MAPPING ? sl_node_child(node, "dye") : NULL;
        n += dye ? dye->n : 0;
    }
    return n;
}

static bool zones_fill(const sl_reading *reading, const sl_node *zones, sl_scene *scene)
{
    static const char doing[] = "reading the zones";
    scene->zones = sl_arena_new(reading->kept, (size_t)zones->n, sizeof *scene->zones, doing, reading->error);
    scene->hairs = sl_arena_new(reading->kept, (size_t)zones->n, sizeof *scene->hairs, doing, reading->error);
    scene->dyes =
        sl_arena_new(reading->kept, (size_t)count_dyes(zones), sizeof *scene->dyes, doing, reading->error);
    if (!scene->zones || !scene->hairs || !scene->dyes) {
        return false;
    }
    bool has_undyed = false, good = true;
    for (const sl_node *node = zones->first; node; node = node->next) {
        sl_zone *const zone = &scene->zones[scene->n_zones];
        if (!sl_fields_read(reading, node, &sl_zone_fields, NULL, true, zone)) {
            good = false;
            *zone = (sl_zone){.name = NULL};
            if (!sl_pass_over(reading)) {
                return false;
            }
            continue;
        }
        has_undyed = has_undyed || zone->recipe.n_dyes == 0;
        scene->n_zones++;
    }
    return good && (has_undyed || sl_node_refuse_key(zones, SL_ERR_INCONSISTENT, "no zone is undyed",
                                                     "one must be: what moves the hair itself is read there",
                                                     reading->error));
}

bool sl_zones_read(const sl_reading *reading, const sl_field *field, const sl_node *root,
                   const sl_node *zones, void *record)
{
    sl_scene *const scene = record;
    const sl_node *const dyes = sl_node_child(root, "dyes");
    (void)field;
    if (!sl_node_is(zones, SL_NODE_LIST, "a list of {name, hair, dye} belongs here", reading->error)) {
        return false;
    }
    if (zones->n < 1 || zones->n > SL_MAX_ZONES) {
        return sl_node_refuse_key(zones, SL_ERR_OUT_OF_RANGE, "the number of zones", "1 to 32 belong here",
                                  reading->error);
    }
    if (!dyes) {
        return zones_fill(reading, zones, scene);
    }
    sl_wording title = {{NULL}};
    sl_dyes_record *const set =
        sl_new(1, sizeof *set, "reading the dyes", reading->error); /* too big for a stack */
    reading->parts->dyes = set;
    const bool good =
        set && sl_node_is(dyes, SL_NODE_TEXT, "the name of a set of dyes belongs here", reading->error) &&
        sl_library_read(reading, SL_KIND_DYES, dyes, dyes->text, NULL, sl_dyes_read, set, &title) &&
        zones_fill(reading, zones, scene);
    reading->parts->dyes = NULL;
    sl_free(set);
    return good;
}
