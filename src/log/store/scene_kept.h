/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A scene as the texts of all its files.
 */
#ifndef SLOWLIFT_LOG_SCENE_KEPT_H
#define SLOWLIFT_LOG_SCENE_KEPT_H

#include "slowlift/log.h"
#include "slowlift/scene.h"

enum { SL_KEPT_KIND = 16, SL_KEPT_NAME = 72, SL_KEPT_MOST = 256 };

typedef struct sl_kept_file {
    char kind[SL_KEPT_KIND], name[SL_KEPT_NAME];
    char *text;
} sl_kept_file;

typedef struct sl_keeper {
    const sl_resolver *from;
    int n;
    sl_kept_file file[SL_KEPT_MOST];
} sl_keeper;

/* The scene's own text first, then what it refers to, in the order in which it is read. The scene
 * must read. */
bool sl_keeper_read(sl_keeper *keeper /* zeroed */, const char *path, const sl_resolver *from,
                    sl_error *error);
/* Over kind, name and text of each file, each with its end. */
void sl_keeper_hash(const sl_keeper *keeper, char hash[SL_SHA256_TEXT]);
/* The same over the files that a log has of a test. */
bool sl_kept_scene_hash(sl_log *log, const char *test, char hash[SL_SHA256_TEXT], sl_error *error);
void sl_keeper_free(sl_keeper *keeper);

#endif
