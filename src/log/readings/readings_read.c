/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Readings out of the log.
 */
#include <stdio.h>
#include <string.h>

#include "base/language.h"
#include "base/memory.h"
#include "log/readings/reading_pull.h"
#include "log/store/rescue.h"
#include "log/store/rows.h"
#include "log/store/tables.h"
#include "log/store/writer.h"

enum { FIRST = 5 }; /* columns of reading, swatch and test before those of the reading */
enum { LEFT_OUT_MOST = 1000 };

/* A later one replaces an earlier one, so that no two can hide each other. A reading without a swatch or a
 * zone is given too, to be left out and told. */
static sl_statement ask_readings(sl_log *log, const char *test, bool latest, sl_error *error)
{
    char names[700], table[SL_ROWS], text[1400 + SL_ROWS];
    sl_column_names("r.", names, sizeof names);
    snprintf(text, sizeof text,
             "SELECT r.kept, z.test, s.code, s.arm, s.block, %s FROM %s r LEFT JOIN swatch s ON"
             " s.id = r.swatch LEFT JOIN zone z ON z.test = s.test AND z.name = r.zone WHERE r.kept > ?2 AND "
             "(?1 IS NULL OR s.test = ?1 OR s.test IS NULL)%s"
             " ORDER BY r.kept",
             names, sl_rows_of("main", "reading", log->version, table),
             latest ? " AND NOT EXISTS (SELECT 1 FROM reading c WHERE c.replaces = r.id AND c.kept > r.kept)"
                    : "");
    sl_statement ask = sl_sql(log, text, error);
    sl_put_text(&ask, test);
    return ask;
}

static void refuse_unfit(sl_log *log, sl_error *error)
{
    sl_fail_at(error, SL_ERR_DAMAGED, log->path, 0, 0,
               _("more readings than 1000 hold what slowlift does not keep"),
               _("slowlift log rescue copies the others into a new log"));
}

sl_reading_pull sl_readings_pull(sl_log *log, const char *test, sl_error *error)
{
    return (sl_reading_pull){.log = log, .test = test, .last = INT64_MIN, .error = error};
}

/* What stands in the row: 1; 0: this program would not have kept it; -1: too many of them. */
static int read_row(sl_reading_pull *pull)
{
    sl_statement *const ask = &pull->ask;
    const int64_t kept = sl_int_at(ask, 0);
    const bool in_order = kept > pull->last && sl_row_number_fits(kept);
    pull->last = kept;
    bool fits =
        in_order && !sl_null_at(ask, 1) && !sl_row_unfit(ask, FIRST, sl_reading_columns, SL_READING_COLUMNS);
    if (fits) {
        sl_columns_get(ask, FIRST, &pull->reading);
        fits = sl_reading_check(&pull->reading, NULL);
    }
    if (!fits) {
        if (!sl_log_leave_out(pull->log, kept, pull->error)) {
            return -1;
        }
        if (pull->log->n_left_out > LEFT_OUT_MOST) {
            refuse_unfit(pull->log, pull->error);
            return -1;
        }
        return 0;
    }
    pull->swatch = (sl_log_swatch){.block = (int)sl_int_at(ask, 4)};
    sl_copy_at(ask, 1, pull->of_test, sizeof pull->of_test);
    sl_copy_at(ask, 2, pull->swatch.bench.code, sizeof pull->swatch.bench.code);
    sl_copy_at(ask, 3, pull->swatch.arm, sizeof pull->swatch.arm);
    memcpy(pull->swatch.id, pull->reading.swatch, sizeof pull->swatch.id);
    return 1;
}

bool sl_readings_leave(sl_reading_pull *pull)
{
    const bool asks = pull->asks;
    pull->asks = false;
    return !asks || sl_sql_leave(&pull->ask);
}

int sl_reading_next(sl_reading_pull *pull)
{
    for (;;) {
        if (!pull->asks) {
            pull->ask = ask_readings(pull->log, pull->test, pull->latest, pull->error);
            sl_put_int(&pull->ask, pull->last);
            pull->asks = true;
        }
        int found = 0;
        while (found == 0 && sl_next_row(&pull->ask)) {
            found = read_row(pull);
        }
        if (found > 0) {
            return 1;
        }
        const bool broke = pull->ask.bad; /* a page could not be read; all before it was given */
        if (sl_readings_leave(pull) && found == 0) {
            return 0;
        }
        if (!broke || pull->fell_back || !sl_log_fall_back(pull->log, pull->error)) {
            return -1;
        }
        pull->fell_back = true;
    }
}

static bool visit_each(sl_reading_pull *pull, sl_log_visit *visit, void *self)
{
    int found = 0;
    while ((found = sl_reading_next(pull)) > 0) {
        if (visit && !visit(self, &pull->reading, &pull->swatch, pull->of_test, pull->error)) {
            sl_readings_leave(pull);
            return false;
        }
    }
    return found == 0;
}

bool sl_log_each_reading(sl_log *log, const char *test, sl_log_visit *visit, void *self, sl_error *error)
{
    sl_reading_pull pull = sl_readings_pull(log, test, error);
    return visit_each(&pull, visit, self);
}

bool sl_log_each_latest(sl_log *log, const char *test, sl_log_visit *visit, void *self, sl_error *error)
{
    sl_reading_pull pull = sl_readings_pull(log, test, error);
    pull.latest = true;
    return visit_each(&pull, visit, self);
}

typedef struct sl_gathered {
    sl_log_reading *rows;
    size_t n, capacity;
} sl_gathered;

static bool gather(void *self, const sl_log_reading *reading, const sl_log_swatch *swatch, const char *test,
                   sl_error *error)
{
    sl_gathered *const all = self;
    (void)swatch;
    (void)test;
    if (!sl_grow(&all->rows, &all->capacity, all->n + 1, sizeof *all->rows, "reading the log", error)) {
        return false;
    }
    all->rows[all->n++] = *reading;
    return true;
}

bool sl_log_readings(sl_log *log, const char *test, sl_log_reading **readings, int *n, sl_error *error)
{
    sl_gathered all = {.rows = NULL};
    if (!sl_log_each_latest(log, test, gather, &all, error)) {
        sl_free(all.rows);
        return false;
    }
    *readings = all.rows;
    *n = (int)all.n;
    return true;
}
