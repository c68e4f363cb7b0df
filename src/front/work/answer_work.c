/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See answer_work.h.
 */
#include "front/work/answer_work.h"

#include <math.h>
#include <string.h>

#include "base/language.h"
#include "front/places.h"
#include "front/settings.h"
#include "slowlift/plan.h"
#include "slowlift/scene.h"

static const sl_option options[] = {
    SL_OPTION(sl_answer_work, about.arm, sl_option_text, .name = "strip", .value = N_("NAME"),
              .help = N_("this strip alone, by its name or its number")),
    SL_OPTION(sl_answer_work, zone_word, sl_option_text, .name = "zone", .value = N_("NAME"),
              .help = N_("the colour that one sentence is about (the usual: where the strips differ most)")),
    SL_OPTION(sl_answer_work, same_colour, sl_option_flag, .name = "same-colour",
              .help = N_("each strip as it is when that colour is down to its goal, not at its rinse")),
    SL_OPTION(sl_answer_work, prices_file, sl_option_text, .name = "prices", .value = N_("FILE"),
              .help = N_("what a use of each costs, by this file of prices"), .wants = SL_WANTS_PRICES),
    SL_OPTION(sl_answer_work, science, sl_option_flag, .name = "science",
              .help = N_("ranges of every colour, counts of model runs and their interval")),
};
const sl_command_line sl_answer_typed = {
    .name = "answer",
    .line = N_("which mix, how long, what it costs the hair, how sure"),
    .usage = {N_("[OPTIONS] FILE")},
    .about =
        N_("One page: for each strip how many of 20 model runs are in time, when to look, and by when to "
           "rinse whatever it looks like; at that rinse every colour, the base and the hair; and a "
           "sentence for each question. Where the scene sets no goal a usual one is taken, and said. It "
           "never times a person's hair without a clear form and a strand of that hair."
           "\n\n"
           "Ctrl-C stops the count; what was counted is printed, said to be partial, and exit is 4."),
    .set = {SL_OPTION_SET_OWN(options),
            SL_OPTION_SET(sl_answers_options, sl_answers_asked, sl_answer_work, about),
            SL_OPTION_SET(sl_draw_options, sl_draws, sl_answer_work, draws),
            SL_DRAWN_RESULT_SETS(sl_answer_work)},
    .words = SL_TYPED_WORDS(sl_answer_work, about.file, 1, 1),
    .example = {{N_("which of these eight, and how long may it stay on?"), {"slowlift answer eight-arms"}},
                {N_("what does the blue cost, at the same blue left?"),
                 {"slowlift answer eight-arms --zone blue --same-colour"}}},
    .wants = {SL_WANTS_SCENE},
};

bool sl_answer_work_read(sl_answer_work *work, int argc, char **argv, sl_error *error)
{
    work->draws = sl_draws_usual();
    work->about.arm_option = "strip";
    return sl_options_read(&sl_answer_typed, argc, argv, work, error) &&
           sl_answers_settle(&work->about, error) &&
           (!work->result.csv || sl_fail(error, SL_ERR_USAGE, "--csv of a page with two tables",
                                         "write --json; slowlift limits and rank have CSV"));
}

/* ---- computing ------------------------------------------------------------------------------------ */

static bool run_rinse(sl_rinse **rinse, const sl_answers *answers, int same_zone, int threads,
                      sl_error *error)
{
    sl_rinse_request request = sl_answer_rinse_request(answers, same_zone);
    request.threads = threads;
    return sl_ensemble_rinse(rinse, answers->scene, request, error);
}

bool sl_answer_rinse(sl_rinse **rinse, const sl_answers *answers, int zone, bool same_colour, int threads,
                     sl_error *error)
{
    if (!run_rinse(rinse, answers, -1, threads, error)) {
        return false;
    }
    const int same = zone >= 0 ? zone : sl_answer_telling_zone(answers, *rinse);
    return !same_colour || same < 0 || run_rinse(rinse, answers, same, threads, error);
}

