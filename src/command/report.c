/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * `slowlift report`: papers of a test that a log keeps.
 */
#include "base/memory.h"
#include "command/command.h"
#include "front/tell.h"
#include "front/work/report_work.h"

sl_exit sl_command_report(int argc, char **argv)
{
    sl_error error = {.code = SL_OK};
    sl_report_work *const work = sl_new(1, sizeof *work, "reporting", &error);
    bool good = work && sl_report_work_read(work, argc, argv, &error);
    good = good && sl_report_work_compute(work, &error);
    sl_exit code = sl_tell(good, &error, &(sl_teller){.say = work ? work->say : NULL}, work ? work->of : NULL,
                           &work->result);
    if (work) {
        code = sl_answer_work_end(&work->answer, code);
        sl_report_work_free(work);
        sl_free(work);
    }
    return code;
}
