/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What a strip holds; private to src/swatch.
 */
#ifndef SLOWLIFT_SWATCH_STRIP_PARTS_H
#define SLOWLIFT_SWATCH_STRIP_PARTS_H

#include "swatch/strip.h"

enum {
    GAIN_ONE = 128,      /* gain 1 in a uint8 */
    CONTRAST_ONE = 1024, /* all of the light and shade; fine, so that it changes without a jump */
    RUN_ZERO = 16        /* no shift, in the lower five bits of a mark */
};
static const char LAYING[] = "laying the fibres of a strip";

/* The linear colour of a row for one kind of strand, and how much of the light and shade it
 * can bear before a screen clips it, 0..CONTRAST_ONE. */
typedef struct sl_row_colour {
    uint16_t r, g, b, contrast;
} sl_row_colour;

struct sl_strip {
    int width, height, n_zones;
    uint32_t seed;
    int run_step;                            /* pixels in one step of a shift */
    int top;                                 /* gain below which nearly all pixels lie */
    double weight[SL_MAX_ZONES][SL_STRANDS]; /* share of the light that each kind of strand sends
                                                from the middle half of a zone's width */
    uint8_t *gain;                           /* [height][width], GAIN_ONE = 1 */
    uint8_t *cover;                          /* [height][width], 255 = hair, 0 = ground */
    uint8_t *mark;                           /* [height][width], strand and shift of the fibre on top */
    uint8_t *paste;                          /* [height][width], thickness of a mix, 128 = its mean */
    uint8_t *relief;                         /* [height][width], light on it, GAIN_ONE = 1 */
    sl_row_colour (*row)[SL_STRANDS];        /* [height + 2 RUN_ZERO run_step], scratch of a draw */
};

bool sl_strip_lay_fibres(sl_strip *strip, sl_error *error); /* strip_lay.c */
bool sl_strip_lay_paste(sl_strip *strip, sl_error *error);  /* paste.c */

/* Cover of each thickness in 256 parts, with the given mean over the strip's hair. */
void sl_paste_cover(double mean, uint16_t cover[256]); /* paste.c */

#endif
