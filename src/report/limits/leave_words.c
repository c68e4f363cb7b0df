/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See leave_words.h. Invariant: a scene that counts as a head is never called a bench.
 */
#include "report/limits/leave_words.h"

#include <math.h>

#include "base/language.h"
#include "base/minute.h"
#include "document/text.h"
#include "slowlift/report.h"

/* ---- whose hair ------------------------------------------------------------------------------ */

bool sl_is_made_up(const sl_person *person)
{
    return person && person->form && person->form->practice;
}

void sl_lies_words(const sl_scene *scene, const sl_person *person, char *text, size_t size)
{
    char degrees[24];
    double coldest = 0.0, warmest = 0.0;
    sl_scene_warmth(scene, &coldest, &warmest);
    sl_short_number(warmest, 1, degrees, sizeof degrees);
    if (sl_is_made_up(person)) {
        snprintf(text, size, _("A MADE-UP PERSON, for practice. No minute is given."));
    } else if (person) {
        snprintf(
            text, size,
            _("ONE PERSON'S HAIR, %s °C. Minutes only where a strand of it was counted, none later than it "
              "was watched or than the label."),
            degrees);
    } else if (sl_scene_on_head(scene)) {
        snprintf(text, size, _("HAIR ON A HEAD, or as warm as on one (%s °C). No minute is given."), degrees);
    } else {
        snprintf(text, size, _("CUT SWATCHES on a bench, %s °C. Not for a head."), degrees);
    }
}

const char *sl_lies_for(const sl_scene *scene, const sl_person *person)
{
    if (person) {
        return sl_is_made_up(person) ? "a made-up person" : "one person";
    }
    return sl_scene_on_head(scene) ? "a head" : "cut swatches";
}

/* ---- the label -------------------------------------------------------------------------------- */

/* A time that somebody wrote down, in minutes. */
static void planned_words(double minutes, char *text, size_t size)
{
    char number[24];
    sl_short_number(minutes, 1, number, sizeof number);
    sl_minute_words(SL_MINUTE_PLANNED, text, size, "%s", number);
}

void sl_label_words(const sl_label *label, char *text, size_t size)
{
    char stated[40], age[40];
    planned_words(label->stated_min, stated, sizeof stated);
    planned_words(label->mix_age_min, age, sizeof age);
    if (label->source == SL_LABEL_NOT_ENTERED) {
        snprintf(text, size, "%s", "");
    } else if (label->from_contact) {
        snprintf(text, size, _("the label's time, %s min from contact by the mix's file"), stated);
    } else if (label->source == SL_LABEL_OF_FORM) {
        snprintf(text, size,
                 _("the label's time, %s min from mixing by the form; the mix is %s min old at contact"),
                 stated, age);
    } else if (label->source == SL_LABEL_OF_OPTION) {
        snprintf(text, size,
                 _("the label's time, %s min from mixing by --label; the mix is %s min old at contact"),
                 stated, age);
    } else {
        snprintf(
            text, size,
            _("the label's time, %s min from mixing by the mix's file; the mix is %s min old at contact"),
            stated, age);
    }
}

bool sl_overrun_words(const sl_scene *scene, int arm, char *text, size_t size)
{
    sl_label label;
    char words[256], planned[40], allowed[40];
    if (!sl_label_overrun(scene, arm, &label)) {
        return false;
    }
    const sl_arm *const here = &scene->arms[arm];
    const double start = sl_arm_minutes_before(here, label.step);
    sl_label_words(&label, words, sizeof words);
    planned_words(here->steps[label.step].duration_min, planned, sizeof planned);
    planned_words(label.end_min - start, allowed, sizeof allowed);
    if (label.end_min - start > 0.0) {
        snprintf(text, size, _("\"%s\" is to stay on for %s min, and its label ends it after %s: %s"),
                 sl_arm_title(here), planned, allowed, words);
    } else {
        snprintf(text, size, _("\"%s\" is to stay on for %s min, and its label was over before contact: %s"),
                 sl_arm_title(here), planned, words);
    }
    return true;
}

/* Mixes that are put on (in arm `only`, or any when it is -1) and whose label nobody entered. */
static int count_unlabelled(const sl_scene *scene, int only, int *some_mix)
{
    int n = 0;
    for (int m = 0; m < scene->n_mixes; m++) {
        const sl_mix *const mix = &scene->mixes[m];
        bool used = false;
        for (int arm = 0; arm < scene->n_arms; arm++) {
            for (int i = 0; (only < 0 || only == arm) && i < scene->arms[arm].n_steps; i++) {
                const sl_step *const step = &scene->arms[arm].steps[i];
                used = used || (step->kind == SL_STEP_APPLY && step->mix == m);
            }
        }
        if (used && mix->class_ != SL_MIX_WATER && !(sl_label_allowed_min(mix, 0.0) < HUGE_VAL)) {
            *some_mix = m;
            n++;
        }
    }
    return n;
}

void sl_say_lies(sl_document *document, const sl_scene *scene, const sl_person *person)
{
    char text[256];
    sl_lies_words(scene, person, text, sizeof text);
    sl_document_lies(document, text);
}

static void say_unlabelled(sl_document *document, const sl_scene *scene, int only)
{
    int some_mix = 0;
    const int n = count_unlabelled(scene, only, &some_mix);
    if (n == 1) {
        sl_document_row(document, _("label"),
                        _("the time of \"%s\" is not entered: every number is about cut swatches"),
                        sl_mix_title(&scene->mixes[some_mix]));
    } else if (n > 1) {
        sl_document_row(document, _("label"),
                        _("the time of %d mixes is not entered: every number is about cut swatches"), n);
    }
}

void sl_say_labels(sl_document *document, const sl_scene *scene, const sl_person *person, int only)
{
    for (int arm = 0; arm < scene->n_arms; arm++) {
        char text[512];
        if ((only < 0 || only == arm) && sl_overrun_words(scene, arm, text, sizeof text)) {
            sl_document_row(document, _("LABEL"), "%s", text);
        }
    }
    if (!person) { /* a person's stands in the form, or is missing there */
        say_unlabelled(document, scene, only);
    }
}

void sl_say_note(sl_document *document, const sl_scene *scene)
{
    char text[640];
    sl_example_note(scene, text, sizeof text);
    sl_document_row(document, _("note"), "%s", text);
}

void sl_say_partial(sl_document *document, long members, long asked_for)
{
    sl_document_row(document, _("PARTIAL"),
                    _("stopped after %ld of %ld model runs; what follows is partial."), members, asked_for);
}
