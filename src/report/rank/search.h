/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Mixes to try on a strand, or none, as text, CSV and JSON. Invariant: text promises nothing and
 * has no time but whole minutes in a range.
 */
#ifndef SLOWLIFT_REPORT_SEARCH_H
#define SLOWLIFT_REPORT_SEARCH_H

#include <stdio.h>

#include "slowlift/what_if.h"

typedef struct sl_search_page {
    const sl_scene *scene;
    const sl_search *search;
} sl_search_page;

bool sl_search_text(FILE *out, const sl_search_page *page, int width);
bool sl_search_csv(FILE *out, const sl_search_page *page); /* mix,arm,quantity,value */
bool sl_search_json(FILE *out, const sl_search_page *page);

#endif
