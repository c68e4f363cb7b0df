/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * As a scene opens: the cautions beside the hair until they were seen, the question before time moves, asked of a
 * model's bench alone and once, and the first look at which time holds by itself. That a
 * guess comes before a look is common practice of teachers, no source.
 */
#include <math.h>
#include <string.h>

#include "slowlift/estimate.h"
#include "small_scene.h"
#include "stage_made.h"
#include "suite.h"
#include "view/sight/guess.h"
#include "view/window/action.h"
#include "view/window/show.h"

static void shut(sl_stage *stage)
{
    sl_stage_free(stage);
    SDL_Quit();
}

START_TEST(cautions_stand_beside_the_hair_until_they_were_seen)
{
    sl_stage *const stage = stage_of("eight-arms.yaml");
    stage_drawn(stage);
    const sl_layout *const l = &stage->laid.layout;
    const SDL_Rect plate = sl_plate_room(stage);
    ck_assert_int_eq(l->n_shown, sl_stage_scene(stage)->n_arms);
    ck_assert_msg(l->strip[0].h >= 0.38 * stage->pen.sheet->h, "hair is %d high", l->strip[0].h);
    for (int i = 0; i < l->n_shown; i++) {
        ck_assert(!SDL_HasIntersection(&plate, &l->column[i]));
    }
    for (int id = 0; id < SL_CAUTION_COUNT; id++) { /* each that always stands, in the plate's document */
        bool said = !sl_caution_text((sl_caution_id)id)->always;
        for (size_t i = 0; i < stage->laid.said.document.n && !said; i++) {
            const sl_block *const block = &stage->laid.said.document.blocks[i];
            said = block->kind == SL_BLOCK_CAUTION && (int)block->caution == id;
        }
        ck_assert_msg(said, "%s", sl_caution_names[id]);
    }
    stage_pressed(stage, SDLK_SPACE);
    ck_assert(stage->open.page == SL_PAGE_START && stage->hand.refused != NULL && !stage->chosen.playing);
    stage_pressed(stage, SDLK_p);
    stage_pressed(stage, SDLK_w);
    ck_assert(stage->open.page == SL_PAGE_START && !stage->chosen.playing);
    stage_pressed(stage, SDLK_k);
    stage_pressed(stage, SDLK_ESCAPE);
    ck_assert_int_eq(stage->open.page, SL_PAGE_START);
    stage_pressed(stage, SDLK_RETURN);
    ck_assert_int_eq(stage->open.page, SL_PAGE_NONE);
    shut(stage);
}
END_TEST

START_TEST(the_question_is_asked_once_and_answered_by_one_key)
{
    sl_stage *const stage = stage_of("eight-arms.yaml");
    stage_drawn(stage);
    stage_pressed(stage, SDLK_RETURN);
    ck_assert_int_eq(stage->open.panel, SL_PANEL_GUESS);
    ck_assert_int_eq(stage->guess.n, 3);
    stage_pressed(stage, SDLK_2); /* washed only: not offered, and chosen as elsewhere */
    ck_assert(!stage->guess.told && stage->chosen.arm == 1);
    stage_pressed(stage, SDLK_7);
    ck_assert(stage->guess.told && stage->guess.said == 6 && stage->open.panel == SL_PANEL_NONE);
    char said[SL_SHOW_LINE];
    ck_assert(sl_guess_put_said(stage, said, sizeof said));
    ck_assert_ptr_nonnull(strstr(said, "7"));
    sl_guess_open(stage);
    ck_assert_int_eq(stage->open.panel, SL_PANEL_NONE);
    shut(stage);
}
END_TEST

