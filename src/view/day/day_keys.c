/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Which key does what. Space, S and X stop on every page; the others mean what the page says.
 */
#include <stdio.h>

#include "base/language.h"
#include "view/day/day.h"

static void leave(sl_day *day)
{
    const bool busy = sl_day_on_hair(day) || day->waiting > 0;
    if (busy && !day->sure) {
        day->sure = true;
        day->refused = true;
        snprintf(day->said, sizeof day->said, "%s",
                 day->waiting > 0
                     ? _("Something is not written yet. Ctrl and Q again leaves and prints it.")
                     : _("Mix is on the hair. Ctrl and Q again leaves; time goes on, and so does the log."));
        return;
    }
    day->leave = true;
}

static void larger(sl_day *day, double by)
{
    day->scale = by > 0.0 && day->scale > 1.99 ? 1.0 : SDL_clamp(day->scale + by, 1.0, 2.0);
}

static bool of_window(sl_day *day, SDL_Keycode key, bool control)
{
    if (control) {
        if (key == SDLK_q) {
            leave(day);
        } else if (key == SDLK_PLUS || key == SDLK_EQUALS || key == SDLK_KP_PLUS) {
            larger(day, day->scale < 1.99 ? 0.25 : 0.0);
        } else if (key == SDLK_MINUS || key == SDLK_KP_MINUS) {
            larger(day, -0.25);
        } else if (key == SDLK_0) {
            day->scale = 1.0;
        }
        return true;
    }
    if (key == SDLK_F11) {
        const bool full = (SDL_GetWindowFlags(day->window) & SDL_WINDOW_FULLSCREEN_DESKTOP) != 0;
        SDL_SetWindowFullscreen(day->window, full ? 0U : SDL_WINDOW_FULLSCREEN_DESKTOP);
    } else if (key == SDLK_d) {
        sl_eyes_next_theme(&day->eyes);
    } else if (key == SDLK_t) {
        larger(day, 0.25);
    } else if (key == SDLK_ESCAPE && day->page != SL_DAY_SOUND_TEST) {
        sl_day_act_on(day, SL_ACT_CLOSE, 0);
    } else if (key == SDLK_RETURN || key == SDLK_KP_ENTER) {
        sl_day_act_on(day, SL_ACT_GO, 0);
    } else {
        return false;
    }
    return true;
}

static void of_bench(sl_day *day, SDL_Keycode key)
{
    static const struct {
        SDL_Keycode key;
        sl_day_act act;
    } keys[] = {{SDLK_m, SL_ACT_MIXED}, {SDLK_a, SL_ACT_APPLIED}, {SDLK_w, SL_ACT_LOOKED},
                {SDLK_f, SL_ACT_FELT},  {SDLK_r, SL_ACT_RINSED},  {SDLK_n, SL_ACT_NOTE},
                {SDLK_u, SL_ACT_UNDO},  {SDLK_UP, SL_ACT_BACK},   {SDLK_LEFT, SL_ACT_BACK},
                {SDLK_DOWN, SL_ACT_ON}, {SDLK_RIGHT, SL_ACT_ON},  {SDLK_o, SL_ACT_WATER},
                {SDLK_i, SL_ACT_BOWLS}, {SDLK_b, SL_ACT_COVER},   {SDLK_k, SL_ACT_CAUTIONS},
                {SDLK_h, SL_ACT_HELP},  {SDLK_F1, SL_ACT_HELP}};
    for (size_t i = 0; i < sizeof keys / sizeof keys[0]; i++) {
        if (keys[i].key == key) {
            sl_day_act_on(day, keys[i].act, 0);
            return;
        }
    }
}

static void of_text(sl_day *day, SDL_Keycode key)
{
    const int page = SDL_max(day->pen.sheet != NULL ? day->pen.sheet->h / 2 : 0, 1);
    const int by = key == SDLK_DOWN       ? page / 4
                   : key == SDLK_UP       ? -page / 4
                   : key == SDLK_PAGEDOWN ? page
                   : key == SDLK_PAGEUP   ? -page
                                          : 0;
    day->scroll = SDL_clamp(day->scroll + by, 0, day->scroll_most);
}

void sl_day_key(sl_day *day, SDL_Keycode key, bool control)
{
    day->dirty = true;
    if (!control && (key == SDLK_SPACE || key == SDLK_s || key == SDLK_x)) {
        sl_day_act_on(day, key == SDLK_x ? SL_ACT_STOP_ONE : SL_ACT_STOP_ALL, 0);
        return;
    }
    if (of_window(day, key, control)) {
        return;
    }
    switch (day->page) {
    case SL_DAY_BENCH:
        of_bench(day, key);
        return;
    case SL_DAY_SOUND_TEST:
        if (key == SDLK_y || key == SDLK_n) {
            sl_day_act_on(day, key == SDLK_y ? SL_ACT_HEARD : SL_ACT_NOT_HEARD, 0);
        }
        return;
    case SL_DAY_STOPPED:
    case SL_DAY_BOWLS:
    case SL_DAY_NOTE_PAGE:
        if (key >= SDLK_1 && key <= SDLK_9) {
            sl_day_act_on(day, SL_ACT_CHOICE, (int)(key - SDLK_1));
        } else if (key >= SDLK_KP_1 && key <= SDLK_KP_9) {
            sl_day_act_on(day, SL_ACT_CHOICE, (int)(key - SDLK_KP_1));
        } else if (key == SDLK_o && day->page == SL_DAY_STOPPED) {
            sl_day_act_on(day, SL_ACT_GO, 0);
        } else if (key == SDLK_o && day->page == SL_DAY_BOWLS) {
            sl_day_act_on(day, SL_ACT_WATER, 0);
        } else if (key == SDLK_i && day->page == SL_DAY_STOPPED) {
            sl_day_act_on(day, SL_ACT_BOWLS, 0);
        }
        return;
    case SL_DAY_CAUTIONS:
    case SL_DAY_HELP:
        of_text(day, key);
        return;
    }
}
