/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A timeline as JSON. Definitions: docs/file-format.md, "Quantities" and "JSON".
 * Invariant: every array of numbers has one entry for each of `times_min`; a moment past
 * the end of the scene, a zone without dye and a zone beside none that stains are null,
 * never a made-up number.
 */
#include "base/minute.h"
#include "report/json_fields.h"
#include "report/limits/leave_words.h"
#include "report/reading.h"
#include "scene/records.h"
#include "slowlift/caution.h"

static const double json_format = 1.0; /* counts up when a member changes its meaning or goes */

/* ---- what the numbers are worth ------------------------------------------------------ */

static void put_notes(sl_json *json, const sl_scene *scene)
{
    char note[320];
    sl_json_open(json, "notes", '[');
    sl_example_note(scene, note, sizeof note);
    sl_json_text(json, NULL, note);
    sl_json_text(json, NULL, sl_not_calibrated);
    for (int id = 0; id < SL_CAUTION_COUNT; id++) {
        const sl_caution *caution = sl_caution_text((sl_caution_id)id);
        if (caution->always) {
            char text[640];
            snprintf(text, sizeof text, "%s: %s", caution->signal, caution->text);
            sl_json_text(json, NULL, text);
        }
    }
    sl_json_close(json, ']');
}

static void put_provenance(sl_json *json, const sl_scene *scene)
{
    sl_json_open(json, "provenance", '{');
    sl_json_text(json, "program", "slowlift " SLOWLIFT_VERSION);
    sl_json_number(json, "json_format", json_format);
    sl_json_text(json, "chemistry", scene->chemistry.name);
    sl_json_text(json, "weakest_grade", sl_grade_word(scene->weakest));
    sl_json_text(json, "weakest_number", scene->weakest_what);
    sl_json_close(json, '}');
}

static void put_viewing(sl_json *json, sl_viewing viewing)
{
    sl_json_open_flat(json, "viewing", '{');
    sl_json_text(json, "light", sl_light_word(viewing.light));
    sl_json_text(json, "observer", sl_observer_word(viewing.observer));
    sl_json_text(json, "look", sl_look_word(viewing.look));
    sl_json_close(json, '}');
}

/* ---- the scene ----------------------------------------------------------------------- */

static void put_scene(sl_json *json, const sl_scene *scene)
{
    sl_json_open(json, "scene", '{');
    sl_json_fields(json, &sl_scene_fields, scene, SL_FIRST_TURN, -1);
    sl_json_text(json, "chart", scene->chart.name);
    sl_json_number(json, "settled_c", sl_settled_c(scene));
    sl_json_fields(json, &sl_scene_fields, scene, 0, SL_LAST_TURN);
    sl_json_close(json, '}');
}

static void put_zone(sl_json *json, const sl_scene *scene, const sl_zone *zone)
{
    sl_json_open(json, NULL, '{');
    sl_json_record(json, &sl_zone_fields, zone);
    sl_json_record(json, &sl_hair_fields, &scene->hairs[zone->hair]);
    sl_json_open(json, "dyes", '[');
    for (int i = 0; i < zone->recipe.n_dyes; i++) {
        sl_json_open_flat(json, NULL, '{');
        sl_json_record(json, &sl_dye_fields, &scene->dyes[zone->recipe.dye[i]]);
        sl_json_number(json, "strength", zone->recipe.strength[i]);
        sl_json_close(json, '}');
    }
    sl_json_close(json, ']');
    sl_json_close(json, '}');
}

static void put_mix(sl_json *json, const sl_mix *mix)
{
    sl_json_open(json, NULL, '{');
    sl_json_record(json, &sl_mix_fields, mix);
    sl_json_close(json, '}');
}

/* ---- one arm ------------------------------------------------------------------------- */

static void put_step(sl_json *json, const sl_scene *scene, const sl_step *step)
{
    sl_json_open_flat(json, NULL, '{');
    sl_json_fields(json, &sl_step_fields, step, SL_FIRST_TURN, 0);
    if (step->kind == SL_STEP_APPLY) {
        sl_json_text(json, "mix", scene->mixes[step->mix].name);
    }
    sl_json_fields(json, &sl_step_fields, step, 1, SL_LAST_TURN);
    sl_json_close(json, '}');
}

/* What is read: the cells [time] of one arm and zone. */
typedef struct sl_json_strip {
    const sl_timeline *timeline;
    const sl_optics *optics;
    const sl_report_options *options;
    int arm, zone;
} sl_json_strip;

static bool strip_cell(const sl_json_strip *strip, int time, sl_cell *cell)
{
    return sl_reading_cell(strip->timeline, strip->optics, strip->options, strip->arm, strip->zone,
                           sl_timeline_time(strip->timeline, time), cell);
}

static void put_quantity(sl_json *json, const sl_json_strip *strip, const char *name,
                         double (*of)(const sl_cell *))
{
    sl_json_open_flat(json, name, '[');
    for (int time = 0; time < sl_timeline_n_times(strip->timeline); time++) {
        sl_cell cell;
        if (strip_cell(strip, time, &cell)) {
            sl_json_number(json, NULL, of(&cell));
        } else {
            sl_json_null(json, NULL);
        }
    }
    sl_json_close(json, ']');
}

static double colour_left(const sl_cell *cell)
{
    return cell->colour_left;
}
static double stain(const sl_cell *cell)
{
    return cell->stain;
}
static double base_moved(const sl_cell *cell)
{
    return cell->base_moved;
}
static double cystine_lost(const sl_cell *cell)
{
    return cell->cystine_lost;
}
static double levels_lifted(const sl_cell *cell)
{
    return cell->levels_lifted;
}
static double level(const sl_cell *cell)
{
    return cell->level;
}
static double lab_l(const sl_cell *cell)
{
    return cell->colour.lab.L;
}
static double lab_a(const sl_cell *cell)
{
    return cell->colour.lab.a;
}
static double lab_b(const sl_cell *cell)
{
    return cell->colour.lab.b;
}

