/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The strips of src/swatch on a surface of SDL.
 */
#ifndef SLOWLIFT_VIEW_STRIP_H
#define SLOWLIFT_VIEW_STRIP_H

#include <SDL.h>

#include "swatch/strip.h"

/* sl_strip_draw within the surface's own clip; the surface has 32 bits a pixel. */
void sl_strip_show(sl_strip *strip, const sl_light_table *table, SDL_Surface *sheet, int x, int y, int from,
                   int to, const sl_strip_look *look);

/* The same where the strip is laid at another size than `area`: scaled into it, coarsely, until
 * it is laid anew. Nothing when it was never laid or memory runs out. */
void sl_strip_show_scaled(sl_strip *strip, const sl_light_table *table, SDL_Surface *sheet, SDL_Rect area,
                          uint32_t ground, const sl_strip_look *look);

#endif
