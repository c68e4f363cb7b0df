/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Reading between an integrator's nodes: by value and slope of up to four neighbours, a polynomial of degree
 * seven, whose error (h^8) is of the order of the integrator's own. Private to src/kinetics.
 */
#ifndef SLOWLIFT_KINETICS_HERMITE_H
#define SLOWLIFT_KINETICS_HERMITE_H

#include <stdbool.h>
#include <stddef.h>

enum { READ_NODES = 4 };

/* Of the nodes first..end-1 (rising times), the first of up to four around t; *count says how many. */
static inline size_t hermite_around(const double time[], size_t first, size_t end, double t, size_t *count)
{
    size_t low = first, high = end - 1;
    while (high - low > 1) {
        const size_t middle = low + (high - low) / 2;
        if (time[middle] <= t) {
            low = middle;
        } else {
            high = middle;
        }
    }
    *count = end - first < READ_NODES ? end - first : READ_NODES;
    size_t from = low > first ? low - 1 : first;
    if (from + *count > end) {
        from = end - *count;
    }
    return from;
}

/* Weights of n nodes at t: value(t) = sum a[i] y_i + b[i] y'_i, with the squared
 * Lagrange polynomials L_i: a = (1 - 2 (t - t_i) L_i'(t_i)) L_i^2, b = (t - t_i) L_i^2. */
static inline void hermite_weights(const double node[], size_t n, double t, double a[], double b[])
{
    for (size_t i = 0; i < n; i++) {
        double lagrange = 1.0;
        double slope = 0.0;
        for (size_t j = 0; j < n; j++) {
            if (j != i) {
                const double gap = 1.0 / (node[i] - node[j]);
                lagrange *= (t - node[j]) * gap;
                slope += gap;
            }
        }
        const double square = lagrange * lagrange;
        a[i] = (1.0 - 2.0 * (t - node[i]) * slope) * square;
        b[i] = (t - node[i]) * square;
    }
}

/* The same polynomial by divided differences, each node twice: for many readings between the same nodes. */
typedef struct hermite_piece {
    size_t terms;    /* 0: of nothing yet */
    double from, to; /* the two nodes between which it is meant */
    double node[2 * READ_NODES], term[2 * READ_NODES];
} hermite_piece;

/* Of the n nodes that hermite_around() gave for t. */
static inline void hermite_prepare(hermite_piece *piece, const double time[], const double value[],
                                   const double slope[], size_t n, double t)
{
    size_t low = 0;
    while (low + 2 < n && time[low + 1] <= t) {
        low++;
    }
    piece->terms = 2 * n;
    piece->from = time[low];
    piece->to = time[low + 1 < n ? low + 1 : low];
    for (size_t i = 0; i < 2 * READ_NODES; i++) {
        piece->node[i] = i < piece->terms ? time[i / 2] : 0.0;
        piece->term[i] = i < piece->terms ? value[i / 2] : 0.0;
    }
    for (size_t order = 1; order < piece->terms; order++) {
        for (size_t i = piece->terms - 1; i >= order; i--) {
            const bool same = order == 1 && i % 2 == 1;
            piece->term[i] =
                same ? slope[i / 2]
                     : (piece->term[i] - piece->term[i - 1]) / (piece->node[i] - piece->node[i - order]);
        }
    }
}

static inline double hermite_piece_at(const hermite_piece *piece, double t)
{
    double sum = 0.0; /* terms that are not there are 0 */
    for (int i = 2 * READ_NODES - 1; i >= 0; i--) {
        sum = piece->term[i] + (t - piece->node[i]) * sum;
    }
    return sum;
}

#endif
