/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A scene in the window: frames until it is left.
 */
#include "view/watch.h"

#include "view/stage.h"
#include "view/trace.h"

static bool run(sl_stage *stage, sl_error *error)
{
    sl_trace trace;
    sl_trace_start(&trace);
    bool good = true;
    while (good && !stage->leave) {
        sl_stage_take_input(stage);
        sl_trace_begin(&trace);
        sl_stage_advance(stage);
        sl_stage_resolve(stage);
        const bool draws = stage->dirty;
        good = sl_stage_draw(stage, error);
        sl_trace_end(&trace, stage, draws);
    }
    sl_trace_stop(&trace);
    return good;
}

bool sl_watch_scene(sl_story *story, const struct sl_seen_curves *seen, const sl_eyes *eyes, SDL_Window *window,
                    double scale, double at_min, sl_error *error)
{
    sl_stage *stage = sl_stage_new(story, eyes, window, scale, error);
    bool good = stage != NULL;
    if (good) {
        stage->seen = seen;
        sl_stage_go(stage, at_min);
        good = run(stage, error);
    }
    sl_stage_free(stage);
    return good;
}
