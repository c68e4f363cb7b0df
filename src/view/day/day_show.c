/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The bench: alarm, swatches, what is next, stops, buttons. What is late is a word, a pattern and a
 * ground that changes places with its text once a second (twice where nobody hears the beeps):
 * below the three flashes a second of WCAG 2.2, 2.3.1.
 */
#include <stdio.h>

#include "base/language.h"
#include "slowlift/caution.h"
#include "slowlift/report.h"
#include "view/day/day.h"
#include "view/draw/widget.h"
#include "view/draw/words.h"

void sl_day_add_spot(sl_day_screen *screen, sl_day_act act, int number, SDL_Rect area)
{
    if (screen->n_spots < SL_DAY_SPOTS && area.w > 0 && area.h > 0) {
        screen->spot[screen->n_spots++] = (sl_day_spot){act, number, area};
    }
}

static void put_in(const sl_pen *pen, SDL_Rect area, sl_role ink, bool most_head, const char *words)
{
    const sl_type type = sl_pen_fitting(pen, SL_TYPE_LARGE, area, words);
    sl_pen_place(pen, most_head && type == SL_TYPE_LARGE ? SL_TYPE_HEAD : type, ink, area, SL_ALIGN_CENTRE,
                 words);
}

void sl_day_put_button(sl_day_screen *screen, sl_day_act act, int number, SDL_Rect area, const char *label,
                       const char *key, bool strong)
{
    const sl_pen *const pen = &screen->pen;
    const sl_role ink = strong ? SL_INK_LIGHT : SL_INK_TEXT;
    const int air = sl_pen_px(pen, 5.0);
    const int key_h = SDL_min(sl_text_line_height(pen->text, SL_TYPE_STRONG) + air, area.h * 45 / 100);
    const int edge = sl_pen_px(pen, 2.0);
    const SDL_Rect upper = {area.x + edge, area.y + 2, area.w - 2 * edge, area.h - key_h - 2};
    sl_pen_fill(pen, area, strong ? SL_GROUND_DARK : SL_GROUND_SHEET);
    sl_pen_frame(pen, area, sl_pen_px(pen, 1.25), SL_MARK_CONTROL);
    put_in(pen, upper, ink, true, label);
    sl_pen_place(pen, SL_TYPE_STRONG, ink, (SDL_Rect){upper.x, upper.y + upper.h, upper.w, key_h - 2},
                 SL_ALIGN_CENTRE, key);
    sl_day_add_spot(screen, act, number, area);
}

/* ---- head and alarm ----------------------------------------------------------------------------- */

static void put_written(const sl_day_screen *screen, char *text, size_t size)
{
    const sl_day *const day = &screen->desk->day;
    char reason[SL_ERROR_TEXT_SIZE * 2];
    char span[24];
    if (sl_day_unread(day)) {
        sl_error_sentence(&day->fault, reason, sizeof reason);
        snprintf(text, size, _("What others write cannot be read; this clock goes on. %s"), reason);
    } else if (day->fault.code != SL_OK) {
        sl_error_sentence(&day->fault, reason, sizeof reason);
        snprintf(text, size, _("NOT WRITTEN: %d. It is kept here and tried again. %s"), day->waiting, reason);
    } else if (day->waiting > 0) {
        snprintf(text, size, _("Writing %d …"), day->waiting);
    } else {
        sl_day_span(day->bench.started ? sl_elapsed_between(&day->bench.start, &day->now).seconds : 0.0, span,
                    sizeof span);
        snprintf(text, size, _("Day %s. %s"), span,
                 day->restarted ? _("The computer was started anew: the longer time is taken.")
                 : day->apart   ? _("The clocks disagree: the longer time is taken.")
                                : _("All is written."));
    }
}

void sl_day_put_trouble(const sl_day_screen *screen, SDL_Rect area)
{
    char text[SL_DAY_LINE * 3];
    put_written(screen, text, sizeof text);
    sl_pen_fill(&screen->pen, area, SL_GROUND_DARK);
    sl_pen_place(&screen->pen, SL_TYPE_BODY, SL_INK_LIGHT, area, SL_ALIGN_LEFT, text);
}

