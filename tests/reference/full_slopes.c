/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Equations: docs/science.md, "The system", "Phases of a strip", "Washing", "Melanin".
 */
#include "full_slopes.h"

#include <math.h>
#include <string.h>

static const double GAS_KJ = 8.314462618e-3; /* kJ/(mol K), CODATA 2018 */
static const double KELVIN_AT_0_C = 273.15;

/* ---- constants at a temperature ------------------------------------------------- */

static double quickened(double kj_mol, double kelvin)
{
    return exp(-kj_mol / GAS_KJ * (1 / kelvin - 1 / 305.15));
}

static double ionised(const sl_chemistry *c, double ph, double kelvin)
{
    const double pka =
        c->pka_25c.value + c->pka_enthalpy_kj_mol.value / (GAS_KJ * log(10.0)) * (1 / kelvin - 1 / 298.15);
    return 1 / (1 + pow(10, pka - ph));
}

static double rate_of(const sl_chemistry *c, const sl_rates *rates, int channel, double kelvin)
{
    const double energy = rates->own_activation[channel] ? rates->activation_kj_mol[channel]
                                                         : c->channel_activation_kj_mol[channel].value;
    return rates->k[channel].value * quickened(energy, kelvin);
}

/* A temperature that was measured has the mix's own warmth in it. */
static double warmth_of(const ref_stretch *s, const double *y)
{
    const bool lies = s->kind == REF_BOWL || (s->kind == REF_ON_HAIR && s->setup->scene->n_points == 0);
    return s->warms && lies ? y[REF_WARMTH] : 0;
}

static double kelvin_at(const ref_stretch *s, double t, const double *y)
{
    const sl_scene *scene = s->setup->scene;
    if (s->kind == REF_BOWL) {
        return scene->chemistry.bowl_c.value + KELVIN_AT_0_C + warmth_of(s, y);
    }
    double celsius = scene->room_c;
    if (scene->n_points > 0) {
        const sl_course_point *p = scene->points;
        const int last = scene->n_points - 1;
        int i = 0;
        while (i < last && p[i + 1].time_min < t) {
            i++;
        }
        if (t <= p[0].time_min) {
            celsius = p[0].temperature_c;
        } else if (i == last) {
            celsius = p[last].temperature_c;
        } else {
            const double along = (t - p[i].time_min) / (p[i + 1].time_min - p[i].time_min);
            celsius = p[i].temperature_c + along * (p[i + 1].temperature_c - p[i].temperature_c);
        }
    } else if (scene->place == SL_PLACE_HEAD) {
        celsius = scene->chemistry.head_c.value;
    } else if (scene->place == SL_PLACE_WRAPPED) {
        celsius = scene->chemistry.head_c.value +
                  scene->chemistry.wrapped_rise_k.value *
                      (1 - exp(-(t - s->last_contact) / scene->chemistry.wrapped_time_min.value));
    }
    return celsius + scene->shift_k + KELVIN_AT_0_C + warmth_of(s, y);
}

/* ---- charge ----------------------------------------------------------------------- */

static double molar_mass(sl_reductant_id agent) /* g/mol, from the formulas */
{
    const double C = 12.011, H = 1.008, N = 14.007, O = 15.999, Na = 22.990, S = 32.06;
    switch (agent) {
    case SL_REDUCTANT_SULFITE:
        return 2 * Na + S + 3 * O;
    case SL_REDUCTANT_SULFINATE:
        return C + 4 * H + 2 * N + 2 * O + S;
    case SL_REDUCTANT_HYDROXYMETHANESULFINATE:
        return C + 3 * H + Na + 3 * O + S;
    case SL_REDUCTANT_ASCORBATE:
        return 6 * C + 8 * H + 6 * O;
    case SL_REDUCTANT_THIOL:
        return 3 * C + 7 * H + N + 2 * O + S;
    case SL_REDUCTANT_DITHIONITE:
        return 2 * Na + 2 * S + 4 * O;
    case SL_REDUCTANTS:
        break;
    }
    return NAN;
}

