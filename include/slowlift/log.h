/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The log of strand tests: one SQLite file that other tools can open (docs/log.md has its tables).
 * Each test keeps the files of its scene as they were, its swatches, what happened on the bench,
 * and every reading. Clients and judges are codes, never names.
 *
 * Invariant: rows are only ever added. What turned out wrong is corrected by another row; what a
 * function here has returned true for is on the disk.
 */
#ifndef SLOWLIFT_LOG_H
#define SLOWLIFT_LOG_H

#include <stdbool.h>

#include "slowlift/clock.h"
#include "slowlift/error.h"
#include "slowlift/plan.h"
#include "slowlift/scene.h"

#pragma GCC visibility push(default)

enum {
    SL_LOG_VERSION = 1, /* of the tables: PRAGMA user_version */
    SL_LOG_CODE = 33,   /* bytes of a person's or a judge's code, its end included */
    SL_LOG_TITLE = 201, /* of a title, a note */
    SL_SHA256_TEXT = 65 /* of a SHA-256 in hexadecimal digits */
};

typedef struct sl_log sl_log;
typedef enum sl_log_how {
    SL_LOG_READ,  /* it must be there */
    SL_LOG_WRITE, /* it must be there */
    SL_LOG_MAKE   /* made when it is not there */
} sl_log_how;

/* Fails: SL_ERR_CANNOT_READ, SL_ERR_CANNOT_WRITE; SL_ERR_WRONG_KIND for a file that is no log;
 * SL_ERR_NEWER_VERSION; SL_ERR_NOT_ALLOWED for a folder on another machine, where SQLite's
 * write-ahead log does not hold. An older log is brought up to date unless it is only read. */
bool sl_log_open(sl_log **log, const char *path, sl_log_how how, sl_error *error);
void sl_log_close(sl_log *log); /* NULL is allowed */

/* ---- tests and their swatches (log_tests.c) -------------------------------------------------------- */

typedef struct sl_log_test {
    char id[SL_UUID];
    char title[SL_LOG_TITLE];
    char operator_code[SL_LOG_CODE];
    char made[32];                     /* ISO 8601 with offset, as "2026-11-25T14:05:30+01:00" */
    char scene_name[SL_LOG_TITLE];     /* as the scene's file was called */
    char scene_sha256[SL_SHA256_TEXT]; /* of the scene's files, in the order in which they were read */
    int n_swatches, n_events, n_readings;
} sl_log_test;

/* Keep a test: the scene at `path` with every file that it refers to (read again through
 * `resolver`), and the swatches of the plan. `id` is filled. */
bool sl_log_begin(sl_log *log, const char *path, const sl_resolver *resolver, const sl_plan *plan,
                  const char *title, const char *operator_code, char id[SL_UUID], sl_error *error);
/* The tests, oldest first; freed with sl_free() of base/memory.h. */
bool sl_log_tests(sl_log *log, sl_log_test **tests, int *n, sl_error *error);
/* The test whose id begins with `beginning`, or the only one (NULL). */
bool sl_log_find(sl_log *log, const char *beginning, sl_log_test *test, sl_error *error);
/* The scene as it was, from the files that the log keeps. */
sl_scene *sl_log_scene(sl_log *log, const char *test, sl_error *error);

typedef struct sl_log_swatch {
    char id[SL_UUID];
    char arm[SL_LOG_TITLE]; /* its name in the scene */
    int block, place;       /* from 0 */
    sl_bench_swatch bench;  /* code and times, as planned */
} sl_log_swatch;
/* Of one test, by block and place. */
bool sl_log_swatches(sl_log *log, const char *test, sl_log_swatch **swatches, int *n, sl_error *error);

/* ---- what happened (log_events.c) ------------------------------------------------------------------- */

/* Keep an event; on return it is on the disk. event->id is filled when it is "". note: NULL or up to
 * SL_LOG_TITLE - 1 bytes. swatches: of the test, as sl_log_swatches gave them. */
bool sl_log_append(sl_log *log, const char *test, const sl_log_swatch *swatches, int n_swatches,
                   sl_event *event, const char *note, sl_error *error);
/* All of a test's events, in the order in which they were kept; freed with sl_free() of
 * base/memory.h. */
bool sl_log_events(sl_log *log, const char *test, const sl_log_swatch *swatches, int n_swatches,
                   sl_event **events, int *n, sl_error *error);

/* A random UUID (RFC 9562, version 4). */
void sl_uuid_make(char id[SL_UUID]);

#pragma GCC visibility pop

#endif
