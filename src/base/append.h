/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Words behind others, in room of a known size.
 */
#ifndef SLOWLIFT_BASE_APPEND_H
#define SLOWLIFT_BASE_APPEND_H

#include <stddef.h>

/* text: what stands there so far, ended by '\0', in room for `size` bytes. What does not fit is cut off. */
void sl_append(char *text, size_t size, const char *format, ...) __attribute__((format(printf, 3, 4)));
/* The same behind ", " or what `between` is, unless nothing stands there yet. */
void sl_append_item(char *text, size_t size, const char *between, const char *format, ...)
    __attribute__((format(printf, 4, 5)));

#endif
