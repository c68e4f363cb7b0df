/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Phases of a strip and the CVODE driver of the reference; see full_system.h.
 *
 * Phases: docs/science.md, "Phases of a strip".
 */
#include "full_system.h"

#include <assert.h>
#include <cvode/cvode.h>
#include <math.h>
#include <nvector/nvector_serial.h>
#include <string.h>
#include <sunlinsol/sunlinsol_dense.h>
#include <sunmatrix/sunmatrix_dense.h>
#include <sunnonlinsol/sunnonlinsol_fixedpoint.h>

#include "full_slopes.h"

static int right_side(realtype t, N_Vector y, N_Vector dy, void *stretch)
{
    ref_stretch *s = stretch;
    s->calls++;
    ref_slopes(s, t, NV_DATA_S(y), NV_DATA_S(dy));
    return 0;
}

static int event_side(realtype t, N_Vector y, realtype *root, void *stretch)
{
    const ref_stretch *s = stretch;
    (void)t;
    root[0] = -s->event->level;
    for (int i = 0; i < ref_n_states(s->setup); i++) {
        root[0] += s->event->weight[i] * NV_Ith_S(y, i);
    }
    return 0;
}

/* ---- CVODE ------------------------------------------------------------------------------ */

typedef struct ref_run {
    SUNContext context;
    N_Vector y;
    void *cvode;
    SUNMatrix matrix;
    SUNLinearSolver linear;
    SUNNonlinearSolver fixed_point;
} ref_run;

static void run_end(ref_run *run)
{
    if (run->fixed_point != NULL) {
        SUNNonlinSolFree(run->fixed_point);
    }
    if (run->linear != NULL) {
        SUNLinSolFree(run->linear);
    }
    if (run->matrix != NULL) {
        SUNMatDestroy(run->matrix);
    }
    if (run->cvode != NULL) {
        CVodeFree(&run->cvode);
    }
    if (run->y != NULL) {
        N_VDestroy(run->y);
    }
    SUNContext_Free(&run->context);
}

static bool run_start(ref_run *run, ref_method method, ref_stretch *s, int n)
{
    *run = (ref_run){0};
    if (SUNContext_Create(NULL, &run->context) != 0) {
        return false;
    }
    run->y = N_VNew_Serial(n, run->context);
    run->cvode = CVodeCreate(method.adams ? CV_ADAMS : CV_BDF, run->context);
    memset(NV_DATA_S(run->y), 0, (size_t)n * sizeof(double));
    if (CVodeInit(run->cvode, right_side, s->from, run->y) != CV_SUCCESS ||
        CVodeSStolerances(run->cvode, method.relative, method.absolute) != CV_SUCCESS ||
        CVodeSetUserData(run->cvode, s) != CV_SUCCESS ||
        CVodeSetMaxNumSteps(run->cvode, 2000000) != CV_SUCCESS ||
        CVodeSetMaxHnilWarns(run->cvode, -1) != CV_SUCCESS ||
        (s->event != NULL && CVodeRootInit(run->cvode, 1, event_side) != CV_SUCCESS)) {
        return false;
    }
    if (method.adams) {
        run->fixed_point = SUNNonlinSol_FixedPoint(run->y, 0, run->context);
        return CVodeSetNonlinearSolver(run->cvode, run->fixed_point) == CV_SUCCESS;
    }
    run->matrix = SUNDenseMatrix(n, n, run->context);
    run->linear = SUNLinSol_Dense(run->y, run->matrix, run->context);
    return CVodeSetLinearSolver(run->cvode, run->linear, run->matrix) == CV_SUCCESS;
}

/* Carry run->y from s->from to s->to, writing rows for times in (from, to]. */
static bool run_stretch(ref_run *run, ref_stretch *s, const double *times, int n_times, int *next,
                        double *out, int n)
{
    if (CVodeReInit(run->cvode, s->from, run->y) != CV_SUCCESS ||
        CVodeSetStopTime(run->cvode, s->to) != CV_SUCCESS) {
        return false;
    }
    realtype reached = s->from;
    while (reached < s->to) {
        const bool row = *next < n_times && times[*next] <= s->to;
        const double goal = row ? times[*next] : s->to;
        const int code = goal > reached ? CVode(run->cvode, goal, run->y, &reached, CV_NORMAL) : CV_SUCCESS;
        if (code < 0) {
            return false;
        }
        if (code == CV_ROOT_RETURN) {
            s->event_min = fmin(s->event_min, reached);
            if (CVodeRootInit(run->cvode, 0, NULL) != CV_SUCCESS) { /* the first is all that is asked for */
                return false;
            }
            continue;
        }
        if (row) {
            memcpy(out + *next * n, NV_DATA_S(run->y), (size_t)n * sizeof *out);
            (*next)++;
        }
    }
    return true;
}

