/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What stands behind the chosen zone of the chosen strip: doses, oxidants, its spectrum,
 * how it was solved and what its numbers are worth.
 */
#include <stdio.h>

#include "base/language.h"
#include "report/reading.h"
#include "view/draw/graph_pen.h"
#include "view/panels/panel.h"
#include "view/window/action.h"

enum { LINE = 256 };

typedef struct page {
    const sl_stage *stage;
    const sl_pen *pen;
    const sl_story *story;
    int x, y, w;
} page;

static void head(page *p, const char *text)
{
    p->y += sl_pen_px(p->pen, 5.0);
    sl_pen_write(p->pen, SL_TYPE_STRONG, SL_INK_TEXT, p->x, p->y, SL_ALIGN_LEFT, text);
    p->y += sl_text_line_height(p->pen->text, SL_TYPE_STRONG);
}

static void row(page *p, const char *name, const char *value)
{
    sl_pen_write(p->pen, SL_TYPE_SMALL, SL_INK_TEXT, p->x, p->y, SL_ALIGN_LEFT, name);
    sl_pen_write(p->pen, SL_TYPE_SMALL, SL_INK_TEXT, p->x + p->w, p->y, SL_ALIGN_RIGHT, value);
    p->y += sl_text_line_height(p->pen->text, SL_TYPE_SMALL);
}

static void words(page *p, const char *text)
{
    p->y += sl_pen_wrap(p->pen, SL_TYPE_SMALL, SL_INK_TEXT, (SDL_Rect){p->x, p->y, p->w, 0}, false, text);
}

static void pair_row(page *p, const char *name, double one, double other)
{
    char text[LINE];
    snprintf(text, sizeof text, "%.3g · %.3g", one, other);
    row(p, name, text);
}

