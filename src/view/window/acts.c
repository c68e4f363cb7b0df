/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See acts.h.
 */
#include "view/window/acts.h"

#include <math.h>
#include <string.h>

#include "view/panels/bowl.h"
#include "view/panels/form.h"
#include "view/panels/said.h"
#include "view/panels/turn.h"
#include "view/sight/guess.h"
#include "view/window/show.h"

static const double SLOWEST = 0.5, FASTEST = 8.0;
static const double SHARE_STEP = 0.05, SHARE_LEAST = 0.05, SHARE_MOST = 0.95;
static const double LEAST_SCALE = 1.0, MOST_SCALE = 2.0, SCALE_STEP = 0.25; /* of the text */
static const double LINE = 40.0;                                            /* units of a scroll */

/* ---- choosing ------------------------------------------------------------------------- */

void sl_stage_choose_zone(sl_stage *stage, int zone)
{
    stage->chosen.zone = SDL_clamp(zone, 0, sl_stage_scene(stage)->n_zones - 1);
    stage->dirty = stage->read.stale = stage->read.remeet = true;
}

void sl_stage_choose_arm(sl_stage *stage, int arm)
{
    const sl_layout *l = &stage->laid.layout;
    stage->chosen.arm = SDL_clamp(arm, 0, sl_stage_scene(stage)->n_arms - 1);
    if (stage->chosen.arm < l->first) {
        stage->laid.first_arm = stage->chosen.arm;
    } else if (stage->chosen.arm >= l->first + l->n_shown) {
        stage->laid.first_arm = stage->chosen.arm - l->n_shown + 1;
    }
    stage->dirty = stage->read.stale = true;
}

void sl_act_zone(sl_stage *stage, int which, int by)
{
    (void)which;
    sl_stage_choose_zone(stage, stage->chosen.zone + by);
}

void sl_act_arm(sl_stage *stage, int which, int by)
{
    (void)which;
    sl_stage_choose_arm(stage, stage->chosen.arm + by);
}

void sl_act_strips(sl_stage *stage, int which, int by)
{
    (void)which;
    const sl_layout *const l = &stage->laid.layout;
    sl_stage_choose_arm(stage, by < 0 ? l->first - 1 : l->first + l->n_shown);
}

void sl_act_choose_arm(sl_stage *stage, int arm, int by)
{
    (void)by;
    sl_stage_choose_arm(stage, arm);
}

void sl_act_choose_zone(sl_stage *stage, int zone, int by)
{
    (void)by;
    sl_stage_choose_zone(stage, zone);
}

/* ---- the two swatches ------------------------------------------------------------------- */

/* One more or less, round and round. */
static int turned(int now, int by, int n)
{
    return (now + by + n) % n;
}

void sl_act_side(sl_stage *stage, int side, int by)
{
    (void)by;
    stage->chosen.side = side;
}

void sl_act_side_arm(sl_stage *stage, int side, int by)
{
    int *const arm = &stage->chosen.beside[side].arm;
    stage->chosen.side = side;
    *arm = turned(*arm, by, sl_stage_scene(stage)->n_arms);
}

void sl_act_side_zone(sl_stage *stage, int side, int by)
{
    int *const zone = &stage->chosen.beside[side].zone;
    stage->chosen.side = side;
    *zone = turned(*zone, by, sl_stage_scene(stage)->n_zones);
}

void sl_act_arm_of_side(sl_stage *stage, int arm, int by)
{
    (void)by;
    stage->chosen.beside[stage->chosen.side].arm = arm;
}

/* ---- time and pace -------------------------------------------------------------------------- */

/* From whole minute to whole minute; in a scene of days, once its first hours are over, from hour to hour. */
void sl_act_minute(sl_stage *stage, int minutes, int by)
{
    const double stride = sl_stage_stride_min(stage, stage->chosen.now_min, by),
                 now = stage->chosen.now_min / stride;
    sl_stage_go(stage, stride * ((by < 0 ? ceil(now - 1e-9) : floor(now + 1e-9)) + by * minutes));
}

void sl_act_to_end(sl_stage *stage, int which, int by)
{
    (void)which;
    sl_stage_go(stage, by < 0 ? 0.0 : sl_stage_scene(stage)->until_min);
}

