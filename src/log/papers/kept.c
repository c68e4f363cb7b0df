/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See kept.h.
 */
#include "log/papers/kept.h"

#include "base/memory.h"
#include "log/day/due.h"
#include "log/day/dyed.h"
#include "log/day/rounds.h"
#include "log/day/tubs.h"

static bool read_rows(sl_kept_test *kept, sl_error *error)
{
    const char *const id = kept->test.id;
    if (!sl_log_swatches(kept->log, id, &kept->swatches, &kept->n, error) || !sl_day_holds(kept->n, error)) {
        return false;
    }
    kept->scene = sl_log_scene(kept->log, id, error);
    return kept->scene &&
           sl_log_events(kept->log, id, kept->swatches, kept->n, &kept->event, &kept->n_events, error) &&
           sl_log_readings(kept->log, id, &kept->readings, &kept->n_readings, error) &&
           sl_log_tubs(kept->log, id, kept->swatches, kept->n, &kept->tubs, error) &&
           sl_log_dyed(kept->log, id, &kept->dyed, error) && sl_log_whole(kept->log, error);
}

static bool fold(sl_kept_test *kept, double speed, sl_error *error)
{
    kept->arm = sl_new((size_t)kept->n + 1, sizeof *kept->arm, "reading a test", error);
    if (!kept->arm || !sl_instant_now(&kept->now, error) ||
        !sl_rounds_fold(kept->scene, kept->swatches, kept->n, kept->event, kept->n_events, &kept->bench,
                        &kept->folded, error)) {
        return false;
    }
    if (speed > 0.0 && kept->n_events > 0) {
        kept->now = kept->event[kept->n_events - 1].at;
    }
    for (int i = 0; i < kept->n; i++) {
        kept->arm[i] = kept->swatches[i].arm;
    }
    kept->went = (sl_day_went){.title = kept->test.title,
                               .scene_name = kept->test.scene_name,
                               .bench = kept->folded,
                               .record = {.swatch = kept->bench,
                                          .arm = kept->arm,
                                          .n = kept->n,
                                          .event = kept->event,
                                          .n_events = kept->n_events,
                                          .scene = kept->scene,
                                          .tubs = kept->tubs},
                               .now = &kept->now,
                               .rehearsed = speed > 0.0};
    sl_log_due_after(&kept->went, kept->swatches, kept->readings, kept->n_readings);
    return true;
}

bool sl_kept_test_read(sl_kept_test *kept, sl_log *log, const sl_log_test *test, sl_error *error)
{
    double speed = 0.0;
    kept->log = log;
    kept->test = *test;
    return read_rows(kept, error) && sl_log_rehearsal(log, test->id, &speed, error) &&
           fold(kept, speed, error);
}

bool sl_kept_test_open(sl_kept_test *kept, const char *path, const char *test, sl_error *error)
{
    sl_log_test found;
    *kept = (sl_kept_test){.log = NULL};
    return sl_log_open(&kept->log, path, SL_LOG_READ, error) && sl_log_find(kept->log, test, &found, error) &&
           sl_kept_test_read(kept, kept->log, &found, error);
}

static bool seen_at_the_end(const sl_kept_test *kept)
{
    for (int i = 0; i < kept->n_readings; i++) {
        if (kept->readings[i].minute <= SL_NOT_READ) {
            return true;
        }
    }
    return false;
}

sl_test_state sl_kept_test_state(const sl_kept_test *kept)
{
    const sl_test_state seen = seen_at_the_end(kept) ? SL_TEST_COMPARED : SL_TEST_RINSED;
    if (!kept->folded->started) {
        return seen == SL_TEST_COMPARED ? seen : SL_TEST_PLANNED;
    }
    for (int i = 0; i < kept->n; i++) {
        if (kept->bench[i].contact_s >= 0 && kept->folded->state[i].stage != SL_STAGE_RINSED) {
            return SL_TEST_RUNNING;
        }
    }
    return seen;
}

void sl_kept_test_close(sl_kept_test *kept)
{
    sl_free(kept->folded);
    sl_free(kept->arm);
    sl_free(kept->bench);
    sl_free(kept->tubs);
    sl_free(kept->readings);
    sl_free(kept->event);
    sl_free(kept->swatches);
    sl_scene_free(kept->scene);
    sl_log_close(kept->log);
    *kept = (sl_kept_test){.log = NULL};
}
