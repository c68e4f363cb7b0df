/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A text for people under a key: written plainly, or by language, as {en: red, es: rojo}.
 */
#ifndef SLOWLIFT_SCENE_WORDING_H
#define SLOWLIFT_SCENE_WORDING_H

#include "scene/yaml/value.h"
#include "slowlift/wording.h"

/* Texts of 1 to `most` bytes each. On failure *wording may hold some of them. */
bool sl_wording_read(const sl_reading *reading, const sl_node *node, sl_text_kind kind, size_t most,
                     sl_wording *wording);

/* What is told apart by its name and by its title in every language. */
typedef struct sl_named {
    const char *name;
    const sl_wording *title;
} sl_named;

/* What is said where two names are the same, or look so; and where a title is in it. */
typedef struct sl_twins {
    const char *same_name, *alike_name, *same, *alike;
} sl_twins;

/* Whether the name, or the title (a text or one for each language), that stands at `node` and was just read
 * is told apart from the names and titles of all n others. */
bool sl_name_is_apart(const sl_node *node, const sl_named *other, int n, const sl_twins *twins,
                      sl_error *error);
bool sl_title_is_apart(const sl_node *node, const sl_named *other, int n, const sl_twins *twins,
                       sl_error *error);

#endif
