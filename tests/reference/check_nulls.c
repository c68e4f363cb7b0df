/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The null models of the table of checks: each takes one thing out of the program. A row that its null model
 * meets as well says nothing about that thing.
 */
#include "check_bench.h"

#include "slowlift/solution.h"

static void no_damage(check_bench *b)
{
    for (int i = 0; i < SL_CHANNELS; i++) {
        b->scene.chemistry.cystine.k[i].value = 0;
    }
    b->scene.chemistry.lipids_loss.value = 0;
}

static void no_layer(check_bench *b)
{
    b->scene.chemistry.cystine_layer.value = 1e6;
}

static void one_opening(check_bench *b)
{
    b->scene.chemistry.lipids_loss.value = 0;
}

static void no_opening(check_bench *b)
{
    b->scene.chemistry.damage_opens.value = 0;
    one_opening(b);
}

static void no_swelling(check_bench *b)
{
    b->scene.chemistry.swelling_deficit.value = 0;
    no_opening(b);
}

enum { MOST_RATES = MOST_THINGS + SL_MELANINS + 1 };

/* Those of every target. */
static int list_rates(check_bench *b, sl_rates *rates[MOST_RATES])
{
    int n = 0;
    rates[n++] = &b->scene.chemistry.cystine;
    for (int m = 0; m < SL_MELANINS; m++) {
        rates[n++] = &b->scene.chemistry.melanin[m].rates;
    }
    for (int d = 0; d < b->scene.n_dyes; d++) {
        rates[n++] = &b->dyes[d].rates;
    }
    return n;
}

static void take_out_alone(check_bench *b, int channel)
{
    sl_rates *rates[MOST_RATES];
    const int n = list_rates(b, rates);
    for (int i = 0; i < n; i++) {
        rates[i]->k[channel].value = 0;
    }
    if (channel == SL_RADICAL) {
        b->scene.chemistry.lipids_loss.value = 0;
    }
}

/* Every target's rate with one oxidant alone, and with both together, is nothing. */
static void take_out(check_bench *b, int channel)
{
    take_out_alone(b, channel);
    take_out_alone(b, SL_RADICAL);
}

static void no_persulfate(check_bench *b)
{
    take_out(b, SL_PERSULFATE);
}

/* Of what persulfate does, one part: by itself, or together with peroxide. */
static void no_persulfate_itself(check_bench *b)
{
    take_out_alone(b, SL_PERSULFATE);
}

static void no_radicals(check_bench *b)
{
    take_out_alone(b, SL_RADICAL);
}

static void no_peroxide(check_bench *b)
{
    take_out(b, SL_PERHYDROXYL);
}

static void no_loss(check_bench *b)
{
    b->mix.loss_per_min.value = 0;
    b->mix.loss_l_mol_min.value = 0;
    b->scene.chemistry.fibre_loss_per_min.value = 0;
    b->scene.chemistry.couple_l_mol_min.value = 0;
}

/* Through the first number of the series without EDTA. */
static void loss_first_order(check_bench *b)
{
    b->mix.loss_l_mol_min.value = 0;
    b->mix.loss_per_min.value = log(5.92 / 3.12) / 120;
}

static void no_ph(check_bench *b)
{
    b->mix.ph.value = 10;
    b->mix.ph_kj_mol = b->mix.ph_fall_per_min = 0;
}

static void no_temperature(check_bench *b)
{
    sl_chemistry *c = &b->scene.chemistry;
    c->pka_enthalpy_kj_mol.value = 0;
    b->mix.ph_kj_mol = 0;
    c->loss_activation_kj_mol.value = 0;
    c->couple_activation_kj_mol.value = 0;
    c->hydrolysis_activation_kj_mol.value = 0;
    c->thermal_activation_kj_mol.value = 0;
    c->diffusion_activation_kj_mol.value = 0;
    for (int i = 0; i < SL_CHANNELS; i++) {
        c->channel_activation_kj_mol[i].value = 0;
    }
}

static void no_strength(check_bench *b)
{
    b->mix.developer_pct = b->mix.developer_pct > 0 ? 6 : 0;
    sl_mix_settle(&b->mix, &b->scene.chemistry);
}

static void no_saturation(check_bench *b)
{
    b->scene.chemistry.saturation_mol_l.value = 1e6;
}

static void no_washing(check_bench *b)
{
    for (int d = 0; d < b->scene.n_dyes; d++) {
        b->dyes[d].leach_per_min.value = 0;
        b->dyes[d].shampoo_loss.value = 0;
        b->dyes[d].loose_loss.value = 0;
    }
}

