/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * One arm's answer as part of a document: how it stands, when to look, when to stop, what is left then, what
 * to measure next. See limits.h. Invariant: minutes are told only while the answer holds them.
 */
#include <math.h>

#include "base/language.h"
#include "base/minute.h"
#include "report/limits/aims_words.h"
#include "report/limits/leave_words.h"
#include "report/limits/limits.h"
#include "report/told.h"

enum { TEXT = 640 };

/* ---- goal, stop, what is left ------------------------------------------------------------- */

static void say_minutes(sl_document *document, const sl_limits_arm *of)
{
    char text[TEXT];
    sl_answer_goal_words(of->scene, of->answer, text, sizeof text);
    sl_document_row(document, _("goal"), "%s", text);
    sl_answer_stop_words(of->scene, of->arm, of->answer, of->limits, text, sizeof text);
    sl_document_row(document, _("stop"), "%s", text);
}

static void say_left(sl_document *document, const sl_limits_arm *of)
{
    char text[TEXT];
    if (of->answer->left_p50_percent >= 0) {
        sl_answer_left_words(of->scene, of->answer, of->limits, text, sizeof text);
        sl_document_row(document, _("left"), "%s", text);
    }
    if (sl_answer_comes_to_the_stop(of->answer, of->limits)) {
        sl_answer_base_words(of->limits, text, sizeof text);
        sl_document_row(document, _("level"), "%s", text);
    }
}

static void say_waiting(sl_document *document, const sl_limits_arm *of)
{
    char text[TEXT];
    for (int reason = 0; reason < 2; reason++) {
        if (sl_answer_waiting_words(of->limits, sl_leave_last_min(&of->answer->leave), reason, text,
                                    sizeof text)) {
            sl_document_row(document, _("waiting"), "%s", text);
        }
    }
}

/* ---- when to look -------------------------------------------------------------------------- */

static void say_looks(sl_document *document, const sl_limits_arm *of)
{
    char text[TEXT];
    sl_answer_checks_words(of->answer, text, sizeof text);
    sl_document_row(document, _("look"), "%s", text);
    if (of->answer->n_looks > 0) {
        sl_minutes_words(SL_MINUTE_PLANNED, of->answer->look, of->answer->n_looks, text, sizeof text);
        sl_document_row(document, _("feel"), _("skin, heat and stretch, whatever the colour does: %s"), text);
    }
}

static void say_odds(sl_document *document, const sl_limits_arm *of)
{
    const bool under = sl_answer_under(of->answer);
    sl_document_dots(document, _("in time"), of->answer->dots - (under ? 1 : 0), SL_DOTS,
                     under ? _("the goal comes before every limit in fewer than %d of %d model runs")
                           : _("the goal comes before every limit in %d of %d model runs"),
                     of->answer->dots, SL_DOTS);
    if (of->answer->seen_min > 0.0) {
        sl_document_row(document, _("seen"),
                        _("%ld of %ld model runs agree with all that was seen; they count the more."),
                        of->answer->agree, of->members);
    }
}

/* ---- how it was found ------------------------------------------------------------------------ */

/* The one thing to measure next. */
static void say_measure(sl_document *document, const sl_limits_arm *of)
{
    if (of->answer->measure < 0) {
        return;
    }
    const sl_drawn *const drawn = &of->plan->drawn[of->answer->measure];
    if (sl_drawn_of_dye(drawn)) {
        sl_document_row(document, _("next"), "%s (\"%s\")", _(sl_doubt_measure(drawn->doubt)),
                        sl_dye_title(&of->scene->dyes[drawn->dye]));
    } else {
        sl_document_row(document, _("next"), "%s", _(sl_doubt_measure(drawn->doubt)));
    }
}

void sl_say_index(sl_document *document, const char *label, const sl_scene *scene, const sl_drawn *drawn,
                  double index)
{
    char what[160];
    sl_drawn_say(drawn, what, sizeof what);
    if (sl_drawn_of_dye(drawn)) {
        sl_document_row(document, label, "%.3f  %s: %s", index, what, sl_dye_title(&scene->dyes[drawn->dye]));
    } else {
        sl_document_row(document, label, "%.3f  %s", index, what);
    }
}

