/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The lesson in the window: its words.
 */
#include "view/lesson/lesson_words.h"

#include <string.h>

const char *sl_shown_word(sl_shown what, const char *language)
{
#define ENGLISH(name, english, spanish) [name] = english,
#define SPANISH(name, english, spanish) [name] = spanish,
    static const char *const english_words[] = {SL_SHOWN_LIST(ENGLISH)};
    static const char *const spanish_words[] = {SL_SHOWN_LIST(SPANISH)};
#undef ENGLISH
#undef SPANISH
    return strcmp(language, "es") == 0 ? spanish_words[what] : english_words[what];
}
