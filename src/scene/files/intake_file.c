/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Files of kind intake: a short form about a person, without a name. Invariant: what is not
 * written stays unanswered; nothing is taken for a no.
 */
#include <string.h>

#include "base/calendar.h"
#include "base/code.h"
#include "base/language.h"
#include "scene/records.h"
#include "scene/yaml/file.h"

/* The questions' keys come last, in the order of intake.h. */
#define AS_KEY(name, pass, caution, words, first, key) key,
static const char *const keys[] = {"kind",     "version",
                                   "title",    "origin",
                                   "practice", SL_INTAKE_REPLY_LIST(AS_KEY) SL_INTAKE_MORE_LIST(AS_KEY)};
#undef AS_KEY
static const sl_words known = {keys, sizeof keys / sizeof keys[0]};

static const sl_range label_time = {SL_MEASURE_TIME, SL_LABEL_LEAST_MIN, SL_LABEL_MOST_MIN},
                      seen_at = {SL_MEASURE_TIME, 0.0, SL_LABEL_MOST_MIN};

static bool reply_read(const sl_node *node, sl_reply *reply, sl_error *error)
{
    static const char *const answers[] = {"no", "yes", "unsure"};
    static const sl_reply replies[] = {SL_REPLY_NO, SL_REPLY_YES, SL_REPLY_UNSURE};
    static const sl_words words = {answers, 3};
    int index = 0;
    if (!sl_word_read(node, &words, &index, error)) {
        return false;
    }
    *reply = replies[index];
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
                 : sl_node_is(node, SL_NODE_TEXT, "the name of a strip belongs here", error);
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

static bool saw_read(const sl_node *node, const sl_scene *scene, sl_observation *observation, sl_error *error)
{
    static const char *const of_saw[] = {"arm", "at", "grade", "zone"};
    static const sl_words words = {of_saw, 4};
    static const char form[] = "write {arm: NAME, at: 10 min, grade: about half, zone: NAME}";
    *observation = (sl_observation){.zone = SL_OBSERVED_ALL_ZONES, .strand = true};
    if (!sl_node_is(node, SL_NODE_MAPPING, form, error) || !sl_node_keys_known(node, &words, error)) {
        return false;
    }
    for (int i = 0; i < 3; i++) {
        if (!sl_node_child(node, of_saw[i])) {
            return sl_node_refuse_missing(node, of_saw[i], form, error);
        }
    }
    const sl_node *const zone = sl_node_child(node, "zone");
    return arm_read(sl_node_child(node, "arm"), scene, &observation->arm, error) &&
           sl_quantity_read(sl_node_child(node, "at"), &seen_at, &observation->minute, error) &&
           wipe_read(sl_node_child(node, "grade"), &observation->wipe, error) &&
           (!zone || zone_read(zone, scene, &observation->zone, error));
}

static bool showed_read(const sl_node *list, const sl_scene *scene, sl_observations *observations,
                        sl_error *error)
{
    if (!sl_node_is(list, SL_NODE_LIST, "a list of what the strand showed belongs here", error)) {
        return false;
    }
    if (list->n > SL_MOST_OBSERVATIONS) {
        return sl_node_refuse_key(list, SL_ERR_TOO_LARGE, "too many looks at the strand", "32", error);
    }
    for (const sl_node *node = list->first; node; node = node->next) {
        if (!saw_read(node, scene, &observations->observation[observations->n++], error)) {
            return false;
        }
    }
    return true;
}

/* ---- the form ---------------------------------------------------------------------------- */

static bool code_read(const sl_node *node, const char *what, char code[SL_CODE], sl_error *error)
{
    if (!sl_node_is(node, SL_NODE_TEXT, "a code belongs here, never a name", error)) {
        return false;
    }
    sl_error found = {.code = SL_OK};
    if (!sl_code_check(what, node->text, &found)) {
        return sl_node_refuse(node, found.code, found.found, found.wanted, error);
    }
    memcpy(code, node->text, strlen(node->text) + 1); /* shorter than SL_CODE, or it were no code */
    return true;
}

static bool part_read(const sl_node *node, sl_hair_part *part, sl_error *error)
{
    const sl_words words = {sl_hair_part_words(), SL_HAIR_PARTS - 1};
    int index = 0;
    if (!sl_word_read(node, &words, &index, error)) {
        return false;
    }
    *part = (sl_hair_part)(index + 1);
    return true;
}

static bool day_read(const sl_node *node, int *day, sl_error *error)
{
    const char *const wanted = N_("write the day, such as 2026-11-25");
    return sl_node_is(node, SL_NODE_TEXT, wanted, error) &&
           (sl_day_read(node->text, day) || sl_node_refuse_text(node, SL_ERR_WRONG_TYPE, wanted, error));
}

/* The answer under this question's key, by the kind of the question. */
static bool answer_read(const sl_node *node, int asked, const sl_scene *scene, sl_intake *intake,
                        sl_error *error)
{
    switch (sl_intake_ask_of(asked)) {
    case SL_ASK_REPLY:
        return reply_read(node, &intake->reply[asked], error);
    case SL_ASK_EITHER:
        return reply_read(node, &intake->lightened, error);
    case SL_ASK_YEARS:
        return sl_whole_read(node, 1, 120, &intake->age_years, error);
    case SL_ASK_MINUTES:
        return sl_quantity_read(node, &label_time, &intake->label_min, error);
    case SL_ASK_CODE:
        return asked == SL_INTAKE_PERSON
                   ? code_read(node, N_("this person's code"), intake->person, error)
                   : code_read(node, N_("the code of who is qualified"), intake->qualified, error);
    case SL_ASK_PART:
        return part_read(node, &intake->part, error);
    case SL_ASK_DAY:
        return day_read(node, &intake->packet_day, error);
    case SL_ASK_SHOWED:
        break;
    }
    return showed_read(node, scene, &intake->showed, error);
}

bool sl_intake_read(const sl_reading *reading, const sl_node *root, const sl_scene *scene, sl_intake *intake)
{
    sl_header header = {0};
    *intake = (sl_intake){0};
    if (!sl_header_expect(reading, root, SL_KIND_INTAKE, &header) ||
        !sl_node_keys_known(root, &known, reading->error)) {
        return false;
    }
    const sl_node *const practice = sl_node_child(root, "practice");
    if (practice && !sl_yes_read(practice, &intake->practice, reading->error)) {
        return false;
    }
    for (int asked = 0; asked < SL_INTAKE_ASKED; asked++) {
        const sl_node *const node = sl_node_child(root, sl_intake_key(asked));
        if (node && !answer_read(node, asked, scene, intake, reading->error)) {
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
    sl_yaml document = {0};
    sl_intake read = {0};
    char *text = NULL;
    size_t length = 0;
    sl_error_clear(reading.error);
    bool good = sl_file_read(path, N_("the form that is read"), &text, &length, NULL, reading.error) &&
                sl_yaml_parse(&document, text, length, path, reading.error);
    if (good) {
        good = sl_intake_read(&reading, document.root, scene, &read);
        sl_yaml_free(&document);
    }
    sl_free(text);
    sl_arena_free(&kept);
    if (good) {
        *intake = read;
    }
    return good;
}
