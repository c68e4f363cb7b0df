/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Fibres are laid back to front as round rods, each with its own depth: a rod is
 * brightest along its middle and darker to its sides, and deeper rods lie in the shade
 * of those above. What results is one gain per pixel, scaled so that every zone's mean
 * gain is 1; painting is then colour x gain in linear light, nothing else.
 * Borders between zones are soft and differ from fibre to fibre, as dye runs.
 */
#include "swatch/strip.h"

#include <assert.h>
#include <math.h>
#include <string.h>

#include "base/memory.h"

enum {
    FIBRES = 340,      /* in a strip */
    GAIN_ONE = 128,    /* gain 1 in a uint8 */
    MOST_ROWS = 16384, /* taller than any screen */
    RUN_MOST = 12      /* pixels by which a fibre's border may be shifted, up or down */
};
static const double SHADE_LEAST = 0.80; /* gain of the deepest rod's middle */
static const double SIDE_LEAST = 0.78;  /* gain at a rod's side, times its middle */
static const double BORDER_SOFT = 0.16; /* width of a border, in zone heights */
static const double PI = 3.14159265358979323846;

struct sl_strip {
    int width, height, n_zones;
    uint32_t seed;
    uint8_t *gain;      /* [height][width], GAIN_ONE = 1 */
    uint8_t *cover;     /* [height][width], 255 = hair, 0 = ground */
    int8_t *run;        /* [width], shift of the borders */
    uint16_t (*row)[3]; /* [height + 2 RUN_MOST], linear colour of a row, scratch of a draw */
    float *scratch;     /* [height][width] */
};

static double clamp(double value, double least, double most)
{
    return fmin(fmax(value, least), most);
}

static int larger(int one, int two)
{
    return one > two ? one : two;
}

static int smaller(int one, int two)
{
    return one < two ? one : two;
}

/* A small generator (xorshift, Marsaglia 2003): 0..1. */
static double chance(uint32_t *state)
{
    *state ^= *state << 13;
    *state ^= *state >> 17;
    *state ^= *state << 5;
    return (double)(*state >> 8) / 16777216.0;
}

void sl_light_table_fill(sl_light_table *table)
{
    for (int i = 0; i < 256; i++) {
        table->linear[i] = (uint16_t)lround(sl_srgb_decode(i / 255.0) * SL_LIGHT_TOP);
    }
    for (int i = 0; i <= SL_LIGHT_TOP; i++) {
        table->encoded[i] = (uint8_t)lround(sl_srgb_encode((double)i / SL_LIGHT_TOP) * 255.0);
    }
}

typedef struct fibre {
    double root_x, sway, turns, phase, lean; /* pixels, pixels, per height, radians, pixels */
    double half;                             /* half its width, pixels */
    double middle;                           /* gain along its middle */
    int end_y;                               /* its tip */
} fibre;

static fibre fibre_of(const sl_strip *strip, int number, uint32_t *state)
{
    const double depth = (double)number / (FIBRES - 1); /* 0 deepest */
    const double width = strip->width;
    const double edge = 0.045 * width;
    /* Evenly spread roots (multiples of the golden ratio) leave no bare places. */
    const double drawn = fmod(number * 0.6180339887498949, 1.0) + 0.02 * (chance(state) - 0.5);
    return (fibre){
        .root_x = edge + (width - 2.0 * edge) * clamp(drawn, 0.0, 1.0),
        .sway = edge * (0.15 + 0.55 * chance(state)),
        .turns = 0.5 + 1.2 * chance(state),
        .phase = 2.0 * PI * chance(state),
        .lean = edge * (chance(state) - 0.5),
        .half = fmax(0.75, width * (0.0050 + 0.0055 * chance(state))),
        .middle = SHADE_LEAST + (1.0 - SHADE_LEAST) * depth + 0.22 * (chance(state) - 0.5),
        .end_y = (int)lround(strip->height - 0.035 * strip->height * chance(state) * chance(state)),
    };
}

/* One row of a fibre around `centre`, over the gains laid so far. */
static void lay_row(sl_strip *strip, const fibre *f, size_t row, float centre)
{
    const float half = (float)f->half;
    const float middle = (float)f->middle;
    const int first = larger((int)(centre - half + 0.5F), 0);
    const int last = smaller((int)(centre + half + 0.5F), strip->width - 1);
    for (int x = first; x <= last; x++) {
        const float from = fabsf((float)x - centre);
        const float off = from / half;
        const float side = off < 1.0F ? sqrtf(1.0F - off * off) : 0.0F;
        const float share = fminf(fmaxf(half + 0.5F - from, 0.0F), 1.0F);
        const float gain = middle * ((float)SIDE_LEAST + (1.0F - (float)SIDE_LEAST) * side);
        const size_t at = row + (size_t)x;
        const float under = strip->cover[at] > 0 ? strip->scratch[at] : gain;
        strip->scratch[at] = under + share * (gain - under);
        strip->cover[at] =
            (uint8_t)((float)strip->cover[at] + share * (255.0F - (float)strip->cover[at]) + 0.5F);
    }
}

