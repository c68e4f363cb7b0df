/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A timeline as long CSV: arm,zone,time_min,quantity,value,lies_for (RFC 4180 quoting, lines end
 * in LF, UTF-8). Definitions: docs/file-format.md, "Quantities" and "CSV".
 * Invariant: none of a scene that counts as a head; no cell begins with a character that a spreadsheet takes
 * for a formula.
 */
#include <string.h>

#include "base/minute.h"
#include "document/text.h"
#include "report/limits/leave_words.h"
#include "report/reading.h"
#include "report/run/csv_name.h"

/* Names are guarded with ' before = + - @ and tab, and quoted where they need it. */
void sl_csv_name(FILE *out, const char *name)
{
    const bool guarded = name[0] != '\0' && strchr("=+-@\t", name[0]) != NULL;
    if (strpbrk(name, ",\"\r\n") == NULL) {
        fprintf(out, "%s%s", guarded ? "'" : "", name);
        return;
    }
    fputc('"', out);
    fputs(guarded ? "'" : "", out);
    for (const char *at = name; *at != '\0'; at++) {
        if (*at == '"') {
            fputc('"', out);
        }
        fputc(*at, out);
    }
    fputc('"', out);
}

/* The first three columns of a row. */
typedef struct sl_run_row {
    FILE *out;
    const char *arm, *zone, *lies_for;
    double time_min;
} sl_run_row;

static void put_start(const sl_run_row *row, const char *quantity)
{
    sl_csv_name(row->out, row->arm);
    fputc(',', row->out);
    sl_csv_name(row->out, row->zone);
    fprintf(row->out, ",%.9g,%s,", row->time_min, quantity);
}

static void put_number(const sl_run_row *row, const char *quantity, double value)
{
    put_start(row, quantity);
    fprintf(row->out, "%.9g,%s\n", value, row->lies_for);
}

static void put_cell(const sl_run_row *row, const sl_cell *cell, bool coloured)
{
    if (cell->colour_left >= 0.0) {
        put_number(row, "colour_left", cell->colour_left);
    }
    if (cell->stain >= 0.0) {
        put_number(row, "stain", cell->stain);
    }
    put_number(row, "base_moved", cell->base_moved);
    put_number(row, "cystine_lost", cell->cystine_lost);
    put_number(row, "levels_lifted", cell->levels_lifted);
    put_number(row, "level", cell->level);
    if (!coloured) {
        return;
    }
    const sl_colour *colour = &cell->colour;
    put_number(row, "lab_l", colour->lab.L);
    put_number(row, "lab_a", colour->lab.a);
    put_number(row, "lab_b", colour->lab.b);
    put_start(row, "srgb");
    fprintf(row->out, "#%02x%02x%02x,%s\n", colour->srgb.r, colour->srgb.g, colour->srgb.b, row->lies_for);
}

bool sl_report_csv(FILE *out, const sl_timeline *timeline, const sl_optics *optics,
                   const sl_report_options *options)
{
    const sl_scene *scene = sl_timeline_scene(timeline);
    if (!sl_reading_has_minutes(scene)) {
        return false;
    }
    char key[SL_MINUTE_KEY];
    fprintf(out, "arm,zone,%s,quantity,value,lies_for\n", sl_minute_key(SL_MINUTE_PLANNED, "time_min", key));
    for (int arm = 0; arm < scene->n_arms; arm++) {
        if (!sl_timeline_predicted(timeline, arm)) {
            continue;
        }
        for (int zone = 0; zone < scene->n_zones; zone++) {
            for (int time = 0; time < sl_timeline_n_times(timeline); time++) {
                const sl_run_row row = {.out = out,
                                        .arm = scene->arms[arm].name,
                                        .zone = scene->zones[zone].name,
                                        .lies_for = sl_lies_for(scene, NULL),
                                        .time_min = sl_timeline_time(timeline, time)};
                sl_cell cell;
                if (sl_reading_cell(timeline, optics, options, arm, zone, row.time_min, &cell)) {
                    put_cell(&row, &cell, optics != NULL);
                }
            }
        }
    }
    return ferror(out) == 0;
}
