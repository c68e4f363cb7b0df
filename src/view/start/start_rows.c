/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What a person can do from the start page: a row each, from which keys, buttons, the page of help, `--say`
 * and the test that presses everything come.
 */
#include "view/start/start.h"

#include <stdlib.h>
#include <string.h>

#include "base/language.h"
#include "front/language.h"

#define IN(view) (1U << SL_START_##view)

enum { ALL = (1 << SL_START_VIEWS) - 1, LISTS = ALL & ~IN(READ), AWAY = ALL & ~IN(HOME) };

/* ---- where they lead --------------------------------------------------------------------------------- */

static void go_running(sl_start_page *start, sl_start_act act, int which)
{
    const sl_my_test *const test = &start->my.test[which];
    char path[SL_SETTLED_PATH];
    (void)act;
    sl_my_path(&start->my, test->log, "", path);
    sl_start_go_to(start, SL_GO_DAY, path, test->id);
}

static void go_example(sl_start_page *start, sl_start_act act, int which)
{
    (void)act, (void)which;
    sl_start_go_to(start, SL_GO_SCENE, SL_START_EXAMPLE_FILE, "");
}

static void go_new(sl_start_page *start, sl_start_act act, int which)
{
    (void)act, (void)which;
    sl_start_go_to(start, SL_GO_NEW, start->my.settled.tests, "");
}

static void go_lesson(sl_start_page *start, sl_start_act act, int which)
{
    (void)act;
    sl_start_go_to(start, SL_GO_LESSON, start->lesson[which].name, "");
}

/* A scene by its file; what a log alone keeps as the log has it. */
static void go_to_test(sl_start_page *start, sl_start_go go)
{
    const sl_my_test *const test = &start->my.test[start->test];
    char path[SL_SETTLED_PATH];
    const bool scene = go == SL_GO_SCENE || go == SL_GO_ANSWER;
    sl_my_path(&start->my, scene ? test->name : test->log, scene ? ".yaml" : "", path);
    sl_start_go_to(start, go, path, scene ? "" : test->id);
}

static void go_test(sl_start_page *start, sl_start_act act, int which)
{
    const bool looks = act == SL_START_LOOK && start->my.test[start->test].scene;
    (void)which;
    go_to_test(start, looks ? SL_GO_SCENE : act == SL_START_ANSWER ? SL_GO_ANSWER : SL_GO_SEEN);
}

static void go_day(sl_start_page *start, sl_start_act act, int which)
{
    sl_error error = {.code = SL_OK};
    (void)act, (void)which;
    if (start->my.test[start->test].log[0] != '\0' || sl_start_begin_day(start, &error)) {
        go_to_test(start, SL_GO_DAY);
    } else {
        sl_start_tell(start, &error);
    }
}

static void leave(sl_start_page *start, sl_start_act act, int which)
{
    (void)act, (void)which;
    sl_start_go_to(start, SL_GO_LEAVE, "", "");
}

/* ---- views ------------------------------------------------------------------------------------------- */

static void open_list(sl_start_page *start, sl_start_act act, int which)
{
    (void)which;
    sl_start_open(start, act == SL_START_MINE ? SL_START_TESTS : SL_START_LESSONS);
}

static void open_test(sl_start_page *start, sl_start_act act, int which)
{
    const sl_my_test *const test = &start->my.test[which];
    (void)act;
    if (test->why.code == SL_OK) {
        start->test = which;
        memcpy(start->test_name, test->name, sizeof start->test_name);
        sl_start_open(start, SL_START_TEST);
    }
}

static void read_document(sl_start_page *start, sl_start_act act, int which)
{
    (void)which;
    start->below = start->view == SL_START_READ ? start->below : start->view;
    start->reads = act;
    start->read++;
    sl_start_open(start, SL_START_READ);
}

static void print_papers(sl_start_page *start, sl_start_act act, int which)
{
    (void)act, (void)which;
    sl_start_print(start);
}

static void go_back(sl_start_page *start, sl_start_act act, int which)
{
    (void)act, (void)which;
    sl_start_open(start, start->view == SL_START_READ   ? start->below
                         : start->view == SL_START_TEST ? SL_START_TESTS
                                                        : SL_START_HOME);
}

