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
#include "report/json_text.h"
#include "report/limits/leave_words.h"
#include "report/reading.h"
#include "report/run/csv_name.h"
#include "slowlift/caution.h"
#include "slowlift/report.h"

enum { NAME = 26, NUMBER = 16 };

/* Whether both come to the goal, so that what base and hair have paid there can be told. */
static bool both_there(const sl_pair *pair)
{
    const sl_limits *const one = &pair->before.limits, *const two = &pair->after.limits;
    return one->early_reached && two->early_reached;
}

/* ---- text ---------------------------------------------------------------------------------- */

static void put_row(FILE *out, const char *name, const char *before, const char *after, const char *change)
{
    fputc(' ', out);
    sl_put_left(out, name, NAME);
    sl_put_right(out, before, NUMBER);
    sl_put_right(out, after, NUMBER);
    fprintf(out, "%s%s\n", change[0] != '\0' ? "  " : "", change);
}

/* Of a head: which way it goes, and no share that goes with the planned time. */
static void put_direction(FILE *out, const char *name, double before, double after)
{
    const long change = lround(100.0 * after) - lround(100.0 * before);
    put_row(out, name, "", "", change == 0 ? _("as good as the same") : change > 0 ? _("more") : _("less"));
}

static void put_shares(FILE *out, const char *name, double before, double after)
{
    char one[24], two[24], points[48], by[16];
    sl_percent(before, by, sizeof by);
    snprintf(one, sizeof one, "%s %%", by);
    sl_percent(after, by, sizeof by);
    snprintf(two, sizeof two, "%s %%", by);
    const long change = lround(100.0 * after) - lround(100.0 * before);
    if (change == 0) {
        snprintf(points, sizeof points, _("as good as the same"));
    } else {
        snprintf(points, sizeof points, _("%ld point%s %s"), labs(change), labs(change) == 1 ? "" : "s",
                 change > 0 ? _("more") : _("less"));
    }
    put_row(out, name, one, two, points);
}

/* From which level to which, and where the scale ends, so that a small lift of light hair reads as one. */
static void put_levels(FILE *out, const sl_pair *pair)
{
    const sl_outcome *const outcome[2] = {&pair->before, &pair->after};
    char text[2][40], start[16], end[16], scale[64];
    for (int i = 0; i < 2; i++) {
        sl_short_number(outcome[i]->level_start, 1, start, sizeof start);
        sl_short_number(outcome[i]->level_end, 1, end, sizeof end);
        snprintf(text[i], sizeof text[i], _("%s to %s"), start, end);
    }
    sl_short_number(SL_LEVEL_END, 1, end, sizeof end);
    snprintf(scale, sizeof scale, _("the scale ends at %s"), end);
    put_row(out, _("level of the base"), text[0], text[1], scale);
}

static void goal_words(const sl_limits *limits, char *text, size_t size)
{
    if (!limits->early_reached) {
        snprintf(text, size, _("not reached"));
    } else {
        sl_minutes_range(limits->early_min, text, size);
    }
}

static void put_goal(FILE *out, const sl_pair *pair)
{
    char before[32], after[32], minutes[32], change[64] = "";
    const sl_limits *const one = &pair->before.limits, *const two = &pair->after.limits;
    goal_words(one, before, sizeof before);
    goal_words(two, after, sizeof after);
    if (one->early_reached && two->early_reached) {
        sl_minutes_range(fabs(two->early_min - one->early_min), minutes, sizeof minutes);
        snprintf(change, sizeof change, "%s %s", minutes,
                 two->early_min > one->early_min ? _("later") : _("sooner"));
    }
    put_row(out, _("goal, minutes on hair"), before, after, change);
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
        sl_minute_words(SL_MINUTE_PLANNED, text, size, "%s %s", number, sl_setting_unit(setting));
        return;
    }
    snprintf(text, size, "%s %s", number, sl_setting_unit(setting));
}

