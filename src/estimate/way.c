/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Is there a way through? One word made of the limits of an arm (limits.c): the goal against
 * whatever comes first of base moved, cystine lost, the longest time and the label. Central values only,
 * bench only.
 */
#include <assert.h>

#include "estimate/limits_found.h"

static const double WIDE_MIN = 5.0; /* wide: a look every five minutes fits in (assumed) */

/* The first of base, stress, the longest time and the label's. */
static sl_stop first_stop(const sl_limits *limits)
{
    static const sl_stop read[] = {SL_STOP_BASE, SL_STOP_STRESS, SL_STOP_CHAIR, SL_STOP_LABEL};
    sl_stop first = SL_STOP_END;
    for (size_t i = 0; i < sizeof read / sizeof read[0]; i++) {
        if (limits->stop_reached[read[i]] && limits->stop_min[read[i]] <= limits->stop_min[first]) {
            first = read[i];
        }
    }
    return first;
}

sl_way sl_way_through(const sl_timeline *timeline, int arm)
{
    const sl_limits limits = limits_find(timeline, arm);
    sl_way way = {.word = SL_WAY_NOT_ASKED, .goal_zone = limits.early_zone, .limit_zone = -1};
    if (!limits.asked) {
        return way;
    }
    const sl_stop stop = first_stop(&limits);
    way.goal_reached = limits.early_reached;
    way.goal_min = limits.early_min;
    way.limit_reached = stop != SL_STOP_END;
    way.limit_min = limits.stop_min[stop];
    way.limit = stop == SL_STOP_STRESS ? SL_CYSTINE_LOST : SL_BASE_MOVED;
    way.limit_is_label = stop == SL_STOP_LABEL;
    way.limit_is_time = stop == SL_STOP_CHAIR || way.limit_is_label;
    way.limit_zone = way.limit_reached && !way.limit_is_time ? limits.stop_zone[stop] : -1;
    sl_cell cell;
    const double contact = sl_timeline_scene(timeline)->arms[arm].contact_min;
    sl_timeline_at(sl_timeline_rinsed(timeline), arm, way.goal_zone, contact + way.limit_min, NULL, &cell);
    way.goal_zone_left = cell.colour_left;
    if (!way.goal_reached || way.goal_min >= way.limit_min) {
        way.word = SL_WAY_NONE;
    } else {
        way.word = way.limit_min - way.goal_min >= WIDE_MIN ? SL_WAY_WIDE : SL_WAY_SHORT;
    }
    return way;
}

const char *sl_way_text(sl_way_word word)
{
    static const char *const words[] = {[SL_WAY_WIDE] = "wide",
                                        [SL_WAY_SHORT] = "short",
                                        [SL_WAY_NONE] = "none",
                                        [SL_WAY_NOT_ASKED] = "not asked"};
    assert(word <= SL_WAY_NOT_ASKED);
    return words[word];
}
