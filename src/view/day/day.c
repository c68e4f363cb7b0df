/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The day's life: log in, frames, log out. With SLOWLIFT_TRACE_FRAMES=2 each frame tells on
 * stderr what is next and where things stand, for tests.
 */
#include "view/day/day.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/memory.h"
#include "view/window/rest.h"
#include "view/window/say.h"

enum { TICK_MS = 100 }; /* the clock is looked at ten times a second */

/* ---- for tests --------------------------------------------------------------------------------- */

static void tell_place(FILE *out, const char *what, int number, SDL_Rect area)
{
    fprintf(out, "place %s %d %d %d %d %d\n", what, number, area.x, area.y, area.w, area.h);
}

static void tell_state(FILE *out, const sl_day *day)
{
    fprintf(out, "day page %d chosen %s stage %d started %d late %d waiting %d events %d due %d",
            (int)day->page, day->plan[day->chosen].code, (int)day->bench.state[day->chosen].stage,
            day->bench.started, day->n_late, day->waiting, day->n_events, day->n_due);
}

static void tell_places(FILE *out, const sl_day *day)
{
    for (int i = 0; i < day->n_spots; i++) {
        tell_place(out, "spot", (int)day->spot[i].act * 1000 + day->spot[i].number, day->spot[i].area);
    }
    tell_place(out, "alarm", 0, day->places.alarm);
    tell_place(out, "strip", day->arm[day->chosen], day->hair);
    tell_place(out, "model", 0, day->places.model);
    tell_place(out, "foot", 0, day->places.foot);
}

static void tell(sl_day *day)
{
    const char *const wanted = getenv("SLOWLIFT_TRACE_FRAMES");
    if (wanted == NULL || strcmp(wanted, "2") != 0) {
        return;
    }
    const sl_due *const due = &day->due[0];
    tell_state(stderr, day);
    if (day->n_due > 0) {
        fprintf(stderr, " next %d %s %.1f", (int)due->kind, day->plan[due->swatch].code, due->in_s);
    }
    fprintf(stderr, "\n");
    tell_places(stderr, day);
    fprintf(stderr, "frame %d 0 ms\n", ++day->drawn);
}

/* ---- input ---------------------------------------------------------------------------------------- */

static bool only_modifies(SDL_Keycode key)
{
    return key == SDLK_LCTRL || key == SDLK_RCTRL || key == SDLK_LSHIFT || key == SDLK_RSHIFT ||
           key == SDLK_LALT || key == SDLK_RALT || key == SDLK_CAPSLOCK;
}

static void take_press(sl_day *day, int x, int y)
{
    int w = 0;
    int h = 0;
    SDL_GetWindowSize(day->window, &w, &h); /* the pointer's pixels may be coarser than the surface's */
    const SDL_Surface *const sheet = day->pen.sheet;
    if (sheet == NULL || w <= 0 || h <= 0) {
        return;
    }
    for (int i = day->n_spots - 1; i >= 0; i--) {
        const sl_day_spot spot = day->spot[i];
        if (sl_rect_holds(spot.area, x * sheet->w / w, y * sheet->h / h)) {
            sl_day_act_on(day, spot.act, spot.number);
            return;
        }
    }
}

static void take(sl_day *day, const SDL_Event *event)
{
    if (event->type == SDL_QUIT) {
        sl_day_key(day, SDLK_q, true);
    } else if (event->type == SDL_WINDOWEVENT) {
        day->dirty = true;
    } else if (event->type == SDL_MOUSEBUTTONDOWN && event->button.button == SDL_BUTTON_LEFT) {
        day->sure = false;
        take_press(day, event->button.x, event->button.y);
    } else if (event->type == SDL_MOUSEWHEEL) {
        sl_day_key(day, event->wheel.y > 0 ? SDLK_UP : SDLK_DOWN, false);
    } else if (event->type == SDL_KEYDOWN && event->key.repeat == 0 &&
               !only_modifies(event->key.keysym.sym)) {
        const SDL_Keycode key = event->key.keysym.sym;
        const bool asks_again = key == SDLK_RETURN || key == SDLK_KP_ENTER || key == SDLK_q || key == SDLK_o;
        day->sure = day->sure && asks_again;
        sl_day_key(day, key, (event->key.keysym.mod & KMOD_CTRL) != 0);
    }
}

static void take_input(sl_day *day)
{
    SDL_Event event;
    sl_rest_tell(true);
    if (SDL_WaitEventTimeout(&event, TICK_MS)) {
        take(day, &event);
    }
}

/* ---- frames ----------------------------------------------------------------------------------------- */

