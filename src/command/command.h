/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The program `slowlift`: one function for each command. Results go to stdout, all else
 * to stderr.
 */
#ifndef SLOWLIFT_COMMAND_COMMAND_H
#define SLOWLIFT_COMMAND_COMMAND_H

#include "front/complain.h"
#include "front/option.h"

/* What a command is for, in the order of a test's days; each with its word in help. */
#define SL_PHASES(X)                                                                                         \
    X(ASK, "Ask")                                                                                            \
    X(PLAN, "Plan")                                                                                          \
    X(DO, "Do")                                                                                              \
    X(JUDGE, "Judge")                                                                                        \
    X(TEACH, "Teach")                                                                                        \
    X(KEEP, "Keep")
#define SL_PHASE_AS_ENUM(name, word) SL_PHASE_##name,
typedef enum sl_phase { SL_PHASES(SL_PHASE_AS_ENUM) SL_NO_PHASE } sl_phase;
#undef SL_PHASE_AS_ENUM

typedef struct sl_command {
    const sl_command_line *typed; /* what may be typed behind it, and its help */
    sl_exit (*run)(int argc, char **argv);
    sl_phase phase; /* SL_NO_PHASE: of a list without headings */
} sl_command;

/* Each command: what it is for, and its name in C. A new one is a row here, its file, and that file's line in
 * CMakeLists.txt. */
#define SL_COMMANDS(X)                                                                                       \
    X(ASK, quick_start)                                                                                      \
    X(ASK, answer)                                                                                           \
    X(ASK, run)                                                                                              \
    X(ASK, limits)                                                                                           \
    X(ASK, rank)                                                                                             \
    X(ASK, what_if)                                                                                          \
    X(ASK, map)                                                                                              \
    X(ASK, search)                                                                                           \
    X(PLAN, new)                                                                                             \
    X(PLAN, plan)                                                                                            \
    X(PLAN, mix)                                                                                             \
    X(PLAN, cost)                                                                                            \
    X(DO, day)                                                                                               \
    X(JUDGE, log)                                                                                            \
    X(JUDGE, compare)                                                                                        \
    X(JUDGE, report)                                                                                         \
    X(TEACH, teach)                                                                                          \
    X(TEACH, watch)                                                                                          \
    X(TEACH, picture)                                                                                        \
    X(TEACH, pack)                                                                                           \
    X(KEEP, list)                                                                                            \
    X(KEEP, check)                                                                                           \
    X(KEEP, cautions)                                                                                        \
    X(KEEP, completion)
#define SL_COMMAND_DECLARE(phase, name)                                                                      \
    extern const sl_command_line sl_##name##_typed;                                                          \
    sl_exit sl_command_##name(int argc, char **argv);
SL_COMMANDS(SL_COMMAND_DECLARE)
#undef SL_COMMAND_DECLARE

extern const sl_command sl_commands[];
extern const int sl_n_commands;
const char *sl_command_word(const sl_command *command); /* "add" of "log add" */
/* The one that is typed so, by the last word of its name; NULL when there is none. */
const sl_command *sl_command_of(const char *word, const sl_command *commands, int n);
/* SL_ERR_USAGE, which names the nearest; what: of which the word is none. Always false. */
bool sl_command_refused(const char *what, const char *word, const sl_command *commands, int n,
                        sl_error *error);
/* The verb of `slowlift log` that is typed so; NULL: none. */
const sl_command *sl_log_verb(const char *word); /* log/log.c */

/* The names of a folder of model files ("scenes"), or of lessons, each with what it is (list.c). */
typedef void sl_list_offered(const char *typed, const char *lead, const char *word, const char *what);
void sl_list_offer(const char *kind, const char *typed, sl_list_offered *offer);

/* What help says of files, languages and exit codes, in the language in use. */
const char *sl_help_of_files(void);

/* Whether what was typed is drawn, and this program cannot draw. */
bool sl_goes_to_paper(const sl_command_line *line, int argc, char **argv);
/* The same command by the program that draws on paper, as a child that is waited for. */
sl_exit sl_draw_on_paper(char **argv); /* launch.c */

#endif
