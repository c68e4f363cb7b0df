/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See known.h. The tables to compare with are made in memory by the same steps as those of a new log, so
 * that they are told once.
 */
#include "log/store/known.h"

#include <ctype.h>
#include <stdio.h>
#include <string.h>

#include "base/language.h"
#include "log/store/tables.h"

bool sl_known_settle(sl_log *log, sl_error *error)
{
    static const struct {
        int what, value;
    } limits[] = {{SQLITE_LIMIT_LENGTH, 4 << 20},
                  {SQLITE_LIMIT_SQL_LENGTH, 100000},
                  {SQLITE_LIMIT_COLUMN, 100},
                  {SQLITE_LIMIT_EXPR_DEPTH, 200},
                  {SQLITE_LIMIT_COMPOUND_SELECT, 20},
                  {SQLITE_LIMIT_FUNCTION_ARG, 20},
                  {SQLITE_LIMIT_VARIABLE_NUMBER, 100},
                  {SQLITE_LIMIT_TRIGGER_DEPTH, 5},
                  {SQLITE_LIMIT_LIKE_PATTERN_LENGTH, 200}};
    static const struct {
        int what, value;
    } switches[] = {{SQLITE_DBCONFIG_DEFENSIVE, 1},       {SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0},
                    {SQLITE_DBCONFIG_ENABLE_TRIGGER, 0},  {SQLITE_DBCONFIG_ENABLE_VIEW, 0},
                    {SQLITE_DBCONFIG_WRITABLE_SCHEMA, 0}, {SQLITE_DBCONFIG_ENABLE_LOAD_EXTENSION, 0},
                    {SQLITE_DBCONFIG_ENABLE_FKEY, 1}};
    for (size_t i = 0; i < sizeof limits / sizeof limits[0]; i++) {
        sqlite3_limit(log->base, limits[i].what, limits[i].value);
    }
    for (size_t i = 0; i < sizeof switches / sizeof switches[0]; i++) {
        if (sqlite3_db_config(log->base, switches[i].what, switches[i].value, (int *)NULL) != SQLITE_OK) {
            return sl_fail(error, SL_ERR_MISSING_PART, _("an SQLite that can be told to trust no file"),
                           sqlite3_libversion());
        }
    }
    return sl_sql_run(log, "PRAGMA cell_size_check = ON", error);
}

/* ---- comparing ------------------------------------------------------------------------------------------
 */

static bool same_text(sl_statement *one, sl_statement *two, int column)
{
    return sqlite3_column_type(one->handle, column) == sqlite3_column_type(two->handle, column) &&
           sqlite3_column_bytes(one->handle, column) == sqlite3_column_bytes(two->handle, column) &&
           strcmp(sl_text_at(one, column), sl_text_at(two, column)) == 0;
}

/* "trigger reading_stays"; the file's own names only where they are plain. */
static void name_of(sl_statement *row, char name[64])
{
    snprintf(name, 64, "%.20s %.40s", sl_text_at(row, 0), sl_text_at(row, 1));
    for (size_t i = 0; name[i] != '\0'; i++) {
        name[i] = (char)(isalnum((unsigned char)name[i]) || name[i] == ' ' ? name[i] : '_');
    }
}

static int order_of(sl_statement *one, sl_statement *two)
{
    const int kinds = strcmp(sl_text_at(one, 0), sl_text_at(two, 0));
    return kinds != 0 ? kinds : strcmp(sl_text_at(one, 1), sl_text_at(two, 1));
}

