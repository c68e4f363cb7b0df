/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What another log holds and this one lacks. Every row has an id that no other row on any machine
 * has, so a row that is in both is known by it; a row is never changed, so both must be alike.
 */
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>

#include "log/reading_columns.h"
#include "log/tables.h"

typedef struct sl_table {
    const char *name, *what; /* what: in a message */
    const char *key;         /* columns by which a row is known */
    const char *columns;     /* all that count, in any order */
    const char *order;
} sl_table;

static const sl_table tables[] = {
    {"test", "test", "id", "id, title, operator, made, scene_name, scene_sha256", "made"},
    {"scene_file", "file of a scene", "test, place", "test, place, kind, name, text", "place"},
    {"zone", "zone", "test, place", "test, place, name", "place"},
    {"swatch", "swatch", "id",
     "id, test, code, arm, block, place, contact_s, dwell_s, label_s, label_from, mix_age_s, looks_min,"
     " ladder_min",
     "place"},
    {"event", "event", "id",
     "id, test, swatch, kind, boot_ns, wall_ns, boot_id, at, reason, about, note, speed, late_s, clocks,"
     " remark",
     "kept"},
    {"reading", "reading", "id", NULL, "kept"},
    {"import", "import", "id", "id, sha256, name, at, readings", "kept"}};
enum { TABLES = (int)(sizeof tables / sizeof tables[0]) };

static const char *columns_of(const sl_table *table, char text[512])
{
    if (table->columns) {
        return table->columns;
    }
    sl_column_names("", text, 512);
    return text;
}

/* "o.id = m.id AND ..." of columns by commas. */
static void pairs(const char *columns, const char *sign, const char *join, char *text, size_t size)
{
    size_t used = 0;
    for (const char *at = columns; *at != '\0' && used < size;) {
        const size_t length = strcspn(at, ",");
        used += (size_t)snprintf(text + used, size - used, "%so.%.*s %s m.%.*s", used == 0 ? "" : join,
                                 (int)length, at, sign, (int)length, at);
        at += length;
        at += strspn(at, ", ");
    }
}

/* Rows that both have must be alike. */
static bool check_alike(sl_log *log, const sl_table *table, int version, long long *alike, sl_error *error)
{
    char names[512], rows[SL_ROWS], keys[128], differ[2048], text[3072], found[SL_ERROR_TEXT_SIZE];
    pairs(table->key, "=", " AND ", keys, sizeof keys);
    pairs(columns_of(table, names), "IS NOT", " OR ", differ, sizeof differ);
    snprintf(text, sizeof text,
             "SELECT count(*), max(CASE WHEN %s THEN o.%.*s END) FROM %s o JOIN main.%s m ON %s", differ,
             (int)strcspn(table->key, ","), table->key, sl_rows_of("other", table->name, version, rows),
             table->name, keys);
    sl_statement ask = sl_sql(log, text, error);
    if (!sl_next_row(&ask)) {
        return sl_sql_leave(&ask) && false;
    }
    *alike += sl_int_at(&ask, 0);
    const bool good = sl_null_at(&ask, 1);
    snprintf(found, sizeof found, "the %s %.36s has one content here and another there", table->what,
             sl_text_at(&ask, 1));
    return sl_sql_leave(&ask) && (good || sl_fail(error, SL_ERR_INCONSISTENT, found,
                                                  "nothing was merged; rows of a log are never changed, so "
                                                  "one of the files was tampered with"));
}

static bool take_rows(sl_log *log, const sl_table *table, int version, long long *added, sl_error *error)
{
    char names[512], rows[SL_ROWS], keys[128], text[2048];
    pairs(table->key, "=", " AND ", keys, sizeof keys);
    const char *const columns = columns_of(table, names);
    snprintf(text, sizeof text,
             "INSERT INTO main.%s (%s) SELECT %s FROM %s o WHERE NOT EXISTS"
             " (SELECT 1 FROM main.%s m WHERE %s) ORDER BY %s",
             table->name, columns, columns, sl_rows_of("other", table->name, version, rows), table->name,
             keys, table->order);
    sl_statement put = sl_sql(log, text, error);
    if (!sl_sql_done(&put)) {
        return false;
    }
    *added = sqlite3_changes64(log->base);
    return true;
}

static bool merge_all(sl_log *log, int version, sl_log_count *count, sl_error *error)
{
    long long added[TABLES] = {0}, scene_rows = 0;
    for (int i = 0; i < TABLES; i++) {
        const bool counts = i == 0 || (i >= 3 && i <= 5);
        if (!check_alike(log, &tables[i], version, counts ? &count->there : &scene_rows, error) ||
            !take_rows(log, &tables[i], version, &added[i], error)) {
            return false;
        }
    }
    count->tests = added[0];
    count->swatches = added[3];
    count->events = added[4];
    count->readings = added[5];
    return true;
}

static bool same_file(const char *one, const char *two)
{
    struct stat a, b;
    return stat(one, &a) == 0 && stat(two, &b) == 0 && a.st_dev == b.st_dev && a.st_ino == b.st_ino;
}

static bool attach(sl_log *log, const char *path, sl_error *error)
{
    sl_statement put = sl_sql(log, "ATTACH ? AS other", error);
    sl_put_text(&put, path);
    return sl_sql_done(&put);
}

bool sl_log_merge(sl_log *log, const char *other, sl_log_count *count, sl_error *error)
{
    sl_log *check = NULL;
    *count = (sl_log_count){.tests = 0};
    if (same_file(log->path, other)) {
        return sl_fail(error, SL_ERR_USAGE, "both are the same log", "name two files");
    }
    if (!sl_log_open(&check, other, SL_LOG_READ, error)) { /* a log that is read here */
        return false;
    }
    const int version = check->version;
    sl_log_close(check);
    if (!attach(log, other, error)) {
        return false;
    }
    bool good = sl_sql_begin(log, error);
    if (good) {
        good = merge_all(log, version, count, error);
        good = sl_sql_end(log, good, error);
    }
    sl_sql_run(log, "DETACH other", NULL);
    if (!good) {
        *count = (sl_log_count){.tests = 0};
    }
    return good;
}
