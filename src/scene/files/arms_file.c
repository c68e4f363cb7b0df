/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A scene's arms and their steps, and the mixes that they name. Each mix is kept once.
 * How a mix is applied may be said once for the scene ("application") and anew in a step.
 */
#include <string.h>

#include "base/language.h"
#include "base/memory.h"
#include "scene/files/scene_file.h"

enum { NAME_BYTES = 60, NOTE_BYTES = 500 };

static const sl_range duration_range = {SL_MEASURE_TIME, 0.01, 1440.0};

/* ---- steps ------------------------------------------------------------------------------ */

/* Water in the hair, by a word. */
static bool wetness_read(const sl_reading *reading, const sl_field *field, const sl_node *mapping,
                         const sl_node *node, void *record)
{
    int state = 0;
    (void)mapping;
    if (!node) {
        return true;
    }
    if (!sl_word_read(node, field->list, &state, reading->error)) {
        return false;
    }
    double *const water_g_g = sl_field_at(field, record);
    *water_g_g = state == 1 ? reading->parts->scene->chemistry.damp_water_g_g.value : 0.0;
    return true;
}

static bool mix_read(const sl_reading *reading, const sl_field *field, const sl_node *mapping,
                     const sl_node *node, void *record)
{
    sl_scene *const scene = reading->parts->scene;
    int *const index = sl_field_at(field, record);
    (void)mapping;
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
    sl_mix_record named = {0};
    sl_wording title = {{NULL}};
    if (!sl_library_read(reading, SL_KIND_MIX, node, node->text, NULL, sl_mix_read, &named, &title)) {
        return false;
    }
    sl_mix *const mix = &scene->mixes[scene->n_mixes];
    *mix = named.mix;
    mix->title = title;
    *index = scene->n_mixes++;
    return sl_name_read(reading, node, &mix->name);
}

static const char *const states[] = {"dry", "damp"};
static const sl_words state_words = {states, 2};
static const char *const step_keys[] = {[SL_STEP_APPLY] = "apply",
                                        [SL_STEP_RINSE] = "rinse",
                                        [SL_STEP_SHAMPOO] = "shampoo",
                                        [SL_STEP_REST] = "rest"};
static const sl_words step_words = {step_keys, 4};

static bool applies(const void *record)
{
    return ((const sl_step *)record)->kind == SL_STEP_APPLY;
}

static bool shampoos(const void *record)
{
    return ((const sl_step *)record)->kind == SL_STEP_SHAMPOO;
}

static bool takes_time(const void *record)
{
    return !shampoos(record);
}

/* How a mix goes on, in a step or for all of a scene. */
#define OF_MIX(place, word, its_turn, ...)                                                                   \
    SL_FIELD(sl_step, place, .key = (word), .told = #place, .turn = (its_turn), .use = SL_DRAWN_FROM,        \
             .tells = applies, __VA_ARGS__)
#define GOES_ON                                                                                              \
    OF_MIX(mix_g_per_g, "mix_per_hair", 2, .range = {SL_MEASURE_MASS_RATIO, 0.2, 50.0}),                     \
        OF_MIX(mix_age_min, "mix_age", 1, .range = {SL_MEASURE_TIME, 0.0, 240.0}),                           \
        OF_MIX(hair_water_g_g, "hair", 2, .list = &state_words, .needs = "", .read = wetness_read),          \
        OF_MIX(covered, "covered", 2, .read = NULL)

/* Of a step that applies a mix; the others have one key, of their kind. */
static const sl_field step_fields[] = {
    SL_FIELD(sl_step, kind, .told = "step", .use = SL_DRAWN_FROM, .list = &step_words),
    SL_FIELD(sl_step, mix, .key = "apply", .turn = 1, .use = SL_DRAWN_FROM, .needs = "", .read = mix_read),
    SL_FIELD(sl_step, duration_min, .key = "dwell", .told = "duration_min", .tells = takes_time,
             .use = SL_DRAWN_FROM | SL_REQUIRED, .range = {SL_MEASURE_TIME, 0.01, 1440.0},
             .wanted = N_("how long the mix stays on, such as 30 min")),
    SL_FIELD(sl_step, shampoos, .told = "times", .use = SL_DRAWN_FROM, .tells = shampoos),
    GOES_ON,
};
const sl_fields sl_step_fields = SL_FIELDS(sl_step, step_fields, .of = NULL);
static const sl_field application_rows[] = {GOES_ON};
static const sl_fields application_fields = SL_FIELDS(sl_step, application_rows, .of = NULL);
#undef GOES_ON
#undef OF_MIX

