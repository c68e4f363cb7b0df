/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What pressing a place does, and choosing strips, zones and knobs.
 */
#include <math.h>

#include "view/panels/bowl.h"
#include "view/panels/form.h"
#include "view/panels/turn.h"

static const double SLOWEST = 0.5, FASTEST = 8.0;
static const double SHARE_STEP = 0.05, SHARE_LEAST = 0.05, SHARE_MOST = 0.95;

/* ---- choosing and pressing ------------------------------------------------------------ */

void sl_stage_choose_zone(sl_stage *stage, int zone)
{
    stage->chosen.zone = SDL_clamp(zone, 0, sl_stage_scene(stage)->n_zones - 1);
    stage->dirty = stage->read.stale = stage->read.remeet = true;
}

void sl_stage_choose_arm(sl_stage *stage, int arm)
{
    stage->chosen.arm = SDL_clamp(arm, 0, sl_stage_scene(stage)->n_arms - 1);
    const sl_layout *l = &stage->laid.layout;
    if (stage->chosen.arm < l->first) {
        stage->laid.first_arm = stage->chosen.arm;
    } else if (stage->chosen.arm >= l->first + l->n_shown) {
        stage->laid.first_arm = stage->chosen.arm - l->n_shown + 1;
    }
    stage->dirty = stage->read.stale = true;
}

void sl_stage_turn_knob(sl_stage *stage, sl_knob knob, double value)
{
    if (sl_change_set(&stage->solved.change, sl_stage_scene(stage), stage->chosen.arm, knob, value)) {
        stage->solved.ask = true;
        stage->dirty = true;
    }
}

static void step_knob(sl_stage *stage, int knob, double steps)
{
    const sl_knob_range range = sl_knob_range_of(sl_stage_scene(stage), (sl_knob)knob);
    const double now = sl_change_value(&stage->solved.change, stage->chosen.arm, (sl_knob)knob);
    sl_stage_turn_knob(stage, (sl_knob)knob, now + steps * range.step);
}

static void open_panel(sl_stage *stage, sl_panel panel)
{
    stage->open.panel = stage->open.panel == panel ? SL_PANEL_NONE : panel;
    stage->open.scroll[1] = 0;
}

/* The ring goes to the first grade, so that Tab and Enter choose. */
static void open_bowl(sl_stage *stage)
{
    stage->open.page = SL_PAGE_NONE;
    open_panel(stage, SL_PANEL_BOWL);
    stage->hand.focus = SL_SPOT_GRADE;
    stage->hand.focus_number = 0;
    stage->hand.focus_seen = stage->open.panel == SL_PANEL_BOWL;
}

static void open_page(sl_stage *stage, sl_stage_page page)
{
    stage->open.page = stage->open.page == page ? SL_PAGE_NONE : page;
    stage->open.scroll[0] = 0;
}

/* The first page is read to its end before it goes; what was seen comes next, where a log is open. */
static void close_page(sl_stage *stage)
{
    const bool rest = stage->open.scroll[0] < stage->open.scroll_most[0];
    if (stage->open.page == SL_PAGE_START && rest) {
        stage->open.scroll[0] =
            SDL_min(stage->open.scroll[0] + stage->laid.layout.foot.y / 2, stage->open.scroll_most[0]);
    } else {
        stage->open.page =
            stage->open.page == SL_PAGE_START && stage->logs.seen != NULL ? SL_PAGE_SEEN : SL_PAGE_NONE;
        stage->open.scroll[0] = 0;
    }
}

static void switch_mode(sl_stage *stage)
{
    if (stage->chosen.mode == SL_SAME_MINUTE) {
        sl_stage_compare_at_colour(stage);
    } else if (sl_stage_on_bench(stage)) {
        stage->chosen.mode = SL_SAME_MINUTE;
        stage->chosen.playing = false;
        stage->read.stale = stage->read.remeet = true;
    }
}

/* The share in one comparison, the playing speed in the other. */
static void step_pace(sl_stage *stage, double steps)
{
    if (stage->chosen.mode == SL_SAME_COLOUR) {
        stage->chosen.share = SDL_clamp(stage->chosen.share + steps * SHARE_STEP, SHARE_LEAST, SHARE_MOST);
        stage->read.stale = stage->read.remeet = true;
    } else {
        stage->chosen.speed = SDL_clamp(stage->chosen.speed * pow(2.0, steps), SLOWEST, FASTEST);
    }
}

