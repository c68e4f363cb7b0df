/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The weakest grade among the numbers that a scene's results rest on. Where several are
 * equally weak the first in this order is named: mixes (pH moves results most), dyes,
 * hair, chemistry, chart. Numbers that cannot enter are left out: the head's temperature on a
 * bench, what pigments use up when they do not.
 */
#include <string.h>

#include "base/language.h"
#include "scene/files/scene_file.h"
#include "scene/records.h"

typedef struct sl_weakest {
    sl_grade grade;
    sl_phrase what;
    bool any;
} sl_weakest;

static void consider(sl_weakest *weakest, sl_grade grade, const char *number, const char *of,
                     const char *name)
{
    if (weakest->any && grade >= weakest->grade) {
        return;
    }
    weakest->any = true;
    weakest->grade = grade;
    weakest->what = (sl_phrase){0};
    sl_phrase_add(&weakest->what, number);
    sl_phrase_add(&weakest->what, of);
    sl_phrase_add(&weakest->what, name);
}

static void consider_rates(sl_weakest *weakest, const sl_rates *rates, const char *of, const char *name)
{
    static const char *const words[SL_CHANNELS] = {[SL_PERHYDROXYL] = "rate with perhydroxyl",
                                                   [SL_PERSULFATE] = "rate with persulfate",
                                                   [SL_RADICAL] = "rate with radicals"};
    for (int channel = 0; channel < SL_CHANNELS; channel++) {
        consider(weakest, rates->k[channel].grade, words[channel], of, name);
    }
}

static void consider_mix(sl_weakest *weakest, const sl_mix *mix)
{
    const bool holds_oxidant = mix->powder_parts > 0.0 || mix->developer_parts > 0.0;
    if (mix->mechanism != SL_MECHANISM_OXIDATIVE || !holds_oxidant) {
        return; /* recorded, never computed with; or plain water, whose pH does nothing here */
    }
    const bool second_order = mix->loss_l_mol_min.value > 0.0;
    consider(weakest, mix->ph.grade, _("pH"), _(" of the mix "), mix->name);
    consider(weakest, second_order ? mix->loss_l_mol_min.grade : mix->loss_per_min.grade,
             _("loss of peroxide"), _(" of the mix "), mix->name);
}

static void consider_dye(sl_weakest *weakest, const sl_dye *dye)
{
    static const char of[] = " of the dye ";
    consider_rates(weakest, &dye->rates, of, dye->name);
    consider(weakest, dye->rim_share.grade, _("rim share"), of, dye->name);
    consider(weakest, dye->leach_per_min.grade, _("leaching"), of, dye->name);
    consider(weakest, dye->shampoo_loss.grade, _("loss per shampoo"), of, dye->name);
    if (dye->stain_share.value > 0.0) {
        consider(weakest, dye->stain_share.grade, _("share that stains neighbours"), of, dye->name);
    }
    consider(weakest, dye->band_quality.grade, _("absorption"), of, dye->name);
}

/* Whether a number of the chemistry enters this scene's results. */
static bool enters(const sl_field *field, const sl_scene *scene)
{
    const bool at_head = scene->place != SL_PLACE_BENCH && scene->n_points == 0;
    const bool wrapped = scene->place == SL_PLACE_WRAPPED && scene->n_points == 0;
    if (strcmp(field->section, "pigments") == 0 || strcmp(field->key, "held") == 0) {
        return scene->chemistry.pigment_feedback;
    }
    if (strcmp(field->key, "head") == 0) {
        return at_head;
    }
    return strncmp(field->key, "wrapped_", strlen("wrapped_")) != 0 || wrapped;
}

static void consider_chemistry(sl_weakest *weakest, sl_scene *scene)
{
    static const char of[] = " of the chemistry ";
    sl_chemistry *const chemistry = &scene->chemistry;
    consider_rates(weakest, &chemistry->melanin[SL_EUMELANIN].rates, _(" of eumelanin in "), chemistry->name);
    consider_rates(weakest, &chemistry->melanin[SL_PHEOMELANIN].rates, _(" of pheomelanin in "),
                   chemistry->name);
    consider_rates(weakest, &chemistry->cystine, _(" of cystine in "), chemistry->name);
    for (size_t i = 0; i < sl_chemistry_n_fields; i++) {
        if (enters(&sl_chemistry_fields[i], scene)) {
            consider(weakest, sl_field_param(&sl_chemistry_fields[i], chemistry)->grade,
                     sl_chemistry_fields[i].words, of, chemistry->name);
        }
    }
}

bool sl_weakest_find(const sl_reading *reading, sl_scene *scene)
{
    sl_weakest weakest = {.grade = SL_GRADE_MEASURED_HERE};
    for (int i = 0; i < scene->n_mixes; i++) {
        consider_mix(&weakest, &scene->mixes[i]);
    }
    for (int i = 0; i < scene->n_dyes; i++) {
        consider_dye(&weakest, &scene->dyes[i]);
    }
    for (int i = 0; i < scene->n_hairs; i++) {
        consider(&weakest, scene->hairs[i].grade, _("a number"), _(" of the hair "), scene->hairs[i].name);
    }
    consider_chemistry(&weakest, scene);
    consider(&weakest, scene->chart.grade, _("a number"), _(" of the chart "), scene->chart.name);
    scene->weakest = weakest.grade;
    scene->weakest_what =
        sl_arena_text(reading->kept, weakest.what.text, weakest.what.length, reading->error);
    return scene->weakest_what != NULL;
}
