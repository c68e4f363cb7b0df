/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * `slowlift rank`: which arm does best in which colour.
 */
#include "report/rank/rank.h"
#include "command/command.h"
#include "document/renderers.h"
#include "front/work/ensemble.h"
#include "front/work/rank_work.h"

static bool write_form(FILE *out, const void *what)
{
    const sl_rank_work *const work = what;
    const sl_rank_page page = {
        .timeline = work->timeline, .rank = work->rank, .only = work->zone, .science = work->science};
    if (work->result.csv || work->result.json) {
        return work->result.csv ? sl_export_csv(out, &sl_rank_export, &page)
                                : sl_export_json(out, &sl_rank_export, &page);
    }
    sl_document document;
    sl_error error = {.code = SL_OK};
    sl_rank_say(&document, &page, &error);
    return sl_document_print(out, &document, NULL);
}

sl_exit sl_command_rank(int argc, char **argv)
{
    sl_error error = {.code = SL_OK};
    sl_rank_work work = {.file = NULL};
    if (!sl_rank_work_read(&work, argc, argv, &error)) {
        return sl_complain(&error);
    }
    if (work.result.picture) {
        return sl_draw_on_paper(argv);
    }
    sl_exit code = sl_rank_work_compute(&work, &error)
                       ? sl_write_result(work.result.output, write_form, &work)
                       : sl_complain(&error);
    if (work.rank && work.rank->stopped) {
        code = sl_partial_said(work.rank->members, work.request.members, code);
    }
    sl_rank_work_free(&work);
    return code;
}
