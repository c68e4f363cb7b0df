/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The gate; see leave.h. A comparison with what is no number never opens it.
 */
#include "slowlift/leave.h"

#include <assert.h>
#include <math.h>
#include <string.h>

const char *sl_strand_words(sl_strand_worth worth)
{
#define AS_WORDS(name, words) words,
    static const char *const words[SL_STRAND_WORTHS] = {SL_STRAND_LIST(AS_WORDS)};
#undef AS_WORDS
    assert(worth < SL_STRAND_WORTHS);
    return words[worth];
}

const char *sl_unknown_words(sl_unknown unknown)
{
#define AS_WORDS(name, words) words,
    static const char *const words[SL_UNKNOWNS] = {SL_UNKNOWN_LIST(AS_WORDS)};
#undef AS_WORDS
    assert(unknown < SL_UNKNOWNS);
    return words[unknown];
}

/* ---- the label's time ------------------------------------------------------------------------ */

/* Keep the label that ends sooner. */
static void keep_sooner(sl_label *label, sl_label other, double start_min)
{
    const double age = other.from_contact ? 0.0 : other.mix_age_min;
    other.end_min = start_min + fmax(other.stated_min - age, 0.0);
    if (other.stated_min > 0.0 && other.end_min < label->end_min) {
        *label = other;
    }
}

static void keep_of_mix(sl_label *label, const sl_mix *mix, double mix_age_min, int step, double start_min)
{
    const sl_label file = {.source = SL_LABEL_OF_FILE,
                           .from_contact = mix->label_from_contact,
                           .stated_min = mix->label_max_min,
                           .mix_age_min = mix_age_min,
                           .step = step};
    const sl_label option = {.source = SL_LABEL_OF_OPTION,
                             .stated_min = mix->label_told_min,
                             .mix_age_min = mix_age_min,
                             .step = step};
    keep_sooner(label, file, start_min);
    keep_sooner(label, option, start_min);
}

static sl_label no_label(void)
{
    return (sl_label){.end_min = HUGE_VAL, .source = SL_LABEL_NOT_ENTERED, .step = -1};
}

double sl_label_allowed_min(const sl_mix *mix, double mix_age_min)
{
    sl_label label = no_label();
    keep_of_mix(&label, mix, mix_age_min, 0, 0.0);
    return label.end_min;
}

sl_label sl_label_of(const sl_scene *scene, int arm, const sl_intake *form)
{
    const sl_arm *const here = &scene->arms[arm];
    sl_label label = no_label();
    for (int i = 0; i < here->n_steps; i++) {
        const sl_step *const step = &here->steps[i];
        if (step->kind == SL_STEP_APPLY) {
            const double start = sl_arm_minutes_before(here, i);
            const sl_mix *const mix = &scene->mixes[step->mix];
            const sl_label of_form = {.source = SL_LABEL_OF_FORM,
                                      .stated_min = form ? form->label_min : 0.0,
                                      .mix_age_min = step->mix_age_min,
                                      .step = i};
            keep_of_mix(&label, mix, step->mix_age_min, i, start);
            if (mix->class_ != SL_MIX_WATER) {
                keep_sooner(&label, of_form, start);
            }
        }
    }
    return label;
}

/* The first application that stays on as long as its label allows (longer, when `over`). */
static bool reached(const sl_scene *scene, int arm, bool over, sl_label *label)
{
    const sl_arm *const here = &scene->arms[arm];
    for (int i = 0; i < here->n_steps; i++) {
        const sl_step *const step = &here->steps[i];
        if (step->kind == SL_STEP_APPLY) {
            const double start = sl_arm_minutes_before(here, i);
            const double end = start + step->duration_min;
            *label = no_label();
            keep_of_mix(label, &scene->mixes[step->mix], step->mix_age_min, i, start);
            if (over ? end > label->end_min : end >= label->end_min) {
                return true;
            }
        }
    }
    return false;
}

bool sl_label_stop(const sl_scene *scene, int arm, double *minute)
{
    sl_label label;
    if (!reached(scene, arm, false, &label)) {
        return false;
    }
    *minute = label.end_min;
    return true;
}

bool sl_label_overrun(const sl_scene *scene, int arm, sl_label *label)
{
    return reached(scene, arm, true, label);
}

/* ---- leave -------------------------------------------------------------------------------------- */

