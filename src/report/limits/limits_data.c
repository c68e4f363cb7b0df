/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Limits for machines, with their decimals. See limits.h. Invariant: a minute of the model is told only where
 * the answer holds minutes.
 */
#include "base/calendar.h"
#include "report/limits/leave_words.h"
#include "report/limits/limits.h"
#include "report/told.h"

static double model_minute(const sl_answer *answer, double minute)
{
    return sl_if_known(answer->minutes && minute >= 0.0, minute);
}

/* Of the central values, up to the last minute that is told. */
static double central_minute(const sl_answer *answer, bool comes, double minute)
{
    return sl_if_known(comes && answer->minutes && minute <= sl_leave_last_min(&answer->leave), minute);
}

/* ---- of an arm, in CSV and JSON ------------------------------------------------------------------- */

#define ARM(SAY)                                                                                             \
    SAY(end, table->place == page->answers->scene->n_arms)                                                   \
    SAY(skip, page->only >= 0 && page->only != table->place)                                                 \
    SAY(let, const int arm = (int)table->place)                                                              \
    SAY(let, const sl_scene *const scene = page->answers->scene)                                             \
    SAY(let, const sl_person *const person = page->answers->person)                                          \
    SAY(let, const sl_answer *const answer = &page->answers->arm[arm])                                       \
    SAY(let, const sl_limits *const limits = &page->answers->limits[arm])                                    \
    SAY(let, const bool known = answer->verdict != SL_VERDICT_UNKNOWN)                                       \
    SAY(let, const bool comes = known && sl_answer_comes_to_the_stop(answer, limits))                        \
    SAY(text, "arm", scene->arms[arm].name)
#define VERDICT(SAY)                                                                                         \
    SAY(when, sl_is_practice(page), text, "practice", sl_practice_words())                                   \
    SAY(text, "verdict", sl_verdict_key(answer->verdict))
#define WHY(SAY) SAY(when, !known, text, "why", sl_unknown_words(answer->unknown))
#define ODDS(SAY)                                                                                            \
    SAY(only, known)                                                                                         \
    SAY(number, "odds", answer->odds)                                                                        \
    SAY(number, "odds_low_95", answer->odds_95.low)                                                          \
    SAY(number, "odds_high_95", answer->odds_95.high)
#define STOP(SAY) SAY(text, "stop", sl_stop_word(answer->stop))
#define LEFT(SAY)                                                                                            \
    SAY(about, "left_at_stop_p50", scene->zones[answer->goal_zone].name,                                     \
        sl_if_known(answer->left_p50_percent >= 0, answer->left_p50_percent / 100.0))
#define LEVELS(SAY)                                                                                          \
    SAY(number, "level_start", limits->level_start)                                                          \
    SAY(number, "level_at_stop", sl_if_known(comes, limits->level_at_stop))                                  \
    SAY(number, "level_scale_end", SL_LEVEL_END)
#define ENDS(SAY)                                                                                            \
    SAY(outcome, "spent_min", central_minute(answer, limits->spent, limits->spent_min))                      \
    SAY(outcome, "dried_min", central_minute(answer, limits->dried, limits->dried_min))

/* ---- CSV ------------------------------------------------------------------------------------ */

static const char *strand_word(const sl_strand *strand)
{
    return strand->worth == SL_STRAND_COUNTED ? "counted" : sl_strand_words(strand->worth);
}

/* which: the arm. */
#define INDEX_LINE(SAY)                                                                                      \
    SAY(drawn_line, page->answers->scene, &page->answers->spread->plan.drawn[table->place])                  \
    SAY(number, "value", sl_spread_index(page->answers->spread, (int)table->which, (int)table->place))
SL_TABLE(index_lines, INDEX_LINE, sl_limits_page, page);

