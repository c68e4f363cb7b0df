/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The sheets that lie on the bench: tags, check card, safety checklist. A check card looks first
 * after SL_FIRST_LOOK_MIN minutes and then at least every SL_LOOK_EVERY_MIN (limits.h).
 */
#include <math.h>

#include "base/language.h"
#include "paper/pack/pack.h"
#include "slowlift/answer.h"

void sl_sheet_tags(sl_document *document, const sl_pack *pack)
{
    const sl_plan *const plan = pack->page->plan;
    sl_document_say(document, "%s",
                    _("Cut along the dashes, tie each tag to its swatch. A tag tells nobody which mix it is: "
                      "the key is the last sheet, and whoever judges has not read it."));
    sl_document_cards(document, _("Tags to cut out"), 3, 92.0);
    for (int i = 0; i < plan->n_swatches; i++) {
        sl_document_card(
            document, plan->swatches[i].code,
            _("Repeat %d\nOn at: ____ : ____ : ____\nWater at: ____ : ____ : ____\nDyed on: ____________"),
            plan->swatches[i].block + 1);
    }
}

/* Minutes from contact until the last mix of any swatch of this plan is off. */
static double longest_on(const sl_plan *plan)
{
    int longest_s = 0;
    for (int i = 0; i < plan->n_swatches; i++) {
        const sl_planned_swatch *const swatch = &plan->swatches[i];
        const int on_s = swatch->contact_s < 0 ? 0 : swatch->water_s - swatch->contact_s;
        longest_s = on_s > longest_s ? on_s : longest_s;
    }
    return longest_s / 60.0;
}

static bool looks_at(const sl_plan_request *request, int minute)
{
    for (int i = 0; i < request->n_looks; i++) {
        if (request->look_min[i] == minute) {
            return true;
        }
    }
    return false;
}

void sl_sheet_check(sl_document *document, const sl_pack *pack)
{
    static const sl_text_column columns[] = {{N_("Minutes on"), 1.5, SL_RIGHT},
                                             {N_("Warm? bubbles, smoke, smell?"), 2.6, 0},
                                             {N_("Stretch: does it come back?"), 2.6, 0},
                                             {N_("Wiped: what the cotton shows"), 3.0, 0},
                                             {N_("Who"), 1.1, 0}};
    const sl_plan *const plan = pack->page->plan;
    const int last = (int)ceil(longest_on(plan));
    sl_document_lines(document, 0, "%s",
                      _("Swatch: ____________   Contact at: ____ : ____ : ____   Label's time: ________"));
    sl_document_table(document, _("One card for each swatch that is watched"), 5, columns, 25.0);
    int since = 0;
    for (int minute = SL_FIRST_LOOK_MIN; minute <= last && minute <= SL_MOST_LOOKS; minute++) {
        const bool due = minute == SL_FIRST_LOOK_MIN || minute - since == SL_LOOK_EVERY_MIN;
        if (due || looks_at(&plan->request, minute) || minute == last) {
            since = minute;
            sl_document_cell(document, "%d", minute);
            for (int c = 1; c < 5; c++) {
                sl_document_cell(document, "%s", "");
            }
        }
    }
    sl_document_say(
        document, "%s",
        _("Colour: no change, slight, about half, mostly gone, ghost only, as undyed. Wipe the mix off "
          "first: foam and wet hair hide what is left."));
    sl_document_heading(document, _("Stop signs: rinse now, whatever the clock says"));
    sl_document_item(document, "%s",
                     _("The mix grows warm, bubbles, smokes or smells odd, or an odd colour shows"));
    sl_document_item(document, "%s", _("Hair stays long after a pull, feels like gum or snaps"));
    sl_document_item(document, "%s", _("Somebody coughs, wheezes, itches, or skin stings"));
    sl_document_item(document, "%s", _("The label's time is up"));
}

void sl_sheet_safety(sl_document *document, const sl_pack *pack)
{
    const sl_plan *const plan = pack->page->plan;
    static const sl_text_column columns[] = {{N_("Product, as on its packet"), 4.0, 0},
                                             {N_("Hazard sheet read, date"), 2.0, 0},
                                             {N_("Label's longest time"), 1.8, 0},
                                             {N_("Opened on"), 1.5, 0}};
    sl_document_table(document, _("Products"), 4, columns, 26.0);
    for (int m = 0; m < plan->scene->n_mixes && m < 6; m++) {
        for (int c = 0; c < 4; c++) {
            sl_document_cell(document, "%s", "");
        }
    }
    sl_document_heading(document, _("Before"));
    sl_document_tick(document, "%s",
                     _("Everybody was asked in private about asthma, allergies and earlier reactions"));
    sl_document_tick(document, "%s",
                     _("Doors or windows open, or extraction on, where powder is opened, put on and rinsed"));
    sl_document_tick(document, "%s",
                     _("Running water for eyes and skin tried out; way out free; help can be called"));
    sl_document_tick(document, "%s", _("Nothing to eat or drink on the bench"));
    sl_document_heading(document, _("Eyes and clothes"));
    sl_document_tick(
        document, "%s",
        _("Goggles that close at the sides on everybody near powder, mix or basin, over glasses too"));
    sl_document_tick(document, "%s",
                     _("An apron that keeps wet off, sleeves that cover the arm; hair tied back"));
    sl_document_heading(document, _("Gloves"));
    sl_document_tick(
        document, "%s",
        _("Of the material that the hazard sheet names, long enough for the wrist, without powder"));
    sl_document_tick(document, "%s", _("On before the packet is opened; still on while rinsing"));
    sl_document_tick(document, "%s",
                     _("A fresh pair for each person and round; torn or wet inside: changed at once"));
    sl_document_heading(document, _("After"));
    sl_document_tick(document, "%s", _("Left-over mix stands open, cool and airy, until it is quiet"));
    sl_document_tick(document, "%s", _("Bench wiped wet, not swept; hands washed and creamed"));
    sl_document_heading(document, _("Cautions"));
}
