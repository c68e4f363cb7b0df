/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Limits for machines, with their decimals. See limits.h.
 */
#include "base/calendar.h"
#include "base/minute.h"
#include "document/json_text.h"
#include "document/text.h"
#include "report/limits/leave_words.h"
#include "report/limits/limits.h"
#include "report/run/csv_name.h"

static bool shown(const sl_limits_page *page, int arm)
{
    return page->only < 0 || page->only == arm;
}

/* ---- CSV ------------------------------------------------------------------------------------ */

typedef struct row_start {
    FILE *out;
    const char *arm, *lies_for;
} row_start;

static void put_text(const row_start *row, const char *zone, const char *quantity, const char *value)
{
    sl_csv_name(row->out, row->arm);
    fputc(',', row->out);
    sl_csv_name(row->out, zone);
    fprintf(row->out, ",%s,", quantity);
    sl_csv_name(row->out, value);
    fprintf(row->out, ",%s\n", row->lies_for);
}

static void put_number(const row_start *row, const char *zone, const char *quantity, double value)
{
    sl_csv_name(row->out, row->arm);
    fputc(',', row->out);
    sl_csv_name(row->out, zone);
    fprintf(row->out, ",%s,%.9g,%s\n", quantity, value, row->lies_for);
}

/* A time that never comes has no row. */
static void put_minute(const row_start *row, const char *quantity, double minute)
{
    char key[SL_MINUTE_KEY];
    if (minute >= 0.0) {
        put_number(row, "", sl_minute_key(SL_MINUTE_MODEL, quantity, key), minute);
    }
}

static void put_minutes(const row_start *row, const sl_answer *answer, const sl_limits *limits)
{
    put_minute(row, "goal_p10_min", answer->early.p10);
    put_minute(row, "goal_p50_min", answer->early.p50);
    put_minute(row, "goal_p90_min", answer->early.p90);
    put_minute(row, "stop_p10_min", answer->late.p10);
    put_minute(row, "stop_p50_min", answer->late.p50);
    put_minute(row, "stop_p90_min", answer->late.p90);
    const double last = sl_leave_last_min(&answer->leave);
    put_minute(row, "spent_min", limits->spent && limits->spent_min <= last ? limits->spent_min : -1.0);
    put_minute(row, "dried_min", limits->dried && limits->dried_min <= last ? limits->dried_min : -1.0);
    char look[SL_MINUTE_KEY];
    for (int i = 0; i < answer->n_checks; i++) {
        put_minute(row, "check_min", answer->check[i]);
    }
    for (int i = 0; i < answer->n_looks; i++) {
        put_number(row, "", sl_minute_key(SL_MINUTE_PLANNED, "look_min", look), answer->look[i]);
    }
}

static void put_rows(FILE *out, const sl_limits_page *page, int arm)
{
    const sl_scene *const scene = page->answers->scene;
    const sl_answer *const answer = &page->answers->arm[arm];
    const row_start row = {out, scene->arms[arm].name, sl_lies_for(scene, page->answers->person)};
    if (sl_is_practice(page)) {
        put_text(&row, "", "practice", sl_practice_words());
    }
    put_text(&row, "", "verdict", sl_verdict_key(answer->verdict));
    if (page->answers->person) {
        const sl_strand_worth worth = page->answers->person->strand[arm].worth;
        put_text(&row, "", "strand", worth == SL_STRAND_COUNTED ? "counted" : sl_strand_words(worth));
    }
    if (answer->verdict == SL_VERDICT_UNKNOWN) {
        put_text(&row, "", "why", sl_unknown_words(answer->unknown));
        return;
    }
    put_number(&row, "", "odds", answer->odds);
    put_number(&row, "", "odds_low_95", answer->odds_95.low);
    put_number(&row, "", "odds_high_95", answer->odds_95.high);
    put_number(&row, "", "members", (double)page->answers->spread->members);
    put_number(&row, "", "partial", answer->partial ? 1.0 : 0.0);
    put_number(&row, "", "goal_assumed", scene->aims.assumed ? 1.0 : 0.0);
    put_text(&row, "", "stop", sl_stop_word(answer->stop));
    if (answer->left_p50_percent >= 0) {
        put_number(&row, scene->zones[answer->goal_zone].name, "left_at_stop_p50",
                   answer->left_p50_percent / 100.0);
    }
    const sl_limits *const limits = &page->answers->limits[arm];
    put_number(&row, "", "level_start", limits->level_start);
    if (sl_answer_comes_to_the_stop(answer, limits)) {
        put_number(&row, "", "level_at_stop", limits->level_at_stop);
    }
    put_number(&row, "", "level_scale_end", SL_LEVEL_END);
    if (answer->minutes) {
        put_minutes(&row, answer, limits);
    }
    for (int d = 0; page->science && d < page->answers->spread->plan.n; d++) {
        const sl_drawn *const drawn = &page->answers->spread->plan.drawn[d];
        char quantity[96];
        snprintf(quantity, sizeof quantity, "index %s%s%s", sl_doubt_word(drawn->doubt),
                 drawn->doubt == SL_DOUBT_DYE ? ": " : "",
                 drawn->doubt == SL_DOUBT_DYE ? scene->dyes[drawn->dye].name : "");
        sl_csv_name(out, row.arm);
        fputs(",,", out);
        sl_csv_name(out, quantity);
        fprintf(out, ",%.9g,%s\n", sl_spread_index(page->answers->spread, arm, d), row.lies_for);
    }
}

