/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * My tests: scenes and logs of the one folder in which tests are kept (front/places.h), a scene with the log
 * of its own name as one. Invariant: they are only read; what cannot be opened is a row with its reason.
 */
#ifndef SLOWLIFT_VIEW_MY_TESTS_H
#define SLOWLIFT_VIEW_MY_TESTS_H

#include "log/shelf/shelf.h"
#include "slowlift/scene.h"

typedef struct sl_my_test {
    char name[SL_SHELF_NAME]; /* of its files, without their end */
    char title[SL_LOG_TITLE];
    bool scene;              /* name.yaml lies there and can be opened */
    char log[SL_SHELF_NAME]; /* a file; "": none was begun */
    char id[SL_UUID];        /* of the test in the log */
    int row;                 /* of the shelf; -1: no log */
    bool runs;               /* its day was begun and not ended, today or yesterday */
    int n_on_hair;
    sl_instant contact; /* of the mix that has been on hair for longest */
    sl_error why;       /* SL_OK: it can be opened */
} sl_my_test;

typedef struct sl_my_tests {
    sl_settled settled; /* its folder */
    sl_log_shelf shelf;
    sl_my_test *
        test; /* [n] the newest log first, then scenes that no log was begun of, then what cannot be opened */
    size_t n, room;
    sl_error why; /* why the folder cannot be read; SL_OK: it was */
} sl_my_tests;    /* start with {0} */

/* Reads all anew. models: as of the command line, or NULL. False only where memory ran out. */
bool sl_my_tests_read(sl_my_tests *my, const char *models, sl_error *error);
void sl_my_tests_free(sl_my_tests *my);

/* The path of a file of the test in the folder: its name and that end (".yaml"). */
void sl_my_path(const sl_my_tests *my, const char *name, const char *end, char path[SL_SETTLED_PATH]);
/* The first of name, name-2, name-3 ... with which no such file lies there yet. */
void sl_my_free_name(const sl_my_tests *my, const char *name, const char *end, char free_name[SL_SHELF_NAME]);
/* The test whose day runs; -1: none. */
int sl_my_running(const sl_my_tests *my);
/* How far it is, in words. */
const char *sl_my_state(const sl_my_tests *my, const sl_my_test *test);

#endif
