/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The story: for every strip, solve each class of hair once, read every zone's pigments
 * from its doses (or from exponents of its own where sharing is not valid), colour them.
 *
 * Invariant: reads[arm][zone] says which course a zone reads and with which constants;
 * a cell is always made by read_hair() and read_dyes(), so that cells at output times and
 * cells at any other moment cannot differ.
 */
#include "slowlift/timeline.h"

#include <assert.h>
#include <math.h>
#include <string.h>

#include "base/memory.h"

enum { NO_COURSE = -1 };

/* How one zone of one strip reads its course. */
typedef struct reading {
    int course;                          /* index into courses; NO_COURSE: nothing is predicted */
    sl_sharing method;                   /* SL_SHARING_VALID, or why the full system ran */
    const sl_hair *hair;                 /* borrowed from the scene */
    const sl_recipe *recipe;             /* borrowed; the undyed recipe on an undyed strip */
    double weight[SL_MAX_DYES_PER_ZONE]; /* of each dye in colour_left; sum 1 */
    double absorbance0;                  /* of the melanins at the start */
    sl_dye dye[SL_MAX_DYES_PER_ZONE];    /* copies whose constants hold at this temperature */
    sl_rates melanin[SL_MELANINS];
} reading;

struct sl_timeline {
    const sl_scene *scene; /* borrowed */
    size_t n_times, time_room, read_room, cell_room, moment_room, still_room, course_room;
    double *time;        /* [time] scene clock, minutes */
    reading *reads;      /* [arm][zone] */
    sl_cell *cells;      /* [arm][zone][time] */
    sl_moment *moments;  /* [time] scratch of the course being read */
    bool *still;         /* [time] scratch: nothing has moved since the time before */
    sl_course **courses; /* [course_room], reused from solve to solve; NULL when unused */
    size_t n_courses;
    long calls;
};

static const sl_recipe undyed = {0};

void sl_timeline_free(sl_timeline *timeline)
{
    if (!timeline) {
        return;
    }
    for (size_t i = 0; i < timeline->course_room; i++) {
        sl_course_free(timeline->courses[i]);
    }
    sl_free(timeline->courses);
    sl_free(timeline->still);
    sl_free(timeline->moments);
    sl_free(timeline->cells);
    sl_free(timeline->reads);
    sl_free(timeline->time);
    sl_free(timeline);
}

const sl_scene *sl_timeline_scene(const sl_timeline *timeline)
{
    return timeline->scene;
}

int sl_timeline_n_times(const sl_timeline *timeline)
{
    return (int)timeline->n_times;
}

double sl_timeline_time(const sl_timeline *timeline, int time)
{
    assert(time >= 0 && (size_t)time < timeline->n_times);
    return timeline->time[time];
}

static size_t place_of(const sl_timeline *timeline, int arm, int zone)
{
    assert(arm >= 0 && arm < timeline->scene->n_arms && zone >= 0 && zone < timeline->scene->n_zones);
    return (size_t)arm * (size_t)timeline->scene->n_zones + (size_t)zone;
}

bool sl_timeline_predicted(const sl_timeline *timeline, int arm)
{
    return timeline->reads[place_of(timeline, arm, 0)].course != NO_COURSE;
}

sl_sharing sl_timeline_method(const sl_timeline *timeline, int arm, int zone)
{
    return timeline->reads[place_of(timeline, arm, zone)].method;
}

int sl_timeline_solves(const sl_timeline *timeline)
{
    return (int)timeline->n_courses;
}

long sl_timeline_calls(const sl_timeline *timeline)
{
    return timeline->calls;
}

/* ---- one cell ------------------------------------------------------------------------- */

static double colour_left(const reading *read, const double left[])
{
    double sum = 0.0;
    for (int i = 0; i < read->recipe->n_dyes; i++) {
        sum += read->weight[i] * left[i];
    }
    return read->recipe->n_dyes > 0 ? fmin(sum, 1.0) : -1.0;
}

