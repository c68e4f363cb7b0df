/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See returning.h.
 */
#include "report/returning.h"

#include <math.h>

#include "base/append.h"
#include "base/language.h"
#include "document/text.h"
#include "report/reading.h"
#include "slowlift/what_if.h"

enum { WORDS = 640 };

/* Of the zone in which it is most, in whole points; *most: that zone, -1 where none returns. */
static int points_back(const sl_timeline *timeline, int arm, int *most)
{
    const sl_scene *const scene = sl_timeline_scene(timeline);
    const double dry_min = fmin(sl_arm_dry_min(scene, &scene->arms[arm]), scene->until_min);
    const double end_min = sl_arm_end_min(scene, arm);
    double points = 0.0;
    *most = -1;
    for (int zone = 0; zone < scene->n_zones; zone++) {
        if (!sl_reading_returns(timeline, arm, zone)) {
            continue;
        }
        const double back =
            sl_left_at(timeline, arm, zone, end_min) - sl_left_at(timeline, arm, zone, dry_min);
        if (*most < 0 || back > points) {
            points = back;
            *most = zone;
        }
    }
    return (int)lround(100.0 * points);
}

void sl_say_returning(sl_document *document, const sl_timeline *timeline, int only)
{
    const sl_scene *const scene = sl_timeline_scene(timeline);
    char words[WORDS] = "";
    bool returns = false;
    for (int arm = 0; arm < scene->n_arms; arm++) {
        int zone = -1;
        const int points = only < 0 || only == arm ? points_back(timeline, arm, &zone) : 0;
        returns = returns || zone >= 0;
        if (zone >= 0 && points >= 1) {
            sl_append_item(words, sizeof words, "; ", _("%d in %d (\"%s\")"), points, arm + 1,
                           sl_zone_title(&scene->zones[zone]));
        }
    }
    if (words[0] != '\0') {
        sl_document_row(document, _("Comes back"),
                        _("As planned, from dry to a day after the water, in points: %s."), words);
    } else if (returns) {
        sl_document_row(document, _("Comes back"), "%s", _("As planned, less than a point."));
    }
}
