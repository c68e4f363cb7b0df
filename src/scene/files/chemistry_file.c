/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Files of kind chemistry: the constants that every scene shares. Symbols and meaning:
 * docs/science.md; schema: docs/file-format.md.
 */
#include "scene/records.h"

#include <assert.h>
#include <string.h>

#define AT(member) offsetof(sl_chemistry, member)
#define NUMBER(least, most)                                                                                  \
    {                                                                                                        \
        SL_MEASURE_NUMBER, least, most                                                                       \
    }
#define SHARE(least, most)                                                                                   \
    {                                                                                                        \
        SL_MEASURE_SHARE, least, most                                                                        \
    }
#define ENERGY                                                                                               \
    {                                                                                                        \
        SL_MEASURE_ENERGY, 0.0, 200.0                                                                        \
    }
#define RATE(most)                                                                                           \
    {                                                                                                        \
        SL_MEASURE_RATE, 0.0, most                                                                           \
    }
#define MOLAR(least, most)                                                                                   \
    {                                                                                                        \
        SL_MEASURE_MOLAR, least, most                                                                        \
    }

const sl_field sl_chemistry_fields[] = {
    {"peroxide", "pka", NUMBER(9.0, 14.0), AT(pka_25c), "pKa of hydrogen peroxide at 25 °C"},
    {"peroxide", "pka_enthalpy", ENERGY, AT(pka_enthalpy_kj_mol), "enthalpy of its ionisation"},
    {"peroxide", "fibre_ph_drop", NUMBER(0.0, 4.0), AT(fibre_ph_drop), "pH in the mix minus pH in the fibre"},
    {"peroxide", "saturation", MOLAR(1e-4, 100.0), AT(saturation_mol_l), "perhydroxyl at half saturation"},
    {"peroxide", "loss_activation", ENERGY, AT(loss_activation_kj_mol), "activation energy of peroxide loss"},
    {"peroxide", "fibre_loss", RATE(10.0), AT(fibre_loss_per_min), "peroxide lost in the fibre"},
    {"persulfate",
     "couple",
     {SL_MEASURE_RATE_2, 0.0, 100.0},
     AT(couple_l_mol_min),
     "perhydroxyl with persulfate"},
    {"persulfate", "couple_activation", ENERGY, AT(couple_activation_kj_mol), "its activation energy"},
    {"persulfate", "hydrolysis", RATE(1.0), AT(hydrolysis_per_min), "base hydrolysis at pH 10.3"},
    {"persulfate", "hydrolysis_activation", ENERGY, AT(hydrolysis_activation_kj_mol),
     "its activation energy"},
    {"persulfate", "thermal", RATE(1.0), AT(thermal_per_min), "loss by heat alone at 32 °C"},
    {"persulfate", "thermal_activation", ENERGY, AT(thermal_activation_kj_mol), "its activation energy"},
    {"persulfate", "dissolve", RATE(100.0), AT(dissolve_per_min), "dissolution of solid persulfate"},
    {"persulfate", "dissolve_half", MOLAR(1e-6, 10.0), AT(dissolve_half_mol_l),
     "solid that dissolves at half rate"},
    {"persulfate", "potassium_solubility", MOLAR(1e-3, 10.0), AT(potassium_solubility_mol_l),
     "solubility of potassium persulfate"},
    {"fibre",
     "peroxide_diffusion",
     {SL_MEASURE_DIFFUSION, 0.0, 1e-4},
     AT(peroxide_diffusion_cm2_s),
     "diffusion of peroxide in the fibre"},
    {"fibre",
     "persulfate_diffusion",
     {SL_MEASURE_DIFFUSION, 0.0, 1e-4},
     AT(persulfate_diffusion_cm2_s),
     "diffusion of persulfate in the fibre"},
    {"fibre", "diffusion_activation", ENERGY, AT(diffusion_activation_kj_mol),
     "activation energy of diffusion"},
    {"fibre", "radius", {SL_MEASURE_MICROMETRE, 5.0, 200.0}, AT(fibre_radius_um), "radius of the fibre"},
    {"fibre", "swelling_deficit", SHARE(0.0, 1.0), AT(swelling_deficit), "exchange missing before swelling"},
    {"fibre", "swelling_time", {SL_MEASURE_TIME, 0.01, 240.0}, AT(swelling_time_min), "time of swelling"},
    {"fibre", "damage_opens", NUMBER(0.0, 100.0), AT(damage_opens), "how much lost cystine speeds exchange"},
    {"fibre", "damage_half", SHARE(1e-4, 1.0), AT(damage_half), "lost cystine of half that effect"},
    {"fibre", "persulfate_partition", NUMBER(0.0, 10.0), AT(persulfate_partition),
     "persulfate, fibre over liquid"},
    {"fibre", "water", {SL_MEASURE_WATER, 0.05, 2.0}, AT(fibre_water_ml_g), "water held by wet hair"},
    {"channels", "peroxide_activation", ENERGY, AT(channel_activation_kj_mol[SL_PERHYDROXYL]),
     "activation energy of the perhydroxyl channel"},
    {"channels", "persulfate_activation", ENERGY, AT(channel_activation_kj_mol[SL_PERSULFATE]),
     "activation energy of the persulfate channel"},
    {"channels", "radical_activation", ENERGY, AT(channel_activation_kj_mol[SL_RADICAL]),
     "activation energy of the radical channel"},
    {"cystine", "amount", MOLAR(0.01, 20.0), AT(cystine_mol_l),
     "cystine in virgin hair, per litre of its water"},
    {"cystine", "oxidant", NUMBER(0.0, 20.0), AT(oxidant_per_cystine), "oxidant used for each cystine"},
    {"cystine", "layer", SHARE(1e-4, 10.0), AT(cystine_layer), "product layer that slows attack on cystine"},
    {"eumelanin", "opened_ratio", NUMBER(0.0, 10.0), AT(melanin[SL_EUMELANIN].opened_ratio),
     "rate of opened to yellow over bound to opened"},
    {"eumelanin", "yellow_ratio", NUMBER(0.0, 10.0), AT(melanin[SL_EUMELANIN].yellow_ratio),
     "rate of yellow to colourless over bound to opened"},
    {"eumelanin", "opened_weight", SHARE(0.0, 1.0), AT(melanin[SL_EUMELANIN].opened_weight),
     "absorbance of opened over bound"},
    {"eumelanin", "yellow_weight", SHARE(0.0, 1.0), AT(melanin[SL_EUMELANIN].yellow_weight),
     "absorbance of yellow over bound"},
    {"eumelanin", "held", MOLAR(0.0, 10.0), AT(melanin[SL_EUMELANIN].held_mol_l),
     "pigment per unit of absorbance"},
    {"pheomelanin", "opened_ratio", NUMBER(0.0, 10.0), AT(melanin[SL_PHEOMELANIN].opened_ratio),
     "rate of opened to yellow over bound to opened"},
    {"pheomelanin", "yellow_ratio", NUMBER(0.0, 10.0), AT(melanin[SL_PHEOMELANIN].yellow_ratio),
     "rate of yellow to colourless over bound to opened"},
    {"pheomelanin", "opened_weight", SHARE(0.0, 1.0), AT(melanin[SL_PHEOMELANIN].opened_weight),
     "absorbance of opened over bound"},
    {"pheomelanin", "yellow_weight", SHARE(0.0, 1.0), AT(melanin[SL_PHEOMELANIN].yellow_weight),
     "absorbance of yellow over bound"},
    {"pheomelanin", "held", MOLAR(0.0, 10.0), AT(melanin[SL_PHEOMELANIN].held_mol_l),
     "pigment per unit of absorbance"},
    {"colour", "level_ratio", NUMBER(0.1, 0.95), AT(level_ratio),
     "absorbance of one level over the next darker"},
    {"colour", "keratin_yellow", NUMBER(0.0, 1.0), AT(keratin_yellow), "yellow of oxidised keratin"},
    {"washing", "rinse", RATE(100.0), AT(rinse_per_min), "exchange with running water"},
    {"washing", "rinse_leach", NUMBER(0.0, 100.0), AT(rinse_leach),
     "leaching in running over standing water"},
    {"washing", "rest_ph", NUMBER(2.0, 12.0), AT(rest_ph), "pH in the fibre once rinsed"},
    {"washing", "rest_dry", RATE(10.0), AT(rest_dry_per_min), "drying of rinsed hair"},
    {"washing",
     "damp_water",
     {SL_MEASURE_MASS_RATIO, 0.0, 3.0},
     AT(damp_water_g_g),
     "water in towel-dried hair"},
    {"washing", "dry", RATE(10.0), AT(dry_per_min), "drying of an open mix"},
    {"places", "bowl", {SL_MEASURE_TEMPERATURE, 5.0, 45.0}, AT(bowl_c), "a mix waiting in its bowl"},
    {"places", "head", {SL_MEASURE_TEMPERATURE, 5.0, 45.0}, AT(head_c), "hair near a scalp"},
    {"places",
     "wrapped_rise",
     {SL_MEASURE_KELVIN, 0.0, 20.0},
     AT(wrapped_rise_k),
     "rise under foil on a head"},
    {"places", "wrapped_time", {SL_MEASURE_TIME, 0.1, 240.0}, AT(wrapped_time_min), "time of that rise"},
    {"pigments", "dye_oxidant", NUMBER(0.0, 100.0), AT(dye_oxidant), "oxidant used for each dye molecule"},
    {"pigments", "dye_amount", MOLAR(0.0, 10.0), AT(dye_mol_l), "dye in the fibre at strength 1"},
};
const size_t sl_chemistry_n_fields = sizeof sl_chemistry_fields / sizeof sl_chemistry_fields[0];

