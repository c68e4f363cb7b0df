/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What the day says, as lines of a kind each: a terminal prints them one below the other, a window gives each
 * kind its place.
 */
#ifndef SLOWLIFT_DAY_SAYS_H
#define SLOWLIFT_DAY_SAYS_H

#include "day/desk.h"

typedef enum sl_day_line_kind {
    SL_LINE_TITLE,
    SL_LINE_SAY,
    SL_LINE_CAUTION,  /* lead: its signal word */
    SL_LINE_ORIGINAL, /* that a caution's translation is nobody's of the trade, and the English; as many as
                         cautions, in their order, or none */
    SL_LINE_ASK,
    SL_LINE_CHOICE, /* number: of the key 1, 2 ...; given: it was given */
    SL_LINE_KEYS    /* lead: keys as they are written */
} sl_day_line_kind;

typedef struct sl_day_line {
    sl_day_line_kind kind;
    const char *lead, *words; /* in the reader's language, until the setter returns */
    int number;
    bool given;
} sl_day_line;

typedef void sl_day_setter(void *self, const sl_day_line *line);

/* swatch: of SL_DAY_MODEL; -1 else. */
void sl_day_says(const sl_day_desk *desk, sl_day_view view, int swatch, sl_day_setter *set, void *self);

/* Page SL_DAY_WENT is sl_day_say_went() of this; what it points to stays the desk's. */
sl_day_went sl_day_went_of(const sl_day_desk *desk);

/* That swatches which were dyed today rest first; NULL: nothing to say, or the day has begun. */
const char *sl_day_rest_words(const sl_day *day);
/* What comes before all else: a stop that is asked for, the water of a stop, what is late, what is next.
 * Returns whether it is late or runs. brief: in few columns. */
bool sl_day_first_words(const sl_day *day, bool brief, char *text, size_t size);
/* "WATER ON THE EYE 3:12, 11:48 to go" and so on; false: no water runs. */
bool sl_day_water_words(const sl_day *day, char *text, size_t size);
/* "REHEARSAL | " or "": opens every line that is printed. */
const char *sl_day_mark_of(const sl_day_desk *desk);

#endif
