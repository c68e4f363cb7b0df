/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The person's form judged. See intake.h: an unsure reply stops like the wrong one.
 */
#include "slowlift/intake.h"
#include "base/language.h"

#include <assert.h>

typedef struct asked_row {
    sl_reply pass;
    const char *caution, *words, *first;
} asked_row;

#define AS_ROW(name, pass, caution, words, first) {pass, caution, words, first},
static const asked_row rows[SL_INTAKE_ASKED] = {
    SL_INTAKE_LIST(AS_ROW){SL_REPLY_NONE, "AGE", N_("age in years"),
                           N_("go by the law and the label; under age this is not done here")},
    {SL_REPLY_NONE, "LABEL", N_("the label's longest time"), N_("read it off the label and enter it")},
    {SL_REPLY_NONE, "TESTS", N_("lightened before"),
     N_("find out whether this hair was lightened before; a strand of it shows more than the answer")},
    {SL_REPLY_NONE, "HEAD", N_("what the strand showed"),
     N_("try the strand no longer than the label's time; enter the minute and the grade it showed")}};

static void put(sl_intake_result *result, int asked, bool missing, bool stopped)
{
    result->missing[asked] = missing;
    result->stopped[asked] = stopped && !missing;
    result->n_missing += result->missing[asked] ? 1 : 0;
    result->n_stopped += result->stopped[asked] ? 1 : 0;
}

static bool is_label(double minutes)
{
    return minutes > 0.0 && minutes <= SL_INTAKE_MOST_LABEL_MIN;
}

/* Whether every entry can be what a strand showed inside the label's time. */
static bool showed_is_good(const sl_intake *intake)
{
    if (intake->showed.n > SL_MOST_SAWS) {
        return false;
    }
    for (int i = 0; i < intake->showed.n; i++) {
        const sl_saw *const saw = &intake->showed.saw[i];
        const bool timed = saw->minute > 0.0 && saw->minute <= intake->label_min;
        if (!timed || saw->wipe >= SL_WIPES || saw->arm < 0 || saw->zone < SL_SAW_ALL_ZONES) {
            return false;
        }
    }
    return true;
}

sl_intake_result sl_intake_judge(const sl_intake *intake)
{
    sl_intake_result result = {0};
    for (int q = 0; q < SL_INTAKE_REPLIES; q++) {
        const sl_reply reply = intake->reply[q];
        put(&result, q, reply == SL_REPLY_NONE, reply != rows[q].pass);
    }
    put(&result, SL_INTAKE_AGE, intake->age_years <= 0, intake->age_years < SL_INTAKE_LEAST_AGE);
    put(&result, SL_INTAKE_LABEL, !is_label(intake->label_min), false);
    put(&result, SL_INTAKE_LIGHTENED, intake->lightened == SL_REPLY_NONE,
        intake->lightened == SL_REPLY_UNSURE);
    put(&result, SL_INTAKE_SHOWED, intake->showed.n <= 0, !showed_is_good(intake));
    result.minutes = result.n_missing == 0 && result.n_stopped == 0;
    return result;
}

const char *sl_intake_words(int asked)
{
    assert(asked >= 0 && asked < SL_INTAKE_ASKED);
    return rows[asked].words;
}

const char *sl_intake_first(int asked)
{
    assert(asked >= 0 && asked < SL_INTAKE_ASKED);
    return rows[asked].first;
}

const char *sl_intake_caution(int asked)
{
    assert(asked >= 0 && asked < SL_INTAKE_ASKED);
    return rows[asked].caution;
}
