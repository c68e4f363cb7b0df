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

/* A text beside another's title in every language. */
static bool is_no_title(const sl_node *text, const sl_wording *title, const sl_twins *twins, sl_error *error)
{
    for (int i = 0; i < SL_LANGUAGES; i++) {
        if (title->in[i] && !sl_name_is_new(text, title->in[i], twins->same, twins->alike, error)) {
            return false;
        }
    }
    return true;
}

bool sl_name_is_apart(const sl_node *node, const sl_named *other, int n, const sl_twins *twins,
                      sl_error *error)
{
    for (int i = 0; i < n; i++) {
        if (!sl_name_is_new(node, other[i].name, twins->same_name, twins->alike_name, error) ||
            !is_no_title(node, other[i].title, twins, error)) {
            return false;
        }
    }
    return true;
}

static bool text_is_apart(const sl_node *text, const sl_named *other, const sl_twins *twins, sl_error *error)
{
    return sl_name_is_new(text, other->name, twins->same, twins->alike, error) &&
           is_no_title(text, other->title, twins, error);
}

bool sl_title_is_apart(const sl_node *node, const sl_named *other, int n, const sl_twins *twins,
                       sl_error *error)
{
    for (int i = 0; i < n; i++) {
        if (node->kind == SL_NODE_TEXT && !text_is_apart(node, &other[i], twins, error)) {
            return false;
        }
        for (const sl_node *text = node->first; text; text = text->next) {
            if (!text_is_apart(text, &other[i], twins, error)) {
                return false;
            }
        }
    }
    return true;
}
