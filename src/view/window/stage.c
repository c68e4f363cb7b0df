/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The stage's life, its clock and its stories.
 */
#include "view/window/stage.h"

#include <math.h>
#include <string.h>

#include "base/memory.h"
#include "report/reading.h"
#include "slowlift/clock.h"
#include "slowlift/estimate.h"
#include "slowlift/report.h"
#include "view/sight/guess.h"
#include "view/window/first.h"

static const double FIRST_HOURS_MIN = 240.0, STRIDE_MIN = 60.0; /* of a scene of days */
static const double LONGEST_TICK_S = 0.1;                       /* after a stall the clock does not jump */

const sl_scene *sl_stage_scene(const sl_stage *stage)
{
    return stage->solved.before.scene;
}

const sl_scene *sl_stage_scene_now(const sl_stage *stage)
{
    return stage->solved.after.timeline != NULL ? stage->solved.after.scene : stage->solved.before.scene;
}

bool sl_stage_dyed(const sl_stage *stage, int arm, int zone)
{
    return sl_zone_dyed(sl_stage_scene(stage), arm, zone);
}

bool sl_stage_of_days(const sl_stage *stage)
{
    return sl_ruler_of_days(sl_stage_scene(stage)->until_min);
}

double sl_stage_stride_min(const sl_stage *stage, double minute, int by)
{
    const bool over = by > 0 ? minute >= FIRST_HOURS_MIN : minute > FIRST_HOURS_MIN;
    return sl_stage_of_days(stage) && over ? STRIDE_MIN : 1.0;
}

bool sl_stage_on_bench(const sl_stage *stage)
{
    return sl_reading_has_minutes(sl_stage_scene(stage));
}

bool sl_stage_changed(const sl_stage *stage, int arm)
{
    return stage->solved.after.timeline != NULL &&
           sl_changes_count(&stage->solved.change[arm], sl_stage_scene(stage), arm, NULL) > 0 &&
           sl_arm_application(&sl_stage_scene(stage)->arms[arm]) != NULL;
}

const sl_stage_reading *sl_stage_reading_now(const sl_stage *stage, int arm)
{
    return &stage->read.reading[sl_stage_changed(stage, arm) ? 1 : 0][arm];
}

const sl_story *sl_stage_story_now(const sl_stage *stage, int arm)
{
    return sl_stage_changed(stage, arm) ? &stage->solved.after : &stage->solved.before;
}

const sl_optics *sl_stage_optics(const sl_stage *stage, sl_look look)
{
    sl_viewing viewing = stage->look.eyes.viewing;
    viewing.look = look;
    return sl_lenses_for(&stage->look.lenses, viewing);
}

const sl_optics *sl_stage_dry(const sl_stage *stage)
{
    return sl_lenses_for(&stage->look.lenses, (sl_viewing){0});
}

/* What is chosen, at the right, and at the left what it is to come near: the undyed hair of that strip. */
void sl_stage_put_beside(sl_stage *stage)
{
    sl_stage_chosen *const chosen = &stage->chosen;
    const sl_spot_of now = {.arm = chosen->arm, .zone = chosen->zone};
    if (chosen->beside_of.arm == now.arm && chosen->beside_of.zone == now.zone) {
        return; /* as they were left */
    }
    const sl_scene *const scene = sl_stage_scene(stage);
    const int undyed = sl_reference_zone(scene, now.zone);
    const bool there = undyed != now.zone && scene->zones[undyed].recipe.n_dyes == 0;
    chosen->beside[0] = there ? (sl_spot_of){now.arm, undyed} : (sl_spot_of){0, now.zone};
    chosen->beside[1] = chosen->beside_of = now;
    chosen->side = 1;
}

