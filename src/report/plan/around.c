/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What belongs to a plan and lies outside its day.
 */
#include <stdio.h>

#include "base/append.h"
#include "base/language.h"
#include "document/text.h"
#include "report/plan/plan.h"

void sl_plan_say_after(sl_document *document, const sl_plan *plan)
{
    int n = 0;
    for (int i = 0; i < plan->n_swatches; i++) {
        n += plan->swatches[i].contact_s >= 0 ? 1 : 0;
    }
    sl_document_heading(document, _("After the day"));
    sl_document_item(
        document, "%s",
        _("The same day: five ticks, for leftovers open or emptied, bench, powder, waste and hands."));
    sl_document_item(document,
                     sl_plural("A day later: look again at the %d swatch that something was put on.",
                               "A day later: look again at the %d swatches that something was put on.", n),
                     n);
    sl_document_item(document, "%s",
                     _("After the next wash: look again, washed and dry. Colour may come back each time."));
}

/* ---- the dye day ---------------------------------------------------------------------------------- */

enum { CODES = 4096, RECIPE = 200, SPARE_FOR = 10 /* one kept back for so many (assumed) */ };

static bool is_dyed(const sl_plan *plan, int swatch)
{
    return !plan->scene->arms[plan->swatches[swatch].arm].undyed;
}

/* Codes of those that are dyed, or of those that are not. Returns how many. */
static int codes_of(const sl_plan *plan, bool dyed, char text[CODES])
{
    int n = 0;
    text[0] = '\0';
    for (int i = 0; i < plan->n_swatches; i++) {
        if (is_dyed(plan, i) == dyed) {
            sl_append_item(text, CODES, ", ", "%s", plan->swatches[i].code);
            n++;
        }
    }
    return n;
}

/* "red (strength 2.5), blue (strength 2)": as the scene has them; false: the zone is of the other sort. */
static bool recipe_words(const sl_scene *scene, int zone, bool direct, char text[RECIPE])
{
    const sl_recipe *const recipe = &scene->zones[zone].recipe;
    text[0] = '\0';
    for (int i = 0; i < recipe->n_dyes; i++) {
        sl_append_item(text, RECIPE, ", ", _("%s (strength %g)"), sl_dye_title(&scene->dyes[recipe->dye[i]]),
                       recipe->strength[i]);
    }
    return recipe->n_dyes > 0 && sl_zone_direct(scene, zone) == direct;
}

/* What needs to be developed and rinsed comes first (common practice, no source). */
static void say_colours(sl_document *document, const sl_scene *scene)
{
    static const sl_text_column columns[] = {
        {N_("zone"), 2.0, SL_NAME}, {N_("hair"), 3.0, 0}, {N_("dyes (strength: about 4 is vivid)"), 4.0, 0}};
    char recipe[RECIPE];
    sl_document_table(document, _("Colours, in this order"), 3, columns, 0.0);
    for (int direct = 0; direct < 2; direct++) {
        for (int zone = 0; zone < scene->n_zones; zone++) {
            if (recipe_words(scene, zone, direct == 1, recipe)) {
                const sl_hair *const hair = &scene->hairs[scene->zones[zone].hair];
                const char *const title = sl_wording_shown(&hair->title);
                sl_document_cell(document, "%s", sl_zone_title(&scene->zones[zone]));
                sl_document_cell(document, "%s", title ? title : hair->name);
                sl_document_cell(document, "%s", recipe);
            }
        }
    }
    sl_document_say(
        document, "%s",
        _("What is permanent or demi first, rinsed and dry. Then one colour after the other, with "
          "an undyed gap or a tie between two, so that none runs into the next."));
}

void sl_plan_say_dyeing(sl_document *document, const sl_plan *plan)
{
    char codes[CODES], undyed[CODES], hair[24];
    const int n = codes_of(plan, true, codes), n_undyed = codes_of(plan, false, undyed);
    const int spare = (n + SPARE_FOR - 1) / SPARE_FOR;
    sl_short_number(plan->scene->hair_g, 2, hair, sizeof hair);
    sl_document_say(document,
                    _("Swatches of one lot of hair, %s g each: %d to dye in one session, by one person; %d "
                      "stay undyed. Keep %d back besides."),
                    hair, n, n_undyed, spare + 1);
    say_colours(document, plan->scene);
    sl_document_heading(document, _("Mark each with its code before it is wet"));
    sl_document_row(document, _("dyed"), "%s", codes);
    if (n_undyed > 0) {
        sl_document_row(document, _("undyed"), "%s", undyed);
    }
    sl_document_heading(document, _("Keep back, in the dark"));
    sl_document_item(document,
                     sl_plural("%d dyed swatch that is never treated: what light and time do alone",
                               "%d dyed swatches that are never treated: what light and time do alone",
                               spare),
                     spare);
    sl_document_item(document, "%s", _("1 undyed swatch of the same lot: what clear looks like"));
    sl_document_heading(document, _("Then"));
    sl_document_tick(document, "%s", _("Washed alike until the water runs clear; dried without a hot tool"));
    sl_document_tick(document, "%s", _("The day noted: slowlift log dyed LOG"));
    sl_document_tick(document, "%s", _("Rested overnight at least, all for the same number of days"));
    sl_document_tick(document, "%s",
                     _("Each photographed dry, beside a grey card, under one lamp: that is minute 0"));
}

void sl_plan_say_dye_day(sl_document *document, const void *of, sl_error *error)
{
    const sl_plan *const plan = ((const sl_plan_page *)of)->plan;
    char title[512];
    snprintf(title, sizeof title, _("Dye day: %s"), sl_scene_title(plan->scene));
    sl_document_begin(document, "dye-day", title, error);
    sl_plan_say_dyeing(document, plan);
    sl_document_end(document, SL_ON_CLASS);
}
