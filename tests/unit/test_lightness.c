/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * How light a strip looks as it is drawn: every zone of every shipped scene, at its begin, on the way and at
 * its end, through the code that draws strips in the window and on paper.
 */
#include <dirent.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "slowlift/scene.h"
#include "slowlift/timeline.h"
#include "suite.h"
#include "swatch/strands.h"
#include "swatch/strip.h"

enum { WIDTH = 108, HEIGHT = 360, MOMENTS = 3 };
static uint32_t sheet[HEIGHT * WIDTH];
static sl_light_table table;

typedef struct lightness {
    double mean, spread; /* L*, and its standard deviation from pixel to pixel */
} lightness;

static double lightness_of(uint32_t pixel)
{
    const sl_srgb8 c = {(uint8_t)(pixel >> 16), (uint8_t)(pixel >> 8), (uint8_t)pixel};
    return sl_lab_of_xyz(sl_xyz_of_srgb8(c)).L;
}

/* The middle half of a zone's width, and its height without the borders that run into the next. */
static lightness drawn_lightness(int n_zones, int zone)
{
    const double high = (double)HEIGHT / n_zones, border = 0.3 * high;
    double sum = 0.0, squares = 0.0;
    int n = 0;
    for (int y = (int)ceil(zone * high + border); y < (int)((zone + 1) * high - border); y++) {
        for (int x = WIDTH / 4; x < WIDTH - WIDTH / 4; x++) {
            const double L = lightness_of(sheet[y * WIDTH + x]);
            sum += L;
            squares += L * L;
            n++;
        }
    }
    const double mean = sum / n;
    return (lightness){mean, sqrt(fmax(squares / n - mean * mean, 0.0))};
}

static void draw_strip(sl_strip *strip, const sl_timeline *timeline, const sl_optics *dry, int arm,
                       double time, sl_vision vision, double wanted[SL_MAX_ZONES])
{
    const sl_scene *const scene = sl_timeline_scene(timeline);
    const sl_strands strands = sl_swatch_spread(SL_STRAND_CV, (uint32_t)arm + 1U);
    sl_strip_look look = {.bleed = SL_USUAL_BLEED};
    for (int zone = 0; zone < scene->n_zones; zone++) {
        sl_cell cell;
        sl_timeline_at(timeline, arm, zone, time, dry, &cell);
        sl_strand_colours(&strands, dry, &cell.amounts, cell.colour.srgb, vision, look.colour[zone]);
        wanted[zone] = sl_lab_of_xyz(sl_xyz_of_srgb8(sl_srgb8_seen(vision, cell.colour.srgb))).L;
    }
    const sl_pixels pixels = {.first = sheet,
                              .pitch = WIDTH,
                              .right = WIDTH,
                              .bottom = HEIGHT,
                              .red_shift = 16,
                              .green_shift = 8,
                              .blue_shift = 0};
    memset(sheet, 0x81, sizeof sheet);
    sl_strip_draw(strip, &table, &pixels, 0, 0, 0, WIDTH, &look);
}

typedef struct furthest {
    double off, spread;
    int zones;
    char where[160];
} furthest;

static void measure_scene(const char *name, sl_vision vision, furthest *worst)
{
    static const char *const paths[] = {SLOWLIFT_MODELS};
    sl_folders folders = {paths, 1};
    const sl_resolver resolver = sl_resolver_of_folders(&folders);
    char path[512];
    sl_error error = {.code = SL_OK};
    sl_timeline *timeline = NULL;
    snprintf(path, sizeof path, SLOWLIFT_MODELS "/scenes/%s", name);
    sl_scene *const scene = sl_scene_load(path, &resolver, &error);
    ck_assert_msg(scene != NULL, "%s: %s", name, error.found);
    sl_solver *const solver = sl_solver_new(&error);
    sl_optics *const dry = sl_optics_new(scene, &error);
    ck_assert(sl_timeline_solve(&timeline, scene, NULL, 0, solver, NULL, &error));
    for (int arm = 0; arm < scene->n_arms; arm++) {
        sl_strip *strip = NULL;
        ck_assert(sl_strip_lay(&strip, WIDTH, HEIGHT, scene->n_zones, (uint32_t)arm + 1U, &error));
        for (int i = 0; i < MOMENTS; i++) {
            double wanted[SL_MAX_ZONES];
            draw_strip(strip, timeline, dry, arm, scene->until_min * i / (MOMENTS - 1), vision, wanted);
            for (int zone = 0; zone < scene->n_zones; zone++) {
                const lightness seen = drawn_lightness(scene->n_zones, zone);
                worst->zones++;
                worst->spread = fmax(worst->spread, seen.spread);
                if (fabs(seen.mean - wanted[zone]) > worst->off) {
                    worst->off = fabs(seen.mean - wanted[zone]);
                    snprintf(worst->where, sizeof worst->where, "%s, strip %d, zone %d: %.2f, not %.2f", name,
                             arm + 1, zone + 1, seen.mean, wanted[zone]);
                }
            }
        }
        sl_strip_free(strip);
    }
    sl_timeline_free(timeline);
    sl_optics_free(dry);
    sl_solver_free(solver);
    sl_scene_free(scene);
}

/* Of all shipped scenes. */
static furthest measured(sl_vision vision)
{
    furthest worst = {.where = ""};
    DIR *const folder = opendir(SLOWLIFT_MODELS "/scenes");
    ck_assert_ptr_nonnull(folder);
    sl_light_table_fill(&table);
    for (const struct dirent *entry = readdir(folder); entry != NULL; entry = readdir(folder)) {
        if (strstr(entry->d_name, ".yaml") != NULL) {
            measure_scene(entry->d_name, vision, &worst);
        }
    }
    closedir(folder);
    ck_assert_int_gt(worst.zones, 400);
    printf("vision %d: %d zones, furthest %.2f (%s), spread %.2f\n", (int)vision, worst.zones, worst.off,
           worst.where, worst.spread);
    return worst;
}

/* Wanted: within 1 of its swatch. */
START_TEST(a_drawn_strip_is_as_light_as_its_swatch)
{
    const furthest worst = measured(SL_VISION_FULL);
    ck_assert_msg(worst.off <= 1.0, "%s", worst.where);
}
END_TEST

START_TEST(so_is_a_grey_print_of_it)
{
    const furthest worst = measured(SL_VISION_GREY);
    ck_assert_msg(worst.off <= 1.0, "%s", worst.where);
}
END_TEST

START_SUITE("lightness")
ADD(a_drawn_strip_is_as_light_as_its_swatch)
ADD(so_is_a_grey_print_of_it)
END_SUITE
