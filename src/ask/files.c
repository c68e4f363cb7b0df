/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The answers as files: a scene, and beside it its hair, its mixes and, where the doubt about dyes is to be
 * wider than in the set that is shipped, its dyes. They are written twice: once to have the hair and the dyes
 * as the model reads them, then with the amounts that were solved on it.
 */
#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "ask/ask.h"
#include "base/append.h"
#include "base/language.h"
#include "scene/yaml/value.h"

static const char SET[] = "bright-one"; /* of dyes: its names are sl_ask_colours and brown */
static const double STAGGER_MIN = 0.75; /* between first contacts */
static const double RINSE_MIN = 2.0, WASH_MIN = 1.0;
static const double ROOT_SHARE = 0.45; /* how strong a brown root looks: medium (assumed) */

/* What the first writing found out. */
typedef struct sl_solved {
    const sl_scene *scene;         /* NULL: this is the first writing */
    double amount[SL_ASK_COLOURS]; /* of each colour */
    double root;
    bool wide[SL_ASK_COLOURS]; /* its rates are written as assumed */
    bool any_wide;
} sl_solved;

typedef struct sl_file_writing {
    sl_made *made;
    const sl_new_test *asked;
    const sl_solved *solved;
    char *text; /* of the file that is written */
} sl_file_writing;

/* ---- lines -------------------------------------------------------------------------------------- */

/* The next file, of that name beside the scene; "" is the scene itself. */
__attribute__((format(printf, 2, 3))) static void begin(sl_file_writing *writing, const char *format, ...)
{
    sl_made_file *const file = &writing->made->file[writing->made->n++];
    va_list given;
    va_start(given, format);
    vsnprintf(file->name, sizeof file->name, format, given);
    va_end(given);
    file->text[0] = '\0';
    writing->text = file->text;
}

#define PUT(...) sl_append(writing->text, SL_MADE_BYTES, __VA_ARGS__)

/* Behind a number: nothing, or that nobody gave it. */
static const char *mark(sl_file_writing *writing, bool given)
{
    writing->made->n_assumed += !given;
    return given ? "" : " # assumed";
}

/* A title in the language in use; what is plain counts as English. */
static void put_titled(sl_file_writing *writing, const char *key, const char *text)
{
    if (sl_language_in_use() == SL_ENGLISH) {
        PUT("%s: \"%s\"\n", key, text);
    } else {
        PUT("%s: {%s: \"%s\"}\n", key, sl_language(), text);
    }
}

static void put_head(sl_file_writing *writing, const char *kind, const char *title)
{
    PUT("# %s\n", _("Made of answers to \"slowlift new\". A number behind which \"# assumed\" stands was "
                    "given by nobody:"));
    PUT("# %s\n", _("put your own in its place, and take the mark away."));
    PUT("kind: %s\nversion: 1\n", kind);
    put_titled(writing, "title", title);
    PUT("origin: \"%s\"\n", _("our own test, out of our own answers"));
}

/* `, title: {es: rojo}` in another language than that of names. */
static void put_title_of(sl_file_writing *writing, const char *word)
{
    if (sl_language_in_use() != SL_ENGLISH) {
        PUT(", title: {%s: %s}", sl_language(), _(word));
    }
}

/* ---- hair, mixes, dyes ----------------------------------------------------------------------------- */

static void write_hair(sl_file_writing *writing)
{
    const sl_new_test *const asked = writing->asked;
    if (asked->level == asked->natural_level) {
        return;
    }
    begin(writing, "hair/%s.yaml", asked->name);
    put_head(writing, "hair", _("The hair of a test of our own"));
    PUT("natural: natural-%g%s\n", asked->natural_level, mark(writing, asked->given[SL_TOPIC_HAIR]));
    PUT("level: %g%s\n", asked->level, mark(writing, asked->given[SL_TOPIC_HAIR]));
    PUT("warmth_left: 70 %%%s\n", mark(writing, false));
    PUT("damage: 16 %%%s\n", mark(writing, false));
    PUT("porosity: 1.8%s\n", mark(writing, false));
}

