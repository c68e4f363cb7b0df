/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A writer of JSON (RFC 8259) to a stream: commas, indentation and escapes. Invariant:
 * what has been written so far is the beginning of a valid JSON text; numbers that are
 * not finite are written as null.
 */
#ifndef SLOWLIFT_DOCUMENT_JSON_TEXT_H
#define SLOWLIFT_DOCUMENT_JSON_TEXT_H

#include <stdbool.h>
#include <stdio.h>

#include "base/minute.h"

enum { SL_JSON_DEPTH = 16 };

typedef struct sl_json {
    FILE *out;
    int depth;
    bool has_members[SL_JSON_DEPTH]; /* of the array or object at each depth */
    bool flat[SL_JSON_DEPTH];        /* on one line */
} sl_json;

/* `name` is the member's name inside an object, NULL inside an array or at the top. */
void sl_json_open(sl_json *json, const char *name, char bracket, bool flat); /* '{' or '[' */
void sl_json_close(sl_json *json, char bracket);                             /* '}' or ']' */
void sl_json_text(sl_json *json, const char *name, const char *text);        /* NULL text: null */
void sl_json_number(sl_json *json, const char *name, double value);          /* 9 significant digits */
/* Its kind stands in the key where kinds are said. */
void sl_json_minute(sl_json *json, const char *name, sl_minute_kind kind, double minute);
void sl_json_bool(sl_json *json, const char *name, bool value);
void sl_json_null(sl_json *json, const char *name);

#endif
