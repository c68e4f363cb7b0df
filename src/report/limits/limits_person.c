/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Limits for people: what a person's form stops and lacks, what is in the way of minutes, and the
 * rhythm for the strand that is missing. See limits.h.
 */
#include <math.h>
#include <string.h>

#include "base/language.h"
#include "base/minute.h"
#include "document/text.h"
#include "report/limits/leave_words.h"
#include "report/limits/limits.h"

enum { TEXT = 640 };

void sl_put_row(FILE *out, const char *lead, const char *text, int width)
{
    char padded[32];
    snprintf(padded, sizeof padded, "   %-11s", lead);
    sl_put_paragraph(out, padded, text, width);
}

/* ---- what is in the way ------------------------------------------------------------------------ */

/* When to look at the strand itself: planned, of no model. */
static void put_strand_looks(FILE *out, const sl_limits_page *page, int arm, int width)
{
    const sl_leave *const leave = &page->answers->arm[arm].leave;
    int look[SL_MOST_STRAND_LOOKS];
    char minutes[TEXT], text[2 * TEXT], label[256];
    const int n = sl_strand_looks(leave, page->answers->person, look);
    if (leave->strand == SL_STRAND_HEATED) {
        sl_put_row(
            out, _("try:"),
            _("nothing that oxidises on this hair, not on another strand either: warmth, fizz, smoke or "
              "smell is the answer."),
            width);
    }
    if (n == 0) {
        return;
    }
    sl_minutes_words(SL_MINUTE_PLANNED, look, n, minutes, sizeof minutes);
    sl_label_words(&leave->label, label, sizeof label);
    snprintf(
        text, sizeof text,
        _("cut a strand where it does not show and put this mix on it, off the head. Wipe, look and grade at "
          "%s, feel it each time, and rinse when it is there: a rhythm of no model, and %s."),
        minutes, label);
    sl_put_row(out, _("try:"), text, width);
}

/* Which strand was looked at. */
static void put_strand_name(FILE *out, const sl_strand *strand, int width)
{
    char text[TEXT];
    if (strand->code[0] != '\0') {
        sl_strand_words_of(strand, text, sizeof text);
        sl_put_row(out, _("strand:"), text, width);
    }
}

void sl_put_strand(FILE *out, const sl_limits_page *page, int arm, int width)
{
    char text[TEXT];
    if (!page->answers->person || !page->answers->arm[arm].minutes) {
        return;
    }
    put_strand_name(out, &page->answers->person->strand[arm], width);
    sl_minute_words(SL_MINUTE_CLOCK, text, sizeof text,
                    _("it was watched for %d min; no minute is told that comes later"),
                    (int)floor(page->answers->person->strand[arm].watched_min));
    sl_put_row(out, "", text, width);
}

/* All that keeps the strand from counting, each with its sentence; the first beside what is missing. */
static void put_strand_lacks(FILE *out, const sl_limits_page *page, int arm, int width)
{
    const sl_strand *const strand = page->answers->person ? &page->answers->person->strand[arm] : NULL;
    const sl_strand_worth first = page->answers->arm[arm].leave.strand;
    char text[TEXT];
    snprintf(text, sizeof text, "%s: %s", _(sl_unknown_words(SL_UNKNOWN_STRAND)), _(sl_strand_words(first)));
    sl_put_row(out, _("missing:"), text, width);
    if (strand) {
        put_strand_name(out, strand, width);
    }
    for (int worth = 0; strand && worth < SL_STRAND_COUNTED; worth++) {
        if (strand->lacks[worth] && worth != (int)first) {
            sl_put_row(out, _("lacking:"), _(sl_strand_words((sl_strand_worth)worth)), width);
        }
    }
}

void sl_put_lacks(FILE *out, const sl_limits_page *page, int arm, int width)
{
    const sl_answer *const answer = &page->answers->arm[arm];
    if (answer->leave.minutes) {
        sl_put_row(out, _("missing:"), _(sl_unknown_words(answer->unknown)), width);
    }
    for (int lack = 1; lack < SL_UNKNOWNS; lack++) {
        if (answer->leave.lacks[lack] && lack == SL_UNKNOWN_STRAND) {
            put_strand_lacks(out, page, arm, width);
        } else if (answer->leave.lacks[lack]) {
            sl_put_row(out, _("missing:"), _(sl_unknown_words((sl_unknown)lack)), width);
        }
    }
    put_strand_looks(out, page, arm, width);
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

void sl_put_practice(FILE *out, const sl_limits_page *page, int width)
{
    char text[TEXT];
    if (sl_is_practice(page)) {
        snprintf(text, sizeof text, _("%s: nobody's hair, and no answer about anybody."),
                 _(sl_practice_words()));
        sl_put_paragraph(out, _(" MADE UP: "), text, width);
    }
}

void sl_put_person(FILE *out, const sl_limits_page *page, int width)
{
    const sl_intake_result result = sl_intake_judge(page->answers->person->form);
    char words[TEXT], text[2 * TEXT];
    sl_put_practice(out, page, width);
    for (int asked = 0; asked < SL_INTAKE_ASKED; asked++) {
        if (result.stopped[asked]) {
            answered_words(page->answers->person->form, asked, words, sizeof words);
            snprintf(text, sizeof text, _("%s. First: %s."), words, _(sl_intake_first(asked)));
            sl_put_paragraph(out, _(" STOP:    "), text, width);
        }
    }
    for (int asked = 0; asked < SL_INTAKE_ASKED; asked++) {
        if (result.missing[asked]) {
            snprintf(text, sizeof text, _("%s. First: %s."), _(sl_intake_words(asked)),
                     _(sl_intake_first(asked)));
            sl_put_paragraph(out, _(" missing: "), text, width);
        }
    }
    if (result.minutes) {
        sl_put_paragraph(
            out, _(" person:  "),
            _("nothing on the form stops, and nothing on it is missing. Minutes are for looking; none is "
              "a time to leave the mix on, and the label's time ends it."),
            width);
    }
}
