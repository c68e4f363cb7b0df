/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * One number for all that an ensemble of a scene depends on, field by field: padding and
 * pointers of a record are not part of it. Charts, titles, sources and what only optics reads
 * are left out. FNV-1a: Fowler, Noll & Vo.
 */
#include <string.h>

#include "scene/records.h"
#include "slowlift/part.h"

uint64_t sl_fnv(uint64_t hash, const void *bytes, size_t length)
{
    const unsigned char *const byte = bytes;
    for (size_t i = 0; i < length; i++) {
        hash = (hash ^ byte[i]) * UINT64_C(0x100000001b3);
    }
    return hash;
}

/* Byte by byte from the lowest, so that machines of either order agree. */
static void add_bits(uint64_t *hash, uint64_t bits)
{
    unsigned char byte[8];
    for (int i = 0; i < 8; i++) {
        byte[i] = (unsigned char)(bits >> (8 * i) & 0xff);
    }
    *hash = sl_fnv(*hash, byte, sizeof byte);
}

static void add_number(uint64_t *hash, double value)
{
    uint64_t bits = 0;
    memcpy(&bits, &value, sizeof bits);
    add_bits(hash, bits);
}

static void add_whole(uint64_t *hash, int value)
{
    add_bits(hash, (uint64_t)(int64_t)value);
}

static void add_text(uint64_t *hash, const char *text)
{
    *hash = sl_fnv(*hash, text ? text : "", text ? strlen(text) + 1 : 1);
}

static void add_param(uint64_t *hash, const sl_param *param)
{
    add_number(hash, param->value);
    add_whole(hash, (int)param->grade);
}

static void add_rates(uint64_t *hash, const sl_rates *rates)
{
    for (int c = 0; c < SL_CHANNELS; c++) {
        add_param(hash, &rates->k[c]);
        add_whole(hash, rates->own_activation[c]);
        add_number(hash, rates->own_activation[c] ? rates->activation_kj_mol[c] : 0.0);
    }
}

static void add_chemistry(uint64_t *hash, const sl_chemistry *chemistry)
{
    sl_chemistry copy = *chemistry; /* the table of fields is made for writing */
    add_rates(hash, &copy.cystine);
    add_rates(hash, &copy.melanin[SL_EUMELANIN].rates);
    add_rates(hash, &copy.melanin[SL_PHEOMELANIN].rates);
    for (size_t i = 0; i < sl_chemistry_n_fields; i++) {
        add_param(hash, sl_field_param(&sl_chemistry_fields[i], &copy));
    }
    add_whole(hash, copy.pigment_feedback);
}

static void add_hair(uint64_t *hash, const sl_hair *hair)
{
    for (int kind = 0; kind < SL_MELANINS; kind++) {
        for (int stage = 0; stage < SL_STAGES; stage++) {
            add_number(hash, hair->pool[kind][stage]);
        }
    }
    add_number(hash, hair->cystine_intact);
    add_number(hash, hair->porosity);
    add_whole(hash, (int)hair->grade);
}

static void add_dye(uint64_t *hash, const sl_dye *dye)
{
    add_text(hash, dye->name);
    add_whole(hash, (int)dye->class_);
    add_rates(hash, &dye->rates);
    add_param(hash, &dye->rim_share);
    add_param(hash, &dye->leach_per_min);
    add_param(hash, &dye->shampoo_loss);
    add_whole(hash, dye->n_bands);
    for (int i = 0; i < dye->n_bands; i++) { /* weigh the dyes of one zone */
        add_number(hash, dye->bands[i].centre_nm);
        add_number(hash, dye->bands[i].width_nm);
        add_number(hash, dye->bands[i].height);
    }
}

static void add_mix(uint64_t *hash, const sl_mix *mix)
{
    const double numbers[] = {mix->powder_parts,      mix->developer_parts,      mix->water_parts,
                              mix->developer_pct,     mix->potassium_persulfate, mix->ammonium_persulfate,
                              mix->sodium_persulfate, mix->percarbonate,         mix->activity,
                              mix->label_max_min,     mix->label_told_min};
    add_text(hash, mix->name);
    add_whole(hash, (int)mix->class_);
    add_whole(hash, (int)mix->mechanism);
    for (size_t i = 0; i < sizeof numbers / sizeof numbers[0]; i++) {
        add_number(hash, numbers[i]);
    }
    add_param(hash, &mix->ph);
    add_param(hash, &mix->loss_per_min);
    add_param(hash, &mix->loss_l_mol_min);
    add_whole(hash, mix->label_from_contact);
}