static void play(sl_stage *stage)
{
    if (!sl_stage_on_bench(stage)) {
        return; /* minute by minute is for cut swatches */
    }
    stage->chosen.playing = !stage->chosen.playing;
    if (stage->chosen.mode == SL_SAME_COLOUR) {
        switch_mode(stage);
        stage->chosen.playing = true;
    }
    if (stage->chosen.playing && stage->chosen.now_min >= sl_stage_scene(stage)->until_min) {
        sl_stage_go(stage, 0.0);
    }
}

/* One more or less, round and round. */
static int turned(int now, int by, int n)
{
    return (now + by + n) % n;
}

/* How it is looked at; false when `kind` is something else. */
static bool press_eyes(sl_stage *stage, sl_spot_kind kind)
{
    static const struct {
        sl_spot_kind kind;
        void (*turn)(sl_eyes *eyes);
    } turns[] = {{SL_SPOT_THEME, sl_eyes_next_theme}, {SL_SPOT_VISION, sl_eyes_next_vision},
                 {SL_SPOT_LOOK, sl_eyes_next_look},   {SL_SPOT_WIPE, sl_eyes_wipe},
                 {SL_SPOT_LIGHT, sl_eyes_next_light}, {SL_SPOT_OBSERVER, sl_eyes_next_observer}};
    for (size_t i = 0; i < sizeof turns / sizeof turns[0]; i++) {
        if (turns[i].kind == kind) {
            turns[i].turn(&stage->look.eyes);
            stage->read.stale = true;
            return true;
        }
    }
    return false;
}

/* Of the two swatches; false when the spot is something else. */
static bool press_beside(sl_stage *stage, sl_stage_spot spot)
{
    static const struct {
        sl_spot_kind kind;
        int arm, zone; /* by how many to go on */
    } turns[] = {{SL_SPOT_SIDE, 0, 0},
                 {SL_SPOT_ARM_BACK, -1, 0},
                 {SL_SPOT_ARM_ON, 1, 0},
                 {SL_SPOT_ZONE_BACK, 0, -1},
                 {SL_SPOT_ZONE_ON, 0, 1}};
    const sl_scene *scene = sl_stage_scene(stage);
    for (size_t i = 0; i < sizeof turns / sizeof turns[0]; i++) {
        if (turns[i].kind == spot.kind) {
            stage->chosen.side = spot.number == 1 ? 1 : 0;
            sl_spot_of *of = &stage->chosen.beside[stage->chosen.side];
            of->arm = turned(of->arm, turns[i].arm, scene->n_arms);
            of->zone = turned(of->zone, turns[i].zone, scene->n_zones);
            return true;
        }
    }
    return false;
}

/* A page or a panel of its own; false when `kind` is something else. */
static bool press_page(sl_stage *stage, sl_spot_kind kind)
{
    static const struct {
        sl_spot_kind kind;
        sl_stage_page page;
    } pages[] = {{SL_SPOT_BESIDE, SL_PAGE_BESIDE},     {SL_SPOT_FORM, SL_PAGE_FORM},
                 {SL_SPOT_RANK, SL_PAGE_RANK},         {SL_SPOT_MAP, SL_PAGE_MAP},
                 {SL_SPOT_SEEN, SL_PAGE_SEEN},         {SL_SPOT_GLOSSARY, SL_PAGE_GLOSSARY},
                 {SL_SPOT_CAUTIONS, SL_PAGE_CAUTIONS}, {SL_SPOT_HELP, SL_PAGE_HELP}};
    static const struct {
        sl_spot_kind kind;
        sl_panel panel;
    } panels[] = {{SL_SPOT_SHOW_AS, SL_PANEL_SHOW_AS},
                  {SL_SPOT_WHAT_IF, SL_PANEL_WHAT_IF},
                  {SL_SPOT_LIMITS, SL_PANEL_LIMITS}};
    for (size_t i = 0; i < sizeof pages / sizeof pages[0]; i++) {
        if (pages[i].kind == kind) {
            open_page(stage, pages[i].page);
            return true;
        }
    }
    for (size_t i = 0; i < sizeof panels / sizeof panels[0]; i++) {
        if (panels[i].kind == kind) {
            open_panel(stage, panels[i].panel);
            return true;
        }
    }
    return false;
}

/* ---- the others: what each does --------------------------------------------------------------- */

static void press_text_size(sl_stage *stage, int number)
{
    (void)number;
    stage->look.scale = stage->look.scale > 1.95 ? 1.0 : stage->look.scale + 0.25;
}