/* A plate at the right of every page of a day whose clock runs fast. Returns what is left of the area. */
SDL_Rect sl_day_put_rehearsal(const sl_day_screen *screen, SDL_Rect area)
{
    const sl_day *const day = &screen->desk->day;
    const sl_pen *const pen = &screen->pen;
    const sl_type type =
        area.h < sl_text_line_height(pen->text, SL_TYPE_HEAD) ? SL_TYPE_STRONG : SL_TYPE_HEAD;
    char text[SL_DAY_LINE];
    if (day->speed <= 1.0) {
        return area;
    }
    snprintf(text, sizeof text, _("REHEARSAL: clock runs × %.0f"), day->speed);
    const int w = sl_pen_size(pen, type, SL_INK_LIGHT, 0, text).x + sl_pen_px(pen, 20.0);
    const SDL_Rect plate = {area.x + area.w - w, area.y, w, area.h};
    sl_pen_fill(pen, plate, SL_GROUND_DARK);
    sl_pen_place(pen, type, SL_INK_LIGHT, plate, SL_ALIGN_CENTRE, text);
    area.w -= w + sl_pen_px(pen, 10.0);
    return area;
}

/* The way out for a pointer, at the right of the head; what can be pressed reaches into the line below and above it.
 * Returns what is left of the area. */
static SDL_Rect put_leave(sl_day_screen *screen, SDL_Rect area)
{
    const sl_pen *const pen = &screen->pen;
    char text[120];
    snprintf(text, sizeof text, "%s  Ctrl Q", _("Leave"));
    const int w = SDL_max(sl_pen_size(pen, SL_TYPE_SMALL, SL_INK_TEXT, 0, text).x + sl_pen_px(pen, 20.0),
                          SL_DAY_TARGET_PX);
    const SDL_Rect button = {area.x + area.w - w, area.y, w, area.h};
    sl_pen_fill(pen, button, SL_GROUND_SHEET);
    sl_pen_frame(pen, button, 1, SL_MARK_CONTROL);
    sl_pen_place(pen, SL_TYPE_SMALL, SL_INK_TEXT, button, SL_ALIGN_CENTRE, text);
    sl_day_add_spot(screen, SL_ACT_LEAVE, 0,
                    (SDL_Rect){button.x, 0, w, SDL_max(button.y + button.h, SL_DAY_TARGET_PX)});
    area.w -= w + sl_pen_px(pen, 10.0);
    return area;
}

static void show_head(sl_day_screen *screen)
{
    const sl_day *const day = &screen->desk->day;
    const sl_pen *const pen = &screen->pen;
    SDL_Rect area = screen->places.head;
    const int body = sl_text_line_height(pen->text, SL_TYPE_BODY);
    const int line = area.h - body;
    const sl_type type = line < sl_text_line_height(pen->text, SL_TYPE_HEAD) ? SL_TYPE_STRONG : SL_TYPE_HEAD;
    char text[SL_DAY_LINE * 3];
    area.w = sl_day_put_rehearsal(screen, (SDL_Rect){area.x, area.y, area.w, line}).w;
    area = put_leave(screen, (SDL_Rect){area.x, area.y, area.w, line});
    sl_pen_place(pen, type, SL_INK_TEXT, area, SL_ALIGN_LEFT, day->test->title);
    area = screen->places.head;
    const SDL_Rect below = {area.x, area.y + line, area.w, area.h - line};
    put_written(screen, text, sizeof text);
    const bool bad = day->fault.code != SL_OK;
    if (bad) {
        sl_pen_fill(pen, below, SL_GROUND_DARK);
    }
    const sl_role ink = bad ? SL_INK_LIGHT : SL_INK_TEXT;
    const int w = sl_pen_size(pen, SL_TYPE_BODY, ink, 0, text).x;
    sl_pen_place(pen, SL_TYPE_BODY, ink, below, bad ? SL_ALIGN_LEFT : SL_ALIGN_RIGHT, text);
    char typed[SL_DAY_LINE];
    const bool types = sl_day_typed_words(day, typed, sizeof typed);
    const bool refused = screen->refused && !types;
    const char *const said = types ? typed : screen->said;
    if (bad || said[0] == '\0') {
        return;
    }
    const SDL_Rect left = {below.x, below.y, below.w - w - sl_pen_px(pen, 12.0), below.h};
    if (refused) {
        const int plate = sl_pen_size(pen, SL_TYPE_STRONG, SL_INK_LIGHT, 0, said).x;
        sl_pen_fill(pen, (SDL_Rect){left.x, left.y, SDL_min(plate + 8, left.w), left.h}, SL_GROUND_DARK);
    }
    sl_pen_place(pen, SL_TYPE_STRONG, refused ? SL_INK_LIGHT : SL_INK_TEXT,
                 (SDL_Rect){left.x + 4, left.y, left.w - 4, left.h}, SL_ALIGN_LEFT, said);
}

