/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See members.h. Readings are those of the solution (kinetics/dose.c) with the member's doses and constants;
 * tests hold the one to the other.
 */
#include "estimate/members.h"

#include <gsl/gsl_cdf.h>
#include <math.h>
#include <stdio.h>

#include "slowlift/kinetics.h"
#include "slowlift/optics.h"

static const double NORMAL_95 = 1.959963984540054; /* 95 of 100 normal draws lie within this */
static const double TIME_TOLERANCE_MIN = 1.0 / 600.0;
static const char doing[] = "counting an ensemble";

bool member_blame(sl_error *error, const sl_scene *scene, long member, int arm)
{
    if (member < 0) { /* LANE_NO_MEMORY, and the block's first */
        return sl_fail(error, SL_ERR_NO_MEMORY, doing, "");
    }
    char found[SL_ERROR_TEXT_SIZE];
    snprintf(found, sizeof found, "member %ld of strip \"%s\"", member, sl_arm_title(&scene->arms[arm]));
    return sl_fail(error, SL_ERR_NOT_FINITE, found, "no model run is dropped; narrow the spread");
}

/* ---- draws ------------------------------------------------------------------------------- */

/* What leaves a doubt's number as it is: 0 where a draw is added or turns a width, 1 where it is a factor. */
#define UNCHANGED(name, unchanged, grade, width, what, measure) unchanged,
static const double unchanged_by[SL_DOUBTS] = {SL_DOUBT_LIST(UNCHANGED) 1.0, 1.0, 1.0, 1.0, /* what divides */
                                               SL_DOUBT_AGENT_LIST(UNCHANGED)
                                                   SL_DOUBT_REDUCED_LIST(UNCHANGED)};
#undef UNCHANGED

void members_begin(drawn_members *drawn)
{
    drawn->lanes.forms = NULL;
    drawn->reduces = false;
    for (int l = 0; l < LANES; l++) {
        for (int doubt = 0; doubt < SL_DOUBT_REDUCED; doubt++) {
            drawn->lanes.by[doubt][l] = unchanged_by[doubt];
        }
        for (int dye = 0; dye < MEMBER_MOST_DYES; dye++) {
            drawn->dye[dye][l] = 1.0;
        }
    }
    for (int c = 0; c < SL_CHANNELS; c++) {
        for (int l = 0; l < LANES; l++) {
            drawn->lanes.cystine_by[c][l] = drawn->lanes.melanin_by[c][l] = 1.0;
            for (int dye = 0; dye < MEMBER_MOST_DYES; dye++) {
                drawn->dye_by[dye][c][l] = 1.0;
            }
        }
    }
}

/* Factors by dye of what reduces, until they are drawn. */
static void begin_reducing(drawn_members *drawn)
{
    for (int dye = 0; dye < MEMBER_MOST_DYES && !drawn->reduces; dye++) {
        for (int l = 0; l < LANES; l++) {
            drawn->reduced[dye][l] = 0.0;
            drawn->returns[dye][l] = 1.0;
        }
    }
    drawn->reduces = true;
}

/* Where a draw's values go, [LANES]. */
static double *row_of(drawn_members *drawn, const sl_drawn *what)
{
    if (what->doubt == SL_DOUBT_DYE) {
        return drawn->dye[what->dye];
    }
    if (what->doubt == SL_DOUBT_DYE_BY) {
        return drawn->dye_by[what->dye][what->channel];
    }
    if (what->doubt >= SL_DOUBT_REDUCED) {
        begin_reducing(drawn);
        return (what->doubt == SL_DOUBT_RETURN ? drawn->returns : drawn->reduced)[what->dye];
    }
    return what->doubt == SL_DOUBT_CYSTINE_BY   ? drawn->lanes.cystine_by[what->channel]
           : what->doubt == SL_DOUBT_MELANIN_BY ? drawn->lanes.melanin_by[what->channel]
                                                : drawn->lanes.by[what->doubt];
}

/* The draws from `from` on that divide one target: their factors keep its total where it was fitted. Returns
 * the draw behind them. */
static int divide(drawn_members *drawn, const sl_draw_plan *plan, int from)
{
    const sl_drawn *const first = &plan->drawn[from];
    double total[LANES] = {0.0};
    int end = from;
    for (; end < plan->n && plan->drawn[end].doubt == first->doubt && plan->drawn[end].dye == first->dye;
         end++) {
        const double *const by = row_of(drawn, &plan->drawn[end]);
        for (int l = 0; l < LANES; l++) {
            total[l] += plan->drawn[end].share * by[l];
        }
    }
    for (int d = from; d < end; d++) {
        double *const by = row_of(drawn, &plan->drawn[d]);
        for (int l = 0; l < LANES; l++) {
            by[l] /= total[l];
        }
    }
    return end;
}