/* *warmth_k: NULL, or what the mix has warmed itself by; *most_k the most so far. */
static bool in_bowl(const ref_setup *setup, const sl_step *step, ref_method method, ref_charge *charge,
                    double *warmth_k, double *most_k, long *calls)
{
    const sl_mix *mix = &setup->scene->mixes[step->mix];
    const ref_setup oxidants = {.scene = setup->scene, .arm = setup->arm, .hair = setup->hair};
    ref_stretch s = {.setup = &oxidants,
                     .kind = REF_BOWL,
                     .to = step->mix_age_min,
                     .mix = mix,
                     .step = step,
                     .warms = warmth_k != NULL,
                     .porosity = 1,
                     .saturation = charge->saturation};
    if (step->mix_age_min <= 0) {
        return true;
    }
    ref_run run;
    int none = 0;
    bool done = run_start(&run, method, &s, REF_SHARED);
    if (done) {
        double *y = NV_DATA_S(run.y);
        y[REF_PEROXIDE] = charge->peroxide;
        y[REF_PERSULFATE] = charge->persulfate;
        y[REF_SOLID] = charge->solid;
        y[REF_REDUCTANT] = charge->reductant;
        y[REF_WETNESS] = y[REF_CYSTINE] = 1;
        done = run_stretch(&run, &s, NULL, 0, &none, NULL, REF_SHARED);
        charge->peroxide = y[REF_PEROXIDE];
        charge->persulfate = y[REF_PERSULFATE];
        charge->solid = y[REF_SOLID];
        if (warmth_k != NULL) {
            *warmth_k = y[REF_WARMTH];
            *most_k = fmax(*most_k, s.most_k);
        }
        charge->reductant = y[REF_REDUCTANT];
    }
    *calls += s.calls;
    run_end(&run);
    return done;
}

bool ref_bowl(const ref_setup *setup, const sl_step *step, ref_method method, ref_charge *charge, long *calls)
{
    return in_bowl(setup, step, method, charge, NULL, NULL, calls);
}

/* ---- an arm from its contact to the end ---------------------------------------------------- */

static void start_of(const ref_setup *setup, double *y)
{
    const sl_hair *hair =
        setup->n_zones > 0 ? &setup->scene->hairs[setup->scene->zones[setup->zone[0]].hair] : setup->hair;
    double porosity = 1;
    y[REF_CYSTINE] = hair->cystine_intact;
    ref_mean_hair(setup->scene, &porosity, &y[REF_MEAN + REF_CYSTINE]);
    for (int z = 0; z < setup->n_zones; z++) {
        const sl_zone *zone = &setup->scene->zones[setup->zone[z]];
        for (int i = 0; i < ref_dyes_of(setup, z); i++) {
            const double rim = setup->scene->dyes[zone->recipe.dye[i]].rim_share.value;
            const double loose = setup->scene->dyes[zone->recipe.dye[i]].loose_share.value;
            double *dye = y + ref_zone_dyes(z) + REF_PER_DYE * i;
            dye[0] = (1 - loose) * rim;
            dye[1] = loose * rim;
            dye[2] = (1 - loose) * (1 - rim);
            dye[3] = loose * (1 - rim);
        }
        memcpy(y + ref_zone_melanin(z), setup->scene->hairs[zone->hair].pool,
               SL_MELANINS * SL_STAGES * sizeof *y);
    }
}

/* Start a step at s->from: what the bath and the wetness become. */
static bool open_step(ref_stretch *s, const sl_step *step, ref_method method, double *y)
{
    const ref_setup *setup = s->setup;
    s->pace.kelvin = 0; /* pH may change: the constants are made anew */
    s->shampoo = step->kind == SL_STEP_SHAMPOO;
    s->covered = step->covered;
    if (step->kind != SL_STEP_REST) {
        y[REF_WETNESS] = y[REF_MEAN + REF_WETNESS] = 1;
    }
    y[REF_WARMTH] = 0;
    if (step->kind == SL_STEP_REST) {
        s->kind = REF_RESTING;
        y[REF_PEROXIDE] = y[REF_PERSULFATE] = y[REF_SOLID] = y[REF_REDUCTANT] = 0;
        y[REF_MEAN + REF_PEROXIDE] = y[REF_MEAN + REF_PERSULFATE] = y[REF_MEAN + REF_SOLID] = 0;
        return true;
    }
    if (step->kind != SL_STEP_APPLY) {
        s->kind = REF_WATER;
        return true;
    }
    s->kind = REF_ON_HAIR;
    s->mix = &setup->scene->mixes[step->mix];
    s->last_contact = s->from;
    s->mixed = s->from - step->mix_age_min;
    const sl_chemistry *c = &setup->scene->chemistry;
    ref_charge charge = ref_mix_charge(c, s->mix, step->mix_g_per_g, step->hair_water_g_g);
    double warmth_k = 0;
    s->step = step;
    if (!in_bowl(setup, step, method, &charge, s->warms ? &warmth_k : NULL, &s->most_k, &s->calls)) {
        return false;
    }
    const double capacity = ref_capacity(c, step);
    y[REF_WARMTH] = s->warms ? warmth_k * capacity / (capacity + c->hair_heat_j_g_k.value) : 0;
    s->saturation = charge.saturation;
    s->phi = c->fibre_water_ml_g.value / charge.liquid_ml_g;
    y[REF_PEROXIDE] = y[REF_MEAN + REF_PEROXIDE] = charge.peroxide;
    y[REF_PERSULFATE] = y[REF_MEAN + REF_PERSULFATE] = charge.persulfate;
    y[REF_SOLID] = y[REF_MEAN + REF_SOLID] = charge.solid;
    y[REF_REDUCTANT] = charge.reductant;
    return true;
}

