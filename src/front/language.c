/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Which language, and where its catalogue lies: beside the program in the build tree, in
 * share/locale once installed.
 */
#include "front/language.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/language.h"
#include "front/option.h"
#include "front/places.h"

static const char option[] = "--language";

/* The word of the option at argv[at], with how many arguments it takes; NULL when it stands elsewhere. */
static const char *word_at(int argc, char **argv, int at, int *taken)
{
    const size_t length = sizeof option - 1;
    if (strncmp(argv[at], option, length) != 0) {
        return NULL;
    }
    if (argv[at][length] == '=') {
        *taken = 1;
        return argv[at] + length + 1;
    }
    *taken = 2;
    return argv[at][length] == '\0' && at + 1 < argc ? argv[at + 1] : NULL;
}

static const char *take_option(int *argc, char **argv)
{
    const char *word = NULL;
    for (int i = 1; i < *argc && strcmp(argv[i], "--") != 0;) {
        int taken = 0;
        const char *const here = word_at(*argc, argv, i, &taken);
        if (here == NULL) {
            i++;
            continue;
        }
        word = here;
        memmove(argv + i, argv + i + taken, (size_t)(*argc - i - taken + 1) * sizeof *argv);
        *argc -= taken;
    }
    return word;
}

/* What machines read is the same in every language, with all that is said beside it. */
static bool for_machines(int argc, char **argv)
{
    for (int i = 1; i < argc && strcmp(argv[i], "--") != 0; i++) {
        if (strcmp(argv[i], "--csv") == 0 || strcmp(argv[i], "--json") == 0) {
            return true;
        }
    }
    return false;
}

static bool use(const char *letters, sl_error *error)
{
    static const char *const where[] = {"locale", "../share/locale", "../../share/locale"};
    sl_places places;
    sl_places_program_folder(&places);
    for (size_t i = 0; i < sizeof where / sizeof where[0]; i++) {
        char folder[SL_PLACES_PATH];
        const int length = snprintf(folder, sizeof folder, "%s/%s", places.program, where[i]);
        if (length > 0 && length < SL_PLACES_PATH && sl_language_use(letters, folder, error)) {
            return true;
        }
    }
    return false;
}

bool sl_language_start(int *argc, char **argv, sl_error *error)
{
    const char *const word = take_option(argc, argv);
    if (for_machines(*argc, argv)) {
        return word == NULL || sl_language_use("en", "", error);
    }
    if (word == NULL) {
        const bool there = use(sl_language_wished(), NULL);
        (void)there; /* nobody asked by name: English is no failure */
        return true;
    }
    if (!sl_language_is_known(word)) {
        return sl_word_refused("the language", word, sl_language_letters, SL_LANGUAGES, error);
    }
    setenv("SLOWLIFT_LANGUAGE", word, 1);
    return use(word, error);
}

bool sl_language_go(const char *letters, sl_error *error)
{
    sl_language_stop();
    setenv("SLOWLIFT_LANGUAGE", letters, 1);
    return strcmp(letters, "en") == 0 || use(letters, error);
}
