/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See due.h.
 */
#include "log/day/due.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/calendar.h"
#include "base/language.h"
#include "base/memory.h"
#include "log/day/rounds.h"
#include "report/plan/day.h"

static const char doing[] = "finding what is due";

typedef struct sl_owing {
    const sl_log_swatch *swatches;  /* [n] */
    const sl_log_reading *readings; /* [n_readings] */
    const sl_bench *bench;          /* of the swatches */
    int n, n_readings, today;
} sl_owing;

/* Hours after the water of the first look from `least` on; INFINITY: none. */
static double looked_after_h(const sl_owing *owing, int swatch, double least)
{
    double first = HUGE_VAL;
    for (int i = 0; i < owing->n_readings; i++) {
        const sl_log_reading *const reading = &owing->readings[i];
        if (reading->hours_after >= least && strcmp(reading->swatch, owing->swatches[swatch].id) == 0) {
            first = fmin(first, reading->hours_after);
        }
    }
    return first;
}

static void put(const sl_owing *owing, sl_log_due_kind kind, int swatch, int day, sl_log_due *due, int *n)
{
    if (owing->today - day < SL_DUE_DAYS) {
        sl_log_due *const one = &due[(*n)++];
        *one = (sl_log_due){.kind = kind, .day = day};
        memcpy(one->code, owing->swatches[swatch].bench.code, sizeof one->code);
    }
}

static void find(const sl_owing *owing, int swatch, sl_log_due *due, int *n)
{
    const sl_bench_state *const state = &owing->bench->state[swatch];
    if (state->left_open && !state->emptied) {
        put(owing, SL_LOG_DUE_EMPTY, swatch, sl_day_of_instant(&state->contact), due, n);
    }
    if (state->stage != SL_STAGE_RINSED) {
        return;
    }
    const int day = sl_day_of_instant(&state->water) + 1;
    const double looked_h = looked_after_h(owing, swatch, SL_DUE_DAY_H);
    if (isinf(looked_h)) {
        put(owing, SL_LOG_DUE_DAY, swatch, day, due, n);
    }
    if (isinf(looked_h) || isinf(looked_after_h(owing, swatch, looked_h + SL_DUE_WASH_H))) {
        put(owing, SL_LOG_DUE_WASH, swatch, day, due, n);
    }
}

static int by_kind_and_day(const void *one, const void *other)
{
    const sl_log_due *const a = one, *const b = other;
    return a->kind != b->kind ? (a->kind > b->kind) - (a->kind < b->kind)
           : a->day != b->day ? (a->day > b->day) - (a->day < b->day)
                              : strcmp(a->code, b->code);
}

static bool find_all(const sl_owing *owing, sl_log_due **due, int *n, sl_error *error)
{
    sl_log_due *const found = sl_new((size_t)owing->n * SL_LOG_DUES + 1, sizeof *found, doing, error);
    *n = 0;
    for (int i = 0; found && i < owing->n; i++) {
        find(owing, i, found, n);
    }
    if (found) {
        qsort(found, (size_t)*n, sizeof *found, by_kind_and_day);
    }
    *due = found;
    return found != NULL;
}

/* All of a test that has to be read. */
typedef struct sl_owing_rows {
    sl_log_swatch *swatches;
    sl_event *events;
    sl_log_reading *readings;
    sl_bench_swatch *plan;
    sl_bench *bench;
    int n, n_events, n_readings;
} sl_owing_rows;

static bool read_rows(sl_owing_rows *rows, sl_log *log, const char *test, sl_error *error)
{
    return sl_log_swatches(log, test, &rows->swatches, &rows->n, error) && sl_day_holds(rows->n, error) &&
           sl_log_events(log, test, rows->swatches, rows->n, &rows->events, &rows->n_events, error) &&
           sl_log_readings(log, test, &rows->readings, &rows->n_readings, error);
}

bool sl_log_due_read(sl_log *log, const char *test, int today, sl_log_due **due, int *n, sl_error *error)
{
    sl_owing_rows rows = {.n = 0};
    sl_error why = {.code = SL_OK};
    double speed = 0.0;
    bool good = sl_log_rehearsal(log, test, &speed, error) && read_rows(&rows, log, test, error);
    sl_scene *const scene = good ? sl_log_scene(log, test, &why) : NULL;
    good = good && (why.code != SL_ERR_NO_MEMORY || sl_fail(error, why.code, why.found, why.wanted));
    good = good && sl_rounds_fold(scene, rows.swatches, rows.n, rows.events, rows.n_events, &rows.plan,
                                  &rows.bench, error);
    if (good) { /* where the scene cannot be read, a swatch has one application */
        good = find_all(&(sl_owing){rows.swatches, rows.readings, rows.bench, speed > 0.0 ? 0 : rows.n,
                                    rows.n_readings, today},
                        due, n, error);
    }
    sl_scene_free(scene);
    sl_free(rows.bench);
    sl_free(rows.plan);
    sl_free(rows.readings);
    sl_free(rows.events);
    sl_free(rows.swatches);
    return good;
}

bool sl_log_due_of(const sl_bench *bench, const sl_log_swatch *swatches, int n_swatches,
                   const sl_log_reading *readings, int n_readings, int today, sl_log_due **due, int *n,
                   sl_error *error)
{
    return find_all(&(sl_owing){swatches, readings, bench, n_swatches, n_readings, today}, due, n, error);
}

void sl_log_due_after(sl_day_went *went, const sl_log_swatch *swatches, const sl_log_reading *readings,
                      int n_readings)
{
    sl_log_due *due = NULL;
    int today = 0, n = 0;
    went->n_due = 0;
    if (!went->rehearsed && sl_today(&today, NULL) &&
        find_all(&(sl_owing){swatches, readings, went->bench, went->record.n, n_readings, today}, &due, &n,
                 NULL)) {
        for (int told = 0; told < n && went->n_due < SL_DAY_DUE_SAID;) {
            told += sl_log_due_words(due + told, n - told, today, went->due[went->n_due++], SL_DAY_WORDS);
        }
    }
    sl_free(due);
}

static void put_sentence(const sl_log_due *due, int today, const char *codes, char *text, size_t size)
{
    char day[SL_DAY_TEXT];
    sl_day_words(due->day, day);
    switch (due->kind) {
    case SL_LOG_DUE_EMPTY:
        snprintf(text, size, _("Empty what was left over once it is quiet, never closed: %s."), codes);
        return;
    case SL_LOG_DUE_DAY:
        snprintf(text, size,
                 due->day > today
                     ? _("Look again on %s, a day after the rinse: %s. Colour may come back.")
                     : _("Look again, due since %s, a day after the rinse: %s. Colour may come back."),
                 day, codes);
        return;
    case SL_LOG_DUE_WASH:
        snprintf(text, size, _("Look again after the next wash: %s. Colour may come back."), codes);
        return;
    case SL_LOG_DUES:
        return;
    }
}

int sl_log_due_words(const sl_log_due *due, int n, int today, char *text, size_t size)
{
    const char *code[SL_DAY_CODES];
    char codes[SL_DAY_CODES_TEXT];
    int alike = 0;
    while (alike < n && due[alike].kind == due[0].kind &&
           (due[alike].day == due[0].day || due[0].kind != SL_LOG_DUE_DAY)) {
        if (alike < SL_DAY_CODES) {
            code[alike] = due[alike].code;
        }
        alike++;
    }
    if (alike > 0) {
        sl_day_codes(code, alike, codes, sizeof codes);
        put_sentence(due, today, codes, text, size);
    }
    return alike;
}
