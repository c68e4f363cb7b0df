/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See pair.h.
 */
#include "report/run/pair.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/language.h"
#include "base/minute.h"
#include "document/text.h"
#include "report/limits/leave_words.h"
#include "report/reading.h"
#include "report/told.h"
#include "report/warming.h"
#include "slowlift/caution.h"
#include "slowlift/report.h"

/* Whether both come to the goal, so that what base and hair have paid there can be told. */
static bool both_there(const sl_pair *pair)
{
    const sl_limits *const one = &pair->before.limits, *const two = &pair->after.limits;
    return one->early_reached && two->early_reached;
}

/* ---- as a document -------------------------------------------------------------------------- */

static void say_row(sl_document *document, const char *name, const char *before, const char *after,
                    const char *change)
{
    sl_document_cell(document, "%s", name);
    sl_document_cell(document, "%s", before);
    sl_document_cell(document, "%s", after);
    sl_document_cell(document, "%s", change);
}

/* Of a head: which way it goes, and no share that goes with the planned time. */
static void say_direction(sl_document *document, const char *name, double before, double after)
{
    const long change = lround(100.0 * after) - lround(100.0 * before);
    say_row(document, name, "", "",
            change == 0  ? _("as good as the same")
            : change > 0 ? _("more")
                         : _("less"));
}

static void say_shares(sl_document *document, const char *name, double before, double after)
{
    const long change = lround(100.0 * after) - lround(100.0 * before);
    sl_document_cell(document, "%s", name);
    sl_document_entry(document, (sl_entry){.kind = SL_ENTRY_SHARE, .value = before});
    sl_document_entry(document, (sl_entry){.kind = SL_ENTRY_SHARE, .value = after});
    if (change == 0) {
        sl_document_cell(document, "%s", _("as good as the same"));
    } else {
        sl_document_cell(document, _("%ld point%s %s"), labs(change), labs(change) == 1 ? "" : "s",
                         change > 0 ? _("more") : _("less"));
    }
}

/* From which level to which, and where the scale ends, so that a small lift of light hair reads as one. */
static void say_levels(sl_document *document, const sl_pair *pair)
{
    const sl_outcome *const outcome[2] = {&pair->before, &pair->after};
    char start[16], end[16];
    sl_document_cell(document, "%s", _("level of the base"));
    for (int i = 0; i < 2; i++) {
        sl_short_number(outcome[i]->level_start, 1, start, sizeof start);
        sl_short_number(outcome[i]->level_end, 1, end, sizeof end);
        sl_document_cell(document, _("%s to %s"), start, end);
    }
    sl_short_number(SL_LEVEL_END, 1, end, sizeof end);
    sl_document_cell(document, _("the scale ends at %s"), end);
}

static void goal_words(const sl_limits *limits, char *text, size_t size)
{
    if (!limits->early_reached) {
        snprintf(text, size, _("not reached"));
    } else {
        sl_minutes_range(limits->early_min, text, size);
    }
}

static void say_goal(sl_document *document, const sl_pair *pair)
{
    char before[32], after[32], minutes[32], change[64] = "";
    const sl_limits *const one = &pair->before.limits, *const two = &pair->after.limits;
    goal_words(one, before, sizeof before);
    goal_words(two, after, sizeof after);
    if (both_there(pair)) {
        sl_minutes_range(fabs(two->early_min - one->early_min), minutes, sizeof minutes);
        snprintf(change, sizeof change, "%s %s", minutes,
                 two->early_min > one->early_min ? _("later") : _("sooner"));
    }
    say_row(document, _("goal, minutes on hair"), before, after, change);
}

static void setting_words(sl_setting setting, double value, char *text, size_t size)
{
    char number[24];
    if (setting == SL_SETTING_COVERED) {
        snprintf(text, size, value > 0.5 ? _("yes") : _("no"));
        return;
    }
    sl_short_number(value, 2, number, sizeof number);
    if (setting == SL_SETTING_DWELL || setting == SL_SETTING_AGE) {
        sl_minute_words(SL_MINUTE_PLANNED, text, size, "%s %s", number, sl_knobs[setting].unit);
        return;
    }
    snprintf(text, size, "%s %s", number, sl_knobs[setting].unit);
}

/* "2 x 15 min" and "1 x 30 min". */
static void rounds_words(int rounds, double minutes, char *text, size_t size)
{
    char number[24];
    sl_short_number(minutes, 1, number, sizeof number);
    sl_minute_words(SL_MINUTE_PLANNED, text, size, _("%d x %s min"), rounds, number);
}

