/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See file.h.
 */
#include "scene/yaml/file.h"

#include "base/plain_file.h"
#include "scene/yaml/node.h"

bool sl_file_read(const char *path, const char *what, char **text, size_t *length, bool *absent,
                  sl_error *error)
{
    return sl_plain_file_read(path, what, SL_YAML_MOST, text, length, absent, error);
}
