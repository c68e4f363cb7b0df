/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A timetable without a clash. A swatch's tasks are fixed against each other by its arm (mixed so
 * long before contact, off so long after), so placing it means choosing its contact: the
 * earliest one, not before that of the swatch ahead of it, at which its person is free for every
 * task. With few swatches that is one slot after another; when hands run out, removals of
 * earlier swatches come in between by themselves.
 *
 * Invariant: tasks of one person never overlap; contacts of a block rise in the block's order;
 * a block begins when everything of the block before it is done, but for leftovers: these are put into
 * free seconds at last, and nothing waits for them.
 */
#include "plan/timetable.h"

#include <assert.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "base/language.h"

static int seconds(double minutes)
{
    return (int)lround(60.0 * minutes);
}

static void put(sl_pattern *pattern, sl_task task)
{
    assert(pattern->n < SL_MOST_TASKS);
    pattern->task[pattern->n++] = task;
}

int sl_planned_dwell_s(const sl_mix *mix, const sl_step *step, bool *cut_short)
{
    const int wished = seconds(step->duration_min);
    if (mix->label_max_min <= 0.0) {
        return wished;
    }
    const double before_min = mix->label_from_contact ? 0.0 : step->mix_age_min;
    const int most = (int)floor(60.0 * fmax(0.0, mix->label_max_min - before_min));
    *cut_short = *cut_short || wished > most;
    return wished > most ? most : wished;
}

static void looks(sl_pattern *pattern, const sl_plan_request *request, int step, int start_s, int dwell)
{
    for (int i = 0; i < request->n_looks; i++) {
        const int at = 60 * request->look_min[i];
        if (at >= request->apply_s && at + request->look_s <= dwell) {
            put(pattern, (sl_task){SL_TASK_LOOK, -1, 0, step, -1, start_s + at, request->look_s});
        }
    }
}

static void rungs(sl_pattern *pattern, const sl_plan_request *request, int step, int most_s)
{
    for (int i = 0; i < request->n_rungs; i++) {
        const int at = 60 * request->rung_min[i];
        if (at <= most_s) {
            put(pattern, (sl_task){SL_TASK_REMOVE, -1, 0, step, i, at, request->remove_s});
            pattern->water_s = at;
        } else {
            pattern->cut_short = true;
        }
    }
    if (pattern->water_s < 0) { /* the label ends before the first piece: all comes off then */
        put(pattern, (sl_task){SL_TASK_REMOVE, -1, 0, step, -1, most_s, request->remove_s});
        pattern->water_s = most_s;
    }
}

/* One application; returns how long it stays. */
static int application(sl_pattern *pattern, const sl_scene *scene, const sl_step *step, int index,
                       int start_s, const sl_plan_request *request)
{
    const sl_mix *const mix = &scene->mixes[step->mix];
    const int dwell = sl_planned_dwell_s(mix, step, &pattern->cut_short);
    if (mix->class_ != SL_MIX_WATER && request->mix_s > 0) {
        put(pattern, (sl_task){SL_TASK_MIX, -1, 0, index, -1,
                               start_s - seconds(step->mix_age_min) - request->mix_s, request->mix_s});
    }
    pattern->n_leftovers += mix->class_ != SL_MIX_WATER ? 1 : 0;
    put(pattern, (sl_task){SL_TASK_APPLY, -1, 0, index, -1, start_s, request->apply_s});
    if (request->n_rungs > 0) {
        const sl_step day = {.duration_min = 1440.0, .mix_age_min = step->mix_age_min};
        bool shorter = false; /* than a day: any label is */
        rungs(pattern, request, index, sl_planned_dwell_s(mix, &day, &shorter));
        return dwell;
    }
    looks(pattern, request, index, start_s, dwell);
    put(pattern, (sl_task){SL_TASK_REMOVE, -1, 0, index, -1, start_s + dwell, request->remove_s});
    pattern->water_s = start_s + dwell;
    return dwell;
}

static void steps_follow(sl_pattern *pattern, const sl_scene *scene, int arm, const sl_plan_request *request)
{
    const sl_arm *const of = &scene->arms[arm];
    int at_s = 0;
    *pattern = (sl_pattern){.water_s = -1};
    for (int i = 0; i < of->n_steps; i++) {
        const sl_step *const step = &of->steps[i];
        if (step->kind == SL_STEP_APPLY) {
            at_s = pattern->water_s < 0 ? 0 : at_s; /* what comes before the first contact needs no hands */
            at_s += application(pattern, scene, step, i, at_s, request);
            if (request->n_rungs > 0) {
                return; /* a ladder has one application */
            }
        } else {
            at_s += seconds(sl_step_minutes(step));
        }
    }
}

