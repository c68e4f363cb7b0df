/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A page to draw on, through Cairo and Pango.
 */
#include "paper/draw/canvas.h"

#include <cairo-pdf.h>
#include <cairo-svg.h>
#include <fontconfig/fontconfig.h>
#include <math.h>
#include <string.h>
#include <strings.h>

#include "base/language.h"

static const char families[] = "Inter, DejaVu Sans, sans-serif";
static const double png_scale = 2.0; /* 144 dots per inch */

bool sl_paper_kind_of(const char *path, sl_paper_kind *kind, sl_error *error)
{
    static const char *const ends[] = {
        [SL_PAPER_PNG] = ".png", [SL_PAPER_SVG] = ".svg", [SL_PAPER_PDF] = ".pdf"};
    const size_t length = strlen(path), tail = strlen(ends[0]);
    for (int i = 0; i <= SL_PAPER_PDF; i++) {
        if (length > tail && strcasecmp(path + length - tail, ends[i]) == 0) {
            *kind = (sl_paper_kind)i;
            return true;
        }
    }
    char found[SL_ERROR_TEXT_SIZE];
    snprintf(found, sizeof found, _("\"%.120s\" names no kind of picture"), path);
    return sl_fail(error, SL_ERR_USAGE, found, "end the name in .png, .svg or .pdf");
}

/* Pango ends the process when fontconfig knows no font at all, so that is asked first. */
bool sl_paper_has_font(sl_error *error)
{
    FcPattern *any = FcPatternCreate();
    FcObjectSet *family = FcObjectSetBuild(FC_FAMILY, (char *)NULL);
    FcFontSet *found = any != NULL && family != NULL ? FcFontList(NULL, any, family) : NULL;
    const bool some = found != NULL && found->nfont > 0;
    if (found != NULL) {
        FcFontSetDestroy(found);
    }
    if (family != NULL) {
        FcObjectSetDestroy(family);
    }
    if (any != NULL) {
        FcPatternDestroy(any);
    }
    return some || sl_fail(error, SL_ERR_MISSING_PART, "no font was found",
                           "install one, such as Debian's fonts-inter or fonts-dejavu-core");
}

static cairo_status_t write_bytes(void *closure, const unsigned char *bytes, unsigned int length)
{
    sl_save *save = closure;
    return fwrite(bytes, 1, length, save->stream) == length ? CAIRO_STATUS_SUCCESS : CAIRO_STATUS_WRITE_ERROR;
}

static cairo_surface_t *make_surface(sl_canvas *canvas, double width, double height, const char *title)
{
    sl_save *out = &canvas->save;
    width *= canvas->scale;
    height *= canvas->scale;
    if (canvas->kind == SL_PAPER_PDF) {
        cairo_surface_t *pdf = cairo_pdf_surface_create_for_stream(write_bytes, out, width, height);
        cairo_pdf_surface_set_metadata(pdf, CAIRO_PDF_METADATA_TITLE, title);
        /* One date for all, so that the same scene gives the same bytes. */
        cairo_pdf_surface_set_metadata(pdf, CAIRO_PDF_METADATA_CREATE_DATE, "2000-01-01T00:00:00Z");
        cairo_pdf_surface_set_metadata(pdf, CAIRO_PDF_METADATA_MOD_DATE, "2000-01-01T00:00:00Z");
        return pdf;
    }
    if (canvas->kind == SL_PAPER_SVG) {
        return cairo_svg_surface_create_for_stream(write_bytes, out, width, height);
    }
    return cairo_image_surface_create(CAIRO_FORMAT_RGB24, (int)lround(width), (int)lround(height));
}

void sl_canvas_prepare(sl_canvas *canvas)
{
    cairo_font_options_t *options = cairo_font_options_create();
    cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
    cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
    cairo_font_options_set_antialias(options, CAIRO_ANTIALIAS_GRAY);
    canvas->layout = pango_cairo_create_layout(canvas->cairo);
    PangoContext *context = pango_layout_get_context(canvas->layout);
    pango_cairo_context_set_font_options(context, options);
    pango_cairo_context_set_resolution(context, 72.0);
    cairo_font_options_destroy(options);
}

