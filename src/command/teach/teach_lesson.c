/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A lesson on a terminal: one step at a time, plain lines from top to bottom, nothing drawn
 * over, so that a screen reader can follow and a script can play it.
 */
#include <stdio.h>
#include <string.h>

#include "base/language.h"
#include "base/minute.h"
#include "command/teach/teach.h"
#include "document/text.h"
#include "lesson/words.h"
#include "slowlift/caution.h"
#include "slowlift/report.h"

enum { WIDTH = 78, LINE_SIZE = 256 };

typedef enum sl_going { GO_ON, GO_STOP } sl_going;

typedef struct sl_terminal_desk {
    const sl_lesson *lesson;
    sl_session session;
    sl_kept *kept;
    bool educator;
} sl_terminal_desk;

static const char *say(const sl_terminal_desk *desk, sl_said_what what)
{
    return sl_lesson_said(what, desk->lesson->language);
}

static void put(const char *text)
{
    sl_put_paragraph(stdout, "", text, WIDTH);
}

static void put_passage(const sl_passage *passage)
{
    for (int i = 0; i < passage->n; i++) {
        put(passage->paragraph[i]);
    }
}

static void put_cautions(const sl_terminal_desk *desk)
{
    for (int i = 0; i < desk->lesson->n_cautions; i++) {
        const sl_caution *const caution = sl_caution_text(desk->lesson->caution[i]);
        char lead[32];
        snprintf(lead, sizeof lead, "%s: ", _(caution->signal));
        sl_put_paragraph(stdout, lead, _(caution->text), WIDTH);
    }
}

/* ---- what a page shows ------------------------------------------------------------------------- */

static void put_question(const sl_question *question)
{
    put(question->ask);
    for (int i = 0; i < question->n; i++) {
        char lead[24];
        snprintf(lead, sizeof lead, "  %d  ", i + 1);
        sl_put_paragraph(stdout, lead, question->choice[i].say, WIDTH);
    }
}

/* "watched: 48 %" for each arm. */
static void put_read(const sl_terminal_desk *desk, int scene, int zone, sl_quantity quantity, const int *arm,
                     int n_arms, const sl_number *at)
{
    const sl_lesson *const lesson = desk->lesson;
    const sl_lesson_scene *const in = &lesson->scene[scene];
    printf("%s, %s, %s %s:\n", sl_said_quantity(quantity, desk->lesson->language),
           sl_lesson_called_zone(lesson, &in->scene->zones[zone]), say(desk, SL_SAID_AFTER), at->text);
    for (int i = 0; i < n_arms; i++) {
        sl_cell cell;
        char percent[16] = "";
        sl_lesson_cell(lesson, scene, arm[i], zone, at->value, &cell);
        const double share = sl_cell_quantity(&cell, quantity);
        sl_percent(share, percent, sizeof percent);
        const char *const called = sl_lesson_called_arm(lesson, &in->scene->arms[arm[i]]);
        if (sl_timeline_predicted(in->timeline, arm[i]) && share >= 0.0) {
            printf("  %s: %s %%\n", called, percent);
        } else {
            printf("  %s: %s\n", called, say(desk, SL_SAID_NOT_PREDICTED));
        }
    }
}

/* The prediction beside what the run gave. */
static void put_prediction(const sl_terminal_desk *desk)
{
    const sl_choice *const predicted = sl_session_predicted(&desk->session);
    const sl_number *said = NULL, *result = NULL;
    if (!predicted) {
        put(say(desk, SL_SAID_NO_PREDICTION));
        return;
    }
    const bool compared = sl_session_compared(&desk->session, &said, &result);
    printf("%s: %s%s%s%s\n", say(desk, SL_SAID_PREDICTED), predicted->say, said ? " (" : "",
           said ? said->text : "", said ? ")" : "");
    if (compared) {
        printf("%s: %s\n", say(desk, SL_SAID_RUN_GAVE), result->text);
    }
}

