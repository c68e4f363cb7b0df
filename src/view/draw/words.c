/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Words and units. Conversions: F = 1.8 C + 32 (exact); 1 oz = 28.349523125 g (exact,
 * international avoirdupois ounce); volume strength from sl_volume_strength.
 */
#include "view/draw/words.h"

#include <ctype.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/language.h"
#include "base/minute.h"
#include "document/text.h"
#include "slowlift/timeline.h"

/* The number beside the word decides, so that "0 %" is "none" and "<1 %" is not. */
const char *sl_stress_word(double share)
{
    static const struct {
        double from; /* this share or more */
        const char *word;
    } steps[] = {{0.40, N_("very strong")},
                 {0.25, N_("strong")},
                 {0.10, N_("clear")},
                 {0.02, N_("slight")},
                 {-1.0, N_("very slight")}};
    char number[16];
    sl_percent(share, number, sizeof number);
    if (strcmp(number, "0") == 0) {
        return _("none");
    }
    if (strcmp(number, "<1") == 0) {
        return _("barely any");
    }
    int i = 0;
    while (share < steps[i].from) {
        i++;
    }
    return _(steps[i].word);
}

const char *sl_phase_word(const sl_arm *arm, double clock_min, double *minutes)
{
    static const char *const words[] = {[SL_STEP_APPLY] = N_("on the hair"),
                                        [SL_STEP_RINSE] = N_("rinsing"),
                                        [SL_STEP_SHAMPOO] = N_("shampoo"),
                                        [SL_STEP_REST] = N_("resting")};
    const double since = clock_min - arm->contact_min;
    *minutes = 0.0;
    if (arm->n_steps == 0) {
        return _("left alone");
    }
    if (since < 0.0) {
        return _("not yet on");
    }
    const int step = sl_arm_on_hair(arm, clock_min).step;
    *minutes = since - sl_arm_minutes_before(arm, step < 0 ? arm->n_steps : step);
    return step < 0 ? _("washed out") : _(words[arm->steps[step].kind]);
}

void sl_put_sentence(const char *clause, char *text, size_t size)
{
    snprintf(text, size, "%s.", clause);
    text[0] = (char)toupper((unsigned char)text[0]);
}

void sl_put_share(double share, char *text, size_t size)
{
    char number[16];
    sl_percent(share, number, sizeof number);
    snprintf(text, size, "%s %%", number);
}

void sl_put_shares(double before, double after, char *text, size_t size)
{
    char one[16];
    char two[16];
    sl_percent(before, one, sizeof one);
    sl_percent(after, two, sizeof two);
    snprintf(text, size, "%s → %s %%", one, two);
}

void sl_put_clock(double minutes, char *text, size_t size)
{
    const long seconds = lround(minutes * 60.0);
    sl_minute_words(SL_MINUTE_PLANNED, text, size, "%ld:%02ld", seconds / 60, seconds % 60);
}

void sl_put_between(double minutes, char *text, size_t size)
{
    const double low = floor(minutes + 1e-6);
    if (minutes - low < 1e-3) {
        sl_minute_words(SL_MINUTE_MODEL, text, size, _("%.0f min"), low);
    } else {
        sl_minute_words(SL_MINUTE_MODEL, text, size, _("%.0f–%.0f min"), low, low + 1.0);
    }
}

void sl_put_strength(double pct, char *text, size_t size)
{
    char one[16];
    char two[16];
    sl_short_number(pct, 1, one, sizeof one);
    sl_short_number(sl_volume_strength(pct), 0, two, sizeof two);
    snprintf(text, size, _("%s %% (%s vol)"), one, two);
}

void sl_put_warmth(double celsius, char *text, size_t size)
{
    snprintf(text, size, "%.0f °C (%.0f °F)", celsius, 1.8 * celsius + 32.0);
}

void sl_put_warmer(double kelvin, char *text, size_t size)
{
    const char *sign = kelvin > 0.0 ? "+" : kelvin < 0.0 ? "−" : "±";
    snprintf(text, size, "%s%.0f °C (%s%.0f °F)", sign, fabs(kelvin), sign, 1.8 * fabs(kelvin));
}

void sl_put_weight(double grams, char *text, size_t size)
{
    snprintf(text, size, _("%.1f g (%.2f oz)"), grams, grams / 28.349523125);
}
