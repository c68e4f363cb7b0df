/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See dyed.h.
 */
#include "log/day/dyed.h"

#include <string.h>

#include "base/calendar.h"
#include "log/store/rescue.h"
#include "log/strand/pairs.h"

static const char lead[] = "dyed:";

void sl_dyed_note(int day, char note[SL_DYED_NOTE])
{
    char text[SL_DAY_TEXT];
    sl_day_words(day, text);
    snprintf(note, SL_DYED_NOTE, "%s on=%s", lead, text);
}

static void take(void *day, const char *key, const char *value)
{
    int read = 0;
    if (strcmp(key, "on") == 0 && sl_day_read(value, &read)) {
        *(int *)day = read;
    }
}

bool sl_dyed_read(const char *note, int *day)
{
    return sl_pairs_read(note, lead, take, day);
}

static bool read_notes(sl_log *log, const char *test, int *day, sl_error *error)
{
    sl_statement ask = sl_sql(log,
                              "SELECT note FROM event WHERE test = ?1 AND kind = 'note' AND swatch IS NULL"
                              " AND note LIKE 'dyed:%'" SL_NOT_UNDONE " ORDER BY kept",
                              error);
    sl_put_text(&ask, test);
    *day = 0;
    while (sl_next_row(&ask)) {
        sl_dyed_read(sl_text_at(&ask, 0), day);
    }
    return sl_sql_leave(&ask);
}

bool sl_log_dyed(sl_log *log, const char *test, int *day, sl_error *error)
{
    return read_notes(log, test, day, error) ||
           (sl_log_fall_back(log, error) && read_notes(log, test, day, error));
}
