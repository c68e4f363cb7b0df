/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Graphs, the key of each beside it, the cautions that always stand below: on A4 pages lying on their side as
 * PDF, one below the other in a picture.
 */
#ifndef SLOWLIFT_PAPER_CHART_H
#define SLOWLIFT_PAPER_CHART_H

#include "graph/graph.h"

/* graphs: [n]. One that could not be made (NULL) is false, too. */
bool sl_paper_graphs(const char *path, const char *title, const sl_graph *const *graphs, int n,
                     sl_error *error);

#endif
