/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The commands as a list; each has its rows in its own file.
 */
#include <string.h>

#include "command/command.h"

#define ROW(phase, name) {&sl_##name##_typed, sl_command_##name, SL_PHASE_##phase},
const sl_command sl_commands[] = {SL_COMMANDS(ROW)};
#undef ROW
const int sl_n_commands = (int)(sizeof sl_commands / sizeof sl_commands[0]);

const char *sl_command_word(const sl_command *command)
{
    const char *const space = strrchr(command->typed->name, ' ');
    return space ? space + 1 : command->typed->name;
}

const sl_command *sl_command_of(const char *word, const sl_command *commands, int n)
{
    for (int i = 0; i < n; i++) {
        if (strcmp(sl_command_word(&commands[i]), word) == 0) {
            return &commands[i];
        }
    }
    return NULL;
}

bool sl_command_refused(const char *what, const char *word, const sl_command *commands, int n,
                        sl_error *error)
{
    enum { MOST = 32 };
    const char *names[MOST];
    int known = 0;
    for (; known < n && known < MOST; known++) {
        names[known] = sl_command_word(&commands[known]);
    }
    return sl_word_refused(what, word, names, known, error);
}