/* Base and hair: the same for all zones of one course on one hair. */
static void read_hair(const sl_timeline *timeline, const reading *read, const sl_moment *moment,
                      sl_cell *cell)
{
    const sl_chemistry *const ch = &timeline->scene->chemistry;
    double exponent[SL_MELANINS];
    for (int kind = 0; kind < SL_MELANINS; kind++) {
        exponent[kind] = read->method == SL_SHARING_VALID
                             ? sl_core_exponent(&read->melanin[kind], moment)
                             : moment->core_exponent[read->recipe->n_dyes + kind];
    }
    sl_melanin_move(ch, exponent, (const double(*)[SL_STAGES])read->hair->pool, cell->amounts.pool);
    const double absorbance = sl_melanin_absorbance(ch, (const double(*)[SL_STAGES])cell->amounts.pool);
    cell->base_moved =
        read->absorbance0 > 0.0 ? fmin(fmax(1.0 - absorbance / read->absorbance0, 0.0), 1.0) : 0.0;
    cell->cystine_lost = fmin(fmax(1.0 - moment->cystine_intact / read->hair->cystine_intact, 0.0), 1.0);
    cell->levels_lifted = sl_levels_lifted(ch, read->hair->level, read->absorbance0, absorbance);
    cell->level = read->hair->level + cell->levels_lifted;
}

static void read_dyes(const reading *read, const sl_moment *moment, sl_cell *cell)
{
    sl_amounts *const amounts = &cell->amounts;
    amounts->recipe = read->recipe;
    for (int i = 0; i < read->recipe->n_dyes; i++) {
        amounts->dye_left[i] = read->method == SL_SHARING_VALID ? sl_dye_left(&read->dye[i], moment)
                                                                : sl_dye_left_full(&read->dye[i], moment, i);
    }
    cell->colour_left = colour_left(read, amounts->dye_left);
}

/* ---- preparing and solving --------------------------------------------------------------- */

static void prepare_reading(const sl_scene *scene, const sl_arm *arm, int zone, reading *read)
{
    const sl_zone *const here = &scene->zones[zone];
    const double temperature_k = sl_scene_temperature_k(scene, arm->contact_min, 0.0);
    read->course = NO_COURSE;
    read->method = SL_SHARING_VALID;
    read->hair = &scene->hairs[here->hair];
    read->recipe = arm->undyed ? &undyed : &here->recipe;
    read->absorbance0 =
        sl_melanin_absorbance(&scene->chemistry, (const double(*)[SL_STAGES])read->hair->pool);
    double sum = 0.0;
    for (int i = 0; i < read->recipe->n_dyes; i++) {
        read->dye[i] = scene->dyes[read->recipe->dye[i]];
        sl_rates_settle(&read->dye[i].rates, &scene->chemistry, temperature_k);
        read->weight[i] = read->recipe->strength[i] * sl_dye_absorbance(&read->dye[i]);
        sum += read->weight[i];
    }
    for (int i = 0; i < read->recipe->n_dyes; i++) {
        read->weight[i] = sum > 0.0 ? read->weight[i] / sum : 1.0 / read->recipe->n_dyes;
    }
    for (int kind = 0; kind < SL_MELANINS; kind++) {
        read->melanin[kind] = scene->chemistry.melanin[kind].rates;
        sl_rates_settle(&read->melanin[kind], &scene->chemistry, temperature_k);
    }
}

static bool arm_inside_model(const sl_scene *scene, const sl_arm *arm)
{
    for (int i = 0; i < arm->n_steps; i++) {
        if (arm->steps[i].kind == SL_STEP_APPLY &&
            scene->mixes[arm->steps[i].mix].mechanism != SL_MECHANISM_OXIDATIVE) {
            return false;
        }
    }
    return true;
}

/* The full system's targets: the zone's dyes, then the two melanins. */
static void add_targets(sl_treatment *treatment, const reading *read)
{
    const sl_chemistry *const ch = &treatment->scene->chemistry;
    int n = 0;
    for (int i = 0; i < read->recipe->n_dyes; i++) {
        const sl_dye *const dye = &treatment->scene->dyes[read->recipe->dye[i]];
        treatment->target[n++] = (sl_target){.rates = &dye->rates,
                                             .held_mol_l = ch->dye_mol_l.value * read->recipe->strength[i],
                                             .oxidant_per_mol = ch->dye_oxidant.value,
                                             .rim_share = dye->rim_share.value};
    }
    for (int kind = 0; kind < SL_MELANINS; kind++) {
        const sl_melanin *const melanin = &ch->melanin[kind];
        treatment->target[n++] =
            (sl_target){.rates = &melanin->rates,
                        .held_mol_l = melanin->held_mol_l.value * read->hair->pool[kind][SL_BOUND],
                        .oxidant_per_mol = 1.0};
    }
    treatment->n_targets = n;
}

