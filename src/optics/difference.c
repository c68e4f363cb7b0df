/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * How different two colours are. Invariant: symmetric, never negative, 0 for equal colours.
 *
 * CIEDE2000: ISO/CIE 11664-6, in the steps of Sharma, Wu & Dalal, "The CIEDE2000
 * color-difference formula: implementation notes, supplementary test data, and
 * mathematical observations", Color Res. Appl. 30(1):21-30 (2005); kL = kC = kH = 1.
 */
#include <math.h>

#include "slowlift/optics.h"

static const double DEGREE = 0.017453292519943295; /* pi / 180 */

/* Hues exactly half a turn apart come out of atan2 as 180 degrees plus a rounding error
 * (1e-14) for half of all such pairs and would then be taken for more than half a turn:
 * another mean hue, another result. A test for "more than 180" therefore needs slack. */
static const double HALF_TURN = 180.0 + 1e-9;

typedef struct sl_polar {
    double chroma; /* C' */
    double hue;    /* h', degrees, 0..360; 0 for a grey */
} sl_polar;

double sl_delta_e_76(sl_lab one, sl_lab two)
{
    const double dL = two.L - one.L;
    const double da = two.a - one.a;
    const double db = two.b - one.b;
    return sqrt(dL * dL + da * da + db * db);
}

static double seventh_share(double chroma)
{
    const double seventh = pow(chroma, 7.0);
    return sqrt(seventh / (seventh + 6103515625.0)); /* 25^7 */
}

static sl_polar polar(sl_lab lab, double stretch)
{
    const double a = stretch * lab.a;
    const double chroma = hypot(a, lab.b);
    if (!(chroma > 0.0)) {
        return (sl_polar){0.0, 0.0};
    }
    const double hue = atan2(lab.b, a) / DEGREE;
    return (sl_polar){chroma, hue < 0.0 ? hue + 360.0 : hue};
}

static double hue_step(sl_polar one, sl_polar two)
{
    if (!(one.chroma * two.chroma > 0.0)) {
        return 0.0;
    }
    const double step = two.hue - one.hue;
    if (fabs(step) <= HALF_TURN) {
        return step;
    }
    return step > 0.0 ? step - 360.0 : step + 360.0;
}

static double mean_hue(sl_polar one, sl_polar two)
{
    const double sum = one.hue + two.hue;
    if (!(one.chroma * two.chroma > 0.0)) {
        return sum;
    }
    if (fabs(one.hue - two.hue) <= HALF_TURN) {
        return 0.5 * sum;
    }
    return sum < 360.0 ? 0.5 * (sum + 360.0) : 0.5 * (sum - 360.0);
}

static double hue_weight(double hue)
{
    return 1.0 - 0.17 * cos((hue - 30.0) * DEGREE) + 0.24 * cos(2.0 * hue * DEGREE) +
           0.32 * cos((3.0 * hue + 6.0) * DEGREE) - 0.20 * cos((4.0 * hue - 63.0) * DEGREE);
}

/* R_T: near blue, differences in chroma and hue are not independent. */
static double rotation(double hue, double chroma)
{
    const double away = (hue - 275.0) / 25.0;
    const double turn = 60.0 * exp(-away * away); /* 2 * 30 degrees */
    return -2.0 * seventh_share(chroma) * sin(turn * DEGREE);
}

double sl_delta_e_2000(sl_lab one, sl_lab two)
{
    const double mean_chroma_ab = 0.5 * (hypot(one.a, one.b) + hypot(two.a, two.b));
    const double stretch = 1.0 + 0.5 * (1.0 - seventh_share(mean_chroma_ab));
    const sl_polar first = polar(one, stretch);
    const sl_polar second = polar(two, stretch);

    const double mean_chroma = 0.5 * (first.chroma + second.chroma);
    const double hue = mean_hue(first, second);
    const double from_fifty = 0.5 * (one.L + two.L) - 50.0;
    const double square = from_fifty * from_fifty;
    const double sL = 1.0 + 0.015 * square / sqrt(20.0 + square);
    const double sC = 1.0 + 0.045 * mean_chroma;
    const double sH = 1.0 + 0.015 * mean_chroma * hue_weight(hue);

    const double dL = (two.L - one.L) / sL;
    const double dC = (second.chroma - first.chroma) / sC;
    const double half_step = 0.5 * hue_step(first, second) * DEGREE;
    const double dH = 2.0 * sqrt(first.chroma * second.chroma) * sin(half_step) / sH;
    return sqrt(fmax(0.0, dL * dL + dC * dC + dH * dH + rotation(hue, mean_chroma) * dC * dH));
}
