/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Goal and first limit of each arm, and why bench minutes stay on the
 * bench. Invariant: no minute is printed for a scene that counts as a head, none with decimals, and
 * none on a page that holds the factor between bench and head.
 */
#include <string.h>

#include "base/language.h"
#include "base/minute.h"
#include "document/text.h"
#include "report/limits/aims_words.h"
#include "report/reading.h"
#include "report/run/table.h"
#include "slowlift/estimate.h"
#include "slowlift/kinetics.h"
#include "slowlift/limits.h"

/* ---- goal and limits ----------------------------------------------------------------- */

/* ---- one arm ------------------------------------------------------------------------- */

static bool stops_by_time(sl_stop stop)
{
    return stop == SL_STOP_CHAIR || stop == SL_STOP_LABEL;
}

/* How much the zone that binds still holds when the first limit comes. */
static void describe_rest(const sl_limits *limits, const char *zone, char *text, size_t size)
{
    char percent[16];
    sl_percent(limits->left_at_stop, percent, sizeof percent);
    snprintf(text, size, _("\"%s\" still holds %s %% at the %s"), zone, percent,
             limits->stop != SL_STOP_END ? _("limit") : _("end"));
}

static void describe_goal(const sl_run_page *page, const sl_limits *limits, char *text, size_t size)
{
    const char *zone = sl_zone_title(&page->scene->zones[limits->early_zone]);
    const bool timed = sl_reading_has_minutes(page->scene);
    char minutes[32], rest[128];
    describe_rest(limits, zone, rest, sizeof rest);
    sl_minutes_range(limits->early_min, minutes, sizeof minutes);
    if (!limits->early_reached) {
        snprintf(text, size, _("goal not reached: %s"), rest);
    } else if (limits->early_min < limits->stop_min[limits->stop]) {
        if (timed) {
            snprintf(text, size, _("goal after %s (\"%s\" last)"), minutes, zone);
        } else {
            snprintf(text, size, _("goal reached (\"%s\" last)"), zone);
        }
    } else if (timed) {
        snprintf(text, size, _("goal after %s, too late: %s"), minutes, rest);
    } else {
        snprintf(text, size, _("goal reached, too late: %s"), rest);
    }
}

static void describe_limit(const sl_run_page *page, const sl_limits *limits, char *text, size_t size)
{
    const sl_stop stop = limits->stop;
    const char *const word = _(sl_stop_word(stop));
    const bool timed = sl_reading_has_minutes(page->scene);
    char minutes[32];
    if (stop == SL_STOP_END) {
        snprintf(text, size, "%s", _("no limit reached"));
    } else if (stops_by_time(stop) && timed) {
        sl_minute_words(SL_MINUTE_PLANNED, minutes, sizeof minutes, _("%.0f min"), limits->stop_min[stop]);
        snprintf(text, size, _("first limit: %s, %s"), word, minutes);
    } else if (stops_by_time(stop)) {
        snprintf(text, size, _("first limit: %s"), word);
    } else if (timed) {
        sl_minutes_range(limits->stop_min[stop], minutes, sizeof minutes);
        snprintf(text, size, _("first limit: %s in \"%s\" after %s"), word,
                 sl_zone_title(&page->scene->zones[limits->stop_zone[stop]]), minutes);
    } else {
        snprintf(text, size, _("first limit: %s in \"%s\""), word,
                 sl_zone_title(&page->scene->zones[limits->stop_zone[stop]]));
    }
}

static void say_arm(sl_document *document, const sl_run_page *page, int arm, const sl_limits *limits)
{
    char goal[256], limit[256], both[544];
    describe_goal(page, limits, goal, sizeof goal);
    describe_limit(page, limits, limit, sizeof limit);
    snprintf(both, sizeof both, "%s; %s", goal, limit);
    sl_document_cell(document, "%s", sl_arm_title(&page->scene->arms[arm]));
    sl_document_rest(document, both);
}

