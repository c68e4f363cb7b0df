/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * How long a strip and the benchmark scene take, against CVODE and scipy, at equal error.
 *
 *     bench MODELS      prints a Markdown table
 *
 * The scene is models/scenes/eight-arms.yaml at 241 times. The error of a way is its largest
 * difference, over all arms, zones and times, of a dye's share left, a melanin stage (share of
 * the zone's melanin) or cystine, to CVODE's full system at 1e-12. Each way runs at the loosest
 * tolerance (in steps of ten) that keeps the error below the bound. Ways take turns; figures are
 * medians of CPU time on one thread. Never asserted: a table, not a test.
 */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <time.h>

#include "reference/full_system.h"
#include "slowlift/scene.h"
#include "slowlift/timeline.h"

enum { TIMES = 241, AMOUNTS = SL_MAX_DYES_PER_ZONE + SL_MELANINS * SL_STAGES + 1, REPEATS = 9 };

/* What is left of everything, [arm][zone][time][amount]. */
typedef struct amounts {
    int n_arms, n_zones;
    double *left;
} amounts;

typedef struct bench {
    const sl_scene *scene;
    double times[TIMES];
    sl_solver *solver;
    const sl_optics *optics;
    sl_timeline *timeline;
    double *rows; /* of one CVODE run */
    amounts truth, found;
    long calls;
} bench;

static void stop(const char *why)
{
    fprintf(stderr, "bench: %s\n", why);
    exit(EXIT_FAILURE);
}

static double *cell_of(amounts *a, int arm, int zone, int time)
{
    return a->left + (((size_t)arm * (size_t)a->n_zones + (size_t)zone) * TIMES + (size_t)time) * AMOUNTS;
}

static amounts amounts_for(const sl_scene *scene)
{
    amounts a = {.n_arms = scene->n_arms, .n_zones = scene->n_zones};
    a.left = calloc((size_t)a.n_arms * (size_t)a.n_zones * TIMES * AMOUNTS, sizeof(double));
    if (a.left == NULL) {
        stop("out of memory");
    }
    return a;
}

static int n_dyes_of(const sl_scene *scene, int arm, int zone)
{
    return scene->arms[arm].undyed ? 0 : scene->zones[zone].recipe.n_dyes;
}

static const sl_hair *hair_of(const sl_scene *scene, int zone)
{
    return &scene->hairs[scene->zones[zone].hair];
}

/* ---- the ways -------------------------------------------------------------------------------- */

static void solve_with(bench *b, const sl_scene *scene, double tolerance, const sl_optics *optics)
{
    const sl_accuracy accuracy = {tolerance, tolerance, sl_accuracy_default().longest_min};
    sl_error error;
    sl_solver_set_accuracy(b->solver, accuracy);
    if (!sl_timeline_solve(&b->timeline, scene, b->times, TIMES, b->solver, optics, &error)) {
        stop(error.found);
    }
    b->calls = sl_timeline_calls(b->timeline);
}

static void way_timeline(bench *b, double tolerance)
{
    solve_with(b, b->scene, tolerance, NULL);
}

static void way_colours(bench *b, double tolerance)
{
    solve_with(b, b->scene, tolerance, b->optics);
}

/* The library's own full system for every zone: pigment feedback that takes nothing. */
static void way_own_full(bench *b, double tolerance)
{
    sl_scene full = *b->scene;
    full.chemistry.pigment_feedback = true;
    full.chemistry.dye_mol_l.value = 0;
    full.chemistry.melanin[SL_EUMELANIN].held_mol_l.value = 0;
    full.chemistry.melanin[SL_PHEOMELANIN].held_mol_l.value = 0;
    solve_with(b, &full, tolerance, NULL);
}

static void full_by_cvode(bench *b, ref_method method, amounts *into)
{
    b->calls = 0;
    for (int a = 0; a < b->scene->n_arms; a++) {
        for (int z = 0; z < b->scene->n_zones; z++) {
            const ref_setup setup = {.scene = b->scene, .arm = &b->scene->arms[a], .n_zones = 1, .zone = {z}};
            const int n = ref_n_states(&setup);
            if (!ref_solve(&setup, method, b->times, TIMES, b->rows, &b->calls)) {
                stop("CVODE failed");
            }
            for (int t = 0; t < TIMES; t++) {
                const double *y = b->rows + t * n;
                double *left = cell_of(into, a, z, t);
                for (int i = 0; i < n_dyes_of(b->scene, a, z); i++) {
                    left[i] = ref_dye_left(y + ref_zone_dyes(0) + REF_PER_DYE * i);
                }
                memcpy(left + SL_MAX_DYES_PER_ZONE, y + ref_zone_melanin(0),
                       SL_MELANINS * SL_STAGES * sizeof *left);
                left[AMOUNTS - 1] = y[REF_CYSTINE];
            }
        }
    }
}

