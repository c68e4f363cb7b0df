/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What lessons, quizzes and answers say of themselves, as model files do.
 */
#include "lesson/reading.h"

#include <string.h>

static bool kind_read(const sl_reading *reading, const sl_node *root, const char *kind)
{
    const sl_words one = {&kind, 1};
    int index = 0;
    if (!sl_node_is(root, SL_NODE_MAPPING, "a file holds keys with their values, beginning with \"kind:\"",
                    reading->error)) {
        return false;
    }
    const sl_node *const node = sl_needed_child(reading, root, "kind", "one of lesson, quiz, answers");
    return node && sl_word_read(node, &one, &index, reading->error);
}

static bool version_read(const sl_reading *reading, const sl_node *root)
{
    int version = 0;
    const sl_node *const node = sl_needed_child(reading, root, "version", "write \"version: 1\"");
    if (!node || !sl_whole_read(node, 1, 999, &version, reading->error)) {
        return false;
    }
    return version <= SL_FORMAT_VERSION ||
           sl_node_refuse_text(node, SL_ERR_NEWER_VERSION, "use a newer slowlift for this file",
                               reading->error);
}

bool sl_taught_header_read(const sl_reading *reading, const sl_node *root, const char *kind,
                           sl_taught_header *header)
{
    *header = (sl_taught_header){.edition = 1};
    if (!kind_read(reading, root, kind) || !version_read(reading, root)) {
        return false;
    }
    const sl_node *const title = sl_needed_child(reading, root, "title", "one line that says what this is");
    const sl_node *const origin =
        title ? sl_needed_child(reading, root, "origin",
                                "say where this comes from, such as \"our own invention\"")
              : NULL;
    const sl_node *const language = sl_node_child(root, "language");
    const sl_node *const edition = sl_node_child(root, "edition");
    return origin && sl_text_read(reading, title, SL_TEXT_LINE, 200, &header->title) &&
           sl_text_read(reading, origin, SL_TEXT_LINES, SL_MAX_TEXT, &header->origin) &&
           (!language || sl_word_read(language, &sl_language_words, &header->language, reading->error)) &&
           (!edition || sl_whole_read(edition, 1, 9999, &header->edition, reading->error));
}

const sl_node *sl_needed_child(const sl_reading *reading, const sl_node *mapping, const char *key,
                               const char *wanted)
{
    const sl_node *const node = sl_node_child(mapping, key);
    if (!node) {
        sl_node_refuse_missing(mapping, key, wanted, reading->error);
    }
    return node;
}

const sl_node *sl_list_child(const sl_reading *reading, const sl_node *mapping, const char *key, int least,
                             int most)
{
    sl_phrase wanted = {0};
    sl_phrase_add(&wanted, "a list of ");
    sl_phrase_integer(&wanted, least);
    sl_phrase_add(&wanted, least == most ? "" : " to ");
    if (least != most) {
        sl_phrase_integer(&wanted, most);
    }
    sl_phrase_add(&wanted, " belongs here");
    const sl_node *const list = sl_needed_child(reading, mapping, key, wanted.text);
    if (!list || !sl_node_is(list, SL_NODE_LIST, wanted.text, reading->error)) {
        return NULL;
    }
    if (list->n < least || list->n > most) {
        sl_phrase found = {0};
        sl_phrase_add(&found, "a list of ");
        sl_phrase_integer(&found, list->n);
        sl_node_refuse_key(list, SL_ERR_OUT_OF_RANGE, found.text, wanted.text, reading->error);
        return NULL;
    }
    return list;
}
