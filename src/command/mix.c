/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * `slowlift mix`: what to weigh for an amount of hair, and how to let a developer down.
 */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/language.h"
#include "command/command.h"
#include "document/text.h"
#include "front/places.h"
#include "front/settings.h"
#include "front/tell.h"
#include "report/plan/cost.h"

typedef struct sl_mix_asked {
    const char *file, *arm;
    double hair_g, g_per_g, liquid_g, waste, scale_g;
    double have_pct, want_pct;
    bool have, want;
    sl_result_wish result;
} sl_mix_asked;

static const sl_option options[] = {
    SL_OPTION(sl_mix_asked, arm, sl_option_text, .name = "arm", .value = N_("NAME"),
              .help = N_("which strip's mix")),
    SL_OPTION(sl_mix_asked, hair_g, sl_option_grams, .name = "hair", .value = N_("GRAMS"), .least = 0.05,
              .most = 5000.0, .help = N_("the hair it is for, such as 16g")),
    SL_OPTION(sl_mix_asked, g_per_g, sl_option_grams_of_mix, .name = "grams", .value = "N",
              .help = N_("grams of mix for one of hair, such as 4")),
    SL_OPTION(sl_mix_asked, waste, sl_option_share, .name = "waste", .value = N_("SHARE"),
              .help = N_("for what stays in the bowl (10%)")),
    SL_OPTION(sl_mix_asked, scale_g, sl_option_grams, .name = "scale", .value = N_("GRAMS"), .least = 0.001,
              .most = 10.0, .help = N_("step of the scale (0.1g)")),
    SL_OPTION_SAID(sl_mix_asked, have_pct, have, sl_option_strength, .name = "have", .value = N_("STRENGTH"),
                   .help = N_("the developer there is, such as 6% or 20vol")),
    SL_OPTION_SAID(sl_mix_asked, want_pct, want, sl_option_strength, .name = "want", .value = N_("STRENGTH"),
                   .help = N_("the one that is wanted")),
    SL_OPTION(sl_mix_asked, liquid_g, sl_option_grams, .name = "liquid", .value = N_("GRAMS"), .least = 0.1,
              .most = 100000.0, .help = N_("how much of it (100g)")),
};
const sl_command_line sl_mix_typed = {
    .name = "mix",
    .line = N_("what to weigh; how to let a developer down"),
    .usage = {N_("--arm NAME --hair GRAMS [OPTIONS] FILE"),
              N_("--have STRENGTH --want STRENGTH [--liquid GRAMS]")},
    .about = N_("What to weigh for a strip's mix and some hair, with the peroxide in liquid and whole mix "
                "and the scale's error; or how much water lets a developer down."),
    .set = {SL_OPTION_SET_OWN(options),
            {&sl_form_options[1], 1, offsetof(sl_mix_asked, result)},
            SL_OPTION_SET(sl_output_options, sl_result_wish, sl_mix_asked, result),
            SL_MODELS_SET(sl_mix_asked, result.models)},
    .example = {{N_("powder and 3 % for eight swatches of 2 g."),
                 {"slowlift mix eight-arms --arm \"powder + 3 %\" --hair 16g"}},
                {N_("only 6 % on the shelf."), {"slowlift mix --have 6% --want 3% --liquid 60g"}}},
    .wants = {SL_WANTS_SCENE},
};

static bool read_asked(sl_mix_asked *asked, int argc, char **argv, sl_error *error)
{
    if (!sl_options_read(&sl_mix_typed, argc, argv, asked, error)) {
        return false;
    }
    if (asked->have != asked->want) {
        return sl_fail(error, SL_ERR_USAGE, "--have and --want belong together",
                       "write both, such as --have 6% --want 3%");
    }
    if (asked->have) {
        return optind == argc ||
               sl_fail(error, SL_ERR_USAGE, "a file was named too", "--have and --want need none");
    }
    if (!asked->arm || asked->hair_g <= 0.0) {
        return sl_fail(error, SL_ERR_USAGE, "a strip and its hair are needed",
                       "write --arm NAME --hair 16g, or --have 6% --want 3%");
    }
    return sl_one_file(&sl_mix_typed, argc, argv, &asked->file, error);
}

