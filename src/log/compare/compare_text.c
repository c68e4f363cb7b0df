/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What was seen as a document: a summary to be read aloud, a table for each zone, what went otherwise than
 * planned. See compare_page.h.
 */
#include "base/language.h"
#include "base/minute.h"
#include "log/compare/compare_page.h"
#include "report/told.h"
#include "slowlift/edition.h"

enum { TEXT = 900 };
static const double CHART_HEIGHT = 220.0; /* points */

/* "-" where there is none. */
static void say_predicted(sl_document *document, double predicted)
{
    if (predicted > SL_NOT_READ) {
        sl_document_entry(document, (sl_entry){.kind = SL_ENTRY_SHARE, .value = predicted});
    } else {
        sl_document_cell(document, "-");
    }
}

static void say_mean(sl_document *document, const sl_seen_mean *mean)
{
    char text[48];
    sl_seen_mean_words(mean, text, sizeof text);
    sl_document_cell(document, "%s", text);
}

/* Before anything was washed: of each arm, at each minute that has any. */
static void say_looks(sl_document *document, const sl_seen_curves *curves, int zone)
{
    static const sl_text_column columns[] = {{N_("strip"), 4.0, SL_NAME},
                                             {N_("looked at"), 2.4, 0},
                                             {N_("colour left"), 2.4, SL_RIGHT},
                                             {N_("model says"), 2.0, SL_RIGHT}};
    const sl_compare *const compare = curves->compare;
    bool any = false;
    for (int k = 0; k < curves->n_points; k++) {
        const sl_seen_point *const point = &curves->points[k];
        char when[64];
        if (point->zone != zone) {
            continue;
        }
        if (!any) {
            sl_document_table(document, _("Looks on the way"), 4, columns, 0.0);
        }
        any = true;
        sl_minute_words(SL_MINUTE_CLOCK, when, sizeof when,
                        sl_compare_ladder(compare, point->arm) ? _("rinsed after %d min") : _("after %d min"),
                        point->minute);
        sl_document_cell(document, "%s", sl_arm_title(&compare->scene->arms[point->arm]));
        sl_document_cell(document, "%s", when);
        say_mean(document, &point->seen);
        say_predicted(document, point->model);
    }
}

static void say_chart(sl_document *document, const sl_compare_page *page, int zone)
{
    if (page->curves != NULL) {
        const sl_graph *const chart =
            sl_graph_of_seen(&document->arena, page->curves, zone, page->chosen, document->error);
        sl_document_charts(document, "", CHART_HEIGHT, 1, &chart);
        say_looks(document, page->curves, zone);
    }
}

static void say_zone(sl_document *document, const sl_compare_page *page, int zone)
{
    const sl_compare *const compare = page->compare;
    const bool taken = sl_compare_has_planned(compare);
    const sl_basis basis = compare->basis[zone];
    sl_text_column columns[6] = {
        {N_("place"), 1.0, SL_NAME}, {N_("strip"), 3.3, SL_NAME}, {N_("colour left"), 2.3, SL_RIGHT}};
    char text[TEXT];
    int order[SL_MAX_ARMS], n_columns = 3;
    const int n = sl_compare_order(compare, zone, order);
    if (taken) {
        columns[n_columns++] = (sl_text_column){N_("at planned time"), 2.3, SL_RIGHT};
    }
    columns[n_columns++] = (sl_text_column){N_("model says"), 2.0, SL_RIGHT};
    columns[n_columns++] = (sl_text_column){N_("swatches"), 1.4, SL_RIGHT};
    sl_document_heading(document, sl_zone_title(&compare->scene->zones[zone]));
    sl_document_table(document, "", n_columns, columns, 0.0);
    for (int i = 0; i < n; i++) {
        const sl_seen_arm *const arm = sl_compare_arm(compare, order[i], zone);
        sl_compare_place_words(compare, order[i], zone, text, sizeof text);
        sl_document_cell(document, "%s", text);
        sl_document_cell(document, "%s", sl_arm_title(&compare->scene->arms[order[i]]));
        say_mean(document, &arm->seen[basis]);
        if (taken) {
            say_mean(document, &arm->at_planned[basis]);
        }
        say_predicted(document, arm->predicted);
        sl_document_cell(document, "%d", arm->seen[basis].n);
    }
    for (int i = 0; i < n; i++) {
        if (sl_compare_before_words(compare, order[i], zone, text, sizeof text)) {
            sl_document_item(document, "%s", text);
        }
    }
    sl_compare_scatter_words(compare, zone, text, sizeof text);
    sl_document_say(document, "%s", text);
    say_chart(document, page, zone);
}