/* For so many arms. */
static bool make_readings(sl_stage *stage, size_t n, sl_error *error)
{
    static const char opening[] = "opening the window";
    sl_stage_read *const read = &stage->read;
    bool good = true;
    for (int side = 0; good && side < 2; side++) {
        read->reading[side] = sl_new(n, sizeof *read->reading[side], opening, error);
        read->pair[side] =
            read->reading[side] != NULL ? sl_new(n, sizeof *read->pair[side], opening, error) : NULL;
        good = read->pair[side] != NULL;
    }
    read->lane = good ? sl_new(n, sizeof *read->lane, opening, error) : NULL;
    read->lane_of = read->lane != NULL ? sl_new(n, sizeof *read->lane_of, opening, error) : NULL;
    read->start = read->lane_of != NULL ? sl_new(n, sizeof *read->start, opening, error) : NULL;
    read->start_of = read->start != NULL ? sl_new(n, sizeof *read->start_of, opening, error) : NULL;
    return read->start_of != NULL;
}

sl_stage *sl_stage_new(sl_story *story, const sl_eyes *eyes, SDL_Window *window, double scale,
                       sl_error *error)
{
    sl_stage *stage = sl_new(1, sizeof *stage, "opening the window", error);
    if (stage == NULL) {
        sl_story_free(story);
        return NULL;
    }
    stage->solved.before = *story;
    memset(story, 0, sizeof *story);
    stage->look.eyes = *eyes;
    stage->window = window;
    stage->look.scale = scale;
    stage->chosen.share = sl_report_options_default().share;
    stage->chosen.speed = 2.0;
    if (!sl_today(&stage->entered.today, error)) {
        sl_story_free(&stage->solved.before);
        sl_free(stage);
        return NULL;
    }
    stage->chosen.arm = sl_first_arm(stage->solved.before.scene);
    stage->open.page = SL_PAGE_START;
    stage->dirty = stage->read.stale = stage->read.remeet = true;
    stage->last_tick = SDL_GetTicks64();
    stage->wake = SDL_RegisterEvents(1);
    sl_example_note(stage->solved.before.scene, stage->example, sizeof stage->example);
    sl_light_table_fill(&stage->look.light);
    bool seen = sl_lenses_fit(&stage->look.lenses, stage->solved.before.scene, (sl_viewing){0}, error);
    if (seen) {
        stage->chosen.zone = sl_first_zone(stage->solved.before.timeline, sl_stage_dry(stage));
        stage->chosen.beside_of.arm = -1;
        sl_stage_put_beside(stage);
    }
    const size_t n = (size_t)stage->solved.before.scene->n_arms;
    seen = seen && make_readings(stage, n, error);
    stage->text = seen ? sl_text_new(error) : NULL;
    stage->solved.solver = stage->text != NULL ? sl_solve_thread_start(stage->wake, SL_THREADS, error) : NULL;
    stage->solved.study_thread =
        stage->solved.solver != NULL ? sl_study_thread_start(stage->wake, SL_THREADS, error) : NULL;
    if (stage->solved.study_thread == NULL) {
        sl_stage_free(stage);
        return NULL;
    }
    return stage;
}

void sl_stage_free(sl_stage *stage)
{
    if (stage == NULL) {
        return;
    }
    sl_solve_thread_stop(stage->solved.solver);
    sl_study_thread_stop(stage->solved.study_thread);
    sl_study_free(&stage->solved.study);
    sl_free(stage->read.reading[0]);
    sl_free(stage->read.reading[1]);
    sl_free(stage->read.lane);
    sl_free(stage->read.lane_of);
    sl_free(stage->read.start);
    sl_free(stage->read.pair[0]);
    sl_free(stage->read.pair[1]);
    sl_free(stage->read.start_of);
    for (int i = 0; i < SL_MAX_ARMS; i++) {
        sl_strip_free(stage->laid.strip[i]);
        sl_hung_free(stage->laid.hung[i]);
    }
    sl_strip_free(stage->laid.swatch[0]);
    sl_strip_free(stage->laid.swatch[1]);
    sl_asking_clear(&stage->asking);
    sl_leaf_free(&stage->laid.said);
    sl_text_free(stage->text);
    sl_story_free(&stage->solved.after);
    sl_story_free(&stage->solved.before);
    sl_lenses_free(&stage->look.lenses);
    sl_free(stage);
}

/* ---- the clock ------------------------------------------------------------------- */

