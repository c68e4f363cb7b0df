/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Files of kind hair: natural hair by its melanins, or hair that was lightened before
 * ("natural: NAME" names what it grew as; its melanins are worked out from there).
 */
#include "base/language.h"
#include "scene/records.h"

static bool was_lightened(const sl_scene *scene, const void *record)
{
    (void)scene;
    return ((const sl_hair_record *)record)->prelightened;
}

#define NUMBER(word, member, ...)                                                                            \
    SL_FIELD(sl_hair_record, member, .key = (word), .use = SL_GRADED, .range = {__VA_ARGS__})
static const sl_field fields[] = {
    SL_FIELD(sl_hair_record, level, .key = "level", .range = {SL_MEASURE_NUMBER, 1.0, SL_LEVEL_END}),
    SL_FIELD(sl_hair_record, natural_level, .use = 0),
    SL_FIELD(sl_hair_record, prelightened, .use = 0),
    SL_FIELD_KEY(.key = "natural"),
    NUMBER("eumelanin", eumelanin, SL_MEASURE_NUMBER, 0.0, 100.0),
    NUMBER("pheomelanin", pheomelanin, SL_MEASURE_NUMBER, 0.0, 100.0),
    SL_FIELD(sl_hair_record, warmth_left, .key = "warmth_left", .use = SL_GRADED,
             .range = {SL_MEASURE_SHARE, 0.0, 1.0}, .enters = was_lightened),
    NUMBER("damage", damage, SL_MEASURE_SHARE, 0.0, 0.9),
    NUMBER("porosity", porosity, SL_MEASURE_NUMBER, 0.2, 5.0),
};
/* Graded together, as one number of the hair. */
const sl_fields sl_hair_record_fields = SL_FIELDS(sl_hair_record, fields, .of = NULL);
#undef NUMBER

static const sl_field hair_fields[] = {
    SL_FIELD(sl_hair, name, .told = "hair"),
    SL_FIELD(sl_hair, title, .use = 0),
    SL_FIELD(sl_hair, level, .told = "level"),
    SL_FIELD(sl_hair, prelightened, .told = "prelightened"),
    SL_FIELD(sl_hair, natural_level, .use = 0),
    SL_FIELD(sl_hair, warmth_left, .use = 0),
    SL_FIELD(sl_hair, pool, .use = SL_DRAWN_FROM),
    SL_FIELD(sl_hair, cystine_intact, .use = SL_DRAWN_FROM),
    SL_FIELD(sl_hair, porosity, .use = SL_DRAWN_FROM),
    SL_FIELD(sl_hair, grade, .words = N_("a number"), .use = SL_DRAWN_FROM | SL_GRADED),
};
const sl_fields sl_hair_fields = SL_FIELDS(sl_hair, hair_fields, .of = N_(" of the hair "));

static bool refuse_mixed(const sl_reading *reading, const sl_node *node)
{
    return sl_node_refuse_key(node, SL_ERR_INCONSISTENT,
                              "\"natural\" and amounts of melanin do not go together",
                              "name the natural hair, or give eumelanin and pheomelanin", reading->error);
}

/* What the hair grew as: its level and melanins. */
static bool natural_read(const sl_reading *reading, const sl_chain *chain, const sl_node *node,
                         sl_hair_record *hair)
{
    sl_hair_record grown = {0};
    sl_wording title = {{NULL}};
    if (!sl_node_is(node, SL_NODE_TEXT, "the name of a natural hair belongs here", reading->error) ||
        !sl_library_read(reading, SL_KIND_HAIR, node, node->text, chain, sl_hair_read, &grown, &title)) {
        return false;
    }
    if (grown.prelightened) {
        return sl_node_refuse_text(node, SL_ERR_INCONSISTENT,
                                   "name natural hair: this one was lightened itself", reading->error);
    }
    hair->prelightened = true;
    hair->natural_level = grown.level;
    hair->eumelanin = grown.eumelanin;
    hair->pheomelanin = grown.pheomelanin;
    return true;
}

