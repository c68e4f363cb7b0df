/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What happened on the bench: one row an event, on the disk before it is shown.
 */
#include <stdio.h>
#include <string.h>
#include <time.h>

#include "base/language.h"
#include "base/plain_text.h"
#include "log/store/old_notes.h"
#include "log/store/sql.h"
#include "log/store/tables.h"

static void utc_words(int64_t wall_ns, char text[32])
{
    const time_t at = (time_t)(wall_ns / 1000000000);
    struct tm utc;
    gmtime_r(&at, &utc); /* it fails only where a year is beyond an int */
    strftime(text, 32, "%Y-%m-%dT%H:%M:%SZ", &utc);
}

static const char *const clocks_words[] = {
    [SL_CLOCKS_AGREE] = "", [SL_CLOCKS_DISAGREE] = "disagreed", [SL_CLOCKS_RESTARTED] = "restarted"};

static void put_text_or_null(sl_statement *put, const char *text)
{
    sl_put_text(put, text && text[0] != '\0' ? text : NULL);
}

static void put_typed(sl_statement *put, const sl_event *event)
{
    if (event->speed > 1.0) {
        sl_put_real(put, event->speed);
    } else {
        sl_put_null(put);
    }
    if (event->was_due) {
        sl_put_int(put, event->late_s);
    } else {
        sl_put_null(put);
    }
    put_text_or_null(put, clocks_words[event->clocks]);
    const bool tick = event->remark >= SL_REMARK_SHOWN, deed = event->remark >= SL_REMARK_UNCLEAN;
    put_text_or_null(put, deed ? NULL : sl_remark_word(event->remark));
    put_text_or_null(put, deed && !tick ? sl_remark_word(event->remark) : NULL);
    if (event->remark == SL_REMARK_GRAMS || event->remark == SL_REMARK_ROOM) {
        sl_put_real(put, event->value);
    } else {
        sl_put_null(put);
    }
}

static bool put_event(sl_log *log, const char *test, const char *swatch, const sl_event *event,
                      const char *note, sl_error *error)
{
    char at[32];
    utc_words(event->at.wall_ns, at);
    sl_statement put =
        sl_sql(log,
               "INSERT INTO event (id, test, swatch, kind, boot_ns, wall_ns, boot_id, at, reason, about,"
               " note, speed, late_s, clocks, remark, deed, value)"
               " VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
               error);
    sl_put_text(&put, event->id);
    sl_put_text(&put, test);
    sl_put_text(&put, swatch);
    sl_put_text(&put, sl_event_word(event->kind));
    sl_put_int(&put, event->at.boot_ns);
    sl_put_int(&put, event->at.wall_ns);
    sl_put_text(&put, event->at.boot_id);
    sl_put_text(&put, at);
    sl_put_text(&put, event->kind == SL_EVENT_STOPPED ? sl_stop_reason_word(event->reason) : NULL);
    put_text_or_null(&put, event->about);
    put_text_or_null(&put, note);
    put_typed(&put, event);
    return sl_sql_added(&put);
}

/* Whether the event stands in the log as it was meant, and after all others of the test. */
static bool reads_back(sl_log *log, const char *test, const char *swatch, const sl_event *event,
                       const char *note, sl_error *error)
{
    sl_statement ask = sl_sql(log,
                              "SELECT 1 FROM event WHERE id = ? AND test = ? AND swatch IS ? AND kind = ?"
                              " AND boot_ns = ? AND wall_ns = ? AND boot_id = ? AND note IS ?"
                              " AND kept = (SELECT max(kept) FROM event)",
                              error);
    sl_put_text(&ask, event->id);
    sl_put_text(&ask, test);
    sl_put_text(&ask, swatch);
    sl_put_text(&ask, sl_event_word(event->kind));
    sl_put_int(&ask, event->at.boot_ns);
    sl_put_int(&ask, event->at.wall_ns);
    sl_put_text(&ask, event->at.boot_id);
    put_text_or_null(&ask, note);
    const bool there = sl_next_row(&ask);
    if (!sl_sql_leave(&ask)) {
        return false;
    }
    if (!there) {
        return sl_fail_at(error, SL_ERR_STRANGE_LOG, log->path, 0, 0,
                          _("an event does not read back as it was written"), _("it was not kept"));
    }
    return true;
}

/* What no list of a column's words has room for is a note of a closed form: "done: bench wiped". */
#define DONE "done: "
static sl_remark remark_of_note(const char *note)
{
    const sl_remark remark = strncmp(note, DONE, sizeof DONE - 1) == 0
                                 ? sl_remark_of_word(note + sizeof DONE - 1)
                                 : SL_REMARK_NONE;
    return remark >= SL_REMARK_SHOWN ? remark : SL_REMARK_NONE;
}

bool sl_log_append(sl_log *log, const char *test, const sl_log_swatch *swatches, int n_swatches,
                   sl_event *event, const char *note, sl_error *error)
{
    const char *const swatch =
        event->swatch >= 0 && event->swatch < n_swatches ? swatches[event->swatch].id : NULL;
    char done[SL_LOG_TITLE];
    if (event->remark >= SL_REMARK_SHOWN) {
        snprintf(done, sizeof done, DONE "%s", sl_remark_word(event->remark));
        note = done;
    }
    if (note && !sl_text_accept(note, strlen(note), SL_TEXT_LINES, error)) {
        return false;
    }
    if (event->id[0] == '\0') {
        sl_uuid_make(event->id);
    }
    if (!sl_sql_begin(log, error)) {
        return false;
    }
    const bool good =
        put_event(log, test, swatch, event, note, error) && reads_back(log, test, swatch, event, note, error);
    return sl_sql_end(log, good, error);
}

