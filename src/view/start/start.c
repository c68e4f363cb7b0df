/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The start page's life: what it reads, keys and pointer, frames. With SLOWLIFT_TRACE_FRAMES=2 each frame
 * tells on stderr where things stand, for tests.
 */
#include "view/start/start.h"

#include <stdlib.h>
#include <string.h>

#include "base/language.h"
#include "base/memory.h"
#include "front/places.h"
#include "slowlift/report.h"
#include "view/window/screen.h"
#include "view/window/watch.h"

enum { LOOKS_MS = 100, SECOND_MS = 1000, DRAG_PX = 10 };

/* ---- what it reads
 * ----------------------------------------------------------------------------------------- */

/* Strips are nice to have: without them the lines stand. */
static void read_example(sl_start_page *start)
{
    sl_error why = {.code = SL_OK};
    if (start->example.scene == NULL &&
        !sl_watch_story(start->models, SL_START_EXAMPLE_FILE, &start->example, &why)) {
        sl_story_free(&start->example);
        start->example = (sl_story){0};
        sl_start_tell(start, &why);
    }
}

static bool read_lessons(sl_start_page *start, sl_error *error)
{
    sl_places *const places = sl_new(1, sizeof *places, "looking for lessons", error);
    sl_error why = {.code = SL_OK};
    bool good = places != NULL;
    start->n_lessons = 0;
    if (start->lesson == NULL) {
        start->lesson = sl_new(SL_MOST_LESSONS, sizeof *start->lesson, "looking for lessons", error);
    }
    if (good && start->lesson != NULL && sl_places_find(places, start->models, NULL, &why)) {
        good = sl_lessons_list(places, start->lesson, &start->n_lessons, error);
    }
    sl_free(places);
    return good && start->lesson != NULL;
}

/* The test that the view is about is found again by its name. */
bool sl_start_read_all(sl_start_page *start, sl_error *error)
{
    if (!sl_my_tests_read(&start->my, start->models, error) || !read_lessons(start, error)) {
        return false;
    }
    int found = -1;
    for (size_t i = 0; i < start->my.n && found < 0; i++) {
        const sl_my_test *const test = &start->my.test[i];
        found = test->why.code == SL_OK && strcmp(test->name, start->test_name) == 0 ? (int)i : -1;
    }
    start->test = SDL_max(found, 0);
    if (found < 0 && (start->view == SL_START_TEST || start->view == SL_START_READ)) {
        start->view = SL_START_HOME;
    }
    start->read++;
    start->dirty = true;
    return true;
}

sl_start_page *sl_start_new(const char *models, const sl_eyes *eyes, double scale, sl_error *error)
{
    sl_start_page *const start = sl_new(1, sizeof *start, "opening the start page", error);
    if (start != NULL) {
        start->models = models;
        start->eyes = *eyes;
        start->scale = scale;
        start->papers.heard = -1;
        sl_light_table_fill(&start->light);
        read_example(start);
    }
    return start;
}

void sl_start_free(sl_start_page *start)
{
    if (start == NULL) {
        return;
    }
    sl_papers_end(&start->papers);
    for (int i = 0; i < 2 * SL_MAX_ARMS; i++) {
        sl_strip_free(start->strip[i]);
    }
    sl_lenses_free(&start->lenses);
    sl_story_free(&start->example);
    sl_leaf_free(&start->leaf);
    sl_leaf_free(&start->due);
    sl_my_tests_free(&start->my);
    sl_free(start->lesson);
    sl_free(start);
}

void sl_start_tell(sl_start_page *start, const sl_error *why)
{
    sl_error_sentence(why, start->said, sizeof start->said);
    start->dirty = true;
}

/* ---- what is done
 * ------------------------------------------------------------------------------------------- */

void sl_start_open(sl_start_page *start, sl_start_view view)
{
    start->view = view;
    start->focus = 0;
    start->focus_seen = true;
    start->scroll = start->scroll_most = 0;
    start->said[0] = '\0';
    start->awaited =
        view == SL_START_READ && (start->reads == SL_START_PLAN || start->reads == SL_START_REPORT)
            ? start->reads
            : SL_START_NOTHING;
    start->told = false;
}

void sl_start_go_to(sl_start_page *start, sl_start_go go, const char *what, const char *test)
{
    start->place = (sl_start_place){.go = go};
    snprintf(start->place.what, sizeof start->place.what, "%s", what);
    snprintf(start->place.test, sizeof start->place.test, "%s", test);
    start->leave = true;
}