static void write_mix(sl_file_writing *writing, const sl_ask_bowl *bowl)
{
    const sl_ask_mix *const mix = &sl_ask_mixes[bowl->mix];
    const bool said = writing->asked->given[SL_TOPIC_BOWLS] && bowl->ratio_said;
    begin(writing, "mixes/%s-%s.yaml", writing->asked->name, mix->word);
    put_head(writing, "mix", _(mix->arm));
    if (bowl->code[0] != '\0') {
        PUT("# %s: %s\n", _("the product's code"), bowl->code);
    }
    PUT("like: %s # %s\n", mix->file, _("its powder, pH and loss, until you know those of your product"));
    PUT("powder: %g%s\n", bowl->powder, mark(writing, said));
    PUT("%s: %g%s\n", mix->liquid, bowl->liquid, mark(writing, said));
    if (bowl->label_min > 0.0) {
        PUT("label_longest: %g min\n", bowl->label_min);
    } else {
        PUT("# %s\n", _("label_longest: the label's longest time; read it off the packet and write it here"));
    }
    if (bowl->allowed) {
        PUT("label_allows: yes\n");
    }
    if (bowl->old) {
        PUT("powder_holds: {activity: 70 %%}%s\n", mark(writing, false));
    }
}

static void write_dyes(sl_file_writing *writing)
{
#define UNIT(NAME, name, key, required, order, ...) (order) == 2 ? "L/(mol min)" : "L2/(mol2 min)",
    static const char *const units[SL_CHANNELS] = {SL_CHANNEL_LIST(UNIT)};
#undef UNIT
    const sl_solved *const solved = writing->solved;
    if (!solved->any_wide) {
        return;
    }
    begin(writing, "dyes/%s.yaml", writing->asked->name);
    put_head(writing, "dyes", _("The dyes of a test of our own"));
    PUT("like: %s\n\n", SET);
    PUT("# %s\n", _("The same rates as in that set. As assumed numbers they are drawn wider: nobody has yet "
                    "seen these"));
    PUT("# %s\n", _("colours leave in this order. What you see on your swatches is for \"slowlift log\", not "
                    "for here."));
    PUT("dyes:\n");
    for (int i = 0; i < writing->asked->n_colours; i++) {
        if (!solved->wide[i]) {
            continue;
        }
        const char *const name = sl_ask_colours[writing->asked->colour[i]];
        const sl_dye *dye = NULL;
        for (int k = 0; k < solved->scene->n_dyes; k++) {
            dye = strcmp(solved->scene->dyes[k].name, name) == 0 ? &solved->scene->dyes[k] : dye;
        }
        PUT("  %s:\n", name);
        for (int channel = 0; dye && channel < SL_CHANNELS; channel++) {
            PUT("    %s: {value: %.15g %s, grade: assumed", sl_channel_key(channel),
                dye->rates.k[channel].value, units[channel]);
            if (dye->rates.own_activation[channel]) {
                PUT(", activation: %.15g kJ/mol", dye->rates.activation_kj_mol[channel]);
            }
            PUT("}%s\n", mark(writing, false));
        }
    }
}

/* ---- the scene --------------------------------------------------------------------------------------- */

static void put_place(sl_file_writing *writing)
{
    const sl_new_test *const asked = writing->asked;
    PUT("lies: %s\n", asked->whose == 3 ? "head" : "bench");
    if (asked->whose == 2 || asked->person[0] != '\0') {
        PUT("person: %s # %s\n", asked->person[0] != '\0' ? asked->person : "no-code-yet",
            _("whose hair it is: a code, never a name"));
    }
    PUT("room: %g °C%s\n", asked->room_c, mark(writing, asked->given[SL_TOPIC_ROOM]));
}

static int n_arms(const sl_new_test *asked)
{
    int n = asked->n_bowls;
    for (int i = 0; i < SL_ASK_CONTROLS; i++) {
        n += asked->control[i];
    }
    return n;
}

/* Long enough for the last strip, and for what may be asked past the planned time. */
static double until_min(const sl_new_test *asked)
{
    const double lies = fmax(asked->time_min, asked->longest_min);
    return 5.0 * ceil((STAGGER_MIN * n_arms(asked) + lies + RINSE_MIN + WASH_MIN) / 5.0 + 1.0);
}

