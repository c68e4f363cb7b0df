/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Below the ruler: when the goal is reached and when to stop, of one strip. A triangle or a
 * post where the scene itself has it, a patterned bar where eight of ten members do. Invariant:
 * no minute is written unless the bar that gives its range is drawn.
 */
#ifndef SLOWLIFT_VIEW_MARKS_H
#define SLOWLIFT_VIEW_MARKS_H

#include "slowlift/answer.h"
#include "view/draw/pen.h"

typedef struct sl_marks_look {
    SDL_Rect area; /* as wide as the ruler */
    bool words;    /* there is room for them */
    double until_min, contact_min;
    bool central;            /* marks of the scene itself may be drawn: not for a person */
    const sl_limits *limits; /* of the scene itself */
    const sl_answer *answer; /* of the ensemble; NULL: not yet */
    double label_min;        /* from contact; below 0: none */
    long members;            /* of the ensemble */
    const char *times;       /* when the mix is put on and rinsed; "": never */
} sl_marks_look;
void sl_marks_draw(const sl_pen *pen, const sl_marks_look *look);

#endif
