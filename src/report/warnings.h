/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What reads well and still cannot be meant: a scene is worked out as it stands, and whoever wrote it is
 * told.
 */
#ifndef SLOWLIFT_REPORT_WARNINGS_H
#define SLOWLIFT_REPORT_WARNINGS_H

#include "slowlift/model.h"

/* One sentence in the reader's language. */
typedef void sl_warning_taker(void *self, const char *sentence);

/* False: out of memory. */
bool sl_scene_warnings(const sl_scene *scene, sl_warning_taker *take, void *self, sl_error *error);

#endif
