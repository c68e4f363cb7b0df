/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What the study is asked, and taking what it found. A question that is the newest one already
 * is not asked again.
 */
#include <string.h>

#include "base/memory.h"
#include "view/panels/form.h"
#include "view/panels/turn.h"

static sl_stage_question question_of(const sl_stage *stage)
{
    sl_stage_question q;
    memset(&q, 0, sizeof q); /* compared byte by byte */
    q.any = true;
    q.change = stage->change;
    q.arm = stage->arm;
    memcpy(&q.observations, &stage->observations, sizeof q.observations);
    q.of_person = stage->of_person;
    memcpy(&q.person, &stage->person, sizeof q.person);
    q.strand = stage->strand;
    q.rank = stage->page == SL_PAGE_RANK;
    q.minute = q.rank ? sl_rank_minute(stage) : 0.0;
    q.share = q.rank ? stage->share : 0.0;
    q.map =
        stage->page == SL_PAGE_MAP && sl_setting_applies(sl_stage_scene(stage), stage->arm, SL_SETTING_DWELL);
    q.axes = q.map ? stage->axes : 0;
    return q;
}

static void ask(sl_stage *stage, const sl_stage_question *q)
{
    sl_study_wish wish = {
        .arm = q->arm, .rank = q->rank, .minute = q->minute, .share = q->share, .map = q->map};
    sl_error error = {.code = SL_OK};
    memcpy(&stage->asked, q, sizeof *q);
    wish.observations = q->observations;
    wish.of_person = q->of_person;
    wish.person = q->person;
    sl_map_axes(stage, &wish.x, &wish.y);
    wish.scene = sl_change_scene(&q->change, sl_stage_scene(stage), &wish.mixes, &error);
    if (wish.scene != NULL) {
        wish.strand = sl_form_strand(stage, wish.scene, q->arm);
        for (int i = 0; i < wish.person.showed.n && q->strand > 0; i++) {
            wish.person.showed.observation[i].arm =
                q->arm; /* its mix decides, not the strip it was chosen on */
        }
        sl_study_thread_ask(stage->study_thread, &wish);
    } else {
        stage->trouble = error;
    }
}

/* While a knob moves the marks keep what was last found, so that they slide and do not blink;
 * another strip's are dropped. */
static void forget(sl_stage *stage, const sl_stage_question *q)
{
    if (q->arm != stage->asked.arm || q->of_person != stage->asked.of_person ||
        q->strand != stage->asked.strand || memcmp(&q->person, &stage->asked.person, sizeof q->person) != 0) {
        sl_study_free(&stage->study);
    } else if (q->map && q->axes != stage->asked.axes) {
        sl_map_free(stage->study.map);
        stage->study.map = NULL;
    }
}

void sl_stage_wonder(sl_stage *stage)
{
    const sl_stage_question q = question_of(stage);
    if (memcmp(&q, &stage->asked, sizeof q) != 0) {
        forget(stage, &q);
        ask(stage, &q);
    }
    if (sl_study_thread_take(stage->study_thread, &stage->study)) {
        stage->dirty = true;
    }
}
