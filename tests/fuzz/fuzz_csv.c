/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Fuzzes the reader of CSV: the input is a file of readings, as far as the log. What was read is
 * written and read again, and must be the same.
 */
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "log/readings/csv_cells.h"

typedef struct input {
    bool has_header;
    sl_csv_header header;
} input;

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t size);

/* A number that is written must be read again as it was. */
static void check_written(const sl_log_reading *reading)
{
    for (int i = 0; i < SL_READING_COLUMNS; i++) {
        const sl_kept_column *const column = &sl_reading_columns[i];
        char written[SL_COLUMN_WRITTEN];
        const char *const text = sl_column_text(column, reading, written);
        if (text && column->kind == SL_COLUMN_NUMBER) {
            double value = 0.0;
            memcpy(&value, (const char *)reading + column->offset, sizeof value);
            if (strtod(text, NULL) < value || strtod(text, NULL) > value) {
                abort();
            }
        }
    }
}

static bool take(void *self, const sl_csv_row *row, sl_error *error)
{
    input *const in = self;
    sl_csv_said said;
    if (!in->has_header) {
        in->has_header = true;
        return sl_csv_header_read(&in->header, row, error);
    }
    if (!sl_csv_cells_read(&in->header, row, &said, error)) {
        return false;
    }
    check_written(&said.reading);
    return true;
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t size)
{
    input in = {.has_header = false};
    sl_error error = {.code = SL_OK};
    if (size == 0) {
        return 0;
    }
    FILE *const file = fmemopen((void *)(uintptr_t)bytes, size, "rb");
    if (file) {
        if (!sl_csv_read(file, "fuzz.csv", NULL, take, &in, &error) && error.code == SL_OK) {
            abort(); /* refused without a reason */
        }
        fclose(file);
    }
    return 0;
}
