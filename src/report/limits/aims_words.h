/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Goal and stress limit of a scene in words. Invariant: "in every zone" is said only where every
 * zone with a direct dye is asked for the same; a share that nobody entered is called assumed.
 */
#ifndef SLOWLIFT_REPORT_AIMS_WORDS_H
#define SLOWLIFT_REPORT_AIMS_WORDS_H

#include <stddef.h>

#include "document/document.h"
#include "slowlift/model.h"

/* "at most 20 % left in every zone with direct dye"; "" when no goal is set. */
void sl_goal_words(const sl_scene *scene, char *text, size_t size);
/* "base moved at most 10 %; hair stress at most 5 %"; "none set". No minute where none may be told,
 * nor beside somebody's form, where it could be taken for leave. */
void sl_bounds_words(const sl_scene *scene, bool of_person, char *text, size_t size);
/* Both, a row each. */
void sl_say_aims(sl_document *document, const sl_scene *scene, bool of_person);

#endif
