/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Mixes to try on a strand, or none, as a document, CSV and JSON. Invariant: it promises nothing and
 * has no time but whole minutes in a range.
 */
#ifndef SLOWLIFT_REPORT_SEARCH_H
#define SLOWLIFT_REPORT_SEARCH_H

#include <stdio.h>

#include "document/document.h"
#include "document/table.h"
#include "slowlift/what_if.h"

typedef struct sl_search_page {
    const sl_scene *scene;
    const sl_search *search;
} sl_search_page;

sl_document_sayer sl_search_say;         /* of a sl_search_page */
extern const sl_export sl_search_export; /* of an sl_search_page */

#endif
