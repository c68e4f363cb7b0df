/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * `slowlift cautions`.
 */
#include "base/language.h"
#include "command/command.h"
#include "document/text.h"
#include "front/options.h"
#include "slowlift/caution.h"
#include "slowlift/report.h"

sl_exit sl_command_cautions(int argc, char **argv)
{
    if (argc > 1) {
        sl_error error = {.code = SL_OK};
        char found[SL_ERROR_TEXT_SIZE];
        snprintf(found, sizeof found, _("cautions takes no argument (\"%.80s\")"), argv[1]);
        sl_fail(&error, SL_ERR_USAGE, found, "see slowlift cautions --help");
        return sl_complain(&error);
    }
    const int width = 80;
    for (int id = 0; id < SL_CAUTION_COUNT; id++) {
        const sl_caution *caution = sl_caution_text((sl_caution_id)id);
        char lead[16];
        snprintf(lead, sizeof lead, "%-8s ", _(caution->signal));
        sl_put_paragraph(stdout, lead, _(caution->text), width);
        fputc('\n', stdout);
    }
    return sl_finish_output(ferror(stdout) == 0);
}
