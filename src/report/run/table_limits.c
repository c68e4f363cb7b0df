/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Goal and first limit of each arm, and why bench minutes stay on the
 * bench. Invariant: no minute is printed for a scene that counts as a head, none with decimals, and
 * none on a page that holds the factor between bench and head.
 */
#include <string.h>

#include "base/append.h"
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

static void add_limit(char *text, size_t size, const char *name, sl_bound bound)
{
    if (!bound.set) {
        return;
    }
    char percent[16];
    sl_percent(bound.most, percent, sizeof percent);
    sl_append(text, size, "; %s %s %%", name, percent);
}

static void put_aims(const sl_run_page *page)
{
    const sl_aims *aims = &page->scene->aims;
    char text[1024], words[640], piece[192];
    snprintf(text, sizeof text, "%s", _("goal: "));
    sl_goal_words(page->scene, words, sizeof words);
    sl_append(text, sizeof text, "%s", words);
    sl_append(text, sizeof text, "%s", _(". Limits"));
    const size_t before = strlen(text);
    add_limit(text, sizeof text, _("base moved"), aims->base_moved);
    add_limit(text, sizeof text, _("hair stress"), aims->cystine_lost);
    sl_stress_of_words(page->scene, piece, sizeof piece);
    sl_append(text, sizeof text, "%s", piece);
    if (aims->longest_min.set && sl_reading_has_minutes(page->scene)) {
        sl_minute_words(SL_MINUTE_PLANNED, piece, sizeof piece, _("; %.0f min from contact"),
                        aims->longest_min.most);
        sl_append(text, sizeof text, "%s", piece);
    }
    if (text[before] == ';') {
        text[before] = ':';
    } else {
        sl_append(text, sizeof text, "%s", _(": none set"));
    }
    sl_append(text, sizeof text, "%s", ".");
    sl_put_paragraph(page->out, " ", text, page->width);
}

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
    char minutes[32], rest[128];
    describe_rest(limits, zone, rest, sizeof rest);
    if (!limits->early_reached) {
        snprintf(text, size, _("goal not reached: %s"), rest);
        return;
    }
    sl_minutes_range(limits->early_min, minutes, sizeof minutes);
    const bool timed = sl_reading_has_minutes(page->scene);
    if (limits->early_min >= limits->stop_min[limits->stop]) {
        snprintf(text, size, _("goal %s%s, too late: %s"), timed ? _("after ") : _("reached"),
                 timed ? minutes : "", rest);
    } else {
        snprintf(text, size, _("goal %s%s (\"%s\" last)"), timed ? _("after ") : _("reached"),
                 timed ? minutes : "", zone);
    }
}

static void describe_limit(const sl_run_page *page, const sl_limits *limits, char *text, size_t size)
{
    const sl_stop stop = limits->stop;
    if (stop == SL_STOP_END) {
        snprintf(text, size, _("no limit reached"));
        return;
    }
    char minutes[32], where[96] = "";
    if (stops_by_time(stop)) {
        sl_minute_words(SL_MINUTE_PLANNED, minutes, sizeof minutes, _("%.0f min"), limits->stop_min[stop]);
    } else {
        snprintf(where, sizeof where, _(" in \"%s\""),
                 sl_zone_title(&page->scene->zones[limits->stop_zone[stop]]));
        sl_minutes_range(limits->stop_min[stop], minutes, sizeof minutes);
    }
    if (sl_reading_has_minutes(page->scene)) {
        snprintf(text, size, _("first limit: %s%s%s %s"), _(sl_stop_word(stop)), where,
                 stops_by_time(stop) ? "," : _(" after"), minutes);
    } else {
        snprintf(text, size, _("first limit: %s%s"), _(sl_stop_word(stop)), where);
    }
}