bool sl_canvas_begin(sl_canvas *canvas, const char *path, sl_error *error)
{
    *canvas = (sl_canvas){.kind = SL_PAPER_PNG};
    if (!sl_paper_kind_of(path, &canvas->kind, error) || !sl_paper_has_font(error)) {
        return false;
    }
    canvas->scale = canvas->kind == SL_PAPER_PNG ? png_scale : 1.0;
    return sl_save_open(&canvas->save, path, error);
}

void sl_canvas_abandon(sl_canvas *canvas)
{
    sl_save_abandon(&canvas->save);
}

bool sl_canvas_open(sl_canvas *canvas, double width, double height, const char *title, sl_error *error)
{
    canvas->surface = make_surface(canvas, width, height, title);
    canvas->cairo = cairo_create(canvas->surface);
    if (cairo_status(canvas->cairo) != CAIRO_STATUS_SUCCESS) {
        const char *reason = cairo_status_to_string(cairo_status(canvas->cairo));
        cairo_destroy(canvas->cairo);
        cairo_surface_destroy(canvas->surface);
        sl_save_abandon(&canvas->save);
        return sl_fail(error, SL_ERR_CANNOT_WRITE, "the picture", reason);
    }
    cairo_scale(canvas->cairo, canvas->scale, canvas->scale);
    sl_canvas_prepare(canvas);
    sl_canvas_grey(canvas, 1.0);
    cairo_paint(canvas->cairo);
    return true;
}

bool sl_canvas_open_pixels(sl_canvas *canvas, double width, double height, double scale, bool dark,
                           sl_error *error)
{
    *canvas = (sl_canvas){.kind = SL_PAPER_PNG, .scale = scale, .dark = dark};
    return sl_canvas_open(canvas, width, height, "", error);
}

const uint32_t *sl_canvas_pixels(sl_canvas *canvas, int *width, int *height, size_t *pitch)
{
    cairo_surface_flush(canvas->surface);
    *width = cairo_image_surface_get_width(canvas->surface);
    *height = cairo_image_surface_get_height(canvas->surface);
    *pitch = (size_t)cairo_image_surface_get_stride(canvas->surface) / sizeof(uint32_t);
    /* Cairo aligns rows of 32-bit pixels for 32-bit reading. */
    return (const uint32_t *)(const void *)cairo_image_surface_get_data(canvas->surface);
}

void sl_canvas_close(sl_canvas *canvas)
{
    g_object_unref(canvas->layout);
    cairo_destroy(canvas->cairo);
    cairo_surface_destroy(canvas->surface);
    sl_save_abandon(&canvas->save);
    *canvas = (sl_canvas){.kind = SL_PAPER_PNG};
}

bool sl_canvas_commit(sl_canvas *canvas, sl_error *error)
{
    cairo_show_page(canvas->cairo);
    cairo_status_t status = cairo_status(canvas->cairo);
    g_object_unref(canvas->layout);
    cairo_destroy(canvas->cairo);
    if (canvas->kind == SL_PAPER_PNG && status == CAIRO_STATUS_SUCCESS) {
        status = cairo_surface_write_to_png_stream(canvas->surface, write_bytes, &canvas->save);
    }
    cairo_surface_finish(canvas->surface);
    if (status == CAIRO_STATUS_SUCCESS) {
        status = cairo_surface_status(canvas->surface);
    }
    cairo_surface_destroy(canvas->surface);
    if (status != CAIRO_STATUS_SUCCESS && status != CAIRO_STATUS_WRITE_ERROR) {
        sl_save_abandon(&canvas->save);
        return sl_fail(error, SL_ERR_CANNOT_WRITE, "the picture", cairo_status_to_string(status));
    }
    return sl_save_commit(&canvas->save, error); /* says why writing failed */
}

/* ---- texts --------------------------------------------------------------------------- */

