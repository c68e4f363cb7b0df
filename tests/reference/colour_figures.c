/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A filter for checks in other languages: one request per line on stdin, its figures on
 * stdout. Requests (numbers separated by blanks):
 *   lab X Y Z -> L a b          xyz L a b -> X Y Z        white -> X Y Z
 *   rgb X Y Z -> r g b, linear  encode c -> c'            srgb8 r g b -> X Y Z
 *   de L a b L a b -> dE76 dE2000           words L a b L a b -> what is said of "A" beside "B"
 *   lch L a b -> L C h          seen VISION r g b -> r g b, linear
 *   white_of OBSERVER LIGHT -> X Y Z
 *   adapt OBSERVER LIGHT X Y Z -> X Y Z, adapted to the white of `white`
 *   spectrum OBSERVER LIGHT R380 R390 .. R780 -> X Y Z L a b, reflectance linear in between
 */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "optics/observer.h"
#include "slowlift/optics.h"
#include "slowlift/report.h"

static void print_three(double one, double two, double three)
{
    printf("%.17g %.17g %.17g\n", one, two, three);
}

enum { MOST = 2 + (SL_BANDS + 1) / 2 };

static bool is(const char *word, const char *wanted, int n, int n_wanted)
{
    return strcmp(word, wanted) == 0 && n == n_wanted;
}

static bool answer_colour(const char *word, int n, const double v[MOST])
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
    } else if (is(word, "words", n, 6)) {
        char text[320];
        sl_difference_words((sl_lab){v[0], v[1], v[2]}, "A", (sl_lab){v[3], v[4], v[5]}, "B", text,
                            sizeof text);
        puts(text);
    } else {
        return false;
    }
    return true;
}

/* Reflectance every 10 nm becomes one every 5 nm by halves. */
static void print_spectrum(sl_observer observer, sl_light light, const double tens[])
{
    double weight[3][SL_BANDS];
    double sum[3] = {0.0, 0.0, 0.0};
    sl_observer_weights(observer, light, weight);
    for (int axis = 0; axis < 3; axis++) {
        for (int band = 0; band < SL_BANDS; band++) {
            const double reflectance =
                band % 2 == 0 ? tens[band / 2] : 0.5 * (tens[band / 2] + tens[band / 2 + 1]);
            sum[axis] += weight[axis][band] * reflectance;
        }
    }
    const sl_lab lab = sl_lab_relative((sl_xyz){sum[0], sum[1], sum[2]}, sl_white(observer, light));
    printf("%.17g %.17g %.17g %.17g %.17g %.17g\n", sum[0], sum[1], sum[2], lab.L, lab.a, lab.b);
}

static bool answer_viewing(const char *word, int n, const double v[MOST])
{
    if (is(word, "lch", n, 3)) {
        const sl_lch lch = sl_lch_of_lab((sl_lab){v[0], v[1], v[2]});
        print_three(lch.L, lch.C, lch.h_deg);
    } else if (is(word, "seen", n, 4)) {
        const sl_rgb rgb = sl_rgb_seen((sl_vision)v[0], (sl_rgb){v[1], v[2], v[3]});
        print_three(rgb.r, rgb.g, rgb.b);
    } else if (is(word, "white_of", n, 2)) {
        const sl_xyz white = sl_white((sl_observer)v[0], (sl_light)v[1]);
        print_three(white.X, white.Y, white.Z);
    } else if (is(word, "adapt", n, 5)) {
        const sl_xyz from = sl_white((sl_observer)v[0], (sl_light)v[1]);
        const sl_xyz xyz = sl_adapt((sl_xyz){v[2], v[3], v[4]}, from, sl_white_d65());
        print_three(xyz.X, xyz.Y, xyz.Z);
    } else if (is(word, "spectrum", n, MOST)) {
        print_spectrum((sl_observer)v[0], (sl_light)v[1], v + 2);
    } else {
        return false;
    }
    return true;
}

/* Numbers after the word; -1 when something else stands there. */
static int read_numbers(char *rest, double v[MOST])
{
    int n = 0;
    for (char *piece = strtok(rest, " \n"); piece != NULL; piece = strtok(NULL, " \n")) {
        char *end = NULL;
        if (n == MOST) {
            return -1;
        }
        v[n++] = strtod(piece, &end);
        if (*end != '\0') {
            return -1;
        }
    }
    return n;
}

int main(void)
{
    char line[4096];
    while (fgets(line, sizeof line, stdin)) {
        double v[MOST] = {0.0};
        line[strcspn(line, "\n")] = '\0';
        char *rest = strchr(line, ' ');
        if (rest != NULL) {
            *rest++ = '\0';
        }
        const int n = rest != NULL ? read_numbers(rest, v) : 0;
        if (!answer_colour(line, n, v) && !answer_viewing(line, n, v)) {
            fprintf(stderr, "colour_figures: cannot answer: %s\n", line);
            return EXIT_FAILURE;
        }
    }
    return EXIT_SUCCESS;
}
