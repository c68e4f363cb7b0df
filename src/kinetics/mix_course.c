/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See mix_course.h. Heat is a function of the states alone (Hess): what the oxidants and cystine hold less
 * than at first has been given off, by whatever way they went. So the balance needs no rate of its own.
 */
#include "kinetics/mix_course.h"

#include <math.h>
#include <string.h>

#include "kinetics/phases.h"
#include "kinetics/solver.h"

static const double WATER_HEAT_J_G_K = 4.18; /* from memory, 25 C */
static const double CM2_PER_M2 = 1e4, SECONDS_PER_MIN = 60.0;
static const double EXACT = 3e-10, LONGEST_MIN = 4.0;
/* Beyond the planned end a mix that has not warmed until then is followed roughly, to some 2 in 100, and
 * exactly where that comes near what counts. */
static const double ROUGH = 1e-4, ROUGH_LONGEST_MIN = 8.0, SURELY_COOL_K = 0.9 * SL_WARMS_FROM_K;
static const double PART_MIN =
    64.0; /* a piece is solved in parts, each as long as all before it, steps too */

/* ---- what it is solved from --------------------------------------------------------------- */

static void mark(uint64_t *key, double number)
{
    uint64_t bits = 0;
    memcpy(&bits, &number, sizeof bits);
    for (int i = 0; i < 8; i++) { /* FNV-1a: Fowler, Noll & Vo */
        *key = (*key ^ (bits >> (8 * i) & 0xff)) * UINT64_C(0x100000001b3);
    }
}

/* Every parameter from one member of the chemistry up to another. */
#define MARK_RUN(key, chemistry, from, to)                                                                   \
    mark_run(key, chemistry, offsetof(sl_chemistry, from), offsetof(sl_chemistry, to))
static void mark_run(uint64_t *key, const sl_chemistry *chemistry, size_t from, size_t to)
{
    for (; from + sizeof(sl_param) <= to; from += sizeof(sl_param)) {
        mark(key, ((const sl_param *)((const char *)chemistry + from))->value);
    }
}

static void mark_chemistry(uint64_t *key, const sl_chemistry *ch)
{
    MARK_RUN(key, ch, pka_25c, cystine);
    MARK_RUN(key, ch, cystine_layer, melanin);
    MARK_RUN(key, ch, level_ratio, pigment_feedback);
    for (int c = 0; c < SL_CHANNELS; c++) {
        mark(key, ch->cystine.k[c].value);
        mark(key, ch->cystine.own_activation[c] ? ch->cystine.activation_kj_mol[c] : -1.0);
    }
}

/* Of a step's mix what it brings; its strength is known no further than its charge (dilution.c). */
static void mark_mix(uint64_t *key, const sl_scene *scene, const sl_step *step)
{
    const sl_mix *const mix = &scene->mixes[step->mix];
    const sl_charge charge = sl_mix_charge(mix, &scene->chemistry, step->mix_g_per_g, step->hair_water_g_g);
    const double number[] = {charge.undissolved_mol_l, charge.saturation_mol_l,   charge.liquid_ml_per_g,
                             mix->loss_per_min.value,  mix->loss_l_mol_min.value, mix->ph.value,
                             mix->ph_kj_mol,           mix->ph_fall_per_min,      mix->ph_fades_per_min};
    for (size_t i = 0; i < sizeof number / sizeof number[0]; i++) {
        mark(key, number[i]);
    }
#define MARK_DISSOLVED(NAME, name, ...) mark(key, charge.name##_mol_l);
    SL_OXIDANT_LIST(MARK_DISSOLVED)
#undef MARK_DISSOLVED
}

static void mark_arm(uint64_t *key, const sl_scene *scene, const sl_arm *arm)
{
    for (int i = 0; i < arm->n_steps; i++) {
        const sl_step *const step = &arm->steps[i];
        mark(key, (double)step->kind);
        mark(key, sl_step_minutes(step));
        if (step->kind == SL_STEP_APPLY) {
            mark(key, step->mix_age_min);
            mark(key, step->mix_g_per_g);
            mark(key, step->hair_water_g_g);
            mark(key, step->covered);
            mark_mix(key, scene, step);
        }
    }
}

