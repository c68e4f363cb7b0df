/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Frames of a lesson: head, text, strips, foot. With SLOWLIFT_TRACE_FRAMES=2 each frame says on
 * stderr which step it shows, for tests.
 */
#include "view/lesson/lesson_desk.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/language.h"
#include "base/memory.h"
#include "lesson/class_text.h"
#include "lesson/words.h"
#include "slowlift/report.h"
#include "view/lesson/lesson_words.h"
#include "view/window/screen.h"

static const int FRAME_MS = 16;

static double scale_now(const sl_desk *desk)
{
    return desk->wish.room ? SDL_max(desk->wish.scale, SL_ROOM_SCALE) : desk->wish.scale;
}

static void put_head_text(const sl_desk *desk, char *first, char *second)
{
    const sl_lesson *const lesson = desk->wish.lesson;
    const char *const language = sl_desk_language(desk);
    snprintf(first, SL_DESK_LINE, _("Lesson %d: %s"), lesson->number, lesson->title);
    if (desk->wish.class_ != NULL) {
        snprintf(second, SL_DESK_LINE, "%s", _("What the class answered"));
        return;
    }
    snprintf(second, SL_DESK_LINE, "%s %d %s %d: %s", sl_lesson_said(SL_SAID_STEP, language),
             desk->session.page + 1, sl_lesson_said(SL_SAID_OF, language), lesson->n_pages,
             sl_page_word(sl_session_page(&desk->session)->kind, language));
}

static const char *keys_line(const sl_desk *desk)
{
    const char *const language = sl_desk_language(desk);
    const sl_page_kind kind = sl_session_page(&desk->session)->kind;
    if (desk->wish.class_ != NULL) {
        return sl_shown_word(SL_SHOWN_CLASS_KEYS, language);
    }
    if (desk->over != SL_OVER_NONE) {
        return sl_shown_word(SL_SHOWN_KEYS_SHUT, language);
    }
    if (desk->scroll < desk->scroll_most) {
        return sl_shown_word(SL_SHOWN_KEYS_READ, language);
    }
    if (sl_session_question(&desk->session) != NULL && sl_session_answered(&desk->session) == SL_NO_ANSWER) {
        return sl_shown_word(SL_SHOWN_KEYS_ANSWER, language);
    }
    const bool runs = kind == SL_PAGE_RUN && desk->stop < desk->wish.lesson->run.n_stops;
    return sl_shown_word(runs ? SL_SHOWN_KEYS_RUN : SL_SHOWN_KEYS_ON, language);
}

static void put_standing(const sl_desk *desk, char *text)
{
    const char *const language = sl_desk_language(desk);
    snprintf(text, SL_DESK_LINE, "%s  %s", sl_lesson_said(SL_SAID_EXAMPLE, language),
             sl_shown_word(SL_SHOWN_UNCALIBRATED, language));
}

static int text_height(const sl_desk *desk, sl_type type, int width, const char *text)
{
    return sl_pen_size(&desk->pen, type, SL_INK_TEXT, width, text).y;
}

