/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Refusals of the command line.
 */
#include "front/options.h"

#include <assert.h>
#include <stdio.h>
#include <string.h>

#include "base/inputs.h"
#include "base/language.h"
#include "base/plain_text.h"
#include "scene/yaml/phrase.h"

enum { MOST_WORDS = 32 };

bool sl_word_refused(const char *what, const char *word, const char *const *known, int n, sl_error *error)
{
    sl_phrase found = {0}, wanted = {0};
    sl_phrase_add(&found, _(what));
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

/* Options whose value is the name of a file or a folder. */
static bool names_a_file(const char *option)
{
    static const char *const names[] = {"output", "models",  "picture", "key", "person", "photo",
                                        "frames", "answers", "seen",    "day", "lesson", "class"};
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        if (strcmp(option, names[i]) == 0) {
            return true;
        }
    }
    return false;
}

/* A note may have lines. */
static bool value_is_text(const char *option, sl_error *error)
{
    const bool lines = strcmp(option, "note") == 0;
    return names_a_file(option) ||
           sl_text_accept(optarg, strlen(optarg), lines ? SL_TEXT_LINES : SL_TEXT_LINE, error);
}

int sl_option_next(int argc, char **argv, const char *letters, const struct option *known)
{
    int index = -1;
    const int option = getopt_long(argc, argv, letters, known, &index);
    return index >= 0 && optarg && !value_is_text(known[index].name, NULL) ? '?' : option;
}

/* The value that sl_option_next() did not take; its option stands before it, or in the same word. */
static bool refuse_value(char **argv, const struct option *known, sl_error *error)
{
    const char *word = argv[optind - 1] == optarg ? argv[optind - 2] : argv[optind - 1];
    word += strspn(word, "-");
    int i = 0; /* getopt_long() takes beginnings of names */
    while (known[i].name && strncmp(known[i].name, word, strcspn(word, "=")) != 0) {
        i++;
    }
    const char *const name = known[i].name ? known[i].name : "";
    sl_error fault = {.code = SL_OK};
    char found[SL_ERROR_TEXT_SIZE];
    value_is_text(name, &fault);
    snprintf(found, sizeof found, _("--%s holds %s as character %d"), name, fault.found, fault.column);
    return sl_fail(error, SL_ERR_USAGE, found, fault.wanted);
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
    if (result == '?' && optarg) {
        return refuse_value(argv, known, error);
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