static void put_arm(const sl_run_page *page, int arm, const sl_limits *limits)
{
    char goal[256], limit[256], both[544];
    describe_goal(page, limits, goal, sizeof goal);
    describe_limit(page, limits, limit, sizeof limit);
    snprintf(both, sizeof both, "%s; %s", goal, limit);
    fputc(' ', page->out);
    sl_put_title(page->out, sl_arm_title(&page->scene->arms[arm]), 1, page->arm_width);
    const int indent = page->arm_width + 3;
    if (indent + sl_text_width(both) <= page->width) {
        fprintf(page->out, "  %s\n", both);
    } else {
        fprintf(page->out, "  %s;\n", goal);
        sl_put_spaces(page->out, indent);
        fprintf(page->out, "%s\n", limit);
    }
}

void sl_put_limits_of_arms(const sl_run_page *page)
{
    bool begun = false;
    for (int arm = 0; arm < page->scene->n_arms; arm++) {
        const sl_limits limits = sl_limits_of(page->timeline, arm, NULL);
        if (!limits.asked) {
            continue;
        }
        if (!begun) {
            sl_put_heading(page, _("GOAL AND FIRST LIMIT, BY THE CENTRAL VALUES"));
            put_aims(page);
        }
        begun = true;
        put_arm(page, arm, &limits);
    }
    if (begun) {
        sl_put_paragraph(
            page->out, " ",
            sl_reading_has_minutes(page->scene)
                ? _("Rinsed at that minute, washed and dry. One run of the model by its central values is no "
                    "answer: slowlift limits says in how many runs the goal comes first, and when to look.")
                : _("No minutes here: warmth, wrapping and a person differ too much from a bench, and this "
                    "program times nobody's hair. From the model's central values alone."),
            page->width);
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

static void put_factor(const sl_run_page *page, sl_place to)
{
    const sl_place from = page->scene->place;
    sl_times_range times;
    sl_error error = {.code = SL_OK};
    char text[SL_ERROR_TEXT_SIZE * 3];
    if (to == from) {
        return;
    }
    if (!sl_place_times(page->timeline, -1, from, to, &times, &error)) {
        sl_error_sentence(&error, text, sizeof text);
        sl_put_paragraph(page->out, " - ", text, page->width);
        return;
    }
    if (times.most <= 0.0) {
        return;
    }
    char low[24], high[24], temperature[24];
    const bool slower = times.most < 1.0;
    if (slower) {
        times = (sl_times_range){1.0 / times.most, 1.0 / times.least};
    }
    snprintf(low, sizeof low, "%.1f", times.least);
    snprintf(high, sizeof high, "%.1f", times.most);
    sl_short_number(place_c(page->scene, to), 1, temperature, sizeof temperature);
    const bool one = strcmp(low, high) == 0;
    snprintf(text, sizeof text, _("%s (%s °C): %s%s%s times as %s as %s"), place_phrase(to), temperature, low,
             one ? "" : _(" to "), one ? "" : high, slower ? _("slow") : _("fast"), place_phrase(from));
    sl_put_paragraph(page->out, " - ", text, page->width);
}

/* Whether any arm has a mix of which a place makes anything faster. */
static bool any_mix(const sl_scene *scene)
{
    for (int i = 0; i < scene->n_mixes; i++) {
        if (scene->mixes[i].mechanism == SL_MECHANISM_OXIDATIVE && scene->mixes[i].class_ != SL_MIX_WATER) {
            return true;
        }
    }
    return false;
}

void sl_put_factors(const sl_run_page *page)
{
    if (!any_mix(page->scene)) {
        return;
    }
    sl_put_heading(page, _("THE SAME MIXES ELSEWHERE"));
    if (sl_reading_has_minutes(page->scene)) {
        sl_put_paragraph(
            page->out, " ",
            _("Bench minutes do not carry over to a head: it is warmer, and the same mixes work faster "
              "there. A page with minutes holds no factor that would turn them into a head's."),
            page->width);
        return;
    }
    put_factor(page, SL_PLACE_BENCH);
    put_factor(page, SL_PLACE_HEAD);
    put_factor(page, SL_PLACE_WRAPPED);
    sl_put_paragraph(
        page->out, " ",
        _("These factors are for understanding; with a bench minute beside them they would make a "
          "head's, and this program gives none."),
        page->width);
}
