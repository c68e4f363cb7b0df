/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Limits in words of our own; see limits.h. Invariant: no sentence promises, and none says that
 * anything may be done.
 */
#include <assert.h>
#include <math.h>
#include <string.h>

#include "base/append.h"
#include "base/calendar.h"
#include "base/language.h"
#include "base/minute.h"
#include "report/limits/leave_words.h"
#include "report/limits/limits.h"

void sl_strand_words_of(const sl_strand *strand, char *text, size_t size)
{
    char tried[SL_DAY_TEXT], today[SL_DAY_TEXT];
    sl_day_words(strand->of_day, today);
    if (strand->day <= 0) {
        snprintf(text, size, _("%s of test %s, without a day; judged by %s"), strand->code, strand->test,
                 today);
        return;
    }
    sl_day_words(strand->day, tried);
    snprintf(text, size,
             sl_plural("%s of test %s, tried on %s, %d day before %s",
                       "%s of test %s, tried on %s, %d days before %s", strand->of_day - strand->day),
             strand->code, strand->test, tried, strand->of_day - strand->day, today);
}

bool sl_is_practice(const sl_limits_page *page)
{
    return sl_is_made_up(page->answers->person);
}

void sl_three_words(sl_three minutes, bool in_time, double last_min, char *text, size_t size)
{
    const double last = floor(last_min), low = fmin(floor(minutes.p10), last);
    const double high = fmin(fmax(ceil(minutes.p90), low + 1.0), last);
    const bool written = minutes.p10 >= minutes.p90 && minutes.p10 <= low; /* somewhere, not computed */
    if (minutes.p10 < 0.0) {
        snprintf(text, size,
                 in_time ? _("does not come in time in at least nine of ten model runs")
                         : _("does not come in at least nine of ten model runs"));
    } else if (minutes.p90 < 0.0) {
        sl_minute_words(SL_MINUTE_MODEL, text, size,
                        in_time ? _("from %.0f min on, and in some model runs not in time")
                                : _("from %.0f min on, and in some model runs not at all"),
                        low);
    } else if (written || high <= low) {
        sl_minute_words(written ? SL_MINUTE_PLANNED : SL_MINUTE_MODEL, text, size, _("at %.0f min"), low);
    } else {
        sl_minute_words(SL_MINUTE_MODEL, text, size, _("%.0f to %.0f min"), low, high);
    }
}

void sl_minutes_words(sl_minute_kind kind, const int *minute, int n, char *text, size_t size)
{
    char list[SL_MINUTES_TEXT] = "";
    for (int i = 0; i < n - 1; i++) {
        sl_append_item(list, sizeof list, ", ", "%d", minute[i]);
    }
    snprintf(text, size, "%s", "");
    if (n > 1) {
        sl_minute_words(kind, text, size, _("%s and %d min"), list, minute[n - 1]);
    } else if (n == 1) {
        sl_minute_words(kind, text, size, "%d min", minute[0]);
    }
}

const char *sl_verdict_sentence(const sl_answer *answer)
{
    switch (answer->verdict) {
    case SL_VERDICT_ROOMY:
        return _(
            "In this model the goal comes first, and clear of the first limit. Look at the minutes below; "
            "the swatch decides, not the clock.");
    case SL_VERDICT_TIGHT:
        return _("In this model the goal mostly comes first, but the first limit is close behind. Look every "
                 "two "
                 "to three minutes and have the rinse ready.");
    case SL_VERDICT_DOUBTFUL:
        return _("In this model the first limit may well come before the goal. Promise nothing; try a "
                 "strand, "
                 "or settle for a smaller goal.");
    case SL_VERDICT_LATE:
        return answer->stop == SL_STOP_END
                   ? _("In this model the scene mostly ends before the goal is reached, though no limit "
                       "comes "
                       "either.")
                   : _("In this model the first limit comes before the colour is gone: no time does both.");
    case SL_VERDICT_UNKNOWN:
    case SL_VERDICTS:
        break;
    }
    return _("No time is given.");
}
