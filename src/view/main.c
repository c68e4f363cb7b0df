/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * slowlift-watch: the window. Start, frames, stop. Messages go to stderr; exit codes as
 * docs/guide.md says: 0 left by the user, 1 file or model, 2 usage, 3 a part or a display
 * is missing.
 */
#include <SDL.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/memory.h"
#include "base/language.h"
#include "command/command.h"
#include "command/kept.h"
#include "command/language.h"
#include "command/lessons.h"
#include "command/options.h"
#include "command/places.h"
#include "command/room.h"
#include "command/viewing.h"
#include "lesson/words.h"
#include "slowlift/lesson.h"
#include "view/day_log.h"
#include "view/layout.h"
#include "view/lesson_desk.h"
#include "view/watch.h"

static const char program[] = "slowlift watch";
static const struct option known[] = {{"models", required_argument, NULL, 'm'},
                                      {"size", required_argument, NULL, 's'},
                                      {"text", required_argument, NULL, 't'},
                                      {"at", required_argument, NULL, 'a'},
                                      {"theme", required_argument, NULL, 'D'},
                                      {"vision", required_argument, NULL, 'V'},
                                      {"light", required_argument, NULL, 'I'},
                                      {"look", required_argument, NULL, 'L'},
                                      {"observer", required_argument, NULL, 'O'},
                                      {"lesson", required_argument, NULL, 'l'},
                                      {"answers", required_argument, NULL, 'w'},
                                      {"class", required_argument, NULL, 'c'},
                                      {"day", required_argument, NULL, 'd'},
                                      {"test", required_argument, NULL, 'T'},
                                      {"educator", no_argument, NULL, 'e'},
                                      {"classroom", no_argument, NULL, 'r'},
                                      {"language", required_argument, NULL, 'g'},
                                      {"help", no_argument, NULL, 'h'},
                                      {NULL, 0, NULL, 0}};

static const char usage[] =
    "usage: slowlift watch [OPTIONS] FILE\n"
    "       slowlift watch --lesson NAME [--answers FILE] [OPTIONS]\n"
    "       slowlift watch --day LOG [--test ID] [OPTIONS]\n"
    "Shows the strips of a scene in a window. H or F1 in the window lists its keys.\n"
    "  --models DIR    where hair, dyes, mixes and chemistry lie\n"
    "  --size WxH      size of the window in pixels, at least 900x600 (default 1280x800)\n"
    "  --text PERCENT  size of the text, 100 to 200\n"
    "  --at MIN        minute of the scene to begin at\n"
    "  --theme WORD    light, dark or high-contrast\n"
    "  --vision WORD   full, protan, deutan, tritan or grey: whose eyes\n"
    "  --light WORD    daylight, lamp or led\n"
    "  --look WORD     dry, wet or mix (as it lies at its moment)\n"
    "  --observer N    2 or 10 degrees\n"
    "  --lesson NAME   a lesson in place of a scene, one step at a time\n"
    "  --answers FILE  where the lesson's answers are kept\n"
    "  --educator      may leave a step as it is (S) and read the notes (N)\n"
    "  --classroom     letters for a whole room\n"
    "  --language WORD en or es\n"
    "  --class FOLDER  with --lesson: what a class answered\n"
    "  --day LOG       the clock of the day of a test that slowlift log keeps; STOP AND RINSE: Space\n"
    "  --test ID       which test of the log, by the beginning of its id\n"
    "example: slowlift watch --text 150 models/scenes/eight-arms.yaml\n";

typedef struct sl_request {
    const char *file, *models;
    int width, height; /* pixels */
    double scale;      /* of the text */
    double at_min;
    sl_eyes eyes;
    const char *lesson, *answers, *class_folder, *language;
    const char *day, *test;
    bool educator, room, help;
} sl_request;

/* ---- start ----------------------------------------------------------------------- */

static bool number_of(const char *text, double least, double most, double *value)
{
    char *end = NULL;
    *value = strtod(text, &end);
    return end != text && *end == '\0' && *value >= least && *value <= most;
}

static bool size_of(const char *text, int *width, int *height)
{
    const int most = 16384; /* pixels; more than any display */
    char rest = '\0';
    return sscanf(text, "%5dx%5d%c", width, height, &rest) == 2 && *width >= SL_LEAST_WIDTH &&
           *width <= most && *height >= SL_LEAST_HEIGHT && *height <= most;
}

