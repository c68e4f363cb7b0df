/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * When to look, when to stop, and how sure that is, of the chosen strip: a word, twenty dots,
 * whole minutes in ranges, checks, stop signs. Indices behind the science switch. Invariant:
 * minutes are written only while the answer holds them.
 */
#include <stdio.h>
#include <string.h>

#include "base/append.h"
#include "base/language.h"
#include "base/minute.h"
#include "document/text.h"
#include "report/limits/aims_words.h"
#include "report/limits/limits.h"
#include "view/draw/words.h"
#include "view/panels/form.h"
#include "view/panels/panel.h"
#include "view/window/action.h"

enum { LINE = 640 };

typedef struct page {
    const sl_stage *stage;
    const sl_pen *pen;
    const sl_scene *scene; /* as the knobs say */
    int x, y, w;
} page;

static void words(page *p, sl_type type, const char *text)
{
    p->y += sl_pen_wrap(p->pen, type, SL_INK_TEXT, (SDL_Rect){p->x, p->y, p->w, 0}, false, text);
}

/* A word of its own at the left, what it says beside it. */
static void row(page *p, const char *name, const char *text)
{
    const int names = sl_pen_px(p->pen, 52.0);
    const SDL_Rect area = {p->x + names, p->y, p->w - names, 0};
    sl_pen_write(p->pen, SL_TYPE_SMALL, SL_INK_QUIET, p->x, p->y, SL_ALIGN_LEFT, name);
    p->y += sl_pen_wrap(p->pen, SL_TYPE_SMALL, SL_INK_TEXT, area, false, text) + sl_pen_px(p->pen, 3.0);
}

static void gap(page *p, double units)
{
    p->y += sl_pen_px(p->pen, units);
}

/* ---- the answer -------------------------------------------------------------------------- */

/* Full and empty, so that they can be counted without colour. */
static void show_dots(page *p, int dots)
{
    const int step = p->w / SL_DOTS;
    const int side = SDL_min(step - sl_pen_px(p->pen, 3.0), sl_pen_px(p->pen, 11.0));
    for (int i = 0; i < SL_DOTS; i++) {
        const SDL_Rect dot = {p->x + i * step, p->y, side, side};
        if (i < dots) {
            sl_pen_fill(p->pen, dot, SL_MARK_CONTROL);
        } else {
            sl_pen_frame(p->pen, dot, sl_pen_px(p->pen, 1.25), SL_MARK_CONTROL);
        }
    }
    p->y += side + sl_pen_px(p->pen, 3.0);
}

static void show_odds(page *p, const sl_answer *answer)
{
    char text[LINE];
    if (answer->odds < 0.0) {
        return;
    }
    show_dots(p, answer->dots);
    snprintf(text, sizeof text, _("In %d of %d model runs the goal comes first."), answer->dots, SL_DOTS);
    words(p, SL_TYPE_SMALL, text);
    gap(p, 6.0);
}

/* How many of the model runs fit what was seen. */
static void show_agreement(page *p, const sl_answer *answer)
{
    char text[LINE];
    if (answer->seen_min > 0.0) {
        snprintf(text, sizeof text,
                 _("%ld of %ld model runs agree with all that was seen; they count the more."), answer->agree,
                 p->stage->solved.study.members);
        row(p, _("seen"), text);
    }
}

static void show_minutes(page *p, const sl_answer *answer)
{
    char text[LINE];
    sl_answer_goal_words(p->scene, answer, text, sizeof text);
    row(p, _("goal"), text);
    sl_answer_stop_words(p->scene, p->stage->chosen.arm, answer, &p->stage->solved.limits, text, sizeof text);
    row(p, _("stop"), text);
}

static void show_left(page *p, const sl_answer *answer)
{
    const sl_limits *limits = &p->stage->solved.limits;
    char text[LINE];
    if (answer->odds < 0.0 || !limits->asked) {
        return;
    }
    if (answer->left_p50_percent >= 0) {
        sl_answer_left_words(p->scene, answer, limits, text, sizeof text);
        row(p, _("left"), text);
    }
    if (sl_answer_comes_to_the_stop(answer, limits)) {
        sl_answer_base_words(limits, text, sizeof text);
        row(p, _("level"), text);
    }
}

static void show_waiting(page *p, double last_min)
{
    char text[LINE];
    for (int reason = 0; reason < 2; reason++) {
        if (sl_answer_waiting_words(&p->stage->solved.limits, last_min, reason, text, sizeof text)) {
            row(p, _("waiting"), text);
        }
    }
}

