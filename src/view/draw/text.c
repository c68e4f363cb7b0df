/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Faces, and a table of what was measured and drawn: open-addressed, twice as large before it is three
 * quarters full, and emptied whole between frames when it holds too much; a frame redraws what it needs.
 */
#include "view/draw/text.h"

#include <SDL_ttf.h>
#include <limits.h>
#include <math.h>
#include <stdint.h>
#include <string.h>

#include "base/memory.h"
#include "view/draw/face.h"

enum { SLOTS = 1024, MOST_SLOTS = 4 * SLOTS, MOST_BYTES = 8 << 20, ASCII = 128 };

/* A line that was drawn, or a string that was measured. */
typedef struct slot_key {
    const char *string;
    sl_type type;
    int px, wrap; /* size of the face; -1: drawn, 0: measured in one line */
    sl_srgb8 ink; /* of what is drawn */
} slot_key;

typedef struct slot {
    slot_key key; /* owns its string; NULL = free */
    SDL_Surface *picture;
    SDL_Point extent;
    int n_lines;
    sl_text_line *line; /* [n_lines] */
} slot;

/* The file of a face in memory: of an open file every letter that is measured is read anew, by calls of the
 * system for each. */
typedef struct face_file {
    void *bytes;
    size_t size;
} face_file;

struct sl_text {
    FILE *told;        /* what is written, in words; NULL: nobody asks */
    face_file face[2]; /* regular, bold */
    double unit;
    TTF_Font *font[SL_TYPE_COUNT];
    int advance[SL_TYPE_COUNT][ASCII]; /* of one letter alone; 0: not asked yet */
    TTF_Font *ruler;                   /* measures at sizes that are tried */
    bool ruler_bold;
    slot *slots; /* [capacity] */
    size_t capacity, used, bytes;
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
    for (size_t i = 0; i < text->capacity; i++) {
        slot *const s = &text->slots[i];
        if (s->key.string != NULL) {
            SDL_free((char *)s->key.string);
            SDL_FreeSurface(s->picture);
            sl_free(s->line);
            *s = (slot){0};
        }
    }
    text->used = text->bytes = 0;
}

static void close_fonts(sl_text *text)
{
    for (int i = 0; i < SL_TYPE_COUNT; i++) {
        if (text->font[i] != NULL) {
            TTF_CloseFont(text->font[i]);
            text->font[i] = NULL;
        }
    }
    if (text->ruler != NULL) {
        TTF_CloseFont(text->ruler);
        text->ruler = NULL;
    }
}

static void free_memory(sl_text *text)
{
    SDL_free(text->face[0].bytes);
    SDL_free(text->face[1].bytes);
    sl_free(text->slots);
    sl_free(text);
}

static bool load_faces(sl_text *text, sl_error *error)
{
    sl_face face;
    if (!sl_face_find(&face, error)) {
        return false;
    }
    for (int bold = 0; bold < 2; bold++) {
        text->face[bold].bytes = SDL_LoadFile(bold ? face.bold : face.regular, &text->face[bold].size);
        if (text->face[bold].bytes == NULL) {
            return sl_fail(error, SL_ERR_MISSING_PART, SDL_GetError(),
                           "install fonts-inter or fonts-dejavu-core");
        }
    }
    return true;
}

