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
#include <stdint.h>
#include <stdio.h>

#include "slowlift/clock.h"
#include "slowlift/error.h"
#include "slowlift/observation.h"
#include "slowlift/plan.h"
#include "slowlift/scene.h"

#pragma GCC visibility push(default)

enum {
    SL_LOG_VERSION = 6, /* of the tables: PRAGMA user_version */
    SL_LOG_CODE = SL_CODE,
    SL_LOG_TITLE = 201, /* of a title, a note */
    SL_SHA256_TEXT = 65 /* of a SHA-256 in hexadecimal digits */
};

typedef struct sl_log sl_log;
typedef enum sl_log_how {
    SL_LOG_READ,  /* it must be there */
    SL_LOG_WRITE, /* it must be there */
    SL_LOG_MAKE   /* made when it is not there */
} sl_log_how;

/* Fails: SL_ERR_CANNOT_READ, SL_ERR_CANNOT_WRITE; SL_ERR_NO_LOG for a file that is no log;
 * SL_ERR_STRANGE_LOG where something is to be written and the tables are not exactly those of this program;
 * SL_ERR_DAMAGED; SL_ERR_NEWER_VERSION; SL_ERR_NOT_ALLOWED for a folder on another machine, where SQLite's
 * write-ahead log does not hold. An older log is brought up to date when it is opened for writing, and
 * read as it is when it is only read. */
bool sl_log_open(sl_log **log, const char *path, sl_log_how how, sl_error *error);
void sl_log_close(sl_log *log); /* NULL is allowed */

/* What is acknowledged is in the file, and what is in the file was acknowledged: `receipt` is called when
 * all of a change is in the log and only the end is missing. False: it could not be given, and nothing is
 * kept. For every change from here on. */
typedef bool sl_log_receipt(void *self, sl_error *error);
void sl_log_on_kept(sl_log *log, sl_log_receipt *receipt, void *self);

/* A log that is only read may be damaged, or not as this program makes it: what can be read is copied row
 * by row, and read from the copy. */
typedef struct sl_log_tally {
    long long read;     /* rows that were read */
    long long left_out; /* rows that this program would not have kept */
    long long missing;  /* rows that cannot be read, as far as their numbers tell */
    bool more_missing;  /* and perhaps more */
    char why[160];      /* of the first of them */
} sl_log_tally;
bool sl_log_tally_whole(const sl_log_tally *tally, const char *path, sl_error *error);
/* Whether all that the log holds was read until now; false: SL_ERR_DAMAGED says how much was. */
bool sl_log_whole(const sl_log *log, sl_error *error);

/* ---- tests and their swatches (log_tests.c) -------------------------------------------------------- */

