/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * `slowlift teach`: what its parts share.
 */
#ifndef SLOWLIFT_COMMAND_TEACH_H
#define SLOWLIFT_COMMAND_TEACH_H

#include "command/command.h"
#include "front/kept.h"
#include "front/lessons.h"
#include "front/option.h"
#include "front/places.h"
#include "slowlift/lesson.h"

typedef struct sl_teach_asked {
    const char *lesson; /* name or path; NULL when none was given */
    const char *answers, *class_folder, *models;
    const char *language; /* "en" or "es" */
    int time;             /* of the quiz: 0 before, 1 after */
    bool quiz, educator;
    sl_result_wish result; /* of a class: .csv, .output */
} sl_teach_asked;

/* After every answer. A failure is said once a time on stderr; the answers stay in memory and
 * are tried again. */
void sl_kept_save(sl_kept *kept, const char *language);
/* Last try. Answers that no disk takes are written to stdout, so that nothing is lost. */
sl_exit sl_kept_close(sl_kept *kept, const char *language);

/* One line of stdin without its end; false: stdin is at its end. */
bool sl_line_read(char *line, size_t size);
/* The number 1..n that a line says, or 0. */
int sl_line_number(const char *line, int n);

sl_exit sl_teach_lesson(const sl_teach_asked *asked, const sl_lesson *lesson, sl_kept *kept);
sl_exit sl_teach_quiz(const sl_quiz *quiz, sl_kept *kept, sl_quiz_time time);
sl_exit sl_teach_class(const sl_teach_asked *asked, const sl_places *places, sl_error *error);

#endif
