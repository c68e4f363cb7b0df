/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Times from after the input was taken to after the picture was handed to the display; where everything
 * stands; and all of it in words, for `watch --say`.
 */
#include "view/window/trace.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "view/panels/bowl.h"
#include "view/panels/form.h"
#include "view/panels/new_page.h"
#include "view/panels/panel.h"
#include "view/panels/turn.h"
#include "view/window/views.h"

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

static void tell(FILE *out, const char *what, int number, SDL_Rect area)
{
    fprintf(out, "place %s %d %d %d %d %d\n", what, number, area.x, area.y, area.w, area.h);
}

void sl_tell_beside(FILE *out, const sl_stage *stage)
{
    const sl_beside_places p = sl_beside_place(stage);
    for (int side = 0; side < 2; side++) {
        tell(out, "swatch", side, p.hair[side]);
        tell(out, "flat", side, p.flat[side]);
        tell(out, "side", side, p.side[side]);
        tell(out, "reading", side, p.reading[side]);
    }
    tell(out, "words", 0, p.words);
    tell(out, "curves", 0, p.science);
    tell(out, "close", 0, p.close);
    tell(out, "science", 0, p.curves_button);
    tell(out, "foot", 0, p.foot);
}

void sl_tell_turns(FILE *out, const sl_stage *stage)
{
    const sl_turn_places p = sl_turn_place(stage);
    for (int i = 0; i < p.n; i++) {
        tell(out, "back", i, p.back[i]);
        tell(out, "words", i, p.words[i]);
        tell(out, "on", i, p.on[i]);
    }
    tell(out, "body", 0, p.body);
    tell(out, "close", 0, p.close);
}

void sl_tell_form(FILE *out, const sl_stage *stage)
{
    const sl_form_places p = sl_form_place(stage);
    for (int i = 0; i < SL_FORM_ROWS; i++) {
        tell(out, "row", i, p.row[i]);
        tell(out, "on", i, p.on[i]);
    }
    tell(out, "judged", 0, p.judged);
    tell(out, "close", 0, p.close);
    tell(out, "body", 0, p.body);
}

void sl_tell_new(FILE *out, const sl_stage *stage)
{
    const sl_asked_places *const p = &stage->asking.laid;
    for (int i = 0; i < SL_TOPICS && stage->asking.made == NULL; i++) {
        tell(out, "row", i, p->row[i].all);
        tell(out, "field", i, sl_new_control(stage, SL_DO_NEW_FIELD, i));
        for (int k = 0; k < sl_ask_rows[i].words.n; k++) {
            const int which = i * SL_ASK_WORDS + k;
            tell(out, "word", which, sl_new_control(stage, SL_DO_NEW_WORD, which));
        }
    }
    tell(out, "body", 0, p->body);
    tell(out, "explained", 0, stage->asking.made == NULL ? p->explained : (SDL_Rect){0});
    tell(out, "write", 0, p->write);
    tell(out, "open", 0, p->open);
    tell(out, "close", 0, p->close);
}

static void tell_strips(FILE *out, const sl_stage *stage)
{
    const sl_layout *l = &stage->laid.layout;
    for (int i = 0; i < l->n_shown; i++) {
        tell(out, "strip", l->first + i, l->strip[i]);
    }
    for (int i = 0; i < stage->laid.n_spots; i++) {
        if (stage->laid.spots[i].kind == SL_DO_KNOB) {
            tell(out, "knob", stage->laid.spots[i].number, stage->laid.spots[i].area);
        }
    }
    tell(out, "ruler", 0, l->ruler);
    tell(out, "marks", 0, l->marks);
    tell(out, "figures", 0, l->figures);
    tell(out, "sentence", 0, l->mode);
    tell(out, "shown", 0, l->shown);
    tell(out, "gutter", 0, l->gutter);
    tell(out, "field", 0, l->field);
    tell(out, "foot", 0, l->foot);
    for (int i = 0; i < SL_WIPES && stage->open.panel == SL_PANEL_BOWL; i++) {
        tell(out, "grade", i, sl_bowl_control(stage, SL_DO_GRADE, i));
    }
    tell(out, "panel", 0, l->panel);
    for (int i = 0; i < l->n_buttons; i++) {
        tell(out, "button", i, l->button[i]);
    }
    fprintf(out, "text %.0f %% of %.0f %%\n", 100.0 * l->scale, 100.0 * stage->look.scale);
}

static void tell_places(FILE *out, const sl_stage *stage)
{
    const sl_view_row *const row = &sl_page_rows[stage->open.page];
    (row->tell != NULL ? row->tell : tell_strips)(out, stage);
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
        tell_places(stderr, stage);
        for (int i = 0; i < stage->laid.n_spots; i++) { /* whatever can be pressed, by its word */
            const sl_stage_spot *const spot = &stage->laid.spots[i];
            char what[64];
            snprintf(what, sizeof what, "do-%.50s", sl_action_rows[spot->kind].word);
            tell(stderr, what, spot->number, spot->area);
        }
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

/* ---- in words ---------------------------------------------------------------------------- */

bool sl_trace_say(FILE *out, sl_stage *stage, sl_error *error)
{
    fprintf(out, "page %s\npanel %s\n", sl_page_rows[stage->open.page].word,
            sl_panel_rows[stage->open.panel].word);
    sl_text_tell_to(stage->text, out);
    stage->dirty = true;
    const bool good = sl_stage_draw(stage, error);
    sl_text_tell_to(stage->text, NULL);
    tell_places(out, stage);
    for (int i = 0; i < stage->laid.n_spots; i++) {
        const sl_stage_spot *const spot = &stage->laid.spots[i];
        const bool focus = stage->hand.focus_seen && spot->kind == stage->hand.focus &&
                           spot->number == stage->hand.focus_number;
        fprintf(out, "control %s %d %d %d %d %d%s%s\n", sl_action_rows[spot->kind].word, spot->number,
                spot->area.x, spot->area.y, spot->area.w, spot->area.h, spot->stop ? " tab" : "",
                focus ? " focus" : "");
    }
    return good && ferror(out) == 0;
}