static bool one_of(const char *what, const char *word, const char *const *words, int n, int *index,
                   sl_error *error)
{
    for (int i = 0; i < n; i++) {
        if (strcmp(word, words[i]) == 0) {
            *index = i;
            return true;
        }
    }
    return sl_word_refused(what, word, words, n, error);
}

/* How it is looked at; its words are those of `slowlift picture`. */
static bool take_eyes(sl_eyes *eyes, int option, const char *value, sl_error *error)
{
    static const char *const themes[SL_THEMES] = {
        [SL_THEME_LIGHT] = "light", [SL_THEME_DARK] = "dark", [SL_THEME_HIGH_CONTRAST] = "high-contrast"};
    int index = 0;
    bool good = true;
    if (option == 'D') {
        good = one_of("the theme", value, themes, SL_THEMES, &index, error);
        eyes->theme = (sl_theme_number)index;
    } else if (option == 'V') {
        good = sl_vision_read(value, &eyes->vision, error);
    } else if (option == 'L') {
        good = sl_lying_look_read(value, &eyes->viewing, error);
    } else if (option == 'I') {
        good = sl_light_read(value, &eyes->viewing, error);
    } else if (option == 'O') {
        good = sl_observer_read(value, &eyes->viewing, error);
    }
    return good;
}

/* What belongs to a lesson; false: not such an option. */
static bool take_lesson(sl_request *request, int option, const char *value)
{
    switch (option) {
    case 'l':
        request->lesson = value;
        return true;
    case 'w':
        request->answers = value;
        return true;
    case 'c':
        request->class_folder = value;
        return true;
    case 'g':
        request->language = value;
        return true;
    case 'd':
        request->day = value;
        return true;
    case 'T':
        request->test = value;
        return true;
    case 'e':
        request->educator = true;
        return true;
    case 'r':
        request->room = true;
        return true;
    default:
        return false;
    }
}

static bool take_value(sl_request *request, int option, const char *value, sl_error *error)
{
    char found[SL_ERROR_TEXT_SIZE];
    double percent = 100.0;
    if (option == 'm') {
        request->models = value;
    } else if (option == 's' && !size_of(value, &request->width, &request->height)) {
        snprintf(found, sizeof found, "--size %.80s does not fit", value);
        return sl_fail(error, SL_ERR_USAGE, found, "write it as 1280x800, at least 900x600");
    } else if (option == 't' && !number_of(value, 100.0, 200.0, &percent)) {
        snprintf(found, sizeof found, "--text %.80s does not fit", value);
        return sl_fail(error, SL_ERR_USAGE, found, "give a number from 100 to 200");
    } else if (option == 'a' && !number_of(value, 0.0, 1e6, &request->at_min)) {
        snprintf(found, sizeof found, "--at %.80s does not fit", value);
        return sl_fail(error, SL_ERR_USAGE, found, "give minutes as a plain number");
    }
    request->scale = option == 't' ? percent / 100.0 : request->scale;
    return take_eyes(&request->eyes, option, value, error);
}

static bool lesson_fits(const sl_request *request, int n_files, sl_error *error)
{
    static const char *const languages[] = {"en", "es"};
    int index = 0;
    if (n_files > 0) {
        return sl_fail(error, SL_ERR_USAGE, "a lesson together with a scene", "one at a time");
    }
    if (request->class_folder != NULL && request->answers != NULL) {
        return sl_fail(error, SL_ERR_USAGE, "--class together with --answers", "one at a time");
    }
    return one_of("the language", request->language, languages, 2, &index, error);
}

static bool day_fits(const sl_request *request, int n_files, sl_error *error)
{
    if (n_files > 0 || request->lesson != NULL) {
        return sl_fail(error, SL_ERR_USAGE, "--day together with a scene or a lesson",
                       "the log holds the scene of its test");
    }
    return true;
}

static bool scene_fits(const sl_request *request, sl_error *error)
{
    if (request->answers != NULL || request->class_folder != NULL || request->educator || request->room) {
        return sl_fail(error, SL_ERR_USAGE, "--answers, --class, --educator or --classroom without a lesson",
                       "add --lesson NAME, such as --lesson half-life");
    }
    return true;
}

