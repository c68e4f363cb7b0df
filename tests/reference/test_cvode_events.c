/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Goal and limits against CVODE's own root finding on the full system (full_system.c, written apart
 * from src/): the moment when a zone's colour, a zone's base and its cystine come down to a level, and the
 * moment at which a rinse brings them there once the hair is washed and dry.
 *
 * Tolerance: a second, as estimate.h promises. Amounts differ by less than 1e-6 (test_cvode.c); over
 * a slope of 1e-3 a minute, the flattest looked for here, that is a sixteenth of a second.
 */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "full_system.h"
#include "slowlift/limits.h"
#include "slowlift/scene.h"
#include "unit/suite.h"

static const double SECOND = 1.0 / 60.0;
static const double FLATTEST = 1e-3; /* share a minute */
static const ref_method TIGHT = {.adams = true, .relative = 1e-11, .absolute = 1e-15};

static sl_scene *load(const char *name)
{
    static const char *folders[] = {SLOWLIFT_MODELS};
    sl_folders models = {folders, 1};
    const sl_resolver resolver = sl_resolver_of_folders(&models);
    char path[256];
    sl_error error = {.code = SL_OK};
    snprintf(path, sizeof path, "%s/scenes/%s.yaml", SLOWLIFT_MODELS, name);
    sl_scene *const scene = sl_scene_load(path, &resolver, &error);
    ck_assert_msg(scene != NULL, "%s: %s", error.found, error.wanted);
    return scene;
}

/* Colour left: each dye by its share of the zone's absorbance; with one dye, the dye alone. */
static bool colour_event(const sl_scene *scene, int zone, double share, ref_event *event)
{
    if (scene->zones[zone].recipe.n_dyes != 1) {
        return false;
    }
    for (int part = 0; part < REF_PER_DYE; part++) {
        event->weight[ref_zone_dyes(0) + part] = 1.0;
    }
    event->level = share;
    return true;
}

/* Base moved: absorbance of the stages, weighted as docs/science.md, "Melanin", says. */
static bool base_event(const sl_scene *scene, int zone, double moved, ref_event *event)
{
    const sl_hair *const hair = &scene->hairs[scene->zones[zone].hair];
    double start = 0.0;
    for (int kind = 0; kind < SL_MELANINS; kind++) {
        const sl_melanin *const melanin = &scene->chemistry.melanin[kind];
        double *const weight = &event->weight[ref_zone_melanin(0) + kind * SL_STAGES];
        weight[SL_BOUND] = 1.0;
        weight[SL_OPENED] = melanin->opened_weight.value;
        weight[SL_YELLOW] = melanin->yellow_weight.value;
        for (int stage = 0; stage < SL_STAGES; stage++) {
            start += weight[stage] * hair->pool[kind][stage];
        }
    }
    event->level = (1.0 - moved) * start;
    return start > 0.0;
}

static bool cystine_event(const sl_scene *scene, int zone, double lost, ref_event *event)
{
    event->weight[REF_CYSTINE] = 1.0;
    event->level = (1.0 - lost) * scene->hairs[scene->zones[zone].hair].cystine_intact;
    return true;
}

static double quantity_at(const sl_timeline *timeline, int arm, int zone, sl_quantity quantity, double minute)
{
    sl_cell cell;
    sl_timeline_at(timeline, arm, zone, minute, NULL, &cell);
    return quantity == SL_COLOUR_LEFT  ? cell.colour_left
           : quantity == SL_BASE_MOVED ? cell.base_moved
                                       : cell.cystine_lost;
}

