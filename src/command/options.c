/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Refusals of the command line.
 */
#include "command/options.h"

#include <assert.h>
#include <stdio.h>
#include <string.h>

#include "base/inputs.h"
#include "base/language.h"
#include "scene/phrase.h"

enum { MOST_WORDS = 32 };

bool sl_word_refused(const char *what, const char *word, const char *const *known, int n, sl_error *error)
{
    sl_phrase found = {0}, wanted = {0};
    sl_phrase_add(&found, what);
    sl_phrase_add(&found, " ");
    sl_phrase_quote(&found, word);
    sl_phrase_add(&found, _(" is not known"));
    const sl_words words = {.word = known, .n = n};
    sl_phrase_nearest(&wanted, &words, word);
    return sl_fail(error, SL_ERR_USAGE, found.text, wanted.text);
}

static bool refuse_long(char **argv, const struct option *known, sl_error *error)
{
    const char *names[MOST_WORDS];
    int n = 0;
    for (int i = 0; known[i].name != NULL; i++) {
        assert(n < MOST_WORDS);
        names[n++] = known[i].name;
    }
    char word[64];
    snprintf(word, sizeof word, "%s", argv[optind - 1]);
    word[strcspn(word, "=")] = '\0';
    const char *bare = word + strspn(word, "-");
    for (int i = 0; i < n; i++) {
        if (strcmp(bare, names[i]) == 0) {
            char found[SL_ERROR_TEXT_SIZE];
            snprintf(found, sizeof found, _("the option --%s takes no value"), names[i]);
            return sl_fail(error, SL_ERR_USAGE, found, "leave out what follows the =");
        }
    }
    return sl_word_refused("the option", bare, names, n, error);
}

bool sl_option_refused(const char *program, int result, char **argv, const struct option *known,
                       sl_error *error)
{
    char found[SL_ERROR_TEXT_SIZE], wanted[SL_ERROR_TEXT_SIZE];
    snprintf(wanted, sizeof wanted, _("see %s --help"), program);
    if (result == ':') {
        snprintf(found, sizeof found, _("the option %.60s lacks its value"), argv[optind - 1]);
        return sl_fail(error, SL_ERR_USAGE, found, wanted);
    }
    if (optopt != 0 && strncmp(argv[optind - 1], "--", 2) != 0) {
        snprintf(found, sizeof found, _("the option -%c is not known"), optopt);
        return sl_fail(error, SL_ERR_USAGE, found, wanted);
    }
    return refuse_long(argv, known, error);
}

bool sl_one_file(const char *program, int argc, char **argv, const char **file, sl_error *error)
{
    char wanted[SL_ERROR_TEXT_SIZE];
    snprintf(wanted, sizeof wanted, _("give one scene, such as %s models/scenes/eight-arms.yaml"), program);
    if (optind >= argc) {
        return sl_fail(error, SL_ERR_USAGE, "no file was named", wanted);
    }
    if (optind + 1 < argc) {
        char found[SL_ERROR_TEXT_SIZE];
        snprintf(found, sizeof found, _("more than one file was named (\"%.80s\" too)"), argv[optind + 1]);
        return sl_fail(error, SL_ERR_USAGE, found, wanted);
    }
    *file = argv[optind];
    return true;
}

bool sl_result_option(sl_result_wish *wish, int option)
{
    switch (option) {
    case 'o':
        wish->output = optarg;
        return true;
    case 'p':
        wish->picture = optarg;
        return true;
    case 'm':
        wish->models = optarg;
        return true;
    case 'c':
        wish->csv = true;
        return true;
    case 'j':
        wish->json = true;
        return true;
    default:
        return false;
    }
}

bool sl_result_settle(const sl_result_wish *wish, sl_error *error)
{
    if (wish->csv && wish->json) {
        return sl_fail(error, SL_ERR_USAGE, "--csv and --json together", "ask for one of them");
    }
    return sl_output_named(wish->output, error) && sl_output_named(wish->picture, error);
}
