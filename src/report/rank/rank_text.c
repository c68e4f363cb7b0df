/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A comparison for people: three short tables and a sentence for each zone. See rank.h.
 */
#include <math.h>
#include <string.h>

#include "base/language.h"
#include "base/minute.h"
#include "document/text.h"
#include "report/arm_table.h"
#include "report/limits/leave_words.h"
#include "report/rank/rank.h"
#include "slowlift/caution.h"
#include "slowlift/report.h"

enum { NUMBER = 18, MOST_NAME = 30, TEXT = 640 };

static void put_row(FILE *out, const char *place, const char *name, int width, const char *const cell[3],
                    const char *mark)
{
    const int column = sl_arm_places_width();
    fputs("  ", out);
    sl_put_left(out, place, column);
    sl_put_title(out, name, 2 + column, width);
    for (int i = 0; i < 3; i++) {
        sl_put_right(out, cell[i], NUMBER);
    }
    fprintf(out, "%s%s\n", mark[0] != '\0' ? "  " : "", mark);
}

/* The zone, the level of its hair, and where the scale ends: what is left of it to move. */
static void put_head(FILE *out, const sl_scene *scene, int zone)
{
    char level[16], end[16];
    sl_short_number(scene->hairs[scene->zones[zone].hair].level, 1, level, sizeof level);
    sl_short_number(SL_LEVEL_END, 1, end, sizeof end);
    fprintf(out, _("\nIN \"%s\": hair of level %s, on a scale that ends at %s\n"),
            sl_zone_title(&scene->zones[zone]), level, end);
}

static void put_then(FILE *out, const sl_rank_page *page, int zone)
{
    const sl_scene *const scene = sl_timeline_scene(page->timeline);
    const char *const heads[3] = {_("colour left"), _("base moved"), _("hair stress")};
    const int width = sl_arm_titles_width(scene, MOST_NAME);
    int order[SL_MAX_ARMS];
    bool unbeaten[SL_MAX_ARMS];
    char minute[24], head[80];
    const int n = sl_rank_order(page->rank, zone, SL_LEFT_THEN, order);
    sl_rank_unbeaten(page->rank, zone, unbeaten);
    sl_clock_time(SL_MINUTE_PLANNED, page->rank->request.minute, minute, sizeof minute);
    snprintf(head, sizeof head, _(" the same time on hair: %s min (as asked), then washed and dry"), minute);
    fprintf(out, "%s\n", head);
    put_row(out, _("place"), _("arm"), width, heads, "");
    for (int i = 0; i < n; i++) {
        char place[24], text[3][48];
        sl_rank_place_words(page->rank, order[i], zone, SL_LEFT_THEN, place, sizeof place);
        for (int what = 0; what < 3; what++) {
            sl_rank_middle_words(
                sl_rank_middle(page->rank, order[i], zone, (sl_standing_of)(SL_LEFT_THEN + what)), text[what],
                sizeof text[what]);
        }
        const char *const cell[3] = {text[0], text[1], text[2]};
        put_row(out, place, sl_arm_title(&scene->arms[order[i]]), width, cell,
                unbeaten[order[i]] ? _("unbeaten") : "");
    }
}

static void put_gone(FILE *out, const sl_rank_page *page, int zone)
{
    const sl_scene *const scene = sl_timeline_scene(page->timeline);
    const char *const heads[3] = {_("hair stress"), _("base moved"), _("gets there")};
    const int width = sl_arm_titles_width(scene, MOST_NAME);
    int order[SL_MAX_ARMS];
    const int n = sl_rank_order(page->rank, zone, SL_STRESS_GONE, order);
    char share[16];
    sl_percent(page->rank->request.share, share, sizeof share);
    fprintf(out, _(" the same colour left: %s %%, washed and dry, whenever it was rinsed for that\n"), share);
    if (n == 0) {
        fputs(_("  no arm gets there in half of the model runs\n"), out);
        return;
    }
    put_row(out, _("place"), _("arm"), width, heads, "");
    for (int i = 0; i < n; i++) {
        const sl_standing *const standing = &page->rank->standing[order[i] * page->rank->n_zones + zone];
        char place[24], stress[48], base[48], gone[48];
        sl_rank_place_words(page->rank, order[i], zone, SL_STRESS_GONE, place, sizeof place);
        sl_rank_middle_words(sl_rank_middle(page->rank, order[i], zone, SL_STRESS_GONE), stress,
                             sizeof stress);
        sl_rank_middle_words(sl_rank_middle(page->rank, order[i], zone, SL_BASE_GONE), base, sizeof base);
        snprintf(gone, sizeof gone, _("%ld of 100 runs"),
                 lround(100.0 * (double)standing->gone / (double)standing->members));
        const char *const cell[3] = {stress, base, gone};
        put_row(out, place, sl_arm_title(&scene->arms[order[i]]), width, cell, "");
    }
}

