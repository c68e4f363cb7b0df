/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A course: an arm's phases, solved one after the other, kept as nodes (time, state,
 * slope) and read between them by Hermite interpolation.
 *
 *   contact      end of dwell   rinsed        end
 *      |----- mix ----|-- rinse --|--- rest ---|       phases
 *      o o  o   o   o o o o  o    o o  o   o   o       nodes; never read across a phase
 *
 * Reading uses up to four neighbouring nodes of one phase (hermite.h), so that outputs cost no
 * steps. Times inside a course count from first contact, so that a
 * stagger shifts nothing but the clock.
 */
#include <assert.h>
#include <math.h>
#include <string.h>

#include "base/memory.h"
#include "kinetics/hermite.h"
#include "kinetics/phases.h"
#include "kinetics/solver.h"
#include "kinetics/tails.h"

struct sl_course {
    double contact_min, until_min; /* scene clock */
    int n_states;
    int reductant, n_forms; /* of a moment, as kinetics.h says; -1 where nothing reduces */
    double start_cystine;
    int n_phases;
    phase phases[MAX_PHASES];
    size_t first_node[MAX_PHASES + 1]; /* nodes of phase i: first_node[i] .. first_node[i+1]-1 */
    size_t n_nodes, time_room, state_room, slope_room;
    double *time;  /* [node], minutes since contact */
    double *state; /* [node][n_states] */
    double *slope; /* [node][n_states], per minute */
    bool rinsed;   /* read as rinsed at that moment, from moments.from_min on */
    tail_moments moments;
    double added[TAILS][REDUCING_STATES];   /* by what follows a rinse then */
    double added_leach_min, added_shampoos; /* whenever that is */
    long calls;
};

void sl_course_free(sl_course *course)
{
    if (course) {
        sl_free(course->time);
        sl_free(course->state);
        sl_free(course->slope);
        sl_free(course);
    }
}

long sl_course_calls(const sl_course *course)
{
    return course->calls;
}

/* ---- solving -------------------------------------------------------------------------- */

static bool keep_node(void *where, double since_contact_min, const double state[], const double slope[],
                      sl_error *error)
{
    sl_course *const course = where;
    const size_t n = (size_t)course->n_states;
    const size_t i = course->n_nodes;
    if (!sl_grow(&course->time, &course->time_room, i + 1, sizeof *course->time, "keeping a course", error) ||
        !sl_grow(&course->state, &course->state_room, (i + 1) * n, sizeof *course->state, "keeping a course",
                 error) ||
        !sl_grow(&course->slope, &course->slope_room, (i + 1) * n, sizeof *course->slope, "keeping a course",
                 error)) {
        return false;
    }
    course->time[i] = since_contact_min;
    memcpy(course->state + i * n, state, n * sizeof *state);
    memcpy(course->slope + i * n, slope, n * sizeof *slope);
    course->n_nodes++;
    return true;
}

/* The mix in its bowl from mixing to contact. */
static bool age_in_bowl(sl_solver *solver, system_now *system, const sl_treatment *treatment,
                        const phase *mix, double age_min, double y[], sl_error *error)
{
    const phase bowl = phase_in_bowl(mix, age_min);
    double alone[REDUCING_STATES] = {[AT_WETNESS] = 1.0, [AT_CYSTINE] = 1.0};
    memcpy(alone, y, BATH_STATES * sizeof *y);
    alone[AT_REDUCTANT] = y[AT_REDUCTANT];
    system_enter(system, treatment, &bowl);
    if (!solver_run(solver, system, alone, NULL, NULL, error)) {
        return false;
    }
    memcpy(y, alone, BATH_STATES * sizeof *y);
    y[AT_REDUCTANT] = alone[AT_REDUCTANT];
    y[AT_UNDISSOLVED] = fmax(alone[AT_UNDISSOLVED], 0.0);
    return true;
}

/* What a step does at once: fresh mix on the hair, or the bath taken away. */
static bool open_step(sl_solver *solver, system_now *system, const sl_treatment *treatment, const phase *now,
                      const sl_step *step, double y[], sl_error *error)
{
    if (step->kind == SL_STEP_APPLY) {
        const sl_charge charge =
            sl_mix_charge(now->mix, &treatment->scene->chemistry, step->mix_g_per_g, step->hair_water_g_g);
        bath_of(&charge, y);
        y[AT_REDUCTANT] = charge.reductant_mol_l;
        y[AT_WETNESS] = 1.0;
        return !(step->mix_age_min > 0.0) ||
               age_in_bowl(solver, system, treatment, now, step->mix_age_min, y, error);
    }
    if (step->kind == SL_STEP_REST) { /* as wet as the hair is then */
        memset(y, 0, BATH_STATES * sizeof *y);
        y[AT_REDUCTANT] = 0.0;
    } else {
        y[AT_WETNESS] = 1.0; /* running water wets all */
    }
    return true;
}

