/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What was seen, for people: a summary to be read aloud, a table for each zone, what went
 * otherwise than planned. See compare_page.h.
 */
#include "base/language.h"
#include "document/text.h"
#include "log/compare/compare_page.h"
#include "report/arm_table.h"
#include "slowlift/caution.h"
#include "slowlift/report.h"

enum { NUMBER = 17, SWATCHES = 10, MOST_NAME = 28, TEXT = 900 };

/* place: NULL where there is none; a cell that is NULL has no column. */
static void put_row(FILE *out, const char *place, const char *name, int width, const char *const cell[4])
{
    const int column = place ? sl_arm_places_width() : 0;
    fputs("  ", out);
    sl_put_left(out, place ? place : "", column);
    sl_put_title(out, name, 2 + column, width);
    for (int i = 0; i < 3; i++) {
        if (cell[i]) {
            fputc(' ', out);
            sl_put_right(out, cell[i], NUMBER - 1);
        }
    }
    fputc(' ', out);
    sl_put_right(out, cell[3], SWATCHES - 1);
    fputc('\n', out);
}

static void put_zone(FILE *out, const sl_compare *compare, int zone, int columns)
{
    const int width = sl_arm_titles_width(compare->scene, MOST_NAME);
    const bool taken = sl_compare_has_planned(compare);
    const char *const heads[4] = {_("colour left"), taken ? _("at planned time") : NULL, _("model says"),
                                  _("swatches")};
    char text[TEXT];
    int order[SL_MAX_ARMS];
    const int n = sl_compare_order(compare, zone, order);
    fprintf(out, "\n%s\n", sl_zone_title(&compare->scene->zones[zone]));
    put_row(out, _("place"), _("arm"), width, heads);
    for (int i = 0; i < n; i++) {
        const sl_seen_arm *const arm = sl_compare_arm(compare, order[i], zone);
        const sl_basis basis = compare->basis[zone];
        char place[24], seen[48], planned[48], share[16] = "", model[24] = "-", swatches[16];
        sl_compare_place_words(compare, order[i], zone, place, sizeof place);
        sl_seen_mean_words(&arm->seen[basis], seen, sizeof seen);
        sl_seen_mean_words(&arm->at_planned[basis], planned, sizeof planned);
        if (arm->predicted > SL_NOT_READ) {
            sl_percent(arm->predicted, share, sizeof share);
            snprintf(model, sizeof model, "%s %%", share);
        }
        snprintf(swatches, sizeof swatches, "%d", arm->seen[basis].n);
        const char *const cell[4] = {seen, taken ? planned : NULL, model, swatches};
        put_row(out, place, sl_arm_title(&compare->scene->arms[order[i]]), width, cell);
    }
    sl_compare_floor_words(compare, zone, text, sizeof text);
    sl_put_paragraph(out, "  ", text, columns);
}

static void put_nothing(FILE *out, const sl_compare_page *page, int width)
{
    char text[TEXT];
    if (page->compare->at_min < 0) {
        snprintf(text, sizeof text, "%s",
                 _("Nothing was looked at yet at the end: there is nothing to compare."));
    } else {
        sl_compare_no_look_words(page, text, sizeof text);
    }
    sl_put_paragraph(out, "  ", text, width);
}

static bool put_rates_of(FILE *out, const sl_compare_page *page, int zone)
{
    const sl_scene *const scene = page->compare->scene;
    const int width = sl_arm_titles_width(scene, MOST_NAME);
    const char *const heads[4] = {_("halves every"), NULL, _("by the model"), _("swatches")};
    bool any = false;
    for (int a = 0; a < scene->n_arms; a++) {
        const sl_rate *const rate = sl_compare_page_rate(page, a, zone);
        char half[48], model[48], swatches[16];
        if (!rate) {
            continue;
        }
        if (!any) {
            fprintf(out, _("\nHow fast in %s, by looks at three times or more\n"),
                    sl_zone_title(&scene->zones[zone]));
            put_row(out, NULL, _("arm"), width, heads);
        }
        any = true;
        sl_half_life_words(&rate->per_min, half, sizeof half);
        sl_model_half_life_words(rate, model, sizeof model);
        snprintf(swatches, sizeof swatches, "%d", rate->per_min.n);
        const char *const cell[4] = {half, NULL, model, swatches};
        put_row(out, NULL, sl_arm_title(&scene->arms[a]), width, cell);
    }
    return any;
}

