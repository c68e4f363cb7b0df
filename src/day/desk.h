/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A test out of its log, with its clock, its keeper and its day: what a terminal and a window open alike.
 */
#ifndef SLOWLIFT_DAY_DESK_H
#define SLOWLIFT_DAY_DESK_H

#include "clock/speed.h"
#include "day/day.h"
#include "day/model.h"
#include "log/day/day_keeper.h"

enum { SL_DAY_PATH = 4096 };

typedef struct sl_day_desk {
    char path[SL_DAY_PATH]; /* of the log */
    sl_log *log;
    sl_log_test test;
    sl_log_swatch *swatches;
    sl_tubs *tubs;
    sl_log_reading *readings; /* [n_readings] in the log, that none replaces */
    int n_readings;
    sl_scene *scene; /* NULL: it could not be read, why says it; the clock goes on without it */
    sl_error why;
    sl_day_clock clock;
    double rehearsed; /* how fast the clock ran or runs; 0: the real one */
    sl_day_keeper *keeper;
    sl_day_model model;
    int *arm_at; /* [day.n] in the model's scene, -1: none */
    sl_day day;
    sl_day_effects effects; /* of the last call */
} sl_day_desk;

/* test: how its id begins; NULL: the only one. how: SL_LOG_READ for what was done, SL_LOG_WRITE for a day.
 * NULL with *error. */
sl_day_desk *sl_day_desk_open(const char *path, const char *test, sl_log_how how, sl_error *error);
/* The same of a copy beside it (strands.rehearsal.db) whose clock runs so many times as fast; the log itself
 * stays as it is. A copy that is opened later goes on as what it is. */
sl_day_desk *sl_day_desk_rehearse(const char *path, const char *test, double speed, sl_error *error);
/* Returns how many events are on no disk; they were told on stderr. NULL is allowed: 0. */
int sl_day_desk_close(sl_day_desk *desk);

/* The day begins, or goes on. The caller has said by desk->day what it is (medium, plays, asks_sound, blind).
 */
bool sl_day_desk_begin(sl_day_desk *desk, sl_error *error);
/* Each leaves in desk->effects what is to be shown; what was to be kept is kept by then. */
void sl_day_desk_take(sl_day_desk *desk, int key, const char *typed);
void sl_day_desk_do(sl_day_desk *desk, sl_day_act act, int number);
void sl_day_desk_pass(sl_day_desk *desk);

/* What the model says of a swatch now; false: nothing, or it is covered. */
bool sl_day_desk_model(const sl_day_desk *desk, int swatch, char *left, char *hair, size_t size);

#endif
