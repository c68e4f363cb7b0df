/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The strands of a zone spread about its colour and do not move it: over the demo, all zones and
 * all moments, in every look that is drawn.
 */
#include <math.h>

#include "slowlift/scene.h"
#include "slowlift/timeline.h"
#include "suite.h"
#include "swatch/strands.h"

enum { SEEDS = 8 };

static sl_scene *demo(void)
{
    static const char *const folder[] = {SLOWLIFT_MODELS};
    sl_folders folders = {folder, 1};
    const sl_resolver resolver = sl_resolver_of_folders(&folders);
    sl_scene *scene = sl_scene_load(SLOWLIFT_MODELS "/scenes/eight-arms.yaml", &resolver, NULL);
    ck_assert_ptr_nonnull(scene);
    return scene;
}

static sl_lab lab_of_bytes(sl_srgb8 colour)
{
    return sl_lab_of_xyz(sl_xyz_of_srgb8(colour));
}

static sl_lab lab_of_fine(sl_fine_rgb colour)
{
    return sl_lab_of_xyz(sl_xyz_of_rgb(sl_linear_of_fine(colour)));
}

/* Mean of the strands' own colours in linear light, before light and shade. */
static sl_lab mean_of(const sl_fine_rgb strand[SL_STRANDS])
{
    sl_xyz mean = {0.0, 0.0, 0.0};
    for (int i = 0; i < SL_STRANDS; i++) {
        const sl_xyz one = sl_xyz_of_rgb(sl_linear_of_fine(strand[i]));
        mean =
            (sl_xyz){mean.X + one.X / SL_STRANDS, mean.Y + one.Y / SL_STRANDS, mean.Z + one.Z / SL_STRANDS};
    }
    return sl_lab_of_xyz(mean);
}

/* The largest difference between the strands of one zone. */
static double spread_of(const sl_fine_rgb strand[SL_STRANDS])
{
    double most = 0.0;
    for (int i = 0; i < SL_STRANDS; i++) {
        for (int j = 0; j < i; j++) {
            most = fmax(most, sl_delta_e_2000(lab_of_fine(strand[i]), lab_of_fine(strand[j])));
        }
    }
    return most;
}

typedef struct worst {
    double moved;  /* the mean from the zone's colour, delta E 00 */
    double spread; /* of a zone's strands, delta E 00 */
    double least;  /* the smallest spread */
} worst;

static void look_at(const sl_timeline *timeline, const sl_optics *optics, worst *found)
{
    const sl_scene *scene = sl_timeline_scene(timeline);
    for (int arm = 0; arm < scene->n_arms; arm++) {
        for (int zone = 0; zone < scene->n_zones; zone++) {
            for (int minute = 0; minute <= (int)scene->until_min; minute += 3) {
                const sl_strands strands =
                    sl_swatch_spread(SL_STRAND_CV, (uint32_t)(1 + (arm + minute) % SEEDS));
                sl_cell cell;
                sl_fine_rgb strand[SL_STRANDS];
                sl_timeline_at(timeline, arm, zone, minute, optics, &cell);
                sl_strand_colours(&strands, optics, &cell.amounts, cell.colour.srgb, SL_VISION_FULL, strand);
                const sl_lab own = lab_of_bytes(cell.colour.srgb);
                const double spread = spread_of(strand);
                found->moved = fmax(found->moved, sl_delta_e_2000(mean_of(strand), own));
                found->spread = fmax(found->spread, spread);
                found->least = fmin(found->least, spread);
            }
        }
    }
}

static worst look_by(sl_look look)
{
    sl_scene *scene = demo();
    sl_solver *solver = sl_solver_new(NULL);
    sl_timeline *timeline = NULL;
    sl_optics *optics = sl_optics_new_for(scene, (sl_viewing){.look = look}, NULL);
    ck_assert(solver != NULL && optics != NULL);
    ck_assert(sl_timeline_solve(&timeline, scene, NULL, 0, solver, NULL, NULL));
    worst found = {.moved = 0.0, .spread = 0.0, .least = 1e9};
    look_at(timeline, optics, &found);
    sl_timeline_free(timeline);
    sl_optics_free(optics);
    sl_solver_free(solver);
    sl_scene_free(scene);
    return found;
}

/* What is left is rounding to 16 bits of linear light, where L* rises by at most 903.3 / 65535 = .014 a step.
 * A kind of drawing that gives each strand another look of its own (5 to 20 delta E 00 apart) would be seen
 * at once. */
START_TEST(the_mean_of_the_strands_is_the_colour_of_their_zone)
{
    const sl_look looks[] = {SL_LOOK_DRY, SL_LOOK_WET};
    for (int i = 0; i < 2; i++) {
        ck_assert_double_lt(look_by(looks[i]).moved, 0.02);
    }
}
END_TEST

/* With a coefficient of variation of 0.15 the outer two of eight strands are 1.53 x 0.15 = 23 % of
 * depth from the middle; at a level ratio of .62 (48 % a level) that is about half a level each
 * way, near 7 in L*: a person sees strands, on natural hair as on dye, and still one colour. */
START_TEST(strands_of_every_zone_differ_so_that_a_person_sees_it)
{
    const worst found = look_by(SL_LOOK_DRY);
    ck_assert_double_gt(found.least, 2.0);
    ck_assert_double_lt(found.spread, 25.0);
}
END_TEST

START_SUITE("strands")
ADD(the_mean_of_the_strands_is_the_colour_of_their_zone)
ADD(strands_of_every_zone_differ_so_that_a_person_sees_it)
END_SUITE
