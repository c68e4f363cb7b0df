/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Words on a terminal. Invariant: a cell takes exactly the columns it was given, so that
 * columns line up whatever the language of the names. Ranges of wide and combining
 * characters: the main blocks of Unicode Standard Annex 11 and of the combining blocks.
 */
#include "document/text.h"

#include <math.h>
#include <stdbool.h>
#include <stdint.h>
#include <string.h>

#include "base/append.h"
#include "base/language.h"
#include "base/minute.h"

/* The next character of a text that the reader has already checked to be UTF-8; a stray
 * byte counts as one character. */
static uint32_t next_character(const char **at)
{
    const unsigned char *byte = (const unsigned char *)*at;
    int more = 0;
    uint32_t code = byte[0];
    if (code >= 0xF0) {
        more = 3;
        code &= 0x07U;
    } else if (code >= 0xE0) {
        more = 2;
        code &= 0x0FU;
    } else if (code >= 0xC0) {
        more = 1;
        code &= 0x1FU;
    }
    int i = 1;
    while (i <= more && (byte[i] & 0xC0U) == 0x80U) {
        code = (code << 6U) | (byte[i] & 0x3FU);
        i++;
    }
    *at += i;
    return code;
}

static int character_width(uint32_t code)
{
    if ((code >= 0x0300 && code <= 0x036F) || (code >= 0x200B && code <= 0x200F) ||
        (code >= 0x20D0 && code <= 0x20FF) || (code >= 0xFE00 && code <= 0xFE0F)) {
        return 0;
    }
    if ((code >= 0x1100 && code <= 0x115F) || (code >= 0x2E80 && code <= 0xA4CF) ||
        (code >= 0xAC00 && code <= 0xD7A3) || (code >= 0xF900 && code <= 0xFAFF) ||
        (code >= 0xFE30 && code <= 0xFE6F) || (code >= 0xFF00 && code <= 0xFF60) ||
        (code >= 0x1F300 && code <= 0x1FAFF) || (code >= 0x20000 && code <= 0x3FFFD)) {
        return 2;
    }
    return 1;
}

int sl_text_width(const char *text)
{
    int width = 0;
    for (const char *at = text; *at != '\0';) {
        width += character_width(next_character(&at));
    }
    return width;
}

/* Bytes of the longest beginning that takes at most `width` columns; *taken are its
 * columns. */
static size_t bytes_within(const char *text, int width, int *taken)
{
    const char *at = text;
    *taken = 0;
    while (*at != '\0') {
        const char *after = at;
        const int columns = character_width(next_character(&after));
        if (*taken + columns > width) {
            break;
        }
        *taken += columns;
        at = after;
    }
    return (size_t)(at - text);
}

void sl_put_spaces(FILE *out, int count)
{
    if (count > 0) {
        fprintf(out, "%*s", count, "");
    }
}

/* Writes as much as fits; returns the columns taken. */
static int put_cut(FILE *out, const char *text, int width)
{
    int taken = 0;
    if (sl_text_width(text) <= width) {
        fputs(text, out);
        return sl_text_width(text);
    }
    const size_t bytes = bytes_within(text, width - 1, &taken);
    fwrite(text, 1, bytes, out);
    fputs("…", out);
    return taken + 1;
}

void sl_put_left(FILE *out, const char *text, int width)
{
    const int taken = put_cut(out, text, width);
    sl_put_spaces(out, width - taken);
}

void sl_put_title(FILE *out, const char *title, int before, int width)
{
    if (sl_text_width(title) <= width) {
        sl_put_left(out, title, width);
    } else {
        fprintf(out, "%s\n", title);
        sl_put_spaces(out, before + width);
    }
}

void sl_put_right(FILE *out, const char *text, int width)
{
    sl_put_spaces(out, width - sl_text_width(text));
    put_cut(out, text, width);
}