/* Everything held alike: as much is left after four shampoos, and each takes the same share. */
static void one_part(check_bench *b)
{
    const sl_moment four = {.leach_min = 4 * b->scene.chemistry.rinse_leach.value, .shampoos = 4};
    for (int d = 0; d < b->scene.n_dyes; d++) {
        const double left = sl_dye_left(&b->dyes[d], &four);
        b->dyes[d].loose_share.value = 0;
        double low = 0;
        double high = 10;
        for (int i = 0; i < 60; i++) {
            const double middle = (low + high) / 2;
            b->dyes[d].shampoo_loss.value = middle;
            *(sl_dye_left(&b->dyes[d], &four) > left ? &low : &high) = middle;
        }
    }
}

static void dyes_alike(check_bench *b)
{
    for (int d = 1; d < b->scene.n_dyes; d++) {
        b->dyes[d].rates = b->dyes[0].rates;
        b->dyes[d].rim_share = b->dyes[0].rim_share;
        b->dyes[d].leach_per_min = b->dyes[0].leach_per_min;
    }
}

/* Cystine goes with the melanins in one proportion on every channel, so that its loss is a function of lift.
 */
static void damage_by_lift(check_bench *b)
{
    sl_chemistry *c = &b->scene.chemistry;
    c->cystine_layer.value = 1e6;
    for (int i = 0; i < SL_CHANNELS; i++) {
        const double k = c->melanin[SL_EUMELANIN].rates.k[i].value;
        c->melanin[SL_PHEOMELANIN].rates.k[i].value = 0.6 * k;
        c->cystine.k[i].value = 0.1 * k;
    }
}

static void melanins_in_step(check_bench *b)
{
    for (int h = 0; h < b->scene.n_hairs; h++) {
        b->hairs[h].pool[SL_PHEOMELANIN][SL_BOUND] = 0.35 * b->hairs[h].pool[SL_EUMELANIN][SL_BOUND];
    }
}

/* The pH is that of the same mix without its peroxide. */
static void peroxide_no_acid(check_bench *b)
{
    const double pct = b->mix.developer_pct;
    b->mix.developer_pct = 0;
    sl_mix_settle(&b->mix, &b->scene.chemistry);
    b->mix.developer_pct = pct;
}

static void ph_constant(check_bench *b)
{
    b->mix.ph_fall_per_min = 0;
}

/* A pH that nobody computed, as the mixes had it that were typed before: about 10 of a powder, a little more
 * with developer, 9.8 of a cream. */
static void ph_typed(check_bench *b)
{
    sl_mix *const mix = &b->mix;
    if (mix->ph_computed) {
        mix->ph_computed = false;
        mix->ph.value = mix->powder_parts > 0 ? (mix->developer_parts > 0 ? 10.1 : 10.0) : 9.8;
        mix->ph_kj_mol = SL_TYPED_PH_KJ_MOL;
        mix->ph_fall_per_min = 0;
    }
}

/* As it was before: in the energies that were measured, and again in the pKa; the pH as at 25 C. */
static void ionised_twice(check_bench *b)
{
    static const double before[SL_CHANNELS] = {62, 60, 70};
    b->mix.ph_kj_mol = 0;
    for (int c = 0; c < SL_CHANNELS; c++) {
        b->scene.chemistry.channel_activation_kj_mol[c].value = before[c];
    }
}

static void no_heat(check_bench *b)
{
    b->scene.chemistry.mix_heat_j_g_k.value = 0;
}

static void warms(check_bench *b)
{
    b->warms = true;
}

static void no_alkali(check_bench *b)
{
    for (int i = 0; i < SL_INGREDIENTS; i++) {
        b->mix.holds[SL_OF_POWDER][i].value = 0;
        b->mix.holds[SL_OF_WATER][i].value = 0;
    }
    sl_mix_settle(&b->mix, &b->scene.chemistry);
}

static void no_percarbonate(check_bench *b)
{
    b->mix.percarbonate = 0;
    sl_mix_settle(&b->mix, &b->scene.chemistry);
}

/* A fibre hinders nothing: every dye meets HO2- as an azo dye does in water. */
static void as_in_water(check_bench *b)
{
    for (int d = 0; d < b->scene.n_dyes; d++) {
        b->dyes[d].rates.k[SL_PERHYDROXYL].value = CHECK_AZO_IN_WATER;
    }
}

static void no_ascorbate(check_bench *b)
{
    for (int d = 0; d < b->scene.n_dyes; d++) {
        b->dyes[d].reduced[SL_REDUCTANT_ASCORBATE].value = 0;
    }
}

static void agents_alike(check_bench *b)
{
    for (int d = 0; d < b->scene.n_dyes; d++) {
        for (int agent = 0; agent < SL_REDUCTANTS; agent++) {
            b->dyes[d].reduced[agent].value = b->dyes[d].reduced[SL_REDUCTANT_ASCORBATE].value;
        }
    }
}

static void first_order(check_bench *b)
{
    for (int agent = 0; agent < SL_REDUCTANTS; agent++) {
        b->scene.chemistry.reductant[agent].order.value = 1;
    }
}

static void never_back(check_bench *b)
{
    for (int d = 0; d < b->scene.n_dyes; d++) {
        b->dyes[d].air_return_per_min.value = b->dyes[d].oxidant_return_l_mol_min.value = 0;
    }
}

