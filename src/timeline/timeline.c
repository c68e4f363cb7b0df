/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The story: for every strip, solve each class of hair once, read every zone's pigments
 * from its doses (or from exponents of its own where sharing is not valid), colour them.
 *
 * Invariant: reads[arm][zone] says which course a zone reads and with which constants;
 * a cell is always made by read_hair(), read_dyes() and read_stains(), so that cells at output
 * times and cells at any other moment cannot differ. What settles in a zone is read from its
 * neighbours, so a strip is told in two passes: all zones, then stains and colours.
 */
#include "slowlift/timeline.h"

#include <assert.h>
#include <math.h>
#include <string.h>

#include "base/memory.h"
#include "timeline/cell.h"

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
    sl_mix_warmth warmth[SL_MAX_ARMS];
    sl_optics *dry; /* owned; NULL unless a goal asks for it */
    long calls;
    bool of_rinsed;      /* courses are those of hair rinsed at any moment */
    sl_timeline *rinsed; /* owned; NULL until asked for */
    bool has_rinsed;     /*   and whether it is of what was solved last */
};

void sl_timeline_free(sl_timeline *timeline)
{
    if (!timeline) {
        return;
    }
    for (size_t i = 0; i < timeline->course_room; i++) {
        sl_course_free(timeline->courses[i]);
    }
    sl_optics_free(timeline->dry);
    sl_timeline_free(timeline->rinsed);
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

const sl_optics *sl_timeline_dry(const sl_timeline *timeline)
{
    return timeline->dry;
}

sl_mix_warmth sl_timeline_warmth(const sl_timeline *timeline, int arm)
{
    return timeline->warmth[arm];
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

/* ---- preparing and solving --------------------------------------------------------------- */

/* The full system's targets: the zone's dyes, then the two melanins. */
static void add_targets(sl_treatment *treatment, const reading *read)
{
    const sl_chemistry *const ch = &treatment->scene->chemistry;
    const bool reduces = sl_arm_reductant(treatment->scene, treatment->arm) >= 0;
    int n = 0;
    for (int i = 0; i < read->recipe->n_dyes; i++) {
        const sl_dye *const dye = &treatment->scene->dyes[read->recipe->dye[i]];
        treatment->target[n++] = (sl_target){.rates = &dye->rates,
                                             .held_mol_l = ch->dye_mol_l.value * read->recipe->strength[i],
                                             .oxidant_per_mol = ch->dye_oxidant.value,
                                             .rim_share = dye->rim_share.value,
                                             .dye = reduces ? dye : NULL};
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

/* Read a zone's course at every output time. */
static void read_course(sl_timeline *timeline, const reading *read)
{
    for (size_t t = 0; t < timeline->n_times; t++) {
        sl_course_at(timeline->courses[read->course], timeline->time[t] - read->later_min,
                     &timeline->moments[t]);
    }
    mark_still(timeline);
}

/* A strip before this one, with the same mix from its contact on, may have solved the course. */
static bool repeated_course(const sl_timeline *timeline, int arm, int zone, reading *read)
{
    const sl_scene *const scene = timeline->scene;
    for (int before = 0; read->method == SL_SHARING_VALID && before < arm; before++) {
        for (int i = 0; sl_arm_repeats(scene, &scene->arms[arm], &scene->arms[before]) && i < scene->n_zones;
             i++) {
            const reading *const other = &timeline->reads[place_of(timeline, before, i)];
            if (other->course != NO_COURSE && other->method == SL_SHARING_VALID &&
                sl_zone_sharing(scene, &scene->arms[arm], zone, other->hair) == SL_SHARING_VALID) {
                read->course = other->course;
                read->later_min =
                    other->later_min + scene->arms[arm].contact_min - scene->arms[before].contact_min;
                return true;
            }
        }
    }
    return false;
}

/* Solve a course for `zone`. */
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
    if (!(timeline->of_rinsed ? sl_course_solve_rinsed : sl_course_solve)(course, &treatment, solver,
                                                                          error)) {
        return false;
    }
    read->course = (int)timeline->n_courses++;
    timeline->calls += sl_course_calls(*course);
    return true;
}

/* Fill a zone's cells from the moments just read. `twin` is a zone already filled from the
 * same course on the same hair, or NULL. */
static void fill_cells(sl_timeline *timeline, int arm, int zone, const sl_cell *twin)
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
            read_hair(timeline->scene, read, &timeline->moments[t], &cells[t]);
        }
        read_dyes(read, &timeline->moments[t], &cells[t]);
    }
}

