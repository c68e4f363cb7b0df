/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What a use costs, and what a mix is weighed from, for people.
 */
#ifndef SLOWLIFT_REPORT_COST_H
#define SLOWLIFT_REPORT_COST_H

#include <stdbool.h>
#include <stdio.h>

#include "document/document.h"
#include "document/table.h"
#include "slowlift/cost.h"
#include "slowlift/plan.h"

typedef struct sl_cost_line {
    const char *what; /* "one use", "the class", "a swatch of it": msgid */
    sl_use use;
    sl_cost cost;
    bool share; /* of the line before: no words about tubs */
} sl_cost_line;

/* What a class needs of one product. */
typedef struct sl_cost_product {
    const sl_product *product;
    double grams;
    sl_purchase purchase;
} sl_cost_product;

typedef struct sl_cost_page {
    const sl_prices *prices;
    int n_products;
    sl_cost_product product[SL_MOST_PRODUCTS]; /* those that a scene's class needs */
    double bought_cost, rest_cost, all_cost;   /* of what the shelf lacks; gloves and the rest; in all */
    const sl_plan *plan;                       /* borrowed: of that class; NULL: none */
    int n;
    sl_cost_line line[3];
    /* Of an arm of the plan's scene with powder; n_ages 0: none asked for. */
    int arm, zone;
    int n_ages;
    double activity[4];
    sl_freshness freshness[4];
} sl_cost_page;

sl_document_sayer sl_cost_say;         /* of a sl_cost_page */
extern const sl_export sl_cost_export; /* of an sl_cost_page */

typedef struct sl_mixing_page {
    const sl_mix *mix;
    double hair_g, g_per_g, waste, scale_g;
    sl_weighing exact, shown;
} sl_mixing_page;

sl_document_sayer sl_mixing_say;         /* of a sl_mixing_page */
extern const sl_export sl_mixing_export; /* JSON, of an sl_mixing_page */

#endif