/* How many events were compared; each to a second. */
static int compare(const sl_timeline *timeline, int arm, int zone, sl_quantity quantity, double share)
{
    const sl_scene *const scene = sl_timeline_scene(timeline);
    const ref_setup setup = {.scene = scene, .arm = &scene->arms[arm], .n_zones = 1, .zone = {zone}};
    ref_event event = {.level = 0.0};
    double wanted = 0.0, found = HUGE_VAL;
    const bool asked = quantity == SL_COLOUR_LEFT  ? colour_event(scene, zone, share, &event)
                       : quantity == SL_BASE_MOVED ? base_event(scene, zone, share, &event)
                                                   : cystine_event(scene, zone, share, &event);
    if (!asked) {
        return 0;
    }
    ck_assert(ref_event_time(&setup, TIGHT, &event, scene->until_min, &wanted));
    const bool reached = sl_first_time(timeline, arm, zone, quantity, share, &found);
    if (!reached || wanted > scene->until_min) {
        const double last = quantity_at(timeline, arm, zone, quantity, scene->until_min);
        ck_assert_msg(reached == (wanted <= scene->until_min) || fabs(last - share) < 1e-5,
                      "%s, %s, quantity %d to %g: %s only here; CVODE says %g min", scene->arms[arm].name,
                      scene->zones[zone].name, (int)quantity, share, reached ? "reached" : "missed", wanted);
        return 0;
    }
    const double slope = fabs(quantity_at(timeline, arm, zone, quantity, found + 0.1) -
                              quantity_at(timeline, arm, zone, quantity, found - 0.1)) /
                         0.2;
    if (slope < FLATTEST) {
        return 0;
    }
    ck_assert_msg(fabs(found - wanted) < SECOND, "%s, %s, quantity %d to %g: %.4f min, CVODE %.4f",
                  scene->arms[arm].name, scene->zones[zone].name, (int)quantity, share, found, wanted);
    return 1;
}

static double minutes_of(const sl_step *step)
{
    return step->kind == SL_STEP_SHAMPOO ? (double)step->shampoos : step->duration_min;
}

static int last_application(const sl_arm *arm)
{
    int last = 0;
    for (int i = 0; i < arm->n_steps; i++) {
        last = arm->steps[i].kind == SL_STEP_APPLY ? i : last;
    }
    return last;
}

/* Of the scene's clock: when that mix goes on. */
static double last_contact_min(const sl_arm *arm)
{
    double clock = arm->contact_min;
    for (int i = 0; i < last_application(arm); i++) {
        clock += minutes_of(&arm->steps[i]);
    }
    return clock;
}

/* The weighted sum once the last mix has been rinsed at a moment, washed as planned, and has dried to a
 * 400th. */
static double dry_level(const ref_setup *setup, const ref_event *event, double rinse_min)
{
    static double y[REF_MOST];
    const sl_scene *const scene = setup->scene;
    sl_arm arm = *setup->arm;
    ref_setup rinsed = *setup;
    double sum = 0.0, until = rinse_min + log(400.0) / scene->chemistry.rest_dry_per_min.value;
    const int last = last_application(&arm);
    const double begins = last_contact_min(&arm);
    long calls = 0;
    for (int i = last + 1; i < arm.n_steps; i++) {
        until += minutes_of(&arm.steps[i]);
    }
    arm.steps[last].duration_min = rinse_min - begins;
    rinsed.arm = &arm;
    ck_assert(ref_solve(&rinsed, TIGHT, &until, 1, y, &calls));
    for (int s = 0; s < ref_n_states(&rinsed); s++) {
        sum += event->weight[s] * y[s];
    }
    return sum;
}

/* The same of hair rinsed at any moment: a second before it is not yet there by CVODE, a second later it is.
 */
