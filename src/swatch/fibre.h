/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Where the fibres of a strip lie and how the light falls along them. A strip is one wide and
 * one high here: x in widths, t from root (0) to tip (1). Same seed, same fibres.
 *
 * Light along a fibre: J. T. Kajiya and T. L. Kay, "Rendering fur with three dimensional
 * textures", SIGGRAPH '89, Computer Graphics 23(3):271-280: a thin cylinder with tangent T,
 * light L and eye V returns sin(T,L) diffusely and (sin(T,L) sin(T,V) - cos(T,L) cos(T,V))^p
 * as its highlight. Both only make the fibre's own colour lighter or darker.
 */
#ifndef SLOWLIFT_SWATCH_FIBRE_H
#define SLOWLIFT_SWATCH_FIBRE_H

#include <stdint.h>

enum { SL_KNOTS = 48, SL_STRANDS = 8 };

typedef struct sl_fibre {
    float x[SL_KNOTS + 1];    /* its middle, widths */
    float gain[SL_KNOTS + 1]; /* light along its middle; 1 is about the mean */
    float half;               /* half its thickness, widths */
    float end;                /* its tip, 0..1 */
    float run;                /* how far its borders between zones are shifted, zone heights */
    int strand;               /* 0..SL_STRANDS-1: the kind of strand that it belongs to */
} sl_fibre;

/* The fibres of a strip, deepest first: fibres[n]. */
void sl_fibres_lay(sl_fibre *fibres, int n, uint32_t seed);

/* At t (0..1), between knots. */
float sl_fibre_x(const sl_fibre *fibre, float t);
float sl_fibre_gain(const sl_fibre *fibre, float t);

/* A small generator (xorshift, G. Marsaglia, J. Stat. Softw. 8(14), 2003): 0..1. */
uint32_t sl_chance_start(uint32_t seed);
double sl_chance(uint32_t *state);

#endif
