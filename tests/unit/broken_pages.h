/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A log of four hundred readings on many pages, for suites that break it: what it holds, and what a copy of
 * it does.
 */
#ifndef SLOWLIFT_TESTS_BROKEN_PAGES_H
#define SLOWLIFT_TESTS_BROKEN_PAGES_H

#include <check.h>
#include <sqlite3.h>
#include <stdio.h>
#include <string.h>

#include "log_made.h"

enum { READINGS = 400, PAGE = 4096 };

static sl_log_made made;

static inline void fill_log(void)
{
    static sl_log_reading readings[READINGS];
    log_made_begin(&made);
    for (int i = 0; i < READINGS; i++) {
        readings[i] = log_made_reading(&made, i % made.n, "red", (sl_wipe)(i % SL_WIPES));
        readings[i].minute = i;
        snprintf(readings[i].note, sizeof readings[i].note, "number %d of the day, with some words more", i);
    }
    ck_assert(sl_log_add(made.log, readings, READINGS, NULL));
    sl_log_close(made.log);
    made.log = NULL;
}

static inline void end_log(void)
{
    ck_assert(sl_log_open(&made.log, made.path, SL_LOG_READ, NULL)); /* log_made_end closes it */
    log_made_end(&made);
}

/* Minutes of the readings of a log, in order; -1 when it cannot be asked. Each must be as it was put in. */
static inline int minutes_of(const char *path, int minutes[READINGS])
{
    sqlite3 *base = NULL;
    sqlite3_stmt *ask = NULL;
    int n = 0;
    ck_assert_int_eq(sqlite3_open_v2(path, &base, SQLITE_OPEN_READONLY, NULL), SQLITE_OK);
    ck_assert_int_eq(
        sqlite3_prepare_v2(base, "SELECT minute, note, grade FROM reading ORDER BY kept", -1, &ask, NULL),
        SQLITE_OK);
    while (sqlite3_step(ask) == SQLITE_ROW) {
        char note[80];
        const int minute = sqlite3_column_int(ask, 0);
        snprintf(note, sizeof note, "number %d of the day, with some words more", minute);
        ck_assert_str_eq((const char *)sqlite3_column_text(ask, 1), note);
        ck_assert_str_eq((const char *)sqlite3_column_text(ask, 2),
                         sl_wipe_word((sl_wipe)(minute % SL_WIPES)));
        ck_assert_int_lt(n, READINGS);
        minutes[n++] = minute;
    }
    sqlite3_finalize(ask);
    sqlite3_close(base);
    return n;
}

static inline long long rows_of(const char *path)
{
    static const char *const tables[] = {"test", "scene_file", "swatch", "reading", "event", "zone"};
    sqlite3 *base = NULL;
    long long rows = 0;
    ck_assert_int_eq(sqlite3_open_v2(path, &base, SQLITE_OPEN_READONLY, NULL), SQLITE_OK);
    for (size_t i = 0; i < sizeof tables / sizeof tables[0]; i++) {
        char text[80];
        sqlite3_stmt *ask = NULL;
        snprintf(text, sizeof text, "SELECT count(*) FROM %s", tables[i]);
        if (sqlite3_prepare_v2(base, text, -1, &ask, NULL) == SQLITE_OK && sqlite3_step(ask) == SQLITE_ROW) {
            rows += sqlite3_column_int64(ask, 0);
        }
        sqlite3_finalize(ask);
    }
    sqlite3_close(base);
    return rows;
}

static inline void hear(void *self, bool bad, const char *words)
{
    (void)words;
    *(int *)self += bad ? 1 : 0;
}

static inline long length_of(const char *path)
{
    FILE *const file = fopen(path, "rb");
    ck_assert_ptr_nonnull(file);
    fseek(file, 0, SEEK_END);
    const long length = ftell(file);
    fclose(file);
    ck_assert_int_eq((int)(length % PAGE), 0);
    return length;
}

static inline void destroy_page(const char *whole, long length, long page)
{
    static unsigned char bytes[PAGE];
    FILE *const from = fopen(whole, "rb"), *const to = fopen(made.other, "wb");
    ck_assert(from && to);
    for (long at = 0; at < length; at += PAGE) {
        ck_assert_uint_eq(fread(bytes, 1, PAGE, from), PAGE);
        for (int i = 0; at / PAGE == page && i < PAGE; i++) {
            bytes[i] = 0xEE;
        }
        ck_assert_uint_eq(fwrite(bytes, 1, PAGE, to), PAGE);
    }
    fclose(from);
    ck_assert_int_eq(fclose(to), 0);
}

#endif
