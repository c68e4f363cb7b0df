/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * `slowlift --version` and `slowlift --version --all`.
 */
#ifndef SLOWLIFT_COMMAND_VERSION_H
#define SLOWLIFT_COMMAND_VERSION_H

#include <stdbool.h>

#include "command/command.h"

sl_exit sl_version(bool all);

#endif
