/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Pages over the bench: the stop with its cautions, water and reason; the sound test; notes; all
 * cautions; keys. The alarm stands on top of each, and STOP AND RINSE works on each.
 */
#include <stdio.h>

#include "base/append.h"
#include "base/language.h"
#include "slowlift/caution.h"
#include "slowlift/report.h"
#include "view/day/day.h"

static SDL_Rect body_of(const sl_day_screen *screen)
{
    const sl_day *const day = &screen->desk->day;
    const SDL_Rect alarm = screen->places.alarm;
    const int line = day->fault.code != SL_OK ? sl_text_line_height(screen->pen.text, SL_TYPE_BODY) : 0;
    const int top = screen->places.head.y + alarm.h + line + sl_pen_px(&screen->pen, 8.0);
    return (SDL_Rect){alarm.x, top, alarm.w, screen->pen.sheet->h - top - alarm.x};
}

/* The last row of a page: large buttons, side by side. */
static SDL_Rect last_row(SDL_Rect body, int columns, int index)
{
    const SDL_Rect row = {body.x, body.y + body.h - SL_DAY_STOP_PX, body.w, SL_DAY_STOP_PX};
    return sl_day_grid(row, columns, 1, index);
}

/* The largest type, up to `most`, with which text finds room, wrapped. */
static sl_type fitting(const sl_pen *pen, sl_type most, SDL_Rect area, const char *text)
{
    static const sl_type types[] = {SL_TYPE_HEAD, SL_TYPE_FIGURE, SL_TYPE_BODY, SL_TYPE_SMALL, SL_TYPE_NOTE};
    int i = 0;
    while (i < 4 && (types[i] > most || sl_pen_size(pen, types[i], SL_INK_TEXT, area.w, text).y > area.h)) {
        i++;
    }
    return types[i];
}

int sl_day_put_fitting(const sl_pen *pen, sl_type most, SDL_Rect area, const char *text)
{
    return area.y + sl_pen_wrap(pen, fitting(pen, most, area, text), SL_INK_TEXT, area, false, text);
}

static int put_fitting(const sl_pen *pen, SDL_Rect area, const char *text)
{
    return sl_day_put_fitting(pen, SL_TYPE_HEAD, area, text);
}

static void put_title(const sl_day_screen *screen, SDL_Rect *body, const char *title)
{
    const int large = sl_text_line_height(screen->pen.text, SL_TYPE_LARGE);
    sl_pen_place(&screen->pen, SL_TYPE_LARGE, SL_INK_TEXT, (SDL_Rect){body->x, body->y, body->w, large},
                 SL_ALIGN_LEFT, title);
    body->y += large;
    body->h -= large;
}

/* ---- what is said ------------------------------------------------------------------------------------ */

enum { LINES = 32, LEAD = 64, WORDS = 1200 };

typedef struct page {
    sl_day_screen *screen;
    struct {
        sl_day_line_kind kind;
        char lead[LEAD], words[WORDS];
        int number;
        bool given;
    } line[LINES]; /* [n] */
    int n;
} page;

static void keep_line(void *self, const sl_day_line *line)
{
    page *const to = self;
    if (to->n < LINES) {
        to->line[to->n].kind = line->kind;
        snprintf(to->line[to->n].lead, LEAD, "%s", line->lead != NULL ? line->lead : "");
        snprintf(to->line[to->n].words, WORDS, "%s", line->words);
        to->line[to->n].number = line->number;
        to->line[to->n].given = line->given;
        to->n++;
    }
}

static void read_page(page *to, sl_day_screen *screen)
{
    to->screen = screen;
    to->n = 0;
    sl_day_says(screen->desk, screen->desk->day.page, -1, keep_line, to);
}

/* The line with this place among those of its kind; "" where there is none. */
static const char *words_of(const page *of, sl_day_line_kind kind, int place)
{
    for (int i = 0; i < of->n; i++) {
        if (of->line[i].kind == kind && place-- == 0) {
            return of->line[i].words;
        }
    }
    return "";
}