/* What stands where, from what the text in it takes. */
static void arrange(sl_desk *desk)
{
    const sl_pen *const pen = &desk->pen;
    const SDL_Surface *const sheet = pen->sheet;
    const int width = sheet->w - 2 * sl_pen_px(pen, 14.0);
    const int pad = sl_pen_px(pen, 4.0);
    char first[SL_DESK_LINE];
    char second[SL_DESK_LINE];
    char standing[SL_DESK_LINE];
    int scene = 0;
    int zone = 0;
    const int *arm = NULL;
    put_head_text(desk, first, second);
    put_standing(desk, standing);
    const int words_w = width - sl_desk_buttons_w(desk);
    const int message = desk->message[0] == '\0'
                            ? 0
                            : text_height(desk, SL_TYPE_BODY, width - 4 * pad, desk->message) + 3 * pad;
    const sl_step_wish wish = {
        .width = sheet->w,
        .height = sheet->h,
        .scale = scale_now(desk),
        .n_strips = sl_desk_strips(desk, &scene, &zone, &arm),
        .head_h =
            text_height(desk, SL_TYPE_HEAD, width, first) + text_height(desk, SL_TYPE_STRONG, width, second),
        .foot_h = message + pad +
                  SDL_max(text_height(desk, SL_TYPE_NOTE, words_w, standing) +
                              text_height(desk, SL_TYPE_STRONG, words_w, keys_line(desk)),
                          sl_desk_buttons_h(desk)),
        .name_h = 2 * sl_text_line_height(pen->text, SL_TYPE_SMALL),
        .figure_h = sl_text_line_height(pen->text, SL_TYPE_FIGURE) + sl_pen_px(pen, 22.0) +
                    sl_text_line_height(pen->text, SL_TYPE_SMALL),
        .caption_h = 2 * sl_text_line_height(pen->text, SL_TYPE_STRONG),
    };
    desk->places = sl_step_place(&wish);
}

static void show_head(const sl_desk *desk)
{
    const SDL_Rect area = desk->places.head;
    char first[SL_DESK_LINE];
    char second[SL_DESK_LINE];
    put_head_text(desk, first, second);
    const int used = sl_pen_wrap(&desk->pen, SL_TYPE_HEAD, SL_INK_TEXT, area, false, first);
    sl_pen_wrap(&desk->pen, SL_TYPE_STRONG, SL_INK_QUIET, (SDL_Rect){area.x, area.y + used, area.w, 0}, false,
                second);
}

static void show_foot(const sl_desk *desk)
{
    const sl_pen *const pen = &desk->pen;
    const int pad = sl_pen_px(pen, 4.0);
    SDL_Rect area = desk->places.foot;
    char standing[SL_DESK_LINE];
    if (desk->message[0] != '\0') {
        const SDL_Rect inner = {area.x + 2 * pad, area.y + pad, area.w - 4 * pad, 0};
        const int h = text_height(desk, SL_TYPE_BODY, inner.w, desk->message);
        sl_pen_fill(pen, (SDL_Rect){area.x, area.y, area.w, h + 2 * pad}, SL_GROUND_DARK);
        sl_pen_wrap(pen, SL_TYPE_BODY, SL_INK_LIGHT, inner, false, desk->message);
        area.y += h + 3 * pad;
    }
    sl_pen_fill(pen, (SDL_Rect){area.x, area.y - pad / 2, area.w, 1}, SL_MARK_GRID);
    sl_desk_put_buttons(desk);
    area.w -= sl_desk_buttons_w(desk);
    area.y += sl_pen_wrap(pen, SL_TYPE_STRONG, SL_INK_TEXT, area, false, keys_line(desk)) + pad / 2;
    put_standing(desk, standing);
    sl_pen_wrap(pen, SL_TYPE_NOTE, SL_INK_TEXT, area, false, standing);
}

/* Returns where it ends. */
static int put_class(sl_desk *desk, SDL_Rect area)
{
    sl_document *const document = sl_leaf_renew(&desk->leaf, 1);
    if (document != NULL) {
        sl_document_begin(document, "class", NULL, &desk->leaf.error);
        sl_class_say_lesson(document, desk->wish.class_, desk->wish.lesson);
        sl_document_end(document, SL_ON_NOTHING);
    }
    sl_leaf_lay(&desk->leaf, &desk->pen, area.w, SL_SCIENCE);
    sl_leaf_draw(&desk->leaf, &desk->pen, area.x, area.y);
    return area.y + sl_leaf_height(&desk->leaf);
}

/* Text in its area, moved by the scroll; what does not fit can be reached. */
static void show_text(sl_desk *desk)
{
    const SDL_Rect view = desk->places.text;
    SDL_SetClipRect(desk->pen.sheet, &view);
    const SDL_Rect area = {view.x, view.y - desk->scroll, view.w, 0};
    const int end = desk->wish.class_ != NULL ? put_class(desk, area) : sl_desk_put_text(desk, area);
    SDL_SetClipRect(desk->pen.sheet, NULL);
    desk->scroll_most = SDL_max(end - area.y - view.h, 0);
}