void members_draw(drawn_members *drawn, const sl_draw_plan *plan, uint64_t seed, long first)
{
    members_begin(drawn);
    for (int d = 0; d < plan->n; d++) {
        const sl_drawn *const what = &plan->drawn[d];
        const bool is_added = unchanged_by[what->doubt] <= 0.0;
        double *const by = row_of(drawn, what);
        for (int l = 0; l < LANES; l++) {
            drawn->u[l][d] = sl_draw(seed, first + l, d);
            const double z = gsl_cdf_ugaussian_Pinv(drawn->u[l][d]) / NORMAL_95;
            by[l] = is_added ? z * what->spread : exp(z * log(what->spread));
        }
    }
    for (int d = 0; d < plan->n;) {
        d = sl_drawn_of_channel(&plan->drawn[d]) ? divide(drawn, plan, d) : d + 1;
    }
}

/* ---- readings ---------------------------------------------------------------------------- */

static bool same_class(const sl_hair *one, const sl_hair *two)
{
    return one && fabs(one->porosity - two->porosity) <= 0.0 &&
           fabs(one->cystine_intact - two->cystine_intact) <= 0.0;
}

/* One lane's constants of a zone's dyes, at this temperature with the member's own warmth. */
static void dye_rates_of(double k[SL_CHANNELS][LANES], const sl_scene *scene, int dye,
                         const drawn_members *drawn, double temperature_k, int l)
{
    const double(*const by)[LANES] = drawn->lanes.by;
    sl_rates rates = scene->dyes[dye].rates;
    sl_rates_settle(&rates, &scene->chemistry, temperature_k + by[SL_DOUBT_WARMTH][l]);
    for (int c = 0; c < SL_CHANNELS; c++) {
        const double flux = c == SL_RADICAL ? by[SL_DOUBT_RADICAL][l] : 1.0;
        k[c][l] = rates.k[c].value * drawn->dye[dye][l] * drawn->dye_by[dye][c][l] * flux;
    }
}

/* One lane's rate of a dye of the scene with an agent. */
static double reduced_of(const sl_scene *scene, int dye, int agent, const drawn_members *drawn, int l)
{
    const sl_param *const rate = &scene->dyes[dye].reduced[agent];
    const double z = drawn->reduces ? drawn->reduced[dye][l] : 0.0;
    return rate->value * pow(sl_reduction_factor(rate->grade), z);
}

/* The forms of a zone's dyes with sixteen members' constants. */
static void forms_make(lane_forms *forms, const sl_scene *scene, const sl_arm *arm, int zone,
                       const drawn_members *drawn)
{
    const sl_recipe *const recipe = &scene->zones[zone].recipe;
    const int agent = sl_arm_reductant(scene, arm);
    const double temperature_k = sl_scene_temperature_k(scene, arm->contact_min, 0.0);
    forms->n = recipe->n_dyes;
    for (int i = 0; i < recipe->n_dyes; i++) {
        const int dye = recipe->dye[i];
        const sl_dye *const of = &scene->dyes[dye];
        forms->leuco_share[i] = of->leuco_share.value;
        for (int l = 0; l < LANES; l++) {
            const double returns = drawn->reduces ? drawn->returns[dye][l] : 1.0;
            dye_rates_of(forms->k[i], scene, dye, drawn, temperature_k, l);
            forms->reduced[i][l] = reduced_of(scene, dye, agent, drawn, l);
            forms->air_return[i][l] = of->air_return_per_min.value * returns;
            forms->oxidant_return[i][l] = of->oxidant_return_l_mol_min.value * returns;
        }
    }
}

bool members_solve(lane_history *history, const sl_hair **solved, lanes_solver *solve, const sl_scene *scene,
                   const sl_arm *arm, const sl_hair *hair, const lane_members *member, int *bad_lane)
{
    if (same_class(*solved, hair)) {
        return true;
    }
    *solved = hair;
    return solve(history, scene, arm, hair->porosity, hair->cystine_intact, member, bad_lane);
}

