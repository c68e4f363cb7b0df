/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The log's tables. Every version's step from the one before stands here for good: a new table or
 * column is a new step, never a change of an old one. docs/log.md says what each column is.
 *
 * Invariant: a row is added, never changed or removed: triggers refuse both.
 */
#include "log/store/tables.h"

#include <stdio.h>
#include <string.h>

#include "base/language.h"

/* Words that a column may hold are those of clock.h, observation.h and log.h; tests hold them together. */
static const char version_1_tests[] =
    "CREATE TABLE test ("
    " id TEXT PRIMARY KEY NOT NULL CHECK (length(id) = 36),"
    " title TEXT NOT NULL CHECK (length(title) BETWEEN 1 AND 200),"
    " operator TEXT NOT NULL CHECK (length(operator) <= 32),"
    " made TEXT NOT NULL CHECK (made GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]T*'),"
    " scene_name TEXT NOT NULL,"
    " scene_sha256 TEXT NOT NULL CHECK (length(scene_sha256) = 64)"
    ") STRICT;"
    "CREATE TABLE scene_file ("
    " test TEXT NOT NULL REFERENCES test(id),"
    " place INTEGER NOT NULL CHECK (place >= 0)," /* in the order in which they were read; 0: the scene */
    " kind TEXT NOT NULL,"
    " name TEXT NOT NULL,"
    " text TEXT NOT NULL,"
    " PRIMARY KEY (test, place),"
    " UNIQUE (test, kind, name)"
    ") STRICT;"
    "CREATE TABLE swatch ("
    " id TEXT PRIMARY KEY NOT NULL CHECK (length(id) = 36),"
    " test TEXT NOT NULL REFERENCES test(id),"
    " code TEXT NOT NULL CHECK (length(code) BETWEEN 1 AND 7),"
    " arm TEXT NOT NULL,"
    " block INTEGER NOT NULL CHECK (block >= 0),"
    " place INTEGER NOT NULL CHECK (place >= 0),"
    " contact_s INTEGER CHECK (contact_s >= 0)," /* null: nothing is put on */
    " dwell_s INTEGER NOT NULL CHECK (dwell_s >= 0),"
    " label_s INTEGER CHECK (label_s > 0)," /* null: not entered */
    " label_from TEXT NOT NULL CHECK (label_from IN ('mixing', 'application')),"
    " mix_age_s INTEGER NOT NULL CHECK (mix_age_s >= 0),"
    " looks_min TEXT NOT NULL," /* minutes from contact, by commas */
    " UNIQUE (test, code),"
    " UNIQUE (test, block, place)"
    ") STRICT;"
    "CREATE TABLE event ("
    " kept INTEGER PRIMARY KEY," /* in the order in which they were kept */
    " id TEXT NOT NULL UNIQUE CHECK (length(id) = 36),"
    " test TEXT NOT NULL REFERENCES test(id),"
    " swatch TEXT REFERENCES swatch(id)," /* null: all, or none */
    " kind TEXT NOT NULL CHECK (kind IN ('started', 'mixed', 'applied', 'wiped and looked',"
    "  'looked at skin, heat and stretch', 'rinsed', 'note', 'stop and rinse', 'washed out', 'undone',"
    "  'sound heard', 'sound not heard')),"
    " boot_ns INTEGER NOT NULL,"
    " wall_ns INTEGER NOT NULL,"
    " boot_id TEXT NOT NULL,"
    " at TEXT NOT NULL," /* the wall time in ISO 8601, for people and other tools */
    " reason TEXT CHECK (reason IN ('goal', 'label', 'damage', 'skin', 'eyes', 'heat', 'dried', 'plan',"
    "  'mistake', 'not said yet')),"
    " about TEXT REFERENCES event(id),"
    " note TEXT CHECK (length(note) <= 200)"
    ") STRICT;"
    "CREATE INDEX event_of_test ON event (test, kept);"
    "CREATE TABLE zone (" /* of the scene */
    " test TEXT NOT NULL REFERENCES test(id),"
    " place INTEGER NOT NULL CHECK (place >= 0)," /* root end first */
    " name TEXT NOT NULL,"
    " PRIMARY KEY (test, place),"
    " UNIQUE (test, name)"
    ") STRICT;";

