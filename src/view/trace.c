/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Times from after the input was taken to after the picture was handed to the display.
 */
#include "view/trace.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "view/bowl.h"
#include "view/form.h"
#include "view/panel.h"
#include "view/turn.h"

void sl_trace_start(sl_trace *trace)
{
    const char *wanted = getenv("SLOWLIFT_TRACE_FRAMES");
    memset(trace, 0, sizeof *trace);
    trace->places = wanted != NULL && strcmp(wanted, "2") == 0;
    trace->on = trace->places || (wanted != NULL && strcmp(wanted, "1") == 0);
}

void sl_trace_begin(sl_trace *trace)
{
    trace->from = SDL_GetPerformanceCounter();
}

static void tell(const char *what, int number, SDL_Rect area)
{
    fprintf(stderr, "place %s %d %d %d %d %d\n", what, number, area.x, area.y, area.w, area.h);
}

static void tell_beside(const sl_stage *stage)
{
    const sl_beside_places p = sl_beside_place(stage);
    for (int side = 0; side < 2; side++) {
        tell("swatch", side, p.hair[side]);
        tell("flat", side, p.flat[side]);
        tell("side", side, p.side[side]);
        tell("reading", side, p.reading[side]);
    }
    tell("words", 0, p.words);
    tell("curves", 0, p.science);
    tell("close", 0, p.close);
    tell("science", 0, p.curves_button);
    tell("foot", 0, p.foot);
}

static void tell_turns(const sl_stage *stage)
{
    const sl_turn_places p = sl_turn_place(stage);
    for (int i = 0; i < p.n; i++) {
        tell("back", i, p.back[i]);
        tell("words", i, p.words[i]);
        tell("on", i, p.on[i]);
    }
    tell("body", 0, p.body);
    tell("close", 0, p.close);
}

static void tell_places(const sl_stage *stage)
{
    const sl_layout *l = &stage->layout;
    if (stage->page == SL_PAGE_FORM) {
        const sl_form_places p = sl_form_place(stage);
        for (int i = 0; i < SL_FORM_ROWS; i++) {
            tell("row", i, p.row[i]);
            tell("on", i, p.on[i]);
        }
        tell("judged", 0, p.judged);
        tell("body", 0, p.body);
        return;
    }
    if (sl_page_turns(stage->page) > 0) {
        tell_turns(stage);
        return;
    }
    if (stage->page == SL_PAGE_BESIDE) {
        tell_beside(stage);
        return;
    }
    for (int i = 0; i < l->n_shown; i++) {
        tell("strip", l->first + i, l->strip[i]);
    }
    for (int i = 0; i < stage->n_spots; i++) {
        if (stage->spots[i].kind == SL_SPOT_KNOB) {
            tell("knob", stage->spots[i].number, stage->spots[i].area);
        }
    }
    tell("ruler", 0, l->ruler);
    tell("marks", 0, l->marks);
    tell("figures", 0, l->figures);
    tell("sentence", 0, l->mode);
    tell("shown", 0, l->shown);
    tell("gutter", 0, l->gutter);
    tell("field", 0, l->field);
    tell("foot", 0, l->foot);
    for (int i = 0; i < SL_WIPES && stage->panel == SL_PANEL_BOWL; i++) {
        tell("grade", i, sl_bowl_place(stage, i));
    }
    tell("panel", 0, l->panel);
    for (int i = 0; i < l->n_buttons; i++) {
        tell("button", i, l->button[i]);
    }
    fprintf(stderr, "text %.0f %% of %.0f %%\n", 100.0 * l->scale, 100.0 * stage->scale);
}

void sl_trace_end(sl_trace *trace, const sl_stage *stage, bool drew)
{
    if (!trace->on || !drew) {
        return;
    }
    const Uint64 ticks = SDL_GetPerformanceCounter() - trace->from;
    const double ms = 1000.0 * (double)ticks / (double)SDL_GetPerformanceFrequency();
    if (trace->n < SL_TRACE_MOST) {
        trace->ms[trace->n] = (float)ms;
    }
    trace->n++;
    if (trace->places) {
        tell_places(stage);
    }
    fprintf(stderr, "frame %d %.2f ms\n", trace->n, ms);
}

static int by_size(const void *one, const void *two)
{
    const float a = *(const float *)one;
    const float b = *(const float *)two;
    return (a > b) - (a < b);
}

void sl_trace_stop(sl_trace *trace)
{
    if (!trace->on || trace->n == 0) {
        return;
    }
    const int n = trace->n < SL_TRACE_MOST ? trace->n : SL_TRACE_MOST;
    qsort(trace->ms, (size_t)n, sizeof trace->ms[0], by_size);
    fprintf(stderr, "frames %d median %.2f ms p99 %.2f ms longest %.2f ms\n", trace->n,
            (double)trace->ms[n / 2], (double)trace->ms[n * 99 / 100], (double)trace->ms[n - 1]);
}
