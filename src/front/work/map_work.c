/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See map_work.h.
 */
#include "front/work/map_work.h"

#include <math.h>
#include <string.h>

#include "base/language.h"
#include "front/options.h"
#include "front/places.h"
#include "front/settings.h"
#include "slowlift/scene.h"

static const char program[] = "slowlift map";

static const struct option options[] = {
    {"arm", required_argument, NULL, 'a'},     {"x", required_argument, NULL, 'x'},
    {"y", required_argument, NULL, 'y'},       {"zone", required_argument, NULL, 'z'},
    {"show", required_argument, NULL, 's'},    {"csv", no_argument, NULL, 'c'},
    {"json", no_argument, NULL, 'j'},          {"output", required_argument, NULL, 'o'},
    {"picture", required_argument, NULL, 'p'}, {"models", required_argument, NULL, 'm'},
    {"help", no_argument, NULL, 'h'},          {NULL, 0, NULL, 0}};

static bool read_shows(sl_map_layer *shows, const char *word, sl_error *error)
{
    static const char *const words[SL_MAP_LAYERS] = {
        [SL_MAP_LEFT] = "left", [SL_MAP_BASE] = "base", [SL_MAP_STRESS] = "stress"};
    for (int layer = 0; layer < SL_MAP_LAYERS; layer++) {
        if (strcmp(word, words[layer]) == 0) {
            *shows = (sl_map_layer)layer;
            return true;
        }
    }
    return sl_word_refused("what to show,", word, words, SL_MAP_LAYERS, error);
}

static bool read_words(sl_map_work *work, int option, char **argv, sl_error *error)
{
    switch (option) {
    default:
        return sl_result_option(&work->result, option) ||
               sl_option_refused(program, option, argv, options, error);
    }
}

static bool read_option(sl_map_work *work, int option, char **argv, sl_error *error)
{
    switch (option) {
    case 'a':
        work->arm_word = optarg;
        return true;
    case 'x':
        work->x_word = optarg;
        return true;
    case 'y':
        work->y_word = optarg;
        return true;
    case 'z':
        work->zone_word = optarg;
        return true;
    case 's':
        return read_shows(&work->shows, optarg, error);
    default:
        return read_words(work, option, argv, error);
    }
}

bool sl_map_work_read(sl_map_work *work, int argc, char **argv, sl_error *error)
{
    int option = 0;
    opterr = 0;
    work->x_word = "strength:0..12%";
    work->y_word = "time:5..60min";
    while ((option = sl_option_next(argc, argv, ":o:", options)) != -1) {
        if (!read_option(work, option, argv, error)) {
            return false;
        }
    }
    if (!sl_result_settle(&work->result, error)) {
        return false;
    }
    if (!work->arm_word) {
        return sl_fail(error, SL_ERR_USAGE, "no arm was named", "write --arm NAME");
    }
    return sl_picture_settle(&work->result, error) && sl_one_file(program, argc, argv, &work->file, error);
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

static bool read_axis(sl_axis *axis, int *coarse, const char *option, const char *text, const sl_scene *scene,
                      int arm, sl_error *error)
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
    if (!read_axis(&x, &work->coarse_x, "x", work->x_word, work->scene, arm, error) ||
        !read_axis(&y, &work->coarse_y, "y", work->y_word, work->scene, arm, error)) {
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
