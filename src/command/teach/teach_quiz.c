/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The quiz on a terminal: twelve items of two tiers, no feedback, kept after each item.
 */
#include <string.h>

#include "command/teach/teach.h"
#include "document/text.h"
#include "lesson/words.h"

enum { WIDTH = 78, LINE_SIZE = 256 };

/* The answer to one tier, 0-based; false: stopped. */
static bool tier(const sl_question *question, const char *language, int *choice)
{
    char line[LINE_SIZE];
    int number = 0;
    sl_put_paragraph(stdout, "", question->ask, WIDTH);
    for (int i = 0; i < question->n; i++) {
        char lead[24];
        snprintf(lead, sizeof lead, "  %d  ", i + 1);
        sl_put_paragraph(stdout, lead, question->choice[i].say, WIDTH);
    }
    while (number == 0) {
        printf("%s ", sl_lesson_said(SL_SAID_WHICH, language));
        if (!sl_line_read(line, sizeof line) || strcmp(line, "q") == 0) {
            return false;
        }
        putchar('\n');
        number = sl_line_number(line, question->n);
        if (number == 0) {
            puts(sl_lesson_said(SL_SAID_NO_CHOICE, language));
        }
    }
    *choice = number - 1;
    return true;
}

sl_exit sl_teach_quiz(const sl_quiz *quiz, sl_kept *kept, sl_quiz_time time)
{
    sl_quiz_record *const record = &kept->answers.quiz[time];
    bool going = true;
    if (record->edition != 0 && record->edition != quiz->edition) {
        sl_error error = {.code = SL_OK};
        sl_fail(&error, SL_ERR_INCONSISTENT, "these answers are to another edition of the quiz",
                "begin with a new file of answers");
        return sl_complain(&error);
    }
    record->edition = quiz->edition;
    printf("%s\n", quiz->title);
    for (int i = 0; i < quiz->note.n; i++) {
        sl_put_paragraph(stdout, "", quiz->note.paragraph[i], WIDTH);
    }
    for (int i = 0; going && i < quiz->n_items; i++) {
        int answer = 0, reason = 0;
        if (record->answer[i] != SL_NO_ANSWER && record->reason[i] != SL_NO_ANSWER) {
            continue; /* answered before; the first answer counts */
        }
        printf("\n%s %d %s %d\n", sl_lesson_said(SL_SAID_STEP, quiz->language), i + 1,
               sl_lesson_said(SL_SAID_OF, quiz->language), quiz->n_items);
        going = tier(&quiz->item[i].answer, quiz->language, &answer) &&
                tier(&quiz->item[i].reason, quiz->language, &reason);
        if (going) {
            record->answer[i] = answer;
            record->reason[i] = reason;
            sl_kept_save(kept, quiz->language);
        }
    }
    if (!going) {
        printf("\n%s\n", sl_lesson_said(SL_SAID_STOPPED, quiz->language));
    }
    const sl_exit saved = sl_kept_close(kept, quiz->language);
    const sl_exit written = sl_finish_output(ferror(stdout) == 0);
    return written > saved ? written : saved;
}
