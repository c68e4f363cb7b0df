/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Limits for people: what a person's form stops and lacks, what is in the way of minutes, and the
 * rhythm for the strand that is missing. See limits.h.
 */
#include <string.h>

#include "base/language.h"
#include "report/leave_words.h"
#include "report/limits.h"
#include "report/text.h"

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
    const sl_leave *const leave = &page->answers[arm].leave;
    int look[SL_MOST_STRAND_LOOKS];
    char minutes[TEXT], text[2 * TEXT], label[256];
    const int n = sl_strand_looks(leave, page->person, look);
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

void sl_put_lacks(FILE *out, const sl_limits_page *page, int arm, int width)
{
    const sl_answer *const answer = &page->answers[arm];
    char text[TEXT];
    if (answer->leave.minutes) {
        sl_put_row(out, _("missing:"), _(sl_unknown_words(answer->unknown)), width);
    }
    for (int lack = 1; lack < SL_UNKNOWNS; lack++) {
        if (answer->leave.lacks[lack] && lack == SL_UNKNOWN_STRAND) {
            snprintf(text, sizeof text, "%s: %s", _(sl_unknown_words(SL_UNKNOWN_STRAND)),
                     _(sl_strand_words(answer->leave.strand)));
            sl_put_row(out, _("missing:"), text, width);
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
    if (asked < SL_INTAKE_REPLIES) {
        snprintf(text, size, _("%s (answered: %s)"), words, _(replies[person->reply[asked]]));
    } else if (asked == SL_INTAKE_LIGHTENED) {
        snprintf(text, size, _("%s (answered: %s)"), words, _(replies[person->lightened]));
    } else if (asked == SL_INTAKE_AGE) {
        snprintf(text, size, _("%s (answered: %d)"), words, person->age_years);
    } else {
        snprintf(text, size, "%s", words);
    }
}

void sl_put_person(FILE *out, const sl_limits_page *page, int width)
{
    const sl_intake_result result = sl_intake_judge(page->person->form);
    char words[TEXT], text[2 * TEXT];
    for (int asked = 0; asked < SL_INTAKE_ASKED; asked++) {
        if (result.stopped[asked]) {
            answered_words(page->person->form, asked, words, sizeof words);
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
