/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What another log holds and this one lacks. Every row has an id that no other row on any machine
 * has, so a row that is in both is known by it; a row is never changed, so both must be alike.
 */
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>

#include "base/append.h"
#include "base/language.h"
#include "log/store/known.h"
#include "log/store/rows.h"
#include "log/store/tables.h"

/* Beside what rows.h says of a table. */
typedef struct sl_merging {
    const char *key; /* columns by which a row is known */
    const char *order;
} sl_merging;

static const sl_merging ways[SL_KEPT_TABLES] = {
    {"id", "made"},  {"test, place", "place"}, {"test, place", "place"},
    {"id", "place"}, {"id", "kept"},           {"id", "kept"},
    {"id", "kept"}};

/* "o.id = m.id AND ..." of columns by commas. */
static void pairs(const char *columns, const char *sign, const char *join, char *text, size_t size)
{
    text[0] = '\0';
    for (const char *at = columns; *at != '\0';) {
        const size_t length = strcspn(at, ",");
        sl_append_item(text, size, join, "o.%.*s %s m.%.*s", (int)length, at, sign, (int)length, at);
        at += length;
        at += strspn(at, ", ");
    }
}

/* Rows that both have must be alike. */
static bool check_alike(sl_log *log, int index, int version, long long *alike, sl_error *error)
{
    const sl_kept_table *const table = &sl_kept_tables[index];
    const char *const key = ways[index].key;
    char names[SL_KEPT_NAMES], rows[SL_ROWS], keys[128], differ[2048], text[3072], found[SL_ERROR_TEXT_SIZE];
    pairs(key, "=", " AND ", keys, sizeof keys);
    pairs(sl_kept_names(table, names), "IS NOT", " OR ", differ, sizeof differ);
    snprintf(text, sizeof text,
             "SELECT count(*), max(CASE WHEN %s THEN o.%.*s END) FROM %s o JOIN main.%s m ON %s", differ,
             (int)strcspn(key, ","), key, sl_rows_of("other", table->name, version, rows), table->name, keys);
    sl_statement ask = sl_sql(log, text, error);
    sl_next_row(&ask); /* there is always one: a count */
    *alike += sl_int_at(&ask, 0);
    const bool good = sl_null_at(&ask, 1);
    snprintf(found, sizeof found, "the %s %.36s has one content here and another there", table->one,
             sl_text_at(&ask, 1));
    if (!sl_sql_leave(&ask)) {
        return false;
    }
    if (!good) {
        return sl_fail(error, SL_ERR_INCONSISTENT, found,
                       "nothing was merged; rows of a log are never changed, so one of the files was"
                       " tampered with");
    }
    return true;
}

static bool take_rows(sl_log *log, int index, int version, long long *added, sl_error *error)
{
    const sl_kept_table *const table = &sl_kept_tables[index];
    char names[SL_KEPT_NAMES], rows[SL_ROWS], keys[128], text[2048];
    pairs(ways[index].key, "=", " AND ", keys, sizeof keys);
    const char *const columns = sl_kept_names(table, names);
    snprintf(text, sizeof text,
             "INSERT INTO main.%s (%s) SELECT %s FROM %s o WHERE NOT EXISTS"
             " (SELECT 1 FROM main.%s m WHERE %s) ORDER BY %s",
             table->name, columns, columns, sl_rows_of("other", table->name, version, rows), table->name,
             keys, ways[index].order);
    sl_statement put = sl_sql(log, text, error);
    if (!sl_sql_done(&put)) {
        return false;
    }
    *added = sqlite3_changes64(log->base);
    return true;
}

static bool merge_all(sl_log *log, int version, sl_log_count *count, sl_error *error)
{
    long long added[SL_KEPT_TABLES] = {0}, scene_rows = 0;
    for (int i = 0; i < SL_KEPT_TABLES; i++) {
        const bool counts = i == 0 || (i >= 3 && i <= 5);
        if (!check_alike(log, i, version, counts ? &count->there : &scene_rows, error) ||
            !take_rows(log, i, version, &added[i], error)) {
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

/* The file may have been changed since it was looked at. */
static bool attach(sl_log *log, const char *path, int version, sl_error *error)
{
    char what[SL_STRANGE] = "";
    bool known = false;
    sl_sql_run(log, "DETACH other", NULL); /* that an earlier merge could not let go; else there is none */
    sl_statement put = sl_sql(log, "ATTACH ? AS other", error);
    sl_put_text(&put, path);
    if (!sl_sql_done(&put) || !sl_known_compare(log, "other", version, &known, what, error)) {
        return false;
    }
    if (!known) {
        return sl_known_strange(log, what, error);
    }
    return true;
}

/* Every row is read before any is taken: what no slowlift keeps is not spread. */
static bool other_is_sound(const char *path, int *version, int64_t *bytes, sl_error *error)
{
    sl_log *other = NULL;
    if (!sl_log_open(&other, path, SL_LOG_READ, error)) {
        return false;
    }
    *version = other->version;
    *bytes = other->bytes;
    bool good = sl_log_each_reading(other, NULL, NULL, NULL, error) && sl_log_whole(other, error);
    if (good && other->copied) {
        good = sl_known_strange(other, _("it holds more than tables of ours"), error);
    }
    sl_log_close(other);
    return good;
}

bool sl_log_merge(sl_log *log, const char *other, sl_log_count *count, sl_error *error)
{
    int version = 0;
    int64_t bytes = 0;
    *count = (sl_log_count){.tests = 0};
    if (same_file(log->path, other)) {
        return sl_fail(error, SL_ERR_USAGE, "both are the same log", "name two files");
    }
    if (!other_is_sound(other, &version, &bytes, error)) {
        return false;
    }
    sl_sql_limit_steps(log, log->bytes + bytes);
    bool good = attach(log, other, version, error) && sl_sql_begin(log, error);
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