static sl_event_kind kind_of(const char *word)
{
    int kind = 0;
    while (kind < SL_EVENT_KINDS - 1 && strcmp(sl_event_word((sl_event_kind)kind), word) != 0) {
        kind++; /* the table holds no other word */
    }
    return (sl_event_kind)kind;
}

static sl_stop_reason reason_of(const char *word)
{
    int reason = 0;
    while (reason < SL_REASON_UNSAID && strcmp(sl_stop_reason_word((sl_stop_reason)reason), word) != 0) {
        reason++;
    }
    return (sl_stop_reason)reason;
}

static sl_clocks clocks_of(const char *word)
{
    int clocks = SL_CLOCKS_RESTARTED;
    while (clocks > SL_CLOCKS_AGREE && strcmp(clocks_words[clocks], word) != 0) {
        clocks--;
    }
    return (sl_clocks)clocks;
}

typedef struct sl_of_swatches {
    const sl_log_swatch *swatch;
    int n;
} sl_of_swatches;

static void event_at(sl_statement *ask, const void *with, void *into)
{
    const sl_of_swatches *const swatches = with;
    sl_event *const event = into;
    *event = (sl_event){.kind = kind_of(sl_text_at(ask, 2)),
                        .swatch = sl_log_swatch_of(swatches->swatch, swatches->n, sl_text_at(ask, 1), 0),
                        .reason = reason_of(sl_text_at(ask, 6))};
    sl_copy_at(ask, 0, event->id, sizeof event->id);
    event->at.boot_ns = sl_int_at(ask, 3);
    event->at.wall_ns = sl_int_at(ask, 4);
    sl_copy_at(ask, 5, event->at.boot_id, sizeof event->at.boot_id);
    sl_copy_at(ask, 7, event->about, sizeof event->about);
    event->speed = sl_real_at(ask, 8);
    event->was_due = !sl_null_at(ask, 9);
    event->late_s = (int)sl_int_at(ask, 9);
    event->clocks = clocks_of(sl_text_at(ask, 10));
    event->remark = sl_remark_of_word(sl_text_at(ask, 11));
    event->value = sl_real_at(ask, 12);
    event->remark = event->remark == SL_REMARK_NONE ? remark_of_note(sl_text_at(ask, 13)) : event->remark;
}

bool sl_log_events(sl_log *log, const char *test, const sl_log_swatch *swatches, int n_swatches,
                   sl_event **events, int *n, sl_error *error)
{
    char table[SL_ROWS], text[SL_ROWS + 200];
    snprintf(text, sizeof text,
             "SELECT id, swatch, kind, boot_ns, wall_ns, boot_id, reason, about, speed, late_s, clocks,"
             " coalesce(remark, deed), value, note"
             " FROM %s WHERE test = ? ORDER BY kept",
             sl_rows_of("main", "event", log->version, table));
    sl_statement ask = sl_sql(log, text, error);
    sl_put_text(&ask, test);
    return sl_sql_gather(&ask, event_at, &(sl_of_swatches){swatches, n_swatches}, sizeof **events, events, n);
}

/* ---- rehearsals ------------------------------------------------------------------------------------- */

/* Before version 3 a rehearsal said so in a note, in the language of who ran it. */
static double speed_of_old_note(const char *note)
{
    double speed = 0.0;
    int end = 0;
    if ((sscanf(note, "rehearsal: %lf times as fast%n", &speed, &end) == 1 ||
         sscanf(note, "ensayo: %lf veces más rápido%n", &speed, &end) == 1) &&
        end > 0 && speed > 1.0) {
        return speed;
    }
    return 0.0;
}

/* So that no list of notes tells it. */
bool sl_old_flag(const char *note)
{
    return speed_of_old_note(note) > 0.0 || remark_of_note(note) != SL_REMARK_NONE;
}

bool sl_log_rehearsal(sl_log *log, const char *test, double *speed, sl_error *error)
{
    char table[SL_ROWS], text[SL_ROWS + 200];
    snprintf(text, sizeof text,
             "SELECT speed, note FROM %s WHERE test = ? AND"
             " (speed IS NOT NULL OR (kind = 'note' AND swatch IS NULL AND note IS NOT NULL)) ORDER BY kept",
             sl_rows_of("main", "event", log->version, table));
    sl_statement ask = sl_sql(log, text, error);
    sl_put_text(&ask, test);
    *speed = 0.0;
    while (*speed <= 0.0 && sl_next_row(&ask)) {
        *speed = sl_null_at(&ask, 0) ? speed_of_old_note(sl_text_at(&ask, 1)) : sl_real_at(&ask, 0);
    }
    return sl_sql_leave(&ask);
}

bool sl_log_shown(sl_log *log, const char *swatch, bool *shown, sl_error *error)
{
    sl_statement ask = sl_sql(log, "SELECT note FROM event WHERE swatch = ? AND kind = 'note'", error);
    sl_put_text(&ask, swatch);
    *shown = false;
    while (!*shown && sl_next_row(&ask)) {
        *shown = remark_of_note(sl_text_at(&ask, 0)) == SL_REMARK_SHOWN;
    }
    return sl_sql_leave(&ask);
}

bool sl_log_real(sl_log *log, const char *test, sl_error *error)
{
    double speed = 0.0;
    return sl_log_rehearsal(log, test, &speed, error) &&
           (speed <= 0.0 ||
            sl_fail(error, SL_ERR_INCONSISTENT,
                    _("this test is a rehearsal: its clock ran fast, and no hair lay so long"),
                    _("compare and report a test that was done")));
}