static bool read_request(sl_request *request, int argc, char **argv, sl_error *error)
{
    *request = (sl_request){.width = 1280, .height = 800, .language = sl_language()};
    int option = 0;
    opterr = 0;
    while ((option = getopt_long(argc, argv, ":", known, NULL)) != -1) {
        if (option == 'h') {
            request->help = true;
            return true;
        }
        if (option == '?' || option == ':') {
            return sl_option_refused(program, option, argv, known, error);
        }
        if (!take_lesson(request, option, optarg) && !take_value(request, option, optarg, error)) {
            return false;
        }
    }
    if (request->scale <= 0.0) { /* a lesson is read from farther away */
        request->scale = request->lesson != NULL ? 1.25 : 1.0;
    }
    if (request->test != NULL && request->day == NULL) {
        return sl_fail(error, SL_ERR_USAGE, "--test without a log", "add --day LOG");
    }
    return request->day != NULL ? day_fits(request, argc - optind, error)
           : request->lesson != NULL
               ? lesson_fits(request, argc - optind, error)
               : scene_fits(request, error) && sl_one_file(program, argc, argv, &request->file, error);
}

/* Load and solve. */
static bool make_story(const sl_request *request, sl_story *story, sl_error *error)
{
    sl_places *places = sl_new(1, sizeof *places, "looking for model files", error);
    if (places == NULL) {
        return false;
    }
    story->scene = sl_places_load(places, request->models, request->file, error);
    sl_free(places);
    if (story->scene == NULL) {
        return false;
    }
    sl_solver *solver = sl_solver_new(error);
    const bool good =
        solver != NULL && sl_timeline_solve(&story->timeline, story->scene, NULL, 0, solver, NULL, error);
    sl_solver_free(solver);
    return good;
}

/* Without a display SDL takes a driver whose window nobody can see; only when it was asked
 * for by name is that what the user wants. */
static bool is_seen(void)
{
    static const char *const unseen[] = {"offscreen", "dummy", "evdev"};
    const char *driver = SDL_GetCurrentVideoDriver();
    bool seen = driver != NULL;
    for (size_t i = 0; i < sizeof unseen / sizeof unseen[0] && seen; i++) {
        seen = strcmp(driver, unseen[i]) != 0;
    }
    return seen || getenv("SDL_VIDEODRIVER") != NULL;
}

static SDL_Window *open_window(const sl_request *request, const char *title, sl_error *error)
{
    /* The surface goes straight to the display: presenting it through OpenGL takes
     * several times as long and over 100 MiB more. */
    SDL_SetHint(SDL_HINT_FRAMEBUFFER_ACCELERATION, "0");
    SDL_SetHint(SDL_HINT_VIDEO_ALLOW_SCREENSAVER, "1");
    const bool started = SDL_Init(SDL_INIT_VIDEO) == 0;
    if (!started || !is_seen()) {
        char found[SL_ERROR_TEXT_SIZE];
        snprintf(found, sizeof found, "a display (%.120s)", started ? "none was found" : SDL_GetError());
        sl_fail(error, SL_ERR_MISSING_PART, found,
                "without one use \"slowlift run\" or \"slowlift picture\"");
        return NULL;
    }
    SDL_Window *window =
        SDL_CreateWindow(title, SDL_WINDOWPOS_CENTERED, SDL_WINDOWPOS_CENTERED, request->width,
                         request->height, SDL_WINDOW_RESIZABLE | SDL_WINDOW_ALLOW_HIGHDPI);
    if (window == NULL) {
        sl_fail(error, SL_ERR_MISSING_PART, SDL_GetError(), "the display cannot hold a window");
        return NULL;
    }
    SDL_SetWindowMinimumSize(window, SL_LEAST_WIDTH, SL_LEAST_HEIGHT);
    return window;
}

/* ---- stop ---------------------------------------------------------------------------- */

static sl_exit watch(const sl_request *request)
{
    sl_error error = {.code = SL_OK};
    sl_story story = {0};
    if (!make_story(request, &story, &error)) {
        sl_story_free(&story);
        return sl_complain(&error);
    }
    SDL_Window *window = open_window(request, story.scene->title, &error);
    const bool good = window != NULL &&
                      sl_watch_scene(&story, &request->eyes, window, request->scale, request->at_min, &error);
    sl_story_free(&story);
    if (window != NULL) {
        SDL_DestroyWindow(window);
    }
    SDL_Quit();
    return good ? SL_EXIT_OK : sl_complain(&error);
}

/* ---- a lesson ------------------------------------------------------------------------- */

