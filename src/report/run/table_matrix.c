/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Arm by zone: what is left of the colour, and what moved in the undyed zone. One matrix
 * for each asked time, or one for the moment when a zone is down to the same share in
 * every arm. Invariant: a number stands only where the model computed it.
 */
#include <math.h>
#include <string.h>

#include "base/append.h"
#include "base/language.h"
#include "base/minute.h"
#include "document/text.h"
#include "report/reading.h"
#include "report/run/table.h"
#include "slowlift/estimate.h"

typedef enum column_kind { AFTER, LEFT, BASE, LEVELS, STRESS } column_kind;

typedef struct sl_matrix_column {
    column_kind kind;
    int zone;            /* whose value; -1 for AFTER */
    char heading[2][64]; /* two lines, the upper one perhaps empty */
    int width;           /* gap included */
} sl_matrix_column;

enum { MAX_COLUMNS = 1 + 4 * SL_MAX_ZONES, CELL_SIZE = 32 };

typedef struct sl_matrix {
    sl_matrix_column columns[MAX_COLUMNS];
    int n_columns;
    const char *heading;       /* over the arms */
    const sl_meeting *meeting; /* [n_arms], or NULL: every arm at time_min */
    double time_min;
} sl_matrix;

/* A long name goes on two lines, broken at the space that makes them most alike. */
static void set_heading(sl_matrix_column *column, const char *name)
{
    const int short_enough = 8;
    const size_t whole = strlen(name);
    size_t best = 0;
    for (size_t at = 1; sl_text_width(name) > short_enough && at + 1 < whole; at++) {
        const size_t middle = whole / 2;
        const size_t distance = at > middle ? at - middle : middle - at;
        const size_t so_far = best > middle ? best - middle : middle - best;
        if (name[at] == ' ' && (best == 0 || distance < so_far)) {
            best = at;
        }
    }
    snprintf(column->heading[0], sizeof column->heading[0], "%.*s", (int)best, name);
    snprintf(column->heading[1], sizeof column->heading[1], "%s", best > 0 ? name + best + 1 : name);
}

static void add_column(sl_matrix *matrix, column_kind kind, int zone, const char *heading, int least)
{
    const int longest = 12;
    sl_matrix_column *column = &matrix->columns[matrix->n_columns++];
    *column = (sl_matrix_column){.kind = kind, .zone = zone};
    set_heading(column, heading);
    const int upper = sl_text_width(column->heading[0]), lower = sl_text_width(column->heading[1]);
    int width = upper > lower ? upper : lower;
    width = width > longest ? longest : width;
    column->width = 2 + (width < least ? least : width);
}

/* A line stands between what is left of the colour and what moved in the undyed zone. */
static bool opens_group(const sl_matrix *matrix, int i)
{
    return matrix->columns[i].kind == BASE;
}

/* Columns that the first n take beside the arms' names, with `less` taken from each gap. */
static int width_of(const sl_run_page *page, const sl_matrix *matrix, int n, int less)
{
    int taken = 1 + page->arm_width;
    for (int i = 0; i < n; i++) {
        taken += matrix->columns[i].width + (opens_group(matrix, i) ? 2 : -less);
    }
    return taken;
}

/* A gap of one column instead of two, where that keeps the matrix, or else the colours, on
 * one page. */
static void narrow(const sl_run_page *page, sl_matrix *matrix)
{
    int colours = 0;
    while (colours < matrix->n_columns && !opens_group(matrix, colours)) {
        colours++;
    }
    const int all = matrix->n_columns;
    const bool splits = width_of(page, matrix, all, 1) > page->width;
    const int n = splits ? colours : all;
    if (width_of(page, matrix, n, 0) <= page->width || width_of(page, matrix, n, 1) > page->width) {
        return;
    }
    for (int i = 0; i < all; i++) {
        matrix->columns[i].width -= opens_group(matrix, i) ? 0 : 1;
    }
}

static void choose_columns(const sl_run_page *page, sl_matrix *matrix, bool after)
{
    const sl_scene *scene = page->scene;
    if (after) {
        add_column(matrix, AFTER, -1, _("minute"), 6); /* with a mark */
    }
    for (int zone = 0; zone < scene->n_zones; zone++) {
        if (scene->zones[zone].recipe.n_dyes > 0) {
            add_column(matrix, LEFT, zone, sl_zone_title(&scene->zones[zone]), 3);
        }
    }
    int references[SL_MAX_ZONES];
    const int n_references = sl_reading_references(scene, references);
    for (int i = 0; i < n_references; i++) {
        add_column(matrix, BASE, references[i], _("base"), 4);
        add_column(matrix, LEVELS, references[i], _("levels"), 4);
        add_column(matrix, STRESS, references[i], _("stress"), 4);
    }
    narrow(page, matrix);
}

/* ---- one cell ------------------------------------------------------------------------ */

