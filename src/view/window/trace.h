/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Frame times for tests and measurement. With SLOWLIFT_TRACE_FRAMES=1 in the
 * environment every frame leaves a line on stderr, and the end a summary; with 2 every
 * frame also says where strips and controls stand; else nothing.
 */
#ifndef SLOWLIFT_VIEW_TRACE_H
#define SLOWLIFT_VIEW_TRACE_H

#include <SDL.h>
#include <stdbool.h>
#include <stdio.h>

#include "view/window/stage.h"

enum { SL_TRACE_MOST = 8192 };

typedef struct sl_trace {
    bool on, places;
    Uint64 from;
    int n;                   /* frames drawn */
    float ms[SL_TRACE_MOST]; /* [n], the first of them */
} sl_trace;

void sl_trace_start(sl_trace *trace);
void sl_trace_begin(sl_trace *trace);
void sl_trace_end(sl_trace *trace, const sl_stage *stage, bool drew);
void sl_trace_stop(sl_trace *trace);

/* Where the parts of a page stand. */
void sl_tell_beside(FILE *out, const sl_stage *stage);
void sl_tell_turns(FILE *out, const sl_stage *stage);
void sl_tell_form(FILE *out, const sl_stage *stage);
void sl_tell_new(FILE *out, const sl_stage *stage);

/* Draws the stage and tells all of it: page and panel that are open; what is written, with style and place;
 * where its parts stand; every control. */
bool sl_trace_say(FILE *out, sl_stage *stage, sl_error *error);

#endif
