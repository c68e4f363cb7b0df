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

static bool refuse(const char *option, const char *at, const char *wanted, sl_error *error)
{
    char found[SL_ERROR_TEXT_SIZE];
    if (at[0] == '\0') {
        snprintf(found, sizeof found, _("%s: something is missing at the end"), option);
    } else {
        snprintf(found, sizeof found, _("%s: cannot read \"%.60s\""), option, at);
    }
    return sl_fail(error, SL_ERR_USAGE, found, wanted);
}

static const char time_wanted[] = "write times with their unit, such as 5min,10min or 0min..60min/1min";

/* Minutes of one unit, and the text after it; 0 when there is no unit. */
static double unit_minutes(const char **at)
{
    static const struct {
        const char *word;
        double minutes;
    } units[] = {{"min", 1.0}, {"s", 1.0 / 60.0}, {"h", 60.0}};
    for (size_t i = 0; i < sizeof units / sizeof units[0]; i++) {
        const size_t length = strlen(units[i].word);
        if (strncmp(*at, units[i].word, length) == 0) {
            *at += length;
            return units[i].minutes;
        }
    }
    return 0.0;
}

/* The option that the texts belong to. */
static const char *option_of(const sl_times *times)
{
    return times->option ? times->option : "--at";
}

static bool read_time(const char *option, const char **at, double *minutes, sl_error *error)
{
    const char *start = skip_spaces(*at);
    double number = 0.0;
    const char *after = start[0] == '-' ? NULL : sl_decimal_read(start, &number);
    if (after == NULL) {
        return refuse(option, start, time_wanted, error);
    }
    after = skip_spaces(after);
    const double unit = unit_minutes(&after);
    if (unit <= 0.0) {
        return refuse(option, start, time_wanted, error);
    }
    *minutes = number * unit;
    *at = skip_spaces(after);
    return true;
}

bool sl_times_add(sl_times *times, double minutes, sl_error *error)
{
    if (times->n >= SL_TIMES_MOST) {
        char found[SL_ERROR_TEXT_SIZE];
        snprintf(found, sizeof found, _("%s: more than 10000 times"), option_of(times));
        return sl_fail(error, SL_ERR_USAGE, found, "take a wider step");
    }
    if (!sl_grow(&times->min, &times->capacity, times->n + 1, sizeof times->min[0], "reading times", error)) {
        return false;
    }
    times->min[times->n++] = minutes;
    return true;
}

static bool add_range(sl_times *times, double first, double last, double step, sl_error *error)
{
    if (!(step > 0.0) || last < first) {
        char found[SL_ERROR_TEXT_SIZE];
        snprintf(found, sizeof found, _("%s: this range goes nowhere"), option_of(times));
        return sl_fail(error, SL_ERR_USAGE, found, "write first..last/step, such as 0min..60min/1min");
    }
    const double rounding = 1e-9; /* so that 0..60/0.1 ends at 60 */
    const double count = floor((last - first) / step + rounding);
    for (int i = 0; i <= (int)fmin(count, (double)SL_TIMES_MOST); i++) {
        if (!sl_times_add(times, first + (double)i * step, error)) {
            return false;
        }
    }
    return true;
}

static bool read_piece(sl_times *times, const char **at, sl_error *error)
{
    double first = 0.0;
    if (!read_time(option_of(times), at, &first, error)) {
        return false;
    }
    if (strncmp(*at, "..", 2) != 0) {
        return sl_times_add(times, first, error);
    }
    *at += 2;
    double last = 0.0, step = 1.0;
    if (!read_time(option_of(times), at, &last, error)) {
        return false;
    }
    if (**at == '/') {
        *at += 1;
        if (!read_time(option_of(times), at, &step, error)) {
            return false;
        }
    }
    return add_range(times, first, last, step, error);
}

bool sl_times_read(sl_times *times, const char *text, sl_error *error)
{
    const char *at = text;
    for (;;) {
        if (!read_piece(times, &at, error)) {
            return false;
        }
        if (*at == '\0') {
            return true;
        }
        if (*at != ',') {
            return refuse(option_of(times), at, time_wanted, error);
        }
        at++;
    }
}

static bool add_usual(sl_times *times, const double *usual, int n, double until_min, sl_error *error)
{
    for (int i = 0; i < n; i++) {
        if (usual[i] <= until_min && !sl_times_add(times, usual[i], error)) {
            return false;
        }
    }
    return times->n > 0 || sl_times_add(times, until_min, error);
}

bool sl_times_settle(sl_times *times, const double *usual, int n, double until_min, sl_error *error)
{
    if (times->n == 0) {
        return add_usual(times, usual, n, until_min, error);
    }
    for (size_t i = 0; i < times->n; i++) {
        if (times->min[i] > until_min) {
            char found[SL_ERROR_TEXT_SIZE], wanted[SL_ERROR_TEXT_SIZE];
            snprintf(found, sizeof found, _("%s: %g min is past the end of this scene"), option_of(times),
                     times->min[i]);
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

bool sl_seconds_read(const char *option, const char *text, int least, int most, int *seconds, sl_error *error)
{
    double minutes = 0.0;
    const char *at = text;
    char wanted[SL_ERROR_TEXT_SIZE];
    snprintf(wanted, sizeof wanted, _("write a time from %d s to %d s with its unit, such as 45s"), least,
             most);
    if (!read_time(option, &at, &minutes, NULL) || *at != '\0' || 60.0 * minutes < least - 0.5 ||
        60.0 * minutes > most + 0.5) {
        return refuse(option, text, wanted, error);
    }
    *seconds = (int)lround(60.0 * minutes);
    return true;
}

bool sl_share_read(const char *text, double *share, sl_error *error)
{
    return sl_share_read_as("--share", text, share, error);
}

bool sl_share_read_as(const char *option, const char *text, double *share, sl_error *error)
{
    static const char wanted[] = "write a share between nothing and all, such as 50% or 0.5";
    double number = 0.0;
    const char *start = skip_spaces(text);
    const char *after = start[0] == '-' ? NULL : sl_decimal_read(start, &number);
    if (after == NULL) {
        return refuse(option, text, wanted, error);
    }
    after = skip_spaces(after);
    if (*after == '%') {
        number /= 100.0;
        after = skip_spaces(after + 1);
    }
    if (*after != '\0' || !(number > 0.0) || !(number < 1.0)) {
        return refuse(option, text, wanted, error);
    }
    *share = number;
    return true;
}
