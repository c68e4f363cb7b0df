/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See members.h. Readings go through the same functions as the solution's own
 * (kinetics.h), with the member's doses and constants.
 */
#include "estimate/members.h"

#include <gsl/gsl_cdf.h>
#include <math.h>

#include "slowlift/kinetics.h"
#include "slowlift/optics.h"

static const double NORMAL_95 = 1.959963984540054; /* 95 of 100 normal draws lie within this */
static const double TIME_TOLERANCE_MIN = 1.0 / 600.0;

/* ---- draws ------------------------------------------------------------------------------- */

static void begin_lane(drawn_members *drawn, int l)
{
    lane_members *const m = &drawn->lanes;
    m->ph_shift[l] = m->warmth_k[l] = 0.0;
    m->peroxide_entry[l] = m->persulfate_entry[l] = m->partition[l] = 1.0;
    m->saturation[l] = m->couple[l] = m->loss[l] = m->opening[l] = m->grams[l] = 1.0;
    drawn->pigments.radical[l] = 1.0;
    for (int c = 0; c < SL_CHANNELS; c++) {
        m->cystine[c][l] = drawn->pigments.melanin[c][l] = 1.0;
    }
    for (int dye = 0; dye < MEMBER_MOST_DYES; dye++) {
        drawn->pigments.dye[dye][l] = 1.0;
    }
}

/* The one number that a doubt of its own stands for; NULL: a doubt of several. */
static double *only_place(lane_members *m, sl_doubt doubt, int l)
{
    switch (doubt) {
    case SL_DOUBT_PH:
        return &m->ph_shift[l];
    case SL_DOUBT_WARMTH:
        return &m->warmth_k[l];
    case SL_DOUBT_PEROXIDE_ENTRY:
        return &m->peroxide_entry[l];
    case SL_DOUBT_PERSULFATE_ENTRY:
        return &m->persulfate_entry[l];
    case SL_DOUBT_PARTITION:
        return &m->partition[l];
    case SL_DOUBT_SATURATION:
        return &m->saturation[l];
    case SL_DOUBT_COUPLE:
        return &m->couple[l];
    case SL_DOUBT_LOSS:
        return &m->loss[l];
    case SL_DOUBT_OPENING:
        return &m->opening[l];
    case SL_DOUBT_GRAMS:
        return &m->grams[l];
    case SL_DOUBT_CYSTINE:
    case SL_DOUBT_MELANIN:
    case SL_DOUBT_RADICAL:
    case SL_DOUBT_DYE:
    default:
        return NULL;
    }
}

static void turn_lane(drawn_members *drawn, const sl_drawn *what, int l, double by)
{
    double *const only = only_place(&drawn->lanes, what->doubt, l);
    if (only) {
        *only = by;
        return;
    }
    if (what->doubt == SL_DOUBT_DYE) {
        drawn->pigments.dye[what->dye][l] = by;
        return;
    }
    if (what->doubt == SL_DOUBT_RADICAL) { /* one flux meets dye, melanin and cystine alike */
        drawn->lanes.cystine[SL_RADICAL][l] *= by;
        drawn->pigments.melanin[SL_RADICAL][l] *= by;
        drawn->pigments.radical[l] = by;
        return;
    }
    for (int c = 0; c < SL_CHANNELS; c++) {
        double *const place =
            what->doubt == SL_DOUBT_CYSTINE ? &drawn->lanes.cystine[c][l] : &drawn->pigments.melanin[c][l];
        *place *= by;
    }
}

void members_draw(drawn_members *drawn, const sl_draw_plan *plan, uint64_t seed, long first)
{
    for (int l = 0; l < LANES; l++) {
        begin_lane(drawn, l);
        for (int d = 0; d < plan->n; d++) {
            const sl_drawn *const what = &plan->drawn[d];
            const bool shift = what->doubt == SL_DOUBT_PH || what->doubt == SL_DOUBT_WARMTH;
            drawn->u[l][d] = sl_draw(seed, first + l, d);
            const double z = gsl_cdf_ugaussian_Pinv(drawn->u[l][d]) / NORMAL_95;
            turn_lane(drawn, what, l, shift ? z * what->spread : exp(z * log(what->spread)));
        }
    }
}

/* ---- readings ---------------------------------------------------------------------------- */

static void fold_dye(sl_dye *dye, const member_pigments *pigments, int number, int lane)
{
    for (int c = 0; c < SL_CHANNELS; c++) {
        dye->rates.k[c].value *=
            pigments->dye[number][lane] * (c == SL_RADICAL ? pigments->radical[lane] : 1.0);
    }
}