/* A list after IN is built anew for every row, which took more than half of an import; OR is not. */
static const char version_1_readings[] =
    "CREATE TABLE reading ("
    " kept INTEGER PRIMARY KEY,"
    " id TEXT NOT NULL UNIQUE CHECK (length(id) = 36),"
    " swatch TEXT NOT NULL REFERENCES swatch(id),"
    " zone TEXT NOT NULL,"
    " minute REAL CHECK (minute >= 0)," /* on the hair, when a piece was wiped or cut; null: at the end */
    " hours_after REAL CHECK (hours_after >= 0)," /* since the last water; null: at once */
    " judge TEXT NOT NULL CHECK (length(judge) BETWEEN 1 AND 32),"
    " blind INTEGER CHECK (blind = 0 OR blind = 1),"
    " at TEXT NOT NULL CHECK (at GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]T*'),"
    " grade TEXT CHECK (grade = 'no change' OR grade = 'slight' OR grade = 'about half' OR"
    "  grade = 'mostly gone' OR grade = 'ghost only' OR grade = 'as undyed'),"
    " cotton TEXT CHECK (cotton = 'none' OR cotton = 'faint' OR cotton = 'clear' OR cotton = 'strong'),"
    " feel TEXT CHECK (feel = 'as untreated' OR feel = 'slightly dry' OR feel = 'rough' OR"
    "  feel = 'slippery-soft' OR feel = 'gummy'),"
    " stretch TEXT CHECK (stretch = 'springs back' OR stretch = 'slow' OR stretch = 'stays long' OR"
    "  stretch = 'breaks'),"
    " outcome TEXT CHECK (outcome = 'clear' OR outcome = 'ghost' OR outcome = 'shifted hue' OR"
    "  outcome = 'partial' OR outcome = 'none' OR outcome = 'invalid'),"
    " L REAL CHECK (L BETWEEN 0 AND 100), a REAL CHECK (a BETWEEN -150 AND 150),"
    " b REAL CHECK (b BETWEEN -150 AND 150),"
    " sd_L REAL CHECK (sd_L >= 0), sd_a REAL CHECK (sd_a >= 0), sd_b REAL CHECK (sd_b >= 0),"
    " n INTEGER CHECK (n BETWEEN 1 AND 1000)," /* instrument readings behind the mean */
    " illuminant TEXT CHECK (length(illuminant) <= 24), observer TEXT CHECK (observer = '2' OR observer = "
    "'10'),"
    " geometry TEXT CHECK (length(geometry) <= 24),"
    " level REAL CHECK (level BETWEEN 1 AND 11), tone TEXT CHECK (length(tone) <= 24),"
    " photo TEXT, photo_sha256 TEXT CHECK (length(photo_sha256) = 64),"
    " note TEXT CHECK (length(note) <= 200),"
    " replaces TEXT REFERENCES reading(id),"
    " CHECK ((L IS NULL) = (a IS NULL) AND (a IS NULL) = (b IS NULL)),"
    " CHECK (L IS NULL OR (illuminant IS NOT NULL AND observer IS NOT NULL)),"
    " CHECK ((photo IS NULL) = (photo_sha256 IS NULL))"
    ") STRICT;"
    "CREATE INDEX reading_of_swatch ON reading (swatch, zone);"
    "CREATE INDEX reading_replaced ON reading (replaces) WHERE replaces IS NOT NULL;"
    "CREATE TABLE import (" /* files of CSV that were taken, so that none is by mistake taken twice */
    " kept INTEGER PRIMARY KEY,"
    " id TEXT NOT NULL UNIQUE CHECK (length(id) = 36),"
    " sha256 TEXT NOT NULL CHECK (length(sha256) = 64),"
    " name TEXT NOT NULL,"
    " at TEXT NOT NULL,"
    " readings INTEGER NOT NULL CHECK (readings >= 0)"
    ") STRICT;"
    "CREATE INDEX import_of_file ON import (sha256);";

static const char *const tables[] = {"test", "scene_file", "zone", "swatch", "event", "reading", "import"};

