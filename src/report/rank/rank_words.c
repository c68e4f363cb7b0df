/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Words of a comparison. See rank.h.
 */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/append.h"
#include "base/language.h"
#include "document/text.h"
#include "report/arm_table.h"
#include "report/rank/rank.h"
#include "report/told.h"
#include "slowlift/promise.h"

bool sl_rank_shows(const sl_rank_page *page, int zone)
{
    if (page->only >= 0) {
        return page->only == zone;
    }
    for (int arm = 0; arm < page->rank->n_arms; arm++) {
        if (sl_rank_has(page->rank, arm, zone)) {
            return true;
        }
    }
    return false;
}

int sl_rank_order(const sl_rank *rank, int zone, sl_standing_of what, int order[SL_MAX_ARMS])
{
    int place[SL_MAX_ARMS];
    double middle[SL_MAX_ARMS];
    int n = 0;
    sl_rank_zone_places(rank, zone, what, place);
    for (int arm = 0; arm < rank->n_arms; arm++) {
        if (place[arm] == 0) {
            continue;
        }
        middle[arm] = sl_rank_middle(rank, arm, zone, what).p50;
        int at = n++;
        for (; at > 0; at--) {
            const int before = order[at - 1];
            if (place[arm] > place[before] ||
                (place[arm] == place[before] && middle[arm] >= middle[before])) {
                break;
            }
            order[at] = before;
        }
        order[at] = arm;
    }
    return n;
}

void sl_rank_unbeaten(const sl_rank *rank, int zone, bool unbeaten[SL_MAX_ARMS])
{
    double left[SL_MAX_ARMS], stress[SL_MAX_ARMS];
    bool marked[SL_MAX_ARMS];
    int order[SL_MAX_ARMS];
    const int n = sl_rank_order(rank, zone, SL_LEFT_THEN, order);
    for (int i = 0; i < n; i++) {
        left[i] = sl_rank_middle(rank, order[i], zone, SL_LEFT_THEN).p50;
        stress[i] = sl_rank_middle(rank, order[i], zone, SL_STRESS_THEN).p50;
    }
    sl_unbeaten(left, stress, n, marked);
    memset(unbeaten, 0, SL_MAX_ARMS * sizeof *unbeaten);
    for (int i = 0; i < n; i++) {
        unbeaten[order[i]] = marked[i];
    }
}

void sl_rank_place_words(const sl_rank *rank, int arm, int zone, sl_standing_of what, char *text, size_t size)
{
    int place[SL_MAX_ARMS];
    bool tie = false;
    sl_rank_zone_places(rank, zone, what, place);
    for (int other = 0; other < rank->n_arms; other++) {
        tie = tie || (other != arm && place[other] == place[arm]);
    }
    sl_arm_place_words(place[arm], tie, text, size);
}

void sl_rank_middle_words(sl_middle middle, char *text, size_t size)
{
    const sl_entry entry = {
        .kind = SL_ENTRY_SHARE, .value = middle.p50, .low = middle.p10, .high = middle.p90};
    char words[SL_ENTRY_WORDS];
    snprintf(text, size, "%s", sl_entry_words(&entry, words));
}

void sl_rank_readings_words(const sl_rank_page *page, int arm, int zone, sl_readings_said *said)
{
    const sl_three_readings readings =
        sl_three_readings_of(page->timeline, arm, zone, page->rank->request.share);
    char number[24];
    snprintf(said->half, sizeof said->half, "%s", _("not reached"));
    snprintf(said->selectivity, sizeof said->selectivity, "%s", _("base unmoved"));
    if (readings.halved) {
        sl_minutes_range(readings.half_min, said->half, sizeof said->half);
    }
    sl_percent(readings.end_left, number, sizeof number);
    snprintf(said->end, sizeof said->end, "%s %%", number);
    if (readings.selectivity >= 0.0) {
        sl_short_number(readings.selectivity, readings.selectivity < 10.0 ? 1 : 0, number, sizeof number);
        snprintf(said->selectivity, sizeof said->selectivity,
                 readings.at_share ? "%s : 1" : _("%s : 1 (end)"), number);
    }
}

