/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See desk.h.
 */
#include "day/desk.h"

#include <errno.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

#include "base/language.h"
#include "base/memory.h"
#include "day/deeds.h"
#include "log/day/dyed.h"
#include "log/day/rounds.h"
#include "log/day/tubs.h"

/* Two clocks of different speeds in one day would tell contact wrong: a test that was rehearsed stays a
 * rehearsal of that speed, and what has begun for real hair is not rehearsed. */
static bool set_speed(sl_day_desk *desk, double wished, sl_log_how how, sl_error *error)
{
    sl_day *const day = &desk->day;
    int64_t begun_ns = 0;
    if (!sl_log_rehearsal(desk->log, desk->test.id, &desk->rehearsed, error) ||
        !sl_time_read(desk->test.made, &begun_ns, error)) {
        return false;
    }
    if (wished > 1.0 && desk->rehearsed <= 0.0) {
        if (day->bench.started) {
            return sl_fail(error, SL_ERR_INCONSISTENT, _("this day has begun by the real clock"),
                           _("rehearse before it begins, or with another test"));
        }
        desk->rehearsed = wished;
    }
    day->speed = desk->rehearsed > 1.0 ? desk->rehearsed : 1.0;
    if (!sl_day_clock_start(&desk->clock, day->speed, begun_ns, error) ||
        !sl_day_clock_now(&desk->clock, &day->now, error)) {
        return false;
    }
    if (how == SL_LOG_READ && desk->rehearsed > 0.0 && day->n_events > 0) {
        day->now = day->event[day->n_events - 1].at; /* a summary of a rehearsal stands as it stood then */
    }
    return true;
}

static bool holds(int n, sl_error *error)
{
    return n > 0 ? sl_day_holds(n, error)
                 : sl_fail(error, SL_ERR_MISSING_PART, _("this test has no swatch"),
                           _("begin one with slowlift log new"));
}

static bool read_dyed(sl_day_desk *desk, sl_error *error)
{
    int today = 0, day = 0;
    if (!sl_log_dyed(desk->log, desk->test.id, &day, error) || !sl_today(&today, error)) {
        return false;
    }
    desk->day.dyed_today = day == today;
    return true;
}

static bool read_test(sl_day_desk *desk, const char *test, sl_log_how how, sl_error *error)
{
    sl_day *const day = &desk->day;
    if (!sl_log_open(&desk->log, desk->path, how, error) ||
        !sl_log_find(desk->log, test, &desk->test, error) ||
        !sl_log_swatches(desk->log, desk->test.id, &desk->swatches, &day->n, error) ||
        !holds(day->n, error) ||
        !sl_log_tubs(desk->log, desk->test.id, desk->swatches, day->n, &desk->tubs, error) ||
        !read_dyed(desk, error) ||
        !sl_log_readings(desk->log, desk->test.id, &desk->readings, &desk->n_readings, error)) {
        return false;
    }
    desk->scene = sl_log_scene(desk->log, desk->test.id, &desk->why);
    sl_rounds_fill(desk->scene, desk->swatches, day->n);
    day->test = &desk->test;
    day->swatches = desk->swatches;
    day->scene = desk->scene;
    day->tubs = desk->tubs;
    day->readings = desk->readings;
    day->n_readings = desk->n_readings;
    return sl_log_events(desk->log, desk->test.id, desk->swatches, day->n, &day->event, &day->n_events,
                         error) &&
           sl_day_make(day, error);
}

static sl_day_desk *open_desk(const char *path, const char *test, sl_log_how how, double speed,
                              sl_error *error)
{
    sl_day_desk *const desk = sl_new(1, sizeof *desk, "opening the day", error);
    if (!desk) {
        return NULL;
    }
    sl_day *const day = &desk->day;
    snprintf(desk->path, sizeof desk->path, "%s", path);
    bool good = read_test(desk, test, how, error);
    if (good) {
        sl_bench_fold(&day->bench, day->plan, day->n, day->event, day->n_events);
        good = set_speed(desk, speed, how, error);
    }
    if (!good && error->file[0] == '\0') {
        snprintf(error->file, sizeof error->file, "%s", path);
    }
    if (!good) {
        sl_day_desk_close(desk);
        return NULL;
    }
    return desk;
}

sl_day_desk *sl_day_desk_open(const char *path, const char *test, sl_log_how how, sl_error *error)
{
    return open_desk(path, test, how, 1.0, error);
}

/* "strands.rehearsal.db" beside "strands.db". */
static bool name_copy(const char *path, char copy[SL_DAY_PATH], sl_error *error)
{
    const size_t length = strlen(path);
    const size_t stem = length > 3 && strcmp(path + length - 3, ".db") == 0 ? length - 3 : length;
    if ((size_t)snprintf(copy, SL_DAY_PATH, "%.*s.rehearsal.db", (int)stem, path) >= SL_DAY_PATH) {
        return sl_fail(error, SL_ERR_CANNOT_WRITE, path, strerror(ENAMETOOLONG));
    }
    if (access(copy, F_OK) == 0) {
        char found[SL_ERROR_TEXT_SIZE];
        snprintf(found, sizeof found, _("there is a rehearsal \"%.160s\" already"), copy);
        return sl_fail(error, SL_ERR_USAGE, found,
                       _("go on with it by slowlift day and its name, or take it away"));
    }
    return true;
}

