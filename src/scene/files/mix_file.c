/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Files of kind mix. A mix is checked as a whole once everything it is like has been read:
 * its class and what it is made of must agree.
 */
#include <string.h>

#include "base/language.h"
#include "scene/records.h"

static const sl_range parts = {SL_MEASURE_NUMBER, 0.0, 100.0};
static const sl_range share = {SL_MEASURE_SHARE, 0.0, 1.0};
static const sl_range ph_range = {SL_MEASURE_NUMBER, 2.0, 12.0};
static const sl_range loss_first = {SL_MEASURE_RATE, 0.0, 1.0};
static const sl_range loss_second = {SL_MEASURE_RATE_2, 0.0, 10.0};
static const sl_range label_time = {SL_MEASURE_TIME, SL_LABEL_LEAST_MIN, SL_LABEL_MOST_MIN};

static const char law[] =
    "the most is 12 % (40 vol): the law's limit for hair (EU Reg. 1223/2009, Annex III entry 12)";

static bool maybe_quantity(const sl_node *mapping, const char *key, const sl_range *range, double *value,
                           sl_error *error)
{
    const sl_node *const node = sl_node_child(mapping, key);
    return !node || sl_quantity_read(node, range, value, error);
}

static bool powder_read(const sl_reading *reading, const sl_node *powder, sl_mix *mix)
{
    static const char *const keys[] = {"potassium_persulfate", "ammonium_persulfate", "sodium_persulfate",
                                       "percarbonate", "activity"};
    static const sl_words known = {keys, sizeof keys / sizeof keys[0]};
    double *const value[] = {&mix->potassium_persulfate, &mix->ammonium_persulfate, &mix->sodium_persulfate,
                             &mix->percarbonate, &mix->activity};
    if (!sl_node_keys_known(powder, &known, reading->error)) {
        return false;
    }
    for (int i = 0; i < known.n; i++) {
        if (!maybe_quantity(powder, keys[i], &share, value[i], reading->error)) {
            return false;
        }
    }
    const double sum =
        mix->potassium_persulfate + mix->ammonium_persulfate + mix->sodium_persulfate + mix->percarbonate;
    if (sum > 1.0 + 1e-9) { /* shares written to a few decimals may add up a rounding over */
        return sl_node_refuse_key(powder, SL_ERR_INCONSISTENT, "the powder's parts are more than the whole",
                                  "together at most 100 %", reading->error);
    }
    return true;
}