static bool draw_once(sl_desk *desk, sl_error *error)
{
    const SDL_Surface *const sheet = desk->pen.sheet;
    arrange(desk);
    sl_pen_fill(&desk->pen, (SDL_Rect){0, 0, sheet->w, sheet->h}, SL_GROUND_FRAME);
    show_text(desk);
    show_head(desk);
    show_foot(desk);
    return sl_desk_put_strips(desk, error);
}

bool sl_desk_draw(sl_desk *desk, sl_error *error)
{
    SDL_Surface *const sheet = SDL_GetWindowSurface(desk->window);
    if (sheet == NULL || sheet->format->BytesPerPixel != 4) {
        return sl_fail(error, SL_ERR_MISSING_PART, "a window to draw in",
                       "the display must offer 32-bit colour");
    }
    const double unit = sl_step_unit(sheet->w, sheet->h, scale_now(desk));
    if (!sl_text_scale(desk->text, unit, error)) {
        return false;
    }
    sl_text_turn(desk->text);
    desk->pen = (sl_pen){sheet, desk->text, sl_theme_at(desk->wish.eyes.theme), unit};
    const int scroll = desk->scroll;
    const int most = desk->scroll_most;
    bool good = draw_once(desk, error);
    desk->scroll = SDL_clamp(desk->scroll, 0, desk->scroll_most);
    if (good && (desk->scroll != scroll || desk->scroll_most != most)) { /* the foot tells of it */
        good = draw_once(desk, error);
    }
    if (good && SDL_UpdateWindowSurface(desk->window) != 0) {
        return sl_fail(error, SL_ERR_MISSING_PART, SDL_GetError(), "the window cannot be drawn to");
    }
    return good;
}

/* ---- for tests ---------------------------------------------------------------------------------- */

static void tell_place(FILE *out, const char *what, int number, SDL_Rect area)
{
    fprintf(out, "place %s %d %d %d %d %d\n", what, number, area.x, area.y, area.w, area.h);
}

static void tell_step(FILE *out, const sl_desk *desk)
{
    const sl_question *const question = sl_session_question(&desk->session);
    fprintf(out,
            "step %d of %d kind %d question %s choices %d right %d answered %d stop %d below %d message %d\n",
            desk->session.page, desk->wish.lesson->n_pages, (int)sl_session_page(&desk->session)->kind,
            question != NULL ? question->key : "-", question != NULL ? question->n : 0,
            question != NULL ? question->right : -1, sl_session_answered(&desk->session), desk->stop,
            desk->scroll_most - desk->scroll, desk->message[0] != '\0');
    for (int i = 0; i < desk->places.n; i++) {
        tell_place(out, "strip", i, desk->places.strip[i]);
        tell_place(out, "figure", i, desk->places.figure[i]);
    }
    tell_place(out, "text", 0, desk->places.text);
    tell_place(out, "foot", 0, desk->places.foot);
    tell_place(out, "head", 0, desk->places.head);
    tell_place(out, "back", 0, sl_desk_button(desk, false));
    tell_place(out, "next", 0, sl_desk_button(desk, true));
    for (int i = 0; i < desk->n_choices; i++) {
        tell_place(out, "choice", i, desk->choice[i]);
    }
}

static void tell(sl_desk *desk)
{
    const char *const wanted = getenv("SLOWLIFT_TRACE_FRAMES");
    if (wanted != NULL && strcmp(wanted, "2") == 0) {
        tell_step(stderr, desk);
        fprintf(stderr, "frame %d 0 ms\n", ++desk->drawn);
    }
}

/* ---- the window --------------------------------------------------------------------------------- */

static void point_at(sl_desk *desk, int x, int y)
{
    sl_screen_pixels(desk->window, &x, &y);
    sl_desk_point(desk, x, y);
}

