/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See typed.h.
 */
#include "view/draw/typed.h"

#include <stdio.h>
#include <string.h>
#include <unigbrk.h>

#include "base/plain_text.h"

static const double PAD = 8.0; /* units, at the sides of a field */
/* What was typed is told from what is usual by more than its ink, which is one in high contrast. */
static const sl_type TYPED = SL_TYPE_STRONG, USUAL = SL_TYPE_BODY;

/* ---- characters --------------------------------------------------------------------------------- */

static int next_of(const char *text, int at)
{
    const uint8_t *const from = (const uint8_t *)text + at;
    const uint8_t *const next = u8_grapheme_next(from, from + strlen(text + at));
    return next != NULL ? at + (int)(next - from) : at;
}

static int before(const char *text, int at)
{
    const uint8_t *const start = (const uint8_t *)text;
    const uint8_t *const last = u8_grapheme_prev(start + at, start);
    return last != NULL ? (int)(last - start) : 0;
}

static void cut_out(sl_typed *typed, int from, int to)
{
    memmove(typed->text + from, typed->text + to, strlen(typed->text + to) + 1);
    typed->caret = from;
}

/* A character, or a blank for what parts lines; left out where the line with it would not be one. */
static void put_in(sl_typed *typed, const char *character, int length)
{
    const char *const put = (unsigned char)character[0] < ' ' ? " " : character;
    const int bytes = put == character ? length : 1;
    char line[SL_TYPED_BYTES];
    const int whole = snprintf(line, sizeof line, "%.*s%.*s%s", typed->caret, typed->text, bytes, put,
                               typed->text + typed->caret);
    if (whole < SL_TYPED_BYTES && sl_text_accept(line, (size_t)whole, SL_TEXT_LINE, NULL)) {
        memcpy(typed->text, line, (size_t)whole + 1);
        typed->caret += bytes;
    }
}

static void put_all(sl_typed *typed, const char *text)
{
    for (int at = 0; text[at] != '\0';) {
        const int next = next_of(text, at);
        put_in(typed, text + at, next - at);
        at = next > at ? next : at + 1;
    }
}

void sl_typed_set(sl_typed *typed, const char *text)
{
    *typed = (sl_typed){.caret = 0};
    put_all(typed, text);
}

/* ---- events --------------------------------------------------------------------------------------- */

static void paste(sl_typed *typed)
{
    char *const copied = SDL_GetClipboardText(); /* "" where there is none, and where memory ran out */
    if (copied != NULL) {
        put_all(typed, copied);
        SDL_free(copied);
    }
}

bool sl_typed_take(sl_typed *typed, const SDL_Event *event)
{
    const int end = (int)strlen(typed->text);
    if (event->type == SDL_TEXTINPUT) {
        put_all(typed, event->text.text);
        return true;
    }
    if (event->type != SDL_KEYDOWN) {
        return false;
    }
    const bool control = (event->key.keysym.mod & KMOD_CTRL) != 0;
    switch (event->key.keysym.sym) {
    case SDLK_LEFT:
        typed->caret = before(typed->text, typed->caret);
        return true;
    case SDLK_RIGHT:
        typed->caret = next_of(typed->text, typed->caret);
        return true;
    case SDLK_HOME:
        typed->caret = 0;
        return true;
    case SDLK_END:
        typed->caret = end;
        return true;
    case SDLK_BACKSPACE:
        cut_out(typed, before(typed->text, typed->caret), typed->caret);
        return true;
    case SDLK_DELETE:
        cut_out(typed, typed->caret, next_of(typed->text, typed->caret));
        return true;
    case SDLK_v:
        if (control) {
            paste(typed);
        }
        return control;
    default:
        return false;
    }
}

/* ---- where it stands -------------------------------------------------------------------------------- */

static int width_of(const sl_pen *pen, const char *text, int bytes)
{
    char head[SL_TYPED_BYTES];
    snprintf(head, sizeof head, "%.*s", bytes, text);
    return sl_text_extent(pen->text, TYPED, 0, head).x;
}

static SDL_Rect line_in(const sl_pen *pen, SDL_Rect area)
{
    const int pad = sl_pen_px(pen, PAD), high = sl_text_line_height(pen->text, TYPED);
    return (SDL_Rect){area.x + pad, area.y + (area.h - high) / 2, area.w - 2 * pad, high};
}

/* By how much the line is shifted to the left, so that its caret is in sight. */
static int shift_of(const sl_pen *pen, const sl_typed *typed, int room)
{
    return SDL_max(width_of(pen, typed->text, typed->caret) - room + sl_pen_px(pen, 2.0), 0);
}

void sl_typed_point(sl_typed *typed, const sl_pen *pen, SDL_Rect area, int x)
{
    const SDL_Rect line = line_in(pen, area);
    const int wanted = x - line.x + shift_of(pen, typed, line.w);
    int at = 0, next = next_of(typed->text, 0);
    while (next > at && width_of(pen, typed->text, at) + width_of(pen, typed->text, next) < 2 * wanted) {
        at = next;
        next = next_of(typed->text, at);
    }
    typed->caret = at;
}

void sl_typed_draw(const sl_pen *pen, SDL_Rect area, const sl_typed *typed, const char *usual, bool keyboard)
{
    const SDL_Rect line = line_in(pen, area), clip = pen->sheet->clip_rect;
    const bool empty = typed->text[0] == '\0';
    const char *const shown = empty ? usual : typed->text;
    const sl_type type = empty ? USUAL : TYPED;
    const sl_srgb8 ink = pen->theme->colour[empty ? SL_INK_QUIET : SL_INK_TEXT];
    const int shift = keyboard ? shift_of(pen, typed, line.w) : 0;
    SDL_Surface *const picture = sl_text_picture(pen->text, type, ink, shown);
    SDL_Rect seen, to = {line.x - shift, line.y, line.w, line.h};
    sl_pen_fill(pen, area, SL_GROUND_SHEET);
    sl_pen_frame(pen, area, sl_pen_px(pen, keyboard ? 2.5 : 1.25), SL_MARK_CONTROL);
    if (SDL_IntersectRect(&line, &clip, &seen)) {
        SDL_SetClipRect(pen->sheet, &seen);
        if (picture != NULL) {
            SDL_BlitSurface(picture, NULL, pen->sheet, &to);
            sl_text_told(pen->text, type, (SDL_Rect){line.x, line.y, to.w, to.h}, shown);
        }
        if (keyboard) {
            sl_pen_fill(pen,
                        (SDL_Rect){line.x + width_of(pen, typed->text, typed->caret) - shift, line.y,
                                   sl_pen_px(pen, 1.5), line.h},
                        SL_INK_TEXT);
        }
        SDL_SetClipRect(pen->sheet, &clip);
    }
}
