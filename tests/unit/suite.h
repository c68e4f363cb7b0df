/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The main() of a suite, and the only one:
 *
 *     START_SUITE("kinetics")           a suite and its first case
 *     FIXTURE(set_up, tear_down)        around each test of this case; FIXTURE_ONCE around the case
 *     ADD(test_name)
 *     ADD_LOOP(test_name, 0, 8)         once for each _i
 *     CASE("shipped scenes")            what follows belongs to another case
 *     END_SUITE
 *
 * Check's own limit of four seconds is what a busy machine fails; every case has the tests' shared one.
 */
#ifndef SLOWLIFT_TESTS_SUITE_H
#define SLOWLIFT_TESTS_SUITE_H

#include <check.h>
#include <stdlib.h>

#include "../tools/patience.h"
#include "slowlift/error.h"

static inline TCase *suite_case(Suite *suite, const char *name)
{
    TCase *const tests = tcase_create(name);
    tcase_set_timeout(tests, PATIENCE_TEST_S);
    suite_add_tcase(suite, tests);
    return tests;
}

static inline int suite_failed(Suite *suite)
{
    SRunner *const runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    const int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed;
}

#define START_SUITE(name)                                                                                    \
    int main(void)                                                                                           \
    {                                                                                                        \
        sl_start();                                                                                          \
        Suite *const suite = suite_create(name);                                                             \
        TCase *tests = suite_case(suite, name);

#define CASE(name) tests = suite_case(suite, name);

#define FIXTURE(before, after) tcase_add_checked_fixture(tests, before, after);

#define FIXTURE_ONCE(before, after) tcase_add_unchecked_fixture(tests, before, after);

#define ADD(test) tcase_add_test(tests, test);

#define ADD_LOOP(test, from, to) tcase_add_loop_test(tests, test, from, to);

#define END_SUITE                                                                                            \
    return suite_failed(suite) == 0 ? EXIT_SUCCESS : EXIT_FAILURE;                                           \
    }

#endif
