/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Numbers that come out of a lesson's scenes: which is asked, what it needs, and its value.
 */
#include <assert.h>
#include <string.h>

#include "lesson/asked.h"
#include "slowlift/leave.h"

bool sl_asked_refuse(const sl_asked *asked, const char *found, const char *wanted)
{
    return sl_node_refuse(asked->node, SL_ERR_INCONSISTENT, found, wanted, asked->reading->error);
}

double sl_asked_member(const sl_asked *asked, const void *record)
{
    double value = 0.0;
    memcpy(&value, (const char *)record + asked->what->member, sizeof value);
    return value;
}

const sl_step *sl_asked_application(const sl_asked *asked)
{
    return sl_arm_application(&asked->scene->arms[asked->arm]);
}

static const sl_what *const tables[] = {sl_whats_of_course, sl_whats_of_arm, sl_whats_of_verdict};
enum { TABLES = sizeof tables / sizeof tables[0], MOST_WHATS = 64 };

static bool what_read(const sl_figures *figures, const sl_node *node, const sl_what **what)
{
    const char *words[MOST_WHATS];
    const sl_what *whats[MOST_WHATS];
    int n = 0, index = 0;
    for (int t = 0; t < TABLES; t++) {
        for (const sl_what *one = tables[t]; one->word; one++) {
            assert(n < MOST_WHATS);
            words[n] = one->word;
            whats[n++] = one;
        }
    }
    const sl_words known = {words, n};
    const sl_node *const word = sl_needed_child(figures->reading, node, "what",
                                                "or `given`, `divide`, `multiply`, `add`, `subtract`");
    if (!word || !sl_word_read(word, &known, &index, figures->reading->error)) {
        return false;
    }
    *what = whats[index];
    return true;
}

/* A key that this `what` needs, or may not have. */
static bool keys_fit(const sl_figures *figures, const sl_node *node, const sl_what *what)
{
    static const struct {
        const char *key;
        unsigned needs;
    } keys[] = {{"arm", SL_NEEDS_ARM},
                {"zone", SL_NEEDS_ZONE},
                {"at", SL_NEEDS_AT},
                {"share", SL_NEEDS_SHARE},
                {"other", SL_NEEDS_OTHER},
                {"energy", SL_NEEDS_ENERGY},
                {"from", SL_NEEDS_ENERGY},
                {"to", SL_NEEDS_ENERGY},
                {"difference", SL_NEEDS_SAMPLE},
                {"swatches", SL_NEEDS_SAMPLE | SL_NEEDS_SWATCHES}};
    enum { KEYS = sizeof keys / sizeof keys[0] };
    const char *known[KEYS + 3] = {"name", "what"};
    int n = 2;
    if ((what->needs & (SL_NEEDS_ENERGY | SL_NEEDS_SAMPLE | SL_NEEDS_SWATCHES)) == 0) {
        known[n++] = "scene";
    }
    for (int i = 0; i < KEYS; i++) {
        if ((keys[i].needs & what->needs) != 0) {
            known[n++] = keys[i].key;
        }
    }
    const sl_words words = {known, n};
    if (!sl_node_keys_known(node, &words, figures->reading->error)) {
        return false;
    }
    for (int i = 2; i < n; i++) {
        if (!sl_needed_child(figures->reading, node, known[i], "this number needs it")) {
            return false;
        }
    }
    return true;
}

static bool value_of(sl_figures *figures, const sl_node *node, const char *key, sl_measured measured,
                     double *value)
{
    const sl_node *const name = sl_node_child(node, key);
    int index = 0;
    if (!name) {
        return true;
    }
    if (!sl_number_named(figures, name, measured, &index)) {
        return false;
    }
    *value = figures->number[index].value;
    return true;
}

