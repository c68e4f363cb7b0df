/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Papers of a test, printed by the program that has the libraries for them (front/places.h), one command
 * after the other, while the window goes on. Invariant: nothing waits here but for the end of a child that
 * was asked to end.
 */
#ifndef SLOWLIFT_VIEW_PAPERS_H
#define SLOWLIFT_VIEW_PAPERS_H

#include <stdbool.h>
#include <sys/types.h>

#include "slowlift/error.h"
#include "slowlift/scene.h"

enum { SL_PAPERS_MOST = 4, SL_PAPERS_WORDS = 10 };

typedef struct sl_papers_command {
    char word[SL_PAPERS_WORDS][SL_SETTLED_PATH]; /* [n] the command, then as its line has them */
    int n;
} sl_papers_command;

typedef struct sl_papers {
    sl_papers_command *command; /* [n] */
    int n, next;
    pid_t child; /* 0: none runs */
    int heard;   /* the end of what it complains into; -1: none */
    char complaint[SL_ERROR_TEXT_SIZE];
    char made[SL_SETTLED_PATH]; /* the last that was printed; "" none yet */
} sl_papers;                    /* start with {0} */

/* False: out of memory, or so many are asked for already. */
sl_papers_command *sl_papers_add(sl_papers *papers, sl_error *error);
bool sl_papers_busy(const sl_papers *papers);
/* Starts what is next, and looks whether it has ended. False once, where something went wrong: *error says
 * what, and nothing more is printed. */
bool sl_papers_pass(sl_papers *papers, sl_error *error);
void sl_papers_end(sl_papers *papers); /* stops what runs */

#endif
