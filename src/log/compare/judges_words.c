/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Who looked, and what the order of grades tell otherwise than means, in words. See compare_page.h.
 */
#include <math.h>

#include "base/append.h"
#include "base/language.h"
#include "log/compare/compare_page.h"

/* Of the root of a share, in steps of the grades: as many lie between 0 and 1. */
static double steps(double root)
{
    return root * (SL_WIPES - 1);
}

bool sl_compare_judge_words(const sl_compare *compare, int judge, char *text, size_t size)
{
    const sl_seen_judge *const of = &compare->judge[judge];
    const double off = of->is.judge.offset, half = of->offset_half;
    const bool apart = half >= 0.0 && fabs(off) > half;
    if (apart && of->learned) {
        snprintf(
            text, size,
            _("%s sees %+.1f steps of the grades against the mean of these judges (%+.1f to %+.1f) and errs "
              "by %.1f (%.1f to %.1f, of %d looks again)."),
            of->code, steps(off), steps(off - half), steps(off + half), steps(of->is.judge.spread),
            steps(of->is.spread_low), steps(of->is.spread_high), of->again);
    } else if (apart) {
        snprintf(
            text, size,
            _("%s sees %+.1f steps of the grades against the mean of these judges (%+.1f to %+.1f); looked "
              "again too seldom to tell how it errs."),
            of->code, steps(off), steps(off - half), steps(off + half));
    } else if (of->learned) {
        snprintf(text, size, _("%s errs by %.1f steps of the grades (%.1f to %.1f, of %d looks again)."),
                 of->code, steps(of->is.judge.spread), steps(of->is.spread_low), steps(of->is.spread_high),
                 of->again);
    }
    return apart || of->learned;
}

bool sl_otherwise_words(sl_told_otherwise all, const char *zones, char *text, size_t size)
{
    snprintf(text, size,
             _("Pairs of strips told apart by means alone: %d; by the order of their grades alone: %d (in "
               "%s). Places are those of means."),
             all.by_means, all.by_order, zones);
    return zones[0] != '\0';
}

bool sl_compare_otherwise_words(const sl_compare_page *page, char *text, size_t size)
{
    const sl_compare *const compare = page->compare;
    char zones[400] = "";
    sl_told_otherwise all = {0, 0};
    for (int z = 0; z < compare->scene->n_zones; z++) {
        const sl_told_otherwise told = sl_compare_otherwise(compare, z);
        if (sl_compare_page_shows(page, z) && told.by_means + told.by_order > 0) {
            sl_append_item(zones, sizeof zones, ", ", "%s", sl_zone_title(&compare->scene->zones[z]));
            all.by_means += told.by_means;
            all.by_order += told.by_order;
        }
    }
    return sl_otherwise_words(all, zones, text, size);
}
