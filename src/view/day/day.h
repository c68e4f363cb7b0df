/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The day of the test in the window: the clock of every swatch, what is next, one key for each
 * thing done, and STOP AND RINSE. The bench is what the log's events make it (slowlift/clock.h);
 * nothing else is remembered, so a program that was killed goes on where the log is.
 *
 * Invariant: a stop is taken on every page, whatever the log says.
 */
#ifndef SLOWLIFT_VIEW_DAY_H
#define SLOWLIFT_VIEW_DAY_H

#include <SDL.h>
#include <stdbool.h>

#include "clock/speed.h"
#include "log/day/day_keeper.h"
#include "report/plan/day.h"
#include "slowlift/log.h"
#include "view/day/day_model.h"
#include "view/day/day_place.h"
#include "view/day/day_sound.h"
#include "view/draw/pen.h"
#include "view/strips/strip.h"

enum { SL_DAY_LINE = 256, SL_DAY_DUES = 64 };

typedef enum sl_day_page {
    SL_DAY_BENCH,
    SL_DAY_SOUND_TEST,
    SL_DAY_STOPPED,   /* cautions, water, reason */
    SL_DAY_BOWLS,     /* what was in the bowls; who was told */
    SL_DAY_NOTE_PAGE, /* which note */
    SL_DAY_CAUTIONS,
    SL_DAY_HELP
} sl_day_page;

/* What a button does; the first are those at the foot of the bench. */
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
    SL_ACT_GO, /* Enter: to the swatch of what is next; begin the day; on */
    SL_ACT_STOP_ALL,
    SL_ACT_STOP_ONE,
    SL_ACT_ROW,    /* number: swatch */
    SL_ACT_CHOICE, /* number: reason or note */
    SL_ACT_HEARD,
    SL_ACT_NOT_HEARD,
    SL_ACT_SOUND, /* beep again */
    SL_ACT_WATER, /* back to the page of the stop */
    SL_ACT_BOWLS, /* what was in the bowls, for a doctor; from there back to the stop */
    SL_ACT_COVER, /* hide the model's strip from whoever judges */
    SL_ACT_CLOSE, /* Esc */
    SL_ACT_CAUTIONS,
    SL_ACT_HELP,
    SL_ACTS
} sl_day_act;

typedef struct sl_day_spot {
    sl_day_act act;
    int number;
    SDL_Rect area;
} sl_day_spot;
enum { SL_DAY_SPOTS = 64 };

/* What the window is opened with; all borrowed. */
typedef struct sl_day_wish {
    sl_log *log;
    const char *path; /* of the log */
    const sl_log_test *test;
    const sl_log_swatch *swatches; /* [n] */
    int n;
    const sl_scene *scene;
    const sl_eyes *eyes;
    double scale;    /* of the text, 1..2 */
    const char *say; /* keys, after each of which all is told in words (say.h); NULL: a window */
} sl_day_wish;

typedef struct sl_day {
    sl_day_wish wish;
    sl_eyes eyes;
    double scale;
    sl_bench_swatch *plan; /* [wish.n] */
    int *arm;              /* [wish.n] of the scene; -1: not found there */
    const char **arm_name; /* [wish.n] */
    sl_event *event;       /* [n_events] kept or waiting to be */
    size_t capacity;
    int n_events;
    sl_bench bench;
    sl_day_clock clock;
    sl_day_keeper *keeper;
    sl_day_model model;
    sl_day_sound sound;
    bool heard;         /* there is a loudspeaker */
    sl_event last_real; /* the last key by the machine's own time, for the guard */
    bool any_last;

    sl_instant now;
    sl_due due[SL_DAY_DUES]; /* [n_due] rinses that are late first, then by time */
    int n_due;
    int n_late, was_late;
    bool apart, restarted; /* clocks disagreed for a swatch on hair */
    int waiting;           /* events on no disk yet */
    sl_error trouble;      /* why */
    bool unread;           /* it is about what others write */

    int chosen, first_row;
    sl_day_page page;
    int scroll, scroll_most;
    bool covered;     /* the model's strip */
    bool water_told;  /* that an eye had its minutes */
    bool sure;        /* leaving, or turning water off early, was asked for once */
    Uint64 last_beep; /* ticks */
    char said[SL_DAY_LINE];
    bool refused; /* said: a key that was not taken */

    SDL_Window *window;
    sl_text *text;
    sl_pen pen;
    sl_day_places places;
    bool tight; /* large text: head, alarm and foot are kept short */
    sl_light_table light;
    sl_strip *strip;
    SDL_Rect hair; /* where it was last drawn */
    sl_day_spot spot[SL_DAY_SPOTS];
    int n_spots;
    bool dirty, leave;
    int drawn;         /* frames */
    int phase, second; /* of what was drawn */
} sl_day;

