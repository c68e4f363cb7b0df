/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Faces and the cache of text pictures: an open-addressed table that is emptied whole
 * when it is three quarters full or holds too many pixels; a frame redraws what it needs.
 */
#include "view/draw/text.h"

#include <SDL_ttf.h>
#include <math.h>
#include <stdint.h>
#include <string.h>

#include "base/memory.h"
#include "view/draw/face.h"

enum { SLOTS = 1024, MOST_BYTES = 8 << 20 };

typedef struct slot {
    char *string; /* NULL = free */
    sl_type type;
    sl_srgb8 ink;
    int wrap;
    bool centred;
    SDL_Surface *picture;
} slot;

struct sl_text {
    FILE *told; /* what is written, in words; NULL: nobody asks */
    sl_face face;
    double unit;
    TTF_Font *font[SL_TYPE_COUNT];
    slot slots[SLOTS];
    int used;
    size_t bytes;
};

/* Sizes in units; bold or not. */
static const struct {
    double size;
    bool bold;
} sizes[SL_TYPE_COUNT] = {
    [SL_TYPE_NOTE] = {12.5, false},  [SL_TYPE_SMALL] = {13.0, false}, [SL_TYPE_BODY] = {14.5, false},
    [SL_TYPE_STRONG] = {14.5, true}, [SL_TYPE_FIGURE] = {17.5, true}, [SL_TYPE_HEAD] = {21.0, true},
    [SL_TYPE_LARGE] = {34.0, true},  [SL_TYPE_CLOCK] = {92.0, true},
};

static void forget(sl_text *text)
{
    for (int i = 0; i < SLOTS; i++) {
        if (text->slots[i].string != NULL) {
            SDL_free(text->slots[i].string);
            SDL_FreeSurface(text->slots[i].picture);
            text->slots[i] = (slot){0};
        }
    }
    text->used = 0;
    text->bytes = 0;
}

static void close_fonts(sl_text *text)
{
    for (int i = 0; i < SL_TYPE_COUNT; i++) {
        if (text->font[i] != NULL) {
            TTF_CloseFont(text->font[i]);
            text->font[i] = NULL;
        }
    }
}

sl_text *sl_text_new(sl_error *error)
{
    sl_text *text = sl_new(1, sizeof *text, "opening the typeface", error);
    if (text == NULL) {
        return NULL;
    }
    if (!sl_face_find(&text->face, error)) {
        sl_free(text);
        return NULL;
    }
    if (TTF_Init() != 0) {
        sl_fail(error, SL_ERR_MISSING_PART, TTF_GetError(), "SDL2_ttf must be installed");
        sl_free(text);
        return NULL;
    }
    return text;
}

void sl_text_free(sl_text *text)
{
    if (text == NULL) {
        return;
    }
    forget(text);
    close_fonts(text);
    TTF_Quit();
    sl_free(text);
}

bool sl_text_scale(sl_text *text, double unit, sl_error *error)
{
    if (fabs(text->unit - unit) < 1e-9) {
        return true;
    }
    forget(text);
    close_fonts(text);
    text->unit = unit;
    for (int i = 0; i < SL_TYPE_COUNT; i++) {
        const char *path = sizes[i].bold ? text->face.bold : text->face.regular;
        text->font[i] = TTF_OpenFont(path, (int)lround(sizes[i].size * unit));
        if (text->font[i] == NULL) {
            return sl_fail(error, SL_ERR_MISSING_PART, TTF_GetError(),
                           "install fonts-inter or fonts-dejavu-core");
        }
        TTF_SetFontHinting(text->font[i], TTF_HINTING_LIGHT);
    }
    return true;
}

void sl_text_turn(sl_text *text)
{
    if (text->used > SLOTS * 3 / 4 || text->bytes > (size_t)MOST_BYTES) {
        forget(text);
    }
}

