/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The two sheets for the person whose hair it is: what a strand of it showed, and why something is not done.
 * In her language, in sentences; who wrote it explains the rest.
 */
#include <string.h>

#include "base/calendar.h"
#include "base/language.h"
#include "document/text.h"
#include "log/papers/papers.h"
#include "report/told.h"

/* ---- which may be written ------------------------------------------------------------------------ */

static bool counted(const sl_client_paper *paper, int arm)
{
    return paper->person->strand[arm].worth == SL_STRAND_COUNTED;
}

static int n_counted(const sl_client_paper *paper)
{
    int n = 0;
    for (int arm = 0; arm < paper->kept->scene->n_arms; arm++) {
        n += counted(paper, arm) ? 1 : 0;
    }
    return n;
}

/* Why the strand that lacks least does not count. */
static sl_strand_worth worth_of(const sl_client_paper *paper)
{
    sl_strand_worth worth = SL_STRAND_NONE;
    for (int arm = 0; arm < paper->kept->scene->n_arms && worth == SL_STRAND_NONE; arm++) {
        worth = paper->person->strand[arm].worth;
    }
    return worth;
}

bool sl_paper_client_can(const sl_client_paper *paper, sl_error *error)
{
    if (!sl_intake_judge(paper->person->form).minutes) {
        return sl_fail(error, SL_ERR_INCONSISTENT, _("the form is not clear, so there is no client's sheet"),
                       _("settle what it stops and lacks, or write the sheet that says no: --no FORM"));
    }
    return n_counted(paper) > 0 ||
           sl_fail(
               error, SL_ERR_INCONSISTENT, _(sl_strand_words(worth_of(paper))),
               _("try a strand of this person's hair and keep it in this log: slowlift log strand --help"));
}

bool sl_paper_no_can(const sl_client_paper *paper, sl_error *error)
{
    return !sl_intake_judge(paper->person->form).minutes || n_counted(paper) == 0 ||
           sl_fail(error, SL_ERR_INCONSISTENT, _("nothing on the form stops, and a strand counts"),
                   _("there is no reason to write down; the client's sheet is --client FORM"));
}

static void begin(sl_document *document, const sl_client_paper *paper, const char *name, const char *title,
                  sl_error *error)
{
    sl_document_begin(document, name, title, error);
    document->large = true;
    if (paper->person->form->practice) {
        sl_document_lies(document, _(sl_practice_words()));
    }
}

static void say_signs(sl_document *document, const char *own)
{
    sl_document_lines(document, 1, "%s", own);
    sl_document_lines(document, 1, "%s", _("Who went through it with you; name and day:"));
}

/* ---- the client's sheet -------------------------------------------------------------------------- */

/* Whether it is a grade of the strand of that code. */
static bool is_of(const sl_kept_test *kept, const sl_log_reading *reading, const char *code)
{
    for (int i = 0; i < kept->n; i++) {
        if (strcmp(kept->swatches[i].bench.code, code) == 0) {
            return strcmp(kept->swatches[i].id, reading->swatch) == 0 &&
                   reading->hours_after <= SL_NOT_READ && reading->said[SL_SAID_GRADE] != SL_NOT_SAID;
        }
    }
    return false;
}

static bool on_the_way(const sl_log_reading *reading)
{
    return reading->minute > SL_NOT_READ;
}

static void say_looks(sl_document *document, const sl_client_paper *paper, const char *code)
{
    const sl_kept_test *const kept = paper->kept;
    for (int i = 0; i < kept->n_readings; i++) {
        const sl_log_reading *const reading = &kept->readings[i];
        const int zone = sl_scene_zone(kept->scene, reading->zone);
        char minute[24];
        if (is_of(kept, reading, code) && on_the_way(reading) && zone >= 0) {
            sl_clock_time(SL_MINUTE_CLOCK, reading->minute, minute, sizeof minute);
            sl_document_item(document, _("After %s minutes, %s: %s."), minute,
                             sl_zone_title(&kept->scene->zones[zone]),
                             _(sl_said_word(SL_SAID_GRADE, reading->said[SL_SAID_GRADE])));
        }
    }
}

/* What it was like at the end, by whoever looked last; NULL: nobody did. */
static const sl_log_reading *at_end(const sl_kept_test *kept, const char *code)
{
    const sl_log_reading *last = NULL;
    for (int i = 0; i < kept->n_readings; i++) {
        last = is_of(kept, &kept->readings[i], code) && !on_the_way(&kept->readings[i]) ? &kept->readings[i]
                                                                                        : last;
    }
    return last;
}

/* What the log's words are called to somebody who does not know them; in their order. */
#define AS_CASE(word) +1
enum { FEELS = SL_FEEL_LIST(AS_CASE), STRETCHES = SL_STRETCH_LIST(AS_CASE) };
#undef AS_CASE
static const char *const feels[FEELS] = {N_("as it was before"), N_("a little dry"), N_("rough"),
                                         N_("soft and slippery"), N_("like gum")};
static const char *const stretches[STRETCHES] = {N_("it springs back"), N_("it comes back slowly"),
                                                 N_("it stays long"), N_("it breaks")};