#undef AT
#undef NUMBER
#undef SHARE
#undef ENERGY
#undef RATE
#undef MOLAR

enum { MOST_KEYS = 16 };
static const double KERATIN_YELLOW = 0.05; /* of a chemistry that does not say */

/* The keys a section may hold: its fields, the channels where it has rate constants, and
 * the one switch. */
static sl_words section_keys(const char *name, bool has_rates, bool has_feedback, const char *keys[MOST_KEYS])
{
    int n = 0;
    for (size_t i = 0; i < sl_chemistry_n_fields; i++) {
        if (strcmp(sl_chemistry_fields[i].section, name) == 0) {
            keys[n++] = sl_chemistry_fields[i].key;
        }
    }
    for (int channel = 0; has_rates && channel < SL_CHANNELS; channel++) {
        keys[n++] = sl_channel_key(channel);
    }
    if (has_feedback) {
        keys[n++] = "feedback";
    }
    assert(n <= MOST_KEYS);
    return (sl_words){keys, n};
}

static bool rates_read(const sl_reading *reading, const sl_node *section, bool all, sl_rates *rates)
{
    for (int channel = 0; channel < SL_CHANNELS; channel++) {
        const sl_node *const node = sl_node_child(section, sl_channel_key(channel));
        if (!node && all) {
            return sl_node_refuse_missing(section, sl_channel_key(channel),
                                          "a rate constant for each channel", reading->error);
        }
        if (node && !sl_rate_read(reading, node, channel, rates)) {
            return false;
        }
    }
    return true;
}