/* `later` opens each line after the first; NULL: so many blanks. */
static void put_lines(FILE *out, int indent, const char *later, const char *text, int width)
{
    int column = indent;
    const char *at = text;
    bool line_end = false;
    while (*at != '\0') {
        const size_t bytes = strcspn(at, " \n");
        char word[256];
        snprintf(word, sizeof word, "%.*s", (int)bytes, at);
        const int columns = sl_text_width(word);
        if (column > indent && (line_end || column + 1 + columns > width)) {
            fputc('\n', out);
            if (later) {
                fputs(later, out);
            } else {
                sl_put_spaces(out, indent);
            }
            column = indent;
        } else if (column > indent) {
            fputc(' ', out);
            column++;
        }
        fwrite(at, 1, bytes, out);
        column += columns;
        at += bytes;
        const size_t blanks = strspn(at, " \n");
        line_end = memchr(at, '\n', blanks) != NULL;
        at += blanks;
    }
    fputc('\n', out);
}

void sl_put_paragraph(FILE *out, const char *lead, const char *text, int width)
{
    fputs(lead, out);
    put_lines(out, sl_text_width(lead), NULL, text, width);
}

void sl_put_onward(FILE *out, int column, const char *text, int width)
{
    put_lines(out, column, NULL, text, width);
}

void sl_put_marked(FILE *out, const char *mark, const char *text, int width)
{
    fputs(mark, out);
    put_lines(out, sl_text_width(mark), mark, text, width);
}

void sl_percent(double share, char *text, size_t size)
{
    const double percent = 100.0 * share;
    if (percent > 0.0005 && percent <= 0.5) {
        snprintf(text, size, "<1");
        return;
    }
    if (fabs(percent) < 1e9) {                       /* most entries of a table, and cheaper */
        snprintf(text, size, "%ld", lrint(percent)); /* halves to even, as %.0f */
        return;
    }
    snprintf(text, size, "%.0f", percent);
}

void sl_shell_word(const char *word, char *text, size_t size)
{
    const bool plain = word[0] != '\0' && strpbrk(word, " \"'\\$`&|;<>()*?[]{}!#~") == NULL;
    snprintf(text, size, "%s", plain ? "" : "'");
    for (size_t n = 0; *word != '\0'; word += n) {
        n = strcspn(word, "'");
        sl_append(text, size, "%.*s%s", (int)n, word, word[n] == '\'' ? "'\\''" : "");
        n += word[n] == '\'' ? 1 : 0;
    }
    sl_append(text, size, "%s", plain ? "" : "'");
}

void sl_of_hundred(double share, char *text, size_t size)
{
    if (share < 0.0005) {
        snprintf(text, size, share > 0.0 ? "<0.1" : "0");
    } else {
        sl_short_number(100.0 * share, share < 0.1 ? 1 : 0, text, size);
    }
}

void sl_minutes_between(double minutes, const char *between, char *text, size_t size)
{
    const double low = floor(minutes);
    sl_minute_words(SL_MINUTE_MODEL, text, size, "%.0f%s%.0f", low, between, low + 1.0);
}

void sl_minutes_range(double minutes, char *text, size_t size)
{
    const double low = floor(minutes);
    sl_minute_words(SL_MINUTE_MODEL, text, size, _("%.0f to %.0f min"), low, low + 1.0);
}

void sl_clock_time(sl_minute_kind kind, double minutes, char *text, size_t size)
{
    const long seconds = lround(60.0 * minutes);
    if (seconds % 60 == 0) {
        sl_minute_words(kind, text, size, "%ld", seconds / 60);
    } else {
        sl_minute_words(kind, text, size, "%ld:%02ld", seconds / 60, seconds % 60);
    }
}

void sl_short_number(double value, int decimals, char *text, size_t size)
{
    snprintf(text, size, "%.*f", decimals, value);
    if (strchr(text, '.') == NULL) {
        return;
    }
    size_t length = strlen(text);
    while (length > 1 && text[length - 1] == '0') {
        length--;
    }
    if (text[length - 1] == '.') {
        length--;
    }
    text[length] = '\0';
    if (strcmp(text, "-0") == 0) {
        snprintf(text, size, "0");
    }
}
