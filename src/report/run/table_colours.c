/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Colours in words, at one moment for each arm: level and tone by the scene's chart, what is
 * left against the undyed zone on the grey scale, and two zones compared. Invariant: level
 * and tone are read from dry hair in daylight, whatever the colours beside them are for.
 */
#include <math.h>
#include <string.h>

#include "base/append.h"
#include "base/language.h"
#include "document/text.h"
#include "report/reading.h"
#include "report/run/table.h"
#include "slowlift/caution.h"
#include "slowlift/estimate.h"

/* The arm's moment on the scene's clock: the last asked time, or on a head, where nothing is
 * told by the minute, when `zone` is down to the share that is asked for. */
static bool arm_moment(const sl_run_page *page, int arm, double *time_min)
{
    if (sl_reading_has_minutes(page->scene)) {
        const int n = sl_timeline_n_times(page->timeline);
        const double since = page->options->from_contact ? page->scene->arms[arm].contact_min : 0.0;
        *time_min = n > 0 ? sl_timeline_time(page->timeline, n - 1) + since : page->scene->until_min;
        return *time_min <= page->scene->until_min;
    }
    sl_meeting meeting[SL_MAX_ARMS];
    const int zone = sl_reading_zone(page->timeline, page->options);
    if (zone < 0) {
        return false;
    }
    sl_same_colour_left(page->timeline, zone, page->options->share, meeting);
    *time_min = meeting[arm].time_min;
    return meeting[arm].reached;
}

static void moment_words(const sl_run_page *page, char *text, size_t size)
{
    char number[24];
    if (sl_reading_has_minutes(page->scene)) {
        const int n = sl_timeline_n_times(page->timeline);
        sl_short_number(n > 0 ? sl_timeline_time(page->timeline, n - 1) : page->scene->until_min, 2, number,
                        sizeof number);
        snprintf(text, size, page->options->from_contact ? _("%s MIN ON") : _("AT %s MIN"), number);
        return;
    }
    const int zone = sl_reading_zone(page->timeline, page->options);
    sl_percent(page->options->share, number, sizeof number);
    snprintf(text, size, _("WHEN \"%s\" IS FIRST DOWN TO %s %%"),
             zone < 0 ? "" : sl_zone_title(&page->scene->zones[zone]), number);
}

/* ---- readings by the chart ------------------------------------------------------------- */

static void reading_words(const sl_chart *chart, sl_lab dry, char *text, size_t size)
{
    const sl_reading_words words = sl_chart_read(chart, dry);
    sl_chart_words(&words, text, size);
    sl_append(text, size, " (L* %.0f)", dry.L);
}

/* The grey scale's words: 4-5 stands for four and a half. */
static void grey_step_words(double step, char *text, size_t size)
{
    const int below = (int)floor(step);
    if (step > below) {
        snprintf(text, size, "%d-%d", below, below + 1);
    } else {
        snprintf(text, size, "%d", below);
    }
}

/* What is left of a dyed zone beside the undyed zone on the same hair; "-" without one. */
static void leftover_words(const sl_run_page *page, int arm, int zone, double time_min, sl_lab dry,
                           char *text, size_t size)
{
    const sl_scene *const scene = page->scene;
    const int reference = sl_reference_zone(scene, zone);
    if (!sl_zone_dyed(scene, arm, zone) || scene->zones[reference].hair != scene->zones[zone].hair) {
        snprintf(text, size, "-");
        return;
    }
    sl_cell undyed;
    sl_timeline_at(page->timeline, arm, reference, time_min, page->options->dry, &undyed);
    grey_step_words(sl_grey_scale_step(sl_delta_e_76(dry, undyed.colour.lab)), text, size);
}

static void say_zone(sl_document *document, const sl_run_page *page, int arm, int zone, double time_min)
{
    sl_cell dry, seen;
    char words[96], leftover[16];
    sl_timeline_at(page->timeline, arm, zone, time_min, page->options->dry, &dry);
    sl_timeline_at(page->timeline, arm, zone, time_min, page->optics, &seen);
    reading_words(&page->scene->chart, dry.colour.lab, words, sizeof words);
    leftover_words(page, arm, zone, time_min, dry.colour.lab, leftover, sizeof leftover);
    const sl_lab colour = seen.colour.lab;
    sl_document_cell(document, "  %s", sl_zone_title(&page->scene->zones[zone]));
    sl_document_cell(document, "%s", words);
    sl_document_cell(document, "%s", leftover);
    sl_document_cell(document, "%.0f %.0f %.0f", colour.L, colour.a, colour.b);
}

