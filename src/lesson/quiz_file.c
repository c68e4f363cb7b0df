/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Files of kind quiz: items of two tiers, an answer and its reason. The numbers of an item are
 * its author's own (given), for it asks about a case that nobody runs.
 */
#include <stdio.h>
#include <string.h>

#include "lesson/paths.h"
#include "lesson/reading.h"

static bool item_read(sl_figures *figures, const sl_node *node, sl_quiz *quiz)
{
    static const char *const keys[] = {"name", "ask", "answers", "reasons"};
    static const sl_words known = {keys, 4};
    const sl_reading *const reading = figures->reading;
    sl_quiz_item *const item = &quiz->item[quiz->n_items];
    if (!sl_node_keys_known(node, &known, reading->error)) {
        return false;
    }
    const sl_node *const name = sl_needed_child(reading, node, "name", "a short name, such as half-life");
    const sl_node *const reasons =
        name ? sl_needed_child(reading, node, "reasons", "{ask: ..., answers: [...]}") : NULL;
    if (!reasons || !sl_name_read(reading, name, &item->name)) {
        return false;
    }
    char key[SL_MAX_NAME + 8];
    snprintf(key, sizeof key, "%s-reason", item->name);
    quiz->n_items++;
    /* the item itself is the first tier: its name and reasons are not keys of a question */
    return sl_tier_read(figures, node, item->name, false, &item->answer) &&
           sl_question_read(figures, reasons, key, false, &item->reason);
}

static bool items_read(sl_figures *figures, const sl_node *root, sl_quiz *quiz)
{
    const sl_node *const list = sl_list_child(figures->reading, root, "items", SL_QUIZ_ITEMS, SL_QUIZ_ITEMS);
    for (const sl_node *node = list ? list->first : NULL; node; node = node->next) {
        if (!item_read(figures, node, quiz)) {
            return false;
        }
    }
    return list != NULL;
}

static bool root_read(const sl_reading *reading, const sl_node *root, const char *path, sl_quiz *quiz)
{
    static const char *const keys[] = {"kind",    "version", "title",   "origin", "language",
                                       "edition", "note",    "numbers", "items"};
    static const sl_words known = {keys, sizeof keys / sizeof keys[0]};
    sl_taught_header header;
    sl_figures figures = {.reading = reading, .number = quiz->numbers};
    if (!sl_taught_header_read(reading, root, "quiz", &header) ||
        !sl_node_keys_known(root, &known, reading->error)) {
        return false;
    }
    figures.spanish = header.language == 1;
    quiz->origin = header.origin;
    quiz->edition = header.edition;
    quiz->language = sl_language_words.word[header.language];
    const sl_node *const note = sl_needed_child(reading, root, "note", "how far the items were tried out");
    const sl_node *const numbers = sl_node_child(root, "numbers");
    if (!note || (numbers && (!sl_list_child(reading, root, "numbers", 1, SL_MOST_NUMBERS) ||
                              !sl_numbers_read(&figures, numbers)))) {
        return false;
    }
    quiz->n_numbers = figures.n;
    return sl_filled_read(&figures, sl_node_child(root, "title"), &quiz->title) &&
           sl_passage_read(&figures, note, &quiz->note) && items_read(&figures, root, quiz) &&
           sl_original_check(reading, root, path, header.language);
}

static bool quiz_read(sl_quiz *quiz, const char *path, sl_error *error)
{
    const sl_reading reading = {.kept = &quiz->memory->arena, .error = error};
    sl_yaml document = {0};
    if (!sl_yaml_load(&document, path, error)) {
        return false;
    }
    const bool good = root_read(&reading, document.root, path, quiz);
    sl_yaml_free(&document);
    return good;
}

sl_quiz *sl_quiz_load(const char *path, sl_error *error)
{
    sl_error unheard = {.code = SL_OK};
    sl_error *const heard = error ? error : &unheard;
    sl_error_clear(heard);
    sl_quiz *const quiz = sl_new(1, sizeof *quiz, "reading a quiz", heard);
    if (!quiz) {
        return NULL;
    }
    quiz->memory = sl_new(1, sizeof *quiz->memory, "reading a quiz", heard);
    if (!quiz->memory || !quiz_read(quiz, path, heard)) {
        sl_quiz_free(quiz);
        return NULL;
    }
    return quiz;
}

void sl_quiz_free(sl_quiz *quiz)
{
    if (!quiz) {
        return;
    }
    if (quiz->memory) {
        sl_arena_free(&quiz->memory->arena);
        sl_free(quiz->memory);
    }
    sl_free(quiz);
}
