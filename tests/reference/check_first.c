/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What a school should measure first: of every shipped scene the ensemble that an answer counts, and how much
 * of the variance of the time between goal and stop goes with each doubt (first-order index, which
 * tests/unit/test_spread.c holds to closed forms), mean over all strips that have such a time.
 */
#include <dirent.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "check_bench.h"
#include "slowlift/spread.h"

enum { DOUBTS = SL_DOUBTS };

typedef struct doubts {
    double sum[DOUBTS]; /* of indices; of all direct dyes of a strip together */
    int first[DOUBTS];  /* strips in which it is the largest */
    int strips, scenes;
} doubts;

static void count_strip(doubts *d, const sl_spread *spread, int arm)
{
    double index[DOUBTS] = {0};
    double all = 0;
    for (int i = 0; i < spread->plan.n; i++) {
        const double one = sl_spread_index(spread, arm, i);
        index[spread->plan.drawn[i].doubt] += one;
        all += one;
    }
    if (!spread->arms[arm].asked || !(all > 0)) {
        return;
    }
    int most = 0;
    for (int i = 0; i < DOUBTS; i++) {
        d->sum[i] += index[i];
        most = index[i] > index[most] ? i : most;
    }
    d->first[most]++;
    d->strips++;
}

static void count_scene(doubts *d, const char *path, const sl_resolver *resolver)
{
    sl_error error = {.code = SL_OK};
    sl_scene *scene = sl_scene_load(path, resolver, &error);
    if (scene == NULL) {
        check_stop(&error);
    }
    if (strcmp(scene->chemistry.name, "oxidation") == 0 && !sl_scene_reduces(scene)) {
        sl_spread *spread = NULL;
        const sl_spread_request request = {.members = SL_MEMBERS, .seed = SL_SEED, .threads = 1};
        sl_aims_assume(scene);
        if (!sl_stress_settle(scene, &error) || !sl_spread_run(&spread, scene, &request, &error)) {
            check_stop(&error);
        }
        for (int arm = 0; arm < scene->n_arms; arm++) {
            count_strip(d, spread, arm);
        }
        d->scenes++;
        sl_spread_free(spread);
    }
    sl_scene_free(scene);
}

static int is_scene(const struct dirent *entry)
{
    return strstr(entry->d_name, ".yaml") != NULL;
}

void check_print_first(const char *models, const sl_resolver *resolver)
{
    char path[1024];
    struct dirent **names = NULL;
    doubts d = {.strips = 0};
    snprintf(path, sizeof path, "%s/scenes", models);
    const int n = scandir(path, &names, is_scene, alphasort);
    for (int i = 0; i < n; i++) {
        snprintf(path, sizeof path, "%s/scenes/%s", models, names[i]->d_name);
        count_scene(&d, path, resolver);
        free(names[i]);
    }
    free(names);
    printf(
        "\n## What a school should measure first\n\n"
        "Of the %d strips of the %d shipped scenes that have a goal and a stop (usual ones where a scene "
        "sets none; "
        "the scene of\nthe reversed assumption and those with a reducing mix left out): how much of the "
        "variance of the time between the "
        "two goes "
        "with each doubt (first-order\nindex, %d members, seed %d), mean over strips, and in how many it is "
        "the "
        "largest. Interactions are in none of them.\nWhat the model lacks is in none either.\n\n"
        "| place | in doubt | how to know it better | mean index, %% | largest in |\n|---|---|---|---|---|\n",
        d.strips, d.scenes, SL_MEMBERS, SL_SEED);
    for (int place = 1; place <= 4; place++) {
        int best = 0;
        for (int i = 1; i < DOUBTS; i++) {
            best = d.sum[i] > d.sum[best] ? i : best;
        }
        printf(place <= 3 ? "| %d | %s | %s | %.1f | %d |\n"
                          : "\nIn place %d, %s (%s): %.1f %% and %d strips.\n",
               place, sl_doubt_word((sl_doubt)best), sl_doubt_measure((sl_doubt)best),
               100 * d.sum[best] / d.strips, d.first[best]);
        d.sum[best] = -1;
    }
}
