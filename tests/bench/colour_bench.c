/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What a colour costs, and what the short way costs in colour: the benchmark scene's strips, zones
 * and times painted by sl_optics_paint (41 bands) and by a plain sum in steps of 1 nm, in the same
 * run.
 *
 *     colour_bench MODELS      prints a Markdown table
 *
 * The plain way: spectra of the pigments at 401 wavelengths, made beforehand as the basis of the
 * product is (bands of dyes by their formula, the others and the observer by cubic splines through
 * the 5 nm figures, D65 linear between its own, as it is defined); per colour the absorptions are
 * added, each goes through exp and sqrt of the mathematical library, and three sums make XYZ, CIELAB
 * and sRGB. Ways take turns; figures are medians of CPU time on one thread. Never asserted.
 */
#include <gsl/gsl_spline.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "optics/absorbers.h"
#include "optics/observer.h"
#include "optics/tress.h"
#include "slowlift/scene.h"
#include "slowlift/timeline.h"

enum { TIMES = 241, REPEATS = 15, FINE = 401, MELANINS = SL_MELANINS * SL_STAGES, MOST_DYES = 32 };

typedef struct plain {
    double keratin[FINE], melanin[MELANINS][FINE], yellowed[FINE], dye[MOST_DYES][FINE];
    double weight[3][FINE];
    sl_xyz white;
} plain;

static void stop(const char *why)
{
    fprintf(stderr, "colour_bench: %s\n", why);
    exit(EXIT_FAILURE);
}

/* ---- the plain way ----------------------------------------------------------------------------- */

static void refine(const double coarse[SL_BANDS], const gsl_interp_type *type, double fine[FINE])
{
    double nm[SL_BANDS];
    for (int band = 0; band < SL_BANDS; band++) {
        nm[band] = SL_FIRST_NM + SL_BAND_NM * band;
    }
    gsl_spline *spline = gsl_spline_alloc(type, SL_BANDS);
    gsl_interp_accel *near = gsl_interp_accel_alloc();
    if (spline == NULL || near == NULL) {
        stop("out of memory");
    }
    gsl_spline_init(spline, nm, coarse, SL_BANDS);
    for (int i = 0; i < FINE; i++) {
        fine[i] = gsl_spline_eval(spline, SL_FIRST_NM + i, near);
    }
    gsl_spline_free(spline);
    gsl_interp_accel_free(near);
}

static void fill_weights(plain *p)
{
    double light[FINE];
    double luminous = 0.0;
    refine(sl_illuminant_d65, gsl_interp_linear, light);
    for (int axis = 0; axis < 3; axis++) {
        refine(sl_observer_2deg[axis], gsl_interp_cspline, p->weight[axis]);
    }
    for (int i = 0; i < FINE; i++) {
        luminous += light[i] * p->weight[1][i];
    }
    double sum[3] = {0.0, 0.0, 0.0};
    for (int axis = 0; axis < 3; axis++) {
        for (int i = 0; i < FINE; i++) {
            p->weight[axis][i] *= light[i] / luminous;
            sum[axis] += p->weight[axis][i];
        }
    }
    p->white = (sl_xyz){sum[0], sum[1], sum[2]};
}

static void fill(plain *p, const sl_scene *scene)
{
    double coarse[SL_BANDS];
    for (int i = 0; i < MELANINS; i++) {
        sl_melanin_spectrum(&scene->chemistry, i / SL_STAGES, i % SL_STAGES, coarse);
        refine(coarse, gsl_interp_cspline, p->melanin[i]);
    }
    sl_keratin_spectrum(coarse);
    refine(coarse, gsl_interp_cspline, p->keratin);
    sl_yellowed_spectrum(&scene->chemistry, coarse);
    refine(coarse, gsl_interp_cspline, p->yellowed);
    for (int dye = 0; dye < scene->n_dyes; dye++) {
        for (int i = 0; i < FINE; i++) {
            p->dye[dye][i] = 0.0;
            for (int band = 0; band < scene->dyes[dye].n_bands; band++) {
                const sl_band *const shape = &scene->dyes[dye].bands[band];
                p->dye[dye][i] += shape->height * sl_band_shape(shape, SL_FIRST_NM + i);
            }
        }
    }
    fill_weights(p);
}

static void add(double amount, const double spectrum[FINE], double q[FINE])
{
    for (int i = 0; i < FINE; i++) {
        q[i] += amount * spectrum[i];
    }
}

static void paint_plainly(const plain *p, const sl_amounts *amounts, sl_colour *colour)
{
    double q[FINE];
    memcpy(q, p->keratin, sizeof q);
    for (int i = 0; i < MELANINS; i++) {
        add(amounts->pool[i / SL_STAGES][i % SL_STAGES], p->melanin[i], q);
    }
    add(amounts->oxidised, p->yellowed, q);
    for (int i = 0; amounts->recipe != NULL && i < amounts->recipe->n_dyes; i++) {
        add(amounts->recipe->strength[i] * amounts->dye_left[i], p->dye[amounts->recipe->dye[i]], q);
    }
    for (int i = 0; i < amounts->n_stains; i++) {
        add(amounts->stain[i], p->dye[amounts->stain_dye[i]], q);
    }
    double sum[3] = {0.0, 0.0, 0.0};
    for (int i = 0; i < FINE; i++) {
        const double R = SL_SURFACE + (1.0 - SL_SURFACE) * exp(-sqrt(2.0 * (q[i] + SL_LEAK)));
        sum[0] += p->weight[0][i] * R;
        sum[1] += p->weight[1][i] * R;
        sum[2] += p->weight[2][i] * R;
    }
    const sl_xyz xyz = {sum[0], sum[1], sum[2]};
    colour->lab = sl_lab_relative(xyz, p->white);
    colour->srgb = sl_srgb8_of_xyz(xyz, &colour->clipped);
}

