/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Two colours told apart in words: which is lighter, warmer, more vivid, and how readily a
 * person would see it. The words and their steps are our own (docs/guide.md, "Two zones
 * compared"); no standard has them.
 */
#include <math.h>
#include <string.h>

#include "base/append.h"
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

static void join(const char *const words[3], char *text, size_t size)
{
    int n = 0, put = 0;
    for (int i = 0; i < 3; i++) {
        n += words[i] != NULL ? 1 : 0;
    }
    text[0] = '\0';
    for (int i = 0; i < 3; i++) {
        if (words[i] != NULL) {
            sl_append_item(text, size, ++put == n ? _(" and ") : ", ", "%s", words[i]);
        }
    }
}

int sl_difference_words(sl_lab one, const char *one_name, sl_lab two, const char *two_name, char *text,
                        size_t size)
{
    const double delta_e = sl_delta_e_2000(one, two);
    const char *const words[3] = {
        compared(one.L - two.L, LEAST_LIGHTER, _("lighter"), _("darker")),
        compared(warmth(one) - warmth(two), LEAST_WARMER, _("warmer"), _("cooler")),
        compared(hypot(one.a, one.b) - hypot(two.a, two.b), LEAST_VIVID, _("more vivid"), _("greyer")),
    };
    char how[96];
    join(words, how, sizeof how);
    if (delta_e < 1.0) {
        return snprintf(text, size, _("%s and %s look alike: %s."), one_name, two_name, seen_words(delta_e));
    }
    if (how[0] == '\0') {
        return snprintf(text, size, _("%s and %s differ in hue alone: %s."), one_name, two_name,
                        seen_words(delta_e));
    }
    return snprintf(text, size, _("%s is %s than %s: %s."), one_name, how, two_name, seen_words(delta_e));
}
