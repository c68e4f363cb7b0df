/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A page: arms in bands, one group of strips for each arm; labels beside them; head and foot.
 */
#include "paper/draw/page.h"

#include <math.h>

#include "base/language.h"
#include "report/reading.h"
#include "slowlift/report.h"

static const double least_strip = 14.0, usual_zone = 26.0;
/* Behind hair on a dark page: comes out as the middle grey of the window's field. */
static const double dark_field = 0.525;
static const sl_paper_face label_face = {.size = 8.2, .grey = 0.12, .align = PANGO_ALIGN_RIGHT};

sl_sheet_page sl_page_of(const sl_paper_view *view, const double *times_min, int n_times)
{
    return (sl_sheet_page){.view = view,
                           .scene = sl_timeline_scene(view->timeline),
                           .times_min = times_min,
                           .n_times = n_times,
                           .margin = 32.0,
                           .arm_head = 58.0,
                           .times_height = SL_ROW_HEIGHT,
                           .least_zone = 17.0,
                           .most_strip = 40.0,
                           .most_zone = 34.0,
                           .number_size = 7.2};
}

/* ---- bands of groups -------------------------------------------------------------------- */

static double band_height(const sl_sheet_page *page)
{
    return page->arm_head + page->times_height + page->zone_height * page->scene->n_zones + 6.0 +
           2.0 * SL_ROW_HEIGHT;
}

static void draw_label(sl_sheet_page *page, double y, double height, int lines, const char *text)
{
    const double width = SL_PAGE_LABELS - 8.0;
    const double taken = sl_canvas_measure(&page->canvas, width, lines, label_face, text);
    sl_canvas_text(&page->canvas, page->margin, y + 0.5 * (height - taken), width, lines, label_face, text);
}

static void draw_labels(sl_sheet_page *page, double y)
{
    const sl_scene *scene = page->scene;
    const double strips = y + page->arm_head + page->times_height;
    if (!page->single) {
        draw_label(page, y + page->arm_head - 4.0, SL_ROW_HEIGHT - 2.0, 1,
                   sl_reading_has_minutes(scene) ? _("minutes") : _("moment"));
    }
    for (int zone = 0; zone < scene->n_zones; zone++) {
        draw_label(page, strips + zone * page->zone_height, page->zone_height, 2,
                   sl_zone_title(&scene->zones[zone]));
    }
    const double rows = strips + page->zone_height * scene->n_zones + 6.0;
    draw_label(page, rows, SL_ROW_HEIGHT - 2.0, 1, _("base moved %"));
    draw_label(page, rows + SL_ROW_HEIGHT, SL_ROW_HEIGHT - 2.0, 1, _("hair stress %"));
}

static double draw_bands(sl_sheet_page *page, double y)
{
    const sl_scene *scene = page->scene;
    for (int first = 0; first < scene->n_arms; first += page->per_band) {
        const double top = y + page->arm_head + page->times_height - 5.0;
        sl_canvas_grey(&page->canvas, page->canvas.dark ? dark_field : 0.93);
        sl_canvas_box(&page->canvas, page->margin + SL_PAGE_LABELS - 5.0, top,
                      page->per_band * (page->group_width + SL_GROUP_GAP) - SL_GROUP_GAP + 10.0,
                      page->zone_height * scene->n_zones + 10.0, 4.0);
        cairo_fill(page->canvas.cairo);
        draw_labels(page, y);
        for (int i = 0; i < page->per_band && first + i < scene->n_arms; i++) {
            sl_group_draw(page, first + i,
                          page->margin + SL_PAGE_LABELS + i * (page->group_width + SL_GROUP_GAP), y);
        }
        y += band_height(page) + SL_BAND_GAP;
    }
    return y;
}

/* ---- dividing the page ------------------------------------------------------------------ */

/* Arms side by side on a page of this width; false when not even one fits. */
static bool arrange(sl_sheet_page *page, double width)
{
    const double room = width - 2.0 * page->margin - SL_PAGE_LABELS;
    const double narrowest = page->n_times * (least_strip + SL_STRIP_GAP) - SL_STRIP_GAP;
    const int fitting = (int)floor((room + SL_GROUP_GAP) / (fmax(narrowest, 60.0) + SL_GROUP_GAP));
    if (fitting < 1) {
        return false;
    }
    const int n_arms = page->scene->n_arms;
    const double widest = fmax(page->n_times * (page->most_strip + SL_STRIP_GAP) - SL_STRIP_GAP, 110.0);
    page->width = width;
    page->bands = (n_arms + fitting - 1) / fitting;
    page->per_band = (n_arms + page->bands - 1) / page->bands;
    page->group_width = fmin((room + SL_GROUP_GAP) / page->per_band - SL_GROUP_GAP, widest);
    page->strip_width =
        fmin((page->group_width + SL_STRIP_GAP) / page->n_times - SL_STRIP_GAP, page->most_strip);
    return true;
}

/* The height that all but the zones needs, measured on a surface of no size. */
static double fixed_height(sl_sheet_page *page)
{
    cairo_surface_t *none = cairo_recording_surface_create(CAIRO_CONTENT_COLOR, NULL);
    sl_canvas canvas = {.surface = none, .cairo = cairo_create(none)};
    sl_canvas_prepare(&canvas);
    const sl_paper_pen pen = {.canvas = &canvas, .y = page->margin, .draws = false};
    const double head = sl_page_head(page, pen), foot = sl_page_foot(page, pen);
    g_object_unref(canvas.layout);
    cairo_destroy(canvas.cairo);
    cairo_surface_destroy(none);
    page->zone_height = 0.0;
    return head + page->bands * (band_height(page) + SL_BAND_GAP) + foot;
}

/* Whether the arms fit a page of this size, with zones as high as it allows. */
bool sl_page_fit(sl_sheet_page *page, double width, double height)
{
    if (!arrange(page, width)) {
        return false;
    }
    page->height = height;
    const double room = height - fixed_height(page);
    page->zone_height = fmin(room / (page->bands * page->scene->n_zones), page->most_zone);
    return page->zone_height >= page->least_zone;
}

bool sl_page_grow(sl_sheet_page *page, double width)
{
    if (!arrange(page, width)) {
        return false;
    }
    const double fixed = fixed_height(page);
    page->zone_height = usual_zone;
    page->height = fixed + page->bands * page->scene->n_zones * usual_zone;
    return true;
}

/* ---- the whole ------------------------------------------------------------------------- */

bool sl_page_draw(sl_sheet_page *page, sl_error *error)
{
    if (!sl_hair_lay(page, error)) {
        return false;
    }
    const double below =
        sl_page_head(page, (sl_paper_pen){.canvas = &page->canvas, .y = page->margin, .draws = true});
    draw_bands(page, below);
    const double foot = sl_page_foot(page, (sl_paper_pen){.canvas = &page->canvas, .y = 0.0, .draws = false});
    const double top = page->height - page->margin - foot;
    sl_page_foot(page, (sl_paper_pen){.canvas = &page->canvas, .y = top, .draws = true});
    return true;
}

bool sl_page_publish(sl_sheet_page *page, sl_error *error)
{
    if (!sl_canvas_open(&page->canvas, page->width, page->height, sl_scene_title(page->scene), error)) {
        return false;
    }
    if (!sl_page_draw(page, error)) {
        sl_canvas_close(&page->canvas);
        return false;
    }
    return sl_canvas_commit(&page->canvas, error);
}

void sl_page_free(sl_sheet_page *page)
{
    for (int arm = 0; arm < SL_MAX_ARMS; arm++) {
        sl_strip_free(page->strip[arm]);
        page->strip[arm] = NULL;
    }
}