const check_null CHECK_NO_DAMAGE = {"no damage", no_damage};
const check_null CHECK_NO_LAYER = {"damage that never slows", no_layer};
const check_null CHECK_NO_OPENING = {"damage opens nothing", no_opening};
const check_null CHECK_ONE_OPENING = {"one cause of opening", one_opening};
const check_null CHECK_NO_SWELLING = {"neither swelling nor damage opens", no_swelling};
const check_null CHECK_NO_PERSULFATE = {"persulfate does nothing", no_persulfate};
const check_null CHECK_NO_PEROXIDE = {"peroxide does nothing", no_peroxide};
const check_null CHECK_NO_LOSS = {"oxidants keep", no_loss};
const check_null CHECK_LOSS_FIRST_ORDER = {"loss of first order", loss_first_order};
const check_null CHECK_NO_PH = {"every mix of pH 10", no_ph};
const check_null CHECK_NO_TEMPERATURE = {"no temperature dependence", no_temperature};
const check_null CHECK_NO_STRENGTH = {"every strength 6 %", no_strength};
const check_null CHECK_NO_SATURATION = {"no saturation", no_saturation};
const check_null CHECK_NO_WASHING = {"washing takes nothing", no_washing};
const check_null CHECK_ONE_PART = {"washing in one part", one_part};
const check_null CHECK_DYES_ALIKE = {"every dye alike", dyes_alike};
const check_null CHECK_DAMAGE_BY_LIFT = {"damage follows lift", damage_by_lift};
const check_null CHECK_MELANINS_IN_STEP = {"pheomelanin a fixed part of eumelanin", melanins_in_step};
const check_null CHECK_PEROXIDE_NO_ACID = {"peroxide is no acid", peroxide_no_acid};
const check_null CHECK_PH_CONSTANT = {"pH typed, constant", ph_constant};
const check_null CHECK_PH_TYPED = {"pH typed, as it was", ph_typed};
const check_null CHECK_IONISED_TWICE = {"ionisation counted twice, as it was", ionised_twice};
const check_null CHECK_NO_HEAT = {"no heat of reaction", no_heat};
const check_null CHECK_WARMS = {"the held temperature: mixes warm themselves", warms};
const check_null CHECK_NO_PERSULFATE_ITSELF = {"persulfate does nothing by itself", no_persulfate_itself};
const check_null CHECK_NO_RADICALS = {"peroxide and persulfate do nothing together", no_radicals};
const check_null CHECK_NO_ALKALI = {"the powder without its alkali", no_alkali};
const check_null CHECK_NO_PERCARBONATE = {"the powder without its percarbonate", no_percarbonate};
const check_null CHECK_AS_IN_WATER = {"dyes react in hair as in water", as_in_water};

const check_null CHECK_NO_ASCORBATE = {"ascorbate does nothing", no_ascorbate};
const check_null CHECK_AGENTS_ALIKE = {"every reductant alike", agents_alike};
const check_null CHECK_FIRST_ORDER = {"first order in both", first_order};
const check_null CHECK_NEVER_BACK = {"colourless for good", never_back};

const check_null *const CHECK_NULLS[] = {&CHECK_NO_DAMAGE,
                                         &CHECK_NO_LAYER,
                                         &CHECK_NO_OPENING,
                                         &CHECK_ONE_OPENING,
                                         &CHECK_NO_SWELLING,
                                         &CHECK_NO_PERSULFATE,
                                         &CHECK_NO_PERSULFATE_ITSELF,
                                         &CHECK_NO_RADICALS,
                                         &CHECK_NO_PEROXIDE,
                                         &CHECK_NO_LOSS,
                                         &CHECK_LOSS_FIRST_ORDER,
                                         &CHECK_NO_PH,
                                         &CHECK_NO_TEMPERATURE,
                                         &CHECK_NO_STRENGTH,
                                         &CHECK_NO_SATURATION,
                                         &CHECK_NO_WASHING,
                                         &CHECK_ONE_PART,
                                         &CHECK_DYES_ALIKE,
                                         &CHECK_DAMAGE_BY_LIFT,
                                         &CHECK_MELANINS_IN_STEP,
                                         &CHECK_PEROXIDE_NO_ACID,
                                         &CHECK_PH_CONSTANT,
                                         &CHECK_NO_ALKALI,
                                         &CHECK_NO_PERCARBONATE,
                                         &CHECK_AS_IN_WATER,
                                         &CHECK_PH_TYPED,
                                         &CHECK_IONISED_TWICE,
                                         &CHECK_NO_HEAT,
                                         &CHECK_WARMS,
                                         &CHECK_NO_ASCORBATE,
                                         &CHECK_AGENTS_ALIKE,
                                         &CHECK_FIRST_ORDER,
                                         &CHECK_NEVER_BACK,
                                         NULL};