/* What an earlier lightening left is worked out along eumelanin's own rate with peroxide. */
static bool lightening_check(const sl_node *section, const sl_chemistry *chemistry, sl_error *error)
{
    if (chemistry->melanin[SL_EUMELANIN].rates.k[SL_PERHYDROXYL].value > 0.0) {
        return true;
    }
    const sl_node *const node = sl_node_child(section, sl_channel_key(SL_PERHYDROXYL));
    return sl_node_refuse(node ? node : section, SL_ERR_OUT_OF_RANGE,
                          "a rate of eumelanin with peroxide of 0",
                          "give a small one: lightened hair is worked out with it", error);
}

/* Base moved is read as what was once bound and absorbs no more. It never falls back as long as no step
 * of the chain bound -> opened -> yellow makes hair darker. */
static bool darkening_check(const sl_node *section, const sl_melanin *melanin, sl_error *error)
{
    if (melanin->yellow_weight.value <= melanin->opened_weight.value) {
        return true;
    }
    const sl_node *const yellow = sl_node_child(section, "yellow_weight");
    const sl_node *const opened = sl_node_child(section, "opened_weight");
    return sl_node_refuse(
        yellow   ? yellow
        : opened ? opened
                 : section,
        SL_ERR_INCONSISTENT,
        "yellow melanin that weighs more than opened: hair would grow darker as it lightens",
        "yellow_weight may be at most opened_weight", error);
}