sl_text *sl_text_new(sl_error *error)
{
    sl_text *text = sl_new(1, sizeof *text, "opening the typeface", error);
    if (text == NULL) {
        return NULL;
    }
    text->capacity = SLOTS;
    text->slots = sl_new(SLOTS, sizeof *text->slots, "opening the typeface", error);
    bool good = text->slots != NULL && load_faces(text, error);
    if (good && TTF_Init() != 0) {
        good = sl_fail(error, SL_ERR_MISSING_PART, TTF_GetError(), "SDL2_ttf must be installed");
    }
    if (!good) {
        free_memory(text);
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
    free_memory(text);
}

static int px_of(sl_type type, double unit)
{
    return (int)lround(sizes[type].size * unit);
}

static TTF_Font *opened(const sl_text *text, bool bold, int px)
{
    const face_file *const face = &text->face[bold ? 1 : 0];
    TTF_Font *const font = TTF_OpenFontRW(SDL_RWFromConstMem(face->bytes, (int)face->size), 1, px);
    if (font != NULL) {
        TTF_SetFontHinting(font, TTF_HINTING_LIGHT);
    }
    return font;
}

bool sl_text_scale(sl_text *text, double unit, sl_error *error)
{
    if (fabs(text->unit - unit) < 1e-9) {
        return true;
    }
    forget(text);
    close_fonts(text);
    text->unit = unit;
    memset(text->advance, 0, sizeof text->advance);
    for (int i = 0; i < SL_TYPE_COUNT; i++) {
        text->font[i] = opened(text, sizes[i].bold, px_of((sl_type)i, unit));
        if (text->font[i] == NULL) {
            return sl_fail(error, SL_ERR_MISSING_PART, TTF_GetError(),
                           "install fonts-inter or fonts-dejavu-core");
        }
    }
    return true;
}

void sl_text_turn(sl_text *text)
{
    if (text->used > MOST_SLOTS || text->bytes > (size_t)MOST_BYTES) {
        forget(text);
    }
}

/* ---- the table ------------------------------------------------------------------------------ */

/* FNV-1a, 32 bits. */
static uint32_t hash(const slot_key *key)
{
    uint32_t h = 2166136261U;
    const uint32_t heads[] = {(uint32_t)key->type, (uint32_t)key->px, (uint32_t)key->wrap,
                              key->ink.r,          key->ink.g,        key->ink.b};
    for (size_t i = 0; i < sizeof heads / sizeof heads[0]; i++) {
        h = (h ^ heads[i]) * 16777619U;
    }
    for (const char *c = key->string; *c != '\0'; c++) {
        h = (h ^ (uint8_t)*c) * 16777619U;
    }
    return h;
}

static bool same(const slot_key *one, const slot_key *two)
{
    return one->type == two->type && one->px == two->px && one->wrap == two->wrap &&
           one->ink.r == two->ink.r && one->ink.g == two->ink.g && one->ink.b == two->ink.b &&
           strcmp(one->string, two->string) == 0;
}

/* That of the key, or the free one where it belongs. */
static slot *place_of(slot *slots, size_t capacity, const slot_key *key)
{
    size_t at = hash(key) % capacity;
    while (slots[at].key.string != NULL && !same(&slots[at].key, key)) {
        at = (at + 1) % capacity;
    }
    return &slots[at];
}

static bool grow(sl_text *text)
{
    slot *const larger = sl_new(2 * text->capacity, sizeof *larger, "writing", NULL);
    for (size_t i = 0; i < text->capacity && larger != NULL; i++) {
        if (text->slots[i].key.string != NULL) {
            *place_of(larger, 2 * text->capacity, &text->slots[i].key) = text->slots[i];
        }
    }
    if (larger != NULL) {
        sl_free(text->slots);
        text->slots = larger;
        text->capacity *= 2;
    }
    return larger != NULL;
}

/* An empty one is new, with a string of its own; NULL when memory ran out. */
static slot *slot_of(sl_text *text, const slot_key *key)
{
    if (4 * (text->used + 1) > 3 * text->capacity && !grow(text)) {
        return NULL;
    }
    slot *const s = place_of(text->slots, text->capacity, key);
    if (s->key.string == NULL) {
        char *const copy = SDL_strdup(key->string);
        if (copy == NULL) {
            return NULL;
        }
        s->key = *key;
        s->key.string = copy;
        text->used++;
    }
    return s;
}

/* ---- measuring --------------------------------------------------------------------------------- */

/* The face at another size than it is open at. */
static TTF_Font *ruler(sl_text *text, bool bold, int px)
{
    if (text->ruler == NULL || text->ruler_bold != bold) {
        TTF_CloseFont(text->ruler);
        text->ruler = opened(text, bold, px);
        text->ruler_bold = bold;
    } else {
        TTF_SetFontSize(text->ruler, px);
    }
    return text->ruler;
}

static TTF_Font *font_of(sl_text *text, sl_type type, int px)
{
    const bool open = text->font[type] != NULL && px == px_of(type, text->unit);
    return open ? text->font[type] : ruler(text, sizes[type].bold, px);
}

static int bytes_of(const char *string, int characters)
{
    int at = 0;
    while (characters > 0 && string[at] != '\0') {
        at++;
        while (((unsigned char)string[at] & 0xC0U) == 0x80U) {
            at++;
        }
        characters--;
    }
    return at;
}

static int advance_of(sl_text *text, sl_type type, unsigned char letter)
{
    int *const advance = &text->advance[type][letter];
    if (*advance == 0) {
        TTF_GlyphMetrics32(text->font[type], letter, NULL, NULL, NULL, NULL, advance);
        *advance = SDL_max(*advance, 1);
    }
    return *advance;
}

/* As many characters as reach beyond `wrap` pixels, letter by letter, and an eighth further; all where no
 * face is open yet. */
static int reaching(sl_text *text, sl_type type, int wrap, const char *string)
{
    if (text->font[type] == NULL) {
        return INT_MAX;
    }
    const int high = TTF_FontHeight(text->font[type]);
    int n = 2;
    for (int sum = 0; *string != '\0' && sum < wrap + wrap / 8; string++) {
        const unsigned char letter = (unsigned char)*string;
        const bool first = letter < 0x80 || letter >= 0xC0; /* of its bytes */
        sum += letter < ASCII ? advance_of(text, type, letter) : first ? high / 2 : 0;
        n += first ? 1 : 0;
    }
    return n;
}

/* How many of the first `most` characters stand in one line, and how wide those are. */
static int fitting(TTF_Font *font, char *string, int most, int wrap, int *width)
{
    const int head = bytes_of(string, most);
    const char cut = string[head];
    int fits = 0;
    string[head] = '\0';
    TTF_MeasureUTF8(font, string, wrap, width, &fits);
    string[head] = cut;
    return fits;
}

/* Bytes of the first line of `string`, which holds no '\n': up to the last blank before `wrap`, but none
 * before a '%'; in the midst of a word that is longer than a line. Measured are the first `most` characters,
 * and all only where those fit: to measure one costs much the same wherever it stands. */
static int line_of(TTF_Font *font, char *string, int most, int wrap, int *width)
{
    int fits = fitting(font, string, most, wrap, width);
    fits = fits < most ? fits : fitting(font, string, INT_MAX, wrap, width);
    const int end = bytes_of(string, SDL_max(fits, 1));
    int at = end;
    if (string[end] == '\0') {
        return end;
    }
    while (at > 0 && (string[at] != ' ' || string[at + 1] == '%')) {
        at--;
    }
    return at > 0 ? at : end;
}

/* The same of one of several lines, where letters one by one leave no doubt, within a sixteenth of their sum;
 * those outside ASCII are nothing or as wide as high. 0: it must be measured. */
static int surely_broken(sl_text *text, sl_type type, int wrap, const char *string)
{
    const int high = TTF_FontHeight(text->font[type]);
    int least = -2, most = 2, at = 0;
    for (int i = 0; string[i] != '\0'; i++) {
        const unsigned char letter = (unsigned char)string[i];
        const int advance = letter < ASCII ? advance_of(text, type, letter) : 0;
        if (letter == ' ' && string[i + 1] != '%') {
            const bool fits = most + most / 16 <= wrap;
            if (!fits) {
                return least - least / 16 > wrap ? at : 0;
            }
            at = i;
        }
        least += advance;
        most += letter >= 0xC0 ? high : advance;
    }
    return least - least / 16 > wrap ? at : 0;
}

/* Its lines, and how wide and high they are. */
static void break_lines(sl_text *text, slot *s, TTF_Font *font)
{
    char *const copy = SDL_strdup(s->key.string);
    const size_t most = strlen(s->key.string) + 1;
    const int open_wrap = s->key.wrap * px_of(s->key.type, text->unit) / SDL_max(s->key.px, 1);
    const bool open = font == text->font[s->key.type];
    s->line = copy != NULL ? sl_new(most, sizeof *s->line, "writing", NULL) : NULL;
    for (char *from = copy; s->line != NULL && from != NULL && *from != '\0';) {
        char *const paragraph_end = from + strcspn(from, "\n");
        const char kept = *paragraph_end;
        int width = 0;
        *paragraph_end = '\0';
        int length = open ? surely_broken(text, s->key.type, s->key.wrap, from) : 0;
        if (length == 0) {
            length = line_of(font, from, reaching(text, s->key.type, open_wrap, from), s->key.wrap, &width);
        }
        char *next = from + length;
        *paragraph_end = kept;
        s->line[s->n_lines++] = (sl_text_line){(int)(from - copy), length};
        s->extent.x = SDL_max(s->extent.x, width); /* of a line that was cut nobody asks */
        next += next == paragraph_end && kept == '\n' ? 1 : strspn(next, " ");
        from = next;
    }
    SDL_free(copy);
    s->extent.x = s->n_lines > 1 ? s->key.wrap : s->extent.x;
    s->extent.y = s->n_lines * TTF_FontLineSkip(font);
}

static slot *measured(sl_text *text, sl_type type, int px, int wrap, const char *string)
{
    const slot_key key = {.string = string, .type = type, .px = px, .wrap = SDL_max(wrap, 0)};
    slot *const s = string[0] != '\0' ? slot_of(text, &key) : NULL;
    TTF_Font *const font = s != NULL && s->extent.y == 0 ? font_of(text, type, px) : NULL;
    if (font != NULL && wrap > 0) {
        break_lines(text, s, font);
    } else if (font != NULL) {
        TTF_SizeUTF8(font, string, &s->extent.x, &s->extent.y);
    }
    return s;
}

SDL_Point sl_text_extent_at(sl_text *text, sl_type type, double unit, int wrap, const char *string)
{
    const slot *const s = measured(text, type, px_of(type, unit), wrap, string);
    return s != NULL ? s->extent : (SDL_Point){0, 0};
}

SDL_Point sl_text_extent(sl_text *text, sl_type type, int wrap, const char *string)
{
    return sl_text_extent_at(text, type, text->unit, wrap, string);
}

/* Whether it stands in a line so wide beyond doubt: letters one by one, which costs a tenth of measuring them
 * together, those outside ASCII as wide as high, and a sixteenth more for pairs that stand apart. */
static bool surely_fits(sl_text *text, sl_type type, int width, const char *string)
{
    const int high = TTF_FontHeight(text->font[type]);
    int sum = 2;
    for (const char *c = string; *c != '\0' && sum <= width; c++) {
        const unsigned char letter = (unsigned char)*c;
        if (letter == '\n') {
            return false;
        }
        sum += letter < ASCII ? advance_of(text, type, letter) : letter >= 0xC0 ? high : 0;
    }
    return sum + sum / 16 <= width;
}

bool sl_text_fits(sl_text *text, sl_type type, int width, const char *string)
{
    return surely_fits(text, type, width, string) || sl_text_extent(text, type, 0, string).x <= width;
}

int sl_text_height(sl_text *text, sl_type type, int wrap, const char *string)
{
    return string[0] != '\0' && surely_fits(text, type, wrap, string)
               ? TTF_FontLineSkip(text->font[type])
               : sl_text_extent(text, type, wrap, string).y;
}

int sl_text_lines(sl_text *text, sl_type type, int wrap, const char *string, const sl_text_line **lines)
{
    const slot *const s = measured(text, type, px_of(type, text->unit), SDL_max(wrap, 1), string);
    *lines = s != NULL ? s->line : NULL;
    return s != NULL ? s->n_lines : 0;
}

/* ---- drawing ------------------------------------------------------------------------------------- */

SDL_Surface *sl_text_picture(sl_text *text, sl_type type, sl_srgb8 ink, const char *string)
{
    const slot_key key = {
        .string = string, .type = type, .px = px_of(type, text->unit), .wrap = -1, .ink = ink};
    slot *const s = string[0] != '\0' ? slot_of(text, &key) : NULL;
    if (s != NULL && s->picture == NULL) {
        s->picture = TTF_RenderUTF8_Blended(text->font[type], string, (SDL_Color){ink.r, ink.g, ink.b, 255});
        text->bytes += s->picture != NULL ? (size_t)s->picture->h * (size_t)s->picture->pitch : 0;
    }
    return s != NULL ? s->picture : NULL;
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

bool sl_text_tells(const sl_text *text)
{
    return text->told != NULL;
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

bool sl_text_has(const sl_text *text, Uint32 character)
{
    return TTF_GlyphIsProvided32(text->font[SL_TYPE_BODY], character) != 0 &&
           TTF_GlyphIsProvided32(text->font[SL_TYPE_STRONG], character) != 0;
}
