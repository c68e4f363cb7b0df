/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A timeline for machines: long CSV and JSON. Definitions: docs/file-format.md, "Quantities", "CSV" and
 * "JSON". Invariant: every moment is read when it is written, and none is held; nothing of a scene that
 * counts as a head; in JSON every array of numbers has one entry for each of `times_min`: a moment past the
 * end of the scene, a zone without dye and a zone beside none that stains are null, never a made-up number.
 */
#include "report/run/run_data.h"

#include <string.h>

#include "report/limits/leave_words.h"
#include "report/reading.h"
#include "report/told.h"
#include "scene/records.h"
#include "slowlift/caution.h"

static const double json_format = 1.0; /* counts up when a member changes its meaning or goes */

typedef struct sl_run_read {
    const sl_scene *scene;
    const sl_timeline *timeline;
    const sl_optics *optics; /* NULL: no colours */
    const sl_report_options *options;
    int n_times;
} sl_run_read;

static double time_of(const sl_run_read *page, long time)
{
    return page->options->times_min ? page->options->times_min[time]
                                    : sl_timeline_time(page->timeline, (int)time);
}

/* False: past the end of the scene. */
static bool cell_of(const sl_run_read *page, const sl_optics *optics, long strip, long time, sl_cell *cell)
{
    const int arm = (int)strip / page->scene->n_zones, zone = (int)strip % page->scene->n_zones;
    return sl_reading_cell(page->timeline, optics, page->options, arm, zone, time_of(page, time), cell);
}

static void say_srgb(sl_row *row, const char *key, sl_srgb8 colour)
{
    sl_row_words(row, key, "#%02x%02x%02x", colour.r, colour.g, colour.b);
}
#define SL_COLUMN_srgb(name, colour) {.key = (name)},
#define SL_SAY_srgb(name, colour) say_srgb(row, name, colour);

/* ---- CSV: a line for each arm, zone, time and quantity ---------------------------------------------------
 */

#define LINE(SAY)                                                                                            \
    SAY(let, const sl_scene *const scene = page->scene)                                                      \
    SAY(let, const long strip = table->place / page->n_times)                                                \
    SAY(let, const long time = table->place % page->n_times)                                                 \
    SAY(let, const int arm = (int)strip / scene->n_zones)                                                    \
    SAY(end, arm == scene->n_arms)                                                                           \
    SAY(let, sl_cell cell)                                                                                   \
    SAY(skip, !sl_timeline_predicted(page->timeline, arm))                                                   \
    SAY(skip, !cell_of(page, page->optics, strip, time, &cell))                                              \
    SAY(let, const bool coloured = page->optics)                                                             \
    SAY(text, "arm", scene->arms[arm].name)                                                                  \
    SAY(text, "zone", scene->zones[strip % scene->n_zones].name)                                             \
    SAY(planned, "time_min", time_of(page, time))                                                            \
    SAY(number, "colour_left", sl_if_known(cell.colour_left >= 0.0, cell.colour_left))                       \
    SAY(let, const bool returns = sl_reading_returns(page->timeline, arm, (int)strip % scene->n_zones))      \
    SAY(number, "colourless", sl_if_known(returns, cell.colourless))                                         \
    SAY(number, "stain", sl_if_known(cell.stain >= 0.0, cell.stain))                                         \
    SAY(number, "base_moved", cell.base_moved)                                                               \
    SAY(number, "cystine_lost", cell.cystine_lost)                                                           \
    SAY(number, "levels_lifted", cell.levels_lifted)                                                         \
    SAY(number, "level", cell.level)                                                                         \
    SAY(when, coloured, number, "lab_l", cell.colour.lab.L)                                                  \
    SAY(when, coloured, number, "lab_a", cell.colour.lab.a)                                                  \
    SAY(when, coloured, number, "lab_b", cell.colour.lab.b)                                                  \
    SAY(when, coloured, srgb, "srgb", cell.colour.srgb)                                                      \
    SAY(lies, scene, NULL)

