/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See parts.h; and answers that are tapped in place of being typed.
 */
#include "ask/parts.h"

#include <stdio.h>
#include <string.h>
#include <strings.h>

#include "base/append.h"
#include "base/language.h"
#include "scene/yaml/value.h"

bool sl_answer_part(const sl_node *node, const char *at, sl_answer_parts *parts, sl_error *error)
{
    const char *from = node->text;
    *parts = (sl_answer_parts){0};
    while (*from) {
        from += strspn(from, " ");
        const size_t length = strcspn(from, at);
        size_t kept = length;
        while (kept > 0 && from[kept - 1] == ' ') {
            kept--;
        }
        if (kept >= SL_ANSWER_PART || (kept > 0 && parts->n == SL_ANSWER_PARTS)) {
            return sl_node_refuse_text(node, SL_ERR_TOO_LARGE, N_("a few short words"), error);
        }
        if (kept > 0) {
            memcpy(parts->part[parts->n], from, kept);
        }
        parts->n += kept > 0;
        from += length + (from[length] != '\0');
    }
    return true;
}

bool sl_answer_is(const char *part, const char *word)
{
    return strcasecmp(part, word) == 0 || strcasecmp(part, _(word)) == 0;
}

int sl_answer_word(const char *part, const char *const *words, int n)
{
    for (int i = 0; i < n; i++) {
        if (sl_answer_is(part, words[i])) {
            return i;
        }
    }
    return -1;
}

bool sl_answer_list(const sl_node *node, const char *const *words, int n, sl_answer_parts *parts,
                    sl_error *error)
{
    const bool commas = strchr(node->text, ',') != NULL || sl_answer_word(node->text, words, n) >= 0;
    return sl_answer_part(node, commas ? "," : " ", parts, error);
}

/* ---- tapped ----------------------------------------------------------------------------------------- */

/* Of several mixes the last one's, behind their semicolons. */
static const char *tail_of(const char *answer)
{
    const char *const semicolon = strrchr(answer, ';');
    return semicolon ? semicolon + 1 : answer;
}

/* What stands in an answer of that row; nothing where it cannot be parted. */
static void stands(sl_topic row, const char *answer, sl_answer_parts *parts)
{
    const sl_ask_words *const words = &sl_ask_rows[row].words;
    const sl_node node = {.kind = SL_NODE_TEXT, .file = "", .text = tail_of(answer), .key = ""};
    const bool good = words->most > 1 && !words->pairs
                          ? sl_answer_list(&node, words->word, words->n, parts, NULL)
                          : sl_answer_part(&node, words->means ? ", " : ",", parts, NULL);
    parts->n = good ? parts->n : 0;
}

static int place_of(const sl_answer_parts *parts, const char *word)
{
    int i = 0;
    while (i < parts->n && !sl_answer_is(parts->part[i], word)) {
        i++;
    }
    return i < parts->n ? i : -1;
}

bool sl_ask_holds(sl_topic row, int word, const char *answer)
{
    sl_answer_parts parts;
    stands(row, answer, &parts);
    return place_of(&parts, sl_ask_rows[row].words.word[word]) >= 0;
}

static void take_away(sl_answer_parts *parts, int at)
{
    if (at >= 0) {
        parts->n--;
        memmove(parts->part[at], parts->part[at + 1], (size_t)(parts->n - at) * sizeof parts->part[0]);
    }
}

void sl_ask_tap(sl_topic row, int word, const char *answer, char text[SL_ASK_TEXT])
{
    const sl_ask_words *const words = &sl_ask_rows[row].words;
    const char *const tapped = words->word[word], *const last = words->word[words->n - 1];
    const char *const tail = tail_of(answer);
    sl_answer_parts parts;
    char line[SL_ASK_TEXT] = "";
    stands(row, answer, &parts);
    const int at = place_of(&parts, tapped);
    if (words->pairs) {
        take_away(&parts, place_of(&parts, words->word[word ^ 1]));
    }
    if (at < 0 || words->most == 1) {
        const bool alone = words->alone && (tapped == last || place_of(&parts, last) >= 0);
        parts.n = alone ? 0 : parts.n < words->most ? parts.n : words->most - 1;
        snprintf(parts.part[parts.n++], SL_ANSWER_PART, "%s", _(tapped));
    } else if (parts.n > 1 && !words->pairs) {
        take_away(&parts, at);
    }
    for (int i = 0; i < parts.n; i++) {
        sl_append_item(line, sizeof line, ", ", "%s", parts.part[i]);
    }
    snprintf(text, SL_ASK_TEXT, "%.*s%s%s", (int)(tail - answer), answer, tail > answer ? " " : "", line);
}
