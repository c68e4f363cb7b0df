/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * One moment as a picture of so many pixels, and many of them numbered in a folder. The page is
 * as low as its contents allow, so that letters are as large as they can be.
 */
#include "base/language.h"
#include "slowlift/paper.h"

#include <stdio.h>

#include "paper/folder.h"
#include "paper/single.h"

/* Pixels per point below which the smallest letters (6.6 points) cannot be read. */
static const double LEAST_SCALE = 1.0;

bool sl_single_divide(sl_sheet_page *page, sl_paper_size size, double *scale)
{
    static const double heights[] = {400.0, 440.0, 480.0, 530.0, 580.0, 640.0, 720.0, 820.0, 960.0, 1150.0};
    page->single = true;
    page->margin = 18.0;
    page->arm_head = 56.0;
    page->times_height = 0.0;
    page->least_zone = 21.0;
    page->most_strip = 150.0;
    page->most_zone = 60.0;
    page->number_size = 9.0;
    for (size_t i = 0; i < sizeof heights / sizeof heights[0]; i++) {
        *scale = size.height / heights[i];
        if (*scale >= LEAST_SCALE && sl_page_fit(page, size.width / *scale, heights[i])) {
            return true;
        }
    }
    return false;
}

void sl_pictures_said(sl_progress *progress, int done, int all)
{
    if (sl_progress_due(progress)) {
        sl_progress_say(progress, _("slowlift: %3.0f %% of %d pictures (Ctrl-C stops)"), 100.0 * done / all,
                        all);
    }
}

bool sl_single_refused(sl_paper_size size, sl_error *error)
{
    char found[80];
    snprintf(found, sizeof found, _("the strips of this scene do not fit %dx%d pixels"), size.width,
             size.height);
    return sl_fail(error, SL_ERR_USAGE, found, "give a larger or wider --size, such as 1280x720");
}

/* Draws moment `number` (from 1) of the page's view. */
static bool draw_one(sl_sheet_page *page, const char *path, sl_paper_size size, const double *time_min,
                     int number, sl_error *error)
{
    double scale = 1.0;
    page->times_min = time_min;
    page->number = number;
    if (!sl_canvas_begin(&page->canvas, path, error)) {
        return false;
    }
    if (!sl_single_divide(page, size, &scale)) {
        sl_canvas_abandon(&page->canvas);
        return sl_single_refused(size, error);
    }
    page->canvas.scale = scale;
    page->canvas.dark = page->view->dark;
    return sl_page_publish(page, error);
}

bool sl_paper_picture(const char *path, const sl_paper_view *view, sl_paper_size size, double time_min,
                      sl_error *error)
{
    sl_sheet_page page = sl_page_of(view, &time_min, 1);
    const bool good = draw_one(&page, path, size, &time_min, 1, error);
    sl_page_free(&page);
    return good;
}

/* ---- a folder of frames ------------------------------------------------------------------- */

/* In a folder as folder.h has it. */
static bool draw_frames(const sl_folder *folder, sl_sheet_page *page, sl_paper_size size,
                        const double *times_min, int n_times, sl_error *error)
{
    sl_progress progress = sl_progress_begin();
    bool good = true;
    for (int i = 0; i < n_times && good; i++) {
        sl_pictures_said(&progress, i, n_times);
        char path[SL_TEMPORARY_PATH + 32];
        snprintf(path, sizeof path, "%s/frame-%04d.png", folder->beside.path, i + 1);
        good = draw_one(page, path, size, &times_min[i], i + 1, error);
    }
    sl_progress_end(&progress);
    return good;
}

bool sl_paper_frames(const char *folder, const sl_paper_view *view, sl_paper_size size,
                     const double *times_min, int n_times, sl_error *error)
{
    if (n_times > SL_PAPER_FRAMES) {
        char found[64];
        snprintf(found, sizeof found, _("%d moments"), n_times);
        return sl_fail(error, SL_ERR_TOO_LARGE, found, "9999 frames");
    }
    sl_folder open;
    if (!sl_folder_open(&open, folder, error)) {
        return false;
    }
    sl_sheet_page page = sl_page_of(view, times_min, 1);
    const bool good =
        draw_frames(&open, &page, size, times_min, n_times, error) && sl_folder_commit(&open, error);
    if (!good) {
        sl_folder_abandon(&open, error);
    }
    sl_page_free(&page);
    return good;
}
