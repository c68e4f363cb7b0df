/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * scene_numbers MODELS SCENE-FILE STEP-MIN: prints one JSON object with every number of a
 * scene and what the library computes from it, for a reference in another language.
 */
#include <stdio.h>
#include <stdlib.h>

#include "slowlift/scene.h"
#include "slowlift/timeline.h"

static void number(const char *key, double value)
{
    printf("\"%s\": %.17g, ", key, value);
}

static void rates(const char *key, const sl_rates *r)
{
    printf("\"%s\": {\"k\": [%.17g, %.17g, %.17g], \"own\": [%s, %s, %s], \"ea\": [%.17g, %.17g, %.17g]}, ",
           key, r->k[0].value, r->k[1].value, r->k[2].value, r->own_activation[0] ? "true" : "false",
           r->own_activation[1] ? "true" : "false", r->own_activation[2] ? "true" : "false",
           r->activation_kj_mol[0], r->activation_kj_mol[1], r->activation_kj_mol[2]);
}

#define PARAM(field) number(#field, c->field.value)

static void chemistry(const sl_chemistry *c)
{
    printf("\"chemistry\": {");
    PARAM(pka_25c), PARAM(pka_enthalpy_kj_mol), PARAM(fibre_ph_drop), PARAM(saturation_mol_l);
    PARAM(loss_activation_kj_mol), PARAM(fibre_loss_per_min), PARAM(couple_l_mol_min);
    PARAM(couple_activation_kj_mol), PARAM(hydrolysis_per_min), PARAM(hydrolysis_activation_kj_mol);
    PARAM(thermal_per_min), PARAM(thermal_activation_kj_mol), PARAM(dissolve_per_min);
    PARAM(dissolve_half_mol_l), PARAM(potassium_solubility_mol_l), PARAM(peroxide_diffusion_cm2_s);
    PARAM(persulfate_diffusion_cm2_s), PARAM(diffusion_activation_kj_mol), PARAM(fibre_radius_um);
    PARAM(swelling_deficit), PARAM(swelling_time_min), PARAM(damage_opens), PARAM(damage_half);
    PARAM(lipids_open), PARAM(lipids_loss);
    PARAM(persulfate_partition), PARAM(fibre_water_ml_g), PARAM(cystine_mol_l), PARAM(oxidant_per_cystine);
    PARAM(cystine_layer), PARAM(rinse_per_min), PARAM(rinse_leach), PARAM(dry_per_min), PARAM(rest_ph);
    PARAM(rest_dry_per_min), PARAM(ammonia_leaves_per_min), PARAM(bowl_c), PARAM(head_c), PARAM(wrapped_rise_k), PARAM(wrapped_time_min);
    PARAM(peroxide_heat_kj_mol), PARAM(persulfate_heat_kj_mol), PARAM(dissolving_heat_kj_mol);
    PARAM(sulfur_heat_kj_mol), PARAM(mix_heat_j_g_k), PARAM(hair_heat_j_g_k), PARAM(open_loss_w_m2_k);
    PARAM(covered_loss_w_m2_k), PARAM(bench_loss_w_m2_k), PARAM(head_loss_w_m2_k), PARAM(layer_area_cm2_g);
    PARAM(bowl_area_cm2_g);
    PARAM(return_activation_kj_mol);
    printf("\"fibre_loss_grade\": \"%s\", ", sl_grade_word(c->fibre_loss_per_min.grade));
    rates("cystine", &c->cystine);
    printf("\"reductants\": {");
    for (int i = 0; i < SL_REDUCTANTS; i++) {
        const sl_reductant *r = &c->reductant[i];
        printf("%s\"%s\": {", i > 0 ? ", " : "", sl_reductant_word((sl_reductant_id)i));
        number("order", r->order.value), number("activation", r->activation_kj_mol.value);
        number("air_loss", r->air_loss_per_min.value), number("meet", r->meet_l_mol_min.value);
        number("oxidant", r->oxidant_per_mol.value), number("diffusion", r->diffusion_cm2_s.value);
        number("cystine", r->cystine_l_mol_min.value);
        printf("\"per_cystine\": %.17g}", r->per_cystine.value);
    }
    printf("}, \"melanin\": [");
    for (int kind = 0; kind < SL_MELANINS; kind++) {
        printf("%s{", kind > 0 ? ", " : "");
        rates("rates", &c->melanin[kind].rates);
        number("opened_ratio", c->melanin[kind].opened_ratio.value);
        printf("\"yellow_ratio\": %.17g}", c->melanin[kind].yellow_ratio.value);
    }
    printf("], \"channel_activation_kj_mol\": [%.17g, %.17g, %.17g]}, ",
           c->channel_activation_kj_mol[0].value, c->channel_activation_kj_mol[1].value,
           c->channel_activation_kj_mol[2].value);
}

