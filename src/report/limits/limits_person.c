/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What a person's form stops and lacks, what is in the way of minutes, and the rhythm for the strand that is
 * missing. See limits.h.
 */
#include <math.h>

#include "base/language.h"
#include "base/minute.h"
#include "report/limits/leave_words.h"
#include "report/limits/limits.h"

enum { TEXT = 640 };

/* ---- what is in the way ------------------------------------------------------------------------ */

/* When to look at the strand itself: planned, of no model. */
static void say_strand_looks(sl_document *document, const sl_limits_arm *of)
{
    const sl_leave *const leave = &of->answer->leave;
    int look[SL_MOST_STRAND_LOOKS];
    char minutes[TEXT], label[256];
    const int n = sl_strand_looks(leave, of->person, look);
    if (leave->strand == SL_STRAND_HEATED) {
        sl_document_row(document, _("try"), "%s",
                        _("nothing that oxidises on this hair, not on another strand either: warmth, fizz, "
                          "smoke or smell is the answer."));
    }
    if (n == 0) {
        return;
    }
    sl_minutes_words(SL_MINUTE_PLANNED, look, n, minutes, sizeof minutes);
    sl_label_words(&leave->label, label, sizeof label);
    sl_document_row(
        document, _("try"),
        _("cut a strand where it does not show and put this mix on it, off the head. Wipe, look and grade at "
          "%s, feel it each time, and rinse when it is there: a rhythm of no model, and %s."),
        minutes, label);
}

/* Which strand was looked at. */
static void say_strand_name(sl_document *document, const sl_strand *strand)
{
    char text[TEXT];
    if (strand->code[0] != '\0') {
        sl_strand_words_of(strand, text, sizeof text);
        sl_document_row(document, _("strand"), "%s", text);
    }
}

void sl_limits_say_strand(sl_document *document, const sl_limits_arm *of)
{
    char text[TEXT];
    if (!of->person || !of->answer->minutes) {
        return;
    }
    say_strand_name(document, &of->person->strand[of->arm]);
    sl_minute_words(SL_MINUTE_CLOCK, text, sizeof text,
                    _("it was watched for %d min; no minute is told that comes later"),
                    (int)floor(of->person->strand[of->arm].watched_min));
    sl_document_row(document, "", "%s", text);
}

/* All that keeps the strand from counting, each with its sentence; the first beside what is missing. */
static void say_strand_lacks(sl_document *document, const sl_limits_arm *of)
{
    const sl_strand *const strand = of->person ? &of->person->strand[of->arm] : NULL;
    const sl_strand_worth first = of->answer->leave.strand;
    sl_document_row(document, _("missing"), "%s: %s", _(sl_unknown_words(SL_UNKNOWN_STRAND)),
                    _(sl_strand_words(first)));
    if (strand) {
        say_strand_name(document, strand);
    }
    for (int worth = 0; strand && worth < SL_STRAND_COUNTED; worth++) {
        if (strand->lacks[worth] && worth != (int)first) {
            sl_document_row(document, _("lacking"), "%s", _(sl_strand_words((sl_strand_worth)worth)));
        }
    }
}

void sl_limits_say_lacks(sl_document *document, const sl_limits_arm *of)
{
    const sl_leave *const leave = &of->answer->leave;
    if (leave->minutes) {
        sl_document_row(document, _("missing"), "%s", _(sl_unknown_words(of->answer->unknown)));
    }
    for (int lack = 1; lack < SL_UNKNOWNS; lack++) {
        if (leave->lacks[lack] && lack == SL_UNKNOWN_STRAND) {
            say_strand_lacks(document, of);
        } else if (leave->lacks[lack]) {
            sl_document_row(document, _("missing"), "%s", _(sl_unknown_words((sl_unknown)lack)));
        }
    }
    say_strand_looks(document, of);
}

/* ---- the person ------------------------------------------------------------------------------- */

/* "henna in this hair (answered: unsure)". */
static void answered_words(const sl_intake *person, int asked, char *text, size_t size)
{
    static const char *const replies[SL_REPLIES] = {N_("not at all"), N_("no"), N_("yes"), N_("unsure")};
    const char *const words = _(sl_intake_words(asked));
    const sl_ask ask = sl_intake_ask_of(asked);
    if (ask == SL_ASK_REPLY || ask == SL_ASK_EITHER) {
        const sl_reply reply = ask == SL_ASK_REPLY ? person->reply[asked] : person->lightened;
        snprintf(text, size, _("%s (answered: %s)"), words, _(replies[reply]));
    } else if (ask == SL_ASK_YEARS) {
        snprintf(text, size, _("%s (answered: %d)"), words, person->age_years);
    } else {
        snprintf(text, size, "%s", words);
    }
}

void sl_limits_say_practice(sl_document *document, const sl_person *person)
{
    if (sl_is_made_up(person)) {
        sl_document_row(document, _("MADE UP"), _("%s: nobody's hair, and no answer about anybody."),
                        _(sl_practice_words()));
    }
}

void sl_limits_say_person(sl_document *document, const sl_person *person)
{
    const sl_intake_result result = sl_intake_judge(person->form);
    char words[TEXT];
    sl_limits_say_practice(document, person);
    for (int asked = 0; asked < SL_INTAKE_ASKED; asked++) {
        if (result.stopped[asked]) {
            answered_words(person->form, asked, words, sizeof words);
            sl_document_row(document, _("STOP"), _("%s. First: %s."), words, _(sl_intake_first(asked)));
            sl_document_owes(document, sl_caution_named(sl_intake_caution(asked)));
        }
    }
    for (int asked = 0; asked < SL_INTAKE_ASKED; asked++) {
        if (result.missing[asked]) {
            sl_document_row(document, _("missing"), _("%s. First: %s."), _(sl_intake_words(asked)),
                            _(sl_intake_first(asked)));
        }
    }
    if (result.minutes) {
        sl_document_row(document, _("person"), "%s",
                        _("nothing on the form stops, and nothing on it is missing. Minutes are for looking; "
                          "none is a time to leave the mix on, and the label's time ends it."));
    }
}