void sl_start_do(sl_start_page *start, sl_start_act act, int which)
{
    start->dirty = true;
    if (!sl_papers_busy(&start->papers)) {
        start->said[0] = '\0';
    }
    if (sl_start_rows[act].act != NULL && sl_start_possible(start, act)) {
        sl_start_rows[act].act(start, act, which);
    }
}

/* ---- input
 * ---------------------------------------------------------------------------------------------------- */

/* Round and round, past what is only read. */
static void move_ring(sl_start_page *start, int by)
{
    for (int i = 0; i < start->n; i++) {
        start->focus = (start->focus + by + start->n) % start->n;
        if (start->line[start->focus].act != SL_START_NOTHING) {
            break;
        }
    }
    start->focus_seen = true;
    start->dragged = false;
}

static void scroll_by(sl_start_page *start, int by)
{
    start->scroll = SDL_clamp(start->scroll + by, 0, start->scroll_most);
    start->focus_seen = false;
    start->dirty = true;
}

static bool key_for_lines(sl_start_page *start, SDL_Keycode key, unsigned mod)
{
    const int line = sl_pen_px(&start->pen, 40.0);
    const bool down = key == SDLK_DOWN || (key == SDLK_TAB && (mod & KMOD_SHIFT) == 0);
    const bool up = key == SDLK_UP || (key == SDLK_TAB && (mod & KMOD_SHIFT) != 0);
    if ((down || up) && start->view != SL_START_READ && start->n > 0) {
        move_ring(start, down ? 1 : -1);
    } else if (down || up) {
        scroll_by(start, down ? line : -line);
    } else if (key == SDLK_RETURN || key == SDLK_KP_ENTER) {
        if (start->view == SL_START_READ) {
            sl_start_do(start, start->scroll < start->scroll_most ? SL_START_ON : SL_START_BACK, 0);
        } else if (start->n > 0) {
            sl_start_do(start, start->line[start->focus].act, start->line[start->focus].which);
        }
    } else if (key == SDLK_HOME || key == SDLK_END) {
        scroll_by(start, key == SDLK_HOME ? -start->scroll : start->scroll_most);
    } else {
        return false;
    }
    return true;
}

static void take_key(sl_start_page *start, SDL_Keycode key, unsigned mod)
{
    start->dirty = true;
    if (key_for_lines(start, key, mod)) {
        return;
    }
    for (int act = 0; act < SL_START_ACTS; act++) {
        const sl_start_row *const row = &sl_start_rows[act];
        const bool meant = row->key != 0 && (key == row->key || key == row->other);
        if (meant && ((mod & KMOD_CTRL) != 0) == (row->mod != 0) && (row->views >> start->view & 1U) != 0) {
            sl_start_do(start, (sl_start_act)act, 0);
            return;
        }
    }
}

/* On release, so that a finger that moves the lines presses none. */
static void press_at(sl_start_page *start, int x, int y)
{
    for (int i = start->n_spots - 1; i >= 0; i--) {
        const sl_start_spot spot = start->spot[i];
        if (sl_rect_holds(spot.area, x, y)) {
            for (int l = 0; l < start->n; l++) {
                const bool it = start->line[l].act == spot.act && start->line[l].which == spot.which;
                start->focus = it ? l : start->focus;
            }
            sl_start_do(start, spot.act, spot.which);
            return;
        }
    }
}

static void take_pointer(sl_start_page *start, const SDL_Event *event)
{
    const bool moves = event->type == SDL_MOUSEMOTION;
    int x = moves ? event->motion.x : event->button.x, y = moves ? event->motion.y : event->button.y;
    sl_screen_pixels(start->window, &x, &y);
    if (event->type == SDL_MOUSEBUTTONDOWN && event->button.button == SDL_BUTTON_LEFT) {
        start->held = true;
        start->dragged = false;
        start->held_x = x;
        start->held_y = y;
        start->held_scroll = start->scroll;
    } else if (moves && start->held && (start->dragged || SDL_abs(y - start->held_y) > DRAG_PX)) {
        start->dragged = start->scroll_most > 0;
        scroll_by(start, start->held_scroll + start->held_y - y - start->scroll);
    } else if (event->type == SDL_MOUSEBUTTONUP && event->button.button == SDL_BUTTON_LEFT && start->held) {
        start->held = false;
        if (!start->dragged) {
            press_at(start, x, y);
        }
    }
}

