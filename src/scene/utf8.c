/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * UTF-8 by the table of RFC 3629 section 4: no overlong forms, no surrogates, nothing
 * above U+10FFFF.
 */
#include "scene/utf8.h"

#include <stdio.h>

#include "base/language.h"

static size_t sequence_length(unsigned char first)
{
    if (first < 0x80U) {
        return 1;
    }
    if (first >= 0xC2U && first <= 0xDFU) {
        return 2;
    }
    if (first >= 0xE0U && first <= 0xEFU) {
        return 3;
    }
    return first >= 0xF0U && first <= 0xF4U ? 4 : 0;
}

size_t sl_utf8_character(const char *text, size_t length, uint32_t *point)
{
    static const uint32_t first_mask[] = {0, 0x7FU, 0x1FU, 0x0FU, 0x07U};
    static const uint32_t smallest[] = {0, 0, 0x80U, 0x800U, 0x10000U};
    const unsigned char first = (unsigned char)text[0];
    const size_t bytes = sequence_length(first);
    if (bytes == 0 || bytes > length) {
        return 0;
    }
    uint32_t value = first & first_mask[bytes];
    for (size_t i = 1; i < bytes; i++) {
        const unsigned char byte = (unsigned char)text[i];
        if ((byte & 0xC0U) != 0x80U) {
            return 0;
        }
        value = (value << 6) | (byte & 0x3FU);
    }
    if (value < smallest[bytes] || value > 0x10FFFFU || (value >= 0xD800U && value <= 0xDFFFU)) {
        return 0;
    }
    *point = value;
    return bytes;
}

bool sl_utf8_forbidden(uint32_t point)
{
    const bool line_or_tab = point == '\t' || point == '\n' || point == '\r';
    const bool control = (point < 0x20U && !line_or_tab) || (point >= 0x7FU && point <= 0x9FU);
    const bool direction = (point >= 0x202AU && point <= 0x202EU) || (point >= 0x2066U && point <= 0x2069U);
    /* Other line separators would make our line numbers differ from an editor's. */
    const bool odd_line = point == 0x2028U || point == 0x2029U;
    const bool no_character = point == 0xFEFFU || point == 0xFFFEU || point == 0xFFFFU;
    return control || direction || odd_line || no_character;
}

bool sl_utf8_check(const char *text, size_t length, const char *file, sl_error *error)
{
    int line = 1, column = 1;
    char found[64];
    for (size_t at = 0; at < length;) {
        uint32_t point = 0;
        const size_t bytes = sl_utf8_character(text + at, length - at, &point);
        if (bytes == 0) {
            snprintf(found, sizeof found, _("the byte 0x%02X"), (unsigned)(unsigned char)text[at]);
            return sl_fail_at(error, SL_ERR_NOT_UTF8, file, line, column, found, "");
        }
        if (sl_utf8_forbidden(point)) {
            snprintf(found, sizeof found, _("the invisible character U+%04lX"), (unsigned long)point);
            return sl_fail_at(error, SL_ERR_NOT_ALLOWED, file, line, column, found, "take it out");
        }
        const bool before_line_feed = point == '\r' && at + 1 < length && text[at + 1] == '\n';
        at += bytes;
        column++;
        if (point == '\n' || (point == '\r' && !before_line_feed)) {
            line++;
            column = 1;
        }
    }
    return true;
}
