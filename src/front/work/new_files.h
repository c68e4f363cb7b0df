/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Several files that belong together and are not there yet. Invariant: none is put over a file; all are whole
 * on the disk before the first has its name; where one cannot have it, those before it are taken away again.
 * A part that lies there already, byte for byte, stays.
 */
#ifndef SLOWLIFT_FRONT_NEW_FILES_H
#define SLOWLIFT_FRONT_NEW_FILES_H

#include "ask/ask.h"

/* Beside the scene: folders as models/ has them. */
bool sl_new_files_write(const sl_made *made, sl_error *error);

#endif
