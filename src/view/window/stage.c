/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The stage's life, its clock and its stories.
 */
#include "view/window/stage.h"

#include <string.h>

#include "base/memory.h"
#include "report/reading.h"
#include "slowlift/clock.h"
#include "slowlift/report.h"

static const double LONGEST_TICK_S = 0.1; /* after a stall the clock does not jump */

const sl_scene *sl_stage_scene(const sl_stage *stage)
{
    return stage->before.scene;
}

const sl_scene *sl_stage_scene_now(const sl_stage *stage)
{
    return stage->after.timeline != NULL ? stage->after.scene : stage->before.scene;
}

bool sl_stage_dyed(const sl_stage *stage, int arm, int zone)
{
    return sl_zone_dyed(sl_stage_scene(stage), arm, zone);
}

bool sl_stage_on_bench(const sl_stage *stage)
{
    return sl_reading_has_minutes(sl_stage_scene(stage));
}

bool sl_stage_changed(const sl_stage *stage, int arm)
{
    return stage->after.timeline != NULL && sl_change_touches(&stage->change, sl_stage_scene(stage), arm) &&
           sl_arm_application(&sl_stage_scene(stage)->arms[arm]) != NULL;
}

const sl_stage_reading *sl_stage_reading_now(const sl_stage *stage, int arm)
{
    return &stage->reading[sl_stage_changed(stage, arm) ? 1 : 0][arm];
}

const sl_story *sl_stage_story_now(const sl_stage *stage, int arm)
{
    return sl_stage_changed(stage, arm) ? &stage->after : &stage->before;
}

const sl_optics *sl_stage_optics(const sl_stage *stage, sl_look look)
{
    sl_viewing viewing = stage->eyes.viewing;
    viewing.look = look;
    return sl_lenses_for(&stage->lenses, viewing);
}

const sl_optics *sl_stage_dry(const sl_stage *stage)
{
    return sl_lenses_for(&stage->lenses, (sl_viewing){0});
}

/* Of the zones that can be compared, the one the reports choose. */
static int first_zone(const sl_stage *stage)
{
    sl_report_options options = sl_report_options_default();
    options.share = stage->share;
    const int zone = sl_reading_zone(stage->before.timeline, &options);
    return zone >= 0 ? zone : 0;
}

/* At first: the chosen zone of the first strip, left alone as a rule, and of the last. */
static void put_beside(sl_stage *stage)
{
    int last = sl_stage_scene(stage)->n_arms - 1;
    while (last > 0 && !sl_stage_dyed(stage, last, stage->zone)) {
        last--;
    }
    stage->beside[0] = (sl_spot_of){.arm = 0, .zone = stage->zone};
    stage->beside[1] = (sl_spot_of){.arm = last, .zone = stage->zone};
    stage->side = 1;
}

