/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The table that people read, from the question to the cautions. Invariant: everything
 * that must be said (classroom example, what is outside the model, the cautions that
 * cannot be switched off) is part of it whatever the options.
 */
#include "report/run/table.h"

#include "base/language.h"
#include "base/minute.h"
#include "document/text.h"
#include "report/limits/leave_words.h"
#include "report/reading.h"
#include "slowlift/caution.h"
#include "slowlift/estimate.h"

void sl_put_heading(const sl_run_page *page, const char *heading)
{
    fputc('\n', page->out);
    sl_put_paragraph(page->out, "", heading, page->width);
}

/* ---- what it is ---------------------------------------------------------------------- */

static const char *place_sentence(const sl_scene *scene)
{
    switch (scene->place) {
    case SL_PLACE_BENCH:
        return sl_scene_on_head(scene)
                   ? _("on a bench, but as warm as on a head or somebody's hair: counted as a head")
                   : _("swatches on a bench");
    case SL_PLACE_HEAD:
        return _("as on a head");
    case SL_PLACE_WRAPPED:
        return _("as on a head, wrapped");
    case SL_PLACE_COUNT:
    default:
        return "";
    }
}

static void put_place(const sl_run_page *page)
{
    const double celsius = sl_settled_c(page->scene);
    char degrees[24], number[24], until[32], text[256];
    sl_short_number(celsius, 1, degrees, sizeof degrees);
    sl_short_number(page->scene->until_min, 1, number, sizeof number);
    sl_minute_words(SL_MINUTE_PLANNED, until, sizeof until, "%s", number);
    snprintf(text, sizeof text, _("%s, %s °C (%.0f °F)%s; followed for %s min"), place_sentence(page->scene),
             degrees, 32.0 + 1.8 * celsius, sl_scene_isothermal(page->scene) ? "" : _(" once settled"),
             until);
    sl_put_paragraph(page->out, _(" lies:     "), text, page->width);
}

static void put_example_note(const sl_run_page *page)
{
    char note[320];
    sl_example_note(page->scene, note, sizeof note);
    sl_put_paragraph(page->out, _(" note:     "), note, page->width);
}

static bool shows_colours(const sl_run_page *page)
{
    const sl_report_options *const options = page->options;
    return page->optics != NULL && (options->colour || options->dry != NULL || options->compare ||
                                    !sl_viewing_usual(options->viewing));
}

static void put_top(const sl_run_page *page)
{
    const sl_scene *scene = page->scene;
    sl_put_lies(page->out, scene, NULL, page->width);
    sl_put_paragraph(page->out, "", sl_scene_title(scene), page->width);
    if (sl_scene_question(scene)) {
        sl_put_paragraph(page->out, _(" question: "), sl_scene_question(scene), page->width);
    }
    put_place(page);
    put_example_note(page);
    if (shows_colours(page)) {
        char viewing[120], text[256];
        sl_viewing_words(page->options->viewing, viewing, sizeof viewing);
        snprintf(text, sizeof text, "%s; %s", viewing, _(sl_not_calibrated));
        sl_put_paragraph(page->out, _(" colours:  "), text, page->width);
    }
}

/* ---- what must be said --------------------------------------------------------------- */

static void put_outside(const sl_run_page *page)
{
    const sl_scene *scene = page->scene;
    for (int arm = 0; arm < scene->n_arms; arm++) {
        if (sl_timeline_predicted(page->timeline, arm)) {
            continue;
        }
        char text[320];
        sl_outside_note(scene, arm, text, sizeof text);
        sl_put_paragraph(page->out, " ", text, page->width);
    }
}

static void put_cautions(const sl_run_page *page)
{
    sl_put_heading(page, _("BEFORE ANYTHING IS MIXED"));
    for (int id = 0; id < SL_CAUTION_COUNT; id++) {
        const sl_caution *caution = sl_caution_text((sl_caution_id)id);
        if (caution->always) {
            char lead[16];
            snprintf(lead, sizeof lead, " %-8s ", _(caution->signal));
            sl_put_paragraph(page->out, lead, _(caution->text), page->width);
        }
    }
    sl_put_paragraph(page->out, " ", _("All of them: slowlift cautions"), page->width);
}

/* ---- the whole ----------------------------------------------------------------------- */

/* Of the names of arms, and of the times that stand above them. */
static int widest_arm(const sl_timeline *timeline, const sl_report_options *options, int page_width)
{
    const sl_scene *const scene = sl_timeline_scene(timeline);
    const int longest = page_width < 90 ? page_width / 4 : page_width / 3;
    int widest = sl_text_width(_("at 000 min"));
    for (int time = 0; time < sl_timeline_n_times(timeline); time++) {
        char words[64];
        sl_asked_time_words(options, sl_timeline_time(timeline, time), words, sizeof words);
        const int width = sl_text_width(words);
        widest = width > widest ? width : widest;
    }
    for (int arm = 0; arm < scene->n_arms; arm++) {
        const int width = sl_text_width(sl_arm_title(&scene->arms[arm]));
        widest = width > widest ? width : widest;
    }
    return widest > longest ? longest : widest;
}

static bool any_arm_reaches(const sl_run_page *page, int zone, double share)
{
    sl_meeting meeting[SL_MAX_ARMS];
    sl_same_colour_left(page->timeline, zone, share, meeting);
    bool any = false;
    for (int arm = 0; arm < page->scene->n_arms; arm++) {
        any = any || meeting[arm].reached;
    }
    return any;
}

/* On a head nothing is told by the minute: the arms are compared at the same colour. */
static void put_without_minutes(const sl_run_page *page, int zone)
{
    static const double shares[] = {0.75, 0.5, 0.25, 0.1};
    sl_put_heading(page, _("WHAT IS LEFT"));
    sl_put_paragraph(
        page->out, " ",
        _("Warm as on a head: nothing is told by the minute here, and --at is not used. The arms are "
          "compared at the same colour left."),
        page->width);
    sl_put_legend(page);
    for (size_t i = 0; zone >= 0 && i < sizeof shares / sizeof shares[0]; i++) {
        if (any_arm_reaches(page, zone, shares[i])) {
            sl_put_same_colour(page, zone, shares[i]);
        }
    }
}

static void put_outcomes(const sl_run_page *page)
{
    const int zone = sl_reading_zone(page->timeline, page->options);
    if (!sl_reading_has_minutes(page->scene)) {
        put_without_minutes(page, zone);
        return;
    }
    sl_put_times(page);
    if (zone >= 0) {
        sl_put_same_colour(page, zone, page->options->share);
    }
}

bool sl_report_table(FILE *out, const sl_timeline *timeline, const sl_optics *optics,
                     const sl_report_options *options)
{
    const sl_scene *scene = sl_timeline_scene(timeline);
    const int width = options->width > 0 ? options->width : 100;
    const sl_run_page page = {.out = out,
                              .timeline = timeline,
                              .scene = scene,
                              .optics = optics,
                              .options = options,
                              .width = width,
                              .arm_width = widest_arm(timeline, options, width)};
    put_top(&page);
    sl_put_mixes(&page);
    put_outside(&page);
    sl_put_labels(out, scene, NULL, -1, width);
    put_outcomes(&page);
    if (options->dry != NULL && optics != NULL) {
        sl_put_readings(&page);
    }
    if (options->compare && optics != NULL) {
        sl_run_put_between(&page);
    }
    sl_put_limits_of_arms(&page);
    sl_put_factors(&page);
    put_cautions(&page);
    return ferror(out) == 0;
}
