/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See slopes.h: what is settled once a phase, before any slope is asked for.
 */
#include "kinetics/slopes.h"

static const double FIRST_MODE = 5.783; /* square of the first zero of J0: diffusion out of a cylinder */
static const double SECONDS_PER_MIN = 60.0, CM_PER_UM = 1e-4;

#define UNCHANGED(name, unchanged, grade, width, what, measure) [SL_DOUBT_##name] = {unchanged},
#define UNDIVIDED(NAME, ...) [SL_##NAME] = {1.0},
const lane_members lane_of_scene = {.by = {SL_DOUBT_LIST(UNCHANGED) SL_DOUBT_AGENT_LIST(UNCHANGED)},
                                    .cystine_by = {SL_CHANNEL_LIST(UNDIVIDED)},
                                    .melanin_by = {SL_CHANNEL_LIST(UNDIVIDED)}};
#undef UNCHANGED
#undef UNDIVIDED

double lane_temperature_k(const sl_scene *scene, const sl_arm *arm, const mix_course *mix, const phase *here,
                          double since_contact_min, hermite_piece *read)
{
    const double of_place = here->kind == PHASE_BOWL
                                ? scene->chemistry.bowl_c.value + SL_ZERO_C_K
                                : sl_scene_temperature_k(scene, arm->contact_min + since_contact_min,
                                                         since_contact_min - here->last_contact_min);
    return of_place + mix_course_warmth_k(mix, here, since_contact_min, read);
}

bool lane_isothermal(const sl_scene *scene, const mix_course *mix, const phase *here)
{
    return (here->kind == PHASE_BOWL || sl_scene_isothermal(scene)) && !(mix_course_most_k(mix, here) > 0.0);
}

static int energy_of(lane_energies *energies, double kj_mol)
{
    for (int i = 0; i < energies->n; i++) {
        if (fabs(energies->kj_mol[i] - kj_mol) <= 0.0) {
            return i;
        }
    }
    energies->kj_mol[energies->n] = kj_mol;
    return energies->n++;
}

static void list_energies(lane_energies *e, const sl_chemistry *ch, double ph_kj_mol,
                          const sl_reductant *agent)
{
    e->n = 0;
    energy_of(e, 0.0);
#define LIST(name) e->name = energy_of(e, ch->name##_activation_kj_mol.value);
    LANE_ENERGY_LIST(LIST)
#undef LIST
    e->hydrolysis = energy_of(e, ch->hydrolysis_activation_kj_mol.value - ph_kj_mol);
    for (int c = 0; c < SL_CHANNELS; c++) {
        const double channel = ch->channel_activation_kj_mol[c].value;
        e->channel[c] = energy_of(e, channel);
        e->beyond[c] =
            energy_of(e, ch->cystine.own_activation[c] ? ch->cystine.activation_kj_mol[c] - channel : 0.0);
    }
    if (agent) {
        e->agent = energy_of(e, agent->activation_kj_mol.value);
        e->back = energy_of(e, ch->return_activation_kj_mol.value);
    }
}

/* Draws turned by a number's own width; and what they make of one of an agent's. */
static void factors_of(double to[LANES], double within, const double draw[LANES], int n)
{
    const double ln = log(within);
    for (int l = 0; l < n; l++) {
        to[l] = exp(ln * draw[l]);
    }
}

static void widen(double to[LANES], const sl_param *of, const double draw[LANES], int n)
{
    factors_of(to, sl_reduction_factor(of->grade), draw, n);
    for (int l = 0; l < n; l++) {
        to[l] *= of->value;
    }
}

