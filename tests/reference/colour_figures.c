/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A filter for checks in other languages: one request per line on stdin, its figures on
 * stdout. Requests (numbers separated by blanks):
 *   lab X Y Z -> L a b          xyz L a b -> X Y Z        white -> X Y Z
 *   rgb X Y Z -> r g b, linear  encode c -> c'            srgb8 r g b -> X Y Z
 *   de L a b L a b -> dE76 dE2000
 */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "slowlift/optics.h"

static void print_three(double one, double two, double three)
{
    printf("%.17g %.17g %.17g\n", one, two, three);
}

static bool is(const char *word, const char *wanted, int n, int n_wanted)
{
    return strcmp(word, wanted) == 0 && n == n_wanted;
}

static bool answer(const char *word, int n, const double v[6])
{
    if (is(word, "white", n, 0)) {
        const sl_xyz white = sl_white_d65();
        print_three(white.X, white.Y, white.Z);
    } else if (is(word, "lab", n, 3)) {
        const sl_lab lab = sl_lab_of_xyz((sl_xyz){v[0], v[1], v[2]});
        print_three(lab.L, lab.a, lab.b);
    } else if (is(word, "xyz", n, 3)) {
        const sl_xyz xyz = sl_xyz_of_lab((sl_lab){v[0], v[1], v[2]});
        print_three(xyz.X, xyz.Y, xyz.Z);
    } else if (is(word, "rgb", n, 3)) {
        const sl_rgb rgb = sl_rgb_of_xyz((sl_xyz){v[0], v[1], v[2]});
        print_three(rgb.r, rgb.g, rgb.b);
    } else if (is(word, "encode", n, 1)) {
        printf("%.17g\n", sl_srgb_encode(v[0]));
    } else if (is(word, "srgb8", n, 3)) {
        const sl_xyz xyz = sl_xyz_of_srgb8((sl_srgb8){(uint8_t)v[0], (uint8_t)v[1], (uint8_t)v[2]});
        print_three(xyz.X, xyz.Y, xyz.Z);
    } else if (is(word, "de", n, 6)) {
        const sl_lab one = {v[0], v[1], v[2]};
        const sl_lab two = {v[3], v[4], v[5]};
        printf("%.17g %.17g\n", sl_delta_e_76(one, two), sl_delta_e_2000(one, two));
    } else {
        return false;
    }
    return true;
}

int main(void)
{
    char line[512];
    while (fgets(line, sizeof line, stdin)) {
        char word[16] = "";
        double v[6] = {0.0};
        const int n =
            sscanf(line, "%15s %lf %lf %lf %lf %lf %lf", word, &v[0], &v[1], &v[2], &v[3], &v[4], &v[5]);
        if (n < 1 || !answer(word, n - 1, v)) {
            fprintf(stderr, "colour_figures: cannot answer: %s", line);
            return EXIT_FAILURE;
        }
    }
    return EXIT_SUCCESS;
}
