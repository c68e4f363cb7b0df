/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Bytes from disk. One byte more than the limit is asked for, so that a file that grows
 * while it is read is still refused.
 */
#include "scene/yaml/file.h"

#include <errno.h>
#include <stdio.h>
#include <string.h>

#include "base/memory.h"
#include "base/plain_file.h"
#include "scene/yaml/node.h"

bool sl_file_read(const char *path, const char *what, char **text, size_t *length, bool *absent,
                  sl_error *error)
{
    static const sl_file_most most = {SL_MAX_FILE_BYTES, "1 MiB"};
    FILE *const file = sl_plain_file_open(path, what, most, absent, error);
    if (!file) {
        return false;
    }
    char *bytes = NULL;
    size_t room = 0, used = 0;
    bool good = true, more = true;
    while (good && more && used <= SL_MAX_FILE_BYTES) {
        good = sl_grow(&bytes, &room, used + 4096, 1, "reading a file", error);
        if (!good) {
            break;
        }
        const size_t part = fread(bytes + used, 1, room - used, file);
        used += part;
        more = part > 0;
        if (ferror(file)) {
            good = sl_fail_at(error, SL_ERR_CANNOT_READ, path, 0, 0, strerror(errno), "");
        }
    }
    fclose(file);
    if (good && used > SL_MAX_FILE_BYTES) {
        good = sl_fail_at(error, SL_ERR_TOO_LARGE, path, 0, 0, "this file is too large", most.words);
    }
    if (!good) {
        sl_free(bytes);
        return false;
    }
    *text = bytes;
    *length = used;
    return true;
}
