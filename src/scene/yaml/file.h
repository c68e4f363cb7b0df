/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Bytes from disk, with a limit.
 */
#ifndef SLOWLIFT_SCENE_FILE_H
#define SLOWLIFT_SCENE_FILE_H

#include <stdbool.h>
#include <stddef.h>

#include "slowlift/error.h"

/* Read a whole file of at most SL_MAX_FILE_BYTES; *text is freed with sl_free. *absent
 * (may be NULL) is set when the failure is that no such file exists. `what` says what it is
 * to this call (base/inputs.h): "the scene that is read". */
bool sl_file_read(const char *path, const char *what, char **text, size_t *length, bool *absent,
                  sl_error *error);

#endif
