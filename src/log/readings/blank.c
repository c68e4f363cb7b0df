/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Rows to fill in: one for each swatch, zone and planned look, and one for its end. Invariant: each has an id
 * of its own, so that a file that is taken in twice, half filled and then full, is kept once; and no arm,
 * since a judge should not know it.
 */
#include <stdio.h>
#include <string.h>

#include "base/memory.h"
#include "document/say.h"
#include "log/readings/kept_bench.h"
#include "log/store/export.h"

/* What is read while it is told, and where the next row stands. */
typedef struct sl_blank_reader {
    sl_log *log;
    sl_error *error;
    sl_log_test *tests; /* [n_tests] */
    int n_tests;
    const char *only; /* this test; NULL: all */
    sl_bench_kept bench;
    int test, swatch, zone, look;
} sl_blank_reader;

typedef struct sl_blank_source {
    sl_blank_reader *reader;
} sl_blank_source;

/* Those while the mix is on; the last piece of a ladder is the end. */
static int looks_of(const sl_bench_swatch *bench)
{
    int n = 0;
    while (bench->contact_s >= 0 && n < bench->n_looks && bench->look_s[n] < bench->dwell_s) {
        n++;
    }
    return n;
}

/* 1: at a row; 0: there are no more; -1: failed. */
static int settle(sl_blank_reader *reader)
{
    sl_bench_kept *const bench = &reader->bench;
    while (reader->swatch == bench->n_swatches || bench->n_zones == 0) {
        sl_bench_forget(bench);
        reader->swatch = reader->zone = reader->look = 0;
        if (++reader->test >= reader->n_tests) {
            return 0;
        }
        const char *const id = reader->tests[reader->test].id;
        if ((!reader->only || strcmp(reader->only, id) == 0) &&
            !sl_bench_read(reader->log, id, bench, reader->error)) {
            return -1;
        }
    }
    return 1;
}

static void step(sl_blank_reader *reader, int n_looks)
{
    if (++reader->look > n_looks) {
        reader->look = 0;
        if (++reader->zone == reader->bench.n_zones) {
            reader->zone = 0;
            reader->swatch++;
        }
    }
}

#define BLANK(SAY)                                                                                           \
    SAY(text, "test", bench->id)                                                                             \
    SAY(text, "swatch", swatch->code)                                                                        \
    SAY(text, "zone", bench->zones[reader->zone])                                                            \
    SAY(planned, "minute", minute)                                                                           \
    SAY(text, "judge", NULL)                                                                                 \
    SAY(text, "grade", NULL)                                                                                 \
    SAY(text, "cotton", NULL)                                                                                \
    SAY(text, "feel", NULL)                                                                                  \
    SAY(text, "stretch", NULL)                                                                               \
    SAY(text, "outcome", NULL)                                                                               \
    SAY(text, "note", NULL)                                                                                  \
    SAY(words, "id", "%s", id)                                                                               \
    SAY(text, "level", NULL)

static sl_told tell_blank(sl_row *row, const sl_table *table)
{
    sl_blank_reader *const reader = ((const sl_blank_source *)table->of)->reader;
    const int there = settle(reader);
    if (there <= 0) {
        return there == 0 ? SL_NO_MORE : SL_NOT_TOLD;
    }
    const sl_bench_kept *const bench = &reader->bench;
    const sl_bench_swatch *const swatch = &bench->swatches[reader->swatch].bench;
    const int n_looks = looks_of(swatch);
    const double minute =
        sl_if_known(reader->look < n_looks, swatch->look_s[reader->look % SL_BENCH_LOOKS] / 60.0);
    char id[SL_UUID];
    sl_uuid_make(id);
    BLANK(SL_SAY)
    step(reader, n_looks);
    return SL_TOLD;
}

static const sl_columns blanks = SL_COLUMNS(BLANK(SL_COLUMN), .tell = tell_blank, .semicolons = true);
const sl_export sl_log_blank_export = {"log-blank", 1, NULL, &blanks};

bool sl_log_blank_csv(sl_log *log, const char *test, FILE *out, sl_error *error)
{
    sl_blank_reader reader = {.log = log, .error = error, .only = test, .test = -1};
    const sl_blank_source source = {&reader};
    const bool good = sl_log_tests(log, &reader.tests, &reader.n_tests, error) &&
                      sl_export_csv(out, &sl_log_blank_export, &source);
    sl_bench_forget(&reader.bench);
    sl_free(reader.tests);
    return good;
}
