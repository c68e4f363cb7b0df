/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See views.h.
 */
#include "view/window/views.h"

#include <string.h>

#include "base/language.h"
#include "view/panels/bowl.h"
#include "view/panels/form.h"
#include "view/panels/new_page.h"
#include "view/panels/panel.h"
#include "view/panels/said.h"
#include "view/panels/turn.h"
#include "view/sight/guess.h"
#include "view/window/trace.h"

/* ---- the strips ----------------------------------------------------------------------------- */

static const sl_action_id all_of_bar[SL_MOST_BUTTONS] = {
    SL_DO_ANSWER, SL_DO_MODE,    SL_DO_WHAT_IF, SL_DO_LIMITS,   SL_DO_BESIDE,   SL_DO_SEEN,
    SL_DO_NEW,    SL_DO_SHOW_AS, SL_DO_SCIENCE, SL_DO_GLOSSARY, SL_DO_CAUTIONS, SL_DO_HELP};

int sl_view_bar(const sl_stage *stage, sl_action_id bar[SL_MOST_BUTTONS])
{
    int n = 0;
    for (int i = 0; i < SL_MOST_BUTTONS; i++) {
        if (all_of_bar[i] == SL_DO_NEW &&
            stage->home) { /* new tests begin on the start page, which comes first */
            memmove(bar + 1, bar, (size_t)n++ * sizeof bar[0]);
            bar[0] = SL_DO_HOME;
        } else if (all_of_bar[i] != SL_DO_SEEN || stage->logs.seen != NULL) {
            bar[n++] = all_of_bar[i];
        }
    }
    return n;
}

static SDL_Rect place_of_strip(const sl_stage *stage, int arm)
{
    const sl_layout *const l = &stage->laid.layout;
    const int shown = arm - l->first;
    return shown >= 0 && shown < l->n_shown ? l->column[shown] : (SDL_Rect){0};
}

static SDL_Rect place_of_zone(const sl_stage *stage, int zone)
{
    const sl_layout *const l = &stage->laid.layout;
    const SDL_Rect hair = {l->gutter.x, l->strip[0].y, l->gutter.w, l->strip[0].h};
    return sl_layout_zone(&hair, sl_stage_scene(stage)->n_zones, zone);
}

static SDL_Rect place_on_strips(const sl_stage *stage, sl_action_id action, int which)
{
    const sl_layout *const l = &stage->laid.layout;
    return action == SL_DO_LESS          ? l->less
           : action == SL_DO_MORE        ? l->more
           : action == SL_DO_BACK        ? l->back
           : action == SL_DO_ON          ? l->on
           : action == SL_DO_STRIP       ? place_of_strip(stage, which)
           : action == SL_DO_ZONE        ? place_of_zone(stage, which)
           : action == SL_DO_MINUTE_BACK ? (which == 1 ? l->step_back : (SDL_Rect){0})
           : action == SL_DO_MINUTE_ON   ? (which == 1 ? l->step_on : (SDL_Rect){0})
           : action == SL_DO_PLAY        ? l->play
                                         : l->ruler;
}

/* ---- pages of text ------------------------------------------------------------------------------ */

#define PAGE_OF_TEXT .control = {{SL_DO_CLOSE}}, .place = sl_page_place, .show = sl_page_show

#define PAGE_WITH_TURNS                                                                                      \
    .control = {{SL_DO_TURN_BACK, SL_DO_TURN_ON}, {SL_DO_CLOSE}}, .place = sl_turn_control,                  \
    .follow = sl_said_follow, .room = sl_turn_room, .show = sl_turn_page_show, .tell = sl_tell_turns

#define PANEL_THAT_SAYS                                                                                      \
    .place = sl_said_control, .follow = sl_said_follow, .show = sl_said_show, .room = sl_said_room

/* ---- the rows ------------------------------------------------------------------------------------ */

/* Of the strips: what stands above them and they, then the panel's, then these. */
static const sl_action_id below_strips[] = {SL_DO_PLAY, SL_DO_RULER, SL_DO_NONE};