static bool feedback_read(const sl_reading *reading, const sl_node *section, bool all,
                          sl_chemistry *chemistry)
{
    const sl_node *const node = sl_node_child(section, "feedback");
    if (!node) {
        return !all || sl_node_refuse_missing(section, "feedback", "yes or no", reading->error);
    }
    return sl_yes_read(node, &chemistry->pigment_feedback, reading->error);
}

static sl_rates *rates_of_section(const char *name, sl_chemistry *chemistry)
{
    if (strcmp(name, "cystine") == 0) {
        return &chemistry->cystine;
    }
    if (strcmp(name, "eumelanin") == 0) {
        return &chemistry->melanin[SL_EUMELANIN].rates;
    }
    return strcmp(name, "pheomelanin") == 0 ? &chemistry->melanin[SL_PHEOMELANIN].rates : NULL;
}

static bool section_read(const sl_reading *reading, const sl_node *section, const char *name, bool all,
                         sl_chemistry *chemistry)
{
    sl_rates *const rates = rates_of_section(name, chemistry);
    const bool has_feedback = strcmp(name, "pigments") == 0;
    const char *keys[MOST_KEYS];
    const sl_words known = section_keys(name, rates != NULL, has_feedback, keys);
    return sl_node_keys_known(section, &known, reading->error) &&
           sl_fields_read(reading, section, name, sl_chemistry_fields, sl_chemistry_n_fields, all,
                          chemistry) &&
           (!rates || rates_read(reading, section, all, rates)) &&
           (strcmp(name, "eumelanin") != 0 ||
            (lightening_check(section, chemistry, reading->error) &&
             darkening_check(section, &chemistry->melanin[SL_EUMELANIN], reading->error))) &&
           (strcmp(name, "pheomelanin") != 0 ||
            darkening_check(section, &chemistry->melanin[SL_PHEOMELANIN], reading->error)) &&
           (!has_feedback || feedback_read(reading, section, all, chemistry));
}

bool sl_chemistry_read(const sl_reading *reading, const sl_chain *chain, const sl_node *root, bool complete,
                       void *record)
{
    static const char *const keys[] = {
        "kind",     "version", "title",     "origin",      "like",   "peroxide", "persulfate", "fibre",
        "channels", "cystine", "eumelanin", "pheomelanin", "colour", "washing",  "places",     "pigments"};
    static const sl_words known = {keys, sizeof keys / sizeof keys[0]};
    sl_chemistry *const chemistry = record;
    (void)chain;
    if (!sl_node_keys_known(root, &known, reading->error)) {
        return false;
    }
    if (complete) { /* came after the first files, which do without it */
        chemistry->keratin_yellow = (sl_param){.value = KERATIN_YELLOW, .grade = SL_GRADE_ASSUMED};
    }
    for (int i = 5; i < known.n; i++) { /* the first five are every file's */
        const sl_node *const section = sl_node_child(root, keys[i]);
        if (!section && complete) {
            return sl_node_refuse_missing(root, keys[i], "every section belongs here, or \"like: NAME\"",
                                          reading->error);
        }
        if (section && !section_read(reading, section, keys[i], complete, record)) {
            return false;
        }
    }
    return true;
}