void sl_stage_go(sl_stage *stage, double minute)
{
    const double until = sl_stage_scene(stage)->until_min;
    stage->chosen.now_min = SDL_clamp(minute, 0.0, until);
    stage->dirty = stage->read.stale = true;
}

void sl_stage_compare_at_colour(sl_stage *stage)
{
    stage->chosen.mode = SL_SAME_COLOUR;
    stage->chosen.playing = false;
    stage->read.stale = stage->read.remeet = stage->dirty = true;
}

/* To the next whole minute once all of it has passed; false: it has not. */
static bool step_on(sl_stage *stage, double stride, double on)
{
    stage->chosen.ahead_min += on;
    const double due = stage->chosen.now_min + stage->chosen.ahead_min;
    const double next = stride * (floor(stage->chosen.now_min / stride + 1e-9) + 1.0);
    if (due < next) {
        return false;
    }
    stage->chosen.ahead_min = due - stride * floor(due / stride);
    sl_stage_go(stage, stride * floor(due / stride));
    return true;
}

void sl_stage_advance(sl_stage *stage)
{
    const Uint64 tick = SDL_GetTicks64();
    const double passed = SDL_min((double)(tick - stage->last_tick) / 1000.0, LONGEST_TICK_S);
    stage->last_tick = tick;
    if (stage->chosen.mode == SL_SAME_MINUTE &&
        !sl_stage_on_bench(stage)) { /* also once a knob made it so warm */
        sl_stage_compare_at_colour(stage);
    }
    sl_guess_settle(stage);
    if (!stage->chosen.playing) {
        return;
    }
    const double now = stage->chosen.now_min, stride = sl_stage_stride_min(stage, now, 1);
    const double on = passed * stage->chosen.speed * stride;
    if (!stage->chosen.steps) {
        sl_stage_go(stage, now + on);
    } else if (!step_on(stage, stride, on)) {
        return;
    }
    sl_guess_hold(stage);
    if (stage->chosen.now_min >= sl_stage_scene(stage)->until_min) {
        stage->chosen.playing = false;
    }
}

/* ---- re-solving --------------------------------------------------------------------- */

static void ask(sl_stage *stage)
{
    sl_error_clear(&stage->solved.trouble);
    sl_story story = {0};
    if (sl_story_change(&story, sl_stage_scene(stage), stage->solved.change, &stage->solved.trouble)) {
        sl_solve_thread_ask(stage->solved.solver, &story);
    }
}

/* A solution that arrives after the knobs went back is of no use any more. */
static void take(sl_stage *stage, sl_story *story)
{
    stage->dirty = stage->read.stale = stage->read.remeet = true;
    stage->solved.found++;
    stage->solved.changed++;
    if (story->timeline == NULL) {
        stage->solved.trouble = story->error;
        sl_story_free(story);
        sl_story_free(&stage->solved.after);
        return;
    }
    sl_story_free(&stage->solved.after);
    if (sl_changes_any(stage->solved.change, sl_stage_scene(stage))) {
        stage->solved.after = *story;
    } else {
        sl_story_free(story);
    }
}

void sl_stage_resolve(sl_stage *stage)
{
    if (stage->solved.ask) {
        stage->solved.ask = false;
        if (sl_changes_any(stage->solved.change, sl_stage_scene(stage))) {
            ask(stage);
        } else {
            sl_story_free(&stage->solved.after);
            stage->read.stale = stage->read.remeet = true;
            stage->solved.found++;
        }
        stage->dirty = true;
    }
    sl_story story = {0};
    sl_solve_thread_work(stage->solved.solver);
    if (sl_solve_thread_take(stage->solved.solver, &story)) {
        take(stage, &story);
    }
    sl_stage_wonder(stage);
    if (stage->read.stale) {
        sl_stage_measure(stage);
    }
}

bool sl_stage_draw(sl_stage *stage, sl_error *error)
{
    stage->drawn_hair = 0;
    if (!stage->dirty) {
        return true;
    }
    stage->dirty = false;
    return sl_stage_arrange(stage, error) && sl_stage_show(stage, error);
}
