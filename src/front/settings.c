/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See settings.h.
 */
#include "front/settings.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/language.h"
#include "report/reading.h"
#include "scene/yaml/quantity.h"
#include "slowlift/odds.h"

bool sl_arm_find(const sl_scene *scene, const char *name, int *arm, sl_error *error)
{
    const char *titles[SL_MAX_ARMS];
    for (int i = 0; i < scene->n_arms; i++) {
        titles[i] = sl_arm_title(&scene->arms[i]);
    }
    *arm = sl_scene_arm_typed(scene, name);
    return *arm >= 0 || sl_word_refused("the strip", name, titles, scene->n_arms, error);
}

bool sl_zone_find(const sl_scene *scene, const char *name, bool direct, int *zone, sl_error *error)
{
    const char *titles[SL_MAX_ZONES];
    int n = 0;
    *zone = name ? sl_scene_zone_typed(scene, name) : -1;
    if (!name || (*zone >= 0 && (!direct || sl_zone_direct(scene, *zone)))) {
        return true;
    }
    *zone = -1;
    for (int i = 0; i < scene->n_zones; i++) {
        if (!direct || sl_zone_direct(scene, i)) {
            titles[n++] = sl_zone_title(&scene->zones[i]);
        }
    }
    return sl_word_refused(direct ? N_("the zone with a direct dye") : N_("the zone"), name, titles, n,
                           error);
}

/* What a setting's value may end in: its unit, nothing where that is only a counting word, and "vol" for a
 * strength. */
static bool read_ended(sl_setting setting, const char *text, double *value)
{
    const char *const unit = sl_knobs[setting].unit;
    const bool minus = text[0] == '-';
    double number = 0.0;
    const char *rest = sl_decimal_read(text + (minus ? 1 : 0), &number);
    if (!rest) {
        return false;
    }
    rest += strspn(rest, " ");
    const bool bare = rest[0] == '\0' && (strcmp(unit, "parts") == 0 || strcmp(unit, "g/g") == 0);
    const bool vol = setting == SL_SETTING_STRENGTH && !minus && strcmp(rest, "vol") == 0;
    *value = vol ? sl_strength_of_volume(number) : minus ? -number : number;
    return bare || vol || strcmp(rest, unit) == 0;
}

bool sl_setting_read(sl_setting setting, const sl_option *option, const char *text, double *value,
                     sl_error *error)
{
    char wanted[SL_ERROR_TEXT_SIZE];
    if (setting == SL_SETTING_COVERED) {
        *value = text[0] == 'y' ? 1.0 : 0.0;
        return strcmp(text, "yes") == 0 || strcmp(text, "no") == 0 ||
               sl_value_refused(option, text, _("write yes or no"), error);
    }
    if (read_ended(setting, text, value)) {
        return true;
    }
    snprintf(wanted, sizeof wanted,
             setting == SL_SETTING_STRENGTH ? _("write a number and %s, or vol") : _("write a number and %s"),
             sl_knobs[setting].unit);
    return sl_value_refused(option, text, wanted, error);
}

bool sl_option_strength(const sl_option *option, const char *text, void *place, sl_error *error)
{
    return sl_setting_read(SL_SETTING_STRENGTH, option, text, place, error);
}

bool sl_option_grams_of_mix(const sl_option *option, const char *text, void *place, sl_error *error)
{
    return sl_setting_read(SL_SETTING_GRAMS, option, text, place, error);
}

static bool refuse_range(const sl_option *option, const char *text, sl_error *error)
{
    return sl_value_refused(
        option, text, _("write a setting and two values, such as strength:0..12% or time:5..60min"), error);
}

/* The first value alone may stand without its unit. */
static bool read_first(sl_setting setting, const sl_option *option, const char *text, double *value,
                       sl_error *error)
{
    const bool minus = text[0] == '-';
    const char *const rest = sl_decimal_read(text + (minus ? 1 : 0), value);
    if (setting != SL_SETTING_COVERED && rest && rest[0] == '\0') {
        *value = minus ? -*value : *value;
        return true;
    }
    return sl_setting_read(setting, option, text, value, error);
}

bool sl_setting_range_read(const sl_option *option, const char *text, sl_setting *setting, double *from,
                           double *to, sl_error *error)
{
    char word[24], first[40];
    const char *const colon = strchr(text, ':');
    const char *const dots = colon ? strstr(colon, "..") : NULL;
    if (!dots || (size_t)(colon - text) >= sizeof word || (size_t)(dots - colon) > sizeof first) {
        return refuse_range(option, text, error);
    }
    snprintf(word, sizeof word, "%.*s", (int)(colon - text), text);
    snprintf(first, sizeof first, "%.*s", (int)(dots - colon - 1), colon + 1);
    const char *names[SL_SETTINGS];
    int found = -1, n = 0;
    for (int s = 0; s < SL_SETTINGS; s++) {
        if ((sl_knobs[s].where & SL_KNOB_AXIS) != 0) { /* a yes or no is none */
            names[n++] = sl_knobs[s].word;
            found = strcmp(word, sl_knobs[s].word) == 0 ? s : found;
        }
    }
    if (found < 0) {
        return sl_word_refused("the setting", word, names, n, error);
    }
    *setting = (sl_setting)found;
    if (!read_first(*setting, option, first, from, error) ||
        !sl_setting_read(*setting, option, dots + 2, to, error)) {
        return false;
    }
    return *from < *to || refuse_range(option, text, error);
}
