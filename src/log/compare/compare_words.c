/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Sentences about what was seen, short enough to be read aloud. See compare_page.h.
 */
#include <math.h>
#include <string.h>

#include "base/append.h"
#include "base/language.h"
#include "base/minute.h"
#include "document/text.h"
#include "log/compare/compare_page.h"
#include "report/arm_table.h"
#include "report/plan/day.h"

bool sl_compare_page_shows(const sl_compare_page *page, int zone)
{
    return (page->only < 0 || page->only == zone) && sl_compare_shows(page->compare, zone);
}

static const sl_seen_mean *seen_of(const sl_compare *compare, int arm, int zone)
{
    return &sl_compare_arm(compare, arm, zone)->seen[compare->basis[zone]];
}

int sl_compare_order(const sl_compare *compare, int zone, int order[SL_MAX_ARMS])
{
    int n = 0;
    for (int a = 0; a < compare->scene->n_arms; a++) {
        const sl_seen_arm *const arm = sl_compare_arm(compare, a, zone);
        int at = n;
        if (arm->place == 0) {
            continue;
        }
        for (; at > 0; at--) {
            const int before = order[at - 1];
            const int place = sl_compare_arm(compare, before, zone)->place;
            if (place < arm->place || (place == arm->place && seen_of(compare, before, zone)->mean <=
                                                                  seen_of(compare, a, zone)->mean)) {
                break;
            }
            order[at] = before;
        }
        order[at] = a;
        n++;
    }
    return n;
}

static int with_place(const sl_compare *compare, int zone, int place)
{
    int n = 0;
    for (int a = 0; a < compare->scene->n_arms; a++) {
        n += sl_compare_arm(compare, a, zone)->place == place ? 1 : 0;
    }
    return n;
}

void sl_compare_place_words(const sl_compare *compare, int arm, int zone, char *text, size_t size)
{
    const int place = sl_compare_arm(compare, arm, zone)->place;
    sl_arm_place_words(place, with_place(compare, zone, place) > 1, text, size);
}

/* An interval may reach below nothing or above all; a share cannot. */
static double within(double share)
{
    return fmin(fmax(share, 0.0), 1.0);
}

void sl_seen_mean_words(const sl_seen_mean *mean, char *text, size_t size)
{
    char middle[16], low[16], high[16];
    if (mean->n == 0) {
        snprintf(text, size, "%s", _("not seen"));
        return;
    }
    sl_percent(within(mean->mean), middle, sizeof middle);
    if (mean->half < 0.0) {
        snprintf(text, size, "%s %%", middle);
        return;
    }
    sl_percent(within(mean->mean - mean->half), low, sizeof low);
    sl_percent(within(mean->mean + mean->half), high, sizeof high);
    snprintf(text, size, "%s %% (%s-%s)", middle, low, high);
}

/* "powder + 3 %, powder + 6 %". */
static void names_of_first(const sl_compare *compare, int zone, char *text, size_t size)
{
    int order[SL_MAX_ARMS];
    const int n = sl_compare_order(compare, zone, order);
    text[0] = '\0';
    for (int i = 0; i < n && sl_compare_arm(compare, order[i], zone)->place == 1; i++) {
        sl_append_item(text, size, ", ", "\"%s\"", sl_arm_title(&compare->scene->arms[order[i]]));
    }
}

void sl_first_words(const sl_first *of, char *text, size_t size)
{
    if (of->n > 1 && of->first == of->n) {
        snprintf(text, size,
                 of->repeated ? _("In %s no strip came clearly before another: all are even.")
                              : _("In %s no order can be told: one swatch shows no spread."),
                 of->zone);
    } else if (of->n == 1) {
        snprintf(text, size, _("In %s only %s was seen; it left %s of the colour."), of->zone, of->names,
                 of->left);
    } else if (of->first == 1) {
        snprintf(text, size, _("In %s %s came first and left %s of the colour."), of->zone, of->names,
                 of->left);
    } else {
        snprintf(text, size, _("In %s these are even in the first place: %s."), of->zone, of->names);
    }
}

void sl_compare_first_words(const sl_compare *compare, int zone, char *text, size_t size)
{
    int order[SL_MAX_ARMS];
    char names[400], left[48];
    const int n = sl_compare_order(compare, zone, order);
    names_of_first(compare, zone, names, sizeof names);
    sl_seen_mean_words(seen_of(compare, order[0], zone), left, sizeof left);
    const sl_first of = {
        sl_zone_title(&compare->scene->zones[zone]), names, left, n, with_place(compare, zone, 1),
        compare->scatter[zone].freedom > 0};
    sl_first_words(&of, text, size);
}

