/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Where the type comes from: fontconfig is asked for Inter, then DejaVu Sans, then
 * whatever it has for "sans".
 */
#ifndef SLOWLIFT_VIEW_FACE_H
#define SLOWLIFT_VIEW_FACE_H

#include <stdbool.h>

#include "slowlift/error.h"

enum { SL_FACE_PATH_SIZE = 1024 };

typedef struct sl_face {
    char regular[SL_FACE_PATH_SIZE];
    char bold[SL_FACE_PATH_SIZE];
} sl_face;

/* Fails with SL_ERR_MISSING_PART when no face was found. */
bool sl_face_find(sl_face *face, sl_error *error);

#endif