static bool make_room(sl_timeline *timeline, const sl_scene *scene, size_t n_times, sl_error *error)
{
    static const char doing[] = "making a timeline";
    const size_t places = (size_t)scene->n_arms * (size_t)scene->n_zones;
    const size_t old_courses = timeline->course_room;
    if (!sl_grow(&timeline->time, &timeline->time_room, n_times, sizeof *timeline->time, doing, error) ||
        !sl_grow(&timeline->reads, &timeline->read_room, places, sizeof *timeline->reads, doing, error) ||
        !sl_grow(&timeline->cells, &timeline->cell_room, places * n_times, sizeof *timeline->cells, doing,
                 error) ||
        !sl_grow(&timeline->moments, &timeline->moment_room, n_times, sizeof *timeline->moments, doing,
                 error) ||
        !sl_grow(&timeline->still, &timeline->still_room, n_times, sizeof *timeline->still, doing, error) ||
        !sl_grow(&timeline->courses, &timeline->course_room, places, sizeof(sl_course *), doing, error)) {
        return false;
    }
    for (size_t i = old_courses; i < timeline->course_room; i++) {
        timeline->courses[i] = NULL;
    }
    return true;
}

/* Mark the times at which nothing has moved since the time before (untreated hair, hair
 * that has dried): their cells are copies. */
static void mark_still(sl_timeline *timeline)
{
    for (size_t t = 1; t < timeline->n_times; t++) {
        timeline->still[t] =
            memcmp(&timeline->moments[t], &timeline->moments[t - 1], sizeof timeline->moments[t]) == 0;
    }
}

/* Solve a course for `zone` and read it at every output time. */
static bool solve_course(sl_timeline *timeline, int arm, reading *read, sl_solver *solver, sl_error *error)
{
    const sl_scene *const scene = timeline->scene;
    sl_treatment treatment = {.scene = scene,
                              .arm = &scene->arms[arm],
                              .porosity = read->hair->porosity,
                              .cystine_intact = read->hair->cystine_intact,
                              .until_min = scene->until_min};
    if (read->method != SL_SHARING_VALID) {
        add_targets(&treatment, read);
    }
    sl_course **const course = &timeline->courses[timeline->n_courses];
    if (!sl_course_solve(course, &treatment, solver, error)) {
        return false;
    }
    read->course = (int)timeline->n_courses++;
    timeline->calls += sl_course_calls(*course);
    for (size_t t = 0; t < timeline->n_times; t++) {
        sl_course_at(*course, timeline->time[t], &timeline->moments[t]);
    }
    mark_still(timeline);
    return true;
}

/* Fill a zone's cells from the moments just read. `twin` is a zone already filled from the
 * same course on the same hair, or NULL. */
static void fill_cells(sl_timeline *timeline, int arm, int zone, const sl_cell *twin, const sl_optics *optics)
{
    if (timeline->n_times == 0) { /* no cells at all, so nothing to count from */
        return;
    }
    const size_t place = place_of(timeline, arm, zone);
    const reading *const read = &timeline->reads[place];
    sl_cell *const cells = timeline->cells + place * timeline->n_times;
    for (size_t t = 0; t < timeline->n_times; t++) {
        if (t > 0 && timeline->still[t]) {
            cells[t] = cells[t - 1];
            continue;
        }
        if (twin) {
            cells[t] = twin[t];
        } else {
            cells[t] = (sl_cell){0};
            read_hair(timeline, read, &timeline->moments[t], &cells[t]);
        }
        read_dyes(read, &timeline->moments[t], &cells[t]);
        if (optics) {
            sl_optics_paint(optics, &cells[t].amounts, &cells[t].colour);
        }
    }
}

static void fill_start(sl_timeline *timeline, int arm, int zone, const sl_optics *optics)
{
    reading *const read = &timeline->reads[place_of(timeline, arm, zone)];
    for (size_t t = 0; t < timeline->n_times; t++) {
        timeline->moments[t] = (sl_moment){.cystine_intact = read->hair->cystine_intact};
    }
    mark_still(timeline);
    fill_cells(timeline, arm, zone, NULL, optics);
}

