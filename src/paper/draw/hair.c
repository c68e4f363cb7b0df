/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The hair of a strip, as the window draws it: strand by strand, wet or dry as it lies at its
 * moment, with its mix on it when that is asked for. An arm's number is its seed there too.
 */
#include <assert.h>
#include <math.h>

#include "paper/draw/page.h"
#include "swatch/strands.h"

static uint32_t seed_of(int arm)
{
    return (uint32_t)arm + 1U;
}

/* Wet under a mix and while water runs, else dry; or what was asked for all. */
static const sl_optics *optics_of(const sl_paper_view *view, sl_on_hair on)
{
    const bool lies_wet = view->viewing.look == SL_LOOK_UNDER_MIX && on.what != SL_LIES_NOTHING;
    const sl_optics *optics = view->viewing.look == SL_LOOK_WET || lies_wet ? view->wet : view->dry;
    assert(optics != NULL);
    return optics;
}

void sl_hair_look(const sl_sheet_page *page, int arm, double time_min, sl_strip_look *look,
                  sl_srgb8 plate[SL_MAX_ZONES], double left[SL_MAX_ZONES])
{
    const sl_paper_view *view = page->view;
    const sl_on_hair on = sl_arm_on_hair(&page->scene->arms[arm], time_min);
    const sl_optics *optics = optics_of(view, on);
    const sl_strands strands = sl_swatch_spread(SL_STRAND_CV, seed_of(arm));
    *look = (sl_strip_look){.bleed = SL_USUAL_BLEED};
    for (int zone = 0; zone < page->scene->n_zones; zone++) {
        sl_cell cell;
        sl_timeline_at(view->timeline, arm, zone, time_min, optics, &cell);
        sl_strand_colours(&strands, optics, &cell.amounts, cell.colour.srgb, view->vision,
                          look->colour[zone]);
        plate[zone] = sl_srgb8_seen(view->vision, cell.colour.srgb);
        left[zone] = cell.colour_left;
    }
    if (view->viewing.look == SL_LOOK_UNDER_MIX && on.what == SL_LIES_MIX) {
        sl_strip_look_veil(look, &page->scene->mixes[on.mix], view->vision);
    }
}

static int pixels(const sl_sheet_page *page, double points)
{
    return (int)lround(points * page->canvas.scale);
}

bool sl_hair_lay(sl_sheet_page *page, sl_error *error)
{
    if (page->canvas.kind != SL_PAPER_PNG) {
        return true;
    }
    const int width = pixels(page, page->strip_width);
    const int height = pixels(page, page->zone_height * page->scene->n_zones);
    sl_light_table_fill(&page->light);
    for (int arm = 0; arm < page->scene->n_arms; arm++) {
        if (sl_timeline_predicted(page->view->timeline, arm) &&
            !sl_strip_lay(&page->strip[arm], width, height, page->scene->n_zones, seed_of(arm), error)) {
            return false;
        }
    }
    return true;
}

/* Straight into the pixels of the page: no copy, no filter. */
static void draw_pixels(sl_sheet_page *page, int arm, double x, double y, const sl_strip_look *look)
{
    cairo_surface_t *surface = page->canvas.surface;
    cairo_surface_flush(surface);
    const sl_pixels sheet = {
        .first = (uint32_t *)(void *)cairo_image_surface_get_data(surface),
        .pitch = (size_t)cairo_image_surface_get_stride(surface) / sizeof(uint32_t),
        .right = cairo_image_surface_get_width(surface),
        .bottom = cairo_image_surface_get_height(surface),
        .red_shift = 16,
        .green_shift = 8,
        .blue_shift = 0,
    };
    sl_strip_draw(page->strip[arm], &page->light, &sheet, pixels(page, x), pixels(page, y), 0,
                  pixels(page, page->strip_width), look);
    cairo_surface_mark_dirty(surface);
}

void sl_hair_draw(sl_sheet_page *page, int arm, double x, double y, const sl_strip_look *look)
{
    const double height = page->zone_height * page->scene->n_zones;
    if (page->canvas.kind == SL_PAPER_PNG) {
        draw_pixels(page, arm, x, y, look);
    } else {
        sl_hair_lines(page->canvas.cairo, x, y, page->strip_width, height, page->scene->n_zones, seed_of(arm),
                      look);
    }
}
