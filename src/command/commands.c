/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The commands as a list; each has its rows in its own file.
 */
#include <string.h>

#include "command/command.h"

#define ROW(name) {&sl_##name##_typed, sl_command_##name},
const sl_command sl_commands[] = {SL_COMMANDS(ROW)};
#undef ROW
const int sl_n_commands = (int)(sizeof sl_commands / sizeof sl_commands[0]);

/* "add" of "log add". */
static const char *last_word(const char *name)
{
    const char *const space = strrchr(name, ' ');
    return space ? space + 1 : name;
}

const sl_command *sl_command_of(const char *word, const sl_command *commands, int n)
{
    for (int i = 0; i < n; i++) {
        if (strcmp(last_word(commands[i].typed->name), word) == 0) {
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
        names[known] = last_word(commands[known].typed->name);
    }
    return sl_word_refused(what, word, names, known, error);
}
