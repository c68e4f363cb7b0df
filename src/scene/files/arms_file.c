/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A scene's arms and their steps, and the mixes that they name. Each mix is kept once.
 * How a mix is applied may be said once for the scene ("application") and anew in a step.
 */
#include <string.h>

#include "base/language.h"
#include "base/memory.h"
#include "scene/files/scene_file.h"
#include "scene/records.h"

static const sl_range contact_range = {SL_MEASURE_TIME, 0.0, 1440.0};
static const sl_range duration_range = {SL_MEASURE_TIME, 0.01, 1440.0};
static const sl_range age_range = {SL_MEASURE_TIME, 0.0, 240.0};
static const sl_range mix_range = {SL_MEASURE_MASS_RATIO, 0.2, 50.0};

/* How a mix goes on. */
typedef struct sl_application {
    double mix_age_min, mix_g_per_g, hair_water_g_g;
    bool covered, has_mix_per_hair;
} sl_application;

/* The keys of sl_application; what a step adds to them comes first. */
#define APPLICATION_KEYS "mix_per_hair", "mix_age", "hair", "covered"

static bool application_read(const sl_reading *reading, const sl_node *node, const sl_chemistry *chemistry,
                             sl_application *application)
{
    static const char *const states[] = {"dry", "damp"};
    static const sl_words state_words = {states, 2};
    const sl_node *const per_hair = sl_node_child(node, "mix_per_hair");
    const sl_node *const age = sl_node_child(node, "mix_age");
    const sl_node *const hair = sl_node_child(node, "hair");
    const sl_node *const covered = sl_node_child(node, "covered");
    int state = 0;
    if ((per_hair && !sl_quantity_read(per_hair, &mix_range, &application->mix_g_per_g, reading->error)) ||
        (age && !sl_quantity_read(age, &age_range, &application->mix_age_min, reading->error)) ||
        (hair && !sl_word_read(hair, &state_words, &state, reading->error)) ||
        (covered && !sl_yes_read(covered, &application->covered, reading->error))) {
        return false;
    }
    application->has_mix_per_hair = application->has_mix_per_hair || per_hair;
    if (hair) {
        application->hair_water_g_g = state == 1 ? chemistry->damp_water_g_g.value : 0.0;
    }
    return true;
}

static bool mix_index(const sl_reading *reading, const sl_node *node, sl_scene *scene, int *index)
{
    if (!sl_node_is(node, SL_NODE_TEXT, "the name of a mix belongs here", reading->error)) {
        return false;
    }
    for (int i = 0; i < scene->n_mixes; i++) {
        if (strcmp(scene->mixes[i].name, node->text) == 0) {
            *index = i;
            return true;
        }
        if (!sl_name_is_new(node, scene->mixes[i].name, "", N_("another mix has a name that looks like it"),
                            reading->error)) {
            return false;
        }
    }
    sl_mix_record record = {0};
    const char *title = NULL;
    if (!sl_library_read(reading, SL_KIND_MIX, node, node->text, NULL, sl_mix_read, &record, &title)) {
        return false;
    }
    sl_mix *const mix = &scene->mixes[scene->n_mixes];
    *mix = record.mix;
    mix->title = title;
    *index = scene->n_mixes++;
    return sl_name_read(reading, node, &mix->name);
}

static bool apply_read(const sl_reading *reading, const sl_node *node, const sl_application *usual,
                       sl_scene *scene, sl_step *step)
{
    static const char *const keys[] = {"apply", "dwell", APPLICATION_KEYS};
    static const sl_words known = {keys, sizeof keys / sizeof keys[0]};
    sl_application application = *usual;
    if (!sl_node_keys_known(node, &known, reading->error)) {
        return false;
    }
    const sl_node *const dwell = sl_node_child(node, "dwell");
    if (!dwell) {
        return sl_node_refuse_missing(node, "dwell", "how long the mix stays on, such as 30 min",
                                      reading->error);
    }
    if (!sl_quantity_read(dwell, &duration_range, &step->duration_min, reading->error) ||
        !application_read(reading, node, &scene->chemistry, &application)) {
        return false;
    }
    if (!application.has_mix_per_hair) {
        return sl_node_refuse_missing(node, "mix_per_hair",
                                      "grams of mix for each gram of hair, such as 4 g/g, here or under "
                                      "\"application\"",
                                      reading->error);
    }
    step->mix_age_min = application.mix_age_min;
    step->mix_g_per_g = application.mix_g_per_g;
    step->hair_water_g_g = application.hair_water_g_g;
    step->covered = application.covered;
    return mix_index(reading, sl_node_child(node, "apply"), scene, &step->mix);
}

