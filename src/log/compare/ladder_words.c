/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A minute that is ranked in place of the end, and rates, in words. Invariant: no time stands without a
 * range, and none has decimals. See compare_page.h.
 */
#include <assert.h>
#include <math.h>
#include <string.h>

#include "base/append.h"
#include "base/language.h"
#include "base/minute.h"
#include "document/text.h"
#include "log/compare/compare_page.h"
#include "log/compare/looks.h"
#include "report/limits/limits.h"

/* ---- a minute in place of the end ------------------------------------------------------------------ */

/* Whether arms that were seen in shown zones have a ladder, or are wiped. */
static void kinds_of(const sl_compare_page *page, bool *pieces, bool *looks)
{
    const sl_compare *const compare = page->compare;
    *pieces = *looks = false;
    for (int z = 0; z < compare->scene->n_zones; z++) {
        for (int a = 0; sl_compare_page_shows(page, z) && a < compare->scene->n_arms; a++) {
            const bool seen = sl_compare_arm(compare, a, z)->place > 0;
            *pieces = *pieces || (seen && sl_compare_ladder(compare, a));
            *looks = *looks || (seen && !sl_compare_ladder(compare, a));
        }
    }
}

bool sl_compare_at_words(const sl_compare_page *page, char *text, size_t size)
{
    bool pieces = false, looks = false;
    kinds_of(page, &pieces, &looks);
    if (!pieces && !looks) {
        return false;
    }
    snprintf(text, size,
             pieces && looks ? _("Ranked is not the end but minute %d: pieces that were cut off and rinsed "
                                 "then, and looks at hair wiped under the mix.")
             : pieces ? _("Ranked is not the end but minute %d: pieces that were cut off and rinsed then. "
                          "The model's number is of hair that lay so long and was then rinsed as planned.")
                      : _("Ranked is not the end but minute %d: looks at hair wiped under the mix, and "
                          "the model's number under the mix."),
             page->compare->at_min);
    return true;
}

/* The end of a ladder is a piece too. */
static bool last_piece_seen(const sl_compare *compare, int arm, int zone)
{
    for (int i = 0; i < compare->n_swatches; i++) {
        if (compare->bench[i].arm == arm && compare->swatches[i].bench.ladder &&
            sl_swatch_at(compare, i, zone, compare->basis[zone], sl_compare_dwell_min(compare, arm)) >
                SL_NOT_READ) {
            return true;
        }
    }
    return false;
}

void sl_compare_no_look_words(const sl_compare_page *page, char *text, size_t size)
{
    enum { MOST = 24 };
    const sl_compare *const compare = page->compare;
    int minutes[MOST] = {0}, n = 0;
    for (int z = 0; z < compare->scene->n_zones; z++) {
        for (int a = 0; a < compare->scene->n_arms && (page->only < 0 || page->only == z); a++) {
            int own[MOST];
            const int n_own = sl_compare_minutes(compare, a, z, own, MOST);
            for (int i = 0; i < n_own; i++) {
                n = sl_minutes_put(minutes, n, MOST, own[i]);
            }
            n = last_piece_seen(compare, a, z)
                    ? sl_minutes_put(minutes, n, MOST, sl_compare_dwell_min(compare, a))
                    : n;
        }
    }
    char list[200];
    sl_minutes_words(SL_MINUTE_PLANNED, minutes, n, list, sizeof list);
    if (n == 0) {
        sl_minute_words(SL_MINUTE_PLANNED, text, size,
                        _("Nobody looked at minute %d, nor at any other before the end."), compare->at_min);
    } else {
        char at[24];
        sl_minute_words(SL_MINUTE_PLANNED, at, sizeof at, "%d", compare->at_min);
        snprintf(text, size, _("Nobody looked at minute %s. There are looks at %s."), at, list);
    }
}

/* ---- rates ------------------------------------------------------------------------------------------ */

const sl_rate *sl_compare_page_rate(const sl_compare_page *page, int arm, int zone)
{
    const bool shown = page->rates && (page->only < 0 || page->only == zone);
    const sl_rate *const rate = shown ? &page->rates[arm * page->compare->scene->n_zones + zone] : NULL;
    return rate && rate->per_min.n > 0 ? rate : NULL;
}

static double half_life(double per_min)
{
    return log(2.0) / per_min;
}

/* A range is rounded outwards, so that it never says more than is known. */
void sl_half_life_words(const sl_seen_mean *rate, char *text, size_t size)
{
    if (rate->half < 0.0) {
        snprintf(text, size, "%s", _("no range"));
        return;
    }
    if (rate->mean + rate->half <= 0.0) {
        snprintf(text, size, "%s", _("does not leave"));
        return;
    }
    const double least = floor(half_life(rate->mean + rate->half));
    if (rate->mean - rate->half <= 0.0) {
        sl_minute_words(SL_MINUTE_CLOCK, text, size, _("%.0f min or more"), least);
    } else {
        sl_minute_words(SL_MINUTE_CLOCK, text, size, "%.0f min (%.0f-%.0f)",
                        fmax(1.0, round(half_life(rate->mean))), least,
                        ceil(half_life(rate->mean - rate->half)));
    }
}

void sl_model_half_life_words(const sl_rate *rate, char *text, size_t size)
{
    if (rate->model_per_min <= 0.0) {
        snprintf(text, size, "%s", rate->model_per_min > SL_NOT_READ ? _("does not leave") : "-");
        return;
    }
    const double half = half_life(rate->model_per_min);
    /* Ten times as long as a class's day is no number to read. */
    if (half > SL_COMPARE_LATEST) {
        snprintf(text, size, "%s", _("over a day"));
    } else {
        sl_minute_words(SL_MINUTE_MODEL, text, size, _("about %.0f min"), fmax(1.0, round(half)));
    }
}

static bool any_ladder(const sl_compare *compare)
{
    for (int a = 0; a < compare->scene->n_arms; a++) {
        if (sl_compare_ladder(compare, a)) {
            return true;
        }
    }
    return false;
}

void sl_rates_words(const sl_compare_page *page, char *text, size_t size)
{
    const int cells = page->compare->scene->n_arms * page->compare->scene->n_zones;
    int left_out = 0;
    assert(page->rates);
    for (int i = 0; i < cells; i++) {
        const int zone = i % page->compare->scene->n_zones;
        left_out += page->only < 0 || page->only == zone ? page->rates[i].left_out : 0;
    }
    snprintf(text, size, "%s",
             any_ladder(page->compare)
                 ? _("As if the same part left every minute, which is an approximation: dye near the surface "
                     "leaves before that in the core and the mix weakens, so that the model itself does not "
                     "keep to it. Each swatch gives one rate (least squares; the start is left free, since "
                     "rinsing and washing take a part of every piece alike); in brackets the 95 % interval "
                     "of their mean. The model's is taken in the same way at the same minutes.")
                 : _("As if the same part left every minute, which is an approximation: dye near the surface "
                     "leaves before that in the core and the mix weakens, so that the model itself does not "
                     "keep to it. Each swatch gives one rate (least squares from all the colour at contact); "
                     "in brackets the 95 % interval of their mean. The model's is taken in the same way at "
                     "the same minutes."));
    if (left_out > 0) {
        sl_append_item(text, size, " ",
                       sl_plural("%d look \"as undyed\" is left out: of nothing no pace can be told. That "
                                 "makes its time look longer than it was.",
                                 "%d looks \"as undyed\" are left out: of nothing no pace can be told. That "
                                 "makes their times look longer than they were.",
                                 left_out),
                       left_out);
    }
}
