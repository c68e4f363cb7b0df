/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The pages of a lesson with their questions, cases and run, in the order in which a class goes
 * through them.
 */
#include <stdio.h>
#include <string.h>

#include "lesson/lesson_reading.h"
#include "slowlift/leave.h"

/* Ends the list of pages with one more; question NULL: a page without. */
static void add_page(sl_lesson *lesson, sl_page_kind kind, bool question)
{
    lesson->page[lesson->n_pages++] = (sl_page){kind, question ? lesson->n_questions - 1 : -1};
}

static bool question_page(sl_lesson_reading *in, const sl_node *node, sl_page_kind kind, const char *key,
                          bool proved)
{
    sl_lesson *const lesson = in->lesson;
    if (!sl_question_read(&in->figures, node, key, proved, &lesson->question[lesson->n_questions])) {
        return false;
    }
    lesson->n_questions++;
    add_page(lesson, kind, true);
    return true;
}

static bool one_question(sl_lesson_reading *in, const sl_node *root, const char *key, sl_page_kind kind,
                         const char *answer_key, bool proved)
{
    const sl_node *const node = sl_needed_child(in->reading, root, key, "a question with its answers");
    return node && question_page(in, node, kind, answer_key, proved);
}

static bool question_list(sl_lesson_reading *in, const sl_node *root, const char *list_key, int least,
                          int most, sl_page_kind kind)
{
    const sl_node *const list = sl_list_child(in->reading, root, list_key, least, most);
    int i = 1;
    for (const sl_node *node = list ? list->first : NULL; node; node = node->next, i++) {
        char key[16];
        snprintf(key, sizeof key, "%s-%d", list_key, i);
        if (!question_page(in, node, kind, key, false)) {
            return false;
        }
    }
    return list != NULL;
}

static bool arms_read(const sl_lesson_reading *in, const sl_node *mapping, int scene, int *n, int *arm)
{
    const sl_node *const list = sl_node_child(mapping, "arms");
    const int all = in->lesson->scene[scene].scene->n_arms;
    *n = 0;
    for (int i = 0; !list && i < all; i++) {
        arm[(*n)++] = i;
    }
    if (list && !sl_list_child(in->reading, mapping, "arms", 1, all)) {
        return false;
    }
    for (const sl_node *node = list ? list->first : NULL; node; node = node->next) {
        if (!sl_arm_named(&in->figures, scene, node, &arm[*n])) {
            return false;
        }
        (*n)++;
    }
    return true;
}

/* Strips stand at minutes; of hair that counts as a head none is told. */
static bool swatches_check(const sl_lesson_reading *in, const sl_node *node, int scene)
{
    return !sl_scene_on_head(in->lesson->scene[scene].scene) ||
           sl_node_refuse_text(
               node, SL_ERR_NOT_ALLOWED,
               "strips by the minute belong to cut swatches below 30 °C: this scene counts as "
               "hair on a head",
               in->reading->error);
}

static bool scene_and_zone(const sl_lesson_reading *in, const sl_node *mapping, int *scene, int *zone)
{
    const sl_node *const scene_node =
        sl_needed_child(in->reading, mapping, "scene", "the lesson's word for it");
    const sl_node *const zone_node =
        scene_node ? sl_needed_child(in->reading, mapping, "zone", "the zone to look at") : NULL;
    return zone_node && sl_scene_named(&in->figures, scene_node, scene) &&
           swatches_check(in, scene_node, *scene) && sl_zone_named(&in->figures, *scene, zone_node, zone);
}

static bool cases_read(sl_lesson_reading *in, const sl_node *root)
{
    static const char *const keys[] = {"text", "scene", "zone", "at", "arms", "ask", "answers"};
    static const sl_words known = {keys, sizeof keys / sizeof keys[0]};
    sl_cases *const cases = &in->lesson->cases;
    const sl_reading *const reading = in->reading;
    const sl_node *const node = sl_needed_child(reading, root, "cases", "strips that differ in one thing");
    if (!node || !sl_node_keys_known(node, &known, reading->error)) {
        return false;
    }
    const sl_node *const at = sl_needed_child(reading, node, "at", "the name of a moment");
    const sl_node *const ask =
        at ? sl_needed_child(reading, node, "ask", "{ask: ..., answers: [...]}") : NULL;
    return ask && sl_lesson_passage(in, node, "text", &cases->text) &&
           scene_and_zone(in, node, &cases->scene, &cases->zone) &&
           sl_number_named(&in->figures, at, SL_AS_MINUTES, &cases->at) &&
           arms_read(in, node, cases->scene, &cases->n_arms, cases->arm) &&
           question_page(in, ask, SL_PAGE_CASES, "cases", false);
}

