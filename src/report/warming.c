/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See warming.h.
 */
#include "report/warming.h"

#include <math.h>

#include "base/append.h"
#include "base/language.h"
#include "document/text.h"
#include "slowlift/kinetics.h"
#include "slowlift/report.h"

enum { WORDS = 640 };

static double told_k(sl_mix_warmth warmth)
{
    return warmth.hair_k >= SL_WARMING_TOLD_K ? 0.5 * round(2.0 * warmth.hair_k) : 0.0;
}

bool sl_warming_of(const sl_scene *scene, int arm, double *kelvin, sl_error *error)
{
    sl_mix_warmth warmth = {0};
    sl_solver *const solver = sl_solver_new(error);
    const bool asked = !scene->untold && sl_arm_in_model(scene, &scene->arms[arm]);
    const bool good = solver && (!asked || sl_mix_warms(solver, scene, arm, &warmth, error));
    *kelvin = told_k(warmth);
    sl_solver_free(solver);
    return good;
}

void sl_say_warming(sl_document *document, const sl_timeline *timeline, int only, bool titles)
{
    const sl_scene *const scene = sl_timeline_scene(timeline);
    char words[WORDS] = "", number[24];
    for (int arm = 0; arm < scene->n_arms; arm++) {
        const double kelvin = only < 0 || only == arm ? told_k(sl_timeline_warmth(timeline, arm)) : 0.0;
        if (kelvin > 0.0) {
            sl_short_number(kelvin, 1, number, sizeof number);
            if (titles) {
                sl_append_item(words, sizeof words, "; ", _("%s by %s K"), sl_arm_title(&scene->arms[arm]),
                               number);
            } else {
                sl_append_item(words, sizeof words, ", ", _("%s K in %d"), number, arm + 1);
            }
        }
    }
    if (words[0] != '\0') {
        sl_document_row(document, titles ? _("own warmth") : _("Warms by"),
                        titles ? _("above where it lies, at most: %s (computed; nobody measured it)")
                               : _("%s at most (nobody measured it)."),
                        words);
    }
}
