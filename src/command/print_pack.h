/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * `slowlift pack`, in the program that draws.
 */
#ifndef SLOWLIFT_PAPER_PACK_COMMAND_H
#define SLOWLIFT_PAPER_PACK_COMMAND_H

#include "command/command.h"

sl_exit sl_print_pack(int argc, char **argv);

#endif