/* The water of an eye, what is late, or that nothing is. */
static void put_late(const sl_day *day, bool late, char *text, size_t size)
{
    char due[SL_DAY_LINE];
    if (late && day->n_late == 0) {
        sl_day_water_words(day, text, size);
    } else if (late) {
        sl_day_due_words(day, &day->due[0], due, sizeof due);
        snprintf(text, size, day->n_late > 1 ? _("ALARM %s, and %d more") : _("ALARM %s"), due,
                 day->n_late - 1);
    } else {
        const char *const rest = sl_day_rest_words(day);
        snprintf(text, size, "%s",
                 rest                  ? rest
                 : !day->bench.started ? _("The day has not begun.")
                                       : _("Nothing is late."));
    }
}

void sl_day_put_alarm(sl_day_screen *screen, SDL_Rect area)
{
    const sl_day *const day = &screen->desk->day;
    const sl_pen *const pen = &screen->pen;
    char text[SL_DAY_LINE * 2];
    const bool asks = sl_day_asks_words(day, text, sizeof text);
    const bool late = !asks && (day->n_late > 0 || sl_bench_eye(&day->bench));
    const bool rests = !asks && !late && sl_day_rest_words(day) != NULL; /* stands still, and is no alarm */
    const bool lit = asks || (late && screen->phase % 2 == 0);
    const int edge = sl_pen_px(pen, 60.0);
    sl_pen_fill(pen, area, lit ? SL_GROUND_DARK : SL_GROUND_SHEET);
    sl_pen_frame(pen, area, sl_pen_px(pen, asks || late || rests ? 3.0 : 1.0), SL_MARK_CONTROL);
    if (!asks) {
        put_late(day, late, text, sizeof text);
    }
    if (rests || (late && !lit)) {
        const SDL_Rect left = {area.x, area.y, edge, area.h};
        const SDL_Rect right = {area.x + area.w - edge, area.y, edge, area.h};
        sl_pen_pattern(pen, left, SL_PATTERN_STRIPES, SL_MARK_CONTROL);
        sl_pen_pattern(pen, right, SL_PATTERN_STRIPES, SL_MARK_CONTROL);
    }
    const SDL_Rect inner = {area.x + edge, area.y, area.w - 2 * edge, area.h};
    const sl_role ink = lit ? SL_INK_LIGHT : SL_INK_TEXT;
    const SDL_Point size = sl_pen_size(pen, SL_TYPE_LARGE, ink, 0, text);
    const bool large = (asks || late) && size.x <= inner.w && size.y <= inner.h;
    const bool head = sl_pen_size(pen, SL_TYPE_HEAD, ink, 0, text).x <= inner.w;
    sl_pen_place(pen,
                 large  ? SL_TYPE_LARGE
                 : head ? SL_TYPE_HEAD
                        : SL_TYPE_STRONG,
                 ink, inner, SL_ALIGN_CENTRE, text);
}