ref_charge ref_mix_charge(const sl_chemistry *c, const sl_mix *mix, double mix_g_per_g, double hair_water_g_g)
{
    const double paste = mix->powder_parts + mix->developer_parts + mix->water_parts;
    const double from_hair = hair_water_g_g / mix_g_per_g * paste; /* parts of water */
    const double liquid = mix->developer_parts + mix->water_parts + from_hair;
    const double powder_g_l = 1000 * mix->powder_parts * mix->activity / liquid;
    const double potassium = powder_g_l * mix->potassium_persulfate / 270.3;
    const double others =
        powder_g_l * mix->ammonium_persulfate / 228.2 + powder_g_l * mix->sodium_persulfate / 238.1;
    const double product = 4 * pow(c->potassium_solubility_mol_l.value, 3);
    double low = 0;
    double high = 10;
    for (int i = 0; i < 200; i++) { /* root of 4 x^2 (others + x) = product, which rises with x */
        const double x = (low + high) / 2;
        if (4 * x * x * (others + x) < product) {
            low = x;
        } else {
            high = x;
        }
    }
    const double dissolved = fmin(potassium, low);
    return (ref_charge){
        .peroxide = 10 * mix->developer_pct / 34.0147 * mix->developer_parts / liquid +
                    1.5 * powder_g_l * mix->percarbonate / 157.01,
        .persulfate = others + dissolved,
        .solid = potassium - dissolved,
        .saturation = others + low,
        .liquid_ml_g = liquid * mix_g_per_g / paste,
        .reductant = 1000 * mix->reductant_share * paste / liquid / molar_mass(mix->reductant),
    };
}

/* ---- the right-hand side -------------------------------------------------------------- */

int ref_zone_dyes(int z)
{
    return REF_SHARED + z * REF_PER_ZONE;
}
double ref_dye_left(const double *dye)
{
    return dye[0] + dye[1] + dye[2] + dye[3];
}

int ref_zone_melanin(int z)
{
    return ref_zone_dyes(z) + REF_PER_DYE * SL_MAX_DYES_PER_ZONE;
}
int ref_zone_pale(int z)
{
    return ref_zone_melanin(z) + SL_MELANINS * SL_STAGES;
}
int ref_n_states(const ref_setup *setup)
{
    return ref_zone_dyes(setup->n_zones);
}

int ref_dyes_of(const ref_setup *setup, int z)
{
    return setup->arm->undyed ? 0 : setup->scene->zones[setup->zone[z]].recipe.n_dyes;
}

/* The pH falls with the mix's age, counted from mixing. */
static double ph_of_mix(const ref_stretch *s, double T)
{
    const double fall = s->mix != NULL ? s->mix->ph_fall_per_min * s->pace.mix_age /
                                             (1 + s->mix->ph_fades_per_min * s->pace.mix_age)
                                       : 0;
    return s->mix != NULL
               ? s->mix->ph.value - fall + s->mix->ph_kj_mol / GAS_KJ / log(10.0) * (1 / T - 1 / 298.15)
               : s->setup->scene->chemistry.rest_ph.value;
}

static double ph_of_fibre(const ref_stretch *s, double T)
{
    const sl_chemistry *c = &s->setup->scene->chemistry;
    return s->kind == REF_RESTING || s->mix == NULL ? c->rest_ph.value
                                                    : ph_of_mix(s, T) - c->fibre_ph_drop.value;
}

static void rates_of(const sl_chemistry *c, const sl_rates *rates, double kelvin, double k[SL_CHANNELS])
{
    for (int j = 0; j < SL_CHANNELS; j++) {
        k[j] = rate_of(c, rates, j, kelvin);
    }
}

