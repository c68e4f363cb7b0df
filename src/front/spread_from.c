/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See spread_from.h.
 */
#include "front/spread_from.h"

#include "base/hold.h"

bool sl_spread_check(double spread, const char *spread_from, sl_error *error)
{
    return spread < 0.0 || !spread_from ||
           sl_fail(error, SL_ERR_USAGE, "--spread and --spread-from together",
                   "give one of them: a scatter of your own, or that of a log");
}

bool sl_scatter_from(sl_scatter *scatter, const char *path, sl_error *error)
{
    sl_log *log = NULL;
    sl_signals_hold(); /* so that SQLite clears away what it keeps beside the log */
    const bool good = sl_log_open(&log, path, SL_LOG_READ, error) && sl_log_scatter(scatter, log, error);
    sl_log_close(log);
    sl_signals_release();
    return good;
}
