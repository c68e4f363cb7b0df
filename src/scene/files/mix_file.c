/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Files of kind mix. A mix is checked as a whole once everything it is like has been read:
 * its class and what it is made of must agree.
 */
#include <string.h>

#include "base/language.h"
#include "scene/records.h"
#include "slowlift/solution.h"

static const char law[] =
    "the most is 12 % (40 vol): the law's limit for hair (EU Reg. 1223/2009, Annex III entry 12)";

enum { LEAST_PH = 2, MOST_PH = 12 };

/* ---- what a key's value has to do with another ------------------------------------------- */

static bool powder_check(const sl_reading *reading, const sl_field *field, const sl_node *powder,
                         const sl_node *node, void *record)
{
    const sl_mix *const mix = record;
#define ADD(name, words) +mix->name
    double sum = SL_POWDER_LIST(ADD);
#undef ADD
    for (int i = 0; i < SL_INGREDIENTS; i++) {
        sum += mix->holds[SL_OF_POWDER][i].value;
    }
    (void)field;
    (void)node;
    if (sum > 1.0 + 1e-9) { /* shares written to a few decimals may add up a rounding over */
        return sl_node_refuse_key(powder, SL_ERR_INCONSISTENT, "the powder's parts are more than the whole",
                                  "together at most 100 %", reading->error);
    }
    return true;
}

static bool strength_read(const sl_reading *reading, const sl_field *field, const sl_node *mapping,
                          const sl_node *node, void *record)
{
    double value = 0.0;
    (void)mapping;
    if (!node) {
        return true;
    }
    if (!sl_quantity_read(node, &field->range, &value, reading->error)) {
        return false;
    }
    if (value > SL_LEGAL_PCT) {
        return sl_node_refuse_text(node, SL_ERR_OUT_OF_RANGE, law, reading->error);
    }
    if (value <= 0.0) {
        return sl_node_refuse_text(node, SL_ERR_OUT_OF_RANGE,
                                   "a developer holds peroxide; plain water stands under \"water\"",
                                   reading->error);
    }
    ((sl_mix *)record)->developer_pct = value;
    return true;
}

/* How the mix looks on the hair (assumed): a paste of powder is off-white and hides most of
 * it, a liquid is all but clear, water hides nothing. */
static void usual_veil(sl_mix *mix)
{
    static const double paste[3] = {92.0, -0.5, 5.0}, liquid[3] = {96.0, 0.0, 1.0};
    const bool holds_powder = mix->powder_parts > 0.0;
    memcpy(mix->veil_lab, holds_powder ? paste : liquid, sizeof mix->veil_lab);
    mix->veil_cover = holds_powder ? 0.7 : mix->class_ == SL_MIX_WATER ? 0.0 : 0.1;
}

static bool veil_read(const sl_reading *reading, const sl_field *field, const sl_node *mapping,
                      const sl_node *veil, void *record)
{
    static const char *const keys[] = {"L", "a", "b", "cover"};
    static const sl_words known = {keys, 4};
    static const sl_range ranges[] = {{SL_MEASURE_NUMBER, 0.0, 100.0},
                                      {SL_MEASURE_NUMBER, -128.0, 128.0},
                                      {SL_MEASURE_NUMBER, -128.0, 128.0},
                                      {SL_MEASURE_SHARE, 0.0, 1.0}};
    sl_mix *const mix = record;
    double *const values[] = {&mix->veil_lab[0], &mix->veil_lab[1], &mix->veil_lab[2], &mix->veil_cover};
    (void)field;
    (void)mapping;
    if (!veil) {
        return true;
    }
    if (!sl_node_keys_known(veil, &known, reading->error)) {
        return false;
    }
    for (int i = 0; i < known.n; i++) {
        const sl_node *const value = sl_node_child(veil, keys[i]);
        if (!value) {
            return sl_node_refuse_missing(veil, keys[i], "a veil has L, a, b and cover", reading->error);
        }
        if (!sl_quantity_read(value, &ranges[i], values[i], reading->error)) {
            return false;
        }
    }
    return true;
}

/* ---- pH, typed or computed ------------------------------------------------------------------ */