static void way_cvode_full_bdf(bench *b, double tolerance)
{
    full_by_cvode(b, (ref_method){false, tolerance, tolerance * 1e-2}, &b->found);
}

static void way_cvode_full_adams(bench *b, double tolerance)
{
    full_by_cvode(b, (ref_method){true, tolerance, tolerance * 1e-2}, &b->found);
}

/* Zones read from doses, as the library does it, so that design and integrator are told apart. */
static void read_zone(bench *b, int a, int z, int n)
{
    const sl_scene *scene = b->scene;
    const sl_recipe *recipe = &scene->zones[z].recipe;
    for (int t = 0; t < TIMES; t++) {
        const double *y = b->rows + t * n;
        double *left = cell_of(&b->found, a, z, t);
        sl_moment m = {
            .leach_min = y[REF_LEACH], .shampoos = y[REF_SHAMPOOS], .cystine_intact = y[REF_CYSTINE]};
        memcpy(m.rim_dose, y + REF_RIM, sizeof m.rim_dose);
        memcpy(m.core_dose, y + REF_CORE, sizeof m.core_dose);
        for (int i = 0; i < n_dyes_of(scene, a, z); i++) {
            left[i] = sl_dye_left(&scene->dyes[recipe->dye[i]], &m);
        }
        double exponent[SL_MELANINS];
        double pool[SL_MELANINS][SL_STAGES];
        for (int kind = 0; kind < SL_MELANINS; kind++) {
            exponent[kind] = sl_core_exponent(&scene->chemistry.melanin[kind].rates, &m);
        }
        sl_melanin_move(&scene->chemistry, exponent, hair_of(scene, z)->pool, pool);
        memcpy(left + SL_MAX_DYES_PER_ZONE, pool, sizeof pool);
        left[AMOUNTS - 1] = y[REF_CYSTINE];
    }
}

static bool same_class(const sl_hair *one, const sl_hair *two)
{
    return fabs(one->porosity - two->porosity) < 1e-15 &&
           fabs(one->cystine_intact - two->cystine_intact) < 1e-15;
}

static void shared_by_cvode(bench *b, ref_method method)
{
    bool read[SL_MAX_ZONES];
    b->calls = 0;
    for (int a = 0; a < b->scene->n_arms; a++) {
        memset(read, 0, sizeof read);
        for (int z = 0; z < b->scene->n_zones; z++) {
            if (read[z]) {
                continue;
            }
            const ref_setup setup = {
                .scene = b->scene, .arm = &b->scene->arms[a], .hair = hair_of(b->scene, z)};
            if (!ref_solve(&setup, method, b->times, TIMES, b->rows, &b->calls)) {
                stop("CVODE failed");
            }
            for (int like = z; like < b->scene->n_zones; like++) {
                if (!read[like] && same_class(hair_of(b->scene, like), setup.hair)) {
                    read_zone(b, a, like, ref_n_states(&setup));
                    read[like] = true;
                }
            }
        }
    }
}

static void way_cvode_shared_bdf(bench *b, double tolerance)
{
    shared_by_cvode(b, (ref_method){false, tolerance, tolerance * 1e-2});
}

static void way_cvode_shared_adams(bench *b, double tolerance)
{
    shared_by_cvode(b, (ref_method){true, tolerance, tolerance * 1e-2});
}

typedef struct way {
    const char *name;
    void (*run)(bench *b, double tolerance);
    bool own; /* leaves its amounts in the timeline */
    double tolerance, error, seconds[REPEATS];
    long calls;
} way;

