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
    memcpy(q.change, stage->solved.change, sizeof q.change);
    q.arm = stage->chosen.arm;
    memcpy(&q.observations, &stage->entered.observations, sizeof q.observations);
    q.of_person = stage->entered.of_person;
    memcpy(&q.person, &stage->entered.person, sizeof q.person);
    q.strand = stage->entered.strand;
    q.rank = stage->open.page == SL_PAGE_RANK;
    q.minute = q.rank ? sl_rank_minute(stage) : 0.0;
    q.share = q.rank ? stage->chosen.share : 0.0;
    q.map = stage->open.page == SL_PAGE_MAP &&
            sl_setting_applies(sl_stage_scene(stage), stage->chosen.arm, SL_SETTING_DWELL);
    q.axes = q.map ? stage->chosen.axes : 0;
    q.answers = stage->open.page == SL_PAGE_ANSWER;
    q.same_zone = q.answers ? sl_answers_same_zone(stage) : 0;
    return q;
}

static void ask(sl_stage *stage, const sl_stage_question *q)
{
    sl_study_wish wish = {.arm = q->arm,
                          .rank = q->rank,
                          .minute = q->minute,
                          .share = q->share,
                          .map = q->map,
                          .answers = q->answers,
                          .same_zone = q->same_zone};
    sl_error error = {.code = SL_OK};
    memcpy(&stage->solved.asked, q, sizeof *q);
    wish.observations = q->observations;
    wish.of_person = q->of_person;
    wish.person = q->person;
    sl_map_axes(stage, &wish.x, &wish.y);
    sl_story story = {0};
    if (sl_story_change(&story, sl_stage_scene(stage), q->change, &error)) {
        wish.scene = story.scene;
        wish.mixes = story.mixes;
        for (int arm = 0; arm < wish.scene->n_arms; arm++) {
            wish.strand[arm] = sl_form_strand(stage, wish.scene, arm);
        }
        for (int i = 0; i < wish.person.showed.n && q->strand > 0; i++) {
            wish.person.showed.observation[i].arm =
                q->arm; /* its mix decides, not the strip it was chosen on */
        }
        sl_study_thread_ask(stage->solved.study_thread, &wish);
    } else {
        stage->solved.trouble = error;
        for (int i = 0; i < SL_STUDIES; i++) {
            stage->solved.study.error[i] = error;
        }
    }
}

/* While a knob moves the marks keep what was last found, so that they slide and do not blink;
 * another strip's are dropped. */
static void forget(sl_stage *stage, const sl_stage_question *q)
{
    stage->solved.found++;
    if (q->arm != stage->solved.asked.arm || q->of_person != stage->solved.asked.of_person ||
        q->strand != stage->solved.asked.strand ||
        memcmp(&q->person, &stage->solved.asked.person, sizeof q->person) != 0) {
        sl_study_free(&stage->solved.study);
    } else if (q->answers) {
        sl_study_answers_free(
            stage->solved.study.answers); /* a page of other settings would be taken for theirs */
        stage->solved.study.answers = NULL;
    } else if (q->map && q->axes != stage->solved.asked.axes) {
        sl_map_free(stage->solved.study.map);
        stage->solved.study.map = NULL;
    }
}

void sl_stage_wonder(sl_stage *stage)
{
    const sl_stage_question q = question_of(stage);
    if (memcmp(&q, &stage->solved.asked, sizeof q) != 0) {
        forget(stage, &q);
        ask(stage, &q);
    }
    sl_study_thread_work(stage->solved.study_thread);
    if (sl_study_thread_take(stage->solved.study_thread, &stage->solved.study)) {
        stage->solved.found++;
        stage->dirty = true;
    }
}