static void set_pigment_pace(ref_stretch *s, double T)
{
    const sl_scene *scene = s->setup->scene;
    for (int kind = 0; kind < SL_MELANINS; kind++) {
        rates_of(&scene->chemistry, &scene->chemistry.melanin[kind].rates, T, s->pace.melanin[kind]);
    }
    for (int z = 0; z < s->setup->n_zones; z++) {
        const sl_recipe *recipe = &scene->zones[s->setup->zone[z]].recipe;
        for (int i = 0; i < ref_dyes_of(s->setup, z); i++) {
            rates_of(&scene->chemistry, &scene->dyes[recipe->dye[i]].rates, T, s->pace.dye[z][i]);
        }
    }
}

static void set_pace(ref_stretch *s, double T)
{
    const sl_chemistry *c = &s->setup->scene->chemistry;
    const double r = c->fibre_radius_um.value * 1e-4;
    s->pace.kelvin = T;
    s->pace.share_mix = ionised(c, ph_of_mix(s, T), T);
    s->pace.share_fibre = ionised(c, ph_of_fibre(s, T), T);
    s->pace.loss = quickened(c->loss_activation_kj_mol.value, T);
    s->pace.couple = c->couple_l_mol_min.value * quickened(c->couple_activation_kj_mol.value, T);
    s->pace.hydrolysis = c->hydrolysis_per_min.value * quickened(c->hydrolysis_activation_kj_mol.value, T) *
                         pow(10, ph_of_mix(s, T) - 10.3);
    s->pace.thermal = c->thermal_per_min.value * quickened(c->thermal_activation_kj_mol.value, T);
    s->pace.exchange =
        s->porosity * 5.783 / (r * r) * 60 * quickened(c->diffusion_activation_kj_mol.value, T);
    for (int j = 0; j < SL_CHANNELS; j++) {
        s->pace.channel[j] = quickened(c->channel_activation_kj_mol[j].value, T);
    }
    rates_of(c, &c->cystine, T, s->pace.cystine);
    set_pigment_pace(s, T);
}

/* What pigments meet now: activities without temperature factor, and how fast washing goes on. */
typedef struct ref_attack {
    double fade; /* f of the document */
    double rim[SL_CHANNELS], core[SL_CHANNELS];
    double leach, shampoo; /* d(leach_min)/dt, d(shampoos)/dt */
    double taken[2];       /* pigment feedback: from h and from p, without f */
} ref_attack;

static double met(const double k[SL_CHANNELS], const double activity[SL_CHANNELS])
{
    return k[0] * activity[0] + k[1] * activity[1] + k[2] * activity[2];
}

static void feed_back(ref_attack *a, double held, const double k[SL_CHANNELS])
{
    const double radical = k[SL_RADICAL] * a->core[SL_RADICAL] / 2;
    a->taken[0] += held * (k[SL_PERHYDROXYL] * a->core[SL_PERHYDROXYL] + radical);
    a->taken[1] += held * (k[SL_PERSULFATE] * a->core[SL_PERSULFATE] + radical);
}

static void dye_slopes(const ref_stretch *s, int z, ref_attack *a, const double *y, double *dy)
{
    const sl_chemistry *c = &s->setup->scene->chemistry;
    const sl_recipe *recipe = &s->setup->scene->zones[s->setup->zone[z]].recipe;
    for (int i = 0; i < ref_dyes_of(s->setup, z); i++) {
        const sl_dye *dye = &s->setup->scene->dyes[recipe->dye[i]];
        const double *k = s->pace.dye[z][i];
        const int at = ref_zone_dyes(z) + REF_PER_DYE * i;
        for (int part = 0; part < 2; part++) {
            const double each = part == 0 ? dye->shampoo_loss.value : dye->loose_loss.value;
            const double wash = dye->leach_per_min.value * a->leach + each * a->shampoo;
            const int rim = at + part;
            const int core = at + 2 + part;
            dy[rim] = -(met(k, a->rim) + wash) * y[rim];
            dy[core] = -(a->fade * met(k, a->core) + wash / 4) * y[core];
            if (c->pigment_feedback) { /* the share that oxidation alone has left drives the feedback */
                const double washed =
                    exp(-(dye->leach_per_min.value * y[REF_LEACH] + each * y[REF_SHAMPOOS]) / 4);
                feed_back(
                    a, c->dye_mol_l.value * recipe->strength[i] * c->dye_oxidant.value * y[core] / washed, k);
            }
        }
    }
}