static bool read_cell(const sl_run_page *page, const sl_matrix *matrix, int arm, int zone, sl_cell *cell)
{
    const sl_optics *optics = page->options->colour ? page->optics : NULL;
    if (matrix->meeting != NULL) {
        sl_timeline_at(page->timeline, arm, zone, matrix->meeting[arm].time_min, optics, cell);
        return true;
    }
    return sl_reading_cell(page->timeline, optics, page->options, arm, zone, matrix->time_min, cell);
}

static void write_value(column_kind kind, const sl_cell *cell, char text[CELL_SIZE])
{
    switch (kind) {
    case LEFT:
        if (cell->colour_left < 0.0) {
            snprintf(text, CELL_SIZE, "-");
        } else {
            sl_percent(cell->colour_left, text, CELL_SIZE);
        }
        return;
    case BASE:
        sl_percent(cell->base_moved, text, CELL_SIZE);
        return;
    case LEVELS:
        snprintf(text, CELL_SIZE, "%.1f", cell->levels_lifted);
        return;
    case STRESS:
        sl_percent(cell->cystine_lost, text, CELL_SIZE);
        return;
    case AFTER:
    default:
        text[0] = '\0';
        return;
    }
}

/* A block of the colour in the gap after a number, 24-bit ANSI. */
static void put_block(const sl_run_page *page, const sl_cell *cell)
{
    const sl_srgb8 colour = cell->colour.srgb;
    fprintf(page->out, "\033[38;2;%d;%d;%dm█\033[0m", colour.r, colour.g, colour.b);
}

/* Whether an arm gets to the share only when no mix lies on it any more: by its rinse, or between two mixes.
 */
static bool mix_is_off(const sl_run_page *page, const sl_matrix *matrix, int arm)
{
    const sl_meeting *const there = &matrix->meeting[arm];
    return there->reached && sl_arm_on_hair(&page->scene->arms[arm], there->time_min).what != SL_LIES_MIX;
}

/* The value or time of one column, to the right, and a column for the colour's block. */
static void put_cell(const sl_run_page *page, const sl_matrix *matrix, int arm,
                     const sl_matrix_column *column, bool last)
{
    char text[CELL_SIZE]; /* "end": the moment lies past the end of the scene */
    snprintf(text, sizeof text, "%s", _("end"));
    sl_cell cell;
    bool there = false;
    if (column->kind == AFTER) {
        sl_minutes_between(matrix->meeting[arm].since_contact_min, "-", text, sizeof text);
        sl_append(text, sizeof text, "%s", mix_is_off(page, matrix, arm) ? "*" : "");
    } else {
        there = read_cell(page, matrix, arm, column->zone, &cell);
    }
    if (there) {
        write_value(column->kind, &cell, text);
    }
    sl_put_right(page->out, text, column->width - 1);
    if (there && (column->kind == LEFT || column->kind == BASE) && page->options->colour &&
        page->optics != NULL) {
        put_block(page, &cell);
    } else if (!last) {
        fputc(' ', page->out);
    }
}

/* ---- rows ---------------------------------------------------------------------------- */

static void put_heading_line(const sl_run_page *page, const sl_matrix *matrix, int first, int end, int line)
{
    bool any = line == 1;
    for (int i = first; i < end; i++) {
        any = any || matrix->columns[i].heading[line][0] != '\0';
    }
    if (!any) {
        return;
    }
    fputc(' ', page->out);
    sl_put_left(page->out, line == 1 ? matrix->heading : "", page->arm_width);
    for (int i = first; i < end; i++) {
        fputs(opens_group(matrix, i) ? " │" : "", page->out);
        sl_put_right(page->out, matrix->columns[i].heading[line], matrix->columns[i].width - 1);
        sl_put_spaces(page->out, i + 1 < end ? 1 : 0);
    }
    fputc('\n', page->out);
}

static void put_arm(const sl_run_page *page, const sl_matrix *matrix, int arm, int first, int end)
{
    fputc(' ', page->out);
    sl_put_title(page->out, sl_arm_title(&page->scene->arms[arm]), 1, page->arm_width);
    if (!sl_timeline_predicted(page->timeline, arm)) {
        fputs(_("  outside this model: recorded, not computed\n"), page->out);
        return;
    }
    if (matrix->meeting != NULL && !matrix->meeting[arm].reached) {
        fputs(page->scene->arms[arm].undyed ? _("  undyed: nothing to wait for\n")
                                            : _("  does not get there in this scene\n"),
              page->out);
        return;
    }
    for (int i = first; i < end; i++) {
        fputs(opens_group(matrix, i) ? " │" : "", page->out);
        put_cell(page, matrix, arm, &matrix->columns[i], i + 1 == end);
    }
    fputc('\n', page->out);
}

/* The columns from `first` on that fit the page, at least one; the three of an undyed zone
 * stay together. */