void member_zone_make(member_zone *made, const sl_scene *scene, const sl_arm *arm, int zone,
                      const member_pigments *pigments, int lane)
{
    const sl_recipe *const recipe = &scene->zones[zone].recipe;
    const double temperature_k = sl_scene_temperature_k(scene, arm->contact_min, 0.0);
    made->chemistry = &scene->chemistry;
    made->hair = &scene->hairs[scene->zones[zone].hair];
    made->n_dyes = recipe->n_dyes;
    double sum = 0.0;
    for (int i = 0; i < recipe->n_dyes; i++) {
        made->dye[i] = scene->dyes[recipe->dye[i]];
        sl_rates_settle(&made->dye[i].rates, &scene->chemistry, temperature_k);
        fold_dye(&made->dye[i], pigments, recipe->dye[i], lane);
        made->weight[i] = recipe->strength[i] * sl_dye_absorbance(&made->dye[i]);
        sum += made->weight[i];
    }
    for (int i = 0; i < recipe->n_dyes; i++) {
        made->weight[i] = sum > 0.0 ? made->weight[i] / sum : 1.0 / recipe->n_dyes;
    }
    for (int kind = 0; kind < SL_MELANINS; kind++) {
        made->melanin[kind] = scene->chemistry.melanin[kind].rates;
        sl_rates_settle(&made->melanin[kind], &scene->chemistry, temperature_k);
        for (int c = 0; c < SL_CHANNELS; c++) {
            made->melanin[kind].k[c].value *= pigments->melanin[c][lane];
        }
    }
    made->absorbance0 =
        sl_melanin_absorbance(&scene->chemistry, (const double(*)[SL_STAGES])made->hair->pool);
}

static double between(double from, double to, double share)
{
    return from + share * (to - from);
}

static sl_moment moment_at(const lane_history *history, int lane, double minute)
{
    double share = 0.0;
    const int step = lanes_step_at(history, minute, &share);
    const int next = step < history->steps ? step + 1 : step;
    sl_moment moment = {.cystine_intact =
                            between(history->cystine[step][lane], history->cystine[next][lane], share),
                        .leach_min = between(history->leach_min[step], history->leach_min[next], share),
                        .shampoos = between(history->shampoos[step], history->shampoos[next], share)};
    for (int c = 0; c < SL_CHANNELS; c++) {
        moment.rim_dose[c] = between(history->rim[step][c][lane], history->rim[next][c][lane], share);
        moment.core_dose[c] = between(history->core[step][c][lane], history->core[next][c][lane], share);
    }
    return moment;
}

static double left_of(const member_zone *zone, const sl_moment *moment)
{
    double left = 0.0;
    for (int i = 0; i < zone->n_dyes; i++) {
        left += zone->weight[i] * sl_dye_left(&zone->dye[i], moment);
    }
    return left;
}

member_reading member_read(const member_zone *zone, const lane_history *history, int lane, double minute)
{
    const sl_moment moment = moment_at(history, lane, minute);
    double exponent[SL_MELANINS];
    double pool[SL_MELANINS][SL_STAGES];
    for (int kind = 0; kind < SL_MELANINS; kind++) {
        exponent[kind] = sl_core_exponent(&zone->melanin[kind], &moment);
    }
    sl_melanin_move(zone->chemistry, exponent, (const double(*)[SL_STAGES])zone->hair->pool, pool);
    const double now = sl_melanin_absorbance(zone->chemistry, (const double(*)[SL_STAGES])pool);
    return (member_reading){
        .left = left_of(zone, &moment),
        .base_moved = zone->absorbance0 > 0.0 ? fmax(1.0 - now / zone->absorbance0, 0.0) : 0.0,
        .cystine_lost = fmax(1.0 - moment.cystine_intact / zone->hair->cystine_intact, 0.0)};
}

bool member_gone(const member_zone *zone, const lane_history *history, int lane, double share, double *minute)
{
    double low = 0.0;
    double high = history->time_min[history->steps];
    sl_moment moment = moment_at(history, lane, high);
    if (left_of(zone, &moment) > share) {
        return false;
    }
    while (high - low > TIME_TOLERANCE_MIN) {
        const double middle = 0.5 * (low + high);
        moment = moment_at(history, lane, middle);
        if (left_of(zone, &moment) <= share) {
            high = middle;
        } else {
            low = middle;
        }
    }
    *minute = high;
    return true;
}