/* Where no beep is heard the whole window's edge flashes with the bar. */
static void show_edge(const sl_day_screen *screen)
{
    const sl_day *const day = &screen->desk->day;
    const bool silent = !day->plays || (day->bench.sound_tried && !day->bench.sound_heard);
    if (silent && (day->n_late > 0 || sl_bench_eye(&day->bench)) && screen->phase % 2 == 0) {
        const SDL_Rect all = {0, 0, screen->pen.sheet->w, screen->pen.sheet->h};
        sl_pen_frame(&screen->pen, all, screen->places.head.y, SL_MARK_CONTROL);
    }
}

/* ---- what is next ----------------------------------------------------------------------------------- */

/* The countdown as large as it fits; returns the y below. */
static int put_count(const sl_pen *pen, SDL_Rect area, int y, const char *words, const char *count,
                     sl_role ink)
{
    const int clock = sl_text_line_height(pen->text, SL_TYPE_CLOCK);
    const int large = sl_text_line_height(pen->text, SL_TYPE_LARGE);
    const int wide = sl_pen_size(pen, SL_TYPE_CLOCK, ink, 0, count).x;
    const int word = sl_pen_size(pen, SL_TYPE_LARGE, ink, 0, words).x;
    const int gap = sl_pen_px(pen, 12.0);
    if (y + clock <= area.y + area.h && wide <= area.w) {
        const bool beside = word + gap + wide <= area.w;
        if (beside) {
            sl_pen_write(pen, SL_TYPE_LARGE, ink, area.x, y + clock / 2 - large / 2, SL_ALIGN_LEFT, words);
        }
        sl_pen_write(pen, SL_TYPE_CLOCK, ink, beside ? area.x + word + gap : area.x, y, SL_ALIGN_LEFT, count);
        return y + clock;
    }
    const SDL_Rect line = {area.x, y, area.w, large};
    sl_pen_place(pen, SL_TYPE_LARGE, ink, (SDL_Rect){line.x, line.y, word + gap, large}, SL_ALIGN_LEFT,
                 words);
    sl_pen_place(pen, SL_TYPE_LARGE, ink,
                 (SDL_Rect){line.x + word + gap, y, SDL_max(area.w - word - gap, 0), large}, SL_ALIGN_LEFT,
                 count);
    return y + large;
}

/* What is said of the label is drawn whole, whatever stands above it. */
static void show_chosen(const sl_day_screen *screen, SDL_Rect area)
{
    const sl_day *const day = &screen->desk->day;
    const sl_pen *const pen = &screen->pen;
    char state[SL_DAY_LINE];
    char text[SL_DAY_LINE * 2];
    char clause[SL_DAY_WORDS];
    char label[SL_DAY_WORDS];
    sl_day_state_brief(&day->bench, day->chosen, &day->now, state, sizeof state);
    const sl_bench_swatch *const plan = &day->plan[day->chosen];
    if (plan->contact_s >= 0 && plan->label_s <= 0) {
        snprintf(label, sizeof label, "%s",
                 screen->tight ? _("No label's time: swatches only.")
                               : _("Label's time not entered: cut swatches only."));
    } else {
        sl_day_label(&day->bench, day->chosen, &day->now, clause, sizeof clause);
        sl_put_sentence(clause, label, sizeof label);
    }
    snprintf(text, sizeof text, _("Keys are for %s: %s"), day->plan[day->chosen].code, state);
    const int line = sl_text_line_height(pen->text, SL_TYPE_FIGURE);
    const SDL_Rect upper = {area.x, area.y, area.w, line};
    const SDL_Rect lower = {area.x, area.y + line, area.w, area.h - line};
    const int label_h = sl_pen_size(pen, SL_TYPE_BODY, SL_INK_TEXT, area.w, label).y;
    if (sl_pen_size(pen, SL_TYPE_FIGURE, SL_INK_TEXT, area.w, text).y + label_h <= area.h) {
        const int y = area.y + sl_pen_wrap(pen, SL_TYPE_FIGURE, SL_INK_TEXT,
                                           (SDL_Rect){area.x, area.y, area.w, 0}, false, text);
        sl_pen_wrap(pen, SL_TYPE_BODY, SL_INK_TEXT, (SDL_Rect){area.x, y, area.w, 0}, false, label);
        return;
    }
    sl_pen_place(pen, SL_TYPE_FIGURE, SL_INK_TEXT, upper, SL_ALIGN_LEFT, text);
    if (label_h <= lower.h) {
        sl_pen_wrap(pen, SL_TYPE_BODY, SL_INK_TEXT, lower, false, label);
    } else {
        sl_pen_place(pen, SL_TYPE_BODY, SL_INK_TEXT, lower, SL_ALIGN_LEFT, label);
    }
}

