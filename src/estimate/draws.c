/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What is drawn for a scene, and how widely. The width follows the grade (src/model/widths.c), and the shifts
 * below are assumed. How fast a dye,
 * the melanins or cystine go where they were fitted is one draw, and how that is divided among the
 * channels another (docs/science.md, "What is drawn"); the radical flux meets all three alike.
 */
#include <assert.h>
#include <math.h>

#include "base/language.h"
#include "estimate/members.h"

static const double WARMTH_K = 2.0;  /* of a bench: hair against the room's thermometer (assumed) */
static const double WEIGHING = 1.10; /* grams of mix on the hair (assumed) */

/* Doses of the mix that rates were fitted in: powder with 6 %, fresh, 30 min at 32 C on natural hair, by the
 * shipped chemistry; minutes times mol/L, of radicals (mol/L)^2. Only their ratios count, as weights. */
static const double FITTED_RIM[SL_CHANNELS] = {
    [SL_PERHYDROXYL] = 0.71, [SL_PERSULFATE] = 17.0, [SL_RADICAL] = 0.40};
static const double FITTED_CORE[SL_CHANNELS] = {
    [SL_PERHYDROXYL] = 0.39, [SL_PERSULFATE] = 6.0, [SL_RADICAL] = 0.084};

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

static sl_grade weakest_melanin(const sl_chemistry *ch)
{
    return weaker(weakest_rate(&ch->melanin[SL_EUMELANIN].rates),
                  weakest_rate(&ch->melanin[SL_PHEOMELANIN].rates));
}

/* One draw serves how far both causes open, as wide as that which is less known; the lipids' loss goes with
 * the flux of radicals. */
static sl_grade weakest_opening(const sl_chemistry *ch)
{
    const sl_grade by_cystine = ch->damage_opens.grade;
    return ch->lipids_open.value > 0.0 ? weaker(by_cystine, ch->lipids_open.grade) : by_cystine;
}

static void put(sl_draw_plan *plan, sl_drawn drawn)
{
    assert(plan->n < SL_MOST_DRAWN); /* a scene holds no more dyes */
    plan->drawn[plan->n++] = drawn;
}

static void add(sl_draw_plan *plan, sl_doubt doubt, int dye, double spread, sl_grade grade)
{
    put(plan, (sl_drawn){.doubt = doubt, .dye = dye, .spread = spread, .grade = grade});
}

/* Each channel that has a part in what takes a target where it was fitted, as wide as its own grade; none
 * where one has all of it. rim_share: of the target, 0 of what lies in the core alone. */
static void add_division(sl_draw_plan *plan, sl_doubt doubt, int dye, const sl_rates *rates, double rim_share)
{
    double part[SL_CHANNELS], all = 0.0;
    for (int c = 0; c < SL_CHANNELS; c++) {
        part[c] = rates->k[c].value * (rim_share * FITTED_RIM[c] + (1.0 - rim_share) * FITTED_CORE[c]);
        all += part[c];
    }
    for (int c = 0; c < SL_CHANNELS; c++) {
        const sl_grade grade = rates->k[c].grade;
        if (part[c] > 0.0 && part[c] < all) {
            put(plan, (sl_drawn){.doubt = doubt,
                                 .dye = dye,
                                 .spread = sl_grade_factor(grade),
                                 .grade = grade,
                                 .channel = c,
                                 .share = part[c] / all});
        }
    }
}

static sl_grade returns_grade(const sl_dye *dye)
{
    return weaker(dye->air_return_per_min.grade, dye->oxidant_return_l_mol_min.grade);
}

/* By any agent, held by a mix of the scene or not. */
static bool is_reduced(const sl_dye *dye)
{
    bool reduced = false;
    for (int id = 0; id < SL_REDUCTANTS; id++) {
        reduced = reduced || dye->reduced[id].value > 0.0;
    }
    return reduced && dye->class_ != SL_DYE_OXIDATIVE;
}

