/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * `slowlift compare`: what was seen on a day of strand tests.
 */
#include "command/command.h"
#include "document/renderers.h"
#include "front/work/compare_work.h"
#include "log/compare/compare_page.h"

static bool write_form(FILE *out, const void *what)
{
    const sl_compare_work *const work = what;
    const sl_compare_page page = {.compare = work->compare, .only = work->zone, .rates = work->rates};
    if (work->result.csv || work->result.json) {
        return work->result.csv ? sl_export_csv(out, &sl_compare_export, &page)
                                : sl_export_json(out, &sl_compare_export, &page);
    }
    sl_document document;
    sl_error error = {.code = SL_OK};
    sl_compare_say(&document, &page, &error);
    return sl_document_print(out, &document, NULL);
}

sl_exit sl_command_compare(int argc, char **argv)
{
    sl_error error = {.code = SL_OK};
    sl_compare_work work = {.log = NULL};
    if (!sl_compare_work_read(&work, argc, argv, &error)) {
        return sl_complain(&error);
    }
    if (work.result.picture) {
        return sl_draw_on_paper(argv);
    }
    const sl_exit code = sl_compare_work_compute(&work, &error)
                             ? sl_write_result(work.result.output, write_form, &work)
                             : sl_complain(&error);
    sl_compare_work_free(&work);
    return sl_compare_work_end(&work, code);
}