static void say_nothing(sl_document *document, const sl_compare_page *page)
{
    char text[TEXT];
    if (page->compare->at_min < 0) {
        sl_document_say(document, "%s",
                        _("Nothing was looked at yet at the end: there is nothing to compare."));
    } else {
        sl_compare_no_look_words(page, text, sizeof text);
        sl_document_say(document, "%s", text);
    }
}

static bool say_rates_of(sl_document *document, const sl_compare_page *page, int zone)
{
    static const sl_text_column columns[] = {{N_("strip"), 4.0, SL_NAME},
                                             {N_("halves every"), 2.0, SL_RIGHT},
                                             {N_("by the model"), 2.0, SL_RIGHT},
                                             {N_("swatches"), 1.0, SL_RIGHT}};
    const sl_scene *const scene = page->compare->scene;
    bool any = false;
    for (int a = 0; a < scene->n_arms; a++) {
        const sl_rate *const rate = sl_compare_page_rate(page, a, zone);
        char half[48], model[48], heading[256];
        if (!rate) {
            continue;
        }
        if (!any) {
            snprintf(heading, sizeof heading, _("How fast in %s, by looks at three times or more"),
                     sl_zone_title(&scene->zones[zone]));
            sl_document_heading(document, heading);
            sl_document_table(document, "", 4, columns, 0.0);
        }
        any = true;
        sl_half_life_words(&rate->per_min, half, sizeof half);
        sl_model_half_life_words(rate, model, sizeof model);
        sl_document_cell(document, "%s", sl_arm_title(&scene->arms[a]));
        sl_document_cell(document, "%s", half);
        sl_document_cell(document, "%s", model);
        sl_document_cell(document, "%d", rate->per_min.n);
    }
    return any;
}

static void say_rates(sl_document *document, const sl_compare_page *page)
{
    char text[TEXT];
    bool any = false;
    for (int z = 0; z < page->compare->scene->n_zones; z++) {
        any = say_rates_of(document, page, z) || any;
    }
    if (any) {
        sl_rates_words(page, text, sizeof text);
        sl_document_say(document, "%s", text);
    }
}

static void say_summary(sl_document *document, const sl_compare_page *page)
{
    char text[TEXT];
    bool any = false;
    sl_document_heading(document, _("To be read aloud"));
    for (int z = 0; z < page->compare->scene->n_zones; z++) {
        if (sl_compare_page_shows(page, z)) {
            sl_compare_first_words(page->compare, z, text, sizeof text);
            sl_document_say(document, "%s", text);
            any = true;
        }
    }
    sl_compare_read_hair(document, page);
    if (!any && sl_compare_page_has_hair(page)) {
        sl_document_say(document, "%s", _("No colour was looked at: hair alone is compared."));
    } else if (!any) {
        say_nothing(document, page);
    }
    if (!any) {
        return;
    }
    if (page->compare->at_min < 0) {
        sl_compare_handling_words(page, text, sizeof text);
        sl_document_say(document, "%s", text);
    }
    sl_compare_unseen_words(page, text, sizeof text);
    sl_document_say(document, "%s", text);
    if (sl_compare_odd_words(page->compare, text, sizeof text) &&
        sl_compare_page_shows(page, page->compare->odd.zone)) {
        sl_document_say(document, "%s", text);
    }
    if (sl_compare_uncovered_words(page->compare, text, sizeof text)) {
        sl_document_say(document, "%s", text);
    }
    if (sl_compare_otherwise_words(page, text, sizeof text)) {
        sl_document_say(document, "%s", text);
    }
    if (sl_compare_judges_words(page->compare, text, sizeof text)) {
        sl_document_say(document, "%s", text);
    }
    for (int i = 0; i < page->compare->n_judges; i++) {
        if (sl_compare_judge_words(page->compare, i, text, sizeof text)) {
            sl_document_item(document, "%s", text);
        }
    }
    if (page->compare->at_min < 0 && sl_compare_later_words(page, text, sizeof text)) {
        sl_document_say(document, "%s", text);
    }
}

