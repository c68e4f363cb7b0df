/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What was seen, for machines: CSV (RFC 4180) and JSON. See compare_page.h.
 */
#include <string.h>

#include "document/say.h"
#include "log/compare/compare_page.h"

static const char *const basis_words[SL_BASES] = {[SL_BASIS_GRADE] = "grade", [SL_BASIS_COLOUR] = "colour"};
static const char *const deviation_words[] = {
    [SL_DEVIATION_LATE] = "late",        [SL_DEVIATION_EARLY] = "early",
    [SL_DEVIATION_MIX_AGE] = "mix_age",  [SL_DEVIATION_REST] = "rest",
    [SL_DEVIATION_LABEL] = "over_label", [SL_DEVIATION_STOPPED] = "stopped",
    [SL_DEVIATION_CLOCKS] = "clocks",    [SL_DEVIATION_UNEQUAL] = "unequal",
    [SL_DEVIATION_PIECE] = "piece",      [SL_DEVIATION_GUMMY] = "gummy_or_broke",
    [SL_DEVIATION_LOTS] = "lots",        [SL_DEVIATION_NOTE] = "note"};

/* What was noted, or the machine's word for it; NULL: nothing. */
static const char *noted(const sl_deviation *deviation)
{
    if (deviation->kind == SL_DEVIATION_STOPPED) {
        return sl_stop_reason_word(deviation->reason);
    }
    const char *const note = deviation->note[0] != '\0' ? deviation->note : sl_remark_word(deviation->remark);
    return note[0] != '\0' ? note : NULL;
}

/* ---- of an arm in a zone -------------------------------------------------------------------------- */

/* `what` and what it is called within its own object. */
#define MEAN(SAY, within, what, mean_of)                                                                     \
    SAY(part, within, "mean", what, sl_if_known((mean_of).n > 0, (mean_of).mean))                            \
    SAY(part, within, "swatches", what "_swatches", sl_if_known((mean_of).n > 0, (mean_of).n))               \
    SAY(part, within, "sd", what "_sd", sl_if_known((mean_of).n > 1, (mean_of).sd))                          \
    SAY(part, within, "half_width", what "_half_width", sl_if_known((mean_of).half >= 0.0, (mean_of).half))
#define SEEN(SAY, what, mean_of) MEAN(SAY, what, what, mean_of)
#define PLACE(SAY)                                                                                           \
    SAY(let, const sl_seen_arm *const seen = sl_compare_arm(compare, arm, zone))                             \
    SAY(number, "place", seen->place)
#define PLACE_AT_PLANNED(SAY)                                                                                \
    SAY(number, "place_at_planned", sl_if_known(sl_compare_has_planned(compare), seen->place_at_planned))
#define BY_GRADE(SAY) SEEN(SAY, "left_by_grade", seen->seen[SL_BASIS_GRADE])
#define BY_COLOUR(SAY) SEEN(SAY, "left_by_colour", seen->seen[SL_BASIS_COLOUR])
#define PLANNED_BY_GRADE(SAY) SEEN(SAY, "at_planned_by_grade", seen->at_planned[SL_BASIS_GRADE])
#define PLANNED_BY_COLOUR(SAY) SEEN(SAY, "at_planned_by_colour", seen->at_planned[SL_BASIS_COLOUR])
#define LATER(SAY)                                                                                           \
    SEEN(SAY, "change_after_hours", seen->later)                                                             \
    SAY(number, "left_by_model", sl_if_known(seen->predicted > SL_NOT_READ, seen->predicted))
#define ORDERED(SAY, within, known, value, what, line)                                                       \
    SAY(part, within, what, line, sl_if_known((known) > SL_NOT_READ, value))
