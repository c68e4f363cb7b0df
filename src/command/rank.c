/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * `slowlift rank`: which arm does best in which colour.
 */
#include <errno.h>

#include "base/save.h"
#include "command/command.h"
#include "command/ensemble.h"
#include "command/rank_work.h"
#include "report/rank.h"

static bool write_form(FILE *out, const sl_rank_work *work)
{
    const int width = 100;
    const sl_rank_page page = {
        .timeline = work->timeline, .rank = work->rank, .only = work->zone, .science = work->science};
    return work->csv    ? sl_rank_csv(out, &page)
           : work->json ? sl_rank_json(out, &page)
                        : sl_rank_text(out, &page, width);
}

static sl_exit write_rank(const sl_rank_work *work)
{
    if (!work->output) {
        errno = 0;
        return sl_finish_output(write_form(stdout, work));
    }
    sl_error error = {.code = SL_OK};
    sl_save save;
    if (!sl_save_open(&save, work->output, &error)) {
        return sl_complain(&error);
    }
    write_form(save.stream, work);
    return sl_save_commit(&save, &error) ? SL_EXIT_OK : sl_complain(&error);
}

sl_exit sl_command_rank(int argc, char **argv)
{
    sl_error error = {.code = SL_OK};
    sl_rank_work work = {.file = NULL};
    if (!sl_rank_work_read(&work, argc, argv, &error)) {
        return sl_complain(&error);
    }
    if (work.picture) {
        return sl_hand_over("slowlift-paper", argv);
    }
    sl_exit code = sl_rank_work_compute(&work, &error) ? write_rank(&work) : sl_complain(&error);
    if (work.rank && work.rank->stopped) {
        code = sl_partial_said(work.rank->members, work.request.members, code);
    }
    sl_rank_work_free(&work);
    return code;
}