/* What comes after the next, as far as there is room. */
static void put_then(const sl_day_screen *screen, SDL_Rect area)
{
    const sl_day *const day = &screen->desk->day;
    const sl_pen *const pen = &screen->pen;
    const int line = sl_text_line_height(pen->text, SL_TYPE_FIGURE);
    char due[SL_DAY_LINE];
    char text[SL_DAY_LINE * 2];
    for (int i = 1; i < day->n_due && i * line <= area.h; i++) {
        sl_day_due_words(day, &day->due[i], due, sizeof due);
        snprintf(text, sizeof text, _("then %s"), due);
        const SDL_Rect row = {area.x, area.y + (i - 1) * line, area.w, line};
        if (sl_pen_size(pen, SL_TYPE_BODY, SL_INK_TEXT, 0, text).x > row.w) { /* the countdown stays */
            sl_day_due(&day->bench, &day->due[i], due, sizeof due);
            snprintf(text, sizeof text, _("then %s"), due);
        }
        const bool fits = sl_pen_size(pen, SL_TYPE_FIGURE, SL_INK_TEXT, 0, text).x <= row.w;
        sl_pen_place(pen, fits ? SL_TYPE_FIGURE : SL_TYPE_BODY, SL_INK_TEXT, row, SL_ALIGN_LEFT, text);
    }
}

/* The eye's water in place of what is next, and whose hair cannot wait. */
static void put_eye(const sl_day_screen *screen, SDL_Rect area)
{
    const sl_day *const day = &screen->desk->day;
    const sl_pen *const pen = &screen->pen;
    char text[SL_DAY_LINE], span[24];
    double runs = 0.0, least = 0.0;
    sl_bench_stop_water(&day->bench, &day->now, &runs, &least);
    int y = area.y;
    y += sl_pen_wrap(pen, SL_TYPE_HEAD, SL_INK_TEXT, (SDL_Rect){area.x, y, area.w, 0}, false,
                     _("Water on the eye"));
    sl_day_span(least - runs, span, sizeof span);
    y = put_count(pen, area, y, runs < least ? _("to go") : _("over by"), span, SL_INK_TEXT);
    if (sl_day_also(&day->bench, text, sizeof text)) {
        y += sl_pen_wrap(pen, SL_TYPE_STRONG, SL_INK_TEXT, (SDL_Rect){area.x, y, area.w, 0}, false, text);
    }
    sl_pen_wrap(pen, SL_TYPE_BODY, SL_INK_TEXT, (SDL_Rect){area.x, y, area.w, 0}, false,
                _("All else waits. Press here for the water."));
}

