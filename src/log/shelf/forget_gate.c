/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Whether a log may be written anew now: nobody else has it open, and no mix lies on hair.
 */
#include "base/language.h"
#include "base/memory.h"
#include "log/day/rounds.h"
#include "log/shelf/forget.h"

enum { ALONE_MS = 500, ON_HAIR_S = 86400 };

static bool lies_on_hair(const sl_bench *bench, const sl_instant *now)
{
    for (int i = 0; i < bench->n; i++) {
        sl_on_the_hair on;
        if (bench->state[i].stage == SL_STAGE_ON_HAIR && sl_bench_on_hair(bench, i, now, &on) &&
            on.since.seconds < ON_HAIR_S) {
            return true;
        }
    }
    return false;
}

static bool refuse_running(sl_log *log, const char *test, sl_error *error)
{
    sl_log_swatch *swatches = NULL;
    sl_bench_swatch *plan = NULL;
    sl_bench *bench = NULL;
    sl_event *events = NULL;
    sl_instant now;
    sl_error why = {.code = SL_OK};
    double speed = 0.0;
    int n = 0, n_events = 0;
    sl_scene *const scene = sl_log_scene(log, test, &why); /* without one a swatch has one application */
    bool good = (why.code != SL_ERR_NO_MEMORY || sl_fail(error, why.code, why.found, why.wanted)) &&
                sl_log_rehearsal(log, test, &speed, error) && sl_instant_now(&now, error) &&
                sl_log_swatches(log, test, &swatches, &n, error) && sl_day_holds(n, error) &&
                sl_log_events(log, test, swatches, n, &events, &n_events, error) &&
                sl_rounds_fold(scene, swatches, n, events, n_events, &plan, &bench, error);
    good = good && (speed > 0.0 || !lies_on_hair(bench, &now) ||
                    sl_fail_at(error, SL_ERR_INCONSISTENT, log->path, 0, 0, _("mix lies on hair of this log"),
                               _("rinse it first; nothing was forgotten")));
    sl_scene_free(scene);
    sl_free(bench);
    sl_free(plan);
    sl_free(events);
    sl_free(swatches);
    return good;
}

static bool refuse_any_running(sl_log *log, sl_error *error)
{
    sl_log_test *tests = NULL;
    int n = 0;
    bool good = sl_log_tests(log, &tests, &n, error);
    for (int i = 0; good && i < n; i++) {
        good = refuse_running(log, tests[i].id, error);
    }
    sl_free(tests);
    return good;
}

static bool refuse_open(sl_log *log, sl_error *error)
{
    return sl_fail_at(error, SL_ERR_INCONSISTENT, log->path, 0, 0,
                      _("another program has this log open, such as a day that runs"),
                      _("end it first; nothing was forgotten"));
}

/* From here on nobody else reads or writes it, and nothing lies beside it. Without a write-ahead log there is
 * somebody else or none; in between somebody may have come who made one again. */
static bool be_alone(sl_log *log, sl_error *error)
{
    static const char alone[] =
        "PRAGMA journal_mode = DELETE; PRAGMA locking_mode = EXCLUSIVE; BEGIN EXCLUSIVE;"
        " COMMIT; PRAGMA temp_store = MEMORY;";
    int64_t without = 0;
    sqlite3_busy_timeout(log->base, ALONE_MS);
    if (sqlite3_exec(log->base, alone, NULL, NULL, NULL) != SQLITE_OK) {
        const int code = sqlite3_errcode(log->base) & 0xff;
        return code == SQLITE_BUSY || code == SQLITE_LOCKED ? refuse_open(log, error)
                                                            : sl_sql_refuse(log, error);
    }
    return sl_sql_number(log, "SELECT journal_mode = 'delete' FROM pragma_journal_mode", &without, error) &&
           (without == 1 || refuse_open(log, error));
}

bool sl_forget_may(sl_log *log, sl_error *error)
{
    return refuse_any_running(log, error) && be_alone(log, error);
}