static void melanin_slopes(const ref_stretch *s, int z, ref_attack *a, const double *y, double *dy)
{
    const sl_chemistry *c = &s->setup->scene->chemistry;
    for (int kind = 0; kind < SL_MELANINS; kind++) {
        const sl_melanin *m = &c->melanin[kind];
        const double *b = y + ref_zone_melanin(z) + kind * SL_STAGES;
        double *db = dy + ref_zone_melanin(z) + kind * SL_STAGES;
        const double o = a->fade * met(s->pace.melanin[kind], a->core);
        db[SL_BOUND] = -o * b[SL_BOUND];
        db[SL_OPENED] = o * b[SL_BOUND] - m->opened_ratio.value * o * b[SL_OPENED];
        db[SL_YELLOW] = o * (m->opened_ratio.value * b[SL_OPENED] - m->yellow_ratio.value * b[SL_YELLOW]);
        if (c->pigment_feedback) {
            feed_back(a, m->held_mol_l.value * b[SL_BOUND], s->pace.melanin[kind]);
        }
    }
}

static void bath_slopes(const ref_stretch *s, const double *y, double *dy, const double flux[2])
{
    const sl_chemistry *c = &s->setup->scene->chemistry;
    const double H = y[REF_PEROXIDE];
    const double P = y[REF_PERSULFATE];
    const double U = y[REF_SOLID];
    const double loss = s->mix->loss_l_mol_min.value > 0 ? s->mix->loss_l_mol_min.value * H * H
                                                         : s->mix->loss_per_min.value * H;
    const double coupled = s->pace.couple * s->pace.share_mix * H * P;
    const double hydrolysed = s->pace.hydrolysis * P;
    const double short_of = s->saturation - P;
    const double dissolving =
        short_of > 0 && U > 0 ? c->dissolve_per_min.value * short_of * U / (U + c->dissolve_half_mol_l.value)
                              : 0;
    const double away = s->kind == REF_WATER ? c->rinse_per_min.value : 0;
    dy[REF_PEROXIDE] = -loss * s->pace.loss - coupled + hydrolysed - s->phi * flux[0] - away * H;
    dy[REF_PERSULFATE] =
        -coupled - hydrolysed - s->pace.thermal * P + dissolving - s->phi * flux[1] - away * P;
    dy[REF_SOLID] = -dissolving - away * U;
}

static double exchange(const ref_stretch *s, double t, const double *y)
{
    const sl_chemistry *c = &s->setup->scene->chemistry;
    const double swelling =
        1 - c->swelling_deficit.value * exp(-(t - s->first_contact) / c->swelling_time_min.value);
    const double lost = 1 - y[REF_CYSTINE];
    const double bare = 1 - exp(-c->lipids_loss.value * y[REF_RIM + SL_RADICAL]);
    const double opened =
        1 + c->damage_opens.value * lost / (lost + c->damage_half.value) + c->lipids_open.value * bare;
    return s->pace.exchange * swelling * opened * y[REF_WETNESS];
}

static void dose_slopes(const ref_stretch *s, const ref_attack *a, double *dy)
{
    for (int j = 0; j < SL_CHANNELS; j++) {
        dy[REF_RIM + j] = s->pace.channel[j] * a->rim[j];
        dy[REF_CORE + j] = a->fade * s->pace.channel[j] * a->core[j];
    }
    dy[REF_LEACH] = a->leach;
    dy[REF_SHAMPOOS] = a->shampoo;
}