/* A step of one key: rinse, rest or shampoo. */
static bool plain_step_read(const sl_reading *reading, const sl_node *node, sl_step *step)
{
    if (node->n != 1) {
        return sl_node_refuse_key(node->first->next, SL_ERR_UNKNOWN_KEY, "beside this step's own key",
                                  "only a step with \"apply\" has more than one key; one step, one \"-\"",
                                  reading->error);
    }
    const sl_node *const value = node->first;
    if (step->kind != SL_STEP_SHAMPOO) {
        return sl_quantity_read(value, &duration_range, &step->duration_min, reading->error);
    }
    if (!sl_whole_read(value, 1, 20, &step->shampoos, reading->error)) {
        return false;
    }
    step->duration_min = step->shampoos; /* one minute each */
    return true;
}

static bool step_read(const sl_reading *reading, const sl_node *node, const sl_application *usual,
                      sl_scene *scene, sl_step *step)
{
    static const char *const keys[] = {"apply", "rinse", "shampoo", "rest"};
    static const sl_words known = {keys, 4};
    static const sl_step_kind kinds[] = {SL_STEP_APPLY, SL_STEP_RINSE, SL_STEP_SHAMPOO, SL_STEP_REST};
    if (!sl_node_is(node, SL_NODE_MAPPING, "a step belongs here, such as {rinse: 2 min}", reading->error)) {
        return false;
    }
    int found = -1;
    for (int i = 0; i < known.n; i++) {
        if (!sl_node_child(node, keys[i])) {
            continue;
        }
        if (found >= 0) {
            return sl_node_refuse(node, SL_ERR_INCONSISTENT, "two steps in one",
                                  "begin each step with a \"-\" of its own", reading->error);
        }
        found = i;
    }
    if (found < 0) {
        return node->n > 0
                   ? sl_node_keys_known(node, &known, reading->error)
                   : sl_node_refuse_text(node, SL_ERR_WRONG_TYPE,
                                         "a step belongs here, such as {rinse: 2 min}", reading->error);
    }
    step->kind = kinds[found];
    return step->kind == SL_STEP_APPLY ? apply_read(reading, node, usual, scene, step)
                                       : plain_step_read(reading, node, step);
}

static bool steps_read(const sl_reading *reading, const sl_node *steps, const sl_application *usual,
                       sl_scene *scene, sl_arm *arm)
{
    if (!sl_node_is(steps, SL_NODE_LIST, "a list of steps belongs here", reading->error)) {
        return false;
    }
    if (steps->n > SL_MAX_STEPS) {
        return sl_node_refuse_key(steps, SL_ERR_TOO_LARGE, "this arm has too many steps", "16",
                                  reading->error);
    }
    for (const sl_node *node = steps->first; node; node = node->next) {
        if (!step_read(reading, node, usual, scene, &arm->steps[arm->n_steps])) {
            return false;
        }
        arm->n_steps++;
    }
    return true;
}

static bool arm_name_is_new(const sl_reading *reading, const sl_node *node, const sl_scene *scene)
{
    for (int i = 0; i < scene->n_arms; i++) {
        if (!sl_name_is_new(node, scene->arms[i].name, N_("another arm has this name already"),
                            N_("another arm has a name that looks like it"), reading->error)) {
            return false;
        }
    }
    return true;
}

