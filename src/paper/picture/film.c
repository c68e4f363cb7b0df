/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * An animated WebP (Google's container specification; libwebp and libwebpmux). The
 * pictures are kept without loss, so that every plate has the colour of the table.
 */
#include "slowlift/paper.h"

#include <webp/encode.h>
#include <webp/mux.h>

#include "paper/single.h"

static bool refuse(const char *path, const char *reason, sl_error *error)
{
    char quoted[SL_ERROR_TEXT_SIZE];
    snprintf(quoted, sizeof quoted, "\"%.200s\"", path);
    return sl_fail(error, SL_ERR_CANNOT_WRITE, quoted, reason);
}

/* The pixels of a page as the encoder takes them. */
static bool copy_pixels(sl_canvas *canvas, WebPPicture *picture)
{
    int width = 0, height = 0;
    size_t pitch = 0;
    const uint32_t *pixel = sl_canvas_pixels(canvas, &width, &height, &pitch);
    picture->use_argb = 1;
    picture->width = width;
    picture->height = height;
    if (!WebPPictureAlloc(picture)) {
        return false;
    }
    for (int y = 0; y < height; y++) {
        for (int x = 0; x < width; x++) {
            picture->argb[(size_t)y * (size_t)picture->argb_stride + (size_t)x] =
                pixel[(size_t)y * pitch + (size_t)x] | 0xFF000000U;
        }
    }
    return true;
}

static bool add_picture(WebPAnimEncoder *encoder, sl_canvas *canvas, int at_ms)
{
    WebPConfig config;
    WebPPicture picture;
    if (!WebPConfigInit(&config) || !WebPConfigLosslessPreset(&config, 1) || !WebPPictureInit(&picture)) {
        return false;
    }
    const bool good = copy_pixels(canvas, &picture) && WebPAnimEncoderAdd(encoder, &picture, at_ms, &config);
    WebPPictureFree(&picture);
    return good;
}

static WebPAnimEncoder *start(sl_paper_size size)
{
    WebPAnimEncoderOptions options;
    if (!WebPAnimEncoderOptionsInit(&options)) {
        return NULL;
    }
    options.anim_params.loop_count = 0; /* round and round */
    return WebPAnimEncoderNew(size.width, size.height, &options);
}

/* Divided already; draws one moment into memory and hands it to the encoder. */
static bool film_moment(sl_sheet_page *page, WebPAnimEncoder *encoder, double scale, int at_ms,
                        const char *path, sl_error *error)
{
    if (!sl_canvas_open_pixels(&page->canvas, page->width, page->height, scale, page->view->dark, error)) {
        return false;
    }
    bool good = sl_page_draw(page, error);
    if (good && !add_picture(encoder, &page->canvas, at_ms)) {
        good = refuse(path, WebPAnimEncoderGetError(encoder), error);
    }
    sl_canvas_close(&page->canvas);
    return good;
}

/* All moments, then the end of the last one. */
static bool film_all(sl_sheet_page *page, WebPAnimEncoder *encoder, sl_paper_size size,
                     const double *times_min, int n_times, int each_ms, WebPData *film, const char *path,
                     sl_error *error)
{
    double scale = 1.0;
    if (!sl_single_divide(page, size, &scale)) {
        return sl_single_refused(size, error);
    }
    sl_progress progress = sl_progress_begin();
    bool good = true;
    for (int i = 0; good && i < n_times; i++) {
        page->times_min = &times_min[i];
        page->number = i + 1;
        sl_pictures_said(&progress, i, n_times);
        good = film_moment(page, encoder, scale, i * each_ms, path, error);
    }
    sl_progress_end(&progress);
    if (!good) {
        return false;
    }
    if (!WebPAnimEncoderAdd(encoder, NULL, n_times * each_ms, NULL) ||
        !WebPAnimEncoderAssemble(encoder, film)) {
        return refuse(path, WebPAnimEncoderGetError(encoder), error);
    }
    return true;
}

static bool write_film(sl_save *save, const WebPData *film, sl_error *error)
{
    fwrite(film->bytes, 1, film->size, save->stream); /* commit says what failed */
    return sl_save_commit(save, error);
}

bool sl_paper_film(const char *path, const sl_paper_view *view, sl_paper_size size, const double *times_min,
                   int n_times, int each_ms, sl_error *error)
{
    sl_save save;
    if (!sl_paper_has_font(error) || !sl_save_open(&save, path, error)) {
        return false;
    }
    sl_sheet_page page = sl_page_of(view, times_min, 1);
    WebPData film;
    WebPDataInit(&film);
    WebPAnimEncoder *encoder = start(size);
    bool good = encoder != NULL
                    ? film_all(&page, encoder, size, times_min, n_times, each_ms, &film, path, error)
                    : refuse(path, "the encoder did not start", error);
    if (good) {
        good = write_film(&save, &film, error);
    } else {
        sl_save_abandon(&save);
    }
    WebPAnimEncoderDelete(encoder);
    WebPDataClear(&film);
    sl_page_free(&page);
    return good;
}
