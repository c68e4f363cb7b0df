/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The commands as a list; each has its rows in its own file.
 */
#include <string.h>

#include "base/language.h"
#include "command/command.h"
#include "front/tell.h"

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

bool sl_goes_to_paper(const sl_command_line *line, int argc, char **argv)
{
    return !sl_tell_drawer && sl_options_draw(line, argc, argv);
}

static const char of_files[] =
    N_("\n"
       "Options: --help, --version, --language WORD (en or es, with every command)\n"
       "         --version --all   how it was built, libraries, models: for a report of a fault\n"
       "\n"
       "Scenes are model files (docs/file-format.md). A bare name such as eight-arms is looked\n"
       "up in the model folders: --models DIR, the folders above the scene, $SLOWLIFT_MODELS,\n"
       "then those installed with the program. NO_COLOR turns colours off.\n"
       "\n"
       "Exit codes: 0 done; 1 the file or the model is wrong; 2 the command line is wrong;\n"
       "3 a part of slowlift, the display, memory or the disk is missing or failed;\n"
       "4 stopped with Ctrl-C, and what was written is partial.\n"
       "\n"
       "slowlift estimates from classroom examples; label, training and law decide.\n"
       "Read \"slowlift cautions\" before anything is mixed.\n");

const char *sl_help_of_files(void)
{
    return _(of_files);
}