#define BY_ORDER(SAY)                                                                                        \
    SAY(let, const sl_by_order *const ordered = &seen->by_order)                                             \
    ORDERED(SAY, "left_by_order", ordered->left, ordered->left, "left", "left_by_order")                     \
    ORDERED(SAY, "left_by_order", ordered->low, ordered->low, "low", "left_by_order_low")                    \
    ORDERED(SAY, "left_by_order", ordered->high, ordered->high, "high", "left_by_order_high")                \
    SAY(part, "left_by_order", "place", "place_by_order", sl_if_known(ordered->place > 0, ordered->place))
#define PER_MIN(SAY) MEAN(SAY, "per_min", "rate_per_min", rate->per_min)
#define AT(SAY) SAY(planned, "at_min", sl_if_known(compare->at_min >= 0, compare->at_min))

/* ---- hair beside colour ---------------------------------------------------------------------------- */

/* Of an arm's mean of something, with `half` its interval's half width. */
#define OF_BLOCKS(SAY, within, what, told, blocks, arm, half)                                                \
    SAY(part, within, "mean", what, sl_if_known(told, (blocks).mean[arm]))                                   \
    SAY(part, within, "swatches", what "_swatches", sl_if_known(told, (blocks).n[arm]))                      \
    SAY(part, within, "half_width", what "_half_width", sl_if_known((told) && (half) >= 0.0, half))

static bool is_of(const sl_seen_hair *hair, const char *word)
{
    return strcmp(sl_hair_word(hair), word) == 0;
}

static double half_of(const sl_seen_hair *hair, int arm)
{
    return sl_hair_in_words(hair->measure) ? -1.0 : sl_blocks_half(&hair->blocks, arm, 0.95);
}

static double apart_half(const sl_seen_paid *paid, int arm)
{
    double half = -1.0;
    if (paid->fast >= 0 && paid->blocks.n[arm] > 0 && arm != paid->fast) {
        sl_paid_apart(paid, arm, &half);
    }
    return half;
}

/* Every word by which hair is compared (SL_HAIR_LIST). */
#define EACH_HAIR(LINES, SAY)                                                                                \
    LINES(SAY, "level")                                                                                      \
    LINES(SAY, "levels_lifted")                                                                              \
    LINES(SAY, "lightness")                                                                                  \
    LINES(SAY, "moved")                                                                                      \
    LINES(SAY, "from_undyed")                                                                                \
    LINES(SAY, "stretch")                                                                                    \
    LINES(SAY, "feel")
#define HAIR_LINES_OF(SAY, what)                                                                             \
    OF_BLOCKS(SAY, what, "hair_" what, is_of(hair, what), hair->blocks, arm, half_of(hair, arm))
#define SWATCHES_OF(SAY, what, word_of, word)                                                                \
    SAY(number, "hair_" what "_" word_of, sl_if_known(is_of(hair, what), hair->swatches[arm][word]))
#define HAIR_LINES(SAY)                                                                                      \
    EACH_HAIR(HAIR_LINES_OF, SAY)                                                                            \
    SWATCHES_OF(SAY, "stretch", "springs_back", 0)                                                           \
    SWATCHES_OF(SAY, "stretch", "slow", 1)                                                                   \
    SWATCHES_OF(SAY, "stretch", "stays_long", 2)                                                             \
    SWATCHES_OF(SAY, "stretch", "breaks", 3)                                                                 \
    SWATCHES_OF(SAY, "feel", "as_untreated", 0)                                                              \
    SWATCHES_OF(SAY, "feel", "slightly_dry", 1)                                                              \
    SWATCHES_OF(SAY, "feel", "rough", 2)                                                                     \
    SWATCHES_OF(SAY, "feel", "slippery_soft", 3)                                                             \
    SWATCHES_OF(SAY, "feel", "gummy", 4)