static void put_readings(FILE *out, const sl_rank_page *page, int zone)
{
    const sl_scene *const scene = sl_timeline_scene(page->timeline);
    const char *const heads[3] = {_("half gone after"), _("left at the end"), _("colour : base")};
    const int width = sl_arm_titles_width(scene, MOST_NAME);
    int order[SL_MAX_ARMS];
    const int n = sl_rank_order(page->rank, zone, SL_LEFT_THEN, order);
    fputs(_(" speed, end point, selectivity: three things, from the central values alone\n"), out);
    put_row(out, "", _("arm"), width, heads, "");
    for (int i = 0; i < n; i++) {
        sl_readings_said said = {.half = ""};
        sl_rank_readings_words(page, order[i], zone, &said);
        const char *const cell[3] = {said.half, said.end, said.selectivity};
        put_row(out, "", sl_arm_title(&scene->arms[order[i]]), width, cell, "");
    }
}

static void put_surprise(FILE *out, const sl_rank_page *page, int width)
{
    char text[TEXT];
    if (page->rank->request.zone < 0) {
        return;
    }
    sl_rank_surprise_words(page, text, sizeof text);
    fputc('\n', out);
    sl_put_paragraph(out, _(" asked:    "), text, width);
    for (int d = 0; page->science && d < page->rank->plan.n; d++) {
        const sl_drawn *const drawn = &page->rank->plan.drawn[d];
        const bool dye = drawn->doubt == SL_DOUBT_DYE;
        snprintf(text, sizeof text, "%.3f  %s%s%s", sl_surprise_index(&page->rank->surprise, d),
                 _(sl_doubt_word(drawn->doubt)), dye ? ": " : "",
                 dye ? sl_timeline_scene(page->timeline)->dyes[drawn->dye].name : "");
        sl_put_paragraph(out, d == 0 ? _(" science:  ") : "           ", text, width);
    }
}

static void put_foot(FILE *out, const sl_rank_page *page, int width)
{
    static const sl_caution_id shown[] = {SL_CAUTION_ESTIMATE, SL_CAUTION_LABEL};
    char text[TEXT];
    snprintf(text, sizeof text,
             _("Every figure is read of hair rinsed at that minute, washed as planned and dry. First the "
               "middle of %ld model runs, in brackets where eight of ten lie. An arm is before "
               "another when it has less in nine of ten runs that share their numbers; else they tie. "
               "Unbeaten: it takes out at least half of what the best does, and no other arm has as "
               "little left and as little stress. Real swatches scatter in ways of their own."),
             page->rank->members);
    fputc('\n', out);
    sl_put_paragraph(out, " ", text, width);
    fputc('\n', out);
    for (size_t i = 0; i < sizeof shown / sizeof shown[0]; i++) {
        const sl_caution *const caution = sl_caution_text(shown[i]);
        char lead[24];
        snprintf(lead, sizeof lead, " %-8s", _(caution->signal));
        sl_put_paragraph(out, lead, _(caution->text), width);
    }
}

bool sl_rank_text(FILE *out, const sl_rank_page *page, int width)
{
    const sl_scene *const scene = sl_timeline_scene(page->timeline);
    char text[TEXT];
    sl_put_lies(out, scene, NULL, width);
    sl_put_paragraph(out, "", sl_scene_title(scene), width);
    sl_example_note(scene, text, sizeof text);
    sl_put_paragraph(out, _(" note:     "), text, width);
    sl_put_labels(out, scene, NULL, -1, width);
    if (page->rank->stopped) {
        snprintf(text, sizeof text, _("stopped after %ld of %ld model runs; what follows is partial."),
                 page->rank->members, page->rank->request.members);
        sl_put_paragraph(out, _(" PARTIAL: "), text, width);
    }
    for (int arm = 0; arm < scene->n_arms; arm++) {
        if (!sl_timeline_predicted(page->timeline, arm)) {
            sl_outside_note(scene, arm, text, sizeof text);
            sl_put_paragraph(out, " ", text, width);
        }
    }
    for (int zone = 0; zone < scene->n_zones; zone++) {
        if (!sl_rank_shows(page, zone)) {
            continue;
        }
        put_head(out, scene, zone);
        put_then(out, page, zone);
        put_gone(out, page, zone);
        put_readings(out, page, zone);
        sl_rank_reason_words(page, zone, text, sizeof text);
        sl_put_paragraph(out, _(" why:      "), text, width);
    }
    put_surprise(out, page, width);
    put_foot(out, page, width);
    return ferror(out) == 0;
}