static bool apply_read(const sl_reading *reading, const sl_node *node, sl_step *step)
{
    *step = reading->parts->usual;
    step->kind = SL_STEP_APPLY;
    if (!sl_fields_read(reading, node, &sl_step_fields, NULL, true, step)) {
        return false;
    }
    return step->mix_g_per_g > 0.0 ||
           sl_node_refuse_missing(node, "mix_per_hair",
                                  "grams of mix for each gram of hair, such as 4 g/g, here or under "
                                  "\"application\"",
                                  reading->error);
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

static bool step_read(const sl_reading *reading, const sl_node *node, sl_step *step)
{
    static const char form[] = N_("a step belongs here, such as {rinse: 2 min}");
    if (!sl_node_is(node, SL_NODE_MAPPING, form, reading->error)) {
        return false;
    }
    int found = -1;
    for (int i = 0; i < step_words.n; i++) {
        if (!sl_node_child(node, step_words.word[i])) {
            continue;
        }
        if (found >= 0) {
            return sl_node_refuse(node, SL_ERR_INCONSISTENT, "two steps in one",
                                  "begin each step with a \"-\" of its own", reading->error);
        }
        found = i;
    }
    if (found < 0) {
        return node->n > 0 ? sl_node_keys_known(node, &step_words, reading->error)
                           : sl_node_refuse_text(node, SL_ERR_WRONG_TYPE, form, reading->error);
    }
    step->kind = (sl_step_kind)found;
    return step->kind == SL_STEP_APPLY ? apply_read(reading, node, step)
                                       : plain_step_read(reading, node, step);
}

/* Whether the mix of a step may come upon that before it without water between: a mix that reduces and one
 * that oxidises would meet. */
static bool may_follow(const sl_reading *reading, const sl_arm *arm, int step)
{
    const sl_mix *const mixes = reading->parts->scene->mixes;
    int before = step - 1;
    while (before >= 0 && arm->steps[before].kind != SL_STEP_APPLY) {
        before--;
    }
    if (before < 0) {
        return true; /* the first mix comes upon none */
    }
    const sl_mix *const one = &mixes[arm->steps[before].mix], *const other = &mixes[arm->steps[step].mix];
    const bool water = one->class_ == SL_MIX_WATER || other->class_ == SL_MIX_WATER;
    return water ||
           (one->mechanism == SL_MECHANISM_REDUCTIVE) == (other->mechanism == SL_MECHANISM_REDUCTIVE);
}

static bool steps_read(const sl_reading *reading, const sl_field *field, const sl_node *mapping,
                       const sl_node *steps, void *record)
{
    sl_arm *const arm = record;
    (void)field;
    (void)mapping;
    if (!steps) {
        return true;
    }
    if (!sl_node_is(steps, SL_NODE_LIST, "a list of steps belongs here", reading->error)) {
        return false;
    }
    if (steps->n > SL_MAX_STEPS) {
        return sl_node_refuse_key(steps, SL_ERR_TOO_LARGE, "this strip has too many steps", "16",
                                  reading->error);
    }
    bool good = true;
    const sl_node *last = NULL; /* the mix that is on the hair, not yet rinsed off */
    for (const sl_node *node = steps->first; node; node = node->next) {
        if (!step_read(reading, node, &arm->steps[arm->n_steps])) {
            good = false;
            if (!sl_pass_over(reading)) {
                return false;
            }
        }
        const sl_node *const before = last;
        const sl_step_kind kind = arm->steps[arm->n_steps].kind;
        last = kind == SL_STEP_APPLY ? node : kind == SL_STEP_RINSE ? NULL : last;
        arm->n_steps++;
        if (good && before && kind == SL_STEP_APPLY && !may_follow(reading, arm, arm->n_steps - 1)) {
            sl_node_refuse(node, SL_ERR_INCONSISTENT,
                           "a reducing and an oxidising mix without a rinse between them",
                           "rinse until the water runs clear, and go by the labels of both", reading->error);
            good = false;
            if (!sl_pass_over(reading)) {
                return false;
            }
        }
    }
    return good;
}

/* ---- arms --------------------------------------------------------------------------------- */

static const sl_twins twins = {.same_name = N_("another strip has this name already"),
                               .alike_name = N_("another strip has a name that looks like it"),
                               .same = N_("another strip has this name or title already"),
                               .alike = N_("another strip has a name or title that looks like it")};

/* The arms that were read before. */
static int named_before(const sl_scene *scene, sl_named before[SL_MAX_ARMS])
{
    for (int i = 0; i < scene->n_arms; i++) {
        before[i] = (sl_named){scene->arms[i].name, &scene->arms[i].title};
    }
    return scene->n_arms;
}

static bool name_read(const sl_reading *reading, const sl_field *field, const sl_node *mapping,
                      const sl_node *node, void *record)
{
    sl_named before[SL_MAX_ARMS];
    const int n = named_before(reading->parts->scene, before);
    (void)mapping;
    return sl_field_read(reading, field, node, record) &&
           sl_name_is_apart(node, before, n, &twins, reading->error);
}

static bool title_read(const sl_reading *reading, const sl_field *field, const sl_node *mapping,
                       const sl_node *node, void *record)
{
    sl_named before[SL_MAX_ARMS];
    const int n = named_before(reading->parts->scene, before);
    (void)mapping;
    return !node || (sl_field_read(reading, field, node, record) &&
                     sl_title_is_apart(node, before, n, &twins, reading->error));
}

static bool contact_read(const sl_reading *reading, const sl_field *field, const sl_node *mapping,
                         const sl_node *node, void *record)
{
    const sl_arm *const arm = record;
    (void)mapping;
    if (node && !sl_field_read(reading, field, node, record)) {
        return false;
    }
    /* until 0: it could not be read */
    return !node || reading->parts->scene->until_min == 0.0 ||
           arm->contact_min < reading->parts->scene->until_min ||
           sl_node_refuse_text(node, SL_ERR_INCONSISTENT, "first contact comes before the scene's \"until\"",
                               reading->error);
}

static const sl_field fields[] = {
    SL_FIELD(sl_arm, name, .key = "name", .told = "name", .use = SL_DRAWN_FROM | SL_REQUIRED,
             .text = SL_TEXT_NAME, .most = NAME_BYTES, .wanted = N_("every strip has a name of its own"),
             .needs = "", .read = name_read),
    SL_FIELD(sl_arm, title, .key = "title", .text = SL_TEXT_NAME, .most = NAME_BYTES, .needs = "",
             .read = title_read),
    SL_FIELD(sl_arm, note, .key = "note", .told = "note", .text = SL_TEXT_LINES, .most = NOTE_BYTES),
    SL_FIELD(sl_arm, undyed, .key = "undyed", .told = "undyed", .use = SL_DRAWN_FROM),
    SL_FIELD(sl_arm, contact_min, .key = "contact", .told = "contact_min", .use = SL_DRAWN_FROM,
             .range = {SL_MEASURE_TIME, 0.0, 1440.0}, .needs = "", .read = contact_read),
    SL_FIELD(sl_arm, n_steps, .use = SL_DRAWN_FROM),
    SL_FIELD_LIST(sl_arm, steps, n_steps, sl_step_fields, .key = "steps", .use = SL_DRAWN_FROM, .needs = "",
                  .read = steps_read),
};
const sl_fields sl_arm_fields = SL_FIELDS(sl_arm, fields, .of = NULL);

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

bool sl_application_read(const sl_reading *reading, const sl_field *field, const sl_node *root,
                         const sl_node *node, void *record)
{
    (void)field;
    (void)root;
    (void)record;
    return !node || sl_fields_read(reading, node, &application_fields, NULL, false, &reading->parts->usual);
}

bool sl_arms_read(const sl_reading *reading, const sl_field *field, const sl_node *root, const sl_node *arms,
                  void *record)
{
    static const char doing[] = "reading the strips";
    sl_scene *const scene = record;
    (void)field;
    (void)root;
    if (!sl_node_is(arms, SL_NODE_LIST, "a list of {name, contact, steps} belongs here", reading->error)) {
        return false;
    }
    if (arms->n < 1 || arms->n > SL_MAX_ARMS) {
        return sl_node_refuse_key(arms, SL_ERR_OUT_OF_RANGE, "the number of strips", "1 to 64 belong here",
                                  reading->error);
    }
    scene->arms = sl_arena_new(reading->kept, (size_t)arms->n, sizeof *scene->arms, doing, reading->error);
    scene->mixes =
        sl_arena_new(reading->kept, count_steps(arms), sizeof *scene->mixes, doing, reading->error);
    if (!scene->arms || !scene->mixes) {
        return false;
    }
    bool good = true;
    for (const sl_node *node = arms->first; node; node = node->next) {
        sl_arm *const arm = &scene->arms[scene->n_arms];
        if (sl_fields_read(reading, node, &sl_arm_fields, NULL, true, arm)) {
            scene->n_arms++;
            continue;
        }
        good = false;
        *arm = (sl_arm){.name = NULL};
        if (!sl_pass_over(reading)) {
            return false;
        }
    }
    return good;
}
