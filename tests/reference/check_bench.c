/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See check_bench.h.
 */
#include "check_bench.h"

#include "slowlift/limits.h"
#include "slowlift/solution.h"

#include <assert.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

const char CHECK_OUTSIDE[] = "outside number";
const char CHECK_DIRECTION[] = "outside direction";
const char CHECK_TRADE[] = "common practice, no source";

static bool within(const check_row *row, const double *x)
{
    bool all = true;
    for (int i = 0; i < row->n; i++) {
        all = all && x[i] >= row->range[i].low && x[i] <= row->range[i].high;
    }
    return all;
}

bool check_measure(check_bench *b, const check_row *row, const check_null *null, double *x)
{
    b->null = null;
    check_prepare(b);
    row->measure(b, x);
    b->null = NULL;
    return within(row, x);
}

void check_rows(check_table *t, check_bench *b, const check_row *rows, size_t n)
{
    for (size_t i = 0; i < n; i++) {
        assert(t->n < MOST_ROWS);
        check_found *f = &t->found[t->n++];
        *f = (check_found){.row = &rows[i]};
        f->holds = rows[i].measure != NULL && check_measure(b, &rows[i], NULL, f->x);
        f->null_holds = rows[i].measure != NULL && rows[i].null != NULL &&
                        check_measure(b, &rows[i], rows[i].null, f->null_x);
    }
}

bool check_is_evidence(const check_found *f)
{
    return f->row->measure != NULL && f->row->evidence == NULL && f->row->null != NULL && !f->null_holds;
}

void check_stop(const sl_error *error)
{
    fprintf(stderr, "check_targets: %s:%d: %s; %s\n", error->file, error->line, error->found, error->wanted);
    exit(EXIT_FAILURE);
}

int check_zone_named(const sl_scene *scene, const char *name)
{
    for (int z = 0; z < scene->n_zones; z++) {
        if (strcmp(scene->zones[z].name, name) == 0) {
            return z;
        }
    }
    fprintf(stderr, "check_targets: no zone %s\n", name);
    exit(EXIT_FAILURE);
}

static const double MUCH_G_PER_G = 1000; /* of liquid: what hair and dye take of it is nothing */

/* Much water with so much of an agent. */
static sl_mix agent_mix(const check_bench *b, const check_trial *t)
{
    sl_mix mix = {.name = "agent",
                  .class_ = SL_MIX_TWO_PART,
                  .mechanism = SL_MECHANISM_REDUCTIVE,
                  .water_parts = 1,
                  .activity = 1,
                  .ph = {.value = t->ph},
                  .reductant = t->agent,
                  .reductant_share = 0.01};
    const sl_charge charge = sl_mix_charge(&mix, &b->loaded->chemistry, MUCH_G_PER_G, 0);
    mix.reductant_share *= t->agent_mol_l / charge.reductant_mol_l;
    return mix;
}

static void dissolve_dyes(check_bench *b)
{
    for (int i = 0; i < b->scene.n_dyes; i++) {
        b->dyes[i].rim_share.value = 1;
        b->dyes[i].leach_per_min.value = b->dyes[i].shampoo_loss.value = 0;
    }
}

static sl_mix mix_of(const check_bench *b, const check_trial *t)
{
    if (t->agent_mol_l > 0) {
        return agent_mix(b, t);
    }
    const bool bath = strcmp(t->mix, "bath") == 0;
    const char *name = bath ? "peroxide-6-cream" : t->mix;
    sl_mix mix = b->loaded->mixes[0];
    for (int i = 0; i < b->loaded->n_mixes; i++) {
        if (strcmp(b->loaded->mixes[i].name, name) == 0) {
            mix = b->loaded->mixes[i];
        }
    }
    if (bath) {
        mix.water_parts = 0;
    }
    mix.developer_pct = t->pct > 0 ? t->pct : mix.developer_pct;
    if (t->ph > 0) {
        mix.ph_computed = false;
        mix.ph.value = t->ph; /* of the bath as warm as it was */
        mix.ph_kj_mol = mix.ph_fall_per_min = 0;
    }
    mix.loss_l_mol_min.value = t->loss_l_mol_min > 0 ? t->loss_l_mol_min : mix.loss_l_mol_min.value;
    mix.activity = t->spent ? 0 : mix.activity;
    sl_mix_settle(&mix, &b->loaded->chemistry);
    return mix;
}

