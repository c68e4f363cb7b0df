/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See hung.h. Colours of a zone reach beyond it, as far as borders are soft and shifted: those rows are drawn
 * with it.
 */
#include "view/strips/hung.h"

#include <math.h>
#include <string.h>

#include "base/memory.h"

static const double REACH = 0.3; /* zone heights: SL_USUAL_BLEED and the shift of fibres (swatch/fibre.c) */

/* Where a colour comes into the range of screens, strands leave 0 one after another and are weighed anew. */
static const double DARK = 24.0 / 255.0, DARK_MOVE = 0.4;

typedef struct part_drawn {
    bool any;
    int x, from, to;
    sl_strip_look look; /* as it is in the picture */
} part_drawn;

struct sl_hung {
    SDL_Surface *picture;
    part_drawn part[SL_HUNG_PARTS];
};

static void fill(SDL_Surface *picture, const SDL_Rect *area, sl_srgb8 ground)
{
    SDL_FillRect(picture, area, SDL_MapRGB(picture->format, ground.r, ground.g, ground.b));
}

bool sl_hung_size(sl_hung **hung, int width, int height, const SDL_Surface *like, sl_srgb8 ground,
                  sl_error *error)
{
    if (*hung == NULL) {
        *hung = sl_new(1, sizeof **hung, "hanging a strip", error);
        if (*hung == NULL) {
            return false;
        }
    }
    SDL_Surface *const had = (*hung)->picture;
    if (had != NULL && had->w == width && had->h == height && had->format->format == like->format->format) {
        return true;
    }
    SDL_FreeSurface(had);
    memset(*hung, 0, sizeof **hung);
    (*hung)->picture = SDL_CreateRGBSurfaceWithFormat(0, width, height, 32, like->format->format);
    if ((*hung)->picture == NULL) {
        return sl_fail(error, SL_ERR_NO_MEMORY, "hanging a strip", "");
    }
    SDL_SetSurfaceBlendMode((*hung)->picture, SDL_BLENDMODE_NONE);
    fill((*hung)->picture, NULL, ground);
    return true;
}

/* ---- what moved ------------------------------------------------------------------------------ */

static double steps_between(uint16_t one, uint16_t two)
{
    if (one == two) {
        return 0.0;
    }
    return 255.0 *
           fabs(sl_srgb_encode((double)one / SL_FINE_ONE) - sl_srgb_encode((double)two / SL_FINE_ONE));
}

static bool moved(const sl_fine_rgb was[SL_STRANDS], const sl_fine_rgb now[SL_STRANDS], double most_off)
{
    if (memcmp(was, now, SL_STRANDS * sizeof was[0]) == 0) {
        return false;
    }
    bool far = most_off <= 0.0;
    for (int i = 0; i < SL_STRANDS && !far; i++) {
        far = steps_between(was[i].r, now[i].r) > most_off || steps_between(was[i].g, now[i].g) > most_off ||
              steps_between(was[i].b, now[i].b) > most_off;
    }
    return far;
}

static uint16_t nearer(uint16_t was, uint16_t now, double most_move)
{
    const double from = sl_srgb_encode((double)was / SL_FINE_ONE);
    const double by = (from < DARK ? DARK_MOVE : 1.0) * most_move / 255.0;
    if (was == now || most_move <= 0.0 || steps_between(was, now) <= 255.0 * by) {
        return now;
    }
    return sl_fine_part(sl_srgb_decode(fmax(from + (now > was ? by : -by), 0.0)));
}

static void go_nearer(sl_fine_rgb was[SL_STRANDS], const sl_fine_rgb now[SL_STRANDS], double most_move)
{
    for (int i = 0; i < SL_STRANDS; i++) {
        was[i] = (sl_fine_rgb){nearer(was[i].r, now[i].r, most_move), nearer(was[i].g, now[i].g, most_move),
                               nearer(was[i].b, now[i].b, most_move)};
    }
}

/* All of it: another place, or another mix on it. */
static bool anew(const part_drawn *drawn, const sl_hung_wish *wish)
{
    const sl_strip_look *const was = &drawn->look, *const now = wish->look;
    return !drawn->any || drawn->x != wish->x || drawn->from != wish->from || drawn->to != wish->to ||
           was->veil_cover != now->veil_cover || was->bleed != now->bleed || was->veil.r != now->veil.r ||
           was->veil.g != now->veil.g || was->veil.b != now->veil.b;
}

/* ---- drawing --------------------------------------------------------------------------------- */

static long draw_rows(sl_hung *hung, const sl_hung_wish *wish, const sl_strip_look *look, int top, int bottom)
{
    SDL_Surface *const picture = hung->picture;
    const SDL_Rect rows = {wish->x + wish->from, top, wish->to - wish->from, bottom - top};
    SDL_SetClipRect(picture, &rows);
    fill(picture, &rows, wish->ground);
    sl_strip_show(wish->strip, wish->light, picture, wish->x, 0, wish->from, wish->to, look);
    SDL_SetClipRect(picture, NULL);
    return (long)rows.w * rows.h;
}

long sl_hung_draw(sl_hung *hung, sl_hung_part part, const sl_hung_wish *wish)
{
    part_drawn *const drawn = &hung->part[part];
    const int height = hung->picture->h;
    const double zone_h = (double)height / wish->n_zones;
    const bool all = anew(drawn, wish);
    long pixels = 0;
    int first = -1; /* rows that wait to be drawn */
    int last = 0;
    if (all) {
        if (part == SL_HUNG_BEFORE) { /* it comes first; what hung beside it hangs elsewhere now */
            const SDL_Rect rest = {wish->x, 0, hung->picture->w - wish->x, height};
            fill(hung->picture, &rest, wish->ground);
            hung->part[SL_HUNG_AFTER].any = false;
        }
        *drawn = (part_drawn){true, wish->x, wish->from, wish->to, *wish->look};
        return draw_rows(hung, wish, wish->look, 0, height);
    }
    bool zone_moved[SL_MAX_ZONES];
    for (int zone = 0; zone < wish->n_zones; zone++) {
        zone_moved[zone] = moved(drawn->look.colour[zone], wish->look->colour[zone], wish->most_off);
        if (zone_moved[zone]) {
            go_nearer(drawn->look.colour[zone], wish->look->colour[zone], wish->most_move);
        }
    }
    for (int zone = 0; zone < wish->n_zones; zone++) {
        const int top = SDL_max((int)((zone - REACH) * zone_h), 0);
        const int bottom = SDL_min((int)ceil((zone + 1 + REACH) * zone_h), height);
        if (!zone_moved[zone]) {
            continue;
        }
        if (first >= 0 && top > last) {
            pixels += draw_rows(hung, wish, &drawn->look, first, last);
            first = -1;
        }
        first = first < 0 ? top : first;
        last = bottom;
    }
    return first < 0 ? pixels : pixels + draw_rows(hung, wish, &drawn->look, first, last);
}

void sl_hung_show(const sl_hung *hung, SDL_Surface *sheet, int x, int y)
{
    SDL_Rect to = {x, y, 0, 0};
    SDL_BlitSurface(hung->picture, NULL, sheet, &to);
}

void sl_hung_free(sl_hung *hung)
{
    if (hung != NULL) {
        SDL_FreeSurface(hung->picture);
        sl_free(hung);
    }
}
