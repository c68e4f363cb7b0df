/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What is still to be done about a test after its day: hair is looked at again a day after the rinse and
 * after the next wash, when colour may have come back, and what was left over is emptied.
 */
#ifndef SLOWLIFT_LOG_DUE_H
#define SLOWLIFT_LOG_DUE_H

#include "report/plan/day.h"
#include "slowlift/log.h"

/* A look after so many hours is the one of the next day; one so many hours after that is the one after the
 * next wash. What nobody did for so many days is no longer called for. (assumed) */
enum { SL_DUE_DAY_H = 18, SL_DUE_WASH_H = 12, SL_DUE_DAYS = 28 };

typedef enum sl_log_due_kind {
    SL_LOG_DUE_EMPTY, /* a leftover that stands open */
    SL_LOG_DUE_DAY,
    SL_LOG_DUE_WASH, /* whenever that is */
    SL_LOG_DUES
} sl_log_due_kind;

typedef struct sl_log_due {
    sl_log_due_kind kind;
    int day;      /* from which on, days since 1970-01-01 */
    char code[8]; /* of the swatch */
} sl_log_due;

/* All of one test, by kind and day, what becomes due later too; a rehearsal owes nothing. today: sl_today().
 * Freed with sl_free() of base/memory.h. */
bool sl_log_due_read(sl_log *log, const char *test, int today, sl_log_due **due, int *n, sl_error *error);
/* The same of what is read already: `n_swatches` that are folded in `bench`, 0 of a rehearsal. */
bool sl_log_due_of(const sl_bench *bench, const sl_log_swatch *swatches, int n_swatches,
                   const sl_log_reading *readings, int n_readings, int today, sl_log_due **due, int *n,
                   sl_error *error);
/* The same of a day in memory, into went->due; readings: those that none replaces. */
void sl_log_due_after(sl_day_went *went, const sl_log_swatch *swatches, const sl_log_reading *readings,
                      int n_readings);
/* The sentence of the first of n and of those that are due alike: "Look again at KV3, CJ3 ...". Returns how
 * many it tells, so that the next sentence begins there. */
int sl_log_due_words(const sl_log_due *due, int n, int today, char *text, size_t size);

#endif
