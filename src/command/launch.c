/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * `slowlift watch`, `slowlift picture` and `slowlift pack`: hand over to the program that has the
 * libraries for it, so that slowlift itself starts fast. The arguments go on unchanged.
 */
#include <errno.h>
#include <string.h>
#include <unistd.h>

#include "command/command.h"
#include "command/places.h"

sl_exit sl_hand_over(const char *program, char **argv)
{
    sl_error error = {.code = SL_OK};
    sl_places places;
    char path[SL_PLACES_PATH];
    if (!sl_places_find(&places, NULL, NULL, &error) || !sl_places_program(&places, program, path, &error)) {
        return sl_complain(&error);
    }
    execv(path, argv);
    sl_fail(&error, SL_ERR_MISSING_PART, path, strerror(errno));
    return sl_complain(&error);
}

sl_exit sl_command_watch(int argc, char **argv)
{
    (void)argc;
    return sl_hand_over("slowlift-watch", argv);
}

sl_exit sl_command_picture(int argc, char **argv)
{
    (void)argc;
    return sl_hand_over("slowlift-paper", argv);
}

sl_exit sl_command_pack(int argc, char **argv)
{
    (void)argc;
    return sl_hand_over("slowlift-paper", argv);
}
