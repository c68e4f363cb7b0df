/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What a use of a mix costs: packets against tubs, what is thrown away counted in. Formulas:
 * docs/science.md, "What a use costs".
 */
#ifndef SLOWLIFT_COST_H
#define SLOWLIFT_COST_H

#include <stdbool.h>

#include "slowlift/error.h"
#include "slowlift/model.h"
#include "slowlift/timeline.h"

#pragma GCC visibility push(default)

enum {
    SL_CURRENCY = 4,
    SL_PRICES_TITLE = 201,
    SL_PRODUCT_NAME = 41,
    SL_MOST_PRODUCTS = 16,
    SL_PRODUCT_MIXES = 8,
    SL_MIX_NAME = 64
};

/* What mixes are made with, as it is bought and as it stands on the shelf. */
typedef struct sl_product {
    char name[SL_PRODUCT_NAME];              /* her own word for it */
    bool liquid;                             /* else the powder */
    int n_mixes;                             /* that are made with it */
    char mix[SL_PRODUCT_MIXES][SL_MIX_NAME]; /* as their files are called */
    double holds_g, price;                   /* a packet, a tub or a bottle */
    bool once;                               /* what is left of an opened one is thrown away */
    int have;                                /* unopened ones on the shelf */
    double open_g;                           /* left in the one that stands open */
} sl_product;

/* A file of kind prices (models/prices). 0 = not sold that way. */
typedef struct sl_prices {
    char title[SL_LANGUAGES][SL_PRICES_TITLE]; /* [language]; "": not written in it */
    char currency[SL_CURRENCY];                /* ISO 4217: "EUR" */
    double packet_g, packet_price;             /* powder in packets for one use */
    double tub_g, tub_price, tub_weeks;        /* powder in a tub; weeks that it serves once opened (the
                                                  user's own guess: no source is known) */
    double developer_g, developer_price;       /* a bottle */
    double other_price;                        /* gloves, towels and the rest, for one use */
    int n_products;
    sl_product products[SL_MOST_PRODUCTS]; /* in place of packet, tub and developer for their mixes */
} sl_prices;

/* The title in that language; else in English, else in whichever it has. */
const char *sl_prices_title(const sl_prices *prices, sl_language_id language);

/* One use: a client, a swatch, or a class's afternoon. */
typedef struct sl_use {
    double powder_g, developer_g; /* weighed, waste included */
    double per_week;              /* uses of one opened tub in a week, > 0 */
    int times;                    /* pairs of gloves and the rest that it takes; 0: one */
} sl_use;

typedef struct sl_cost {
    bool has_packets, has_tub;
    int packets;         /* opened for one use; what is left of the last is thrown away */
    double packets_cost; /* powder for one use out of packets */
    int tub_uses;        /* real uses of one tub: until it is empty or too old */
    double tub_left_g;   /* of it thrown away then */
    double tub_cost;     /* powder for one use out of a tub: its price over the real uses */
    double developer_cost, other_cost;
    double with_packets, with_tub; /* one use, all counted; unset unless has_ */
    int break_even;                /* real uses from which a tub is cheaper than packets; 0: never */
} sl_cost;

/* A use without powder has neither packets nor tub. */
sl_cost sl_cost_of(const sl_prices *prices, const sl_use *use);

/* The product that this mix's powder, or liquid, is; NULL: none is named for it. */
const sl_product *sl_product_of(const sl_prices *prices, const char *mix, bool liquid);
/* Of one product so much: whole packets where the rest is thrown away, else by the gram. */
double sl_product_cost(const sl_product *product, double grams);

/* What is opened, bought and left of a product where so much of it is needed. */
typedef struct sl_purchase {
    int opened;    /* of those on the shelf and those bought; what stands open goes first, unless `once` */
    int bought;    /* more than there are */
    double left_g; /* open afterwards; thrown away where `once` */
    double cost, bought_cost;
} sl_purchase;
sl_purchase sl_purchase_of(const sl_product *product, double grams);

/* Powder that has lost some of its oxidants: how much longer the scene's arm then needs for the
 * leftover that fresh powder gives in its first application. */
typedef struct sl_freshness {
    bool known;        /* false: the arm has no powder inside the model, or the zone no dye */
    double fresh_left; /* colour left with fresh powder, 0..1 */
    double stale_left; /* with the old powder, after the same time */
    bool reached;      /* false: never in six times the time */
    double times;      /* as long; unset unless reached */
} sl_freshness;
/* activity: share of the fresh powder's oxidants, above 0 up to 1. */
bool sl_freshness_of(const sl_scene *scene, int arm, int zone, double activity, sl_solver *solver,
                     sl_freshness *freshness, sl_error *error);

#pragma GCC visibility pop

#endif