static bool overlap(const sl_task *one, const sl_task *other)
{
    return one->person == other->person && one->start_s < other->start_s + other->length_s &&
           other->start_s < one->start_s + one->length_s;
}

static const sl_task *clash_with(const sl_pattern *pattern, const sl_task *task)
{
    for (int i = 0; i < pattern->n; i++) {
        if (&pattern->task[i] != task && overlap(&pattern->task[i], task)) {
            return &pattern->task[i];
        }
    }
    return NULL;
}

/* The first task that another one falls into, which is *other; NULL: none. */
static const sl_task *tasks_fill(sl_pattern *pattern, const sl_scene *scene, int arm,
                                 const sl_plan_request *request, const sl_task **other)
{
    steps_follow(pattern, scene, arm, request);
    for (int i = 0; i < pattern->n; i++) {
        sl_task *const task = &pattern->task[i];
        if (task->kind == SL_TASK_MIX && request->people > 1 && clash_with(pattern, task)) {
            task->person = 1;
        }
    }
    for (int i = 0; i < pattern->n; i++) {
        *other = clash_with(pattern, &pattern->task[i]);
        if (*other) {
            return &pattern->task[i];
        }
    }
    return NULL;
}

static bool can(const sl_scene *scene, int arm, const sl_plan_request *request)
{
    sl_pattern tried;
    const sl_task *other = NULL;
    return !tasks_fill(&tried, scene, arm, request, &other);
}

/* What these hands could do instead, where one change alone is enough. */
static void say_instead(const sl_scene *scene, int arm, const sl_plan_request *request, char *text,
                        size_t size)
{
    sl_plan_request asked = *request;
    int *const n = request->n_rungs > 0 ? &asked.n_rungs : &asked.n_looks;
    const int least = request->n_rungs > 0 ? 1 : 0;
    asked.people = 2;
    if (request->people == 1 && can(scene, arm, &asked)) {
        snprintf(text, size, "%s", _("a second pair of hands can do it: --people 2"));
        return;
    }
    asked.people = request->people;
    for (*n -= 1; *n >= least; *n -= 1) {
        if (can(scene, arm, &asked)) {
            if (*n > 0) {
                snprintf(text, size, _("of its minutes the first %d can be done"), *n);
            } else {
                snprintf(text, size, "%s", _("without looks it can be done"));
            }
            return;
        }
    }
    snprintf(text, size, "%s", _("leave more time between them, or take fewer seconds for one"));
}

bool sl_pattern_of(sl_pattern *pattern, const sl_scene *scene, int arm, const sl_plan_request *request,
                   sl_error *error)
{
    const sl_task *other = NULL;
    const sl_task *const task = tasks_fill(pattern, scene, arm, request, &other);
    if (!task) {
        return true;
    }
    char found[SL_ERROR_TEXT_SIZE], wanted[SL_ERROR_TEXT_SIZE];
    snprintf(found, sizeof found, _("strip \"%.60s\": \"%s\" would fall into \"%s\""),
             sl_arm_title(&scene->arms[arm]), _(sl_task_word(other->kind)), _(sl_task_word(task->kind)));
    say_instead(scene, arm, request, wanted, sizeof wanted);
    return sl_fail(error, SL_ERR_USAGE, found, wanted);
}

/* ---- placing -------------------------------------------------------------------------------------- */

static int earliest_s(const sl_pattern *pattern)
{
    int first = 0;
    for (int i = 0; i < pattern->n; i++) {
        first = pattern->task[i].start_s < first ? pattern->task[i].start_s : first;
    }
    return first;
}

/* Who does it, when `person` has the swatch. */
static int hands_of(const sl_plan *plan, const sl_task *task, int person)
{
    return (person + task->person) % plan->request.people;
}

/* The contact from which this task would no longer overlap one that its person has; or the same. */
static int past_clash(const sl_plan *plan, int person, const sl_task *task, int contact_s)
{
    const int hands = hands_of(plan, task, person);
    for (int i = 0; i < plan->n_tasks; i++) {
        const sl_task *const busy = &plan->tasks[i];
        const int start = contact_s + task->start_s;
        if (busy->person == hands && start < busy->start_s + busy->length_s &&
            busy->start_s < start + task->length_s) {
            return busy->start_s + busy->length_s - task->start_s;
        }
    }
    return contact_s;
}

static int first_free_contact(const sl_plan *plan, int person, const sl_pattern *pattern, int contact_s)
{
    bool moved = true;
    while (moved) { /* each move passes a task's end, so this ends */
        moved = false;
        for (int i = 0; i < pattern->n; i++) {
            const int later = past_clash(plan, person, &pattern->task[i], contact_s);
            moved = moved || later != contact_s;
            contact_s = later;
        }
    }
    return contact_s;
}