static sl_told tell_line(sl_row *row, const sl_table *table)
{
    const sl_run_read *const page = table->of;
    LINE(SL_SAY)
    return SL_TOLD;
}

static const sl_columns lines = SL_COLUMNS(LINE(SL_COLUMN), .tell = tell_line, .lead = 3, .tail = 1);

/* ---- JSON: what the numbers are worth ---------------------------------------------------------------- */

/* The example's note, that nothing is calibrated, and the cautions that are never off. */
static sl_told tell_note(sl_row *row, const sl_table *table)
{
    const sl_run_read *const page = table->of;
    char note[320];
    if (table->place == 0) {
        sl_example_note(page->scene, note, sizeof note);
        sl_row_words(row, NULL, "%s", note);
        return SL_TOLD;
    }
    if (table->place == 1) {
        sl_row_text(row, NULL, sl_not_calibrated);
        return SL_TOLD;
    }
    const sl_caution *const caution = sl_caution_text((sl_caution_id)(table->place - 2));
    sl_row_words(row, NULL, "%s: %s", caution->signal, caution->text);
    return caution->always ? SL_TOLD : SL_NOT_HERE;
}

static const sl_columns notes = SL_COLUMNS(SL_VALUE, .tell = tell_note);

#define PROVENANCE(SAY)                                                                                      \
    SAY(text, "program", "slowlift " SLOWLIFT_VERSION)                                                       \
    SAY(number, "json_format", json_format)                                                                  \
    SAY(text, "chemistry", scene->chemistry.name)                                                            \
    SAY(text, "weakest_grade", sl_grade_word(scene->weakest))                                                \
    SAY(text, "weakest_number", scene->weakest_what)
SL_TABLE(provenance, PROVENANCE, sl_scene, scene);

#define VIEWING(SAY)                                                                                         \
    SAY(text, "light", sl_light_word(viewing->light))                                                        \
    SAY(text, "observer", sl_observer_word(viewing->observer))                                               \
    SAY(text, "look", sl_look_word(viewing->look))
SL_FLAT_TABLE(viewing_record, VIEWING, sl_viewing, viewing);

/* ---- JSON: the scene, by the rows of its records (scene/field.h) -----------------------------------------
 */

#define SCENE(SAY)                                                                                           \
    SAY(turns, "first", sl_scene_fields, scene, SL_FIRST_TURN, -1)                                           \
    SAY(text, "chart", scene->chart.name)                                                                    \
    SAY(number, "settled_c", sl_settled_c(scene))                                                            \
    SAY(turns, "last", sl_scene_fields, scene, 0, SL_LAST_TURN)
SL_TABLE(scene_record, SCENE, sl_scene, scene);

/* which: the zone. */
#define DYE(SAY)                                                                                             \
    SAY(let, const sl_recipe *const recipe = &scene->zones[table->which].recipe)                             \
    SAY(fields, "dye", sl_dye_fields, &scene->dyes[recipe->dye[table->place]])                               \
    SAY(number, "strength", recipe->strength[table->place])
SL_FLAT_TABLE(dyes, DYE, sl_scene, scene);

#define ZONE(SAY)                                                                                            \
    SAY(let, const sl_zone *const zone = &scene->zones[table->place])                                        \
    SAY(fields, "zone", sl_zone_fields, zone)                                                                \
    SAY(fields, "hair", sl_hair_fields, &scene->hairs[zone->hair])                                           \
    SAY(rows, "dyes", dyes, scene, table->place, zone->recipe.n_dyes)
SL_TABLE(zones, ZONE, sl_scene, scene);

#define MIX(SAY) SAY(fields, "mix", sl_mix_fields, &scene->mixes[table->place])
SL_TABLE(mixes, MIX, sl_scene, scene);

/* ---- JSON: an arm ---------------------------------------------------------------------------------------
 */