static void put_choices(const page *of, SDL_Rect area, int columns, int rows)
{
    for (int i = 0; i < of->n; i++) {
        if (of->line[i].kind == SL_LINE_CHOICE) {
            const int place = of->line[i].number - 1;
            char key[12];
            snprintf(key, sizeof key, "%d", of->line[i].number);
            sl_day_put_button(of->screen, SL_ACT_CHOICE, place, sl_day_grid(area, columns, rows, place),
                              of->line[i].words, key, of->line[i].given);
        }
    }
}

/* As its row says; label: NULL for the row's own. */
static void put_act(sl_day_screen *screen, sl_day_act act, SDL_Rect area, const char *label)
{
    const sl_day_act_row *const row = sl_day_act_row_of(act);
    sl_day_put_button(screen, act, 0, area, label != NULL ? label : _(row->label), _(row->keys),
                      act == SL_ACT_STOP_ALL);
}

/* ---- the stop ----------------------------------------------------------------------------------------- */

static void put_water(const sl_day_screen *screen, SDL_Rect area)
{
    const sl_day *const day = &screen->desk->day;
    const sl_pen *const pen = &screen->pen;
    double runs = 0.0;
    double least = 0.0;
    char span[24];
    char text[SL_DAY_LINE];
    sl_bench_stop_water(&day->bench, &day->now, &runs, &least);
    sl_day_span(runs, span, sizeof span);
    const int clock = sl_text_line_height(pen->text, SL_TYPE_CLOCK);
    const sl_type type = clock <= area.h ? SL_TYPE_CLOCK : SL_TYPE_LARGE;
    const SDL_Rect written = sl_pen_write(pen, type, SL_INK_TEXT, area.x, area.y, SL_ALIGN_LEFT, span);
    if (least > 0.0) {
        sl_day_span(least - runs, span, sizeof span);
        snprintf(text, sizeof text,
                 runs < least ? _("of water. An eye: 15 minutes, %s to go")
                              : _("of water, 15 minutes are over (by %s). Medical help?"),
                 span);
    } else {
        snprintf(text, sizeof text, "%s", _("of water. An eye: 15 minutes. Hair: until it runs clear"));
    }
    const int x = written.x + written.w + sl_pen_px(pen, 16.0);
    const SDL_Rect beside = {x, area.y, area.x + area.w - x, area.h};
    const sl_type fits = fitting(pen, SL_TYPE_HEAD, beside, text);
    const int h = sl_pen_size(pen, fits, SL_INK_TEXT, beside.w, text).y;
    sl_pen_wrap(pen, fits, SL_INK_TEXT,
                (SDL_Rect){x, area.y + SDL_max((SDL_min(written.h, area.h) - h) / 2, 0), beside.w, 0}, false,
                text);
}

/* Of the stop's page. */
typedef struct stop_places {
    SDL_Rect bar, also, water, caution[2], ask, grid, last;
} stop_places;

static stop_places place_stop(const page *of)
{
    const sl_pen *const pen = &of->screen->pen;
    const SDL_Rect body = body_of(of->screen);
    const int gap = sl_pen_px(pen, 8.0), strong = sl_text_line_height(pen->text, SL_TYPE_STRONG);
    const int clock = sl_text_line_height(pen->text, SL_TYPE_CLOCK);
    const int large = sl_text_line_height(pen->text, SL_TYPE_LARGE);
    const int grid_h = 3 * SL_DAY_TARGET_PX + 16;
    const char *const also = words_of(of, SL_LINE_SAY, 0);
    const sl_type type = of->screen->places.compact ? SL_TYPE_STRONG : SL_TYPE_HEAD;
    stop_places p = {.last = last_row(body, 4, 0)};
    p.bar = (SDL_Rect){body.x, body.y, body.w, sl_text_line_height(pen->text, SL_TYPE_HEAD) + gap};
    p.also = (SDL_Rect){body.x, p.bar.y + p.bar.h + gap, body.w,
                        also[0] != '\0' ? sl_pen_size(pen, type, SL_INK_TEXT, body.w, also).y : 0};
    p.grid = (SDL_Rect){body.x, p.last.y - 8 - grid_h, body.w, grid_h};
    p.ask = (SDL_Rect){body.x, p.grid.y - strong - gap / 2, body.w, strong};
    const int y = p.also.y + p.also.h;
    p.water = (SDL_Rect){body.x, y, body.w, p.ask.y - y > clock + 8 * strong ? clock : large};
    const int half = (body.w - 2 * gap) * 4 / 10; /* the eye's text is the shorter */
    const int top = p.water.y + p.water.h;
    p.caution[0] = (SDL_Rect){body.x, top, half, p.ask.y - gap - top};
    p.caution[1] = (SDL_Rect){body.x + half + 2 * gap, top, body.w - half - 2 * gap, p.caution[0].h};
    return p;
}

