/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The sheet: A4 on its side, else upright, whichever holds the arms; when neither does the page
 * grows downward.
 */
#include "slowlift/paper.h"

#include "paper/draw/page.h"

static const double short_side = 595.0, long_side = 842.0; /* points */

static bool choose_size(sl_sheet_page *page, sl_error *error)
{
    if (sl_page_fit(page, long_side, short_side) || sl_page_fit(page, short_side, long_side) ||
        sl_page_grow(page, long_side)) {
        return true;
    }
    return sl_fail(error, SL_ERR_USAGE, "this many moments do not fit on a sheet", "ask for 1 to 40 times");
}

bool sl_paper_sheet(const char *path, const sl_paper_view *view, const double *times_min, int n_times,
                    sl_error *error)
{
    sl_sheet_page page = sl_page_of(view, times_min, n_times);
    /* The file is opened before any text is measured: cairo counts the fonts of a sheet that
     * is never drawn as still in use, and ends the program over it. */
    if (!sl_canvas_begin(&page.canvas, path, error)) {
        return false;
    }
    if (!choose_size(&page, error)) {
        sl_canvas_abandon(&page.canvas);
        return false;
    }
    const bool good = sl_page_publish(&page, error);
    sl_page_free(&page);
    return good;
}