START_TEST(the_question_goes_when_time_moves_or_it_is_skipped)
{
    sl_stage *stage = stage_of("eight-arms.yaml");
    stage_drawn(stage);
    stage_pressed(stage, SDLK_RETURN);
    stage_pressed(stage, SDLK_RIGHT);
    ck_assert_int_eq(stage->open.panel, SL_PANEL_NONE);
    shut(stage);
    stage = stage_of("eight-arms.yaml");
    stage_drawn(stage);
    stage_pressed(stage, SDLK_RETURN);
    stage_pressed(stage, SDLK_ESCAPE);
    ck_assert(stage->open.panel == SL_PANEL_NONE && !stage->guess.told);
    shut(stage);
}
END_TEST

/* A head, a person's form, a person's strands, the log of a test: none of them is a guess. */
START_TEST(nothing_is_asked_beside_a_person_or_a_log)
{
    for (int i = 0; i < 3; i++) {
        sl_stage *const stage = stage_of("eight-arms.yaml");
        stage_drawn(stage);
        stage->entered.of_person = i == 0;
        stage->logs.strands = i == 1 ? (const void *)1 : NULL;
        stage->logs.seen = i == 2 ? (const void *)1 : NULL;
        sl_guess_open(stage);
        ck_assert_int_eq(stage->open.panel, SL_PANEL_NONE);
        stage->logs = (sl_beside_logs){0};
        if (i == 0) {
            ck_assert_double_lt(sl_guess_hold_min(stage, 0.0), 0.0);
        }
        shut(stage);
    }
    small_scene small;
    small_scene_fill(&small);
    small.scene.place = SL_PLACE_HEAD;
    sl_aims_assume(&small.scene);
    sl_stage *const head = stage_made(&small.scene);
    stage_drawn(head);
    stage_pressed(head, SDLK_RETURN);
    ck_assert(head->open.panel == SL_PANEL_NONE && sl_guess_hold_min(head, 0.0) < 0.0);
    shut(head);
}
END_TEST

/* Held at the whole minute at which the first strip is half gone, and not again. */
START_TEST(time_holds_once_at_the_first_look)
{
    sl_stage *const stage = stage_of("eight-arms.yaml");
    char head[SL_SHOW_LINE] = "", below[SL_SHOW_LINE];
    stage_drawn(stage);
    stage_pressed(stage, SDLK_RETURN);
    stage_pressed(stage, SDLK_7);
    stage_pressed(stage, SDLK_p);
    ck_assert(stage->chosen.playing);
    const double hold = stage->guess.hold_min;
    ck_assert(hold >= 1.0 && fabs(hold - floor(hold)) < 1e-9);
    double before = 1.0, there = 1.0; /* least left by the model, over all strips */
    for (int arm = 0; arm < sl_stage_scene(stage)->n_arms; arm++) {
        if (sl_stage_dyed(stage, arm, stage->chosen.zone)) {
            const sl_timeline *const timeline = stage->solved.before.timeline;
            before = fmin(before, sl_left_at(timeline, arm, stage->chosen.zone, hold - 1.0));
            there = fmin(there, sl_left_at(timeline, arm, stage->chosen.zone, hold));
        }
    }
    ck_assert(before > 0.5 && there <= 0.5 + 1e-6);
    ck_assert(!sl_guess_put_look(stage, head, below, sizeof head));
    sl_stage_go(stage, hold - 0.001);
    stage->last_tick -= 20;
    stage_drawn(stage);
    ck_assert(!stage->chosen.playing && stage->guess.held);
    ck_assert_double_eq_tol(stage->chosen.now_min, hold, 1e-9);
    ck_assert(sl_guess_put_look(stage, head, below, sizeof head));
    ck_assert_ptr_nonnull(strstr(head, "7"));
    stage_pressed(stage, SDLK_p);
    ck_assert(stage->chosen.playing && stage->guess.hold_min < 0.0);
    shut(stage);
}
END_TEST

START_SUITE("first sight")
ADD(cautions_stand_beside_the_hair_until_they_were_seen)
ADD(the_question_is_asked_once_and_answered_by_one_key)
ADD(the_question_goes_when_time_moves_or_it_is_skipped)
ADD(nothing_is_asked_beside_a_person_or_a_log)
ADD(time_holds_once_at_the_first_look)
END_SUITE