static void show_doses(page *p, const sl_moment *m)
{
    char text[LINE];
    head(p, _("Dose so far, mol min/L: rim · core"));
#define DOSE(NAME, name, key, required, order, dose, ...)                                                    \
    pair_row(p, dose, m->rim_dose[SL_##NAME], m->core_dose[SL_##NAME]);
    SL_CHANNEL_LIST(DOSE)
#undef DOSE
    head(p, _("Oxidant left, mol/L: mix · fibre"));
#define LEFT(NAME, name, entry, words) pair_row(p, _(words), m->name##_mol_l, m->fibre_##name##_mol_l);
    SL_OXIDANT_LIST(LEFT)
#undef LEFT
    snprintf(text, sizeof text, _("%.3g · wetness %.2f"), m->undissolved_mol_l, m->wetness);
    row(p, _("undissolved"), text);
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

static void show_spectrum(page *p)
{
    const sl_stage *stage = p->stage;
    const bool changed = sl_stage_changed(stage, stage->chosen.arm);
    const sl_spectrum spectra[2] = {spectrum_of(p, p->story, changed ? _("after") : NULL),
                                    spectrum_of(p, &stage->solved.before, _("before"))};
    head(p, _("Reflectance of the zone"));
    const int h = sl_pen_px(p->pen, 92.0) + 3 * sl_text_line_height(p->pen->text, SL_TYPE_SMALL);
    sl_spectra_draw(p->pen, (SDL_Rect){p->x, p->y, p->w, h}, spectra, changed ? 2 : 1);
    p->y += h;
}

static void show_colour(page *p)
{
    const sl_stage *stage = p->stage;
    const sl_stage_reading *reading = sl_stage_reading_now(stage, stage->chosen.arm);
    sl_viewing viewing = stage->look.eyes.viewing;
    viewing.look = reading->look;
    sl_cell cell;
    char text[LINE];
    sl_timeline_at(p->story->timeline, stage->chosen.arm, stage->chosen.zone, reading->time_min,
                   sl_stage_optics(stage, reading->look), &cell);
    const sl_colour *c = &cell.colour;
    snprintf(text, sizeof text, "L* %.0f  a* %.0f  b* %.0f", c->lab.L, c->lab.a, c->lab.b);
    row(p, "CIELAB", text);
    snprintf(text, sizeof text, "%d %d %d%s", c->srgb.r, c->srgb.g, c->srgb.b,
             c->clipped ? _(" (moved to fit)") : "");
    row(p, _("on this screen, sRGB"), text);
    sl_viewing_words(viewing, text, sizeof text);
    words(p, text);
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

static void show_grades(page *p)
{
    const sl_stage *stage = p->stage;
    const sl_scene *scene = p->story->scene;
    char text[LINE];
    head(p, _("How good the numbers are"));
    if (scene->zones[stage->chosen.zone].recipe.n_dyes > 0) {
        row(p, _("rates of this zone’s dye"), _(sl_grade_word(dye_grade(scene, stage->chosen.zone))));
    }
    const sl_step *apply = sl_arm_application(&scene->arms[stage->chosen.arm]);
    if (apply != NULL) {
        row(p, _("pH of the mix"), _(sl_grade_word(scene->mixes[apply->mix].ph.grade)));
    }
    row(p, _("hair"), _(sl_grade_word(scene->hairs[scene->zones[stage->chosen.zone].hair].grade)));
    snprintf(text, sizeof text, _("weakest of all: %s (%s)"), _(sl_grade_word(scene->weakest)),
             scene->weakest_what != NULL ? scene->weakest_what : _("not named"));
    words(p, text);
    head(p, _("How it was solved"));
    snprintf(text, sizeof text, _("This zone: %s. The scene: %d solves, %ld evaluations."),
             sl_sharing_word(sl_timeline_method(p->story->timeline, stage->chosen.arm, stage->chosen.zone)),
             sl_timeline_solves(p->story->timeline), sl_timeline_calls(p->story->timeline));
    words(p, text);
}

/* The observer, below the text. */
SDL_Rect sl_science_control(const sl_stage *stage, sl_action_id action, int which)
{
    (void)action;
    (void)which;
    const SDL_Rect panel = stage->laid.layout.panel;
    const int h = SDL_max(stage->laid.layout.target, sl_text_line_height(stage->pen.text, SL_TYPE_STRONG));
    return (SDL_Rect){panel.x, panel.y + panel.h - h, panel.w, h};
}

int sl_science_show(const sl_stage *stage)
{
    const sl_pen *pen = &stage->pen;
    SDL_Rect panel = stage->laid.layout.panel;
    const SDL_Rect observer = sl_science_control(stage, SL_DO_OBSERVER, 0);
    const int pad = sl_pen_px(pen, 10.0);
    const bool changed = sl_stage_changed(stage, stage->chosen.arm);
    page p = {.stage = stage,
              .pen = pen,
              .story = changed ? &stage->solved.after : &stage->solved.before,
              .x = panel.x + pad,
              .y = panel.y + pad / 2 - stage->open.scroll[1],
              .w = panel.w - 2 * pad};
    sl_pen_fill(pen, panel, SL_GROUND_SHEET);
    sl_pen_frame(pen, panel, 1, SL_MARK_GRID);
    char text[LINE];
    sl_action_draw(stage, observer, SL_DO_OBSERVER, 0);
    panel.h = observer.y - panel.y - 1;
    SDL_SetClipRect(pen->sheet, &panel);
    snprintf(text, sizeof text, _("Strip %d, zone “%s”%s"), stage->chosen.arm + 1,
             sl_zone_title(&p.story->scene->zones[stage->chosen.zone]),
             changed ? _(", after the change") : "");
    head(&p, text);
    sl_moment moment;
    sl_timeline_moment(p.story->timeline, stage->chosen.arm, stage->chosen.zone,
                       stage->read.reading[changed ? 1 : 0][stage->chosen.arm].time_min, &moment);
    if (sl_timeline_predicted(p.story->timeline, stage->chosen.arm)) {
        show_doses(&p, &moment);
    } else {
        words(&p, _("Outside the model: no dose is computed."));
    }
    show_spectrum(&p);
    show_colour(&p);
    show_grades(&p);
    SDL_SetClipRect(pen->sheet, NULL);
    return p.y + pad - panel.y + stage->open.scroll[1] - panel.h;
}
