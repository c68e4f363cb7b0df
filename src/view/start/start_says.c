/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What each view says, in lines. Nothing here draws, computes or starts anything.
 */
#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "base/append.h"
#include "base/language.h"
#include "slowlift/report.h"
#include "view/draw/words.h"
#include "view/start/start.h"

bool sl_start_possible(const sl_start_page *start, sl_start_act act)
{
    const sl_my_test *const test =
        start->view == SL_START_TEST && start->my.n > 0 ? &start->my.test[start->test] : NULL;
    const sl_shelf_row *const row = test != NULL && test->row >= 0 ? &start->my.shelf.row[test->row] : NULL;
    const bool log = row != NULL && row->test.n_readings > 0;
    return act == SL_START_ANSWER   ? test != NULL && test->scene
           : act == SL_START_SEEN   ? log
           : act == SL_START_LOOK   ? test != NULL && (test->scene || log)
           : act == SL_START_REPORT ? row != NULL && !row->rehearsed
           : act == SL_START_MINE   ? start->my.n > 0
           : act == SL_START_TEACH  ? start->n_lessons > 0
           : act == SL_START_NEW    ? start->my.why.code == SL_OK
                                    : true;
}

typedef struct sl_lines {
    sl_start_line *line;
    int n;
} sl_lines;

static sl_start_line *add(sl_lines *to, sl_start_act act, int which)
{
    sl_start_line *const line = &to->line[SDL_min(to->n, SL_START_MOST - 1)];
    const sl_start_row *const row = &sl_start_rows[act];
    to->n = SDL_min(to->n + 1, SL_START_MOST);
    *line = (sl_start_line){.act = act, .which = which};
    snprintf(line->cap, sizeof line->cap, "%s", row->cap != NULL ? _(row->cap) : "");
    snprintf(line->label, sizeof line->label, "%s", row->label != NULL ? _(row->label) : "");
    return line;
}

#define ABOUT(line, ...) snprintf((line)->about, sizeof(line)->about, __VA_ARGS__)

static void read_only(sl_lines *to, const char *label, const char *about)
{
    sl_start_line *const line = add(to, SL_START_NOTHING, 0);
    snprintf(line->label, sizeof line->label, "%s", label);
    ABOUT(line, "%s", about);
}

/* ---- the start page --------------------------------------------------------------------------------------
 */

static void say_running(sl_lines *to, const sl_start_page *start)
{
    const int which = sl_my_running(&start->my);
    sl_instant now;
    sl_error error = {.code = SL_OK};
    if (which < 0) {
        return;
    }
    const sl_my_test *const test = &start->my.test[which];
    sl_start_line *const line = add(to, SL_START_RUNNING, which);
    char clock[24] = "";
    if (test->n_on_hair > 0 && sl_instant_now(&now, &error)) {
        sl_put_clock(sl_elapsed_between(&test->contact, &now).seconds / 60.0, clock, sizeof clock);
    }
    snprintf(line->cap, sizeof line->cap, "%s", _("Enter"));
    if (test->n_on_hair > 0) {
        snprintf(line->label, sizeof line->label,
                 sl_plural("A day is running: %d swatch on hair, %s.",
                           "A day is running: %d swatches on hair, %s.", test->n_on_hair),
                 test->n_on_hair, clock);
    } else {
        snprintf(line->label, sizeof line->label, "%s", _("A day is running: nothing is on hair."));
    }
    ABOUT(line, _("%s. Enter goes back to it."), test->title);
}

static void say_example(sl_lines *to, const sl_start_page *start)
{
    const sl_scene *const scene = start->example.scene;
    sl_start_line *const line = add(to, SL_START_EXAMPLE, 0);
    if (scene != NULL) {
        ABOUT(line, _("%d strips, %.0f minutes"), scene->n_arms, scene->until_min);
    }
}

static void say_mine(sl_lines *to, const sl_start_page *start)
{
    const sl_my_tests *const my = &start->my;
    if (my->why.code != SL_OK) {
        char text[SL_START_ABOUT];
        sl_error_sentence(&my->why, text, sizeof text);
        read_only(to, _("My tests"), text);
    }
    if (my->n == 0) {
        return;
    }
    sl_start_line *const line = add(to, SL_START_MINE, 0);
    ABOUT(line, "%d: ", (int)my->n);
    for (size_t i = 0; i < SDL_min(my->n, 2); i++) {
        const sl_my_test *const test = &my->test[i];
        sl_append(line->about, sizeof line->about, "%s%s (%s)", i > 0 ? ", " : "", test->title,
                  test->why.code != SL_OK ? _("cannot be opened") : sl_my_state(my, test));
    }
    if (my->n > 2) {
        sl_append(line->about, sizeof line->about, ", …");
    }
}

