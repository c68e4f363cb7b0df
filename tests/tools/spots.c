/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "tools/spots.h"

#include <assert.h>
#include <math.h>
#include <string.h>

enum { RECIPES = 3 };

static void melanin(sl_melanin *melanin, double opened_ratio, double opened_weight)
{
    melanin->opened_ratio.value = opened_ratio;
    melanin->yellow_ratio.value = 0.25;
    melanin->opened_weight.value = opened_weight;
    melanin->yellow_weight.value = 0.05;
}

void spot_scene_fill(spot_scene *spots)
{
    memset(spots, 0, sizeof *spots);
    melanin(&spots->scene.chemistry.melanin[SL_EUMELANIN], 0.45, 0.30);
    melanin(&spots->scene.chemistry.melanin[SL_PHEOMELANIN], 0.60, 0.45);
    spots->scene.chemistry.keratin_yellow.value = 0.05;
    spots->scene.chemistry.level_ratio.value = 0.62;
    spots->dyes[0] = (sl_dye){.bands = {{520.0, 95.0, 1.0}}, .n_bands = 1};
    spots->dyes[1] = (sl_dye){.bands = {{625.0, 90.0, 1.0}, {405.0, 60.0, 0.3}}, .n_bands = 2};
    spots->dyes[2] = (sl_dye){.bands = {{430.0, 80.0, 1.0}}, .n_bands = 1};
    spots->scene.dyes = spots->dyes;
    spots->scene.n_dyes = SPOT_DYES;
}

sl_amounts spot_natural(int level)
{
    static const double amount[10][SL_MELANINS] = {
        {24.0, 0.50}, {9.65, 0.51},   {5.61, 0.69},   {3.16, 0.74},   {1.79, 0.63},
        {0.99, 0.51}, {0.531, 0.400}, {0.289, 0.289}, {0.161, 0.197}, {0.089, 0.133}};
    assert(level >= 1 && level <= 10);
    return (sl_amounts){.pool = {[SL_EUMELANIN] = {amount[level - 1][SL_EUMELANIN]},
                                 [SL_PHEOMELANIN] = {amount[level - 1][SL_PHEOMELANIN]}}};
}

double spot_random(uint64_t *state)
{
    *state = *state * UINT64_C(6364136223846793005) + UINT64_C(1442695040888963407);
    return (double)(*state >> 11) / 9007199254740992.0;
}

sl_amounts spot_draw(uint64_t *state)
{
    static const sl_recipe recipes[RECIPES] = {
        {.n_dyes = 1, .dye = {0}, .strength = {2.5}},
        {.n_dyes = 2, .dye = {1, 2}, .strength = {1.5, 0.8}},
        {.n_dyes = 3, .dye = {2, 0, 1}, .strength = {0.5, 1.0, 6.0}},
    };
    sl_amounts spot = {.recipe = &recipes[(int)(spot_random(state) * RECIPES)]};
    for (int kind = 0; kind < SL_MELANINS; kind++) {
        for (int stage = 0; stage < SL_STAGES; stage++) {
            spot.pool[kind][stage] = pow(10.0, -3.0 + 4.4 * spot_random(state));
        }
    }
    for (int i = 0; i < spot.recipe->n_dyes; i++) {
        spot.dye_left[i] = spot_random(state);
    }
    return spot;
}