bool sl_limits_csv(FILE *out, const sl_limits_page *page)
{
    fputs("arm,zone,quantity,value,lies_for\n", out);
    for (int arm = 0; arm < page->answers->scene->n_arms; arm++) {
        if (shown(page, arm)) {
            put_rows(out, page, arm);
        }
    }
    return ferror(out) == 0;
}

/* ---- JSON ----------------------------------------------------------------------------------- */

static void minute_or_null(sl_json *json, const char *name, bool known, double minute)
{
    if (known && minute >= 0.0) {
        sl_json_minute(json, name, SL_MINUTE_MODEL, minute);
    } else {
        sl_json_null(json, name);
    }
}

static void number_or_null(sl_json *json, const char *name, bool known, double number)
{
    if (known) {
        sl_json_number(json, name, number);
    } else {
        sl_json_null(json, name);
    }
}

static void put_three(sl_json *json, const char *name, bool known, sl_three three)
{
    char key[SL_MINUTE_KEY];
    sl_json_open_flat(json, sl_minute_key(SL_MINUTE_MODEL, name, key), '{');
    minute_or_null(json, "p10", known, three.p10);
    minute_or_null(json, "p50", known, three.p50);
    minute_or_null(json, "p90", known, three.p90);
    sl_json_close(json, '}');
}

static void put_list(sl_json *json, const char *name, sl_minute_kind kind, const int *minute, int n)
{
    char key[SL_MINUTE_KEY];
    sl_json_open_flat(json, sl_minute_key(kind, name, key), '[');
    for (int i = 0; i < n; i++) {
        sl_json_number(json, NULL, minute[i]);
    }
    sl_json_close(json, ']');
}

static void put_indices(sl_json *json, const sl_limits_page *page, int arm)
{
    const sl_scene *const scene = page->answers->scene;
    sl_json_open(json, "indices", '[');
    for (int d = 0; d < page->answers->spread->plan.n; d++) {
        const sl_drawn *const drawn = &page->answers->spread->plan.drawn[d];
        sl_json_open_flat(json, NULL, '{');
        sl_json_text(json, "drawn", sl_doubt_word(drawn->doubt));
        sl_json_text(json, "dye", drawn->doubt == SL_DOUBT_DYE ? scene->dyes[drawn->dye].name : NULL);
        sl_json_number(json, "first_order", sl_spread_index(page->answers->spread, arm, d));
        sl_json_close(json, '}');
    }
    sl_json_close(json, ']');
}

/* What the zone that decides looks like at the stop, dry, by the central values. */
static void put_leftover(sl_json *json, const sl_limits *limits, bool comes)
{
    if (!comes || !limits->leftover_words.tone) {
        sl_json_null(json, "leftover");
        return;
    }
    sl_json_open_flat(json, "leftover", '{');
    sl_json_number(json, "level", limits->leftover_words.level);
    sl_json_text(json, "tone", limits->leftover_words.tone);
    sl_json_text(json, "warmth", limits->leftover_words.warmth);
    sl_json_number(json, "L", limits->leftover.L);
    sl_json_number(json, "a", limits->leftover.a);
    sl_json_number(json, "b", limits->leftover.b);
    sl_json_close(json, '}');
}

/* What was entered is said again; a strand's minute is of a bench, the cotton's was looked at already. */
static void put_seen(sl_json *json, const sl_limits_page *page)
{
    const sl_scene *const scene = page->answers->scene;
    const sl_observations *const observations = &page->answers->spread->seen.observations;
    sl_json_open(json, "seen", '[');
    for (int i = 0; i < observations->n; i++) {
        const sl_observation *const observation = &observations->observation[i];
        sl_json_open_flat(json, NULL, '{');
        sl_json_text(json, "arm", scene->arms[observation->arm].name);
        sl_json_text(json, "zone", observation->zone >= 0 ? scene->zones[observation->zone].name : NULL);
        sl_json_minute(json, "minute", SL_MINUTE_CLOCK, observation->minute);
        sl_json_text(json, "grade", sl_wipe_word(observation->wipe));
        sl_json_bool(json, "strand", observation->strand);
        sl_json_close(json, '}');
    }
    sl_json_close(json, ']');
}