/* "2 x 15 min" and "1 x 30 min". */
static void rounds_words(int rounds, double minutes, char *text, size_t size)
{
    char number[24];
    sl_short_number(minutes, 1, number, sizeof number);
    sl_minute_words(SL_MINUTE_PLANNED, text, size, _("%d x %s min"), rounds, number);
}

static void put_rounds(FILE *out, const sl_pair *pair, int width)
{
    char once[40], rounds[40], text[240];
    rounds_words(1, pair->rounds * pair->round_min, once, sizeof once);
    rounds_words(pair->rounds, pair->round_min, rounds, sizeof rounds);
    snprintf(text, sizeof text, _("rounds: %s, each with a fresh mix and a rinse between, instead of %s"),
             rounds, once);
    sl_put_paragraph(out, _(" change:   "), text, width);
    sl_put_paragraph(out, _(" mind:     "), _("the label says whether a second round is allowed at all"),
                     width);
}

static void put_changes(FILE *out, const sl_pair *pair, int width)
{
    if (pair->rounds > 0) {
        put_rounds(out, pair, width);
        return;
    }
    sl_setting which[SL_SETTINGS];
    const int n = sl_changes_count(pair->changes, pair->scene, pair->arm, which);
    for (int i = 0; i < n; i++) {
        char from[40], to[40], text[160];
        setting_words(which[i], sl_setting_value(pair->scene, pair->arm, which[i]), from, sizeof from);
        setting_words(which[i], pair->changes->to[which[i]], to, sizeof to);
        snprintf(text, sizeof text, _("%s: %s instead of %s"), sl_setting_word(which[i]), to, from);
        sl_put_paragraph(out, _(" change:   "), text, width);
    }
    if (n == 0) {
        sl_put_paragraph(out, _(" change:   "), _("none: this is what the file says already"), width);
    } else if (n > 1) {
        char text[200];
        snprintf(text, sizeof text,
                 _("%d changes at once: nobody can tell which of them did it. Try them one by one."), n);
        sl_put_paragraph(out, _(" mind:     "), text, width);
    }
}

