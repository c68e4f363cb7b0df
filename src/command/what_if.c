/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * `slowlift what-if`: one arm before and after a change.
 */
#include <string.h>

#include "base/language.h"
#include "command/command.h"
#include "front/places.h"
#include "front/settings.h"
#include "front/tell.h"
#include "report/run/pair.h"
#include "scene/yaml/quantity.h"
#include "slowlift/leave.h"

typedef struct sl_what_if_asked {
    const char *file, *arm, *rounds;
    const char *value[SL_SETTINGS]; /* as written; NULL: not asked for */
    sl_result_wish result;
} sl_what_if_asked;

#define OPTION(NAME, its_word, unit, least, most, track, step, where, its_value, its_help, axis, panel)      \
    SL_OPTION(sl_what_if_asked, value[SL_SETTING_##NAME], sl_option_text, .name = #its_word,                 \
              .value = (its_value), .help = (its_help)),
/* The first are the knobs, in their order. */
static const sl_option options[] = {
    SL_KNOB_LIST(OPTION) SL_OPTION(
        sl_what_if_asked, rounds, sl_option_text, .name = "rounds", .value = N_("NxTIME"),
        .help = N_("fresh applications such as 2x15min, a rinse between, against one of as long; by itself")),
    SL_OPTION(sl_what_if_asked, arm, sl_option_text, .name = "arm", .value = N_("NAME"),
              .help = N_("which strip")),
};
#undef OPTION
const sl_command_line sl_what_if_typed = {
    .name = "what-if",
    .line = N_("one strip before and after a change"),
    .usage = {N_("--arm NAME CHANGE... [OPTIONS] FILE")},
    .about = N_(
        "One strip as the file says and changed, side by side, once it is washed and dry: colour left, base "
        "and hair stress, and on the bench the minutes to the goal. One change at a time tells what did it."),
    .set = {SL_OPTION_SET_OWN(options), SL_RESULT_SETS(sl_what_if_asked)},
    .words = SL_TYPED_WORDS(sl_what_if_asked, file, 1, 1),
    .example = {{N_("what would 3 % have done where 6 % was used?"),
                 {"slowlift what-if eight-arms --arm \"powder + 6 %\" --strength 3%"}}},
    .wants = {SL_WANTS_SCENE},
};

static bool read_asked(sl_what_if_asked *asked, int argc, char **argv, sl_error *error)
{
    return sl_options_read(&sl_what_if_typed, argc, argv, asked, error) &&
           (asked->arm || sl_fail(error, SL_ERR_USAGE, "no strip was named", "write --arm NAME"));
}

/* "2x15min": rounds and the time of each. */
static bool read_rounds(sl_pair *pair, const char *text, sl_error *error)
{
    char found[SL_ERROR_TEXT_SIZE];
    int rounds = 0, used = 0;
    double minutes = 0.0;
    if (sscanf(text, "%2d%n", &rounds, &used) == 1 && used > 0) {
        const char *rest = text + used + strspn(text + used, " ");
        rest = rest[0] == 'x' ? sl_decimal_read(rest + 1 + strspn(rest + 1, " "), &minutes) : NULL;
        rest = rest ? rest + strspn(rest, " ") : NULL;
        const double most = sl_knobs[SL_SETTING_DWELL].most;
        if (rest && strcmp(rest, "min") == 0 && rounds >= 2 && minutes >= 1.0 && rounds * minutes <= most) {
            pair->rounds = rounds;
            pair->round_min = minutes;
            return true;
        }
    }
    snprintf(found, sizeof found, _("--rounds \"%.60s\" is not understood"), text);
    return sl_fail(
        error, SL_ERR_USAGE, found,
        "write applications and the time of each, such as 2x15min; two at least, 120 min in all at most");
}

/* Minutes are asked about where the hair lies before and after the changes; a warmer bench may be a head. */
static bool may_time(const sl_what_if_asked *asked, const sl_scene *scene, int arm, const sl_changes *changes,
                     sl_error *error)
{
    static const char instead[] = N_("leave out --time and --rounds");
    sl_variant changed;
    if (!asked->value[SL_SETTING_DWELL] && !asked->rounds) {
        return true;
    }
    sl_variant_make(&changed, scene, arm, changes);
    return sl_swatches_only(scene, instead, error) && sl_swatches_only(&changed.scene, instead, error);
}

static bool read_changes(sl_changes *changes, const sl_what_if_asked *asked, const sl_scene *scene, int arm,
                         sl_error *error)
{
    bool any = asked->rounds != NULL;
    for (int s = 0; s < SL_SETTINGS; s++) {
        double value = 0.0;
        any = any || asked->value[s];
        if (asked->value[s] && asked->rounds) {
            return sl_fail(error, SL_ERR_USAGE, "--rounds and another change together",
                           "compare applications by themselves: one change at a time");
        }
        if (asked->value[s] &&
            (!sl_setting_read((sl_setting)s, &options[s], asked->value[s], &value, error) ||
             !sl_changes_set(changes, scene, arm, (sl_setting)s, value, error))) {
            return false;
        }
    }
    return (any ||
            sl_fail(error, SL_ERR_USAGE, "no change was asked for", "write one, such as --strength 3%")) &&
           may_time(asked, scene, arm, changes, error);
}

/* One side of the pair: in so many rounds (of as long as all of them together), or with the changes. */
static bool side(sl_outcome *outcome, const sl_pair *pair, int rounds, const sl_changes *changes,
                 sl_timeline **timeline, sl_solver *solver, sl_error *error)
{
    const double minutes = rounds > 0 ? pair->rounds * pair->round_min / rounds : 0.0;
    sl_variant variant;
    if (rounds == 0) {
        sl_variant_make(&variant, pair->scene, pair->arm, changes);
    } else if (!sl_variant_rounds(&variant, pair->scene, pair->arm, rounds, minutes, error)) {
        return false;
    }
    return sl_outcome_of(outcome, &variant.scene, 0, timeline, solver, error) &&
           sl_outcome_find_limits(outcome, 0, *timeline, solver, error);
}

static bool compute(sl_pair *pair, sl_error *error)
{
    sl_timeline *timeline = NULL;
    sl_solver *const solver = sl_solver_new(error);
    const int once = pair->rounds > 0 ? 1 : 0;
    const bool good = solver && side(&pair->before, pair, once, NULL, &timeline, solver, error) &&
                      side(&pair->after, pair, pair->rounds, pair->changes, &timeline, solver, error);
    sl_timeline_free(timeline);
    sl_solver_free(solver);
    return good;
}

sl_exit sl_command_what_if(int argc, char **argv)
{
    sl_error error = {.code = SL_OK};
    sl_what_if_asked asked = {.file = NULL};
    sl_changes changes = {.set = {false}};
    sl_places places;
    sl_pair pair = {.changes = &changes};
    sl_scene *scene = read_asked(&asked, argc, argv, &error)
                          ? sl_places_load(&places, asked.result.models, asked.file, &error)
                          : NULL;
    pair.scene = scene;
    const bool good = scene && sl_arm_find(scene, asked.arm, &pair.arm, &error) &&
                      read_changes(&changes, &asked, scene, pair.arm, &error) &&
                      (!asked.rounds || read_rounds(&pair, asked.rounds, &error)) && compute(&pair, &error);
    const sl_exit code = sl_tell(good, &error, &(sl_teller){.say = sl_pair_say, .export = &sl_pair_export},
                                 &pair, &asked.result);
    sl_scene_free(scene);
    return code;
}
