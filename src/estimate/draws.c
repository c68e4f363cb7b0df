/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What is drawn for a scene, and how widely. The width follows the grade: the factors of
 * sl_grade_factor and the shifts below are themselves assumed, and said to be so. Numbers
 * that move together are one draw: all channels of a dye, of the melanins, of cystine; and
 * the radical flux, which meets all three alike.
 */
#include <assert.h>

#include "base/language.h"
#include "estimate/members.h"

/* 95 of 100 draws of pH lie within this (assumed). */
static const double PH_ASSUMED = 0.3, PH_MEASURED = 0.1;
static const double WARMTH_K = 2.0;  /* of a bench: hair against the room's thermometer (assumed) */
static const double WEIGHING = 1.10; /* grams of mix on the hair (assumed) */

double sl_grade_factor(sl_grade grade)
{
    static const double factors[SL_GRADE_COUNT] = {
        [SL_GRADE_ASSUMED] = 3.0,  [SL_GRADE_FITTED] = 2.0,    [SL_GRADE_FROM_MEMORY] = 1.5,
        [SL_GRADE_COMPUTED] = 1.5, [SL_GRADE_PUBLISHED] = 1.3, [SL_GRADE_MEASURED_HERE] = 1.15};
    assert(grade < SL_GRADE_COUNT);
    return factors[grade];
}

static sl_grade weaker(sl_grade one, sl_grade two)
{
    return one < two ? one : two;
}

static sl_grade weakest_rate(const sl_rates *rates)
{
    sl_grade grade = rates->k[0].grade;
    for (int c = 1; c < SL_CHANNELS; c++) {
        grade = weaker(grade, rates->k[c].grade);
    }
    return grade;
}

static void add(sl_draw_plan *plan, sl_doubt doubt, int dye, double spread, sl_grade grade)
{
    if (plan->n < SL_MOST_DRAWN) { /* what finds no room is no ensemble's: draws_fit() */
        plan->drawn[plan->n++] = (sl_drawn){.doubt = doubt, .dye = dye, .spread = spread, .grade = grade};
    }
}

static void add_factor(sl_draw_plan *plan, sl_doubt doubt, int dye, sl_grade grade)
{
    add(plan, doubt, dye, sl_grade_factor(grade), grade);
}

static sl_grade weakest_ph(const sl_scene *scene)
{
    sl_grade grade = SL_GRADE_MEASURED_HERE;
    for (int i = 0; i < scene->n_mixes; i++) {
        grade = weaker(grade, scene->mixes[i].ph.grade);
    }
    return grade;
}

static sl_grade weakest_loss(const sl_scene *scene)
{
    sl_grade grade = scene->chemistry.fibre_loss_per_min.grade;
    for (int i = 0; i < scene->n_mixes; i++) {
        const sl_mix *const mix = &scene->mixes[i];
        grade = weaker(grade,
                       mix->loss_l_mol_min.value > 0.0 ? mix->loss_l_mol_min.grade : mix->loss_per_min.grade);
    }
    return grade;
}

sl_draw_plan sl_draw_plan_of(const sl_scene *scene)
{
    const sl_chemistry *const ch = &scene->chemistry;
    sl_draw_plan plan = {0};
    const sl_grade ph = weakest_ph(scene);
    add(&plan, SL_DOUBT_PH, -1, ph == SL_GRADE_MEASURED_HERE ? PH_MEASURED : PH_ASSUMED, ph);
    add(&plan, SL_DOUBT_WARMTH, -1, WARMTH_K, SL_GRADE_ASSUMED);
    add_factor(&plan, SL_DOUBT_PEROXIDE_ENTRY, -1, ch->peroxide_diffusion_cm2_s.grade);
    add_factor(&plan, SL_DOUBT_PERSULFATE_ENTRY, -1, ch->persulfate_diffusion_cm2_s.grade);
    add_factor(&plan, SL_DOUBT_PARTITION, -1, ch->persulfate_partition.grade);
    add_factor(&plan, SL_DOUBT_SATURATION, -1, ch->saturation_mol_l.grade);
    add_factor(&plan, SL_DOUBT_COUPLE, -1, ch->couple_l_mol_min.grade);
    add_factor(&plan, SL_DOUBT_LOSS, -1, weakest_loss(scene));
    add_factor(&plan, SL_DOUBT_CYSTINE, -1, weakest_rate(&ch->cystine));
    add_factor(&plan, SL_DOUBT_MELANIN, -1,
               weaker(weakest_rate(&ch->melanin[SL_EUMELANIN].rates),
                      weakest_rate(&ch->melanin[SL_PHEOMELANIN].rates)));
    add_factor(&plan, SL_DOUBT_RADICAL, -1, ch->couple_l_mol_min.grade);
    add_factor(&plan, SL_DOUBT_OPENING, -1, ch->damage_opens.grade);
    add(&plan, SL_DOUBT_GRAMS, -1, WEIGHING, SL_GRADE_ASSUMED);
    for (int dye = 0; dye < scene->n_dyes; dye++) {
        if (scene->dyes[dye].class_ != SL_DYE_OXIDATIVE) {
            add_factor(&plan, SL_DOUBT_DYE, dye, weakest_rate(&scene->dyes[dye].rates));
        }
    }
    return plan;
}

