/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What people read of a run, from the question to the cautions. Invariant: everything that must be said
 * (classroom example, what is outside the model, the cautions that cannot be switched off) is part of it
 * whatever the options.
 */
#include "report/run/table.h"

#include "base/language.h"
#include "base/minute.h"
#include "document/renderers.h"
#include "document/text.h"
#include "report/limits/leave_words.h"
#include "report/reading.h"
#include "report/told.h"
#include "report/warming.h"
#include "slowlift/estimate.h"

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

static void say_place(sl_document *document, const sl_run_page *page)
{
    const double celsius = sl_settled_c(page->scene);
    char degrees[24], number[24], until[32];
    sl_short_number(celsius, 1, degrees, sizeof degrees);
    sl_short_number(page->scene->until_min, 1, number, sizeof number);
    sl_minute_words(SL_MINUTE_PLANNED, until, sizeof until, "%s", number);
    sl_document_row(document, _("lies"),
                    sl_scene_isothermal(page->scene)
                        ? _("%s, %s °C (%.0f °F); followed for %s min")
                        : _("%s, %s °C (%.0f °F) once settled; followed for %s min"),
                    place_sentence(page->scene), degrees, 32.0 + 1.8 * celsius, until);
}

static bool shows_colours(const sl_run_page *page)
{
    const sl_report_options *const options = page->options;
    return page->optics != NULL && (options->colour || options->dry != NULL || options->compare ||
                                    !sl_viewing_usual(options->viewing));
}

static void say_top(sl_document *document, const sl_run_page *page)
{
    sl_say_lies(document, page->scene, NULL);
    if (sl_scene_question(page->scene)) {
        sl_document_row(document, _("question"), "%s", sl_scene_question(page->scene));
    }
    say_place(document, page);
    sl_say_warming(document, page->timeline, -1, true);
    sl_say_note(document, page->scene);
    if (shows_colours(page)) {
        char viewing[120];
        sl_viewing_words(page->options->viewing, viewing, sizeof viewing);
        sl_document_row(document, _("colours"), "%s; %s", viewing, _(sl_not_calibrated));
    }
}

/* ---- what must be said --------------------------------------------------------------- */

static void say_outside(sl_document *document, const sl_run_page *page)
{
    char text[320];
    for (int arm = 0; arm < page->scene->n_arms; arm++) {
        if (!sl_timeline_predicted(page->timeline, arm)) {
            sl_outside_note(page->scene, arm, text, sizeof text);
            sl_document_say(document, "%s", text);
        }
    }
}

/* ---- the whole ----------------------------------------------------------------------- */

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
static void say_without_minutes(sl_document *document, const sl_run_page *page, int zone)
{
    static const double shares[] = {0.75, 0.5, 0.25, 0.1};
    sl_document_heading(document, _("WHAT IS LEFT"));
    sl_document_say(document, "%s",
                    _("Warm as on a head: nothing is told by the minute here, and --at is not used. The "
                      "strips are compared at the same colour left."));
    sl_run_say_legend(document, page);
    for (size_t i = 0; zone >= 0 && i < sizeof shares / sizeof shares[0]; i++) {
        if (any_arm_reaches(page, zone, shares[i])) {
            sl_run_say_same_colour(document, page, zone, shares[i]);
        }
    }
}

static void say_outcomes(sl_document *document, const sl_run_page *page)
{
    const int zone = sl_reading_zone(page->timeline, page->options);
    if (!sl_reading_has_minutes(page->scene)) {
        say_without_minutes(document, page, zone);
        return;
    }
    sl_run_say_times(document, page);
    if (zone >= 0) {
        sl_run_say_same_colour(document, page, zone, page->options->share);
    }
    sl_run_say_return(document, page);
}

void sl_run_say(sl_document *document, const sl_timeline *timeline, const sl_optics *optics,
                const sl_report_options *options, sl_error *error)
{
    const sl_scene *const scene = sl_timeline_scene(timeline);
    const sl_run_page page = {.timeline = timeline, .scene = scene, .optics = optics, .options = options};
    sl_document_begin(document, "run", sl_scene_title(scene), error);
    say_top(document, &page);
    sl_run_say_mixes(document, &page);
    say_outside(document, &page);
    sl_say_labels(document, scene, NULL, -1);
    say_outcomes(document, &page);
    if (options->dry != NULL && optics != NULL) {
        sl_run_say_readings(document, &page);
    }
    if (options->compare && optics != NULL) {
        sl_run_say_between(document, &page);
    }
    sl_run_say_limits(document, &page);
    sl_run_say_factors(document, &page);
    sl_document_heading(document, _("BEFORE ANYTHING IS MIXED"));
    sl_document_end(document, sl_with_reducing(scene, SL_ON_HAIR));
}

bool sl_report_table(FILE *out, const sl_timeline *timeline, const sl_optics *optics,
                     const sl_report_options *options)
{
    sl_document document;
    sl_error error = {.code = SL_OK};
    sl_run_say(&document, timeline, optics, options, &error);
    const sl_terminal terminal = {
        .width = options->width > 0 ? options->width : 100, .depth = SL_SCIENCE, .colour = options->colour};
    return sl_document_print(out, &document, &terminal);
}