static void say_strand(sl_document *document, const sl_client_paper *paper, int arm)
{
    const sl_strand *const strand = &paper->person->strand[arm];
    const sl_log_reading *const end = at_end(paper->kept, strand->code);
    char day[SL_DAY_TEXT];
    sl_day_words(strand->day, day);
    sl_document_say(document, _("On %s a strand of your own hair, cut off, was tried with \"%s\"."), day,
                    sl_arm_title(&paper->kept->scene->arms[arm]));
    say_looks(document, paper, strand->code);
    if (end) {
        sl_document_item(document, _("Washed and dried, of its colour: %s."),
                         _(sl_said_word(SL_SAID_GRADE, end->said[SL_SAID_GRADE])));
    }
    if (end && end->said[SL_SAID_FEEL] != SL_NOT_SAID && end->said[SL_SAID_STRETCH] != SL_NOT_SAID) {
        sl_document_item(document, _("To the fingers: %s. After a pull: %s."),
                         _(feels[end->said[SL_SAID_FEEL]]), _(stretches[end->said[SL_SAID_STRETCH]]));
    }
}

void sl_paper_client(sl_document *document, const void *of, sl_error *error)
{
    const sl_client_paper *const paper = of;
    begin(document, paper, "client", _("About your hair"), error);
    sl_document_heading(document, _("What a strand of it showed"));
    for (int arm = 0; arm < paper->kept->scene->n_arms; arm++) {
        if (counted(paper, arm)) {
            say_strand(document, paper, arm);
        }
    }
    sl_document_heading(document, _("What may be left"));
    sl_document_say(document, "%s",
                    _("Your hair is more than one strand. Some colour may stay, more in one place than in "
                      "another, and the hair below it may come out lighter or warmer than you remember it. "
                      "How long it takes on your head, the strand does not say; we look, and we stop."));
    sl_document_heading(document, _("What we will not do"));
    sl_document_item(document, "%s", _("Leave anything on for longer than its label allows."));
    sl_document_item(document, "%s", _("Put on anything that was not tried on a strand of your hair first."));
    sl_document_item(document, "%s",
                     _("Go on when it stings, burns, grows warm, or the hair feels like gum. Say so at once: "
                       "we rinse."));
    sl_document_item(document, "%s", _("Work on skin that is sore, cut or scratched."));
    sl_document_heading(document, _("Afterwards"));
    sl_document_lines(document, 1, "%s", _("Next visit, and what for:"));
    sl_document_lines(document, 2, "%s", _("At home until then:"));
    sl_document_lines(document, 1, "%s", _("What it costs, and your time in the chair:"));
    say_signs(document, _("I have read this and asked what I wanted to ask; name and day:"));
    sl_document_heading(document, _("Cautions"));
    sl_document_end(document, sl_with_reducing(paper->kept->scene, SL_ON_PERSON | SL_ON_STRAND));
}

/* ---- the sheet that says no ------------------------------------------------------------------------ */

static void say_asked(sl_document *document, const bool which[SL_INTAKE_ASKED], const char *heading)
{
    bool any = false;
    for (int asked = 0; asked < SL_INTAKE_ASKED; asked++) {
        if (!which[asked]) {
            continue;
        }
        if (!any) {
            sl_document_heading(document, heading);
        }
        any = true;
        sl_document_item(document, _("%s. First: %s."), _(sl_intake_words(asked)), _(sl_intake_first(asked)));
        sl_document_owes(document, sl_caution_named(sl_intake_caution(asked)));
    }
}

void sl_paper_no(sl_document *document, const void *of, sl_error *error)
{
    const sl_client_paper *const paper = of;
    const sl_intake_result result = sl_intake_judge(paper->person->form);
    begin(document, paper, "no", _("Not today, and what can be done instead"), error);
    sl_document_say(document, "%s",
                    _("Thank you for your answers. With what we know today we would rather not put a colour "
                      "remover on your hair. That is about what it could do, not about you."));
    say_asked(document, result.stopped, _("Why not"));
    say_asked(document, result.missing, _("What we do not know yet"));
    if (n_counted(paper) == 0) {
        sl_document_heading(document, _("Of a strand of your hair"));
        sl_document_say(document, "%s.", _(sl_strand_words(worth_of(paper))));
    }
    sl_document_heading(document, _("Other ways"));
    sl_document_item(document, "%s",
                     _("Wait: colours of this kind wash out little by little, and waiting costs "
                       "the hair nothing."));
    sl_document_item(document, "%s",
                     _("Another colour over it, darker or beside it, tried on a strand first as well."));
    sl_document_item(document, "%s", _("A cut, where the colour is mostly in the ends."));
    sl_document_item(document, "%s",
                     _("Come back when what stands above is settled; then we begin with a strand."));
    sl_document_heading(document, _("Afterwards"));
    sl_document_lines(document, 1, "%s", _("Next visit, and what for:"));
    say_signs(document, _("I have read this and asked what I wanted to ask; name and day:"));
    sl_document_heading(document, _("Cautions"));
    sl_document_end(document, SL_ON_PERSON);
}