/* "2 min, then every 5 min": all of them where they are few or not that even. */
static void put_looks(const sl_answer *answer, char *text, size_t size)
{
    enum { FEW = 3 };
    const int step = answer->n_looks > 1 ? answer->look[1] - answer->look[0] : 0;
    bool even = answer->n_looks > FEW;
    for (int i = 1; i < answer->n_looks; i++) {
        even = even && answer->look[i] - answer->look[i - 1] == step;
    }
    if (even) {
        sl_minute_words(SL_MINUTE_PLANNED, text, size, _("%d min, then every %d min"), answer->look[0], step);
    } else {
        sl_minutes_words(SL_MINUTE_PLANNED, answer->look, answer->n_looks, text, size);
    }
}

static void show_looks(page *p, const sl_answer *answer)
{
    char minutes[LINE / 2];
    char text[LINE];
    sl_answer_checks_words(answer, text, sizeof text);
    row(p, _("check"), text);
    put_looks(answer, minutes, sizeof minutes);
    snprintf(text, sizeof text, _("skin, heat and stretch, whatever the colour does: %s"), minutes);
    row(p, _("look"), text);
}

static void show_measure(page *p, const sl_answer *answer)
{
    char text[LINE];
    if (answer->measure < 0) {
        return;
    }
    const sl_drawn *drawn = &p->stage->solved.study.plan.drawn[answer->measure];
    const bool dye = drawn->doubt == SL_DOUBT_DYE;
    snprintf(text, sizeof text, "%s%s%s", _(sl_doubt_measure(drawn->doubt)), dye ? ": " : "",
             dye ? p->scene->dyes[drawn->dye].name : "");
    row(p, _("next"), text);
}

/* ---- around it ----------------------------------------------------------------------------- */

static void show_science(page *p, const sl_answer *answer)
{
    const sl_study *study = &p->stage->solved.study;
    char text[LINE];
    gap(p, 4.0);
    snprintf(text, sizeof text,
             _("Odds %.3f of %ld runs. Share of the variance of stop less goal, first order:"), answer->odds,
             study->members);
    words(p, SL_TYPE_SMALL, text);
    for (int d = 0; d < study->plan.n; d++) {
        const sl_drawn *drawn = &study->plan.drawn[d];
        char number[16];
        snprintf(number, sizeof number, "%.3f", study->index[d]);
        snprintf(text, sizeof text, "%s%s%s", _(sl_doubt_word(drawn->doubt)),
                 drawn->doubt == SL_DOUBT_DYE ? ": " : "",
                 drawn->doubt == SL_DOUBT_DYE ? p->scene->dyes[drawn->dye].name : "");
        row(p, number, text);
    }
}

static void add_share(char *text, size_t size, const char *before, sl_bound bound)
{
    char percent[16];
    if (bound.set) {
        sl_put_share(bound.most, percent, sizeof percent);
        sl_append(text, size, "%s %s", before, percent);
    }
}

static void show_aims(page *p)
{
    const sl_aims *aims = &p->scene->aims;
    char text[LINE] = "";
    sl_goal_words(p->scene, text, sizeof text);
    add_share(text, sizeof text, _("; base moved"), aims->base_moved);
    add_share(text, sizeof text, _("; hair stress"), aims->cystine_lost);
    row(p, _("set"), text);
}

/* Before the minutes and all else: at the usual size they are seen without scrolling in either language. */
static void show_signs(page *p)
{
    gap(p, 2.0);
    words(p, SL_TYPE_SMALL,
          _("Rinse at once, whatever the minute: skin that stings or burns; warmth, fizz, smoke or an odd "
            "smell; "
            "hair that stays long, feels like gum or snaps."));
    gap(p, 4.0);
}

static void show_foot(page *p)
{
    char text[LINE];
    char example[LINE / 2];
    show_aims(p);
    sl_put_sentence(p->stage->example, example, sizeof example);
    snprintf(text, sizeof text,
             _("%s  %ld model runs so far, each with numbers drawn as widely as their grades are weak; "
               "ranges leave "
               "out the lowest and the highest tenth. The odds are the model’s, nobody’s chances."),
             example, p->stage->solved.study.members);
    words(p, SL_TYPE_SMALL, text);
}

static void show_practice(page *p)
{
    if (p->stage->entered.person.practice) {
        words(p, SL_TYPE_STRONG, _(sl_practice_words()));
    }
}