static ref_attack attack_now(const ref_stretch *s, const double *y)
{
    const sl_chemistry *c = &s->setup->scene->chemistry;
    const bool rests = s->kind == REF_RESTING;
    const double u = s->pace.share_mix * y[REF_PEROXIDE];
    const double v = s->pace.share_fibre * y[REF_FIBRE_PEROXIDE];
    const double u_sat = u / (1 + u / c->saturation_mol_l.value);
    const double v_sat = v / (1 + v / c->saturation_mol_l.value);
    const double W = y[REF_WETNESS];
    const double P = y[REF_PERSULFATE];
    const double p = y[REF_FIBRE_PERSULFATE];
    return (ref_attack){
        .fade = rests ? W : 1,
        .rim = {rests ? 0 : u_sat * W, rests ? 0 : P * W, rests ? 0 : u_sat * P * W},
        .core = {v_sat, p, v_sat * p},
        .leach = s->kind == REF_ON_HAIR ? W
                 : s->kind == REF_WATER ? c->rinse_leach.value
                                        : 0,
        .shampoo = s->shampoo ? 1 : 0,
    };
}

static void fibre_slopes(const ref_stretch *s, const ref_attack *a, const double *y, double *dy,
                         const double flux[2])
{
    const sl_chemistry *c = &s->setup->scene->chemistry;
    const double h = y[REF_FIBRE_PEROXIDE];
    const double p = y[REF_FIBRE_PERSULFATE];
    const double q =
        met(s->pace.cystine, a->core) * y[REF_CYSTINE] / (1 + (1 - y[REF_CYSTINE]) / c->cystine_layer.value);
    const double spent = c->oxidant_per_cystine.value * c->cystine_mol_l.value * q;
    const double share = h + p > 0 ? h / (h + p) : 0.5;
    const double coupled = s->pace.couple * s->pace.share_fibre * h * p;
    const double lost_h = c->fibre_loss_per_min.value * s->pace.loss * h;
    dy[REF_FIBRE_PEROXIDE] = flux[0] - a->fade * (lost_h + coupled + spent * share + a->taken[0]);
    dy[REF_FIBRE_PERSULFATE] = flux[1] - a->fade * (coupled + spent * (1 - share) + a->taken[1]);
    dy[REF_CYSTINE] = -a->fade * q;
}

/* ---- heat --------------------------------------------------------------------------------- */

void ref_mean_hair(const sl_scene *scene, double *porosity, double *cystine)
{
    *porosity = *cystine = scene->n_zones > 0 ? 0 : 1;
    for (int z = 0; z < scene->n_zones; z++) {
        *porosity += scene->hairs[scene->zones[z].hair].porosity / scene->n_zones;
        *cystine += scene->hairs[scene->zones[z].hair].cystine_intact / scene->n_zones;
    }
}

double ref_capacity(const sl_chemistry *c, const sl_step *step)
{
    return step->mix_g_per_g * c->mix_heat_j_g_k.value + step->hair_water_g_g * 4.18;
}

/* kJ per min and litre of mix, reaction by reaction; exchange with hair and rinsing give none. */
static double heat_of_bath(const ref_stretch *s, const double *y)
{
    const sl_chemistry *c = &s->setup->scene->chemistry;
    const double H = y[REF_PEROXIDE], P = y[REF_PERSULFATE], U = y[REF_SOLID];
    const double of_h = c->peroxide_heat_kj_mol.value, of_p = c->persulfate_heat_kj_mol.value;
    const double loss =
        s->pace.loss * (s->mix->loss_l_mol_min.value > 0 ? s->mix->loss_l_mol_min.value * H * H
                                                         : s->mix->loss_per_min.value * H);
    const double dissolving = s->saturation > P && U > 0 ? c->dissolve_per_min.value * (s->saturation - P) *
                                                               U / (U + c->dissolve_half_mol_l.value)
                                                         : 0;
    return of_h * loss + (of_h + of_p) * s->pace.couple * s->pace.share_mix * H * P +
           (of_p - of_h) * s->pace.hydrolysis * P + of_p * s->pace.thermal * P -
           c->dissolving_heat_kj_mol.value * dissolving;
}

