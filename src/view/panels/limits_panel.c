/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * When to look, when to stop, and how sure that is, of the chosen strip: the part of a page of limits that is
 * about one arm, in the same words. Indices behind the science switch. Invariant: nothing is put into words
 * here but what the window alone knows.
 */
#include <stdio.h>
#include <string.h>

#include "base/language.h"
#include "report/limits/leave_words.h"
#include "report/limits/limits.h"
#include "view/panels/form.h"
#include "view/panels/panel.h"
#include "view/window/action.h"

enum { LINE = 256 };

/* ---- what it says ------------------------------------------------------------------------ */

/* More members to come may still change the word. */
static bool still_counting(const sl_stage *stage)
{
    const sl_answer *const answer = &stage->solved.study.answer;
    return answer->verdict != SL_VERDICT_UNKNOWN && stage->solved.study.members < SL_MEMBERS &&
           !sl_answer_settled(answer);
}

static void person_of(const sl_stage *stage, const sl_scene *scene, sl_person *person)
{
    memset(person, 0, sizeof *person);
    person->form = &stage->entered.person;
    person->strand[stage->chosen.arm] = sl_form_strand(stage, scene, stage->chosen.arm);
}

static void say_arm(sl_document *document, const sl_stage *stage, const sl_scene *scene)
{
    const sl_study *const study = &stage->solved.study;
    const bool unknown = study->answer.verdict == SL_VERDICT_UNKNOWN;
    sl_person person;
    person_of(stage, scene, &person);
    if (unknown && stage->entered.of_person) {
        sl_limits_say_person(document, &person);
    }
    sl_limits_say_arm(document, &(sl_limits_arm){.scene = scene,
                                                 .arm = stage->chosen.arm,
                                                 .answer = &study->answer,
                                                 .limits = &stage->solved.limits,
                                                 .plan = &study->plan,
                                                 .index = study->index,
                                                 .seen = &stage->entered.observations,
                                                 .person = stage->entered.of_person ? &person : NULL,
                                                 .members = study->members,
                                                 .counting = still_counting(stage)});
}

/* When to rinse at once stands before the minutes and all else: at the usual size it is seen without
 * scrolling in either language. */
static void say(sl_document *document, const sl_stage *stage, sl_error *error)
{
    const sl_scene *const scene = sl_stage_story_now(stage, stage->chosen.arm)->scene;
    char title[LINE];
    snprintf(title, sizeof title, _("How long? Strip %d, %s"), stage->chosen.arm + 1,
             sl_arm_title(&scene->arms[stage->chosen.arm]));
    sl_document_begin(document, "limits", title, error);
    sl_limits_say_signs(document);
    if (stage->solved.study.members == 0) {
        document->depth = SL_LEAD;
        sl_document_say(document, "%s", _("counting …"));
        document->depth = SL_MORE;
    } else {
        say_arm(document, stage, scene);
    }
    sl_document_apart(document);
    sl_limits_say_aims(document, scene);
    sl_limits_say_counted(document, stage->solved.study.members, SL_SEED);
    sl_say_note(document, scene);
    sl_limits_say_worth(document);
    sl_document_end(document, SL_ON_HAIR | SL_ON_LOOK | SL_ON_SWATCHES);
}

/* What it is made of, as a number. */
static uint64_t reads(const sl_stage *stage)
{
    const sl_study *const study = &stage->solved.study;
    const sl_scene *const scene = sl_stage_story_now(stage, stage->chosen.arm)->scene;
    const sl_language_id language = sl_language_in_use();
    uint64_t number = sl_leaf_number(0, &study->members, sizeof study->members);
    number = sl_leaf_number(number, &study->answer, sizeof study->answer);
    number = sl_leaf_number(number, study->index, sizeof study->index);
    number = sl_leaf_number(number, &stage->solved.limits, sizeof stage->solved.limits);
    number = sl_leaf_number(number, &stage->entered, sizeof stage->entered);
    number = sl_leaf_number(number, &stage->chosen.arm, sizeof stage->chosen.arm);
    number = sl_leaf_number(number, &scene, sizeof scene);
    number = sl_leaf_number(number, &scene->aims, sizeof scene->aims);
    return sl_leaf_number(number, &language, sizeof language);
}

void sl_limits_follow(sl_stage *stage)
{
    sl_leaf *const leaf = &stage->laid.limits;
    const int width = stage->laid.layout.panel.w - 2 * sl_pen_px(&stage->pen, 10.0);
    const sl_depth depth = stage->open.panel == SL_PANEL_BOWL ? SL_LEAD
                           : stage->open.curves               ? SL_SCIENCE
                                                              : SL_MORE;
    sl_document *const document = sl_leaf_renew(leaf, reads(stage));
    if (document != NULL) {
        say(document, stage, &leaf->error);
    }
    sl_leaf_lay(leaf, &stage->pen, width, depth);
}

int sl_limits_brief(const sl_stage *stage, SDL_Rect area)
{
    sl_leaf_draw(&stage->laid.limits, &stage->pen, area.x, area.y);
    area.y += sl_leaf_height(&stage->laid.limits);
    return area.y + sl_pen_wrap(&stage->pen, SL_TYPE_SMALL, SL_INK_TEXT, area, false,
                                _("A classroom example: the cotton decides, not the model."));
}

/* ---- places -------------------------------------------------------------------------------- */

/* What goes with it, in a row at the panel's foot. */
static const sl_action_id beside[] = {SL_DO_RANK, SL_DO_MAP, SL_DO_BOWL, SL_DO_FORM};
enum { BUTTONS = sizeof beside / sizeof beside[0] };

SDL_Rect sl_limits_control(const sl_stage *stage, sl_action_id action, int which)
{
    (void)which;
    const SDL_Rect panel = stage->laid.layout.panel;
    const int pad = sl_pen_px(&stage->pen, 6.0);
    const int step = (panel.w - pad) / BUTTONS;
    const int target = stage->laid.layout.target;
    int i = 0;
    while (i + 1 < BUTTONS && beside[i] != action) {
        i++;
    }
    return (SDL_Rect){panel.x + pad + i * step, panel.y + panel.h - pad - target, step - pad, target};
}

static void show_buttons(const sl_stage *stage)
{
    for (int i = 0; i < BUTTONS; i++) {
        sl_action_draw(stage, sl_limits_control(stage, beside[i], 0), beside[i], 0);
    }
}

int sl_limits_panel_show(const sl_stage *stage)
{
    const sl_pen *pen = &stage->pen;
    const SDL_Rect panel = stage->laid.layout.panel;
    const int pad = sl_pen_px(pen, 10.0);
    sl_pen_fill(pen, panel, SL_GROUND_SHEET);
    sl_pen_frame(pen, panel, 1, SL_MARK_GRID);
    const int foot = panel.y + panel.h - sl_limits_control(stage, beside[0], 0).y + sl_pen_px(pen, 4.0);
    const SDL_Rect view = {panel.x, panel.y + 1, panel.w, panel.h - foot - 1};
    SDL_SetClipRect(pen->sheet, &view);
    sl_leaf_draw(&stage->laid.limits, pen, panel.x + pad, panel.y + pad / 2 - stage->open.scroll[1]);
    SDL_SetClipRect(pen->sheet, NULL);
    show_buttons(stage);
    return pad / 2 + sl_leaf_height(&stage->laid.limits) + pad + foot - panel.h;
}
