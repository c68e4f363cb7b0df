/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * member_numbers MODELS SCENE-FILE bench|wrapped BLOCKS: what the first members of the ensemble
 * drew and which limits were found for them, as one JSON object, for members_scipy.py to find again.
 */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "estimate/limits_of_members.h"
#include "slowlift/scene.h"

static const uint64_t SEED = 2026;

static void stop(const char *why)
{
    fprintf(stderr, "member_numbers: %s\n", why);
    exit(EXIT_FAILURE);
}

static void row(const char *key, const double *value, int n, int stride)
{
    printf("\"%s\": [", key);
    for (int i = 0; i < n; i++) {
        printf("%s%.17g", i > 0 ? ", " : "", value[i * stride]);
    }
    printf("], ");
}

static void print_draws(const drawn_members *drawn, int l, int n_dyes)
{
    static const char *const keys[SL_DOUBT_DYE] = {[SL_DOUBT_PH] = "ph",
                                                   [SL_DOUBT_WARMTH] = "warmth_k",
                                                   [SL_DOUBT_PEROXIDE_ENTRY] = "peroxide_entry",
                                                   [SL_DOUBT_PERSULFATE_ENTRY] = "persulfate_entry",
                                                   [SL_DOUBT_PARTITION] = "partition",
                                                   [SL_DOUBT_SATURATION] = "saturation",
                                                   [SL_DOUBT_COUPLE] = "couple",
                                                   [SL_DOUBT_LOSS] = "loss",
                                                   [SL_DOUBT_CYSTINE] = "cystine",
                                                   [SL_DOUBT_MELANIN] = "melanin",
                                                   [SL_DOUBT_RADICAL] = "radical",
                                                   [SL_DOUBT_OPENING] = "opening",
                                                   [SL_DOUBT_GRAMS] = "grams"};
    for (int doubt = 0; doubt < SL_DOUBT_DYE; doubt++) {
        row(keys[doubt], &drawn->lanes.by[doubt][l], 1, 1);
    }
    row("dye", &drawn->dye[0][l], n_dyes, LANES);
    row("cystine_by", &drawn->lanes.cystine_by[0][l], SL_CHANNELS, LANES);
    row("melanin_by", &drawn->lanes.melanin_by[0][l], SL_CHANNELS, LANES);
    row("dye_by", &drawn->dye_by[0][0][l], n_dyes * SL_CHANNELS, LANES);
}

static void print_block(const sl_scene *scene, const sl_draw_plan *plan, long first)
{
    static drawn_members drawn;
    static lane_history history;
    static member_limits limits[SL_MAX_ARMS][LANES];
    static member_aims aims;
    int bad_lane = 0;
    members_draw(&drawn, plan, SEED, first);
    static member_ground ground;
    member_ground_make(&ground, scene, NULL);
    if (!members_aims(&aims, scene, &ground, &drawn.lanes, &history, &bad_lane)) {
        stop("a member leaves its range");
    }
    for (int a = 0; a < scene->n_arms; a++) {
        int bad = 0;
        if (sl_limits_can_be_asked(scene, a) &&
            !members_limits(limits[a], scene, a, &drawn, &aims, &history, &bad)) {
            stop("a member leaves its range");
        }
    }
    for (int l = 0; l < LANES; l++) {
        printf("%s{", first + l > 0 ? ", " : "");
        print_draws(&drawn, l, scene->n_dyes);
        printf("\"limits\": [");
        for (int a = 0; a < scene->n_arms; a++) {
            const member_limits *const found = &limits[a][l];
            printf("%s", a > 0 ? ", " : "");
            if (sl_limits_can_be_asked(scene, a)) {
                printf("[%d, %.17g, %d, %.17g, %d, %.17g]", found->early_reached, found->early_min,
                       found->last_zone, found->late_min, found->late_by, found->left_at_late);
            } else {
                printf("null");
            }
        }
        printf("]}");
    }
}

int main(int argc, char **argv)
{
    if (argc != 5) {
        stop("usage: member_numbers MODELS SCENE-FILE bench|wrapped BLOCKS");
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
    scene->place = strcmp(argv[3], "wrapped") == 0 ? SL_PLACE_WRAPPED : SL_PLACE_BENCH;
    scene->aims = (sl_aims){.colour_left = 0.5, .base_moved = {0.1, true}, .cystine_lost = {0.02, true}};
    const sl_draw_plan plan = sl_draw_plan_of(scene);
    printf("{\"aims\": [%.17g, %.17g, %.17g], \"until_min\": %.17g, \"weights\": [", scene->aims.colour_left,
           scene->aims.base_moved.most, scene->aims.cystine_lost.most, scene->until_min);
    for (int kind = 0; kind < SL_MELANINS; kind++) {
        const sl_melanin *const melanin = &scene->chemistry.melanin[kind];
        printf("%s[1, %.17g, %.17g]", kind > 0 ? ", " : "", melanin->opened_weight.value,
               melanin->yellow_weight.value);
    }
    printf("], \"oxidative\": [");
    for (int i = 0; i < scene->n_dyes; i++) {
        printf("%s%s", i > 0 ? ", " : "", scene->dyes[i].class_ == SL_DYE_OXIDATIVE ? "true" : "false");
    }
    printf("], \"divided\": [");
    for (int d = 0, n = 0; d < plan.n; d++) {
        const sl_drawn *const what = &plan.drawn[d];
        if (sl_drawn_of_channel(what)) {
            static const char *const keys[SL_DOUBTS] = {[SL_DOUBT_CYSTINE_BY] = "cystine_by",
                                                        [SL_DOUBT_MELANIN_BY] = "melanin_by",
                                                        [SL_DOUBT_DYE_BY] = "dye_by"};
            printf("%s[\"%s\", %d, %d, %.17g]", n++ > 0 ? ", " : "", keys[what->doubt], what->dye,
                   what->channel, what->share);
        }
    }
    printf("], \"members\": [");
    for (long first = 0; first < strtol(argv[4], NULL, 10) * LANES; first += LANES) {
        print_block(scene, &plan, first);
    }
    printf("]}\n");
    sl_scene_free(scene);
    return EXIT_SUCCESS;
}
