/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What each arm is: its mix by weight, the peroxide in the liquid after dilution and on
 * the hair, the grams for one swatch, pH, and when it is on the hair. One row for each
 * application, so that a second round stands under the first.
 */
#include "base/language.h"
#include "base/minute.h"
#include "document/text.h"
#include "report/reading.h"
#include "report/run/table.h"
#include "slowlift/plan.h"

static const double waste_share = 0.10; /* what stays in bowl and brush: common practice, no source */

static bool starred(const sl_mix *mix)
{
    return !mix->label_allows && mix->class_ != SL_MIX_WATER;
}

static void say_number(sl_document *document, double value, int decimals)
{
    sl_document_entry(document, (sl_entry){.kind = SL_ENTRY_NUMBER, .value = value, .decimals = decimals});
}

/* Three weights or parts, "1:2:0". */
static void say_three(sl_document *document, const double weight[3], int decimals, char between)
{
    char words[3][24];
    for (int i = 0; i < 3; i++) {
        sl_short_number(weight[i], decimals, words[i], sizeof words[i]);
    }
    sl_document_cell(document, "%s%c%s%c%s", words[0], between, words[1], between, words[2]);
}

static void say_ph(sl_document *document, const sl_mix *mix)
{
    char typed[24];
    if (!(mix->ph.value > 0.0)) {
        sl_document_cell(document, "-");
    } else if (mix->ph_computed) {
        say_number(document, mix->ph.value, 1);
    } else {
        sl_short_number(mix->ph.value, 1, typed, sizeof typed);
        /* TRANSLATORS: behind a pH that somebody typed */
        sl_document_cell(document, _("%s t"), typed);
    }
}

/* What follows the arm's name. */
static void say_application(sl_document *document, const sl_scene *scene, const sl_step *step, double clock)
{
    const sl_mix *mix = &scene->mixes[step->mix];
    const sl_weighing weighing =
        sl_weigh(mix, &scene->chemistry, scene->hair_g, step->mix_g_per_g, waste_share);
    char from[24], to[24];
    sl_document_cell(document, "%s", mix->name);
    say_three(document, (double[]){mix->powder_parts, mix->developer_parts, mix->water_parts}, 2, ':');
    say_number(document, weighing.liquid_pct, 1);
    say_number(document, weighing.liquid_vol, 0);
    say_number(document, weighing.on_hair_pct, 1);
    say_three(document, (double[]){weighing.powder_g, weighing.developer_g, weighing.water_g}, 1, '+');
    say_ph(document, mix);
    sl_clock_time(SL_MINUTE_PLANNED, clock, from, sizeof from);
    sl_clock_time(SL_MINUTE_PLANNED, clock + step->duration_min, to, sizeof to);
    sl_document_cell(document, "%s-%s%s", from, to, starred(mix) ? "*" : " ");
}

static void say_arm(sl_document *document, const sl_scene *scene, const sl_arm *arm)
{
    int applications = 0;
    char words[96];
    for (int i = 0; i < arm->n_steps; i++) {
        if (arm->steps[i].kind == SL_STEP_APPLY) {
            sl_document_cell(document, applications == 0 ? "%s" : "  %s",
                             applications == 0 ? sl_arm_title(arm) : _("then"));
            say_application(document, scene, &arm->steps[i],
                            arm->contact_min + sl_arm_minutes_before(arm, i));
            applications++;
        }
    }
    if (applications == 0) {
        sl_document_cell(document, "%s", sl_arm_title(arm));
        sl_washing_words(arm, words, sizeof words);
        sl_document_rest(document, words);
    }
}

void sl_run_say_mixes(sl_document *document, const sl_run_page *page)
{
    static const sl_text_column columns[] = {
        {N_("strip"), 4.0, SL_NAME},    {N_("mix"), 2.0, 0},        {N_("parts"), 1.0, SL_RIGHT},
        {N_("liquid"), 1.0, SL_RIGHT},  {N_("vol"), 1.0, SL_RIGHT}, {N_("on hair"), 1.0, SL_RIGHT},
        {N_("weigh g"), 1.0, SL_RIGHT}, {N_("pH"), 1.0, SL_RIGHT},  {N_("min on"), 1.0, SL_RIGHT}};
    const sl_scene *const scene = page->scene;
    char swatch[24], heading[128];
    bool any_starred = false;
    sl_short_number(scene->hair_g, 1, swatch, sizeof swatch);
    snprintf(heading, sizeof heading,
             _("MIXES (parts and grams: powder, developer, water; one swatch of %s g of hair)"), swatch);
    sl_document_heading(document, heading);
    sl_document_table(document, "", 9, columns, 0.0);
    for (int arm = 0; arm < scene->n_arms; arm++) {
        say_arm(document, scene, &scene->arms[arm]);
    }
    /* xgettext:no-c-format */
    sl_document_say(document, "%s",
                    _("liquid: peroxide in the liquid after dilution, % and vol; on hair: in the whole mix. "
                      "Grams hold one tenth more for what stays in the bowl."));
    sl_document_say(document, "%s",
                    _("pH: at 25 °C, computed from what the mix holds, or typed (t); it falls with warmth and age."));
    for (int i = 0; i < scene->n_mixes; i++) {
        any_starred = any_starred || starred(&scene->mixes[i]);
    }
    if (any_starred) {
        sl_document_say(document, "* %s",
                        _("not stated that the label allows this liquid and ratio: swatch only"));
    }
}
