/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A what-if in the window: what was turned is turned back, turn by turn, a drag at once; Enter goes to the
 * minute at which a change is first seen, and of a person no such minute is told; a lock is wiped while a mix
 * lies on hair and not after; a finger moves what is read.
 */
#include <math.h>
#include <string.h>

#include "slowlift/estimate.h"
#include "stage_made.h"
#include "suite.h"
#include "view/panels/bowl.h"
#include "view/panels/panel.h"
#include "view/panels/said.h"
#include "view/window/acts.h"
#include "view/window/show.h"

enum { STRIP = 4 /* powder + 6 % */ };

static sl_stage *opened(void)
{
    sl_stage *const stage = stage_of("eight-arms.yaml");
    stage->open.page = SL_PAGE_NONE;
    sl_stage_choose_arm(stage, STRIP);
    stage_drawn(stage);
    stage_pressed(stage, SDLK_w);
    return stage;
}

static void shut(sl_stage *stage)
{
    sl_stage_free(stage);
    SDL_Quit();
}

static double strength(const sl_stage *stage)
{
    return sl_knob_value(stage->solved.change, sl_stage_scene(stage), STRIP, SL_SETTING_STRENGTH);
}

/* Until what was asked is solved. */
static void solved(sl_stage *stage)
{
    stage_drawn(stage);
    for (patience wait = {0}; sl_solve_thread_busy(stage->solved.solver) && patient(&wait);) {
        stage_drawn(stage);
    }
    stage_drawn(stage);
}

START_TEST(each_turn_is_turned_back_and_so_is_the_way_back_to_the_file)
{
    sl_stage *const stage = opened();
    const double file = strength(stage);
    ck_assert_ptr_nonnull(sl_action_why_not(stage, SL_DO_UNDO, 0));
    stage_pressed(stage, SDLK_LEFT);
    const double one = strength(stage);
    stage_pressed(stage, SDLK_LEFT);
    const double two = strength(stage);
    ck_assert(two < one && one < file);
    stage_pressed(stage, SDLK_r);
    ck_assert_double_eq_tol(strength(stage), file, 1e-12);
    stage_pressed(stage, SDLK_u);
    ck_assert_double_eq_tol(strength(stage), two, 1e-12);
    stage_pressed(stage, SDLK_u);
    ck_assert_double_eq_tol(strength(stage), one, 1e-12);
    stage_pressed(stage, SDLK_u);
    ck_assert_double_eq_tol(strength(stage), file, 1e-12);
    ck_assert_ptr_nonnull(sl_action_why_not(stage, SL_DO_UNDO, 0));
    stage_pressed(stage, SDLK_u);
    ck_assert_ptr_nonnull(stage->hand.refused);
    shut(stage);
}
END_TEST

START_TEST(more_turns_than_are_kept_lose_the_oldest)
{
    sl_stage *const stage = opened();
    for (int i = 0; i < SL_MOST_UNDOS + 3; i++) {
        sl_stage_turn_knob(stage, SL_SETTING_STRENGTH, i % 2 == 0 ? 3.0 : 1.5);
    }
    ck_assert_int_eq(stage->solved.undos.n, SL_MOST_UNDOS);
    for (int i = 0; i < SL_MOST_UNDOS; i++) {
        sl_act_undo(stage, 0, 0);
    }
    ck_assert_double_eq_tol(strength(stage), 3.0, 1e-12);
    shut(stage);
}
END_TEST

static void point(sl_stage *stage, Uint32 type, int x, int y)
{
    SDL_Event event = {.type = type};
    if (type == SDL_MOUSEMOTION) {
        event.motion.x = x;
        event.motion.y = y;
    } else {
        event.button.button = SDL_BUTTON_LEFT;
        event.button.x = x;
        event.button.y = y;
    }
    sl_stage_take(stage, &event);
}

START_TEST(a_drag_is_turned_back_at_once)
{
    sl_stage *const stage = opened();
    const double file = strength(stage);
    for (int drag = 0; drag < 2; drag++) {
        const SDL_Rect track = sl_what_if_place(stage).knob[SL_SETTING_STRENGTH].areas.track;
        point(stage, SDL_MOUSEBUTTONDOWN, track.x + track.w / 4, track.y + track.h / 2);
        for (int i = 1; i < 6; i++) {
            point(stage, SDL_MOUSEMOTION, track.x + track.w / 4 + i * track.w / 10, track.y + track.h / 2);
        }
        point(stage, SDL_MOUSEBUTTONUP, track.x + track.w / 2, track.y + track.h / 2);
        stage_drawn(stage);
    }
    ck_assert_int_eq(stage->solved.undos.n, 2);
    stage_pressed(stage, SDLK_u);
    stage_pressed(stage, SDLK_u);
    ck_assert_double_eq_tol(strength(stage), file, 1e-12);
    shut(stage);
}
END_TEST

/* Where it goes to, the model's own two courses differ by what can be seen, and a minute before they do not.
 */
