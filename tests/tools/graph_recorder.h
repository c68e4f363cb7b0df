/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A pen that keeps what it was told to draw; every letter is 0.6 of its size wide. With `over` it draws with
 * that pen, too, and measures as that one does.
 */
#ifndef SLOWLIFT_TESTS_GRAPH_RECORDER_H
#define SLOWLIFT_TESTS_GRAPH_RECORDER_H

#include <stdlib.h>
#include <string.h>

#include "graph/graph.h"

typedef enum drawn_what { DRAWN_LINE, DRAWN_FILL, DRAWN_TEXT } drawn_what;
typedef struct drawn {
    drawn_what what;
    sl_graph_ink ink;
    sl_graph_pattern pattern;
    sl_graph_dash dash;
    sl_graph_type type;
    double width;
    sl_graph_box box; /* of a text */
    char words[200];
    int n;
    sl_graph_point *at;
} drawn;

enum { RECORDED_MOST = 6000 };
typedef struct recorder {
    int n;
    drawn item[RECORDED_MOST];
    const sl_graph_pen *over; /* NULL: none */
} recorder;

static inline drawn *recorder_next(recorder *all, drawn item, const sl_graph_point *at, int n)
{
    drawn *const kept = &all->item[all->n < RECORDED_MOST ? all->n++ : RECORDED_MOST - 1];
    *kept = item;
    kept->n = n;
    kept->at = n > 0 ? malloc((size_t)n * sizeof *at) : NULL;
    if (kept->at) {
        memcpy(kept->at, at, (size_t)n * sizeof *at);
    }
    return kept;
}

static inline void recorder_line(void *self, const sl_graph_point *at, int n, sl_graph_ink ink, double width,
                                 sl_graph_dash dash)
{
    recorder *const all = self;
    recorder_next(all, (drawn){.what = DRAWN_LINE, .ink = ink, .width = width, .dash = dash}, at, n);
    if (all->over) {
        all->over->kind->line(all->over->self, at, n, ink, width, dash);
    }
}

static inline void recorder_fill(void *self, const sl_graph_point *at, int n, sl_graph_ink ink,
                                 sl_graph_pattern pattern)
{
    recorder *const all = self;
    recorder_next(all, (drawn){.what = DRAWN_FILL, .ink = ink, .pattern = pattern}, at, n);
    if (all->over) {
        all->over->kind->fill(all->over->self, at, n, ink, pattern);
    }
}

static inline sl_graph_point recorder_measure(void *self, double width, sl_graph_type type, const char *words)
{
    static const double size[SL_GRAPH_TYPES] = {10.0, 10.0, 10.0, 9.0};
    const recorder *const all = self;
    if (all->over) {
        return all->over->kind->measure(all->over->self, width, type, words);
    }
    const double wide = 0.6 * size[type] * (double)strlen(words);
    const double lines = width > 0.0 ? fmax(1.0, ceil(wide / width)) : 1.0;
    return (sl_graph_point){lines > 1.0 ? width : wide, 1.2 * size[type] * lines};
}

static inline void recorder_text(void *self, sl_graph_point at, double width, sl_graph_type type,
                                 sl_graph_ink ink, const char *words)
{
    recorder *const all = self;
    const sl_graph_point size = recorder_measure(self, width, type, words);
    drawn *const kept = recorder_next(
        all, (drawn){.what = DRAWN_TEXT, .ink = ink, .type = type, .box = {at.x, at.y, size.x, size.y}}, NULL,
        0);
    strncpy(kept->words, words, sizeof kept->words - 1);
    if (all->over) {
        all->over->kind->text(all->over->self, at, width, type, ink, words);
    }
}

static inline sl_graph_pen recorder_pen(recorder *all, double unit)
{
    static const sl_graph_pen_kind kind = {recorder_line, recorder_fill, recorder_text, recorder_measure};
    return (sl_graph_pen){&kind, all, unit};
}

static inline void recorder_empty(recorder *all)
{
    for (int i = 0; i < all->n; i++) {
        free(all->item[i].at);
    }
    all->n = 0;
}

#endif
