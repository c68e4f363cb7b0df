/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * `slowlift log check`, `backup` and `rescue`: whether a log is whole, a second file of it, and what can
 * be read of one that is not.
 */
#include <stdio.h>

#include "base/language.h"
#include "command/log/log_verbs.h"

typedef struct sl_copy_asked {
    const char *log, *output;
} sl_copy_asked;
static const sl_option copy_options[] = {
    SL_OPTION(sl_copy_asked, output, sl_option_output, .name = "output", .letter = 'o', .value = N_("FILE"),
              .help = N_("a new file"), .wants = SL_WANTS_NEW),
};
const sl_command_line sl_log_check_typed = {
    .name = "log check",
    .line = N_("look over a log: whether it is whole"),
    .usage = {N_("LOG")},
    .about = N_("Reads all of a log and says what should not be so."),
    .words = SL_TYPED_WORDS(sl_copy_asked, log, 1, 1),
    .example = {{N_("is it whole?"), {"slowlift log check strands.db"}}},
    .wants = {SL_WANTS_LOG},
};
const sl_command_line sl_log_backup_typed = {
    .name = "log backup",
    .line = N_("copy a log into a new file, and read it back"),
    .usage = {N_("LOG -o FILE")},
    .about = N_("Copies a log, also one that is in use, into a new file, and reads each row back."),
    .set = {SL_OPTION_SET_OWN(copy_options)},
    .words = SL_TYPED_WORDS(sl_copy_asked, log, 1, 1),
    .example = {{N_("a copy on a stick at the end of the day."),
                 {"slowlift log backup strands.db -o /media/stick/strands-monday.db"}}},
    .wants = {SL_WANTS_LOG},
};
const sl_command_line sl_log_rescue_typed = {
    .name = "log rescue",
    .line = N_("copy what can be read of a damaged log"),
    .usage = {N_("LOG -o FILE")},
    .about = N_("Copies what can be read of a damaged log into a new one."),
    .set = {SL_OPTION_SET_OWN(copy_options)},
    .words = SL_TYPED_WORDS(sl_copy_asked, log, 1, 1),
    .example = {{N_("the stick was pulled out too early."),
                 {"slowlift log rescue strands.db -o rescued.db"}}},
    .wants = {SL_WANTS_LOG},
};

static bool read_asked(const sl_command_line *line, int argc, char **argv, sl_copy_asked *asked,
                       sl_error *error)
{
    return sl_options_read(line, argc, argv, asked, error) &&
           (line->set[0].n == 0 || asked->output ||
            sl_fail(error, SL_ERR_USAGE, _("where to was not said"), _("write -o FILE, a new file")));
}

static void tell(void *self, bool fault, const char *sentence)
{
    (void)self;
    printf("%s %s\n", fault ? "!!" : "  ", sentence);
}

sl_exit sl_command_log_check(int argc, char **argv)
{
    sl_error error = {.code = SL_OK};
    sl_copy_asked asked = {.log = NULL};
    bool sound = false;
    if (!read_asked(&sl_log_check_typed, argc, argv, &asked, &error) ||
        !sl_log_check(asked.log, tell, NULL, &sound, &error)) {
        return sl_complain(&error);
    }
    if (!sound) {
        sl_fail_at(&error, SL_ERR_DAMAGED, asked.log, 0, 0, _("what is marked !! should not be so"),
                   _("slowlift log rescue copies what can be read into a new log"));
    }
    puts(sound ? _("This log is whole.") : _("This log is not whole."));
    const sl_exit code = sl_finish_output(true);
    return code != SL_EXIT_OK || sound ? code : sl_complain(&error);
}

sl_exit sl_command_log_backup(int argc, char **argv)
{
    sl_error error = {.code = SL_OK};
    sl_copy_asked asked = {.log = NULL};
    long long rows = 0;
    if (!read_asked(&sl_log_backup_typed, argc, argv, &asked, &error) ||
        !sl_log_backup(asked.log, asked.output, &rows, &error)) {
        return sl_complain(&error);
    }
    printf(_("%s holds all of %s: %lld rows, each read back. Keep it on another disk.\n"), asked.output,
           asked.log, rows);
    return sl_finish_output(true);
}

sl_exit sl_command_log_rescue(int argc, char **argv)
{
    sl_error error = {.code = SL_OK};
    sl_copy_asked asked = {.log = NULL};
    sl_log_tally tally = {.read = 0};
    if (!read_asked(&sl_log_rescue_typed, argc, argv, &asked, &error) ||
        !sl_log_rescue(asked.log, asked.output, &tally, &error)) {
        return sl_complain(&error);
    }
    printf(_("%s holds %lld rows of %s.\n"), asked.output, tally.read, asked.log);
    const sl_exit code = sl_finish_output(true);
    return code != SL_EXIT_OK || sl_log_tally_whole(&tally, asked.log, &error) ? code : sl_complain(&error);
}
