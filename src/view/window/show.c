/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Every pixel of a frame, from top to bottom; here also time and foot. Reads the stage,
 * changes only where the text of pages and panels ends.
 */
#include "view/window/show.h"

#include <stdio.h>

#include "base/language.h"
#include "document/renderers.h"
#include "slowlift/caution.h"
#include "slowlift/report.h"
#include "view/draw/widget.h"
#include "view/draw/words.h"
#include "view/panels/panel.h"
#include "view/sight/guess.h"
#include "view/strips/marks.h"
#include "view/window/views.h"

void sl_put_awaited(const sl_stage *stage, sl_study_of what, const char *meanwhile, char *text, size_t size)
{
    const sl_error *const error = &stage->solved.study.error[what];
    char sentence[SL_SHOW_LINE];
    snprintf(text, size, "%s", meanwhile);
    if (error->code != SL_OK) {
        sl_error_sentence(error, sentence, sizeof sentence);
        snprintf(text, size, _("This could not be computed: %s."), sentence);
    }
}

bool sl_put_gate(const sl_stage *stage, char *text, size_t size)
{
    const bool shut =
        stage->entered.of_person && sl_stage_on_bench(stage) && !stage->solved.study.answer.minutes;
    snprintf(text, size, "%s%s%s", shut && stage->entered.person.practice ? _(sl_practice_words()) : "",
             shut && stage->entered.person.practice ? "  " : "",
             shut ? _("About a person: no minute is marked until the form is clear and a strand counts (F).")
                  : "");
    return shut;
}

bool sl_stage_tells_time(const sl_stage *stage)
{
    return sl_stage_on_bench(stage) && !stage->entered.of_person;
}

sl_lanes_look sl_stage_lanes(const sl_stage *stage, const sl_meeting *meeting)
{
    const sl_layout *const l = &stage->laid.layout;
    const sl_answer *const answer = &stage->solved.study.answer;
    const bool looks = stage->solved.study.members > 0 && answer->minutes && sl_stage_on_bench(stage);
    return (sl_lanes_look){
        .area = {l->ruler.x, l->ruler.y + l->axis_h, l->ruler.w, l->ruler.h - l->axis_h},
        .number_w = l->number_w,
        .told = sl_stage_tells_time(stage),
        .chosen_only = l->compact,
        .scene = sl_stage_scene_now(stage),
        .lane = stage->read.lane,
        .light = &stage->look.light,
        .chosen_arm = stage->chosen.arm,
        .meeting = stage->chosen.mode == SL_SAME_COLOUR ? meeting : NULL,
        .look_min = answer->check,
        .n_looks = looks ? answer->n_checks : 0,
    };
}

/* "strip 5: contact 3:00, rinse 33:00"; of one that is left alone nothing. */
static void put_times(const sl_arm *arm, int number, char *text, size_t size)
{
    char contact[24], rinse[24];
    int water = 0;
    while (water < arm->n_steps && arm->steps[water].kind != SL_STEP_RINSE) {
        water++;
    }
    sl_put_clock(arm->contact_min, contact, sizeof contact);
    sl_put_clock(arm->contact_min + sl_arm_minutes_before(arm, water), rinse, sizeof rinse);
    text[0] = '\0';
    if (arm->n_steps > 0) {
        snprintf(text, size, _("strip %d: contact %s, rinse %s"), number, contact, rinse);
    }
}