/* Every doubt but the dyes' is drawn once. */
bool draws_fit(const sl_scene *scene, sl_error *error)
{
    int dyes = 0;
    for (int dye = 0; dye < scene->n_dyes; dye++) {
        dyes += scene->dyes[dye].class_ != SL_DYE_OXIDATIVE ? 1 : 0;
    }
    return dyes <= SL_MOST_DRAWN - SL_DOUBT_DYE ||
           sl_fail(error, SL_ERR_TOO_LARGE, "so many direct dyes in one scene, each in doubt by itself",
                   "19 of them");
}

typedef struct doubt_words {
    const char *what, *measure;
} doubt_words;

static const doubt_words words[] = {
    [SL_DOUBT_PH] = {N_("the pH of the mixes"),
                     N_("measure the pH of each mix, fresh and after half an hour")},
    [SL_DOUBT_WARMTH] = {N_("how warm the hair is"),
                         N_("measure the temperature of the hair, not of the room")},
    [SL_DOUBT_PEROXIDE_ENTRY] = {N_("how fast peroxide enters the fibre"),
                                 N_("run one dyed strand with peroxide alone, rinsed at several times")},
    [SL_DOUBT_PERSULFATE_ENTRY] = {N_("how fast persulfate enters the fibre"),
                                   N_("run one dyed strand with powder and water, rinsed at several times")},
    [SL_DOUBT_PARTITION] = {N_("how much persulfate the fibre takes up"),
                            N_("run strands with half and with all of the powder")},
    [SL_DOUBT_SATURATION] = {N_("how far more peroxide still helps"),
                             N_("run strands with 3 % and with 6 %")},
    [SL_DOUBT_COUPLE] = {N_("how fast peroxide and persulfate use each other up"),
                         N_("test a mix that has stood for half an hour against a fresh one")},
    [SL_DOUBT_LOSS] = {N_("how fast the peroxide is lost"),
                       N_("titrate the peroxide of the mix at 0, 30 and 60 minutes")},
    [SL_DOUBT_CYSTINE] = {N_("how fast the hair is hurt"),
                          N_("stretch-test undyed strands rinsed at several times")},
    [SL_DOUBT_MELANIN] = {N_("how fast the base moves"), N_("read undyed strands rinsed at several times")},
    [SL_DOUBT_RADICAL] = {N_("how much peroxide and persulfate do together"),
                          N_("run the same strand with powder and water beside powder and 6 %")},
    [SL_DOUBT_OPENING] = {N_("how much hurt hair opens"),
                          N_("run a strand of virgin beside one of lightened hair")},
    [SL_DOUBT_GRAMS] = {N_("how much mix is on the hair"), N_("weigh the mix on each swatch")},
    [SL_DOUBT_DYE] = {N_("how fast this dye leaves"),
                      N_("rinse snips of one dyed swatch at 5, 10, 20 and 30 minutes")},
};

const char *sl_doubt_word(sl_doubt doubt)
{
    assert(doubt <= SL_DOUBT_DYE);
    return words[doubt].what;
}

const char *sl_doubt_measure(sl_doubt doubt)
{
    assert(doubt <= SL_DOUBT_DYE);
    return words[doubt].measure;
}
