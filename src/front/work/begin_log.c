/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See begin_log.h.
 */
#include "front/work/begin_log.h"

#include "front/work/new_log.h"
#include "slowlift/report.h"

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
