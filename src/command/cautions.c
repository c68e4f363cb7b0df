/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * `slowlift cautions`.
 */
#include "base/language.h"
#include "command/command.h"
#include "document/renderers.h"

const sl_command_line sl_cautions_typed = {
    .name = "cautions",
    .line = N_("print every caution"),
    .usage = {""},
    .about = N_("Prints every caution. Those that cannot be switched off stand below every table."),
    .example = {{N_("print them for the wall."), {"slowlift cautions | lpr"}}},
};

sl_exit sl_command_cautions(int argc, char **argv)
{
    sl_error error = {.code = SL_OK};
    if (argc > 1) {
        char found[SL_ERROR_TEXT_SIZE];
        snprintf(found, sizeof found, _("cautions takes no argument (\"%.80s\")"), argv[1]);
        sl_fail(&error, SL_ERR_USAGE, found, "see slowlift cautions --help");
        return sl_complain(&error);
    }
    sl_document document;
    sl_document_begin(&document, "cautions", NULL, &error);
    sl_document_end(&document, SL_ON_ALL);
    return sl_finish_output(
        sl_document_print(stdout, &document, &(sl_terminal){.width = 80, .depth = SL_MORE}));
}
