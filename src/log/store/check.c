/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Looking over a log: what can be known of it without changing it. Every page is read twice, once by
 * SQLite's own check and once row by row.
 */
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/append.h"
#include "base/language.h"
#include "base/memory.h"
#include "log/store/known.h"
#include "log/store/rescue.h"
#include "log/store/rows.h"
#include "log/store/scene_kept.h"
#include "log/store/tables.h"

enum { PAGES_TOLD = 5, SENTENCE = 352 };

typedef struct sl_looking {
    sl_log *log;
    sl_log_tell *tell;
    void *self;
    bool sound;
    sl_error *error;
} sl_looking;

__attribute__((format(printf, 3, 4))) static void say(sl_looking *at, bool fault, const char *format, ...)
{
    char sentence[SENTENCE];
    va_list words;
    va_start(words, format);
    vsnprintf(sentence, sizeof sentence, format, words);
    va_end(words);
    at->sound = at->sound && !fault;
    at->tell(at->self, fault, sentence);
}

/* ---- the file as it is -----------------------------------------------------------------------------------
 */

static bool look_at_tables(sl_looking *at)
{
    char what[SL_STRANGE] = "";
    bool known = false;
    if (!sl_known_compare(at->log, "main", at->log->version, &known, what, at->error)) {
        return false;
    }
    say(at, !known, known ? _("Tables: as slowlift makes them, version %d.") : _("Tables, version %d: %s."),
        at->log->version, what);
    return true;
}

static void look_at_pages(sl_looking *at)
{
    char fault[240];
    int n = 0;
    sl_statement ask = sl_sql(at->log, "PRAGMA main.integrity_check(100)", NULL);
    while (sl_next_row(&ask)) {
        if (strcmp(sl_text_at(&ask, 0), "ok") != 0 && n++ < PAGES_TOLD) {
            sl_copy_at(&ask, 0, fault, sizeof fault);
            say(at, true, _("Pages: %s."), fault);
        }
    }
    const bool good = sl_sql_leave(&ask);
    if (!good) {
        say(at, true, "%s", _("Pages: SQLite cannot read all of them."));
    } else if (n == 0) {
        say(at, false, "%s", _("Pages: every one is as it should be."));
    } else if (n > PAGES_TOLD) {
        say(at, true, _("Pages: %d faults in all, or more."), n);
    }
}

static void look_at_references(sl_looking *at)
{
    long long n = 0;
    sl_statement ask = sl_sql(at->log, "PRAGMA main.foreign_key_check", NULL);
    while (sl_next_row(&ask)) {
        n++;
    }
    if (!sl_sql_leave(&ask)) {
        say(at, true, "%s", _("References: they cannot be followed."));
    } else {
        say(at, n > 0,
            n == 0 ? _("References: every one leads to a row.")
                   : _("References: %lld rows refer to one that is not there."),
            n);
    }
}

/* ---- what can be read ------------------------------------------------------------------------------------
 */

static bool count_rows(sl_looking *at)
{
    char words[SENTENCE - 32] = "", text[64];
    for (int i = 0; i < SL_KEPT_TABLES; i++) {
        int64_t n = 0;
        snprintf(text, sizeof text, "SELECT count(*) FROM %s", sl_kept_tables[i].name);
        if (!sl_sql_number(at->log, text, &n, at->error)) {
            return false;
        }
        sl_append_item(words, sizeof words, ", ", "%s %lld", sl_kept_tables[i].name, (long long)n);
    }
    say(at, false, _("Rows: %s."), words);
    return true;
}

static bool look_at_zones(sl_looking *at)
{
    int64_t n = 0;
    const bool good =
        sl_sql_number(at->log,
                      "SELECT count(*) FROM reading r JOIN swatch s ON s.id = r.swatch WHERE NOT EXISTS"
                      " (SELECT 1 FROM zone z WHERE z.test = s.test AND z.name = r.zone)",
                      &n, at->error);
    say(at, n > 0,
        n == 0 ? _("Zones: every reading is of a zone of its scene.")
               : _("Zones: %lld readings are of a zone that their scene lacks."),
        (long long)n);
    return good;
}

static bool look_at_corrections(sl_looking *at)
{
    int64_t n = 0;
    const bool good = sl_sql_number(at->log,
                                    "SELECT count(*) FROM reading r JOIN reading o ON o.id = r.replaces"
                                    " WHERE o.kept >= r.kept OR o.swatch <> r.swatch",
                                    &n, at->error);
    say(at, n > 0,
        n == 0 ? _("Corrections: each comes after what it corrects.")
               : _("Corrections: %lld correct a reading that came later, or of another swatch."),
        (long long)n);
    return good;
}

/* Clocks are set, and logs are merged: worth a word, and no fault. */
static bool look_at_times(sl_looking *at)
{
    int64_t n = 0;
    const bool good =
        sl_sql_number(at->log,
                      "SELECT count(*) FROM (SELECT wall_ns, boot_ns, boot_id, lag(wall_ns) OVER w AS wall,"
                      " lag(boot_ns) OVER w AS boot, lag(boot_id) OVER w AS start FROM event"
                      " WINDOW w AS (PARTITION BY test ORDER BY kept))"
                      " WHERE wall_ns < wall OR (boot_id = start AND boot_ns < boot)",
                      &n, at->error);
    say(at, false,
        n == 0 ? _("Times: none goes back.")
               : _("Times: %lld events are earlier than the one before (a clock that was set, or "
                   "logs that were merged)."),
        (long long)n);
    return good;
}

static bool look_at_rows(sl_looking *at)
{
    sl_error why = {.code = SL_OK};
    if (!sl_log_each_reading(at->log, NULL, NULL, NULL, at->error) || !count_rows(at)) {
        return false;
    }
    if (!sl_log_whole(at->log, &why)) {
        say(at, true, "%s.", why.found);
    } else {
        say(at, false, "%s", _("Values: all are such as slowlift keeps."));
    }
    return look_at_zones(at) && look_at_corrections(at) && look_at_times(at);
}

/* ---- scenes ----------------------------------------------------------------------------------------------
 */

static bool look_at_scenes(sl_looking *at)
{
    sl_log_test *tests = NULL;
    char hash[SL_SHA256_TEXT];
    int n = 0, changed = 0;
    bool good = sl_log_tests(at->log, &tests, &n, at->error);
    for (int i = 0; good && i < n; i++) {
        good = sl_kept_scene_hash(at->log, tests[i].id, hash, at->error);
        if (good && strcmp(hash, tests[i].scene_sha256) != 0) {
            changed++;
        }
    }
    sl_free(tests);
    if (good) {
        say(at, changed > 0,
            changed == 0 ? _("Scenes: every file is as it was kept.")
                         : sl_plural("Scenes: %d has files that are not as they were kept.",
                                     "Scenes: %d have files that are not as they were kept.", changed),
            changed);
    }
    return good;
}

bool sl_log_check(const char *path, sl_log_tell *tell, void *self, bool *sound, sl_error *error)
{
    sl_looking at = {.tell = tell, .self = self, .sound = true, .error = error};
    if (!sl_log_open_raw(&at.log, path, error)) {
        return false;
    }
    bool good = look_at_tables(&at);
    if (good) {
        look_at_pages(&at);
        look_at_references(&at);
    }
    sl_log_close(at.log);
    at.log = NULL;
    good = good && sl_log_open(&at.log, path, SL_LOG_READ, error) && look_at_rows(&at) && look_at_scenes(&at);
    sl_log_close(at.log);
    *sound = at.sound;
    return good;
}