/* Goal and both limits of damage stand in the scene, and none is a usual one. */
static bool aims_are_own(const sl_scene *scene)
{
    const sl_aims *const aims = &scene->aims;
    const bool stress = aims->cystine_lost.set || aims->stress_share > 0.0;
    return sl_goal_set(scene) && !aims->left_by_next && !aims->assumed && aims->base_moved.set && stress;
}

static bool lies_there(const sl_scene *scene)
{
    double coldest = 0.0, warmest = 0.0;
    sl_scene_warmth(scene, &coldest, &warmest);
    return scene->place != SL_PLACE_BENCH && coldest >= SL_HEAD_FROM_C;
}

static bool is_heated(const sl_scene *scene)
{
    double coldest = 0.0, warmest = 0.0;
    sl_scene_warmth(scene, &coldest, &warmest);
    return !(warmest <= SL_HEAD_MOST_C);
}

static bool strand_counts(const sl_strand *strand)
{
    return strand->worth == SL_STRAND_COUNTED && strand->looks >= SL_STRAND_LEAST_LOOKS &&
           strand->watched_min > 0.0 && strand->watched_min <= SL_LABEL_MOST_MIN;
}

static void find_lacks_of_person(sl_leave *leave, const sl_scene *scene, const sl_person *person)
{
    leave->lacks[SL_UNKNOWN_PERSON] = !person->form;
    leave->lacks[SL_UNKNOWN_FORM] = person->form && !sl_intake_judge(person->form).minutes;
    leave->lacks[SL_UNKNOWN_PRACTICE] = person->form && person->form->practice;
    leave->lacks[SL_UNKNOWN_SOMEBODY_ELSE] =
        scene->person && person->form && strcmp(scene->person, person->form->person) != 0;
    leave->lacks[SL_UNKNOWN_PLACE] = !lies_there(scene);
    leave->lacks[SL_UNKNOWN_HEAT] = is_heated(scene);
    leave->lacks[SL_UNKNOWN_AIMS] = !aims_are_own(scene);
    leave->lacks[SL_UNKNOWN_STRAND] = leave->strand != SL_STRAND_COUNTED;
}

sl_leave sl_leave_of(const sl_scene *scene, int arm, const sl_person *person)
{
    assert(arm >= 0 && arm < scene->n_arms);
    sl_leave leave = {.at = scene->place,
                      .label = sl_label_of(scene, arm, person ? person->form : NULL),
                      .watched_min = HUGE_VAL};
    if (person) {
        const sl_strand *const strand = &person->strand[arm];
        const bool counts = strand_counts(strand);
        leave.strand = counts || strand->worth != SL_STRAND_COUNTED ? strand->worth : SL_STRAND_FEW_LOOKS;
        leave.watched_min = counts ? strand->watched_min : 0.0;
        find_lacks_of_person(&leave, scene, person);
    } else if (scene->place != SL_PLACE_BENCH) {
        leave.lacks[SL_UNKNOWN_PERSON] = true;
    } else {
        leave.lacks[SL_UNKNOWN_WARM] = !sl_swatches_only(scene, "", NULL);
    }
    for (int why = SL_UNKNOWNS - 1; why > 0; why--) {
        leave.why = leave.lacks[why] ? (sl_unknown)why : leave.why;
    }
    leave.minutes = leave.why == SL_UNKNOWN_NOTHING;
    return leave;
}

double sl_leave_last_min(const sl_leave *leave)
{
    return fmin(leave->label.end_min, leave->watched_min);
}

/* Nothing on the form stops but that there is no strand yet. */
static bool nothing_else_stops(const sl_intake *form)
{
    const sl_intake_result result = sl_intake_judge(form);
    for (int asked = 0; asked < SL_INTAKE_ASKED; asked++) {
        if (result.stopped[asked] && asked != SL_INTAKE_STRAND && asked != SL_INTAKE_SHOWED &&
            asked != SL_INTAKE_SINCE) {
            return false;
        }
    }
    return !result.missing[SL_INTAKE_LABEL];
}

int sl_strand_looks(const sl_leave *leave, const sl_person *person, int look[SL_MOST_STRAND_LOOKS])
{
    int n = 0;
    if (!person || !person->form || !leave->lacks[SL_UNKNOWN_STRAND] || leave->strand == SL_STRAND_HEATED ||
        leave->label.step < 0 || !nothing_else_stops(person->form)) {
        return 0;
    }
    for (int t = SL_STRAND_FIRST_MIN; t <= leave->label.end_min && n < SL_MOST_STRAND_LOOKS;
         t += SL_STRAND_EVERY_MIN) {
        look[n++] = t;
    }
    return n;
}