/* The label that ends the arm first: when, and by which clock and whose word. */
static void put_label(sl_json *json, const sl_label *label)
{
    static const char *const sources[] = {[SL_LABEL_NOT_ENTERED] = "not entered",
                                          [SL_LABEL_OF_FILE] = "mix file",
                                          [SL_LABEL_OF_OPTION] = "option",
                                          [SL_LABEL_OF_FORM] = "form"};
    if (label->source == SL_LABEL_NOT_ENTERED) {
        sl_json_null(json, "label");
        return;
    }
    sl_json_open_flat(json, "label", '{');
    sl_json_minute(json, "ends_min", SL_MINUTE_PLANNED, label->end_min);
    sl_json_minute(json, "stated_min", SL_MINUTE_PLANNED, label->stated_min);
    sl_json_text(json, "counts_from", label->from_contact ? "application" : "mixing");
    sl_json_text(json, "source", sources[label->source]);
    sl_json_minute(json, "mix_age_min", SL_MINUTE_PLANNED, label->mix_age_min);
    sl_json_close(json, '}');
}

static void put_known(sl_json *json, const sl_limits_page *page, int arm)
{
    const sl_scene *const scene = page->answers->scene;
    const sl_answer *const answer = &page->answers->arm[arm];
    const sl_limits *const limits = &page->answers->limits[arm];
    sl_json_number(json, "odds", answer->odds);
    sl_json_number(json, "odds_low_95", answer->odds_95.low);
    sl_json_number(json, "odds_high_95", answer->odds_95.high);
    put_three(json, "goal_min", answer->minutes, answer->early);
    sl_json_text(json, "goal_zone", scene->zones[answer->goal_zone].name);
    put_three(json, "stop_min", answer->minutes, answer->late);
    sl_json_text(json, "stop", sl_stop_word(answer->stop));
    const int stop_zone = sl_limits_stop_zone(scene, limits, answer->stop);
    sl_json_text(json, "stop_zone", stop_zone >= 0 ? scene->zones[stop_zone].name : NULL);
    const bool comes = sl_answer_comes_to_the_stop(answer, limits);
    number_or_null(json, "left_at_stop_p50", answer->left_p50_percent >= 0, answer->left_p50_percent / 100.0);
    put_leftover(json, limits, comes);
    sl_json_number(json, "level_start", limits->level_start);
    number_or_null(json, "level_at_stop", comes, limits->level_at_stop);
    sl_json_number(json, "level_scale_end", SL_LEVEL_END);
    const double last = answer->minutes ? sl_leave_last_min(&answer->leave) : -1.0;
    minute_or_null(json, "spent_min", limits->spent && limits->spent_min <= last, limits->spent_min);
    minute_or_null(json, "dried_min", limits->dried && limits->dried_min <= last, limits->dried_min);
    put_label(json, &answer->leave.label);
    put_list(json, "checks_min", SL_MINUTE_MODEL, answer->check, answer->minutes ? answer->n_checks : 0);
    put_list(json, "looks_min", SL_MINUTE_PLANNED, answer->look, answer->minutes ? answer->n_looks : 0);
    sl_json_text(json, "measure_next",
                 answer->measure < 0
                     ? NULL
                     : sl_doubt_measure(page->answers->spread->plan.drawn[answer->measure].doubt));
    if (page->science) {
        put_indices(json, page, arm);
    }
}

/* All that is in the way, and when to look at the strand that is missing: planned, of no model. */
static void put_unknown(sl_json *json, const sl_limits_page *page, int arm)
{
    const sl_answer *const answer = &page->answers->arm[arm];
    int look[SL_MOST_STRAND_LOOKS];
    const int n = sl_strand_looks(&answer->leave, page->answers->person, look);
    sl_json_text(json, "why", sl_unknown_words(answer->unknown));
    sl_json_open(json, "lacks", '[');
    for (int lack = 1; lack < SL_UNKNOWNS; lack++) {
        if (answer->leave.lacks[lack]) {
            sl_json_text(json, NULL, sl_unknown_words((sl_unknown)lack));
        }
    }
    sl_json_close(json, ']');
    if (page->answers->person) {
        put_list(json, "strand_looks_min", SL_MINUTE_PLANNED, look, n);
    }
}

