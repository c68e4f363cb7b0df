/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * `slowlift log list`: every test that the logs of one folder keep.
 */
#include "base/language.h"
#include "command/log/log_verbs.h"
#include "front/places.h"
#include "front/tell.h"
#include "log/shelf/shelf.h"

typedef struct sl_list_asked {
    const char *folder;
    bool all;
    sl_result_wish result;
} sl_list_asked;
static const sl_option options[] = {
    SL_OPTION(sl_list_asked, all, sl_option_flag, .name = "all",
              .help = N_("those of more than a year ago, too")),
};
const sl_command_line sl_log_list_typed = {
    .name = "log list",
    .line = N_("list my tests: all logs of a folder, a line each"),
    .usage = {N_("[FOLDER] [OPTIONS]")},
    .about =
        N_("Every test of the last year that the logs of a folder keep: its day, title, strips and how far "
           "it is. FOLDER: else $SLOWLIFT_TESTS, else the one of your settings, else the one that you are "
           "in. A log that cannot be read is a line with its reason, and the exit code is 1."),
    .set = {SL_OPTION_SET_OWN(options), SL_OPTION_SET(sl_form_options, sl_result_wish, sl_list_asked, result),
            SL_OPTION_SET(sl_output_options, sl_result_wish, sl_list_asked, result)},
    .words = SL_TYPED_WORDS(sl_list_asked, folder, 0, 1),
    .example = {{N_("which tests do I have?"), {"slowlift log list ~/tests"}}},
    .wants = {SL_WANTS_FOLDER},
};

sl_exit sl_command_log_list(int argc, char **argv)
{
    static const sl_teller teller = {.say = sl_shelf_say, .export = &sl_shelf_export};
    sl_error error = {.code = SL_OK};
    sl_list_asked asked = {.folder = NULL};
    sl_log_shelf shelf = {.folder = NULL};
    sl_settled settled;
    const bool good = sl_options_read(&sl_log_list_typed, argc, argv, &asked, &error) &&
                      sl_places_settled(asked.folder, &settled, &error) &&
                      sl_shelf_read(&shelf, settled.tests, asked.all, settled.keep_months, &error);
    sl_exit code = sl_tell(good, &error, &teller, &shelf, &asked.result);
    code = code == SL_EXIT_OK && !sl_shelf_whole(&shelf, &error) ? sl_complain(&error) : code;
    sl_shelf_free(&shelf);
    return code;
}
