/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * One number for all that an ensemble of a scene depends on, row by row as field.h's tables say: padding and
 * pointers of a record are not part of it. Charts, titles, sources and what only optics reads
 * are left out. FNV-1a: Fowler, Noll & Vo.
 */
#include <assert.h>
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

void sl_draw_number(uint64_t *hash, double value)
{
    uint64_t bits = 0;
    memcpy(&bits, &value, sizeof bits);
    add_bits(hash, bits);
}

void sl_draw_whole(uint64_t *hash, int value)
{
    add_bits(hash, (uint64_t)(int64_t)value);
}

void sl_drawn_before(uint64_t *hash, const void *record)
{
    (void)hash;
    (void)record;
}

static void add_text(uint64_t *hash, const char *text)
{
    *hash = sl_fnv(*hash, text ? text : "", text ? strlen(text) + 1 : 1);
}

static void add_param(uint64_t *hash, const sl_param *param)
{
    sl_draw_number(hash, param->value);
    sl_draw_whole(hash, (int)param->grade);
}

static void add_rates(uint64_t *hash, const sl_rates *rates)
{
    for (int c = 0; c < SL_CHANNELS; c++) {
        add_param(hash, &rates->k[c]);
        sl_draw_whole(hash, rates->own_activation[c]);
        sl_draw_number(hash, rates->own_activation[c] ? rates->activation_kj_mol[c] : 0.0);
    }
}

static void add_bound(uint64_t *hash, const sl_bound *bound)
{
    sl_draw_whole(hash, bound->set);
    sl_draw_number(hash, bound->most);
}

static void add_numbers(uint64_t *hash, const double *number, size_t size)
{
    for (size_t i = 0; i < size / sizeof *number; i++) {
        sl_draw_number(hash, number[i]);
    }
}

static void add_record(uint64_t *hash, const sl_fields *rows, const void *record);

static void add_list(uint64_t *hash, const sl_field *field, const void *record)
{
    const char *const first = sl_field_first(field, record);
    const int n = sl_field_count(field, record);
    for (int i = 0; i < n; i++) {
        add_record(hash, field->rows, first + (size_t)i * field->element);
    }
}

static void add_member(uint64_t *hash, const sl_field *field, const void *record)
{
    const void *const at = sl_field_in(field, record);
    switch (field->kind) {
    case SL_FIELD_PARAM:
        add_param(hash, at);
        return;
    case SL_FIELD_NUMBER:
        sl_draw_number(hash, *(const double *)at);
        return;
    case SL_FIELD_NUMBERS:
        add_numbers(hash, at, field->size);
        return;
    case SL_FIELD_WHOLE:
        sl_draw_whole(hash, *(const int *)at);
        return;
    case SL_FIELD_YES:
        sl_draw_whole(hash, *(const bool *)at);
        return;
    case SL_FIELD_WORD:
        sl_draw_whole(hash, (int)*(const unsigned *)at);
        return;
    case SL_FIELD_TEXT:
        add_text(hash, *(const char *const *)at);
        return;
    case SL_FIELD_RATES:
        add_rates(hash, at);
        return;
    case SL_FIELD_BOUND:
        add_bound(hash, at);
        return;
    case SL_FIELD_WITHIN:
        add_record(hash, field->rows, at);
        return;
    case SL_FIELD_LIST:
        add_list(hash, field, record);
        return;
    case SL_FIELD_WORDING: /* for people alone */
    case SL_FIELD_OWN:
        break;
    }
    assert(false); /* what is drawn from has a kind or a function that says how */
}

static void add_used(uint64_t *hash, const sl_fields *rows, unsigned use, const void *record)
{
    for (int turn = SL_FIRST_TURN; turn <= SL_LAST_TURN; turn++) {
        for (int i = 0; i < rows->n; i++) {
            const sl_field *const field = &rows->field[i];
            if (field->turn != turn || !(field->use & use)) {
                continue;
            }
            if (field->draw) {
                field->draw(hash, record);
            } else {
                add_member(hash, field, record);
            }
        }
    }
}

static void add_record(uint64_t *hash, const sl_fields *rows, const void *record)
{
    add_used(hash, rows, SL_DRAWN_FROM, record);
}

/* What only a reducing agent makes matter, so that scenes without one keep the fingerprint that they had. */
static void add_reduction(uint64_t *hash, const sl_scene *scene)
{
    if (sl_scene_reduces(scene)) {
        add_used(hash, &sl_chemistry_fields, SL_DRAWN_REDUCING, &scene->chemistry);
        for (int i = 0; i < scene->n_dyes; i++) {
            add_used(hash, &sl_dye_fields, SL_DRAWN_REDUCING, &scene->dyes[i]);
        }
    }
}

uint64_t sl_scene_fingerprint(const sl_scene *scene)
{
    uint64_t hash = SL_FNV_START;
    add_record(&hash, &sl_scene_fields, scene);
    add_reduction(&hash, scene);
    return hash;
}

uint64_t sl_mix_fingerprint(const sl_mix *mix)
{
    uint64_t hash = SL_FNV_START;
    sl_mix bare = *mix;
    for (int i = 0; i < sl_mix_fields.n; i++) {
        const sl_field *const field = &sl_mix_fields.field[i];
        if (field->use & SL_OF_LABEL) {
            memset(sl_field_at(field, &bare), 0, field->size);
        }
    }
    add_record(&hash, &sl_mix_fields, &bare);
    return hash;
}

uint64_t sl_arm_fingerprint(const sl_scene *scene, int arm)
{
    const sl_arm *const one = &scene->arms[arm];
    return sl_arm_applications(one) == 1 ? sl_mix_fingerprint(&scene->mixes[sl_arm_application(one)->mix])
                                         : 0;
}

uint64_t sl_zone_fingerprint(const sl_scene *scene, int zone)
{
    const sl_recipe *const recipe = &scene->zones[zone].recipe;
    uint64_t hash = SL_FNV_START;
    add_record(&hash, &sl_hair_fields, &scene->hairs[scene->zones[zone].hair]);
    for (int i = 0; i < recipe->n_dyes; i++) {
        add_record(&hash, &sl_dye_fields, &scene->dyes[recipe->dye[i]]);
        hash = sl_fnv(hash, &recipe->strength[i], sizeof recipe->strength[i]);
    }
    return hash;
}

/* Ages of mixes follow from who is put on after whom, and are left out. */
uint64_t sl_strip_fingerprint(const sl_scene *scene, int arm)
{
    const sl_arm *const of = &scene->arms[arm];
    uint64_t hash = SL_FNV_START;
    sl_draw_whole(&hash, of->undyed);
    for (int i = 0; i < of->n_steps; i++) {
        const sl_step *const step = &of->steps[i];
        const bool applied = step->kind == SL_STEP_APPLY;
        const uint64_t mix = applied ? sl_mix_fingerprint(&scene->mixes[step->mix]) : 0;
        const double much[] = {step->duration_min, step->mix_g_per_g, step->hair_water_g_g};
        sl_draw_whole(&hash, (int)step->kind);
        sl_draw_whole(&hash, step->shampoos);
        sl_draw_whole(&hash, step->covered);
        add_numbers(&hash, much, applied ? sizeof much : sizeof much[0]);
        hash = sl_fnv(hash, &mix, sizeof mix);
    }
    return hash;
}
