/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What was seen, for machines: CSV (RFC 4180) and JSON. See compare_page.h.
 */
#include "base/minute.h"
#include "document/json_text.h"
#include "document/text.h"
#include "log/compare/compare_page.h"
#include "report/run/csv_name.h"
#include "slowlift/report.h"

static const char *const basis_words[SL_BASES] = {[SL_BASIS_GRADE] = "grade", [SL_BASIS_COLOUR] = "colour"};
static const char *const deviation_words[] = {[SL_DEVIATION_LATE] = "late",
                                              [SL_DEVIATION_EARLY] = "early",
                                              [SL_DEVIATION_MIX_AGE] = "mix_age",
                                              [SL_DEVIATION_LABEL] = "over_label",
                                              [SL_DEVIATION_STOPPED] = "stopped",
                                              [SL_DEVIATION_CLOCKS] = "clocks",
                                              [SL_DEVIATION_UNEQUAL] = "unequal",
                                              [SL_DEVIATION_PIECE] = "piece",
                                              [SL_DEVIATION_GUMMY] = "gummy_or_broke",
                                              [SL_DEVIATION_NOTE] = "note"};

static void put_number(FILE *out, const sl_compare *compare, int zone, int arm, const char *what,
                       const char *end, double value)
{
    sl_csv_name(out, compare->scene->zones[zone].name);
    fputc(',', out);
    sl_csv_name(out, compare->scene->arms[arm].name);
    fprintf(out, ",%s%s,%.9g\n", what, end, value);
}

static void put_mean_rows(FILE *out, const sl_compare *compare, int zone, int arm, const char *what,
                          const sl_seen_mean *mean)
{
    if (mean->n == 0) {
        return;
    }
    put_number(out, compare, zone, arm, what, "", mean->mean);
    put_number(out, compare, zone, arm, what, "_swatches", mean->n);
    if (mean->n > 1) {
        put_number(out, compare, zone, arm, what, "_sd", mean->sd);
        put_number(out, compare, zone, arm, what, "_half_width", mean->half);
    }
}

static void put_rate_rows(FILE *out, const sl_compare_page *page, int arm, int zone)
{
    const sl_compare *const compare = page->compare;
    const sl_rate *const rate = sl_compare_page_rate(page, arm, zone);
    if (!rate) {
        return;
    }
    put_mean_rows(out, compare, zone, arm, "rate_per_min", &rate->per_min);
    if (rate->model_per_min > SL_NOT_READ) {
        put_number(out, compare, zone, arm, "rate_per_min_by_model", "", rate->model_per_min);
    }
    put_number(out, compare, zone, arm, "rate_left_out", "", rate->left_out);
}

bool sl_compare_csv(FILE *out, const sl_compare_page *page)
{
    static const char *const seen[SL_BASES] = {"left_by_grade", "left_by_colour"};
    static const char *const planned[SL_BASES] = {"at_planned_by_grade", "at_planned_by_colour"};
    const sl_compare *const compare = page->compare;
    fputs("zone,arm,quantity,value\n", out);
    for (int zone = 0; zone < compare->scene->n_zones; zone++) {
        for (int a = 0; sl_compare_page_shows(page, zone) && a < compare->scene->n_arms; a++) {
            const sl_seen_arm *const arm = sl_compare_arm(compare, a, zone);
            if (arm->place == 0) {
                continue;
            }
            put_number(out, compare, zone, a, "place", "", arm->place);
            if (compare->at_min >= 0) {
                char key[SL_MINUTE_KEY];
                put_number(out, compare, zone, a, sl_minute_key(SL_MINUTE_PLANNED, "at_min", key), "",
                           compare->at_min);
            }
            if (sl_compare_has_planned(compare)) {
                put_number(out, compare, zone, a, "place_at_planned", "", arm->place_at_planned);
            }
            for (int basis = 0; basis < SL_BASES; basis++) {
                put_mean_rows(out, compare, zone, a, seen[basis], &arm->seen[basis]);
                put_mean_rows(out, compare, zone, a, planned[basis], &arm->at_planned[basis]);
            }
            put_mean_rows(out, compare, zone, a, "change_after_hours", &arm->later);
            if (arm->predicted > SL_NOT_READ) {
                put_number(out, compare, zone, a, "left_by_model", "", arm->predicted);
            }
        }
    }
    for (int zone = 0; zone < compare->scene->n_zones; zone++) {
        for (int a = 0; a < compare->scene->n_arms; a++) {
            put_rate_rows(out, page, a, zone);
        }
    }
    return ferror(out) == 0;
}

/* ---- JSON -------------------------------------------------------------------------------------------------
 */

static void put_mean(sl_json *json, const char *name, const sl_seen_mean *mean)
{
    if (mean->n == 0) {
        sl_json_null(json, name);
        return;
    }
    sl_json_open_flat(json, name, '{');
    sl_json_number(json, "mean", mean->mean);
    sl_json_number(json, "swatches", mean->n);
    if (mean->n > 1) {
        sl_json_number(json, "sd", mean->sd);
        sl_json_number(json, "half_width", mean->half);
    } else {
        sl_json_null(json, "sd");
        sl_json_null(json, "half_width");
    }
    sl_json_close(json, '}');
}

