/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A colour in linear light, finer than a screen shows it: what moves slowly then never jumps.
 */
#ifndef SLOWLIFT_SWATCH_FINE_H
#define SLOWLIFT_SWATCH_FINE_H

#include <math.h>
#include <stdint.h>

#include "slowlift/optics.h"

enum { SL_FINE_ONE = 65535 };

typedef struct sl_fine_rgb {
    uint16_t r, g, b; /* 0..SL_FINE_ONE */
} sl_fine_rgb;

static inline uint16_t sl_fine_part(double linear)
{
    return (uint16_t)lround(SL_FINE_ONE * fmin(fmax(linear, 0.0), 1.0));
}

static inline sl_fine_rgb sl_fine_of(sl_rgb linear)
{
    return (sl_fine_rgb){sl_fine_part(linear.r), sl_fine_part(linear.g), sl_fine_part(linear.b)};
}

static inline sl_rgb sl_linear_of_fine(sl_fine_rgb colour)
{
    return (sl_rgb){(double)colour.r / SL_FINE_ONE, (double)colour.g / SL_FINE_ONE,
                    (double)colour.b / SL_FINE_ONE};
}

/* At part 0..1 of the way from one to the other. */
static inline uint16_t sl_fine_between(uint16_t one, uint16_t two, double part)
{
    return (uint16_t)(one + part * ((double)two - one) + 0.5);
}

#endif
