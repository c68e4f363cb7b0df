/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Events and keys -> acts on the stage. Everything the pointer (pointer.c) can do, keys
 * can do.
 */
#include "view/window/input.h"

#include "view/panels/form.h"
#include "view/panels/turn.h"
#include "view/window/rest.h"

#include <math.h>

static const Uint32 FRAME_MS = 16; /* between frames while playing */

static bool same_spot(const sl_stage_spot *spot, sl_spot_kind kind, int number)
{
    return spot->kind == kind && spot->number == number;
}

static void press_kind(sl_stage *stage, sl_spot_kind kind)
{
    sl_stage_press(stage, (sl_stage_spot){.kind = kind});
}

/* ---- focus ------------------------------------------------------------------------- */

static void move_focus(sl_stage *stage, int direction)
{
    int at = direction > 0 ? -1 : stage->laid.n_spots;
    for (int i = 0; i < stage->laid.n_spots; i++) {
        if (same_spot(&stage->laid.spots[i], stage->hand.focus, stage->hand.focus_number)) {
            at = i;
        }
    }
    for (int i = 0; i < stage->laid.n_spots; i++) {
        at = (at + direction + stage->laid.n_spots) % stage->laid.n_spots;
        if (stage->laid.spots[at].stop) {
            stage->hand.focus = stage->laid.spots[at].kind;
            stage->hand.focus_number = stage->laid.spots[at].number;
            break;
        }
    }
    stage->hand.focus_seen = true;
    stage->dirty = true;
}

void sl_stage_press_focus(sl_stage *stage)
{
    for (int i = 0; i < stage->laid.n_spots; i++) {
        if (same_spot(&stage->laid.spots[i], stage->hand.focus, stage->hand.focus_number)) {
            sl_stage_press(stage, stage->laid.spots[i]);
            return;
        }
    }
}

void sl_stage_scroll(sl_stage *stage, int which, int by)
{
    stage->open.scroll[which] =
        SDL_clamp(stage->open.scroll[which] + by, 0, SDL_max(stage->open.scroll_most[which], 0));
    stage->dirty = true;
}

/* ---- keys --------------------------------------------------------------------------- */

static bool key_on_page(sl_stage *stage, SDL_Keycode key)
{
    const int line = sl_pen_px(&stage->pen, 40.0);
    const int sheet = SDL_max(stage->laid.layout.foot.y / 2, line);
    switch (key) {
    case SDLK_ESCAPE:
    case SDLK_RETURN:
    case SDLK_KP_ENTER:
    case SDLK_SPACE:
        press_kind(stage, SL_SPOT_CLOSE);
        return true;
    case SDLK_UP:
        sl_stage_scroll(stage, 0, -line);
        return true;
    case SDLK_DOWN:
        sl_stage_scroll(stage, 0, line);
        return true;
    case SDLK_PAGEUP:
        sl_stage_scroll(stage, 0, -sheet);
        return true;
    case SDLK_PAGEDOWN:
        sl_stage_scroll(stage, 0, sheet);
        return true;
    case SDLK_HOME:
        sl_stage_scroll(stage, 0, -1000000);
        return true;
    case SDLK_END:
        sl_stage_scroll(stage, 0, 1000000);
        return true;
    default:
        return false;
    }
}

/* How it is looked at, the same everywhere. The observer is a matter of the science. */
static bool key_for_eyes(sl_stage *stage, SDL_Keycode key)
{
    static const struct {
        SDL_Keycode key;
        sl_spot_kind kind;
    } keys[] = {{SDLK_d, SL_SPOT_THEME}, {SDLK_v, SL_SPOT_VISION}, {SDLK_l, SL_SPOT_LOOK},
                {SDLK_x, SL_SPOT_WIPE},  {SDLK_i, SL_SPOT_LIGHT},  {SDLK_t, SL_SPOT_TEXT_SIZE}};
    for (size_t i = 0; i < sizeof keys / sizeof keys[0]; i++) {
        if (keys[i].key == key) {
            press_kind(stage, keys[i].kind);
            return true;
        }
    }
    const bool science =
        stage->open.page == SL_PAGE_BESIDE ? stage->open.curves : stage->open.panel == SL_PANEL_SCIENCE;
    if (key == SDLK_o && science) {
        press_kind(stage, SL_SPOT_OBSERVER);
    }
    return key == SDLK_o;
}