static void put_strand(sl_json *json, const sl_strand *strand)
{
    char day[SL_DAY_TEXT];
    sl_json_open(json, "strand", '{');
    sl_json_bool(json, "counted", strand->worth == SL_STRAND_COUNTED);
    if (strand->code[0] != '\0') {
        sl_json_text(json, "test", strand->test);
        sl_json_text(json, "swatch", strand->code);
        sl_day_words(strand->of_day, day);
        sl_json_text(json, "judged_on", day);
        sl_day_words(strand->day, day);
        sl_json_text(json, "tried_on", strand->day > 0 ? day : NULL);
    }
    sl_json_open(json, "lacks", '[');
    for (int worth = 0; worth < SL_STRAND_COUNTED; worth++) {
        if (strand->lacks[worth] || (int)strand->worth == worth) {
            sl_json_text(json, NULL, sl_strand_words((sl_strand_worth)worth));
        }
    }
    sl_json_close(json, ']');
    sl_json_close(json, '}');
}

static void put_arm(sl_json *json, const sl_limits_page *page, int arm)
{
    const sl_answer *const answer = &page->answers->arm[arm];
    sl_json_open(json, NULL, '{');
    sl_json_text(json, "arm", page->answers->scene->arms[arm].name);
    if (sl_is_practice(page)) {
        sl_json_text(json, "practice", sl_practice_words());
    }
    sl_json_text(json, "verdict", sl_verdict_key(answer->verdict));
    if (page->answers->person) {
        put_strand(json, &page->answers->person->strand[arm]);
    }
    if (answer->verdict == SL_VERDICT_UNKNOWN) {
        put_unknown(json, page, arm);
    } else {
        put_known(json, page, arm);
    }
    sl_json_close(json, '}');
}

static void put_person(sl_json *json, const sl_intake *person)
{
    const sl_intake_result result = sl_intake_judge(person);
    sl_json_open(json, "person", '{');
    sl_json_bool(json, "practice", person->practice);
    sl_json_bool(json, "clear", result.minutes);
    for (int list = 0; list < 2; list++) {
        sl_json_open(json, list == 0 ? "stops" : "missing", '[');
        for (int asked = 0; asked < SL_INTAKE_ASKED; asked++) {
            if (list == 0 ? result.stopped[asked] : result.missing[asked]) {
                sl_json_open_flat(json, NULL, '{');
                sl_json_text(json, "key", sl_intake_key(asked));
                sl_json_text(json, "what", sl_intake_words(asked));
                sl_json_text(json, "first", sl_intake_first(asked));
                sl_json_close(json, '}');
            }
        }
        sl_json_close(json, ']');
    }
    sl_json_close(json, '}');
}

/* The share asked of all zones (null: they differ), and what is asked of each. */
static void put_goals(sl_json *json, const sl_scene *scene)
{
    double share = 0.0;
    if (sl_goal_share(scene, -1, &share)) {
        sl_json_number(json, "goal_colour_left", share);
    } else {
        sl_json_null(json, "goal_colour_left");
    }
    sl_json_open(json, "goals", '[');
    for (int zone = 0; zone < scene->n_zones; zone++) {
        const sl_goal goal = sl_zone_goal(scene, zone);
        if (goal.wanted) {
            sl_json_open(json, NULL, '{');
            sl_json_text(json, "zone", scene->zones[zone].name);
            if (goal.near_undyed > 0.0) {
                sl_json_number(json, "near_undyed_ciede2000", goal.near_undyed);
            } else {
                sl_json_number(json, "colour_left", goal.left);
            }
            sl_json_close(json, '}');
        }
    }
    sl_json_close(json, ']');
}

bool sl_limits_json(FILE *out, const sl_limits_page *page)
{
    const sl_scene *const scene = page->answers->scene;
    sl_json json = {.out = out};
    char note[320];
    sl_json_open(&json, NULL, '{');
    sl_json_text(&json, "lies_for", sl_lies_for(scene, page->answers->person));
    sl_json_text(&json, "scene", scene->name);
    sl_json_number(&json, "members", (double)page->answers->spread->members);
    sl_json_number(&json, "asked_for", (double)page->answers->spread->asked_for);
    sl_json_bool(&json, "partial", page->answers->spread->stopped);
    sl_json_bool(&json, "goal_assumed", page->answers->scene->aims.assumed);
    snprintf(note, sizeof note, "%llu", (unsigned long long)page->answers->spread->seed);
    sl_json_text(&json, "seed", note); /* 64 bits are more than a number of JSON holds */
    if (sl_is_practice(page)) {
        sl_json_text(&json, "practice", sl_practice_words());
    }
    if (page->answers->person) {
        put_person(&json, page->answers->person->form);
    }
    put_goals(&json, scene);
    put_seen(&json, page);
    sl_json_open(&json, "arms", '[');
    for (int arm = 0; arm < scene->n_arms; arm++) {
        if (shown(page, arm)) {
            put_arm(&json, page, arm);
        }
    }
    sl_json_close(&json, ']');
    sl_example_note(scene, note, sizeof note);
    sl_json_text(&json, "note", note);
    sl_json_cautions(&json, NULL, 0);
    sl_json_close(&json, '}');
    return ferror(out) == 0;
}
