/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Two colours told apart in words: which is lighter, warmer, more vivid, and how readily a
 * person would see it. The words and their steps are our own (docs/guide.md, "Two zones
 * compared"); no standard has them.
 */
#include <math.h>
#include <string.h>

#include "base/language.h"
#include "slowlift/report.h"

/* Below these a word would claim more than a person sees (assumed). */
static const double LEAST_LIGHTER = 1.0, LEAST_WARMER = 2.0, LEAST_VIVID = 2.0;
static const double WARM_DEG = 60.0; /* orange, half way between red and yellow */

static double warmth(sl_lab lab)
{
    const double angle = WARM_DEG * acos(-1.0) / 180.0;
    return lab.a * cos(angle) + lab.b * sin(angle);
}

static const char *seen_words(double delta_e)
{
    static const struct {
        double below;
        const char *words;
    } steps[] = {{1.0, N_("hardly anyone would tell them apart")},
                 {2.0, N_("a trained eye would see it side by side")},
                 {5.0, N_("most people would see it side by side")},
                 {10.0, N_("anyone would see it")}};
    for (size_t i = 0; i < sizeof steps / sizeof steps[0]; i++) {
        if (delta_e < steps[i].below) {
            return _(steps[i].words);
        }
    }
    return _("anyone would call them two colours");
}

static const char *compared(double difference, double least, const char *more, const char *less)
{
    return difference >= least ? more : difference <= -least ? less : NULL;
}

int sl_difference_words(sl_lab one, const char *one_name, sl_lab two, const char *two_name, char *text,
                        size_t size)
{
    const double delta_e = sl_delta_e_2000(one, two);
    const char *const words[] = {
        compared(one.L - two.L, LEAST_LIGHTER, _("lighter"), _("darker")),
        compared(warmth(one) - warmth(two), LEAST_WARMER, _("warmer"), _("cooler")),
        compared(hypot(one.a, one.b) - hypot(two.a, two.b), LEAST_VIVID, _("more vivid"), _("greyer")),
    };
    const char *said[3] = {NULL};
    int n = 0;
    for (int i = 0; i < 3; i++) {
        said[n] = words[i];
        n += words[i] != NULL ? 1 : 0;
    }
    char how[96] = "";
    if (n == 3) {
        snprintf(how, sizeof how, _("%s, %s and %s"), said[0], said[1], said[2]);
    } else if (n > 0) {
        snprintf(how, sizeof how, n == 2 ? _("%s and %s") : "%s", said[0], said[1]);
    }
    if (delta_e < 1.0) {
        return snprintf(text, size, _("%s and %s look alike: %s."), one_name, two_name, seen_words(delta_e));
    }
    if (n == 0) {
        return snprintf(text, size, _("%s and %s differ in hue alone: %s."), one_name, two_name,
                        seen_words(delta_e));
    }
    return snprintf(text, size, _("%s is %s than %s: %s."), one_name, how, two_name, seen_words(delta_e));
}
