/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A comparison for machines, with its decimals. See rank.h.
 */
#include "base/minute.h"
#include "document/json_text.h"
#include "document/text.h"
#include "report/limits/leave_words.h"
#include "report/rank/rank.h"
#include "report/run/csv_name.h"
#include "slowlift/report.h"

/* Names of the readings in CSV and JSON. */
static const char *const standing_words[SL_STANDINGS] = {[SL_LEFT_THEN] = "left_then",
                                                         [SL_BASE_THEN] = "base_then",
                                                         [SL_STRESS_THEN] = "stress_then",
                                                         [SL_BASE_GONE] = "base_gone",
                                                         [SL_STRESS_GONE] = "stress_gone"};
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

/* ---- CSV ------------------------------------------------------------------------------------- */

typedef struct row_start {
    FILE *out;
    const char *zone, *arm, *lies_for;
} row_start;

static void put_number(const row_start *row, const char *quantity, const char *end, double value)
{
    sl_csv_name(row->out, row->zone);
    fputc(',', row->out);
    sl_csv_name(row->out, row->arm);
    fprintf(row->out, ",%s%s,%.9g,%s\n", quantity, end, value, row->lies_for);
}

/* Of the zone's hair as it begins. */
static double level_of(const sl_rank_page *page, int zone)
{
    const sl_scene *const scene = sl_timeline_scene(page->timeline);
    return scene->hairs[scene->zones[zone].hair].level;
}

static void put_rows(FILE *out, const sl_rank_page *page, int arm, int zone, bool unbeaten)
{
    const sl_scene *const scene = sl_timeline_scene(page->timeline);
    const row_start row = {out, scene->zones[zone].name, scene->arms[arm].name, sl_lies_for(scene, NULL)};
    for (int what = 0; what < SL_STANDINGS; what++) {
        const sl_standing_of standing = (sl_standing_of)what;
        const int place = sl_rank_place(page->rank, arm, zone, standing);
        const sl_middle middle = sl_rank_middle(page->rank, arm, zone, standing);
        if (place > 0) {
            put_number(&row, standing_words[what], "_place", place);
            put_number(&row, standing_words[what], "_p10", middle.p10);
            put_number(&row, standing_words[what], "_p50", middle.p50);
            put_number(&row, standing_words[what], "_p90", middle.p90);
        }
    }
    put_number(&row, "members", "", (double)page->rank->members);
    put_number(&row, "partial", "", page->rank->stopped ? 1.0 : 0.0);
    put_number(&row, "gone_share", "", gone_share(page, arm, zone));
    put_number(&row, "unbeaten", "", unbeaten ? 1.0 : 0.0);
    put_number(&row, "level_start", "", level_of(page, zone));
    put_number(&row, "level_scale_end", "", SL_LEVEL_END);
    const sl_three_readings readings =
        sl_three_readings_of(page->timeline, arm, zone, page->rank->request.share);
    if (readings.halved) {
        char key[SL_MINUTE_KEY];
        put_number(&row, sl_minute_key(SL_MINUTE_MODEL, "half_min", key), "", readings.half_min);
    }
    put_number(&row, "end_left", "", readings.end_left);
    if (readings.selectivity >= 0.0) {
        put_number(&row, "selectivity", "", readings.selectivity);
    }
    const sl_reason reason = reason_of(page, arm, zone);
    for (int channel = 0; channel < SL_CHANNELS; channel++) {
        put_number(&row, work_keys[channel], "", reason.channel[channel]);
    }
    put_number(&row, "work_washing", "", reason.washing);
}

static void put_surprise_rows(FILE *out, const sl_rank_page *page)
{
    const sl_scene *const scene = sl_timeline_scene(page->timeline);
    const sl_surprise *const asked = &page->rank->surprise;
    const row_start row = {out, scene->zones[page->rank->request.zone].name, scene->arms[asked->one].name,
                           sl_lies_for(scene, NULL)};
    put_number(&row, "surprise_members", "", (double)asked->members);
    put_number(&row, "surprise_shown", "", (double)asked->shown);
    for (int d = 0; d < page->rank->plan.n; d++) {
        const sl_drawn *const drawn = &page->rank->plan.drawn[d];
        const bool dye = drawn->doubt == SL_DOUBT_DYE;
        char quantity[128];
        snprintf(quantity, sizeof quantity, "index %s%s%s", sl_doubt_word(drawn->doubt), dye ? ": " : "",
                 dye ? scene->dyes[drawn->dye].name : "");
        sl_csv_name(out, row.zone);
        fputc(',', out);
        sl_csv_name(out, row.arm);
        fputc(',', out);
        sl_csv_name(out, quantity);
        fprintf(out, ",%.9g,%s\n", sl_surprise_index(asked, d), row.lies_for);
    }
}

bool sl_rank_csv(FILE *out, const sl_rank_page *page)
{
    fputs("zone,arm,quantity,value,lies_for\n", out);
    for (int zone = 0; zone < page->rank->n_zones; zone++) {
        bool unbeaten[SL_MAX_ARMS];
        sl_rank_unbeaten(page->rank, zone, unbeaten);
        for (int arm = 0; sl_rank_shows(page, zone) && arm < page->rank->n_arms; arm++) {
            if (sl_rank_has(page->rank, arm, zone)) {
                put_rows(out, page, arm, zone, unbeaten[arm]);
            }
        }
    }
    if (page->rank->request.zone >= 0) {
        put_surprise_rows(out, page);
    }
    return ferror(out) == 0;
}

/* ---- JSON ------------------------------------------------------------------------------------ */

