/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See json_fields.h.
 */
#include "report/json_fields.h"

#include <assert.h>

/* "ph" and "ph_grade". */
static void put_param(sl_json *json, const char *name, const sl_param *param)
{
    char graded[48];
    snprintf(graded, sizeof graded, "%s_grade", name);
    sl_json_number(json, name, param->value);
    sl_json_text(json, graded, sl_grade_word(param->grade));
}

/* A time that stands in a file was chosen by somebody. */
static void put_number(sl_json *json, const sl_field *field, double value)
{
    if (field->range.measure == SL_MEASURE_TIME) {
        sl_json_minute(json, field->told, SL_MINUTE_PLANNED, value);
    } else {
        sl_json_number(json, field->told, value);
    }
}

static void put_member(sl_json *json, const sl_field *field, const void *record)
{
    const void *const at = sl_field_in(field, record);
    switch (field->kind) {
    case SL_FIELD_PARAM:
        put_param(json, field->told, at);
        return;
    case SL_FIELD_NUMBER:
        put_number(json, field, *(const double *)at);
        return;
    case SL_FIELD_WHOLE:
        sl_json_number(json, field->told, *(const int *)at);
        return;
    case SL_FIELD_YES:
        sl_json_bool(json, field->told, *(const bool *)at);
        return;
    case SL_FIELD_WORD:
        sl_json_text(json, field->told, field->list->word[*(const unsigned *)at]);
        return;
    case SL_FIELD_TEXT:
        sl_json_text(json, field->told, *(const char *const *)at);
        return;
    case SL_FIELD_WORDING: /* the same in every language, as all that machines read */
        sl_json_text(json, field->told, sl_wording_in(at, SL_ENGLISH));
        return;
    case SL_FIELD_NUMBERS:
    case SL_FIELD_RATES:
    case SL_FIELD_BOUND:
    case SL_FIELD_WITHIN:
    case SL_FIELD_LIST:
    case SL_FIELD_OWN:
        break;
    }
    assert(false); /* what is told has a kind that says how */
}

void sl_json_fields(sl_json *json, const sl_fields *rows, const void *record, int from_turn, int to_turn)
{
    for (int turn = from_turn; turn <= to_turn; turn++) {
        for (int i = 0; i < rows->n; i++) {
            const sl_field *const field = &rows->field[i];
            if (field->turn == turn && field->told && (!field->tells || field->tells(record))) {
                put_member(json, field, record);
            }
        }
    }
}
