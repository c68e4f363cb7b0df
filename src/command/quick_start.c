/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * `slowlift quick-start`.
 */
#include "report/quick_start.h"
#include "base/language.h"
#include "command/command.h"
#include "front/settings.h"
#include "front/tell.h"

typedef struct sl_quick_start_asked {
    sl_result_wish result;
} sl_quick_start_asked;

const sl_command_line sl_quick_start_typed = {
    .name = "quick-start",
    .line = N_("two pages for the first time"),
    .usage = {N_("[-o FILE]")},
    .about = N_("What slowlift is, what to press and type first, and a whole test from nothing to a report: "
                "two pages."),
    .set = {SL_OPTION_SET(sl_output_options, sl_result_wish, sl_quick_start_asked, result)},
    .example = {{N_("print them."), {"slowlift quick-start -o quick-start.pdf"}}},
};

sl_exit sl_command_quick_start(int argc, char **argv)
{
    sl_error error = {.code = SL_OK};
    sl_quick_start_asked asked = {0};
    if (!sl_options_read(&sl_quick_start_typed, argc, argv, &asked, &error)) {
        return sl_complain(&error);
    }
    const bool good = optind == argc || sl_fail(&error, SL_ERR_USAGE, "something was named too",
                                                "see slowlift quick-start --help");
    return sl_tell(good, &error, &(sl_teller){.say = sl_quick_start_say}, NULL, &asked.result);
}
