/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * `slowlift mix`: what to weigh for an amount of hair, and how to let a developer down.
 */
#include <errno.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/language.h"
#include "command/command.h"
#include "document/renderers.h"
#include "front/options.h"
#include "front/places.h"
#include "front/settings.h"
#include "front/times.h"
#include "report/plan/cost.h"
#include "scene/yaml/quantity.h"

typedef struct sl_mix_asked {
    const char *file, *models, *arm, *have, *want;
    double hair_g, g_per_g, liquid_g, waste, scale_g;
    bool json;
} sl_mix_asked;

enum { HAIR = 1, GRAMS, WASTE, SCALE, HAVE, WANT, LIQUID };

static const struct option options[] = {
    {"arm", required_argument, NULL, 'a'},     {"hair", required_argument, NULL, HAIR},
    {"grams", required_argument, NULL, GRAMS}, {"waste", required_argument, NULL, WASTE},
    {"scale", required_argument, NULL, SCALE}, {"have", required_argument, NULL, HAVE},
    {"want", required_argument, NULL, WANT},   {"liquid", required_argument, NULL, LIQUID},
    {"json", no_argument, NULL, 'j'},          {"models", required_argument, NULL, 'm'},
    {"help", no_argument, NULL, 'h'},          {NULL, 0, NULL, 0}};

static bool read_option(sl_mix_asked *asked, int option, char **argv, sl_error *error)
{
    switch (option) {
    case 'a':
        asked->arm = optarg;
        return true;
    case HAIR:
        return sl_grams_read("hair", optarg, 0.05, 5000.0, &asked->hair_g, error);
    case GRAMS:
        return sl_setting_read(SL_SETTING_GRAMS, optarg, &asked->g_per_g, error);
    case WASTE:
        return sl_share_read_as("--waste", optarg, &asked->waste, error);
    case SCALE:
        return sl_grams_read("scale", optarg, 0.001, 10.0, &asked->scale_g, error);
    case HAVE:
        asked->have = optarg;
        return true;
    case WANT:
        asked->want = optarg;
        return true;
    case LIQUID:
        return sl_grams_read("liquid", optarg, 0.1, 100000.0, &asked->liquid_g, error);
    case 'j':
        asked->json = true;
        return true;
    case 'm':
        asked->models = optarg;
        return true;
    default:
        return sl_option_refused("slowlift mix", option, argv, options, error);
    }
}

static bool read_asked(sl_mix_asked *asked, int argc, char **argv, sl_error *error)
{
    int option = 0;
    opterr = 0;
    while ((option = sl_option_next(argc, argv, ":", options)) != -1) {
        if (!read_option(asked, option, argv, error)) {
            return false;
        }
    }
    if ((asked->have != NULL) != (asked->want != NULL)) {
        return sl_fail(error, SL_ERR_USAGE, "--have and --want belong together",
                       "write both, such as --have 6% --want 3%");
    }
    if (asked->have) {
        return optind == argc ||
               sl_fail(error, SL_ERR_USAGE, "a file was named too", "--have and --want need none");
    }
    if (!asked->arm || asked->hair_g <= 0.0) {
        return sl_fail(error, SL_ERR_USAGE, "an arm and its hair are needed",
                       "write --arm NAME --hair 16g, or --have 6% --want 3%");
    }
    return sl_one_file("slowlift mix", argc, argv, &asked->file, error);
}

/* ---- letting a developer down ------------------------------------------------------------------------- */

/* C1 V1 = C2 V2: for one part of developer, have / want - 1 parts of water. */
static sl_exit dilute(const sl_mix_asked *asked)
{
    sl_error error = {.code = SL_OK};
    double have = 0.0, want = 0.0;
    if (!sl_setting_read(SL_SETTING_STRENGTH, asked->have, &have, &error) ||
        !sl_setting_read(SL_SETTING_STRENGTH, asked->want, &want, &error)) {
        return sl_complain(&error);
    }
    if (!(have > 0.0) || have > SL_LEGAL_PCT || !(want > 0.0) || want > have) {
        sl_fail(&error, SL_ERR_USAGE, "water only makes a developer weaker",
                "have at most 12 %, and want less than you have");
        return sl_complain(&error);
    }
    const double water = have / want - 1.0, whole = asked->liquid_g > 0.0 ? asked->liquid_g : 100.0;
    const double developer_g = whole / (1.0 + water);
    char parts[24];
    snprintf(parts, sizeof parts, water < 0.095 ? "%.2f" : "%.1f", water);
    errno = 0;
    printf(_("%g %% out of %g %%: 1 part developer to %s parts water by weight.\n"), want, have, parts);
    printf(_("For %g g of liquid: %.1f g developer and %.1f g water.\n"), whole, developer_g,
           whole - developer_g);
    printf("%s\n",
           _("A developer let down with water is outside many labels: cut swatches only, until a label "
             "allows it."));
    return sl_finish_output(ferror(stdout) == 0);
}

/* ---- an arm's mix
 * ------------------------------------------------------------------------------------------ */

static bool fill(sl_mixing_page *page, const sl_scene *scene, const sl_mix_asked *asked, sl_error *error)
{
    int arm = 0;
    if (!sl_arm_find(scene, asked->arm, &arm, error)) {
        return false;
    }
    const sl_step *const step = sl_arm_application(&scene->arms[arm]);
    if (!step) {
        return sl_fail(error, SL_ERR_USAGE, "nothing is mixed for this arm", "name an arm with a mix");
    }
    page->mix = &scene->mixes[step->mix];
    page->g_per_g = asked->g_per_g > 0.0 ? asked->g_per_g : step->mix_g_per_g;
    page->exact = sl_weigh(page->mix, &scene->chemistry, page->hair_g, page->g_per_g, page->waste);
    page->shown = sl_weigh_on_scale(page->mix, &scene->chemistry, page->exact, page->scale_g);
    return true;
}

static bool print(const sl_mixing_page *page)
{
    sl_document document;
    sl_error error = {.code = SL_OK};
    sl_mixing_say(&document, page, &error);
    return sl_document_print(stdout, &document, NULL);
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
        return dilute(&asked);
    }
    sl_scene *const scene = sl_places_load(&places, asked.models, asked.file, &error);
    sl_mixing_page page = {.hair_g = asked.hair_g, .waste = asked.waste, .scale_g = asked.scale_g};
    sl_exit code = SL_EXIT_OK;
    if (scene && fill(&page, scene, &asked, &error)) {
        errno = 0;
        code = sl_finish_output(asked.json ? sl_mixing_json(stdout, &page) : print(&page));
    } else {
        code = sl_complain(&error);
    }
    sl_scene_free(scene);
    return code;
}
