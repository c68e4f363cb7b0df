/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Putting one reading after another into the log, inside a change that somebody else began.
 */
#ifndef SLOWLIFT_LOG_WRITER_H
#define SLOWLIFT_LOG_WRITER_H

#include "log/store/sql.h"

/* The last id that was given out: RFC 9562, version 7, monotonic (section 6.2, method 2). */
typedef struct sl_id_row {
    uint64_t ms;         /* since 1970 */
    uint64_t high, tail; /* 12 and 62 bits, random at the beginning of a millisecond, then counted up */
} sl_id_row;

typedef struct sl_writer {
    sl_log *log;
    sl_id_row ids;
    sl_error *error;
    sl_statement put, same, replaced;
} sl_writer;

void sl_writer_open(sl_writer *writer, sl_log *log, sl_error *error);
/* Keep a reading whose swatch and zone are known to be there; its id is filled when it is "". *there:
 * a reading with this id and this content was there already. */
bool sl_writer_put(sl_writer *writer, sl_log_reading *reading, bool *there);
/* True when every statement has ended well. */
bool sl_writer_close(sl_writer *writer);

/* A reading that is sent again says when it was made, or means the time that is in the log; of a new one that
 * says nothing it is `now`. */
bool sl_reading_settle_time(sl_log *log, sl_log_reading *reading, const char *now, sl_error *error);

/* The number of the last reading; and whether from there on so many stand in the log, and no other. */
bool sl_readings_count(sl_log *log, int64_t *last, sl_error *error);
bool sl_readings_added(sl_log *log, int64_t last, int64_t n, sl_error *error);

/* Whether a reading can be kept at all, apart from its swatch, zone and what it replaces. */
/* Whether anything was seen. */
bool sl_reading_says(const sl_log_reading *reading);
bool sl_reading_check(const sl_log_reading *reading, sl_error *error);

#endif