void check_prepare(check_bench *b)
{
    b->scene = *b->loaded;
    b->warms = false;
    assert(b->scene.n_dyes <= MOST_THINGS && b->scene.n_hairs <= MOST_THINGS);
    memcpy(b->dyes, b->loaded->dyes, (size_t)b->scene.n_dyes * sizeof b->dyes[0]);
    memcpy(b->hairs, b->loaded->hairs, (size_t)b->scene.n_hairs * sizeof b->hairs[0]);
    b->scene.dyes = b->dyes;
    b->scene.hairs = b->hairs;
    if (b->null != NULL) {
        b->null->alter(b);
    }
}

const sl_timeline *check_try_mix(check_bench *b, check_trial t)
{
    b->mix = mix_of(b, &t);
    check_prepare(b);
    if (t.agent_mol_l > 0) {
        dissolve_dyes(b);
    }
    b->scene.room_c = t.celsius > 0 ? t.celsius : 32;
    b->scene.points[0] = (sl_course_point){0, b->scene.room_c}; /* held there, whatever the mix gives off */
    const bool much = t.agent_mol_l > 0 || strcmp(t.mix, "bath") == 0;
    b->scene.n_points = b->warms && !much ? 0 : 1; /* a bath was held in any case */
    b->scene.mixes = &b->mix;
    b->scene.n_mixes = 1;
    b->scene.arms = &b->arm;
    b->scene.n_arms = 1;
    b->arm = (sl_arm){.name = "trial"};
    const int sessions = t.sessions > 1 ? t.sessions : 1;
    for (int i = 0; i < sessions; i++) {
        b->arm.steps[b->arm.n_steps++] = (sl_step){.kind = SL_STEP_APPLY,
                                                   .duration_min = t.minutes,
                                                   .mix_age_min = t.age_min,
                                                   .mix_g_per_g = much ? MUCH_G_PER_G : 6,
                                                   .covered = true};
        if (sessions > 1) {
            b->arm.steps[b->arm.n_steps++] = (sl_step){.kind = SL_STEP_RINSE, .duration_min = 3};
        }
    }
    if (t.shampoos > 0) {
        b->arm.steps[b->arm.n_steps++] = (sl_step){.kind = SL_STEP_SHAMPOO, .shampoos = t.shampoos};
    }
    if (t.air_min > 0) {
        b->arm.steps[b->arm.n_steps++] = (sl_step){.kind = SL_STEP_RINSE, .duration_min = 5};
    }
    b->scene.until_min =
        (t.air_min > 0 ? 5 + t.air_min : 0) + sessions * (t.minutes + (sessions > 1 ? 3 : 0)) + t.shampoos;
    sl_error error = {.code = SL_OK};
    if (!sl_timeline_solve(&b->timeline, &b->scene, NULL, 0, b->solver, NULL, &error) ||
        !sl_limits_prepare(b->timeline, b->solver, &error)) {
        check_stop(&error);
    }
    return b->timeline;
}

sl_cell check_cell_at(const check_bench *b, const char *zone, double minutes)
{
    sl_cell cell;
    sl_timeline_at(b->timeline, 0, check_zone_named(&b->scene, zone), minutes, NULL, &cell);
    return cell;
}

double check_half_time(check_bench *b, check_trial t, const char *zone)
{
    double minutes = HUGE_VAL;
    check_try_mix(b, t);
    return sl_first_time(b->timeline, 0, check_zone_named(&b->scene, zone), SL_COLOUR_LEFT, 0.5, &minutes)
               ? minutes
               : HUGE_VAL;
}

double check_lift_time(const check_bench *b, double levels)
{
    double low = 0;
    double high = b->scene.until_min;
    if (check_cell_at(b, "undyed", high).levels_lifted < levels) {
        return HUGE_VAL;
    }
    for (int i = 0; i < 60; i++) {
        const double middle = (low + high) / 2;
        if (check_cell_at(b, "undyed", middle).levels_lifted < levels) {
            low = middle;
        } else {
            high = middle;
        }
    }
    return high;
}
