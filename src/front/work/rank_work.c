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
#include "front/places.h"
#include "front/settings.h"
#include "front/spread_from.h"
#include "front/times.h"
#include "front/work/ensemble.h"
#include "slowlift/scene.h"

static const long LEAST_MEMBERS = 100;

static bool read_minute(const sl_option *option, const char *text, void *minute, sl_error *error)
{
    sl_times times = {.min = NULL};
    const bool reads = sl_times_read(&times, option, text, error);
    const bool one = reads && times.n == 1 && times.min[0] > 0.0;
    *(double *)minute = one ? times.min[0] : *(double *)minute;
    sl_times_free(&times);
    return one || (reads && sl_fail(error, SL_ERR_USAGE, "strips are ranked at one moment on the hair",
                                    "write one time above zero, such as --at 20min"));
}

static const sl_option options[] = {
    SL_OPTION(sl_rank_work, request.minute, read_minute, .name = "at", .value = N_("TIME"),
              .help = N_("time on hair (20min)")),
    SL_OPTION(sl_rank_work, request.share, sl_option_share, .name = "share", .value = N_("SHARE"),
              .help = N_("the same colour left (50%)")),
    SL_OPTION(sl_rank_work, zone_word, sl_option_text, .name = "zone", .value = N_("NAME"),
              .help = N_("this zone alone")),
    SL_OPTION(sl_rank_work, surprise, sl_option_text, .name = "surprise",
              .value = N_("\"STRIP beats STRIP in ZONE\""),
              .help = N_("in how many tests that is seen, and what decides it")),
    SL_OPTION(sl_rank_work, swatches, sl_option_count, .name = "swatches", .value = "N", .least = 1,
              .most = SL_SEEING_SWATCHES,
              .help = N_("with --surprise: swatches of each of the two strips (1)")),
    SL_OPTION(sl_rank_work, by_instrument, sl_option_flag, .name = "instrument",
              .help = N_("with --surprise: read by an instrument, not graded")),
    SL_OPTION(sl_rank_work, spread, sl_option_share, .name = "spread", .value = N_("SHARE"),
              .help = N_("with --surprise: how far swatches of one strip scatter (5%, assumed)")),
    SL_SPREAD_FROM(sl_rank_work),
    SL_OPTION(sl_rank_work, science, sl_option_flag, .name = "science",
              .help = N_("indices behind what decides a surprise")),
};
const sl_command_line sl_rank_typed = {
    .name = "rank",
    .line = N_("which strip does best in which colour"),
    .usage = {N_("[OPTIONS] FILE")},
    .about = N_("Which strip does best in which colour: for each zone the strips at the same time on hair "
                "and at the same colour left, even where nine in ten model runs do not agree; speed, end "
                "point and colour : base apart; why the first comes first; and the strips that no other "
                "beats in colour left and hair stress together. Swatches on a bench only.\n"
                "\n"
                "Ctrl-C stops the count; what was counted is printed, said to be partial, and exit is 4."),
    .set = {SL_OPTION_SET_OWN(options), SL_OPTION_SET(sl_draw_options, sl_draws, sl_rank_work, draws),
            SL_DRAWN_RESULT_SETS(sl_rank_work)},
    .words = SL_TYPED_WORDS(sl_rank_work, file, 1, 1),
    .example =
        {{N_("which one gets the violet out, and at what price?"),
          {"slowlift rank eight-arms --zone violet"}},
         {N_("students saw water beat 3 % in the blue. How odd is that?"),
          {"slowlift rank eight-arms --zone blue --surprise \"powder + water beats powder + 3 % in blue\""}}},
    .wants = {SL_WANTS_SCENE},
};

bool sl_rank_work_read(sl_rank_work *work, int argc, char **argv, sl_error *error)
{
    const sl_draws *const draws = &work->draws;
    work->draws = sl_draws_usual();
    work->request = (sl_rank_request){
        .minute = 20.0,
        .share = 0.5,
    };
    work->spread = -1.0;
    if (!sl_options_read(&sl_rank_typed, argc, argv, work, error)) {
        return false;
    }
    if (!work->surprise &&
        (work->swatches > 0 || work->by_instrument || work->spread >= 0.0 || work->spread_from)) {
        return sl_fail(error, SL_ERR_USAGE, "how swatches are looked at, and no --surprise",
                       "write --surprise \"STRIP beats STRIP in ZONE\" as well");
    }
    if (!sl_spread_check(work->spread, work->spread_from, error)) {
        return false;
    }
    work->swatches = work->swatches > 0 ? work->swatches : 1;
    work->request.members = draws->members;
    work->request.seed = draws->seed;
    work->request.threads = draws->threads;
    return draws->members >= LEAST_MEMBERS ||
           sl_fail(error, SL_ERR_USAGE, "too few model runs to rank by", "write --members 100, or more");
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
static bool read_surprise(const sl_rank_work *work, sl_surprise_request *asked, sl_error *error)
{
    const sl_scene *const scene = work->scene;
    for (int one = 0; one < scene->n_arms; one++) {
        const char *const rest = after_arm(work->surprise, &scene->arms[one], " beats ");
        for (int other = 0; rest && other < scene->n_arms; other++) {
            const char *const zone_word = after_arm(rest, &scene->arms[other], " in ");
            const int zone = zone_word && one != other ? sl_scene_zone_typed(scene, zone_word) : -1;
            if (zone >= 0) {
                asked->zone = zone;
                asked->one = one;
                asked->other = other;
                return true;
            }
        }
    }
    return sl_fail(error, SL_ERR_USAGE, "--surprise is not understood",
                   "write \"STRIP beats STRIP in ZONE\" with two strips and a zone as the scene names them");
}

static bool settle_surprise(sl_rank_work *work, sl_surprise_request *asked, sl_error *error)
{
    *asked = (sl_surprise_request){.minute = {work->request.minute, work->request.minute},
                                   .seeing = sl_seeing_usual(work->swatches, work->by_instrument),
                                   .members = work->request.members,
                                   .seed = work->request.seed,
                                   .threads = work->request.threads};
    if (work->spread >= 0.0) {
        asked->seeing.scatter[0] = work->spread;
    } else if (work->spread_from) {
        if (!sl_scatter_from(&work->scatter, work->spread_from, error)) {
            return false;
        }
        sl_seeing_by(&asked->seeing, &work->scatter);
    }
    return read_surprise(work, asked, error);
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
            return sl_fail(error, SL_ERR_USAGE, "--at lies after the end of the scene for some strip",
                           "give an earlier time, or a scene that is followed for longer");
        }
    }
    sl_surprise_request asked = {.members = 0};
    if (work->surprise && !settle_surprise(work, &asked, error)) {
        return false;
    }
    work->solver = sl_solver_new(error);
    return work->solver &&
           sl_timeline_solve(&work->timeline, work->scene, NULL, 0, work->solver, NULL, error) &&
           sl_timeline_rinse(work->timeline, work->solver, error) &&
           sl_ensemble_rank(&work->rank, work->scene, work->request, error) &&
           (asked.members = work->rank->members) > 0 &&
           (!work->surprise || sl_ensemble_surprise(&work->asked, work->scene, asked, error));
}

void sl_rank_work_free(sl_rank_work *work)
{
    sl_surprise_free(work->asked);
    sl_rank_free(work->rank);
    sl_timeline_free(work->timeline);
    sl_solver_free(work->solver);
    sl_scene_free(work->scene);
}
