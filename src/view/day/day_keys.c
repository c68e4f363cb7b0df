/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Keys of the window itself; all others are the day's. And what they bring.
 */
#include <stdio.h>

#include "view/day/day.h"

sl_day_view sl_day_page_of(const sl_day_screen *screen)
{
    return screen->reading != SL_DAY_BENCH ? screen->reading : screen->desk->day.page;
}

/* ---- effects ---------------------------------------------------------------------------------------- */

static void show(sl_day_screen *screen, sl_day_view view)
{
    if (view == SL_DAY_CAUTIONS || view == SL_DAY_HELP || view == SL_DAY_WENT) {
        screen->reading = view;
        screen->scroll = 0;
    } else if (view < SL_DAY_CAUTIONS) {
        screen->reading = SL_DAY_BENCH;
        screen->said[0] = '\0';
    } /* list, model and what is next always stand there */
}

static void take(sl_day_screen *screen, const sl_day_effect *effect)
{
    if (effect->kind == SL_DAY_SAY || effect->kind == SL_DAY_REFUSE) {
        snprintf(screen->said, sizeof screen->said, "%s", effect->text);
        screen->refused = effect->kind == SL_DAY_REFUSE;
    } else if (effect->kind == SL_DAY_SOUND) {
        sl_day_sound_beep(&screen->sound, effect->number);
    } else if (effect->kind == SL_DAY_SHOW) {
        show(screen, (sl_day_view)effect->number);
    } else if (effect->kind == SL_DAY_LEAVE) {
        screen->leave = true;
    } /* alarms and what could not be written stand in bar and head; keeping is the desk's */
}

void sl_day_take_effects(sl_day_screen *screen)
{
    const sl_day_effects *const effects = &screen->desk->effects;
    for (int i = 0; i < effects->n; i++) {
        take(screen, &effects->effect[i]);
        screen->dirty = true;
    }
}

/* ---- presses ---------------------------------------------------------------------------------------- */

void sl_day_press(sl_day_screen *screen, sl_day_act act, int number)
{
    screen->dirty = true;
    if (screen->reading != SL_DAY_BENCH && act == SL_ACT_CLOSE) {
        screen->reading = SL_DAY_BENCH;
        return;
    }
    sl_day_desk_do(screen->desk, act, number);
    sl_day_take_effects(screen);
}

/* ---- keys ------------------------------------------------------------------------------------------- */

static void larger(sl_day_screen *screen, double by)
{
    screen->scale = by > 0.0 && screen->scale > 1.99 ? 1.0 : SDL_clamp(screen->scale + by, 1.0, 2.0);
}

static void of_control(sl_day_screen *screen, SDL_Keycode key)
{
    if (key == SDLK_q) {
        sl_day_desk_take(screen->desk, SL_KEY_LEAVE, NULL);
        sl_day_take_effects(screen);
    } else if (key == SDLK_PLUS || key == SDLK_EQUALS || key == SDLK_KP_PLUS) {
        larger(screen, screen->scale < 1.99 ? 0.25 : 0.0);
    } else if (key == SDLK_MINUS || key == SDLK_KP_MINUS) {
        larger(screen, -0.25);
    } else if (key == SDLK_0) {
        screen->scale = 1.0;
    }
}

static bool of_window(sl_day_screen *screen, SDL_Keycode key)
{
    if (key == SDLK_F11) {
        const bool full = (SDL_GetWindowFlags(screen->window) & SDL_WINDOW_FULLSCREEN_DESKTOP) != 0;
        SDL_SetWindowFullscreen(screen->window, full ? 0U : SDL_WINDOW_FULLSCREEN_DESKTOP);
    } else if (key == SDLK_d) {
        sl_eyes_next_theme(&screen->eyes);
    } else if (key == SDLK_t) {
        larger(screen, 0.25);
    } else {
        return false;
    }
    return true;
}

/* Cautions and keys are read; a stop closes them, and the question whether to stop. */
static bool of_reading(sl_day_screen *screen, SDL_Keycode key)
{
    screen->reading = key == SDLK_SPACE ? SL_DAY_BENCH : screen->reading;
    if (screen->reading == SL_DAY_BENCH || key == SDLK_s || key == SDLK_x || key == SDLK_TAB) {
        return false;
    }
    const int page = SDL_max(screen->pen.sheet != NULL ? screen->pen.sheet->h / 2 : 0, 1);
    const int by = key == SDLK_DOWN       ? page / 4
                   : key == SDLK_UP       ? -page / 4
                   : key == SDLK_PAGEDOWN ? page
                   : key == SDLK_PAGEUP   ? -page
                                          : 0;
    screen->scroll = SDL_clamp(screen->scroll + by, 0, screen->scroll_most);
    if (key == SDLK_ESCAPE || key == SDLK_RETURN || key == SDLK_KP_ENTER) {
        screen->reading = SL_DAY_BENCH;
    }
    return true;
}

/* As the day names keys (day/acts.h). */
static int day_key(SDL_Keycode key)
{
    static const struct {
        SDL_Keycode key;
        int means;
    } others[] = {{SDLK_UP, SL_KEY_UP},          {SDLK_DOWN, SL_KEY_DOWN}, {SDLK_LEFT, SL_KEY_LEFT},
                  {SDLK_RIGHT, SL_KEY_RIGHT},    {SDLK_F1, SL_KEY_F1},     {SDLK_RETURN, SL_KEY_ENTER},
                  {SDLK_KP_ENTER, SL_KEY_ENTER}, {SDLK_KP_0, '0'},         {SDLK_KP_PERIOD, '.'}};
    for (size_t i = 0; i < sizeof others / sizeof others[0]; i++) {
        if (others[i].key == key) {
            return others[i].means;
        }
    }
    return key >= SDLK_KP_1 && key <= SDLK_KP_9 ? '1' + (int)(key - SDLK_KP_1)
           : key > 0 && key < 127               ? (int)key
                                                : SL_KEY_OTHER;
}

void sl_day_key(sl_day_screen *screen, SDL_Keycode key, bool control)
{
    screen->dirty = true;
    if (control) {
        of_control(screen, key);
    } else if (!of_reading(screen, key) && !of_window(screen, key)) {
        sl_day_desk_take(screen->desk, day_key(key), NULL);
        sl_day_take_effects(screen);
    }
}