/* ---- why ------------------------------------------------------------------------------------- */

enum { WASHING = SL_CHANNELS, REDUCING, PARTS };
#define WORK(NAME, name, key, required, order, dose, rate, energy, work_key, work) work,
static const char *const channel_words[SL_CHANNELS] = {SL_CHANNEL_LIST(WORK)};
#undef WORK

static const char *part_word(int part)
{
    return part == WASHING    ? _("washing")
           : part == REDUCING ? _("the reducing agent")
                              : _(channel_words[part]);
}

static double part_of(const sl_reason *reason, int part)
{
    return part == WASHING ? reason->washing : part == REDUCING ? reason->reducing : reason->channel[part];
}

static sl_reason reason_of(const sl_rank_page *page, int arm, int zone)
{
    const sl_scene *const scene = sl_timeline_scene(page->timeline);
    return sl_reason_of(sl_timeline_rinsed(page->timeline), arm, zone,
                        scene->arms[arm].contact_min + page->rank->request.minute);
}

/* How much of that work the next arm had. */
static void add_next(char *text, size_t size, double first, double next)
{
    const double ratio = first > 0.0 ? next / first : 0.0;
    if (ratio < 0.005) {
        sl_append_item(text, size, " ", "%s", _("Of that the next had as good as none."));
    } else if (ratio < 0.95) {
        sl_append_item(text, size, " ", _("Of that the next had about %ld %% as much."),
                       lround(100.0 * ratio));
    } else if (ratio <= 1.05) {
        sl_append_item(text, size, " ", "%s", _("Of that the next had about as much."));
    } else {
        sl_append_item(text, size, " ", "%s", _("Of that the next had more."));
    }
}

/* The part in which the first is furthest ahead. */
static int furthest_ahead(const sl_reason *first, const sl_reason *next)
{
    int best = 0;
    for (int part = 1; part < PARTS; part++) {
        const double ahead = part_of(first, part) - part_of(next, part);
        best = ahead > part_of(first, best) - part_of(next, best) ? part : best;
    }
    return best;
}

void sl_rank_reason_words(const sl_rank_page *page, int zone, char *text, size_t size)
{
    const sl_scene *const scene = sl_timeline_scene(page->timeline);
    int order[SL_MAX_ARMS];
    const int n = sl_rank_order(page->rank, zone, SL_LEFT_THEN, order);
    if (n == 0) {
        snprintf(text, size, _("no strip is ranked here"));
        return;
    }
    const sl_reason first = reason_of(page, order[0], zone);
    int most = 0;
    for (int part = 1; part < PARTS; part++) {
        most = part_of(&first, part) > part_of(&first, most) ? part : most;
    }
    snprintf(text, size, _("\"%s\" has the least left in the middle model run: %s did %ld %% of its work."),
             sl_arm_title(&scene->arms[order[0]]), part_word(most),
             first.sum > 0.0 ? lround(100.0 * part_of(&first, most) / first.sum) : 0L);
    if (n < 2) {
        return;
    }
    const sl_reason next = reason_of(page, order[1], zone);
    const int ahead = furthest_ahead(&first, &next);
    int place[SL_MAX_ARMS];
    sl_rank_zone_places(page->rank, zone, SL_LEFT_THEN, place);
    sl_append_item(text, size, " ",
                   place[order[1]] == place[order[0]] ? _("\"%s\" is next, and even with it.")
                                                      : _("\"%s\" is next."),
                   sl_arm_title(&scene->arms[order[1]]));
    add_next(text, size, part_of(&first, most), part_of(&next, most));
    if (ahead != most) {
        sl_append_item(text, size, " ", _("What puts the first ahead is %s."), part_word(ahead));
        add_next(text, size, part_of(&first, ahead), part_of(&next, ahead));
    }
}

