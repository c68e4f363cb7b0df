/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See strands.h.
 */
#include "view/strips/strands.h"

#include "slowlift/strand_log.h"

bool sl_strands_read(const char *path, const sl_scene *scene, sl_strand_record **strands, int *n,
                     sl_error *error)
{
    sl_log *log = NULL;
    const bool good =
        sl_log_open(&log, path, SL_LOG_READ, error) && sl_log_strands(log, scene, strands, n, error);
    sl_log_close(log);
    return good;
}
