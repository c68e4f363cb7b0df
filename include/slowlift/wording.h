/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A text for people, in the languages that somebody wrote it in. Which language is in use may change while a
 * program runs: what is shown is asked for when it is shown, and never kept.
 */
#ifndef SLOWLIFT_WORDING_H
#define SLOWLIFT_WORDING_H

#pragma GCC visibility push(default)

/* The languages that the program knows, by the letters of ISO 639-1. A text written plainly is the first's.
 */
#define SL_LANGUAGE_LIST(ROW)                                                                                \
    ROW(SL_ENGLISH, "en")                                                                                    \
    ROW(SL_SPANISH, "es")

#define SL_AS_LANGUAGE(name, letters) name,
typedef enum sl_language_id { SL_LANGUAGE_LIST(SL_AS_LANGUAGE) SL_LANGUAGES } sl_language_id;
#undef SL_AS_LANGUAGE

typedef struct sl_wording {
    const char *in[SL_LANGUAGES]; /* UTF-8, not empty; NULL: not written in that language */
} sl_wording;

/* The text in that language; else in English, else in whichever it has. NULL: it has none. */
const char *sl_wording_in(const sl_wording *wording, sl_language_id language);
/* The same in the language in use. */
const char *sl_wording_shown(const sl_wording *wording);

#pragma GCC visibility pop

#endif
