/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * `slowlift map`: what comes of an arm over two of its settings.
 */
#include "report/rank/map.h"
#include "command/command.h"
#include "document/renderers.h"
#include "front/work/map_work.h"

static bool write_form(FILE *out, const void *what)
{
    const sl_map_work *const work = what;
    const sl_map_page page = {.scene = work->scene,
                              .map = work->map,
                              .shows = work->shows,
                              .coarse_x = work->coarse_x,
                              .coarse_y = work->coarse_y};
    if (work->result.csv || work->result.json) {
        return work->result.csv ? sl_map_csv(out, &page) : sl_export_json(out, &sl_map_export, &page);
    }
    sl_document document;
    sl_error error = {.code = SL_OK};
    sl_map_say(&document, &page, &error);
    return sl_document_print(out, &document, NULL);
}

sl_exit sl_command_map(int argc, char **argv)
{
    sl_error error = {.code = SL_OK};
    sl_map_work work = {.file = NULL};
    if (!sl_map_work_read(&work, argc, argv, &error)) {
        return sl_complain(&error);
    }
    if (work.result.picture) {
        return sl_draw_on_paper(argv);
    }
    const sl_exit code = sl_map_work_compute(&work, &error)
                             ? sl_write_result(work.result.output, write_form, &work)
                             : sl_complain(&error);
    sl_map_work_free(&work);
    return code;
}