static void say_home(sl_lines *to, const sl_start_page *start)
{
    say_running(to, start);
    say_example(to, start);
    if (start->my.why.code == SL_OK) {
        sl_start_line *const line = add(to, SL_START_NEW, 0);
        ABOUT(line, "%s", _("16 questions, about three minutes"));
    }
    say_mine(to, start);
    if (start->n_lessons > 0) {
        sl_start_line *const line = add(to, SL_START_TEACH, 0);
        ABOUT(line, sl_plural("%d lesson", "%d lessons", start->n_lessons), start->n_lessons);
    }
    add(to, SL_START_HELP, 0);
}

/* ---- my tests, and one
 * -------------------------------------------------------------------------------------- */

static void say_tests(sl_lines *to, const sl_start_page *start)
{
    for (size_t i = 0; i < start->my.n; i++) {
        const sl_my_test *const test = &start->my.test[i];
        if (test->why.code != SL_OK) {
            char text[SL_START_ABOUT];
            sl_error_sentence(&test->why, text, sizeof text);
            read_only(to, test->log[0] != '\0' ? test->log : test->name, text);
            continue;
        }
        sl_start_line *const line = add(to, SL_START_CHOOSE, (int)i);
        snprintf(line->label, sizeof line->label, "%s", test->title);
        if (test->row >= 0) {
            ABOUT(line, "%s, %.10s, %s", test->name, start->my.shelf.row[test->row].test.made,
                  sl_my_state(&start->my, test));
        } else {
            ABOUT(line, "%s, %s", test->name, sl_my_state(&start->my, test));
        }
    }
    add(to, SL_START_NEW, 0);
}

static void say_test(sl_lines *to, const sl_start_page *start)
{
    static const sl_start_act acts[] = {SL_START_LOOK, SL_START_ANSWER, SL_START_PLAN,  SL_START_DAY,
                                        SL_START_SEEN, SL_START_REPORT, SL_START_PAPERS};
    const sl_my_test *const test = &start->my.test[start->test];
    for (size_t i = 0; i < sizeof acts / sizeof acts[0]; i++) {
        if (sl_start_possible(start, acts[i])) {
            sl_start_line *const line = add(to, acts[i], 0);
            ABOUT(line, "%s",
                  acts[i] == SL_START_DAY ? sl_my_state(&start->my, test) : _(sl_start_rows[acts[i]].help));
        }
    }
}

static void say_lessons(sl_lines *to, const sl_start_page *start)
{
    for (int i = 0; i < start->n_lessons; i++) {
        sl_start_line *const line = add(to, SL_START_LESSON, i);
        snprintf(line->label, sizeof line->label, "%d  %s", start->lesson[i].number, start->lesson[i].title);
    }
}

int sl_start_says(const sl_start_page *start, sl_start_line line[SL_START_MOST])
{
    sl_lines to = {.line = line};
    switch (start->view) {
    case SL_START_HOME:
        say_home(&to, start);
        break;
    case SL_START_TESTS:
        say_tests(&to, start);
        break;
    case SL_START_TEST:
        say_test(&to, start);
        break;
    case SL_START_LESSONS:
        say_lessons(&to, start);
        break;
    case SL_START_READ:
        break;
    }
    return to.n;
}

const char *sl_start_title(const sl_start_page *start)
{
    return start->view == SL_START_TESTS     ? _("My tests")
           : start->view == SL_START_TEST    ? start->my.test[start->test].title
           : start->view == SL_START_LESSONS ? _("Lessons")
           : start->view == SL_START_HOME    ? "slowlift"
                                             : "";
}

void sl_start_foot(char *text, size_t size)
{
    text[0] = '\0';
    for (int id = 0; id < SL_CAUTION_COUNT; id++) {
        const sl_caution *const caution = sl_caution_text((sl_caution_id)id);
        if (caution->always && caution->brief != NULL) {
            sl_append(text, size, "%s%s", text[0] != '\0' ? "  " : "", _(caution->brief));
        }
    }
}

/* ---- what is read -----------------------------------------------------------------------------------------
 */

static void say_help(sl_document *document, sl_error *error)
{
    sl_document_begin(document, "help", _("Help"), error);
    sl_document_say(
        document, "%s",
        _("Press a line, or go to it by the arrows or Tab and press Enter. Each page has its way back."));
    for (int act = 0; act < SL_START_ACTS; act++) {
        const sl_start_row *const row = &sl_start_rows[act];
        if (row->help != NULL) {
            sl_document_row(document, _(row->cap), "%s", _(row->help));
        }
    }
    sl_document_end(document, SL_ON_NOTHING);
}

static void say_cautions(sl_document *document, sl_error *error)
{
    sl_document_begin(document, "cautions", _("All cautions"), error);
    sl_document_end(document, SL_ON_ALL);
}

void sl_start_say_read(sl_start_page *start, sl_document *document, sl_error *error)
{
    if (start->reads == SL_START_PLAN) {
        sl_start_say_plan(start, document, error);
    } else if (start->reads == SL_START_REPORT) {
        sl_start_say_report(start, document, error);
    } else if (start->reads == SL_START_CAUTIONS) {
        say_cautions(document, error);
    } else {
        say_help(document, error);
    }
}
