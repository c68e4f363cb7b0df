/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What was seen in several tests, for machines: CSV (RFC 4180) and JSON. See several.h.
 */
#include "document/say.h"
#include "log/several/several.h"

static const char *const apart_words[] = {[SL_APART_NOT] = NULL,
                                          [SL_APART_NOTHING] = "nothing_alike",
                                          [SL_APART_ZONE] = "zone",
                                          [SL_APART_STRIP] = "strip",
                                          [SL_APART_LABEL] = "label",
                                          [SL_APART_POWDER] = "powder_lot",
                                          [SL_APART_DEVELOPER] = "developer_lot"};

static const sl_several_group *group_of(const sl_several *several, long which)
{
    return &several->group[which / SL_MAX_ZONES];
}

/* ---- what a strip left in a zone ------------------------------------------------------------------------
 */

#define STRIP_LINES(SAY)                                                                                     \
    SAY(let, const sl_pooled *const pool = group->pool[zone])                                                \
    SAY(let, const double predicted = group->predicted[zone * group->n_strips + strip])                      \
    SAY(number, "place", group->place[zone * group->n_strips + strip])                                       \
    SAY(number, "left", pool->all.mean[strip])                                                               \
    SAY(number, "half_width", sl_several_half(group, zone, strip))                                           \
    SAY(number, "tests", pool->tests[strip])                                                                 \
    SAY(number, "swatches", pool->all.n[strip])                                                              \
    SAY(number, "left_by_model", sl_if_known(predicted > SL_NOT_READ, predicted))

/* CSV: a row for each strip that was seen in each zone of each group. */
#define LINE(SAY)                                                                                            \
    SAY(let, const sl_several_group *const group = &several->group[at])                                      \
    SAY(let, const int zone = (int)(table->place / SL_MAX_ARMS % SL_MAX_ZONES))                              \
    SAY(let, const int strip = (int)(table->place % SL_MAX_ARMS))                                            \
    SAY(skip, zone >= group->n_zones || strip >= group->n_strips || !sl_several_shows(several, group, zone)) \
    SAY(skip, group->place[zone * group->n_strips + strip] == 0)                                             \
    SAY(number, "group", (double)(at + 1))                                                                   \
    SAY(text, "zone", sl_several_zone(several, group, zone, false))                                          \
    SAY(text, "arm", sl_several_strip(several, group, strip, false))                                         \
    STRIP_LINES(SAY)                                                                                         \
    SAY(number, "common_sd", pool->common.middle)                                                            \
    SAY(number, "own_sd", pool->own.middle)

static sl_told tell_line(sl_row *row, const sl_table *table)
{
    const sl_several *const several = table->of;
    const long at = table->place / SL_MAX_ARMS / SL_MAX_ZONES;
    if (at >= several->n_groups) {
        return SL_NO_MORE;
    }
    LINE(SL_SAY)
    return SL_TOLD;
}
static const sl_columns lines = SL_COLUMNS(LINE(SL_COLUMN), .tell = tell_line);

/* ---- JSON: which: the group and the zone ----------------------------------------------------------------
 */

#define STRIP(SAY)                                                                                           \
    SAY(let, const sl_several_group *const group = group_of(several, table->which))                          \
    SAY(let, const int zone = (int)(table->which % SL_MAX_ZONES))                                            \
    SAY(let, int order[SL_MAX_ARMS])                                                                         \
    SAY(end, table->place == sl_several_order(group, zone, order))                                           \
    SAY(let, const int strip = order[table->place])                                                          \
    SAY(text, "arm", sl_several_strip(several, group, strip, false))                                         \
    STRIP_LINES(SAY)
SL_TABLE(strips, STRIP, sl_several, several);

#define PAIR(SAY, told)                                                                                      \
    SAY(let, const sl_several_group *const group = group_of(several, table->which))                          \
    SAY(let, const int zone = (int)(table->which % SL_MAX_ZONES))                                            \
    SAY(let, const int one = (int)table->place / group->n_strips)                                            \
    SAY(let, const int other = (int)table->place % group->n_strips)                                          \
    SAY(skip, !group->told[(zone * group->n_strips + one) * group->n_strips + other])                        \
    SAY(text, "arm", sl_several_strip(several, group, one, false))                                           \
    SAY(text, "before", sl_several_strip(several, group, other, false))
