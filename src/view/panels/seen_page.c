/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What was seen on a day of strand tests in the chosen zone, as `slowlift compare` tells it, over what the
 * model predicts.
 */
#include "base/language.h"
#include "log/compare/compare_page.h"
#include "view/panels/said.h"

void sl_say_seen(sl_document *document, const sl_stage *stage, sl_error *error)
{
    const sl_seen_curves *const curves = stage->logs.seen;
    int order[SL_MAX_ARMS];
    if (curves == NULL) {
        sl_say_only(document, "compare",
                    _("No test of a log is open: slowlift watch --seen LOG shows what was seen over what the "
                      "model predicts."),
                    error);
        return;
    }
    const sl_compare_page page = {.compare = curves->compare,
                                  .only = stage->chosen.zone,
                                  .curves = curves,
                                  .chosen = stage->chosen.arm};
    if (sl_seen_order(curves, stage->chosen.zone, order) == 0 && !sl_compare_page_has_hair(&page)) {
        sl_say_only(document, "compare",
                    _("Nothing was looked at yet in this zone, or it holds no direct dye."), error);
    } else {
        sl_compare_say(document, &page, error);
    }
}