static void put_zones(sl_file_writing *writing)
{
    const sl_new_test *const asked = writing->asked;
    const sl_solved *const solved = writing->solved;
    char hair[SL_ASK_NAME + 16];
    if (asked->level == asked->natural_level) {
        snprintf(hair, sizeof hair, "natural-%g", asked->level);
    } else {
        snprintf(hair, sizeof hair, "%s", asked->name);
    }
    PUT("\nzones: # %s\n", _("root end first; how much dye each holds is solved from how strong it looks"));
    if (asked->root_level > 0) {
        PUT("  - {name: root");
        put_title_of(writing, N_("root"));
        PUT(", hair: natural-%d, dye: {brown: %.3g}}%s\n", asked->root_level, solved->root,
            mark(writing, false));
    }
    for (int i = 0; i < asked->n_colours; i++) {
        const char *const name = sl_ask_colours[asked->colour[i]];
        const bool given = asked->given[SL_TOPIC_STRENGTH];
        PUT("  - {name: %s", name);
        put_title_of(writing, name);
        PUT(", hair: %s, dye: {%s: %.4g}} # %s%s\n", hair, name, solved->amount[i],
            _(sl_strength_words[asked->strength[i]]), mark(writing, given));
    }
    PUT("  - {name: undyed");
    put_title_of(writing, N_("undyed"));
    PUT(", hair: %s}\n", hair);
}

static void put_goal(sl_file_writing *writing)
{
    const sl_new_test *const asked = writing->asked;
    bool alike = true;
    for (int i = 1; i < asked->n_colours; i++) {
        alike = alike && asked->left[i] == asked->left[0];
    }
    if (alike) {
        PUT("  colour_left: %g %%\n", 100.0 * asked->left[0]);
        return;
    }
    PUT("  zones:\n");
    for (int i = 0; i < asked->n_colours; i++) {
        const char *const name = sl_ask_colours[asked->colour[i]];
        if (asked->left[i] < 1.0) {
            PUT("    %s: %g %%\n", name, 100.0 * asked->left[i]);
        } else {
            PUT("    %s: ignore\n", name);
        }
    }
}

/* A goal that nobody set is not written: the usual one serves then, and is called usual wherever it is told.
 * So are the limits, unless a goal stands without them: then there would be none. */
static void put_aims(sl_file_writing *writing)
{
    const sl_new_test *const asked = writing->asked;
    const bool goal = asked->given[SL_TOPIC_LEFT], limits = asked->given[SL_TOPIC_LIMITS];
    PUT("\n");
    if (!goal) {
        PUT("# %s%s\n", _("nobody said how much colour may stay: half of it, as is usual"),
            mark(writing, false));
    }
    if (!goal && !limits) {
        PUT("# %s%s\n", _("nobody said when it is too much: 1 level, 10 % hair stress, 45 min, as is usual"),
            mark(writing, false));
        return;
    }
    PUT("aims:\n");
    if (goal) {
        put_goal(writing);
    }
    PUT("  base_moved: %g %s%s\n", asked->base_levels, asked->base_levels == 1.0 ? "level" : "levels",
        mark(writing, limits));
    PUT("  cystine_lost: %g %%%s\n", 100.0 * asked->stress, mark(writing, limits));
    PUT("  longest: %g min%s\n", asked->longest_min, mark(writing, limits));
}

/* Its name in English, as it is kept; its title in the language in use. */
static void put_arm(sl_file_writing *writing, int *place, const char *code, const char *name,
                    const char *title)
{
    const char *const space = code[0] != '\0' ? " " : "";
    PUT("  - name: \"%s%s%s\"\n", name, space, code);
    if (sl_language_in_use() != SL_ENGLISH) {
        PUT("    title: {%s: \"%s%s%s\"}\n", sl_language(), title, space, code);
    }
    PUT("    contact: %g min\n", STAGGER_MIN * (*place)++);
}

static void put_steps(sl_file_writing *writing, const char *mix)
{
    const sl_new_test *const asked = writing->asked;
    PUT("    steps:\n      - {apply: %s, dwell: %g min}%s\n", mix, asked->time_min,
        mark(writing, asked->given[SL_TOPIC_TIME]));
    PUT("      - rinse: %g min\n      - shampoo: 1\n", RINSE_MIN);
}

