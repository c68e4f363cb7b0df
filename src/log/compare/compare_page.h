/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What was seen, as a document, CSV and JSON. Invariant: no sum over colours is made.
 */
#ifndef SLOWLIFT_LOG_COMPARE_PAGE_H
#define SLOWLIFT_LOG_COMPARE_PAGE_H

#include <stdio.h>

#include "document/document.h"
#include "document/table.h"
#include "log/compare/seen_curves.h"
#include "slowlift/compare.h"
#include "slowlift/promise.h"

typedef struct sl_compare_page {
    const sl_compare *compare;
    int only;                     /* this zone alone; -1: every zone that was looked at */
    const sl_rate *rates;         /* [arm][zone]; NULL: not asked */
    const sl_promise *promise;    /* of a plan of its size; NULL: not told */
    const sl_seen_curves *curves; /* with its chart, and looks on the way; NULL: without */
    int chosen;                   /* the arm whose curve is drawn thicker; -1: none */
} sl_compare_page;

sl_document_sayer sl_compare_say;         /* of a sl_compare_page */
extern const sl_export sl_compare_export; /* of an sl_compare_page */

/* On which cautions are owed, bits of sl_occasion. */
unsigned sl_compare_occasions(const sl_compare *compare);

/* ---- words (compare_words.c) ------------------------------------------------------------------- */

bool sl_compare_page_shows(const sl_compare_page *page, int zone);
/* Arms that were seen in the zone, best first; returns how many. */
int sl_compare_order(const sl_compare *compare, int zone, int order[SL_MAX_ARMS]);
/* "2", or "2 tie". */
void sl_compare_place_words(const sl_compare *compare, int arm, int zone, char *text, size_t size);
/* "31 % (22-45)"; one swatch: "31 %". */
void sl_seen_mean_words(const sl_seen_mean *mean, char *text, size_t size);
/* Who came first in a zone, in one sentence: `first` of the n that were seen, their names, and what the one
 * with least left of the colour. */
typedef struct sl_first {
    const char *zone, *names, *left;
    int n, first;
    bool repeated; /* something tells luck from a difference */
} sl_first;
void sl_first_words(const sl_first *of, char *text, size_t size);
void sl_compare_first_words(const sl_compare *compare, int zone, char *text, size_t size);
/* Before which others the arm lies; false: before none. */
bool sl_compare_before_words(const sl_compare *compare, int arm, int zone, char *text, size_t size);
/* By how much one swatch scatters, and how little of it counts. */
void sl_compare_scatter_words(const sl_compare *compare, int zone, char *text, size_t size);
void sl_deviation_words(const sl_compare *compare, const sl_deviation *deviation, char *text, size_t size);
/* What went otherwise than planned, in all. */
void sl_compare_handling_words(const sl_compare_page *page, char *text, size_t size);
/* What these swatches could not show. */
void sl_compare_unseen_words(const sl_compare_page *page, char *text, size_t size);
/* False: nobody looked twice with another judge. */
bool sl_compare_judges_words(const sl_compare *compare, char *text, size_t size);
/* What was seen against the model's order, and how odd that is; false: nothing was. */
bool sl_compare_odd_words(const sl_compare *compare, char *text, size_t size);
/* How many grades were given after the model's word was shown; false: none. */
bool sl_compare_uncovered_words(const sl_compare *compare, char *text, size_t size);
bool sl_compare_later_words(const sl_compare_page *page, char *text, size_t size);

/* ---- hair beside colour (hair_words.c) --------------------------------------------------------- */

bool sl_compare_page_hair(const sl_compare_page *page, int hair);
/* Swatches that were gummy or broke. */
int sl_compare_gummy(const sl_compare *compare);
/* Whether any is shown. */
bool sl_compare_page_has_hair(const sl_compare_page *page);
/* What is read aloud of it. */
void sl_compare_read_hair(sl_document *document, const sl_compare_page *page);
void sl_compare_say_hair(sl_document *document, const sl_compare_page *page);

/* ---- words (judges_words.c) -------------------------------------------------------------------- */

/* False: that judge errs as is assumed and sees no more or less than the others, as far as is known. */
bool sl_compare_judge_words(const sl_compare *compare, int judge, char *text, size_t size);
/* What the order of grades tell otherwise; false: nothing. */
bool sl_otherwise_words(sl_told_otherwise all, const char *zones, char *text, size_t size);
bool sl_compare_otherwise_words(const sl_compare_page *page, char *text, size_t size);

/* ---- words (ladder_words.c) -------------------------------------------------------------------- */

/* Which minute is ranked in place of the end, and what was looked at then; false: nothing was. */
bool sl_compare_at_words(const sl_compare_page *page, char *text, size_t size);
/* That nobody looked at that minute, and at which ones somebody did. */
void sl_compare_no_look_words(const sl_compare_page *page, char *text, size_t size);
/* NULL: no rate is told. */
const sl_rate *sl_compare_page_rate(const sl_compare_page *page, int arm, int zone);
/* "7 min (5-9)": in which half of what is left goes at the mean rate. */
void sl_half_life_words(const sl_seen_mean *rate, char *text, size_t size);
void sl_model_half_life_words(const sl_rate *rate, char *text, size_t size);
/* How rates are meant, and what was left out. */
void sl_rates_words(const sl_compare_page *page, char *text, size_t size);

#endif
