/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See answers_work.h.
 */
#include "front/work/answers_work.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/language.h"
#include "base/minute.h"
#include "front/places.h"
#include "front/settings.h"
#include "front/times.h"
#include "front/work/seen_read.h"
#include "scene/yaml/quantity.h"
#include "slowlift/scene.h"
#include "slowlift/strand_log.h"

/* ---- what may be typed ------------------------------------------------------------------------------- */

static bool read_label(const sl_option *option, const char *text, void *minutes, sl_error *error)
{
    char wanted[SL_ERROR_TEXT_SIZE], most[32];
    double value = 0.0;
    const char *rest = sl_decimal_read(text, &value);
    rest = rest ? rest + strspn(rest, " ") : "?";
    if (strcmp(rest, "min") == 0 && value >= SL_LABEL_LEAST_MIN && value <= SL_LABEL_MOST_MIN) {
        *(double *)minutes = value;
        return true;
    }
    sl_minute_words(SL_MINUTE_PLANNED, most, sizeof most, "%dmin", SL_LABEL_MOST_MIN);
    snprintf(wanted, sizeof wanted, _("write the longest time on the label, such as 30min, at most %s"),
             most);
    return sl_value_refused(option, text, wanted, error);
}

static bool add_saw(const sl_option *option, const char *text, void *place, sl_error *error)
{
    sl_saw *const saw = place;
    (void)option;
    if (saw->n >= SL_MOST_OBSERVATIONS) {
        return sl_fail(error, SL_ERR_USAGE, "more --saw than are read", "32 at most");
    }
    saw->words[saw->n++] = text;
    return true;
}

const sl_option sl_answers_options[5] = {
    SL_OPTION(sl_answers_asked, saw, add_saw, .name = "saw", .value = N_("\"MINUTE GRADE [ZONE]\""),
              .help = N_("what the cotton showed at the bowl, as often as you look; no change, slight, about "
                         "half, mostly gone, ghost only, as undyed")),
    SL_OPTION(sl_answers_asked, person, sl_option_text, .name = "person", .value = N_("FILE"),
              .help = N_("a form about a person (kind: intake), or the word ask: asked here"),
              .wants = SL_WANTS_FILE),
    SL_OPTION(sl_answers_asked, strand, sl_option_text, .name = "strand", .value = N_("LOG[:TEST[:SWATCH]]"),
              .help = N_("the strand of that person's hair, as a log keeps it; no minute later than it was "
                         "watched (slowlift log strand)")),
    SL_OPTION(sl_answers_asked, goal, sl_option_share, .name = "goal", .value = N_("SHARE"),
              .help = N_("colour left to wait for, such as 25%, instead of the scene's")),
    SL_OPTION(sl_answers_asked, label_min, read_label, .name = "label", .value = N_("TIME"),
              .help = N_("the label's longest time, counted from mixing, such as 30min")),
};

bool sl_answers_settle(const sl_answers_asked *asked, sl_error *error)
{
    return !asked->strand || asked->person ||
           sl_fail(error, SL_ERR_USAGE, "--strand without the person whose hair it is",
                   "add --person FILE, or --person ask");
}

/* ---- what it means for this scene ----------------------------------------------------------------- */

/* By its name, or else by its number; -1: every arm. */
static bool find_arm(sl_answers_work *work, const sl_answers_asked *asked, sl_error *error)
{
    char *end = NULL;
    const long number = asked->arm ? strtol(asked->arm, &end, 10) : 0;
    work->arm = -1;
    if (asked->arm && sl_scene_arm_typed(work->scene, asked->arm) < 0 && end[0] == '\0' && number >= 1 &&
        number <= work->scene->n_arms) {
        work->arm = (int)number - 1;
        return true;
    }
    return !asked->arm || sl_arm_find(work->scene, asked->arm, &work->arm, error);
}

/* Whose bowl it is: the arm that was named, or the only arm with a mix; -1 when that is not clear. */
static int arm_of_bowl(const sl_answers_work *work)
{
    int found = -1;
    for (int i = 0; i < work->scene->n_arms && work->arm < 0; i++) {
        if (sl_arm_application(&work->scene->arms[i])) {
            if (found >= 0) {
                return -1;
            }
            found = i;
        }
    }
    return work->arm >= 0 ? work->arm : found;
}

static bool refuse_many(const sl_answers_asked *asked, const char *found, sl_error *error)
{
    char wanted[SL_ERROR_TEXT_SIZE];
    snprintf(wanted, sizeof wanted, _("say of which strip: --%s NAME"), asked->arm_option);
    return sl_fail(error, SL_ERR_USAGE, found, wanted);
}

