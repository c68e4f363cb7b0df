/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Strands of people's hair, out of notes, events and readings; see strand_log.h.
 */
#include <stdio.h>
#include <string.h>

#include "base/memory.h"
#include "log/day/rounds.h"
#include "log/store/sql.h"
#include "slowlift/part.h"
#include "slowlift/strand_log.h"

/* One test, while its strands are read. */
typedef struct one_test {
    sl_log *log;
    const sl_log_test *test;
    const sl_scene *asked; /* the scene asked about */
    sl_scene *scene;       /* the test's own */
    sl_log_swatch *swatches;
    sl_strand_note *notes; /* [n] */
    bool *noted;           /* [n] */
    sl_bench_swatch *planned;
    sl_bench *bench;
    sl_event *events;
    sl_log_reading *readings;
    int n, n_events, n_readings;
    bool rehearsed;
} one_test;

/* ---- notes -------------------------------------------------------------------------------------- */

/* *any: one of the test's swatches is somebody's strand. */
static bool read_notes(one_test *one, bool *any, sl_error *error)
{
    sl_statement ask = sl_sql(one->log,
                              "SELECT swatch, note FROM event WHERE test = ?1 AND kind = 'note'"
                              " AND swatch IS NOT NULL" SL_NOT_UNDONE " ORDER BY kept",
                              error);
    sl_put_text(&ask, one->test->id);
    *any = false;
    while (sl_next_row(&ask)) {
        const int i = sl_log_swatch_of(one->swatches, one->n, sl_text_at(&ask, 0), 0);
        if (i >= 0 && sl_strand_note_read(sl_text_at(&ask, 1), &one->notes[i])) {
            one->noted[i] = *any = true;
        }
    }
    return sl_sql_leave(&ask);
}

/* ---- readings --------------------------------------------------------------------------------------- */

static bool said(const sl_log_reading *reading, sl_said what, const char *word)
{
    return reading->said[what] != SL_NOT_SAID && reading->said[what] == sl_said_of_word(what, word);
}

/* Hair that has had enough (common practice, no source). */
static bool is_bad(const sl_log_reading *reading)
{
    return said(reading, SL_SAID_FEEL, "gummy") || said(reading, SL_SAID_STRETCH, "stays long") ||
           said(reading, SL_SAID_STRETCH, "breaks");
}

static bool put_look(sl_strand_record *record, const one_test *one, const sl_log_reading *reading,
                     sl_error *error)
{
    const bool end = reading->minute <= SL_NOT_READ;
    const double minute = end ? record->lay_min : reading->minute;
    const int zone = sl_scene_zone(one->asked, reading->zone);
    if (reading->said[SL_SAID_GRADE] == SL_NOT_SAID || zone < 0 || !sl_zone_direct(one->asked, zone) ||
        !(minute > 0.0) || minute > record->lay_min) {
        return true; /* nothing that was watched */
    }
    if (record->showed.n >= SL_MOST_OBSERVATIONS) {
        return sl_fail(error, SL_ERR_TOO_LARGE, "looks at one strand", "32 graded looks at most");
    }
    record->graded = record->graded || end;
    record->showed.observation[record->showed.n++] = (sl_observation){
        .zone = zone, .minute = minute, .wipe = (sl_wipe)reading->said[SL_SAID_GRADE], .strand = true};
    return true;
}

static bool put_reading(sl_strand_record *record, const one_test *one, const sl_log_reading *reading,
                        sl_error *error)
{
    record->bad = record->bad || is_bad(reading); /* even of one that is called invalid, or hours later */
    if (reading->hours_after > SL_NOT_READ || said(reading, SL_SAID_OUTCOME, "invalid")) {
        return true;
    }
    if (reading->minute <= SL_NOT_READ) {
        record->stretched = record->stretched || reading->said[SL_SAID_STRETCH] != SL_NOT_SAID;
        record->felt = record->felt || reading->said[SL_SAID_FEEL] != SL_NOT_SAID;
    }
    return put_look(record, one, reading, error);
}

/* ---- one strand --------------------------------------------------------------------------------------- */

static uint64_t mix_of(const one_test *one, int swatch)
{
    const int arm = sl_scene_arm(one->scene, one->swatches[swatch].arm);
    return arm < 0 ? 0 : sl_arm_fingerprint(one->scene, arm);
}

static void put_times(sl_strand_record *record, const sl_bench_state *state)
{
    if (state->stage == SL_STAGE_WAITING) {
        return;
    }
    record->day = sl_day_of_instant(&state->contact);
    if (state->stage == SL_STAGE_RINSED && state->n_lain == 1) {
        record->lay_min = state->lain_s[0] / 60.0;
    }
}

