/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * One moment as a picture of so many pixels, and many of them numbered in a folder. The page is
 * as low as its contents allow, so that letters are as large as they can be.
 */
#include "base/language.h"
#include "slowlift/paper.h"

#include <dirent.h>
#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "paper/single.h"

/* Pixels per point below which the smallest letters (6.6 points) cannot be read. */
static const double LEAST_SCALE = 1.0;

bool sl_single_divide(sl_page *page, sl_paper_size size, double *scale)
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

bool sl_single_refused(sl_paper_size size, sl_error *error)
{
    char found[80];
    snprintf(found, sizeof found, _("the strips of this scene do not fit %dx%d pixels"), size.width,
             size.height);
    return sl_fail(error, SL_ERR_USAGE, found, "give a larger or wider --size, such as 1280x720");
}

/* Draws moment `number` (from 1) of the page's view. */
static bool draw_one(sl_page *page, const char *path, sl_paper_size size, const double *time_min, int number,
                     sl_error *error)
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
    sl_page page = sl_page_of(view, &time_min, 1);
    const bool good = draw_one(&page, path, size, &time_min, 1, error);
    sl_page_free(&page);
    return good;
}

/* ---- a folder of frames ------------------------------------------------------------------- */

enum { PATH_SIZE = SL_SAVE_PATH_SIZE };
static const char FRAME[] = "frame-%04d.png";

typedef struct sl_reel {
    const char *folder;
    bool made;              /* the folder was not there */
    char beside[PATH_SIZE]; /* where frames wait until all are drawn */
    int drawn;
} sl_reel;

static bool refuse(const char *folder, int reason, sl_error *error)
{
    char quoted[SL_ERROR_TEXT_SIZE];
    snprintf(quoted, sizeof quoted, "\"%.200s\"", folder);
    return sl_fail(error, SL_ERR_CANNOT_WRITE, quoted, strerror(reason));
}

/* Whether a name is that of a frame 1..n. */
static bool is_frame(const char *name, int n)
{
    int number = 0;
    char again[32];
    if (sscanf(name, "frame-%4d", &number) != 1 || number < 1 || number > n) {
        return false;
    }
    snprintf(again, sizeof again, FRAME, number);
    return strcmp(name, again) == 0;
}

/* Only frames that will be replaced may lie there. */
static bool is_free(const char *folder, int n, sl_error *error)
{
    DIR *open = opendir(folder);
    if (open == NULL) {
        return refuse(folder, errno, error);
    }
    bool good = true;
    const struct dirent *entry = NULL;
    while (good && (entry = readdir(open)) != NULL) {
        const bool self = strcmp(entry->d_name, ".") == 0 || strcmp(entry->d_name, "..") == 0;
        good = self || is_frame(entry->d_name, n);
        if (!good) {
            char found[SL_ERROR_TEXT_SIZE];
            snprintf(found, sizeof found, _("the folder \"%.100s\" holds \"%.60s\", which would stay there"),
                     folder, entry->d_name);
            sl_fail(error, SL_ERR_USAGE, found, "name an empty folder or a new one");
        }
    }
    closedir(open);
    return good;
}

static bool open_reel(sl_reel *reel, const char *folder, int n, sl_error *error)
{
    *reel = (sl_reel){.folder = folder};
    reel->made = mkdir(folder, 0777) == 0;
    if (!reel->made && errno != EEXIST) {
        return refuse(folder, errno, error);
    }
    const int length = snprintf(reel->beside, sizeof reel->beside - 32, "%s/.frames.XXXXXX", folder);
    if (length < 0 || (size_t)length >= sizeof reel->beside - 32) {
        reel->beside[0] = '\0';
        return refuse(folder, ENAMETOOLONG, error);
    }
    if (!reel->made && !is_free(folder, n, error)) {
        reel->beside[0] = '\0';
        return false;
    }
    if (mkdtemp(reel->beside) == NULL) {
        const int reason = errno;
        reel->beside[0] = '\0';
        return refuse(folder, reason, error);
    }
    return true;
}

static void frame_path(const char *folder, int number, char path[PATH_SIZE])
{
    const int used = snprintf(path, PATH_SIZE, "%s/", folder);
    if (used > 0 && used < PATH_SIZE) {
        snprintf(path + used, (size_t)(PATH_SIZE - used), FRAME, number);
    }
}

static bool put_in_place(sl_reel *reel, sl_error *error)
{
    char from[PATH_SIZE], to[PATH_SIZE];
    for (int i = 1; i <= reel->drawn; i++) {
        frame_path(reel->beside, i, from);
        frame_path(reel->folder, i, to);
        if (rename(from, to) != 0) {
            return refuse(to, errno, error);
        }
    }
    return true;
}

/* Leaves nothing that was not put in its place. */
static void close_reel(sl_reel *reel, bool good)
{
    char path[PATH_SIZE];
    for (int i = 1; i <= reel->drawn && !good; i++) {
        frame_path(reel->beside, i, path);
        unlink(path);
    }
    if (reel->beside[0] != '\0') {
        rmdir(reel->beside);
    }
    if (reel->made && !good) {
        rmdir(reel->folder);
    }
}

bool sl_paper_frames(const char *folder, const sl_paper_view *view, sl_paper_size size,
                     const double *times_min, int n_times, sl_error *error)
{
    if (n_times > SL_PAPER_FRAMES) {
        char found[64];
        snprintf(found, sizeof found, _("%d moments"), n_times);
        return sl_fail(error, SL_ERR_TOO_LARGE, found, "9999 frames");
    }
    sl_reel reel;
    sl_page page = sl_page_of(view, times_min, 1);
    bool good = open_reel(&reel, folder, n_times, error);
    for (int i = 0; i < n_times && good; i++) {
        char path[PATH_SIZE];
        frame_path(reel.beside, i + 1, path);
        good = draw_one(&page, path, size, &times_min[i], i + 1, error);
        reel.drawn += good ? 1 : 0;
    }
    good = good && put_in_place(&reel, error);
    close_reel(&reel, good);
    sl_page_free(&page);
    return good;
}
