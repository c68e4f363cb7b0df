/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Words and steps that people give to colours: level and tone by a chart, and the grey scale.
 * Invariant: a reading depends on the colour and the chart alone; nothing here knows what the
 * hair holds.
 */
#include <math.h>

#include "base/language.h"
#include "slowlift/optics.h"

static bool hue_between(double hue, double from, double to)
{
    return from <= to ? hue >= from && hue <= to : hue >= from || hue <= to;
}

/* On the broken line through the chart's L*, to the nearest half; ends of the scale are ends. */
static double level_of(const sl_chart *chart, double L)
{
    if (!(L > chart->level_L[0])) {
        return 1.0;
    }
    for (int i = 1; i < SL_LEVELS; i++) {
        if (L < chart->level_L[i]) {
            const double share = (L - chart->level_L[i - 1]) / (chart->level_L[i] - chart->level_L[i - 1]);
            return round(2.0 * (i + share)) / 2.0;
        }
    }
    return SL_LEVELS;
}

static bool fits(const sl_tone *tone, sl_lch seen)
{
    return seen.C >= tone->least_chroma && seen.L >= tone->least_L && seen.L <= tone->most_L &&
           hue_between(seen.h_deg, tone->from_deg, tone->to_deg);
}

/* NULL: none. */
static const sl_tone *tone_of(const sl_chart *chart, sl_lch seen)
{
    for (int i = 0; i < chart->n_tones; i++) {
        if (fits(&chart->tones[i], seen)) {
            return &chart->tones[i];
        }
    }
    return NULL;
}

sl_reading_words sl_chart_read(const sl_chart *chart, sl_lab dry)
{
    const sl_lch seen = sl_lch_of_lab(dry);
    const sl_tone *const tone = tone_of(chart, seen);
    const char *const coloured =
        hue_between(seen.h_deg, chart->warm_from_deg, chart->warm_to_deg) ? N_("warm") : N_("cool");
    return (sl_reading_words){
        .level = level_of(chart, dry.L),
        .of = tone,
        .tone = tone ? tone->word : "",
        .warmth = seen.C < chart->neutral_chroma ? N_("neutral") : coloured,
    };
}

/* ISO 105-A02 (EN 20105-A02:1994), 2.4: CIELAB difference of the two chips of each step. */
double sl_grey_scale_step(double delta_e_76)
{
    static const double difference[] = {0.0, 0.8, 1.7, 2.5, 3.4, 4.8, 6.8, 9.6, 13.6}; /* 5, 4.5 .. 1 */
    enum { STEPS = sizeof difference / sizeof *difference };
    int step = 0;
    while (step + 1 < STEPS && delta_e_76 >= 0.5 * (difference[step] + difference[step + 1])) {
        step++;
    }
    return 5.0 - 0.5 * step;
}
