/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The cost of a use, and what old powder does to it. Arithmetic alone; the time that old powder
 * needs comes from the model. Invariant: a tub's price is spread over real uses, never over the
 * grams that it once held.
 */
#include "slowlift/cost.h"

#include <math.h>
#include <string.h>

static void packets(const sl_prices *prices, const sl_use *use, sl_cost *cost)
{
    cost->has_packets = prices->packet_g > 0.0 && use->powder_g > 0.0;
    if (cost->has_packets) {
        const double opened = ceil(use->powder_g / prices->packet_g - 1e-9);
        cost->packets = (int)fmin(opened, 1e6);
        cost->packets_cost = opened * prices->packet_price;
    }
}

/* Uses until the tub is empty or, by the calendar, too old; at least one: a tub is opened for a use. */
static void tub(const sl_prices *prices, const sl_use *use, sl_cost *cost)
{
    const double until_empty = floor(prices->tub_g / use->powder_g + 1e-9);
    cost->has_tub = prices->tub_g > 0.0 && use->powder_g > 0.0 && until_empty >= 1.0;
    if (!cost->has_tub) {
        return;
    }
    const double until_old =
        prices->tub_weeks > 0.0 ? floor(use->per_week * prices->tub_weeks + 1e-9) : until_empty;
    const double uses = fmax(1.0, fmin(until_empty, until_old));
    cost->tub_uses = (int)fmin(uses, 1e6);
    cost->tub_left_g = fmax(0.0, prices->tub_g - uses * use->powder_g);
    cost->tub_cost = prices->tub_price / uses;
    if (cost->has_packets && cost->packets_cost > 0.0) {
        const double even = ceil(prices->tub_price / cost->packets_cost - 1e-9);
        cost->break_even = even <= until_empty ? (int)fmax(1.0, even) : 0;
    }
}

const char *sl_prices_title(const sl_prices *prices, sl_language_id language)
{
    sl_wording title = {{NULL}};
    for (int i = 0; i < SL_LANGUAGES; i++) {
        title.in[i] = prices->title[i][0] != '\0' ? prices->title[i] : NULL;
    }
    return sl_wording_in(&title, language);
}

sl_cost sl_cost_of(const sl_prices *prices, const sl_use *use)
{
    sl_cost cost = {.other_cost = prices->other_price * (use->times > 0 ? use->times : 1)};
    packets(prices, use, &cost);
    tub(prices, use, &cost);
    cost.developer_cost =
        prices->developer_g > 0.0 ? use->developer_g * prices->developer_price / prices->developer_g : 0.0;
    cost.with_packets = cost.packets_cost + cost.developer_cost + cost.other_cost;
    cost.with_tub = cost.tub_cost + cost.developer_cost + cost.other_cost;
    return cost;
}

/* ---- by product ------------------------------------------------------------------------------------ */

const sl_product *sl_product_of(const sl_prices *prices, const char *mix, bool liquid)
{
    for (int i = 0; i < prices->n_products; i++) {
        const sl_product *const product = &prices->products[i];
        for (int k = 0; k < product->n_mixes && product->liquid == liquid; k++) {
            if (strcmp(product->mix[k], mix) == 0) {
                return product;
            }
        }
    }
    return NULL;
}

static double packets_of(const sl_product *product, double grams)
{
    return ceil(fmax(grams, 0.0) / product->holds_g - 1e-9);
}

double sl_product_cost(const sl_product *product, double grams)
{
    return product->price * (product->once ? packets_of(product, grams) : grams / product->holds_g);
}

sl_purchase sl_purchase_of(const sl_product *product, double grams)
{
    const double open_g = product->once ? 0.0 : product->open_g;
    const int opened = (int)fmin(packets_of(product, grams - open_g), 1e6);
    const int bought = opened > product->have ? opened - product->have : 0;
    return (sl_purchase){.opened = opened,
                         .bought = bought,
                         .left_g = open_g + opened * product->holds_g - grams,
                         .cost = sl_product_cost(product, grams),
                         .bought_cost = bought * product->price};
}

/* ---- freshness ------------------------------------------------------------------------------------- */

static const double LONGEST = 6.0; /* times the fresh powder's time */

/* The arm alone, its first application lying `dwell_min`, its powder at `activity`. */
typedef struct sl_stale {
    sl_scene scene;
    sl_arm arm;
    sl_mix mix;
} sl_stale;

static bool stale_make(sl_stale *stale, const sl_scene *scene, int arm, double activity)
{
    stale->scene = *scene;
    stale->arm = scene->arms[arm];
    if (stale->arm.n_steps == 0 || stale->arm.steps[0].kind != SL_STEP_APPLY || stale->arm.undyed) {
        return false;
    }
    sl_step *const step = &stale->arm.steps[0];
    stale->mix = scene->mixes[step->mix];
    stale->mix.activity *= activity;
    step->mix = 0;
    step->duration_min *= LONGEST;
    stale->arm.n_steps = 1;
    stale->arm.contact_min = 0.0;
    stale->scene.arms = &stale->arm;
    stale->scene.n_arms = 1;
    stale->scene.mixes = &stale->mix;
    stale->scene.n_mixes = 1;
    stale->scene.until_min = step->duration_min;
    return stale->mix.powder_parts > 0.0;
}

/* Colour left only falls while a mix lies there, so halving finds the moment. */
static double moment_of(const sl_timeline *timeline, int zone, double left, double until_min)
{
    double before = 0.0, after = until_min;
    while (after - before > 1.0 / 60.0) {
        const double middle = 0.5 * (before + after);
        if (sl_left_at(timeline, 0, zone, middle) > left) {
            before = middle;
        } else {
            after = middle;
        }
    }
    return after;
}

bool sl_freshness_of(const sl_scene *scene, int arm, int zone, double activity, sl_solver *solver,
                     sl_freshness *freshness, sl_error *error)
{
    sl_stale fresh, stale;
    sl_timeline *timeline = NULL;
    *freshness = (sl_freshness){.known = false};
    if (!stale_make(&fresh, scene, arm, 1.0) || !stale_make(&stale, scene, arm, activity)) {
        return true;
    }
    const double dwell_min = scene->arms[arm].steps[0].duration_min;
    bool good = sl_timeline_solve(&timeline, &fresh.scene, NULL, 0, solver, NULL, error);
    if (good && sl_timeline_predicted(timeline, 0)) {
        freshness->fresh_left = sl_left_at(timeline, 0, zone, dwell_min);
        freshness->known = freshness->fresh_left >= 0.0;
    }
    good = good && sl_timeline_solve(&timeline, &stale.scene, NULL, 0, solver, NULL, error);
    if (good && freshness->known) {
        const double until = stale.scene.until_min;
        freshness->stale_left = sl_left_at(timeline, 0, zone, dwell_min);
        freshness->reached = sl_left_at(timeline, 0, zone, until) <= freshness->fresh_left;
        freshness->times = freshness->reached && activity < 1.0
                               ? moment_of(timeline, zone, freshness->fresh_left, until) / dwell_min
                               : 1.0;
    }
    sl_timeline_free(timeline);
    return good;
}
