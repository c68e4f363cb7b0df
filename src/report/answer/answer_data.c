/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The answer page for machines, with its decimals. See answer_page.h. Invariant: it has no minute that the
 * page has not.
 */
#include "report/answer/answer_page.h"
#include "report/limits/leave_words.h"
#include "report/limits/limits.h"
#include "report/told.h"
#include "slowlift/edition.h"

/* Whether the row is of a strip whose minutes may be told. */
static bool has_minutes(const sl_answer_page *page, int arm)
{
    return page->answers->arm[arm].minutes && sl_answer_role_of(page->answers->scene, arm) == SL_ROLE_STRIP;
}

#define MIDDLE(SAY)                                                                                          \
    SAY(number, "p10", middle->p10)                                                                          \
    SAY(number, "p50", middle->p50)                                                                          \
    SAY(number, "p90", middle->p90)

/* Of one zone of the arm `which`: what is left when it is rinsed, and how often it is down in time. */
#define COLOUR(SAY)                                                                                          \
    SAY(let, const int arm = (int)table->which)                                                              \
    SAY(let, const int zone = (int)table->place)                                                             \
    SAY(skip,                                                                                                \
        page->answers->scene->zones[zone].recipe.n_dyes == 0 || page->answers->scene->arms[arm].undyed)      \
    SAY(let, const sl_middle of = sl_rinse_left(page->rinse, arm, zone))                                     \
    SAY(let, const sl_middle *const middle = &of)                                                            \
    SAY(let, const bool compared = sl_rinse_compares(page->rinse, page->answers->scene, arm, zone))          \
    SAY(text, "zone", page->answers->scene->zones[zone].name)                                                \
    MIDDLE(SAY)                                                                                              \
    SAY(number, "in_time",                                                                                   \
        sl_if_known(compared &&has_minutes(page, arm), sl_rinse_in_time(page->rinse, arm, zone)))
SL_FLAT_TABLE(colours, COLOUR, sl_answer_page, page);

/* which: the arm. */
#define BASE(SAY)                                                                                            \
    SAY(let, const int arm = (int)table->which)                                                              \
    SAY(let, const sl_middle moved = sl_rinse_base(page->rinse, arm))                                        \
    SAY(let, const int zone = page->rinse->request.base_zone[arm])                                           \
    SAY(number, "level_start", sl_answer_level(page->answers->scene, zone, 0.0))                             \
    SAY(number, "level_p10", sl_answer_level(page->answers->scene, zone, moved.p10))                         \
    SAY(number, "level_p50", sl_answer_level(page->answers->scene, zone, moved.p50))                         \
    SAY(number, "level_p90", sl_answer_level(page->answers->scene, zone, moved.p90))                         \
    SAY(number, "level_scale_end", SL_LEVEL_END)                                                             \
    SAY(number, "moved_p50", moved.p50)
SL_FLAT_TABLE(base, BASE, sl_answer_page, page);

#define STRESS(SAY)                                                                                          \
    SAY(let, const sl_middle of = sl_rinse_stress(page->rinse, (int)table->which))                           \
    SAY(let, const sl_middle *const middle = &of)                                                            \
    MIDDLE(SAY)
SL_FLAT_TABLE(stress, STRESS, sl_answer_page, page);

#define RINSE_BY(SAY)                                                                                        \
    SAY(planned, "planned_min", sl_if_known(by->minute >= 0 && by->planned, by->minute))                     \
    SAY(outcome, "model_min", sl_if_known(by->minute >= 0 && !by->planned, by->minute))                      \
    SAY(text, "says", by->minute < 0 ? NULL : by->stop == SL_STOP_END ? "planned" : sl_stop_word(by->stop))
SL_FLAT_TABLE(rinse_by, RINSE_BY, sl_rinse_by, by);

/* What to measure next: which draw, and the odds where it proves to lie in its lowest or its highest fifth.
 */