static void show_marks(const sl_stage *stage)
{
    const sl_layout *l = &stage->laid.layout;
    const sl_scene *scene = sl_stage_story_now(stage, stage->chosen.arm)->scene;
    if (l->marks.w == 0 || !stage->solved.limits.asked || sl_guess_open_now(stage)) {
        return;
    }
    char gate[SL_SHOW_LINE];
    if (sl_put_gate(stage, gate, sizeof gate)) {
        SDL_Rect middle = l->marks;
        middle.y += (middle.h - sl_text_height(stage->text, SL_TYPE_NOTE, middle.w, gate)) / 2;
        sl_pen_wrap(&stage->pen, SL_TYPE_NOTE, SL_INK_TEXT, middle, false, gate);
        return;
    }
    if (stage->entered.person.practice) {
        sl_pen_place(&stage->pen, SL_TYPE_STRONG, SL_INK_TEXT, l->marks, SL_ALIGN_RIGHT,
                     _(sl_practice_words()));
    }
    char times[SL_SHOW_LINE];
    put_times(&scene->arms[stage->chosen.arm], stage->chosen.arm + 1, times, sizeof times);
    double label = -1.0;
    if (stage->entered.of_person || !sl_label_stop(scene, stage->chosen.arm, &label)) {
        label = -1.0;
    }
    const sl_marks_look look = {.area = l->marks,
                                .words = !l->compact,
                                .until_min = scene->until_min,
                                .contact_min = scene->arms[stage->chosen.arm].contact_min,
                                .central = !stage->entered.of_person,
                                .limits = &stage->solved.limits,
                                .answer =
                                    stage->solved.study.members > 0 ? &stage->solved.study.answer : NULL,
                                .label_min = label,
                                .members = stage->solved.study.members,
                                .times = times};
    sl_marks_draw(&stage->pen, &look);
}

/* The time, and below it its pace or the share at which strips are compared. */
static void show_clock(const sl_stage *stage)
{
    const sl_layout *const l = &stage->laid.layout;
    const bool minute = stage->chosen.mode == SL_SAME_MINUTE;
    char clock[24];
    sl_put_now(stage, clock, sizeof clock);
    const SDL_Rect upper = {l->clock.x, l->clock.y, l->clock.w, l->clock.h / 2};
    const SDL_Rect lower = {l->clock.x, l->clock.y + l->clock.h / 2, l->clock.w, l->clock.h / 2};
    sl_pen_place(&stage->pen, SL_TYPE_FIGURE, SL_INK_TEXT, upper, SL_ALIGN_LEFT, minute ? clock : _("each"));
    if (l->compact) { /* the pace stands beside its buttons */
        sl_pen_place(&stage->pen, SL_TYPE_SMALL, SL_INK_QUIET, lower, SL_ALIGN_LEFT,
                     !minute                   ? _("its own")
                     : sl_stage_of_days(stage) ? "h:min"
                                               : _("min"));
    } else {
        sl_action_draw(stage, l->step_back, SL_DO_MINUTE_BACK, 1);
        sl_action_draw(stage, l->step_on, SL_DO_MINUTE_ON, 1);
    }
}

static void show_time(const sl_stage *stage)
{
    const sl_pen *pen = &stage->pen;
    const sl_layout *l = &stage->laid.layout;
    sl_action_draw(stage, l->play, SL_DO_PLAY, 0);
    show_clock(stage);
    if (stage->chosen.mode == SL_SAME_COLOUR && !sl_stage_on_bench(stage)) {
        sl_pen_place(pen, SL_TYPE_SMALL, SL_INK_TEXT, l->ruler, SL_ALIGN_LEFT,
                     _("No time is shown here: bench minutes are never carried to a head."));
        return;
    }
    sl_meeting meeting[SL_MAX_ARMS];
    for (int arm = 0; arm < sl_stage_scene(stage)->n_arms; arm++) {
        meeting[arm] = stage->read.meeting[sl_stage_changed(stage, arm) ? 1 : 0][arm];
    }
    const sl_lanes_look lanes = sl_stage_lanes(stage, meeting);
    const sl_ruler_look look = {
        .area = l->ruler,
        .axis_h = l->axis_h,
        .until_min = sl_stage_scene(stage)->until_min,
        .now_min = stage->chosen.mode == SL_SAME_COLOUR ? -1.0 : stage->chosen.now_min,
        .lanes = &lanes,
    };
    sl_ruler_draw(pen, &look);
    show_marks(stage);
}

