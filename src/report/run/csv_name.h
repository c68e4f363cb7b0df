/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Names in CSV.
 */
#ifndef SLOWLIFT_REPORT_RUN_CSV_NAME_H
#define SLOWLIFT_REPORT_RUN_CSV_NAME_H

#include <stdio.h>

/* A name as a field (csv.c): quoted where it needs it, never read as a formula. */
void sl_csv_name(FILE *out, const char *name);

#endif