void lane_phase_enter(lane_phase *now, const sl_scene *scene, const phase *here, const lane_members *member,
                      double porosity, int n)
{
    const sl_chemistry *const ch = &scene->chemistry;
    const sl_mix *const mix = here->mix;
    const bool in_bowl = here->kind == PHASE_BOWL, at_rest = here->kind == PHASE_REST;
    const bool second_order = mix && mix->loss_l_mol_min.value > 0.0;
    const double radius_cm = ch->fibre_radius_um.value * CM_PER_UM;
    const double ph_within = mix ? sl_mix_ph_within(mix) : 0.0;
    now->ch = ch;
    now->member = member;
    const sl_mix *const lying = at_rest ? NULL : mix;
    now->bath = lying ? 1.0 : 0.0;
    now->touch = in_bowl ? 0.0 : now->bath;
    now->ph_kj_mol = lying ? lying->ph_kj_mol : 0.0;
    const double fall_32c =
        now->ph_kj_mol / (SL_GAS_KJ_MOL_K * LN_10) * (1.0 / SL_REFERENCE_K - 1.0 / SL_PKA_K);
    now->loss_k = mix && !second_order ? mix->loss_per_min.value : 0.0;
    now->loss_l_mol = second_order ? mix->loss_l_mol_min.value : 0.0;
    now->away = here->kind == PHASE_RINSE ? ch->rinse_per_min.value : 0.0;
    now->dry = here->dry_per_min;
    now->ageing = lying && fabs(lying->ph_fall_per_min) > 0.0 ? lying : NULL;
    now->mixed_min = here->mixed_min;
    now->exchange = now->touch * porosity * FIRST_MODE / (radius_cm * radius_cm) * SECONDS_PER_MIN;
    factors_of(now->loss, mix ? sl_mix_loss_within(mix) : 1.0, member->by[SL_DOUBT_LOSS], n);
    factors_of(now->fibre_loss, sl_grade_factor(ch->fibre_loss_per_min.grade), member->by[SL_DOUBT_LOSS], n);
    for (int l = 0; l < n; l++) {
        now->saturation_mol_l[l] = here->saturation_mol_l;
        now->liquid_share[l] = in_bowl ? 0.0 : here->liquid_share / member->by[SL_DOUBT_GRAMS][l];
#define ENTER(NAME, name, entry, ...)                                                                        \
    now->name##_cm2_s[l] = ch->name##_diffusion_cm2_s.value * member->by[SL_DOUBT_##entry][l];
        SL_OXIDANT_LIST(ENTER)
#undef ENTER
        now->half_mol_l[l] = ch->saturation_mol_l.value * member->by[SL_DOUBT_SATURATION][l];
        now->partition[l] = ch->persulfate_partition.value * member->by[SL_DOUBT_PARTITION][l];
        now->opens[l] = ch->damage_opens.value * member->by[SL_DOUBT_OPENING][l];
        now->opens_by_lipids[l] = ch->lipids_open.value * member->by[SL_DOUBT_OPENING][l];
        now->lipids_loss[l] = ch->lipids_loss.value * member->by[SL_DOUBT_RADICAL][l];
        now->warmth_k[l] = in_bowl ? 0.0 : member->by[SL_DOUBT_WARMTH][l];
        now->ph_mix[l] = (mix ? mix->ph.value : ch->rest_ph.value) + ph_within * member->by[SL_DOUBT_PH][l];
        now->ph_fibre[l] = at_rest ? ch->rest_ph.value : now->ph_mix[l] - ch->fibre_ph_drop.value;
        now->protons_mix[l] = pow(10.0, -now->ph_mix[l]);
        now->protons_fibre[l] = pow(10.0, -now->ph_fibre[l]);
        now->hydrolysis[l] =
            ch->hydrolysis_per_min.value * pow(10.0, now->ph_mix[l] + fall_32c - SL_HYDROLYSIS_PH);
    }
    for (int c = 0; c < SL_CHANNELS; c++) {
        for (int l = 0; l < n; l++) {
            now->cystine[c][l] = lane_by_channel(member, SL_DOUBT_CYSTINE, c, l);
        }
    }
    now->agent = here->agent;
    now->air = here->air;
    if (here->agent) {
        widen(now->agent_cm2_s, &here->agent->diffusion_cm2_s, member->by[SL_DOUBT_AGENT_ENTRY], n);
        widen(now->agent_loss, &here->agent->air_loss_per_min, member->by[SL_DOUBT_AGENT_LOSS], n);
    }
    list_energies(&now->energies, ch, now->ph_kj_mol, here->agent);
}
