/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Words for light, observer and look, and "STRIP/ZONE".
 */
#include "front/viewing.h"

#include <string.h>

#include "base/language.h"

static const char *const lights[SL_LIGHT_COUNT] = {
    [SL_LIGHT_D65] = "daylight", [SL_LIGHT_A] = "lamp", [SL_LIGHT_WARM_LED] = "led"};
static const char *const observers[SL_OBSERVER_COUNT] = {
    [SL_OBSERVER_2_DEGREE] = "2", [SL_OBSERVER_10_DEGREE] = "10"};
static const char *const looks[SL_LOOK_COUNT] = {
    [SL_LOOK_DRY] = "dry", [SL_LOOK_WET] = "wet", [SL_LOOK_UNDER_MIX] = "mix"};
static const char *const visions[SL_VISION_COUNT] = {[SL_VISION_FULL] = "full",
                                                     [SL_VISION_PROTAN] = "protan",
                                                     [SL_VISION_DEUTAN] = "deutan",
                                                     [SL_VISION_TRITAN] = "tritan",
                                                     [SL_VISION_GREY] = "grey"};
static const sl_word_list light_list = {N_("the light"), lights, SL_LIGHT_COUNT};
static const sl_word_list observer_list = {N_("the observer"), observers, SL_OBSERVER_COUNT};
/* Rinsed hair, and with it hair as it lies under the mix, which is the last. */
const sl_word_list sl_looks = {N_("the look"), looks, SL_LOOK_UNDER_MIX};
static const sl_word_list lying_looks = {N_("the look"), looks, SL_LOOK_COUNT};
static const sl_word_list vision_list = {N_("the vision"), visions, SL_VISION_COUNT};

const sl_option sl_light_options[2] = {
    SL_OPTION(sl_viewing, light, sl_option_choice, .name = "light", .value = N_("WORD"),
              .help = N_("daylight (the usual), lamp or led: the light of every colour"),
              .choice = &light_list),
    SL_OPTION(sl_viewing, observer, sl_option_choice, .name = "observer", .value = "N",
              .help = N_("2 (the usual) or 10 degrees: how much of the eye looks"), .choice = &observer_list),
};
const sl_option sl_lying_options[1] = {
    SL_OPTION(sl_viewing, look, sl_option_choice, .name = "look", .value = N_("WORD"),
              .help = N_("dry (the usual), wet or mix (as it lies at its moment)"), .choice = &lying_looks)};
const sl_option sl_vision_options[1] = {
    SL_OPTION_ALONE(sl_option_choice, .name = "vision", .value = N_("WORD"),
                    .help = N_("full, protan, deutan, tritan or grey: whose eyes"), .choice = &vision_list)};

static bool is_word(const char *word, const char *text, size_t length)
{
    return strlen(word) == length && strncmp(word, text, length) == 0;
}

static int arm_named(const sl_scene *scene, const char *name, size_t length)
{
    for (int arm = 0; arm < scene->n_arms; arm++) {
        const sl_arm *const here = &scene->arms[arm];
        if (is_word(here->name, name, length) || is_word(sl_arm_title(here), name, length)) {
            return arm;
        }
    }
    return -1;
}

static bool refuse_spot(const char *word, const sl_scene *scene, int arm, const char *zone, sl_error *error)
{
    const char *titles[SL_MAX_ARMS];
    if (arm >= 0) {
        for (int i = 0; i < scene->n_zones; i++) {
            titles[i] = sl_zone_title(&scene->zones[i]);
        }
        return sl_word_refused("the zone", zone, titles, scene->n_zones, error);
    }
    char found[160];
    snprintf(found, sizeof found, "%.*s", (int)strcspn(word, "/"), word);
    if (strchr(word, '/') == NULL) {
        return sl_fail(error, SL_ERR_USAGE, "a spot without a zone",
                       "write STRIP/ZONE, such as \"strip 1/red\"");
    }
    for (int i = 0; i < scene->n_arms; i++) {
        titles[i] = sl_arm_title(&scene->arms[i]);
    }
    return sl_word_refused("the strip", found, titles, scene->n_arms, error);
}

bool sl_spot_read(const char *word, const sl_scene *scene, sl_spot_of *spot, sl_error *error)
{
    int last_arm = -1;
    const char *last_zone = "";
    for (const char *stroke = strchr(word, '/'); stroke != NULL; stroke = strchr(stroke + 1, '/')) {
        const int arm = arm_named(scene, word, (size_t)(stroke - word));
        const int zone = arm >= 0 ? sl_scene_zone_typed(scene, stroke + 1) : -1;
        if (zone >= 0) {
            *spot = (sl_spot_of){.arm = arm, .zone = zone};
            return true;
        }
        last_zone = arm >= 0 ? stroke + 1 : last_zone;
        last_arm = arm >= 0 ? arm : last_arm;
    }
    return refuse_spot(word, scene, last_arm, last_zone, error);
}
