/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See forget.h. The log is locked against everybody (SQLite's exclusive locking without a write-ahead log:
 * https://sqlite.org/pragma.html#pragma_locking_mode) until the new one has taken its place. Who waited for
 * it finds that the file has moved, and writes nothing (SQLITE_READONLY_DBMOVED).
 */
#include "log/shelf/forget.h"

#include <stdio.h>
#include <string.h>
#include <unistd.h>

#include "base/append.h"
#include "base/language.h"
#include "base/memory.h"
#include "log/store/beside.h"
#include "log/store/rows.h"
#include "slowlift/strand_log.h"

enum { QUERY = 4096 };

/* ---- the code in a text -------------------------------------------------------------------------------- */

/* has_code(text, code): 1 or 0. */
static void has_code(sqlite3_context *context, int n, sqlite3_value **value)
{
    (void)n;
    const char *const text = (const char *)sqlite3_value_text(value[0]);
    const char *const code = (const char *)sqlite3_value_text(value[1]);
    sqlite3_result_int(context, text && code && sl_code_in(text, strlen(text), code) != NULL);
}

/* without_code(text, code): a "-" stands for each; what machines read of a strand or a bowl stays. */
static void without_code(sqlite3_context *context, int n, sqlite3_value **value)
{
    (void)n;
    const char *text = (const char *)sqlite3_value_text(value[0]);
    const char *const code = (const char *)sqlite3_value_text(value[1]);
    if (!text || !code || strncmp(text, "strand:", 7) == 0 || strncmp(text, "bowl:", 5) == 0) {
        sqlite3_result_value(context, value[0]);
        return;
    }
    const size_t size = strlen(text) + 1;
    char *const left = sqlite3_malloc64(size); /* a code has one letter at least */
    const char *found = NULL;
    if (!left) {
        sqlite3_result_error_nomem(context);
        return;
    }
    left[0] = '\0';
    while ((found = sl_code_in(text, strlen(text), code)) != NULL) {
        sl_append(left, size, "%.*s-", (int)(found - text), text);
        text = found + strlen(code);
    }
    sl_append(left, size, "%s", text);
    sqlite3_result_text(context, left, -1, sqlite3_free);
}

static bool add_functions(sl_log *log, sl_error *error)
{
    const int how = SQLITE_UTF8 | SQLITE_DETERMINISTIC | SQLITE_DIRECTONLY;
    return (sqlite3_create_function(log->base, "has_code", 2, how, NULL, has_code, NULL, NULL) == SQLITE_OK &&
            sqlite3_create_function(log->base, "without_code", 2, how, NULL, without_code, NULL, NULL) ==
                SQLITE_OK) ||
           sl_sql_refuse(log, error);
}

/* Whatever it gives is read by its first column; ?1 is the code. */
static bool ask(sl_log *log, const char *text, const char *code, long long *number, sl_error *error)
{
    sl_statement one = sl_sql(log, text, error);
    sl_put_text(&one, code);
    *number = sl_next_row(&one) ? sl_int_at(&one, 0) : 0;
    return sl_sql_leave(&one);
}

static bool run(sl_log *log, const char *text, const char *code, sl_error *error)
{
    sl_statement one = sl_sql(log, text, error);
    sl_put_text(&one, code);
    return sl_sql_done(&one);
}

bool sl_log_names(sl_log *log, const char *code, bool *names, sl_error *error)
{
    bool good = add_functions(log, error);
    *names = false;
    for (int i = 0; good && !*names && i < SL_KEPT_TABLES; i++) {
        const sl_kept_table *const table = &sl_kept_tables[i];
        char text[QUERY], any[QUERY / 2] = "";
        long long found = 0;
        for (int c = 0; c < table->n; c++) {
            const sl_kept_kind kind = table->columns[c].kind;
            if ((kind == SL_COLUMN_TEXT || kind == SL_COLUMN_CODE)) {
                sl_append_item(any, sizeof any, " OR ", "has_code(o.%s, ?1)", table->columns[c].name);
            }
        }
        snprintf(text, sizeof text, "SELECT EXISTS (SELECT 1 FROM %s o WHERE %s)", table->name, any);
        good = ask(log, text, code, &found, error);
        *names = found != 0;
    }
    return good;
}

/* ---- what goes ------------------------------------------------------------------------------------------
 */

/* Whose strand a swatch is: what was noted last counts. The notes with this code go in any case. */
static bool find_strands(sl_log *log, const char *code, sl_error *error)
{
    sl_statement notes = sl_sql(log,
                                "SELECT id, swatch, note FROM main.event WHERE kind = 'note' AND swatch IS"
                                " NOT NULL AND note LIKE 'strand:%' ORDER BY kept",
                                error);
    bool good = true;
    while (good && sl_next_row(&notes)) {
        sl_strand_note note = {.part = SL_HAIR_NOWHERE};
        if (!sl_strand_note_read(sl_text_at(&notes, 2), &note) || note.person[0] == '\0') {
            continue;
        }
        sl_statement put = sl_sql(log, "INSERT OR REPLACE INTO strand VALUES (?, ?)", error);
        sl_put_text(&put, sl_text_at(&notes, 1));
        sl_put_text(&put, note.person);
        good = sl_sql_done(&put);
        if (good && strcmp(note.person, code) == 0) {
            put = sl_sql(log, "INSERT OR IGNORE INTO gone VALUES (?)", error);
            sl_put_text(&put, sl_text_at(&notes, 0));
            good = sl_sql_done(&put);
        }
    }
    return sl_sql_leave(&notes) && good;
}

static bool find_gone(sl_log *log, const char *code, sl_error *error)
{
    static const char *const steps[] = {
        "INSERT OR IGNORE INTO gone SELECT swatch FROM strand WHERE person = ?1",
        "INSERT OR IGNORE INTO gone SELECT t.id FROM main.test t WHERE ?1 IS NOT NULL"
        " AND EXISTS (SELECT 1 FROM main.swatch s WHERE s.test = t.id)"
        " AND NOT EXISTS (SELECT 1 FROM main.swatch s WHERE s.test = t.id AND s.id NOT IN gone)",
        "INSERT OR IGNORE INTO gone WITH RECURSIVE r (id) AS (SELECT id FROM main.reading WHERE judge = ?1"
        " OR swatch IN gone UNION SELECT o.replaces FROM main.reading o JOIN r ON o.id = r.id"
        " WHERE o.replaces IS NOT NULL) SELECT id FROM r",
        "INSERT OR IGNORE INTO gone WITH RECURSIVE e (id) AS (SELECT id FROM main.event WHERE ?1 IS NOT NULL"
        " AND (id IN gone OR swatch IN gone OR test IN gone) UNION SELECT o.id FROM main.event o JOIN e"
        " ON o.about = e.id) SELECT id FROM e"};
    bool good = sl_sql_run(log,
                           "CREATE TEMP TABLE gone (id TEXT PRIMARY KEY);"
                           "CREATE TEMP TABLE strand (swatch TEXT PRIMARY KEY, person TEXT);",
                           error) &&
                find_strands(log, code, error);
    for (size_t i = 0; good && i < sizeof steps / sizeof steps[0]; i++) {
        good = run(log, steps[i], code, error);
    }
    return good;
}

/* Of the columns of text that the code may stand in, those that people write and nothing refers to. */
static bool is_written(const char *table, const char *column)
{
    static const char *const written[] = {"test.title",   "test.scene_name", "event.note",
                                          "reading.note", "reading.tone",    "import.name"};
    char name[64];
    snprintf(name, sizeof name, "%s.%s", table, column);
    for (size_t i = 0; i < sizeof written / sizeof written[0]; i++) {
        if (strcmp(name, written[i]) == 0) {
            return true;
        }
    }
    return false;
}

/* How a column is taken over, out of the row o; and (`changes`) when that is not as it stands. */
static void column_words(const char *table, const char *column, char *takes, char *changes, size_t size)
{
    snprintf(takes, size, "o.%s", column);
    changes[0] = '\0';
    if (is_written(table, column)) {
        snprintf(takes, size, "without_code(o.%s, ?1)", column);
        snprintf(changes, size, "without_code(o.%s, ?1) IS NOT o.%s", column, column);
    } else if (strcmp(column, "operator") == 0) {
        snprintf(takes, size, "CASE WHEN o.operator = ?1 THEN '-' ELSE o.operator END");
        snprintf(changes, size, "o.operator = ?1");
    } else if (strcmp(column, "photo") == 0 || strcmp(column, "photo_sha256") == 0) {
        snprintf(takes, size, "CASE WHEN has_code(o.photo, ?1) THEN NULL ELSE o.%s END", column);
        snprintf(changes, size, "has_code(o.photo, ?1)");
    } else if (strcmp(column, "replaces") == 0) {
        snprintf(takes, size, "CASE WHEN o.replaces IN gone THEN NULL ELSE o.replaces END");
    }
}

/* Which rows stay. */
static const char *stays(const char *table)
{
    return strcmp(table, "scene_file") == 0 || strcmp(table, "zone") == 0 ? "o.test NOT IN gone"
                                                                          : "o.id NOT IN gone";
}

/* ---- the new log ----------------------------------------------------------------------------------------
 */

static bool copy_table(sl_log *log, const sl_kept_table *table, const char *code, sl_forgotten *forgotten,
                       sl_error *error)
{
    char takes[QUERY / 2] = "", changes[QUERY / 2] = "0", one[160], changed[200], text[QUERY],
                       names[SL_KEPT_NAMES];
    long long n = 0, kept = 0, there = 0;
    for (int i = 0; i < table->n; i++) {
        column_words(table->name, table->columns[i].name, one, changed, sizeof one);
        sl_append_item(takes, sizeof takes, ", ", "%s", one);
        if (changed[0] != '\0') {
            sl_append(changes, sizeof changes, " OR %s", changed);
        }
    }
    snprintf(text, sizeof text, "SELECT count(*) FROM main.%s o WHERE %s AND (?1 IS NULL OR %s)", table->name,
             stays(table->name), changes);
    if (!ask(log, text, code, &n, error)) {
        return false;
    }
    forgotten->words += n;
    snprintf(
        text, sizeof text,
        "INSERT INTO fresh.%s (%s) SELECT %s FROM main.%s o WHERE ?1 IS NOT NULL AND %s ORDER BY o.rowid",
        table->name, sl_kept_names(table, names), takes, table->name, stays(table->name));
    if (!run(log, text, code, error)) {
        return false;
    }
    snprintf(text, sizeof text, "SELECT count(*) FROM main.%s o WHERE ?1 IS NOT NULL AND %s", table->name,
             stays(table->name));
    char written[64];
    snprintf(written, sizeof written, "SELECT count(*) FROM fresh.%s WHERE ?1 IS NOT NULL", table->name);
    if (!ask(log, text, code, &kept, error) || !ask(log, written, code, &there, error)) {
        return false;
    }
    return kept == there || sl_fail_at(error, SL_ERR_DAMAGED, log->path, 0, 0,
                                       _("the copy does not read back as the log does"),
                                       _("no copy was kept; look at the disk"));
}

static bool copy_all(sl_log *log, const char *code, sl_forgotten *forgotten, sl_error *error)
{
    bool good = true;
    long long loose = 0;
    if (!sl_sql_run(log, "BEGIN", error)) {
        return false;
    }
    for (int i = 0; good && i < SL_KEPT_TABLES; i++) {
        good = copy_table(log, &sl_kept_tables[i], code, forgotten, error);
    }
    good = good && sl_sql_run(log, "COMMIT", error) &&
           ask(log, "SELECT count(*) FROM pragma_foreign_key_check WHERE schema = 'fresh' AND ?1 IS NOT NULL",
               code, &loose, error);
    return good && (loose == 0 || sl_fail_at(error, SL_ERR_DAMAGED, log->path, 0, 0,
                                             _("a row refers to one that is not there"),
                                             _("slowlift log check tells more; nothing was forgotten")));
}

/* The new log, whole, in `beside`. */
static bool write_anew(sl_log *log, const char *beside, const char *code, sl_forgotten *forgotten,
                       sl_error *error)
{
    sl_log *fresh = NULL;
    if (!sl_log_open(&fresh, beside, SL_LOG_MAKE, error)) {
        return false;
    }
    const bool plain = sl_sql_run(fresh, "PRAGMA journal_mode = DELETE", error);
    sl_log_close(fresh);
    sl_sql_limit_steps(log, 4 * log->bytes);
    return plain && run(log, "ATTACH ?1 AS fresh", beside, error) && copy_all(log, code, forgotten, error) &&
           sl_sql_run(log, "DETACH fresh", error);
}

static bool count_gone(sl_log *log, const char *code, sl_forgotten *forgotten, sl_error *error)
{
    return ask(log, "SELECT count(*) FROM main.test WHERE ?1 IS NOT NULL AND id IN gone", code,
               &forgotten->tests, error) &&
           ask(log, "SELECT count(*) FROM main.swatch WHERE ?1 IS NOT NULL AND id IN gone", code,
               &forgotten->swatches, error) &&
           ask(log, "SELECT count(*) FROM main.event WHERE ?1 IS NOT NULL AND id IN gone", code,
               &forgotten->events, error) &&
           ask(log, "SELECT count(*) FROM main.reading WHERE ?1 IS NOT NULL AND id IN gone", code,
               &forgotten->readings, error) &&
           ask(log,
               "SELECT count(*) FROM main.scene_file WHERE test NOT IN gone AND (has_code(text, ?1) OR"
               " has_code(name, ?1))",
               code, &forgotten->scene_files, error);
}

/* ---- photographs ----------------------------------------------------------------------------------------
 */

/* Those of rows that go, which no row that stays names. */
static bool find_photos(sl_log *log, const char *code, sl_forgotten *forgotten, sl_error *error)
{
    sl_statement photos = sl_sql(
        log,
        "SELECT DISTINCT photo, photo_sha256 FROM main.reading WHERE photo IS NOT NULL AND (id IN gone OR"
        " has_code(photo, ?1)) AND photo NOT IN (SELECT photo FROM main.reading WHERE photo IS NOT NULL AND"
        " id NOT IN gone AND NOT has_code(photo, ?1))",
        error);
    bool good = true;
    sl_put_text(&photos, code);
    while (good && sl_next_row(&photos)) {
        char real[SL_LOG_PATH];
        if (!sl_photo_beside(log->path, sl_text_at(&photos, 0), sl_text_at(&photos, 1), real)) {
            forgotten->photographs_left++;
            continue;
        }
        good = sl_grow(&forgotten->photo, &forgotten->photo_room, forgotten->n_photos + 1,
                       sizeof *forgotten->photo, "forgetting", error);
        if (good) {
            memcpy(forgotten->photo[forgotten->n_photos++], real, sizeof real);
        }
    }
    return sl_sql_leave(&photos) && good;
}

static bool remove_photos(const sl_forgotten *forgotten, sl_error *error)
{
    bool good = true;
    for (size_t i = 0; i < forgotten->n_photos; i++) {
        good = unlink(forgotten->photo[i]) == 0 && good;
    }
    return good || sl_fail(error, SL_ERR_CANNOT_WRITE, _("the folder, so that a photograph stays in it"),
                           _("the log has forgotten it: take it away yourself"));
}

/* ---- all of it ------------------------------------------------------------------------------------------
 */

static bool swap(sl_log *log, const char *code, sl_forgotten *forgotten, sl_log_receipt *receipt, void *self,
                 sl_error *error)
{
    sl_log_beside beside = {.path = ""};
    if (!sl_beside_make(log->path, &beside, error)) {
        return false;
    }
    const bool good = write_anew(log, beside.path, code, forgotten, error) && receipt(self, error);
    return sl_beside_end(&beside, log->path, true, good, error) && remove_photos(forgotten, error);
}

static bool forget(sl_log *log, const char *code, sl_forgotten *forgotten, sl_log_receipt *receipt,
                   void *self, sl_error *error)
{
    bool names = false;
    sl_temporary_sweep(log->path); /* what somebody who was killed on the way left */
    if (!sl_log_names(log, code, &names, error)) {
        return false;
    }
    if (!names) {
        return sl_forget_elsewhere(log->path, code, forgotten, error) && receipt(self, error);
    }
    return sl_forget_may(log, error) && find_gone(log, code, error) &&
           count_gone(log, code, forgotten, error) && find_photos(log, code, forgotten, error) &&
           sl_forget_elsewhere(log->path, code, forgotten, error) &&
           swap(log, code, forgotten, receipt, self, error);
}

bool sl_log_forget(const char *path, const char *code, sl_forgotten *forgotten, sl_log_receipt *receipt,
                   void *self, sl_error *error)
{
    sl_log *log = NULL;
    const bool good = sl_log_code_check(N_("the code"), code, error) &&
                      sl_log_open(&log, path, SL_LOG_WRITE, error) &&
                      forget(log, code, forgotten, receipt, self, error);
    sl_log_close(log);
    return good;
}
