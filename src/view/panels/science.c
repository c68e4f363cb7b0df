/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What stands behind the chosen zone of the chosen strip: doses, oxidants, its spectrum,
 * how it was solved and what its numbers are worth.
 */
#include <stdio.h>

#include "base/language.h"
#include "report/reading.h"
#include "report/run/curves.h"
#include "view/panels/said.h"

enum { LINE = 256 };
static const double CHART_HEIGHT = 75.0; /* points */

/* What is shown: of the strip after its change, where it has one. */
typedef struct page {
    const sl_stage *stage;
    const sl_story *story;
    bool changed;
} page;

/* A row of two numbers. */
static void say_pair(sl_document *document, const char *name, double one, double other)
{
    sl_document_cell(document, "%s", name);
    sl_document_cell(document, "%.3g", one);
    sl_document_cell(document, "%.3g", other);
}

static void say_doses(sl_document *document, const sl_moment *m)
{
    static const sl_text_column doses[] = {{"", 4.0, SL_OWN},
                                           {N_("rim"), 2.0, SL_RIGHT},
                                           {N_("core"), 2.0, SL_RIGHT}},
                                left[] = {{"", 4.0, SL_OWN},
                                          {N_("mix"), 2.0, SL_RIGHT},
                                          {N_("fibre"), 2.0, SL_RIGHT}};
    sl_document_table(document, _("Dose so far, mol min/L"), 3, doses, 0.0);
#define DOSE(NAME, name, key, required, order, dose, ...)                                                    \
    say_pair(document, dose, m->rim_dose[SL_##NAME], m->core_dose[SL_##NAME]);
    SL_CHANNEL_LIST(DOSE)
#undef DOSE
    sl_document_table(document, _("Oxidant left, mol/L"), 3, left, 0.0);
#define LEFT(NAME, name, entry, words) say_pair(document, _(words), m->name##_mol_l, m->fibre_##name##_mol_l);
    SL_OXIDANT_LIST(LEFT)
#undef LEFT
    sl_document_cell(document, "%s", _("undissolved"));
    sl_document_cell(document, "%.3g", m->undissolved_mol_l);
    sl_document_entry(document, (sl_entry){.kind = SL_ENTRY_NONE});
    sl_document_say(document, _("wetness %.2f"), m->wetness);
}

static sl_spectrum spectrum_of(const page *p, const sl_story *story, const char *label)
{
    const sl_stage *stage = p->stage;
    const sl_stage_reading *reading =
        &stage->read.reading[story == &stage->solved.after ? 1 : 0][stage->chosen.arm];
    const sl_optics *optics = sl_stage_optics(stage, reading->look);
    sl_cell cell;
    sl_timeline_at(story->timeline, stage->chosen.arm, stage->chosen.zone, reading->time_min, optics, &cell);
    return (sl_spectrum){optics, reading->look, cell.amounts, label};
}

static void say_colour(sl_document *document, const page *p)
{
    const sl_stage *stage = p->stage;
    const sl_spectrum spectra[2] = {spectrum_of(p, p->story, p->changed ? _("after") : NULL),
                                    spectrum_of(p, &stage->solved.before, _("before"))};
    const sl_graph *const chart =
        sl_graph_of_spectra(&document->arena, spectra, p->changed ? 2 : 1, document->error);
    sl_document_charts(document, _("Reflectance of the zone"), CHART_HEIGHT, 1, &chart);
    const sl_stage_reading *reading = sl_stage_reading_now(stage, stage->chosen.arm);
    sl_viewing viewing = stage->look.eyes.viewing;
    viewing.look = reading->look;
    sl_cell cell;
    char text[LINE];
    sl_timeline_at(p->story->timeline, stage->chosen.arm, stage->chosen.zone, reading->time_min,
                   sl_stage_optics(stage, reading->look), &cell);
    const sl_colour *c = &cell.colour;
    sl_document_row(document, "CIELAB", "L* %.0f  a* %.0f  b* %.0f", c->lab.L, c->lab.a, c->lab.b);
    sl_document_row(document, "sRGB",
                    c->clipped ? _("%d %d %d on this screen (moved to fit)") : _("%d %d %d on this screen"),
                    c->srgb.r, c->srgb.g, c->srgb.b);
    sl_viewing_words(viewing, text, sizeof text);
    sl_document_say(document, "%s", text);
}

/* The weakest grade among the rate constants of the zone's dyes. */
static sl_grade dye_grade(const sl_scene *scene, int zone)
{
    sl_grade weakest = SL_GRADE_MEASURED_HERE;
    const sl_recipe *recipe = &scene->zones[zone].recipe;
    for (int i = 0; i < recipe->n_dyes; i++) {
        const sl_dye *dye = &scene->dyes[recipe->dye[i]];
        for (int channel = 0; channel < SL_CHANNELS; channel++) {
            weakest = SDL_min(weakest, dye->rates.k[channel].grade);
        }
    }
    return weakest;
}

static void say_grades(sl_document *document, const page *p)
{
    static const sl_text_column columns[] = {{"", 1.0, SL_OWN}, {"", 1.0, SL_OWN | SL_RIGHT}};
    const sl_stage *stage = p->stage;
    const sl_scene *scene = p->story->scene;
    const sl_step *apply = sl_arm_application(&scene->arms[stage->chosen.arm]);
    sl_document_table(document, _("How good the numbers are"), 2, columns, 0.0);
    if (scene->zones[stage->chosen.zone].recipe.n_dyes > 0) {
        sl_document_cell(document, "%s", _("rates of this zone's dye"));
        sl_document_cell(document, "%s", _(sl_grade_word(dye_grade(scene, stage->chosen.zone))));
    }
    if (apply != NULL) {
        sl_document_cell(document, "%s",
                         scene->mixes[apply->mix].ph_computed ? _("pH of the mix, computed")
                                                              : _("pH of the mix, typed"));
        sl_document_cell(document, "%s", _(sl_grade_word(scene->mixes[apply->mix].ph.grade)));
    }
    sl_document_cell(document, "%s", _("hair"));
    sl_document_cell(document, "%s",
                     _(sl_grade_word(scene->hairs[scene->zones[stage->chosen.zone].hair].grade)));
    sl_document_say(document, _("weakest of all: %s (%s)"), _(sl_grade_word(scene->weakest)),
                    scene->weakest_what != NULL ? scene->weakest_what : _("not named"));
    sl_document_heading(document, _("How it was solved"));
    sl_document_say(
        document, _("This zone: %s. The scene: %d solves, %ld evaluations."),
        _(sl_sharing_word(sl_timeline_method(p->story->timeline, stage->chosen.arm, stage->chosen.zone))),
        sl_timeline_solves(p->story->timeline), sl_timeline_calls(p->story->timeline));
}

uint64_t sl_science_reads(const sl_stage *stage, uint64_t number)
{
    const sl_stage_reading *const reading = sl_stage_reading_now(stage, stage->chosen.arm);
    number = sl_leaf_number(number, &stage->look.eyes, sizeof stage->look.eyes);
    number = sl_leaf_number(number, &reading->look, sizeof reading->look);
    return sl_leaf_number(number, &reading->time_min, sizeof reading->time_min);
}

void sl_say_science(sl_document *document, const sl_stage *stage, sl_error *error)
{
    const int arm = stage->chosen.arm;
    const page p = {stage, sl_stage_story_now(stage, arm), sl_stage_changed(stage, arm)};
    char title[LINE];
    snprintf(title, sizeof title,
             p.changed ? _("Strip %d, zone “%s”, after the change") : _("Strip %d, zone “%s”"), arm + 1,
             sl_zone_title(&p.story->scene->zones[stage->chosen.zone]));
    sl_document_begin(document, "science", title, error);
    if (sl_timeline_predicted(p.story->timeline, arm)) {
        sl_moment moment;
        sl_timeline_moment(p.story->timeline, arm, stage->chosen.zone,
                           sl_stage_reading_now(stage, arm)->time_min, &moment);
        say_doses(document, &moment);
    } else {
        sl_document_say(document, "%s", _("Outside the model: no dose is computed."));
    }
    say_colour(document, &p);
    say_grades(document, &p);
    sl_document_end(document, SL_ON_NOTHING);
}