#define PAID_LINES_OF(SAY, what)                                                                             \
    SAY(number, "paid_" what, sl_if_known(is_of(hair, what), paid->blocks.mean[arm]))                        \
    SAY(number, "paid_" what "_swatches", sl_if_known(is_of(hair, what), paid->blocks.n[arm]))               \
    SAY(number, "paid_" what "_less_than_fastest",                                                           \
        sl_if_known(is_of(hair, what), paid->blocks.mean[paid->fast] - paid->blocks.mean[arm]))              \
    SAY(number, "paid_" what "_less_half_width",                                                             \
        sl_if_known(is_of(hair, what) && apart_half(paid, arm) >= 0.0, apart_half(paid, arm)))               \
    SAY(number, "paid_" what "_by_model",                                                                    \
        sl_if_known(is_of(hair, what) && paid->model[arm] > SL_NOT_READ, paid->model[arm]))
#define PAID_LINES(SAY)                                                                                      \
    SAY(number, "paid_at_colour_left", paid->left)                                                           \
    EACH_HAIR(PAID_LINES_OF, SAY)

/* ---- CSV: each arm that was seen in each zone, their rates, and hair ---------------------------------- */

#define NAMES(SAY)                                                                                           \
    SAY(text, "zone", compare->scene->zones[zone].name)                                                      \
    SAY(text, "arm", compare->scene->arms[arm].name)
#define ARM_LINES(SAY)                                                                                       \
    PLACE(SAY)                                                                                               \
    AT(SAY)                                                                                                  \
    PLACE_AT_PLANNED(SAY)                                                                                    \
    BY_GRADE(SAY)                                                                                            \
    PLANNED_BY_GRADE(SAY)                                                                                    \
    BY_COLOUR(SAY)                                                                                           \
    PLANNED_BY_COLOUR(SAY)                                                                                   \
    BY_ORDER(SAY)                                                                                            \
    LATER(SAY)
#define RATE_LINES(SAY)                                                                                      \
    PER_MIN(SAY)                                                                                             \
    SAY(number, "rate_per_min_by_model",                                                                     \
        sl_if_known(rate->model_per_min > SL_NOT_READ, rate->model_per_min))                                 \
    SAY(number, "rate_left_out", rate->left_out)

static sl_told tell_hair(sl_row *row, const sl_compare_page *page, long place)
{
    const sl_compare *const compare = page->compare;
    const int n_arms = compare->scene->n_arms, arm = (int)(place % n_arms), at = (int)(place / n_arms);
    if (at < compare->n_hair) {
        const sl_seen_hair *const hair = &compare->hair[at];
        const int zone = hair->zone;
        NAMES(SL_SAY)
        HAIR_LINES(SL_SAY)
        return hair->blocks.n[arm] > 0 && sl_compare_page_hair(page, at) ? SL_TOLD : SL_NOT_HERE;
    }
    if (at == compare->n_hair + compare->n_paid) {
        return SL_NO_MORE;
    }
    const sl_seen_paid *const paid = &compare->paid[at - compare->n_hair];
    const sl_seen_hair *const hair = &compare->hair[paid->hair];
    const int zone = paid->zone;
    if (paid->fast < 0 || paid->blocks.n[arm] == 0 || (page->only >= 0 && zone != page->only)) {
        return SL_NOT_HERE;
    }
    NAMES(SL_SAY)
    PAID_LINES(SL_SAY)
    return SL_TOLD;
}

static sl_told tell_line(sl_row *row, const sl_table *table)
{
    const sl_compare_page *const page = table->of;
    const sl_compare *const compare = page->compare;
    const int n_arms = compare->scene->n_arms, n = compare->scene->n_zones * n_arms;
    const bool rates = table->place >= n;
    const int zone = (int)table->place % n / n_arms, arm = (int)table->place % n_arms;
    if (table->place >= 2L * n) {
        return tell_hair(row, page, table->place - 2L * n);
    }
    NAMES(SL_SAY)
    if (rates) {
        const sl_rate *const rate = sl_compare_page_rate(page, arm, zone);
        if (!rate) {
            return SL_NOT_HERE;
        }
        RATE_LINES(SL_SAY)
        return SL_TOLD;
    }
    ARM_LINES(SL_SAY)
    return seen->place > 0 && sl_compare_page_shows(page, zone) ? SL_TOLD : SL_NOT_HERE;
}

