/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What is left, what has moved and when, read from the solution; and three numbers that need
 * no scene at all.
 */
#include <math.h>

#include "lesson/asked.h"
#include "slowlift/estimate.h"
#include "slowlift/odds.h"
#include "slowlift/what_if.h"

static sl_cell cell_at(const sl_asked *asked, double at)
{
    sl_cell cell;
    const double clock = asked->scene->arms[asked->arm].contact_min + at;
    sl_timeline_at(asked->timeline, asked->arm, asked->zone, clock, NULL, &cell);
    return cell;
}

static bool left_at(const sl_asked *asked, double at, double *value)
{
    *value = cell_at(asked, at).colour_left;
    return *value >= 0.0 ||
           sl_asked_refuse(asked, "a zone without a dye", "colour left is read in a dyed zone");
}

static bool colour_left(const sl_asked *asked, double *value)
{
    return left_at(asked, asked->at, value);
}

static bool of_cell(const sl_asked *asked, double *value)
{
    const sl_cell cell = cell_at(asked, asked->at);
    *value = sl_asked_member(asked, &cell);
    return true;
}

static bool first_time(const sl_asked *asked, sl_quantity quantity, double share, double *value)
{
    double clock = 0.0;
    if (!sl_first_time(asked->timeline, asked->arm, asked->zone, quantity, share, &clock)) {
        return sl_asked_refuse(asked, "a moment that does not come in this scene",
                               "ask for another share, or let the scene go on for longer");
    }
    *value = clock - asked->scene->arms[asked->arm].contact_min;
    return true;
}

static bool time_to(const sl_asked *asked, double *value)
{
    return first_time(asked, (sl_quantity)asked->what->member, asked->share, value);
}

static bool half_time(const sl_asked *asked, double *value)
{
    double left = 0.0, then = 0.0;
    if (!colour_left(asked, &left) || !first_time(asked, SL_COLOUR_LEFT, 0.5 * left, &then)) {
        return false;
    }
    *value = then - asked->at;
    return true;
}

/* 1 - exp(-k), with k the slope of -ln(colour left) over a tenth of a minute around the moment. */
static bool pace(const sl_asked *asked, double *value)
{
    const double half_step = 0.05;
    const double before = cell_at(asked, asked->at - half_step).colour_left;
    const double after = cell_at(asked, asked->at + half_step).colour_left;
    if (before <= 0.0 || after <= 0.0) {
        return sl_asked_refuse(asked, "a zone without colour", "pace is read where there is colour left");
    }
    *value = -expm1(-log(before / after) / (2.0 * half_step));
    return true;
}

static bool end_left(const sl_asked *asked, double *value)
{
    return left_at(
        asked, sl_arm_end_min(asked->scene, asked->arm) - asked->scene->arms[asked->arm].contact_min, value);
}

/* Chance that the mean of n swatches puts two equal-spread mixes in the wrong order when they
 * differ by d standard deviations: the normal distribution at -d sqrt(n/2). */
static bool wrong_winner(const sl_asked *asked, double *value)
{
    *value = 0.5 * erfc(asked->difference * sqrt(asked->swatches) / 2.0);
    return true;
}

/* How far the 95 % interval of a mean of n swatches reaches, in sample standard deviations:
 * t(0.975; n - 1)/sqrt(n), Student 1908, Biometrika 6:1-25. */
static bool half_width(const sl_asked *asked, double *value)
{
    enum { MOST_SWATCHES = 1000 };
    const double n = asked->swatches;
    const bool good = n >= 2.0 && n <= MOST_SWATCHES && fabs(n - nearbyint(n)) < 1e-6;
    *value = good ? sl_half_width(1.0, (int)lround(n), 0.95) : 0.0;
    return good || sl_asked_refuse(asked, "this number of swatches",
                                   "an interval needs two to a thousand whole swatches");
}

static bool speed_up(const sl_asked *asked, double *value)
{
    *value = sl_arrhenius(asked->energy, asked->to + SL_ZERO_C_K) /
             sl_arrhenius(asked->energy, asked->from + SL_ZERO_C_K);
    return true;
}

enum {
    AT_MOMENT = SL_NEEDS_ARM | SL_NEEDS_ZONE | SL_NEEDS_AT,
    TO_SHARE = SL_NEEDS_ARM | SL_NEEDS_ZONE | SL_NEEDS_SHARE
};
const sl_what sl_whats_of_course[] = {
    {"colour left", SL_AS_SHARE, AT_MOMENT, false, colour_left, 0},
    {"end left", SL_AS_SHARE, SL_NEEDS_ARM | SL_NEEDS_ZONE, false, end_left, 0},
    {"base moved", SL_AS_SHARE, AT_MOMENT, false, of_cell, SL_MEMBER(sl_cell, base_moved)},
    {"hair stress", SL_AS_SHARE, AT_MOMENT, false, of_cell, SL_MEMBER(sl_cell, cystine_lost)},
    {"levels lifted", SL_AS_LEVELS, AT_MOMENT, false, of_cell, SL_MEMBER(sl_cell, levels_lifted)},
    {"time to", SL_AS_MINUTES, TO_SHARE, false, time_to, SL_COLOUR_LEFT},
    {"time to base", SL_AS_MINUTES, TO_SHARE, false, time_to, SL_BASE_MOVED},
    {"time to stress", SL_AS_MINUTES, TO_SHARE, false, time_to, SL_CYSTINE_LOST},
    {"half time", SL_AS_MINUTES, AT_MOMENT, false, half_time, 0},
    {"pace", SL_AS_PACE, AT_MOMENT, false, pace, 0},
    {"speed-up", SL_AS_TIMES, SL_NEEDS_ENERGY, false, speed_up, 0},
    {"wrong winner", SL_AS_SHARE, SL_NEEDS_SAMPLE, false, wrong_winner, 0},
    {"half width", SL_AS_TIMES, SL_NEEDS_SWATCHES, false, half_width, 0},
    {NULL, SL_AS_COUNT, 0, false, NULL, 0},
};
