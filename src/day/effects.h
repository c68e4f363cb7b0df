/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What follows from a key or from time, as data: a terminal and a window each do it in their own way.
 *
 * Invariant: what is to be kept stands before what is told of it.
 */
#ifndef SLOWLIFT_DAY_EFFECTS_H
#define SLOWLIFT_DAY_EFFECTS_H

#include <stdbool.h>

#include "report/plan/day.h"
#include "slowlift/clock.h"

typedef enum sl_day_effect_kind {
    SL_DAY_KEEP,   /* event, and text: somebody's own words or "" */
    SL_DAY_SAY,    /* text: what was done */
    SL_DAY_REFUSE, /* text: why a key was not taken */
    SL_DAY_FAULT,  /* text: the log cannot be written, or can again */
    SL_DAY_CALL,   /* text: an alarm */
    SL_DAY_SOUND,  /* number: how many beeps */
    SL_DAY_SHOW,   /* number: which view (sl_day_view); swatch: of which */
    SL_DAY_LEAVE
} sl_day_effect_kind;

enum {
    SL_DAY_LINE = 2 * SL_DAY_WORDS + 16, /* bytes of a sentence */
    SL_DAY_MOST_EFFECTS = 48,
    SL_DAY_SPARE_EFFECTS = 16 /* of these, kept free by alarms */
};

typedef struct sl_day_effect {
    sl_day_effect_kind kind;
    int number, swatch;
    bool again; /* a sound that goes on, not a new one */
    sl_event event;
    char text[SL_DAY_LINE];
} sl_day_effect;

typedef struct sl_day_effects {
    int n;
    sl_day_effect effect[SL_DAY_MOST_EFFECTS]; /* [n] in the order in which they are to be done */
} sl_day_effects;

void sl_effect_tell(sl_day_effects *effects, sl_day_effect_kind kind, const char *format, ...)
    __attribute__((format(printf, 3, 4)));
void sl_effect_keep(sl_day_effects *effects, const sl_event *event, const char *words);
void sl_effect_sound(sl_day_effects *effects, int beeps, bool again);
void sl_effect_show(sl_day_effects *effects, int view, int swatch);
void sl_effect_leave(sl_day_effects *effects);

#endif
