/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The program `slowlift`: one function for each command. Results go to stdout, all else
 * to stderr.
 */
#ifndef SLOWLIFT_COMMAND_COMMAND_H
#define SLOWLIFT_COMMAND_COMMAND_H

#include "front/complain.h"

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

#endif
