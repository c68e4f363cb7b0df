/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See rounds.h.
 */
#include "log/day/rounds.h"

#include <math.h>

#include "base/language.h"
#include "base/memory.h"
#include "report/plan/day.h"
#include "slowlift/what_if.h"

static int seconds(double minutes)
{
    return (int)lround(60.0 * minutes);
}

bool sl_day_holds(int n_swatches, sl_error *error)
{
    if (n_swatches > SL_BENCH_MOST) {
        return sl_fail(error, SL_ERR_TOO_LARGE, _("this test has too many swatches for one day"), "768");
    }
    return true;
}

static sl_bench_round round_of(const sl_scene *scene, const sl_step *step, int after_s)
{
    const sl_mix *const mix = &scene->mixes[step->mix];
    bool cut_short = false;
    return (sl_bench_round){.after_s = after_s,
                            .dwell_s = sl_planned_dwell_s(mix, step, &cut_short),
                            .label_s = mix->label_max_min > 0.0 ? seconds(mix->label_max_min) : 0,
                            .mix_age_s = seconds(step->mix_age_min),
                            .from_mixing = !mix->label_from_contact};
}

static void fill(const sl_scene *scene, const sl_arm *arm, sl_bench_swatch *bench)
{
    int n = 0, after_s = 0;
    for (int i = 0; i < arm->n_steps; i++) {
        const sl_step *const step = &arm->steps[i];
        if (step->kind != SL_STEP_APPLY) {
            after_s += seconds(sl_step_minutes(step));
            continue;
        }
        const sl_bench_round round = round_of(scene, step, after_s);
        if (n == 0) {
            bench->dwell_s = round.dwell_s;
        } else if (n < SL_BENCH_ROUNDS) {
            bench->more[bench->n_more++] = round;
        }
        n++;
        after_s = 0;
    }
}

void sl_rounds_fill(const sl_scene *scene, sl_log_swatch *swatches, int n)
{
    for (int i = 0; i < n; i++) {
        sl_bench_swatch *const bench = &swatches[i].bench;
        bench->n_more = 0;
        bench->on_person = !scene || sl_scene_on_head(scene);
        bench->leaves_mix = bench->contact_s >= 0;
        if (!scene) {
            continue;
        }
        const int arm = sl_scene_arm(scene, swatches[i].arm);
        const sl_step *const first = sl_day_application(scene, swatches[i].arm, 0);
        bench->leaves_mix = first && scene->mixes[first->mix].class_ != SL_MIX_WATER;
        if (arm >= 0 && !bench->ladder && sl_arm_applications(&scene->arms[arm]) > 1) {
            fill(scene, &scene->arms[arm], bench);
        }
    }
}

bool sl_rounds_fold(const sl_scene *scene, sl_log_swatch *swatches, int n, const sl_event *events,
                    int n_events, sl_bench_swatch **plan, sl_bench **bench, sl_error *error)
{
    static const char doing[] = "folding a test's events";
    *plan = sl_new((size_t)n + 1, sizeof **plan, doing, error);
    *bench = *plan ? sl_new(1, sizeof **bench, doing, error) : NULL;
    if (!*bench) {
        return false;
    }
    sl_rounds_fill(scene, swatches, n);
    for (int i = 0; i < n; i++) {
        (*plan)[i] = swatches[i].bench;
    }
    sl_bench_fold(*bench, *plan, n, events, n_events);
    return true;
}

void sl_rounds_stay_on(sl_scene *scene, double longer_min)
{
    for (int a = 0; a < scene->n_arms; a++) {
        sl_arm *const arm = &scene->arms[a];
        const int last = sl_arm_last_application(arm);
        if (last >= 0) {
            arm->steps[last].duration_min += longer_min;
        }
        scene->until_min = fmax(scene->until_min, sl_arm_done_min(arm));
    }
}