static void put_arms(sl_file_writing *writing)
{
    const sl_new_test *const asked = writing->asked;
    int place = 0, strongest = 0;
    char mix[SL_MADE_NAME];
    PUT("\narms:\n");
    if (asked->control[0]) {
        put_arm(writing, &place, "", "untreated", _("untreated"));
    }
    if (asked->control[1]) {
        put_arm(writing, &place, "", "washing only", _("washing only"));
        put_steps(writing, "plain-water");
    }
    for (int i = 0; i < asked->n_bowls; i++) {
        const sl_ask_mix *const of = &sl_ask_mixes[asked->bowl[i].mix];
        put_arm(writing, &place, asked->bowl[i].code, of->arm, _(of->arm));
        snprintf(mix, sizeof mix, "%s-%s", asked->name, of->word);
        put_steps(writing, mix);
        strongest = of->works > sl_ask_mixes[asked->bowl[strongest].mix].works ? i : strongest;
    }
    if (asked->control[2]) {
        put_arm(writing, &place, "", "undyed treated", _("undyed treated"));
        PUT("    undyed: yes\n");
        snprintf(mix, sizeof mix, "%s-%s", asked->name, sl_ask_mixes[asked->bowl[strongest].mix].word);
        put_steps(writing, mix);
    }
}

/* A person's hair is nobody's class. */
static void put_class(sl_file_writing *writing)
{
    const sl_new_test *const asked = writing->asked;
    const bool given = asked->given[SL_TOPIC_CLASS];
    if (asked->whose != 1) {
        return;
    }
    PUT("\nclass:\n  swatches: %d%s\n", asked->swatches, mark(writing, given));
    PUT("  hands: %d%s\n", asked->hands, mark(writing, given));
    if (asked->class_min > 0.0) {
        PUT("  minutes: %g min\n", asked->class_min);
    }
}

static void write_scene(sl_file_writing *writing)
{
    const sl_new_test *const asked = writing->asked;
    begin(writing, "%s", "");
    put_head(writing, "scene", sl_asked_title(asked));
    put_place(writing);
    PUT("until: %g min\n", until_min(asked));
    PUT("hair_mass: %g g%s\n", asked->hair_g, mark(writing, asked->given[SL_TOPIC_CLASS]));
    PUT("dyes: %s\n", writing->solved->any_wide ? asked->name : SET);
    put_zones(writing);
    PUT("\napplication:\n  mix_per_hair: 6 g/g%s\n", mark(writing, false));
    PUT("  mix_age: %g min%s\n  hair: dry\n  covered: yes\n", SL_ASK_MIXED_MIN, mark(writing, false));
    put_aims(writing);
    put_class(writing);
    put_arms(writing);
}

/* ---- reading them back --------------------------------------------------------------------------------- */

typedef struct sl_made_shelf {
    sl_made *made;
    const sl_resolver *models;
} sl_made_shelf;

static bool shelf_fetch(void *self, const char *kind, const char *name, char **text, size_t *length,
                        char *path, size_t path_size, sl_error *error)
{
    const sl_made_shelf *const shelf = self;
    char wanted[SL_MADE_NAME];
    snprintf(wanted, sizeof wanted, "%s/%.50s.yaml", strcmp(kind, "mix") == 0 ? "mixes" : kind, name);
    for (int i = 0; i < shelf->made->n; i++) {
        sl_made_file *const file = &shelf->made->file[i];
        if (strcmp(file->name, wanted) == 0) {
            *text = file->text;
            *length = strlen(file->text);
            snprintf(path, path_size, "%s", file->name);
            return true;
        }
    }
    return shelf->models->fetch(shelf->models->self, kind, name, text, length, path, path_size, error);
}

static void shelf_release(void *self, char *text)
{
    const sl_made_shelf *const shelf = self;
    for (int i = 0; i < shelf->made->n; i++) {
        if (text == shelf->made->file[i].text) {
            return;
        }
    }
    shelf->models->release(shelf->models->self, text);
}

