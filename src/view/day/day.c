/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The day's life: log in, frames, log out. With SLOWLIFT_TRACE_FRAMES=2 each frame tells on
 * stderr what is next and where things stand, for tests.
 */
#include "view/day/day.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/language.h"
#include "base/memory.h"
#include "view/window/screen.h"

enum { TICK_MS = 100 }; /* the clock is looked at ten times a second */

/* ---- for tests --------------------------------------------------------------------------------- */

static void tell_place(FILE *out, const char *what, int number, SDL_Rect area)
{
    fprintf(out, "place %s %d %d %d %d %d\n", what, number, area.x, area.y, area.w, area.h);
}

static void tell_state(FILE *out, const sl_day_screen *screen)
{
    const sl_day *const day = &screen->desk->day;
    fprintf(out, "day page %d chosen %s stage %d started %d late %d waiting %d events %d due %d",
            (int)sl_day_page_of(screen), day->plan[day->chosen].code,
            (int)day->bench.state[day->chosen].stage, day->bench.started, day->n_late, day->waiting,
            day->n_events, day->n_due);
}

static void tell_places(FILE *out, const sl_day_screen *screen)
{
    for (int i = 0; i < screen->n_spots; i++) {
        tell_place(out, "spot", (int)screen->spot[i].act * 1000 + screen->spot[i].number,
                   screen->spot[i].area);
    }
    tell_place(out, "alarm", 0, screen->places.alarm);
    tell_place(out, "strip", screen->desk->arm_at[screen->desk->day.chosen], screen->hair);
    tell_place(out, "model", 0, screen->places.model);
    tell_place(out, "foot", 0, screen->places.foot);
}

static void tell(sl_day_screen *screen)
{
    const char *const wanted = getenv("SLOWLIFT_TRACE_FRAMES");
    if (wanted == NULL || strcmp(wanted, "2") != 0) {
        return;
    }
    const sl_day *const day = &screen->desk->day;
    const sl_due *const due = &day->due[0];
    tell_state(stderr, screen);
    if (day->n_due > 0) {
        fprintf(stderr, " next %d %s %.1f", (int)due->kind, day->plan[due->swatch].code, due->in_s);
    }
    fprintf(stderr, "\n");
    tell_places(stderr, screen);
    fprintf(stderr, "frame %d 0 ms\n", ++screen->drawn);
}

/* ---- input ---------------------------------------------------------------------------------------- */

static bool only_modifies(SDL_Keycode key)
{
    return key == SDLK_LCTRL || key == SDLK_RCTRL || key == SDLK_LSHIFT || key == SDLK_RSHIFT ||
           key == SDLK_LALT || key == SDLK_RALT || key == SDLK_CAPSLOCK;
}

static void take_press(sl_day_screen *screen, int x, int y)
{
    sl_screen_pixels(screen->window, &x, &y);
    for (int i = screen->n_spots - 1; i >= 0; i--) {
        const sl_day_spot spot = screen->spot[i];
        if (sl_rect_holds(spot.area, x, y)) {
            sl_day_press(screen, spot.act, spot.number);
            return;
        }
    }
}

static void take(sl_day_screen *screen, const SDL_Event *event)
{
    if (event->type == SDL_QUIT) {
        sl_day_key(screen, SDLK_q, true);
    } else if (event->type == SDL_WINDOWEVENT) {
        screen->dirty = true;
    } else if (event->type == SDL_MOUSEBUTTONDOWN && event->button.button == SDL_BUTTON_LEFT) {
        take_press(screen, event->button.x, event->button.y);
    } else if (event->type == SDL_MOUSEWHEEL) {
        sl_day_key(screen, event->wheel.y > 0 ? SDLK_UP : SDLK_DOWN, false);
    } else if (event->type == SDL_KEYDOWN && event->key.repeat == 0 &&
               !only_modifies(event->key.keysym.sym)) {
        const SDL_Keycode key = event->key.keysym.sym;
        sl_day_key(screen, key, (event->key.keysym.mod & KMOD_CTRL) != 0);
    }
}

/* ---- frames ----------------------------------------------------------------------------------------- */

