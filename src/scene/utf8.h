/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Whether a file is text that a person can see: UTF-8 (RFC 3629) without control
 * characters and without the marks that reorder or hide what is written.
 */
#ifndef SLOWLIFT_SCENE_UTF8_H
#define SLOWLIFT_SCENE_UTF8_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "slowlift/error.h"

/* Bytes of the UTF-8 character at text (length > 0 bytes left), its code point in *point;
 * 0 when the bytes are no UTF-8. */
size_t sl_utf8_character(const char *text, size_t length, uint32_t *point);

/* A character that may not stand in a file: control characters other than tab and line
 * ends, and Unicode's direction controls (an attack that makes text read differently
 * from how it is parsed: Unicode Technical Standard 55). */
bool sl_utf8_forbidden(uint32_t point);

/* Check a whole file's text. */
bool sl_utf8_check(const char *text, size_t length, const char *file, sl_error *error);

#endif
