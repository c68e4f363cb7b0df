/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * `slowlift cost`: one use, a swatch and a class, out of packets and out of a tub; and what old
 * powder does.
 */
#include "slowlift/cost.h"
#include "base/language.h"

#include <locale.h>
#include <string.h>

#include "command/command.h"
#include "front/places.h"
#include "front/tell.h"
#include "report/plan/cost.h"
#include "report/reading.h"
#include "slowlift/plan.h"

typedef struct sl_cost_asked {
    const char *prices, *scene;
    double powder_g, developer_g, per_week;
    int repeats, people;
    bool repeats_given, people_given;
    sl_result_wish result;
} sl_cost_asked;

static const sl_option options[] = {
    SL_OPTION(sl_cost_asked, powder_g, sl_option_grams, .name = "powder", .value = N_("GRAMS"),
              .most = 100000.0, .help = N_("of one use, as weighed, such as 20g")),
    SL_OPTION(sl_cost_asked, developer_g, sl_option_grams, .name = "developer", .value = N_("GRAMS"),
              .most = 100000.0, .help = N_("likewise")),
    SL_OPTION(sl_cost_asked, scene, sl_option_text, .name = "scene", .value = N_("SCENE"),
              .help = N_("the class's comparison and one of its swatches"), .wants = SL_WANTS_SCENE),
    SL_OPTION_SAID(sl_cost_asked, repeats, repeats_given, sl_option_count, .name = "repeats", .value = "N",
                   .least = 1, .most = SL_PLAN_MOST_BLOCKS,
                   .help = N_("swatches of each strip in that comparison (3)")),
    SL_OPTION_SAID(sl_cost_asked, people, people_given, sl_option_count, .name = "people", .value = "N",
                   .least = 1, .most = SL_PLAN_MOST_PEOPLE, .help = N_("pairs of hands, 1 to 8 (1)")),
    SL_OPTION(sl_cost_asked, per_week, sl_option_number, .name = "per-week", .value = "N", .least = 0.01,
              .most = 1000.0, .help = N_("uses of an opened tub in a week (2)")),
};
const sl_command_line sl_cost_typed = {
    .name = "cost",
    .line = N_("what a use costs, and old powder"),
    .usage = {N_("[OPTIONS] PRICES")},
    .about =
        N_("What one use costs out of packets and out of a tub, what is thrown away counted in, from how "
           "many real uses a tub is cheaper, and what powder that has lost strength does."),
    .set = {SL_OPTION_SET_OWN(options), SL_RESULT_SETS(sl_cost_asked)},
    .words = SL_TYPED_WORDS(sl_cost_asked, prices, 1, 1),
    .example = {{N_("one client, and the class."),
                 {"slowlift cost school --powder 20g --developer 40g --scene eight-arms"}}},
    .wants = {SL_WANTS_PRICES},
};

static bool read_asked(sl_cost_asked *asked, int argc, char **argv, sl_error *error)
{
    return sl_options_read(&sl_cost_typed, argc, argv, asked, error) &&
           (asked->powder_g + asked->developer_g > 0.0 || asked->scene ||
            sl_fail(error, SL_ERR_USAGE, "nothing was said of what is used",
                    "write --powder 20g --developer 40g, or --scene SCENE"));
}

static void add_line(sl_cost_page *page, const char *what, sl_use use)
{
    page->line[page->n++] = (sl_cost_line){.what = what, .use = use, .cost = sl_cost_of(page->prices, &use)};
}

/* An equal share of the line before. */
static void add_share(sl_cost_page *page, const char *what, int n)
{
    sl_cost_line line = page->line[page->n - 1];
    double *const amounts[] = {&line.use.powder_g,      &line.use.developer_g,     &line.cost.packets_cost,
                               &line.cost.tub_cost,     &line.cost.developer_cost, &line.cost.other_cost,
                               &line.cost.with_packets, &line.cost.with_tub};
    for (size_t i = 0; i < sizeof amounts / sizeof amounts[0]; i++) {
        *amounts[i] /= (double)n;
    }
    line.what = what;
    line.share = true;
    page->line[page->n++] = line;
}

/* The arm whose powder is aged: the first with powder and a direct zone inside the model. */
static bool find_aged(const sl_scene *scene, int *arm, int *zone)
{
    for (int a = 0; a < scene->n_arms; a++) {
        const sl_arm *const of = &scene->arms[a];
        const bool powder = of->n_steps > 0 && of->steps[0].kind == SL_STEP_APPLY && !of->undyed &&
                            scene->mixes[of->steps[0].mix].powder_parts > 0.0;
        for (int z = 0; powder && z < scene->n_zones; z++) {
            if (sl_zone_direct(scene, z)) {
                *arm = a;
                *zone = z;
                return true;
            }
        }
    }
    return false;
}