static const sl_columns lines = SL_COLUMNS(NAMES(SL_COLUMN) ARM_LINES(SL_COLUMN) RATE_LINES(SL_COLUMN)
                                               HAIR_LINES(SL_COLUMN) PAID_LINES(SL_COLUMN),
                                           .tell = tell_line, .lead = 2);

/* ---- JSON -------------------------------------------------------------------------------------------- */

/* which: the zone; place: among the arms in order. */
#define ARM(SAY)                                                                                             \
    SAY(let, const int zone = (int)table->which)                                                             \
    SAY(let, int order[SL_MAX_ARMS])                                                                         \
    SAY(end, table->place == sl_compare_order(compare, zone, order))                                         \
    SAY(let, const int arm = order[table->place])                                                            \
    SAY(text, "arm", compare->scene->arms[arm].name)                                                         \
    PLACE(SAY)                                                                                               \
    PLACE_AT_PLANNED(SAY)                                                                                    \
    BY_GRADE(SAY)                                                                                            \
    BY_COLOUR(SAY)                                                                                           \
    PLANNED_BY_GRADE(SAY)                                                                                    \
    PLANNED_BY_COLOUR(SAY)                                                                                   \
    BY_ORDER(SAY)                                                                                            \
    LATER(SAY)
SL_TABLE(arms, ARM, sl_compare, compare);

/* which: the zone, below 0: -1 less the zone, by the order of grades; place: among all pairs. */
#define BEFORE(SAY)                                                                                          \
    SAY(let, const sl_scene *const scene = compare->scene)                                                   \
    SAY(let, const int one = (int)table->place / scene->n_arms)                                              \
    SAY(let, const int other = (int)table->place % scene->n_arms)                                            \
    SAY(let, const int which = (int)table->which)                                                            \
    SAY(skip, !(which >= 0 ? sl_compare_before(compare, which, one, other)                                   \
                           : sl_compare_before_by_order(compare, -1 - which, one, other)))                   \
    SAY(text, "arm", scene->arms[one].name)                                                                  \
    SAY(text, "before", scene->arms[other].name)
SL_FLAT_TABLE(befores, BEFORE, sl_compare, compare);

#define ZONE(SAY)                                                                                            \
    SAY(let, const sl_compare *const compare = page->compare)                                                \
    SAY(let, const int zone = (int)table->place)                                                             \
    SAY(skip, !sl_compare_page_shows(page, zone))                                                            \
    SAY(text, "zone", compare->scene->zones[zone].name)                                                      \
    SAY(text, "basis", basis_words[compare->basis[zone]])                                                    \
    SAY(let, const bool repeated = compare->scatter[zone].freedom > 0)                                       \
    SAY(number, "scatter_sd", sl_if_known(repeated, compare->scatter[zone].sd))                              \
    SAY(number, "scatter_freedom", compare->scatter[zone].freedom)                                           \
    SAY(number, "least_scatter_at_nothing_left", sl_compare_least_sd(compare, zone, 0.0))                    \
    SAY(rows, "arms", arms, compare, zone, compare->scene->n_arms)                                           \
    SAY(rows, "told_apart", befores, compare, zone, (long)compare->scene->n_arms * compare->scene->n_arms)   \
    SAY(rows, "told_apart_by_order", befores, compare, -1 - zone,                                            \
        (long)compare->scene->n_arms * compare->scene->n_arms)                                               \
    SAY(let, const sl_graded_scatter *const by_order = &compare->by_order[zone])                             \
    SAY(part, "scatter_by_order", "swatch_root_sd", "swatch_root_sd", by_order->swatch)                      \
    SAY(part, "scatter_by_order", "round_root_sd", "round_root_sd", by_order->block)
