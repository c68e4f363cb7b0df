/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Prints every key that slowlift tells machines, by format: the heads and quantities of CSV, the members of
 * JSON with the way to them. For check_keys.py.
 */
#include <stdio.h>

#include "document/table.h"
#include "lesson/class_text.h"
#include "log/compare/compare_page.h"
#include "log/several/several.h"
#include "log/shelf/drift.h"
#include "log/store/export.h"
#include "report/answer/answer_page.h"
#include "report/limits/limits.h"
#include "report/plan/cost.h"
#include "report/plan/plan.h"
#include "report/rank/map.h"
#include "report/rank/rank.h"
#include "report/rank/search.h"
#include "report/run/pair.h"
#include "report/run/run_data.h"
#include "scene/field.h"

static void put_fields(const char *way, const sl_fields *fields)
{
    for (int i = 0; i < fields->n; i++) {
        const sl_field *const field = &fields->field[i];
        if (field->told) {
            printf("json %s%s\n", way, field->told);
            if (field->kind == SL_FIELD_PARAM) {
                printf("json %s%s_grade\n", way, field->told);
            }
        }
    }
}

static void put_json(const char *way, const sl_columns *columns)
{
    for (int i = 0; i < columns->n; i++) {
        const sl_column *const column = &columns->column[i];
        const char *const name = column->name ? column->name : column->key;
        char at[200];
        snprintf(at, sizeof at, "%s%s%s%s", way, column->in ? column->in : "", column->in ? "." : "",
                 name ? name : "");
        if (column->members) {
            put_fields(way, column->fields);
        } else if (!column->rows) {
            printf("json %s\n", at);
        } else {
            char within[204];
            const bool values = column->rows->column[0].key == NULL;
            snprintf(within, sizeof within, "%s%s", at, values ? "[]" : column->one ? "." : "[].");
            put_json(within, column->rows);
        }
    }
}

static void put_csv(const sl_columns *columns)
{
    printf("head ");
    sl_csv_put_head(stdout, columns);
    for (int i = columns->lead; columns->lead > 0 && i < columns->n - columns->tail; i++) {
        printf("quantity %s\n", columns->column[i].key ? columns->column[i].key : "index ...");
    }
}

int main(void)
{
    static const sl_export *const exports[] = {
        &sl_answer_export, &sl_run_export,     &sl_limits_export,  &sl_rank_export,     &sl_pair_export,
        &sl_map_export,    &sl_search_export,  &sl_plan_export,    &sl_plan_key_export, &sl_mixing_export,
        &sl_cost_export,   &sl_compare_export, &sl_several_export, &sl_log_export,      &sl_log_blank_export,
        &sl_shelf_export,  &sl_drift_export,   &sl_class_export};
    for (size_t i = 0; i < sizeof exports / sizeof exports[0]; i++) {
        printf("format %s/%d\n", exports[i]->name, exports[i]->number);
        if (exports[i]->csv) {
            put_csv(exports[i]->csv);
        }
        if (exports[i]->json) {
            puts("json format");
            put_json("", exports[i]->json);
        }
    }
    return 0;
}