/* What it was stopped for; a stop without a swatch is of all. */
static void put_stops(sl_strand_record *record, const one_test *one, int swatch)
{
    for (int i = 0; i < one->n_events; i++) {
        const sl_event *const event = &one->events[i];
        if (event->kind == SL_EVENT_STOPPED && (event->swatch < 0 || event->swatch == swatch)) {
            record->bad = record->bad || event->reason == SL_REASON_DAMAGE;
            record->heated = record->heated || event->reason == SL_REASON_HEAT;
        }
    }
}

static bool fill(sl_strand_record *record, const one_test *one, int swatch, sl_error *error)
{
    const sl_strand_note *const note = &one->notes[swatch];
    *record = (sl_strand_record){.part = note->part,
                                 .cut = note->cut,
                                 .packet_day = note->packet_day,
                                 .made_up = note->practice || one->rehearsed,
                                 .rehearsed = one->rehearsed,
                                 .mix = mix_of(one, swatch),
                                 .lay_min = -1.0,
                                 .washed = note->washed,
                                 .heated = note->warm || note->fizzed || note->smelt};
    snprintf(record->test, sizeof record->test, "%.8s", one->test->id);
    snprintf(record->code, sizeof record->code, "%s", one->swatches[swatch].bench.code);
    snprintf(record->person, sizeof record->person, "%s", note->person);
    put_times(record, &one->bench->state[swatch]);
    put_stops(record, one, swatch);
    for (int i = 0; i < one->n_readings; i++) {
        if (strcmp(one->readings[i].swatch, one->swatches[swatch].id) == 0 &&
            !put_reading(record, one, &one->readings[i], error)) {
            return false;
        }
    }
    return true;
}

/* ---- one test -------------------------------------------------------------------------------------------
 */

static bool read_day(one_test *one, sl_error *error)
{
    double speed = 0.0;
    one->scene = sl_day_holds(one->n, error) ? sl_log_scene(one->log, one->test->id, error) : NULL;
    if (!one->scene || !sl_log_rehearsal(one->log, one->test->id, &speed, error) ||
        !sl_log_events(one->log, one->test->id, one->swatches, one->n, &one->events, &one->n_events, error) ||
        !sl_log_readings(one->log, one->test->id, &one->readings, &one->n_readings, error)) {
        return false;
    }
    one->rehearsed = speed > 0.0;
    return sl_rounds_fold(one->scene, one->swatches, one->n, one->events, one->n_events, &one->planned,
                          &one->bench, error);
}

typedef struct found {
    sl_strand_record *record;
    size_t capacity;
    int n;
} found;

static bool add_strands(found *all, one_test *one, sl_error *error)
{
    bool any = false;
    if (!sl_log_swatches(one->log, one->test->id, &one->swatches, &one->n, error)) {
        return false;
    }
    one->notes = sl_new((size_t)one->n + 1, sizeof *one->notes, "reading strands", error);
    one->noted = sl_new((size_t)one->n + 1, sizeof *one->noted, "reading strands", error);
    if (!one->notes || !one->noted || !read_notes(one, &any, error) || (any && !read_day(one, error))) {
        return false;
    }
    for (int i = 0; any && i < one->n; i++) {
        if (one->noted[i] && (!sl_grow(&all->record, &all->capacity, (size_t)all->n + 1, sizeof *all->record,
                                       "reading strands", error) ||
                              !fill(&all->record[all->n++], one, i, error))) {
            return false;
        }
    }
    return true;
}

static void free_test(one_test *one)
{
    sl_scene_free(one->scene);
    sl_free(one->swatches);
    sl_free(one->notes);
    sl_free(one->noted);
    sl_free(one->planned);
    sl_free(one->bench);
    sl_free(one->events);
    sl_free(one->readings);
}

/* Hair that answered once is not asked again: heat tells of what is in it, whatever the mix; damage of this
 * mix. */
static void spread_bad_news(found *all)
{
    for (int i = 0; i < all->n; i++) {
        for (int k = 0; k < all->n; k++) {
            const sl_strand_record *const other = &all->record[k];
            if (other->person[0] != '\0' && strcmp(all->record[i].person, other->person) == 0) {
                all->record[i].heated = all->record[i].heated || other->heated;
                all->record[i].bad = all->record[i].bad || (other->bad && other->mix == all->record[i].mix);
            }
        }
    }
}

bool sl_log_strands(sl_log *log, const sl_scene *scene, sl_strand_record **records, int *n, sl_error *error)
{
    sl_log_test *tests = NULL;
    found all = {NULL, 0, 0};
    int n_tests = 0;
    bool good = sl_log_tests(log, &tests, &n_tests, error);
    for (int i = 0; good && i < n_tests; i++) {
        one_test one = {.log = log, .test = &tests[i], .asked = scene};
        good = add_strands(&all, &one, error);
        free_test(&one);
    }
    sl_free(tests);
    good = good && sl_log_whole(log, error); /* what was lost could be what closes the gate */
    if (!good) {
        sl_free(all.record);
        return false;
    }
    spread_bad_news(&all);
    *records = all.record;
    *n = all.n;
    return true;
}