/* FNV-1a, 32 bits. */
static uint32_t hash(sl_type type, sl_srgb8 ink, int wrap, bool centred, const char *string)
{
    uint32_t h = 2166136261U;
    const uint32_t heads[] = {(uint32_t)type, ink.r, ink.g, ink.b, (uint32_t)wrap, centred ? 1U : 0U};
    for (size_t i = 0; i < sizeof heads / sizeof heads[0]; i++) {
        h = (h ^ heads[i]) * 16777619U;
    }
    for (const char *c = string; *c != '\0'; c++) {
        h = (h ^ (uint8_t)*c) * 16777619U;
    }
    return h;
}

static bool holds(const slot *s, sl_type type, sl_srgb8 ink, int wrap, bool centred, const char *string)
{
    return s->type == type && s->ink.r == ink.r && s->ink.g == ink.g && s->ink.b == ink.b &&
           s->wrap == wrap && s->centred == centred && strcmp(s->string, string) == 0;
}

static SDL_Surface *render(TTF_Font *font, sl_srgb8 ink, int wrap, bool centred, const char *string)
{
    const SDL_Color colour = {ink.r, ink.g, ink.b, 255};
    if (wrap <= 0) {
        return TTF_RenderUTF8_Blended(font, string, colour);
    }
    TTF_SetFontWrappedAlign(font, centred ? TTF_WRAPPED_ALIGN_CENTER : TTF_WRAPPED_ALIGN_LEFT);
    return TTF_RenderUTF8_Blended_Wrapped(font, string, colour, (Uint32)wrap);
}

SDL_Surface *sl_text_picture(sl_text *text, sl_type type, sl_srgb8 ink, int wrap, bool centred,
                             const char *string)
{
    if (string[0] == '\0') {
        return NULL;
    }
    if (text->used >= SLOTS - 1) {
        forget(text); /* a single frame never shows that many strings */
    }
    uint32_t at = hash(type, ink, wrap, centred, string) % SLOTS;
    while (text->slots[at].string != NULL) {
        if (holds(&text->slots[at], type, ink, wrap, centred, string)) {
            return text->slots[at].picture;
        }
        at = (at + 1) % SLOTS;
    }
    SDL_Surface *picture = render(text->font[type], ink, wrap, centred, string);
    char *copy = SDL_strdup(string);
    if (picture == NULL || copy == NULL) {
        SDL_free(copy);
        SDL_FreeSurface(picture);
        return NULL;
    }
    text->slots[at] = (slot){copy, type, ink, wrap, centred, picture};
    text->used++;
    text->bytes += (size_t)picture->h * (size_t)picture->pitch;
    return picture;
}

void sl_text_tell_to(sl_text *text, FILE *out)
{
    text->told = out;
}

static void tell_line(FILE *out, const char *string)
{
    for (const char *c = string; *c != '\0'; c++) { /* one thing said, one line */
        fputc(*c == '\n' ? ' ' : *c, out);
    }
    fputc('\n', out);
}

void sl_text_told(const sl_text *text, sl_type type, SDL_Rect area, const char *string)
{
    static const char *const names[SL_TYPE_COUNT] = {
        [SL_TYPE_NOTE] = "note",     [SL_TYPE_SMALL] = "small",   [SL_TYPE_BODY] = "body",
        [SL_TYPE_STRONG] = "strong", [SL_TYPE_FIGURE] = "figure", [SL_TYPE_HEAD] = "head",
        [SL_TYPE_LARGE] = "large",   [SL_TYPE_CLOCK] = "clock"};
    if (text->told == NULL) {
        return;
    }
    fprintf(text->told, "words %d %d %d %d %s ", area.x, area.y, area.w, area.h, names[type]);
    tell_line(text->told, string);
}

void sl_text_cut(const sl_text *text, int width, int place, const char *string)
{
    if (text->told != NULL) {
        fprintf(text->told, "cut %d %d ", width, place);
        tell_line(text->told, string);
    }
}

int sl_text_line_height(const sl_text *text, sl_type type)
{
    return TTF_FontLineSkip(text->font[type]);
}