bool sl_compare_before_words(const sl_compare *compare, int arm, int zone, char *text, size_t size)
{
    char names[600] = "";
    int order[SL_MAX_ARMS];
    const int n = sl_compare_order(compare, zone, order);
    for (int i = 0; i < n; i++) {
        if (sl_compare_before(compare, zone, arm, order[i])) {
            sl_append_item(names, sizeof names, ", ", "\"%s\"",
                           sl_arm_title(&compare->scene->arms[order[i]]));
        }
    }
    snprintf(text, size, _("\"%s\" comes before %s."), sl_arm_title(&compare->scene->arms[arm]), names);
    return names[0] != '\0';
}

void sl_compare_scatter_words(const sl_compare *compare, int zone, char *text, size_t size)
{
    char number[16], least[16];
    if (compare->scatter[zone].freedom == 0) {
        snprintf(text, size, "%s", _("No strip was repeated here: nothing tells luck from a difference."));
        return;
    }
    sl_percent(compare->scatter[zone].sd, number, sizeof number);
    if (compare->asked_floor >= 0.0) {
        sl_percent(compare->asked_floor, least, sizeof least);
        snprintf(text, size,
                 _("A swatch scatters by %s points of 100 about its strip and round; two means less than %s "
                   "apart are even (as asked)."),
                 number, least);
    } else if (compare->basis[zone] == SL_BASIS_COLOUR) {
        sl_percent(sl_compare_least_sd(compare, zone, 0.0), least, sizeof least);
        snprintf(text, size,
                 _("By the instrument: a swatch scatters by %s points of 100 about its strip and round, and "
                   "counts as no less than %s: half of what laying hair anew makes by itself (assumed)."),
                 number, least);
    } else if (compare->repeat_sd > 0.0) {
        sl_percent(compare->repeat_sd, least, sizeof least);
        snprintf(
            text, size,
            _("By wipe grades: a swatch scatters by %s points of 100 about its strip and round, and counts "
              "as no less than half a step of the grades, or the %s by which a judge's looks at the same "
              "scatter (%d looked again)."),
            number, least, compare->repeats);
    } else {
        snprintf(
            text, size,
            _("By wipe grades: a swatch scatters by %s points of 100 about its strip and round, and counts "
              "as no less than half a step of the grades."),
            number);
    }
}

/* ---- handling
 * ----------------------------------------------------------------------------------------------- */

static const char *code_of(const sl_compare *compare, int swatch)
{
    return swatch >= 0 ? compare->swatches[swatch].bench.code : _("the test");
}

static const char *strip_of(const sl_compare *compare, int swatch)
{
    return sl_title_of_arm(compare->scene, compare->swatches[swatch].arm);
}

static void add_effect(const sl_compare *compare, const sl_deviation *deviation, char *text, size_t size)
{
    char number[24];
    if (deviation->zone >= 0) {
        sl_short_number(deviation->factor, 2, number, sizeof number);
        sl_append_item(text, size, " ",
                       _("By the model what was planned would have left %s times as much in %s."), number,
                       sl_zone_title(&compare->scene->zones[deviation->zone]));
    }
}