void sl_run_say_limits(sl_document *document, const sl_run_page *page)
{
    static const sl_text_column columns[] = {{"", 1.0, SL_OWN | SL_NAME}, {"", 3.0, SL_OWN}};
    bool begun = false;
    for (int arm = 0; arm < page->scene->n_arms; arm++) {
        const sl_limits limits = sl_limits_of(page->timeline, arm, NULL);
        if (!limits.asked) {
            continue;
        }
        if (!begun) {
            sl_document_heading(document, _("GOAL AND FIRST LIMIT, BY THE CENTRAL VALUES"));
            sl_say_aims(document, page->scene, false);
            sl_document_table(document, "", 2, columns, 0.0);
        }
        begun = true;
        say_arm(document, page, arm, &limits);
    }
    if (begun) {
        sl_document_say(
            document, "%s",
            sl_reading_has_minutes(page->scene)
                ? _("Rinsed at that minute, washed and dry. One run of the model by its central values is no "
                    "answer: slowlift limits says in how many runs the goal comes first, and when to look.")
                : _("No minutes here: warmth, wrapping and a person differ too much from a bench, and this "
                    "program times nobody's hair. From the model's central values alone."));
    }
}

/* ---- places -------------------------------------------------------------------------- */

static double place_c(const sl_scene *scene, sl_place place)
{
    switch (place) {
    case SL_PLACE_HEAD:
        return scene->chemistry.head_c.value;
    case SL_PLACE_WRAPPED:
        return scene->chemistry.head_c.value + scene->chemistry.wrapped_rise_k.value;
    case SL_PLACE_BENCH:
    case SL_PLACE_COUNT:
    default:
        return scene->room_c;
    }
}

static const char *place_phrase(sl_place place)
{
    switch (place) {
    case SL_PLACE_HEAD:
        return _("on a head");
    case SL_PLACE_WRAPPED:
        return _("wrapped on a head");
    case SL_PLACE_BENCH:
    case SL_PLACE_COUNT:
    default:
        return _("on the bench");
    }
}

static void say_factor(sl_document *document, const sl_run_page *page, sl_place to)
{
    const sl_place from = page->scene->place;
    sl_times_range times;
    sl_error error = {.code = SL_OK};
    char sentence[SL_ERROR_TEXT_SIZE * 3], low[24], high[24], factor[64], temperature[24];
    if (to == from) {
        return;
    }
    if (!sl_place_times(page->timeline, -1, from, to, &times, &error)) {
        sl_error_sentence(&error, sentence, sizeof sentence);
        sl_document_item(document, "%s", sentence);
        return;
    }
    if (times.most <= 0.0) {
        return;
    }
    const bool slower = times.most < 1.0;
    if (slower) {
        times = (sl_times_range){1.0 / times.most, 1.0 / times.least};
    }
    snprintf(low, sizeof low, "%.1f", times.least);
    snprintf(high, sizeof high, "%.1f", times.most);
    snprintf(factor, sizeof factor, strcmp(low, high) == 0 ? "%s" : _("%s to %s"), low, high);
    sl_short_number(place_c(page->scene, to), 1, temperature, sizeof temperature);
    sl_document_item(
        document, slower ? _("%s (%s °C): %s times as slow as %s") : _("%s (%s °C): %s times as fast as %s"),
        place_phrase(to), temperature, factor, place_phrase(from));
}

/* Whether any arm has a mix of which a place makes anything faster. */
static bool any_mix(const sl_scene *scene)
{
    for (int i = 0; i < scene->n_mixes; i++) {
        if (sl_mix_in_model(scene, &scene->mixes[i]) && scene->mixes[i].class_ != SL_MIX_WATER) {
            return true;
        }
    }
    return false;
}

void sl_run_say_factors(sl_document *document, const sl_run_page *page)
{
    if (!any_mix(page->scene)) {
        return;
    }
    sl_document_heading(document, _("THE SAME MIXES ELSEWHERE"));
    if (sl_reading_has_minutes(page->scene)) {
        sl_document_say(document, "%s",
                        _("Bench minutes do not carry over to a head: it is warmer, and the same mixes work "
                          "faster there. A page with minutes holds no factor that would turn them into a "
                          "head's."));
        return;
    }
    say_factor(document, page, SL_PLACE_BENCH);
    say_factor(document, page, SL_PLACE_HEAD);
    say_factor(document, page, SL_PLACE_WRAPPED);
    sl_document_say(
        document, "%s",
        _("These factors are for understanding; with a bench minute beside them they would make a "
          "head's, and this program gives none."));
}
