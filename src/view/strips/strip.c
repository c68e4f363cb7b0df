/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The strips of src/swatch on a surface of SDL.
 */
#include "view/strips/strip.h"

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

void sl_strip_show_scaled(sl_strip *strip, const sl_light_table *table, SDL_Surface *sheet, SDL_Rect area,
                          uint32_t ground, const sl_strip_look *look)
{
    int width = 0;
    int height = 0;
    if (!sl_strip_size(strip, &width, &height)) {
        return;
    }
    SDL_Surface *laid = SDL_CreateRGBSurfaceWithFormat(0, width, height, 32, sheet->format->format);
    if (laid != NULL) {
        SDL_FillRect(laid, NULL, ground);
        sl_strip_show(strip, table, laid, 0, 0, 0, width, look);
        SDL_SetSurfaceBlendMode(laid, SDL_BLENDMODE_NONE);
        SDL_BlitScaled(laid, NULL, sheet, &area);
        SDL_FreeSurface(laid);
    }
}