static void say_rounds(sl_document *document, const sl_pair *pair)
{
    char once[40], rounds[40];
    rounds_words(1, pair->rounds * pair->round_min, once, sizeof once);
    rounds_words(pair->rounds, pair->round_min, rounds, sizeof rounds);
    sl_document_row(document, _("change"),
                    _("applications: %s, each with a fresh mix and a rinse between, instead of %s"), rounds,
                    once);
    sl_document_row(document, _("mind"), "%s",
                    _("the label says whether a second application is allowed at all"));
}

static void say_changes(sl_document *document, const sl_pair *pair)
{
    sl_setting which[SL_SETTINGS];
    const int n = sl_changes_count(pair->changes, pair->scene, pair->arm, which);
    for (int i = 0; i < n; i++) {
        char from[40], to[40];
        setting_words(which[i], sl_setting_value(pair->scene, pair->arm, which[i]), from, sizeof from);
        setting_words(which[i], pair->changes->to[which[i]], to, sizeof to);
        const char *const axis = _(sl_knobs[which[i]].axis), *const unit = strstr(axis, " (");
        sl_document_row(document, _("change"), _("%.*s: %s instead of %s"),
                        (int)(unit ? (size_t)(unit - axis) : strlen(axis)), axis, to, from);
    }
    if (n == 0) {
        sl_document_row(document, _("change"), "%s", _("none: this is what the file says already"));
    } else if (n > 1) {
        sl_document_row(document, _("mind"),
                        _("%d changes at once: nobody can tell which of them did it. Try them one by one."),
                        n);
    }
}

/* Both scenes as they are planned. */
static void variants_of(const sl_pair *pair, sl_variant *before, sl_variant *after)
{
    const bool rounds = pair->rounds > 0;
    if (!rounds ||
        !sl_variant_rounds(before, pair->scene, pair->arm, 1, pair->rounds * pair->round_min, NULL)) {
        sl_variant_make(before, pair->scene, pair->arm, NULL);
    }
    if (!rounds || !sl_variant_rounds(after, pair->scene, pair->arm, pair->rounds, pair->round_min, NULL)) {
        sl_variant_make(after, pair->scene, pair->arm, pair->changes);
    }
}

/* The warmer of the two speaks: a bench beside a head is a page about a head. */
static void say_lies(sl_document *document, const sl_pair *pair)
{
    sl_variant before, after;
    variants_of(pair, &before, &after);
    sl_say_lies(document, sl_scene_on_head(&after.scene) ? &after.scene : &before.scene, NULL);
}

static void say_labels(sl_document *document, const sl_pair *pair)
{
    sl_variant before, after;
    variants_of(pair, &before, &after);
    char one[512], two[512];
    const bool ends_one = sl_overrun_words(&before.scene, 0, one, sizeof one);
    const bool ends_two = sl_overrun_words(&after.scene, 0, two, sizeof two);
    if (ends_one && (!ends_two || strcmp(one, two) != 0)) {
        sl_document_row(document, _("LABEL"), "%s", one);
    }
    sl_say_labels(document, &after.scene, NULL, 0);
}

/* By how much the mix warms itself, as it is and changed. */
static void say_warming(sl_document *document, const sl_pair *pair)
{
    sl_variant before, after;
    sl_error error = {.code = SL_OK};
    char one[24], two[24];
    double from = 0.0, to = 0.0;
    variants_of(pair, &before, &after);
    if (!sl_warming_of(&before.scene, 0, &from, &error) || !sl_warming_of(&after.scene, 0, &to, &error)) {
        char sentence[SL_ERROR_TEXT_SIZE * 3];
        sl_error_sentence(&error, sentence, sizeof sentence);
        sl_document_row(document, _("own warmth"), "%s", sentence);
    } else if (from > 0.0 || to > 0.0) {
        sl_short_number(from, 1, one, sizeof one);
        sl_short_number(to, 1, two, sizeof two);
        sl_document_row(document, _("own warmth"),
                        _("the mix above where it lies, at most: %s K as it is, %s K changed (computed; nobody "
                          "measured it)"),
                        one, two);
    }
}

static bool of_swatches(const sl_pair *pair)
{
    sl_variant before, after;
    variants_of(pair, &before, &after);
    return sl_reading_has_minutes(&before.scene) && sl_reading_has_minutes(&after.scene);
}

