/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Leading one student or group through a lesson. Predict, observe, explain: White & Gunstone
 * 1992, Probing Understanding, ch. 3; predicting before seeing is what makes a demonstration
 * teach: Crouch et al. 2004, Am. J. Phys. 72:835-838.
 *
 * Invariant: no page after the run is reached without a prediction and a reason, unless the
 * educator opened it; feedback to a prediction waits for the run.
 */
#include <assert.h>
#include <stdio.h>
#include <string.h>

#include "lesson/words.h"
#include "slowlift/lesson.h"

static int page_of(const sl_lesson *lesson, sl_page_kind kind)
{
    int page = 0;
    while (lesson->page[page].kind != kind) {
        page++;
        assert(page < lesson->n_pages);
    }
    return page;
}

static bool has(const sl_session *session, const char *key)
{
    return sl_record_choice(session->record, key) != SL_NO_ANSWER;
}

static bool run_open(const sl_session *session)
{
    return session->record->skipped || (has(session, "prediction") && has(session, "reason"));
}

static void go_to(sl_session *session, int page)
{
    session->page = page;
    session->record->page = page > session->record->page ? page : session->record->page;
}

sl_session sl_session_start(const sl_lesson *lesson, sl_record *record, bool educator)
{
    sl_session session = {.lesson = lesson, .record = record, .educator = educator};
    const int run = page_of(lesson, SL_PAGE_RUN);
    const int last = lesson->n_pages - 1;
    session.page = record->page < 0 ? 0 : (record->page > last ? last : record->page);
    if (session.page >= run && !run_open(&session)) {
        session.page = page_of(lesson, has(&session, "prediction") ? SL_PAGE_REASON : SL_PAGE_PREDICTION);
    }
    record->page = session.page;
    return session;
}

const sl_page *sl_session_page(const sl_session *session)
{
    return &session->lesson->page[session->page];
}

const sl_question *sl_session_question(const sl_session *session)
{
    const int question = sl_session_page(session)->question;
    return question < 0 ? NULL : &session->lesson->question[question];
}

int sl_session_answered(const sl_session *session)
{
    const sl_question *const question = sl_session_question(session);
    return question ? sl_record_choice(session->record, question->key) : SL_NO_ANSWER;
}

bool sl_session_answer(sl_session *session, int choice)
{
    const sl_question *const question = sl_session_question(session);
    sl_record *const record = session->record;
    if (!question || choice < 0 || choice >= question->n || sl_session_answered(session) != SL_NO_ANSWER ||
        record->n >= SL_MOST_QUESTIONS) {
        return false;
    }
    snprintf(record->key[record->n], sizeof record->key[0], "%s", question->key);
    record->choice[record->n] = choice;
    record->n++;
    return true;
}

static bool refuse(const sl_session *session, sl_said_what what, const char **why)
{
    if (why) {
        *why = sl_lesson_said(what, session->lesson->language);
    }
    return false;
}

bool sl_session_next(sl_session *session, const char **why)
{
    const int next = session->page + 1;
    if (next >= session->lesson->n_pages) {
        return refuse(session, SL_SAID_LAST, why);
    }
    const bool passed = session->record->page > session->page; /* has been further already */
    if (next >= page_of(session->lesson, SL_PAGE_RUN) && !run_open(session)) {
        return refuse(session, SL_SAID_LOCKED, why);
    }
    if (!passed && sl_session_question(session) && sl_session_answered(session) == SL_NO_ANSWER) {
        return refuse(session, SL_SAID_UNANSWERED, why);
    }
    go_to(session, next);
    return true;
}

bool sl_session_back(sl_session *session)
{
    session->page -= session->page > 0 ? 1 : 0;
    return true;
}

bool sl_session_skip(sl_session *session)
{
    const int next = session->page + 1;
    if (!session->educator || next >= session->lesson->n_pages) {
        return false;
    }
    if (next >= page_of(session->lesson, SL_PAGE_RUN) && !run_open(session)) {
        session->record->skipped = true;
    }
    go_to(session, next);
    return true;
}

const char *sl_session_feedback(const sl_session *session)
{
    const sl_question *const question = sl_session_question(session);
    const int choice = sl_session_answered(session);
    const sl_page_kind kind = sl_session_page(session)->kind;
    const bool tells = kind == SL_PAGE_PREDICTION || kind == SL_PAGE_REASON;
    if (!question || choice < 0 || choice >= question->n ||
        (tells && session->record->page <= page_of(session->lesson, SL_PAGE_RUN))) {
        return NULL;
    }
    return question->choice[choice].reply;
}

const sl_choice *sl_session_predicted(const sl_session *session)
{
    const sl_lesson *const lesson = session->lesson;
    const int choice = sl_record_choice(session->record, "prediction");
    const sl_question *const question = &lesson->question[sl_lesson_question(lesson, "prediction")];
    const bool reached = session->record->page >= page_of(lesson, SL_PAGE_RUN);
    return reached && choice >= 0 && choice < question->n ? &question->choice[choice] : NULL;
}

bool sl_session_compared(const sl_session *session, const sl_number **predicted, const sl_number **result)
{
    const sl_lesson *const lesson = session->lesson;
    const sl_choice *const choice = sl_session_predicted(session);
    const sl_question *const question = &lesson->question[sl_lesson_question(lesson, "prediction")];
    const int right = question->choice[question->right].draws;
    if (!choice || right < 0) {
        return false;
    }
    *predicted = choice->draws < 0 ? NULL : &lesson->numbers[choice->draws];
    *result = &lesson->numbers[right];
    return true;
}
