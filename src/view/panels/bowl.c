/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * At the bowl: what the cotton shows, entered as a grade in words for the chosen strip and zone
 * at the minute that is shown. Invariant: a second grade for the same zone and minute takes the
 * place of the first.
 */
#include "view/panels/bowl.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/language.h"
#include "base/minute.h"
#include "report/reading.h"
#include "view/draw/words.h"
#include "view/panels/panel.h"
#include "view/window/action.h"
#include "view/window/show.h"

double sl_bowl_minute(const sl_stage *stage)
{
    return floor(stage->chosen.now_min - sl_stage_scene(stage)->arms[stage->chosen.arm].contact_min + 1e-9);
}

const char *sl_bowl_why_not(const sl_stage *stage)
{
    const sl_scene *scene = sl_stage_scene(stage);
    if (!sl_stage_on_bench(stage)) {
        return N_("No minutes are given for hair on a head: nothing is entered here.");
    }
    if (!stage->solved.limits.asked) {
        return N_("This strip has no mix inside the model: there is nothing to compare with.");
    }
    if (!sl_zone_direct(scene, stage->chosen.zone) ||
        !sl_stage_dyed(stage, stage->chosen.arm, stage->chosen.zone)) {
        return N_("This zone holds no direct dye. Choose another: Up and Down.");
    }
    return sl_bowl_minute(stage) < 1.0
               ? N_("First go to the minute at which the lock was wiped: Left and Right.")
               : NULL;
}

/* Where this strip, zone and minute stand in the list; n when they are new. */
static int place_of(const sl_stage *stage)
{
    const sl_observations *observations = &stage->entered.observations;
    int i = 0;
    while (i < observations->n &&
           (observations->observation[i].arm != stage->chosen.arm ||
            observations->observation[i].zone != stage->chosen.zone ||
            fabs(observations->observation[i].minute - sl_bowl_minute(stage)) > 1e-9)) {
        i++;
    }
    return i;
}

void sl_bowl_enter(sl_stage *stage, int wipe)
{
    const int at = place_of(stage);
    if (sl_bowl_why_not(stage) != NULL || at >= SL_MOST_OBSERVATIONS || wipe < 0 || wipe >= SL_WIPES) {
        return;
    }
    sl_observation *observation = &stage->entered.observations.observation[at];
    observation->arm = stage->chosen.arm;
    observation->zone = stage->chosen.zone;
    observation->minute = sl_bowl_minute(stage);
    observation->wipe = (sl_wipe)wipe;
    stage->entered.observations.n = SDL_max(stage->entered.observations.n, at + 1);
}

void sl_bowl_forget(sl_stage *stage)
{
    sl_observations kept;
    memset(&kept, 0, sizeof kept);
    for (int i = 0; i < stage->entered.observations.n; i++) {
        if (stage->entered.observations.observation[i].arm != stage->chosen.arm) {
            memcpy(&kept.observation[kept.n++], &stage->entered.observations.observation[i],
                   sizeof kept.observation[0]);
        }
    }
    memcpy(&stage->entered.observations, &kept, sizeof kept);
}

/* ---- the panel ---------------------------------------------------------------------------- */

static SDL_Rect inner_of(const sl_stage *stage)
{
    const SDL_Rect panel = stage->laid.layout.panel;
    const int pad = sl_pen_px(&stage->pen, 10.0);
    return (SDL_Rect){panel.x + pad, panel.y + pad / 2 - stage->open.scroll[1], panel.w - 2 * pad, panel.h};
}

static int grades_y(const sl_stage *stage)
{
    const sl_text *text = stage->pen.text;
    return inner_of(stage).y + sl_text_line_height(text, SL_TYPE_STRONG) +
           3 * sl_text_line_height(text, SL_TYPE_SMALL) + sl_pen_px(&stage->pen, 6.0);
}

static SDL_Rect grade_place(const sl_stage *stage, int wipe)
{
    const SDL_Rect inner = inner_of(stage);
    const int gap = sl_pen_px(&stage->pen, 6.0);
    const int target = stage->laid.layout.target;
    const int w = (inner.w - gap) / 2;
    return (SDL_Rect){inner.x + wipe % 2 * (w + gap), grades_y(stage) + wipe / 2 * (target + gap), w, target};
}

