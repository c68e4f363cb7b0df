/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * How much dye makes hair look pastel, medium, vivid or deep: docs/science.md, "How strong a colour looks".
 */
#include <math.h>
#include <string.h>

#include "ask/ask.h"
#include "base/language.h"
#include "slowlift/optics.h"

static const double LEAST = 0.01, MOST = 50.0; /* as a recipe may have */

#define WORD(name, word, share) word,
const char *const sl_strength_words[SL_STRENGTHS] = {SL_STRENGTH_LIST(WORD)};
#undef WORD
#define SHARE(name, word, share) share,
const double sl_strength_shares[SL_STRENGTHS] = {SL_STRENGTH_LIST(SHARE)};
#undef SHARE

/* The zone's hair with so much of its one dye, dry, before anything is put on. */
static sl_lab looks(const sl_scene *scene, const sl_optics *optics, int zone, double amount)
{
    const sl_hair *const hair = &scene->hairs[scene->zones[zone].hair];
    const sl_recipe recipe = {.n_dyes = 1, .dye = {scene->zones[zone].recipe.dye[0]}, .strength = {amount}};
    sl_amounts amounts = {
        .recipe = &recipe, .dye_left = {1.0}, .oxidised = fmin(fmax(1.0 - hair->cystine_intact, 0.0), 1.0)};
    memcpy(amounts.pool, hair->pool, sizeof amounts.pool);
    sl_colour colour;
    sl_optics_paint(optics, &amounts, &colour);
    return colour.lab;
}

bool sl_strength_solve(const sl_scene *scene, int zone, double share, double *amount, sl_error *error)
{
    sl_optics *const optics = sl_optics_new(scene, error);
    if (!optics) {
        return false;
    }
    const sl_lab deepest = looks(scene, optics, zone, MOST);
    const double to_go = (1.0 - share) * sl_delta_e_2000(looks(scene, optics, zone, 0.0), deepest);
    double low = log(LEAST), high = log(MOST);
    for (int i = 0; i < 50; i++) { /* what is to go falls with the amount (tests/unit/test_ask.c) */
        const double middle = 0.5 * (low + high);
        if (sl_delta_e_2000(looks(scene, optics, zone, exp(middle)), deepest) > to_go) {
            low = middle;
        } else {
            high = middle;
        }
    }
    sl_optics_free(optics);
    *amount = exp(0.5 * (low + high));
    return true;
}