/* Shows the window until it is left; false with *error. *lost: events that are on no disk. */
bool sl_day_run(const sl_day_wish *wish, SDL_Window *window, int *lost, sl_error *error);

/* ---- day_act.c: what keys and presses do ------------------------------------------------------ */

void sl_day_begin(sl_day *day);          /* after the events were read */
void sl_day_look(sl_day *day);           /* the time, what is due, who is late */
void sl_day_alarm(sl_day *day);          /* beeps */
void sl_day_from_elsewhere(sl_day *day); /* what other programs added to the test */
void sl_day_act_on(sl_day *day, sl_day_act act, int number);
void sl_day_key(sl_day *day, SDL_Keycode key, bool control);
bool sl_day_on_hair(const sl_day *day); /* any swatch */
/* The event is shown only after the disk had its time to take it. */
bool sl_day_keep(sl_day *day, sl_event event);
void sl_day_say(sl_day *day, bool refused, const char *text); /* in the head */

/* ---- day_stop.c: a stop and what follows -------------------------------------------------------- */

void sl_day_stop_now(sl_day *day, int swatch); /* -1: all */
void sl_day_give_reason(sl_day *day, int place);
void sl_day_water_off(sl_day *day);
void sl_day_open_bowls(sl_day *day); /* for a doctor; kept where the strip was covered */
void sl_day_was_told(sl_day *day, int place);
sl_day_record sl_day_record_of(const sl_day *day);

/* ---- day_words.c; others are report/plan/day.h's ----------------------------------------------------- */

/* "rinse"; "cut off, rinse 10 min piece" on a time ladder */
void sl_put_due_verb(const sl_day *day, const sl_due *due, char *text, size_t size);
void sl_put_due(const sl_day *day, const sl_due *due, char *text, size_t size); /* "KP7: rinse in 4:05" */
void sl_put_eye(const sl_day *day, char *text, size_t size);               /* "WATER ON THE EYE 3:12 ..." */
void sl_put_state(const sl_day *day, int swatch, char *text, size_t size); /* "on hair 4:05" */

/* ---- day_show.c, day_list.c, day_pages.c, day_strip.c
 * -------------------------------------------------------------------------- */

bool sl_day_draw(sl_day *day, sl_error *error);
void sl_day_add_spot(sl_day *day, sl_day_act act, int number, SDL_Rect area);
void sl_day_put_trouble(const sl_day *day, SDL_Rect area);       /* what could not be written, and why */
SDL_Rect sl_day_put_rehearsal(const sl_day *day, SDL_Rect area); /* what is left beside its plate */
void sl_day_put_list(sl_day *day);
void sl_day_put_alarm(sl_day *day, SDL_Rect area);
void sl_day_put_button(sl_day *day, sl_day_act act, int number, SDL_Rect area, const char *label,
                       const char *key, bool strong);
void sl_day_put_page(sl_day *day); /* any but the bench */
bool sl_day_put_model(sl_day *day, sl_error *error);

#endif