/* A fibre from root to tip; its wave turns by one small angle a row, so that the sine is
 * carried along instead of being computed anew. */
static void lay_fibre(sl_strip *strip, const fibre *f)
{
    const double angle = 2.0 * PI * f->turns / strip->height;
    const double turn_c = cos(angle);
    const double turn_s = sin(angle);
    double c = cos(f->phase);
    double s = sin(f->phase);
    for (int y = 0; y < f->end_y; y++) {
        const double t = (double)y / strip->height;
        const double centre = f->root_x + f->lean * t + f->sway * s * fmin(1.0, 4.0 * t);
        lay_row(strip, f, (size_t)y * (size_t)strip->width, (float)centre);
        const double next = s * turn_c + c * turn_s;
        c = c * turn_c - s * turn_s;
        s = next;
    }
}

/* Scale each zone's band of rows so that its mean gain is 1. */
static void settle_gains(sl_strip *strip)
{
    for (int zone = 0; zone < strip->n_zones; zone++) {
        const int top = zone * strip->height / strip->n_zones;
        const int bottom = (zone + 1) * strip->height / strip->n_zones;
        double sum = 0.0;
        double weight = 0.0;
        for (size_t i = (size_t)top * (size_t)strip->width; i < (size_t)bottom * (size_t)strip->width; i++) {
            sum += strip->cover[i] * (double)strip->scratch[i];
            weight += strip->cover[i];
        }
        const double scale = sum > 0.0 ? weight / sum : 1.0;
        for (size_t i = (size_t)top * (size_t)strip->width; i < (size_t)bottom * (size_t)strip->width; i++) {
            const double gain = GAIN_ONE * scale * (double)strip->scratch[i];
            strip->gain[i] = (uint8_t)lround(clamp(gain, 0.0, 255.0));
        }
    }
}

static void lay(sl_strip *strip)
{
    uint32_t state = strip->seed * 2654435761U + 12345U;
    memset(strip->cover, 0, (size_t)strip->width * (size_t)strip->height);
    for (int i = 0; i < FIBRES; i++) {
        const fibre f = fibre_of(strip, i, &state);
        lay_fibre(strip, &f);
    }
    settle_gains(strip);
    const double zone = (double)strip->height / strip->n_zones;
    const double most = fmin((double)RUN_MOST, 0.09 * zone);
    double run = 0.0;
    for (int x = 0; x < strip->width; x++) { /* neighbouring fibres run alike */
        run = 0.6 * run + most * (2.0 * chance(&state) - 1.0) * 0.8;
        strip->run[x] = (int8_t)lround(clamp(run, -most, most));
    }
}

static void release(sl_strip *strip)
{
    sl_free(strip->gain);
    sl_free(strip->cover);
    sl_free(strip->run);
    sl_free(strip->row);
    sl_free(strip->scratch);
    *strip = (sl_strip){0};
}

static bool make_room(sl_strip *strip, int width, int height, sl_error *error)
{
    static const char doing[] = "laying the fibres of a strip";
    const size_t w = (size_t)width;
    const size_t h = (size_t)height;
    release(strip);
    strip->gain = sl_new(h * w, sizeof *strip->gain, doing, error);
    strip->cover = strip->gain ? sl_new(h * w, sizeof *strip->cover, doing, error) : NULL;
    strip->run = strip->cover ? sl_new(w, sizeof *strip->run, doing, error) : NULL;
    strip->row = strip->run ? sl_new(h + 2 * RUN_MOST, sizeof *strip->row, doing, error) : NULL;
    strip->scratch = strip->row ? sl_new(h * w, sizeof *strip->scratch, doing, error) : NULL;
    if (strip->scratch == NULL) {
        release(strip);
        return false;
    }
    strip->width = width;
    strip->height = height;
    return true;
}