static bool ph_read(const sl_reading *reading, const sl_field *field, const sl_node *mapping,
                    const sl_node *node, void *record)
{
    sl_mix *const mix = record;
    (void)mapping;
    if (!node) {
        return true;
    }
    mix->ph_computed = false;
    mix->ph_kj_mol = SL_TYPED_PH_KJ_MOL;
    mix->ph_fall_per_min = mix->ph_fades_per_min = mix->ph_doubt = 0.0;
    return sl_field_read(reading, field, node, mix);
}

/* Of something that decides the pH: from now on it is computed, unless the same file types it. */
static bool ingredient_read(const sl_reading *reading, const sl_field *field, const sl_node *mapping,
                            const sl_node *node, void *record)
{
    sl_mix *const mix = record;
    (void)mapping;
    if (!node) {
        return true;
    }
    mix->ph_computed = true;
    return sl_field_read(reading, field, node, mix);
}

/* What a pH is computed of is drawn from in its place. */
static void ph_draw(uint64_t *hash, const void *record)
{
    const sl_mix *const mix = record;
    if (!mix->ph_computed) {
        sl_draw_number(hash, mix->ph.value);
        sl_draw_whole(hash, (int)mix->ph.grade);
    }
}

static void ingredients_draw(uint64_t *hash, const void *record)
{
    const sl_mix *const mix = record;
    for (int i = 0; mix->ph_computed && i < SL_HOLDERS * SL_INGREDIENTS; i++) {
        const sl_param *const share = &mix->holds[i / SL_INGREDIENTS][i % SL_INGREDIENTS];
        sl_draw_number(hash, share->value);
        sl_draw_whole(hash, share->value > 0.0 ? (int)share->grade : 0);
    }
}

/* One law of loss serves: naming one puts the other out. */
static bool loss_read(const sl_reading *reading, const sl_field *field, const sl_node *mapping,
                      const sl_node *node, void *record)
{
    sl_mix *const mix = record;
    const sl_node *const second = sl_node_child(mapping, "loss_second_order");
    if (!node) {
        return true;
    }
    if (second) {
        return sl_node_refuse_key(second, SL_ERR_INCONSISTENT,
                                  "\"loss\" and \"loss_second_order\" both stand here", "name one",
                                  reading->error);
    }
    mix->loss_l_mol_min = (sl_param){0};
    return sl_field_read(reading, field, node, mix);
}

static bool second_loss_read(const sl_reading *reading, const sl_field *field, const sl_node *mapping,
                             const sl_node *node, void *record)
{
    sl_mix *const mix = record;
    (void)mapping;
    if (!node) {
        return true;
    }
    mix->loss_per_min = (sl_param){0};
    return sl_field_read(reading, field, node, mix);
}

/* ---- what enters a scene's results ------------------------------------------------------- */

/* Others are recorded, never computed with; and the pH of plain water does nothing here. */
static bool oxidises(const sl_mix *mix)
{
    return mix->mechanism == SL_MECHANISM_OXIDATIVE &&
           (mix->powder_parts > 0.0 || mix->developer_parts > 0.0);
}

static bool works(const sl_scene *scene, const void *record)
{
    const sl_mix *const mix = record;
    (void)scene;
    return oxidises(mix) || mix->reductant_share > 0.0;
}

static bool loses_second_order(const sl_scene *scene, const void *record)
{
    (void)scene;
    return oxidises(record) && ((const sl_mix *)record)->loss_l_mol_min.value > 0.0;
}

static bool loses_first_order(const sl_scene *scene, const void *record)
{
    return oxidises(record) && !loses_second_order(scene, record);
}

/* ---- the rows -------------------------------------------------------------------------------- */

#define PARTS(word, member)                                                                                  \
    SL_FIELD(sl_mix, member, .key = (word), .told = #member, .use = SL_DRAWN_FROM,                           \
             .range = {SL_MEASURE_NUMBER, 0.0, 100.0})
#define HOLDS(word, member)                                                                                  \
    SL_FIELD(sl_mix, member, .section = "powder_holds", .key = (word), .use = SL_DRAWN_FROM,                 \
             .range = {SL_MEASURE_SHARE, 0.0, 1.0})
