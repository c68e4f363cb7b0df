/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See picture_work.h.
 */
#include "front/work/picture_work.h"

#include <stdio.h>
#include <string.h>

#include "base/language.h"
#include "front/settings.h"
#include "front/viewing.h"

enum { LEAST_EACH_MS = 20, MOST_EACH_MS = 60000 };

static bool read_size(const sl_option *option, const char *text, void *place, sl_error *error)
{
    sl_extent size;
    char rest = '\0';
    if (sscanf(text, "%5dx%5d%c", &size.width, &size.height, &rest) == 2 && size.width >= SL_PICTURE_LEAST &&
        size.height >= SL_PICTURE_LEAST && size.width <= SL_PICTURE_MOST && size.height <= SL_PICTURE_MOST) {
        *(sl_extent *)place = size;
        return true;
    }
    return sl_value_refused(option, text, _("write it as 1280x720, each from 480 to 8192"), error);
}

/* "500ms" or "2s". */
static bool read_each(const sl_option *option, const char *text, void *place, sl_error *error)
{
    int number = 0, used = 0;
    if (sscanf(text, "%5d %n", &number, &used) == 1) {
        const bool seconds = strcmp(text + used, "s") == 0;
        const int each_ms = seconds ? 1000 * number : number;
        if ((seconds || strcmp(text + used, "ms") == 0) && each_ms >= LEAST_EACH_MS &&
            each_ms <= MOST_EACH_MS) {
            *(int *)place = each_ms;
            return true;
        }
    }
    return sl_value_refused(option, text, _("write it as 500ms or 2s, from 20ms to 60s"), error);
}

static const char *const theme_words[] = {"light", "dark"};
static const sl_word_list themes = {N_("the theme"), theme_words, 2};

static const sl_option options[] = {
    SL_OPTION(
        sl_picture_request, output, sl_option_output, .name = "output", .letter = 'o', .value = N_("FILE"),
        .help = N_("sheet.png, sheet.svg or sheet.pdf; film.webp is an animation; an old file is replaced "
                   "whole"),
        .wants = SL_WANTS_NEW),
    SL_OPTION(sl_picture_request, frames, sl_option_output, .name = "frames", .value = N_("FOLDER"),
              .help = N_("frame-0001.png, frame-0002.png ... in a new or empty folder"),
              .wants = SL_WANTS_FOLDER),
    SL_OPTION(sl_picture_request, times, sl_option_times, .name = "at", .value = N_("TIMES"),
              .help = N_("when to look, as for run (the usual: 0, 5, 10, 20, 30 min)")),
    SL_OPTION(sl_picture_request, size, read_size, .name = "size", .value = N_("WxH"),
              .help =
                  N_("one moment as a picture of so many pixels; frames and animations are 1280x720 unless "
                     "this says otherwise")),
    SL_OPTION(sl_picture_request, each_ms, read_each, .name = "each", .value = N_("TIME"),
              .help = N_("how long each picture of an animation stands (the usual: 500ms)")),
    SL_OPTION(sl_picture_request, theme, sl_option_choice, .name = "theme", .value = N_("WORD"),
              .help = N_("light or dark, for a screen"), .choice = &themes),
};
const sl_command_line sl_picture_typed = {
    .name = "picture",
    .line = N_("draw a scene: a sheet, slides, an animation"),
    .usage = {N_("[OPTIONS] -o OUT FILE"), N_("[OPTIONS] --frames FOLDER FILE")},
    .about =
        N_("Draws a sheet of the strips at some times, one moment, an animation, or numbered pictures for "
           "slides. Needs the program slowlift-paper, no display."),
    .set = {SL_OPTION_SET_OWN(options),
            SL_OPTION_SET(sl_lying_options, sl_viewing, sl_picture_request, viewing),
            SL_OPTION_SET(sl_vision_options, sl_vision, sl_picture_request, vision),
            SL_MODELS_SET(sl_picture_request, models),
            SL_OPTION_SET(sl_light_options, sl_viewing, sl_picture_request, viewing)},
    .words = SL_TYPED_WORDS(sl_picture_request, file, 1, 1),
    .example = {{N_("a sheet to print for Monday, and half an hour in 16 seconds."),
                 {"slowlift picture models/scenes/eight-arms.yaml --at 0min,10min,20min -o sheet.pdf",
                  "slowlift picture eight-arms --at 0min..30min/1min -o film.webp"}}},
    .wants = {SL_WANTS_SCENE},
};

bool sl_names_film(const char *path)
{
    static const char end[] = ".webp";
    const size_t length = strlen(path), tail = sizeof end - 1;
    return length > tail && strcmp(path + length - tail, end) == 0;
}

/* Options that contradict each other. */
static bool fits_together(const sl_picture_request *request, sl_error *error)
{
    if (request->output == NULL && request->frames == NULL) {
        return sl_fail(
            error, SL_ERR_USAGE, "no picture was named",
            "say where it goes: -o sheet.png, sheet.svg, sheet.pdf or film.webp, or --frames FOLDER");
    }
    if (request->output != NULL && request->frames != NULL) {
        return sl_fail(error, SL_ERR_USAGE, "both -o and --frames", "draw one after the other");
    }
    const bool film = request->output != NULL && sl_names_film(request->output);
    if (request->each_ms > 0 && !film) {
        return sl_fail(error, SL_ERR_USAGE, "--each without an animation", "end the name of -o in .webp");
    }
    if (request->output != NULL && !film && request->size.width > 0 && request->times.n != 1) {
        return sl_fail(error, SL_ERR_USAGE, "a picture with --size shows one moment",
                       "say which: --at 20min; or ask for --frames FOLDER or -o film.webp");
    }
    if (request->theme == 1 && request->frames == NULL && !film && request->size.width == 0) {
        return sl_fail(error, SL_ERR_USAGE, "a dark sheet", "sheets are for paper; give --size for a screen");
    }
    return true;
}

bool sl_picture_request_read(sl_picture_request *request, int argc, char **argv, sl_error *error)
{
    return sl_options_read(&sl_picture_typed, argc, argv, request, error) && fits_together(request, error);
}
