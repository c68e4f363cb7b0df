/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Arm by zone: what is left of the colour, and what moved in the undyed zone. One matrix
 * for each asked time, or one for the moment when a zone is down to the same share in
 * every arm. Invariant: a number stands only where the model computed it.
 */
#include <math.h>

#include "base/language.h"
#include "base/minute.h"
#include "document/text.h"
#include "report/reading.h"
#include "report/run/table.h"
#include "slowlift/estimate.h"

typedef struct sl_matrix {
    const char *heading;       /* over the arms */
    const sl_meeting *meeting; /* [n_arms], or NULL: every arm at time_min */
    double time_min;
    bool after; /* the minute of the meeting stands there too */
} sl_matrix;

/* ---- entries ------------------------------------------------------------------------- */

static bool read_cell(const sl_run_page *page, const sl_matrix *matrix, int arm, int zone, sl_cell *cell)
{
    const sl_optics *optics = page->options->colour ? page->optics : NULL;
    if (matrix->meeting != NULL) {
        sl_timeline_at(page->timeline, arm, zone, matrix->meeting[arm].time_min, optics, cell);
        return true;
    }
    return sl_reading_cell(page->timeline, optics, page->options, arm, zone, matrix->time_min, cell);
}

/* A share, and the colour of its cell; "end": the moment lies past the end of the scene. */
static void say_share(sl_document *document, const sl_run_page *page, bool there, double share,
                      const sl_cell *cell, bool coloured)
{
    if (!there || share < 0.0) {
        sl_document_cell(document, "%s", there ? "-" : _("end"));
        return;
    }
    sl_entry entry = {.kind = SL_ENTRY_BARE, .value = share};
    if (coloured && page->options->colour && page->optics != NULL) {
        entry.shows = true;
        entry.colour = cell->colour.srgb;
    }
    sl_document_entry(document, entry);
}

/* Whether an arm gets to the share only when no mix lies on it any more: by its rinse, or between two mixes.
 */
static bool mix_is_off(const sl_run_page *page, const sl_meeting *meeting, int arm)
{
    return meeting[arm].reached &&
           sl_arm_on_hair(&page->scene->arms[arm], meeting[arm].time_min).what != SL_LIES_MIX;
}

static void say_after(sl_document *document, const sl_run_page *page, const sl_matrix *matrix, int arm)
{
    char minutes[32];
    sl_minutes_between(matrix->meeting[arm].since_contact_min, "-", minutes, sizeof minutes);
    sl_document_cell(document, "%s%s", minutes, mix_is_off(page, matrix->meeting, arm) ? "*" : "");
}

/* What moved in an undyed zone. */
static void say_reference(sl_document *document, const sl_run_page *page, const sl_matrix *matrix, int arm,
                          int zone)
{
    sl_cell cell = {.colour_left = 0.0};
    const bool there = read_cell(page, matrix, arm, zone, &cell);
    say_share(document, page, there, cell.base_moved, &cell, true);
    if (there) {
        sl_document_entry(document,
                          (sl_entry){.kind = SL_ENTRY_FIXED, .value = cell.levels_lifted, .decimals = 1});
    } else {
        sl_document_cell(document, "%s", _("end"));
    }
    say_share(document, page, there, cell.cystine_lost, &cell, false);
}

/* ---- rows ---------------------------------------------------------------------------- */

static void say_arm(sl_document *document, const sl_run_page *page, const sl_matrix *matrix, int arm)
{
    const sl_scene *const scene = page->scene;
    int references[SL_MAX_ZONES];
    const int n_references = sl_reading_references(scene, references);
    sl_document_cell(document, "%s", sl_arm_title(&scene->arms[arm]));
    if (!sl_timeline_predicted(page->timeline, arm)) {
        sl_document_rest(document, _("outside this model: recorded, not computed"));
        return;
    }
    if (matrix->meeting != NULL && !matrix->meeting[arm].reached) {
        sl_document_rest(document, scene->arms[arm].undyed ? _("undyed: nothing to wait for")
                                                           : _("does not get there in this scene"));
        return;
    }
    if (matrix->after) {
        say_after(document, page, matrix, arm);
    }
    for (int zone = 0; zone < scene->n_zones; zone++) {
        if (scene->zones[zone].recipe.n_dyes > 0) {
            sl_cell cell = {.colour_left = 0.0};
            const bool there = read_cell(page, matrix, arm, zone, &cell);
            say_share(document, page, there, cell.colour_left, &cell, true);
        }
    }
    for (int i = 0; i < n_references; i++) {
        say_reference(document, page, matrix, arm, references[i]);
    }
}

