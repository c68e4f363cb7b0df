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

/* What is said where two that are told apart by name or title are the same, or look so. */
typedef struct sl_twins {
    const char *same, *alike;
} sl_twins;

/* Whether what stands at `node`, a text or one for each language, which was just read, is told apart from
 * another's name (NULL: not looked at) and its title in every language. */
bool sl_wording_is_new(const sl_node *node, const char *other_name, const sl_wording *other_title,
                       const sl_twins *twins, sl_error *error);

#endif