bool members_solve_zone(lane_history *history, const sl_hair **solved, lanes_solver *solve,
                        const sl_scene *scene, const sl_arm *arm, int zone, const drawn_members *drawn,
                        int *bad_lane)
{
    const sl_hair *const hair = &scene->hairs[scene->zones[zone].hair];
    if (!sl_zone_returns(scene, arm, zone)) {
        return members_solve(history, solved, solve, scene, arm, hair, &drawn->lanes, bad_lane);
    }
    lane_forms forms;
    lane_members member = drawn->lanes;
    forms_make(&forms, scene, arm, zone, drawn);
    member.forms = &forms;
    *solved = NULL; /* it serves no other */
    return solve(history, scene, arm, hair->porosity, hair->cystine_intact, &member, bad_lane);
}

void member_ground_make(member_ground *ground, const sl_scene *scene, const sl_optics *dry)
{
    ground->dry = dry;
    for (int zone = 0; zone < scene->n_zones; zone++) {
        const sl_recipe *const recipe = &scene->zones[zone].recipe;
        const sl_hair *const hair = &scene->hairs[scene->zones[zone].hair];
        double *const weight = ground->weight[zone];
        double sum = 0.0;
        for (int i = 0; i < recipe->n_dyes; i++) {
            weight[i] = recipe->strength[i] * sl_dye_absorbance(&scene->dyes[recipe->dye[i]]);
            sum += weight[i];
        }
        for (int i = 0; i < recipe->n_dyes; i++) {
            weight[i] = sum > 0.0 ? weight[i] / sum : 1.0 / recipe->n_dyes;
        }
        ground->absorbance0[zone] =
            sl_melanin_absorbance(&scene->chemistry, (const double(*)[SL_STAGES])hair->pool);
    }
}

/* One lane's constants, with its draws. */
static void fold(member_zone *made, const drawn_members *drawn, double temperature_k, int l)
{
    const sl_chemistry *const ch = &made->scene->chemistry;
    const lane_members *const member = &drawn->lanes;
    const double t = temperature_k + member->by[SL_DOUBT_WARMTH][l];
    for (int i = 0; i < made->recipe->n_dyes; i++) {
        dye_rates_of(made->dye_k[i], made->scene, made->recipe->dye[i], drawn, temperature_k, l);
    }
    for (int kind = 0; kind < SL_MELANINS; kind++) {
        sl_rates rates = ch->melanin[kind].rates;
        sl_rates_settle(&rates, ch, t);
        for (int c = 0; c < SL_CHANNELS; c++) {
            made->melanin_k[kind][c][l] = rates.k[c].value * lane_by_channel(member, SL_DOUBT_MELANIN, c, l);
        }
    }
}

void member_zone_make(member_zone *made, const member_ground *ground, const sl_scene *scene,
                      const sl_arm *arm, int zone, const drawn_members *drawn)
{
    made->scene = scene;
    made->hair = &scene->hairs[scene->zones[zone].hair];
    made->recipe = &scene->zones[zone].recipe;
    made->weight = ground->weight[zone];
    made->absorbance0 = ground->absorbance0[zone];
    const double temperature_k = sl_scene_temperature_k(scene, arm->contact_min, 0.0);
    for (int l = 0; l < LANES; l++) {
        fold(made, drawn, temperature_k, l);
    }
    const int agent = sl_arm_reductant(scene, arm);
    made->reduces = agent >= 0;
    made->returns = sl_zone_returns(scene, arm, zone);
    for (int i = 0; made->reduces && i < made->recipe->n_dyes; i++) {
        for (int l = 0; l < LANES; l++) {
            made->reduced_k[i][l] = reduced_of(scene, made->recipe->dye[i], agent, drawn, l);
        }
    }
}

lane_moment lane_moment_at(const lane_history *history, int lane, int step, double share)
{
    const int next = step < history->steps ? step + 1 : step;
    lane_moment m;
    for (int c = 0; c < SL_CHANNELS; c++) {
        m.rim[c] =
            history->rim[step][c][lane] + share * (history->rim[next][c][lane] - history->rim[step][c][lane]);
        m.core[c] = history->core[step][c][lane] +
                    share * (history->core[next][c][lane] - history->core[step][c][lane]);
    }
    m.cystine =
        history->cystine[step][lane] + share * (history->cystine[next][lane] - history->cystine[step][lane]);
    m.leach_min = history->leach_min[step] + share * (history->leach_min[next] - history->leach_min[step]);
    m.shampoos = history->shampoos[step] + share * (history->shampoos[next] - history->shampoos[step]);
    for (int row = 0; history->reduces && row < LANE_REDUCING; row++) {
        m.reducing[row] = history->reducing[step][row][lane] +
                          share * (history->reducing[next][row][lane] - history->reducing[step][row][lane]);
    }
    return m;
}

