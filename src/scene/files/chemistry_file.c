/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Files of kind chemistry: the constants that every scene shares. Symbols and meaning:
 * docs/science.md; schema: docs/file-format.md.
 */
#include <math.h>

#include "base/language.h"
#include "scene/records.h"

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

static bool eumelanin_check(const sl_reading *reading, const sl_field *field, const sl_node *section,
                            const sl_node *node, void *record)
{
    const sl_chemistry *const chemistry = record;
    (void)field;
    (void)node;
    return lightening_check(section, chemistry, reading->error) &&
           darkening_check(section, &chemistry->melanin[SL_EUMELANIN], reading->error);
}

static bool pheomelanin_check(const sl_reading *reading, const sl_field *field, const sl_node *section,
                              const sl_node *node, void *record)
{
    const sl_chemistry *const chemistry = record;
    (void)field;
    (void)node;
    return darkening_check(section, &chemistry->melanin[SL_PHEOMELANIN], reading->error);
}

/* An agent that is said at all has an order, and enters the fibre. */
static bool whole_agent(const sl_reading *reading, const sl_node *section, const sl_reductant *agent)
{
    if (!(agent->order.value > 0.0)) {
        return sl_node_refuse_missing(section, "order", "the order of the loss of dye in this agent",
                                      reading->error);
    }
    if (!(agent->diffusion_cm2_s.value > 0.0)) {
        return sl_node_refuse_missing(section, "diffusion", "its diffusion in the fibre", reading->error);
    }
    return true;
}

/* ---- what enters a scene's results ------------------------------------------------------- */

static bool pigments_count(const sl_scene *scene, const void *record)
{
    (void)record;
    return scene->chemistry.pigment_feedback;
}

static bool lies_at_head(const sl_scene *scene, const void *record)
{
    (void)record;
    return scene->place != SL_PLACE_BENCH && scene->n_points == 0;
}

static bool lies_wrapped(const sl_scene *scene, const void *record)
{
    (void)record;
    return scene->place == SL_PLACE_WRAPPED && scene->n_points == 0;
}

/* Of a chemistry that does not say. */
static const double KERATIN_YELLOW = 0.05, AMMONIA_LEAVES = 0.005;

static bool any_ph_is_computed(const sl_scene *scene, const void *record)
{
    bool any = false;
    (void)record;
    for (int i = 0; i < scene->n_mixes; i++) {
        any = any || scene->mixes[i].ph_computed;
    }
    return any;
}

static void ammonia_draw(uint64_t *hash, const void *record)
{
    const sl_param *const leaves = &((const sl_chemistry *)record)->ammonia_leaves_per_min;
    if (fabs(leaves->value - AMMONIA_LEAVES) > 0.0 || leaves->grade != SL_GRADE_ASSUMED) {
        sl_draw_number(hash, leaves->value);
        sl_draw_whole(hash, (int)leaves->grade);
    }
}

static bool warms_itself(const sl_scene *scene, const void *record)
{
    const sl_chemistry *const chemistry = record;
    (void)scene;
    return sl_chemistry_warms(chemistry);
}

static bool loses_lipids(const sl_scene *scene, const void *record)
{
    (void)scene;
    return ((const sl_chemistry *)record)->lipids_open.value > 0.0;
}

/* Both numbers, only where they open anything: chemistries without keep their fingerprints. */
static void lipids_draw(uint64_t *hash, const void *record)
{
    const sl_chemistry *const ch = record;
    const sl_param *const number[] = {&ch->lipids_open, &ch->lipids_loss};
    for (size_t i = 0; loses_lipids(NULL, record) && i < sizeof number / sizeof number[0]; i++) {
        sl_draw_number(hash, number[i]->value);
        sl_draw_whole(hash, (int)number[i]->grade);
    }
}

