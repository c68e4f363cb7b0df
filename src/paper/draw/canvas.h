/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A page to draw on and the file that it becomes. Units are points (1/72 inch) from the
 * top left corner. Invariant: the same calls give the same bytes; no date, no locale.
 */
#ifndef SLOWLIFT_PAPER_CANVAS_H
#define SLOWLIFT_PAPER_CANVAS_H

#include <cairo.h>
#include <pango/pangocairo.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "base/save.h"
#include "slowlift/error.h"
#include "slowlift/optics.h"

typedef enum sl_paper_kind { SL_PAPER_PNG, SL_PAPER_SVG, SL_PAPER_PDF } sl_paper_kind;

typedef struct sl_canvas {
    sl_save save;
    sl_paper_kind kind;
    bool dark;    /* light letters on a dark ground; greys are turned around */
    double scale; /* pixels per point; for SVG and PDF what a point of the page is drawn as */
    cairo_surface_t *surface;
    cairo_t *cairo;
    PangoLayout *layout; /* reused for every text */
} sl_canvas;

/* By the end of the name: .png, .svg or .pdf; else SL_ERR_USAGE. */
bool sl_paper_kind_of(const char *path, sl_paper_kind *kind, sl_error *error);

/* Whether fontconfig finds any font; SL_ERR_MISSING_PART when not. To be asked before any
 * text is measured or drawn: Pango ends the process when there is none. */
bool sl_paper_has_font(sl_error *error);

/* Choose the kind of picture and open the file beside `path`. Then either sl_canvas_abandon,
 * or sl_canvas_open (which abandons by itself when it fails) and sl_canvas_commit. */
bool sl_canvas_begin(sl_canvas *canvas, const char *path, sl_error *error);
void sl_canvas_abandon(sl_canvas *canvas);
/* Between the two `scale` and `dark` may be changed. */
bool sl_canvas_open(sl_canvas *canvas, double width, double height, const char *title, sl_error *error);
/* Finish the file and put it in its place. Closes the canvas in any case. */
bool sl_canvas_commit(sl_canvas *canvas, sl_error *error);

/* The same in memory only, as pixels; no file is opened. Then sl_canvas_close. */
bool sl_canvas_open_pixels(sl_canvas *canvas, double width, double height, double scale, bool dark,
                           sl_error *error);
/* XRGB of the machine's own order, [height][pitch]; whole when drawing has stopped. */
const uint32_t *sl_canvas_pixels(sl_canvas *canvas, int *width, int *height, size_t *pitch);
/* Leave an open canvas without a file. */
void sl_canvas_close(sl_canvas *canvas);

/* Make the layout that texts are set with; sl_canvas_open does it by itself. */
void sl_canvas_prepare(sl_canvas *canvas);

/* How a text stands. */
typedef struct sl_paper_face {
    double size; /* points */
    bool bold;
    double grey;          /* 0 black .. 1 white, on a light ground */
    bool fixed;           /* the grey is meant as it is, on any ground */
    PangoAlignment align; /* within the width */
} sl_paper_face;

/* Draw `text` within `width`, broken into lines; top left corner at (x, y). Returns the
 * height that it took. `lines`: at most so many, then an ellipsis; 0 = as many as needed. */
double sl_canvas_text(sl_canvas *canvas, double x, double y, double width, int lines, sl_paper_face face,
                      const char *text);
/* The height that sl_canvas_text would take. */
double sl_canvas_measure(sl_canvas *canvas, double width, int lines, sl_paper_face face, const char *text);

/* The width that it takes in one line. */
double sl_canvas_wide(sl_canvas *canvas, sl_paper_face face, const char *text);

/* As it is on a light ground; on a dark one its counterpart. */
void sl_canvas_grey(sl_canvas *canvas, double grey);
void sl_canvas_colour(sl_canvas *canvas, sl_srgb8 colour);
/* A box with rounded corners as the current path. */
void sl_canvas_box(sl_canvas *canvas, double x, double y, double width, double height, double radius);

#endif