/* Integrate one step, broken where a given temperature course has its corners. */
static bool run_step(ref_run *run, ref_stretch *s, double end, const double *times, int n_times, int *next,
                     double *out, int n)
{
    const sl_scene *scene = s->setup->scene;
    while (s->from < end) {
        s->to = end;
        for (int i = 0; i < scene->n_points; i++) {
            const double corner = scene->points[i].time_min;
            if (corner > s->from && corner < s->to) {
                s->to = corner;
            }
        }
        if (!run_stretch(run, s, times, n_times, next, out, n)) {
            return false;
        }
        s->from = s->to;
    }
    return true;
}

static double step_length(const sl_step *step)
{
    return step->kind == SL_STEP_SHAMPOO ? (double)step->shampoos : step->duration_min;
}

/* Solve, and write rows; *event_min, where an event is looked for, becomes its moment. */
static bool solve_as(const ref_setup *setup, ref_method method, const double *times_min, int n_times,
                     double *out, const ref_event *event, double *event_min, long *calls, bool warms,
                     double *most_k)
{
    const int n = ref_n_states(setup);
    const sl_arm *arm = setup->arm;
    const double end = n_times > 0 ? times_min[n_times - 1] : 0;
    const sl_hair *hair =
        setup->n_zones > 0 ? &setup->scene->hairs[setup->scene->zones[setup->zone[0]].hair] : setup->hair;
    assert(hair != NULL);
    ref_stretch s = {.setup = setup,
                     .from = arm->contact_min,
                     .first_contact = arm->contact_min,
                     .last_contact = arm->contact_min,
                     .porosity = hair->porosity,
                     .warms = warms,
                     .event = event,
                     .event_min = HUGE_VAL};
    ref_run run;
    bool done = run_start(&run, method, &s, n);
    int next = 0;
    if (done) {
        double *y = NV_DATA_S(run.y);
        start_of(setup, y);
        for (; next < n_times && (arm->n_steps == 0 || times_min[next] <= arm->contact_min); next++) {
            memcpy(out + next * n, y, (size_t)n * sizeof *out);
        }
        for (int i = 0; done && i < arm->n_steps && s.from < end; i++) {
            const double stop = fmin(end, s.from + step_length(&arm->steps[i]));
            done = open_step(&s, &arm->steps[i], method, y) &&
                   run_step(&run, &s, stop, times_min, n_times, &next, out, n);
        }
        if (done && arm->n_steps > 0 && s.from < end) { /* nothing more is done: the hair rests */
            const sl_step rest = {.kind = SL_STEP_REST};
            done =
                open_step(&s, &rest, method, y) && run_step(&run, &s, end, times_min, n_times, &next, out, n);
        }
    }
    *calls += s.calls;
    *event_min = s.event_min;
    *most_k = s.most_k;
    run_end(&run);
    return done;
}

/* Whether the arm's mixes warm themselves by a fifth of a kelvin anywhere, if the last lies to the end. */
static bool warms(const ref_setup *setup, ref_method method)
{
    static double row[REF_MOST];
    const sl_hair virgin = {.porosity = 1, .cystine_intact = 1};
    sl_arm left_on = *setup->arm;
    const ref_setup alone = {.scene = setup->scene, .arm = &left_on, .hair = &virgin};
    const double end = setup->scene->until_min;
    double most_k = 0, none = 0;
    long calls = 0;
    int last = left_on.n_steps - 1;
    while (last >= 0 && left_on.steps[last].kind != SL_STEP_APPLY) {
        last--;
    }
    if (!(setup->scene->chemistry.mix_heat_j_g_k.value > 0) || last < 0) {
        return false;
    }
    left_on.n_steps = last + 1;
    left_on.steps[last].duration_min = end;
    solve_as(&alone, method, &end, 1, row, NULL, &none, &calls, true, &most_k);
    return most_k >= 0.2;
}

static bool solve(const ref_setup *setup, ref_method method, const double *times_min, int n_times,
                  double *out, const ref_event *event, double *event_min, long *calls)
{
    double most_k = 0;
    return solve_as(setup, method, times_min, n_times, out, event, event_min, calls, warms(setup, method),
                    &most_k);
}

bool ref_solve(const ref_setup *setup, ref_method method, const double *times_min, int n_times, double *out,
               long *calls)
{
    double none = 0.0;
    return solve(setup, method, times_min, n_times, out, NULL, &none, calls);
}

bool ref_event_time(const ref_setup *setup, ref_method method, const ref_event *event, double until_min,
                    double *time_min)
{
    static double row[REF_MOST];
    long calls = 0;
    return solve(setup, method, &until_min, 1, row, event, time_min, &calls);
}
