/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A lesson or quiz in another language is the same tree: the same keys in the same order, the
 * same numbers, claims and right answers, the same {names} in each text; only the words differ,
 * and they do differ.
 */
#include <ctype.h>
#include <string.h>

#include "lesson/reading.h"

typedef enum sl_part { PART_SAME, PART_TEXT, PART_FREE } sl_part;

/* What may differ under a key. */
static sl_part part_of(const char *key, sl_part above)
{
    static const char *const texts[] = {"title",   "objective", "misconception", "outcomes", "level",
                                        "text",    "ask",       "say",           "thinks",   "reply",
                                        "explain", "swatch",    "teacher",       "note"};
    static const char *const free_keys[] = {"origin", "language", "names"};
    static const sl_words text = {texts, sizeof texts / sizeof texts[0]};
    static const sl_words own = {free_keys, sizeof free_keys / sizeof free_keys[0]};
    if (!key) {
        return above;
    }
    if (sl_words_find(&own, key) >= 0) {
        return PART_FREE;
    }
    return sl_words_find(&text, key) >= 0 ? PART_TEXT : above;
}

static bool refuse(const sl_reading *reading, const sl_node *node, const char *found, const char *wanted)
{
    return sl_node_refuse(node, SL_ERR_INCONSISTENT, found, wanted, reading->error);
}

/* Letters outside braces: a text of a number alone has nothing to translate. */
static int letters(const char *text)
{
    int n = 0;
    for (bool outside = true; *text; text++) {
        outside = *text == '{' ? false : (*text == '}' ? true : outside);
        n += outside && (isalpha((unsigned char)*text) || (unsigned char)*text >= 0xC0U) ? 1 : 0;
    }
    return n;
}

/* Whether every {name} of `one` stands in `two`. */
static bool names_within(const char *one, const char *two)
{
    for (const char *at = strchr(one, '{'); at; at = strchr(at + 1, '{')) {
        const size_t length = strcspn(at, "}") + 1;
        char name[64];
        if (length >= sizeof name) {
            return false;
        }
        memcpy(name, at, length);
        name[length] = '\0';
        if (!strstr(two, name)) {
            return false;
        }
    }
    return true;
}

static bool text_check(const sl_reading *reading, const sl_node *node, const sl_node *original)
{
    enum { LEAST_LETTERS = 4 }; /* shorter words can be the same in two languages */
    if (!names_within(node->text, original->text) || !names_within(original->text, node->text)) {
        return refuse(reading, node, "other {names} than in the original text", original->text);
    }
    if (letters(original->text) >= LEAST_LETTERS && strcmp(node->text, original->text) == 0) {
        sl_phrase found = {0};
        sl_phrase_quote(&found, node->text);
        sl_phrase_add(&found, " is merely copied");
        return refuse(reading, node, found.text, "translate it");
    }
    return true;
}

static bool refuse_shape(const sl_reading *reading, const sl_node *node, const sl_node *original)
{
    sl_phrase wanted = {0};
    sl_phrase_add(&wanted, "the original has ");
    if (original->kind == SL_NODE_TEXT) {
        sl_phrase_quote(&wanted, original->text);
    } else {
        sl_phrase_integer(&wanted, original->n);
        sl_phrase_add(&wanted, original->kind == SL_NODE_LIST ? " in this list" : " keys");
    }
    return refuse(reading, node, "this differs from the original", wanted.text);
}

static const sl_node *shown(const sl_node *child)
{
    while (child && child->key && part_of(child->key, PART_SAME) == PART_FREE) {
        child = child->next;
    }
    return child;
}

static bool walk(const sl_reading *reading, const sl_node *node, const sl_node *original, sl_part above);

static bool children_check(const sl_reading *reading, const sl_node *node, const sl_node *original,
                           sl_part part)
{
    const sl_node *a = shown(node->first);
    const sl_node *b = shown(original->first);
    for (; a && b; a = shown(a->next), b = shown(b->next)) {
        if (a->key && strcmp(a->key, b->key) != 0) {
            sl_phrase found = {0}, wanted = {0};
            sl_phrase_quote(&found, a->key);
            sl_phrase_add(&found, " where the original has another key");
            sl_phrase_add(&wanted, "the original has ");
            sl_phrase_quote(&wanted, b->key);
            return sl_node_refuse_key(a, SL_ERR_INCONSISTENT, found.text, wanted.text, reading->error);
        }
        if (!walk(reading, a, b, part)) {
            return false;
        }
    }
    return (!a && !b) || refuse_shape(reading, a ? a : node, original);
}

static bool walk(const sl_reading *reading, const sl_node *node, const sl_node *original, sl_part above)
{
    const sl_part part = part_of(node->key, above);
    if (part == PART_FREE) {
        return true;
    }
    if (node->kind != original->kind) {
        return refuse_shape(reading, node, original);
    }
    if (node->kind != SL_NODE_TEXT) {
        return children_check(reading, node, original, part);
    }
    if (part == PART_TEXT) {
        return text_check(reading, node, original);
    }
    return strcmp(node->text, original->text) == 0 || refuse_shape(reading, node, original);
}

bool sl_translation_check(const sl_reading *reading, const sl_node *root, const sl_node *original)
{
    return walk(reading, root, original, PART_SAME);
}
