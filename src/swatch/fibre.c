/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Fibres lie in locks: those of one lock wave together and meet at the tip, as hair does.
 * All numbers here are choices of drawing (docs/colour.md, "Drawing a strip"); none says
 * anything about chemistry.
 */
#include "swatch/fibre.h"

#include <math.h>
#include <stdbool.h>

enum {
    LOCKS = 13,
    UNDER = 5 /* every so many fibres lie below the locks, thick and straight, and leave no ground bare */
};
static const double PI = 3.14159265358979323846;
static const double EDGE = 0.05;        /* ground left and right, widths */
static const double ASPECT = 0.22;      /* width over height, for slopes */
static const double SHADE_LEAST = 0.74; /* light on the deepest fibre */
static const double DIFFUSE = 0.62, HIGHLIGHT = 0.62, SHARPNESS = 22.0;
/* Toward the lamp: from above, a little from the left, before the strip; y runs to the tip. */
static const double LIGHT[3] = {-0.28, -0.58, 0.765};
static const double RUN_MOST = 0.09; /* zone heights */

typedef struct lock {
    double x;                   /* of its middle, widths */
    double sway, turns, phase;  /* sideways: widths, waves a height, radians */
    double bend, rolls, rolled; /* out of the plane: slope, waves a height, radians */
    double run;                 /* zone heights */
    double shade;               /* added to the light on its fibres */
} lock;

uint32_t sl_chance_start(uint32_t seed)
{
    const uint32_t state = seed * 2654435761U + 12345U;
    return state != 0U ? state : 1U; /* 0 would stay 0 */
}

double sl_chance(uint32_t *state)
{
    *state ^= *state << 13;
    *state ^= *state >> 17;
    *state ^= *state << 5;
    return (double)(*state >> 8) / 16777216.0;
}

static double about_zero(uint32_t *state) /* -1..1, most often near 0 */
{
    return sl_chance(state) - sl_chance(state);
}

static lock lock_of(int number, uint32_t *state)
{
    return (lock){
        .x = EDGE + (1.0 - 2.0 * EDGE) * (number + 0.5) / LOCKS,
        .sway = EDGE * (0.25 + 0.5 * sl_chance(state)),
        .turns = 0.8 + 0.9 * sl_chance(state),
        .phase = 2.0 * PI * sl_chance(state),
        .bend = 0.26 + 0.26 * sl_chance(state),
        .rolls = 1.6 + 1.4 * sl_chance(state),
        .rolled = 2.0 * PI * sl_chance(state),
        .run = 0.7 * RUN_MOST * about_zero(state),
        .shade = 0.07 * about_zero(state),
    };
}

/* Light from a thin cylinder whose tangent slopes by (dx, dz) for each step toward the tip. */
static double light_on(double dx, double dz)
{
    const double length = sqrt(1.0 + dx * dx + dz * dz);
    const double to_light = (LIGHT[0] * dx + LIGHT[1] + LIGHT[2] * dz) / length;
    const double to_eye = dz / length; /* the eye is straight before the strip */
    const double sin_light = sqrt(fmax(0.0, 1.0 - to_light * to_light));
    const double sin_eye = sqrt(fmax(0.0, 1.0 - to_eye * to_eye));
    const double mirror = fmax(0.0, sin_light * sin_eye - to_light * to_eye);
    return DIFFUSE * sin_light + HIGHLIGHT * pow(mirror, SHARPNESS);
}

/* `gather`: how far the fibre goes to the middle of its lock, 0..1. */
static void bend_fibre(sl_fibre *fibre, const lock *in, double root_x, double gather, uint32_t *state)
{
    const double phase = in->phase + 0.5 * about_zero(state);
    const double rolled = in->rolled + 0.55 * about_zero(state);
    const double sway = in->sway * (gather > 0.0 ? 0.8 : 0.3) * (1.0 + 0.5 * sl_chance(state));
    const double lean = 0.35 * EDGE * about_zero(state);
    double before = root_x;
    for (int k = 0; k <= SL_KNOTS; k++) {
        const double t = (double)k / SL_KNOTS;
        const double x = root_x + gather * t * t * t * (in->x - root_x) + lean * t +
                         sway * sin(2.0 * PI * in->turns * t + phase) * fmin(1.0, 4.0 * t);
        const double dx = k > 0 ? (x - before) * SL_KNOTS * ASPECT : 0.0;
        const double dz = in->bend * sin(2.0 * PI * in->rolls * t + rolled);
        fibre->x[k] = (float)x;
        fibre->gain[k] = (float)light_on(dx, dz);
        before = x;
    }
}

void sl_fibres_lay(sl_fibre *fibres, int n, uint32_t seed)
{
    uint32_t state = sl_chance_start(seed);
    lock locks[LOCKS];
    for (int i = 0; i < LOCKS; i++) {
        locks[i] = lock_of(i, &state);
    }
    const double strand_start = sl_chance(&state);
    for (int i = 0; i < n; i++) {
        sl_fibre *fibre = &fibres[i];
        const double depth = n > 1 ? (double)i / (n - 1) : 1.0; /* 0 deepest */
        /* Evenly spread roots (multiples of the golden ratio) leave no bare places. */
        const double drawn = fmod(i * 0.6180339887498949, 1.0) + 0.02 * (sl_chance(&state) - 0.5);
        const double place = fmin(fmax(drawn, 0.0), 1.0);
        const double lane = place * LOCKS + 0.7 * about_zero(&state);
        const lock *in = &locks[(int)fmin(fmax(lane, 0.0), LOCKS - 1.0)];
        const double middle =
            SHADE_LEAST + (1.0 - SHADE_LEAST) * depth + in->shade + 0.16 * (sl_chance(&state) - 0.5);
        const bool under = i < n / UNDER;
        bend_fibre(fibre, in, EDGE + (1.0 - 2.0 * EDGE) * place, under ? 0.0 : 0.42, &state);
        for (int k = 0; k <= SL_KNOTS; k++) {
            fibre->gain[k] *= (float)middle;
        }
        fibre->half = (float)((under ? 0.013 : 0.0045) + 0.0055 * sl_chance(&state));
        fibre->end = (float)(1.0 - 0.04 * sl_chance(&state) * sl_chance(&state));
        fibre->run = (float)(in->run + 0.3 * RUN_MOST * about_zero(&state));
        /* Multiples of sqrt(2), beside the golden ratio's for the roots: every part of the strip
         * and every depth has about as many strands of each kind. */
        fibre->strand = (int)(fmod(i * 0.4142135623730951 + strand_start, 1.0) * SL_STRANDS);
    }
}

static float between(const float at[SL_KNOTS + 1], float t)
{
    const float place = fminf(fmaxf(t, 0.0F), 1.0F) * (float)SL_KNOTS;
    const int before = place < (float)SL_KNOTS ? (int)place : SL_KNOTS - 1;
    const float part = place - (float)before;
    return at[before] + part * (at[before + 1] - at[before]);
}

float sl_fibre_x(const sl_fibre *fibre, float t)
{
    return between(fibre->x, t);
}

float sl_fibre_gain(const sl_fibre *fibre, float t)
{
    return between(fibre->gain, t);
}