/* ---- letting a developer down ------------------------------------------------------------------------- */

/* C1 V1 = C2 V2: for one part of developer, have / want - 1 parts of water. */
static void let_down_say(sl_document *document, const void *of, sl_error *error)
{
    const sl_mix_asked *const asked = of;
    const double have = asked->have_pct, want = asked->want_pct;
    const double water = have / want - 1.0, whole = asked->liquid_g > 0.0 ? asked->liquid_g : 100.0;
    const double developer_g = whole / (1.0 + water);
    char parts[24], from[24], to[24];
    snprintf(parts, sizeof parts, water < 0.095 ? "%.2f" : "%.1f", water);
    sl_short_number(have, 2, from, sizeof from);
    sl_short_number(want, 2, to, sizeof to);
    sl_document_begin(document, "let-down", _("A developer let down with water"), error);
    sl_document_say(document, _("%s %% out of %s %%: 1 part developer to %s parts water by weight."), to,
                    from, parts);
    sl_document_say(document, _("For %g g of liquid: %.1f g developer and %.1f g water."), whole, developer_g,
                    whole - developer_g);
    sl_document_say(document, "%s",
                    _("A developer let down with water is outside many labels: cut swatches only, until a "
                      "label allows it."));
    sl_document_end(document, SL_ON_MIXING);
}

static sl_exit let_down(const sl_mix_asked *asked)
{
    sl_error error = {.code = SL_OK};
    const bool weaker = asked->have_pct > 0.0 && asked->have_pct <= SL_LEGAL_PCT && asked->want_pct > 0.0 &&
                        asked->want_pct <= asked->have_pct;
    const bool good =
        (!asked->result.json || sl_fail(&error, SL_ERR_USAGE, "--json with --have and --want",
                                        "leave it out: there are no figures but those lines")) &&
        (weaker || sl_fail(&error, SL_ERR_USAGE, "water only makes a developer weaker",
                           "have at most 12 %, and want less than you have"));
    return sl_tell(good, &error, &(sl_teller){.say = let_down_say}, asked, &asked->result);
}

/* ---- an arm's mix ---------------------------------------------------------------------------------- */

static bool fill(sl_mixing_page *page, const sl_scene *scene, const sl_mix_asked *asked, sl_error *error)
{
    int arm = 0;
    if (!sl_arm_find(scene, asked->arm, &arm, error)) {
        return false;
    }
    const sl_step *const step = sl_arm_application(&scene->arms[arm]);
    if (!step) {
        return sl_fail(error, SL_ERR_USAGE, "nothing is mixed for this strip", "name a strip with a mix");
    }
    page->mix = &scene->mixes[step->mix];
    page->g_per_g = asked->g_per_g > 0.0 ? asked->g_per_g : step->mix_g_per_g;
    page->exact = sl_weigh(page->mix, &scene->chemistry, page->hair_g, page->g_per_g, page->waste);
    page->shown = sl_weigh_on_scale(page->mix, &scene->chemistry, page->exact, page->scale_g);
    return true;
}

sl_exit sl_command_mix(int argc, char **argv)
{
    sl_error error = {.code = SL_OK};
    sl_mix_asked asked = {.waste = 0.10, .scale_g = 0.1};
    sl_places places;
    if (!read_asked(&asked, argc, argv, &error)) {
        return sl_complain(&error);
    }
    if (asked.have) {
        return let_down(&asked);
    }
    sl_scene *const scene = sl_places_load(&places, asked.result.models, asked.file, &error);
    sl_mixing_page page = {.hair_g = asked.hair_g, .waste = asked.waste, .scale_g = asked.scale_g};
    const bool good = scene && fill(&page, scene, &asked, &error);
    const sl_exit code = sl_tell(
        good, &error, &(sl_teller){.say = sl_mixing_say, .export = &sl_mixing_export}, &page, &asked.result);
    sl_scene_free(scene);
    return code;
}
