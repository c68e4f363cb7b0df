/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A line that is typed. Invariant: it is text that sl_text_accept() takes as one line, and its caret stands
 * between two characters as an eye counts them (a letter with its marks is one). What is typed is shown as it
 * is, never looked up in a catalogue.
 */
#ifndef SLOWLIFT_VIEW_TYPED_H
#define SLOWLIFT_VIEW_TYPED_H

#include "view/draw/pen.h"

enum { SL_TYPED_BYTES = 400 };

typedef struct sl_typed {
    char text[SL_TYPED_BYTES];
    int caret; /* bytes before it */
} sl_typed;

void sl_typed_set(sl_typed *typed, const char *text); /* the caret at its end */
/* Letters (SDL_TEXTINPUT), and keys of a line: arrows, Home, End, Backspace, Delete, Ctrl and V for what
 * another program copied, whose line ends become blanks. What finds no room is left out. False: no such
 * event. */
bool sl_typed_take(sl_typed *typed, const SDL_Event *event);
/* The caret to the place that was pressed. */
void sl_typed_point(sl_typed *typed, const sl_pen *pen, SDL_Rect area, int x);
/* In a frame, in bold letters; where nothing was typed `usual` in plain ones and quiet ink. With the keyboard
 * it has a caret, which stays in sight however long the line is. */
void sl_typed_draw(const sl_pen *pen, SDL_Rect area, const sl_typed *typed, const char *usual, bool keyboard);

#endif
