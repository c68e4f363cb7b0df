/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * No member of a record is without a row (src/scene/field.h). Here the records and the files of their rows
 * are compiled without padding, so that every byte is some member's: one without a row is a member that was
 * forgotten, and would not be copied, told, drawn from or checked.
 */
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include "suite.h"

#pragma pack(push, 1)
#include "scene/records.h"

/* The kinds of member that are walked by hand (copy.c, fingerprint.c, weakest.c), and what that goes by. */
static const sl_field param_rows[] = {SL_FIELD(sl_param, value, .use = 0),
                                      SL_FIELD(sl_param, grade, .use = 0),
                                      SL_FIELD(sl_param, source, .use = 0)};
static const sl_field rates_rows[] = {SL_FIELD(sl_rates, k, .use = 0),
                                      SL_FIELD(sl_rates, own_activation, .use = 0),
                                      SL_FIELD(sl_rates, activation_kj_mol, .use = 0)};
static const sl_field bound_rows[] = {SL_FIELD(sl_bound, most, .use = 0), SL_FIELD(sl_bound, set, .use = 0)};
static const sl_fields param_fields = SL_FIELDS(sl_param, param_rows, .of = NULL);
static const sl_fields rates_fields = SL_FIELDS(sl_rates, rates_rows, .of = NULL);
static const sl_fields bound_fields = SL_FIELDS(sl_bound, bound_rows, .of = NULL);

static const sl_fields *const records[] = {
    &sl_scene_fields,       &sl_course_point_fields, &sl_aims_fields,
    &sl_zone_fields,        &sl_recipe_fields,       &sl_arm_fields,
    &sl_step_fields,        &sl_mix_fields,          &sl_hair_fields,
    &sl_hair_record_fields, &sl_dye_fields,          &sl_band_fields,
    &sl_chemistry_fields,   &sl_chart_fields,        &sl_tone_fields,
    &sl_prices_fields,      &sl_crew_fields,         &sl_product_fields,
    &sl_settled_fields,     &param_fields,           &rates_fields,
    &bound_fields};
enum { N_RECORDS = sizeof records / sizeof records[0], MOST_BYTES = 16384 };

START_TEST(no_byte_of_a_record_is_without_a_row)
{
    const sl_fields *const rows = records[_i];
    static unsigned char marked[MOST_BYTES];
    const char *behind = "its beginning";
    ck_assert_uint_le(rows->size, sizeof marked);
    memset(marked, 0, sizeof marked);
    for (int i = 0; i < rows->n; i++) {
        memset(marked + rows->field[i].offset, 1, rows->field[i].size);
    }
    for (size_t byte = 0; byte < rows->size; byte++) {
        for (int i = 0; i < rows->n; i++) {
            const sl_field *const field = &rows->field[i];
            behind = field->member && field->offset + field->size == byte ? field->member : behind;
        }
        ck_assert_msg(marked[byte], "a member of %s behind \"%s\" has no row", rows->name, behind);
    }
}
END_TEST

/* Were there padding, a forgotten member could hide in it. */
START_TEST(records_are_compiled_without_padding_here)
{
    ck_assert_uint_eq(sizeof(sl_bound), sizeof(double) + sizeof(bool));
    ck_assert_uint_eq(sl_step_fields.size, sizeof(sl_step)); /* there as here */
    ck_assert_uint_eq(sl_dye_fields.size, sizeof(sl_dye));
}
END_TEST

START_SUITE("every byte")
ADD_LOOP(no_byte_of_a_record_is_without_a_row, 0, N_RECORDS)
ADD(records_are_compiled_without_padding_here)
END_SUITE
#pragma pack(pop)