static bool guard(sl_log *log, sl_error *error)
{
    for (size_t i = 0; i < sizeof tables / sizeof tables[0]; i++) {
        const char *const table = tables[i];
        char text[400];
        snprintf(text, sizeof text,
                 "CREATE TRIGGER %s_is_kept BEFORE DELETE ON %s BEGIN"
                 " SELECT RAISE(ABORT, 'rows of this log are never removed'); END;"
                 "CREATE TRIGGER %s_stays BEFORE UPDATE ON %s BEGIN"
                 " SELECT RAISE(ABORT, 'rows of this log are never changed'); END;",
                 table, table, table, table);
        if (!sl_sql_run(log, text, error)) {
            return false;
        }
    }
    return true;
}

static bool to_version_1(sl_log *log, sl_error *error)
{
    return sl_sql_run(log, version_1_tests, error) && sl_sql_run(log, version_1_readings, error) &&
           guard(log, error);
}

/* A time ladder. A swatch has looks or pieces, never both. */
static const char version_2[] =
    "ALTER TABLE swatch ADD COLUMN"
    " ladder_min TEXT NOT NULL DEFAULT '' CHECK (ladder_min = '' OR looks_min = '');";

static bool to_version_2(sl_log *log, sl_error *error)
{
    return sl_sql_run(log, version_2, error);
}

/* What a machine reads of an event is a word or a number of its own, in no language. */
#define EVENT_OF_VERSION_3(COLUMN)                                                                           \
    COLUMN(speed, "REAL CHECK (speed > 1)") /* of a rehearsal's clock; null: the real one */                 \
    COLUMN(late_s, "INTEGER")               /* after the plan; null: nothing was planned */                  \
    COLUMN(clocks, "TEXT CHECK (clocks IN ('disagreed', 'restarted'))") /* null: they agreed */              \
    COLUMN(remark,                                                                                           \
           "TEXT CHECK (remark IN ('mix ran or dripped', 'an edge dried', 'it feels warm',"                  \
           " 'foam or bubbles', 'odd smell or colour', 'the cover came off', 'more mix was put on',"         \
           " 'see the paper', 'no sound device', 'contents told', 'the emergency number was called',"        \
           " 'a doctor was told', 'poison information was told', 'who is in charge was told',"               \
           " 'nobody was told yet'))")

static bool to_version_3(sl_log *log, sl_error *error)
{
#define ADDED(name, kind) "ALTER TABLE event ADD COLUMN " #name " " kind ";"
    return sl_sql_run(log, EVENT_OF_VERSION_3(ADDED), error);
#undef ADDED
}

/* What version 3's list of remarks has no room for; and what was measured. */
#define EVENT_OF_VERSION_4(COLUMN)                                                                           \
    COLUMN(deed, "TEXT CHECK (deed IN ('not said to be clean', 'hair clean', 'leftover left open',"          \
                 " 'leftover emptied', 'grams weighed', 'room measured'))")                                  \
    COLUMN(value, "REAL") /* grams, C; null: nothing was measured */

static bool to_version_4(sl_log *log, sl_error *error)
{
#define ADDED(name, kind) "ALTER TABLE event ADD COLUMN " #name " " kind ";"
    return sl_sql_run(log, EVENT_OF_VERSION_4(ADDED), error);
#undef ADDED
}

/* Under which model the test was begun; null: before models had numbers. */
#define TEST_OF_VERSION_5(COLUMN) COLUMN(model, "INTEGER CHECK (model > 0)")

static bool to_version_5(sl_log *log, sl_error *error)
{
#define ADDED(name, kind) "ALTER TABLE test ADD COLUMN " #name " " kind ";"
    return sl_sql_run(log, TEST_OF_VERSION_5(ADDED), error);
#undef ADDED
}

/* Whether what the model says had been shown before the grade; null: not known. */
#define READING_OF_VERSION_6(COLUMN) COLUMN(uncovered, "INTEGER CHECK (uncovered = 0 OR uncovered = 1)")

static bool to_version_6(sl_log *log, sl_error *error)
{
#define ADDED(name, kind) "ALTER TABLE reading ADD COLUMN " #name " " kind ";"
    return sl_sql_run(log, READING_OF_VERSION_6(ADDED), error);
#undef ADDED
}

/* to_version[v] makes version v + 1 out of v. */
static bool (*const to_version[SL_LOG_VERSION])(sl_log *log, sl_error *error) = {
    to_version_1, to_version_2, to_version_3, to_version_4, to_version_5, to_version_6};