/* Whether two cells of one zone hold the same, and so look the same. */
static bool alike(const sl_cell *one, const sl_cell *two)
{
    return memcmp(&one->amounts, &two->amounts, sizeof one->amounts) == 0;
}

/* The second pass: stains and colours of a strip whose zones are all filled. */
static void finish_arm(sl_timeline *timeline, int arm, const sl_optics *optics)
{
    if (timeline->n_times == 0) { /* no cells at all, so nothing to count from */
        return;
    }
    const reading *const reads = timeline->reads + place_of(timeline, arm, 0);
    sl_cell *const strip = timeline->cells + place_of(timeline, arm, 0) * timeline->n_times;
    const int n_zones = timeline->scene->n_zones;
    for (int zone = 0; zone < n_zones; zone++) {
        sl_cell *const cells = strip + (size_t)zone * timeline->n_times;
        const sl_cell *const before = zone > 0 ? cells - timeline->n_times : cells;
        const sl_cell *const after = zone + 1 < n_zones ? cells + timeline->n_times : cells;
        const reading *const givers[2] = {zone > 0 ? reads + zone - 1 : NULL,
                                          zone + 1 < n_zones ? reads + zone + 1 : NULL};
        for (size_t t = 0; t < timeline->n_times; t++) {
            const double *const loosened[2] = {before[t].loosened, after[t].loosened};
            read_stains(givers, loosened, &cells[t]);
            if (optics && t > 0 && alike(&cells[t], &cells[t - 1])) {
                cells[t].colour = cells[t - 1].colour;
            } else if (optics) {
                sl_optics_paint(optics, &cells[t].amounts, &cells[t].colour);
            }
        }
    }
}