/* Of one use of an arm's mix, on its swatch, by product; where the file names none, out of packets where
 * there are any, else out of a tub. Negative: nothing is mixed, or no product is named for it. */
static double arm_cost(const sl_prices *prices, const sl_plan *plan, int arm)
{
    sl_use use = {.per_week = 2.0};
    double products = 0.0;
    for (int i = 0; i < plan->n_bowls; i++) {
        const sl_bowl *const bowl = &plan->bowls[i];
        const double grams[] = {bowl->shown.powder_g, bowl->shown.developer_g};
        for (int liquid = 0; bowl->arm == arm && liquid < 2; liquid++) {
            const sl_product *const product =
                sl_product_of(prices, plan->scene->mixes[bowl->mix].name, liquid == 1);
            if (grams[liquid] > 0.0 && prices->n_products > 0 && !product) {
                return -1.0;
            }
            products += product ? sl_product_cost(product, grams[liquid]) : 0.0;
            *(liquid == 1 ? &use.developer_g : &use.powder_g) += grams[liquid];
        }
    }
    const sl_cost cost = sl_cost_of(prices, &use);
    return use.powder_g + use.developer_g <= 0.0 ? -1.0
           : prices->n_products > 0              ? products + cost.other_cost
           : cost.has_packets                    ? cost.with_packets
           : cost.has_tub                        ? cost.with_tub
                                                 : cost.developer_cost + cost.other_cost;
}

static bool find_costs(sl_answer_work *work, sl_error *error)
{
    sl_plan_request request = sl_plan_request_default();
    sl_plan *plan = NULL;
    request.people = 2; /* bowls alone are asked about: somebody mixes while another rinses */
    if (!sl_plan_make(&plan, work->work.scene, &request, error)) {
        return false;
    }
    for (int arm = 0; arm < work->work.scene->n_arms; arm++) {
        work->page.cost[arm] = arm_cost(&work->prices, plan, arm);
    }
    sl_plan_free(plan);
    work->page.currency = work->prices.currency;
    return true;
}

static bool load_prices(sl_answer_work *work, sl_error *error)
{
    sl_places places;
    char path[SL_PLACES_PATH];
    return sl_places_find(&places, work->result.models, work->prices_file, error) &&
           sl_places_of(&places, "prices", work->prices_file, path, error) &&
           sl_prices_load(path, &work->prices, error);
}

bool sl_answer_work_compute(sl_answer_work *work, sl_error *error)
{
    sl_places places;
    work->work.scene = sl_places_load(&places, work->result.models, work->about.file, error);
    return work->work.scene && sl_answer_work_page(work, error) &&
           (!work->prices_file || (load_prices(work, error) && find_costs(work, error)));
}

bool sl_answer_work_page(sl_answer_work *work, sl_error *error)
{
    int zone = -1;
    if (!sl_answers_prepare_scene(&work->work, &work->about, error) ||
        !sl_zone_find(work->work.scene, work->zone_word, true, &zone, error) ||
        !sl_answers_count(&work->work, &work->draws, (sl_member_range){0, work->draws.members}, error)) {
        return false;
    }
    sl_answers_make(&work->work, &work->about);
    if (!sl_answer_rinse(&work->rinse, &work->work.answers, zone, work->same_colour, work->draws.threads,
                         error)) {
        return false;
    }
    work->page =
        (sl_answer_page){.answers = &work->work.answers,
                         .rinse = work->rinse,
                         .zone = zone >= 0 ? zone : sl_answer_telling_zone(&work->work.answers, work->rinse),
                         .only = work->work.arm,
                         .zone_asked = zone >= 0,
                         .science = work->science};
    return true;
}

sl_exit sl_answer_work_end(const sl_answer_work *work, sl_exit code)
{
    const long counted = work->page.answers ? sl_answer_partial(&work->page) : -1;
    return counted >= 0 ? sl_partial_said(counted, work->work.spread->asked_for, code) : code;
}

void sl_answer_work_free(sl_answer_work *work)
{
    sl_rinse_free(work->rinse);
    sl_answers_work_free(&work->work);
}