SDL_Rect sl_bowl_control(const sl_stage *stage, sl_action_id action, int wipe)
{
    if (action == SL_DO_GRADE) {
        return grade_place(stage, wipe);
    }
    const SDL_Rect last = grade_place(stage, SL_WIPES);
    return (SDL_Rect){last.x, last.y, inner_of(stage).w, last.h};
}

int sl_bowl_entered(const sl_stage *stage)
{
    const sl_observations *const observations = &stage->entered.observations;
    const int at = place_of(stage);
    return at < observations->n ? (int)observations->observation[at].wipe : -1;
}

static void show_grades(const sl_stage *stage)
{
    for (int i = 0; i < SL_WIPES; i++) {
        sl_action_draw(stage, grade_place(stage, i), SL_DO_GRADE, i);
    }
    sl_action_draw(stage, sl_bowl_control(stage, SL_DO_FORGET, 0), SL_DO_FORGET, 0);
}

static int show_entered(const sl_stage *stage, SDL_Rect area)
{
    const sl_scene *scene = sl_stage_scene(stage);
    const int top = area.y;
    for (int i = 0; i < stage->entered.observations.n; i++) {
        const sl_observation *observation = &stage->entered.observations.observation[i];
        char text[SL_SHOW_LINE], minute[24];
        if (observation->arm == stage->chosen.arm) {
            sl_minute_words(SL_MINUTE_CLOCK, minute, sizeof minute, "%.0f", observation->minute);
            snprintf(text, sizeof text, _("seen at %s min, %s: %s"), minute,
                     sl_zone_title(&scene->zones[observation->zone]), _(sl_wipe_word(observation->wipe)));
            area.y += sl_pen_wrap(&stage->pen, SL_TYPE_SMALL, SL_INK_TEXT, area, false, text);
        }
    }
    return area.y - top;
}

int sl_bowl_show(const sl_stage *stage)
{
    const sl_pen *pen = &stage->pen;
    const SDL_Rect panel = stage->laid.layout.panel;
    const sl_scene *scene = sl_stage_scene(stage);
    SDL_Rect area = inner_of(stage);
    const char *not = sl_bowl_why_not(stage);
    char text[SL_SHOW_LINE];
    sl_pen_fill(pen, panel, SL_GROUND_SHEET);
    sl_pen_frame(pen, panel, 1, SL_MARK_GRID);
    SDL_SetClipRect(pen->sheet, &panel);
    snprintf(text, sizeof text, _("At the bowl: strip %d, “%s”"), stage->chosen.arm + 1,
             sl_zone_title(&scene->zones[stage->chosen.zone]));
    area.y += sl_pen_wrap(pen, SL_TYPE_STRONG, SL_INK_TEXT, area, false, text);
    sl_minute_words(
        SL_MINUTE_PLANNED, text, sizeof text,
        _("%.0f min after contact a lock was wiped clean and looked at beside the undyed hair. What is "
          "left?"),
        fmax(sl_bowl_minute(stage), 0.0));
    sl_pen_wrap(pen, SL_TYPE_SMALL, SL_INK_TEXT, area, false, not != NULL ? not : text);
    show_grades(stage);
    const SDL_Rect last = sl_bowl_control(stage, SL_DO_FORGET, 0);
    area.y = last.y + last.h + sl_pen_px(pen, 6.0);
    area.y += show_entered(stage, area) + sl_pen_px(pen, 4.0);
    sl_leaf_draw(&stage->laid.said, pen, area.x, area.y);
    area.y += sl_leaf_height(&stage->laid.said);
    area.y += sl_pen_wrap(pen, SL_TYPE_SMALL, SL_INK_TEXT, area, false,
                          _("A classroom example: the cotton decides, not the model."));
    SDL_SetClipRect(pen->sheet, NULL);
    return area.y + sl_pen_px(pen, 10.0) + stage->open.scroll[1] - panel.y - panel.h;
}