/* In the order of the rows of ingredient.h. */
static void holds(const char *part, const sl_param share[SL_INGREDIENTS])
{
    printf("\"%s\": [", part);
    for (int i = 0; i < SL_INGREDIENTS; i++) {
        printf("%s%.17g", i > 0 ? ", " : "", share[i].value);
    }
    printf("]");
}

static void mixes(const sl_scene *scene)
{
    printf("\"mixes\": [");
    for (int i = 0; i < scene->n_mixes; i++) {
        const sl_mix *m = &scene->mixes[i];
        printf("%s{", i > 0 ? ", " : "");
        number("powder_parts", m->powder_parts), number("developer_parts", m->developer_parts);
        number("water_parts", m->water_parts), number("developer_pct", m->developer_pct);
        number("potassium_persulfate", m->potassium_persulfate);
        number("ammonium_persulfate", m->ammonium_persulfate);
        number("sodium_persulfate", m->sodium_persulfate), number("percarbonate", m->percarbonate);
        number("activity", m->activity), number("ph", m->ph.value);
        printf("\"ph_computed\": %s, \"holds\": {", m->ph_computed ? "true" : "false");
        holds("powder", m->holds[SL_OF_POWDER]), printf(", ");
        holds("developer", m->holds[SL_OF_DEVELOPER]), printf(", ");
        holds("water", m->holds[SL_OF_WATER]), printf("}, ");
        number("ph_doubt", m->ph_doubt);
        printf("\"ph_grade\": \"%s\", \"loss_grade\": \"%s\", ", sl_grade_word(m->ph.grade),
               sl_grade_word(m->loss_l_mol_min.value > 0.0 ? m->loss_l_mol_min.grade : m->loss_per_min.grade));
        number("reductant_share", m->reductant_share);
        printf("\"reductant\": \"%s\", ", m->reductant_share > 0 ? sl_reductant_word(m->reductant) : "");
        number("loss_per_min", m->loss_per_min.value);
        printf("\"loss_l_mol_min\": %.17g}", m->loss_l_mol_min.value);
    }
    printf("], ");
}

static void dyes_and_hairs(const sl_scene *scene)
{
    printf("\"dyes\": [");
    for (int i = 0; i < scene->n_dyes; i++) {
        const sl_dye *d = &scene->dyes[i];
        printf("%s{", i > 0 ? ", " : "");
        rates("rates", &d->rates), number("rim_share", d->rim_share.value);
        number("leach_per_min", d->leach_per_min.value);
        number("loose_share", d->loose_share.value), number("loose_loss", d->loose_loss.value);
        number("leuco_share", d->leuco_share.value);
        number("air_return", d->air_return_per_min.value);
        number("oxidant_return", d->oxidant_return_l_mol_min.value);
        printf("\"reduced\": {");
        for (int r = 0; r < SL_REDUCTANTS; r++) {
            printf("%s\"%s\": %.17g", r > 0 ? ", " : "", sl_reductant_word((sl_reductant_id)r),
                   d->reduced[r].value);
        }
        printf("}, ");
        printf("\"shampoo_loss\": %.17g}", d->shampoo_loss.value);
    }
    printf("], \"hairs\": [");
    for (int i = 0; i < scene->n_hairs; i++) {
        const sl_hair *h = &scene->hairs[i];
        printf("%s{", i > 0 ? ", " : "");
        number("cystine_intact", h->cystine_intact), number("porosity", h->porosity);
        printf("\"pool\": [[%.17g, %.17g, %.17g], [%.17g, %.17g, %.17g]]}", h->pool[0][0], h->pool[0][1],
               h->pool[0][2], h->pool[1][0], h->pool[1][1], h->pool[1][2]);
    }
    printf("], \"zones\": [");
    for (int i = 0; i < scene->n_zones; i++) {
        const sl_zone *z = &scene->zones[i];
        printf("%s{\"name\": \"%s\", \"hair\": %d, \"dyes\": [", i > 0 ? ", " : "", z->name, z->hair);
        for (int j = 0; j < z->recipe.n_dyes; j++) {
            printf("%s%d", j > 0 ? ", " : "", z->recipe.dye[j]);
        }
        printf("]}");
    }
    printf("], ");
}

static void arms(const sl_scene *scene, const sl_timeline *timeline)
{
    static const char *const kinds[] = {"apply", "rinse", "shampoo", "rest"};
    printf("\"arms\": [");
    for (int i = 0; i < scene->n_arms; i++) {
        const sl_arm *a = &scene->arms[i];
        printf("%s{\"name\": \"%s\", \"predicted\": %s, \"undyed\": %s, \"contact_min\": %.17g, \"steps\": [",
               i > 0 ? ", " : "", a->name, sl_timeline_predicted(timeline, i) ? "true" : "false",
               a->undyed ? "true" : "false", a->contact_min);
        for (int j = 0; j < a->n_steps; j++) {
            const sl_step *s = &a->steps[j];
            printf("%s{\"kind\": \"%s\", ", j > 0 ? ", " : "", kinds[s->kind]);
            number("duration_min", s->kind == SL_STEP_SHAMPOO ? s->shampoos : s->duration_min);
            number("mix", s->mix), number("mix_age_min", s->mix_age_min),
                number("mix_g_per_g", s->mix_g_per_g);
            printf("\"hair_water_g_g\": %.17g, \"covered\": %s}", s->hair_water_g_g,
                   s->covered ? "true" : "false");
        }
        printf("]}");
    }
    printf("], ");
}