static void form_back(sl_stage *stage, int row)
{
    stage->entered.form_row = row;
    sl_form_turn(stage, row, -1);
}

static void form_on(sl_stage *stage, int row)
{
    stage->entered.form_row = row;
    sl_form_turn(stage, row, 1);
}

static void press_bowl(sl_stage *stage, int number)
{
    (void)number;
    open_bowl(stage);
}

static void press_forget(sl_stage *stage, int number)
{
    (void)number;
    if (stage->open.page == SL_PAGE_FORM) {
        sl_form_clear(stage);
    } else if (stage->open.panel == SL_PANEL_BOWL) {
        sl_bowl_forget(stage);
    }
}

static void turn_back(sl_stage *stage, int turn)
{
    sl_stage_turn(stage, (sl_turn)turn, -1);
}

static void turn_on(sl_stage *stage, int turn)
{
    sl_stage_turn(stage, (sl_turn)turn, 1);
}

static void press_mode(sl_stage *stage, int number)
{
    (void)number;
    switch_mode(stage);
}

static void press_science(sl_stage *stage, int number)
{
    (void)number;
    if (stage->open.page == SL_PAGE_BESIDE || stage->open.panel == SL_PANEL_LIMITS) {
        stage->open.curves = !stage->open.curves;
    } else {
        open_panel(stage, SL_PANEL_SCIENCE);
    }
}

static void pace_less(sl_stage *stage, int number)
{
    (void)number;
    step_pace(stage, -1.0);
}

static void pace_more(sl_stage *stage, int number)
{
    (void)number;
    step_pace(stage, 1.0);
}

static void strips_back(sl_stage *stage, int number)
{
    (void)number;
    sl_stage_choose_arm(stage, stage->laid.layout.first - 1);
}

static void strips_on(sl_stage *stage, int number)
{
    (void)number;
    sl_stage_choose_arm(stage, stage->laid.layout.first + stage->laid.layout.n_shown);
}

static void press_play(sl_stage *stage, int number)
{
    (void)number;
    play(stage);
}

static void knob_less(sl_stage *stage, int knob)
{
    step_knob(stage, knob, -1.0);
}

static void knob_more(sl_stage *stage, int knob)
{
    step_knob(stage, knob, 1.0);
}

static void press_reset(sl_stage *stage, int number)
{
    (void)number;
    stage->solved.change = sl_change_none(sl_stage_scene(stage));
    stage->solved.ask = true;
}

static void press_close(sl_stage *stage, int number)
{
    (void)number;
    close_page(stage);
}

/* A spot that is neither here nor above does nothing when it is pressed: the ruler and a knob's track are
 * dragged. */
static const struct {
    sl_spot_kind kind;
    void (*press)(sl_stage *stage, int number); /* the spot's own */
} presses[] = {{SL_SPOT_TEXT_SIZE, press_text_size},
               {SL_SPOT_FORM_BACK, form_back},
               {SL_SPOT_FORM_ON, form_on},
               {SL_SPOT_BOWL, press_bowl},
               {SL_SPOT_GRADE, sl_bowl_enter},
               {SL_SPOT_FORGET, press_forget},
               {SL_SPOT_TURN_BACK, turn_back},
               {SL_SPOT_TURN_ON, turn_on},
               {SL_SPOT_MODE, press_mode},
               {SL_SPOT_SCIENCE, press_science},
               {SL_SPOT_LESS, pace_less},
               {SL_SPOT_MORE, pace_more},
               {SL_SPOT_BACK, strips_back},
               {SL_SPOT_ON, strips_on},
               {SL_SPOT_STRIP, sl_stage_choose_arm},
               {SL_SPOT_ZONE, sl_stage_choose_zone},
               {SL_SPOT_PLAY, press_play},
               {SL_SPOT_KNOB_LESS, knob_less},
               {SL_SPOT_KNOB_MORE, knob_more},
               {SL_SPOT_RESET, press_reset},
               {SL_SPOT_CLOSE, press_close}};

void sl_stage_press(sl_stage *stage, sl_stage_spot spot)
{
    stage->dirty = true;
    if (press_eyes(stage, spot.kind) || press_beside(stage, spot) || press_page(stage, spot.kind)) {
        return;
    }
    for (size_t i = 0; i < sizeof presses / sizeof presses[0]; i++) {
        if (presses[i].kind == spot.kind) {
            presses[i].press(stage, spot.number);
            return;
        }
    }
}
