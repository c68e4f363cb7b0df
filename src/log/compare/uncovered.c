/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * How many grades were given after what the model says of the swatch had been shown.
 */
#include <stdio.h>

#include "base/language.h"
#include "log/compare/compare_page.h"
#include "log/compare/looks.h"
#include "log/store/rescue.h"
#include "log/store/tables.h"

static bool ask(sl_compare *compare, sl_log *log, sl_error *error)
{
    char table[SL_ROWS], text[SL_ROWS + 400];
    snprintf(text, sizeof text,
             "SELECT count(*), coalesce(sum(r.uncovered = 1), 0) FROM %s r JOIN swatch s ON s.id = r.swatch"
             " WHERE s.test = ? AND r.grade IS NOT NULL AND r.outcome IS NOT 'invalid'"
             " AND NOT EXISTS (SELECT 1 FROM reading c WHERE c.replaces = r.id AND c.kept > r.kept)",
             sl_rows_of("main", "reading", log->version, table));
    sl_statement count = sl_sql(log, text, error);
    sl_put_text(&count, compare->test.id);
    if (sl_next_row(&count)) {
        compare->n_graded = (long)sl_int_at(&count, 0);
        compare->n_uncovered = (long)sl_int_at(&count, 1);
    }
    return sl_sql_leave(&count);
}

bool sl_uncovered_read(sl_compare *compare, sl_log *log, sl_error *error)
{
    return ask(compare, log, error) || (sl_log_fall_back(log, error) && ask(compare, log, error));
}

bool sl_compare_uncovered_words(const sl_compare *compare, char *text, size_t size)
{
    snprintf(text, size,
             sl_plural(
                 "Of %ld grades %ld was given after what the model says of that swatch had been shown. It "
                 "counts; the first of a swatch is never such a one on the day.",
                 "Of %ld grades %ld were given after what the model says of that swatch had been shown. They "
                 "count; the first of a swatch is never one of them on the day.",
                 compare->n_uncovered),
             compare->n_graded, compare->n_uncovered);
    return compare->n_uncovered > 0;
}
