/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A scene copied to a memory of its own: arrays first, then every text that they hold.
 */
#include <string.h>

#include "scene/files/scene_file.h"
#include "scene/records.h"

typedef struct sl_copying {
    sl_arena *arena;
    sl_error *error;
    bool good; /* false once memory has run out; then nothing more is copied */
} sl_copying;

static void copy_text(sl_copying *copying, const char **text)
{
    if (*text && copying->good) {
        *text = sl_arena_text(copying->arena, *text, strlen(*text), copying->error);
        copying->good = *text != NULL;
    }
}

/* A copy of the array, or of nothing when it is empty. */
static void *copy_array(sl_copying *copying, const void *from, int n, size_t size)
{
    if (!copying->good) {
        return NULL;
    }
    void *const to = sl_arena_new(copying->arena, (size_t)n, size, "copying a scene", copying->error);
    copying->good = to != NULL;
    if (to && n > 0) {
        memcpy(to, from, (size_t)n * size);
    }
    return to;
}

static void copy_rates(sl_copying *copying, sl_rates *rates)
{
    for (int channel = 0; channel < SL_CHANNELS; channel++) {
        copy_text(copying, &rates->k[channel].source);
    }
}

static void copy_chemistry(sl_copying *copying, sl_chemistry *chemistry)
{
    copy_text(copying, &chemistry->name);
    copy_text(copying, &chemistry->title);
    copy_rates(copying, &chemistry->cystine);
    copy_rates(copying, &chemistry->melanin[SL_EUMELANIN].rates);
    copy_rates(copying, &chemistry->melanin[SL_PHEOMELANIN].rates);
    for (size_t i = 0; i < sl_chemistry_n_fields; i++) {
        copy_text(copying, &sl_field_param(&sl_chemistry_fields[i], chemistry)->source);
    }
}

static void copy_dye(sl_copying *copying, sl_dye *dye)
{
    copy_text(copying, &dye->name);
    copy_text(copying, &dye->colour);
    copy_text(copying, &dye->rim_share.source);
    copy_text(copying, &dye->leach_per_min.source);
    copy_text(copying, &dye->shampoo_loss.source);
    copy_text(copying, &dye->stain_share.source);
    copy_text(copying, &dye->band_quality.source);
    copy_rates(copying, &dye->rates);
}

static void copy_mix(sl_copying *copying, sl_mix *mix)
{
    copy_text(copying, &mix->name);
    copy_text(copying, &mix->title);
    copy_text(copying, &mix->ph.source);
    copy_text(copying, &mix->loss_per_min.source);
    copy_text(copying, &mix->loss_l_mol_min.source);
}

static void copy_chart(sl_copying *copying, sl_chart *chart)
{
    copy_text(copying, &chart->name);
    copy_text(copying, &chart->title);
    for (int i = 0; i < chart->n_tones; i++) {
        copy_text(copying, &chart->tones[i].word);
    }
}

static void copy_texts(sl_copying *copying, sl_scene *scene)
{
    copy_text(copying, &scene->name);
    copy_text(copying, &scene->title);
    copy_text(copying, &scene->question);
    copy_text(copying, &scene->person);
    copy_text(copying, &scene->weakest_what);
    copy_chemistry(copying, &scene->chemistry);
    copy_chart(copying, &scene->chart);
    for (int i = 0; copying->good && i < scene->n_hairs; i++) {
        copy_text(copying, &scene->hairs[i].name);
        copy_text(copying, &scene->hairs[i].title);
    }
    for (int i = 0; copying->good && i < scene->n_dyes; i++) {
        copy_dye(copying, &scene->dyes[i]);
    }
    for (int i = 0; copying->good && i < scene->n_mixes; i++) {
        copy_mix(copying, &scene->mixes[i]);
    }
    for (int i = 0; copying->good && i < scene->n_zones; i++) {
        copy_text(copying, &scene->zones[i].name);
    }
    for (int i = 0; copying->good && i < scene->n_arms; i++) {
        copy_text(copying, &scene->arms[i].name);
        copy_text(copying, &scene->arms[i].note);
    }
}

sl_scene *sl_scene_copy(const sl_scene *scene, sl_error *error)
{
    sl_scene *const copy = sl_scene_new(error);
    if (!copy) {
        return NULL;
    }
    struct sl_scene_memory *const memory = copy->memory;
    *copy = *scene;
    copy->memory = memory;
    sl_copying copying = {.arena = &memory->arena, .error = error, .good = true};
    copy->hairs = copy_array(&copying, scene->hairs, scene->n_hairs, sizeof *scene->hairs);
    copy->dyes = copy_array(&copying, scene->dyes, scene->n_dyes, sizeof *scene->dyes);
    copy->mixes = copy_array(&copying, scene->mixes, scene->n_mixes, sizeof *scene->mixes);
    copy->zones = copy_array(&copying, scene->zones, scene->n_zones, sizeof *scene->zones);
    copy->arms = copy_array(&copying, scene->arms, scene->n_arms, sizeof *scene->arms);
    if (copying.good) {
        copy_texts(&copying, copy);
    }
    if (!copying.good) {
        sl_scene_free(copy);
        return NULL;
    }
    return copy;
}
