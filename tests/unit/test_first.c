/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What is chosen as a scene opens: of the shipped scenes a strip that a mix is put on, and a zone of which
 * something is asked and whose colour nothing else outdoes.
 */
#include <stdio.h>

#include "named.h"
#include "slowlift/estimate.h"
#include "slowlift/scene.h"
#include "suite.h"
#include "view/window/first.h"

static sl_scene *scene;
static sl_solver *solver;
static sl_timeline *timeline;
static sl_optics *dry;

static void opened(const char *name)
{
    static const char *const paths[] = {SLOWLIFT_MODELS};
    sl_folders folders = {paths, 1};
    const sl_resolver resolver = sl_resolver_of_folders(&folders);
    char path[512];
    sl_error error;
    snprintf(path, sizeof path, SLOWLIFT_MODELS "/scenes/%s", name);
    scene = sl_scene_load(path, &resolver, &error);
    ck_assert_msg(scene != NULL, "%s", error.found);
    sl_aims_assume(scene);
    solver = sl_solver_new(&error);
    dry = sl_optics_new(scene, &error);
    ck_assert(solver != NULL && dry != NULL);
    ck_assert(sl_timeline_solve(&timeline, scene, NULL, 0, solver, NULL, &error));
}

static void shut(void)
{
    sl_timeline_free(timeline);
    timeline = NULL;
    sl_optics_free(dry);
    dry = NULL;
    sl_solver_free(solver);
    sl_scene_free(scene);
}

START_TEST(a_treated_strip_and_the_zone_that_shows_most)
{
    opened("eight-arms.yaml");
    ck_assert_int_eq(sl_first_arm(scene), named_arm(scene, "powder + water"));
    ck_assert_int_eq(sl_first_zone(timeline, dry), named_zone(scene, "violet"));
    shut();
}
END_TEST

/* Violet fades most here, too, and nothing is asked of it. */
START_TEST(a_zone_that_is_to_be_ignored_is_not_chosen)
{
    opened("zone-goals.yaml");
    ck_assert(!sl_zone_goal(scene, named_zone(scene, "violet")).wanted);
    ck_assert(sl_zone_goal(scene, sl_first_zone(timeline, dry)).wanted);
    shut();
}
END_TEST

START_TEST(where_nothing_is_put_on_the_first_of_both)
{
    opened("eight-arms.yaml");
    scene->n_arms = 2; /* untreated, washed only */
    ck_assert_int_eq(sl_first_arm(scene), 0);
    shut();
}
END_TEST

START_SUITE("what is chosen first")
ADD(a_treated_strip_and_the_zone_that_shows_most)
ADD(a_zone_that_is_to_be_ignored_is_not_chosen)
ADD(where_nothing_is_put_on_the_first_of_both)
END_SUITE
