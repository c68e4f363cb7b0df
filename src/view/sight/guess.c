/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See guess.h.
 */
#include "view/sight/guess.h"

#include <math.h>
#include <stdio.h>

#include "base/append.h"
#include "base/language.h"
#include "view/draw/words.h"
#include "view/window/action.h"
#include "view/window/first.h"
#include "view/window/show.h"

static const double HALF = 0.5, NEARLY = 0.6; /* shares left that are called half gone, and nearly */

/* ---- the question ----------------------------------------------------------------------------- */

static bool may_ask(const sl_stage *stage)
{
    return !stage->guess.asked && stage->logs.seen == NULL && stage->logs.strands == NULL &&
           !stage->entered.of_person && sl_stage_on_bench(stage) && stage->chosen.mode == SL_SAME_MINUTE &&
           stage->chosen.now_min <= 0.0;
}

static bool losing(const sl_stage *stage, int arm)
{
    const sl_scene *const scene = sl_stage_scene(stage);
    return sl_first_mixed(scene, arm) && stage->read.reading[0][arm].predicted &&
           sl_stage_dyed(stage, arm, stage->chosen.zone);
}

/* The first, the middle and the last of those that lose colour: their order says nothing of the answer. */
static void offer(sl_stage *stage)
{
    sl_stage_guess *const guess = &stage->guess;
    int all[SL_MAX_ARMS] = {0}, n = 0;
    for (int arm = 0; arm < sl_stage_scene(stage)->n_arms; arm++) {
        if (losing(stage, arm)) {
            all[n++] = arm;
        }
    }
    guess->n = n < 2 ? 0 : SDL_min(n, SL_MOST_GUESSES);
    for (int i = 0; i < guess->n; i++) {
        guess->arm[i] = all[i * (n - 1) / (guess->n - 1)];
        snprintf(guess->number[i], sizeof guess->number[i], "%d", guess->arm[i] + 1);
    }
}

void sl_guess_open(sl_stage *stage)
{
    if (may_ask(stage)) {
        stage->guess.asked = true;
        offer(stage);
        stage->open.panel = stage->guess.n > 0 ? SL_PANEL_GUESS : stage->open.panel;
    }
}

bool sl_guess_open_now(const sl_stage *stage)
{
    return stage->open.panel == SL_PANEL_GUESS;
}

void sl_guess_settle(sl_stage *stage)
{
    const bool over = stage->chosen.now_min > 0.0 || stage->chosen.playing ||
                      stage->chosen.mode != SL_SAME_MINUTE || stage->entered.of_person;
    if (sl_guess_open_now(stage) && over) {
        stage->open.panel = SL_PANEL_NONE;
        stage->dirty = true;
    }
}

bool sl_guess_offers(const sl_stage *stage, int arm)
{
    bool offered = false;
    for (int i = 0; i < stage->guess.n; i++) {
        offered = offered || stage->guess.arm[i] == arm;
    }
    return offered;
}

void sl_guess_take(sl_stage *stage, int arm)
{
    stage->guess.told = true;
    stage->guess.said = arm;
    stage->open.panel = SL_PANEL_NONE;
    stage->hand.focus_seen = false;
    if (arm >= 0) {
        sl_stage_choose_arm(stage, arm); /* it is what she will look at */
    }
}

/* ---- the first look ----------------------------------------------------------------------------- */

static double left_at(const sl_stage *stage, int arm, double minute)
{
    return sl_left_at(sl_stage_story_now(stage, arm)->timeline, arm, stage->chosen.zone, minute);
}

double sl_guess_hold_min(const sl_stage *stage, double from_min)
{
    double first = -1.0;
    if (stage->guess.held || stage->entered.of_person || !sl_stage_on_bench(stage)) {
        return -1.0;
    }
    for (int arm = 0; arm < sl_stage_scene(stage)->n_arms; arm++) {
        double minute = 0.0;
        if (losing(stage, arm) && sl_first_time(sl_stage_story_now(stage, arm)->timeline, arm,
                                                stage->chosen.zone, SL_COLOUR_LEFT, HALF, &minute)) {
            first = first < 0.0 ? minute : fmin(first, minute);
        }
    }
    const double whole = ceil(first);
    return first >= 0.0 && whole > from_min && whole < sl_stage_scene(stage)->until_min ? whole : -1.0;
}

void sl_guess_hold(sl_stage *stage)
{
    sl_stage_guess *const guess = &stage->guess;
    if (!guess->held && guess->hold_min > 0.0 && stage->chosen.now_min >= guess->hold_min) {
        guess->held = true;
        stage->chosen.playing = false;
        sl_stage_go(stage, guess->hold_min);
    }
}

/* The strips with so much left at that minute: "7, 5"; how many. */
static int put_strips(const sl_stage *stage, double above, double most, char *text, size_t size)
{
    int n = 0;
    text[0] = '\0';
    for (int arm = 0; arm < sl_stage_scene(stage)->n_arms; arm++) {
        const double left = losing(stage, arm) ? left_at(stage, arm, stage->guess.hold_min) : -1.0;
        if (left > above && left <= most) {
            sl_append_item(text, size, ", ", "%d", arm + 1);
            n++;
        }
    }
    return n;
}