static const char *lies_for(const sl_pair *pair)
{
    return of_swatches(pair) ? "cut swatches" : "a head";
}

static void begin_table(sl_document *document, const sl_pair *pair)
{
    char before[40], after[40];
    snprintf(before, sizeof before, "%s", _("as it is"));
    snprintf(after, sizeof after, "%s", _("changed"));
    if (pair->rounds > 0) {
        rounds_words(1, pair->rounds * pair->round_min, before, sizeof before);
        rounds_words(pair->rounds, pair->round_min, after, sizeof after);
    }
    const sl_text_column columns[] = {{N_("once washed and dry"), 2.0, SL_NAME},
                                      {before, 1.0, SL_OWN | SL_RIGHT},
                                      {after, 1.0, SL_OWN | SL_RIGHT},
                                      {"", 2.0, SL_OWN}};
    sl_document_apart(document);
    sl_document_table(document, "", 4, columns, 0.0);
}

static void say_table(sl_document *document, const sl_pair *pair, bool swatches)
{
    const sl_scene *const scene = pair->scene;
    void (*const say_both)(sl_document *, const char *, double, double) =
        swatches ? say_shares : say_direction;
    char name[160];
    begin_table(document, pair);
    if (swatches && pair->before.limits.asked) {
        say_goal(document, pair);
    }
    for (int zone = 0; zone < scene->n_zones; zone++) {
        const char *const title = sl_zone_title(&scene->zones[zone]);
        const bool returns = sl_zone_returns(scene, &scene->arms[pair->arm], zone);
        if (returns) {
            snprintf(name, sizeof name, _("colour left, %s, as it dries"), title);
            say_both(document, name, pair->before.left_dry[zone], pair->after.left_dry[zone]);
        }
        if (pair->before.left[zone] >= 0.0) {
            snprintf(name, sizeof name, returns ? _("colour left, %s, a day later") : _("colour left, %s"),
                     title);
            say_both(document, name, pair->before.left[zone], pair->after.left[zone]);
        }
    }
    say_both(document, _("base moved"), pair->before.base_moved, pair->after.base_moved);
    if (swatches) {
        say_levels(document, pair);
    }
    say_both(document, _("hair stress"), pair->before.cystine_lost, pair->after.cystine_lost);
    if (both_there(pair)) {
        say_shares(document, _("base moved, at the goal"), pair->before.limits.base_at_goal,
                   pair->after.limits.base_at_goal);
        say_shares(document, _("hair stress, at the goal"), pair->before.limits.stress_at_goal,
                   pair->after.limits.stress_at_goal);
    }
}

/* On which its cautions are owed. */
static unsigned occasions(const sl_pair *pair)
{
    const bool warmer = pair->changes->set[SL_SETTING_WARMER] && pair->changes->to[SL_SETTING_WARMER] > 0.0;
    return sl_with_reducing(pair->scene, SL_ON_OUTCOME | (warmer ? SL_ON_WARMTH : 0U));
}

void sl_pair_say(sl_document *document, const void *of, sl_error *error)
{
    const sl_pair *const pair = of;
    const bool swatches = of_swatches(pair);
    char title[400];
    snprintf(title, sizeof title, _("What if \"%s\" were another way?"),
             sl_arm_title(&pair->scene->arms[pair->arm]));
    sl_document_begin(document, "what-if", title, error);
    say_lies(document, pair);
    if (pair->rounds > 0) {
        say_rounds(document, pair);
    } else {
        say_changes(document, pair);
    }
    say_labels(document, pair);
    say_warming(document, pair);
    sl_say_note(document, pair->scene);
    say_table(document, pair, swatches);
    sl_document_say(document, "%s",
                    swatches
                        ? _("From the model's central values alone: real swatches scatter around them.")
                        : _("No minutes here: this program times nobody's hair. From the model's central "
                            "values alone."));
    sl_document_end(document, occasions(pair));
}

/* ---- for machines ----------------------------------------------------------------------- */

static const sl_outcome *outcome_of(const sl_table *table)
{
    const sl_pair *const pair = table->of;
    return table->which == 0 ? &pair->before : &pair->after;
}

/* A number that goes with the planned time is nothing of a head. */
static double of_swatch(const sl_table *table, double value)
{
    return sl_if_known(of_swatches(table->of), value);
}