static int columns_that_fit(const sl_run_page *page, const sl_matrix *matrix, int first)
{
    int taken = 1 + page->arm_width;
    int end = first;
    while (end < matrix->n_columns) {
        taken += matrix->columns[end].width + (opens_group(matrix, end) ? 2 : 0);
        if (taken > page->width && end > first) {
            break;
        }
        end++;
    }
    int group = end;
    while (end < matrix->n_columns && group > first && matrix->columns[group].kind > BASE) {
        group--;
    }
    return group > first ? group : end;
}

static void put_matrix(const sl_run_page *page, const sl_matrix *matrix)
{
    for (int first = 0; first < matrix->n_columns;) {
        const int end = columns_that_fit(page, matrix, first);
        put_heading_line(page, matrix, first, end, 0);
        put_heading_line(page, matrix, first, end, 1);
        for (int arm = 0; arm < page->scene->n_arms; arm++) {
            put_arm(page, matrix, arm, first, end);
        }
        first = end;
    }
}

void sl_put_legend(const sl_run_page *page)
{
    int references[SL_MAX_ZONES];
    const int count = sl_reading_references(page->scene, references);
    char where[160] = "";
    for (int i = 0; i < count; i++) {
        const sl_zone *const zone = &page->scene->zones[references[i]];
        char level[16];
        sl_short_number(page->scene->hairs[zone->hair].level, 1, level, sizeof level);
        sl_append_item(where, sizeof where, _(", then "), _("\"%s\" (level %s)"), sl_zone_title(zone), level);
    }
    char legend[512], scale[16];
    sl_short_number(SL_LEVEL_END, 1, scale, sizeof scale);
    snprintf(legend, sizeof legend,
             _("Colour left in each zone, %% of its start. Right of the line, in the undyed zone %s: base "
               "moved, %% and levels of a scale that ends at %s; hair stress, %% of its cystine lost."),
             where, scale);
    sl_put_paragraph(page->out, " ", legend, page->width);
}

static void put_stagger(const sl_run_page *page)
{
    const sl_scene *scene = page->scene;
    bool staggered = false;
    for (int arm = 1; arm < scene->n_arms; arm++) {
        staggered = staggered || fabs(scene->arms[arm].contact_min - scene->arms[0].contact_min) > 0.0;
    }
    if (staggered && !page->options->from_contact) {
        sl_put_paragraph(
            page->out, " ",
            _("The arms went on one after another, so the later ones have had less time at the same "
              "minute; --clock contact counts from each arm's own contact."),
            page->width);
    }
}

/* ---- the two blocks ------------------------------------------------------------------ */

void sl_asked_time_words(const sl_report_options *options, double time_min, char *text, size_t size)
{
    char minutes[24];
    sl_short_number(time_min, 2, minutes, sizeof minutes);
    sl_minute_words(SL_MINUTE_PLANNED, text, size, options->from_contact ? _("%s min on") : _("at %s min"),
                    minutes);
}

void sl_put_times(const sl_run_page *page)
{
    sl_put_heading(page, _("WHAT IS LEFT AT THE SAME MINUTE"));
    sl_put_legend(page);
    put_stagger(page);
    for (int time = 0; time < sl_timeline_n_times(page->timeline); time++) {
        char heading[64];
        sl_matrix matrix = {.time_min = sl_timeline_time(page->timeline, time)};
        sl_asked_time_words(page->options, matrix.time_min, heading, sizeof heading);
        matrix.heading = heading;
        choose_columns(page, &matrix, false);
        fputc('\n', page->out);
        put_matrix(page, &matrix);
    }
}

void sl_put_same_colour(const sl_run_page *page, int zone, double share)
{
    sl_meeting meeting[SL_MAX_ARMS];
    sl_same_colour_left(page->timeline, zone, share, meeting);
    char percent[16], heading[160];
    sl_percent(share, percent, sizeof percent);
    snprintf(heading, sizeof heading,
             _("AT THE SAME COLOUR LEFT: each arm when \"%s\" is first down to %s %%"),
             sl_zone_title(&page->scene->zones[zone]), percent);
    sl_put_heading(page, heading);
    sl_matrix matrix = {.meeting = meeting, .heading = _("arm")};
    const bool minutes = sl_reading_has_minutes(page->scene);
    choose_columns(page, &matrix, minutes);
    put_matrix(page, &matrix);
    bool marked = false;
    for (int arm = 0; arm < page->scene->n_arms; arm++) {
        marked = marked || mix_is_off(page, &matrix, arm);
    }
    if (marked && minutes) {
        sl_put_paragraph(
            page->out, " ",
            _("* No mix lies there any more: the last of it left with the rinse and the shampoo. "
              "When to rinse so that the share is left is told by slowlift rank and limits."),
            page->width);
    }
}