/* What is left of a dye in its colourless form. */
static double pale_left(const sl_scene *scene, const sl_timeline *timeline, int arm, int zone, int dye, int t)
{
    sl_moment moment;
    sl_timeline_moment(timeline, arm, zone, sl_timeline_time(timeline, t), &moment);
    return sl_dye_fate_at(&scene->dyes[scene->zones[zone].recipe.dye[dye]], &moment,
                          moment.n_forms > 0 ? dye : SL_FROM_DOSES)
        .colourless;
}

/* results[arm][zone][time] = [cystine_lost, six pools, dyes..., where a mix reduces their colourless
 * forms...] */
static void results(const sl_scene *scene, const sl_timeline *timeline)
{
    printf("\"results\": [");
    for (int a = 0; a < scene->n_arms; a++) {
        printf("%s[", a > 0 ? ", " : "");
        for (int z = 0; z < scene->n_zones; z++) {
            printf("%s[", z > 0 ? ", " : "");
            for (int t = 0; t < sl_timeline_n_times(timeline); t++) {
                const sl_cell *cell = sl_timeline_cell(timeline, a, z, t);
                printf("%s[%.17g", t > 0 ? ", " : "", cell->cystine_lost);
                for (int i = 0; i < SL_MELANINS * SL_STAGES; i++) {
                    printf(", %.17g", cell->amounts.pool[i / SL_STAGES][i % SL_STAGES]);
                }
                const int n_dyes = scene->arms[a].undyed ? 0 : scene->zones[z].recipe.n_dyes;
                for (int i = 0; i < n_dyes; i++) {
                    printf(", %.17g", cell->amounts.dye_left[i]);
                }
                for (int i = 0; sl_scene_reduces(scene) && i < n_dyes; i++) {
                    printf(", %.17g", pale_left(scene, timeline, a, z, i, t));
                }
                printf("]");
            }
            printf("]");
        }
        printf("]");
    }
    printf("]");
}

static int print_all(const sl_scene *scene, double step)
{
    enum { MOST = 4096 };
    static double times[MOST];
    int n = 0;
    for (; n < MOST && n * step <= scene->until_min; n++) {
        times[n] = n * step;
    }
    sl_error error;
    sl_solver *solver = sl_solver_new(&error);
    sl_timeline *timeline = NULL;
    if (solver == NULL || !sl_timeline_solve(&timeline, scene, times, n, solver, NULL, &error)) {
        fprintf(stderr, "%s\n", sl_code_name(error.code));
        return EXIT_FAILURE;
    }
    printf("{");
    number("room_c", scene->room_c), number("shift_k", scene->shift_k), number("until_min", scene->until_min);
    printf("\"reduces\": %s, ", sl_scene_reduces(scene) ? "true" : "false");
    printf("\"place\": \"%s\", \"points\": [", sl_place_word(scene->place));
    for (int i = 0; i < scene->n_points; i++) {
        printf("%s[%.17g, %.17g]", i > 0 ? ", " : "", scene->points[i].time_min,
               scene->points[i].temperature_c);
    }
    printf("], \"times\": [");
    for (int i = 0; i < n; i++) {
        printf("%s%.17g", i > 0 ? ", " : "", times[i]);
    }
    printf("], ");
    chemistry(&scene->chemistry), mixes(scene), dyes_and_hairs(scene), arms(scene, timeline);
    results(scene, timeline);
    printf("}\n");
    sl_timeline_free(timeline);
    sl_solver_free(solver);
    return EXIT_SUCCESS;
}

int main(int argc, char **argv)
{
    if (argc != 4) {
        fprintf(stderr, "usage: scene_numbers MODELS SCENE-FILE STEP-MIN\n");
        return EXIT_FAILURE;
    }
    sl_start();
    const char *const folder = argv[1];
    sl_folders folders = {&folder, 1};
    const sl_resolver resolver = sl_resolver_of_folders(&folders);
    sl_error error;
    sl_scene *scene = sl_scene_load(argv[2], &resolver, &error);
    if (scene == NULL) {
        fprintf(stderr, "%s:%d: %s; %s\n", error.file, error.line, error.found, error.wanted);
        return EXIT_FAILURE;
    }
    const double step = strtod(argv[3], NULL);
    const int status = step > 0 ? print_all(scene, step) : EXIT_FAILURE;
    sl_scene_free(scene);
    return status;
}