static const way all_ways[] = {
    {.name = "slowlift, amounts", .run = way_timeline, .own = true},
    {.name = "slowlift, amounts and colours", .run = way_colours, .own = true},
    {.name = "slowlift, full system for every zone", .run = way_own_full, .own = true},
    {.name = "CVODE Adams, shared system", .run = way_cvode_shared_adams},
    {.name = "CVODE BDF, shared system", .run = way_cvode_shared_bdf},
    {.name = "CVODE Adams, full system", .run = way_cvode_full_adams},
    {.name = "CVODE BDF, full system", .run = way_cvode_full_bdf},
};
enum { N_WAYS = sizeof all_ways / sizeof all_ways[0] };

/* ---- error ------------------------------------------------------------------------------------- */

static void collect(bench *b)
{
    for (int a = 0; a < b->scene->n_arms; a++) {
        for (int z = 0; z < b->scene->n_zones; z++) {
            for (int t = 0; t < TIMES; t++) {
                const sl_cell *cell = sl_timeline_cell(b->timeline, a, z, t);
                double *left = cell_of(&b->found, a, z, t);
                memcpy(left, cell->amounts.dye_left, sizeof cell->amounts.dye_left);
                memcpy(left + SL_MAX_DYES_PER_ZONE, cell->amounts.pool, sizeof cell->amounts.pool);
                left[AMOUNTS - 1] = (1 - cell->cystine_lost) * hair_of(b->scene, z)->cystine_intact;
            }
        }
    }
}

static double error_of(bench *b)
{
    double worst = 0;
    for (int a = 0; a < b->scene->n_arms; a++) {
        for (int z = 0; z < b->scene->n_zones; z++) {
            double whole = 0;
            for (int i = 0; i < SL_MELANINS * SL_STAGES; i++) {
                whole += hair_of(b->scene, z)->pool[i / SL_STAGES][i % SL_STAGES];
            }
            const int n_dyes = n_dyes_of(b->scene, a, z);
            for (int t = 0; t < TIMES; t++) {
                const double *found = cell_of(&b->found, a, z, t);
                const double *truth = cell_of(&b->truth, a, z, t);
                for (int i = 0; i < AMOUNTS; i++) {
                    const bool melanin = i >= SL_MAX_DYES_PER_ZONE && i < AMOUNTS - 1;
                    if (i < n_dyes || i >= SL_MAX_DYES_PER_ZONE) {
                        worst = fmax(worst, fabs(found[i] - truth[i]) / (melanin && whole > 0 ? whole : 1));
                    }
                }
            }
        }
    }
    return worst;
}

static void run_and_judge(bench *b, way *w)
{
    w->run(b, w->tolerance);
    w->calls = b->calls;
    if (w->own) {
        collect(b);
    }
    w->error = error_of(b);
}

static void choose_tolerance(bench *b, way *w, double bound)
{
    for (w->tolerance = 1e-3; w->tolerance > 1e-13; w->tolerance /= 10) {
        run_and_judge(b, w);
        if (w->error <= bound) {
            return;
        }
    }
}

/* ---- time ------------------------------------------------------------------------------------------ */

static double cpu_seconds(void)
{
    struct timespec now;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
    return (double)now.tv_sec + (double)now.tv_nsec * 1e-9;
}

static int rising(const void *one, const void *two)
{
    const double a = *(const double *)one;
    const double b = *(const double *)two;
    return (a > b) - (a < b);
}

static double median(const double *seconds)
{
    double sorted[REPEATS];
    memcpy(sorted, seconds, sizeof sorted);
    qsort(sorted, REPEATS, sizeof sorted[0], rising);
    return sorted[REPEATS / 2];
}

/* Short ways run several times in a row, so that the clock's grain does not matter. */
static double time_once(bench *b, const way *w)
{
    int runs = 0;
    const double start = cpu_seconds();
    double now = start;
    do {
        w->run(b, w->tolerance);
        runs++;
        now = cpu_seconds();
    } while (now - start < 0.02);
    return (now - start) / runs;
}

static long peak_kib(void)
{
    struct rusage usage;
    getrusage(RUSAGE_SELF, &usage);
    return usage.ru_maxrss;
}

static void print_rows(const char *what, double bound, const way ways[N_WAYS])
{
    const double base = median(ways[0].seconds);
    for (int i = 0; i < N_WAYS; i++) {
        printf("| %s | %.0e | %s | %.0e | %.1e | %ld | %.3f | %.1f |\n", what, bound, ways[i].name,
               ways[i].tolerance, ways[i].error, ways[i].calls, median(ways[i].seconds) * 1e3,
               median(ways[i].seconds) / base);
    }
}