static bool inside_model(const sl_treatment *treatment, sl_error *error)
{
    return sl_arm_in_model(treatment->scene, treatment->arm) ||
           sl_fail(
               error, SL_ERR_OUTSIDE_MODEL, sl_arm_title(treatment->arm),
               "mixes that oxidise are predicted, and those that reduce by one agent that they name; others "
               "are recorded");
}

static void begin(sl_course *course, const sl_treatment *treatment, const planned *plan, double y[])
{
    course->contact_min = treatment->arm->contact_min;
    course->until_min = treatment->until_min;
    course->n_states = system_states(treatment);
    course->start_cystine = treatment->cystine_intact;
    course->n_phases = plan->n;
    course->n_nodes = 0;
    course->calls = 0;
    course->rinsed = false;
    memcpy(course->phases, plan->phases, (size_t)plan->n * sizeof plan->phases[0]);
    course->reductant = sl_arm_reductant(treatment->scene, treatment->arm);
    course->n_forms = 0;
    while (course->n_forms < treatment->n_targets && treatment->target[course->n_forms].dye) {
        course->n_forms++;
    }
    system_begin(treatment, y);
}

/* Solve the phases of a plan, one after the other, and keep every node. */
static bool solve_plan(sl_course *course, const sl_treatment *treatment, const planned *plan, bool left_on,
                       sl_solver *solver, sl_error *error)
{
    double y[REDUCING_STATES];
    system_now system;
    const mix_course *const mix =
        mix_course_of(&solver->memo, treatment->scene, treatment->arm, left_on, solver, error);
    if (!mix) {
        return false;
    }
    system_reset(&system, mix);
    begin(course, treatment, plan, y);
    for (int p = 0; p < plan->n; p++) {
        const phase *const now = &plan->phases[p];
        course->first_node[p] = course->n_nodes;
        if (plan->step[p] && !open_step(solver, &system, treatment, now, plan->step[p], y, error)) {
            return false;
        }
        system_enter(&system, treatment, now);
        if (!solver_run(solver, &system, y, keep_node, course, error)) {
            return false;
        }
    }
    course->first_node[plan->n] = course->n_nodes;
    course->calls = system.calls;
    return true;
}

static bool make(sl_course **course, const sl_treatment *treatment, sl_error *error)
{
    if (!inside_model(treatment, error)) {
        return false;
    }
    if (!*course && !(*course = sl_new(1, sizeof **course, "making a course", error))) {
        return false;
    }
    return true;
}

bool sl_course_solve(sl_course **course, const sl_treatment *treatment, sl_solver *solver, sl_error *error)
{
    planned plan;
    if (!make(course, treatment, error)) {
        return false;
    }
    phases_of(&plan, treatment);
    return solve_plan(*course, treatment, &plan, false, solver, error);
}

/* ---- reading states ------------------------------------------------------------------- */

static int phase_at(const sl_course *course, double since_contact_min)
{
    int p = course->n_phases - 1;
    while (p > 0 && since_contact_min < course->phases[p].start_min) {
        p--;
    }
    return p;
}

static void read_states(const sl_course *course, int p, double t, double y[])
{
    size_t count = 0;
    const size_t from =
        hermite_around(course->time, course->first_node[p], course->first_node[p + 1], t, &count);
    double a[READ_NODES];
    double b[READ_NODES];
    hermite_weights(course->time + from, count, t, a, b);
    const size_t n = (size_t)course->n_states;
    for (size_t s = 0; s < n; s++) {
        double sum = 0.0;
        for (size_t i = 0; i < count; i++) {
            sum += a[i] * course->state[(from + i) * n + s] + b[i] * course->slope[(from + i) * n + s];
        }
        y[s] = sum;
    }
}

/* ---- rinsed at any moment --------------------------------------------------------------- */

/* What follows a rinse at a moment of the dwell adds to the state then. */
static bool solve_tail(sl_course *course, const sl_treatment *treatment, int application, double rinse_min,
                       int tail, sl_solver *solver, sl_error *error)
{
    planned after;
    double y[REDUCING_STATES], before[REDUCING_STATES];
    const int p = phase_at(course, rinse_min);
    const phase *const lying = &course->phases[p];
    system_now system;
    system_reset(&system, NULL);
    read_states(course, p, rinse_min, y);
    memcpy(before, y, sizeof before);
    phases_after(&after, treatment, application, lying, rinse_min);
    for (int i = 0; i < after.n; i++) {
        if (!open_step(solver, &system, treatment, &after.phases[i], after.step[i], y, error)) {
            return false;
        }
        system_enter(&system, treatment, &after.phases[i]);
        if (!solver_run(solver, &system, y, NULL, NULL, error)) {
            return false;
        }
    }
    for (int s = 0; s < course->n_states; s++) {
        course->added[tail][s] = y[s] - before[s];
    }
    const phase *const last = &after.phases[after.n - 1]; /* it rests at least */
    course->added_leach_min = leach_of(last, last->end_min) - leach_of(lying, rinse_min);
    course->added_shampoos = shampoos_of(last, last->end_min) - shampoos_of(lying, rinse_min);
    course->calls += system.calls;
    return true;
}

