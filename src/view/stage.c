/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The stage's life, its clock, and what pressing a place does.
 */
#include "view/stage.h"

#include <math.h>
#include <string.h>

#include "base/memory.h"
#include "report/reading.h"
#include "slowlift/report.h"

static const double LONGEST_TICK_S = 0.1; /* after a stall the clock does not jump */
static const double SLOWEST = 0.5, FASTEST = 8.0;
static const double SHARE_STEP = 0.05, SHARE_LEAST = 0.05, SHARE_MOST = 0.95;

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

const sl_reading *sl_stage_reading_now(const sl_stage *stage, int arm)
{
    return &stage->reading[sl_stage_changed(stage, arm) ? 1 : 0][arm];
}

/* Of the zones that can be compared, the one the reports choose. */
static int first_zone(const sl_stage *stage)
{
    sl_report_options options = sl_report_options_default();
    options.share = stage->share;
    const int zone = sl_reading_zone(stage->before.timeline, &options);
    return zone >= 0 ? zone : 0;
}

sl_stage *sl_stage_new(sl_story *story, sl_optics *optics, SDL_Window *window, double scale, sl_error *error)
{
    sl_stage *stage = sl_new(1, sizeof *stage, "opening the window", error);
    if (stage == NULL) {
        sl_story_free(story);
        sl_optics_free(optics);
        return NULL;
    }
    stage->before = *story;
    memset(story, 0, sizeof *story);
    stage->optics = optics;
    stage->window = window;
    stage->scale = scale;
    stage->share = sl_report_options_default().share;
    stage->speed = 2.0;
    stage->change = sl_change_none(stage->before.scene);
    stage->zone = first_zone(stage);
    stage->page = SL_PAGE_START;
    stage->dirty = stage->stale = stage->remeet = true;
    stage->last_tick = SDL_GetTicks64();
    stage->wake = SDL_RegisterEvents(1);
    sl_example_note(stage->before.scene, stage->example, sizeof stage->example);
    sl_light_table_fill(&stage->light);
    stage->text = sl_text_new(error);
    stage->solver = stage->text != NULL ? sl_solve_thread_start(stage->wake, error) : NULL;
    if (stage->solver == NULL) {
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
    for (int i = 0; i < SL_MAX_ARMS; i++) {
        sl_strip_free(stage->strip[i]);
    }
    sl_text_free(stage->text);
    sl_story_free(&stage->after);
    sl_story_free(&stage->before);
    sl_optics_free(stage->optics);
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

void sl_stage_advance(sl_stage *stage)
{
    const Uint64 tick = SDL_GetTicks64();
    const double passed = SDL_min((double)(tick - stage->last_tick) / 1000.0, LONGEST_TICK_S);
    stage->last_tick = tick;
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

/* ---- choosing and pressing ------------------------------------------------------------ */

void sl_stage_choose_zone(sl_stage *stage, int zone)
{
    stage->zone = SDL_clamp(zone, 0, sl_stage_scene(stage)->n_zones - 1);
    stage->dirty = stage->stale = stage->remeet = true;
}

void sl_stage_choose_arm(sl_stage *stage, int arm)
{
    stage->arm = SDL_clamp(arm, 0, sl_stage_scene(stage)->n_arms - 1);
    const sl_layout *l = &stage->layout;
    if (stage->arm < l->first) {
        stage->first_arm = stage->arm;
    } else if (stage->arm >= l->first + l->n_shown) {
        stage->first_arm = stage->arm - l->n_shown + 1;
    }
    stage->dirty = true;
}

void sl_stage_turn_knob(sl_stage *stage, sl_knob knob, double value)
{
    if (sl_change_set(&stage->change, sl_stage_scene(stage), stage->arm, knob, value)) {
        stage->ask = true;
        stage->dirty = true;
    }
}

static void step_knob(sl_stage *stage, int knob, double steps)
{
    const sl_knob_range range = sl_knob_range_of(sl_stage_scene(stage), (sl_knob)knob);
    const double now = sl_change_value(&stage->change, stage->arm, (sl_knob)knob);
    sl_stage_turn_knob(stage, (sl_knob)knob, now + steps * range.step);
}

static void open_panel(sl_stage *stage, sl_panel panel)
{
    stage->panel = stage->panel == panel ? SL_PANEL_NONE : panel;
    stage->scroll[1] = 0;
}

static void open_page(sl_stage *stage, sl_page page)
{
    stage->page = stage->page == page ? SL_PAGE_NONE : page;
    stage->scroll[0] = 0;
}

/* The first page is read to its end before it goes. */
static void close_page(sl_stage *stage)
{
    const bool rest = stage->scroll[0] < stage->scroll_most[0];
    if (stage->page == SL_PAGE_START && rest) {
        stage->scroll[0] = SDL_min(stage->scroll[0] + stage->layout.foot.y / 2, stage->scroll_most[0]);
    } else {
        stage->page = SL_PAGE_NONE;
    }
}

static void switch_mode(sl_stage *stage)
{
    stage->mode = stage->mode == SL_SAME_MINUTE ? SL_SAME_COLOUR : SL_SAME_MINUTE;
    stage->playing = false;
    stage->stale = stage->remeet = true;
}

/* The share in one comparison, the playing speed in the other. */
static void step_pace(sl_stage *stage, double steps)
{
    if (stage->mode == SL_SAME_COLOUR) {
        stage->share = SDL_clamp(stage->share + steps * SHARE_STEP, SHARE_LEAST, SHARE_MOST);
        stage->stale = stage->remeet = true;
    } else {
        stage->speed = SDL_clamp(stage->speed * pow(2.0, steps), SLOWEST, FASTEST);
    }
}

static void play(sl_stage *stage)
{
    stage->playing = !stage->playing;
    if (stage->mode == SL_SAME_COLOUR) {
        switch_mode(stage);
        stage->playing = true;
    }
    if (stage->playing && stage->now_min >= sl_stage_scene(stage)->until_min) {
        sl_stage_go(stage, 0.0);
    }
}

void sl_stage_press(sl_stage *stage, sl_spot spot)
{
    stage->dirty = true;
    switch (spot.kind) {
    case SL_SPOT_MODE:
        switch_mode(stage);
        break;
    case SL_SPOT_WHAT_IF:
        open_panel(stage, SL_PANEL_WHAT_IF);
        break;
    case SL_SPOT_SCIENCE:
        open_panel(stage, SL_PANEL_SCIENCE);
        break;
    case SL_SPOT_GLOSSARY:
        open_page(stage, SL_PAGE_GLOSSARY);
        break;
    case SL_SPOT_CAUTIONS:
        open_page(stage, SL_PAGE_CAUTIONS);
        break;
    case SL_SPOT_HELP:
        open_page(stage, SL_PAGE_HELP);
        break;
    case SL_SPOT_LESS:
        step_pace(stage, -1.0);
        break;
    case SL_SPOT_MORE:
        step_pace(stage, 1.0);
        break;
    case SL_SPOT_BACK:
        sl_stage_choose_arm(stage, stage->layout.first - 1);
        break;
    case SL_SPOT_ON:
        sl_stage_choose_arm(stage, stage->layout.first + stage->layout.n_shown);
        break;
    case SL_SPOT_STRIP:
        sl_stage_choose_arm(stage, spot.number);
        break;
    case SL_SPOT_ZONE:
        sl_stage_choose_zone(stage, spot.number);
        break;
    case SL_SPOT_PLAY:
        play(stage);
        break;
    case SL_SPOT_KNOB_LESS:
        step_knob(stage, spot.number, -1.0);
        break;
    case SL_SPOT_KNOB_MORE:
        step_knob(stage, spot.number, 1.0);
        break;
    case SL_SPOT_RESET:
        stage->change = sl_change_none(sl_stage_scene(stage));
        stage->ask = true;
        break;
    case SL_SPOT_CLOSE:
        close_page(stage);
        break;
    case SL_SPOT_KNOB:
    case SL_SPOT_RULER:
    case SL_SPOT_NONE:
    default:
        break;
    }
}