void sl_deviation_words(const sl_compare *compare, const sl_deviation *deviation, char *text, size_t size)
{
    const char *const code = code_of(compare, deviation->swatch);
    char minutes[32], piece[32];
    sl_clock_time(SL_MINUTE_CLOCK, round(fabs(deviation->seconds)) / 60.0, minutes, sizeof minutes);
    switch (deviation->kind) {
    case SL_DEVIATION_LATE:
    case SL_DEVIATION_EARLY:
        snprintf(text, size,
                 deviation->kind == SL_DEVIATION_LATE ? _("%s was rinsed late by %s min.")
                                                      : _("%s was rinsed early by %s min."),
                 code, minutes);
        add_effect(compare, deviation, text, size);
        return;
    case SL_DEVIATION_MIX_AGE:
        snprintf(text, size,
                 deviation->seconds > 0.0 ? _("%s: the mix was %s min older at contact than planned.")
                                          : _("%s: the mix was %s min fresher at contact than planned."),
                 code, minutes);
        add_effect(compare, deviation, text, size);
        return;
    case SL_DEVIATION_REST:
        snprintf(text, size,
                 deviation->seconds > 0.0 ? _("%s: it waited %s min longer than planned between two mixes.")
                                          : _("%s: it waited %s min less than planned between two mixes."),
                 code, minutes);
        add_effect(compare, deviation, text, size);
        return;
    case SL_DEVIATION_LABEL:
        snprintf(text, size, _("%s lay longer than its label's time."), code);
        return;
    case SL_DEVIATION_STOPPED:
        snprintf(text, size, _("%s was stopped and rinsed: %s."), code,
                 sl_day_reason_words(deviation->reason));
        return;
    case SL_DEVIATION_CLOCKS:
        snprintf(text, size, _("%s: two clocks disagreed about its time; the longer one was taken."), code);
        return;
    case SL_DEVIATION_UNEQUAL:
        snprintf(text, size, _("Swatches of \"%s\" lay for unequal times, %s min apart."),
                 strip_of(compare, deviation->swatch), minutes);
        return;
    case SL_DEVIATION_PIECE:
        sl_minute_words(SL_MINUTE_PLANNED, piece, sizeof piece, "%d", deviation->piece_min);
        snprintf(text, size,
                 deviation->seconds > 0.0 ? _("%s: the piece for %s min was cut off late by %s min.")
                                          : _("%s: the piece for %s min was cut off early by %s min."),
                 code, piece, minutes);
        add_effect(compare, deviation, text, size);
        return;
    case SL_DEVIATION_GUMMY:
        snprintf(text, size, _("%s was gummy or broke: a reason to stop, whatever the colour does."), code);
        return;
    case SL_DEVIATION_LOTS:
        snprintf(text, size, _("Bowls of \"%s\" came out of several lots, and count together here: %s."),
                 strip_of(compare, deviation->swatch), deviation->note);
        return;
    case SL_DEVIATION_NOTE:
    default:
        snprintf(text, size, _("%s, noted: \"%s\"."), code,
                 deviation->note[0] != '\0' ? deviation->note : sl_day_remark(deviation->remark));
        return;
    }
}

static bool first_changes(const sl_compare *compare, int zone)
{
    for (int a = 0; a < compare->scene->n_arms; a++) {
        const sl_seen_arm *const arm = sl_compare_arm(compare, a, zone);
        if ((arm->place == 1) != (arm->place_at_planned == 1)) {
            return true;
        }
    }
    return false;
}

void sl_compare_handling_words(const sl_compare_page *page, char *text, size_t size)
{
    const sl_compare *const compare = page->compare;
    char zones[200] = "";
    int off = 0;
    bool told = false;                                           /* by the model, what any of them changed */
    for (int i = 0, last = -1; i < compare->n_deviations; i++) { /* those of a swatch stand together */
        const sl_deviation *const deviation = &compare->deviations[i];
        const bool is = deviation->kind == SL_DEVIATION_LATE || deviation->kind == SL_DEVIATION_EARLY ||
                        deviation->kind == SL_DEVIATION_MIX_AGE || deviation->kind == SL_DEVIATION_REST;
        off += is && deviation->swatch != last ? 1 : 0;
        last = is ? deviation->swatch : last;
        told = told || (is && deviation->zone >= 0);
    }
    for (int z = 0; z < compare->scene->n_zones; z++) {
        if (sl_compare_page_shows(page, z) && first_changes(compare, z)) {
            sl_append_item(zones, sizeof zones, ", ", "%s", sl_zone_title(&compare->scene->zones[z]));
        }
    }
    if (off == 0) {
        snprintf(text, size, "%s", _("No swatch is known to have gone off its plan in time, mix or wait."));
    } else if (!told) {
        snprintf(
            text, size,
            sl_plural("%d swatch went off its plan in time, mix or wait; the model tells of no change by "
                      "that, and nothing was made equal.",
                      "%d swatches went off their plans in time, mix or wait; the model tells of no "
                      "change by that, and nothing was made equal.",
                      off),
            off);
    } else if (zones[0] == '\0') {
        snprintf(text, size,
                 sl_plural("%d swatch went off its plan in time, mix or wait; made equal by the model, the "
                           "first places stay.",
                           "%d swatches went off their plans in time, mix or wait; made equal by the model, "
                           "the first places stay.",
                           off),
                 off);
    } else {
        snprintf(text, size,
                 sl_plural("%d swatch went off its plan in time, mix or wait; made equal by the model, the "
                           "first place changes in %s.",
                           "%d swatches went off their plans in time, mix or wait; made equal by the model, "
                           "the first place changes "
                           "in %s.",
                           off),
                 off, zones);
    }
}