void sl_put_foot(const sl_stage *stage, bool brief, char *first, char *second, size_t size)
{
    char uncalibrated[SL_SHOW_LINE];
    char example[SL_SHOW_LINE];
    sl_put_sentence(_(sl_not_calibrated), uncalibrated, sizeof uncalibrated);
    sl_put_sentence(stage->example, example, sizeof example);
    const sl_caution *estimate = sl_caution_text(SL_CAUTION_ESTIMATE);
    const sl_caution *label = sl_caution_text(SL_CAUTION_LABEL);
    if (brief) {
        snprintf(first, size,
                 _("%s  %s  A classroom model.  %s  The product's label decides.  K: read both."),
                 uncalibrated, _(estimate->signal), _(label->signal));
        second[0] = '\0';
        return;
    }
    const bool above = !sl_eyes_usual(&stage->look.eyes); /* then that stands above the strips */
    snprintf(first, size, "%s%s%s", example, above ? "" : " ", above ? "" : uncalibrated);
    snprintf(second, size, _("%s  %s  %s  %s  In full: K."), _(estimate->signal),
             sl_caution_short(SL_CAUTION_ESTIMATE), _(label->signal), sl_caution_short(SL_CAUTION_LABEL));
}

static void show_foot(const sl_stage *stage)
{
    const SDL_Rect area = stage->laid.layout.foot;
    char first[2 * SL_SHOW_LINE];
    char second[2 * SL_SHOW_LINE];
    sl_put_foot(stage, stage->laid.layout.compact, first, second, sizeof first);
    sl_pen_fill(&stage->pen, (SDL_Rect){area.x, area.y - sl_pen_px(&stage->pen, 4.0), area.w, 1},
                SL_MARK_GRID);
    const int used = sl_pen_wrap(&stage->pen, SL_TYPE_NOTE, SL_INK_TEXT, area, false, first);
    const SDL_Rect below = {area.x, area.y + used, area.w, area.h - used};
    sl_pen_wrap(&stage->pen, SL_TYPE_NOTE, SL_INK_TEXT, below, false, second);
}

static void show_focus(const sl_stage *stage)
{
    const int room = sl_pen_px(&stage->pen, 4.0); /* the ring stays inside what it marks */
    for (int i = 0; i < stage->laid.n_spots && stage->hand.focus_seen; i++) {
        const sl_stage_spot *spot = &stage->laid.spots[i];
        if (spot->kind == stage->hand.focus && spot->number == stage->hand.focus_number) {
            sl_pen_focus(&stage->pen, sl_rect_inset(spot->area, room));
        }
    }
}

int sl_strips_show(const sl_stage *stage)
{
    sl_show_sentences(stage);
    sl_show_shown(stage);
    sl_show_buttons(stage);
    sl_show_pace(stage);
    sl_show_gutter(stage);
    sl_show_field(stage);
    sl_show_figures(stage);
    show_time(stage);
    show_foot(stage);
    return 0;
}

bool sl_stage_show(sl_stage *stage, sl_error *error)
{
    SDL_Surface *sheet = stage->pen.sheet;
    const sl_stage_page page = stage->open.page;
    const sl_view_row *const panel = &sl_panel_rows[stage->open.panel];
    sl_pen_fill(&stage->pen, (SDL_Rect){0, 0, sheet->w, sheet->h}, SL_GROUND_FRAME);
    const int spare = sl_page_rows[page].show(stage);
    if (page != SL_PAGE_NONE) {
        stage->open.scroll_most[0] = spare;
    } else if (panel->show != NULL) {
        stage->open.scroll_most[1] = panel->show(stage);
    }
    show_focus(stage);
    if (SDL_UpdateWindowSurface(stage->window) != 0) {
        return sl_fail(error, SL_ERR_MISSING_PART, SDL_GetError(), "the window cannot be drawn to");
    }
    return true;
}