static void put_arm(sl_json *json, const sl_compare *compare, int a, int zone)
{
    const sl_seen_arm *const arm = sl_compare_arm(compare, a, zone);
    sl_json_open(json, NULL, '{');
    sl_json_text(json, "arm", compare->scene->arms[a].name);
    sl_json_number(json, "place", arm->place);
    if (sl_compare_has_planned(compare)) {
        sl_json_number(json, "place_at_planned", arm->place_at_planned);
    } else {
        sl_json_null(json, "place_at_planned");
    }
    put_mean(json, "left_by_grade", &arm->seen[SL_BASIS_GRADE]);
    put_mean(json, "left_by_colour", &arm->seen[SL_BASIS_COLOUR]);
    put_mean(json, "at_planned_by_grade", &arm->at_planned[SL_BASIS_GRADE]);
    put_mean(json, "at_planned_by_colour", &arm->at_planned[SL_BASIS_COLOUR]);
    put_mean(json, "change_after_hours", &arm->later);
    if (arm->predicted > SL_NOT_READ) {
        sl_json_number(json, "left_by_model", arm->predicted);
    } else {
        sl_json_null(json, "left_by_model");
    }
    sl_json_close(json, '}');
}

static void put_zones(sl_json *json, const sl_compare_page *page)
{
    const sl_compare *const compare = page->compare;
    sl_json_open(json, "zones", '[');
    for (int zone = 0; zone < compare->scene->n_zones; zone++) {
        int order[SL_MAX_ARMS];
        if (!sl_compare_page_shows(page, zone)) {
            continue;
        }
        const int n = sl_compare_order(compare, zone, order);
        sl_json_open(json, NULL, '{');
        sl_json_text(json, "zone", compare->scene->zones[zone].name);
        sl_json_text(json, "basis", basis_words[compare->basis[zone]]);
        sl_json_number(json, "tie_below_at_nothing_left", sl_compare_floor(compare, zone, 0.0));
        sl_json_open(json, "arms", '[');
        for (int i = 0; i < n; i++) {
            put_arm(json, compare, order[i], zone);
        }
        sl_json_close(json, ']');
        sl_json_close(json, '}');
    }
    sl_json_close(json, ']');
}

static void put_rates(sl_json *json, const sl_compare_page *page)
{
    const sl_scene *const scene = page->compare->scene;
    sl_json_open(json, "rates", '[');
    for (int i = 0; i < scene->n_zones * scene->n_arms; i++) {
        const int zone = i / scene->n_arms, arm = i % scene->n_arms;
        const sl_rate *const rate = sl_compare_page_rate(page, arm, zone);
        if (!rate) {
            continue;
        }
        sl_json_open_flat(json, NULL, '{');
        sl_json_text(json, "zone", scene->zones[zone].name);
        sl_json_text(json, "arm", scene->arms[arm].name);
        put_mean(json, "per_min", &rate->per_min);
        if (rate->model_per_min > SL_NOT_READ) {
            sl_json_number(json, "per_min_by_model", rate->model_per_min);
        } else {
            sl_json_null(json, "per_min_by_model");
        }
        sl_json_number(json, "left_out", rate->left_out);
        sl_json_close(json, '}');
    }
    sl_json_close(json, ']');
}

/* What was noted, or the machine's word for it; NULL: nothing. */
static const char *noted(const sl_deviation *deviation)
{
    if (deviation->kind == SL_DEVIATION_STOPPED) {
        return sl_stop_reason_word(deviation->reason);
    }
    const char *const note = deviation->note[0] != '\0' ? deviation->note : sl_remark_word(deviation->remark);
    return note[0] != '\0' ? note : NULL;
}

static void put_deviations(sl_json *json, const sl_compare *compare)
{
    sl_json_open(json, "otherwise_than_planned", '[');
    for (int i = 0; i < compare->n_deviations; i++) {
        const sl_deviation *const deviation = &compare->deviations[i];
        const bool dwell = deviation->zone >= 0;
        sl_json_open_flat(json, NULL, '{');
        sl_json_text(json, "what", deviation_words[deviation->kind]);
        sl_json_text(json, "code",
                     deviation->swatch >= 0 ? compare->swatches[deviation->swatch].bench.code : NULL);
        sl_json_number(json, "seconds", deviation->seconds);
        sl_json_text(json, "zone", dwell ? compare->scene->zones[deviation->zone].name : NULL);
        sl_json_number(json, "planned_over_had", deviation->factor);
        sl_json_text(json, "note", noted(deviation));
        sl_json_close(json, '}');
    }
    sl_json_close(json, ']');
}

static void put_judges(sl_json *json, const sl_compare *compare)
{
    const sl_agreement *const judges = &compare->judges;
    sl_json_open_flat(json, "judges", '{');
    sl_json_number(json, "pairs", (double)judges->pairs);
    sl_json_number(json, "equal", (double)judges->equal);
    if (judges->known) {
        sl_json_number(json, "weighted_kappa", judges->kappa);
    } else {
        sl_json_null(json, "weighted_kappa");
    }
    sl_json_close(json, '}');
}

bool sl_compare_json(FILE *out, const sl_compare_page *page)
{
    const sl_compare *const compare = page->compare;
    sl_json json = {.out = out};
    sl_json_open(&json, NULL, '{');
    sl_json_text(&json, "test", compare->test.id);
    sl_json_text(&json, "title", compare->test.title);
    sl_json_text(&json, "scene", compare->test.scene_name);
    sl_json_number(&json, "swatches", compare->n_swatches);
    sl_json_bool(&json, "rehearsal", compare->rehearsal);
    if (compare->at_min >= 0) {
        sl_json_minute(&json, "at_min", SL_MINUTE_PLANNED, compare->at_min);
    } else {
        sl_json_null(&json, "at_min");
    }
    put_zones(&json, page);
    put_rates(&json, page);
    put_deviations(&json, compare);
    put_judges(&json, compare);
    sl_json_cautions(&json, NULL, 0);
    sl_json_close(&json, '}');
    return ferror(out) == 0;
}
