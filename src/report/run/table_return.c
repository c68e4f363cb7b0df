/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What looked gone and came back: strips with a reducing mix as their hair has dried, and a day after it was
 * rinsed. Nothing is said of a scene without such a mix.
 */
#include <math.h>

#include "base/language.h"
#include "document/text.h"
#include "report/reading.h"
#include "report/run/table.h"
#include "slowlift/what_if.h"

enum { MOST_COLUMNS = 1 + SL_MAX_ZONES };

static bool arm_returns(const sl_run_page *page, int arm)
{
    bool returns = false;
    for (int zone = 0; zone < page->scene->n_zones; zone++) {
        returns = returns || sl_reading_returns(page->timeline, arm, zone);
    }
    return returns;
}

static void say_zone(sl_document *document, const sl_run_page *page, int arm, int zone)
{
    const sl_scene *const scene = page->scene;
    const double dry_min = fmin(sl_arm_dry_min(scene, &scene->arms[arm]), scene->until_min);
    char dry[16], later[16];
    sl_percent(sl_left_at(page->timeline, arm, zone, dry_min), dry, sizeof dry);
    sl_percent(sl_left_at(page->timeline, arm, zone, sl_arm_end_min(scene, arm)), later, sizeof later);
    sl_document_cell(document, _("%s, then %s"), dry, later);
}

void sl_run_say_return(sl_document *document, const sl_run_page *page)
{
    const sl_scene *const scene = page->scene;
    sl_text_column columns[MOST_COLUMNS] = {{N_("strip"), 4.0, SL_NAME}};
    int n = 1, first = 0;
    while (first < scene->n_arms && !arm_returns(page, first)) {
        first++;
    }
    if (first == scene->n_arms) {
        return;
    }
    sl_document_heading(document, _("WHAT COMES BACK"));
    sl_document_say(
        document, "%s",
        _("Colour left, % of its start: as the hair has dried, then a day after the last water. What a "
          "reducing mix leaves without colour is still in the hair; air, peroxide or the next colour "
          "bring it back."));
    for (int zone = 0; zone < scene->n_zones; zone++) {
        if (scene->zones[zone].recipe.n_dyes > 0) {
            columns[n++] =
                (sl_text_column){sl_zone_title(&scene->zones[zone]), 1.0, SL_OWN | SL_RIGHT | SL_TALL};
        }
    }
    sl_document_table(document, "", n, columns, 0.0);
    for (int arm = first; arm < scene->n_arms; arm++) {
        if (!arm_returns(page, arm)) {
            continue;
        }
        sl_document_cell(document, "%s", sl_arm_title(&scene->arms[arm]));
        for (int zone = 0; zone < scene->n_zones; zone++) {
            if (scene->zones[zone].recipe.n_dyes > 0) {
                say_zone(document, page, arm, zone);
            }
        }
    }
}