#define LIES(SAY) SAY(lies, page->answers->scene, page->answers->person)
#define LINES(SAY)                                                                                           \
    ARM(SAY)                                                                                                 \
    SAY(text, "zone", "")                                                                                    \
    VERDICT(SAY)                                                                                             \
    SAY(when, person, text, "strand", strand_word(&person->strand[arm]))                                     \
    WHY(SAY)                                                                                                 \
    ODDS(SAY)                                                                                                \
    SAY(number, "members", (double)page->answers->spread->members)                                           \
    SAY(yes, "partial", answer->partial)                                                                     \
    SAY(yes, "goal_assumed", scene->aims.assumed)                                                            \
    STOP(SAY)                                                                                                \
    LEFT(SAY)                                                                                                \
    LEVELS(SAY)                                                                                              \
    SAY(outcome, "goal_p10_min", model_minute(answer, answer->early.p10))                                    \
    SAY(outcome, "goal_p50_min", model_minute(answer, answer->early.p50))                                    \
    SAY(outcome, "goal_p90_min", model_minute(answer, answer->early.p90))                                    \
    SAY(outcome, "stop_p10_min", model_minute(answer, answer->late.p10))                                     \
    SAY(outcome, "stop_p50_min", model_minute(answer, answer->late.p50))                                     \
    SAY(outcome, "stop_p90_min", model_minute(answer, answer->late.p90))                                     \
    ENDS(SAY)                                                                                                \
    SAY(minutes, "check_min", SL_ENTRY_OUTCOME, answer->check, answer->minutes ? answer->n_checks : 0)       \
    SAY(minutes, "look_min", SL_ENTRY_PLANNED, answer->look, answer->minutes ? answer->n_looks : 0)          \
    SAY(when, page->science, rows, NULL, index_lines, page, arm, page->answers->spread->plan.n)

static sl_told tell_line(sl_row *row, const sl_table *table)
{
    const sl_limits_page *const page = table->of;
    LIES(SL_SAY)
    LINES(SL_SAY)
    return SL_TOLD;
}

static const sl_columns lines =
    SL_COLUMNS(LINES(SL_COLUMN) LIES(SL_COLUMN), .tell = tell_line, .lead = 2, .tail = 1);

/* ---- JSON: what an arm has in it -------------------------------------------------------------------- */

/* which: whether it is known. */
#define THREE(SAY)                                                                                           \
    SAY(outcome, "p10", sl_if_known(table->which && three->p10 >= 0.0, three->p10))                          \
    SAY(outcome, "p50", sl_if_known(table->which && three->p50 >= 0.0, three->p50))                          \
    SAY(outcome, "p90", sl_if_known(table->which && three->p90 >= 0.0, three->p90))
SL_FLAT_TABLE(three_record, THREE, sl_three, three);
#define SL_COLUMN_three(name, of, known) SL_COLUMN_record(name, three_record, of, known)
#define SL_SAY_three(name, of, known) SL_SAY_record(name, three_record, of, known)

#define INDEX(SAY)                                                                                           \
    SAY(drawn, page->answers->scene, &page->answers->spread->plan.drawn[table->place])                       \
    SAY(number, "first_order", sl_spread_index(page->answers->spread, (int)table->which, (int)table->place))
SL_FLAT_TABLE(indices, INDEX, sl_limits_page, page);

/* What the zone that decides looks like at the stop, dry, by the central values. */
#define LEFTOVER(SAY)                                                                                        \
    SAY(number, "level", limits->leftover_words.level)                                                       \
    SAY(text, "tone", limits->leftover_words.tone)                                                           \
    SAY(text, "warmth", limits->leftover_words.warmth)                                                       \
    SAY(number, "L", limits->leftover.L)                                                                     \
    SAY(number, "a", limits->leftover.a)                                                                     \
    SAY(number, "b", limits->leftover.b)
SL_FLAT_TABLE(leftover, LEFTOVER, sl_limits, limits);

static const char *source_word(sl_label_source source)
{
    static const char *const sources[] = {[SL_LABEL_NOT_ENTERED] = "not entered",
                                          [SL_LABEL_OF_FILE] = "mix file",
                                          [SL_LABEL_OF_OPTION] = "option",
                                          [SL_LABEL_OF_FORM] = "form"};
    return sources[source];
}

/* The label that ends the arm first: when, and by which clock and whose word. */
#define LABEL(SAY)                                                                                           \
    SAY(planned, "ends_min", label->end_min)                                                                 \
    SAY(planned, "stated_min", label->stated_min)                                                            \
    SAY(text, "counts_from", label->from_contact ? "application" : "mixing")                                 \
    SAY(text, "source", source_word(label->source))                                                          \
    SAY(planned, "mix_age_min", label->mix_age_min)
SL_FLAT_TABLE(label_record, LABEL, sl_label, label);

/* All that is in the way, and when to look at the strand that is missing: planned, of no model. */
#define LACK(SAY)                                                                                            \
    SAY(skip, !leave->lacks[table->place])                                                                   \
    SAY(text, NULL, sl_unknown_words((sl_unknown)table->place))
