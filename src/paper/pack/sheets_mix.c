/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The sheets for whoever mixes: bowl labels and the mixing sheet with a worked example. Formulas:
 * by weight, docs/science.md, "Dilution".
 */
#include <stdio.h>

#include "base/language.h"
#include "base/minute.h"
#include "document/text.h"
#include "paper/pack/pack.h"
#include "slowlift/caution.h"

/* ---- bowl labels ---------------------------------------------------------------------------- */

/* "Powder 4.4 g, developer 8.8 g": what the bowl holds and no more. */
static void weights(const sl_plan *plan, const sl_bowl *bowl, char *words, size_t size)
{
    const int decimals = sl_scale_decimals(&plan->request);
    const sl_weighing *const shown = &bowl->shown;
    if (shown->powder_g <= 0.0) {
        snprintf(words, size, _("Both parts together %.*f g"), decimals, shown->developer_g + shown->water_g);
    } else if (shown->developer_g <= 0.0) {
        snprintf(words, size, _("Powder %.*f g, water %.*f g"), decimals, shown->powder_g, decimals,
                 shown->water_g);
    } else if (shown->water_g <= 0.0) {
        snprintf(words, size, _("Powder %.*f g, developer %.*f g"), decimals, shown->powder_g, decimals,
                 shown->developer_g);
    } else {
        snprintf(words, size, _("Powder %.*f g, developer %.*f g, water %.*f g"), decimals, shown->powder_g,
                 decimals, shown->developer_g, decimals, shown->water_g);
    }
}

static void put_label(sl_document *document, const sl_plan *plan, const sl_planned_swatch *swatch,
                      const sl_bowl *bowl)
{
    const sl_mix *const mix = &plan->scene->mixes[bowl->mix];
    const char *const only = sl_is_swatch_only(mix) ? _("CUT SWATCHES ONLY") : "";
    char grams[160];
    weights(plan, bowl, grams, sizeof grams);
    if (mix->label_max_min > 0.0) {
        char label[24];
        sl_minute_words(SL_MINUTE_PLANNED, label, sizeof label, "%.0f", mix->label_max_min);
        sl_document_card(
            document, swatch->code,
            _("%s\n%s\nRepeat %d. Mixed at: ____ : ____\nThrow away at: ____ : ____ (label: %s min)\n"
              "NEVER CLOSE: it can burst. Leave it open.\n%s"),
            sl_mix_title(mix), grams, swatch->block + 1, label, only);
        return;
    }
    sl_document_card(
        document, swatch->code,
        _("%s\n%s\nRepeat %d. Mixed at: ____ : ____\nThrow away at: ____ : ____ (see the label)\n"
          "NEVER CLOSE: it can burst. Leave it open.\n%s"),
        sl_mix_title(mix), grams, swatch->block + 1, only);
}

static void put_plain_label(sl_document *document, const sl_plan *plan, const sl_planned_swatch *swatch,
                            const sl_bowl *bowl)
{
    sl_document_card(document, swatch->code, _("%s\nWater %.*f g\nRepeat %d."),
                     sl_mix_title(&plan->scene->mixes[bowl->mix]), sl_scale_decimals(&plan->request),
                     bowl->shown.water_g, swatch->block + 1);
}

void sl_sheet_bowls(sl_document *document, const sl_pack *pack)
{
    const sl_plan *const plan = pack->page->plan;
    sl_document_say(document, "%s",
                    _("One bowl for one swatch, mixed fresh. Cut out the label and put it on the bowl before "
                      "anything goes in; the code is that of the swatch."));
    if (pack->page->blind) {
        sl_document_say(
            document, "%s",
            _("Labels say what is in a bowl, because whoever handles it must know. Whoever judges "
              "the swatches does not see the bowls."));
    }
    sl_document_cards(document, _("Labels to cut out"), 2, 130.0);
    for (int i = 0; i < plan->n_swatches; i++) {
        for (int b = 0; b < plan->n_bowls; b++) {
            const sl_bowl *const bowl = &plan->bowls[b];
            if (bowl->arm != plan->swatches[i].arm) {
                continue;
            }
            if (plan->scene->mixes[bowl->mix].class_ == SL_MIX_WATER) {
                put_plain_label(document, plan, &plan->swatches[i], bowl);
            } else {
                put_label(document, plan, &plan->swatches[i], bowl);
            }
        }
    }
}

/* ---- mixing sheet --------------------------------------------------------------------------- */

static const sl_bowl *example_bowl(const sl_plan *plan)
{
    for (int i = 0; i < plan->n_bowls; i++) {
        if (plan->bowls[i].exact.powder_g > 0.0 && plan->bowls[i].exact.developer_g > 0.0) {
            return &plan->bowls[i];
        }
    }
    for (int i = 0; i < plan->n_bowls; i++) {
        if (plan->bowls[i].exact.powder_g > 0.0) {
            return &plan->bowls[i];
        }
    }
    return NULL;
}

