/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Readings out of the log, and what they come to.
 */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/memory.h"
#include "log/reading_columns.h"

enum { FIRST = 4 }; /* columns of swatch and test before those of the reading */

static sl_statement ask_readings(sl_log *log, const char *test, bool latest, sl_error *error)
{
    char names[700], text[1400];
    sl_column_names("r.", names, sizeof names);
    snprintf(text, sizeof text,
             "SELECT s.test, s.code, s.arm, s.block, %s FROM reading r JOIN swatch s ON s.id = r.swatch"
             " WHERE (?1 IS NULL OR s.test = ?1)%s ORDER BY r.kept",
             names, latest ? " AND NOT EXISTS (SELECT 1 FROM reading c WHERE c.replaces = r.id)" : "");
    sl_statement ask = sl_sql(log, text, error);
    sl_put_text(&ask, test);
    return ask;
}

bool sl_log_each_reading(sl_log *log, const char *test, sl_log_visit *visit, void *self, sl_error *error)
{
    sl_statement ask = ask_readings(log, test, false, error);
    bool goes_on = true;
    while (goes_on && sl_next_row(&ask)) {
        char id[SL_UUID];
        sl_log_reading reading;
        sl_log_swatch swatch = {.block = (int)sl_int_at(&ask, 3)};
        sl_copy_at(&ask, 0, id, sizeof id);
        sl_copy_at(&ask, 1, swatch.bench.code, sizeof swatch.bench.code);
        sl_copy_at(&ask, 2, swatch.arm, sizeof swatch.arm);
        sl_columns_get(&ask, FIRST, &reading);
        memcpy(swatch.id, reading.swatch, sizeof swatch.id);
        goes_on = visit(self, &reading, &swatch, id, error);
    }
    return sl_sql_leave(&ask) && goes_on;
}

bool sl_log_readings(sl_log *log, const char *test, sl_log_reading **readings, int *n, sl_error *error)
{
    sl_log_reading *rows = NULL;
    size_t capacity = 0, count = 0;
    bool room = true;
    sl_statement ask = ask_readings(log, test, true, error);
    while (room && sl_next_row(&ask)) {
        room = sl_grow(&rows, &capacity, count + 1, sizeof *rows, "reading the log", error);
        if (room) {
            sl_columns_get(&ask, FIRST, &rows[count++]);
        }
    }
    if (!sl_sql_leave(&ask) || !room) {
        sl_free(rows);
        return false;
    }
    *readings = rows;
    *n = (int)count;
    return true;
}

/* ---- means ----------------------------------------------------------------------------------------------
 */

/* "CASE grade WHEN 'no change' THEN 1 ... END" from the one table of grades. */
static void share_words(char *text, size_t size)
{
    size_t used = (size_t)snprintf(text, size, "CASE r.grade");
    for (int i = 0; i < SL_WIPES && used < size; i++) {
        used += (size_t)snprintf(text + used, size - used, " WHEN '%s' THEN %d / 100.0",
                                 sl_wipe_word((sl_wipe)i), (int)(100.0 * sl_wipe_share((sl_wipe)i) + 0.5));
    }
    if (used < size) {
        snprintf(text + used, size - used, " END");
    }
}

/* Variance from sums: at most 12 swatches of shares between 0 and 1, so nothing cancels that counts. */
static sl_statement ask_means(sl_log *log, const char *test, sl_error *error)
{
    char share[320], text[1600];
    share_words(share, sizeof share);
    snprintf(
        text, sizeof text,
        "WITH each AS (SELECT s.arm AS arm, r.zone AS zone, count(*) AS n, avg(%s) AS seen,"
        " avg(r.L) AS L, avg(r.a) AS a, avg(r.b) AS b FROM swatch s CROSS JOIN reading r ON r.swatch = s.id"
        " WHERE s.test = ?1 AND r.minute IS NULL AND r.hours_after IS NULL AND r.outcome IS NOT 'invalid'"
        " AND NOT EXISTS (SELECT 1 FROM reading c WHERE c.replaces = r.id) GROUP BY s.id, r.zone)"
        " SELECT arm, zone, sum(n), count(*), avg(seen), count(seen), avg(seen * seen), avg(L), avg(a),"
        " avg(b) FROM each GROUP BY arm, zone"
        " ORDER BY (SELECT place FROM zone z WHERE z.test = ?1 AND z.name = zone),"
        " avg(seen) IS NULL, avg(seen), arm",
        share);
    sl_statement ask = sl_sql(log, text, error);
    sl_put_text(&ask, test);
    return ask;
}

static double real_or_not(sl_statement *ask, int column)
{
    return sl_null_at(ask, column) ? SL_NOT_READ : sl_real_at(ask, column);
}

static void mean_at(sl_statement *ask, sl_log_mean *mean)
{
    const double seen = real_or_not(ask, 4), squares = sl_real_at(ask, 6);
    const int with_grade = (int)sl_int_at(ask, 5);
    *mean = (sl_log_mean){.n_readings = (int)sl_int_at(ask, 2),
                          .n_swatches = (int)sl_int_at(ask, 3),
                          .left = seen,
                          .left_sd = SL_NOT_READ,
                          .L = real_or_not(ask, 7),
                          .a = real_or_not(ask, 8),
                          .b = real_or_not(ask, 9)};
    if (with_grade > 1) {
        mean->left_sd = sqrt(fmax(squares - seen * seen, 0.0) * with_grade / (with_grade - 1));
    }
    sl_copy_at(ask, 0, mean->arm, sizeof mean->arm);
    sl_copy_at(ask, 1, mean->zone, sizeof mean->zone);
}

bool sl_log_means(sl_log *log, const char *test, sl_log_mean **means, int *n, sl_error *error)
{
    sl_log_mean *rows = NULL;
    size_t capacity = 0, count = 0;
    bool room = true;
    sl_statement ask = ask_means(log, test, error);
    while (room && sl_next_row(&ask)) {
        room = sl_grow(&rows, &capacity, count + 1, sizeof *rows, "reading the log", error);
        if (room) {
            mean_at(&ask, &rows[count++]);
        }
    }
    if (!sl_sql_leave(&ask) || !room) {
        sl_free(rows);
        return false;
    }
    *means = rows;
    *n = (int)count;
    return true;
}
