/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See settings.h.
 */
#include "front/settings.h"

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/language.h"
#include "front/options.h"
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
    return *arm >= 0 || sl_word_refused("the arm", name, titles, scene->n_arms, error);
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

bool sl_setting_read(sl_setting setting, const char *text, double *value, sl_error *error)
{
    char wanted[SL_ERROR_TEXT_SIZE], found[SL_ERROR_TEXT_SIZE];
    const char *const unit = sl_setting_unit(setting);
    const bool minus = text[0] == '-';
    if (setting == SL_SETTING_COVERED && (strcmp(text, "yes") == 0 || strcmp(text, "no") == 0)) {
        *value = text[0] == 'y' ? 1.0 : 0.0;
        return true;
    }
    const char *rest = setting == SL_SETTING_COVERED ? NULL : sl_decimal_read(text + (minus ? 1 : 0), value);
    if (rest) {
        rest += strspn(rest, " ");
        const bool bare = rest[0] == '\0' && (strcmp(unit, "parts") == 0 || strcmp(unit, "g/g") == 0);
        *value = minus ? -*value : *value;
        if (bare || strcmp(rest, unit) == 0) {
            return true;
        }
    }
    snprintf(found, sizeof found, _("--%s \"%.60s\" is not understood"), sl_setting_word(setting), text);
    snprintf(wanted, sizeof wanted,
             setting == SL_SETTING_COVERED ? _("write yes or no") : _("write a number and %s"), unit);
    return sl_fail(error, SL_ERR_USAGE, found, wanted);
}

static bool refuse_range(const char *option, const char *text, sl_error *error)
{
    char found[SL_ERROR_TEXT_SIZE];
    snprintf(found, sizeof found, _("--%s \"%.60s\" is not understood"), option, text);
    return sl_fail(error, SL_ERR_USAGE, found,
                   "write a setting and two values, such as strength:0..12% or time:5..60min");
}

/* The first value alone may stand without its unit. */
static bool read_first(sl_setting setting, const char *text, double *value, sl_error *error)
{
    const bool minus = text[0] == '-';
    const char *const rest = sl_decimal_read(text + (minus ? 1 : 0), value);
    if (setting != SL_SETTING_COVERED && rest && rest[0] == '\0') {
        *value = minus ? -*value : *value;
        return true;
    }
    return sl_setting_read(setting, text, value, error);
}

bool sl_setting_range_read(const char *option, const char *text, sl_setting *setting, double *from,
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
    for (int s = 0; s < SL_SETTING_COVERED; s++) { /* covered is a yes or no: no axis */
        names[n++] = sl_setting_word((sl_setting)s);
        found = strcmp(word, names[s]) == 0 ? s : found;
    }
    if (found < 0) {
        return sl_word_refused("the setting", word, names, n, error);
    }
    *setting = (sl_setting)found;
    if (!read_first(*setting, first, from, error) || !sl_setting_read(*setting, dots + 2, to, error)) {
        return false;
    }
    return *from < *to || refuse_range(option, text, error);
}

bool sl_digits_read(const char *option, const char *text, long least, long most, long *value, sl_error *error)
{
    char found[SL_ERROR_TEXT_SIZE], wanted[SL_ERROR_TEXT_SIZE], *rest = NULL;
    errno = 0;
    const long number = strtol(text, &rest, 10);
    if (text[0] >= '0' && text[0] <= '9' && rest[0] == '\0' && errno == 0 && number >= least &&
        number <= most) {
        *value = number;
        return true;
    }
    snprintf(found, sizeof found, _("--%s \"%.60s\" is not understood"), option, text);
    snprintf(wanted, sizeof wanted, _("write a whole number from %ld to %ld"), least, most);
    return sl_fail(error, SL_ERR_USAGE, found, wanted);
}

static bool number_read(const char *option, const char *text, const char *unit, sl_interval range,
                        double *value, sl_error *error)
{
    char found[SL_ERROR_TEXT_SIZE], wanted[SL_ERROR_TEXT_SIZE];
    double number = 0.0;
    const char *const rest = sl_decimal_read(text, &number);
    if (rest && strcmp(rest + strspn(rest, " "), unit) == 0 && number >= range.low && number <= range.high) {
        *value = number;
        return true;
    }
    snprintf(found, sizeof found, _("--%s \"%.60s\" is not understood"), option, text);
    snprintf(wanted, sizeof wanted, _("write a number from %g%s to %g%s"), range.low, unit, range.high, unit);
    return sl_fail(error, SL_ERR_USAGE, found, wanted);
}

bool sl_plain_number_read(const char *option, const char *text, double least, double most, double *value,
                          sl_error *error)
{
    return number_read(option, text, "", (sl_interval){least, most}, value, error);
}

bool sl_grams_read(const char *option, const char *text, double least, double most, double *grams,
                   sl_error *error)
{
    return number_read(option, text, "g", (sl_interval){least, most}, grams, error);
}

bool sl_names_picture(const char *path)
{
    static const char *const ends[] = {".png", ".svg", ".pdf"};
    const size_t length = strlen(path), tail = 4;
    for (int i = 0; i < 3; i++) {
        if (length > tail && strcmp(path + length - tail, ends[i]) == 0) {
            return true;
        }
    }
    return false;
}

bool sl_picture_settle(sl_result_wish *wish, sl_error *error)
{
    if (wish->output && sl_names_picture(wish->output) && !wish->picture) {
        wish->picture = wish->output;
        wish->output = NULL;
    }
    if (wish->picture && !sl_names_picture(wish->picture)) {
        char found[SL_ERROR_TEXT_SIZE];
        snprintf(found, sizeof found, _("\"%.120s\" names no kind of picture"), wish->picture);
        return sl_fail(error, SL_ERR_USAGE, found, "end the name in .png, .svg or .pdf");
    }
    if (wish->picture && (wish->csv || wish->json || wish->output)) {
        return sl_fail(error, SL_ERR_USAGE, "a picture and another form together", "ask for one of them");
    }
    return true;
}