/* The whole section, only where it is: chemistries without it keep their fingerprints. */
static void heat_draw(uint64_t *hash, const void *record)
{
    const sl_chemistry *const ch = record;
    const sl_param *const number[] = {
        &ch->dissolving_heat_kj_mol, &ch->peroxide_heat_kj_mol, &ch->persulfate_heat_kj_mol,
        &ch->sulfur_heat_kj_mol,     &ch->mix_heat_j_g_k,       &ch->hair_heat_j_g_k,
        &ch->open_loss_w_m2_k,       &ch->covered_loss_w_m2_k,  &ch->bench_loss_w_m2_k,
        &ch->head_loss_w_m2_k,       &ch->layer_area_cm2_g,     &ch->bowl_area_cm2_g};
    for (size_t i = 0; sl_chemistry_warms(ch) && i < sizeof number / sizeof number[0]; i++) {
        sl_draw_number(hash, number[i]->value);
        sl_draw_whole(hash, (int)number[i]->grade);
    }
}

static bool holds(const sl_scene *scene, sl_reductant_id agent)
{
    return scene == NULL || sl_scene_holds_agent(scene, agent);
}

#define BY_AGENT(NAME, ...)                                                                                  \
    static bool holds_##NAME(const sl_scene *scene, const void *record)                                      \
    {                                                                                                        \
        (void)record;                                                                                        \
        return holds(scene, SL_REDUCTANT_##NAME);                                                            \
    }
SL_REDUCTANT_LIST(BY_AGENT)
#undef BY_AGENT
#define BY_AGENT(NAME, ...)                                                                                  \
    static bool check_##NAME(const sl_reading *reading, const sl_field *field, const sl_node *section,       \
                             const sl_node *node, void *record)                                              \
    {                                                                                                        \
        (void)field;                                                                                         \
        (void)node;                                                                                          \
        return whole_agent(reading, section, &((sl_chemistry *)record)->reductant[SL_REDUCTANT_##NAME]);     \
    }
SL_REDUCTANT_LIST(BY_AGENT)
#undef BY_AGENT

static bool reduces(const sl_scene *scene, const void *record)
{
    (void)record;
    return scene == NULL || sl_scene_reduces(scene);
}

/* ---- the rows -------------------------------------------------------------------------------- */

/* A number that a chemistry has to give. */
#define NUMBER(place, word, member, its_words, ...)                                                          \
    SL_FIELD(sl_chemistry, member, .section = (place), .key = (word), .words = (its_words),                  \
             .wanted = (its_words), .use = SL_DRAWN_FROM | SL_GRADED | SL_REQUIRED, .range = {__VA_ARGS__})
/* One that not every scene's results rest on. */
#define NUMBER_IF(condition, place, word, member, its_words, ...)                                            \
    SL_FIELD(sl_chemistry, member, .section = (place), .key = (word), .words = (its_words),                  \
             .wanted = (its_words), .use = SL_DRAWN_FROM | SL_GRADED | SL_REQUIRED, .enters = (condition),   \
             .range = {__VA_ARGS__})
#define RATES(place, member, its_turn, graded, belongs)                                                      \
    SL_FIELD(sl_chemistry, member, .section = (place), .turn = (its_turn),                                   \
             .use = SL_DRAWN_FROM | (graded) | SL_REQUIRED, .of = (belongs),                                 \
             .wanted = N_("a rate constant for each channel"))
#define STAGES(place, kind)                                                                                  \
    NUMBER(place, "opened_ratio", melanin[kind].opened_ratio,                                                \
           "rate of opened to yellow over bound to opened", SL_MEASURE_NUMBER, 0.0, 10.0),                   \
        NUMBER(place, "yellow_ratio", melanin[kind].yellow_ratio,                                            \
               "rate of yellow to colourless over bound to opened", SL_MEASURE_NUMBER, 0.0, 10.0),           \
        NUMBER(place, "opened_weight", melanin[kind].opened_weight, "absorbance of opened over bound",       \
               SL_MEASURE_SHARE, 0.0, 1.0),                                                                  \
        NUMBER(place, "yellow_weight", melanin[kind].yellow_weight, "absorbance of yellow over bound",       \
               SL_MEASURE_SHARE, 0.0, 1.0)
#define MELANIN(place, kind, belongs)                                                                        \
    STAGES(place, kind),                                                                                     \
        NUMBER_IF(pigments_count, place, "held", melanin[kind].held_mol_l, "pigment per unit of absorbance", \
                  SL_MEASURE_MOLAR, 0.0, 10.0),                                                              \
        RATES(place, melanin[kind].rates, -1, SL_GRADED | SL_GRADED_FIRST, belongs)
#define ENERGY SL_MEASURE_ENERGY, 0.0, 200.0
#define CHANNEL(NAME, name, key, required, order, dose, rate, energy, ...)                                   \
    NUMBER("channels", key "_activation", channel_activation_kj_mol[SL_##NAME], energy, ENERGY),

#define MOLAR_HEAT SL_MEASURE_ENERGY, 0.0, 1000.0
#define LOSS_OF_HEAT SL_MEASURE_HEAT_LOSS, 0.0, 1000.0
/* A number of the heat balance; a file without that section has no heat of reaction. */
#define HEAT(word, member, its_words, ...)                                                                   \
    SL_FIELD(sl_chemistry, member, .section = "heat", .key = (word), .words = (its_words), .turn = 2,        \
             .wanted = (its_words), .use = SL_DRAWN_FROM | SL_GRADED | SL_REQUIRED, .enters = warms_itself,  \
             .draw = sl_drawn_before, .range = {__VA_ARGS__})

/* Of one agent; what is not said is nothing. */
#define OF_AGENT(NAME, place, word, member, its_words, ...)                                                  \
    SL_FIELD(sl_chemistry, reductant[SL_REDUCTANT_##NAME].member, .section = (place), .key = (word),         \
             .words = (its_words), .use = SL_GRADED | SL_DRAWN_REDUCING, .enters = holds_##NAME,             \
             .range = {__VA_ARGS__})
#define AGENT(NAME, key, ...)                                                                                \
    OF_AGENT(NAME, key, "order", order, N_("order in the agent"), SL_MEASURE_NUMBER, 0.1, 2.0),              \
        OF_AGENT(NAME, key, "activation", activation_kj_mol, N_("activation energy of reduction"), ENERGY),  \
        OF_AGENT(NAME, key, "air_loss", air_loss_per_min, N_("agent lost in air"), SL_MEASURE_RATE, 0.0,     \
                 10.0),                                                                                      \
        OF_AGENT(NAME, key, "meet", meet_l_mol_min, N_("agent with an oxidant"), SL_MEASURE_RATE_2, 0.0,     \
                 100.0),                                                                                     \
        OF_AGENT(NAME, key, "oxidant", oxidant_per_mol, N_("oxidant used for each agent"),                   \
                 SL_MEASURE_NUMBER, 0.0, 20.0),                                                              \
        MORE_OF_AGENT(NAME, key)
#define MORE_OF_AGENT(NAME, key)                                                                             \
    OF_AGENT(NAME, key, "diffusion", diffusion_cm2_s, N_("diffusion of the agent in the fibre"),             \
             SL_MEASURE_DIFFUSION, 0.0, 1e-4),                                                               \
        OF_AGENT(NAME, key, "cystine", cystine_l_mol_min, N_("agent with cystine"), SL_MEASURE_RATE_2, 0.0,  \
                 100.0),                                                                                     \
        OF_AGENT(NAME, key, "per_cystine", per_cystine, N_("agent used for each cystine"),                   \
                 SL_MEASURE_NUMBER, 0.0, 20.0),                                                              \
        SL_FIELD_KEY(.section = (key), .read = check_##NAME),

static const sl_field fields[] = {
    SL_FIELD(sl_chemistry, name, .use = 0),
    SL_FIELD(sl_chemistry, title, .use = 0),
    NUMBER("peroxide", "pka", pka_25c, "pKa of hydrogen peroxide at 25 °C", SL_MEASURE_NUMBER, 9.0, 14.0),
    NUMBER("peroxide", "pka_enthalpy", pka_enthalpy_kj_mol, "enthalpy of its ionisation", ENERGY),
    NUMBER("peroxide", "fibre_ph_drop", fibre_ph_drop, "pH in the mix minus pH in the fibre",
           SL_MEASURE_NUMBER, 0.0, 4.0),
    NUMBER("peroxide", "saturation", saturation_mol_l, "perhydroxyl at half saturation", SL_MEASURE_MOLAR,
           1e-4, 100.0),
    NUMBER("peroxide", "loss_activation", loss_activation_kj_mol, "activation energy of peroxide loss",
           ENERGY),
    NUMBER("peroxide", "fibre_loss", fibre_loss_per_min, "peroxide lost in the fibre", SL_MEASURE_RATE, 0.0,
           10.0),
    NUMBER("persulfate", "couple", couple_l_mol_min, "perhydroxyl with persulfate", SL_MEASURE_RATE_2, 0.0,
           100.0),
    NUMBER("persulfate", "couple_activation", couple_activation_kj_mol, "its activation energy", ENERGY),
    NUMBER("persulfate", "hydrolysis", hydrolysis_per_min, "base hydrolysis at pH 10.3", SL_MEASURE_RATE, 0.0,
           1.0),
    NUMBER("persulfate", "hydrolysis_activation", hydrolysis_activation_kj_mol, "its activation energy",
           ENERGY),
    NUMBER("persulfate", "thermal", thermal_per_min, "loss by heat alone at 32 °C", SL_MEASURE_RATE, 0.0,
           1.0),
    NUMBER("persulfate", "thermal_activation", thermal_activation_kj_mol, "its activation energy", ENERGY),
    NUMBER("persulfate", "dissolve", dissolve_per_min, "dissolution of solid persulfate", SL_MEASURE_RATE,
           0.0, 100.0),
    NUMBER("persulfate", "dissolve_half", dissolve_half_mol_l, "solid that dissolves at half rate",
           SL_MEASURE_MOLAR, 1e-6, 10.0),
    NUMBER("persulfate", "potassium_solubility", potassium_solubility_mol_l,
           "solubility of potassium persulfate", SL_MEASURE_MOLAR, 1e-3, 10.0),
    NUMBER("fibre", "peroxide_diffusion", peroxide_diffusion_cm2_s, "diffusion of peroxide in the fibre",
           SL_MEASURE_DIFFUSION, 0.0, 1e-4),
    NUMBER("fibre", "persulfate_diffusion", persulfate_diffusion_cm2_s,
           "diffusion of persulfate in the fibre", SL_MEASURE_DIFFUSION, 0.0, 1e-4),
    NUMBER("fibre", "diffusion_activation", diffusion_activation_kj_mol, "activation energy of diffusion",
           ENERGY),
    NUMBER("fibre", "radius", fibre_radius_um, "radius of the fibre", SL_MEASURE_MICROMETRE, 5.0, 200.0),
    NUMBER("fibre", "swelling_deficit", swelling_deficit, "exchange missing before swelling",
           SL_MEASURE_SHARE, 0.0, 1.0),
    NUMBER("fibre", "swelling_time", swelling_time_min, "time of swelling", SL_MEASURE_TIME, 0.01, 240.0),
    NUMBER("fibre", "damage_opens", damage_opens, "how much lost cystine speeds exchange", SL_MEASURE_NUMBER,
           0.0, 100.0),
    NUMBER("fibre", "damage_half", damage_half, "lost cystine of half that effect", SL_MEASURE_SHARE, 1e-4,
           1.0),
    SL_FIELD(sl_chemistry, lipids_open, .section = "fibre", .key = "lipids_open",
             .words = N_("how much lost lipids speed exchange"), .use = SL_DRAWN_FROM | SL_GRADED,
             .range = {SL_MEASURE_NUMBER, 0.0, 100.0}, .enters = loses_lipids, .draw = lipids_draw),
    SL_FIELD(sl_chemistry, lipids_loss, .section = "fibre", .key = "lipids_loss",
             .words = N_("lipids of the cuticle lost to radicals"), .use = SL_DRAWN_FROM | SL_GRADED,
             .range = {SL_MEASURE_RATE_3, 0.0, 10000.0}, .enters = loses_lipids, .draw = sl_drawn_before),
    NUMBER("fibre", "persulfate_partition", persulfate_partition, "persulfate, fibre over liquid",
           SL_MEASURE_NUMBER, 0.0, 10.0),
    NUMBER("fibre", "water", fibre_water_ml_g, "water held by wet hair", SL_MEASURE_WATER, 0.05, 2.0),
    SL_CHANNEL_LIST(CHANNEL)
        NUMBER("cystine", "amount", cystine_mol_l, "cystine in virgin hair, per litre of its water",
               SL_MEASURE_MOLAR, 0.01, 20.0),
    NUMBER("cystine", "oxidant", oxidant_per_cystine, "oxidant used for each cystine", SL_MEASURE_NUMBER, 0.0,
           20.0),
    NUMBER("cystine", "layer", cystine_layer, "product layer that slows attack on cystine", SL_MEASURE_SHARE,
           1e-4, 10.0),
    RATES("cystine", cystine, -2, SL_GRADED, N_(" of cystine in ")),
    MELANIN("eumelanin", SL_EUMELANIN, N_(" of eumelanin in ")),
    SL_FIELD_KEY(.section = "eumelanin", .read = eumelanin_check),
    MELANIN("pheomelanin", SL_PHEOMELANIN, N_(" of pheomelanin in ")),
    SL_FIELD_KEY(.section = "pheomelanin", .read = pheomelanin_check),
    NUMBER("colour", "level_ratio", level_ratio, "absorbance of one level over the next darker",
           SL_MEASURE_NUMBER, 0.1, 0.95),
    SL_FIELD(sl_chemistry, keratin_yellow, .section = "colour", .key = "keratin_yellow",
             .words = N_("yellow of oxidised keratin"), .use = SL_DRAWN_FROM | SL_GRADED,
             .range = {SL_MEASURE_NUMBER, 0.0, 1.0}),
    NUMBER("washing", "rinse", rinse_per_min, "exchange with running water", SL_MEASURE_RATE, 0.0, 100.0),
    NUMBER("washing", "rinse_leach", rinse_leach, "leaching in running over standing water",
           SL_MEASURE_NUMBER, 0.0, 100.0),
    NUMBER("washing", "rest_ph", rest_ph, "pH in the fibre once rinsed", SL_MEASURE_NUMBER, 2.0, 12.0),
    NUMBER("washing", "rest_dry", rest_dry_per_min, "drying of rinsed hair", SL_MEASURE_RATE, 0.0, 10.0),
    NUMBER("washing", "damp_water", damp_water_g_g, "water in towel-dried hair", SL_MEASURE_MASS_RATIO, 0.0,
           3.0),
    NUMBER("washing", "dry", dry_per_min, "drying of an open mix", SL_MEASURE_RATE, 0.0, 10.0),
    SL_FIELD(sl_chemistry, ammonia_leaves_per_min, .section = "washing", .key = "ammonia_leaves",
             .words = N_("free ammonia that leaves a mix"), .turn = 2, .use = SL_DRAWN_FROM | SL_GRADED,
             .range = {SL_MEASURE_RATE, 0.0, 1.0}, .enters = any_ph_is_computed, .draw = ammonia_draw),
    NUMBER("places", "bowl", bowl_c, "a mix waiting in its bowl", SL_MEASURE_TEMPERATURE, 5.0, 45.0),
    NUMBER_IF(lies_at_head, "places", "head", head_c, "hair near a scalp", SL_MEASURE_TEMPERATURE, 5.0, 45.0),
    NUMBER_IF(lies_wrapped, "places", "wrapped_rise", wrapped_rise_k, "rise under foil on a head",
              SL_MEASURE_KELVIN, 0.0, 20.0),
    NUMBER_IF(lies_wrapped, "places", "wrapped_time", wrapped_time_min, "time of that rise", SL_MEASURE_TIME,
              0.1, 240.0),
    SL_FIELD(sl_chemistry, dissolving_heat_kj_mol, .section = "heat", .key = "dissolving", .turn = 2,
             .words = N_("heat that dissolving persulfate takes up"), .use = SL_DRAWN_FROM | SL_GRADED,
             .enters = warms_itself, .draw = heat_draw, .range = {MOLAR_HEAT}),
    HEAT("peroxide", peroxide_heat_kj_mol, "heat of peroxide that decomposes", MOLAR_HEAT),
    HEAT("persulfate", persulfate_heat_kj_mol, "heat of persulfate that decomposes", MOLAR_HEAT),
    HEAT("sulfur", sulfur_heat_kj_mol, "heat of oxygen that cystine takes", MOLAR_HEAT),
    HEAT("mix", mix_heat_j_g_k, "heat capacity of a mix", SL_MEASURE_HEAT, 0.1, 10.0),
    HEAT("hair", hair_heat_j_g_k, "heat capacity of dry hair", SL_MEASURE_HEAT, 0.1, 10.0),
    HEAT("open", open_loss_w_m2_k, "heat lost by an open mix", LOSS_OF_HEAT),
    HEAT("covered", covered_loss_w_m2_k, "heat lost by a covered mix", LOSS_OF_HEAT),
    HEAT("bench", bench_loss_w_m2_k, "heat lost to a bench", LOSS_OF_HEAT),
    HEAT("head", head_loss_w_m2_k, "heat lost to a head", LOSS_OF_HEAT),
    HEAT("layer_area", layer_area_cm2_g, "area of the layer on hair", SL_MEASURE_AREA, 0.0, 200.0),
    HEAT("bowl_area", bowl_area_cm2_g, "area of a mix in its bowl", SL_MEASURE_AREA, 0.0, 200.0),
    NUMBER_IF(pigments_count, "pigments", "dye_oxidant", dye_oxidant, "oxidant used for each dye molecule",
              SL_MEASURE_NUMBER, 0.0, 100.0),
    NUMBER_IF(pigments_count, "pigments", "dye_amount", dye_mol_l, "dye in the fibre at strength 1",
              SL_MEASURE_MOLAR, 0.0, 10.0),
    SL_FIELD(sl_chemistry, pigment_feedback, .section = "pigments", .key = "feedback",
             .use = SL_DRAWN_FROM | SL_REQUIRED, .wanted = N_("yes or no")),
    SL_REDUCTANT_LIST(AGENT)
        SL_FIELD(sl_chemistry, return_activation_kj_mol, .section = "colourless", .key = "return_activation",
                 .words = N_("activation energy of colour that comes back"), .enters = reduces,
                 .use = SL_GRADED | SL_DRAWN_REDUCING, .range = {ENERGY}),
};
const sl_fields sl_chemistry_fields = SL_FIELDS(sl_chemistry, fields, .of = N_(" of the chemistry "),
                                                .lacks = N_("every section belongs here, or \"like: NAME\""));

#undef NUMBER
#undef NUMBER_IF
#undef RATES
#undef MELANIN
#undef OF_AGENT
#undef AGENT
#undef MORE_OF_AGENT
#undef ENERGY
#undef CHANNEL
#undef HEAT
#undef MOLAR_HEAT
#undef LOSS_OF_HEAT

bool sl_chemistry_read(const sl_reading *reading, const sl_chain *chain, const sl_node *root, bool complete,
                       void *record)
{
    sl_chemistry *const chemistry = record;
    (void)chain;
    if (complete) { /* came after the first files, which do without them */
        chemistry->keratin_yellow = (sl_param){.value = KERATIN_YELLOW, .grade = SL_GRADE_ASSUMED};
        chemistry->ammonia_leaves_per_min = (sl_param){.value = AMMONIA_LEAVES, .grade = SL_GRADE_ASSUMED};
    }
    return sl_fields_read(reading, root, &sl_chemistry_fields, &sl_head_keys, complete, chemistry);
}
