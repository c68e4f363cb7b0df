/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * When to look, when to stop, and how sure that is, of the chosen strip: the part of a page of limits that is
 * about one arm, in the same words. Indices behind the science switch. Invariant: nothing is put into words
 * here but what the window alone knows.
 */
#include <stdio.h>
#include <string.h>

#include "base/language.h"
#include "report/limits/aims_words.h"
#include "report/limits/leave_words.h"
#include "report/limits/limits.h"
#include "report/told.h"
#include "view/panels/form.h"
#include "view/panels/said.h"
#include "view/window/show.h"

enum { LINE = 256 };

/* More members to come may still change the word. */
static bool still_counting(const sl_stage *stage)
{
    const sl_answer *const answer = &stage->solved.study.answer;
    return answer->verdict != SL_VERDICT_UNKNOWN && stage->solved.study.members < SL_MEMBERS &&
           stage->solved.study.error[SL_STUDY_MEMBERS].code == SL_OK && !sl_answer_settled(answer);
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

void sl_limits_panel_say(sl_document *document, const sl_stage *stage)
{
    const sl_scene *const scene = sl_stage_story_now(stage, stage->chosen.arm)->scene;
    char awaited[2 * SL_SHOW_LINE];
    sl_put_awaited(stage, SL_STUDY_MEMBERS, stage->solved.study.members == 0 ? _("counting …") : "", awaited,
                   sizeof awaited);
    if (awaited[0] != '\0') {
        document->depth = SL_LEAD;
        sl_document_say(document, "%s", awaited);
        document->depth = SL_MORE;
    }
    if (stage->solved.study.members > 0) {
        say_arm(document, stage, scene);
    }
    sl_document_apart(document);
    sl_say_aims(document, scene, stage->entered.of_person);
    sl_limits_say_counted(document, stage->solved.study.members, SL_SEED);
    sl_say_note(document, scene);
    sl_limits_say_worth(document);
    sl_document_end(document, sl_with_reducing(scene, SL_ON_HAIR | SL_ON_LOOK | SL_ON_SWATCHES));
}

/* When to rinse at once stands before the minutes and all else: at the usual size it is seen without
 * scrolling in either language. */
void sl_say_limits(sl_document *document, const sl_stage *stage, sl_error *error)
{
    const sl_scene *const scene = sl_stage_story_now(stage, stage->chosen.arm)->scene;
    char title[LINE];
    snprintf(title, sizeof title, _("How long? Strip %d, %s"), stage->chosen.arm + 1,
             sl_arm_title(&scene->arms[stage->chosen.arm]));
    sl_document_begin(document, "limits", title, error);
    document->depth = SL_LEAD;
    sl_limits_say_signs(document);
    document->depth = SL_MORE;
    sl_limits_panel_say(document, stage);
}
