/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Fibres laid back to front into pixels, as round rods: darker to their sides, each with the
 * light of swatch/fibre.h along its middle. What results is one gain per pixel, scaled
 * so that the mean gain over every twelfth of a zone is 1: a light band across a zone would be
 * read as a lighter colour, so only the differences between neighbouring locks are left.
 */
#include <math.h>
#include <string.h>

#include "base/memory.h"
#include "swatch/strip_parts.h"

static const float SIDE_LEAST = 0.70F; /* gain at a rod's side, times its middle */
/* Of the light and shade that a lamp would give: with all of it a grey print shows the lamp and not the hair
 * (tests/unit/test_lightness.c). */
static const double SHINE = 0.45;
enum {
    FIBRES = 380,
    ALONG_A_ZONE = 3, /* parts of a zone whose mean gain is 1 each, along it */
    ACROSS = 4,       /* and across it */
    MOST_NODES = ALONG_A_ZONE * SL_MAX_ZONES,
    LANES = 16 /* sums of a row; a multiple of ACROSS */
};

typedef struct lane_sums {
    double light[LANES], cover[LANES];
} lane_sums;

/* What laying needs and drawing does not. */
typedef struct bench {
    sl_fibre *fibres; /* [FIBRES] */
    float *gain;      /* [height][width] */
    lane_sums *sums;  /* [height] */
} bench;

static int larger(int one, int two)
{
    return one > two ? one : two;
}

static int smaller(int one, int two)
{
    return one < two ? one : two;
}

/* One row of a fibre around `centre`, over the gains laid so far. */
static void lay_row(sl_strip *strip, float *laid, size_t row, float centre, float half, float middle,
                    uint8_t mark)
{
    const int first = larger((int)(centre - half + 0.5F), 0);
    const int last = smaller((int)(centre + half + 0.5F), strip->width - 1);
    for (int x = first; x <= last; x++) {
        const float from = fabsf((float)x - centre);
        const float off = from / half;
        const float side = off < 1.0F ? sqrtf(1.0F - off * off) : 0.0F;
        const float share = fminf(fmaxf(half + 0.5F - from, 0.0F), 1.0F);
        const float gain = middle * (SIDE_LEAST + (1.0F - SIDE_LEAST) * side);
        const size_t at = row + (size_t)x;
        const float under = strip->cover[at] > 0 ? laid[at] : gain;
        if (share > 0.4F || strip->cover[at] == 0) {
            strip->mark[at] = mark;
        }
        laid[at] = under + share * (gain - under);
        strip->cover[at] =
            (uint8_t)((float)strip->cover[at] + share * (255.0F - (float)strip->cover[at]) + 0.5F);
    }
}

/* Strand in the upper three bits, shift of the borders in the lower five. */
static uint8_t mark_of(const sl_strip *strip, const sl_fibre *fibre)
{
    const double zone = (double)strip->height / strip->n_zones;
    const double steps = fmin(fmax((double)fibre->run * zone / strip->run_step, -15.0), 15.0);
    return (uint8_t)(fibre->strand << 5 | ((int)lround(steps) + RUN_ZERO));
}

static void lay_fibre(sl_strip *strip, const sl_fibre *fibre, float *laid)
{
    const uint8_t mark = mark_of(strip, fibre);
    const float width = (float)strip->width;
    const float half = fmaxf(0.75F, fibre->half * width);
    const int end = (int)lroundf(fibre->end * (float)strip->height);
    for (int y = 0; y < end; y++) {
        const float t = ((float)y + 0.5F) / (float)strip->height;
        const float taper = fminf(1.0F, 0.35F + 9.0F * (fibre->end - t)); /* tips are thin */
        lay_row(strip, laid, (size_t)y * (size_t)strip->width, sl_fibre_x(fibre, t) * width - 0.5F,
                fmaxf(0.6F, half * taper), sl_fibre_gain(fibre, t), mark);
    }
}

/* ---- scaling --------------------------------------------------------------------------- */

/* Between n nodes that stand in the middles of n equal parts of 0..1. */
static void between_nodes(double place, int n, int *before, int *after, double *part)
{
    const double at = fmin(fmax(place * n - 0.5, 0.0), n - 1.0);
    *before = smaller((int)at, n - 1);
    *after = smaller(*before + 1, n - 1);
    *part = at - *before;
}

/* The scales of a row's nodes at a place along the strip. */
static void row_nodes(const double node[][ACROSS], int n, double place, double row[ACROSS])
{
    int before, after;
    double part;
    between_nodes(place, n, &before, &after, &part);
    for (int i = 0; i < ACROSS; i++) {
        row[i] = node[before][i] + part * (node[after][i] - node[before][i]);
    }
}

static double scale_in(const double row[ACROSS], double place)
{
    int before, after;
    double part;
    between_nodes(place, ACROSS, &before, &after, &part);
    return row[before] + part * (row[after] - row[before]);
}

static void sum_rows(const sl_strip *strip, const bench *at)
{
    for (int y = 0; y < strip->height; y++) {
        lane_sums *sums = &at->sums[y];
        *sums = (lane_sums){{0.0}, {0.0}};
        for (int x = 0; x < strip->width; x++) {
            const size_t i = (size_t)y * (size_t)strip->width + (size_t)x;
            const int lane = x * LANES / strip->width;
            sums->light[lane] += strip->cover[i] * (double)at->gain[i];
            sums->cover[lane] += strip->cover[i];
        }
    }
}