/* What only reduction leaves in doubt, behind all else. */
static void add_reduction(sl_draw_plan *plan, const sl_scene *scene)
{
    sl_grade grade = SL_GRADE_ASSUMED;
#define DRAW(name, unchanged, grade_of, width, what, measure)                                                \
    grade = grade_of;                                                                                        \
    add(plan, SL_DOUBT_##name, -1, width, grade);
    SL_DOUBT_AGENT_LIST(DRAW)
#undef DRAW
    for (int i = 0; i < scene->n_dyes; i++) {
        const sl_dye *const dye = &scene->dyes[i];
#define DRAW(name, unchanged, grade_of, width, what, measure)                                                \
    grade = grade_of;                                                                                        \
    if (is_reduced(dye) && (SL_DOUBT_##name != SL_DOUBT_RETURN || dye->leuco_share.value > 0.0)) {           \
        add(plan, SL_DOUBT_##name, i, width, grade);                                                         \
    }
        SL_DOUBT_REDUCED_LIST(DRAW)
#undef DRAW
    }
}

sl_draw_plan sl_draw_plan_of(const sl_scene *scene)
{
    const sl_chemistry *const ch = &scene->chemistry;
    sl_draw_plan plan = {0};
    sl_grade grade = SL_GRADE_ASSUMED;
#define DRAW(name, unchanged, grade_of, width, what, measure)                                                \
    grade = grade_of;                                                                                        \
    add(&plan, SL_DOUBT_##name, -1, width, grade);
    SL_DOUBT_LIST(DRAW)
#undef DRAW
    for (int dye = 0; dye < scene->n_dyes; dye++) {
        if (scene->dyes[dye].class_ != SL_DYE_OXIDATIVE) {
            grade = weakest_rate(&scene->dyes[dye].rates);
            add(&plan, SL_DOUBT_DYE, dye, sl_grade_factor(grade), grade);
        }
    }
    add_division(&plan, SL_DOUBT_CYSTINE_BY, -1, &ch->cystine, 0.0);
    add_division(&plan, SL_DOUBT_MELANIN_BY, -1, &ch->melanin[SL_EUMELANIN].rates, 0.0);
    for (int dye = 0; dye < scene->n_dyes; dye++) {
        const sl_dye *const of = &scene->dyes[dye];
        if (of->class_ != SL_DYE_OXIDATIVE) {
            add_division(&plan, SL_DOUBT_DYE_BY, dye, &of->rates, of->rim_share.value);
        }
    }
    if (sl_scene_reduces(scene)) {
        add_reduction(&plan, scene);
    }
    return plan;
}

typedef struct doubt_words {
    const char *what, *measure;
} doubt_words;

#define WORDS(name, unchanged, grade, width, what, measure) [SL_DOUBT_##name] = {what, measure},
static const doubt_words words[] = {
    [SL_DOUBT_DYE] = {N_("how fast this dye leaves"),
                      N_("rinse snips of one dyed swatch at 5, 10, 20 and 30 minutes")},
    [SL_DOUBT_CYSTINE_BY] = {N_("what hurts the hair"),
                             N_("stretch-test undyed strands of powder and water, and of peroxide alone, "
                                "beside powder and 6 %")},
    [SL_DOUBT_MELANIN_BY] = {N_("what moves the base"),
                             N_("read undyed strands of powder and water, and of peroxide alone, beside "
                                "powder and 6 %")},
    [SL_DOUBT_DYE_BY] = {N_("what takes this dye"),
                         N_("rinse snips of one dyed swatch under powder and water, and under peroxide "
                            "alone, beside powder and 6 %")},
    SL_DOUBT_LIST(WORDS) SL_DOUBT_AGENT_LIST(WORDS) SL_DOUBT_REDUCED_LIST(WORDS)};
#undef WORDS

bool sl_drawn_of_dye(const sl_drawn *drawn)
{
    return drawn->doubt == SL_DOUBT_DYE || drawn->doubt == SL_DOUBT_DYE_BY ||
           drawn->doubt >= SL_DOUBT_REDUCED;
}

bool sl_drawn_of_channel(const sl_drawn *drawn)
{
    return drawn->doubt > SL_DOUBT_DYE && drawn->doubt <= SL_DOUBT_DYE_BY;
}

const char *sl_doubt_word(sl_doubt doubt)
{
    assert(doubt < SL_DOUBTS);
    return words[doubt].what;
}

const char *sl_doubt_measure(sl_doubt doubt)
{
    assert(doubt < SL_DOUBTS);
    return words[doubt].measure;
}