/* Draw when a second of the day, or half a flash, has passed. */
static void advance(sl_day *day)
{
    const bool silent = !day->heard || (day->bench.sound_tried && !day->bench.sound_heard);
    const int waiting = day->waiting;
    const sl_code code = day->trouble.code;
    sl_day_from_elsewhere(day);
    sl_day_look(day);
    sl_day_alarm(day);
    const bool calls = day->n_late > 0 || sl_bench_eye(&day->bench);
    const int phase = calls ? (int)(SDL_GetTicks64() / (silent ? 250U : 500U) % 2U) : 0;
    const bool runs = day->bench.started || day->bench.stopping;
    const int second = runs ? (int)(SDL_GetTicks64() / (day->clock.speed > 1.0 ? 250U : 1000U)) : 0;
    const int of_day = runs ? (int)(day->now.wall_ns / 1000000000 % 86400) : 0;
    day->dirty = day->dirty || phase != day->phase || waiting != day->waiting || code != day->trouble.code ||
                 (day->clock.speed > 1.0 ? second != day->second : of_day != day->second);
    day->phase = phase;
    day->second = day->clock.speed > 1.0 ? second : of_day;
}

static bool frames(sl_day *day, sl_error *error)
{
    bool good = true;
    while (good && !day->leave) {
        advance(day);
        if (day->dirty) {
            day->dirty = false;
            good = sl_day_draw(day, error);
            tell(day);
        }
        if (good) {
            take_input(day);
        }
    }
    return good;
}

/* ---- in words ------------------------------------------------------------------------------------------ */

static void say_take(void *self, const SDL_Event *event)
{
    take(self, event);
}

static bool say_tell(void *self, const char *after, sl_error *error)
{
    sl_day *const day = self;
    for (advance(day); day->waiting > 0 && day->trouble.code == SL_OK; advance(day)) {
        SDL_Delay(1);
    }
    printf("== %s\n", after);
    sl_text_tell_to(day->text, stdout);
    const bool good = sl_day_draw(day, error);
    sl_text_tell_to(day->text, NULL);
    tell_state(stdout, day);
    fputc('\n', stdout);
    tell_places(stdout, day);
    return good && ferror(stdout) == 0;
}

static bool say_left(const void *self)
{
    const sl_day *const day = self;
    return day->leave;
}

/* ---- start and end ------------------------------------------------------------------------------------ */

static bool read_log(sl_day *day, sl_error *error)
{
    const sl_day_wish *const wish = &day->wish;
    int64_t made = 0;
    day->plan = sl_new((size_t)wish->n, sizeof *day->plan, "opening the day", error);
    day->arm = day->plan != NULL ? sl_new((size_t)wish->n, sizeof *day->arm, "opening the day", error) : NULL;
    day->arm_name =
        day->arm != NULL ? sl_new((size_t)wish->n, sizeof *day->arm_name, "opening the day", error) : NULL;
    if (day->arm_name == NULL || !sl_time_read(wish->test->made, &made, error) ||
        !sl_day_clock_start(&day->clock, made, error)) {
        return false;
    }
    for (int i = 0; i < wish->n; i++) {
        day->plan[i] = wish->swatches[i].bench;
        day->arm_name[i] = wish->swatches[i].arm;
        day->arm[i] = sl_scene_arm(wish->scene, wish->swatches[i].arm);
    }
    const bool good =
        sl_log_events(wish->log, wish->test->id, wish->swatches, wish->n, &day->event, &day->n_events, error);
    day->capacity = good ? (size_t)day->n_events : 0;
    bool started = false;
    for (int i = 0; i < day->n_events; i++) {
        started = started || day->event[i].kind == SL_EVENT_STARTED;
    }
    return good && sl_log_one_speed(wish->log, wish->test->id, day->clock.speed, started, error);
}

static bool open_day(sl_day *day, sl_error *error)
{
    if (!read_log(day, error) || !sl_day_model_make(&day->model, day->wish.scene, day->wish.eyes, error)) {
        return false;
    }
    day->text = sl_text_new(error);
    day->keeper = day->text != NULL ? sl_day_keeper_start(day->wish.log, day->wish.path, day->wish.test->id,
                                                          day->wish.swatches, day->wish.n, error)
                                    : NULL;
    return day->keeper != NULL;
}

static void free_day(sl_day *day)
{
    sl_day_sound_stop(&day->sound);
    sl_day_model_free(&day->model);
    sl_strip_free(day->strip);
    sl_text_free(day->text);
    sl_free(day->event);
    sl_free(day->plan);
    sl_free(day->arm);
    sl_free(day->arm_name);
    sl_free(day);
}

bool sl_day_run(const sl_day_wish *wish, SDL_Window *window, int *lost, sl_error *error)
{
    sl_day *const day = sl_new(1, sizeof *day, "opening the day", error);
    if (day == NULL) {
        return false;
    }
    day->wish = *wish;
    day->eyes = *wish->eyes;
    day->scale = wish->scale;
    day->window = window;
    day->dirty = true;
    sl_light_table_fill(&day->light);
    bool good = open_day(day, error);
    if (good) {
        day->heard = sl_day_sound_start(&day->sound);
        sl_day_begin(day);
        const sl_sayer sayer = {day, say_take, say_tell, say_left};
        good = wish->say != NULL ? sl_say_all(&sayer, wish->say, error) : frames(day, error);
    }
    *lost = sl_day_keeper_stop(day->keeper);
    free_day(day);
    return good;
}
