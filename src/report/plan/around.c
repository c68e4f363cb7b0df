/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What belongs to a plan and lies outside its day.
 */
#include "base/language.h"
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