static bool required(const sl_reading *reading, const sl_node *root, bool prelightened)
{
    static const char *const for_natural[] = {"level", "eumelanin", "pheomelanin"};
    static const char *const for_prelightened[] = {"level", "warmth_left", "damage", "porosity"};
    const char *const *const keys = prelightened ? for_prelightened : for_natural;
    const int n = prelightened ? 4 : 3;
    for (int i = 0; i < n; i++) {
        if (!sl_node_child(root, keys[i])) {
            return sl_node_refuse_missing(root, keys[i],
                                          prelightened
                                              ? "lightened hair needs level, warmth_left, damage, porosity"
                                              : "natural hair needs level, eumelanin, pheomelanin",
                                          reading->error);
        }
    }
    return true;
}

static bool lighter_check(const sl_node *node, const sl_hair_record *hair, sl_error *error)
{
    if (!hair->prelightened || hair->level >= hair->natural_level) {
        return true;
    }
    sl_phrase wanted = {0};
    sl_phrase_add(&wanted, _("it grew as level "));
    sl_phrase_number(&wanted, hair->natural_level);
    return sl_node_refuse(node, SL_ERR_INCONSISTENT, "lightened hair is darker than what it grew as",
                          wanted.text, error);
}

bool sl_hair_read(const sl_reading *reading, const sl_chain *chain, const sl_node *root, bool complete,
                  void *record)
{
    sl_hair_record *const hair = record;
    if (complete) {
        /* Virgin hair is where damage and porosity count from, so these two are exact. */
        *hair = (sl_hair_record){.warmth_left = {.value = 1.0, .grade = SL_GRADE_MEASURED_HERE},
                                 .damage = {.value = 0.0, .grade = SL_GRADE_MEASURED_HERE},
                                 .porosity = {.value = 1.0, .grade = SL_GRADE_MEASURED_HERE}};
    }
    if (!sl_fields_read(reading, root, &sl_hair_record_fields, &sl_head_keys, false, hair)) {
        return false;
    }
    const sl_node *const natural = sl_node_child(root, "natural");
    const sl_node *const level = sl_node_child(root, "level");
    if (natural && (sl_node_child(root, "eumelanin") || sl_node_child(root, "pheomelanin"))) {
        return refuse_mixed(reading, natural);
    }
    if (complete && !required(reading, root, natural != NULL)) {
        return false;
    }
    return (!natural || natural_read(reading, chain, natural, hair)) &&
           lighter_check(level ? level : root, hair, reading->error);
}

/* The weakest of the numbers that this hair was made of. */
static sl_grade weakest_grade(const sl_hair_record *record)
{
    sl_grade weakest = SL_GRADE_MEASURED_HERE;
    for (int i = 0; i < sl_hair_record_fields.n; i++) {
        const sl_field *const field = &sl_hair_record_fields.field[i];
        if ((field->use & SL_GRADED) && (!field->enters || field->enters(NULL, record))) {
            const sl_grade grade = ((const sl_param *)sl_field_in(field, record))->grade;
            weakest = grade < weakest ? grade : weakest;
        }
    }
    return weakest;
}

bool sl_hair_make(const sl_hair_record *record, const sl_chemistry *chemistry, sl_hair *made,
                  double *nearest_level)
{
    sl_hair hair = {.level = record->level, .prelightened = record->prelightened};
    hair.natural_level = record->prelightened ? record->natural_level : record->level;
    hair.warmth_left = record->warmth_left.value;
    hair.cystine_intact = 1.0 - record->damage.value;
    hair.porosity = record->porosity.value;
    hair.grade = weakest_grade(record);
    *made = hair;
    return sl_hair_prelighten(made, chemistry, record->eumelanin.value, record->pheomelanin.value,
                              nearest_level);
}
