/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Keys -> acts on the session, and the clock of the run. Nothing runs by itself: each way to a
 * stop is one press of Enter, and a second press ends it at once.
 */
#include <stdio.h>
#include <string.h>

#include "lesson/answers_save.h"
#include "lesson/words.h"
#include "view/lesson/lesson_desk.h"
#include "view/lesson/lesson_words.h"

enum { FAR = 1000000 }; /* pixels; longer than any text */

static const double WAY_S = 1.5; /* of the run, from stop to stop */

const char *sl_desk_language(const sl_desk *desk)
{
    return desk->wish.lesson->language;
}

static sl_page_kind kind_now(const sl_desk *desk)
{
    return sl_session_page(&desk->session)->kind;
}

static double stop_min(const sl_lesson *lesson, int stop)
{
    return stop < 0 ? 0.0 : lesson->numbers[lesson->run.stop[stop]].value;
}

static int strips_of_run(const sl_lesson *lesson)
{
    return lesson->run.n_arms * (lesson->run.beside >= 0 ? 2 : 1);
}

int sl_desk_copies(const sl_desk *desk)
{
    const sl_lesson *const lesson = desk->wish.lesson;
    const int reached = kind_now(desk) == SL_PAGE_CASES ? 1
                        : kind_now(desk) == SL_PAGE_RUN ? 1 + desk->stop + (desk->running ? 1 : 0)
                                                        : 1 + lesson->run.n_stops;
    return reached * strips_of_run(lesson) <= SL_DESK_COPIES ? reached : 1;
}

int sl_desk_strips(const sl_desk *desk, int *scene, int *zone, const int **arm)
{
    const sl_lesson *const lesson = desk->wish.lesson;
    const sl_page_kind kind = kind_now(desk);
    if (desk->wish.class_ != NULL || desk->over != SL_OVER_NONE) {
        return 0;
    }
    if (kind == SL_PAGE_CASES) {
        *scene = lesson->cases.scene;
        *zone = lesson->cases.zone;
        *arm = lesson->cases.arm;
        return lesson->cases.n_arms;
    }
    if (kind == SL_PAGE_RUN || kind == SL_PAGE_SAW || kind == SL_PAGE_EXPLAIN) {
        *scene = lesson->run.scene;
        *zone = lesson->run.zone;
        *arm = lesson->run.arm;
        return strips_of_run(lesson) * sl_desk_copies(desk);
    }
    return 0;
}

sl_desk_strip sl_desk_strip_at(const sl_desk *desk, int i)
{
    sl_desk_strip strip = {.minute = sl_desk_minute(desk), .stop = -1};
    const int *arm = NULL;
    const int n = sl_desk_strips(desk, &strip.scene, &strip.zone, &arm);
    const sl_lesson_run *const run = &desk->wish.lesson->run;
    if (arm == run->arm && sl_desk_copies(desk) > 1) {
        const int copy = i / strips_of_run(desk->wish.lesson);
        const bool on_the_way = desk->running && copy == sl_desk_copies(desk) - 1;
        strip.stop = on_the_way ? -1 : copy;
        strip.minute = on_the_way ? desk->now_min : stop_min(desk->wish.lesson, copy - 1);
        i %= strips_of_run(desk->wish.lesson);
    }
    if (arm == run->arm && i >= run->n_arms) { /* the second half */
        strip.scene = run->beside;
        i -= run->n_arms;
    }
    strip.arm = i < n ? arm[i] : 0;
    return strip;
}

bool sl_desk_figures(const sl_desk *desk)
{
    return kind_now(desk) != SL_PAGE_SAW;
}

double sl_desk_minute(const sl_desk *desk)
{
    const sl_lesson *const lesson = desk->wish.lesson;
    if (kind_now(desk) == SL_PAGE_CASES) {
        return lesson->numbers[lesson->cases.at].value;
    }
    return kind_now(desk) == SL_PAGE_RUN ? desk->now_min : stop_min(lesson, lesson->run.n_stops - 1);
}

/* ---- keeping ------------------------------------------------------------------------------------- */

