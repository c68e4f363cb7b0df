/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See minute.h. Whether kinds are said is, beside the language, the one thing of the process that is no
 * argument: it is set once, before there are threads, and only tests set it.
 */
#include "base/minute.h"

#include <stdarg.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const char *const opened[] = {[SL_MINUTE_PLANNED] = "\xE2\x80\x8B",
                                     [SL_MINUTE_CLOCK] = "\xE2\x80\x8C",
                                     [SL_MINUTE_MODEL] = "\xE2\x80\x8D"};
static const char closed[] = "\xE2\x80\x8E";
static bool said;

void sl_minute_start(void)
{
    const char *const wanted = getenv("SLOWLIFT_SAY");
    said = wanted != NULL && strcmp(wanted, "kinds") == 0;
}

int sl_minute_words(sl_minute_kind kind, char *text, size_t size, const char *format, ...)
{
    va_list values;
    va_start(values, format);
    const size_t before = said && size > strlen(opened[kind]) ? strlen(opened[kind]) : 0;
    memcpy(text, opened[kind], before);
    int length = vsnprintf(text + before, size - before, format, values);
    va_end(values);
    const size_t used = strlen(text);
    if (said && size - used > strlen(closed)) {
        memcpy(text + used, closed, sizeof closed);
        length += (int)(before + strlen(closed));
    }
    return length;
}

const char *sl_minute_key(sl_minute_kind kind, const char *key, char text[SL_MINUTE_KEY])
{
    snprintf(text, SL_MINUTE_KEY, "%s%s", key, said ? opened[kind] : "");
    return text;
}
