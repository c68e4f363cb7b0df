/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A comparison for machines, with its decimals. See rank.h.
 */
#include "report/limits/leave_words.h"
#include "report/rank/rank.h"
#include "report/told.h"
#include "slowlift/report.h"

#define WORK_KEY(NAME, name, key, required, order, dose, rate, energy, work_key, ...) work_key,
static const char *const work_keys[SL_CHANNELS] = {SL_CHANNEL_LIST(WORK_KEY)};
#undef WORK_KEY

static const sl_standing *standing_of(const sl_rank_page *page, int arm, int zone)
{
    return &page->rank->standing[arm * page->rank->n_zones + zone];
}

static double gone_share(const sl_rank_page *page, int arm, int zone)
{
    const sl_standing *const standing = standing_of(page, arm, zone);
    return standing->members > 0 ? (double)standing->gone / (double)standing->members : 0.0;
}

static sl_reason reason_of(const sl_rank_page *page, int arm, int zone)
{
    return sl_reason_of(page->timeline, arm, zone,
                        sl_timeline_scene(page->timeline)->arms[arm].contact_min +
                            page->rank->request.minute);
}

/* Of the zone's hair as it begins. */
static double level_of(const sl_rank_page *page, long zone)
{
    const sl_scene *const scene = sl_timeline_scene(page->timeline);
    return scene->hairs[scene->zones[zone].hair].level;
}

static bool is_unbeaten(const sl_rank_page *page, int arm, int zone)
{
    bool unbeaten[SL_MAX_ARMS];
    sl_rank_unbeaten(page->rank, zone, unbeaten);
    return unbeaten[arm];
}

/* ---- an arm in a zone ------------------------------------------------------------------------ */

