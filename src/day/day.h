/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The day of a test: the clock of every swatch, what is next, one key for each thing done, and STOP AND
 * RINSE. No terminal and no window: both hand in keys and time, and do the effects that come back.
 *
 * Invariants: the bench is what the log's events make it (slowlift/clock.h) and nothing else, so that a
 * program that was killed goes on where the log is. A stop is taken on every page, whatever the log, the
 * disk or the page says. The chosen swatch moves only after a key.
 */
#ifndef SLOWLIFT_DAY_DAY_H
#define SLOWLIFT_DAY_DAY_H

#include <stddef.h>

#include "day/acts.h"
#include "day/effects.h"
#include "slowlift/log.h"

enum {
    SL_DAY_DUES = 5 * SL_BENCH_MOST,
    SL_DAY_TYPED = 160,
    SL_DAY_RINSE_BEEPS = 5,
    SL_DAY_LATE_BEEPS = 3,
    SL_DAY_ASKED_S = 10
};

/* When something due last called, so that it calls as its time comes and again while it is late. */
typedef struct sl_day_ring {
    bool rung;
    double at_s; /* the machine's own time */
} sl_day_ring;
enum { SL_DAY_RINGS = 5 }; /* kinds of things that are due */

typedef enum sl_day_typing {
    SL_TYPES_NOTHING,
    SL_TYPES_NUMBER, /* of a swatch; any other key ends it */
    SL_TYPES_CODE,   /* of a swatch */
    SL_TYPES_NOTE,   /* in somebody's own words */
    SL_TYPES_MEASURE /* a number that was asked for; Enter alone: as planned; any other key leaves it */
} sl_day_typing;

/* What is asked once for each bowl and once for each block of the plan. */
typedef struct sl_measuring {
    sl_remark remark; /* SL_REMARK_GRAMS, SL_REMARK_ROOM */
    int swatch;
    double planned;
} sl_measuring;

typedef struct sl_day {
    /* what it is about; borrowed */
    const sl_log_test *test;
    const sl_log_swatch *swatches;  /* [n] */
    const sl_scene *scene;          /* as the log has it; NULL: it could not be read */
    const sl_log_reading *readings; /* [n_readings] of this test */
    int n_readings;
    const sl_tubs *tubs; /* [n] as they were said until it was opened; NULL: not known */
    bool dyed_today;     /* its swatches */
    int n;

    /* what is known */
    sl_bench_swatch *plan; /* [n] */
    const char **arm;      /* [n] names */
    sl_event *event;       /* [n_events], kept or waiting to be */
    size_t capacity;
    int n_events;
    sl_bench bench;
    double speed; /* of its clock: 1, or a rehearsal's */
    sl_instant now;
    sl_due due[SL_DAY_DUES]; /* [n_due] rinses that are late first, then by time */
    int n_due, n_late;
    bool apart, restarted; /* clocks disagree for a swatch on hair */

    /* whom it talks to */
    sl_medium medium;
    bool plays;      /* there is something that can sound */
    bool asks_sound; /* somebody can say whether it was heard */
    bool blind;      /* neither arms nor the model are told, whatever the key */
    bool covered;    /* the same, until the key that covers is pressed again */

    /* what was pressed */
    int chosen;
    sl_day_view page; /* up to SL_DAY_NOTE_PAGE */
    sl_day_typing typing;
    char typed[SL_DAY_TYPED];
    sl_measuring asks; /* SL_TYPES_MEASURE */
    bool is_sure;
    sl_day_act sure; /* was asked for once, and asks for it again */
    double asked_s;  /* SL_ACT_ASK_STOP: when, by the machine's own time */
    sl_event last;   /* the last key that was taken */
    bool any_last;

    /* what was told */
    sl_day_ring ring[SL_BENCH_MOST][SL_DAY_RINGS];
    int was_late;
    double sounded_s;
    bool water_told; /* that the eyes' minutes are over */
    int waiting;     /* events on no disk yet */
    sl_error fault;  /* why the log could not be written, or read (SL_OK: it could) */
    int told_waiting;
    bool told_unread;
} sl_day;

/* ---- day.c ------------------------------------------------------------------------------------------ */

/* Room for what is known; the events stand in day->event already. */
bool sl_day_make(sl_day *day, sl_error *error);
void sl_day_free(sl_day *day);
/* After the events were read: the bench, whose turn it is, which page lies over it. */
void sl_day_begin(sl_day *day, sl_day_effects *effects);
/* Time has passed: what is due, who is late, what calls. */
void sl_day_pass(sl_day *day, const sl_instant *now, sl_day_effects *effects);
/* The last n_new of day->event that are from elsewhere were just added. */
void sl_day_news(sl_day *day, int n_new, sl_day_effects *effects);

/* What others write cannot be read; all of its own is written. */
bool sl_day_unread(const sl_day *day);
bool sl_day_blind(const sl_day *day);
/* Whether what the model says of a swatch may be shown: once it is rinsed and its grade at the end is in the
 * log; never before. */
bool sl_day_may_show(const sl_day *day, int swatch);
/* And whether it was: the log keeps that (SL_REMARK_SHOWN), so that a later grade is known to be no blind
 * one. */
bool sl_day_shown(const sl_day *day, int swatch);
bool sl_day_covers(const sl_day *day, int swatch); /* that it is not shown, always unless both are so */
const char *sl_day_cover_words(void);
bool sl_day_on_hair(const sl_day *day); /* any swatch */
sl_day_record sl_day_record_of(const sl_day *day);

/* Whether all is to be stopped, while that is asked and a second press would do it; false: it is not.
 * (stop.c) */
bool sl_day_asks_words(const sl_day *day, char *text, size_t size);
/* "EK9 (powder and 3 %): put the mix on, in 0:30"; the mix is not named to who judges blind. (says.c) */
void sl_day_due_words(const sl_day *day, const sl_due *due, char *text, size_t size);
/* The same without the time, of a verb: "EK9 (powder and 3 %): put the mix on". (says.c) */
void sl_day_head_words(const sl_day *day, const sl_due *due, const char *verb, char *text, size_t size);
/* What is typed, behind what was asked; false: nothing is. (says.c) */
bool sl_day_typed_words(const sl_day *day, char *text, size_t size);

/* ---- keys.c ----------------------------------------------------------------------------------------- */

/* One key (acts.h). typed: words that came with it and need no typing, such as a swatch's code or a note;
 * NULL: none. */
void sl_day_take(sl_day *day, int key, const char *typed, sl_day_effects *effects);
/* What a key or a press means. number: of a swatch, a choice. */
void sl_day_do(sl_day *day, sl_day_act act, int number, sl_day_effects *effects);
/* By code, whatever its case, or by number. */
bool sl_day_choose_named(sl_day *day, const char *name, sl_day_effects *effects);

#endif
