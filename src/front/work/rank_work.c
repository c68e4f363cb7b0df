/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See rank_work.h.
 */
#include "front/work/rank_work.h"

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/language.h"
#include "front/options.h"
#include "front/places.h"
#include "front/settings.h"
#include "front/times.h"
#include "front/work/ensemble.h"
#include "slowlift/scene.h"

static const char program[] = "slowlift rank";
static const long LEAST_MEMBERS = 100, MOST_MEMBERS = 1000000;

static const struct option options[] = {{"at", required_argument, NULL, 'a'},
                                        {"share", required_argument, NULL, 's'},
                                        {"zone", required_argument, NULL, 'z'},
                                        {"surprise", required_argument, NULL, 'u'},
                                        {"members", required_argument, NULL, 'n'},
                                        {"seed", required_argument, NULL, 'd'},
                                        {"threads", required_argument, NULL, 't'},
                                        {"science", no_argument, NULL, 'i'},
                                        {"csv", no_argument, NULL, 'c'},
                                        {"json", no_argument, NULL, 'j'},
                                        {"output", required_argument, NULL, 'o'},
                                        {"picture", required_argument, NULL, 'p'},
                                        {"models", required_argument, NULL, 'm'},
                                        {"help", no_argument, NULL, 'h'},
                                        {NULL, 0, NULL, 0}};

static bool read_minute(double *minute, const char *text, sl_error *error)
{
    sl_times times = {.min = NULL};
    const bool reads = sl_times_read(&times, text, error);
    const bool one = reads && times.n == 1 && times.min[0] > 0.0;
    *minute = one ? times.min[0] : *minute;
    sl_times_free(&times);
    return one || (reads && sl_fail(error, SL_ERR_USAGE, "arms are ranked at one moment on the hair",
                                    "write one time above zero, such as --at 20min"));
}

static bool read_words(sl_rank_work *work, int option, char **argv, sl_error *error)
{
    switch (option) {
    case 'z':
        work->zone_word = optarg;
        return true;
    case 'u':
        work->surprise = optarg;
        return true;
    case 'i':
        work->science = true;
        return true;
    default:
        return sl_result_option(&work->result, option) ||
               sl_option_refused(program, option, argv, options, error);
    }
}

static bool read_option(sl_rank_work *work, int option, char **argv, sl_error *error)
{
    long whole = 0;
    switch (option) {
    case 'a':
        return read_minute(&work->request.minute, optarg, error);
    case 's':
        return sl_share_read(optarg, &work->request.share, error);
    case 'n':
        return sl_digits_read("members", optarg, LEAST_MEMBERS, MOST_MEMBERS, &work->request.members, error);
    case 't':
        if (!sl_digits_read("threads", optarg, 1, 256, &whole, error)) {
            return false;
        }
        work->request.threads = (int)whole;
        return true;
    case 'd':
        if (!sl_digits_read("seed", optarg, 0, 2147483647, &whole, error)) {
            return false;
        }
        work->request.seed = (uint64_t)whole;
        return true;
    default:
        return read_words(work, option, argv, error);
    }
}

bool sl_rank_work_read(sl_rank_work *work, int argc, char **argv, sl_error *error)
{
    work->request = (sl_rank_request){.minute = 20.0,
                                      .share = 0.5,
                                      .members = SL_MEMBERS,
                                      .seed = SL_SEED,
                                      .threads = sl_processors(),
                                      .zone = -1,
                                      .one = -1,
                                      .other = -1};
    int option = 0;
    opterr = 0;
    while ((option = sl_option_next(argc, argv, ":o:", options)) != -1) {
        if (!read_option(work, option, argv, error)) {
            return false;
        }
    }
    if (!sl_result_settle(&work->result, error)) {
        return false;
    }
    if (!sl_picture_settle(&work->result, error)) {
        return false;
    }
    return sl_one_file(program, argc, argv, &work->file, error);
}

/* ---- what it means for this scene ---------------------------------------------------------- */

static const char *after(const char *text, const char *lead)
{
    const size_t length = strlen(lead);
    return strncmp(text, lead, length) == 0 ? text + length : NULL;
}

/* What follows an arm, by its name or its title, and the word behind it. */
static const char *after_arm(const char *text, const sl_arm *arm, const char *word)
{
    const char *const names[] = {arm->name, sl_arm_title(arm)};
    const char *rest = NULL;
    for (int i = 0; i < 2 && !rest; i++) {
        rest = after(text, names[i]);
        rest = rest ? after(rest, word) : NULL;
    }
    return rest;
}

/* "ARM beats ARM in ZONE". Names may hold the words themselves, so every split is tried. */
static bool read_surprise(sl_rank_work *work, sl_error *error)
{
    const sl_scene *const scene = work->scene;
    for (int one = 0; work->surprise && one < scene->n_arms; one++) {
        const char *const rest = after_arm(work->surprise, &scene->arms[one], " beats ");
        for (int other = 0; rest && other < scene->n_arms; other++) {
            const char *const zone_word = after_arm(rest, &scene->arms[other], " in ");
            const int zone = zone_word && one != other ? sl_scene_zone_typed(scene, zone_word) : -1;
            if (zone >= 0) {
                work->request.zone = zone;
                work->request.one = one;
                work->request.other = other;
                return true;
            }
        }
    }
    return !work->surprise ||
           sl_fail(error, SL_ERR_USAGE, "--surprise is not understood",
                   "write \"ARM beats ARM in ZONE\" with two arms and a zone as the scene names them");
}

bool sl_rank_work_compute(sl_rank_work *work, sl_error *error)
{
    sl_places places;
    work->scene = sl_places_load(&places, work->result.models, work->file, error);
    if (!work->scene || !sl_zone_find(work->scene, work->zone_word, true, &work->zone, error)) {
        return false;
    }
    for (int arm = 0; arm < work->scene->n_arms; arm++) {
        if (work->scene->arms[arm].contact_min + work->request.minute > work->scene->until_min) {
            return sl_fail(error, SL_ERR_USAGE, "--at lies after the end of the scene for some arm",
                           "give an earlier time, or a scene that is followed for longer");
        }
    }
    if (!read_surprise(work, error)) {
        return false;
    }
    work->solver = sl_solver_new(error);
    return work->solver &&
           sl_timeline_solve(&work->timeline, work->scene, NULL, 0, work->solver, NULL, error) &&
           sl_timeline_rinse(work->timeline, work->solver, error) &&
           sl_ensemble_rank(&work->rank, work->scene, work->request, error);
}

void sl_rank_work_free(sl_rank_work *work)
{
    sl_rank_free(work->rank);
    sl_timeline_free(work->timeline);
    sl_solver_free(work->solver);
    sl_scene_free(work->scene);
}
