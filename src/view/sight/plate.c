/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * One plate beside the hair as a scene opens: what the numbers are, and each caution that always stands in
 * its one sentence. It is read to its end before it folds into the foot; K has all of them in full.
 */
#include "base/language.h"
#include "report/told.h"
#include "view/panels/said.h"
#include "view/sight/guess.h"
#include "view/window/action.h"

static const double PAD = 10.0; /* units */

/* Where letters are large it goes down to the foot. */
static SDL_Rect plate(const sl_stage *stage)
{
    const sl_layout *const l = &stage->laid.layout;
    SDL_Rect area = l->panel;
    area.h = (l->compact ? l->foot.y - sl_pen_px(&stage->pen, PAD / 2.0) : l->panel.y + l->panel.h) - l->panel.y;
    return area;
}

SDL_Rect sl_plate_control(const sl_stage *stage, sl_action_id action, int which)
{
    const SDL_Rect panel = plate(stage);
    const int pad = sl_pen_px(&stage->pen, PAD), target = stage->laid.layout.target;
    (void)action;
    (void)which;
    return (SDL_Rect){panel.x + pad, panel.y + panel.h - pad - target, panel.w - 2 * pad, target};
}

SDL_Rect sl_plate_room(const sl_stage *stage)
{
    const SDL_Rect panel = plate(stage), close = sl_plate_control(stage, SL_DO_CLOSE, 0);
    const int pad = sl_pen_px(&stage->pen, PAD);
    return (SDL_Rect){panel.x + pad, panel.y + pad, panel.w - 2 * pad, close.y - panel.y - 2 * pad};
}

void sl_say_plate(sl_document *document, const sl_stage *stage, sl_error *error)
{
    sl_document_begin(document, "plate", _("Model numbers. No real hair. The label decides."), error);
    document->depth = SL_LEAD;
    document->brief = true;
    sl_document_end(document, sl_with_reducing(sl_stage_scene(stage), SL_ON_HAIR));
}

int sl_plate_show(const sl_stage *stage)
{
    const SDL_Rect room = sl_plate_room(stage);
    sl_strips_show(stage);
    sl_pen_fill(&stage->pen, plate(stage), SL_GROUND_SHEET);
    sl_pen_frame(&stage->pen, plate(stage), sl_pen_px(&stage->pen, 2.0), SL_GROUND_DARK);
    const int height = sl_said_draw(stage, room, stage->open.scroll[0]);
    sl_action_draw(stage, sl_plate_control(stage, SL_DO_CLOSE, 0), SL_DO_CLOSE, 0);
    return height - room.h;
}
