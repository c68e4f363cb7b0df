/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A comparison as a document: three short tables and a sentence for each zone. See rank.h.
 */
#include <math.h>

#include "base/language.h"
#include "base/minute.h"
#include "document/text.h"
#include "report/limits/leave_words.h"
#include "report/limits/limits.h"
#include "report/rank/rank.h"
#include "report/told.h"
#include "slowlift/report.h"

enum { TEXT = 640, COLUMNS = 6 };
static const double CHART_HEIGHT = 220.0; /* points */

/* Of a table with places. */
#define PLACE_AND_ARM                                                                                        \
    {N_("place"), 1.0, SL_NAME},                                                                             \
    {                                                                                                        \
        N_("strip"), 3.5, SL_NAME                                                                            \
    }

/* The zone, the level of its hair, and where the scale ends: what is left of it to move. */
static void say_head(sl_document *document, const sl_scene *scene, int zone)
{
    char level[16], end[16], heading[256];
    sl_short_number(scene->hairs[scene->zones[zone].hair].level, 1, level, sizeof level);
    sl_short_number(SL_LEVEL_END, 1, end, sizeof end);
    snprintf(heading, sizeof heading, _("IN \"%s\": hair of level %s, on a scale that ends at %s"),
             sl_zone_title(&scene->zones[zone]), level, end);
    sl_document_heading(document, heading);
}

/* The names of a row; the order is that of `what`. */
static void say_arm(sl_document *document, const sl_rank_page *page, int arm, int zone, sl_standing_of what)
{
    char place[24];
    sl_rank_place_words(page->rank, arm, zone, what, place, sizeof place);
    sl_document_cell(document, "%s", place);
    sl_document_cell(document, "%s", sl_arm_title(&sl_timeline_scene(page->timeline)->arms[arm]));
}

static void say_middle(sl_document *document, sl_middle middle)
{
    sl_document_entry(
        document,
        (sl_entry){.kind = SL_ENTRY_SHARE, .value = middle.p50, .low = middle.p10, .high = middle.p90});
}

static void say_then(sl_document *document, const sl_rank_page *page, int zone)
{
    static const sl_text_column columns[COLUMNS] = {PLACE_AND_ARM,
                                                    {N_("colour left"), 2.0, SL_RIGHT},
                                                    {N_("base moved"), 2.0, SL_RIGHT},
                                                    {N_("hair stress"), 2.0, SL_RIGHT},
                                                    {"", 1.5, SL_OWN}};
    int order[SL_MAX_ARMS];
    bool unbeaten[SL_MAX_ARMS];
    char minute[24], caption[96];
    const int n = sl_rank_order(page->rank, zone, SL_LEFT_THEN, order);
    sl_rank_unbeaten(page->rank, zone, unbeaten);
    sl_clock_time(SL_MINUTE_PLANNED, page->rank->request.minute, minute, sizeof minute);
    snprintf(caption, sizeof caption, _("the same time on hair: %s min (as asked), then washed and dry"),
             minute);
    sl_document_table(document, caption, COLUMNS, columns, 0.0);
    for (int i = 0; i < n; i++) {
        say_arm(document, page, order[i], zone, SL_LEFT_THEN);
        for (int what = 0; what < 3; what++) {
            say_middle(document,
                       sl_rank_middle(page->rank, order[i], zone, (sl_standing_of)(SL_LEFT_THEN + what)));
        }
        sl_document_cell(document, "%s", unbeaten[order[i]] ? _("unbeaten") : "");
    }
}

static void say_gone(sl_document *document, const sl_rank_page *page, int zone)
{
    static const sl_text_column columns[] = {PLACE_AND_ARM,
                                             {N_("hair stress"), 2.0, SL_RIGHT},
                                             {N_("base moved"), 2.0, SL_RIGHT},
                                             {N_("gets there"), 2.0, SL_RIGHT}};
    int order[SL_MAX_ARMS];
    const int n = sl_rank_order(page->rank, zone, SL_STRESS_GONE, order);
    char share[16], caption[160];
    sl_percent(page->rank->request.share, share, sizeof share);
    snprintf(caption, sizeof caption,
             _("the same colour left: %s %%, washed and dry, whenever it was rinsed for that"), share);
    if (n == 0) {
        sl_document_say(document, "%s", caption);
        sl_document_say(document, "%s", _("no strip gets there in half of the model runs"));
        return;
    }
    sl_document_table(document, caption, 5, columns, 0.0);
    for (int i = 0; i < n; i++) {
        const sl_standing *const standing = &page->rank->standing[order[i] * page->rank->n_zones + zone];
        say_arm(document, page, order[i], zone, SL_STRESS_GONE);
        say_middle(document, sl_rank_middle(page->rank, order[i], zone, SL_STRESS_GONE));
        say_middle(document, sl_rank_middle(page->rank, order[i], zone, SL_BASE_GONE));
        sl_document_cell(document, _("%ld of 100 runs"),
                         lround(100.0 * (double)standing->gone / (double)standing->members));
    }
}

