/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Words for people in their own language. English stands in the sources and is the key; a
 * catalogue (the .mo that msgfmt makes of src/po/xx.po) holds the other. The file is read
 * here and not by libc, because libc's gettext needs a locale of that language on the
 * machine, which classrooms' computers often lack, and changes with setlocale, which numbers
 * in files must never see. Keys, quantities and words of files are never translated: what
 * machines read (CSV, JSON, YAML) does not come through this door.
 */
#ifndef SLOWLIFT_BASE_LANGUAGE_H
#define SLOWLIFT_BASE_LANGUAGE_H

#include <stdbool.h>

#include "slowlift/error.h"
#include "slowlift/wording.h"

/* `text` in the language in use, or `text` itself; never NULL unless `text` is. */
const char *sl_in_language(const char *text) __attribute__((format_arg(1)));
/* The same where a count decides: `one` for 1, `many` for all others (as in English and Spanish). */
const char *sl_plural(const char *one, const char *many, long count) __attribute__((format_arg(1)))
__attribute__((format_arg(2)));

#define _(text) sl_in_language(text)
#define N_(text) text /* stands in a table, and goes through _() where it is shown */

/* The letters of each language that the program knows. */
extern const char *const sl_language_letters[SL_LANGUAGES];
/* The language of those letters; English for NULL and for letters that it does not know. */
sl_language_id sl_language_of(const char *letters);

bool sl_language_is_known(const char *letters);

/* The letters of the language in use: "en", or those of the catalogue. */
const char *sl_language(void);
sl_language_id sl_language_in_use(void);

/* Two letters from SLOWLIFT_LANGUAGE, LANGUAGE, LC_ALL, LC_MESSAGES or LANG, the first that says
 * something: "es" for es, es_MX, es_ES.UTF-8; else "en". */
const char *sl_language_wished(void);

/* Read FOLDER/xx/LC_MESSAGES/slowlift.mo. "en" needs no file. Called once by main, before any
 * thread starts. false: there is none, or it is not a catalogue this program reads; English stays. */
bool sl_language_use(const char *letters, const char *folder, sl_error *error);

/* Back to English; frees the catalogue. */
void sl_language_stop(void);

#endif
