/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The example's strips on the start page: they stand still.
 */
#include <stdio.h>
#include <string.h>

#include "base/language.h"
#include "swatch/strands.h"
#include "view/start/start.h"

static const double PAD = 8.0;        /* units */
static const double SHOWN_MIN = 30.0; /* of the example, at the right of each strip */

static void read_hair(const sl_start_page *start, int arm, double minute, sl_strip_look *look)
{
    const sl_story *const story = &start->example;
    const sl_optics *const optics = sl_lenses_for(&start->lenses, start->eyes.viewing);
    const sl_strands strands = sl_swatch_spread(SL_STRAND_CV, (uint32_t)arm + 1U);
    memset(look, 0, sizeof *look);
    look->bleed = SL_USUAL_BLEED;
    for (int zone = 0; zone < story->scene->n_zones; zone++) {
        sl_cell cell;
        sl_timeline_at(story->timeline, arm, zone, minute, optics, &cell);
        sl_strand_colours(&strands, optics, &cell.amounts, cell.colour.srgb, start->eyes.vision,
                          look->colour[zone]);
    }
}

/* Each strip twice: as it was at the left, at its half an hour at the right. */
bool sl_start_put_hair(sl_start_page *start, sl_error *error)
{
    const sl_pen *const pen = &start->pen;
    const sl_scene *const scene = start->example.scene;
    const SDL_Rect field = start->hair;
    const int pad = sl_pen_px(pen, PAD), step = field.w / scene->n_arms;
    if (!sl_lenses_fit(&start->lenses, scene, start->eyes.viewing, error)) {
        return false;
    }
    sl_pen_fill(pen, field, SL_GROUND_FIELD);
    for (int arm = 0; arm < scene->n_arms; arm++) {
        const int w = SDL_max(step - 2 * pad, 8) / 2, h = SDL_max(field.h - 2 * pad, 8);
        const int x = field.x + arm * step + (step - 2 * w) / 2;
        const double minutes[] = {0.0, SDL_min(SHOWN_MIN, scene->until_min)};
        for (int side = 0; side < 2; side++) {
            sl_strip **const strip = &start->strip[2 * arm + side];
            sl_strip_look look;
            if (!sl_strip_lay(strip, w, h, scene->n_zones, (uint32_t)(2 * arm + side) + 1U, error)) {
                return false;
            }
            read_hair(start, arm, minutes[side], &look);
            SDL_SetClipRect(pen->sheet, &field);
            sl_strip_show(*strip, &start->light, pen->sheet, x + side * w, field.y + pad, 0, w, &look);
            SDL_SetClipRect(pen->sheet, NULL);
        }
        const SDL_Rect rod = {x - pad / 2, field.y + pad / 2, 2 * w + pad, sl_pen_px(pen, 4.0)};
        sl_pen_fill(pen, rod, SL_MARK_HOOK);
    }
    return true;
}

void sl_start_caption(const sl_start_page *start, char *text, size_t size)
{
    snprintf(text, size,
             _("%s. Each strip: minute 0 at the left, minute %.0f at the right. A model: no real hair."),
             sl_scene_title(start->example.scene), SDL_min(SHOWN_MIN, start->example.scene->until_min));
}
