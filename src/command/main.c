/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The program `slowlift`: finds the command and gives it its arguments.
 */
#include <string.h>

#include "base/inputs.h"
#include "base/language.h"
#include "base/program.h"
#include "command/command.h"
#include "command/log/log_verbs.h"
#include "command/version.h"
#include "front/help.h"
#include "front/language.h"

static const char short_help[] =
    N_("slowlift plans, predicts and shows how hair colour is taken out slowly, for teaching.\n"
       "\n"
       "Usage: slowlift COMMAND [OPTIONS] [FILE]\n"
       "\n");

#define AS_WORD(name, word) N_(word),
static const char *const phase_words[] = {SL_PHASES(AS_WORD)};
#undef AS_WORD

static void put_commands(FILE *out, const sl_command *commands, int n)
{
    for (int i = 0; i < n; i++) {
        const sl_phase phase = commands[i].phase;
        if (phase != SL_NO_PHASE && (i == 0 || phase != commands[i - 1].phase)) {
            fprintf(out, "%s\n", _(phase_words[phase]));
        }
        fprintf(out, "  %-12s %s\n", commands[i].typed->name, _(commands[i].typed->line));
    }
}

static void put_short_help(FILE *out)
{
    fputs(_(short_help), out);
    put_commands(out, sl_commands, sl_n_commands);
    fputs(_("\nStart with:  slowlift answer eight-arms\n"
            "One command: slowlift COMMAND --help\n"),
          out);
}

static sl_exit refuse_command(const char *word)
{
    sl_error error = {.code = SL_OK};
    sl_command_refused(word[0] == '-' ? N_("the option") : N_("the command"), word, sl_commands,
                       sl_n_commands, &error);
    return sl_complain(&error);
}

static bool asks_for_help(int argc, char **argv)
{
    for (int i = 1; i < argc && strcmp(argv[i], "--") != 0; i++) {
        if (strcmp(argv[i], "--help") == 0 || strcmp(argv[i], "-h") == 0) {
            return true;
        }
    }
    return false;
}

/* "slowlift help", "slowlift help run", "slowlift help log add", "slowlift --help". */
static sl_exit help(const char *about, const char *verb_word)
{
    if (about == NULL) {
        put_short_help(stdout);
        fputs(sl_help_of_files(), stdout);
        return sl_finish_output(true);
    }
    const sl_command *const command = sl_command_of(about, sl_commands, sl_n_commands);
    if (command == NULL) {
        return refuse_command(about);
    }
    const bool of_log = command->run == sl_command_log;
    const sl_command *const verb = of_log ? sl_log_verb(verb_word) : NULL;
    sl_help_put(stdout, verb ? verb->typed : command->typed);
    if (of_log && !verb) {
        fputc('\n', stdout);
        put_commands(stdout, sl_log_verbs, sl_n_log_verbs);
    }
    return sl_finish_output(true);
}

int main(int argc, char **argv)
{
    sl_program_start();
    sl_program_stoppable();
    sl_inputs_watch();
    sl_error error = {.code = SL_OK};
    if (!sl_language_start(&argc, argv, &error)) {
        return (int)sl_complain(&error);
    }
    if (argc < 2) {
        put_short_help(stderr);
        return SL_EXIT_USAGE;
    }
    const char *word = argv[1];
    if (strcmp(word, "--help") == 0 || strcmp(word, "-h") == 0 || strcmp(word, "help") == 0) {
        return (int)help(argc > 2 ? argv[2] : NULL, argc > 3 ? argv[3] : NULL);
    }
    if (strcmp(word, "--version") == 0) {
        return (int)sl_version(argc > 2 && strcmp(argv[2], "--all") == 0);
    }
    const sl_command *const command = sl_command_of(word, sl_commands, sl_n_commands);
    if (command == NULL) {
        return (int)refuse_command(word);
    }
    if (asks_for_help(argc - 1, argv + 1)) {
        return (int)help(word, argc > 2 ? argv[2] : NULL);
    }
    return (int)(sl_goes_to_paper(command->typed, argc - 1, argv + 1) ? sl_draw_on_paper(argv + 1)
                                                                      : command->run(argc - 1, argv + 1));
}