void sl_act_mode(sl_stage *stage, int which, int by)
{
    (void)which;
    (void)by;
    if (stage->chosen.mode == SL_SAME_MINUTE) {
        sl_stage_compare_at_colour(stage);
    } else {
        stage->chosen.mode = SL_SAME_MINUTE;
        stage->chosen.playing = false;
        stage->read.stale = stage->read.remeet = true;
    }
}

void sl_act_play(sl_stage *stage, int which, int by)
{
    stage->chosen.playing = !stage->chosen.playing;
    stage->last_tick = SDL_GetTicks64(); /* from here on, however long it rested */
    if (stage->chosen.mode == SL_SAME_COLOUR) {
        sl_act_mode(stage, which, by);
        stage->chosen.playing = true;
    }
    if (stage->chosen.playing && stage->chosen.now_min >= sl_stage_scene(stage)->until_min) {
        sl_stage_go(stage, 0.0);
    }
    stage->guess.hold_min = stage->chosen.playing ? sl_guess_hold_min(stage, stage->chosen.now_min) : -1.0;
}

void sl_act_guess(sl_stage *stage, int which, int by)
{
    (void)by;
    sl_guess_take(stage, which - 1);
}

bool sl_stage_look_next(const sl_stage *stage, double *clock_min)
{
    const sl_answer *const answer = &stage->solved.study.answer;
    const bool told = stage->solved.study.members > 0 && answer->minutes && sl_stage_on_bench(stage);
    const double contact = sl_stage_scene(stage)->arms[stage->chosen.arm].contact_min;
    for (int i = 0; told && i < answer->n_checks; i++) {
        *clock_min = contact + answer->check[i];
        if (*clock_min > stage->chosen.now_min + 1e-9) {
            return true;
        }
    }
    return false;
}

void sl_act_look_next(sl_stage *stage, int which, int by)
{
    double minute = 0.0;
    if (sl_stage_look_next(stage, &minute)) {
        if (stage->chosen.mode == SL_SAME_COLOUR) {
            sl_act_mode(stage, which, by);
        }
        stage->chosen.playing = false;
        sl_stage_go(stage, minute);
    }
}

/* The share in one comparison, the playing speed in the other. */
void sl_act_pace(sl_stage *stage, int which, int by)
{
    (void)which;
    sl_stage_chosen *const chosen = &stage->chosen;
    if (chosen->mode == SL_SAME_COLOUR) {
        chosen->share = SDL_clamp(chosen->share + by * SHARE_STEP, SHARE_LEAST, SHARE_MOST);
        stage->read.stale = stage->read.remeet = true;
    } else {
        chosen->speed = SDL_clamp(chosen->speed * pow(2.0, by), SLOWEST, FASTEST);
    }
}

/* ---- knobs ---------------------------------------------------------------------------------- */

/* What stands now can be come back to; of the oldest where there are too many nothing is kept. */
static void keep_settings(sl_stage_undos *undos, const sl_changes change[SL_MAX_ARMS])
{
    if (undos->n == SL_MOST_UNDOS) {
        memmove(undos->change[0], undos->change[1], sizeof undos->change - sizeof undos->change[0]);
        undos->n--;
    }
    memcpy(undos->change[undos->n++], change, sizeof undos->change[0]);
}

void sl_stage_turn_knob(sl_stage *stage, sl_setting knob, double value)
{
    sl_stage_undos *const undos = &stage->solved.undos;
    sl_changes before[SL_MAX_ARMS];
    memcpy(before, stage->solved.change, sizeof before);
    if (sl_knob_turn(stage->solved.change, sl_stage_scene(stage), stage->chosen.arm, knob, value)) {
        if (!undos->in_drag) {
            keep_settings(undos, before);
        }
        undos->in_drag = stage->hand.held.kind == SL_DO_KNOB;
        stage->solved.ask = true;
        stage->dirty = true;
    }
}

void sl_act_knob(sl_stage *stage, int knob, int by)
{
    const double now =
        sl_knob_value(stage->solved.change, sl_stage_scene(stage), stage->chosen.arm, (sl_setting)knob);
    sl_stage_turn_knob(stage, (sl_setting)knob, now + by * sl_knobs[knob].step);
}