/* Both in the same order; the first thing that is not in both is told. */
static bool compare_rows(sl_statement *ours, sl_statement *theirs, char what[SL_STRANGE])
{
    char name[64];
    bool more = sl_next_row(ours), found = sl_next_row(theirs);
    while (more && found && order_of(ours, theirs) == 0) {
        if (!same_text(ours, theirs, 2) || !same_text(ours, theirs, 3)) {
            name_of(ours, name);
            snprintf(what, SL_STRANGE, _("its \"%s\" is another"), name);
            return false;
        }
        more = sl_next_row(ours);
        found = sl_next_row(theirs);
    }
    if (found && (!more || order_of(theirs, ours) < 0)) {
        name_of(theirs, name);
        snprintf(what, SL_STRANGE, _("it holds \"%s\" besides its own"), name);
    } else if (more) {
        name_of(ours, name);
        snprintf(what, SL_STRANGE, _("it lacks \"%s\""), name);
    }
    return !more && !found;
}

/* Each table and index has pages of its own. */
static bool roots_apart(sl_log *log, const char *base, bool *apart, sl_error *error)
{
    char text[200];
    int64_t shared = 0;
    snprintf(text, sizeof text,
             "SELECT count(*) - count(DISTINCT rootpage) + count(*) FILTER (WHERE rootpage < 2)"
             " FROM %s.sqlite_schema WHERE type IN ('table', 'index')",
             base);
    const bool good = sl_sql_number(log, text, &shared, error);
    *apart = shared == 0;
    return good;
}

static bool in_utf8(sl_log *log, const char *base, bool *utf8, sl_error *error)
{
    char text[64];
    snprintf(text, sizeof text, "PRAGMA %s.encoding", base);
    sl_statement ask = sl_sql(log, text, error);
    *utf8 = sl_next_row(&ask) && strcmp(sl_text_at(&ask, 0), "UTF-8") == 0;
    return sl_sql_leave(&ask);
}

static bool compare_with(sl_log *reference, sl_log *log, const char *base, bool *known, char what[SL_STRANGE],
                         sl_error *error)
{
    char text[160];
    bool apart = true, utf8 = true;
    snprintf(text, sizeof text, "SELECT type, name, tbl_name, sql FROM %s.sqlite_schema ORDER BY type, name",
             base);
    sl_statement ours = sl_sql(
        reference, "SELECT type, name, tbl_name, sql FROM main.sqlite_schema ORDER BY type, name", error);
    sl_statement theirs = sl_sql(log, text, error);
    *known = compare_rows(&ours, &theirs, what);
    const bool good = sl_sql_leave(&ours);
    if (!sl_sql_leave(&theirs) || !good || !roots_apart(log, base, &apart, error) ||
        !in_utf8(log, base, &utf8, error)) {
        return false;
    }
    if (*known && (!apart || !utf8)) {
        snprintf(what, SL_STRANGE, "%s", apart ? _("its text is not in UTF-8") : _("two tables share pages"));
        *known = false;
    }
    return true;
}

bool sl_known_compare(sl_log *log, const char *base, int version, bool *known, char what[SL_STRANGE],
                      sl_error *error)
{
    sl_log reference = {.schema = -1, .path = ":memory:"};
    *known = false;
    if (sqlite3_open(reference.path, &reference.base) != SQLITE_OK) {
        sl_sql_refuse(&reference, error);
        sqlite3_close(reference.base);
        return false;
    }
    const bool good = sl_tables_build(&reference, 0, version, error) &&
                      compare_with(&reference, log, base, known, what, error);
    sqlite3_close(reference.base);
    return good;
}

bool sl_known_strange(const sl_log *log, const char *what, sl_error *error)
{
    return sl_fail_at(error, SL_ERR_STRANGE_LOG, log->path, 0, 0, what,
                      _("nothing is written to it; slowlift log rescue copies its rows into a new log"));
}

bool sl_known_refuse_strange(sl_log *log, int version, sl_error *error)
{
    char what[SL_STRANGE] = "";
    bool known = false;
    if (!sl_known_compare(log, "main", version, &known, what, error)) {
        return false;
    }
    return known ? sl_sql_number(log, "PRAGMA schema_version", &log->schema, error)
                 : sl_known_strange(log, what, error);
}