/* Of the strips with a mix the one whose base moved most, or least; -1: none. */
static int moved(const sl_stage *stage, bool most)
{
    int found = -1;
    for (int arm = 0; arm < sl_stage_scene(stage)->n_arms; arm++) {
        const double now = sl_stage_reading_now(stage, arm)->moved;
        const double best = found >= 0 ? sl_stage_reading_now(stage, found)->moved : 0.0;
        if (losing(stage, arm) && (found < 0 || (most ? now > best : now < best))) {
            found = arm;
        }
    }
    return found;
}

static bool holds(const sl_stage *stage)
{
    return stage->guess.held && !stage->chosen.playing && stage->chosen.mode == SL_SAME_MINUTE &&
           fabs(stage->chosen.now_min - stage->guess.hold_min) < 1e-9 && !stage->entered.of_person;
}

bool sl_guess_put_look(const sl_stage *stage, char *head, char *below, size_t size)
{
    char clock[24], half[64], nearly[64], said[96] = "";
    if (!holds(stage)) {
        return false;
    }
    const char *const zone = sl_zone_title(&sl_stage_scene(stage)->zones[stage->chosen.zone]);
    const int most = moved(stage, true), least = moved(stage, false);
    sl_put_now(stage, clock, sizeof clock);
    put_strips(stage, -0.5, HALF + 0.005, half, sizeof half);
    const bool close = put_strips(stage, HALF + 0.005, NEARLY, nearly, sizeof nearly) > 0;
    if (stage->guess.told && stage->guess.said >= 0) {
        snprintf(said, sizeof said, _("  You said %d."), stage->guess.said + 1);
    }
    if (close) {
        snprintf(head, size, _("First look, %s: “%s” half gone on %s, nearly on %s.%s"), clock, zone, half,
                 nearly, said);
    } else {
        snprintf(head, size, _("First look, %s: “%s” half gone on %s.%s"), clock, zone, half, said);
    }
    snprintf(below, size,
             _("Base moved most on %d, least on %d.  Right: on.  C: same colour left.  W: what if."),
             most + 1, least + 1);
    return true;
}

bool sl_guess_put_said(const sl_stage *stage, char *text, size_t size)
{
    if (!stage->guess.told || stage->chosen.now_min > 0.0 || stage->chosen.playing || stage->guess.held ||
        stage->entered.of_person) {
        return false;
    }
    if (stage->guess.said >= 0) {
        snprintf(text, size, _("You said %d. Enter plays."), stage->guess.said + 1);
    } else {
        snprintf(text, size, _("No idea is an answer. Enter plays."));
    }
    return true;
}

/* ---- how it stands ------------------------------------------------------------------------------ */

static const double GAP = 6.0, ONE = 56.0, OTHER = 92.0; /* units: a strip's number, words */

void sl_guess_put_question(const sl_stage *stage, char *text, size_t size)
{
    snprintf(text, size, _("Before you look: which strip loses “%s” first?"),
             sl_zone_title(&sl_stage_scene(stage)->zones[stage->chosen.zone]));
}

/* From the right: skip, no idea, then the strips; their numbers are their keys. */
SDL_Rect sl_guess_control(const sl_stage *stage, sl_action_id action, int which)
{
    const SDL_Rect row = stage->laid.layout.marks;
    const int n = stage->guess.n, gap = sl_pen_px(&stage->pen, GAP);
    const int target = stage->laid.layout.target;
    const int one = SDL_max(sl_pen_px(&stage->pen, ONE), target), other = sl_pen_px(&stage->pen, OTHER);
    const int y = row.y + SDL_max(row.h - target, 0), end = row.x + row.w;
    if (action == SL_DO_GUESS_SKIP) {
        return (SDL_Rect){end - other, y, other, target};
    }
    if (which == 0) {
        return (SDL_Rect){end - 2 * other - gap, y, other, target};
    }
    for (int i = 0; i < n; i++) {
        if (stage->guess.arm[i] == which - 1) {
            return (SDL_Rect){end - 2 * (other + gap) - (n - i) * (one + gap) + gap, y, one, target};
        }
    }
    return (SDL_Rect){0};
}

int sl_guess_show(const sl_stage *stage)
{
    const SDL_Rect first = sl_guess_control(stage, SL_DO_GUESS, stage->guess.arm[0] + 1);
    const SDL_Rect row = {stage->laid.layout.marks.x, first.y, first.x - stage->laid.layout.marks.x, first.h};
    char text[SL_SHOW_LINE];
    if (stage->guess.n == 0) {
        return 0;
    }
    if (!stage->laid.layout.compact) {
        sl_guess_put_question(stage, text, sizeof text);
        sl_pen_place(&stage->pen, SL_TYPE_STRONG, SL_INK_TEXT, row, SL_ALIGN_LEFT, text);
    }
    for (int i = 0; i <= stage->guess.n; i++) {
        const int which = i < stage->guess.n ? stage->guess.arm[i] + 1 : 0;
        sl_action_draw(stage, sl_guess_control(stage, SL_DO_GUESS, which), SL_DO_GUESS, which);
    }
    sl_action_draw(stage, sl_guess_control(stage, SL_DO_GUESS_SKIP, 0), SL_DO_GUESS_SKIP, 0);
    return 0;
}