/* which: the arm. */
#define STEP(SAY)                                                                                            \
    SAY(let, const sl_step *const step = &scene->arms[table->which].steps[table->place])                     \
    SAY(turns, "first", sl_step_fields, step, SL_FIRST_TURN, 0)                                              \
    SAY(when, step->kind == SL_STEP_APPLY, text, "mix", scene->mixes[step->mix].name)                        \
    SAY(turns, "last", sl_step_fields, step, 1, SL_LAST_TURN)
SL_FLAT_TABLE(steps, STEP, sl_scene, scene);

/* The numbers of a cell that stand in arrays. */
#define OF_COLOUR(NUMBER)                                                                                    \
    NUMBER(lab_l, colour.lab.L)                                                                              \
    NUMBER(lab_a, colour.lab.a)                                                                              \
    NUMBER(lab_b, colour.lab.b)
#define NUMBERS(NUMBER)                                                                                      \
    NUMBER(colour_left, colour_left)                                                                         \
    NUMBER(colourless, colourless)                                                                           \
    NUMBER(stain, stain)                                                                                     \
    NUMBER(base_moved, base_moved)                                                                           \
    NUMBER(cystine_lost, cystine_lost)                                                                       \
    NUMBER(levels_lifted, levels_lifted)                                                                     \
    NUMBER(level, level)                                                                                     \
    OF_COLOUR(NUMBER)
#define AS_PLACE(name, member) NUMBER_##name,
enum { NUMBERS(AS_PLACE) N_NUMBERS };
#define AS_OFFSET(name, member) offsetof(sl_cell, member),
static const size_t number_at[N_NUMBERS] = {NUMBERS(AS_OFFSET)};

/* which: strip and number; place: the time. What is no colour is read without painting one. */
static sl_told tell_number(sl_row *row, const sl_table *table)
{
    const sl_run_read *const page = table->of;
    const long strip = table->which / N_NUMBERS, number = table->which % N_NUMBERS;
    sl_cell cell;
    double value = 0.0;
    const bool there = cell_of(page, number < NUMBER_lab_l ? NULL : page->optics, strip, table->place, &cell);
    if (there) {
        memcpy(&value, (const char *)&cell + number_at[number], sizeof value);
    }
    sl_row_number(row, NULL, sl_if_known(there, value));
    return SL_TOLD;
}

static const sl_columns numbers = SL_COLUMNS(SL_VALUE, .tell = tell_number, .flat = true);

static sl_told tell_srgb(sl_row *row, const sl_table *table)
{
    const sl_run_read *const page = table->of;
    sl_cell cell;
    sl_row_null(row, NULL);
    if (cell_of(page, page->optics, table->which, table->place, &cell)) {
        say_srgb(row, NULL, cell.colour.srgb);
    }
    return SL_TOLD;
}

static const sl_columns srgbs = SL_COLUMNS(SL_VALUE, .tell = tell_srgb, .flat = true);

static bool stains(const sl_run_read *page, int arm, int zone)
{
    sl_cell start;
    sl_timeline_at(page->timeline, arm, zone, 0.0, NULL, &start);
    return start.stain >= 0.0;
}