/* Draw when a second of the day, or half a flash, has passed. */
static void advance(sl_day_screen *screen)
{
    const sl_day *const day = &screen->desk->day;
    const bool silent = !day->plays || (day->bench.sound_tried && !day->bench.sound_heard);
    const int waiting = day->waiting, readings = day->n_readings;
    const sl_code code = day->fault.code;
    sl_day_desk_pass(screen->desk);
    sl_day_take_effects(screen);
    const bool calls = day->n_late > 0 || sl_bench_eye(&day->bench);
    const int phase = calls ? (int)(SDL_GetTicks64() / (silent ? 250U : 500U) % 2U) : 0;
    char asked[SL_DAY_LINE];
    const bool runs =
        day->bench.started || day->bench.stopping || sl_day_asks_words(day, asked, sizeof asked);
    const int second = !runs              ? 0
                       : day->speed > 1.0 ? (int)(SDL_GetTicks64() / 250U)
                                          : (int)(day->now.wall_ns / 1000000000 % 86400);
    screen->dirty = screen->dirty || phase != screen->phase || waiting != day->waiting ||
                    readings != day->n_readings || code != day->fault.code || second != screen->second;
    screen->phase = phase;
    screen->second = second;
}

/* ---- the screen ---------------------------------------------------------------------------------------- */

static void screen_take(void *self, const SDL_Event *event)
{
    take(self, event);
}

static void screen_pass(void *self)
{
    advance(self);
}

static bool screen_draw(void *self, sl_error *error)
{
    sl_day_screen *const screen = self;
    bool good = true;
    if (screen->dirty) {
        screen->dirty = false;
        good = sl_day_draw(screen, error);
        tell(screen);
    }
    return good;
}

static int screen_wait_ms(void *self)
{
    (void)self;
    return TICK_MS;
}

static bool screen_busy(void *self, bool with_play)
{
    (void)with_play;
    const sl_day *const day = &((const sl_day_screen *)self)->desk->day;
    return day->waiting > 0 && day->fault.code == SL_OK;
}

static bool screen_tell(void *self, sl_error *error)
{
    sl_day_screen *const screen = self;
    sl_text_tell_to(screen->text, stdout);
    const bool good = sl_day_draw(screen, error);
    sl_text_tell_to(screen->text, NULL);
    tell_state(stdout, screen);
    fputc('\n', stdout);
    tell_places(stdout, screen);
    return good;
}

static bool screen_left(const void *self)
{
    return ((const sl_day_screen *)self)->leave;
}

/* ---- start and end ------------------------------------------------------------------------------------ */

static bool open_screen(sl_day_screen *screen, sl_error *error)
{
    sl_day_desk *const desk = screen->desk;
    desk->day.medium = SL_IN_WINDOW;
    desk->day.plays = sl_day_sound_start(&screen->sound);
    desk->day.asks_sound = true;
    screen->text = sl_text_new(error);
    if (screen->text == NULL || !sl_day_desk_begin(desk, error)) {
        return false;
    }
    return desk->model.timeline == NULL ||
           sl_lenses_fit(&screen->lenses, desk->model.scene, screen->eyes.viewing, error);
}

bool sl_day_watch(sl_day_desk *desk, const sl_eyes *eyes, double scale, const char *say, SDL_Window *window,
                  sl_error *error)
{
    sl_day_screen *const screen = sl_new(1, sizeof *screen, "opening the day", error);
    if (screen == NULL) {
        return false;
    }
    screen->desk = desk;
    screen->eyes = *eyes;
    screen->scale = scale;
    screen->window = window;
    screen->dirty = true;
    sl_light_table_fill(&screen->light);
    bool good = open_screen(screen, error);
    if (good) {
        sl_day_take_effects(screen); /* what the begin brought */
        if (desk->day.page == SL_DAY_BENCH) {
            snprintf(screen->said, sizeof screen->said, "%s",
                     _("The log was read again: it goes on where it was."));
        }
        const sl_screen shown = {screen,         1,           screen_take, screen_pass, screen_draw,
                                 screen_wait_ms, screen_busy, screen_tell, screen_left};
        good = sl_screen_run(&shown, say, error);
    }
    sl_day_sound_stop(&screen->sound);
    sl_lenses_free(&screen->lenses);
    sl_strip_free(screen->strip);
    sl_leaf_free(&screen->leaf);
    sl_text_free(screen->text);
    sl_free(screen);
    return good;
}