/* ---- both ways in turns --------------------------------------------------------------------------- */

typedef struct colours {
    const sl_optics *optics;
    const plain *plain;
    sl_amounts *amounts;    /* [n] */
    sl_colour *quick, *one; /* [n] by 41 bands; [n] by 1 nm */
    int n;
} colours;

static double cpu_seconds(void)
{
    struct timespec now;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
    return (double)now.tv_sec + (double)now.tv_nsec * 1e-9;
}

static double time_quick(const colours *c)
{
    const double start = cpu_seconds();
    for (int i = 0; i < c->n; i++) {
        sl_optics_paint(c->optics, &c->amounts[i], &c->quick[i]);
    }
    return cpu_seconds() - start;
}

static double time_plain(const colours *c)
{
    const double start = cpu_seconds();
    for (int i = 0; i < c->n; i++) {
        paint_plainly(c->plain, &c->amounts[i], &c->one[i]);
    }
    return cpu_seconds() - start;
}

static int rising(const void *one, const void *two)
{
    const double a = *(const double *)one;
    const double b = *(const double *)two;
    return (a > b) - (a < b);
}

static double median(double seconds[REPEATS])
{
    qsort(seconds, REPEATS, sizeof *seconds, rising);
    return seconds[REPEATS / 2];
}

static void print_differences(const colours *c)
{
    double worst = 0.0;
    double sum = 0.0;
    int bytes = 0;
    for (int i = 0; i < c->n; i++) {
        const double difference = sl_delta_e_2000(c->quick[i].lab, c->one[i].lab);
        worst = fmax(worst, difference);
        sum += difference;
        bytes += memcmp(&c->quick[i].srgb, &c->one[i].srgb, sizeof(sl_srgb8)) != 0;
    }
    printf("\nBetween both, over %d colours: CIEDE2000 %.4f on average, %.4f at most; sRGB bytes differ in\n"
           "%.1f %% of them.\n",
           c->n, sum / c->n, worst, 100.0 * bytes / c->n);
}

static void compare(const colours *c)
{
    double quick[REPEATS];
    double plainly[REPEATS];
    for (int i = 0; i < REPEATS; i++) {
        quick[i] = time_quick(c);
        plainly[i] = time_plain(c);
    }
    const double short_way = median(quick);
    const double long_way = median(plainly);
    printf("| way | bands | ns per colour | all %d colours, ms | ratio |\n|---|---|---|---|---|\n", c->n);
    printf("| sl_optics_paint | %d, by 10 nm | %.0f | %.2f | 1.0 |\n", SL_PAINT_BANDS, 1e9 * short_way / c->n,
           1e3 * short_way);
    printf("| plain sum | %d, by 1 nm | %.0f | %.2f | %.1f |\n", FINE, 1e9 * long_way / c->n, 1e3 * long_way,
           long_way / short_way);
    print_differences(c);
}

/* ---- all of it --------------------------------------------------------------------------------------- */

static void gather(colours *c, const sl_scene *scene, const sl_timeline *timeline)
{
    c->n = scene->n_arms * scene->n_zones * TIMES;
    const size_t n = (size_t)c->n;
    c->amounts = calloc(n, sizeof *c->amounts);
    c->quick = calloc(n, sizeof *c->quick);
    c->one = calloc(n, sizeof *c->one);
    if (c->amounts == NULL || c->quick == NULL || c->one == NULL) {
        stop("out of memory");
    }
    int at = 0;
    for (int arm = 0; arm < scene->n_arms; arm++) {
        for (int zone = 0; zone < scene->n_zones; zone++) {
            for (int i = 0; i < TIMES; i++) {
                c->amounts[at++] = sl_timeline_cell(timeline, arm, zone, i)->amounts;
            }
        }
    }
}

int main(int argc, char **argv)
{
    if (argc != 2) {
        fprintf(stderr, "usage: colour_bench MODELS\n");
        return EXIT_FAILURE;
    }
    sl_start();
    const char *const folder = argv[1];
    sl_folders folders = {&folder, 1};
    const sl_resolver resolver = sl_resolver_of_folders(&folders);
    char path[1024];
    sl_error error;
    snprintf(path, sizeof path, "%s/scenes/eight-arms.yaml", folder);
    sl_scene *scene = sl_scene_load(path, &resolver, &error);
    sl_solver *solver = sl_solver_new(&error);
    sl_optics *optics = scene != NULL ? sl_optics_new(scene, &error) : NULL;
    plain *one_nm = calloc(1, sizeof *one_nm);
    if (solver == NULL || optics == NULL || one_nm == NULL) {
        stop("cannot start");
    }
    if (scene->n_dyes > MOST_DYES) {
        stop("too many dyes");
    }
    double times[TIMES];
    for (int i = 0; i < TIMES; i++) {
        times[i] = scene->until_min * i / (TIMES - 1);
    }
    sl_timeline *timeline = NULL;
    if (!sl_timeline_solve(&timeline, scene, times, TIMES, solver, NULL, &error)) {
        stop(error.found);
    }
    fill(one_nm, scene);
    colours c = {.optics = optics, .plain = one_nm};
    gather(&c, scene, timeline);
    compare(&c);
    free(c.amounts);
    free(c.quick);
    free(c.one);
    free(one_nm);
    sl_timeline_free(timeline);
    sl_optics_free(optics);
    sl_solver_free(solver);
    sl_scene_free(scene);
    return EXIT_SUCCESS;
}
