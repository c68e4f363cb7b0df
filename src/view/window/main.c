/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * slowlift-watch: the window. Start, frames, stop. Messages go to stderr; exit codes as
 * docs/guide.md says: 0 left by the user, 1 file or model, 2 usage, 3 a part or a display
 * is missing.
 */
#include <SDL.h>
#include <stdio.h>
#include <stdlib.h>

#include "base/inputs.h"
#include "base/language.h"
#include "base/memory.h"
#include "base/program.h"
#include "front/complain.h"
#include "front/help.h"
#include "front/kept.h"
#include "front/language.h"
#include "front/lessons.h"
#include "front/places.h"
#include "front/room.h"
#include "front/work/watch_work.h"
#include "lesson/words.h"
#include "slowlift/lesson.h"
#include "view/day/day.h"
#include "view/lesson/lesson_desk.h"
#include "view/panels/seen.h"
#include "view/start/start.h"
#include "view/strips/strands.h"
#include "view/window/layout.h"
#include "view/window/rest.h"
#include "view/window/screen.h"
#include "view/window/watch.h"

/* ---- start ----------------------------------------------------------------------- */

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

/* The system takes the window and SDL's connections back when the program ends. They are not closed before:
 * with X11 SDL wakes its own wait, at every key, by a message to the window over a second connection, and
 * where the server reads that after the window is gone Xlib ends the program with an error of its own,
 * whatever came of it. */
/* How it is looked at, as the command line says it. */
static sl_eyes eyes_of(const sl_watch_request *request)
{
    return (sl_eyes){
        .theme = (sl_theme_number)request->theme, .vision = request->vision, .viewing = request->viewing};
}

/* As it was asked for; else nine tenths of what the display leaves to windows. Where nobody looks at it,
 * always the same. */
static sl_extent extent_of(const sl_watch_request *request)
{
    SDL_Rect room;
    if (request->size.width > 0) {
        return request->size;
    }
    if (request->say != NULL || SDL_GetDisplayUsableBounds(0, &room) != 0) {
        return (sl_extent){1280, 800};
    }
    return (sl_extent){SDL_max(room.w * 9 / 10, SL_WATCH_LEAST_WIDTH),
                       SDL_max(room.h * 9 / 10, SL_WATCH_LEAST_HEIGHT)};
}

/* One window for all that is shown in it, one after the other. */
static SDL_Window *open_window(const sl_watch_request *request, const char *title, sl_error *error)
{
    static SDL_Window *window;
    if (window != NULL) {
        SDL_SetWindowTitle(window, title);
        return window;
    }
    /* The surface goes straight to the display: presenting it through OpenGL takes
     * several times as long and over 100 MiB more. */
    SDL_SetHint(SDL_HINT_FRAMEBUFFER_ACCELERATION, "0");
    SDL_SetHint(SDL_HINT_VIDEO_ALLOW_SCREENSAVER, "1");
    if (request->say != NULL) {
        setenv("SDL_VIDEODRIVER", "dummy", 1); /* nobody looks at it: words and places alone are told */
        setenv("SDL_AUDIODRIVER", "dummy", 1);
    }
    const bool started = SDL_Init(SDL_INIT_VIDEO) == 0;
    if (!started || !is_seen()) {
        char found[SL_ERROR_TEXT_SIZE];
        snprintf(found, sizeof found, _("a display (%.120s)"),
                 started ? _("none was found") : SDL_GetError());
        sl_fail(error, SL_ERR_MISSING_PART, found,
                "without one use \"slowlift run\" or \"slowlift picture\"");
        return NULL;
    }
    const sl_extent size = extent_of(request);
    window = SDL_CreateWindow(title, SDL_WINDOWPOS_CENTERED, SDL_WINDOWPOS_CENTERED, size.width, size.height,
                              SDL_WINDOW_RESIZABLE | SDL_WINDOW_ALLOW_HIGHDPI);
    if (window == NULL) {
        sl_fail(error, SL_ERR_MISSING_PART, SDL_GetError(), "the display cannot hold a window");
        return NULL;
    }
    SDL_SetWindowMinimumSize(window, SL_WATCH_LEAST_WIDTH, SL_WATCH_LEAST_HEIGHT);
    sl_rest_start();
    return window;
}