#define MEASURE(SAY)                                                                                         \
    SAY(let, const bool counted = answer->measure >= 0 && answer->measure_odds[0] >= 0.0)                    \
    SAY(number, "draw", sl_if_known(answer->measure >= 0, answer->measure))                                  \
    SAY(number, "odds_less", sl_if_known(counted, answer->measure_odds[0]))                                  \
    SAY(number, "odds_more", sl_if_known(counted, answer->measure_odds[1]))
SL_FLAT_TABLE(measure, MEASURE, sl_answer, answer);

#define ARM(SAY)                                                                                             \
    SAY(skip, page->only >= 0 && page->only != table->place)                                                 \
    SAY(let, const int arm = (int)table->place)                                                              \
    SAY(let, const sl_scene *const scene = page->answers->scene)                                             \
    SAY(let, const sl_answer *const answer = &page->answers->arm[arm])                                       \
    SAY(let, const bool told = has_minutes(page, arm))                                                       \
    SAY(let, const bool read = sl_answer_tells(page, arm))                                                   \
    SAY(number, "strip", arm + 1)                                                                            \
    SAY(text, "arm", scene->arms[arm].name)                                                                  \
    SAY(text, "role", sl_answer_role_key(sl_answer_role_of(scene, arm)))                                     \
    SAY(text, "verdict", told ? sl_verdict_key(answer->verdict) : NULL)                                      \
    SAY(text, "why",                                                                                         \
        told || answer->unknown == SL_UNKNOWN_NOTHING ? NULL : sl_unknown_words(answer->unknown))            \
    SAY(number, "odds", sl_if_known(told, answer->odds))                                                     \
    SAY(number, "dots", sl_if_known(told, answer->dots))                                                     \
    SAY(minutes, "looks", SL_ENTRY_OUTCOME, answer->check, told ? answer->n_checks : 0)                      \
    SAY(record, "rinse_by", rinse_by, told ? &page->answers->by[arm] : NULL, 0)                              \
    SAY(record, "measure", measure, told ? answer : NULL, 0)                                                 \
    SAY(number, "gets_there",                                                                                \
        sl_if_known(read && page->rinse->request.same_zone >= 0, sl_rinse_there(page->rinse, arm)))          \
    SAY(rows, "colour_left", colours, read ? page : NULL, arm, scene->n_zones)                               \
    SAY(record, "base", base, read ? page : NULL, arm)                                                       \
    SAY(record, "hair_stress", stress, read ? page : NULL, arm)                                              \
    SAY(cents, "cost_a_use", sl_if_known(page->currency != NULL && page->cost[arm] >= 0.0, page->cost[arm]))
SL_TABLE(arms, ARM, sl_answer_page, page);

#define ANSWER(SAY)                                                                                          \
    SAY(let, const sl_answers *const answers = page->answers)                                                \
    SAY(let, const sl_scene *const scene = answers->scene)                                                   \
    SAY(lies, scene, answers->person)                                                                        \
    SAY(text, "scene", scene->name)                                                                          \
    SAY(number, "model", sl_edition_now)                                                                     \
    SAY(text, "model_day", sl_edition_day())                                                                 \
    SAY(number, "members", (double)answers->spread->members)                                                 \
    SAY(yes, "partial", sl_answer_partial(page) >= 0)                                                        \
    SAY(words, "seed", "%llu", (unsigned long long)answers->spread->seed)                                    \
    SAY(yes, "goal_assumed", scene->aims.assumed)                                                            \
    SAY(text, "zone", page->zone >= 0 ? scene->zones[page->zone].name : NULL)                                \
    SAY(text, "same_colour_in",                                                                              \
        page->rinse->request.same_zone >= 0 ? scene->zones[page->rinse->request.same_zone].name : NULL)      \
    SAY(text, "currency", page->currency)                                                                    \
    SAY(rows, "arms", arms, page, 0, scene->n_arms)                                                          \
    SAY(note, scene)                                                                                         \
    SAY(cautions, sl_answer_occasions(page->answers))
SL_TABLE(answer_record, ANSWER, sl_answer_page, page);

const sl_export sl_answer_export = {"answer", 1, &answer_record, NULL};