SL_TABLE(zones, ZONE, sl_compare_page, page);

#define RATE(SAY)                                                                                            \
    SAY(let, const sl_scene *const scene = page->compare->scene)                                             \
    SAY(let, const int zone = (int)table->place / scene->n_arms)                                             \
    SAY(let, const int arm = (int)table->place % scene->n_arms)                                              \
    SAY(let, const sl_rate *const rate = sl_compare_page_rate(page, arm, zone))                              \
    SAY(skip, !rate)                                                                                         \
    SAY(text, "zone", scene->zones[zone].name)                                                               \
    SAY(text, "arm", scene->arms[arm].name)                                                                  \
    PER_MIN(SAY)                                                                                             \
    SAY(number, "per_min_by_model", sl_if_known(rate->model_per_min > SL_NOT_READ, rate->model_per_min))     \
    SAY(number, "left_out", rate->left_out)
SL_FLAT_TABLE(rates, RATE, sl_compare_page, page);

/* which: the strip. */
#define WORD(SAY)                                                                                            \
    SAY(let, const sl_said list = hair->measure == SL_HAIR_STRETCH ? SL_SAID_STRETCH : SL_SAID_FEEL)         \
    SAY(skip, hair->swatches[table->which][table->place] == 0)                                               \
    SAY(text, "word", sl_said_word(list, (int)table->place))                                                 \
    SAY(number, "swatches", hair->swatches[table->which][table->place])
SL_FLAT_TABLE(hair_words, WORD, sl_seen_hair, hair);

/* which: of the compare's hair. */
#define HAIR_ARM(SAY)                                                                                        \
    SAY(let, const sl_seen_hair *const hair = &compare->hair[table->which])                                  \
    SAY(let, const int arm = (int)table->place)                                                              \
    SAY(skip, hair->blocks.n[arm] == 0)                                                                      \
    SAY(text, "arm", compare->scene->arms[arm].name)                                                         \
    SAY(number, "mean", hair->blocks.mean[arm])                                                              \
    SAY(number, "swatches", hair->blocks.n[arm])                                                             \
    SAY(number, "half_width", sl_if_known(half_of(hair, arm) >= 0.0, half_of(hair, arm)))                    \
    SAY(rows, "words", hair_words, hair, arm, sl_hair_in_words(hair->measure) ? SL_HAIR_WORDS : 0)
SL_TABLE(hair_arms, HAIR_ARM, sl_compare, compare);

#define HAIR(SAY)                                                                                            \
    SAY(let, const sl_compare *const compare = page->compare)                                                \
    SAY(let, const int at = (int)table->place)                                                               \
    SAY(skip, !sl_compare_page_hair(page, at))                                                               \
    SAY(let, const sl_seen_hair *const hair = &compare->hair[at])                                            \
    SAY(let, const long n_arms = compare->scene->n_arms)                                                     \
    SAY(text, "zone", compare->scene->zones[hair->zone].name)                                                \
    SAY(text, "measure", sl_hair_word(hair))                                                                 \
    SAY(number, "scatter_sd", sl_if_known(hair->blocks.freedom > 0, hair->blocks.sd))                        \
    SAY(number, "scatter_freedom", hair->blocks.freedom)                                                     \
    SAY(number, "least_scatter", hair->blocks.least_sd[0])                                                   \
    SAY(rows, "arms", hair_arms, compare, at, n_arms)                                                        \
    SAY(rows, "told_apart", befores, compare, compare->scene->n_zones + at, n_arms * n_arms)
SL_TABLE(hair_record, HAIR, sl_compare_page, page);