static void put_srgb(sl_json *json, const sl_json_strip *strip)
{
    sl_json_open_flat(json, "srgb", '[');
    for (int time = 0; time < sl_timeline_n_times(strip->timeline); time++) {
        sl_cell cell;
        if (!strip_cell(strip, time, &cell)) {
            sl_json_null(json, NULL);
            continue;
        }
        char text[16];
        const sl_srgb8 colour = cell.colour.srgb;
        snprintf(text, sizeof text, "#%02x%02x%02x", colour.r, colour.g, colour.b);
        sl_json_text(json, NULL, text);
    }
    sl_json_close(json, ']');
}

static void put_strip(sl_json *json, const sl_json_strip *strip)
{
    const sl_scene *scene = sl_timeline_scene(strip->timeline);
    sl_json_open(json, NULL, '{');
    sl_json_text(json, "zone", scene->zones[strip->zone].name);
    sl_json_text(json, "method",
                 sl_sharing_word(sl_timeline_method(strip->timeline, strip->arm, strip->zone)));
    if (sl_zone_dyed(scene, strip->arm, strip->zone)) {
        put_quantity(json, strip, "colour_left", colour_left);
    } else {
        sl_json_null(json, "colour_left");
    }
    sl_cell start;
    sl_timeline_at(strip->timeline, strip->arm, strip->zone, 0.0, NULL, &start);
    if (start.stain >= 0.0) {
        put_quantity(json, strip, "stain", stain);
    } else {
        sl_json_null(json, "stain");
    }
    put_quantity(json, strip, "base_moved", base_moved);
    put_quantity(json, strip, "cystine_lost", cystine_lost);
    put_quantity(json, strip, "levels_lifted", levels_lifted);
    put_quantity(json, strip, "level", level);
    if (strip->optics != NULL) {
        put_quantity(json, strip, "lab_l", lab_l);
        put_quantity(json, strip, "lab_a", lab_a);
        put_quantity(json, strip, "lab_b", lab_b);
        put_srgb(json, strip);
    }
    sl_json_close(json, '}');
}

static void put_arm(sl_json *json, const sl_json_strip *first)
{
    const sl_scene *scene = sl_timeline_scene(first->timeline);
    const sl_arm *arm = &scene->arms[first->arm];
    sl_json_open(json, NULL, '{');
    sl_json_record(json, &sl_arm_fields, arm);
    sl_json_open(json, "steps", '[');
    for (int i = 0; i < arm->n_steps; i++) {
        put_step(json, scene, &arm->steps[i]);
    }
    sl_json_close(json, ']');
    const bool predicted = sl_timeline_predicted(first->timeline, first->arm);
    sl_json_bool(json, "predicted", predicted);
    if (!predicted) {
        char reason[320];
        sl_outside_note(scene, first->arm, reason, sizeof reason);
        sl_json_text(json, "reason", reason);
    }
    sl_json_open(json, "zones", '[');
    for (int zone = 0; predicted && zone < scene->n_zones; zone++) {
        sl_json_strip strip = *first;
        strip.zone = zone;
        put_strip(json, &strip);
    }
    sl_json_close(json, ']');
    sl_json_close(json, '}');
}

/* ---- the whole ----------------------------------------------------------------------- */

static void put_lists(sl_json *json, const sl_timeline *timeline)
{
    const sl_scene *scene = sl_timeline_scene(timeline);
    char key[SL_MINUTE_KEY];
    sl_json_open_flat(json, sl_minute_key(SL_MINUTE_PLANNED, "times_min", key), '[');
    for (int time = 0; time < sl_timeline_n_times(timeline); time++) {
        sl_json_number(json, NULL, sl_timeline_time(timeline, time));
    }
    sl_json_close(json, ']');
    sl_json_open(json, "zones", '[');
    for (int zone = 0; zone < scene->n_zones; zone++) {
        put_zone(json, scene, &scene->zones[zone]);
    }
    sl_json_close(json, ']');
    sl_json_open(json, "mixes", '[');
    for (int mix = 0; mix < scene->n_mixes; mix++) {
        put_mix(json, &scene->mixes[mix]);
    }
    sl_json_close(json, ']');
}

bool sl_report_json(FILE *out, const sl_timeline *timeline, const sl_optics *optics,
                    const sl_report_options *options)
{
    const sl_scene *scene = sl_timeline_scene(timeline);
    sl_json json = {.out = out};
    if (!sl_reading_has_minutes(scene)) {
        return false;
    }
    sl_json_open(&json, NULL, '{');
    sl_json_text(&json, "lies_for", sl_lies_for(scene, NULL));
    put_notes(&json, scene);
    put_provenance(&json, scene);
    put_scene(&json, scene);
    sl_json_text(&json, "clock", options->from_contact ? "contact" : "scene");
    if (optics != NULL) {
        put_viewing(&json, options->viewing);
    }
    put_lists(&json, timeline);
    sl_json_open(&json, "arms", '[');
    for (int arm = 0; arm < scene->n_arms; arm++) {
        const sl_json_strip first = {.timeline = timeline, .optics = optics, .options = options, .arm = arm};
        put_arm(&json, &first);
    }
    sl_json_close(&json, ']');
    sl_json_cautions(&json, NULL, 0);
    sl_json_close(&json, '}');
    return ferror(out) == 0;
}