/* Of what is ranked: grades, where any colour is ranked by them. */
static double promised(const sl_compare_page *page)
{
    for (int z = 0; z < page->compare->scene->n_zones; z++) {
        if (sl_compare_page_shows(page, z) && page->compare->basis[z] == SL_BASIS_GRADE) {
            return page->promise->graded;
        }
    }
    return page->promise->read;
}

void sl_compare_unseen_words(const sl_compare_page *page, char *text, size_t size)
{
    const sl_compare *const compare = page->compare;
    int least = 0;
    for (int i = 0; i < compare->scene->n_arms * compare->scene->n_zones; i++) {
        const int n = compare->arms[i].seen[compare->basis[i % compare->scene->n_zones]].n;
        least = n > 0 && (least == 0 || n < least) ? n : least;
    }
    if (compare->even_below < 0.0) {
        snprintf(text, size, "%s",
                 _("One swatch of a strip shows no spread: the plan could not tell luck from a difference."));
        return;
    }
    char number[16];
    const double below = fmax(compare->even_below, compare->asked_floor);
    sl_percent(below, number, sizeof number);
    if (below >= 1.0) {
        snprintf(text, size,
                 sl_plural("With %d swatch each, scattering as these did, no difference could be told.",
                           "With %d swatches each, scattering as these did, no difference could be told.",
                           least),
                 least);
    } else {
        snprintf(
            text, size,
            sl_plural(
                "With %d swatch each, scattering as these did, differences below %s points of 100 look even.",
                "With %d swatches each, scattering as these did, differences below %s points of 100 look "
                "even.",
                least),
            least, number);
    }
    if (page->promise && promised(page) >= 0.0) {
        sl_percent(promised(page), number, sizeof number);
        sl_append_item(text, size, " ",
                       _("A plan of this size promises to tell about %s points in 8 of 10 such tests."),
                       number);
    } else if (page->promise) {
        sl_append_item(text, size, " ", "%s",
                       _("A plan of this size promises to tell no difference in 8 of 10 such tests."));
    }
}

bool sl_compare_judges_words(const sl_compare *compare, char *text, size_t size)
{
    const sl_agreement *const judges = &compare->judges;
    if (judges->pairs == 0) {
        return false;
    }
    const long equal = lround(100.0 * (double)judges->equal / (double)judges->pairs);
    if (!judges->known) {
        snprintf(text, size,
                 sl_plural("Two judges gave the same grade in %ld of 100 looks (%ld pair).",
                           "Two judges gave the same grade in %ld of 100 looks (%ld pairs).", judges->pairs),
                 equal, judges->pairs);
        return true;
    }
    snprintf(text, size,
             _("Two judges gave the same grade in %ld of 100 looks (%ld pairs; weighted kappa %.2f: 1 is "
               "full agreement, 0 no more than luck)."),
             equal, judges->pairs, judges->kappa);
    return true;
}

bool sl_compare_later_words(const sl_compare_page *page, char *text, size_t size)
{
    const sl_compare *const compare = page->compare;
    double sum = 0.0;
    int n = 0, darker = 0;
    for (int z = 0; z < compare->scene->n_zones; z++) {
        for (int a = 0; sl_compare_page_shows(page, z) && a < compare->scene->n_arms; a++) {
            const sl_seen_mean *const later = &sl_compare_arm(compare, a, z)->later;
            if (later->n > 0) {
                sum += later->mean;
                darker += later->half >= 0.0 && later->mean - later->half > 0.0 ? 1 : 0;
                n++;
            }
        }
    }
    if (n == 0) {
        return false;
    }
    snprintf(text, size,
             sl_plural("Looked at again after hours: %+.0f points of 100 of colour left in %d pair of strip "
                       "and zone; clearly more colour than at once in %d.",
                       "Looked at again after hours: %+.0f points of 100 of colour left on average over %d "
                       "pairs of strip and zone; clearly more colour than at once in %d of them.",
                       n),
             100.0 * sum / n, n, darker);
    return true;
}