static void put_example(sl_document *document, const sl_plan *plan)
{
    const sl_bowl *const bowl = example_bowl(plan);
    if (bowl == NULL) {
        return;
    }
    const sl_scene *const scene = plan->scene;
    const sl_mix *const mix = &scene->mixes[bowl->mix];
    const double per_g = scene->arms[bowl->arm].steps[bowl->step].mix_g_per_g;
    const double liquid = mix->developer_parts + mix->water_parts;
    const double need = scene->hair_g * per_g, parts = mix->powder_parts + liquid;
    char hair[24], grams[24], whole[24], powder[24], wet[24], all[24], one[24], rest[24];
    sl_short_number(scene->hair_g, 2, hair, sizeof hair);
    sl_short_number(per_g, 2, grams, sizeof grams);
    sl_short_number(need, 2, whole, sizeof whole);
    sl_short_number(mix->powder_parts, 2, powder, sizeof powder);
    sl_short_number(liquid, 2, wet, sizeof wet);
    sl_short_number(parts, 2, all, sizeof all);
    sl_short_number(need * mix->powder_parts / parts, 2, one, sizeof one);
    sl_short_number(need * liquid / parts, 2, rest, sizeof rest);
    sl_document_heading(document, _("A worked example"));
    sl_document_say(document, _("Mix: %s."), sl_mix_title(mix));
    sl_document_item(document, _("One swatch of %s g, and %s g of mix for each gram of hair: %s g of mix."),
                     hair, grams, whole);
    sl_document_item(document, _("Parts by weight: %s of powder and %s of liquid, %s in all."), powder, wet,
                     all);
    sl_document_item(document, _("Powder: %s g × %s / %s = %s g. Liquid: %s g × %s / %s = %s g."), whole,
                     powder, all, one, whole, wet, all, rest);
    const int decimals = sl_scale_decimals(&plan->request);
    sl_document_item(document,
                     _("With %.0f %% more, as the scale shows it: %.*f g of powder and %.*f g of liquid."),
                     100.0 * plan->request.waste, decimals, bowl->shown.powder_g, decimals,
                     bowl->shown.developer_g + bowl->shown.water_g);
}

static void put_bowl(sl_document *document, const sl_plan *plan, const sl_bowl *bowl)
{
    const int decimals = sl_scale_decimals(&plan->request);
    char liquid[16], whole[16];
    sl_short_number(bowl->shown.liquid_pct, 1, liquid, sizeof liquid);
    sl_short_number(bowl->shown.on_hair_pct, 1, whole, sizeof whole);
    if (sl_is_swatch_only(&plan->scene->mixes[bowl->mix])) {
        sl_document_cell(document, _("%s (SWATCH ONLY)"), sl_arm_title(&plan->scene->arms[bowl->arm]));
    } else {
        sl_document_cell(document, "%s", sl_arm_title(&plan->scene->arms[bowl->arm]));
    }
    sl_put_grams(document, bowl->shown.powder_g, decimals);
    sl_put_grams(document, bowl->shown.developer_g, decimals);
    sl_put_grams(document, bowl->shown.water_g, decimals);
    sl_document_cell(document, "%s", liquid);
    sl_document_cell(document, "%s", whole);
    sl_document_cell(document, "%.0f %%", 100.0 * bowl->scale_error);
    sl_document_cell(document, "%s", "");
}

void sl_sheet_mixing(sl_document *document, const sl_pack *pack)
{
    static const sl_text_column columns[] = {{N_("Bowl for one swatch of"), 4.8, 0},
                                             {N_("Powder"), 1.5, SL_RIGHT},
                                             {N_("Developer"), 2.0, SL_RIGHT},
                                             {N_("Water"), 1.3, SL_RIGHT},
                                             {N_("Peroxide in liquid, %"), 1.9, SL_RIGHT},
                                             {N_("in all of it, %"), 1.5, SL_RIGHT},
                                             {N_("Scale errs by"), 1.4, SL_RIGHT},
                                             {N_("Weighed"), 1.8, 0}};
    const sl_plan *const plan = pack->page->plan;
    sl_document_table(document, _("Weigh each, in grams (developer: or the second part)"), 8, columns, 28.0);
    for (int i = 0; i < plan->n_bowls; i++) {
        put_bowl(document, plan, &plan->bowls[i]);
    }
    put_example(document, plan);
    sl_document_heading(document, _("Each time"));
    sl_document_tick(document, "%s", _("Read the label and the hazard sheet; everybody has seen them"));
    sl_document_tick(document, "%s", _("Air on, goggles, apron and gloves on, then the packet is opened"));
    sl_document_tick(document, "%s", _("Bowl on the scale, scale to zero, liquid weighed first"));
    sl_document_tick(document, "%s", _("Powder slid in from low down, stirred until smooth, not shaken"));
    sl_document_tick(document, "%s", _("Time of mixing written on the label of the bowl"));
    sl_document_heading(document, _("Cautions"));
    if (sl_plan_has_swatch_only(plan)) {
        sl_document_owes(document, SL_CAUTION_SWATCH_ONLY);
    }
}