static uint64_t key_of(const sl_scene *scene, const sl_arm *arm, const sl_treatment *mean)
{
    uint64_t key = UINT64_C(0xcbf29ce484222325);
    const double number[] = {(double)scene->place,    scene->room_c,    scene->shift_k,
                             (double)scene->n_points, scene->until_min, mean->porosity,
                             mean->cystine_intact};
    for (size_t i = 0; i < sizeof number / sizeof number[0]; i++) {
        mark(&key, number[i]);
    }
    mark_chemistry(&key, &scene->chemistry);
    mark_arm(&key, scene, arm);
    return key > 0 ? key : 1;
}

/* ---- the balance ---------------------------------------------------------------------------- */

/* kJ/mol times mol/L times mL per gram of hair: J per gram of hair. */
static void weigh(mix_heat *heat, const sl_chemistry *ch, double liquid_ml_g, double water_ml_g)
{
    memset(heat->j_g, 0, sizeof heat->j_g);
#define WEIGH(NAME, name, ...)                                                                               \
    heat->j_g[AT_##NAME] = liquid_ml_g * ch->name##_heat_kj_mol.value;                                       \
    heat->j_g[AT_FIBRE_##NAME] = water_ml_g * ch->name##_heat_kj_mol.value;
    SL_OXIDANT_LIST(WEIGH)
#undef WEIGH
    heat->j_g[AT_UNDISSOLVED] =
        liquid_ml_g * (ch->persulfate_heat_kj_mol.value - ch->dissolving_heat_kj_mol.value);
    heat->j_g[AT_CYSTINE] =
        water_ml_g * ch->cystine_mol_l.value * ch->oxidant_per_cystine.value * ch->sulfur_heat_kj_mol.value;
}

/* Of a step's mix in its bowl, and on hair, per gram of hair. */
static mix_heat heat_in_bowl(const sl_chemistry *ch, const sl_step *step, double liquid_ml_g)
{
    mix_heat heat;
    weigh(&heat, ch, liquid_ml_g, 0.0);
    heat.capacity_j_g_k =
        step->mix_g_per_g * ch->mix_heat_j_g_k.value + step->hair_water_g_g * WATER_HEAT_J_G_K;
    heat.loss_per_min = ch->open_loss_w_m2_k.value * step->mix_g_per_g * ch->bowl_area_cm2_g.value /
                        CM2_PER_M2 * SECONDS_PER_MIN / heat.capacity_j_g_k;
    return heat;
}

static mix_heat heat_on_hair(const sl_scene *scene, const sl_step *step, double liquid_ml_g)
{
    const sl_chemistry *const ch = &scene->chemistry;
    const bool covered = step->covered || scene->place == SL_PLACE_WRAPPED;
    const double above = covered ? ch->covered_loss_w_m2_k.value : ch->open_loss_w_m2_k.value;
    const double below =
        scene->place == SL_PLACE_BENCH ? ch->bench_loss_w_m2_k.value : ch->head_loss_w_m2_k.value;
    mix_heat heat = heat_in_bowl(ch, step, liquid_ml_g);
    weigh(&heat, ch, liquid_ml_g, ch->fibre_water_ml_g.value);
    heat.capacity_j_g_k += ch->hair_heat_j_g_k.value;
    heat.loss_per_min =
        (above + below) * ch->layer_area_cm2_g.value / CM2_PER_M2 * SECONDS_PER_MIN / heat.capacity_j_g_k;
    return heat;
}

/* ---- solving ---------------------------------------------------------------------------------- */

typedef struct making {
    mix_course *course;
    sl_solver *solver;
    const sl_treatment *mean;
    double planned_min; /* the application ends then, as planned */
    bool roughly;       /* nothing is kept but most_k, the most that it warms by */
    double most_k;
    system_now system;
} making;

/* Every second node of the later half of the piece goes: there is room again, and hours later it is read less
 * exactly. */
static void thin(mix_course *course, mix_piece *piece)
{
    size_t to = piece->first + (course->n_nodes - piece->first) / 2;
    for (size_t i = to; i < course->n_nodes; i += 2, to++) {
        course->time_min[to] = course->time_min[i];
        course->warmth_k[to] = course->warmth_k[i];
        course->slope_k_min[to] = course->slope_k_min[i];
    }
    course->n_nodes = to;
}

static bool keep_warmth(void *where, double t, const double state[], const double slope[], sl_error *error)
{
    making *const make = where;
    mix_course *const course = make->course;
    mix_piece *const piece = &course->piece[course->n_pieces - 1];
    const double warmth = state[AT_MIX_WARMTH];
    (void)error;
    if (make->roughly) {
        make->most_k = fmax(make->most_k, fabs(warmth));
        return true;
    }
    if (course->n_nodes > piece->first && !(t > course->time_min[course->n_nodes - 1])) {
        return true; /* where two parts meet */
    }
    if (course->n_nodes == MIX_MOST_NODES) {
        thin(course, piece);
    }
    course->time_min[course->n_nodes] = t;
    course->warmth_k[course->n_nodes] = warmth;
    course->slope_k_min[course->n_nodes++] = slope[AT_MIX_WARMTH];
    piece->end = course->n_nodes;
    course->warms = course->warms || fabs(warmth) >= SL_WARMS_FROM_K;
    if (piece->in_bowl) {
        course->told.bowl_k = fmax(course->told.bowl_k, warmth);
    } else if (t <= make->planned_min && warmth > course->told.hair_k) {
        course->told.hair_k = warmth;
        course->told.since_contact_min = t;
    }
    return true;
}

/* A phase between two of its moments; heat NULL: the place's temperature. */
static bool run(making *make, const phase *here, double from_min, double to_min, const mix_heat *heat,
                double y[], sl_error *error)
{
    mix_course *const course = make->course;
    phase part = *here;
    if (heat && !(from_min > here->start_min)) {
        course->piece[course->n_pieces++] = (mix_piece){.in_bowl = here->kind == PHASE_BOWL,
                                                        .contact_min = here->last_contact_min,
                                                        .first = course->n_nodes,
                                                        .end = course->n_nodes};
    }
    make->system.heat = heat;
    make->system.oxidants_alone = true;
    for (part.start_min = from_min; part.start_min < to_min; part.start_min = part.end_min) {
        const double length = fmax(part.start_min - here->start_min, PART_MIN);
        part.end_min = fmin(part.start_min + length, to_min);
        const double within = make->roughly ? ROUGH : EXACT;
        const double longest_min = make->roughly ? ROUGH_LONGEST_MIN : LONGEST_MIN;
        sl_solver_set_accuracy(make->solver, (sl_accuracy){.absolute = within,
                                                           .relative = within,
                                                           .longest_min = longest_min * length / PART_MIN});
        system_enter(&make->system, make->mean, &part);
        if (!solver_run(make->solver, &make->system, y, heat ? keep_warmth : NULL, make, error)) {
            return false;
        }
    }
    return true;
}

/* Fresh mix: its bowl until it is put on; what it has warmed itself there is shared with the hair. */
static bool put_on(making *make, const phase *here, const sl_step *step, double y[], sl_error *error)
{
    const sl_chemistry *const ch = &make->mean->scene->chemistry;
    const sl_charge charge = sl_mix_charge(here->mix, ch, step->mix_g_per_g, step->hair_water_g_g);
    const mix_heat in_bowl = heat_in_bowl(ch, step, charge.liquid_ml_per_g);
    double alone[MIX_STATES] = {[AT_WETNESS] = 1.0, [AT_CYSTINE] = 1.0};
    bath_of(&charge, alone);
    if (step->mix_age_min > 0.0) {
        const phase bowl = phase_in_bowl(here, step->mix_age_min);
        if (!run(make, &bowl, bowl.start_min, bowl.end_min, &in_bowl, alone, error)) {
            return false;
        }
        alone[AT_UNDISSOLVED] = fmax(alone[AT_UNDISSOLVED], 0.0);
    }
    memcpy(y, alone, BATH_STATES * sizeof *y);
    y[AT_WETNESS] = 1.0;
    y[AT_MIX_WARMTH] =
        alone[AT_MIX_WARMTH] * in_bowl.capacity_j_g_k / (in_bowl.capacity_j_g_k + ch->hair_heat_j_g_k.value);
    make->planned_min = here->start_min + sl_step_minutes(step);
    return true;
}

static mix_heat heat_of(const sl_scene *scene, const sl_step *step, const phase *here)
{
    return heat_on_hair(scene, step, scene->chemistry.fibre_water_ml_g.value / here->liquid_share);
}

/* Until the planned end of the last application. */
static bool solve(making *make, sl_error *error)
{
    const sl_treatment *const mean = make->mean;
    const bool measured = mean->scene->n_points > 0; /* a measured temperature has the heat in it */
    double *const y = make->course->state;
    planned plan;
    memset(y, 0, sizeof make->course->state);
    y[AT_WETNESS] = 1.0;
    y[AT_CYSTINE] = mean->cystine_intact;
    phases_left_on(&plan, mean, sl_arm_last_application(mean->arm));
    for (int p = 0; p < plan.n; p++) {
        const phase *const here = &plan.phases[p];
        const sl_step *const step = plan.step[p];
        const bool puts_on = step && step->kind == SL_STEP_APPLY;
        mix_heat on_hair;
        double to_min = here->end_min;
        if (puts_on && !put_on(make, here, step, y, error)) {
            return false;
        }
        if (measured) { /* bowls alone warm themselves, and each is fresh */
            continue;
        }
        if (puts_on) {
            on_hair = heat_of(mean->scene, step, here);
            to_min = fmin(to_min, make->planned_min);
        } else if (step) {
            memset(y, 0, step->kind == SL_STEP_REST ? BATH_STATES * sizeof *y : 0);
            y[AT_WETNESS] = step->kind == SL_STEP_REST ? y[AT_WETNESS] : 1.0;
        }
        if (!run(make, here, here->start_min, to_min, here->kind == PHASE_MIX ? &on_hair : NULL, y, error)) {
            return false;
        }
        make->course->solved_min = to_min;
    }
    return true;
}

/* From where it was left to the end of its last application. */
static bool go_on(making *make, double y[], sl_error *error)
{
    const sl_treatment *const mean = make->mean;
    planned plan;
    phases_left_on(&plan, mean, sl_arm_last_application(mean->arm));
    const phase *const last = &plan.phases[plan.n - 1];
    const sl_step *const step = plan.step[plan.n - 1];
    mix_course *const course = make->course;
    if (!step || step->kind != SL_STEP_APPLY || mean->scene->n_points > 0 ||
        !(course->solved_min < last->end_min)) {
        return true;
    }
    const mix_heat on_hair = heat_of(mean->scene, step, last);
    make->planned_min = course->solved_min;
    if (!run(make, last, course->solved_min, last->end_min, &on_hair, y, error)) {
        return false;
    }
    course->solved_min = make->roughly ? course->solved_min : last->end_min;
    return true;
}

/* The mean of the hair on the arm; without zones, virgin hair. */
static sl_treatment mean_of(const sl_scene *scene, const sl_arm *arm)
{
    sl_treatment mean = {.scene = scene, .arm = arm, .until_min = scene->until_min};
    for (int zone = 0; zone < scene->n_zones; zone++) {
        mean.porosity += scene->hairs[scene->zones[zone].hair].porosity / scene->n_zones;
        mean.cystine_intact += scene->hairs[scene->zones[zone].hair].cystine_intact / scene->n_zones;
    }
    if (scene->n_zones == 0) {
        mean.porosity = mean.cystine_intact = 1.0;
    }
    return mean;
}

/* Whether it warms later than planned, where it has not done so until then. */
static bool seek_late_warmth(making *make, bool *may_warm, sl_error *error)
{
    double y[MIX_STATES];
    memcpy(y, make->course->state, sizeof y);
    make->roughly = true;
    make->most_k = 0.0;
    const bool good = go_on(make, y, error);
    *may_warm = make->most_k >= SURELY_COOL_K;
    make->roughly = false;
    return good;
}

static bool solve_as_far(mix_course *course, const sl_treatment *mean, bool left_on, sl_solver *solver,
                         sl_error *error)
{
    making make;
    make.course = course;
    make.solver = solver;
    make.mean = mean;
    make.most_k = make.planned_min = 0.0;
    make.roughly = false;
    system_reset(&make.system, NULL);
    const sl_accuracy before = solver->accuracy;
    bool good = true, further = left_on;
    if (course->key == 0) {
        memset(course, 0, offsetof(mix_course, time_min));
        good = solve(&make, error);
        if (good && !course->warms) {
            good = seek_late_warmth(&make, &further, error);
        }
    }
    good = good && (!further || go_on(&make, course->state, error));
    course->left_on = further || !course->warms;
    sl_solver_set_accuracy(solver, before);
    return good;
}

static mix_course *remembered(mix_memo *memo, uint64_t key)
{
    for (int i = 0; i < MIX_MEMO; i++) {
        if (memo->course[i].key == key) {
            return &memo->course[i];
        }
    }
    return NULL;
}

/* Without anything that oxidises nothing gives off heat. */
static bool may_warm(const sl_scene *scene, const sl_arm *arm)
{
    bool oxidises = false;
    for (int i = 0; i < arm->n_steps && sl_chemistry_warms(&scene->chemistry); i++) {
        const sl_step *const step = &arm->steps[i];
        if (step->kind == SL_STEP_APPLY) {
            const sl_charge charge = sl_mix_charge(&scene->mixes[step->mix], &scene->chemistry,
                                                   step->mix_g_per_g, step->hair_water_g_g);
            double all = charge.undissolved_mol_l;
#define ADD(NAME, name, ...) all += charge.name##_mol_l;
            SL_OXIDANT_LIST(ADD)
#undef ADD
            oxidises = oxidises || all > 0.0;
        }
    }
    return oxidises;
}

const mix_course *mix_course_of(mix_memo *memo, const sl_scene *scene, const sl_arm *arm, bool left_on,
                                sl_solver *solver, sl_error *error)
{
    static const mix_course still = {0};
    if (!may_warm(scene, arm)) {
        return &still;
    }
    sl_arm at_once = *arm; /* a mix that warms itself knows no clock but its own */
    at_once.contact_min = 0.0;
    const sl_treatment mean = mean_of(scene, &at_once);
    const uint64_t key = key_of(scene, &at_once, &mean);
    mix_course *course = remembered(memo, key);
    if (course && (course->left_on || !left_on)) {
        return course;
    }
    sl_solver *const own = solver ? solver : sl_solver_new(error);
    if (!own) {
        return NULL;
    }
    if (!course) {
        course = &memo->course[memo->next];
        course->key = 0;
        memo->next = (memo->next + 1) % MIX_MEMO;
    }
    const bool good = solve_as_far(course, &mean, left_on, own, error);
    if (!solver) {
        sl_solver_free(own);
    }
    course->key = good ? key : 0;
    return good ? course : NULL;
}

/* ---- reading ---------------------------------------------------------------------------------- */

static const mix_piece *piece_of(const mix_course *mix, const phase *here)
{
    const bool in_bowl = here->kind == PHASE_BOWL, lies = in_bowl || here->kind == PHASE_MIX;
    for (int i = 0; lies && mix && mix->warms && i < mix->n_pieces; i++) {
        if (mix->piece[i].in_bowl == in_bowl &&
            fabs(mix->piece[i].contact_min - here->last_contact_min) <= 0.0) {
            return &mix->piece[i];
        }
    }
    return NULL;
}

double mix_course_most_k(const mix_course *mix, const phase *here)
{
    const mix_piece *const piece = piece_of(mix, here);
    double most_k = 0.0; /* what is solved beyond the phase does not count */
    for (size_t i = piece ? piece->first : 0; piece && i < piece->end && mix->time_min[i] <= here->end_min;
         i++) {
        most_k = fmax(most_k, fabs(mix->warmth_k[i]));
    }
    return most_k;
}

double mix_course_warmth_k(const mix_course *mix, const phase *here, double since_contact_min,
                           hermite_piece *read)
{
    if (read && read->terms > 0 && since_contact_min >= read->from && since_contact_min <= read->to) {
        return hermite_piece_at(read, since_contact_min);
    }
    const mix_piece *const piece = piece_of(mix, here);
    hermite_piece once = {.terms = 0};
    hermite_piece *const between = read ? read : &once;
    if (!piece) {
        return 0.0;
    }
    const double t =
        fmin(fmax(since_contact_min, mix->time_min[piece->first]), mix->time_min[piece->end - 1]);
    size_t count = 0;
    const size_t from = hermite_around(mix->time_min, piece->first, piece->end, t, &count);
    hermite_prepare(between, mix->time_min + from, mix->warmth_k + from, mix->slope_k_min + from, count, t);
    return hermite_piece_at(between, t);
}

/* ---- told ----------------------------------------------------------------------------------------- */

bool sl_mix_warms(sl_solver *solver, const sl_scene *scene, int arm, sl_mix_warmth *warmth, sl_error *error)
{
    const mix_course *const mix =
        mix_course_of(&solver->memo, scene, &scene->arms[arm], false, solver, error);
    *warmth = mix && mix->warms ? mix->told : (sl_mix_warmth){0};
    return mix != NULL;
}
