/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Instants as text: ISO 8601, extended format, as RFC 3339 narrows it.
 */
#ifndef SLOWLIFT_LOG_ISO_TIME_H
#define SLOWLIFT_LOG_ISO_TIME_H

#include <stdint.h>

enum { SL_TIME_TEXT = 32 };

/* Local time with its offset, "2026-11-25T14:05:30+01:00". */
void sl_time_words(int64_t wall_ns, char text[SL_TIME_TEXT]);

#endif
