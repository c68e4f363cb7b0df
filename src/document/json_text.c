/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A writer of JSON (RFC 8259). Texts are UTF-8; control characters, quote and reverse
 * solidus are escaped, and DEL too so that a terminal shows the file as it is.
 */
#include "document/json_text.h"
#include "base/minute.h"

#include <assert.h>
#include <math.h>

static void put_escaped(FILE *out, const char *text)
{
    fputc('"', out);
    for (const char *at = text; *at != '\0'; at++) {
        const unsigned char byte = (unsigned char)*at;
        if (byte == '"' || byte == '\\') {
            fputc('\\', out);
            fputc(byte, out);
        } else if (byte == '\n') {
            fputs("\\n", out);
        } else if (byte == '\t') {
            fputs("\\t", out);
        } else if (byte < 0x20U || byte == 0x7FU) {
            fprintf(out, "\\u%04x", (unsigned)byte);
        } else {
            fputc(byte, out);
        }
    }
    fputc('"', out);
}

static void start(sl_json *json, const char *name)
{
    if (json->depth > 0) {
        const int inside = json->depth - 1;
        const bool flat = json->flat[inside];
        fputs(json->has_members[inside] ? (flat ? ", " : ",") : "", json->out);
        json->has_members[inside] = true;
        if (!flat) {
            fprintf(json->out, "\n%*s", json->depth, "");
        }
    }
    if (name != NULL) {
        put_escaped(json->out, name);
        fputs(": ", json->out);
    }
}

void sl_json_open(sl_json *json, const char *name, char bracket, bool flat)
{
    assert(json->depth < SL_JSON_DEPTH);
    start(json, name);
    fputc(bracket, json->out);
    json->has_members[json->depth] = false;
    json->flat[json->depth] = flat;
    json->depth++;
}

void sl_json_close(sl_json *json, char bracket)
{
    assert(json->depth > 0);
    json->depth--;
    if (json->has_members[json->depth] && !json->flat[json->depth]) {
        fprintf(json->out, "\n%*s", json->depth, "");
    }
    fputc(bracket, json->out);
    if (json->depth == 0) {
        fputc('\n', json->out);
    }
}

void sl_json_text(sl_json *json, const char *name, const char *text)
{
    start(json, name);
    if (text == NULL) {
        fputs("null", json->out);
    } else {
        put_escaped(json->out, text);
    }
}

void sl_json_number(sl_json *json, const char *name, double value)
{
    start(json, name);
    if (isfinite(value)) {
        fprintf(json->out, "%.9g", value);
    } else {
        fputs("null", json->out);
    }
}

void sl_json_minute(sl_json *json, const char *name, sl_minute_kind kind, double minute)
{
    char key[SL_MINUTE_KEY];
    sl_json_number(json, sl_minute_key(kind, name, key), minute);
}

void sl_json_bool(sl_json *json, const char *name, bool value)
{
    start(json, name);
    fputs(value ? "true" : "false", json->out);
}

void sl_json_null(sl_json *json, const char *name)
{
    sl_json_text(json, name, NULL);
}