/* A caution as it stands on the page. */
static void lead_and_words(const page *of, int place, char text[LEAD + WORDS])
{
    text[0] = '\0';
    for (int i = 0; i < of->n; i++) {
        if (of->line[i].kind == SL_LINE_CAUTION && place-- == 0) {
            snprintf(text, LEAD + WORDS, "%s  %s", of->line[i].lead, of->line[i].words);
        }
    }
}

/* Whether each caution has room in its place at this size, with what it was translated from below it. */
static bool have_room(const page *of, const stop_places *p, sl_type type, bool originals)
{
    const sl_pen *const pen = &of->screen->pen;
    char text[LEAD + WORDS];
    bool fits = true;
    for (int i = 0; i < 2; i++) {
        const int w = p->caution[i].w;
        lead_and_words(of, i, text);
        int h = sl_pen_size(pen, type, SL_INK_TEXT, w, text).y;
        if (originals) {
            h += sl_pen_px(pen, 4.0) +
                 sl_pen_size(pen, SL_TYPE_NOTE, SL_INK_TEXT, w, words_of(of, SL_LINE_ORIGINAL, i)).y;
        }
        fits = fits && h <= p->caution[i].h;
    }
    return fits;
}

/* False: what they were translated from has no room below them. */
static bool put_cautions(const page *of, const stop_places *p)
{
    const sl_pen *const pen = &of->screen->pen;
    const bool translated = words_of(of, SL_LINE_ORIGINAL, 0)[0] != '\0';
    const bool whole = translated && have_room(of, p, SL_TYPE_BODY, true);
    char text[LEAD + WORDS];
    for (int i = 0; i < 2; i++) {
        SDL_Rect place = p->caution[i], below = place;
        const char *const original = words_of(of, SL_LINE_ORIGINAL, i);
        below.h = whole ? sl_pen_size(pen, SL_TYPE_NOTE, SL_INK_TEXT, place.w, original).y : 0;
        place.h -= whole ? below.h + sl_pen_px(pen, 4.0) : 0;
        lead_and_words(of, i, text);
        below.y = put_fitting(pen, place, text) + sl_pen_px(pen, 4.0);
        if (whole) {
            sl_pen_wrap(pen, SL_TYPE_NOTE, SL_INK_TEXT, below, false, original);
        }
    }
    return whole || !translated;
}

static void put_stopped(sl_day_screen *screen)
{
    const sl_pen *const pen = &screen->pen;
    const int gap = sl_pen_px(pen, 8.0);
    page of;
    read_page(&of, screen);
    const stop_places p = place_stop(&of);
    sl_pen_fill(pen, p.bar, SL_GROUND_DARK);
    sl_pen_place(pen, SL_TYPE_HEAD, SL_INK_LIGHT, (SDL_Rect){p.bar.x + gap, p.bar.y, p.bar.w - gap, p.bar.h},
                 SL_ALIGN_LEFT, words_of(&of, SL_LINE_TITLE, 0));
    sl_pen_wrap(pen, screen->places.compact ? SL_TYPE_STRONG : SL_TYPE_HEAD, SL_INK_TEXT, p.also, false,
                words_of(&of, SL_LINE_SAY, 0));
    put_water(screen, p.water);
    const bool whole = put_cautions(&of, &p);
    const bool told = screen->said[0] != '\0' && screen->refused;
    sl_pen_place(pen, SL_TYPE_STRONG, SL_INK_TEXT, p.ask, SL_ALIGN_LEFT,
                 told ? screen->said : words_of(&of, SL_LINE_ASK, 0));
    if (!whole && !told) {
        sl_pen_place(pen, SL_TYPE_NOTE, SL_INK_TEXT, p.ask, SL_ALIGN_RIGHT,
                     _("Unreviewed translation; K shows the English"));
    }
    put_choices(&of, p.grid, 3, 3);
    const SDL_Rect body = body_of(screen);
    put_act(screen, SL_ACT_WATER, p.last, NULL);
    put_act(screen, SL_ACT_CLOSE, last_row(body, 4, 1), _("To the bench, water on"));
    put_act(screen, SL_ACT_BOWLS, last_row(body, 4, 2), NULL);
    put_act(screen, SL_ACT_STOP_ALL, last_row(body, 4, 3), NULL);
}