/* which: the arm; place: the zone. */
#define ARRAY(SAY, name, there)                                                                              \
    SAY(rows, #name, numbers, (there) ? page : NULL, strip *N_NUMBERS + NUMBER_##name, page->n_times)
#define STRIP(SAY)                                                                                           \
    SAY(let, const int arm = (int)table->which)                                                              \
    SAY(let, const int zone = (int)table->place)                                                             \
    SAY(let, const long strip = (long)arm * page->scene->n_zones + zone)                                     \
    SAY(text, "zone", page->scene->zones[zone].name)                                                         \
    SAY(text, "method", sl_sharing_word(sl_timeline_method(page->timeline, arm, zone)))                      \
    ARRAY(SAY, colour_left, sl_zone_dyed(page->scene, arm, zone))                                            \
    ARRAY(SAY, colourless, sl_reading_returns(page->timeline, arm, zone))                                    \
    ARRAY(SAY, stain, stains(page, arm, zone))                                                               \
    ARRAY(SAY, base_moved, true)                                                                             \
    ARRAY(SAY, cystine_lost, true)                                                                           \
    ARRAY(SAY, levels_lifted, true)                                                                          \
    ARRAY(SAY, level, true)                                                                                  \
    SAY(only, page->optics)                                                                                  \
    ARRAY(SAY, lab_l, true)                                                                                  \
    ARRAY(SAY, lab_a, true)                                                                                  \
    ARRAY(SAY, lab_b, true)                                                                                  \
    SAY(rows, "srgb", srgbs, page, strip, page->n_times)
SL_TABLE(strips, STRIP, sl_run_read, page);

static void say_reason(sl_row *row, const sl_scene *scene, int arm)
{
    char reason[320];
    sl_outside_note(scene, arm, reason, sizeof reason);
    sl_row_words(row, "reason", "%s", reason);
}
#define SL_COLUMN_reason(scene, arm) {.key = "reason"},
#define SL_SAY_reason(scene, arm) say_reason(row, scene, arm);

#define ARM(SAY)                                                                                             \
    SAY(let, const sl_arm *const arm = &page->scene->arms[table->place])                                     \
    SAY(let, const bool predicted = sl_timeline_predicted(page->timeline, (int)table->place))                \
    SAY(fields, "arm", sl_arm_fields, arm)                                                                   \
    SAY(rows, "steps", steps, page->scene, table->place, arm->n_steps)                                       \
    SAY(yes, "predicted", predicted)                                                                         \
    SAY(when, !predicted, reason, page->scene, (int)table->place)                                            \
    SAY(rows, "zones", strips, page, table->place, predicted ? page->scene->n_zones : 0)
SL_TABLE(arms, ARM, sl_run_read, page);

/* ---- JSON: the whole ----------------------------------------------------------------------------------- */

#define TIME(SAY) SAY(number, NULL, time_of(page, table->place))
SL_FLAT_TABLE(times, TIME, sl_run_read, page);

#define RUN(SAY)                                                                                             \
    SAY(let, const sl_scene *const scene = page->scene)                                                      \
    SAY(lies, scene, NULL)                                                                                   \
    SAY(rows, "notes", notes, page, 0, 2 + SL_CAUTION_COUNT)                                                 \
    SAY(record, "provenance", provenance, scene, 0)                                                          \
    SAY(record, "scene", scene_record, scene, 0)                                                             \
    SAY(text, "clock", page->options->from_contact ? "contact" : "scene")                                    \
    SAY(when, page->optics, record, "viewing", viewing_record, &page->options->viewing, 0)                   \
    SAY(planned_rows, "times_min", times, page, 0, page->n_times)                                            \
    SAY(rows, "zones", zones, scene, 0, scene->n_zones)                                                      \
    SAY(rows, "mixes", mixes, scene, 0, scene->n_mixes)                                                      \
    SAY(rows, "arms", arms, page, 0, scene->n_arms)                                                          \
    SAY(cautions, sl_with_reducing(scene, SL_ON_HAIR))
SL_TABLE(run_record, RUN, sl_run_read, page);

const sl_export sl_run_export = {"run", 1, &run_record, &lines};

static bool write(bool json, FILE *out, const sl_timeline *timeline, const sl_optics *optics,
                  const sl_report_options *options)
{
    const sl_run_read page = {.scene = sl_timeline_scene(timeline),
                              .timeline = timeline,
                              .optics = optics,
                              .options = options,
                              .n_times =
                                  options->times_min ? options->n_times : sl_timeline_n_times(timeline)};
    return sl_reading_has_minutes(page.scene) &&
           (json ? sl_export_json(out, &sl_run_export, &page) : sl_export_csv(out, &sl_run_export, &page));
}

bool sl_report_csv(FILE *out, const sl_timeline *timeline, const sl_optics *optics,
                   const sl_report_options *options)
{
    return write(false, out, timeline, optics, options);
}

bool sl_report_json(FILE *out, const sl_timeline *timeline, const sl_optics *optics,
                    const sl_report_options *options)
{
    return write(true, out, timeline, optics, options);
}