sl_stage *sl_stage_new(sl_story *story, const sl_eyes *eyes, SDL_Window *window, double scale,
                       sl_error *error)
{
    sl_stage *stage = sl_new(1, sizeof *stage, "opening the window", error);
    if (stage == NULL) {
        sl_story_free(story);
        return NULL;
    }
    stage->before = *story;
    memset(story, 0, sizeof *story);
    stage->eyes = *eyes;
    stage->window = window;
    stage->scale = scale;
    stage->share = sl_report_options_default().share;
    stage->speed = 2.0;
    if (!sl_today(&stage->today, error)) {
        sl_story_free(&stage->before);
        sl_free(stage);
        return NULL;
    }
    stage->change = sl_change_none(stage->before.scene);
    stage->zone = first_zone(stage);
    put_beside(stage);
    stage->page = SL_PAGE_START;
    stage->dirty = stage->stale = stage->remeet = true;
    stage->last_tick = SDL_GetTicks64();
    stage->wake = SDL_RegisterEvents(1);
    sl_example_note(stage->before.scene, stage->example, sizeof stage->example);
    sl_light_table_fill(&stage->light);
    const bool seen = sl_lenses_fit(&stage->lenses, stage->before.scene, (sl_viewing){0}, error);
    stage->text = seen ? sl_text_new(error) : NULL;
    stage->solver = stage->text != NULL ? sl_solve_thread_start(stage->wake, error) : NULL;
    stage->study_thread = stage->solver != NULL ? sl_study_thread_start(stage->wake, error) : NULL;
    if (stage->study_thread == NULL) {
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
    sl_solve_thread_stop(stage->solver);
    sl_study_thread_stop(stage->study_thread);
    sl_study_free(&stage->study);
    for (int i = 0; i < SL_MAX_ARMS; i++) {
        sl_strip_free(stage->strip[i]);
    }
    sl_strip_free(stage->swatch[0]);
    sl_strip_free(stage->swatch[1]);
    sl_text_free(stage->text);
    sl_story_free(&stage->after);
    sl_story_free(&stage->before);
    sl_lenses_free(&stage->lenses);
    sl_free(stage);
}

/* ---- the clock ------------------------------------------------------------------- */

void sl_stage_go(sl_stage *stage, double minute)
{
    const double until = sl_stage_scene(stage)->until_min;
    stage->now_min = SDL_clamp(minute, 0.0, until);
    stage->ran_out = stage->ran_out || stage->now_min >= until;
    stage->dirty = stage->stale = true;
}

void sl_stage_compare_at_colour(sl_stage *stage)
{
    stage->mode = SL_SAME_COLOUR;
    stage->playing = false;
    stage->stale = stage->remeet = stage->dirty = true;
}

void sl_stage_advance(sl_stage *stage)
{
    const Uint64 tick = SDL_GetTicks64();
    const double passed = SDL_min((double)(tick - stage->last_tick) / 1000.0, LONGEST_TICK_S);
    stage->last_tick = tick;
    if (stage->mode == SL_SAME_MINUTE && !sl_stage_on_bench(stage)) { /* also once a knob made it so warm */
        sl_stage_compare_at_colour(stage);
    }
    if (!stage->playing) {
        return;
    }
    sl_stage_go(stage, stage->now_min + passed * stage->speed);
    if (stage->now_min >= sl_stage_scene(stage)->until_min) {
        stage->playing = false;
    }
}

/* ---- re-solving --------------------------------------------------------------------- */

static void ask(sl_stage *stage)
{
    sl_error_clear(&stage->trouble);
    sl_story story = {0};
    story.scene = sl_change_scene(&stage->change, sl_stage_scene(stage), &story.mixes, &stage->trouble);
    if (story.scene != NULL) {
        sl_solve_thread_ask(stage->solver, &story);
    }
}

/* A solution that arrives after the knobs went back is of no use any more. */
static void take(sl_stage *stage, sl_story *story)
{
    stage->dirty = stage->stale = stage->remeet = true;
    if (story->timeline == NULL) {
        stage->trouble = story->error;
        sl_story_free(story);
        sl_story_free(&stage->after);
        return;
    }
    sl_story_free(&stage->after);
    if (sl_change_any(&stage->change, sl_stage_scene(stage))) {
        stage->after = *story;
    } else {
        sl_story_free(story);
    }
}

void sl_stage_resolve(sl_stage *stage)
{
    if (stage->ask) {
        stage->ask = false;
        if (sl_change_any(&stage->change, sl_stage_scene(stage))) {
            ask(stage);
        } else {
            sl_story_free(&stage->after);
            stage->stale = stage->remeet = true;
        }
        stage->dirty = true;
    }
    sl_story story = {0};
    if (sl_solve_thread_take(stage->solver, &story)) {
        take(stage, &story);
    }
    sl_stage_wonder(stage);
    if (stage->stale) {
        sl_stage_measure(stage);
    }
}

bool sl_stage_draw(sl_stage *stage, sl_error *error)
{
    if (!stage->dirty) {
        return true;
    }
    stage->dirty = false;
    return sl_stage_arrange(stage, error) && sl_stage_show(stage, error);
}