static void say_arm(sl_document *document, const sl_run_page *page, int arm)
{
    double time_min = 0.0;
    const bool predicted = sl_timeline_predicted(page->timeline, arm);
    const bool reached = predicted && arm_moment(page, arm, &time_min);
    char line[160];
    snprintf(line, sizeof line,
             reached     ? "%s"
             : predicted ? _("%s: does not get there in this scene")
                         : _("%s: outside this model, recorded, not computed"),
             sl_arm_title(&page->scene->arms[arm]));
    sl_document_rest(document, line);
    for (int zone = 0; reached && zone < page->scene->n_zones; zone++) {
        say_zone(document, page, arm, zone, time_min);
    }
}

void sl_run_say_readings(sl_document *document, const sl_run_page *page)
{
    static const sl_text_column columns[] = {{N_("zone"), 2.0, SL_NAME},
                                             {N_("reads"), 3.0, SL_NAME},
                                             {N_("left"), 1.0, SL_RIGHT},
                                             {"L* a* b*", 1.0, SL_OWN | SL_RIGHT}};
    char when[120], heading[160], viewing[120];
    moment_words(page, when, sizeof when);
    snprintf(heading, sizeof heading, _("COLOURS IN WORDS %s"), when);
    sl_document_heading(document, heading);
    sl_viewing_words(page->options->viewing, viewing, sizeof viewing);
    sl_document_say(
        document,
        _("Level and tone by the chart \"%s\", from dry hair in daylight; they are habits of the trade "
          "without a universal chart, so L* stands beside them. \"left\" is the step of the grey scale "
          "against the undyed zone on the same hair: 5 nothing to be seen, 1 most (after ISO 105-A02, made "
          "for textiles). L* a* b*: %s; %s."),
        page->scene->chart.name, viewing, _(sl_not_calibrated));
    sl_document_table(document, "", 4, columns, 0.0);
    for (int arm = 0; arm < page->scene->n_arms; arm++) {
        say_arm(document, page, arm);
    }
}

/* ---- two zones compared ------------------------------------------------------------------ */

static bool spot_lab(const sl_run_page *page, sl_spot_of spot, sl_lab *lab)
{
    double time_min = 0.0;
    if (!sl_timeline_predicted(page->timeline, spot.arm) || !arm_moment(page, spot.arm, &time_min)) {
        return false;
    }
    sl_cell cell;
    sl_timeline_at(page->timeline, spot.arm, spot.zone, time_min, page->optics, &cell);
    *lab = cell.colour.lab;
    return true;
}

void sl_run_say_between(sl_document *document, const sl_run_page *page)
{
    const sl_spot_of *const spots = page->options->between;
    sl_lab lab[2];
    char names[2][128], when[120], heading[160], viewing[120], text[512];
    moment_words(page, when, sizeof when);
    snprintf(heading, sizeof heading, _("BETWEEN TWO ZONES %s"), when);
    sl_document_heading(document, heading);
    for (int i = 0; i < 2; i++) {
        snprintf(names[i], sizeof names[i], "\"%s/%s\"", sl_arm_title(&page->scene->arms[spots[i].arm]),
                 sl_zone_title(&page->scene->zones[spots[i].zone]));
        if (!spot_lab(page, spots[i], &lab[i])) {
            sl_document_say(document, _("%s has no colour then: it is not computed, or does not get there."),
                            names[i]);
            return;
        }
    }
    sl_difference_words(lab[0], names[0], lab[1], names[1], text, sizeof text);
    sl_document_say(document, "%s", text);
    sl_viewing_words(page->options->viewing, viewing, sizeof viewing);
    sl_document_say(document,
                    _("CIEDE2000 %.1f; L* a* b* %.1f %.1f %.1f and %.1f %.1f %.1f (%s; %s). The words "
                      "for how much a person sees are our own."),
                    sl_delta_e_2000(lab[0], lab[1]), lab[0].L, lab[0].a, lab[0].b, lab[1].L, lab[1].a,
                    lab[1].b, viewing, _(sl_not_calibrated));
}
