/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Rows R1 to R8: trade facts on the shipped scenes, and the claim that slower can be gentler.
 * Regressions: they guard what lessons rely on and are no evidence.
 */
#include "check_bench.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "slowlift/limits.h"

#define CHOSEN "parameters were chosen for it"

/* Append a row; the caller fills in `computed` and `holds`. */
static check_claim *claim(check_claims *t, check_claim r)
{
    t->rows[t->n] = r;
    return &t->rows[t->n++];
}

/* ---- trade facts on the shipped eight arms: regressions ---- */

typedef struct shipped {
    sl_scene *scene;
    sl_timeline *timeline;
} shipped;

static shipped load_and_solve(const char *models, const char *name, sl_solver *solver)
{
    sl_folders folders = {&models, 1};
    const sl_resolver resolver = sl_resolver_of_folders(&folders);
    char path[1024];
    sl_error error = {.code = SL_OK};
    shipped s = {0};
    snprintf(path, sizeof path, "%s/scenes/%s.yaml", models, name);
    s.scene = sl_scene_load(path, &resolver, &error);
    if (s.scene == NULL || !sl_timeline_solve(&s.timeline, s.scene, NULL, 0, solver, NULL, &error) ||
        !sl_limits_prepare(s.timeline, solver, &error)) {
        check_stop(&error);
    }
    return s;
}

static void release(shipped *s)
{
    sl_timeline_free(s->timeline);
    sl_scene_free(s->scene);
}

static int arm_named(const sl_scene *scene, const char *name)
{
    for (int a = 0; a < scene->n_arms; a++) {
        if (strcmp(scene->arms[a].name, name) == 0) {
            return a;
        }
    }
    fprintf(stderr, "check_targets: no arm %s\n", name);
    exit(EXIT_FAILURE);
}

/* `minutes` after the arm's own contact. */
static sl_cell shipped_cell(const shipped *s, const char *arm, const char *zone, double minutes)
{
    sl_cell cell;
    const int a = arm_named(s->scene, arm);
    sl_timeline_at(s->timeline, a, check_zone_named(s->scene, zone), s->scene->arms[a].contact_min + minutes,
                   NULL, &cell);
    return cell;
}

static void trade_facts(check_claims *t, const shipped *s)
{
    static const char *const dyed[] = {"red", "orange", "yellow", "green", "blue", "violet"};
    static const char water[] = "powder + water";
    static const char six[] = "powder + 6 %";
    const double with_six = shipped_cell(s, six, "red", 30).colour_left;
    const double with_water = shipped_cell(s, water, "red", 30).colour_left;
    check_claim *r = claim(t, (check_claim){.id = "R1",
                                            .target = "6 % clears faster than water (red left after 30 min)",
                                            .allowed = "less left",
                                            .evidence = CHOSEN});
    snprintf(r->computed, sizeof r->computed, "%.0f against %.0f %%", 100 * with_six, 100 * with_water);
    r->holds = with_six < with_water;

    const double moved = shipped_cell(s, water, "undyed", 30).base_moved;
    const double washed = shipped_cell(s, "washing only", "undyed", 30).base_moved;
    r = claim(t, (check_claim){.id = "R2",
                               .target = "powder + water lifts the base too, washing does not (30 min)",
                               .allowed = "above 0.5 %, below 0.01 %",
                               .evidence = CHOSEN});
    snprintf(r->computed, sizeof r->computed, "%.1f %% and %.3f %% of the melanin", 100 * moved,
             100 * washed);
    r->holds = moved > 0.005 && washed < 1e-4;

    r = claim(
        t,
        (check_claim){
            .id = "R3",
            .target = "the two-part liquid without persulfate is the weakest of the removers in every zone",
            .allowed = "most left",
            .evidence = CHOSEN});
    static const char *const others[] = {"powder + water", "powder + 3 %", "powder + 6 %", "lightener + 6 %"};
    r->holds = true;
    for (int z = 0; z < 6; z++) {
        const double mild = shipped_cell(s, "two-part without persulfate", dyed[z], 30).colour_left;
        for (int a = 0; a < 4; a++) {
            r->holds = r->holds && mild > shipped_cell(s, others[a], dyed[z], 30).colour_left;
        }
    }
    snprintf(r->computed, sizeof r->computed, "red %.0f %% left, violet %.0f %%",
             100 * shipped_cell(s, "two-part without persulfate", "red", 30).colour_left,
             100 * shipped_cell(s, "two-part without persulfate", "violet", 30).colour_left);

    r = claim(t,
              (check_claim){
                  .id = "R4",
                  .target = "in dye set one, violet leaves first, orange and red last (powder + 6 %, 10 min)",
                  .allowed = "the order",
                  .evidence = CHOSEN});
    double left[6];
    for (int z = 0; z < 6; z++) {
        left[z] = shipped_cell(s, six, dyed[z], 10).colour_left;
    }
    r->holds = left[0] > left[1] && left[1] > left[2] && left[1] > left[3] && left[2] > left[5] &&
               left[3] > left[5] && left[4] > left[5];
    snprintf(r->computed, sizeof r->computed,
             "red %.0f, orange %.0f, yellow %.0f, green %.0f, blue %.0f, violet %.0f %%", 100 * left[0],
             100 * left[1], 100 * left[2], 100 * left[3], 100 * left[4], 100 * left[5]);
}

