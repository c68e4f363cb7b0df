/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * `slowlift rank`: which arm does best in which colour.
 */
#include "report/rank/rank.h"
#include "command/command.h"
#include "front/tell.h"
#include "front/work/ensemble.h"
#include "front/work/rank_work.h"

sl_exit sl_command_rank(int argc, char **argv)
{
    sl_error error = {.code = SL_OK};
    sl_rank_work work = {.file = NULL};
    if (!sl_rank_work_read(&work, argc, argv, &error)) {
        return sl_complain(&error);
    }
    const bool good = sl_rank_work_compute(&work, &error);
    const sl_rank_page page = {.timeline = work.timeline,
                               .rank = work.rank,
                               .asked = work.asked,
                               .scatter_from = work.spread_from,
                               .scatter = work.scatter.sd,
                               .scatter_freedom = work.scatter.freedom,
                               .scatter_given = work.spread >= 0.0,
                               .only = work.zone,
                               .science = work.science};
    sl_exit code = sl_tell(good, &error, &(sl_teller){.say = sl_rank_say, .export = &sl_rank_export}, &page,
                           &work.result);
    if (work.rank && work.rank->stopped) {
        code = sl_partial_said(work.rank->members, work.request.members, code);
    }
    sl_rank_work_free(&work);
    return code;
}