static void say_science(sl_document *document, const sl_limits_arm *of)
{
    const sl_answer *const answer = of->answer;
    sl_document_row(
        document, _("science"),
        _("share of runs in time %.3f, 95 %% interval of the sampling alone %.3f to %.3f; as good as %.0f "
          "model runs of equal weight; share of the variance of (stop - goal), first order:"),
        answer->odds, answer->odds_95.low, answer->odds_95.high, answer->effective);
    for (int d = 0; d < of->plan->n; d++) {
        sl_say_index(document, "", of->scene, &of->plan->drawn[d], of->index[d]);
    }
}

/* ---- the whole -------------------------------------------------------------------------------- */

static void say_surprise(sl_document *document, const sl_limits_arm *of)
{
    const sl_observation *const seen = &of->seen->observation[of->answer->unexpected];
    if (seen->zone >= 0) {
        sl_document_row(document, "", _("\"%s\" in \"%s\": hardly any model run shows that"),
                        sl_wipe_word(seen->wipe), sl_zone_title(&of->scene->zones[seen->zone]));
    } else {
        sl_document_row(document, "", _("\"%s\": hardly any model run shows that"), sl_wipe_word(seen->wipe));
    }
}

static void say_unknown(sl_document *document, const sl_limits_arm *of)
{
    const sl_unknown unknown = of->answer->unknown;
    sl_document_row(document, "", "%s", sl_verdict_sentence(of->answer));
    sl_limits_say_lacks(document, of);
    if (unknown == SL_UNKNOWN_SURPRISE && of->answer->unexpected >= 0) {
        say_surprise(document, of);
    }
    if (unknown == SL_UNKNOWN_SURPRISE || unknown == SL_UNKNOWN_AT_ODDS) {
        sl_document_row(document, _("do"), "%s",
                        _("look again on a wiped and dried lock; if it stays so, rinse when in doubt and "
                          "write it down"));
    }
}

/* First what there is room for everywhere. */
static void say_known(sl_document *document, const sl_limits_arm *of)
{
    const sl_answer *const answer = of->answer;
    if (!of->counting) {
        sl_document_row(document, "", "%s", sl_verdict_sentence(answer));
    }
    sl_limits_say_strand(document, of);
    document->depth = SL_LEAD;
    say_odds(document, of);
    if (answer->minutes) {
        say_minutes(document, of);
    }
    document->depth = SL_MORE;
    say_left(document, of);
    if (answer->minutes) {
        say_waiting(document, of);
        document->depth = SL_LEAD;
        say_looks(document, of);
        document->depth = SL_MORE;
    }
    if (answer->verdict == SL_VERDICT_LATE || answer->verdict == SL_VERDICT_DOUBTFUL) {
        sl_document_row(document, _("instead"), "%s",
                        _("a smaller goal; what is left covered darker; another mix, first on cut hair; or "
                          "leaving it as it is"));
    }
    say_measure(document, of);
    if (of->index != NULL) {
        document->depth = SL_SCIENCE;
        say_science(document, of);
        document->depth = SL_MORE;
    }
}

void sl_limits_say_arm(sl_document *document, const sl_limits_arm *of)
{
    const char *const name = sl_arm_title(&of->scene->arms[of->arm]);
    const char *const verdict = of->counting ? _("counting …") : _(sl_verdict_word(of->answer->verdict));
    document->depth = SL_LEAD;
    if (sl_is_made_up(of->person)) {
        sl_document_part(document, "%s: %s (%s)", name, verdict, _(sl_practice_words()));
    } else {
        sl_document_part(document, "%s: %s", name, verdict);
    }
    document->depth = SL_MORE;
    if (of->answer->verdict == SL_VERDICT_UNKNOWN) {
        say_unknown(document, of);
    } else {
        say_known(document, of);
    }
}

/* ---- what goes with every arm ------------------------------------------------------------------- */

void sl_limits_say_counted(sl_document *document, long members, uint64_t seed)
{
    sl_document_row(
        document, _("counted"),
        _("%ld model runs, each with numbers drawn as widely as their grades are weak (seed %llu). Ranges "
          "leave out the lowest and the highest tenth."),
        members, (unsigned long long)seed);
}

void sl_limits_say_signs(sl_document *document)
{
    sl_document_say(document, "%s",
                    _("Rinse at once, whatever the minute: skin that stings or burns; warmth, fizz, smoke or "
                      "an odd smell; hair that stays long, feels like gum or snaps."));
}

void sl_limits_say_worth(sl_document *document)
{
    sl_document_say(document, "%s",
                    _("The counts are of this model and its numbers; they tell nobody how it will go."));
}