static int compare_rinsed(const sl_timeline *rinsed, int arm, int zone, sl_quantity quantity, double share)
{
    const sl_scene *const scene = sl_timeline_scene(rinsed);
    const ref_setup setup = {.scene = scene, .arm = &scene->arms[arm], .n_zones = 1, .zone = {zone}};
    ref_event event = {.level = 0.0};
    double found = HUGE_VAL;
    const bool asked = quantity == SL_COLOUR_LEFT  ? colour_event(scene, zone, share, &event)
                       : quantity == SL_BASE_MOVED ? base_event(scene, zone, share, &event)
                                                   : cystine_event(scene, zone, share, &event);
    if (!asked || !sl_first_time(rinsed, arm, zone, quantity, share, &found) ||
        found < last_contact_min(&scene->arms[arm]) + 1.0 || found > scene->until_min - 1.0) {
        return 0;
    }
    const double slope = fabs(quantity_at(rinsed, arm, zone, quantity, found + 0.1) -
                              quantity_at(rinsed, arm, zone, quantity, found - 0.1)) /
                         0.2;
    if (slope < FLATTEST) {
        return 0;
    }
    const double before = dry_level(&setup, &event, found - SECOND);
    const double after = dry_level(&setup, &event, found + SECOND);
    ck_assert_msg(before > event.level && after <= event.level,
                  "%s, %s, quantity %d to %g, rinsed at %.4f min: CVODE has %g before and %g after",
                  scene->arms[arm].name, scene->zones[zone].name, (int)quantity, share, found, before, after);
    return 1;
}

static int compare_scene(const char *name)
{
    static const double left[] = {0.8, 0.5, 0.25, 0.1}, moved[] = {0.05, 0.2, 0.4},
                        lost[] = {0.01, 0.05, 0.1};
    sl_scene *const scene = load(name);
    sl_solver *const solver = sl_solver_new(NULL);
    sl_timeline *timeline = NULL;
    int n = 0, rinsed = 0;
    ck_assert(sl_timeline_solve(&timeline, scene, NULL, 0, solver, NULL, NULL));
    ck_assert(sl_timeline_rinse(timeline, solver, NULL));
    for (int arm = 0; arm < scene->n_arms; arm++) {
        const bool on = scene->arms[arm].n_steps > 0 && sl_timeline_predicted(timeline, arm);
        for (int zone = 0; on && zone < scene->n_zones; zone++) {
            for (int i = 0; i < 4 && !scene->arms[arm].undyed; i++) {
                n += compare(timeline, arm, zone, SL_COLOUR_LEFT, left[i]);
                rinsed += compare_rinsed(sl_timeline_rinsed(timeline), arm, zone, SL_COLOUR_LEFT, left[i]);
            }
            for (int i = 0; i < 3; i++) {
                n += compare(timeline, arm, zone, SL_BASE_MOVED, moved[i]);
                n += compare(timeline, arm, zone, SL_CYSTINE_LOST, lost[i]);
                rinsed += compare_rinsed(sl_timeline_rinsed(timeline), arm, zone, SL_BASE_MOVED, moved[i]);
                rinsed += compare_rinsed(sl_timeline_rinsed(timeline), arm, zone, SL_CYSTINE_LOST, lost[i]);
            }
        }
    }
    sl_timeline_free(timeline);
    sl_solver_free(solver);
    sl_scene_free(scene);
    printf("%s: %d events within a second of CVODE's, and %d of hair rinsed then\n", name, n, rinsed);
    ck_assert_int_gt(rinsed, 4);
    return n;
}

START_TEST(an_event_of_the_eight_arms_is_off_by_a_second)
{
    ck_assert_int_gt(compare_scene("eight-arms"), 100);
}
END_TEST

START_TEST(an_event_of_a_scene_with_aims_is_off_by_a_second)
{
    ck_assert_int_gt(compare_scene("way-short"), 10);
    ck_assert_int_gt(compare_scene("way-none"), 5);
}
END_TEST

START_TEST(an_event_is_off_across_two_rounds)
{
    ck_assert_int_gt(compare_scene("second-round"), 10);
}
END_TEST

START_SUITE("events against CVODE")
ADD(an_event_of_the_eight_arms_is_off_by_a_second)
ADD(an_event_of_a_scene_with_aims_is_off_by_a_second)
ADD(an_event_is_off_across_two_rounds)
END_SUITE
