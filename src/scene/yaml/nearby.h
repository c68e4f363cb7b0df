/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Names that exist, near one that does not.
 */
#ifndef SLOWLIFT_SCENE_NEARBY_H
#define SLOWLIFT_SCENE_NEARBY_H

#include <stdbool.h>
#include <stddef.h>

#include "scene/yaml/phrase.h"

enum { SL_NEARBY_NAME = 100, SL_NEARBY_MOST = 3 };

typedef struct sl_nearby {
    char folder[SL_NEARBY_NAME], stem[SL_NEARBY_LETTERS + 1]; /* of what was typed: "scenes/", "eight-arm" */
    int n;
    struct {
        int slips;
        char name[SL_NEARBY_NAME]; /* as it may be typed */
    } best[SL_NEARBY_MOST];        /* the nearest first */
} sl_nearby;

sl_nearby sl_nearby_begin(const char *path);
/* The names in `folder` that end in `ending` ("": all); shown with `before` in front and, when `bare`,
 * without the ending. A folder that is not there has none. */
void sl_nearby_look(sl_nearby *nearby, const char *folder, const char *ending, const char *before, bool bare);
/* What would be right: what is near, and `hint`, a clause of its own ("": none). */
void sl_nearby_say(const sl_nearby *nearby, const char *hint, char *text, size_t size);
/* SL_ERR_CANNOT_READ of `path` for `reason` (errno), with that; always false. */
bool sl_nearby_refuse(const sl_nearby *nearby, const char *path, int reason, const char *hint,
                      sl_error *error);

#endif
