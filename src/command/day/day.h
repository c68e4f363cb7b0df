/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * `slowlift day`: the clock of the day on a terminal. The bench is what the log's events make it
 * (slowlift/clock.h) and nothing else, so a program that was killed goes on where the log is.
 *
 * Invariant: a stop is taken at any moment, whatever the log, the disk or the page says.
 */
#ifndef SLOWLIFT_COMMAND_DAY_H
#define SLOWLIFT_COMMAND_DAY_H

#include <stdbool.h>

#include "clock/speed.h"
#include "command/command.h"
#include "log/day/day_keeper.h"
#include "report/plan/day.h"
#include "slowlift/log.h"
#include "slowlift/timeline.h"

enum { SL_TERMINAL_DUES = 3 * SL_BENCH_MOST, SL_TERMINAL_TYPED = 160 };

/* What the model says of a swatch at its second (day_model.c). */
typedef struct sl_terminal_model {
    sl_scene *scene;       /* each last mix stays on longer than planned, so that late ones are told too */
    sl_timeline *timeline; /* NULL: nothing is predicted; why says it */
    sl_error why;
} sl_terminal_model;
/* scene: NULL for one that could not be read, as `why` says. */
void sl_terminal_model_make(sl_terminal_model *model, const sl_scene *scene, const sl_error *why);
void sl_terminal_model_free(sl_terminal_model *model);
/* left: "colour left, in %: red 63, ..."; hair: "base moved 4 %, hair stress 3 %". arm < 0: not in the
 * scene. False: nothing is predicted, which left says. */
bool sl_terminal_model_words(const sl_terminal_model *model, int arm, double contact_s, char *left,
                             char *hair, size_t size);

/* What was last said of something due, so that an alarm sounds when its time comes and again while
 * it is late. */
typedef struct sl_terminal_alarm {
    bool rung;
    int64_t at_ns; /* the machine's own time */
} sl_terminal_alarm;
enum {
    SL_TERMINAL_ALARM_APPLY,
    SL_TERMINAL_ALARM_LOOK,
    SL_TERMINAL_ALARM_FEEL,
    SL_TERMINAL_ALARM_RINSE,
    SL_TERMINAL_ALARMS
};

typedef enum sl_terminal_typing {
    SL_TERMINAL_KEYS,
    SL_TERMINAL_TYPES_CODE,
    SL_TERMINAL_TYPES_NOTE,
    SL_TERMINAL_PICKS_NOTE,
    SL_TERMINAL_PICKS_TOLD
} sl_terminal_typing;

typedef struct sl_terminal_day {
    const sl_log_test *test;
    const sl_log_swatch *swatches; /* [n] */
    int n;
    sl_bench_swatch *plan; /* [n] */
    const char **arm;      /* [n] names */
    int *arm_at;           /* [n] in the model's scene, -1: none */
    sl_event *event;       /* [n_events], kept or waiting to be */
    size_t capacity;
    int n_events;
    sl_bench bench;
    sl_day_clock clock;
    sl_instant now;
    sl_day_keeper *keeper;
    const sl_scene *scene; /* as the log has it; NULL: it could not be read */
    sl_terminal_model model;
    sl_due due[SL_TERMINAL_DUES]; /* [n_due] */
    int n_due;
    sl_terminal_alarm alarm[SL_BENCH_MOST][SL_TERMINAL_ALARMS];
    sl_event last; /* the last key by the machine's own time */
    bool any_last;
    int chosen;            /* -1: the one that is due next */
    double rehearsed;      /* how fast the clock ran or runs; 0: the real one */
    bool blind;            /* neither arms nor the model are told */
    bool terminal, status; /* of stdout; whether lines at its foot are drawn over */
    int drawn;             /* lines of the status that stand there */
    sl_terminal_typing typing;
    char typed[SL_TERMINAL_TYPED];
    bool asks_sound, asks_reason, asks_water; /* y/n; 1-9; a second o */
    int waiting;                              /* events that are on no disk, when last told */
    bool unread;                              /* that what others write cannot be read, when last told */
    bool flash;                               /* the first line stood bright last */
    bool water_told;                          /* that the eyes' minutes are over */
    bool leave;
} sl_terminal_day;

/* ---- day_show.c: what is said ------------------------------------------------------------------ */

/* One plain line; the status makes room for it. */
void sl_terminal_say(sl_terminal_day *day, const char *format, ...) __attribute__((format(printf, 2, 3)));
void sl_terminal_say_choice(sl_terminal_day *day, int key, const char *words); /* "  1  in an eye" */
void sl_terminal_say_due(sl_terminal_day *day);                                /* what is next */
void sl_terminal_say_all(sl_terminal_day *day);                                /* every swatch */
void sl_terminal_say_help(sl_terminal_day *day);
void sl_terminal_say_stopped(sl_terminal_day *day);                     /* cautions, full screen; asks why */
void sl_terminal_say_bowls(sl_terminal_day *day, const sl_event *stop); /* also to who judges blind */
void sl_terminal_ask_told(sl_terminal_day *day);
void sl_terminal_say_model(sl_terminal_day *day, int swatch);
void sl_terminal_say_clocks(sl_terminal_day *day); /* after events were read: how long each has lain */
void sl_terminal_status(sl_terminal_day *day);
void sl_terminal_clear_status(sl_terminal_day *day);
void sl_terminal_bell(const sl_terminal_day *day);

/* ---- day_act.c: what is done ---------------------------------------------------------------------- */

bool sl_terminal_look(sl_terminal_day *day, sl_error *error); /* the time, what is due */
void sl_terminal_alarms(sl_terminal_day *day);
int sl_terminal_aim(const sl_terminal_day *day); /* the chosen swatch, or what is next; -1: none */
void sl_terminal_put(sl_terminal_day *day, sl_event_kind kind, int swatch);
void sl_terminal_put_note(sl_terminal_day *day, int swatch, sl_remark remark,
                          const char *said);                        /* said: "" for none */
void sl_terminal_stop_now(sl_terminal_day *day, int swatch);        /* -1: all */
bool sl_terminal_takes(sl_terminal_day *day, const sl_event *next); /* else says why not */
void sl_terminal_keep_event(sl_terminal_day *day, sl_event *event, const char *note);
void sl_terminal_act(sl_terminal_day *day, sl_event_kind kind); /* to the swatch that keys are about */
void sl_terminal_give_reason(sl_terminal_day *day, int place);
void sl_terminal_water_off(sl_terminal_day *day);

/* ---- day_doctor.c ------------------------------------------------------------------------------------- */

void sl_terminal_tell_bowls(
    sl_terminal_day *day); /* of the last stop; kept when it was a secret; asks who was told */
void sl_terminal_was_told(sl_terminal_day *day, int place);
sl_day_record sl_terminal_record_of(const sl_terminal_day *day);

void sl_terminal_from_elsewhere(sl_terminal_day *day); /* what other programs added */

/* ---- day_keys.c: keys ------------------------------------------------------------------------------- */

void sl_terminal_sound_test(sl_terminal_day *day);
void sl_terminal_key(sl_terminal_day *day, int key);           /* one key of a terminal */
void sl_terminal_line(sl_terminal_day *day, const char *line); /* one line where there is no terminal */

#endif
