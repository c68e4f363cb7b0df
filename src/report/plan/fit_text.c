/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What a class can do of a plan, in sentences.
 */
#include <math.h>

#include "base/append.h"
#include "base/language.h"
#include "base/minute.h"
#include "document/text.h"
#include "report/limits/limits.h"
#include "report/plan/plan.h"

enum { SENTENCE = 300, SPAN = 64 };

void sl_plan_hours(double seconds, char *text, size_t size)
{
    const int whole = (int)ceil(seconds / 60.0);
    if (whole < 60) {
        sl_minute_words(SL_MINUTE_PLANNED, text, size, "%d min", whole);
    } else {
        sl_minute_words(SL_MINUTE_PLANNED, text, size, "%d h %d min", whole / 60, whole % 60);
    }
}

static void offer_words(const sl_plan_fit *fit, sl_fit_offer offer, char *text, size_t size)
{
    const int n = fit->offer[offer].n;
    char takes[SPAN];
    sl_plan_hours(fit->offer[offer].takes_s, takes, sizeof takes);
    if (offer == SL_FIT_REPEATS) {
        snprintf(text, size,
                 sl_plural("What would: %d swatch of each strip, in %s.",
                           "What would: %d swatches of each strip, in %s.", n),
                 n, takes);
    } else if (offer == SL_FIT_PEOPLE) {
        snprintf(
            text, size,
            sl_plural("What would: %d pair of hands, in %s.", "What would: %d pairs of hands, in %s.", n), n,
            takes);
    } else if (offer == SL_FIT_LOOKS && n == 0) {
        snprintf(text, size, _("What would: no looks on the way, in %s."), takes);
    } else if (offer == SL_FIT_LOOKS && fit->ladder) {
        snprintf(text, size,
                 sl_plural("What would: the first %d piece of the ladder alone, in %s.",
                           "What would: the first %d pieces of the ladder alone, in %s.", n),
                 n, takes);
    } else if (offer == SL_FIT_LOOKS) {
        snprintf(text, size,
                 sl_plural("What would: the first %d look of each strip alone, in %s.",
                           "What would: the first %d looks of each strip alone, in %s.", n),
                 n, takes);
    } else {
        snprintf(text, size,
                 sl_plural("What would: the first %d strip of the scene alone, in %s.",
                           "What would: the first %d strips of the scene alone, in %s.", n),
                 n, takes);
    }
}

/* What an end in the class costs: told is the difference that is left, -1: none. */
static void add_given_way(double told, double tell, char *text, size_t size)
{
    char wanted[16], left[16];
    sl_percent(tell, wanted, sizeof wanted);
    sl_percent(told, left, sizeof left);
    if (told < 0.0) {
        sl_append_item(text, size, " ",
                       _("Then the wish to tell %s points gives way: no difference is told."), wanted);
    } else if (told > tell) {
        sl_append_item(text, size, " ",
                       _("Then the wish to tell %s points gives way: about %s points are told."), wanted,
                       left);
    }
}

/* tells: of each offer, where a difference is wanted; else NULL. */
static void each_of(const sl_plan_fit *fit, const double *tells, double tell, sl_warning_taker *take,
                    void *self)
{
    char text[SENTENCE], takes[SPAN], class_[SPAN];
    bool any = fit->fits;
    sl_plan_hours(fit->takes_s, takes, sizeof takes);
    sl_plan_hours(fit->class_s, class_, sizeof class_);
    if (fit->fits) {
        snprintf(text, sizeof text,
                 sl_plural("%d swatches by %d pair of hands take %s.",
                           "%d swatches by %d pairs of hands take %s.", fit->people),
                 fit->swatches, fit->people, takes);
    } else {
        snprintf(text, sizeof text,
                 sl_plural("That cannot work: %d swatches by %d pair of hands take %s; you have %s.",
                           "That cannot work: %d swatches by %d pairs of hands take %s; you have %s.",
                           fit->people),
                 fit->swatches, fit->people, takes, class_);
    }
    take(self, text);
    for (int i = 0; i < SL_FIT_OFFERS; i++) {
        if (fit->offer[i].n >= 0) {
            offer_words(fit, (sl_fit_offer)i, text, sizeof text);
            if (tells) {
                add_given_way(tells[i], tell, text, sizeof text);
            }
            take(self, text);
            any = true;
        }
    }
    if (!any) {
        sl_plan_hours(fit->least_s, takes, sizeof takes);
        snprintf(text, sizeof text,
                 _("No one change is enough. The least, two mixes once each without looks, takes %s."),
                 takes);
        if (tells) {
            add_given_way(-1.0, tell, text, sizeof text);
        }
        take(self, text);
    }
}

void sl_plan_fit_each(const sl_plan_fit *fit, sl_warning_taker *take, void *self)
{
    each_of(fit, NULL, 0.0, take, self);
}

void sl_plan_fit_say(sl_document *document, const sl_plan_fit *fit)
{
    sl_plan_fit_each(fit, sl_document_take_sentence, document);
}

void sl_plan_say_proposal(sl_document *document, const sl_plan_page *page, int read)
{
    const sl_plan_proposal *const proposal = &page->proposal[read];
    char points[16];
    sl_percent(page->tell, points, sizeof points);
    if (proposal->repeats < 0) {
        sl_document_say(document,
                        read == 1
                            ? _("By an instrument, up to %d swatches of each strip do not tell %s points of "
                                "the colour in 8 of 10 such tests.")
                            : _("Graded once, up to %d swatches of each strip do not tell %s points of the "
                                "colour in 8 of 10 such tests."),
                        SL_PLAN_MOST_BLOCKS, points);
        return;
    }
    sl_document_say(
        document,
        read == 1 ? _("By an instrument, %d swatches of each strip tell %s points of the colour in 8 of "
                      "10 such tests.")
                  : _("Graded once, %d swatches of each strip tell %s points of the colour in 8 of 10 "
                      "such tests."),
        proposal->repeats, points);
    each_of(&proposal->fit, proposal->tells, page->tell, sl_document_take_sentence, document);
}

/* Whether a look at this minute finds a mix on the hair, all of it and not about to be rinsed. */
static bool looked_at(const sl_plan *plan, const sl_arm *arm, int minute)
{
    const sl_plan_request *const request = &plan->request;
    bool cut_short = false;
    for (int i = 0; i < arm->n_steps; i++) {
        const sl_step *const step = &arm->steps[i];
        if (step->kind == SL_STEP_APPLY && 60 * minute >= request->apply_s &&
            60 * minute + request->look_s <=
                sl_planned_dwell_s(&plan->scene->mixes[step->mix], step, &cut_short)) {
            return true;
        }
    }
    return arm->n_steps == 0;
}

bool sl_plan_unlooked(const sl_plan *plan, int arm, char *text, size_t size)
{
    int minute[SL_PLAN_MOST_LOOKS], n = 0;
    char minutes[SPAN * 2];
    for (int i = 0; i < plan->request.n_looks; i++) {
        if (!looked_at(plan, &plan->scene->arms[arm], plan->request.look_min[i])) {
            minute[n++] = plan->request.look_min[i];
        }
    }
    if (n > 0) {
        sl_minutes_words(SL_MINUTE_PLANNED, minute, n, minutes, sizeof minutes);
        snprintf(text, size,
                 _("\"%s\" has no look at %s: its mix is not all on by then, or is rinsed off already."),
                 sl_arm_title(&plan->scene->arms[arm]), minutes);
    }
    return n > 0;
}