SL_TABLE(lacks, LACK, sl_leave, leave);

/* which: the arm. */
#define STRAND_LOOK(SAY)                                                                                     \
    SAY(let, int look[SL_MOST_STRAND_LOOKS])                                                                 \
    SAY(let, const sl_leave *const leave = &answers->arm[table->which].leave)                                \
    SAY(end, table->place == sl_strand_looks(leave, answers->person, look))                                  \
    SAY(number, NULL, look[table->place])
SL_FLAT_TABLE(strand_looks, STRAND_LOOK, sl_answers, answers);

/* Day 0: nothing. */
static void say_day(sl_row *row, const char *key, int day)
{
    char words[SL_DAY_TEXT];
    sl_day_words(day, words);
    if (day > 0) {
        sl_row_words(row, key, "%s", words);
    } else {
        sl_row_null(row, key);
    }
}

#define STRAND_LACK(SAY)                                                                                     \
    SAY(skip, !strand->lacks[table->place] && (long)strand->worth != table->place)                           \
    SAY(text, NULL, sl_strand_words((sl_strand_worth)table->place))
SL_TABLE(strand_lacks, STRAND_LACK, sl_strand, strand);

#define SL_COLUMN_day(name, day) {.key = (name)},
#define SL_SAY_day(name, day) say_day(row, name, day);
#define STRAND(SAY)                                                                                          \
    SAY(let, const bool has = strand->code[0] != '\0')                                                       \
    SAY(yes, "counted", strand->worth == SL_STRAND_COUNTED)                                                  \
    SAY(when, has, text, "test", strand->test)                                                               \
    SAY(when, has, text, "swatch", strand->code)                                                             \
    SAY(when, has, day, "judged_on", strand->of_day)                                                         \
    SAY(when, has, day, "tried_on", strand->day)                                                             \
    SAY(rows, "lacks", strand_lacks, strand, 0, SL_STRAND_COUNTED)
SL_TABLE(strand_record, STRAND, sl_strand, strand);

static const char *measure_words(const sl_limits_page *page, const sl_answer *answer)
{
    return answer->measure < 0 ? NULL
                               : sl_doubt_measure(page->answers->spread->plan.drawn[answer->measure].doubt);
}

#define ARMS(SAY)                                                                                            \
    ARM(SAY)                                                                                                 \
    VERDICT(SAY)                                                                                             \
    SAY(when, person, record, "strand", strand_record, &person->strand[arm], 0)                              \
    WHY(SAY)                                                                                                 \
    SAY(when, !known, rows, "lacks", lacks, &answer->leave, 0, SL_UNKNOWNS)                                  \
    SAY(when, !known && person, planned_rows, "strand_looks_min", strand_looks, page->answers, arm,          \
        SL_MOST_STRAND_LOOKS)                                                                                \
    ODDS(SAY)                                                                                                \
    SAY(three, "goal_min", &answer->early, answer->minutes)                                                  \
    SAY(text, "goal_zone", scene->zones[answer->goal_zone].name)                                             \
    SAY(three, "stop_min", &answer->late, answer->minutes)                                                   \
    STOP(SAY)                                                                                                \
    SAY(let, const int stop_zone = sl_limits_stop_zone(scene, limits, answer->stop))                         \
    SAY(text, "stop_zone", stop_zone >= 0 ? scene->zones[stop_zone].name : NULL)                             \
    LEFT(SAY)                                                                                                \
    SAY(record, "leftover", leftover, comes && limits->leftover_words.tone ? limits : NULL, 0)               \
    LEVELS(SAY)                                                                                              \
    ENDS(SAY)                                                                                                \
    SAY(let, const sl_label *const label = &answer->leave.label)                                             \
    SAY(record, "label", label_record, label->source == SL_LABEL_NOT_ENTERED ? NULL : label, 0)              \
    SAY(minutes, "checks_min", SL_ENTRY_OUTCOME, answer->check, answer->minutes ? answer->n_checks : 0)      \
    SAY(minutes, "looks_min", SL_ENTRY_PLANNED, answer->look, answer->minutes ? answer->n_looks : 0)         \
    SAY(text, "measure_next", measure_words(page, answer))                                                   \
    SAY(when, page->science, rows, "indices", indices, page, arm, page->answers->spread->plan.n)