/* Keys that open or close something, the same everywhere. */
static bool key_for_switches(sl_stage *stage, SDL_Keycode key)
{
    switch (key) {
    case SDLK_p:
        press_kind(stage, SL_SPOT_BESIDE);
        return true;
    case SDLK_b:
        press_kind(stage, SL_SPOT_BOWL);
        return true;
    case SDLK_f:
        press_kind(stage, SL_SPOT_FORM);
        return true;
    case SDLK_n:
        press_kind(stage, SL_SPOT_RANK);
        return true;
    case SDLK_m:
        press_kind(stage, SL_SPOT_MAP);
        return true;
    case SDLK_j:
        press_kind(stage, SL_SPOT_SEEN);
        return true;
    case SDLK_g:
        press_kind(stage, SL_SPOT_GLOSSARY);
        return true;
    case SDLK_k:
        press_kind(stage, SL_SPOT_CAUTIONS);
        return true;
    case SDLK_h:
    case SDLK_F1:
        press_kind(stage, SL_SPOT_HELP);
        return true;
    case SDLK_F11: {
        const bool full = (SDL_GetWindowFlags(stage->window) & SDL_WINDOW_FULLSCREEN_DESKTOP) != 0;
        SDL_SetWindowFullscreen(stage->window, full ? 0 : SDL_WINDOW_FULLSCREEN_DESKTOP);
        stage->dirty = true;
        return true;
    }
    default:
        return false;
    }
}

static bool key_with_control(sl_stage *stage, SDL_Keycode key)
{
    stage->dirty = true;
    switch (key) {
    case SDLK_q:
        stage->leave = true;
        return true;
    case SDLK_PLUS:
    case SDLK_EQUALS:
    case SDLK_KP_PLUS:
        stage->look.scale = SDL_min(stage->look.scale + 0.25, 2.0);
        return true;
    case SDLK_MINUS:
    case SDLK_KP_MINUS:
        stage->look.scale = SDL_max(stage->look.scale - 0.25, 1.0);
        return true;
    case SDLK_0:
        stage->look.scale = 1.0;
        return true;
    default:
        return false;
    }
}

/* +, - and arrows on the knob that holds the focus. */
static bool key_on_knob(sl_stage *stage, SDL_Keycode key)
{
    if (stage->hand.focus != SL_SPOT_KNOB || stage->open.panel != SL_PANEL_WHAT_IF) {
        return false;
    }
    const bool more =
        key == SDLK_RIGHT || key == SDLK_UP || key == SDLK_PLUS || key == SDLK_EQUALS || key == SDLK_KP_PLUS;
    const bool less = key == SDLK_LEFT || key == SDLK_DOWN || key == SDLK_MINUS || key == SDLK_KP_MINUS;
    if (more || less) {
        const sl_stage_spot spot = {.kind = more ? SL_SPOT_KNOB_MORE : SL_SPOT_KNOB_LESS,
                                    .number = stage->hand.focus_number};
        sl_stage_press(stage, spot);
    }
    return more || less;
}

static bool key_for_time(sl_stage *stage, SDL_Keycode key, bool shift)
{
    const double step = shift ? 5.0 : 1.0;
    const double now = stage->chosen.now_min;
    switch (key) {
    case SDLK_LEFT:
        sl_stage_go(stage, ceil(now - 1e-9) - step);
        return true;
    case SDLK_RIGHT:
        sl_stage_go(stage, floor(now + 1e-9) + step);
        return true;
    case SDLK_HOME:
        sl_stage_go(stage, 0.0);
        return true;
    case SDLK_END:
        sl_stage_go(stage, sl_stage_scene(stage)->until_min);
        return true;
    case SDLK_SPACE:
        press_kind(stage, SL_SPOT_PLAY);
        return true;
    default:
        return false;
    }
}

/* A panel longer than its place is read by pages. */
static bool key_on_panel(sl_stage *stage, SDL_Keycode key)
{
    const int sheet = stage->laid.layout.panel.h / 2;
    if ((stage->open.panel != SL_PANEL_SCIENCE && stage->open.panel != SL_PANEL_SHOW_AS &&
         stage->open.panel != SL_PANEL_LIMITS && stage->open.panel != SL_PANEL_BOWL) ||
        stage->open.scroll_most[1] <= 0 || (key != SDLK_PAGEUP && key != SDLK_PAGEDOWN)) {
        return false;
    }
    sl_stage_scroll(stage, 1, key == SDLK_PAGEDOWN ? sheet : -sheet);
    return true;
}

static void key_for_choice(sl_stage *stage, SDL_Keycode key)
{
    switch (key) {
    case SDLK_c:
        press_kind(stage, SL_SPOT_MODE);
        break;
    case SDLK_w:
        press_kind(stage, SL_SPOT_WHAT_IF);
        break;
    case SDLK_e:
        press_kind(stage, SL_SPOT_LIMITS);
        break;
    case SDLK_a:
        press_kind(stage, SL_SPOT_SHOW_AS);
        break;
    case SDLK_s:
        press_kind(stage, SL_SPOT_SCIENCE);
        break;
    case SDLK_DELETE:
    case SDLK_BACKSPACE:
        press_kind(stage, SL_SPOT_FORGET);
        break;
    case SDLK_r:
        press_kind(stage, SL_SPOT_RESET);
        break;
    case SDLK_UP:
        sl_stage_choose_zone(stage, stage->chosen.zone - 1);
        break;
    case SDLK_DOWN:
        sl_stage_choose_zone(stage, stage->chosen.zone + 1);
        break;
    case SDLK_LEFTBRACKET:
    case SDLK_COMMA:
    case SDLK_PAGEUP:
        sl_stage_choose_arm(stage, stage->chosen.arm - 1);
        break;
    case SDLK_RIGHTBRACKET:
    case SDLK_PERIOD:
    case SDLK_PAGEDOWN:
        sl_stage_choose_arm(stage, stage->chosen.arm + 1);
        break;
    case SDLK_PLUS:
    case SDLK_EQUALS:
    case SDLK_KP_PLUS:
        press_kind(stage, SL_SPOT_MORE);
        break;
    case SDLK_MINUS:
    case SDLK_KP_MINUS:
        press_kind(stage, SL_SPOT_LESS);
        break;
    case SDLK_RETURN:
    case SDLK_KP_ENTER:
        sl_stage_press_focus(stage);
        break;
    case SDLK_ESCAPE:
        stage->open.panel = SL_PANEL_NONE;
        stage->hand.focus_seen = false;
        stage->dirty = true;
        break;
    default:
        if (key >= SDLK_1 && key <= SDLK_9 && key - SDLK_1 < sl_stage_scene(stage)->n_arms) {
            sl_stage_choose_arm(stage, key - SDLK_1);
        }
        break;
    }
}

