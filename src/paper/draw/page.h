/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What a page holds and how it is divided; private to src/paper. Units are points of the page.
 */
#ifndef SLOWLIFT_PAPER_PAGE_H
#define SLOWLIFT_PAPER_PAGE_H

#include "paper/draw/canvas.h"
#include "slowlift/paper.h"
#include "swatch/strip.h"

static const double SL_PAGE_LABELS = 76.0, SL_GROUP_GAP = 9.0, SL_STRIP_GAP = 1.5;
static const double SL_ROW_HEIGHT = 11.5, SL_BAND_GAP = 14.0;

typedef struct sl_sheet_page {
    sl_canvas canvas;
    const sl_paper_view *view;
    const sl_scene *scene;
    const double *times_min; /* [n_times] */
    int n_times;
    bool single;          /* one moment, large, for a screen */
    int number;           /* of that moment, from 1 */
    double width, height; /* of the page */
    double margin;
    double arm_head;     /* height of what stands over an arm's strips */
    double times_height; /* of the row of moments between that and the strips */
    double least_zone;
    double most_strip, most_zone;
    int per_band; /* arms side by side */
    int bands;
    double zone_height;
    double group_width, strip_width;
    double number_size;           /* of the numbers in the strips */
    sl_strip *strip[SL_MAX_ARMS]; /* the fibres, as pixels; NULL on SVG and PDF */
    sl_light_table light;
} sl_sheet_page;

extern const sl_paper_face sl_small_face;

/* ---- page.c --------------------------------------------------------------------------- */

sl_sheet_page sl_page_of(const sl_paper_view *view, const double *times_min, int n_times);
/* Whether the arms fit a page of this size, with zones as high as it allows. */
bool sl_page_fit(sl_sheet_page *page, double width, double height);
/* A page of this width that grows downward; false when not even one arm fits. */
bool sl_page_grow(sl_sheet_page *page, double width);
/* On an open canvas: everything. */
bool sl_page_draw(sl_sheet_page *page, sl_error *error);
/* Open the canvas that was begun, draw everything and put the file in its place. */
bool sl_page_publish(sl_sheet_page *page, sl_error *error);
void sl_page_free(sl_sheet_page *page);

/* ---- notes.c: what stands above and below the strips ------------------------------------- */

/* Draws the text, or only measures it, and moves down. */
typedef struct sl_paper_pen {
    sl_canvas *canvas;
    double y;
    bool draws;
} sl_paper_pen;
double sl_page_head(const sl_sheet_page *page, sl_paper_pen pen);
double sl_page_foot(const sl_sheet_page *page, sl_paper_pen pen);
/* "20 min", or "moment 3" where no minutes are given. */
void sl_moment_words(const sl_scene *scene, double time_min, int number, char *text, size_t size);

/* ---- group.c: the strips of one arm ------------------------------------------------------- */

void sl_group_draw(sl_sheet_page *page, int arm, double left, double y);

/* ---- hair.c -------------------------------------------------------------------------------- */

/* How the strip of an arm looks at a moment; `plate` gets each zone's own colour, without a
 * mix, and `left` the share of its colour left. */
void sl_hair_look(const sl_sheet_page *page, int arm, double time_min, sl_strip_look *look,
                  sl_srgb8 plate[SL_MAX_ZONES], double left[SL_MAX_ZONES]);
/* Lay what all strips of the page need, once. */
bool sl_hair_lay(sl_sheet_page *page, sl_error *error);
void sl_hair_draw(sl_sheet_page *page, int arm, double x, double y, const sl_strip_look *look);
/* The same as lines, for SVG and PDF (lines.c). */
void sl_hair_lines(cairo_t *cairo, double x, double y, double width, double height, int n_zones,
                   uint32_t seed, const sl_strip_look *look);

#endif