void sl_act_reset(sl_stage *stage, int which, int by)
{
    (void)by;
    (void)which;
    keep_settings(&stage->solved.undos, stage->solved.change);
    memset(stage->solved.change, 0, sizeof stage->solved.change);
    stage->solved.ask = true;
}

void sl_act_undo(sl_stage *stage, int which, int by)
{
    sl_stage_undos *const undos = &stage->solved.undos;
    (void)by;
    (void)which;
    memcpy(stage->solved.change, undos->change[--undos->n], sizeof stage->solved.change);
    undos->in_drag = false;
    stage->solved.ask = true;
}

/* ---- pages and panels -------------------------------------------------------------------------- */

void sl_act_open_page(sl_stage *stage, sl_stage_page page)
{
    sl_stage_open *const open = &stage->open;
    const sl_stage_page before = open->page;
    open->page = before == page ? open->below : page;
    if (open->page == SL_PAGE_BESIDE) {
        sl_stage_put_beside(stage);
    }
    open->below =
        before != page && (before == SL_PAGE_NEW || before == SL_PAGE_START) ? before : SL_PAGE_NONE;
    open->scroll[0] = 0;
    stage->asking.row = -1; /* its row comes into sight again */
}

/* The ring goes to the first of them, so that plus and minus turn it. */
static void ring_first_knob(sl_stage *stage)
{
    for (int i = 0; i < SL_SETTINGS; i++) {
        if ((sl_knobs[i].where & SL_KNOB_PANEL) != 0 &&
            sl_knob_applies(sl_stage_scene(stage), stage->chosen.arm, (sl_setting)i)) {
            stage->hand.focus = SL_DO_KNOB;
            stage->hand.focus_number = i;
            stage->hand.focus_seen = true;
            return;
        }
    }
}

void sl_act_open_panel(sl_stage *stage, sl_panel panel)
{
    stage->open.panel = stage->open.panel == panel ? SL_PANEL_NONE : panel;
    stage->open.scroll[1] = 0;
    stage->open.unfolded = false;
    if (stage->open.panel == SL_PANEL_WHAT_IF) {
        ring_first_knob(stage);
    }
}

/* The ring goes to the first grade, so that Tab and Enter choose. */
void sl_act_bowl(sl_stage *stage, int which, int by)
{
    (void)by;
    (void)which;
    stage->open.page = SL_PAGE_NONE;
    sl_act_open_panel(stage, SL_PANEL_BOWL);
    stage->hand.focus = SL_DO_GRADE;
    stage->hand.focus_number = 0;
    stage->hand.focus_seen = stage->open.panel == SL_PANEL_BOWL;
}

bool sl_science_is_deeper(const sl_stage *stage)
{
    const sl_stage_page page = stage->open.page;
    return page == SL_PAGE_BESIDE || page == SL_PAGE_ANSWER ||
           (page == SL_PAGE_NONE && stage->open.panel == SL_PANEL_LIMITS);
}

void sl_act_science(sl_stage *stage, int which, int by)
{
    (void)by;
    (void)which;
    if (sl_science_is_deeper(stage)) {
        stage->open.curves = stage->open.deepens = !stage->open.curves;
    } else {
        sl_act_open_panel(stage, SL_PANEL_SCIENCE);
    }
}

/* The first cautions are read to their end before they fold away; what was seen comes next, where a log is
 * open, and the questions of a new test where the window was opened for them, else the question that is asked
 * before time moves. */
void sl_act_close(sl_stage *stage, int which, int by)
{
    (void)by;
    (void)which;
    sl_stage_open *const open = &stage->open;
    const bool start = open->page == SL_PAGE_START;
    if (start && open->scroll[0] < open->scroll_most[0]) {
        sl_act_scroll_by(stage, 0, SDL_max(sl_plate_room(stage).h * 3 / 4, 1));
    } else {
        const sl_stage_page next = stage->logs.seen != NULL ? SL_PAGE_SEEN
                                   : stage->asking.first    ? SL_PAGE_NEW
                                                            : stage->open.after;
        sl_act_open_page(stage, start ? next : open->page);
        if (start) {
            open->below = SL_PAGE_NONE;
            if (next == SL_PAGE_NONE) {
                sl_guess_open(stage);
            }
        }
    }
}