START_TEST(enter_goes_to_where_a_difference_is_seen)
{
    sl_stage *const stage = opened();
    ck_assert(stage->hand.focus == SL_DO_KNOB && stage->hand.focus_seen);
    sl_stage_turn_knob(stage, SL_SETTING_STRENGTH, 1.5);
    solved(stage);
    const int minute = sl_difference_min(stage);
    ck_assert_int_gt(minute, 0);
    stage_pressed(stage, SDLK_RETURN);
    ck_assert_double_eq_tol(stage->chosen.now_min, minute, 1e-12);
    ck_assert(!stage->chosen.playing);
    double off[2];
    for (int i = 0; i < 2; i++) {
        off[i] = fabs(sl_left_at(stage->solved.before.timeline, STRIP, stage->chosen.zone, minute - i) -
                      sl_left_at(stage->solved.after.timeline, STRIP, stage->chosen.zone, minute - i));
    }
    ck_assert(off[0] >= 0.02 && off[1] < 0.02);
    ck_assert_int_eq(sl_difference_min(stage), -1);
    shut(stage);
}
END_TEST

START_TEST(of_a_person_no_minute_of_a_difference_is_told)
{
    sl_stage *const stage = opened();
    sl_stage_turn_knob(stage, SL_SETTING_STRENGTH, 1.5);
    solved(stage);
    ck_assert_int_gt(sl_difference_min(stage), 0);
    stage->entered.of_person = true;
    ck_assert_int_eq(sl_difference_min(stage), -1);
    stage_pressed(stage, SDLK_RETURN);
    ck_assert_double_eq_tol(stage->chosen.now_min, 0.0, 0.5); /* it plays, or not; it goes to no minute */
    shut(stage);
}
END_TEST

START_TEST(the_bowl_is_shut_once_the_strip_is_rinsed)
{
    sl_stage *const stage = opened();
    const double rinse = sl_first_water_min(&sl_stage_scene(stage)->arms[STRIP]);
    sl_stage_go(stage, rinse);
    ck_assert(sl_bowl_why_not(stage) == NULL);
    sl_stage_go(stage, rinse + 1.0);
    ck_assert_ptr_nonnull(sl_bowl_why_not(stage));
    sl_bowl_enter(stage, 1);
    ck_assert_int_eq(stage->entered.observations.n, 0);
    shut(stage);
}
END_TEST

START_TEST(a_finger_moves_what_is_read)
{
    sl_stage *const stage = opened();
    stage_pressed(stage, SDLK_e);
    stage_pressed(stage, SDLK_PAGEDOWN);
    solved(stage);
    ck_assert_int_gt(stage->open.scroll_most[1], 0);
    SDL_Event event = {.type = SDL_FINGERMOTION};
    event.tfinger.dy = -0.05F;
    sl_stage_take(stage, &event);
    ck_assert_int_gt(stage->open.scroll[1], 0);
    event.tfinger.dy = 0.9F;
    sl_stage_take(stage, &event);
    ck_assert_int_eq(stage->open.scroll[1], 0);
    shut(stage);
}
END_TEST

/* First the answers: verdict, when to rinse, when to look; the rest is one press away, and said to be there.
 */
START_TEST(how_long_begins_with_its_answers)
{
    sl_stage *const stage = opened();
    stage_pressed(stage, SDLK_e);
    solved(stage);
    ck_assert(sl_said_folded(stage));
    const SDL_Rect more = sl_said_control(stage, SL_DO_UNFOLD, 0), room = sl_said_room(stage);
    ck_assert(more.h >= stage->laid.layout.target && !SDL_HasIntersection(&more, &room));
    const int folded = sl_leaf_height(&stage->laid.said);
    stage_pressed(stage, SDLK_PAGEDOWN);
    ck_assert(!sl_said_folded(stage) && sl_said_control(stage, SL_DO_UNFOLD, 0).h == 0);
    ck_assert_int_gt(sl_leaf_height(&stage->laid.said), folded);
    ck_assert_int_eq(stage->open.scroll[1], 0);
    stage_pressed(stage, SDLK_PAGEDOWN);
    ck_assert_int_gt(stage->open.scroll[1], 0);
    stage_pressed(stage, SDLK_e);
    stage_pressed(stage, SDLK_e);
    ck_assert(sl_said_folded(stage));
    point(stage, SDL_MOUSEBUTTONDOWN, more.x + more.w / 2, more.y + more.h / 2);
    ck_assert(!sl_said_folded(stage));
    shut(stage);
}
END_TEST

/* What is drawn ends with a whole block: place by place, down to every scroll. */
START_TEST(no_line_is_cut_where_a_panel_ends)
{
    sl_stage *const stage = opened();
    stage_pressed(stage, SDLK_s);
    solved(stage);
    const sl_leaf *const leaf = &stage->laid.said;
    const int most = sl_said_room(stage).h;
    for (int from = 0; from + most < sl_leaf_height(leaf); from += 7) {
        const int whole = sl_leaf_whole_from(leaf, from, most);
        bool ends = whole == most; /* a block longer than half the room is shown as far as it goes */
        for (size_t i = 0; i < leaf->document.n && !ends; i++) {
            ends = leaf->place[i].y + leaf->place[i].h - from == whole;
        }
        ck_assert_msg(ends && whole <= most, "%d of %d from %d", whole, most, from);
    }
    shut(stage);
}
END_TEST

START_SUITE("knobs in the window")
ADD(each_turn_is_turned_back_and_so_is_the_way_back_to_the_file)
ADD(more_turns_than_are_kept_lose_the_oldest)
ADD(a_drag_is_turned_back_at_once)
ADD(enter_goes_to_where_a_difference_is_seen)
ADD(of_a_person_no_minute_of_a_difference_is_told)
ADD(the_bowl_is_shut_once_the_strip_is_rinsed)
ADD(a_finger_moves_what_is_read)
ADD(how_long_begins_with_its_answers)
ADD(no_line_is_cut_where_a_panel_ends)
END_SUITE
