/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * `slowlift log`: strand tests kept in one file. The verb is the second word.
 */
#include <errno.h>
#include <stdio.h>
#include <string.h>

#include "base/append.h"
#include "base/hold.h"
#include "base/language.h"
#include "command/log/log_verbs.h"

#define ROW(name) {&sl_log_##name##_typed, sl_command_log_##name, SL_NO_PHASE},
const sl_command sl_log_verbs[] = {SL_LOG_VERBS(ROW)};
#undef ROW
const int sl_n_log_verbs = (int)(sizeof sl_log_verbs / sizeof sl_log_verbs[0]);

const sl_command_line sl_log_typed = {
    .name = "log",
    .line = N_("strand tests kept: readings, notes, CSV, JSON"),
    .usage = {N_("VERB LOG [WORDS] [OPTIONS]"), N_("VERB --help")},
    .about =
        N_("Strand tests kept in one file (SQLite; docs/log.md): the scene as it was, swatches, what "
           "happened, every reading. No row is changed: a mistake is corrected by a reading that replaces "
           "it, and log forget alone takes rows away. Codes, never names. TEST: the beginning of a test's "
           "id; not needed where there is one. What cannot be acknowledged, as on a closed or full output, "
           "is not kept."),
    .example = {{N_("a class of strand tests begins."),
                 {"slowlift log new strands.db eight-arms --repeats 3 --operator op-1"}},
                {N_("the readings for a spreadsheet, and two logs into one."),
                 {"slowlift log export strands.db -o readings.csv",
                  "slowlift log merge strands.db other.db"}},
                {N_("a copy on a stick at the end of the day."),
                 {"slowlift log backup strands.db -o /media/stick/strands-monday.db"}}},
    .wants = {SL_WANTS_LOG},
};

bool sl_log_receipt_out(sl_error *error)
{
    errno = 0;
    return (fflush(stdout) == 0 && ferror(stdout) == 0) ||
           sl_fail(error, SL_ERR_CANNOT_WRITE, _("the receipt, and the log stays as it was"),
                   errno != 0 ? strerror(errno) : _("the output failed"));
}

sl_exit sl_log_read_end(const sl_log *log, sl_exit code)
{
    sl_error error = {.code = SL_OK};
    return code != SL_EXIT_OK || sl_log_whole(log, &error) ? code : sl_complain(&error);
}

sl_exit sl_log_change(bool good, const char *path, sl_log_changer *change, sl_log_receipt *receipt,
                      void *self, sl_error *error)
{
    sl_log *log = NULL;
    good = good && sl_log_open(&log, path, SL_LOG_WRITE, error);
    if (good) {
        sl_log_on_kept(log, receipt, self);
        good = change(log, self, error);
    }
    sl_log_close(log);
    return good ? sl_finish_output(true) : sl_complain(error);
}

const sl_command *sl_log_verb(const char *word)
{
    return word ? sl_command_of(word, sl_log_verbs, sl_n_log_verbs) : NULL;
}

sl_exit sl_command_log(int argc, char **argv)
{
    sl_error error = {.code = SL_OK};
    const sl_command *const verb = sl_log_verb(argc > 1 ? argv[1] : NULL);
    if (verb && sl_goes_to_paper(verb->typed, argc - 1, argv + 1)) {
        return sl_draw_on_paper(argv);
    }
    if (verb) {
        /* Ctrl-C waits until the log is closed, so that SQLite clears away what it keeps beside it. */
        sl_signals_hold();
        const sl_exit code = verb->run(argc - 1, argv + 1);
        sl_signals_release();
        return code;
    }
    if (argc < 2) {
        char verbs[SL_ERROR_TEXT_SIZE] = "";
        for (int i = 0; i < sl_n_log_verbs; i++) {
            sl_append_item(verbs, sizeof verbs, ", ", "%s", sl_command_word(&sl_log_verbs[i]));
        }
        sl_fail(&error, SL_ERR_USAGE, _("slowlift log what?"), verbs);
    } else {
        sl_command_refused(N_("the word"), argv[1], sl_log_verbs, sl_n_log_verbs, &error);
    }
    return sl_complain(&error);
}
