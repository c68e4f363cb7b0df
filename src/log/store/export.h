/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The tables of a log for machines; sl_log_export_csv() and its kin say of which log.
 */
#ifndef SLOWLIFT_LOG_EXPORT_H
#define SLOWLIFT_LOG_EXPORT_H

#include "document/table.h"

extern const sl_export sl_log_export, sl_log_blank_export;

#endif