/* More members to come may still change the word. */
static bool still_counting(const sl_stage *stage)
{
    const sl_answer *const answer = &stage->solved.study.answer;
    return answer->verdict != SL_VERDICT_UNKNOWN && stage->solved.study.members < SL_MEMBERS &&
           !sl_answer_settled(answer);
}

static const char *verdict_now(const sl_stage *stage)
{
    return still_counting(stage) ? _("counting …") : _(sl_verdict_word(stage->solved.study.answer.verdict));
}

static void show_verdict(page *p, const sl_answer *answer)
{
    words(p, SL_TYPE_HEAD, verdict_now(p->stage));
    show_practice(p);
    show_odds(p, answer);
    if (!still_counting(p->stage)) {
        words(p, SL_TYPE_SMALL, sl_verdict_sentence(answer));
    }
    gap(p, 4.0);
    show_agreement(p, answer);
    if (answer->verdict == SL_VERDICT_UNKNOWN) {
        words(p, SL_TYPE_SMALL, _(sl_unknown_words(answer->unknown)));
        if (p->stage->entered.of_person) {
            gap(p, 4.0);
            p->y = sl_form_judged(p->stage, (SDL_Rect){p->x, p->y, p->w, 0}, false);
        }
    }
}

static void show_more(page *p, const sl_answer *answer)
{
    if (p->stage->solved.study.members == 0 || answer->verdict == SL_VERDICT_UNKNOWN) {
        return;
    }
    if (answer->minutes) {
        show_minutes(p, answer);
        show_looks(p, answer);
    }
    show_left(p, answer);
    if (answer->minutes) {
        show_waiting(p, sl_leave_last_min(&answer->leave));
    }
    show_measure(p, answer);
    if (p->stage->open.curves) {
        show_science(p, answer);
    }
}

int sl_limits_brief(const sl_stage *stage, SDL_Rect area)
{
    const sl_answer *answer = &stage->solved.study.answer;
    page p = {.stage = stage,
              .pen = &stage->pen,
              .scene = sl_stage_story_now(stage, stage->chosen.arm)->scene,
              .x = area.x,
              .y = area.y,
              .w = area.w};
    if (stage->solved.study.members == 0) {
        words(&p, SL_TYPE_SMALL, _("counting …"));
        return p.y;
    }
    words(&p, SL_TYPE_STRONG, verdict_now(stage));
    show_practice(&p);
    show_odds(&p, answer);
    if (answer->verdict == SL_VERDICT_UNKNOWN) {
        words(&p, SL_TYPE_SMALL, _(sl_unknown_words(answer->unknown)));
    } else if (answer->minutes) {
        show_minutes(&p, answer);
        show_looks(&p, answer);
    }
    show_agreement(&p, answer);
    words(&p, SL_TYPE_SMALL, _("A classroom example: the cotton decides, not the model."));
    return p.y;
}

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

/* ---- places -------------------------------------------------------------------------------- */

int sl_limits_panel_show(const sl_stage *stage)
{
    const sl_pen *pen = &stage->pen;
    const SDL_Rect panel = stage->laid.layout.panel;
    const int pad = sl_pen_px(pen, 10.0);
    page p = {.stage = stage,
              .pen = pen,
              .scene = sl_stage_story_now(stage, stage->chosen.arm)->scene,
              .x = panel.x + pad,
              .y = panel.y + pad / 2 - stage->open.scroll[1],
              .w = panel.w - 2 * pad};
    char text[LINE];
    sl_pen_fill(pen, panel, SL_GROUND_SHEET);
    sl_pen_frame(pen, panel, 1, SL_MARK_GRID);
    const int foot = panel.y + panel.h - sl_limits_control(stage, beside[0], 0).y + sl_pen_px(pen, 4.0);
    const SDL_Rect view = {panel.x, panel.y + 1, panel.w, panel.h - foot - 1};
    SDL_SetClipRect(pen->sheet, &view);
    snprintf(text, sizeof text, _("How long? Strip %d, %s"), stage->chosen.arm + 1,
             sl_arm_title(&p.scene->arms[stage->chosen.arm]));
    words(&p, SL_TYPE_STRONG, text);
    if (stage->solved.study.members == 0) {
        words(&p, SL_TYPE_SMALL, _("counting …"));
    } else {
        show_verdict(&p, &stage->solved.study.answer);
    }
    show_signs(&p);
    show_more(&p, &stage->solved.study.answer);
    show_foot(&p);
    SDL_SetClipRect(pen->sheet, NULL);
    show_buttons(stage);
    return p.y + pad + stage->open.scroll[1] - panel.y + foot - panel.h;
}