static void add_zone(uint64_t *hash, const sl_zone *zone)
{
    add_text(hash, zone->name);
    add_whole(hash, zone->hair);
    add_whole(hash, zone->recipe.n_dyes);
    for (int i = 0; i < zone->recipe.n_dyes; i++) {
        add_whole(hash, zone->recipe.dye[i]);
        add_number(hash, zone->recipe.strength[i]);
    }
}

static void add_step(uint64_t *hash, const sl_step *step)
{
    add_whole(hash, (int)step->kind);
    add_number(hash, step->duration_min);
    add_whole(hash, step->shampoos);
    add_whole(hash, step->mix);
    add_number(hash, step->mix_age_min);
    add_number(hash, step->mix_g_per_g);
    add_number(hash, step->hair_water_g_g);
    add_whole(hash, step->covered);
}

static void add_arm(uint64_t *hash, const sl_arm *arm)
{
    add_text(hash, arm->name);
    add_whole(hash, arm->undyed);
    add_number(hash, arm->contact_min);
    add_whole(hash, arm->n_steps);
    for (int i = 0; i < arm->n_steps; i++) {
        add_step(hash, &arm->steps[i]);
    }
}

static void add_bound(uint64_t *hash, sl_bound bound)
{
    add_whole(hash, bound.set);
    add_number(hash, bound.most);
}

static void add_aims(uint64_t *hash, const sl_aims *aims)
{
    add_number(hash, aims->colour_left);
    add_bound(hash, aims->base_moved);
    add_bound(hash, aims->cystine_lost);
    add_bound(hash, aims->longest_min);
    for (int zone = 0; zone < SL_MAX_ZONES; zone++) {
        add_number(hash, aims->zone_left[zone]);
        add_number(hash, aims->zone_near[zone]);
    }
    add_number(hash, aims->stress_share);
    add_whole(hash, aims->stress_of);
}

static void add_warmth(uint64_t *hash, const sl_scene *scene)
{
    add_whole(hash, (int)scene->place);
    add_number(hash, scene->room_c);
    add_number(hash, scene->shift_k);
    add_whole(hash, scene->n_points);
    for (int i = 0; i < scene->n_points; i++) {
        add_number(hash, scene->points[i].time_min);
        add_number(hash, scene->points[i].temperature_c);
    }
}

uint64_t sl_scene_fingerprint(const sl_scene *scene)
{
    uint64_t hash = SL_FNV_START;
    const int lengths[] = {scene->n_hairs, scene->n_dyes, scene->n_mixes, scene->n_zones, scene->n_arms};
    add_chemistry(&hash, &scene->chemistry);
    add_warmth(&hash, scene);
    add_number(&hash, scene->until_min);
    add_aims(&hash, &scene->aims);
    for (int i = 0; i < 5; i++) {
        add_whole(&hash, lengths[i]);
    }
    for (int i = 0; i < scene->n_hairs; i++) {
        add_hair(&hash, &scene->hairs[i]);
    }
    for (int i = 0; i < scene->n_dyes; i++) {
        add_dye(&hash, &scene->dyes[i]);
    }
    for (int i = 0; i < scene->n_mixes; i++) {
        add_mix(&hash, &scene->mixes[i]);
    }
    for (int i = 0; i < scene->n_zones; i++) {
        add_zone(&hash, &scene->zones[i]);
    }
    for (int i = 0; i < scene->n_arms; i++) {
        add_arm(&hash, &scene->arms[i]);
    }
    return hash;
}

uint64_t sl_mix_fingerprint(const sl_mix *mix)
{
    uint64_t hash = SL_FNV_START;
    sl_mix bare = *mix; /* a label is about how long, not about what lies on the hair */
    bare.label_max_min = bare.label_told_min = 0.0;
    bare.label_from_contact = false;
    add_mix(&hash, &bare);
    return hash;
}

uint64_t sl_arm_fingerprint(const sl_scene *scene, int arm)
{
    const sl_arm *const one = &scene->arms[arm];
    return sl_arm_applications(one) == 1 ? sl_mix_fingerprint(&scene->mixes[sl_arm_application(one)->mix])
                                         : 0;
}