static void read_further(sl_start_page *start, sl_start_act act, int which)
{
    (void)which;
    start->scroll += (act == SL_START_ON ? 1 : -1) * (start->body.h * 3 / 4);
}

/* ---- how it is looked at ----------------------------------------------------------------------------- */

static void next_language(sl_start_page *start, sl_start_act act, int which)
{
    sl_error error = {.code = SL_OK};
    (void)act, (void)which;
    const int next = ((int)sl_language_in_use() + 1) % SL_LANGUAGES;
    if (!sl_language_go(sl_language_letters[next], &error) || !sl_start_read_all(start, &error)) {
        sl_start_tell(start, &error);
    }
    start->read++;
}

static void next_text(sl_start_page *start, sl_start_act act, int which)
{
    (void)act, (void)which;
    start->scale = start->scale > 1.9 ? 1.0 : start->scale + 0.25;
}

static void next_theme(sl_start_page *start, sl_start_act act, int which)
{
    (void)act, (void)which;
    sl_eyes_next_theme(&start->eyes);
}

static void full_screen(sl_start_page *start, sl_start_act act, int which)
{
    (void)act, (void)which;
    const bool full = (SDL_GetWindowFlags(start->window) & SDL_WINDOW_FULLSCREEN_DESKTOP) != 0;
    SDL_SetWindowFullscreen(start->window, full ? 0 : SDL_WINDOW_FULLSCREEN_DESKTOP);
}

/* Whoever comes from a program in which it plays is told; on the day of a test it asks for a stop. */
static void say_space(sl_start_page *start, sl_start_act act, int which)
{
    (void)act, (void)which;
    snprintf(start->said, sizeof start->said, "%s",
             _("Enter does what has the ring. Space does nothing here, and never plays."));
}

/* ---- the rows ---------------------------------------------------------------------------------------------
 */