static void keep(sl_desk *desk)
{
    sl_error error = {.code = SL_OK};
    if (desk->wish.path == NULL) {
        return;
    }
    desk->unsaved = !sl_learner_answers_save(desk->wish.answers, desk->wish.path, &error);
    desk->leaving = desk->leaving && desk->unsaved;
    if (desk->unsaved) {
        snprintf(desk->message, sizeof desk->message, "%s  %.160s: %.160s",
                 sl_lesson_said(SL_SAID_NOT_SAVED, sl_desk_language(desk)), error.found, error.wanted);
    }
}

static void say(sl_desk *desk, const char *text)
{
    snprintf(desk->message, sizeof desk->message, "%s", text);
}

/* ---- steps ------------------------------------------------------------------------------------- */

/* A run that was seen before stands at its last stop. */
static void open_page(sl_desk *desk)
{
    const sl_lesson *const lesson = desk->wish.lesson;
    const bool seen = desk->session.record->page > desk->session.page;
    desk->stop = seen ? lesson->run.n_stops : 0;
    desk->now_min = stop_min(lesson, desk->stop - 1);
    desk->running = false;
    desk->scroll = 0;
}

void sl_desk_begin(sl_desk *desk)
{
    open_page(desk);
}

static void moved(sl_desk *desk)
{
    desk->message[0] = '\0';
    open_page(desk);
    keep(desk);
}

static void end_way(sl_desk *desk)
{
    desk->running = false;
    desk->now_min = desk->to_min;
    desk->stop++;
    desk->scroll = 0;
}

static bool run_on(sl_desk *desk)
{
    const sl_lesson_run *const run = &desk->wish.lesson->run;
    if (kind_now(desk) != SL_PAGE_RUN || desk->stop >= run->n_stops) {
        return false;
    }
    if (desk->running) {
        end_way(desk);
        return true;
    }
    desk->from_min = desk->now_min;
    desk->to_min = stop_min(desk->wish.lesson, desk->stop);
    desk->began = SDL_GetTicks64();
    desk->running = true;
    return true;
}

void sl_desk_advance(sl_desk *desk)
{
    if (!desk->running) {
        return;
    }
    const double share = (double)(SDL_GetTicks64() - desk->began) / 1000.0 / WAY_S;
    if (share >= 1.0) {
        end_way(desk);
    } else {
        desk->now_min = desk->from_min + share * (desk->to_min - desk->from_min);
    }
    desk->dirty = true;
}

static void go_on(sl_desk *desk)
{
    const char *why = NULL;
    if (desk->scroll < desk->scroll_most) { /* read on */
        desk->scroll = SDL_min(desk->scroll + desk->places.text.h * 3 / 4, desk->scroll_most);
        return;
    }
    if (run_on(desk)) {
        return;
    }
    if (sl_session_next(&desk->session, &why)) {
        moved(desk);
    } else {
        say(desk, why);
    }
}

static void skip(sl_desk *desk)
{
    if (sl_session_skip(&desk->session)) {
        moved(desk);
        if (!desk->unsaved) {
            say(desk, sl_lesson_said(SL_SAID_SKIPPED, sl_desk_language(desk)));
        }
    } else {
        say(desk, sl_lesson_said(SL_SAID_ONLY_EDUCATOR, sl_desk_language(desk)));
    }
}

static void answer(sl_desk *desk, int choice)
{
    const sl_question *const question = sl_session_question(&desk->session);
    if (question == NULL) {
        return;
    }
    desk->message[0] = '\0';
    if (choice >= question->n) {
        say(desk, sl_lesson_said(SL_SAID_NO_CHOICE, sl_desk_language(desk)));
    } else if (sl_session_answer(&desk->session, choice)) {
        desk->scroll = FAR; /* to the feedback, which stands last */
        keep(desk);
    } else {
        say(desk, sl_lesson_said(SL_SAID_FIRST, sl_desk_language(desk)));
    }
}

