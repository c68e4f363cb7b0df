/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What a person can do on the day: one list of rows. From it come what a key means on a page, the buttons of
 * the window, the line of keys on a terminal, and the page of keys of both.
 */
#ifndef SLOWLIFT_DAY_ACTS_H
#define SLOWLIFT_DAY_ACTS_H

#include <stdbool.h>

/* What is shown; the first lie over the bench until they are closed. */
typedef enum sl_day_view {
    SL_DAY_BENCH,
    SL_DAY_SOUND_TEST,
    SL_DAY_STOPPED,   /* cautions, water, reason */
    SL_DAY_BOWLS,     /* what was in the bowls; who was told */
    SL_DAY_END_PAGE,  /* what is done at the end of the day */
    SL_DAY_NOTE_PAGE, /* which note */
    SL_DAY_CAUTIONS,  /* from here on: what is told and changes nothing */
    SL_DAY_HELP,
    SL_DAY_LIST,
    SL_DAY_MODEL,
    SL_DAY_WENT, /* how the day went so far */
    SL_DAY_NEXT
} sl_day_view;

typedef enum sl_medium { SL_ON_TERMINAL = 1, SL_IN_WINDOW = 2 } sl_medium;

/* Keys that are no letters. Letters are small ones. */
enum {
    SL_KEY_BACKSPACE = 8,
    SL_KEY_TAB = '\t',
    SL_KEY_ENTER = '\r',
    SL_KEY_ESCAPE = 27,
    SL_KEY_UP = 256,
    SL_KEY_DOWN,
    SL_KEY_LEFT,
    SL_KEY_RIGHT,
    SL_KEY_F1,
    SL_KEY_LEAVE,
    SL_KEY_OTHER /* that means nothing here */
};

typedef enum sl_day_act {
    SL_ACT_MIXED,
    SL_ACT_APPLIED,
    SL_ACT_LOOKED,
    SL_ACT_FELT,
    SL_ACT_RINSED,
    SL_ACT_NOTE,
    SL_ACT_UNDO,
    SL_ACT_BACK, /* another swatch */
    SL_ACT_ON,
    SL_ACT_GO, /* Enter: to the swatch of what is next; what a page asks first; on */
    SL_ACT_STOP_ALL,
    SL_ACT_STOP_ONE,
    SL_ACT_ROW,    /* number: swatch */
    SL_ACT_CHOICE, /* number: reason, note, who was told */
    SL_ACT_HEARD,
    SL_ACT_NOT_HEARD,
    SL_ACT_SOUND, /* test it, again */
    SL_ACT_WATER, /* off */
    SL_ACT_BOWLS, /* what was in the bowls, for a doctor */
    SL_ACT_COVER, /* hide model and arms from whoever judges */
    SL_ACT_CLOSE, /* Esc */
    SL_ACT_CAUTIONS,
    SL_ACT_HELP,
    SL_ACT_START,
    SL_ACT_STOP_PAGE, /* back to the water of a stop */
    SL_ACT_LIST,
    SL_ACT_MODEL,
    SL_ACT_WENT,
    SL_ACT_CODE,  /* type a swatch's code */
    SL_ACT_WORDS, /* type a note */
    SL_ACT_LEAVE,
    SL_ACT_LEFTOVER, /* what is to be done next with what is left in the bowl */
    SL_ACT_CLEAN,    /* nothing lies on the hair: of a contact that was undone */
    SL_ACT_END,      /* the ticks at the end of the day */
    SL_ACT_ASK_STOP, /* of all; asked for again at once it stops */
    SL_ACT_NONE
} sl_day_act;

struct sl_day;
typedef struct sl_day_act_row {
    sl_day_act act;
    int key[2];        /* 0: none */
    unsigned pages;    /* bits of sl_day_view on which the keys mean this; 0: the bench alone */
    unsigned media;    /* sl_medium; 0: both */
    const char *keys;  /* as they are written; a msgid where they are words */
    const char *label; /* of a button; msgid; NULL: it has none */
    const char *brief; /* the same where room is short; msgid, NULL: none */
    const char *help;  /* msgid; NULL: told with another row */
    const char *(*why_not)(const struct sl_day *day); /* in the reader's language; NULL: it can be done now */
} sl_day_act_row;

enum { SL_DAY_ACT_ROWS = 37 };
extern const sl_day_act_row sl_day_acts[SL_DAY_ACT_ROWS];

bool sl_day_act_on(const sl_day_act_row *row, sl_day_view page, sl_medium medium);
/* SL_ACT_NONE: the key means nothing on that page. */
sl_day_act sl_day_act_of(int key, sl_day_view page, sl_medium medium);
const sl_day_act_row *sl_day_act_row_of(sl_day_act act);

/* Why it cannot be done now, to the chosen swatch; NULL: it can. */
const char *sl_day_why_not(const struct sl_day *day, sl_day_act act);

#endif