/* which: of what was paid. */
#define PAID_ARM(SAY)                                                                                        \
    SAY(let, const sl_seen_paid *const paid = &compare->paid[table->which])                                  \
    SAY(let, const int arm = (int)table->place)                                                              \
    SAY(skip, paid->blocks.n[arm] == 0)                                                                      \
    SAY(text, "arm", compare->scene->arms[arm].name)                                                         \
    SAY(number, "mean", paid->blocks.mean[arm])                                                              \
    SAY(number, "swatches", paid->blocks.n[arm])                                                             \
    SAY(number, "less_than_fastest", paid->blocks.mean[paid->fast] - paid->blocks.mean[arm])                 \
    SAY(number, "less_half_width", sl_if_known(apart_half(paid, arm) >= 0.0, apart_half(paid, arm)))         \
    SAY(number, "by_model", sl_if_known(paid->model[arm] > SL_NOT_READ, paid->model[arm]))
SL_FLAT_TABLE(paid_arms, PAID_ARM, sl_compare, compare);

#define PAID(SAY)                                                                                            \
    SAY(let, const sl_compare *const compare = page->compare)                                                \
    SAY(let, const int at = (int)table->place)                                                               \
    SAY(let, const sl_seen_paid *const paid = &compare->paid[at])                                            \
    SAY(skip, page->only >= 0 && paid->zone != page->only)                                                   \
    SAY(let, const sl_scene *const scene = compare->scene)                                                   \
    SAY(let, const bool met = paid->fast >= 0)                                                               \
    SAY(let, const int told = sl_paid_told(compare, at))                                                     \
    SAY(text, "zone", scene->zones[paid->zone].name)                                                         \
    SAY(text, "read_in", scene->zones[compare->hair[paid->hair].zone].name)                                  \
    SAY(text, "measure", sl_hair_word(&compare->hair[paid->hair]))                                           \
    SAY(number, "colour_left", sl_if_known(met, paid->left))                                                 \
    SAY(text, "fastest", met ? scene->arms[paid->fast].name : NULL)                                          \
    SAY(text, "slowest", met ? scene->arms[paid->slow].name : NULL)                                          \
    SAY(text, "told_to_have_paid_more",                                                                      \
        told == 0 ? NULL : scene->arms[told > 0 ? paid->fast : paid->slow].name)                             \
    SAY(rows, "arms", paid_arms, compare, at, met ? scene->n_arms : 0)
SL_TABLE(paid_record, PAID, sl_compare_page, page);

#define DEVIATION(SAY)                                                                                       \
    SAY(let, const sl_deviation *const deviation = &compare->deviations[table->place])                       \
    SAY(let, const int swatch = deviation->swatch)                                                           \
    SAY(text, "what", deviation_words[deviation->kind])                                                      \
    SAY(text, "code", swatch >= 0 ? compare->swatches[swatch].bench.code : NULL)                             \
    SAY(number, "seconds", deviation->seconds)                                                               \
    SAY(text, "zone", deviation->zone >= 0 ? compare->scene->zones[deviation->zone].name : NULL)             \
    SAY(number, "planned_over_had", deviation->factor)                                                       \
    SAY(text, "note", noted(deviation))
SL_FLAT_TABLE(deviations, DEVIATION, sl_compare, compare);

#define ODD(SAY)                                                                                             \
    SAY(let, const sl_odd_order *const odd = &compare->odd)                                                  \
    SAY(text, "zone", compare->scene->zones[odd->zone].name)                                                 \
    SAY(text, "one", compare->scene->arms[odd->arm[0]].name)                                                 \
    SAY(text, "other", compare->scene->arms[odd->arm[1]].name)                                               \
    SAY(number, "pairs", odd->pairs)                                                                         \
    SAY(number, "seen", odd->chance)                                                                         \
    SAY(text, "odd", sl_oddity_word(sl_oddity_of(odd->chance)))
SL_FLAT_TABLE(odd_record, ODD, sl_compare, compare);

