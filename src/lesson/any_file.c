/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The check of a file of any kind: its kind is looked at first, then its own reader reads it.
 */
#include <stdio.h>
#include <string.h>

#include "lesson/paths.h"
#include "slowlift/lesson.h"

/* Each reads the file, and gives its title. */
typedef bool sl_kind_check(const char *path, const sl_resolver *resolver, char title[SL_MAX_TEXT],
                           sl_error *error);

static bool lesson_check(const char *path, const sl_resolver *resolver, char title[SL_MAX_TEXT],
                         sl_error *error)
{
    sl_lesson *const lesson = sl_lesson_load(path, resolver, error);
    snprintf(title, SL_MAX_TEXT, "%s", lesson ? lesson->title : "");
    sl_lesson_free(lesson);
    return lesson != NULL;
}

static bool quiz_check(const char *path, const sl_resolver *resolver, char title[SL_MAX_TEXT],
                       sl_error *error)
{
    sl_quiz *const quiz = sl_quiz_load(path, error);
    (void)resolver;
    snprintf(title, SL_MAX_TEXT, "%s", quiz ? quiz->title : "");
    sl_quiz_free(quiz);
    return quiz != NULL;
}

static bool answers_check(const char *path, const sl_resolver *resolver, char title[SL_MAX_TEXT],
                          sl_error *error)
{
    sl_learner_answers answers;
    (void)resolver;
    const bool good = sl_learner_answers_load(&answers, path, NULL, error);
    snprintf(title, SL_MAX_TEXT, "%s", good ? answers.code : "");
    return good;
}

static const char *const kinds[] = {"lesson", "quiz", "answers"};
static sl_kind_check *const checks[] = {lesson_check, quiz_check, answers_check};
enum { KINDS = sizeof kinds / sizeof kinds[0] };

/* Which of them a file says it is; -1: another, or it does not read at all. */
static int kind_of(const char *path)
{
    sl_yaml document = {0};
    sl_error unheard = {.code = SL_OK};
    if (!sl_yaml_load(&document, path, &unheard)) {
        return -1;
    }
    const sl_words words = {kinds, KINDS};
    const sl_node *const kind =
        document.root->kind == SL_NODE_MAPPING ? sl_node_child(document.root, "kind") : NULL;
    const int found = kind && kind->text ? sl_words_find(&words, kind->text) : -1;
    sl_yaml_free(&document);
    return found;
}

bool sl_any_file_check(const char *path, const sl_resolver *resolver, const char **kind, char *title,
                       size_t title_size, sl_error *error)
{
    const int found = kind_of(path);
    sl_file_kind of_model = SL_KIND_SCENE;
    char own[SL_MAX_TEXT];
    sl_error_clear(error);
    const bool good = found >= 0 ? checks[found](path, resolver, own, error)
                                 : sl_file_check(path, resolver, &of_model, title, title_size, error);
    if (kind && (good || found >= 0)) {
        *kind = found >= 0 ? kinds[found] : sl_file_kind_word(of_model);
    }
    if (good && found >= 0 && title && title_size > 0) {
        snprintf(title, title_size, "%s", own);
    }
    return good;
}