static bool age(sl_cost_page *page, const sl_scene *scene, sl_error *error)
{
    static const double activity[] = {0.9, 0.7, 0.5};
    int arm = 0, zone = 0;
    if (!find_aged(scene, &arm, &zone)) {
        return true;
    }
    sl_solver *const solver = sl_solver_new(error);
    bool good = solver != NULL;
    page->arm = arm;
    page->zone = zone;
    for (int i = 0; good && i < 3; i++) {
        page->activity[i] = activity[i];
        good = sl_freshness_of(scene, arm, zone, activity[i], solver, &page->freshness[i], error);
        page->n_ages += good && page->freshness[i].known ? 1 : 0;
    }
    sl_solver_free(solver);
    return good;
}

/* So much more of the product that a mix's powder or liquid is. */
static void add_product(sl_cost_page *page, const sl_mix *mix, bool liquid, double grams)
{
    const sl_product *const product = sl_product_of(page->prices, mix->name, liquid);
    int at = 0;
    if (!product || !(grams > 0.0)) {
        return;
    }
    while (at < page->n_products && page->product[at].product != product) {
        at++;
    }
    page->n_products = at == page->n_products ? at + 1 : page->n_products;
    page->product[at].product = product;
    page->product[at].grams += grams;
}

static void add_products(sl_cost_page *page)
{
    for (int m = 0; m < page->plan->scene->n_mixes; m++) {
        const sl_weighing needs = sl_plan_needs(page->plan, m);
        add_product(page, &page->plan->scene->mixes[m], false, needs.powder_g);
        add_product(page, &page->plan->scene->mixes[m], true, needs.developer_g);
    }
    page->rest_cost = sl_plan_gloves(page->plan) * page->prices->other_price;
    page->all_cost = page->rest_cost;
    for (int i = 0; i < page->n_products; i++) {
        sl_cost_product *const one = &page->product[i];
        one->purchase = sl_purchase_of(one->product, one->grams);
        page->all_cost += one->purchase.cost;
        page->bought_cost += one->purchase.bought_cost;
    }
}

static bool add_scene(sl_cost_page *page, sl_plan **plan, const sl_scene *scene, const sl_cost_asked *asked,
                      sl_error *error)
{
    sl_plan_request request = sl_plan_request_of(scene);
    request.blocks = asked->repeats_given ? asked->repeats : request.blocks;
    request.people = asked->people_given ? asked->people : request.people;
    if (!sl_plan_make(plan, scene, &request, error)) {
        return false;
    }
    page->plan = *plan;
    if (page->prices->n_products > 0) {
        add_products(page);
    } else {
        const sl_weighing needs = sl_plan_needs(*plan, -1);
        add_line(page, N_("the class"),
                 (sl_use){needs.powder_g, needs.developer_g, asked->per_week, sl_plan_gloves(*plan)});
        add_share(page, N_("a swatch of it"), (*plan)->n_swatches);
    }
    return age(page, scene, error);
}

sl_exit sl_command_cost(int argc, char **argv)
{
    sl_error error = {.code = SL_OK};
    sl_cost_asked asked = {.per_week = 2.0};
    sl_prices prices;
    sl_places places;
    char path[SL_PLACES_PATH];
    if (!read_asked(&asked, argc, argv, &error) ||
        !sl_places_find(&places, asked.result.models, asked.prices, &error)) {
        return sl_complain(&error);
    }
    setlocale(LC_MONETARY, "");
    if (!sl_places_of(&places, "prices", asked.prices, path, &error) ||
        !sl_prices_load(path, &prices, &error)) {
        return sl_complain(&error);
    }
    sl_cost_page page = {.prices = &prices};
    sl_plan *plan = NULL;
    sl_places scene_places;
    sl_scene *const scene =
        asked.scene ? sl_places_load(&scene_places, asked.result.models, asked.scene, &error) : NULL;
    bool good = !asked.scene || scene;
    if (good && asked.powder_g + asked.developer_g > 0.0) {
        add_line(&page, N_("one use"), (sl_use){asked.powder_g, asked.developer_g, asked.per_week, 1});
    }
    good = good && (!scene || add_scene(&page, &plan, scene, &asked, &error));
    const sl_exit code = sl_tell(good, &error, &(sl_teller){.say = sl_cost_say, .export = &sl_cost_export},
                                 &page, &asked.result);
    sl_plan_free(plan);
    sl_scene_free(scene);
    return code;
}