/* ---- a surprise ------------------------------------------------------------------------------- */

static int strongest_draw(const sl_surprise *asked)
{
    int best = -1;
    for (int d = 0; d < asked->plan.n; d++) {
        if (best < 0 || sl_surprise_index(asked, d) > sl_surprise_index(asked, best)) {
            best = d;
        }
    }
    return best;
}

static void add_scatter(const sl_rank_page *page, char *text, size_t size)
{
    char scatter[16];
    sl_percent(sl_rank_scatter(page), scatter, sizeof scatter);
    if (page->scatter_from) {
        sl_append_item(
            text, size, " ",
            page->asked->asked.seeing.read
                ? _("Swatches scatter by %s points of 100, as repeats in the log show (degrees of "
                    "freedom: %d), and that doubt counts.")
            : sl_rank_scatter(page) > SL_SWATCH_SPREAD
                ? _("Swatches are taken to scatter by %s points of 100, as grades in the log show "
                    "beyond what judges scatter (degrees of freedom: %d).")
                : _("Swatches are taken to scatter by %s points of 100, which is assumed: grades in "
                    "the log show no more beyond what judges scatter (degrees of freedom: %d), and "
                    "are too coarse to show less."),
            scatter, page->scatter_freedom);
    } else {
        sl_append_item(text, size, " ",
                       page->scatter_given ? _("Swatches scatter by %s points of 100, as given.")
                                           : _("That swatches scatter by %s points of 100 is assumed."),
                       scatter);
    }
}

static void add_deciding(const sl_rank_page *page, char *text, size_t size)
{
    const double least_index = 0.05; /* below it no single number is worth naming (assumed) */
    const int best = strongest_draw(page->asked);
    if (best < 0 || sl_surprise_index(page->asked, best) < least_index) {
        sl_append_item(text, size, " ", "%s",
                       _("No single number decides it: luck of the swatches and of the eye does."));
        return;
    }
    const sl_drawn *const drawn = &page->asked->plan.drawn[best];
    char word[160];
    sl_drawn_say(drawn, word, sizeof word);
    if (sl_drawn_of_dye(drawn)) {
        sl_append_item(text, size, " ", _("What decides it most is %s (\"%s\")."), word,
                       sl_dye_title(&sl_timeline_scene(page->timeline)->dyes[drawn->dye]));
    } else {
        sl_append_item(text, size, " ", _("What decides it most is %s."), word);
    }
    sl_append_item(text, size, " ", _("To know better: %s."), _(sl_doubt_measure(drawn->doubt)));
}

double sl_rank_scatter(const sl_rank_page *page)
{
    const sl_seeing *const seeing = &page->asked->asked.seeing;
    return seeing->n_scatters > 1 ? page->scatter : seeing->scatter[0];
}

void sl_rank_surprise_words(const sl_rank_page *page, char *text, size_t size)
{
    const sl_scene *const scene = sl_timeline_scene(page->timeline);
    const sl_surprise_request *const asked = &page->asked->asked;
    const double chance = sl_surprise_chance(page->asked);
    char seen[16];
    sl_of_hundred(chance, seen, sizeof seen);
    snprintf(text, size, _("\"%s\" leaves less of \"%s\" than \"%s\" in %ld of %ld model runs."),
             sl_arm_title(&scene->arms[asked->one]), sl_zone_title(&scene->zones[asked->zone]),
             sl_arm_title(&scene->arms[asked->other]), page->asked->shown, page->asked->members);
    sl_append_item(
        text, size, " ",
        asked->seeing.read
            ? _("Read by an instrument it is seen so in %s of 100 such tests (swatches of each: %d).")
            : _("Graded once it is seen so in %s of 100 such tests (swatches of each: %d)."),
        seen, asked->seeing.swatches[0]);
    sl_append_item(text, size, " ", "%s", _(sl_oddity_sentence(sl_oddity_of(chance))));
    add_scatter(page, text, size);
    add_deciding(page, text, size);
}
