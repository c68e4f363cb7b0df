/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * `slowlift completion`: the page for man, and what a shell needs to complete commands: a function that asks
 * here, with the words that were typed, which may come next. All of it is read off the rows that read the
 * command line.
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

/* ---- scripts ----------------------------------------------------------------------------------------- */

/* Each asks `slowlift completion next -- WORD...`, whose last word is the one that is typed, and is answered
 * by a line for each that may stand there: the word, a tab, what it is; ":files" or ":folders" for the
 * shell's own. */
static const char *const shells[] = {"bash", "zsh", "fish"};
static const sl_word_list shell_list = {N_("the shell"), shells, 3};
static const char *const scripts[] = {
    "# Completion of slowlift for bash, made by: slowlift completion bash\n"
    "_slowlift() {\n"
    "    local word=${COMP_WORDS[COMP_CWORD]} line\n"
    "    COMPREPLY=()\n"
    "    while IFS= read -r line; do\n"
    "        case $line in\n"
    "            :files) mapfile -t -O ${#COMPREPLY[@]} COMPREPLY < <(compgen -f -- \"$word\") ;;\n"
    "            :folders) mapfile -t -O ${#COMPREPLY[@]} COMPREPLY < <(compgen -d -- \"$word\") ;;\n"
    "            *) COMPREPLY+=(\"${line%%$'\\t'*}\") ;;\n"
    "        esac\n"
    "    done < <(slowlift completion next -- \"${COMP_WORDS[@]:1:COMP_CWORD}\" 2>/dev/null)\n"
    "}\n"
    "complete -o filenames -F _slowlift slowlift\n",
    "#compdef slowlift\n"
    "# Completion of slowlift for zsh, made by: slowlift completion zsh\n"
    "_slowlift() {\n"
    "    local line\n"
    "    local -a list\n"
    "    for line in \"${(@f)$(slowlift completion next -- \"${(@)words[2,CURRENT]}\" 2>/dev/null)}\"; do\n"
    "        case $line in\n"
    "            :files) _files ;;\n"
    "            :folders) _files -/ ;;\n"
    "            ?*) list+=(\"${${line%%$'\\t'*}//:/\\\\:}:${line#*$'\\t'}\") ;;\n"
    "        esac\n"
    "    done\n"
    "    _describe slowlift list\n"
    "}\n"
    "_slowlift \"$@\"\n",
    "# Completion of slowlift for fish, made by: slowlift completion fish\n"
    "function __slowlift_next\n"
    "    set -l typed (commandline -opc)\n"
    "    set -e typed[1]\n"
    "    for line in (slowlift completion next -- $typed (commandline -ct) 2>/dev/null)\n"
    "        switch $line\n"
    "            case :files\n"
    "                __fish_complete_path (commandline -ct)\n"
    "            case :folders\n"
    "                __fish_complete_directories (commandline -ct)\n"
    "            case '*'\n"
    "                echo $line\n"
    "        end\n"
    "    end\n"
    "end\n"
    "complete -c slowlift -f -a '(__slowlift_next)'\n"};

/* ---- what may come next ------------------------------------------------------------------------------ */

static void offer(const char *typed, const char *lead, const char *word, const char *what)
{
    const size_t n = strlen(lead), length = strlen(typed);
    if (length <= n ? strncmp(lead, typed, length) == 0
                    : strncmp(lead, typed, n) == 0 && strncmp(word, typed + n, length - n) == 0) {
        printf("%s%s\t%s\n", lead, word, what);
    }
}

static void offer_commands(const char *typed, const sl_command *commands, int n)
{
    for (int i = 0; i < n; i++) {
        offer(typed, "", sl_command_word(&commands[i]), _(commands[i].typed->line));
    }
}

static void offer_options(const char *typed, const sl_command_line *line)
{
    const sl_option *option = NULL;
    offer(typed, "--", "help", "");
    for (int i = 0; (option = sl_option_row(line, i, NULL)) != NULL; i++) {
        if (option->help) {
            offer(typed, "--", option->name, _(option->help));
        }
        if (option->help && option->letter != 0) {
            offer(typed, "-", (char[]){option->letter, '\0'}, _(option->help));
        }
    }
}

