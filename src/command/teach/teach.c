/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * `slowlift teach`: a lesson, the quiz, or what a class answered.
 */
#include "command/teach/teach.h"

#include <string.h>

#include "base/language.h"
#include "front/options.h"

enum { OPTION_ANSWERS = 256, OPTION_EDUCATOR, OPTION_LANGUAGE, OPTION_CLASS, OPTION_QUIZ, OPTION_CSV };

static const struct option options[] = {{"answers", required_argument, NULL, OPTION_ANSWERS},
                                        {"educator", no_argument, NULL, OPTION_EDUCATOR},
                                        {"language", required_argument, NULL, OPTION_LANGUAGE},
                                        {"class", required_argument, NULL, OPTION_CLASS},
                                        {"quiz", required_argument, NULL, OPTION_QUIZ},
                                        {"csv", no_argument, NULL, OPTION_CSV},
                                        {"models", required_argument, NULL, 'm'},
                                        {"help", no_argument, NULL, 'h'},
                                        {NULL, 0, NULL, 0}};

static bool take(sl_teach_asked *asked, int option, char **argv, sl_error *error)
{
    switch (option) {
    case OPTION_ANSWERS:
        asked->answers = optarg;
        return true;
    case OPTION_EDUCATOR:
        asked->educator = true;
        return true;
    case OPTION_LANGUAGE:
        asked->language = optarg;
        return true;
    case OPTION_CLASS:
        asked->class_folder = optarg;
        return true;
    case OPTION_QUIZ:
        asked->quiz = optarg;
        return true;
    case OPTION_CSV:
        asked->csv = true;
        return true;
    case 'm':
        asked->models = optarg;
        return true;
    default:
        return sl_option_refused("slowlift teach", option, argv, options, error);
    }
}

static bool fits_together(const sl_teach_asked *asked, sl_error *error)
{
    static const char *const times[] = {"before", "after"};
    if (!sl_language_is_known(asked->language)) {
        return sl_word_refused("the language", asked->language, sl_language_letters, SL_LANGUAGES, error);
    }
    if (asked->quiz && strcmp(asked->quiz, "before") != 0 && strcmp(asked->quiz, "after") != 0) {
        return sl_word_refused("the time of the quiz", asked->quiz, times, 2, error);
    }
    if (asked->quiz && !asked->answers) {
        return sl_fail(error, SL_ERR_USAGE, "a quiz without a file for its answers",
                       "add --answers FILE, such as --answers class/group-3.yaml");
    }
    if (asked->quiz && (asked->lesson || asked->class_folder)) {
        return sl_fail(error, SL_ERR_USAGE, "a quiz together with a lesson or a class", "one at a time");
    }
    if (!asked->quiz && !asked->class_folder && !asked->lesson) {
        return sl_fail(error, SL_ERR_USAGE, "no lesson was named",
                       "give one, such as slowlift teach half-life; slowlift list shows them");
    }
    if (asked->csv && !asked->class_folder) {
        return sl_fail(error, SL_ERR_USAGE, "--csv without a class", "add --class FOLDER");
    }
    return true;
}

static bool read_asked(sl_teach_asked *asked, int argc, char **argv, sl_error *error)
{
    int option = 0;
    opterr = 0;
    *asked = (sl_teach_asked){.language = sl_language()};
    while ((option = sl_option_next(argc, argv, ":", options)) != -1) {
        if (!take(asked, option, argv, error)) {
            return false;
        }
    }
    if (optind + 1 < argc) {
        return sl_fail(error, SL_ERR_USAGE, "more than one lesson was named", "one at a time");
    }
    asked->lesson = optind < argc ? argv[optind] : NULL;
    return fits_together(asked, error);
}

static void refuse_missing(const sl_teach_asked *asked, sl_error *error)
{
    char found[SL_ERROR_TEXT_SIZE];
    snprintf(found, sizeof found, _("there is no lesson \"%.80s\"%s"), asked->lesson,
             strcmp(asked->language, "es") == 0 ? _(" in Spanish") : "");
    sl_fail(error, SL_ERR_USAGE, found, "slowlift list shows the lessons there are");
}

static sl_exit teach_lesson(const sl_teach_asked *asked, const sl_places *places, sl_error *error)
{
    char path[SL_PLACES_PATH];
    sl_kept kept;
    sl_folders folders = {.folders = places->folders, .n_folders = places->n_folders};
    const sl_resolver resolver = sl_resolver_of_folders(&folders);
    sl_lesson_path(places, asked->lesson, asked->language, path);
    if (!sl_lesson_found(path)) {
        refuse_missing(asked, error);
        return sl_complain(error);
    }
    sl_lesson *const lesson = sl_lesson_load(path, &resolver, error);
    if (lesson == NULL) {
        return sl_complain(error);
    }
    const sl_exit code = sl_kept_open(&kept, asked->answers, error) ? sl_teach_lesson(asked, lesson, &kept)
                                                                    : sl_complain(error);
    sl_lesson_free(lesson);
    return code;
}

static sl_exit teach_quiz(const sl_teach_asked *asked, const sl_places *places, sl_error *error)
{
    char path[SL_PLACES_PATH];
    sl_kept kept;
    const char *const file = strcmp(asked->language, "es") == 0 ? "quiz.es.yaml" : "quiz.yaml";
    if (!sl_lessons_folder(places, file, path)) {
        sl_fail(error, SL_ERR_MISSING_PART, "there is no quiz beside the models", file);
        return sl_complain(error);
    }
    sl_quiz *const quiz = sl_quiz_load(path, error);
    if (quiz == NULL) {
        return sl_complain(error);
    }
    const sl_quiz_time time = strcmp(asked->quiz, "after") == 0 ? SL_QUIZ_AFTER : SL_QUIZ_BEFORE;
    const sl_exit code =
        sl_kept_open(&kept, asked->answers, error) ? sl_teach_quiz(quiz, &kept, time) : sl_complain(error);
    sl_quiz_free(quiz);
    return code;
}

sl_exit sl_command_teach(int argc, char **argv)
{
    sl_error error = {.code = SL_OK};
    sl_teach_asked asked;
    sl_places places;
    if (!read_asked(&asked, argc, argv, &error) ||
        !sl_places_find(&places, asked.models, asked.lesson, &error)) {
        return sl_complain(&error);
    }
    if (asked.class_folder) {
        return sl_teach_class(&asked, &places, &error);
    }
    return asked.quiz ? teach_quiz(&asked, &places, &error) : teach_lesson(&asked, &places, &error);
}