static bool strength_read(const sl_node *node, double *pct, sl_error *error)
{
    static const sl_range any = {SL_MEASURE_STRENGTH, 0.0, 100.0};
    double value = 0.0;
    if (!sl_quantity_read(node, &any, &value, error)) {
        return false;
    }
    if (value > SL_LEGAL_PCT) {
        return sl_node_refuse_text(node, SL_ERR_OUT_OF_RANGE, law, error);
    }
    if (value <= 0.0) {
        return sl_node_refuse_text(node, SL_ERR_OUT_OF_RANGE,
                                   "a developer holds peroxide; plain water stands under \"water\"", error);
    }
    *pct = value;
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

static bool veil_read(const sl_reading *reading, const sl_node *veil, sl_mix *mix)
{
    static const char *const keys[] = {"L", "a", "b", "cover"};
    static const sl_words known = {keys, 4};
    static const sl_range lightness = {SL_MEASURE_NUMBER, 0.0, 100.0};
    static const sl_range opponent = {SL_MEASURE_NUMBER, -128.0, 128.0};
    static const sl_range *const ranges[] = {&lightness, &opponent, &opponent, &share};
    double *const values[] = {&mix->veil_lab[0], &mix->veil_lab[1], &mix->veil_lab[2], &mix->veil_cover};
    if (!sl_node_keys_known(veil, &known, reading->error)) {
        return false;
    }
    for (int i = 0; i < known.n; i++) {
        const sl_node *const value = sl_node_child(veil, keys[i]);
        if (!value) {
            return sl_node_refuse_missing(veil, keys[i], "a veil has L, a, b and cover", reading->error);
        }
        if (!sl_quantity_read(value, ranges[i], values[i], reading->error)) {
            return false;
        }
    }
    return true;
}

/* One law of loss serves: naming one puts the other out. */
static bool loss_read(const sl_reading *reading, const sl_node *root, sl_mix *mix)
{
    const sl_node *const first = sl_node_child(root, "loss");
    const sl_node *const second = sl_node_child(root, "loss_second_order");
    if (first && second) {
        return sl_node_refuse_key(second, SL_ERR_INCONSISTENT,
                                  "\"loss\" and \"loss_second_order\" both stand here", "name one",
                                  reading->error);
    }
    if (first) {
        mix->loss_l_mol_min = (sl_param){0};
        return sl_param_read(reading, first, &loss_first, &mix->loss_per_min);
    }
    if (second) {
        mix->loss_per_min = (sl_param){0};
        return sl_param_read(reading, second, &loss_second, &mix->loss_l_mol_min);
    }
    return true;
}

static bool words_read(const sl_reading *reading, const sl_node *root, bool complete, sl_mix *mix)
{
    const sl_node *const class_ = sl_node_child(root, "class");
    const sl_node *const mechanism = sl_node_child(root, "mechanism");
    int index = 0;
    if (!class_ && complete) {
        sl_phrase wanted = {0};
        sl_phrase_nearest(&wanted, &sl_mix_class_words, "");
        return sl_node_refuse_missing(root, "class", wanted.text, reading->error);
    }
    if (class_) {
        if (!sl_word_read(class_, &sl_mix_class_words, &index, reading->error)) {
            return false;
        }
        mix->class_ = (sl_mix_class)index;
    }
    if (!mechanism && complete) {
        return sl_node_refuse_missing(root, "mechanism",
                                      "oxidative, reductive or unknown: only an oxidative mix is predicted",
                                      reading->error);
    }
    if (mechanism) {
        if (!sl_word_read(mechanism, &sl_mechanism_words, &index, reading->error)) {
            return false;
        }
        mix->mechanism = (sl_mechanism)index;
    }
    return true;
}

/* Where the label's time begins. */
static bool label_start_read(const sl_node *root, bool *from_contact, sl_error *error)
{
    static const char *const starts[] = {"mixing", "application"};
    static const sl_words start_words = {starts, 2};
    const sl_node *const node = sl_node_child(root, "label_counts_from");
    int start = 0;
    if (!node) {
        return true;
    }
    if (!sl_word_read(node, &start_words, &start, error)) {
        return false;
    }
    *from_contact = start == 1;
    return true;
}

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

static bool within_law(const sl_mix *mix, const sl_node *root, sl_error *error)
{
    /* The share on the hair depends on neither of these, which the sum only divides by. */
    const sl_chemistry any = {.potassium_solubility_mol_l = {.value = 0.2},
                              .fibre_water_ml_g = {.value = 0.35}};
    const sl_charge charge = sl_mix_charge(mix, &any, 4.0, 0.0);
    if (charge.on_hair_pct <= SL_LEGAL_PCT) {
        return true;
    }
    sl_phrase found = {0};
    sl_phrase_number(&found, charge.on_hair_pct);
    /* xgettext:no-c-format */
    sl_phrase_add(&found, _(" % peroxide on the hair, percarbonate included,"));
    return sl_node_refuse(root, SL_ERR_OUT_OF_RANGE, found.text, law, error);
}

/* Whether the mix holds together, after what it is like and what the file says itself. */
static bool whole_check(const sl_node *root, const sl_mix_record *record, sl_error *error)
{
    const sl_mix *const mix = &record->mix;
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
    if (mix->mechanism == SL_MECHANISM_OXIDATIVE && !record->has_ph) {
        return sl_node_refuse_missing(root, "ph", "an oxidative mix needs its pH: it is the strongest input",
                                      error);
    }
    return within_law(mix, root, error);
}

bool sl_mix_read(const sl_reading *reading, const sl_chain *chain, const sl_node *root, bool complete,
                 void *record)
{
    static const char *const keys[] = {
        "kind",          "version",           "title",        "origin",    "like",
        "class",         "mechanism",         "powder",       "developer", "water",
        "strength",      "powder_holds",      "ph",           "loss",      "loss_second_order",
        "label_longest", "label_counts_from", "label_allows", "veil"};
    static const sl_words known = {keys, sizeof keys / sizeof keys[0]};
    sl_mix_record *const whole = record;
    sl_mix *const mix = &whole->mix;
    sl_error *const error = reading->error;
    (void)chain;
    if (complete) { /* default: the first-order loss of a chelated bath, docs/science.md */
        *whole = (sl_mix_record){.mix = {.activity = 1.0, .loss_per_min = {.value = 1.5e-3}}};
    }
    if (!sl_node_keys_known(root, &known, error) || !words_read(reading, root, complete, mix) ||
        !maybe_quantity(root, "powder", &parts, &mix->powder_parts, error) ||
        !maybe_quantity(root, "developer", &parts, &mix->developer_parts, error) ||
        !maybe_quantity(root, "water", &parts, &mix->water_parts, error) ||
        !maybe_quantity(root, "label_longest", &label_time, &mix->label_max_min, error) ||
        !label_start_read(root, &mix->label_from_contact, error) || !loss_read(reading, root, mix)) {
        return false;
    }
    const sl_node *const strength = sl_node_child(root, "strength");
    const sl_node *const powder = sl_node_child(root, "powder_holds");
    const sl_node *const ph = sl_node_child(root, "ph");
    const sl_node *const allows = sl_node_child(root, "label_allows");
    const sl_node *const veil = sl_node_child(root, "veil");
    whole->has_veil = whole->has_veil || veil;
    if (!whole->has_veil) {
        usual_veil(mix);
    }
    whole->has_ph = whole->has_ph || ph;
    return (!strength || strength_read(strength, &mix->developer_pct, error)) &&
           (!powder || powder_read(reading, powder, mix)) &&
           (!ph || sl_param_read(reading, ph, &ph_range, &mix->ph)) &&
           (!allows || sl_yes_read(allows, &mix->label_allows, error)) &&
           (!veil || veil_read(reading, veil, mix)) && whole_check(root, whole, error);
}
