/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Readings out of the log.
 */
#include <stdio.h>
#include <string.h>

#include "base/language.h"
#include "base/memory.h"
#include "log/store/rescue.h"
#include "log/store/rows.h"
#include "log/store/writer.h"

enum { FIRST = 5 }; /* columns of reading, swatch and test before those of the reading */
enum { LEFT_OUT_MOST = 1000 };

/* A later one replaces an earlier one, so that no two can hide each other. A reading without a swatch or a
 * zone is given too, to be left out and told. */
static sl_statement ask_readings(sl_log *log, const char *test, bool latest, sl_error *error)
{
    char names[700], text[1400];
    sl_column_names("r.", names, sizeof names);
    snprintf(text, sizeof text,
             "SELECT r.kept, z.test, s.code, s.arm, s.block, %s FROM reading r LEFT JOIN swatch s ON"
             " s.id = r.swatch LEFT JOIN zone z ON z.test = s.test AND z.name = r.zone WHERE r.kept > ?2 AND "
             "(?1 IS NULL OR s.test = ?1 OR s.test IS NULL)%s"
             " ORDER BY r.kept",
             names,
             latest ? " AND NOT EXISTS (SELECT 1 FROM reading c WHERE c.replaces = r.id AND c.kept > r.kept)"
                    : "");
    sl_statement ask = sl_sql(log, text, error);
    sl_put_text(&ask, test);
    return ask;
}

static bool refuse_unfit(sl_log *log, sl_error *error)
{
    return sl_fail_at(error, SL_ERR_DAMAGED, log->path, 0, 0,
                      _("more readings than 1000 hold what slowlift does not keep"),
                      _("slowlift log rescue copies the others into a new log"));
}

typedef struct sl_pass {
    sl_log *log;
    const char *test;
    bool latest;
    int64_t last; /* `kept` of the last one */
    sl_log_visit *visit;
    void *self;
    sl_error *error;
} sl_pass;

static bool visit_row(sl_pass *pass, sl_statement *ask)
{
    char id[SL_UUID];
    sl_log_reading reading;
    sl_log_swatch swatch = {.block = (int)sl_int_at(ask, 4)};
    const int64_t kept = sl_int_at(ask, 0);
    const bool in_order = kept > pass->last && sl_row_number_fits(kept);
    pass->last = kept;
    bool fits =
        in_order && !sl_null_at(ask, 1) && !sl_row_unfit(ask, FIRST, sl_reading_columns, SL_READING_COLUMNS);
    if (fits) {
        sl_columns_get(ask, FIRST, &reading);
        fits = sl_reading_check(&reading, NULL);
    }
    if (!fits) {
        if (!sl_log_leave_out(pass->log, kept, pass->error)) {
            return false;
        }
        if (pass->log->n_left_out > LEFT_OUT_MOST) {
            return refuse_unfit(pass->log, pass->error);
        }
        return true;
    }
    sl_copy_at(ask, 1, id, sizeof id);
    sl_copy_at(ask, 2, swatch.bench.code, sizeof swatch.bench.code);
    sl_copy_at(ask, 3, swatch.arm, sizeof swatch.arm);
    memcpy(swatch.id, reading.swatch, sizeof swatch.id);
    return !pass->visit || pass->visit(pass->self, &reading, &swatch, id, pass->error);
}

/* *broke: a page could not be read; all before it was given. */
static bool pass_on(sl_pass *pass, bool *broke)
{
    sl_statement ask = ask_readings(pass->log, pass->test, pass->latest, pass->error);
    bool goes_on = true;
    sl_put_int(&ask, pass->last);
    while (goes_on && sl_next_row(&ask)) {
        goes_on = visit_row(pass, &ask);
    }
    *broke = ask.bad;
    return sl_sql_leave(&ask) && goes_on;
}

static bool pass_all(sl_pass *pass)
{
    bool broke = false;
    return pass_on(pass, &broke) ||
           (broke && sl_log_fall_back(pass->log, pass->error) && pass_on(pass, &broke));
}

bool sl_log_each_reading(sl_log *log, const char *test, sl_log_visit *visit, void *self, sl_error *error)
{
    sl_pass pass = {
        .log = log, .test = test, .last = INT64_MIN, .visit = visit, .self = self, .error = error};
    return pass_all(&pass);
}

bool sl_log_each_latest(sl_log *log, const char *test, sl_log_visit *visit, void *self, sl_error *error)
{
    sl_pass pass = {.log = log,
                    .test = test,
                    .latest = true,
                    .last = INT64_MIN,
                    .visit = visit,
                    .self = self,
                    .error = error};
    return pass_all(&pass);
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