/* All files by what is known so far, and the scene that they are. */
static sl_scene *write_all(sl_made *made, const sl_solved *solved, const sl_resolver *models, sl_error *error)
{
    sl_file_writing writing = {.made = made, .asked = &made->asked, .solved = solved};
    made->n = 0;
    made->n_assumed = 0;
    write_hair(&writing);
    for (int i = 0; i < made->asked.n_bowls; i++) {
        write_mix(&writing, &made->asked.bowl[i]);
    }
    write_dyes(&writing);
    write_scene(&writing);
    for (int i = 0; i < made->n; i++) {
        if (strlen(made->file[i].text) >= SL_MADE_BYTES - 1) {
            sl_fail(error, SL_ERR_TOO_LARGE, "the text of a file that is made", "16 KiB of text");
            return NULL;
        }
    }
    sl_made_shelf shelf = {made, models};
    const sl_resolver resolver = {.self = &shelf, .fetch = shelf_fetch, .release = shelf_release};
    const char *const text = made->file[made->n - 1].text;
    return sl_scene_parse(text, strlen(text), made->asked.file, &resolver, error);
}

/* ---- what the first writing finds out ----------------------------------------------------------------- */

static const sl_dye *dye_of(const sl_scene *scene, int colour)
{
    const int zone = sl_scene_zone(scene, sl_ask_colours[colour]);
    return zone < 0 ? NULL : &scene->dyes[scene->zones[zone].recipe.dye[0]];
}

/* Whether each channel of the set takes the first at least as fast as the last, and one faster. */
static bool order_agrees(const sl_new_test *asked, const sl_scene *scene)
{
    const sl_dye *const first = asked->first >= 0 ? dye_of(scene, asked->first) : NULL;
    const sl_dye *const last = asked->last >= 0 ? dye_of(scene, asked->last) : NULL;
    bool faster = false;
    for (int channel = 0; first && last && channel < SL_CHANNELS; channel++) {
        const double one = first->rates.k[channel].value, other = last->rates.k[channel].value;
        if (one < other) {
            return false;
        }
        faster = faster || one > other;
    }
    return faster;
}

static bool solve(const sl_new_test *asked, const sl_scene *scene, sl_solved *solved, sl_error *error)
{
    const bool agrees = order_agrees(asked, scene);
    sl_optics *const optics = sl_optics_new(scene, error);
    if (!optics) {
        return false;
    }
    solved->scene = scene;
    for (int i = 0; i < asked->n_colours; i++) {
        const int colour = asked->colour[i];
        const bool named = colour == asked->first || colour == asked->last;
        solved->wide[i] = !agrees && (asked->first < 0 || named);
        solved->any_wide = solved->any_wide || solved->wide[i];
        solved->amount[i] = sl_strength_amount(scene, optics, sl_scene_zone(scene, sl_ask_colours[colour]),
                                               sl_strength_shares[asked->strength[i]]);
    }
    solved->root = asked->root_level > 0 ? sl_strength_amount(scene, optics, 0, ROOT_SHARE) : solved->root;
    sl_optics_free(optics);
    return true;
}

/* ---- what a class can do ------------------------------------------------------------------------------- */

static bool plan_class(sl_made *made, sl_error *error)
{
    const sl_new_test *const asked = &made->asked;
    const sl_plan_request request = sl_plan_request_of(made->scene);
    made->fit = (sl_plan_fit){.swatches = 0};
    if (asked->whose != 1 || sl_scene_on_head(made->scene)) {
        return true;
    }
    return sl_plan_fit_find(&made->fit, made->scene, &request, (int)lround(60.0 * asked->class_min), error);
}

bool sl_ask_hair_cannot_be(const sl_error *error)
{
    return error->code == SL_ERR_OUT_OF_RANGE || error->code == SL_ERR_INCONSISTENT;
}

bool sl_ask_make(sl_made *made, const sl_resolver *models, sl_error *error)
{
    sl_solved solved = {.root = 1.0};
    for (int i = 0; i < SL_ASK_COLOURS; i++) {
        solved.amount[i] = 1.0;
    }
    made->scene = NULL;
    sl_scene *const first = write_all(made, &solved, models, error);
    if (first && solve(&made->asked, first, &solved, error)) {
        made->scene = write_all(made, &solved, models, error);
    }
    sl_scene_free(first);
    return made->scene && plan_class(made, error);
}

void sl_made_free(sl_made *made)
{
    sl_scene_free(made->scene);
    made->scene = NULL;
}
