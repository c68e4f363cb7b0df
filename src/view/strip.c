/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The strips of src/swatch on a surface of SDL.
 */
#include "view/strip.h"

#include <assert.h>

void sl_strip_show(sl_strip *strip, const sl_light_table *table, SDL_Surface *sheet, int x, int y, int from,
                   int to, const sl_strip_look *look)
{
    const SDL_PixelFormat *format = sheet->format;
    const SDL_Rect clip = sheet->clip_rect;
    assert(format->BytesPerPixel == 4);
    const sl_pixels pixels = {.first = sheet->pixels,
                              .pitch = (size_t)sheet->pitch / 4,
                              .left = clip.x,
                              .top = clip.y,
                              .right = clip.x + clip.w,
                              .bottom = clip.y + clip.h,
                              .red_shift = format->Rshift,
                              .green_shift = format->Gshift,
                              .blue_shift = format->Bshift};
    sl_strip_draw(strip, table, &pixels, x, y, from, to, look);
}