/* What the undyed zone has lost when the red zone of each arm is down to `share`. */
typedef struct price {
    bool reached;
    double base, cystine;
} price;

static price price_at(const shipped *s, const char *arm, const char *zone, double share)
{
    const int a = arm_named(s->scene, arm);
    double when = 0;
    price p = {.reached = sl_first_time(s->timeline, a, check_zone_named(s->scene, zone), SL_COLOUR_LEFT,
                                        share, &when)};
    const sl_cell cell = shipped_cell(s, arm, "undyed", when - s->scene->arms[a].contact_min);
    p.base = cell.base_moved;
    p.cystine = cell.cystine_lost;
    return p;
}

static void slower_is_gentler(check_claims *t, const shipped *s, bool reversed)
{
    enum { WATER, SIX };
    static const char *const zones[2] = {"violet", "yellow"};
    check_claim *r = claim(
        t, (check_claim){.id = reversed ? "R6" : "R5",
                         .target =
                             reversed ? "with the reversed chemistry, the slower strip is the harsher one at "
                                        "equal colour left"
                                      : "powder + water moves base and cystine less than powder + 6 % at "
                                        "equal colour left (violet at 40 %, yellow at 60 %)",
                         .allowed = reversed ? "more of both" : "less of both",
                         .evidence = reversed ? "an assumption made up to show it" : CHOSEN});
    static const double shares[2] = {0.4, 0.6};
    r->holds = true;
    size_t used = 0;
    for (int i = 0; i < 2; i++) {
        const price slow = price_at(s, "powder + water", zones[i], shares[i]);
        const price fast = price_at(s, "powder + 6 %", zones[i], shares[i]);
        const bool gentler = slow.base < fast.base && slow.cystine < fast.cystine;
        const bool harsher = slow.base > fast.base && slow.cystine > fast.cystine;
        r->holds = r->holds && slow.reached && fast.reached && (reversed ? harsher : gentler);
        const int n =
            snprintf(r->computed + used, sizeof r->computed - used,
                     "%s%s: base %.2f against %.2f %%, cystine %.2f against %.2f %%", i > 0 ? "; " : "",
                     zones[i], 100 * slow.base, 100 * fast.base, 100 * slow.cystine, 100 * fast.cystine);
        used += n > 0 ? (size_t)n : 0;
    }
}