/* The option that was typed so and takes the next word; NULL: none. */
static const sl_option *opened(const sl_command_line *line, const char *as)
{
    const sl_option *option = NULL;
    for (int i = 0; as[0] == '-' && (option = sl_option_row(line, i, NULL)) != NULL; i++) {
        if (as[1] == '-' ? strcmp(as + 2, option->name) == 0 : as[1] == option->letter && as[2] == '\0') {
            return option->value && !option->usual ? option : NULL;
        }
    }
    return NULL;
}

static void offer_wanted(const char *typed, sl_wants wants)
{
    if (wants == SL_WANTS_SCENE || wants == SL_WANTS_LESSON || wants == SL_WANTS_PRICES) {
        sl_list_offer(wants == SL_WANTS_SCENE    ? "scenes"
                      : wants == SL_WANTS_LESSON ? "lessons"
                                                 : "prices",
                      typed, offer);
    }
    if (wants != SL_WANTS_TEXT && wants != SL_WANTS_LINES) {
        puts(wants == SL_WANTS_FOLDER ? ":folders" : ":files");
    }
}

static void offer_of_command(const sl_command_line *line, int n, char **word)
{
    const char *const typed = word[n - 1];
    const sl_option *open = NULL;
    int at = 0; /* words that are no options */
    for (int i = 0; i < n - 1; i++) {
        at += !open && word[i][0] != '-' ? 1 : 0;
        open = open ? NULL : opened(line, word[i]);
    }
    if (open && open->choice) {
        for (int i = 0; i < open->choice->n; i++) {
            offer(typed, "", open->choice->word[i], "");
        }
    } else if (open) {
        offer_wanted(typed, open->wants);
    } else if (typed[0] == '-') {
        offer_options(typed, line);
    } else {
        const int last = line->wants[1] != SL_WANTS_TEXT ? 1 : 0;
        offer_wanted(typed, line->wants[at < last ? at : last]);
    }
}

/* word[n], n >= 1: behind the program's name, the last as far as it is typed. */
static void offer_next(int n, char **word)
{
    const char *const typed = word[n - 1];
    const sl_command *command = n > 1 ? sl_command_of(word[0], sl_commands, sl_n_commands) : NULL;
    if (n > 1 && strcmp(word[n - 2], "--language") == 0) {
        for (int i = 0; i < SL_LANGUAGES; i++) {
            offer(typed, "", sl_language_letters[i], "");
        }
    } else if (n == 1 || (n == 2 && strcmp(word[0], "help") == 0)) {
        static const char *const others[] = {"help", "--help", "--version", "--language"};
        for (int i = 0; n == 1 && i < 4; i++) {
            offer(typed, "", others[i], "");
        }
        offer_commands(typed, sl_commands, sl_n_commands);
    } else if (command && command->run == sl_command_log && n == 2) {
        offer(typed, "--", "help", "");
        offer_commands(typed, sl_log_verbs, sl_n_log_verbs);
    } else if (command) {
        const sl_command *const verb = command->run == sl_command_log ? sl_log_verb(word[1]) : NULL;
        const int before = verb ? 2 : 1;
        offer_of_command((verb ? verb : command)->typed, n - before, word + before);
    }
}

/* ---- the command --------------------------------------------------------------------------------------- */

static void put_manual(void)
{
    enum { MOST_LINES = 64 };
    const sl_command_line *line[MOST_LINES];
    int n = 0;
    for (int i = 0; i < sl_n_commands; i++) {
        line[n++] = sl_commands[i].typed;
    }
    for (int i = 0; i < sl_n_log_verbs; i++) {
        line[n++] = sl_log_verbs[i].typed;
    }
    sl_manual_put(stdout, &(sl_command_lines){line, n}, sl_help_of_files());
}

sl_exit sl_command_completion(int argc, char **argv)
{
    sl_completion_asked asked = {.manual = false};
    sl_error error = {.code = SL_OK};
    int shell = 0;
    if (argc > 3 && strcmp(argv[1], "next") == 0) {
        offer_next(argc - 3, argv + 3);
        return sl_finish_output(true);
    }
    if (!sl_options_read(&sl_completion_typed, argc, argv, &asked, &error) ||
        (!asked.manual && !sl_option_choice(&(sl_option){.choice = &shell_list},
                                            sl_words_left(argc) > 0 ? argv[optind] : "", &shell, &error))) {
        return sl_complain(&error);
    }
    if (asked.manual) {
        put_manual();
    } else {
        fputs(scripts[shell], stdout);
    }
    return sl_finish_output(true);
}
