/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * ph_numbers: reads solutions, one a line (°C, then mol/kg of each strong ion and each family of solution.h
 * in their order), and prints what they ionise to, for ph_pitzer.py.
 */
#include <stdio.h>
#include <stdlib.h>

#include "slowlift/solution.h"

int main(void)
{
    double celsius = 0.0;
    while (scanf("%lf", &celsius) == 1) {
        sl_solution solution = {.acid = {0.0}};
        sl_ionised found;
        int read = 0;
        for (int i = 0; i < SL_STRONG_IONS; i++) {
            read += scanf("%lf", &solution.strong[i]);
        }
        for (int i = 0; i < SL_ACIDS; i++) {
            read += scanf("%lf", &solution.acid[i]);
        }
        if (read != SL_STRONG_IONS + SL_ACIDS || !sl_solution_ionise(&solution, celsius + 273.15, &found)) {
            return EXIT_FAILURE;
        }
        printf("%.17g %.17g %.17g", found.ph, found.ionic_strength, found.buffer);
        for (int i = 0; i < SL_ACIDS; i++) {
            printf(" %.17g %.17g %.17g", found.share[i][0], found.share[i][1], found.share[i][2]);
        }
        putchar('\n');
    }
    return EXIT_SUCCESS;
}