bool sl_day_page_fits(sl_day_screen *screen)
{
    if (sl_day_page_of(screen) != SL_DAY_STOPPED) {
        return true;
    }
    page of;
    read_page(&of, screen);
    const stop_places p = place_stop(&of);
    return have_room(&of, &p, SL_TYPE_NOTE, false);
}

/* ---- sound, bowls, notes ------------------------------------------------------------------------------ */

static void put_sound(sl_day_screen *screen)
{
    SDL_Rect body = body_of(screen);
    page of;
    read_page(&of, screen);
    put_title(screen, &body, words_of(&of, SL_LINE_TITLE, 0));
    const SDL_Rect row = last_row(body, 3, 0);
    const SDL_Rect text = {body.x, body.y, body.w, row.y - body.y - 8};
    const int y = put_fitting(&screen->pen, (SDL_Rect){text.x, text.y, text.w, text.h / 2},
                              words_of(&of, SL_LINE_SAY, 0));
    const int gap = sl_pen_px(&screen->pen, 12.0);
    put_fitting(&screen->pen, (SDL_Rect){text.x, y + gap, text.w, text.y + text.h - y - gap},
                words_of(&of, SL_LINE_SAY, 1));
    put_act(screen, SL_ACT_HEARD, row, NULL);
    put_act(screen, SL_ACT_NOT_HEARD, last_row(body, 3, 1), NULL);
    put_act(screen, SL_ACT_SOUND, last_row(body, 3, 2), NULL);
}

/* What is said, what is asked, and its choices as buttons. */
static void put_asking(sl_day_screen *screen, int columns, int rows, int row_px)
{
    const sl_pen *const pen = &screen->pen;
    SDL_Rect body = body_of(screen);
    char text[4096] = "";
    page of;
    read_page(&of, screen);
    put_title(screen, &body, words_of(&of, SL_LINE_TITLE, 0));
    for (int i = 0; i < of.n; i++) {
        if (of.line[i].kind == SL_LINE_SAY) {
            sl_append(text, sizeof text, "%s\n", of.line[i].words);
        }
    }
    const SDL_Rect last = last_row(body, 2, 0);
    const int strong = sl_text_line_height(pen->text, SL_TYPE_STRONG);
    const int grid_h = SDL_min(rows * (row_px + 8) - 8, last.y - 8 - body.y - strong - 4);
    const SDL_Rect grid = {body.x, last.y - 8 - grid_h, body.w, grid_h};
    put_fitting(pen, (SDL_Rect){body.x, body.y, body.w, grid.y - strong - 8 - body.y}, text);
    sl_pen_place(pen, SL_TYPE_STRONG, SL_INK_TEXT, (SDL_Rect){body.x, grid.y - strong - 4, body.w, strong},
                 SL_ALIGN_LEFT, screen->said[0] != '\0' ? screen->said : words_of(&of, SL_LINE_ASK, 0));
    put_choices(&of, grid, columns, rows);
    put_act(screen, SL_ACT_CLOSE, last, NULL);
    put_act(screen, SL_ACT_STOP_ALL, last_row(body, 2, 1), NULL);
}

/* ---- what is only read -------------------------------------------------------------------------------- */

typedef struct reading {
    const sl_day_screen *screen;
    SDL_Rect at;
} reading;

