/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A lesson in the window: one step at a time, by keys or by pointer. Which step may follow is the
 * session's to say (slowlift/lesson.h); the run is locked there, not here.
 *
 * Invariant: every answer is saved before the next key is read; what could not be saved is said
 * on the screen, stays in memory and is tried again.
 */
#ifndef SLOWLIFT_VIEW_LESSON_DESK_H
#define SLOWLIFT_VIEW_LESSON_DESK_H

#include <SDL.h>
#include <stdbool.h>

#include "slowlift/lesson.h"
#include "view/draw/eyes.h"
#include "view/draw/leaf.h"
#include "view/draw/pen.h"
#include "view/lesson/lesson_place.h"
#include "view/strips/strip.h"

enum { SL_DESK_LINE = 512, SL_DESK_CHOICES = 9, SL_DESK_COPIES = 8 /* most strips with earlier stops */ };

typedef enum sl_over { SL_OVER_NONE, SL_OVER_KEYS, SL_OVER_NOTES } sl_over; /* pages over the step */

/* What the window is opened with. */
typedef struct sl_desk_wish {
    const sl_lesson *lesson;
    sl_learner_answers *answers;
    const char *path;       /* of the file of answers; NULL: none is kept */
    const sl_class *class_; /* not NULL: what a class answered, in place of the steps */
    bool educator, room;
    double scale; /* of the text, 1..2 */
    sl_eyes eyes;
    const char *say; /* keys, after each of which all is told in words (say.h); NULL: a window */
} sl_desk_wish;

typedef struct sl_desk {
    sl_desk_wish wish;
    sl_session session;
    sl_lenses lenses[SL_MOST_LESSON_SCENES];

    /* the run: `stop` stops were reached; on its way to the next from `from_min` */
    int stop;
    bool running;
    double now_min, from_min, to_min; /* since each arm's contact */
    Uint64 began;                     /* ticks */

    bool unsaved, leaving; /* leaving: Esc was pressed while something is unsaved */
    char message[SL_DESK_LINE];
    sl_over over;
    int scroll, scroll_most; /* pixels */

    SDL_Window *window;
    sl_text *text;
    sl_pen pen;
    sl_step_places places;
    sl_light_table light;
    sl_strip *strip[SL_MAX_ARMS];
    sl_leaf leaf;                     /* what a class answered */
    SDL_Rect choice[SL_DESK_CHOICES]; /* [n_choices]: answers as they stand now, scrolled */
    int n_choices;
    bool dirty, leave;
    int drawn; /* frames */
} sl_desk;

/* Shows the window until it is left; false with *error. *unsaved: the answers are on no disk. */
bool sl_desk_run(const sl_desk_wish *wish, SDL_Window *window, bool *unsaved, sl_error *error);

/* ---- between the parts of the desk (lesson_act.c, lesson_text.c, lesson_strips.c, ...) ---------- */

const char *sl_desk_language(const sl_desk *desk);
/* Arms, zone and scene of the strips of this step; 0 strips on a step without. */
int sl_desk_strips(const sl_desk *desk, int *scene, int *zone, const int **arm);
typedef struct sl_desk_strip {
    int scene, zone, arm;
    double minute; /* since contact, at which it is shown */
    int stop;      /* of the run: from 1; 0: at its start; -1: on the way, or of no run */
} sl_desk_strip;
/* The i-th of them: those of the run's first scene, then those of the one beside it; where there is room once
 * for the start and for each stop that was reached, so that all of them can be compared. */
sl_desk_strip sl_desk_strip_at(const sl_desk *desk, int i);
/* How often each strip hangs there. */
int sl_desk_copies(const sl_desk *desk);
double sl_desk_minute(const sl_desk *desk); /* since contact, at which they are shown */
bool sl_desk_figures(const sl_desk *desk);  /* whether their figures are told */

void sl_desk_begin(sl_desk *desk); /* the session, its page's run */
void sl_desk_key(sl_desk *desk, SDL_Keycode key);
void sl_desk_advance(sl_desk *desk); /* the run's clock */

bool sl_desk_draw(sl_desk *desk, sl_error *error);
int sl_desk_put_text(sl_desk *desk,
                     SDL_Rect area); /* from its top; returns where it ends; keeps its choices */
bool sl_desk_lay(sl_desk *desk, sl_error *error);
bool sl_desk_put_strips(sl_desk *desk, sl_error *error);
/* ---- by pointer or finger (lesson_point.c): back and on at the foot, and answers where they stand. */
int sl_desk_buttons_w(const sl_desk *desk); /* what they take of the foot's right; 0: there are none */
int sl_desk_buttons_h(const sl_desk *desk);
void sl_desk_put_buttons(const sl_desk *desk);
void sl_desk_point(sl_desk *desk, int x, int y);       /* pressed there */
SDL_Rect sl_desk_button(const sl_desk *desk, bool on); /* on, or back */
/* Predicted and found as two bars with patterns and words; returns the y below. */
int sl_desk_put_compared(const sl_desk *desk, SDL_Rect area);

#endif