static bool places_read(sl_figures *figures, const sl_node *node, sl_asked *asked)
{
    const sl_node *const scene = sl_node_child(node, "scene");
    const sl_node *const arm = sl_node_child(node, "arm");
    const sl_node *const other = sl_node_child(node, "other");
    const sl_node *const zone = sl_node_child(node, "zone");
    int index = 0;
    if (!scene) {
        return true;
    }
    if (!sl_scene_named(figures, scene, &index)) {
        return false;
    }
    asked->scene = figures->scene[index].scene;
    asked->timeline = figures->scene[index].timeline;
    asked->spread = &figures->scene[index].spread;
    return (!arm || sl_arm_named(figures, index, arm, &asked->arm)) &&
           (!other || sl_arm_named(figures, index, other, &asked->other)) &&
           (!zone || sl_zone_named(figures, index, zone, &asked->zone));
}

/* An arm that is read needs a mix, and one inside the model. */
static bool arm_fits(const sl_asked *asked)
{
    const sl_what *const what = asked->what;
    if ((what->needs & SL_NEEDS_ARM) == 0) {
        return true;
    }
    if ((what->needs & SL_NEEDS_ZONE) == 0 && !sl_asked_application(asked)) {
        return sl_asked_refuse(asked, "a strip without a mix", "this is asked of a strip with a mix");
    }
    return what->exact || sl_timeline_predicted(asked->timeline, asked->arm) ||
           sl_asked_refuse(asked, "a strip that is outside the model", "nothing is computed for it");
}

bool sl_number_compute(sl_figures *figures, const sl_node *node, sl_number *number)
{
    const sl_what *what = NULL;
    if (!what_read(figures, node, &what) || !keys_fit(figures, node, what)) {
        return false;
    }
    sl_asked asked = {.what = what, .reading = figures->reading, .node = sl_node_child(node, "what")};
    if (!places_read(figures, node, &asked) || !value_of(figures, node, "at", SL_AS_MINUTES, &asked.at) ||
        !value_of(figures, node, "share", SL_AS_SHARE, &asked.share) ||
        !value_of(figures, node, "energy", SL_AS_ENERGY, &asked.energy) ||
        !value_of(figures, node, "from", SL_AS_CELSIUS, &asked.from) ||
        !value_of(figures, node, "to", SL_AS_CELSIUS, &asked.to) ||
        !value_of(figures, node, "difference", SL_AS_COUNT, &asked.difference) ||
        !value_of(figures, node, "swatches", SL_AS_COUNT, &asked.swatches) || !arm_fits(&asked) ||
        !what->compute(&asked, &number->value)) {
        return false;
    }
    number->measured = what->measured;
    number->given = what->exact;
    number->of_head =
        asked.scene && sl_scene_on_head(asked.scene) && !what->exact && what->measured != SL_AS_TIMES;
    return true;
}

/* ---- scenes, arms, zones by name ------------------------------------------------------------------ */

bool sl_scene_named(const sl_figures *figures, const sl_node *node, int *index)
{
    const char *names[SL_MOST_LESSON_SCENES];
    for (int i = 0; i < figures->n_scenes; i++) {
        names[i] = figures->scene[i].name;
    }
    const sl_words words = {names, figures->n_scenes};
    return sl_word_read(node, &words, index, figures->reading->error);
}

bool sl_arm_named(const sl_figures *figures, int scene, const sl_node *node, int *index)
{
    const char *names[SL_MAX_ARMS];
    const sl_scene *const in = figures->scene[scene].scene;
    for (int i = 0; i < in->n_arms; i++) {
        names[i] = in->arms[i].name;
    }
    const sl_words words = {names, in->n_arms};
    return sl_word_read(node, &words, index, figures->reading->error);
}

bool sl_zone_named(const sl_figures *figures, int scene, const sl_node *node, int *index)
{
    const char *names[SL_MAX_ZONES];
    const sl_scene *const in = figures->scene[scene].scene;
    for (int i = 0; i < in->n_zones; i++) {
        names[i] = in->zones[i].name;
    }
    const sl_words words = {names, in->n_zones};
    return sl_word_read(node, &words, index, figures->reading->error);
}
