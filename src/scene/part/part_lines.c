/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See part_lines.h.
 */
#include "scene/part/part_lines.h"

#include <math.h>
#include <string.h>

bool part_refuse(const part_reader *r, sl_code code, const char *found, const char *wanted)
{
    return sl_fail_at(r->error, code, r->name, r->line, 0, found, wanted);
}

bool part_malformed(const part_reader *r)
{
    return part_refuse(r, SL_ERR_SYNTAX, "a line of counts that does not fit", "run this part again");
}

/* ---- words and numbers ---------------------------------------------------------------------- */

/* Whether the next line begins with this word; then stand behind it. */
bool part_line_is(part_reader *r, const char *word)
{
    const size_t length = strlen(word);
    if ((size_t)(r->end - r->at) <= length || memcmp(r->at, word, length) != 0 ||
        (r->at[length] != ' ' && r->at[length] != '\n')) {
        return false;
    }
    r->at += length;
    r->line++;
    return true;
}

bool part_want_line(part_reader *r, const char *word)
{
    if (!part_line_is(r, word)) {
        r->line++;
        return part_malformed(r);
    }
    return true;
}

bool part_skip(part_reader *r, char wanted)
{
    if (r->at < r->end && *r->at == wanted) {
        r->at++;
        return true;
    }
    return false;
}

bool part_digits(part_reader *r, uint64_t *value)
{
    const char *const first = r->at;
    *value = 0;
    while (r->at < r->end && *r->at >= '0' && *r->at <= '9') {
        const unsigned digit = (unsigned)(*r->at - '0');
        if (*value > (UINT64_MAX - digit) / 10) {
            return false;
        }
        *value = *value * 10 + digit;
        r->at++;
    }
    return r->at > first;
}

/* A blank, then a whole number from least to most. */
bool part_whole(part_reader *r, int64_t least, int64_t most, int64_t *value)
{
    uint64_t size = 0;
    if (!part_skip(r, ' ')) {
        return part_malformed(r);
    }
    const bool minus = part_skip(r, '-');
    if (!part_digits(r, &size) || size > INT64_MAX) {
        return part_malformed(r);
    }
    *value = minus ? -(int64_t)size : (int64_t)size;
    return (*value >= least && *value <= most) || part_malformed(r);
}

/* The same into an int. */
bool part_small(part_reader *r, int least, int most, int *value)
{
    int64_t wide = 0;
    const bool good = part_whole(r, least, most, &wide);
    *value = (int)wide;
    return good;
}

bool part_hex(part_reader *r, uint64_t *bits)
{
    *bits = 0;
    if (!part_skip(r, ' ') || r->end - r->at < 16) {
        return part_malformed(r);
    }
    for (int i = 0; i < 16; i++, r->at++) {
        const char *const all = "0123456789abcdef";
        const char *const found = *r->at != '\0' ? strchr(all, *r->at) : NULL;
        if (!found) {
            return part_malformed(r);
        }
        *bits = *bits << 4 | (uint64_t)(found - all);
    }
    return true;
}

bool part_number(part_reader *r, double *value)
{
    uint64_t bits = 0;
    if (!part_hex(r, &bits)) {
        return false;
    }
    memcpy(value, &bits, sizeof *value);
    return isfinite(*value) || part_malformed(r);
}

bool part_line_ends(part_reader *r)
{
    return part_skip(r, '\n') || part_malformed(r);
}
