/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See watch_work.h.
 */
#include "front/work/watch_work.h"

#include <stdio.h>

#include "base/language.h"
#include "clock/speed.h"
#include "front/viewing.h"

static bool read_size(const sl_option *option, const char *text, void *place, sl_error *error)
{
    sl_extent size;
    char rest = '\0';
    if (sscanf(text, "%5dx%5d%c", &size.width, &size.height, &rest) == 2 &&
        size.width >= SL_WATCH_LEAST_WIDTH && size.width <= SL_WATCH_MOST &&
        size.height >= SL_WATCH_LEAST_HEIGHT && size.height <= SL_WATCH_MOST) {
        *(sl_extent *)place = size;
        return true;
    }
    return sl_value_refused(option, text, _("write it as 1280x800, at least 900x600"), error);
}

static const char EXAMPLE[] = "eight-arms"; /* what is behind the questions of a new test */

static const char *const theme_words[] = {"light", "dark", "high-contrast"};
static const sl_word_list themes = {N_("the theme"), theme_words, 3};

static const sl_option options[] = {
    SL_OPTION(sl_watch_request, lesson, sl_option_text, .name = "lesson", .value = N_("NAME"),
              .help = N_("a lesson, as slowlift teach has it, in place of a scene"),
              .wants = SL_WANTS_LESSON),
    SL_OPTION(sl_watch_request, answers, sl_option_text, .name = "answers", .value = N_("FILE"),
              .help = N_("with --lesson: keep the answers there"), .wants = SL_WANTS_FILE),
    SL_OPTION(sl_watch_request, class_folder, sl_option_text, .name = "class", .value = N_("FOLDER"),
              .help = N_("with --lesson: what a class answered"), .wants = SL_WANTS_FOLDER),
    SL_OPTION(sl_watch_request, educator, sl_option_flag, .name = "educator",
              .help = N_("with --lesson: S leaves a step as it is, N shows the notes")),
    SL_OPTION(sl_watch_request, room, sl_option_flag, .name = "classroom",
              .help = N_("with --lesson: letters for a whole room")),
    SL_OPTION(sl_watch_request, day, sl_option_text, .name = "day", .value = N_("LOG"),
              .help = N_("the clock of the day of a test that slowlift log keeps; S: STOP AND RINSE"),
              .wants = SL_WANTS_LOG),
    SL_OPTION_SAID(sl_watch_request, speed, rehearse, sl_option_number, .name = "rehearse",
                   .value = N_("SPEED"), .usual = "60", .least = 2.0, .most = SL_DAY_MOST_SPEED,
                   .help = N_("with --day: on a copy of the log, as slowlift day has it")),
    SL_OPTION(sl_watch_request, seen, sl_option_text, .name = "seen", .value = N_("LOG"),
              .help = N_("the scene of a test of the log, and what was seen over what the model predicts"),
              .wants = SL_WANTS_LOG),
    SL_OPTION(sl_watch_request, test, sl_option_text, .name = "test", .value = N_("TEST"),
              .help = N_("which test of the log, by the beginning of its id")),
    SL_OPTION(sl_watch_request, asks, sl_option_flag, .name = "new",
              .help = N_("begin with the questions of slowlift new, on one page")),
    SL_OPTION(sl_watch_request, strand, sl_option_text, .name = "strand", .value = N_("LOG"),
              .help = N_("strands of people's hair, for the form (F)"), .wants = SL_WANTS_LOG),
    SL_OPTION(sl_watch_request, at_min, sl_option_number, .name = "at", .value = N_("MINUTE"), .most = 1e6,
              .help = N_("minute of the scene to begin at")),
    SL_OPTION(sl_watch_request, theme, sl_option_choice, .name = "theme", .value = N_("WORD"),
              .help = N_("light, dark or high-contrast"), .choice = &themes),
    SL_OPTION(sl_watch_request, percent, sl_option_number, .name = "text", .value = N_("PERCENT"),
              .least = 100.0, .most = 200.0, .help = N_("size of the text, 100 to 200")),
    SL_OPTION(sl_watch_request, steps, sl_option_flag, .name = "steps",
              .help = N_(
                  "reduced motion: while it plays the scene goes from minute to minute, and nothing glides")),
    SL_OPTION(sl_watch_request, size, read_size, .name = "size", .value = N_("WxH"),
              .help = N_("size of the window in pixels, at least 900x600; else nine tenths of the display")),
    SL_OPTION(sl_watch_request, say, sl_option_text, .name = "say", .value = N_("KEYS"),
              .help =
                  N_("no display: after each key, such as Return,W, all that would be shown, in words with "
                     "places")),
    SL_OPTION(sl_watch_request, help, sl_option_flag, .name = "help"),
};
const sl_command_line sl_watch_typed = {
    .name = "watch",
    .line = N_("show a scene in a window"),
    .usage = {N_("[OPTIONS] [FILE]"), N_("--lesson NAME [OPTIONS]"), N_("--day LOG [--test ID] [OPTIONS]"),
              N_("--seen LOG [--test ID] [OPTIONS]"), N_("--new [OPTIONS]")},
    .about = N_(
        "Opens the window: strips side by side that change with time; without a file, the start page, from "
        "which all of it is reached by pointer or keys. Needs a display and the program slowlift-watch. In "
        "the window F1 shows the keys; docs/window.md lists them."),
    .set = {SL_OPTION_SET_OWN(options),
            SL_OPTION_SET(sl_lying_options, sl_viewing, sl_watch_request, viewing),
            SL_OPTION_SET(sl_vision_options, sl_vision, sl_watch_request, vision),
            SL_MODELS_SET(sl_watch_request, models),
            SL_OPTION_SET(sl_light_options, sl_viewing, sl_watch_request, viewing)},
    .example = {{N_("a comparison, and a lesson whose answers are kept."),
                 {"slowlift watch models/scenes/eight-arms.yaml",
                  "slowlift watch --lesson half-life --answers group-3.yaml"}}},
    .wants = {SL_WANTS_SCENE},
};

