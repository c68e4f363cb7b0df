/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * `slowlift limits`: when to look, when to stop, and how sure the model is. Invariant: no minute
 * for a person unless an answer holds one (answer.h).
 */
#include <stdlib.h>
#include <string.h>
#include <strings.h>
#include <unistd.h>

#include "base/language.h"
#include "base/memory.h"
#include "command/command.h"
#include "command/limits_asked.h"
#include "command/seen.h"
#include "front/places.h"
#include "front/settings.h"
#include "front/tell.h"
#include "front/work/ensemble.h"
#include "front/work/parts.h"
#include "report/limits/limits.h"
#include "slowlift/strand_log.h"

/* What it takes to answer; freed in one place. */
typedef struct sl_work {
    sl_scene *scene;
    sl_solver *solver;
    sl_optics *optics;
    sl_timeline *timeline;
    sl_spread *spread;
    sl_intake intake;
    sl_person person; /* whose form is `intake` */
    sl_observations observations;
    int arm; /* -1: every arm */
    sl_answers answers;
} sl_work;

/* ---- what it means for this scene ----------------------------------------------------------------- */

/* --arm, or -1. */
static bool find_arm(sl_work *work, const sl_limits_asked *asked, sl_error *error)
{
    work->arm = -1;
    return !asked->arm || sl_arm_find(work->scene, asked->arm, &work->arm, error);
}

/* Whose bowl it is: --arm, or the only arm with a mix; -1 when that is not clear. */
static int arm_of_bowl(const sl_work *work)
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

static bool read_observations(sl_work *work, const sl_limits_asked *asked, sl_error *error)
{
    const int arm = arm_of_bowl(work);
    if (asked->saw.n > 0 && arm < 0) {
        return sl_fail(error, SL_ERR_USAGE, "something was seen, and the scene has more than one mix",
                       "say of which arm: --arm NAME");
    }
    for (int i = 0; i < asked->saw.n; i++) {
        if (!sl_observation_read(asked->saw.words[i], work->scene, arm, false, &work->observations, error)) {
            return false;
        }
    }
    return true;
}

/* The form, and what the strand showed beside what the cotton did. */
static bool read_person(sl_work *work, const sl_limits_asked *asked, sl_error *error)
{
    if (!asked->person) {
        return true;
    }
    if (strcmp(asked->person, "ask") == 0) {
        if (arm_of_bowl(work) < 0) {
            return sl_fail(error, SL_ERR_USAGE, "the strand was tried with one mix, and the scene has more",
                           "say with which arm's: --arm NAME");
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

static bool any_asked(const sl_work *work)
{
    for (int i = 0; i < work->scene->n_arms; i++) {
        if (sl_limits_can_be_asked(work->scene, i)) {
            return true;
        }
    }
    return false;
}

/* ---- computing --------------------------------------------------------------------------------------- */

static bool central_limits(sl_work *work, sl_error *error)
{
    const double end[] = {work->scene->until_min};
    work->solver = sl_solver_new(error);
    work->optics = work->solver ? sl_optics_new(work->scene, error) : NULL;
    if (!work->optics ||
        !sl_timeline_solve(&work->timeline, work->scene, end, 1, work->solver, work->optics, error) ||
        !sl_limits_prepare(work->timeline, work->solver, error)) {
        return false;
    }
    return any_asked(work) || sl_fail(error, SL_ERR_USAGE, "no arm of this scene has both a mix and a goal",
                                      "limits are told of an arm with a mix, and of zones with direct dye");
}

/* What the command line says instead of the files. */
static void settle_scene(sl_scene *scene, const sl_limits_asked *asked)
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

static bool count(sl_work *work, const sl_limits_asked *asked, sl_error *error)
{
    const sl_member_range whole = {0, asked->draws.members};
    const sl_member_range range =
        asked->part.part > 0 ? sl_part_range(asked->draws.members, (int)asked->part.part, (int)asked->part.of)
                             : whole;
    const sl_spread_request request = {.first_member = range.first,
                                       .members = range.members,
                                       .seed = asked->draws.seed,
                                       .threads = asked->draws.threads,
                                       .observations = &work->observations};
    return sl_ensemble_run(&work->spread, work->scene, request, error);
}

static bool compute(sl_work *work, const sl_limits_asked *asked, sl_error *error)
{
    sl_places places;
    work->scene = sl_places_load(&places, asked->result.models, asked->file, error);
    if (!work->scene) {
        return false;
    }
    settle_scene(work->scene, asked);
    if (!find_arm(work, asked, error) || !central_limits(work, error) ||
        !read_observations(work, asked, error) || !read_person(work, asked, error) ||
        !(asked->merge ? parts_merge(&work->spread, work->scene, asked->parts, asked->n_parts, error)
                       : count(work, asked, error))) {
        return false;
    }
    sl_answers_of(&work->answers, work->timeline, work->spread, asked->person ? &work->person : NULL,
                  work->optics);
    return true;
}

static void free_work(sl_work *work)
{
    sl_spread_free(work->spread);
    sl_timeline_free(work->timeline);
    sl_optics_free(work->optics);
    sl_solver_free(work->solver);
    sl_scene_free(work->scene);
}

/* ---- writing ------------------------------------------------------------------------------------------- */

/* Ranges that no part holds: the answer is whole in itself, and counts fewer members than it could. */
static void note_gaps(const sl_spread *spread) /* NULL: nothing was merged */
{
    for (int i = 0; spread && i < spread->n_ranges; i++) {
        const sl_member_range *const before = i > 0 ? &spread->range[i - 1] : NULL;
        const long from = before ? before->first + before->members : 0;
        if (spread->range[i].first > from) {
            fprintf(stderr, _("slowlift: note: members %ld to %ld are in none of these parts\n"), from,
                    spread->range[i].first - 1);
        }
    }
}

static sl_exit write_part(const sl_work *work, const sl_limits_asked *asked)
{
    sl_error error = {.code = SL_OK};
    if (work->spread->stopped) {
        fputs(_("slowlift: stopped; a part is whole or not written\n"), stderr);
        return SL_EXIT_PARTIAL;
    }
    return part_save(asked->result.output, work->spread, work->scene, &error) ? SL_EXIT_OK
                                                                              : sl_complain(&error);
}

static sl_exit write_answer(const sl_work *work, const sl_limits_asked *asked)
{
    const sl_error none = {.code = SL_OK};
    const sl_limits_page page = {.answers = &work->answers, .only = work->arm, .science = asked->science};
    return sl_tell(true, &none, &(sl_teller){sl_limits_say, &sl_limits_export, NULL}, &page, &asked->result);
}

sl_exit sl_command_limits(int argc, char **argv)
{
    sl_error error = {.code = SL_OK};
    sl_limits_asked asked = {.draws = sl_draws_usual()};
    sl_exit code = SL_EXIT_OK;
    sl_work *const work = sl_new(1, sizeof *work, "answering", &error); /* too large for a stack */
    if (work && sl_limits_asked_read(&asked, argc, argv, &error) && compute(work, &asked, &error)) {
        note_gaps(asked.merge ? work->spread : NULL);
        code = asked.part.part > 0 ? write_part(work, &asked) : write_answer(work, &asked);
        if (asked.part.part == 0 && work->spread->stopped) {
            code = sl_partial_said(work->spread->members, work->spread->asked_for, code);
        }
    } else {
        code = sl_complain(&error);
    }
    if (work) {
        free_work(work);
        sl_free(work);
    }
    return code;
}
