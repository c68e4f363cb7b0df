/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What a plan can tell: made-up tests of its size, in which two strips differ about the middle and all others
 * lie there, are judged as what is seen is (blocks.h). Each is drawn by number (sl_draw), so the same plan
 * promises the same on every machine.
 */
#include <gsl/gsl_cdf.h>
#include <math.h>

#include "base/memory.h"
#include "slowlift/blocks.h"
#include "slowlift/observation.h"
#include "slowlift/promise.h"
#include "slowlift/spread.h"

enum {
    LEAST_TESTS = 1000,
    MOST_TESTS = 4000,
    ALL_VALUES = 200000, /* of all tests */
    STRIPS = 8,          /* more show the scatter no worse; as many comparisons as there are count */
    BLOCKS = 64,         /* at the most */
    SEED = 16
};
static const double MIDDLE = 0.5;

typedef struct sl_promise_tests {
    const sl_promise_asked *asked;
    int strips, blocks;
    double comparisons;
    long tests;
    double *sd; /* [tests][colours - 1] scatter of the other colours */
    sl_blocks *colour;
    sl_block_value value[STRIPS * BLOCKS];
} sl_promise_tests;

/* One look: what an instrument reads of the swatch, or the judge's grade of it. */
static double look(const sl_promise_tests *of, double left, long test, int drawn)
{
    const double swatch = left + of->asked->spread * gsl_cdf_ugaussian_Pinv(sl_draw(SEED, test, 2 * drawn));
    return of->asked->graded
               ? sl_wipe_share(sl_wipe_drawn(&SL_JUDGE_USUAL, swatch, sl_draw(SEED, test, 2 * drawn + 1)))
               : swatch;
}

static void make_colour(sl_promise_tests *of, long test, int colour, double apart)
{
    sl_blocks *const blocks = &of->colour[colour];
    const int n = of->strips * of->blocks;
    for (int i = 0; i < n; i++) {
        const int strip = i % of->strips;
        const double off = strip == 0 ? -0.5 * apart : strip == 1 ? 0.5 * apart : 0.0;
        of->value[i] = (sl_block_value){strip, i / of->strips, look(of, MIDDLE + off, test, colour * n + i)};
    }
    sl_blocks_of(blocks, of->value, n, of->strips);
    for (int i = 0; of->asked->graded && i < of->strips; i++) {
        blocks->least_sd[i] = 0.5 * sl_wipe_step(blocks->mean[i]);
    }
}

static void make_others(sl_promise_tests *of)
{
    const int others = of->asked->colours - 1;
    for (long test = 0; test < of->tests; test++) {
        for (int c = 1; c <= others; c++) {
            make_colour(of, test, c, 0.0);
            of->sd[test * others + c - 1] = of->colour[c].sd;
        }
    }
}

/* In how many of all tests the difference is told, as the first of all. */
static double told(sl_promise_tests *of, double apart)
{
    const int others = of->asked->colours - 1;
    int n = 0;
    for (long test = 0; test < of->tests; test++) {
        make_colour(of, test, 0, apart);
        for (int c = 1; c <= others; c++) {
            of->colour[c].sd = of->sd[test * others + c - 1];
        }
        sl_blocks_calm(of->colour, of->asked->colours);
        n += of->colour[0].mean[0] < of->colour[0].mean[1] &&
                     sl_blocks_odds(&of->colour[0], 0, 1) * of->comparisons < SL_FALSE_BEFORE
                 ? 1
                 : 0;
    }
    return (double)n / (double)of->tests;
}

static double told_in(sl_promise_tests *of, double odds)
{
    enum { HALVINGS = 9 }; /* to a fifth of a point */
    double low = 0.0, high = 1.0;
    if (told(of, high) < odds) {
        return -1.0;
    }
    for (int i = 0; i < HALVINGS; i++) {
        const double middle = 0.5 * (low + high);
        if (told(of, middle) < odds) {
            low = middle;
        } else {
            high = middle;
        }
    }
    return high;
}

static void free_tests(sl_promise_tests *of)
{
    if (of) {
        sl_free(of->sd);
        sl_free(of->colour);
    }
    sl_free(of);
}