/* And of the fibre's water. */
static double heat_of_fibre(const ref_stretch *s, const ref_attack *a, const double *y)
{
    const sl_chemistry *c = &s->setup->scene->chemistry;
    const double h = y[REF_FIBRE_PEROXIDE], p = y[REF_FIBRE_PERSULFATE];
    const double of_h = c->peroxide_heat_kj_mol.value, of_p = c->persulfate_heat_kj_mol.value;
    const double q =
        met(s->pace.cystine, a->core) * y[REF_CYSTINE] / (1 + (1 - y[REF_CYSTINE]) / c->cystine_layer.value);
    const double spent = c->oxidant_per_cystine.value * c->cystine_mol_l.value * q;
    const double share = h + p > 0 ? h / (h + p) : 0.5;
    return of_h * c->fibre_loss_per_min.value * s->pace.loss * h +
           (of_h + of_p) * s->pace.couple * s->pace.share_fibre * h * p +
           spent * (share * of_h + (1 - share) * of_p + c->sulfur_heat_kj_mol.value);
}

/* The mean hair beside the zone's own, at the same temperature, and the warmth that both have of it. */
static void warmth_slopes(ref_stretch *s, double t, const double *y, double *dy)
{
    const sl_scene *scene = s->setup->scene;
    const sl_chemistry *c = &scene->chemistry;
    const bool in_bowl = s->kind == REF_BOWL;
    double mean[REF_SHARED] = {0}, slope[REF_SHARED] = {0}, flux[2] = {0, 0}, porosity = 1, cystine = 1;
    memcpy(mean, in_bowl ? y : y + REF_MEAN, REF_CORE * sizeof *mean);
    ref_mean_hair(scene, &porosity, &cystine);
    if (s->kind == REF_ON_HAIR || s->kind == REF_WATER) {
        const double g = exchange(s, t, mean) * porosity / s->porosity;
        flux[0] = g * c->peroxide_diffusion_cm2_s.value * (mean[REF_PEROXIDE] - mean[REF_FIBRE_PEROXIDE]);
        flux[1] = g * c->persulfate_diffusion_cm2_s.value *
                  (c->persulfate_partition.value * mean[REF_PERSULFATE] - mean[REF_FIBRE_PERSULFATE]);
    }
    const ref_attack attack = attack_now(s, mean);
    if (!in_bowl) {
        if (s->kind != REF_RESTING && s->mix != NULL) {
            bath_slopes(s, mean, slope, flux);
        }
        fibre_slopes(s, &attack, mean, slope, flux);
        dose_slopes(s, &attack, slope);
        slope[REF_WETNESS] = dy[REF_WETNESS];
        memcpy(dy + REF_MEAN, slope, REF_CORE * sizeof *dy);
    }
    if (s->kind == REF_RESTING || s->kind == REF_WATER || (!in_bowl && scene->n_points > 0)) {
        return;
    }
    const bool bare = !s->step->covered && scene->place != SL_PLACE_WRAPPED;
    const double above = in_bowl || bare ? c->open_loss_w_m2_k.value : c->covered_loss_w_m2_k.value;
    const double below = in_bowl                          ? 0
                         : scene->place == SL_PLACE_BENCH ? c->bench_loss_w_m2_k.value
                                                          : c->head_loss_w_m2_k.value;
    const double area_m2_g =
        1e-4 * (in_bowl ? s->step->mix_g_per_g * c->bowl_area_cm2_g.value : c->layer_area_cm2_g.value);
    const double capacity = ref_capacity(c, s->step) + (in_bowl ? 0 : c->hair_heat_j_g_k.value);
    const double liquid_ml_g =
        ref_mix_charge(c, s->mix, s->step->mix_g_per_g, s->step->hair_water_g_g).liquid_ml_g;
    const double watt_min = liquid_ml_g * heat_of_bath(s, mean) +
                            (in_bowl ? 0 : c->fibre_water_ml_g.value * heat_of_fibre(s, &attack, mean));
    dy[REF_WARMTH] = (watt_min - 60 * (above + below) * area_m2_g * y[REF_WARMTH]) / capacity;
    s->most_k = fmax(s->most_k, fabs(y[REF_WARMTH]));
}