/* A zone from `first` on, already filled, on the very hair of `zone`; NULL when there is none. */
static const sl_cell *filled_twin(const sl_timeline *timeline, int arm, int first, int zone)
{
    const reading *const reads = timeline->reads + place_of(timeline, arm, 0);
    for (int i = first; timeline->n_times > 0 && i < zone; i++) {
        if (reads[i].course == reads[first].course && reads[i].hair == reads[zone].hair) {
            return timeline->cells + place_of(timeline, arm, i) * timeline->n_times;
        }
    }
    return NULL;
}

/* One strip: solve where no earlier zone's course serves, then fill all that it serves. */
static bool tell_arm(sl_timeline *timeline, int arm, sl_solver *solver, const sl_optics *optics,
                     sl_error *error)
{
    const sl_scene *const scene = timeline->scene;
    const sl_arm *const here = &scene->arms[arm];
    reading *const reads = timeline->reads + place_of(timeline, arm, 0);
    const bool predicted = arm_inside_model(scene, here);
    for (int zone = 0; zone < scene->n_zones; zone++) {
        prepare_reading(scene, here, zone, &reads[zone]);
        if (!predicted) {
            fill_start(timeline, arm, zone, optics);
        }
    }
    for (int zone = 0; predicted && zone < scene->n_zones; zone++) {
        if (reads[zone].course != NO_COURSE) {
            continue;
        }
        reads[zone].method = sl_zone_sharing(scene, here, zone, reads[zone].hair);
        if (!solve_course(timeline, arm, &reads[zone], solver, error)) {
            return false;
        }
        fill_cells(timeline, arm, zone, NULL, optics);
        for (int other = zone + 1; other < scene->n_zones && reads[zone].method == SL_SHARING_VALID;
             other++) {
            if (reads[other].course == NO_COURSE &&
                sl_zone_sharing(scene, here, other, reads[zone].hair) == SL_SHARING_VALID) {
                reads[other].course = reads[zone].course;
                fill_cells(timeline, arm, other, filled_twin(timeline, arm, zone, other), optics);
            }
        }
    }
    return true;
}

bool sl_timeline_solve(sl_timeline **timeline, const sl_scene *scene, const double *times_min, int n_times,
                       sl_solver *solver, const sl_optics *optics, sl_error *error)
{
    if (!*timeline && !(*timeline = sl_new(1, sizeof **timeline, "making a timeline", error))) {
        return false;
    }
    sl_timeline *const story = *timeline;
    story->scene = scene;
    story->n_times = 0;
    story->n_courses = 0;
    story->calls = 0;
    if (!make_room(story, scene, (size_t)n_times, error)) {
        return false;
    }
    for (int t = 0; t < n_times; t++) {
        story->time[t] = times_min[t];
    }
    story->n_times = (size_t)n_times;
    for (int arm = 0; arm < scene->n_arms; arm++) {
        if (!tell_arm(story, arm, solver, optics, error)) {
            return false;
        }
    }
    return true;
}

/* ---- reading ------------------------------------------------------------------------------ */

const sl_cell *sl_timeline_cell(const sl_timeline *timeline, int arm, int zone, int time)
{
    assert(time >= 0 && (size_t)time < timeline->n_times);
    return timeline->cells + place_of(timeline, arm, zone) * timeline->n_times + (size_t)time;
}

void sl_timeline_moment(const sl_timeline *timeline, int arm, int zone, double time_min, sl_moment *moment)
{
    const reading *const read = &timeline->reads[place_of(timeline, arm, zone)];
    if (read->course == NO_COURSE) {
        *moment = (sl_moment){.cystine_intact = read->hair->cystine_intact};
        return;
    }
    sl_course_at(timeline->courses[read->course], time_min, moment);
}

void sl_timeline_at(const sl_timeline *timeline, int arm, int zone, double time_min, const sl_optics *optics,
                    sl_cell *cell)
{
    sl_moment moment;
    *cell = (sl_cell){0};
    const reading *const read = &timeline->reads[place_of(timeline, arm, zone)];
    sl_timeline_moment(timeline, arm, zone, time_min, &moment);
    read_hair(timeline, read, &moment, cell);
    read_dyes(read, &moment, cell);
    if (optics) {
        sl_optics_paint(optics, &cell->amounts, &cell->colour);
    }
}