#define BEFORE(SAY) PAIR(SAY, before)
#define BY_ORDER(SAY) PAIR(SAY, before_by_order)
SL_FLAT_TABLE(befores, BEFORE, sl_several, several);
SL_FLAT_TABLE(orders, BY_ORDER, sl_several, several);

#define BETWEEN(SAY)                                                                                         \
    SAY(number, "middle", between->middle)                                                                   \
    SAY(number, "low", between->low)                                                                         \
    SAY(number, "high", between->high)
SL_FLAT_TABLE(between_record, BETWEEN, sl_between, between);

#define ZONE(SAY)                                                                                            \
    SAY(let, const sl_several_group *const group = &several->group[table->which])                            \
    SAY(let, const int zone = (int)table->place)                                                             \
    SAY(skip, !sl_several_shows(several, group, zone))                                                       \
    SAY(let, const long at = table->which * SL_MAX_ZONES + zone)                                             \
    SAY(text, "zone", sl_several_zone(several, group, zone, false))                                          \
    SAY(record, "common_sd", between_record, &group->pool[zone]->common, 0)                                  \
    SAY(record, "own_sd", between_record, &group->pool[zone]->own, 0)                                        \
    SAY(rows, "arms", strips, several, at, group->n_strips)                                                  \
    SAY(rows, "told_apart", befores, several, at, (long)group->n_strips * group->n_strips)                   \
    SAY(rows, "told_apart_by_order", orders, several, at, (long)group->n_strips * group->n_strips)
SL_TABLE(zones, ZONE, sl_several, several);

#define TEST(SAY)                                                                                            \
    SAY(let, const sl_several_test *const test = &several->test[table->place])                               \
    SAY(skip, test->group != table->which)                                                                   \
    SAY(let, char file[SL_SHELF_SHOWN])                                                                      \
    SAY(words, "file", "%s", sl_shelf_shown(test->file, file))                                               \
    SAY(text, "test", test->seen->test.id)                                                                   \
    SAY(text, "made", test->seen->test.made)                                                                 \
    SAY(text, "scene", test->seen->test.scene_name)                                                          \
    SAY(number, "swatches", test->seen->n_swatches)
SL_FLAT_TABLE(tests, TEST, sl_several, several);

#define APART(SAY)                                                                                           \
    SAY(text, "what", apart_words[apart->kind])                                                              \
    SAY(text, "of", apart->what)                                                                             \
    SAY(text, "lot", apart->lot)                                                                             \
    SAY(text, "earlier_lot", apart->other)                                                                   \
    SAY(planned, "label_min", sl_if_known(apart->label_min > 0.0, apart->label_min))                         \
    SAY(planned, "earlier_label_min", sl_if_known(apart->other_min > 0.0, apart->other_min))
SL_FLAT_TABLE(apart_record, APART, sl_apart, apart);

#define GROUP(SAY)                                                                                           \
    SAY(let, const long at = table->place)                                                                   \
    SAY(let, const sl_several_group *const group = &several->group[at])                                      \
    SAY(let, const bool prior = group->n_tests > 1 && group->n_tests < SL_POOL_FEW)                          \
    SAY(rows, "tests", tests, several, at, (long)several->n)                                                 \
    SAY(record, "apart", apart_record, &group->apart, 0)                                                     \
    SAY(record, "across", apart_record, &group->across, 0)                                                   \
    SAY(number, "lot_unsaid", group->n_lots_unsaid)                                                          \
    SAY(number, "assumed_sd", sl_if_known(prior, SL_POOL_PRIOR))                                             \
    SAY(number, "even_below",                                                                                \
        sl_if_known(group->comparisons > 0 && group->even_below >= 0.0, group->even_below))                  \
    SAY(rows, "zones", zones, several, at, group->n_zones)
SL_TABLE(groups, GROUP, sl_several, several);

#define SEVERAL(SAY)                                                                                         \
    SAY(rows, "groups", groups, several, 0, several->n_groups)                                               \
    SAY(number, "rehearsals_left_out", several->n_rehearsed)                                                 \
    SAY(number, "people_left_out", several->n_people)                                                        \
    SAY(number, "unseen_left_out", several->n_unseen)                                                        \
    SAY(number, "copies_left_out", several->n_copies)                                                        \
    SAY(number, "older_left_out", several->n_older)                                                          \
    SAY(number, "unread", several->n_unread)                                                                 \
    SAY(cautions, sl_several_occasions(several))
SL_TABLE(several_record, SEVERAL, sl_several, several);

const sl_export sl_several_export = {"several", 1, &several_record, &lines};
