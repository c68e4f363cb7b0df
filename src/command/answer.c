/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * `slowlift answer`: which mix, how long, what it costs the hair, how sure, on one page.
 */
#include "base/memory.h"
#include "command/command.h"
#include "front/tell.h"
#include "front/work/answer_work.h"

static sl_exit tell(sl_answer_work *work, sl_error *error)
{
    const bool good = sl_answer_work_compute(work, error);
    const sl_exit code = sl_tell(good, error, &(sl_teller){.say = sl_answer_say, .export = &sl_answer_export},
                                 &work->page, &work->result);
    return sl_answer_work_end(work, code);
}

sl_exit sl_command_answer(int argc, char **argv)
{
    sl_error error = {.code = SL_OK};
    sl_answer_work *const work = sl_new(1, sizeof *work, "answering", &error);
    const bool read = work && sl_answer_work_read(work, argc, argv, &error);
    const sl_exit code = read ? tell(work, &error) : sl_complain(&error);
    if (work) {
        sl_answer_work_free(work);
        sl_free(work);
    }
    return code;
}
