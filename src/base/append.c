/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See append.h.
 */
#include "base/append.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

static void __attribute__((format(printf, 3, 0)))
append(char *text, size_t size, const char *format, va_list values)
{
    const size_t used = strlen(text);
    vsnprintf(text + used, size - used, format, values);
}

void sl_append(char *text, size_t size, const char *format, ...)
{
    va_list values;
    va_start(values, format);
    append(text, size, format, values);
    va_end(values);
}

void sl_append_item(char *text, size_t size, const char *between, const char *format, ...)
{
    va_list values;
    va_start(values, format);
    if (text[0] != '\0') {
        sl_append(text, size, "%s", between);
    }
    append(text, size, format, values);
    va_end(values);
}
