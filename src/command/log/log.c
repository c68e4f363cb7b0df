/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * `slowlift log`: strand tests kept in one file. The verb is the second word.
 */
#include <errno.h>
#include <stdio.h>
#include <string.h>

#include "base/hold.h"
#include "base/language.h"
#include "command/log/log_verbs.h"
#include "front/options.h"

static const struct {
    const char *name;
    sl_exit (*run)(int argc, char **argv);
} verbs[] = {{"new", sl_log_new},        {"show", sl_log_show},       {"add", sl_log_add_one},
             {"note", sl_log_note},      {"import", sl_log_take_csv}, {"export", sl_log_give},
             {"merge", sl_log_take_log}, {"strand", sl_log_strand},   {"check", sl_log_look_over},
             {"backup", sl_log_copy},    {"rescue", sl_log_rescue_it}};
enum { VERBS = (int)(sizeof verbs / sizeof verbs[0]) };

bool sl_log_receipt_out(sl_error *error)
{
    errno = 0;
    return (fflush(stdout) == 0 && ferror(stdout) == 0) ||
           sl_fail(error, SL_ERR_CANNOT_WRITE, _("the receipt; nothing was kept"),
                   errno != 0 ? strerror(errno) : _("the output failed"));
}

sl_exit sl_log_read_end(const sl_log *log, sl_exit code)
{
    sl_error error = {.code = SL_OK};
    return code != SL_EXIT_OK || sl_log_whole(log, &error) ? code : sl_complain(&error);
}

bool sl_log_words(int argc, char **argv, int least, int most, const char **word, sl_error *error)
{
    const int n = argc - optind;
    for (int i = 0; i < most; i++) {
        word[i] = i < n ? argv[optind + i] : NULL;
    }
    if (n < least) {
        return sl_fail(error, SL_ERR_USAGE, n == 0 ? _("no log was named") : _("a word is missing"),
                       _("see slowlift log --help"));
    }
    if (n > most) {
        char found[SL_ERROR_TEXT_SIZE];
        snprintf(found, sizeof found, _("one word too many: \"%.80s\""), argv[optind + most]);
        return sl_fail(error, SL_ERR_USAGE, found, _("see slowlift log --help"));
    }
    return true;
}

sl_exit sl_command_log(int argc, char **argv)
{
    sl_error error = {.code = SL_OK};
    const char *names[VERBS];
    for (int i = 0; i < VERBS; i++) {
        names[i] = verbs[i].name;
        if (argc > 1 && strcmp(argv[1], verbs[i].name) == 0) {
            /* Ctrl-C waits until the log is closed, so that SQLite clears away what it keeps beside it. */
            sl_signals_hold();
            const sl_exit code = verbs[i].run(argc - 1, argv + 1);
            sl_signals_release();
            return code;
        }
    }
    if (argc < 2) {
        sl_fail(&error, SL_ERR_USAGE, _("slowlift log what?"),
                _("new, show, add, note, strand, import, export, merge, check, backup or rescue"));
    } else {
        sl_word_refused("the word", argv[1], names, VERBS, &error);
    }
    return sl_complain(&error);
}
