/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * From doses to a cell: melanin's stages and cystine of the hair, what is left of each dye,
 * and what settled here of the dyes that washing brought out of the neighbours.
 */
#include "timeline/cell.h"

#include <math.h>

static const sl_recipe undyed = {0};

void reading_prepare(const sl_scene *scene, const sl_arm *arm, int zone, reading *read)
{
    const sl_zone *const here = &scene->zones[zone];
    const double temperature_k = sl_scene_temperature_k(scene, arm->contact_min, 0.0);
    read->course = NO_COURSE;
    read->later_min = 0.0;
    read->method = SL_SHARING_VALID;
    read->hair = &scene->hairs[here->hair];
    read->recipe = arm->undyed ? &undyed : &here->recipe;
    read->absorbance0 =
        sl_melanin_absorbance(&scene->chemistry, (const double(*)[SL_STAGES])read->hair->pool);
    double sum = 0.0;
    read->stainable = 0.0;
    for (int i = 0; i < read->recipe->n_dyes; i++) {
        read->dye[i] = scene->dyes[read->recipe->dye[i]];
        sl_rates_settle(&read->dye[i].rates, &scene->chemistry, temperature_k);
        read->absorbance[i] = read->recipe->strength[i] * sl_dye_absorbance(&read->dye[i]);
        sum += read->absorbance[i];
        read->stainable += read->dye[i].stain_share.value > 0.0 ? read->absorbance[i] : 0.0;
    }
    for (int i = 0; i < read->recipe->n_dyes; i++) {
        read->weight[i] = sum > 0.0 ? read->absorbance[i] / sum : 1.0 / read->recipe->n_dyes;
    }
    for (int kind = 0; kind < SL_MELANINS; kind++) {
        read->melanin[kind] = scene->chemistry.melanin[kind].rates;
        sl_rates_settle(&read->melanin[kind], &scene->chemistry, temperature_k);
    }
}

static double colour_left(const reading *read, const double left[])
{
    double sum = 0.0;
    for (int i = 0; i < read->recipe->n_dyes; i++) {
        sum += read->weight[i] * left[i];
    }
    return read->recipe->n_dyes > 0 ? fmin(sum, 1.0) : -1.0;
}

void read_hair(const sl_scene *scene, const reading *read, const sl_moment *moment, sl_cell *cell)
{
    const sl_chemistry *const ch = &scene->chemistry;
    double exponent[SL_MELANINS];
    for (int kind = 0; kind < SL_MELANINS; kind++) {
        exponent[kind] = read->method == SL_SHARING_VALID
                             ? sl_core_exponent(&read->melanin[kind], moment)
                             : moment->core_exponent[read->recipe->n_dyes + kind];
    }
    sl_melanin_move(ch, exponent, (const double(*)[SL_STAGES])read->hair->pool, cell->amounts.pool);
    const double absorbance = sl_melanin_absorbance(ch, (const double(*)[SL_STAGES])cell->amounts.pool);
    cell->base_moved =
        read->absorbance0 > 0.0 ? fmin(fmax(1.0 - absorbance / read->absorbance0, 0.0), 1.0) : 0.0;
    cell->amounts.oxidised = fmin(fmax(1.0 - moment->cystine_intact, 0.0), 1.0);
    cell->cystine_lost = fmin(fmax(1.0 - moment->cystine_intact / read->hair->cystine_intact, 0.0), 1.0);
    cell->levels_lifted = sl_levels_lifted(ch, read->hair->level, read->absorbance0, absorbance);
    cell->level = read->hair->level + cell->levels_lifted;
}

void read_dyes(const reading *read, const sl_moment *moment, sl_cell *cell)
{
    sl_amounts *const amounts = &cell->amounts;
    double colourless = 0.0;
    amounts->recipe = read->recipe;
    for (int i = 0; i < read->recipe->n_dyes; i++) {
        const sl_dye_fate fate =
            sl_dye_fate_at(&read->dye[i], moment, read->method == SL_SHARING_VALID ? SL_FROM_DOSES : i);
        amounts->dye_left[i] = fate.left;
        cell->loosened[i] = fate.loosened;
        colourless += read->weight[i] * fate.colourless;
    }
    cell->colour_left = colour_left(read, amounts->dye_left);
    cell->colourless = colourless;
}

/* Add what one neighbour has given off; returns its absorbance. */
static double add_stains(const reading *giver, const double loosened[], sl_amounts *amounts)
{
    double absorbance = 0.0;
    for (int i = 0; i < giver->recipe->n_dyes; i++) {
        const double share = giver->dye[i].stain_share.value * loosened[i];
        if (share > 0.0) {
            amounts->stain_dye[amounts->n_stains] = giver->recipe->dye[i];
            amounts->stain[amounts->n_stains++] = share * giver->recipe->strength[i];
            absorbance += share * giver->absorbance[i];
        }
    }
    return absorbance;
}

void read_stains(const reading *const givers[2], const double *const loosened[2], sl_cell *cell)
{
    double start = 0.0, settled = 0.0;
    cell->amounts.n_stains = 0;
    for (int side = 0; side < 2; side++) {
        if (givers[side] && givers[side]->stainable > 0.0) {
            start += givers[side]->stainable;
            settled += add_stains(givers[side], loosened[side], &cell->amounts);
        }
    }
    cell->stain = start > 0.0 ? settled / start : -1.0;
}