static void show_next(sl_day_screen *screen)
{
    const sl_day *const day = &screen->desk->day;
    const sl_pen *const pen = &screen->pen;
    const SDL_Rect panel = screen->places.next;
    const SDL_Rect area = sl_rect_inset(panel, sl_pen_px(pen, 8.0));
    const bool any = day->n_due > 0;
    char text[SL_DAY_LINE];
    char span[96];
    sl_pen_fill(pen, panel, SL_GROUND_SHEET);
    sl_pen_frame(pen, panel, sl_pen_px(pen, 2.0), SL_MARK_CONTROL);
    if (sl_bench_eye(&day->bench)) {
        SDL_SetClipRect(pen->sheet, &area);
        put_eye(screen, area);
        SDL_SetClipRect(pen->sheet, NULL);
        sl_day_add_spot(screen, SL_ACT_STOP_PAGE, 0, panel);
        return;
    }
    sl_day_add_spot(screen, day->bench.started ? SL_ACT_GO : SL_ACT_START, 0, panel);
    const sl_due *const due = &day->due[0];
    if (any) {
        sl_day_verb(&day->bench, due, true, span, sizeof span);
        sl_day_head_words(day, due, span, text, sizeof text);
    } else {
        snprintf(text, sizeof text, "%s",
                 !day->bench.started ? _("G begins the day") : _("Nothing more is planned"));
    }
    const bool wide = sl_pen_size(pen, SL_TYPE_LARGE, SL_INK_TEXT, 0, text).x > area.w;
    const sl_type type = wide ? SL_TYPE_HEAD : SL_TYPE_LARGE;
    const SDL_Rect clip = area;
    SDL_SetClipRect(pen->sheet, &clip);
    int y = area.y;
    y += sl_pen_wrap(pen, type, SL_INK_TEXT, (SDL_Rect){area.x, y, area.w, 0}, false, text);
    const int low = sl_text_line_height(pen->text, SL_TYPE_FIGURE) +
                    (screen->places.compact ? 1 : 2) * sl_text_line_height(pen->text, SL_TYPE_BODY);
    const int foot = area.y + area.h - low;
    if (any) {
        const bool now = due->in_s < 0.5 && due->in_s > -0.5;
        sl_day_span(due->in_s, span, sizeof span);
        y = put_count(pen, (SDL_Rect){area.x, area.y, area.w, foot - area.y}, y,
                      now               ? ""
                      : due->in_s < 0.0 ? _("late by")
                                        : _("in"),
                      now ? _("now") : span, SL_INK_TEXT);
        put_then(screen, (SDL_Rect){area.x, y, area.w, foot - y});
    }
    show_chosen(screen, (SDL_Rect){area.x, foot, area.w, low});
    SDL_SetClipRect(pen->sheet, NULL);
}

/* ---- buttons and foot -------------------------------------------------------------------------------------
 */

static void show_stop(sl_day_screen *screen, sl_day_act act, SDL_Rect area, const char *below)
{
    const sl_pen *const pen = &screen->pen;
    const char *const words = _("STOP AND RINSE");
    const int edge = sl_pen_px(pen, 6.0);
    sl_pen_fill(pen, area, SL_GROUND_DARK);
    sl_pen_frame(pen, sl_rect_inset(area, edge / 2), sl_pen_px(pen, 2.0), SL_INK_LIGHT);
    const SDL_Rect inner = sl_rect_inset(area, edge);
    const int upper = inner.h * 58 / 100;
    put_in(pen, (SDL_Rect){inner.x, inner.y, inner.w, upper}, SL_INK_LIGHT, false, words);
    sl_pen_place(pen, SL_TYPE_STRONG, SL_INK_LIGHT,
                 (SDL_Rect){inner.x, inner.y + upper, inner.w, inner.h - upper}, SL_ALIGN_CENTRE, below);
    sl_day_add_spot(screen, act, 0, area);
}

static void show_stops(sl_day_screen *screen)
{
    const sl_day *const day = &screen->desk->day;
    char one[SL_DAY_LINE];
    snprintf(one, sizeof one, _("%s alone · X"), day->plan[day->chosen].code);
    show_stop(screen, SL_ACT_STOP_ALL, screen->places.stop_all, _("all that is on hair · S"));
    show_stop(screen, SL_ACT_STOP_ONE, screen->places.stop_one, one);
}