/* Whether slower was gentler, of the slowest and the fastest that get there. */
static void say_gentler(sl_document *document, const sl_rank_page *page, int zone)
{
    const sl_scene *const scene = sl_timeline_scene(page->timeline);
    sl_gentler found;
    if (sl_rank_gentler(page->rank, zone, &found)) {
        sl_document_row(
            document, _("slower"),
            _("\"%s\" gets there later than \"%s\" in %ld of 100 runs in which both do. In %ld of 100 "
              "of those it has moved the base less by then, and in %ld hurt the hair less."),
            sl_arm_title(&scene->arms[found.slow]), sl_arm_title(&scene->arms[found.fast]),
            lround(100.0 * (double)found.slower / (double)found.both),
            lround(100.0 * (double)found.less_base / (double)found.slower),
            lround(100.0 * (double)found.less_stress / (double)found.slower));
    }
}

static void say_readings(sl_document *document, const sl_rank_page *page, int zone)
{
    static const sl_text_column columns[] = {{N_("strip"), 4.0, SL_NAME},
                                             {N_("half gone after"), 2.0, SL_RIGHT},
                                             {N_("left at the end"), 2.0, SL_RIGHT},
                                             {N_("colour : base"), 2.0, SL_RIGHT}};
    const sl_scene *const scene = sl_timeline_scene(page->timeline);
    int order[SL_MAX_ARMS];
    const int n = sl_rank_order(page->rank, zone, SL_LEFT_THEN, order);
    sl_document_table(document,
                      _("speed, end point, colour : base: three things, from the central values alone"), 4,
                      columns, 0.0);
    for (int i = 0; i < n; i++) {
        sl_readings_said said = {.half = ""};
        sl_rank_readings_words(page, order[i], zone, &said);
        sl_document_cell(document, "%s", sl_arm_title(&scene->arms[order[i]]));
        sl_document_cell(document, "%s", said.half);
        sl_document_cell(document, "%s", said.end);
        sl_document_cell(document, "%s", said.selectivity);
    }
}

static void say_zone(sl_document *document, const sl_rank_page *page, int zone)
{
    const sl_graph *const chart = sl_graph_of_rank(&document->arena, page, zone, document->error);
    say_head(document, sl_timeline_scene(page->timeline), zone);
    say_then(document, page, zone);
    say_gone(document, page, zone);
    say_gentler(document, page, zone);
    say_readings(document, page, zone);
    sl_document_row(document, _("why"), "%s", chart != NULL ? chart->says : "");
    sl_document_charts(document, "", CHART_HEIGHT, 1, &chart);
}

static void say_surprise(sl_document *document, const sl_rank_page *page)
{
    const sl_surprise *const asked = page->asked;
    char text[2 * TEXT];
    if (!asked) {
        return;
    }
    sl_rank_surprise_words(page, text, sizeof text);
    sl_document_apart(document);
    sl_document_row(document, _("asked"), "%s", text);
    document->depth = SL_SCIENCE;
    for (int d = 0; d < asked->plan.n; d++) {
        sl_say_index(document, d == 0 ? _("science") : "", sl_timeline_scene(page->timeline),
                     &asked->plan.drawn[d], sl_surprise_index(asked, d));
    }
    document->depth = SL_MORE;
}

static void say_top(sl_document *document, const sl_rank_page *page)
{
    const sl_scene *const scene = sl_timeline_scene(page->timeline);
    char text[TEXT];
    sl_say_lies(document, scene, NULL);
    sl_say_note(document, scene);
    sl_say_labels(document, scene, NULL, -1);
    if (page->rank->stopped) {
        sl_say_partial(document, page->rank->members, page->rank->request.members);
    }
    for (int arm = 0; arm < scene->n_arms; arm++) {
        if (!sl_timeline_predicted(page->timeline, arm)) {
            sl_outside_note(scene, arm, text, sizeof text);
            sl_document_say(document, "%s", text);
        }
    }
}

void sl_rank_say(sl_document *document, const void *of, sl_error *error)
{
    const sl_rank_page *const page = of;
    const sl_scene *const scene = sl_timeline_scene(page->timeline);
    sl_document_begin(document, "rank", sl_scene_title(scene), error);
    document->deepest = page->science ? SL_SCIENCE : SL_MORE;
    say_top(document, page);
    for (int zone = 0; zone < scene->n_zones; zone++) {
        if (sl_rank_shows(page, zone)) {
            say_zone(document, page, zone);
        }
    }
    say_surprise(document, page);
    sl_document_apart(document);
    sl_document_say(document,
                    _("Every figure is read of hair rinsed at that minute, washed as planned and dry. First "
                      "the middle of %ld model runs, in brackets where eight of ten lie. A strip is before "
                      "another when it has less in nine of ten runs that share their numbers; else they are "
                      "even. Unbeaten: it takes out at least half of what the best does, and no other strip "
                      "has as little left and as little stress. Real swatches scatter in ways of their own."),
                    page->rank->members);
    sl_document_end(document, sl_with_reducing(sl_timeline_scene(page->timeline), SL_ON_OUTCOME));
}
