/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * `slowlift map`: what comes of an arm over two of its settings.
 */
#include <errno.h>

#include "base/save.h"
#include "command/command.h"
#include "command/map_work.h"
#include "report/map.h"

static bool write_form(FILE *out, const sl_map_work *work)
{
    const int width = 100;
    const sl_map_page page = {.scene = work->scene,
                              .map = work->map,
                              .shows = work->shows,
                              .coarse_x = work->coarse_x,
                              .coarse_y = work->coarse_y};
    return work->csv    ? sl_map_csv(out, &page)
           : work->json ? sl_map_json(out, &page)
                        : sl_map_text(out, &page, width);
}

static sl_exit write_map(const sl_map_work *work)
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

sl_exit sl_command_map(int argc, char **argv)
{
    sl_error error = {.code = SL_OK};
    sl_map_work work = {.file = NULL};
    if (!sl_map_work_read(&work, argc, argv, &error)) {
        return sl_complain(&error);
    }
    if (work.picture) {
        return sl_hand_over("slowlift-paper", argv);
    }
    const sl_exit code = sl_map_work_compute(&work, &error) ? write_map(&work) : sl_complain(&error);
    sl_map_work_free(&work);
    return code;
}