/* Enter presses the button with the ring; Page Up and Page Down read on. */
static bool focused_on_form(sl_stage *stage, SDL_Keycode key)
{
    if (key == SDLK_RETURN || key == SDLK_KP_ENTER) {
        sl_stage_press_focus(stage);
        stage->dirty = true;
    }
    return key == SDLK_PAGEUP || key == SDLK_PAGEDOWN;
}

static void take_key(sl_stage *stage, const SDL_KeyboardEvent *event)
{
    const SDL_Keycode key = event->keysym.sym;
    const bool shift = (event->keysym.mod & KMOD_SHIFT) != 0;
    if ((event->keysym.mod & KMOD_CTRL) != 0 && key_with_control(stage, key)) {
        return;
    }
    if (key_for_eyes(stage, key)) {
        return;
    }
    if (stage->open.page == SL_PAGE_START) { /* its cautions are not passed over */
        key_on_page(stage, key);
        return;
    }
    if (key_for_switches(stage, key)) {
        return;
    }
    if (key == SDLK_TAB && (stage->open.page == SL_PAGE_NONE || stage->open.page >= SL_PAGE_BESIDE)) {
        move_focus(stage, shift ? -1 : 1);
        return;
    }
    if (stage->open.page == SL_PAGE_BESIDE) {
        sl_stage_take_key_beside(stage, key);
        return;
    }
    if (sl_page_turns(stage->open.page) > 0) {
        sl_stage_take_key_views(stage, key);
        return;
    }
    if (stage->open.page == SL_PAGE_FORM && !focused_on_form(stage, key)) {
        sl_stage_take_key_form(stage, key);
        return;
    }
    if (stage->open.page != SL_PAGE_NONE) {
        key_on_page(stage, key);
        return;
    }
    if (key_on_knob(stage, key) || key_on_panel(stage, key) || key_for_time(stage, key, shift)) {
        return;
    }
    key_for_choice(stage, key);
}

static void take_event(sl_stage *stage, const SDL_Event *event)
{
    switch (event->type) {
    case SDL_QUIT:
        stage->leave = true;
        break;
    case SDL_KEYDOWN:
        take_key(stage, &event->key);
        break;
    case SDL_MOUSEBUTTONDOWN:
    case SDL_MOUSEBUTTONUP:
    case SDL_MOUSEMOTION:
        sl_stage_take_pointer(stage, event);
        break;
    case SDL_MOUSEWHEEL:
        sl_stage_take_wheel(stage, &event->wheel);
        break;
    case SDL_WINDOWEVENT:
        if (event->window.event == SDL_WINDOWEVENT_EXPOSED ||
            event->window.event == SDL_WINDOWEVENT_SIZE_CHANGED) {
            stage->dirty = true;
        }
        break;
    default:
        break;
    }
}

/* Also while the strips play, as nothing but time is awaited then. */
static void tell_rest(const sl_stage *stage)
{
    const bool busy =
        sl_solve_thread_busy(stage->solved.solver) || sl_study_thread_busy(stage->solved.study_thread);
    if (stage->chosen.playing || (!stage->dirty && !stage->solved.ask)) {
        sl_rest_tell(stage->chosen.playing || !busy);
    }
}

void sl_stage_take_input(sl_stage *stage)
{
    SDL_Event event;
    bool has = false;
    tell_rest(stage);
    if (stage->chosen.playing) {
        const Uint64 since = SDL_GetTicks64() - stage->last_tick;
        has = SDL_WaitEventTimeout(&event, since >= FRAME_MS ? 1 : (int)(FRAME_MS - since)) != 0;
    } else if (stage->dirty || stage->solved.ask) {
        has = SDL_PollEvent(&event) != 0;
    } else {
        has = SDL_WaitEvent(&event) != 0;
        stage->last_tick = SDL_GetTicks64();
    }
    while (has) {
        take_event(stage, &event);
        has = SDL_PollEvent(&event) != 0;
    }
}
