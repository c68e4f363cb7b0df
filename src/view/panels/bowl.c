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
#include "slowlift/estimate.h"
#include "view/draw/words.h"
#include "view/panels/said.h"
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
    const sl_arm *const arm = &scene->arms[stage->chosen.arm];
    if (stage->chosen.now_min > sl_first_water_min(arm) + 1e-9) {
        return N_("This strip is rinsed by then: no lock is wiped any more. Go back: Left.");
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

int sl_bowl_entered(const sl_stage *stage)
{
    const sl_observations *const observations = &stage->entered.observations;
    const int at = place_of(stage);
    return at < observations->n ? (int)observations->observation[at].wipe : -1;
}

/* ---- what it says ------------------------------------------------------------------------- */

uint64_t sl_bowl_reads(const sl_stage *stage, uint64_t number)
{
    const double minute = sl_bowl_minute(stage);
    return sl_leaf_number(number, &minute, sizeof minute);
}

static void say_question(sl_document *document, const sl_stage *stage)
{
    const char *const not = sl_bowl_why_not(stage);
    char text[SL_SHOW_LINE];
    sl_minute_words(
        SL_MINUTE_PLANNED, text, sizeof text,
        _("%.0f min after contact a lock was wiped clean and looked at beside the undyed hair. What is "
          "left?"),
        fmax(sl_bowl_minute(stage), 0.0));
    sl_document_say(document, "%s", not != NULL ? _(not ) : text);
}

/* Returns whether anything was. */
static bool say_entered(sl_document *document, const sl_stage *stage)
{
    bool any = false;
    for (int i = 0; i < stage->entered.observations.n; i++) {
        const sl_observation *const observation = &stage->entered.observations.observation[i];
        char minute[24];
        if (observation->arm == stage->chosen.arm) {
            any = true;
            sl_minute_words(SL_MINUTE_CLOCK, minute, sizeof minute, "%.0f", observation->minute);
            sl_document_item(document, _("seen at %s min, %s: %s"), minute,
                             sl_zone_title(&sl_stage_scene(stage)->zones[observation->zone]),
                             _(sl_wipe_word(observation->wipe)));
        }
    }
    return any;
}

void sl_say_bowl(sl_document *document, const sl_stage *stage, sl_error *error)
{
    char title[SL_SHOW_LINE];
    snprintf(title, sizeof title, _("At the bowl: strip %d, “%s”"), stage->chosen.arm + 1,
             sl_zone_title(&sl_stage_scene(stage)->zones[stage->chosen.zone]));
    sl_document_begin(document, "bowl", title, error);
    document->depth = SL_LEAD;
    if (!say_entered(document, stage) ||
        sl_bowl_why_not(stage) != NULL) { /* else what it changed comes first */
        say_question(document, stage);
        sl_document_say(document, "%s", _("A classroom example: the cotton decides, not the model."));
    }
    document->depth = SL_MORE;
    sl_limits_panel_say(document, stage);
}

/* ---- where it stands: what it says, and below it the grades ------------------------------------ */

static const double PAD = 10.0, GAP = 6.0; /* units */
enum { GRADE_ROWS = (SL_WIPES + 1) / 2 };

SDL_Rect sl_bowl_control(const sl_stage *stage, sl_action_id action, int wipe)
{
    const SDL_Rect panel = stage->laid.layout.panel;
    const int pad = sl_pen_px(&stage->pen, PAD), gap = sl_pen_px(&stage->pen, GAP);
    const int target = stage->laid.layout.target, w = panel.w - 2 * pad, half = (w - gap) / 2;
    const int top = panel.y + panel.h - (GRADE_ROWS + 1) * (target + gap);
    return action == SL_DO_GRADE ? (SDL_Rect){panel.x + pad + wipe % 2 * (half + gap),
                                              top + wipe / 2 * (target + gap), half, target}
                                 : (SDL_Rect){panel.x + pad, top + GRADE_ROWS * (target + gap), w, target};
}

SDL_Rect sl_bowl_room(const sl_stage *stage)
{
    const SDL_Rect panel = stage->laid.layout.panel;
    const int pad = sl_pen_px(&stage->pen, PAD), top = panel.y + pad / 2;
    return (SDL_Rect){panel.x + pad, top, panel.w - 2 * pad,
                      sl_bowl_control(stage, SL_DO_GRADE, 0).y - sl_pen_px(&stage->pen, GAP) - top};
}

int sl_bowl_show(const sl_stage *stage)
{
    const SDL_Rect room = sl_bowl_room(stage);
    sl_pen_fill(&stage->pen, stage->laid.layout.panel, SL_GROUND_SHEET);
    sl_pen_frame(&stage->pen, stage->laid.layout.panel, 1, SL_MARK_GRID);
    const int height = sl_said_draw(stage, room, stage->open.scroll[1]);
    for (int i = 0; i < SL_WIPES; i++) {
        sl_action_draw(stage, sl_bowl_control(stage, SL_DO_GRADE, i), SL_DO_GRADE, i);
    }
    sl_action_draw(stage, sl_bowl_control(stage, SL_DO_FORGET, 0), SL_DO_FORGET, 0);
    return height - room.h;
}
