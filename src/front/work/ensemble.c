/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See ensemble.h.
 */
#include "front/work/ensemble.h"

#include <signal.h>
#include <stdio.h>
#include <unistd.h>

#include "base/language.h"
#include "base/program.h"

/* A signal reaches a program, not a function: the one thing here that lives outside of one. */
static volatile sig_atomic_t stop_asked;

static void ask_to_stop(int signal_number)
{
    (void)signal_number;
    stop_asked = 1;
}

typedef struct watch {
    sl_progress progress;
    struct sigaction before;
} watch;

static bool go_on(void *self, long done, long all)
{
    watch *const w = self;
    if (sl_progress_due(&w->progress)) {
        sl_progress_say(&w->progress, _("slowlift: %3.0f %% of %ld model runs (Ctrl-C stops)"),
                        100.0 * (double)done / (double)all, all);
    }
    return stop_asked == 0;
}

static void begin(watch *w)
{
    struct sigaction ours = {.sa_handler = ask_to_stop};
    *w = (watch){.progress = sl_progress_begin()};
    sigemptyset(&ours.sa_mask);
    stop_asked = 0;
    sigaction(SIGINT, &ours, &w->before);
}

static void end(const watch *w)
{
    sigaction(SIGINT, &w->before, NULL);
    sl_progress_end(&w->progress);
}

bool sl_ensemble_run(sl_spread **spread, const sl_scene *scene, sl_spread_request request, sl_error *error)
{
    watch w;
    begin(&w);
    request.go_on = go_on;
    request.self = &w;
    const bool good = sl_spread_run(spread, scene, &request, error);
    end(&w);
    return good;
}

bool sl_ensemble_rank(sl_rank **rank, const sl_scene *scene, sl_rank_request request, sl_error *error)
{
    watch w;
    begin(&w);
    request.go_on = go_on;
    request.self = &w;
    const bool good = sl_rank_run(rank, scene, &request, error);
    end(&w);
    return good;
}

bool sl_ensemble_rinse(sl_rinse **rinse, const sl_scene *scene, sl_rinse_request request, sl_error *error)
{
    watch w;
    begin(&w);
    request.go_on = go_on;
    request.self = &w;
    const bool good = sl_rinse_run(rinse, scene, &request, error);
    end(&w);
    return good;
}

bool sl_ensemble_surprise(sl_surprise **surprise, const sl_scene *scene, sl_surprise_request request,
                          sl_error *error)
{
    watch w;
    begin(&w);
    request.go_on = go_on;
    request.self = &w;
    const bool good = sl_surprise_run(surprise, scene, &request, error);
    end(&w);
    return good;
}

sl_exit sl_partial_said(long counted, long asked_for, sl_exit code)
{
    fprintf(stderr, _("slowlift: stopped after %ld of %ld model runs; the result is partial\n"), counted,
            asked_for);
    return code == SL_EXIT_OK ? SL_EXIT_PARTIAL : code;
}

enum { MOST_THREADS = 256 };

const sl_option sl_draw_options[3] = {
    SL_OPTION_SAID(sl_draws, members, said, sl_option_whole, .name = "members", .value = "N", .least = 1,
                   .most = 1e8, .help = N_("model runs (2000)")),
    SL_OPTION_SAID(sl_draws, seed, said, sl_option_seed, .name = "seed", .value = "N",
                   .help = N_("of the model runs (1)")),
    SL_OPTION(sl_draws, threads, sl_option_count, .name = "threads", .value = "N", .least = 1,
              .most = MOST_THREADS,
              .help = N_("at once (as many as there are processors); the result is the same")),
};

sl_draws sl_draws_usual(void)
{
    const long n = sysconf(_SC_NPROCESSORS_ONLN);
    return (sl_draws){.members = SL_MEMBERS,
                      .seed = SL_SEED,
                      .threads = n < 1              ? 1
                                 : n > MOST_THREADS ? MOST_THREADS
                                                    : (int)n};
}