static sl_going run(const sl_terminal_desk *desk)
{
    const sl_lesson_run *const shown = &desk->lesson->run;
    for (int i = 0; i < shown->n_stops; i++) {
        char line[LINE_SIZE];
        if (shown->beside >= 0) {
            printf("%s\n", sl_lesson_called(desk->lesson, desk->lesson->scene[shown->scene].name));
        }
        put_read(desk, shown->scene, shown->zone, shown->read, shown->arm, shown->n_arms,
                 &desk->lesson->numbers[shown->stop[i]]);
        if (shown->beside >= 0) {
            printf("%s\n", sl_lesson_called(desk->lesson, desk->lesson->scene[shown->beside].name));
            put_read(desk, shown->beside, shown->zone, shown->read, shown->arm, shown->n_arms,
                     &desk->lesson->numbers[shown->stop[i]]);
        }
        if (i + 1 == shown->n_stops) {
            break;
        }
        printf("%s ", say(desk, SL_SAID_ENTER));
        if (!sl_line_read(line, sizeof line) || strcmp(line, "q") == 0) {
            return GO_STOP;
        }
        putchar('\n');
    }
    put_prediction(desk);
    return GO_ON;
}

/* Feedback that had to wait for the run. */
static void put_waited(const sl_terminal_desk *desk)
{
    static const char *const keys[] = {"prediction", "reason"};
    static const sl_page_kind kinds[] = {SL_PAGE_PREDICTION, SL_PAGE_REASON};
    for (int k = 0; k < 2; k++) {
        const sl_question *const question =
            &desk->lesson->question[sl_lesson_question(desk->lesson, keys[k])];
        const int choice = sl_record_choice(desk->session.record, keys[k]);
        if (choice >= 0 && choice < question->n) {
            printf("%s: %s\n", sl_page_word(kinds[k], desk->lesson->language), question->choice[choice].say);
            put(question->choice[choice].reply);
        }
    }
}

static void put_cases(const sl_terminal_desk *desk)
{
    const sl_cases *const cases = &desk->lesson->cases;
    put_passage(&cases->text);
    put_read(desk, cases->scene, cases->zone, SL_COLOUR_LEFT, cases->arm, cases->n_arms,
             &desk->lesson->numbers[cases->at]);
}

static sl_going put_body(const sl_terminal_desk *desk)
{
    const sl_lesson *const lesson = desk->lesson;
    switch (sl_session_page(&desk->session)->kind) {
    case SL_PAGE_OBJECTIVE:
        put_passage(&lesson->objective);
        break;
    case SL_PAGE_CASES:
        put_cases(desk);
        break;
    case SL_PAGE_RUN:
        return run(desk);
    case SL_PAGE_EXPLAIN:
        put_waited(desk);
        put_passage(&lesson->explain);
        break;
    case SL_PAGE_SWATCH:
        put_passage(&lesson->swatch);
        put_cautions(desk);
        break;
    case SL_PAGE_RECALL:
    case SL_PAGE_PREDICTION:
    case SL_PAGE_REASON:
    case SL_PAGE_SAW:
    case SL_PAGE_TRANSFER:
    case SL_PAGE_EXIT:
    case SL_PAGE_END:
    case SL_PAGE_KINDS:
        break;
    }
    return GO_ON;
}

/* After an answer, and where one was given before. */
static void put_feedback(const sl_terminal_desk *desk)
{
    const sl_question *const question = sl_session_question(&desk->session);
    const int answered = sl_session_answered(&desk->session);
    const char *const feedback = sl_session_feedback(&desk->session);
    if (!question || answered == SL_NO_ANSWER) {
        return;
    }
    printf("%s: %d\n", say(desk, SL_SAID_YOURS), answered + 1);
    if (feedback) {
        put(say(desk, answered == question->right ? SL_SAID_RIGHT : SL_SAID_NOT_RIGHT));
        put(feedback);
    } else {
        put(say(desk, SL_SAID_KEPT));
    }
}

static sl_going put_page(const sl_terminal_desk *desk)
{
    const sl_question *const question = sl_session_question(&desk->session);
    printf("\n%s %d %s %d: %s\n", say(desk, SL_SAID_STEP), desk->session.page + 1, say(desk, SL_SAID_OF),
           desk->lesson->n_pages,
           sl_page_word(sl_session_page(&desk->session)->kind, desk->lesson->language));
    if (put_body(desk) == GO_STOP) {
        return GO_STOP;
    }
    if (question) {
        put_question(question);
    }
    put_feedback(desk);
    return GO_ON;
}

