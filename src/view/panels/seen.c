/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See seen.h. The window solves the scene as the log kept it, so that its strips and the curves
 * of the page are of one scene.
 */
#include "view/panels/seen.h"

#include <stdio.h>

#include "base/memory.h"
#include "log/compare/seen_curves.h"
#include "slowlift/report.h"
#include "view/window/watch.h"

struct sl_seen_window {
    sl_compare *compare;
    sl_seen_curves *curves;
    sl_story story; /* emptied when it is watched */
};

static bool read_log(sl_seen_window *seen, sl_log *log, const char *test, sl_error *error)
{
    sl_log_test found;
    if (!sl_log_find(log, test, &found, error) ||
        !sl_compare_read(&seen->compare, log, &found, -1.0, error)) {
        return false;
    }
    seen->curves = sl_seen_curves_make(seen->compare, error);
    seen->story.scene = seen->curves != NULL ? sl_scene_copy(seen->compare->scene, error) : NULL;
    return seen->story.scene != NULL;
}

/* A log of which a part cannot be read is shown, and not in silence. */
static void tell_part(const sl_log *log)
{
    char sentence[SL_ERROR_FILE_SIZE + 3 * SL_ERROR_TEXT_SIZE];
    sl_error error = {.code = SL_OK};
    if (!sl_log_whole(log, &error)) {
        sl_error_sentence(&error, sentence, sizeof sentence);
        fprintf(stderr, "slowlift: %s\n", sentence);
    }
}

sl_seen_window *sl_seen_open(const char *path, const char *test, sl_error *error)
{
    sl_log *log = NULL;
    sl_seen_window *const seen = sl_new(1, sizeof *seen, "opening a test of the log", error);
    const bool good = seen != NULL && sl_log_open(&log, path, SL_LOG_READ, error) &&
                      read_log(seen, log, test, error) && sl_story_solve(&seen->story, error);
    if (good) {
        tell_part(log);
    }
    sl_log_close(log);
    if (!good) {
        sl_seen_close(seen);
        return NULL;
    }
    return seen;
}

void sl_seen_close(sl_seen_window *seen)
{
    if (seen == NULL) {
        return;
    }
    sl_story_free(&seen->story);
    sl_seen_curves_free(seen->curves);
    sl_compare_free(seen->compare);
    sl_free(seen);
}

const char *sl_seen_title(const sl_seen_window *seen)
{
    return seen->compare->test.title;
}

sl_story *sl_seen_story(sl_seen_window *seen)
{
    return &seen->story;
}

sl_beside_logs sl_seen_logs(const sl_seen_window *seen)
{
    return (sl_beside_logs){.seen = seen->curves};
}