/* Each round divides every node by the mean that it still leaves; a node has most of the say
 * in its own part, so a few rounds settle all. */
static void find_nodes(const sl_strip *strip, const bench *at, double node[][ACROSS], int n)
{
    for (int i = 0; i < n * ACROSS; i++) {
        node[i / ACROSS][i % ACROSS] = 1.0;
    }
    for (int round = 0; round < 20; round++) {
        double light[MOST_NODES][ACROSS] = {{0.0}}, cover[MOST_NODES][ACROSS] = {{0.0}};
        for (int y = 0; y < strip->height; y++) {
            const double place = (y + 0.5) / strip->height;
            const int here = smaller((int)(place * n), n - 1);
            double row[ACROSS];
            row_nodes((const double(*)[ACROSS])node, n, place, row);
            for (int lane = 0; lane < LANES; lane++) {
                const int across = lane * ACROSS / LANES;
                light[here][across] += at->sums[y].light[lane] * scale_in(row, (lane + 0.5) / LANES);
                cover[here][across] += at->sums[y].cover[lane];
            }
        }
        for (int i = 0; i < n * ACROSS; i++) {
            const double left = light[i / ACROSS][i % ACROSS];
            node[i / ACROSS][i % ACROSS] *= left > 0.0 ? cover[i / ACROSS][i % ACROSS] / left : 1.0;
        }
    }
}

/* The gain that all but a few pixels stay below. */
static void find_top(sl_strip *strip)
{
    size_t count[256] = {0}, all = 0, above = 0;
    for (size_t i = 0; i < (size_t)strip->width * (size_t)strip->height; i++) {
        count[strip->gain[i]] += strip->cover[i] == 255;
        all += strip->cover[i] == 255;
    }
    strip->top = 255;
    while (strip->top > GAIN_ONE + 1 && above + count[strip->top] <= all / 100) {
        above += count[strip->top--];
    }
}

/* Which strands happen to lie on top is chance; the middle half of a zone's width counts. */
static void find_weights(sl_strip *strip)
{
    for (int zone = 0; zone < strip->n_zones; zone++) {
        double sum[SL_STRANDS] = {0.0}, all = 0.0;
        for (int y = zone * strip->height / strip->n_zones; y < (zone + 1) * strip->height / strip->n_zones;
             y++) {
            for (int x = strip->width / 4; x < strip->width - strip->width / 4; x++) {
                const size_t i = (size_t)y * (size_t)strip->width + (size_t)x;
                const double light = (double)strip->gain[i] * strip->cover[i];
                sum[strip->mark[i] >> 5] += light;
                all += light;
            }
        }
        for (int strand = 0; strand < SL_STRANDS; strand++) {
            strip->weight[zone][strand] = all > 0.0 ? sum[strand] / all : 1.0 / SL_STRANDS;
        }
    }
}

static void settle_gains(sl_strip *strip, const bench *at)
{
    double node[MOST_NODES][ACROSS];
    const int n = ALONG_A_ZONE * strip->n_zones;
    sum_rows(strip, at);
    find_nodes(strip, at, node, n);
    for (int y = 0; y < strip->height; y++) {
        double row[ACROSS];
        row_nodes((const double(*)[ACROSS])node, n, (y + 0.5) / strip->height, row);
        for (int x = 0; x < strip->width; x++) {
            const size_t i = (size_t)y * (size_t)strip->width + (size_t)x;
            const double light = (double)at->gain[i] * scale_in(row, (x + 0.5) / strip->width);
            const double gain = GAIN_ONE * (1.0 + SHINE * (light - 1.0));
            strip->gain[i] = (uint8_t)(fmin(fmax(gain, 0.0), 255.0) + 0.5);
        }
    }
    find_top(strip);
    find_weights(strip);
}

/* ---- memory ----------------------------------------------------------------------------- */

static bool make_bench(bench *at, const sl_strip *strip, sl_error *error)
{
    const size_t rows = (size_t)strip->height;
    at->fibres = sl_new(FIBRES, sizeof *at->fibres, LAYING, error);
    at->gain = at->fibres ? sl_new(rows * (size_t)strip->width, sizeof *at->gain, LAYING, error) : NULL;
    at->sums = at->gain ? sl_new(rows, sizeof *at->sums, LAYING, error) : NULL;
    return at->sums != NULL;
}

static void free_bench(bench *at)
{
    sl_free(at->fibres);
    sl_free(at->gain);
    sl_free(at->sums);
}

bool sl_strip_lay_fibres(sl_strip *strip, sl_error *error)
{
    bench at = {0};
    const bool good = make_bench(&at, strip, error);
    if (good) {
        sl_fibres_lay(at.fibres, FIBRES, strip->seed);
        memset(strip->cover, 0, (size_t)strip->width * (size_t)strip->height);
        for (int i = 0; i < FIBRES; i++) {
            lay_fibre(strip, &at.fibres[i], at.gain);
        }
        settle_gains(strip, &at);
    }
    free_bench(&at);
    return good;
}
