/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Reading between an integrator's nodes: by value and slope of up to four neighbours, a polynomial of degree
 * seven, whose error (h^8) is of the order of the integrator's own. Private to src/kinetics.
 */
#ifndef SLOWLIFT_KINETICS_HERMITE_H
#define SLOWLIFT_KINETICS_HERMITE_H

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

#endif