unsigned sl_compare_occasions(const sl_compare *compare)
{
    return sl_with_reducing(compare->scene,
                            SL_ON_OUTCOME | (sl_compare_gummy(compare) > 0 ? SL_ON_LOOK : 0U));
}

static void say_deviations(sl_document *document, const sl_compare *compare)
{
    enum { MOST = 24 };
    char text[TEXT];
    if (compare->n_deviations == 0) {
        return;
    }
    sl_document_heading(document, _("Otherwise than planned"));
    for (int i = 0; i < compare->n_deviations && i < MOST; i++) {
        sl_deviation_words(compare, &compare->deviations[i], text, sizeof text);
        sl_document_item(document, "%s", text);
    }
    if (compare->n_deviations > MOST) {
        sl_document_say(document, _("and %d more (--json has them all)"), compare->n_deviations - MOST);
    }
}

static void say_top(sl_document *document, const sl_compare_page *page)
{
    const sl_compare *const compare = page->compare;
    char text[TEXT];
    sl_document_say(document, _("test %.8s of %.10s, scene %s, by %s, %d swatches"), compare->test.id,
                    compare->test.made, compare->test.scene_name, compare->test.operator_code,
                    compare->n_swatches);
    if (sl_edition_since(sl_editions, sl_edition_now, compare->test.model, text)) {
        sl_document_say(document, "%s", text);
    }
    if (compare->at_min >= 0 && sl_compare_at_words(page, text, sizeof text)) {
        sl_document_say(document, "%s", text);
    }
}

void sl_compare_say(sl_document *document, const void *of, sl_error *error)
{
    const sl_compare_page *const page = of;
    const sl_compare *const compare = page->compare;
    char title[256];
    snprintf(title, sizeof title, _("What was seen: \"%s\""), compare->test.title);
    sl_document_begin(document, "compare", title, error);
    say_top(document, page);
    say_summary(document, page);
    for (int z = 0; z < compare->scene->n_zones; z++) {
        if (sl_compare_page_shows(page, z)) {
            say_zone(document, page, z);
        } else if (z == page->only) {
            say_chart(document, page, z);
        }
    }
    sl_compare_say_hair(document, page);
    say_rates(document, page);
    say_deviations(document, compare);
    sl_document_apart(document);
    sl_document_say(
        document, "%s",
        !sl_compare_has_planned(compare)
            ? _("Each number is a mean over swatches, rounds made alike; judges and looks of one swatch were "
                "averaged first. In brackets its 95 % interval, all scatter pooled. A strip comes before "
                "another where luck alone would tell any such, in colours and hair together, in fewer than 5 "
                "of "
                "100 tests; else they are even. What swatches did says nothing about a person's hair.")
            : _("Each number is a mean over swatches, rounds made alike; judges and looks of one swatch were "
                "averaged first. In brackets its 95 % interval, all scatter pooled. At planned time: what "
                "was "
                "seen, times the model's colour left at the planned time over that at the time it had. A "
                "strip comes before another where luck alone would tell any such, in colours and hair "
                "together, "
                "in fewer than 5 of 100 tests; else they are even. What swatches did says nothing about a "
                "person's hair."));
    sl_document_heading(document, _("Of the model"));
    sl_document_end(document, sl_compare_occasions(compare));
}