/* Violet alone, left on for 55 minutes, half of it to go, at most 15 % of the base. */
static void left_on(sl_scene *scene, double label_min)
{
    scene->aims = (sl_aims){.colour_left = 0.5, .base_moved = {0.15, true}};
    for (int z = 0; z < scene->n_zones; z++) {
        if (strcmp(scene->zones[z].name, "violet") != 0) {
            scene->zones[z].recipe.n_dyes = 0;
        }
    }
    for (int a = 0; a < scene->n_arms; a++) {
        if (scene->arms[a].n_steps > 0) {
            scene->arms[a].steps[0].duration_min = 55.0;
        }
    }
    for (int i = 0; i < scene->n_mixes; i++) {
        scene->mixes[i].label_max_min = label_min;
        scene->mixes[i].label_from_contact = true;
    }
}

static sl_limits limits_with_label(shipped *s, const char *arm, double label_min, sl_solver *solver)
{
    sl_error error = {.code = SL_OK};
    left_on(s->scene, label_min);
    if (!sl_timeline_solve(&s->timeline, s->scene, NULL, 0, solver, NULL, &error) ||
        !sl_limits_prepare(s->timeline, solver, &error)) {
        check_stop(&error);
    }
    return sl_limits_of(s->timeline, arm_named(s->scene, arm), NULL);
}

static void labels_bind(check_claims *t, shipped *s, sl_solver *solver)
{
    const sl_limits half_hour = limits_with_label(s, "powder + water", 30.0, solver);
    const sl_limits longer = limits_with_label(s, "powder + water", 45.0, solver);
    const sl_limits six = limits_with_label(s, "powder + 6 %", 30.0, solver);
    check_claim *r = claim(
        t, (check_claim){.id = "R7",
                         .target =
                             "a label of 30 minutes stops powder + water before 15 % of the base has moved, "
                             "one of 45 does not; powder + 6 % must stop before either",
                         .allowed = "label, base, base",
                         .evidence = CHOSEN});
    snprintf(r->computed, sizeof r->computed, "base at %.0f min with water, at %.0f with 6 %%",
             longer.stop_min[SL_STOP_BASE], six.stop_min[SL_STOP_BASE]);
    r->holds = half_hour.stop == SL_STOP_LABEL && longer.stop == SL_STOP_BASE && six.stop == SL_STOP_BASE;
}

static void faster_has_less_time(check_claims *t, shipped *s, sl_solver *solver)
{
    static const char *const arms[3] = {"powder + water", "powder + 3 %", "powder + 6 %"};
    double early[3], between[3];
    bool reached = true;
    for (int i = 0; i < 3; i++) {
        const sl_limits found = limits_with_label(s, arms[i], 0.0, solver);
        reached = reached && found.early_reached;
        early[i] = found.early_min;
        between[i] = found.stop_min[found.stop] - found.early_min;
    }
    check_claim *r = claim(
        t, (check_claim){.id = "R8",
                         .target = "the faster remover does not have the longer time between goal and stop "
                                   "(violet half gone, 15 % of the base)",
                         .allowed = "the faster, the less",
                         .evidence = CHOSEN});
    snprintf(r->computed, sizeof r->computed,
             "half gone at %.0f, %.0f, %.0f min with water, 3 %%, 6 %%; then %.0f, %.0f, %.0f min", early[0],
             early[1], early[2], between[0], between[1], between[2]);
    r->holds = reached && early[0] > early[1] && early[1] > early[2] && between[0] > between[1] &&
               between[1] > between[2];
}

void check_regressions(check_claims *t, sl_solver *solver, const char *models)
{
    shipped eight = load_and_solve(models, "eight-arms", solver);
    trade_facts(t, &eight);
    slower_is_gentler(t, &eight, false);
    release(&eight);
    shipped reversed = load_and_solve(models, "reversed-assumption", solver);
    slower_is_gentler(t, &reversed, true);
    release(&reversed);
    shipped long_on = load_and_solve(models, "eight-arms", solver);
    labels_bind(t, &long_on, solver);
    faster_has_less_time(t, &long_on, solver);
    release(&long_on);
}
