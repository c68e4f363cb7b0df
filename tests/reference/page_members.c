/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * page_members MODELS SCENE-FILE SEED BLOCKS MINUTE...: of each of the first members of the ensemble and each
 * arm, when the goal comes and what stops it first; then, of each zone, what it reads when the arm is rinsed
 * at its MINUTE (one for each arm; -1: it is not), and when it is down to its share. A line of JSON for each,
 * for answer_page.py to make the page of.
 */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "estimate/limits_of_members.h"
#include "slowlift/scene.h"

static void stop(const char *why)
{
    fprintf(stderr, "page_members: %s\n", why);
    exit(EXIT_FAILURE);
}

static lane_history history;
static drawn_members drawn;
static member_ground ground;
static member_aims aims;

/* What each lane reads of a zone when it is rinsed then, and when it is down to its share: -1, never. */
static void read_zone(const sl_scene *scene, int arm, int zone, double minute, double read[LANES][4])
{
    const sl_hair *solved = NULL;
    const sl_goal goal = sl_zone_goal(scene, zone);
    const double share = goal.wanted && goal.left < 1.0 ? goal.left : 0.5;
    member_zone made;
    int bad = 0;
    if (!members_solve(&history, &solved, lanes_run_rinsed, scene, &scene->arms[arm],
                       &scene->hairs[scene->zones[zone].hair], &drawn.lanes, &bad)) {
        stop("a member leaves its range");
    }
    member_zone_make(&made, &ground, scene, &scene->arms[arm], zone, &drawn);
    for (int l = 0; l < LANES; l++) {
        const member_reading then = member_read(&made, &history, l, minute);
        read[l][0] = then.left;
        read[l][1] = then.base_moved;
        read[l][2] = then.cystine_lost;
        if (scene->zones[zone].recipe.n_dyes == 0 || !member_gone(&made, &history, l, share, &read[l][3])) {
            read[l][3] = -1.0;
        }
    }
}

static void print_draws(const sl_draw_plan *plan, uint64_t seed, long member)
{
    for (int d = 0; d < plan->n; d++) {
        printf("%s%.17g", d > 0 ? ", " : "", sl_draw(seed, member, d));
    }
}

static void print_arm(const sl_scene *scene, const sl_draw_plan *plan, uint64_t seed, int arm, long first,
                      double minute)
{
    static member_limits limits[LANES];
    static double read[SL_MAX_ZONES][LANES][4];
    const bool asked = sl_limits_can_be_asked(scene, arm);
    int bad = 0;
    if (asked && !members_limits(limits, scene, arm, &drawn, &aims, &history, &bad)) {
        stop("a member leaves its range");
    }
    for (int zone = 0; minute >= 0.0 && zone < scene->n_zones; zone++) {
        read_zone(scene, arm, zone, minute, read[zone]);
    }
    for (int l = 0; l < LANES; l++) {
        printf("{\"member\": %ld, \"arm\": %d, \"asked\": %s, \"early\": %.17g, \"late\": %.17g, \"by\": %d, "
               "\"zones\": [",
               first + l, arm, asked ? "true" : "false",
               asked && limits[l].early_reached ? limits[l].early_min : -1.0,
               asked ? limits[l].late_min : -1.0, asked ? (int)limits[l].late_by : -1);
        for (int zone = 0; minute >= 0.0 && zone < scene->n_zones; zone++) {
            printf("%s[%.17g, %.17g, %.17g, %.17g]", zone > 0 ? ", " : "", read[zone][l][0], read[zone][l][1],
                   read[zone][l][2], read[zone][l][3]);
        }
        printf("], \"u\": [");
        print_draws(plan, seed, first + l);
        printf("]}\n");
    }
}

static void print_scene(const sl_scene *scene)
{
    printf("{\"level_ratio\": %.17g, \"arms\": [", scene->chemistry.level_ratio.value);
    for (int arm = 0; arm < scene->n_arms; arm++) {
        const sl_arm *const here = &scene->arms[arm];
        printf("%s{\"contact\": %.17g, \"off\": %.17g}", arm > 0 ? ", " : "", here->contact_min,
               fmin(sl_arm_minutes_before(here, sl_arm_last_application(here) + 1),
                    scene->until_min - here->contact_min));
    }
    printf("], \"longest\": %.17g, \"base_most\": %.17g, \"zones\": [",
           scene->aims.longest_min.set ? scene->aims.longest_min.most : -1.0, scene->aims.base_moved.most);
    for (int zone = 0; zone < scene->n_zones; zone++) {
        const sl_goal goal = sl_zone_goal(scene, zone);
        printf("%s{\"name\": \"%s\", \"wanted\": %s, \"share\": %.17g, \"level\": %.17g, \"hair\": %d, "
               "\"dyes\": %d}",
               zone > 0 ? ", " : "", scene->zones[zone].name, goal.wanted ? "true" : "false", goal.left,
               scene->hairs[scene->zones[zone].hair].level, scene->zones[zone].hair,
               scene->zones[zone].recipe.n_dyes);
    }
    printf("]}\n");
}

int main(int argc, char **argv)
{
    if (argc < 5) {
        stop("usage: page_members MODELS SCENE-FILE SEED BLOCKS MINUTE...");
    }
    sl_start();
    const char *const folder = argv[1];
    sl_folders folders = {&folder, 1};
    const sl_resolver resolver = sl_resolver_of_folders(&folders);
    sl_error error = {.code = SL_OK};
    sl_scene *scene = sl_scene_load(argv[2], &resolver, &error);
    if (scene == NULL) {
        stop(error.found);
    }
    sl_aims_assume(scene);
    const sl_draw_plan plan = sl_draw_plan_of(scene);
    member_ground_make(&ground, scene, NULL);
    print_scene(scene);
    for (long first = 0; first < strtol(argv[4], NULL, 10) * LANES; first += LANES) {
        int bad = 0;
        members_draw(&drawn, &plan, strtoull(argv[3], NULL, 10), first);
        if (!members_aims(&aims, scene, &ground, &drawn.lanes, &history, &bad)) {
            stop("a member leaves its range");
        }
        for (int arm = 0; arm < scene->n_arms; arm++) {
            print_arm(scene, &plan, strtoull(argv[3], NULL, 10), arm, first,
                      arm + 5 < argc ? strtod(argv[arm + 5], NULL) : -1.0);
        }
    }
    sl_scene_free(scene);
    return EXIT_SUCCESS;
}
