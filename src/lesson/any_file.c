/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The check of a file of any kind: its kind is looked at first, then its own reader reads it.
 */
#include <stdio.h>
#include <string.h>

#include "lesson/paths.h"
#include "slowlift/lesson.h"

static const char *const kinds[] = {"lesson", "quiz", "answers"};
enum { LESSON, QUIZ, ANSWERS, KINDS };

/* Which of the three a file says it is; KINDS: another, or it does not read at all. */
static int kind_of(const char *path)
{
    sl_yaml document = {0};
    sl_error unheard = {.code = SL_OK};
    if (!sl_yaml_load(&document, path, &unheard)) {
        return KINDS;
    }
    const sl_words words = {kinds, KINDS};
    const sl_node *const kind =
        document.root->kind == SL_NODE_MAPPING ? sl_node_child(document.root, "kind") : NULL;
    const int found = kind && kind->text ? sl_words_find(&words, kind->text) : -1;
    sl_yaml_free(&document);
    return found < 0 ? KINDS : found;
}

static void tell(const char *found, char *title, size_t size)
{
    if (title && size > 0) {
        snprintf(title, size, "%s", found);
    }
}

static bool lesson_check(const char *path, const sl_resolver *resolver, char *title, size_t size,
                         sl_error *error)
{
    sl_lesson *const lesson = sl_lesson_load(path, resolver, error);
    if (lesson) {
        tell(lesson->title, title, size);
    }
    sl_lesson_free(lesson);
    return lesson != NULL;
}

static bool quiz_check(const char *path, char *title, size_t size, sl_error *error)
{
    sl_quiz *const quiz = sl_quiz_load(path, error);
    if (quiz) {
        tell(quiz->title, title, size);
    }
    sl_quiz_free(quiz);
    return quiz != NULL;
}

static bool answers_check(const char *path, char *title, size_t size, sl_error *error)
{
    sl_learner_answers answers;
    if (!sl_learner_answers_load(&answers, path, NULL, error)) {
        return false;
    }
    tell(answers.code, title, size);
    return true;
}

bool sl_any_file_check(const char *path, const sl_resolver *resolver, const char **kind, char *title,
                       size_t title_size, sl_error *error)
{
    const int found = kind_of(path);
    sl_file_kind of_model = SL_KIND_SCENE;
    if (kind && found < KINDS) {
        *kind = kinds[found];
    }
    sl_error_clear(error);
    if (found == LESSON) {
        return lesson_check(path, resolver, title, title_size, error);
    }
    if (found == QUIZ) {
        return quiz_check(path, title, title_size, error);
    }
    if (found == ANSWERS) {
        return answers_check(path, title, title_size, error);
    }
    const bool good = sl_file_check(path, resolver, &of_model, title, title_size, error);
    if (good && kind) {
        *kind = sl_file_kind_word(of_model);
    }
    return good;
}
