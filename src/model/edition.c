/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See edition.h. tests/tools/check_edition.py holds results to those that each number was given for.
 */
#include "slowlift/edition.h"

#include <stdio.h>

#include "base/append.h"
#include "base/language.h"

const sl_edition sl_editions[] = {
    {"2026-11-30", N_("the first that has a number")},
    {"2026-12-01",
     N_("mixes warm themselves by their own reactions; pH computed from what a mix holds, over warmth and age; "
        "hair opens by lost lipids too, and melanin and cystine have new rates; shampoos take part of an "
        "oxidative colour at first and little of the rest")},
};
const int sl_edition_now = sizeof sl_editions / sizeof sl_editions[0];

const char *sl_edition_day(void)
{
    return sl_editions[sl_edition_now - 1].day;
}

bool sl_edition_since(const sl_edition *editions, int now, int kept, char text[SL_EDITION_WORDS])
{
    const char *const day = editions[now - 1].day;
    text[0] = '\0';
    if (kept == 0) {
        snprintf(
            text, SL_EDITION_WORDS,
            _("Model %d of %s computes here; the log does not say which one did when the test was kept."),
            now, day);
    } else if (kept > now) {
        snprintf(text, SL_EDITION_WORDS,
                 _("Model %d of %s computes here; the test was kept under model %d, of a newer slowlift."),
                 now, day, kept);
    } else if (kept < now) {
        char changes[SL_EDITION_WORDS / 2] = "";
        for (int number = kept + 1; number <= now; number++) {
            sl_append_item(changes, sizeof changes, "; ", "%s", _(editions[number - 1].change));
        }
        snprintf(text, SL_EDITION_WORDS,
                 _("Model %d of %s computes here; the test was kept under model %d. Changed since: %s."), now,
                 day, kept, changes);
    }
    return kept != now;
}