#define STANDING(SAY, name, what)                                                                            \
    SAY(let, const int name##_place = sl_rank_place(page->rank, arm, zone, what))                            \
    SAY(let, const sl_middle name = sl_rank_middle(page->rank, arm, zone, what))                             \
    SAY(part, #name, "place", #name "_place", sl_if_known(name##_place > 0, name##_place))                   \
    SAY(part, #name, "p10", #name "_p10", sl_if_known(name##_place > 0, name.p10))                           \
    SAY(part, #name, "p50", #name "_p50", sl_if_known(name##_place > 0, name.p50))                           \
    SAY(part, #name, "p90", #name "_p90", sl_if_known(name##_place > 0, name.p90))
#define STANDINGS(SAY)                                                                                       \
    STANDING(SAY, left_then, SL_LEFT_THEN)                                                                   \
    STANDING(SAY, base_then, SL_BASE_THEN)                                                                   \
    STANDING(SAY, stress_then, SL_STRESS_THEN)                                                               \
    STANDING(SAY, base_gone, SL_BASE_GONE)                                                                   \
    STANDING(SAY, stress_gone, SL_STRESS_GONE)
#define ARM(SAY) SAY(text, "arm", sl_timeline_scene(page->timeline)->arms[arm].name)
#define UNBEATEN(SAY) SAY(yes, "unbeaten", is_unbeaten(page, arm, zone))
#define GONE(SAY) SAY(number, "gone_share", gone_share(page, arm, zone))
#define READINGS(SAY)                                                                                        \
    SAY(outcome, "half_min", sl_if_known(readings.halved, readings.half_min))                                \
    SAY(number, "end_left", readings.end_left)                                                               \
    SAY(number, "selectivity", sl_if_known(readings.selectivity >= 0.0, readings.selectivity))
#define WORK(NAME, name, word, required, order, dose, rate, energy, work_key, ...) {.key = (work_key)},
#define WASHING(SAY) SAY(number, "work_washing", reason.washing)

static sl_told tell_of(sl_row *row, const sl_rank_page *page, int arm, int zone)
{
    if (!sl_rank_has(page->rank, arm, zone)) {
        return SL_NOT_HERE;
    }
    const sl_three_readings readings =
        sl_three_readings_of(page->timeline, arm, zone, page->rank->request.share);
    const sl_reason reason = reason_of(page, arm, zone);
    ARM(SL_SAY)
    UNBEATEN(SL_SAY)
    STANDINGS(SL_SAY)
    GONE(SL_SAY)
    READINGS(SL_SAY)
    for (int channel = 0; channel < SL_CHANNELS; channel++) {
        sl_row_number(row, work_keys[channel], reason.channel[channel]);
    }
    WASHING(SL_SAY)
    return SL_TOLD;
}

/* which: the zone. */
static sl_told tell_arm(sl_row *row, const sl_table *table)
{
    return tell_of(row, table->of, (int)table->place, (int)table->which);
}

static const sl_columns arms =
    SL_COLUMNS(ARM(SL_COLUMN) UNBEATEN(SL_COLUMN) STANDINGS(SL_COLUMN) GONE(SL_COLUMN) READINGS(SL_COLUMN)
                   SL_CHANNEL_LIST(WORK) WASHING(SL_COLUMN),
               .tell = tell_arm);

/* ---- CSV: every arm in every zone, and then the surprise ------------------------------------------- */

#define INDEX_LINE(SAY)                                                                                      \
    SAY(let, const sl_drawn *const drawn = &page->asked->plan.drawn[table->place])                           \
    SAY(drawn_line, sl_timeline_scene(page->timeline), drawn)                                                \
    SAY(number, "value", sl_surprise_index(page->asked, (int)table->place))
SL_TABLE(index_lines, INDEX_LINE, sl_rank_page, page);

#define ZONE(SAY) SAY(text, "zone", sl_timeline_scene(page->timeline)->zones[zone].name)
#define COUNTED(SAY)                                                                                         \
    SAY(number, "members", (double)page->rank->members)                                                      \
    SAY(yes, "partial", page->rank->stopped)
#define LEVELS(SAY)                                                                                          \
    SAY(number, "level_start", level_of(page, zone))                                                         \
    SAY(number, "level_scale_end", SL_LEVEL_END)
#define SURPRISED(SAY)                                                                                       \
    SAY(let, const sl_surprise *const asked = page->asked)                                                   \
    SAY(number, "surprise_members", (double)asked->members)                                                  \
    SAY(number, "surprise_shown", (double)asked->shown)                                                      \
    SAY(number, "surprise_seen", sl_surprise_chance(asked))                                                  \
    SAY(rows, NULL, index_lines, page, 0, asked->plan.n)
#define LIES(SAY) SAY(lies, sl_timeline_scene(page->timeline), NULL)

static sl_told tell_line(sl_row *row, const sl_table *table)
{
    const sl_rank_page *const page = table->of;
    const bool surprise = table->place == (long)page->rank->n_zones * page->rank->n_arms;
    if (table->place > (long)page->rank->n_zones * page->rank->n_arms || (surprise && !page->asked)) {
        return SL_NO_MORE;
    }
    const int zone = surprise ? page->asked->asked.zone : (int)table->place / page->rank->n_arms;
    const int arm = surprise ? page->asked->asked.one : (int)table->place % page->rank->n_arms;
    ZONE(SL_SAY)
    LIES(SL_SAY)
    if (surprise) {
        ARM(SL_SAY)
        SURPRISED(SL_SAY)
        return SL_TOLD;
    }
    COUNTED(SL_SAY)
    LEVELS(SL_SAY)
    return sl_rank_shows(page, zone) ? tell_of(row, page, arm, zone) : SL_NOT_HERE;
}

static const sl_columns lines =
    SL_COLUMNS(ZONE(SL_COLUMN) ARM(SL_COLUMN) STANDINGS(SL_COLUMN) COUNTED(SL_COLUMN) GONE(SL_COLUMN)
                   UNBEATEN(SL_COLUMN) LEVELS(SL_COLUMN) READINGS(SL_COLUMN) SL_CHANNEL_LIST(WORK)
                       WASHING(SL_COLUMN) SURPRISED(SL_COLUMN) LIES(SL_COLUMN),
               .tell = tell_line, .lead = 2, .tail = 1);

/* ---- JSON ------------------------------------------------------------------------------------ */

static void say_why(sl_row *row, const sl_rank_page *page, int zone)
{
    char why[640];
    sl_rank_reason_words(page, zone, why, sizeof why);
    sl_row_words(row, "why", "%s", why);
}

#define SL_COLUMN_why(page, zone) {.key = "why"},
#define SL_SAY_why(page, zone) say_why(row, page, zone);
static sl_gentler gentler_of(const sl_rank_page *page, int zone)
{
    sl_gentler found = {.slow = 0};
    sl_rank_gentler(page->rank, zone, &found);
    return found;
}

static bool has_gentler(const sl_rank_page *page, int zone)
{
    sl_gentler found;
    return sl_rank_gentler(page->rank, zone, &found);
}

#define GENTLER(SAY)                                                                                         \
    SAY(let, const sl_gentler found = gentler_of(page, (int)table->which))                                   \
    SAY(text, "slow", sl_timeline_scene(page->timeline)->arms[found.slow].name)                              \
    SAY(text, "fast", sl_timeline_scene(page->timeline)->arms[found.fast].name)                              \
    SAY(number, "both", (double)found.both)                                                                  \
    SAY(number, "slower", (double)found.slower)                                                              \
    SAY(number, "less_base", (double)found.less_base)                                                        \
    SAY(number, "less_stress", (double)found.less_stress)
SL_TABLE(gentler, GENTLER, sl_rank_page, page);

#define ZONE_OF(SAY)                                                                                         \
    SAY(let, const int zone = (int)table->place)                                                             \
    SAY(skip, !sl_rank_shows(page, zone))                                                                    \
    ZONE(SAY)                                                                                                \
    SAY(number, "level_start", level_of(page, zone))                                                         \
    SAY(why, page, zone)                                                                                     \
    SAY(record, "slower", gentler, has_gentler(page, zone) ? page : NULL, zone)                              \
    SAY(rows, "arms", arms, page, zone, page->rank->n_arms)
SL_TABLE(zones, ZONE_OF, sl_rank_page, page);

#define INDEX(SAY)                                                                                           \
    SAY(let, const sl_drawn *const drawn = &page->asked->plan.drawn[table->place])                           \
    SAY(drawn, sl_timeline_scene(page->timeline), drawn)                                                     \
    SAY(number, "index", sl_surprise_index(page->asked, (int)table->place))
SL_FLAT_TABLE(indices, INDEX, sl_rank_page, page);

#define SURPRISE(SAY)                                                                                        \
    SAY(let, const sl_scene *const scene = sl_timeline_scene(page->timeline))                                \
    SAY(let, const sl_surprise_request *const asked = &page->asked->asked)                                   \
    SAY(let, const double chance = sl_surprise_chance(page->asked))                                          \
    SAY(text, "zone", scene->zones[asked->zone].name)                                                        \
    SAY(text, "one", scene->arms[asked->one].name)                                                           \
    SAY(text, "other", scene->arms[asked->other].name)                                                       \
    SAY(number, "members", (double)page->asked->members)                                                     \
    SAY(number, "shown", (double)page->asked->shown)                                                         \
    SAY(number, "swatches", asked->seeing.swatches[0])                                                       \
    SAY(text, "read_by", asked->seeing.read ? "instrument" : "grade")                                        \
    SAY(number, "spread_of_swatches", sl_rank_scatter(page))                                                 \
    SAY(number, "seen", chance)                                                                              \
    SAY(text, "odd", sl_oddity_word(sl_oddity_of(chance)))                                                   \
    SAY(rows, "indices", indices, page, 0, page->asked->plan.n)
SL_TABLE(surprise, SURPRISE, sl_rank_page, page);

#define RANK(SAY)                                                                                            \
    SAY(let, const sl_scene *const scene = sl_timeline_scene(page->timeline))                                \
    SAY(let, const sl_rank_request *const request = &page->rank->request)                                    \
    LIES(SAY)                                                                                                \
    SAY(text, "scene", scene->name)                                                                          \
    SAY(planned, "minute", request->minute)                                                                  \
    SAY(number, "share", request->share)                                                                     \
    SAY(number, "members", (double)page->rank->members)                                                      \
    SAY(number, "asked_for", (double)request->members)                                                       \
    SAY(yes, "partial", page->rank->stopped)                                                                 \
    SAY(number, "seed", (double)request->seed)                                                               \
    SAY(number, "level_scale_end", SL_LEVEL_END)                                                             \
    SAY(rows, "zones", zones, page, 0, page->rank->n_zones)                                                  \
    SAY(record, "surprise", surprise, page->asked ? page : NULL, 0)                                          \
    SAY(note, scene)                                                                                         \
    SAY(cautions, sl_with_reducing(scene, SL_ON_OUTCOME))
SL_TABLE(rank_record, RANK, sl_rank_page, page);

const sl_export sl_rank_export = {"rank", 2, &rank_record, &lines};
