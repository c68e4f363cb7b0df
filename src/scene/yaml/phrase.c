/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Texts for messages. Nearest word: the least edit distance (one step is a letter put
 * in, taken out, changed, or two neighbours swapped: Damerau's four slips of a typist).
 */
#include "scene/yaml/phrase.h"

#include <assert.h>
#include <stdio.h>
#include <string.h>

#include "base/language.h"
#include "base/plain_text.h"

enum { QUOTED_CHARACTERS = 40 };

static bool begins_character(char byte)
{
    return ((unsigned char)byte & 0xC0U) != 0x80U;
}

/* Length of the longest start of `piece` that is at most `most` bytes of whole characters. */
static size_t whole_characters(const char *piece, size_t most)
{
    const size_t length = strlen(piece);
    size_t cut = length < most ? length : most;
    while (cut > 0 && cut < length && !begins_character(piece[cut])) {
        cut--;
    }
    return cut;
}

static void add_bytes(sl_phrase *phrase, const char *bytes, size_t length)
{
    memcpy(phrase->text + phrase->length, bytes, length);
    phrase->length += length;
    phrase->text[phrase->length] = '\0';
}

void sl_phrase_add(sl_phrase *phrase, const char *piece)
{
    const size_t room = sizeof phrase->text - 1 - phrase->length;
    add_bytes(phrase, piece, whole_characters(piece, room));
}

void sl_phrase_quote(sl_phrase *phrase, const char *piece)
{
    int characters = 0;
    size_t length = 0;
    while (piece[length] != '\0' && characters < QUOTED_CHARACTERS) {
        do {
            length++;
        } while (!begins_character(piece[length]));
        characters++;
    }
    char shown[SL_ERROR_TEXT_SIZE];
    sl_text_show(piece, length, SL_TEXT_LINE, shown, sizeof shown);
    sl_phrase_add(phrase, "\"");
    sl_phrase_add(phrase, shown);
    sl_phrase_add(phrase, piece[length] == '\0' ? "\"" : "...\"");
}

void sl_phrase_integer(sl_phrase *phrase, long number)
{
    char digits[32];
    snprintf(digits, sizeof digits, "%ld", number);
    sl_phrase_add(phrase, digits);
}

void sl_phrase_number(sl_phrase *phrase, double number)
{
    char digits[48];
    snprintf(digits, sizeof digits, "%.4g", number);
    char plain[48];
    size_t used = 0;
    for (const char *at = digits; *at != '\0'; at++) {
        if (strchr("0123456789+-e", *at)) {
            plain[used++] = *at;
        } else if (used == 0 || plain[used - 1] != '.') { /* whatever the locale puts for a point */
            plain[used++] = '.';
        }
    }
    plain[used] = '\0';
    sl_phrase_add(phrase, plain);
}

int sl_words_find(const sl_words *words, const char *text)
{
    for (int i = 0; i < words->n; i++) {
        if (sl_words_same(words->word[i], text)) {
            return i;
        }
    }
    return -1;
}

static int least(int one, int two)
{
    return one < two ? one : two;
}

int sl_slips(const char *one, const char *two)
{
    const size_t n = strlen(one), m = strlen(two);
    assert(n <= SL_NEARBY_LETTERS && m <= SL_NEARBY_LETTERS);
    int row[3][SL_NEARBY_LETTERS + 1]; /* [before last, last, this] */
    int *older = row[0], *last = row[1], *now = row[2];
    for (size_t j = 0; j <= m; j++) {
        last[j] = (int)j;
        older[j] = 0;
    }
    for (size_t i = 1; i <= n; i++) {
        now[0] = (int)i;
        for (size_t j = 1; j <= m; j++) {
            const int change = last[j - 1] + (one[i - 1] == two[j - 1] ? 0 : 1);
            now[j] = least(change, least(last[j], now[j - 1]) + 1);
            if (i > 1 && j > 1 && one[i - 1] == two[j - 2] && one[i - 2] == two[j - 1]) {
                now[j] = least(now[j], older[j - 2] + 1);
            }
        }
        int *const free_row = older;
        older = last;
        last = now;
        now = free_row;
    }
    return last[m];
}

bool sl_slips_few(const char *word, int slips)
{
    return slips <= least(4, 1 + (int)strlen(word) / 3);
}

void sl_phrase_nearest(sl_phrase *phrase, const sl_words *words, const char *text)
{
    const size_t length = strlen(text);
    int best = -1, best_distance = 0;
    for (int i = 0; i < words->n && length <= SL_NEARBY_LETTERS; i++) {
        if (strlen(words->word[i]) > SL_NEARBY_LETTERS) { /* a name that people chose may be longer */
            continue;
        }
        const int distance = sl_slips(text, words->word[i]);
        if (best < 0 || distance < best_distance) {
            best = i;
            best_distance = distance;
        }
    }
    if (best >= 0 && sl_slips_few(text, best_distance)) {
        sl_phrase_add(phrase, _("the nearest known one is "));
        sl_phrase_quote(phrase, words->word[best]);
        return;
    }
    sl_phrase_add(phrase, _("known here: "));
    for (int i = 0; i < words->n; i++) {
        sl_phrase_add(phrase, i == 0 ? "" : ", ");
        sl_phrase_add(phrase, words->word[i]);
    }
}
