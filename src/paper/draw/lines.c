/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A strip of hair as lines, for SVG and PDF: fewer and coarser fibres than in pixels, so that a
 * page stays small. Pieces of fibres of the same zone, kind of strand and light are one path.
 * Invariant: the mean of what is seen over a zone, in linear light, is about the zone's own
 * colour; lines that lie at random over each other leave the layer i with the share
 * (1 - exp(-a_i)) exp(-sum a_j over the layers j above) where a is length x width over area
 * (Poisson's law for no line at a place).
 */
#include <math.h>

#include "paper/draw/page.h"

enum { LINES = 56, LEVELS = 5, STEP = 2, PIECES = SL_KNOTS / STEP, COLOURS = LEVELS * SL_STRANDS };
static const double LIGHT[LEVELS] = {0.70, 0.86, 1.0, 1.15, 1.34}; /* times the mean */
static const double LINE_WIDTH = 0.0185;                           /* of the strip's width */

/* How light each piece of each fibre is, and how much of a zone such pieces cover. */
typedef struct sl_piece_set {
    sl_fibre fibre[LINES];
    int level[LINES][PIECES];
    double area[SL_MAX_ZONES][LEVELS][SL_STRANDS]; /* length x width over a zone's area */
} sl_piece_set;

static double piece_gain(const sl_fibre *fibre, int piece)
{
    return (double)sl_fibre_gain(fibre, ((float)piece + 0.5F) / PIECES);
}

/* Light is taken against its mean at each height: a light band across a strip would be read as
 * a lighter colour. */
static void find_levels(sl_piece_set *all, int n_zones)
{
    for (int piece = 0; piece < PIECES; piece++) {
        const int zone = (int)((piece + 0.5) / PIECES * n_zones);
        double mean = 0.0;
        for (int i = 0; i < LINES; i++) {
            mean += piece_gain(&all->fibre[i], piece) / LINES;
        }
        for (int i = 0; i < LINES; i++) {
            const double gain = piece_gain(&all->fibre[i], piece) / mean;
            int level = 0;
            while (level < LEVELS - 1 && gain > 0.5 * (LIGHT[level] + LIGHT[level + 1])) {
                level++;
            }
            all->level[i][piece] = level;
            all->area[zone][level][all->fibre[i].strand] += LINE_WIDTH / PIECES * n_zones;
        }
    }
}

/* ---- colours ------------------------------------------------------------------------------ */

static sl_rgb light_of(sl_srgb8 colour)
{
    return (sl_rgb){sl_srgb_decode(colour.r / 255.0), sl_srgb_decode(colour.g / 255.0),
                    sl_srgb_decode(colour.b / 255.0)};
}

static sl_rgb mixed(sl_rgb one, sl_rgb two, double part)
{
    return (sl_rgb){one.r + part * (two.r - one.r), one.g + part * (two.g - one.g),
                    one.b + part * (two.b - one.b)};
}

/* Light and shade around 1 that a colour can bear before a screen clips it. */
static double borne(sl_rgb colour, double gain)
{
    const double most = fmax(colour.r, fmax(colour.g, colour.b));
    const double room = most > 0.0 ? (1.0 / most - 1.0) / (LIGHT[LEVELS - 1] - 1.0) : 1.0;
    return 1.0 + fmin(fmax(room, 0.0), 1.0) * (gain - 1.0);
}

/* The colour of each layer of a zone, deepest first, and of what lies under all. */
static sl_rgb zone_layers(const sl_piece_set *all, const sl_strip_look *look, int zone, sl_rgb layer[COLOURS])
{
    const sl_rgb veil = light_of(look->veil);
    sl_rgb strand[SL_STRANDS], mean = {0.0, 0.0, 0.0}, seen = {0.0, 0.0, 0.0};
    for (int i = 0; i < SL_STRANDS; i++) {
        strand[i] = mixed(sl_linear_of_fine(look->colour[zone][i]), veil, look->veil_cover);
        mean = (sl_rgb){mean.r + strand[i].r / SL_STRANDS, mean.g + strand[i].g / SL_STRANDS,
                        mean.b + strand[i].b / SL_STRANDS};
    }
    double clear = 1.0; /* the share of the layers so far that those above leave open */
    for (int i = COLOURS - 1; i >= 0; i--) {
        const int level = i / SL_STRANDS, kind = i % SL_STRANDS;
        const double gain = borne(mean, LIGHT[level]), area = all->area[zone][level][kind];
        const double share = clear * (1.0 - exp(-area));
        layer[i] = (sl_rgb){strand[kind].r * gain, strand[kind].g * gain, strand[kind].b * gain};
        seen =
            (sl_rgb){seen.r + share * layer[i].r, seen.g + share * layer[i].g, seen.b + share * layer[i].b};
        clear *= exp(-area);
    }
    seen = (sl_rgb){seen.r + clear * mean.r, seen.g + clear * mean.g, seen.b + clear * mean.b};
    for (int i = 0; i < COLOURS; i++) {
        layer[i].r *= seen.r > 0.0 ? mean.r / seen.r : 1.0;
        layer[i].g *= seen.g > 0.0 ? mean.g / seen.g : 1.0;
        layer[i].b *= seen.b > 0.0 ? mean.b / seen.b : 1.0;
    }
    return mean;
}

static void take_colour(cairo_t *cairo, sl_rgb light)
{
    const sl_rgb within = {fmin(light.r, 1.0), fmin(light.g, 1.0), fmin(light.b, 1.0)};
    cairo_set_source_rgb(cairo, sl_srgb_encode(within.r), sl_srgb_encode(within.g), sl_srgb_encode(within.b));
}

/* ---- drawing ------------------------------------------------------------------------------- */

/* A strip on the page. */
typedef struct sl_corner {
    double x, y, width, height;
} sl_corner;

static void go_to(cairo_t *cairo, const sl_corner *at, const sl_fibre *fibre, double t, bool begins)
{
    const double x = at->x + at->width * (double)sl_fibre_x(fibre, (float)t), y = at->y + at->height * t;
    if (begins) {
        cairo_move_to(cairo, x, y);
    } else {
        cairo_line_to(cairo, x, y);
    }
}

/* Where a zone begins on a fibre: dye runs further on one than on another, and coarse fibres
 * show it less, so twice as far as in pixels. */
static double border(const sl_fibre *fibre, int zone, int n_zones)
{
    const double at = zone > 0 && zone < n_zones ? zone - 2.0 * (double)fibre->run : zone;
    return fmin(at / n_zones, (double)fibre->end);
}

/* What one fibre has in a zone at a level of light. */
static void draw_fibre(cairo_t *cairo, const sl_corner *at, const sl_piece_set *all, int i, int zone,
                       int n_zones, int level)
{
    const sl_fibre *fibre = &all->fibre[i];
    const double from = border(fibre, zone, n_zones), to = border(fibre, zone + 1, n_zones);
    bool drawing = false;
    for (int piece = (int)(from * PIECES); piece < PIECES && piece < to * PIECES; piece++) {
        const bool mine = all->level[i][piece] == level;
        if (mine && !drawing) {
            go_to(cairo, at, fibre, fmax((double)piece / PIECES, from), true);
        }
        if (mine) {
            go_to(cairo, at, fibre, fmin((piece + 1.0) / PIECES, to), false);
        }
        drawing = mine;
    }
}

static void draw_layer(cairo_t *cairo, const sl_corner *at, const sl_piece_set *all, int zone, int n_zones,
                       int layer)
{
    for (int i = 0; i < LINES; i++) {
        if (all->fibre[i].strand == layer % SL_STRANDS) {
            draw_fibre(cairo, at, all, i, zone, n_zones, layer / SL_STRANDS);
        }
    }
    cairo_stroke(cairo);
}

void sl_hair_lines(cairo_t *cairo, double x, double y, double width, double height, int n_zones,
                   uint32_t seed, const sl_strip_look *look)
{
    const sl_corner at = {x, y, width, height};
    sl_piece_set all = {.area = {{{0.0}}}};
    sl_rgb layer[SL_MAX_ZONES][COLOURS];
    sl_fibres_lay(all.fibre, LINES, seed);
    find_levels(&all, n_zones);
    const double inset = 0.05 * width, zone_height = height / n_zones; /* hair leaves as much free */
    for (int zone = 0; zone < n_zones; zone++) {
        take_colour(cairo, zone_layers(&all, look, zone, layer[zone]));
        const double last = zone == n_zones - 1 ? -0.02 * height : 0.3; /* tips are ragged; no seam */
        cairo_rectangle(cairo, x + inset, y + zone * zone_height, width - 2.0 * inset, zone_height + last);
        cairo_fill(cairo);
    }
    cairo_set_line_width(cairo, LINE_WIDTH * width);
    for (int i = 0; i < COLOURS; i++) {
        for (int zone = 0; zone < n_zones; zone++) {
            take_colour(cairo, layer[zone][i]);
            draw_layer(cairo, &at, &all, zone, n_zones, i);
        }
    }
}
