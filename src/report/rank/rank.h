/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Arms compared zone by zone, as a document, CSV and JSON. Invariant: text has no minute but the one
 * that was asked for and ranges of whole minutes; the order is that of places, then of middles.
 */
#ifndef SLOWLIFT_REPORT_RANK_H
#define SLOWLIFT_REPORT_RANK_H

#include <stdio.h>

#include "document/document.h"
#include "document/table.h"
#include "graph/graph.h"
#include "slowlift/rank.h"
#include "slowlift/surprise.h"

typedef struct sl_rank_page {
    const sl_timeline *timeline; /* central values, with hair rinsed at any moment (sl_timeline_rinse) */
    const sl_rank *rank;
    const sl_surprise *asked; /* NULL: nothing was */
    const char *scatter_from; /* the log that shows how swatches scatter; NULL: given, or assumed */
    double scatter;           /* that it shows, by so many degrees of freedom */
    int scatter_freedom;
    bool scatter_given;
    int only; /* this zone alone; -1 = every zone with a direct dye */
    bool science;
} sl_rank_page;

sl_document_sayer sl_rank_say;         /* of a sl_rank_page */
extern const sl_export sl_rank_export; /* of an sl_rank_page */

/* ---- words (rank_words.c) -------------------------------------------------------------------- */

bool sl_rank_shows(const sl_rank_page *page, int zone);
/* Arms that have a place in `what`, best first; returns how many. */
int sl_rank_order(const sl_rank *rank, int zone, sl_standing_of what, int order[SL_MAX_ARMS]);
/* unbeaten[arm]: of colour left and stress in the zone at the minute, middle members. */
void sl_rank_unbeaten(const sl_rank *rank, int zone, bool unbeaten[SL_MAX_ARMS]);
/* "2", or "2 tie" when another has the same place. */
/* Speed, end point and selectivity of an arm in a zone, from the central values. */
typedef struct sl_readings_said {
    char half[48], end[48], selectivity[48];
} sl_readings_said;
void sl_rank_readings_words(const sl_rank_page *page, int arm, int zone, sl_readings_said *said);
void sl_rank_place_words(const sl_rank *rank, int arm, int zone, sl_standing_of what, char *text,
                         size_t size);
/* "31 % (22-45)". */
void sl_rank_middle_words(sl_middle middle, char *text, size_t size);
/* Why the first arm comes first in this zone at the minute, in a sentence or two. */
void sl_rank_reason_words(const sl_rank_page *page, int zone, char *text, size_t size);
/* How swatches scatter where the surprise was asked, share. */
double sl_rank_scatter(const sl_rank_page *page);
/* In how many tests the surprise is seen, what that is, and what decides it. */
void sl_rank_surprise_words(const sl_rank_page *page, char *text, size_t size);

/* Colour left against hair stress of one zone (rank_graph.c); zone: as sl_rank_page.only, and never -1. */
const sl_graph *sl_graph_of_rank(sl_arena *arena, const sl_rank_page *page, int zone, sl_error *error);

#endif
