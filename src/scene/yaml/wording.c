/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See wording.h.
 */
#include "scene/yaml/wording.h"

#include "base/language.h"

static const sl_words languages = {sl_language_letters, SL_LANGUAGES};
static const char form[] = "a text belongs here, or one for each language, such as {en: red, es: rojo}";

bool sl_wording_read(const sl_reading *reading, const sl_node *node, sl_text_kind kind, size_t most,
                     sl_wording *wording)
{
    if (node->kind == SL_NODE_TEXT) {
        return sl_text_read(reading, node, kind, most, &wording->in[SL_ENGLISH]);
    }
    if (node->kind != SL_NODE_MAPPING || node->n == 0) {
        return sl_node_refuse_text(node, SL_ERR_WRONG_TYPE, form, reading->error);
    }
    if (!sl_node_keys_known(node, &languages, reading->error)) {
        return false;
    }
    for (const sl_node *text = node->first; text; text = text->next) {
        if (!sl_text_read(reading, text, kind, most, &wording->in[sl_language_of(text->key)])) {
            return false;
        }
    }
    return true;
}

static bool text_is_new(const sl_node *text, const char *other_name, const sl_wording *other_title,
                        const sl_twins *twins, sl_error *error)
{
    if (other_name && !sl_name_is_new(text, other_name, twins->same, twins->alike, error)) {
        return false;
    }
    for (int i = 0; i < SL_LANGUAGES; i++) {
        if (other_title->in[i] &&
            !sl_name_is_new(text, other_title->in[i], twins->same, twins->alike, error)) {
            return false;
        }
    }
    return true;
}

bool sl_wording_is_new(const sl_node *node, const char *other_name, const sl_wording *other_title,
                       const sl_twins *twins, sl_error *error)
{
    if (node->kind == SL_NODE_TEXT) {
        return text_is_new(node, other_name, other_title, twins, error);
    }
    for (const sl_node *text = node->first; text; text = text->next) {
        if (!text_is_new(text, other_name, other_title, twins, error)) {
            return false;
        }
    }
    return true;
}
