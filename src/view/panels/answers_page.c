/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Which mix, how long, what it costs the hair, how sure: all strips on one page, as `slowlift answer` tells
 * it, with what was seen at the bowl and what the form says of a person.
 */
#include "base/language.h"
#include "report/answer/answer_page.h"
#include "view/panels/said.h"
#include "view/window/show.h"

void sl_say_answers(sl_document *document, const sl_stage *stage, sl_error *error)
{
    const sl_study_answers *const found = stage->solved.study.answers;
    if (found == NULL) {
        char text[2 * SL_SHOW_LINE];
        sl_put_awaited(stage, SL_STUDY_ANSWERS, _("counting …"), text, sizeof text);
        sl_say_only(document, "answer", text, error);
        return;
    }
    const sl_scene *const scene = found->answers.scene;
    const bool asked = sl_zone_direct(scene, stage->chosen.zone);
    const sl_answer_page page = {.answers = &found->answers,
                                 .rinse = found->rinse,
                                 .zone = asked ? stage->chosen.zone
                                               : sl_answer_telling_zone(&found->answers, found->rinse),
                                 .only = -1,
                                 .zone_asked = asked,
                                 .science = true};
    sl_answer_say(document, &page, error);
}