static void set_text(sl_canvas *canvas, double width, int lines, sl_paper_face face, const char *text)
{
    PangoFontDescription *font = pango_font_description_from_string(families);
    pango_font_description_set_absolute_size(font, face.size * PANGO_SCALE);
    pango_font_description_set_weight(font, face.bold ? PANGO_WEIGHT_SEMIBOLD : PANGO_WEIGHT_NORMAL);
    pango_layout_set_font_description(canvas->layout, font);
    pango_font_description_free(font);
    pango_layout_set_width(canvas->layout, (int)lround(width * PANGO_SCALE));
    pango_layout_set_wrap(canvas->layout, PANGO_WRAP_WORD_CHAR);
    pango_layout_set_height(canvas->layout, lines > 0 ? -lines : -1000);
    pango_layout_set_ellipsize(canvas->layout, lines > 0 ? PANGO_ELLIPSIZE_END : PANGO_ELLIPSIZE_NONE);
    pango_layout_set_alignment(canvas->layout, face.align);
    GString *kept = g_string_new(text);
    g_string_replace(kept, " %", "\u00a0%", 0); /* a number and its sign stay on one line */
    pango_layout_set_text(canvas->layout, kept->str, -1);
    g_string_free(kept, TRUE);
}

double sl_canvas_measure(sl_canvas *canvas, double width, int lines, sl_paper_face face, const char *text)
{
    set_text(canvas, width, lines, face, text);
    int height = 0;
    pango_layout_get_size(canvas->layout, NULL, &height);
    return (double)height / PANGO_SCALE;
}

double sl_canvas_wide(sl_canvas *canvas, sl_paper_face face, const char *text)
{
    int width = 0;
    set_text(canvas, 1e5, 0, face, text);
    pango_layout_get_size(canvas->layout, &width, NULL);
    return (double)width / PANGO_SCALE;
}

double sl_canvas_text(sl_canvas *canvas, double x, double y, double width, int lines, sl_paper_face face,
                      const char *text)
{
    const double height = sl_canvas_measure(canvas, width, lines, face, text);
    if (face.fixed) {
        cairo_set_source_rgb(canvas->cairo, face.grey, face.grey, face.grey);
    } else {
        sl_canvas_grey(canvas, face.grey);
    }
    cairo_move_to(canvas->cairo, x, y);
    if (canvas->kind == SL_PAPER_PNG) {
        /* Cairo sets glyphs on whole pixels, which spaces small letters unevenly; outlines do not. */
        pango_cairo_layout_path(canvas->cairo, canvas->layout);
        cairo_fill(canvas->cairo);
    } else {
        pango_cairo_show_layout(canvas->cairo, canvas->layout);
    }
    return height;
}

/* ---- shapes -------------------------------------------------------------------------- */

void sl_canvas_grey(sl_canvas *canvas, double grey)
{
    /* White becomes .11 and the palest letters (.35) .65, which is 6.9 to 1 (WCAG 2.2 asks for 4.5). */
    const double shown = canvas->dark ? 0.94 - 0.83 * grey : grey;
    cairo_set_source_rgb(canvas->cairo, shown, shown, shown);
}

void sl_canvas_colour(sl_canvas *canvas, sl_srgb8 colour)
{
    cairo_set_source_rgb(canvas->cairo, colour.r / 255.0, colour.g / 255.0, colour.b / 255.0);
}

void sl_canvas_box(sl_canvas *canvas, double x, double y, double width, double height, double radius)
{
    const double quarter = acos(0.0);
    cairo_t *cairo = canvas->cairo;
    cairo_new_sub_path(cairo);
    cairo_arc(cairo, x + width - radius, y + radius, radius, -quarter, 0.0);
    cairo_arc(cairo, x + width - radius, y + height - radius, radius, 0.0, quarter);
    cairo_arc(cairo, x + radius, y + height - radius, radius, quarter, 2.0 * quarter);
    cairo_arc(cairo, x + radius, y + radius, radius, 2.0 * quarter, 3.0 * quarter);
    cairo_close_path(cairo);
}