#define JUDGES(SAY)                                                                                          \
    SAY(number, "pairs", (double)judges->pairs)                                                              \
    SAY(number, "equal", (double)judges->equal)                                                              \
    SAY(number, "weighted_kappa", sl_if_known(judges->known, judges->kappa))                                 \
    SAY(number, "weighted_kappa_error", sl_if_known(judges->known, judges->kappa_error))
SL_FLAT_TABLE(judges_record, JUDGES, sl_agreement, judges);

#define JUDGE(SAY)                                                                                           \
    SAY(let, const sl_seen_judge *const judge = &compare->judge[table->place])                               \
    SAY(let, const sl_judge *const is = &judge->is.judge)                                                    \
    SAY(let, const bool set_against = judge->offset_half >= 0.0)                                             \
    SAY(text, "judge", judge->code)                                                                          \
    SAY(number, "looks", judge->looks)                                                                       \
    SAY(number, "looks_again", judge->again)                                                                 \
    SAY(number, "offset_of_root", sl_if_known(set_against, is->offset))                                      \
    SAY(number, "offset_half_width", sl_if_known(set_against, judge->offset_half))                           \
    SAY(number, "spread_of_root", is->spread)                                                                \
    SAY(yes, "spread_learned", judge->learned)                                                               \
    SAY(number, "spread_low", sl_if_known(judge->learned, judge->is.spread_low))                             \
    SAY(number, "spread_high", sl_if_known(judge->learned, judge->is.spread_high))                           \
    SAY(number, "lapse", is->lapse)                                                                          \
    SAY(yes, "lapse_learned", judge->learned && judge->is.lapse)
SL_FLAT_TABLE(each_judge, JUDGE, sl_compare, compare);

#define PAIR(SAY)                                                                                            \
    SAY(let, const sl_judge_pair *const pair = &compare->pairs[table->place])                                \
    SAY(let, const sl_agreement *const judges = &pair->of)                                                   \
    SAY(text, "judge", compare->judge[pair->one].code)                                                       \
    SAY(text, "other", compare->judge[pair->other].code)                                                     \
    JUDGES(SAY)
SL_FLAT_TABLE(judge_pairs, PAIR, sl_compare, compare);

#define COMPARE(SAY)                                                                                         \
    SAY(let, const sl_compare *const compare = page->compare)                                                \
    SAY(let, const sl_scene *const scene = compare->scene)                                                   \
    SAY(text, "test", compare->test.id)                                                                      \
    SAY(text, "title", compare->test.title)                                                                  \
    SAY(text, "scene", compare->test.scene_name)                                                             \
    SAY(number, "swatches", compare->n_swatches)                                                             \
    SAY(yes, "rehearsal", false) /* one is never compared */                                                 \
    AT(SAY)                                                                                                  \
    SAY(rows, "zones", zones, page, 0, scene->n_zones)                                                       \
    SAY(rows, "hair", hair_record, page, 0, compare->n_hair)                                                 \
    SAY(rows, "same_colour_left", paid_record, page, 0, compare->n_paid)                                     \
    SAY(rows, "rates", rates, page, 0, (long)scene->n_zones * scene->n_arms)                                 \
    SAY(rows, "otherwise_than_planned", deviations, compare, 0, compare->n_deviations)                       \
    SAY(record, "against_the_model", odd_record, compare->odd.zone >= 0 ? compare : NULL, 0)                 \
    SAY(number, "graded", (double)compare->n_graded)                                                         \
    SAY(number, "graded_uncovered", (double)compare->n_uncovered)                                            \
    SAY(record, "judges", judges_record, &compare->judges, 0)                                                \
    SAY(rows, "each_judge", each_judge, compare, 0, compare->n_judges)                                       \
    SAY(rows, "judge_pairs", judge_pairs, compare, 0, compare->n_pairs)                                      \
    SAY(cautions, sl_compare_occasions(compare))
SL_TABLE(compare_record, COMPARE, sl_compare_page, page);

const sl_export sl_compare_export = {"compare", 3, &compare_record, &lines};