static sl_lesson *load_lesson(const sl_request *request, sl_error *error)
{
    char path[SL_PLACES_PATH];
    sl_places *const places = sl_new(1, sizeof *places, "looking for lessons", error);
    sl_lesson *lesson = NULL;
    if (places != NULL && sl_places_find(places, request->models, request->lesson, error)) {
        sl_folders folders = {.folders = places->folders, .n_folders = places->n_folders};
        const sl_resolver resolver = sl_resolver_of_folders(&folders);
        sl_lesson_path(places, request->lesson, request->language, path);
        if (sl_lesson_found(path)) {
            lesson = sl_lesson_load(path, &resolver, error);
        } else {
            sl_fail(error, SL_ERR_USAGE, "there is no such lesson",
                    "slowlift list shows the lessons there are");
        }
    }
    sl_free(places);
    return lesson;
}

static bool add_up(const sl_request *request, const sl_lesson *lesson, sl_class *class_, sl_error *error)
{
    sl_room room = {.answers = NULL};
    sl_class_start(class_);
    const bool good = sl_room_gather(&room, request->class_folder, error);
    for (size_t i = 0; good && i < room.n; i++) {
        for (int r = 0; r < room.answers[i].n_records; r++) {
            sl_class_add(class_, lesson, &room.answers[i].record[r]);
        }
    }
    sl_free(room.answers);
    return good;
}

/* Answers that no disk takes are written to stdout, so that nothing is lost. */
static sl_exit last_words(const sl_kept *kept, const char *language)
{
    fprintf(stderr, "%s\n", sl_said(SL_SAID_NOT_SAVED, language));
    sl_answers_write(stdout, &kept->answers);
    sl_finish_output(ferror(stdout) == 0);
    return SL_EXIT_PART;
}

static sl_exit teach(const sl_request *request, const sl_lesson *lesson, sl_kept *kept)
{
    sl_error error = {.code = SL_OK};
    sl_class class_;
    bool unsaved = false;
    sl_desk_wish wish = {.lesson = lesson,
                         .answers = &kept->answers,
                         .path = kept->path,
                         .educator = request->educator,
                         .room = request->room,
                         .scale = request->scale,
                         .eyes = request->eyes};
    if (request->class_folder != NULL) {
        if (!add_up(request, lesson, &class_, &error)) {
            return sl_complain(&error);
        }
        wish.class_ = &class_;
    }
    SDL_Window *const window = open_window(request, lesson->title, &error);
    const bool good = window != NULL && sl_desk_run(&wish, window, &unsaved, &error);
    if (window != NULL) {
        SDL_DestroyWindow(window);
    }
    SDL_Quit();
    if (unsaved) {
        return last_words(kept, lesson->language);
    }
    return good ? SL_EXIT_OK : sl_complain(&error);
}

static sl_exit watch_lesson(const sl_request *request)
{
    sl_error error = {.code = SL_OK};
    sl_lesson *const lesson = load_lesson(request, &error);
    if (lesson == NULL) {
        return sl_complain(&error);
    }
    sl_kept *const kept = sl_new(1, sizeof *kept, "opening the answers", &error);
    const bool open = kept != NULL && sl_kept_open(kept, request->answers, &error);
    const sl_exit code = open ? teach(request, lesson, kept) : sl_complain(&error);
    sl_free(kept);
    sl_lesson_free(lesson);
    return code;
}

/* ---- the day of a test ------------------------------------------------------------------- */

static sl_exit watch_day(const sl_request *request)
{
    sl_error error = {.code = SL_OK};
    int lost = 0;
    sl_day_log *const day = sl_day_log_open(request->day, request->test, &error);
    if (day == NULL) {
        return sl_complain(&error);
    }
    SDL_Window *const window = open_window(request, sl_day_log_title(day), &error);
    const bool good =
        window != NULL && sl_day_log_watch(day, &request->eyes, request->scale, window, &lost, &error);
    if (window != NULL) {
        SDL_DestroyWindow(window);
    }
    SDL_Quit();
    sl_day_log_close(day);
    return !good ? sl_complain(&error) : lost > 0 ? SL_EXIT_PART : SL_EXIT_OK;
}

int main(int argc, char **argv)
{
    sl_start();
    sl_error error = {.code = SL_OK};
    sl_request request;
    if (!sl_language_start(&argc, argv, &error) || !read_request(&request, argc, argv, &error)) {
        return (int)sl_complain(&error);
    }
    if (request.help) {
        fputs(usage, stdout);
        return (int)sl_finish_output(true);
    }
    return (int)(request.day != NULL      ? watch_day(&request)
                 : request.lesson != NULL ? watch_lesson(&request)
                                          : watch(&request));
}