static bool stops_read(sl_lesson_reading *in, const sl_node *node)
{
    sl_lesson_run *const run = &in->lesson->run;
    const sl_node *const list = sl_list_child(in->reading, node, "stops", 1, SL_MOST_STOPS);
    double before = -1.0;
    for (const sl_node *stop = list ? list->first : NULL; stop; stop = stop->next) {
        int *const index = &run->stop[run->n_stops];
        if (!sl_number_named(&in->figures, stop, SL_AS_MINUTES, index)) {
            return false;
        }
        const double minute = in->figures.number[*index].value;
        if (minute <= before || minute > in->lesson->scene[run->scene].scene->until_min) {
            return sl_node_refuse_text(stop, SL_ERR_INCONSISTENT,
                                       "stops rise and lie inside the scene's clock", in->reading->error);
        }
        before = minute;
        run->n_stops++;
    }
    return list != NULL;
}

/* Whether the other scene can stand strip by strip beside the run's. */
static bool same_strips(const sl_lesson_reading *in, int one, int two)
{
    const sl_scene *const a = in->lesson->scene[one].scene;
    const sl_scene *const b = in->lesson->scene[two].scene;
    bool same = one != two && a->n_arms == b->n_arms && a->n_zones == b->n_zones;
    for (int arm = 0; same && arm < a->n_arms; arm++) {
        same = strcmp(a->arms[arm].name, b->arms[arm].name) == 0;
    }
    for (int zone = 0; same && zone < a->n_zones; zone++) {
        same = strcmp(a->zones[zone].name, b->zones[zone].name) == 0;
    }
    return same;
}

static bool beside_read(sl_lesson_reading *in, const sl_node *mapping)
{
    sl_lesson_run *const run = &in->lesson->run;
    const sl_node *const node = sl_node_child(mapping, "beside");
    run->beside = -1;
    if (!node) {
        return true;
    }
    if (!sl_scene_named(&in->figures, node, &run->beside) || !swatches_check(in, node, run->beside)) {
        return false;
    }
    if (!same_strips(in, run->scene, run->beside) || 2 * run->n_arms > SL_MAX_ARMS) {
        return sl_node_refuse_text(node, SL_ERR_INCONSISTENT,
                                   "another scene with the same strips and zones belongs here",
                                   in->reading->error);
    }
    return true;
}

/* A quantity by the words that numbers have, too. */
static bool quantity_read(const sl_lesson_reading *in, const sl_node *mapping, sl_quantity *quantity)
{
    static const char *const quantities[] = {"colour left", "base moved", "hair stress"}; /* as sl_quantity */
    static const sl_words known = {quantities, 3};
    const sl_node *const node = sl_node_child(mapping, "read");
    int index = SL_COLOUR_LEFT;
    if (node && !sl_word_read(node, &known, &index, in->reading->error)) {
        return false;
    }
    *quantity = (sl_quantity)index;
    return true;
}

static bool run_read(sl_lesson_reading *in, const sl_node *root)
{
    static const char *const keys[] = {"scene", "zone", "read", "arms", "beside", "stops"};
    static const sl_words known = {keys, sizeof keys / sizeof keys[0]};
    sl_lesson_run *const run = &in->lesson->run;
    const sl_node *const node =
        sl_needed_child(in->reading, root, "run", "{scene: ..., zone: ..., stops: [...]}");
    if (!node || !sl_node_keys_known(node, &known, in->reading->error) ||
        !scene_and_zone(in, node, &run->scene, &run->zone) || !quantity_read(in, node, &run->read) ||
        !arms_read(in, node, run->scene, &run->n_arms, run->arm) || !beside_read(in, node) ||
        !stops_read(in, node)) {
        return false;
    }
    add_page(in->lesson, SL_PAGE_RUN, false);
    return true;
}

/* In the order in which a class goes through them. */
bool sl_lesson_pages_read(sl_lesson_reading *in, const sl_node *root)
{
    sl_lesson *const lesson = in->lesson;
    add_page(lesson, SL_PAGE_OBJECTIVE, false);
    if (!question_list(in, root, "recall", SL_LESSON_RECALLS, SL_LESSON_RECALLS, SL_PAGE_RECALL) ||
        !cases_read(in, root) ||
        !one_question(in, root, "prediction", SL_PAGE_PREDICTION, "prediction", true) ||
        !one_question(in, root, "reasons", SL_PAGE_REASON, "reason", false) || !run_read(in, root) ||
        !one_question(in, root, "saw", SL_PAGE_SAW, "saw", true)) {
        return false;
    }
    add_page(lesson, SL_PAGE_EXPLAIN, false);
    if (!one_question(in, root, "transfer", SL_PAGE_TRANSFER, "transfer", false)) {
        return false;
    }
    add_page(lesson, SL_PAGE_SWATCH, false);
    if (!question_list(in, root, "exit", 2, SL_MOST_EXITS, SL_PAGE_EXIT)) {
        return false;
    }
    add_page(lesson, SL_PAGE_END, false);
    return true;
}