sl_day_desk *sl_day_desk_rehearse(const char *path, const char *test, double speed, sl_error *error)
{
    char copy[SL_DAY_PATH];
    long long rows = 0;
    sl_day_desk *const real =
        open_desk(path, test, SL_LOG_READ, speed, error); /* refused before it is copied */
    const bool is_real = real && real->rehearsed == speed;
    sl_day_desk_close(real);
    if (!real) {
        return NULL;
    }
    if (!is_real) {
        sl_fail(error, SL_ERR_INCONSISTENT, _("this is a rehearsal already"),
                _("leave out --rehearse to go on with it"));
        return NULL;
    }
    return name_copy(path, copy, error) && sl_log_backup(path, copy, &rows, error)
               ? open_desk(copy, test, SL_LOG_WRITE, speed, error)
               : NULL;
}

int sl_day_desk_close(sl_day_desk *desk)
{
    if (!desk) {
        return 0;
    }
    const int lost = sl_day_keeper_stop(desk->keeper);
    sl_day_free(&desk->day);
    sl_day_model_free(&desk->model);
    sl_free(desk->arm_at);
    sl_scene_free(desk->scene);
    sl_free(desk->readings);
    sl_free(desk->tubs);
    sl_free(desk->swatches);
    sl_log_close(desk->log);
    sl_free(desk);
    return lost;
}

static bool make_model(sl_day_desk *desk, sl_error *error)
{
    const sl_day *const day = &desk->day;
    desk->arm_at = sl_new((size_t)day->n, sizeof *desk->arm_at, "opening the day", error);
    if (!desk->arm_at) {
        return false;
    }
    if (!day->blind) {
        sl_day_model_make(&desk->model, desk->scene, &desk->why);
    }
    for (int i = 0; i < day->n; i++) {
        desk->arm_at[i] = desk->model.scene ? sl_scene_arm(desk->model.scene, day->arm[i]) : -1;
    }
    return true;
}

/* ---- keeping ---------------------------------------------------------------------------------------- */

static void keep_all(sl_day_desk *desk)
{
    const int n = desk->effects.n;
    for (int i = 0; i < n; i++) {
        const sl_day_effect *const effect = &desk->effects.effect[i];
        sl_error error = {.code = SL_OK};
        if (effect->kind == SL_DAY_KEEP &&
            !sl_day_keeper_put(desk->keeper, &effect->event, effect->text, &error)) {
            sl_effect_tell(&desk->effects, SL_DAY_REFUSE, _("OUT OF MEMORY: write this on paper: %s %s"),
                           sl_day_done(effect->event.kind), effect->text);
        }
    }
    desk->day.waiting = sl_day_keeper_waiting(desk->keeper, &desk->day.fault);
}

/* The last known time stands where the clock cannot be read. */
static void set_clock(sl_day_desk *desk)
{
    sl_instant now;
    if (sl_day_clock_now(&desk->clock, &now, NULL)) {
        desk->day.now = now;
    }
    desk->effects.n = 0;
}

bool sl_day_desk_begin(sl_day_desk *desk, sl_error *error)
{
    if (!make_model(desk, error)) {
        return false;
    }
    desk->keeper =
        sl_day_keeper_start(desk->log, desk->path, desk->test.id, desk->swatches, desk->day.n, error);
    if (!desk->keeper) {
        return false;
    }
    set_clock(desk);
    sl_day_begin(&desk->day, &desk->effects);
    keep_all(desk);
    return true;
}

void sl_day_desk_take(sl_day_desk *desk, int key, const char *typed)
{
    set_clock(desk);
    sl_day_look(&desk->day);
    sl_day_take(&desk->day, key, typed, &desk->effects);
    keep_all(desk);
}

void sl_day_desk_do(sl_day_desk *desk, sl_day_act act, int number)
{
    set_clock(desk);
    sl_day_look(&desk->day);
    sl_day_do(&desk->day, act, number, &desk->effects);
    keep_all(desk);
}

void sl_day_desk_pass(sl_day_desk *desk)
{
    sl_day *const day = &desk->day;
    set_clock(desk);
    const int n_new = sl_day_keeper_news(desk->keeper, &day->event, &day->capacity, &day->n_events);
    sl_day_keeper_readings(desk->keeper, &desk->readings, &desk->n_readings);
    day->readings = desk->readings;
    day->n_readings = desk->n_readings;
    day->waiting = sl_day_keeper_waiting(desk->keeper, &day->fault);
    const sl_instant now = day->now;
    if (n_new > 0) {
        sl_day_news(day, n_new, &desk->effects);
    }
    sl_day_pass(day, &now, &desk->effects);
    keep_all(desk);
}

bool sl_day_desk_model(const sl_day_desk *desk, int swatch, char *left, char *hair, size_t size)
{
    const sl_day *const day = &desk->day;
    const double course_s = sl_bench_course_s(&day->bench, swatch, &day->now);
    return !sl_day_covers(day, swatch) && course_s >= 0.0 &&
           sl_day_model_words(&desk->model, desk->arm_at[swatch], course_s, left, hair, size);
}