/* What never comes at once shares a place: the day's begin and end, hair said to be clean, and leftovers. */
static sl_day_act act_of_place(const sl_day *day, int place)
{
    static const sl_day_act acts[SL_DAY_BUTTONS] = {
        SL_ACT_MIXED,    SL_ACT_APPLIED, SL_ACT_LOOKED, SL_ACT_FELT, SL_ACT_RINSED,
        SL_ACT_LEFTOVER, SL_ACT_NOTE,    SL_ACT_UNDO,   SL_ACT_BACK, SL_ACT_ON};
    return acts[place] != SL_ACT_LEFTOVER                               ? acts[place]
           : sl_day_why_not(day, SL_ACT_START) == NULL                  ? SL_ACT_START
           : sl_day_why_not(day, SL_ACT_CLEAN) == NULL                  ? SL_ACT_CLEAN
           : day->n_due == 0 && sl_day_why_not(day, SL_ACT_END) == NULL ? SL_ACT_END
                                                                        : SL_ACT_LEFTOVER;
}

/* The row's words; a ladder's piece and a leftover have words of their own. */
static void button_words(const sl_day *day, const sl_day_act_row *row, const char **label, const char **brief)
{
    const bool piece = row->act == SL_ACT_LOOKED && day->plan[day->chosen].ladder;
    const sl_remark leftover =
        row->act == SL_ACT_LEFTOVER ? sl_bench_leftover(&day->bench, day->chosen) : SL_REMARK_NONE;
    *label = piece                             ? _("Piece rinsed")
             : leftover == SL_REMARK_LEFT_OPEN ? _("Left open")
             : leftover == SL_REMARK_EMPTIED   ? _("Emptied")
                                               : _(row->label);
    *brief = piece ? _("Piece") : row->brief != NULL ? _(row->brief) : NULL;
}

static void show_buttons(sl_day_screen *screen)
{
    const sl_day *const day = &screen->desk->day;
    for (int i = 0; i < SL_DAY_BUTTONS; i++) {
        const sl_day_act_row *const row = sl_day_act_row_of(act_of_place(day, i));
        const SDL_Rect area = screen->places.button[i];
        sl_button_look look = {.key = row->act == SL_ACT_BACK ? "↑"
                                      : row->act == SL_ACT_ON ? "↓"
                                                              : row->keys,
                               .off_duty = row->act != SL_ACT_UNDO && sl_day_why_not(day, row->act) != NULL};
        button_words(day, row, &look.label, &look.brief);
        if (look.off_duty) {
            sl_button_draw(&screen->pen, area, &look);
            sl_day_add_spot(screen, row->act, 0, area);
        } else {
            const int room = area.w - sl_pen_px(&screen->pen, 8.0);
            const bool brief = look.brief != NULL &&
                               sl_pen_size(&screen->pen, SL_TYPE_STRONG, SL_INK_TEXT, 0, look.label).x > room;
            sl_day_put_button(screen, row->act, 0, area, brief ? look.brief : look.label, look.key, false);
        }
    }
}

static void put_foot(char *text, size_t size)
{
    const sl_caution *const label = sl_caution_text(SL_CAUTION_LABEL);
    const sl_caution *const closed = sl_caution_text(SL_CAUTION_CLOSED);
    snprintf(text, size,
             _("%s  The product's label decides.  No added heat.  %s  Leave leftover mix open.  K: all "
               "cautions, H: keys, B: cover names."),
             _(label->signal), _(closed->signal));
}

static const char *signs(const sl_day_screen *screen)
{
    return screen->tight ? sl_day_stop_signs_line() : sl_day_stop_signs();
}

static int foot_height(const sl_day_screen *screen, int width)
{
    char text[SL_DAY_LINE * 2];
    put_foot(text, sizeof text);
    return sl_pen_size(&screen->pen, SL_TYPE_STRONG, SL_INK_TEXT, width, signs(screen)).y +
           sl_pen_size(&screen->pen, SL_TYPE_NOTE, SL_INK_TEXT, width, text).y;
}