static void put_rates(FILE *out, const sl_compare_page *page, int width)
{
    char text[TEXT];
    bool any = false;
    for (int z = 0; z < page->compare->scene->n_zones; z++) {
        any = put_rates_of(out, page, z) || any;
    }
    if (any) {
        sl_rates_words(page, text, sizeof text);
        sl_put_paragraph(out, "  ", text, width);
    }
}

static void put_summary(FILE *out, const sl_compare_page *page, int width)
{
    char text[TEXT];
    bool any = false;
    fputs(_("\nTo be read aloud\n"), out);
    for (int z = 0; z < page->compare->scene->n_zones; z++) {
        if (sl_compare_page_shows(page, z)) {
            sl_compare_first_words(page->compare, z, text, sizeof text);
            sl_put_paragraph(out, "  ", text, width);
            any = true;
        }
    }
    if (!any) {
        put_nothing(out, page, width);
        return;
    }
    if (page->compare->at_min < 0) {
        sl_compare_handling_words(page, text, sizeof text);
        sl_put_paragraph(out, "  ", text, width);
    }
    sl_compare_unseen_words(page->compare, text, sizeof text);
    sl_put_paragraph(out, "  ", text, width);
    if (sl_compare_judges_words(page->compare, text, sizeof text)) {
        sl_put_paragraph(out, "  ", text, width);
    }
    if (page->compare->at_min < 0 && sl_compare_later_words(page, text, sizeof text)) {
        sl_put_paragraph(out, "  ", text, width);
    }
}

static void put_deviations(FILE *out, const sl_compare *compare, int width)
{
    enum { MOST = 24 };
    char text[TEXT];
    if (compare->n_deviations == 0) {
        return;
    }
    fputs(_("\nOtherwise than planned\n"), out);
    for (int i = 0; i < compare->n_deviations && i < MOST; i++) {
        sl_deviation_words(compare, &compare->deviations[i], text, sizeof text);
        sl_put_paragraph(out, "  - ", text, width);
    }
    if (compare->n_deviations > MOST) {
        fprintf(out, _("  and %d more (--json has them all)\n"), compare->n_deviations - MOST);
    }
}

static void put_foot(FILE *out, const sl_compare *compare, int width)
{
    static const sl_caution_id shown[] = {SL_CAUTION_ESTIMATE, SL_CAUTION_LABEL};
    char text[TEXT];
    fputc('\n', out);
    sl_put_paragraph(
        out, "",
        !sl_compare_has_planned(compare)
            ? _("Each number is a mean over swatches; judges and looks of one swatch were averaged first. In "
                "brackets the 95 % interval of the mean (Student's t). Arms tie where intervals overlap or "
                "the difference is noise. What swatches did says nothing about a person's hair.")
            : _("Each number is a mean over swatches; judges and looks of one swatch were averaged first. In "
                "brackets the 95 % interval of the mean (Student's t). At planned time: what was seen, times "
                "the model's colour left at the planned time over that at the time it had. Arms tie where "
                "intervals overlap or the difference is noise. What swatches did says nothing about a "
                "person's hair."),
        width);
    for (size_t i = 0; i < sizeof shown / sizeof shown[0]; i++) {
        const sl_caution *const caution = sl_caution_text(shown[i]);
        /* That no real hair was looked at is true of the model alone. */
        snprintf(text, sizeof text, "%s%s: %s", shown[i] == SL_CAUTION_ESTIMATE ? _("Of the model: ") : "",
                 _(caution->signal), _(caution->text));
        sl_put_paragraph(out, "", text, width);
    }
}

bool sl_compare_text(FILE *out, const sl_compare_page *page, int width)
{
    const sl_compare *const compare = page->compare;
    fprintf(out, _("What was seen: \"%s\"\n"), compare->test.title);
    fprintf(out, _("test %.8s of %.10s, scene %s, by %s, %d swatches\n"), compare->test.id,
            compare->test.made, compare->test.scene_name, compare->test.operator_code, compare->n_swatches);
    if (compare->rehearsal) {
        fputs(_("*** A REHEARSAL: ITS CLOCK RAN FAST. NO HAIR LAY SO LONG. ***\n"), out);
    }
    if (compare->at_min >= 0) {
        char text[TEXT];
        if (sl_compare_at_words(page, text, sizeof text)) {
            sl_put_paragraph(out, "", text, width);
        }
    }
    put_summary(out, page, width);
    for (int z = 0; z < compare->scene->n_zones; z++) {
        if (sl_compare_page_shows(page, z)) {
            put_zone(out, compare, z, width);
        }
    }
    put_rates(out, page, width);
    put_deviations(out, compare, width);
    put_foot(out, compare, width);
    return ferror(out) == 0;
}