static double at_goal(const sl_table *table, double value)
{
    const sl_limits *const limits = &outcome_of(table)->limits;
    return sl_if_known(limits->asked && limits->early_reached, value);
}

#define LEFT(SAY)                                                                                            \
    SAY(text, "zone", pair->scene->zones[table->place].name)                                                 \
    SAY(number, "value", of_swatch(table, left))

static sl_told tell_left(sl_row *row, const sl_table *table)
{
    const sl_pair *const pair = table->of;
    const double left = outcome_of(table)->left[table->place];
    LEFT(SL_SAY)
    return left >= 0.0 ? SL_TOLD : SL_NOT_HERE;
}

static const sl_columns zones_left = SL_COLUMNS(LEFT(SL_COLUMN), .tell = tell_left, .flat = true);

#define OUTCOME(SAY)                                                                                         \
    SAY(outcome, "goal_min", of_swatch(table, at_goal(table, outcome_of(table)->limits.early_min)))          \
    SAY(rows, "colour_left", zones_left, pair, table->which, pair->scene->n_zones)                           \
    SAY(number, "base_moved", of_swatch(table, outcome_of(table)->base_moved))                               \
    SAY(number, "cystine_lost", of_swatch(table, outcome_of(table)->cystine_lost))                           \
    SAY(number, "level_start", of_swatch(table, outcome_of(table)->level_start))                             \
    SAY(number, "level_end", of_swatch(table, outcome_of(table)->level_end))
#define AT_GOAL(SAY)                                                                                         \
    SAY(number, "base_moved_at_goal", at_goal(table, outcome_of(table)->limits.base_at_goal))                \
    SAY(number, "cystine_lost_at_goal", at_goal(table, outcome_of(table)->limits.stress_at_goal))
#define RECORD(SAY) OUTCOME(SAY) AT_GOAL(SAY)
SL_TABLE(outcome_record, RECORD, sl_pair, pair);

/* For CSV: before and after side by side. */
#define LINES(SAY)                                                                                           \
    SAY(text, "zone", "")                                                                                    \
    OUTCOME(SAY)                                                                                             \
    SAY(number, "level_scale_end", of_swatch(table, SL_LEVEL_END))                                           \
    AT_GOAL(SAY)                                                                                             \
    SAY(text, "lies_for", lies_for(pair))

static sl_told tell_lines(sl_row *row, const sl_table *lines)
{
    const sl_pair *const pair = lines->of;
    const sl_table side = {.of = pair, .which = lines->place}, *const table = &side;
    LINES(SL_SAY)
    return lines->place < 2 ? SL_TOLD : SL_NO_MORE;
}

static const sl_columns lines =
    SL_COLUMNS(LINES(SL_COLUMN), .tell = tell_lines, .lead = 1, .tail = 1, .values = "before,after");

#define CHANGE(SAY)                                                                                          \
    SAY(let, sl_setting changed[SL_SETTINGS])                                                                \
    SAY(end, table->place == sl_changes_count(pair->changes, pair->scene, pair->arm, changed))               \
    SAY(let, const sl_setting which = changed[table->place])                                                 \
    SAY(text, "setting", sl_knobs[which].word)                                                               \
    SAY(number, "from", sl_setting_value(pair->scene, pair->arm, which))                                     \
    SAY(number, "to", pair->changes->to[which])                                                              \
    SAY(text, "unit", sl_knobs[which].unit)
SL_FLAT_TABLE(changes, CHANGE, sl_pair, pair);

#define PAIR(SAY)                                                                                            \
    SAY(text, "lies_for", lies_for(pair))                                                                    \
    SAY(text, "arm", pair->scene->arms[pair->arm].name)                                                      \
    SAY(rows, "changes", changes, pair, 0, SL_SETTINGS)                                                      \
    SAY(number, "rounds", pair->rounds > 0 ? pair->rounds : 1)                                               \
    SAY(planned, "round_min", sl_if_known(pair->rounds > 0, pair->round_min))                                \
    SAY(number, "level_scale_end", SL_LEVEL_END)                                                             \
    SAY(record, "before", outcome_record, pair, 0)                                                           \
    SAY(record, "after", outcome_record, pair, 1)                                                            \
    SAY(note, pair->scene)                                                                                   \
    SAY(cautions, occasions(pair))
SL_TABLE(pair_record, PAIR, sl_pair, pair);

const sl_export sl_pair_export = {"what-if", 1, &pair_record, &lines};