static void fill_start(sl_timeline *timeline, int arm, int zone)
{
    reading *const read = &timeline->reads[place_of(timeline, arm, zone)];
    for (size_t t = 0; t < timeline->n_times; t++) {
        timeline->moments[t] = (sl_moment){.cystine_intact = read->hair->cystine_intact};
    }
    mark_still(timeline);
    fill_cells(timeline, arm, zone, NULL);
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
static bool tell_arm(sl_timeline *timeline, int arm, sl_solver *solver, sl_error *error)
{
    const sl_scene *const scene = timeline->scene;
    const sl_arm *const here = &scene->arms[arm];
    reading *const reads = timeline->reads + place_of(timeline, arm, 0);
    const bool predicted = !scene->untold && sl_arm_in_model(scene, here);
    for (int zone = 0; zone < scene->n_zones; zone++) {
        reading_prepare(scene, here, zone, &reads[zone]);
        if (!predicted) {
            fill_start(timeline, arm, zone);
        }
    }
    timeline->warmth[arm] = (sl_mix_warmth){0};
    if (predicted && !sl_mix_warms(solver, scene, arm, &timeline->warmth[arm], error)) {
        return false;
    }
    for (int zone = 0; predicted && zone < scene->n_zones; zone++) {
        if (reads[zone].course != NO_COURSE) {
            continue;
        }
        reads[zone].method = sl_zone_sharing(scene, here, zone, reads[zone].hair);
        if (!repeated_course(timeline, arm, zone, &reads[zone]) &&
            !solve_course(timeline, arm, &reads[zone], solver, error)) {
            return false;
        }
        read_course(timeline, &reads[zone]);
        fill_cells(timeline, arm, zone, NULL);
        for (int other = zone + 1; other < scene->n_zones && reads[zone].method == SL_SHARING_VALID;
             other++) {
            if (reads[other].course == NO_COURSE &&
                sl_zone_sharing(scene, here, other, reads[zone].hair) == SL_SHARING_VALID) {
                reads[other].course = reads[zone].course;
                reads[other].later_min = reads[zone].later_min;
                fill_cells(timeline, arm, other, filled_twin(timeline, arm, zone, other));
            }
        }
    }
    return true;
}

static bool make_dry(sl_timeline *timeline, const sl_scene *scene, sl_error *error)
{
    sl_optics_free(timeline->dry);
    timeline->dry = NULL;
    if (sl_goal_near_undyed(scene)) {
        timeline->dry = sl_optics_new(scene, error);
        return timeline->dry != NULL;
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
    story->has_rinsed = false;
    if (!make_dry(story, scene, error) || !make_room(story, scene, (size_t)n_times, error)) {
        return false;
    }
    for (int t = 0; t < n_times; t++) {
        story->time[t] = times_min[t];
    }
    story->n_times = (size_t)n_times;
    for (int arm = 0; arm < scene->n_arms; arm++) {
        if (!tell_arm(story, arm, solver, error)) {
            return false;
        }
        finish_arm(story, arm, optics);
    }
    return true;
}

bool sl_timeline_rinse(sl_timeline *timeline, sl_solver *solver, sl_error *error)
{
    if (!timeline->rinsed) {
        timeline->rinsed = sl_new(1, sizeof *timeline->rinsed, "making a timeline", error);
        if (!timeline->rinsed) {
            return false;
        }
        timeline->rinsed->of_rinsed = true;
    }
    timeline->has_rinsed =
        sl_timeline_solve(&timeline->rinsed, timeline->scene, NULL, 0, solver, NULL, error);
    return timeline->has_rinsed;
}

const sl_timeline *sl_timeline_rinsed(const sl_timeline *timeline)
{
    return timeline->has_rinsed ? timeline->rinsed : NULL;
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
    sl_course_at(timeline->courses[read->course], time_min - read->later_min, moment);
}

/* The dyes of a neighbour; `moment` is that of `course`, which may be its own. */
static void read_beside(const sl_timeline *timeline, int arm, int zone, double time_min, int course,
                        const sl_moment *moment, sl_cell *cell)
{
    const reading *const read = &timeline->reads[place_of(timeline, arm, zone)];
    sl_moment own;
    if (read->course != course) {
        sl_timeline_moment(timeline, arm, zone, time_min, &own);
        moment = &own;
    }
    read_dyes(read, moment, cell);
}

void sl_timeline_at(const sl_timeline *timeline, int arm, int zone, double time_min, const sl_optics *optics,
                    sl_cell *cell)
{
    sl_moment moment;
    *cell = (sl_cell){0};
    const reading *const read = &timeline->reads[place_of(timeline, arm, zone)];
    sl_timeline_moment(timeline, arm, zone, time_min, &moment);
    read_hair(timeline->scene, read, &moment, cell);
    read_dyes(read, &moment, cell);
    sl_cell beside[2] = {0};
    const reading *const givers[2] = {zone > 0 ? read - 1 : NULL,
                                      zone + 1 < timeline->scene->n_zones ? read + 1 : NULL};
    const double *const loosened[2] = {beside[0].loosened, beside[1].loosened};
    for (int side = 0; side < 2; side++) {
        if (givers[side] && givers[side]->stainable > 0.0) {
            read_beside(timeline, arm, zone + (side == 0 ? -1 : 1), time_min, read->course, &moment,
                        &beside[side]);
        }
    }
    read_stains(givers, loosened, cell);
    if (optics) {
        sl_optics_paint(optics, &cell->amounts, &cell->colour);
    }
}

double sl_left_at(const sl_timeline *timeline, int arm, int zone, double time_min)
{
    sl_cell cell;
    sl_timeline_at(timeline, arm, zone, time_min, NULL, &cell);
    return cell.colour_left;
}