double member_dye_left(const member_zone *zone, int i, int lane, const lane_moment *m)
{
    const sl_dye *const d = &zone->scene->dyes[zone->recipe->dye[i]];
    double rim = 0.0;
    double core = 0.0;
    for (int c = 0; c < SL_CHANNELS; c++) {
        const double k = zone->dye_k[i][c][lane];
        rim += k * m->rim[c];
        core += k * m->core[c];
    }
    const sl_dye_washing washed = sl_dye_washed(d, m->leach_min, m->shampoos);
    const double share = d->rim_share.value;
    if (zone->returns) {
        const double *const coloured = &m->reducing[LANE_COLOURED + i * SL_PLACES_IN_HAIR];
        return share * coloured[SL_AT_RIM] * exp(-washed.rim) +
               (1.0 - share) * coloured[SL_IN_CORE] * exp(-washed.core);
    }
    if (zone->reduces) {
        rim += zone->reduced_k[i][lane] * m->reducing[LANE_RIM_REDUCED];
        core += zone->reduced_k[i][lane] * m->reducing[LANE_CORE_REDUCED];
    }
    return share * exp(-(rim + washed.rim)) + (1.0 - share) * exp(-(core + washed.core));
}

double member_left(const member_zone *zone, int lane, const lane_moment *m)
{
    double left = 0.0;
    for (int i = 0; i < zone->recipe->n_dyes; i++) {
        left += zone->weight[i] * member_dye_left(zone, i, lane, m);
    }
    return left;
}

void member_pools(const member_zone *zone, int lane, const lane_moment *m,
                  double pool[SL_MELANINS][SL_STAGES])
{
    double exponent[SL_MELANINS] = {0.0};
    for (int kind = 0; kind < SL_MELANINS; kind++) {
        for (int c = 0; c < SL_CHANNELS; c++) {
            exponent[kind] += zone->melanin_k[kind][c][lane] * m->core[c];
        }
    }
    sl_melanin_move(&zone->scene->chemistry, exponent, (const double(*)[SL_STAGES])zone->hair->pool, pool);
}

double member_base_moved(const member_zone *zone, int lane, const lane_moment *m)
{
    double pool[SL_MELANINS][SL_STAGES];
    if (!(zone->absorbance0 > 0.0)) {
        return 0.0;
    }
    member_pools(zone, lane, m, pool);
    return 1.0 - sl_melanin_absorbance(&zone->scene->chemistry, (const double(*)[SL_STAGES])pool) /
                     zone->absorbance0;
}

double member_cystine_lost(const member_zone *zone, const lane_moment *m)
{
    return 1.0 - m->cystine / zone->hair->cystine_intact;
}

static lane_moment at_minute(const lane_history *history, int lane, double minute)
{
    double share = 0.0;
    const int step = lanes_step_at(history, minute, &share);
    return lane_moment_at(history, lane, step, share);
}

member_reading member_read(const member_zone *zone, const lane_history *history, int lane, double minute)
{
    const lane_moment moment = at_minute(history, lane, minute);
    return (member_reading){.left = member_left(zone, lane, &moment),
                            .base_moved = fmax(member_base_moved(zone, lane, &moment), 0.0),
                            .cystine_lost = fmax(member_cystine_lost(zone, &moment), 0.0)};
}

/* Colour may come back: the first step at whose end it is gone, from `low` to `high`. */
static bool first_gone(const member_zone *zone, const lane_history *history, int lane, double share,
                       double *low, double *high)
{
    for (int i = 0; i <= history->steps; i++) {
        const lane_moment moment = lane_moment_at(history, lane, i, 0.0);
        if (member_left(zone, lane, &moment) <= share) {
            *low = history->time_min[i > 0 ? i - 1 : 0];
            *high = history->time_min[i];
            return true;
        }
    }
    return false;
}

bool member_gone(const member_zone *zone, const lane_history *history, int lane, double share, double *minute)
{
    double low = 0.0;
    double high = history->time_min[history->steps];
    lane_moment moment = at_minute(history, lane, high);
    if (zone->returns ? !first_gone(zone, history, lane, share, &low, &high)
                      : member_left(zone, lane, &moment) > share) {
        return false;
    }
    while (high - low > TIME_TOLERANCE_MIN) {
        const double middle = 0.5 * (low + high);
        moment = at_minute(history, lane, middle);
        if (member_left(zone, lane, &moment) <= share) {
            high = middle;
        } else {
            low = middle;
        }
    }
    *minute = high;
    return true;
}
