/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * In place of film.c where libwebp was not there when the program was built.
 */
#include "slowlift/paper.h"

bool sl_paper_film(const char *path, const sl_paper_view *view, sl_paper_size size, const double *times_min,
                   int n_times, int each_ms, sl_error *error)
{
    (void)path;
    (void)view;
    (void)size;
    (void)times_min;
    (void)n_times;
    (void)each_ms;
    return sl_fail(error, SL_ERR_MISSING_PART, "this build writes no WebP",
                   "install libwebp-dev and build again, or use --frames");
}