/* ---- arms with a reducing agent ------------------------------------------------------------ */

/* Which agent an arm puts on; NULL: none. */
static const sl_reductant *agent_of(const ref_stretch *s, int *id)
{
    const sl_arm *arm = s->setup->arm;
    for (int i = 0; i < arm->n_steps; i++) {
        const sl_mix *mix = &s->setup->scene->mixes[arm->steps[i].mix];
        if (arm->steps[i].kind == SL_STEP_APPLY && mix->reductant_share > 0) {
            *id = (int)mix->reductant;
            return &s->setup->scene->chemistry.reductant[*id];
        }
    }
    return NULL;
}

/* (R + 1e-4)^(n-1) R */
static double driven(const sl_reductant *agent, double R)
{
    return R > 0 ? R * pow(R + 1e-4, agent->order.value - 1) : 0;
}

static void pale_slopes(const ref_stretch *s, const ref_attack *a, const double reduced[2],
                        const double back[2][2], int id, const double *y, double *dy)
{
    for (int z = 0; z < s->setup->n_zones; z++) {
        const sl_recipe *recipe = &s->setup->scene->zones[s->setup->zone[z]].recipe;
        for (int i = 0; i < ref_dyes_of(s->setup, z); i++) {
            const sl_dye *dye = &s->setup->scene->dyes[recipe->dye[i]];
            for (int part = 0; part < REF_PER_DYE;
                 part++) { /* held, loose at the rim; held, loose in the core */
                const int place = part / 2, at = ref_zone_dyes(z) + REF_PER_DYE * i + part;
                const int pale = ref_zone_pale(z) + REF_PER_DYE * i + part;
                const double each = part % 2 == 0 ? dye->shampoo_loss.value : dye->loose_loss.value;
                const double wash = dye->leach_per_min.value * a->leach + each * a->shampoo;
                const double lost = dye->reduced[id].value * reduced[place] * y[at];
                const double came = (dye->air_return_per_min.value * back[place][0] +
                                     dye->oxidant_return_l_mol_min.value * back[place][1]) *
                                    y[pale];
                dy[at] += came - lost;
                dy[pale] = dye->leuco_share.value * lost - came - (place == 0 ? wash : wash / 4) * y[pale];
            }
        }
    }
}