typedef struct sl_log_test {
    char id[SL_UUID];
    char title[SL_LOG_TITLE];
    char operator_code[SL_LOG_CODE];
    char made[32];                     /* ISO 8601 with offset, as "2026-11-25T14:05:30+01:00" */
    char scene_name[SL_LOG_TITLE];     /* as the scene's file was called */
    char scene_sha256[SL_SHA256_TEXT]; /* of the scene's files, in the order in which they were read */
    int model;                         /* under which it was begun (edition.h); 0: not kept */
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
/* The scene as it was, from the files that the log keeps. What a log tells, it tells by the clock: where
 * the scene counts as a head, or a swatch of the test is noted as a strand of somebody's hair, no arm of
 * it is predicted. */
sl_scene *sl_log_scene(sl_log *log, const char *test, sl_error *error);

typedef struct sl_log_swatch {
    char id[SL_UUID];
    char arm[SL_LOG_TITLE]; /* its name in the scene */
    int block, place;       /* from 0 */
    sl_bench_swatch bench;  /* code and times, as planned */
} sl_log_swatch;
/* Of one test, by block and place. */
bool sl_log_swatches(sl_log *log, const char *test, sl_log_swatch **swatches, int *n, sl_error *error);
/* The swatch with this id, -1: none. Rows of a swatch often follow each other: `near`, 0..n - 1, is tried
 * first. */
int sl_log_swatch_of(const sl_log_swatch *swatches, int n, const char *id, int near);

/* ---- what happened (log_events.c) ------------------------------------------------------------------- */

/* Keep an event; on return it is on the disk. event->id is filled when it is "". note: NULL or up to
 * SL_LOG_TITLE - 1 bytes. swatches: of the test, as sl_log_swatches gave them. */
bool sl_log_append(sl_log *log, const char *test, const sl_log_swatch *swatches, int n_swatches,
                   sl_event *event, const char *note, sl_error *error);
/* All of a test's events, in the order in which they were kept; freed with sl_free() of
 * base/memory.h. */
bool sl_log_events(sl_log *log, const char *test, const sl_log_swatch *swatches, int n_swatches,
                   sl_event **events, int *n, sl_error *error);

/* How fast the clock of a test ran in its rehearsal; 0: it was none. Logs of before version 3 told it in
 * words of either language, which are still understood. */
bool sl_log_rehearsal(sl_log *log, const char *test, double *speed, sl_error *error);
/* Whether the day showed what the model says of a swatch; `swatch`: its id. */
bool sl_log_shown(sl_log *log, const char *swatch, bool *shown, sl_error *error);
/* Refuses a rehearsal: it is neither compared nor reported. */
bool sl_log_real(sl_log *log, const char *test, sl_error *error);
/* ---- readings (readings.c) -------------------------------------------------------------------------- */

/* The words of the record form, one list for each question; a grade's are those of observation.h, in order.
 */
#define SL_COTTON_LIST(WORD) WORD("none") WORD("faint") WORD("clear") WORD("strong")
#define SL_FEEL_LIST(WORD)                                                                                   \
    WORD("as untreated") WORD("slightly dry") WORD("rough") WORD("slippery-soft") WORD("gummy")
#define SL_STRETCH_LIST(WORD) WORD("springs back") WORD("slow") WORD("stays long") WORD("breaks")
#define SL_OUTCOME_LIST(WORD)                                                                                \
    WORD("clear") WORD("ghost") WORD("shifted hue") WORD("partial") WORD("none") WORD("invalid")

typedef enum sl_said {
    SL_SAID_GRADE,
    SL_SAID_COTTON,
    SL_SAID_FEEL,
    SL_SAID_STRETCH,
    SL_SAID_OUTCOME,
    SL_SAIDS
} sl_said;
enum { SL_NOT_SAID = -1 };
const char *sl_said_name(sl_said what); /* "grade", "cotton" ... */
/* NULL: no such word. */
const char *sl_said_word(sl_said what, int word);
/* SL_NOT_SAID: no such word. */
int sl_said_of_word(sl_said what, const char *word);

/* Stands for a number that was not read. */
static const double SL_NOT_READ = -1000.0;

enum { SL_LOG_ZONE = 164, SL_LOG_LIGHT = 25 }; /* bytes, the end included */

/* One look at one zone by one judge, or one instrument's mean. */
typedef struct sl_log_reading {
    char id[SL_UUID];        /* "": made when it is added */
    char swatch[SL_UUID];    /* the id in sl_log_swatch */
    char zone[SL_LOG_ZONE];  /* of the scene */
    double minute;           /* since contact, when a piece was wiped or cut; SL_NOT_READ: at the end */
    double hours_after;      /* since the last water, as when it is looked at again; SL_NOT_READ: at once */
    char judge[SL_LOG_CODE]; /* a code, never a name */
    int blind;               /* 1: the judge did not know the arms; 0: did; SL_NOT_SAID */
    char at[40];             /* ISO 8601 with offset; "": now, when it is added */
    int said[SL_SAIDS];      /* which word of each list, or SL_NOT_SAID */
    double L, a, b;          /* CIELAB, all three or none */
    double sd_L, sd_a, sd_b; /* standard deviation of the n */
    int n;                   /* instrument readings behind the mean; 0: not said */
    char illuminant[SL_LOG_LIGHT], observer[SL_LOG_LIGHT], geometry[SL_LOG_LIGHT]; /* "D65", "10", "d/8" */
    double level;                                           /* by eye, on the user's own chart */
    char tone[SL_LOG_LIGHT];                                /* the same */
    char photo[SL_LOG_TITLE], photo_sha256[SL_SHA256_TEXT]; /* a file beside the log, never in it */
    char note[SL_LOG_TITLE];
    char replaces[SL_UUID]; /* the id of the reading that this one corrects; "": none */
    int uncovered;          /* 1: what the model says of it had been shown before it was graded; 0: not;
                               SL_NOT_SAID */
} sl_log_reading;
/* Nothing said, nothing read. */
sl_log_reading sl_log_reading_begin(void);

/* Whether the code of a person can be one: 1 to 32 letters, digits, - _ . and no space, so that no
 * name is kept by habit. what: "the judge's code". */
bool sl_log_code_check(const char *what, const char *code, sl_error *error);
/* Keep n readings, all or none; ids and times that were "" are filled. Fails: SL_ERR_INCONSISTENT for
 * one that says nothing, SL_ERR_MISSING_REFERENCE for a zone that the scene lacks or a reading
 * that is not there to be replaced. */
bool sl_log_add(sl_log *log, sl_log_reading *readings, int n, sl_error *error);
/* The same. *n_there: how many were in the log already with their ids and say the same, so that sending one
 * twice keeps it once; it is told before the receipt is given. */
bool sl_log_add_again(sl_log *log, sl_log_reading *readings, int n, int *n_there, sl_error *error);
/* Every reading of a test (NULL: of all) in the order in which they were kept, corrected ones too,
 * until `visit` returns false, which then also is the result. visit NULL: they are only read, to know that
 * they can be. */
typedef bool sl_log_visit(void *self, const sl_log_reading *reading, const sl_log_swatch *swatch,
                          const char *test, sl_error *error);
bool sl_log_each_reading(sl_log *log, const char *test, sl_log_visit *visit, void *self, sl_error *error);
/* Only those that no later one replaces. */
bool sl_log_each_latest(sl_log *log, const char *test, sl_log_visit *visit, void *self, sl_error *error);
/* The same of one test, at once; freed with sl_free() of base/memory.h. */
bool sl_log_readings(sl_log *log, const char *test, sl_log_reading **readings, int *n, sl_error *error);
/* The SHA-256 of a photo, to be kept beside its path. */
bool sl_photo_hash(const char *path, char hash[SL_SHA256_TEXT], sl_error *error);

/* What a zone of an arm came to: the mean over swatches of each swatch's mean, so that many judges of
 * one swatch are no repeats. Of readings that none replaces, at the end and at once, not called
 * invalid. */
typedef struct sl_log_mean {
    char arm[SL_LOG_TITLE], zone[SL_LOG_ZONE];
    int n_readings, n_swatches;
    double left, left_sd; /* share left by grades (observation.h), spread between swatches; or SL_NOT_READ */
    double L, a, b;       /* or SL_NOT_READ */
} sl_log_mean;
/* By zone in the order of the scene, least left first; freed with sl_free() of base/memory.h. */
bool sl_log_means(sl_log *log, const char *test, sl_log_mean **means, int *n, sl_error *error);

/* ---- to and from other programs (csv_import.c, export.c, merge.c; docs/log.md) ------------------------ */

typedef struct sl_log_count {
    long long tests, swatches, events, readings; /* added */
    long long there;                             /* rows that were there already */
    long long blank;                             /* rows that nobody filled in */
} sl_log_count;

/* Readings from a file of CSV (RFC 4180), whole or not at all; the first cell that is wrong is told
 * with line and column. test: of rows that name none; NULL: the only one. again: a file that was
 * imported before, and whose rows have no ids, is taken once more. */
bool sl_log_import_csv(sl_log *log, const char *path, const char *test, bool again, sl_log_count *count,
                       sl_error *error);
/* All readings, corrected ones too; test: NULL: of all tests. False with SL_OK in *error: the stream failed.
 */
/* Rows to fill in (CSV): one for each swatch, zone and planned look, and one for its end. */
bool sl_log_blank_csv(sl_log *log, const char *test, FILE *out, sl_error *error);
bool sl_log_export_csv(sl_log *log, const char *test, FILE *out, sl_error *error);
/* Tests, swatches, events and readings. */
bool sl_log_export_json(sl_log *log, const char *test, FILE *out, sl_error *error);
/* What another log holds and this one does not, by ids, all or none. Fails: SL_ERR_INCONSISTENT when
 * one id has two contents. */
bool sl_log_merge(sl_log *log, const char *other, sl_log_count *count, sl_error *error);

/* ---- looking over, keeping safe (check.c, backup.c) --------------------------------------------------- */

/* One thing that was found; fault: it should not be so. Texts of the file are shown, not repeated raw. */
typedef void sl_log_tell(void *self, bool fault, const char *sentence);
/* All that can be known of a log: pages, tables, references, rows, times, scenes. *sound: without a fault. */
bool sl_log_check(const char *path, sl_log_tell *tell, void *self, bool *sound, sl_error *error);
/* A copy of the whole log in a new file, read back row by row before it has its name; NULL or the number of
 * rows. Fails with SL_ERR_USAGE where there is a file of that name. */
bool sl_log_backup(const char *path, const char *to, long long *rows, sl_error *error);
/* What can be read of a log in a new one. Fails as sl_log_backup; SL_ERR_DAMAGED where nothing can be. */
bool sl_log_rescue(const char *path, const char *to, sl_log_tally *tally, sl_error *error);

/* An instant in ISO 8601 as RFC 3339 narrows it, with Z or an offset: nanoseconds of UTC since 1970. */
bool sl_time_read(const char *text, int64_t *wall_ns, sl_error *error);

/* A random UUID (RFC 9562, version 4). */
void sl_uuid_make(char id[SL_UUID]);

#pragma GCC visibility pop

#endif
