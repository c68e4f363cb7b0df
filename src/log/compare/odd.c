/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What was seen against the model's order: the pair of strips of which that is strangest, by the test's own
 * scatter, and what it is once every pair of the test is counted in (Bonferroni). See compare.h.
 */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/append.h"
#include "base/language.h"
#include "document/text.h"
#include "log/compare/compare_page.h"
#include "log/compare/looks.h"

enum { MEMBERS = 512 }; /* of the ensemble of two strips */

static const sl_seen_mean *seen_of(const sl_compare *compare, int arm, int zone)
{
    return &sl_compare_arm(compare, arm, zone)->seen[compare->basis[zone]];
}

static bool can_be_asked(const sl_compare *compare, int arm, int zone)
{
    const sl_seen_arm *const at = sl_compare_arm(compare, arm, zone);
    return at->place > 0 && at->predicted > SL_NOT_READ && sl_zone_direct(compare->scene, zone) &&
           sl_arm_removes(compare->scene, &compare->scene->arms[arm]);
}

/* Minutes from contact to the last first water, as planned. */
static double planned_min(const sl_compare *compare, int arm)
{
    const sl_arm *const of = &compare->scene->arms[arm];
    const int last = sl_arm_last_application(of);
    double minutes = 0.0, dwell = -1.0;
    for (int i = 0; i < compare->n_swatches; i++) {
        const sl_bench_swatch *const plan = &compare->swatches[i].bench;
        dwell = compare->bench[i].arm == arm && plan->n_more == 0 ? plan->dwell_s / 60.0 : dwell;
    }
    for (int i = 0; i <= last; i++) {
        const bool once = of->steps[i].kind == SL_STEP_APPLY && sl_arm_applications(of) == 1 && dwell >= 0.0;
        minutes += once ? dwell : sl_step_minutes(&of->steps[i]);
    }
    return minutes;
}

/* How many standard deviations the model has them the other way; below 0: as they were seen, or seen alike.
 */
static double against(const sl_compare *compare, int zone, int one, int other)
{
    const sl_seen_mean *const less = seen_of(compare, one, zone), *const more = seen_of(compare, other, zone);
    const double by_model =
        sl_compare_arm(compare, one, zone)->predicted - sl_compare_arm(compare, other, zone)->predicted;
    return less->mean < more->mean - 1e-9 ? by_model / sqrt(1.0 / less->n + 1.0 / more->n) : -1.0;
}

static void find_strangest(sl_compare *compare, int arms[2])
{
    double most = 0.0;
    for (int z = 0; z < compare->scene->n_zones; z++) {
        for (int one = 0; one < compare->scene->n_arms; one++) {
            for (int other = 0; other < compare->scene->n_arms; other++) {
                if (one == other || !can_be_asked(compare, one, z) || !can_be_asked(compare, other, z)) {
                    continue;
                }
                const double by = against(compare, z, one, other);
                compare->odd.pairs += one < other ? 1 : 0;
                if (by > most) {
                    most = by;
                    compare->odd.zone = z;
                    arms[0] = one;
                    arms[1] = other;
                }
            }
        }
    }
}

bool sl_odd_find(sl_compare *compare, sl_error *error)
{
    sl_odd_order *const odd = &compare->odd;
    sl_scatter scatter;
    sl_surprise *surprise = NULL;
    *odd = (sl_odd_order){.zone = -1};
    find_strangest(compare, odd->arm);
    if (odd->zone < 0) {
        return true;
    }
    const int one = odd->arm[0], other = odd->arm[1], zone = odd->zone;
    sl_surprise_request asked = {.zone = zone,
                                 .one = one,
                                 .other = other,
                                 .minute = {planned_min(compare, one), planned_min(compare, other)},
                                 .seeing = sl_seeing_usual(1, compare->basis[zone] == SL_BASIS_COLOUR),
                                 .members = MEMBERS,
                                 .seed = SL_SEED,
                                 .threads = 1};
    for (int k = 0; k < 2; k++) {
        const int n = seen_of(compare, odd->arm[k], zone)->n;
        asked.seeing.swatches[k] = n < SL_SEEING_SWATCHES ? n : SL_SEEING_SWATCHES;
    }
    if (sl_scatter_of(&scatter, compare)) {
        sl_seeing_by(&asked.seeing, &scatter);
    }
    odd->chance = sl_seeing_chance(&asked.seeing, sl_compare_arm(compare, one, zone)->predicted,
                                   sl_compare_arm(compare, other, zone)->predicted);
    if (odd->chance * odd->pairs < SL_ODD_ORDINARY) { /* the numbers' own doubt may make it so */
        if (!sl_surprise_run(&surprise, compare->scene, &asked, error)) {
            return false;
        }
        odd->chance = fmax(odd->chance, sl_surprise_chance(surprise));
        sl_surprise_free(surprise);
    }
    odd->chance = fmin(odd->chance * odd->pairs, 1.0);
    return true;
}

bool sl_compare_odd_words(const sl_compare *compare, char *text, size_t size)
{
    const sl_odd_order *const odd = &compare->odd;
    char seen[16];
    if (odd->zone < 0 || compare->at_min >= 0) {
        return false;
    }
    sl_of_hundred(odd->chance, seen, sizeof seen);
    snprintf(text, size, _("Against the model, \"%s\" left less of \"%s\" than \"%s\"."),
             sl_arm_title(&compare->scene->arms[odd->arm[0]]),
             sl_zone_title(&compare->scene->zones[odd->zone]),
             sl_arm_title(&compare->scene->arms[odd->arm[1]]));
    if (strcmp(seen, "100") != 0) { /* at most all of them: says nothing */
        sl_append_item(text, size, " ",
                       _("In at most %s of 100 such tests some pair of strips is seen as much against it."),
                       seen);
    }
    sl_append_item(text, size, " ", "%s", _(sl_oddity_sentence(sl_oddity_of(odd->chance))));
    return true;
}
