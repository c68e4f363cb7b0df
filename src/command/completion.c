/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * `slowlift completion`: what a shell needs to complete commands, and the page for man. Both are made from
 * the rows that read the command line.
 */
#include <string.h>

#include "base/language.h"
#include "command/command.h"
#include "command/log/log_verbs.h"
#include "command/version.h"
#include "front/help.h"

typedef struct sl_completion_asked {
    bool manual;
} sl_completion_asked;

static const sl_option options[] = {
    SL_OPTION(sl_completion_asked, manual, sl_option_flag, .name = "manual",
              .help = N_("the page for man instead, in the language of --language")),
};
const sl_command_line sl_completion_typed = {
    .name = "completion",
    .line = N_("what bash, zsh or fish need to complete commands"),
    .usage = {"bash|zsh|fish", "--manual"},
    .about = N_("Prints a script that completes commands, options, their words and model files. Installed "
                "copies of slowlift bring it already."),
    .set = {SL_OPTION_SET_OWN(options)},
    .example = {{N_("in bash, for this session."), {"source <(slowlift completion bash)"}}},
};

enum { MOST_LINES = 64 };

static int all_lines(const sl_command_line *line[MOST_LINES])
{
    int n = 0;
    for (int i = 0; i < sl_n_commands; i++) {
        line[n++] = sl_commands[i].typed;
    }
    for (int i = 0; i < sl_n_log_verbs; i++) {
        line[n++] = sl_log_verbs[i].typed;
    }
    return n;
}

sl_exit sl_command_completion(int argc, char **argv)
{
    const sl_command_line *line[MOST_LINES];
    const sl_command_lines lines = {line, all_lines(line)};
    sl_completion_asked asked = {.manual = false};
    sl_error error = {.code = SL_OK};
    if (!sl_options_read(&sl_completion_typed, argc, argv, &asked, &error)) {
        return sl_complain(&error);
    }
    if (asked.manual) {
        sl_manual_put(stdout, &lines, sl_help_of_files());
        return sl_finish_output(true);
    }
    const char *const word = sl_words_left(argc) > 0 ? argv[argc - sl_words_left(argc)] : "";
    for (int shell = 0; shell < sl_shells.n; shell++) {
        if (strcmp(word, sl_shells.word[shell]) == 0) {
            sl_completion_put(stdout, &lines, shell);
            return sl_finish_output(true);
        }
    }
    sl_word_refused(sl_shells.of, word, sl_shells.word, sl_shells.n, &error);
    return sl_complain(&error);
}
