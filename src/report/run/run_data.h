/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The tables of a timeline for machines; sl_report_csv() and its kin say of which.
 */
#ifndef SLOWLIFT_REPORT_RUN_DATA_H
#define SLOWLIFT_REPORT_RUN_DATA_H

#include "document/table.h"

extern const sl_export sl_run_export;

#endif