static void put_caution(FILE *out, sl_caution_id id, int width)
{
    const sl_caution *const caution = sl_caution_text(id);
    char lead[24];
    snprintf(lead, sizeof lead, " %-8s", _(caution->signal));
    sl_put_paragraph(out, lead, _(caution->text), width);
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
static void put_lies(FILE *out, const sl_pair *pair, int width)
{
    sl_variant before, after;
    variants_of(pair, &before, &after);
    sl_put_lies(out, sl_scene_on_head(&after.scene) ? &after.scene : &before.scene, NULL, width);
}

static void put_labels(FILE *out, const sl_pair *pair, int width)
{
    sl_variant before, after;
    variants_of(pair, &before, &after);
    char one[512], two[512];
    const bool ends_one = sl_overrun_words(&before.scene, 0, one, sizeof one);
    const bool ends_two = sl_overrun_words(&after.scene, 0, two, sizeof two);
    if (ends_one && (!ends_two || strcmp(one, two) != 0)) {
        sl_put_paragraph(out, _(" LABEL:    "), one, width);
    }
    sl_put_labels(out, &after.scene, NULL, 0, width);
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

bool sl_pair_text(FILE *out, const sl_pair *pair, int width)
{
    const sl_scene *const scene = pair->scene;
    const bool swatches = of_swatches(pair);
    void (*const put_both)(FILE *, const char *, double, double) = swatches ? put_shares : put_direction;
    char text[400];
    put_lies(out, pair, width);
    snprintf(text, sizeof text, _("What if \"%s\" were another way?"), sl_arm_title(&scene->arms[pair->arm]));
    sl_put_paragraph(out, "", text, width);
    put_changes(out, pair, width);
    put_labels(out, pair, width);
    sl_example_note(scene, text, sizeof text);
    sl_put_paragraph(out, _(" note:     "), text, width);
    fputc('\n', out);
    char before[40], after[40];
    snprintf(before, sizeof before, "%s", _("as it is"));
    snprintf(after, sizeof after, "%s", _("changed"));
    if (pair->rounds > 0) {
        rounds_words(1, pair->rounds * pair->round_min, before, sizeof before);
        rounds_words(pair->rounds, pair->round_min, after, sizeof after);
    }
    put_row(out, _("once washed and dry"), before, after, "");
    if (swatches && pair->before.limits.asked) {
        put_goal(out, pair);
    }
    for (int zone = 0; zone < scene->n_zones; zone++) {
        if (pair->before.left[zone] >= 0.0) {
            snprintf(text, sizeof text, _("colour left, %s"), sl_zone_title(&scene->zones[zone]));
            put_both(out, text, pair->before.left[zone], pair->after.left[zone]);
        }
    }
    put_both(out, _("base moved"), pair->before.base_moved, pair->after.base_moved);
    if (swatches) {
        put_levels(out, pair);
    }
    put_both(out, _("hair stress"), pair->before.cystine_lost, pair->after.cystine_lost);
    if (both_there(pair)) {
        put_shares(out, _("base moved, at the goal"), pair->before.limits.base_at_goal,
                   pair->after.limits.base_at_goal);
        put_shares(out, _("hair stress, at the goal"), pair->before.limits.stress_at_goal,
                   pair->after.limits.stress_at_goal);
    }
    sl_put_paragraph(
        out, " ",
        swatches ? _("From the model's central values alone: real swatches scatter around them.")
                 : _("No minutes here: this program times nobody's hair. From the model's central values "
                     "alone."),
        width);
    fputc('\n', out);
    put_caution(out, SL_CAUTION_ESTIMATE, width);
    put_caution(out, SL_CAUTION_LABEL, width);
    if (pair->changes->set[SL_SETTING_WARMER] && pair->changes->to[SL_SETTING_WARMER] > 0.0) {
        put_caution(out, SL_CAUTION_HEAT, width);
    }
    return ferror(out) == 0;
}

/* ---- for machines ----------------------------------------------------------------------- */

static void put_values(FILE *out, const sl_pair *pair, const char *zone, const char *quantity, double before,
                       double after)
{
    sl_csv_name(out, zone);
    fprintf(out, ",%s,%.9g,%.9g,%s\n", quantity, before, after, lies_for(pair));
}

bool sl_pair_csv(FILE *out, const sl_pair *pair)
{
    const sl_limits *const one = &pair->before.limits, *const two = &pair->after.limits;
    fputs("zone,quantity,before,after,lies_for\n", out);
    const bool swatches = of_swatches(pair);
    if (swatches && one->asked && one->early_reached && two->early_reached) {
        char key[SL_MINUTE_KEY];
        put_values(out, pair, "", sl_minute_key(SL_MINUTE_MODEL, "goal_min", key), one->early_min,
                   two->early_min);
    }
    for (int zone = 0; swatches && zone < pair->scene->n_zones; zone++) {
        if (pair->before.left[zone] >= 0.0) {
            put_values(out, pair, pair->scene->zones[zone].name, "colour_left", pair->before.left[zone],
                       pair->after.left[zone]);
        }
    }
    if (swatches) {
        put_values(out, pair, "", "base_moved", pair->before.base_moved, pair->after.base_moved);
        put_values(out, pair, "", "cystine_lost", pair->before.cystine_lost, pair->after.cystine_lost);
        put_values(out, pair, "", "level_start", pair->before.level_start, pair->after.level_start);
        put_values(out, pair, "", "level_end", pair->before.level_end, pair->after.level_end);
        put_values(out, pair, "", "level_scale_end", SL_LEVEL_END, SL_LEVEL_END);
    }
    if (both_there(pair)) {
        put_values(out, pair, "", "base_moved_at_goal", pair->before.limits.base_at_goal,
                   pair->after.limits.base_at_goal);
        put_values(out, pair, "", "cystine_lost_at_goal", pair->before.limits.stress_at_goal,
                   pair->after.limits.stress_at_goal);
    }
    return ferror(out) == 0;
}

/* A number that goes with the planned time: null of a head. */
static void put_share(sl_json *json, const char *name, bool known, double share)
{
    if (known) {
        sl_json_number(json, name, share);
    } else {
        sl_json_null(json, name);
    }
}

static void put_outcome(sl_json *json, const char *name, const sl_pair *pair, const sl_outcome *outcome)
{
    const sl_scene *const scene = pair->scene;
    const bool swatches = of_swatches(pair);
    sl_json_open(json, name, '{');
    if (swatches && outcome->limits.asked && outcome->limits.early_reached) {
        sl_json_minute(json, "goal_min", SL_MINUTE_MODEL, outcome->limits.early_min);
    } else {
        sl_json_null(json, "goal_min");
    }
    sl_json_open(json, "colour_left", '[');
    for (int zone = 0; zone < scene->n_zones; zone++) {
        if (outcome->left[zone] >= 0.0) {
            sl_json_open_flat(json, NULL, '{');
            sl_json_text(json, "zone", scene->zones[zone].name);
            put_share(json, "value", swatches, outcome->left[zone]);
            sl_json_close(json, '}');
        }
    }
    sl_json_close(json, ']');
    put_share(json, "base_moved", swatches, outcome->base_moved);
    put_share(json, "cystine_lost", swatches, outcome->cystine_lost);
    put_share(json, "level_start", swatches, outcome->level_start);
    put_share(json, "level_end", swatches, outcome->level_end);
    if (outcome->limits.asked && outcome->limits.early_reached) {
        sl_json_number(json, "base_moved_at_goal", outcome->limits.base_at_goal);
        sl_json_number(json, "cystine_lost_at_goal", outcome->limits.stress_at_goal);
    } else {
        sl_json_null(json, "base_moved_at_goal");
        sl_json_null(json, "cystine_lost_at_goal");
    }
    sl_json_close(json, '}');
}

bool sl_pair_json(FILE *out, const sl_pair *pair)
{
    sl_json json = {.out = out};
    sl_setting which[SL_SETTINGS];
    char note[320];
    const int n = sl_changes_count(pair->changes, pair->scene, pair->arm, which);
    sl_json_open(&json, NULL, '{');
    sl_json_text(&json, "lies_for", lies_for(pair));
    sl_json_text(&json, "arm", pair->scene->arms[pair->arm].name);
    sl_json_open(&json, "changes", '[');
    for (int i = 0; i < n; i++) {
        sl_json_open_flat(&json, NULL, '{');
        sl_json_text(&json, "setting", sl_setting_word(which[i]));
        sl_json_number(&json, "from", sl_setting_value(pair->scene, pair->arm, which[i]));
        sl_json_number(&json, "to", pair->changes->to[which[i]]);
        sl_json_text(&json, "unit", sl_setting_unit(which[i]));
        sl_json_close(&json, '}');
    }
    sl_json_close(&json, ']');
    sl_json_number(&json, "rounds", pair->rounds > 0 ? pair->rounds : 1);
    if (pair->rounds > 0) {
        sl_json_minute(&json, "round_min", SL_MINUTE_PLANNED, pair->round_min);
    } else {
        sl_json_null(&json, "round_min");
    }
    sl_json_number(&json, "level_scale_end", SL_LEVEL_END);
    put_outcome(&json, "before", pair, &pair->before);
    put_outcome(&json, "after", pair, &pair->after);
    sl_example_note(pair->scene, note, sizeof note);
    sl_json_text(&json, "note", note);
    sl_json_cautions(&json, NULL, 0);
    sl_json_close(&json, '}');
    return ferror(out) == 0;
}
