/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A test of the log in the window: its scene, and what was seen over what the model predicts.
 */
#ifndef SLOWLIFT_VIEW_SEEN_H
#define SLOWLIFT_VIEW_SEEN_H

#include <SDL.h>
#include <stdbool.h>

#include "slowlift/error.h"
#include "view/window/stage.h"

typedef struct sl_seen_window sl_seen_window;

/* The log is only read, and shut again. test: as sl_log_find has it. NULL: failed. */
sl_seen_window *sl_seen_open(const char *path, const char *test, sl_error *error);
void sl_seen_close(sl_seen_window *seen); /* NULL is allowed */
const char *sl_seen_title(const sl_seen_window *seen);
sl_story *sl_seen_story(sl_seen_window *seen); /* its scene, solved */
sl_beside_logs sl_seen_logs(const sl_seen_window *seen);

#endif
