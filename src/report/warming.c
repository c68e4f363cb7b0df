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

/* *kelvin[arm] of those that are asked for. */
static bool find(const sl_scene *scene, int only, double kelvin[SL_MAX_ARMS], sl_error *error)
{
    sl_solver *const solver = sl_solver_new(error);
    bool good = solver != NULL;
    for (int arm = 0; arm < scene->n_arms; arm++) {
        sl_mix_warmth warmth = {0};
        if (good && (only < 0 || only == arm) && sl_arm_in_model(scene, &scene->arms[arm])) {
            good = sl_mix_warms(solver, scene, arm, &warmth, error);
        }
        kelvin[arm] = warmth.hair_k >= SL_WARMING_TOLD_K ? 0.5 * round(2.0 * warmth.hair_k) : 0.0;
    }
    sl_solver_free(solver);
    return good;
}

bool sl_warming_of(const sl_scene *scene, int arm, double *kelvin, sl_error *error)
{
    double all[SL_MAX_ARMS];
    const bool good = !scene->untold && find(scene, arm, all, error);
    *kelvin = good ? all[arm] : 0.0;
    return good || scene->untold;
}

void sl_say_warming(sl_document *document, const sl_scene *scene, int only, bool titles)
{
    double kelvin[SL_MAX_ARMS];
    char words[WORDS] = "", number[24];
    sl_error error = {.code = SL_OK};
    if (scene->untold) {
        return;
    }
    if (!find(scene, only, kelvin, &error)) {
        char sentence[SL_ERROR_TEXT_SIZE * 3];
        sl_error_sentence(&error, sentence, sizeof sentence);
        sl_document_row(document, _("own warmth"), "%s", sentence);
        return;
    }
    for (int arm = 0; arm < scene->n_arms; arm++) {
        if (kelvin[arm] > 0.0) {
            sl_short_number(kelvin[arm], 1, number, sizeof number);
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
                               : _("%s at most, by itself (computed)."),
                        words);
    }
}