static void put_entry(reading *to, const char *name, const char *text)
{
    const sl_pen *const pen = &to->screen->pen;
    const SDL_Rect area = to->at;
    const int names = sl_pen_px(pen, 110.0);
    const int a =
        sl_pen_wrap(pen, SL_TYPE_STRONG, SL_INK_TEXT, (SDL_Rect){area.x, area.y, names, 0}, false, name);
    const int b = sl_pen_wrap(pen, SL_TYPE_BODY, SL_INK_TEXT,
                              (SDL_Rect){area.x + names, area.y, area.w - names, 0}, false, text);
    to->at.y += SDL_max(a, b) + sl_pen_px(pen, 8.0);
}

static void read_line(void *self, const sl_day_line *line)
{
    put_entry(self, line->lead, line->words);
}

/* Every second, while something lies on hair; else when something was done. */
static int put_went(sl_day_screen *screen, SDL_Rect area)
{
    const sl_day *const day = &screen->desk->day;
    const int64_t second = sl_day_on_hair(day) ? day->now.wall_ns / 1000000000 : 0;
    const bool blind = sl_day_blind(day);
    uint64_t says = sl_leaf_number(0, &second, sizeof second);
    says = sl_leaf_number(says, &day->n_events, sizeof day->n_events);
    sl_document *const document = sl_leaf_renew(&screen->leaf, sl_leaf_number(says, &blind, sizeof blind));
    if (document != NULL) {
        const sl_day_went went = sl_day_went_of(screen->desk);
        sl_day_say_went(document, &went, &screen->leaf.error);
    }
    sl_leaf_lay(&screen->leaf, &screen->pen, area.w, SL_SCIENCE);
    sl_leaf_draw(&screen->leaf, &screen->pen, area.x, area.y);
    return area.y + sl_leaf_height(&screen->leaf);
}

static void put_reading(sl_day_screen *screen)
{
    const bool help = screen->reading == SL_DAY_HELP;
    const bool went = screen->reading == SL_DAY_WENT;
    SDL_Rect body = body_of(screen);
    put_title(screen, &body, help ? _("Keys") : went ? _("How the day went") : _("All cautions"));
    const SDL_Rect row = last_row(body, 2, 0);
    const SDL_Rect view = {body.x, body.y, body.w, row.y - body.y - 8};
    SDL_SetClipRect(screen->pen.sheet, &view);
    reading to = {screen, {view.x, view.y - screen->scroll, view.w, 0}};
    if (went) {
        to.at.y = put_went(screen, to.at);
    }
    sl_day_says(screen->desk, screen->reading, -1, read_line, &to);
    if (help) {
        put_entry(&to, "D  T  F11", _("theme; size of text, also Ctrl and +, −, 0; full screen"));
    }
    SDL_SetClipRect(screen->pen.sheet, NULL);
    screen->scroll_most = SDL_max(to.at.y + screen->scroll - view.y - view.h, 0);
    put_act(screen, SL_ACT_CLOSE, row,
            screen->scroll < screen->scroll_most ? _("Close (Down: read on)") : _("Close"));
    put_act(screen, SL_ACT_STOP_ALL, last_row(body, 2, 1), NULL);
}

void sl_day_put_page(sl_day_screen *screen)
{
    const sl_day *const day = &screen->desk->day;
    const sl_day_view view = sl_day_page_of(screen);
    SDL_Rect alarm = screen->places.alarm;
    alarm.y = screen->places.head.y;
    sl_day_put_alarm(screen, sl_day_put_rehearsal(screen, alarm));
    if (day->fault.code != SL_OK) {
        const int line = sl_text_line_height(screen->pen.text, SL_TYPE_BODY);
        sl_day_put_trouble(screen, (SDL_Rect){alarm.x, alarm.y + alarm.h, alarm.w, line});
    }
    if (view == SL_DAY_STOPPED) {
        put_stopped(screen);
    } else if (view == SL_DAY_BOWLS) {
        put_asking(screen, 3, 2, SL_DAY_TARGET_PX);
    } else if (view == SL_DAY_SOUND_TEST) {
        put_sound(screen);
    } else if (view == SL_DAY_END_PAGE) {
        put_asking(screen, 1, SL_DAY_TICKS, SL_DAY_TARGET_PX);
    } else if (view == SL_DAY_NOTE_PAGE) {
        put_asking(screen, 2, 4, 102);
    } else {
        put_reading(screen);
    }
}
