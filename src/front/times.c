/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Values on the command line. Grammar of a list of times (spaces are allowed between
 * number and unit):
 *     list = piece { "," piece }     piece = time | time ".." time "/" time
 *     time = number ("s" | "min" | "h")
 */
#include "front/times.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/language.h"
#include "base/memory.h"
#include "scene/yaml/quantity.h"

static const char *skip_spaces(const char *at)
{
    return at + strspn(at, " ");
}

static bool refuse(const sl_option *option, const char *at, const char *wanted, sl_error *error)
{
    char found[SL_ERROR_TEXT_SIZE];
    if (at[0] == '\0') {
        snprintf(found, sizeof found, _("--%s: something is missing at the end"), option->name);
    } else {
        snprintf(found, sizeof found, _("--%s: cannot read \"%.60s\""), option->name, at);
    }
    return sl_fail(error, SL_ERR_USAGE, found, wanted);
}

static bool refuse_time(const sl_option *option, const char *at, sl_error *error)
{
    return refuse(option, at, _("write times with their unit, such as 5min,10min or 0min..60min/1min"),
                  error);
}

/* Minutes of one unit, and the text after it; 0 when there is no unit. */
static double unit_minutes(const char **at)
{
    static const struct {
        const char *word;
        double minutes;
    } units[] = {{"min", 1.0}, {"s", 1.0 / 60.0}, {"h", 60.0}};
    for (size_t i = 0; i < sizeof units / sizeof units[0]; i++) {
        const size_t length = strlen(units[i].word);
        const char after = strncmp(*at, units[i].word, length) == 0 ? (*at)[length] : 'x';
        if (!((after >= 'a' && after <= 'z') || (after >= 'A' && after <= 'Z'))) {
            *at += length;
            return units[i].minutes;
        }
    }
    return 0.0;
}

/* A time at *at, and the text after it; false when there is none. */
static bool read_time(const char **at, double *minutes)
{
    const char *const start = skip_spaces(*at);
    double number = 0.0;
    const char *after = start[0] == '-' ? NULL : sl_decimal_read(start, &number);
    after = after ? skip_spaces(after) : NULL;
    const double unit = after ? unit_minutes(&after) : 0.0;
    if (unit <= 0.0) {
        return false;
    }
    *minutes = number * unit;
    *at = skip_spaces(after);
    return true;
}

bool sl_single_time_read(const char *text, double *minutes)
{
    return read_time(&text, minutes) && *text == '\0';
}

static bool add_time(sl_times *times, double minutes, sl_error *error)
{
    if (times->n >= SL_TIMES_MOST) {
        return sl_fail(error, SL_ERR_USAGE, "more than 10000 times", "take a wider step");
    }
    if (!sl_grow(&times->min, &times->capacity, times->n + 1, sizeof times->min[0], "reading times", error)) {
        return false;
    }
    times->min[times->n++] = minutes;
    return true;
}

static bool add_range(sl_times *times, const sl_option *option, double first, double last, double step,
                      sl_error *error)
{
    if (!(step > 0.0) || last < first) {
        char found[SL_ERROR_TEXT_SIZE];
        snprintf(found, sizeof found, _("--%s: this range goes nowhere"), option->name);
        return sl_fail(error, SL_ERR_USAGE, found, "write first..last/step, such as 0min..60min/1min");
    }
    const double rounding = 1e-9; /* so that 0..60/0.1 ends at 60 */
    const double count = floor((last - first) / step + rounding);
    for (int i = 0; i <= (int)fmin(count, (double)SL_TIMES_MOST); i++) {
        if (!add_time(times, first + (double)i * step, error)) {
            return false;
        }
    }
    return true;
}

static bool read_piece(sl_times *times, const sl_option *option, const char **at, sl_error *error)
{
    double first = 0.0;
    if (!read_time(at, &first)) {
        return refuse_time(option, *at, error);
    }
    if (strncmp(*at, "..", 2) != 0) {
        return add_time(times, first, error);
    }
    *at += 2;
    double last = 0.0, step = 1.0;
    if (!read_time(at, &last)) {
        return refuse_time(option, *at, error);
    }
    if (**at == '/') {
        *at += 1;
        if (!read_time(at, &step)) {
            return refuse_time(option, *at, error);
        }
    }
    return add_range(times, option, first, last, step, error);
}

bool sl_times_read(sl_times *times, const sl_option *option, const char *text, sl_error *error)
{
    const char *at = text;
    for (;;) {
        if (!read_piece(times, option, &at, error)) {
            return false;
        }
        if (*at == '\0') {
            return true;
        }
        if (*at != ',') {
            return refuse_time(option, at, error);
        }
        at++;
    }
}

static bool add_usual(sl_times *times, const double *usual, int n, double until_min, sl_error *error)
{
    for (int i = 0; i < n; i++) {
        if (usual[i] <= until_min && !add_time(times, usual[i], error)) {
            return false;
        }
    }
    return times->n > 0 || add_time(times, until_min, error);
}

bool sl_times_settle(sl_times *times, const double *usual, int n, double until_min, sl_error *error)
{
    if (times->n == 0) {
        return add_usual(times, usual, n, until_min, error);
    }
    for (size_t i = 0; i < times->n; i++) {
        if (times->min[i] > until_min) {
            char found[SL_ERROR_TEXT_SIZE], wanted[SL_ERROR_TEXT_SIZE];
            snprintf(found, sizeof found, _("--at: %g min is past the end of this scene"), times->min[i]);
            snprintf(wanted, sizeof wanted, _("it ends at %g min"), until_min);
            return sl_fail(error, SL_ERR_USAGE, found, wanted);
        }
    }
    return true;
}

void sl_times_free(sl_times *times)
{
    sl_free(times->min);
    *times = (sl_times){0};
}
