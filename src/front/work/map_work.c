/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See map_work.h.
 */
#include "front/work/map_work.h"

#include <math.h>
#include <string.h>

#include "base/language.h"
#include "front/places.h"
#include "front/settings.h"
#include "slowlift/scene.h"

static const char *const layer_words[SL_MAP_LAYERS] = {
    [SL_MAP_LEFT] = "left", [SL_MAP_BASE] = "base", [SL_MAP_STRESS] = "stress"};
static const sl_word_list layers = {N_("what to show,"), layer_words, SL_MAP_LAYERS};

enum { AXIS_X = 1, AXIS_Y }; /* rows */
static const sl_option options[] = {
    SL_OPTION(sl_map_work, arm_word, sl_option_text, .name = "arm", .value = N_("NAME"),
              .help = N_("which strip")),
    SL_OPTION(sl_map_work, x_word, sl_option_text, .name = "x", .value = N_("SETTING:FROM..TO"),
              .help =
                  N_("across (strength:0..12%): strength, water, ratio, warmer, time, age or grams, as for "
                     "what-if")),
    SL_OPTION(sl_map_work, y_word, sl_option_text, .name = "y", .value = N_("SETTING:FROM..TO"),
              .help = N_("up (time:5..60min)")),
    SL_OPTION(sl_map_work, shows, sl_option_choice, .name = "show", .value = N_("WORD"),
              .help = N_("left (colour left, the usual), base or stress"), .choice = &layers),
    SL_OPTION(sl_map_work, zone_word, sl_option_text, .name = "zone", .value = N_("NAME"),
              .help = N_("colour left of this zone; the usual is the one that holds most")),
};
const sl_command_line sl_map_typed = {
    .name = "map",
    .line = N_("one strip over two of its settings"),
    .usage = {N_("--arm NAME [OPTIONS] FILE")},
    .about = N_("What comes of one strip over two of its settings, such as strength and time: colour left, "
                "base or hair stress once washed and dry, where the goal is reached, and where that is "
                "inside every limit that the scene sets. A picture has lines of equal value, and what lies "
                "inside the limits is hatched. Swatches on a bench only."),
    .set = {SL_OPTION_SET_OWN(options), SL_DRAWN_RESULT_SETS(sl_map_work)},
    .words = SL_TYPED_WORDS(sl_map_work, file, 1, 1),
    .example = {{N_("strength against time, for the class."),
                 {"slowlift map way-wide --arm \"powder + 3 %\" -o map.pdf"}}},
    .wants = {SL_WANTS_SCENE},
};

bool sl_map_work_read(sl_map_work *work, int argc, char **argv, sl_error *error)
{
    work->x_word = "strength:0..12%";
    work->y_word = "time:5..60min";
    if (!sl_options_read(&sl_map_typed, argc, argv, work, error)) {
        return false;
    }
    if (!work->arm_word) {
        return sl_fail(error, SL_ERR_USAGE, "no strip was named", "write --arm NAME");
    }
    return true;
}

/* Steps that a reader likes: 1, 2, 2.5 or 5 times a power of ten, 5 to 12 of them; 8 when none fits. */
static int coarse_steps(double from, double to)
{
    static const double liked[] = {1.0, 2.0, 2.5, 5.0};
    const double span = to - from;
    const double tenth = pow(10.0, floor(log10(span)) - 1.0);
    for (int i = 0; i < 8; i++) {
        const double steps = span / (liked[i % 4] * tenth * (i < 4 ? 1.0 : 10.0));
        if (steps < 12.5 && steps > 4.5 && fabs(steps - round(steps)) < 1e-6) {
            return (int)lround(steps);
        }
    }
    return 8;
}

static bool read_axis(sl_axis *axis, int *coarse, const sl_option *option, const char *text,
                      const sl_scene *scene, int arm, sl_error *error)
{
    sl_changes ends = {.set = {false}};
    if (!sl_setting_range_read(option, text, &axis->setting, &axis->from, &axis->to, error) ||
        !sl_changes_set(&ends, scene, arm, axis->setting, axis->from, error) ||
        !sl_changes_set(&ends, scene, arm, axis->setting, axis->to, error)) {
        return false;
    }
    const int steps = coarse_steps(axis->from, axis->to), finest = 24;
    *coarse = finest / steps > 1 ? finest / steps : 1;
    axis->n = steps * *coarse + 1;
    return true;
}

bool sl_map_work_compute(sl_map_work *work, sl_error *error)
{
    sl_places places;
    sl_axis x, y;
    int arm = 0, zone = -1;
    work->scene = sl_places_load(&places, work->result.models, work->file, error);
    if (!work->scene || !sl_arm_find(work->scene, work->arm_word, &arm, error) ||
        !sl_zone_find(work->scene, work->zone_word, true, &zone, error)) {
        return false;
    }
    if (!read_axis(&x, &work->coarse_x, &options[AXIS_X], work->x_word, work->scene, arm, error) ||
        !read_axis(&y, &work->coarse_y, &options[AXIS_Y], work->y_word, work->scene, arm, error)) {
        return false;
    }
    if (x.setting == y.setting) {
        return sl_fail(error, SL_ERR_USAGE, "--x and --y change the same thing", "choose two settings");
    }
    work->solver = sl_solver_new(error);
    return work->solver && sl_map_make(&work->map, work->scene, arm, zone, x, y, NULL, work->solver, error);
}

void sl_map_work_free(sl_map_work *work)
{
    sl_map_free(work->map);
    sl_solver_free(work->solver);
    sl_scene_free(work->scene);
}
