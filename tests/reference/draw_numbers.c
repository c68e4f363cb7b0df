/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * draw_numbers SEED MEMBERS: the ensemble's uniform draws as native doubles, [member][DRAWN],
 * for draws_scipy.py.
 */
#include <stdio.h>
#include <stdlib.h>

#include "slowlift/spread.h"

enum { DRAWN = 64 }; /* two rows of the stream */

int main(int argc, char **argv)
{
    if (argc != 3) {
        fprintf(stderr, "usage: draw_numbers SEED MEMBERS\n");
        return EXIT_FAILURE;
    }
    const uint64_t seed = strtoull(argv[1], NULL, 10);
    const long members = strtol(argv[2], NULL, 10);
    for (long m = 0; m < members; m++) {
        double row[DRAWN];
        for (int d = 0; d < DRAWN; d++) {
            row[d] = sl_draw(seed, m, d);
        }
        if (fwrite(row, sizeof row[0], DRAWN, stdout) != DRAWN) {
            return EXIT_FAILURE;
        }
    }
    return fflush(stdout) == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