const sl_start_row sl_start_rows[SL_START_ACTS] = {
    [SL_START_RUNNING] = {.word = "running", .views = IN(HOME), .act = go_running},
    [SL_START_EXAMPLE] = {.word = "example",
                          .label = N_("Look at the example"),
                          .cap = "X",
                          .key = SDLK_x,
                          .views = IN(HOME),
                          .help = N_("strips of hair that change with time"),
                          .act = go_example},
    [SL_START_NEW] = {.word = "new",
                      .label = N_("New test"),
                      .cap = "N",
                      .key = SDLK_n,
                      .views = IN(HOME) | IN(TESTS),
                      .help =
                          N_("a test of your own: its questions on one page; it is saved in the folder of "
                             "my tests under a name, never over a file"),
                      .act = go_new},
    [SL_START_MINE] = {.word = "mine",
                       .label = N_("My tests"),
                       .cap = "O",
                       .key = SDLK_o,
                       .views = IN(HOME),
                       .help = N_("the tests of your folder, and of each what can be done next"),
                       .act = open_list},
    [SL_START_TEACH] = {.word = "teach",
                        .label = N_("Teach"),
                        .cap = "L",
                        .key = SDLK_l,
                        .views = IN(HOME),
                        .help = N_("lessons: predict, run, see, explain"),
                        .act = open_list},
    [SL_START_CHOOSE] = {.word = "test", .views = IN(TESTS), .act = open_test},
    [SL_START_LOOK] = {.word = "look",
                       .label = N_("Look at it"),
                       .cap = "X",
                       .key = SDLK_x,
                       .views = IN(TEST),
                       .help = N_("strips of hair that change with time"),
                       .act = go_test},
    [SL_START_ANSWER] = {.word = "answer",
                         .label = N_("Answer"),
                         .cap = "Q",
                         .key = SDLK_q,
                         .views = IN(TEST),
                         .help = N_("which mix, how long, what it costs the hair, how sure"),
                         .act = go_test},
    [SL_START_PLAN] = {.word = "plan",
                       .label = N_("Plan"),
                       .cap = "P",
                       .key = SDLK_p,
                       .views = IN(TEST),
                       .help = N_("who does what when, and what to weigh"),
                       .act = read_document},
    [SL_START_DAY] = {.word = "day",
                      .label = N_("The day of the test"),
                      .cap = "G",
                      .key = SDLK_g,
                      .views = IN(TEST),
                      .help = N_("its clock; the first time a log is made beside its file"),
                      .act = go_day},
    [SL_START_SEEN] = {.word = "seen",
                       .label = N_("What was seen"),
                       .cap = "J",
                       .key = SDLK_j,
                       .views = IN(TEST),
                       .help = N_("what was seen, over what the model predicts"),
                       .act = go_test},
    [SL_START_REPORT] = {.word = "report",
                         .label = N_("Report"),
                         .cap = "R",
                         .key = SDLK_r,
                         .views = IN(TEST),
                         .help = N_("plan, prediction, what was seen, what it comes to"),
                         .act = read_document},
    [SL_START_PAPERS] = {.word = "papers",
                         .label = N_("Papers to print"),
                         .cap = "S",
                         .key = SDLK_s,
                         .views = IN(TEST),
                         .help = N_("sheets, picture and answer, as files beside the test"),
                         .act = print_papers},
    [SL_START_LESSON] = {.word = "lesson", .views = IN(LESSONS), .act = go_lesson},
    [SL_START_BACK] = {.word = "back",
                       .label = N_("Back"),
                       .cap = "Esc",
                       .key = SDLK_ESCAPE,
                       .other = SDLK_BACKSPACE,
                       .views = AWAY,
                       .button = true,
                       .help = N_("back to where you came from"),
                       .act = go_back},
    [SL_START_UP] = {.word = "up",
                     .label = N_("Up"),
                     .cap = N_("PgUp"),
                     .key = SDLK_PAGEUP,
                     .views = ALL,
                     .button = true,
                     .act = read_further},
    [SL_START_ON] = {.word = "on",
                     .label = N_("Read on"),
                     .cap = N_("PgDn"),
                     .key = SDLK_PAGEDOWN,
                     .views = ALL,
                     .button = true,
                     .help = N_("read on; the wheel and a finger move it, too"),
                     .act = read_further},
    [SL_START_CAUTIONS] = {.word = "cautions",
                           .label = N_("Cautions"),
                           .cap = "K",
                           .key = SDLK_k,
                           .views = ALL,
                           .button = true,
                           .help = N_("all cautions"),
                           .act = read_document},
    [SL_START_LANGUAGE] = {.word = "language",
                           .label = "Español", /* the other one, in its own words */
                           .cap = "E",
                           .key = SDLK_e,
                           .views = ALL,
                           .button = true,
                           .help = N_("the other language"),
                           .act = next_language},
    [SL_START_TEXT] = {.word = "text",
                       .label = N_("Text"),
                       .cap = "T",
                       .key = SDLK_t,
                       .views = ALL,
                       .button = true,
                       .help = N_("larger text, in steps from 100 to 200 %"),
                       .act = next_text},
    [SL_START_THEME] = {.word = "theme",
                        .label = N_("Theme"),
                        .cap = "D",
                        .key = SDLK_d,
                        .views = ALL,
                        .button = true,
                        .help = N_("light, dark, high contrast"),
                        .act = next_theme},
    [SL_START_FULL] = {.word = "full-screen",
                       .cap = "F11",
                       .key = SDLK_F11,
                       .views = ALL,
                       .help = N_("full screen"),
                       .act = full_screen},
    [SL_START_HELP] = {.word = "help",
                       .label = N_("Help"),
                       .cap = "H",
                       .key = SDLK_h,
                       .other = SDLK_F1,
                       .views = ALL,
                       .help = N_("this page"),
                       .act = read_document},
    [SL_START_SPACE] = {.word = "space", .key = SDLK_SPACE, .views = ALL, .act = say_space},
    [SL_START_LEAVE] = {.word = "leave",
                        .cap = "Ctrl Q",
                        .key = SDLK_q,
                        .mod = KMOD_CTRL,
                        .views = ALL,
                        .help = N_("leave the window; from a test or a lesson: back to the start page"),
                        .act = leave},
};