void sl_act_shut(sl_stage *stage, int which, int by)
{
    (void)by;
    (void)which;
    stage->open.panel = SL_PANEL_NONE;
    stage->hand.focus_seen = false;
}

void sl_act_forget(sl_stage *stage, int which, int by)
{
    (void)by;
    (void)which;
    if (stage->open.page == SL_PAGE_FORM) {
        sl_form_clear(stage);
    } else {
        sl_bowl_forget(stage);
    }
}

void sl_act_turn(sl_stage *stage, int turn, int by)
{
    sl_stage_turn(stage, (sl_turn)turn, by);
}

void sl_act_form(sl_stage *stage, int row, int by)
{
    stage->entered.form_row = row;
    sl_form_turn(stage, row, by);
}

/* by: which of sl_reply. */
void sl_act_form_reply(sl_stage *stage, int row, int by)
{
    stage->entered.form_row = row;
    sl_form_reply(stage, row, (sl_reply)by);
}

void sl_act_form_figure(sl_stage *stage, int figure, int by)
{
    (void)by;
    sl_form_type(stage, stage->entered.form_row, figure < 10 ? figure : -1);
}

void sl_act_grade(sl_stage *stage, int wipe, int by)
{
    (void)by;
    sl_bowl_enter(stage, wipe);
}

void sl_act_form_row(sl_stage *stage, int way, int by)
{
    (void)by;
    const int row = stage->entered.form_row;
    stage->entered.form_row = SDL_clamp(way == SL_WAY_UP      ? row - 1
                                        : way == SL_WAY_DOWN  ? row + 1
                                        : way == SL_WAY_FIRST ? 0
                                                              : SL_FORM_ROWS - 1,
                                        0, SL_FORM_ROWS - 1);
    stage->entered.form_follow = true;
}

/* ---- scrolling ---------------------------------------------------------------------------------- */

void sl_act_scroll_by(sl_stage *stage, int which, int by)
{
    const int most = SDL_max(stage->open.scroll_most[which], 0);
    stage->open.scroll[which] = SDL_clamp(stage->open.scroll[which] + by, 0, most);
    stage->dirty = true;
}

static void scroll(sl_stage *stage, int which, int way, int sheet)
{
    const int line = sl_pen_px(&stage->pen, LINE);
    const int all = stage->open.scroll_most[which];
    const int by[SL_WAYS] = {[SL_WAY_UP] = -line,         [SL_WAY_DOWN] = line,  [SL_WAY_SHEET_UP] = -sheet,
                             [SL_WAY_SHEET_DOWN] = sheet, [SL_WAY_FIRST] = -all, [SL_WAY_LAST] = all};
    sl_act_scroll_by(stage, which, by[way]);
}

void sl_act_scroll(sl_stage *stage, int way, int by)
{
    (void)by;
    const bool turns = sl_page_turns(stage) > 0;
    const int sheet = stage->open.page == SL_PAGE_START ? sl_plate_room(stage).h * 3 / 4
                      : turns                           ? stage->pen.sheet->h / 3
                                                        : stage->laid.layout.foot.y / 2;
    scroll(stage, 0, way, SDL_max(sheet, 1));
}

void sl_act_unfold(sl_stage *stage, int which, int by)
{
    (void)which;
    (void)by;
    stage->open.unfolded = true;
}

void sl_act_scroll_panel(sl_stage *stage, int way, int by)
{
    if (sl_said_folded(stage)) {
        sl_act_unfold(stage, 0, by);
        return;
    }
    scroll(stage, 1, way, stage->laid.layout.panel.h / 2);
}

/* ---- the ring -------------------------------------------------------------------------------------- */

static int spot_with_ring(const sl_stage *stage)
{
    const sl_stage_laid *const laid = &stage->laid;
    int at = 0;
    while (at < laid->n_spots && (laid->spots[at].kind != stage->hand.focus ||
                                  laid->spots[at].number != stage->hand.focus_number)) {
        at++;
    }
    return at < laid->n_spots ? at : -1;
}

