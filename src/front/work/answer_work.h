/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What `slowlift answer` was asked for and what it takes to answer, for the program that writes and for the
 * one that draws.
 */
#ifndef SLOWLIFT_FRONT_ANSWER_WORK_H
#define SLOWLIFT_FRONT_ANSWER_WORK_H

#include "front/work/answers_work.h"
#include "report/answer/answer_page.h"
#include "slowlift/cost.h"

typedef struct sl_answer_work {
    sl_answers_asked about;
    const char *zone_word, *prices_file;
    bool same_colour, science;
    sl_draws draws;
    sl_result_wish result;
    sl_answers_work work;
    sl_rinse *rinse;
    sl_prices prices;
    sl_answer_page page;
} sl_answer_work; /* start with {0}; too large for a stack */

extern const sl_command_line sl_answer_typed;
bool sl_answer_work_read(sl_answer_work *work, int argc, char **argv, sl_error *error);
bool sl_answer_work_compute(sl_answer_work *work, sl_error *error);
/* The page alone, of a scene that is there (work->work.scene) and draws that are said. */
bool sl_answer_work_page(sl_answer_work *work, sl_error *error);
/* How a command ends that told the page: what was counted in part is said; without a page (not asked for, or
 * not made) as it is. */
sl_exit sl_answer_work_end(const sl_answer_work *work, sl_exit code);
void sl_answer_work_free(sl_answer_work *work);

/* Of a scene whose answers are there: what the page needs besides. zone -1: the one in which arms differ
 * most.
 */
bool sl_answer_rinse(sl_rinse **rinse, const sl_answers *answers, int zone, bool same_colour, int threads,
                     sl_error *error);

#endif