static void compare(const sl_scene *scene, const char *what, double bound, const sl_optics *optics,
                    sl_solver *solver)
{
    bench b = {.scene = scene, .solver = solver, .optics = optics};
    way ways[N_WAYS];
    memcpy(ways, all_ways, sizeof ways);
    for (int i = 0; i < TIMES; i++) {
        b.times[i] = scene->until_min * i / (TIMES - 1);
    }
    b.rows = calloc((size_t)TIMES * (REF_SHARED + REF_PER_ZONE), sizeof(double));
    b.truth = amounts_for(scene);
    b.found = amounts_for(scene);
    if (b.rows == NULL) {
        stop("out of memory");
    }
    full_by_cvode(&b, (ref_method){true, 1e-12, 1e-17}, &b.truth);
    for (int i = 0; i < N_WAYS; i++) {
        choose_tolerance(&b, &ways[i], bound);
    }
    for (int repeat = 0; repeat < REPEATS; repeat++) { /* in turns, so that a slow spell hits all */
        for (int i = 0; i < N_WAYS; i++) {
            ways[i].seconds[repeat] = time_once(&b, &ways[i]);
        }
    }
    print_rows(what, bound, ways);
    sl_timeline_free(b.timeline);
    free(b.rows);
    free(b.truth.left);
    free(b.found.left);
}

/* ---- all of it ---------------------------------------------------------------------------------------- */

static void print_machine(void)
{
    char line[256];
    FILE *cpus = fopen("/proc/cpuinfo", "r");
    while (cpus != NULL && fgets(line, sizeof line, cpus) != NULL) {
        if (strncmp(line, "model name", 10) == 0) {
            printf("Machine: %s", strchr(line, ':') + 2);
            break;
        }
    }
    if (cpus != NULL) {
        fclose(cpus);
    }
    char day[32];
    const time_t now = time(NULL);
    struct tm utc;
    gmtime_r(&now, &utc);
    strftime(day, sizeof day, "%Y-%m-%d", &utc);
    printf("Date: %s. Compiler: %s. One thread; medians of %d, ways in turns.\n\n", day, __VERSION__,
           REPEATS);
}

/* Default tolerance, nothing else in the process yet: what a user's run costs. */
static void print_default(const sl_scene *scene, sl_solver *solver, const sl_optics *optics)
{
    bench b = {.scene = scene, .solver = solver, .optics = optics};
    for (int i = 0; i < TIMES; i++) {
        b.times[i] = scene->until_min * i / (TIMES - 1);
    }
    way w = {.run = way_colours, .tolerance = sl_accuracy_default().absolute};
    way plain = {.run = way_timeline, .tolerance = w.tolerance};
    time_once(&b, &w);
    const long peak = peak_kib();
    for (int i = 0; i < REPEATS; i++) {
        w.seconds[i] = time_once(&b, &w);
        plain.seconds[i] = time_once(&b, &plain);
    }
    printf(
        "At the default tolerance (%.0e) the benchmark scene takes %.3f ms without colours and %.3f ms with "
        "them\n(%d solves, %ld right-hand sides); peak memory of the process until then %.1f MiB.\n\n",
        w.tolerance, median(plain.seconds) * 1e3, median(w.seconds) * 1e3, sl_timeline_solves(b.timeline),
        b.calls, (double)peak / 1024);
    sl_timeline_free(b.timeline);
}

int main(int argc, char **argv)
{
    if (argc != 2) {
        fprintf(stderr, "usage: bench MODELS\n");
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
    if (solver == NULL || optics == NULL) {
        stop(error.found);
    }
    print_machine();
    print_default(scene, solver, optics);
    printf("| what | error at most | way | tolerance | error | right-hand sides | ms | ratio |\n"
           "|---|---|---|---|---|---|---|---|\n");
    sl_scene strip = *scene;
    strip.n_arms = 1;
    strip.arms = scene->arms + 4; /* powder + 6 % */
    compare(&strip, "one strip", 1e-6, optics, solver);
    compare(scene, "eight arms", 1e-6, optics, solver);
    compare(scene, "eight arms", 1e-7, optics, solver);
    sl_optics_free(optics);
    sl_solver_free(solver);
    sl_scene_free(scene);
    return EXIT_SUCCESS;
}