/* NULL: no memory. */
static sl_promise_tests *new_tests(const sl_promise_asked *asked, sl_error *error)
{
    sl_promise_tests *const of = sl_new(1, sizeof *of, "planning", error);
    if (!of) {
        return NULL;
    }
    of->asked = asked;
    of->strips = asked->strips < STRIPS ? asked->strips : STRIPS;
    of->blocks = asked->blocks < BLOCKS ? asked->blocks : BLOCKS;
    of->comparisons = 0.5 * asked->colours * asked->strips * (asked->strips - 1) /
                      (1.0 - (asked->hair ? SL_BESIDE_SHARE : 0.0));
    of->tests = ALL_VALUES / (of->strips * of->blocks * asked->colours);
    of->tests = of->tests < LEAST_TESTS ? LEAST_TESTS : of->tests > MOST_TESTS ? MOST_TESTS : of->tests;
    of->sd = sl_new((size_t)of->tests * (size_t)asked->colours, sizeof *of->sd, "planning", error);
    of->colour = of->sd ? sl_new((size_t)asked->colours, sizeof *of->colour, "planning", error) : NULL;
    if (!of->colour) {
        free_tests(of);
        return NULL;
    }
    make_others(of);
    return of;
}

static bool tells_nothing(const sl_promise_asked *asked)
{
    return asked->strips < 2 || asked->blocks < 2 || asked->colours < 1;
}

bool sl_promise_make(double *difference, const sl_promise_asked *asked, double odds, sl_error *error)
{
    *difference = -1.0;
    sl_promise_tests *const of = tells_nothing(asked) ? NULL : new_tests(asked, error);
    if (of) {
        *difference = told_in(of, odds);
    }
    free_tests(of);
    return of || tells_nothing(asked);
}

bool sl_promise_blocks(int *blocks, const sl_promise_asked *asked, double difference, double odds, int most,
                       sl_error *error)
{
    sl_promise_asked tried = *asked;
    int low = 1, high = most + 1; /* too few; enough, or more than may be */
    *blocks = -1;
    for (tried.blocks = most; high - low > 1 && !tells_nothing(&tried); tried.blocks = (low + high) / 2) {
        sl_promise_tests *const of = new_tests(&tried, error);
        if (!of) {
            return false;
        }
        const bool enough = told(of, difference) >= odds;
        free_tests(of);
        if (enough) {
            high = *blocks = tried.blocks;
        } else if (tried.blocks == most) {
            return true;
        } else {
            low = tried.blocks;
        }
    }
    return true;
}

static sl_promise_asked asked_of(const sl_scene *scene, int blocks, double spread)
{
    sl_promise_asked asked = {.blocks = blocks, .spread = spread >= 0.0 ? spread : SL_SWATCH_SPREAD};
    for (int a = 0; a < scene->n_arms; a++) {
        asked.strips += scene->arms[a].undyed ? 0 : 1;
    }
    for (int z = 0; z < scene->n_zones; z++) {
        asked.colours += sl_zone_direct(scene, z) ? 1 : 0;
        asked.hair = asked.hair || scene->zones[z].recipe.n_dyes == 0;
    }
    return asked;
}

bool sl_promise_of(sl_promise *promise, const sl_scene *scene, int blocks, double spread, sl_error *error)
{
    sl_promise_asked asked = asked_of(scene, blocks, spread);
    *promise = (sl_promise){.blocks = blocks, .spread = asked.spread, .spread_given = spread >= 0.0};
    if (!sl_promise_make(&promise->read, &asked, SL_PROMISED, error)) {
        return false;
    }
    asked.graded = true;
    return sl_promise_make(&promise->graded, &asked, SL_PROMISED, error);
}

bool sl_promise_repeats(int *blocks, const sl_scene *scene, bool graded, double spread, double difference,
                        int most, sl_error *error)
{
    sl_promise_asked asked = asked_of(scene, most, spread);
    asked.graded = graded;
    return sl_promise_blocks(blocks, &asked, difference, SL_PROMISED, most, error);
}