static void put_notes(const sl_terminal_desk *desk)
{
    printf("%s\n", say(desk, SL_SAID_NOTES));
    put_passage(&desk->lesson->misconception);
    put_passage(&desk->lesson->teacher);
    for (int i = 0; i < desk->lesson->n_outcomes; i++) {
        sl_put_paragraph(stdout, "- ", desk->lesson->outcome[i], WIDTH);
    }
    printf("%s\n", say(desk, SL_SAID_CAUTION));
    put_cautions(desk);
}

/* ---- what is typed -------------------------------------------------------------------------------- */

static void answer(sl_terminal_desk *desk, const char *line)
{
    const sl_question *const question = sl_session_question(&desk->session);
    const int number = question ? sl_line_number(line, question->n) : 0;
    if (number == 0) {
        put(say(desk, question ? SL_SAID_NO_CHOICE : SL_SAID_HELP));
    } else if (!sl_session_answer(&desk->session, number - 1)) {
        put(say(desk, SL_SAID_FIRST));
    } else {
        sl_kept_save(desk->kept, desk->lesson->language);
        put_feedback(desk);
    }
}

/* Takes one line; *moved: another page is to be shown. */
static void obey(sl_terminal_desk *desk, const char *line, bool *moved)
{
    const char *why = NULL;
    if (line[0] == '\0') {
        *moved = sl_session_next(&desk->session, &why);
        if (!*moved) {
            put(why);
        }
    } else if (strcmp(line, "b") == 0) {
        *moved = sl_session_back(&desk->session);
    } else if (strcmp(line, "s") == 0) {
        *moved = sl_session_skip(&desk->session);
        put(say(desk, *moved ? SL_SAID_SKIPPED : SL_SAID_ONLY_EDUCATOR));
    } else if (strcmp(line, "t") == 0 && desk->educator) {
        put_notes(desk);
    } else {
        answer(desk, line);
    }
    if (*moved) {
        sl_kept_save(desk->kept, desk->lesson->language);
    }
}

static bool asks_for_answer(const sl_terminal_desk *desk)
{
    return sl_session_question(&desk->session) && sl_session_answered(&desk->session) == SL_NO_ANSWER;
}

static sl_going one_page(sl_terminal_desk *desk)
{
    char line[LINE_SIZE];
    bool moved = false;
    if (put_page(desk) == GO_STOP) {
        return GO_STOP;
    }
    while (!moved && sl_session_page(&desk->session)->kind != SL_PAGE_END) {
        printf("%s ", say(desk, asks_for_answer(desk) ? SL_SAID_WHICH : SL_SAID_ENTER));
        if (!sl_line_read(line, sizeof line) || strcmp(line, "q") == 0) {
            return GO_STOP;
        }
        putchar('\n');
        obey(desk, line, &moved);
    }
    return GO_ON;
}

static void put_head(const sl_terminal_desk *desk)
{
    const sl_lesson *const lesson = desk->lesson;
    printf(_("Lesson %d: %s"), lesson->number, lesson->title);
    putchar('\n');
    char minutes[24];
    sl_minute_words(SL_MINUTE_PLANNED, minutes, sizeof minutes, _("%d min"), lesson->minutes);
    printf("%s %s.\n", say(desk, SL_SAID_ABOUT), minutes);
    put(say(desk, SL_SAID_EXAMPLE));
    put(say(desk, SL_SAID_HELP));
    if (desk->educator) {
        put(say(desk, SL_SAID_HELP_EDUCATOR));
    }
}

sl_exit sl_teach_lesson(const sl_teach_asked *asked, const sl_lesson *lesson, sl_kept *kept)
{
    sl_error error = {.code = SL_OK};
    sl_record *const record = sl_learner_answers_record(&kept->answers, lesson, &error);
    if (!record) {
        return sl_complain(&error);
    }
    sl_terminal_desk desk = {.lesson = lesson, .kept = kept, .educator = asked->educator};
    desk.session = sl_session_start(lesson, record, asked->educator);
    put_head(&desk);
    sl_going going = GO_ON;
    while (going == GO_ON && sl_session_page(&desk.session)->kind != SL_PAGE_END) {
        going = one_page(&desk);
    }
    if (going == GO_STOP) {
        printf("\n%s\n", say(&desk, SL_SAID_STOPPED));
    } else {
        put_page(&desk);
    }
    const sl_exit saved = sl_kept_close(kept, lesson->language);
    const sl_exit written = sl_finish_output(ferror(stdout) == 0);
    return written > saved ? written : saved;
}