static void say_matrix(sl_document *document, const sl_run_page *page, const sl_matrix *matrix)
{
    const sl_scene *const scene = page->scene;
    sl_text_column columns[SL_MOST_COLUMNS] = {{matrix->heading, 4.0, SL_OWN | SL_NAME}};
    int references[SL_MAX_ZONES], n = 1;
    const int n_references = sl_reading_references(scene, references);
    char base[SL_MAX_ZONES][160];
    if (matrix->after) {
        columns[n++] = (sl_text_column){N_("minute"), 1.0, SL_RIGHT};
    }
    for (int zone = 0; zone < scene->n_zones; zone++) {
        if (scene->zones[zone].recipe.n_dyes > 0) {
            columns[n++] =
                (sl_text_column){sl_zone_title(&scene->zones[zone]), 1.0, SL_OWN | SL_RIGHT | SL_TALL};
        }
    }
    for (int i = 0; i < n_references; i++) { /* of several each says whose base it is */
        const char *const title = sl_zone_title(&scene->zones[references[i]]);
        snprintf(base[i], sizeof base[i], "%s: %s", title, _("base"));
        columns[n++] = n_references > 1 ? (sl_text_column){base[i], 1.0, SL_OWN | SL_RIGHT | SL_BARRED}
                                        : (sl_text_column){N_("base"), 1.0, SL_RIGHT | SL_BARRED};
        columns[n++] = (sl_text_column){N_("levels"), 1.0, SL_RIGHT | SL_WITH};
        columns[n++] = (sl_text_column){N_("stress"), 1.0, SL_RIGHT | SL_WITH};
    }
    sl_document_table(document, "", n, columns, 0.0);
    for (int arm = 0; arm < scene->n_arms; arm++) {
        say_arm(document, page, matrix, arm);
    }
}

void sl_run_say_legend(sl_document *document, const sl_run_page *page)
{
    int references[SL_MAX_ZONES];
    const int count = sl_reading_references(page->scene, references);
    char where[160] = "", scale[16];
    for (int i = 0; i < count; i++) {
        const sl_zone *const zone = &page->scene->zones[references[i]];
        char level[16];
        sl_short_number(page->scene->hairs[zone->hair].level, 1, level, sizeof level);
        char piece[96], before[160];
        snprintf(piece, sizeof piece, _("\"%s\" (level %s)"), sl_zone_title(zone), level);
        snprintf(before, sizeof before, "%s", where);
        if (i == 0) {
            snprintf(where, sizeof where, "%s", piece);
        } else {
            snprintf(where, sizeof where, _("%s, then %s"), before, piece);
        }
    }
    sl_short_number(SL_LEVEL_END, 1, scale, sizeof scale);
    sl_document_say(document,
                    _("Colour left in each zone, %% of its start. Right of the line, in the undyed zone %s: "
                      "base moved, %% and levels of a scale that ends at %s; hair stress, %%."),
                    where, scale);
}

static void say_stagger(sl_document *document, const sl_run_page *page)
{
    const sl_scene *scene = page->scene;
    bool staggered = false;
    for (int arm = 1; arm < scene->n_arms; arm++) {
        staggered = staggered || fabs(scene->arms[arm].contact_min - scene->arms[0].contact_min) > 0.0;
    }
    if (staggered && !page->options->from_contact) {
        sl_document_say(document, "%s",
                        _("The strips went on one after another, so the later ones have had less time at the "
                          "same minute; --clock contact counts from each strip's own contact."));
    }
}

/* ---- the two blocks ------------------------------------------------------------------ */

/* "at 5 min", "5 min on" where times count from contact. */
static void asked_time_words(const sl_report_options *options, double time_min, char *text, size_t size)
{
    char minutes[24];
    sl_short_number(time_min, 2, minutes, sizeof minutes);
    sl_minute_words(SL_MINUTE_PLANNED, text, size, options->from_contact ? _("%s min on") : _("at %s min"),
                    minutes);
}

void sl_run_say_times(sl_document *document, const sl_run_page *page)
{
    sl_document_heading(document, _("WHAT IS LEFT AT THE SAME MINUTE"));
    sl_run_say_legend(document, page);
    say_stagger(document, page);
    for (int time = 0; time < sl_timeline_n_times(page->timeline); time++) {
        char heading[64];
        const sl_matrix matrix = {.time_min = sl_timeline_time(page->timeline, time), .heading = heading};
        asked_time_words(page->options, matrix.time_min, heading, sizeof heading);
        sl_document_apart(document);
        say_matrix(document, page, &matrix);
    }
}

void sl_run_say_same_colour(sl_document *document, const sl_run_page *page, int zone, double share)
{
    sl_meeting meeting[SL_MAX_ARMS];
    char percent[16], heading[160];
    bool marked = false;
    sl_same_colour_left(page->timeline, zone, share, meeting);
    sl_percent(share, percent, sizeof percent);
    snprintf(heading, sizeof heading,
             _("AT THE SAME COLOUR LEFT: each strip when \"%s\" is first down to %s %%"),
             sl_zone_title(&page->scene->zones[zone]), percent);
    sl_document_heading(document, heading);
    const sl_matrix matrix = {
        .meeting = meeting, .heading = _("strip"), .after = sl_reading_has_minutes(page->scene)};
    say_matrix(document, page, &matrix);
    for (int arm = 0; arm < page->scene->n_arms; arm++) {
        marked = marked || mix_is_off(page, meeting, arm);
    }
    if (marked && matrix.after) {
        sl_document_say(document, "%s",
                        _("* No mix lies there any more: the last of it left with the rinse and the shampoo. "
                          "When to rinse so that the share is left is told by slowlift rank and limits."));
    }
}
