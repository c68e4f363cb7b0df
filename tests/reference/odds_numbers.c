/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * odds_numbers: half widths and intervals of odds over a grid, one a line, for odds_scipy.py.
 */
#include <stdio.h>
#include <stdlib.h>

#include "slowlift/odds.h"

int main(void)
{
    static const double confidence[] = {0.5, 0.9, 0.95, 0.99};
    for (int p = 0; p < 4; p++) {
        for (int n = 2; n <= 200; n++) {
            printf("mean %d %.17g %.17g\n", n, confidence[p], sl_half_width(1.0, n, confidence[p]));
        }
        for (int n = 1; n <= 25; n++) {
            for (int hits = 0; hits <= n; hits++) {
                const sl_interval odds = sl_odds_interval((double)hits / n, n, confidence[p]);
                printf("odds %d %d %.17g %.17g %.17g\n", hits, n, confidence[p], odds.low, odds.high);
            }
        }
        for (int n = 1000; n <= 1000000; n *= 10) { /* as many as an ensemble has */
            for (int hits = 0; hits <= n; hits += n / 8) {
                const sl_interval odds = sl_odds_interval((double)hits / n, n, confidence[p]);
                printf("odds %d %d %.17g %.17g %.17g\n", hits, n, confidence[p], odds.low, odds.high);
            }
        }
    }
    return EXIT_SUCCESS;
}
