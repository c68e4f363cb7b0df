/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See file.h.
 */
#include "scene/yaml/file.h"

#include <errno.h>

#include "base/plain_file.h"
#include "scene/yaml/nearby.h"
#include "scene/yaml/node.h"

bool sl_file_read(const char *path, const char *what, char **text, size_t *length, bool *absent,
                  sl_error *error)
{
    bool none = false;
    if (sl_plain_file_read(path, what, SL_YAML_MOST, text, length, &none, error)) {
        return true;
    }
    if (absent) {
        *absent = none;
    } else if (none) {
        sl_nearby nearby = sl_nearby_begin(path);
        sl_nearby_look(&nearby, nearby.folder, "", nearby.folder, false);
        sl_nearby_refuse(&nearby, path, ENOENT, "", error);
    }
    return false;
}
