/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See request.h.
 */
#include "view/window/request.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/language.h"
#include "front/complain.h"
#include "front/options.h"
#include "front/viewing.h"
#include "view/window/layout.h"

static const char program[] = "slowlift watch";
static const struct option known[] = {
    {"models", required_argument, NULL, 'm'},   {"size", required_argument, NULL, 's'},
    {"text", required_argument, NULL, 't'},     {"at", required_argument, NULL, 'a'},
    {"theme", required_argument, NULL, 'D'},    {"vision", required_argument, NULL, 'V'},
    {"light", required_argument, NULL, 'I'},    {"look", required_argument, NULL, 'L'},
    {"observer", required_argument, NULL, 'O'}, {"lesson", required_argument, NULL, 'l'},
    {"answers", required_argument, NULL, 'w'},  {"class", required_argument, NULL, 'c'},
    {"day", required_argument, NULL, 'd'},      {"seen", required_argument, NULL, 'S'},
    {"strand", required_argument, NULL, 'P'},   {"test", required_argument, NULL, 'T'},
    {"educator", no_argument, NULL, 'e'},       {"classroom", no_argument, NULL, 'r'},
    {"language", required_argument, NULL, 'g'}, {"say", required_argument, NULL, 'y'},
    {"help", no_argument, NULL, 'h'},           {NULL, 0, NULL, 0}};

static const char usage[] =
    "usage: slowlift watch [OPTIONS] FILE\n"
    "       slowlift watch --lesson NAME [--answers FILE] [OPTIONS]\n"
    "       slowlift watch --day LOG [--test ID] [OPTIONS]\n"
    "       slowlift watch --seen LOG [--test ID] [OPTIONS]\n"
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
    "  --seen LOG      the scene of a test of the log, and what was seen over what the model predicts\n"
    "  --strand LOG    strands of people's hair, for the form (F)\n"
    "  --test ID       which test of the log, by the beginning of its id\n"
    "  --say KEYS      no display: after each key, such as Return,W, all that would be shown, in words with "
    "places\n"
    "example: slowlift watch --text 150 models/scenes/eight-arms.yaml\n";

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
static bool take_lesson(sl_watch_request *request, int option, const char *value)
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
    case 'S':
        request->seen = value;
        return true;
    case 'P':
        request->strand = value;
        return true;
    case 'T':
        request->test = value;
        return true;
    case 'y':
        request->say = value;
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

static bool take_value(sl_watch_request *request, int option, const char *value, sl_error *error)
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

static bool lesson_fits(const sl_watch_request *request, int n_files, sl_error *error)
{
    int index = 0;
    if (n_files > 0) {
        return sl_fail(error, SL_ERR_USAGE, "a lesson together with a scene", "one at a time");
    }
    if (request->class_folder != NULL && request->answers != NULL) {
        return sl_fail(error, SL_ERR_USAGE, "--class together with --answers", "one at a time");
    }
    return one_of("the language", request->language, sl_language_letters, SL_LANGUAGES, &index, error);
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

bool sl_request_read(sl_watch_request *request, int argc, char **argv, sl_error *error)
{
    *request = (sl_watch_request){.width = 1280, .height = 800, .language = sl_language()};
    int option = 0;
    opterr = 0;
    while ((option = sl_option_next(argc, argv, ":", known)) != -1) {
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
    if (request->strand != NULL &&
        (request->day != NULL || request->seen != NULL || request->lesson != NULL)) {
        return sl_fail(error, SL_ERR_USAGE, "--strand without a scene",
                       "name the scene that the form is about");
    }
    if (request->test != NULL && request->day == NULL && request->seen == NULL) {
        return sl_fail(error, SL_ERR_USAGE, "--test without a log", "add --day LOG or --seen LOG");
    }
    return request->day != NULL || request->seen != NULL ? day_fits(request, argc - optind, error)
           : request->lesson != NULL
               ? lesson_fits(request, argc - optind, error)
               : scene_fits(request, error) && sl_one_file(program, argc, argv, &request->file, error);
}

bool sl_request_help(FILE *out)
{
    return fputs(usage, out) != EOF;
}
