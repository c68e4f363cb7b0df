/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The main() of a suite: START_SUITE("kinetics") ADD(test_name) ... END_SUITE.
 */
#ifndef SLOWLIFT_TESTS_SUITE_H
#define SLOWLIFT_TESTS_SUITE_H

#include <check.h>
#include <stdlib.h>

#include "slowlift/error.h"

#define START_SUITE(name)                                                                                    \
    int main(void)                                                                                           \
    {                                                                                                        \
        sl_start();                                                                                          \
        Suite *const suite = suite_create(name);                                                             \
        TCase *const tests = tcase_create(name);                                                             \
        tcase_set_timeout(tests, 300);                                                                       \
        suite_add_tcase(suite, tests);

#define ADD(test) tcase_add_test(tests, test);

#define END_SUITE                                                                                            \
    SRunner *const runner = srunner_create(suite);                                                           \
    srunner_run_all(runner, CK_NORMAL);                                                                      \
    const int failed = srunner_ntests_failed(runner);                                                        \
    srunner_free(runner);                                                                                    \
    return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;                                                        \
    }

#endif