static bool contact_read(const sl_reading *reading, const sl_node *node, const sl_scene *scene, sl_arm *arm)
{
    if (!sl_quantity_read(node, &contact_range, &arm->contact_min, reading->error)) {
        return false;
    }
    return arm->contact_min < scene->until_min ||
           sl_node_refuse_text(node, SL_ERR_INCONSISTENT, "first contact comes before the scene's \"until\"",
                               reading->error);
}

static bool arm_read(const sl_reading *reading, const sl_node *node, const sl_application *usual,
                     sl_scene *scene)
{
    static const char *const keys[] = {"name", "note", "undyed", "contact", "steps"};
    static const sl_words known = {keys, 5};
    if (!sl_node_keys_known(node, &known, reading->error)) {
        return false;
    }
    const sl_node *const name = sl_node_child(node, "name");
    const sl_node *const note = sl_node_child(node, "note");
    const sl_node *const undyed = sl_node_child(node, "undyed");
    const sl_node *const contact = sl_node_child(node, "contact");
    const sl_node *const steps = sl_node_child(node, "steps");
    if (!name) {
        return sl_node_refuse_missing(node, "name", "every arm has a name of its own", reading->error);
    }
    sl_arm *const arm = &scene->arms[scene->n_arms];
    if (!sl_text_read(reading, name, SL_TEXT_NAME, 60, &arm->name) ||
        !arm_name_is_new(reading, name, scene) ||
        (note && !sl_text_read(reading, note, SL_TEXT_LINES, 500, &arm->note)) ||
        (undyed && !sl_yes_read(undyed, &arm->undyed, reading->error)) ||
        (contact && !contact_read(reading, contact, scene, arm)) ||
        (steps && !steps_read(reading, steps, usual, scene, arm))) {
        return false;
    }
    scene->n_arms++;
    return true;
}

/* No more mixes than steps that apply one. */
static size_t count_steps(const sl_node *arms)
{
    size_t n = 0;
    for (const sl_node *node = arms->first; node; node = node->next) {
        const sl_node *const steps = node->kind == SL_NODE_MAPPING ? sl_node_child(node, "steps") : NULL;
        n += steps ? (size_t)steps->n : 0;
    }
    return n;
}

static bool usual_read(const sl_reading *reading, const sl_node *root, const sl_scene *scene,
                       sl_application *usual)
{
    static const char *const keys[] = {APPLICATION_KEYS};
    static const sl_words known = {keys, sizeof keys / sizeof keys[0]};
    const sl_node *const node = sl_node_child(root, "application");
    return !node || (sl_node_keys_known(node, &known, reading->error) &&
                     application_read(reading, node, &scene->chemistry, usual));
}

bool sl_arms_read(const sl_reading *reading, const sl_node *root, sl_scene *scene)
{
    static const char doing[] = "reading the arms";
    const sl_node *const arms = sl_node_child(root, "arms");
    sl_application usual = {.covered = true};
    if (!arms) {
        return sl_node_refuse_missing(root, "arms", "a list of {name, contact, steps}, one for each strip",
                                      reading->error);
    }
    if (!sl_node_is(arms, SL_NODE_LIST, "a list of {name, contact, steps} belongs here", reading->error)) {
        return false;
    }
    if (arms->n < 1 || arms->n > SL_MAX_ARMS) {
        return sl_node_refuse_key(arms, SL_ERR_OUT_OF_RANGE, "the number of arms", "1 to 64 belong here",
                                  reading->error);
    }
    if (!usual_read(reading, root, scene, &usual)) {
        return false;
    }
    scene->arms = sl_arena_new(reading->kept, (size_t)arms->n, sizeof *scene->arms, doing, reading->error);
    scene->mixes =
        sl_arena_new(reading->kept, count_steps(arms), sizeof *scene->mixes, doing, reading->error);
    if (!scene->arms || !scene->mixes) {
        return false;
    }
    for (const sl_node *node = arms->first; node; node = node->next) {
        if (!arm_read(reading, node, &usual, scene)) {
            return false;
        }
    }
    return true;
}