const sl_view_row sl_page_rows[SL_STAGE_PAGES] = {
    [SL_PAGE_NONE] = {.word = "none",
                      .control = {{SL_DO_LESS},
                                  {SL_DO_MORE},
                                  {SL_DO_BACK},
                                  {SL_DO_ON},
                                  {SL_DO_STRIP},
                                  {SL_DO_ZONE},
                                  {SL_DO_MINUTE_BACK},
                                  {SL_DO_MINUTE_ON}},
                      .place = place_on_strips,
                      .show = sl_strips_show},
    [SL_PAGE_START] = {.word = "start",
                       .control = {{SL_DO_CLOSE}},
                       .place = sl_plate_control,
                       .follow = sl_said_follow,
                       .say = sl_say_plate,
                       .room = sl_plate_room,
                       .show = sl_plate_show},
    [SL_PAGE_CAUTIONS] = {.word = "cautions", .title = N_("All cautions"), PAGE_OF_TEXT},
    [SL_PAGE_GLOSSARY] = {.word = "glossary", .title = N_("Words"), PAGE_OF_TEXT},
    [SL_PAGE_HELP] = {.word = "help", .title = N_("Keys"), PAGE_OF_TEXT},
    [SL_PAGE_BESIDE] = {.word = "beside",
                        .control = {{SL_DO_SIDE, SL_DO_SIDE_ARM_BACK, SL_DO_SIDE_ARM_ON, SL_DO_SIDE_ZONE_BACK,
                                     SL_DO_SIDE_ZONE_ON},
                                    {SL_DO_SCIENCE},
                                    {SL_DO_CLOSE}},
                        .place = sl_beside_control,
                        .say = sl_say_beside,
                        .reads = sl_beside_reads,
                        .room = sl_beside_room,
                        .show = sl_beside_show,
                        .tell = sl_tell_beside},
    [SL_PAGE_ANSWER] = {.word = "answer", PAGE_WITH_TURNS, .say = sl_say_answers},
    [SL_PAGE_RANK] = {.word = "rank", PAGE_WITH_TURNS, .say = sl_say_rank},
    [SL_PAGE_MAP] = {.word = "map", PAGE_WITH_TURNS, .say = sl_say_map},
    [SL_PAGE_FORM] = {.word = "form",
                      .control = {{SL_DO_FORM_BACK, SL_DO_FORM_ON, SL_DO_FORM_YES, SL_DO_FORM_NO,
                                   SL_DO_FORM_UNSURE},
                                  {SL_DO_FORGET},
                                  {SL_DO_CLOSE}},
                      .place = sl_form_control,
                      .follow = sl_form_follow,
                      .say = sl_say_form,
                      .room = sl_form_room,
                      .show = sl_form_show,
                      .tell = sl_tell_form},
    [SL_PAGE_SEEN] = {.word = "seen", PAGE_WITH_TURNS, .say = sl_say_seen},
    [SL_PAGE_NEW] =
        {.word = "new",
         .control = {{SL_DO_NEW_FIELD}, {SL_DO_NEW_WORD}, {SL_DO_NEW_WRITE}, {SL_DO_NEW_OPEN}, {SL_DO_CLOSE}},
         .place = sl_new_control,
         .follow = sl_new_follow,
         .say = sl_say_new,
         .reads = sl_new_reads,
         .room = sl_new_room,
         .show = sl_new_show,
         .tell = sl_tell_new},
};

const sl_view_row sl_panel_rows[SL_PANELS] = {
    [SL_PANEL_NONE] = {.word = "none"},
    [SL_PANEL_GUESS] = {.word = "guess",
                        .control = {{SL_DO_GUESS}, {SL_DO_GUESS_SKIP}},
                        .place = sl_guess_control,
                        .show = sl_guess_show},
    [SL_PANEL_WHAT_IF] = {.word = "what-if",
                          .control = {{SL_DO_UNDO},
                                      {SL_DO_RESET},
                                      {SL_DO_KNOB, SL_DO_KNOB_LESS, SL_DO_KNOB_MORE}},
                          .place = sl_what_if_control,
                          .follow = sl_what_if_follow,
                          .show = sl_what_if_show},
    [SL_PANEL_SHOW_AS] = {.word = "show-as",
                          .control = {{SL_DO_THEME},
                                      {SL_DO_VISION},
                                      {SL_DO_LOOK},
                                      {SL_DO_WIPE},
                                      {SL_DO_LIGHT},
                                      {SL_DO_TEXT_SIZE}},
                          .say = sl_say_show_as,
                          .reads = sl_show_as_reads,
                          PANEL_THAT_SAYS},
#define SAYS(NAME, name, CONTROLS, READS, ...)                                                               \
    [SL_PANEL_##                                                                                             \
        NAME] = {.word = #name, .control = CONTROLS, .reads = READS, .say = sl_say_##name, PANEL_THAT_SAYS},
    SL_SAYING_PANELS(SAYS)
#undef SAYS
        [SL_PANEL_BOWL] = {.word = "bowl",
                           .control = {{SL_DO_GRADE}, {SL_DO_FORGET}},
                           .place = sl_bowl_control,
                           .follow = sl_said_follow,
                           .say = sl_say_bowl,
                           .reads = sl_bowl_reads,
                           .room = sl_bowl_room,
                           .brief = true,
                           .show = sl_bowl_show},
};

/* ---- places -------------------------------------------------------------------------------------- */

static void add(sl_stage *stage, sl_action_id action, int which, SDL_Rect area)
{
    if (area.w > 0 && area.h > 0 && stage->laid.n_spots < SL_MOST_SPOTS) {
        stage->laid.spots[stage->laid.n_spots++] =
            (sl_stage_spot){action, which, area, !sl_action_rows[action].passed_over};
    }
}

static void add_controls(sl_stage *stage, const sl_view_row *row)
{
    for (int group = 0; group < SL_MOST_GROUPS && row->control[group][0] != SL_DO_NONE; group++) {
        const sl_action_id *const action = row->control[group];
        for (int which = 0; which < sl_action_count(stage, action[0]); which++) {
            for (int i = 0; i < SL_MOST_GROUPED && action[i] != SL_DO_NONE; i++) {
                add(stage, action[i], which, row->place(stage, action[i], which));
            }
        }
    }
}

void sl_view_place(sl_stage *stage)
{
    const sl_view_row *const page = &sl_page_rows[stage->open.page];
    const sl_view_row *const panel = &sl_panel_rows[stage->open.panel];
    const bool strips = stage->open.page == SL_PAGE_NONE;
    const sl_view_row *const follows = strips ? panel : page;
    sl_action_id bar[SL_MOST_BUTTONS];
    stage->laid.n_spots = 0;
    if (follows->follow != NULL) {
        follows->follow(stage);
    }
    for (int i = 0, n = strips ? sl_view_bar(stage, bar) : 0; i < n; i++) {
        add(stage, bar[i], 0, stage->laid.layout.button[i]);
    }
    add_controls(stage, page);
    if (strips) {
        add_controls(stage, panel);
        for (int i = 0; below_strips[i] != SL_DO_NONE; i++) {
            add(stage, below_strips[i], 0, page->place(stage, below_strips[i], 0));
        }
    }
}
