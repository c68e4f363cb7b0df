/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Grades by a cumulative link: who looks sees a sum of terms with an error and says the grade between whose
 * edges it lies (McCullagh 1980, Journal of the Royal Statistical Society B 42, 109-142; the probit of
 * McKelvey & Zavoina 1975). Rows of a group have a normal effect in common, integrated by adaptive
 * Gauss-Hermite quadrature. Greatest likelihood by Newton's steps; derivatives under the integral by Louis
 * (1982, Journal of the Royal Statistical Society B 44, 226-233).
 */
#ifndef SLOWLIFT_ESTIMATE_ORDINAL_H
#define SLOWLIFT_ESTIMATE_ORDINAL_H

#include "slowlift/observation.h"

typedef enum sl_link { SL_PROBIT, SL_LOGIT } sl_link;

typedef struct sl_ordinal_row {
    int group; /* rising */
    int grade; /* from 0: the most */
    double many;
    int term[2];           /* that add up; -1: none */
    const sl_judge *judge; /* what is seen is off by offset, its error times spread */
} sl_ordinal_row;

enum { SL_ORDINAL_GRADES = 8, SL_ORDINAL_NODES = 20 };

/* Parameters: terms, then edges, then the logarithm of group_sd, as far as they are free. */
typedef struct sl_ordinal {
    sl_link link;
    const sl_ordinal_row *row; /* [n] */
    int n, grades, terms;
    int shares;       /* so many terms, the first, lie in 0..1 */
    double precision; /* of the other terms about 0; 0: nothing is known of them */
    int nodes;        /* of the quadrature; 1: Laplace */
    double node[SL_ORDINAL_NODES], weight[SL_ORDINAL_NODES]; /* sl_hermite_nodes */
    double laplace_from; /* groups of so many looks or more take one node; 0: none does */
    bool free_edges, free_sd;
    double edge[SL_ORDINAL_GRADES + 1]; /* falling; grade g lies below edge[g] and above edge[g + 1]; the
                                           first and last are far off */
    double group_sd;                    /* 0: groups have nothing in common */
    double nearer;      /* steps end when no parameter moves by more; HUGE_VAL: none is taken */
    double *term;       /* [terms] where to begin; filled in, as free edges and group_sd are */
    double *covariance; /* [parameters][parameters], filled in; NULL: not asked */
    double *mode;       /* [groups] each one's likeliest effect, kept for the next fit; NULL: begins anew */
    double *of_group;   /* [groups] filled in: log likelihood of each; NULL: not asked */
    double log_likelihood; /* filled in */
    bool settled;          /* filled in: a maximum was met */
} sl_ordinal;

/* False: no memory. */
bool sl_ordinal_fit(sl_ordinal *ordinal, sl_error *error);
/* Nodes and weights of integrals over exp(-x * x); n at most SL_ORDINAL_NODES. */
void sl_hermite_nodes(int n, double *node, double *weight);

#endif
