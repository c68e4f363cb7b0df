/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * `slowlift log drift`: control charts over all tests of a folder.
 */
#include "command/log/log_verbs.h"
#include "front/drift_work.h"
#include "front/tell.h"

sl_exit sl_command_log_drift(int argc, char **argv)
{
    static const sl_teller teller = {.say = sl_drift_say, .export = &sl_drift_export};
    sl_error error = {.code = SL_OK};
    sl_drift_work work = {.folder = NULL};
    bool good = sl_drift_work_read(&work, argc, argv, &error);
    good = good && sl_drift_work_compute(&work, &error);
    return sl_drift_work_end(&work, sl_tell(good, &error, &teller, &work.drift, &work.result));
}