static void escape(sl_desk *desk)
{
    if (desk->over != SL_OVER_NONE) {
        desk->over = SL_OVER_NONE;
        desk->scroll = 0;
        return;
    }
    if (desk->wish.class_ == NULL) {
        keep(desk);
    }
    desk->leave = !desk->unsaved || desk->leaving;
    if (!desk->leave) {
        desk->leaving = true;
        say(desk, sl_shown_word(SL_SHOWN_LEAVE_UNSAVED, sl_desk_language(desk)));
    }
}

static void lay_over(sl_desk *desk, sl_over over)
{
    desk->over = desk->over == over ? SL_OVER_NONE : over;
    desk->scroll = 0;
}

static void next_size(sl_desk *desk)
{
    desk->wish.room = false;
    desk->wish.scale = desk->wish.scale > 1.9 ? 1.0 : desk->wish.scale + 0.25;
}

/* How it is looked at; the same everywhere. */
static bool key_for_eyes(sl_desk *desk, SDL_Keycode key)
{
    switch (key) {
    case SDLK_c:
        desk->wish.room = !desk->wish.room;
        return true;
    case SDLK_t:
        next_size(desk);
        return true;
    case SDLK_d:
        sl_eyes_next_theme(&desk->wish.eyes);
        return true;
    case SDLK_v:
        sl_eyes_next_vision(&desk->wish.eyes);
        return true;
    case SDLK_F11: {
        const bool full = (SDL_GetWindowFlags(desk->window) & SDL_WINDOW_FULLSCREEN_DESKTOP) != 0;
        SDL_SetWindowFullscreen(desk->window, full ? 0 : SDL_WINDOW_FULLSCREEN_DESKTOP);
        return true;
    }
    default:
        return false;
    }
}

static bool key_for_text(sl_desk *desk, SDL_Keycode key)
{
    const int line = sl_pen_px(&desk->pen, 40.0);
    const int by = key == SDLK_DOWN       ? line
                   : key == SDLK_UP       ? -line
                   : key == SDLK_PAGEDOWN ? desk->places.text.h * 3 / 4
                   : key == SDLK_PAGEUP   ? -desk->places.text.h * 3 / 4
                                          : 0;
    desk->scroll = SDL_clamp(desk->scroll + by, 0, SDL_max(desk->scroll_most, 0));
    return by != 0;
}

static void key_for_steps(sl_desk *desk, SDL_Keycode key)
{
    if (key >= SDLK_1 && key <= SDLK_9) {
        answer(desk, key - SDLK_1);
    } else if (key >= SDLK_KP_1 && key <= SDLK_KP_9) {
        answer(desk, key - SDLK_KP_1);
    } else if (key == SDLK_RETURN || key == SDLK_KP_ENTER) {
        go_on(desk);
    } else if (key == SDLK_p) {
        run_on(desk);
    } else if (key == SDLK_SPACE) {
        say(desk, sl_shown_word(SL_SHOWN_SPACE, sl_desk_language(desk)));
    } else if (key == SDLK_BACKSPACE) {
        sl_session_back(&desk->session);
        moved(desk);
    } else if (key == SDLK_s) {
        skip(desk);
    }
}

void sl_desk_key(sl_desk *desk, SDL_Keycode key)
{
    desk->dirty = true;
    if (key_for_eyes(desk, key) || key_for_text(desk, key)) {
        return;
    }
    if (key == SDLK_ESCAPE) {
        escape(desk);
    } else if (desk->wish.class_ != NULL) {
        return;
    } else if (key == SDLK_h || key == SDLK_F1) {
        lay_over(desk, SL_OVER_KEYS);
    } else if (key == SDLK_n && desk->wish.educator) {
        lay_over(desk, SL_OVER_NOTES);
    } else if (desk->over == SL_OVER_NONE) {
        key_for_steps(desk, key);
    } else if (key == SDLK_RETURN && desk->scroll >= desk->scroll_most) {
        escape(desk);
    } else if (key == SDLK_RETURN) {
        desk->scroll = SDL_min(desk->scroll + desk->places.text.h * 3 / 4, desk->scroll_most);
    }
}