int sl_column_since(const char *name)
{
#define IS_IT(column, kind) || strcmp(name, #column) == 0
    const bool third = false EVENT_OF_VERSION_3(IS_IT);
    const bool fourth = false EVENT_OF_VERSION_4(IS_IT);
    const bool fifth = false TEST_OF_VERSION_5(IS_IT);
    const bool sixth = false READING_OF_VERSION_6(IS_IT);
#undef IS_IT
    return sixth ? 6 : fifth ? 5 : fourth ? 4 : third ? 3 : strcmp(name, "ladder_min") == 0 ? 2 : 1;
}

const char *sl_rows_of(const char *base, const char *table, int version, char text[SL_ROWS])
{
#define LACKING(name, kind) ", NULL AS " #name
    const char *const lacking = version < 6 && strcmp(table, "reading") == 0  ? READING_OF_VERSION_6(LACKING)
                                : version < 5 && strcmp(table, "test") == 0   ? TEST_OF_VERSION_5(LACKING)
                                : version < 2 && strcmp(table, "swatch") == 0 ? ", '' AS ladder_min"
                                : strcmp(table, "event") != 0                 ? NULL
                                : version < 3 ? EVENT_OF_VERSION_3(LACKING) EVENT_OF_VERSION_4(LACKING)
                                : version < 4 ? EVENT_OF_VERSION_4(LACKING)
                                              : NULL;
#undef LACKING
    if (lacking) {
        snprintf(text, SL_ROWS, "(SELECT *%s FROM %s.%s)", lacking, base, table);
    } else {
        snprintf(text, SL_ROWS, "%s.%s", base, table);
    }
    return text;
}

bool sl_tables_build(sl_log *log, int from, int to, sl_error *error)
{
    bool good = true;
    for (int v = from; good && v < to; v++) {
        good = to_version[v](log, error);
    }
    return good;
}

static bool refuse_kind(const sl_log *log, const char *why, sl_error *error)
{
    return sl_fail_at(error, SL_ERR_NO_LOG, log->path, 0, 0, why, _("name one, such as strands.db"));
}

static bool refuse_newer(const sl_log *log, int64_t version, sl_error *error)
{
    char text[24], wanted[160];
    snprintf(text, sizeof text, "%lld", (long long)version);
    snprintf(wanted, sizeof wanted,
             _("a newer slowlift wrote it, and this one reads up to %d; nothing was changed"),
             SL_LOG_VERSION);
    return sl_fail_at(error, SL_ERR_NEWER_VERSION, log->path, 0, 0, text, wanted);
}

bool sl_tables_check(sl_log *log, int *version, sl_error *error)
{
    int64_t application = 0, found = 0, things = 0;
    char why[96];
    if (!sl_sql_number(log, "PRAGMA application_id", &application, error) ||
        !sl_sql_number(log, "PRAGMA user_version", &found, error) ||
        !sl_sql_number(log, "SELECT count(*) FROM sqlite_schema", &things, error)) {
        return false;
    }
    if (application != SL_LOG_APPLICATION && (application != 0 || things != 0 || found != 0)) {
        return refuse_kind(log, _("it holds something else"), error);
    }
    if (found > SL_LOG_VERSION) {
        return refuse_newer(log, found, error);
    }
    if (found < 0 || (found == 0 && things != 0)) {
        snprintf(why, sizeof why, _("its version is %lld, which no slowlift writes"), (long long)found);
        return refuse_kind(log, why, error);
    }
    *version = (int)found;
    return true;
}

bool sl_tables_make(sl_log *log, sl_error *error)
{
    int version = 0;
    char text[96];
    if (!sl_sql_begin(log, error)) {
        return false;
    }
    snprintf(text, sizeof text, "PRAGMA application_id = %d; PRAGMA user_version = %d;", SL_LOG_APPLICATION,
             SL_LOG_VERSION);
    bool good = sl_tables_check(log, &version, error) && /* again: another program may have been here */
                sl_tables_build(log, version, SL_LOG_VERSION, error) && sl_sql_run(log, text, error);
    good = sl_sql_end(log, good, error);
    log->version = good ? SL_LOG_VERSION : log->version;
    return good;
}