static bool read_observations(sl_answers_work *work, const sl_answers_asked *asked, sl_error *error)
{
    const int arm = arm_of_bowl(work);
    if (asked->saw.n > 0 && arm < 0) {
        return refuse_many(asked, N_("something was seen, and the scene has more than one mix"), error);
    }
    for (int i = 0; i < asked->saw.n; i++) {
        if (!sl_observation_read(asked->saw.words[i], work->scene, arm, false, &work->observations, error)) {
            return false;
        }
    }
    return true;
}

/* The form, and what the strand showed beside what the cotton did. */
static bool read_person(sl_answers_work *work, const sl_answers_asked *asked, sl_error *error)
{
    if (!asked->person) {
        return true;
    }
    if (strcmp(asked->person, "ask") == 0) {
        if (arm_of_bowl(work) < 0) {
            return refuse_many(asked, N_("the strand was tried with one mix, and the scene has more"), error);
        }
        sl_intake_ask(stdin, stderr, work->scene, arm_of_bowl(work), &work->intake);
    } else if (!sl_intake_load(asked->person, work->scene, &work->intake, error)) {
        return false;
    }
    const sl_observations *const showed = &work->intake.showed;
    work->person.form = &work->intake;
    for (int i = 0; i < showed->n; i++) {
        work->person.strand[showed->observation[i].arm].worth = SL_STRAND_TYPED;
    }
    if (asked->strand &&
        !sl_strand_of_place(asked->strand, work->scene, &work->intake, &work->person, error)) {
        return false;
    }
    for (int i = 0; i < showed->n; i++) {
        if (work->observations.n >= SL_MOST_OBSERVATIONS) {
            return sl_fail(error, SL_ERR_USAGE, "more was seen than is read",
                           "32 at most, strand and cotton together");
        }
        work->observations.observation[work->observations.n++] = showed->observation[i];
    }
    return showed->n == 0 || sl_observations_check(&work->observations, work->scene, error);
}

bool sl_answers_can_be_asked(const sl_scene *scene)
{
    for (int i = 0; i < scene->n_arms; i++) {
        if (sl_limits_can_be_asked(scene, i)) {
            return true;
        }
    }
    return false;
}

/* ---- computing --------------------------------------------------------------------------------------- */

static bool central_limits(sl_answers_work *work, sl_error *error)
{
    const double end[] = {work->scene->until_min};
    work->solver = sl_solver_new(error);
    work->optics = work->solver ? sl_optics_new(work->scene, error) : NULL;
    if (!work->optics ||
        !sl_timeline_solve(&work->timeline, work->scene, end, 1, work->solver, work->optics, error) ||
        !sl_limits_prepare(work->timeline, work->solver, error)) {
        return false;
    }
    return sl_answers_can_be_asked(work->scene) ||
           sl_fail(error, SL_ERR_USAGE, "no strip of this scene has both a mix and a goal",
                   "limits are told of a strip with a mix, and of zones with direct dye");
}

/* What the command line says instead of the files. */
static void settle_scene(sl_scene *scene, const sl_answers_asked *asked)
{
    if (asked->goal > 0.0) {
        sl_aims_wait_for(scene, asked->goal);
    }
    sl_aims_assume(scene);
    for (int i = 0; i < scene->n_mixes && asked->label_min > 0.0; i++) {
        if (scene->mixes[i].class_ == SL_MIX_WATER) {
            continue;
        }
        scene->mixes[i].label_told_min = asked->label_min;
    }
}

bool sl_answers_prepare(sl_answers_work *work, const sl_answers_asked *asked, const char *models,
                        sl_error *error)
{
    sl_places places;
    work->scene = sl_places_load(&places, models, asked->file, error);
    return work->scene && sl_answers_prepare_scene(work, asked, error);
}

bool sl_answers_prepare_scene(sl_answers_work *work, const sl_answers_asked *asked, sl_error *error)
{
    settle_scene(work->scene, asked);
    return find_arm(work, asked, error) && central_limits(work, error) &&
           read_observations(work, asked, error) && read_person(work, asked, error);
}

bool sl_answers_count(sl_answers_work *work, const sl_draws *draws, sl_member_range range, sl_error *error)
{
    const sl_spread_request request = {.first_member = range.first,
                                       .members = range.members,
                                       .seed = draws->seed,
                                       .threads = draws->threads,
                                       .observations = &work->observations};
    return sl_ensemble_run(&work->spread, work->scene, request, error);
}

void sl_answers_make(sl_answers_work *work, const sl_answers_asked *asked)
{
    sl_answers_of(&work->answers, work->timeline, work->spread, asked->person ? &work->person : NULL,
                  work->optics);
}

void sl_answers_work_free(sl_answers_work *work)
{
    sl_spread_free(work->spread);
    sl_timeline_free(work->timeline);
    sl_optics_free(work->optics);
    sl_solver_free(work->solver);
    sl_scene_free(work->scene);
}
