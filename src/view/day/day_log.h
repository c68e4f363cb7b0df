/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A test out of its log, and its day in a window.
 */
#ifndef SLOWLIFT_VIEW_DAY_LOG_H
#define SLOWLIFT_VIEW_DAY_LOG_H

#include <SDL.h>

#include "slowlift/error.h"
#include "view/draw/eyes.h"

typedef struct sl_day_log sl_day_log;

/* test: how its id begins; NULL: the only one. */
sl_day_log *sl_day_log_open(const char *path, const char *test, sl_error *error);
const char *sl_day_log_title(const sl_day_log *from);
void sl_day_log_close(sl_day_log *from); /* NULL is allowed */

/* Until the window is left. *lost: events that are on no disk; they were told on stderr. */
bool sl_day_log_watch(sl_day_log *from, const sl_eyes *eyes, double scale, const char *say,
                      SDL_Window *window, int *lost, sl_error *error);

#endif