static int done_s(const sl_plan *plan)
{
    int end = 0;
    for (int i = 0; i < plan->n_tasks; i++) {
        const int done = plan->tasks[i].start_s + plan->tasks[i].length_s;
        end = done > end ? done : end;
    }
    return end;
}

static void place(sl_plan *plan, int index, const sl_pattern *pattern, int from_s, int *last_contact_s)
{
    sl_planned_swatch *const swatch = &plan->swatches[index];
    int best = -1;
    for (int p = 0; p < plan->request.people; p++) {
        const int begin = from_s - earliest_s(pattern);
        const int contact =
            first_free_contact(plan, p, pattern, begin > *last_contact_s ? begin : *last_contact_s);
        if (best < 0 || contact < best) {
            best = contact;
            swatch->person = p;
        }
    }
    swatch->contact_s = best;
    swatch->water_s = best + pattern->water_s;
    *last_contact_s = best;
    for (int i = 0; i < pattern->n; i++) {
        sl_task task = pattern->task[i];
        task.swatch = index;
        task.person = hands_of(plan, &task, swatch->person);
        task.start_s += best;
        plan->tasks[plan->n_tasks++] = task;
    }
}

static int by_start(const void *one, const void *other)
{
    const sl_task *const a = one, *const b = other;
    return a->start_s != b->start_s ? (a->start_s > b->start_s) - (a->start_s < b->start_s)
           : a->person != b->person ? (a->person > b->person) - (a->person < b->person)
                                    : (a->swatch > b->swatch) - (a->swatch < b->swatch);
}

/* ---- leftovers ------------------------------------------------------------------------------------ */

/* The earliest seconds from then on that whoever has the swatch has free. */
static void fit_in(sl_plan *plan, sl_task_kind kind, const sl_task *applied, int from_s, int length_s)
{
    sl_task task = {kind, applied->swatch, 0, applied->step, -1, 0, length_s};
    const sl_pattern alone = {.n = 1, .task = {task}};
    task.person = plan->swatches[task.swatch].person;
    task.start_s = first_free_contact(plan, task.person, &alone, from_s);
    plan->tasks[plan->n_tasks++] = task;
}

static bool leaves_mix(const sl_plan *plan, const sl_task *task)
{
    const sl_arm *const arm = &plan->scene->arms[plan->swatches[task->swatch].arm];
    return task->kind == SL_TASK_APPLY &&
           plan->scene->mixes[arm->steps[task->step].mix].class_ != SL_MIX_WATER;
}

/* When the last of an application is rinsed. */
static int rinsed_s(const sl_plan *plan, int n, const sl_task *applied)
{
    int rinsed = applied->start_s + applied->length_s;
    for (int i = 0; i < n; i++) {
        const sl_task *const task = &plan->tasks[i];
        const bool of_it = task->swatch == applied->swatch && task->step == applied->step;
        if (of_it && task->kind == SL_TASK_REMOVE && task->start_s + task->length_s > rinsed) {
            rinsed = task->start_s + task->length_s;
        }
    }
    return rinsed;
}

/* Once all else has its time: bowls are left open as their mixes come onto hair, and emptied later. */
static void leftovers_fill(sl_plan *plan)
{
    const int n = plan->n_tasks;
    for (int pass = 0; pass < 2; pass++) {
        for (int i = 0; i < n; i++) {
            const sl_task applied = plan->tasks[i];
            if (!leaves_mix(plan, &applied)) {
                continue;
            }
            if (pass == 0) {
                fit_in(plan, SL_TASK_LEAVE, &applied, applied.start_s + applied.length_s, SL_LEAVE_S);
            } else {
                fit_in(plan, SL_TASK_EMPTY, &applied, rinsed_s(plan, n, &applied), SL_EMPTY_S);
            }
        }
    }
}

void sl_timetable_fill(sl_plan *plan, const sl_pattern *pattern)
{
    int from_s = 0, last_contact_s = 0;
    for (int i = 0; i < plan->n_swatches; i++) {
        sl_planned_swatch *const swatch = &plan->swatches[i];
        const sl_pattern *const of = &pattern[swatch->arm];
        if (i > 0 && swatch->block != plan->swatches[i - 1].block) {
            from_s = done_s(plan);
            last_contact_s = from_s;
        }
        swatch->person = -1;
        swatch->contact_s = -1;
        swatch->water_s = -1;
        swatch->cut_short = of->cut_short;
        if (of->n > 0) {
            place(plan, i, of, from_s, &last_contact_s);
        }
    }
    leftovers_fill(plan);
    plan->end_s = done_s(plan);
    if (plan->n_tasks > 0) {
        qsort(plan->tasks, (size_t)plan->n_tasks, sizeof *plan->tasks, by_start);
    }
}
