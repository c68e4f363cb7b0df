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

static bool colour_left(const sl_asked *asked, double *value)
{
    *value = cell_at(asked, asked->at).colour_left;
    return *value >= 0.0 ||
           sl_asked_refuse(asked, "a zone without a dye", "colour left is read in a dyed zone");
}

static bool base_moved(const sl_asked *asked, double *value)
{
    *value = cell_at(asked, asked->at).base_moved;
    return true;
}

static bool hair_stress(const sl_asked *asked, double *value)
{
    *value = cell_at(asked, asked->at).cystine_lost;
    return true;
}

static bool levels_lifted(const sl_asked *asked, double *value)
{
    *value = cell_at(asked, asked->at).levels_lifted;
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
    return first_time(asked, SL_COLOUR_LEFT, asked->share, value);
}

static bool time_to_base(const sl_asked *asked, double *value)
{
    return first_time(asked, SL_BASE_MOVED, asked->share, value);
}

static bool time_to_stress(const sl_asked *asked, double *value)
{
    return first_time(asked, SL_CYSTINE_LOST, asked->share, value);
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
    sl_asked end = *asked;
    end.at = sl_arm_end_min(asked->scene, asked->arm) - asked->scene->arms[asked->arm].contact_min;
    return colour_left(&end, value);
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

const sl_what sl_whats_of_course[] = {
    {"colour left", SL_AS_SHARE, SL_NEEDS_ARM | SL_NEEDS_ZONE | SL_NEEDS_AT, false, colour_left},
    {"end left", SL_AS_SHARE, SL_NEEDS_ARM | SL_NEEDS_ZONE, false, end_left},
    {"base moved", SL_AS_SHARE, SL_NEEDS_ARM | SL_NEEDS_ZONE | SL_NEEDS_AT, false, base_moved},
    {"hair stress", SL_AS_SHARE, SL_NEEDS_ARM | SL_NEEDS_ZONE | SL_NEEDS_AT, false, hair_stress},
    {"levels lifted", SL_AS_LEVELS, SL_NEEDS_ARM | SL_NEEDS_ZONE | SL_NEEDS_AT, false, levels_lifted},
    {"time to", SL_AS_MINUTES, SL_NEEDS_ARM | SL_NEEDS_ZONE | SL_NEEDS_SHARE, false, time_to},
    {"time to base", SL_AS_MINUTES, SL_NEEDS_ARM | SL_NEEDS_ZONE | SL_NEEDS_SHARE, false, time_to_base},
    {"time to stress", SL_AS_MINUTES, SL_NEEDS_ARM | SL_NEEDS_ZONE | SL_NEEDS_SHARE, false, time_to_stress},
    {"half time", SL_AS_MINUTES, SL_NEEDS_ARM | SL_NEEDS_ZONE | SL_NEEDS_AT, false, half_time},
    {"pace", SL_AS_PACE, SL_NEEDS_ARM | SL_NEEDS_ZONE | SL_NEEDS_AT, false, pace},
    {"speed-up", SL_AS_TIMES, SL_NEEDS_ENERGY, false, speed_up},
    {"wrong winner", SL_AS_SHARE, SL_NEEDS_SAMPLE, false, wrong_winner},
    {"half width", SL_AS_TIMES, SL_NEEDS_SWATCHES, false, half_width},
    {NULL, SL_AS_COUNT, 0, false, NULL},
};
