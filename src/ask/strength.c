/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * How much dye makes hair look pastel, medium, vivid or deep: docs/science.md, "How strong a colour looks".
 */
#include <math.h>

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
    const sl_recipe recipe = {.n_dyes = 1, .dye = {scene->zones[zone].recipe.dye[0]}, .strength = {amount}};
    return sl_optics_untouched(optics, &scene->hairs[scene->zones[zone].hair], &recipe);
}

double sl_strength_amount(const sl_scene *scene, const sl_optics *optics, int zone, double share)
{
    const sl_lab deepest = looks(scene, optics, zone, MOST);
    const double to_go = (1.0 - share) * sl_delta_e_2000(looks(scene, optics, zone, 0.0), deepest);
    double low = log(LEAST), high = log(MOST);
    for (int i = 0; i < 50; i++) { /* what is to go falls with the amount */
        const double middle = 0.5 * (low + high);
        if (sl_delta_e_2000(looks(scene, optics, zone, exp(middle)), deepest) > to_go) {
            low = middle;
        } else {
            high = middle;
        }
    }
    return exp(0.5 * (low + high));
}