/* What a scene's window is asked for. */
static sl_watch_wish wish_of(const sl_watch_request *request, SDL_Window *window, sl_beside_logs logs)
{
    return (sl_watch_wish){.logs = logs,
                           .models = request->models,
                           .eyes = eyes_of(request),
                           .window = window,
                           .scale = request->scale,
                           .at_min = request->at_min,
                           .asks = request->asks,
                           .folder = request->folder,
                           .page = request->answer ? SL_PAGE_ANSWER : SL_PAGE_NONE,
                           .home = request->home,
                           .steps = request->steps,
                           .say = request->say};
}

/* ---- a scene --------------------------------------------------------------------------- */

static bool watch(const sl_watch_request *request, sl_error *error)
{
    sl_story story = {0};
    sl_strand_record *strands = NULL;
    int n = 0;
    if (!sl_watch_story(request->models, request->file, &story, error) ||
        (request->strand != NULL && !sl_strands_read(request->strand, story.scene, &strands, &n, error))) {
        sl_story_free(&story);
        return false;
    }
    const sl_watch_wish wish = wish_of(request, open_window(request, sl_scene_title(story.scene), error),
                                       (sl_beside_logs){.strands = strands, .n_strands = n});
    const bool good = wish.window != NULL && sl_watch_scene(&story, &wish, error);
    sl_story_free(&story);
    sl_free(strands);
    return good;
}

/* ---- a lesson ------------------------------------------------------------------------- */

static sl_lesson *load_lesson(const sl_watch_request *request, sl_error *error)
{
    sl_places *const places = sl_new(1, sizeof *places, "looking for lessons", error);
    sl_lesson *const lesson =
        places != NULL && sl_places_find(places, request->models, request->lesson, error)
            ? sl_lesson_open(places, request->lesson, sl_language(), error)
            : NULL;
    sl_free(places);
    return lesson;
}

static bool add_up(const sl_watch_request *request, const sl_lesson *lesson, sl_class *class_,
                   sl_error *error)
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
static void last_words(const sl_kept *kept, const char *language)
{
    fprintf(stderr, "%s\n", sl_lesson_said(SL_SAID_NOT_SAVED, language));
    sl_learner_answers_write(stdout, &kept->answers);
}

static bool teach(const sl_watch_request *request, const sl_lesson *lesson, sl_kept *kept, bool *lost,
                  sl_error *error)
{
    sl_class class_;
    bool unsaved = false;
    sl_desk_wish wish = {.lesson = lesson,
                         .answers = &kept->answers,
                         .path = kept->path,
                         .educator = request->educator,
                         .room = request->room,
                         .scale = request->scale,
                         .eyes = eyes_of(request),
                         .say = request->say};
    if (request->class_folder != NULL) {
        if (!add_up(request, lesson, &class_, error)) {
            return false;
        }
        wish.class_ = &class_;
    }
    SDL_Window *const window = open_window(request, lesson->title, error);
    const bool good = window != NULL && sl_desk_run(&wish, window, &unsaved, error);
    if (unsaved) {
        last_words(kept, lesson->language);
        *lost = true;
    }
    return good || unsaved;
}

static bool watch_lesson(const sl_watch_request *request, bool *lost, sl_error *error)
{
    sl_lesson *const lesson = load_lesson(request, error);
    if (lesson == NULL) {
        return false;
    }
    sl_kept *const kept = sl_new(1, sizeof *kept, "opening the answers", error);
    const bool good = kept != NULL && sl_kept_open(kept, request->answers, error) &&
                      teach(request, lesson, kept, lost, error);
    sl_free(kept);
    sl_lesson_free(lesson);
    return good;
}

/* ---- the day of a test ------------------------------------------------------------------- */

static bool watch_day(const sl_watch_request *request, bool *lost, sl_error *error)
{
    const sl_eyes eyes = eyes_of(request);
    sl_day_desk *const desk = request->rehearse
                                  ? sl_day_desk_rehearse(request->day, request->test, request->speed, error)
                                  : sl_day_desk_open(request->day, request->test, SL_LOG_WRITE, error);
    if (desk == NULL) {
        return false;
    }
    SDL_Window *const window = open_window(request, desk->test.title, error);
    const bool good =
        window != NULL && sl_day_watch(desk, &eyes, request->scale, request->say, window, error);
    *lost = sl_day_desk_close(desk) > 0 || *lost;
    return good;
}