static void show_foot(const sl_day_screen *screen)
{
    SDL_Rect area = screen->places.foot;
    char text[SL_DAY_LINE * 2];
    put_foot(text, sizeof text);
    const int used = sl_pen_wrap(&screen->pen, SL_TYPE_STRONG, SL_INK_TEXT, area, false, signs(screen));
    area.y += used;
    sl_pen_wrap(&screen->pen, SL_TYPE_NOTE, SL_INK_TEXT, area, false, text);
}

/* ---- a frame
 * ------------------------------------------------------------------------------------------------ */

/* The largest text up to the wish at which everything has room. */
/* Large text leaves head and alarm a smaller type than they have else. */
static sl_day_wish_place wish_of(const sl_day_screen *screen, double scale)
{
    const SDL_Surface *const sheet = screen->pen.sheet;
    const bool tight = screen->tight;
    const int line = sl_text_line_height(screen->text, SL_TYPE_BODY);
    const int head = sl_text_line_height(screen->text, SL_TYPE_HEAD);
    const int large = sl_text_line_height(screen->text, SL_TYPE_LARGE);
    const double window = SDL_max(SDL_min(sheet->w / 1280.0, sheet->h / 800.0), 0.7);
    return (sl_day_wish_place){.width = sheet->w,
                               .height = sheet->h,
                               .scale = scale,
                               .line = line,
                               .large = large,
                               .head_h = (tight ? line : head) + line,
                               .alarm_h = (tight ? head : large) + line / 3,
                               .foot_h =
                                   foot_height(screen, sheet->w - 2 * SDL_max((int)(10.0 * window), 6))};
}

/* Begins with the scale that the last frame had, where that was for the same. */
static bool arrange(sl_day_screen *screen, SDL_Surface *sheet, sl_error *error)
{
    const sl_day_fitted last = screen->fitted;
    const sl_day_view page = sl_day_page_of(screen);
    const bool same =
        last.w == sheet->w && last.h == sheet->h && last.page == page && last.wished == screen->scale;
    sl_text_turn(screen->text);
    for (double scale = same ? last.scale : screen->scale;; scale -= 0.1) {
        const double now = SDL_max(scale, 1.0);
        const double unit = SDL_max(SDL_min(sheet->w / 1280.0, sheet->h / 800.0), 0.7) * now;
        if (!sl_text_scale(screen->text, unit, error)) {
            return false;
        }
        screen->pen = (sl_pen){sheet, screen->text, sl_theme_at(screen->eyes.theme), unit};
        screen->tight = now > SL_DAY_TIGHT;
        const sl_day_wish_place wish = wish_of(screen, now);
        screen->places = sl_day_place(&wish);
        if (scale <= 1.0 || (screen->places.fits && sl_day_page_fits(screen))) {
            screen->fitted = (sl_day_fitted){sheet->w, sheet->h, page, screen->scale, now};
            return true;
        }
    }
}

bool sl_day_draw(sl_day_screen *screen, sl_error *error)
{
    SDL_Surface *const sheet = SDL_GetWindowSurface(screen->window);
    if (sheet == NULL || sheet->format->BytesPerPixel != 4) {
        return sl_fail(error, SL_ERR_MISSING_PART, "a window to draw in",
                       "the display must offer 32-bit colour");
    }
    if (!arrange(screen, sheet, error)) {
        return false;
    }
    screen->n_spots = 0;
    sl_pen_fill(&screen->pen, (SDL_Rect){0, 0, sheet->w, sheet->h}, SL_GROUND_FRAME);
    show_edge(screen);
    bool good = true;
    if (sl_day_page_of(screen) == SL_DAY_BENCH) {
        sl_day_put_alarm(screen, screen->places.alarm);
        show_head(screen);
        sl_day_put_list(screen);
        show_next(screen);
        show_stops(screen);
        show_buttons(screen);
        show_foot(screen);
        good = sl_day_put_model(screen, error);
    } else {
        sl_day_put_page(screen);
    }
    if (good && SDL_UpdateWindowSurface(screen->window) != 0) {
        return sl_fail(error, SL_ERR_MISSING_PART, SDL_GetError(), "the window cannot be drawn to");
    }
    return good;
}
