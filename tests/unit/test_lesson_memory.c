/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Every allocation that reading a lesson and a file of answers makes is made to fail, once and from then
 * on: reported, nothing leaks. GSL is linked as a shared library, so that its own allocations stay out, as
 * in test_faults.c.
 */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "slowlift/lesson.h"
#include "suite.h"
#include "tools/faults.h"

static bool one_lesson(sl_error *error)
{
    static const char *const paths[] = {SLOWLIFT_MODELS};
    sl_folders folders = {paths, 1};
    const sl_resolver resolver = sl_resolver_of_folders(&folders);
    sl_lesson *const lesson = sl_lesson_load(SLOWLIFT_LESSON "/lesson.es.yaml", &resolver, error);
    sl_lesson_free(lesson);
    return lesson != NULL;
}

static bool one_file_of_answers(sl_error *error)
{
    sl_learner_answers answers;
    return sl_learner_answers_load(&answers, SLOWLIFT_LESSON "/group-1.yaml", NULL, error);
}

static bool one_quiz(sl_error *error)
{
    sl_quiz *const quiz = sl_quiz_load(SLOWLIFT_LESSON "/quiz.yaml", error);
    sl_quiz_free(quiz);
    return quiz != NULL;
}

/* The n-th allocation for n = 1, 1 + stride, ...: a lesson makes many that are alike. */
static void fail_each(bool (*job)(sl_error *error), bool from_then_on, long stride)
{
    for (long n = 1;; n += stride) {
        sl_error error = {.code = SL_OK};
        faults_arm(n, from_then_on);
        const bool done = job(&error);
        const faults_count count = faults_disarm();
        ck_assert_msg(count.alive == 0, "allocation %ld: %ld blocks leak", n, count.alive);
        if (count.calls < n) {
            ck_assert_msg(done, "without a failure: %s", sl_code_name(error.code));
            ck_assert_int_gt(n, 1);
            return;
        }
        ck_assert_msg(!done, "allocation %ld failed unseen", n);
        ck_assert_msg(error.code == SL_ERR_NO_MEMORY, "allocation %ld: %s", n, sl_code_name(error.code));
    }
}

START_TEST(a_lesson_without_memory_is_reported_and_leaks_nothing)
{
    fail_each(one_lesson, false, 1);
    fail_each(one_lesson, true, 1);
}
END_TEST

START_TEST(answers_without_memory_are_reported_and_leak_nothing)
{
    fail_each(one_file_of_answers, false, 1);
    fail_each(one_file_of_answers, true, 1);
}
END_TEST

START_TEST(a_quiz_without_memory_is_reported_and_leaks_nothing)
{
    fail_each(one_quiz, false, 1);
    fail_each(one_quiz, true, 1);
}
END_TEST

START_SUITE("lesson memory")
ADD(a_lesson_without_memory_is_reported_and_leaks_nothing)
ADD(answers_without_memory_are_reported_and_leak_nothing)
ADD(a_quiz_without_memory_is_reported_and_leaks_nothing)
END_SUITE