/* ---- what was seen ------------------------------------------------------------------------ */

static bool watch_seen(const sl_watch_request *request, sl_error *error)
{
    sl_seen_window *const seen = sl_seen_open(request->seen, request->test, error);
    if (seen == NULL) {
        return false;
    }
    const sl_watch_wish wish =
        wish_of(request, open_window(request, sl_seen_title(seen), error), sl_seen_logs(seen));
    const bool good = wish.window != NULL && sl_watch_scene(sl_seen_story(seen), &wish, error);
    sl_seen_close(seen);
    return good;
}

static bool watch_asked(const sl_watch_request *request, bool *lost, sl_error *error)
{
    return request->day != NULL      ? watch_day(request, lost, error)
           : request->seen != NULL   ? watch_seen(request, error)
           : request->lesson != NULL ? watch_lesson(request, lost, error)
                                     : watch(request, error);
}

/* ---- the start page ----------------------------------------------------------------------- */

/* What the command line would have asked for there, as it is looked at now. */
static sl_watch_request request_of(const sl_watch_request *request, const sl_start_page *start)
{
    const sl_start_place *const to = &start->place;
    sl_watch_request there = *request;
    there.start = false;
    there.home = true;
    there.theme = (int)start->eyes.theme;
    there.vision = start->eyes.vision;
    there.viewing = start->eyes.viewing;
    there.scale = start->scale;
    there.say = request->say != NULL ? sl_screen_ended().unsaid : NULL;
    there.answer = to->go == SL_GO_ANSWER;
    there.asks = to->go == SL_GO_NEW;
    there.folder = there.asks ? to->what : NULL;
    there.file = there.asks ? SL_START_EXAMPLE_FILE : to->what;
    there.day = to->go == SL_GO_DAY ? to->what : NULL;
    there.seen = to->go == SL_GO_SEEN ? to->what : NULL;
    there.test = there.day != NULL || there.seen != NULL ? to->test : NULL;
    there.lesson = to->go == SL_GO_LESSON ? to->what : NULL;
    return there;
}

/* From place to place until the window is closed, or left from its first page. A place that cannot be opened
 * is a line on it. With --say: until no key is left. */
static bool watch_start(const sl_watch_request *request, bool *lost, sl_error *error)
{
    const sl_eyes eyes = eyes_of(request);
    sl_start_page *const start = sl_start_new(request->models, &eyes, request->scale, error);
    SDL_Window *const window = start != NULL ? open_window(request, "slowlift", error) : NULL;
    const char *say = request->say;
    bool good = window != NULL, goes = good;
    while (goes) {
        good = sl_start_run(start, window, say, error);
        goes = good && start->place.go != SL_GO_LEAVE && !sl_screen_ended().closed;
        if (goes) {
            const sl_watch_request there = request_of(request, start);
            sl_error why = {.code = SL_OK};
            if (!watch_asked(&there, lost, &why)) {
                sl_start_tell(start, &why);
            }
            say = say != NULL ? sl_screen_ended().unsaid : NULL;
            goes = !sl_screen_ended().closed && (request->say == NULL || say != NULL) && ferror(stdout) == 0;
        }
    }
    sl_start_free(start);
    return good;
}

int main(int argc, char **argv)
{
    sl_program_start();
    sl_inputs_watch();
    sl_error error = {.code = SL_OK};
    sl_watch_request request;
    if (!sl_language_start(&argc, argv, &error) || !sl_watch_request_read(&request, argc, argv, &error)) {
        return (int)sl_complain(&error);
    }
    if (request.help) {
        sl_help_put(stdout, &sl_watch_typed);
        return (int)sl_finish_output(true);
    }
    bool lost = false;
    const bool good =
        request.start ? watch_start(&request, &lost, &error) : watch_asked(&request, &lost, &error);
    /* what --say could not write is told as of any command */
    const sl_exit code =
        good || ferror(stdout) != 0 ? sl_finish_output(ferror(stdout) == 0) : sl_complain(&error);
    return (int)(code == SL_EXIT_OK && lost ? SL_EXIT_PART : code);
}
