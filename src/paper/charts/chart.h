/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A graph on an A4 page lying on its side, its key beside it, the cautions that always stand below.
 */
#ifndef SLOWLIFT_PAPER_CHART_H
#define SLOWLIFT_PAPER_CHART_H

#include "graph/graph.h"

/* A graph that could not be made (NULL) is false, too. */
bool sl_paper_graph(const char *path, const char *title, const sl_graph *graph, sl_error *error);

#endif