void sl_act_focus(sl_stage *stage, int which, int by)
{
    (void)which;
    const sl_stage_laid *const laid = &stage->laid;
    const int n = laid->n_spots, ring = spot_with_ring(stage);
    int at = ring >= 0 ? ring : by > 0 ? -1 : n;
    bool stops = false;
    for (int i = 0; i < n && !stops; i++) {
        at = (at + by + n) % n;
        stops = laid->spots[at].stop;
    }
    if (stops) {
        stage->hand.focus = laid->spots[at].kind;
        stage->hand.focus_number = laid->spots[at].number;
    }
    stage->hand.focus_seen = true;
}

void sl_act_press(sl_stage *stage, int which, int by)
{
    (void)by;
    (void)which;
    const bool strips = stage->open.page == SL_PAGE_NONE || stage->open.page == SL_PAGE_BESIDE;
    const bool on_knob = !stage->hand.focus_seen || stage->hand.focus == SL_DO_KNOB;
    const int seen_min =
        strips && stage->open.panel == SL_PANEL_WHAT_IF && on_knob ? sl_difference_min(stage) : -1;
    if (seen_min >= 0) {
        sl_stage_go(stage, seen_min);
    } else if (stage->hand.focus_seen && spot_with_ring(stage) >= 0) {
        sl_action_do(stage, stage->hand.focus, stage->hand.focus_number);
    } else if (strips) {
        sl_action_do(stage, SL_DO_PLAY, 0);
    }
}

/* ---- the window ---------------------------------------------------------------------------------------- */

static void set_scale(sl_stage *stage, double scale)
{
    stage->look.scale = SDL_clamp(scale, LEAST_SCALE, MOST_SCALE);
}

void sl_act_text_size(sl_stage *stage, int which, int by)
{
    (void)by;
    (void)which;
    const bool most = stage->look.scale > MOST_SCALE - SCALE_STEP / 2.0;
    set_scale(stage, most ? LEAST_SCALE : stage->look.scale + SCALE_STEP);
}

/* 0: as large as usual. */
void sl_act_text_scale(sl_stage *stage, int which, int by)
{
    (void)which;
    set_scale(stage, by == 0 ? LEAST_SCALE : stage->look.scale + by * SCALE_STEP);
}

void sl_act_full_screen(sl_stage *stage, int which, int by)
{
    (void)by;
    (void)which;
    const bool full = (SDL_GetWindowFlags(stage->window) & SDL_WINDOW_FULLSCREEN_DESKTOP) != 0;
    SDL_SetWindowFullscreen(stage->window, full ? 0 : SDL_WINDOW_FULLSCREEN_DESKTOP);
}

void sl_act_leave(sl_stage *stage, int which, int by)
{
    (void)by;
    (void)which;
    stage->leave = true;
}

/* ---- the pointer ------------------------------------------------------------------------------------- */

void sl_act_point_ruler(sl_stage *stage, const sl_stage_spot *spot, int x, int y)
{
    (void)y;
    stage->chosen.playing = false;
    if (stage->chosen.mode == SL_SAME_MINUTE) {
        sl_stage_go(stage, sl_ruler_time(spot->area, sl_stage_scene(stage)->until_min, x));
    }
}

void sl_act_point_knob(sl_stage *stage, const sl_stage_spot *spot, int x, int y)
{
    (void)y;
    const sl_setting knob = (sl_setting)spot->number;
    const double most = sl_knob_track_most(sl_stage_scene(stage), knob);
    sl_stage_turn_knob(stage, knob,
                       sl_track_value(spot->area, x, sl_knobs[knob].least, most, sl_knobs[knob].step));
}

/* Pressing hair chooses the strip and the zone that was hit. */
void sl_act_point_strip(sl_stage *stage, const sl_stage_spot *spot, int x, int y)
{
    const int n = sl_stage_scene(stage)->n_zones;
    const SDL_Rect strip = stage->laid.layout.strip[spot->number - stage->laid.layout.first];
    for (int zone = 0; zone < n; zone++) {
        if (sl_rect_holds(sl_layout_zone(&strip, n, zone), x, y)) {
            sl_stage_choose_zone(stage, zone);
        }
    }
}
