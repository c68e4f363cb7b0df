/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * `slowlift check`: one line for each file; the wrong ones on stderr.
 */
#include <string.h>

#include "base/language.h"
#include "base/plain_text.h"
#include "command/command.h"
#include "front/places.h"
#include "slowlift/lesson.h"

typedef struct sl_check_asked {
    bool numbers;
    const char *models;
} sl_check_asked;

static const sl_option options[] = {
    SL_OPTION(sl_check_asked, numbers, sl_option_flag, .name = "numbers",
              .help = N_("list what a lesson's numbers are")),
};
const sl_command_line sl_check_typed = {
    .name = "check",
    .line = N_("say whether model files are right"),
    .usage = {N_("[OPTIONS] FILE...")},
    .about = N_("Reads files of any kind (scene, hair, dyes, mix, chemistry, chart, intake, lesson, quiz, "
                "answers), with all that they refer to, and says the first thing that is wrong in each: "
                "file:line:column, what is wrong, what would be right. A lesson is run, and refused when its "
                "scene does not bear out what it claims."),
    .set = {SL_OPTION_SET_OWN(options), SL_MODELS_SET(sl_check_asked, models)},
    .example = {{N_("you changed a scene and want to know whether it still reads."),
                 {"slowlift check models/scenes/eight-arms.yaml"}}},
    .wants = {SL_WANTS_SCENE},
};

/* What a lesson's numbers are: as its texts have them, and with more figures for its author. */
static bool put_numbers(const char *path, const sl_resolver *resolver, sl_error *error)
{
    sl_lesson *const lesson = sl_lesson_load(path, resolver, error);
    for (int i = 0; lesson != NULL && i < lesson->n_numbers; i++) {
        const sl_number *const number = &lesson->numbers[i];
        if (number->of_head) {
            printf("  %s: %s\n", number->name, number->text);
        } else {
            printf("  %s: %s (%.4g)\n", number->name, number->text, number->value);
        }
    }
    sl_lesson_free(lesson);
    return lesson != NULL;
}

static bool check_one(const char *models, const char *file, bool numbers, sl_error *error)
{
    sl_places places;
    char path[SL_PLACES_PATH];
    if (!sl_places_find(&places, models, file, error) || !sl_places_scene(&places, file, path, error)) {
        return false;
    }
    sl_folders folders = {.folders = places.folders, .n_folders = places.n_folders};
    const sl_resolver resolver = sl_resolver_of_folders(&folders);
    const char *kind = NULL;
    char title[256];
    if (!sl_any_file_check(path, &resolver, &kind, title, sizeof title, error)) {
        return false;
    }
    char shown[4 * SL_PLACES_PATH];
    sl_text_show(path, strlen(path), SL_TEXT_LINE, shown, sizeof shown);
    printf(_("%s: reads (%s): %s\n"), shown, kind, title);
    return !numbers || strcmp(kind, "lesson") != 0 || put_numbers(path, &resolver, error);
}

sl_exit sl_command_check(int argc, char **argv)
{
    sl_error error = {.code = SL_OK};
    sl_check_asked asked = {.numbers = false};
    if (!sl_options_read(&sl_check_typed, argc, argv, &asked, &error)) {
        return sl_complain(&error);
    }
    if (optind >= argc) {
        sl_fail(&error, SL_ERR_USAGE, "no file was named", "give one or more model files");
        return sl_complain(&error);
    }
    sl_exit worst = SL_EXIT_OK;
    for (int i = optind; i < argc; i++) {
        sl_error_clear(&error);
        if (!check_one(asked.models, argv[i], asked.numbers, &error)) {
            const sl_exit one = sl_complain(&error);
            worst = one > worst ? one : worst;
        }
    }
    const sl_exit written = sl_finish_output(ferror(stdout) == 0);
    return written > worst ? written : worst;
}