bool sl_strip_lay(sl_strip **strip, int width, int height, int n_zones, uint32_t seed, sl_error *error)
{
    assert(width > 0 && height > 0 && height <= MOST_ROWS && n_zones > 0 && n_zones <= SL_MAX_ZONES);
    if (*strip == NULL) {
        *strip = sl_new(1, sizeof **strip, "making a strip", error);
        if (*strip == NULL) {
            return false;
        }
    }
    sl_strip *s = *strip;
    if (s->width == width && s->height == height && s->n_zones == n_zones && s->seed == seed) {
        return true;
    }
    if (!make_room(s, width, height, error)) {
        return false;
    }
    s->n_zones = n_zones;
    s->seed = seed;
    lay(s);
    sl_free(s->scratch); /* used for laying only */
    s->scratch = NULL;
    return true;
}

void sl_strip_free(sl_strip *strip)
{
    if (strip != NULL) {
        release(strip);
        sl_free(strip);
    }
}

/* The linear colour of every row, borders mixed softly. */
static void mix_rows(const sl_strip *strip, const sl_light_table *table, const sl_srgb8 *colour)
{
    const double zone = (double)strip->height / strip->n_zones;
    for (int i = 0; i < strip->height + 2 * RUN_MOST; i++) {
        const double place = clamp((i - RUN_MOST + 0.5) / zone, 0.0, strip->n_zones - 1e-9);
        const int here = (int)place;
        const double within = place - here;
        const int next = within > 0.5 ? smaller(here + 1, strip->n_zones - 1) : larger(here - 1, 0);
        const double away = within > 0.5 ? 1.0 - within : within; /* from the border, zone heights */
        const double t = fmin(away / BORDER_SOFT, 1.0);
        const double own = 0.5 + 0.5 * t * t * (3.0 - 2.0 * t); /* smooth step from 1/2 to 1 */
        const sl_srgb8 a = colour[here];
        const sl_srgb8 b = colour[next];
        strip->row[i][0] = (uint16_t)lround(own * table->linear[a.r] + (1.0 - own) * table->linear[b.r]);
        strip->row[i][1] = (uint16_t)lround(own * table->linear[a.g] + (1.0 - own) * table->linear[b.g]);
        strip->row[i][2] = (uint16_t)lround(own * table->linear[a.b] + (1.0 - own) * table->linear[b.b]);
    }
}

static uint8_t encoded(const sl_light_table *table, unsigned linear)
{
    return table->encoded[linear < SL_LIGHT_TOP ? linear : SL_LIGHT_TOP];
}

static uint32_t lit(const sl_light_table *table, const uint16_t linear[3], unsigned gain,
                    const sl_pixels *sheet)
{
    return (uint32_t)encoded(table, linear[0] * gain / GAIN_ONE) << sheet->red_shift |
           (uint32_t)encoded(table, linear[1] * gain / GAIN_ONE) << sheet->green_shift |
           (uint32_t)encoded(table, linear[2] * gain / GAIN_ONE) << sheet->blue_shift;
}

/* Bytes 0 and 2, then 1 and 3, of two pixels mixed: cover of 256 parts of `top`. */
static uint32_t over(uint32_t top, uint32_t under, unsigned cover)
{
    const uint32_t pair = 0x00FF00FFU;
    const uint32_t parts = cover + (cover >> 7); /* 0..255 -> 0..256 */
    const uint32_t even = ((top & pair) * parts + (under & pair) * (256U - parts)) >> 8 & pair;
    const uint32_t odd = ((top >> 8 & pair) * parts + (under >> 8 & pair) * (256U - parts)) & ~pair;
    return even | odd;
}

void sl_strip_draw(const sl_strip *strip, const sl_light_table *table, const sl_pixels *sheet, int x, int y,
                   int from, int to, const sl_srgb8 *colour)
{
    const int left = larger(from, sheet->left - x);
    const int right = smaller(to, sheet->right - x);
    const int top = larger(0, sheet->top - y);
    const int bottom = smaller(strip->height, sheet->bottom - y);
    mix_rows(strip, table, colour);
    for (int v = top; v < bottom; v++) {
        const uint8_t *gain = strip->gain + (size_t)v * (size_t)strip->width;
        const uint8_t *cover = strip->cover + (size_t)v * (size_t)strip->width;
        uint32_t *pixel = sheet->first + (size_t)(y + v) * sheet->pitch + x;
        for (int u = left; u < right; u++) {
            if (cover[u] == 0) {
                continue;
            }
            const uint32_t hair = lit(table, strip->row[v + RUN_MOST + strip->run[u]], gain[u], sheet);
            pixel[u] = cover[u] == 255 ? hair : over(hair, pixel[u], cover[u]);
        }
    }
}
