/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * `slowlift teach`: a lesson, the quiz, or what a class answered.
 */
#include "command/teach/teach.h"

#include <string.h>

#include "base/language.h"

static const char *const time_words[] = {"before", "after"};
static const sl_word_list quiz_times = {N_("the time of the quiz"), time_words, 2};

static const sl_option options[] = {
    SL_OPTION(sl_teach_asked, answers, sl_option_text, .name = "answers", .value = N_("FILE"),
              .help = N_("keep the answers here and go on here later; call the file by a code, such as "
                         "group-3.yaml, never by a name"),
              .wants = SL_WANTS_FILE),
    SL_OPTION(sl_teach_asked, educator, sl_option_flag, .name = "educator",
              .help = N_("s leaves a step open, t shows the notes")),
    SL_OPTION_SAID(sl_teach_asked, time, quiz, sl_option_choice, .name = "quiz", .value = N_("WORD"),
                   .help = N_("the twelve questions before or after the course"), .choice = &quiz_times),
    SL_OPTION(sl_teach_asked, class_folder, sl_option_text, .name = "class", .value = N_("FOLDER"),
              .help =
                  N_("sum up the files of answers in a folder: who chose what is never shown, how many did "
                     "is; with the quiz, the class gain"),
              .wants = SL_WANTS_FOLDER),
    SL_OPTION(sl_teach_asked, result.csv, sl_option_flag, .name = "csv",
              .help = N_("that summary for a spreadsheet")),
    SL_OPTION(sl_teach_asked, models, sl_option_text, .name = "models", .value = N_("FOLDER"),
              .help = N_("look here first for models; lessons lie in the folder beside them"),
              .wants = SL_WANTS_FOLDER),
};
const sl_command_line sl_teach_typed = {
    .name = "teach",
    .line = N_("a lesson in the terminal; what a class answered"),
    .usage = {N_("LESSON [OPTIONS]"), N_("--quiz before|after --answers FILE"),
              N_("--class FOLDER [LESSON] [--csv] [-o FILE]")},
    .about =
        N_("A lesson, one step at a time, in plain lines: recall, compare, predict with a reason, run, say "
           "what you saw, explain. The run is locked until there are a prediction and a reason."
           "\n\n"
           "While it runs: the number of an answer, Enter to go on, b to go back, q to stop."),
    .set = {SL_OPTION_SET_OWN(options),
            SL_OPTION_SET(sl_output_options, sl_result_wish, sl_teach_asked, result)},
    .example = {{N_("a group begins the first lesson."),
                 {"slowlift teach half-life --answers class/group-3.yaml"}},
                {N_("what did the class predict?"), {"slowlift teach --class class half-life"}}},
    .wants = {SL_WANTS_LESSON},
};

static bool fits_together(const sl_teach_asked *asked, sl_error *error)
{
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
    if (asked->result.csv && !asked->class_folder) {
        return sl_fail(error, SL_ERR_USAGE, "--csv without a class", "add --class FOLDER");
    }
    if ((asked->result.output || asked->result.picture) && !asked->class_folder) {
        return sl_fail(error, SL_ERR_USAGE, "-o without a class", "add --class FOLDER");
    }
    return true;
}

static bool read_asked(sl_teach_asked *asked, int argc, char **argv, sl_error *error)
{
    *asked = (sl_teach_asked){.language = sl_language()};
    if (!sl_options_read(&sl_teach_typed, argc, argv, asked, error)) {
        return false;
    }
    if (optind + 1 < argc) {
        return sl_fail(error, SL_ERR_USAGE, "more than one lesson was named", "one at a time");
    }
    asked->lesson = optind < argc ? argv[optind] : NULL;
    return fits_together(asked, error);
}

static sl_exit teach_lesson(const sl_teach_asked *asked, const sl_places *places, sl_error *error)
{
    sl_kept kept;
    sl_lesson *const lesson = sl_lesson_open(places, asked->lesson, asked->language, error);
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
    const sl_quiz_time time = asked->time == 1 ? SL_QUIZ_AFTER : SL_QUIZ_BEFORE;
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