bool sl_course_solve_rinsed(sl_course **course, const sl_treatment *treatment, sl_solver *solver,
                            sl_error *error)
{
    planned plan;
    const int application = sl_arm_last_application(treatment->arm);
    if (application < 0) {
        return sl_course_solve(course, treatment, solver, error);
    }
    if (!make(course, treatment, error)) {
        return false;
    }
    phases_left_on(&plan, treatment, application);
    if (!solve_plan(*course, treatment, &plan, true, solver, error)) {
        return false;
    }
    int p = plan.n - 1;
    while (p >= 0 && plan.step[p] != &treatment->arm->steps[application]) {
        p--;
    }
    if (p < 0) { /* the treatment ends before that application */
        return true;
    }
    double minute[TAILS];
    const double from = plan.phases[p].start_min, span = plan.phases[plan.n - 1].end_min - from;
    for (int i = 0; i < TAILS; i++) {
        minute[i] = tail_minute(from, span, i);
        if (!solve_tail(*course, treatment, application, minute[i], i, solver, error)) {
            return false;
        }
    }
    tail_moments_of(&(*course)->moments, minute, TAILS);
    (*course)->rinsed = true;
    return true;
}

/* ---- reading -------------------------------------------------------------------------- */

static void reduction_of(const sl_course *course, const double y[], sl_moment *moment)
{
    moment->reductant = course->reductant;
    moment->reductant_mol_l = fmax(y[AT_REDUCTANT], 0.0);
    moment->fibre_reductant_mol_l = fmax(y[AT_FIBRE_REDUCTANT], 0.0);
    moment->rim_reduced = fmax(y[AT_RIM_REDUCED], 0.0);
    moment->core_reduced = fmax(y[AT_CORE_REDUCED], 0.0);
    moment->n_forms = course->n_forms;
    for (int i = 0; i < course->n_forms; i++) {
        for (int place = 0; place < SL_PLACES_IN_HAIR; place++) {
            for (int form = 0; form < SL_FORMS; form++) {
                moment->form[i][place][form] = fmin(fmax(y[at_form(i, place, form)], 0.0), 1.0);
            }
        }
    }
}

static void moment_of(const sl_course *course, const phase *now, double t, const double y[],
                      sl_moment *moment)
{
#define READ(NAME, name, ...)                                                                                \
    moment->name##_mol_l = fmax(y[AT_##NAME], 0.0);                                                          \
    moment->fibre_##name##_mol_l = fmax(y[AT_FIBRE_##NAME], 0.0);
    SL_OXIDANT_LIST(READ)
#undef READ
    moment->undissolved_mol_l = fmax(y[AT_UNDISSOLVED], 0.0);
    moment->wetness = fmin(fmax(y[AT_WETNESS], 0.0), 1.0);
    for (int c = 0; c < SL_CHANNELS; c++) {
        moment->rim_dose[c] = fmax(y[AT_RIM_DOSE + c], 0.0);
        moment->core_dose[c] = fmax(y[AT_CORE_DOSE + c], 0.0);
    }
    moment->cystine_intact = fmin(fmax(y[AT_CYSTINE], 0.0), course->start_cystine);
    moment->leach_min = leach_of(now, t);
    moment->shampoos = shampoos_of(now, t);
    if (course->n_states >= FULL_STATES) {
        for (int i = 0; i < SL_MAX_TARGETS; i++) {
            moment->rim_exponent[i] = fmax(y[AT_RIM_EXPONENT + i], 0.0);
            moment->core_exponent[i] = fmax(y[AT_CORE_EXPONENT + i], 0.0);
        }
    }
    if (course->reductant >= 0) {
        reduction_of(course, y, moment);
    }
}

/* Add what follows a rinse at t to the state at t. */
static void add_tail(const sl_course *course, double t, double y[])
{
    double share[TAILS];
    tail_shares(&course->moments, t, share);
    for (int s = 0; s < course->n_states; s++) {
        for (int i = 0; i < TAILS; i++) {
            y[s] += share[i] * course->added[i][s];
        }
    }
}

void sl_course_at(const sl_course *course, double time_min, sl_moment *moment)
{
    const double clock = fmin(time_min, course->until_min);
    const double t = clock - course->contact_min;
    *moment = (sl_moment){.cystine_intact = course->start_cystine};
    if (course->n_phases == 0 || (course->rinsed ? t < 0.0 : t <= 0.0)) {
        return;
    }
    const int p = phase_at(course, t);
    const double inside = fmin(t, course->phases[p].end_min);
    double y[REDUCING_STATES];
    const bool rinsed = course->rinsed && inside >= course->moments.from_min;
    read_states(course, p, inside, y);
    if (rinsed) {
        add_tail(course, inside, y);
    }
    moment_of(course, &course->phases[p], inside, y, moment);
    if (rinsed) {
        moment->leach_min += course->added_leach_min;
        moment->shampoos += course->added_shampoos;
    }
}
