/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * `slowlift check`: one line for each file; the wrong ones on stderr.
 */
#include <stdlib.h>
#include <string.h>

#include "base/language.h"
#include "base/memory.h"
#include "base/plain_text.h"
#include "command/command.h"
#include "front/places.h"
#include "report/warnings.h"
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
    .about = N_(
        "Reads files of any kind (scene, hair, dyes, mix, chemistry, chart, intake, lesson, quiz, "
        "answers), with all that they refer to, and says what is wrong in each: "
        "file:line:column, what is wrong, what would be right. What can be read and still cannot be meant, "
        "such as a time past the label's, is warned of. A lesson is run, and refused when its "
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

static void put_warning(void *self, const char *sentence)
{
    const char *const shown = self;
    fprintf(stderr, _("%s: warning: %s\n"), shown, sentence);
}

static bool put_warnings(const char *path, char *shown, const sl_resolver *resolver, sl_error *error)
{
    sl_scene *const scene = sl_scene_load(path, resolver, error);
    const bool good = scene && sl_scene_warnings(scene, put_warning, shown, error);
    sl_scene_free(scene);
    return good;
}

/* library: what other files of this call named. */
static bool check_one(const sl_check_asked *asked, const char *file, struct sl_library *library,
                      sl_faults *faults, sl_error *error)
{
    sl_places places;
    char path[SL_PLACES_PATH];
    if (!sl_places_find(&places, asked->models, file, error) ||
        !sl_places_scene(&places, file, path, error)) {
        return false;
    }
    sl_folders folders = {.folders = places.folders, .n_folders = places.n_folders};
    sl_resolver resolver = sl_resolver_of_folders(&folders);
    const char *kind = NULL;
    char title[256];
    resolver.library = library;
    resolver.faults = faults;
    if (!sl_any_file_check(path, &resolver, &kind, title, sizeof title, error)) {
        return false;
    }
    char shown[4 * SL_PLACES_PATH];
    resolver.faults = NULL;
    sl_text_show(path, strlen(path), SL_TEXT_LINE, shown, sizeof shown);
    printf(_("%s: reads (%s): %s\n"), shown, kind, title);
    if (strcmp(kind, sl_file_kind_word(SL_KIND_SCENE)) == 0 && !put_warnings(path, shown, &resolver, error)) {
        return false;
    }
    return !asked->numbers || strcmp(kind, "lesson") != 0 || put_numbers(path, &resolver, error);
}

/* As they stand in the files: those of one file by their lines. */
static int by_place(const void *one, const void *other)
{
    const sl_error *const a = one, *const b = other;
    const int file = strcmp(a->file, b->file);
    const int line = (a->line > b->line) - (a->line < b->line);
    return file != 0 ? file : line != 0 ? line : (a->column > b->column) - (a->column < b->column);
}

static sl_exit complain_of(sl_faults *faults, const sl_error *error)
{
    sl_exit worst = SL_EXIT_OK;
    qsort(faults->fault, (size_t)faults->n, sizeof faults->fault[0], by_place);
    for (int i = 0; i < faults->n; i++) {
        const sl_exit one = sl_complain(&faults->fault[i]);
        worst = one > worst ? one : worst;
    }
    return faults->n > 0 && error->code == SL_OK ? worst : sl_complain(error);
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
    sl_faults *const faults = sl_new(1, sizeof *faults, "checking a file", &error);
    struct sl_library *const library = faults ? sl_library_new(&error) : NULL;
    if (!library) {
        sl_free(faults);
        return sl_complain(&error);
    }
    sl_exit worst = SL_EXIT_OK;
    for (int i = optind; i < argc; i++) {
        sl_error_clear(&error);
        faults->n = 0;
        if (!check_one(&asked, argv[i], library, faults, &error)) {
            const sl_exit one = complain_of(faults, &error);
            worst = one > worst ? one : worst;
        }
    }
    sl_library_free(library);
    sl_free(faults);
    const sl_exit written = sl_finish_output(ferror(stdout) == 0);
    return written > worst ? written : worst;
}
