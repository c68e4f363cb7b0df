/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A log of one test and what was compared of it, one at a time, for suites that look closely at comparing.
 */
#ifndef SLOWLIFT_TESTS_COMPARED_H
#define SLOWLIFT_TESTS_COMPARED_H

#include <check.h>
#include <sqlite3.h>
#include <string.h>

#include "base/memory.h"
#include "log_made.h"
#include "named.h"
#include "slowlift/compare.h"

static sl_log_made made;
static sl_compare *compare;

#define SCENE_ON(undyed, arms)                                                                               \
    "kind: scene\nversion: 1\ntitle: Odd\norigin: our own invention\nlies: bench\nroom: 24 °C\n"            \
    "until: 75 min\nhair_mass: 2 g\ndyes: bright-one\nzones:\n"                                              \
    "  - {name: red, hair: prelight-9, dye: {red: 9}}\n" undyed                                              \
    "application:\n  mix_per_hair: 6 g/g\n  mix_age: 1 min\n  hair: dry\n  covered: yes\narms:\n" arms
#define SCENE(arms) SCENE_ON("  - {name: undyed, hair: prelight-9}\n", arms)
#define WATER(name, steps) "  - name: " name "\n    steps:\n" steps
#define APPLY(minutes) "      - {apply: plain-water, dwell: " minutes " min, hair: damp}\n"

static const int rungs[] = {5, 10, 20, 40};

static inline void forget(void)
{
    sl_compare_free(compare);
    compare = NULL;
}

static inline void end(void)
{
    forget();
    log_made_end(&made);
}

static inline bool reads(sl_error *error)
{
    sl_log_test test;
    forget();
    ck_assert(sl_log_find(made.log, made.test, &test, NULL));
    return sl_compare_read(&compare, made.log, &test, -1.0, error);
}

static inline void read_compare(void)
{
    sl_error error = {.code = SL_OK};
    ck_assert_msg(reads(&error), "%s: %s", sl_code_name(error.code), error.found);
}

static inline void rank_at(int minute)
{
    ck_assert(sl_compare_rank_at(compare, minute, NULL));
}

static inline const sl_seen_arm *at(const char *arm)
{
    return sl_compare_arm(compare, named_arm(compare->scene, arm), sl_scene_zone(compare->scene, "red"));
}

static inline void keep(sl_log_reading reading)
{
    sl_error error = {.code = SL_OK};
    ck_assert_msg(sl_log_add(made.log, &reading, 1, &error), "%s", error.found);
}

static inline sl_log_reading by_eye(int swatch, const char *zone, double minute, double hours, sl_wipe grade)
{
    sl_log_reading reading = log_made_reading(&made, swatch, zone, grade);
    reading.minute = minute;
    reading.hours_after = hours;
    return reading;
}

static inline void see_at(int swatch, double minute, sl_wipe grade)
{
    keep(by_eye(swatch, "red", minute, SL_NOT_READ, grade));
}

static inline void see(int swatch, sl_wipe grade)
{
    see_at(swatch, SL_NOT_READ, grade);
}

typedef struct colour {
    double L, a, b;
} colour;

static inline void measure(int swatch, const char *zone, double minute, double hours, colour read)
{
    sl_log_reading reading = log_made_colour(&made, swatch, zone, read.L, read.a, read.b);
    reading.minute = minute;
    reading.hours_after = hours;
    keep(reading);
}

static inline void lies(int swatch, int seconds)
{
    log_made_happens(&made, SL_EVENT_APPLIED, swatch, 60, NULL);
    log_made_happens(&made, SL_EVENT_RINSED, swatch, 60 + seconds, NULL);
}

static inline int told(sl_deviation_kind kind, int swatch)
{
    int n = 0;
    for (int i = 0; i < compare->n_deviations; i++) {
        n += compare->deviations[i].kind == kind && compare->deviations[i].swatch == swatch ? 1 : 0;
    }
    return n;
}

static inline sl_rate rate_of(const char *arm)
{
    sl_rate *rates = NULL;
    ck_assert(sl_compare_rates(&rates, compare, NULL));
    const sl_rate rate = rates[named_arm(compare->scene, arm) * compare->scene->n_zones +
                               sl_scene_zone(compare->scene, "red")];
    sl_free(rates);
    return rate;
}

static const colour red_at_start = {40.0, 60.0, 30.0}, bare_at_start = {80.0, 0.0, 30.0};
static const colour red_at_end = {79.0, 6.0, 22.0}, bare_at_end = {82.0, 2.0, 22.0};

#endif
