/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Files of kind intake: a short form about a person, without a name. Invariant: what is not
 * written stays unanswered; nothing is taken for a no.
 */
#include <assert.h>

#include "base/language.h"
#include "scene/file.h"
#include "scene/records.h"

/* The replies come last, in the order of SL_INTAKE_LIST. */
static const char *const keys[] = {"kind",         "version", "title",   "origin", "age",      "label",
                                   "lightened",    "showed",  "reacted", "scalp",  "metallic", "henna",
                                   "unknown_past", "liquids", "heat",    "strand"};
enum { BEFORE_REPLIES = 8 };
static_assert(sizeof keys / sizeof keys[0] == BEFORE_REPLIES + SL_INTAKE_REPLIES, "a key for every question");
static const sl_words known = {keys, sizeof keys / sizeof keys[0]};

static const sl_range label_time = {SL_MEASURE_TIME, 1.0, 240.0}, seen_at = {SL_MEASURE_TIME, 0.0, 240.0};

static bool reply_read(const sl_node *root, const char *key, sl_reply *reply, sl_error *error)
{
    static const char *const answers[] = {"no", "yes", "unsure"};
    static const sl_reply replies[] = {SL_REPLY_NO, SL_REPLY_YES, SL_REPLY_UNSURE};
    static const sl_words words = {answers, 3};
    const sl_node *const node = sl_node_child(root, key);
    int index = 0;
    if (node && !sl_word_read(node, &words, &index, error)) {
        return false;
    }
    *reply = node ? replies[index] : SL_REPLY_NONE;
    return true;
}

/* ---- what a strand showed -------------------------------------------------------------- */

static bool wipe_read(const sl_node *node, sl_wipe *wipe, sl_error *error)
{
    const char *names[SL_WIPES];
    const sl_words words = {names, SL_WIPES};
    for (int i = 0; i < SL_WIPES; i++) {
        names[i] = sl_wipe_word((sl_wipe)i);
    }
    int index = 0;
    if (!sl_word_read(node, &words, &index, error)) {
        return false;
    }
    *wipe = (sl_wipe)index;
    return true;
}

/* scene NULL: only that a text stands there. */
static bool arm_read(const sl_node *node, const sl_scene *scene, int *arm, sl_error *error)
{
    const char *names[SL_MAX_ARMS];
    const sl_words words = {names, scene ? scene->n_arms : 0};
    for (int i = 0; i < words.n; i++) {
        names[i] = scene->arms[i].name;
    }
    return scene ? sl_word_read(node, &words, arm, error)
                 : sl_node_is(node, SL_NODE_TEXT, "the name of an arm belongs here", error);
}

static bool zone_read(const sl_node *node, const sl_scene *scene, int *zone, sl_error *error)
{
    const char *names[SL_MAX_ZONES];
    const sl_words words = {names, scene ? scene->n_zones : 0};
    for (int i = 0; i < words.n; i++) {
        names[i] = scene->zones[i].name;
    }
    return scene ? sl_word_read(node, &words, zone, error)
                 : sl_node_is(node, SL_NODE_TEXT, "the name of a zone belongs here", error);
}

static bool saw_read(const sl_node *node, const sl_scene *scene, sl_saw *saw, sl_error *error)
{
    static const char *const of_saw[] = {"arm", "at", "grade", "zone"};
    static const sl_words words = {of_saw, 4};
    static const char form[] = "write {arm: NAME, at: 10 min, grade: about half, zone: NAME}";
    *saw = (sl_saw){.zone = SL_SAW_ALL_ZONES, .strand = true};
    if (!sl_node_is(node, SL_NODE_MAPPING, form, error) || !sl_node_keys_known(node, &words, error)) {
        return false;
    }
    for (int i = 0; i < 3; i++) {
        if (!sl_node_child(node, of_saw[i])) {
            return sl_node_refuse_missing(node, of_saw[i], form, error);
        }
    }
    const sl_node *const zone = sl_node_child(node, "zone");
    return arm_read(sl_node_child(node, "arm"), scene, &saw->arm, error) &&
           sl_quantity_read(sl_node_child(node, "at"), &seen_at, &saw->minute, error) &&
           wipe_read(sl_node_child(node, "grade"), &saw->wipe, error) &&
           (!zone || zone_read(zone, scene, &saw->zone, error));
}

static bool showed_read(const sl_node *list, const sl_scene *scene, sl_saws *saws, sl_error *error)
{
    if (!sl_node_is(list, SL_NODE_LIST, "a list of what the strand showed belongs here", error)) {
        return false;
    }
    if (list->n > SL_MOST_SAWS) {
        return sl_node_refuse_key(list, SL_ERR_TOO_LARGE, "too many looks at the strand", "32", error);
    }
    for (const sl_node *node = list->first; node; node = node->next) {
        if (!saw_read(node, scene, &saws->saw[saws->n++], error)) {
            return false;
        }
    }
    return true;
}

/* ---- the form ---------------------------------------------------------------------------- */

bool sl_intake_read(const sl_reading *reading, const sl_node *root, const sl_scene *scene, sl_intake *intake)
{
    sl_header header = {0};
    *intake = (sl_intake){0};
    if (!sl_header_expect(reading, root, SL_KIND_INTAKE, &header) ||
        !sl_node_keys_known(root, &known, reading->error)) {
        return false;
    }
    const sl_node *const age = sl_node_child(root, "age");
    const sl_node *const label = sl_node_child(root, "label");
    const sl_node *const showed = sl_node_child(root, "showed");
    if ((age && !sl_whole_read(age, 1, 120, &intake->age_years, reading->error)) ||
        (label && !sl_quantity_read(label, &label_time, &intake->label_min, reading->error)) ||
        (showed && !showed_read(showed, scene, &intake->showed, reading->error)) ||
        !reply_read(root, "lightened", &intake->lightened, reading->error)) {
        return false;
    }
    for (int q = 0; q < SL_INTAKE_REPLIES; q++) {
        if (!reply_read(root, keys[BEFORE_REPLIES + q], &intake->reply[q], reading->error)) {
            return false;
        }
    }
    return true;
}

bool sl_intake_load(const char *path, const sl_scene *scene, sl_intake *intake, sl_error *error)
{
    sl_error unheard = {.code = SL_OK};
    sl_arena kept = {0};
    const sl_reading reading = {.kept = &kept, .resolver = NULL, .error = error ? error : &unheard};
    sl_document document = {0};
    sl_intake read = {0};
    char *text = NULL;
    size_t length = 0;
    sl_error_clear(reading.error);
    bool good = sl_file_read(path, N_("the form that is read"), &text, &length, NULL, reading.error) &&
                sl_document_parse(&document, text, length, path, reading.error);
    if (good) {
        good = sl_intake_read(&reading, document.root, scene, &read);
        sl_document_free(&document);
    }
    sl_free(text);
    sl_arena_free(&kept);
    if (good) {
        *intake = read;
    }
    return good;
}