static void take_event(sl_desk *desk, const SDL_Event *event)
{
    if (event->type == SDL_QUIT) {
        sl_desk_key(desk, SDLK_ESCAPE);
    } else if (event->type == SDL_WINDOWEVENT) {
        desk->dirty = true;
    } else if (event->type == SDL_MOUSEWHEEL) {
        sl_desk_key(desk, event->wheel.y > 0 ? SDLK_UP : SDLK_DOWN);
    } else if (event->type == SDL_MOUSEBUTTONDOWN && event->button.button == SDL_BUTTON_LEFT) {
        point_at(desk, event->button.x, event->button.y);
    } else if (event->type == SDL_FINGERMOTION) {
        desk->scroll = SDL_clamp(desk->scroll - (int)((double)event->tfinger.dy * desk->pen.sheet->h), 0,
                                 SDL_max(desk->scroll_most, 0));
        desk->dirty = true;
    } else if (event->type == SDL_KEYDOWN) {
        const bool leaves = event->key.keysym.sym == SDLK_q && (event->key.keysym.mod & KMOD_CTRL) != 0;
        sl_desk_key(desk, leaves ? SDLK_ESCAPE : event->key.keysym.sym);
    }
}

/* ---- the screen ------------------------------------------------------------------------------------- */

static void screen_take(void *self, const SDL_Event *event)
{
    take_event(self, event);
}

static void screen_pass(void *self)
{
    sl_desk_advance(self);
}

static bool screen_draw(void *self, sl_error *error)
{
    sl_desk *const desk = self;
    bool good = true;
    if (desk->dirty) {
        desk->dirty = false;
        good = sl_desk_draw(desk, error);
        tell(desk);
    }
    return good;
}

static int screen_wait_ms(void *self)
{
    return ((const sl_desk *)self)->running ? FRAME_MS : -1;
}

static bool screen_busy(void *self, bool with_play)
{
    (void)with_play;
    return ((const sl_desk *)self)->running;
}

static bool screen_tell(void *self, sl_error *error)
{
    sl_desk *const desk = self;
    sl_text_tell_to(desk->text, stdout);
    const bool good = sl_desk_draw(desk, error);
    sl_text_tell_to(desk->text, NULL);
    tell_step(stdout, desk);
    return good;
}

static bool screen_left(const void *self)
{
    return ((const sl_desk *)self)->leave;
}

static void free_desk(sl_desk *desk)
{
    for (int i = 0; i < SL_MAX_ARMS; i++) {
        sl_strip_free(desk->strip[i]);
    }
    for (int i = 0; i < SL_MOST_LESSON_SCENES; i++) {
        sl_lenses_free(&desk->lenses[i]);
    }
    sl_leaf_free(&desk->leaf);
    sl_text_free(desk->text);
    sl_free(desk);
}

bool sl_desk_run(const sl_desk_wish *wish, SDL_Window *window, bool *unsaved, sl_error *error)
{
    sl_desk *const desk = sl_new(1, sizeof *desk, "opening the lesson", error);
    if (desk == NULL) {
        return false;
    }
    desk->wish = *wish;
    desk->window = window;
    desk->dirty = true;
    sl_light_table_fill(&desk->light);
    sl_record *const record = sl_learner_answers_record(wish->answers, wish->lesson, error);
    desk->text = record != NULL ? sl_text_new(error) : NULL;
    bool good = desk->text != NULL;
    if (good) {
        desk->session = sl_session_start(wish->lesson, record, wish->educator);
        sl_desk_begin(desk);
        /* One event a frame, so that no key meets a step that was not shown. */
        const sl_screen screen = {desk,           1,           screen_take, screen_pass, screen_draw,
                                  screen_wait_ms, screen_busy, screen_tell, screen_left};
        good = sl_screen_run(&screen, wish->say, error);
    }
    *unsaved = desk->unsaved;
    free_desk(desk);
    return good;
}
