/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See day_log.h.
 */
#include "view/day/day_log.h"

#include <stdio.h>

#include "base/language.h"
#include "base/memory.h"
#include "log/day/rounds.h"
#include "view/day/day.h"

struct sl_day_log {
    sl_log *log;
    const char *path; /* borrowed */
    sl_log_test test;
    sl_log_swatch *swatches; /* [n] */
    int n;
    sl_scene *scene; /* as it was */
};

static bool read_test(sl_day_log *from, const char *path, const char *test, sl_error *error)
{
    if (!sl_log_open(&from->log, path, SL_LOG_WRITE, error) ||
        !sl_log_find(from->log, test, &from->test, error) ||
        !sl_log_swatches(from->log, from->test.id, &from->swatches, &from->n, error)) {
        return false;
    }
    if (from->n == 0 || from->n > SL_BENCH_MOST) {
        return sl_fail(error, SL_ERR_TOO_LARGE, _("this test has no swatch, or too many for one day"), "768");
    }
    from->scene = sl_log_scene(from->log, from->test.id, error);
    if (from->scene != NULL) {
        sl_rounds_fill(from->scene, from->swatches, from->n);
    }
    return from->scene != NULL;
}

sl_day_log *sl_day_log_open(const char *path, const char *test, sl_error *error)
{
    sl_day_log *const from = sl_new(1, sizeof *from, "opening the log", error);
    if (from != NULL) {
        from->path = path;
    }
    if (from != NULL && read_test(from, path, test, error)) {
        return from;
    }
    if (error->file[0] == '\0') {
        snprintf(error->file, sizeof error->file, "%s", path);
    }
    sl_day_log_close(from);
    return NULL;
}

const char *sl_day_log_title(const sl_day_log *from)
{
    return from->test.title;
}

void sl_day_log_close(sl_day_log *from)
{
    if (from != NULL) {
        sl_scene_free(from->scene);
        sl_free(from->swatches);
        sl_log_close(from->log);
        sl_free(from);
    }
}

bool sl_day_log_watch(sl_day_log *from, const sl_eyes *eyes, double scale, const char *say,
                      SDL_Window *window, int *lost, sl_error *error)
{
    const sl_day_wish wish = {.log = from->log,
                              .path = from->path,
                              .test = &from->test,
                              .swatches = from->swatches,
                              .n = from->n,
                              .scene = from->scene,
                              .eyes = eyes,
                              .scale = scale,
                              .say = say};
    return sl_day_run(&wish, window, lost, error);
}