static void reduction_slopes(const ref_stretch *s, double t, const ref_attack *a, const double *y, double *dy)
{
    const sl_chemistry *c = &s->setup->scene->chemistry;
    int id = 0;
    const sl_reductant *agent = agent_of(s, &id);
    if (agent == NULL) {
        return;
    }
    const double pace = quickened(agent->activation_kj_mol.value, s->pace.kelvin);
    const double back = quickened(c->return_activation_kj_mol.value, s->pace.kelvin);
    const bool on_hair = s->kind == REF_ON_HAIR || s->kind == REF_WATER,
               in_bath = on_hair || s->kind == REF_BOWL;
    const double R = y[REF_REDUCTANT], r = y[REF_FIBRE_REDUCTANT], W = y[REF_WETNESS];
    const double air = s->kind == REF_ON_HAIR && s->covered ? 0 : 1;
    const double oxidants = y[REF_PEROXIDE] + y[REF_PERSULFATE];
    const double inside = y[REF_FIBRE_PEROXIDE] + y[REF_FIBRE_PERSULFATE];
    const double meet = pace * agent->meet_l_mol_min.value, each = agent->oxidant_per_mol.value;
    const double flux = on_hair ? exchange(s, t, y) * agent->diffusion_cm2_s.value * (R - r) : 0;
    if (in_bath) {
        dy[REF_REDUCTANT] = -pace * agent->air_loss_per_min.value * air * R - meet * R * oxidants -
                            s->phi * flux - (s->kind == REF_WATER ? c->rinse_per_min.value * R : 0);
        dy[REF_PEROXIDE] -= each * meet * R * y[REF_PEROXIDE];
        dy[REF_PERSULFATE] -= each * meet * R * y[REF_PERSULFATE];
    }
    if (s->kind == REF_BOWL) {
        return;
    }
    const double f = a->fade;
    const double opened = f * pace * agent->cystine_l_mol_min.value * r * y[REF_CYSTINE] /
                          (1 + (1 - y[REF_CYSTINE]) / c->cystine_layer.value);
    dy[REF_FIBRE_PEROXIDE] -= f * each * meet * r * y[REF_FIBRE_PEROXIDE];
    dy[REF_FIBRE_PERSULFATE] -= f * each * meet * r * y[REF_FIBRE_PERSULFATE];
    dy[REF_CYSTINE] -= opened;
    dy[REF_FIBRE_REDUCTANT] = flux - f * pace * agent->air_loss_per_min.value * air * r -
                              f * meet * r * inside -
                              agent->per_cystine.value * c->cystine_mol_l.value * opened;
    const double reduced[2] = {on_hair ? pace * driven(agent, R) * W : 0, f * pace * driven(agent, r)};
    const double returns[2][2] = {{back * air, on_hair ? back * oxidants * W : 0},
                                  {back * air, back * f * inside}};
    pale_slopes(s, a, reduced, returns, id, y, dy);
}

void ref_slopes(ref_stretch *s, double t, const double *y, double *dy)
{
    const ref_setup *setup = s->setup;
    const sl_chemistry *c = &setup->scene->chemistry;
    const double T = kelvin_at(s, t, y);
    const bool changes = s->kind != REF_RESTING && s->mix != NULL && fabs(s->mix->ph_fall_per_min) > 0;
    const double age = changes ? t - s->mixed : 0;
    if (T < s->pace.kelvin || T > s->pace.kelvin || age < s->pace.mix_age || age > s->pace.mix_age) {
        s->pace.mix_age = age;
        set_pace(s, T);
    }
    memset(dy, 0, (size_t)ref_n_states(setup) * sizeof *dy);
    double flux[2] = {0, 0};
    if (s->kind == REF_ON_HAIR || s->kind == REF_WATER) {
        const double g = exchange(s, t, y);
        flux[0] = g * c->peroxide_diffusion_cm2_s.value * (y[REF_PEROXIDE] - y[REF_FIBRE_PEROXIDE]);
        flux[1] = g * c->persulfate_diffusion_cm2_s.value *
                  (c->persulfate_partition.value * y[REF_PERSULFATE] - y[REF_FIBRE_PERSULFATE]);
    }
    if (s->kind != REF_RESTING && s->mix != NULL) {
        bath_slopes(s, y, dy, flux);
    }
    if (s->kind == REF_BOWL) {
        if (s->warms) {
            warmth_slopes(s, t, y, dy);
        }
        const ref_attack none = {0};
        reduction_slopes(s, t, &none, y, dy);
        return;
    }
    ref_attack attack = attack_now(s, y);
    for (int z = 0; z < setup->n_zones; z++) {
        dye_slopes(s, z, &attack, y, dy);
        melanin_slopes(s, z, &attack, y, dy);
    }
    fibre_slopes(s, &attack, y, dy, flux);
    dose_slopes(s, &attack, dy);
    reduction_slopes(s, t, &attack, y, dy);
    if (s->kind == REF_RESTING) {
        dy[REF_WETNESS] = -c->rest_dry_per_min.value * y[REF_WETNESS];
    } else if (s->kind == REF_ON_HAIR && !s->covered) {
        dy[REF_WETNESS] = -c->dry_per_min.value * y[REF_WETNESS];
    }
    if (s->warms) {
        warmth_slopes(s, t, y, dy);
    }
}