static bool lesson_fits(const sl_watch_request *request, int n_files, sl_error *error)
{
    if (n_files > 0) {
        return sl_fail(error, SL_ERR_USAGE, "a lesson together with a scene", "one at a time");
    }
    return !request->class_folder || !request->answers ||
           sl_fail(error, SL_ERR_USAGE, "--class together with --answers", "one at a time");
}

static bool day_fits(const sl_watch_request *request, int n_files, sl_error *error)
{
    if (n_files > 0 || request->lesson != NULL || (request->day != NULL && request->seen != NULL)) {
        return sl_fail(error, SL_ERR_USAGE,
                       request->day != NULL ? N_("--day together with a scene, a lesson or --seen")
                                            : N_("--seen together with a scene or a lesson"),
                       "the log holds the scene of its test");
    }
    return true;
}

static bool scene_fits(const sl_watch_request *request, sl_error *error)
{
    if (request->answers != NULL || request->class_folder != NULL || request->educator || request->room) {
        return sl_fail(error, SL_ERR_USAGE, "--answers, --class, --educator or --classroom without a lesson",
                       "add --lesson NAME, such as --lesson half-life");
    }
    return true;
}

/* A lesson is read from farther away. */
static double usual_scale(const sl_watch_request *request)
{
    return request->lesson != NULL ? 1.25 : 1.0;
}

static bool fits_together(sl_watch_request *request, int argc, char **argv, int n_files, sl_error *error)
{
    const bool of_log = request->day != NULL || request->seen != NULL;
    if (request->strand != NULL && (of_log || request->lesson != NULL)) {
        return sl_fail(error, SL_ERR_USAGE, "--strand without a scene",
                       "name the scene that the form is about");
    }
    if (request->asks && (of_log || request->lesson != NULL)) {
        return sl_fail(error, SL_ERR_USAGE, "--new together with a log or a lesson", "one at a time");
    }
    if (request->test != NULL && !of_log) {
        return sl_fail(error, SL_ERR_USAGE, "--test without a log", "add --day LOG or --seen LOG");
    }
    request->start =
        !of_log && request->lesson == NULL && !request->asks && n_files == 0 && request->strand == NULL;
    return of_log                          ? day_fits(request, n_files, error)
           : request->lesson != NULL       ? lesson_fits(request, n_files, error)
           : request->asks && n_files == 0 ? scene_fits(request, error) && (request->file = EXAMPLE) != NULL
           : request->start                ? scene_fits(request, error)
                                           : scene_fits(request, error) &&
                                  sl_one_file(&sl_watch_typed, argc, argv, &request->file, error);
}

bool sl_watch_request_read(sl_watch_request *request, int argc, char **argv, sl_error *error)
{
    *request = (sl_watch_request){.help = false};
    if (!sl_options_read(&sl_watch_typed, argc, argv, request, error)) {
        return false;
    }
    request->scale = request->percent > 0.0 ? request->percent / 100.0 : usual_scale(request);
    return request->help || fits_together(request, argc, argv, sl_words_left(argc), error);
}
