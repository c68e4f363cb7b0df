/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The program `slowlift`: one function for each command. Results go to stdout, all else
 * to stderr.
 */
#ifndef SLOWLIFT_COMMAND_COMMAND_H
#define SLOWLIFT_COMMAND_COMMAND_H

#include <stdbool.h>
#include <stdio.h>

#include "slowlift/error.h"

/* What a shell sees. Documented in docs/guide.md, "Exit codes". */
typedef enum sl_exit {
    SL_EXIT_OK = 0,
    SL_EXIT_MODEL = 1,  /* the file or the model is wrong */
    SL_EXIT_USAGE = 2,  /* the command line is wrong */
    SL_EXIT_PART = 3,   /* a part, the display, memory or the disk is missing or failed */
    SL_EXIT_PARTIAL = 4 /* Ctrl-C: what was counted until then was written */
} sl_exit;

typedef struct sl_command {
    const char *name;
    const char *line; /* what it does, in a few words */
    const char *help; /* the whole of --help, with a worked example */
    sl_exit (*run)(int argc, char **argv);
} sl_command;

extern const sl_command sl_commands[];
extern const int sl_n_commands;
/* NULL when there is none of that name. */
const sl_command *sl_command_find(const char *name);

sl_exit sl_command_check(int argc, char **argv);    /* check.c */
sl_exit sl_command_run(int argc, char **argv);      /* run.c */
sl_exit sl_command_limits(int argc, char **argv);   /* limits.c */
sl_exit sl_command_rank(int argc, char **argv);     /* rank.c */
sl_exit sl_command_map(int argc, char **argv);      /* map.c */
sl_exit sl_command_search(int argc, char **argv);   /* search.c */
sl_exit sl_command_what_if(int argc, char **argv);  /* what_if.c */
sl_exit sl_command_plan(int argc, char **argv);     /* plan.c */
sl_exit sl_command_mix(int argc, char **argv);      /* mix.c */
sl_exit sl_command_cost(int argc, char **argv);     /* cost.c */
sl_exit sl_command_day(int argc, char **argv);      /* day.c */
sl_exit sl_command_log(int argc, char **argv);      /* log.c */
sl_exit sl_command_compare(int argc, char **argv);  /* compare.c */
sl_exit sl_command_watch(int argc, char **argv);    /* launch.c */
sl_exit sl_command_picture(int argc, char **argv);  /* launch.c */
sl_exit sl_command_pack(int argc, char **argv);     /* launch.c */
sl_exit sl_command_teach(int argc, char **argv);    /* teach.c */
sl_exit sl_command_list(int argc, char **argv);     /* list.c */
sl_exit sl_command_cautions(int argc, char **argv); /* cautions.c */

/* The same command by the program that draws on paper, as a child that is waited for. */
sl_exit sl_draw_on_paper(char **argv); /* launch.c */

/* Says on stderr what is wrong and returns the exit code that belongs to it. */
sl_exit sl_complain(const sl_error *error);

/* Flush stdout and see whether everything was written: a full disk is said and is
 * SL_EXIT_PART; a reader that went away (head, a pager) is no error. `good`: the writer
 * saw no failure. */
sl_exit sl_finish_output(bool good);

/* Write a result to stdout, or whole to the file that -o named (output NULL: stdout). */
typedef bool sl_writer(FILE *out, const void *what); /* false: the stream failed */
sl_exit sl_write_result(const char *output, sl_writer *write, const void *what);

#endif
