/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Lists that give both the columns of a table for machines and what is said of them (table.h):
 *
 *     #define TRIAL(SAY) SAY(text, "mix", trial->mix) SAY(outcome, "dwell_min", trial->dwell_min)
 *
 * is columns as TRIAL(SL_COLUMN) and, where a sl_row *row is told, their entries as TRIAL(SL_SAY): key, kind
 * and value of a quantity stand in one line. What is told of some rows alone can be a list of its own, and
 * two tables may hold the same lists in another order. A file may add kinds of its own, an SL_COLUMN_ and an
 * SL_SAY_.
 */
#ifndef SLOWLIFT_DOCUMENT_SAY_H
#define SLOWLIFT_DOCUMENT_SAY_H

#include "document/table.h"

#define SL_COLUMN(kind, ...) SL_COLUMN_##kind(__VA_ARGS__)
#define SL_COLUMN_text(name, value) {.key = (name)},
#define SL_COLUMN_words(name, format, ...) {.key = (name)},
#define SL_COLUMN_yes(name, value) {.key = (name)},
#define SL_COLUMN_number(name, value) {.key = (name)},
#define SL_COLUMN_cents(name, value) {.key = (name), .digits = SL_CENTS},
#define SL_COLUMN_planned(name, value) {.key = (name), .kind = SL_ENTRY_PLANNED},
#define SL_COLUMN_clock(name, value) {.key = (name), .kind = SL_ENTRY_CLOCK},
#define SL_COLUMN_outcome(name, value) {.key = (name), .kind = SL_ENTRY_OUTCOME},
#define SL_COLUMN_rows(name, its_columns, of, which, n) {.key = (name), .rows = &(its_columns)},
#define SL_COLUMN_record(name, its_columns, of, which) {.key = (name), .one = true, .rows = &(its_columns)},
#define SL_COLUMN_minutes(name, whose, of, n) {.key = (name), .kind = (whose), .rows = &sl_whole_list},
#define SL_COLUMN_planned_rows(name, its_columns, of, which, n)                                              \
    {.key = (name), .kind = SL_ENTRY_PLANNED, .rows = &(its_columns)},
/* In JSON in the object `within`, under another name. */
#define SL_COLUMN_part(within, inner, whole, value) {.key = (whole), .in = (within), .name = (inner)},
#define SL_COLUMN_about(name, what, value) {.key = (name)},
#define SL_COLUMN_cautions(occasions) {.key = "cautions", .rows = &sl_caution_list},
/* Of some rows alone: said when the condition holds, else left out. */
#define SL_COLUMN_when(condition, kind, ...) SL_COLUMN_##kind(__VA_ARGS__)
/* No columns: a name for what the rest of the list tells of; where the rows end; where there is no row; where
 * a row says no more. */
#define SL_COLUMN_let(...)
#define SL_COLUMN_skip(when)
#define SL_COLUMN_end(when)
#define SL_COLUMN_only(when)
#define SL_VALUE                                                                                             \
    {                                                                                                        \
        .key = NULL                                                                                          \
    } /* of a list of values */
#define SL_SAY(kind, ...) SL_SAY_##kind(__VA_ARGS__)
#define SL_SAY_when(condition, kind, ...)                                                                    \
    if (condition) {                                                                                         \
        SL_SAY_##kind(__VA_ARGS__)                                                                           \
    }
#define SL_SAY_let(...) __VA_ARGS__;
#define SL_SAY_end(when)                                                                                     \
    if (when) {                                                                                              \
        return SL_NO_MORE;                                                                                   \
    }
#define SL_SAY_skip(when)                                                                                    \
    if (when) {                                                                                              \
        return SL_NOT_HERE;                                                                                  \
    }
#define SL_SAY_only(when)                                                                                    \
    if (!(when)) {                                                                                           \
        return SL_TOLD;                                                                                      \
    }
#define SL_SAY_text(name, value) sl_row_text(row, name, value);
#define SL_SAY_words(name, ...) sl_row_words(row, name, __VA_ARGS__);
#define SL_SAY_yes(name, value) sl_row_yes(row, name, value);
#define SL_SAY_number(name, value) sl_row_number(row, name, value);
#define SL_SAY_cents(name, value) sl_row_number(row, name, value);
#define SL_SAY_planned(name, value) sl_row_number(row, name, value);
#define SL_SAY_clock(name, value) sl_row_number(row, name, value);
#define SL_SAY_outcome(name, value) sl_row_number(row, name, value);
#define SL_SAY_rows(name, its_columns, of, which, n) sl_row_rows(row, name, of, which, n);
#define SL_SAY_record(name, its_columns, of, which) sl_row_rows(row, name, of, which, 1);
#define SL_SAY_minutes(name, whose, of, n) sl_row_rows(row, name, of, 0, n);
#define SL_SAY_planned_rows(name, its_columns, of, which, n) sl_row_rows(row, name, of, which, n);
#define SL_SAY_part(within, inner, whole, value) sl_row_number(row, whole, value);
#define SL_SAY_about(name, what, value) sl_row_number_about(row, name, what, value);
#define SL_SAY_cautions(occasions) sl_row_cautions(row, occasions);

/* A table whose rows are each told by a list, of a `const type *const var`; `table->place` and `table->which`
 * are at hand. */
#define SL_TABLE(name, list, type, var) SL_TABLE_AS(name, list, type, var, .flat = false)
#define SL_FLAT_TABLE(name, list, type, var) SL_TABLE_AS(name, list, type, var, .flat = true)
#define SL_TABLE_AS(name, list, type, var, ...)                                                              \
    static sl_told tell_##name(sl_row *row, const sl_table *table)                                           \
    {                                                                                                        \
        const type *const var = table->of;                                                                   \
        list(SL_SAY) return SL_TOLD;                                                                         \
    }                                                                                                        \
    static const sl_columns name = SL_COLUMNS(list(SL_COLUMN), .tell = tell_##name, __VA_ARGS__)

#endif
