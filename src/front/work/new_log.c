/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See new_log.h.
 */
#include "front/work/new_log.h"

#include <errno.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

#include "base/language.h"
#include "slowlift/report.h"

static bool refuse(const char *path, int reason, sl_error *error)
{
    char quoted[SL_ERROR_TEXT_SIZE];
    snprintf(quoted, sizeof quoted, "\"%.200s\"", path);
    return sl_fail(error, SL_ERR_CANNOT_WRITE, quoted, strerror(reason));
}

bool sl_new_log_begin(sl_new_log *made, const char *path, sl_error *error)
{
    *made = (sl_new_log){.path = path};
    sl_temporary_sweep(path);
    const char *const slash = strrchr(path, '/');
    const char *const name = slash != NULL ? slash + 1 : path;
    if (access(path, F_OK) == 0 || errno != ENOENT || name[0] == '\0') {
        snprintf(made->at, sizeof made->at, "%s", path); /* the log itself, or what is wrong with it */
        return true;
    }
    if (!sl_temporary_folder(&made->beside, path)) {
        return refuse(path, errno, error);
    }
    const int length = snprintf(made->at, sizeof made->at, "%s/%s", made->beside.path, name);
    if (length < 0 || (size_t)length >= sizeof made->at) {
        sl_temporary_remove(&made->beside);
        return refuse(path, ENAMETOOLONG, error);
    }
    return true;
}

/* SQLite empties its write-ahead log into the file when the last user closes it; where it could not, the
 * file alone is not the whole log. */
static bool is_whole(const sl_new_log *made)
{
    char wal[sizeof made->at + 8];
    snprintf(wal, sizeof wal, "%s-wal", made->at);
    return access(wal, F_OK) != 0;
}

bool sl_new_log_end(sl_new_log *made, bool good, sl_error *error)
{
    if (made->beside.path[0] == '\0') {
        return good;
    }
    if (!good) {
        char folder[SL_ERROR_FILE_SIZE];
        const char *const slash = strrchr(made->path, '/');
        snprintf(folder, sizeof folder, "%.*s", slash != NULL ? (int)(slash - made->path) : 1,
                 slash != NULL ? made->path : ".");
        sl_temporary_rename_in(&made->beside, folder, error);
    } else if (!is_whole(made)) {
        good = sl_fail(error, SL_ERR_CANNOT_WRITE, made->path,
                       "the disk is full or does not answer; nothing of this step was kept");
    } else if (!sl_name_new(made->at, made->path)) {
        good = refuse(made->path, errno, error);
    }
    sl_temporary_remove(&made->beside);
    return good;
}

/* ---- a test in it ------------------------------------------------------------------------------ */

bool sl_begin_log_now(sl_begin_log *begin, const sl_scene *scene, sl_error *error)
{
    sl_log *log = NULL;
    sl_new_log made;
    const char *const title = begin->title ? begin->title : sl_scene_title(scene);
    sl_plan_work_settle(begin->work, scene);
    if (!sl_plan_make(&begin->work->plan, scene, &begin->work->request, error) ||
        (begin->work->class_s > 0 &&
         !sl_plan_fit_find(&begin->fit, scene, &begin->work->request, begin->work->class_s, error)) ||
        !sl_new_log_begin(&made, begin->log, error)) {
        return false;
    }
    bool good = sl_log_open(&log, made.at, SL_LOG_MAKE, error);
    if (good) {
        if (begin->receipt) {
            sl_log_on_kept(log, begin->receipt, begin->self);
        }
        good = sl_log_begin(log, begin->scene, begin->resolver, begin->work->plan, title,
                            begin->operator_code, begin->id, error);
    }
    sl_log_close(log);
    return sl_new_log_end(&made, good, error);
}