#define HELD(name, what) HOLDS(#name, name),
#define INGREDIENT(part, NAME, name, section_)                                                               \
    SL_FIELD(sl_mix, holds[part][SL_##NAME], section_, .key = #name, .use = 0, .read = ingredient_read,      \
             .range = {SL_MEASURE_SHARE, 0.0, 1.0})
#define OF_POWDER(NAME, name, ...) INGREDIENT(SL_OF_POWDER, NAME, name, .section = "powder_holds"),
#define OF_DEVELOPER(NAME, name, ...) INGREDIENT(SL_OF_DEVELOPER, NAME, name, .section = "developer_holds"),
#define OF_WATER(NAME, name, ...) INGREDIENT(SL_OF_WATER, NAME, name, .section = "water_holds"),

/* Where one is named: files of mixes that oxidise have the fingerprint that they always had. */
static void draw_reductant(uint64_t *hash, const void *record)
{
    const sl_mix *const mix = record;
    if (mix->reductant_share > 0.0) {
        sl_draw_whole(hash, (int)mix->reductant);
        sl_draw_number(hash, mix->reductant_share);
    }
}

static const char *const starts[] = {"mixing", "application"};
static const sl_words start_words = {starts, 2};

static const sl_field fields[] = {
    SL_FIELD(sl_mix, name, .told = "name", .use = SL_DRAWN_FROM),
    SL_FIELD(sl_mix, title, .told = "title"),
    SL_FIELD(sl_mix, class_, .key = "class", .told = "class", .use = SL_DRAWN_FROM | SL_REQUIRED,
             .list = &sl_mix_class_words),
    SL_FIELD(sl_mix, mechanism, .key = "mechanism", .told = "mechanism", .use = SL_DRAWN_FROM | SL_REQUIRED,
             .list = &sl_mechanism_words,
             .wanted = N_("oxidative, reductive or unknown: the last is never predicted")),
    SL_FIELD(sl_mix, reductant, .key = "reductant", .list = &sl_reductant_words), /* drawn with its share */
    SL_FIELD(sl_mix, reductant_share, .key = "reductant_share", .turn = 2, .use = SL_DRAWN_FROM,
             .range = {SL_MEASURE_SHARE, 1e-4, 0.5}, .draw = draw_reductant),
    PARTS("powder", powder_parts),
    PARTS("developer", developer_parts),
    PARTS("water", water_parts),
    SL_FIELD(sl_mix, developer_pct, .key = "strength", .told = "developer_pct", .use = SL_DRAWN_FROM,
             .read = strength_read, .range = {SL_MEASURE_STRENGTH, 0.0, 100.0}),
    SL_POWDER_LIST(HELD) SL_INGREDIENT_LIST(OF_POWDER) HOLDS("activity", activity),
    SL_FIELD_KEY(.section = "powder_holds", .read = powder_check),
    SL_INGREDIENT_LIST(OF_DEVELOPER) SL_INGREDIENT_LIST(OF_WATER) SL_FIELD(
        sl_mix, ph, .key = "ph", .told = "ph", .words = N_("pH"), .turn = 2, .use = SL_DRAWN_FROM | SL_GRADED,
        .range = {SL_MEASURE_NUMBER, LEAST_PH, MOST_PH}, .enters = works, .read = ph_read, .draw = ph_draw),
    SL_FIELD(sl_mix, loss_per_min, .key = "loss", .words = N_("loss of peroxide"), .turn = 2,
             .use = SL_DRAWN_FROM | SL_GRADED, .range = {SL_MEASURE_RATE, 0.0, 1.0}, .read = loss_read,
             .enters = loses_first_order),
    SL_FIELD(sl_mix, loss_l_mol_min, .key = "loss_second_order", .words = N_("loss of peroxide"), .turn = 2,
             .use = SL_DRAWN_FROM | SL_GRADED, .range = {SL_MEASURE_RATE_2, 0.0, 10.0},
             .read = second_loss_read, .enters = loses_second_order),
    SL_FIELD(sl_mix, label_max_min, .key = "label_longest", .turn = 1, .use = SL_DRAWN_FROM | SL_OF_LABEL,
             .range = {SL_MEASURE_TIME, SL_LABEL_LEAST_MIN, SL_LABEL_MOST_MIN}),
    SL_FIELD(sl_mix, label_told_min, .turn = 1, .use = SL_DRAWN_FROM | SL_OF_LABEL),
    SL_FIELD(sl_mix, label_from_contact, .key = "label_counts_from", .turn = 2,
             .use = SL_DRAWN_FROM | SL_OF_LABEL, .list = &start_words),
    SL_FIELD(sl_mix, label_allows, .key = "label_allows", .told = "label_allows", .turn = 2),
    SL_FIELD(sl_mix, ph_computed, .told = "ph_computed", .turn = 2, .use = SL_DRAWN_FROM,
             .draw = ingredients_draw),
    SL_FIELD(sl_mix, ph_kj_mol, .use = 0), /* set with it */
    SL_FIELD(sl_mix, ph_fall_per_min, .use = 0),
    SL_FIELD(sl_mix, ph_fades_per_min, .use = 0),
    SL_FIELD(sl_mix, ph_doubt, .use = 0),
    SL_FIELD(sl_mix, veil_lab, .key = "veil", .read = veil_read),
    SL_FIELD(sl_mix, veil_cover, .use = 0), /* read with it */
};
const sl_fields sl_mix_fields = SL_FIELDS(sl_mix, fields, .of = N_(" of the mix "));

#undef PARTS
#undef HOLDS
#undef HELD
#undef INGREDIENT
#undef OF_POWDER
#undef OF_DEVELOPER
#undef OF_WATER

/* ---- the whole ------------------------------------------------------------------------ */

/* What the class says of powder, developer and water: yes, no, or either. */
typedef enum sl_demand { SL_NEEDED, SL_FORBIDDEN, SL_EITHER } sl_demand;

typedef struct sl_composition {
    sl_demand powder, developer, water;
    const char *rule;
} sl_composition;

static const sl_composition composition[SL_MIX_CLASS_COUNT] = {
    [SL_MIX_POWDER_WATER] = {SL_NEEDED, SL_FORBIDDEN, SL_NEEDED, "powder and water, no developer"},
    [SL_MIX_POWDER_DEVELOPER] = {SL_NEEDED, SL_NEEDED, SL_FORBIDDEN, "powder and developer, no water"},
    [SL_MIX_POWDER_DILUTED] = {SL_NEEDED, SL_NEEDED, SL_NEEDED, "powder, developer and water"},
    [SL_MIX_TWO_PART] = {SL_FORBIDDEN, SL_EITHER, SL_EITHER, "developer, water or both, no powder"},
    [SL_MIX_LIGHTENER] = {SL_NEEDED, SL_NEEDED, SL_EITHER, "powder and developer"},
    [SL_MIX_WATER] = {SL_FORBIDDEN, SL_FORBIDDEN, SL_NEEDED, "water alone"},
};

static bool meets(sl_demand demand, double amount)
{
    return demand == SL_EITHER || (demand == SL_NEEDED) == (amount > 0.0);
}

/* A chemistry for what depends on none of its numbers, or all but: a scene's own comes later. */
static const sl_chemistry any_chemistry = {.potassium_solubility_mol_l = {.value = 0.222},
                                           .fibre_water_ml_g = {.value = 0.35}};

static bool within_law(const sl_mix *mix, const sl_node *root, sl_error *error)
{
    const sl_charge charge = sl_mix_charge(mix, &any_chemistry, 4.0, 0.0);
    if (charge.on_hair_pct <= SL_LEGAL_PCT) {
        return true;
    }
    sl_phrase found = {0};
    sl_phrase_number(&found, charge.on_hair_pct);
    /* xgettext:no-c-format */
    sl_phrase_add(&found, _(" % peroxide on the hair, percarbonate included,"));
    return sl_node_refuse(root, SL_ERR_OUT_OF_RANGE, found.text, law, error);
}

/* An agent has a strength, stands in a mix that reduces and meets no oxidant in the bowl. */
static bool reductant_check(const sl_node *root, const sl_mix_record *record, sl_error *error)
{
    const sl_mix *const mix = &record->mix;
    const sl_node *const agent = sl_node_child(root, "reductant");
    const bool named = mix->reductant_share > 0.0;
    const sl_node *const here = agent ? agent : root;
    if (record->has_reductant != named) {
        return sl_node_refuse_missing(root, named ? "reductant" : "reductant_share",
                                      "a mix that names its reducing agent says how much of it there is",
                                      error);
    }
    if (named && mix->mechanism != SL_MECHANISM_REDUCTIVE) {
        return sl_node_refuse(here, SL_ERR_INCONSISTENT, "a reducing agent in a mix that is not reductive",
                              "write \"mechanism: reductive\", or leave the agent out", error);
    }
    if (named && (mix->powder_parts > 0.0 || mix->developer_parts > 0.0)) {
        return sl_node_refuse(here, SL_ERR_INCONSISTENT,
                              "a reducing agent in one bowl with powder or developer",
                              "they use each other up: put one on, rinse, then the other", error);
    }
    if (named && !record->has_ph) {
        return sl_node_refuse_missing(root, "ph", "a mix that is predicted needs its pH", error);
    }
    return true;
}

static bool ph_in_range(sl_mix *mix, const sl_node *root, sl_error *error)
{
    sl_phrase found = {0};
    const bool balanced = sl_mix_settle(mix, &any_chemistry);
    if (!mix->ph_computed || (balanced && mix->ph.value >= LEAST_PH && mix->ph.value <= MOST_PH)) {
        return true;
    }
    sl_phrase_add(&found, _("what the mix holds would make it of pH "));
    sl_phrase_number(&found, mix->ph.value);
    return sl_node_refuse(root, SL_ERR_OUT_OF_RANGE, found.text, "from 2 to 12; less alkali or acid", error);
}

/* Whether the mix holds together, after what it is like and what the file says itself. */
static bool whole_check(const sl_node *root, sl_mix_record *record, sl_error *error)
{
    sl_mix *const mix = &record->mix;
    const sl_composition *const rule = &composition[mix->class_];
    sl_phrase found = {0}, wanted = {0};
    if (!meets(rule->powder, mix->powder_parts) || !meets(rule->developer, mix->developer_parts) ||
        !meets(rule->water, mix->water_parts)) {
        sl_phrase_add(&found, _("the parts do not make the class "));
        sl_phrase_quote(&found, sl_mix_class_words.word[mix->class_]);
        sl_phrase_add(&wanted, _("that is "));
        sl_phrase_add(&wanted, rule->rule);
        return sl_node_refuse(root, SL_ERR_INCONSISTENT, found.text, wanted.text, error);
    }
    if (mix->developer_parts + mix->water_parts <= 0.0) {
        return sl_node_refuse(root, SL_ERR_INCONSISTENT, "this mix has no liquid",
                              "give parts of developer or water", error);
    }
    if (mix->developer_parts > 0.0 && mix->developer_pct <= 0.0) {
        return sl_node_refuse_missing(root, "strength", "the developer's strength, such as 6 % or 20 vol",
                                      error);
    }
    if (mix->mechanism == SL_MECHANISM_OXIDATIVE && !record->has_ph && !mix->ph_computed) {
        return sl_node_refuse_missing(root, "ph",
                                      "an oxidative mix needs its pH, or what it holds of alkali: it is the "
                                      "strongest input",
                                      error);
    }
    return reductant_check(root, record, error) && within_law(mix, root, error) && ph_in_range(mix, root, error);
}

bool sl_mix_read(const sl_reading *reading, const sl_chain *chain, const sl_node *root, bool complete,
                 void *record)
{
    sl_mix_record *const whole = record;
    (void)chain;
    if (complete) { /* default: the first-order loss of a chelated bath, docs/science.md */
        *whole = (sl_mix_record){.mix = {.activity = 1.0, .loss_per_min = {.value = 1.5e-3}}};
    }
    if (!sl_fields_read(reading, root, &sl_mix_fields, &sl_head_keys, complete, &whole->mix)) {
        return false;
    }
    whole->has_veil = whole->has_veil || sl_node_child(root, "veil");
    if (!whole->has_veil) {
        usual_veil(&whole->mix);
    }
    whole->has_ph = whole->has_ph || sl_node_child(root, "ph");
    whole->has_reductant = whole->has_reductant || sl_node_child(root, "reductant");
    return whole_check(root, whole, reading->error);
}