SL_TABLE(arms, ARMS, sl_limits_page, page);

/* ---- JSON: the whole -------------------------------------------------------------------------------- */

/* which: what stops it, else what is missing. */
#define ASKED(SAY)                                                                                           \
    SAY(let, const sl_intake_result result = sl_intake_judge(person))                                        \
    SAY(let, const int asked = (int)table->place)                                                            \
    SAY(skip, !(table->which ? result.stopped : result.missing)[asked])                                      \
    SAY(text, "key", sl_intake_key(asked))                                                                   \
    SAY(text, "what", sl_intake_words(asked))                                                                \
    SAY(text, "first", sl_intake_first(asked))
SL_FLAT_TABLE(asked_list, ASKED, sl_intake, person);

#define PERSON(SAY)                                                                                          \
    SAY(yes, "practice", person->practice)                                                                   \
    SAY(yes, "clear", sl_intake_judge(person).minutes)                                                       \
    SAY(rows, "stops", asked_list, person, true, SL_INTAKE_ASKED)                                            \
    SAY(rows, "missing", asked_list, person, false, SL_INTAKE_ASKED)
SL_TABLE(person_record, PERSON, sl_intake, person);

/* The share asked of all zones (null: they differ), and what is asked of each. */
#define GOAL(SAY)                                                                                            \
    SAY(let, const sl_goal goal = sl_zone_goal(scene, (int)table->place))                                    \
    SAY(skip, !goal.wanted)                                                                                  \
    SAY(text, "zone", scene->zones[table->place].name)                                                       \
    SAY(when, goal.near_undyed > 0.0, number, "near_undyed_ciede2000", goal.near_undyed)                     \
    SAY(when, !(goal.near_undyed > 0.0), number, "colour_left", goal.left)
SL_TABLE(goals, GOAL, sl_scene, scene);

static double shared_goal(const sl_scene *scene)
{
    double share = 0.0;
    const bool known = sl_goal_share(scene, -1, &share);
    return sl_if_known(known, share);
}

/* What was entered is said again; a strand's minute is of a bench, the cotton's was looked at already. */
#define SEEN(SAY)                                                                                            \
    SAY(let, const sl_scene *const scene = answers->scene)                                                   \
    SAY(let,                                                                                                 \
        const sl_observation *const seen = &answers->spread->seen.observations.observation[table->place])    \
    SAY(text, "arm", scene->arms[seen->arm].name)                                                            \
    SAY(text, "zone", seen->zone >= 0 ? scene->zones[seen->zone].name : NULL)                                \
    SAY(clock, "minute", seen->minute)                                                                       \
    SAY(text, "grade", sl_wipe_word(seen->wipe))                                                             \
    SAY(yes, "strand", seen->strand)
SL_FLAT_TABLE(seen_list, SEEN, sl_answers, answers);

/* The seed is a text: 64 bits are more than a number of JSON holds. */
#define LIMITS(SAY)                                                                                          \
    SAY(let, const sl_answers *const answers = page->answers)                                                \
    SAY(let, const sl_spread *const spread = answers->spread)                                                \
    SAY(let, const sl_scene *const scene = answers->scene)                                                   \
    LIES(SAY)                                                                                                \
    SAY(text, "scene", scene->name)                                                                          \
    SAY(number, "members", (double)spread->members)                                                          \
    SAY(number, "asked_for", (double)spread->asked_for)                                                      \
    SAY(yes, "partial", spread->stopped)                                                                     \
    SAY(yes, "goal_assumed", scene->aims.assumed)                                                            \
    SAY(words, "seed", "%llu", (unsigned long long)spread->seed)                                             \
    SAY(when, sl_is_practice(page), text, "practice", sl_practice_words())                                   \
    SAY(when, answers->person, record, "person", person_record, answers->person->form, 0)                    \
    SAY(number, "goal_colour_left", shared_goal(scene))                                                      \
    SAY(rows, "goals", goals, scene, 0, scene->n_zones)                                                      \
    SAY(rows, "seen", seen_list, answers, 0, spread->seen.observations.n)                                    \
    SAY(rows, "arms", arms, page, 0, scene->n_arms)                                                          \
    SAY(note, scene)                                                                                         \
    SAY(cautions, sl_limits_occasions(page))
SL_TABLE(limits_record, LIMITS, sl_limits_page, page);

const sl_export sl_limits_export = {"limits", 1, &limits_record, &lines};