static void put_standing(sl_json *json, const sl_rank_page *page, int arm, int zone, sl_standing_of what)
{
    const int place = sl_rank_place(page->rank, arm, zone, what);
    if (place == 0) {
        sl_json_null(json, standing_words[what]);
        return;
    }
    const sl_middle middle = sl_rank_middle(page->rank, arm, zone, what);
    sl_json_open_flat(json, standing_words[what], '{');
    sl_json_number(json, "place", place);
    sl_json_number(json, "p10", middle.p10);
    sl_json_number(json, "p50", middle.p50);
    sl_json_number(json, "p90", middle.p90);
    sl_json_close(json, '}');
}

static void put_known(sl_json *json, const char *name, bool known, double value)
{
    if (known) {
        sl_json_number(json, name, value);
    } else {
        sl_json_null(json, name);
    }
}

static void put_arm(sl_json *json, const sl_rank_page *page, int arm, int zone, bool unbeaten)
{
    char key[SL_MINUTE_KEY];
    const sl_scene *const scene = sl_timeline_scene(page->timeline);
    const sl_three_readings readings =
        sl_three_readings_of(page->timeline, arm, zone, page->rank->request.share);
    const sl_reason reason = reason_of(page, arm, zone);
    sl_json_open(json, NULL, '{');
    sl_json_text(json, "arm", scene->arms[arm].name);
    sl_json_bool(json, "unbeaten", unbeaten);
    for (int what = 0; what < SL_STANDINGS; what++) {
        put_standing(json, page, arm, zone, (sl_standing_of)what);
    }
    sl_json_number(json, "gone_share", gone_share(page, arm, zone));
    put_known(json, sl_minute_key(SL_MINUTE_MODEL, "half_min", key), readings.halved, readings.half_min);
    sl_json_number(json, "end_left", readings.end_left);
    put_known(json, "selectivity", readings.selectivity >= 0.0, readings.selectivity);
    for (int channel = 0; channel < SL_CHANNELS; channel++) {
        sl_json_number(json, work_keys[channel], reason.channel[channel]);
    }
    sl_json_number(json, "work_washing", reason.washing);
    sl_json_close(json, '}');
}

static void put_zone(sl_json *json, const sl_rank_page *page, int zone)
{
    bool unbeaten[SL_MAX_ARMS];
    char why[640];
    sl_rank_unbeaten(page->rank, zone, unbeaten);
    sl_rank_reason_words(page, zone, why, sizeof why);
    sl_json_open(json, NULL, '{');
    sl_json_text(json, "zone", sl_timeline_scene(page->timeline)->zones[zone].name);
    sl_json_number(json, "level_start", level_of(page, zone));
    sl_json_text(json, "why", why);
    sl_json_open(json, "arms", '[');
    for (int arm = 0; arm < page->rank->n_arms; arm++) {
        if (sl_rank_has(page->rank, arm, zone)) {
            put_arm(json, page, arm, zone, unbeaten[arm]);
        }
    }
    sl_json_close(json, ']');
    sl_json_close(json, '}');
}

static void put_surprise(sl_json *json, const sl_rank_page *page)
{
    const sl_scene *const scene = sl_timeline_scene(page->timeline);
    const sl_surprise *const asked = &page->rank->surprise;
    if (page->rank->request.zone < 0) {
        sl_json_null(json, "surprise");
        return;
    }
    sl_json_open(json, "surprise", '{');
    sl_json_text(json, "zone", scene->zones[asked->zone].name);
    sl_json_text(json, "one", scene->arms[asked->one].name);
    sl_json_text(json, "other", scene->arms[asked->other].name);
    sl_json_number(json, "members", (double)asked->members);
    sl_json_number(json, "shown", (double)asked->shown);
    sl_json_open(json, "indices", '[');
    for (int d = 0; d < page->rank->plan.n; d++) {
        const sl_drawn *const drawn = &page->rank->plan.drawn[d];
        sl_json_open_flat(json, NULL, '{');
        sl_json_text(json, "drawn", sl_doubt_word(drawn->doubt));
        sl_json_text(json, "dye", drawn->doubt == SL_DOUBT_DYE ? scene->dyes[drawn->dye].name : NULL);
        sl_json_number(json, "index", sl_surprise_index(asked, d));
        sl_json_close(json, '}');
    }
    sl_json_close(json, ']');
    sl_json_close(json, '}');
}

bool sl_rank_json(FILE *out, const sl_rank_page *page)
{
    sl_json json = {.out = out};
    char note[320];
    const sl_rank_request *const request = &page->rank->request;
    sl_json_open(&json, NULL, '{');
    sl_json_text(&json, "lies_for", sl_lies_for(sl_timeline_scene(page->timeline), NULL));
    sl_json_text(&json, "scene", sl_timeline_scene(page->timeline)->name);
    sl_json_minute(&json, "minute", SL_MINUTE_PLANNED, request->minute);
    sl_json_number(&json, "share", request->share);
    sl_json_number(&json, "members", (double)page->rank->members);
    sl_json_number(&json, "asked_for", (double)request->members);
    sl_json_bool(&json, "partial", page->rank->stopped);
    sl_json_number(&json, "seed", (double)request->seed);
    sl_json_number(&json, "level_scale_end", SL_LEVEL_END);
    sl_json_open(&json, "zones", '[');
    for (int zone = 0; zone < page->rank->n_zones; zone++) {
        if (sl_rank_shows(page, zone)) {
            put_zone(&json, page, zone);
        }
    }
    sl_json_close(&json, ']');
    put_surprise(&json, page);
    sl_example_note(sl_timeline_scene(page->timeline), note, sizeof note);
    sl_json_text(&json, "note", note);
    sl_json_cautions(&json, NULL, 0);
    sl_json_close(&json, '}');
    return ferror(out) == 0;
}