static void take(void *self, const SDL_Event *event)
{
    sl_start_page *const start = self;
    switch (event->type) {
    case SDL_QUIT:
        sl_start_do(start, SL_START_LEAVE, 0);
        break;
    case SDL_KEYDOWN:
        take_key(start, event->key.keysym.sym, event->key.keysym.mod);
        break;
    case SDL_MOUSEBUTTONDOWN:
    case SDL_MOUSEBUTTONUP:
    case SDL_MOUSEMOTION:
        take_pointer(start, event);
        break;
    case SDL_MOUSEWHEEL:
        scroll_by(start, -event->wheel.y * sl_pen_px(&start->pen, 60.0));
        break;
    case SDL_WINDOWEVENT:
        start->dirty = true;
        break;
    default:
        break;
    }
}

/* ---- frames
 * ---------------------------------------------------------------------------------------------------- */

static void pass(void *self)
{
    sl_start_page *const start = self;
    sl_error error = {.code = SL_OK};
    if (start->awaited != SL_START_NOTHING && start->told) { /* the page said that it counts */
        start->awaited = SL_START_NOTHING;
        start->dirty = true;
    }
    if (sl_papers_busy(&start->papers)) {
        if (!sl_papers_pass(&start->papers, &error)) {
            sl_start_tell(start, &error);
        } else if (!sl_papers_busy(&start->papers)) {
            snprintf(start->said, sizeof start->said, _("The papers lie in the folder \"%.600s\"."),
                     start->my.settled.tests);
            start->dirty = true;
        }
    }
    const Uint64 second = SDL_GetTicks64() / SECOND_MS;
    if (second != start->second && start->view == SL_START_HOME && sl_my_running(&start->my) >= 0) {
        start->dirty = true;
    }
    start->second = second;
}

static void tell_places(FILE *out, const sl_start_page *start)
{
    for (int i = 0; i < start->n_spots; i++) {
        const sl_start_spot *const spot = &start->spot[i];
        fprintf(out, "place %s %d %d %d %d %d\n", sl_start_rows[spot->act].word, spot->which, spot->area.x,
                spot->area.y, spot->area.w, spot->area.h);
    }
    fprintf(out, "place hair 0 %d %d %d %d\n", start->hair.x, start->hair.y, start->hair.w, start->hair.h);
    fprintf(out, "place body 0 %d %d %d %d\n", start->body.x, start->body.y, start->body.w, start->body.h);
    fprintf(out, "place start-view %d 0 0 1 1\n", (int)start->view);
}

static bool draw(void *self, sl_error *error)
{
    sl_start_page *const start = self;
    const char *const wanted = getenv("SLOWLIFT_TRACE_FRAMES");
    if (!start->dirty) {
        return true;
    }
    start->dirty = false;
    const bool good = sl_start_draw(start, error);
    start->told = true;
    if (wanted != NULL && strcmp(wanted, "2") == 0) {
        tell_places(stderr, start);
        fprintf(stderr, "frame %d 0 ms\n", ++start->drawn);
    }
    return good;
}

static int wait_ms(void *self)
{
    const sl_start_page *const start = self;
    return start->awaited != SL_START_NOTHING ? 1
           : sl_papers_busy(&start->papers)   ? LOOKS_MS
           : sl_my_running(&start->my) >= 0   ? SECOND_MS
                                              : -1;
}

static bool busy(void *self, bool with_play)
{
    const sl_start_page *const start = self;
    /* what is awaited comes once the page that says so is drawn: --say draws between */
    return (start->awaited != SL_START_NOTHING && !with_play) || sl_papers_busy(&start->papers);
}

static bool tell(void *self, sl_error *error)
{
    sl_start_page *const start = self;
    sl_text_tell_to(start->text, stdout);
    const bool good = sl_start_draw(start, error);
    sl_text_tell_to(start->text, NULL);
    tell_places(stdout, start);
    return good;
}

static bool left(const void *self)
{
    return ((const sl_start_page *)self)->leave;
}

bool sl_start_run(sl_start_page *start, SDL_Window *window, const char *say, sl_error *error)
{
    start->window = window;
    start->leave = start->held = start->dragged = false;
    start->place = (sl_start_place){.go = SL_GO_LEAVE};
    start->text = sl_text_new(error);
    SDL_SetWindowTitle(window, "slowlift");
    bool good = start->text != NULL && sl_start_read_all(start, error);
    if (good) {
        const sl_screen screen = {start, SL_ALL_EVENTS, take, pass, draw, wait_ms, busy, tell, left};
        good = sl_screen_run(&screen, say, error);
    }
    sl_text_free(start->text);
    start->text = NULL;
    start->leaf.width = start->due.width = 0; /* other letters: laid anew */
    return good;
}
