/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * `slowlift map`: what comes of an arm over two of its settings.
 */
#include "report/rank/map.h"
#include "command/command.h"
#include "front/tell.h"
#include "front/work/map_work.h"

sl_exit sl_command_map(int argc, char **argv)
{
    sl_error error = {.code = SL_OK};
    sl_map_work work = {.file = NULL};
    if (!sl_map_work_read(&work, argc, argv, &error)) {
        return sl_complain(&error);
    }
    const bool good = sl_map_work_compute(&work, &error);
    const sl_map_page page = {.scene = work.scene,
                              .map = work.map,
                              .shows = work.shows,
                              .coarse_x = work.coarse_x,
                              .coarse_y = work.coarse_y};
    const sl_exit code =
        sl_tell(good, &error, &(sl_teller){.say = sl_map_say, .export = &sl_map_export, .csv = sl_map_csv},
                &page, &work.result);
    sl_map_work_free(&work);
    return code;
}
