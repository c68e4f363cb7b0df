/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * `slowlift compare`: what was seen on a day of strand tests.
 */
#include "base/hold.h"
#include "command/command.h"
#include "front/tell.h"
#include "front/work/compare_work.h"
#include "log/compare/compare_page.h"

sl_exit sl_command_compare(int argc, char **argv)
{
    sl_error error = {.code = SL_OK};
    sl_compare_work work = {.log = NULL};
    if (!sl_compare_work_read(&work, argc, argv, &error)) {
        return sl_complain(&error);
    }
    sl_signals_hold(); /* until it is said that something was broken off */
    const bool good = sl_compare_work_compute(&work, &error);
    if (good) {
        sl_signals_release();
    }
    const sl_compare_page page = {
        .compare = work.compare, .only = work.zone, .rates = work.rates, .promise = &work.promise};
    const sl_teller one = {.say = sl_compare_say, .export = &sl_compare_export};
    const sl_teller several = {.say = sl_several_say, .export = &sl_several_export};
    const sl_exit code = work.several ? sl_tell(good, &error, &several, work.several, &work.result)
                                      : sl_tell(good, &error, &one, &page, &work.result);
    if (!good) {
        sl_signals_release();
    }
    sl_compare_work_free(&work);
    return sl_compare_work_end(&work, code);
}
