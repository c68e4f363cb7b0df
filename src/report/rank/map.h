/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A map over two settings as a document, CSV and JSON, and its words. Invariant: a value stands in the
 * text only at points of the map itself, never between them.
 */
#ifndef SLOWLIFT_REPORT_MAP_H
#define SLOWLIFT_REPORT_MAP_H

#include <stddef.h>
#include <stdio.h>

#include "document/document.h"
#include "document/table.h"
#include "graph/graph.h"
#include "slowlift/map.h"

typedef struct sl_map_page {
    const sl_scene *scene;
    const sl_map *map;
    sl_map_layer shows;
    int coarse_x, coarse_y; /* every so many points */
} sl_map_page;

sl_document_sayer sl_map_say;               /* of a sl_map_page */
bool sl_map_csv(FILE *out, const void *of); /* a sl_map_page: every point and layer */
extern const sl_export sl_map_export;       /* JSON, of an sl_map_page */

/* "developer strength (%)": an axis in words, with its unit. */
void sl_axis_words(sl_setting setting, char *text, size_t size);
/* "colour left in "blue" (%)". */
void sl_layer_words(const sl_map_page *page, char *text, size_t size);
/* "arm "powder + 6 %"; goal: ...; limits: ...". */
void sl_map_aims_words(const sl_map_page *page, char *text, size_t size);

/* Lines of equal value over the two settings (map_graph.c). */
const sl_graph *sl_graph_of_map(sl_arena *arena, const sl_map_page *page, sl_error *error);

#endif
